/* SPDX-License-Identifier: MIT */
/* flow_cost.h - figures of engineering economy that published examples give and the program does not need. */
#ifndef TC_TESTS_FLOW_COST_H
#define TC_TESTS_FLOW_COST_H

#include "core/cost/lifecycle.h"

/* The life-cycle cost: all of the flow less the residual. */
struct tc_amount flow_cost(const struct tc_flow *flow);

/* Sinking fund, A/F = SPV / UPV, n above 0: yearly amounts that grow to 1 after n years. */
double sinking_fund(double d, double n);

#endif
