/* SPDX-License-Identifier: MIT */
#include "screen/scroll.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"

/* --------------------------------------------------------------------- scrolling */

/* All findings are in sight as long as the selected line is with them, above it. */
static void fold(struct tc_state *state, const struct tc_tab *tab)
{
    size_t first, last;
    tc_frame_fold(&state->frame, false);
    if (!state->frame.foldable || tab->position.line >= tab->body.count)
        return;
    tc_body_extent(&tab->body, tab->position.line, &first, &last);
    tc_frame_fold(&state->frame, last >= (size_t)state->frame.body_height);
}

static void scroll_lines(struct tc_state *state, struct tc_tab *tab)
{
    const struct tc_body *body = &tab->body;
    struct tc_position *position = &tab->position;
    size_t height = (size_t)state->frame.body_height;
    if (position->line < body->count) {
        size_t first, last;
        tc_body_extent(body, position->line, &first, &last);
        if (last - first >= height) /* what is selected matters more than its headings */
            first = position->line;
        if (last - first >= height)
            last = first + height - 1;
        if (first < position->top)
            position->top = first;
        if (last >= position->top + height)
            position->top = last - height + 1;
    }
    size_t furthest = body->count > height ? body->count - height : 0;
    if (position->top > furthest)
        position->top = furthest;
}

static void scroll_columns(struct tc_tab *tab)
{
    struct tc_position *position = &tab->position;
    size_t columns = tab->sheet.column_count;
    if (position->column >= columns)
        position->column = columns ? columns - 1 : 0;
    if (position->left > position->column)
        position->left = position->column;
    while (position->left < position->column &&
           position->column >= position->left + tc_body_columns(&tab->body, position->left))
        position->left++;
    /* No room is left empty at the right that columns at the left could have. */
    while (position->left > 0 &&
           position->left - 1 + tc_body_columns(&tab->body, position->left - 1) >= columns)
        position->left--;
}

void tc_scroll_into_sight(struct tc_state *state)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (!tab->made || !tab->body.sheet)
        return;
    scroll_columns(tab);
    fold(state, tab);
    scroll_lines(state, tab);
}

bool tc_scroll_select(struct tc_state *state, size_t line, int direction)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t stop = tc_body_next_stop(&tab->body, line, direction);
    if (stop >= tab->body.count)
        return false;
    tab->position.line = stop;
    return true;
}

void tc_scroll_back_to(struct tc_state *state, const struct tc_position *position)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t count = tab->body.count;
    tab->position = *position;
    if (count == 0)
        return;
    if (tab->position.line >= count)
        tab->position.line = count - 1;
    if (!tc_scroll_select(state, tab->position.line, 1))
        tc_scroll_select(state, tab->position.line, -1);
    tc_scroll_into_sight(state);
}

/* -------------------------------------------------------------------------- layout */

static const char *group_of(const struct tc_sheet *sheet, size_t row)
{
    for (size_t r = row + 1; r-- > 0;)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            return sheet->rows[r].subject;
    return "";
}

static void anchor_at(const struct tc_body *body, size_t line, struct tc_anchor *anchor)
{
    *anchor = (struct tc_anchor){.kind = TC_LINE_BLANK};
    if (line >= body->count)
        return;
    const struct tc_line *l = &body->lines[line];
    anchor->kind = l->kind;
    if (l->kind == TC_LINE_ROW || l->kind == TC_LINE_SENTENCE) {
        tc_clean(anchor->subject, sizeof anchor->subject, body->sheet->rows[l->index].subject);
        tc_clean(anchor->group, sizeof anchor->group, group_of(body->sheet, l->index));
    } else {
        snprintf(anchor->subject, sizeof anchor->subject, "%zu", l->index);
    }
}

static bool same_anchor(const struct tc_anchor *a, const struct tc_anchor *b)
{
    return a->kind == b->kind && strcmp(a->subject, b->subject) == 0 && strcmp(a->group, b->group) == 0;
}

/* The stop nearest to a line that has the anchor; else the stop nearest to the line; where one is at first,
 * one in sight. */
static size_t find_anchor(const struct tc_body *body, const struct tc_anchor *wanted, size_t near, int height)
{
    size_t best = body->count;
    for (size_t i = 0; i < body->count; i++) {
        struct tc_anchor anchor;
        if (!tc_body_stop(body, i))
            continue;
        anchor_at(body, i, &anchor);
        if (!same_anchor(&anchor, wanted))
            continue;
        size_t distance = i > near ? i - near : near - i;
        if (best == body->count || distance < (best > near ? best - near : near - best))
            best = i;
    }
    if (best < body->count)
        return best;
    if (wanted->kind == TC_LINE_BLANK && near == 0)
        return tc_body_start(body, height);
    if (near >= body->count)
        near = body->count ? body->count - 1 : 0;
    best = tc_body_next_stop(body, near, 1);
    return best < body->count ? best : tc_body_next_stop(body, near, -1);
}

void tc_scroll_anchor(const struct tc_state *state, struct tc_anchor *anchor)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    anchor_at(&tab->body, tab->position.line, anchor);
}

void tc_scroll_lay_out_at(struct tc_state *state, const struct tc_anchor *anchor)
{
    struct tc_tab *tab = tc_state_tab(state);
    const struct tc_sheet *sheet = tab->made ? &tab->sheet : NULL;
    bool faults = tc_faults_count(&state->faults) > 0;
    int width = state->frame.width, height = state->frame.height;
    tc_frame_make(&state->frame, width, height, sheet, faults, 2);
    if (!sheet && state->now.plan.candidate_count == 0)
        tab->position = (struct tc_position){.line = 0}; /* the next one starts at its start */
    if (!sheet || state->frame.too_small) {
        tc_body_free(&tab->body);
        return;
    }
    int heads;
    do { /* the height of the heads is known once the columns are; twice at most */
        heads = state->frame.heads_height;
        struct tc_body_room room = {state->frame.inside, state->frame.body_height, state->frame.roomy,
                                    state->frame.storey, state->options->ascii,    state->frame.cut,
                                    state->options->fine};
        if (tc_body_make(&tab->body, sheet, &room) != TC_OK) {
            state->failed = true;
            return;
        }
        tc_frame_make(&state->frame, width, height, sheet, faults, tab->body.head_height);
    } while (heads == 2 && state->frame.heads_height != heads);
    tab->position.line = find_anchor(&tab->body, anchor, tab->position.line, state->frame.body_height);
    tc_scroll_into_sight(state);
}

void tc_scroll_lay_out(struct tc_state *state)
{
    struct tc_anchor anchor;
    tc_scroll_anchor(state, &anchor);
    tc_scroll_lay_out_at(state, &anchor);
}

void tc_scroll_to_question(struct tc_state *state, size_t question)
{
    if (question >= state->question_count)
        return;
    state->question = question;
    tc_scroll_lay_out(state);
}
