/* SPDX-License-Identifier: MIT */
/* Tariffs: published utility bills, laws of blocks, hours and minimum charges, sharing to the cent. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "support/invoice.h"
#include "core/base/random.h"
#include "core/tariff/tariff.h"
#include "support/draw.h"
#include "support/near.h"
#include "support/tariff_bill.h"

/* A month's use spread evenly over the day. */
static double bill_even(const struct tc_tariff *tariff, int month, double units)
{
    double use[TC_HOURS];
    for (int h = 0; h < TC_HOURS; h++)
        use[h] = units / TC_HOURS;
    return tariff_bill(tariff, month, use);
}

static void set_blocks(struct tc_tariff_season *season, const struct tc_tariff_block *block, int count)
{
    season->block_count = count;
    for (int i = 0; i < count; i++)
        season->block[i] = block[i];
}

/*
 * Residential rate of a town utility, summer and winter, in cents per kWh:
 * cityofseymour.org, residential electricity, bill comparison.
 */
static struct tc_tariff town_tariff(void)
{
    static const struct tc_tariff_block summer[] = {
        {.limit = 250, .rate = 6.4},
        {.limit = 700, .rate = 4.9},
        {.limit = 1250, .rate = 4.75},
        {.limit = HUGE_VAL, .rate = 4.46},
    };
    static const struct tc_tariff_block winter[] = {
        {.limit = 250, .rate = 6.4},
        {.limit = 700, .rate = 4.9},
        {.limit = HUGE_VAL, .rate = 4.46},
    };
    struct tc_tariff tariff = tc_tariff_flat(8.5);
    tariff.season_count = 2;
    for (int m = 5; m < 9; m++)
        tariff.season_of_month[m] = 1;
    set_blocks(&tariff.season[0], winter, 3);
    set_blocks(&tariff.season[1], summer, 4);
    return tariff;
}

/* A month's printed bill for even use, with a standing charge. */
static tc_money invoice_even(const struct tc_tariff *tariff, int month, double units, double standing)
{
    double use[TC_HOURS];
    struct invoice invoice;
    for (int h = 0; h < TC_HOURS; h++)
        use[h] = units / TC_HOURS;
    assert_int_equal(invoice_make(&invoice, tariff, month, use, standing), TC_OK);
    return invoice.total;
}

static void town_utility_bill(void **state)
{
    (void)state;
    struct tc_tariff tariff = town_tariff();
    tariff.tax = 0.01;
    assert_null(tc_tariff_fault(&tariff));
    double use[TC_HOURS];
    for (int h = 0; h < TC_HOURS; h++)
        use[h] = 2000.0 / TC_HOURS;
    struct invoice invoice;
    assert_int_equal(invoice_make(&invoice, &tariff, 6, use, 750), TC_OK);
    /* Printed for summer, 2000 kWh, line by line. */
    static const struct invoice_line lines[] = {
        {INVOICE_BLOCK, 250, 6.4, 1600},
        {INVOICE_BLOCK, 450, 4.9, 2205},
        {INVOICE_BLOCK, 550, 4.75, 2613},
        {INVOICE_BLOCK, 750, 4.46, 3345},
        {INVOICE_EVERY_UNIT, 2000, 8.5, 17000},
        {INVOICE_STANDING, 0, 0, 750},
        {INVOICE_TAX, 0, 0.01, 275},
    };
    assert_int_equal(invoice.count, sizeof lines / sizeof lines[0]);
    for (int i = 0; i < invoice.count; i++) {
        assert_int_equal(invoice.line[i].kind, lines[i].kind);
        assert_near(invoice.line[i].units, lines[i].units, 1e-9);
        assert_near(invoice.line[i].rate, lines[i].rate, 1e-12);
        assert_int_equal(invoice.line[i].amount, lines[i].amount);
    }
    assert_int_equal(invoice.total, 27788);
    /* Printed for winter, 1200 kWh. */
    assert_int_equal(invoice_even(&tariff, 0, 1200, 750), 17155);
    /* Without rounding of lines: 267.625 of energy, and its tax. */
    assert_near(bill_even(&tariff, 6, 2000), 26762.5 * 1.01, 1e-9);
}

