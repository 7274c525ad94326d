/* SPDX-License-Identifier: MIT */
#include "core/cost/uncertainty.h"

#include <math.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdlib.h>

#include "core/base/order.h"
#include "core/base/random.h"
#include "core/base/summary.h"

enum {
    DRAWS_BETWEEN_QUESTIONS = 64, /* how often a chunk asks whether to go on */
    STEPS_OUTWARD = 8,
    HALVINGS = 64 /* more than a double has bits */
};

/* What one chunk found about one candidate. */
struct tally {
    struct tc_summary cost;
    double cheapest; /* draws won, ties shared */
    double regret;   /* sum over the draws */
};

struct run {
    const struct tc_uncertainty_study *study;
    int chunks;
    size_t draws;
    double *costs;         /* [candidate][draw] */
    struct tally *tallies; /* [chunk][candidate] */
    struct tc_uncertainty *result;
    double middle[TC_UNCERTAINTY_MOST_FIGURES];
    atomic_bool broken; /* a cost was not finite */
    atomic_bool no_memory;
};

/*
 * Multipliers of rank-1 lattices of 1021 points in the form of Korobov: figure
 * k goes on by the k-th power of one. Found by trying all: the smallest largest
 * error P2 (Sloan and Joe, "Lattice Methods for Multiple Integration", 1994)
 * over all pairs of figures up to 30 apart. Any single lattice has costs that
 * it suits badly; so each chunk picks one, and deals the powers out anew.
 */
static const int multipliers[8] = {381, 177, 93, 400, 87, 490, 207, 15};

int tc_uncertainty_step(int figure)
{
    int step = 1;
    for (int k = 0; k < figure; k++)
        step = step * multipliers[0] % TC_UNCERTAINTY_CHUNK;
    return step;
}

/* The points of one chunk, one after the other. */
struct lattice {
    int count; /* of the figures that are not fixed */
    double shift[TC_UNCERTAINTY_MOST_FIGURES];
    int place[TC_UNCERTAINTY_MOST_FIGURES]; /* in cells of 1 / TC_UNCERTAINTY_CHUNK */
    int step[TC_UNCERTAINTY_MOST_FIGURES];
};

/* Each chunk owns the same number of steps of the one random sequence: 2 for each figure. */
static void lattice_start(struct lattice *lattice, const struct tc_uncertainty_study *study, int chunk)
{
    struct tc_random random;
    lattice->count = 0;
    for (int j = 0; j < study->figures; j++)
        lattice->count += study->spreads[j].shape != TC_SPREAD_FIXED;
    tc_random_seed(&random, study->seed, 0);
    tc_random_advance(&random, 2 * (uint64_t)chunk * (uint64_t)lattice->count);

    int multiplier = multipliers[tc_random_next(&random) % 8];
    int step = 1;
    for (int k = 0; k < lattice->count; k++) {
        /* Shuffled while it is laid out; the bias of the scaled random number is below 1e-6 here. */
        int other = k > 0 ? (int)((uint64_t)tc_random_next(&random) * (uint64_t)(k + 1) >> 32) : 0;
        if (other < k)
            lattice->step[k] = lattice->step[other];
        lattice->step[other] = step;
        lattice->place[k] = 0;
        step = step * multiplier % TC_UNCERTAINTY_CHUNK;
    }
    for (int k = 0; k < lattice->count; k++)
        lattice->shift[k] = tc_random_unit(&random);
}

static void lattice_next(struct lattice *lattice, const struct tc_uncertainty_study *study, double figures[])
{
    int k = 0;
    for (int j = 0; j < study->figures; j++) {
        if (study->spreads[j].shape == TC_SPREAD_FIXED)
            continue;
        double u = lattice->place[k] * (1.0 / TC_UNCERTAINTY_CHUNK) + lattice->shift[k];
        figures[j] = tc_spread_quantile(&study->spreads[j], u < 1 ? u : u - 1);
        lattice->place[k] += lattice->step[k];
        if (lattice->place[k] >= TC_UNCERTAINTY_CHUNK)
            lattice->place[k] -= TC_UNCERTAINTY_CHUNK;
        k++;
    }
}

static bool all_finite(const double values[], int count)
{
    for (int i = 0; i < count; i++)
        if (!isfinite(values[i]))
            return false;
    return true;
}

