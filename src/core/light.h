/* SPDX-License-Identifier: MIT */
/*
 * light.h - light for plants: from a lamp's photons to the bottom of a tank, and back.
 *
 * PPF is the photons of 400 to 700 nm a lamp gives, in umol/s; PPFD the same arriving on an
 * area, in umol/(m2 s). Light that has entered through the surface is taken to stay inside:
 * within water it runs at most 48.6 degrees off the vertical, and panes reflect it totally
 * unless it came in flatter than tc_light_grazing_angle; what is lost that way belongs into
 * the capture.
 */
#ifndef TC_CORE_LIGHT_H
#define TC_CORE_LIGHT_H

#include "core/status.h"

/* Refractive index of water at 20 degrees Celsius, yellow light. */
#define TC_WATER_INDEX 1.333

/* Share of light from above that water throws back: ((n - 1) / (n + 1)) squared, for light near the vertical
 * (Fresnel); light that comes in flatter loses more, 6.6 % for an evenly bright sky. */
#define TC_SURFACE_REFLECTION 0.0204

/*
 * Lumens for each umol/s of white light-emitting diodes. Published for other white lamps: sunlight
 * 54, ceramic metal halide of 4200 K 65, cool white fluorescent 74 (Thimijan and Heins, HortScience
 * 18(6), 1983, and makers of quantum meters after them); white diodes 65 to 75, from memory.
 */
#define TC_LUMENS_PER_PPF 70.0

/* What is known of a lamp. Unknown figures are 0. */
struct tc_lamp {
    double ppf;            /* umol/s */
    double power;          /* W */
    double efficacy;       /* umol/J, of the power */
    double lumens;         /* lm */
    double lumens_per_ppf; /* lm s/umol; 0 for TC_LUMENS_PER_PPF */
};

/*
 * A lamp's PPF from the best that is known of it: the PPF itself, else power times efficacy,
 * else lumens over lumens_per_ppf. TC_NO_RESULT if none is known, TC_RANGE for a figure that is negative
 * or no number.
 */
enum tc_status tc_lamp_ppf(const struct tc_lamp *lamp, double *ppf);

/* The way from the lamp to the substrate. */
struct tc_light_path {
    double capture;            /* share of the lamp's light that falls on the water, 0 to 1 */
    double lid_transmittance;  /* 1 without a lid */
    double surface_reflection; /* share thrown back by the water, TC_SURFACE_REFLECTION */
    double attenuation;        /* 1/m, of clear to tinted water 0.2 to 1 */
    double depth;              /* m, of water above the substrate */
    double area;               /* m2, of the substrate */
};

/*
 * PPFD at the substrate = PPF capture lid (1 - reflection) exp(-attenuation depth) / area: the law of Beer
 * and Lambert for the water (Kirk, Australian Journal of Marine and Freshwater Research 28, 1977), the mean
 * over the bottom. tc_light_needed_ppf is its inverse. TC_RANGE where a figure is outside its range;
 * TC_NO_RESULT where no light gets through and some is wanted.
 */
enum tc_status tc_light_ppfd(const struct tc_light_path *path, double ppf, double *ppfd);
enum tc_status tc_light_needed_ppf(const struct tc_light_path *path, double ppfd, double *ppf);

/* Lamps of that PPF that together give the needed one, at least 1. TC_NO_RESULT for a lamp that gives
 * none, TC_RANGE for more than 1000. */
enum tc_status tc_light_count(double needed_ppf, double ppf_each, int *count);

/*
 * The edge of a row's strip should have at least this share of the light in its middle: the
 * uniformity EN 12464-1 asks for where people do fine work (from memory), and close to the trade's one row
 * for tanks about as wide as the lamp is high (common practice, no source).
 */
#define TC_LIGHT_UNIFORMITY 0.7

/*
 * Width in m that one long row of lamps lights when it hangs `height` (m) above the substrate
 * and the edge shall have `uniformity` (0 to 1) of the middle's light. A long row of
 * surfaces that shine by Lambert's law gives cos cubed of the angle off the vertical, so the width is
 * 2 height sqrt(uniformity^(-2/3) - 1): 1.04 height at 0.7. The bend at the water's surface, which narrows
 * the strip, and the panes' reflection, which fills its edges, are left out.
 */
double tc_light_row_width(double height, double uniformity);

/* Rows that light a tank of that width (m), at least 1. TC_RANGE where a figure is not positive
 * or more than 1000 rows come out. */
enum tc_status tc_light_rows(double width, double height, double uniformity, int *rows);

/* Daily light integral, mol/(m2 d): PPFD for so many hours a day. */
double tc_light_daily(double ppfd, double hours);

/* Begin, in hours of the day, of a photoperiod of `hours` (0 to 24) whose middle is noon. */
double tc_light_begin_at_noon(double hours);

/*
 * Share of each hour of the day during which the light is on, when it goes on at `begin` (0 up to, not
 * including, 24) for `hours` (0 to 24), past midnight if need be. They add up to hours: times the lamp's
 * power they are its energy by hour of the day. TC_RANGE outside these ranges.
 */
enum tc_status tc_light_by_hour(double begin, double hours, double share[24]);

/* Angle in radians off the vertical of a water surface beyond which light from below is
 * reflected totally: asin(1 / index). */
double tc_light_critical_angle(double index);

/*
 * Angle in radians off the vertical, in air, beyond which light that enters through the surface can
 * leave again through an upright pane: asin(sqrt(index squared - 1)), 61.8 degrees for water; a right
 * angle if the index is so high that none can leave.
 */
double tc_light_grazing_angle(double index);

#endif
