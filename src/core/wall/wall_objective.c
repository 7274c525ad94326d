/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_objective.h"

#include <stdlib.h>

#define M2_PER_SQUARE_MM     1e-6
#define CUBIC_PER_MILLILITRE 1e-6

enum { ROUNDS_MAX = 100 }; /* Dinkelbach's method needs a handful; each improves the ratio */

enum tc_wall_quantity tc_wall_objective_cost(const struct tc_wall_goal *goal)
{
    return goal->money == TC_WALL_OVER_PERIOD ? TC_WALL_COST_OVER_PERIOD : TC_WALL_COST;
}

int tc_wall_objective_limits(const struct tc_wall *wall, const struct tc_wall_goal *goal,
                             struct tc_wall_limit_line *limits)
{
    int count = tc_wall_knapsack_limits(wall, limits);
    int wanted = goal->wanted;
    if (goal->aim == TC_WALL_WATER_PER_MONEY && wanted < 1)
        wanted = 1;
    if (wanted > 0) {
        limits[count] = (struct tc_wall_limit_line){.limit = -wanted};
        limits[count++].line.factor[TC_WALL_TANKS] = -1;
    }
    return count;
}

/* The lines of a goal other than water per money, in order. */
static void set_lines(const struct tc_wall_goal *goal, struct tc_wall_line *lines)
{
    for (int g = 0; g < TC_WALL_GOALS; g++)
        lines[g] = (struct tc_wall_line){{0}};
    enum tc_wall_quantity cost = tc_wall_objective_cost(goal);
    switch (goal->aim) {
    case TC_WALL_MOST_TANKS: lines[0].factor[TC_WALL_TANKS] = 1; break;
    case TC_WALL_MOST_AREA: lines[0].factor[TC_WALL_AREA] = 1; break;
    case TC_WALL_MOST_WATER: lines[0].factor[TC_WALL_WATER] = 1; break;
    case TC_WALL_LEAST_COST:
    case TC_WALL_WATER_PER_MONEY: lines[0].factor[cost] = -1; break;
    }
    if (goal->aim == TC_WALL_LEAST_COST || goal->aim == TC_WALL_WATER_PER_MONEY)
        lines[1].factor[TC_WALL_WATER] = 1;
    else
        lines[1].factor[cost] = -1;
}

static int64_t greatest_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* The bays of a choice of so many tanks of one model. */
static enum tc_status add_bays(const struct tc_wall_ways *ways, int way, int model,
                               const struct tc_wall_frame *frame, struct tc_wall_bays *bays)
{
    enum tc_status status = TC_OK;
    for (; status == TC_OK && ways->ways[way].before >= 0; way = ways->ways[way].before) {
        const struct tc_wall_bay_kind *kind = &ways->kinds[ways->ways[way].kind];
        int piece = 0;
        while (frame->piece[piece].model != model || frame->piece[piece].end_on != kind->end_on)
            piece++;
        struct tc_wall_patterns one = {.count = 0};
        struct tc_wall_pattern *pattern = tc_wall_patterns_add(&one, kind->tanks);
        if (!pattern) {
            tc_wall_patterns_free(&one);
            return TC_NO_MEMORY;
        }
        pattern->tiers = kind->tiers;
        pattern->length = kind->columns * frame->piece[piece].width + frame->own;
        /* All columns but the last are full. */
        int last = kind->tanks - (kind->columns - 1) * kind->tiers;
        int at = 0;
        for (int t = 0; t < kind->tiers; t++)
            for (int c = 0; c < kind->columns - 1 + (t < last); c++)
                one.spot[at++] = (struct tc_wall_spot){(short)t, (short)piece};
        status = tc_wall_bays_add(bays, &one, 0, 0);
        tc_wall_patterns_free(&one);
    }
    return status;
}

/* The best bays of one model each in the first stretch; *found is false where there are none in time. */
static enum tc_status start_bays(const struct tc_wall_asked *a, const struct tc_wall_limit_line *limits,
                                 int limit_count, const struct tc_wall_line *goals, int goal_count,
                                 struct tc_wall_bays *bays, bool *found)
{
    struct tc_wall first = tc_wall_of_stretch(a->wall, 0);
    struct tc_wall_knapsack choices = {0};
    struct tc_knapsack_answer answer;
    struct tc_wall_frame *frame = malloc(sizeof *frame);
    int *picked = calloc((size_t)a->count + 1, sizeof *picked);
    enum tc_status status = frame && picked ? TC_OK : TC_NO_MEMORY;
    *found = false;
    if (status == TC_OK)
        status = tc_wall_knapsack_create(&first, a->models, a->count, &choices);
    if (status == TC_OK) {
        status = tc_wall_knapsack_solve(&choices, limits, limit_count, goals, goal_count, a->effort, &answer,
                                        picked);
        *found = status == TC_OK;
        if (status == TC_NO_RESULT || status == TC_STOPPED)
            status = TC_OK;
    }
    if (*found)
        tc_wall_frame_make(a->wall, 0, a->models, a->count, frame);
    for (int i = 0; *found && status == TC_OK && i < a->count; i++)
        status = add_bays(&choices.ways[i], choices.choice[picked[i]].way, i, frame, bays);
    tc_wall_knapsack_free(&choices);
    free(picked);
    free(frame);
    return status;
}

