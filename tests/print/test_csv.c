/* SPDX-License-Identifier: MIT */
/* CSV as RFC 4180 has it; tests/print/test_formats.sh reads the golden files with an independent reader. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "support/printed.h"

static const struct tc_print_options options = {.width = 80};

static void test_golden(void **state)
{
    (void)state;
    assert_samples_golden(TC_PRINT_CSV, &options, ".csv");
}

/* Prints a sheet of one row, whose only cell holds the text, and compares that row's record. */
static void check_text(const char *text, const char *wanted)
{
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "one", 1);
    tc_sheet_row(&sheet, TC_ROW_LINE, "", "");
    tc_sheet_text(&sheet, 0, text);
    if (text[0] == '\t' || text[0] == '\r' || text[0] == '\n')
        sheet.rows[0].cells[0].text = text; /* as if the sheet had not cleaned it */
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_CSV, &options), TC_OK);
    const char *record = strstr(tc_text_string(&out), "\r\nline,,,,,");
    assert_non_null(record);
    assert_string_equal(record + strlen("\r\nline,,,,,"), wanted);
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

static void test_quoting(void **state)
{
    (void)state;
    check_text("plain", "plain\r\n");
    check_text("", "\r\n");
    check_text("a,b", "\"a,b\"\r\n");
    check_text("say \"hi\"", "\"say \"\"hi\"\"\"\r\n");
    check_text(" led by a blank", "\" led by a blank\"\r\n");
    check_text("m² – ½", "m² – ½\r\n");
}

/* What spreadsheets run: =, +, -, @, control characters, and the wide forms of the signs. */
static void test_no_formulas(void **state)
{
    (void)state;
    check_text("=1+1", "'=1+1\r\n");
    check_text("+1", "'+1\r\n");
    check_text("-1", "'-1\r\n");
    check_text("@SUM(A1)", "'@SUM(A1)\r\n");
    check_text("=A1,\"x\"", "\"'=A1,\"\"x\"\"\"\r\n");
    check_text("\t=1", "'\t=1\r\n");
    check_text("\r=1", "\"'\r=1\"\r\n");
    check_text("\n=1", "\"'\n=1\"\r\n");
    check_text("＝1", "'＝1\r\n");
    check_text("＋1", "'＋1\r\n");
    check_text("－1", "'－1\r\n");
    check_text("＠a", "'＠a\r\n");
    check_text("1=1", "1=1\r\n");
    check_text("– 1", "– 1\r\n");
}

/* Figures stay figures: no apostrophe before a negative one, no rounding, no gaps. */
static void test_figures(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "one", 3);
    tc_sheet_row(&sheet, TC_ROW_TOTAL, "figures", "");
    tc_sheet_number(&sheet, 0, -1.0 / 3, 1);
    tc_sheet_money(&sheet, 1, -123456789, (struct tc_currency){"USD", 2});
    tc_sheet_number(&sheet, 2, 1234567.25, 0);
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_CSV, &options), TC_OK);
    assert_non_null(
        strstr(tc_text_string(&out), "\r\ntotal,,figures,,USD,-0.333333333333,-1234567.89,1234567.25\r\n"));
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

static void test_field_names(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_bill, TC_PRINT_CSV, &options);
    const char *wanted =
        "kind,group,label,unit,currency,29-high (sale lowmere-spring),29-high (sale lowmere-spring) "
        "marks,36-breeder (price typed),36-breeder (price typed) marks,48-shallow (special "
        "order),48-shallow (special order) marks\r\n";
    assert_memory_equal(tc_text_string(&out), wanted, strlen(wanted));
    tc_text_clear(&out);
    print_sample(&out, sample_odd, TC_PRINT_CSV, &options); /* equal heads are numbered */
    wanted = "kind,group,label,unit,currency,'=SUM(A1) (µ – “x”),same,same #2\r\n";
    assert_memory_equal(tc_text_string(&out), wanted, strlen(wanted));
    tc_text_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),      cmocka_unit_test(test_quoting),
        cmocka_unit_test(test_no_formulas), cmocka_unit_test(test_figures),
        cmocka_unit_test(test_field_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
