/* SPDX-License-Identifier: MIT */
#include "core/knapsack/knapsack_presolve.h"

#include <stdlib.h>

enum tc_status tc_knapsack_table_create(struct tc_knapsack_table *table, int classes, int rows, int choices)
{
    *table =
        (struct tc_knapsack_table){.classes = classes, .rows = rows, .choices = choices, .room = choices};
    size_t room = (size_t)choices + 1; /* never an allocation of nothing */
    table->first = calloc((size_t)classes + 1, sizeof *table->first);
    table->number = calloc(room, sizeof *table->number);
    table->gain = calloc(room, sizeof *table->gain);
    table->weight = calloc(room, sizeof *table->weight);
    bool ok = table->first && table->number && table->gain && table->weight;
    for (int r = 0; r < rows; r++) {
        table->use[r] = calloc(room, sizeof *table->use[r]);
        table->share[r] = calloc(room, sizeof *table->share[r]);
        ok = ok && table->use[r] && table->share[r];
    }
    if (ok)
        return TC_OK;
    tc_knapsack_table_free(table);
    return TC_NO_MEMORY;
}

void tc_knapsack_table_free(struct tc_knapsack_table *table)
{
    free(table->first);
    free(table->number);
    free(table->gain);
    free(table->weight);
    /* A dropped row is swapped behind the others, never forgotten. */
    for (int r = 0; r < TC_KNAPSACK_TABLE_ROWS; r++) {
        free(table->use[r]);
        free(table->share[r]);
    }
    *table = (struct tc_knapsack_table){0};
}

/* Drops the choices whose flag is not set; the order of the others stays. */
static void drop_unkept(struct tc_knapsack_table *t, const bool *keep)
{
    int to = 0;
    int from = 0;
    for (int i = 0; i < t->classes; i++) {
        int end = t->first[i + 1];
        t->first[i] = to;
        for (; from < end; from++) {
            if (!keep[from])
                continue;
            t->number[to] = t->number[from];
            t->gain[to] = t->gain[from];
            for (int r = 0; r < t->rows; r++)
                t->use[r][to] = t->use[r][from];
            to++;
        }
    }
    t->first[t->classes] = to;
    t->choices = to;
}

/* Takes the least of each class out of column; returns the sum of what was taken. */
static int64_t take_least(const struct tc_knapsack_table *t, int64_t *column)
{
    int64_t taken = 0;
    for (int i = 0; i < t->classes; i++) {
        int64_t least = column[t->first[i]];
        for (int c = t->first[i] + 1; c < t->first[i + 1]; c++)
            if (column[c] < least)
                least = column[c];
        for (int c = t->first[i]; c < t->first[i + 1]; c++)
            column[c] -= least;
        taken += least;
    }
    return taken;
}

static bool a_class_is_empty(const struct tc_knapsack_table *t)
{
    for (int i = 0; i < t->classes; i++)
        if (t->first[i] == t->first[i + 1])
            return true;
    return false;
}

/*
 * Drops choices that alone break a limit. That can raise what the rest uses at
 * least, so it goes on until nothing changes.
 */
static enum tc_status drop_oversized(struct tc_knapsack_table *t, bool *keep)
{
    for (;;) {
        if (a_class_is_empty(t))
            return TC_NO_RESULT;
        for (int r = 0; r < t->rows; r++) {
            t->limit[r] -= take_least(t, t->use[r]);
            if (t->limit[r] < 0)
                return TC_NO_RESULT;
        }
        bool all = true;
        for (int c = 0; c < t->choices; c++) {
            keep[c] = true;
            for (int r = 0; r < t->rows; r++)
                keep[c] = keep[c] && t->use[r][c] <= t->limit[r];
            all = all && keep[c];
        }
        if (all)
            return TC_OK;
        drop_unkept(t, keep);
    }
}

/* A row that even the largest choices together do not fill goes behind the rows that count. */
static void drop_slack_rows(struct tc_knapsack_table *t)
{
    for (int r = t->rows - 1; r >= 0; r--) {
        int64_t most = 0;
        for (int i = 0; i < t->classes; i++) {
            int64_t largest = 0;
            for (int c = t->first[i]; c < t->first[i + 1]; c++)
                if (t->use[r][c] > largest)
                    largest = t->use[r][c];
            most += largest;
        }
        if (most > t->limit[r])
            continue;
        int last = --t->rows;
        int64_t *use = t->use[r];
        double *share = t->share[r];
        t->use[r] = t->use[last];
        t->share[r] = t->share[last];
        t->limit[r] = t->limit[last];
        t->use[last] = use;
        t->share[last] = share;
    }
}

static void scale(struct tc_knapsack_table *t)
{
    for (int c = 0; c < t->choices; c++)
        t->weight[c] = (double)t->gain[c];
    /* A row of limit 0 would have lost all its uses and been dropped. */
    for (int r = 0; r < t->rows; r++)
        for (int c = 0; c < t->choices; c++)
            t->share[r][c] = (double)t->use[r][c] / (double)t->limit[r];
}

enum tc_status tc_knapsack_table_reduce(struct tc_knapsack_table *table, const bool *keep)
{
    if (keep)
        drop_unkept(table, keep);
    bool *flags = calloc((size_t)table->choices + 1, sizeof *flags);
    if (!flags)
        return TC_NO_MEMORY;
    enum tc_status status = drop_oversized(table, flags);
    if (status == TC_OK) {
        drop_slack_rows(table);
        table->base += take_least(table, table->gain);
        scale(table);
    }
    free(flags);
    return status;
}
