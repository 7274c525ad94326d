/* SPDX-License-Identifier: MIT */
#include "print/html.h"

#include <string.h>

#include "core/base/number.h"
#include "print/canvas.h"
#include "print/cell.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/html_style.h"
#include "print/markup.h"
#include "print/row.h"
#include "print/svg.h"

enum { PICTURE_WIDTH = 90, CHART_HEIGHT = 20, MOST_MARKS = 3 };

struct html {
    struct tc_text *out;
    const struct tc_sheet *sheets; /* those of the page */
    size_t count, at;              /* the one being written */
    const struct tc_sheet *sheet;
    struct tc_codes codes;
    int picture;  /* so many were written on the page */
    bool in_body; /* of the table */
};

static void add(struct html *html, const char *markup)
{
    tc_text_add(html->out, markup);
}

static void add_text(struct html *html, const char *text)
{
    tc_markup_add(html->out, text);
}

/* A text as an element; none where there is nothing to say. */
static void add_element(struct html *html, const char *start, const char *text, const char *end)
{
    if (!*text)
        return;
    add(html, start);
    add_text(html, text);
    add(html, end);
}

/* -------------------------------------------------------------------- table */

/* The most marks that a cell of a column has: so much room all its figures leave. */
static int marks_of_column(const struct tc_sheet *sheet, size_t c)
{
    int most = 0;
    for (size_t r = 0; r < sheet->row_count; r++) {
        const struct tc_row *row = &sheet->rows[r];
        int marks = row->cells && row->kind != TC_ROW_SENTENCE ? tc_marks_count(row->cells[c].marks) : 0;
        most = marks > most ? marks : most;
    }
    return most < MOST_MARKS ? most : MOST_MARKS;
}

static void add_head_cell(struct html *html, size_t c)
{
    const struct tc_column *column = &html->sheet->columns[c];
    tc_text_addf(html->out, "<th scope=\"col\" class=\"%s m%d\">", column->words ? "w" : "n",
                 marks_of_column(html->sheet, c));
    add_text(html, column->head);
    add_element(html, "<br><small>", column->subhead, "</small>");
    add_element(html, "<br><small>", html->codes.columns[c], "</small>");
    add(html, "</th>");
}

static void add_head(struct html *html)
{
    const struct tc_sheet *sheet = html->sheet;
    const char *code = html->codes.whole;
    bool twice = strcmp(sheet->row_head, code) == 0;
    bool corner = *sheet->row_head || *code;
    add(html, "<thead>\n<tr>");
    add(html, corner ? "<th scope=\"col\">" : "<td>");
    add_text(html, sheet->row_head);
    if (*code && !twice)
        add_element(html, *sheet->row_head ? ", " : "", code, "");
    add(html, corner ? "</th>" : "</td>");
    for (size_t c = 0; c < sheet->column_count; c++)
        add_head_cell(html, c);
    add(html, "</tr>\n</thead>\n");
}

/* Each mark as its sign, and as its word for those who do not see it. */
static void add_marks(struct html *html, unsigned marks)
{
    if (!marks)
        return;
    add(html, "<span class=\"marks\">");
    for (size_t i = 0; tc_mark_at(i); i++) {
        unsigned mark = tc_mark_at(i);
        if (marks & mark)
            tc_text_addf(html->out, "<span aria-hidden=\"true\">%s</span><span class=\"heard\"> %s</span>",
                         tc_mark_sign(mark, false), tc_mark_word((enum tc_mark)mark));
    }
    add(html, "</span>");
}

static const char *tone_of(const struct tc_cell *cell)
{
    if (cell->kind == TC_CELL_MISSING || cell->marks & (TC_MARK_SHORT | TC_MARK_OVER | TC_MARK_INCOMPLETE))
        return " t5";
    return cell->marks & TC_MARK_BEST ? " t3" : cell->marks & TC_MARK_TYPED ? " t4" : "";
}

static void add_cell(struct html *html, size_t r, size_t c)
{
    char buffer[TC_NUMBER_SIZE];
    const struct tc_cell *cell = &html->sheet->rows[r].cells[c];
    bool words = html->sheet->columns[c].words;
    const char *kind = words ? "w" : tc_cell_is_figure(cell) ? "n" : "n x";
    const char *code = tc_codes_of_cell(&html->codes, r, c);
    tc_text_addf(html->out, "<td class=\"%s m%d%s\">", kind, marks_of_column(html->sheet, c), tone_of(cell));
    add(html, "<span class=\"in\">");
    add_text(html, tc_cell_text(buffer, cell, true));
    add_element(html, " <small>", code, "</small>");
    add_marks(html, cell->marks);
    add(html, "</span></td>");
}

