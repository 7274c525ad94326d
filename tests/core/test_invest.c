/* SPDX-License-Identifier: MIT */
/* Measures between two alternatives against handbook examples and a spreadsheet, and the laws that tie them.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/invest.h"
#include "support/draw.h"
#include "support/flow_cost.h"
#include "support/near.h"

static struct tc_flow flow_of(double rate, int years, double price)
{
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, rate, years), TC_OK);
    const struct tc_item_life item = {price, 0, INFINITY, INFINITY, 0, 0};
    assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    return flow;
}

static void add_amount(struct tc_flow *flow, struct tc_amount *to, double amount, int year)
{
    to->paid += amount;
    to->present += amount * tc_single_present_value(flow->rate, year);
}

/* Against doing nothing: an investment now that saves the given amounts at the ends of years 1, 2, ... */
static struct tc_comparison invest(double rate, double investment, int years, const double *saved)
{
    struct tc_flow nothing = flow_of(rate, years, 0);
    struct tc_flow project = flow_of(rate, years, investment);
    for (int year = 1; year <= years; year++)
        add_amount(&nothing, &nothing.running[year], saved[year - 1], year);
    struct tc_comparison c;
    assert_int_equal(tc_compare(&nothing, &project, &c), TC_OK);
    return c;
}

/* The escalation that makes UPV* what a handbook prints, by bisection. */
static double escalation_behind(double factor, double rate, int years)
{
    double low = -0.5, high = 0.5;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (tc_escalated_present_value(rate, middle, years) < factor)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/*
 * NIST HB 135e2025, example 7-1 (storm windows), pp. 94-95: base 27 944,
 * alternative 26 344. The other measures follow from the same figures by
 * hand: SIR = 3600.48 / 2000, AIRR = 1.03 * 1.80024^(1/20) - 1, and without
 * escalation a simple payback of 2000 / 223.5 years.
 */
static void storm_windows(void **state)
{
    (void)state;
    double gas = escalation_behind(16.15, 0.03, 20), electricity = escalation_behind(15.48, 0.03, 20);
    struct tc_flow base = flow_of(0.03, 20, 0), windows = flow_of(0.03, 20, 200000);
    assert_int_equal(tc_flow_add_yearly(&base, 1500 * 105, gas), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&base, 1200 * 13.5, electricity), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&windows, 1300 * 105, gas), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&windows, 1100 * 13.5, electricity), TC_OK);
    assert_near(flow_cost(&base).present, 2794400, 50);
    assert_near(flow_cost(&windows).present, 2634400, 50);
    struct tc_comparison c;
    assert_int_equal(tc_compare(&base, &windows, &c), TC_OK);
    assert_near(c.net_saving, 160048, 0.5);
    assert_near(c.saving, 360048, 0.5);
    assert_near(c.extra_investment, 200000, 1e-6);
    assert_int_equal(c.saving_to_investment.state, TC_MEASURE_VALID);
    assert_near(c.saving_to_investment.value, 1.80024, 5e-6);
    assert_near(c.adjusted_return.value, 0.060727, 5e-7);

    double flat[20];
    for (int i = 0; i < 20; i++)
        flat[i] = 22350;
    c = invest(0.03, 200000, 20, flat);
    assert_int_equal(c.simple_payback.state, TC_MEASURE_VALID);
    assert_near(c.simple_payback.years, 2000 / 223.5, 1e-9);
    assert_true(c.simple_payback.lasts);
}

/* Thumann and Woodroof, Energy Project Financing, App. A, example 34 (heat pump) and 35 (insulation), pp.
 * 257-258. */
