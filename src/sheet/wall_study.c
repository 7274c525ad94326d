/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/derive_wall.h"
#include "sheet/wall_study_fill.h"
#include "sheet/wall_study_model.h"

static enum tc_status add_best(struct tc_wall_study *wall_study, struct tc_search_budget *search)
{
    struct tc_layout *layout = &wall_study->layouts[wall_study->layout_count++];
    *layout = (struct tc_layout){.wall = wall_study->wall};
    snprintf(layout->name, sizeof layout->name, "best mix");
    return tc_wall_study_fill(wall_study, layout, wall_study->models, search);
}

/* The climate may differ so much, K, before the mix is sought in another; and so often it is. */
#define SAME_CLIMATE 0.3
enum { CLIMATES = 3 };

/* So many times as long a wall holds what is wanted, or it will not do at all. */
#define LONG_ENOUGH 4.0

static bool same_climate(const struct tc_climate *a, const struct tc_room_year *b)
{
    for (int month = 0; month < TC_MONTHS; month++)
        if (fabs(a->room[month] - b->month[month].temperature) > SAME_CLIMATE)
            return false;
    return true;
}

/*
 * Heaters for the room without tanks may be more than budget and circuits bear, where those for the room as
 * its tanks warm it are not: the mix of a wall without these limits says how warm that is about.
 */
static enum tc_status guess_climate(struct tc_wall_study *wall_study, struct tc_search_budget *search)
{
    struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_wall limited = wall_study->wall;
    wall_study->wall.power_limit = 0;
    wall_study->wall.more_circuits = 0;
    wall_study->wall.budget = 0;
    if (wall_study->study->plan.wall.fixed) /* then what stands there is known, whatever room it takes */
        wall_study->wall.length *= LONG_ENOUGH;
    tc_wall_mix_free(&layout->mix);
    wall_study->layout_count = 0;
    enum tc_status status = add_best(wall_study, search);
    wall_study->wall = limited;
    if (status == TC_OK && layout->found != TC_OK)
        layout->found = TC_NO_RESULT;
    return status;
}

/* The best mix, its heaters chosen for the room that it makes itself, where the room's loss is known. */
static enum tc_status add_settled(struct tc_wall_study *wall_study, const struct tc_ask *ask,
                                  struct tc_search_budget *search)
{
    struct tc_layout *layout = &wall_study->layouts[0];
    double from = search->from, part = (search->to - search->from) / CLIMATES;
    enum tc_status status = TC_OK;
    bool guessed = false;
    for (int i = 0; status == TC_OK && i < CLIMATES; i++) {
        search->from = from + i * part;
        search->to = search->from + part;
        tc_wall_mix_free(&layout->mix);
        wall_study->layout_count = 0;
        status = add_best(wall_study, search);
        if (i == 0 && status == TC_OK && wall_study->room.known && layout->found == TC_NO_RESULT) {
            status = guess_climate(wall_study, search);
            guessed = true;
        }
        if (status != TC_OK || !wall_study->room.known || layout->found != TC_OK || layout->mix.tanks == 0 ||
            (!guessed && same_climate(&wall_study->region.climate, &layout->climate)) || i + 1 == CLIMATES)
            break;
        tc_wall_room_put(&layout->climate, &wall_study->region.climate);
        status = tc_wall_study_model(wall_study, ask);
        guessed = false;
    }
    return status;
}

/* The models as they are in the room before its tanks, kept warm or not. */
static enum tc_status model_anew(struct tc_wall_study *wall_study, const struct tc_ask *ask)
{
    wall_study->region.climate = wall_study->study->region.climate;
    if (wall_study->heated)
        tc_wall_room_warm(&wall_study->warmth, &wall_study->region.climate);
    wall_study->judged = false;
    return tc_wall_study_model(wall_study, ask);
}

/*
 * Marks the tanks that get too warm in the room they make and are not asked for; whether there are any, and
 * others to take instead.
 */
static bool find_hot(struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    bool any = false, others = false;
    for (int i = 0; i < wall_study->study->alternative_count; i++) {
        wall_study->hot[i] =
            layout->found == TC_OK && layout->too_warm[i] && wall_study->models[i].least == 0;
        any = any || wall_study->hot[i];
        others = others || (!wall_study->hot[i] && wall_study->barred[i] == TC_WALL_BAR_NONE);
    }
    return any && others;
}

