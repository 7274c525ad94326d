/* SPDX-License-Identifier: MIT */
/*
 * wall_price.h - what a stack of rows is worth at given prices (internal to
 * wall_mixed).
 *
 * At prices for length, power and money every tank has a value of its own, so
 * the best bay is a knapsack of knapsacks: rows that no other row of the same
 * width and height surpasses (wall_rows.h), and a stack of rows within the
 * height (here, where the best value of a row of each height is known; row by
 * row in wall_stack.h).
 */
#ifndef TC_CORE_WALL_WALL_PRICE_H
#define TC_CORE_WALL_WALL_PRICE_H

#include <stdint.h>

#include "core/wall/wall_pattern.h"

/* What a bay is worth: its tanks' values less these. */
struct tc_wall_prices {
    double tank[TC_WALL_MODELS_MAX]; /* the value of one of a model; any sign */
    double tier, bay;                /* for each tier, and for the bay */
};

/* The heights worth stacking: of those no dearer one is lower. */
struct tc_wall_levels {
    int64_t height[TC_WALL_PIECES_MAX];
    double value[TC_WALL_PIECES_MAX]; /* of a row, its tier paid; rising with the height */
    int count;
};

/* The levels of rows of which each class of height has this value (higher ones include the lower). */
void tc_wall_levels_find(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                         const double *values, struct tc_wall_levels *levels);

/* No stack of levels not above `highest`, within so much height and so many tiers, is worth more. */
double tc_wall_levels_worth(const struct tc_wall_levels *levels, int64_t highest, int64_t height, int tiers);

/* The same of all levels of these values. */
double tc_wall_stack_value(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                           const double *values, int64_t height, int tiers);

#endif
