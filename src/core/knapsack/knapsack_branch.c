/* SPDX-License-Identifier: MIT */
#include "core/knapsack/knapsack_branch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/knapsack/knapsack_bound.h"
#include "core/knapsack/knapsack_heuristic.h"

enum {
    ASK_EVERY = 256,   /* nodes between two questions whether to go on */
    ROUND_ALWAYS = 16, /* so many nodes are rounded; then one in so many classes */
    CLASSES_A_ROUND = 100
};

struct search {
    struct tc_knapsack_table *table;
    struct tc_knapsack_bound relax;
    struct tc_knapsack_heuristic round;
    const struct tc_knapsack_effort *effort;
    struct tc_knapsack_found *found;
    int *picks;
    int64_t best;    /* gain to surpass, once found->any */
    int *nodes;      /* the stack of nodes waiting to be searched, node_size ints each */
    double *bounds;  /* upper bound of each node on the stack */
    size_t depth;    /* nodes on the stack */
    size_t capacity; /* nodes there is memory for */
    int node_size;
};

/* A node's part of the stack: the run each class may take choices from, and a basis to start from. */
struct node {
    int *low, *high, *key; /* per class */
    int *work;             /* per row */
};

static struct node node_at(const struct search *s, size_t depth)
{
    int n = s->table->classes;
    int *block = s->nodes + depth * (size_t)s->node_size;
    return (struct node){block, block + n, block + 2 * n, block + 3 * n};
}

/* A bound at or below this cannot hide a better answer: it is below the next whole number. */
static double cutoff(const struct search *s)
{
    return s->found->any ? (double)s->best + 1.0 - 1e-9 - fabs((double)s->best) * 1e-15 : -INFINITY;
}

static enum tc_status grow(struct search *s)
{
    if (s->depth < s->capacity)
        return TC_OK;
    size_t capacity = s->capacity ? 2 * s->capacity : 64;
    int *nodes = realloc(s->nodes, capacity * (size_t)s->node_size * sizeof *nodes);
    if (nodes)
        s->nodes = nodes;
    double *bounds = realloc(s->bounds, capacity * sizeof *bounds);
    if (bounds)
        s->bounds = bounds;
    if (!nodes || !bounds)
        return TC_NO_MEMORY;
    s->capacity = capacity;
    return TC_OK;
}

/* The trial, which keeps all limits, becomes the best answer found if it is better. */
static void consider(struct search *s)
{
    const struct tc_knapsack_table *t = s->table;
    int64_t gain = 0;
    for (int i = 0; i < t->classes; i++)
        gain += t->gain[s->round.trial[i]];
    if (s->found->any && gain <= s->best)
        return;
    s->found->any = true;
    s->best = gain;
    s->found->gain = t->base + gain;
    for (int i = 0; i < t->classes; i++)
        s->picks[i] = t->number[s->round.trial[i]];
}

/* Rounding looks through all classes, so where they are many it is worth it now and then only. */
static void round_off(struct search *s, struct node node)
{
    int64_t every = 1 + s->table->classes / CLASSES_A_ROUND;
    if (s->found->nodes > ROUND_ALWAYS && s->found->nodes % every != 0)
        return;
    if (tc_knapsack_heuristic_off(&s->round, &s->relax, node.low, node.high, node.key, node.work))
        consider(s);
}

/* Whether the bound still allows a better answer with this choice. */
static bool hopeful(const struct search *s, int i, int choice)
{
    return s->relax.bound - (s->relax.best[i] - s->relax.value[choice]) > cutoff(s);
}

/* Shortens the runs of a bounded node at both ends; returns the classes with more than one choice left. */
static int shorten(const struct search *s, struct node node)
{
    int open = 0;
    for (int i = 0; i < s->table->classes; i++) {
        while (node.low[i] < node.high[i] && !hopeful(s, i, node.low[i]))
            node.low[i]++;
        while (node.low[i] < node.high[i] && !hopeful(s, i, node.high[i]))
            node.high[i]--;
        open += node.low[i] < node.high[i];
    }
    return open;
}

/* Where to cut: class i's run after choice `after`; upper: the upper half is searched first. */
struct cut {
    int class;
    int after;
    bool upper;
};

/* Where in its class the relaxation's mixture lies, as a mean of choices. */
static double mean_choice(const struct search *s, struct node node, int i)
{
    double mean = node.key[i];
    for (int k = 0; k < s->table->rows; k++)
        if (node.work[k] >= 0 && s->relax.owner[node.work[k]] == i)
            mean += s->relax.part[k] * (node.work[k] - node.key[i]);
    return mean;
}

