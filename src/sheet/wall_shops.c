/* SPDX-License-Identifier: MIT */
#include "sheet/wall_shops.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/basket.h"
#include "sheet/phrase.h"
#include "sheet/study_market.h"
#include "sheet/term.h"
#include "sheet/wall_study_cost.h"

/* Things of one kind that are bought at one shop. */
struct thing {
    int slot;                     /* -1: tanks */
    const struct tc_goods *goods; /* NULL: the rack and all else that no shop lists */
    const struct tc_sale *sale;   /* of the own shop, in which they are */
    const char *pinned;           /* the shop that the plan names; "": any */
    bool typed;                   /* its price was */
    int count;
    tc_money own; /* for all of them at the own shop; TC_NOT_SOLD */
};

struct purchase {
    const struct tc_study *study;
    struct thing thing[TC_BASKET_ITEMS_MAX];
    struct tc_basket basket; /* the own shop first */
    struct tc_basket_answer own, best;
    bool several, pinned, full; /* several: each thing where it costs least; pinned: some by name */
    const struct thing *missed; /* NULL, or one that the shop named for it does not sell */
    enum tc_status status;
    struct tc_alternative bought; /* room to work */
};

/* Adds things to those of the same kind, or as a new kind. */
static void add_thing(struct purchase *p, const struct thing *thing)
{
    int k = 0;
    if (thing->count == 0)
        return;
    while (k < p->basket.item_count &&
           (p->thing[k].typed || thing->typed || p->thing[k].slot != thing->slot ||
            strcmp(p->thing[k].goods->name, thing->goods->name) != 0 || p->thing[k].sale != thing->sale ||
            strcmp(p->thing[k].pinned, thing->pinned) != 0))
        k++;
    if (k == TC_BASKET_ITEMS_MAX) {
        p->full = true;
        return;
    }
    p->pinned = p->pinned || thing->pinned[0];
    if (k == p->basket.item_count) {
        p->thing[p->basket.item_count++] = *thing;
        return;
    }
    p->thing[k].count += thing->count;
    p->thing[k].own = tc_money_add(p->thing[k].own, thing->own, &p->status);
}

/* The tanks of a model, those in a sale apart, and their parts. */
static void add_model(struct purchase *p, int model)
{
    const struct tc_alternative *a = &p->bought;
    const struct tc_candidate *plan = p->study->alternatives[model].plan;
    const struct tc_deal *deal = &a->prices.deal;
    struct thing tanks = {.slot = -1,
                          .goods = &p->study->alternatives[model].c.tank.goods,
                          .sale = deal->sale,
                          .pinned = plan->shop,
                          .typed = deal->kind == TC_DEAL_TYPED,
                          .count = deal->first,
                          .own = tc_money_times(deal->each, deal->first, &p->status)};
    if (!deal->known)
        return;
    add_thing(p, &tanks);
    tanks.sale = NULL;
    tanks.count = deal->quantity - deal->first;
    tanks.own = tc_money_times(deal->list, tanks.count, &p->status);
    add_thing(p, &tanks);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = a->equipment.slot[slot].offer;
        if (!offer)
            continue;
        add_thing(p, &(struct thing){
                         .slot = slot,
                         .goods = &offer->part->goods,
                         .pinned = plan->pin[slot].shop,
                         .typed = !isnan(a->c.wish[slot].price),
                         .count = tc_purchase_pieces(&a->c, &a->equipment, &a->prices, (enum tc_slot)slot),
                         .own = a->cost.buy[TC_BUY_SLOTS + slot]});
    }
}

static void add_offer(struct purchase *p, int slot, const struct tc_offer *offer, int count)
{
    if (offer && offer->priced)
        add_thing(p, &(struct thing){.slot = slot,
                                     .goods = &offer->part->goods,
                                     .pinned = "",
                                     .count = count,
                                     .own = tc_money_times(offer->price, count, &p->status)});
}

