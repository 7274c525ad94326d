/* SPDX-License-Identifier: MIT */
#include "profile/stock_finish.h"
#include "support/screen_case.h"

#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "print/cell.h"
#include "screen/keymap.h"
#include "screen/arranging.h"
#include "screen/scroll.h"
#include "screen/style_role.h"
#include "screen/view.h"
#include "screen/refresh.h"

/* As the program reads them; by a path that holds wherever a test goes. */
static enum tc_status read_profiles(const void *context, struct tc_stock *stock, struct tc_faults *faults)
{
    const struct screen_case *c = context;
    enum tc_status status = tc_stock_read_folder(stock, c->profiles, false, faults);
    if (status == TC_OK && c->options.own_folder)
        status = tc_stock_read_folder(stock, c->options.own_folder, true, faults);
    return status == TC_OK ? tc_stock_finish(stock, faults) : status;
}

void screen_case_start(struct screen_case *c, int width, int height)
{
    screen_case_start_on(c, "tests/data/profiles", "spring", width, height);
}

void screen_case_start_on(struct screen_case *c, const char *profiles, const char *name, int width,
                          int height)
{
    memset(c, 0, sizeof *c);
    tc_stock_start(&c->stock);
    assert_non_null(realpath(profiles, c->profiles));
    assert_int_equal(read_profiles(c, &c->stock, &c->faults), TC_OK);
    const struct tc_plan *plan = tc_stock_plan(&c->stock, name);
    assert_non_null(plan);
    memcpy(&c->plan, plan, sizeof c->plan);
    c->options = (struct tc_screen_options){.stock = &c->stock,
                                            .read = read_profiles,
                                            .read_context = c,
                                            .plan = &c->plan,
                                            .today = {2026, 3, 5},
                                            .ask = {.seed = 1, .draws = 2000}};
    assert_int_equal(tc_keymap_start(&c->state, &c->options, width, height), TC_OK);
    tc_refresh_do(&c->state, NULL, NULL);
}

void screen_case_free(struct screen_case *c)
{
    tc_state_free(&c->state);
    tc_stock_free(&c->stock);
    tc_faults_free(&c->faults);
    tc_text_free(&c->seen);
}

void screen_case_show(struct screen_case *c, void (*make)(struct tc_sheet *sheet))
{
    struct tc_tab *tab = tc_state_tab(&c->state);
    struct tc_sheet sheet;
    make(&sheet);
    tab->version = c->state.version;
    tc_body_free(&tab->body);
    tab->position = (struct tc_position){0, 0, 0, 0};
    tc_arranging_put(&c->state, &sheet);
}

void screen_press(struct screen_case *c, uint32_t code)
{
    tc_keymap_press(&c->state, (struct tc_key_event){.code = code});
    if (tc_refresh_waits(&c->state))
        tc_refresh_do(&c->state, NULL, NULL);
}

void screen_type(struct screen_case *c, const char *keys)
{
    for (; *keys; keys++) {
        switch (*keys) {
        case '\r': screen_press(c, TC_EVENT_ENTER); break;
        case '\t': screen_press(c, TC_EVENT_TAB); break;
        case '\033': screen_press(c, TC_EVENT_ESCAPE); break;
        case '\b': screen_press(c, TC_EVENT_BACKSPACE); break;
        case '\025': screen_press(c, TC_EVENT_CLEAR_LINE); break;
        default: screen_press(c, (unsigned char)*keys);
        }
    }
}

static char role_letter(unsigned role)
{
    /* In the order of print/pen.h and screen/style_role.h. */
    static const char letters[] = ".bsetw123456khfi|";
    unsigned which = role & ~(unsigned)TC_ROLE_SELECTED;
    char letter = which < sizeof letters - 1 ? letters[which] : '?';
    if (!(role & TC_ROLE_SELECTED))
        return letter;
    return letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : '#';
}

static void add_picture(struct tc_text *out, const struct tc_canvas *canvas, const struct tc_cursor *cursor,
                        bool roles)
{
    for (int row = 0; row < canvas->height; row++) {
        struct tc_text line = TC_TEXT_EMPTY;
        for (int column = 0; column < canvas->width; column++) {
            const struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
            char letter = role_letter(glyph->tone);
            if (roles && cursor->column == column && cursor->row == row)
                letter = '+';
            if (letter == '.' && strcmp(glyph->text, " ") == 0)
                letter = ' ';
            if (roles)
                tc_text_add_char(&line, letter);
            else
                tc_text_add(&line, glyph->text);
        }
        size_t length = line.length;
        while (length > 0 && line.data[length - 1] == ' ')
            length--;
        tc_text_add_bytes(out, tc_text_string(&line), length);
        tc_text_add_char(out, '\n');
        tc_text_free(&line);
    }
}

static const char *look(struct screen_case *c, bool roles)
{
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_cursor cursor;
    assert_int_equal(tc_view_draw(&c->state, &canvas, &cursor), TC_OK);
    assert_int_equal(canvas.width, c->state.frame.width);
    assert_int_equal(canvas.height, c->state.frame.height);
    tc_text_clear(&c->seen);
    add_picture(&c->seen, &canvas, &cursor, false);
    if (roles)
        add_picture(&c->seen, &canvas, &cursor, true);
    tc_canvas_free(&canvas);
    return tc_text_string(&c->seen);
}

const char *screen_text(struct screen_case *c)
{
    return look(c, false);
}

const char *screen_roles(struct screen_case *c)
{
    return look(c, true);
}

bool screen_shows(struct screen_case *c, const char *text)
{
    return strstr(screen_text(c), text) != NULL;
}

static size_t find_row(const struct tc_sheet *sheet, const char *label, int n)
{
    for (size_t r = 0; r < sheet->row_count; r++)
        if (sheet->rows[r].kind != TC_ROW_GROUP && strcmp(sheet->rows[r].label, label) == 0 && n-- == 0)
            return r;
    return sheet->row_count;
}

void screen_select(struct screen_case *c, const char *label, size_t column)
{
    struct tc_tab *tab = tc_state_tab(&c->state);
    size_t row = find_row(&tab->sheet, label, 0);
    for (size_t i = 0; i < tab->body.count; i++) {
        enum tc_line_kind kind = tab->body.lines[i].kind;
        if ((kind == TC_LINE_ROW || kind == TC_LINE_SENTENCE) && tab->body.lines[i].index == row) {
            tab->position.line = i;
            tab->position.column = column;
            tc_scroll_into_sight(&c->state);
            return;
        }
    }
    fail_msg("no row '%s'", label);
}

const char *screen_cell(struct screen_case *c, const char *label, int n, size_t column)
{
    static char text[TC_NUMBER_SIZE];
    const struct tc_sheet *sheet = &tc_state_tab(&c->state)->sheet;
    size_t row = find_row(sheet, label, n);
    if (row >= sheet->row_count || column >= sheet->column_count)
        return "";
    return tc_cell_text(text, &sheet->rows[row].cells[column], false);
}
