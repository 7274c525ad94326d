/* SPDX-License-Identifier: MIT */
#include "print/pen.h"

#include <string.h>

#include "print/width.h"

static const char *const codes[TC_TONE_COUNT] = {
    [TC_TONE_STRONG] = "1",      [TC_TONE_SOFT] = "2",          [TC_TONE_BEST] = "1;36",
    [TC_TONE_TYPED] = "35",      [TC_TONE_WARN] = "33",         [TC_TONE_SERIES] = "36",
    [TC_TONE_SERIES + 1] = "33", [TC_TONE_SERIES + 2] = "35",   [TC_TONE_SERIES + 3] = "34",
    [TC_TONE_SERIES + 4] = "1",  [TC_TONE_SERIES + 5] = "1;34",
};

void tc_pen_to(struct tc_pen *pen, int column)
{
    if (column > pen->column) {
        pen->blanks += column - pen->column;
        pen->column = column;
    }
}

/* Puts a tone in force. Blanks are held back until something follows them on the line. */
static void begin(struct tc_pen *pen, enum tc_tone tone)
{
    if (pen->colour && tone != pen->tone) {
        if (codes[pen->tone])
            tc_text_add(pen->out, "\033[0m");
        pen->tone = TC_TONE_PLAIN;
    }
    if (pen->blanks > 0)
        tc_text_add_repeated(pen->out, " ", (size_t)pen->blanks);
    pen->blanks = 0;
    if (pen->colour && tone != pen->tone && codes[tone])
        tc_text_addf(pen->out, "\033[%sm", codes[tone]);
    pen->tone = tone;
}

static void put(struct tc_pen *pen, enum tc_tone tone, const char *text, size_t length)
{
    size_t end = length;
    while (end > 0 && text[end - 1] == ' ')
        end--;
    if (end > 0) {
        begin(pen, tone);
        tc_text_add_bytes(pen->out, text, end);
    }
    pen->column += tc_width_bytes(text, length);
    pen->blanks += (int)(length - end);
}

void tc_pen_write(struct tc_pen *pen, enum tc_tone tone, const char *text)
{
    put(pen, tone, text, strlen(text));
}

void tc_pen_rule(struct tc_pen *pen, enum tc_tone tone, const char *sign, int count)
{
    if (count < 1)
        return;
    begin(pen, tone);
    tc_text_add_repeated(pen->out, sign, (size_t)count);
    pen->column += count;
}

void tc_pen_line(struct tc_pen *pen)
{
    pen->blanks = 0;
    begin(pen, TC_TONE_PLAIN);
    tc_text_add_char(pen->out, '\n');
    pen->column = 0;
}

/* Columns left from `column` on; one where there are none, so that a word still comes out. */
static int room(int column, int width)
{
    if (width <= 0)
        return 0;
    return column < width ? width - column : 1;
}

void tc_pen_paragraph(struct tc_pen *pen, enum tc_tone tone, const char *text, int hang, int width)
{
    const char *line;
    size_t length;
    struct tc_wrap wrap = {text, room(pen->column, width)};
    bool more = tc_wrap_next(&wrap, &line, &length);
    while (more) {
        put(pen, tone, line, length);
        wrap.width = room(hang, width);
        more = tc_wrap_next(&wrap, &line, &length);
        if (more) {
            tc_pen_line(pen);
            tc_pen_to(pen, hang);
        }
    }
    tc_pen_line(pen);
}
