/* SPDX-License-Identifier: MIT */
#include "sheet/bill.h"

#include <math.h>
#include <stdio.h>

#include "core/cost/cost.h"
#include "sheet/caution.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_doubt.h"
#include "sheet/derive_life.h"
#include "sheet/derive_tank.h"
#include "sheet/wall_study.h"
#include "sheet/note.h"
#include "sheet/phrase.h"
#include "sheet/setup_step.h"
#include "sheet/upkeep.h"
#include "sheet/verdict.h"

/* One printed line: its label and where its amounts lie in tc_cost. */
struct line {
    const char *label;
    int index;
};

static const struct line buy_lines[] = {
    {"tank", TC_BUY_TANK},
    {"stand", TC_BUY_SLOTS + TC_SLOT_STAND},
    {"lid", TC_BUY_SLOTS + TC_SLOT_LID},
    {"light", TC_BUY_SLOTS + TC_SLOT_LIGHT},
    {"filter", TC_BUY_SLOTS + TC_SLOT_FILTER},
    {"air pump", TC_BUY_SLOTS + TC_SLOT_AIR_PUMP},
    {"heater", TC_BUY_SLOTS + TC_SLOT_HEATER},
    {"substrate", TC_BUY_SLOTS + TC_SLOT_SUBSTRATE},
    {"special order fee", TC_BUY_FEE},
    {"delivery", TC_BUY_DELIVERY},
    {"sales tax", TC_BUY_TAX},
};

static const struct line run_lines[] = {
    {"electricity: heater", TC_RUN_ENERGY + TC_CONSUMER_HEATER},
    {"electricity: light", TC_RUN_ENERGY + TC_CONSUMER_LIGHT},
    {"electricity: filters", TC_RUN_ENERGY + TC_CONSUMER_FILTER},
    {"electricity: air pump", TC_RUN_ENERGY + TC_CONSUMER_AIR_PUMP},
    {"electricity: warming new water", TC_RUN_ENERGY + TC_CONSUMER_NEW_WATER},
    {"warm tap water", TC_RUN_WARM_WATER},
    {"heating and cooling of the room", TC_RUN_ROOM_HEAT},
    {"water: changes", TC_RUN_CHANGES},
    {"water: lost to the air", TC_RUN_MAKE_UP},
    {"water conditioner", TC_RUN_CONDITIONER},
    {"supplies", TC_RUN_SUPPLIES},
    {"your time", TC_RUN_UPKEEP},
};

static const struct line life_lines[] = {
    {"bought at the start", TC_LIFE_PURCHASE},
    {"energy", TC_LIFE_ENERGY},
    {"water", TC_LIFE_WATER},
    {"supplies", TC_LIFE_SUPPLIES},
    {"your time", TC_LIFE_UPKEEP},
    {"extras", TC_LIFE_EXTRAS},
    {"replacements", TC_LIFE_REPLACEMENTS},
    {"less resale", TC_LIFE_RESALE},
};

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

enum part_of_bill { BUY, RUN, PAID, PRESENT };

static tc_money amount(const struct tc_cost *cost, enum part_of_bill part, int index)
{
    switch (part) {
    case BUY: return cost->buy[index];
    case RUN: return cost->run[index];
    case PAID: return cost->paid[index];
    case PRESENT: return cost->present[index];
    }
    return 0;
}

/* How it came about. */
static const struct tc_term *derived(struct tc_derive *derive, enum part_of_bill part, int index)
{
    switch (part) {
    case BUY: return tc_derive_buy(derive, index);
    case RUN: return tc_derive_run(derive, index);
    case PAID: return tc_derive_paid(derive, index);
    case PRESENT: return tc_derive_present(derive, index);
    }
    return NULL;
}

static const struct tc_term *derived_sum(struct tc_derive *derive, enum part_of_bill part)
{
    switch (part) {
    case BUY: return tc_derive_to_buy(derive);
    case RUN: return tc_derive_each_year(derive);
    case PAID: return tc_derive_as_paid(derive);
    case PRESENT: return tc_derive_present_value(derive);
    }
    return NULL;
}

