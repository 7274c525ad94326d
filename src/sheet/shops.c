/* SPDX-License-Identifier: MIT */
#include "sheet/shops.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"
#include "core/cost/basket.h"
#include "sheet/phrase.h"
#include "sheet/study_make.h"
#include "sheet/study_market.h"

/* What is bought, and who sells it. */
struct purchase {
    const struct tc_study *study;
    const struct tc_alternative *alternative;
    int slot[TC_SLOT_COUNT + 1]; /* of each item; -1: the tank */
    struct tc_basket basket;     /* of all sellers of the region, the study's own first */
    struct tc_basket_answer own; /* as it is bought */
    bool advise;                 /* one alternative is spoken of: findings, without its name */
    enum tc_status status;
};

static void list_shops(struct purchase *p)
{
    const struct tc_study *study = p->study;
    p->basket.shop_count = study->shop_count;
    memcpy(p->basket.shop, study->market.shop, sizeof p->basket.shop);
}

/* An item paid with `paid` where it is bought, so many pieces of it; `typed`: nobody else is asked. */
static void add_item(struct purchase *p, int slot, const struct tc_goods *goods, int pieces, tc_money paid,
                     bool typed)
{
    const struct tc_study *study = p->study;
    const struct tc_alternative *a = p->alternative;
    struct tc_basket_item *item = &p->basket.item[p->basket.item_count];
    int line = slot < 0 ? TC_BUY_TANK : TC_BUY_SLOTS + slot;
    int at = a->c.market && a->cost.shop[line] > 0 ? a->cost.shop[line] : 0;
    bool ordered = slot < 0 && a->terms.ordered;
    p->own.shop[p->basket.item_count] = at;
    p->slot[p->basket.item_count++] = slot;
    for (int i = 0; i < p->basket.shop_count; i++) {
        double asked;
        item->price[i] = TC_NOT_SOLD;
        if (i != at && !typed &&
            tc_stock_asked(study->stock, &study->region, study->shops[i], slot, goods, &asked))
            item->price[i] = tc_money_times(tc_currency_money(study->region.currency, asked, &p->status),
                                            pieces, &p->status);
        item->fee[i] = ordered ? tc_money_times(study->order_fees[i], pieces, &p->status) : 0;
    }
    item->price[at] = paid;
    item->fee[at] = slot < 0 ? a->cost.buy[TC_BUY_FEE] : 0;
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
        add_item(p, -1, &a->c.tank.goods, deal->quantity, buy[TC_BUY_TANK],
                 bundle || deal->kind == TC_DEAL_TYPED);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = a->equipment.slot[slot].offer;
        int pieces = tc_purchase_pieces(&a->c, &a->equipment, &a->prices, (enum tc_slot)slot);
        if (offer && pieces > 0 && buy[TC_BUY_SLOTS + slot] > 0)
            add_item(p, slot, &offer->part->goods, pieces, buy[TC_BUY_SLOTS + slot],
                     !isnan(a->c.wish[slot].price));
    }
}

/* The shop that all is bought at. */
static const struct tc_shop *own_shop(const struct purchase *p)
{
    return p->study->shops[p->basket.item_count > 0 ? p->own.shop[0] : 0];
}

