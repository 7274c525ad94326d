/* SPDX-License-Identifier: MIT */
#include "sheet/sheet.h"

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"

struct tc_block {
    struct tc_block *next;
    _Alignas(max_align_t) unsigned char bytes[];
};

const char *tc_mark_word(enum tc_mark mark)
{
    switch (mark) {
    case TC_MARK_BEST: return "best";
    case TC_MARK_TYPED: return "typed";
    case TC_MARK_SHORT: return "short";
    case TC_MARK_INCOMPLETE: return "incomplete";
    case TC_MARK_PINNED: return "pinned";
    case TC_MARK_OVER: return "over";
    }
    return "";
}

void *tc_sheet_memory(struct tc_sheet *sheet, size_t count, size_t size)
{
    if (sheet->failed)
        return NULL;
    struct tc_block *block = NULL;
    if (size == 0 || count <= (SIZE_MAX - sizeof *block) / size)
        block = calloc(1, sizeof *block + count * size);
    if (!block) {
        sheet->failed = true;
        return NULL;
    }
    block->next = sheet->memory;
    sheet->memory = block;
    return block->bytes;
}

void tc_sheet_free(struct tc_sheet *sheet)
{
    while (sheet->memory) {
        struct tc_block *next = sheet->memory->next;
        free(sheet->memory);
        sheet->memory = next;
    }
    memset(sheet, 0, sizeof *sheet);
}

const char *tc_sheet_copy(struct tc_sheet *sheet, const char *text)
{
    size_t room = 3 * strlen(text) + 1; /* a bad byte becomes at most the three of U+FFFD */
    char *copy = tc_sheet_memory(sheet, room, 1);
    if (!copy)
        return "";
    tc_clean(copy, room, text);
    return copy;
}

static const char *copy_formatted(struct tc_sheet *sheet, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *raw = length < 0 ? NULL : malloc((size_t)length + 1);
    if (!raw) {
        sheet->failed = true;
        return "";
    }
    vsnprintf(raw, (size_t)length + 1, format, arguments);
    const char *copy = tc_sheet_copy(sheet, raw);
    free(raw);
    return copy;
}

const char *tc_sheet_format(struct tc_sheet *sheet, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *copy = copy_formatted(sheet, format, arguments);
    va_end(arguments);
    return copy;
}

void tc_sheet_start(struct tc_sheet *sheet, const char *name, size_t column_count)
{
    memset(sheet, 0, sizeof *sheet);
    sheet->name = sheet->title = sheet->assumptions = sheet->row_head = "";
    sheet->columns = tc_sheet_memory(sheet, column_count, sizeof *sheet->columns);
    if (!sheet->columns)
        return;
    sheet->column_count = column_count;
    for (size_t i = 0; i < column_count; i++)
        sheet->columns[i].head = sheet->columns[i].subhead = sheet->columns[i].subject = "";
    sheet->name = tc_sheet_copy(sheet, name);
}

void tc_sheet_head(struct tc_sheet *sheet, const char *title, const char *assumptions, const char *row_head)
{
    sheet->title = tc_sheet_copy(sheet, title);
    sheet->assumptions = tc_sheet_copy(sheet, assumptions);
    sheet->row_head = tc_sheet_copy(sheet, row_head);
}

void tc_sheet_column(struct tc_sheet *sheet, size_t column, const char *head, const char *subhead)
{
    if (column >= sheet->column_count)
        return;
    sheet->columns[column].head = sheet->columns[column].subject = tc_sheet_copy(sheet, head);
    sheet->columns[column].subhead = tc_sheet_copy(sheet, subhead);
}

/*
 * Returns an array with room for one more element than count; false after a
 * failure. Arrays live in the sheet like all else, so an outgrown one stays in
 * memory until the sheet is freed: at most as much again.
 */
static bool make_room(struct tc_sheet *sheet, void **array, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return !sheet->failed;
    size_t wanted = *capacity ? *capacity * 2 : 16;
    void *larger = tc_sheet_memory(sheet, wanted, size);
    if (!larger)
        return false;
    if (count)
        memcpy(larger, *array, count * size);
    *array = larger;
    *capacity = wanted;
    return true;
}

