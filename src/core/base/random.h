/* SPDX-License-Identifier: MIT */
/*
 * random.h - the random numbers of the studies: PCG32 (XSH-RR 64/32).
 *
 * M. E. O'Neill, "PCG: A Family of Simple Fast Space-Efficient Statistically
 * Good Algorithms for Random Number Generation", HMC-CS-2014-0905, 2014. A
 * 64-bit linear congruential state, 32 bits out, period 2^64, and 2^63 streams
 * that never run into one another. The same seed gives the same numbers on any
 * machine and compiler. Not for secrets.
 *
 * A generator is a plain value: copy it to remember a place in its sequence.
 */
#ifndef TC_CORE_BASE_RANDOM_H
#define TC_CORE_BASE_RANDOM_H

#include <stdint.h>

#define TC_RANDOM_MULTIPLIER UINT64_C(6364136223846793005)

struct tc_random {
    uint64_t state;
    uint64_t increment; /* odd; picks the stream */
};

/* Starts stream number `stream` (its low 63 bits count) at the place `seed`. */
void tc_random_seed(struct tc_random *random, uint64_t seed, uint64_t stream);

/* 32 random bits. Here, so that loops can take it in. */
static inline uint32_t tc_random_next(struct tc_random *random)
{
    uint64_t state = random->state;
    random->state = state * TC_RANDOM_MULTIPLIER + random->increment;
    uint32_t mixed = (uint32_t)(((state >> 18) ^ state) >> 27);
    uint32_t turn = (uint32_t)(state >> 59);
    return (mixed >> turn) | (mixed << ((32 - turn) & 31));
}

/*
 * A uniform number inside (0, 1), from one step of the generator: the middle
 * of one of 2^32 equal cells, so neither end ever comes up and 1 - u is as
 * exact as u.
 */
static inline double tc_random_unit(struct tc_random *random)
{
    return ((double)tc_random_next(random) + 0.5) * (1.0 / 4294967296.0);
}

/*
 * Skips `steps` numbers in some 64 operations, so that parts of one sequence
 * can be drawn apart from one another. Steps are modulo 2^64: 0 - n goes n
 * steps back. (F. Brown, "Random number generation with arbitrary strides",
 * Trans. Am. Nucl. Soc. 71, 1994.)
 */
void tc_random_advance(struct tc_random *random, uint64_t steps);

#endif
