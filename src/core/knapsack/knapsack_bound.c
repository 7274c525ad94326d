/* SPDX-License-Identifier: MIT */
#include "core/knapsack/knapsack_bound.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

/* Shares are between 0 and 1 and parts too, so plain tolerances serve. */
#define PART_TOLERANCE  1e-9
#define PIVOT_TOLERANCE 1e-9

enum { PIVOTS_PER_ROW = 8, PIVOTS_AT_LEAST = 60 };

/* State of one call, to keep the functions below short. */
struct run {
    struct tc_knapsack_bound *x;
    const struct tc_knapsack_table *t;
    const int *low, *high;
    int *key, *work;
};

enum tc_status tc_knapsack_bound_create(struct tc_knapsack_bound *relax,
                                        const struct tc_knapsack_table *table)
{
    *relax = (struct tc_knapsack_bound){.table = table};
    size_t choices = (size_t)table->choices + 1;
    relax->value = calloc(choices, sizeof *relax->value);
    relax->along = calloc(choices, sizeof *relax->along);
    relax->best = calloc((size_t)table->classes + 1, sizeof *relax->best);
    relax->owner = calloc(choices, sizeof *relax->owner);
    if (!relax->value || !relax->along || !relax->best || !relax->owner) {
        tc_knapsack_bound_free(relax);
        return TC_NO_MEMORY;
    }
    for (int i = 0; i < table->classes; i++) {
        double largest = 0;
        for (int c = table->first[i]; c < table->first[i + 1]; c++) {
            largest = fmax(largest, table->weight[c]);
            relax->owner[c] = i;
        }
        relax->size += largest;
    }
    return TC_OK;
}

void tc_knapsack_bound_free(struct tc_knapsack_bound *relax)
{
    free(relax->value);
    free(relax->along);
    free(relax->best);
    free(relax->owner);
    *relax = (struct tc_knapsack_bound){0};
}

/* Of the choices allowed, the one with the largest figure in column. */
static int largest_in(const double *column, int low, int high)
{
    int best = low;
    for (int c = low + 1; c <= high; c++)
        if (column[c] > column[best])
            best = c;
    return best;
}

/* Every class takes its largest gain and no row costs anything: always dual feasible. */
void tc_knapsack_bound_start(const struct tc_knapsack_table *table, int *key, int *work)
{
    for (int i = 0; i < table->classes; i++)
        key[i] = largest_in(table->weight, table->first[i], table->first[i + 1] - 1);
    for (int r = 0; r < table->rows; r++)
        work[r] = -1 - r;
}

static bool allowed(const struct run *run, int choice)
{
    int i = run->x->owner[choice];
    return choice >= run->low[i] && choice <= run->high[i];
}

/* Line r of the basis matrix, column k: what a whole work[k] uses of row r more than its key. */
static double basis_entry(const struct run *run, int r, int k)
{
    int element = run->work[k];
    if (element < 0)
        return element == -1 - r ? 1.0 : 0.0;
    const double *share = run->t->share[r];
    return share[element] - share[run->key[run->x->owner[element]]];
}

/* Gauss-Jordan elimination with partial pivoting; false where the basis is singular. */
static bool invert_basis(struct run *run)
{
    int m = run->t->rows;
    double a[TC_KNAPSACK_TABLE_ROWS][TC_KNAPSACK_TABLE_ROWS];
    double(*inverse)[TC_KNAPSACK_TABLE_ROWS] = run->x->inverse;
    for (int r = 0; r < m; r++) {
        for (int k = 0; k < m; k++) {
            a[r][k] = basis_entry(run, r, k);
            inverse[r][k] = r == k ? 1.0 : 0.0;
        }
    }
    for (int k = 0; k < m; k++) {
        int pivot = k;
        for (int r = k + 1; r < m; r++)
            if (fabs(a[r][k]) > fabs(a[pivot][k]))
                pivot = r;
        if (fabs(a[pivot][k]) < PIVOT_TOLERANCE)
            return false;
        for (int j = 0; j < m; j++) {
            double held = a[k][j];
            a[k][j] = a[pivot][j];
            a[pivot][j] = held;
            held = inverse[k][j];
            inverse[k][j] = inverse[pivot][j];
            inverse[pivot][j] = held;
        }
        double scale = 1.0 / a[k][k];
        for (int j = 0; j < m; j++) {
            a[k][j] *= scale;
            inverse[k][j] *= scale;
        }
        for (int r = 0; r < m; r++) {
            double factor = a[r][k];
            if (r == k || factor == 0.0)
                continue;
            for (int j = 0; j < m; j++) {
                a[r][j] -= factor * a[k][j];
                inverse[r][j] -= factor * inverse[k][j];
            }
        }
    }
    return true;
}

