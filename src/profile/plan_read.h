/* SPDX-License-Identifier: MIT */
/*
 * plan_read.h - a plan made from its section and those of its file that
 * belong to it.
 */
#ifndef TC_PROFILE_PLAN_READ_H
#define TC_PROFILE_PLAN_READ_H

#include "profile/stock_build.h"

/*
 * Makes *plan, which need not be initialised, from its section; false where
 * there is a fault in it, which is reported. What it names has to be in the
 * stock already.
 */
bool tc_build_plan(struct tc_build *build, const struct tc_section *section, struct tc_plan *plan);

#endif
