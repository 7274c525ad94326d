/* SPDX-License-Identifier: MIT */
#include "core/physics/pane.h"

#include <math.h>

/* The correlation's two terms, from the header: W^(1/2) / (m^(1/2) K^(1/2)), W^(1/2) / (m K^(2/3)). */
#define STILL  0.1338
#define RISING 1.116

/* After a step this small, as a share of the difference, Newton's own line is true to 1e-5. */
#define SMALL_STEP 1e-2

enum { STEPS = 12 };

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
    /* Newton's method for D + R q(D) = all, from what a film of about this size would leave. */
    double face = all / (1 + resistance * (radiation + 2.2 + 0.1 * all)), flux = 0;
    for (int i = 0; i < STEPS; i++) {
        double rising = RISING * pow(face, 1.0 / 6), root = still + rising;
        double film = radiation + root * root, slope = film + root * rising / 3;
        double step = (all - face - resistance * film * face) / (1 + resistance * slope);
        flux = film * face + slope * step;
        if (fabs(step) <= SMALL_STEP * face)
            break;
        face = face + step > face / 2 ? face + step : face / 2;
    }
    return water > room ? flux : -flux;
}
