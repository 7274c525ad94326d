/* SPDX-License-Identifier: MIT */
/* Lengths as the trade writes them: whole inches and eighths, beside GNU units and a table made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "print/cell.h"
#include "sheet/phrase.h"
#include "support/near.h"
#include "support/need.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

static const char *const eighths[] = {"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"};

/* By hand, an inch being 25.4 mm exactly (NIST SP 811, B.8): 60 cm are 23.622 in, and 0.622 × 8 is nearly 5.
 */
static void lengths_are_told_to_the_eighth(void **state)
{
    (void)state;
    static const struct {
        double mm;
        const char *us, *metric;
    } rows[] = {
        {609.6, "24 in", "61 cm"},
        {615.95, "24¼ in", "61.6 cm"},
        {600, "23⅝ in", "60 cm"},
        {800, "31½ in", "80 cm"},
        {1000, "39⅜ in", "100 cm"},
        {1200, "47¼ in", "120 cm"},
        {300, "11¾ in", "30 cm"},
        {350, "13¾ in", "35 cm"},
        {450, "17¾ in", "45 cm"},
        {3, "⅛ in", "0.3 cm"},
        {1, "0 in", "0.1 cm"},
        {25.3, "1 in", "2.5 cm"},
        {-615.95, "-24¼ in", "-61.6 cm"},
        {-1, "0 in", "-0.1 cm"},
        {31750, "1 250 in", "3 175 cm"},
    };
    char words[TC_WORDS_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++) {
        assert_string_equal(tc_phrase_length(words, rows[i].mm / 1000, TC_US), rows[i].us);
        assert_string_equal(tc_phrase_length(words, rows[i].mm / 1000, TC_METRIC), rows[i].metric);
    }
    assert_string_equal(tc_phrase_size(words, 0.61595, 0.3175, 0.42545, TC_US), "24¼ × 12½ × 16¾ in");
}

static double read_eighths(const char *text)
{
    char *rest;
    double value = 8 * (double)strtol(text, &rest, 10);
    for (size_t i = 1; i < LENGTH(eighths); i++)
        if (strncmp(rest, eighths[i], strlen(eighths[i])) == 0)
            value += (double)i;
    return value;
}

static void every_length_is_within_half_an_eighth_of_gnu_units(void **state)
{
    (void)state;
    skip_without(system("units --version 2>/dev/null | grep -q GNU") == 0, "GNU units");
    char path[] = "/tmp/tankcost-eighths.XXXXXX", command[128], words[TC_WORDS_SIZE];
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *questions = fdopen(fd, "w");
    assert_non_null(questions);
    for (int mm = 1; mm < 2600; mm += 7)
        fprintf(questions, "%d mm\n1|8 in\n", mm);
    assert_int_equal(fclose(questions), 0);
    snprintf(command, sizeof command, "units --quiet --terse --one-line -o %%.17g <%s", path);
    FILE *answers = popen(command, "r");
    assert_non_null(answers);
    for (int mm = 1; mm < 2600; mm += 7) {
        double theirs = NAN;
        assert_int_equal(fscanf(answers, "%lf", &theirs), 1);
        double ours = read_eighths(tc_phrase_length(words, mm / 1000.0, TC_US));
        assert_near(ours, theirs, 0.5 + 1e-9);
    }
    assert_int_equal(pclose(answers), 0);
    unlink(path);
}

/* Figures of a column stand with the fraction where others have their point. */
static void a_cell_of_eighths_reads_as_the_sentence_does(void **state)
{
    (void)state;
    static const struct {
        double inches;
        const char *text, *ascii;
        int whole, whole_ascii;
    } rows[] = {
        {23.622, "23⅝", "23 5/8", 2, 2},
        {0.75, "¾", "3/4", 0, 0},
        {24, "24", "24", 2, 2},
        {-0.5, "-½", "-1/2", 1, 1},
        {1250.5, "1 250½", "1 250 1/2", 5, 5},
    };
    char buffer[TC_NUMBER_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++) {
        struct tc_cell cell = {.kind = TC_CELL_NUMBER, .number = rows[i].inches, .decimals = TC_EIGHTHS};
        assert_string_equal(tc_cell_text(buffer, &cell, true), rows[i].text);
        assert_int_equal(tc_figure_whole(buffer), rows[i].whole);
        cell.decimals = TC_EIGHTHS_ASCII;
        assert_string_equal(tc_cell_text(buffer, &cell, true), rows[i].ascii);
        assert_int_equal(tc_figure_whole(buffer), rows[i].whole_ascii);
    }
    assert_int_equal(tc_figure_whole("1 234.50"), 5);
    assert_int_equal(tc_figure_whole("-"), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_are_told_to_the_eighth),
        cmocka_unit_test(every_length_is_within_half_an_eighth_of_gnu_units),
        cmocka_unit_test(a_cell_of_eighths_reads_as_the_sentence_does),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
