/* SPDX-License-Identifier: MIT */
#include "sheet/energy.h"

#include <math.h>
#include <stdio.h>

#include "core/base/unit.h"
#include "core/cost/cost.h"
#include "sheet/caution.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_heat.h"
#include "sheet/derive_use.h"
#include "sheet/energy_air.h"
#include "sheet/energy_lid.h"
#include "sheet/energy_room.h"
#include "sheet/note.h"
#include "sheet/phrase.h"

/* A figure of one alternative, of one item (a consumer, a month, a surface). */
typedef double figure(const struct tc_alternative *alternative, int item);

/* How it came about. */
typedef const struct tc_term *derivation(struct tc_derive *derive, int item);

static const struct tc_term *derived_consumer(struct tc_derive *derive, int consumer)
{
    return tc_derive_energy_year(derive, (enum tc_consumer)consumer);
}

static const struct tc_term *derived_all(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_energy_all(derive, -1);
}

static const struct tc_term *derived_heater(struct tc_derive *derive, int month)
{
    return tc_derive_energy(derive, TC_CONSUMER_HEATER, month);
}

static const struct tc_term *derived_lost(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_heat_lost(derive);
}

static double consumer_energy(const struct tc_alternative *alternative, int consumer)
{
    return tc_load_year(&alternative->cost.running.energy[consumer]);
}

static double heater_in_month(const struct tc_alternative *alternative, int month)
{
    return tc_load_month(&alternative->cost.running.energy[TC_CONSUMER_HEATER], month);
}

static double energy_in_month(const struct tc_alternative *alternative, int month)
{
    double sum = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        sum += tc_load_month(&alternative->cost.running.energy[i], month);
    return sum;
}

/* Ways heat goes, and where it comes from. */
enum { SIDES, BOTTOM, OPEN_WATER, LID, EVAPORATION, PUMPS, LAMPS, HEATER };

static const struct tc_term *derived_flow(struct tc_derive *derive, int surface)
{
    static const enum tc_heat_way ways[] = {
        [SIDES] = TC_HEAT_SIDES, [BOTTOM] = TC_HEAT_BOTTOM,      [OPEN_WATER] = TC_HEAT_SURFACE,
        [LID] = TC_HEAT_LID,     [EVAPORATION] = TC_HEAT_VAPOUR, [PUMPS] = TC_HEAT_PUMPS,
        [LAMPS] = TC_HEAT_LAMPS, [HEATER] = TC_HEAT_HEATER};
    return tc_derive_heat_year(derive, ways[surface]);
}

static double heat_flow(const struct tc_alternative *alternative, int surface)
{
    const struct tc_heat_year *heat = &alternative->cost.running.heat;
    switch (surface) {
    case SIDES: return heat->loss.sides / TC_KILOWATT_HOUR;
    case BOTTOM: return heat->loss.bottom / TC_KILOWATT_HOUR;
    case OPEN_WATER: return heat->loss.surface / TC_KILOWATT_HOUR;
    case LID: return heat->loss.lid / TC_KILOWATT_HOUR;
    case EVAPORATION: return heat->loss.evaporation / TC_KILOWATT_HOUR;
    case PUMPS: return heat->gain_steady / TC_KILOWATT_HOUR;
    case LAMPS: return heat->gain_light / TC_KILOWATT_HOUR;
    case HEATER: return heat->heater_total / TC_KILOWATT_HOUR;
    default: return 0;
    }
}

static void add_numbers(struct tc_sheet *sheet, const struct tc_study *study, enum tc_row_kind kind,
                        const char *label, const char *unit, int decimals, figure *of, derivation *derived,
                        int item)
{
    tc_sheet_row(sheet, kind, label, unit);
    for (int i = 0; i < study->alternative_count; i++) {
        tc_sheet_number(sheet, (size_t)i, of(&study->alternatives[i], item), decimals);
        tc_term_put(sheet, (size_t)i, derived(tc_derive_of(sheet, study, &study->alternatives[i]), item));
    }
}

static bool any_above(const struct tc_study *study, figure *of, int item)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (fabs(of(&study->alternatives[i], item)) > 1e-9)
            return true;
    return false;
}

static double all_energy(const struct tc_alternative *alternative, int item)
{
    (void)item;
    double sum = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        sum += consumer_energy(alternative, i);
    return sum;
}

