/* SPDX-License-Identifier: MIT */
/*
 * wall_branch.h - bays put side by side until no better answer is left
 * (internal to wall_mixed).
 *
 * Depth first, bay after bay and stretch after stretch. What the bays so far
 * are worth, with the best that can stand in what is left of each stretch
 * (wall_near.h), bounds whatever comes of them. What uses up a limit ends a
 * branch; every answer is weighed in whole numbers.
 */
#ifndef TC_CORE_WALL_WALL_BRANCH_H
#define TC_CORE_WALL_WALL_BRANCH_H

#include "core/wall/wall_near.h"

struct tc_wall_branching {
    const struct tc_wall_master *master; /* its patterns are the bays to choose from */
    const struct tc_wall_bound *bound;
    bool found; /* in and out: there is an answer of this worth; only better ones are looked for */
    int64_t worth;
    double least;  /* answers worth less are not looked for */
    double enough; /* one worth this ends the search; INFINITY: only the best does */
    int64_t steps; /* in and out: below 0 where they did not suffice */
    int *picked;   /* out, where a better one was found: for each bay pattern * circuits + circuit */
    int bays;      /* of it; -1: none better was found */
    int capacity;
};

/* Searches; picked is then the caller's to free. TC_NO_MEMORY. */
enum tc_status tc_wall_branch(struct tc_wall_branching *branching);

#endif
