/* SPDX-License-Identifier: MIT */
#include "core/goods/extra.h"

#include <math.h>

struct tc_due tc_extra_due(const struct tc_extra *extra, struct tc_currency currency)
{
    const struct tc_price *amount = tc_price_in(&extra->amount, currency);
    return (struct tc_due){
        .amount = amount ? amount->amount * tc_currency_scale(currency) : (double)NAN,
        .once = extra->once,
        .each_tank = extra->each_tank,
        .escalation = extra->escalation,
    };
}
