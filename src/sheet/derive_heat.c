/* SPDX-License-Identifier: MIT */
#include "sheet/derive_heat.h"

#include <math.h>

#include "sheet/derive_tank.h"
#include "sheet/phrase.h"
#include "core/base/unit.h"

/* What terms are known by (derive.h): the address of one of these. */

#define END ((const struct tc_term *)NULL)

static const char heat_mark, heat_year_mark, inputs_mark, lost_mark, room_mark;

static const char by_the_hour[] = "hour by hour, tankcost-model(7), HEAT";

static double way_of(const struct tc_derive *derive, enum tc_heat_way way, int month)
{
    const struct tc_heat_year *heat = &derive->cost->running.heat;
    const struct tc_heat_losses *loss = &heat->loss_month[month];
    switch (way) {
    case TC_HEAT_SIDES: return loss->sides;
    case TC_HEAT_BOTTOM: return loss->bottom;
    case TC_HEAT_SURFACE: return loss->surface;
    case TC_HEAT_LID: return loss->lid;
    case TC_HEAT_VAPOUR: return loss->evaporation;
    case TC_HEAT_FRESH: return loss->fresh;
    case TC_HEAT_HEATER: return heat->heater_month[month];
    case TC_HEAT_PUMPS:
    case TC_HEAT_LAMPS:
    case TC_HEAT_WAYS: break;
    }
    return 0;
}

static const struct {
    const char *symbol, *words;
} ways[TC_HEAT_WAYS] = {
    [TC_HEAT_SIDES] = {"s", "through the sides"},      [TC_HEAT_BOTTOM] = {"b", "through the bottom"},
    [TC_HEAT_SURFACE] = {"o", "from open water, dry"}, [TC_HEAT_LID] = {"l", "through the lid"},
    [TC_HEAT_VAPOUR] = {"e", "by evaporation"},        [TC_HEAT_FRESH] = {"f", "to fresh water"},
    [TC_HEAT_PUMPS] = {"p", "from the filters"},       [TC_HEAT_LAMPS] = {"a", "from the lights"},
    [TC_HEAT_HEATER] = {"h", "from the heater"},
};

/* How much of its losses counts, and how they are kept in. */
static void add_loss_inputs(struct tc_derive *derive, struct tc_term *term)
{
    const struct tc_case *c = &derive->alternative->c;
    const struct tc_filled *lid = &derive->equipment->slot[TC_SLOT_LID];
    if (isnan(c->loss_factor))
        tc_term_add(derive->sheet, term,
                    tc_derive_setup_key(derive, "c", "losses, of the computed", c->setup->heat_loss, "",
                                        "heat-loss"));
    else
        tc_term_add(derive->sheet, term,
                    tc_term_leaf(derive->sheet, "c", "losses, of the computed, by a meter", c->loss_factor,
                                 "", (struct tc_source){TC_TERM_SIMULATED, "fitted to candidate/measured"}));
    tc_term_add(derive->sheet, term,
                tc_derive_setup_key(derive, "Sh", "share of the sides that lose nothing", c->setup->sheltered,
                                    "", "sheltered-sides"));
    tc_term_add(derive->sheet, term,
                tc_derive_setup_key(derive, "A", "activity of the water's surface",
                                    tc_equipment_activity(c, derive->equipment), "", "activity"));
    if (lid->offer)
        tc_term_add(derive->sheet, term,
                    tc_derive_part_key(derive, TC_SLOT_LID, "u", "share of the water that the lid closes",
                                       lid->offer->part->as.lid.covered, "", "covered"));
}

/* The room of a month: as the region has it, or as the tanks make it. */
static void add_room(struct tc_derive *derive, struct tc_term *term, int month)
{
    const struct tc_climate *climate = &derive->alternative->c.region->climate;
    if (derive->room) {
        tc_derive_add(derive, term, derive->room(derive, TC_LINE_ROOM, month),
                      derive->room(derive, TC_LINE_ROOM, TC_MONTHS + month), END);
        return;
    }
    tc_derive_add(derive, term,
                  tc_derive_region_key(derive, "R", "mean room temperature of the month",
                                       climate->room[month], "K", "room"),
                  tc_derive_region_key(derive, "Ro", "by which the room is off", climate->room_offset, "K",
                                       "room-offset"),
                  tc_derive_region_key(derive, "Rh", "relative humidity of the room",
                                       climate->humidity[month], "", "humidity"),
                  END);
}

