/* SPDX-License-Identifier: MIT */
/*
 * series.h - how the series of a chart are told apart: each has its own sign,
 * so that they can be read without color, and its own tone.
 */
#ifndef TC_PRINT_SERIES_H
#define TC_PRINT_SERIES_H

#include <stdbool.h>
#include <stddef.h>

#include "print/canvas.h"
#include "print/pen.h"
#include "sheet/sheet.h"

/* How many series have a sign of their own: all but the ends of a band. */
size_t tc_series_parts(const struct tc_chart *chart);

/* The sign of the i-th series: what its bars are filled with, or what stands at its points. */
const char *tc_series_fill(size_t i, bool ascii);
const char *tc_series_point(size_t i, bool ascii);

/* Stands where the points of several series meet. */
const char *tc_series_meeting(bool ascii);

enum tc_tone tc_series_tone(size_t i);

/*
 * Adds what a point of a series shows, in words: "May, heater: 4.2 kWh". Only
 * for a canvas that keeps shapes, since nothing else reads it; a failure is the
 * canvas's.
 */
void tc_series_say(struct tc_text *out, struct tc_canvas *canvas, const struct tc_chart *chart, size_t series,
                   size_t i);

/* The least and the greatest value of all series; NaNs are passed over. False where there is none. */
bool tc_series_range(const struct tc_chart *chart, double *low, double *high);

#endif