/* A line of the year, of an alternative by its place. */
static void put_run(struct tc_sheet *sheet, const struct tc_study *study, int i, int line, tc_money money)
{
    tc_sheet_money(sheet, (size_t)i, money, study->region.currency);
    tc_term_put(sheet, (size_t)i, tc_derive_run(tc_derive_of(sheet, study, &study->alternatives[i]), line));
}

static void put_year(struct tc_sheet *sheet, const struct tc_study *study, int i)
{
    tc_sheet_money(sheet, (size_t)i, study->alternatives[i].cost.energy_total.year, study->region.currency);
    tc_term_put(sheet, (size_t)i, tc_derive_year_cost(tc_derive_of(sheet, study, &study->alternatives[i])));
}

static void put_month(struct tc_sheet *sheet, const struct tc_study *study, int i, int month)
{
    tc_sheet_money(sheet, (size_t)i, study->alternatives[i].cost.energy_total.month[month],
                   study->region.currency);
    tc_term_put(sheet, (size_t)i,
                tc_derive_month_cost(tc_derive_of(sheet, study, &study->alternatives[i]), month));
}

/* m3 in the user's unit. */
static void put_volume(struct tc_sheet *sheet, const struct tc_study *study, int i, double volume,
                       int decimals, const struct tc_term *term)
{
    tc_sheet_number(sheet, (size_t)i, tc_phrase_value(volume, TC_DIM_VOLUME, study->units), decimals);
    tc_term_put(sheet, (size_t)i,
                tc_derive_shown(tc_derive_of(sheet, study, &study->alternatives[i]), term, TC_DIM_VOLUME));
}

static void add_consumers(struct tc_sheet *sheet, const struct tc_study *study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "Electricity a year", "");
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        if (any_above(study, consumer_energy, i))
            add_numbers(sheet, study, TC_ROW_LINE, tc_consumer_name((enum tc_consumer)i), "kWh", 0,
                        consumer_energy, derived_consumer, i);
    add_numbers(sheet, study, TC_ROW_SUBTOTAL, "all", "kWh", 0, all_energy, derived_all, 0);
    tc_sheet_mark_lowest(sheet);

    tc_sheet_row(sheet, TC_ROW_GROUP, "What it costs a year", "");
    for (int c = 0; c < TC_CONSUMER_COUNT; c++) {
        if (!any_above(study, consumer_energy, c))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, tc_consumer_name((enum tc_consumer)c), "");
        for (int i = 0; i < study->alternative_count; i++)
            put_run(sheet, study, i, TC_RUN_ENERGY + c, study->alternatives[i].cost.energy[c].year);
    }
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "all", "");
    for (int i = 0; i < study->alternative_count; i++)
        put_year(sheet, study, i);
    tc_sheet_mark_lowest(sheet);
}

static double water_in_month(const struct tc_alternative *alternative, int month)
{
    return alternative->cost.running.changed[month] + alternative->cost.running.evaporated[month];
}

static bool any_heated(const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (study->alternatives[i].c.setup->heater)
            return true;
    return false;
}

static void add_months(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool heated = any_above(study, consumer_energy, TC_CONSUMER_HEATER);
    if (heated)
        tc_sheet_row(sheet, TC_ROW_GROUP, "Heater by month", "");
    for (int month = 0; heated && month < TC_MONTHS; month++)
        add_numbers(sheet, study, TC_ROW_LINE, tc_phrase_month(month), "kWh", 1, heater_in_month,
                    derived_heater, month);
    tc_sheet_row(sheet, TC_ROW_GROUP, "All electricity by month", "");
    for (int month = 0; month < TC_MONTHS; month++)
        add_numbers(sheet, study, TC_ROW_LINE, tc_phrase_month(month), "kWh", 1, energy_in_month,
                    tc_derive_energy_all, month);
    tc_sheet_row(sheet, TC_ROW_GROUP, "Its cost by month", "");
    for (int month = 0; month < TC_MONTHS; month++) {
        tc_sheet_row(sheet, TC_ROW_LINE, tc_phrase_month(month), "");
        for (int i = 0; i < study->alternative_count; i++)
            put_month(sheet, study, i, month);
    }
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "the year", "");
    for (int i = 0; i < study->alternative_count; i++)
        put_year(sheet, study, i);
    tc_sheet_row(sheet, TC_ROW_GROUP, "All water by month", "");
    for (int month = 0; month < TC_MONTHS; month++) {
        tc_sheet_row(sheet, TC_ROW_LINE, tc_phrase_month(month), tc_phrase_unit(TC_DIM_VOLUME, study->units));
        for (int i = 0; i < study->alternative_count; i++)
            put_volume(sheet, study, i, water_in_month(&study->alternatives[i], month), 1,
                       tc_derive_water_all(tc_derive_of(sheet, study, &study->alternatives[i]), month));
    }
}