static void flat_bills(void **state)
{
    (void)state;
    enum tc_status status = TC_OK;
    /* jcpb.com, how to calculate your bill: 1110 kWh at 9.51 cents, availability fee 18.48 (total by hand).
     */
    struct tc_tariff tariff = tc_tariff_flat(9.51);
    assert_int_equal(tc_money_round(bill_even(&tariff, 3, 1110), &status), 10556);
    assert_int_equal(invoice_even(&tariff, 3, 1110, 1848), 12404);
    /* utilitybillassistance.net, Idaho 2005: 600 kWh at 5.627 cents is 33.762, basic charge 4.00. */
    tariff = tc_tariff_flat(5.627);
    assert_near(bill_even(&tariff, 3, 600), 3376.2, 1e-9);
    assert_int_equal(invoice_even(&tariff, 3, 600, 400), 3776);
}

static void rising_blocks(void **state)
{
    (void)state;
    /* utilitybillassistance.net, Washington 2005: 600 kWh for 37.080, the next 700 for 50.246. */
    static const struct tc_tariff_block washington[] = {{.limit = 600, .rate = 6.18},
                                                        {.limit = HUGE_VAL, .rate = 7.178}};
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], washington, 2);
    assert_near(bill_even(&tariff, 0, 600), 3708.0, 1e-9);
    assert_near(bill_even(&tariff, 0, 1300), 3708.0 + 5024.6, 1e-9);

    /*
     * urbanutilities.com.au, how to calculate your bill: 1000 kL in a quarter,
     * 74 at 0.793 and 926 at 1.659, bulk water 3.122 on all, access charges
     * 58.77 and 141.72: printed 1594.92 for the tiers and 4917.41 in all.
     */
    static const struct tc_tariff_block water[] = {{.limit = 74, .rate = 79.3},
                                                   {.limit = HUGE_VAL, .rate = 165.9}};
    enum tc_status status = TC_OK;
    tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], water, 2);
    assert_int_equal(tc_money_round(bill_even(&tariff, 0, 1000), &status), 159492);
    tariff.every_unit = 312.2;
    assert_int_equal(tc_money_round(bill_even(&tariff, 0, 1000), &status) + 5877 + 14172, 491741);
}

static void seasonal_blocks_read_two_ways(void **state)
{
    (void)state;
    /*
     * svec.coop, how is the inclining block schedule designed: June to
     * September up to 800 kWh 6.380 cents, over 800 kWh 9.024 cents. The
     * wording allows both readings; the amounts are by hand.
     */
    for (int everything = 0; everything < 2; everything++) {
        struct tc_tariff_block summer[] = {{.limit = 800, .rate = 6.38},
                                           {.limit = HUGE_VAL, .rate = 9.024, .everything = everything}};
        static const struct tc_tariff_block rest[] = {{.limit = HUGE_VAL, .rate = 6.38}};
        enum tc_status status = TC_OK;
        struct tc_tariff tariff = tc_tariff_flat(0);
        tariff.season_count = 2;
        set_blocks(&tariff.season[0], rest, 1);
        set_blocks(&tariff.season[1], summer, 2);
        for (int m = 5; m < 9; m++)
            tariff.season_of_month[m] = 1;
        tc_money wanted = everything ? 9024 : 6909;
        assert_int_equal(tc_money_round(bill_even(&tariff, 5, 1000), &status), wanted);
        assert_int_equal(invoice_even(&tariff, 5, 1000, 0), wanted);
        /* At the limit itself, and out of season, both readings agree. */
        assert_int_equal(tc_money_round(bill_even(&tariff, 5, 800), &status), 5104);
        assert_int_equal(tc_money_round(bill_even(&tariff, 4, 1000), &status), 6380);
    }
}