static tc_money sum(const struct tc_cost *cost, enum part_of_bill part)
{
    switch (part) {
    case BUY: return cost->to_buy;
    case RUN: return cost->each_year;
    case PAID: return cost->as_paid;
    case PRESENT: return cost->present_value;
    }
    return 0;
}

/* The slot of a line of the purchase, or -1. */
static int slot_of(enum part_of_bill part, int index)
{
    if (part != BUY || index < TC_BUY_SLOTS || index >= TC_BUY_SLOTS + TC_SLOT_COUNT)
        return -1;
    return index - TC_BUY_SLOTS;
}

/* What to say where the amount of a line is not known; NULL where it is. */
static const char *what_is_missing(const struct tc_alternative *alternative, enum part_of_bill part,
                                   int index)
{
    if (part == BUY && index == TC_BUY_TANK)
        return alternative->prices.deal.known ? NULL : "no price";
    int slot = slot_of(part, index);
    if (slot < 0)
        return NULL;
    if (alternative->equipment.slot[slot].missing)
        return tc_phrase_unfilled(alternative, (enum tc_slot)slot);
    return tc_phrase_unpriced(alternative, (enum tc_slot)slot) ? "no price" : NULL;
}

/* The slot whose part a line of a year or of the period is about, or -1. */
static int slot_behind(enum part_of_bill part, int index)
{
    static const int consumers[][2] = {{TC_CONSUMER_HEATER, TC_SLOT_HEATER},
                                       {TC_CONSUMER_LIGHT, TC_SLOT_LIGHT},
                                       {TC_CONSUMER_FILTER, TC_SLOT_FILTER},
                                       {TC_CONSUMER_AIR_PUMP, TC_SLOT_AIR_PUMP}};
    for (size_t i = 0; part == RUN && i < COUNT(consumers); i++)
        if (index == TC_RUN_ENERGY + consumers[i][0])
            return consumers[i][1];
    return -1;
}

/* What to say in place of a 0 that stands there only because something is missing; NULL where it is a figure.
 */
static const char *what_hides(const struct tc_alternative *alternative, enum part_of_bill part, int index)
{
    const struct tc_cost *cost = &alternative->cost;
    int slot = slot_behind(part, index);
    bool bought = part == BUY || ((part == PAID || part == PRESENT) && index == TC_LIFE_PURCHASE);
    bool later =
        (part == PAID || part == PRESENT) && (index == TC_LIFE_REPLACEMENTS || index == TC_LIFE_RESALE);
    if (!cost->incomplete || amount(cost, part, index) != 0)
        return NULL;
    if (slot >= 0 && alternative->equipment.slot[slot].missing)
        return tc_phrase_unfilled(alternative, (enum tc_slot)slot);
    return later || (bought && cost->to_buy == 0) ? "no price" : NULL;
}

static bool worth_a_line(const struct tc_study *study, enum part_of_bill part, int index)
{
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        if (amount(&alternative->cost, part, index) != 0 || what_is_missing(alternative, part, index))
            return true;
    }
    return false;
}

/* Marks, and what typing does, in the cell of one line. */
static void decorate(struct tc_sheet *sheet, size_t column, const struct tc_alternative *alternative,
                     enum part_of_bill part, int index)
{
    int slot = slot_of(part, index);
    char path[64];
    if (alternative->index < 0)
        return; /* a wall, not a candidate of the plan */
    if (part == BUY && index == TC_BUY_TANK) {
        snprintf(path, sizeof path, "candidate %d/price", alternative->index + 1);
        tc_sheet_edit(sheet, column, path);
        if (alternative->prices.deal.kind == TC_DEAL_TYPED)
            tc_sheet_mark(sheet, column, TC_MARK_TYPED);
    } else if (slot >= 0 && alternative->equipment.slot[slot].missing) {
        snprintf(path, sizeof path, "candidate %d/%s", alternative->index + 1,
                 tc_slot_name((enum tc_slot)slot));
        tc_sheet_edit(sheet, column, path);
    } else if (slot >= 0 && alternative->equipment.slot[slot].offer) {
        snprintf(path, sizeof path, "candidate %d/%s-price", alternative->index + 1,
                 tc_slot_name((enum tc_slot)slot));
        tc_sheet_edit(sheet, column, path);
        if (alternative->c.wish[slot].price >= 0) /* false for NAN */
            tc_sheet_mark(sheet, column, TC_MARK_TYPED);
        if (alternative->equipment.slot[slot].pinned)
            tc_sheet_mark(sheet, column, TC_MARK_PINNED);
    }
}

