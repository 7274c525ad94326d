/* SPDX-License-Identifier: MIT */
/*
 * history.h - the steps a plan has gone through, to be taken back and done
 * again.
 *
 * Plans are plain values, so a step is the whole plan as it was before the
 * change, with which of the session's plans it is.
 */
#ifndef TC_SCREEN_HISTORY_H
#define TC_SCREEN_HISTORY_H

#include <stdbool.h>

#include "core/base/status.h"
#include "profile/plan.h"

enum { TC_HISTORY_MOST = 200 }; /* steps kept; the oldest are forgotten first */

/* A plan as it is, and which one of the plans opened in this session (state.h). */
struct tc_document {
    struct tc_plan plan;
    int file;
};

struct tc_history {
    struct tc_document *back[TC_HISTORY_MOST]; /* owned; the last one is the latest */
    struct tc_document *forth[TC_HISTORY_MOST];
    int back_count, forth_count;
};

void tc_history_start(struct tc_history *history);
void tc_history_free(struct tc_history *history);

/* Remembers a document that is about to change; what could be done again cannot any more. TC_NO_MEMORY. */
enum tc_status tc_history_keep(struct tc_history *history, const struct tc_document *document);

/*
 * Puts the document before the last change (or, with forth, after the change
 * last taken back) into *document, whose present state is kept for the other
 * direction. False where there is none.
 */
bool tc_history_go(struct tc_history *history, struct tc_document *document, bool forth);

#endif
