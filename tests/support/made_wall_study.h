/* SPDX-License-Identifier: MIT */
/*
 * made_wall_study.h - plans of walls from the demo's profiles, worked out, for the
 * tests of rooms and of the sheet about them. Each call fails the running test
 * where it cannot do what it says.
 */
#ifndef MADE_WALL_STUDY_H
#define MADE_WALL_STUDY_H

#include "core/base/random.h"
#include "profile/stock.h"
#include "sheet/wall_study.h"

#define INCH 0.0254

/* The day of all studies but those about a sale. */
extern const struct tc_date made_today;

/* Set-up and tear-down of a group: *state is the stock of the demo. */
int made_read_demo(void **state);
int made_free_demo(void **state);

void made_set(struct tc_plan *plan, const char *path, const char *text);

struct tc_plan made_new_wall(void **state);

/* A plan of these tanks, NULL after the last: plain breeding tanks, as many as a wall 24 in deep holds. */
struct tc_plan made_bare_wall(const char *const *tanks, const char *length, const char *height);

/* Twelve models on a long wall, at prices drawn so that the budget is hard to use up. */
struct tc_plan made_long_wall(const struct tc_stock *stock, struct tc_random *random);

/* A study, and its room where it was made. Large: keep it static. */
struct made {
    struct tc_study study;
    struct tc_wall_study wall_study;
};

void made_study(struct made *made, void **state, const struct tc_plan *plan, struct tc_date day);
void made_wall_study(struct made *made, void **state, const struct tc_plan *plan);
void made_free(struct made *made); /* study and room */

/* A question asked of the study: the sheet is to be freed whatever the status. problem may be NULL. */
enum tc_status made_sheet(const struct tc_study *from, const char *name, bool walls, struct tc_sheet *sheet,
                          char *problem);

/* Fails unless all totals are the sums of their lines. */
void made_assert_sums(const struct tc_cost *cost);

#endif
