/* SPDX-License-Identifier: MIT */
/* Time of a tank's year, beside the same years stepped through minute by minute. */
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "core/physics/heat.h"
#include "support/heat_cases.h"

enum { CASES = 300, ROUNDS = 200, MINUTE_CASES = 20 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Microseconds a year takes, the best of some rounds; adds the energy to *sum so that nothing is optimised
 * away. */
static double time_years(const struct tc_heat_case *cases, int count, double *sum)
{
    double best = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        double begin = now();
        for (int i = 0; i < count; i++) {
            struct tc_heat_year year;
            if (tc_heat_year(&cases[i], &year) == TC_OK)
                *sum += year.heater_total;
        }
        double took = now() - begin;
        best = took < best ? took : best;
    }
    return best / count * 1e6;
}

static double time_minutes(const struct tc_heat_case *cases, int count, double *sum)
{
    double begin = now();
    for (int i = 0; i < count; i++) {
        struct tc_minute_year year;
        tc_minute_year(&cases[i], &year);
        *sum += year.heater_total;
    }
    return (now() - begin) / count * 1e6;
}

/* A plain tank in a home of about that mean temperature (K), so many K warmer in July than in January. */
static struct tc_heat_case at_home(uint64_t *seed, double mean, double season)
{
    struct tc_heat_case c = tc_plain_case();
    for (int i = 0; i < 12; i++)
        c.room_temperature[i] =
            mean + tc_random_between(seed, -0.5, 0.5) + season / 2 * cos(0.5235987755982988 * (i - 6));
    c.room_swing = 1.5;
    return c;
}

int main(void)
{
    static struct tc_heat_case any[CASES], cool[CASES], warm[CASES];
    uint64_t seed = 1;
    for (int i = 0; i < CASES; i++) {
        any[i] = tc_random_case(&seed);
        cool[i] = at_home(&seed, 292.65, 4);
        warm[i] = at_home(&seed, 295.65, 10);
    }
    double sum = 0;
    printf("microseconds for a tank and year, on one core\n");
    printf("%10.2f  a tank heated all year\n", time_years(cool, CASES, &sum));
    printf("%10.2f  a tank that floats above its set point in summer\n", time_years(warm, CASES, &sum));
    printf("%10.2f  any tank in any room\n", time_years(any, CASES, &sum));
    printf("%10.0f  any tank, by the minute\n", time_minutes(any, MINUTE_CASES, &sum));
    return sum > 0 ? 0 : 1;
}
