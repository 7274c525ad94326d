/* SPDX-License-Identifier: MIT */
/* list_plans.h - the list of plans: each is opened, made, copied and deleted. */
#ifndef TC_SCREEN_LIST_PLANS_H
#define TC_SCREEN_LIST_PLANS_H

#include "screen/list.h"

extern const struct tc_list_kind tc_list_plans;

#endif