static double lost_heat(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return tc_heat_loss_total(&alternative->cost.running.heat.loss) / TC_KILOWATT_HOUR;
}

static void put_measured(struct tc_sheet *sheet, const struct tc_study *study, int i)
{
    struct tc_derive *derive = tc_derive_of(sheet, study, &study->alternatives[i]);
    double percent = 100 * study->alternatives[i].c.loss_factor;
    tc_sheet_number(sheet, (size_t)i, percent, 0);
    tc_term_put(sheet, (size_t)i, tc_derive_measured(derive, percent));
}

/* What a meter says against what is computed, where any tank of the plan was metered. */
static void add_measured(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool any = false;
    for (int i = 0; i < study->alternative_count; i++)
        any = any || study->alternatives[i].measured;
    if (!any)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, "losses, of the computed", "%");
    for (int i = 0; i < study->alternative_count; i++)
        if (!isnan(study->alternatives[i].c.loss_factor))
            put_measured(sheet, study, i);
    tc_sheet_row(sheet, TC_ROW_LINE, "by", "");
    for (int i = 0; i < study->alternative_count; i++) {
        if (isnan(study->alternatives[i].c.loss_factor))
            continue; /* of another setup, of which none was metered */
        tc_sheet_text(sheet, (size_t)i, study->alternatives[i].measured ? "own meter" : "neighbour's");
        if (study->alternatives[i].measured)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_TYPED);
    }
}

static void add_losses(struct tc_sheet *sheet, const struct tc_study *study)
{
    static const struct {
        const char *label;
        int surface;
    } losses[] = {{"through the sides", SIDES},
                  {"through the bottom", BOTTOM},
                  {"from open water, dry", OPEN_WATER},
                  {"through the lid", LID},
                  {"by evaporation", EVAPORATION}},
      gains[] = {{"from the filters", PUMPS}, {"from the lights", LAMPS}, {"from the heater", HEATER}};
    tc_sheet_row(sheet, TC_ROW_GROUP, "Heat that leaves one tank, a year", "");
    for (size_t i = 0; i < sizeof losses / sizeof losses[0]; i++)
        if (any_above(study, heat_flow, losses[i].surface))
            add_numbers(sheet, study, TC_ROW_LINE, losses[i].label, "kWh", 0, heat_flow, derived_flow,
                        losses[i].surface);
    add_numbers(sheet, study, TC_ROW_SUBTOTAL, "all", "kWh", 0, lost_heat, derived_lost, 0);
    tc_sheet_mark_lowest(sheet);
    add_measured(sheet, study);
    tc_sheet_row(sheet, TC_ROW_GROUP, "and where it comes from", "");
    for (size_t i = 0; i < sizeof gains / sizeof gains[0]; i++)
        if (any_above(study, heat_flow, gains[i].surface))
            add_numbers(sheet, study, TC_ROW_LINE, gains[i].label, "kWh", 0, heat_flow, derived_flow,
                        gains[i].surface);
}

static double installed(const struct tc_alternative *alternative, int item)
{
    (void)item;
    const struct tc_filled *heater = &alternative->equipment.slot[TC_SLOT_HEATER];
    return heater->offer ? heater->count * heater->offer->part->as.heater.power : 0;
}

static double needed(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return alternative->equipment.slot[TC_SLOT_HEATER].demand.heat;
}

static double duty(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return 100 * alternative->cost.running.heat.duty;
}

static double shortfall(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return alternative->cost.running.heat.shortfall;
}

static const struct tc_term *derived_needed(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_needed_heat(derive);
}

static const struct tc_term *derived_installed(struct tc_derive *derive, int item)
{
    if (!derive)
        return NULL;
    const struct tc_filled *heater = &derive->equipment->slot[TC_SLOT_HEATER];
    struct tc_term *term =
        tc_term_computed(derive->sheet, "P", "power of its heaters", heater->offer ? "k × p" : "0",
                         installed(derive->alternative, item), "W");
    if (!heater->offer)
        return term;
    tc_term_add(derive->sheet, term, tc_derive_chosen(derive, TC_SLOT_HEATER));
    tc_term_add(derive->sheet, term,
                tc_derive_part_key(derive, TC_SLOT_HEATER, "p", "power of one",
                                   heater->offer->part->as.heater.power, "W", "power"));
    return term;
}

