/* SPDX-License-Identifier: MIT */
#include "sheet/shops.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"
#include "core/cost/basket.h"
#include "sheet/phrase.h"

/* What is bought, and who sells it. */
struct purchase {
    const struct tc_study *study;
    const struct tc_alternative *alternative;
    const struct tc_shop *shop[TC_BASKET_SHOPS_MAX]; /* the study's own first */
    int slot[TC_SLOT_COUNT + 1];                     /* of each item; -1: the tank */
    struct tc_basket basket;
    bool advise; /* one alternative is spoken of: findings, without its name */
    enum tc_status status;
};

static void add_shop(struct purchase *p, const struct tc_shop *shop, double delivery, double free_from)
{
    struct tc_currency currency = p->study->region.currency;
    p->shop[p->basket.shop_count] = shop;
    p->basket.shop[p->basket.shop_count++] = (struct tc_basket_shop){
        .delivery = tc_currency_money(currency, delivery, &p->status),
        .free_from = tc_currency_money(currency, free_from, &p->status),
        .tax = shop->seller == TC_SELLER_PRIVATE ? 0 : tc_region_added_tax(&p->study->region),
    };
}

static void list_shops(struct purchase *p)
{
    const struct tc_study *study = p->study;
    const struct tc_stock *stock = study->stock;
    add_shop(p, study->shop, study->region.delivery, study->region.delivery_free_from);
    for (size_t i = 0; i < stock->shop_count && p->basket.shop_count < TC_BASKET_SHOPS_MAX; i++) {
        const struct tc_shop *shop = &stock->shops[i];
        if (strcmp(shop->region, study->region.name) == 0 && strcmp(shop->name, study->shop->name) != 0)
            add_shop(p, shop, shop->delivery, shop->delivery_free_from);
    }
}

/* An item paid with `paid` at the study's own shop, so many pieces of it; `typed`: nobody else is asked. */
static void add_item(struct purchase *p, int slot, const struct tc_goods *goods, int pieces, tc_money paid,
                     tc_money fee, bool typed)
{
    struct tc_basket_item *item = &p->basket.item[p->basket.item_count];
    p->slot[p->basket.item_count++] = slot;
    item->price[0] = paid;
    item->fee[0] = fee;
    for (int i = 1; i < p->basket.shop_count; i++) {
        double asked;
        item->price[i] = TC_NOT_SOLD;
        if (!typed && tc_stock_asked(p->study->stock, &p->study->region, p->shop[i], slot, goods, &asked))
            item->price[i] = tc_money_times(tc_currency_money(p->study->region.currency, asked, &p->status),
                                            pieces, &p->status);
    }
}

static void list_items(struct purchase *p)
{
    const struct tc_alternative *a = p->alternative;
    const tc_money *buy = a->cost.buy;
    const struct tc_deal *deal = &a->prices.deal;
    bool bundle = false;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        bundle = bundle || a->prices.included[slot] > 0;
    /* What comes along with a tank comes only from where the tank is bought. */
    if (deal->known)
        add_item(p, -1, &a->c.tank.goods, deal->quantity, buy[TC_BUY_TANK], buy[TC_BUY_FEE],
                 bundle || deal->kind == TC_DEAL_TYPED);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = a->equipment.slot[slot].offer;
        int pieces = tc_equipment_pieces(&a->c, &a->equipment, (enum tc_slot)slot) - a->prices.included[slot];
        if (offer && pieces > 0 && buy[TC_BUY_SLOTS + slot] > 0)
            add_item(p, slot, &offer->part->goods, pieces, buy[TC_BUY_SLOTS + slot], 0,
                     !isnan(a->c.wish[slot].price));
    }
}

