/* SPDX-License-Identifier: MIT */
/*
 * wall_solve.h - which tanks to put on a wall: the exact best mix.
 *
 * From every model one number of tanks is taken (0 included where allowed),
 * with the best way to stand them (wall_bays.h), under the length of the wall,
 * the power of the circuit, the budget and what is wanted: a multiple-choice
 * knapsack (knapsack.h), solved to proven optimality. A bay holds one model.
 *
 * What is best, and how ties are broken, in this order:
 *   most tanks          then the least cost, then the fewest models
 *   most bottom area    then the least cost, then the fewest models
 *   most water          then the least cost, then the fewest models
 *   water per money     then the most water, then the fewest models
 *   least cost          then the most water, then the fewest models
 * Cost is what the goal says: to buy, or over the period. What is still tied
 * after that is settled by the search, always the same way.
 *
 * Water per money is the water of all tanks divided by the cost of all,
 * racks included, of at least one tank (Dinkelbach 1967: the ratio is best
 * where water * cost0 - cost * water0 cannot be made positive). Without a
 * wanted number that is some of the cheapest model per litre, so it is most
 * telling with one.
 *
 * Whole units: mm2 of bottom, ml of water, rounded to the nearest; mW of
 * power, rounded up and the limit down; minor units of money.
 */
#ifndef TC_CORE_WALL_WALL_SOLVE_H
#define TC_CORE_WALL_WALL_SOLVE_H

#include <stdbool.h>
#include <stdint.h>

#include "core/money/money.h"
#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"

enum tc_wall_objective {
    TC_WALL_MOST_TANKS,
    TC_WALL_MOST_AREA,
    TC_WALL_MOST_WATER,
    TC_WALL_WATER_PER_MONEY,
    TC_WALL_LEAST_COST
};

struct tc_wall_goal {
    enum tc_wall_objective aim;
    int wanted;               /* at least so many tanks together */
    enum tc_wall_money money; /* the cost that is meant */
};

/* A column as placed, from left to right. */
struct tc_wall_column {
    int model;
    int bay;
    bool end_on;
    int tiers;
    double x, width; /* m from the left end of the wall, and along it */
    double depth;    /* m out from the wall */
    double pressure; /* Pa, mean over its footprint */
};

struct tc_wall_bay {
    int model;
    bool end_on;
    int first, columns; /* in the array of columns */
    int tiers;          /* of its highest column */
    int tanks;
    double x, width;  /* m; the clear room between its uprights, or its tanks and the gaps between them */
    double mass;      /* kg on all its tiers */
    double tier_mass; /* kg on its fullest tier */
};

struct tc_wall_mix {
    /* How good: in tanks, m2, m3, m3 per minor unit, or minor units of money. */
    double reached;
    double bound;     /* nothing can be better than this; = reached where proven */
    bool proven;      /* nothing is better, ties included */
    int goals_proven; /* 0: the search was stopped early; 1: only ties are open */
    int64_t nodes;

    int models;
    int *count;   /* tanks of each model */
    int *on_sale; /* of them at the sale price */
    int columns, bays;
    struct tc_wall_column *column; /* from left to right */
    struct tc_wall_bay *bay;       /* from left to right: models in the order given, the fullest bays first */

    int tanks;
    double area, volume, mass, power;
    tc_money rack;    /* part of both costs */
    tc_money cost[2]; /* to buy, over the period */
    double length;    /* m of wall, gaps and uprights included */
    double pressure;  /* Pa, the largest of any column */
};

/*
 * Finds the best mix of models[0..count-1]. On TC_OK the mix holds memory of
 * its own, to be freed with tc_wall_mix_free; on anything else none. TC_OK also
 * where the search was stopped by effort (NULL: never) after finding a mix;
 * see mix->goals_proven and mix->bound. A mix of no tanks is a valid answer.
 *
 * TC_NO_RESULT: what is wanted at least cannot be had on this wall.
 * TC_STOPPED: the search was stopped before it found a mix. TC_RANGE: a figure
 * is out of range (tc_wall_check), too many models or tanks, or the aim is
 * water per money and some mix costs nothing. TC_OVERFLOW, TC_NO_MEMORY.
 */
enum tc_status tc_wall_mix_find(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                const struct tc_wall_goal *goal, const struct tc_knapsack_effort *effort,
                                struct tc_wall_mix *mix);
void tc_wall_mix_free(struct tc_wall_mix *mix); /* also of a zeroed one */

/* The cost of so many tanks of a model, the first at the sale price; racks are apart. */
tc_money tc_wall_cost(const struct tc_wall_model *model, int tanks, enum tc_wall_money money,
                      enum tc_status *status);

#endif
