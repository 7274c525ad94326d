/* SPDX-License-Identifier: MIT */
#include "core/base/random.h"

void tc_random_seed(struct tc_random *random, uint64_t seed, uint64_t stream)
{
    random->state = 0;
    random->increment = stream << 1 | 1;
    tc_random_next(random);
    random->state += seed;
    tc_random_next(random);
}

void tc_random_advance(struct tc_random *random, uint64_t steps)
{
    /* One step is x -> factor x + plus; steps compose and square like powers. */
    uint64_t factor = TC_RANDOM_MULTIPLIER, plus = random->increment;
    uint64_t all_factor = 1, all_plus = 0;
    for (; steps > 0; steps >>= 1) {
        if (steps & 1) {
            all_factor *= factor;
            all_plus = all_plus * factor + plus;
        }
        plus *= factor + 1;
        factor *= factor;
    }
    random->state = all_factor * random->state + all_plus;
}
