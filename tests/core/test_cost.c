/* SPDX-License-Identifier: MIT */
/* The itemised cost: by hand, by published examples, and by laws that hold for any candidate. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/cost/cost.h"
#include "support/flow_cost.h"
#include "support/near.h"
#include "support/sample.h"
#include "support/step.h"

enum { CASES = 1500 };

static tc_money added(const tc_money *lines, int count)
{
    tc_money sum = 0;
    for (int i = 0; i < count; i++)
        sum += lines[i];
    return sum;
}

static tc_money rounded(double value)
{
    enum tc_status status = TC_OK;
    tc_money money = tc_money_round(value, &status);
    assert_int_equal(status, TC_OK);
    return money;
}

static double value_of(const struct sample *s)
{
    double value = NAN;
    assert_int_equal(tc_cost_value(&s->c, &s->equipment, &s->prices, &value), TC_OK);
    return value;
}

/* ------------------------------------------------------------- by hand */

static void a_purchase_by_hand(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    const tc_money *buy = s.cost.buy;
    /* 30 x 12 in less the panes, 2 in deep: 11.1 L of gravel, two bags of 8 L. */
    assert_int_equal(buy[TC_BUY_TANK], 5000);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_STAND], 8000);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_LID], 2800);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_LIGHT], 4500);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_FILTER], 3200);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_AIR_PUMP], 0);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_HEATER], 2500);
    assert_int_equal(buy[TC_BUY_SLOTS + TC_SLOT_SUBSTRATE], 2400);
    assert_int_equal(buy[TC_BUY_FEE], 0);
    assert_int_equal(buy[TC_BUY_DELIVERY], 3500);
    assert_int_equal(buy[TC_BUY_TAX], 1988); /* 7 % of 284.00, delivery aside */
    assert_int_equal(s.cost.to_buy, 28400 + 3500 + 1988);
    assert_false(s.cost.incomplete);
}

static void a_year_by_hand(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    const tc_money *run = s.cost.run;
    /* 65.7 kWh of light and 52.56 kWh of filter at 15 cents; each month's bill is rounded and shared out. */
    assert_near((double)run[TC_RUN_ENERGY + TC_CONSUMER_LIGHT], 985.5, 12);
    assert_near((double)run[TC_RUN_ENERGY + TC_CONSUMER_FILTER], 788.4, 12);
    assert_int_equal(run[TC_RUN_ENERGY + TC_CONSUMER_AIR_PUMP], 0);
    double changed = s.cost.running.changed_total, made_up = s.cost.running.evaporated_total;
    assert_near((double)run[TC_RUN_CHANGES], changed * 300, 12);
    assert_near((double)run[TC_RUN_MAKE_UP], made_up * 300, 12);
    assert_near((double)(run[TC_RUN_CHANGES] + run[TC_RUN_MAKE_UP]), (changed + made_up) * 300, 6);
    assert_int_equal(run[TC_RUN_CONDITIONER], rounded(changed * 400 * 1.07));
    assert_int_equal(run[TC_RUN_WARM_WATER], 0);
    assert_int_equal(run[TC_RUN_SUPPLIES], 1926); /* 18.00, and 7 % tax at the till */
}

/* A tank's own supplies, in the region's money and with its tax; without a price there, the sums lack it. */
static void tanks_have_supplies_too(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.c.tank.goods.upkeep = (struct tc_price_list){.count = 1, .price = {{s.region.currency, 4.50}}};
    sample_settle(&s);
    sample_cost(&s);
    assert_int_equal(s.cost.run[TC_RUN_SUPPLIES], rounded((1800 + 450) * 1.07));
    assert_false(s.cost.incomplete);
    s.region.tax_included = true;
    sample_cost(&s);
    assert_int_equal(s.cost.run[TC_RUN_SUPPLIES], 2250);
    memcpy(s.c.tank.goods.upkeep.price[0].currency.code, "SEK", 4);
    sample_cost(&s);
    assert_int_equal(s.cost.run[TC_RUN_SUPPLIES], 1800);
    assert_true(s.cost.incomplete);
}

/* Two for the price of the sale, the third at list price; parts for three, delivery once. */
static void three_tanks_by_hand(void **state)
{
    (void)state;
    struct sample one, s;
    sample_make(&one);
    sample_settle(&one);
    sample_cost(&one);
    sample_make(&s);
    s.c.quantity = 3;
    s.region.delivery_free_from = 0;
    sample_settle(&s);
    const struct tc_sale sale = {.rule = TC_SALE_PERCENT, .figure = 0.5, .limit = 2};
    struct tc_deal_terms terms = sample_terms(&s);
    terms.sale = &sale;
    sample_deal(&s, terms);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_TANK], 2500 + 2500 + 5000);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (slot != TC_SLOT_SUBSTRATE)
            assert_int_equal(s.cost.buy[TC_BUY_SLOTS + slot], 3 * one.cost.buy[TC_BUY_SLOTS + slot]);
    /* 11.2 L of gravel are two bags of 8 L; three times as much is five of them, not six. */
    assert_near(one.equipment.slot[TC_SLOT_SUBSTRATE].demand.bed, 0.0112, 0.0001);
    assert_int_equal(one.cost.buy[TC_BUY_SLOTS + TC_SLOT_SUBSTRATE], 2 * 1200);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_SUBSTRATE], 5 * 1200);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 3500);
    assert_int_equal(s.cost.run[TC_RUN_SUPPLIES], 3 * one.cost.run[TC_RUN_SUPPLIES]);
    for (int i = 0; i < TC_RUN_COUNT; i++)
        assert_near((double)s.cost.run[i], 3 * (double)one.cost.run[i], 24);
    /* Later tanks cost the list price. */
    struct tc_item_life life = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(life.price, 10000, 0);
    assert_near(life.replacement_price, 3 * 5000 * 1.07, 1e-9);
}

