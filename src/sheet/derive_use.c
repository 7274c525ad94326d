/* SPDX-License-Identifier: MIT */
#include "sheet/derive_use.h"

#include "sheet/derive_heat.h"
#include "sheet/derive_tank.h"
#include "sheet/phrase.h"

/* What terms are known by (derive.h): the address of one of these. */
static const char energy_mark, water_mark, year_mark, all_mark, both_mark, warm_mark;

static const char by_the_hour[] = "hour by hour, tankcost-model(7), HEAT";

#define END ((const struct tc_term *)NULL)

/* -------------------------------------------------------------------------- energy */

static const struct tc_term *hours_of(struct tc_derive *derive, enum tc_slot slot)
{
    return slot == TC_SLOT_LIGHT
               ? tc_derive_setup_key(derive, "H", "hours of light a day",
                                     derive->alternative->c.setup->light_hours, "h", "light-hours")
               : tc_derive_model(derive, "H", "hours of a day", 24, "h", "ENERGY AND WATER OF A YEAR");
}

/* A part that runs at its power. */
static void add_powered(struct tc_derive *derive, struct tc_term *term, enum tc_slot slot, int month)
{
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    if (!term || !filled->offer)
        return;
    term->formula = "c × P × H × D / 1000";
    tc_derive_add(derive, term, tc_derive_pieces(derive, slot),
                  tc_derive_part_key(derive, slot, "P", "power of one", tc_part_power(filled->offer->part),
                                     "W", "power"),
                  hours_of(derive, slot),
                  tc_derive_model(derive, "D", "days of the month", tc_load_days(month), "d",
                                  "ENERGY AND WATER OF A YEAR"),
                  END);
}

/* Fresh water that is mixed to be as warm as the tank. */
static void add_mixed(struct tc_derive *derive, struct tc_term *term, int month)
{
    const struct tc_case *c = &derive->alternative->c;
    if (!term)
        return;
    term->formula = "V × C × max(0, T - t) / 3600000";
    tc_derive_add(
        derive, term,
        tc_term_called(derive->sheet, tc_derive_water(derive, TC_WATER_CHANGES, month), "V", "water changed"),
        tc_derive_model(derive, "C", "heat of a m³ and K", TC_WATER_HEAT_CAPACITY, "J/(m³ K)", "HEAT"),
        tc_derive_setup_key(derive, "T", "kept temperature", c->setup->temperature, "K", "temperature"),
        tc_derive_region_key(derive, "t", "temperature of the tap", derive->study->region.cold_water, "K",
                             "cold-water"),
        END);
}

/* What only the hours can tell: the heater's share that cold fresh water asks for. */
static void add_by_hour(struct tc_derive *derive, struct tc_term *term, int month)
{
    if (!term)
        return;
    term->from = TC_TERM_SIMULATED;
    term->place = "hour by hour, with and without fresh water";
    tc_term_add(derive->sheet, term, tc_derive_heat(derive, TC_HEAT_HEATER, month));
    tc_term_add(derive->sheet, term, tc_derive_quantity(derive));
}

/* What heats the tanks, where fresh water is no matter of theirs. */
static void add_heated(struct tc_derive *derive, struct tc_term *term, int month)
{
    if (!term)
        return;
    term->formula = "q × h";
    tc_term_add(derive->sheet, term, tc_derive_quantity(derive));
    tc_term_add(derive->sheet, term, tc_derive_heat(derive, TC_HEAT_HEATER, month));
}

/* How a consumer's month comes about. A consumer that is not here the compiler tells. */
static void add_use(struct tc_derive *derive, struct tc_term *term, enum tc_consumer consumer, int month,
                    bool any)
{
    bool mixed = derive->study->region.fresh_mixed;
    switch (consumer) {
    case TC_CONSUMER_HEATER: (mixed ? add_heated : add_by_hour)(derive, term, month); break;
    case TC_CONSUMER_NEW_WATER:
        if (any || !mixed)
            (mixed ? add_mixed : add_by_hour)(derive, term, month);
        break;
    case TC_CONSUMER_LIGHT: add_powered(derive, term, TC_SLOT_LIGHT, month); break;
    case TC_CONSUMER_FILTER: add_powered(derive, term, TC_SLOT_FILTER, month); break;
    case TC_CONSUMER_AIR_PUMP: add_powered(derive, term, TC_SLOT_AIR_PUMP, month); break;
    case TC_CONSUMER_COUNT: break;
    }
}

const struct tc_term *tc_derive_energy(struct tc_derive *derive, enum tc_consumer consumer, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &energy_mark, (int)consumer, month);
    if (known)
        return known;
    if (derive->line)
        return tc_derive_keep(derive, &energy_mark, (int)consumer, month,
                              derive->line(derive, TC_LINE_ENERGY, (int)consumer * TC_MONTHS + month));
    double value = tc_load_month(&derive->cost->running.energy[consumer], month);
    struct tc_term *term = tc_term_computed(
        derive->sheet, "u",
        tc_sheet_format(derive->sheet, "%s in %s", tc_consumer_name(consumer), tc_phrase_month(month)), "0",
        value, "kWh");
    add_use(derive, term, consumer, month, value > 0);
    return tc_derive_keep(derive, &energy_mark, (int)consumer, month, term);
}

static const struct tc_term *tc_derive_energy_year_anew(struct tc_derive *derive, enum tc_consumer consumer)
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "u%d", (int)consumer + 1), tc_consumer_name(consumer),
        "sum", tc_load_year(&derive->cost->running.energy[consumer]), "kWh");
    for (int month = 0; month < TC_MONTHS; month++)
        tc_derive_add_month(derive, term, tc_derive_energy(derive, consumer, month), month);
    return term;
}

