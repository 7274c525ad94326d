/* SPDX-License-Identifier: MIT */
/*
 * knowing.h - what it is worth to know one uncertain figure before one chooses.
 *
 * Expected value of perfect information about one figure alone (EVPPI), by
 * regression over draws: the costs are fitted by a cubic in the figure
 * (M. Strong, J. E. Oakley, A. Brennan, Medical Decision Making 34(3), 2014,
 * 311-326, who fit splines).
 */
#ifndef TC_CORE_COST_KNOWING_H
#define TC_CORE_COST_KNOWING_H

#include <stddef.h>

#include "core/base/status.h"

struct tc_knowing {
    const double *figure; /* of each draw, -1 to 1 over its range */
    size_t draws;
    const double *costs; /* [candidate][draw] */
    size_t stride;       /* from the costs of one candidate to those of the next */
    int candidates;      /* 2 or more */
};

/*
 * What the choice costs less on average, in the unit of the costs, by who knows
 * the figure; 0 where nothing is to be known. TC_NO_MEMORY, and 0, where memory runs out.
 */
enum tc_status tc_knowing_worth(const struct tc_knowing *knowing, double *worth);

#endif
