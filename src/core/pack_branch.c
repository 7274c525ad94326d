/* SPDX-License-Identifier: MIT */
#include "core/pack_branch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/pack_relax.h"

enum { ASK_EVERY = 256 }; /* nodes between two questions whether to go on */

/* A node waiting to be searched, in one block of ints: low, high and key per class, then work per row. */
struct search {
    struct tc_pack_table *table;
    struct tc_pack_relax relax;
    const struct tc_pack_effort *effort;
    struct tc_pack_found *found;
    int *picks;
    int64_t best;   /* gain to surpass, in steps of the table, once found->any */
    int *trial;     /* a choice per class being tried */
    int *offer;     /* per class, what fill_up would exchange it for */
    int *nodes;     /* the stack of nodes */
    double *bounds; /* upper bound of each node on the stack, in steps */
    size_t depth;   /* nodes on the stack */
    size_t room;    /* nodes there is memory for */
    int node_size;  /* ints per node */
};

/* Steps towards minus infinity: the gain to surpass need not be a whole number of steps away. */
static int64_t steps_down(const struct tc_pack_table *t, int64_t gain)
{
    int64_t away = gain - t->base;
    int64_t steps = away / t->step;
    return away % t->step < 0 ? steps - 1 : steps;
}

/* A bound at or below this cannot hide a better answer. */
static double cutoff(const struct search *s)
{
    return s->found->any ? (double)s->best + 1.0 - 1e-9 - fabs((double)s->best) * 1e-15 : -INFINITY;
}

static int *node_at(const struct search *s, size_t depth)
{
    return s->nodes + depth * (size_t)s->node_size;
}

static enum tc_status grow(struct search *s)
{
    if (s->depth < s->room)
        return TC_OK;
    size_t room = s->room ? 2 * s->room : 64;
    int *nodes = realloc(s->nodes, room * (size_t)s->node_size * sizeof *nodes);
    if (nodes)
        s->nodes = nodes;
    double *bounds = realloc(s->bounds, room * sizeof *bounds);
    if (bounds)
        s->bounds = bounds;
    if (!nodes || !bounds)
        return TC_NO_MEMORY;
    s->room = room;
    return TC_OK;
}

/* What the trial leaves of each limit; negative where it breaks it. */
static void find_left(const struct search *s, int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    for (int r = 0; r < t->rows; r++) {
        left[r] = t->limit[r];
        for (int i = 0; i < t->classes; i++)
            left[r] -= t->use[r][s->trial[i]];
    }
}

/* The trial becomes the best answer found if it keeps all limits and is better. */
static void consider(struct search *s, const int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    for (int r = 0; r < t->rows; r++)
        if (left[r] < 0)
            return;
    int64_t gain = 0;
    for (int i = 0; i < t->classes; i++)
        gain += t->gain[s->trial[i]];
    if (s->found->any && gain <= s->best)
        return;
    s->found->any = true;
    s->best = gain;
    s->found->gain = t->base + t->step * gain;
    for (int i = 0; i < t->classes; i++)
        s->picks[i] = t->number[s->trial[i]];
}

static bool fits(const struct tc_pack_table *t, const int64_t *left, int instead_of, int choice)
{
    for (int r = 0; r < t->rows; r++)
        if (t->use[r][choice] - t->use[r][instead_of] > left[r])
            return false;
    return true;
}

static void exchange(struct search *s, int64_t *left, int i, int choice)
{
    const struct tc_pack_table *t = s->table;
    for (int r = 0; r < t->rows; r++)
        left[r] += t->use[r][s->trial[i]] - t->use[r][choice];
    s->trial[i] = choice;
}

/* The exchange within the run of class i that adds most gain and fits; the choice taken now if there is none.
 */
static int best_exchange(const struct search *s, int i, int low, int high, const int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    int now = s->trial[i];
    int best = now;
    for (int c = low; c <= high; c++)
        if (t->gain[c] > t->gain[best] && fits(t, left, now, c))
            best = c;
    return best;
}

/*
 * Exchanges one choice at a time, within the runs, for the one that adds most
 * gain and still fits. What fits hardly ever grows, so a class is looked
 * through again only when its exchange was made or fits no more.
 */
