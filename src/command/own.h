/* SPDX-License-Identifier: MIT */
/*
 * own.h - profiles of one's own from the command line: `tankcost new` and
 * `tankcost prices`.
 */
#ifndef TC_COMMAND_OWN_H
#define TC_COMMAND_OWN_H

#include "command/options.h"
#include "profile/stock.h"

/*
 * new KIND NAME [KEY=VALUE...]: writes a section with these keys, and all others
 * that the kind has as comments, into a file of its own below folder, the
 * user's. stock is read and finished; it is made again with the section, to see
 * whether that has a fault, and then nothing is written.
 */
enum tc_exit tc_own_new(const struct tc_options *options, struct tc_stock *stock, const char *folder);

/*
 * prices SHOP FILE.csv ("-": standard input): tells what would change in the
 * shop's list, and does it with --yes.
 */
enum tc_exit tc_own_prices(const struct tc_options *options, const struct tc_stock *stock,
                           const char *folder);

#endif
