/* SPDX-License-Identifier: MIT */
#include "sheet/list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/cost/cost.h"
#include "sheet/phrase.h"

enum column { COUNT, EACH, SUM, COLUMNS };

static void add_item(struct tc_sheet *sheet, const struct tc_study *study, const char *label, int count,
                     tc_money each, tc_money sum)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_number(sheet, COUNT, count, 0);
    tc_sheet_money(sheet, EACH, each, study->region.currency);
    tc_sheet_money(sheet, SUM, sum, study->region.currency);
}

static enum tc_status add_tanks(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_alternative *alternative)
{
    enum tc_status status = TC_OK;
    const struct tc_deal *deal = &alternative->prices.deal;
    const char *label =
        tc_sheet_format(sheet, "tank %s, %s", alternative->c.tank.goods.name, alternative->how);
    if (!deal->known) {
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_number(sheet, COUNT, deal->quantity, 0);
        tc_sheet_missing(sheet, SUM, "no price");
        return TC_OK;
    }
    add_item(sheet, study, label, deal->first, deal->each, tc_money_times(deal->each, deal->first, &status));
    if (deal->kind == TC_DEAL_TYPED) {
        tc_sheet_mark(sheet, EACH, TC_MARK_TYPED);
        char path[48];
        snprintf(path, sizeof path, "candidate %d/price", alternative->index + 1);
        tc_sheet_edit(sheet, EACH, path);
    }
    int rest = deal->quantity - deal->first;
    if (rest > 0)
        add_item(sheet, study, tc_sheet_format(sheet, "tank %s, list price", alternative->c.tank.goods.name),
                 rest, deal->list, tc_money_times(deal->list, rest, &status));
    return status;
}

/* What typing over the price of a part changes, and whether somebody did. */
static void mark_part(struct tc_sheet *sheet, const struct tc_alternative *alternative, enum tc_slot slot)
{
    char path[64];
    snprintf(path, sizeof path, "candidate %d/%s-price", alternative->index + 1, tc_slot_name(slot));
    tc_sheet_edit(sheet, EACH, path);
    if (!isnan(alternative->c.wish[slot].price))
        tc_sheet_mark(sheet, EACH, TC_MARK_TYPED);
    if (alternative->equipment.slot[slot].pinned)
        tc_sheet_mark(sheet, COUNT, TC_MARK_PINNED);
}

static void add_part(struct tc_sheet *sheet, const struct tc_study *study,
                     const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_filled *filled = &alternative->equipment.slot[slot];
    char words[TC_WORDS_SIZE];
    const char *subject = tc_phrase_subject(sheet, alternative->index, slot);
    if (filled->missing) {
        tc_sheet_row(sheet, TC_ROW_LINE,
                     tc_sheet_format(sheet, "%s: %s", tc_slot_name(slot),
                                     tc_phrase_wanted(words, alternative, slot, study->units)),
                     "");
        tc_sheet_about(sheet, subject);
        tc_sheet_missing(sheet, SUM, "none fits");
    }
    if (!filled->offer)
        return;
    const struct tc_goods *goods = &filled->offer->part->goods;
    /* The profile's name, and what the shop calls it. */
    bool titled = strcmp(goods->title, goods->name) != 0;
    const char *label = tc_sheet_format(sheet, "%s %s%s%s", tc_slot_name(slot), goods->name,
                                        titled ? ", " : "", titled ? goods->title : "");
    int all = tc_equipment_pieces(&alternative->c, &alternative->equipment, slot);
    int included = alternative->prices.included[slot] < all ? alternative->prices.included[slot] : all;
    tc_money sum = alternative->cost.buy[TC_BUY_SLOTS + slot];
    if (all > included && tc_phrase_unpriced(alternative, slot)) {
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_about(sheet, subject);
        tc_sheet_number(sheet, COUNT, all - included, 0);
        tc_sheet_missing(sheet, SUM, "no price");
    } else if (all > included) {
        add_item(sheet, study, label, all - included, sum / (all - included), sum);
        tc_sheet_about(sheet, subject);
        mark_part(sheet, alternative, slot);
    }
    if (included > 0) {
        add_item(sheet, study, tc_sheet_format(sheet, "%s, with the tank", label), included, 0, 0);
        tc_sheet_about(sheet, subject);
    }
}

static void add_extra(struct tc_sheet *sheet, const struct tc_study *study, const char *label, tc_money sum)
{
    if (sum == 0)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_money(sheet, SUM, sum, study->region.currency);
}

static enum tc_status add_entry(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_alternative *alternative)
{
    const struct tc_cost *cost = &alternative->cost;
    tc_sheet_row(sheet, TC_ROW_GROUP, alternative->head, "");
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, -1));
    enum tc_status status = add_tanks(sheet, study, alternative);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        add_part(sheet, study, alternative, (enum tc_slot)slot);
    add_extra(sheet, study, "special order fee", cost->buy[TC_BUY_FEE]);
    add_extra(sheet, study, "delivery", cost->buy[TC_BUY_DELIVERY]);
    add_extra(sheet, study, "sales tax", cost->buy[TC_BUY_TAX]);
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "to buy", "");
    tc_sheet_money(sheet, SUM, cost->to_buy, study->region.currency);
    if (cost->incomplete)
        tc_sheet_mark(sheet, SUM, TC_MARK_INCOMPLETE);
    return status;
}

enum tc_status tc_make_list(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    (void)ask;
    char assumptions[256];
    enum tc_status status = TC_OK;
    tc_sheet_start(sheet, "list", COLUMNS);
    tc_study_assumptions(study, assumptions, sizeof assumptions);
    tc_sheet_head(sheet, "What to carry to the till", assumptions, study->region.currency.code);
    tc_sheet_column(sheet, COUNT, "count", "");
    tc_sheet_column(sheet, EACH, "each", "");
    tc_sheet_column(sheet, SUM, "sum", "");
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        status = add_entry(sheet, study, &study->alternatives[i]);
    tc_phrase_entry_notes(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
