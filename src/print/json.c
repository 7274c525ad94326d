/* SPDX-License-Identifier: MIT */
#include "print/json.h"

#include <math.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/number.h"
#include "print/cell.h"
#include "print/drawing.h"
#include "print/enum_names.h"

enum { MOST_DEPTH = 8 };

/* Raised where a member is renamed, leaves, or means something else; see tankcost-output(5). */
enum { FORMAT = 1 };

/*
 * Writes values one after the other and sets the commas, line breaks and
 * indents itself. A container is either open, a line for each member, or
 * closed up, all on one line.
 */
struct json {
    struct tc_text *out;
    int depth;
    struct {
        bool any; /* a member was written */
        bool open;
        char end;
    } level[MOST_DEPTH];
};

static void put_string(struct json *json, const char *text)
{
    size_t length = strlen(text);
    tc_text_add_char(json->out, '"');
    for (size_t i = 0; i < length;) {
        uint32_t code;
        int n = tc_utf8_decode(text + i, length - i, &code);
        if (n == 0)
            tc_text_add(json->out, "\xEF\xBF\xBD"); /* U+FFFD */
        else if (code == '"' || code == '\\')
            tc_text_addf(json->out, "\\%c", (int)code);
        else if (code < 0x20 || code == 0x7F)
            tc_text_addf(json->out, "\\u%04x", (unsigned)code);
        else
            tc_text_add_bytes(json->out, text + i, (size_t)n);
        i += n > 0 ? (size_t)n : 1;
    }
    tc_text_add_char(json->out, '"');
}

/* Starts a member of the container at hand: named, or in an array with name NULL. */
static void start_member(struct json *json, const char *name)
{
    if (json->depth > 0) {
        int top = json->depth - 1;
        if (json->level[top].any)
            tc_text_add(json->out, json->level[top].open ? "," : ", ");
        json->level[top].any = true;
        if (json->level[top].open) {
            tc_text_add_char(json->out, '\n');
            tc_text_add_repeated(json->out, "  ", (size_t)json->depth);
        }
    }
    if (name) {
        put_string(json, name);
        tc_text_add(json->out, ": ");
    }
}

static void start(struct json *json, const char *name, const char *brackets, bool open)
{
    start_member(json, name);
    tc_text_add_char(json->out, brackets[0]);
    json->level[json->depth].any = false;
    json->level[json->depth].open = open;
    json->level[json->depth].end = brackets[1];
    json->depth++;
}

static void end(struct json *json)
{
    int top = --json->depth;
    if (json->level[top].any && json->level[top].open) {
        tc_text_add_char(json->out, '\n');
        tc_text_add_repeated(json->out, "  ", (size_t)top);
    }
    tc_text_add_char(json->out, json->level[top].end);
}

static void put_text(struct json *json, const char *name, const char *text)
{
    start_member(json, name);
    put_string(json, text ? text : "");
}

/* What is not a number is null: JSON has no word for it. */
static void put_number(struct json *json, const char *name, double number)
{
    char buffer[TC_NUMBER_SIZE];
    start_member(json, name);
    tc_text_add(json->out, isfinite(number) ? tc_number_write_data(buffer, number) : "null");
}

/* A length in the unit of its drawing: nine digits, for what 12 in are in metres is no round figure. */
static void put_length(struct json *json, const char *name, double metres, const struct tc_drawing *drawing)
{
    char buffer[TC_NUMBER_SIZE];
    start_member(json, name);
    tc_text_add(json->out, tc_number_write_short(buffer, metres / drawing->unit_length));
}

static void put_value(struct json *json, const struct tc_cell *cell)
{
    char buffer[TC_NUMBER_SIZE];
    switch (cell->kind) {
    case TC_CELL_MONEY:
        start_member(json, "value");
        tc_text_add(json->out, tc_cell_text(buffer, cell, false));
        put_text(json, "currency", cell->currency.code);
        return;
    case TC_CELL_NUMBER:
        put_number(json, "value", cell->number);
        put_number(json, "decimals", cell->decimals < 0 ? 3 : cell->decimals);
        return;
    case TC_CELL_TEXT:
    case TC_CELL_MISSING: put_text(json, "value", tc_cell_text(buffer, cell, false)); return;
    case TC_CELL_EMPTY: break;
    }
    start_member(json, "value");
    tc_text_add(json->out, "null");
}

static void put_marks(struct json *json, unsigned marks)
{
    if (!marks)
        return;
    start(json, "marks", "[]", false);
    for (size_t i = 0; tc_mark_at(i); i++)
        if (marks & tc_mark_at(i))
            put_text(json, NULL, tc_mark_word((enum tc_mark)tc_mark_at(i)));
    end(json);
}

static void put_cell(struct json *json, const struct tc_cell *cell)
{
    start(json, NULL, "{}", false);
    put_text(json, "kind", tc_cell_kind_name(cell->kind));
    put_value(json, cell);
    put_marks(json, cell->marks);
    if (cell->edit)
        put_text(json, "edit", cell->edit);
    end(json);
}

/* What a row or column is about, where its text does not say the same. */
static void put_about(struct json *json, const char *subject, const char *text)
{
    if (subject && *subject && strcmp(subject, text) != 0)
        put_text(json, "about", subject);
}

