/* SPDX-License-Identifier: MIT */
#include "core/knapsack/simplex.h"

#include <math.h>
#include <stdlib.h>

#define TOLERANCE       1e-9
#define PIVOT_TOLERANCE 1e-8
/* So small a part of a limit is added to each, another to each, that no two bases are equally good. */
#define PERTURBATION 1e-10

enum { PIVOTS_AT_LEAST = 200, PIVOTS_PER_ROW = 50, REFRESH_EVERY = 40 };

struct tc_simplex {
    int rows, columns, capacity;
    double limit[TC_SIMPLEX_ROWS_MAX]; /* scaled, perturbed */
    double scale[TC_SIMPLEX_ROWS_MAX]; /* what a row's figures are divided by */
    double *gain, *use;                /* use: rows of them a column, scaled */
    /* A basic element: a column, -1 - r for the slack of row r, -1 - rows - r for its artificial. */
    int basis[TC_SIMPLEX_ROWS_MAX];
    double inverse[TC_SIMPLEX_ROWS_MAX][TC_SIMPLEX_ROWS_MAX];
    double part[TC_SIMPLEX_ROWS_MAX];
    bool feasible;
};

enum tc_status tc_simplex_create(int rows, const double *limits, struct tc_simplex **simplex)
{
    *simplex = NULL;
    if (rows < 0 || rows > TC_SIMPLEX_ROWS_MAX)
        return TC_RANGE;
    struct tc_simplex *s = calloc(1, sizeof *s);
    if (!s)
        return TC_NO_MEMORY;
    s->rows = rows;
    s->feasible = true;
    for (int r = 0; r < rows; r++) {
        s->scale[r] = fabs(limits[r]) > 0 ? fabs(limits[r]) : 1;
        double sign = limits[r] < 0 ? -1.0 : 1.0;
        s->limit[r] = (fabs(limits[r]) > 0 ? sign : 0.0) + PERTURBATION * (r + 1);
        s->basis[r] = limits[r] < 0 ? -1 - rows - r : -1 - r;
        s->inverse[r][r] = sign;
        s->part[r] = fabs(s->limit[r]);
        s->feasible = s->feasible && limits[r] >= 0;
    }
    *simplex = s;
    return TC_OK;
}

void tc_simplex_free(struct tc_simplex *simplex)
{
    if (!simplex)
        return;
    free(simplex->gain);
    free(simplex->use);
    free(simplex);
}

enum tc_status tc_simplex_add(struct tc_simplex *s, double gain, const double *uses)
{
    if (s->columns == s->capacity) {
        int capacity = s->capacity ? 2 * s->capacity : 64;
        size_t each = (size_t)s->rows + 1;
        double *gains = realloc(s->gain, (size_t)capacity * sizeof *gains);
        if (gains)
            s->gain = gains;
        double *all = realloc(s->use, (size_t)capacity * each * sizeof *all);
        if (all)
            s->use = all;
        if (!gains || !all)
            return TC_NO_MEMORY;
        s->capacity = capacity;
    }
    double *use = s->use + (size_t)s->columns * (size_t)s->rows;
    for (int r = 0; r < s->rows; r++)
        use[r] = uses[r] / s->scale[r];
    s->gain[s->columns++] = gain;
    return TC_OK;
}

static bool is_artificial(const struct tc_simplex *s, int element)
{
    return element < -s->rows;
}

/* What an element uses of a row. */
static double use_of(const struct tc_simplex *s, int element, int r)
{
    if (element >= 0)
        return s->use[(size_t)element * (size_t)s->rows + (size_t)r];
    if (is_artificial(s, element))
        return -1 - s->rows - element == r ? -1.0 : 0.0;
    return -1 - element == r ? 1.0 : 0.0;
}

/* In the first phase only the artificials count, against us. */
static double gain_of(const struct tc_simplex *s, int element)
{
    if (!s->feasible)
        return is_artificial(s, element) ? -1.0 : 0.0;
    return element >= 0 ? s->gain[element] : 0.0;
}

static void find_multipliers(const struct tc_simplex *s, double *multiplier)
{
    for (int r = 0; r < s->rows; r++) {
        double sum = 0;
        for (int k = 0; k < s->rows; k++)
            sum += gain_of(s, s->basis[k]) * s->inverse[k][r];
        multiplier[r] = sum;
    }
}

