/* SPDX-License-Identifier: MIT */
#include "sheet/derive_room.h"

#include <math.h>

#include "core/physics/vapour.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

static const char model_section[] = "ROOM AND TANKS";

static const char climate_mark, loss_mark, base_mark;

static const struct tc_derive_parts *parts_of(const struct tc_derive *derive)
{
    return derive->made_of;
}

static const struct tc_room_month *month_of(const struct tc_derive *derive, int month)
{
    return &parts_of(derive)->layout->climate.month[month];
}

/* Found together with the room: it depends on what it makes. */
static const struct tc_term *solved(struct tc_derive *derive, const char *symbol, const char *words,
                                    double value, const char *unit)
{
    return tc_term_leaf(derive->sheet, symbol, words, value, unit,
                        (struct tc_source){TC_TERM_SIMULATED,
                                           "room and tanks solved together, month by month: "
                                           "tankcost-model(7), ROOM AND TANKS"});
}

static const struct tc_term *wall_key(struct tc_derive *derive, const char *symbol, const char *words,
                                      double value, const char *unit, const char *key)
{
    return tc_term_leaf(
        derive->sheet, symbol, words, value, unit,
        tc_source_path(derive->sheet, derive->study, tc_sheet_format(derive->sheet, "wall/%s", key)));
}

/* --------------------------------------------------------------- what the room loses */

/* A surface of the room: its area by a formula, times what a unit of it loses; NULL: it has none. */
static const struct tc_term *surface(struct tc_derive *derive, const char *symbol, const char *words,
                                     const char *formula, double area, double loss,
                                     const struct tc_term *const sizes[])
{
    if (!(loss > 0) || !(area > 0))
        return NULL;
    struct tc_term *term = tc_term_computed(derive->sheet, symbol, words, "A × U", loss, "W/K");
    struct tc_term *A = tc_term_computed(derive->sheet, "A", "its area", formula, area, "m²");
    for (int i = 0; sizes[i]; i++)
        tc_term_add(derive->sheet, A, sizes[i]);
    tc_derive_add(derive, term, A,
                  tc_derive_model(derive, "U", "lost through a m² of it, so built, as far as it counts",
                                  loss / area, "W/(m² K)", model_section),
                  END);
    return term;
}

/* W/K by its size and build. */
static const struct tc_term *estimated(struct tc_derive *derive)
{
    const struct tc_room_plan *plan = &derive->study->plan.wall.room;
    const struct tc_room_loss *loss = &parts_of(derive)->wall_study->room.loss;
    const struct tc_term *l = wall_key(derive, "l", "length of the room", plan->length, "m", "room-length"),
                         *w = wall_key(derive, "w", "its width", plan->width, "m", "room-width"),
                         *h = wall_key(derive, "h", "its height", plan->height, "m", "room-height"),
                         *o = wall_key(derive, "o", "length of outer walls", plan->outside, "m",
                                       "room-outside"),
                         *g = wall_key(derive, "g", "windows", plan->windows, "m²", "room-windows");
    double floor = plan->length * plan->width, outside = plan->outside * plan->height;
    double inside = 2 * (plan->length + plan->width) * plan->height - outside + (plan->roof ? 1 : 2) * floor;
    struct tc_term *sum = tc_term_computed(
        derive->sheet, "G", "lost for each kelvin the room is warmer, estimated", "sum", loss->likely, "W/K");
    tc_term_add(derive->sheet, sum,
                surface(derive, "Gw", "outer walls", "o × h - g", outside - plan->windows, loss->walls,
                        (const struct tc_term *const[]){o, h, g, NULL}));
    tc_term_add(derive->sheet, sum,
                surface(derive, "Gg", "windows", "g", plan->windows, loss->windows,
                        (const struct tc_term *const[]){g, NULL}));
    tc_term_add(derive->sheet, sum,
                surface(derive, "Gr", "roof", "l × w", floor, loss->roof,
                        (const struct tc_term *const[]){l, w, NULL}));
    tc_term_add(
        derive->sheet, sum,
        surface(derive, "Gi", "what leads to other rooms",
                plan->roof ? "2 × (l + w) × h - o × h + l × w" : "2 × (l + w) × h - o × h + 2 × l × w",
                inside, loss->inside, (const struct tc_term *const[]){l, w, h, o, NULL}));
    if (loss->air > 0) {
        struct tc_term *air = tc_term_computed(derive->sheet, "Ga", "air that is changed",
                                               "1224 × n × l × w × h", loss->air, "W/K");
        tc_derive_add(derive, air,
                      wall_key(derive, "n", "how often", plan->air_change, "1/s", "room-air-change"), l, w, h,
                      END);
        tc_term_add(derive->sheet, sum, air);
    }
    return sum;
}