/* Adds one draw to the counts of a chunk. */
static void count_draw(struct tally tallies[], const double costs[], int candidates)
{
    double least = costs[0];
    for (int i = 1; i < candidates; i++)
        if (costs[i] < least)
            least = costs[i];
    int ties = 0;
    for (int i = 0; i < candidates; i++) {
        tallies[i].regret += costs[i] - least;
        ties += costs[i] == least;
    }
    for (int i = 0; i < candidates; i++)
        if (costs[i] == least)
            tallies[i].cheapest += 1.0 / ties;
}

static void do_chunk(struct run *run, int chunk, struct tc_parallel *parallel)
{
    const struct tc_uncertainty_study *study = run->study;
    int n = study->candidates;
    struct tally *tallies = &run->tallies[(size_t)chunk * (size_t)n];
    double *to = &run->costs[(size_t)chunk * TC_UNCERTAINTY_CHUNK];
    struct lattice lattice;
    double figures[TC_UNCERTAINTY_MOST_FIGURES], costs[TC_UNCERTAINTY_MOST_CANDIDATES];

    for (int j = 0; j < study->figures; j++)
        figures[j] = run->middle[j]; /* the fixed ones stay so */
    for (int i = 0; i < n; i++)
        tallies[i] = (struct tally){.cost = tc_summary_empty()};
    lattice_start(&lattice, study, chunk);
    for (int k = 0; k < TC_UNCERTAINTY_CHUNK; k++) {
        if (k % DRAWS_BETWEEN_QUESTIONS == 0 && !tc_parallel_go_on(parallel))
            return;
        lattice_next(&lattice, study, figures);
        study->costs(study->context, figures, costs);
        if (!all_finite(costs, n)) {
            atomic_store(&run->broken, true);
            return;
        }
        count_draw(tallies, costs, n);
        for (int i = 0; i < n; i++)
            to[(size_t)i * run->draws + (size_t)k] = costs[i];
    }
    for (int i = 0; i < n; i++)
        for (int k = 0; k < TC_UNCERTAINTY_CHUNK; k++)
            tc_summary_add(&tallies[i].cost, to[(size_t)i * run->draws + (size_t)k]);
}

/* ---- one figure at a time ---- */

/* All costs with one figure moved; 0 for all if one of them is not finite. */
static void costs_at(struct run *run, int figure, double value, double costs[])
{
    const struct tc_uncertainty_study *study = run->study;
    double figures[TC_UNCERTAINTY_MOST_FIGURES];
    for (int j = 0; j < study->figures; j++)
        figures[j] = j == figure ? value : run->middle[j];
    study->costs(study->context, figures, costs);
    if (all_finite(costs, study->candidates))
        return;
    atomic_store(&run->broken, true);
    for (int i = 0; i < study->candidates; i++)
        costs[i] = 0;
}

static int cheapest_but(const double costs[], int candidates, int left_out)
{
    int best = -1;
    for (int i = 0; i < candidates; i++)
        if (i != left_out && (best < 0 || costs[i] < costs[best]))
            best = i;
    return best;
}

/* Who, with one figure moved, is cheaper than the best of the middle; -1: nobody. */
static int challenger(struct run *run, int figure, double value)
{
    double costs[TC_UNCERTAINTY_MOST_CANDIDATES];
    int best = run->result->best;
    costs_at(run, figure, value, costs);
    int other = cheapest_but(costs, run->study->candidates, best);
    return costs[other] < costs[best] ? other : -1;
}

/* The nearest value on the way from the middle to the end where the lead is lost, or NaN. */
static double find_turn(struct run *run, int figure, double end, int *winner)
{
    double middle = run->middle[figure];
    double holds = middle, lost = middle;
    *winner = -1;
    if (end == middle)
        return (double)NAN;
    for (int step = 1; step <= STEPS_OUTWARD && *winner < 0; step++) {
        holds = lost;
        lost = step < STEPS_OUTWARD ? middle + (end - middle) * step / STEPS_OUTWARD : end;
        *winner = challenger(run, figure, lost);
    }
    if (*winner < 0)
        return (double)NAN;
    for (int i = 0; i < HALVINGS; i++) {
        double between = holds + (lost - holds) / 2;
        if (between == holds || between == lost)
            break;
        int other = challenger(run, figure, between);
        if (other < 0) {
            holds = between;
        } else {
            lost = between;
            *winner = other;
        }
    }
    return lost;
}

