/* SPDX-License-Identifier: MIT */
#include "core/cost.h"

#include <math.h>
#include <string.h>

/* What the tills of the region add to a price. */
static double added_tax(const struct tc_case *c)
{
    return c->region->tax_included ? 0 : c->region->sales_tax;
}

/* The price of one piece, minor units: typed or as offered. */
static double piece_price(const struct tc_case *c, const struct tc_setup *setup, enum tc_slot slot)
{
    double typed = c->wish[slot].price;
    return isnan(typed) ? (double)setup->slot[slot].offer->price : typed;
}

static bool piece_priced(const struct tc_case *c, const struct tc_setup *setup, enum tc_slot slot)
{
    return setup->slot[slot].offer->priced || !isnan(c->wish[slot].price);
}

struct tc_item_life tc_cost_slot_life(const struct tc_case *c, const struct tc_setup *setup,
                                      const struct tc_prices *prices, enum tc_slot slot)
{
    const struct tc_filled *filled = &setup->slot[slot];
    if (!filled->offer)
        return (struct tc_item_life){.life = INFINITY, .first_life = INFINITY};
    const struct tc_goods *goods = &filled->offer->part->goods;
    int all = tc_setup_pieces(c, setup, slot);
    int bought = all > prices->included[slot] ? all - prices->included[slot] : 0;
    /* A later replacement costs what the shop asks, even where this one was typed by hand. */
    double later = filled->offer->priced ? (double)filled->offer->price : piece_price(c, setup, slot);
    double used = c->wish[slot].life;
    return (struct tc_item_life){
        .price = bought * piece_price(c, setup, slot),
        .replacement_price = all * later * (1 + added_tax(c)),
        .life = goods->life,
        .first_life = isnan(used) ? goods->life : fmin(used, goods->life),
        .resale_share = isnan(c->wish[slot].resale) ? goods->resale : c->wish[slot].resale,
    };
}

struct tc_item_life tc_cost_tank_life(const struct tc_case *c, const struct tc_prices *prices)
{
    enum tc_status status = TC_OK;
    const struct tc_goods *goods = &c->tank->goods;
    const struct tc_deal *deal = &prices->deal;
    return (struct tc_item_life){
        .price = (double)tc_deal_sum(deal, &status), /* in range: made with the deal */
        .replacement_price = (double)deal->list * deal->quantity * (1 + added_tax(c)),
        .life = goods->life,
        .first_life = isnan(prices->tank_life) ? goods->life : fmin(prices->tank_life, goods->life),
        .resale_share = isnan(prices->tank_resale) ? goods->resale : prices->tank_resale,
    };
}

struct purchase {
    tc_money buy[TC_BUY_COUNT], total;
    bool incomplete;
};

/* The purchase, line by line. */
static enum tc_status make_purchase(const struct tc_case *c, const struct tc_setup *setup,
                                    const struct tc_prices *prices, struct purchase *purchase)
{
    enum tc_status status = TC_OK;
    const struct tc_region *region = c->region;
    tc_money *buy = purchase->buy;
    *purchase = (struct purchase){.incomplete = !prices->deal.known};
    buy[TC_BUY_TANK] = tc_deal_sum(&prices->deal, &status);
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        const struct tc_filled *filled = &setup->slot[slot];
        if (filled->missing || (filled->offer && !piece_priced(c, setup, slot)))
            purchase->incomplete = true;
        buy[TC_BUY_SLOTS + i] = tc_money_round(tc_cost_slot_life(c, setup, prices, slot).price, &status);
    }
    tc_money goods = tc_money_sum(buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status);
    tc_money free_from = tc_currency_money(region->currency, region->delivery_free_from, &status);
    if (goods > 0 && (free_from == 0 || goods < free_from))
        buy[TC_BUY_DELIVERY] = tc_currency_money(region->currency, region->delivery, &status);
    buy[TC_BUY_FEE] = prices->deal.fee;
    tc_money taxable = tc_money_add(goods, prices->deal.fee, &status);
    buy[TC_BUY_TAX] = tc_money_share(taxable, added_tax(c), &status);
    purchase->total = tc_money_sum(buy, TC_BUY_COUNT, &status);
    return status;
}

/* Supplies of all parts for a year, minor units. */
static double supplies(const struct tc_case *c, const struct tc_setup *setup)
{
    double sum = 0;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (setup->slot[slot].offer)
            sum += tc_setup_pieces(c, setup, (enum tc_slot)slot) * (double)setup->slot[slot].offer->upkeep;
    return sum;
}