/* How much of the mixture of class i are choices above `after`. */
static double part_above(const struct search *s, struct node node, int i, int after)
{
    double above = node.key[i] > after;
    for (int k = 0; k < s->table->rows; k++)
        if (node.work[k] >= 0 && s->relax.owner[node.work[k]] == i)
            above += s->relax.part[k] * ((node.work[k] > after) - (node.key[i] > after));
    return above;
}

/* The class the relaxation mixes most evenly, cut at the mean; class -1 where it mixes none. */
static struct cut mixed_cut(const struct search *s, struct node node)
{
    struct cut best = {-1, 0, false};
    double evenest = 1e-6;
    for (int k = 0; k < s->table->rows; k++) {
        if (node.work[k] < 0)
            continue;
        int i = s->relax.owner[node.work[k]];
        double mean = mean_choice(s, node, i);
        if (node.low[i] == node.high[i] || mean < node.low[i] || mean > node.high[i])
            continue;
        int after = (int)floor(mean);
        if (after >= node.high[i])
            after = node.high[i] - 1;
        double above = part_above(s, node, i, after);
        double even = above < 0.5 ? above : 1 - above;
        if (even > evenest) {
            evenest = even;
            best = (struct cut){i, after, above > 0.5};
        }
    }
    return best;
}

/* Any class with a run to cut: the longest, in the middle. */
static struct cut plain_cut(const struct search *s, struct node node)
{
    struct cut best = {-1, 0, false};
    int longest = 0;
    for (int i = 0; i < s->table->classes; i++) {
        int length = node.high[i] - node.low[i];
        if (length > longest) {
            longest = length;
            best = (struct cut){i, node.low[i] + (length - 1) / 2, false};
        }
    }
    return best;
}

/* Replaces the node on top by its two halves, the one to search first on top. */
static enum tc_status split(struct search *s, struct cut cut, double bound)
{
    enum tc_status status = grow(s);
    if (status != TC_OK)
        return status;
    struct node second = node_at(s, s->depth - 1);
    struct node first = node_at(s, s->depth);
    memcpy(first.low, second.low, (size_t)s->node_size * sizeof *first.low);
    struct node lower = cut.upper ? second : first;
    struct node upper = cut.upper ? first : second;
    lower.high[cut.class] = cut.after;
    upper.low[cut.class] = cut.after + 1;
    s->bounds[s->depth - 1] = bound;
    s->bounds[s->depth] = bound;
    s->depth++;
    return TC_OK;
}

/* Searches the node on top of the stack: it goes, or its halves take its place. */
static enum tc_status search_top(struct search *s)
{
    size_t top = s->depth - 1;
    struct node node = node_at(s, top);
    s->depth = top;
    if (s->bounds[top] <= cutoff(s))
        return TC_OK;
    if (tc_knapsack_bound_solve(&s->relax, node.low, node.high, cutoff(s), node.key, node.work) !=
        TC_RELAXED_BOUND)
        return TC_OK;
    round_off(s, node);
    double bound = fmin(s->relax.bound, s->bounds[top]);
    if (bound <= cutoff(s))
        return TC_OK;
    if (shorten(s, node) == 0) {
        /* One choice is left in each class; rounding may not have come upon just these. */
        if (tc_knapsack_heuristic_take(&s->round, node.low))
            consider(s);
        return TC_OK;
    }
    struct cut cut = mixed_cut(s, node);
    if (cut.class < 0 || node.low[cut.class] > cut.after || node.high[cut.class] <= cut.after)
        cut = plain_cut(s, node);
    s->depth = top + 1;
    return split(s, cut, bound);
}

static void close_search(struct search *s)
{
    tc_knapsack_bound_free(&s->relax);
    tc_knapsack_heuristic_free(&s->round);
    free(s->nodes);
    free(s->bounds);
    s->nodes = NULL;
    s->bounds = NULL;
    s->capacity = 0;
    s->depth = 0;
}

/* Memory for the table as it is now, and the root on the stack. */
static enum tc_status open_search(struct search *s)
{
    struct tc_knapsack_table *t = s->table;
    s->node_size = 3 * t->classes + t->rows + 1;
    if (s->found->any)
        s->best = s->found->gain - t->base;
    enum tc_status status = tc_knapsack_bound_create(&s->relax, t);
    if (status == TC_OK)
        status = tc_knapsack_heuristic_create(&s->round, t);
    if (status == TC_OK)
        status = grow(s);
    if (status != TC_OK)
        return status;
    struct node root = node_at(s, 0);
    for (int i = 0; i < t->classes; i++) {
        root.low[i] = t->first[i];
        root.high[i] = t->first[i + 1] - 1;
    }
    tc_knapsack_bound_start(t, root.key, root.work);
    s->bounds[0] = INFINITY;
    s->depth = 1;
    return TC_OK;
}

