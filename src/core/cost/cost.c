/* SPDX-License-Identifier: MIT */
#include "core/cost/cost.h"

#include <math.h>
#include <string.h>

/* What is paid for goods, before tax: at first, for later replacements, and for new ones when they are sold.
 */
struct paid {
    double first, later, new_one;
};

/* used and resale: NAN takes the figure of the record. */
static struct tc_item_life goods_life(const struct tc_case *c, const struct tc_goods *goods, struct paid paid,
                                      double used, double resale)
{
    return (struct tc_item_life){
        .price = paid.first,
        .replacement_price = paid.later * (1 + tc_region_added_tax(c->region)),
        .life = goods->life,
        .first_life = isnan(used) ? goods->life : fmin(used, goods->life),
        .resale_share = isnan(resale) ? goods->resale : resale,
        .new_price = paid.new_one,
    };
}

/* What a new one must cost if one with so many years left costs this: its share of the life. */
static double new_price_from_used(const struct tc_goods *goods, double price, double used)
{
    return isnan(used) || isinf(goods->life) || used >= goods->life ? price : price * goods->life / used;
}

struct tc_item_life tc_cost_slot_life(const struct tc_case *c, const struct tc_equipment *equipment,
                                      const struct tc_prices *prices, enum tc_slot slot)
{
    const struct tc_offer *offer = equipment->slot[slot].offer;
    const struct tc_slot_wish *wish = &c->wish[slot];
    if (!offer)
        return (struct tc_item_life){.life = INFINITY, .first_life = INFINITY};
    int all = tc_equipment_pieces(c, equipment, slot);
    int bought = tc_purchase_pieces(c, equipment, prices, slot);
    const struct tc_goods *goods = &offer->part->goods;
    double price = tc_purchase_piece(c, equipment, slot);
    bool typed_new = !isnan(wish->price) && isnan(wish->life);
    double later = offer->priced && !typed_new ? (double)offer->price : price;
    struct paid paid = {
        .first = bought * price,
        .later = all * (isnan(wish->next) ? later : wish->next),
        .new_one = all * (offer->priced        ? (double)offer->price
                          : !isnan(wish->next) ? wish->next
                                               : new_price_from_used(goods, price, wish->life)),
    };
    return goods_life(c, goods, paid, wish->life, wish->resale);
}

/* What the parts that a deal brings along cost alone. */
static double included_worth(const struct tc_case *c, const struct tc_equipment *equipment,
                             const struct tc_prices *prices)
{
    double sum = 0;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *filled = &equipment->slot[i];
        if (!filled->offer || !filled->offer->priced)
            continue;
        int pieces = tc_equipment_pieces(c, equipment, (enum tc_slot)i);
        sum += fmin(pieces, prices->included[i]) * (double)filled->offer->price;
    }
    return sum;
}

struct tc_item_life tc_cost_tank_life(const struct tc_case *c, const struct tc_equipment *equipment,
                                      const struct tc_prices *prices)
{
    enum tc_status status = TC_OK;
    const struct tc_deal *deal = &prices->deal;
    const struct tc_goods *goods = &c->tank.goods;
    struct paid paid = {
        .first = (double)tc_deal_sum(deal, &status), /* in range: made with the deal */
        .later = (double)deal->later * deal->quantity,
    };
    paid.new_one = paid.later;
    if (!deal->listed)
        paid.new_one = new_price_from_used(goods, fmax(0, paid.later - included_worth(c, equipment, prices)),
                                           prices->tank_life);
    return goods_life(c, goods, paid, prices->tank_life, prices->tank_resale);
}

/* All that is bought, replaced and sold: the tanks, then what fills the slots. */
enum { ITEM_TANK, ITEM_SLOTS, ITEM_COUNT = ITEM_SLOTS + TC_SLOT_COUNT };

