/* SPDX-License-Identifier: MIT */
/* Studies of doubt: closed forms, honest errors, the same answer on any number of threads, bars and turns. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <limits.h>
#include <math.h>
#include <string.h>

#include "core/cost/uncertainty.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/step.h"

/* Runs a study that has to succeed; free the result. */
static struct tc_uncertainty run(int candidates, int figures, const struct tc_spread *spreads,
                                 tc_uncertainty_costs *costs, int draws, uint64_t seed, int threads)
{
    const struct tc_uncertainty_study study = {.candidates = candidates,
                                               .figures = figures,
                                               .spreads = spreads,
                                               .costs = costs,
                                               .draws = draws,
                                               .seed = seed,
                                               .threads = threads};
    struct tc_uncertainty result;
    assert_int_equal(tc_uncertainty_run(&study, &result), TC_OK);
    return result;
}

/* Within five standard errors, and the error itself small enough to mean something. */
#define assert_found(found, error, wanted, most)                                                             \
    do {                                                                                                     \
        assert_near(found, wanted, 5 * (error));                                                             \
        assert_true((error) < (most));                                                                       \
    } while (0)

static void against_a_fixed_price(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0];
    costs[1] = 0.3;
}

static void uniform_against_fixed(void **state)
{
    (void)state;
    /* x uniform on (0, 1) against 0.3: chance 0.3, regrets E(x - 0.3)+ = 0.245 and E(0.3 - x)+ = 0.045. */
    const struct tc_spread spreads[] = {tc_spread_uniform(0, 1)};
    struct tc_uncertainty r = run(2, 1, spreads, against_a_fixed_price, 100000, 1, 2);
    assert_int_equal(r.draws, 98 * TC_UNCERTAINTY_CHUNK);
    assert_found(r.candidate[0].cheapest, r.candidate[0].cheapest_error, 0.3, 1e-3);
    assert_found(r.candidate[1].cheapest, r.candidate[1].cheapest_error, 0.7, 1e-3);
    assert_found(r.candidate[0].regret, r.candidate[0].regret_error, 0.245, 1e-3);
    assert_found(r.candidate[1].regret, r.candidate[1].regret_error, 0.045, 1e-3);
    assert_found(r.candidate[0].mean, r.candidate[0].mean_error, 0.5, 1e-3);
    assert_near(r.candidate[0].deviation, sqrt(1.0 / 12), 1e-3);
    assert_near(r.candidate[0].p10, 0.1, 2e-3);
    assert_near(r.candidate[0].p50, 0.5, 2e-3);
    assert_near(r.candidate[0].p90, 0.9, 2e-3);
    assert_near(r.candidate[1].p10, 0.3, 0);
    assert_near(r.candidate[1].mean_error, 0, 1e-15);
    assert_near(r.candidate[0].middle, 0.5, 0);
    assert_int_equal(r.best, 1);
    assert_int_equal(r.second, 0);
    tc_uncertainty_free(&r);
    assert_null(r.candidate);
}

static void sums_against_a_fixed_price(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0] + figures[1];
    costs[1] = 1.2;
}

static void linear_costs_have_a_closed_form(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_uniform(0, 1), tc_spread_uniform(0, 1)};
    /* Two uniform numbers, triangular: P(x + y < 1.2) = 1 - 0.8^2 / 2 = 0.68. */
    struct tc_uncertainty r = run(2, 2, spreads, sums_against_a_fixed_price, 100000, 3, 2);
    assert_found(r.candidate[0].cheapest, r.candidate[0].cheapest_error, 0.68, 2e-3);
    tc_uncertainty_free(&r);
}

static void four_uniforms(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0] + figures[1] + figures[2] + figures[3];
    costs[1] = 2.5;
}

static void three_alike(void *context, const double figures[], double costs[])
{
    (void)context;
    for (int i = 0; i < 3; i++)
        costs[i] = figures[i];
}

