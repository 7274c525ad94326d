/* SPDX-License-Identifier: MIT */
#include "sheet/energy_lid.h"

#include "core/cost/choose.h"
#include "sheet/derive_bill.h"
#include "sheet/phrase.h"
#include "sheet/study_deal.h"

/* What a tank's lid saves against the same tank open. */
struct lid_worth {
    bool known;
    bool has_lid; /* the alternative has it; else it is one that could be bought */
    tc_money price, saved;
    const struct tc_term *price_term, *saved_term; /* how they came about, where that is asked for */
};

/* The alternative's yearly cost with all parts as they are, but with this wish for a lid. */
static enum tc_status cost_with_lid(const struct tc_study *study, const struct tc_alternative *alternative,
                                    const char *lid, struct tc_equipment *equipment, struct tc_cost *cost)
{
    struct tc_alternative other = *alternative;
    struct tc_prices prices;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        other.c.wish[slot].part = filled->offer ? filled->offer->part->goods.name : "";
    }
    other.c.wish[TC_SLOT_LID].part = lid;
    return tc_study_cost(study, &other, &alternative->prices.deal, equipment, &prices, cost);
}

/* How both came about, from the year with the lid and the year without. */
static void derive_lid_worth(struct tc_sheet *sheet, const struct tc_study *study,
                             const struct tc_alternative *alternative,
                             const struct tc_equipment *equipment[2], const struct tc_cost *cost[2],
                             struct lid_worth *worth)
{
    struct tc_derive *with =
        tc_derive_with(sheet, study, alternative, equipment[0], &alternative->prices, cost[0]);
    struct tc_derive *without =
        tc_derive_with(sheet, study, alternative, equipment[1], &alternative->prices, cost[1]);
    if (!with || !without)
        return;
    struct tc_term *price = tc_term_money(sheet, "C", "the lid, with tax", "round(B3 × (1 + t))",
                                          worth->price, study->region.currency);
    tc_term_add(sheet, price, tc_derive_buy(with, TC_BUY_SLOTS + TC_SLOT_LID));
    tc_term_add(sheet, price, tc_derive_tax(with));
    struct tc_term *saved =
        tc_term_money(sheet, "S", "what it saves each year", "Yo - Y", worth->saved, study->region.currency);
    tc_term_add(sheet, saved,
                tc_term_called(sheet, tc_derive_each_year(without), "Yo", "each year without a lid"));
    tc_term_add(sheet, saved, tc_derive_each_year(with));
    worth->price_term = price;
    worth->saved_term = saved;
    tc_derive_forget(sheet); /* both costs go away */
}

static enum tc_status find_lid_worth(struct tc_sheet *sheet, const struct tc_study *study,
                                     const struct tc_alternative *alternative, struct lid_worth *worth)
{
    struct tc_equipment open_equipment, closed_equipment;
    struct tc_cost open, closed;
    struct tc_setup setup = *alternative->c.setup;
    struct tc_alternative covered = *alternative;
    setup.lid = true;
    covered.c.setup = &setup;
    if (covered.c.wish[TC_SLOT_LID].part && !covered.c.wish[TC_SLOT_LID].part[0])
        covered.c.wish[TC_SLOT_LID].part = NULL;
    *worth = (struct lid_worth){.has_lid = alternative->equipment.slot[TC_SLOT_LID].offer != NULL};
    enum tc_status status = tc_equipment_choose(&covered.c, &closed_equipment);
    const struct tc_filled *lid = &closed_equipment.slot[TC_SLOT_LID];
    if (status != TC_OK || !lid->offer)
        return status;
    const char *name = lid->offer->part->goods.name;
    status = cost_with_lid(study, alternative, name, &closed_equipment, &closed);
    if (status == TC_OK)
        status = cost_with_lid(study, alternative, "", &open_equipment, &open);
    if (status != TC_OK)
        return status;
    worth->known = true;
    double tax = tc_region_added_tax(&study->region);
    worth->price = tc_money_round((double)closed.buy[TC_BUY_SLOTS + TC_SLOT_LID] * (1 + tax), &status);
    worth->saved = tc_money_subtract(open.each_year, closed.each_year, &status);
    derive_lid_worth(sheet, study, alternative,
                     (const struct tc_equipment *[2]){&closed_equipment, &open_equipment},
                     (const struct tc_cost *[2]){&closed, &open}, worth);
    return status;
}

enum tc_status tc_energy_add_lids(struct tc_sheet *sheet, const struct tc_study *study)
{
    struct lid_worth worth[TC_CANDIDATES_MAX];
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        status = find_lid_worth(sheet, study, &study->alternatives[i], &worth[i]);
    if (status != TC_OK)
        return status;
    tc_sheet_row(sheet, TC_ROW_GROUP, "What a lid is worth", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "it costs, with tax", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (worth[i].known) {
            tc_sheet_money(sheet, (size_t)i, worth[i].price, study->region.currency);
            tc_term_put(sheet, (size_t)i, worth[i].price_term);
        } else {
            tc_sheet_missing(sheet, (size_t)i, tc_phrase_unfilled(&study->alternatives[i], TC_SLOT_LID));
        }
    tc_sheet_row(sheet, TC_ROW_LINE, "it saves each year", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (worth[i].known) {
            tc_sheet_money(sheet, (size_t)i, worth[i].saved, study->region.currency);
            tc_term_put(sheet, (size_t)i, worth[i].saved_term);
        }
    tc_sheet_row(sheet, TC_ROW_LINE, "it has paid for itself after", "years");
    for (int i = 0; i < study->alternative_count; i++) {
        if (worth[i].known && worth[i].saved > 0) {
            double years = (double)worth[i].price / (double)worth[i].saved;
            tc_sheet_number(sheet, (size_t)i, years, 1);
            tc_derive_put_ratio(sheet, (size_t)i, "years until the lid has paid for itself", years, "years",
                                worth[i].price_term, worth[i].saved_term);
        } else if (worth[i].known)
            tc_sheet_text(sheet, (size_t)i, "never");
    }
    return TC_OK;
}
