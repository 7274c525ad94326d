/* SPDX-License-Identifier: MIT */
/*
 * head.h - what an alternative is called on sheets, so that no two of a study are called alike.
 */
#ifndef TC_SHEET_HEAD_H
#define TC_SHEET_HEAD_H

#include <stdbool.h>

#include "core/money/currency.h"
#include "profile/plan.h"

enum { TC_HEAD_SIZE = 2 * TC_NAME_SIZE + 64 };

/* "29-high", "2 × 29-high (planted-display)": shared where the setup is the plan's. */
void tc_head_write(const struct tc_candidate *plan, bool shared, char head[TC_HEAD_SIZE]);

/* A head, and what it is that of. */
struct tc_named_head {
    const struct tc_candidate *plan;
    int index;  /* in the plan, from 0 */
    char *text; /* of TC_HEAD_SIZE */
};

/* Tells those apart that are alike, at most TC_CANDIDATES_MAX: "29-high at 45.00" by a typed price, or
 * "29-high (no. 2)" by the place in the plan. */
void tc_heads_tell_apart(const struct tc_named_head heads[], int count, struct tc_currency currency);

#endif