static void put_row(struct json *json, const struct tc_sheet *sheet, const struct tc_row *row)
{
    bool sentence = row->kind == TC_ROW_SENTENCE;
    start(json, NULL, "{}", row->cells && !sentence);
    put_text(json, "kind", tc_row_kind_name(row->kind));
    put_text(json, "label", row->label);
    put_about(json, row->subject, row->label);
    if (sentence) {
        put_text(json, "text", row->cells && sheet->column_count > 0 ? row->cells[0].text : "");
        put_marks(json, row->cells && sheet->column_count > 0 ? row->cells[0].marks : 0);
    } else if (row->cells) {
        put_text(json, "unit", row->unit);
        start(json, "cells", "[]", true);
        for (size_t c = 0; c < sheet->column_count; c++)
            put_cell(json, &row->cells[c]);
        end(json);
    }
    end(json);
}

static void put_numbers(struct json *json, const char *name, const double *numbers, size_t count)
{
    start(json, name, "[]", false);
    for (size_t i = 0; i < count; i++)
        put_number(json, NULL, numbers[i]);
    end(json);
}

static void put_chart(struct json *json, const struct tc_chart *chart)
{
    start(json, NULL, "{}", true);
    put_text(json, "kind", tc_chart_kind_name(chart->kind));
    put_text(json, "title", chart->title);
    put_text(json, "x_title", chart->x_title);
    put_text(json, "y_title", chart->y_title);
    put_number(json, "decimals", chart->decimals);
    if (chart->kind == TC_CHART_BARS)
        put_text(json, "band", chart->band);
    if (chart->kind == TC_CHART_SPANS) {
        put_number(json, "middle", chart->middle);
        put_text(json, "below", chart->below);
        put_text(json, "above", chart->above);
    }
    put_numbers(json, "x", chart->x, chart->point_count);
    start(json, "x_labels", "[]", false);
    for (size_t i = 0; i < chart->point_count; i++)
        put_text(json, NULL, chart->x_labels[i]);
    end(json);
    start(json, "series", "[]", true);
    for (size_t s = 0; s < chart->series_count; s++) {
        start(json, NULL, "{}", false);
        put_text(json, "name", chart->series[s].name);
        put_numbers(json, "values", chart->series[s].values, chart->point_count);
        end(json);
    }
    end(json);
    end(json);
}

static void put_box(struct json *json, const struct tc_drawing *drawing, const struct tc_box *box)
{
    const char letter[2] = {box->letter == ' ' ? '\0' : box->letter, '\0'};
    start(json, NULL, "{}", false);
    put_text(json, "letter", letter);
    put_text(json, "label", tc_drawing_label(drawing, box->letter));
    put_length(json, "x", box->x, drawing);
    put_length(json, "y", box->y, drawing);
    put_length(json, "width", box->width, drawing);
    put_length(json, "height", box->height, drawing);
    end(json);
}

static void put_drawing(struct json *json, const struct tc_drawing *drawing)
{
    if (!drawing) {
        start_member(json, "drawing");
        tc_text_add(json->out, "null");
        return;
    }
    start(json, "drawing", "{}", true);
    put_text(json, "title", drawing->title);
    put_text(json, "unit", drawing->unit);
    put_length(json, "width", drawing->width, drawing);
    put_length(json, "height", drawing->height, drawing);
    start(json, "boxes", "[]", true);
    for (size_t i = 0; i < drawing->box_count; i++)
        put_box(json, drawing, &drawing->boxes[i]);
    end(json);
    end(json);
}

static void put_columns(struct json *json, const struct tc_sheet *sheet)
{
    start(json, "columns", "[]", true);
    for (size_t c = 0; c < sheet->column_count; c++) {
        start(json, NULL, "{}", false);
        put_text(json, "head", sheet->columns[c].head);
        put_text(json, "subhead", sheet->columns[c].subhead);
        put_about(json, sheet->columns[c].subject, sheet->columns[c].head);
        end(json);
    }
    end(json);
}

static void put_notes(struct json *json, const struct tc_sheet *sheet)
{
    start(json, "notes", "[]", true);
    for (size_t i = 0; i < sheet->note_count; i++) {
        start(json, NULL, "{}", false);
        put_text(json, "kind", tc_note_kind_name(sheet->notes[i].kind));
        put_text(json, "text", sheet->notes[i].text);
        end(json);
    }
    end(json);
}

enum tc_status tc_print_json(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options)
{
    struct json json = {.out = out};
    (void)options; /* the same for every device */
    start(&json, NULL, "{}", true);
    put_number(&json, "format", FORMAT);
    put_text(&json, "sheet", sheet->name);
    put_text(&json, "title", sheet->title);
    put_text(&json, "assumptions", sheet->assumptions);
    put_text(&json, "row_head", sheet->row_head);
    put_columns(&json, sheet);
    start(&json, "rows", "[]", true);
    for (size_t r = 0; r < sheet->row_count; r++)
        put_row(&json, sheet, &sheet->rows[r]);
    end(&json);
    put_notes(&json, sheet);
    start(&json, "charts", "[]", true);
    for (size_t i = 0; i < sheet->chart_count; i++)
        put_chart(&json, &sheet->charts[i]);
    end(&json);
    put_drawing(&json, sheet->drawing);
    end(&json);
    tc_text_add_char(out, '\n');
    return out->failed ? TC_NO_MEMORY : TC_OK;
}
