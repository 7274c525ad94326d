/* SPDX-License-Identifier: MIT */
#include "core/tariff/tariff.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "core/money/split.h"

struct tc_tariff tc_tariff_flat(double rate)
{
    struct tc_tariff tariff = {.every_unit = rate, .season_count = 1};
    for (int m = 0; m < TC_MONTHS; m++)
        tariff.workday_share[m] = 5.0 / 7.0;
    return tariff;
}

void tc_tariff_scale(struct tc_tariff *tariff, double factor)
{
    tariff->every_unit *= factor;
    for (int s = 0; s < TC_TARIFF_SEASONS; s++) {
        struct tc_tariff_season *season = &tariff->season[s];
        season->minimum *= factor;
        for (int b = 0; b < TC_TARIFF_BLOCKS; b++)
            season->block[b].rate *= factor;
        for (int day = 0; day < TC_DAY_TYPES; day++)
            for (int hour = 0; hour < TC_HOURS; hour++)
                season->hour[day][hour] *= factor;
    }
}

/* A figure a bill can be computed from; false for NaN as well. */
static bool is_amount(double x)
{
    return x >= 0 && x <= (double)TC_MONEY_MAX;
}

static bool is_share(double x)
{
    return x >= 0 && x <= 1;
}

static const char *blocks_fault(const struct tc_tariff_season *season)
{
    if (season->block_count < 0 || season->block_count > TC_TARIFF_BLOCKS)
        return "more blocks than a tariff can have";
    double before = 0;
    for (int i = 0; i < season->block_count; i++) {
        const struct tc_tariff_block *block = &season->block[i];
        if (!is_amount(block->rate))
            return "the rate of a block is negative or no number";
        if (!(block->limit > before))
            return "the limits of the blocks do not ascend";
        before = block->limit;
    }
    if (season->block_count > 0 && !isinf(before))
        return "the last block has a limit";
    return NULL;
}

static const char *season_fault(const struct tc_tariff_season *season)
{
    for (int d = 0; season->by_hour && d < TC_DAY_TYPES; d++)
        for (int h = 0; h < TC_HOURS; h++)
            if (!is_amount(season->hour[d][h]))
                return "the rate of an hour is negative or no number";
    if (!is_amount(season->minimum) || !is_amount(season->minimum_covers))
        return "the minimum charge is negative or no number";
    if (season->minimum_covers > 0 && season->by_hour)
        return "a minimum charge that covers first units cannot go with rates by the hour";
    return blocks_fault(season);
}

const char *tc_tariff_fault(const struct tc_tariff *tariff)
{
    if (!is_amount(tariff->every_unit))
        return "the rate is negative or no number";
    if (!(tariff->tax >= 0 && tariff->tax <= TC_TARIFF_MOST_TAX))
        return "the tax on energy is not between 0 and 1000 %";
    if (tariff->season_count < 1 || tariff->season_count > TC_TARIFF_SEASONS)
        return "more seasons than a tariff can have, or none";
    for (int m = 0; m < TC_MONTHS; m++) {
        if (tariff->season_of_month[m] < 0 || tariff->season_of_month[m] >= tariff->season_count)
            return "a month belongs to no season";
        if (!is_share(tariff->workday_share[m]))
            return "the share of workdays is not between 0 and 100 %";
    }
    for (int s = 0; s < tariff->season_count; s++) {
        const char *fault = season_fault(&tariff->season[s]);
        if (fault)
            return fault;
    }
    return NULL;
}

/*
 * A season's blocks as straight pieces. The units a minimum charge covers make
 * a first piece of their own; `paid` is what the units up to the start of the
 * next piece cost where each pays its own block's rate.
 */
