/* SPDX-License-Identifier: MIT */
/* list_tanks.h - the list of tanks: each is put in, counted and taken out. */
#ifndef TC_SCREEN_LIST_TANKS_H
#define TC_SCREEN_LIST_TANKS_H

#include "screen/list.h"

extern const struct tc_list_kind tc_list_tanks;

#endif
