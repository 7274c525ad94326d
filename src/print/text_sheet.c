/* SPDX-License-Identifier: MIT */
#include "print/text_sheet.h"

#include "print/canvas.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/pen.h"
#include "print/row.h"
#include "print/table.h"
#include "print/width.h"

enum { PICTURE_WIDTH = 80, CHART_HEIGHT = 20 };

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

static enum tc_status put_legend(struct tc_pen *pen, const struct tc_sheet *sheet,
                                 const struct tc_print_options *options)
{
    struct tc_canvas strip = TC_CANVAS_EMPTY;
    enum tc_status status = tc_row_legend(&strip, sheet, options->width, options->ascii);
    if (strip.height > 0)
        tc_pen_line(pen);
    tc_canvas_write(&strip, pen);
    tc_canvas_free(&strip);
    return status;
}

static enum tc_status put_pictures(struct tc_pen *pen, const struct tc_sheet *sheet,
                                   const struct tc_print_options *options)
{
    int width = options->width > 0 ? options->width : PICTURE_WIDTH;
    enum tc_status status = TC_OK;
    struct tc_canvas canvas = {.fine = options->fine};
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
static enum tc_status put_notes(struct tc_pen *pen, const struct tc_sheet *sheet, bool findings,
                                const struct tc_print_options *options)
{
    struct tc_canvas strip = TC_CANVAS_EMPTY;
    enum tc_status status = TC_OK;
    bool any = false;
    for (size_t i = 0; i < sheet->note_count && status == TC_OK; i++) {
        if ((sheet->notes[i].kind == TC_NOTE_FINDING) != findings)
            continue;
        if (!any)
            tc_pen_line(pen);
        any = true;
        status = tc_row_note(&strip, &sheet->notes[i], options->width);
        tc_canvas_write(&strip, pen);
    }
    tc_canvas_free(&strip);
    return status;
}

enum tc_status tc_print_text(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options)
{
    struct tc_pen pen = {.out = out, .colour = options->colour};
    put_title(&pen, sheet, options);
    enum tc_status status = put_notes(&pen, sheet, true, options);
    if (sheet->row_count > 0 && status == TC_OK) {
        tc_pen_line(&pen);
        status = tc_table_add(out, sheet, options);
        if (status == TC_OK)
            status = put_legend(&pen, sheet, options);
    }
    if (status == TC_OK)
        status = put_pictures(&pen, sheet, options);
    if (status == TC_OK)
        status = put_notes(&pen, sheet, false, options);
    if (status == TC_OK && out->failed)
        status = TC_NO_MEMORY;
    return status;
}