static void make_curve(struct tc_tariff_curve *curve, const struct tc_tariff *tariff,
                       const struct tc_tariff_season *season)
{
    static const struct tc_tariff_block all_alike = {.limit = HUGE_VAL};
    const struct tc_tariff_block *block = season->block_count > 0 ? season->block : &all_alike;
    int blocks = season->block_count > 0 ? season->block_count : 1;
    double with_tax = 1 + tariff->tax;
    double covers = season->minimum_covers;
    double always = covers > 0 ? season->minimum * with_tax : 0;

    curve->least = covers > 0 ? 0 : season->minimum * with_tax;
    curve->count = 0;
    double start = 0, paid = always;
    if (covers > 0) {
        curve->piece[curve->count++] = (struct tc_tariff_piece){covers, always, 0};
        start = covers;
    }
    for (int i = 0; i < blocks; i++) {
        if (block[i].limit <= covers)
            continue; /* all of it is covered */
        double slope = (tariff->every_unit + block[i].rate) * with_tax;
        double fixed = block[i].everything ? always - slope * covers : paid - slope * start;
        curve->piece[curve->count++] = (struct tc_tariff_piece){block[i].limit, fixed, slope};
        paid += i + 1 < blocks ? slope * (block[i].limit - start) : 0;
        start = block[i].limit;
    }
}

/* Tax included; hours is what the units cost by their hours, with tax. */
static inline double charge(const struct tc_tariff_curve *curve, double units, double hours)
{
    const struct tc_tariff_piece *piece = curve->piece;
    while (tc_tariff_beyond(units, piece->limit))
        piece++;
    double sum = piece->fixed + piece->slope * units + hours;
    return sum < curve->least ? curve->least : sum; /* this way round NaN stays NaN */
}

static void make_hour_rates(double rate[TC_HOURS], const struct tc_tariff *tariff, int month)
{
    const struct tc_tariff_season *season = &tariff->season[tariff->season_of_month[month]];
    double with_tax = 1 + tariff->tax;
    double workday = tariff->workday_share[month] * with_tax;
    double weekend = with_tax - workday;
    for (int h = 0; h < TC_HOURS; h++)
        rate[h] = season->by_hour
                      ? workday * season->hour[TC_WORKDAY][h] + weekend * season->hour[TC_WEEKEND][h]
                      : 0;
}

