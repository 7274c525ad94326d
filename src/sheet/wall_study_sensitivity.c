/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_sensitivity.h"

#include <math.h>
#include <stdlib.h>

#include "sheet/wall_study_fill.h"

/* How often a raise is raised again because shared things take of it. */
enum { RAISES = 6 };

/* How many times a limit more of it is looked for. */
#define MOST_RAISE 3.0

static void raise_limit(struct tc_wall *wall, struct tc_wall_limit_at at, double raise)
{
    tc_wall_limit_set(wall, at, tc_wall_limit_value(wall, at) + raise);
}

/* Frees the layout's mix, unless it is still the best one's. */
static void release(const struct tc_wall_study *wall_study, struct tc_layout *layout)
{
    if (layout->mix.count == wall_study->layouts[0].mix.count)
        layout->mix = (struct tc_wall_mix){.models = 0};
    tc_wall_mix_free(&layout->mix);
}

/* One more raise of what the layout was sought on, and the wall filled with it. */
static enum tc_status raise_again(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                  struct tc_wall_limit_at at, double step, struct tc_search_budget *search,
                                  struct tc_wall_study_relief *relief)
{
    struct tc_knapsack_effort effort;
    struct tc_wall_sensitivity more;
    if (tc_search_budget_begin(search, &effort) != TC_OK)
        return TC_STOPPED;
    enum tc_status status =
        tc_wall_sensitivity_find(&layout->sought, wall_study->models, wall_study->study->alternative_count,
                                 &wall_study->goal, &layout->mix, at, 0, &effort, &more);
    if (search->stopped)
        return TC_STOPPED;
    relief->proven = relief->proven && status != TC_STOPPED && (status != TC_OK || more.proven);
    if (status != TC_OK)
        return status == TC_STOPPED ? TC_NO_RESULT : status;
    relief->raise += fmax(1, ceil(more.raise / step - 1e-6)) * step;
    layout->wall = wall_study->layouts[0].wall;
    raise_limit(&layout->wall, at, relief->raise);
    if (tc_wall_check(&layout->wall) != TC_OK)
        return TC_NO_RESULT;
    release(wall_study, layout);
    status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
    if (status == TC_OK && layout->found != TC_OK)
        status = TC_NO_RESULT;
    relief->reached = layout->mix.reached;
    relief->proven = relief->proven && status == TC_OK && layout->mix.goals_proven > 0;
    return status;
}

enum tc_status tc_wall_study_relieve(const struct tc_wall_study *wall_study, struct tc_wall_limit_at at,
                                     double step, struct tc_search_budget *search,
                                     struct tc_wall_study_relief *relief)
{
    const struct tc_layout *best = &wall_study->layouts[0];
    *relief = (struct tc_wall_study_relief){.proven = true};
    struct tc_layout *layout = malloc(sizeof *layout);
    if (!layout)
        return TC_NO_MEMORY;
    *layout = *best;
    enum tc_status status = raise_again(wall_study, layout, at, step, search, relief);
    for (int i = 1; status == TC_OK && !tc_wall_study_better(wall_study, relief->reached, best->mix.reached);
         i++)
        status = i < RAISES ? raise_again(wall_study, layout, at, step, search, relief) : TC_NO_RESULT;
    release(wall_study, layout);
    free(layout);
    return status;
}

enum tc_status tc_wall_study_less_access(const struct tc_wall_study *wall_study,
                                         const struct tc_wall_study_relief *higher, double step,
                                         struct tc_search_budget *search, double *less)
{
    const struct tc_layout *best = &wall_study->layouts[0];
    struct tc_layout *layout = malloc(sizeof *layout);
    if (!layout)
        return TC_NO_MEMORY;
    *layout = *best;
    enum tc_status status = TC_NO_RESULT;
    /* Of a bay of so many tiers each gives a part. */
    for (int tiers = best->mix.tiers + 1; status == TC_NO_RESULT && tiers > 0; tiers--) {
        *less = fmax(1, ceil(higher->raise / tiers / step - 1e-6)) * step;
        if (*less > best->wall.access)
            break;
        layout->wall = best->wall;
        layout->wall.access -= *less;
        release(wall_study, layout);
        status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
        if (status == TC_OK && (layout->found != TC_OK ||
                                tc_wall_study_better(wall_study, higher->reached, layout->mix.reached)))
            status = TC_NO_RESULT;
    }
    release(wall_study, layout);
    free(layout);
    return status;
}

/* Whether what is wanted fits with so much more of a limit. */
static enum tc_status fits_with(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                struct tc_wall_limit_at at, double raise, struct tc_search_budget *search,
                                bool *fits)
{
    release(wall_study, layout);
    *layout = (struct tc_layout){.wall = wall_study->wall};
    *fits = false;
    raise_limit(&layout->wall, at, raise);
    if (tc_wall_check(&layout->wall) != TC_OK)
        return TC_OK;
    enum tc_status status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
    *fits = status == TC_OK && layout->found == TC_OK && layout->mix.tanks > 0;
    return status;
}

enum tc_status tc_wall_study_short(const struct tc_wall_study *wall_study, struct tc_wall_limit_at at,
                                   double step, struct tc_search_budget *search, double *raise)
{
    double now = tc_wall_limit_value(&wall_study->wall, at);
    struct tc_layout *layout = now > 0 ? calloc(1, sizeof *layout) : NULL;
    if (!layout)
        return now > 0 ? TC_NO_MEMORY : TC_NO_RESULT;
    double low = 0, high = ceil(MOST_RAISE * now / step);
    bool fits;
    enum tc_status status = fits_with(wall_study, layout, at, high * step, search, &fits);
    if (status == TC_OK && !fits)
        status = TC_NO_RESULT;
    while (status == TC_OK && high - low > 1) {
        double middle = floor((low + high) / 2);
        status = fits_with(wall_study, layout, at, middle * step, search, &fits);
        *(fits ? &high : &low) = middle;
    }
    release(wall_study, layout);
    free(layout);
    *raise = high * step;
    return status;
}
