/* SPDX-License-Identifier: MIT */
#include "core/cost/choose.h"
#include "core/cost/swap.h"
#include "support/sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define LITRE_PER_HOUR  (0.001 / 3600)
#define JOULES_PER_KWH  3.6e6
#define CELSIUS(degree) (273.15 + (degree))

static struct tc_currency currency(const char *code)
{
    struct tc_currency found;
    assert_true(tc_currency_find(code, &found));
    return found;
}

struct tc_tank sample_tank_inches(double length, double width, double height, double glass)
{
    return (struct tc_tank){
        .goods = {.name = "tank", .life = 15, .resale = 0.4},
        .nominal_volume = round(length * width * height / 231) * US_GALLON,
        .length = length * INCH,
        .width = width * INCH,
        .height = height * INCH,
        .glass = glass / 1000,
        .bottom_glass = glass / 1000,
        .freeboard = 0.03,
    };
}

struct tc_part *sample_add(struct sample *s, enum tc_slot slot, const char *name, tc_money price, double life)
{
    assert_true(s->c.offer_count < SAMPLE_PARTS_MAX);
    int i = s->c.offer_count++;
    struct tc_part *part = &s->parts[i];
    *part = (struct tc_part){.goods = {.life = life, .resale = 0.3}, .slot = slot};
    snprintf(part->goods.name, sizeof part->goods.name, "%s", name);
    s->offers[i] = (struct tc_offer){.part = part, .priced = true, .price = price};
    return part;
}

struct tc_offer *sample_offer(struct sample *s, const char *name)
{
    for (int i = 0; i < s->c.offer_count; i++)
        if (strcmp(s->parts[i].goods.name, name) == 0)
            return &s->offers[i];
    fail_msg("no part %s in the sample", name);
    return NULL;
}

const char *sample_part(const struct sample *s, enum tc_slot slot)
{
    const struct tc_offer *offer = s->equipment.slot[slot].offer;
    return offer ? offer->part->goods.name : "";
}

static struct tc_setup make_setup(void)
{
    return (struct tc_setup){
        .name = "setup",
        .stand = true,
        .lid = true,
        .heater = true,
        .filter = TC_FILTER_HANG_ON,
        .turnover = 5 / 3600.0,
        .ppfd = 40,
        .light_hours = 9,
        .light_start = 10.5,
        .attenuation = 0.5,
        .temperature = CELSIUS(25),
        .warm_limit = CELSIUS(30),
        .heater_margin = 0.25,
        .heater_count = 1,
        .bed_depth = 2 * INCH,
        .change_share = 0.3,
        .change_interval = 7,
        .activity = 0.74,
    };
}

static struct tc_region make_region(void)
{
    struct tc_region region = {
        .name = "region",
        .currency = currency("USD"),
        .sales_tax = 0.07,
        .delivery = 35,
        .delivery_free_from = 400,
        .order_fee = 25,
        .electricity_escalation = 0.01,
        .water_escalation = 0.02,
        .conditioner = 4,
        .cold_water = CELSIUS(12),
        .climate = {.swing = 1.5},
    };
    for (int month = 0; month < TC_MONTHS; month++) {
        region.climate.room[month] = CELSIUS(20) - 2 * cos(month * 0.5235987755982988);
        region.climate.humidity[month] = 0.5;
    }
    return region;
}

