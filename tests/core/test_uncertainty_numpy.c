/* SPDX-License-Identifier: MIT */
/* A study of five tanks against the same study in numpy (uncertainty_study.py), within their errors. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <sys/wait.h>

#include "core/cost/uncertainty.h"
#include "support/near.h"
#include "support/need.h"

enum { TANKS = 5, FIGURES = 8, PER_TANK = 10, PER_FIGURE = 4, NO_NUMPY = 77 };

static void costs_of(void *context, const double figures[], double costs[])
{
    static const double price[TANKS] = {95, 32, 76, 20, 79}, ua[TANKS] = {2.4, 2.9, 3.8, 4.4, 3.1},
                        lamp[TANKS] = {18, 22, 36, 40, 28}, filters[TANKS] = {3, 3, 1, 1, 2};
    (void)context;
    double rate = figures[0], room = figures[1], hours = figures[2], sale = figures[3], life = figures[4],
           discount = figures[5], filter_price = figures[6], resale = figures[7];
    double annuity = 0, factor = 1;
    for (int year = 0; year < 8; year++) {
        factor /= 1 + discount;
        annuity += factor;
    }
    for (int i = 0; i < TANKS; i++) {
        double lit = lamp[i] * hours * 0.365;
        double heat = fmax(ua[i] * (25 - room) * 8.76 - 0.4 * lit, 0);
        costs[i] = price[i] * sale * (1 - resale * factor) + (heat + lit) * rate * annuity +
                   filters[i] * filter_price * (1 + annuity / life);
    }
}

static const struct tc_spread spreads[FIGURES] = {
    {TC_SPREAD_TRIANGULAR, 0.10, 0.16, 0.34}, {TC_SPREAD_UNIFORM, 18, 20, 22},
    {TC_SPREAD_TRIANGULAR, 7, 9, 12},         {TC_SPREAD_UNIFORM, 0.8, 0.95, 1.1},
    {TC_SPREAD_TRIANGULAR, 1.5, 3, 5},        {TC_SPREAD_TRIANGULAR, 0, 0.03, 0.05},
    {TC_SPREAD_TRIANGULAR, 15, 20, 22},       {TC_SPREAD_UNIFORM, 0.1, 0.3, 0.5},
};

/* What numpy found: TANKS rows, then FIGURES rows. */
static double by_tank[TANKS][PER_TANK], by_figure[FIGURES][PER_FIGURE];

static bool read_row(FILE *from, double row[], int count)
{
    for (int i = 0; i < count; i++)
        if (fscanf(from, "%lf", &row[i]) != 1)
            return false;
    return true;
}

/* The exit status of the script, or -1; NO_NUMPY where this python lacks numpy. */
static int ask_numpy(const char *command)
{
    FILE *from = popen(command, "r");
    if (!from)
        return -1;
    bool ok = true;
    for (int i = 0; i < TANKS && ok; i++)
        ok = read_row(from, by_tank[i], PER_TANK);
    for (int j = 0; j < FIGURES && ok; j++)
        ok = read_row(from, by_figure[j], PER_FIGURE);
    int ended = pclose(from);
    if (!WIFEXITED(ended))
        return -1;
    return WEXITSTATUS(ended) == 0 && !ok ? -1 : WEXITSTATUS(ended);
}

/* Two independent results agree within five joint standard errors. */
static void assert_agree(double ours, double error, double theirs, double their_error)
{
    assert_near(ours, theirs, 5 * sqrt(error * error + their_error * their_error) + 1e-12);
}

static void same_turn(double ours, double theirs)
{
    if (theirs < -998)
        assert_true(isnan(ours));
    else
        assert_near(ours, theirs, 1e-9);
}

static void numpy_finds_the_same(void **state)
{
    (void)state;
    /* Systems may have numpy with their own python only. */
    int status = ask_numpy("python3 tests/core/uncertainty_study.py");
    if (status != 0)
        status = ask_numpy("/usr/bin/python3 tests/core/uncertainty_study.py");
    skip_without(status != NO_NUMPY && status != 127, "python3 with numpy");
    assert_int_equal(status, 0);

    const struct tc_uncertainty_study study = {.candidates = TANKS,
                                               .figures = FIGURES,
                                               .spreads = spreads,
                                               .costs = costs_of,
                                               .draws = 200000,
                                               .seed = 5,
                                               .threads = 2};
    struct tc_uncertainty r;
    assert_int_equal(tc_uncertainty_run(&study, &r), TC_OK);
    for (int i = 0; i < TANKS; i++) {
        const struct tc_uncertainty_candidate *c = &r.candidate[i];
        const double *row = by_tank[i];
        assert_agree(c->cheapest, c->cheapest_error, row[0], row[1]);
        assert_agree(c->mean, c->mean_error, row[2], row[3]);
        assert_near(c->deviation, row[4], 0.005 * row[4]);
        /* A percentile's error is sqrt(p (1 - p) / n) over the density there: below 1 % of the deviation. */
        assert_near(c->p10, row[5], 0.01 * row[4]);
        assert_near(c->p50, row[6], 0.01 * row[4]);
        assert_near(c->p90, row[7], 0.015 * row[4]);
        assert_agree(c->regret, c->regret_error, row[8], row[9]);
    }
    for (int j = 0; j < FIGURES; j++) {
        const struct tc_uncertainty_bar *bar = &r.bar[j];
        const double *row = by_figure[bar->figure];
        assert_near(bar->at_low, row[0], 1e-9);
        assert_near(bar->at_high, row[1], 1e-9);
        same_turn(bar->turn_below, row[2]);
        same_turn(bar->turn_above, row[3]);
    }
    tc_uncertainty_free(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(numpy_finds_the_same)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