static void delivery_is_free_from_a_sum_of_goods(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    s.region.delivery_free_from = 284.01;
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 3500);
    s.region.delivery_free_from = 284.00;
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 0);
    s.region.delivery_free_from = 0; /* never */
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 3500);
    /* The fee of a special order is no goods; it is taxed. */
    s.region.delivery_free_from = 284.01;
    struct tc_deal_terms order = sample_terms(&s);
    order.ordered = true;
    order.order_fee = 2500;
    sample_deal(&s, order);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 3500);
    assert_int_equal(s.cost.buy[TC_BUY_FEE], 2500);
    assert_int_equal(s.cost.buy[TC_BUY_TAX], 2163); /* 7 % of 309.00 */
    /* Nothing bought is nothing delivered. */
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        s.c.wish[slot].part = "";
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
    sample_typed(&s, 0);
    sample_cost(&s);
    assert_int_equal(s.cost.to_buy, 0);
}

static void tax_is_added_or_included(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    s.region.tax_included = true;
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_TAX], 0);
    assert_int_equal(s.cost.to_buy, 28400 + 3500);
    /* The heater's third replacement falls at 9 years: 3, 6 and 9. */
    struct tc_item_life life = tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_HEATER);
    assert_int_equal(tc_item_replacements(&life, 10), 3);
    assert_near(life.replacement_price, 2500, 0);
    s.region.tax_included = false;
    life = tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_HEATER);
    assert_near(life.replacement_price, 2675, 1e-9);
}

/* What is sold brings a share of a new one's price without the tax, be it the first one or a replacement. */
static void nobody_pays_for_the_tax_at_resale(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    struct tc_item_life life = tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_HEATER);
    /* Bought last at 9 years, 2 of 3 left, at 30 %. */
    assert_near(tc_item_residual(&life, 10), 2500 * 2 / 3.0 * 0.3, 1e-9);
    life = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(tc_item_residual(&life, 10), 5000 * 5 / 15.0 * 0.4, 1e-9);
}

static void currencies_with_other_decimals(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    assert_true(tc_currency_find("JPY", &s.region.currency));
    s.region.delivery = 800.5;
    s.tariffs.electricity = tc_tariff_flat(31);
    s.tariffs.water = tc_tariff_flat(240);
    sample_settle(&s);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 0); /* 28400 yen are more than 400 */
    s.region.delivery_free_from = 0;
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 801);
    assert_near((double)s.cost.run[TC_RUN_ENERGY + TC_CONSUMER_LIGHT], 65.7 * 31, 6);
    sample_make(&s);
    assert_true(tc_currency_find("KWD", &s.region.currency));
    s.region.delivery = 1.2345;
    s.tariffs.electricity = tc_tariff_flat(0.012);
    sample_settle(&s);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 1235);
    assert_near((double)s.cost.run[TC_RUN_ENERGY + TC_CONSUMER_LIGHT], 65.7 * 12, 6);
}

/* Bought used: the first lasts as long as it is said to, later ones are new and cost the list price. */
static void used_tanks_and_parts(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.prices.tank_life = 4;
    s.c.wish[TC_SLOT_HEATER] = (struct tc_slot_wish){.price = 400, .next = NAN, .life = 1, .resale = NAN};
    s.c.wish[TC_SLOT_LID] = (struct tc_slot_wish){
        .price = 500, .next = NAN, .life = 99, .resale = NAN}; /* no longer than a new one */
    sample_settle(&s);
    sample_typed(&s, 1500);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_TANK], 1500);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_HEATER], 400);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_LID], 500);
    struct tc_item_life tank = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_int_equal(tc_item_replacements(&tank, 10), 1);
    assert_near(tc_item_replacement_time(&tank, 0), 4, 0);
    assert_near(tank.replacement_price, 5000 * 1.07, 1e-9);
    struct tc_item_life heater = tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_HEATER);
    assert_int_equal(tc_item_replacements(&heater, 10), 3); /* at 1, 4 and 7 years */
    assert_near(heater.replacement_price, 2500 * 1.07, 1e-9);
    struct tc_item_life lid = tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_LID);
    assert_near(lid.first_life, 10, 0);
    /* What it fetches may be said as well. */
    assert_near(tank.resale_share, 0.4, 1e-12);
    s.prices.tank_resale = 0.1;
    s.c.wish[TC_SLOT_LID].resale = 0;
    assert_near(tc_cost_tank_life(&s.c, &s.equipment, &s.prices).resale_share, 0.1, 1e-12);
    assert_near(tc_cost_slot_life(&s.c, &s.equipment, &s.prices, TC_SLOT_LID).resale_share, 0, 0);
}

/* What a bundle brings is paid with it, and bought anew when it is worn out. */
static void a_bundle_brings_parts(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    struct tc_cost without = s.cost;
    s.prices.included[TC_SLOT_HEATER] = 1;
    s.prices.included[TC_SLOT_SUBSTRATE] = 1; /* of two bags */
    s.prices.included[TC_SLOT_LID] = 5;       /* more than it takes */
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_HEATER], 0);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_SUBSTRATE], 1200);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_LID], 0);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_STAND], 8000);
    assert_int_equal(s.cost.present[TC_LIFE_REPLACEMENTS], without.present[TC_LIFE_REPLACEMENTS]);
    assert_int_equal(s.cost.present[TC_LIFE_RESALE], without.present[TC_LIFE_RESALE]);
    assert_int_equal(s.cost.each_year, without.each_year);
    assert_false(s.cost.incomplete);
    /* A part without a price here may come with a bundle, until it must be replaced. */
    sample_offer(&s, "lid-glass")->priced = false;
    s.c.years = 10;
    sample_cost(&s);
    assert_false(s.cost.incomplete);
    s.c.years = 11;
    sample_cost(&s);
    assert_true(s.cost.incomplete);
    s.c.years = 10;
    s.prices.included[TC_SLOT_LID] = 0;
    sample_cost(&s);
    assert_true(s.cost.incomplete);
}