/* Parts to scale with the tank, so that any tank finds some that fit. */
static void add_dry_parts(struct sample *s)
{
    double length = s->c.tank.length, width = s->c.tank.width;
    double area = length * width / (30 * INCH * 12 * INCH);
    double size = area * s->c.tank.height / (18 * INCH);
    sample_add(s, TC_SLOT_STAND, "stand-plain", 8000, 20)->as.stand =
        (struct tc_stand){length, width, 0.75, 300 * size, true};
    sample_add(s, TC_SLOT_STAND, "stand-fine", 14000, 20)->as.stand =
        (struct tc_stand){length, width, 0.75, 400 * size, true};
    sample_add(s, TC_SLOT_STAND, "stand-weak", 4000, 20)->as.stand =
        (struct tc_stand){length, width, 0.75, 60 * size, true};
    sample_add(s, TC_SLOT_LID, "lid-glass", 2800, 10)->as.lid = (struct tc_lid){length, width, 0.95, 0.9};
    sample_add(s, TC_SLOT_LID, "lid-halves", 1600, 10)->as.lid =
        (struct tc_lid){length / 2, width, 0.95, 0.9};
    sample_add(s, TC_SLOT_LID, "lid-long", 2000, 10)->as.lid =
        (struct tc_lid){length + 0.15, width, 0.95, 0.9};
    sample_add(s, TC_SLOT_LIGHT, "light-strip", 4500, 6)->as.light =
        (struct tc_light){length - 0.1, length + 0.1, 20 * area, 36 * area, 0.45, 0.3};
    sample_add(s, TC_SLOT_LIGHT, "light-dim", 2500, 6)->as.light =
        (struct tc_light){length - 0.1, length + 0.1, 8 * area, 4 * area, 0.45, 0.3};
    sample_add(s, TC_SLOT_SUBSTRATE, "gravel", 1200, 15)->as.substrate =
        (struct tc_substrate){0.008, 1600, 0.4};
    sample_add(s, TC_SLOT_SUBSTRATE, "soil", 2500, 3)->as.substrate = (struct tc_substrate){0.006, 900, 0.5};
}

static void add_running_parts(struct sample *s)
{
    double length = s->c.tank.length / (30 * INCH), height = s->c.tank.height / (18 * INCH);
    double size = length * height * s->c.tank.width / (12 * INCH);
    sample_add(s, TC_SLOT_FILTER, "hang-on-m", 3200, 5)->as.filter =
        (struct tc_filter){TC_FILTER_HANG_ON, 600 * LITRE_PER_HOUR * size, 1.0 * length, 6 * size, 0, 0.6};
    sample_offer(s, "hang-on-m")->upkeep = 1800;
    sample_add(s, TC_SLOT_FILTER, "hang-on-s", 2000, 5)->as.filter =
        (struct tc_filter){TC_FILTER_HANG_ON, 250 * LITRE_PER_HOUR * size, 0.5 * length, 3 * size, 0, 0.6};
    sample_offer(s, "hang-on-s")->upkeep = 1200;
    sample_add(s, TC_SLOT_FILTER, "sponge-m", 700, 4)->as.filter = (struct tc_filter){
        TC_FILTER_SPONGE, 300 * LITRE_PER_HOUR * size, 0.6 * length, 0, 150 * LITRE_PER_HOUR * size, 0};
    sample_offer(s, "sponge-m")->upkeep = 300;
    sample_add(s, TC_SLOT_AIR_PUMP, "air-s", 1500, 3)->as.air_pump =
        (struct tc_air_pump){200 * LITRE_PER_HOUR * size, 0.6 * height, 3 * size};
    sample_add(s, TC_SLOT_AIR_PUMP, "air-m", 3000, 3)->as.air_pump =
        (struct tc_air_pump){500 * LITRE_PER_HOUR * size, 0.8 * height, 5 * size};
    sample_add(s, TC_SLOT_HEATER, "heater-100", 2500, 3)->as.heater.power = 100 * size;
    sample_add(s, TC_SLOT_HEATER, "heater-200", 3200, 3)->as.heater.power = 200 * size;
    sample_add(s, TC_SLOT_HEATER, "heater-15", 1000, 3)->as.heater.power = 15 * size;
}