/* W/K that the room loses. */
static const struct tc_term *loss_of(struct tc_derive *derive)
{
    const struct tc_wall_room *room = &parts_of(derive)->wall_study->room;
    const struct tc_term *known = tc_derive_known(derive, &loss_mark, 0, 0);
    if (known)
        return known;
    return tc_derive_keep(derive, &loss_mark, 0, 0,
                          room->estimated ? estimated(derive)
                                          : wall_key(derive, "G", "lost for each kelvin the room is warmer",
                                                     room->loss.likely, "W/K", "room-loss"));
}

/* -------------------------------------------------------------------- how warm it is */

static const struct tc_term *region_room(struct tc_derive *derive, int month, bool offset)
{
    const struct tc_climate *climate = &derive->study->region.climate;
    return offset ? tc_derive_region_key(derive, "Ro", "by which the room is off", climate->room_offset, "K",
                                         "room-offset")
                  : tc_derive_region_key(derive, "R0", "mean room temperature of the month, without tanks",
                                         climate->room[month], "K", "room");
}

/* W of the air pumps that all tanks share. */
static const struct tc_term *pumps(struct tc_derive *derive, double power)
{
    const struct tc_wall_study_sharing *share = &parts_of(derive)->layout->share;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "A", "power of the air pumps that all share", "m × p", power, "W");
    tc_derive_add(derive, term,
                  tc_term_leaf(derive->sheet, "m", "so many of them", share->air_count, "",
                               (struct tc_source){TC_TERM_SIMULATED, "by the air that all filters need"}),
                  tc_term_leaf(derive->sheet, "p", "power of one", power / share->air_count, "W",
                               tc_source_item(derive->sheet, derive->study, tc_slot_name(TC_SLOT_AIR_PUMP),
                                              share->air->part->goods.name, "power")),
                  END);
    return term;
}

/* K of the room without its tanks, but with the pumps beside them. */
static const struct tc_term *base_of(struct tc_derive *derive, int month)
{
    const struct tc_layout *layout = parts_of(derive)->layout;
    const struct tc_offer *air = layout->share.air;
    const struct tc_term *known = tc_derive_known(derive, &base_mark, month, 0);
    if (known)
        return known;
    double beside = air ? layout->share.air_count * tc_part_power(air->part) : 0;
    double base = tc_climate_room(&derive->study->region.climate, month);
    const struct tc_term *loss = loss_of(derive);
    struct tc_term *term = tc_term_computed(derive->sheet, "b", "the room without its tanks",
                                            beside > 0 ? "R0 + Ro + A / G" : "R0 + Ro",
                                            base + (loss ? beside / loss->value : 0), "K");
    tc_derive_add(derive, term, region_room(derive, month, false), region_room(derive, month, true), END);
    if (beside > 0)
        tc_derive_add(derive, term, pumps(derive, beside), loss, END);
    return tc_derive_keep(derive, &base_mark, month, 0, term);
}

static const struct tc_term *temperature(struct tc_derive *derive, int month)
{
    const char *words =
        tc_sheet_format(derive->sheet, "mean room temperature of %s, with the tanks", tc_phrase_month(month));
    const struct tc_derive_parts *of = parts_of(derive);
    if (!of->wall_study->room.known) {
        struct tc_term *kept = tc_term_leaf(
            derive->sheet, "R", words, tc_climate_room(&of->layout->region.climate, month), "K",
            (struct tc_source){TC_TERM_SIMULATED,
                               "kept so warm that tanks need no heaters: tankcost-model(7), ROOM AND TANKS"});
        tc_derive_add(derive, kept, region_room(derive, month, false), region_room(derive, month, true), END);
        return kept;
    }
    const struct tc_term *base = base_of(derive, month), *loss = loss_of(derive);
    double value = month_of(derive, month)->temperature;
    if (!base || !loss)
        return NULL;
    struct tc_term *term = tc_term_computed(derive->sheet, "R", words, "b + Q / G", value, "K");
    tc_derive_add(derive, term, base,
                  solved(derive, "Q", "what tanks, heating and cooling give it",
                         (value - base->value) * loss->value, "W"),
                  loss, END);
    return term;
}

