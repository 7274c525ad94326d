/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_sensitivity.h"

#include <math.h>
#include <stdlib.h>

#include "core/wall/wall_objective.h"
#include "core/wall/wall_knapsack.h"

#define MILLIWATTS_PER_WATT   1e3
#define SQUARE_MM_PER_M2      1e6
#define MILLILITRES_PER_CUBIC 1e6
#define DEFAULT_SHARE         0.01

/* What tc_wall_check allows. */
#define MOST_OF_SIZES 100.0
#define MOST_OF_LOADS 1e9

/* The question asked, to keep the functions below short. */
struct asked {
    const struct tc_wall *wall;
    const struct tc_wall_model *models;
    int count;
    const struct tc_wall_goal *goal;
    const struct tc_wall_mix *mix;
    const struct tc_knapsack_effort *effort;
    double target; /* in the unit of the goal */
};

/* The limit's place in a wall, for the limits that are a double; NULL for others, and for what the wall
 * lacks. */
static double *field(struct tc_wall *wall, struct tc_wall_limit_at at)
{
    struct tc_wall_stretch *stretch =
        at.at > 0 && at.at <= wall->more_stretches ? &wall->more[at.at - 1] : NULL;
    switch (at.limit) {
    case TC_WALL_LIMIT_LENGTH: return at.at == 0 ? &wall->length : stretch ? &stretch->length : NULL;
    case TC_WALL_LIMIT_HEIGHT: return at.at == 0 ? &wall->height : stretch ? &stretch->height : NULL;
    case TC_WALL_LIMIT_DEPTH: return at.at == 0 ? &wall->depth : stretch ? &stretch->depth : NULL;
    case TC_WALL_LIMIT_REACH: return &wall->reach;
    case TC_WALL_LIMIT_BAY_RATING: return &wall->bay_rating;
    case TC_WALL_LIMIT_TIER_RATING: return &wall->tier_rating;
    case TC_WALL_LIMIT_FLOOR: return &wall->floor_limit;
    case TC_WALL_LIMIT_POWER:
        if (at.at == 0)
            return &wall->power_limit;
        return at.at <= wall->more_circuits ? &wall->more_power[at.at - 1] : NULL;
    case TC_WALL_LIMIT_TIERS:
    case TC_WALL_LIMIT_BUDGET:
    case TC_WALL_LIMIT_COUNT: break;
    }
    return NULL;
}

double tc_wall_limit_value(const struct tc_wall *wall, struct tc_wall_limit_at at)
{
    struct tc_wall copy = *wall;
    if (at.limit == TC_WALL_LIMIT_TIERS)
        return wall->tiers;
    if (at.limit == TC_WALL_LIMIT_BUDGET)
        return (double)wall->budget;
    const double *place = field(&copy, at);
    return place ? *place : 0;
}

void tc_wall_limit_set(struct tc_wall *wall, struct tc_wall_limit_at at, double value)
{
    double *place = field(wall, at);
    for (int s = 0; s <= wall->more_stretches; s++)
        if (s != at.at && (at.also >> s & 1U))
            tc_wall_limit_set(wall, (struct tc_wall_limit_at){.limit = at.limit, .at = s}, value);
    if (at.limit == TC_WALL_LIMIT_TIERS)
        wall->tiers = (int)lround(value);
    else if (at.limit == TC_WALL_LIMIT_BUDGET)
        wall->budget = value < (double)TC_MONEY_MAX ? (tc_money)llround(value) : TC_MONEY_MAX;
    else if (place)
        *place = value;
}

/* Whether a limit of heights or depths is that of a stretch. */
static bool is_of(int stretch, struct tc_wall_limit_at at)
{
    return stretch == at.at || (at.also >> stretch & 1U);
}

/* The most of any column or bay; the sum where the limit is one. */
static double used_of(const struct tc_wall *wall, const struct tc_wall_mix *mix, struct tc_wall_limit_at at)
{
    double most = 0;
    switch (at.limit) {
    case TC_WALL_LIMIT_LENGTH: return mix->length[at.at];
    case TC_WALL_LIMIT_FLOOR: return mix->pressure;
    case TC_WALL_LIMIT_POWER: return mix->power_on[at.at];
    case TC_WALL_LIMIT_BUDGET: return (double)mix->cost[wall->budget_kind];
    case TC_WALL_LIMIT_BAY_RATING:
        for (int b = 0; b < mix->bays; b++)
            most = fmax(most, mix->bay[b].mass);
        return most;
    case TC_WALL_LIMIT_TIER_RATING:
        for (int b = 0; b < mix->bays; b++)
            most = fmax(most, mix->bay[b].tier_mass);
        return most;
    case TC_WALL_LIMIT_HEIGHT:
        for (int b = 0; b < mix->bays; b++)
            if (is_of(mix->bay[b].stretch, at))
                most = fmax(most, mix->bay[b].height);
        return most;
    case TC_WALL_LIMIT_DEPTH:
    case TC_WALL_LIMIT_REACH:
        for (int k = 0; k < mix->tanks; k++)
            if (at.limit == TC_WALL_LIMIT_REACH || is_of(mix->bay[mix->tank[k].bay].stretch, at))
                most = fmax(most, mix->tank[k].depth);
        return most;
    case TC_WALL_LIMIT_TIERS: return mix->tiers;
    case TC_WALL_LIMIT_COUNT: break;
    }
    return 0;
}

