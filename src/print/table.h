/* SPDX-License-Identifier: MIT */
/* table.h - the table of a sheet as lines of text. */
#ifndef TC_PRINT_TABLE_H
#define TC_PRINT_TABLE_H

#include "print/print_options.h"

/*
 * Adds the table: heads over a rule, groups with their lines indented, a rule
 * before each subtotal and each run of totals, sentences beside their label.
 * A table wider than options->width comes in blocks of columns, each with the
 * labels; sentences stand in the first. Texts must suit the device already:
 * options->ascii only chooses the rules and signs.
 */
enum tc_status tc_table_add(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options);

#endif
