/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_branch.h"

#include <math.h>
#include <stdlib.h>

enum { DEPTH_MOST = 400 };

/* A pattern on a circuit. */
struct item {
    int pattern, circuit, stretch;
    int64_t length, gain;
    double value;         /* at the bound's prices */
    const int64_t *use;   /* of each row */
    const int64_t *tanks; /* of each model on sale */
};

struct search {
    struct tc_wall_branching *b;
    const struct tc_wall_master *m;
    struct item *item; /* by stretch, by length, the worthiest first */
    int items;
    int first[TC_WALL_STRETCHES_MAX + 1];
    double behind[TC_WALL_STRETCHES_MAX + 1]; /* the best of the stretches from this one on, and the base */
    int64_t *figure;                          /* what the items point into */
    int rows;
    int row[TC_SIMPLEX_ROWS_MAX];    /* of the master */
    bool rises[TC_SIMPLEX_ROWS_MAX]; /* no item and no sale gives anything back */
    int64_t limit[TC_SIMPLEX_ROWS_MAX];
    int64_t rebate[TC_WALL_MODELS_MAX][TC_SIMPLEX_ROWS_MAX]; /* of one on sale, for each of master->sales */
    int64_t rebate_gain[TC_WALL_MODELS_MAX];
    double rebate_most; /* nothing gains more by what is on sale */
    int64_t used[TC_SIMPLEX_ROWS_MAX];
    int64_t sold[TC_WALL_MODELS_MAX]; /* tanks so far, of the models on sale */
    int stack[DEPTH_MOST];
    int depth;
    int64_t gain;
    enum tc_status status;
};

static void find_rows(struct search *x)
{
    const struct tc_wall_master *m = x->m;
    int64_t figure[TC_WALL_QUANTITIES];
    for (int r = 0; r < m->rows; r++) {
        bool of_sale = false;
        for (int i = 0; i < m->count; i++)
            of_sale = of_sale || r == m->sale[i] || r == m->sale_most[i];
        if (of_sale)
            continue;
        x->limit[x->rows] = m->limit[r];
        x->rises[x->rows] = true;
        x->row[x->rows++] = r;
    }
    for (int k = 0; k < m->sales; k++) {
        tc_wall_master_rebate(m, m->sale_model[k], figure);
        x->rebate_gain[k] = tc_wall_line_value(&m->goal, figure);
        x->rebate_most += fmax((double)x->rebate_gain[k], 0) * m->models[m->sale_model[k]].sale_most;
        for (int r = 0; r < x->rows && x->row[r] < m->limit_count; r++) {
            x->rebate[k][r] = tc_wall_line_value(&m->limits[x->row[r]].line, figure);
            x->rises[r] = x->rises[r] && x->rebate[k][r] >= 0;
        }
    }
}

static double value_of(const struct search *x, int pattern, int circuit)
{
    const struct tc_wall_pattern *p = &x->m->patterns.pattern[pattern];
    const struct tc_wall_fillings *f = &x->b->bound->stretch[p->frame];
    const struct tc_wall_prices *prices = &f->prices[circuit];
    double value = -prices->bay - p->tiers * prices->tier - f->each * (double)p->length;
    for (int k = 0; k < p->tanks; k++) {
        int piece = x->m->patterns.spot[p->first + k].piece;
        value += prices->tank[x->m->frame[p->frame].piece[piece].model];
    }
    return value;
}

static void add_item(struct search *x, int pattern, int circuit, int64_t *to)
{
    const struct tc_wall_master *m = x->m;
    int64_t figure[TC_WALL_QUANTITIES];
    int tanks[TC_WALL_MODELS_MAX];
    tc_wall_master_figures(m, pattern, circuit, figure, tanks);
    for (int r = 0; r < x->rows; r++) {
        int row = x->row[r];
        to[r] = row < m->limit_count ? tc_wall_line_value(&m->limits[row].line, figure) : 0;
        for (int i = 0; i < m->count; i++)
            to[r] += (row == m->most[i] ? tanks[i] : 0) - (row == m->least[i] ? tanks[i] : 0);
        x->rises[r] = x->rises[r] && to[r] >= 0;
    }
    for (int k = 0; k < m->sales; k++)
        to[x->rows + k] = tanks[m->sale_model[k]];
    x->item[x->items++] = (struct item){.pattern = pattern,
                                        .circuit = circuit,
                                        .stretch = m->patterns.pattern[pattern].frame,
                                        .length = m->patterns.pattern[pattern].length,
                                        .gain = tc_wall_line_value(&m->goal, figure),
                                        .value = value_of(x, pattern, circuit),
                                        .use = to,
                                        .tanks = to + x->rows};
}

static int by_length_and_value(const void *a, const void *b)
{
    const struct item *x = a;
    const struct item *y = b;
    if (x->stretch != y->stretch)
        return x->stretch - y->stretch;
    if (x->length != y->length)
        return x->length < y->length ? 1 : -1;
    if (x->value != y->value)
        return x->value < y->value ? 1 : -1;
    return x->pattern != y->pattern ? x->pattern - y->pattern : x->circuit - y->circuit;
}

