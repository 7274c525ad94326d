/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_mixed.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"
#include "core/wall/wall_branch.h"
#include "core/wall/wall_master.h"
#include "core/wall/wall_near.h"
#include "core/wall/wall_one_goal.h"
#include "core/wall/wall_packing.h"

enum {
    PATTERNS_MOST = 50000, /* in one search */
    STEPS_A_NODE = 10,
    FIRST_PART = 4,  /* of the steps, so many parts */
    NARROWINGS = 24, /* how often fewer bays are listed where they are too many, or more where they are few */
    DEFAULT_NODES = 1000000
};

/*
 * The bays this much nearer to the bound than all that matter are tried first, then so many times further
 * off; where they are too many, so much nearer; and it ends where so near is won.
 */
#define FIRST_NEARNESS   4.0
#define WIDENING         2.0
#define NARROWING        4.0
#define FINEST_NARROWING 1.05

/* A bound so much wider than what is found is worth tightening. */
#define WIDE_GAP 0.01

/* Work of one node of the knapsack is about that of so many of its choices, see make bench. */
#define CHOICES_A_NODE 40.0
/* Where the proof was not found, so much of the work goes into one more look for a better answer. */
#define SHARE_OF_LAST 0.2

void tc_wall_bays_free(struct tc_wall_bays *bays)
{
    tc_wall_patterns_free(&bays->patterns);
    free(bays->circuit);
    *bays = (struct tc_wall_bays){.capacity = 0};
}

enum tc_status tc_wall_bays_add(struct tc_wall_bays *bays, const struct tc_wall_patterns *from, int pattern,
                                int circuit)
{
    const struct tc_wall_pattern *p = &from->pattern[pattern];
    int *circuits = tc_grow(bays->circuit, (size_t)bays->patterns.count, &bays->capacity, sizeof *circuits);
    if (!circuits)
        return TC_NO_MEMORY;
    bays->circuit = circuits;
    struct tc_wall_pattern *to = tc_wall_patterns_add(&bays->patterns, p->tanks);
    if (!to)
        return TC_NO_MEMORY;
    int first = to->first;
    *to = *p;
    to->first = first;
    memcpy(&bays->patterns.spot[first], &from->spot[p->first], (size_t)p->tanks * sizeof *from->spot);
    bays->circuit[bays->patterns.count - 1] = circuit;
    return TC_OK;
}

/* ----------------------------------------------------------------------- a solve under way */

struct mixing {
    struct tc_wall_master master;
    const struct tc_knapsack_effort *effort;
    struct tc_wall_bays *bays; /* the best found */
    bool found;
    int64_t worth; /* of the one goal */
    double floor;  /* no answer is worth less, or is of use */
    double enough; /* an answer of this worth will do; INFINITY: only the best */
    double bound;  /* nothing is worth more */
    int64_t nodes;
    int64_t steps; /* of listing and searching bays that are left */
    bool stopped;  /* by the person */
};

static int64_t worth_of(const struct mixing *x, const struct tc_wall_bays *bays)
{
    int64_t figure[TC_WALL_QUANTITIES];
    tc_wall_bays_figures(x->master.wall, x->master.models, x->master.count, bays, figure, NULL);
    return tc_wall_line_value(&x->master.goal, figure);
}

void tc_wall_bays_figures(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                          const struct tc_wall_bays *bays, int64_t *figure, int *tanks)
{
    int counts[TC_WALL_MODELS_MAX] = {0};
    int64_t one[TC_WALL_QUANTITIES];
    struct tc_wall_frame frame;
    memset(figure, 0, TC_WALL_QUANTITIES * sizeof *figure);
    for (int b = 0; b < bays->patterns.count; b++) {
        const struct tc_wall_pattern *p = &bays->patterns.pattern[b];
        if (b == 0 || p->frame != bays->patterns.pattern[b - 1].frame)
            tc_wall_frame_make(wall, p->frame, models, count, &frame);
        for (int k = 0; k < p->tanks; k++) {
            int model = frame.piece[bays->patterns.spot[p->first + k].piece].model;
            tc_wall_tank_figures(&models[model], one);
            counts[model]++;
            for (int f = 0; f < TC_WALL_QUANTITIES; f++)
                figure[f == TC_WALL_POWER ? TC_WALL_POWER + bays->circuit[b] : f] += one[f];
        }
        figure[TC_WALL_LENGTH + p->frame] += p->length;
        figure[TC_WALL_BAYS]++;
        for (int k = 0; k < 2; k++)
            figure[TC_WALL_COST + k] += wall->bay_price + p->tiers * wall->tier_price;
    }
    for (int i = 0; i < count; i++) {
        int on_sale = counts[i] < models[i].sale_most ? counts[i] : models[i].sale_most;
        for (int k = 0; k < 2 && on_sale > 0; k++)
            figure[TC_WALL_COST + k] -= on_sale * (models[i].price[k] - models[i].sale_price[k]);
        if (tanks)
            tanks[i] = counts[i];
    }
}