/* The best mix settled; without tanks that would get too warm in it, where the wall can be filled without. */
static enum tc_status add_cool(struct tc_wall_study *wall_study, const struct tc_ask *ask,
                               struct tc_search_budget *search)
{
    enum tc_status status = add_settled(wall_study, ask, search);
    bool hot = status == TC_OK && find_hot(wall_study);
    if (!hot)
        memset(wall_study->hot, 0, sizeof wall_study->hot);
    for (int turn = 0; status == TC_OK && hot && turn < 2; turn++) {
        status = model_anew(wall_study, ask);
        if (status == TC_OK)
            status = add_settled(wall_study, ask, search);
        hot = wall_study->layouts[0].found != TC_OK || wall_study->layouts[0].mix.tanks == 0;
        if (hot) /* nothing can be had without them */
            memset(wall_study->hot, 0, sizeof wall_study->hot);
    }
    return status;
}

/* Fills the wall with tanks of one model alone. */
static enum tc_status fill_single(const struct tc_wall_study *wall_study, struct tc_layout *layout, int model,
                                  struct tc_search_budget *search)
{
    struct tc_wall_model models[TC_CANDIDATES_MAX];
    for (int i = 0; i < wall_study->study->alternative_count; i++) {
        models[i] = wall_study->models[i];
        models[i].least = 0;
        if (i != model)
            models[i].most = 0;
    }
    tc_wall_mix_free(&layout->mix);
    *layout = (struct tc_layout){.wall = wall_study->wall};
    snprintf(layout->name, sizeof layout->name, "all %s", wall_study->alternatives[model].c.tank.goods.name);
    return tc_wall_study_fill(wall_study, layout, models, search);
}

/* All tanks of one model: the one that gets furthest. None where the best mix is of one model itself. */
static enum tc_status add_single(struct tc_wall_study *wall_study, struct tc_search_budget *search)
{
    const struct tc_wall_mix *mix = &wall_study->layouts[0].mix;
    struct tc_layout *layout = &wall_study->layouts[wall_study->layout_count];
    enum tc_status status = TC_OK;
    int kinds = 0, best = -1;
    double best_reached = 0;
    for (int i = 0; i < mix->models; i++)
        kinds += mix->count[i] > 0;
    for (int i = 0; kinds > 1 && !wall_study->study->plan.wall.fixed && status == TC_OK && i < mix->models;
         i++) {
        status = fill_single(wall_study, layout, i, search);
        bool stands = status == TC_OK && layout->found == TC_OK && layout->mix.tanks > 0;
        if (stands && (best < 0 || tc_wall_study_better(wall_study, layout->mix.reached, best_reached))) {
            best = i;
            best_reached = layout->mix.reached;
        }
    }
    if (status == TC_OK && best >= 0) {
        status = fill_single(wall_study, layout, best, search);
        wall_study->layout_count++;
    }
    return status;
}

/* The best mix stacked one tier lower, where it is stacked at all. */
static enum tc_status add_lower(struct tc_wall_study *wall_study, struct tc_search_budget *search)
{
    int highest = wall_study->layouts[0].mix.tiers;
    if (highest < 2)
        return TC_OK;
    struct tc_layout *layout = &wall_study->layouts[wall_study->layout_count];
    *layout = (struct tc_layout){.wall = wall_study->wall};
    layout->wall.tiers = highest - 1;
    snprintf(layout->name, sizeof layout->name, "at most %d high", highest - 1);
    enum tc_status status = tc_wall_study_fill(wall_study, layout, wall_study->models, search);
    if (status == TC_OK && layout->found == TC_OK)
        wall_study->layout_count++;
    else
        tc_wall_mix_free(&layout->mix);
    return status;
}

static void start(struct tc_wall_study *wall_study, const struct tc_study *study)
{
    *wall_study = (struct tc_wall_study){.study = study};
    wall_study->region = study->region;
    wall_study->region.delivery = 0;
}

static enum tc_status make_models(struct tc_wall_study *wall_study, const struct tc_ask *ask)
{
    size_t count = (size_t)wall_study->study->alternative_count + 1;
    wall_study->alternatives = calloc(count, sizeof *wall_study->alternatives);
    return wall_study->alternatives ? tc_wall_study_model(wall_study, ask) : TC_NO_MEMORY;
}

