/* SPDX-License-Identifier: MIT */
/* Present value of an item's replacements: the closed form against adding up its terms. */
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "core/cost/lifecycle.h"

enum { ITEMS = 1000000, YEARS = 20 };

static double by_terms(const struct tc_item_life *item, double d, int years)
{
    double sum = 0;
    int count = tc_item_replacements(item, years);
    for (int k = 0; k < count; k++)
        sum += item->replacement_price * tc_single_present_value(d, tc_item_replacement_time(item, k));
    return sum;
}

static double run(double (*value)(const struct tc_item_life *, double, int), const char *name)
{
    double sum = 0;
    clock_t start = clock();
    for (int i = 0; i < ITEMS; i++) {
        double life = 0.5 + (i % 97) * 0.1; /* half a year to ten */
        struct tc_item_life item = {1000, 900, life, life, 0.5, 900};
        sum += value(&item, 0.03, YEARS);
    }
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    printf("%-12s %6.1f ns an item\n", name, seconds / ITEMS * 1e9);
    return sum;
}

int main(void)
{
    double closed = run(tc_item_replacements_value, "closed form");
    double terms = run(by_terms, "term by term");
    if (fabs(closed - terms) > 1e-9 * terms) {
        fprintf(stderr, "the two differ: %.17g, %.17g\n", closed, terms);
        return 1;
    }
    return 0;
}