static void what_is_not_known_is_said(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    s.listed = false;
    sample_deal(&s, sample_terms(&s));
    sample_cost(&s);
    assert_true(s.cost.incomplete);
    assert_int_equal(s.cost.buy[TC_BUY_TANK], 0);
    /* A typed price makes up for one that is missing, of the tank and of a part. */
    sample_typed(&s, 4000);
    sample_cost(&s);
    assert_false(s.cost.incomplete);
    s.c.wish[TC_SLOT_STAND].part = "stand-fine";
    sample_offer(&s, "stand-fine")->priced = false;
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
    sample_cost(&s);
    assert_true(s.cost.incomplete);
    s.c.wish[TC_SLOT_STAND].price = 7777;
    sample_cost(&s);
    assert_false(s.cost.incomplete);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_STAND], 7777);
    s.c.wish[TC_SLOT_LID].part = "lid-of-gold";
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
    sample_cost(&s);
    assert_true(s.cost.incomplete);
    assert_int_equal(s.cost.buy[TC_BUY_SLOTS + TC_SLOT_LID], 0);
}

static void what_cannot_be_is_refused(void **state)
{
    (void)state;
    struct sample s;
    double value;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    /* Each amount is in range, the sum is not. */
    sample_offer(&s, "stand-plain")->price = TC_MONEY_MAX - 1000;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
    assert_int_equal(tc_cost_reprice(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
    assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_OVERFLOW);
    /* A hundred years of a dear heater. */
    sample_make(&s);
    s.c.years = 100;
    sample_settle(&s);
    sample_offer(&s, "heater-100")->price = TC_MONEY_MAX / 20;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
    /* A fee beyond all bounds. */
    sample_make(&s);
    sample_settle(&s);
    s.prices.deal.fee = TC_MONEY_MAX;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
    /* Figures that are none. */
    static const int years[] = {0, -1, TC_YEARS_MAX + 1};
    for (int i = 0; i < 3; i++) {
        sample_make(&s);
        sample_settle(&s);
        s.c.years = years[i];
        assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_RANGE);
    }
    sample_make(&s);
    sample_settle(&s);
    s.c.discount = -1;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_RANGE);
    assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_RANGE);
    sample_make(&s);
    sample_settle(&s);
    s.c.tank.goods.life = 0;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_RANGE);
    assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_RANGE);
    sample_make(&s);
    sample_settle(&s);
    s.region.climate.humidity[0] = NAN;
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_RANGE);
    assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_RANGE);
    sample_make(&s);
    sample_settle(&s);
    s.tariffs.electricity = tc_tariff_flat(1e18);
    sample_price_energy(&s);
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
    sample_make(&s);
    sample_settle(&s);
    s.tariffs.water = tc_tariff_flat(1e18);
    sample_price_energy(&s);
    assert_int_equal(tc_cost_make(&s.c, &s.equipment, &s.prices, &s.cost), TC_OVERFLOW);
}

/* -------------------------------------------------- published examples */

/*
 * An alternative of an example: a tank that costs nothing but what is asked of
 * it, in a place without tax and delivery.
 */
static void start_example(struct sample *s, int years, double rate)
{
    sample_make(s);
    s->setup = (struct tc_setup){.temperature = 293.15, .warm_limit = 313.15, .heater_count = 1};
    s->region.sales_tax = s->region.delivery = s->region.conditioner = 0;
    s->region.electricity_escalation = s->region.water_escalation = 0;
    s->c.tank.goods.life = INFINITY;
    s->c.tank.goods.resale = 0;
    s->c.years = years;
    s->c.discount = rate;
    s->list = 0;
}

/* So many kWh a year at so much, by a filter that runs all the time. */
static void use_energy(struct sample *s, double kwh, double price)
{
    s->setup.filter = TC_FILTER_HANG_ON;
    s->c.wish[TC_SLOT_FILTER].part = "consumer";
    struct tc_part *part = sample_add(s, TC_SLOT_FILTER, "consumer", 0, INFINITY);
    part->as.filter =
        (struct tc_filter){.kind = TC_FILTER_HANG_ON, .flow = 1, .reach = 9, .power = kwh / 8.76};
    s->tariffs.electricity = tc_tariff_flat(price);
}

/* So many m3 a year at so much, by changes of all the water. */
static void use_water(struct sample *s, double volume, double price)
{
    struct tc_tank_size size;
    assert_int_equal(tc_tank_measure(&s->c.tank, (struct tc_bed){.void_share = 1}, 293.15, &size), TC_OK);
    s->setup.change_share = 1;
    s->setup.change_interval = size.water_volume * 365 / volume;
    s->tariffs.water = tc_tariff_flat(price);
}

/* So much a year for supplies, and something that is bought at a price again and again. */
static struct tc_part *use_stand(struct sample *s, tc_money price, double life, tc_money upkeep)
{
    s->setup.stand = true;
    s->c.wish[TC_SLOT_STAND].part = "example";
    struct tc_part *part = sample_add(s, TC_SLOT_STAND, "example", price, life);
    part->goods.resale = 0;
    sample_offer(s, "example")->upkeep = upkeep;
    return part;
}

static void finish_example(struct sample *s)
{
    sample_settle(s);
    sample_cost(s);
    assert_false(s->cost.incomplete);
}

