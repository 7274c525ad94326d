/* SPDX-License-Identifier: MIT */
/* choose.h - the parts of one tank: of those that fit, the cheapest with all that follows from them. */
#ifndef TC_CORE_COST_CHOOSE_H
#define TC_CORE_COST_CHOOSE_H

#include "core/cost/equipment.h"

/*
 * Chooses the parts: of those that fit, those with the lowest present value. A
 * lid decides about heat, light and heater as well, and a filter that runs on
 * air about the pump; so each of those that fits is tried with all that follows
 * from it, and the heat at the price of a further joule counts beside the
 * parts. TC_RANGE where the tank cannot be measured or heated as
 * the setup asks (see tank.h, heat.h); TC_NO_RESULT where the plan pins a lid
 * that lets no light through to a setup that wants light.
 */
enum tc_status tc_equipment_choose(const struct tc_case *c, struct tc_equipment *equipment);

#endif
