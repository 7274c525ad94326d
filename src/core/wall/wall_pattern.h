/* SPDX-License-Identifier: MIT */
/*
 * wall_pattern.h - the bays a stretch of wall can have (internal to wall_mix).
 *
 * A bay is a stack of rows, a row the tanks side by side on one tier; each row
 * may mix models, along the wall and end-on. A pattern is a bay as it may be
 * built: its rows and what it takes of the wall. (Cutting stock calls it so:
 * Gilmore and Gomory 1965, the two-stage problem.)
 *
 * Whole units of length as in wall.h. To be added up without more ado, widths
 * hold the gap beside a tank, and heights the access above it and its shelf.
 */
#ifndef TC_CORE_WALL_WALL_PATTERN_H
#define TC_CORE_WALL_WALL_PATTERN_H

#include <stddef.h>
#include <stdbool.h>
#include <stdint.h>

#include "core/wall/wall.h"

/* A model the one way or the other, where it can stand in this stretch. */
struct tc_wall_piece {
    int model;
    bool end_on;
    int class;             /* of its height */
    int64_t width, height; /* see above */
    double mass;
    double pressure; /* Pa, of one on its own footprint */
};

enum { TC_WALL_PIECES_MAX = 2 * TC_WALL_MODELS_MAX };

/* What bounds the bays of one stretch. Where there is no limit it is INFINITY. */
struct tc_wall_frame {
    struct tc_wall_piece piece[TC_WALL_PIECES_MAX];
    int count;
    int64_t height_of[TC_WALL_PIECES_MAX]; /* of each class, rising */
    int classes;
    int64_t length;    /* what all bays may take together */
    int64_t own;       /* what a bay takes beside its widest row */
    int64_t row_width; /* most of a row */
    int row_tanks;     /* likewise */
    int64_t height;    /* all rows of a bay together */
    int tiers;
    double row_mass, bay_mass, pressure;
};

/* The frame of one stretch of a wall that was checked, as its models were. */
void tc_wall_frame_make(const struct tc_wall *whole, int stretch, const struct tc_wall_model *models,
                        int count, struct tc_wall_frame *frame);

/* A tank of a pattern: its tier, 0 the lowest, and its piece of the frame. */
struct tc_wall_spot {
    short tier, piece;
};

struct tc_wall_pattern {
    int frame; /* the stretch */
    int first; /* its tanks in the array of spots, tier after tier */
    int tanks;
    int tiers;
    int64_t length;
};

struct tc_wall_patterns {
    struct tc_wall_pattern *pattern;
    struct tc_wall_spot *spot;
    int count, spots;
    size_t capacity;
    int spots_capacity;
};

/* Room for a pattern of so many tanks, whose spots are then filled in; NULL if out of memory. */
struct tc_wall_pattern *tc_wall_patterns_add(struct tc_wall_patterns *patterns, int tanks);
void tc_wall_patterns_free(struct tc_wall_patterns *patterns); /* also of zeroed ones */

#endif