static void more_closed_forms(void **state)
{
    (void)state;
    struct tc_spread spreads[4];
    for (int j = 0; j < 4; j++)
        spreads[j] = tc_spread_uniform(0, 1);
    /* Irwin-Hall, n = 4: F(2.5) = 1 - F(1.5) = 1 - (1.5^4 - 4 * 0.5^4) / 24 = 0.79947917 (by hand). */
    struct tc_uncertainty r = run(2, 4, spreads, four_uniforms, 100000, 3, 2);
    assert_found(r.candidate[0].cheapest, r.candidate[0].cheapest_error, 0.79947917, 2e-3);
    tc_uncertainty_free(&r);
    /* The least of three uniform numbers is 1/4 in the mean: each wins a third and regrets 1/4. */
    r = run(3, 3, spreads, three_alike, 100000, 4, 2);
    double chances = 0;
    for (int i = 0; i < 3; i++) {
        assert_found(r.candidate[i].cheapest, r.candidate[i].cheapest_error, 1.0 / 3, 2e-3);
        assert_found(r.candidate[i].regret, r.candidate[i].regret_error, 0.25, 2e-3);
        chances += r.candidate[i].cheapest;
    }
    assert_near(chances, 1, 1e-12);
    tc_uncertainty_free(&r);
}

/* Curved costs with jumps, as bills have: price, rate, temperature, number of heaters. */
static void curved(void *context, const double figures[], double costs[])
{
    (void)context;
    double heat = exp(0.3 * (26 - figures[2])) * figures[1];
    costs[0] = 90 * figures[0] + 300 * heat;
    costs[1] = 120 * figures[0] + 240 * heat + (figures[2] < 20 ? 8 : 0);
    costs[2] = 100 + 260 * heat * figures[3];
}

static const struct tc_spread curved_spreads[] = {{TC_SPREAD_UNIFORM, 0.8, 1.0, 1.2},
                                                  {TC_SPREAD_TRIANGULAR, 0.05, 0.08, 0.15},
                                                  {TC_SPREAD_TRIANGULAR, 19, 21, 22},
                                                  {TC_SPREAD_UNIFORM, 0.9, 1.05, 1.2}};

static void errors_are_honest(void **state)
{
    (void)state;
    /*
     * Over many seeds (found - true) / error follows Student's distribution
     * with one degree of freedom less than chunks: 5 % beyond 2.131 for 15
     * (NIST/SEMATECH e-Handbook 1.3.6.7.2). The truth is from a long study.
     */
    enum { SEEDS = 200, CHUNKS = 16 };
    struct tc_uncertainty truth = run(3, 4, curved_spreads, curved, 1000 * TC_UNCERTAINTY_CHUNK, 1234567, 2);
    double outside[3] = {0}, squares[3] = {0}, sums[3] = {0};
    for (int s = 0; s < SEEDS; s += test_step()) {
        struct tc_uncertainty r =
            run(3, 4, curved_spreads, curved, CHUNKS * TC_UNCERTAINTY_CHUNK, (uint64_t)s, 2);
        const struct tc_uncertainty_candidate *found = &r.candidate[s % 3], *wanted = &truth.candidate[s % 3];
        const double z[3] = {(found->mean - wanted->mean) / found->mean_error,
                             (found->cheapest - wanted->cheapest) / found->cheapest_error,
                             (found->regret - wanted->regret) / found->regret_error};
        for (int k = 0; k < 3; k++) {
            outside[k] += fabs(z[k]) > 2.131;
            squares[k] += z[k] * z[k] / SEEDS;
            sums[k] += z[k] / SEEDS;
        }
        tc_uncertainty_free(&r);
    }
    tc_uncertainty_free(&truth);
    for (int k = 0; k < 3 && test_step() == 1; k++) { /* fewer seeds prove nothing of the kind */
        /* 5 % of 200 is 10 with deviation 3.1; the variance of Student's t15 is 15/13. */
        assert_near(outside[k], 10, 4 * 3.1);
        assert_near(squares[k], 15.0 / 13, 0.45);
        assert_near(sums[k], 0, 4 * sqrt(15.0 / 13 / SEEDS));
    }
}