static void blocks_that_price_everything(void **state)
{
    (void)state;
    /*
     * Tamil Nadu slabs of 2012, headlinesnewsworld.blogspot.com: up to 100
     * units 1.00 each, up to 200 units 1.50 each on all of them, fixed charge
     * 20; printed examples 80 units -> 100, 130 units -> 130 * 1.50 + 20.
     */
    static const struct tc_tariff_block tamil_nadu[] = {{.limit = 100, .rate = 100},
                                                        {.limit = HUGE_VAL, .rate = 150, .everything = true}};
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], tamil_nadu, 2);
    assert_int_equal(invoice_even(&tariff, 2, 80, 2000), 10000);
    assert_int_equal(invoice_even(&tariff, 2, 130, 2000), 21500);
    /*
     * Kerala's domestic slabs of 2019 (github.com/jyothisvjames/
     * kseb-electricity-bill-estimator): each slab its own rate up to 250 units
     * a month, above that one rate on all units; amounts by hand.
     */
    static const struct tc_tariff_block kerala[] = {
        {50, 315, false}, {100, 370, false}, {150, 480, false}, {200, 640, false}, {250, 760, false},
        {300, 580, true}, {350, 660, true},  {400, 690, true},  {500, 710, true},  {HUGE_VAL, 790, true}};
    set_blocks(&tariff.season[0], kerala, 10);
    assert_null(tc_tariff_fault(&tariff));
    static const double rows[][2] = {{40, 12600},   {50, 15750},   {120, 43850},  {250, 128250},
                                     {251, 145580}, {300, 174000}, {301, 198660}, {600, 474000}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_near(bill_even(&tariff, 0, rows[i][0]), rows[i][1], 1e-6);
        assert_int_equal(invoice_even(&tariff, 0, rows[i][0], 0), (tc_money)rows[i][1]);
    }
}

static void water_with_a_minimum_charge(void **state)
{
    (void)state;
    /*
     * Philippine LWUA, water rates by region, 30 June 2020: minimum charge
     * with the first 10 m3, rates for 11-20 and 21-30 m3, cost of 20 and of
     * 30 m3. The table averages over districts, hence the tolerance of 0.15.
     */
    static const double rows[][5] = {
        {229.82, 24.55, 26.46, 475.37, 740.03}, {231.89, 25.14, 27.13, 483.29, 754.62},
        {194.14, 21.15, 22.97, 405.68, 635.45}, {209.61, 22.79, 25.02, 437.53, 687.80},
        {202.25, 23.63, 26.17, 438.56, 700.30}, {203.81, 23.31, 25.99, 436.99, 696.96},
        {155.21, 17.95, 20.61, 334.74, 540.90}, {197.52, 21.50, 23.63, 412.52, 648.87},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct tc_tariff_block blocks[] = {{.limit = 20, .rate = rows[i][1] * 100},
                                                 {.limit = HUGE_VAL, .rate = rows[i][2] * 100}};
        struct tc_tariff tariff = tc_tariff_flat(0);
        set_blocks(&tariff.season[0], blocks, 2);
        tariff.season[0].minimum = rows[i][0] * 100;
        tariff.season[0].minimum_covers = 10;
        assert_null(tc_tariff_fault(&tariff));
        assert_near(bill_even(&tariff, 0, 20), rows[i][3] * 100, 15);
        assert_near(bill_even(&tariff, 0, 30), rows[i][4] * 100, 15);
        assert_near(bill_even(&tariff, 0, 0), rows[i][0] * 100, 1e-9);
        assert_near(bill_even(&tariff, 0, 10), rows[i][0] * 100, 1e-9);
        if (i == 1) { /* this row is exact */
            assert_int_equal(invoice_even(&tariff, 0, 20, 0), 48329);
            assert_int_equal(invoice_even(&tariff, 0, 30, 0), 75459);
        }
    }
    /*
     * discoveroakley.com, sewer: 16 thousand gallons are 27 for the first 5,
     * 2.00 each for the next 10 and 1.10 for the last.
     */
    static const struct tc_tariff_block oakley[] = {{.limit = 15, .rate = 200},
                                                    {.limit = HUGE_VAL, .rate = 110}};
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], oakley, 2);
    tariff.season[0].minimum = 2700;
    tariff.season[0].minimum_covers = 5;
    assert_int_equal(invoice_even(&tariff, 0, 16, 0), 4810);
    assert_near(bill_even(&tariff, 0, 16), 4810, 1e-9);
}

static void set_hours(struct tc_tariff_season *season, int day_type, int from, int to, double rate)
{
    season->by_hour = true;
    for (int h = from; h < to; h++)
        season->hour[day_type][h] = rate;
}

