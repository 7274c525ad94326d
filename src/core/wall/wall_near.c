/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_near.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/wall/wall_stack.h"

/* Rounding of sums of a few hundred figures, generously. */
#define MARGIN (1e4 * DBL_EPSILON)

static int grid_of(const struct tc_wall_fillings *f, int64_t length)
{
    if (length < 0)
        return -1;
    return (int)(length * TC_WALL_GRID / (f->length > 0 ? f->length : 1));
}

double tc_wall_filling_worth(const struct tc_wall_fillings *f, int64_t length)
{
    int at = grid_of(f, length);
    return at < 0 ? -INFINITY : f->worth[at < TC_WALL_GRID ? at : TC_WALL_GRID];
}

/* The best bays of a circuit, by what they take of the grid: offer[length]. */
static void offer_bays(const struct tc_wall_master *m, const struct tc_wall_fillings *f, int stretch,
                       int circuit, double *offer)
{
    const struct tc_wall_frame *frame = &m->frame[stretch];
    const struct tc_wall_steps *steps = &f->steps[circuit];
    for (int b = 0; b < steps->count; b++) {
        int64_t length = steps->width[b] + frame->own;
        int at = grid_of(f, length);
        const double *values = steps->value + (size_t)b * (size_t)steps->each;
        double value = tc_wall_stack_value(frame, &f->prices[circuit], values, frame->height, frame->tiers) -
                       f->prices[circuit].bay - f->each * (double)length;
        if (at <= TC_WALL_GRID && value > offer[at])
            offer[at] = value;
    }
}

/* The best of the offers for every length of the grid; the shorter of two offers that is no worse is enough.
 */
static void fill_up(const double *offer, double *worth)
{
    int length[TC_WALL_GRID] = {0}, count = 0;
    double best = 0;
    for (int b = 1; b <= TC_WALL_GRID; b++)
        if (offer[b] > best) {
            best = offer[b];
            length[count++] = b;
        }
    for (int k = 1; k <= TC_WALL_GRID; k++) {
        worth[k] = worth[k - 1];
        for (int i = 0; i < count && length[i] <= k; i++)
            if (worth[k - length[i]] + offer[length[i]] > worth[k])
                worth[k] = worth[k - length[i]] + offer[length[i]];
    }
}

static enum tc_status fill_stretch(const struct tc_wall_master *m, int stretch, struct tc_wall_fillings *f,
                                   struct tc_wall_rows *rows)
{
    double offer[TC_WALL_GRID + 1];
    enum tc_status status = TC_OK;
    f->length = m->frame[stretch].length;
    f->whole = true;
    f->worth = calloc(TC_WALL_GRID + 1, sizeof *f->worth);
    if (!f->worth)
        return TC_NO_MEMORY;
    for (int k = 0; k <= TC_WALL_GRID; k++)
        offer[k] = 0;
    for (int c = 0; status == TC_OK && c < m->circuits; c++) {
        bool whole = true;
        tc_wall_master_prices(m, stretch, c, false, &f->prices[c], &f->each);
        status = tc_wall_rows_best(&m->frame[stretch], &f->prices[c], rows, &whole);
        if (status == TC_OK)
            status = tc_wall_row_values(&m->frame[stretch], rows, &f->steps[c]);
        if (status == TC_OK)
            offer_bays(m, f, stretch, c, offer);
        f->whole = f->whole && whole;
    }
    /* A bay of no length on the grid would stand for ever. */
    f->whole = f->whole && offer[0] <= 0;
    fill_up(offer, f->worth);
    return status;
}

enum tc_status tc_wall_bound_make(const struct tc_wall_master *m, struct tc_wall_bound *bound)
{
    *bound = (struct tc_wall_bound){.stretches = m->stretches, .whole = true};
    struct tc_wall_rows rows = {0};
    enum tc_status status = TC_OK;
    bound->base = tc_wall_master_base(m);
    double size = m->size + fabs(bound->base);
    bound->value = bound->base;
    for (int s = 0; status == TC_OK && s < m->stretches; s++) {
        struct tc_wall_fillings *f = &bound->stretch[s];
        status = fill_stretch(m, s, f, &rows);
        if (status != TC_OK)
            break;
        bound->whole = bound->whole && f->whole;
        bound->value += f->worth[TC_WALL_GRID];
        size += fabs(f->worth[TC_WALL_GRID]);
    }
    bound->margin = MARGIN * size;
    bound->value += bound->margin;
    tc_wall_rows_free(&rows);
    return status;
}

