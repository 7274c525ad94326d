/* SPDX-License-Identifier: MIT */
/* stock_text.h - profiles written in a test, read into a stock. */
#ifndef TC_TESTS_STOCK_TEXT_H
#define TC_TESTS_STOCK_TEXT_H

#include "profile/stock.h"
#include "profile/stock_finish.h"

/*
 * Reads text as a profile over what the stock holds, through a file
 * "NAME.ini" in a folder of its own, which is gone afterwards. Fails the
 * running test where the machine does. Call tc_stock_finish afterwards.
 */
void stock_add_text(struct tc_stock *stock, const char *name, const char *text, struct tc_faults *faults);

/* Reads the profiles of a folder. Fails the running test if one of them has a fault. */
void stock_add_folder(struct tc_stock *stock, const char *folder);

/* Fails the running test unless the faults, one a line, are this text. */
void assert_faults(const struct tc_faults *faults, const char *text);

#endif
