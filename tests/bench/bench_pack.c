/* SPDX-License-Identifier: MIT */
/*
 * The best mix of 30 models on a wall of 12 m against glpsol (GLPK) on the same
 * walls, given the integer program in its natural form (support/wall_case.h).
 *
 * Time of glpsol: the whole process, reading its file of some hundred lines
 * included (a few milliseconds); given up after GIVE_UP seconds, which then
 * counts as its time. Ours: tc_wall_mix_find, the mean of several calls, ties
 * included, which glpsol is not asked for.
 */
#include <stdlib.h>
#include <time.h>

#include "core/wall_mix.h"
#include "support/glpsol.h"
#include "support/wall_case.h"

enum { WALLS = 8, MODELS = 30, LENGTH = 12000, GIVE_UP = 10, CALLS = 5 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static const char *const AIMS[] = {"most tanks", "most area", "most water", "water per money", "least cost"};

struct times {
    double ours, ours_most, theirs;
    int given_up, walls;
};

/* The line to make large, as in tests/core/test_wall_glpsol.c. */
static struct wall_case_worth worth_of(const struct wall_case *c, const struct tc_wall_mix *mix)
{
    switch (c->goal.aim) {
    case TC_WALL_MOST_TANKS: return (struct wall_case_worth){.tanks = 1};
    case TC_WALL_MOST_AREA: return (struct wall_case_worth){.area = 1};
    case TC_WALL_MOST_WATER: return (struct wall_case_worth){.volume = 1};
    case TC_WALL_LEAST_COST: return (struct wall_case_worth){.cost = -1};
    case TC_WALL_WATER_PER_MONEY: break;
    }
    int64_t volume = 0;
    for (int i = 0; i < c->models; i++)
        volume += (int64_t)mix->count[i] * c->model[i].volume;
    return (struct wall_case_worth){.volume = mix->cost[c->goal.money], .cost = -volume};
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
    struct wall_case_worth worth = worth_of(c, &mix);
    double theirs;
    if (!glpsol_begin(g))
        exit(3);
    wall_case_write(c, &worth, NULL, 0, NULL, g->to);
    enum glpsol_end end = glpsol_solve(g, GIVE_UP, NULL, 0, &theirs);
    times->walls++;
    times->ours += ours;
    times->ours_most = ours > times->ours_most ? ours : times->ours_most;
    times->theirs += theirs;
    times->given_up += end == GLPSOL_GAVE_UP;
    tc_wall_mix_free(&mix);
}

int main(void)
{
    struct glpsol g;
    if (!glpsol_present() || !glpsol_open(&g)) {
        puts("glpsol is not here to compare with");
        return 0;
    }
    struct times all = {0};
    printf("%d models, wall of %d mm, %d walls for each aim; mean times\n", MODELS, LENGTH, WALLS);
    for (int aim = 0; aim < 5; aim++) {
        struct times times = {0};
        for (int k = 0; k < WALLS; k++) {
            struct wall_case c;
            wall_case_draw_room(&c, (uint64_t)(k + 1), MODELS, LENGTH, (enum tc_wall_aim)aim);
            time_wall(&g, &c, &times);
        }
        printf("%-16s %2d walls  ours %8.3f ms (most %8.3f)  glpsol %9.1f ms, %d given up at %d s  ratio "
               "%6.0f\n",
               AIMS[aim], times.walls, 1e3 * times.ours / times.walls, 1e3 * times.ours_most,
               1e3 * times.theirs / times.walls, times.given_up, GIVE_UP, times.theirs / times.ours);
        all.ours += times.ours;
        all.theirs += times.theirs;
    }
    printf("all together: %.0f times faster than the glpsol process\n", all.theirs / all.ours);
    glpsol_close(&g);
    return 0;
}
