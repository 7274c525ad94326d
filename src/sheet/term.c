/* SPDX-License-Identifier: MIT */
#include "sheet/term.h"

static struct tc_term *make(struct tc_sheet *sheet, const char *symbol, const char *words)
{
    struct tc_term *term = tc_sheet_memory(sheet, 1, sizeof *term);
    if (!term)
        return NULL;
    term->symbol = tc_sheet_copy(sheet, symbol);
    term->words = tc_sheet_copy(sheet, words);
    term->formula = term->unit = term->place = "";
    return term;
}

struct tc_term *tc_term_leaf(struct tc_sheet *sheet, const char *symbol, const char *words, double value,
                             const char *unit, struct tc_source source)
{
    struct tc_term *term = make(sheet, symbol, words);
    if (!term)
        return NULL;
    term->value = value;
    term->unit = tc_sheet_copy(sheet, unit);
    term->from = source.from;
    term->place = tc_sheet_copy(sheet, source.place);
    return term;
}

struct tc_term *tc_term_computed(struct tc_sheet *sheet, const char *symbol, const char *words,
                                 const char *formula, double value, const char *unit)
{
    struct tc_term *term = make(sheet, symbol, words);
    if (!term)
        return NULL;
    term->formula = tc_sheet_copy(sheet, formula);
    term->value = value;
    term->unit = tc_sheet_copy(sheet, unit);
    return term;
}

struct tc_term *tc_term_money(struct tc_sheet *sheet, const char *symbol, const char *words,
                              const char *formula, tc_money money, struct tc_currency currency)
{
    struct tc_term *term = tc_term_computed(sheet, symbol, words, formula,
                                            (double)money / tc_currency_scale(currency), currency.code);
    if (!term)
        return NULL;
    term->money = true;
    term->currency = currency;
    return term;
}

void tc_term_add(struct tc_sheet *sheet, struct tc_term *term, const struct tc_term *part)
{
    struct tc_term_part *place = term && part ? tc_sheet_memory(sheet, 1, sizeof *place) : NULL;
    if (!place)
        return;
    place->term = part;
    if (term->last)
        term->last->next = place;
    else
        term->parts = place;
    term->last = place;
}

struct tc_term *tc_term_called(struct tc_sheet *sheet, const struct tc_term *term, const char *symbol,
                               const char *words)
{
    struct tc_term *copy = term ? tc_sheet_memory(sheet, 1, sizeof *copy) : NULL;
    if (!copy)
        return NULL;
    *copy = *term;
    copy->symbol = tc_sheet_copy(sheet, symbol);
    copy->words = tc_sheet_copy(sheet, words);
    return copy;
}

void tc_term_put(struct tc_sheet *sheet, size_t column, const struct tc_term *term)
{
    if (sheet->failed || sheet->row_count == 0 || column >= sheet->column_count)
        return;
    struct tc_cell *cells = sheet->rows[sheet->row_count - 1].cells;
    if (cells)
        cells[column].term = term;
}

struct tc_term *tc_term_put_worked_out(struct tc_sheet *sheet, size_t column, const char *words,
                                       const char *place)
{
    if (!sheet->explained || sheet->failed || sheet->row_count == 0 || column >= sheet->column_count)
        return NULL;
    const struct tc_row *row = &sheet->rows[sheet->row_count - 1];
    const struct tc_cell *cell = row->cells ? &row->cells[column] : NULL;
    struct tc_term *term = NULL;
    if (cell && cell->kind == TC_CELL_MONEY)
        term = tc_term_money(sheet, "Z", words, "", cell->money, cell->currency);
    else if (cell && cell->kind == TC_CELL_NUMBER)
        term = tc_term_computed(sheet, "Z", words, "", cell->number, row->unit);
    if (!term)
        return NULL;
    term->from = TC_TERM_SIMULATED;
    term->place = tc_sheet_copy(sheet, place);
    tc_term_put(sheet, column, term);
    return term;
}