static double difference_at(struct run *run, int figure, double value)
{
    double costs[TC_UNCERTAINTY_MOST_CANDIDATES];
    costs_at(run, figure, value, costs);
    return costs[run->result->second] - costs[run->result->best];
}

static void do_bar(struct run *run, int figure)
{
    const struct tc_spread *spread = &run->study->spreads[figure];
    struct tc_uncertainty_bar *bar = &run->result->bar[figure];
    *bar = (struct tc_uncertainty_bar){.figure = figure,
                                       .turn_below = (double)NAN,
                                       .turn_above = (double)NAN,
                                       .winner_below = -1,
                                       .winner_above = -1};
    if (run->result->second < 0)
        return;
    bar->at_low = difference_at(run, figure, spread->low);
    bar->at_high = difference_at(run, figure, spread->high);
    bar->turn_below = find_turn(run, figure, spread->low, &bar->winner_below);
    bar->turn_above = find_turn(run, figure, spread->high, &bar->winner_above);
}

/* ---- what it is worth to know one figure ---- */

enum { TERMS = 4 }; /* of a cubic */

/* Sums over the draws for fitting the costs of all candidates by a cubic in one figure. */
struct fit {
    double power[2 * TERMS - 1];
    double (*product)[TERMS]; /* of each candidate's cost; solved, its coefficients */
};

/* Solves for the coefficients of each candidate: Gauss with the largest pivot. False where the figure is
 * fixed. */
static bool solve_fit(struct fit *fit, int candidates)
{
    double a[TERMS][TERMS];
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            a[i][j] = fit->power[i + j];
    for (int k = 0; k < TERMS; k++) {
        int pivot = k;
        for (int i = k + 1; i < TERMS; i++)
            if (fabs(a[i][k]) > fabs(a[pivot][k]))
                pivot = i;
        if (!(fabs(a[pivot][k]) > 1e-12 * fit->power[0]))
            return false;
        for (int j = 0; j < TERMS; j++) {
            double kept = a[k][j];
            a[k][j] = a[pivot][j];
            a[pivot][j] = kept;
        }
        for (int c = 0; c < candidates; c++) {
            double kept = fit->product[c][k];
            fit->product[c][k] = fit->product[c][pivot];
            fit->product[c][pivot] = kept;
        }
        for (int i = 0; i < TERMS; i++) {
            double times = i == k ? 0 : a[i][k] / a[k][k];
            for (int j = k; j < TERMS; j++)
                a[i][j] -= times * a[k][j];
            for (int c = 0; c < candidates; c++)
                fit->product[c][i] -= times * fit->product[c][k];
        }
    }
    for (int k = 0; k < TERMS; k++)
        for (int c = 0; c < candidates; c++)
            fit->product[c][k] /= a[k][k];
    return true;
}

/* The draws of one figure, -1 to 1 over its range, in the order in which their costs lie. */
static void list_draws(const struct run *run, int figure, double *to)
{
    const struct tc_uncertainty_study *study = run->study;
    const struct tc_spread *spread = &study->spreads[figure];
    double half = (spread->high - spread->low) / 2, figures[TC_UNCERTAINTY_MOST_FIGURES];
    for (int chunk = 0; chunk < run->chunks; chunk++) {
        struct lattice lattice;
        lattice_start(&lattice, study, chunk);
        for (int k = 0; k < TC_UNCERTAINTY_CHUNK; k++) {
            lattice_next(&lattice, study, figures);
            *to++ = (figures[figure] - spread->low) / half - 1;
        }
    }
}

/* min over candidates of the mean less the mean of the min, of what is fitted; 0 where nothing is to be
 * known. */
static double fitted_worth(const struct run *run, const struct fit *fit, const double *draws)
{
    double least_mean = INFINITY, sum_of_least = 0;
    int n = run->study->candidates;
    for (int c = 0; c < n; c++) {
        double sum = 0;
        for (int k = 0; k < TERMS; k++)
            sum += fit->product[c][k] * fit->power[k];
        least_mean = fmin(least_mean, sum / (double)run->draws);
    }
    for (size_t i = 0; i < run->draws; i++) {
        double least = INFINITY, x = draws[i];
        for (int c = 0; c < n; c++) {
            const double *f = fit->product[c];
            least = fmin(least, f[0] + x * (f[1] + x * (f[2] + x * f[3])));
        }
        sum_of_least += least;
    }
    return fmax(0, least_mean - sum_of_least / (double)run->draws);
}