static void fill_up(struct search *s, const int *low, const int *high, int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    int n = t->classes;
    for (int i = 0; i < n; i++)
        s->offer[i] = best_exchange(s, i, low[i], high[i], left);
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
        if (fits(t, left, s->trial[class], s->offer[class]))
            exchange(s, left, class, s->offer[class]);
        s->offer[class] = best_exchange(s, class, low[class], high[class], left);
    }
}

/* The sum of a choice's shares of all limits, each weighed by how far it is broken. */
static double trouble(const struct tc_pack_table *t, const int64_t *left, int choice)
{
    double sum = 0;
    for (int r = 0; r < t->rows; r++)
        if (left[r] < 0)
            sum += t->share[r][choice];
    return sum;
}

static bool broken(const struct tc_pack_table *t, const int64_t *left)
{
    for (int r = 0; r < t->rows; r++)
        if (left[r] < 0)
            return true;
    return false;
}

/* Exchanges choices for those with the least loss of value per relief until no limit is broken, if it can. */
static void repair(struct search *s, const int *low, const int *high, int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    for (int round = 0; round < 2 * t->classes && broken(t, left); round++) {
        double best = INFINITY;
        int class = -1;
        int choice = -1;
        for (int i = 0; i < t->classes; i++) {
            int now = s->trial[i];
            double from = trouble(t, left, now);
            for (int c = low[i]; c <= high[i]; c++) {
                double relief = from - trouble(t, left, c);
                if (relief <= 0)
                    continue;
                double loss = s->relax.value[now] - s->relax.value[c];
                double ratio = (loss > 0 ? loss : 0) / relief;
                if (ratio < best) {
                    best = ratio;
                    class = i;
                    choice = c;
                }
            }
        }
        if (class < 0)
            return;
        exchange(s, left, class, choice);
    }
}

/* Where limits are broken, mixed classes take that choice of their mixture that uses least of these. */
static void take_smaller(struct search *s, const int *node, int64_t *left)
{
    const struct tc_pack_table *t = s->table;
    int n = t->classes;
    const int *work = node + 3 * n;
    for (int k = 0; k < t->rows; k++) {
        if (work[k] < 0)
            continue;
        int i = s->relax.owner[work[k]];
        const int other[] = {work[k], node[2 * n + i]};
        for (int j = 0; j < 2; j++) {
            bool may = other[j] >= node[i] && other[j] <= node[n + i];
            if (may && trouble(t, left, other[j]) < trouble(t, left, s->trial[i]))
                exchange(s, left, i, other[j]);
        }
    }
}

/* Rounds the relaxation's answer to a valid one and fills what is left. */
static void round_off(struct search *s, const int *node)
{
    const struct tc_pack_table *t = s->table;
    int n = t->classes;
    const int *low = node;
    const int *high = node + n;
    const int *key = node + 2 * n;
    const int *work = node + 3 * n;
    for (int i = 0; i < n; i++)
        s->trial[i] = key[i] >= low[i] && key[i] <= high[i] ? key[i] : low[i];
    for (int k = 0; k < t->rows; k++) {
        if (work[k] < 0 || s->relax.part[k] <= 0.5)
            continue;
        int i = s->relax.owner[work[k]];
        if (work[k] >= low[i] && work[k] <= high[i])
            s->trial[i] = work[k];
    }
    int64_t left[TC_PACK_TABLE_ROWS];
    find_left(s, left);
    if (broken(t, left))
        take_smaller(s, node, left);
    if (broken(t, left) && (s->found->nodes & 15) == 0)
        repair(s, low, high, left);
    if (broken(t, left))
        return;
    fill_up(s, low, high, left);
    consider(s, left);
}

/* Whether the bound still allows a better answer with this choice. */
static bool hopeful(const struct search *s, int i, int choice)
{
    return s->relax.bound - (s->relax.best[i] - s->relax.value[choice]) > cutoff(s);
}

/* Tries the one answer left in a node whose runs all have length one. */
static void try_only(struct search *s, const int *node)
{
    const struct tc_pack_table *t = s->table;
    int64_t left[TC_PACK_TABLE_ROWS];
    memcpy(s->trial, node, (size_t)t->classes * sizeof *node);
    find_left(s, left);
    consider(s, left);
}