/* "lid and light at lowmere-web, tank at cellar-find", of what is bought elsewhere. */
static void name_elsewhere(const struct purchase *p, const struct tc_basket_answer *answer,
                           struct tc_text *text)
{
    for (int shop = 0; shop < p->basket.shop_count; shop++) {
        int left = 0, named = 0;
        if (p->study->shops[shop] == own_shop(p))
            continue;
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
            tc_text_addf(text, " at %s", p->study->shops[shop]->name);
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

/* What a shop would bring for nothing, were a little more bought there. */
static void tell_free_delivery(struct tc_sheet *sheet, const struct purchase *p)
{
    for (int s = 0; s < p->basket.shop_count; s++) {
        const struct tc_shop_terms *shop = &p->basket.shop[s];
        tc_money short_of = shop->free_from - p->own.goods[s];
        char more[TC_WORDS_SIZE], delivery[TC_WORDS_SIZE];
        if (!p->own.delivered[s] || shop->free_from == 0 || short_of >= shop->delivery)
            continue;
        say(sheet, p,
            tc_sheet_format(sheet, "%s more at %s makes delivery free, which saves %s.",
                            tc_phrase_money(more, short_of, p->study->region.currency),
                            p->study->shops[s]->name,
                            tc_phrase_money(delivery, shop->delivery, p->study->region.currency)));
    }
}

/* What everything at one shop comes to, beside what is bought now; false where it does not sell all. */
static bool all_at(struct purchase *p, int shop, tc_money *more)
{
    struct tc_basket_answer all;
    for (int i = 0; i < p->basket.item_count; i++)
        all.shop[i] = shop;
    tc_basket_add_up(&p->basket, &all);
    *more = tc_money_round(all.paid - p->own.paid, &p->status);
    return all.unsold == 0;
}

/* "all at one shop costs more: 4.80 USD at lowmere-shop, 12.30 USD at lowmere-web.", of the same things. */
static void tell_one_shop(struct tc_sheet *sheet, struct purchase *p)
{
    struct tc_text where = TC_TEXT_EMPTY;
    for (int s = p->study->several || p->study->one ? 0 : 1; s < p->basket.shop_count; s++) {
        tc_money more;
        char money[TC_WORDS_SIZE];
        if (all_at(p, s, &more) && more > 0)
            tc_text_addf(&where, "%s%s at %s", where.length > 0 ? ", " : "",
                         tc_phrase_money(money, more, p->study->region.currency), p->study->shops[s]->name);
    }
    if (where.failed)
        p->status = TC_NO_MEMORY;
    else if (where.length > 0)
        say(sheet, p, tc_sheet_format(sheet, "all at one shop costs more: %s.", tc_text_string(&where)));
    tc_text_free(&where);
}

static void tell_spread(struct tc_sheet *sheet, struct purchase *p)
{
    struct tc_basket_answer best;
    p->status = tc_basket_spread(&p->basket, &best);
    if (p->status != TC_OK)
        return;
    tc_money saved = tc_money_round(p->own.paid - best.paid, &p->status);
    if (saved <= 0) {
        if (!p->advise && !p->alternative->cost.incomplete)
            say(sheet, p,
                tc_sheet_format(sheet, "no other way to shop in %s costs less today than all at %s.",
                                p->study->region.name, own_shop(p)->name));
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
                            own_shop(p)->name));
    tc_text_free(&where);
}

static bool all_at_own(const struct purchase *p)
{
    for (int i = 1; i < p->basket.item_count; i++)
        if (p->own.shop[i] != p->own.shop[0])
            return false;
    return true;
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
    if (p->status == TC_OK && p->basket.item_count > 0) {
        tc_basket_add_up(&p->basket, &p->own);
        tell_free_delivery(sheet, p);
        bool spread = alternative->c.market && !all_at_own(p);
        if (p->basket.shop_count > 1 && !spread && !study->several)
            tell_spread(sheet, p);
        if (p->basket.shop_count > 1 && (spread || study->several) && !advise)
            tell_one_shop(sheet, p);
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

/* ---------------------------------------------------------------- the best single shop */

/* What an alternative would cost, its parts chosen anew, at the one shop where that is least. */
static void tell_best_shop(struct tc_sheet *sheet, const struct tc_study *study,
                           const struct tc_alternative *alternative, const struct tc_alternative *one)
{
    enum tc_status status = TC_OK;
    char money[TC_WORDS_SIZE];
    tc_money more = tc_money_subtract(one->cost.present_value, alternative->cost.present_value, &status);
    const char *shop = study->shops[tc_study_kept_to(one, &one->equipment, &one->cost)]->name;
    if (status != TC_OK || alternative->cost.incomplete)
        return;
    if (one->cost.incomplete) {
        if (alternative->c.market)
            tc_sheet_note(sheet, TC_NOTE_REMARK, "%s: no one shop has all that it needs.", alternative->head);
    } else if (more > 0) {
        tc_sheet_note(sheet, TC_NOTE_REMARK, "%s: at one shop alone it costs least at %s, %s more to own.",
                      alternative->head, shop, tc_phrase_money(money, more, study->region.currency));
    } else if (more < 0) {
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "%s: all at %s would cost %s less to own; 'plan/shop = one' finds such a shop.",
                      alternative->head, shop, tc_phrase_money(money, -more, study->region.currency));
    }
}

enum tc_status tc_shops_tell_best(struct tc_sheet *sheet, const struct tc_study *study)
{
    if (study->one || study->shop_count < 2 || tc_plan_has_wall(&study->plan))
        return TC_OK;
    if (!study->several && !tc_plan_shop(&study->plan)[0])
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "Bought at %s, the first of %d sellers in %s: 'plan/shop = one' looks for the cheapest one, "
            "'several' for each thing.",
            study->shops[0]->name, study->shop_count, study->region.name);
    struct tc_study *one = calloc(1, sizeof *one);
    struct tc_plan *plan = malloc(sizeof *plan);
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char problem[TC_PROBLEM_SIZE];
    enum tc_status status = one && plan ? TC_OK : TC_NO_MEMORY;
    if (status == TC_OK) {
        *plan = study->plan;
        (void)tc_plan_set(plan, "plan/shop", TC_ONE_SHOP, problem);
        status = tc_study_make(one, study->stock, plan, study->today, &faults);
        for (int i = 0; status == TC_OK && i < study->alternative_count && i < one->alternative_count; i++)
            tell_best_shop(sheet, study, &study->alternatives[i], &one->alternatives[i]);
        tc_study_free(one);
    }
    tc_faults_free(&faults);
    free(plan);
    free(one);
    return status == TC_SYNTAX ? TC_OK : status; /* what is wrong with the plan was told before */
}

int tc_shops_count(const struct tc_study *study)
{
    int count = 0;
    for (size_t i = 0; i < study->stock->shop_count; i++)
        count += strcmp(study->stock->shops[i].region, study->region.name) == 0;
    return count;
}