/* Tasks of the second round, before the costs are sorted: what each figure is worth. */
static void worth_task(void *context, int index, struct tc_parallel *parallel)
{
    struct run *run = context;
    int n = run->study->candidates;
    struct tc_uncertainty_bar *bar = &run->result->bar[index];
    if (n < 2 || run->study->spreads[bar->figure].shape == TC_SPREAD_FIXED || !tc_parallel_go_on(parallel))
        return;
    double *draws = calloc(run->draws, sizeof *draws);
    struct fit fit = {.product = calloc((size_t)n, sizeof *fit.product)};
    if (draws && fit.product) {
        list_draws(run, bar->figure, draws);
        for (size_t i = 0; i < run->draws; i++) {
            double power = 1;
            for (int k = 0; k < 2 * TERMS - 1; k++) {
                fit.power[k] += power;
                for (int c = 0; k < TERMS && c < n;
                     c++) /* against the first, whose cost is in all the same */
                    fit.product[c][k] += power * (run->costs[(size_t)c * run->draws + i] - run->costs[i]);
                power *= draws[i];
            }
        }
        if (solve_fit(&fit, n))
            bar->worth = fitted_worth(run, &fit, draws);
    } else {
        atomic_store(&run->no_memory, true);
    }
    free(draws);
    free(fit.product);
}

static int longest_first(const void *a, const void *b)
{
    const struct tc_uncertainty_bar *x = a, *y = b;
    double by_x = fabs(x->at_high - x->at_low), by_y = fabs(y->at_high - y->at_low);
    if (by_x != by_y)
        return by_x < by_y ? 1 : -1;
    return x->figure - y->figure;
}

/* ---- the whole ---- */

/* Tasks of the first round: the bars, which are short, then the chunks. */
static void draw_task(void *context, int index, struct tc_parallel *parallel)
{
    struct run *run = context;
    if (atomic_load(&run->broken))
        return;
    if (index < run->study->figures)
        do_bar(run, index);
    else
        do_chunk(run, index - run->study->figures, parallel);
}

/* Tasks of the second round: each candidate's tallies put together, in the order of the chunks. */
static void sum_task(void *context, int index, struct tc_parallel *parallel)
{
    (void)parallel;
    struct run *run = context;
    struct tc_uncertainty_candidate *to = &run->result->candidate[index];
    struct tc_summary cost = tc_summary_empty(), mean = cost, cheapest = cost, regret = cost;
    for (int c = 0; c < run->chunks; c++) {
        const struct tally *tally = &run->tallies[(size_t)c * (size_t)run->study->candidates + (size_t)index];
        tc_summary_merge(&cost, &tally->cost);
        tc_summary_add(&mean, tally->cost.mean);
        tc_summary_add(&cheapest, tally->cheapest / TC_UNCERTAINTY_CHUNK);
        tc_summary_add(&regret, tally->regret / TC_UNCERTAINTY_CHUNK);
    }
    to->cheapest = cheapest.mean;
    to->cheapest_error = tc_summary_standard_error(&cheapest);
    to->mean = mean.mean;
    to->mean_error = tc_summary_standard_error(&mean);
    to->deviation = tc_summary_deviation(&cost);
    to->regret = regret.mean;
    to->regret_error = tc_summary_standard_error(&regret);

    double *costs = &run->costs[(size_t)index * run->draws];
    qsort(costs, run->draws, sizeof costs[0], tc_ascending);
    to->p10 = tc_percentile(costs, run->draws, 0.1);
    to->p50 = tc_percentile(costs, run->draws, 0.5);
    to->p90 = tc_percentile(costs, run->draws, 0.9);
}

/* The second round is short: it counts as done, but may still be stopped. */
static bool ask_at_the_end(void *context, double done)
{
    (void)done;
    const struct tc_uncertainty_study *study = context;
    return !study->go_on || study->go_on(study->go_on_context, 1);
}