/* What a month's heat is simulated from, in one term. */
static const struct tc_term *inputs(struct tc_derive *derive, int month)
{
    const struct tc_term *known = tc_derive_known(derive, &inputs_mark, month, 0);
    if (known)
        return known;
    const struct tc_case *c = &derive->alternative->c;
    const struct tc_climate *climate = &derive->alternative->c.region->climate;
    const struct tc_filled *heater = &derive->equipment->slot[TC_SLOT_HEATER];
    struct tc_term *term = tc_term_leaf(
        derive->sheet, "i", tc_sheet_format(derive->sheet, "days simulated in %s", tc_phrase_month(month)),
        tc_load_days(month), "d", (struct tc_source){TC_TERM_SIMULATED, by_the_hour});
    tc_derive_add(
        derive, term,
        tc_derive_setup_key(derive, "T", "kept temperature", c->setup->temperature, "K", "temperature"),
        tc_derive_region_key(derive, "Rs", "half the room's daily swing", climate->swing, "K", "room-swing"),
        tc_derive_size(derive, TC_SIZE_VOLUME), tc_derive_size(derive, TC_SIZE_FOOTPRINT), END);
    add_room(derive, term, month);
    add_loss_inputs(derive, term);
    if (heater->offer)
        tc_derive_add(derive, term, tc_derive_chosen(derive, TC_SLOT_HEATER),
                      tc_derive_part_key(derive, TC_SLOT_HEATER, "P", "power of one heater",
                                         heater->offer->part->as.heater.power, "W", "power"),
                      END);
    return tc_derive_keep(derive, &inputs_mark, month, 0, term);
}

void tc_derive_heat_inputs(struct tc_derive *derive, struct tc_term *term, int month)
{
    if (term)
        tc_term_add(derive->sheet, term, inputs(derive, month));
}

const struct tc_term *tc_derive_simulated(struct tc_derive *derive, const char *symbol, const char *words,
                                          double value, const char *unit, int month)
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_leaf(derive->sheet, symbol, words, value, unit,
                                        (struct tc_source){TC_TERM_SIMULATED, by_the_hour});
    tc_derive_heat_inputs(derive, term, month);
    return term;
}

const struct tc_term *tc_derive_needed_heat(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_heat_year *heat = &derive->cost->running.heat;
    const struct tc_setup *setup = derive->alternative->c.setup;
    double need = derive->equipment->slot[TC_SLOT_HEATER].demand.heat;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "N", "power that heaters need", "C × (1 + m)", need, "W");
    tc_derive_add(derive, term,
                  tc_derive_simulated(derive, "C", "lost in the coldest hour, less steady gains",
                                      need / (1 + setup->heater_margin), "W", heat->coldest_month),
                  tc_derive_setup_key(derive, "m", "margin", setup->heater_margin, "", "heater-margin"), END);
    return term;
}

const struct tc_term *tc_derive_measured(struct tc_derive *derive, double percent)
{
    if (!derive)
        return NULL;
    const struct tc_candidate *plan = derive->alternative->plan;
    struct tc_term *term =
        tc_term_leaf(derive->sheet, "c", "losses by a meter, of the computed", percent, "%",
                     (struct tc_source){TC_TERM_SIMULATED, "tankcost-model(7), HEAT: measured"});
    if (!derive->alternative->measured)
        return term;
    tc_derive_add(
        derive, term,
        tc_derive_candidate_key(derive, "E", "what the heater used", plan->measured / TC_KILOWATT_HOUR, "kWh",
                                "measured"),
        tc_derive_candidate_key(derive, "D", "over so many days", plan->measured_days, "d", "measured-days"),
        tc_derive_candidate_key(derive, "R", "mean room then", plan->measured_room, "K", "measured-room"),
        tc_derive_candidate_key(derive, "Rh", "its humidity", plan->measured_humidity, "",
                                "measured-humidity"),
        END);
    return term;
}

