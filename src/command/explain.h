/* SPDX-License-Identifier: MIT */
/*
 * explain.h - the command `explain SHEET [PLAN] [SUBJECT]`: where a figure of a
 * sheet comes from, or, without SUBJECT, every figure of it.
 */
#ifndef TC_COMMAND_EXPLAIN_H
#define TC_COMMAND_EXPLAIN_H

#include "command/options.h"
#include "sheet/study.h"

/* The words behind "explain". */
struct tc_explain_words {
    const struct tc_question *question;
    const char *plan, *subject; /* NULL where not said */
};

/*
 * Takes the words of the command apart, before the profiles are read (stock
 * NULL), when one word that is no file may still be either, or after.
 */
enum tc_exit tc_explain_read(const struct tc_options *options, const struct tc_stock *stock,
                             struct tc_explain_words *words);

/* Makes the sheet, and writes where the figure or all of its figures come from. */
enum tc_exit tc_explain_answer(const struct tc_options *options, const struct tc_explain_words *words,
                               const struct tc_study *study, bool *stopped);

/* Adds the names of a sheet's figures, a line each; nothing where the plan cannot be worked out. */
void tc_explain_names(const struct tc_stock *stock, const struct tc_plan *plan,
                      const struct tc_question *question, struct tc_date today, struct tc_text *out);

#endif
