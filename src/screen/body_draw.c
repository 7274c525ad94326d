/* SPDX-License-Identifier: MIT */
#include "screen/body_draw.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "print/cell.h"
#include "print/width.h"
#include "screen/role.h"

struct pencil {
    const struct tc_body *body;
    const struct tc_look_at *at;
    struct tc_canvas *canvas;
    int start, row;
    bool selected; /* the line drawn is the selected one */
};

static void put_bytes(const struct pencil *p, int column, unsigned tone, const char *text, size_t length)
{
    char buffer[2048];
    if (length >= sizeof buffer)
        length = tc_utf8_cut(text, length, sizeof buffer - 1);
    memcpy(buffer, text, length);
    buffer[length] = '\0';
    tc_canvas_text(p->canvas, p->start + column, p->row, tc_role_tone(tone), buffer);
}

static void put(const struct pencil *p, int column, unsigned tone, const char *text)
{
    put_bytes(p, column, tone, text, strlen(text));
}

/* The part-th line of a text wrapped to a first width and a further one; false past its end. */
static bool wrapped(const char *text, int first, int further, int part, const char **line, size_t *length)
{
    struct tc_wrap wrap = {text, first > 0 ? first : 1};
    while (tc_wrap_next(&wrap, line, length)) {
        if (part-- == 0)
            return true;
        wrap.width = further > 0 ? further : 1;
    }
    return false;
}

static size_t column_end(const struct pencil *p)
{
    return p->at->left + tc_body_columns(p->body, p->at->left);
}

/* ------------------------------------------------------------------- texts */

/* True if a word of `length` bytes occurs in text. */
static bool word_occurs(const char *text, const char *word, size_t length)
{
    for (; *text; text++) {
        size_t i = 0;
        while (i < length && text[i] && tc_name_lower(text[i]) == tc_name_lower(word[i]))
            i++;
        if (i == length)
            return true;
    }
    return false;
}

bool tc_text_holds(const char *text, const char *find)
{
    for (;;) {
        find += strspn(find, " ");
        size_t length = strcspn(find, " ");
        if (length == 0)
            return true;
        if (!word_occurs(text, find, length))
            return false;
        find += length;
    }
}

bool tc_body_holds(const struct tc_body *body, size_t line, const char *find)
{
    const struct tc_line *l = &body->lines[line];
    if (find[strspn(find, " ")] == '\0')
        return false;
    if (l->kind == TC_LINE_NOTE)
        return tc_text_holds(body->sheet->notes[l->index].text, find);
    if (l->kind != TC_LINE_ROW && l->kind != TC_LINE_SENTENCE && l->kind != TC_LINE_GROUP)
        return false;
    const struct tc_row *row = &body->sheet->rows[l->index];
    if (tc_text_holds(row->label, find))
        return true;
    for (size_t c = 0; row->cells && c < body->sheet->column_count; c++) {
        char buffer[TC_NUMBER_SIZE];
        if (tc_text_holds(tc_cell_text(buffer, &row->cells[c], true), find))
            return true;
    }
    return false;
}

/* ------------------------------------------------------------------- table */

static unsigned label_tone(const struct tc_row *row)
{
    return row->kind == TC_ROW_LINE || row->kind == TC_ROW_SENTENCE ? TC_TONE_PLAIN : TC_TONE_STRONG;
}

static unsigned cell_tone(const struct tc_row *row, const struct tc_cell *cell)
{
    if (cell->kind == TC_CELL_MISSING || cell->marks & (TC_MARK_SHORT | TC_MARK_OVER | TC_MARK_INCOMPLETE))
        return TC_TONE_WARN;
    if (cell->marks & TC_MARK_BEST)
        return TC_TONE_BEST;
    if (cell->marks & TC_MARK_TYPED)
        return TC_TONE_TYPED;
    return label_tone(row);
}

static void draw_label(const struct pencil *p, size_t r, int part)
{
    const struct tc_body *body = p->body;
    const struct tc_row *row = &body->sheet->rows[r];
    int indent = tc_layout_indent(&body->layout, row);
    unsigned tone = label_tone(row);
    if (p->at->find[0] && tc_text_holds(row->label, p->at->find))
        tone = TC_ROLE_FOUND;
    char unit[48];
    tc_layout_unit(&body->layout, r, unit, sizeof unit);
    int room = body->layout.label - indent - (*unit ? TC_LAYOUT_GAP + tc_width(unit) : 0);
    const char *line;
    size_t length;
    if (wrapped(row->label, room, room - TC_LAYOUT_INDENT, part, &line, &length))
        put_bytes(p, indent + (part > 0 ? TC_LAYOUT_INDENT : 0), tone, line, length);
    if (part == 0 && *unit)
        put(p, body->layout.label - tc_width(unit), TC_TONE_SOFT, unit);
}

