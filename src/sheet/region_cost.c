/* SPDX-License-Identifier: MIT */
#include "sheet/region_cost.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/plan_region.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/derive_place.h"
#include "sheet/need.h"
#include "sheet/study_make.h"

/* A further load of so much a month is charged at the margin: kWh, m3. */
#define FURTHER_ENERGY 20.0
#define FURTHER_WATER  1.0

const char *tc_region_cost_line_name(int line)
{
    static const char *const life[TC_LIFE_COUNT] = {
        [TC_LIFE_PURCHASE] = "purchase",         [TC_LIFE_ENERGY] = "energy",    [TC_LIFE_WATER] = "water",
        [TC_LIFE_SUPPLIES] = "supplies",         [TC_LIFE_UPKEEP] = "your time", [TC_LIFE_EXTRAS] = "extras",
        [TC_LIFE_REPLACEMENTS] = "replacements", [TC_LIFE_RESALE] = "resale",
    };
    if (line >= TC_BUY_COUNT)
        return life[line - TC_BUY_COUNT + TC_LIFE_ENERGY];
    switch (line) {
    case TC_BUY_TANK: return "tank";
    case TC_BUY_FEE: return "special order fee";
    case TC_BUY_DELIVERY: return "delivery";
    case TC_BUY_TAX: return "sales tax";
    case TC_BUY_EXTRAS: return "extras";
    default: return tc_slot_word((enum tc_slot)(line - TC_BUY_SLOTS));
    }
}

bool tc_region_cost_complete(const struct tc_region_line_cost *cost)
{
    return cost->there && cost->unpriced == 0 && cost->unfilled == 0;
}

bool tc_region_cost_years_known(const struct tc_region_line_cost *cost)
{
    return cost->there && (cost->unpriced & ~TC_LACKS_TANK) == 0 && cost->unfilled == 0;
}

/* --------------------------------------------------------------------------- costs */

/* Whether some part would fill the slot if the region had a price for it. */
static bool price_would_do(const struct tc_alternative *alternative, enum tc_slot slot)
{
    for (int i = 0; i < alternative->c.offer_count; i++) {
        const struct tc_offer *offer = &alternative->c.offers[i];
        if (offer->part->slot == slot &&
            tc_equipment_judge(&alternative->c, &alternative->equipment, offer).reason.code == TC_NO_PRICE)
            return true;
    }
    return false;
}

static void find_gaps(const struct tc_alternative *alternative, struct tc_region_line_cost *cost)
{
    if (!alternative->prices.deal.known)
        cost->unpriced |= TC_LACKS_TANK;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        bool no_price =
            tc_cost_slot_lacks_price(&alternative->c, &alternative->equipment, &alternative->prices, slot);
        if (no_price || (filled->missing && price_would_do(alternative, slot)))
            cost->unpriced |= TC_LACKS_SLOT(slot);
        else if (filled->missing)
            cost->unfilled |= TC_LACKS_SLOT(slot);
    }
}

static void take_cost(const struct tc_alternative *alternative, struct tc_region_line_cost *cost)
{
    const struct tc_lack *lack = tc_need_first(&alternative->suit);
    cost->there = true;
    cost->suits = alternative->suit.suits;
    cost->lacks = lack ? lack->need : TC_NEED_COUNT;
    snprintf(cost->head, sizeof cost->head, "%s", alternative->head);
    snprintf(cost->how, sizeof cost->how, "%s", alternative->how);
    cost->to_buy = alternative->cost.to_buy;
    cost->each_year = alternative->cost.each_year;
    cost->present_value = alternative->cost.present_value;
    for (int i = 0; i < TC_BUY_COUNT; i++)
        cost->line[i] = alternative->cost.buy[i];
    for (int i = TC_LIFE_ENERGY; i < TC_LIFE_COUNT; i++)
        cost->line[TC_BUY_COUNT + i - TC_LIFE_ENERGY] = alternative->cost.present[i];
    find_gaps(alternative, cost);
}

/* What a further unit costs, major units, when so many come on top each month. */
static double further(const struct tc_tariff_margin *margin, double units, struct tc_currency currency)
{
    double months[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++)
        months[month] = units;
    return tc_tariff_added_even(margin, months) / (TC_MONTHS * units) / tc_currency_scale(currency);
}

/* How it all came about, before the study goes away. */
static void take_terms(struct tc_region_cost *local, const struct tc_study *study, struct tc_sheet *sheet)
{
    struct tc_derive *derive = NULL;
    for (int i = 0; i < study->alternative_count; i++) {
        int index = study->alternatives[i].index;
        derive = tc_derive_of(sheet, study, &study->alternatives[i]);
        local->terms.to_buy[index] = tc_derive_to_buy(derive);
        local->terms.each_year[index] = tc_derive_each_year(derive);
        local->terms.present_value[index] = tc_derive_present_value(derive);
    }
    local->terms.electricity = tc_derive_further(derive, true, FURTHER_ENERGY, local->electricity);
    local->terms.water = tc_derive_further(derive, false, FURTHER_WATER, local->water);
    local->terms.room = tc_derive_room_mean(derive, local->room);
    tc_derive_forget(sheet);
}

