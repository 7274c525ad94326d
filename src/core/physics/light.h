/* SPDX-License-Identifier: MIT */
/*
 * light.h - light for plants: from a lamp's photons to the bottom of a tank, and back.
 *
 * PPF is the photons of 400 to 700 nm a lamp gives, in umol/s; PPFD the same arriving on an
 * area, in umol/(m2 s). A lamp's PPF is printed on it, or is its power times its efficacy in umol/J, or its
 * lumens over TC_LUMENS_PER_PPF.
 *
 * Light that has entered through the surface is taken to stay inside. In water it runs at most 48.6
 * degrees off the vertical (the critical angle, asin(1 / 1.333)), and an upright pane reflects it totally
 * if it runs less than 90 - 48.6 = 41.4 degrees off, that is, if it came in at less than 61.8
 * degrees (Snell). Part of what comes in flatter is lost through the panes; that belongs into the capture.
 */
#ifndef TC_CORE_PHYSICS_LIGHT_H
#define TC_CORE_PHYSICS_LIGHT_H

#include <stdbool.h>

#include "core/base/status.h"

/*
 * Lumens for each umol/s of white light-emitting diodes. Published for other white lamps: sunlight
 * 54, ceramic metal halide of 4200 K 65, metal halide 71, cool white fluorescent 74 (Thimijan and
 * Heins, HortScience 18(6), 1983, and makers of quantum meters after them); white diodes 65 to 75,
 * from memory.
 */
#define TC_LUMENS_PER_PPF 70.0

/*
 * Share of light from above that water throws back, ((n - 1) / (n + 1)) squared with n = 1.333: for
 * light near the vertical (Fresnel). Flatter light loses more, 6.6 % of it for an evenly bright sky (from
 * memory).
 */
#define TC_SURFACE_REFLECTION 0.0204

/* The way from the lamp to the substrate. */
struct tc_light_path {
    double capture;            /* share of the lamp's light that falls on the water, 0 to 1 */
    double lid_transmittance;  /* 0 to 1; 1 without a lid */
    double surface_reflection; /* share thrown back by the water, TC_SURFACE_REFLECTION */
    double attenuation;        /* 1/m, >= 0; 0.2 to 1 from clear to tinted water */
    double depth;              /* m, >= 0, of water above the substrate */
    double area;               /* m2, > 0, of the substrate */
};

/*
 * PPFD at the substrate = PPF capture lid (1 - reflection) exp(-attenuation depth) / area, the mean
 * over the bottom; through the water by the law of Beer and Lambert (Kirk, Australian Journal of
 * Marine and Freshwater Research 28, 1977). tc_light_needed_ppf is its inverse. TC_RANGE where a
 * figure is outside its range; TC_NO_RESULT where no light gets through and some is wanted.
 */
enum tc_status tc_light_ppfd(const struct tc_light_path *path, double ppf, double *ppfd);
enum tc_status tc_light_needed_ppf(const struct tc_light_path *path, double ppfd, double *ppf);

/*
 * Share of the light in the middle of a row's strip that its edge should have: what EN 12464-1 asks for where
 * people do fine work (from memory), and close to the trade's one row for tanks about as wide as the lamp
 * is high (common practice, no source).
 */
#define TC_LIGHT_UNIFORMITY 0.7

/*
 * Width in m that one long row of lamps lights when it hangs `height` (m) above the substrate and
 * the edge shall have `uniformity` (above 0, below 1) of the middle's light. The light of a long row of
 * surfaces that shine by Lambert's law falls with the cube of the cosine of the angle off the vertical, so
 * the width is 2 height sqrt(uniformity^(-2/3) - 1): 1.04 height at 0.7. The bend at the water's surface,
 * which narrows the strip, and the panes' reflection, which fills its edges, are left out.
 */
double tc_light_row_width(double height, double uniformity);

/*
 * Rows that light a tank of that width (m), at least 1. TC_RANGE where a length is not positive,
 * the uniformity not between 0 and 1, or more than 1000 rows come out.
 */
enum tc_status tc_light_rows(double width, double height, double uniformity, int *rows);

/*
 * Whether a light that goes on at `begin` for `hours`, past midnight if need be, is on at `time`:
 * all three in hours, begin and time of the day.
 */
bool tc_light_is_on(double begin, double hours, double time);

#endif