/* The selected cell is marked over its whole field, so that an empty one is seen as well. */
static void mark_selected(const struct pencil *p, size_t c)
{
    const struct tc_layout_column *column = &p->body->layout.columns[c];
    int field = p->start + tc_body_field(p->body, p->at->left, c);
    for (int i = -1; i < column->width + column->signs; i++) {
        struct tc_glyph *glyph = tc_canvas_at(p->canvas, field + i, p->row);
        if (glyph)
            glyph->tone = (unsigned char)(glyph->tone | TC_ROLE_SELECTED);
    }
}

static void draw_figure(const struct pencil *p, size_t r, size_t c, const char *text)
{
    const struct tc_row *row = &p->body->sheet->rows[r];
    const struct tc_layout_column *column = &p->body->layout.columns[c];
    const char *code = tc_codes_of_cell(&p->body->layout.codes, r, c);
    int field = tc_body_field(p->body, p->at->left, c);
    int blanks = column->words ? 0 : column->width - column->tail - (int)strcspn(text, ".");
    int start = field + (blanks > 0 ? blanks : 0);
    put(p, start, cell_tone(row, &row->cells[c]), text);
    if (*code)
        put(p, start + (int)strlen(text) + 1, TC_TONE_SOFT, code);
}

static void draw_words(const struct pencil *p, size_t r, size_t c, const char *text, int part)
{
    const struct tc_row *row = &p->body->sheet->rows[r];
    const struct tc_layout_column *column = &p->body->layout.columns[c];
    int field = tc_body_field(p->body, p->at->left, c);
    const char *line;
    size_t length;
    if (!wrapped(text, column->width, column->width, part, &line, &length))
        return;
    int blanks = column->words ? 0 : column->width - tc_width_bytes(line, length);
    put_bytes(p, field + (blanks > 0 ? blanks : 0), cell_tone(row, &row->cells[c]), line, length);
}

static void draw_signs(const struct pencil *p, const struct tc_row *row, size_t c)
{
    int column = tc_body_field(p->body, p->at->left, c) + p->body->layout.columns[c].width + 1;
    for (size_t i = 0; tc_mark_at(i); i++)
        if (row->cells[c].marks & tc_mark_at(i))
            put(p, column++, cell_tone(row, &row->cells[c]), tc_mark_sign(tc_mark_at(i), p->body->ascii));
}

static void draw_row(const struct pencil *p, size_t r, int part)
{
    const struct tc_row *row = &p->body->sheet->rows[r];
    draw_label(p, r, part);
    for (size_t c = p->at->left; c < column_end(p); c++) {
        char buffer[TC_NUMBER_SIZE];
        const char *text = tc_cell_text(buffer, &row->cells[c], true);
        if (!tc_cell_is_figure(&row->cells[c]))
            draw_words(p, r, c, text, part);
        else if (part == 0)
            draw_figure(p, r, c, text);
        if (part == 0)
            draw_signs(p, row, c);
        if (p->selected && c == p->at->column)
            mark_selected(p, c);
    }
}

static void draw_sentence(const struct pencil *p, size_t r, int part)
{
    const struct tc_body *body = p->body;
    const struct tc_row *row = &body->sheet->rows[r];
    const char *text = body->sheet->column_count > 0 && row->cells[0].text ? row->cells[0].text : "";
    int field = body->layout.label + TC_LAYOUT_GAP;
    int room = body->width - field;
    const char *line;
    size_t length;
    draw_label(p, r, part);
    if (wrapped(text, room, room, part, &line, &length))
        put_bytes(p, field, body->sheet->column_count > 0 ? cell_tone(row, &row->cells[0]) : TC_TONE_PLAIN,
                  line, length);
}

static void draw_rule(const struct pencil *p)
{
    for (size_t c = p->at->left; c < column_end(p); c++)
        tc_canvas_across(p->canvas, p->start + tc_body_field(p->body, p->at->left, c), p->row,
                         p->body->layout.columns[c].width, TC_TONE_SOFT, p->body->ascii ? "-" : "─");
}

/* ------------------------------------------------------------------- heads */

static void draw_storey(const struct pencil *p, int storey, int part)
{
    for (size_t c = p->at->left; c < column_end(p); c++) {
        const struct tc_layout_column *column = &p->body->layout.columns[c];
        const char *line;
        size_t length;
        if (!wrapped(tc_body_head(p->body, storey, c), column->width, column->width, part, &line, &length))
            continue;
        bool last = part + 1 == p->body->storey[storey]; /* takes all that is left, and is cut */
        int width = last ? tc_width(line) : tc_width_bytes(line, length);
        int blanks = column->words || width > column->width ? 0 : column->width - width;
        unsigned tone = storey > 0 ? TC_TONE_SOFT : c == p->at->column ? TC_ROLE_HERE : TC_TONE_STRONG;
        int field = tc_body_field(p->body, p->at->left, c) + blanks;
        if (last)
            tc_canvas_field(p->canvas, p->start + field, p->row, column->width - blanks, TC_ALIGN_LEFT,
                            tc_role_tone(tone), line, p->body->ascii);
        else
            put_bytes(p, field, tone, line, length);
    }
}

