/* SPDX-License-Identifier: MIT */
/*
 * stock_list.h - what the profiles hold, as a sheet: no question, since it
 * needs no plan.
 */
#ifndef TC_SHEET_STOCK_LIST_H
#define TC_SHEET_STOCK_LIST_H

#include "profile/stock.h"
#include "sheet/sheet.h"

/*
 * Lists the items of a section kind ("tank", "lid", "setup" ...), or of all
 * kinds where kind is NULL, with their titles and prices; sizes in the units of
 * that habit. TC_NO_MEMORY.
 */
enum tc_status tc_make_stock_list(const struct tc_stock *stock, const char *kind, enum tc_unit_system units,
                                  struct tc_sheet *sheet);

#endif
