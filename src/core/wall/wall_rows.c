/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_rows.h"

#include <math.h>
#include <stdlib.h>

#include "core/base/grow.h"

enum { LIVE_MOST = 4000 };

void tc_wall_rows_free(struct tc_wall_rows *rows)
{
    free(rows->row);
    free(rows->kept);
    *rows = (struct tc_wall_rows){0};
}

void tc_wall_steps_free(struct tc_wall_steps *steps)
{
    free(steps->width);
    free(steps->value);
    *steps = (struct tc_wall_steps){0};
}

/* Room for one more row, and one more kept. */
static enum tc_status reserve(struct tc_wall_rows *rows)
{
    struct tc_wall_row *row = tc_grow(rows->row, (size_t)rows->count, &rows->capacity, sizeof *row);
    if (row)
        rows->row = row;
    int *kept = tc_grow(rows->kept, (size_t)rows->keeps, &rows->kept_capacity, sizeof *kept);
    if (kept)
        rows->kept = kept;
    return row && kept ? TC_OK : TC_NO_MEMORY;
}

/* The row with a piece more (before: -1 for none); false where it cannot be. */
static bool extend(const struct tc_wall_frame *frame, const struct tc_wall_rows *rows, int before, int piece,
                   double value, struct tc_wall_row *row)
{
    static const struct tc_wall_row none = {.before = -1};
    const struct tc_wall_row *from = before >= 0 ? &rows->row[before] : &none;
    const struct tc_wall_piece *p = &frame->piece[piece];
    *row = (struct tc_wall_row){
        .width = from->width + p->width,
        .mass = from->mass + p->mass,
        .pressure = fmax(from->pressure, p->pressure),
        .value = from->value + value,
        .class = from->class > p->class ? from->class : p->class,
        .before = before,
        .piece = piece,
        .tanks = from->tanks + 1,
    };
    return row->width <= frame->row_width && row->mass <= frame->row_mass && row->tanks <= frame->row_tanks &&
           row->mass <= frame->bay_mass && row->pressure <= frame->pressure;
}

/* Whether a is at least as good as b in all that a limit depends on. */
static bool surpasses(const struct tc_wall_frame *frame, const struct tc_wall_row *a,
                      const struct tc_wall_row *b)
{
    bool massive = isfinite(frame->row_mass) || isfinite(frame->bay_mass);
    return a->value >= b->value && a->width <= b->width && a->class <= b->class &&
           (a->tanks <= b->tanks || frame->row_tanks > 1) && (!massive || a->mass <= b->mass) &&
           (!isfinite(frame->pressure) || a->pressure <= b->pressure);
}

/* Keeps the row unless another surpasses it; those it surpasses go, but for the ones that others extend. */
static void keep_best(const struct tc_wall_frame *frame, struct tc_wall_rows *rows)
{
    const struct tc_wall_row *added = &rows->row[rows->count - 1];
    for (int k = 0; k < rows->keeps; k++)
        if (surpasses(frame, &rows->row[rows->kept[k]], added))
            return;
    rows->kept[rows->keeps++] = rows->count - 1;
}

/* Drops what later rows surpass. */
static void drop_surpassed(const struct tc_wall_frame *frame, struct tc_wall_rows *rows, int from)
{
    int kept = from;
    for (int b = from; b < rows->keeps; b++) {
        bool surpassed = false;
        for (int a = b + 1; !surpassed && a < rows->keeps; a++)
            surpassed = surpasses(frame, &rows->row[rows->kept[a]], &rows->row[rows->kept[b]]);
        if (!surpassed)
            rows->kept[kept++] = rows->kept[b];
    }
    rows->keeps = kept;
}

/* Whether another piece is at least as good in everything; of equals the first stays. */
static bool piece_surpassed(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices, int piece)
{
    const struct tc_wall_piece *b = &frame->piece[piece];
    double value = prices->tank[b->model];
    for (int k = 0; k < frame->count; k++) {
        const struct tc_wall_piece *a = &frame->piece[k];
        double other = prices->tank[a->model];
        bool as_good = other >= value && a->width <= b->width && a->height <= b->height &&
                       a->mass <= b->mass && a->pressure <= b->pressure;
        bool equal = other == value && a->width == b->width && a->height == b->height && a->mass == b->mass &&
                     a->pressure == b->pressure;
        if (k != piece && as_good && (!equal || k < piece))
            return true;
    }
    return false;
}

