/* SPDX-License-Identifier: MIT */
#include "core/physics/heat_calibrate.h"

#include <math.h>
#include <stddef.h>

#define DAY  86400.0
#define YEAR (365 * DAY)

/* Mean heater power in W of the case with that loss factor; its room is steady. */
static double mean_power(struct tc_heat_case *c, double loss_factor)
{
    struct tc_heat_year year;
    c->loss_factor = loss_factor;
    return tc_heat_year(c, &year) == TC_OK ? year.heater_total / YEAR : NAN;
}

/* The case in the room of the measurement. */
static struct tc_heat_case in_room(const struct tc_heat_case *c, const struct tc_heat_measure *measure)
{
    struct tc_heat_case steady = *c;
    steady.loss_factor = 1;
    steady.room_swing = 0;
    steady.frame = NULL; /* it is of other rooms */
    for (int i = 0; i < 12; i++) {
        steady.room_temperature[i] = measure->room_temperature;
        steady.room_humidity[i] = measure->room_humidity;
    }
    return steady;
}

/* Halves the span in which the factor lies; the power grows with the factor. */
static enum tc_status bisect(struct tc_heat_case *c, double wanted, double *loss_factor)
{
    double low = TC_LOSS_FACTOR_LEAST, high = TC_LOSS_FACTOR_MOST;
    if (!(mean_power(c, low) <= wanted && mean_power(c, high) >= wanted))
        return TC_NO_RESULT;
    while (high - low > 1e-12 * high) {
        double middle = low + (high - low) / 2;
        if (mean_power(c, middle) < wanted)
            low = middle;
        else
            high = middle;
    }
    *loss_factor = low + (high - low) / 2;
    return TC_OK;
}

enum tc_status tc_heat_calibrate(const struct tc_heat_case *c, const struct tc_heat_measure *measure,
                                 double *loss_factor)
{
    if (!(measure->energy >= 0 && measure->energy <= 1e15) || !(measure->days > 0 && measure->days <= 1e5))
        return TC_RANGE;
    struct tc_heat_case steady = in_room(c, measure);
    if (tc_heat_check(&steady) != TC_OK)
        return TC_RANGE;
    double wanted = measure->energy / (measure->days * DAY);
    /* A heater that never or always runs says nothing about the losses. */
    if (wanted == 0 || wanted >= c->heater_power * (1 - 1e-9))
        return TC_NO_RESULT;

    /* If the heater works in every hour of the day, losses are gains plus heat, and that is that. */
    double loss = tc_heat_loss_at(&steady, measure->room_temperature, measure->room_humidity);
    double gain = c->gain_steady + c->gain_light * c->light_hours / 24;
    double fresh = c->fresh_flow * TC_WATER_HEAT_CAPACITY * (c->set_temperature - c->fresh_temperature);
    double guess = (wanted + gain - fresh) / loss;
    if (guess >= TC_LOSS_FACTOR_LEAST && guess <= TC_LOSS_FACTOR_MOST &&
        fabs(mean_power(&steady, guess) - wanted) <= 1e-9 * wanted) {
        *loss_factor = guess;
        return TC_OK;
    }
    return bisect(&steady, wanted, loss_factor);
}
