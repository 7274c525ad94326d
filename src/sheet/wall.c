/* SPDX-License-Identifier: MIT */
#include "sheet/wall.h"
#include "sheet/caution.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_loads.h"
#include "sheet/derive_wall.h"
#include "sheet/wall_study.h"
#include "sheet/wall_drawing.h"
#include "sheet/wall_heat.h"
#include "sheet/wall_limits.h"
#include "sheet/wall_notes.h"
#include "sheet/wall_ties.h"
#include "sheet/wall_study_cost.h"
#include "sheet/wall_study_share.h"
#include "sheet/phrase.h"

/* The share of the work that goes into the layouts; the rest into what more of a limit would bring. */
#define SEARCH_OF_MIXES 0.4

/* ---------------------------------------------------------------------- the table */

typedef double figure(const struct tc_layout *layout);

static double tanks(const struct tc_layout *layout)
{
    return layout->mix.tanks;
}
static double bottom(const struct tc_layout *layout)
{
    return layout->mix.area;
}
static double water(const struct tc_layout *layout)
{
    return layout->mix.volume;
}
static double length(const struct tc_layout *layout)
{
    double sum = 0;
    for (int s = 0; s < TC_WALL_STRETCHES_MAX; s++)
        sum += layout->mix.length[s];
    return sum;
}
static double mass(const struct tc_layout *layout)
{
    return layout->mix.mass;
}
static double pressure(const struct tc_layout *layout)
{
    return layout->mix.pressure;
}
static double power(const struct tc_layout *layout)
{
    return layout->power;
}
static double tiers(const struct tc_layout *layout)
{
    return layout->mix.tiers;
}
static double heat(const struct tc_layout *layout)
{
    return layout->heat;
}
static double evaporated(const struct tc_layout *layout)
{
    return layout->evaporated;
}

static double heaviest_bay(const struct tc_layout *layout)
{
    double most = 0;
    for (int i = 0; i < layout->mix.bays; i++)
        most = fmax(most, layout->mix.bay[i].mass);
    return most;
}

static struct tc_derive *derive_of(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int i)
{
    return tc_derive_wall(sheet, wall_study, &wall_study->layouts[i]);
}

typedef const struct tc_term *derivation(struct tc_derive *derive);

static const struct tc_term *all_tanks(struct tc_derive *derive)
{
    return tc_derive_wall_tanks(derive, -1);
}
static const struct tc_term *derived_bottom(struct tc_derive *derive)
{
    return tc_derive_size(derive, TC_SIZE_BOTTOM);
}
static const struct tc_term *derived_water(struct tc_derive *derive)
{
    return tc_derive_size(derive, TC_SIZE_VOLUME);
}
static const struct tc_term *derived_mass(struct tc_derive *derive)
{
    return tc_derive_size(derive, TC_SIZE_FILLED);
}

/* A figure of each wall, and how it came about. */
static void add_figure(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, enum tc_row_kind kind,
                       const char *label, enum tc_dimension dimension, int decimals, figure *of,
                       derivation *derived)
{
    enum tc_unit_system units = wall_study->study->units;
    tc_sheet_row(sheet, kind, label, tc_phrase_unit(dimension, units));
    for (int i = 0; i < wall_study->layout_count; i++) {
        tc_sheet_number(sheet, (size_t)i, tc_phrase_value(of(&wall_study->layouts[i]), dimension, units),
                        decimals);
        struct tc_derive *derive = derive_of(sheet, wall_study, i);
        tc_term_put(sheet, (size_t)i, tc_derive_shown(derive, derived(derive), dimension));
    }
}