/* Tells the caller what each choice can reach at most, as far as the first bound of the root knows. */
static void note_reach(struct search *s)
{
    double *reach = s->found->reach;
    s->found->reach = NULL; /* only once: the table shrinks, and loses count of the caller's choices */
    const struct tc_knapsack_table *t = s->table;
    for (int c = 0; reach && c < t->choices; c++) {
        double lost = s->relax.best[s->relax.owner[c]] - s->relax.value[c];
        reach[t->number[c]] = (double)t->base + (s->relax.bound - lost);
    }
}

/*
 * Bounds the root and drops for good what the bound excludes, if that is much: a smaller table makes every
 * node cheaper. TC_NO_RESULT: nothing better than what is found, if anything, exists.
 */
static enum tc_status shrink_root(struct search *s)
{
    struct tc_knapsack_table *t = s->table;
    struct node root = node_at(s, 0);
    enum tc_knapsack_relaxed end =
        tc_knapsack_bound_solve(&s->relax, root.low, root.high, cutoff(s), root.key, root.work);
    if (end != TC_RELAXED_IMPOSSIBLE)
        note_reach(s); /* whatever the multipliers, their bound holds */
    if (end != TC_RELAXED_BOUND)
        return TC_NO_RESULT;
    s->bounds[0] = s->relax.bound;
    round_off(s, root);
    if (s->relax.bound <= cutoff(s))
        return TC_NO_RESULT;
    bool *keep = calloc((size_t)t->choices + 1, sizeof *keep);
    if (!keep)
        return TC_NO_MEMORY;
    int kept = 0;
    for (int c = 0; c < t->choices; c++) {
        keep[c] = hopeful(s, s->relax.owner[c], c);
        kept += keep[c];
    }
    bool pays = kept < t->choices - t->choices / 8;
    enum tc_status status = pays ? tc_knapsack_table_reduce(t, keep) : TC_OK;
    free(keep);
    if (!pays || status != TC_OK)
        return status;
    double bound = s->bounds[0];
    close_search(s);
    status = open_search(s);
    if (status == TC_OK)
        s->bounds[0] = bound;
    return status;
}

/* The gain no answer in the nodes still waiting can surpass. */
static int64_t open_bound(const struct search *s)
{
    double bound = -INFINITY;
    for (size_t k = 0; k < s->depth; k++)
        bound = fmax(bound, s->bounds[k]);
    const struct tc_knapsack_table *t = s->table;
    int64_t more = 0;
    for (int i = 0; i < t->classes; i++) { /* the bound without any limit, for a root not yet bounded */
        int64_t most = 0;
        for (int c = t->first[i]; c < t->first[i + 1]; c++)
            most = t->gain[c] > most ? t->gain[c] : most;
        more += most;
    }
    if (bound < (double)more)
        more = (int64_t)floor(bound);
    int64_t gain = t->base + more;
    return s->found->any && gain < s->found->gain ? s->found->gain : gain;
}

static bool may_go_on(const struct search *s)
{
    const struct tc_knapsack_effort *effort = s->effort;
    int64_t nodes = s->found->nodes;
    if (!effort)
        return true;
    if (effort->nodes > 0 && nodes >= effort->nodes)
        return false;
    return !effort->go_on || nodes % ASK_EVERY != 0 || effort->go_on(effort->context, nodes);
}

enum tc_status tc_knapsack_branch(struct tc_knapsack_table *table, const struct tc_knapsack_effort *effort,
                                  struct tc_knapsack_found *found, int *picks)
{
    struct search s = {.table = table, .effort = effort, .found = found, .picks = picks};
    found->nodes = 0;
    found->proven = true;
    enum tc_status status = open_search(&s);
    if (status == TC_OK)
        status = shrink_root(&s);
    while (status == TC_OK && s.depth > 0) {
        if (!may_go_on(&s)) {
            found->proven = false;
            break;
        }
        found->nodes++;
        status = search_top(&s);
    }
    found->bound = found->proven ? found->gain : open_bound(&s);
    close_search(&s);
    return status == TC_NO_RESULT ? TC_OK : status;
}