static void add_line(struct tc_sheet *sheet, const struct tc_study *study, enum part_of_bill part,
                     const struct line *line)
{
    tc_sheet_row(sheet, TC_ROW_LINE, line->label, "");
    if (slot_of(part, line->index) >= 0)
        tc_sheet_about(sheet, tc_slot_name((enum tc_slot)slot_of(part, line->index)));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        size_t column = (size_t)i;
        const char *missing = what_is_missing(alternative, part, line->index);
        if (!missing && slot_of(part, line->index) < 0)
            missing = what_hides(alternative, part, line->index);
        if (missing)
            tc_sheet_missing(sheet, column, missing);
        else
            tc_sheet_money(sheet, column, amount(&alternative->cost, part, line->index),
                           study->region.currency);
        tc_term_put(sheet, column, derived(tc_derive_of(sheet, study, alternative), part, line->index));
        decorate(sheet, column, alternative, part, line->index);
    }
}

static void add_sum(struct tc_sheet *sheet, const struct tc_study *study, enum part_of_bill part,
                    enum tc_row_kind kind, const char *label)
{
    tc_sheet_row(sheet, kind, label, "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &study->alternatives[i].cost;
        if (cost->incomplete && sum(cost, part) == 0) {
            tc_sheet_missing(sheet, (size_t)i, "no price");
            continue;
        }
        tc_sheet_money(sheet, (size_t)i, sum(cost, part), study->region.currency);
        tc_term_put(sheet, (size_t)i, derived_sum(tc_derive_of(sheet, study, &study->alternatives[i]), part));
        if (cost->incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
    tc_sheet_mark_lowest(sheet);
}

/* The extras of the purchase or of a year, a line each. */
static void add_extras(struct tc_sheet *sheet, const struct tc_study *study, bool once)
{
    for (int k = 0; k < study->extra_count; k++) {
        const struct tc_extra *extra = study->extras[k];
        if (extra->once != once || !tc_price_in(&extra->amount, study->region.currency))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, extra->title, "");
        for (int i = 0; i < study->alternative_count; i++) {
            const struct tc_alternative *alternative = &study->alternatives[i];
            tc_sheet_money(sheet, (size_t)i, alternative->cost.extra[k], study->region.currency);
            tc_term_put(sheet, (size_t)i, tc_derive_extra(tc_derive_of(sheet, study, alternative), k));
        }
    }
}

static void add_group(struct tc_sheet *sheet, const struct tc_study *study, enum part_of_bill part,
                      const char *heading, const struct line *lines, size_t count, const char *total)
{
    static const char *const subjects[] = {
        [BUY] = "buy", [RUN] = "year", [PAID] = "paid", [PRESENT] = "present"};
    tc_sheet_row(sheet, TC_ROW_GROUP, heading, "");
    tc_sheet_about(sheet, subjects[part]);
    for (size_t i = 0; i < count; i++)
        if (worth_a_line(study, part, lines[i].index))
            add_line(sheet, study, part, &lines[i]);
    if (part == BUY || part == RUN)
        add_extras(sheet, study, part == BUY);
    add_sum(sheet, study, part, TC_ROW_SUBTOTAL, total);
}

/* How much more one costs to own than another. */
static const struct tc_term *derive_more(struct tc_sheet *sheet, const struct tc_study *study, int i,
                                         int than, tc_money more)
{
    struct tc_derive *mine = tc_derive_of(sheet, study, &study->alternatives[i]);
    struct tc_derive *other = tc_derive_of(sheet, study, &study->alternatives[than]);
    if (!mine || !other)
        return NULL;
    struct tc_term *term =
        tc_term_money(sheet, "M", "more than the cheapest", "P - P0", more, study->region.currency);
    const char *words = tc_sheet_format(sheet, "%s to own", study->alternatives[than].head);
    tc_term_add(sheet, term, tc_derive_present_value(mine));
    tc_term_add(sheet, term, tc_term_called(sheet, tc_derive_present_value(other), "P0", words));
    return term;
}

/* What is looked for first: the three totals, and how far each is from the cheapest to own. */
static enum tc_status add_key_totals(struct tc_sheet *sheet, const struct tc_study *study)
{
    enum tc_status status = TC_OK;
    char years[TC_WORDS_SIZE];
    int cheapest = tc_study_cheapest(study);
    tc_sheet_row(sheet, TC_ROW_GROUP, "In short", "");
    tc_sheet_about(sheet, "short");
    add_sum(sheet, study, BUY, TC_ROW_TOTAL, "to buy");
    add_sum(sheet, study, RUN, TC_ROW_TOTAL, "each year");
    add_sum(sheet, study, PRESENT, TC_ROW_TOTAL,
            tc_sheet_format(sheet, "to own over %s", tc_phrase_years(years, study->plan.years)));
    tc_sheet_about(sheet, "to own");
    if (cheapest < 0 || study->alternative_count < 2)
        return status;
    bool all = true;
    for (int i = 0; i < study->alternative_count; i++)
        all = all && study->alternatives[i].suit.suits;
    tc_sheet_row(sheet, TC_ROW_TOTAL, all ? "more than the cheapest" : "more than the cheapest that suits",
                 "");
    tc_sheet_about(sheet, "more than the cheapest");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &study->alternatives[i].cost;
        if (cost->incomplete)
            continue;
        tc_money more =
            tc_money_subtract(cost->present_value, study->alternatives[cheapest].cost.present_value, &status);
        tc_sheet_money(sheet, (size_t)i, more, study->region.currency);
        tc_term_put(sheet, (size_t)i, derive_more(sheet, study, i, cheapest, more));
    }
    return status;
}

