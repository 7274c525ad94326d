/* SPDX-License-Identifier: MIT */
#include "sheet/note.h"

#include <math.h>
#include <string.h>

#include "core/base/text.h"
#include "sheet/need.h"
#include "sheet/phrase.h"
#include "sheet/study_deal.h"

/* " Too short (28½ in, they need 36 in)." for each need that the tank does not give; "" where it gives all.
 */
static const char *lacks(struct tc_sheet *sheet, const struct tc_alternative *alternative,
                         enum tc_unit_system units)
{
    char amounts[TC_WORDS_SIZE];
    const char *all = "";
    for (int i = 0; i < alternative->suit.lack_count; i++) {
        const struct tc_lack *lack = &alternative->suit.lack[i];
        const char *word = tc_need_word(lack->need);
        if (!lack->accepted)
            all = tc_sheet_format(sheet, "%s %c%s %s.", all, word[0] + 'A' - 'a', word + 1,
                                  tc_need_amounts(amounts, lack, units));
    }
    return all;
}

static void note_sale(struct tc_sheet *sheet, const struct tc_study *study,
                      const struct tc_alternative *alternative)
{
    const struct tc_deal *deal = &alternative->prices.deal;
    const struct tc_sale *asked = alternative->way.sale;
    if (asked && deal->known && (deal->kind == TC_DEAL_LIST || deal->kind == TC_DEAL_ORDER))
        tc_sheet_note(
            sheet, TC_NOTE_REMARK, "%s: sale %s %s, so it is at list price.", alternative->head, asked->name,
            tc_study_sale_here(study, alternative, asked)               ? "does not cover it"
            : tc_stock_sale_in(study->stock, asked, study->region.name) ? "is another shop's"
                                                                        : "is not held in this region");
    if (!deal->sale)
        return;
    if (!tc_sale_runs(deal->sale, study->today))
        tc_sheet_note(sheet, TC_NOTE_REMARK, "%s: sale %s does not run today.", alternative->head,
                      deal->sale->name);
    if (deal->first < deal->quantity)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "%s: the sale gives %d to a customer; the other %d cost the list price.",
                      alternative->head, deal->first, deal->quantity - deal->first);
}

/* What is sold in the end follows the price of a new one; where there is none, what was paid. */
static void note_resale(struct tc_sheet *sheet, const struct tc_study *study,
                        const struct tc_alternative *alternative)
{
    struct tc_text things = TC_TEXT_EMPTY;
    const struct tc_cost *cost = &alternative->cost;
    if (alternative->prices.deal.known && !alternative->prices.deal.listed)
        tc_text_add(&things, "the tank");
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        const struct tc_slot_wish *wish = &alternative->c.wish[slot];
        if (offer && !offer->priced && !isnan(wish->price) && isnan(wish->next))
            tc_text_addf(&things, "%sthe %s", things.length > 0 ? ", " : "",
                         tc_slot_word((enum tc_slot)slot));
    }
    if (things.length > 0 && cost->paid[TC_LIFE_RESALE] != 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "%s: region %s has no list price for %s, so resale follows what was paid.",
                      alternative->head, study->region.name, tc_text_string(&things));
    if (things.failed)
        sheet->failed = true;
    tc_text_free(&things);
}

static void note_slots(struct tc_sheet *sheet, const struct tc_study *study,
                       const struct tc_alternative *alternative)
{
    char words[TC_WORDS_SIZE], part[TC_WORDS_SIZE];
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        if (filled->missing)
            tc_sheet_note(sheet, TC_NOTE_FAULT, "%s: %s, so its sums are incomplete. It needs %s.",
                          alternative->head,
                          tc_phrase_unfitted(sheet, alternative->c.offers, alternative->c.offer_count, slot),
                          tc_phrase_wanted(words, alternative, slot, study->units));
        if (tc_phrase_unpriced(alternative, slot))
            tc_sheet_note(
                sheet, TC_NOTE_FAULT, "%s: region %s has no price for %s %s, so its sums are incomplete.",
                alternative->head, study->region.name, tc_slot_word(slot), filled->offer->part->goods.name);
        if (filled->ill_fitting)
            tc_sheet_note(sheet, TC_NOTE_REMARK, "%s: the plan's %s does not fit: %s.", alternative->head,
                          tc_phrase_part(part, filled),
                          tc_phrase_reason(words, slot, &filled->reason, study->units));
    }
}

