/* SPDX-License-Identifier: MIT */
#include "sheet/phrase.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "profile/plan_typed.h"
#include "sheet/study_market.h"

/* Adds to words as printf does, and stops quietly where they are full. */
static void add(char *words, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void add(char *words, const char *format, ...)
{
    size_t length = strlen(words);
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words + length, TC_WORDS_SIZE - length, format, arguments);
    va_end(arguments);
}

int tc_phrase_decimals(enum tc_dimension dimension, enum tc_unit_system units)
{
    if (dimension == TC_DIM_LENGTH)
        return units == TC_US ? TC_EIGHTHS : 1;
    return dimension == TC_DIM_VOLUME ? 1 : 0;
}

const char *tc_phrase_unit(enum tc_dimension dimension, enum tc_unit_system units)
{
    return tc_unit_symbol(tc_unit_preferred(dimension, units));
}

double tc_phrase_value(double value, enum tc_dimension dimension, enum tc_unit_system units)
{
    return tc_unit_from_base(tc_unit_preferred(dimension, units), value);
}

char *tc_phrase_quantity(char *words, double value, enum tc_dimension dimension, enum tc_unit_system units)
{
    if (dimension == TC_DIM_LENGTH)
        return tc_phrase_length(words, value, units);
    return tc_unit_quantity_write(words, value, dimension, units, tc_phrase_decimals(dimension, units));
}

char *tc_phrase_money(char *words, tc_money money, struct tc_currency currency)
{
    char number[TC_NUMBER_SIZE];
    snprintf(words, TC_WORDS_SIZE, "%s %s", tc_number_write_fixed(number, money, currency.exponent, true),
             currency.code);
    return words;
}

char *tc_phrase_years(char *words, double years)
{
    char number[TC_NUMBER_SIZE];
    snprintf(words, TC_WORDS_SIZE, "%s year%s", tc_number_write_short(number, years), years == 1 ? "" : "s");
    return words;
}

char *tc_phrase_date(char *words, struct tc_date date)
{
    snprintf(words, TC_WORDS_SIZE, "%d %s %d", date.day, tc_phrase_month(date.month - 1), date.year);
    return words;
}

char *tc_phrase_span(char *words, struct tc_date from, struct tc_date to)
{
    int days = tc_days_between(from, to);
    int months = (int)lround(days / 30.44);
    if (days == 0)
        snprintf(words, TC_WORDS_SIZE, "today");
    else if (days < 60)
        snprintf(words, TC_WORDS_SIZE, "%d day%s", days, days == 1 ? "" : "s");
    else
        snprintf(words, TC_WORDS_SIZE, "%d months", months);
    return words;
}

/* A figure without its unit: "24¼", "331". */
static void add_figure(char *words, double value, enum tc_dimension dimension, enum tc_unit_system units)
{
    char number[TC_NUMBER_SIZE];
    int decimals = tc_phrase_decimals(dimension, units);
    value = tc_phrase_value(value, dimension, units);
    if (dimension == TC_DIM_LENGTH && decimals > 0 && fabs(value - round(value)) < 0.05)
        decimals = 0; /* "60 × 30 cm", not "60.0 × 30.0 cm" */
    add(words, "%s",
        decimals == TC_EIGHTHS ? tc_number_write_eighths(number, value, false)
                               : tc_number_write(number, value, decimals, true));
}

static void add_length(char *words, double length, enum tc_unit_system units)
{
    add_figure(words, length, TC_DIM_LENGTH, units);
}

static void add_length_unit(char *words, enum tc_unit_system units)
{
    add(words, " %s", tc_phrase_unit(TC_DIM_LENGTH, units));
}

char *tc_phrase_length(char *words, double length, enum tc_unit_system units)
{
    words[0] = '\0';
    add_length(words, length, units);
    add_length_unit(words, units);
    return words;
}

char *tc_phrase_area(char *words, double length, double width, enum tc_unit_system units)
{
    words[0] = '\0';
    add_length(words, length, units);
    add(words, " × ");
    add_length(words, width, units);
    add_length_unit(words, units);
    return words;
}

char *tc_phrase_sides(char *words, double length, double width, double height, enum tc_unit_system units)
{
    words[0] = '\0';
    add_length(words, length, units);
    add(words, " × ");
    add_length(words, width, units);
    add(words, " × ");
    add_length(words, height, units);
    return words;
}

char *tc_phrase_size(char *words, double length, double width, double height, enum tc_unit_system units)
{
    tc_phrase_sides(words, length, width, height, units);
    add_length_unit(words, units);
    return words;
}

