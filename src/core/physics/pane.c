/* SPDX-License-Identifier: MIT */
#include "core/physics/pane.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* The correlation's two terms, from the header: W^(1/2) / (m^(1/2) K^(1/2)), W^(1/2) / (m K^(2/3)). */
#define STILL  0.1338
#define RISING 1.116

/* After a step this small, as a share of the root, Newton's own line is true to 1e-5. */
#define SMALL_STEP 5e-4

enum { STEPS = 12 };

/*
 * About the sixth root of x > 0, within 3 %: a double's bits, read as a whole number, are nearly its
 * logarithm, of which a sixth is taken. The number added is five sixths of the bits of 1, less a bit.
 */
static double about_sixth_root(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    bits = bits / 6 + UINT64_C(0x3547500000000000);
    memcpy(&x, &bits, sizeof x);
    return x;
}

double tc_pane_radiation(double emissivity, double mean_temperature)
{
    return 4 * emissivity * TC_STEFAN_BOLTZMANN * mean_temperature * mean_temperature * mean_temperature;
}

double tc_pane_flux(const struct tc_pane *pane, double water, double room)
{
    double all = fabs(water - room);
    if (all == 0)
        return 0;
    double radiation = tc_pane_radiation(pane->emissivity, (water + room) / 2);
    double still = STILL / sqrt(pane->height), resistance = pane->resistance;
    /* Halley's method for D + R q(D) = all, in the sixth root of D, from what a film of about this size would
     * leave; at last a step of Newton's. */
    double root = about_sixth_root(all / (1 + resistance * (radiation + 2.2 + 0.1 * all))), flux = 0;
    for (int i = 0; i < STEPS; i++) {
        double square = root * root, cube = square * root, face = cube * cube, face_slope = 6 * cube * square;
        double speed = still + RISING * root, film = radiation + speed * speed;
        double slope = face_slope * film + 2 * RISING * face * speed;
        double left = all - face - resistance * film * face, all_slope = face_slope + resistance * slope;
        flux = film * face + slope * left / all_slope;
        if (fabs(left) <= SMALL_STEP * root * all_slope)
            break;
        root += root * left / (root * all_slope + 2.5 * left); /* D grows by the sixth power */
    }
    return water > room ? flux : -flux;
}