static void ask_for_nothing_special(struct sample *s)
{
    s->c = (struct tc_case){
        .tank = s->c.tank, /* made before */
        .setup = &s->setup,
        .region = &s->region,
        .offers = s->offers,
        .quantity = 1,
        .years = 10,
        .discount = 0.03,
        .loss_factor = 1,
    };
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        s->c.wish[slot] = (struct tc_slot_wish){.price = NAN, .next = NAN, .life = NAN, .resale = NAN};
    s->prices = (struct tc_prices){
        .tank_life = NAN, .tank_resale = NAN, .electricity = &s->electricity, .water = &s->water};
}

void sample_make(struct sample *s)
{
    *s = (struct sample){.listed = true, .list = 5000};
    s->c.tank = sample_tank_inches(30, 12, 18, 6);
    s->setup = make_setup();
    s->region = make_region();
    s->tariffs = (struct tc_tariffs){tc_tariff_flat(0.15), tc_tariff_flat(3)};
    ask_for_nothing_special(s);
    add_dry_parts(s);
    add_running_parts(s);
}

void sample_price_energy(struct sample *s)
{
    struct tc_tariff electricity = s->tariffs.electricity, water = s->tariffs.water;
    double scale = tc_currency_scale(s->region.currency);
    double units[TC_MONTHS];
    struct tc_load own;
    tc_tariff_scale(&electricity, scale);
    tc_tariff_scale(&water, scale);
    for (int month = 0; month < TC_MONTHS; month++)
        units[month] = s->region.household_energy / JOULES_PER_KWH;
    tc_load_even(&own, units);
    tc_tariff_margin(&s->electricity, &electricity, &own);
    for (int month = 0; month < TC_MONTHS; month++)
        units[month] = s->region.household_water;
    tc_load_even(&own, units);
    tc_tariff_margin(&s->water, &water, &own);
    for (int month = 0; month < TC_MONTHS; month++)
        units[month] = 1;
    s->c.energy_price = tc_tariff_added_even(&s->electricity, units) / (TC_MONTHS * JOULES_PER_KWH);
}

struct tc_deal_terms sample_terms(const struct sample *s)
{
    return (struct tc_deal_terms){
        .quantity = s->c.quantity,
        .currency = s->region.currency,
        .nominal_volume = s->c.tank.nominal_volume,
        .listed = s->listed,
        .list = s->list,
    };
}

void sample_deal(struct sample *s, struct tc_deal_terms terms)
{
    assert_int_equal(tc_deal_make(&terms, &s->prices.deal), TC_OK);
}

void sample_typed(struct sample *s, tc_money price)
{
    struct tc_deal_terms terms = sample_terms(s);
    terms.typed = true;
    terms.price = price;
    sample_deal(s, terms);
}

void sample_settle(struct sample *s)
{
    sample_price_energy(s);
    sample_deal(s, sample_terms(s));
    assert_int_equal(tc_equipment_choose(&s->c, &s->equipment), TC_OK);
}

void sample_cost(struct sample *s)
{
    assert_int_equal(tc_cost_make(&s->c, &s->equipment, &s->prices, &s->cost), TC_OK);
}

static bool one_in(struct tc_random *random, int n)
{
    return draw_below(random, n) == 0;
}

static void draw_tank(struct sample *s, struct tc_random *random)
{
    s->c.tank = sample_tank_inches(draw_between(random, 12, 72), draw_between(random, 8, 28),
                                   draw_between(random, 10, 28), draw_between(random, 4, 12));
    s->c.tank.goods.life = one_in(random, 4) ? INFINITY : draw_between(random, 0.5, 40);
    s->c.tank.goods.resale = draw_between(random, 0, 1);
    s->c.tank.freeboard = draw_between(random, 0.01, 0.05);
    s->listed = !one_in(random, 6);
    s->list = draw_below(random, 60000);
}

