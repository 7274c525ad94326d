/* SPDX-License-Identifier: MIT */
/* Discount factors, lives and flows against published tables and worked examples, and their laws. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/lifecycle.h"
#include "core/money/money.h"
#include "support/draw.h"
#include "support/flow_cost.h"
#include "support/near.h"

/* NIST Handbook 135, 1995 edition: worked factors as others quote them, to the digits printed; its pages were
 * not seen. */
static void factors_of_handbook_135(void **state)
{
    (void)state;
    assert_near(tc_single_present_value(0.03, 15), 0.642, 0.0005);
    assert_near(tc_uniform_present_value(0.03, 15), 11.94, 0.005);
    assert_near(tc_escalated_present_value(0.03, 0.02, 15), 13.89, 0.005);
    assert_near(tc_escalated_present_value(0.03, 0.02, 5), 4.8562, 0.00005);
    assert_near(tc_uniform_present_value(0.03, 20), 14.88, 0.005); /* from memory */
    assert_near(tc_single_present_value(0.03, 12), 0.701, 0.0005); /* from memory */
    assert_near(tc_single_present_value(0.03, 20), 0.554, 0.0005); /* from memory */
}

/*
 * Compound-interest tables. 35 %: Engineering Economic Analysis, tables p. 585.
 * 0.25 %: Table A-1, discrete cash flow (vdocuments.us/discrete-cash-flow.html, seen;
 * which textbook it is from is not said there). 7 % and 8 %: the same book,
 * chapter 6 and its solutions. 18 %, 10 %: Thumann and Woodroof, Energy Project
 * Financing, App. A. 5 %: from memory.
 */
static void factors_of_interest_tables(void **state)
{
    (void)state;
    static const struct {
        double i, n;
        double p_f, p_a, a_f; /* P/F, P/A, A/F; 0: not printed in the copy seen */
        double a_p;
        double tolerance;
    } rows[] = {
        {0.35, 10, 0.0497, 0, 0.0183, 0.3683, 0.00005},
        {0.0025, 20, 1 / 1.0512, 19.4845, 0, 0.05132, 0.00005},
        {0.07, 10, 0, 0, 0, 0.1424, 0.00005},
        {0.07, 15, 0, 0, 0.0398, 0.1098, 0.00005},
        {0.08, 5, 0, 0, 0, 0.2505, 0.00005},
        {0.08, 10, 0, 0, 0.06903, 0.14903, 0.000005},
        {0.18, 15, 0.0835, 5.0916, 0, 0, 0.00005},
        {0.18, 8, 0.2660, 0, 0, 0, 0.00005},
        {0.10, 20, 0, 8.5136, 0, 0, 0.00005},
        {0.05, 10, 0, 7.7217, 0, 0.1295, 0.00005},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].p_f > 0)
            assert_near(tc_single_present_value(rows[i].i, rows[i].n), rows[i].p_f, rows[i].tolerance);
        if (rows[i].p_a > 0)
            assert_near(tc_uniform_present_value(rows[i].i, rows[i].n), rows[i].p_a, rows[i].tolerance);
        if (rows[i].a_f > 0)
            assert_near(sinking_fund(rows[i].i, rows[i].n), rows[i].a_f, rows[i].tolerance);
        if (rows[i].a_p > 0)
            assert_near(tc_capital_recovery(rows[i].i, rows[i].n), rows[i].a_p, rows[i].tolerance);
    }
    /* The compound amounts F/P and F/A are the inverses of P/F and A/F. */
    assert_near(1 / tc_single_present_value(0.35, 10), 20.107, 0.0005);
    assert_near(1 / sinking_fund(0.0025, 10), 10.1133, 0.00005);
    assert_near(tc_uniform_present_value(0.35, 10), 2.715, 0.0005);
    assert_near(1 / sinking_fund(0.35, 10), 54.590, 0.0005);
    /* CRAN package EngrEcon 1.0.0, manual pages annual_to_present and present_to_annual. */
    assert_near(30000 * tc_uniform_present_value(0.08, 30), 337733.5, 0.05);
    assert_near(200000 * tc_capital_recovery(0.08, 30), 17765.49, 0.005);
}

