/* SPDX-License-Identifier: MIT */
#include "core/cost/uncertainty.h"

#include <math.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdlib.h>

#include "core/base/order.h"
#include "core/base/summary.h"
#include "core/cost/knowing.h"
#include "core/cost/lattice.h"

enum {
    DRAWS_BETWEEN_QUESTIONS = 64, /* how often a chunk asks whether to go on */
    STEPS_OUTWARD = 8,
    HALVINGS = 64,       /* more than a double has bits */
    BATCH = 64,          /* chunks between which what they found is put together */
    KEPT_COSTS = 1 << 21 /* of all candidates, kept one by one: 16 MB */
};

/* What one chunk found about one candidate. */
struct tally {
    struct tc_summary cost;
    double cheapest; /* draws won, ties shared */
    double regret;   /* sum over the draws */
    bool counted;    /* the chunk was finished */
};

/* What all chunks so far found about one candidate: the costs, and of the chunks their means. */
struct sums {
    struct tc_summary cost, mean, cheapest, regret;
};

struct run {
    const struct tc_uncertainty_study *study;
    int chunks;            /* wanted; once drawn, those that were */
    int from;              /* the first of the batch under way */
    int kept_chunks;       /* whose costs are kept one by one, the first of all */
    size_t stride;         /* from the kept costs of one candidate to those of the next */
    double *costs;         /* [candidate][draw] */
    struct tally *tallies; /* [chunk of the batch][candidate] */
    struct sums *sums;     /* [candidate] */
    struct tc_uncertainty *result;
    double middle[TC_UNCERTAINTY_MOST_FIGURES];
    atomic_bool broken; /* a cost was not finite */
    atomic_bool no_memory;
};

static size_t kept_draws(const struct run *run)
{
    return (size_t)run->kept_chunks * TC_UNCERTAINTY_CHUNK;
}