void tc_sheet_row(struct tc_sheet *sheet, enum tc_row_kind kind, const char *label, const char *unit)
{
    void *rows = sheet->rows;
    if (!make_room(sheet, &rows, sheet->row_count, &sheet->row_capacity, sizeof *sheet->rows))
        return;
    sheet->rows = rows;
    struct tc_row row = {
        .kind = kind, .label = tc_sheet_copy(sheet, label), .unit = tc_sheet_copy(sheet, unit)};
    row.subject = row.label;
    if (kind != TC_ROW_GROUP)
        row.cells = tc_sheet_memory(sheet, sheet->column_count, sizeof *row.cells);
    if (!sheet->failed)
        sheet->rows[sheet->row_count++] = row;
}

void tc_sheet_about(struct tc_sheet *sheet, const char *subject)
{
    const char *copy = tc_sheet_copy(sheet, subject);
    if (!sheet->failed && sheet->row_count > 0)
        sheet->rows[sheet->row_count - 1].subject = copy;
}

void tc_sheet_column_about(struct tc_sheet *sheet, size_t column, const char *subject)
{
    if (column < sheet->column_count && *subject)
        sheet->columns[column].subject = tc_sheet_copy(sheet, subject);
}

/* The cell of the last row, or NULL where there is none. */
static struct tc_cell *last_cell(struct tc_sheet *sheet, size_t column)
{
    if (sheet->failed || sheet->row_count == 0 || column >= sheet->column_count)
        return NULL;
    struct tc_cell *cells = sheet->rows[sheet->row_count - 1].cells;
    return cells ? &cells[column] : NULL;
}

void tc_sheet_sentence(struct tc_sheet *sheet, const char *label, const char *text)
{
    tc_sheet_row(sheet, TC_ROW_SENTENCE, label, "");
    tc_sheet_text(sheet, 0, text);
}

void tc_sheet_money(struct tc_sheet *sheet, size_t column, tc_money money, struct tc_currency currency)
{
    struct tc_cell *cell = last_cell(sheet, column);
    if (!cell)
        return;
    cell->kind = TC_CELL_MONEY;
    cell->money = money;
    cell->currency = currency;
}

void tc_sheet_number(struct tc_sheet *sheet, size_t column, double number, int decimals)
{
    struct tc_cell *cell = last_cell(sheet, column);
    if (!cell)
        return;
    cell->kind = TC_CELL_NUMBER;
    cell->number = number;
    cell->decimals = decimals;
}

static void set_words(struct tc_sheet *sheet, size_t column, enum tc_cell_kind kind, const char *text)
{
    const char *copy = tc_sheet_copy(sheet, text);
    struct tc_cell *cell = last_cell(sheet, column);
    if (!cell)
        return;
    cell->kind = kind;
    cell->text = copy;
}

void tc_sheet_text(struct tc_sheet *sheet, size_t column, const char *text)
{
    set_words(sheet, column, TC_CELL_TEXT, text);
}

void tc_sheet_missing(struct tc_sheet *sheet, size_t column, const char *what)
{
    set_words(sheet, column, TC_CELL_MISSING, what);
}

void tc_sheet_mark(struct tc_sheet *sheet, size_t column, unsigned marks)
{
    struct tc_cell *cell = last_cell(sheet, column);
    if (cell)
        cell->marks |= marks;
    if (cell && cell->marks & TC_MARK_OVER)
        cell->marks &= ~(unsigned)TC_MARK_BEST;
}

void tc_sheet_edit(struct tc_sheet *sheet, size_t column, const char *path)
{
    const char *copy = tc_sheet_copy(sheet, path);
    struct tc_cell *cell = last_cell(sheet, column);
    if (cell)
        cell->edit = copy;
}

static bool figure(const struct tc_cell *cell, double *value)
{
    if (cell->marks & TC_MARK_INCOMPLETE)
        return false;
    *value = cell->kind == TC_CELL_MONEY ? (double)cell->money : cell->number;
    return cell->kind == TC_CELL_MONEY || (cell->kind == TC_CELL_NUMBER && isfinite(*value));
}