static const struct tc_term *derived_duty(struct tc_derive *derive, int item)
{
    if (!derive)
        return NULL;
    const struct tc_heat_year *heat = &derive->cost->running.heat;
    bool any = heat->duty > 0;
    struct tc_term *term = tc_term_computed(
        derive->sheet, "D", "share of the time it is on in the coldest month",
        any ? "100 × min(1, h × 1000 / (P × 24 × d))" : "0", duty(derive->alternative, item), "%");
    if (!any)
        return term;
    tc_term_add(derive->sheet, term, tc_derive_heat(derive, TC_HEAT_HEATER, heat->coldest_month));
    tc_term_add(derive->sheet, term, derived_installed(derive, 0));
    tc_term_add(derive->sheet, term,
                tc_derive_model(derive, "d", "days of the month", tc_load_days(heat->coldest_month), "d",
                                "ENERGY AND WATER OF A YEAR"));
    return term;
}

static const struct tc_term *derived_shortfall(struct tc_derive *derive, int item)
{
    return derive ? tc_derive_simulated(derive, "K", "below what is wanted, in the coldest month",
                                        shortfall(derive->alternative, item), "K",
                                        derive->cost->running.heat.coldest_month)
                  : NULL;
}

static void add_heater(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool heated = any_heated(study);
    tc_sheet_row(sheet, TC_ROW_GROUP, heated ? "The heater" : "Without a heater", "");
    if (heated) {
        add_numbers(sheet, study, TC_ROW_LINE, "needed in the coldest hour, with margin", "W", 0, needed,
                    derived_needed, 0);
        add_numbers(sheet, study, TC_ROW_LINE, "installed", "W", 0, installed, derived_installed, 0);
        add_numbers(sheet, study, TC_ROW_LINE, "share of time on, coldest month", "%", 0, duty, derived_duty,
                    0);
    }
    if (any_above(study, shortfall, 0)) {
        add_numbers(sheet, study, TC_ROW_LINE, heated ? "too cold then by" : "colder than wanted by", "K", 1,
                    shortfall, derived_shortfall, 0);
        for (int i = 0; i < study->alternative_count; i++)
            if (shortfall(&study->alternatives[i], 0) > 0.05)
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_SHORT);
    }
    tc_sheet_row(sheet, TC_ROW_LINE, "hottest water", tc_phrase_unit(TC_DIM_TEMPERATURE, study->units));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_heat_year *heat = &study->alternatives[i].cost.running.heat;
        tc_sheet_number(sheet, (size_t)i, tc_phrase_value(heat->hottest, TC_DIM_TEMPERATURE, study->units),
                        1);
        struct tc_derive *derive = tc_derive_of(sheet, study, &study->alternatives[i]);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_shown(derive,
                                    tc_derive_simulated(derive, "Tw", "water at its hottest", heat->hottest,
                                                        "K", heat->hottest_month),
                                    TC_DIM_TEMPERATURE));
        if (heat->above_limit)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
    }
}

static double evaporated(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return alternative->cost.running.evaporated_total;
}

static double changed(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return alternative->cost.running.changed_total;
}

static void add_volume(struct tc_sheet *sheet, const struct tc_study *study, const char *label, figure *of,
                       int use)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, tc_phrase_unit(TC_DIM_VOLUME, study->units));
    for (int i = 0; i < study->alternative_count; i++)
        put_volume(sheet, study, i, of(&study->alternatives[i], 0), 0,
                   tc_derive_water(tc_derive_of(sheet, study, &study->alternatives[i]), use, -1));
}

static double warm_water(const struct tc_alternative *alternative, int item)
{
    (void)item;
    return alternative->cost.running.warm_water;
}

static const struct tc_term *derived_warm(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_warm_water(derive);
}