static void time_of_use_example(void **state)
{
    (void)state;
    /*
     * wi-riverfalls.civicplus.com, time-of-day rates of 29 Sept. 2020: on-peak
     * 8 to 20 Monday to Friday 19.10 cents, else 6.60; 675.54 kWh, 45 % of it
     * on-peak: 96.58; with 10, 15, 20 points shifted: 88.14, 83.92, 79.70.
     * Customer charge 14.00: the standard bill printed, 88.98, less 675.54 kWh
     * at the standard 11.10 cents.
     */
    static const struct {
        double on_peak;
        tc_money total;
    } rows[] = {{0.45, 9658}, {0.35, 8814}, {0.30, 8392}, {0.25, 7970}};
    struct tc_tariff standard = tc_tariff_flat(11.10);
    assert_int_equal(invoice_even(&standard, 8, 675.54, 1400), 8898);
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_hours(&tariff.season[0], TC_WORKDAY, 0, 24, 6.60);
    set_hours(&tariff.season[0], TC_WORKDAY, 8, 20, 19.10);
    set_hours(&tariff.season[0], TC_WEEKEND, 0, 24, 6.60);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double by_day = 675.54 * rows[i].on_peak * 7 / 5;
        double use[TC_HOURS];
        for (int h = 0; h < TC_HOURS; h++)
            use[h] = h >= 8 && h < 20 ? by_day / 12 : (675.54 - by_day) / 12;
        struct invoice invoice;
        assert_int_equal(invoice_make(&invoice, &tariff, 8, use, 1400), TC_OK);
        assert_int_equal(invoice.count, 3);
        assert_int_equal(invoice.total, rows[i].total);
        assert_near(tariff_bill(&tariff, 8, use) + 1400, (double)rows[i].total, 0.5);
    }
}

static void constant_load_through_a_week(void **state)
{
    (void)state;
    /*
     * Ontario, summer 2012, off / mid / on 6.5 / 10.0 / 11.7 cents
     * (scribd.com/doc/95428131): 1 kW costs 208.2 cents on a weekday, 156 on a
     * weekend day, 1353 a week (by hand).
     */
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_hours(&tariff.season[0], TC_WORKDAY, 0, 24, 6.5);
    set_hours(&tariff.season[0], TC_WORKDAY, 7, 19, 10.0);
    set_hours(&tariff.season[0], TC_WORKDAY, 11, 17, 11.7);
    set_hours(&tariff.season[0], TC_WEEKEND, 0, 24, 6.5);
    assert_null(tc_tariff_fault(&tariff));
    assert_near(bill_even(&tariff, 6, 7 * 24), 1353.0, 1e-9);
    assert_near(bill_even(&tariff, 6, 1) * 100, 805.36, 0.005);
    for (int m = 0; m < TC_MONTHS; m++)
        tariff.workday_share[m] = 1;
    assert_near(bill_even(&tariff, 6, 24), 208.2, 1e-9);
    static const int none[TC_MONTHS] = {0};
    static const int seven[TC_MONTHS] = {7, 7, 7, 7, 7, 7, 7, 7, 7, 7, 7, 7};
    tariff_set_days(&tariff, none, seven);
    assert_near(bill_even(&tariff, 6, 24), 156.0, 1e-9);
}

static void minimum_bill(void **state)
{
    (void)state;
    /* A bill of at least 1500; beyond it 10 a unit by day and 5 by night. */
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_hours(&tariff.season[0], TC_WORKDAY, 0, 24, 5);
    set_hours(&tariff.season[0], TC_WORKDAY, 7, 19, 10);
    set_hours(&tariff.season[0], TC_WEEKEND, 0, 24, 5);
    tariff.season[0].minimum = 1500;
    for (int m = 0; m < TC_MONTHS; m++)
        tariff.workday_share[m] = 1;
    assert_null(tc_tariff_fault(&tariff));
    assert_near(bill_even(&tariff, 0, 0), 1500, 0);
    assert_near(bill_even(&tariff, 0, 200), 1500, 1e-9);
    assert_near(bill_even(&tariff, 0, 240), 1800, 1e-9);
    assert_int_equal(invoice_even(&tariff, 0, 100, 0), 1500);
    assert_int_equal(invoice_even(&tariff, 0, 240, 0), 1800);
    /* Within the minimum a tank is free; across its end it pays what reaches beyond. */
    double own_units[TC_MONTHS] = {100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100};
    double units[TC_MONTHS] = {60, 100, 140};
    struct tc_load own, load;
    struct tc_tariff_margin margin;
    struct tc_tariff_cost cost;
    tc_load_even(&own, own_units);
    tc_load_even(&load, units);
    tc_tariff_margin(&margin, &tariff, &own);
    assert_int_equal(tariff_cost(&margin, &load, &cost), TC_OK);
    assert_int_equal(cost.month[0], 0);
    assert_int_equal(cost.month[1], 0);
    assert_int_equal(cost.month[2], 300);
    assert_int_equal(cost.year, 300);
}