static void lattice_next(struct tc_lattice *lattice, const struct tc_uncertainty_study *study,
                         double figures[])
{
    int k = 0;
    for (int j = 0; j < study->figures; j++)
        if (study->spreads[j].shape != TC_SPREAD_FIXED)
            figures[j] = tc_lattice_draw(lattice, k++, &study->spreads[j]);
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

/* Tasks of the first round: a chunk of the batch under way. */
static void chunk_task(void *context, int index, struct tc_parallel *parallel)
{
    struct run *run = context;
    const struct tc_uncertainty_study *study = run->study;
    int n = study->candidates, chunk = run->from + index;
    struct tally *tallies = &run->tallies[(size_t)index * (size_t)n];
    struct tc_lattice lattice;
    double figures[TC_UNCERTAINTY_MOST_FIGURES], costs[TC_UNCERTAINTY_MOST_CANDIDATES];

    for (int j = 0; j < study->figures; j++)
        figures[j] = run->middle[j]; /* the fixed ones stay so */
    for (int i = 0; i < n; i++)
        tallies[i] = (struct tally){.cost = tc_summary_empty()};
    tc_lattice_start(&lattice, study->spreads, study->figures, study->seed, chunk);
    for (int k = 0; k < TC_UNCERTAINTY_CHUNK; k++) {
        if (k % DRAWS_BETWEEN_QUESTIONS == 0 && (atomic_load(&run->broken) || !tc_parallel_go_on(parallel)))
            return;
        lattice_next(&lattice, study, figures);
        study->costs(study->context, figures, costs);
        if (!all_finite(costs, n)) {
            atomic_store(&run->broken, true);
            return;
        }
        count_draw(tallies, costs, n);
        for (int i = 0; i < n; i++) {
            tc_summary_add(&tallies[i].cost, costs[i]);
            if (chunk < run->kept_chunks)
                run->costs[(size_t)i * run->stride + (size_t)chunk * TC_UNCERTAINTY_CHUNK + (size_t)k] =
                    costs[i];
        }
    }
    tallies[0].counted = true;
}

/* Puts what the finished chunks of a batch found to the sums, in their order; how many these are, up to the
 * first that was not finished.
 */
static int sum_up(struct run *run, int batch)
{
    int n = run->study->candidates, done = 0;
    for (; done < batch && run->tallies[(size_t)done * (size_t)n].counted; done++) {
        for (int i = 0; i < n; i++) {
            const struct tally *tally = &run->tallies[(size_t)done * (size_t)n + (size_t)i];
            struct sums *to = &run->sums[i];
            tc_summary_merge(&to->cost, &tally->cost);
            tc_summary_add(&to->mean, tally->cost.mean);
            tc_summary_add(&to->cheapest, tally->cheapest / TC_UNCERTAINTY_CHUNK);
            tc_summary_add(&to->regret, tally->regret / TC_UNCERTAINTY_CHUNK);
        }
    }
    return done;
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

/* The kept draws of one figure, -1 to 1 over its range, in the order in which their costs lie. */
static void list_draws(const struct run *run, int figure, double *to)
{
    const struct tc_uncertainty_study *study = run->study;
    const struct tc_spread *spread = &study->spreads[figure];
    double half = (spread->high - spread->low) / 2;
    int k = 0; /* its place among those that are not fixed */
    for (int j = 0; j < figure; j++)
        k += study->spreads[j].shape != TC_SPREAD_FIXED;
    for (int chunk = 0; chunk < run->kept_chunks; chunk++) {
        struct tc_lattice lattice;
        tc_lattice_start(&lattice, study->spreads, study->figures, study->seed, chunk);
        for (int i = 0; i < TC_UNCERTAINTY_CHUNK; i++)
            *to++ = (tc_lattice_draw(&lattice, k, spread) - spread->low) / half - 1;
    }
}

/* Tasks of the second round, before the costs are sorted: what each figure is worth. */
static void worth_task(void *context, int index, struct tc_parallel *parallel)
{
    struct run *run = context;
    int n = run->study->candidates;
    struct tc_uncertainty_bar *bar = &run->result->bar[index];
    if (n < 2 || run->study->spreads[bar->figure].shape == TC_SPREAD_FIXED || !tc_parallel_go_on(parallel))
        return;
    double *draws = calloc(kept_draws(run), sizeof *draws);
    if (draws)
        list_draws(run, bar->figure, draws);
    const struct tc_knowing knowing = {draws, kept_draws(run), run->costs, run->stride, n};
    if (!draws || tc_knowing_worth(&knowing, &bar->worth) != TC_OK)
        atomic_store(&run->no_memory, true);
    free(draws);
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

static void bar_task(void *context, int index, struct tc_parallel *parallel)
{
    if (tc_parallel_go_on(parallel))
        do_bar(context, index);
}

/* Tasks of the second round: what is said of each candidate. */
static void sum_task(void *context, int index, struct tc_parallel *parallel)
{
    (void)parallel;
    struct run *run = context;
    struct tc_uncertainty_candidate *to = &run->result->candidate[index];
    const struct sums *sums = &run->sums[index];
    to->cheapest = sums->cheapest.mean;
    to->cheapest_error = tc_summary_standard_error(&sums->cheapest);
    to->mean = sums->mean.mean;
    to->mean_error = tc_summary_standard_error(&sums->mean);
    to->deviation = tc_summary_deviation(&sums->cost);
    to->regret = sums->regret.mean;
    to->regret_error = tc_summary_standard_error(&sums->regret);

    double *costs = &run->costs[(size_t)index * run->stride];
    qsort(costs, kept_draws(run), sizeof costs[0], tc_ascending);
    to->p10 = tc_percentile(costs, kept_draws(run), 0.1);
    to->p50 = tc_percentile(costs, kept_draws(run), 0.5);
    to->p90 = tc_percentile(costs, kept_draws(run), 0.9);
}

/* Where a round stands in the whole, for who asks how far it is. */
struct round {
    const struct tc_uncertainty_study *study;
    double from, to; /* shares of the whole */
};

static bool ask_in_round(void *context, double done)
{
    const struct round *round = context;
    const struct tc_uncertainty_study *study = round->study;
    return !study->go_on ||
           study->go_on(study->go_on_context, round->from + done * (round->to - round->from));
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

/* As many as fit into what is kept, within the fewest and all. */
static int chunks_kept(const struct run *run)
{
    int fitting = KEPT_COSTS / (run->study->candidates * TC_UNCERTAINTY_CHUNK);
    if (fitting < TC_UNCERTAINTY_FEWEST_CHUNKS)
        fitting = TC_UNCERTAINTY_FEWEST_CHUNKS;
    return fitting < run->chunks ? fitting : run->chunks;
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

/* Draws batch after batch. Where that is stopped, what was drawn counts if the study says so. */
static enum tc_status draw_all(struct run *run, bool *cut)
{
    const struct tc_uncertainty_study *study = run->study;
    enum tc_status status = TC_OK;
    *cut = false;
    for (run->from = 0; status == TC_OK && run->from < run->chunks;) {
        int batch = run->chunks - run->from < BATCH ? run->chunks - run->from : BATCH;
        struct round round = {study, (double)run->from / run->chunks,
                              (double)(run->from + batch) / run->chunks};
        for (int i = 0; i < batch; i++)
            run->tallies[(size_t)i * (size_t)study->candidates].counted = false;
        status = tc_parallel_run(study->threads, batch, chunk_task, run, ask_in_round, &round);
        if (atomic_load(&run->broken))
            return TC_RANGE;
        run->from += sum_up(run, batch);
    }
    if (status != TC_STOPPED || !study->partial || run->from < TC_UNCERTAINTY_FEWEST_CHUNKS)
        return status;
    *cut = true;
    run->chunks = run->from;
    run->kept_chunks = run->kept_chunks < run->chunks ? run->kept_chunks : run->chunks;
    return TC_OK;
}

/* One of the rounds after all draws. It is short: where what is known counts, a stop only spares the
 * questions. */
static enum tc_status run_last(struct run *run, int count, tc_task *task, bool cut)
{
    const struct tc_uncertainty_study *study = run->study;
    struct round last = {study, 1, 1};
    enum tc_status status =
        cut ? TC_STOPPED : tc_parallel_run(study->threads, count, task, run, ask_in_round, &last);
    if (status == TC_STOPPED && study->partial)
        status = tc_parallel_run(study->threads, count, task, run, NULL, NULL);
    return status;
}

/* What follows from the draws, which were cut short or not. */
static enum tc_status conclude(struct run *run, bool cut)
{
    const struct tc_uncertainty_study *study = run->study;
    struct tc_uncertainty *result = run->result;
    qsort(result->bar, (size_t)study->figures, sizeof result->bar[0], longest_first);
    enum tc_status status = run_last(run, study->figures, worth_task, cut);
    if (atomic_load(&run->no_memory))
        return TC_NO_MEMORY;
    if (status == TC_OK)
        status = run_last(run, study->candidates, sum_task, cut);
    result->draws = run->chunks * TC_UNCERTAINTY_CHUNK;
    result->worth = INFINITY;
    for (int i = 0; i < study->candidates; i++)
        result->worth = fmin(result->worth, result->candidate[i].regret);
    return status;
}

static enum tc_status run_study(struct run *run)
{
    const struct tc_uncertainty_study *study = run->study;
    struct tc_uncertainty *result = run->result;
    struct round first = {study, 0, 0};
    size_t n = (size_t)study->candidates;
    bool cut;
    run->costs = calloc(n * run->stride, sizeof run->costs[0]);
    run->tallies = calloc(n * BATCH, sizeof run->tallies[0]);
    run->sums = calloc(n, sizeof run->sums[0]);
    result->candidate = calloc(n, sizeof result->candidate[0]);
    result->bar = calloc((size_t)study->figures + 1, sizeof result->bar[0]); /* + 1: never of no size */
    if (!run->costs || !run->tallies || !run->sums || !result->candidate || !result->bar)
        return TC_NO_MEMORY;

    for (size_t i = 0; i < n; i++) {
        struct tc_summary none = tc_summary_empty();
        run->sums[i] = (struct sums){none, none, none, none};
    }
    look_at_the_middle(run);
    enum tc_status status =
        tc_parallel_run(study->threads, study->figures, bar_task, run, ask_in_round, &first);
    if (atomic_load(&run->broken))
        return TC_RANGE;
    if (status == TC_OK)
        status = draw_all(run, &cut);
    return status == TC_OK ? conclude(run, cut) : status;
}

enum tc_status tc_uncertainty_run(const struct tc_uncertainty_study *study, struct tc_uncertainty *result)
{
    *result = (struct tc_uncertainty){0};
    enum tc_status status = check(study);
    if (status != TC_OK)
        return status;
    struct run run = {.study = study, .chunks = chunks_for(study->draws), .result = result};
    run.kept_chunks = chunks_kept(&run);
    run.stride = kept_draws(&run);
    atomic_init(&run.broken, false);
    atomic_init(&run.no_memory, false);
    result->candidates = study->candidates;
    result->figures = study->figures;
    status = run_study(&run);
    free(run.costs);
    free(run.tallies);
    free(run.sums);
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