static const struct tc_term *saturation(struct tc_derive *derive, const char *symbol, const char *words,
                                        double kelvin)
{
    return tc_derive_model(derive, symbol, words, tc_saturation_pressure(kelvin), "Pa",
                           "HEAT: saturation pressure");
}

static const struct tc_term *humidity(struct tc_derive *derive, int month)
{
    const struct tc_derive_parts *of = parts_of(derive);
    const struct tc_climate *region = &derive->study->region.climate;
    double before = tc_climate_room(region, month), now = tc_climate_room(&of->layout->region.climate, month);
    double share = of->layout->region.climate.humidity[month], pressure = share * tc_saturation_pressure(now);
    double had = region->humidity[month] * tc_saturation_pressure(before);
    struct tc_term *own =
        tc_term_computed(derive->sheet, "p0", "vapor in its air without the tanks", "h × ps", had, "Pa");
    tc_derive_add(
        derive, own,
        tc_derive_region_key(derive, "h", "its relative humidity", region->humidity[month], "", "humidity"),
        saturation(derive, "ps", "the most that air can hold", before), END);
    struct tc_term *vapour =
        tc_term_computed(derive->sheet, "p", "vapor in its air", "p0 + M", pressure, "Pa");
    tc_derive_add(derive, vapour, own,
                  solved(derive, "M", "what the tanks' water adds", pressure - had, "Pa"), END);
    struct tc_term *term = tc_term_computed(
        derive->sheet, "Rh",
        tc_sheet_format(derive->sheet, "relative humidity of the room in %s", tc_phrase_month(month)),
        "p / ps", share, "");
    tc_derive_add(derive, term, vapour, saturation(derive, "ps", "the most that air so warm can hold", now),
                  END);
    return term;
}

const struct tc_term *tc_derive_room_climate(struct tc_derive *derive, enum tc_derived_line part, int index)
{
    if (part != TC_LINE_ROOM)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &climate_mark, index, 0);
    if (known)
        return known;
    return tc_derive_keep(derive, &climate_mark, index, 0,
                          index < TC_MONTHS ? temperature(derive, index)
                                            : humidity(derive, index - TC_MONTHS));
}

const struct tc_term *tc_derive_room_extreme(struct tc_derive *derive, enum tc_room_extreme extreme,
                                             double value)
{
    if (!derive)
        return NULL;
    bool damp = extreme == TC_ROOM_DAMPEST;
    const char *list = "";
    struct tc_term *term = tc_term_computed(derive->sheet, "R",
                                            damp                         ? "its dampest month"
                                            : extreme == TC_ROOM_COOLEST ? "its coolest month"
                                                                         : "its warmest month",
                                            "", value, damp ? "%" : "K");
    for (int month = 0; term && month < TC_MONTHS; month++) {
        const char *name = tc_phrase_month(month);
        list = tc_sheet_format(derive->sheet, "%s%s%s", list, month > 0 ? ", " : "", name);
        tc_term_add(
            derive->sheet, term,
            tc_term_called(derive->sheet,
                           tc_derive_room_climate(derive, TC_LINE_ROOM, damp ? TC_MONTHS + month : month),
                           name, name));
    }
    if (term)
        term->formula = tc_sheet_format(derive->sheet,
                                        damp                         ? "100 × max(%s)"
                                        : extreme == TC_ROOM_COOLEST ? "min(%s)"
                                                                     : "max(%s)",
                                        list);
    return term;
}

/* ------------------------------------------------------------- what keeps it so, and costs */

/* kWh of heating or cooling in a month; NULL: none. */
static const struct tc_term *conditioned(struct tc_derive *derive, bool cooling, int month)
{
    const struct tc_room_month *m = month_of(derive, month);
    double watts = cooling ? m->cooling : m->heating, days = tc_load_days(month);
    if (!(watts > 0))
        return NULL;
    struct tc_term *power = tc_term_computed(
        derive->sheet, "W", cooling ? "taken out, mean of the month" : "brought in, mean of the month",
        cooling ? "max(0, S - G × (R - b))" : "max(0, G × (R - b) - S)", watts, "W");
    tc_derive_add(derive, power, solved(derive, "S", "what the tanks give it, without vapor", m->tanks, "W"),
                  loss_of(derive), tc_derive_room_climate(derive, TC_LINE_ROOM, month),
                  base_of(derive, month), END);
    struct tc_term *term = tc_term_computed(derive->sheet, tc_phrase_month(month), tc_phrase_month(month),
                                            "W × 24 × D / 1000", watts * 24 * days / 1000, "kWh");
    tc_derive_add(derive, term, power,
                  tc_derive_model(derive, "D", "days of the month", days, "d", model_section), END);
    return term;
}