/* The escalation at which the factor UPV* is the one printed, by trial and plain addition. */
static double escalation_for(double factor, double rate, int years)
{
    double low = -0.1, high = 0.1;
    for (int i = 0; i < 100; i++) {
        double middle = (low + high) / 2, sum = 0;
        for (int year = 1; year <= years; year++)
            sum += pow((1 + middle) / (1 + rate), year);
        if (sum < factor)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/*
 * NIST Handbook 135 (2025), 7.1.1, example 7-1, storm windows: 20 years at 3 %;
 * 1500 therms at 1.05 with UPV* 16.15 and 1200 kWh at 0.135 with UPV* 15.48,
 * against 2000 for windows, 1300 therms and 1100 kWh. Gas is told as water.
 * Printed: 27 944, energy 24 344, 26 344.
 */
static void storm_windows(void **state)
{
    (void)state;
    struct sample s;
    static const double therms[] = {1500, 1300}, kwh[] = {1200, 1100}, printed[] = {27944, 26344};
    for (int i = 0; i < 2; i++) {
        start_example(&s, 20, 0.03);
        s.list = i * 200000;
        use_energy(&s, kwh[i], 0.135);
        use_water(&s, therms[i], 1.05);
        s.region.electricity_escalation = escalation_for(15.48, 0.03, 20);
        s.region.water_escalation = escalation_for(16.15, 0.03, 20);
        finish_example(&s);
        assert_near((double)s.cost.present_value, 100 * printed[i], 100);
        assert_near(value_of(&s), 100 * printed[i], 60);
        assert_int_equal(s.cost.present[TC_LIFE_PURCHASE], i * 200000);
    }
    tc_money energy = s.cost.present[TC_LIFE_ENERGY] + s.cost.present[TC_LIFE_WATER];
    assert_near((double)energy, 2434400, 100);
}

/*
 * Newnan et al., Engineering Economic Analysis, examples 6-2 to 6-4, p. 180: 1000
 * for ten years at 7 %, sold for 200: 127.92 a year with factors of four digits,
 * 127.90 without. A tank of 20 years is sold half used, at 40 % of the rest.
 */
static void capital_recovery_with_salvage(void **state)
{
    (void)state;
    struct sample s;
    start_example(&s, 10, 0.07);
    s.list = 100000;
    s.c.tank.goods.life = 20;
    s.c.tank.goods.resale = 0.4;
    finish_example(&s);
    assert_int_equal(s.cost.paid[TC_LIFE_RESALE], -20000);
    assert_near((double)s.cost.yearly, 12792, 3);
    assert_near((double)s.cost.yearly, 12790.2, 1);
}

/*
 * The same book, 9th edition, problem 6-37: 5000 for five years at 8 % costs 1252 a
 * year; 8000 for twelve, sold for 2000, with 150 a year beside, 1106.
 */
static void two_machines(void **state)
{
    (void)state;
    struct sample s;
    start_example(&s, 5, 0.08);
    s.list = 500000;
    finish_example(&s);
    assert_near((double)s.cost.yearly, 125200, 50);
    start_example(&s, 12, 0.08);
    s.list = 800000;
    s.c.tank.goods.life = 24;
    s.c.tank.goods.resale = 0.5;
    use_stand(&s, 0, INFINITY, 15000);
    finish_example(&s);
    assert_int_equal(s.cost.paid[TC_LIFE_RESALE], -200000);
    assert_near((double)s.cost.yearly, 110600, 50);
}

/*
 * EngrEcon (CRAN, a library of engineering economy), om_distribute(0.03, 50, 3, 1000):
 * 1000 every three years over 50 years at 3 % are worth 8174.547; none at the start.
 */
static void periodic_replacement(void **state)
{
    (void)state;
    struct sample s;
    start_example(&s, 50, 0.03);
    use_stand(&s, 100000, 3, 0);
    finish_example(&s);
    assert_int_equal(s.cost.present[TC_LIFE_REPLACEMENTS], 817455);
    assert_int_equal(s.cost.paid[TC_LIFE_REPLACEMENTS], 16 * 100000);
    assert_int_equal(s.cost.present_value, 817455 + 100000);
}

/*
 * Extras beside nothing else. NIST Handbook 135 (2022), chapter 3, has 13.89 as the worth of 1 a year that
 * rises by 2 % over 15 years at 3 %, and 11.94 where it does not rise.
 */
static void extras_by_the_handbook(void **state)
{
    (void)state;
    struct sample s;
    start_example(&s, 15, 0.03);
    s.region.sales_tax = 0.1;
    s.c.quantity = s.prices.deal.quantity = s.prices.deal.first = 3;
    s.c.due[0] = (struct tc_due){.amount = 10000, .escalation = 0.02};
    s.c.due[1] = (struct tc_due){.amount = 1000, .each_tank = true};
    s.c.due[2] = (struct tc_due){.amount = 2500.5, .each_tank = true, .once = true, .escalation = 0.5};
    s.c.due[3] = (struct tc_due){.amount = NAN};
    s.c.due_count = 4;
    finish_example(&s);
    assert_int_equal(s.cost.buy[TC_BUY_EXTRAS], 7502); /* 7501.5, with no tax on it */
    assert_int_equal(s.cost.to_buy, 7502);
    assert_int_equal(s.cost.each_year, 13000);
    assert_int_equal(s.cost.extra[1], 3000);
    assert_int_equal(s.cost.extra[3], 0);
    assert_near((double)s.cost.present[TC_LIFE_EXTRAS], 10000 * 13.89 + 3000 * 11.94, 50 + 15);
    assert_int_equal(s.cost.present_value, 7502 + s.cost.present[TC_LIFE_EXTRAS]);
    assert_near(value_of(&s), (double)s.cost.present_value, 0.6);
    assert_near(s.cost.flow.running[1].paid, 10200 + 3000, 1e-9);
}

/*
 * NIST Handbook 135 (2022), 4.5.3: in 25 years an item of 15 is bought at 0 and 15
 * and credited with a third at the end; without discount it costs a fifteenth a year.
 */
static void remaining_life(void **state)
{
    (void)state;
    struct sample s;
    start_example(&s, 25, 0);
    s.c.tank.goods.life = 15;
    s.c.tank.goods.resale = 1;
    s.list = 150000;
    finish_example(&s);
    assert_int_equal(s.cost.paid[TC_LIFE_REPLACEMENTS], 150000);
    assert_int_equal(s.cost.paid[TC_LIFE_RESALE], -50000);
    assert_int_equal(s.cost.yearly, 10000);
}

/*
 * Thumann and Woodroof, Energy Project Financing, appendix A, example 34: 1500 that
 * saves 380 a year, with 50 a year of maintenance, 200 for a replacement after 8
 * years and 150 of salvage after 15, at 18 %: worth 139.56 with rounded factors.
 */
static void energy_project_34(void **state)
{
    (void)state;
    struct sample without, with;
    start_example(&without, 15, 0.18);
    use_energy(&without, 3800, 0.1);
    finish_example(&without);
    start_example(&with, 15, 0.18);
    with.list = 150000;
    with.c.tank.goods.life = 30;
    with.c.tank.goods.resale = 0.2;
    use_stand(&with, 20000, INFINITY, 5000);
    with.c.wish[TC_SLOT_STAND].price = 0;
    with.c.wish[TC_SLOT_STAND].life = 8;
    finish_example(&with);
    assert_near(value_of(&without) - value_of(&with), 13956, 5);
}

/* The same, example 35: 150 that save 400 kWh at 0.08 for 20 years at 10 %: worth 122.44. */
static void energy_project_35(void **state)
{
    (void)state;
    struct sample without, with;
    start_example(&without, 20, 0.10);
    use_energy(&without, 1000, 0.08);
    finish_example(&without);
    start_example(&with, 20, 0.10);
    with.list = 15000;
    use_energy(&with, 600, 0.08);
    finish_example(&with);
    assert_near(value_of(&without) - value_of(&with), 12244, 5);
}

/* ------------------------------------------- laws that hold for any case */

static void every_total_is_the_sum_of_its_lines(void **state)
{
    (void)state;
    struct tc_random random = draw_from(80);
    int complete = 0;
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        const struct tc_cost *cost = &s.cost;
        complete += !cost->incomplete;
        assert_int_equal(cost->to_buy, added(cost->buy, TC_BUY_COUNT));
        assert_int_equal(cost->each_year, added(cost->run, TC_RUN_COUNT));
        assert_int_equal(cost->as_paid, added(cost->paid, TC_LIFE_COUNT));
        assert_int_equal(cost->present_value, added(cost->present, TC_LIFE_COUNT));
        assert_int_equal(cost->paid[TC_LIFE_PURCHASE], cost->to_buy);
        assert_int_equal(cost->present[TC_LIFE_PURCHASE], cost->to_buy);
        assert_int_equal(added(cost->run, TC_CONSUMER_COUNT), cost->energy_total.year);
        for (int month = 0; month < TC_MONTHS; month++) {
            tc_money sum = 0;
            for (int k = 0; k < TC_CONSUMER_COUNT; k++)
                sum += cost->energy[k].month[month];
            assert_int_equal(sum, cost->energy_total.month[month]);
        }
        for (int k = 0; k < TC_CONSUMER_COUNT; k++)
            assert_int_equal(cost->run[TC_RUN_ENERGY + k], added(cost->energy[k].month, TC_MONTHS));
    }
    assert_in_range(complete * test_step(), CASES / 10, CASES - CASES / 10);
}

static void the_purchase_is_what_is_bought(void **state)
{
    (void)state;
    struct tc_random random = draw_from(81);
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        const struct tc_deal *deal = &s.prices.deal;
        tc_money goods = deal->first * deal->each + (deal->quantity - deal->first) * deal->list;
        bool incomplete = !deal->known;
        assert_int_equal(s.cost.buy[TC_BUY_TANK], goods);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_filled *filled = &s.equipment.slot[slot];
            double typed = s.c.wish[slot].price;
            tc_money price = 0;
            int pieces =
                tc_equipment_pieces(&s.c, &s.equipment, (enum tc_slot)slot) - s.prices.included[slot];
            if (filled->offer && pieces > 0) {
                price = isnan(typed) ? filled->offer->price : (tc_money)typed;
                incomplete = incomplete || (isnan(typed) && !filled->offer->priced);
            }
            incomplete = incomplete || filled->missing;
            assert_int_equal(s.cost.buy[TC_BUY_SLOTS + slot], (pieces > 0 ? pieces : 0) * price);
            goods += s.cost.buy[TC_BUY_SLOTS + slot];
        }
        double scale = tc_currency_scale(s.region.currency);
        tc_money free_from = rounded(s.region.delivery_free_from * scale);
        bool free = goods == 0 || (free_from > 0 && goods >= free_from);
        assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], free ? 0 : rounded(s.region.delivery * scale));
        assert_int_equal(s.cost.buy[TC_BUY_FEE], deal->fee);
        double tax = s.region.tax_included ? 0 : s.region.sales_tax;
        assert_int_equal(s.cost.buy[TC_BUY_TAX], rounded((double)(goods + deal->fee) * tax));
        if (incomplete)
            assert_true(s.cost.incomplete);
    }
}