/* Extends all rows kept, and those that come of it, by a piece. */
static enum tc_status extend_all(const struct tc_wall_frame *frame, double value, int piece,
                                 struct tc_wall_rows *rows)
{
    for (int k = -1; k < rows->keeps && rows->keeps < LIVE_MOST; k++) {
        if (reserve(rows) != TC_OK)
            return TC_NO_MEMORY;
        if (!extend(frame, rows, k < 0 ? -1 : rows->kept[k], piece, value, &rows->row[rows->count]))
            continue;
        rows->count++;
        keep_best(frame, rows);
    }
    return TC_OK;
}

enum tc_status tc_wall_rows_best(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                                 struct tc_wall_rows *rows, bool *whole)
{
    enum tc_status status = TC_OK;
    rows->count = rows->keeps = 0;
    for (int class = 0; class < frame->classes; class ++) {
        int from = rows->keeps;
        for (int i = 0; status == TC_OK && i < frame->count; i++) {
            double value = prices->tank[frame->piece[i].model];
            if (frame->piece[i].class != class || value <= 0 || piece_surpassed(frame, prices, i))
                continue;
            status = extend_all(frame, value, i, rows);
            /* What this class adds may surpass what it added before, never what is lower. */
            drop_surpassed(frame, rows, from);
        }
    }
    *whole = rows->keeps < LIVE_MOST;
    return status;
}

static int by_width(const void *a, const void *b)
{
    const struct tc_wall_row *x = *(const struct tc_wall_row *const *)a;
    const struct tc_wall_row *y = *(const struct tc_wall_row *const *)b;
    return (x->width > y->width) - (x->width < y->width);
}

/* The values of a step more, copied from the one before; NULL if out of memory. */
static double *add_step(struct tc_wall_steps *steps, int64_t width)
{
    if (steps->count == steps->capacity) {
        int capacity = steps->capacity ? 2 * steps->capacity : 64;
        int64_t *widths = realloc(steps->width, (size_t)capacity * sizeof *widths);
        if (widths)
            steps->width = widths;
        double *values = realloc(steps->value, (size_t)capacity * (size_t)steps->each * sizeof *values);
        if (values)
            steps->value = values;
        if (!widths || !values)
            return NULL;
        steps->capacity = capacity;
    }
    double *to = steps->value + (size_t)steps->count * (size_t)steps->each;
    for (int i = 0; i < steps->each; i++)
        to[i] = steps->count > 0 ? to[i - steps->each] : -INFINITY;
    steps->width[steps->count++] = width;
    return to;
}

enum tc_status tc_wall_row_values(const struct tc_wall_frame *frame, const struct tc_wall_rows *rows,
                                  struct tc_wall_steps *steps)
{
    steps->each = frame->classes > 0 ? frame->classes : 1;
    steps->count = 0;
    const struct tc_wall_row **sorted = calloc((size_t)rows->keeps + 1, sizeof *sorted);
    if (!sorted)
        return TC_NO_MEMORY;
    for (int k = 0; k < rows->keeps; k++)
        sorted[k] = &rows->row[rows->kept[k]];
    qsort(sorted, (size_t)rows->keeps, sizeof *sorted, by_width);
    enum tc_status status = TC_OK;
    for (int k = 0; status == TC_OK && k < rows->keeps; k++) {
        double *values =
            steps->count > 0 ? steps->value + (size_t)(steps->count - 1) * (size_t)steps->each : NULL;
        if (values && values[sorted[k]->class] >= sorted[k]->value)
            continue;
        if (!values || steps->width[steps->count - 1] != sorted[k]->width)
            values = add_step(steps, sorted[k]->width);
        if (!values) {
            status = TC_NO_MEMORY;
            break;
        }
        for (int i = sorted[k]->class; i < frame->classes; i++)
            values[i] = fmax(values[i], sorted[k]->value);
    }
    free(sorted);
    return status;
}

/* ------------------------------------------------------------------ rows near the best */

