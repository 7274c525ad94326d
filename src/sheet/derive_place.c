/* SPDX-License-Identifier: MIT */
#include "sheet/derive_place.h"

#include "sheet/derive_meter.h"
#include "sheet/derive_tank.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

/* -------------------------------------------------------------------- a further unit */

/* What so many units more add to one month's bill, minor units: as tc_tariff_added_even has it of a year. */
static double added_in(const struct tc_tariff_margin *margin, int month, double units)
{
    double months[TC_MONTHS] = {0};
    months[month] = units;
    return tc_tariff_added_even(margin, months);
}

static const struct tc_term *added(struct tc_derive *derive, bool energy, int month, double units,
                                   const struct tc_term *further)
{
    struct tc_meter m = tc_meter_of(derive, energy, month);
    const struct tc_tariff_margin *margin = energy ? &derive->study->electricity : &derive->study->water;
    m.margin = margin;
    const struct tc_term *own = tc_meter_own_units(&m), *before = tc_meter_own_hours(&m);
    if (!own || !further)
        return NULL;
    double all = own->value + units, bill = margin->own_bill[month], more = added_in(margin, month, units);
    struct tc_term *both =
        tc_term_computed(derive->sheet, "u", "used with them", "u0 + x", all, tc_meter_unit(&m));
    tc_derive_add(derive, both, tc_term_called(derive->sheet, own, "u0", own->words), further, END);
    const struct tc_term *hours = tc_meter_even_hours(&m, "what the hours cost, used evenly", both,
                                                      margin->mean_rate[month] * all / m.scale);
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "A%d", month + 1),
        tc_sheet_format(derive->sheet, "what they add to the bill of %s", tc_phrase_month(month)), "B1 - B0",
        more / m.scale, tc_derive_code(derive));
    tc_derive_add(derive, term,
                  tc_meter_bill(&m, "B1", "bill with them", both, hours, (bill + more) / m.scale),
                  tc_meter_bill(&m, "B0", "bill without them", own, before, bill / m.scale), END);
    return term;
}

const struct tc_term *tc_derive_further(struct tc_derive *derive, bool energy, double units, double price)
{
    if (!derive)
        return NULL;
    const char *unit = energy ? "kWh" : "m³";
    const struct tc_term *further =
        tc_derive_model(derive, "x", "further units in each month", units, unit, "PLACES");
    struct tc_term *year =
        tc_term_computed(derive->sheet, "A", "what they add to the bills of a year, taxes included", "sum",
                         price * TC_MONTHS * units, tc_derive_code(derive));
    for (int month = 0; month < TC_MONTHS; month++)
        tc_term_add(derive->sheet, year, added(derive, energy, month, units, further));
    struct tc_term *term = tc_term_computed(derive->sheet, "P", energy ? "a further kWh" : "a further m³",
                                            "A / (12 × x)", price, tc_derive_rate_unit(derive, unit));
    tc_derive_add(derive, term, year, further, END);
    return term;
}

/* -------------------------------------------------------------------------- the room */

const struct tc_term *tc_derive_room_mean(struct tc_derive *derive, double mean)
{
    if (!derive)
        return NULL;
    const struct tc_climate *climate = &derive->study->region.climate;
    struct tc_term *sum = tc_term_computed(derive->sheet, "S", "the months together", "sum", 0, "K");
    for (int month = 0; sum && month < TC_MONTHS; month++) {
        sum->value += climate->room[month];
        tc_term_add(derive->sheet, sum,
                    tc_derive_region_key(derive, tc_sheet_format(derive->sheet, "R%d", month + 1),
                                         tc_phrase_month(month), climate->room[month], "K", "room"));
    }
    struct tc_term *term =
        tc_term_computed(derive->sheet, "R", "room, mean of the year", "S / 12 + Ro", mean, "K");
    tc_derive_add(derive, term, sum,
                  tc_derive_region_key(derive, "Ro", "by which the room is off", climate->room_offset, "K",
                                       "room-offset"),
                  END);
    return tc_derive_shown(derive, term, TC_DIM_TEMPERATURE);
}

/* ------------------------------------------------------------------------- exchange */

static const struct tc_term *quote(struct tc_sheet *sheet, const struct tc_study *study, int step, int at)
{
    const struct tc_region *region = &study->stock->regions[at];
    return tc_term_leaf(
        sheet, tc_sheet_format(sheet, "q%d", step + 1),
        tc_sheet_format(sheet, "%s for one %s", region->exchange.currency.code, region->currency.code),
        region->exchange.amount, "", tc_source_item(sheet, study, "region", region->name, "exchange"));
}

const struct tc_term *tc_derive_rate(struct tc_sheet *sheet, const struct tc_study *study,
                                     const struct tc_conversion *conversion)
{
    struct tc_term *term = tc_term_computed(
        sheet, "r", tc_sheet_format(sheet, "%s for one %s", conversion->to.code, conversion->from.code), "1",
        conversion->rate, "");
    if (!term)
        return NULL;
    if (conversion->steps > TC_CONVERSION_KEPT) {
        term->from = TC_TERM_SIMULATED;
        term->place = tc_sheet_format(sheet, "%d quotes of region/exchange, tankcost-model(7), PLACES",
                                      conversion->steps);
        return term;
    }
    for (int i = 0; i < conversion->steps; i++) {
        bool back = conversion->by[i].back;
        const char *sign = i > 0 ? (back ? " / " : " × ") : back ? "1 / " : "";
        term->formula = tc_sheet_format(sheet, "%s%sq%d", i > 0 ? term->formula : "", sign, i + 1);
        tc_term_add(sheet, term, quote(sheet, study, i, conversion->by[i].quote));
    }
    return term;
}

const struct tc_term *tc_derive_hour_worth(struct tc_derive *derive)
{
    static const char words[] = "what an hour of upkeep costs you";
    const struct tc_study *study = derive->study, *from = study->hour_from;
    const struct tc_conversion *taken = &study->hour_taken;
    enum tc_status status = TC_OK;
    if (!from)
        return tc_derive_plan_key(derive, "h", words, study->plan.hour_worth, tc_derive_code(derive),
                                  "hour-worth");
    tc_money worth = tc_currency_money(study->region.currency, study->plan.hour_worth, &status);
    struct tc_term *term =
        tc_term_money(derive->sheet, "h", words, "round(H × r)", worth, study->region.currency);
    if (!term)
        return NULL;
    tc_term_add(derive->sheet, term,
                tc_term_leaf(derive->sheet, "H", words, from->plan.hour_worth, taken->from.code,
                             tc_source_path(derive->sheet, from, "plan/hour-worth")));
    tc_term_add(derive->sheet, term, tc_derive_rate(derive->sheet, study, taken));
    return term;
}