/* An item's events told one by one, from the words of the rules. */
struct told {
    double paid, present, residual;
};

static struct told tell(const struct sample *s, double later, double worth, double tax, double first,
                        double resale, const struct tc_goods *goods)
{
    struct told told = {0, 0, 0};
    double bought = 0, life = fmin(first, goods->life), end = life;
    while (end < s->c.years - 1e-9) {
        told.paid += later * (1 + tax);
        told.present += later * (1 + tax) / pow(1 + s->c.discount, end);
        bought = end;
        end = bought + goods->life;
    }
    double left = isinf(end) ? 1 : (end - s->c.years) / (isinf(goods->life) ? life : goods->life);
    told.residual = fmax(left, 0) * worth * (isnan(resale) ? goods->resale : resale);
    return told;
}

/* The whole period against a plain telling of it, year by year and item by item. */
static void the_period_is_what_happens_in_it(void **state)
{
    (void)state;
    struct tc_random random = draw_from(82);
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        double d = s.c.discount, tax = s.region.tax_included ? 0 : s.region.sales_tax;
        const struct tc_deal *deal = &s.prices.deal;
        double tanks = (double)(deal->list * deal->quantity), worth = tanks;
        struct told all = {0, 0, 0};
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_offer *offer = s.equipment.slot[slot].offer;
            if (!offer)
                continue;
            double typed = s.c.wish[slot].price, used = s.c.wish[slot].life;
            double life = offer->part->goods.life;
            int pieces = tc_equipment_pieces(&s.c, &s.equipment, (enum tc_slot)slot);
            bool named = !isnan(typed) && isnan(used);
            double later = named || !offer->priced ? (isnan(typed) ? (double)offer->price : typed)
                                                   : (double)offer->price;
            double whole = isnan(used) || isinf(life) || used >= life ? 1 : life / used;
            double new_one = offer->priced ? (double)offer->price : later * whole;
            struct told one = tell(&s, pieces * later, pieces * new_one, tax, isnan(used) ? INFINITY : used,
                                   s.c.wish[slot].resale, &offer->part->goods);
            all.paid += one.paid;
            all.present += one.present;
            all.residual += one.residual;
            if (!deal->listed && offer->priced)
                worth -= fmin(pieces, s.prices.included[slot]) * (double)offer->price;
        }
        double used = s.prices.tank_life, life = s.c.tank.goods.life;
        if (!deal->listed && !isnan(used) && !isinf(life) && used < life)
            worth *= life / used;
        struct told one = tell(&s, tanks, fmax(worth, 0), tax, isnan(used) ? INFINITY : used,
                               s.prices.tank_resale, &s.c.tank.goods);
        all.paid += one.paid;
        all.present += one.present;
        all.residual += one.residual;
        assert_near((double)s.cost.paid[TC_LIFE_REPLACEMENTS], all.paid, 0.51);
        assert_near((double)s.cost.present[TC_LIFE_REPLACEMENTS], all.present, 0.51);
        assert_near((double)s.cost.paid[TC_LIFE_RESALE], -all.residual, 0.51);
        assert_near((double)s.cost.present[TC_LIFE_RESALE], -all.residual / pow(1 + d, s.c.years), 0.51);

        static const int lines[] = {TC_LIFE_ENERGY, TC_LIFE_WATER, TC_LIFE_SUPPLIES};
        const tc_money *run = s.cost.run;
        const double amounts[] = {
            (double)(s.cost.energy_total.year + run[TC_RUN_WARM_WATER]),
            (double)(run[TC_RUN_CHANGES] + run[TC_RUN_MAKE_UP]),
            (double)run[TC_RUN_SUPPLIES],
        };
        const double unraised[] = {0, (double)run[TC_RUN_CONDITIONER], 0}; /* only energy and water rise */
        const double rises[] = {s.region.electricity_escalation, s.region.water_escalation, 0};
        for (int k = 0; k < 3; k++) {
            double paid = 0, present = 0;
            for (int year = 1; year <= s.c.years; year++) {
                paid += amounts[k] * pow(1 + rises[k], year) + unraised[k];
                present += amounts[k] * pow((1 + rises[k]) / (1 + d), year) + unraised[k] / pow(1 + d, year);
            }
            assert_near((double)s.cost.paid[lines[k]], paid, 0.51);
            assert_near((double)s.cost.present[lines[k]], present, 0.51);
        }
        double annuity = d > 0 ? d / (1 - pow(1 + d, -s.c.years)) : 1.0 / s.c.years;
        assert_near((double)s.cost.yearly, (double)s.cost.present_value * annuity, 0.51);
        /* The flow that charts are drawn from says the same. */
        struct tc_amount flow = flow_cost(&s.cost.flow);
        assert_near(flow.paid, (double)s.cost.as_paid, 3);
        assert_near(flow.present, (double)s.cost.present_value, 3);
    }
}

