/* SPDX-License-Identifier: MIT */
#include "print/markdown.h"

#include <string.h>

#include "core/base/number.h"
#include "print/canvas.h"
#include "print/cell.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/row.h"

enum { PICTURE_WIDTH = 80, CHART_HEIGHT = 20 };

struct markdown {
    struct tc_text *out;
    const struct tc_sheet *sheet;
    bool ascii;
    struct tc_codes codes;
    bool in_table, in_list;
};

static void add(struct markdown *md, const char *markup)
{
    tc_text_add(md->out, markup);
}

/* A text within a line. Every character that may be markup anywhere in GFM is escaped. */
static void add_text(struct markdown *md, const char *text)
{
    for (const char *p = text; *p; p++) {
        if (strchr("\\`*_{}[]<>#|~&$", *p))
            tc_text_add_char(md->out, '\\');
        tc_text_add_char(md->out, *p);
    }
}

/* A text at the start of a line, where "- ", "+ ", "=", "1." and "1)" are markup as well. */
static void add_line(struct markdown *md, const char *text)
{
    size_t digits = strspn(text, "0123456789");
    text += strspn(text, " ");
    if (strchr("-+=", *text) && *text)
        tc_text_add_char(md->out, '\\');
    if (digits > 0 && (text[digits] == '.' || text[digits] == ')')) {
        tc_text_add_bytes(md->out, text, digits);
        tc_text_add_char(md->out, '\\');
        text += digits;
    }
    add_text(md, text);
}

static void add_bold(struct markdown *md, const char *text)
{
    text += strspn(text, " "); /* before a blank, the stars would be stars */
    if (!*text)
        return;
    add(md, "**");
    add_text(md, text);
    add(md, "**");
}

static void add_head_cell(struct markdown *md, size_t c)
{
    const struct tc_column *column = &md->sheet->columns[c];
    add(md, " ");
    add_text(md, column->head);
    if (*column->subhead) {
        add(md, "<br>");
        add_text(md, column->subhead);
    }
    if (*md->codes.columns[c]) {
        add(md, "<br>");
        add_text(md, md->codes.columns[c]);
    }
    add(md, " |");
}

static void start_table(struct markdown *md)
{
    const struct tc_sheet *sheet = md->sheet;
    if (md->in_table)
        return;
    if (md->in_list)
        add(md, "\n");
    md->in_list = false;
    md->in_table = true;
    add(md, "| ");
    bool twice = strcmp(sheet->row_head, md->codes.whole) == 0;
    add_text(md, sheet->row_head);
    if (*md->codes.whole && !twice) {
        add(md, *sheet->row_head ? ", " : "");
        add_text(md, md->codes.whole);
    }
    add(md, " |");
    for (size_t c = 0; c < sheet->column_count; c++)
        add_head_cell(md, c);
    add(md, "\n| :--- |");
    for (size_t c = 0; c < sheet->column_count; c++)
        add(md, sheet->columns[c].words ? " :--- |" : " ---: |");
    add(md, "\n");
}

static void end_table(struct markdown *md)
{
    if (md->in_table)
        add(md, "\n");
    md->in_table = false;
}

static void add_marks(struct markdown *md, unsigned marks)
{
    for (size_t i = 0; tc_mark_at(i); i++)
        if (marks & tc_mark_at(i))
            tc_text_addf(md->out, " *%s*", tc_mark_word((enum tc_mark)tc_mark_at(i)));
}

static void add_cell(struct markdown *md, size_t r, size_t c)
{
    char buffer[TC_NUMBER_SIZE];
    const struct tc_row *row = &md->sheet->rows[r];
    const struct tc_cell *cell = &row->cells[c];
    const char *text = tc_cell_text(buffer, cell, true);
    const char *code = tc_codes_of_cell(&md->codes, r, c);
    add(md, " ");
    if (row->kind == TC_ROW_TOTAL)
        add_bold(md, text);
    else
        add_text(md, text);
    if (*code)
        tc_text_addf(md->out, " %s", code);
    add_marks(md, cell->marks);
    add(md, " |");
}

