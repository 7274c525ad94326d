/* SPDX-License-Identifier: MIT */
#include "sheet/typed_tank.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "profile/kind.h"

static bool typed(double size, double *field)
{
    if (isnan(size))
        return false;
    *field = size;
    return true;
}

bool tc_typed_tank(const struct tc_stock *stock, const struct tc_candidate *candidate, struct tc_tank *tank)
{
    const struct tc_tank *known = tc_stock_tank(stock, candidate->tank);
    if (known) {
        *tank = *known;
    } else {
        tc_key_defaults(tc_key_table_find("tank"), tank);
        memcpy(tank->goods.name, candidate->tank, sizeof tank->goods.name);
        snprintf(tank->goods.title, sizeof tank->goods.title, "%s", candidate->tank);
    }
    int sizes = typed(candidate->length, &tank->length) + typed(candidate->width, &tank->width) +
                typed(candidate->height, &tank->height);
    if (!known && sizes < 3)
        return false;
    if (sizes == 0 && isnan(candidate->glass) && isnan(candidate->nominal))
        return true;
    if (known && known->glass_assumed)
        tank->glass = tank->bottom_glass = NAN;
    if (known && known->nominal_assumed)
        tank->nominal_volume = NAN;
    if (typed(candidate->glass, &tank->glass))
        tank->bottom_glass = tank->glass;
    typed(candidate->nominal, &tank->nominal_volume);
    tc_tank_assume(tank);
    return true;
}