static void assert_same(const struct tc_uncertainty *a, const struct tc_uncertainty *b)
{
    assert_int_equal(a->best, b->best);
    assert_int_equal(a->second, b->second);
    assert_int_equal(a->draws, b->draws);
    assert_memory_equal(a->candidate, b->candidate, sizeof a->candidate[0] * (size_t)a->candidates);
    for (int j = 0; j < a->figures; j++) {
        const struct tc_uncertainty_bar *x = &a->bar[j], *y = &b->bar[j];
        const double in_x[] = {x->at_low, x->at_high, x->turn_below, x->turn_above};
        const double in_y[] = {y->at_low, y->at_high, y->turn_below, y->turn_above};
        assert_memory_equal(in_x, in_y, sizeof in_x);
        assert_int_equal(x->figure, y->figure);
        assert_int_equal(x->winner_below, y->winner_below);
        assert_int_equal(x->winner_above, y->winner_above);
    }
}

static void threads_do_not_matter(void **state)
{
    (void)state;
    struct tc_uncertainty one = run(3, 4, curved_spreads, curved, 50000, 7, 1);
    static const int threads[] = {2, 3, 16};
    for (size_t t = 0; t < sizeof threads / sizeof threads[0]; t++) {
        struct tc_uncertainty more = run(3, 4, curved_spreads, curved, 50000, 7, threads[t]);
        assert_same(&one, &more);
        tc_uncertainty_free(&more);
    }
    struct tc_uncertainty other = run(3, 4, curved_spreads, curved, 50000, 8, 1);
    assert_true(other.candidate[0].mean != one.candidate[0].mean);
    tc_uncertainty_free(&other);
    tc_uncertainty_free(&one);
}

static void a_known_study(void **state)
{
    (void)state;
    /* Our own figures, so that a change of the draws, or a compiler that computes otherwise, is seen. */
    struct tc_uncertainty r = run(3, 4, curved_spreads, curved, 20000, 42, 2);
    assert_near(r.candidate[0].mean, 231.122983627544, 1e-9);
    assert_near(r.candidate[0].cheapest * r.draws, 5824, 1e-6);
    tc_uncertainty_free(&r);
}

static void curved_after_a_fixed_one(void *context, const double figures[], double costs[])
{
    curved(context, figures + 1, costs);
}

static void fixed_figures_take_no_draws(void **state)
{
    (void)state;
    struct tc_spread spreads[5] = {tc_spread_fixed(3)};
    memcpy(spreads + 1, curved_spreads, sizeof curved_spreads);
    struct tc_uncertainty plain = run(3, 4, curved_spreads, curved, 20000, 7, 1);
    struct tc_uncertainty more = run(3, 5, spreads, curved_after_a_fixed_one, 20000, 7, 1);
    assert_memory_equal(plain.candidate, more.candidate, sizeof plain.candidate[0] * 3);
    /* The fixed figure has the shortest bar, and no turn. */
    assert_int_equal(more.bar[4].figure, 0);
    assert_near(more.bar[4].at_low, more.bar[4].at_high, 0);
    assert_true(isnan(more.bar[4].turn_below) && isnan(more.bar[4].turn_above));
    tc_uncertainty_free(&plain);
    tc_uncertainty_free(&more);
}

/* ---- one at a time ---- */

static void two_lines(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = 10 + figures[0];
    costs[1] = 12 + figures[1];
    costs[2] = 14.5 - figures[2];
}