static void add_counts(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "Tanks", "");
    for (int model = 0; model < wall_study->study->alternative_count; model++) {
        bool any = false;
        for (int i = 0; i < wall_study->layout_count; i++)
            any = any || wall_study->layouts[i].mix.count[model] > 0;
        if (!any)
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, wall_study->alternatives[model].c.tank.goods.name, "");
        for (int i = 0; i < wall_study->layout_count; i++) {
            tc_sheet_number(sheet, (size_t)i, wall_study->layouts[i].mix.count[model], 0);
            tc_term_put(sheet, (size_t)i, tc_derive_wall_tanks(derive_of(sheet, wall_study, i), model));
        }
    }
    add_figure(sheet, wall_study, TC_ROW_SUBTOTAL, "all", TC_DIM_PLAIN, 0, tanks, all_tanks);
    tc_sheet_mark_highest(sheet);
    add_figure(sheet, wall_study, TC_ROW_LINE, "tiers of the highest bay", TC_DIM_PLAIN, 0, tiers,
               tc_derive_wall_tiers);
    add_figure(sheet, wall_study, TC_ROW_LINE, "bottom", TC_DIM_AREA, 0, bottom, derived_bottom);
    tc_sheet_mark_highest(sheet);
    add_figure(sheet, wall_study, TC_ROW_LINE, "actual water", TC_DIM_VOLUME, 0, water, derived_water);
    tc_sheet_mark_highest(sheet);
}

typedef tc_money amount(const struct tc_cost *cost);

static const struct tc_term *derived_rack(struct tc_derive *derive)
{
    return tc_derive_buy(derive, TC_BUY_SLOTS + TC_SLOT_STAND);
}

static tc_money to_buy(const struct tc_cost *cost)
{
    return cost->to_buy;
}
static tc_money rack(const struct tc_cost *cost)
{
    return cost->buy[TC_BUY_SLOTS + TC_SLOT_STAND];
}
static tc_money each_year(const struct tc_cost *cost)
{
    return cost->each_year;
}
static tc_money as_paid(const struct tc_cost *cost)
{
    return cost->as_paid;
}
static tc_money present(const struct tc_cost *cost)
{
    return cost->present_value;
}

static void add_money(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, enum tc_row_kind kind,
                      const char *label, amount *of, derivation *derived)
{
    tc_sheet_row(sheet, kind, label, "");
    for (int i = 0; i < wall_study->layout_count; i++) {
        tc_sheet_money(sheet, (size_t)i, of(&wall_study->layouts[i].cost),
                       wall_study->study->region.currency);
        tc_term_put(sheet, (size_t)i, derived(derive_of(sheet, wall_study, i)));
        if (wall_study->layouts[i].cost.incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
}

/* How the present value for each tank or unit of water came about. */
static void put_rate(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int i, bool tanks,
                     bool any, tc_money each)
{
    struct tc_derive *derive = derive_of(sheet, wall_study, i);
    if (!derive)
        return;
    struct tc_term *term = tc_term_money(sheet, "Z", "present value for each", any ? "round(P / x)" : "0",
                                         each, wall_study->study->region.currency);
    const struct tc_term *things =
        tanks ? tc_derive_wall_tanks(derive, -1)
              : tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_VOLUME), TC_DIM_VOLUME);
    if (any && things) {
        tc_term_add(sheet, term, tc_derive_present_value(derive));
        tc_term_add(sheet, term, tc_term_called(sheet, things, "x", things->words));
    }
    tc_term_put(sheet, (size_t)i, term);
}

/* The present value of the room for each tank and unit of water. */
static enum tc_status add_rates(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    enum tc_status status = TC_OK;
    enum tc_unit_system units = wall_study->study->units;
    for (int rate = 0; rate < 2; rate++) {
        tc_sheet_row(sheet, TC_ROW_TOTAL,
                     rate == 0        ? "present value of a tank"
                     : units == TC_US ? "present value of a gallon of actual water"
                                      : "present value of a liter of actual water",
                     "");
        tc_sheet_about(sheet, rate == 0 ? "each tank" : "each water");
        for (int i = 0; i < wall_study->layout_count; i++) {
            const struct tc_layout *layout = &wall_study->layouts[i];
            double things =
                rate == 0 ? layout->mix.tanks : tc_phrase_value(layout->mix.volume, TC_DIM_VOLUME, units);
            double each = things > 0 ? (double)layout->cost.present_value / things : 0;
            tc_money rounded = tc_money_round(each, &status);
            tc_sheet_money(sheet, (size_t)i, rounded, wall_study->study->region.currency);
            put_rate(sheet, wall_study, i, rate == 0, things > 0, rounded);
        }
        tc_sheet_mark_lowest(sheet);
    }
    return status;
}

