/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "print/cell.h"
#include "print/width.h"

static const struct tc_currency usd = {"USD", 2}, eur = {"EUR", 2}, jpy = {"JPY", 0};

static void check_text(struct tc_cell cell, bool group, const char *wanted)
{
    char buffer[TC_NUMBER_SIZE];
    assert_string_equal(tc_cell_text(buffer, &cell, group), wanted);
}

static void test_texts(void **state)
{
    (void)state;
    check_text((struct tc_cell){.kind = TC_CELL_EMPTY}, true, "");
    check_text((struct tc_cell){.kind = TC_CELL_MONEY, .money = 123456, .currency = usd}, true, "1 234.56");
    check_text((struct tc_cell){.kind = TC_CELL_MONEY, .money = 123456, .currency = usd}, false, "1234.56");
    check_text((struct tc_cell){.kind = TC_CELL_MONEY, .money = 123456, .currency = jpy}, true, "123 456");
    check_text((struct tc_cell){.kind = TC_CELL_MONEY, .money = -7, .currency = usd}, true, "-0.07");
    check_text((struct tc_cell){.kind = TC_CELL_NUMBER, .number = 12.345, .decimals = 1}, true, "12.3");
    check_text((struct tc_cell){.kind = TC_CELL_NUMBER, .number = NAN, .decimals = 1}, true, "-");
    check_text((struct tc_cell){.kind = TC_CELL_NUMBER, .number = INFINITY}, true, "-");
    check_text((struct tc_cell){.kind = TC_CELL_TEXT, .text = "met"}, true, "met");
    check_text((struct tc_cell){.kind = TC_CELL_TEXT}, true, "");
    check_text((struct tc_cell){.kind = TC_CELL_MISSING, .text = "none fits"}, true, "none fits");
    check_text((struct tc_cell){.kind = TC_CELL_MISSING, .text = ""}, true, "missing");
    check_text((struct tc_cell){.kind = TC_CELL_MISSING}, true, "missing");
}

/* Each mark has a sign of its own, one column wide, in either form, and a meaning that holds its word. */
static void test_marks(void **state)
{
    (void)state;
    unsigned all = 0;
    for (size_t i = 0; tc_mark_at(i); i++) {
        unsigned mark = tc_mark_at(i);
        assert_int_equal(mark & (mark - 1), 0);
        assert_int_equal(all & mark, 0);
        all |= mark;
        assert_int_equal(tc_width(tc_mark_sign(mark, false)), 1);
        assert_int_equal(strlen(tc_mark_sign(mark, true)), 1);
        assert_non_null(strstr(tc_mark_meaning(mark), tc_mark_word((enum tc_mark)mark)));
        for (size_t k = 0; k < i; k++) {
            assert_string_not_equal(tc_mark_sign(mark, false), tc_mark_sign(tc_mark_at(k), false));
            assert_string_not_equal(tc_mark_sign(mark, true), tc_mark_sign(tc_mark_at(k), true));
        }
    }
    assert_int_equal(all, TC_MARK_BEST | TC_MARK_TYPED | TC_MARK_SHORT | TC_MARK_INCOMPLETE | TC_MARK_PINNED |
                              TC_MARK_OVER);
    assert_int_equal(tc_marks_count(all), 6);
    assert_int_equal(tc_marks_count(0), 0);
    assert_string_equal(tc_mark_sign(0, false), "");
    assert_string_equal(tc_mark_meaning(64), "");
}

/* Two columns, three rows of money; the caller frees. */
static void make(struct tc_sheet *sheet, const struct tc_currency codes[3][2])
{
    tc_sheet_start(sheet, "codes", 2);
    for (size_t r = 0; r < 3; r++) {
        tc_sheet_row(sheet, TC_ROW_LINE, "money", "");
        for (size_t c = 0; c < 2; c++)
            if (codes[r][c].code[0])
                tc_sheet_money(sheet, c, 100, codes[r][c]);
    }
    tc_sheet_row(sheet, TC_ROW_GROUP, "nothing", "");
}

static void test_one_currency(void **state)
{
    (void)state;
    const struct tc_currency all[3][2] = {{usd, usd}, {{"", 0}, usd}, {usd, {"", 0}}};
    struct tc_sheet sheet;
    struct tc_codes codes;
    make(&sheet, all);
    assert_int_equal(tc_codes_find(&codes, &sheet), TC_OK);
    assert_string_equal(codes.whole, "USD");
    for (size_t r = 0; r < 4; r++)
        assert_string_equal(codes.rows[r], "");
    assert_string_equal(codes.columns[0], "");
    assert_string_equal(tc_codes_of_cell(&codes, 0, 0), "");
    assert_string_equal(tc_code_of_row(&sheet, 1), "USD");
    assert_null(tc_code_of_row(&sheet, 3));
    tc_codes_free(&codes);
    tc_sheet_free(&sheet);
}

static void test_a_currency_a_column(void **state)
{
    (void)state;
    const struct tc_currency all[3][2] = {{usd, eur}, {usd, eur}, {usd, usd}};
    struct tc_sheet sheet;
    struct tc_codes codes;
    make(&sheet, all);
    assert_int_equal(tc_codes_find(&codes, &sheet), TC_OK);
    assert_string_equal(codes.whole, "");
    assert_string_equal(codes.columns[0], "USD");
    assert_string_equal(codes.columns[1], "EUR");
    assert_string_equal(codes.rows[0], "");
    assert_string_equal(codes.rows[2], "USD"); /* this row is in one money, which is not its column's */
    assert_string_equal(tc_codes_of_cell(&codes, 0, 1), "");
    assert_string_equal(tc_codes_of_cell(&codes, 2, 1), "");
    assert_string_equal(tc_code_of_row(&sheet, 0), "");
    tc_codes_free(&codes);
    tc_sheet_free(&sheet);
}

static void test_a_currency_a_cell(void **state)
{
    (void)state;
    const struct tc_currency all[3][2] = {{usd, eur}, {usd, eur}, {jpy, eur}};
    struct tc_sheet sheet;
    struct tc_codes codes;
    make(&sheet, all);
    assert_int_equal(tc_codes_find(&codes, &sheet), TC_OK);
    assert_string_equal(codes.rows[2], "");
    assert_string_equal(tc_codes_of_cell(&codes, 2, 0), "JPY");
    assert_string_equal(tc_codes_of_cell(&codes, 2, 1), "");
    tc_codes_free(&codes);
    tc_sheet_free(&sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_texts),
        cmocka_unit_test(test_marks),
        cmocka_unit_test(test_one_currency),
        cmocka_unit_test(test_a_currency_a_column),
        cmocka_unit_test(test_a_currency_a_cell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