static enum tc_status check(const struct tc_uncertainty_study *study)
{
    if (study->candidates < 1 || study->candidates > TC_UNCERTAINTY_MOST_CANDIDATES)
        return TC_RANGE;
    if (study->figures < 0 || study->figures > TC_UNCERTAINTY_MOST_FIGURES)
        return TC_RANGE;
    for (int j = 0; j < study->figures; j++)
        if (tc_spread_check(&study->spreads[j]) != TC_OK)
            return TC_RANGE;
    return TC_OK;
}

static int chunks_for(int draws)
{
    int chunks = draws / TC_UNCERTAINTY_CHUNK + (draws % TC_UNCERTAINTY_CHUNK > 0);
    if (chunks < TC_UNCERTAINTY_FEWEST_CHUNKS)
        return TC_UNCERTAINTY_FEWEST_CHUNKS;
    return chunks < TC_UNCERTAINTY_MOST_CHUNKS ? chunks : TC_UNCERTAINTY_MOST_CHUNKS;
}

static void look_at_the_middle(struct run *run)
{
    const struct tc_uncertainty_study *study = run->study;
    struct tc_uncertainty *result = run->result;
    double costs[TC_UNCERTAINTY_MOST_CANDIDATES];
    for (int j = 0; j < study->figures; j++)
        run->middle[j] = tc_spread_middle(&study->spreads[j]);
    costs_at(run, -1, 0, costs);
    for (int i = 0; i < study->candidates; i++)
        result->candidate[i].middle = costs[i];
    result->best = cheapest_but(costs, study->candidates, -1);
    result->second = cheapest_but(costs, study->candidates, result->best);
}

static enum tc_status run_study(struct run *run)
{
    const struct tc_uncertainty_study *study = run->study;
    struct tc_uncertainty *result = run->result;
    size_t n = (size_t)study->candidates;
    run->costs = calloc(n * run->draws, sizeof run->costs[0]);
    run->tallies = calloc(n * (size_t)run->chunks, sizeof run->tallies[0]);
    result->candidate = calloc(n, sizeof result->candidate[0]);
    result->bar = calloc((size_t)study->figures + 1, sizeof result->bar[0]); /* + 1: never of no size */
    if (!run->costs || !run->tallies || !result->candidate || !result->bar)
        return TC_NO_MEMORY;

    look_at_the_middle(run);
    enum tc_status status = tc_parallel_run(study->threads, study->figures + run->chunks, draw_task, run,
                                            study->go_on, study->go_on_context);
    if (atomic_load(&run->broken))
        return TC_RANGE;
    if (status != TC_OK)
        return status;
    qsort(result->bar, (size_t)study->figures, sizeof result->bar[0], longest_first);
    /* go_on takes a pointer to what it may change; the study is not changed through it. */
    struct tc_uncertainty_study asked = *study;
    status = tc_parallel_run(study->threads, study->figures, worth_task, run, ask_at_the_end, &asked);
    if (atomic_load(&run->no_memory))
        return TC_NO_MEMORY;
    if (status == TC_OK)
        status = tc_parallel_run(study->threads, study->candidates, sum_task, run, ask_at_the_end, &asked);
    result->worth = INFINITY;
    for (int i = 0; i < study->candidates; i++)
        result->worth = fmin(result->worth, result->candidate[i].regret);
    return status;
}

enum tc_status tc_uncertainty_run(const struct tc_uncertainty_study *study, struct tc_uncertainty *result)
{
    *result = (struct tc_uncertainty){0};
    enum tc_status status = check(study);
    if (status != TC_OK)
        return status;
    struct run run = {.study = study, .chunks = chunks_for(study->draws), .result = result};
    run.draws = (size_t)run.chunks * TC_UNCERTAINTY_CHUNK;
    atomic_init(&run.broken, false);
    atomic_init(&run.no_memory, false);
    result->candidates = study->candidates;
    result->figures = study->figures;
    result->draws = (int)run.draws;
    status = run_study(&run);
    free(run.costs);
    free(run.tallies);
    if (status != TC_OK)
        tc_uncertainty_free(result);
    return status;
}

void tc_uncertainty_free(struct tc_uncertainty *result)
{
    free(result->candidate);
    free(result->bar);
    *result = (struct tc_uncertainty){0};
}
