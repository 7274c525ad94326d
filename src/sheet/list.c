/* SPDX-License-Identifier: MIT */
#include "sheet/list.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/cost.h"
#include "sheet/caution.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_shared.h"
#include "sheet/derive_wall.h"
#include "sheet/note.h"
#include "sheet/phrase.h"
#include "sheet/search_budget.h"
#include "sheet/shops.h"
#include "sheet/wall_shops.h"
#include "sheet/wall_stages.h"
#include "sheet/wall_study.h"
#include "sheet/wall_study_cost.h"
#include "sheet/wall_study_share.h"

enum column { COUNT, EACH, SUM, COLUMNS };

/* How the three figures of an item came about; NULL: not told. */
struct item_terms {
    const struct tc_term *count, *each, *sum;
};

static void put_terms(struct tc_sheet *sheet, struct item_terms terms)
{
    tc_term_put(sheet, COUNT, terms.count);
    tc_term_put(sheet, EACH, terms.each);
    tc_term_put(sheet, SUM, terms.sum);
}

/* So many at a price each: count and price under the symbols m and p. */
static struct item_terms times(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_term *count, const struct tc_term *each, tc_money sum)
{
    if (!count || !each)
        return (struct item_terms){NULL, NULL, NULL};
    struct tc_term *term =
        tc_term_money(sheet, "S", "all of them", "round(m × p)", sum, study->region.currency);
    tc_term_add(sheet, term, tc_term_called(sheet, count, "m", count->words));
    tc_term_add(sheet, term, tc_term_called(sheet, each, "p", each->words));
    return (struct item_terms){count, each, term};
}

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
    const char *subject = tc_sheet_format(sheet, "candidate %d/tank", alternative->index + 1);
    if (!deal->known) {
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_about(sheet, subject);
        tc_sheet_number(sheet, COUNT, deal->quantity, 0);
        tc_term_put(sheet, COUNT, tc_derive_bought(tc_derive_of(sheet, study, alternative), true));
        tc_sheet_missing(sheet, SUM, "no price");
        return TC_OK;
    }
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    tc_money first = tc_money_times(deal->each, deal->first, &status);
    add_item(sheet, study, label, deal->first, deal->each, first);
    tc_sheet_about(sheet, subject);
    put_terms(sheet,
              times(sheet, study, tc_derive_bought(derive, true), tc_derive_tank_price(derive), first));
    if (deal->kind == TC_DEAL_TYPED) {
        tc_sheet_mark(sheet, EACH, TC_MARK_TYPED);
        char path[48];
        snprintf(path, sizeof path, "candidate %d/price", alternative->index + 1);
        tc_sheet_edit(sheet, EACH, path);
    }
    int rest = deal->quantity - deal->first;
    if (rest > 0) {
        tc_money sum = tc_money_times(deal->list, rest, &status);
        add_item(sheet, study, tc_sheet_format(sheet, "tank %s, list price", alternative->c.tank.goods.name),
                 rest, deal->list, sum);
        tc_sheet_about(sheet, tc_sheet_format(sheet, "%s at list price", subject));
        put_terms(sheet,
                  times(sheet, study, tc_derive_bought(derive, false), tc_derive_list_price(derive), sum));
    }
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

/* Pieces of a slot that are bought. */
static const struct tc_term *part_count(struct tc_sheet *sheet, struct tc_derive *derive, enum tc_slot slot,
                                        int all, int included)
{
    const struct tc_term *pieces = tc_derive_pieces(derive, slot);
    if (!pieces || included == 0)
        return pieces;
    struct tc_term *term =
        tc_term_computed(sheet, "m", "pieces that are bought", "c - i", all - included, "");
    tc_term_add(sheet, term, pieces);
    tc_term_add(sheet, term, tc_derive_included(derive, slot, included));
    return term;
}

/* The profile's name of what fills a slot, and what the shop calls it. */
static const char *part_label(struct tc_sheet *sheet, const struct tc_filled *filled)
{
    const struct tc_goods *goods = &filled->offer->part->goods;
    bool titled = strcmp(goods->title, goods->name) != 0;
    return tc_sheet_format(sheet, "%s %s%s%s", tc_slot_word(filled->offer->part->slot), goods->name,
                           titled ? ", " : "", titled ? goods->title : "");
}

