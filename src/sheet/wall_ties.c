/* SPDX-License-Identifier: MIT */
#include "sheet/wall_ties.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/phrase.h"
#include "sheet/wall_limits.h"
#include "sheet/wall_notes.h"
#include "sheet/wall_study_fill.h"

/* What counts as the same: the tie of all advice. */
#define SAME 0.02

/* The best mix with fewer tanks of one model than the best of all. */
static enum tc_status fill_with_fewer(const struct tc_wall_study *wall_study, int model,
                                      struct tc_search_budget *search, struct tc_layout *layout)
{
    struct tc_wall_model models[TC_CANDIDATES_MAX];
    memcpy(models, wall_study->models, sizeof models);
    models[model].most = wall_study->layouts[0].mix.count[model] - 1;
    *layout = (struct tc_layout){.wall = wall_study->layouts[0].wall};
    return tc_wall_study_fill(wall_study, layout, models, search);
}

/* Whether a layout is about as good as the best: as much of the goal, for as much over the period. */
static bool is_as_good(const struct tc_layout *best, const struct tc_layout *layout)
{
    double gap = fabs(best->mix.reached - layout->mix.reached) / fabs(best->mix.reached);
    double more = (double)layout->cost.present_value / (double)best->cost.present_value - 1;
    return gap <= SAME && more <= SAME;
}

static void tell(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                 const struct tc_layout *layout)
{
    struct tc_currency currency = wall_study->study->region.currency;
    char reached[TC_WORDS_SIZE], cost[TC_WORDS_SIZE];
    tc_sheet_note(sheet, TC_NOTE_REMARK,
                  "About as good: %s, with %s, for %s to buy. Take the mix you like better.",
                  tc_wall_mix_words(sheet, wall_study, layout),
                  tc_wall_reached(reached, wall_study, layout->mix.reached),
                  tc_phrase_money(cost, layout->cost.to_buy, currency));
}

/* The best so far of the mixes that are as good, and room to fill another. */
struct ties {
    struct tc_layout kept, tried;
    bool found;
};

/* Tries a mix with fewer of a model, and keeps it where it is as good and better than what is kept. */
static enum tc_status try_model(const struct tc_wall_study *wall_study, int model,
                                struct tc_search_budget *search, struct ties *ties)
{
    struct tc_layout *tried = &ties->tried;
    enum tc_status status = fill_with_fewer(wall_study, model, search, tried);
    bool good = status == TC_OK && tried->found == TC_OK && tried->mix.tanks > 0 &&
                is_as_good(&wall_study->layouts[0], tried);
    if (good && ties->found && !tc_wall_study_better(wall_study, tried->mix.reached, ties->kept.mix.reached))
        good = false;
    if (!good) {
        tc_wall_mix_free(&tried->mix);
        return status;
    }
    if (ties->found)
        tc_wall_mix_free(&ties->kept.mix);
    ties->kept = *tried;
    ties->found = true;
    return status;
}

enum tc_status tc_wall_note_ties(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                 struct tc_search_budget *search)
{
    const struct tc_wall_mix *mix = &wall_study->layouts[0].mix;
    enum tc_status status = TC_OK;
    struct ties *ties = calloc(1, sizeof *ties);
    if (!ties)
        return TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && mix->reached > 0 && i < mix->models; i++)
        if (mix->count[i] > wall_study->models[i].least)
            status = try_model(wall_study, i, search, ties);
    if (status == TC_OK && ties->found)
        tell(sheet, wall_study, &ties->kept);
    if (ties->found)
        tc_wall_mix_free(&ties->kept.mix);
    free(ties);
    return status;
}