/* How far the ranges in the figures carry the present value; nothing where there are none. */
static void add_band(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    bool any = false;
    for (int i = 0; i < study->alternative_count; i++)
        any = any || advice->bands.band[i].known;
    static const char *const labels[] = {"  likely range: from", "  to (8 in 10)"};
    for (int end = 0; any && end < 2; end++) {
        tc_sheet_row(sheet, TC_ROW_LINE, labels[end], "");
        for (int i = 0; i < study->alternative_count; i++) {
            const struct tc_band *band = &advice->bands.band[i];
            if (!band->known)
                continue;
            tc_money money = end == 0 ? band->low : band->high;
            tc_sheet_money(sheet, (size_t)i, money, study->region.currency);
            tc_term_put(sheet, (size_t)i,
                        tc_derive_band(tc_derive_of(sheet, study, &study->alternatives[i]), money, end == 1));
        }
    }
}

/*
 * What each costs to own is made of: the lines of the last group of the sheet, from a row on, as bars, with
 * the likely range of their sum.
 */
static void add_chart(struct tc_sheet *sheet, const struct tc_advice *advice, size_t first)
{
    const struct tc_study *study = advice->study;
    size_t alternatives = (size_t)study->alternative_count, parts = 0, band = 0;
    double scale = tc_currency_scale(study->region.currency);
    while (first + parts < sheet->row_count && sheet->rows[first + parts].kind == TC_ROW_LINE)
        parts++;
    for (size_t i = 0; i < alternatives; i++)
        band = advice->bands.band[i].known ? 2 : band;
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_BARS, parts + band, alternatives);
    if (!chart)
        return;
    chart->title = "What makes up the cost to own";
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    chart->band = band > 0 ? "likely range of the sum (8 in 10)" : "";
    for (size_t p = 0; p < parts; p++)
        chart->series[p].name = sheet->rows[first + p].label;
    if (band > 0) {
        chart->series[parts].name = "one in ten is below";
        chart->series[parts + 1].name = "nine in ten are below";
    }
    for (size_t i = 0; i < alternatives; i++) {
        const struct tc_band *known = &advice->bands.band[i];
        chart->x_labels[i] = tc_sheet_format(sheet, "%s%s", study->alternatives[i].head,
                                             study->alternatives[i].cost.incomplete ? ", incomplete" : "");
        for (size_t p = 0; p < parts; p++)
            chart->series[p].values[i] = (double)sheet->rows[first + p].cells[i].money / scale;
        if (band > 0) {
            chart->series[parts].values[i] = known->known ? (double)known->low / scale : NAN;
            chart->series[parts + 1].values[i] = known->known ? (double)known->high / scale : NAN;
        }
    }
}