static void start_body(struct html *html, bool indent)
{
    if (html->in_body)
        add(html, "</tbody>\n");
    add(html, indent ? "<tbody class=\"indent\">\n" : "<tbody>\n");
    html->in_body = true;
}

static void add_group(struct html *html, const struct tc_row *row)
{
    start_body(html, true);
    tc_text_addf(html->out, "<tr><th scope=\"rowgroup\" colspan=\"%zu\">", html->sheet->column_count + 1);
    add_text(html, row->label);
    add(html, "</th></tr>\n");
}

static void add_sentence(struct html *html, const struct tc_row *row)
{
    size_t columns = html->sheet->column_count;
    add(html, *row->label ? "<tr><th scope=\"row\">" : "<tr><td>");
    add_text(html, row->label);
    add(html, *row->label ? "</th>" : "</td>");
    if (columns > 0) {
        tc_text_addf(html->out, "<td colspan=\"%zu\">", columns);
        add_text(html, row->cells && row->cells[0].text ? row->cells[0].text : "");
        add_marks(html, row->cells ? row->cells[0].marks : 0);
        add(html, "</td>");
    }
    add(html, "</tr>\n");
}

static void add_row(struct html *html, size_t r)
{
    const struct tc_row *row = &html->sheet->rows[r];
    const char *code = html->codes.rows[r];
    add(html, row->kind == TC_ROW_TOTAL      ? "<tr class=\"total\">"
              : row->kind == TC_ROW_SUBTOTAL ? "<tr class=\"subtotal\">"
                                             : "<tr>");
    add(html, "<th scope=\"row\">");
    add_text(html, row->label);
    if (*row->unit || *code) {
        add(html, " <small>");
        add_text(html, code);
        add(html, *code && *row->unit ? " " : "");
        add_text(html, row->unit);
        add(html, "</small>");
    }
    add(html, "</th>");
    for (size_t c = 0; c < html->sheet->column_count; c++) {
        if (row->cells)
            add_cell(html, r, c);
        else
            add(html, "<td></td>");
    }
    add(html, "</tr>\n");
}

static void add_legend(struct html *html)
{
    unsigned marks = tc_marks_of_sheet(html->sheet);
    const char *before = "<p class=\"basis\">";
    for (size_t i = 0; tc_mark_at(i); i++) {
        unsigned mark = tc_mark_at(i);
        if (!(marks & mark))
            continue;
        tc_text_addf(html->out, "%s%s %s", before, tc_mark_sign(mark, false), tc_mark_meaning(mark));
        before = " · ";
    }
    if (marks)
        add(html, "</p>\n");
}