/* ---- laws, on random tariffs ---- */

static double between(struct tc_random *random, double low, double high)
{
    return low + (high - low) * tc_random_unit(random);
}

enum { RISING = 1, EXCESS_ONLY = 2 };

static void random_season(struct tc_random *random, struct tc_tariff_season *season, int wish)
{
    double limit = 0, rate = between(random, 1, 10);
    season->block_count = (int)draw_index(random, TC_TARIFF_BLOCKS + 1);
    for (int i = 0; i < season->block_count; i++) {
        limit += between(random, 5, 200);
        rate = wish & RISING ? rate + between(random, 0, 5) : between(random, 0, 30);
        bool everything = !(wish & EXCESS_ONLY) && draw_index(random, 3) == 0;
        season->block[i] = (struct tc_tariff_block){limit, rate, everything};
    }
    if (season->block_count > 0)
        season->block[season->block_count - 1].limit = HUGE_VAL;
    season->by_hour = draw_index(random, 2);
    for (int d = 0; d < TC_DAY_TYPES; d++)
        for (int h = 0; h < TC_HOURS; h++)
            season->hour[d][h] = between(random, 0, 25);
    if (draw_index(random, 2))
        season->minimum = between(random, 0, 3000);
    if (season->minimum > 0 && !season->by_hour && draw_index(random, 2))
        season->minimum_covers = between(random, 0, 100);
}

static struct tc_tariff random_tariff(struct tc_random *random, int wish)
{
    struct tc_tariff tariff = tc_tariff_flat(between(random, 0, 10));
    tariff.tax = between(random, 0, 0.3);
    tariff.season_count = 1 + (int)draw_index(random, TC_TARIFF_SEASONS);
    for (int m = 0; m < TC_MONTHS; m++) {
        tariff.season_of_month[m] = (int)draw_index(random, (uint32_t)tariff.season_count);
        tariff.workday_share[m] = between(random, 0.6, 0.8);
    }
    for (int s = 0; s < tariff.season_count; s++)
        random_season(random, &tariff.season[s], wish);
    assert_null(tc_tariff_fault(&tariff));
    return tariff;
}

static struct tc_load random_load(struct tc_random *random, double most)
{
    struct tc_load load;
    for (int m = 0; m < TC_MONTHS; m++)
        for (int h = 0; h < TC_HOURS; h++)
            load.use[m][h] = between(random, 0, most);
    return load;
}

static void what_a_load_adds_is_the_difference_of_two_bills(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 31, 1);
    for (int i = 0; i < 2000; i++) {
        struct tc_tariff tariff = random_tariff(&random, 0);
        struct tc_load own = random_load(&random, 20), load = random_load(&random, 10);
        bool alone = i % 4 == 0;
        struct tc_load both = load;
        if (!alone)
            tc_load_add(&both, &own, 1);
        double wanted = 0;
        for (int m = 0; m < TC_MONTHS; m++) {
            static const double nothing[TC_HOURS] = {0};
            wanted +=
                tariff_bill(&tariff, m, both.use[m]) - tariff_bill(&tariff, m, alone ? nothing : own.use[m]);
        }
        struct tc_tariff_margin margin;
        tc_tariff_margin(&margin, &tariff, alone ? NULL : &own);
        assert_near(tc_tariff_added(&margin, &load), wanted, 1e-7);
        struct tc_tariff_cost cost;
        assert_int_equal(tariff_cost(&margin, &load, &cost), TC_OK);
        assert_near(cost.exact_year, wanted, 1e-7);
        enum tc_status status = TC_OK;
        assert_int_equal(tc_money_sum(cost.month, TC_MONTHS, &status), cost.year);
        assert_near((double)cost.year, wanted, 6 + 1e-7);
        for (int m = 0; m < TC_MONTHS; m++)
            assert_near((double)cost.month[m], cost.exact_month[m], 0.5 + 1e-6);
        /* Even use has a form of its own. */
        double units[TC_MONTHS];
        for (int m = 0; m < TC_MONTHS; m++)
            units[m] = tc_load_month(&load, m);
        tc_load_even(&load, units);
        assert_near(tc_tariff_added_even(&margin, units), tc_tariff_added(&margin, &load), 1e-7);
    }
}

