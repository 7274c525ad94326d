/* SPDX-License-Identifier: MIT */
#include "core/cost/knowing.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

enum { TERMS = 4 }; /* of a cubic */

/* Sums over the draws for fitting the costs of all candidates by a cubic in one figure. */
struct fit {
    double power[2 * TERMS - 1];
    double (*product)[TERMS]; /* of each candidate's cost; solved, its coefficients */
};

static void swap(double *a, double *b)
{
    double kept = *a;
    *a = *b;
    *b = kept;
}

/* Solves for the coefficients of each candidate: Gauss with the largest pivot. False where the figure is
 * fixed.
 */
static bool solve_fit(struct fit *fit, int candidates)
{
    double a[TERMS][TERMS];
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            a[i][j] = fit->power[i + j];
    for (int k = 0; k < TERMS; k++) {
        int pivot = k;
        for (int i = k + 1; i < TERMS; i++)
            if (fabs(a[i][k]) > fabs(a[pivot][k]))
                pivot = i;
        if (!(fabs(a[pivot][k]) > 1e-12 * fit->power[0]))
            return false;
        for (int j = 0; j < TERMS; j++)
            swap(&a[k][j], &a[pivot][j]);
        for (int c = 0; c < candidates; c++)
            swap(&fit->product[c][k], &fit->product[c][pivot]);
        for (int i = 0; i < TERMS; i++) {
            double times = i == k ? 0 : a[i][k] / a[k][k];
            for (int j = k; j < TERMS; j++)
                a[i][j] -= times * a[k][j];
            for (int c = 0; c < candidates; c++)
                fit->product[c][i] -= times * fit->product[c][k];
        }
    }
    for (int k = 0; k < TERMS; k++)
        for (int c = 0; c < candidates; c++)
            fit->product[c][k] /= a[k][k];
    return true;
}

/* Costs count against those of the first candidate, so that what all pay does not blur the fit. */
static void add_up(struct fit *fit, const struct tc_knowing *knowing)
{
    for (size_t i = 0; i < knowing->draws; i++) {
        double power = 1;
        for (int k = 0; k < 2 * TERMS - 1; k++) {
            fit->power[k] += power;
            for (int c = 0; k < TERMS && c < knowing->candidates; c++)
                fit->product[c][k] +=
                    power * (knowing->costs[(size_t)c * knowing->stride + i] - knowing->costs[i]);
            power *= knowing->figure[i];
        }
    }
}

/* min over candidates of the mean less the mean of the min, of what is fitted. */
static double fitted_worth(const struct fit *fit, const struct tc_knowing *knowing)
{
    double least_mean = INFINITY, sum_of_least = 0;
    for (int c = 0; c < knowing->candidates; c++) {
        double sum = 0;
        for (int k = 0; k < TERMS; k++)
            sum += fit->product[c][k] * fit->power[k];
        least_mean = fmin(least_mean, sum / (double)knowing->draws);
    }
    for (size_t i = 0; i < knowing->draws; i++) {
        double least = INFINITY, x = knowing->figure[i];
        for (int c = 0; c < knowing->candidates; c++) {
            const double *f = fit->product[c];
            least = fmin(least, f[0] + x * (f[1] + x * (f[2] + x * f[3])));
        }
        sum_of_least += least;
    }
    return fmax(0, least_mean - sum_of_least / (double)knowing->draws);
}

enum tc_status tc_knowing_worth(const struct tc_knowing *knowing, double *worth)
{
    struct fit fit = {.product = calloc((size_t)knowing->candidates, sizeof *fit.product)};
    *worth = 0;
    if (!fit.product)
        return TC_NO_MEMORY;
    add_up(&fit, knowing);
    if (solve_fit(&fit, knowing->candidates))
        *worth = fitted_worth(&fit, knowing);
    free(fit.product);
    return TC_OK;
}
