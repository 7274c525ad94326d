/* SPDX-License-Identifier: MIT */
/*
 * shape.h - what the signs of a picture stand for, with their exact places.
 *
 * Places are in cells of the canvas, from its upper left corner: a sign in column
 * c and row r has its middle at (c + 0.5, r + 0.5).
 */
#ifndef TC_PRINT_SHAPE_H
#define TC_PRINT_SHAPE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/text.h"
#include "print/pen.h"

enum tc_shape_kind {
    TC_SHAPE_FILL,  /* the block from (x, y) to (to_x, to_y), filled as the series is */
    TC_SHAPE_POINT, /* the point of the series at (x, y) */
    TC_SHAPE_LINE,  /* from (x, y) to (to_x, to_y) */
    TC_SHAPE_DASH,  /* likewise, broken */
    TC_SHAPE_FRAME, /* the outline of a block; its letter in the middle */
    TC_SHAPE_SOLID  /* a block filled with the tone */
};

struct tc_shape {
    enum tc_shape_kind kind;
    double x, y, to_x, to_y;
    enum tc_tone tone;
    size_t series;
    char letter;          /* TC_SHAPE_FRAME; '\0' for none */
    const char *label;    /* what it shows, in words: "May, heater: 4.2 kWh"; NULL or "" for nothing to say */
    struct tc_text owned; /* the canvas's copy of the label; leave it empty */
};

#endif