/* Shortens the runs of a bounded node at both ends; returns the classes with more than one choice left. */
static int shorten(const struct search *s, int *node)
{
    int n = s->table->classes;
    int *low = node;
    int *high = node + n;
    int open = 0;
    for (int i = 0; i < n; i++) {
        while (low[i] < high[i] && !hopeful(s, i, low[i]))
            low[i]++;
        while (low[i] < high[i] && !hopeful(s, i, high[i]))
            high[i]--;
        open += low[i] < high[i];
    }
    return open;
}

/* Where to cut: class i's run after choice `after`; upper: the upper half is searched first. */
struct cut {
    int class;
    int after;
    bool upper;
};

/* The class the relaxation mixes most evenly, cut at the mean; -1 where it mixes none. */
static struct cut mixed_cut(const struct search *s, const int *node)
{
    const struct tc_pack_table *t = s->table;
    int n = t->classes;
    const int *low = node;
    const int *high = node + n;
    const int *key = node + 2 * n;
    const int *work = node + 3 * n;
    struct cut best = {-1, 0, false};
    double evenest = 1e-6;
    for (int k = 0; k < t->rows; k++) {
        if (work[k] < 0)
            continue;
        int i = s->relax.owner[work[k]];
        if (low[i] == high[i])
            continue;
        double mean = key[i];
        for (int j = 0; j < t->rows; j++)
            if (work[j] >= 0 && s->relax.owner[work[j]] == i)
                mean += s->relax.part[j] * (work[j] - key[i]);
        if (mean < low[i] || mean > high[i])
            continue;
        int after = (int)floor(mean);
        if (after >= high[i])
            after = high[i] - 1;
        double above = 0;
        for (int j = 0; j < t->rows; j++)
            if (work[j] > after && s->relax.owner[work[j]] == i)
                above += s->relax.part[j];
        if (key[i] > after) {
            above += 1;
            for (int j = 0; j < t->rows; j++)
                if (work[j] >= 0 && s->relax.owner[work[j]] == i)
                    above -= s->relax.part[j];
        }
        double even = above < 0.5 ? above : 1 - above;
        if (even > evenest) {
            evenest = even;
            best = (struct cut){i, after, above > 0.5};
        }
    }
    return best;
}

