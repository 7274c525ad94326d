/* SPDX-License-Identifier: MIT */
#include "core/knapsack/knapsack_heuristic.h"

#include <stdlib.h>
#include <string.h>

enum tc_status tc_knapsack_heuristic_create(struct tc_knapsack_heuristic *round,
                                            const struct tc_knapsack_table *table)
{
    *round = (struct tc_knapsack_heuristic){.table = table};
    size_t room = (size_t)table->classes + 1;
    round->trial = calloc(room, sizeof *round->trial);
    round->offer = calloc(room, sizeof *round->offer);
    if (round->trial && round->offer)
        return TC_OK;
    tc_knapsack_heuristic_free(round);
    return TC_NO_MEMORY;
}

void tc_knapsack_heuristic_free(struct tc_knapsack_heuristic *round)
{
    free(round->trial);
    free(round->offer);
    *round = (struct tc_knapsack_heuristic){0};
}

static void find_left(struct tc_knapsack_heuristic *s)
{
    const struct tc_knapsack_table *t = s->table;
    for (int r = 0; r < t->rows; r++) {
        s->left[r] = t->limit[r];
        for (int i = 0; i < t->classes; i++)
            s->left[r] -= t->use[r][s->trial[i]];
    }
}

static bool broken(const struct tc_knapsack_heuristic *s)
{
    for (int r = 0; r < s->table->rows; r++)
        if (s->left[r] < 0)
            return true;
    return false;
}

bool tc_knapsack_heuristic_take(struct tc_knapsack_heuristic *round, const int *choices)
{
    memcpy(round->trial, choices, (size_t)round->table->classes * sizeof *choices);
    find_left(round);
    return !broken(round);
}

/* Whether class i may take the choice instead of its trial. */
static bool fits(const struct tc_knapsack_heuristic *s, int i, int choice)
{
    const struct tc_knapsack_table *t = s->table;
    for (int r = 0; r < t->rows; r++)
        if (t->use[r][choice] - t->use[r][s->trial[i]] > s->left[r])
            return false;
    return true;
}

static void exchange(struct tc_knapsack_heuristic *s, int i, int choice)
{
    const struct tc_knapsack_table *t = s->table;
    for (int r = 0; r < t->rows; r++)
        s->left[r] += t->use[r][s->trial[i]] - t->use[r][choice];
    s->trial[i] = choice;
}

/* The exchange within the run of class i that adds most gain and fits; its trial if there is none. */
static int best_exchange(const struct tc_knapsack_heuristic *s, int i, int low, int high)
{
    const struct tc_knapsack_table *t = s->table;
    int best = s->trial[i];
    for (int c = low; c <= high; c++)
        if (t->gain[c] > t->gain[best] && fits(s, i, c))
            best = c;
    return best;
}

/*
 * Exchanges one choice at a time, within the runs, for the one that adds most
 * gain and still fits. What fits hardly ever grows, so a class is looked
 * through again only when its exchange was made or fits no more.
 */
static void fill_up(struct tc_knapsack_heuristic *s, const int *low, const int *high)
{
    const struct tc_knapsack_table *t = s->table;
    int n = t->classes;
    for (int i = 0; i < n; i++)
        s->offer[i] = best_exchange(s, i, low[i], high[i]);
    for (;;) {
        int64_t most = 0;
        int class = -1;
        for (int i = 0; i < n; i++) {
            int64_t more = t->gain[s->offer[i]] - t->gain[s->trial[i]];
            if (more > most) {
                most = more;
                class = i;
            }
        }
        if (class < 0)
            return;
        if (fits(s, class, s->offer[class]))
            exchange(s, class, s->offer[class]);
        s->offer[class] = best_exchange(s, class, low[class], high[class]);
    }
}

/* The sum of a choice's shares of the limits now broken. */
static double trouble(const struct tc_knapsack_heuristic *s, int choice)
{
    double sum = 0;
    for (int r = 0; r < s->table->rows; r++)
        if (s->left[r] < 0)
            sum += s->table->share[r][choice];
    return sum;
}

/* Where limits are broken, mixed classes take that choice of their mixture that uses least of these. */
static void take_smaller(struct tc_knapsack_heuristic *s, const struct tc_knapsack_bound *relax,
                         const int *low, const int *high, const int *key, const int *work)
{
    for (int k = 0; k < s->table->rows; k++) {
        if (work[k] < 0)
            continue;
        int i = relax->owner[work[k]];
        const int mixed[] = {work[k], key[i]};
        for (int j = 0; j < 2; j++) {
            bool may = mixed[j] >= low[i] && mixed[j] <= high[i];
            if (may && trouble(s, mixed[j]) < trouble(s, s->trial[i]))
                exchange(s, i, mixed[j]);
        }
    }
}

bool tc_knapsack_heuristic_off(struct tc_knapsack_heuristic *round, const struct tc_knapsack_bound *relax,
                               const int *low, const int *high, const int *key, const int *work)
{
    const struct tc_knapsack_table *t = round->table;
    for (int i = 0; i < t->classes; i++)
        round->trial[i] = key[i] >= low[i] && key[i] <= high[i] ? key[i] : low[i];
    for (int k = 0; k < t->rows; k++) {
        if (work[k] < 0 || relax->part[k] <= 0.5)
            continue;
        int i = relax->owner[work[k]];
        if (work[k] >= low[i] && work[k] <= high[i])
            round->trial[i] = work[k];
    }
    find_left(round);
    if (broken(round))
        take_smaller(round, relax, low, high, key, work);
    if (broken(round))
        return false;
    fill_up(round, low, high);
    return true;
}