static void draw_setup(struct sample *s, struct tc_random *random)
{
    struct tc_setup *setup = &s->setup;
    setup->stand = !one_in(random, 3);
    setup->lid = !one_in(random, 3);
    setup->heater = !one_in(random, 4);
    setup->filter = (enum tc_filter_kind)draw_below(random, TC_FILTER_HANG_ON + 1);
    setup->turnover = draw_between(random, 2, 6) / 3600;
    setup->shared_air = one_in(random, 2);
    setup->ppfd = one_in(random, 3) ? 0 : draw_between(random, 5, 60);
    setup->light_hours = draw_between(random, 4, 14);
    setup->light_start = draw_between(random, 0, 23.99);
    setup->temperature = CELSIUS(draw_between(random, 20, 29));
    setup->heater_count = 1 + draw_below(random, 2);
    setup->bed_depth = one_in(random, 3) ? 0 : draw_between(random, 0.01, 0.08);
    setup->change_share = draw_between(random, 0, 0.6);
    setup->change_interval = draw_between(random, 1, 30);
    setup->activity = one_in(random, 3) ? NAN : draw_between(random, 0.3, 1.2);
    setup->sheltered = one_in(random, 2) ? 0 : draw_between(random, 0, 1);
}

/* Flat, by the hour, or in two blocks with a tax; major units. */
static struct tc_tariff draw_tariff(struct tc_random *random, double price)
{
    struct tc_tariff tariff = tc_tariff_flat(price);
    struct tc_tariff_season *season = &tariff.season[0];
    int kind = draw_below(random, 3);
    if (kind == 1) {
        season->by_hour = true;
        for (int i = 0; i < TC_DAY_TYPES * TC_HOURS; i++)
            season->hour[i / TC_HOURS][i % TC_HOURS] = price * draw_between(random, 0, 2);
    } else if (kind == 2) {
        season->block_count = 2;
        season->block[0] = (struct tc_tariff_block){draw_between(random, 10, 500), price, false};
        season->block[1] = (struct tc_tariff_block){HUGE_VAL, 1.5 * price, false};
        tariff.tax = draw_between(random, 0, 0.2);
    }
    return tariff;
}

static void draw_region(struct sample *s, struct tc_random *random)
{
    static const char *const codes[] = {"USD", "JPY", "KWD"};
    struct tc_region *region = &s->region;
    region->currency = currency(codes[draw_below(random, 3)]);
    /* Prices of parts are in minor units; those of the region keep about their proportion. */
    double cent = 1 / tc_currency_scale(region->currency);
    region->sales_tax = draw_between(random, 0, 0.25);
    region->tax_included = one_in(random, 2);
    region->delivery = draw_below(random, 6000) * cent;
    region->delivery_free_from = one_in(random, 2) ? 0 : draw_below(random, 60000) * cent;
    region->order_fee = draw_below(random, 4000) * cent;
    s->tariffs.electricity = draw_tariff(random, draw_between(random, 5, 40) * cent);
    s->tariffs.water = draw_tariff(random, draw_between(random, 50, 600) * cent);
    region->household_energy = draw_between(random, 0, 600) * JOULES_PER_KWH;
    region->household_water = draw_between(random, 0, 20);
    region->electricity_escalation = draw_between(random, -0.02, 0.05);
    region->water_escalation = draw_between(random, -0.02, 0.05);
    region->conditioner = draw_between(random, 0, 800) * cent;
    region->cold_water = CELSIUS(draw_between(random, 4, 30));
    region->fresh_mixed = one_in(random, 2);
    region->room_heat_price = draw_between(random, 0, 20) * cent;
    region->room_cool_price = draw_between(random, 0, 20) * cent;
    for (int month = 0; month < TC_MONTHS; month++) {
        region->heated[month] = month < 3 && one_in(random, 2);
        region->cooled[month] = month > 5 && one_in(random, 2);
    }
    region->warm_water_price = one_in(random, 2) ? 0 : draw_between(random, 1, 30) * cent;
    region->climate.swing = draw_between(random, 0, 5);
    double mean = draw_between(random, 12, 30), wave = draw_between(random, 0, 8);
    for (int month = 0; month < TC_MONTHS; month++)
        region->climate.room[month] = CELSIUS(mean) - wave * cos(month * 0.5235987755982988);
}