/* What is bought for a slot, or is missing. */
static void add_part(struct tc_sheet *sheet, const struct tc_study *study,
                     const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_filled *filled = &alternative->equipment.slot[slot];
    char words[TC_WORDS_SIZE];
    const char *subject = tc_phrase_subject(sheet, alternative->index, (int)slot);
    if (filled->missing) {
        tc_sheet_row(sheet, TC_ROW_LINE,
                     tc_sheet_format(sheet, "%s: %s", tc_slot_word(slot),
                                     tc_phrase_wanted(words, alternative, slot, study->units)),
                     "");
        tc_sheet_about(sheet, subject);
        tc_sheet_missing(sheet, SUM, tc_phrase_unfilled(alternative, slot));
    }
    if (!filled->offer)
        return;
    const char *label = part_label(sheet, filled);
    int all = tc_equipment_pieces(&alternative->c, &alternative->equipment, slot);
    int included = alternative->prices.included[slot] < all ? alternative->prices.included[slot] : all;
    tc_money sum = alternative->cost.buy[TC_BUY_SLOTS + slot];
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    if (all > included && tc_phrase_unpriced(alternative, slot)) {
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_about(sheet, subject);
        tc_sheet_number(sheet, COUNT, all - included, 0);
        tc_term_put(sheet, COUNT, part_count(sheet, derive, slot, all, included));
        tc_sheet_missing(sheet, SUM, "no price");
    } else if (all > included) {
        add_item(sheet, study, label, all - included, sum / (all - included), sum);
        const struct tc_term *count = part_count(sheet, derive, slot, all, included);
        struct item_terms terms = times(sheet, study, count, tc_derive_piece_price(derive, slot), sum);
        put_terms(sheet, terms);
        tc_sheet_about(sheet, subject);
        mark_part(sheet, alternative, slot);
    }
}

/* Pieces of a slot that come with the tank. */
static void add_included(struct tc_sheet *sheet, const struct tc_study *study,
                         const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_filled *filled = &alternative->equipment.slot[slot];
    int all = filled->offer ? tc_equipment_pieces(&alternative->c, &alternative->equipment, slot) : 0;
    int included = alternative->prices.included[slot] < all ? alternative->prices.included[slot] : all;
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    if (included <= 0)
        return;
    add_item(sheet, study, tc_sheet_format(sheet, "%s, with the tank", part_label(sheet, filled)), included,
             0, 0);
    if (derive) {
        const struct tc_term *free = tc_derive_included(derive, slot, included);
        const struct tc_term *price = tc_derive_model(derive, "p", "it comes with the tank", 0,
                                                      study->region.currency.code, "PRICES AND SALES");
        put_terms(sheet, times(sheet, study, free, price, 0));
    }
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, (int)slot));
}

static void add_charge(struct tc_sheet *sheet, const struct tc_study *study, const char *label, tc_money sum,
                       const struct tc_term *term)
{
    if (sum == 0)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_money(sheet, SUM, sum, study->region.currency);
    tc_term_put(sheet, SUM, term);
}

/* What is paid at a shop beside its goods. */
static void add_shop_charges(struct tc_sheet *sheet, const struct tc_study *study,
                             const struct tc_alternative *alternative, int place,
                             const struct tc_receipt *receipt, tc_money sum)
{
    const char *subject = tc_phrase_subject(sheet, alternative->index, -1);
    const char *shop = study->shops[place]->name;
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "goods", "");
    tc_sheet_about(sheet, tc_sheet_format(sheet, "%s/goods at %s", subject, shop));
    tc_sheet_money(sheet, SUM, receipt->goods, study->region.currency);
    tc_term_put(sheet, SUM, tc_derive_at_shop(derive, TC_BUY_TANK, place, 0));
    add_charge(sheet, study, "special order fee", receipt->fee, tc_derive_buy(derive, TC_BUY_FEE));
    add_charge(sheet, study, study->fetched[place] ? "fetching it" : "delivery", receipt->delivery,
               tc_derive_at_shop(derive, TC_BUY_DELIVERY, place, 0));
    add_charge(sheet, study, "sales tax", receipt->tax, tc_derive_at_shop(derive, TC_BUY_TAX, place, 0));
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, tc_sheet_format(sheet, "to pay at %s", shop), "");
    tc_sheet_about(sheet, tc_sheet_format(sheet, "%s/paid at %s", subject, shop));
    tc_sheet_money(sheet, SUM, sum, study->region.currency);
    tc_term_put(sheet, SUM, tc_derive_at_shop(derive, TC_BUY_COUNT, place, sum));
}

