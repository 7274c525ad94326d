/* SPDX-License-Identifier: MIT */
#include "screen/browse.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "screen/body_draw.h"
#include "screen/prompt.h"
#include "screen/scroll.h"

/* ------------------------------------------------------------------------ moving */

void tc_browse_lines(struct tc_state *state, int by)
{
    struct tc_tab *tab = tc_state_tab(state);
    int direction = by < 0 ? -1 : 1;
    for (int i = 0; i != by; i += direction) {
        size_t line = tab->position.line;
        if (direction < 0 ? line == 0 : line + 1 >= tab->body.count)
            break;
        if (!tc_scroll_select(state, direction < 0 ? line - 1 : line + 1, direction))
            break;
    }
    tc_scroll_into_sight(state);
}

void tc_browse_pages(struct tc_state *state, int by)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (tab->body.count == 0)
        return;
    size_t page = state->frame.body_height > 1 ? (size_t)state->frame.body_height - 1 : 1;
    size_t line = tab->position.line, top = tab->position.top;
    if (by < 0) {
        line = line > page ? line - page : 0;
        tab->position.top = top > page ? top - page : 0;
    } else {
        line = line + page < tab->body.count ? line + page : tab->body.count - 1;
        tab->position.top = top + page;
    }
    if (!tc_scroll_select(state, line, by))
        tc_scroll_select(state, line, -by);
    tc_scroll_into_sight(state);
}

void tc_browse_ends(struct tc_state *state, int direction)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (tab->body.count == 0)
        return;
    if (direction < 0)
        tc_scroll_select(state, 0, 1);
    else
        tc_scroll_select(state, tab->body.count - 1, -1);
    tc_scroll_into_sight(state);
}

void tc_browse_columns(struct tc_state *state, int by)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (by < 0 && tab->position.column > 0)
        tab->position.column--;
    else if (by > 0 && tab->position.column + 1 < tab->sheet.column_count)
        tab->position.column++;
    tc_scroll_into_sight(state);
}

/* ---------------------------------------------------------------------- questions */

void tc_browse_question(struct tc_state *state, int by)
{
    size_t count = state->question_count;
    tc_scroll_to_question(state, (state->question + (by < 0 ? count - 1 : 1)) % count);
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

/* What is typed selects the nearest line that has it, from where one was. */
static void find_typed(struct tc_state *state, const char *text)
{
    struct tc_tab *tab = tc_state_tab(state);
    tc_scroll_back_to(state, &state->prompt.before);
    tc_clean(state->find, sizeof state->find, text);
    if (tab->body.count == 0 || text[strspn(text, " ")] == '\0')
        return;
    size_t line = find_line(&tab->body, text, tab->position.line, 1);
    if (line < tab->body.count)
        tab->position.line = line;
    tc_scroll_into_sight(state);
}

static void find_taken(struct tc_state *state, const char *text)
{
    const struct tc_tab *tab = tc_state_tab(state);
    (void)text;
    tc_state_pop(state);
    bool any = state->find[strspn(state->find, " ")] != '\0';
    if (any && !tc_body_holds_beside(&tab->body, state->find) &&
        !(tab->position.line < tab->body.count && tc_body_holds(&tab->body, tab->position.line, state->find)))
        tc_state_warn(state, "'%s' is not in this sheet.", state->find);
}

static void find_left(struct tc_state *state)
{
    tc_scroll_back_to(state, &state->prompt.before);
    state->find[0] = '\0';
}

static const struct tc_prompt_kind find_prompt = {
    .title = "Find in this sheet",
    .hint = "finds lines with all these words; n goes to the next one",
    .changed = find_typed,
    .taken = find_taken,
    .left = find_left,
    .on_top = true,
};

void tc_browse_find(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_open(state, &find_prompt, "");
}

void tc_browse_again(struct tc_state *state, int direction)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t count = tab->body.count;
    if (state->find[0] == '\0') {
        tc_state_say(state, "Nothing was looked for yet: f finds.");
        return;
    }
    size_t line = count;
    if (count > 0)
        line = find_line(&tab->body, state->find,
                         (tab->position.line + (direction > 0 ? 1 : count - 1)) % count, direction);
    if (line >= count)
        tc_state_warn(state, "'%s' is not in this sheet.", state->find);
    else
        tab->position.line = line;
    tc_scroll_into_sight(state);
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
static size_t column_at(const struct tc_tab *tab, int x)
{
    const struct tc_body *body = &tab->body;
    size_t end = tab->position.left + tc_body_columns(body, tab->position.left);
    for (size_t c = tab->position.left; c < end; c++) {
        const struct tc_layout_column *column = &body->layout.columns[c];
        int field = tc_body_field(body, tab->position.left, c);
        if (x >= field - 1 && x < field + column->width + column->signs)
            return c;
    }
    return tab->sheet.column_count;
}

bool tc_browse_click(struct tc_state *state, int x, int y)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t line = tab->position.top + (size_t)y;
    if (y < 0 || y >= state->frame.body_height || line >= tab->body.count)
        return false;
    while (line > 0 && tab->body.lines[line].part > 0 && tab->body.lines[line].kind != TC_LINE_PICTURE)
        line--;
    if (!tc_body_stop(&tab->body, line))
        return false;
    size_t column = column_at(tab, x - state->frame.margin);
    bool again = line == tab->position.line && column == tab->position.column;
    tab->position.line = line;
    if (column < tab->sheet.column_count)
        tab->position.column = column;
    tc_scroll_into_sight(state);
    return again;
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