char *tc_phrase_part(char *words, const struct tc_filled *filled)
{
    words[0] = '\0';
    if (!filled->offer)
        return words;
    if (filled->count > 1)
        add(words, "%d × ", filled->count);
    add(words, "%s", filled->offer->part->goods.name);
    return words;
}

/* The dimension of the two figures of a reason. */
static enum tc_dimension reason_dimension(enum tc_slot slot, enum tc_reason_code code)
{
    switch (code) {
    case TC_TOO_WEAK: return TC_DIM_MASS;
    case TC_TOO_DIM: return TC_DIM_PHOTON_FLOW;
    case TC_TOO_STRONG: return TC_DIM_POWER;
    case TC_FITS:
    case TC_FITS_PINNED:
    case TC_TOO_SMALL:
        switch (slot) {
        case TC_SLOT_STAND: return TC_DIM_MASS;
        case TC_SLOT_LID: return TC_DIM_LENGTH;
        case TC_SLOT_LIGHT: return TC_DIM_PHOTON_FLOW;
        case TC_SLOT_FILTER:
        case TC_SLOT_AIR_PUMP: return TC_DIM_FLOW;
        case TC_SLOT_HEATER: return TC_DIM_POWER;
        case TC_SLOT_SUBSTRATE:
        case TC_SLOT_COUNT: return TC_DIM_VOLUME;
        }
        return TC_DIM_VOLUME;
    default: return TC_DIM_LENGTH;
    }
}

static const char *reason_phrase(enum tc_slot slot, enum tc_reason_code code, bool several)
{
    switch (code) {
    case TC_FITS: return "";
    case TC_FITS_PINNED: return "pinned by the plan";
    case TC_NO_PRICE: return "no price here";
    case TC_TOO_SHORT:
        if (slot != TC_SLOT_FILTER)
            return "too short";
        return several ? "do not reach" : "does not reach";
    case TC_TOO_LONG: return "too long";
    case TC_TOO_NARROW: return "too narrow";
    case TC_TOO_WIDE: return "too wide";
    case TC_TOO_WEAK: return "carries too little";
    case TC_NOT_IN_PIECES: return "no whole number of them covers it";
    case TC_OTHER_KIND: return "a different kind of filter";
    case TC_TOO_DIM: return "too dim";
    case TC_TOO_SMALL: return "too small";
    case TC_TOO_STRONG: return "too strong";
    case TC_TOO_DEEP: return "cannot blow so deep";
    case TC_OPAQUE: return "lets no light through";
    }
    return "";
}

/* What the second figure of a reason is, before it. */
static const char *reason_against(enum tc_reason_code code)
{
    switch (code) {
    case TC_TOO_LONG:
    case TC_TOO_WIDE:
    case TC_NOT_IN_PIECES: return "the tank is";
    case TC_TOO_STRONG: return "at most";
    default: return "needs";
    }
}

char *tc_phrase_reason(char *words, enum tc_slot slot, const struct tc_reason *reason,
                       enum tc_unit_system units)
{
    bool fits = reason->code == TC_FITS || reason->code == TC_FITS_PINNED;
    bool several = !fits && reason->pieces > 1;
    words[0] = '\0';
    if (several)
        add(words, "%d %s", reason->pieces,
            slot == TC_SLOT_FILTER && reason->code == TC_TOO_SHORT ? "" : "are ");
    add(words, "%s", reason_phrase(slot, reason->code, several));
    if (reason->code == TC_NO_PRICE || reason->code == TC_OTHER_KIND || reason->code == TC_OPAQUE)
        return words;
    enum tc_dimension dimension = reason_dimension(slot, reason->code);
    char have[TC_WORDS_SIZE], need[TC_WORDS_SIZE];
    tc_phrase_quantity(have, reason->have, dimension, units);
    tc_phrase_quantity(need, reason->need, dimension, units);
    add(words, "%s%s, %s %s", reason->code == TC_FITS ? "" : ": ", have, reason_against(reason->code), need);
    return words;
}

const char *tc_phrase_has_label(enum tc_slot slot)
{
    switch (slot) {
    case TC_SLOT_STAND: return "  carries / needed";
    case TC_SLOT_LID: return "  length: has / needed";
    case TC_SLOT_LIGHT: return "  gives / needed";
    case TC_SLOT_FILTER: return "  moves / needed";
    case TC_SLOT_AIR_PUMP: return "  air: gives / needed";
    case TC_SLOT_HEATER: return "  power: has / needed";
    case TC_SLOT_SUBSTRATE: return "  holds / needed";
    case TC_SLOT_COUNT: break;
    }
    return "";
}