/* What filters or lamps give to the water in a month, kWh. */
static const struct tc_term *gain(struct tc_derive *derive, enum tc_heat_way way, int month)
{
    bool lamps = way == TC_HEAT_LAMPS;
    enum tc_slot slot = lamps ? TC_SLOT_LIGHT : TC_SLOT_FILTER;
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    const struct tc_setup *setup = derive->alternative->c.setup;
    if (!filled->offer)
        return NULL;
    const struct tc_part *part = filled->offer->part;
    double heat = lamps ? part->as.light.heat : part->as.filter.heat, hours = lamps ? setup->light_hours : 24;
    double power = tc_part_power(part), days = tc_load_days(month);
    struct tc_term *term =
        tc_term_computed(derive->sheet, ways[way].symbol, ways[way].words, "k × P × s × H × D / 1000",
                         filled->count * power * heat * hours * days / 1000, "kWh");
    tc_derive_add(
        derive, term, tc_derive_chosen(derive, slot),
        tc_derive_part_key(derive, slot, "P", "power of one", power, "W", "power"),
        tc_derive_part_key(derive, slot, "s", "share that ends in the water", heat, "", "heat"),
        lamps ? tc_derive_setup_key(derive, "H", "hours of light a day", hours, "h", "light-hours")
              : tc_derive_model(derive, "H", "hours of a day", 24, "h", "ENERGY AND WATER OF A YEAR"),
        tc_derive_model(derive, "D", "days of the month", days, "d", "ENERGY AND WATER OF A YEAR"), END);
    return term;
}

/* Sets + or - and a symbol behind a formula, for a part that is there. */
static void balance_part(struct tc_derive *derive, struct tc_term *term, const char *sign,
                         const struct tc_term *part)
{
    if (!term || !part || fabs(part->value) <= 0)
        return;
    term->formula = tc_sheet_format(derive->sheet, "%s%s%s", term->formula,
                                    term->formula[0] || *sign == '-' ? sign : "", part->symbol);
    tc_term_add(derive->sheet, term, part);
}

/* The heater's month as what it has to make up for. */
static const struct tc_term *balance(struct tc_derive *derive, int month)
{
    const struct tc_heat_year *heat = &derive->cost->running.heat;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "h",
                         tc_sheet_format(derive->sheet, "heat from the heater in %s", tc_phrase_month(month)),
                         "", heat->heater_month[month] / TC_KILOWATT_HOUR, "kWh");
    for (int way = 0; way <= TC_HEAT_FRESH; way++)
        balance_part(derive, term, " + ", tc_derive_heat(derive, (enum tc_heat_way)way, month));
    struct tc_term *stored = tc_term_leaf(derive->sheet, "w", "left in the water at the month's end",
                                          heat->stored_month[month] / TC_KILOWATT_HOUR, "kWh",
                                          (struct tc_source){TC_TERM_SIMULATED, by_the_hour});
    tc_derive_heat_inputs(derive, stored, month);
    balance_part(derive, term, " + ", stored);
    balance_part(derive, term, " - ", tc_derive_heat(derive, TC_HEAT_PUMPS, month));
    balance_part(derive, term, " - ", tc_derive_heat(derive, TC_HEAT_LAMPS, month));
    return term;
}

const struct tc_term *tc_derive_heat(struct tc_derive *derive, enum tc_heat_way way, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &heat_mark, (int)way, month);
    if (known)
        return known;
    if (way == TC_HEAT_PUMPS || way == TC_HEAT_LAMPS)
        return tc_derive_keep(derive, &heat_mark, (int)way, month, gain(derive, way, month));
    if (way == TC_HEAT_HEATER)
        return tc_derive_keep(derive, &heat_mark, (int)way, month, balance(derive, month));
    struct tc_term *term =
        tc_term_leaf(derive->sheet, ways[way].symbol,
                     tc_sheet_format(derive->sheet, "heat %s in %s", ways[way].words, tc_phrase_month(month)),
                     way_of(derive, way, month) / TC_KILOWATT_HOUR, "kWh",
                     (struct tc_source){TC_TERM_SIMULATED, by_the_hour});
    tc_derive_heat_inputs(derive, term, month);
    return tc_derive_keep(derive, &heat_mark, (int)way, month, term);
}