/* Any class with a run to cut: the longest, in the middle. */
static struct cut plain_cut(const struct search *s, const int *node)
{
    int n = s->table->classes;
    struct cut best = {-1, 0, false};
    int longest = 0;
    for (int i = 0; i < n; i++) {
        int length = node[n + i] - node[i];
        if (length > longest) {
            longest = length;
            best = (struct cut){i, node[i] + (length - 1) / 2, false};
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
    int n = s->table->classes;
    int *second = node_at(s, s->depth - 1);
    int *first = node_at(s, s->depth);
    memcpy(first, second, (size_t)s->node_size * sizeof *first);
    int *lower = cut.upper ? second : first;
    int *upper = cut.upper ? first : second;
    lower[n + cut.class] = cut.after;
    upper[cut.class] = cut.after + 1;
    s->bounds[s->depth - 1] = bound;
    s->bounds[s->depth] = bound;
    s->depth++;
    return TC_OK;
}

/* Searches the node on top of the stack: it goes, or its halves take its place. */
static enum tc_status search_top(struct search *s)
{
    int *node = node_at(s, s->depth - 1);
    int n = s->table->classes;
    double inherited = s->bounds[s->depth - 1];
    if (inherited <= cutoff(s)) {
        s->depth--;
        return TC_OK;
    }
    enum tc_pack_relaxed end =
        tc_pack_relax_solve(&s->relax, node, node + n, cutoff(s), node + 2 * n, node + 3 * n);
    if (end != TC_RELAXED_BOUND) {
        s->depth--;
        return TC_OK;
    }
    round_off(s, node);
    double bound = fmin(s->relax.bound, inherited);
    bool open = bound > cutoff(s) && shorten(s, node) > 0;
    if (!open) {
        s->depth--;
        if (bound > cutoff(s))
            try_only(s, node);
        return TC_OK;
    }
    struct cut cut = mixed_cut(s, node);
    if (cut.class < 0 || node[cut.class] > cut.after || node[n + cut.class] <= cut.after)
        cut = plain_cut(s, node);
    return split(s, cut, bound);
}

static void close_search(struct search *s)
{
    tc_pack_relax_free(&s->relax);
    free(s->trial);
    free(s->offer);
    free(s->nodes);
    free(s->bounds);
    s->trial = NULL;
    s->offer = NULL;
    s->nodes = NULL;
    s->bounds = NULL;
    s->room = 0;
    s->depth = 0;
}

/* Memory for the table as it is now, and the root on the stack. */
static enum tc_status open_search(struct search *s)
{
    struct tc_pack_table *t = s->table;
    int n = t->classes;
    s->node_size = 3 * n + t->rows + 1;
    if (s->found->any)
        s->best = steps_down(t, s->found->gain);
    s->trial = calloc((size_t)n + 1, sizeof *s->trial);
    s->offer = calloc((size_t)n + 1, sizeof *s->offer);
    enum tc_status status = tc_pack_relax_create(&s->relax, t);
    if (status == TC_OK)
        status = s->trial && s->offer ? grow(s) : TC_NO_MEMORY;
    if (status != TC_OK)
        return status;
    int *root = node_at(s, 0);
    for (int i = 0; i < n; i++) {
        root[i] = t->first[i];
        root[n + i] = t->first[i + 1] - 1;
    }
    tc_pack_relax_start(&s->relax, root + 2 * n, root + 3 * n);
    s->bounds[0] = INFINITY;
    s->depth = 1;
    return TC_OK;
}

/* Tells the caller what each choice can reach at most, as far as the first bound of the root knows. */
static void note_reach(struct search *s)
{
    double *reach = s->found->reach;
    s->found->reach = NULL; /* only once: the table shrinks, and loses count of the caller's choices */
    const struct tc_pack_table *t = s->table;
    for (int c = 0; reach && c < t->choices; c++) {
        double lost = s->relax.best[s->relax.owner[c]] - s->relax.value[c];
        reach[t->number[c]] = (double)t->base + (double)t->step * (s->relax.bound - lost);
    }
}

/*
 * Bounds the root and drops for good what the bound excludes, as long as that
 * pays: a smaller table makes every node cheaper. TC_NO_RESULT: nothing better
 * than what is found, if anything, exists.
 */
static enum tc_status shrink_root(struct search *s)
{
    struct tc_pack_table *t = s->table;
    for (;;) {
        int *root = node_at(s, 0);
        int n = t->classes;
        enum tc_pack_relaxed end =
            tc_pack_relax_solve(&s->relax, root, root + n, cutoff(s), root + 2 * n, root + 3 * n);
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
        enum tc_status status = pays ? tc_pack_table_reduce(t, keep) : TC_OK;
        free(keep);
        if (!pays || status != TC_OK)
            return status;
        close_search(s);
        status = open_search(s);
        if (status != TC_OK)
            return status;
    }
}

/* The gain no answer in the nodes still waiting can surpass. */
static int64_t open_bound(const struct search *s)
{
    double bound = -INFINITY;
    for (size_t k = 0; k < s->depth; k++)
        bound = fmax(bound, s->bounds[k]);
    const struct tc_pack_table *t = s->table;
    int64_t steps = 0;
    for (int i = 0; i < t->classes; i++) { /* the bound without any limit, for a root not yet bounded */
        int64_t most = 0;
        for (int c = t->first[i]; c < t->first[i + 1]; c++)
            most = t->gain[c] > most ? t->gain[c] : most;
        steps += most;
    }
    if (bound < (double)steps)
        steps = (int64_t)floor(bound);
    int64_t gain = t->base + t->step * steps;
    return s->found->any && gain < s->found->gain ? s->found->gain : gain;
}

static bool may_go_on(const struct search *s)
{
    const struct tc_pack_effort *effort = s->effort;
    int64_t nodes = s->found->nodes;
    if (!effort)
        return true;
    if (effort->nodes > 0 && nodes >= effort->nodes)
        return false;
    return !effort->go_on || nodes % ASK_EVERY != 0 || effort->go_on(effort->context, nodes);
}

enum tc_status tc_pack_branch(struct tc_pack_table *table, const struct tc_pack_effort *effort,
                              struct tc_pack_found *found, int *picks)
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