static void bars_of_straight_lines(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_triangular(0, 1, 4), tc_spread_uniform(-1, 3),
                                        tc_spread_uniform(0, 5)};
    /* In the middle 11, 13, 12. */
    struct tc_uncertainty r = run(3, 3, spreads, two_lines, 1, 1, 2);
    assert_int_equal(r.draws, TC_UNCERTAINTY_FEWEST_CHUNKS * TC_UNCERTAINTY_CHUNK);
    assert_int_equal(r.best, 0);
    assert_int_equal(r.second, 2);
    /* The longest first: the third figure moves the difference from 3.5 to -1.5. */
    assert_int_equal(r.bar[0].figure, 2);
    assert_near(r.bar[0].at_low, 3.5, 1e-12);
    assert_near(r.bar[0].at_high, -1.5, 1e-12);
    assert_near(r.bar[0].turn_above, 3.5, 1e-12);
    assert_int_equal(r.bar[0].winner_above, 2);
    assert_true(isnan(r.bar[0].turn_below));
    assert_int_equal(r.bar[0].winner_below, -1);
    assert_int_equal(r.bar[1].figure, 0);
    assert_near(r.bar[1].at_low, 2, 1e-12);
    assert_near(r.bar[1].at_high, -2, 1e-12);
    assert_near(r.bar[1].turn_above, 2, 1e-12);
    assert_int_equal(r.bar[1].winner_above, 2);
    /* The second figure is not in the difference of the two best; at its low end 11 and 11 tie. */
    assert_int_equal(r.bar[2].figure, 1);
    assert_near(r.bar[2].at_low, 1, 1e-12);
    assert_near(r.bar[2].at_high, 1, 1e-12);
    assert_true(isnan(r.bar[2].turn_below) && isnan(r.bar[2].turn_above));
    tc_uncertainty_free(&r);
}

static void steps_and_bumps(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = 10;
    costs[1] = figures[0] >= 3.7 ? 9 : 11;                          /* a jump */
    costs[2] = 13 - (figures[0] > 1.4 && figures[0] < 2.2 ? 4 : 0); /* a passing lead */
}

static void turns_at_jumps_and_bumps(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_triangular(0, 2.5, 5)};
    struct tc_uncertainty r = run(3, 1, spreads, steps_and_bumps, 1, 1, 1);
    assert_near(r.bar[0].turn_above, 3.7, 1e-12);
    assert_true(r.bar[0].turn_above >= 3.7);
    assert_int_equal(r.bar[0].winner_above, 1);
    assert_near(r.bar[0].turn_below, 2.2, 1e-12);
    assert_int_equal(r.bar[0].winner_below, 2);
    tc_uncertainty_free(&r);
}

/* ---- edges ---- */

static void all_the_same(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = costs[1] = figures[0];
}

static void one_alone(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0];
}

static void ties_are_shared(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_uniform(1, 2)};
    struct tc_uncertainty r = run(2, 1, spreads, all_the_same, 1, 1, 1);
    assert_near(r.candidate[0].cheapest, 0.5, 0);
    assert_near(r.candidate[1].cheapest, 0.5, 0);
    assert_near(r.candidate[0].regret, 0, 0);
    assert_int_equal(r.best, 0);
    assert_int_equal(r.second, 1);
    tc_uncertainty_free(&r);
    r = run(1, 1, spreads, one_alone, 1, 1, 1);
    assert_near(r.candidate[0].cheapest, 1, 0);
    assert_int_equal(r.second, -1);
    assert_near(r.bar[0].at_low, 0, 0);
    tc_uncertainty_free(&r);
}

static void constants(void *context, const double figures[], double costs[])
{
    (void)context;
    (void)figures;
    costs[0] = 2;
    costs[1] = 1;
}

static void nothing_is_uncertain(void **state)
{
    (void)state;
    struct tc_uncertainty r = run(2, 0, NULL, constants, 1, 1, 2);
    assert_near(r.candidate[1].cheapest, 1, 0);
    assert_near(r.candidate[0].regret, 1, 0);
    assert_near(r.candidate[0].mean_error, 0, 0);
    assert_near(r.candidate[0].p10, 2, 0);
    tc_uncertainty_free(&r);
}

static void broken_at_the_edge(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0] > 0.99 ? (double)NAN : 1;
    costs[1] = figures[0] > 5 ? HUGE_VAL : 2;
}

static struct tc_uncertainty_study edge_study(const struct tc_spread *spreads)
{
    return (struct tc_uncertainty_study){.candidates = 2,
                                         .figures = 1,
                                         .spreads = spreads,
                                         .costs = broken_at_the_edge,
                                         .draws = 20000,
                                         .threads = 2};
}