const char *tc_phrase_reason_unit(enum tc_slot slot, enum tc_unit_system units)
{
    return tc_phrase_unit(reason_dimension(slot, TC_FITS), units);
}

char *tc_phrase_has(char *words, enum tc_slot slot, const struct tc_reason *reason, enum tc_unit_system units)
{
    if (reason->code != TC_FITS && reason->code != TC_FITS_PINNED)
        return tc_phrase_reason(words, slot, reason, units);
    enum tc_dimension dimension = reason_dimension(slot, reason->code);
    words[0] = '\0';
    add_figure(words, reason->have, dimension, units);
    add(words, " / ");
    add_figure(words, reason->need, dimension, units);
    return words;
}

char *tc_phrase_wanted(char *words, const struct tc_alternative *alternative, enum tc_slot slot,
                       enum tc_unit_system units)
{
    const struct tc_demand *demand = &alternative->equipment.slot[slot].demand;
    const struct tc_tank *tank = &alternative->c.tank;
    char q[TC_WORDS_SIZE], p[TC_WORDS_SIZE], area[TC_WORDS_SIZE];
    words[0] = '\0';
    switch (slot) {
    case TC_SLOT_STAND:
        add(words, "a stand with a top of %.100s that carries %s",
            tc_phrase_area(area, tank->length, tank->width, units),
            tc_phrase_quantity(q, demand->load, TC_DIM_MASS, units));
        break;
    case TC_SLOT_LID:
        add(words, "a lid of %.100s, in one to three pieces",
            tc_phrase_area(area, tank->length, tank->width, units));
        break;
    case TC_SLOT_LIGHT:
        add(words, "lights for a length of %s that give %s",
            tc_phrase_quantity(q, tank->length, TC_DIM_LENGTH, units),
            tc_phrase_quantity(p, demand->ppf, TC_DIM_PHOTON_FLOW, units));
        break;
    case TC_SLOT_FILTER:
        add(words, "%s filters for %s that keep %s moving", tc_filter_kind_name(alternative->c.setup->filter),
            tc_phrase_quantity(q, demand->flow, TC_DIM_FLOW, units),
            tc_phrase_quantity(p, alternative->equipment.size.swim_length, TC_DIM_LENGTH, units));
        break;
    case TC_SLOT_AIR_PUMP:
        add(words, "an air pump for %s at a depth of %s",
            tc_phrase_quantity(q, demand->air, TC_DIM_FLOW, units),
            tc_phrase_quantity(p, alternative->equipment.size.water_depth, TC_DIM_LENGTH, units));
        break;
    case TC_SLOT_HEATER:
        add(words, "heaters of %s in all", tc_phrase_quantity(q, demand->heat, TC_DIM_POWER, units));
        break;
    case TC_SLOT_SUBSTRATE:
        add(words, "%s of substrate", tc_phrase_quantity(q, demand->bed, TC_DIM_VOLUME, units));
        break;
    case TC_SLOT_COUNT: break;
    }
    return words;
}

const char *tc_phrase_month(int month)
{
    static const char *const names[TC_MONTHS] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                 "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return names[month];
}

char *tc_phrase_months(char *words, unsigned months)
{
    const unsigned all = (1U << TC_MONTHS) - 1;
    words[0] = '\0';
    if (months == all) {
        add(words, "all year");
        return words;
    }
    for (int month = 0; month < TC_MONTHS; month++) {
        int before = (month + TC_MONTHS - 1) % TC_MONTHS, last = month;
        if (!(months >> month & 1) || (months >> before & 1)) /* not the first of some months in a row */
            continue;
        while (months >> (last + 1) % TC_MONTHS & 1)
            last = (last + 1) % TC_MONTHS;
        add(words, "%s%s", words[0] ? ", " : "", tc_phrase_month(month));
        if (last != month)
            add(words, " to %s", tc_phrase_month(last));
    }
    return words;
}

const char *tc_phrase_subject(struct tc_sheet *sheet, int candidate, int slot)
{
    if (candidate < 0)
        return "";
    return slot < 0
               ? tc_sheet_format(sheet, "candidate %d", candidate + 1)
               : tc_sheet_format(sheet, "candidate %d/%s", candidate + 1, tc_slot_name((enum tc_slot)slot));
}