static enum tc_status add_sums(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "What the room costs, with parts, rack and what it shares", "");
    add_money(sheet, wall_study, TC_ROW_LINE, "including the rack, before tax", rack, derived_rack);
    add_money(sheet, wall_study, TC_ROW_TOTAL, "to buy", to_buy, tc_derive_to_buy);
    tc_sheet_mark_lowest(sheet);
    add_money(sheet, wall_study, TC_ROW_TOTAL, "each year", each_year, tc_derive_each_year);
    tc_sheet_mark_lowest(sheet);
    add_money(sheet, wall_study, TC_ROW_TOTAL, "over the period, as paid", as_paid, tc_derive_as_paid);
    tc_sheet_mark_lowest(sheet);
    add_money(sheet, wall_study, TC_ROW_TOTAL, "over the period, present value", present,
              tc_derive_present_value);
    tc_sheet_mark_lowest(sheet);
    return add_rates(sheet, wall_study);
}

/* Whether a circuit has more on it than it may carry. */
static bool overloads(const struct tc_layout *layout)
{
    const struct tc_wall *wall = &layout->wall;
    for (int c = 0; wall->power_limit > 0 && c <= wall->more_circuits; c++)
        if (layout->power_on[c] > (c == 0 ? wall->power_limit : wall->more_power[c - 1]) * (1 + 1e-9))
            return true;
    return false;
}

static void add_loads(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "What it weighs and draws", "");
    add_figure(sheet, wall_study, TC_ROW_LINE, "wall used", TC_DIM_LENGTH,
               tc_phrase_decimals(TC_DIM_LENGTH, wall_study->study->units), length, tc_derive_wall_length);
    add_figure(sheet, wall_study, TC_ROW_LINE, "filled tanks", TC_DIM_MASS, 0, mass, derived_mass);
    add_figure(sheet, wall_study, TC_ROW_LINE, "heaviest bay", TC_DIM_MASS, 0, heaviest_bay,
               tc_derive_wall_heaviest);
    tc_sheet_about(sheet, "rack");
    add_figure(sheet, wall_study, TC_ROW_LINE, "greatest load on a footprint", TC_DIM_PRESSURE, 0, pressure,
               tc_derive_wall_pressure);
    /* The user's own limit, or else what dwellings are commonly made for. */
    double floor_limit =
        wall_study->wall.floor_limit > 0 ? wall_study->wall.floor_limit : tc_caution_floor_mark();
    for (int i = 0; i < wall_study->layout_count; i++)
        if (wall_study->layouts[i].mix.pressure > floor_limit * (1 + 1e-9))
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
    add_figure(sheet, wall_study, TC_ROW_LINE, "power with everything on", TC_DIM_POWER, 0, power,
               tc_derive_wall_power);
    tc_sheet_about(sheet, "circuit");
    for (int i = 0; i < wall_study->layout_count; i++)
        if (overloads(&wall_study->layouts[i]))
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
    tc_sheet_row(sheet, TC_ROW_LINE, "electricity in all, a year", "kWh");
    for (int i = 0; i < wall_study->layout_count; i++) {
        tc_sheet_number(sheet, (size_t)i, tc_wall_study_energy(&wall_study->layouts[i]), 0);
        tc_term_put_worked_out(sheet, (size_t)i, "electricity in all, a year",
                               "the sum of the energy of all that draws power: tankcost-model(7), THE WALL");
    }
    tc_sheet_row(sheet, TC_ROW_GROUP, "What the room gets", "");
    add_figure(sheet, wall_study, TC_ROW_LINE, "heat, mean of the year", TC_DIM_POWER, 0, heat,
               tc_derive_wall_heat);
    add_figure(sheet, wall_study, TC_ROW_LINE, "water into its air, a day", TC_DIM_VOLUME, 2, evaporated,
               tc_derive_wall_vapour);
    tc_sheet_about(sheet, "evaporation");
}

/* ------------------------------------------------------------------- what is shared */

