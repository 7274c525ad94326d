/* SPDX-License-Identifier: MIT */
#include "core/cost/running.h"

#include <math.h>

#include "core/base/unit.h"

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
static double slot_power(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot)
{
    const struct tc_offer *offer = equipment->slot[slot].offer;
    return offer ? tc_equipment_pieces(c, equipment, slot) * tc_part_power(offer->part) / 1000 : 0;
}

/* Water changed a day in all tanks, m3. */
static double changed_a_day(const struct tc_case *c, const struct tc_equipment *equipment)
{
    return c->quantity * tc_equipment_changed(c, equipment);
}

/* kWh in a m3 that is mixed at the tap to be as warm as a heated tank. */
static double mixing(const struct tc_case *c, const struct tc_equipment *equipment)
{
    double rise = fmax(0, c->setup->temperature - c->region->cold_water);
    bool mixed = c->region->fresh_mixed && equipment->slot[TC_SLOT_HEATER].offer != NULL;
    return mixed ? TC_WATER_HEAT_CAPACITY * rise / TC_KILOWATT_HOUR : 0;
}

static bool has_warm_water_price(const struct tc_case *c)
{
    return c->region->warm_water_price > 0;
}

static void use_water(const struct tc_case *c, const struct tc_equipment *equipment,
                      struct tc_running *running)
{
    double daily = changed_a_day(c, equipment), energy = mixing(c, equipment);
    for (int month = 0; month < TC_MONTHS; month++) {
        running->changed[month] = daily * tc_load_days(month);
        running->evaporated[month] = c->quantity * running->heat.evaporated[month];
        running->changed_total += running->changed[month];
        running->evaporated_total += running->evaporated[month];
    }
    if (has_warm_water_price(c))
        running->warm_water = running->changed_total * energy;
    else if (energy > 0)
        tc_load_daily(&running->energy[TC_CONSUMER_NEW_WATER], daily * energy / TC_HOURS, 0, TC_HOURS);
}

/*
 * The heater's load, of which what it would not have used without the cold water that changes bring goes
 * to new water.
 */
static enum tc_status use_heater(const struct tc_case *c, const struct tc_heat_case *heat,
                                 struct tc_running *running)
{
    struct tc_heat_year dry;
    const struct tc_heat_year *without = &running->heat;
    double scale = c->quantity / TC_KILOWATT_HOUR;
    if (heat->fresh_flow > 0) {
        struct tc_heat_case unchanged = *heat;
        unchanged.fresh_flow = 0;
        enum tc_status status = tc_heat_year(&unchanged, &dry);
        if (status != TC_OK)
            return status;
        without = &dry;
    }
    for (int month = 0; month < TC_MONTHS; month++)
        for (int hour = 0; hour < TC_HOURS; hour++) {
            double used = running->heat.heater[month][hour];
            double anyway = fmin(used, without->heater[month][hour]);
            running->energy[TC_CONSUMER_HEATER].use[month][hour] = scale * anyway;
            running->energy[TC_CONSUMER_NEW_WATER].use[month][hour] = scale * (used - anyway);
        }
    return TC_OK;
}

static void heat_room(const struct tc_case *c, const struct tc_equipment *equipment,
                      const struct tc_heat_year *heat, double kwh[TC_MONTHS])
{
    double beside = tc_equipment_beside(c, equipment) * TC_HOURS / 1000;
    for (int month = 0; month < TC_MONTHS; month++)
        kwh[month] = c->quantity * (heat->dry_month[month] / TC_KILOWATT_HOUR + beside * tc_load_days(month));
}

enum tc_status tc_running_year(const struct tc_case *c, const struct tc_equipment *equipment,
                               struct tc_running *running)
{
    *running = (struct tc_running){0};
    const struct tc_heat_case heat = tc_equipment_heat(c, equipment);
    const struct tc_heat_year *year;
    enum tc_status status = tc_equipment_heat_year(c, equipment, &running->heat, &year);
    if (status == TC_OK && year != &running->heat)
        running->heat = *year;
    if (status == TC_OK)
        status = use_heater(c, &heat, running);
    if (status != TC_OK)
        return status;
    struct tc_load *energy = running->energy;
    tc_load_daily(&energy[TC_CONSUMER_LIGHT], slot_power(c, equipment, TC_SLOT_LIGHT), c->setup->light_start,
                  c->setup->light_hours);
    tc_load_daily(&energy[TC_CONSUMER_FILTER], slot_power(c, equipment, TC_SLOT_FILTER), 0, 24);
    tc_load_daily(&energy[TC_CONSUMER_AIR_PUMP], slot_power(c, equipment, TC_SLOT_AIR_PUMP), 0, 24);
    use_water(c, equipment, running);
    heat_room(c, equipment, &running->heat, running->room_heat);
    return TC_OK;
}

enum tc_status tc_running_add_up(const struct tc_case *c, const struct tc_equipment *equipment,
                                 struct tc_running_sums *sums, struct tc_load *hours)
{
    struct tc_heat_year room;
    const struct tc_heat_year *heat;
    enum tc_status status = tc_equipment_heat_year(c, equipment, &room, &heat);
    if (status != TC_OK)
        return status;
    double daily = changed_a_day(c, equipment), energy = mixing(c, equipment);
    double light = slot_power(c, equipment, TC_SLOT_LIGHT), lit = c->setup->light_hours;
    double always = slot_power(c, equipment, TC_SLOT_FILTER) + slot_power(c, equipment, TC_SLOT_AIR_PUMP);
    if (!has_warm_water_price(c))
        always += daily * energy / TC_HOURS;
    double heater = c->quantity / TC_KILOWATT_HOUR;
    for (int month = 0; month < TC_MONTHS; month++) {
        double days = tc_load_days(month);
        sums->energy[month] = (light * lit + always * TC_HOURS) * days + heater * heat->heater_month[month];
        sums->water[month] = daily * days + c->quantity * heat->evaporated[month];
    }
    sums->changed_total = daily * 365;
    heat_room(c, equipment, heat, sums->room_heat);
    sums->warm_water = has_warm_water_price(c) ? sums->changed_total * energy : 0;
    if (!hours)
        return TC_OK;
    tc_load_daily(hours, light, c->setup->light_start, lit);
    for (int month = 0; month < TC_MONTHS; month++) {
        double flat = always * tc_load_days(month);
        for (int hour = 0; hour < TC_HOURS; hour++)
            hours->use[month][hour] += flat + heater * heat->heater[month][hour];
    }
    return TC_OK;
}
