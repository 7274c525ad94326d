/* SPDX-License-Identifier: MIT */
#include "core/cost/dominance.h"

#include <math.h>
#include <stdlib.h>

static bool less_is_better(enum tc_respect respect)
{
    return respect == TC_RESPECT_COST || respect == TC_RESPECT_REACH || respect == TC_RESPECT_WALL;
}

/* A difference that nobody would notice is none: a millimetre, a tenth of a litre, ten square centimetres. */
static double slack(enum tc_respect respect)
{
    switch (respect) {
    case TC_RESPECT_COST: return 0;
    case TC_RESPECT_WATER: return 1e-4;
    case TC_RESPECT_BOTTOM: return 1e-3;
    case TC_RESPECT_TANKS: return 0.5;
    case TC_RESPECT_SWIM:
    case TC_RESPECT_REACH:
    case TC_RESPECT_WALL:
    case TC_RESPECT_COUNT: return 1e-3;
    }
    return 0;
}

/* By how much a is better than b in a respect: negative where it is worse. */
static double merit_lead(const struct tc_merits *a, const struct tc_merits *b, enum tc_respect respect)
{
    double more = a->of[respect] - b->of[respect];
    if (fabs(more) <= slack(respect))
        return 0;
    return less_is_better(respect) ? -more : more;
}

double tc_goal_score(const struct tc_merits *merits, enum tc_goal goal)
{
    static const enum tc_respect wanted[] = {
        [TC_GOAL_WATER] = TC_RESPECT_WATER,
        [TC_GOAL_BOTTOM] = TC_RESPECT_BOTTOM,
        [TC_GOAL_LENGTH] = TC_RESPECT_SWIM,
        [TC_GOAL_TANKS] = TC_RESPECT_TANKS,
    };
    double cost = merits->of[TC_RESPECT_COST];
    double amount = goal == TC_GOAL_COST ? 1 : merits->of[wanted[goal]];
    return amount > 0 ? cost / amount : cost;
}

bool tc_dominates(const struct tc_merits *a, const struct tc_merits *b)
{
    bool better = false;
    for (int i = 0; i < TC_RESPECT_COUNT; i++) {
        double lead = merit_lead(a, b, (enum tc_respect)i);
        if (lead < 0)
            return false;
        better = better || lead > 0;
    }
    return better;
}

struct place {
    double cost;
    size_t index;
};

static int by_cost(const void *a, const void *b)
{
    const struct place *x = a, *y = b;
    if (x->cost != y->cost)
        return x->cost < y->cost ? -1 : 1;
    return x->index < y->index ? -1 : 1;
}

bool tc_merits_alike(const struct tc_merits *a, const struct tc_merits *b)
{
    for (int i = 0; i < TC_RESPECT_COUNT; i++)
        if (i != TC_RESPECT_COST && merit_lead(a, b, (enum tc_respect)i) != 0)
            return false;
    return true;
}

enum tc_status tc_dominance_find(const struct tc_merits merits[], size_t count, int beaten_by[])
{
    struct place *order = calloc(count + 1, sizeof *order);
    size_t *unbeaten = calloc(count + 1, sizeof *unbeaten);
    size_t kept = 0;
    if (!order || !unbeaten) {
        free(order);
        free(unbeaten);
        return TC_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++)
        order[i] = (struct place){merits[i].of[TC_RESPECT_COST], i};
    qsort(order, count, sizeof *order, by_cost);
    /* Who dominates is never dearer, so only those before can; of equal cost, later ones may as well. */
    for (size_t n = 0; n < count; n++) {
        size_t i = order[n].index;
        beaten_by[i] = -1;
        for (size_t k = 0; k < kept && beaten_by[i] < 0; k++)
            if (tc_dominates(&merits[unbeaten[k]], &merits[i]))
                beaten_by[i] = (int)unbeaten[k];
        if (beaten_by[i] >= 0)
            continue;
        for (size_t k = 0; k < kept;) {
            if (tc_dominates(&merits[i], &merits[unbeaten[k]])) {
                beaten_by[unbeaten[k]] = (int)i;
                unbeaten[k] = unbeaten[--kept];
            } else {
                k++;
            }
        }
        unbeaten[kept++] = i;
    }
    /* One that was kept for a while may have been named as a better one, and beaten itself since. */
    for (size_t i = 0; i < count; i++)
        while (beaten_by[i] >= 0 && beaten_by[beaten_by[i]] >= 0)
            beaten_by[i] = beaten_by[beaten_by[i]];
    free(order);
    free(unbeaten);
    return TC_OK;
}