static void heat_pump_and_insulation(void **state)
{
    (void)state;
    struct tc_flow baseboard = flow_of(0.18, 15, 0), pump = flow_of(0.18, 15, 150000);
    assert_int_equal(tc_flow_add_yearly(&baseboard, 38000, 0), TC_OK);
    assert_int_equal(tc_flow_add_yearly(&pump, 5000, 0), TC_OK);
    add_amount(&pump, &pump.capital[8], 20000, 8);
    add_amount(&pump, &pump.residual, 15000, 15);
    struct tc_comparison c;
    assert_int_equal(tc_compare(&baseboard, &pump, &c), TC_OK);
    assert_near(c.net_saving, 13956, 5); /* 4-digit factors */
    assert_near(c.saving, 33000 * 5.0916, 2);

    double saved[20];
    for (int i = 0; i < 20; i++)
        saved[i] = 3200;
    c = invest(0.10, 15000, 20, saved);
    assert_near(c.net_saving, 12244, 1);
}

/* Engineering Economic Analysis, 9th ed., p. 161: present worth 1588.50 by 4-digit factors at 8 %. */
static void uneven_savings(void **state)
{
    (void)state;
    static const double saved[] = {100000, 85000, 70000, 55000, 40000, 40000, 40000, 40000};
    struct tc_comparison c = invest(0.08, 200000, 8, saved);
    assert_near(c.net_saving, 158850, 15);
}

static void paybacks_of_textbooks(void **state)
{
    (void)state;
    /* Titman, Keown and Martin, Financial Management, 13th ed., figure 11.26: 17 %, project Long, 2.97 years.
     */
    static const double project_long[] = {7000000, 3000000, 3000000, 2500000, 1000000};
    struct tc_comparison c = invest(0.17, 10000000, 5, project_long);
    assert_near(c.discounted_payback.years, 2.97, 0.005);
    assert_near(c.simple_payback.years, 2, 1e-9);
    assert_near(c.net_saving, 1837800, 100);
    /* A self-test numbered 9.1 in a textbook of corporate finance (which one, from memory: not noted): 200 at
     * 10 %: payback 3.10 years, net present value 84.23. */
    static const double self_test[] = {5000, 6000, 7000, 20000};
    c = invest(0.10, 20000, 4, self_test);
    assert_near(c.simple_payback.years, 3.10, 1e-9);
    assert_near(c.net_saving, 8423, 1); /* printed from terms rounded to the cent */
    assert_true(c.discounted_payback.years > 3 && c.discounted_payback.years < 4);
    /* Lecture notes to Engineering Economic Analysis ch. 9 (whose, not noted): 4 years against 5; recomputed.
     */
    static const double tempo[] = {1200000, 900000, 600000, 300000, 0, 0, 0, 0};
    static const double dura[] = {100000, 400000, 700000, 1000000, 1300000, 1600000, 1900000, 2200000};
    assert_near(invest(0, 3000000, 8, tempo).simple_payback.years, 4, 1e-9);
    assert_near(invest(0, 3500000, 8, dura).simple_payback.years, 5, 1e-9);
}

/* Gnumeric 1.12.55: MIRR(-5000;1200;1500;1700;900;1300;800;700;600;500;400; 3.5 %; 3.5 %) and NPV of the
 * savings. */
static void adjusted_return_is_a_spreadsheet_mirr(void **state)
{
    (void)state;
    static const double saved[] = {120000, 150000, 170000, 90000, 130000, 80000, 70000, 60000, 50000, 40000};
    struct tc_comparison c = invest(0.035, 500000, 10, saved);
    assert_near(c.adjusted_return.value, 0.088530871519267669684, 1e-14);
    assert_near(c.saving, 827892.6195118451106, 1e-7);
    /* NPER(4 %; -2100; 15000) = 8.58: a loan so repaid is paid back in its ninth year. */
    double flat[12];
    for (int i = 0; i < 12; i++)
        flat[i] = 210000;
    c = invest(0.04, 1500000, 12, flat);
    assert_true(c.discounted_payback.years > 8 && c.discounted_payback.years < 9);
}

static struct tc_comparison compare(const struct tc_flow *base, const struct tc_flow *alternative)
{
    struct tc_comparison c;
    assert_int_equal(tc_compare(base, alternative, &c), TC_OK);
    return c;
}

