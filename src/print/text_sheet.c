/* SPDX-License-Identifier: MIT */
#include "print/text_sheet.h"

#include <string.h>

#include "print/canvas.h"
#include "print/cell.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/pen.h"
#include "print/table.h"
#include "print/width.h"

enum { PICTURE_WIDTH = 80, CHART_HEIGHT = 20, NOTE_HANG = 2 };

const char *tc_note_word(enum tc_note_kind kind)
{
    switch (kind) {
    case TC_NOTE_FINDING: return "";
    case TC_NOTE_REMARK: return "Note";
    case TC_NOTE_CAUTION: return "Caution";
    case TC_NOTE_FAULT: return "Missing";
    }
    return "";
}

/* The title runs out into a water line. */
static void put_title(struct tc_pen *pen, const struct tc_sheet *sheet,
                      const struct tc_print_options *options)
{
    int width = options->width > 0 ? options->width : PICTURE_WIDTH;
    int left = width - tc_width(sheet->title) - 1;
    if (left < 3) {
        tc_pen_paragraph(pen, TC_TONE_STRONG, sheet->title, 0, options->width);
    } else {
        tc_pen_write(pen, TC_TONE_STRONG, sheet->title);
        tc_pen_to(pen, pen->column + 1);
        tc_pen_rule(pen, TC_TONE_SOFT, options->ascii ? "~" : "≈", left);
        tc_pen_line(pen);
    }
    if (*sheet->assumptions)
        tc_pen_paragraph(pen, TC_TONE_PLAIN, sheet->assumptions, 0, options->width);
}

/* The signs that occur, each with its meaning; an item is never broken. */
static void put_legend(struct tc_pen *pen, const struct tc_sheet *sheet,
                       const struct tc_print_options *options)
{
    unsigned marks = tc_marks_of_sheet(sheet);
    if (!marks)
        return;
    tc_pen_line(pen);
    for (size_t i = 0; tc_mark_at(i); i++) {
        unsigned mark = tc_mark_at(i);
        if (!(marks & mark))
            continue;
        int width = 2 + tc_width(tc_mark_meaning(mark));
        if (pen->column > 0 && options->width > 0 && pen->column + 3 + width > options->width)
            tc_pen_line(pen);
        if (pen->column > 0)
            tc_pen_to(pen, pen->column + 3);
        tc_pen_write(pen, TC_TONE_SOFT, tc_mark_sign(mark, options->ascii));
        tc_pen_to(pen, pen->column + 1);
        tc_pen_write(pen, TC_TONE_SOFT, tc_mark_meaning(mark));
    }
    tc_pen_line(pen);
}

static enum tc_status put_pictures(struct tc_pen *pen, const struct tc_sheet *sheet,
                                   const struct tc_print_options *options)
{
    int width = options->width > 0 ? options->width : PICTURE_WIDTH;
    enum tc_status status = TC_OK;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    if (sheet->drawing) {
        status = tc_drawing_draw(&canvas, sheet->drawing, width, 0, options->ascii);
        if (status == TC_OK) {
            tc_pen_line(pen);
            tc_canvas_write(&canvas, pen);
        }
    }
    for (size_t i = 0; i < sheet->chart_count && status == TC_OK; i++) {
        status = tc_chart_draw(&canvas, &sheet->charts[i], width, CHART_HEIGHT, options->ascii);
        if (status == TC_OK) {
            tc_pen_line(pen);
            tc_canvas_write(&canvas, pen);
        }
    }
    tc_canvas_free(&canvas);
    return status;
}

/* The findings, which answer the question and so stand first, or all other notes, which stand last. */
static void put_notes(struct tc_pen *pen, const struct tc_sheet *sheet, bool findings,
                      const struct tc_print_options *options)
{
    bool any = false;
    for (size_t i = 0; i < sheet->note_count; i++) {
        const struct tc_note *note = &sheet->notes[i];
        if ((note->kind == TC_NOTE_FINDING) != findings)
            continue;
        if (!any)
            tc_pen_line(pen);
        any = true;
        const char *word = tc_note_word(note->kind);
        bool urgent = note->kind == TC_NOTE_CAUTION || note->kind == TC_NOTE_FAULT;
        if (*word) {
            tc_pen_write(pen, urgent ? TC_TONE_WARN : TC_TONE_SOFT, word);
            tc_pen_write(pen, urgent ? TC_TONE_WARN : TC_TONE_SOFT, ":");
            tc_pen_to(pen, pen->column + 1);
        }
        enum tc_tone tone = note->kind == TC_NOTE_FINDING ? TC_TONE_STRONG : TC_TONE_PLAIN;
        tc_pen_paragraph(pen, tone, note->text, NOTE_HANG, options->width);
    }
}

enum tc_status tc_print_text(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options)
{
    struct tc_pen pen = {.out = out, .colour = options->colour};
    enum tc_status status = TC_OK;
    put_title(&pen, sheet, options);
    put_notes(&pen, sheet, true, options);
    if (sheet->row_count > 0) {
        tc_pen_line(&pen);
        status = tc_table_add(out, sheet, options);
        put_legend(&pen, sheet, options);
    }
    if (status == TC_OK)
        status = put_pictures(&pen, sheet, options);
    put_notes(&pen, sheet, false, options);
    if (status == TC_OK && out->failed)
        status = TC_NO_MEMORY;
    return status;
}