/* Multipliers at which every basic element is worth exactly its class's key, or nothing if a slack. */
static void find_multipliers(struct run *run)
{
    int m = run->t->rows;
    for (int r = 0; r < m; r++) {
        double sum = 0;
        for (int k = 0; k < m; k++) {
            int element = run->work[k];
            if (element >= 0)
                sum += (run->t->weight[element] - run->t->weight[run->key[run->x->owner[element]]]) *
                       run->x->inverse[k][r];
        }
        run->x->multiplier[r] = sum > 0 ? sum : 0;
    }
}

/* The values of all choices allowed, and the Lagrangian bound with a margin for its rounding. */
static void find_bound(struct run *run)
{
    struct tc_knapsack_bound *x = run->x;
    const struct tc_knapsack_table *t = run->t;
    double sum = 0;
    double worth = 0;
    for (int r = 0; r < t->rows; r++)
        worth += x->multiplier[r];
    for (int i = 0; i < t->classes; i++) {
        int low = run->low[i];
        int high = run->high[i];
        for (int c = low; c <= high; c++)
            x->value[c] = t->weight[c];
        for (int r = 0; r < t->rows; r++) {
            double each = x->multiplier[r];
            const double *share = t->share[r];
            for (int c = low; each > 0 && c <= high; c++)
                x->value[c] -= each * share[c];
        }
        double best = x->value[low];
        for (int c = low + 1; c <= high; c++)
            best = x->value[c] > best ? x->value[c] : best;
        x->best[i] = best;
        sum += best;
    }
    /* Every operation errs by at most half an ulp of a figure no larger than this; counted generously. */
    double magnitude = x->size + worth * (t->classes + 1);
    x->bound = sum + worth + magnitude * DBL_EPSILON * 4 * (t->classes + t->rows + 4);
}

/* How much of every basic element the mixed solution takes. */
static void find_parts(struct run *run)
{
    int m = run->t->rows;
    double left[TC_KNAPSACK_TABLE_ROWS];
    for (int r = 0; r < m; r++) {
        const double *share = run->t->share[r];
        left[r] = 1.0;
        for (int i = 0; i < run->t->classes; i++)
            left[r] -= share[run->key[i]];
    }
    for (int k = 0; k < m; k++) {
        double sum = 0;
        for (int r = 0; r < m; r++)
            sum += run->x->inverse[k][r] * left[r];
        run->x->part[k] = sum;
    }
}

/* What the key of a class is left with when the other basic choices of the class have their parts. */
static double key_part(const struct run *run, int i)
{
    double part = 1.0;
    for (int k = 0; k < run->t->rows; k++)
        if (run->work[k] >= 0 && run->x->owner[run->work[k]] == i)
            part -= run->x->part[k];
    return part;
}

/* How far a part is outside what it may be. */
static double violation(double part, bool may_be_taken)
{
    if (part < -PART_TOLERANCE)
        return -part;
    return !may_be_taken && part > PART_TOLERANCE ? part : 0;
}

/*
 * Makes another basic choice of class i its key; the old key takes that
 * place k in the basis, which is returned. The largest allowed part is taken.
 */
static int change_key(struct run *run, int i)
{
    int best = -1;
    for (int k = 0; k < run->t->rows; k++) {
        if (run->work[k] < 0 || run->x->owner[run->work[k]] != i)
            continue;
        bool better = best < 0 || allowed(run, run->work[k]) > allowed(run, run->work[best]) ||
                      (allowed(run, run->work[k]) == allowed(run, run->work[best]) &&
                       run->x->part[k] > run->x->part[best]);
        if (better)
            best = k;
    }
    int held = run->key[i];
    run->key[i] = run->work[best];
    run->work[best] = held;
    return best;
}

/*
 * The place k in the basis of the element that is furthest outside its range, -1 where none is.
 * A key that must leave is exchanged first, so the inverse is renewed; *ok is false if that failed.
 */
static int leaving_place(struct run *run, bool *ok)
{
    double worst = 0;
    int place = -1;
    int key_of = -1;
    *ok = true;
    for (int k = 0; k < run->t->rows; k++) {
        int element = run->work[k];
        double out = violation(run->x->part[k], element < 0 || allowed(run, element));
        if (out > worst) {
            worst = out;
            place = k;
            key_of = -1;
        }
        if (element < 0)
            continue;
        int i = run->x->owner[element];
        out = violation(key_part(run, i), allowed(run, run->key[i]));
        if (out > worst) {
            worst = out;
            key_of = i;
        }
    }
    if (key_of < 0)
        return place;
    place = change_key(run, key_of);
    *ok = invert_basis(run);
    if (*ok)
        find_parts(run);
    return place;
}

/* What a choice is worth, also one that is not allowed now. */
static double value_of(const struct run *run, int choice)
{
    if (allowed(run, choice))
        return run->x->value[choice];
    double value = run->t->weight[choice];
    for (int r = 0; r < run->t->rows; r++)
        value -= run->x->multiplier[r] * run->t->share[r][choice];
    return value;
}

/* The best element to enter so far. */
struct entering {
    int element;
    double ratio, pivot;
};