/* What is bought at one shop of the market. */
static enum tc_status add_shop(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_alternative *alternative, int place)
{
    const struct tc_cost *cost = &alternative->cost;
    const char *subject = tc_phrase_subject(sheet, alternative->index, -1);
    struct tc_receipt receipt;
    enum tc_status status = tc_purchase_receipt(&alternative->c, cost->buy, cost->shop, place, &receipt);
    if (status != TC_OK || !receipt.any)
        return status;
    const char *shop = study->shops[place]->name;
    tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "%s, at %s", alternative->head, shop), "");
    tc_sheet_about(sheet, tc_sheet_format(sheet, "%s at %s", subject, shop));
    if (cost->shop[TC_BUY_TANK] == place)
        status = add_tanks(sheet, study, alternative);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        if (cost->shop[TC_BUY_SLOTS + slot] == place)
            add_part(sheet, study, alternative, (enum tc_slot)slot);
        if (cost->shop[TC_BUY_TANK] == place)
            add_included(sheet, study, alternative, (enum tc_slot)slot);
    }
    add_shop_charges(sheet, study, alternative, place, &receipt, tc_receipt_sum(&receipt, &status));
    return status;
}

/* What no shop sells, extras, and the sum. */
static enum tc_status add_no_shop(struct tc_sheet *sheet, const struct tc_study *study,
                                  const struct tc_alternative *alternative)
{
    const struct tc_cost *cost = &alternative->cost;
    enum tc_status status = TC_OK;
    tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "%s, in all", alternative->head), "");
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, -1));
    if (cost->shop[TC_BUY_TANK] < 0)
        status = add_tanks(sheet, study, alternative);
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        bool bought =
            tc_purchase_pieces(&alternative->c, &alternative->equipment, &alternative->prices, slot) > 0;
        if (cost->shop[TC_BUY_SLOTS + i] < 0 && (bought || alternative->equipment.slot[i].missing))
            add_part(sheet, study, alternative, slot);
    }
    return status;
}

static enum tc_status add_alternative(struct tc_sheet *sheet, const struct tc_study *study,
                                      const struct tc_alternative *alternative)
{
    const struct tc_cost *cost = &alternative->cost;
    bool one = !alternative->c.market;
    enum tc_status status = TC_OK;
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    for (int s = 0; !one && status == TC_OK && s < study->market.count; s++)
        status = add_shop(sheet, study, alternative, s);
    if (!one && status == TC_OK)
        status = add_no_shop(sheet, study, alternative);
    if (one) {
        tc_sheet_row(sheet, TC_ROW_GROUP, alternative->head, "");
        tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, -1));
        status = add_tanks(sheet, study, alternative);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            add_part(sheet, study, alternative, (enum tc_slot)slot);
            add_included(sheet, study, alternative, (enum tc_slot)slot);
        }
        add_charge(sheet, study, "special order fee", cost->buy[TC_BUY_FEE],
                   tc_derive_buy(derive, TC_BUY_FEE));
        add_charge(sheet, study, study->fetched[0] ? "fetching it" : "delivery", cost->buy[TC_BUY_DELIVERY],
                   tc_derive_buy(derive, TC_BUY_DELIVERY));
        add_charge(sheet, study, "sales tax", cost->buy[TC_BUY_TAX], tc_derive_buy(derive, TC_BUY_TAX));
    }
    for (int i = 0; i < study->extra_count; i++)
        if (study->extras[i]->once)
            add_charge(sheet, study, study->extras[i]->title, cost->extra[i], tc_derive_extra(derive, i));
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "to buy", "");
    tc_sheet_money(sheet, SUM, cost->to_buy, study->region.currency);
    tc_term_put(sheet, SUM, tc_derive_to_buy(derive));
    if (cost->incomplete)
        tc_sheet_mark(sheet, SUM, TC_MARK_INCOMPLETE);
    return status;
}