static void factors_reach_their_limits(void **state)
{
    (void)state;
    for (int n = 0; n <= TC_YEARS_MAX; n += 7) {
        assert_near(tc_uniform_present_value(0, n), n, 0);
        assert_near(tc_escalated_present_value(0.03, 0.03, n), n, 0);
        assert_near(tc_single_present_value(0, n), 1, 0);
        /* Nearing the limit stays smooth: the textbook quotient loses eight digits here. */
        assert_near(tc_uniform_present_value(1e-10, n), n - 0.5 * n * (n + 1) * 1e-10, 1e-11);
        double q = (1 + 0.03 + 1e-10) / 1.03 - 1;
        assert_near(tc_escalated_present_value(0.03, 0.03 + 1e-10, n), n + 0.5 * n * (n + 1) * q, 1e-11);
    }
    assert_near(tc_capital_recovery(0, 8), 0.125, 0);
    assert_near(sinking_fund(0, 8), 0.125, 0);
}

static void factors_are_the_sums_they_stand_for(void **state)
{
    (void)state;
    static const double rates[] = {-0.02, 0.0, 0.001, 0.03, 0.08, 0.5};
    for (size_t i = 0; i < sizeof rates / sizeof rates[0]; i++) {
        for (size_t j = 0; j < sizeof rates / sizeof rates[0]; j++) {
            double d = rates[i], e = rates[j], uniform = 0, escalated = 0, spv = 1, price = 1;
            for (int n = 1; n <= 40; n++) {
                spv /= 1 + d;
                price *= 1 + e;
                uniform += spv;
                escalated += price * spv;
                assert_near(tc_single_present_value(d, n), spv, 1e-13 * spv);
                assert_near(tc_uniform_present_value(d, n), uniform, 1e-13 * uniform);
                assert_near(tc_escalated_present_value(d, e, n), escalated, 1e-12 * escalated);
                assert_near(tc_capital_recovery(d, n) * uniform, 1, 1e-13);
                /* A/F = A/P - i, Engineering Economic Analysis ch. 4. */
                assert_near(sinking_fund(d, n), tc_capital_recovery(d, n) - d, 1e-13);
            }
        }
    }
}

static void figures_outside_the_domain_are_no_numbers(void **state)
{
    (void)state;
    static const double rates[] = {-1.0, -2.0, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof rates / sizeof rates[0]; i++) {
        assert_true(isnan(tc_single_present_value(rates[i], 5)));
        assert_true(isnan(tc_uniform_present_value(rates[i], 5)));
        assert_true(isnan(tc_escalated_present_value(rates[i], 0.02, 5)));
        assert_true(isnan(tc_escalated_present_value(0.02, rates[i], 5)));
        assert_true(isnan(tc_capital_recovery(rates[i], 5)));
    }
    static const double times[] = {-1.0, NAN, INFINITY};
    for (size_t i = 0; i < sizeof times / sizeof times[0]; i++) {
        assert_true(isnan(tc_single_present_value(0.03, times[i])));
        assert_true(isnan(tc_uniform_present_value(0.03, times[i])));
        assert_true(isnan(tc_capital_recovery(0.03, times[i])));
    }
    assert_true(isnan(tc_capital_recovery(0.03, 0)));
    enum tc_status status = TC_OK;
    tc_money_round(100 * tc_uniform_present_value(-1, 5), &status);
    assert_int_equal(status, TC_RANGE);
}

static struct tc_item_life item_of(double price, double life)
{
    return (struct tc_item_life){price, price, life, life, 1.0, price};
}