static void list_things(struct purchase *p, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    for (int i = 0; p->status == TC_OK && i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        p->status = tc_wall_study_bought(wall_study, layout, i, NULL, &p->bought);
        if (p->status == TC_OK)
            add_model(p, i);
    }
    add_offer(p, TC_SLOT_AIR_PUMP, layout->share.air, layout->share.air_count);
    for (int i = 0; i < layout->mix.models; i++) {
        add_offer(p, TC_SLOT_LIGHT, layout->share.light[i], layout->share.light_count[i]);
        if (layout->share.light[i])
            add_offer(p, TC_SLOT_LIGHT, wall_study->alternatives[i].equipment.slot[TC_SLOT_LIGHT].offer,
                      layout->share.lights_left[i]);
    }
    tc_money rest = tc_money_sum(layout->cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &p->status);
    for (int k = 0; k < p->basket.item_count; k++)
        rest = tc_money_subtract(rest, p->thing[k].own, &p->status);
    if (rest > 0)
        add_thing(
            p, &(struct thing){.slot = TC_SLOT_STAND, .pinned = "", .typed = true, .count = 1, .own = rest});
}

/* What each shop asks for a thing. */
static void ask_shops(struct purchase *p, int k)
{
    const struct tc_study *study = p->study;
    const struct thing *thing = &p->thing[k];
    struct tc_basket_item *item = &p->basket.item[k];
    int only = thing->pinned[0]           ? tc_study_shop_place(study, thing->pinned)
               : p->pinned && !p->several ? 0
                                          : -1;
    for (int s = 0; s < p->basket.shop_count; s++) {
        double asked;
        item->price[s] = s == 0 ? thing->own : TC_NOT_SOLD;
        item->fee[s] = 0;
        if (s > 0 && !thing->typed &&
            tc_stock_asked(study->stock, &study->region, study->shops[s], thing->slot, thing->goods, &asked))
            item->price[s] = tc_money_times(tc_currency_money(study->region.currency, asked, &p->status),
                                            thing->count, &p->status);
    }
    p->own.shop[k] = 0;
    if (only < 0)
        return;
    if (item->price[only] == TC_NOT_SOLD) {
        p->missed = thing;
        only = 0;
    }
    for (int s = 0; s < p->basket.shop_count; s++)
        if (s != only)
            item->price[s] = TC_NOT_SOLD;
}

/* ------------------------------------------------------------------------- what is said */

static const char by_shop[] = "each thing where it costs least with delivery and tax: core/cost/basket.h";

/* "tank 20-long, sale tank-fair". */
static const char *thing_words(struct tc_sheet *sheet, const struct thing *thing, bool own)
{
    if (!thing->goods)
        return "rack, and what no shop lists";
    bool sale = thing->sale && own;
    return tc_sheet_format(sheet, "%s %s%s%s",
                           thing->slot < 0 ? "tank" : tc_slot_word((enum tc_slot)thing->slot),
                           thing->goods->name, sale ? ", sale " : "", sale ? thing->sale->name : "");
}

/* The rows of one shop. */
static void add_shop(struct tc_sheet *sheet, struct purchase *p, int shop, size_t count, size_t each,
                     size_t sum)
{
    struct tc_currency currency = p->study->region.currency;
    const char *name = p->study->shops[shop]->name;
    tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "To buy at %s", name), "");
    for (int k = 0; k < p->basket.item_count; k++) {
        const struct thing *thing = &p->thing[k];
        tc_money paid = p->basket.item[k].price[shop];
        if (p->best.shop[k] != shop)
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, thing_words(sheet, thing, shop == 0), "");
        tc_sheet_about(sheet, tc_sheet_format(sheet, "%s %d", name, k));
        tc_sheet_number(sheet, count, thing->count, 0);
        tc_term_put_worked_out(sheet, count, "pieces", by_shop);
        tc_sheet_money(sheet, each, paid / thing->count, currency);
        tc_term_put_worked_out(sheet, each, "price of one there", by_shop);
        tc_sheet_money(sheet, sum, paid, currency);
        tc_term_put_worked_out(sheet, sum, "what they cost there", by_shop);
    }
    if (p->best.delivered[shop]) {
        tc_sheet_row(sheet, TC_ROW_LINE, "delivery", "");
        tc_sheet_money(sheet, sum, p->basket.shop[shop].delivery, currency);
        tc_term_put_worked_out(sheet, sum, "delivery of this shop", by_shop);
    }
}

