/* SPDX-License-Identifier: MIT */
#include "core/cost/spared.h"

#include <math.h>

#include "core/physics/vapour.h"

#define SECONDS_A_YEAR (86400.0 * 365)

/* J that leave the water with a m3 that evaporates, at least (vapour.h: 2.26e6 a kg at the boil). */
#define LEAST_LATENT_HEAT 2.2e9

static bool other_bed(const struct tc_spared *spared, const struct tc_equipment *other)
{
    return other->slot[TC_SLOT_SUBSTRATE].offer != spared->first->slot[TC_SLOT_SUBSTRATE].offer;
}

/* J a year by which something differs, for and against. */
struct differs {
    double more, less;
};

static void add(struct differs *sum, double joules)
{
    *(joules > 0 ? &sum->more : &sum->less) += fabs(joules);
}

/* What other parts give to the water beyond the first ones. */
static struct differs other_gains(const struct tc_spared *spared, const struct tc_equipment *other)
{
    const struct tc_equipment *first = spared->first;
    double hours = spared->c->setup->light_hours / 24;
    struct differs gains = {0, 0};
    add(&gains, (tc_equipment_gain(other) - tc_equipment_gain(first)) * SECONDS_A_YEAR);
    add(&gains, (tc_equipment_light_gain(other) - tc_equipment_light_gain(first)) * hours * SECONDS_A_YEAR);
    return gains;
}

/* J/(K s) of cold fresh water that the first parts take beyond other ones: a bed decides how much there is.
 */
static double less_fresh(const struct tc_spared *spared, const struct tc_equipment *other)
{
    const struct tc_case *c = spared->c;
    double less = tc_equipment_changed(c, spared->first) - tc_equipment_changed(c, other);
    return c->region->fresh_mixed ? 0 : less * TC_WATER_HEAT_CAPACITY / 86400;
}

/* What another bed spares, and what it takes: it stores other heat, and leaves other water to be changed. */
static void add_bed(const struct tc_spared *spared, const struct tc_equipment *other, struct differs *sum)
{
    const struct tc_case *c = spared->c;
    if (!other_bed(spared, other))
        return;
    double d = fabs(tc_equipment_capacity(other) - tc_equipment_capacity(spared->first));
    double fresh = less_fresh(spared, other) * SECONDS_A_YEAR;
    sum->more += d * spared->year.water_rises;
    sum->less += d * spared->year.water_rises;
    add(sum, fresh * fmax(0, spared->year.hottest - c->region->cold_water));
    add(sum, -fresh * fmax(0, c->region->cold_water - c->setup->temperature));
}

/* What a year worked out may be off by. */
static double slack_of(const struct differs *gains)
{
    return gains->more > 0 || gains->less > 0 ? TC_SPARED_SLACK : TC_SPARED_SAME_SLACK;
}

/* ------------------------------------------------------------------------------- lids */

/* J that the tank would lose by vapour in a year on the set point. */
static double evaporates_held(const struct tc_heat_case *heat)
{
    double open = tc_water_surface(&heat->glazing) * (1 - heat->glazing.covered_share), sum = 0;
    double pressure = tc_saturation_pressure(heat->set_temperature);
    for (int month = 0; month < TC_MONTHS; month++)
        sum += tc_load_days(month) * (pressure - heat->frame->air[month]);
    return sum * 86400 * heat->loss_factor * tc_evaporation_conductance(open, heat->activity);
}

/*
 * Whether closing a tank keeps heat and vapour in, whatever the hour: water on the set point, which loses the
 * least, never takes up vapour from the room, nor from its warmest hour more heat than it loses in vapour.
 */
static bool closing_keeps(const struct tc_heat_case *heat)
{
    struct tc_glazing open = heat->glazing, closed = heat->glazing;
    open.covered_share = 0;
    closed.covered_share = 1;
    double set = heat->set_temperature, pressure = tc_saturation_pressure(set);
    double dry = tc_glazing_conductance(&open, set).surface - tc_glazing_conductance(&closed, set).lid;
    double wet = tc_evaporation_conductance(tc_water_surface(&open), heat->activity);
    for (int month = 0; month < TC_MONTHS; month++) {
        double above = set - heat->room_temperature[month] - heat->room_swing;
        double beyond = pressure - heat->frame->air[month];
        if (!(dry >= 0 && beyond >= 0 && dry * above + wet * beyond >= 0))
            return false;
    }
    return true;
}

/* The year of the tank covered as much as any lid on offer covers it. */
static void close_most(struct tc_spared *spared, struct tc_heat_case heat)
{
    const struct tc_case *c = spared->c;
    const struct tc_counter *counter = c->counter;
    double covered = tc_equipment_covered(spared->first);
    if (c->wish[TC_SLOT_LID].part)
        return;
    for (int i = counter->begin[TC_SLOT_LID]; i < counter->begin[TC_SLOT_LID + 1]; i++)
        spared->most_covered = fmax(spared->most_covered, counter->items[i].offer->part->as.lid.covered);
    if (!(spared->most_covered > covered))
        return;
    struct tc_heat_year year;
    heat.glazing.covered_share = spared->most_covered;
    spared->closed_heater = tc_heat_year(&heat, &year) == TC_OK ? year.heater_total : 0;
}