static void faults_are_refused(void **state)
{
    (void)state;
    struct tc_uncertainty r;
    /* In some draws only, and already in the middle. */
    static const struct tc_spread spreads[] = {
        {TC_SPREAD_UNIFORM, 0, 0.5, 1}, {TC_SPREAD_UNIFORM, 9, 10, 11}, {TC_SPREAD_UNIFORM, 1, 0.5, 0}};
    for (size_t i = 0; i < sizeof spreads / sizeof spreads[0]; i++) {
        struct tc_uncertainty_study study = edge_study(&spreads[i]);
        assert_int_equal(tc_uncertainty_run(&study, &r), TC_RANGE);
        assert_null(r.candidate);
        assert_null(r.bar);
        tc_uncertainty_free(&r);
    }
    static const int counts[][2] = {{0, 1},
                                    {-1, 1},
                                    {TC_UNCERTAINTY_MOST_CANDIDATES + 1, 1},
                                    {2, -1},
                                    {2, TC_UNCERTAINTY_MOST_FIGURES + 1}};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        struct tc_uncertainty_study study = edge_study(spreads);
        study.candidates = counts[i][0];
        study.figures = counts[i][1];
        assert_int_equal(tc_uncertainty_run(&study, &r), TC_RANGE);
    }
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    long failures = 0;
    for (int lasting = 0; lasting < 2; lasting++) {
        for (long n = 0;; n++) {
            const struct tc_uncertainty_study study = {.candidates = 3,
                                                       .figures = 4,
                                                       .spreads = curved_spreads,
                                                       .costs = curved,
                                                       .draws = 1,
                                                       .threads = 2};
            struct tc_uncertainty r;
            failing_malloc_start(n, lasting);
            enum tc_status status = tc_uncertainty_run(&study, &r);
            bool failed = failing_malloc_stop();
            assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
            assert_true(failed == !r.candidate);
            tc_uncertainty_free(&r);
            failures += failed;
            if (!failed)
                break;
        }
    }
    assert_true(failures >= 8);
}

struct watch {
    int asked, stop_at;
    double last;
    bool fell;
};

static bool watching(void *context, double done)
{
    struct watch *watch = context;
    watch->fell = watch->fell || done < watch->last;
    watch->last = done;
    return ++watch->asked != watch->stop_at;
}

static void progress_and_stop(void **state)
{
    (void)state;
    for (int threads = 1; threads <= 3; threads++) {
        struct watch watch = {.stop_at = -1};
        struct tc_uncertainty_study study = {.candidates = 3,
                                             .figures = 4,
                                             .spreads = curved_spreads,
                                             .costs = curved,
                                             .draws = 50000,
                                             .threads = threads,
                                             .go_on = watching,
                                             .go_on_context = &watch};
        struct tc_uncertainty r;
        assert_int_equal(tc_uncertainty_run(&study, &r), TC_OK);
        tc_uncertainty_free(&r);
        assert_false(watch.fell);
        assert_near(watch.last, 1, 0);
        /* Alone it asks within every chunk; with helpers it may get few of them. */
        assert_true(watch.asked > (threads == 1 ? 16 * 49 : 1));
        int asked = watch.asked;
        /* Stopped at the first question, at the second, and at the very last. */
        const int stops[] = {1, 2, threads == 1 ? asked : 2};
        for (int i = 0; i < 3; i++) {
            watch = (struct watch){.stop_at = stops[i]};
            assert_int_equal(tc_uncertainty_run(&study, &r), TC_STOPPED);
            assert_null(r.candidate);
            assert_int_equal(watch.asked, stops[i]);
        }
    }
}