static enum tc_status make_items(const struct tc_case *c, const struct tc_equipment *equipment,
                                 const struct tc_prices *prices, struct tc_item_life items[ITEM_COUNT])
{
    items[ITEM_TANK] = tc_cost_tank_life(c, equipment, prices);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        items[ITEM_SLOTS + slot] = tc_cost_slot_life(c, equipment, prices, (enum tc_slot)slot);
    for (int i = 0; i < ITEM_COUNT; i++)
        if (tc_item_check(&items[i]) != TC_OK)
            return TC_RANGE;
    return TC_OK;
}

bool tc_cost_slot_lacks_price(const struct tc_case *c, const struct tc_equipment *equipment,
                              const struct tc_prices *prices, enum tc_slot slot)
{
    if (!equipment->slot[slot].offer || tc_purchase_priced(c, equipment, slot))
        return false;
    struct tc_item_life life = tc_cost_slot_life(c, equipment, prices, slot);
    return tc_equipment_pieces(c, equipment, slot) > prices->included[slot] ||
           tc_item_replacements(&life, c->years) > 0;
}

/* Whether the price of something that is bought, now or later, is not known. */
static bool lacks_price(const struct tc_case *c, const struct tc_equipment *equipment,
                        const struct tc_prices *prices)
{
    const struct tc_price_list *own = &c->tank.goods.upkeep;
    if (!prices->deal.known || (own->count > 0 && !tc_price_in(own, c->region->currency)))
        return true;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        if (equipment->slot[slot].missing || tc_cost_slot_lacks_price(c, equipment, prices, slot))
            return true;
    }
    return false;
}

/* What an extra of a case comes to, minor units, not rounded; 0 where it has no amount here. */
static double due_amount(const struct tc_case *c, int i)
{
    const struct tc_due *due = &c->due[i];
    return isnan(due->amount) ? 0 : due->amount * (due->each_tank ? c->quantity : 1);
}

/* The extras that are paid once, minor units. */
static tc_money once_due(const struct tc_case *c, enum tc_status *status)
{
    tc_money sum = 0;
    for (int i = 0; i < c->due_count; i++)
        if (c->due[i].once)
            sum = tc_money_add(sum, tc_money_round(due_amount(c, i), status), status);
    return sum;
}

double tc_cost_goods(const struct tc_case *c, const struct tc_equipment *equipment,
                     const struct tc_prices *prices)
{
    double sum = tc_cost_tank_life(c, equipment, prices).price;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        sum += tc_cost_slot_life(c, equipment, prices, (enum tc_slot)slot).price;
    return sum;
}

/* The purchase, its extras with it, and its sum. */
static enum tc_status make_purchase(const struct tc_case *c, const struct tc_equipment *equipment,
                                    const struct tc_prices *prices, struct tc_purchase *purchase,
                                    tc_money *total)
{
    enum tc_status status = TC_OK;
    if (c->market && c->apart) { /* as one line */
        *purchase = (struct tc_purchase){.proven = false};
        purchase->buy[TC_BUY_TANK] = tc_money_round(tc_purchase_least(c, equipment, prices), &status);
    } else {
        status = tc_purchase_make(c, equipment, prices, purchase);
    }
    if (status != TC_OK)
        return status;
    purchase->buy[TC_BUY_EXTRAS] = once_due(c, &status);
    *total = tc_money_sum(purchase->buy, TC_BUY_COUNT, &status);
    return status;
}

/* Supplies of all tanks and parts for a year, minor units, with the tax of the till. */
static double supplies(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_price *own = tc_price_in(&c->tank.goods.upkeep, c->region->currency);
    double sum = own ? c->quantity * own->amount * tc_currency_scale(c->region->currency) : 0;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (equipment->slot[slot].offer)
            sum += tc_equipment_pieces(c, equipment, (enum tc_slot)slot) *
                   (double)equipment->slot[slot].offer->upkeep;
    return sum * (1 + tc_region_added_tax(c->region));
}

