/* SPDX-License-Identifier: MIT */
/* new_tank.h - a tank that no profile has, from its size and price in one line: what that key does. */
#ifndef TC_SCREEN_NEW_TANK_H
#define TC_SCREEN_NEW_TANK_H

#include "screen/state.h"

/* "36 x 15 x 16 in 60": outer length, width, height, unit and price, the last two as far as they are said. */
struct tc_new_tank {
    char size[3][16]; /* with its unit, as a profile has it: "36 in" */
    char name[TC_NAME_SIZE];
    char price[24]; /* "" where none was said */
};

/* Reads one; false, with a problem, where that is none. */
bool tc_new_tank_read(const char *text, bool us_units, struct tc_new_tank *tank,
                      char problem[TC_PROBLEM_SIZE]);

/*
 * Asks for one, writes it among the user's own tanks and puts it into the plan,
 * which keeps its price: what a shop asks is no fact about the tank.
 */
void tc_new_tank(struct tc_state *state, int unused);

#endif
