/* SPDX-License-Identifier: MIT */
#include "core/tariff/load.h"

int tc_load_days(int month)
{
    static const int days[TC_MONTHS] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month < 0 || month >= TC_MONTHS ? 0 : days[month];
}

void tc_load_even(struct tc_load *load, const double units[TC_MONTHS])
{
    for (int m = 0; m < TC_MONTHS; m++)
        for (int h = 0; h < TC_HOURS; h++)
            load->use[m][h] = units[m] / TC_HOURS;
}

/* How much of the hour that starts at `hour` lies within [from, to]. */
static double overlap(double hour, double from, double to)
{
    double start = hour > from ? hour : from;
    double end = hour + 1 < to ? hour + 1 : to;
    return end > start ? end - start : 0;
}

void tc_load_daily(struct tc_load *load, double rate, double from, double hours)
{
    double to = from + hours, day[TC_HOURS];
    for (int h = 0; h < TC_HOURS; h++)
        day[h] = rate * (overlap(h, from, to) + overlap(h + TC_HOURS, from, to));
    for (int m = 0; m < TC_MONTHS; m++) {
        double days = tc_load_days(m);
        for (int h = 0; h < TC_HOURS; h++)
            load->use[m][h] = day[h] * days;
    }
}

void tc_load_add(struct tc_load *load, const struct tc_load *other, double factor)
{
    for (int m = 0; m < TC_MONTHS; m++)
        for (int h = 0; h < TC_HOURS; h++)
            load->use[m][h] += factor * other->use[m][h];
}

double tc_load_month(const struct tc_load *load, int month)
{
    /* Four running sums: the additions need not wait for one another. */
    const double *use = load->use[month];
    double sum[4] = {0};
    for (int h = 0; h < TC_HOURS; h += 4)
        for (int k = 0; k < 4; k++)
            sum[k] += use[h + k];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

double tc_load_year(const struct tc_load *load)
{
    double sum = 0;
    for (int m = 0; m < TC_MONTHS; m++)
        sum += tc_load_month(load, m);
    return sum;
}
