/* SPDX-License-Identifier: MIT */
#include "support/tariff_bill.h"

#include <string.h>

double tariff_bill(const struct tc_tariff *tariff, int month, const double use[TC_HOURS])
{
    struct tc_load own = {0};
    struct tc_tariff_margin margin;
    memcpy(own.use[month], use, sizeof own.use[month]);
    tc_tariff_margin(&margin, tariff, &own);
    return margin.own_bill[month];
}

enum tc_status tariff_cost(const struct tc_tariff_margin *margin, const struct tc_load *load,
                           struct tc_tariff_cost *cost)
{
    struct tc_tariff_cost part;
    return tc_tariff_shared(margin, load, 1, cost, &part);
}

void tariff_set_days(struct tc_tariff *tariff, const int workdays[TC_MONTHS], const int days[TC_MONTHS])
{
    for (int m = 0; m < TC_MONTHS; m++)
        tariff->workday_share[m] = (double)workdays[m] / days[m];
}