/* ------------------------------------------------------------------------ the knapsack of bays */

/* Takes the answer of a knapsack where it is better than what is known. */
static enum tc_status take(struct mixing *x, const int *picks)
{
    const struct tc_wall_master *m = &x->master;
    struct tc_wall_bays bays = {.capacity = 0};
    enum tc_status status = TC_OK;
    for (int p = 0; p < m->patterns.count; p++)
        for (int c = 0; c < m->circuits; c++)
            for (int n = picks[m->sales + p * m->circuits + c]; status == TC_OK && n > 0; n--)
                status = tc_wall_bays_add(&bays, &m->patterns, p, c);
    int64_t worth = status == TC_OK ? worth_of(x, &bays) : 0;
    if (status == TC_OK && (!x->found || worth > x->worth)) {
        struct tc_wall_bays held = *x->bays;
        *x->bays = bays;
        bays = held;
        x->worth = worth;
        x->found = true;
    }
    tc_wall_bays_free(&bays);
    return status;
}

/* The answer known as picks of the knapsack, if its patterns are in front. */
static void suggest(const struct mixing *x, int known, int *picks)
{
    const struct tc_wall_master *m = &x->master;
    int tanks[TC_WALL_MODELS_MAX];
    int64_t figure[TC_WALL_QUANTITIES];
    for (int b = 0; b < known; b++)
        picks[m->sales + b * m->circuits + x->bays->circuit[b]]++;
    tc_wall_bays_figures(m->wall, m->models, m->count, x->bays, figure, tanks);
    for (int k = 0; k < m->sales; k++) {
        int i = m->sale_model[k];
        picks[k] = tanks[i] < m->models[i].sale_most ? tanks[i] : m->models[i].sale_most;
    }
}

/* A share of the work, in nodes of this knapsack; some in any case. */
static struct tc_knapsack_effort effort_of(const struct mixing *x, const struct tc_wall_packing *p,
                                           double share)
{
    int64_t nodes = x->effort && x->effort->nodes > 0 ? x->effort->nodes : DEFAULT_NODES;
    double size = (double)p->choices * (p->rows + 2);
    struct tc_knapsack_effort effort = {.nodes = 20};
    if (p->choices > 0 && isfinite(share))
        effort.nodes += (int64_t)(share * CHOICES_A_NODE * (double)nodes / size);
    if (x->effort) {
        effort.go_on = x->effort->go_on;
        effort.context = x->effort->context;
    }
    return effort;
}

/*
 * Solves the knapsack of the master's patterns, with a share of the work. The
 * first `known` patterns are the bays of the answer known, if not 0.
 */
static enum tc_status pack_bays(struct mixing *x, int known, double share)
{
    const struct tc_wall_master *m = &x->master;
    struct tc_wall_packing p;
    struct tc_knapsack_answer answer = {.found = false};
    enum tc_status status = tc_wall_packing_make(m, &p);
    int *picks = calloc((size_t)p.classes + 1, sizeof *picks);
    if (!picks)
        status = TC_NO_MEMORY;
    if (status == TC_OK && known > 0) {
        suggest(x, known, picks);
        status = tc_knapsack_suggest(p.pack, picks);
    }
    struct tc_knapsack_effort effort = effort_of(x, &p, share);
    if (status == TC_OK)
        status = tc_knapsack_solve(p.pack, &effort, &answer, picks);
    x->nodes += answer.nodes;
    if (status == TC_OK)
        status = take(x, picks);
    if (status == TC_NO_RESULT || status == TC_STOPPED)
        status = TC_OK;
    free(picks);
    tc_knapsack_free(p.pack);
    return status;
}