/*
 * The bays that make the goals as large as can be under limits: first the best of those that hold one model
 * each, then from there on the best of all.
 */
static enum tc_status lines_solve(const struct tc_wall_asked *a, const struct tc_wall_limit_line *limits,
                                  int limit_count, const struct tc_wall_line *goals, int goal_count,
                                  struct tc_wall_bays *bays, struct tc_knapsack_answer *answer)
{
    bool found;
    enum tc_status status = start_bays(a, limits, limit_count, goals, goal_count, bays, &found);
    if (status == TC_OK)
        status = tc_wall_mixed_solve(a->wall, a->models, a->count, limits, limit_count, goals, goal_count,
                                     a->effort, found, bays, answer);
    return status;
}

enum tc_status tc_wall_line_reach(const struct tc_wall_asked *a, const struct tc_wall_limit_line *limits,
                                  int limit_count, const struct tc_wall_line *goal, int64_t enough,
                                  struct tc_wall_bays *bays)
{
    bool found;
    enum tc_status status = start_bays(a, limits, limit_count, goal, 1, bays, &found);
    if (status == TC_OK)
        status = tc_wall_mixed_reach(a->wall, a->models, a->count, limits, limit_count, goal, enough,
                                     a->effort, found, bays);
    return status;
}

/*
 * Dinkelbach's method. From the answer with the least cost, each round asks
 * whether water * cost0 - cost * water0 can be positive; where it can, the
 * better ratio is the next (water0, cost0); where it cannot, it is the best.
 * Each round starts from the answer of the one before, which is worth 0.
 */
static enum tc_status solve_ratio(const struct tc_wall_asked *a, const struct tc_wall_limit_line *limits,
                                  int limit_count, struct tc_wall_reached_goal *aimed,
                                  struct tc_wall_bays *bays)
{
    struct tc_wall_line lines[TC_WALL_GOALS];
    int64_t figure[TC_WALL_QUANTITIES];
    enum tc_wall_quantity cost = tc_wall_objective_cost(a->goal);
    set_lines(a->goal, lines);
    struct tc_knapsack_answer *answer = &aimed->answer;
    enum tc_status status = lines_solve(a, limits, limit_count, lines, 1, bays, answer);
    /* Even a search that was stopped early bounds the cost from below. */
    double least_cost = status == TC_OK ? -(double)answer->bounds[0] : 0;
    int64_t nodes = 0;
    bool better = true;
    for (int round = 0; status == TC_OK && better && round < ROUNDS_MAX; round++) {
        nodes += answer->nodes;
        tc_wall_bays_figures(a->wall, a->models, a->count, bays, figure, NULL);
        int64_t water0 = figure[TC_WALL_WATER];
        int64_t cost0 = figure[cost];
        if (least_cost < 1)
            return TC_RANGE;
        int64_t divisor = greatest_divisor(water0, cost0);
        int64_t factor = cost0 / divisor;
        lines[0] = (struct tc_wall_line){{0}};
        lines[0].factor[TC_WALL_WATER] = factor;
        lines[0].factor[cost] = -(water0 / divisor);
        status = tc_wall_mixed_solve(a->wall, a->models, a->count, limits, limit_count, lines, TC_WALL_GOALS,
                                     a->effort, true, bays, answer);
        better = status == TC_OK && answer->gains[0] > 0;
        double more = (double)answer->bounds[0] / ((double)factor * least_cost);
        aimed->reached = (double)water0 / (double)cost0 * CUBIC_PER_MILLILITRE;
        aimed->bound = aimed->reached + more * CUBIC_PER_MILLILITRE;
    }
    answer->nodes += nodes;
    return status;
}

static void set_reached(const struct tc_wall_goal *goal, struct tc_wall_reached_goal *aimed)
{
    double unit = 1;
    if (goal->aim == TC_WALL_MOST_AREA)
        unit = M2_PER_SQUARE_MM;
    else if (goal->aim == TC_WALL_MOST_WATER)
        unit = CUBIC_PER_MILLILITRE;
    else if (goal->aim == TC_WALL_LEAST_COST)
        unit = -1;
    aimed->reached = (double)aimed->answer.gains[0] * unit;
    aimed->bound = (double)aimed->answer.bounds[0] * unit;
}

enum tc_status tc_wall_objective_solve(const struct tc_wall_asked *a, struct tc_wall_reached_goal *aimed,
                                       struct tc_wall_bays *bays)
{
    *aimed = (struct tc_wall_reached_goal){.reached = 0};
    const struct tc_wall_goal *goal = a->goal;
    if (goal->wanted < 0 || (goal->money != TC_WALL_TO_BUY && goal->money != TC_WALL_OVER_PERIOD))
        return TC_RANGE;
    struct tc_wall_limit_line limits[TC_WALL_LIMITS];
    int limit_count = tc_wall_objective_limits(a->wall, goal, limits);
    if (goal->aim == TC_WALL_WATER_PER_MONEY)
        return solve_ratio(a, limits, limit_count, aimed, bays);
    struct tc_wall_line lines[TC_WALL_GOALS];
    set_lines(goal, lines);
    enum tc_status status = lines_solve(a, limits, limit_count, lines, TC_WALL_GOALS, bays, &aimed->answer);
    if (status == TC_OK)
        set_reached(goal, aimed);
    return status;
}