static void assert_all_states(const struct tc_comparison *c, enum tc_measure_state wanted)
{
    assert_int_equal(c->saving_to_investment.state, wanted);
    assert_int_equal(c->adjusted_return.state, wanted);
    assert_int_equal(c->simple_payback.state, wanted);
    assert_int_equal(c->discounted_payback.state, wanted);
    assert_false(c->simple_payback.lasts);
    assert_false(c->discounted_payback.lasts);
}

static void measures_without_a_meaning_are_refused(void **state)
{
    (void)state;
    struct tc_flow cheap = flow_of(0.03, 10, 10000), dear = flow_of(0.03, 10, 30000);
    struct tc_comparison c = compare(&cheap, &cheap);
    assert_all_states(&c, TC_MEASURE_NO_INVESTMENT);
    assert_near(c.net_saving, 0, 0);
    c = compare(&dear, &cheap); /* cheaper and no dearer to run: nothing to pay back */
    assert_all_states(&c, TC_MEASURE_NO_INVESTMENT);
    assert_near(c.net_saving, 20000, 1e-9);
    c = compare(&cheap, &dear); /* dearer and saves nothing */
    assert_all_states(&c, TC_MEASURE_NO_SAVING);
    assert_near(c.net_saving, -20000, 1e-9);
    assert_int_equal(tc_flow_add_yearly(&dear, 500, 0), TC_OK); /* dearer both ways */
    c = compare(&cheap, &dear);
    assert_all_states(&c, TC_MEASURE_NO_SAVING);
    assert_int_equal(tc_flow_add_yearly(&cheap, 1000, 0), TC_OK); /* saves 500 a year: too little for 20000 */
    c = compare(&cheap, &dear);
    assert_int_equal(c.saving_to_investment.state, TC_MEASURE_VALID);
    assert_true(c.saving_to_investment.value < 1);
    assert_int_equal(c.simple_payback.state, TC_MEASURE_NOT_PAID_BACK);
    assert_int_equal(c.discounted_payback.state, TC_MEASURE_NOT_PAID_BACK);

    struct tc_flow other = flow_of(0.03, 11, 30000);
    assert_int_equal(tc_compare(&cheap, &other, &c), TC_RANGE);
    other = flow_of(0.04, 10, 30000);
    assert_int_equal(tc_compare(&cheap, &other, &c), TC_RANGE);
    for (int s = TC_MEASURE_VALID; s <= TC_MEASURE_NOT_PAID_BACK; s++)
        assert_true(tc_measure_text((enum tc_measure_state)s)[0] != '\0');
}

/* Paid back in simple terms, but not once the savings are discounted. */
static void a_discount_can_undo_a_payback(void **state)
{
    (void)state;
    double saved[10];
    for (int i = 0; i < 10; i++)
        saved[i] = 1000;
    struct tc_comparison c = invest(0.06, 9500, 10, saved);
    assert_near(c.simple_payback.years, 9.5, 1e-9);
    assert_int_equal(c.discounted_payback.state, TC_MEASURE_NOT_PAID_BACK);
    assert_true(c.net_saving < 0);
}

static void less_than_half_a_minor_unit_is_nothing(void **state)
{
    (void)state;
    double saved[10];
    for (int i = 0; i < 10; i++)
        saved[i] = 99.97;
    struct tc_comparison c = invest(0, 1000, 10, saved); /* three tenths short */
    assert_int_equal(c.simple_payback.state, TC_MEASURE_VALID);
    assert_near(c.simple_payback.years, 10, 0);
    assert_true(c.simple_payback.lasts);
    c = invest(0, 1001, 10, saved);
    assert_int_equal(c.simple_payback.state, TC_MEASURE_NOT_PAID_BACK);
    c = invest(0, 0.4, 10, saved);
    assert_int_equal(c.saving_to_investment.state, TC_MEASURE_NO_INVESTMENT);
    assert_int_equal(c.simple_payback.state, TC_MEASURE_NO_INVESTMENT);
    c = invest(0, 0.6, 10, saved);
    assert_int_equal(c.saving_to_investment.state, TC_MEASURE_VALID);
}

