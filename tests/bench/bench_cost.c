/* SPDX-License-Identifier: MIT */
/* Time of a candidate's cost, beside the heat of its year alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <time.h>

#include "core/cost/choose.h"
#include "core/cost/walkaway.h"
#include "support/sample.h"

enum { ROUNDS = 200 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* What is timed adds to a sum, so that nothing is optimised away. */
typedef void work(struct sample *s, double *sum);

static void heat_alone(struct sample *s, double *sum)
{
    struct tc_heat_case heat = tc_equipment_heat(&s->c, &s->equipment);
    struct tc_heat_year year;
    if (tc_heat_year(&heat, &year) == TC_OK)
        *sum += year.heater_total;
}

static void value(struct sample *s, double *sum)
{
    double cost = 0;
    if (tc_cost_value(&s->c, &s->equipment, &s->prices, &cost) == TC_OK)
        *sum += cost;
}

static void whole_cost(struct sample *s, double *sum)
{
    if (tc_cost_make(&s->c, &s->equipment, &s->prices, &s->cost) == TC_OK)
        *sum += (double)s->cost.present_value;
}

static void another_deal(struct sample *s, double *sum)
{
    if (tc_cost_reprice(&s->c, &s->equipment, &s->prices, &s->cost) == TC_OK)
        *sum += (double)s->cost.present_value;
}

static void walk_away(struct sample *s, double *sum)
{
    struct tc_walkaway found;
    if (tc_walkaway_find(&s->c, &s->equipment, &s->prices, &s->cost, s->cost.present_value, &found) == TC_OK)
        *sum += (double)found.price;
}

static void choose_parts(struct sample *s, double *sum)
{
    struct tc_equipment equipment;
    if (tc_equipment_choose(&s->c, &equipment) == TC_OK)
        *sum += equipment.size.water_volume;
}

/* Microseconds a call takes, the best of some rounds. */
static double microseconds(work *call, int calls, struct sample *s, double *sum)
{
    double best = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        double begin = now();
        for (int i = 0; i < calls; i++)
            call(s, sum);
        double took = now() - begin;
        best = took < best ? took : best;
    }
    return best / calls * 1e6;
}

static void run(const char *of, struct sample *s, double *sum)
{
    sample_settle(s);
    sample_cost(s);
    double heat = microseconds(heat_alone, 300, s, sum);
    printf("%s, microseconds a call, on one core; in brackets beside the heat alone\n", of);
    printf("%10.2f          heat of the year alone\n", heat);
    static const struct {
        work *call;
        int calls;
        const char *name;
    } rows[] = {
        {value, 300, "present value alone"},
        {whole_cost, 30, "itemised cost"},
        {another_deal, 100, "itemised cost, another deal"},
        {walk_away, 3, "walk-away price"},
        {choose_parts, 30, "choosing the parts"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double took = microseconds(rows[i].call, rows[i].calls, s, sum);
        printf("%10.2f (%5.1f)  %s\n", took, took / heat, rows[i].name);
    }
}

/* Dear in the evening, and on top of that by blocks: as much as a tariff can ask for. */
static struct tc_tariff by_hour_and_block(void)
{
    struct tc_tariff tariff = tc_tariff_flat(0.02);
    struct tc_tariff_season *season = &tariff.season[0];
    season->by_hour = true;
    for (int hour = 0; hour < TC_HOURS; hour++)
        season->hour[TC_WORKDAY][hour] = season->hour[TC_WEEKEND][hour] =
            hour >= 17 && hour < 21 ? 0.3 : 0.12;
    return tariff;
}

int main(void)
{
    static struct sample s;
    double sum = 0;
    sample_make(&s);
    run("flat tariff", &s, &sum);
    s.tariffs.electricity = by_hour_and_block();
    run("tariff by the hour", &s, &sum);
    return sum > 0 ? 0 : 1;
}
