/* SPDX-License-Identifier: MIT */
/* Every allocation on the way from a sheet to its output fails once: it is reported, and nothing leaks. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "print/print.h"
#include "support/failing_malloc.h"
#include "support/sample_sheets.h"

/* Fails the n-th allocation of a printout, for each n; returns how many there were. */
static long fail_each(const struct tc_sheet *sheet, enum tc_print_format format,
                      const struct tc_print_options *options, bool lasting)
{
    for (long n = 0;; n++) {
        struct tc_text out = TC_TEXT_EMPTY;
        failing_malloc_start(n, lasting);
        enum tc_status status = tc_print(&out, sheet, format, options);
        bool failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
        tc_text_free(&out);
        if (!failed)
            return n;
    }
}

static void test_each_allocation_fails(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        struct tc_sheet sheet;
        samples[i].make(&sheet);
        for (size_t f = 0; tc_print_format_name(f); f++) {
            enum tc_print_format format = (enum tc_print_format)f;
            assert_true(fail_each(&sheet, format, &(struct tc_print_options){.width = 80}, false) > 1);
            assert_true(
                fail_each(&sheet, format, &(struct tc_print_options){.width = 40, .ascii = true}, true) > 1);
        }
        tc_sheet_free(&sheet);
    }
}

/* The same for several on one page. */
static void test_each_allocation_of_a_page_fails(void **state)
{
    struct tc_sheet sheets[2];
    bool failed = true;
    (void)state;
    sample_bill(&sheets[0]);
    sample_doubts(&sheets[1]);
    for (long n = 0; failed; n++) {
        struct tc_text out = TC_TEXT_EMPTY;
        failing_malloc_start(n, n % 2 == 0);
        enum tc_status status = tc_print_several(&out, "Title", sheets, 2, TC_PRINT_HTML,
                                                 &(struct tc_print_options){.width = 80});
        failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
        tc_text_free(&out);
    }
    tc_sheet_free(&sheets[0]);
    tc_sheet_free(&sheets[1]);
}

/* A sheet that is itself cut short is not printed. */
static void test_failed_sheet(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        for (long n = 0;; n++) {
            struct tc_sheet sheet;
            failing_malloc_start(n, false);
            samples[i].make(&sheet);
            bool failed = failing_malloc_stop();
            struct tc_text out = TC_TEXT_EMPTY;
            assert_int_equal(sheet.failed, failed);
            assert_int_equal(tc_print(&out, &sheet, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80}),
                             failed ? TC_NO_MEMORY : TC_OK);
            tc_text_free(&out);
            tc_sheet_free(&sheet);
            if (!failed)
                break;
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_allocation_fails),
        cmocka_unit_test(test_each_allocation_of_a_page_fails),
        cmocka_unit_test(test_failed_sheet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
