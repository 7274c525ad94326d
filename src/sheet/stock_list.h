/* SPDX-License-Identifier: MIT */
/*
 * stock_list.h - what the profiles hold, as a sheet: no question, since it
 * needs no plan.
 */
#ifndef TC_SHEET_STOCK_LIST_H
#define TC_SHEET_STOCK_LIST_H

#include "profile/stock.h"
#include "sheet/sellers.h"
#include "sheet/sheet.h"

/*
 * Lists the items of a kind or of all: title, what tells them apart, what each
 * shop asks (sellers.h), whose they are, and where they stand. TC_NO_MEMORY.
 */
enum tc_status tc_make_stock_list(const struct tc_stock *stock, const struct tc_stock_ask *ask,
                                  struct tc_sheet *sheet);

#endif