/* The rounding of monthly bills, half a unit each at most, times what a yearly amount is worth. */
static void the_value_alone_is_the_present_value(void **state)
{
    (void)state;
    struct tc_random random = draw_from(83);
    double off = 0;
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        double energy = 6.5, water = 7; /* 12 months and the warm water; 12 months and the conditioner */
        double tolerance =
            3 +
            energy * tc_escalated_present_value(s.c.discount, s.region.electricity_escalation, s.c.years) +
            water * tc_escalated_present_value(s.c.discount, s.region.water_escalation, s.c.years);
        assert_near(value_of(&s), (double)s.cost.present_value, tolerance);
        off += fabs(value_of(&s) - (double)s.cost.present_value) / tolerance;
    }
    assert_true(off / CASES < 0.2);
}

static void another_deal_changes_what_it_should(void **state)
{
    (void)state;
    struct tc_random random = draw_from(84);
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        struct tc_cost repriced = s.cost;
        sample_typed(&s, i * 10);
        assert_int_equal(tc_cost_reprice(&s.c, &s.equipment, &s.prices, &repriced), TC_OK);
        sample_cost(&s);
        assert_memory_equal(repriced.buy, s.cost.buy, sizeof repriced.buy);
        assert_memory_equal(repriced.run, s.cost.run, sizeof repriced.run);
        assert_memory_equal(repriced.paid, s.cost.paid, sizeof repriced.paid);
        assert_memory_equal(repriced.present, s.cost.present, sizeof repriced.present);
        assert_int_equal(repriced.present_value, s.cost.present_value);
        assert_int_equal(repriced.yearly, s.cost.yearly);
        assert_int_equal(repriced.incomplete, s.cost.incomplete);
        assert_near(flow_cost(&repriced.flow).present, flow_cost(&s.cost.flow).present, 0);
    }
}

/* 100 kWh in each month: heat saved in three of them, taken out in two; on the bill where it counts. */
static void the_heat_of_the_room_counts_where_it_is_to(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    double heat[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++)
        heat[month] = 100;
    s.region.room_heat_price = 0.08;
    s.region.room_cool_price = 0.05;
    s.region.heated[0] = s.region.heated[1] = s.region.heated[11] = true;
    s.region.cooled[6] = s.region.cooled[7] = true;
    assert_near(tc_cost_heating_saved(&s.region, heat), 2400, 1e-9);
    assert_near(tc_cost_cooling_added(&s.region, heat), 1000, 1e-9);
    s.region.electricity_escalation = 0;
    sample_settle(&s);
    sample_cost(&s);
    assert_int_equal(s.cost.run[TC_RUN_ROOM_HEAT], 0);
    tc_money before = s.cost.each_year, energy = s.cost.paid[TC_LIFE_ENERGY];
    s.c.room_heat = true;
    sample_cost(&s);
    double saved = tc_cost_heating_saved(&s.region, s.cost.running.room_heat) -
                   tc_cost_cooling_added(&s.region, s.cost.running.room_heat);
    assert_true(saved > 100);
    assert_near((double)-s.cost.run[TC_RUN_ROOM_HEAT], saved, 0.5);
    assert_int_equal(s.cost.each_year, before + s.cost.run[TC_RUN_ROOM_HEAT]);
    assert_int_equal(s.cost.paid[TC_LIFE_ENERGY], energy + s.c.years * s.cost.run[TC_RUN_ROOM_HEAT]);
    double value;
    assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_OK);
    assert_near(value, (double)s.cost.present_value, 100);
}

