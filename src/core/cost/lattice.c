/* SPDX-License-Identifier: MIT */
#include "core/cost/lattice.h"

#include "core/base/random.h"

/*
 * Multipliers of rank-1 lattices of 1021 points in the form of Korobov: figure
 * k goes on by the k-th power of one. Found by trying all: the smallest largest
 * error P2 (Sloan and Joe, "Lattice Methods for Multiple Integration", 1994)
 * over all pairs of figures up to 30 apart. Any single lattice has costs that
 * it suits badly; so each chunk picks one, and deals the powers out anew.
 */
static const int multipliers[8] = {381, 177, 93, 400, 87, 490, 207, 15};

int tc_lattice_step(int figure)
{
    int step = 1;
    for (int k = 0; k < figure; k++)
        step = step * multipliers[0] % TC_LATTICE_POINTS;
    return step;
}

void tc_lattice_start(struct tc_lattice *lattice, const struct tc_spread spreads[], int figures,
                      uint64_t seed, int chunk)
{
    struct tc_random random;
    lattice->count = 0;
    for (int j = 0; j < figures; j++)
        lattice->count += spreads[j].shape != TC_SPREAD_FIXED;
    tc_random_seed(&random, seed, 0);
    tc_random_advance(&random, 2 * (uint64_t)chunk * (uint64_t)lattice->count);

    int multiplier = multipliers[tc_random_next(&random) % 8];
    int step = 1;
    for (int k = 0; k < lattice->count; k++) {
        /* Shuffled while it is laid out; the bias of the scaled random number is below 1e-6 here. */
        int other = k > 0 ? (int)((uint64_t)tc_random_next(&random) * (uint64_t)(k + 1) >> 32) : 0;
        if (other < k)
            lattice->step[k] = lattice->step[other];
        lattice->step[other] = step;
        lattice->place[k] = 0;
        step = step * multiplier % TC_LATTICE_POINTS;
    }
    for (int k = 0; k < lattice->count; k++)
        lattice->shift[k] = tc_random_unit(&random);
}

double tc_lattice_draw(struct tc_lattice *lattice, int k, const struct tc_spread *spread)
{
    double u = lattice->place[k] * (1.0 / TC_LATTICE_POINTS) + lattice->shift[k];
    lattice->place[k] += lattice->step[k];
    if (lattice->place[k] >= TC_LATTICE_POINTS)
        lattice->place[k] -= TC_LATTICE_POINTS;
    return tc_spread_quantile(spread, u < 1 ? u : u - 1);
}