void tc_spared_start(struct tc_spared *spared, const struct tc_case *c, const struct tc_equipment *first,
                     const struct tc_heat_year *year)
{
    struct tc_heat_case heat = tc_equipment_heat(c, first);
    *spared = (struct tc_spared){.c = c,
                                 .first = first,
                                 .year = *year,
                                 .most_covered = tc_equipment_covered(first),
                                 .closed_heater = year->heater_total};
    if (!heat.frame || !closing_keeps(&heat))
        return;
    spared->closing_keeps = true;
    spared->floating = fmax(0, year->loss.evaporation - evaporates_held(&heat)) / LEAST_LATENT_HEAT;
    close_most(spared, heat);
}

bool tc_spared_closes(const struct tc_spared *spared, const struct tc_equipment *other)
{
    double was = tc_equipment_covered(spared->first), is = tc_equipment_covered(other);
    return is > was || (is < was && !spared->closing_keeps);
}

static bool closes_within(const struct tc_spared *spared, const struct tc_equipment *other)
{
    return spared->closing_keeps && tc_equipment_covered(other) <= spared->most_covered &&
           !other_bed(spared, other);
}

bool tc_spared_closes_within(const struct tc_spared *spared, const struct tc_equipment *other)
{
    return closes_within(spared, other) &&
           spared->closed_heater > TC_SPARED_SLACK * spared->year.heater_total;
}

/* -------------------------------------------------------------------------- remembered */

/* J a year that the heater needs at least by a year remembered of a tank that loses nowhere more. */
static double least_by(const struct tc_spared *spared, const struct tc_heat_case *known,
                       const struct tc_heat_year *year, const struct tc_equipment *other)
{
    const struct tc_case *c = spared->c;
    const struct tc_tank_size *size = &other->size;
    double covered = tc_equipment_covered(other);
    bool closed = known->glazing.covered_share == covered ||
                  (spared->closing_keeps && known->glazing.covered_share > covered);
    double capacity = known->water_volume * TC_WATER_HEAT_CAPACITY + known->extra_heat_capacity;
    if (!closed || known->water_volume != size->water_volume || capacity != tc_equipment_capacity(other) ||
        !(known->heater_power > 0) || known->activity != tc_equipment_activity(c, other))
        return 0;
    struct differs gains = {0, 0};
    add(&gains, (tc_equipment_gain(other) - known->gain_steady) * SECONDS_A_YEAR);
    add(&gains,
        (tc_equipment_light_gain(other) - known->gain_light) * c->setup->light_hours / 24 * SECONDS_A_YEAR);
    return year->heater_total * (1 - slack_of(&gains)) - gains.more;
}

/* The same by all that are remembered. */
static double least_known(const struct tc_spared *spared, const struct tc_equipment *other)
{
    const struct tc_heat_memory *memory = spared->c->memory;
    double least = 0;
    int held = !memory ? 0 : memory->count < TC_HEAT_MEMORY ? memory->count : TC_HEAT_MEMORY;
    for (int i = 0; i < held; i++)
        least = fmax(least, least_by(spared, &memory->c[i], &memory->year[i], other));
    return least;
}

/* ----------------------------------------------------------------------------- spared */

double tc_spared_heat(const struct tc_spared *spared, const struct tc_equipment *other)
{
    const struct tc_case *c = spared->c;
    double all = spared->year.heater_total;
    double kept = all - least_known(spared, other);
    bool closes = tc_spared_closes(spared, other);
    if ((closes && !closes_within(spared, other)) ||
        tc_equipment_activity(c, spared->first) != tc_equipment_activity(c, other))
        return fmin(kept, all);
    struct differs gains = other_gains(spared, other), bed = {0, 0};
    add_bed(spared, other, &bed);
    double most = gains.more + bed.more + slack_of(&gains) * all;
    return fmin(fmin(most + (closes ? all - spared->closed_heater : 0), kept), all);
}

double tc_spared_vapour(const struct tc_spared *spared, const struct tc_equipment *other)
{
    double all = spared->year.evaporated_total;
    struct differs gains = other_gains(spared, other), bed = {0, 0};
    double slack = slack_of(&gains) * all;
    if (tc_spared_closes(spared, other) ||
        tc_equipment_activity(spared->c, spared->first) != tc_equipment_activity(spared->c, other))
        return all;
    if (tc_equipment_covered(spared->first) != tc_equipment_covered(other))
        return fmin(all, spared->floating + slack);
    add_bed(spared, other, &bed);
    return fmin(all, (gains.less + bed.less) / LEAST_LATENT_HEAT + slack);
}

double tc_spared_need(const struct tc_spared *spared, const struct tc_equipment *other)
{
    const struct tc_case *c = spared->c;
    double fresh = less_fresh(spared, other) * (c->setup->temperature - c->region->cold_water);
    return fmax(0, tc_equipment_gain(other) - tc_equipment_gain(spared->first)) + fmax(0, fresh);
}
