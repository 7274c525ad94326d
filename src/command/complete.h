/* SPDX-License-Identifier: MIT */
/*
 * complete.h - what could stand at the end of a command line that is being typed.
 *
 * The shells' scripts (src/command/completion) ask this and know nothing of
 * tankcost themselves: what is proposed comes from the tables that commands,
 * options, kinds and keys are read by, and from the profiles.
 */
#ifndef TC_COMMAND_COMPLETE_H
#define TC_COMMAND_COMPLETE_H

#include "core/base/date.h"
#include "core/base/text.h"
#include "profile/stock.h"

/* What the command line so far says of where names come from. Borrowed from argv; NULL where it says nothing.
 */
struct tc_complete_where {
    const char *profiles; /* of --profiles */
    const char *plan;     /* the word that stands where a plan does */
};

struct tc_complete_where tc_complete_where(int count, char *const *words);

/*
 * Adds a line for each candidate for the last of the words (what follows
 * "tankcost", count of them, the last perhaps empty): the whole word, and after
 * a tab what it is. Nothing where the name of a file belongs there, or where
 * anything might. plan: the plan the line speaks of, or NULL; today is for the
 * figures of its sheets. The words are
 * taken as far as they go, wrong ones as well; nothing is reported.
 */
void tc_complete(const struct tc_stock *stock, const struct tc_plan *plan, struct tc_date today, int count,
                 char *const *words, struct tc_text *out);

#endif