/* The present value told another way: for each of so many things. */
struct per {
    const char *subject, *label;
    double (*things)(const struct tc_study *, const struct tc_alternative *);
    /* How they came about, under the symbol x. */
    const struct tc_term *(*derived)(struct tc_derive *);
};

static enum tc_status add_rate(struct tc_sheet *sheet, const struct tc_study *study, const struct per *per)
{
    enum tc_status status = TC_OK;
    tc_sheet_row(sheet, TC_ROW_TOTAL, per->label, "");
    tc_sheet_about(sheet, per->subject);
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
        tc_money each = tc_money_round(
            (double)alternative->cost.present_value / per->things(study, alternative), &status);
        tc_sheet_money(sheet, (size_t)i, each, study->region.currency);
        if (derive) {
            struct tc_term *term =
                tc_term_money(sheet, "Z", tc_sheet_format(sheet, "for each %s", per->label), "round(P / x)",
                              each, study->region.currency);
            tc_term_add(sheet, term, tc_derive_present_value(derive));
            tc_term_add(sheet, term, tc_term_called(sheet, per->derived(derive), "x", per->label));
            tc_term_put(sheet, (size_t)i, term);
        }
        if (alternative->cost.incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
    tc_sheet_mark_lowest(sheet);
    return status;
}

static double years(const struct tc_study *study, const struct tc_alternative *alternative)
{
    (void)alternative;
    return 1 / tc_capital_recovery(study->plan.discount, study->plan.years);
}

static double days(const struct tc_study *study, const struct tc_alternative *alternative)
{
    return 365 * years(study, alternative);
}

static double water(const struct tc_study *study, const struct tc_alternative *alternative)
{
    return alternative->plan->quantity *
           tc_phrase_value(alternative->equipment.size.water_volume, TC_DIM_VOLUME, study->units);
}

static double bottom(const struct tc_study *study, const struct tc_alternative *alternative)
{
    double unit = study->units == TC_US ? 0.3048 * 0.3048 : 1; /* ft2, m2 */
    return alternative->plan->quantity * alternative->equipment.size.bottom_area / unit;
}

static const struct tc_term *derived_days(struct tc_derive *derive)
{
    struct tc_term *term = tc_term_computed(derive->sheet, "x", "days' worth", "365 × U",
                                            days(derive->study, derive->alternative), "d");
    tc_term_add(derive->sheet, term, tc_derive_annuity(derive));
    return term;
}

static const struct tc_term *derived_water(struct tc_derive *derive)
{
    struct tc_term *term = tc_term_computed(derive->sheet, "x", "actual water of all tanks", "q × V",
                                            water(derive->study, derive->alternative),
                                            tc_phrase_unit(TC_DIM_VOLUME, derive->study->units));
    const struct tc_term *one =
        tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_VOLUME), TC_DIM_VOLUME);
    tc_term_add(derive->sheet, term, tc_derive_quantity(derive));
    tc_term_add(derive->sheet, term, tc_term_called(derive->sheet, one, "V", "actual water"));
    return term;
}

