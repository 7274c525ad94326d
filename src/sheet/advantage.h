/* SPDX-License-Identifier: MIT */
/*
 * advantage.h - what one alternative has over another, in the facts a practitioner weighs: bottom, length to
 * swim, water, height for plants, reach, length of wall, filters and dead spots, lids and stands to choose
 * from.
 */
#ifndef TC_SHEET_ADVANTAGE_H
#define TC_SHEET_ADVANTAGE_H

#include "sheet/advice.h"

/* What of it is told. */
enum tc_advantages {
    TC_ADVANTAGES_ALL,
    TC_ADVANTAGES_BUT_WATER /* has been told already */
};

/*
 * The most telling two things that alternative a has over b, "gives 25 % more bottom and 6 in more to swim",
 * "gives 8 % more water and saves 6 in of wall"; "" for none. Under a twentieth more is nothing.
 */
const char *tc_advantage_words(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b,
                               enum tc_advantages which);

/* "62 % more water", "14 times the water", "40 % less water": what a has, held against b. */
const char *tc_advantage_water(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b);

/*
 * What equipment sets the two apart, a clause without its end, "20-high needs 1 filter to leave no dead spot,
 * 33-long 2; for 33-long there is 1 stand to choose from, for 20-high 4"; "" where nothing does.
 */
const char *tc_advantage_equipment(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b);

#endif