/* A price typed for a slot stays there when another part is chosen for it, unless one is named. */
static void note_typed(struct tc_sheet *sheet, const struct tc_alternative *alternative)
{
    const char *parts = "";
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        if (filled->offer && !filled->pinned && !isnan(alternative->c.wish[slot].price))
            parts = tc_sheet_format(sheet, "%s%s%s", parts, parts[0] ? ", " : "",
                                    filled->offer->part->goods.name);
    }
    if (parts[0])
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "%s: the price typed for a part is that of whichever is chosen, now %s; name the part to "
            "keep both together.",
            alternative->head, parts);
}

/* What its animals need and it does not give; and where it gets too warm, the cost that no figure holds. */
static void note_suit(struct tc_sheet *sheet, const struct tc_alternative *alternative,
                      enum tc_unit_system units)
{
    char value[TC_QUANTITY_SIZE], limit[TC_QUANTITY_SIZE], months[TC_WORDS_SIZE];
    const struct tc_lack *warm = tc_suit_lacks(&alternative->suit, TC_NEED_COOL);
    const char *short_of = lacks(sheet, alternative, units);
    if (*short_of)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "%s does not suit the animals.%s", alternative->head, short_of);
    if (!warm)
        return;
    tc_unit_quantity_write(value, warm->have, TC_DIM_TEMPERATURE, units, 1);
    tc_unit_quantity_write(limit, warm->wanted, TC_DIM_TEMPERATURE, units, 1);
    tc_phrase_months(months, warm->months);
    if (warm->accepted)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "%s: left alone its water would get %s warm (%s), past %s. You keep it cooler yourself: what "
            "the fan or chiller costs is missing from these figures.",
            alternative->head, value, months, limit);
    else
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "%s: its water gets %s warm (%s), past the %s its animals can take. It needs a fan or chiller, "
            "whose cost is missing here; with 'setup/cooling = own' you say that you see to it.",
            alternative->head, value, months, limit);
}

/* What is assumed of parts of which only the tag is known. */
static void note_unnamed(struct tc_sheet *sheet, const struct tc_alternative *alternative)
{
    const char *watts = "";
    bool any = false;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        if (!offer || strcmp(offer->part->goods.name, TC_UNNAMED) != 0)
            continue;
        any = true;
        if (tc_part_power(offer->part) > 0)
            watts = tc_sheet_format(sheet, "%s, %s %.0f W", watts, tc_slot_word((enum tc_slot)slot),
                                    tc_part_power(offer->part));
    }
    if (any)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "%s: of its unnamed parts only the price is known. Assumed: they fit, with the usual life "
            "and resale%s.",
            alternative->head, watts);
}

static void note_parts(struct tc_sheet *sheet, const struct tc_study *study,
                       const struct tc_alternative *alternative)
{
    if (!alternative->prices.deal.known)
        tc_sheet_note(sheet, TC_NOTE_FAULT, "%s: region %s has no price for it, so its sums are incomplete.",
                      alternative->head, study->region.name);
    note_slots(sheet, study, alternative);
    note_typed(sheet, alternative);
    note_unnamed(sheet, alternative);
}

void tc_note_fit(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++) {
        note_parts(sheet, study, &study->alternatives[i]);
        note_suit(sheet, &study->alternatives[i], study->units);
    }
}

void tc_note_alternatives(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        note_parts(sheet, study, alternative);
        note_sale(sheet, study, alternative);
        note_resale(sheet, study, alternative);
        note_suit(sheet, alternative, study->units);
    }
}

void tc_note_unpriced_extras(struct tc_sheet *sheet, const struct tc_study *study, const char *region,
                             struct tc_currency currency)
{
    const char *names = "";
    for (int i = 0; i < study->extra_count; i++)
        if (!tc_price_in(&study->extras[i]->amount, currency))
            names = tc_sheet_format(sheet, "%s%s%s", names, *names ? ", " : "", study->extras[i]->name);
    if (*names)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Not counted in %s, for want of an amount in %s: %s.", region,
                      currency.code, names);
}

void tc_note_not_counted(struct tc_sheet *sheet, const struct tc_study *study)
{
    bool timed = study->plan.hour_worth > 0;
    if (study->extra_count > 0)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "Beside your extras, \"to own\" holds no food, animals, plants, fertilizer, water tests, %sor "
            "getting rid of it all in the end.",
            timed ? "" : "time of yours, ");
    else
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "Not in \"to own\": food, animals, plants, fertilizer, water tests, %sand getting rid of it "
            "all in the end. An extra of your own adds such a line.",
            timed ? "" : "your time, ");
    tc_note_unpriced_extras(sheet, study, study->region.name, study->region.currency);
}