static void replacements_fall_before_the_end(void **state)
{
    (void)state;
    static const struct {
        double life, first;
        int years, count;
        double last;
        int last_year;
    } rows[] = {
        {15, 15, 25, 1, 15, 15},     {5, 5, 10, 1, 5, 5}, /* none at the very end */
        {10, 10, 10, 0, 0, 0},       {12, 12, 10, 0, 0, 0},
        {2.5, 2.5, 10, 3, 7.5, 8},                              /* 2.5, 5, 7.5 */
        {2.5, 1, 10, 4, 8.5, 9},                                /* bought used: 1, 3.5, 6, 8.5 */
        {2.5, 2.5, 1, 0, 0, 0},      {0.1, 0.1, 3, 29, 2.9, 3}, /* 30 lives, none exact in binary */
        {0.5, 0.5, 2, 3, 1.5, 2},    {INFINITY, INFINITY, 100, 0, 0, 0},
        {INFINITY, 3, 100, 1, 3, 3}, {8, 8, 0, 0, 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct tc_item_life item = item_of(100, rows[i].life);
        item.first_life = rows[i].first;
        int count = tc_item_replacements(&item, rows[i].years);
        assert_int_equal(count, rows[i].count);
        if (count > 0) {
            double last = tc_item_replacement_time(&item, count - 1);
            assert_near(last, rows[i].last, 1e-12);
            assert_int_equal(tc_year_of(last), rows[i].last_year);
        }
    }
}

/* For a whole life L and n years the count is ceil(n / L) - 1: common practice, no source. */
static void whole_lives_count_by_whole_numbers(void **state)
{
    (void)state;
    for (int life = 1; life <= 40; life++) {
        struct tc_item_life item = item_of(100, life);
        for (int years = 1; years <= TC_YEARS_MAX; years++)
            assert_int_equal(tc_item_replacements(&item, years), (years + life - 1) / life - 1);
    }
    /* The same with lives in months, whose twelfths are not exact. */
    for (int months = 1; months <= 60; months++) {
        struct tc_item_life item = item_of(100, months / 12.0);
        for (int years = 1; years <= 30; years++) {
            int count = (12 * years + months - 1) / months - 1;
            assert_int_equal(tc_item_replacements(&item, years), count);
            double left = (count + 1) * months / 12.0 - years; /* of the last one's life */
            assert_near(tc_item_residual(&item, years), 100 * left * 12 / months, 1e-6);
            assert_true(tc_item_residual(&item, years) >= 0);
            for (int k = 0; k < count; k++) {
                double time = tc_item_replacement_time(&item, k);
                assert_int_equal(tc_year_of(time), ((k + 1) * months + 11) / 12);
            }
        }
    }
}

static void replacements_have_their_present_value(void **state)
{
    (void)state;
    /* EngrEcon manual, om_distribute(0.03, 50, 3, 1000) = 8174.547: every 3 years, the last in year 48. */
    struct tc_item_life item = item_of(1000, 3);
    assert_near(tc_item_replacements_value(&item, 0.03, 50), 8174.547, 0.0005);
    /* The closed form is the sum of its terms, whatever the lives. */
    static const double lives[] = {0.25, 1, 1.7, 2.5, 3, 7.9, 30, INFINITY};
    static const double firsts[] = {0.1, 1, 2.5, 6.3, 55};
    static const double rates[] = {-0.01, 0, 1e-9, 0.03, 0.2};
    for (size_t i = 0; i < 8; i++) {
        for (size_t j = 0; j < 5; j++) {
            for (size_t r = 0; r < 5; r++) {
                item = (struct tc_item_life){500, 400, lives[i], firsts[j], 0.5, 400};
                double sum = 0;
                int count = 0;
                for (double t = firsts[j]; t < 47 - 1e-6; t += lives[i], count++)
                    sum += 400 / pow(1 + rates[r], t);
                assert_int_equal(tc_item_replacements(&item, 47), count);
                assert_near(tc_item_replacements_value(&item, rates[r], 47), sum, 1e-9 * (1 + sum));
            }
        }
    }
}

static void residual_is_the_life_that_remains(void **state)
{
    (void)state;
    /* NIST HB 135 (2022) section 4.5.3, as quoted: 25-year study, 15-year item: a third of the price is left.
     */
    struct tc_item_life item = item_of(900, 15);
    assert_near(tc_item_residual(&item, 25), 300, 1e-9);
    /* And with no discount the cost a year is exactly a fifteenth of the price. */
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, 0, 25), TC_OK);
    assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    assert_near(flow_cost(&flow).present / 25, 900.0 / 15, 1e-9);
    /* At 3 % the annual coefficient is 0.0851460: computed apart, not published. */
    assert_int_equal(tc_flow_start(&flow, 0.03, 25), TC_OK);
    assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    assert_near(flow_cost(&flow).present * tc_capital_recovery(0.03, 25) / 900, 0.0851460, 5e-8);

    assert_near(tc_item_residual(&item, 15), 0, 0); /* worn out at the very end */
    assert_near(tc_item_residual(&item, 0), 900, 0);
    item.resale_share = 0.5;
    assert_near(tc_item_residual(&item, 5), 300, 1e-9);
    /* Bought used with 4 years left of 10, at 800 new: after 3 years a tenth of the 800, whatever was paid
     * ... */
    item = (struct tc_item_life){300, 850, 10, 4, 1, 800};
    assert_near(tc_item_residual(&item, 3), 80, 1e-9);
    item.price = 0;
    assert_near(tc_item_residual(&item, 3), 80, 1e-9);
    assert_near(tc_item_residual(&item, 4), 0, 0);
    /* ... after 6 years eight tenths of the 800. */
    assert_near(tc_item_residual(&item, 6), 640, 1e-9);
    item = item_of(250, INFINITY);
    assert_near(tc_item_residual(&item, 100), 250, 0);
    item.first_life = 8; /* used, though a new one would last for ever */
    assert_near(tc_item_residual(&item, 2), 250 * 0.75, 1e-9);
}

