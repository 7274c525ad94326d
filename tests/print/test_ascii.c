/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "print/ascii.h"
#include "support/sample_sheets.h"

static void check(const char *text, const char *wanted)
{
    struct tc_text out = TC_TEXT_EMPTY;
    tc_ascii_add(&out, text);
    assert_string_equal(tc_text_string(&out), wanted);
    tc_text_free(&out);
}

static void test_signs(void **state)
{
    (void)state;
    check("plain ~ text", "plain ~ text");
    check("m² m³ cm⁴", "m2 m3 cm4");
    check("30 × 12 – 14 ÷ 2", "30 x 12 - 14 / 2");
    check("200 µmol μmol", "200 umol umol");
    check("25 °C, 77 °F, 45°", "25 C, 77 F, 45 deg");
    check("setup a · W/(m·K)", "setup a - W/(m.K)");
    check("“so” ‘it’ … ≤ ≥ ≈ ±", "\"so\" 'it' ... <= >= ~ +-");
    check("12\xC2\xA0€ £ ½", "12 EUR GBP 1/2");
    check("Größe, Ærø, naïve, Łódź, ſ", "Grosse, AEro, naive, Lodz, s");
    check("水槽", "??");
    check("e\xCC\x81", "e");        /* a combining accent goes without a trace */
    check("\xFF\xC3", "??");        /* bytes of no character */
    check("\xF0\x9F\x90\x9F", "?"); /* a fish */
}

/* What is found by binary search must be in order: every sign of the table that is written here differs. */
static void test_every_letter(void **state)
{
    (void)state;
    for (unsigned code = 0xA0; code < 0x2300; code++) {
        char text[4] = {0};
        struct tc_text out = TC_TEXT_EMPTY;
        if (code < 0x800) {
            text[0] = (char)(0xC0 | code >> 6);
            text[1] = (char)(0x80 | (code & 0x3F));
        } else {
            text[0] = (char)(0xE0 | code >> 12);
            text[1] = (char)(0x80 | (code >> 6 & 0x3F));
            text[2] = (char)(0x80 | (code & 0x3F));
        }
        tc_ascii_add(&out, text);
        for (size_t i = 0; i < out.length; i++)
            assert_in_range(out.data[i], 0x20, 0x7E);
        if (code >= 0xC0 && code < 0x180) /* no letter of Latin-1 and Extended-A is lost */
            assert_string_not_equal(tc_text_string(&out), "?");
        tc_text_free(&out);
    }
}

static void assert_same_chart(const struct tc_chart *copy, const struct tc_chart *chart)
{
    assert_int_equal(copy->kind, chart->kind);
    assert_int_equal(copy->point_count, chart->point_count);
    assert_int_equal(copy->series_count, chart->series_count);
    assert_int_equal(copy->decimals, chart->decimals);
    assert_memory_equal(copy->x, chart->x, chart->point_count * sizeof *chart->x);
    for (size_t s = 0; s < chart->series_count; s++)
        assert_memory_equal(copy->series[s].values, chart->series[s].values,
                            chart->point_count * sizeof *chart->x);
}

static void test_sheets_are_whole(void **state)
{
    (void)state;
    for (size_t k = 0; k < sample_count; k++) {
        struct tc_sheet sheet, copy;
        samples[k].make(&sheet);
        assert_int_equal(tc_ascii_sheet(&copy, &sheet), TC_OK);
        assert_string_equal(copy.name, sheet.name);
        assert_int_equal(copy.column_count, sheet.column_count);
        assert_int_equal(copy.row_count, sheet.row_count);
        assert_int_equal(copy.note_count, sheet.note_count);
        assert_int_equal(copy.chart_count, sheet.chart_count);
        for (size_t r = 0; r < sheet.row_count; r++) {
            assert_int_equal(copy.rows[r].kind, sheet.rows[r].kind);
            assert_int_equal(copy.rows[r].cells != NULL, sheet.rows[r].cells != NULL);
            for (size_t c = 0; c < sheet.column_count && sheet.rows[r].cells; c++) {
                const struct tc_cell *from = &sheet.rows[r].cells[c], *to = &copy.rows[r].cells[c];
                assert_int_equal(to->kind, from->kind);
                assert_int_equal(to->marks, from->marks);
                assert_int_equal(to->money, from->money);
                assert_int_equal(to->edit != NULL, from->edit != NULL);
            }
        }
        for (size_t i = 0; i < sheet.chart_count; i++)
            assert_same_chart(&copy.charts[i], &sheet.charts[i]);
        assert_int_equal(copy.drawing != NULL, sheet.drawing != NULL);
        if (sheet.drawing)
            assert_int_equal(copy.drawing->box_count, sheet.drawing->box_count);
        tc_sheet_free(&sheet); /* the copy stands on its own */
        for (const char *p = copy.title; *p; p++)
            assert_in_range(*p, 0x20, 0x7E);
        tc_sheet_free(&copy);
    }
}

/* A path leads back to the plan: it stays as it is even where names are not ASCII. */
static void test_paths_stay(void **state)
{
    (void)state;
    struct tc_sheet sheet, copy;
    tc_sheet_start(&sheet, "bill", 1);
    tc_sheet_row(&sheet, TC_ROW_LINE, "Größe", "");
    tc_sheet_edit(&sheet, 0, "candidate Größe/price");
    assert_int_equal(tc_ascii_sheet(&copy, &sheet), TC_OK);
    assert_string_equal(copy.rows[0].label, "Grosse");
    assert_string_equal(copy.rows[0].cells[0].edit, "candidate Größe/price");
    tc_sheet_free(&sheet);
    tc_sheet_free(&copy);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_signs),
        cmocka_unit_test(test_every_letter),
        cmocka_unit_test(test_sheets_are_whole),
        cmocka_unit_test(test_paths_stay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
