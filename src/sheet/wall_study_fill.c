/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_fill.h"

#include <math.h>
#include <stdlib.h>

#include "sheet/wall_study_cost.h"
#include "sheet/wall_study_share.h"

enum {
    TURNS = 12,       /* times the mix is sought at most */
    GIVING_TURNS = 4, /* of them that may set less aside than the turn before */
    HALVINGS = 6      /* then: between what was too little and what was enough */
};

/* Differences that are not worth another search: W, and a share of the budget. */
#define SMALL_POWER 0.5
#define SMALL_SHARE 0.0005

/* What is set aside for shared things; negative where sharing saves. */
struct aside {
    double power;
    tc_money money;
};

bool tc_wall_study_better(const struct tc_wall_study *wall_study, double a, double b)
{
    double small = 1e-9 * fmax(fabs(a), fabs(b));
    return wall_study->goal.aim == TC_WALL_LEAST_COST ? a < b - small : a > b + small;
}

static tc_money spent(const struct tc_layout *layout)
{
    return layout->wall.budget_kind == TC_WALL_TO_BUY ? layout->cost.to_buy : layout->cost.present_value;
}

/* What is left of the layout's wall for the tanks alone; false where nothing is. */
static bool set_aside(struct tc_layout *layout, struct aside aside)
{
    enum tc_status status = TC_OK;
    layout->sought = layout->wall;
    if (layout->wall.power_limit > 0)
        layout->sought.power_limit = layout->wall.power_limit - aside.power;
    if (layout->wall.budget > 0)
        layout->sought.budget = tc_money_subtract(layout->wall.budget, aside.money, &status);
    bool power = layout->wall.power_limit <= 0 || layout->sought.power_limit > 0;
    bool money = layout->wall.budget == 0 || layout->sought.budget > 0;
    return status == TC_OK && power && money; /* a limit of 0 would mean none */
}

/* The best mix of the wall that is sought for, with what it shares and costs. */
static enum tc_status seek(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                           const struct tc_wall_model *models, struct tc_search_budget *search)
{
    struct tc_knapsack_effort effort;
    if (tc_search_budget_begin(search, &effort) != TC_OK)
        return TC_STOPPED;
    layout->found = tc_wall_mix_find(&layout->sought, models, wall_study->study->alternative_count,
                                     &wall_study->goal, &effort, &layout->mix);
    if (search->stopped)
        return TC_STOPPED;
    if (layout->found == TC_NO_RESULT || layout->found == TC_STOPPED)
        return TC_OK; /* none, or none found with so much work */
    if (layout->found != TC_OK)
        return layout->found;
    tc_wall_study_share_out(wall_study, layout);
    return tc_wall_study_cost(wall_study, layout);
}

static bool keeps_power(const struct tc_layout *layout)
{
    return layout->wall.power_limit <= 0 || layout->power_on[0] <= layout->wall.power_limit * (1 + 1e-9);
}

static bool keeps_budget(const struct tc_layout *layout)
{
    return layout->wall.budget == 0 || spent(layout) <= layout->wall.budget;
}

/*
 * What to set aside next, by what the layout's shared things came to; false
 * where another search would bring nothing. A limit that was broken needs more.
 * One that was kept may do with less, in the first turns.
 */
static bool next_aside(const struct tc_layout *layout, int turn, struct aside *aside)
{
    enum tc_status status = TC_OK;
    double power = layout->power_on[0] - layout->mix.power_on[0];
    tc_money money = tc_money_subtract(spent(layout), layout->mix.cost[layout->wall.budget_kind], &status);
    bool again = false;
    if (status != TC_OK)
        return false;
    if (layout->wall.power_limit > 0 &&
        (!keeps_power(layout) || (turn < GIVING_TURNS && power < aside->power - SMALL_POWER))) {
        aside->power = power;
        again = true;
    }
    double small = SMALL_SHARE * (double)layout->wall.budget;
    if (layout->wall.budget > 0 &&
        (!keeps_budget(layout) || (turn < GIVING_TURNS && (double)money < (double)aside->money - small))) {
        aside->money = money;
        again = true;
    }
    return again;
}