/* sign is 1 to look for the lowest figure, -1 for the highest. */
static void mark_best(struct tc_sheet *sheet, double sign)
{
    struct tc_cell *best = NULL;
    double best_value = 0;
    int figures = 0;
    bool shared = false;
    for (size_t i = 0; i < sheet->column_count; i++) {
        struct tc_cell *cell = last_cell(sheet, i);
        double value = 0;
        if (!cell || sheet->columns[i].aside || !figure(cell, &value))
            continue;
        figures++;
        value *= sign;
        if (!best || value < best_value) {
            best = cell;
            best_value = value;
            shared = false;
        } else if (value <= best_value) {
            shared = true;
        }
    }
    if (best && figures > 1 && !shared && !(best->marks & TC_MARK_OVER))
        best->marks |= TC_MARK_BEST;
}

void tc_sheet_mark_lowest(struct tc_sheet *sheet)
{
    mark_best(sheet, 1);
}

void tc_sheet_mark_highest(struct tc_sheet *sheet)
{
    mark_best(sheet, -1);
}

void tc_sheet_note(struct tc_sheet *sheet, enum tc_note_kind kind, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = copy_formatted(sheet, format, arguments);
    va_end(arguments);
    void *notes = sheet->notes;
    if (!make_room(sheet, &notes, sheet->note_count, &sheet->note_capacity, sizeof *sheet->notes))
        return;
    sheet->notes = notes;
    sheet->notes[sheet->note_count++] = (struct tc_note){kind, text};
}

struct tc_chart *tc_sheet_chart(struct tc_sheet *sheet, enum tc_chart_kind kind, size_t series_count,
                                size_t point_count)
{
    void *charts = sheet->charts;
    if (!make_room(sheet, &charts, sheet->chart_count, &sheet->chart_capacity, sizeof *sheet->charts))
        return NULL;
    sheet->charts = charts;
    struct tc_chart chart = {
        .kind = kind, .title = "", .x_title = "", .y_title = "", .band = "", .below = "", .above = ""};
    chart.point_count = point_count;
    chart.series_count = series_count;
    chart.x_labels = tc_sheet_memory(sheet, point_count, sizeof *chart.x_labels);
    chart.x = tc_sheet_memory(sheet, point_count, sizeof *chart.x);
    chart.series = tc_sheet_memory(sheet, series_count, sizeof *chart.series);
    for (size_t s = 0; s < series_count && !sheet->failed; s++) {
        chart.series[s].name = "";
        chart.series[s].values = tc_sheet_memory(sheet, point_count, sizeof *chart.series[s].values);
    }
    if (sheet->failed)
        return NULL;
    for (size_t i = 0; i < point_count; i++) {
        chart.x_labels[i] = "";
        chart.x[i] = (double)i;
    }
    sheet->charts[sheet->chart_count] = chart;
    return &sheet->charts[sheet->chart_count++];
}

void tc_sheet_drawing(struct tc_sheet *sheet, const char *title, double width, double height,
                      const char *unit, double unit_length)
{
    struct tc_drawing *drawing = tc_sheet_memory(sheet, 1, sizeof *drawing);
    if (!drawing)
        return;
    drawing->title = tc_sheet_copy(sheet, title);
    drawing->width = width;
    drawing->height = height;
    drawing->unit = tc_sheet_copy(sheet, unit);
    drawing->unit_length = unit_length;
    sheet->drawing = drawing;
}

void tc_sheet_box(struct tc_sheet *sheet, struct tc_box box)
{
    struct tc_drawing *drawing = sheet->drawing;
    if (!drawing)
        return;
    void *boxes = drawing->boxes;
    if (!make_room(sheet, &boxes, drawing->box_count, &drawing->box_capacity, sizeof *drawing->boxes))
        return;
    drawing->boxes = boxes;
    if (box.label)
        box.label = tc_sheet_copy(sheet, box.label);
    drawing->boxes[drawing->box_count++] = box;
}