/* The bays of the answer known as the first patterns of the master. */
static enum tc_status put_known(struct mixing *x)
{
    struct tc_wall_patterns *patterns = &x->master.patterns;
    const struct tc_wall_patterns *known = &x->bays->patterns;
    for (int b = 0; x->found && b < known->count; b++) {
        const struct tc_wall_pattern *from = &known->pattern[b];
        struct tc_wall_pattern *to = tc_wall_patterns_add(patterns, from->tanks);
        if (!to)
            return TC_NO_MEMORY;
        int first = to->first;
        *to = *from;
        to->first = first;
        memcpy(&patterns->spot[first], &known->spot[from->first], (size_t)from->tanks * sizeof *known->spot);
    }
    return TC_OK;
}

/* ------------------------------------------------------------------------------- the proof */

/* The least worth an answer must have to be better than the one known. */
static double to_beat(const struct mixing *x)
{
    return x->found ? fmax((double)x->worth + 1, x->floor) : x->floor;
}

/* Whether an answer will do without being the best. */
static bool is_enough(const struct mixing *x)
{
    return x->found && (double)x->worth >= x->enough;
}

/* Takes the bays the search picked from the master's patterns. */
static enum tc_status take_picked(struct mixing *x, const struct tc_wall_branching *b)
{
    const struct tc_wall_master *m = &x->master;
    struct tc_wall_bays bays = {.capacity = 0};
    enum tc_status status = TC_OK;
    for (int k = 0; status == TC_OK && k < b->bays; k++)
        status =
            tc_wall_bays_add(&bays, &m->patterns, b->picked[k] / m->circuits, b->picked[k] % m->circuits);
    if (status == TC_OK) {
        struct tc_wall_bays held = *x->bays;
        *x->bays = bays;
        bays = held;
        x->worth = b->worth;
        x->found = true;
    }
    tc_wall_bays_free(&bays);
    return status;
}

/*
 * Lists the bays of all answers worth `least` and more, and searches them;
 * *whole is false where they are too many.
 */
static enum tc_status try_near(struct mixing *x, const struct tc_wall_bound *bound, double least, bool *whole)
{
    struct tc_wall_master *m = &x->master;
    int64_t steps = x->steps / 4;
    int64_t before = steps;
    struct tc_wall_patterns held = m->patterns;
    m->patterns = (struct tc_wall_patterns){.count = 0};
    enum tc_status status =
        tc_wall_near(m, bound, least, PATTERNS_MOST / m->circuits, &steps, &m->patterns, whole);
    struct tc_wall_branching b = {.master = m,
                                  .bound = bound,
                                  .found = x->found,
                                  .worth = x->worth,
                                  .least = least,
                                  .enough = x->enough,
                                  .steps = x->steps / 2,
                                  .bays = -1};
    if (status == TC_OK && *whole)
        status = tc_wall_branch(&b);
    if (status == TC_OK && *whole && b.bays >= 0)
        status = take_picked(x, &b);
    int64_t spent = before - steps + x->steps / 2 - b.steps;
    x->nodes += spent / STEPS_A_NODE;
    x->steps -= spent < x->steps ? spent : x->steps;
    *whole = *whole && b.steps >= 0;
    if (status == TC_OK && *whole && !is_enough(x))
        x->bound = fmin(x->bound, x->found ? fmax((double)x->worth, least - 1) : least - 1);
    free(b.picked);
    tc_wall_patterns_free(&m->patterns);
    m->patterns = held;
    return status;
}

/* How far below the bound to look next, after looking `could` far was possible, and `could_not` was not. */
static double how_deep(double all, double could, double could_not)
{
    if (isinf(could_not))
        return could > 0 ? fmin(all, WIDENING * could) : all / FIRST_NEARNESS;
    return fmin(all, could > 0 ? sqrt(could * could_not) : could_not / NARROWING);
}