static void add_table(struct html *html)
{
    const struct tc_sheet *sheet = html->sheet;
    if (sheet->row_count == 0)
        return;
    add(html, "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"");
    add_text(html, sheet->title);
    add(html, "\">\n<table>\n");
    add_head(html);
    html->in_body = false;
    for (size_t r = 0; r < sheet->row_count; r++) {
        const struct tc_row *row = &sheet->rows[r];
        if (row->kind == TC_ROW_GROUP) {
            add_group(html, row);
            continue;
        }
        if (!html->in_body)
            start_body(html, false);
        if (row->kind == TC_ROW_SENTENCE)
            add_sentence(html, row);
        else
            add_row(html, r);
    }
    add(html, "</tbody>\n</table>\n</div>\n");
    add_legend(html);
}

/* ----------------------------------------------------------------- pictures */

/* The title stands over the picture and not in it. */
static void add_figure(struct html *html, const struct tc_canvas *canvas, const char *title)
{
    add(html, "<figure>\n");
    add_element(html, "<figcaption>", title, "</figcaption>\n");
    tc_text_addf(html->out,
                 "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"picture %d\">\n",
                 ++html->picture);
    tc_svg_add(html->out, canvas, 1, title, html->picture);
    add(html, "</div>\n</figure>\n");
}

static enum tc_status add_pictures(struct html *html)
{
    const struct tc_sheet *sheet = html->sheet;
    struct tc_canvas canvas = {.vector = true};
    enum tc_status status = TC_OK;
    if (sheet->drawing) {
        status = tc_drawing_draw(&canvas, sheet->drawing, PICTURE_WIDTH, 0, false);
        if (status == TC_OK)
            add_figure(html, &canvas, sheet->drawing->title);
    }
    for (size_t i = 0; i < sheet->chart_count && status == TC_OK; i++) {
        status = tc_chart_draw(&canvas, &sheet->charts[i], PICTURE_WIDTH, CHART_HEIGHT, false);
        if (status == TC_OK)
            add_figure(html, &canvas, sheet->charts[i].title);
    }
    tc_canvas_free(&canvas);
    return status;
}

/* -------------------------------------------------------------------- notes */

/* Whether a note stands on the page already, in one of the sheets before. */
static bool said_before(const struct html *html, const struct tc_note *note)
{
    for (size_t s = 0; s < html->at; s++)
        for (size_t i = 0; i < html->sheets[s].note_count; i++)
            if (html->sheets[s].notes[i].kind == note->kind &&
                strcmp(html->sheets[s].notes[i].text, note->text) == 0)
                return true;
    return false;
}

static void add_findings(struct html *html, const struct tc_sheet *sheet)
{
    bool any = false;
    for (size_t i = 0; i < sheet->note_count; i++) {
        if (sheet->notes[i].kind != TC_NOTE_FINDING || said_before(html, &sheet->notes[i]))
            continue;
        add(html, any ? "" : "<ul class=\"findings\">\n");
        any = true;
        add(html, "<li>");
        add_text(html, sheet->notes[i].text);
        add(html, "</li>\n");
    }
    add(html, any ? "</ul>\n" : "");
}

static void add_notes(struct html *html)
{
    for (size_t i = 0; i < html->sheet->note_count; i++) {
        const struct tc_note *note = &html->sheet->notes[i];
        if (note->kind == TC_NOTE_FINDING || said_before(html, note))
            continue;
        add(html, note->kind == TC_NOTE_CAUTION ? "<p class=\"note caution\">" : "<p class=\"note\">");
        add_element(html, "<strong>", tc_note_word(note->kind), ":</strong> ");
        add_text(html, note->text);
        add(html, "</p>\n");
    }
}

/* --------------------------------------------------------------------- page */

/* All of a sheet but its title and, on a page of several, the findings that stand above already. */
static enum tc_status add_sheet(struct html *html, size_t at, bool findings)
{
    html->at = at;
    html->sheet = &html->sheets[at];
    enum tc_status status = tc_codes_find(&html->codes, html->sheet);
    if (status != TC_OK)
        return status;
    add_element(html, "<p class=\"basis\">", html->sheet->assumptions, "</p>\n");
    if (findings)
        add_findings(html, html->sheet);
    bool pair = html->sheet->row_count > 0 && (html->sheet->drawing || html->sheet->chart_count > 0);
    add(html, pair ? "<div class=\"pair\">\n<div>\n" : "");
    add_table(html);
    add(html, pair ? "</div>\n<div class=\"pictures\">\n" : "");
    status = add_pictures(html);
    add(html, pair ? "</div>\n</div>\n" : "");
    add_notes(html);
    tc_codes_free(&html->codes);
    return status;
}

static void start_page(struct html *html, const char *title)
{
    add(html, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
              "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    add_text(html, *title ? title : "tankcost");
    add(html, "</title>\n<style>\n");
    tc_html_style_add(html->out);
    add(html, "</style>\n</head>\n<body>\n<main>\n");
    add_element(html, "<h1>", title, "</h1>\n");
}

static enum tc_status end_page(struct html *html, enum tc_status status)
{
    add(html, "</main>\n</body>\n</html>\n");
    return status == TC_OK && html->out->failed ? TC_NO_MEMORY : status;
}

enum tc_status tc_print_html(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options)
{
    struct html html = {.out = out, .sheets = sheet, .count = 1};
    (void)options;
    start_page(&html, sheet->title);
    return end_page(&html, add_sheet(&html, 0, true));
}

enum tc_status tc_print_html_page(struct tc_text *out, const char *title, const struct tc_sheet *sheets,
                                  size_t count, const struct tc_print_options *options)
{
    struct html html = {.out = out, .sheets = sheets, .count = count};
    enum tc_status status = TC_OK;
    (void)options;
    start_page(&html, title);
    if (count > 0)
        add_findings(&html, &sheets[0]);
    add(&html, "<nav aria-label=\"Sheets\">\n<ul>\n");
    for (size_t i = 0; i < count; i++) {
        tc_text_addf(out, "<li><a href=\"#s%zu\">", i + 1);
        add_text(&html, sheets[i].title);
        add(&html, "</a></li>\n");
    }
    add(&html, "</ul>\n</nav>\n");
    for (size_t i = 0; i < count && status == TC_OK; i++) {
        tc_text_addf(out, "<section id=\"s%zu\">\n<h2>", i + 1);
        add_text(&html, sheets[i].title);
        add(&html, "</h2>\n");
        status = add_sheet(&html, i, i > 0);
        add(&html, "</section>\n");
    }
    return end_page(&html, status);
}
