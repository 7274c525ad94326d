/* SPDX-License-Identifier: MIT */
/*
 * wall_stack.h - bays stacked of rows (internal to wall_mixed): the one that
 * surpasses most what it has to be worth, or all that reach it.
 */
#ifndef TC_CORE_WALL_WALL_STACK_H
#define TC_CORE_WALL_WALL_STACK_H

#include <stdint.h>

#include "core/base/status.h"
#include "core/wall/wall_pattern.h"
#include "core/wall/wall_rows.h"

enum tc_wall_seek {
    TC_WALL_SEEK_BEST, /* bays that surpass what they have to be worth more than all before */
    TC_WALL_SEEK_ALL   /* all that reach it */
};

/*
 * Builds bays of the rows kept and adds them to patterns with this frame's
 * number. steps: how many steps of the search there may be; what is left of
 * them on return, below 0 where they did not suffice. surplus: by how much the
 * best found surpasses its need, or -INFINITY. Bays that surpass it by no more
 * than `least` are not looked for.
 */
struct tc_wall_stacking {
    const struct tc_wall_frame *frame;
    const struct tc_wall_prices *prices;
    const struct tc_wall_rows *rows;
    tc_wall_need *need;
    const void *context;
    enum tc_wall_seek seek;
    double least;
    int number;    /* of the frame */
    int64_t steps; /* in and out; below 0: it was not whole */
    int64_t left;  /* out: of the steps, where there were too many patterns */
    int most;      /* patterns */
    double surplus;
};
enum tc_status tc_wall_stack(struct tc_wall_stacking *stacking, struct tc_wall_patterns *patterns);

#endif
