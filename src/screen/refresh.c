/* SPDX-License-Identifier: MIT */
#include "screen/refresh.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "print/ascii.h"
#include "screen/browse.h"
#include "screen/choose.h"

/* -------------------------------------------------------------------------- layout */

/* What tells a row from others when its sheet is made anew. */
struct anchor {
    enum tc_line_kind kind;
    char label[128], group[128];
};

static const char *group_of(const struct tc_sheet *sheet, size_t row)
{
    for (size_t r = row + 1; r-- > 0;)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            return sheet->rows[r].label;
    return "";
}

static void anchor_at(const struct tc_body *body, size_t line, struct anchor *anchor)
{
    *anchor = (struct anchor){.kind = TC_LINE_BLANK};
    if (line >= body->count)
        return;
    const struct tc_line *l = &body->lines[line];
    anchor->kind = l->kind;
    if (l->kind == TC_LINE_ROW || l->kind == TC_LINE_SENTENCE) {
        tc_clean(anchor->label, sizeof anchor->label, body->sheet->rows[l->index].label);
        tc_clean(anchor->group, sizeof anchor->group, group_of(body->sheet, l->index));
    } else {
        snprintf(anchor->label, sizeof anchor->label, "%zu", l->index);
    }
}

static bool same_anchor(const struct anchor *a, const struct anchor *b)
{
    return a->kind == b->kind && strcmp(a->label, b->label) == 0 && strcmp(a->group, b->group) == 0;
}

/* The stop nearest to a line that has the anchor; else the stop nearest to the line. */
static size_t find_anchor(const struct tc_body *body, const struct anchor *wanted, size_t near)
{
    size_t best = body->count;
    for (size_t i = 0; i < body->count; i++) {
        struct anchor anchor;
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
    if (near >= body->count)
        near = body->count ? body->count - 1 : 0;
    best = tc_body_next_stop(body, near, 1);
    return best < body->count ? best : tc_body_next_stop(body, near, -1);
}

/* Lays the present sheet out, and selects the row that the anchor tells. */
static void lay_out(struct tc_state *state, const struct anchor *anchor)
{
    struct tc_tab *tab = tc_state_tab(state);
    const struct tc_sheet *sheet = tab->made ? &tab->sheet : NULL;
    bool faults = tc_faults_count(&state->faults) > 0;
    int width = state->frame.width, height = state->frame.height;
    tc_frame_make(&state->frame, width, height, sheet, faults, 2);
    if (!sheet || state->frame.too_small) {
        tc_body_free(&tab->body);
        return;
    }
    int heads;
    do { /* the height of the heads is known once the columns are; twice at most */
        heads = state->frame.heads_height;
        struct tc_body_room room = {state->frame.inside, state->frame.body_height, state->frame.roomy,
                                    state->frame.storey, state->options->ascii};
        if (tc_body_make(&tab->body, sheet, &room) != TC_OK) {
            state->failed = true;
            return;
        }
        tc_frame_make(&state->frame, width, height, sheet, faults, tab->body.head_height);
    } while (heads == 2 && state->frame.heads_height != heads);
    tab->position.line = find_anchor(&tab->body, anchor, tab->position.line);
    tc_browse_into_sight(state);
}

void tc_refresh_lay_out(struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab(state);
    struct anchor anchor;
    anchor_at(&tab->body, tab->position.line, &anchor);
    lay_out(state, &anchor);
}

/* ---------------------------------------------------------------------------- work */

bool tc_refresh_waits(const struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    return tab->version != state->version && !tab->stopped;
}

void tc_refresh_stop(struct tc_state *state)
{
    tc_state_tab(state)->stopped = true;
}

void tc_refresh_free(struct tc_state *state)
{
    if (state->study)
        tc_study_free(state->study);
    free(state->study);
    state->study = NULL;
    tc_faults_free(&state->faults);
}

static void make_study(struct tc_state *state)
{
    tc_refresh_free(state);
    state->faults = (struct tc_faults)TC_FAULTS_EMPTY;
    state->study = malloc(sizeof *state->study);
    if (!state->study) {
        state->failed = true;
        return;
    }
    state->study_status = tc_study_make(state->study, state->options->stock, &state->now.plan,
                                        state->options->today, &state->faults);
    state->study_version = state->version;
    if (state->study_status == TC_NO_MEMORY)
        state->failed = true;
}

static enum tc_status make_sheet(struct tc_state *state, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct tc_sheet made = {0}; /* a question that refuses may leave it as it is */
    enum tc_status status = tc_state_question(state)->make(state->study, ask, &made);
    *sheet = made;
    if (status != TC_OK || !state->options->ascii)
        return status;
    status = tc_ascii_sheet(sheet, &made);
    tc_sheet_free(&made);
    return status;
}

/* There is no sheet for this version; the tab says why. */
static void make_none(struct tc_state *state, struct tc_tab *tab)
{
    tc_body_free(&tab->body);
    tc_sheet_free(&tab->sheet);
    tab->made = false;
    tab->version = state->version;
    tc_refresh_lay_out(state);
}

static void make_tab(struct tc_state *state, const struct tc_ask *ask)
{
    struct tc_tab *tab = tc_state_tab(state);
    struct tc_sheet sheet;
    tab->problem[0] = '\0';
    enum tc_status status = make_sheet(state, ask, &sheet);
    if (status == TC_OK) {
        struct anchor anchor; /* the old body knows its rows only as long as its sheet is there */
        anchor_at(&tab->body, tab->position.line, &anchor);
        tc_body_free(&tab->body);
        tc_sheet_free(&tab->sheet);
        tab->sheet = sheet;
        tab->made = true;
        tab->version = state->version;
        lay_out(state, &anchor);
        return;
    }
    tc_sheet_free(&sheet);
    if (status == TC_NO_MEMORY)
        state->failed = true;
    if (status == TC_NO_MEMORY || status == TC_STOPPED)
        return;
    if (tab->problem[0] == '\0')
        tc_clean(tab->problem, sizeof tab->problem, tc_status_text(status));
    make_none(state, tab);
}

void tc_refresh_do(struct tc_state *state, bool (*go_on)(void *context, double done), void *context)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (state->study_version != state->version) {
        make_study(state);
        for (int i = 0; i < state->layer_count && !state->failed; i++)
            if (state->layer[i] == TC_LAYER_PICKER)
                tc_choose_renew(state);
    }
    if (state->failed || tab->version == state->version)
        return;
    /* Without its setup or region the plan says nothing; the faults say what is missing. */
    bool lost =
        state->study_status != TC_OK && (!state->study->setup.name[0] || !state->study->region.name[0]);
    if (lost || state->now.plan.candidate_count == 0) {
        tab->problem[0] = '\0';
        make_none(state, tab);
        return;
    }
    struct tc_ask ask = state->options->ask;
    ask.vary = state->vary[0] ? state->vary : NULL;
    ask.money = state->money[0] ? state->money : NULL;
    ask.walls = state->walls;
    ask.go_on = go_on;
    ask.context = context;
    ask.problem = tab->problem;
    make_tab(state, &ask);
}
