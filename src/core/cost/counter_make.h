/* SPDX-License-Identifier: MIT */
/* counter_make.h - the counter of a case (counter.h): for any tank, and narrowed to one. */
#ifndef TC_CORE_COST_COUNTER_MAKE_H
#define TC_CORE_COST_COUNTER_MAKE_H

#include "core/cost/equipment.h"

/* The case's tank is not looked at. TC_NO_MEMORY. Free it whatever the status. */
enum tc_status tc_counter_make(struct tc_counter *counter, const struct tc_case *c);

/* What of a counter could fit the case's tank: a counter of its own. TC_NO_MEMORY; TC_RANGE as
 * tc_equipment_choose. */
enum tc_status tc_counter_narrow(const struct tc_counter *counter, const struct tc_case *c,
                                 struct tc_counter *narrowed);
void tc_counter_free(struct tc_counter *counter);

#endif
