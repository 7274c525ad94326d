/* SPDX-License-Identifier: MIT */
/* list_buying.h - the lists of how tanks are bought. */
#ifndef TC_SCREEN_LIST_BUYING_H
#define TC_SCREEN_LIST_BUYING_H

#include "screen/list.h"

/* All candidates of the plan; one of them. */
extern const struct tc_list_kind tc_list_buying, tc_list_buying_one;

#endif
