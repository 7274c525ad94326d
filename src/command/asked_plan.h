/* SPDX-License-Identifier: MIT */
/*
 * asked_plan.h - the plan that a command line asks for: found by its name or
 * file, and changed as the options say.
 *
 * What is wrong goes to standard error, with the exit status that follows.
 */
#ifndef TC_COMMAND_ASKED_PLAN_H
#define TC_COMMAND_ASKED_PLAN_H

#include "command/options.h"
#include "profile/stock.h"

/* Whether a word is the name of a file and not of a plan. */
bool tc_asked_plan_is_file(const char *word);

/* The plan of the stock that a word names, or with NULL the one shown first; NULL where it is not there. */
const struct tc_plan *tc_asked_plan_known(const struct tc_stock *stock, const char *word);

/* The same to be worked with; with NULL any plan, or a new one, where the first is not there. */
enum tc_exit tc_asked_plan_find(const struct tc_stock *stock, const char *word, struct tc_plan *plan);

/* The file that the plan so found came from, of the stock or the word itself; NULL where it came from none.
 */
const char *tc_asked_plan_file(const struct tc_stock *stock, const char *word, const struct tc_plan *plan);

/*
 * Puts over a plan what the options say: region, tanks, regions to compare, setup, figures. What was typed
 * for another region or setup is left out, with a note.
 */
enum tc_exit tc_asked_plan_change(const struct tc_options *options, const struct tc_stock *stock,
                                  struct tc_plan *plan);

/* The units of --units, which is kept as a figure of the plan; metric without it. */
enum tc_exit tc_asked_plan_units(const struct tc_options *options, enum tc_unit_system *units);

#endif