/* Engineering Economic Analysis, example 6-2 to 6-4, p. 180: 1000 new, 200 after 10 years, 7 %: 127.92 a
 * year. */
static void annual_cost_with_salvage(void **state)
{
    (void)state;
    double recovery = tc_capital_recovery(0.07, 10), fund = sinking_fund(0.07, 10);
    assert_near((1000 - 200) * recovery + 200 * 0.07, 127.92, 0.03);
    assert_near((1000 - 200) * recovery + 200 * 0.07, 127.9020, 0.00005);
    assert_near(1000 * recovery - 200 * fund, 127.9020, 0.00005);
    assert_near((1000 - 200) * fund + 1000 * 0.07, 127.9020, 0.00005);
    /* The same as an item that lasts 12.5 years: a fifth of its life remains. */
    struct tc_item_life item = item_of(1000, 12.5);
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, 0.07, 10), TC_OK);
    assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    assert_near(flow_cost(&flow).present * recovery, 127.9020, 0.00005);
}

/* The same book, solutions 6-37: different lives are compared by annual cost. */
static void unequal_lives_compare_by_annual_cost(void **state)
{
    (void)state;
    assert_near(5000 * tc_capital_recovery(0.08, 5), 1252, 0.5);
    double y = (8000 - 2000) * tc_capital_recovery(0.08, 12) + 2000 * 0.08 + 150;
    assert_near(y, 1106, 0.5);
}

/*
 * Principles of Engineering Economic Analysis, 5th ed., example 11.3: a press kept and replaced, or another
 * bought, 15 % over 10 years: 8532.30 and 8615.20 a year (factors to 5 decimals). Operation rises by 1000 a
 * year.
 */
static void filter_presses(void **state)
{
    (void)state;
    double gradient_5 = 0, gradient_10 = 0;
    for (int year = 1; year <= 10; year++) {
        double present = 1000 * (year - 1) * tc_single_present_value(0.15, year);
        gradient_5 += year <= 5 ? present : 0;
        gradient_10 += present;
    }
    double recovery = tc_capital_recovery(0.15, 10), fifth = tc_single_present_value(0.15, 5);
    double kept = 7000 * tc_uniform_present_value(0.15, 5) + gradient_5 + (29000 + gradient_5) * fifth -
                  15000 * tc_single_present_value(0.15, 10);
    assert_near(kept * recovery, 8532.30, 0.10);
    double bought = (27000 + gradient_10) * recovery - 3000 * sinking_fund(0.15, 10);
    assert_near(bought, 8615.20, 0.10);
}

/*
 * 12 CFR 1026 (Regulation Z), Appendix J, 1-1-24 ed., pp. 435-439: published annual rates of loans, which are
 * 12 times the monthly rate that makes advance and payments equal in value. Equal to the two decimals printed
 * means: their difference changes sign within half a hundredth of a percent either way.
 */
