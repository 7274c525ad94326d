/* SPDX-License-Identifier: MIT */
/*
 * 100 000 draws of 6 candidates with a trivial cost: the study on one, two and
 * three threads against a plain loop on one; the same of six tanks of the
 * demonstration with all that they cost (sheet doubts), and of a tenth and ten
 * times as many; and what the lattice saves: error of the same number of draws
 * against independent ones.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/cost/uncertainty.h"
#include "core/base/random.h"
#include "core/base/summary.h"
#include "sheet/doubts.h"
#include "sheet/study_make.h"
#include "support/made_wall_study.h"

enum { CANDIDATES = 6, FIGURES = 8, DRAWS = 100000, REPEATS = 40, FEW = 20 * TC_UNCERTAINTY_CHUNK };

static double seconds(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Time by the clock, and that of all processors together, which a busy machine does not blur. */
struct timing {
    double clock, processor;
};

static struct timing now(void)
{
    return (struct timing){seconds(CLOCK_MONOTONIC), seconds(CLOCK_PROCESS_CPUTIME_ID)};
}

static void keep_least(struct timing *least, struct timing start)
{
    struct timing end = now();
    least->clock = fmin(least->clock, end.clock - start.clock);
    least->processor = fmin(least->processor, end.processor - start.processor);
}

/* Price of each tank, price of a kWh, years: cost = price + kWh a year * rate * years. */
static void costs_of(void *context, const double uncertain[], double costs[])
{
    static const double kwh[CANDIDATES] = {300, 260, 280, 230, 240, 290};
    (void)context;
    for (int i = 0; i < CANDIDATES; i++)
        costs[i] = uncertain[i] + kwh[i] * uncertain[6] * uncertain[7];
}

static struct tc_spread spreads[FIGURES];