/* What the hours of upkeep of a year are worth, minor units. */
static double upkeep(const struct tc_case *c, const struct tc_equipment *equipment)
{
    return tc_equipment_upkeep(c, equipment).total * c->hour_worth;
}

/* Conditioner for the water changed in a year, minor units, with the tax of the till. */
static double conditioner(const struct tc_case *c, double changed)
{
    return changed * c->region->conditioner * tc_currency_scale(c->region->currency) *
           (1 + tc_region_added_tax(c->region));
}

/* Minor units a year for a use a year at a price in major units. */
static double at_price(const struct tc_case *c, double use, double price)
{
    return use * price * tc_currency_scale(c->region->currency);
}

static double in_months(const double heat[TC_MONTHS], const bool in[TC_MONTHS])
{
    double sum = 0;
    for (int month = 0; month < TC_MONTHS; month++)
        sum += in[month] ? heat[month] : 0;
    return sum;
}

double tc_cost_heating_saved(const struct tc_region *region, const double heat[TC_MONTHS])
{
    return in_months(heat, region->heated) * region->room_heat_price * tc_currency_scale(region->currency);
}

double tc_cost_cooling_added(const struct tc_region *region, const double heat[TC_MONTHS])
{
    return in_months(heat, region->cooled) * region->room_cool_price * tc_currency_scale(region->currency);
}

/* What counts of both, minor units a year. */
static double room_heat(const struct tc_case *c, const double heat[TC_MONTHS])
{
    if (!c->room_heat)
        return 0;
    return tc_cost_cooling_added(c->region, heat) - tc_cost_heating_saved(c->region, heat);
}

/* A year, line by line. */
static enum tc_status make_year(const struct tc_case *c, const struct tc_equipment *equipment,
                                const struct tc_prices *prices, struct tc_cost *cost)
{
    const struct tc_running *running = &cost->running;
    enum tc_status status = tc_tariff_shared(prices->electricity, running->energy, TC_CONSUMER_COUNT,
                                             &cost->energy_total, cost->energy);
    if (status != TC_OK)
        return status;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        cost->run[TC_RUN_ENERGY + i] = cost->energy[i].year;

    struct tc_load water[TC_WATER_COUNT];
    tc_load_even(&water[TC_WATER_CHANGES], running->changed);
    tc_load_even(&water[TC_WATER_MAKE_UP], running->evaporated);
    status = tc_tariff_shared(prices->water, water, TC_WATER_COUNT, &cost->water_total, cost->water);
    if (status != TC_OK)
        return status;
    cost->run[TC_RUN_CHANGES] = cost->water[TC_WATER_CHANGES].year;
    cost->run[TC_RUN_MAKE_UP] = cost->water[TC_WATER_MAKE_UP].year;
    cost->run[TC_RUN_WARM_WATER] =
        tc_money_round(at_price(c, running->warm_water, c->region->warm_water_price), &status);
    cost->run[TC_RUN_ROOM_HEAT] = tc_money_round(room_heat(c, running->room_heat), &status);
    cost->run[TC_RUN_CONDITIONER] = tc_money_round(conditioner(c, running->changed_total), &status);
    cost->run[TC_RUN_SUPPLIES] = tc_money_round(supplies(c, equipment), &status);
    cost->run[TC_RUN_UPKEEP] = tc_money_round(upkeep(c, equipment), &status);
    for (int i = 0; i < c->due_count; i++) {
        cost->extra[i] = tc_money_round(due_amount(c, i), &status);
        if (!c->due[i].once)
            cost->run[TC_RUN_EXTRAS] = tc_money_add(cost->run[TC_RUN_EXTRAS], cost->extra[i], &status);
    }
    cost->each_year = tc_money_sum(cost->run, TC_RUN_COUNT, &status);
    return status;
}

/* The yearly amounts by what their prices follow, minor units: only energy, water and extras escalate. */
struct yearly {
    double energy, water, conditioner, supplies, upkeep;
    double extra[TC_EXTRAS_MAX]; /* 0 for one that is paid once */
};

