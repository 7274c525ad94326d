/* SPDX-License-Identifier: MIT */
/*
 * stock_finish.h - the records of a stock, made from all that was read.
 */
#ifndef TC_PROFILE_STOCK_FINISH_H
#define TC_PROFILE_STOCK_FINISH_H

#include "profile/fault.h"
#include "profile/stock.h"

/*
 * To be called after the last file: makes the records and resolves names
 * between them (region to tariff, sale to region and tanks, plan to setup ...);
 * what cannot be resolved is a fault, and the record that needed it is left
 * out. Sorts the faults. After reading more files it can be called again; all
 * is then made again, and the faults of items come once more. TC_OK, TC_NO_MEMORY,
 * or TC_IO where the machine let no file be read.
 */
enum tc_status tc_stock_finish(struct tc_stock *stock, struct tc_faults *faults);

#endif