static double warm_water(const struct tc_case *c, const struct tc_running *running)
{
    return c->kit->heater
               ? running->warming * c->region->warm_water_price * tc_currency_scale(c->region->currency)
               : 0;
}

static double conditioner(const struct tc_case *c, const struct tc_running *running)
{
    return running->changed_total * c->region->conditioner * tc_currency_scale(c->region->currency);
}

/* A year, line by line. */
static enum tc_status make_year(const struct tc_case *c, const struct tc_setup *setup,
                                const struct tc_prices *prices, struct tc_cost *cost)
{
    const struct tc_running *running = &cost->running;
    enum tc_status status = tc_tariff_shared(prices->electricity, running->energy, TC_CONSUMER_COUNT,
                                             &cost->energy_total, cost->energy);
    if (status != TC_OK)
        return status;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        cost->run[TC_RUN_ENERGY + i] = cost->energy[i].year;

    enum { CHANGES, MAKE_UP, WATERS };
    struct tc_load water[WATERS];
    struct tc_tariff_cost water_total, water_parts[WATERS];
    tc_load_even(&water[CHANGES], running->changed);
    tc_load_even(&water[MAKE_UP], running->evaporated);
    status = tc_tariff_shared(prices->water, water, WATERS, &water_total, water_parts);
    if (status != TC_OK)
        return status;
    cost->run[TC_RUN_CHANGES] = water_parts[CHANGES].year;
    cost->run[TC_RUN_MAKE_UP] = water_parts[MAKE_UP].year;
    cost->run[TC_RUN_WARM_WATER] = tc_money_round(warm_water(c, running), &status);
    cost->run[TC_RUN_CONDITIONER] = tc_money_round(conditioner(c, running), &status);
    cost->run[TC_RUN_SUPPLIES] = tc_money_round(supplies(c, setup), &status);
    cost->each_year = tc_money_sum(cost->run, TC_RUN_COUNT, &status);
    return status;
}

/* The yearly amounts by what their prices follow, minor units. */
struct yearly {
    double energy, water, supplies;
};

/*
 * The lines of the period from the purchase and the yearly amounts, into
 * lines[] and, where flow is not NULL, year by year.
 */
static enum tc_status fill_period(const struct tc_case *c, const struct tc_setup *setup,
                                  const struct tc_prices *prices, double purchase, struct yearly yearly,
                                  struct tc_amount lines[TC_LIFE_COUNT], struct tc_flow *flow)
{
    double d = c->discount;
    double energy_e = c->region->electricity_escalation, water_e = c->region->water_escalation;
    lines[TC_LIFE_PURCHASE] = (struct tc_amount){purchase, purchase};
    lines[TC_LIFE_ENERGY] =
        (struct tc_amount){yearly.energy * tc_escalated_present_value(0, energy_e, c->years),
                           yearly.energy * tc_escalated_present_value(d, energy_e, c->years)};
    lines[TC_LIFE_WATER] =
        (struct tc_amount){yearly.water * tc_escalated_present_value(0, water_e, c->years),
                           yearly.water * tc_escalated_present_value(d, water_e, c->years)};
    lines[TC_LIFE_SUPPLIES] = (struct tc_amount){yearly.supplies * c->years,
                                                 yearly.supplies * tc_uniform_present_value(d, c->years)};

    struct tc_amount replacements = {0, 0};
    double residual = 0;
    for (int i = -1; i < TC_SLOT_COUNT; i++) {
        struct tc_item_life item =
            i < 0 ? tc_cost_tank_life(c, prices) : tc_cost_slot_life(c, setup, prices, (enum tc_slot)i);
        enum tc_status status = tc_item_check(&item);
        if (status == TC_OK && flow)
            status = tc_flow_add_item(flow, &item);
        if (status != TC_OK)
            return status;
        replacements.paid += tc_item_replacements(&item, c->years) * item.replacement_price;
        replacements.present += tc_item_replacements_value(&item, d, c->years);
        residual += tc_item_residual(&item, c->years);
    }
    lines[TC_LIFE_REPLACEMENTS] = replacements;
    lines[TC_LIFE_RESALE] = (struct tc_amount){-residual, -residual * tc_single_present_value(d, c->years)};
    return TC_OK;
}

