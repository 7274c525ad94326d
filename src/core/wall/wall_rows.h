/* SPDX-License-Identifier: MIT */
/*
 * wall_rows.h - the rows of tanks that are worth their place at given prices
 * (internal to wall_mixed): those that the best bay is made of, and all that a
 * bay worth what it has to be can be made of.
 */
#ifndef TC_CORE_WALL_WALL_ROWS_H
#define TC_CORE_WALL_WALL_ROWS_H

#include <stddef.h>
#include <stdbool.h>
#include <stdint.h>

#include "core/base/status.h"
#include "core/wall/wall_pattern.h"
#include "core/wall/wall_price.h"

/* A row: the row before and one piece more. */
struct tc_wall_row {
    int64_t width;
    double mass, pressure, value;
    int class;         /* of its height */
    int before, piece; /* -1 where it is the first */
    int tanks;
};

struct tc_wall_rows {
    struct tc_wall_row *row;
    int count;
    size_t capacity;
    int *kept; /* the rows worth having; the others are only parts of them */
    int keeps;
    size_t kept_capacity;
};
void tc_wall_rows_free(struct tc_wall_rows *rows); /* also of zeroed ones */

/* The values at the widths from which on they hold. */
struct tc_wall_steps {
    int64_t *width; /* rising */
    double *value;  /* `each` of them a width */
    int count, capacity, each;
};
void tc_wall_steps_free(struct tc_wall_steps *steps); /* also of zeroed ones */

/*
 * The rows no other surpasses in value, width, height, mass and pressure: with
 * them the best bay can be built, whatever its length. *whole is false where
 * there were too many to list all. TC_NO_MEMORY.
 */
enum tc_status tc_wall_rows_best(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                                 struct tc_wall_rows *rows, bool *whole);

/* What a bay of this length in all has to be worth. It may not fall with the length. */
typedef double tc_wall_need(const void *context, int64_t length);

/*
 * For each width of a row that matters: the best value of a row not wider, for
 * every class of height (higher ones include the lower), as found among rows.
 */
enum tc_status tc_wall_row_values(const struct tc_wall_frame *frame, const struct tc_wall_rows *rows,
                                  struct tc_wall_steps *steps);

/*
 * All rows that can be part of a bay that is worth what it has to, given the
 * steps of the best rows. *whole is false where there were more than `most`.
 */
enum tc_status tc_wall_rows_near(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                                 const struct tc_wall_steps *steps, tc_wall_need *need, const void *context,
                                 int most, struct tc_wall_rows *rows, bool *whole);

#endif