const struct tc_term *tc_derive_energy_year(struct tc_derive *derive, enum tc_consumer consumer)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &year_mark, (int)consumer, 0);
    return known ? known
                 : tc_derive_keep(derive, &year_mark, (int)consumer, 0,
                                  tc_derive_energy_year_anew(derive, consumer));
}

static const struct tc_term *tc_derive_energy_all_anew(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    double value = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        value += month < 0 ? tc_load_year(&derive->cost->running.energy[i])
                           : tc_load_month(&derive->cost->running.energy[i], month);
    struct tc_term *term = tc_term_computed(derive->sheet, "U", "all electricity", "sum", value, "kWh");
    for (int i = 0; i < TC_CONSUMER_COUNT; i++) {
        enum tc_consumer consumer = (enum tc_consumer)i;
        const struct tc_term *part =
            month < 0 ? tc_derive_energy_year(derive, consumer) : tc_derive_energy(derive, consumer, month);
        if (part && part->value > 0)
            tc_term_add(derive->sheet, term,
                        tc_term_called(derive->sheet, part, tc_sheet_format(derive->sheet, "u%d", i + 1),
                                       tc_consumer_name(consumer)));
    }
    return term;
}

const struct tc_term *tc_derive_energy_all(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &all_mark, month, 0);
    return known ? known
                 : tc_derive_keep(derive, &all_mark, month, 0, tc_derive_energy_all_anew(derive, month));
}

/* --------------------------------------------------------------------------- water */

static const struct tc_term *changed_month(struct tc_derive *derive, int month)
{
    const struct tc_setup *setup = derive->alternative->c.setup;
    bool ever = setup->change_interval > 0;
    struct tc_term *term = tc_term_computed(
        derive->sheet, "Vc", tc_sheet_format(derive->sheet, "water changed in %s", tc_phrase_month(month)),
        ever ? "q × s × V / i × D" : "0", derive->cost->running.changed[month], "m³");
    if (ever)
        tc_derive_add(
            derive, term, tc_derive_quantity(derive),
            tc_derive_setup_key(derive, "s", "share of each change", setup->change_share, "", "water-change"),
            tc_derive_size(derive, TC_SIZE_VOLUME),
            tc_derive_setup_key(derive, "i", "from one change to the next", setup->change_interval, "d",
                                "change-interval"),
            tc_derive_model(derive, "D", "days of the month", tc_load_days(month), "d",
                            "ENERGY AND WATER OF A YEAR"),
            END);
    return term;
}

static const struct tc_term *made_up_month(struct tc_derive *derive, int month)
{
    struct tc_term *term = tc_term_computed(
        derive->sheet, "Ve",
        tc_sheet_format(derive->sheet, "water lost to the air in %s", tc_phrase_month(month)), "q × v",
        derive->cost->running.evaporated[month], "m³");
    struct tc_term *one =
        tc_term_leaf(derive->sheet, "v", "by one tank", derive->cost->running.heat.evaporated[month], "m³",
                     (struct tc_source){TC_TERM_SIMULATED, by_the_hour});
    tc_derive_heat_inputs(derive, one, month);
    tc_derive_add(derive, term, tc_derive_quantity(derive), one, END);
    return term;
}

const struct tc_term *tc_derive_water(struct tc_derive *derive, int use, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &water_mark, use, month);
    if (known)
        return known;
    bool changes = use == TC_WATER_CHANGES;
    if (month >= 0)
        return tc_derive_keep(derive, &water_mark, use, month,
                              changes ? changed_month(derive, month) : made_up_month(derive, month));
    struct tc_term *term = tc_term_computed(
        derive->sheet, changes ? "Vc" : "Ve",
        changes ? "water changed in a year" : "water lost to the air in a year", "sum",
        changes ? derive->cost->running.changed_total : derive->cost->running.evaporated_total, "m³");
    for (int m = 0; m < TC_MONTHS; m++)
        tc_derive_add_month(derive, term, tc_derive_water(derive, use, m), m);
    return tc_derive_keep(derive, &water_mark, use, -1, term);
}

static const struct tc_term *tc_derive_water_all_anew(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_computed(
        derive->sheet, "V", tc_phrase_month(month), "sum",
        derive->cost->running.changed[month] + derive->cost->running.evaporated[month], "m³");
    tc_derive_add(derive, term, tc_derive_water(derive, TC_WATER_CHANGES, month),
                  tc_derive_water(derive, TC_WATER_MAKE_UP, month), END);
    return term;
}

const struct tc_term *tc_derive_water_all(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &both_mark, month, 0);
    return known ? known
                 : tc_derive_keep(derive, &both_mark, month, 0, tc_derive_water_all_anew(derive, month));
}

static const struct tc_term *tc_derive_warm_water_anew(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_case *c = &derive->alternative->c;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "W", "heat that warm tap water brings",
                         "Vc × C × max(0, T - t) / 3600000", derive->cost->running.warm_water, "kWh");
    tc_derive_add(
        derive, term, tc_derive_water(derive, TC_WATER_CHANGES, -1),
        tc_derive_model(derive, "C", "heat of a m³ and K", TC_WATER_HEAT_CAPACITY, "J/(m³ K)", "HEAT"),
        tc_derive_setup_key(derive, "T", "kept temperature", c->setup->temperature, "K", "temperature"),
        tc_derive_region_key(derive, "t", "temperature of the tap", derive->study->region.cold_water, "K",
                             "cold-water"),
        END);
    return term;
}

const struct tc_term *tc_derive_warm_water(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &warm_mark, 0, 0);
    return known ? known : tc_derive_keep(derive, &warm_mark, 0, 0, tc_derive_warm_water_anew(derive));
}