/* Whether a try is to take the place of what is kept: it keeps the limits, and is better or as good for less.
 */
static bool surpasses(const struct tc_wall_study *wall_study, const struct tc_layout *tried,
                      const struct tc_layout *kept)
{
    if (tried->found != TC_OK || !keeps_power(tried) || !keeps_budget(tried))
        return false;
    if (kept->found != TC_OK || tc_wall_study_better(wall_study, tried->mix.reached, kept->mix.reached))
        return true;
    return !tc_wall_study_better(wall_study, kept->mix.reached, tried->mix.reached) &&
           spent(tried) < spent(kept);
}

/* How a filling goes on. */
struct filling {
    const struct tc_wall_study *wall_study;
    const struct tc_wall_model *models;
    struct tc_search_budget *search;
    struct tc_layout *best, *tried; /* best owns its mix */
    bool owned;                     /* so does tried, where it is not the best itself */
    struct aside enough, short_of;  /* of the best; and the last with which a limit was broken */
    bool broken;                    /* there is a short_of */
};

/* Seeks the best mix with so much set aside, and keeps it where it surpasses; *found: there was one. */
static enum tc_status try_aside(struct filling *filling, struct aside aside, bool *found)
{
    struct tc_layout *best = filling->best, *tried = filling->tried;
    *found = false;
    if (filling->owned)
        tc_wall_mix_free(&tried->mix);
    filling->owned = true;
    *tried = *best;
    tried->mix = (struct tc_wall_mix){.models = 0};
    if (!set_aside(tried, aside))
        return TC_OK;
    enum tc_status status = seek(filling->wall_study, tried, filling->models, filling->search);
    *found = status == TC_OK && tried->found == TC_OK;
    if (*found && !(keeps_power(tried) && keeps_budget(tried))) {
        filling->short_of = aside;
        filling->broken = true;
    }
    if (status == TC_OK && surpasses(filling->wall_study, tried, best)) {
        tc_wall_mix_free(&best->mix);
        *best = *tried;
        filling->owned = false;
        filling->enough = aside;
    } else if (best->found != TC_OK && tried->found == TC_STOPPED) {
        best->found = TC_STOPPED;
    }
    return status;
}

/* What is shared grows in steps, so that too little may be followed by far too much: tries what lies between.
 */
static enum tc_status halve(struct filling *filling)
{
    enum tc_status status = TC_OK;
    struct aside low = filling->short_of, high = filling->enough;
    double small = SMALL_SHARE * (double)filling->best->wall.budget;
    for (int i = 0; status == TC_OK && filling->broken && filling->best->found == TC_OK && i < HALVINGS;
         i++) {
        bool found;
        struct aside middle = {(low.power + high.power) / 2, low.money + (high.money - low.money) / 2};
        if (high.power - low.power <= SMALL_POWER && (double)(high.money - low.money) <= small)
            break;
        status = try_aside(filling, middle, &found);
        if (found && keeps_power(filling->tried) && keeps_budget(filling->tried))
            high = middle;
        else
            low = middle;
    }
    return status;
}

enum tc_status tc_wall_study_fill(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                  const struct tc_wall_model *models, struct tc_search_budget *search)
{
    struct aside aside = {0, 0};
    struct filling filling = {.wall_study = wall_study, .models = models, .search = search, .best = layout};
    filling.tried = malloc(sizeof *filling.tried);
    enum tc_status status = filling.tried ? TC_OK : TC_NO_MEMORY;
    bool again = true;
    layout->found = TC_NO_RESULT;
    layout->sought = layout->wall;
    for (int turn = 0; status == TC_OK && again && turn < TURNS; turn++) {
        status = try_aside(&filling, aside, &again);
        again = status == TC_OK && again && next_aside(filling.tried, turn, &aside);
    }
    if (status == TC_OK)
        status = halve(&filling);
    if (filling.owned)
        tc_wall_mix_free(&filling.tried->mix);
    free(filling.tried);
    return status;
}