/* Stopped after enough draws: what is said is what these draws say, to the last bit. */
static void a_stop_tells_what_is_known(void **state)
{
    (void)state;
    struct watch watch = {.stop_at = 30 * 16}; /* alone it asks 16 times a chunk */
    struct tc_uncertainty_study study = {.candidates = 3,
                                         .figures = 4,
                                         .spreads = curved_spreads,
                                         .costs = curved,
                                         .draws = 200000,
                                         .threads = 1,
                                         .partial = true,
                                         .go_on = watching,
                                         .go_on_context = &watch};
    struct tc_uncertainty cut, whole;
    assert_int_equal(tc_uncertainty_run(&study, &cut), TC_OK);
    assert_int_equal(watch.asked, watch.stop_at); /* and is not asked again */
    assert_in_range(cut.draws, 20 * TC_UNCERTAINTY_CHUNK, 30 * TC_UNCERTAINTY_CHUNK);
    study.draws = cut.draws;
    study.go_on = NULL;
    assert_int_equal(tc_uncertainty_run(&study, &whole), TC_OK);
    assert_int_equal(whole.draws, cut.draws);
    assert_memory_equal(cut.candidate, whole.candidate, 3 * sizeof cut.candidate[0]);
    for (int f = 0; f < 4; f++)
        assert_true(cut.bar[f].worth == whole.bar[f].worth);
    tc_uncertainty_free(&cut);
    tc_uncertainty_free(&whole);

    watch = (struct watch){.stop_at = 8 * 16}; /* too few for an error to be known */
    study.draws = 200000;
    study.go_on = watching;
    assert_int_equal(tc_uncertainty_run(&study, &cut), TC_STOPPED);
}

enum { MANY = 128 }; /* of whose costs the fewest chunks alone are kept */

static void many_at_fixed_distances(void *context, const double figures[], double costs[])
{
    (void)context;
    for (int i = 0; i < MANY; i++)
        costs[i] = figures[0] + i;
}

static void memory_does_not_grow_with_the_draws(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_uniform(0, 1)};
    int draws = 20 * TC_UNCERTAINTY_CHUNK;
    failing_malloc_start(LONG_MAX, false);
    struct tc_uncertainty r = run(MANY, 1, spreads, many_at_fixed_distances, draws, 1, 2);
    failing_malloc_stop();
    size_t kept = (size_t)TC_UNCERTAINTY_FEWEST_CHUNKS * TC_UNCERTAINTY_CHUNK;
    assert_int_equal(failing_malloc_largest(), MANY * kept * sizeof(double));
    assert_int_equal(r.draws, draws);
    /* Of the kept draws and of all, both evenly spread: within one cell of the lattice. */
    assert_near(r.candidate[7].p10, 7.1, 1e-3);
    assert_near(r.candidate[7].p90, 7.9, 1e-3);
    assert_near(r.candidate[7].mean, 7.5, 1e-3);
    tc_uncertainty_free(&r);
}

static double worth_of(const struct tc_uncertainty *r, int figure)
{
    for (int i = 0; i < r->figures; i++)
        if (r->bar[i].figure == figure)
            return r->bar[i].worth;
    fail();
    return 0;
}

static void sum_against_a_fixed_price(void *context, const double figures[], double costs[])
{
    (void)context;
    costs[0] = figures[0] + figures[1];
    costs[1] = 0.5;
}

/*
 * A = x + y against 0.5, x uniform on (0, 1), y on (-1, 1), each with mean 0.5 and 0. Who knows x pays E
 * min(x, 0.5) = 0.375 in place of 0.5; who knows y E min(0.5 + y, 0.5) = 0.25; both E min(x + y, 0.5): of s =
 * x - 0.5 + y, which is symmetric, E max(0, -s) = E|s| / 2, and E|s| = 1/2 E(s^2 + 1) ... = 13/24 by
 * integrating over y first.
 */
