/* SPDX-License-Identifier: MIT */
#include "support/flow_cost.h"

struct tc_amount flow_cost(const struct tc_flow *flow)
{
    struct tc_amount total[TC_YEARS_MAX + 1];
    tc_flow_cumulate(flow, total);
    struct tc_amount cost = total[flow->years];
    cost.paid -= flow->residual.paid;
    cost.present -= flow->residual.present;
    return cost;
}

double sinking_fund(double d, double n)
{
    return tc_single_present_value(d, n) / tc_uniform_present_value(d, n);
}
