/* SPDX-License-Identifier: MIT */
#include "print/csv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/number.h"
#include "print/cell.h"
#include "print/drawing.h"
#include "print/enum_names.h"

struct csv {
    struct tc_text *out;
    const struct tc_sheet *sheet;
    bool begun;              /* a field of this record was written */
    unsigned *marks;         /* of each column: all that occur */
    bool mixed;              /* a row holds money of several currencies */
    bool pictures, drawings; /* which of the last fields there are */
};

static void next_field(struct csv *csv)
{
    if (csv->begun)
        tc_text_add_char(csv->out, ',');
    csv->begun = true;
}

static void end_record(struct csv *csv)
{
    tc_text_add(csv->out, "\r\n");
    csv->begun = false;
}

/* Whether a spreadsheet might run such a text: also the wide forms that some take for the plain ones. */
static bool looks_like_formula(const char *text)
{
    uint32_t code = 0;
    if (tc_utf8_decode(text, strlen(text), &code) == 0)
        return false;
    switch (code) {
    case '=':
    case '+':
    case '-':
    case '@':
    case '\t':
    case '\r':
    case '\n':
    case 0xFF1D: /* fullwidth = + - @ */
    case 0xFF0B:
    case 0xFF0D:
    case 0xFF20: return true;
    default: return false;
    }
}

static void put_text(struct csv *csv, const char *text)
{
    bool quoted = *text == ' ' || strpbrk(text, "\",\r\n");
    next_field(csv);
    if (quoted)
        tc_text_add_char(csv->out, '"');
    if (looks_like_formula(text))
        tc_text_add_char(csv->out, '\'');
    for (const char *p = text; *p; p++) {
        if (*p == '"')
            tc_text_add_char(csv->out, '"');
        tc_text_add_char(csv->out, *p);
    }
    if (quoted)
        tc_text_add_char(csv->out, '"');
}

/* A length in the unit of its drawing: nine digits, for what 12 in are in metres is no round figure. */
static void put_length(struct csv *csv, double metres, const struct tc_drawing *drawing)
{
    char buffer[TC_NUMBER_SIZE];
    next_field(csv);
    tc_text_add(csv->out, tc_number_write_short(buffer, metres / drawing->unit_length));
}

static void put_empty(struct csv *csv, int count)
{
    while (count-- > 0)
        next_field(csv);
}

static void put_number(struct csv *csv, double number)
{
    char buffer[TC_NUMBER_SIZE];
    next_field(csv);
    if (isfinite(number))
        tc_text_add(csv->out, tc_number_write_data(buffer, number));
}

/* A title of a column's fields; equal ones are numbered so that each can be asked for by name. */
static void put_column_name(struct csv *csv, size_t c, const char *suffix)
{
    const struct tc_column *columns = csv->sheet->columns;
    struct tc_text name = TC_TEXT_EMPTY;
    int same = 1;
    for (size_t i = 0; i < c; i++)
        same += strcmp(columns[i].head, columns[c].head) == 0 &&
                strcmp(columns[i].subhead, columns[c].subhead) == 0;
    tc_text_add(&name, columns[c].head);
    if (*columns[c].subhead)
        tc_text_addf(&name, " (%s)", columns[c].subhead);
    if (same > 1)
        tc_text_addf(&name, " #%d", same);
    tc_text_add(&name, suffix);
    put_text(csv, tc_text_string(&name));
    if (name.failed)
        csv->out->failed = true;
    tc_text_free(&name);
}

static void put_header(struct csv *csv)
{
    static const char *const first[] = {"kind", "group", "label", "unit", "currency"};
    for (size_t i = 0; i < sizeof first / sizeof *first; i++)
        put_text(csv, first[i]);
    for (size_t c = 0; c < csv->sheet->column_count; c++) {
        put_column_name(csv, c, "");
        if (csv->mixed)
            put_column_name(csv, c, " currency");
        if (csv->marks[c])
            put_column_name(csv, c, " marks");
    }
    if (csv->pictures) {
        put_text(csv, "x");
        put_text(csv, "y");
    }
    if (csv->drawings) {
        put_text(csv, "width");
        put_text(csv, "height");
        put_text(csv, "letter");
    }
    end_record(csv);
}

/* The fields of the sheet's columns, all empty. */
static void put_no_cells(struct csv *csv)
{
    for (size_t c = 0; c < csv->sheet->column_count; c++)
        put_empty(csv, 1 + csv->mixed + (csv->marks[c] != 0));
}

static void put_no_picture(struct csv *csv)
{
    put_empty(csv, (csv->pictures ? 2 : 0) + (csv->drawings ? 3 : 0));
}

/* A record that says one text. */
static void put_statement(struct csv *csv, const char *kind, const char *text)
{
    put_text(csv, kind);
    put_empty(csv, 1);
    put_text(csv, text);
    put_empty(csv, 2);
    put_no_cells(csv);
    put_no_picture(csv);
    end_record(csv);
}

static void put_marks(struct csv *csv, unsigned marks)
{
    const char *between = "";
    next_field(csv);
    for (size_t i = 0; tc_mark_at(i); i++) {
        if (!(marks & tc_mark_at(i)))
            continue;
        tc_text_add(csv->out, between);
        tc_text_add(csv->out, tc_mark_word((enum tc_mark)tc_mark_at(i)));
        between = " ";
    }
}