static void add_water(struct tc_sheet *sheet, const struct tc_study *study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "Water a year", "");
    add_volume(sheet, study, "changed", changed, TC_WATER_CHANGES);
    add_volume(sheet, study, "lost to the air", evaporated, TC_WATER_MAKE_UP);
    tc_sheet_about(sheet, "evaporation");
    if (!any_above(study, warm_water, 0))
        return;
    /* The household's boiler warms it, so it is none of the tanks' electricity. */
    add_numbers(sheet, study, TC_ROW_LINE, "heat in it, from the warm tap", "kWh", 0, warm_water,
                derived_warm, 0);
    tc_sheet_row(sheet, TC_ROW_LINE, "what that costs", "");
    for (int i = 0; i < study->alternative_count; i++)
        put_run(sheet, study, i, TC_RUN_WARM_WATER, study->alternatives[i].cost.run[TC_RUN_WARM_WATER]);
}

/* Twelve bars for each candidate, made of its consumers. */
static void add_chart(struct tc_sheet *sheet, const struct tc_alternative *alternative)
{
    int used[TC_CONSUMER_COUNT], count = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        if (consumer_energy(alternative, i) > 0)
            used[count++] = i;
    if (count == 0)
        return;
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_BARS, (size_t)count, TC_MONTHS);
    if (!chart)
        return;
    chart->title = tc_sheet_format(sheet, "%s: electricity by month", alternative->head);
    chart->y_title = "kWh";
    for (int month = 0; month < TC_MONTHS; month++)
        chart->x_labels[month] = tc_phrase_month(month);
    for (int i = 0; i < count; i++) {
        chart->series[i].name = tc_consumer_name((enum tc_consumer)used[i]);
        for (int month = 0; month < TC_MONTHS; month++)
            chart->series[i].values[month] = tc_load_month(&alternative->cost.running.energy[used[i]], month);
    }
}

static void add_notes(struct tc_sheet *sheet, const struct tc_study *study)
{
    char hot[TC_QUANTITY_SIZE], limit[TC_QUANTITY_SIZE], fall[TC_QUANTITY_SIZE];
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_heat_year *heat = &alternative->cost.running.heat;
        if (heat->above_limit)
            tc_sheet_note(
                sheet, TC_NOTE_CAUTION,
                "%s: in %s the water reaches %s, past the %s that setup %s allows. Shade the tank, cool the "
                "room, or run the lights at night. Opening the lid cools too, but puts moisture into the "
                "room.",
                alternative->head, tc_phrase_month(heat->hottest_month),
                tc_unit_quantity_write(hot, heat->hottest, TC_DIM_TEMPERATURE, study->units, 1),
                tc_unit_quantity_write(limit, alternative->c.setup->warm_limit, TC_DIM_TEMPERATURE,
                                       study->units, 1),
                alternative->c.setup->name);
        if (heat->shortfall > 0.05)
            tc_sheet_note(
                sheet, TC_NOTE_FAULT, "%s: in %s %s the temperature: %s short.", alternative->head,
                tc_phrase_month(heat->coldest_month),
                alternative->c.setup->heater ? "its heaters cannot hold"
                                             : "the room, without a heater, does not hold",
                tc_unit_quantity_write(fall, heat->shortfall, TC_DIM_TEMPERATURE_STEP, study->units, 1));
        if (alternative->c.setup->heater && heat->heater_total < 0.5 * TC_KILOWATT_HOUR)
            tc_sheet_note(
                sheet, TC_NOTE_REMARK,
                "%s: lights, pumps and the room keep its water warm; it has next to no heating bill.",
                alternative->head);
    }
    tc_sheet_note(sheet, TC_NOTE_REMARK,
                  "Costs are the household's bill with the tank, less the bill without it. Losses are "
                  "those of a tank that stands free, in a room it does not warm.");
}

enum tc_status tc_make_energy(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "energy", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    tc_phrase_head(sheet, study, "Where the electricity, the heat and the water go",
                   study->region.currency.code);
    tc_phrase_columns(sheet, study);
    add_consumers(sheet, study);
    add_losses(sheet, study);
    enum tc_status status = tc_energy_add_lids(sheet, study);
    add_heater(sheet, study);
    add_water(sheet, study);
    if (status == TC_OK)
        status = tc_energy_add_air(sheet, study);
    add_months(sheet, study);
    if (status == TC_OK)
        status = tc_energy_add_room(sheet, study);
    for (int i = 0; i < study->alternative_count; i++)
        add_chart(sheet, &study->alternatives[i]);
    add_notes(sheet, study);
    tc_note_alternatives(sheet, study);
    tc_cautions(sheet, TC_CAUTION_ELECTRICITY | TC_CAUTION_DAMP, study->units);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