/* The lines of the period, discounted at a rate; as paid at a rate of nothing. */
static void discount_lines(const struct tc_case *c, const struct tc_item_life items[], int count,
                           tc_money purchase, const struct yearly *yearly, double rate,
                           double lines[TC_LIFE_COUNT])
{
    const struct tc_region *region = c->region;
    double replacements = 0, residual = 0;
    for (int i = 0; i < count; i++) {
        replacements += tc_item_replacements_value(&items[i], rate, c->years);
        residual += tc_item_residual(&items[i], c->years);
    }
    lines[TC_LIFE_PURCHASE] = (double)purchase;
    lines[TC_LIFE_ENERGY] =
        yearly->energy * tc_escalated_present_value(rate, region->electricity_escalation, c->years);
    lines[TC_LIFE_WATER] =
        yearly->water * tc_escalated_present_value(rate, region->water_escalation, c->years) +
        yearly->conditioner * tc_uniform_present_value(rate, c->years);
    lines[TC_LIFE_SUPPLIES] = yearly->supplies * tc_uniform_present_value(rate, c->years);
    lines[TC_LIFE_UPKEEP] = yearly->upkeep * tc_uniform_present_value(rate, c->years);
    lines[TC_LIFE_EXTRAS] = 0;
    for (int i = 0; i < c->due_count; i++)
        lines[TC_LIFE_EXTRAS] +=
            yearly->extra[i] * tc_escalated_present_value(rate, c->due[i].escalation, c->years);
    lines[TC_LIFE_REPLACEMENTS] = replacements;
    lines[TC_LIFE_RESALE] = -residual * tc_single_present_value(rate, c->years);
}

static void round_lines(const double lines[TC_LIFE_COUNT], tc_money rounded[TC_LIFE_COUNT], tc_money *sum,
                        enum tc_status *status)
{
    for (int i = 0; i < TC_LIFE_COUNT; i++)
        rounded[i] = tc_money_round(lines[i], status);
    *sum = tc_money_sum(rounded, TC_LIFE_COUNT, status);
}

/* The same year by year, for the lines over time. */
static enum tc_status make_flow(const struct tc_case *c, const struct tc_item_life items[], int count,
                                tc_money purchase, const struct yearly *yearly, struct tc_flow *flow)
{
    enum tc_status status = tc_flow_start(flow, c->discount, c->years);
    for (int i = 0; status == TC_OK && i < count; i++)
        status = tc_flow_add_item(flow, &items[i]);
    if (status == TC_OK)
        status = tc_flow_add_yearly(flow, yearly->energy, c->region->electricity_escalation);
    if (status == TC_OK)
        status = tc_flow_add_yearly(flow, yearly->water, c->region->water_escalation);
    if (status == TC_OK)
        status = tc_flow_add_yearly(flow, yearly->conditioner + yearly->supplies + yearly->upkeep, 0);
    for (int i = 0; status == TC_OK && i < c->due_count; i++)
        status = tc_flow_add_yearly(flow, yearly->extra[i], c->due[i].escalation);
    /* The items brought their prices; the purchase is that, with fee, delivery and tax. */
    flow->capital[0] = (struct tc_amount){(double)purchase, (double)purchase};
    return status;
}