static void take_study(struct tc_region_cost *local, const struct tc_study *study, struct tc_sheet *sheet)
{
    const struct tc_region *region = &study->region;
    local->is_template = region->is_template;
    local->currency = region->currency;
    local->sales_tax = region->sales_tax;
    local->tax_included = region->tax_included;
    for (int month = 0; month < TC_MONTHS; month++)
        local->room += tc_climate_room(&region->climate, month) / TC_MONTHS;
    local->electricity = further(&study->electricity, FURTHER_ENERGY, region->currency);
    local->water = further(&study->water, FURTHER_WATER, region->currency);
    for (int i = 0; i < study->alternative_count; i++)
        take_cost(&study->alternatives[i], &local->cost[study->alternatives[i].index]);
    if (sheet && sheet->explained)
        take_terms(local, study, sheet);
}

static void find_best(struct tc_region_cost *local)
{
    local->best = -1;
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        const struct tc_region_line_cost *cost = &local->cost[i];
        if (tc_region_cost_complete(cost) && cost->suits &&
            (local->best < 0 || cost->present_value < local->cost[local->best].present_value))
            local->best = i;
    }
}

/* The errors of a study, or what its status says; false if out of memory. */
static bool tell(struct tc_region_cost *local, const struct tc_faults *faults, enum tc_status status)
{
    struct tc_text text = TC_TEXT_EMPTY;
    for (size_t i = 0; i < tc_faults_count(faults); i++)
        if (tc_faults_at(faults, i)->severity == TC_ERROR)
            tc_text_addf(&text, "%s%s", text.length > 0 ? "; " : "", tc_faults_at(faults, i)->text);
    if (text.length == 0 && status != TC_OK)
        tc_text_add(&text, tc_status_text(status));
    snprintf(local->trouble, sizeof local->trouble, "%s", tc_text_string(&text));
    bool good = !text.failed && !faults->lost;
    tc_text_free(&text);
    return good;
}

struct tc_quote *tc_region_quotes(const struct tc_stock *stock)
{
    struct tc_quote *quotes = calloc(stock->region_count + 1, sizeof *quotes);
    for (size_t i = 0; quotes && i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        quotes[i] = (struct tc_quote){region->currency, region->exchange.currency, region->exchange.amount,
                                      region->exchange_date};
    }
    return quotes;
}

/* What an hour is worth in the money of another region, to its minor unit; nothing where no rate leads there.
 */
static enum tc_status take_hour_worth(const struct tc_study *study, const struct tc_region *region,
                                      struct tc_plan *plan, struct tc_conversion *conversion)
{
    enum tc_status status = TC_OK;
    struct tc_quote *quotes = tc_region_quotes(study->stock);
    if (!quotes)
        return TC_NO_MEMORY;
    bool leads = tc_conversion_find(conversion, quotes, (int)study->stock->region_count,
                                    study->region.currency, region->currency) == TC_OK;
    free(quotes);
    tc_money worth = tc_currency_money(study->region.currency, study->plan.hour_worth, &status);
    worth = leads ? tc_conversion_money(conversion, worth, &status) : 0;
    plan->hour_worth = status == TC_OK ? (double)worth / tc_currency_scale(region->currency) : 0;
    return TC_OK;
}

enum tc_status tc_region_cost_make(struct tc_region_cost *local, const struct tc_study *study,
                                   const struct tc_region *region, struct tc_sheet *sheet)
{
    memset(local, 0, sizeof *local);
    memcpy(local->name, region->name, sizeof local->name);
    local->currency = region->currency;
    local->own = strcmp(region->name, study->plan.region) == 0;
    enum tc_status status = TC_OK;
    if (local->own) {
        take_study(local, study, sheet);
    } else {
        struct tc_plan plan;
        struct tc_study other;
        struct tc_conversion taken = {.steps = 0};
        struct tc_faults faults = TC_FAULTS_EMPTY;
        plan = study->plan;
        tc_plan_region(&plan, study->stock, region->name);
        status = take_hour_worth(study, region, &plan, &taken);
        if (status != TC_OK)
            return status;
        status = tc_study_make(&other, study->stock, &plan, study->today, &faults);
        other.hour_from = taken.steps > 0 ? study : NULL;
        other.hour_taken = taken;
        if (!tell(local, &faults, status))
            status = TC_NO_MEMORY;
        if (other.alternative_count > 0)
            take_study(local, &other, sheet);
        tc_study_free(&other);
        tc_faults_free(&faults);
    }
    find_best(local);
    return status == TC_NO_MEMORY ? status : TC_OK;
}
