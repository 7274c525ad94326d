/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_sensitivity.h"

#include <math.h>
#include <stdlib.h>

#include "sheet/wall_study_fill.h"

/* How often a raise is raised again because shared things take of it. */
enum { RAISES = 6 };

/* How many times a limit more of it is looked for. */
#define MOST_RAISE 3.0

/* Raises one limit of the wall; false for those a room does not raise. */
static bool raise_limit(struct tc_wall *wall, enum tc_wall_limit limit, double raise)
{
    enum tc_status status = TC_OK;
    switch (limit) {
    case TC_WALL_LIMIT_LENGTH: wall->length += raise; return true;
    case TC_WALL_LIMIT_HEIGHT: wall->height += raise; return true;
    case TC_WALL_LIMIT_DEPTH: wall->depth += raise; return true;
    case TC_WALL_LIMIT_REACH: wall->reach += raise; return true;
    case TC_WALL_LIMIT_TIER_RATING: wall->tier_rating += raise; return true;
    case TC_WALL_LIMIT_FLOOR: wall->floor_limit += raise; return true;
    case TC_WALL_LIMIT_POWER: wall->power_limit += raise; return true;
    case TC_WALL_LIMIT_BUDGET:
        wall->budget = tc_money_add(wall->budget, tc_money_round(raise, &status), &status);
        return status == TC_OK;
    case TC_WALL_LIMIT_TIERS:
    case TC_WALL_LIMIT_BAY_RATING:
    case TC_WALL_LIMIT_COUNT: break;
    }
    return false;
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
                                  enum tc_wall_limit limit, double step, struct tc_search_budget *search,
                                  struct tc_wall_study_relief *relief)
{
    struct tc_knapsack_effort effort;
    struct tc_wall_sensitivity more;
    if (tc_search_budget_begin(search, &effort) != TC_OK)
        return TC_STOPPED;
    enum tc_status status =
        tc_wall_sensitivity_find(&layout->sought, wall_study->models, wall_study->study->alternative_count,
                                 &wall_study->goal, &layout->mix, limit, 0, &effort, &more);
    if (search->stopped)
        return TC_STOPPED;
    relief->proven = relief->proven && status != TC_STOPPED && (status != TC_OK || more.proven);
    if (status != TC_OK)
        return status == TC_STOPPED ? TC_NO_RESULT : status;
    relief->raise += fmax(1, ceil(more.raise / step - 1e-6)) * step;
    layout->wall = wall_study->layouts[0].wall;
    if (!raise_limit(&layout->wall, limit, relief->raise))
        return TC_NO_RESULT;
    release(wall_study, layout);
    status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
    if (status == TC_OK && layout->found != TC_OK)
        status = TC_NO_RESULT;
    relief->reached = layout->mix.reached;
    relief->proven = relief->proven && status == TC_OK && layout->mix.goals_proven > 0;
    return status;
}

enum tc_status tc_wall_study_relieve(const struct tc_wall_study *wall_study, enum tc_wall_limit limit,
                                     double step, struct tc_search_budget *search,
                                     struct tc_wall_study_relief *relief)
{
    const struct tc_layout *best = &wall_study->layouts[0];
    *relief = (struct tc_wall_study_relief){.proven = true};
    struct tc_layout *layout = malloc(sizeof *layout);
    if (!layout)
        return TC_NO_MEMORY;
    *layout = *best;
    enum tc_status status = raise_again(wall_study, layout, limit, step, search, relief);
    for (int i = 1; status == TC_OK && !tc_wall_study_better(wall_study, relief->reached, best->mix.reached);
         i++)
        status = i < RAISES ? raise_again(wall_study, layout, limit, step, search, relief) : TC_NO_RESULT;
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

/* What a limit is now; 0: there is none. */
static double limit_of(const struct tc_wall *wall, enum tc_wall_limit limit)
{
    switch (limit) {
    case TC_WALL_LIMIT_LENGTH: return wall->length;
    case TC_WALL_LIMIT_HEIGHT: return wall->height;
    case TC_WALL_LIMIT_DEPTH: return wall->depth;
    case TC_WALL_LIMIT_REACH: return wall->reach;
    case TC_WALL_LIMIT_TIER_RATING: return wall->tier_rating;
    case TC_WALL_LIMIT_FLOOR: return wall->floor_limit;
    case TC_WALL_LIMIT_POWER: return wall->power_limit;
    case TC_WALL_LIMIT_BUDGET: return (double)wall->budget;
    case TC_WALL_LIMIT_TIERS:
    case TC_WALL_LIMIT_BAY_RATING:
    case TC_WALL_LIMIT_COUNT: break;
    }
    return 0;
}

/* Whether what is wanted fits with so much more of a limit. */
static enum tc_status fits_with(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                enum tc_wall_limit limit, double raise, struct tc_search_budget *search,
                                bool *fits)
{
    release(wall_study, layout);
    *layout = (struct tc_layout){.wall = wall_study->wall};
    *fits = false;
    if (!raise_limit(&layout->wall, limit, raise) || tc_wall_check(&layout->wall) != TC_OK)
        return TC_OK;
    enum tc_status status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
    *fits = status == TC_OK && layout->found == TC_OK && layout->mix.tanks > 0;
    return status;
}

enum tc_status tc_wall_study_short(const struct tc_wall_study *wall_study, enum tc_wall_limit limit,
                                   double step, struct tc_search_budget *search, double *raise)
{
    double now = limit_of(&wall_study->wall, limit);
    struct tc_layout *layout = now > 0 ? calloc(1, sizeof *layout) : NULL;
    if (!layout)
        return now > 0 ? TC_NO_MEMORY : TC_NO_RESULT;
    double low = 0, high = ceil(MOST_RAISE * now / step);
    bool fits;
    enum tc_status status = fits_with(wall_study, layout, limit, high * step, search, &fits);
    if (status == TC_OK && !fits)
        status = TC_NO_RESULT;
    while (status == TC_OK && high - low > 1) {
        double middle = floor((low + high) / 2);
        status = fits_with(wall_study, layout, limit, middle * step, search, &fits);
        *(fits ? &high : &low) = middle;
    }
    release(wall_study, layout);
    free(layout);
    *raise = high * step;
    return status;
}