/* ------------------------------------------------------------------------- the list of a wall */

/* Something that all tanks share, so many at a price each. */
static void add_shared(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const char *label,
                       int count, int line, const struct tc_offer *offer, tc_money each,
                       enum tc_status *status)
{
    const struct tc_study *study = wall_study->study;
    const struct tc_term *pieces = NULL, *price = NULL;
    if (count == 0)
        return;
    tc_derive_wall_thing(tc_derive_wall(sheet, wall_study, &wall_study->layouts[0]), offer, line, count,
                         &pieces, &price);
    if (offer && !offer->priced) {
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_number(sheet, COUNT, count, 0);
        tc_term_put(sheet, COUNT, pieces);
        tc_sheet_missing(sheet, SUM, "no price");
        return;
    }
    tc_money sum = tc_money_times(each, count, status);
    add_item(sheet, study, label, count, each, sum);
    put_terms(sheet, times(sheet, study, pieces, price, sum));
}

/* A spanning light of a model, and the tanks' own beside it. */
static void add_lights(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int model,
                       enum tc_status *status)
{
    const struct tc_wall_study_sharing *share = &wall_study->layouts[0].share;
    const struct tc_alternative *alternative = &wall_study->alternatives[model];
    const struct tc_offer *over = share->light[model];
    const struct tc_offer *own = alternative->equipment.slot[TC_SLOT_LIGHT].offer;
    if (!over)
        return;
    add_shared(sheet, wall_study,
               tc_sheet_format(sheet, "light %s, over tiers of %s", over->part->goods.name,
                               alternative->c.tank.goods.name),
               share->light_count[model], TC_BUY_SLOTS + TC_SLOT_LIGHT, over, over->price, status);
    if (own)
        add_shared(sheet, wall_study,
                   tc_sheet_format(sheet, "light %s, on other %s", own->part->goods.name,
                                   alternative->c.tank.goods.name),
                   share->lights_left[model], TC_BUY_SLOTS + TC_SLOT_LIGHT, own, own->price, status);
}

/* What serves all tanks: the rack, pumps, lights over tiers, timers; delivery; the tax on these. */
static enum tc_status add_rest(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                               const tc_money *models)
{
    enum tc_status status = TC_OK;
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_study *study = wall_study->study;
    const struct tc_wall_plan *plan = &study->plan.wall;
    struct tc_currency currency = study->region.currency;
    int tiers = tc_wall_study_tiers(layout);
    struct tc_derive *wall = tc_derive_wall(sheet, wall_study, layout);
    tc_sheet_row(sheet, TC_ROW_GROUP, "For all tanks together", "");
    add_shared(sheet, wall_study, tc_sheet_format(sheet, "rack, tiers of %d bays", layout->mix.bays), tiers,
               TC_BUY_SLOTS + TC_SLOT_STAND, NULL, tc_currency_money(currency, plan->rack_price, &status),
               &status);
    if (layout->share.air)
        add_shared(sheet, wall_study,
                   tc_sheet_format(sheet, "air pump %s", layout->share.air->part->goods.name),
                   layout->share.air_count, TC_BUY_SLOTS + TC_SLOT_AIR_PUMP, layout->share.air,
                   layout->share.air->price, &status);
    for (int i = 0; i < layout->mix.models; i++)
        add_lights(sheet, wall_study, i, &status);
    add_shared(sheet, wall_study, "timer", tc_wall_study_timers(wall_study, layout),
               TC_BUY_SLOTS + TC_SLOT_LIGHT, NULL, tc_currency_money(currency, plan->timer_price, &status),
               &status);
    if (layout->heated && plan->room.heater_price > 0)
        add_shared(sheet, wall_study, "heater of the room", 1, TC_BUY_SLOTS + TC_SLOT_HEATER, NULL,
                   tc_currency_money(currency, plan->room.heater_price, &status), &status);
    for (int line = TC_BUY_SLOTS + TC_SLOT_COUNT; line < TC_BUY_COUNT; line++) {
        tc_money rest = tc_money_subtract(layout->cost.buy[line], models[line], &status);
        add_charge(sheet, study,
                   line == TC_BUY_DELIVERY ? "delivery"
                   : line == TC_BUY_TAX    ? "sales tax"
                   : line == TC_BUY_EXTRAS ? "extras"
                                           : "fees",
                   rest, tc_derive_buy(tc_derive_wall_shared(wall), line));
    }
    tc_sheet_row(sheet, TC_ROW_TOTAL, "to buy, everything", "");
    tc_sheet_money(sheet, SUM, layout->cost.to_buy, currency);
    tc_term_put(sheet, SUM, tc_derive_to_buy(wall));
    if (layout->cost.incomplete)
        tc_sheet_mark(sheet, SUM, TC_MARK_INCOMPLETE);
    return status;
}

