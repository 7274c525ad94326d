/* SPDX-License-Identifier: MIT */
/*
 * wall_mix.h - tanks as they stand on a wall, with their sums: an answer of
 * wall_solve.h.
 */
#ifndef TC_CORE_WALL_WALL_MIX_H
#define TC_CORE_WALL_WALL_MIX_H

#include <stdbool.h>
#include <stdint.h>

#include "core/money/money.h"
#include "core/wall/wall.h"

/* A tank as placed: bay after bay, tier after tier from the lowest, from left to right. */
struct tc_wall_tank {
    int model;
    int bay, tier; /* 0 the lowest */
    bool end_on;
    double x, width; /* m from the left end of its stretch, and along it */
    double y;        /* m from the floor to its underside */
    double depth;    /* m out from the wall */
};

struct tc_wall_bay {
    int stretch, circuit; /* counted from 0 */
    int first, tanks;     /* in the array of tanks */
    int tiers;
    double x, width;  /* m; the clear room between its uprights, or its tanks and the gaps between them */
    double height;    /* m from the floor that its highest tank needs, access included */
    double mass;      /* kg on all its tiers */
    double tier_mass; /* kg on its fullest tier */
    double power;     /* W */
    double pressure;  /* Pa: of each tier the greatest of a tank on its footprint, one above the other */
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
    int tanks, bays;
    struct tc_wall_tank *tank;
    struct tc_wall_bay *bay; /* stretch after stretch, from left to right, the heaviest first */

    double area, volume, mass, power;
    tc_money rack;                         /* part of both costs */
    tc_money cost[2];                      /* to buy, over the period */
    int tiers;                             /* of the highest bay */
    double length[TC_WALL_STRETCHES_MAX];  /* m of each stretch, gaps and uprights included */
    double power_on[TC_WALL_CIRCUITS_MAX]; /* W on each circuit */
    double pressure;                       /* Pa, the largest of any bay */
};

void tc_wall_mix_free(struct tc_wall_mix *mix); /* also of a zeroed one */

#endif
