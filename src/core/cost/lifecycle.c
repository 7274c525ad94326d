/* SPDX-License-Identifier: MIT */
#include "core/cost/lifecycle.h"

#include <math.h>
#include <stdbool.h>

/*
 * Lives such as 0.1 years are not exact in binary, nor their multiples; a time
 * this close behind the end of a year is at its end. A thirtieth of a second.
 */
static const double SAME_TIME = 1e-9;

static bool is_rate(double rate)
{
    return isfinite(rate) && rate > -1.0;
}

static bool is_time(double years)
{
    return isfinite(years) && years >= 0.0;
}

/*
 * q + q^2 + ... + q^n with q = exp(log_q). Written with expm1 the quotient
 * stays exact to rounding as q nears 1, where the textbook form divides
 * nothing by nothing.
 */
static double geometric_sum(double log_q, double n)
{
    if (log_q == 0.0)
        return n;
    return exp(log_q) * expm1(n * log_q) / expm1(log_q);
}

double tc_single_present_value(double d, double n)
{
    if (!is_rate(d) || !is_time(n))
        return NAN;
    return exp(-n * log1p(d));
}

double tc_uniform_present_value(double d, double n)
{
    return tc_escalated_present_value(d, 0.0, n);
}

double tc_escalated_present_value(double d, double e, double n)
{
    if (!is_rate(d) || !is_rate(e) || !is_time(n))
        return NAN;
    return geometric_sum(log1p((e - d) / (1.0 + d)), n);
}

double tc_capital_recovery(double d, double n)
{
    return n > 0.0 ? 1.0 / tc_uniform_present_value(d, n) : NAN;
}

static bool is_amount(double amount)
{
    return isfinite(amount) && amount >= 0.0;
}

enum tc_status tc_item_check(const struct tc_item_life *item)
{
    bool prices = is_amount(item->price) && is_amount(item->replacement_price) && is_amount(item->new_price);
    bool lives = item->life >= TC_LIFE_MIN && item->first_life >= TC_LIFE_MIN;
    bool share = item->resale_share >= 0.0 && item->resale_share <= 1.0;
    return prices && lives && share ? TC_OK : TC_RANGE;
}

static bool usable(const struct tc_item_life *item, int years)
{
    return years >= 0 && years <= TC_YEARS_MAX && tc_item_check(item) == TC_OK;
}

/* tc_item_replacements() of an item that is usable. */
static int replacements(const struct tc_item_life *item, int years)
{
    double left = years - item->first_life;
    if (left <= SAME_TIME)
        return 0;
    /* The first falls due at first_life; then one for each further life begun before the end. */
    return 1 + (int)fmax(0.0, ceil((left - SAME_TIME) / item->life) - 1.0);
}

int tc_item_replacements(const struct tc_item_life *item, int years)
{
    return usable(item, years) ? replacements(item, years) : 0;
}

double tc_item_replacement_time(const struct tc_item_life *item, int k)
{
    /* An unlimited life has no later replacements; 0 * INFINITY would be not-a-number. */
    return k == 0 ? item->first_life : item->first_life + k * item->life;
}

int tc_year_of(double time)
{
    return (int)ceil(time - SAME_TIME);
}

double tc_item_replacements_value(const struct tc_item_life *item, double d, int years)
{
    if (!usable(item, years) || !is_rate(d))
        return NAN;
    int count = replacements(item, years);
    if (count == 0)
        return 0.0;
    double sum = tc_single_present_value(d, item->first_life);
    if (count > 1)
        sum *= 1.0 + geometric_sum(-item->life * log1p(d), count - 1);
    return item->replacement_price * sum;
}

double tc_item_residual(const struct tc_item_life *item, int years)
{
    if (!usable(item, years))
        return NAN;
    int count = replacements(item, years);
    double end = count == 0 ? item->first_life : tc_item_replacement_time(item, count - 1) + item->life;
    /* Of a thing that would last for ever new but not as it was bought, the share of what it had. */
    double whole = isinf(item->life) ? item->first_life : item->life;
    double remaining = isinf(end) ? 1.0 : fmax(0.0, (end - years) / whole); /* never a hair below nothing */
    return item->new_price * remaining * item->resale_share;
}

enum tc_status tc_flow_start(struct tc_flow *flow, double rate, int years)
{
    if (!is_rate(rate) || years < 1 || years > TC_YEARS_MAX)
        return TC_RANGE;
    *flow = (struct tc_flow){.rate = rate, .years = years};
    return TC_OK;
}

static void add(struct tc_amount *to, const struct tc_flow *flow, double amount, double time)
{
    to->paid += amount;
    to->present += amount * tc_single_present_value(flow->rate, time);
}

enum tc_status tc_flow_add_item(struct tc_flow *flow, const struct tc_item_life *item)
{
    enum tc_status status = tc_item_check(item);
    if (status != TC_OK)
        return status;
    add(&flow->capital[0], flow, item->price, 0.0);
    int count = tc_item_replacements(item, flow->years);
    for (int k = 0; k < count; k++) {
        double time = tc_item_replacement_time(item, k);
        add(&flow->capital[tc_year_of(time)], flow, item->replacement_price, time);
    }
    add(&flow->residual, flow, tc_item_residual(item, flow->years), flow->years);
    return TC_OK;
}

enum tc_status tc_flow_add_yearly(struct tc_flow *flow, double amount, double escalation)
{
    if (!isfinite(amount) || !is_rate(escalation))
        return TC_RANGE;
    for (int year = 1; year <= flow->years; year++) {
        amount *= 1.0 + escalation;
        add(&flow->running[year], flow, amount, year);
    }
    return TC_OK;
}

void tc_flow_cumulate(const struct tc_flow *flow, struct tc_amount *total)
{
    struct tc_amount sum = {0.0, 0.0};
    for (int year = 0; year <= flow->years; year++) {
        sum.paid += flow->capital[year].paid + flow->running[year].paid;
        sum.present += flow->capital[year].present + flow->running[year].present;
        total[year] = sum;
    }
}
