/* SPDX-License-Identifier: MIT */
#include "support/draw.h"

struct tc_random draw_from(uint64_t seed)
{
    struct tc_random random;
    tc_random_seed(&random, seed, 1);
    return random;
}

double draw_between(struct tc_random *random, double low, double high)
{
    return low + (high - low) * tc_random_unit(random);
}

int draw_below(struct tc_random *random, int bound)
{
    return (int)draw_index(random, (uint32_t)bound);
}

uint32_t draw_index(struct tc_random *random, uint32_t bound)
{
    /* The 2^32 mod bound lowest numbers are refused; the rest is a whole number of rounds of bound. */
    uint32_t refused = (0 - bound) % bound;
    for (;;) {
        uint32_t number = tc_random_next(random);
        if (number >= refused)
            return number % bound;
    }
}