void tc_wall_bound_free(struct tc_wall_bound *bound)
{
    for (int s = 0; s < bound->stretches; s++) {
        free(bound->stretch[s].worth);
        for (int c = 0; c < TC_WALL_CIRCUITS_MAX; c++)
            tc_wall_steps_free(&bound->stretch[s].steps[c]);
    }
    *bound = (struct tc_wall_bound){.stretches = 0};
}

/* Tries a multiplier of a row so many times as large; keeps it where the bound is tighter. */
static enum tc_status try_multiplier(struct tc_wall_master *m, int row, double times,
                                     struct tc_wall_bound *bound, bool *tighter)
{
    struct tc_wall_bound tried;
    double held = m->multiplier[row];
    m->multiplier[row] = held * times;
    tc_wall_master_measure(m);
    enum tc_status status = tc_wall_bound_make(m, &tried);
    *tighter = status == TC_OK && tried.whole && tried.value < bound->value;
    if (*tighter) {
        tc_wall_bound_free(bound);
        *bound = tried;
        return TC_OK;
    }
    m->multiplier[row] = held;
    tc_wall_master_measure(m);
    tc_wall_bound_free(&tried);
    return status;
}

enum tc_status tc_wall_bound_tighten(struct tc_wall_master *m, double least, struct tc_wall_bound *bound)
{
    static const double steps[] = {1.4, 1.15, 1.05, 1.15, 1.02};
    enum { STEPS = sizeof steps / sizeof steps[0], TURNS = 6 };
    enum tc_status status = TC_OK;
    for (int k = 0; k < 2 * STEPS * m->rows && status == TC_OK && least <= bound->value; k++) {
        int row = k / 2 % m->rows;
        double step = steps[k / 2 / m->rows];
        bool tighter = m->multiplier[row] > 0;
        for (int turn = 0; status == TC_OK && tighter && turn < TURNS; turn++)
            status = try_multiplier(m, row, k % 2 ? step : 1 / step, bound, &tighter);
    }
    return status;
}

/* What a bay of one stretch has to be worth: what is left of an answer's worth when the rest is the best. */
struct near_need {
    const struct tc_wall_fillings *filling;
    double least; /* what the stretch as a whole has to be worth */
};

static double near_need(const void *context, int64_t length)
{
    const struct near_need *need = context;
    double rest = tc_wall_filling_worth(need->filling, need->filling->length - length);
    return need->least - rest + need->filling->each * (double)length;
}

/* ------------------------------------------------------------------- bays of the same tanks */

struct counted {
    uint64_t mark; /* of the counts */
    int pattern;
};

static int by_mark(const void *a, const void *b)
{
    const struct counted *x = a;
    const struct counted *y = b;
    if (x->mark != y->mark)
        return x->mark < y->mark ? -1 : 1;
    return x->pattern - y->pattern;
}

static void count_tanks(const struct tc_wall_master *m, const struct tc_wall_patterns *patterns, int pattern,
                        int *tanks)
{
    const struct tc_wall_pattern *p = &patterns->pattern[pattern];
    for (int i = 0; i < m->count; i++)
        tanks[i] = 0;
    for (int k = 0; k < p->tanks; k++)
        tanks[m->frame[p->frame].piece[patterns->spot[p->first + k].piece].model]++;
}

static bool same_tanks(const struct tc_wall_master *m, const struct tc_wall_patterns *patterns, int a, int b)
{
    int x[TC_WALL_MODELS_MAX];
    int y[TC_WALL_MODELS_MAX];
    count_tanks(m, patterns, a, x);
    count_tanks(m, patterns, b, y);
    return memcmp(x, y, (size_t)m->count * sizeof *x) == 0;
}

static uint64_t mark_of(const struct tc_wall_master *m, const struct tc_wall_patterns *patterns, int pattern)
{
    int tanks[TC_WALL_MODELS_MAX];
    count_tanks(m, patterns, pattern, tanks);
    uint64_t mark = (uint64_t)patterns->pattern[pattern].frame;
    for (int i = 0; i < m->count; i++)
        mark = mark * UINT64_C(6364136223846793005) + (uint64_t)tanks[i] + 1442695;
    return mark;
}

