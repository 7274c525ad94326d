/* SPDX-License-Identifier: MIT */
/*
 * purchase.h - what one candidate costs at the checkout, line by line: at one
 * shop, or with each thing at the shop of a market where all together costs
 * least (basket.h).
 *
 * A slot's pieces are one thing, all tanks of a candidate another with their
 * fee; each is bought at one shop. Tax is rounded once for each shop. A price
 * that was typed for a part is taken to be that of any shop that has the part
 * on its list, or of any shop at all where none has, unless the plan says at
 * which it is bought.
 */
#ifndef TC_CORE_COST_PURCHASE_H
#define TC_CORE_COST_PURCHASE_H

#include "core/cost/equipment.h"
#include "core/goods/deal.h"
#include "core/tariff/tariff.h"

/* Lines of the purchase: the tank, the slots in their order, and what comes on top. */
enum {
    TC_BUY_TANK,
    TC_BUY_SLOTS, /* TC_BUY_SLOTS + slot */
    TC_BUY_FEE = TC_BUY_SLOTS + TC_SLOT_COUNT,
    TC_BUY_DELIVERY,
    TC_BUY_TAX,
    TC_BUY_EXTRAS, /* paid once */
    TC_BUY_COUNT
};

/* What a candidate's cost depends on beside its equipment. Money and rates in minor units. */
struct tc_prices {
    struct tc_deal deal;         /* for as many tanks as the case has */
    double tank_life;            /* bought used: years it lasts; NAN: new */
    double tank_resale;          /* share of its price that it fetches; NAN: as in its record */
    int included[TC_SLOT_COUNT]; /* parts of the slot that the deal brings along */
    const struct tc_tariff_margin *electricity; /* borrowed; of the household's bill, per kWh */
    const struct tc_tariff_margin *water;       /* per m3 */
};

struct tc_purchase {
    tc_money buy[TC_BUY_COUNT]; /* but for the extras */
    int shop[TC_BUY_FEE]; /* of tank and slots: where each is bought; -1: it is not; 0 without a market */
    bool proven;          /* no spread over the shops costs less */
};

/* What is paid at one shop. */
struct tc_receipt {
    tc_money goods, fee, delivery, tax;
    bool any; /* something is bought there */
};

/* Pieces of a slot that are bought: those that the deal does not bring along. */
int tc_purchase_pieces(const struct tc_case *c, const struct tc_equipment *equipment,
                       const struct tc_prices *prices, enum tc_slot slot);

/* The price of one piece, minor units: typed or as offered; whether there is one. The slot is filled. */
double tc_purchase_piece(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot);
bool tc_purchase_priced(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot);

/* What the pieces of a slot cost at a shop of the case's market, or TC_NOT_SOLD; 0 where none is bought. */
tc_money tc_purchase_slot_at(const struct tc_case *c, const struct tc_equipment *equipment,
                             const struct tc_prices *prices, enum tc_slot slot, int shop,
                             enum tc_status *status);

/* TC_RANGE, TC_OVERFLOW. */
enum tc_status tc_purchase_make(const struct tc_case *c, const struct tc_equipment *equipment,
                                const struct tc_prices *prices, struct tc_purchase *purchase);

/* The same where it is said for each line at which shop (of tank and slots; -1: nowhere). */
enum tc_status tc_purchase_at(const struct tc_case *c, const struct tc_equipment *equipment,
                              const struct tc_prices *prices, const int shop[TC_BUY_FEE],
                              struct tc_purchase *purchase);

/* What of the lines is paid at a shop of the market; without one at the one shop, 0. */
enum tc_status tc_purchase_receipt(const struct tc_case *c, const tc_money buy[], const int shop[TC_BUY_FEE],
                                   int at, struct tc_receipt *receipt);

/* The sum of a receipt. */
tc_money tc_receipt_sum(const struct tc_receipt *receipt, enum tc_status *status);

/*
 * The least that the first purchase of what is chosen could cost, minor units: each thing where it is
 * cheapest, nothing for delivery. In a market.
 */
double tc_purchase_least(const struct tc_case *c, const struct tc_equipment *equipment,
                         const struct tc_prices *prices);

#endif
