/* SPDX-License-Identifier: MIT */
/*
 * The best mix of 30 models on a wall of 12 m against glpsol (GLPK) on the same
 * walls, given the integer program in its natural form (support/wall_case.h).
 *
 * Time of glpsol: the whole process; and the same less that of a process that
 * starts, reads the file and stops (--check). It is given up after GIVE_UP
 * seconds, which then counts as its time. Ours: tc_wall_mix_find, the mean of
 * several calls, from the wall to the placed bays, ties included, which glpsol
 * is not asked for. Water per money is a ratio, which takes both several rounds.
 */
#include <stdlib.h>
#include <time.h>

#include "core/wall/wall_solve.h"
#include "support/glpsol.h"
#include "support/wall_case.h"

enum { WALLS = 20, MODELS = 30, LENGTH = 12000, GIVE_UP = 10, CALLS = 5 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static const char *const AIMS[] = {"most tanks", "most area", "most water", "water per money", "least cost"};

struct times {
    double ours, ours_most, theirs, reading;
    int given_up, walls;
};

static int64_t values[WALL_CASE_VARIABLES];
static int64_t worths[WALL_CASE_VARIABLES];

/* One run of glpsol; adds its time, and counts it if it gave up. */
static void run(struct glpsol *g, const struct wall_case *c, struct wall_case_worth worth,
                struct times *times)
{
    double seconds;
    if (!glpsol_begin(g))
        exit(3);
    int count = wall_case_write(c, &worth, NULL, 0, NULL, g->to);
    enum glpsol_end end = glpsol_solve(g, GIVE_UP, values, count, &seconds);
    if (end == GLPSOL_FAILED)
        exit(3);
    times->theirs += seconds;
    times->reading += glpsol_reading(g);
    times->given_up += end == GLPSOL_GAVE_UP;
}

/* What the tanks of the run before have of something. */
static int64_t has(const struct wall_case *c, struct wall_case_worth worth)
{
    int count = wall_case_write(c, &worth, NULL, 0, worths, NULL);
    int64_t sum = 0;
    for (int k = 0; k < count; k++)
        sum += worths[k] * values[k];
    return sum;
}

/* Water per money is a ratio: the same rounds as ours, from the least cost on. */
static void run_ratio(struct glpsol *g, const struct wall_case *c, struct times *times)
{
    const struct wall_case_worth water = {.volume = 1};
    const struct wall_case_worth cost = {.cost = 1};
    run(g, c, (struct wall_case_worth){.cost = -1}, times);
    for (int round = 0; round < 20; round++) {
        struct wall_case_worth worth = {.volume = has(c, cost), .cost = -has(c, water)};
        run(g, c, worth, times);
        if (has(c, worth) <= 0)
            return;
    }
}

static void time_wall(struct glpsol *g, const struct wall_case *c, struct times *times)
{
    struct tc_wall wall;
    struct tc_wall_model models[WALL_CASE_MODELS];
    wall_case_in_si(c, &wall, models);
    struct tc_wall_mix mix = {0};
    double start = now();
    for (int call = 0; call < CALLS; call++) {
        tc_wall_mix_free(&mix);
        if (tc_wall_mix_find(&wall, models, c->models, &c->goal, NULL, &mix) != TC_OK)
            return;
    }
    double ours = (now() - start) / CALLS;
    tc_wall_mix_free(&mix);
    times->walls++;
    times->ours += ours;
    times->ours_most = ours > times->ours_most ? ours : times->ours_most;
    switch (c->goal.aim) {
    case TC_WALL_MOST_TANKS: run(g, c, (struct wall_case_worth){.tanks = 1}, times); break;
    case TC_WALL_MOST_AREA: run(g, c, (struct wall_case_worth){.area = 1}, times); break;
    case TC_WALL_MOST_WATER: run(g, c, (struct wall_case_worth){.volume = 1}, times); break;
    case TC_WALL_WATER_PER_MONEY: run_ratio(g, c, times); break;
    case TC_WALL_LEAST_COST: run(g, c, (struct wall_case_worth){.cost = -1}, times); break;
    }
}

int main(void)
{
    struct glpsol g;
    if (!glpsol_present() || !glpsol_open(&g)) {
        puts("glpsol is not here to compare with");
        return 0;
    }
    struct times all = {0};
    int given_up = 0;
    printf("%d models, wall of %d mm, %d walls for each aim; mean times\n", MODELS, LENGTH, WALLS);
    for (int aim = 0; aim < 5; aim++) {
        struct times times = {0};
        for (int k = 0; k < WALLS; k++) {
            struct wall_case c;
            wall_case_draw_room(&c, (uint64_t)k + 1, MODELS, LENGTH, (enum tc_wall_objective)aim);
            time_wall(&g, &c, &times);
        }
        double solving = times.theirs - times.reading;
        printf("%-16s ours %6.3f ms (most %6.3f)  glpsol %5.1f ms: %3.0f times; less reading %5.1f ms: %3.0f "
               "times\n",
               AIMS[aim], 1e3 * times.ours / times.walls, 1e3 * times.ours_most,
               1e3 * times.theirs / times.walls, times.theirs / times.ours, 1e3 * solving / times.walls,
               solving / times.ours);
        given_up += times.given_up;
        all.ours += times.ours;
        all.theirs += times.theirs;
        all.reading += times.reading;
    }
    printf("all together %.0f times faster than the glpsol process, %.0f times less its reading; it gave up "
           "on %d\n",
           all.theirs / all.ours, (all.theirs - all.reading) / all.ours, given_up);
    glpsol_close(&g);
    return 0;
}