/*
 * Whether pattern b has the tanks of another one that is as short and of as few tiers and is not dropped
 * itself; all are sorted by their marks, drop counts from `from`.
 */
static bool is_repeated(const struct tc_wall_master *m, const struct tc_wall_patterns *patterns,
                        const struct counted *all, int count, int b, const bool *drop, int from)
{
    const struct tc_wall_pattern *pb = &patterns->pattern[all[b].pattern];
    int a = b;
    while (a > 0 && all[a - 1].mark == all[b].mark)
        a--;
    for (; a < count && all[a].mark == all[b].mark; a++) {
        const struct tc_wall_pattern *pa = &patterns->pattern[all[a].pattern];
        bool equal = pa->length == pb->length && pa->tiers == pb->tiers;
        if (a != b && !drop[all[a].pattern - from] && pa->frame == pb->frame && pa->length <= pb->length &&
            pa->tiers <= pb->tiers && (!equal || a < b) &&
            same_tanks(m, patterns, all[a].pattern, all[b].pattern))
            return true;
    }
    return false;
}

/* Of patterns from `from` on that hold the same tanks in the same stretch those are kept that are shortest,
 * or of fewest tiers. */
static enum tc_status drop_repeated(const struct tc_wall_master *m, int from,
                                    struct tc_wall_patterns *patterns)
{
    int count = patterns->count - from;
    struct counted *all = calloc((size_t)count + 1, sizeof *all);
    bool *drop = calloc((size_t)count + 1, sizeof *drop);
    if (!all || !drop) {
        free(all);
        free(drop);
        return TC_NO_MEMORY;
    }
    for (int k = 0; k < count; k++)
        all[k] = (struct counted){mark_of(m, patterns, from + k), from + k};
    qsort(all, (size_t)count, sizeof *all, by_mark);
    for (int b = 0; b < count; b++)
        drop[all[b].pattern - from] = is_repeated(m, patterns, all, count, b, drop, from);
    int kept = from;
    for (int k = 0; k < count; k++)
        if (!drop[k])
            patterns->pattern[kept++] = patterns->pattern[from + k];
    patterns->count = kept;
    free(all);
    free(drop);
    return TC_OK;
}

/* Whether the prices of a circuit are those of one before, so that the same bays come of it. */
static bool seen_before(const struct tc_wall_master *m, const struct tc_wall_fillings *f, int circuit)
{
    for (int c = 0; c < circuit; c++)
        if (memcmp(f->prices[c].tank, f->prices[circuit].tank, (size_t)m->count * sizeof(double)) == 0)
            return true;
    return false;
}

enum tc_status tc_wall_near(const struct tc_wall_master *m, const struct tc_wall_bound *bound, double least,
                            int most, int64_t *steps, struct tc_wall_patterns *patterns, bool *whole)
{
    struct tc_wall_rows rows = {0};
    enum tc_status status = TC_OK;
    *whole = true;
    for (int s = 0; s < m->stretches && *whole && status == TC_OK; s++) {
        const struct tc_wall_fillings *f = &bound->stretch[s];
        double others = bound->value - f->worth[TC_WALL_GRID];
        struct near_need need = {f, least - others - bound->margin};
        int from = patterns->count;
        for (int c = 0; c < m->circuits && *whole && status == TC_OK; c++) {
            if (seen_before(m, f, c))
                continue;
            status = tc_wall_rows_near(&m->frame[s], &f->prices[c], &f->steps[c], near_need, &need, 4 * most,
                                       &rows, whole);
            struct tc_wall_stacking stacking = {.frame = &m->frame[s],
                                                .prices = &f->prices[c],
                                                .rows = &rows,
                                                .need = near_need,
                                                .context = &need,
                                                .seek = TC_WALL_SEEK_ALL,
                                                .number = s,
                                                .steps = *steps,
                                                .most = 8 * most};
            if (status == TC_OK && *whole)
                status = tc_wall_stack(&stacking, patterns);
            *whole = *whole && stacking.steps >= 0;
            *steps = stacking.steps >= 0 ? stacking.steps : stacking.left;
        }
        if (status == TC_OK && *whole)
            status = drop_repeated(m, from, patterns);
        *whole = *whole && patterns->count <= most;
    }
    tc_wall_rows_free(&rows);
    return status;
}
