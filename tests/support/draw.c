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
    return (int)tc_random_below(random, (uint32_t)bound);
}