/* Which lines differ, one bit each: those of the purchase, of a year, of the period. */
struct changes {
    unsigned buy, run, life;
};

static unsigned differing(const tc_money *a, const tc_money *b, int count)
{
    unsigned bits = 0;
    for (int i = 0; i < count; i++)
        bits |= (unsigned)(a[i] != b[i]) << i;
    return bits;
}

static void assert_changes(struct sample *s, struct changes wanted, int line)
{
    struct tc_cost before = s->cost;
    sample_price_energy(s);
    sample_cost(s);
    struct changes found = {differing(before.buy, s->cost.buy, TC_BUY_COUNT),
                            differing(before.run, s->cost.run, TC_RUN_COUNT),
                            differing(before.present, s->cost.present, TC_LIFE_COUNT)};
    if (found.buy != wanted.buy || found.run != wanted.run || found.life != wanted.life)
        fail_msg("line %d: lines %x %x %x changed, wanted %x %x %x", line, found.buy, found.run, found.life,
                 wanted.buy, wanted.run, wanted.life);
}

#define CHANGES(s, ...) assert_changes(s, (struct changes){__VA_ARGS__}, __LINE__)
#define BUY(slot)       (1U << (TC_BUY_SLOTS + TC_SLOT_##slot))
#define USE(consumer)   (1U << (TC_RUN_ENERGY + TC_CONSUMER_##consumer))
#define LIFE(line)      (1U << TC_LIFE_##line)

static void one_price_changes_the_lines_that_depend_on_it(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.region.delivery_free_from = 0;
    s.region.fresh_mixed = true;
    s.region.warm_water_price = 0.06;
    sample_settle(&s);
    sample_cost(&s);
    const unsigned tax = 1U << TC_BUY_TAX, tank = 1U << TC_BUY_TANK;
    sample_offer(&s, "lid-glass")->price += 100; /* lasts as long as the study */
    CHANGES(&s, BUY(LID) | tax, 0, LIFE(PURCHASE));
    sample_offer(&s, "heater-100")->price += 100;
    CHANGES(&s, BUY(HEATER) | tax, 0, LIFE(PURCHASE) | LIFE(REPLACEMENTS) | LIFE(RESALE));
    sample_offer(&s, "heater-200")->price += 100; /* not chosen */
    CHANGES(&s, 0, 0, 0);
    s.prices.deal.each += 100;
    CHANGES(&s, tank | tax, 0, LIFE(PURCHASE));
    s.prices.deal.later += 100;
    CHANGES(&s, 0, 0, LIFE(RESALE));
    sample_offer(&s, "hang-on-m")->upkeep += 100;
    CHANGES(&s, 0, 1U << TC_RUN_SUPPLIES, LIFE(SUPPLIES));
    s.c.due[s.c.due_count++] = (struct tc_due){.amount = 100};
    CHANGES(&s, 0, 1U << TC_RUN_EXTRAS, LIFE(EXTRAS));
    s.c.due[s.c.due_count++] = (struct tc_due){.amount = 100, .once = true};
    CHANGES(&s, 1U << TC_BUY_EXTRAS, 0, LIFE(PURCHASE));
    s.region.delivery += 1;
    CHANGES(&s, 1U << TC_BUY_DELIVERY, 0, LIFE(PURCHASE));
    s.prices.deal.fee += 100;
    CHANGES(&s, 1U << TC_BUY_FEE | tax, 0, LIFE(PURCHASE));
    s.tariffs.electricity = tc_tariff_flat(0.2);
    CHANGES(&s, 0, USE(HEATER) | USE(LIGHT) | USE(FILTER), LIFE(ENERGY));
    s.region.warm_water_price = 0.09;
    CHANGES(&s, 0, 1U << TC_RUN_WARM_WATER, LIFE(ENERGY));
    s.tariffs.water = tc_tariff_flat(4);
    CHANGES(&s, 0, 1U << TC_RUN_CHANGES | 1U << TC_RUN_MAKE_UP, LIFE(WATER));
    s.region.conditioner = 5;
    CHANGES(&s, 0, 1U << TC_RUN_CONDITIONER, LIFE(WATER));
    s.region.electricity_escalation = 0.03;
    CHANGES(&s, 0, 0, LIFE(ENERGY));
    s.c.hour_worth = 900;
    CHANGES(&s, 0, 1U << TC_RUN_UPKEEP, LIFE(UPKEEP));
    s.region.water_escalation = 0.03;
    CHANGES(&s, 0, 0, LIFE(WATER));
}

/* A dearer bundle of the same things is dearer to own by what it costs more, tax included. */
static void no_bundle_is_cheaper_for_being_dearer(void **state)
{
    (void)state;
    struct tc_random random = draw_from(86);
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        s.region.delivery_free_from = 0;
        s.listed = true;
        s.list = 5000;
        struct tc_sale bundle = {.rule = TC_SALE_BUNDLE, .figure = 1 + draw_below(&random, 500)};
        struct tc_deal_terms terms = sample_terms(&s);
        terms.sale = &bundle;
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            s.prices.included[slot] = draw_below(&random, 2) * s.c.quantity;
        sample_deal(&s, terms);
        sample_cost(&s);
        tc_money bought = s.cost.to_buy, value = s.cost.present_value, sold = s.cost.paid[TC_LIFE_RESALE];
        bundle.figure += 1 + draw_below(&random, 500);
        sample_deal(&s, terms);
        sample_cost(&s);
        assert_true(s.cost.to_buy > bought);
        assert_int_equal(s.cost.present_value - value, s.cost.to_buy - bought);
        assert_int_equal(s.cost.paid[TC_LIFE_RESALE], sold);
        /* Nor does it matter for what comes back whether a thing came with the tank or alone. */
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            s.prices.included[slot] = 0;
        sample_cost(&s);
        assert_int_equal(s.cost.paid[TC_LIFE_RESALE], sold);
    }
}

/* A gift is worth what any other is in the end; without a list price all there is to go by is what was paid.
 */
