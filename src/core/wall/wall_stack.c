/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_stack.h"

#include <math.h>
#include <stdlib.h>

/* Where the search is: rows[0] is the widest, those above it in the order of classes and lists. */
struct search {
    struct tc_wall_stacking *s;
    struct tc_wall_patterns *patterns;
    int *sorted;                   /* the rows kept, by rising width */
    int *rank;                     /* of each row in it */
    int *list;                     /* the rows kept, class after class, the dearest first */
    int *first;                    /* where a class begins; classes + 1 */
    double *best;                  /* for each class: the best of the rows not wider than the first */
    struct tc_wall_levels *levels; /* of these */
    int stack[TC_WALL_TIERS_MAX];
    double need; /* of the length of the first row */
    enum tc_status status;
};

static const struct tc_wall_row *row_of(const struct search *x, int row)
{
    return &x->s->rows->row[row];
}

/* Writes the stack as a pattern: the heaviest rows lowest. */
static void emit(struct search *x, int tiers, double surplus)
{
    int order[TC_WALL_TIERS_MAX];
    int tanks = 0;
    for (int t = 0; t < tiers; t++) {
        int k = t;
        for (; k > 0 && row_of(x, order[k - 1])->mass < row_of(x, x->stack[t])->mass; k--)
            order[k] = order[k - 1];
        order[k] = x->stack[t];
        tanks += row_of(x, x->stack[t])->tanks;
    }
    struct tc_wall_pattern *pattern = tc_wall_patterns_add(x->patterns, tanks);
    if (!pattern) {
        x->status = TC_NO_MEMORY;
        return;
    }
    pattern->frame = x->s->number;
    pattern->tiers = tiers;
    pattern->length = row_of(x, x->stack[0])->width + x->s->frame->own;
    struct tc_wall_spot *spot = &x->patterns->spot[pattern->first];
    for (int t = 0; t < tiers; t++)
        for (int r = order[t]; r >= 0; r = row_of(x, r)->before)
            *spot++ = (struct tc_wall_spot){(short)t, (short)row_of(x, r)->piece};
    x->s->surplus = fmax(x->s->surplus, surplus);
    if (x->s->seek == TC_WALL_SEEK_BEST)
        x->s->least = surplus;
    else if (x->patterns->count > x->s->most) {
        x->s->left = x->s->steps;
        x->s->steps = -1;
    }
}

/* What is left for further rows, and where in the lists they begin. */
struct left {
    int64_t height;
    double mass, pressure;
    double value; /* of the rows so far, bay and tiers paid */
    int tiers;    /* rows so far */
    int class, at;
};

static bool enough(const struct search *x, double value)
{
    double surplus = value - x->need;
    return x->s->seek == TC_WALL_SEEK_ALL ? surplus >= x->s->least : surplus > x->s->least;
}

static bool fits_on(const struct search *x, const struct tc_wall_row *row, const struct left *left)
{
    const struct tc_wall_frame *frame = x->s->frame;
    return frame->height_of[row->class] <= left->height && row->mass <= left->mass &&
           row->pressure <= left->pressure && left->tiers < frame->tiers;
}

static struct left with_row(const struct search *x, int row, const struct left *left, int class, int at)
{
    const struct tc_wall_row *r = row_of(x, row);
    return (struct left){
        .height = left->height - x->s->frame->height_of[r->class],
        .mass = left->mass - r->mass,
        .pressure = left->pressure - r->pressure,
        .value = left->value + r->value - x->s->prices->tier,
        .tiers = left->tiers + 1,
        .class = class,
        .at = at,
    };
}

static void pile(struct search *x, const struct left *left, int widest);

/* Piles up the rows of one class. */
static void pile_class(struct search *x, const struct left *left, int class, int widest)
{
    const struct tc_wall_frame *frame = x->s->frame;
    int64_t height = left->height - frame->height_of[class];
    if (height < 0 || left->tiers >= frame->tiers)
        return;
    double above =
        tc_wall_levels_worth(x->levels, frame->height_of[class], height, frame->tiers - left->tiers - 1);
    int at = class == left->class ? left->at : x->first[class];
    for (; at < x->first[class + 1] && x->s->steps >= 0 && x->status == TC_OK; at++) {
        const struct tc_wall_row *row = row_of(x, x->list[at]);
        if (!enough(x, left->value + row->value - x->s->prices->tier + above))
            return;
        x->s->steps--;
        if (x->rank[x->list[at]] > widest || !fits_on(x, row, left))
            continue;
        struct left next = with_row(x, x->list[at], left, class, at);
        x->stack[left->tiers] = x->list[at];
        pile(x, &next, widest);
    }
}

