/* SPDX-License-Identifier: MIT */
#include "core/cost/shared_cost.h"

static void add_lines(tc_money *sum, const tc_money *other, int count, enum tc_status *status)
{
    for (int i = 0; i < count; i++)
        sum[i] = tc_money_add(sum[i], other[i], status);
}

static void add_energy(struct tc_tariff_cost *sum, const struct tc_tariff_cost *other, enum tc_status *status)
{
    add_lines(sum->month, other->month, TC_MONTHS, status);
    sum->year = tc_money_add(sum->year, other->year, status);
    for (int month = 0; month < TC_MONTHS; month++)
        sum->exact_month[month] += other->exact_month[month];
    sum->exact_year += other->exact_year;
}

static void add_running(struct tc_running *sum, const struct tc_running *other)
{
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        tc_load_add(&sum->energy[i], &other->energy[i], 1);
    for (int month = 0; month < TC_MONTHS; month++) {
        sum->changed[month] += other->changed[month];
        sum->evaporated[month] += other->evaporated[month];
        sum->room_heat[month] += other->room_heat[month];
    }
    sum->changed_total += other->changed_total;
    sum->evaporated_total += other->evaporated_total;
    sum->warm_water += other->warm_water;
}

static void add_amount(struct tc_amount *sum, const struct tc_amount *other)
{
    sum->paid += other->paid;
    sum->present += other->present;
}

static void add_flow(struct tc_flow *sum, const struct tc_flow *other)
{
    sum->rate = other->rate;
    sum->years = other->years;
    for (int year = 0; year <= other->years; year++) {
        add_amount(&sum->capital[year], &other->capital[year]);
        add_amount(&sum->running[year], &other->running[year]);
    }
    add_amount(&sum->residual, &other->residual);
}

static void add_upkeep(struct tc_upkeep_time *sum, const struct tc_upkeep_time *other)
{
    sum->changes += other->changes;
    sum->tanks += other->tanks;
    sum->filters += other->filters;
    sum->total += other->total;
}

enum tc_status tc_cost_add(struct tc_cost *sum, const struct tc_cost *other)
{
    enum tc_status status = TC_OK;
    sum->incomplete = sum->incomplete || other->incomplete;
    add_lines(sum->buy, other->buy, TC_BUY_COUNT, &status);
    add_lines(sum->run, other->run, TC_RUN_COUNT, &status);
    add_lines(sum->extra, other->extra, TC_EXTRAS_MAX, &status);
    add_lines(sum->paid, other->paid, TC_LIFE_COUNT, &status);
    add_lines(sum->present, other->present, TC_LIFE_COUNT, &status);
    sum->to_buy = tc_money_add(sum->to_buy, other->to_buy, &status);
    sum->each_year = tc_money_add(sum->each_year, other->each_year, &status);
    sum->as_paid = tc_money_add(sum->as_paid, other->as_paid, &status);
    sum->present_value = tc_money_add(sum->present_value, other->present_value, &status);
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        add_energy(&sum->energy[i], &other->energy[i], &status);
    add_energy(&sum->energy_total, &other->energy_total, &status);
    add_running(&sum->running, &other->running);
    add_upkeep(&sum->upkeep, &other->upkeep);
    add_flow(&sum->flow, &other->flow);
    double recovery = tc_capital_recovery(sum->flow.rate, sum->flow.years);
    sum->yearly = tc_money_round((double)sum->present_value * recovery, &status);
    return status;
}

/* The purchase of the shared things, with tax and delivery. */
static enum tc_status buy(const struct tc_region *region, const struct tc_shared *things, int count,
                          tc_money delivery, struct tc_cost *cost)
{
    enum tc_status status = TC_OK;
    for (int i = 0; i < count; i++)
        cost->buy[things[i].line] = tc_money_add(cost->buy[things[i].line], things[i].price, &status);
    tc_money goods = tc_money_sum(cost->buy, TC_BUY_COUNT, &status);
    cost->buy[TC_BUY_DELIVERY] = delivery;
    cost->buy[TC_BUY_TAX] = tc_money_share(goods, tc_region_added_tax(region), &status);
    cost->to_buy = tc_money_sum(cost->buy, TC_BUY_COUNT, &status);
    return status;
}

/* What they use in a year. */
static enum tc_status run(const struct tc_region *region, const struct tc_tariff_margin *margin,
                          const struct tc_shared *things, int count, struct tc_cost *cost)
{
    double supplies = 0;
    for (int i = 0; i < count; i++) {
        struct tc_load load;
        tc_load_daily(&load, things[i].power / 1000, things[i].start, things[i].hours);
        tc_load_add(&cost->running.energy[things[i].consumer], &load, 1);
        if (things[i].load)
            tc_load_add(&cost->running.energy[things[i].consumer], things[i].load, 1);
    }
    enum tc_status status =
        tc_tariff_shared(margin, cost->running.energy, TC_CONSUMER_COUNT, &cost->energy_total, cost->energy);
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        cost->run[TC_RUN_ENERGY + i] = cost->energy[i].year;
    double heat = 0;
    for (int i = 0; i < count; i++) {
        supplies += (double)things[i].upkeep;
        heat += things[i].heat_cost;
    }
    cost->run[TC_RUN_ROOM_HEAT] = tc_money_round(heat, &status);
    cost->run[TC_RUN_SUPPLIES] = tc_money_round(supplies * (1 + tc_region_added_tax(region)), &status);
    cost->each_year = tc_money_sum(cost->run, TC_RUN_COUNT, &status);
    return status;
}

enum tc_status tc_shared_cost(const struct tc_case *c, const struct tc_tariff_margin *margin,
                              const struct tc_shared *things, int count, tc_money delivery,
                              struct tc_cost *cost)
{
    struct tc_item_life items[TC_SHARED_MAX];
    double tax = tc_region_added_tax(c->region);
    if (count < 0 || count > TC_SHARED_MAX)
        return TC_RANGE;
    *cost = (struct tc_cost){.to_buy = 0};
    for (int i = 0; i < count; i++) {
        double price = (double)things[i].price;
        items[i] = (struct tc_item_life){price,          price * (1 + tax), things[i].life,
                                         things[i].life, things[i].resale,  price};
    }
    enum tc_status status = buy(c->region, things, count, delivery, cost);
    if (status == TC_OK)
        status = run(c->region, margin, things, count, cost);
    return status == TC_OK ? tc_cost_period(c, items, count, cost) : status;
}
