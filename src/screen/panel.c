/* SPDX-License-Identifier: MIT */
#include "screen/panel.h"

#include "screen/body_draw.h"
#include "screen/list.h"
#include "screen/pager.h"
#include "screen/paint.h"
#include "screen/prompt.h"
#include "core/base/order.h"

enum {
    LIST_TAKES = 5, /* rows of a list that hold no choices: frame, typing, heads, what the selected one is */
    PROMPT_WIDTH = 68,
    CONFIRM_WIDTH = 64
};

static int middle(int room, int size)
{
    return room > size ? (room - size) / 2 : 0;
}

struct tc_panel tc_panel_list(const struct tc_state *state, int which)
{
    const struct tc_frame *frame = &state->frame;
    const struct tc_picker *picker = &state->lists[which].picker;
    /* Wide enough for all columns, as far as the screen is; the last one is said below the list as well. */
    int wanted = tc_layout_width(&picker->layout, 0, picker->sheet.column_count) + 6;
    int width = tc_smaller(frame->width, tc_larger(wanted, PROMPT_WIDTH));
    int rows = (int)tc_smaller((int)tc_list_page(state), (int)picker->sheet.row_count);
    int height = tc_larger(rows, 3) + LIST_TAKES;
    return (struct tc_panel){middle(frame->width, width), 1, width, tc_smaller(height, frame->height - 3)};
}

int tc_panel_list_start(const struct tc_panel *panel)
{
    return panel->row + 3;
}

struct tc_panel tc_panel_prompt(const struct tc_state *state)
{
    const struct tc_frame *frame = &state->frame;
    const struct tc_prompt *prompt = &state->prompt;
    int width = tc_smaller(PROMPT_WIDTH, frame->width);
    int height = 3 + tc_paint_height(prompt->hint, width - 4) + tc_paint_height(prompt->problem, width - 4);
    int most = frame->height - 3;
    struct tc_panel panel = {middle(frame->width, width), middle(frame->height, height), width,
                             tc_smaller(height, most)};
    if (prompt->kind->on_top)
        panel.row = 1; /* over the strip: what is found is not hidden */
    if (!prompt->at_cell || tc_state_top(state) == TC_LAYER_CONFIRM)
        return panel;
    /* Right under the line of the cell, or else over it. */
    const struct tc_tab *tab = tc_state_tab_seen(state);
    int line = frame->body + (int)(tab->position.line - tab->position.top);
    panel.row = line + 1 + panel.height <= frame->hints ? line + 1 : tc_larger(1, line - panel.height);
    struct tc_look_at at = {tab->position.left, tab->position.line, tab->position.column, ""};
    panel.column = frame->margin + tc_body_cursor(&tab->body, &at) - width / 2;
    panel.column = tc_larger(0, tc_smaller(panel.column, frame->width - width));
    return panel;
}

struct tc_panel tc_panel_pager(const struct tc_state *state)
{
    int width = tc_pager_width(state) + 4;
    int height =
        (int)tc_smaller((int)tc_pager_room(state), (int)tc_larger((int)state->pager.line_count, 3)) + 2;
    return (struct tc_panel){middle(state->frame.width, width), 1, width,
                             tc_smaller(height, state->frame.height - 2)};
}

struct tc_panel tc_panel_confirm(const struct tc_state *state)
{
    int width = tc_smaller(CONFIRM_WIDTH, state->frame.width);
    int height = tc_smaller(4 + tc_paint_height(state->confirm.text, width - 4), state->frame.height);
    return (struct tc_panel){middle(state->frame.width, width), middle(state->frame.height, height), width,
                             height};
}