void tc_wall_slack(const struct tc_wall *wall, const struct tc_wall_mix *mix, struct tc_wall_limit_at at,
                   struct tc_wall_slack *slack)
{
    *slack = (struct tc_wall_slack){.limit = tc_wall_limit_value(wall, at)};
    slack->used = used_of(wall, mix, at);
    slack->limited = slack->limit > 0;
    /* What is used fits, so a difference below 0 is rounding. */
    if (slack->limited)
        slack->left = fmax(0, slack->limit - slack->used);
}

/* The goal one step further; the default step where step is 0. */
static double target_of(const struct asked *a, double step)
{
    double reached = a->mix->reached;
    if (step <= 0)
        step = a->goal->aim == TC_WALL_MOST_TANKS ? 1 : DEFAULT_SHARE * reached;
    return a->goal->aim == TC_WALL_LEAST_COST ? reached - step : reached + step;
}

/* The target as a limit line: minus the goal at most minus the target. Returns what the goal has to come to.
 */
static int64_t set_target(const struct asked *a, struct tc_wall_limit_line *limit, struct tc_wall_line *line)
{
    *limit = (struct tc_wall_limit_line){.limit = 0};
    int64_t *factor = limit->line.factor;
    enum tc_wall_quantity cost = tc_wall_objective_cost(a->goal);
    const double per_money = 1e6; /* a ratio as whole millilitres per so much money: seven digits and more */
    switch (a->goal->aim) {
    case TC_WALL_MOST_TANKS:
        factor[TC_WALL_TANKS] = -1;
        limit->limit = -(int64_t)ceil(a->target - 1e-9);
        break;
    case TC_WALL_MOST_AREA:
        factor[TC_WALL_AREA] = -1;
        limit->limit = -llround(a->target * SQUARE_MM_PER_M2);
        break;
    case TC_WALL_MOST_WATER:
        factor[TC_WALL_WATER] = -1;
        limit->limit = -llround(a->target * MILLILITRES_PER_CUBIC);
        break;
    case TC_WALL_LEAST_COST:
        factor[cost] = 1;
        limit->limit = (int64_t)floor(a->target + 1e-9);
        break;
    case TC_WALL_WATER_PER_MONEY:
        factor[TC_WALL_WATER] = -(int64_t)per_money;
        factor[cost] = llround(a->target * MILLILITRES_PER_CUBIC * per_money);
        break;
    }
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        line->factor[f] = -factor[f];
    return -limit->limit;
}

/* The figure a limit is a limit of; TC_WALL_QUANTITIES for limits that are none of a sum. */
static enum tc_wall_quantity figure_of(const struct tc_wall *wall, struct tc_wall_limit_at at)
{
    switch (at.limit) {
    case TC_WALL_LIMIT_LENGTH: return (enum tc_wall_quantity)(TC_WALL_LENGTH + at.at);
    case TC_WALL_LIMIT_POWER: return (enum tc_wall_quantity)(TC_WALL_POWER + at.at);
    case TC_WALL_LIMIT_BUDGET: return (enum tc_wall_quantity)(TC_WALL_COST + (int)wall->budget_kind);
    default: return TC_WALL_QUANTITIES;
    }
}

/* Drops the line that limits one figure alone, and returns its limit. */
static int64_t take_limit(struct tc_wall_limit_line *limits, int *count, enum tc_wall_quantity figure)
{
    int64_t taken = 0;
    int kept = 0;
    for (int k = 0; k < *count; k++) {
        if (limits[k].line.factor[figure] == 1)
            taken = limits[k].limit;
        else
            limits[kept++] = limits[k];
    }
    *count = kept;
    return taken;
}

