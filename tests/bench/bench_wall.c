/* SPDX-License-Identifier: MIT */
/*
 * The best mix on walls whose tiers may mix, against glpsol (GLPK) on the same
 * walls, given the integer program in its natural form (support/mixed_case.h).
 *
 * Small walls, on which glpsol mostly ends within a minute: the time to the
 * proven best, whose worth must be the same. Walls of 12 models and 12 m, on
 * which it does not: the time in which ours has an answer at least as good as
 * the one that glpsol has when it is given up; and the gap to the bound where
 * there is no proof, with the work that a command allows and with that of two
 * seconds.
 *
 * Seconds of the processor, glpsol's reading of its file included. Ours is
 * tc_wall_mix_find from the wall to the placed bays, ties included, which
 * glpsol is not asked for.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "core/wall/wall_solve.h"
#include "support/glpsol.h"
#include "support/mixed_case.h"

#define TWO_SECONDS 2.0

enum { NODES = 1000000, NODES_MOST = 64 * NODES };

/* Walls of one size. */
struct setting {
    const char *name;
    int models, length, bay, tiers; /* mm */
    int walls;                      /* for each aim */
    int give_up;                    /* seconds, of glpsol */
};

struct times {
    double ours, theirs;          /* to the best, where glpsol ended */
    double equalled, until;       /* to what glpsol had when given up, and when that was */
    double most, gap, late_gap;   /* with the work of a command; with that of two seconds */
    int ended, given_up, nothing; /* nothing: given up without any answer */
    int unlike, behind;           /* ended with another answer; given up with a better one than ours */
    int proven, late_proven, walls;
};

static int64_t values[WALL_CASE_VARIABLES], worths[WALL_CASE_VARIABLES];