static void explain_shared(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_wall_study_sharing *share = &layout->share;
    char power_words[TC_NUMBER_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "What the room of the best mix shares", "");
    if (share->air)
        tc_sheet_sentence(
            sheet, "air",
            tc_sheet_format(
                sheet,
                share->air_weak ? "%d × %s, %s W, which is too weak for all sponge filters"
                                : "%d × %s, %s W, for all sponge filters",
                share->air_count, share->air->part->goods.name,
                tc_number_write_short(power_words, share->air_count * tc_part_power(share->air->part))));
    else if (share->air_flow > 0)
        tc_sheet_sentence(sheet, "air", "no pump on offer gives enough air; the sums leave it out");
    for (int i = 0; i < layout->mix.models; i++)
        if (share->light[i])
            tc_sheet_sentence(
                sheet, "light",
                tc_sheet_format(sheet, "%d × %s over the tiers of %s, in place of %d on the tanks",
                                share->light_count[i], share->light[i]->part->goods.name,
                                wall_study->alternatives[i].c.tank.goods.name, share->lights_saved[i]));
    int timers = tc_wall_study_timers(wall_study, layout);
    if (timers == 1)
        tc_sheet_sentence(sheet, "timer", "one, for all lights");
    else if (timers > 1)
        tc_sheet_sentence(sheet, "timers", tc_sheet_format(sheet, "%d, one for each time of light", timers));
    tc_sheet_sentence(sheet, "rack", tc_sheet_format(sheet, "%d bays, in place of stands", layout->mix.bays));
}

/* Whether a number of tanks is wanted that was proven not to fit. */
static bool layout_is_short(const struct tc_wall_study *wall_study)
{
    bool wanted = wall_study->goal.wanted > 0;
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        wanted = (wanted || wall_study->models[i].least > 0);
    return wanted && wall_study->layouts[0].found == TC_NO_RESULT;
}

static enum tc_status fill(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                           struct tc_search_budget *search)
{
    for (int i = 0; i < wall_study->layout_count; i++)
        tc_sheet_column(sheet, (size_t)i, wall_study->layouts[i].name, "");
    if (wall_study->layouts[0].found != TC_OK || wall_study->layouts[0].mix.tanks == 0) {
        tc_wall_note_none(sheet, wall_study);
        return layout_is_short(wall_study) && !sheet->first ? tc_wall_add_shortages(sheet, wall_study, search)
                                                            : TC_OK;
    }
    add_counts(sheet, wall_study);
    enum tc_status status = add_sums(sheet, wall_study);
    add_loads(sheet, wall_study);
    tc_wall_add_heat(sheet, wall_study);
    tc_wall_add_bays(sheet, wall_study);
    explain_shared(sheet, wall_study);
    if (status == TC_OK)
        status = tc_wall_add_limits(sheet, wall_study, search);
    tc_wall_add_drawing(sheet, wall_study);
    tc_wall_note_answer(sheet, wall_study);
    if (status == TC_OK && !sheet->first)
        status = tc_wall_note_ties(sheet, wall_study, search);
    return status;
}

enum tc_status tc_make_wall(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    static const char *const titles[] = {
        [TC_WALL_MOST_TANKS] = "The most tanks this wall holds",
        [TC_WALL_MOST_AREA] = "The most bottom area this wall holds",
        [TC_WALL_MOST_WATER] = "The most water this wall holds",
        [TC_WALL_WATER_PER_MONEY] = "The most water for the money on this wall",
        [TC_WALL_LEAST_COST] = "The cheapest way to the tanks that are wanted",
    };
    struct tc_wall_study wall_study;
    struct tc_search_budget search;
    tc_search_budget_start(&search, ask);
    search.to = SEARCH_OF_MIXES;
    enum tc_status status = tc_wall_study_make(&wall_study, study, ask, &search);
    tc_sheet_start(sheet, "wall", wall_study.layout_count > 0 ? (size_t)wall_study.layout_count : 1);
    sheet->explained = ask->explain;
    sheet->first = ask->glance;
    tc_phrase_head(sheet, study,
                   study->plan.wall.fixed ? "These tanks on this wall" : titles[study->plan.wall.objective],
                   study->region.currency.code);
    search.from = SEARCH_OF_MIXES;
    search.to = 1;
    if (status == TC_OK)
        status = fill(sheet, &wall_study, &search);
    tc_cautions(sheet,
                TC_CAUTION_ELECTRICITY | TC_CAUTION_GLASS | TC_CAUTION_STAND | TC_CAUTION_FLOOR |
                    TC_CAUTION_RACK | TC_CAUTION_CIRCUIT | TC_CAUTION_DAMP,
                study->units);
    tc_wall_study_free(&wall_study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
