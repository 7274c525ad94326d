/* SPDX-License-Identifier: MIT */
#include "sheet/places.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/derive_place.h"
#include "sheet/region_costs.h"
#include "sheet/places_notes.h"
#include "sheet/phrase.h"

/* What a cell of a candidate in a region shows. */
enum figure { TO_BUY, EACH_YEAR, PRESENT_VALUE, IN_ONE_MONEY };

/* Why a figure of the candidate is not known there, in a word; NULL where it is. */
static const char *gap_word(const struct tc_region_line_cost *cost, enum figure figure)
{
    if (!cost->there)
        return "not worked out";
    if (tc_region_cost_complete(cost) || (figure == EACH_YEAR && tc_region_cost_years_known(cost)))
        return NULL;
    return cost->unpriced ? "no price" : "nothing fits";
}

/* An amount of a place in the one money. */
static void put_converted(struct tc_sheet *sheet, const struct tc_region_costs *regions, size_t i,
                          const struct tc_term *own)
{
    if (!own || sheet->failed || sheet->row_count == 0)
        return;
    const struct tc_cell *cell = &sheet->rows[sheet->row_count - 1].cells[i];
    struct tc_term *term =
        tc_term_money(sheet, "Z", "in the one money", "round(P × r)", cell->money, regions->money);
    tc_term_add(sheet, term, tc_term_called(sheet, own, "P", "to own, in its own money"));
    tc_term_add(sheet, term, tc_derive_rate(sheet, regions->study, &regions->conversion[i]));
    tc_term_put(sheet, i, term);
}

/* How a figure of a candidate came about in a place. */
static void put_term(struct tc_sheet *sheet, const struct tc_region_costs *regions, size_t i, int candidate,
                     enum figure figure)
{
    const struct tc_region_terms *terms = &regions->local[i].terms;
    switch (figure) {
    case TO_BUY: tc_term_put(sheet, i, terms->to_buy[candidate]); break;
    case EACH_YEAR: tc_term_put(sheet, i, terms->each_year[candidate]); break;
    case PRESENT_VALUE: tc_term_put(sheet, i, terms->present_value[candidate]); break;
    case IN_ONE_MONEY:
        if (regions->conversion[i].rate > 0)
            put_converted(sheet, regions, i, terms->present_value[candidate]);
        break;
    }
}

static void add_figure(struct tc_sheet *sheet, const struct tc_region_costs *regions, size_t i, int candidate,
                       enum figure figure, enum tc_status *status)
{
    const struct tc_region_cost *local = &regions->local[i];
    const struct tc_region_line_cost *cost = &local->cost[candidate];
    const char *gap = gap_word(cost, figure);
    if (gap) {
        tc_sheet_missing(sheet, i, gap);
        return;
    }
    switch (figure) {
    case TO_BUY: tc_sheet_money(sheet, i, cost->to_buy, local->currency); break;
    case EACH_YEAR: tc_sheet_money(sheet, i, cost->each_year, local->currency); break;
    case PRESENT_VALUE: tc_sheet_money(sheet, i, cost->present_value, local->currency); break;
    case IN_ONE_MONEY:
        if (regions->conversion[i].rate > 0)
            tc_sheet_money(sheet, i,
                           tc_conversion_money(&regions->conversion[i], cost->present_value, status),
                           regions->money);
        else
            tc_sheet_missing(sheet, i, "no rate");
        break;
    }
    put_term(sheet, regions, i, candidate, figure);
}

static enum tc_status add_figures(struct tc_sheet *sheet, const struct tc_region_costs *regions,
                                  enum figure figure)
{
    enum tc_status status = TC_OK;
    for (int c = 0; c < regions->study->plan.candidate_count; c++) {
        if (!tc_region_costs_head(regions, c))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, tc_region_costs_head(regions, c), "");
        tc_sheet_about(sheet, tc_phrase_subject(sheet, c, -1));
        for (size_t i = 0; i < regions->count; i++)
            add_figure(sheet, regions, i, c, figure, &status);
        if (figure == IN_ONE_MONEY)
            tc_sheet_mark_lowest(sheet);
    }
    return status;
}

/* "40-breeder", or of equal ones "40-breeder and 180-l" */
static void winner_words(char *words, const struct tc_region_cost *local)
{
    words[0] = '\0';
    for (int c = 0; c < TC_CANDIDATES_MAX; c++) {
        const struct tc_region_line_cost *cost = &local->cost[c];
        size_t length = strlen(words);
        if (tc_region_cost_complete(cost) && cost->present_value == local->cost[local->best].present_value)
            snprintf(words + length, TC_WORDS_SIZE - length, "%s%s", length > 0 ? " and " : "", cost->head);
    }
}