/* What the units cost by their hours. Four running sums, as in tc_load_month. */
static inline double hours_cost(const double rate[TC_HOURS], const double use[TC_HOURS])
{
    double sum[4] = {0};
    for (int h = 0; h < TC_HOURS; h += 4)
        for (int k = 0; k < 4; k++)
            sum[k] += rate[h + k] * use[h + k];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

void tc_tariff_margin(struct tc_tariff_margin *margin, const struct tc_tariff *tariff,
                      const struct tc_load *own)
{
    for (int s = 0; s < tariff->season_count; s++)
        make_curve(&margin->curve[s], tariff, &tariff->season[s]);
    for (int m = 0; m < TC_MONTHS; m++) {
        int s = tariff->season_of_month[m];
        margin->season_of_month[m] = s;
        margin->by_hour[m] = tariff->season[s].by_hour;
        make_hour_rates(margin->hour_rate[m], tariff, m);
        margin->mean_rate[m] = 0;
        for (int h = 0; h < TC_HOURS; h++)
            margin->mean_rate[m] += margin->hour_rate[m][h] / TC_HOURS;
        margin->own_units[m] = own ? tc_load_month(own, m) : 0;
        margin->own_hours[m] = own && margin->by_hour[m] ? hours_cost(margin->hour_rate[m], own->use[m]) : 0;
        margin->own_bill[m] = charge(&margin->curve[s], margin->own_units[m], margin->own_hours[m]);
    }
}

static inline double month_added(const struct tc_tariff_margin *margin, int month, double units, double hours)
{
    const struct tc_tariff_curve *curve = &margin->curve[margin->season_of_month[month]];
    return charge(curve, margin->own_units[month] + units, margin->own_hours[month] + hours) -
           margin->own_bill[month];
}

static inline double load_hours_cost(const struct tc_tariff_margin *margin, const struct tc_load *load,
                                     int month)
{
    return margin->by_hour[month] ? hours_cost(margin->hour_rate[month], load->use[month]) : 0;
}

bool tc_tariff_by_hour(const struct tc_tariff_margin *margin)
{
    for (int m = 0; m < TC_MONTHS; m++)
        if (margin->by_hour[m])
            return true;
    return false;
}

double tc_tariff_added(const struct tc_tariff_margin *margin, const struct tc_load *load)
{
    double sum = 0;
    for (int m = 0; m < TC_MONTHS; m++)
        sum += month_added(margin, m, tc_load_month(load, m), load_hours_cost(margin, load, m));
    return sum;
}

double tc_tariff_added_even(const struct tc_tariff_margin *margin, const double units[TC_MONTHS])
{
    double sum = 0;
    for (int m = 0; m < TC_MONTHS; m++) {
        sum += month_added(margin, m, units[m], margin->mean_rate[m] * units[m]);
    }
    return sum;
}

static void set_month(struct tc_tariff_cost *cost, int month, double exact, tc_money amount,
                      enum tc_status *status)
{
    cost->exact_month[month] = exact;
    cost->exact_year += exact;
    cost->month[month] = amount;
    cost->year = tc_money_add(cost->year, amount, status);
}

/* Widens a range by the prices of a month. */
static void month_slopes(const struct tc_tariff_margin *margin, int month, double units, double *low,
                         double *high)
{
    const struct tc_tariff_curve *curve = &margin->curve[margin->season_of_month[month]];
    double hour_low = margin->by_hour[month] ? INFINITY : 0, hour_high = 0;
    for (int hour = 0; margin->by_hour[month] && hour < TC_HOURS; hour++) {
        hour_low = fmin(hour_low, margin->hour_rate[month][hour]);
        hour_high = fmax(hour_high, margin->hour_rate[month][hour]);
    }
    double own = margin->own_units[month];
    for (int i = 0; i < curve->count; i++) {
        const struct tc_tariff_piece *piece = &curve->piece[i];
        double start = i > 0 ? piece[-1].limit : 0;
        if (piece->limit < own || start > own + units)
            continue;
        double jump = i > 0 ? piece->fixed - piece[-1].fixed + (piece->slope - piece[-1].slope) * start : 0;
        bool jumps = start >= own && fabs(jump) > 1e-6 * (1 + fabs(piece->fixed));
        *low = fmin(*low, jumps ? -INFINITY : curve->least > 0 ? 0 : piece->slope + hour_low);
        *high = fmax(*high, jumps ? INFINITY : piece->slope + hour_high);
    }
}

void tc_tariff_slopes(const struct tc_tariff_margin *margin, double units, double *low, double *high)
{
    *low = INFINITY;
    *high = -INFINITY;
    for (int month = 0; month < TC_MONTHS; month++)
        month_slopes(margin, month, units, low, high);
}

/*
 * Each consumer's part of what a month adds, before rounding. Where a minimum
 * charge swallows a part of it, all parts shrink alike.
 */
static double share_month(const struct tc_tariff_margin *margin, const struct tc_load consumers[], int count,
                          int month, double exact[])
{
    double units[TC_TARIFF_CONSUMERS], hours[TC_TARIFF_CONSUMERS];
    double all_units = 0, all_hours = 0;
    for (int i = 0; i < count; i++) {
        units[i] = tc_load_month(&consumers[i], month);
        hours[i] = load_hours_cost(margin, &consumers[i], month);
        all_units += units[i];
        all_hours += hours[i];
    }
    double added = month_added(margin, month, all_units, all_hours);
    bool least = margin->curve[margin->season_of_month[month]].least > 0;
    double by_hours = least && all_hours > 0 && all_hours > added ? added / all_hours : 1;
    double by_units = added - by_hours * all_hours;
    for (int i = 0; i < count; i++)
        exact[i] = by_hours * hours[i] + (all_units > 0 ? by_units * units[i] / all_units : 0);
    return added;
}

enum tc_status tc_tariff_shared(const struct tc_tariff_margin *margin, const struct tc_load consumers[],
                                int count, struct tc_tariff_cost *total, struct tc_tariff_cost parts[])
{
    if (count < 1 || count > TC_TARIFF_CONSUMERS)
        return TC_RANGE;
    enum tc_status status = TC_OK;
    *total = (struct tc_tariff_cost){0};
    memset(parts, 0, (size_t)count * sizeof parts[0]);
    for (int m = 0; m < TC_MONTHS; m++) {
        double exact[TC_TARIFF_CONSUMERS];
        tc_money amounts[TC_TARIFF_CONSUMERS];
        double added = share_month(margin, consumers, count, m, exact);
        tc_money rounded = tc_money_round(added, &status);
        set_month(total, m, added, rounded, &status);
        if (status == TC_OK)
            status = tc_money_split(rounded, exact, count, amounts);
        if (status != TC_OK)
            return status;
        for (int i = 0; i < count; i++)
            set_month(&parts[i], m, exact[i], amounts[i], &status);
    }
    return status;
}