static inline void try_element(struct entering *best, int element, double loss, double pivot)
{
    if (pivot <= PIVOT_TOLERANCE)
        return;
    double ratio = loss / pivot;
    if (ratio < best->ratio || (ratio == best->ratio && pivot > best->pivot))
        *best = (struct entering){element, ratio, pivot};
}

static bool slack_is_basic(const struct run *run, int row)
{
    for (int k = 0; k < run->t->rows; k++)
        if (run->work[k] == -1 - row)
            return true;
    return false;
}

/* The choices of one class; its key choice is what they are exchanged for. */
static void try_class(const struct run *run, int class, const double *line, double sign,
                      struct entering *best)
{
    struct tc_knapsack_bound *x = run->x;
    const struct tc_knapsack_table *t = run->t;
    int low = run->low[class], high = run->high[class];
    double from = 0;
    for (int r = 0; r < t->rows; r++)
        from += sign * line[r] * t->share[r][run->key[class]];
    for (int c = low; c <= high; c++)
        x->along[c] = -from;
    for (int r = 0; r < t->rows; r++) {
        double factor = sign * line[r];
        const double *share = t->share[r];
        for (int c = low; factor != 0.0 && c <= high; c++)
            x->along[c] += factor * share[c];
    }
    double top = value_of(run, run->key[class]);
    for (int c = low; c <= high; c++)
        try_element(best, c, top > x->value[c] ? top - x->value[c] : 0, x->along[c]);
}

/*
 * The element to enter in place of work[place], by the least loss of bound per
 * step; -1 - rows where there is none. sign is -1 where the part of the one
 * that leaves has to rise, +1 where it has to fall. Basic choices need no
 * exclusion: their pivots are 0, and that of the leaving one has the wrong sign.
 */
static int entering_element(const struct run *run, int place, double sign)
{
    const double *line = run->x->inverse[place];
    struct entering best = {-1 - run->t->rows, INFINITY, 0};
    for (int r = 0; r < run->t->rows; r++)
        if (!slack_is_basic(run, r))
            try_element(&best, -1 - r, run->x->multiplier[r], sign * line[r]);
    for (int i = 0; i < run->t->classes; i++)
        if (run->low[i] != run->high[i] || run->low[i] != run->key[i])
            try_class(run, i, line, sign, &best);
    return best.element;
}

/*
 * No element can enter: line (with its sign) combines the rows into one that
 * even the least uses break. Checked afresh, with a margin, before it counts.
 */
static bool certified_impossible(const struct run *run, int place, double sign)
{
    const struct tc_knapsack_table *t = run->t;
    double limit = 0;
    double least = 0;
    double factor[TC_KNAPSACK_TABLE_ROWS];
    for (int r = 0; r < t->rows; r++) {
        factor[r] = fmax(0, -sign * run->x->inverse[place][r]);
        limit += factor[r];
    }
    for (int i = 0; i < t->classes; i++) {
        double smallest = INFINITY;
        for (int c = run->low[i]; c <= run->high[i]; c++) {
            double use = 0;
            for (int r = 0; r < t->rows; r++)
                use += factor[r] * t->share[r][c];
            smallest = fmin(smallest, use);
        }
        least += smallest;
    }
    return least > limit * (1 + 1e-12 * (t->classes + t->rows + 4));
}

static bool has_work(const struct run *run, int i)
{
    for (int k = 0; k < run->t->rows; k++)
        if (run->work[k] >= 0 && run->x->owner[run->work[k]] == i)
            return true;
    return false;
}

/* A key that is no longer allowed and stands alone in its class makes way for the best one allowed. */
static void replace_lone_keys(struct run *run)
{
    for (int i = 0; i < run->t->classes; i++)
        if (!allowed(run, run->key[i]) && !has_work(run, i))
            run->key[i] = largest_in(run->x->value, run->low[i], run->high[i]);
}

enum tc_knapsack_relaxed tc_knapsack_bound_solve(struct tc_knapsack_bound *relax, const int *low,
                                                 const int *high, double cutoff, int *key, int *work)
{
    struct run run = {relax, relax->table, low, high, key, work};
    int most = PIVOTS_AT_LEAST + PIVOTS_PER_ROW * relax->table->rows;
    for (int pivots = 0;; pivots++) {
        if (!invert_basis(&run)) {
            tc_knapsack_bound_start(relax->table, key, work);
            (void)invert_basis(&run); /* the unit matrix */
        }
        find_multipliers(&run);
        find_bound(&run);
        replace_lone_keys(&run);
        find_parts(&run);
        if (relax->bound <= cutoff)
            return TC_RELAXED_CUT;
        if (pivots >= most)
            return TC_RELAXED_BOUND;
        bool ok;
        int place = leaving_place(&run, &ok);
        if (place < 0 || !ok)
            return TC_RELAXED_BOUND;
        double sign = relax->part[place] < 0 ? -1.0 : 1.0;
        int element = entering_element(&run, place, sign);
        if (element == -1 - relax->table->rows)
            return certified_impossible(&run, place, sign) ? TC_RELAXED_IMPOSSIBLE : TC_RELAXED_BOUND;
        work[place] = element;
    }
}
