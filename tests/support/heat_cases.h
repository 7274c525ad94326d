/* SPDX-License-Identifier: MIT */
/* heat_cases.h - tanks and rooms for the tests and benchmarks of heat, and a slow year to compare with. */
#ifndef TC_TESTS_HEAT_CASES_H
#define TC_TESTS_HEAT_CASES_H

#include <stdint.h>

#include "core/physics/heat.h"

/* A plain tank: 29 US gallons, 30 x 12 x 18 in, 6 mm glass, open, 25 degrees in a room of 21. Invented
 * habits. */
struct tc_heat_case tc_plain_case(void);

/* The next double from 0 up to 1, and from low up to high (SplitMix64). */
double tc_random_unit(uint64_t *state);
double tc_random_between(uint64_t *state, double low, double high);

/* Any tank in any room: shelf cubes to pond-size, cold sheds to hot attics, weak, strong and no heaters. */
struct tc_heat_case tc_random_case(uint64_t *state);

/* Heater energy (J) by month and hour, and the water's highest temperature (K). */
struct tc_minute_year {
    double heater[12][24];
    double heater_total;
    double highest;
    double evaporated[12]; /* m3, net of what settles on the water */
};

/*
 * The year minute by minute: explicit Euler steps of a minute through all 365 days (December runs
 * twice, to begin with), the sides' film and evaporation by the temperatures of that minute, the room's
 * sine and the light at the minute.
 */
void tc_minute_year(const struct tc_heat_case *c, struct tc_minute_year *year);

#endif