static const struct tc_term *derived_bottom(struct tc_derive *derive)
{
    bool us = derive->study->units == TC_US;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "x", "bottom of all tanks", us ? "q × a / u" : "q × a",
                         bottom(derive->study, derive->alternative), us ? "ft²" : "m²");
    tc_term_add(derive->sheet, term, tc_derive_quantity(derive));
    tc_term_add(derive->sheet, term, tc_derive_size(derive, TC_SIZE_BOTTOM));
    if (us)
        tc_term_add(
            derive->sheet, term,
            tc_derive_model(derive, "u", "one square foot", 0.3048 * 0.3048, "m²", "DESCRIPTION: units"));
    return term;
}

static enum tc_status add_rates(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool us = study->units == TC_US;
    tc_sheet_row(sheet, TC_ROW_GROUP, "In today's money, for each", "");
    tc_sheet_about(sheet, "each");
    const struct per rates[] = {
        {"year", "year", years, tc_derive_annuity},
        {"day", "day", days, derived_days},
        {"water", us ? "gallon of actual water" : "liter of actual water", water, derived_water},
        {"bottom", us ? "square foot of bottom" : "square meter of bottom", bottom, derived_bottom},
    };
    enum tc_status status = TC_OK;
    for (size_t i = 0; status == TC_OK && i < COUNT(rates); i++)
        status = add_rate(sheet, study, &rates[i]);
    return status;
}

static void add_suits(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool one = true;
    for (int i = 0; i < study->alternative_count; i++)
        one = one && tc_study_setup_shared(study, &study->alternatives[i]);
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 one ? tc_sheet_format(sheet, "For setup %s", study->setup.name) : "For its setup", "");
    tc_phrase_suits_row(sheet, study);
}

static void add_remarks(struct tc_sheet *sheet, const struct tc_study *study)
{
    char percent[TC_NUMBER_SIZE];
    tc_number_write_short(percent, 100 * study->region.sales_tax);
    if (study->region.tax_included && study->region.sales_tax > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Prices include %s %% sales tax.", percent);
    tc_note_not_counted(sheet, study);
    unsigned cautions = TC_CAUTION_ELECTRICITY | (study->walls ? TC_CAUTION_RACK : 0);
    for (int i = 0; i < study->alternative_count; i++)
        if (!study->alternatives[i].c.setup->lid)
            cautions |= TC_CAUTION_DAMP;
    tc_cautions(sheet, cautions, study->units);
}

enum tc_status tc_make_bill(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    if (ask->walls)
        return tc_wall_study_ask(tc_make_bill, study, ask, sheet);
    char title[96], years[TC_WORDS_SIZE];
    struct tc_advice advice;
    tc_sheet_start(sheet, "bill", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    enum tc_status status = tc_advice_make(&advice, study);
    if (status != TC_OK)
        return status;
    snprintf(title, sizeof title, "What each costs to buy and to own over %s",
             tc_phrase_years(years, study->plan.years));
    tc_phrase_head(sheet, study, title, study->region.currency.code);
    tc_phrase_columns(sheet, study);

    status = add_key_totals(sheet, study);
    if (status != TC_OK)
        return status;
    add_group(sheet, study, BUY, "To buy", buy_lines, COUNT(buy_lines), "to buy");
    add_group(sheet, study, RUN, "Each year", run_lines, COUNT(run_lines), "each year");
    add_group(sheet, study, PAID, "Over the period, as paid", life_lines, COUNT(life_lines), "as paid");
    size_t present = sheet->row_count + 1; /* behind the heading */
    add_group(sheet, study, PRESENT, "Over the period, in today's money", life_lines, COUNT(life_lines),
              "present value");
    add_chart(sheet, &advice, present);
    add_band(sheet, &advice);
    status = add_rates(sheet, study);
    add_suits(sheet, study);
    tc_upkeep_row(sheet, study);
    tc_verdict_tell(sheet, &advice);
    tc_setup_steps_tell(sheet, study);
    tc_note_alternatives(sheet, study);
    add_remarks(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