static const struct tc_term *conditioned_year(struct tc_derive *derive, bool cooling)
{
    struct tc_term *sum = tc_term_computed(
        derive->sheet, cooling ? "Qc" : "Qh",
        cooling ? "heat that cooling takes out" : "heat that heating brings", "sum", 0, "kWh");
    for (int month = 0; sum && month < TC_MONTHS; month++) {
        const struct tc_term *one = conditioned(derive, cooling, month);
        sum->value += one ? one->value : 0;
        tc_term_add(derive->sheet, sum, one);
    }
    return sum;
}

const struct tc_term *tc_derive_room_heating(struct tc_derive *derive)
{
    return derive ? conditioned_year(derive, false) : NULL;
}

static const struct tc_term *efficiency(struct tc_derive *derive)
{
    return wall_key(derive, "e", "heat for each kWh of its electricity",
                    derive->study->plan.wall.room.heater_efficiency, "", "room-heater-efficiency");
}

const struct tc_term *tc_derive_room_heater(struct tc_derive *derive, const char *symbol, int month)
{
    double share = derive->study->plan.wall.room.heater_efficiency;
    const struct tc_term *heat = share > 0 ? conditioned(derive, false, month) : NULL;
    if (!heat)
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, symbol, "heater of the room", "Q / e", heat->value / share, "kWh");
    tc_derive_add(derive, term, tc_term_called(derive->sheet, heat, "Q", "heat it brings"),
                  efficiency(derive), END);
    return term;
}

/* m3 of water that evaporate in a year. */
static const struct tc_term *dried(struct tc_derive *derive)
{
    struct tc_term *sum = tc_term_computed(derive->sheet, "V", "water that evaporates", "sum", 0, "m³");
    for (int month = 0; sum && month < TC_MONTHS; month++) {
        double rate = fmax(month_of(derive, month)->evaporated, 0), days = tc_load_days(month);
        double volume = rate * 86400 * days / 998.2;
        struct tc_term *one = tc_term_computed(derive->sheet, tc_phrase_month(month), tc_phrase_month(month),
                                               "E × 86400 × D / 998.2", volume, "m³");
        tc_derive_add(derive, one, solved(derive, "E", "in a second", rate, "kg/s"),
                      tc_derive_model(derive, "D", "days of the month", days, "d", model_section), END);
        sum->value += volume;
        tc_term_add(derive->sheet, sum, one);
    }
    return sum;
}

const struct tc_term *tc_derive_room_bill(struct tc_derive *derive, tc_money money)
{
    const struct tc_region *region = &derive->study->region;
    const struct tc_room_plan *plan = &derive->study->plan.wall.room;
    struct tc_term *term =
        tc_derive_money_line(derive, 'Y', TC_RUN_ROOM_HEAT, "heating, cooling, drying", "0", money);
    if (!term || money == 0)
        return term;
    bool heat = !(plan->heater_efficiency > 0) && region->room_heat_price > 0,
         cool = region->room_cool_price > 0, dry = plan->vapour_price > 0;
    const char *kwh = tc_derive_rate_unit(derive, "kWh");
    term->formula = tc_sheet_format(derive->sheet, "round(%s%s%s%s%s)", heat ? "Qh × h" : "",
                                    heat && (cool || dry) ? " + " : "", cool ? "Qc × c" : "",
                                    cool && dry ? " + " : "", dry ? "V × v" : "");
    if (heat)
        tc_derive_add(derive, term, conditioned_year(derive, false),
                      tc_derive_region_key(derive, "h", "price of heat brought in", region->room_heat_price,
                                           kwh, "room-heat-price"),
                      END);
    if (cool)
        tc_derive_add(derive, term, conditioned_year(derive, true),
                      tc_derive_region_key(derive, "c", "price of heat taken out", region->room_cool_price,
                                           kwh, "room-cool-price"),
                      END);
    if (dry)
        tc_derive_add(derive, term, dried(derive),
                      wall_key(derive, "v", "price of drying", plan->vapour_price,
                               tc_derive_rate_unit(derive, "m³"), "vapor-price"),
                      END);
    return term;
}
