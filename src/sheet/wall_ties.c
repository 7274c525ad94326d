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

enum tc_status tc_wall_note_ties(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                 struct tc_search_budget *search)
{
    const struct tc_layout *best = &wall_study->layouts[0];
    enum tc_status status = TC_OK;
    struct tc_layout *layout = malloc(2 * sizeof *layout);
    if (!layout)
        return TC_NO_MEMORY;
    struct tc_layout *kept = layout + 1;
    bool found = false;
    for (int i = 0; status == TC_OK && i < best->mix.models; i++) {
        int count = best->mix.count[i];
        if (count == 0 || count <= wall_study->models[i].least || !(best->mix.reached > 0))
            continue;
        status = fill_with_fewer(wall_study, i, search, layout);
        bool good = status == TC_OK && layout->found == TC_OK && layout->mix.tanks > 0 &&
                    is_as_good(best, layout) &&
                    (!found || tc_wall_study_better(wall_study, layout->mix.reached, kept->mix.reached));
        if (good && found)
            tc_wall_mix_free(&kept->mix);
        if (good)
            *kept = *layout;
        else
            tc_wall_mix_free(&layout->mix);
        found = found || good;
    }
    if (status == TC_OK && found)
        tell(sheet, wall_study, kept);
    if (found)
        tc_wall_mix_free(&kept->mix);
    free(layout);
    return status;
}