/* Lists and searches the bays near a bound, until nothing better is left or the steps are used up. */
static enum tc_status prove_by(struct mixing *x, const struct tc_wall_bound *bound)
{
    enum tc_status status = TC_OK;
    if (bound->whole && x->master.whole)
        x->bound = fmin(x->bound, bound->value);
    /* How far below the bound the bays could be listed and searched, and how far they could not. */
    double could = 0, could_not = INFINITY;
    for (int k = 0; status == TC_OK && bound->whole && k < NARROWINGS && to_beat(x) <= x->bound &&
                    could_not >= could * FINEST_NARROWING && !is_enough(x);
         k++) {
        bool whole = false;
        double deep = how_deep(bound->value - to_beat(x), could, could_not);
        status = try_near(x, bound, bound->value - deep, &whole);
        *(whole ? &could : &could_not) = deep;
    }
    return status;
}

/*
 * First by the multipliers of the program, which tell good bays from others best; where that takes long and
 * the bound stays wide, by those that bound more tightly.
 */
static enum tc_status prove(struct mixing *x)
{
    struct tc_wall_bound bound;
    int64_t steps = STEPS_A_NODE * (x->effort && x->effort->nodes > 0 ? x->effort->nodes : DEFAULT_NODES);
    enum tc_status status = tc_wall_bound_make(&x->master, &bound);
    bool wide =
        status == TC_OK && bound.whole && x->found && bound.value - to_beat(x) > WIDE_GAP * fabs(to_beat(x));
    x->steps = wide ? steps / FIRST_PART : steps;
    if (status == TC_OK)
        status = prove_by(x, &bound);
    if (status == TC_OK && wide && to_beat(x) <= x->bound && !is_enough(x)) {
        status = tc_wall_bound_tighten(&x->master, to_beat(x), &bound);
        x->steps = steps - steps / FIRST_PART;
        if (status == TC_OK)
            status = prove_by(x, &bound);
    }
    tc_wall_bound_free(&bound);
    return status;
}

static enum tc_status mix(struct mixing *x)
{
    struct tc_wall_master *m = &x->master;
    enum tc_status status = put_known(x);
    /* Added one by one, so that the program knows them as well. */
    int known = m->patterns.count;
    for (m->patterns.count = 0; status == TC_OK && m->patterns.count < known;) {
        m->patterns.count++;
        status = tc_wall_master_add(m);
    }
    if (status == TC_OK)
        status = tc_wall_master_solve(m, x->effort);
    x->stopped = status == TC_STOPPED;
    if (status != TC_OK)
        return status == TC_STOPPED && x->found ? TC_OK : status;
    if (!m->feasible && !x->found)
        return m->whole ? TC_NO_RESULT : TC_STOPPED;
    status = pack_bays(x, known, 0);
    if (status == TC_OK && !is_enough(x))
        status = prove(x);
    if (status == TC_OK && x->bound >= to_beat(x) && !is_enough(x))
        status = pack_bays(x, 0, SHARE_OF_LAST);
    if (status != TC_OK || x->found)
        return status;
    return x->bound < x->floor ? TC_NO_RESULT : TC_STOPPED;
}

/* ------------------------------------------------------------------------- several goals */

/* The answer in the terms of the goals as they were given. */
static void tell(const struct mixing *x, const struct tc_wall_line *goals, int count, int taken, double scale,
                 double behind, struct tc_knapsack_answer *answer)
{
    int64_t figure[TC_WALL_QUANTITIES];
    const struct tc_wall_master *m = &x->master;
    tc_wall_bays_figures(m->wall, m->models, m->count, x->bays, figure, NULL);
    bool proven = x->bound < (double)x->worth + 1;
    *answer =
        (struct tc_knapsack_answer){.found = true, .proven = proven && taken == count, .nodes = x->nodes};
    for (int g = 0; g < count; g++)
        answer->gains[g] = answer->bounds[g] = tc_wall_line_value(&goals[g], figure);
    double first = floor((x->bound + behind) / scale + 1e-9);
    if (!proven && first > (double)answer->gains[0])
        answer->bounds[0] = first < 9e18 ? (int64_t)first : INT64_MAX;
    answer->goals_proven = proven ? taken : answer->bounds[0] == answer->gains[0] ? 1 : 0;
}

