/* SPDX-License-Identifier: MIT */
/*
 * wall_shops.h - at which shops the tanks and parts of a wall are bought, each thing where it costs least
 * (internal to list).
 */
#ifndef TC_SHEET_WALL_SHOPS_H
#define TC_SHEET_WALL_SHOPS_H

#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/wall_study.h"

/*
 * Says what buying at several shops would save, delivery and tax included; where the plan wants to buy so, or
 * names a shop for something, adds what to buy at which. Sales are those of the plan's own shop, with their
 * limits; other shops are asked for their list prices. A price that was typed holds at the own shop; what no
 * shop sells, as the rack, stays as it is. Nothing where the region has no other shop. count, each, sum:
 * columns of the sheet. TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_wall_add_shops(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, size_t count,
                                 size_t each, size_t sum);

#endif