static void pile(struct search *x, const struct left *left, int widest)
{
    if (enough(x, left->value))
        emit(x, left->tiers, left->value - x->need);
    for (int class = left->class; class >= 0 && x->s->steps >= 0 && x->status == TC_OK; class --)
        pile_class(x, left, class, widest);
}

/* Bays in which row `rank` is the widest, by the order of widths. */
static void pile_on(struct search *x, int rank)
{
    const struct tc_wall_frame *frame = x->s->frame;
    const struct tc_wall_row *row = row_of(x, x->sorted[rank]);
    bool news = false;
    for (int i = row->class; i < frame->classes; i++)
        if (row->value > x->best[i]) {
            x->best[i] = row->value;
            news = true;
        }
    if (news)
        tc_wall_levels_find(frame, x->s->prices, x->best, x->levels);
    const struct left all = {frame->height, frame->bay_mass, frame->pressure, -x->s->prices->bay, 0, 0, 0};
    x->s->steps--;
    if (!fits_on(x, row, &all))
        return;
    x->need = x->s->need(x->s->context, row->width + frame->own);
    struct left left = with_row(x, x->sorted[rank], &all, frame->classes - 1, x->first[frame->classes - 1]);
    double above = tc_wall_levels_worth(x->levels, INT64_MAX, left.height, frame->tiers - 1);
    if (!enough(x, left.value + above))
        return;
    x->stack[0] = x->sorted[rank];
    pile(x, &left, rank);
}

/* Both orders end with that of the array, so that they are the same everywhere. */
static int compare_width(const void *a, const void *b)
{
    const struct tc_wall_row *x = *(const struct tc_wall_row *const *)a;
    const struct tc_wall_row *y = *(const struct tc_wall_row *const *)b;
    if (x->width != y->width)
        return x->width > y->width ? 1 : -1;
    return (x > y) - (x < y);
}

static int compare_value(const void *a, const void *b)
{
    const struct tc_wall_row *x = *(const struct tc_wall_row *const *)a;
    const struct tc_wall_row *y = *(const struct tc_wall_row *const *)b;
    if (x->class != y->class)
        return x->class - y->class;
    if (x->value != y->value)
        return x->value < y->value ? 1 : -1;
    return (x > y) - (x < y);
}

/* The rows kept, in an order, as numbers. */
static bool sort_by(const struct tc_wall_rows *rows, int (*compare)(const void *, const void *), int *sorted)
{
    const struct tc_wall_row **row = calloc((size_t)rows->keeps + 1, sizeof *row);
    if (!row)
        return false;
    for (int k = 0; k < rows->keeps; k++)
        row[k] = &rows->row[rows->kept[k]];
    qsort(row, (size_t)rows->keeps, sizeof *row, compare);
    for (int k = 0; k < rows->keeps; k++)
        sorted[k] = (int)(row[k] - rows->row);
    free(row);
    return true;
}

static void sort_rows(struct search *x)
{
    const struct tc_wall_rows *rows = x->s->rows;
    if (!sort_by(rows, compare_width, x->sorted) || !sort_by(rows, compare_value, x->list)) {
        x->status = TC_NO_MEMORY;
        return;
    }
    for (int k = 0; k < rows->keeps; k++)
        x->rank[x->sorted[k]] = k;
    int at = 0;
    for (int class = 0; class < x->s->frame->classes; class ++) {
        x->first[class] = at;
        while (at < rows->keeps && row_of(x, x->list[at])->class == class)
            at++;
    }
    x->first[x->s->frame->classes] = at;
}

enum tc_status tc_wall_stack(struct tc_wall_stacking *s, struct tc_wall_patterns *patterns)
{
    size_t kept = (size_t)s->rows->keeps + 1;
    size_t classes = (size_t)s->frame->classes + 1;
    struct search x = {.s = s, .patterns = patterns};
    x.sorted = calloc(kept, sizeof *x.sorted);
    x.list = calloc(kept, sizeof *x.list);
    x.rank = calloc((size_t)s->rows->count + 1, sizeof *x.rank);
    x.first = calloc(classes, sizeof *x.first);
    x.best = calloc(classes, sizeof *x.best);
    x.levels = malloc(sizeof *x.levels);
    s->surplus = -INFINITY;
    if (!x.sorted || !x.list || !x.rank || !x.first || !x.best || !x.levels)
        x.status = TC_NO_MEMORY;
    if (x.status == TC_OK && s->frame->classes > 0) {
        x.levels->count = 0;
        for (int i = 0; i < s->frame->classes; i++)
            x.best[i] = -INFINITY;
        sort_rows(&x);
        for (int rank = 0; rank < s->rows->keeps && s->steps >= 0 && x.status == TC_OK; rank++)
            pile_on(&x, rank);
    }
    free(x.sorted);
    free(x.list);
    free(x.rank);
    free(x.first);
    free(x.best);
    free(x.levels);
    return x.status;
}