/* The goals behind the first ones, which are kept at what they reached. */
static enum tc_status solve_rest(const struct mixing *x, const struct tc_wall_line *goals, int goal_count,
                                 int taken, struct tc_knapsack_answer *answer)
{
    const struct tc_wall_master *m = &x->master;
    struct tc_wall_limit_line limits[TC_SIMPLEX_ROWS_MAX];
    struct tc_knapsack_answer rest;
    int count = m->limit_count;
    if (count + taken > TC_SIMPLEX_ROWS_MAX)
        return TC_OK;
    memcpy(limits, m->limits, (size_t)count * sizeof *limits);
    for (int g = 0; g < taken; g++) {
        limits[count] = (struct tc_wall_limit_line){.limit = -answer->gains[g]};
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            limits[count].line.factor[f] = -goals[g].factor[f];
        count++;
    }
    enum tc_status status = tc_wall_mixed_solve(m->wall, m->models, m->count, limits, count, goals + taken,
                                                goal_count - taken, x->effort, true, x->bays, &rest);
    if (status != TC_OK)
        return status;
    for (int g = taken; g < goal_count; g++) {
        answer->gains[g] = rest.gains[g - taken];
        answer->bounds[g] = rest.bounds[g - taken];
    }
    answer->nodes += rest.nodes;
    answer->proven = rest.proven;
    answer->goals_proven = taken + rest.goals_proven;
    return TC_OK;
}

enum tc_status tc_wall_mixed_solve(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goals, int goal_count,
                                   const struct tc_knapsack_effort *effort, bool start,
                                   struct tc_wall_bays *bays, struct tc_knapsack_answer *answer)
{
    struct mixing x = {.effort = effort, .bays = bays, .found = start, .enough = INFINITY, .bound = INFINITY};
    struct tc_wall_line one;
    double scale = 1, behind = 0;
    enum tc_status status =
        tc_wall_master_make(&x.master, wall, models, count, limits, limit_count, &goals[0]);
    int taken = status == TC_OK ? tc_wall_one_goal(&x.master, goals, goal_count, &one, &scale, &behind) : 0;
    if (status == TC_OK &&
        tc_wall_most_of_line(&x.master, &goals[0], false) > (double)TC_KNAPSACK_FIGURE_MAX / 2)
        status = TC_OVERFLOW;
    tc_wall_master_free(&x.master);
    if (status == TC_OK)
        status = tc_wall_master_make(&x.master, wall, models, count, limits, limit_count, &one);
    if (status == TC_OK)
        x.floor = -tc_wall_most_of_line(&x.master, &one, true);
    if (status == TC_OK && start)
        x.worth = worth_of(&x, bays);
    if (status == TC_OK)
        status = mix(&x);
    if (status == TC_OK)
        tell(&x, goals, goal_count, taken, scale, behind, answer);
    if (status == TC_OK && taken < goal_count && answer->goals_proven == taken)
        status = solve_rest(&x, goals, goal_count, taken, answer);
    tc_wall_master_free(&x.master);
    return status;
}

enum tc_status tc_wall_mixed_reach(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goal, int64_t enough,
                                   const struct tc_knapsack_effort *effort, bool start,
                                   struct tc_wall_bays *bays)
{
    struct mixing x = {.effort = effort,
                       .bays = bays,
                       .found = start,
                       .floor = (double)enough,
                       .enough = (double)enough,
                       .bound = INFINITY};
    enum tc_status status = tc_wall_master_make(&x.master, wall, models, count, limits, limit_count, goal);
    if (status == TC_OK && tc_wall_most_of_line(&x.master, goal, false) > (double)TC_KNAPSACK_FIGURE_MAX / 2)
        status = TC_OVERFLOW;
    if (status == TC_OK && start)
        x.worth = worth_of(&x, bays);
    if (status == TC_OK && !is_enough(&x))
        status = mix(&x);
    if (status == TC_OK && !is_enough(&x))
        status = x.bound < x.enough ? TC_NO_RESULT : TC_STOPPED;
    tc_wall_master_free(&x.master);
    return status;
}
