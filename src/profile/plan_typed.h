/* SPDX-License-Identifier: MIT */
/* plan_typed.h - how much of a plan was typed over figures that the profiles have. */
#ifndef TC_PROFILE_PLAN_TYPED_H
#define TC_PROFILE_PLAN_TYPED_H

#include "profile/plan.h"

/*
 * How many figures of the profiles a plan types over: those of setup, region and
 * shops, and of its candidates prices, sizes, lives and the like. What it
 * chooses or asks for by itself (parts, counts of tanks, years) is none.
 */
int tc_plan_typed_figures(const struct tc_plan *plan);

#endif