static void add_winners(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    char words[TC_WORDS_SIZE];
    tc_sheet_row(sheet, TC_ROW_TOTAL, "cheapest to own", "");
    for (size_t i = 0; i < regions->count; i++) {
        if (regions->local[i].best < 0) {
            tc_sheet_missing(sheet, i, "not known");
            continue;
        }
        winner_words(words, &regions->local[i]);
        tc_sheet_text(sheet, i, words);
    }
}

/* How each is bought, unless all of them are at the list price. */
static void add_deals(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    bool any = false;
    for (size_t i = 0; i < regions->count; i++)
        for (int c = 0; c < TC_CANDIDATES_MAX; c++) {
            const struct tc_region_line_cost *cost = &regions->local[i].cost[c];
            any = any ||
                  (cost->there && !(cost->unpriced & TC_LACKS_TANK) && strcmp(cost->how, "list price") != 0);
        }
    if (!any)
        return;
    tc_sheet_row(sheet, TC_ROW_GROUP, "How the tank is bought", "");
    for (int c = 0; c < regions->study->plan.candidate_count; c++) {
        if (!tc_region_costs_head(regions, c))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, tc_region_costs_head(regions, c), "");
        tc_sheet_about(sheet, tc_phrase_subject(sheet, c, -1));
        for (size_t i = 0; i < regions->count; i++)
            if (regions->local[i].cost[c].there)
                tc_sheet_text(sheet, i, regions->local[i].cost[c].how);
    }
}

static void add_rates(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    char date[TC_DATE_SIZE];
    tc_sheet_row(sheet, TC_ROW_LINE, tc_sheet_format(sheet, "exchange rate to %s", regions->money.code), "");
    for (size_t i = 0; i < regions->count; i++) {
        double rate = regions->conversion[i].rate;
        /* Five significant digits say as much as any quote. */
        bool quoted = rate > 0 && regions->conversion[i].steps > 0;
        int decimals = quoted ? (int)fmin(9, fmax(0, 4 - floor(log10(rate)))) : 0;
        if (rate > 0) {
            tc_sheet_number(sheet, i, rate, decimals);
            if (sheet->explained)
                tc_term_put(sheet, i, tc_derive_rate(sheet, regions->study, &regions->conversion[i]));
        } else
            tc_sheet_missing(sheet, i, "no rate");
    }
    tc_sheet_row(sheet, TC_ROW_LINE, "rate of", "");
    for (size_t i = 0; i < regions->count; i++)
        if (regions->conversion[i].rate > 0 && regions->conversion[i].steps > 0)
            tc_sheet_text(sheet, i, tc_date_write(date, regions->conversion[i].date));
}

/* Whether anything is known of a region. */
static bool known(const struct tc_region_costs *regions, size_t i)
{
    for (int c = 0; c < TC_CANDIDATES_MAX; c++)
        if (regions->local[i].cost[c].there)
            return true;
    return false;
}

/* How a price of a place in the one money came about: its own money's, the rate, and the unit in the
 * tariff's. */
static void put_unit_price(struct tc_sheet *sheet, const struct tc_region_costs *regions, size_t i,
                           const struct tc_term *own, double units, const char *unit)
{
    if (!own || sheet->failed)
        return;
    const struct tc_row *row = &sheet->rows[sheet->row_count - 1];
    bool turned = units < 1;
    struct tc_term *term =
        tc_term_computed(sheet, "Z", "one more unit on top of the household's own, taxes included",
                         turned ? "P × r × u" : "P × r", row->cells[i].number, row->unit);
    tc_term_add(sheet, term, own);
    tc_term_add(sheet, term, tc_derive_rate(sheet, regions->study, &regions->conversion[i]));
    if (turned)
        tc_term_add(sheet, term,
                    tc_term_leaf(sheet, "u", tc_sheet_format(sheet, "one %s", unit), units, "m³",
                                 tc_source_model(sheet, "DESCRIPTION: units")));
    tc_term_put(sheet, i, term);
}