static void excess_blocks_have_no_jumps(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 32, 1);
    for (int i = 0; i < 500; i++) {
        struct tc_tariff tariff = random_tariff(&random, EXCESS_ONLY);
        const struct tc_tariff_season *season = &tariff.season[tariff.season_of_month[0]];
        for (int b = -1; b + 1 < season->block_count; b++) {
            double limit = b < 0 ? season->minimum_covers : season->block[b].limit;
            double step = bill_even(&tariff, 0, limit + 1e-6) - bill_even(&tariff, 0, limit);
            assert_true(step >= 0 && step < 1e-3);
        }
    }
}

static void a_load_never_lowers_the_bill(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 33, 1);
    for (int i = 0; i < 2000; i++) {
        /* Blocks on the excess may rise or fall; where everything is priced they must rise. */
        struct tc_tariff tariff = random_tariff(&random, i % 2 ? RISING : EXCESS_ONLY);
        struct tc_load own = random_load(&random, 20), load = random_load(&random, 10);
        struct tc_tariff_margin margin;
        tc_tariff_margin(&margin, &tariff, &own);
        double added = tc_tariff_added(&margin, &load);
        assert_true(added >= -1e-9);
        tc_load_add(&load, &load, 1);
        assert_true(tc_tariff_added(&margin, &load) >= added - 1e-9);
    }
    /* Where a falling rate prices everything, it can: 90 units at 10 against 110 at 5. */
    static const struct tc_tariff_block falling[] = {{.limit = 100, .rate = 10},
                                                     {.limit = HUGE_VAL, .rate = 5, .everything = true}};
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], falling, 2);
    double own_units[TC_MONTHS] = {90}, units[TC_MONTHS] = {20};
    struct tc_load own;
    struct tc_tariff_margin margin;
    tc_load_even(&own, own_units);
    tc_tariff_margin(&margin, &tariff, &own);
    assert_near(tc_tariff_added_even(&margin, units), 550 - 900, 1e-9);
}

static void consumers_share_to_the_cent(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 34, 1);
    for (int i = 0; i < 1000; i++) {
        struct tc_tariff tariff = random_tariff(&random, 0);
        int count = 1 + (int)draw_index(&random, TC_TARIFF_CONSUMERS);
        struct tc_load own = random_load(&random, 20), all = {{{0}}}, loads[TC_TARIFF_CONSUMERS];
        for (int c = 0; c < count; c++) {
            loads[c] = random_load(&random, draw_index(&random, 4) ? 5 : 0);
            tc_load_add(&all, &loads[c], 1);
        }
        struct tc_tariff_margin margin;
        struct tc_tariff_cost whole, total, parts[TC_TARIFF_CONSUMERS];
        tc_tariff_margin(&margin, &tariff, &own);
        assert_int_equal(tariff_cost(&margin, &all, &whole), TC_OK);
        assert_int_equal(tc_tariff_shared(&margin, loads, count, &total, parts), TC_OK);
        tc_money years = 0;
        double exact = 0;
        for (int m = 0; m < TC_MONTHS; m++) {
            tc_money sum = 0;
            for (int c = 0; c < count; c++)
                sum += parts[c].month[m];
            assert_int_equal(sum, total.month[m]);
            assert_near(total.exact_month[m], whole.exact_month[m], 1e-7);
        }
        for (int c = 0; c < count; c++) {
            enum tc_status status = TC_OK;
            assert_int_equal(tc_money_sum(parts[c].month, TC_MONTHS, &status), parts[c].year);
            years += parts[c].year;
            exact += parts[c].exact_year;
        }
        assert_int_equal(years, total.year);
        assert_near(exact, total.exact_year, 1e-6);
    }
}

static void each_consumer_bears_its_own_hours(void **state)
{
    (void)state;
    /* 5 a unit by night, 20 by day, and 3 on all: a lamp from 8 to 18, a heater all day. */
    struct tc_tariff tariff = tc_tariff_flat(3);
    for (int d = 0; d < TC_DAY_TYPES; d++) {
        set_hours(&tariff.season[0], d, 0, 24, 5);
        set_hours(&tariff.season[0], d, 8, 20, 20);
    }
    struct tc_load loads[2];
    struct tc_tariff_margin margin;
    struct tc_tariff_cost total, parts[2];
    tc_load_daily(&loads[0], 0.1, 8, 10);
    tc_load_daily(&loads[1], 0.1, 0, 24);
    tc_tariff_margin(&margin, &tariff, NULL);
    assert_int_equal(tc_tariff_shared(&margin, loads, 2, &total, parts), TC_OK);
    assert_int_equal(parts[0].month[0], 713);  /* 31 kWh at 23 */
    assert_int_equal(parts[1].month[0], 1153); /* 37.2 kWh at 23 and as many at 8: 1153.2 */
    assert_int_equal(total.month[0], 1866);
    assert_int_equal(tc_tariff_shared(&margin, loads, 0, &total, parts), TC_RANGE);
    assert_int_equal(tc_tariff_shared(&margin, loads, TC_TARIFF_CONSUMERS + 1, &total, parts), TC_RANGE);
}