/* The same year by year, for the lines over time. */
static enum tc_status fill_flow(const struct tc_case *c, const struct tc_cost *cost, struct yearly yearly,
                                struct tc_flow *flow)
{
    enum tc_status status = tc_flow_add_yearly(flow, yearly.energy, c->region->electricity_escalation);
    if (status == TC_OK)
        status = tc_flow_add_yearly(flow, yearly.water, c->region->water_escalation);
    if (status == TC_OK)
        status = tc_flow_add_yearly(flow, yearly.supplies, 0);
    /* The items brought their prices; the purchase is that, with fee, delivery and tax. */
    flow->capital[0] = (struct tc_amount){(double)cost->to_buy, (double)cost->to_buy};
    return status;
}

static enum tc_status make_period(const struct tc_case *c, const struct tc_setup *setup,
                                  const struct tc_prices *prices, struct tc_cost *cost)
{
    struct tc_amount lines[TC_LIFE_COUNT];
    enum tc_status status = tc_flow_start(&cost->flow, c->discount, c->years);
    tc_money energy = tc_money_sum(cost->run, TC_RUN_WARM_WATER + 1, &status);
    tc_money water = tc_money_sum(&cost->run[TC_RUN_CHANGES], TC_RUN_SUPPLIES - TC_RUN_CHANGES, &status);
    struct yearly yearly = {(double)energy, (double)water, (double)cost->run[TC_RUN_SUPPLIES]};
    if (status == TC_OK)
        status = fill_period(c, setup, prices, (double)cost->to_buy, yearly, lines, &cost->flow);
    if (status == TC_OK)
        status = fill_flow(c, cost, yearly, &cost->flow);
    if (status != TC_OK)
        return status;
    for (int i = 0; i < TC_LIFE_COUNT; i++) {
        cost->paid[i] = tc_money_round(lines[i].paid, &status);
        cost->present[i] = tc_money_round(lines[i].present, &status);
    }
    cost->as_paid = tc_money_sum(cost->paid, TC_LIFE_COUNT, &status);
    cost->present_value = tc_money_sum(cost->present, TC_LIFE_COUNT, &status);
    cost->yearly =
        tc_money_round((double)cost->present_value * tc_capital_recovery(c->discount, c->years), &status);
    return status;
}

enum tc_status tc_cost_reprice(const struct tc_case *c, const struct tc_setup *setup,
                               const struct tc_prices *prices, struct tc_cost *cost)
{
    struct purchase purchase;
    enum tc_status status = make_purchase(c, setup, prices, &purchase);
    memcpy(cost->buy, purchase.buy, sizeof cost->buy);
    cost->to_buy = purchase.total;
    cost->incomplete = purchase.incomplete;
    return status == TC_OK ? make_period(c, setup, prices, cost) : status;
}

enum tc_status tc_cost_make(const struct tc_case *c, const struct tc_setup *setup,
                            const struct tc_prices *prices, struct tc_cost *cost)
{
    *cost = (struct tc_cost){0};
    enum tc_status status = tc_running_year(c, setup, &cost->running);
    if (status == TC_OK)
        status = make_year(c, setup, prices, cost);
    return status == TC_OK ? tc_cost_reprice(c, setup, prices, cost) : status;
}

enum tc_status tc_cost_value(const struct tc_case *c, const struct tc_setup *setup,
                             const struct tc_prices *prices, double *value)
{
    struct tc_running running;
    enum tc_status status = tc_running_year(c, setup, &running);
    if (status != TC_OK)
        return status;
    struct purchase purchase;
    status = make_purchase(c, setup, prices, &purchase);
    if (status != TC_OK)
        return status;
    struct tc_load energy = running.energy[0];
    for (int i = 1; i < TC_CONSUMER_COUNT; i++)
        tc_load_add(&energy, &running.energy[i], 1);
    double water[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++)
        water[month] = running.changed[month] + running.evaporated[month];
    struct yearly yearly = {
        .energy = tc_tariff_added(prices->electricity, &energy) + warm_water(c, &running),
        .water = tc_tariff_added_even(prices->water, water) + conditioner(c, &running),
        .supplies = supplies(c, setup),
    };
    struct tc_amount lines[TC_LIFE_COUNT];
    status = fill_period(c, setup, prices, (double)purchase.total, yearly, lines, NULL);
    if (status != TC_OK)
        return status;
    *value = 0;
    for (int i = 0; i < TC_LIFE_COUNT; i++)
        *value += lines[i].present;
    return TC_OK;
}
