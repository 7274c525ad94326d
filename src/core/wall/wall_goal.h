/* SPDX-License-Identifier: MIT */
/*
 * wall_goal.h - what is best on a wall, and what settles ties.
 *
 * What is best, and how ties are broken, in this order:
 *   most tanks          then the least cost
 *   most bottom area    then the least cost
 *   most water          then the least cost
 *   water per money     then the most water
 *   least cost          then the most water
 * Cost is what the goal says: to buy, or over the period. What is still tied
 * after that is settled by the search, always the same way.
 *
 * Water per money is the water of all tanks divided by the cost of all,
 * racks included, of at least one tank (Dinkelbach 1967: the ratio is best
 * where water * cost0 - cost * water0 cannot be made positive). Without a
 * wanted number that is some of the cheapest model per litre, so it is most
 * telling with one.
 */
#ifndef TC_CORE_WALL_WALL_GOAL_H
#define TC_CORE_WALL_WALL_GOAL_H

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

#endif
