/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_price.h"

#include <math.h>

enum { EXACT_TIERS = 5 };

void tc_wall_levels_find(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                         const double *values, struct tc_wall_levels *levels)
{
    levels->count = 0;
    double best = 0;
    for (int i = 0; i < frame->classes; i++) {
        double value = values[i] - prices->tier;
        if (value <= best)
            continue;
        best = value;
        levels->height[levels->count] = frame->height_of[i];
        levels->value[levels->count++] = value;
    }
}

/* The best stack of the levels up to `top`; of high ones the last tiers are taken as if heights could be cut.
 */
static double stack_value(const struct tc_wall_levels *levels, int top, int64_t height, int tiers, int exact)
{
    double best = 0;
    for (int i = top; tiers > 0 && i >= 0; i--) {
        if (levels->height[i] > height)
            continue;
        double rest;
        if (exact > 0) {
            rest = stack_value(levels, i, height - levels->height[i], tiers - 1, exact - 1);
        } else {
            double densest = 0;
            for (int k = 0; k <= i; k++)
                densest = fmax(densest, levels->value[k] / (double)levels->height[k]);
            rest = densest * (double)(height - levels->height[i]);
        }
        best = fmax(best, levels->value[i] + rest);
    }
    return best;
}

double tc_wall_levels_worth(const struct tc_wall_levels *levels, int64_t highest, int64_t height, int tiers)
{
    int top = levels->count - 1;
    while (top >= 0 && levels->height[top] > highest)
        top--;
    return stack_value(levels, top, height, tiers, EXACT_TIERS);
}

double tc_wall_stack_value(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                           const double *values, int64_t height, int tiers)
{
    struct tc_wall_levels levels;
    tc_wall_levels_find(frame, prices, values, &levels);
    return stack_value(&levels, levels.count - 1, height, tiers, EXACT_TIERS);
}
