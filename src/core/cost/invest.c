/* SPDX-License-Identifier: MIT */
#include "core/cost/invest.h"

#include <math.h>

static const double NOTHING = 0.5; /* minor units */

const char *tc_measure_text(enum tc_measure_state state)
{
    switch (state) {
    case TC_MEASURE_VALID: return "valid";
    case TC_MEASURE_NO_INVESTMENT: return "no extra investment";
    case TC_MEASURE_NO_SAVING: return "no saving in running costs";
    case TC_MEASURE_NOT_PAID_BACK: return "not paid back within the period";
    }
    return "unknown";
}

/* What the alternative saves in each year, capital and running, against the base. */
struct savings {
    double extra_purchase;           /* paid at time 0 */
    double yearly[TC_YEARS_MAX + 1]; /* element 0 unused */
    double residual;                 /* what it is sold for more at the end */
    double running;                  /* saved in running costs, all years together */
    int years;
};

static double pick(struct tc_amount amount, bool discounted)
{
    return discounted ? amount.present : amount.paid;
}

static struct savings savings_between(const struct tc_flow *base, const struct tc_flow *alternative,
                                      bool discounted)
{
    struct savings s = {.years = base->years};
    s.extra_purchase = pick(alternative->capital[0], discounted) - pick(base->capital[0], discounted);
    s.residual = pick(alternative->residual, discounted) - pick(base->residual, discounted);
    for (int year = 1; year <= s.years; year++) {
        double running = pick(base->running[year], discounted) - pick(alternative->running[year], discounted);
        double capital = pick(base->capital[year], discounted) - pick(alternative->capital[year], discounted);
        s.yearly[year] = running + capital;
        s.running += running;
    }
    return s;
}

static struct tc_payback payback(const struct savings *s)
{
    struct tc_payback result = {.state = TC_MEASURE_NO_INVESTMENT};
    double missing = s->extra_purchase;
    if (missing < NOTHING)
        return result;
    result.state = s->running < NOTHING ? TC_MEASURE_NO_SAVING : TC_MEASURE_NOT_PAID_BACK;
    for (int year = 1; year <= s->years; year++) {
        double before = missing;
        missing -= s->yearly[year];
        if (missing < NOTHING && result.state != TC_MEASURE_VALID) {
            result.state = TC_MEASURE_VALID;
            result.years = year - 1 + fmin(1.0, before / s->yearly[year]);
        }
    }
    missing -= s->residual;
    if (missing < NOTHING && result.state != TC_MEASURE_VALID) {
        result.state = TC_MEASURE_VALID;
        result.years = s->years;
    }
    result.lasts = result.state == TC_MEASURE_VALID && missing < NOTHING;
    return result;
}

enum tc_status tc_compare(const struct tc_flow *base, const struct tc_flow *alternative,
                          struct tc_comparison *comparison)
{
    if (base->years != alternative->years || base->rate != alternative->rate)
        return TC_RANGE;
    struct savings paid = savings_between(base, alternative, false);
    struct savings present = savings_between(base, alternative, true);
    struct tc_comparison c = {.saving = present.running};
    c.extra_investment = present.extra_purchase - present.residual;
    for (int year = 1; year <= base->years; year++)
        c.extra_investment += alternative->capital[year].present - base->capital[year].present;
    c.net_saving = c.saving - c.extra_investment;

    enum tc_measure_state state = TC_MEASURE_VALID;
    if (c.extra_investment < NOTHING)
        state = TC_MEASURE_NO_INVESTMENT;
    else if (c.saving < NOTHING)
        state = TC_MEASURE_NO_SAVING;
    c.saving_to_investment.state = c.adjusted_return.state = state;
    if (state == TC_MEASURE_VALID) {
        double ratio = c.saving / c.extra_investment;
        c.saving_to_investment.value = ratio;
        c.adjusted_return.value = (1.0 + base->rate) * pow(ratio, 1.0 / base->years) - 1.0;
    }
    c.simple_payback = payback(&paid);
    c.discounted_payback = payback(&present);
    *comparison = c;
    return TC_OK;
}

/* -1 where a is lower, 1 where b is, 0 where nobody could tell. */
static int side(double a, double b)
{
    double difference = a - b;
    return (difference >= NOTHING) - (difference <= -NOTHING);
}

int tc_find_crossings(const double *a, const double *b, int years, struct tc_crossing *crossings)
{
    int count = 0;
    int last = 0;
    for (int year = 0; year <= years; year++) {
        int now = side(a[year], b[year]);
        if (now == 0)
            continue;
        if (last != 0 && now != last)
            crossings[count++] = (struct tc_crossing){year, now < 0};
        last = now;
    }
    return count;
}
