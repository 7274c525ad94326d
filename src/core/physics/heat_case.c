/* SPDX-License-Identifier: MIT */
#include "core/physics/heat_case.h"

#include <stdbool.h>

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static bool is_temperature(double value)
{
    return within(value, 233.15, 373.15);
}

enum tc_status tc_heat_check(const struct tc_heat_case *c)
{
    bool ok = tc_glazing_check(&c->glazing) == TC_OK && within(c->water_volume, 1e-9, 1e6) &&
              within(c->extra_heat_capacity, 0, 1e12) && within(c->activity, 0, 10) &&
              within(c->loss_factor, TC_LOSS_FACTOR_LEAST, TC_LOSS_FACTOR_MOST) &&
              within(c->fresh_flow, 0, 1e3) && is_temperature(c->fresh_temperature) &&
              within(c->set_temperature, 273.15, 323.15) && is_temperature(c->limit_temperature) &&
              c->heater_power >= 0 && within(c->gain_steady, 0, 1e6) && within(c->gain_light, 0, 1e6) &&
              c->light_begin >= 0 && c->light_begin < 24 && within(c->light_hours, 0, 24) &&
              within(c->room_swing, 0, 30);
    for (int i = 0; i < 12; i++)
        ok = ok && is_temperature(c->room_temperature[i]) && within(c->room_humidity[i], 0, 1);
    return ok ? TC_OK : TC_RANGE;
}