/* The wall with one limit out of the way; what limits the sum is then a line, or nothing. */
static struct tc_wall without(const struct asked *a, struct tc_wall_limit_at at)
{
    struct tc_wall wall = *a->wall;
    double longest = 0;
    for (int i = 0; i < a->count; i++)
        longest = fmax(longest, fmax(a->models[i].length, a->models[i].width));
    if (at.limit == TC_WALL_LIMIT_LENGTH)
        tc_wall_limit_set(&wall, at,
                          fmin(2 * (tc_wall_limit_value(&wall, at) + longest + wall.gap + wall.post), 1000));
    else if (at.limit == TC_WALL_LIMIT_POWER)
        tc_wall_limit_set(&wall, at, MOST_OF_LOADS);
    else
        wall.budget = 0;
    return wall;
}

/* A limit of a sum: as little of it as reaches the target. */
static enum tc_status relieve_sum(const struct asked *a, struct tc_wall_limit_at at,
                                  struct tc_wall_sensitivity *relief)
{
    struct tc_wall wide = without(a, at);
    const struct tc_wall_asked asked = {&wide, a->models, a->count, a->goal, a->effort};
    enum tc_wall_quantity figure = figure_of(a->wall, at);
    struct tc_wall_limit_line limits[TC_WALL_LIMITS + 1], target;
    int count = tc_wall_objective_limits(a->wall, a->goal, limits);
    int64_t now = take_limit(limits, &count, figure);
    struct tc_knapsack_answer answer;
    struct tc_wall_bays bays = {.capacity = 0};
    struct tc_wall_line goal, least = {{0}};
    int64_t enough = set_target(a, &target, &goal);
    /* Whether any amount of it would do. */
    enum tc_status status = tc_wall_line_reach(&asked, limits, count, &goal, enough, &bays);
    limits[count++] = target;
    least.factor[figure] = -1;
    if (status == TC_OK)
        status = tc_wall_mixed_solve(&wide, a->models, a->count, limits, count, &least, 1, a->effort, true,
                                     &bays, &answer);
    if (status == TC_OK) {
        /* Nothing to raise where the mix was not the best to begin with. */
        int64_t more = -answer.gains[0] > now ? -answer.gains[0] - now : 0;
        relief->proven = answer.goals_proven > 0;
        relief->raise = (double)more;
        if (at.limit == TC_WALL_LIMIT_LENGTH)
            relief->raise = tc_wall_metres(more);
        else if (at.limit == TC_WALL_LIMIT_POWER)
            relief->raise = (double)more / MILLIWATTS_PER_WATT;
    }
    tc_wall_bays_free(&bays);
    return status;
}

static double most_of(enum tc_wall_limit limit)
{
    bool size = limit == TC_WALL_LIMIT_HEIGHT || limit == TC_WALL_LIMIT_DEPTH || limit == TC_WALL_LIMIT_REACH;
    return size ? MOST_OF_SIZES : MOST_OF_LOADS;
}

/* The values of a limit at which tanks may stand in a new way. */
struct values {
    double *value;
    int count;
    double above, most; /* only those between are taken */
    int lost;           /* there was no room for so many */
};

enum { VALUES_MOST = 4096, SUM_MOST = 12 };

static void add_value(struct values *v, double value)
{
    if (value <= v->above * (1 + 1e-9) || value > v->most)
        return;
    if (v->count < VALUES_MOST)
        v->value[v->count++] = value;
    else
        v->lost++;
}

/* All sums of up to `terms` of the parts, from part `from` on, up to the second that is above the limit. */
static void add_sums(struct values *v, const double *part, int parts, int from, double sum, int terms)
{
    for (int i = from; i < parts && terms > 0; i++) {
        add_value(v, sum + part[i]);
        if (sum <= v->above)
            add_sums(v, part, parts, i, sum + part[i], terms - 1);
    }
}

/* Sums of one or two parts, each several times. */
static void add_pairs(struct values *v, const double *part, int parts)
{
    for (int i = 0; i < parts; i++)
        for (int j = i; j < parts; j++)
            for (int n = 1; n <= SUM_MOST; n++)
                for (int k = 0; k <= (i == j ? 0 : SUM_MOST); k++)
                    add_value(v, n * part[i] + k * part[j]);
}

