/* SPDX-License-Identifier: MIT */
/*
 * What is said of bad profiles: each case of tests/data/bad-profiles.txt is
 * one file read over the sound ones of tests/data/profiles; and of bad price
 * lists: each of tests/data/bad-lists.txt is one for their shop lowmere.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/price_import.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"

#define CASES "tests/data/bad-profiles.txt"
#define LISTS "tests/data/bad-lists.txt"

struct bad_case {
    struct tc_text profile;
    struct tc_text faults; /* as they should be reported */
};

/* Reads up to the next "%%"; false at the end of the file. */
static bool read_case(FILE *file, const char *name, struct bad_case *c)
{
    char line[1200];
    bool any = false;
    tc_text_clear(&c->profile);
    tc_text_clear(&c->faults);
    while (fgets(line, sizeof line, file) && strcmp(line, "%%\n") != 0) {
        any = true;
        if (line[0] == '!')
            tc_text_addf(&c->faults, "%s:%s", name, line + 2);
        else
            tc_text_add(&c->profile, line);
    }
    return any;
}

/* An item with a fault is left out, and the rest works. */
static void check_stock(const struct tc_stock *stock)
{
    assert_null(tc_stock_tank(stock, "t"));
    assert_null(tc_stock_setup(stock, "k"));
    assert_null(tc_stock_region(stock, "r"));
    assert_null(tc_stock_sale(stock, "s"));
    assert_null(tc_stock_tariff(stock, "t"));
    assert_null(tc_stock_plan(stock, "p"));
    assert_null(tc_stock_part(stock, TC_SLOT_HEATER, "h"));
    assert_non_null(tc_stock_plan(stock, "spring"));
    assert_non_null(tc_stock_region(stock, "highfell"));
}

static size_t run_case(const struct bad_case *c)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    tc_stock_start(&stock);
    assert_int_equal(tc_stock_read_folder(&stock, "tests/data/profiles", false, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    const char *profile = tc_text_string(&c->profile);
    assert_int_equal(tc_stock_read_bytes(&stock, "x.ini", profile, strlen(profile), &faults), TC_OK);
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    tc_faults_write(&faults, &text);
    if (strcmp(tc_text_string(&text), tc_text_string(&c->faults)) != 0)
        print_error("%s", profile);
    assert_string_equal(tc_text_string(&text), tc_text_string(&c->faults));
    check_stock(&stock);
    size_t errors = tc_faults_errors(&faults);
    tc_text_free(&text);
    tc_faults_free(&faults);
    tc_stock_free(&stock);
    return errors;
}

/* Runs all cases of a file; returns how many faults were said. */
static size_t run_all(const char *path, const char *name, size_t (*run)(const struct bad_case *c))
{
    struct bad_case c = {TC_TEXT_EMPTY, TC_TEXT_EMPTY};
    size_t said = 0;
    int count = 0;
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    assert_true(read_case(file, name, &c)); /* what the file says of itself */
    for (; read_case(file, name, &c); count++)
        said += run(&c);
    fclose(file);
    tc_text_free(&c.profile);
    tc_text_free(&c.faults);
    print_message("%s: %d, %zu faults\n", path, count, said);
    return said;
}

static void every_fault_is_said(void **state)
{
    (void)state;
    assert_true(run_all(CASES, "x.ini", run_case) >= 280);
}

/* ------------------------------------------------------------------------ price lists */

static struct tc_stock sound;

/* Nothing of a list with a fault counts. */
static size_t run_list(const struct bad_case *c)
{
    struct tc_price_import import;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    const char *list = tc_text_string(&c->profile);
    assert_int_equal(tc_price_import_read(&sound, tc_stock_shop(&sound, "lowmere"), "x.csv", list,
                                          strlen(list), &import, &faults),
                     TC_SYNTAX);
    tc_faults_sort(&faults);
    tc_faults_write(&faults, &text);
    if (strcmp(tc_text_string(&text), tc_text_string(&c->faults)) != 0)
        print_error("%s", list);
    assert_string_equal(tc_text_string(&text), tc_text_string(&c->faults));
    size_t errors = tc_faults_errors(&faults);
    tc_price_import_free(&import);
    tc_text_free(&text);
    tc_faults_free(&faults);
    return errors;
}

static void every_fault_of_a_list_is_said(void **state)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    (void)state;
    tc_stock_start(&sound);
    assert_int_equal(tc_stock_read_folder(&sound, "tests/data/profiles", false, &faults), TC_OK);
    assert_int_equal(tc_stock_finish(&sound, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    assert_true(run_all(LISTS, "x.csv", run_list) >= 40);
    tc_stock_free(&sound);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_fault_is_said),
        cmocka_unit_test(every_fault_of_a_list_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