/* Whether the room could be heated instead, at a price that is known, and some tank is heated at all. */
static bool can_heat_room(const struct tc_wall_study *wall_study)
{
    bool priced = wall_study->study->plan.wall.room.heater_efficiency > 0 ||
                  wall_study->study->region.room_heat_price > 0;
    bool heated = false;
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        heated = heated || wall_study->alternatives[i].c.setup->heater;
    return wall_study->room.known && priced && heated;
}

/* Takes the room for one that is kept warm instead of its tanks. */
static enum tc_status heat_room(struct tc_wall_study *wall_study, const struct tc_wall_warmth *warmth,
                                const struct tc_ask *ask)
{
    wall_study->heated = true;
    wall_study->warmth = *warmth;
    return model_anew(wall_study, ask);
}

/* How warm a heated room would be kept; false where it cannot be, or at no price that is known. */
static bool find_warmth(struct tc_wall_study *wall_study)
{
    const struct tc_study *study = wall_study->study;
    bool out[TC_CANDIDATES_MAX];
    for (int i = 0; i < study->alternative_count; i++)
        out[i] = wall_study->barred[i] != TC_WALL_BAR_NONE && wall_study->barred[i] != TC_WALL_BAR_WARM;
    return can_heat_room(wall_study) && tc_wall_room_warmth(&study->region, wall_study->alternatives, out,
                                                            study->alternative_count, &wall_study->warmth);
}

/* The best mix kept warm the other way: the room heated instead of the tanks, or the tanks. */
static enum tc_status add_other(struct tc_wall_study *wall_study, const struct tc_ask *ask,
                                struct tc_search_budget *search)
{
    if (!wall_study->heated && !find_warmth(wall_study))
        return TC_OK;
    struct tc_wall_study *other = malloc(sizeof *other);
    if (!other)
        return TC_NO_MEMORY;
    start(other, wall_study->study);
    enum tc_status status = make_models(other, ask);
    if (status == TC_OK && !wall_study->heated)
        status = heat_room(other, &wall_study->warmth, ask);
    if (status == TC_OK)
        status = add_cool(other, ask, search);
    if (status == TC_OK && other->layouts[0].found == TC_OK && other->layouts[0].mix.tanks > 0) {
        struct tc_layout *layout = &wall_study->layouts[wall_study->layout_count++];
        *layout = other->layouts[0];
        snprintf(layout->name, sizeof layout->name, "%s", other->heated ? "room heated" : "tanks heated");
        other->layouts[0].mix = (struct tc_wall_mix){.models = 0};
        wall_study->other = other;
        return status;
    }
    tc_wall_study_free(other);
    free(other);
    return status;
}

enum tc_status tc_wall_study_make(struct tc_wall_study *wall_study, const struct tc_study *study,
                                  const struct tc_ask *ask, struct tc_search_budget *search)
{
    start(wall_study, study);
    enum tc_status status = make_models(wall_study, ask);
    if (status == TC_OK && study->plan.wall.heating == TC_HEAT_ROOM && find_warmth(wall_study))
        status = heat_room(wall_study, &wall_study->warmth, ask);
    double from = search->from, part = (search->to - search->from) / TC_LAYOUTS_MAX;
    for (int i = 0; status == TC_OK && i < TC_LAYOUTS_MAX; i++) {
        search->from = from + i * part;
        search->to = search->from + part;
        bool none = wall_study->layouts[0].found != TC_OK || wall_study->layouts[0].mix.tanks == 0;
        if (i > 0 && (none || (i > 1 && ask->glance)))
            break;
        switch (i) {
        case 0: status = add_cool(wall_study, ask, search); break;
        case 1: status = add_other(wall_study, ask, search); break;
        case 2: status = add_single(wall_study, search); break;
        default: status = add_lower(wall_study, search); break;
        }
    }
    return status;
}

void tc_wall_study_free(struct tc_wall_study *wall_study)
{
    for (int i = 0; i < TC_LAYOUTS_MAX; i++)
        tc_wall_mix_free(&wall_study->layouts[i].mix);
    free(wall_study->alternatives);
    wall_study->alternatives = NULL;
    wall_study->layout_count = 0;
    if (wall_study->other) {
        tc_wall_study_free(wall_study->other);
        free(wall_study->other);
        wall_study->other = NULL;
    }
}