static void blocks_are_borne_by_units(void **state)
{
    (void)state;
    /* The household uses 90, the tank 20: ten at 10, ten at 30; a quarter of the units is the lamp's. */
    static const struct tc_tariff_block rising[] = {{.limit = 100, .rate = 10},
                                                    {.limit = HUGE_VAL, .rate = 30}};
    struct tc_tariff tariff = tc_tariff_flat(0);
    set_blocks(&tariff.season[0], rising, 2);
    double own_units[TC_MONTHS] = {90}, lamp[TC_MONTHS] = {5}, heater[TC_MONTHS] = {15};
    struct tc_load own, loads[2];
    struct tc_tariff_margin margin;
    struct tc_tariff_cost total, parts[2];
    tc_load_even(&own, own_units);
    tc_load_even(&loads[0], lamp);
    tc_load_even(&loads[1], heater);
    tc_tariff_margin(&margin, &tariff, &own);
    assert_int_equal(tc_tariff_shared(&margin, loads, 2, &total, parts), TC_OK);
    assert_int_equal(total.year, 400);
    assert_int_equal(parts[0].year, 100);
    assert_int_equal(parts[1].year, 300);
    /* 90 units cost 30 each, all 110 cost 10 each: the tank saves 1600 of the bill, also where that has a
     * least.
     */
    static const struct tc_tariff_block falling[] = {{.limit = 100, .rate = 30},
                                                     {.limit = HUGE_VAL, .rate = 10, .everything = true}};
    set_blocks(&tariff.season[0], falling, 2);
    tariff.season[0].minimum = 500;
    own_units[0] = 90;
    tc_load_even(&own, own_units);
    tc_tariff_margin(&margin, &tariff, &own);
    assert_int_equal(tc_tariff_shared(&margin, loads, 2, &total, parts), TC_OK);
    assert_int_equal(total.year, 1100 - 2700);
    assert_int_equal(parts[0].year, -400);
    assert_int_equal(parts[1].year, -1200);
}

static void an_invoice_differs_by_rounding_only(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 35, 1);
    for (int i = 0; i < 2000; i++) {
        struct tc_tariff tariff = random_tariff(&random, 0);
        struct tc_load load = random_load(&random, 40);
        struct invoice invoice;
        int m = i % TC_MONTHS;
        assert_int_equal(invoice_make(&invoice, &tariff, m, load.use[m], 0), TC_OK);
        assert_true(invoice.count <= INVOICE_LINES);
        assert_near((double)invoice.total, tariff_bill(&tariff, m, load.use[m]),
                    0.5 * (1 + tariff.tax) * invoice.count + 1e-6);
    }
}

static void flat_ignores_the_household(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 36, 1);
    struct tc_tariff tariff = tc_tariff_flat(12.5);
    tariff.tax = 0.2;
    struct tc_load own = random_load(&random, 500), load = random_load(&random, 5);
    struct tc_tariff_margin with, without;
    tc_tariff_margin(&with, &tariff, &own);
    tc_tariff_margin(&without, &tariff, NULL);
    double wanted = 15 * tc_load_year(&load);
    assert_near(tc_tariff_added(&with, &load), wanted, 1e-6);
    assert_near(tc_tariff_added(&without, &load), wanted, 1e-9);
}

