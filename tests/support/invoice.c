/* SPDX-License-Identifier: MIT */
#include "support/invoice.h"

#include <math.h>

static void add_line(struct invoice *invoice, enum invoice_kind kind, double units, double rate,
                     double amount, enum tc_status *status)
{
    if (units == 0 && amount == 0)
        return;
    struct invoice_line *line = &invoice->line[invoice->count++];
    *line = (struct invoice_line){kind, units, rate, tc_money_round(amount, status)};
    invoice->total = tc_money_add(invoice->total, line->amount, status);
}

/* Units beyond the `covers` first ones: in the block of the last unit alone if that prices everything. */
static void add_blocks(struct invoice *invoice, const struct tc_tariff_season *season, double units,
                       double covers, enum tc_status *status)
{
    int last = 0;
    while (tc_tariff_beyond(units, season->block[last].limit))
        last++;
    double start = covers;
    for (int i = season->block[last].everything ? last : 0; i <= last; i++) {
        double end = fmin(units, season->block[i].limit);
        double rate = season->block[i].rate;
        if (end <= start)
            continue;
        add_line(invoice, INVOICE_BLOCK, end - start, rate, (end - start) * rate, status);
        start = end;
    }
}

/* One line for all hours of one rate, in the order in which the rates first come up. */
static void add_hours(struct invoice *invoice, const struct tc_tariff *tariff, int month,
                      const struct tc_tariff_season *season, const double use[TC_HOURS],
                      enum tc_status *status)
{
    const double share[TC_DAY_TYPES] = {tariff->workday_share[month], 1 - tariff->workday_share[month]};
    const double *rates = &season->hour[0][0];
    for (int i = 0; i < TC_DAY_TYPES * TC_HOURS; i++) {
        double units = 0;
        int first = 0;
        while (rates[first] != rates[i])
            first++;
        for (int j = i; first == i && j < TC_DAY_TYPES * TC_HOURS; j++)
            if (rates[j] == rates[i])
                units += share[j / TC_HOURS] * use[j % TC_HOURS];
        add_line(invoice, INVOICE_HOURS, units, rates[i], units * rates[i], status);
    }
}

enum tc_status invoice_make(struct invoice *invoice, const struct tc_tariff *tariff, int month,
                            const double use[TC_HOURS], double standing)
{
    enum tc_status status = TC_OK;
    const struct tc_tariff_season *season = &tariff->season[tariff->season_of_month[month]];
    double covers = season->minimum_covers;
    double units = 0;
    for (int h = 0; h < TC_HOURS; h++)
        units += use[h];
    if (!isfinite(units))
        return TC_RANGE;
    double beyond = fmax(units - covers, 0);

    invoice->count = 0;
    invoice->total = 0;
    if (covers > 0)
        add_line(invoice, INVOICE_MINIMUM, covers, 0, season->minimum, &status);
    if (season->block_count > 0)
        add_blocks(invoice, season, units, covers, &status);
    if (season->by_hour)
        add_hours(invoice, tariff, month, season, use, &status);
    if (tariff->every_unit > 0)
        add_line(invoice, INVOICE_EVERY_UNIT, beyond, tariff->every_unit, beyond * tariff->every_unit,
                 &status);
    if (covers == 0 && (double)invoice->total < season->minimum)
        add_line(invoice, INVOICE_UP_TO_LEAST, 0, 0, season->minimum - (double)invoice->total, &status);
    add_line(invoice, INVOICE_STANDING, 0, 0, standing, &status);
    add_line(invoice, INVOICE_TAX, 0, tariff->tax, (double)invoice->total * tariff->tax, &status);
    return status;
}
