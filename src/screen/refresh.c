/* SPDX-License-Identifier: MIT */
#include "sheet/answer.h"
#include "screen/refresh.h"

#include <stdio.h>
#include <stdlib.h>

#include "core/base/clean.h"
#include "print/ascii.h"
#include "screen/arranging.h"
#include "screen/list.h"
#include "sheet/study_make.h"

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

static void make_study(struct tc_state *state)
{
    tc_state_free_study(state);
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
    enum tc_status status = tc_answer_make(tc_state_question(state), state->study, ask, &made);
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
    tab->version = state->version;
    tc_arranging_put(state, NULL);
}

/* Long work, and whether it was interrupted. */
struct work {
    struct tc_state *state;
    bool (*go_on)(void *context, double done);
    void *context;
    bool interrupted;
};

static bool ask_further(void *context, double done)
{
    struct work *work = context;
    work->interrupted = work->interrupted || !work->go_on(work->context, done);
    return !work->interrupted;
}

/* What is known so far takes the place of the old sheet, and the work goes on. */
static void take_known(void *context, struct tc_sheet *known)
{
    struct work *work = context;
    struct tc_state *state = work->state;
    struct tc_sheet sheet = *known;
    bool whole = !known->failed;
    if (whole && state->options->ascii) {
        whole = tc_ascii_sheet(&sheet, known) == TC_OK;
        tc_sheet_free(known);
    }
    if (!whole) {
        tc_sheet_free(&sheet);
        return; /* the whole will fail as well, or be shown */
    }
    tc_arranging_put(state, &sheet);
    tc_state_tab(state)->partial = true;
    state->grown = true;
}

/*
 * Shows a sheet that was made; false where it is of no use. Of work that the user stopped the sheet shows
 * what was known by then, the first picture if there is one, and is worked out when asked for; work that
 * another key interrupted is done anew.
 */
static bool take_sheet(struct tc_state *state, struct tc_tab *tab, const struct work *work,
                       struct tc_sheet *sheet)
{
    bool pictured = tab->glanced == state->version;
    if (work->interrupted && !tab->stopped)
        return false;
    tab->partial = work->interrupted;
    tab->glanced = state->version;
    if (tab->partial && pictured)
        return false;
    if (!tab->partial && !sheet->first)
        tab->version = state->version;
    tc_arranging_put(state, sheet);
    return true;
}

static void make_tab(struct tc_state *state, struct tc_ask ask, struct work *work)
{
    struct tc_tab *tab = tc_state_tab(state);
    struct tc_sheet sheet;
    tab->problem[0] = '\0';
    ask.problem = tab->problem;
    ask.context = work;
    ask.go_on = work->go_on ? ask_further : NULL;
    ask.show = work->go_on ? take_known : NULL;
    ask.partial = true;
    ask.glance = work->go_on && tab->glanced != state->version;
    enum tc_status status = make_sheet(state, &ask, &sheet);
    state->grown = false;
    if (status == TC_OK && take_sheet(state, tab, work, &sheet))
        return;
    tc_sheet_free(&sheet);
    if (status == TC_NO_MEMORY)
        state->failed = true;
    if (status == TC_NO_MEMORY || status == TC_STOPPED || status == TC_OK)
        return;
    if (tab->problem[0] == '\0')
        tc_clean(tab->problem, sizeof tab->problem, tc_status_text(status));
    make_none(state, tab);
}

struct tc_ask tc_refresh_ask(const struct tc_state *state)
{
    struct tc_ask ask = state->options->ask;
    ask.vary = state->vary[0] ? state->vary : NULL;
    ask.money = state->money[0] ? state->money : NULL;
    ask.walls = state->walls;
    ask.why = ask.all = tc_state_tab_seen(state)->in_full;
    return ask;
}

void tc_refresh_do(struct tc_state *state, bool (*go_on)(void *context, double done), void *context)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (state->study_version != state->version) {
        make_study(state);
        if (!state->failed)
            tc_list_renew(state);
    }
    if (state->failed || tab->version == state->version)
        return;
    /* Without its setup or region the plan says nothing; the faults say what is missing. */
    bool lost =
        state->study_status != TC_OK && (!state->study->setup.name[0] || !state->study->region.name[0]);
    if (lost || (state->now.plan.candidate_count == 0 && !tc_state_question(state)->bare)) {
        tab->problem[0] = '\0';
        make_none(state, tab);
        return;
    }
    struct tc_ask ask = tc_refresh_ask(state);
    ask.at_screen = true;
    make_tab(state, ask, &(struct work){state, go_on, context, false});
}