/* A layout as an alternative of a study: its cost, its water and its bottom; nothing of it can be typed over.
 */
static void make_alternative(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                             struct tc_study *walls)
{
    struct tc_alternative *alternative = &walls->alternatives[walls->alternative_count];
    struct tc_candidate *plan = &walls->plan.candidate[walls->alternative_count++];
    *plan = wall_study->study->plan.candidate[0];
    plan->quantity = 1;
    *alternative = (struct tc_alternative){.plan = plan,
                                           .index = -1,
                                           .c = wall_study->alternatives[0].c,
                                           .cost = layout->cost,
                                           .layout = layout};
    alternative->c.setup = &walls->setup;
    snprintf(alternative->head, sizeof alternative->head, "%s", layout->name);
    snprintf(alternative->how, sizeof alternative->how, "%d tanks", layout->mix.tanks);
    alternative->prices.deal.known = alternative->prices.deal.listed = true;
    alternative->suit.suits = true; /* what the animals ask is asked of each tank */
    alternative->equipment.size.water_volume = layout->mix.volume;
    alternative->equipment.size.bottom_area = layout->mix.area;
}

/* What counts of walls, unless the plan says it: what the wall is filled for, at its cost. */
static enum tc_goal goal_of(const struct tc_plan *plan)
{
    if (plan->goal != TC_GOAL_COST)
        return plan->goal;
    switch (plan->wall.objective) {
    case TC_WALL_MOST_AREA: return TC_GOAL_BOTTOM;
    case TC_WALL_MOST_WATER:
    case TC_WALL_WATER_PER_MONEY: return TC_GOAL_WATER;
    case TC_WALL_MOST_TANKS: return TC_GOAL_TANKS;
    case TC_WALL_LEAST_COST: break; /* each of them holds what is wanted */
    }
    return TC_GOAL_COST;
}

/* The study's alternatives are the layouts that hold tanks; false where none does. */
static bool make_entries(const struct tc_wall_study *wall_study, struct tc_study *walls)
{
    /* What the animals ask is asked of each tank: see the bill of the candidates. */
    walls->setup.least_length = walls->setup.least_bottom = walls->setup.least_height = 0;
    walls->setup.greatest_height = walls->setup.greatest_reach = 0;
    walls->setup.territory = walls->setup.shoal_length = walls->setup.water_each = 0;
    walls->plan.goal = goal_of(&walls->plan);
    walls->alternative_count = 0;
    for (int i = 0; i < wall_study->layout_count; i++)
        if (wall_study->layouts[i].found == TC_OK && wall_study->layouts[i].mix.tanks > 0)
            make_alternative(wall_study, &wall_study->layouts[i], walls);
    return walls->alternative_count > 0;
}

enum tc_status tc_wall_study_ask(enum tc_status (*make)(const struct tc_study *study,
                                                        const struct tc_ask *ask, struct tc_sheet *sheet),
                                 const struct tc_study *study, const struct tc_ask *ask,
                                 struct tc_sheet *sheet)
{
    struct tc_wall_study wall_study;
    struct tc_search_budget search;
    struct tc_ask plain = *ask;
    plain.walls = false;
    struct tc_study *walls = malloc(sizeof *walls);
    struct tc_alternative *alternatives = calloc(TC_LAYOUTS_MAX, sizeof *alternatives);
    if (!walls || !alternatives) {
        free(walls);
        free(alternatives);
        return TC_NO_MEMORY;
    }
    *walls = *study;
    walls->alternatives = alternatives;
    walls->walls = &wall_study;
    walls->derive = tc_derive_wall_alternative;
    tc_search_budget_start(&search, ask);
    enum tc_status status = tc_wall_study_make(&wall_study, study, ask, &search);
    if (status == TC_OK && !make_entries(&wall_study, walls)) {
        if (ask->problem)
            snprintf(ask->problem, TC_PROBLEM_SIZE,
                     "no tanks stand on this wall, so there is no bill of it; the sheet wall says why");
        status = TC_SYNTAX;
    }
    if (status == TC_OK)
        status = make(walls, &plain, sheet);
    free(alternatives);
    free(walls);
    tc_wall_study_free(&wall_study);
    return status;
}
