/* SPDX-License-Identifier: MIT */
#include "print/cell.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    enum tc_mark mark;
    const char *sign, *ascii;
    const char *meaning;
} signs[] = {
    {TC_MARK_BEST, "◄", "*", "best of its row"}, {TC_MARK_SHORT, "▼", "<", "short of what is needed"},
    {TC_MARK_OVER, "▲", ">", "over a limit"},    {TC_MARK_INCOMPLETE, "+", "+", "incomplete: lacks a figure"},
    {TC_MARK_TYPED, "^", "^", "typed by hand"},  {TC_MARK_PINNED, "=", "=", "pinned by the plan"},
};

enum { SIGN_COUNT = sizeof signs / sizeof *signs };

bool tc_cell_is_figure(const struct tc_cell *cell)
{
    return cell->kind == TC_CELL_MONEY || cell->kind == TC_CELL_NUMBER;
}

const char *tc_cell_text(char *buffer, const struct tc_cell *cell, bool group)
{
    switch (cell->kind) {
    case TC_CELL_MONEY: return tc_number_write_fixed(buffer, cell->money, cell->currency.exponent, group);
    case TC_CELL_NUMBER:
        if (!isfinite(cell->number))
            return "-";
        if (cell->decimals < 0)
            return tc_number_write_eighths(buffer, cell->number, cell->decimals == TC_EIGHTHS_ASCII);
        return tc_number_write(buffer, cell->number, cell->decimals, group);
    case TC_CELL_TEXT: return cell->text ? cell->text : "";
    case TC_CELL_MISSING: return cell->text && *cell->text ? cell->text : "missing";
    case TC_CELL_EMPTY: break;
    }
    return "";
}

int tc_figure_whole(const char *text)
{
    int whole = 0;
    const char *slash = strchr(text, '/');
    if (slash) /* "23 5/8", "3/4", "-1/2" */
        return slash - text == 1 ? 0 : text[slash - text - 2] == ' ' ? (int)(slash - text) - 2 : 1;
    while (text[whole] && text[whole] != '.' && (unsigned char)text[whole] < 0x80)
        whole++;
    return whole;
}

unsigned tc_mark_at(size_t i)
{
    return i < SIGN_COUNT ? signs[i].mark : 0;
}

const char *tc_mark_sign(unsigned mark, bool ascii)
{
    for (size_t i = 0; i < SIGN_COUNT; i++)
        if (signs[i].mark == mark)
            return ascii ? signs[i].ascii : signs[i].sign;
    return "";
}

const char *tc_mark_meaning(unsigned mark)
{
    for (size_t i = 0; i < SIGN_COUNT; i++)
        if (signs[i].mark == mark)
            return signs[i].meaning;
    return "";
}

int tc_marks_count(unsigned marks)
{
    int count = 0;
    for (size_t i = 0; i < SIGN_COUNT; i++)
        count += (marks & signs[i].mark) != 0;
    return count;
}

unsigned tc_marks_of_sheet(const struct tc_sheet *sheet)
{
    unsigned marks = 0;
    for (size_t r = 0; r < sheet->row_count; r++)
        for (size_t c = 0; c < sheet->column_count && sheet->rows[r].cells; c++)
            marks |= sheet->rows[r].cells[c].marks;
    return marks;
}

/* The code of a cell's money, or NULL. */
static const char *code_at(const struct tc_sheet *sheet, size_t row, size_t column)
{
    const struct tc_cell *cells = sheet->rows[row].cells;
    if (!cells || cells[column].kind != TC_CELL_MONEY)
        return NULL;
    return cells[column].currency.code;
}

/* The one code of the money in a block of cells; NULL without money, "" where mixed. */
static const char *common_code(const struct tc_sheet *sheet, size_t row, size_t rows, size_t column,
                               size_t columns)
{
    const char *common = NULL;
    for (size_t r = row; r < row + rows; r++) {
        for (size_t c = column; c < column + columns; c++) {
            const char *code = code_at(sheet, r, c);
            if (code && common && strcmp(code, common) != 0)
                return "";
            if (code)
                common = code;
        }
    }
    return common;
}

const char *tc_code_of_row(const struct tc_sheet *sheet, size_t row)
{
    return common_code(sheet, row, 1, 0, sheet->column_count);
}

/* The code most of the column's money is in, the first of those that are even; "" without money. */
static const char *main_code(const struct tc_sheet *sheet, size_t column)
{
    const char *best = "";
    size_t best_count = 0;
    for (size_t r = 0; r < sheet->row_count; r++) {
        const char *code = code_at(sheet, r, column);
        if (!code || strcmp(code, best) == 0)
            continue;
        size_t count = 0;
        for (size_t other = r; other < sheet->row_count; other++) {
            const char *same = code_at(sheet, other, column);
            count += same && strcmp(same, code) == 0;
        }
        if (count > best_count) {
            best = code;
            best_count = count;
        }
    }
    return best;
}

/* What the row must say itself: its one code, where a column says another. */
static const char *row_code(const struct tc_codes *codes, size_t row)
{
    const struct tc_sheet *sheet = codes->sheet;
    const char *common = tc_code_of_row(sheet, row);
    if (!common)
        return "";
    for (size_t c = 0; c < sheet->column_count; c++)
        /* Columns have their codes before rows do. NOLINTNEXTLINE(clang-analyzer-core.NonNullParamChecker) */
        if (code_at(sheet, row, c) && strcmp(codes->columns[c], common) != 0)
            return common;
    return "";
}

enum tc_status tc_codes_find(struct tc_codes *codes, const struct tc_sheet *sheet)
{
    *codes = (struct tc_codes){.sheet = sheet, .whole = ""};
    codes->columns = calloc(sheet->column_count + 1, sizeof *codes->columns);
    codes->rows = calloc(sheet->row_count + 1, sizeof *codes->rows);
    if (!codes->columns || !codes->rows) {
        tc_codes_free(codes);
        return TC_NO_MEMORY;
    }
    const char *whole = common_code(sheet, 0, sheet->row_count, 0, sheet->column_count);
    bool mixed = whole && !*whole;
    if (whole)
        codes->whole = whole;
    for (size_t c = 0; c < sheet->column_count; c++)
        codes->columns[c] = mixed ? main_code(sheet, c) : "";
    for (size_t r = 0; r < sheet->row_count; r++)
        codes->rows[r] = mixed ? row_code(codes, r) : "";
    return TC_OK;
}

const char *tc_codes_of_cell(const struct tc_codes *codes, size_t row, size_t column)
{
    const char *code = code_at(codes->sheet, row, column);
    if (!code || *codes->whole || *codes->rows[row] || strcmp(code, codes->columns[column]) == 0)
        return "";
    return code;
}

void tc_codes_free(struct tc_codes *codes)
{
    free(codes->columns);
    free(codes->rows);
    codes->columns = codes->rows = NULL;
}
