/* SPDX-License-Identifier: MIT */
/*
 * wall_near.h - the bays that an answer as good as one known may hold (internal
 * to wall_mixed).
 */
#ifndef TC_CORE_WALL_WALL_NEAR_H
#define TC_CORE_WALL_WALL_NEAR_H

#include "core/wall/wall_master.h"

enum { TC_WALL_GRID = 2048 };

/*
 * What one stretch can be worth at the multipliers: for every length, counted
 * in parts of the stretch and rounded in its favour, the best whole bays.
 */
struct tc_wall_fillings {
    double *worth; /* TC_WALL_GRID + 1 */
    int64_t length;
    struct tc_wall_steps steps[TC_WALL_CIRCUITS_MAX]; /* the best rows, per circuit */
    struct tc_wall_prices prices[TC_WALL_CIRCUITS_MAX];
    double each; /* price of length that no limit accounts for */
    bool whole;
};

struct tc_wall_bound {
    struct tc_wall_fillings stretch[TC_WALL_STRETCHES_MAX];
    int stretches;
    double base;  /* see tc_wall_master_base */
    double value; /* nothing can be worth more: base and all stretches, with a margin */
    double margin;
    bool whole; /* else the value is no bound */
};

/* What stands in `length` of a stretch at best; -INFINITY below 0. */
double tc_wall_filling_worth(const struct tc_wall_fillings *filling, int64_t length);

/* The bound at the master's multipliers; TC_NO_MEMORY. Freed with tc_wall_bound_free. */
enum tc_status tc_wall_bound_make(const struct tc_wall_master *master, struct tc_wall_bound *bound);
void tc_wall_bound_free(struct tc_wall_bound *bound);

/*
 * The master's multipliers are best for bays in parts; for whole ones others bound more tightly. They are
 * sought one by one, in steps that get smaller, and put in the master, until the bound is below `least` or
 * all were tried. TC_NO_MEMORY: the bound is still to be freed.
 */
enum tc_status tc_wall_bound_tighten(struct tc_wall_master *master, double least,
                                     struct tc_wall_bound *bound);

/*
 * Adds to patterns all bays that can be in an answer worth at least `least`, and
 * no two that hold the same tanks but where each is better in something. Takes
 * its steps from *steps. *whole is false where they, or `most` bays, did not
 * suffice.
 */
enum tc_status tc_wall_near(const struct tc_wall_master *master, const struct tc_wall_bound *bound,
                            double least, int most, int64_t *steps, struct tc_wall_patterns *patterns,
                            bool *whole);

#endif