void tc_body_draw_heads(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                        int start, int row)
{
    struct pencil p = {body, at, canvas, start, row, false};
    const char *code = body->layout.codes.whole;
    put(&p, 0, TC_TONE_STRONG, body->sheet->row_head);
    if (strcmp(body->sheet->row_head, code) != 0)
        put(&p, body->layout.label - tc_width(code), TC_TONE_SOFT, code);
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++)
        for (int part = 0; part < body->storey[storey]; part++, p.row++)
            draw_storey(&p, storey, part);
}

/* ------------------------------------------------------------------- others */

static void draw_group(const struct pencil *p, size_t r, int part)
{
    const char *label = p->body->sheet->rows[r].label, *line;
    size_t length;
    bool found = p->at->find[0] && tc_text_holds(label, p->at->find);
    if (wrapped(label, p->body->width, p->body->width, part, &line, &length))
        put_bytes(p, 0, found ? TC_ROLE_FOUND : TC_TONE_STRONG, line, length);
}

static void draw_note(const struct pencil *p, size_t n, int part)
{
    const struct tc_note *note = &p->body->sheet->notes[n];
    const char *lead = tc_body_note_lead(p->body, n), *line;
    bool urgent = note->kind == TC_NOTE_CAUTION || note->kind == TC_NOTE_FAULT;
    bool found = p->at->find[0] && tc_text_holds(note->text, p->at->find);
    int taken = *lead ? tc_width(lead) + 2 : 0;
    size_t length;
    if (part == 0 && *lead) {
        put(p, 0, urgent ? TC_TONE_WARN : TC_TONE_SOFT, lead);
        put(p, taken - 2, urgent ? TC_TONE_WARN : TC_TONE_SOFT, ":");
    }
    if (wrapped(note->text, p->body->width - taken, p->body->width - TC_LAYOUT_INDENT, part, &line, &length))
        put_bytes(p, part > 0 ? TC_LAYOUT_INDENT : taken, found ? TC_ROLE_FOUND : TC_TONE_PLAIN, line,
                  length);
}

static void draw_legend(const struct pencil *p, int part)
{
    char item[96];
    int column = 0;
    for (int i = part < 0 ? 0 : part; tc_body_legend(p->body, (size_t)i, item, sizeof item); i++) {
        put(p, column, TC_TONE_SOFT, item);
        column += tc_width(item) + 3;
        if (part >= 0)
            break;
    }
}

void tc_body_draw_picture(const struct tc_canvas *picture, int picture_row, struct tc_canvas *canvas,
                          int start, int row)
{
    for (int column = 0; column < picture->width; column++) {
        const struct tc_glyph *from = tc_canvas_at(picture, column, picture_row);
        struct tc_glyph *to = tc_canvas_at(canvas, start + column, row);
        if (from && to)
            *to = *from;
    }
}

void tc_body_draw_beside(const struct tc_body *body, struct tc_canvas *canvas, int start, int row)
{
    for (size_t i = 0; i < body->beside; i++) {
        const struct tc_canvas *picture = &body->pictures[i];
        for (int line = 0; line < picture->height; line++)
            tc_body_draw_picture(picture, line, canvas, start + body->beside_start, row++);
        row++;
    }
}

void tc_body_draw_line(const struct tc_body *body, size_t line, const struct tc_look_at *at,
                       struct tc_canvas *canvas, int start, int row)
{
    const struct tc_line *l = &body->lines[line];
    bool selected = at->line < body->count && body->lines[at->line].kind == l->kind &&
                    body->lines[at->line].index == l->index;
    struct pencil p = {body, at, canvas, start, row, selected};
    switch (l->kind) {
    case TC_LINE_BLANK: break;
    case TC_LINE_RULE: draw_rule(&p); break;
    case TC_LINE_GROUP: draw_group(&p, l->index, l->part); break;
    case TC_LINE_ROW: draw_row(&p, l->index, l->part); break;
    case TC_LINE_SENTENCE: draw_sentence(&p, l->index, l->part); break;
    case TC_LINE_LEGEND: draw_legend(&p, l->part); break;
    case TC_LINE_PICTURE: tc_body_draw_picture(&body->pictures[l->index], l->part, canvas, start, row); break;
    case TC_LINE_NOTE: draw_note(&p, l->index, l->part); break;
    }
}

int tc_body_cursor(const struct tc_body *body, const struct tc_look_at *at)
{
    if (at->line >= body->count || body->lines[at->line].kind != TC_LINE_ROW || at->column < at->left ||
        at->column >= at->left + tc_body_columns(body, at->left))
        return 0;
    /* The last cell of the field: where the last digit of a figure stands. */
    const struct tc_layout_column *column = &body->layout.columns[at->column];
    return tc_body_field(body, at->left, at->column) + (column->words ? 0 : column->width - 1);
}