static enum tc_status list_items(struct search *x)
{
    const struct tc_wall_master *m = x->m;
    size_t count = (size_t)m->patterns.count * (size_t)m->circuits;
    size_t each = (size_t)(x->rows + m->sales) + 1;
    x->item = calloc(count + 1, sizeof *x->item);
    x->figure = calloc((count + 1) * each, sizeof *x->figure);
    if (!x->item || !x->figure)
        return TC_NO_MEMORY;
    for (int p = 0; p < m->patterns.count; p++)
        for (int c = 0; c < m->circuits; c++)
            add_item(x, p, c, x->figure + (size_t)x->items * each);
    qsort(x->item, (size_t)x->items, sizeof *x->item, by_length_and_value);
    int at = 0;
    for (int s = 0; s < m->stretches; s++) {
        x->first[s] = at;
        while (at < x->items && x->item[at].stretch == s)
            at++;
    }
    x->first[m->stretches] = at;
    x->behind[m->stretches] = x->b->bound->base + x->b->bound->margin;
    for (int s = m->stretches - 1; s >= 0; s--)
        x->behind[s] = x->behind[s + 1] + x->b->bound->stretch[s].worth[TC_WALL_GRID];
    return TC_OK;
}

/* Weighs the bays on the stack as an answer. */
static void weigh(struct search *x)
{
    struct tc_wall_branching *b = x->b;
    int64_t gain = x->gain;
    int64_t cheap[TC_WALL_MODELS_MAX];
    for (int k = 0; k < x->m->sales; k++) {
        int64_t most = x->m->models[x->m->sale_model[k]].sale_most;
        cheap[k] = x->sold[k] < most ? x->sold[k] : most;
        gain += cheap[k] * x->rebate_gain[k];
    }
    if (b->found && gain <= b->worth)
        return;
    for (int r = 0; r < x->rows; r++) {
        int64_t used = x->used[r];
        for (int k = 0; k < x->m->sales; k++)
            used += cheap[k] * x->rebate[k][r];
        if (used > x->limit[r])
            return;
    }
    if (b->capacity < x->depth + 1) {
        int *grown = realloc(b->picked, (size_t)(x->depth + 1) * sizeof *grown);
        if (!grown) {
            x->status = TC_NO_MEMORY;
            return;
        }
        b->picked = grown;
        b->capacity = x->depth + 1;
    }
    b->found = true;
    b->worth = gain;
    b->least = (double)gain >= b->enough ? INFINITY : fmax(b->least, (double)gain + 1);
    b->bays = x->depth;
    for (int k = 0; k < x->depth; k++)
        b->picked[k] = x->item[x->stack[k]].pattern * x->m->circuits + x->item[x->stack[k]].circuit;
}

/* Whether the item keeps the limits that only fill up. */
static bool keeps(const struct search *x, const struct item *item)
{
    for (int r = 0; r < x->rows; r++)
        if (x->rises[r] && x->used[r] + item->use[r] > x->limit[r])
            return false;
    return x->depth < DEPTH_MOST;
}

/* Whether nothing fits behind an item, and it is not better itself than what is known. */
static bool ends_worse(const struct search *x, const struct item *item, int64_t left)
{
    const struct tc_wall_branching *b = x->b;
    bool last = item->stretch + 1 == x->m->stretches &&
                left - item->length < x->item[x->first[item->stretch + 1] - 1].length;
    return last && b->found && (double)(x->gain + item->gain) + x->rebate_most < (double)b->worth;
}

static void put(struct search *x, int at, int sign)
{
    const struct item *item = &x->item[at];
    for (int r = 0; r < x->rows; r++)
        x->used[r] += sign * item->use[r];
    for (int k = 0; k < x->m->sales; k++)
        x->sold[k] += sign * item->tanks[k];
    x->gain += sign * item->gain;
    if (sign > 0)
        x->stack[x->depth++] = at;
    else
        x->depth--;
}

/* Puts more bays in a stretch, none in front of `start` in the order of items; then goes on with the next. */
static void branch(struct search *x, int stretch, int start, int64_t left, double value)
{
    struct tc_wall_branching *b = x->b;
    if (stretch == x->m->stretches)
        return;
    const struct tc_wall_fillings *f = &b->bound->stretch[stretch];
    double behind = x->behind[stretch + 1];
    double rest = 0;
    int64_t length = -1;
    for (int i = start; i < x->first[stretch + 1] && b->steps >= 0 && x->status == TC_OK; i++) {
        const struct item *item = &x->item[i];
        b->steps--;
        if (item->length != length) {
            length = item->length;
            rest = tc_wall_filling_worth(f, left - length);
        }
        if (value + item->value + rest + behind < b->least) {
            /* Those behind it of the same length are worth less. */
            while (i + 1 < x->first[stretch + 1] && x->item[i + 1].length == length)
                i++;
            continue;
        }
        if (ends_worse(x, item, left) || !keeps(x, item))
            continue;
        put(x, i, 1);
        weigh(x);
        branch(x, stretch, i, left - length, value + item->value);
        put(x, i, -1);
    }
    if (stretch + 1 < x->m->stretches && value + behind >= b->least)
        branch(x, stretch + 1, x->first[stretch + 1], x->m->frame[stretch + 1].length, value);
}

enum tc_status tc_wall_branch(struct tc_wall_branching *b)
{
    struct search *x = calloc(1, sizeof *x);
    if (!x)
        return TC_NO_MEMORY;
    x->b = b;
    x->m = b->master;
    b->bays = -1;
    find_rows(x);
    x->status = list_items(x);
    if (x->status == TC_OK) {
        weigh(x); /* nothing at all */
        branch(x, 0, x->first[0], x->m->frame[0].length, 0);
    }
    enum tc_status status = x->status;
    free(x->item);
    free(x->figure);
    free(x);
    return status;
}
