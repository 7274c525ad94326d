/* SPDX-License-Identifier: MIT */
#include "screen/missing.h"

#include <stdio.h>

#include "profile/region_keys.h"
#include "screen/arranging.h"
#include "screen/edit.h"
#include "screen/figure.h"
#include "screen/form.h"
#include "screen/scroll.h"
#include "screen/section_file.h"

/* Whether a cell of the present sheet, counted line by line, is missing and can be typed. */
static bool is_missing(const struct tc_tab *tab, size_t cell)
{
    size_t columns = tab->sheet.column_count;
    const struct tc_line *line = &tab->body.lines[cell / columns];
    if (line->kind != TC_LINE_ROW || line->part > 0)
        return false;
    const struct tc_cell *c = &tab->sheet.rows[line->index].cells[cell % columns];
    return c->kind == TC_CELL_MISSING && c->edit;
}

bool tc_missing_any(const struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    for (size_t i = 0; tab->made && i < tab->body.count * tab->sheet.column_count; i++)
        if (is_missing(tab, i))
            return true;
    return false;
}

static bool select_next(struct tc_state *state)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t columns = tab->sheet.column_count, count = tab->body.count * columns;
    size_t here = tab->position.line * columns + tab->position.column;
    bool stays = here + 1 != state->missing_seen; /* a missing one that was not gone to is the first */
    for (size_t i = stays ? 0 : 1; tab->made && i <= count; i++) {
        size_t cell = (here + i) % count;
        if (!is_missing(tab, cell))
            continue;
        state->missing_seen = cell + 1;
        if (i == 0)
            tc_state_say(state, "This one is missing: type its figure.");
        tab->position.line = cell / columns;
        tab->position.column = cell % columns;
        tc_scroll_into_sight(state);
        return true;
    }
    return false;
}

/* The form of the plan's place, where that is one's own. */
static bool open_place(struct tc_state *state)
{
    char head[TC_SECTION_HEAD_SIZE];
    snprintf(head, sizeof head, "region %s", state->now.plan.region);
    if (!tc_section_is_own(state, tc_section_of(state, head)))
        return false;
    tc_form_open(state, head);
    return true;
}

/* Asks for the first figure of the plan's region that a bill needs and nobody has given. */
static bool ask_place(struct tc_state *state)
{
    for (size_t i = 0; i < tc_region_keys.count; i++) {
        const struct tc_key *key = &tc_region_keys.keys[i];
        char path[2 * TC_NAME_SIZE];
        snprintf(path, sizeof path, "region/%s", key->name);
        if (key->ask != TC_ASK_NEEDED || !tc_edit_lacks(state, path))
            continue;
        tc_figure_ask(state, path, 0);
        return true;
    }
    return false;
}

void tc_missing_next(struct tc_state *state, int unused)
{
    (void)unused;
    if (tc_arranging_clear_possible(state))
        tc_arranging_clear(state, 0); /* it may stand in what is hidden */
    state->message[0] = '\0';
    if (select_next(state))
        return;
    if (state->now.plan.candidate_count == 0)
        tc_state_say(state, "The plan has no tanks yet: t chooses some, T takes one by its size.");
    else if (!tc_state_tab(state)->made && !ask_place(state) && !open_place(state))
        tc_state_say(state, "Press ! to see what is wrong, a to see every assumption.");
    else if (tc_state_tab(state)->made && state->question != 0)
        tc_scroll_to_question(state, 0);
    else if (tc_state_tab(state)->made)
        tc_state_say(state, "Nothing is missing.");
}
