/* SPDX-License-Identifier: MIT */
#include "core/goods/sale.h"

#include <string.h>

/* Nominal volumes are round figures of some unit; bounds in another unit must not miss them by a rounding. */
#define VOLUME_SLACK 1e-6

bool tc_sale_covers(const struct tc_sale *sale, const struct tc_tank *tank)
{
    for (int i = 0; i < sale->tank_count; i++)
        if (strcmp(sale->tanks[i], tank->goods.name) == 0)
            return true;
    if (sale->tank_count > 0)
        return false;
    if (sale->least_volume > 0 && tank->nominal_volume < sale->least_volume - VOLUME_SLACK)
        return false;
    return !(sale->greatest_volume > 0 && tank->nominal_volume > sale->greatest_volume + VOLUME_SLACK);
}

bool tc_sale_runs(const struct tc_sale *sale, struct tc_date day)
{
    struct tc_period period;
    return !sale->dated || tc_repeat_running(&sale->when, day, &period) == TC_OK;
}

tc_money tc_sale_price(const struct tc_sale *sale, double nominal_volume, tc_money list,
                       struct tc_currency currency, enum tc_status *status)
{
    switch (sale->rule) {
    case TC_SALE_PERCENT: return tc_money_share(list, 1 - sale->figure, status);
    case TC_SALE_PER_VOLUME: return tc_currency_money(currency, sale->figure * nominal_volume, status);
    case TC_SALE_FIXED:
    case TC_SALE_BUNDLE: return tc_currency_money(currency, sale->figure, status);
    }
    *status = TC_RANGE;
    return 0;
}