static void faults_are_named(void **state)
{
    (void)state;
    struct tc_tariff good = town_tariff();
    assert_null(tc_tariff_fault(&good));
#define FAULT(change, words)                                                                                 \
    do {                                                                                                     \
        struct tc_tariff t = good;                                                                           \
        change;                                                                                              \
        assert_string_equal(tc_tariff_fault(&t), words);                                                     \
    } while (0)
    FAULT(t.every_unit = -1, "the rate is negative or no number");
    FAULT(t.every_unit = NAN, "the rate is negative or no number");
    FAULT(t.every_unit = HUGE_VAL, "the rate is negative or no number");
    FAULT(t.tax = -0.1, "the tax on energy is not between 0 and 1000 %");
    FAULT(t.tax = 10.5, "the tax on energy is not between 0 and 1000 %");
    FAULT(t.tax = NAN, "the tax on energy is not between 0 and 1000 %");
    FAULT(t.season_count = 0, "more seasons than a tariff can have, or none");
    FAULT(t.season_count = 5, "more seasons than a tariff can have, or none");
    FAULT(t.season_of_month[11] = 2, "a month belongs to no season");
    FAULT(t.season_of_month[3] = -1, "a month belongs to no season");
    FAULT(t.workday_share[0] = 1.1, "the share of workdays is not between 0 and 100 %");
    FAULT(t.workday_share[0] = NAN, "the share of workdays is not between 0 and 100 %");
    FAULT(t.season[1].block_count = 13, "more blocks than a tariff can have");
    FAULT(t.season[1].block_count = -1, "more blocks than a tariff can have");
    FAULT(t.season[1].block[1].limit = 250, "the limits of the blocks do not ascend");
    FAULT(t.season[1].block[0].limit = 0, "the limits of the blocks do not ascend");
    FAULT(t.season[1].block[0].limit = NAN, "the limits of the blocks do not ascend");
    FAULT(t.season[1].block[0].limit = HUGE_VAL, "the limits of the blocks do not ascend");
    FAULT(t.season[1].block[3].limit = 5000, "the last block has a limit");
    FAULT(t.season[1].block[2].rate = -4, "the rate of a block is negative or no number");
    FAULT(t.season[0].minimum = -1, "the minimum charge is negative or no number");
    FAULT(t.season[0].minimum_covers = NAN, "the minimum charge is negative or no number");
    FAULT((t.season[0].by_hour = true, t.season[0].hour[1][23] = -1),
          "the rate of an hour is negative or no number");
    FAULT((t.season[0].by_hour = true, t.season[0].minimum_covers = 1),
          "a minimum charge that covers first units cannot go with rates by the hour");
#undef FAULT
}

static void absurd_amounts_are_refused(void **state)
{
    (void)state;
    struct tc_tariff tariff = tc_tariff_flat(1e15);
    double units[TC_MONTHS] = {1e6};
    struct tc_load load;
    struct tc_tariff_margin margin;
    struct tc_tariff_cost cost, part;
    struct invoice invoice;
    tc_load_even(&load, units);
    tc_tariff_margin(&margin, &tariff, NULL);
    assert_int_equal(tariff_cost(&margin, &load, &cost), TC_OVERFLOW);
    assert_int_equal(tc_tariff_shared(&margin, &load, 1, &cost, &part), TC_OVERFLOW);
    assert_int_equal(invoice_make(&invoice, &tariff, 0, load.use[0], 0), TC_OVERFLOW);
    load.use[0][0] = NAN;
    assert_int_equal(tariff_cost(&margin, &load, &cost), TC_RANGE);
    assert_int_equal(tc_tariff_shared(&margin, &load, 1, &cost, &part), TC_RANGE);
    assert_int_equal(invoice_make(&invoice, &tariff, 0, load.use[0], 0), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(town_utility_bill),
        cmocka_unit_test(flat_bills),
        cmocka_unit_test(rising_blocks),
        cmocka_unit_test(seasonal_blocks_read_two_ways),
        cmocka_unit_test(blocks_that_price_everything),
        cmocka_unit_test(water_with_a_minimum_charge),
        cmocka_unit_test(time_of_use_example),
        cmocka_unit_test(constant_load_through_a_week),
        cmocka_unit_test(minimum_bill),
        cmocka_unit_test(what_a_load_adds_is_the_difference_of_two_bills),
        cmocka_unit_test(excess_blocks_have_no_jumps),
        cmocka_unit_test(a_load_never_lowers_the_bill),
        cmocka_unit_test(consumers_share_to_the_cent),
        cmocka_unit_test(each_consumer_bears_its_own_hours),
        cmocka_unit_test(blocks_are_borne_by_units),
        cmocka_unit_test(an_invoice_differs_by_rounding_only),
        cmocka_unit_test(flat_ignores_the_household),
        cmocka_unit_test(faults_are_named),
        cmocka_unit_test(absurd_amounts_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
