/* SPDX-License-Identifier: MIT */
#include "screen/browse.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "screen/body_draw.h"
#include "screen/change.h"
#include "screen/choose.h"
#include "screen/prompt.h"
#include "screen/refresh.h"

/* --------------------------------------------------------------------- scrolling */

static void scroll_lines(struct tc_state *state, struct tc_leaf *leaf)
{
    const struct tc_body *body = &leaf->body;
    struct tc_spot *spot = &leaf->spot;
    size_t height = (size_t)state->frame.body_height;
    if (spot->line < body->count) {
        size_t first, last;
        tc_body_extent(body, spot->line, &first, &last);
        if (last - first >= height) /* what is selected matters more than its headings */
            first = spot->line;
        if (last - first >= height)
            last = first + height - 1;
        if (first < spot->top)
            spot->top = first;
        if (last >= spot->top + height)
            spot->top = last - height + 1;
    }
    size_t furthest = body->count > height ? body->count - height : 0;
    if (spot->top > furthest)
        spot->top = furthest;
}

static void scroll_columns(struct tc_leaf *leaf)
{
    struct tc_spot *spot = &leaf->spot;
    size_t columns = leaf->sheet.column_count;
    if (spot->column >= columns)
        spot->column = columns ? columns - 1 : 0;
    if (spot->left > spot->column)
        spot->left = spot->column;
    while (spot->left < spot->column && spot->column >= spot->left + tc_body_columns(&leaf->body, spot->left))
        spot->left++;
    /* No room is left empty at the right that columns at the left could have. */
    while (spot->left > 0 && spot->left - 1 + tc_body_columns(&leaf->body, spot->left - 1) >= columns)
        spot->left--;
}

void tc_browse_into_sight(struct tc_state *state)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    if (!leaf->made || !leaf->body.sheet)
        return;
    scroll_columns(leaf);
    scroll_lines(state, leaf);
}

/* ------------------------------------------------------------------------ moving */

/* Selects the stop at a line or the next one in a direction; stays where there is none. */
static bool select_line(struct tc_state *state, size_t line, int direction)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    size_t stop = tc_body_next_stop(&leaf->body, line, direction);
    if (stop >= leaf->body.count)
        return false;
    leaf->spot.line = stop;
    return true;
}

void tc_browse_lines(struct tc_state *state, int by)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    int direction = by < 0 ? -1 : 1;
    for (int i = 0; i != by; i += direction) {
        size_t line = leaf->spot.line;
        if (direction < 0 ? line == 0 : line + 1 >= leaf->body.count)
            break;
        if (!select_line(state, direction < 0 ? line - 1 : line + 1, direction))
            break;
    }
    tc_browse_into_sight(state);
}

void tc_browse_pages(struct tc_state *state, int by)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    if (leaf->body.count == 0)
        return;
    size_t page = state->frame.body_height > 1 ? (size_t)state->frame.body_height - 1 : 1;
    size_t line = leaf->spot.line, top = leaf->spot.top;
    if (by < 0) {
        line = line > page ? line - page : 0;
        leaf->spot.top = top > page ? top - page : 0;
    } else {
        line = line + page < leaf->body.count ? line + page : leaf->body.count - 1;
        leaf->spot.top = top + page;
    }
    if (!select_line(state, line, by))
        select_line(state, line, -by);
    tc_browse_into_sight(state);
}

void tc_browse_ends(struct tc_state *state, int direction)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    if (leaf->body.count == 0)
        return;
    if (direction < 0)
        select_line(state, 0, 1);
    else
        select_line(state, leaf->body.count - 1, -1);
    tc_browse_into_sight(state);
}

void tc_browse_columns(struct tc_state *state, int by)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    if (by < 0 && leaf->spot.column > 0)
        leaf->spot.column--;
    else if (by > 0 && leaf->spot.column + 1 < leaf->sheet.column_count)
        leaf->spot.column++;
    tc_browse_into_sight(state);
}

/* ---------------------------------------------------------------------- questions */

void tc_browse_to_question(struct tc_state *state, size_t question)
{
    if (question >= state->question_count)
        return;
    state->question = question;
    tc_refresh_lay_out(state);
}

void tc_browse_question(struct tc_state *state, int by)
{
    size_t count = state->question_count;
    tc_browse_to_question(state, (state->question + (by < 0 ? count - 1 : 1)) % count);
}

/* --------------------------------------------------------------------------- find */