static void rates_of_regulation_z(void **state)
{
    (void)state;
    static const struct {
        double advance, first, middle, last; /* first and last differ from the payments between them */
        int payments, per_year;
        double percent;
    } rows[] = {
        {5000, 230, 230, 230, 24, 12, 9.69},  {5000, 250, 230, 230, 24, 12, 10.08},
        {5000, 230, 230, 280, 24, 12, 10.50}, {5000, 250, 230, 280, 24, 12, 10.90},
        {1000, 0, 0, 1240, 2, 1, 11.36},      {1000, 0, 0, 1044, 1, 2, 8.80},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double difference[2];
        for (int side = 0; side < 2; side++) {
            double rate = (rows[i].percent + (side == 0 ? -0.005 : 0.005)) / 100 / rows[i].per_year;
            int n = rows[i].payments;
            double present = rows[i].middle * tc_uniform_present_value(rate, n);
            present += (rows[i].first - rows[i].middle) * tc_single_present_value(rate, 1) * (n > 1);
            present += (rows[i].last - rows[i].middle) * tc_single_present_value(rate, n);
            difference[side] = present - rows[i].advance;
        }
        assert_true(difference[0] >= 0 && difference[1] <= 0);
    }
}

/* Gnumeric 1.12.55: PV, PMT, FV and NPV, printed with 17 digits. */
static void factors_of_a_spreadsheet(void **state)
{
    (void)state;
    assert_near(84500 * tc_capital_recovery(0.031, 17), 6469.7775876335127654,
                1e-9); /* PMT(3.1%;17;-84500) */
    assert_near(1000 * tc_uniform_present_value(0.031, 17), 13060.727181953722175,
                1e-9);                                                         /* PV(3.1%;17;-1000) */
    assert_near(100000 * sinking_fund(0.031, 17), 4556.541523826642327, 1e-9); /* PMT(3.1%;17;0;-100000) */
    assert_near(1000 / sinking_fund(0.031, 17), 21946.469592582294856, 1e-8);  /* FV(3.1%;17;-1000) */
    assert_near(1000 * tc_uniform_present_value(-0.01, 12), 12817.809950196975907,
                1e-9); /* PV(-1%;12;-1000) */
    assert_near(800 * tc_single_present_value(0.06, 1.5), 733.0459338545390044,
                1e-10); /* PV(6%;1.5;0;-800) */
    /*
     * 1000 + NPV(3.5%; ...) of ten years' columns: 120 rising by 2 % a year, 900 more in years 4 and 8, and
     * 270 back in year 10, which is half a life of 4 years sold at six tenths; and PMT(3.5%;10;...) of it.
     */
    struct tc_item_life item = {1000, 900, 4, 4, 0.6, 900};
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, 0.035, 10), TC_OK);
    assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&flow, 120, 0.02), TC_OK);
    assert_near(flow_cost(&flow).present, 3384.7488081869450283, 1e-9);
    assert_near(flow_cost(&flow).present * tc_capital_recovery(0.035, 10), 406.98682658392059322, 1e-10);
}

static void a_flow_holds_what_falls_when(void **state)
{
    (void)state;
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, 0.03, 4), TC_OK);
    struct tc_item_life light = {1000, 800, 1.5, 1.5, 0.5, 800};
    assert_int_equal(tc_flow_add_item(&flow, &light), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&flow, 100, 0.02), TC_OK);
    struct tc_amount total[5];
    tc_flow_cumulate(&flow, total);
    /* Replaced at 1.5 and 3 years: in years 2 and 3. */
    static const double paid[] = {1000, 102, 102 * 1.02 + 800, 102 * 1.0404 + 800, 102 * 1.061208};
    double sum = 0;
    for (int y = 0; y <= 4; y++) {
        sum += paid[y];
        assert_near(total[y].paid, sum, 1e-9);
        assert_near(flow.capital[y].paid + flow.running[y].paid, paid[y], 1e-9);
    }
    assert_near(flow.capital[2].present, 800 / pow(1.03, 1.5), 1e-9);
    assert_near(flow.capital[3].present, 800 / pow(1.03, 3), 1e-9);
    assert_near(flow.residual.paid, 800 * 0.5 / 3, 1e-9); /* half a year of 1.5 left, sold at half */
    assert_near(flow_cost(&flow).paid, sum - 400.0 / 3, 1e-9);
}