static void add_row(struct markdown *md, size_t r)
{
    const struct tc_row *row = &md->sheet->rows[r];
    const char *code = md->codes.rows[r];
    bool bold = row->kind == TC_ROW_TOTAL || row->kind == TC_ROW_GROUP;
    start_table(md);
    add(md, "| ");
    if (bold)
        add_bold(md, row->label);
    else
        add_text(md, row->label);
    if (*row->unit || *code) {
        add(md, ", ");
        add_text(md, code);
        add(md, *code && *row->unit ? " " : "");
        add_text(md, row->unit);
    }
    add(md, " |");
    for (size_t c = 0; c < md->sheet->column_count; c++) {
        if (row->cells)
            add_cell(md, r, c);
        else
            add(md, "  |");
    }
    add(md, "\n");
}

static void add_sentence(struct markdown *md, const struct tc_row *row)
{
    end_table(md);
    md->in_list = true;
    add(md, "* "); /* notes have another bullet: theirs is a list of its own */
    add_bold(md, row->label);
    add(md, *row->label ? ": " : "");
    if (row->cells && md->sheet->column_count > 0 && row->cells[0].text) {
        add_text(md, row->cells[0].text);
        add_marks(md, row->cells[0].marks);
    }
    add(md, "\n");
}

/* A group is a row of the table, or leads a list if that is what follows it. */
static void add_group(struct markdown *md, size_t r)
{
    const struct tc_sheet *sheet = md->sheet;
    bool list = r + 1 < sheet->row_count && sheet->rows[r + 1].kind == TC_ROW_SENTENCE;
    if (!list) {
        add_row(md, r);
        return;
    }
    end_table(md);
    if (md->in_list)
        add(md, "\n");
    md->in_list = false;
    add_bold(md, sheet->rows[r].label);
    add(md, "\n\n");
}

static void add_rows(struct markdown *md)
{
    for (size_t r = 0; r < md->sheet->row_count; r++) {
        const struct tc_row *row = &md->sheet->rows[r];
        if (row->kind == TC_ROW_GROUP)
            add_group(md, r);
        else if (row->kind == TC_ROW_SENTENCE)
            add_sentence(md, row);
        else
            add_row(md, r);
    }
    if (md->in_table || md->in_list)
        add(md, "\n");
    md->in_table = md->in_list = false;
}

/* A picture as a block of text; the fence is longer than any run of its sign in labels is likely to be. */
static void add_canvas(struct markdown *md, const struct tc_canvas *canvas)
{
    struct tc_pen pen = {.out = md->out};
    add(md, "~~~~~~~~text\n");
    tc_canvas_write(canvas, &pen);
    add(md, "~~~~~~~~\n\n");
}

static enum tc_status add_pictures(struct markdown *md)
{
    const struct tc_sheet *sheet = md->sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    enum tc_status status = TC_OK;
    if (sheet->drawing) {
        status = tc_drawing_draw(&canvas, sheet->drawing, PICTURE_WIDTH, 0, md->ascii);
        if (status == TC_OK)
            add_canvas(md, &canvas);
    }
    for (size_t i = 0; i < sheet->chart_count && status == TC_OK; i++) {
        status = tc_chart_draw(&canvas, &sheet->charts[i], PICTURE_WIDTH, CHART_HEIGHT, md->ascii);
        if (status == TC_OK)
            add_canvas(md, &canvas);
    }
    tc_canvas_free(&canvas);
    return status;
}

static void add_notes(struct markdown *md)
{
    for (size_t i = 0; i < md->sheet->note_count; i++) {
        const struct tc_note *note = &md->sheet->notes[i];
        const char *word = tc_note_word(note->kind);
        add(md, "- ");
        if (*word)
            tc_text_addf(md->out, "**%s:** ", word);
        if (*word)
            add_text(md, note->text);
        else
            add_line(md, note->text);
        add(md, "\n");
    }
}

enum tc_status tc_print_markdown(struct tc_text *out, const struct tc_sheet *sheet,
                                 const struct tc_print_options *options)
{
    struct markdown md = {.out = out, .sheet = sheet, .ascii = options->ascii};
    enum tc_status status = tc_codes_find(&md.codes, sheet);
    if (status != TC_OK)
        return status;
    add(&md, "## ");
    add_text(&md, sheet->title);
    add(&md, "\n\n");
    if (*sheet->assumptions) {
        add_line(&md, sheet->assumptions);
        add(&md, "\n\n");
    }
    add_rows(&md);
    status = add_pictures(&md);
    add_notes(&md);
    tc_codes_free(&md.codes);
    if (status == TC_OK && out->failed)
        status = TC_NO_MEMORY;
    return status;
}