/* The nearest line in a direction from one on that holds the text, round the ends; body->count if none does.
 */
static size_t find_line(const struct tc_body *body, const char *text, size_t from, int direction)
{
    for (size_t i = 0; i < body->count; i++) {
        size_t line = direction > 0 ? (from + i) % body->count : (from + body->count - i) % body->count;
        if (tc_body_stop(body, line) && tc_body_holds(body, line, text))
            return line;
    }
    return body->count;
}

void tc_browse_back_to(struct tc_state *state, const struct tc_spot *spot)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    size_t count = leaf->body.count;
    leaf->spot = *spot;
    if (count == 0)
        return;
    if (leaf->spot.line >= count)
        leaf->spot.line = count - 1;
    if (!select_line(state, leaf->spot.line, 1))
        select_line(state, leaf->spot.line, -1);
    tc_browse_into_sight(state);
}

void tc_browse_find(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_open(state, TC_PROMPT_FIND, "");
}

void tc_browse_find_typed(struct tc_state *state, const char *text, const struct tc_spot *from)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    tc_browse_back_to(state, from);
    tc_clean(state->find, sizeof state->find, text);
    if (leaf->body.count == 0 || text[strspn(text, " ")] == '\0')
        return;
    size_t line = find_line(&leaf->body, text, leaf->spot.line, 1);
    if (line < leaf->body.count)
        leaf->spot.line = line;
    tc_browse_into_sight(state);
}

void tc_browse_again(struct tc_state *state, int direction)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    size_t count = leaf->body.count;
    if (state->find[0] == '\0') {
        tc_state_say(state, "Nothing was looked for yet: f finds.");
        return;
    }
    size_t line = count;
    if (count > 0)
        line = find_line(&leaf->body, state->find,
                         (leaf->spot.line + (direction > 0 ? 1 : count - 1)) % count, direction);
    if (line >= count)
        tc_state_warn(state, "'%s' is not in this sheet.", state->find);
    else
        leaf->spot.line = line;
    tc_browse_into_sight(state);
}

void tc_browse_forget(struct tc_state *state, int unused)
{
    (void)unused;
    state->find[0] = '\0';
}

bool tc_browse_forget_possible(const struct tc_state *state)
{
    return state->find[0] != '\0';
}

/* -------------------------------------------------------------------------- mouse */

/* The column of the sheet shown at a column of the screen; column_count where none is. */
static size_t column_at(const struct tc_leaf *leaf, int x)
{
    const struct tc_body *body = &leaf->body;
    size_t end = leaf->spot.left + tc_body_columns(body, leaf->spot.left);
    for (size_t c = leaf->spot.left; c < end; c++) {
        const struct tc_layout_column *column = &body->layout.columns[c];
        int field = tc_body_field(body, leaf->spot.left, c);
        if (x >= field - 1 && x < field + column->width + column->signs)
            return c;
    }
    return leaf->sheet.column_count;
}

static void click_sheet(struct tc_state *state, int x, int y)
{
    struct tc_leaf *leaf = tc_state_leaf(state);
    size_t line = leaf->spot.top + (size_t)y;
    if (y < 0 || y >= state->frame.body_height || line >= leaf->body.count)
        return;
    while (line > 0 && leaf->body.lines[line].part > 0 && leaf->body.lines[line].kind != TC_LINE_PICTURE)
        line--;
    if (!tc_body_stop(&leaf->body, line))
        return;
    size_t column = column_at(leaf, x - state->frame.margin);
    bool again = line == leaf->spot.line && column == leaf->spot.column;
    leaf->spot.line = line;
    if (column < leaf->sheet.column_count)
        leaf->spot.column = column;
    tc_browse_into_sight(state);
    if (again)
        tc_change_cell(state, 0);
}

void tc_browse_click(struct tc_state *state, int column, int row)
{
    if (tc_state_top(state) == TC_LAYER_SHEET)
        click_sheet(state, column, row - state->frame.body);
    else if (tc_state_top(state) == TC_LAYER_PICKER)
        tc_choose_click(state, row);
}

void tc_browse_mouse(struct tc_state *state, int unused)
{
    (void)unused;
    state->mouse = !state->mouse;
    tc_state_say(state, state->mouse ? "The mouse selects and scrolls now; m gives it back to the terminal."
                                     : "The mouse belongs to the terminal again.");
}

void tc_browse_redraw(struct tc_state *state, int unused)
{
    (void)unused;
    state->redraw = true;
}