static void set_up(void)
{
    static const double price[CANDIDATES] = {90, 138, 110, 165, 152, 100};
    for (int i = 0; i < CANDIDATES; i++)
        spreads[i] = tc_spread_uniform(price[i] * 0.85, price[i] * 1.15);
    spreads[6] = tc_spread_triangular(0.10, 0.15, 0.25);
    spreads[7] = tc_spread_uniform(4, 8);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The plain loop: independent draws, the same results. */
static double plain(uint64_t seed, int draws, double chances[CANDIDATES], double means[CANDIDATES])
{
    static double all[CANDIDATES][DRAWS];
    struct tc_random random;
    struct tc_summary cost[CANDIDATES];
    double wins[CANDIDATES] = {0}, regret[CANDIDATES] = {0}, percentiles = 0;
    tc_random_seed(&random, seed, 0);
    for (int i = 0; i < CANDIDATES; i++)
        cost[i] = tc_summary_empty();
    for (int k = 0; k < draws; k++) {
        double uncertain[FIGURES], costs[CANDIDATES];
        int best = 0;
        for (int j = 0; j < FIGURES; j++)
            uncertain[j] = tc_spread_quantile(&spreads[j], tc_random_unit(&random));
        costs_of(NULL, uncertain, costs);
        for (int i = 0; i < CANDIDATES; i++) {
            tc_summary_add(&cost[i], costs[i]);
            all[i][k] = costs[i];
            best = costs[i] < costs[best] ? i : best;
        }
        wins[best] += 1;
        for (int i = 0; i < CANDIDATES; i++)
            regret[i] += costs[i] - costs[best];
    }
    for (int i = 0; i < CANDIDATES; i++) {
        qsort(all[i], (size_t)draws, sizeof all[i][0], ascending);
        percentiles += tc_percentile(all[i], (size_t)draws, 0.1) + tc_percentile(all[i], (size_t)draws, 0.9);
        chances[i] = wins[i] / draws;
        means[i] = cost[i].mean;
    }
    return percentiles + regret[0];
}

static struct tc_uncertainty_study study_of(int draws, int threads, uint64_t seed)
{
    return (struct tc_uncertainty_study){.candidates = CANDIDATES,
                                         .figures = FIGURES,
                                         .spreads = spreads,
                                         .costs = costs_of,
                                         .draws = draws,
                                         .seed = seed,
                                         .threads = threads};
}

/* The sheet of doubts of six tanks, on all processors. */
static void time_tanks(double loop)
{
    static struct tc_study study;
    static const char *const tanks[CANDIDATES] = {"20-high",    "20-long",     "29-high",
                                                  "40-breeder", "55-standard", "15-high"};
    struct tc_faults faults = TC_FAULTS_EMPTY;
    void *stock;
    made_read_demo(&stock);
    struct tc_plan plan = *tc_stock_plan(stock, "start");
    plan.candidate_count = 0;
    for (int i = 0; i < CANDIDATES; i++)
        assert_non_null(tc_plan_add(&plan, tanks[i]));
    assert_int_equal(tc_study_make(&study, stock, &plan, made_today, &faults), TC_OK);
    for (int draws = DRAWS / 10; draws <= 10 * DRAWS; draws *= 10) {
        struct timing least = {HUGE_VAL, HUGE_VAL};
        for (int i = 0; i < 3; i++) {
            const struct tc_ask ask = {.draws = draws};
            struct tc_sheet sheet;
            struct timing start = now();
            assert_int_equal(tc_make_doubts(&study, &ask, &sheet), TC_OK);
            keep_least(&least, start);
            tc_sheet_free(&sheet);
        }
        printf("%7d draws, 6 tanks  %7.1f ms %7.1f ms   %.1f times the loop of %d draws by the clock\n",
               draws, least.clock * 1e3, least.processor * 1e3, least.clock / loop, DRAWS);
    }
    printf("goal: 100 000 draws of 6 tanks within 500 ms\n");
    tc_study_free(&study);
    tc_faults_free(&faults);
    made_free_demo(&stock);
}

static int compare_time(void)
{
    enum { TRIES = 7 };
    double chances[CANDIDATES], means[CANDIDATES];
    struct timing loop = {HUGE_VAL, HUGE_VAL};
    for (int i = 0; i < TRIES; i++) {
        struct timing start = now();
        plain(1, DRAWS, chances, means);
        keep_least(&loop, start);
    }
    printf("%-22s %10s %10s\n", "", "clock", "processors");
    printf("%-22s %7.1f ms %7.1f ms\n", "plain loop, 1 thread", loop.clock * 1e3, loop.processor * 1e3);
    for (int threads = 1; threads <= 3; threads++) {
        struct timing least = {HUGE_VAL, HUGE_VAL};
        for (int i = 0; i < TRIES; i++) {
            struct tc_uncertainty_study study = study_of(DRAWS, threads, 1);
            struct tc_uncertainty result;
            struct timing start = now();
            if (tc_uncertainty_run(&study, &result) != TC_OK)
                return 1;
            keep_least(&least, start);
            tc_uncertainty_free(&result);
        }
        printf("study, %d thread%-8s %7.1f ms %7.1f ms   %.2f of the loop by the clock\n", threads,
               threads == 1 ? "" : "s", least.clock * 1e3, least.processor * 1e3, least.clock / loop.clock);
    }
    time_tanks(loop.clock);
    return 0;
}

/* Root mean square error over all candidates, against a long study. */
static int compare_error(void)
{
    struct tc_uncertainty_study study = study_of(4000 * TC_UNCERTAINTY_CHUNK, 2, 99);
    struct tc_uncertainty truth, result;
    double by_plain[2] = {0}, by_study[2] = {0};
    if (tc_uncertainty_run(&study, &truth) != TC_OK)
        return 1;
    for (int r = 0; r < REPEATS; r++) {
        double chances[CANDIDATES], means[CANDIDATES];
        plain((uint64_t)r, FEW, chances, means);
        study = study_of(FEW, 2, (uint64_t)r);
        if (tc_uncertainty_run(&study, &result) != TC_OK)
            return 1;
        for (int i = 0; i < CANDIDATES; i++) {
            by_plain[0] += pow(chances[i] - truth.candidate[i].cheapest, 2);
            by_plain[1] += pow(means[i] - truth.candidate[i].mean, 2);
            by_study[0] += pow(result.candidate[i].cheapest - truth.candidate[i].cheapest, 2);
            by_study[1] += pow(result.candidate[i].mean - truth.candidate[i].mean, 2);
        }
        tc_uncertainty_free(&result);
    }
    tc_uncertainty_free(&truth);
    printf("draws an independent loop needs for the same error: %.1f times as many for the chances, %.0f "
           "for the means\n",
           by_plain[0] / by_study[0], by_plain[1] / by_study[1]);
    return 0;
}

int main(void)
{
    set_up();
    return compare_time() || compare_error();
}
