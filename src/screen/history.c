/* SPDX-License-Identifier: MIT */
#include "screen/history.h"

#include <stdlib.h>
#include <string.h>

void tc_history_start(struct tc_history *history)
{
    history->back_count = history->forth_count = 0;
}

static void forget(struct tc_document **steps, int *count)
{
    while (*count > 0)
        free(steps[--*count]);
}

void tc_history_free(struct tc_history *history)
{
    forget(history->back, &history->back_count);
    forget(history->forth, &history->forth_count);
}

enum tc_status tc_history_keep(struct tc_history *history, const struct tc_document *document)
{
    struct tc_document *step;
    if (history->back_count == TC_HISTORY_MOST) {
        step = history->back[0];
        history->back_count--;
        memmove(history->back, history->back + 1, (size_t)history->back_count * sizeof history->back[0]);
    } else {
        step = malloc(sizeof *step);
        if (!step)
            return TC_NO_MEMORY;
    }
    memcpy(step, document, sizeof *step); /* to the last byte, by which plans are compared */
    history->back[history->back_count++] = step;
    forget(history->forth, &history->forth_count);
    return TC_OK;
}

bool tc_history_go(struct tc_history *history, struct tc_document *document, bool forth)
{
    struct tc_document **from = forth ? history->forth : history->back;
    struct tc_document **to = forth ? history->back : history->forth;
    int *from_count = forth ? &history->forth_count : &history->back_count;
    int *to_count = forth ? &history->back_count : &history->forth_count;
    if (*from_count == 0)
        return false;
    /* The step changes sides, and its content places with the document: nothing is allocated. */
    struct tc_document *step = from[--*from_count];
    struct tc_document present;
    memcpy(&present, document, sizeof present);
    memcpy(document, step, sizeof present);
    memcpy(step, &present, sizeof present);
    to[(*to_count)++] = step; /* back and forth together never hold more than TC_HISTORY_MOST */
    return true;
}
