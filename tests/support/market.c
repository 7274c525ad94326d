/* SPDX-License-Identifier: MIT */
#include "support/market.h"

#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

static tc_money about(struct tc_random *random, tc_money price)
{
    return (tc_money)round((double)price * draw_between(random, 0.8, 1.25));
}

static void draw_shops(struct sample_market *m, struct sample *s, int most, struct tc_random *random)
{
    tc_money whole = s->list + 20000;
    m->market.count = 2 + draw_below(random, most - 1);
    for (int i = 0; i < m->market.count; i++) {
        bool once = draw_below(random, 5) == 0;
        m->market.shop[i] = (struct tc_shop_terms){
            .delivery = draw_below(random, 4) ? draw_below(random, 4000) : 0,
            .free_from = draw_below(random, 3) ? 1 + draw_below(random, (int)whole) : 0,
            .tax = once ? 0 : tc_region_added_tax(&s->region),
            .once = once,
        };
    }
}

static void draw_offers(struct sample_market *m, struct sample *s, struct tc_random *random)
{
    double own[TC_SHOPS_MAX], scale = tc_currency_scale(s->region.currency);
    bool open[TC_SHOPS_MAX];
    for (int i = 0; i < s->c.offer_count; i++) {
        struct tc_offer *offer = &s->offers[i];
        bool pinned = draw_below(random, 10) == 0;
        int pin = draw_below(random, m->market.count);
        for (int shop = 0; shop < m->market.count; shop++) {
            own[shop] = !offer->priced || draw_below(random, 4) == 0
                            ? (double)NAN
                            : (double)about(random, offer->price) / scale;
            open[shop] = !pinned || shop == pin;
        }
        tc_money upkeep = offer->upkeep;
        *offer = tc_offer_spread(offer->part, own, open, &m->market, s->region.currency, m->asked[i]);
        offer->upkeep = upkeep;
    }
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        s->c.wish[slot].at = draw_below(random, 4) == 0 ? 1 + draw_below(random, m->market.count) : 0;
}

void market_draw(struct sample_market *m, struct sample *s, int most, struct tc_random *random)
{
    *m = (struct sample_market){.market = {.count = 0}};
    draw_shops(m, s, most, random);
    draw_offers(m, s, random);
    s->c.market = &m->market;
    struct tc_deal_terms terms = sample_terms(s);
    terms.shops = m->market.count;
    for (int i = 0; i < terms.shops; i++)
        terms.shop[i] = (struct tc_deal_shop){.open = draw_below(random, 8) != 0,
                                              .once = m->market.shop[i].once,
                                              .listed = s->listed && draw_below(random, 4) != 0,
                                              .list = about(random, s->list),
                                              .order_fee = draw_below(random, 3000)};
    int way = draw_below(random, 4);
    terms.ordered = way == 1;
    terms.typed = way == 2;
    terms.price = way == 2 ? draw_below(random, 60000) : 0;
    terms.sale = way == 3 ? &s->sale : NULL;
    terms.sale_shop = draw_below(random, terms.shops);
    sample_deal(s, terms);
}