/* A flow's present value is what the factors give for the same parts. */
static void flows_agree_with_the_factors(void **state)
{
    (void)state;
    static const double rates[] = {0, 0.03, 0.11};
    for (int years = 1; years <= TC_YEARS_MAX; years += 9) {
        for (size_t i = 0; i < 3; i++) {
            double d = rates[i];
            struct tc_item_life item = {4000, 4500, 3.3, 2.1, 0.4, 4200};
            struct tc_flow flow;
            assert_int_equal(tc_flow_start(&flow, d, years), TC_OK);
            assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
            assert_int_equal(tc_flow_add_yearly(&flow, 120, 0.015), TC_OK);
            double wanted = item.price + tc_item_replacements_value(&item, d, years) -
                            tc_item_residual(&item, years) * tc_single_present_value(d, years) +
                            120 * tc_escalated_present_value(d, 0.015, years);
            assert_near(flow_cost(&flow).present, wanted, 1e-8);
        }
    }
}

static struct tc_item_life draw_item(struct tc_random *random)
{
    double life = draw_between(random, 0.3, 30);
    return (struct tc_item_life){
        draw_between(random, 0, 90000),      draw_between(random, 0, 90000), life,
        draw_between(random, 0.1, 1) * life, draw_between(random, 0, 1),     draw_between(random, 0, 90000)};
}

static void laws_of_random_items(void **state)
{
    (void)state;
    struct tc_random random = draw_from(20);
    for (int round = 0; round < 5000; round++) {
        struct tc_item_life a = draw_item(&random), b = draw_item(&random);
        int years = 1 + (int)draw_between(&random, 0, 40);
        double d = draw_between(&random, 0, 0.15), higher = d + draw_between(&random, 1e-6, 0.1);
        /* The residual lies between nothing and the price of a new one. */
        double residual = tc_item_residual(&a, years);
        assert_true(residual >= 0 && residual <= a.new_price);
        /* A higher discount rate never makes a later amount worth more. */
        assert_true(tc_item_replacements_value(&a, higher, years) <=
                    tc_item_replacements_value(&a, d, years));
        assert_true(tc_uniform_present_value(higher, years) < tc_uniform_present_value(d, years));
        /* All replacements lie in the period, in order. */
        int count = tc_item_replacements(&a, years);
        for (int k = 0; k < count; k++)
            assert_true(tc_item_replacement_time(&a, k) < years);
        assert_true(tc_item_replacement_time(&a, count) >= years - 1e-6);
        /* Life-cycle costs add: two items together cost what they cost apart. */
        struct tc_flow apart_a, apart_b, both;
        assert_int_equal(tc_flow_start(&apart_a, d, years), TC_OK);
        assert_int_equal(tc_flow_start(&apart_b, d, years), TC_OK);
        assert_int_equal(tc_flow_start(&both, d, years), TC_OK);
        assert_int_equal(tc_flow_add_item(&apart_a, &a), TC_OK);
        assert_int_equal(tc_flow_add_item(&apart_b, &b), TC_OK);
        assert_int_equal(tc_flow_add_item(&both, &a), TC_OK);
        assert_int_equal(tc_flow_add_item(&both, &b), TC_OK);
        double sum = flow_cost(&apart_a).present + flow_cost(&apart_b).present;
        assert_near(flow_cost(&both).present, sum, 1e-6);
        /* What was paid is paid, all of it; what a new one costs comes back by the share that is left. */
        double before = flow_cost(&apart_a).present;
        a.price += 100;
        a.new_price += 70;
        double end = count > 0 ? tc_item_replacement_time(&a, count - 1) + a.life : a.first_life;
        double sold = fmax(0, (end - years) / a.life) * a.resale_share;
        assert_int_equal(tc_flow_start(&apart_a, d, years), TC_OK);
        assert_int_equal(tc_flow_add_item(&apart_a, &a), TC_OK);
        assert_near(flow_cost(&apart_a).present - before, 100 - 70 * sold * tc_single_present_value(d, years),
                    1e-6);
    }
}