/* "lid and light at mill-pond, tank at cellar-find", of what is bought elsewhere. */
static void name_elsewhere(const struct purchase *p, const struct tc_basket_answer *answer,
                           struct tc_text *text)
{
    for (int shop = 1; shop < p->basket.shop_count; shop++) {
        int left = 0, named = 0;
        for (int i = 0; i < p->basket.item_count; i++)
            left += answer->shop[i] == shop;
        if (left > 0 && tc_text_string(text)[0])
            tc_text_add(text, ", ");
        for (int i = 0; i < p->basket.item_count; i++) {
            if (answer->shop[i] != shop)
                continue;
            tc_text_add(text, named == 0 ? "" : --left > 1 ? ", " : " and ");
            tc_text_add(text, p->slot[i] < 0 ? "tank" : tc_slot_word((enum tc_slot)p->slot[i]));
            named++;
        }
        if (named > 0)
            tc_text_addf(text, " at %s", p->shop[shop]->name);
    }
}

/* A sentence on the alternative, which starts with a figure or a word in small letters; empty where memory
 * ran out. */
static void say(struct tc_sheet *sheet, const struct purchase *p, const char *sentence)
{
    if (!sentence[0])
        return;
    if (p->advise)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%c%s", toupper((unsigned char)sentence[0]), sentence + 1);
    else
        tc_sheet_note(sheet, TC_NOTE_REMARK, "%s: %s", p->alternative->head, sentence);
}

/* What the own shop would bring for nothing, were a little more bought there. */
static void tell_free_delivery(struct tc_sheet *sheet, const struct purchase *p,
                               const struct tc_basket_answer *own)
{
    const struct tc_basket_shop *shop = &p->basket.shop[0];
    tc_money short_of = shop->free_from - own->goods[0];
    char more[TC_WORDS_SIZE], delivery[TC_WORDS_SIZE];
    if (own->delivered[0] && shop->free_from > 0 && short_of < shop->delivery)
        say(sheet, p,
            tc_sheet_format(sheet, "%s more at %s makes delivery free, which saves %s.",
                            tc_phrase_money(more, short_of, p->study->region.currency), p->shop[0]->name,
                            tc_phrase_money(delivery, shop->delivery, p->study->region.currency)));
}

static void tell_spread(struct tc_sheet *sheet, struct purchase *p, const struct tc_basket_answer *own)
{
    struct tc_basket_answer best;
    p->status = tc_basket_spread(&p->basket, &best);
    if (p->status != TC_OK)
        return;
    tc_money saved = tc_money_round(own->paid - best.paid, &p->status);
    if (saved <= 0) {
        if (!p->advise)
            say(sheet, p,
                tc_sheet_format(sheet, "no other way to shop in %s costs less today than all at %s.",
                                p->study->region.name, p->shop[0]->name));
        return;
    }
    struct tc_text where = TC_TEXT_EMPTY;
    char money[TC_WORDS_SIZE];
    name_elsewhere(p, &best, &where);
    if (where.failed)
        p->status = TC_NO_MEMORY;
    else
        say(sheet, p,
            tc_sheet_format(sheet, "buying %s saves %s over buying all at %s, delivery and tax included.",
                            tc_text_string(&where), tc_phrase_money(money, saved, p->study->region.currency),
                            p->shop[0]->name));
    tc_text_free(&where);
}

static enum tc_status compare(struct tc_sheet *sheet, const struct tc_study *study,
                              const struct tc_alternative *alternative, bool advise)
{
    if (!study->shop)
        return TC_OK;
    struct purchase *p = calloc(1, sizeof *p);
    if (!p)
        return TC_NO_MEMORY;
    p->study = study;
    p->alternative = alternative;
    p->advise = advise;
    list_shops(p);
    list_items(p);
    struct tc_basket_answer own = {.shop = {0}};
    if (p->status == TC_OK && p->basket.item_count > 0) {
        tc_basket_add_up(&p->basket, &own);
        tell_free_delivery(sheet, p, &own);
        if (p->basket.shop_count > 1)
            tell_spread(sheet, p, &own);
    }
    enum tc_status status = p->status;
    free(p);
    return status;
}

enum tc_status tc_shops_compare(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_alternative *alternative)
{
    return compare(sheet, study, alternative, false);
}

enum tc_status tc_shops_advise(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_alternative *alternative)
{
    return compare(sheet, study, alternative, true);
}

int tc_shops_count(const struct tc_study *study)
{
    int count = 0;
    for (size_t i = 0; i < study->stock->shop_count; i++)
        count += strcmp(study->stock->shops[i].region, study->region.name) == 0;
    return count;
}