static enum tc_status add_models(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    tc_money models[TC_BUY_COUNT] = {0};
    struct tc_alternative *bought = malloc(sizeof *bought);
    enum tc_status status = bought ? TC_OK : TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        status = tc_wall_study_bought(wall_study, layout, i, NULL, bought);
        snprintf(bought->head, sizeof bought->head, "%d × %s", layout->mix.count[i],
                 bought->c.tank.goods.name);
        tc_derive_counted(sheet, wall_study->study, bought, tc_derive_shared_counted);
        if (status == TC_OK)
            status = add_alternative(sheet, wall_study->study, bought);
        tc_derive_forget(sheet); /* it is another one next time */
        for (int line = 0; line < TC_BUY_COUNT; line++)
            models[line] = tc_money_add(models[line], bought->cost.buy[line], &status);
    }
    free(bought);
    return status == TC_OK ? add_rest(sheet, wall_study, models) : status;
}

static enum tc_status add_wall(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_ask *ask)
{
    struct tc_search_budget search;
    struct tc_wall_study wall_study;
    tc_search_budget_start(&search, ask);
    enum tc_status status = tc_wall_study_make(&wall_study, study, ask, &search);
    const struct tc_layout *layout = &wall_study.layouts[0];
    if (status == TC_OK && (layout->found != TC_OK || layout->mix.tanks == 0)) {
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "No arrangement meets the limits of this wall, so there is nothing to buy; the sheet "
                      "wall says why.");
    } else if (status == TC_OK) {
        char money[TC_WORDS_SIZE];
        status = add_models(sheet, &wall_study);
        tc_sheet_note(sheet, TC_NOTE_FINDING, "For the wall: %d tanks and %d bays of rack, %s to buy.",
                      layout->mix.tanks, layout->mix.bays,
                      tc_phrase_money(money, layout->cost.to_buy, study->region.currency));
        if (status == TC_OK)
            status = tc_wall_add_shops(sheet, &wall_study, COUNT, EACH, SUM);
        if (status == TC_OK)
            status = tc_wall_add_stages(sheet, &wall_study, COUNT, SUM);
    }
    tc_wall_study_free(&wall_study);
    return status;
}

enum tc_status tc_make_list(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    enum tc_status status = TC_OK;
    bool wall = tc_plan_has_wall(&study->plan);
    tc_sheet_start(sheet, "list", COLUMNS);
    sheet->facts = true;
    sheet->explained = ask->explain;
    tc_phrase_head(sheet, study, "Shopping list", study->region.currency.code);
    tc_sheet_column(sheet, COUNT, "count", "");
    tc_sheet_column(sheet, EACH, "each", "");
    tc_sheet_column(sheet, SUM, "sum", "");
    if (wall)
        status = add_wall(sheet, study, ask);
    for (int i = 0; !wall && status == TC_OK && i < study->alternative_count; i++)
        status = add_alternative(sheet, study, &study->alternatives[i]);
    for (int i = 0; !wall && status == TC_OK && i < study->alternative_count; i++)
        status = tc_shops_compare(sheet, study, &study->alternatives[i]);
    if (!wall && status == TC_OK)
        status = tc_shops_tell_best(sheet, study);
    if (!wall)
        tc_note_alternatives(sheet, study);
    tc_cautions(sheet,
                TC_CAUTION_ELECTRICITY | TC_CAUTION_GLASS | TC_CAUTION_STAND | (wall ? TC_CAUTION_RACK : 0),
                study->units);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
