/* SPDX-License-Identifier: MIT */
/*
 * day_parts.h - a day cut into its hours, and these where a light goes on or off, with the mean of the
 * room's wave in each part.
 *
 * The wave is w = cos(2 pi (t - TC_WARMEST_HOUR) / 24). Its means, and those of w^2 - 1/2, are exact
 * and add up to nothing over the day.
 */
#ifndef TC_CORE_PHYSICS_DAY_PARTS_H
#define TC_CORE_PHYSICS_DAY_PARTS_H

/* The hour of the day at which a room is warmest (common practice, no source). */
#define TC_WARMEST_HOUR 15.0

/* Most parts: every hour, and two cuts. */
enum { TC_DAY_PARTS_MAX = 26 };

struct tc_day_parts {
    int count;
    int hour[TC_DAY_PARTS_MAX];       /* 0 to 23 */
    double seconds[TC_DAY_PARTS_MAX]; /* > 0; 86400 in all */
    double wave[TC_DAY_PARTS_MAX];    /* mean of w */
    double rise[TC_DAY_PARTS_MAX];    /* w at the part's end less that at its beginning */
    double square[TC_DAY_PARTS_MAX];  /* mean of w^2 - 1/2 */
    double lit[TC_DAY_PARTS_MAX];     /* 1 where the light is on, else 0 */
};

/* light_begin: hour, 0 up to 24; light_hours: 0 to 24. A sliver of a part is left to its neighbour. */
void tc_day_parts_make(double light_begin, double light_hours, struct tc_day_parts *parts);

#endif
