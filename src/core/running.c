/* SPDX-License-Identifier: MIT */
#include "core/running.h"

#include <math.h>

#define JOULES_PER_KWH 3.6e6

const char *tc_consumer_name(enum tc_consumer consumer)
{
    switch (consumer) {
    case TC_CONSUMER_HEATER: return "heater";
    case TC_CONSUMER_LIGHT: return "light";
    case TC_CONSUMER_FILTER: return "filters";
    case TC_CONSUMER_AIR_PUMP: return "air pump";
    case TC_CONSUMER_NEW_WATER: return "warming new water";
    case TC_CONSUMER_COUNT: break;
    }
    return "";
}

/* Power in kW of all parts that fill a slot, in all tanks. */
static double slot_power(const struct tc_case *c, const struct tc_setup *setup, enum tc_slot slot)
{
    const struct tc_offer *offer = setup->slot[slot].offer;
    return offer ? tc_setup_pieces(c, setup, slot) * tc_part_power(offer->part) / 1000 : 0;
}

static void heater_load(const struct tc_heat_year *heat, int quantity, struct tc_load *load)
{
    for (int month = 0; month < TC_MONTHS; month++)
        for (int hour = 0; hour < TC_HOURS; hour++)
            load->use[month][hour] = quantity * heat->heater[month][hour] / JOULES_PER_KWH;
}

static void use_water(const struct tc_case *c, const struct tc_setup *setup, struct tc_running *running)
{
    double daily = 0;
    if (c->kit->change_interval > 0)
        daily = c->kit->change_share * setup->size.water_volume / c->kit->change_interval;
    double rise = fmax(0, c->kit->temperature - c->region->cold_water);
    double warming[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++) {
        running->changed[month] = c->quantity * daily * tc_load_days(month);
        running->evaporated[month] = c->quantity * running->heat.evaporated[month];
        running->changed_total += running->changed[month];
        running->evaporated_total += running->evaporated[month];
        warming[month] = running->changed[month] * TC_WATER_HEAT_CAPACITY * rise / JOULES_PER_KWH;
        running->warming += warming[month];
    }
    if (c->kit->heater && !(c->region->warm_water_price > 0))
        tc_load_even(&running->energy[TC_CONSUMER_NEW_WATER], warming);
}

enum tc_status tc_running_year(const struct tc_case *c, const struct tc_setup *setup,
                               struct tc_running *running)
{
    *running = (struct tc_running){0};
    struct tc_heat_case heat = tc_setup_heat(c, setup);
    enum tc_status status = tc_heat_year(&heat, &running->heat);
    if (status != TC_OK)
        return status;
    struct tc_load *energy = running->energy;
    heater_load(&running->heat, c->quantity, &energy[TC_CONSUMER_HEATER]);
    tc_load_daily(&energy[TC_CONSUMER_LIGHT], slot_power(c, setup, TC_SLOT_LIGHT), c->kit->light_start,
                  c->kit->light_hours);
    tc_load_daily(&energy[TC_CONSUMER_FILTER], slot_power(c, setup, TC_SLOT_FILTER), 0, 24);
    tc_load_daily(&energy[TC_CONSUMER_AIR_PUMP], slot_power(c, setup, TC_SLOT_AIR_PUMP), 0, 24);
    use_water(c, setup, running);
    return TC_OK;
}