/* The column or slack that gains most for each of it, INT-wise; returns false where none gains. */
static bool entering(const struct tc_simplex *s, const double *multiplier, int *element)
{
    double size = 1;
    for (int k = 0; k < s->rows; k++)
        size = fmax(size, fabs(gain_of(s, s->basis[k])));
    double most = TOLERANCE * size;
    bool any = false;
    for (int r = 0; r < s->rows; r++)
        if (-multiplier[r] > most) {
            most = -multiplier[r];
            *element = -1 - r;
            any = true;
        }
    for (int c = 0; c < s->columns; c++) {
        const double *use = s->use + (size_t)c * (size_t)s->rows;
        double value = s->feasible ? s->gain[c] : 0.0;
        for (int r = 0; r < s->rows; r++)
            value -= multiplier[r] * use[r];
        if (value > most) {
            most = value;
            *element = c;
            any = true;
        }
    }
    return any;
}

/* The inverse from the basis itself, by Gauss-Jordan elimination; false where it is singular. */
static bool refresh(struct tc_simplex *s)
{
    int m = s->rows;
    double a[TC_SIMPLEX_ROWS_MAX][TC_SIMPLEX_ROWS_MAX];
    for (int r = 0; r < m; r++)
        for (int k = 0; k < m; k++) {
            a[r][k] = use_of(s, s->basis[k], r);
            s->inverse[r][k] = r == k ? 1.0 : 0.0;
        }
    for (int k = 0; k < m; k++) {
        int pivot = k;
        for (int r = k + 1; r < m; r++)
            if (fabs(a[r][k]) > fabs(a[pivot][k]))
                pivot = r;
        if (fabs(a[pivot][k]) < 1e-12)
            return false;
        for (int j = 0; j < m; j++) {
            double held = a[k][j];
            a[k][j] = a[pivot][j];
            a[pivot][j] = held;
            held = s->inverse[k][j];
            s->inverse[k][j] = s->inverse[pivot][j];
            s->inverse[pivot][j] = held;
        }
        for (int r = 0; r < m; r++) {
            double factor = r == k ? 1 - 1 / a[k][k] : a[r][k] / a[k][k];
            for (int j = 0; factor != 0.0 && j < m; j++) {
                a[r][j] -= factor * a[k][j];
                s->inverse[r][j] -= factor * s->inverse[k][j];
            }
        }
    }
    for (int k = 0; k < m; k++) {
        s->part[k] = 0;
        for (int r = 0; r < m; r++)
            s->part[k] += s->inverse[k][r] * s->limit[r];
    }
    return true;
}

/* The place that leaves when an element comes in along `step`; -1 where nothing bounds it. */
static int leaving(const struct tc_simplex *s, const double *step)
{
    int place = -1;
    double least = INFINITY;
    for (int k = 0; k < s->rows; k++) {
        double ratio = INFINITY;
        if (step[k] > PIVOT_TOLERANCE)
            ratio = fmax(s->part[k], 0) / step[k];
        else if (s->feasible && is_artificial(s, s->basis[k]) && step[k] < -PIVOT_TOLERANCE)
            ratio = 0; /* it must stay at nothing: out with it */
        if (ratio < least || (ratio == least && place >= 0 && fabs(step[k]) > fabs(step[place]))) {
            least = ratio;
            place = k;
        }
    }
    return place;
}

static void pivot(struct tc_simplex *s, int place, int element, const double *step)
{
    double *line = s->inverse[place];
    for (int r = 0; r < s->rows; r++)
        line[r] /= step[place];
    s->part[place] /= step[place];
    for (int k = 0; k < s->rows; k++) {
        if (k == place || step[k] == 0.0)
            continue;
        for (int r = 0; r < s->rows; r++)
            s->inverse[k][r] -= step[k] * line[r];
        s->part[k] -= step[k] * s->part[place];
    }
    s->basis[place] = element;
}

/* Whether the artificials are at nothing. */
static bool keeps_limits(const struct tc_simplex *s)
{
    for (int k = 0; k < s->rows; k++)
        if (is_artificial(s, s->basis[k]) && s->part[k] > 1e-7)
            return false;
    return true;
}

bool tc_simplex_solve(struct tc_simplex *s, double *multiplier)
{
    int most = PIVOTS_AT_LEAST + PIVOTS_PER_ROW * s->rows;
    for (int pivots = 1;; pivots++) {
        s->feasible = s->feasible || keeps_limits(s);
        int element = 0;
        find_multipliers(s, multiplier);
        if (pivots > most || !entering(s, multiplier, &element))
            break;
        double step[TC_SIMPLEX_ROWS_MAX];
        for (int k = 0; k < s->rows; k++) {
            step[k] = 0;
            for (int r = 0; r < s->rows; r++)
                step[k] += s->inverse[k][r] * use_of(s, element, r);
        }
        int place = leaving(s, step);
        if (place < 0)
            break; /* the caller's columns all use something: rounding */
        pivot(s, place, element, step);
        if (pivots % REFRESH_EVERY == 0 && !refresh(s))
            break;
    }
    for (int r = 0; r < s->rows; r++)
        multiplier[r] = fmax(multiplier[r], 0) / s->scale[r];
    return s->feasible;
}