const struct tc_term *tc_derive_heat_year(struct tc_derive *derive, enum tc_heat_way way)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &heat_year_mark, (int)way, 0);
    if (known)
        return known;
    const struct tc_heat_year *heat = &derive->cost->running.heat;
    double value = 0;
    switch (way) {
    case TC_HEAT_SIDES: value = heat->loss.sides; break;
    case TC_HEAT_BOTTOM: value = heat->loss.bottom; break;
    case TC_HEAT_SURFACE: value = heat->loss.surface; break;
    case TC_HEAT_LID: value = heat->loss.lid; break;
    case TC_HEAT_VAPOUR: value = heat->loss.evaporation; break;
    case TC_HEAT_FRESH: value = heat->loss.fresh; break;
    case TC_HEAT_PUMPS: value = heat->gain_steady; break;
    case TC_HEAT_LAMPS: value = heat->gain_light; break;
    case TC_HEAT_HEATER: value = heat->heater_total; break;
    case TC_HEAT_WAYS: break;
    }
    struct tc_term *term = tc_term_computed(derive->sheet, ways[way].symbol, ways[way].words, "sum",
                                            value / TC_KILOWATT_HOUR, "kWh");
    for (int month = 0; month < TC_MONTHS; month++)
        tc_derive_add_month(derive, term, tc_derive_heat(derive, way, month), month);
    return tc_derive_keep(derive, &heat_year_mark, (int)way, 0, term);
}

static const struct tc_term *tc_derive_heat_lost_anew(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "Q", "heat that leaves one tank", "sum",
                         tc_heat_loss_total(&derive->cost->running.heat.loss) / TC_KILOWATT_HOUR, "kWh");
    for (int way = 0; way <= TC_HEAT_FRESH; way++)
        tc_term_add(derive->sheet, term, tc_derive_heat_year(derive, (enum tc_heat_way)way));
    return term;
}

const struct tc_term *tc_derive_heat_lost(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &lost_mark, 0, 0);
    return known ? known : tc_derive_keep(derive, &lost_mark, 0, 0, tc_derive_heat_lost_anew(derive));
}

/* ------------------------------------------------------------------------ the room */

static const struct tc_term *tc_derive_room_heat_anew(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    double beside = tc_equipment_beside(&derive->alternative->c, derive->equipment);
    struct tc_term *term = tc_term_computed(derive->sheet, "Q", tc_phrase_month(month),
                                            "q × (s + b + o + l + B × 24 × D / 1000)",
                                            derive->cost->running.room_heat[month], "kWh");
    tc_derive_add(
        derive, term, tc_derive_quantity(derive), tc_derive_heat(derive, TC_HEAT_SIDES, month),
        tc_derive_heat(derive, TC_HEAT_BOTTOM, month), tc_derive_heat(derive, TC_HEAT_SURFACE, month),
        tc_derive_heat(derive, TC_HEAT_LID, month),
        tc_term_leaf(derive->sheet, "B", "what its parts give beside the water", beside, "W",
                     (struct tc_source){TC_TERM_SIMULATED, "tankcost-model(7), ENERGY AND WATER OF A YEAR"}),
        tc_derive_model(derive, "D", "days of the month", tc_load_days(month), "d",
                        "ENERGY AND WATER OF A YEAR"),
        END);
    return term;
}

const struct tc_term *tc_derive_room_heat(struct tc_derive *derive, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &room_mark, month, 0);
    return known ? known
                 : tc_derive_keep(derive, &room_mark, month, 0, tc_derive_room_heat_anew(derive, month));
}

const struct tc_term *tc_derive_room_heat_in(struct tc_derive *derive, const char *symbol, const char *words,
                                             const bool in[TC_MONTHS])
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_computed(derive->sheet, symbol, words, "sum", 0, "kWh");
    for (int month = 0; term && month < TC_MONTHS; month++) {
        const struct tc_term *part = !in || in[month] ? tc_derive_room_heat(derive, month) : NULL;
        if (!part)
            continue;
        term->value += part->value;
        tc_derive_add_month(derive, term, part, month);
    }
    return term;
}