/* What the listing of rows near the best hands down. */
struct listing {
    const struct tc_wall_frame *frame;
    const struct tc_wall_prices *prices;
    const struct tc_wall_steps *steps;
    const double
        *beside; /* for each class and step: the value of what stands above a row, its price taken off */
    tc_wall_need *need;
    const void *context;
    int order[TC_WALL_PIECES_MAX]; /* the pieces, those of most value a width first */
    double density[TC_WALL_PIECES_MAX];
    int most;
    struct tc_wall_rows *rows;
    bool whole;
};

/*
 * Whether a bay with a row of this value and width, or of such a row filled up
 * at this density, can be worth what it has to be.
 */
static bool may_reach(const struct listing *l, int64_t width, int class, double value, double density)
{
    const struct tc_wall_steps *steps = l->steps;
    const double *beside = l->beside + (size_t) class * (size_t)(steps->count + 1);
    for (int b = 0; b <= steps->count; b++) {
        /* Step b is in force from one width to the next; before the first, no other row is. */
        int64_t from = b > 0 ? steps->width[b - 1] : 0;
        int64_t to = b < steps->count ? steps->width[b] : l->frame->row_width;
        if (to < width || (b < steps->count && to == width))
            continue;
        int64_t low = from > width ? from : width;
        double filled = value + density * (double)((density > 0 ? to : low) - width);
        if (filled + beside[b] >= l->need(l->context, low + l->frame->own))
            return true;
    }
    return false;
}

static enum tc_status list_from(struct listing *l, int before, int start)
{
    const struct tc_wall_frame *frame = l->frame;
    for (int k = start; k < frame->count && l->whole; k++) {
        int piece = l->order[k];
        if (reserve(l->rows) != TC_OK)
            return TC_NO_MEMORY;
        int at = l->rows->count;
        struct tc_wall_row *row = &l->rows->row[at];
        if (!extend(frame, l->rows, before, piece, l->prices->tank[frame->piece[piece].model], row))
            continue;
        double density = fmax(l->density[k], 0);
        if (!may_reach(l, row->width, row->class, row->value, density))
            continue;
        l->rows->count++;
        if (may_reach(l, row->width, row->class, row->value, 0))
            l->rows->kept[l->rows->keeps++] = at;
        if (l->rows->keeps > l->most || l->rows->count > 40 * l->most) {
            l->whole = false;
            return TC_OK;
        }
        enum tc_status status = list_from(l, at, k);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

static void order_pieces(struct listing *l)
{
    const struct tc_wall_frame *frame = l->frame;
    for (int i = 0; i < frame->count; i++) {
        const struct tc_wall_piece *p = &frame->piece[i];
        double density = l->prices->tank[p->model] / (double)p->width;
        int k = i;
        for (; k > 0 && l->density[k - 1] < density; k--) {
            l->order[k] = l->order[k - 1];
            l->density[k] = l->density[k - 1];
        }
        l->order[k] = i;
        l->density[k] = density;
    }
}

enum tc_status tc_wall_rows_near(const struct tc_wall_frame *frame, const struct tc_wall_prices *prices,
                                 const struct tc_wall_steps *steps, tc_wall_need *need, const void *context,
                                 int most, struct tc_wall_rows *rows, bool *whole)
{
    struct listing *l = malloc(sizeof *l);
    size_t each = (size_t)steps->count + 1;
    double *beside = calloc((size_t)frame->classes * each + 1, sizeof *beside);
    rows->count = rows->keeps = 0;
    *whole = true;
    if (!l || !beside) {
        free(l);
        free(beside);
        return TC_NO_MEMORY;
    }
    *l = (struct listing){frame, prices, steps, beside, need, context, {0}, {0}, most, rows, true};
    for (int class = 0; class < frame->classes; class ++)
        for (int b = 0; b <= steps->count; b++) {
            const double *values = b > 0 ? steps->value + (size_t)(b - 1) * (size_t)steps->each : NULL;
            int64_t height = frame->height - frame->height_of[class];
            double above = values ? tc_wall_stack_value(frame, prices, values, height, frame->tiers - 1) : 0;
            beside[(size_t) class * each + (size_t)b] = above - prices->tier - prices->bay;
        }
    order_pieces(l);
    enum tc_status status = list_from(l, -1, 0);
    *whole = l->whole;
    free(beside);
    free(l);
    return status;
}