static void replacements_can_undo_a_payback(void **state)
{
    (void)state;
    /* 1000 that saves 400 a year is paid back at 2.5 years, and at the end again owes what year 4 cost. */
    struct tc_flow base = flow_of(0, 5, 0), lamp = flow_of(0, 5, 100000);
    assert_int_equal(tc_flow_add_yearly(&base, 40000, 0), TC_OK);
    add_amount(&lamp, &lamp.capital[4], 150000, 4);
    struct tc_comparison c = compare(&base, &lamp);
    assert_near(c.simple_payback.years, 2.5, 1e-9);
    assert_false(c.simple_payback.lasts);
    assert_near(c.net_saving, -50000, 1e-9);
    assert_near(c.saving_to_investment.value, 0.8, 1e-12);
    /* An avoided replacement of the base pays back as well: year 3 brings 400 and 300. */
    lamp = flow_of(0, 5, 100000);
    add_amount(&base, &base.capital[3], 30000, 3);
    c = compare(&base, &lamp);
    assert_near(c.simple_payback.years, 2 + 200.0 / 700, 1e-9);
    assert_true(c.simple_payback.lasts);
    assert_near(c.extra_investment, 70000, 1e-9);
}

static void what_is_sold_counts_at_the_end(void **state)
{
    (void)state;
    struct tc_flow base = flow_of(0.02, 6, 0), tank = flow_of(0.02, 6, 100000);
    assert_int_equal(tc_flow_add_yearly(&base, 10000, 0), TC_OK);
    add_amount(&tank, &tank.residual, 50000, 6);
    struct tc_comparison c = compare(&base, &tank);
    assert_near(c.simple_payback.years, 6, 0); /* 600 saved and 500 for the tank: not before it is sold */
    assert_true(c.simple_payback.lasts);
    /* Where the base fetches more when sold, a payback may be lost on the last day. */
    add_amount(&base, &base.residual, 120000, 6);
    tank = flow_of(0.02, 6, 50000);
    c = compare(&base, &tank);
    assert_near(c.simple_payback.years, 5, 1e-9);
    assert_false(c.simple_payback.lasts);
}

static struct tc_flow draw_flow(struct tc_random *random, double rate, int years)
{
    struct tc_flow flow;
    assert_int_equal(tc_flow_start(&flow, rate, years), TC_OK);
    for (int i = 0; i < 3; i++) {
        double life = draw_between(random, 0.5, 20);
        struct tc_item_life item = {draw_between(random, 0, 50000),
                                    draw_between(random, 0, 40000),
                                    life,
                                    draw_between(random, 0.2, 1) * life + 0.1,
                                    draw_between(random, 0, 1),
                                    draw_between(random, 0, 50000)};
        assert_int_equal(tc_flow_add_item(&flow, &item), TC_OK);
    }
    assert_int_equal(
        tc_flow_add_yearly(&flow, draw_between(random, 0, 20000), draw_between(random, -0.03, 0.06)), TC_OK);
    return flow;
}

static void the_measures_agree_with_each_other(void **state)
{
    (void)state;
    struct tc_random random = draw_from(135);
    int ratios = 0, paid_back = 0, lost = 0;
    for (int round = 0; round < 20000; round++) {
        int years = 1 + (int)draw_between(&random, 0, 40);
        double rate = draw_between(&random, 0, 0.12);
        struct tc_flow a = draw_flow(&random, rate, years), b = draw_flow(&random, rate, years);
        struct tc_comparison c = compare(&a, &b), back = compare(&b, &a);
        double scale = 1e-9 * (1 + flow_cost(&a).present + flow_cost(&b).present);
        assert_near(c.net_saving, flow_cost(&a).present - flow_cost(&b).present, scale);
        assert_near(back.net_saving, -c.net_saving, scale);
        if (c.saving_to_investment.state == TC_MEASURE_VALID) {
            ratios++;
            assert_int_equal(c.saving_to_investment.value >= 1, c.net_saving >= 0);
            if (fabs(c.net_saving) > 1)
                assert_int_equal(c.adjusted_return.value > rate, c.net_saving > 0);
        }
        /* Bought dearer: it pays for itself in the end exactly where the net saving is not negative. */
        if (c.discounted_payback.state != TC_MEASURE_NO_INVESTMENT && fabs(c.net_saving) > 1) {
            assert_int_equal(c.discounted_payback.lasts, c.net_saving > 0);
            if (c.discounted_payback.state == TC_MEASURE_VALID) {
                paid_back++;
                lost += !c.discounted_payback.lasts;
                assert_true(c.discounted_payback.years > 0 && c.discounted_payback.years <= years);
            }
        }
    }
    assert_true(ratios > 1000 && paid_back > 1000 && lost > 10); /* the laws were put to the test */
}

