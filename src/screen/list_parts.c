/* SPDX-License-Identifier: MIT */
#include "screen/list_parts.h"

#include <stdio.h>

#include "screen/list_fill.h"
#include "sheet/phrase.h"

/* --------------------------------------------------------------------------- parts */

static void fill_slots(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_alternative *alternative = tc_state_alternative(state, about.candidate);
    char words[TC_WORDS_SIZE];
    tc_sheet_start(sheet, "slots", 2);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "Parts of %s", alternative ? alternative->plan->tank : "this tank"),
                  "", "");
    tc_fill_words(sheet, 0, "chosen now");
    tc_fill_words(sheet, 1, "");
    for (int s = 0; alternative && s < TC_SLOT_COUNT; s++) {
        enum tc_slot slot = (enum tc_slot)s;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        tc_fill_choice(sheet, tc_slot_word(slot), tc_slot_name(slot));
        tc_sheet_about(sheet, tc_slot_name(slot));
        tc_sheet_text(sheet, 0,
                      filled->offer     ? tc_phrase_part(words, filled)
                      : filled->missing ? tc_phrase_unfilled(alternative, slot)
                                        : "none");
        if (filled->pinned)
            tc_sheet_mark(sheet, 0, TC_MARK_PINNED);
        tc_sheet_text(sheet, 1,
                      !filled->demand.wanted ? "the setup needs none"
                      : filled->pinned       ? "pinned by the plan"
                      : filled->offer        ? "the cheapest that fits"
                                             : "");
    }
}

enum part_column { PART_COUNT, PART_PRICE, PART_VALUE, PART_WHY, PART_COLUMNS };

static void add_part(struct tc_sheet *sheet, const struct tc_state *state, const struct tc_verdict *verdict,
                     enum tc_slot slot)
{
    char words[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    const struct tc_offer *offer = verdict->offer;
    tc_fill_choice(sheet, offer->part->goods.name, offer->part->goods.name);
    tc_sheet_about(sheet, tc_slot_name(slot));
    if (verdict->count > 0)
        tc_sheet_text(sheet, PART_COUNT, tc_sheet_format(sheet, "%d ×", verdict->count));
    if (offer->priced)
        tc_sheet_money(sheet, PART_PRICE, offer->price, state->study->region.currency);
    else
        tc_sheet_missing(sheet, PART_PRICE, "no price");
    tc_money value = tc_money_round(verdict->present_value, &status);
    if (verdict->fits && status == TC_OK)
        tc_sheet_money(sheet, PART_VALUE, value, state->study->region.currency);
    tc_phrase_reason(words, slot, &verdict->reason, state->study->units);
    tc_sheet_text(sheet, PART_WHY,
                  tc_sheet_format(sheet, "%s%s", verdict->fits ? "" : "does not fit: ", words));
}

/* At which shop the part is bought: of a place that has several. */
static void add_shops(struct tc_sheet *sheet, const struct tc_state *state,
                      const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_study *study = state->study;
    const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
    const char *pinned = alternative->plan->pin[slot].shop;
    for (int s = -1; study->shop_count > 1 && s < study->shop_count; s++) {
        const char *name = s < 0 ? "plan" : study->shops[s]->name;
        enum tc_status status = TC_OK;
        double amount;
        tc_fill_choice(sheet, s < 0 ? "shop: as the plan says" : tc_sheet_format(sheet, "at %s", name),
                       tc_fill_shop(sheet, name));
        tc_sheet_text(sheet, PART_WHY, tc_fill_now(pinned, "plan", name));
        if (s < 0 || !offer)
            continue;
        if (tc_stock_asked(study->stock, &study->region, study->shops[s], (int)slot, &offer->part->goods,
                           &amount))
            tc_sheet_money(sheet, PART_PRICE, tc_currency_money(study->region.currency, amount, &status),
                           study->region.currency);
        else
            tc_sheet_missing(sheet, PART_PRICE, "no price");
    }
}

static void fill_parts(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_alternative *alternative = tc_state_alternative(state, about.candidate);
    tc_sheet_start(sheet, "parts", PART_COLUMNS);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "The %s of %s", tc_slot_word(about.slot),
                                  alternative ? alternative->plan->tank : "this tank"),
                  "", tc_slot_name(about.slot));
    tc_sheet_column(sheet, PART_COUNT, "pieces", "");
    tc_sheet_column(sheet, PART_PRICE, "price of one", "");
    tc_sheet_column(sheet, PART_VALUE, "cost to own", "");
    tc_fill_words(sheet, PART_WHY, "");
    tc_fill_choice(sheet, "any", "any");
    tc_sheet_text(sheet, PART_WHY, "the cheapest to own of those that fit");
    tc_fill_choice(sheet, "none", "none");
    tc_sheet_text(sheet, PART_WHY, "nothing is bought");
    if (!alternative)
        return;
    for (int fits = 1; fits >= 0; fits--) /* those that fit first */
        for (int i = 0; i < alternative->c.offer_count; i++) {
            const struct tc_offer *offer = &alternative->c.offers[i];
            if (offer->part->slot != about.slot)
                continue;
            struct tc_verdict verdict = tc_equipment_judge(&alternative->c, &alternative->equipment, offer);
            if (verdict.fits == (fits == 1))
                add_part(sheet, state, &verdict, about.slot);
        }
    add_shops(sheet, state, alternative, about.slot);
}

static const char *present_part(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = tc_fill_candidate(state, about);
    (void)buffer;
    return candidate && candidate->pin[about.slot].part[0] ? candidate->pin[about.slot].part : "any";
}

static void take_part(struct tc_state *state, struct tc_list_about about, const char *part)
{
    char path[64];
    const char *shop = tc_fill_shop_of(part);
    snprintf(path, sizeof path, "candidate %d/%s%s", about.candidate + 1, tc_slot_name(about.slot),
             shop ? "-shop" : "");
    tc_fill_take(state, path, shop ? shop : part);
}

const struct tc_list_kind tc_list_parts = {
    .fill = fill_parts,
    .present = present_part,
    .take = take_part,
};

static void take_slot(struct tc_state *state, struct tc_list_about about, const char *name)
{
    enum tc_slot slot;
    if (tc_slot_find(name, &slot))
        tc_list_open(state, &tc_list_parts,
                     (struct tc_list_about){.candidate = about.candidate, .slot = slot});
}

const struct tc_list_kind tc_list_slots = {
    .fill = fill_slots,
    .take = take_slot,
};