static void tell(struct tc_sheet *sheet, const struct purchase *p, const struct tc_layout *layout,
                 tc_money less)
{
    struct tc_currency currency = p->study->region.currency;
    char money[TC_WORDS_SIZE], gap[TC_WORDS_SIZE];
    const char *own = p->study->shops[0]->name;
    enum tc_status status = TC_OK;
    tc_phrase_money(money, tc_money_subtract(layout->cost.to_buy, less, &status), currency);
    tc_phrase_money(gap, less < 0 ? -less : less, currency);
    if (p->several || p->pinned)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "Bought by shop, as listed below, it comes to %s: %s %s all at %s.", money,
                      less == 0 ? "as much" : gap,
                      less == 0  ? "as"
                      : less < 0 ? "more than"
                                 : "less than",
                      own);
    else if (less > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Buying each thing where it costs least would save %s. 'plan/shop = several' lists it "
                      "by shop.",
                      gap);
    else
        tc_sheet_note(sheet, TC_NOTE_REMARK, "No other shop makes it cheaper than all at %s.", own);
    if (p->missed)
        tc_sheet_note(sheet, TC_NOTE_FAULT, "%s does not sell %s: it is taken from %s.", p->missed->pinned,
                      thing_words(sheet, p->missed, false), own);
    if (p->best.unsold > 0)
        tc_sheet_note(sheet, TC_NOTE_FAULT, "Something is sold by no shop of this region.");
}

static void add_all(struct tc_sheet *sheet, struct purchase *p, const struct tc_layout *layout, size_t count,
                    size_t each, size_t sum)
{
    tc_money less = tc_money_round(p->own.paid - p->best.paid, &p->status);
    bool listed = p->several || p->pinned;
    for (int s = 0; listed && s < p->basket.shop_count; s++)
        if (p->best.used[s])
            add_shop(sheet, p, s, count, each, sum);
    if (listed) {
        tc_sheet_row(sheet, TC_ROW_TOTAL, "to buy by shop, with the rack and tax", "");
        tc_sheet_money(sheet, sum, tc_money_subtract(layout->cost.to_buy, less, &p->status),
                       p->study->region.currency);
        tc_term_put_worked_out(sheet, sum, "what is paid at all shops", by_shop);
    }
    tell(sheet, p, layout, less);
}

enum tc_status tc_wall_add_shops(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, size_t count,
                                 size_t each, size_t sum)
{
    const struct tc_study *study = wall_study->study;
    if (!study->shop || study->shop_count < 2)
        return TC_OK;
    struct purchase *p = calloc(1, sizeof *p);
    if (!p)
        return TC_NO_MEMORY;
    p->study = study;
    p->several = tc_plan_several(&study->plan);
    p->basket.shop_count = study->shop_count;
    memcpy(p->basket.shop, study->market.shop, sizeof p->basket.shop);
    list_things(p, wall_study);
    for (int k = 0; k < p->basket.item_count; k++)
        ask_shops(p, k);
    if (p->status == TC_OK && p->full) {
        tc_sheet_note(sheet, TC_NOTE_REMARK, "There are too many things to spread over shops.");
    } else if (p->status == TC_OK) {
        /* What it costs at the own shop, whatever is pinned. */
        struct tc_basket *basket = malloc(sizeof *basket);
        if (basket) {
            *basket = p->basket;
            for (int k = 0; k < basket->item_count; k++)
                basket->item[k].price[0] = p->thing[k].own;
            tc_basket_add_up(basket, &p->own);
            p->status = tc_basket_spread(&p->basket, &p->best);
        } else {
            p->status = TC_NO_MEMORY;
        }
        free(basket);
        if (p->status == TC_OK)
            add_all(sheet, p, &wall_study->layouts[0], count, each, sum);
    }
    enum tc_status status = p->status;
    free(p);
    return status;
}