static void put_cell(struct csv *csv, const struct tc_cell *cell)
{
    char buffer[TC_NUMBER_SIZE];
    if (cell->kind == TC_CELL_NUMBER) {
        put_number(csv, cell->number);
    } else if (cell->kind == TC_CELL_MONEY) {
        next_field(csv);
        tc_text_add(csv->out, tc_cell_text(buffer, cell, false));
    } else {
        put_text(csv, tc_cell_text(buffer, cell, false));
    }
}

static void put_row(struct csv *csv, size_t r, const char *group)
{
    const struct tc_row *row = &csv->sheet->rows[r];
    const char *code = tc_code_of_row(csv->sheet, r);
    bool several = code && !*code;
    put_text(csv, tc_row_kind_name(row->kind));
    put_text(csv, group);
    put_text(csv, row->label);
    put_text(csv, row->unit);
    put_text(csv, code ? code : "");
    for (size_t c = 0; c < csv->sheet->column_count; c++) {
        const struct tc_cell *cell = &row->cells[c];
        put_cell(csv, cell);
        if (csv->mixed)
            put_text(csv, several && cell->kind == TC_CELL_MONEY ? cell->currency.code : "");
        if (csv->marks[c])
            put_marks(csv, cell->marks);
    }
    put_no_picture(csv);
    end_record(csv);
}

static void put_rows(struct csv *csv)
{
    const char *group = "";
    for (size_t r = 0; r < csv->sheet->row_count; r++) {
        if (csv->sheet->rows[r].kind == TC_ROW_GROUP)
            group = csv->sheet->rows[r].label; /* said with each of its rows */
        else if (csv->sheet->rows[r].cells)
            put_row(csv, r, group);
    }
}

static void put_point(struct csv *csv, const struct tc_chart *chart, size_t s, size_t i)
{
    put_text(csv, "point");
    put_text(csv, chart->title);
    put_text(csv, chart->series[s].name);
    put_text(csv, chart->y_title);
    put_empty(csv, 1);
    put_no_cells(csv);
    if (*chart->x_labels[i] && chart->kind != TC_CHART_POINTS)
        put_text(csv, chart->x_labels[i]);
    else
        put_number(csv, chart->x[i]);
    put_number(csv, chart->series[s].values[i]);
    put_empty(csv, csv->drawings ? 3 : 0);
    end_record(csv);
}

static void put_box(struct csv *csv, const struct tc_drawing *drawing, const struct tc_box *box)
{
    const char letter[2] = {box->letter == ' ' ? '\0' : box->letter, '\0'};
    put_text(csv, "box");
    put_text(csv, drawing->title);
    put_text(csv, tc_drawing_label(drawing, box->letter));
    put_text(csv, drawing->unit);
    put_empty(csv, 1);
    put_no_cells(csv);
    put_length(csv, box->x, drawing);
    put_length(csv, box->y, drawing);
    put_length(csv, box->width, drawing);
    put_length(csv, box->height, drawing);
    put_text(csv, letter);
    end_record(csv);
}

static void put_pictures(struct csv *csv)
{
    const struct tc_sheet *sheet = csv->sheet;
    for (size_t k = 0; k < sheet->chart_count; k++)
        for (size_t s = 0; s < sheet->charts[k].series_count; s++)
            for (size_t i = 0; i < sheet->charts[k].point_count; i++)
                put_point(csv, &sheet->charts[k], s, i);
    for (size_t i = 0; sheet->drawing && i < sheet->drawing->box_count; i++)
        put_box(csv, sheet->drawing, &sheet->drawing->boxes[i]);
}

/* Looks through the sheet for what decides which fields there are. */
static void survey(struct csv *csv)
{
    const struct tc_sheet *sheet = csv->sheet;
    for (size_t r = 0; r < sheet->row_count; r++) {
        const char *code = tc_code_of_row(sheet, r);
        csv->mixed = csv->mixed || (code && !*code);
        for (size_t c = 0; c < sheet->column_count && sheet->rows[r].cells; c++)
            csv->marks[c] |= sheet->rows[r].cells[c].marks;
    }
    csv->drawings = sheet->drawing != NULL;
    csv->pictures = csv->drawings || sheet->chart_count > 0;
}

enum tc_status tc_print_csv(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options)
{
    struct csv csv = {.out = out, .sheet = sheet};
    (void)options; /* the same for every device */
    csv.marks = calloc(sheet->column_count + 1, sizeof *csv.marks);
    if (!csv.marks)
        return TC_NO_MEMORY;
    survey(&csv);
    put_header(&csv);
    put_statement(&csv, "title", sheet->title);
    if (*sheet->assumptions)
        put_statement(&csv, "assumptions", sheet->assumptions);
    put_rows(&csv);
    put_pictures(&csv);
    for (size_t i = 0; i < sheet->note_count; i++)
        put_statement(&csv, tc_note_kind_name(sheet->notes[i].kind), sheet->notes[i].text);
    free(csv.marks);
    return out->failed ? TC_NO_MEMORY : TC_OK;
}