/* A bay or a column must bear whole tanks and rows, high and heavy as they are: the sums of these. */
static void list_values(const struct asked *a, enum tc_wall_limit limit, double now, struct values *v)
{
    double part[2 * TC_WALL_MODELS_MAX];
    int parts = 0;
    v->above = now;
    v->most = most_of(limit);
    for (int i = 0; i < a->count; i++) {
        const struct tc_wall_model *m = &a->models[i];
        for (int k = 0; k < 2; k++) {
            struct tc_wall_stand stand = {.width = k ? m->width : m->length,
                                          .depth = k ? m->length : m->width};
            switch (limit) {
            case TC_WALL_LIMIT_DEPTH:
            case TC_WALL_LIMIT_REACH: add_value(v, stand.depth); break;
            case TC_WALL_LIMIT_FLOOR: part[parts++] = tc_wall_pressure(a->wall, &stand, m->mass, 1); break;
            case TC_WALL_LIMIT_HEIGHT:
                if (k == 0)
                    part[parts++] = m->height + a->wall->access + a->wall->shelf;
                break;
            default:
                if (k == 0)
                    part[parts++] = m->mass;
                break;
            }
        }
    }
    double base = limit == TC_WALL_LIMIT_HEIGHT ? a->wall->lowest - a->wall->shelf : 0;
    if (limit == TC_WALL_LIMIT_HEIGHT || limit == TC_WALL_LIMIT_FLOOR)
        add_sums(v, part, parts, 0, base, TC_WALL_TIERS_MAX);
    else if (limit == TC_WALL_LIMIT_TIERS)
        for (int t = 1; t <= TC_WALL_TIERS_MAX; t++)
            add_value(v, t);
    else
        add_pairs(v, part, parts);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Whether the target is reached with the limit at a value. */
static enum tc_status try_value(const struct asked *a, struct tc_wall_limit_at at, double value,
                                struct tc_wall_sensitivity *relief, bool *enough)
{
    struct tc_wall wall = *a->wall;
    tc_wall_limit_set(&wall, at, value);
    const struct tc_wall_asked asked = {&wall, a->models, a->count, a->goal, a->effort};
    struct tc_wall_limit_line target, limits[TC_WALL_LIMITS];
    struct tc_wall_line line;
    struct tc_wall_bays bays = {.capacity = 0};
    int count = tc_wall_objective_limits(&wall, a->goal, limits);
    int64_t at_least = set_target(a, &target, &line);
    enum tc_status status = tc_wall_line_reach(&asked, limits, count, &line, at_least, &bays);
    tc_wall_bays_free(&bays);
    *enough = status == TC_OK;
    relief->proven = relief->proven && status != TC_STOPPED;
    return status == TC_NO_RESULT || status == TC_STOPPED ? TC_OK : status;
}

/* A limit of how tanks stand: the least of the values at which that changes, by halving. */
static enum tc_status relieve_stand(const struct asked *a, struct tc_wall_limit_at at,
                                    struct tc_wall_sensitivity *relief)
{
    double now = tc_wall_limit_value(a->wall, at);
    struct values v = {.value = calloc(VALUES_MOST, sizeof *v.value)};
    if (!v.value)
        return TC_NO_MEMORY;
    list_values(a, at.limit, now, &v);
    size_t count = (size_t)v.count;
    double *values = v.value;
    qsort(values, count, sizeof *values, by_size);
    relief->proven = v.lost == 0;
    bool enough = false;
    enum tc_status status = count > 0 ? try_value(a, at, values[count - 1], relief, &enough) : TC_NO_RESULT;
    size_t low = 0;
    size_t high = count > 0 ? count - 1 : 0; /* known to be enough */
    while (status == TC_OK && enough && low < high) {
        size_t middle = low + (high - low) / 2;
        bool here = false;
        status = try_value(a, at, values[middle], relief, &here);
        if (here)
            high = middle;
        else
            low = middle + 1;
    }
    if (status == TC_OK && enough)
        relief->raise = values[high] - now;
    free(values);
    return status == TC_OK && !enough ? TC_NO_RESULT : status;
}

enum tc_status tc_wall_sensitivity_find(const struct tc_wall *wall, const struct tc_wall_model *models,
                                        int count, const struct tc_wall_goal *goal,
                                        const struct tc_wall_mix *mix, struct tc_wall_limit_at at,
                                        double step, const struct tc_knapsack_effort *effort,
                                        struct tc_wall_sensitivity *relief)
{
    *relief = (struct tc_wall_sensitivity){0};
    struct asked a = {wall, models, count, goal, mix, effort, 0};
    if (at.limit < 0 || at.limit >= TC_WALL_LIMIT_COUNT || at.at < 0 || !(step >= 0) || count < 1)
        return TC_RANGE;
    if (tc_wall_limit_value(wall, at) <= 0)
        return TC_NO_RESULT;
    a.target = target_of(&a, step);
    if (figure_of(wall, at) == TC_WALL_QUANTITIES)
        return relieve_stand(&a, at, relief);
    return relieve_sum(&a, at, relief);
}