/* A price of each place for one of a unit, in the one money. */
static void add_unit_price(struct tc_sheet *sheet, const struct tc_region_costs *regions, const char *label,
                           const char *unit, double units, bool energy)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, tc_sheet_format(sheet, "%s/%s", regions->money.code, unit));
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *local = &regions->local[i];
        double price = energy ? local->electricity : local->water;
        if (!known(regions, i))
            continue;
        if (regions->conversion[i].rate > 0) {
            tc_sheet_number(sheet, i, price * units * regions->conversion[i].rate,
                            regions->money.exponent + 2);
            put_unit_price(sheet, regions, i, energy ? local->terms.electricity : local->terms.water, units,
                           unit);
        } else {
            tc_sheet_missing(sheet, i, "no rate");
        }
    }
}

static void add_regions(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    bool us = regions->study->units == TC_US;
    const struct tc_unit *gallon = tc_unit_preferred(TC_DIM_VOLUME, TC_US);
    char number[TC_NUMBER_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "What the places are like", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "sales tax", "");
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *local = &regions->local[i];
        if (known(regions, i) && local->sales_tax > 0)
            tc_sheet_text(sheet, i,
                          tc_sheet_format(sheet, "%s %% %s",
                                          tc_number_write_short(number, 100 * local->sales_tax),
                                          local->tax_included ? "included" : "added"));
        else if (known(regions, i))
            tc_sheet_text(sheet, i, "none");
    }
    add_unit_price(sheet, regions, "price of more electricity", "kWh", 1, true);
    add_unit_price(sheet, regions, "price of more water", us ? tc_unit_symbol(gallon) : "m³",
                   us ? gallon->factor : 1, false);
    tc_sheet_row(sheet, TC_ROW_LINE, "room, mean of the year",
                 tc_phrase_unit(TC_DIM_TEMPERATURE, regions->study->units));
    for (size_t i = 0; i < regions->count; i++) {
        if (!known(regions, i))
            continue;
        tc_sheet_number(
            sheet, i, tc_phrase_value(regions->local[i].room, TC_DIM_TEMPERATURE, regions->study->units), 1);
        tc_term_put(sheet, i, regions->local[i].terms.room);
    }
}

static enum tc_status add_table(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    char years[TC_WORDS_SIZE];
    for (size_t i = 0; i < regions->count; i++)
        tc_sheet_column(sheet, i, regions->local[i].name, regions->local[i].own ? "this plan" : "");
    add_deals(sheet, regions);
    tc_sheet_row(sheet, TC_ROW_GROUP, "To buy", "");
    enum tc_status status = add_figures(sheet, regions, TO_BUY);
    tc_sheet_row(sheet, TC_ROW_GROUP, "Each year", "");
    if (status == TC_OK)
        status = add_figures(sheet, regions, EACH_YEAR);
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 tc_sheet_format(sheet, "To own over %s, in today's money",
                                 tc_phrase_years(years, regions->study->plan.years)),
                 "");
    tc_sheet_about(sheet, "to own");
    if (status == TC_OK)
        status = add_figures(sheet, regions, PRESENT_VALUE);
    add_winners(sheet, regions);
    tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "To own, all in %s", regions->money.code), "");
    tc_sheet_about(sheet, "to own, in one money");
    add_rates(sheet, regions);
    if (status == TC_OK)
        status = add_figures(sheet, regions, IN_ONE_MONEY);
    add_regions(sheet, regions);
    return status;
}

enum tc_status tc_make_places(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct tc_region_costs regions;
    char years[TC_WORDS_SIZE];
    enum tc_status status = tc_region_costs_find(&regions, study, ask);
    tc_sheet_start(sheet, "places", status == TC_OK ? regions.count : 0);
    sheet->explained = ask->explain;
    if (status == TC_OK)
        status = tc_region_costs_make(&regions, ask, sheet);
    if (status == TC_OK) {
        if (regions.count < sheet->column_count)
            sheet->column_count = regions.count; /* it was stopped */
        tc_phrase_head(sheet, study,
                       tc_sheet_format(sheet, "What each costs to own over %s, place by place",
                                       tc_phrase_years(years, study->plan.years)),
                       "");
        status = add_table(sheet, &regions);
    }
    if (status == TC_OK)
        status = tc_places_notes(sheet, &regions);
    if (regions.left > 0)
        tc_sheet_note(sheet, TC_NOTE_FAULT,
                      "Stopped: %zu of %zu places were worked out, so there may be cheaper ones.",
                      regions.count, regions.count + regions.left);
    tc_region_costs_free(&regions);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