static void bad_items_and_flows_are_refused(void **state)
{
    (void)state;
    const struct tc_item_life good = {100, 100, 5, 5, 0.5, 100};
    assert_int_equal(tc_item_check(&good), TC_OK);
    struct tc_item_life bad[] = {good, good, good, good, good, good, good, good, good, good, good};
    bad[0].price = -1;
    bad[1].price = NAN;
    bad[2].replacement_price = INFINITY;
    bad[3].life = 0;
    bad[4].life = NAN;
    bad[5].first_life = -2;
    bad[6].first_life = 0.001;
    bad[7].resale_share = 1.01;
    bad[8].resale_share = NAN;
    bad[9].new_price = -1;
    bad[10].new_price = NAN;
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, 0.03, 10), TC_OK);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(tc_item_check(&bad[i]), TC_RANGE);
        assert_int_equal(tc_item_replacements(&bad[i], 10), 0);
        assert_true(isnan(tc_item_replacements_value(&bad[i], 0.03, 10)));
        assert_true(isnan(tc_item_residual(&bad[i], 10)));
        assert_int_equal(tc_flow_add_item(&flow, &bad[i]), TC_RANGE);
    }
    assert_int_equal(tc_flow_add_yearly(&flow, NAN, 0), TC_RANGE);
    assert_int_equal(tc_flow_add_yearly(&flow, 1, -1), TC_RANGE);
    assert_near(flow_cost(&flow).present, 0, 0);
    assert_true(isnan(tc_item_residual(&good, TC_YEARS_MAX + 1)));
    assert_true(isnan(tc_item_residual(&good, -1)));
    assert_true(isnan(tc_item_replacements_value(&good, -1, 10)));
    assert_int_equal(tc_flow_start(&flow, 0.03, 0), TC_RANGE);
    assert_int_equal(tc_flow_start(&flow, 0.03, TC_YEARS_MAX + 1), TC_RANGE);
    assert_int_equal(tc_flow_start(&flow, -1, 10), TC_RANGE);
    assert_int_equal(tc_flow_start(&flow, NAN, 10), TC_RANGE);
    /* The shortest life over the longest period stays in bounds: the last falls in the last year. */
    struct tc_item_life brief = item_of(1, TC_LIFE_MIN);
    assert_int_equal(tc_item_replacements(&brief, TC_YEARS_MAX), 53 * TC_YEARS_MAX - 1);
    assert_int_equal(tc_flow_start(&flow, 0, TC_YEARS_MAX), TC_OK);
    assert_int_equal(tc_flow_add_item(&flow, &brief), TC_OK);
    assert_near(flow.capital[TC_YEARS_MAX].paid, 52, 0);
    assert_near(flow_cost(&flow).paid, 53 * TC_YEARS_MAX, 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_of_handbook_135),
        cmocka_unit_test(factors_of_interest_tables),
        cmocka_unit_test(factors_reach_their_limits),
        cmocka_unit_test(factors_are_the_sums_they_stand_for),
        cmocka_unit_test(figures_outside_the_domain_are_no_numbers),
        cmocka_unit_test(replacements_fall_before_the_end),
        cmocka_unit_test(whole_lives_count_by_whole_numbers),
        cmocka_unit_test(replacements_have_their_present_value),
        cmocka_unit_test(residual_is_the_life_that_remains),
        cmocka_unit_test(annual_cost_with_salvage),
        cmocka_unit_test(unequal_lives_compare_by_annual_cost),
        cmocka_unit_test(filter_presses),
        cmocka_unit_test(rates_of_regulation_z),
        cmocka_unit_test(factors_of_a_spreadsheet),
        cmocka_unit_test(a_flow_holds_what_falls_when),
        cmocka_unit_test(flows_agree_with_the_factors),
        cmocka_unit_test(laws_of_random_items),
        cmocka_unit_test(bad_items_and_flows_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