static void what_was_paid_counts_where_no_list_price_is_known(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    tc_money sold = s.cost.paid[TC_LIFE_RESALE];
    sample_typed(&s, 0);
    sample_cost(&s);
    assert_int_equal(s.cost.paid[TC_LIFE_RESALE], sold);
    /* 15 years at 40 %: 10 years on a third is left. */
    struct tc_item_life tank = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(tc_item_residual(&tank, 10), 5000 * 0.4 / 3, 1e-9);
    s.listed = false;
    sample_typed(&s, 3000);
    tank = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(tc_item_residual(&tank, 10), 3000 * 0.4 / 3, 1e-9);
    /* With 12 of 15 years left at 3000 a new one would be 3750; 2 of 15 are left at the end. */
    s.prices.tank_life = 12;
    tank = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(tc_item_residual(&tank, 10), 3750 * 0.4 * 2 / 15, 1e-9);
    /* A bundle's price less what its lid costs alone. */
    s.prices.tank_life = NAN;
    s.prices.included[TC_SLOT_LID] = 1;
    tank = tc_cost_tank_life(&s.c, &s.equipment, &s.prices);
    assert_near(tc_item_residual(&tank, 10), (3000 - 2800) * 0.4 / 3, 1e-9);
}

/* Slope 1 + tax, where no delivery comes in between: what comes back at the end is the market's to say. */
static void the_cost_is_linear_in_the_price_of_the_tank(void **state)
{
    (void)state;
    struct tc_random random = draw_from(85);
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        s.region.delivery_free_from = 0;
        s.listed = true;
        s.list = 5000;
        double slope = 1 + (s.region.tax_included ? 0 : s.region.sales_tax);
        double value[3];
        tc_money price[3];
        for (int k = 0; k < 3; k++) {
            price[k] = 1 + draw_below(&random, 1000000);
            sample_typed(&s, price[k]);
            sample_cost(&s);
            value[k] = (double)s.cost.present_value;
        }
        for (int k = 1; k < 3; k++)
            assert_near(value[k] - value[0], s.c.quantity * slope * (double)(price[k] - price[0]), 2.01);
    }
}

/*
 * Where parts touch nothing but their own cost, because no heater makes up for
 * theirs, the one chosen is the one with which the whole candidate costs least,
 * but for 5 % of its own cost where more pieces of another would be cheaper.
 */
static void the_part_chosen_makes_the_cheapest_candidate(void **state)
{
    (void)state;
    static const enum tc_slot slots[] = {TC_SLOT_STAND, TC_SLOT_LIGHT, TC_SLOT_FILTER};
    struct tc_random random = draw_from(86);
    int compared = 0;
    for (int i = 0; i < CASES; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        enum tc_slot slot = slots[draw_below(&random, 3)];
        s.setup.heater = false;
        s.setup.filter = TC_FILTER_HANG_ON;
        s.setup.activity = 0;
        s.tariffs.electricity = tc_tariff_flat(0.2);
        s.region.delivery = 0;
        for (int k = 0; k < TC_SLOT_COUNT; k++)
            s.c.wish[k] = (struct tc_slot_wish){.price = NAN, .next = NAN, .life = NAN, .resale = NAN};
        memset(s.prices.included, 0, sizeof s.prices.included);
        sample_settle(&s);
        const struct tc_offer *chosen = s.equipment.slot[slot].offer;
        if (!chosen)
            continue;
        double least = value_of(&s), own = s.equipment.slot[slot].present_value;
        int count = s.equipment.slot[slot].count;
        for (int k = 0; k < s.c.offer_count; k++) {
            if (s.parts[k].slot != slot || !s.offers[k].priced)
                continue;
            s.c.wish[slot].part = s.parts[k].goods.name;
            assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
            if (s.equipment.slot[slot].ill_fitting)
                continue;
            /* The till rounds its tax. */
            double handicap = s.equipment.slot[slot].count > count ? TC_FIT_FEWER * fabs(own) : 0;
            assert_true(value_of(&s) >= least - 1 - s.c.quantity * handicap);
            compared += chosen != &s.offers[k];
        }
    }
    assert_true(compared * test_step() > CASES / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_purchase_by_hand),
        cmocka_unit_test(a_year_by_hand),
        cmocka_unit_test(tanks_have_supplies_too),
        cmocka_unit_test(three_tanks_by_hand),
        cmocka_unit_test(delivery_is_free_from_a_sum_of_goods),
        cmocka_unit_test(tax_is_added_or_included),
        cmocka_unit_test(nobody_pays_for_the_tax_at_resale),
        cmocka_unit_test(currencies_with_other_decimals),
        cmocka_unit_test(used_tanks_and_parts),
        cmocka_unit_test(a_bundle_brings_parts),
        cmocka_unit_test(what_is_not_known_is_said),
        cmocka_unit_test(what_cannot_be_is_refused),
        cmocka_unit_test(storm_windows),
        cmocka_unit_test(capital_recovery_with_salvage),
        cmocka_unit_test(two_machines),
        cmocka_unit_test(periodic_replacement),
        cmocka_unit_test(extras_by_the_handbook),
        cmocka_unit_test(remaining_life),
        cmocka_unit_test(energy_project_34),
        cmocka_unit_test(energy_project_35),
        cmocka_unit_test(every_total_is_the_sum_of_its_lines),
        cmocka_unit_test(the_purchase_is_what_is_bought),
        cmocka_unit_test(the_period_is_what_happens_in_it),
        cmocka_unit_test(the_value_alone_is_the_present_value),
        cmocka_unit_test(another_deal_changes_what_it_should),
        cmocka_unit_test(the_heat_of_the_room_counts_where_it_is_to),
        cmocka_unit_test(one_price_changes_the_lines_that_depend_on_it),
        cmocka_unit_test(no_bundle_is_cheaper_for_being_dearer),
        cmocka_unit_test(what_was_paid_counts_where_no_list_price_is_known),
        cmocka_unit_test(the_cost_is_linear_in_the_price_of_the_tank),
        cmocka_unit_test(the_part_chosen_makes_the_cheapest_candidate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