/* With level savings and no replacements the discounted payback is never the shorter one. */
static void discounting_never_shortens_a_payback(void **state)
{
    (void)state;
    struct tc_random random = draw_from(136);
    for (int round = 0; round < 2000; round++) {
        double saved[30], each = draw_between(&random, 100, 5000), before = 0;
        for (int i = 0; i < 30; i++)
            saved[i] = each;
        for (double rate = 0; rate < 0.1; rate += 0.02) {
            struct tc_comparison c = invest(rate, 20000, 30, saved);
            if (c.discounted_payback.state != TC_MEASURE_VALID)
                break;
            assert_true(c.discounted_payback.years >= before);
            assert_true(c.discounted_payback.years >= c.simple_payback.years - 1e-9);
            before = c.discounted_payback.years;
        }
    }
}

static void crossings_are_where_the_order_changes(void **state)
{
    (void)state;
    struct tc_crossing found[6];
    static const double a[] = {100, 200, 300, 400, 500, 600, 700};
    static const double b[] = {300, 350, 380, 400, 420, 650, 660};
    /* b is dearer, meets a in year 3, is cheaper from year 4, dearer in year 5, cheaper in year 6. */
    assert_int_equal(tc_find_crossings(a, b, 6, found), 3);
    assert_int_equal(found[0].year, 4);
    assert_false(found[0].first_is_lower);
    assert_int_equal(found[1].year, 5);
    assert_true(found[1].first_is_lower);
    assert_int_equal(found[2].year, 6);
    assert_false(found[2].first_is_lower);
    assert_int_equal(tc_find_crossings(b, a, 6, found), 3);
    assert_true(found[0].first_is_lower);

    assert_int_equal(tc_find_crossings(a, a, 6, found), 0);
    static const double touches[] = {300, 350, 300.4, 450, 550, 650, 700.2};
    assert_int_equal(tc_find_crossings(a, touches, 6, found), 0); /* under half a minor unit is a draw */
    static const double even_start[] = {100, 150, 250, 350, 450, 550, 650};
    assert_int_equal(tc_find_crossings(a, even_start, 6, found), 0); /* the same price, then always cheaper */
    static const double zigzag[] = {0, 300, 200, 500, 400, 700, 600};
    assert_int_equal(tc_find_crossings(a, zigzag, 6, found), 6); /* as many as can be */
    assert_int_equal(tc_find_crossings(a, b, 0, found), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(storm_windows),
        cmocka_unit_test(heat_pump_and_insulation),
        cmocka_unit_test(uneven_savings),
        cmocka_unit_test(paybacks_of_textbooks),
        cmocka_unit_test(adjusted_return_is_a_spreadsheet_mirr),
        cmocka_unit_test(measures_without_a_meaning_are_refused),
        cmocka_unit_test(a_discount_can_undo_a_payback),
        cmocka_unit_test(less_than_half_a_minor_unit_is_nothing),
        cmocka_unit_test(replacements_can_undo_a_payback),
        cmocka_unit_test(what_is_sold_counts_at_the_end),
        cmocka_unit_test(the_measures_agree_with_each_other),
        cmocka_unit_test(discounting_never_shortens_a_payback),
        cmocka_unit_test(crossings_are_where_the_order_changes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
