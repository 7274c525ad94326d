/* SPDX-License-Identifier: MIT */
#include "sheet/energy_room.h"

#include <stdbool.h>

#include "core/cost/cost.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_heat.h"
#include "sheet/phrase.h"

/* The heat of each month and of the year, kWh. */
static void add_heat(struct tc_sheet *sheet, const struct tc_study *study)
{
    double year[TC_CANDIDATES_MAX] = {0};
    tc_sheet_row(sheet, TC_ROW_GROUP, "Heat that the room gets", "");
    for (int month = 0; month < TC_MONTHS; month++) {
        tc_sheet_row(sheet, TC_ROW_LINE, tc_phrase_month(month), "kWh");
        for (int i = 0; i < study->alternative_count; i++) {
            double heat = study->alternatives[i].cost.running.room_heat[month];
            tc_sheet_number(sheet, (size_t)i, heat, 1);
            tc_term_put(sheet, (size_t)i,
                        tc_derive_room_heat(tc_derive_of(sheet, study, &study->alternatives[i]), month));
            year[i] += heat;
        }
    }
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "the year", "kWh");
    for (int i = 0; i < study->alternative_count; i++) {
        tc_sheet_number(sheet, (size_t)i, year[i], 0);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_room_heat_in(tc_derive_of(sheet, study, &study->alternatives[i]), "Q",
                                           "heat that the room gets in a year", NULL));
    }
}

typedef double room_money(const struct tc_region *region, const double heat[TC_MONTHS]);

static enum tc_status add_room_money(struct tc_sheet *sheet, const struct tc_study *study, const char *label,
                                     const bool in[TC_MONTHS], room_money *of)
{
    enum tc_status status = TC_OK;
    char months[TC_WORDS_SIZE];
    unsigned bits = 0;
    for (int month = 0; month < TC_MONTHS; month++)
        bits |= in[month] ? 1U << month : 0;
    tc_sheet_row(sheet, TC_ROW_LINE, tc_sheet_format(sheet, "%s, %s", label, tc_phrase_months(months, bits)),
                 "");
    for (int i = 0; i < study->alternative_count; i++) {
        double amount = of(&study->region, study->alternatives[i].cost.running.room_heat);
        tc_sheet_money(sheet, (size_t)i, tc_money_round(amount, &status), study->region.currency);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_room_money(tc_derive_of(sheet, study, &study->alternatives[i]),
                                         tc_money_round(amount, &status), of == tc_cost_cooling_added));
    }
    return status;
}

enum tc_status tc_energy_add_room(struct tc_sheet *sheet, const struct tc_study *study)
{
    const struct tc_region *region = &study->region;
    enum tc_status status = TC_OK;
    bool heated = false, cooled = false;
    for (int month = 0; month < TC_MONTHS; month++) {
        heated = heated || region->heated[month];
        cooled = cooled || region->cooled[month];
    }
    heated = heated && region->room_heat_price > 0;
    cooled = cooled && region->room_cool_price > 0;
    add_heat(sheet, study);
    if (heated)
        status = add_room_money(sheet, study, "saved in heating", region->heated, tc_cost_heating_saved);
    if (status == TC_OK && cooled)
        status = add_room_money(sheet, study, "added to cooling", region->cooled, tc_cost_cooling_added);
    if (!heated && !cooled)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "What the tanks give to the room saves heating and costs cooling: say 'heated-months' and "
            "'room-heat-price' of the region, 'cooled-months' and 'room-cool-price', to see how much.");
    else if (!study->plan.count_room_heat)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "What that saves and costs is not on the bill; with 'plan/count-room-heat = yes' it is.");
    return status;
}
