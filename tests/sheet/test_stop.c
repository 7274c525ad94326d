/* SPDX-License-Identifier: MIT */
/* Work that is stopped at each place where it asks: what was known by then is shown, and said to be a part.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <limits.h>
#include <string.h>

#include "print/print.h"
#include "sheet/answer.h"
#include "sheet/question.h"
#include "support/made_wall_study.h"

/* Questions answered before the stop. */
struct patience {
    int left;
    bool stopped;
};

static bool wait(void *context, double done)
{
    struct patience *patience = context;
    assert_true(done >= 0 && done <= 1);
    patience->stopped = patience->stopped || patience->left-- <= 0;
    return !patience->stopped;
}

static enum tc_status answer(const struct tc_question *question, const struct tc_study *study, bool partial,
                             struct patience *patience, struct tc_sheet *sheet)
{
    const struct tc_ask ask = {.draws = 3000,
                               .threads = 1,
                               .vary = strcmp(question->name, "whatif") == 0 ? "years=1..12" : NULL,
                               .go_on = patience ? wait : NULL,
                               .context = patience,
                               .partial = partial};
    return tc_answer_make(question, study, &ask, sheet);
}

static bool says_stopped(const struct tc_sheet *sheet)
{
    for (size_t i = 0; i < sheet->note_count; i++)
        if (strstr(sheet->notes[i].text, "topped"))
            return true;
    return false;
}

static void assert_prints(const struct tc_sheet *sheet)
{
    for (int format = 0; format <= TC_PRINT_HTML; format++) {
        struct tc_text text = TC_TEXT_EMPTY;
        assert_int_equal(
            tc_print(&text, sheet, (enum tc_print_format)format, &(struct tc_print_options){.width = 80}),
            TC_OK);
        assert_true(text.length > 0);
        tc_text_free(&text);
    }
}

/* How often it asks whether to go on, to its end. */
static int asks_of(const struct tc_question *question, const struct tc_study *study)
{
    struct patience patience = {INT_MAX, false};
    struct tc_sheet sheet;
    enum tc_status status = answer(question, study, true, &patience, &sheet);
    assert_true(status == TC_OK || status == TC_SYNTAX); /* the plan has no wall */
    assert_false(says_stopped(&sheet));
    tc_sheet_free(&sheet);
    return INT_MAX - patience.left;
}

/* Stops a question after so many steps; whether it showed a part. */
static bool shows_part(const struct tc_question *question, const struct tc_study *study, int steps)
{
    struct patience patience = {steps, false};
    struct tc_sheet sheet;
    enum tc_status status = answer(question, study, true, &patience, &sheet);
    assert_true(patience.stopped && (status == TC_OK || status == TC_STOPPED));
    if (status == TC_OK)
        assert_prints(&sheet);
    tc_sheet_free(&sheet);
    return status == TC_OK;
}

/* Stops a question at the first of its steps, at the last and in between; whether it ever showed a part. */
static bool stop_everywhere(const struct tc_question *question, const struct tc_study *study)
{
    bool known = false;
    int asks = asks_of(question, study);
    for (int i = 0; asks > 0 && i <= 5; i++) {
        int steps = (int)((long)i * (asks - 1) / 5);
        bool shown = shows_part(question, study, steps);
        assert_true(shown || !known); /* once something is known, more is known later */
        known = shown;
    }
    if (asks > 0) { /* where a part is of no use, none is made */
        struct patience patience = {asks - 1, false};
        struct tc_sheet sheet;
        assert_int_equal(answer(question, study, false, &patience, &sheet), TC_STOPPED);
        tc_sheet_free(&sheet);
    }
    return known;
}

static void each_question_shows_what_is_known(void **state)
{
    static struct made made;
    static const char *const in_parts[] = {"places", "whatif",
                                           "doubts"}; /* the shortlist's is one step here */
    const struct tc_plan *plan = tc_stock_plan(*state, "three-places");
    made_study(&made, state, plan, made_today);
    for (size_t q = 0; tc_question_at(q); q++) {
        const struct tc_question *question = tc_question_at(q);
        bool known = !question->bare && stop_everywhere(question, &made.study);
        for (size_t i = 0; i < sizeof in_parts / sizeof in_parts[0]; i++)
            if (strcmp(question->name, in_parts[i]) == 0)
                assert_true(known);
    }
    made_free(&made);
}

/* Fails unless each row of the part is one of the whole, with the same figures in its columns. */
static void assert_part_of(const struct tc_sheet *part, const struct tc_sheet *whole)
{
    assert_true(part->column_count <= whole->column_count && part->row_count <= whole->row_count);
    for (size_t c = 0; c < part->column_count; c++)
        assert_string_equal(part->columns[c].head, whole->columns[c].head);
    for (size_t r = 0; r < part->row_count; r++) {
        const struct tc_row *row = &part->rows[r], *same = &whole->rows[r];
        assert_string_equal(row->label, same->label);
        for (size_t c = 0; row->cells && c < part->column_count; c++) {
            assert_int_equal(row->cells[c].kind, same->cells[c].kind);
            if (row->cells[c].kind == TC_CELL_MONEY)
                assert_int_equal(row->cells[c].money, same->cells[c].money);
        }
    }
}

/* Two steps in, of the places there are two columns and of the range there are three rows. */
static void a_part_has_the_figures_of_the_whole(void **state)
{
    static struct made made;
    static const struct {
        const char *name;
        size_t columns, rows; /* 0: all */
    } cases[] = {{"places", 2, 0}, {"whatif", 0, 1 + 3}};
    made_study(&made, state, tc_stock_plan(*state, "three-places"), made_today);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct tc_sheet part, whole;
        struct patience patience = {2, false};
        const struct tc_question *question = tc_question_find(cases[i].name);
        assert_int_equal(answer(question, &made.study, false, NULL, &whole), TC_OK);
        assert_int_equal(answer(question, &made.study, true, &patience, &part), TC_OK);
        assert_part_of(&part, &whole);
        assert_true(cases[i].columns == 0 ||
                    (part.column_count == cases[i].columns && whole.column_count > part.column_count));
        assert_true(cases[i].rows == 0 ||
                    (part.row_count == cases[i].rows && whole.row_count > part.row_count));
        assert_true(says_stopped(&part));
        tc_sheet_free(&part);
        tc_sheet_free(&whole);
    }
    made_free(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_question_shows_what_is_known),
        cmocka_unit_test(a_part_has_the_figures_of_the_whole),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
