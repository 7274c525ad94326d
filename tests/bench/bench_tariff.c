/* SPDX-License-Identifier: MIT */
/* What a tank adds to the year's bill, by kind of tariff, against walking all 8760 hours. */
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "core/tariff/tariff.h"

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static volatile double sink;

static struct tc_tariff make_tariff(bool blocks, bool hours)
{
    struct tc_tariff tariff = tc_tariff_flat(9);
    struct tc_tariff_season *season = &tariff.season[0];
    if (blocks) {
        season->block_count = 3;
        season->block[0] = (struct tc_tariff_block){.limit = 300, .rate = 5};
        season->block[1] = (struct tc_tariff_block){.limit = 600, .rate = 8};
        season->block[2] = (struct tc_tariff_block){.limit = HUGE_VAL, .rate = 12};
    }
    season->by_hour = hours;
    for (int h = 0; h < TC_HOURS; h++)
        season->hour[TC_WORKDAY][h] = h >= 7 && h < 19 ? 12 : 4;
    return tariff;
}

/* The plain way: each hour of the year on its own, twice. */
static double walk(const struct tc_tariff *tariff, const struct tc_load *own, const struct tc_load *load)
{
    double added = 0;
    for (int with = 0; with < 2; with++) {
        int weekday = 0;
        for (int m = 0; m < TC_MONTHS; m++) {
            const struct tc_tariff_season *season = &tariff->season[tariff->season_of_month[m]];
            double units = 0, cost = 0;
            for (int d = 0; d < tc_load_days(m); d++, weekday = (weekday + 1) % 7) {
                for (int h = 0; h < TC_HOURS; h++) {
                    double use = (own->use[m][h] + (with ? load->use[m][h] : 0)) / tc_load_days(m);
                    units += use;
                    cost += use * tariff->every_unit;
                    if (season->by_hour)
                        cost += use * season->hour[weekday >= 5 ? TC_WEEKEND : TC_WORKDAY][h];
                }
            }
            double start = 0;
            for (int b = 0; b < season->block_count && units > start; b++) {
                cost += (fmin(units, season->block[b].limit) - start) * season->block[b].rate;
                start = season->block[b].limit;
            }
            added += with ? cost : -cost;
        }
    }
    return added;
}

int main(void)
{
    enum { ASKS = 1000000, PREPARED = ASKS / 10, WALKS = 2000 };
    struct tc_load own, load;
    double units[TC_MONTHS];
    tc_load_daily(&own, 0.45, 0, 24);
    tc_load_daily(&load, 0.06, 8, 10);
    for (int m = 0; m < TC_MONTHS; m++)
        units[m] = tc_load_month(&load, m);
    static const char *names[] = {"flat", "blocks", "hours", "blocks and hours"};
    printf("%-18s %10s %10s %10s %10s  ns\n", "", "prepare", "load", "even load", "8760 h");
    for (int kind = 0; kind < 4; kind++) {
        struct tc_tariff tariff = make_tariff(kind & 1, kind & 2);
        struct tc_tariff_margin margin;
        double sum = 0, start = seconds();
        for (int i = 0; i < PREPARED; i++) {
            tariff.every_unit = 9 + i * 1e-9;
            tc_tariff_margin(&margin, &tariff, &own);
            sum += margin.own_bill[0];
        }
        double prepare = (seconds() - start) / PREPARED;
        start = seconds();
        for (int i = 0; i < ASKS; i++) {
            load.use[i % TC_MONTHS][0] = i * 1e-9;
            sum += tc_tariff_added(&margin, &load);
        }
        double asked = (seconds() - start) / ASKS;
        start = seconds();
        for (int i = 0; i < ASKS; i++) {
            units[i % TC_MONTHS] = 10 + i * 1e-9;
            sum += tc_tariff_added_even(&margin, units);
        }
        double even = (seconds() - start) / ASKS;
        start = seconds();
        for (int i = 0; i < WALKS; i++) {
            load.use[i % TC_MONTHS][0] = i * 1e-9;
            sum += walk(&tariff, &own, &load);
        }
        double walked = (seconds() - start) / WALKS;
        sink = sum;
        printf("%-18s %10.0f %10.0f %10.0f %10.0f\n", names[kind], prepare * 1e9, asked * 1e9, even * 1e9,
               walked * 1e9);
    }
    return 0;
}
