/* SPDX-License-Identifier: MIT */
/*
 * plan_read.h - a plan made from its section and those of its file that
 * belong to it.
 */
#ifndef TC_PROFILE_PLAN_READ_H
#define TC_PROFILE_PLAN_READ_H

#include "profile/stock_build.h"

/* Adds the plan of a section to the stock, unless it has a fault. What it names has to be in the stock
 * already. */
void tc_build_plan(struct tc_build *build, const struct tc_section *section);

#endif