enum tc_status tc_cost_period(const struct tc_case *c, const struct tc_item_life items[], int count,
                              struct tc_cost *cost)
{
    enum tc_status status = TC_OK;
    double lines[TC_LIFE_COUNT];
    tc_money energy = tc_money_sum(cost->run, TC_RUN_ROOM_HEAT + 1, &status);
    tc_money water = tc_money_add(cost->run[TC_RUN_CHANGES], cost->run[TC_RUN_MAKE_UP], &status);
    struct yearly yearly = {(double)energy,
                            (double)water,
                            (double)cost->run[TC_RUN_CONDITIONER],
                            (double)cost->run[TC_RUN_SUPPLIES],
                            (double)cost->run[TC_RUN_UPKEEP],
                            {0}};
    for (int i = 0; i < c->due_count; i++)
        yearly.extra[i] = c->due[i].once ? 0 : (double)cost->extra[i];
    discount_lines(c, items, count, cost->to_buy, &yearly, 0, lines);
    round_lines(lines, cost->paid, &cost->as_paid, &status);
    discount_lines(c, items, count, cost->to_buy, &yearly, c->discount, lines);
    round_lines(lines, cost->present, &cost->present_value, &status);
    cost->yearly =
        tc_money_round((double)cost->present_value * tc_capital_recovery(c->discount, c->years), &status);
    return status == TC_OK ? make_flow(c, items, count, cost->to_buy, &yearly, &cost->flow) : status;
}

enum tc_status tc_cost_reprice(const struct tc_case *c, const struct tc_equipment *equipment,
                               const struct tc_prices *prices, struct tc_cost *cost)
{
    struct tc_item_life items[ITEM_COUNT];
    struct tc_purchase purchase;
    enum tc_status status = make_items(c, equipment, prices, items);
    if (status == TC_OK)
        status = make_purchase(c, equipment, prices, &purchase, &cost->to_buy);
    if (status != TC_OK)
        return status;
    memcpy(cost->buy, purchase.buy, sizeof cost->buy);
    memcpy(cost->shop, purchase.shop, sizeof cost->shop);
    cost->incomplete = lacks_price(c, equipment, prices);
    return tc_cost_period(c, items, ITEM_COUNT, cost);
}

enum tc_status tc_cost_make(const struct tc_case *c, const struct tc_equipment *equipment,
                            const struct tc_prices *prices, struct tc_cost *cost)
{
    *cost = (struct tc_cost){.upkeep = tc_equipment_upkeep(c, equipment)};
    enum tc_status status = tc_running_year(c, equipment, &cost->running);
    if (status == TC_OK)
        status = make_year(c, equipment, prices, cost);
    return status == TC_OK ? tc_cost_reprice(c, equipment, prices, cost) : status;
}

enum tc_status tc_cost_value(const struct tc_case *c, const struct tc_equipment *equipment,
                             const struct tc_prices *prices, double *value)
{
    struct tc_item_life items[ITEM_COUNT];
    struct tc_running_sums running;
    struct tc_load hours;
    bool by_hour = tc_tariff_by_hour(prices->electricity);
    struct tc_purchase purchase;
    tc_money to_buy;
    enum tc_status status = tc_running_add_up(c, equipment, &running, by_hour ? &hours : NULL);
    if (status == TC_OK)
        status = make_items(c, equipment, prices, items);
    if (status == TC_OK)
        status = make_purchase(c, equipment, prices, &purchase, &to_buy);
    if (status != TC_OK)
        return status;
    struct yearly yearly = {
        .energy = (by_hour ? tc_tariff_added(prices->electricity, &hours)
                           : tc_tariff_added_even(prices->electricity, running.energy)) +
                  at_price(c, running.warm_water, c->region->warm_water_price) +
                  room_heat(c, running.room_heat),
        .water = tc_tariff_added_even(prices->water, running.water),
        .conditioner = conditioner(c, running.changed_total),
        .supplies = supplies(c, equipment),
        .upkeep = upkeep(c, equipment),
    };
    for (int i = 0; i < c->due_count; i++)
        yearly.extra[i] = c->due[i].once ? 0 : due_amount(c, i);
    double lines[TC_LIFE_COUNT];
    discount_lines(c, items, ITEM_COUNT, to_buy, &yearly, c->discount, lines);
    *value = 0;
    for (int i = 0; i < TC_LIFE_COUNT; i++)
        *value += lines[i];
    return isfinite(*value) ? TC_OK : TC_RANGE;
}