void tc_phrase_columns(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool any_suits = false;
    for (int i = 0; i < study->alternative_count; i++)
        any_suits = any_suits || study->alternatives[i].suit.suits;
    for (int i = 0; i < study->alternative_count; i++) {
        tc_sheet_column(sheet, (size_t)i, study->alternatives[i].head, study->alternatives[i].how);
        tc_sheet_column_about(sheet, (size_t)i, tc_phrase_subject(sheet, study->alternatives[i].index, -1));
        if (sheet->columns)
            sheet->columns[i].aside = !study->alternatives[i].suit.suits && any_suits;
    }
}

bool tc_phrase_unpriced(const struct tc_alternative *alternative, enum tc_slot slot)
{
    return tc_cost_slot_lacks_price(&alternative->c, &alternative->equipment, &alternative->prices, slot);
}

static bool any_priced(const struct tc_offer *offers, int count, enum tc_slot slot)
{
    for (int i = 0; i < count; i++)
        if (offers[i].part->slot == slot && offers[i].priced)
            return true;
    return false;
}

bool tc_phrase_offered(const struct tc_alternative *alternative, enum tc_slot slot)
{
    return any_priced(alternative->c.offers, alternative->c.offer_count, slot);
}

const char *tc_phrase_unfitted(struct tc_sheet *sheet, const struct tc_offer *offers, int count,
                               enum tc_slot slot)
{
    const char *words = any_priced(offers, count, slot) ? "no %s on offer fits" : "no %s is on offer";
    return tc_sheet_format(sheet, words, tc_slot_word(slot));
}

const char *tc_phrase_unfilled(const struct tc_alternative *alternative, enum tc_slot slot)
{
    return tc_phrase_offered(alternative, slot) ? "none fits" : "none on offer";
}

/* Where it is bought: "region lowmere", "lowmere-shop in lowmere", "shops of lowmere". */
static const char *where_words(struct tc_sheet *sheet, const struct tc_study *study)
{
    const char *region = study->region.name, *shop = study->shop ? study->shop->name : "";
    if (study->shop_count < 2)
        return tc_sheet_format(sheet, "region %s", region);
    if (study->several)
        return tc_sheet_format(sheet, "shops of %s", region);
    for (int i = 0; study->one && i < study->alternative_count; i++) {
        const struct tc_alternative *a = &study->alternatives[i];
        const char *at = study->shops[tc_study_kept_to(a, &a->equipment, &a->cost)]->name;
        if (i > 0 && strcmp(at, shop) != 0)
            return tc_sheet_format(sheet, "best shop of %s", region);
        shop = at;
    }
    return tc_sheet_format(sheet, "%s in %s", shop, region);
}

/* "setup shrimp-shelf · region lowmere · 10 years at 3 % · ..." */
static const char *assumptions(struct tc_sheet *sheet, const struct tc_study *study)
{
    char years[TC_WORDS_SIZE], rate[TC_NUMBER_SIZE], water[TC_QUANTITY_SIZE], typed[48] = "";
    char date[TC_WORDS_SIZE];
    const char *others = "";
    tc_number_write_short(rate, 100 * study->plan.discount);
    tc_unit_quantity_write(water, study->setup.temperature, TC_DIM_TEMPERATURE, study->units, 0);
    int figures = tc_plan_typed_figures(&study->plan);
    if (figures > 0)
        snprintf(typed, sizeof typed, " · %d figure%s changed", figures, figures == 1 ? "" : "s");
    for (int i = 0; i < study->alternative_count; i++)
        if (!tc_study_setup_shared(study, &study->alternatives[i]))
            others = " unless named";
    return tc_sheet_format(sheet, "setup %s (water %s)%s · %s (%s) · %s at %s %% real · sales as of %s%s",
                           study->setup.name, water, others, where_words(sheet, study),
                           study->region.currency.code, tc_phrase_years(years, study->plan.years), rate,
                           tc_phrase_date(date, study->today), typed);
}

void tc_phrase_head(struct tc_sheet *sheet, const struct tc_study *study, const char *title,
                    const char *row_head)
{
    tc_sheet_head(sheet, title, assumptions(sheet, study), row_head);
}

void tc_phrase_suits_row(struct tc_sheet *sheet, const struct tc_study *study)
{
    tc_sheet_row(sheet, TC_ROW_LINE, "suits the animals", "");
    for (int i = 0; i < study->alternative_count; i++) {
        bool suits = study->alternatives[i].suit.suits;
        tc_sheet_text(sheet, (size_t)i, suits ? "yes" : "no");
        if (!suits)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_SHORT);
    }
}
