/* SPDX-License-Identifier: MIT */
#include "sheet/energy_air.h"

#include "sheet/derive_life.h"
#include "sheet/derive_tank.h"
#include "sheet/phrase.h"
#include "sheet/study_deal.h"

/* The alternative with all its tanks on one air pump, or each with its own. */
static enum tc_status cost_with_air(const struct tc_study *study, const struct tc_alternative *alternative,
                                    bool shared, struct tc_equipment *equipment, struct tc_cost *cost)
{
    struct tc_setup setup = *alternative->c.setup;
    struct tc_alternative other = *alternative;
    struct tc_prices prices;
    setup.shared_air = shared;
    other.c.setup = &setup;
    return tc_study_cost(study, &other, &alternative->prices.deal, equipment, &prices, cost);
}

static bool uses_air(const struct tc_alternative *alternative)
{
    return alternative->plan->quantity > 1 && alternative->equipment.slot[TC_SLOT_AIR_PUMP].demand.wanted;
}

/* How the figures with pumps shared or not came about. */
struct air_terms {
    const struct tc_term *power, *present;
};

static void derive_air(struct tc_sheet *sheet, const struct tc_study *study,
                       const struct tc_alternative *alternative, const struct tc_equipment *equipment,
                       const struct tc_cost *cost, struct air_terms *terms)
{
    struct tc_derive *derive =
        tc_derive_with(sheet, study, alternative, equipment, &alternative->prices, cost);
    const struct tc_offer *offer = equipment->slot[TC_SLOT_AIR_PUMP].offer;
    if (!derive || !offer)
        return;
    double power = tc_part_power(offer->part);
    struct tc_term *term =
        tc_term_computed(sheet, "P", "power of all air pumps", "c × p",
                         tc_equipment_pieces(&alternative->c, equipment, TC_SLOT_AIR_PUMP) * power, "W");
    tc_term_add(sheet, term, tc_derive_pieces(derive, TC_SLOT_AIR_PUMP));
    tc_term_add(sheet, term,
                tc_derive_part_key(derive, TC_SLOT_AIR_PUMP, "p", "power of one", power, "W", "power"));
    terms->power = term;
    terms->present = tc_derive_present_value(derive);
    tc_derive_forget(sheet);
}

/* The pumps of each alternative that uses air. */
static void add_pumps(struct tc_sheet *sheet, const struct tc_study *study,
                      const struct tc_equipment equipment[TC_CANDIDATES_MAX])
{
    char words[TC_WORDS_SIZE];
    tc_sheet_row(sheet, TC_ROW_LINE, "air pumps", "");
    for (int i = 0; i < study->alternative_count; i++) {
        if (!uses_air(&study->alternatives[i]))
            continue;
        struct tc_filled all = equipment[i].slot[TC_SLOT_AIR_PUMP];
        all.count = tc_equipment_pieces(&study->alternatives[i].c, &equipment[i], TC_SLOT_AIR_PUMP);
        if (all.offer)
            tc_sheet_text(sheet, (size_t)i, tc_phrase_part(words, &all));
        else
            tc_sheet_missing(sheet, (size_t)i, tc_phrase_unfilled(&study->alternatives[i], TC_SLOT_AIR_PUMP));
    }
}

static enum tc_status add_way(struct tc_sheet *sheet, const struct tc_study *study, bool shared)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, shared ? "Air from one pump for all" : "Air from a pump for each", "");
    struct tc_equipment equipment[TC_CANDIDATES_MAX];
    tc_money present[TC_CANDIDATES_MAX];
    struct air_terms air[TC_CANDIDATES_MAX] = {{NULL, NULL}};
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++) {
        struct tc_cost cost;
        if (!uses_air(&study->alternatives[i]))
            continue;
        status = cost_with_air(study, &study->alternatives[i], shared, &equipment[i], &cost);
        present[i] = cost.present_value;
        if (status == TC_OK)
            derive_air(sheet, study, &study->alternatives[i], &equipment[i], &cost, &air[i]);
    }
    if (status != TC_OK)
        return status;
    add_pumps(sheet, study, equipment);
    tc_sheet_row(sheet, TC_ROW_LINE, "power of all", "W");
    for (int i = 0; i < study->alternative_count; i++) {
        if (!uses_air(&study->alternatives[i]) || !equipment[i].slot[TC_SLOT_AIR_PUMP].offer)
            continue;
        int pieces = tc_equipment_pieces(&study->alternatives[i].c, &equipment[i], TC_SLOT_AIR_PUMP);
        tc_sheet_number(sheet, (size_t)i,
                        pieces * tc_part_power(equipment[i].slot[TC_SLOT_AIR_PUMP].offer->part), 1);
        tc_term_put(sheet, (size_t)i, air[i].power);
    }
    tc_sheet_row(sheet, TC_ROW_LINE, "whole candidate, present value", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (uses_air(&study->alternatives[i]) && equipment[i].slot[TC_SLOT_AIR_PUMP].offer) {
            tc_sheet_money(sheet, (size_t)i, present[i], study->region.currency);
            tc_term_put(sheet, (size_t)i, air[i].present);
        }
    return TC_OK;
}

enum tc_status tc_energy_add_air(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++) {
        if (!uses_air(&study->alternatives[i]))
            continue;
        enum tc_status status = add_way(sheet, study, false);
        return status == TC_OK ? add_way(sheet, study, true) : status;
    }
    return TC_OK;
}
