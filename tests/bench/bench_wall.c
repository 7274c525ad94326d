/* SPDX-License-Identifier: MIT */
/*
 * The best mix of 12 models on a wall of 12 m, in bays of 2 m whose tiers may
 * mix, against glpsol (GLPK) on the same walls, given the integer program in its
 * natural form (support/mixed_case.h).
 *
 * Time of glpsol: the whole process. It is given up after GIVE_UP seconds,
 * which then counts as its time. Ours: tc_wall_mix_find, from the wall to the
 * placed bays, ties included, which glpsol is not asked for, as seconds of the
 * processor, with the work that a command allows; and the gap to the bound
 * where there is no proof, then and with the work of about two seconds.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/wall/wall_solve.h"
#include "support/glpsol.h"
#include "support/mixed_case.h"

enum {
    WALLS = 10,
    MODELS = 12,
    LENGTH = 12000,
    BAY = 2000,
    TIERS = 4,
    GIVE_UP = 10,
    NODES = 1000000,
    TWO_SECONDS = 15 * NODES
};

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

struct times {
    double ours, ours_most, theirs, gap, late_gap;
    int proven, late_proven, given_up, walls;
};

static int64_t values[WALL_CASE_VARIABLES];

/* One run of glpsol; adds its time, and counts it if it gave up. */
static void run(struct glpsol *g, const struct wall_case *c, struct wall_case_worth worth,
                struct times *times)
{
    double seconds;
    if (!glpsol_begin(g))
        exit(3);
    int count = mixed_case_write(c, &worth, NULL, 0, NULL, g->to);
    enum glpsol_end end = glpsol_solve(g, GIVE_UP, values, count, &seconds);
    if (end == GLPSOL_FAILED)
        exit(3);
    times->theirs += seconds;
    times->given_up += end == GLPSOL_GAVE_UP;
}

static void time_wall(struct glpsol *g, const struct wall_case *c, struct wall_case_worth worth,
                      struct times *times)
{
    struct tc_wall wall;
    struct tc_wall_model models[WALL_CASE_MODELS];
    struct tc_wall_mix mix;
    const struct tc_knapsack_effort effort = {.nodes = NODES};
    wall_case_in_si(c, &wall, models);
    double start = now();
    if (tc_wall_mix_find(&wall, models, c->models, &c->goal, &effort, &mix) != TC_OK)
        return;
    double ours = now() - start;
    times->walls++;
    times->ours += ours;
    times->ours_most = fmax(times->ours_most, ours);
    times->proven += mix.goals_proven > 0;
    times->gap = fmax(times->gap, fabs(mix.bound - mix.reached) / fabs(mix.reached));
    tc_wall_mix_free(&mix);
    const struct tc_knapsack_effort more = {.nodes = TWO_SECONDS};
    if (tc_wall_mix_find(&wall, models, c->models, &c->goal, &more, &mix) != TC_OK)
        return;
    times->late_proven += mix.goals_proven > 0;
    times->late_gap = fmax(times->late_gap, fabs(mix.bound - mix.reached) / fabs(mix.reached));
    tc_wall_mix_free(&mix);
    run(g, c, worth, times);
}

int main(void)
{
    static const struct {
        const char *name;
        enum tc_wall_objective aim;
        struct wall_case_worth worth;
    } aims[] = {{"most tanks", TC_WALL_MOST_TANKS, {.tanks = 1}},
                {"most area", TC_WALL_MOST_AREA, {.area = 1}},
                {"most water", TC_WALL_MOST_WATER, {.volume = 1}},
                {"least cost", TC_WALL_LEAST_COST, {.cost = -1}}};
    struct glpsol g;
    if (!glpsol_present() || !glpsol_open(&g)) {
        puts("glpsol is not here to compare with");
        return 0;
    }
    printf("%d models, wall of %d mm, bays of %d mm, %d walls for each aim\n", MODELS, LENGTH, BAY, WALLS);
    for (size_t i = 0; i < sizeof aims / sizeof aims[0]; i++) {
        struct times times = {0};
        for (int k = 0; k < WALLS; k++) {
            struct wall_case c;
            wall_case_draw_room(&c, (uint64_t)k + 1, MODELS, LENGTH, aims[i].aim);
            c.bay_length = BAY;
            c.tiers = TIERS;
            time_wall(&g, &c, aims[i].worth, &times);
        }
        printf("%-10s ours %6.1f ms (most %7.1f), %2d of %2d proven, worst gap %.2f %%, late %2d, %.2f %%; "
               "glpsol %7.1f ms, gave up on %2d: %3.0f times\n",
               aims[i].name, 1e3 * times.ours / times.walls, 1e3 * times.ours_most, times.proven, times.walls,
               100 * times.gap, times.late_proven, 100 * times.late_gap, 1e3 * times.theirs / times.walls,
               times.given_up, times.theirs / times.ours);
    }
    glpsol_close(&g);
    return 0;
}
