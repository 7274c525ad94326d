/* SPDX-License-Identifier: MIT */
/* wall_case.h - random walls with tanks, in whole figures, for tests and benchmarks. */
#ifndef TC_TESTS_WALL_CASE_H
#define TC_TESTS_WALL_CASE_H

#include <stdint.h>

#include "core/wall/wall.h"
#include "core/wall/wall_solve.h"

enum { WALL_CASE_MODELS = 40 };

/* mm, kg, cm2 of bottom, litres, W, units of money. 0 is "no limit", as in core/wall/wall.h. */
struct wall_case_model {
    int length, width, height, mass, area, volume, power;
    int price[2], sale_price[2], sale_most, most, least;
};

struct wall_case {
    int length, height, depth, lowest, access, shelf, reach, gap, tiers;
    int post, bay_length, bay_price, tier_price, bay_rating, tier_rating;
    int floor_limit; /* kg per m2 */
    int floor_spread, power_limit, budget;
    int more_stretches, more_length[3], more_height[3], more_depth[3];
    int more_circuits, more_power[3];
    enum tc_wall_money budget_kind;
    struct tc_wall_goal goal;
    int models;
    struct wall_case_model model[WALL_CASE_MODELS];
};

/* A small wall that any solver is done with soon, of up to `models` models; the aim is given. */
void wall_case_draw_small(struct wall_case *c, uint64_t seed, int models, enum tc_wall_objective aim);

/* A fish room's wall of `length` mm and exactly `models` models; all limits in force. */
void wall_case_draw_room(struct wall_case *c, uint64_t seed, int models, int length,
                         enum tc_wall_objective aim);

/* The same in SI units. models has room for c->models. */
void wall_case_in_si(const struct wall_case *c, struct tc_wall *wall, struct tc_wall_model *models);

/* What the integer program is to make as large as possible: factors of what all tanks together have. */
struct wall_case_worth {
    int64_t tanks, area, volume, cost; /* cost: of the money of the goal, racks included */
};

/* Most variables of an integer program of a wall. */
enum { WALL_CASE_VARIABLES = 20000 };

#endif