static void draw_parts(struct sample *s, struct tc_random *random)
{
    s->c.offer_count = 0;
    add_dry_parts(s);
    add_running_parts(s);
    for (int i = 0; i < s->c.offer_count; i++) {
        s->offers[i].price = draw_below(random, 20000);
        s->offers[i].upkeep = one_in(random, 2) ? 0 : draw_below(random, 3000);
        s->offers[i].priced = !one_in(random, 12);
        s->parts[i].goods.life = one_in(random, 8) ? INFINITY : draw_between(random, 0.5, 20);
        s->parts[i].goods.resale = draw_between(random, 0, 1);
        if (s->parts[i].slot == TC_SLOT_LID)
            s->parts[i].as.lid.covered = draw_between(random, 0.3, 1);
    }
}

static void draw_wishes(struct sample *s, struct tc_random *random)
{
    for (int i = 0; i < s->c.offer_count; i++)
        if (one_in(random, 12))
            s->c.wish[s->parts[i].slot].part = s->parts[i].goods.name;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        struct tc_slot_wish *wish = &s->c.wish[slot];
        if (one_in(random, 12))
            wish->part = "";
        if (one_in(random, 8))
            wish->price = draw_below(random, 10000);
        if (one_in(random, 8))
            wish->life = draw_between(random, 0.2, 10);
        if (one_in(random, 8))
            wish->resale = draw_between(random, 0, 1);
        if (one_in(random, 10))
            s->prices.included[slot] = draw_below(random, 3);
    }
}

static enum tc_status draw_deal(struct sample *s, struct tc_random *random)
{
    enum tc_status status = TC_OK;
    struct tc_currency of = s->region.currency;
    struct tc_deal_terms terms = sample_terms(s);
    s->sale = (struct tc_sale){.rule = one_in(random, 2) ? TC_SALE_PERCENT : TC_SALE_FIXED,
                               .limit = draw_below(random, 4)};
    s->sale.figure = s->sale.rule == TC_SALE_PERCENT ? draw_between(random, 0, 1)
                                                     : draw_below(random, 30000) / tc_currency_scale(of);
    int way = draw_below(random, 4);
    terms.order_fee = tc_currency_money(of, s->region.order_fee, &status);
    terms.ordered = way == 1;
    terms.typed = way == 2;
    terms.price = way == 2 ? draw_below(random, 60000) : 0;
    terms.sale = way == 3 ? &s->sale : NULL;
    return status == TC_OK ? tc_deal_make(&terms, &s->prices.deal) : status;
}

void sample_draw(struct sample *s, struct tc_random *random)
{
    sample_make(s);
    draw_tank(s, random);
    draw_setup(s, random);
    draw_region(s, random);
    draw_parts(s, random);
    draw_wishes(s, random);
    s->c.quantity = 1 + draw_below(random, 5);
    s->c.years = 1 + draw_below(random, 40);
    s->c.discount = one_in(random, 5) ? 0 : draw_between(random, 0, 0.12);
    if (one_in(random, 4))
        s->prices.tank_life = draw_between(random, 0.5, 20);
    if (one_in(random, 6))
        s->prices.tank_resale = draw_between(random, 0, 1);
    sample_price_energy(s);
    assert_int_equal(draw_deal(s, random), TC_OK);
    assert_int_equal(tc_equipment_choose(&s->c, &s->equipment), TC_OK);
}

bool sample_choose(struct tc_case *c, const struct tc_counter *counter, const struct tc_prices *prices,
                   struct tc_equipment *equipment)
{
    c->counter = counter;
    bool chosen = tc_equipment_choose(c, equipment) == TC_OK && tc_swap_parts(c, prices, equipment) == TC_OK;
    c->counter = NULL;
    return chosen;
}
