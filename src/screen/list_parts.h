/* SPDX-License-Identifier: MIT */
/* list_parts.h - the lists of the slots of a candidate, and of the parts for one. */
#ifndef TC_SCREEN_LIST_PARTS_H
#define TC_SCREEN_LIST_PARTS_H

#include "screen/list.h"

/* The slots of a candidate, to go on to the parts of one; those parts. */
extern const struct tc_list_kind tc_list_slots, tc_list_parts;

#endif
