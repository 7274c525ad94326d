/* SPDX-License-Identifier: MIT */
/*
 * wall_sensitivity.h - what binds a wall, and what a little more of it would bring.
 *
 * How each limit of the wall stands under a mix, and the least raise of one
 * limit, the others as they are, with which the goal gets a step further:
 * "the wall is full; 310 W are left; one more tank needs 0.42 m".
 *
 * Length, power and budget: a mix that is a step further is sought with the
 * least use of that limit, one more search. The others change how tanks can
 * stand, at known values: the heights of whole stacks of tiers, the weights of
 * rows of one or two models, and so on; more of a limit is never worse, so the
 * least of these values that brings a step is found by halving. What the best
 * mix is with the raise is another question: wall_solve.h.
 */
#ifndef TC_CORE_WALL_WALL_SENSITIVITY_H
#define TC_CORE_WALL_WALL_SENSITIVITY_H

#include <stdbool.h>

#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_solve.h"

enum tc_wall_limit {
    TC_WALL_LIMIT_LENGTH,      /* m */
    TC_WALL_LIMIT_HEIGHT,      /* m */
    TC_WALL_LIMIT_DEPTH,       /* m */
    TC_WALL_LIMIT_REACH,       /* m */
    TC_WALL_LIMIT_TIERS,       /* tanks one above the other */
    TC_WALL_LIMIT_BAY_RATING,  /* kg */
    TC_WALL_LIMIT_TIER_RATING, /* kg */
    TC_WALL_LIMIT_FLOOR,       /* Pa */
    TC_WALL_LIMIT_POWER,       /* W */
    TC_WALL_LIMIT_BUDGET,      /* minor units */
    TC_WALL_LIMIT_COUNT
};

/* A limit of a wall that may have several of its kind. */
struct tc_wall_limit_at {
    enum tc_wall_limit limit;
    int at; /* of which stretch (length, height, depth) or circuit (power), counted from 0; else 0 */
    unsigned
        also; /* heights and depths: bit s, where stretch s is as high or deep as that one, whatever it is */
};

/* What a limit is, in its unit; 0: there is none. */
double tc_wall_limit_value(const struct tc_wall *wall, struct tc_wall_limit_at at);

/* Sets it, and what is as it is; tiers and money are rounded, money to what tc_money can be. */
void tc_wall_limit_set(struct tc_wall *wall, struct tc_wall_limit_at at, double value);

struct tc_wall_slack {
    bool limited; /* the wall has this limit; otherwise limit and left are 0 */
    double limit, used, left;
};

/* How a limit stands under a mix found for this wall: the sum, or the most of any column, bay or tier. */
void tc_wall_slack(const struct tc_wall *wall, const struct tc_wall_mix *mix, struct tc_wall_limit_at at,
                   struct tc_wall_slack *slack);

struct tc_wall_sensitivity {
    double raise; /* the least, in the unit of the limit */
    bool proven;  /* no smaller raise does it; false if a search was stopped */
};

/*
 * The least raise of `limit` alone that brings the goal at least a step beyond
 * mix->reached (lower, where the goal is least cost). step is in the unit of
 * the goal; 0 stands for one tank, or 1 % of what is reached.
 *
 * TC_NO_RESULT: no raise brings it (length is tried up to twice the wall's and
 * two tanks, a bay's rating up to forty tanks more), or there is no such
 * limit. Other statuses as tc_wall_mix_find's.
 */
enum tc_status tc_wall_sensitivity_find(const struct tc_wall *wall, const struct tc_wall_model *models,
                                        int count, const struct tc_wall_goal *goal,
                                        const struct tc_wall_mix *mix, struct tc_wall_limit_at at,
                                        double step, const struct tc_knapsack_effort *effort,
                                        struct tc_wall_sensitivity *relief);

#endif