static void knowing_one_figure_by_hand(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_uniform(0, 1), tc_spread_uniform(-1, 1),
                                        tc_spread_fixed(3)};
    struct tc_uncertainty r = run(2, 3, spreads, sum_against_a_fixed_price, 100000, 5, 2);
    assert_near(worth_of(&r, 0), 0.125, 2e-3);
    assert_near(worth_of(&r, 1), 0.25, 2e-3);
    assert_near(worth_of(&r, 2), 0, 0);
    assert_near(r.worth, 13.0 / 48, 2e-3);
    tc_uncertainty_free(&r);
    /* One candidate alone leaves nothing to decide. */
    r = run(1, 2, spreads, sum_against_a_fixed_price, 20000, 5, 1);
    assert_near(worth_of(&r, 0), 0, 0);
    tc_uncertainty_free(&r);
}

/* Three that bend and depend on one another. */
static void three_bent_costs(void *context, const double figures[], double costs[])
{
    (void)context;
    double x = figures[0], y = figures[1], z = figures[2];
    costs[0] = 10 + x * y + 2 * z;
    costs[1] = 12 + x * x / 2 - z;
    costs[2] = 14.5 + y - 0.4 * x + 0.1 * y * z;
}

/* The inner mean over all other figures for each value of one, the outer over that one: nested sampling. */
static double nested_worth(const struct tc_spread spreads[3], int figure)
{
    enum { OUTER = 400, INNER = 60 };
    double mean[3] = {0, 0, 0}, least_of_means = 0;
    int a = (figure + 1) % 3, b = (figure + 2) % 3;
    for (int i = 0; i < OUTER; i++) {
        double inner[3] = {0, 0, 0}, values[3], costs[3];
        values[figure] = tc_spread_quantile(&spreads[figure], (i + 0.5) / OUTER);
        for (int j = 0; j < INNER * INNER; j++) {
            int row = j / INNER;
            values[a] = tc_spread_quantile(&spreads[a], (row + 0.5) / INNER);
            values[b] = tc_spread_quantile(&spreads[b], (j % INNER + 0.5) / INNER);
            three_bent_costs(NULL, values, costs);
            for (int c = 0; c < 3; c++)
                inner[c] += costs[c] / (INNER * INNER);
        }
        for (int c = 0; c < 3; c++)
            mean[c] += inner[c] / OUTER;
        least_of_means += fmin(inner[0], fmin(inner[1], inner[2])) / OUTER;
    }
    return fmin(mean[0], fmin(mean[1], mean[2])) - least_of_means;
}

static void knowing_one_figure_by_nested_sampling(void **state)
{
    (void)state;
    const struct tc_spread spreads[] = {tc_spread_triangular(0, 2, 3), tc_spread_uniform(0.5, 2),
                                        tc_spread_triangular(-1, 0, 2)};
    struct tc_uncertainty r = run(3, 3, spreads, three_bent_costs, 100000, 6, 2);
    double most = 0;
    for (int figure = 0; figure < 3; figure++) {
        double nested = nested_worth(spreads, figure);
        assert_near(worth_of(&r, figure), nested, 0.02 * nested + 2e-3);
        most = fmax(most, nested);
    }
    assert_true(most > 0.1);             /* else nothing was compared */
    assert_true(r.worth >= most - 2e-3); /* one figure is never worth more than all */
    tc_uncertainty_free(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(uniform_against_fixed),
        cmocka_unit_test(linear_costs_have_a_closed_form),
        cmocka_unit_test(more_closed_forms),
        cmocka_unit_test(errors_are_honest),
        cmocka_unit_test(threads_do_not_matter),
        cmocka_unit_test(a_known_study),
        cmocka_unit_test(fixed_figures_take_no_draws),
        cmocka_unit_test(bars_of_straight_lines),
        cmocka_unit_test(turns_at_jumps_and_bumps),
        cmocka_unit_test(ties_are_shared),
        cmocka_unit_test(nothing_is_uncertain),
        cmocka_unit_test(faults_are_refused),
        cmocka_unit_test(knowing_one_figure_by_hand),
        cmocka_unit_test(knowing_one_figure_by_nested_sampling),
        cmocka_unit_test(every_allocation_may_fail),
        cmocka_unit_test(progress_and_stop),
        cmocka_unit_test(a_stop_tells_what_is_known),
        cmocka_unit_test(memory_does_not_grow_with_the_draws),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