static double seconds_of(int who)
{
    struct rusage used;
    getrusage(who, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* One run of glpsol: its time, and what it found is worth. */
static enum glpsol_end run(struct glpsol *g, const struct wall_case *c, struct wall_case_worth worth,
                           int give_up, double *seconds, int64_t *found)
{
    if (!glpsol_begin(g))
        exit(3);
    memset(values, 0, sizeof values);
    int count = mixed_case_write(c, &worth, NULL, 0, worths, g->to);
    double before = seconds_of(RUSAGE_CHILDREN);
    enum glpsol_end end = glpsol_solve(g, give_up, values, count, NULL);
    *seconds = seconds_of(RUSAGE_CHILDREN) - before;
    if (end == GLPSOL_FAILED)
        exit(3);
    *found = 0;
    for (int k = 0; k < count; k++)
        *found += worths[k] * values[k];
    return end;
}

/* What a mix is worth in glpsol's terms. */
static int64_t worth_of(const struct wall_case *c, struct wall_case_worth worth,
                        const struct tc_wall_mix *mix)
{
    int64_t sum = worth.cost * mix->cost[c->goal.money];
    for (int i = 0; i < c->models; i++)
        sum += (worth.tanks + worth.area * (int64_t)c->model[i].area +
                worth.volume * (int64_t)c->model[i].volume) *
               mix->count[i];
    return sum;
}

/* Our best with so much work, and the time it took; false where there is none. */
static bool solve(const struct wall_case *c, struct wall_case_worth worth, int64_t nodes, double *seconds,
                  int64_t *found, struct tc_wall_mix *mix)
{
    struct tc_wall wall;
    struct tc_wall_model models[WALL_CASE_MODELS];
    const struct tc_knapsack_effort effort = {.nodes = nodes};
    wall_case_in_si(c, &wall, models);
    double start = now();
    bool done = tc_wall_mix_find(&wall, models, c->models, &c->goal, &effort, mix) == TC_OK;
    *seconds = now() - start;
    if (done)
        *found = worth_of(c, worth, mix);
    return done;
}

static double gap_of(const struct tc_wall_mix *mix)
{
    return fabs(mix->bound - mix->reached) / fabs(mix->reached);
}

/* The time in which ours is as good as an answer: with so little work that it is, from the least on. */
static bool time_to(const struct wall_case *c, struct wall_case_worth worth, int64_t answer, double *seconds)
{
    for (int64_t nodes = 1; nodes <= NODES_MOST; nodes *= 8) {
        struct tc_wall_mix mix;
        int64_t found = 0;
        bool good = solve(c, worth, nodes, seconds, &found, &mix) && found >= answer;
        tc_wall_mix_free(&mix);
        if (good)
            return true;
    }
    return false;
}

/* The gap with as much work as two seconds allow. */
static void wait_longer(const struct wall_case *c, struct wall_case_worth worth, struct times *times)
{
    struct tc_wall_mix mix;
    int64_t found;
    double seconds = 0, gap = INFINITY;
    bool proven = false;
    for (int64_t nodes = NODES; !proven && seconds < TWO_SECONDS / 2 && nodes <= NODES_MOST; nodes *= 2) {
        double took;
        if (!solve(c, worth, nodes, &took, &found, &mix))
            return;
        if (took <= TWO_SECONDS) {
            gap = gap_of(&mix);
            proven = mix.goals_proven > 0;
        }
        seconds = took;
        tc_wall_mix_free(&mix);
    }
    times->late_gap = fmax(times->late_gap, gap);
    times->late_proven += proven;
}

static void time_wall(struct glpsol *g, const struct setting *setting, const struct wall_case *c,
                      struct wall_case_worth worth, struct times *times)
{
    struct tc_wall_mix mix;
    double ours, theirs, until_equal;
    int64_t found, other;
    if (!solve(c, worth, NODES, &ours, &found, &mix))
        return;
    bool proven = mix.goals_proven > 0;
    times->walls++;
    times->proven += proven;
    times->most = fmax(times->most, ours);
    times->gap = fmax(times->gap, gap_of(&mix));
    tc_wall_mix_free(&mix);
    wait_longer(c, worth, times);
    enum glpsol_end end = run(g, c, worth, setting->give_up, &theirs, &other);
    if (end == GLPSOL_GAVE_UP) {
        times->given_up++;
        bool none = true;
        for (int k = 0; k < WALL_CASE_VARIABLES; k++)
            none = none && values[k] == 0;
        times->nothing += none;
        if (!none && time_to(c, worth, other, &until_equal)) {
            times->equalled += until_equal;
            times->until += theirs;
        } else {
            times->behind += !none;
        }
        return;
    }
    times->ended++;
    times->unlike += end != GLPSOL_OPTIMAL || found != other || !proven;
    times->ours += ours;
    times->theirs += theirs;
}

static void print(const char *aim, const struct times *t)
{
    printf("%-10s ours at most %6.1f ms, %2d of %2d proven, worst gap %.2f %%; in 2 s %2d, %.2f %%\n", aim,
           1e3 * t->most, t->proven, t->walls, 100 * t->gap, t->late_proven, 100 * t->late_gap);
    if (t->ended > 0)
        printf("%-10s glpsol ended on %2d: %.2f s, ours %.4f s, %.0f times; %d other answers\n", "", t->ended,
               t->theirs / t->ended, t->ours / t->ended, t->theirs / t->ours, t->unlike);
    if (t->given_up > t->nothing)
        printf(
            "%-10s given up on %2d after %.1f s of work: ours as good in %.4f s, %.0f times; behind on %d\n",
            "", t->given_up - t->nothing, t->until / (t->given_up - t->nothing - t->behind),
            t->equalled / (t->given_up - t->nothing - t->behind), t->until / t->equalled, t->behind);
    if (t->nothing > 0)
        printf("%-10s given up on %2d without an answer\n", "", t->nothing);
    fflush(stdout);
}

static void bench(struct glpsol *g, const struct setting *setting)
{
    static const struct {
        const char *name;
        enum tc_wall_objective aim;
        struct wall_case_worth worth;
    } aims[] = {{"most tanks", TC_WALL_MOST_TANKS, {.tanks = 1}},
                {"most area", TC_WALL_MOST_AREA, {.area = 1}},
                {"most water", TC_WALL_MOST_WATER, {.volume = 1}},
                {"least cost", TC_WALL_LEAST_COST, {.cost = -1}}};
    printf("%s: %d models, wall of %d mm, bays of %d mm, %d walls for each aim; glpsol has %d s\n",
           setting->name, setting->models, setting->length, setting->bay, setting->walls, setting->give_up);
    for (size_t i = 0; i < sizeof aims / sizeof aims[0]; i++) {
        struct times times = {0};
        for (int k = 0; k < setting->walls; k++) {
            struct wall_case c;
            wall_case_draw_room(&c, (uint64_t)k + 1, setting->models, setting->length, aims[i].aim);
            c.bay_length = setting->bay;
            c.tiers = setting->tiers;
            time_wall(g, setting, &c, aims[i].worth, &times);
        }
        print(aims[i].name, &times);
    }
}

int main(void)
{
    static const struct setting small = {"small walls", 4, 2500, 1250, 3, 10, 60},
                                large = {"large walls", 12, 12000, 2000, 4, 10, 10};
    struct glpsol g;
    if (!glpsol_present() || !glpsol_open(&g)) {
        puts("glpsol is not here to compare with");
        return 0;
    }
    bench(&g, &small);
    bench(&g, &large);
    glpsol_close(&g);
    return 0;
}
