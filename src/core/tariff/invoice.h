/* SPDX-License-Identifier: MIT */
/*
 * invoice.h - a month's utility bill line by line, as it is printed.
 *
 * To hold a tariff against a real bill: each line is rounded to the minor
 * unit as utilities do, the tax is taken of the rounded lines, and the
 * standing charge, which tariffs leave out, is put back in. The total thus
 * differs from tc_tariff_bill by the standing charge and its tax, and by at
 * most half a minor unit for each line.
 */
#ifndef TC_CORE_TARIFF_INVOICE_H
#define TC_CORE_TARIFF_INVOICE_H

#include "core/tariff/tariff.h"

enum tc_invoice_kind {
    TC_INVOICE_MINIMUM,     /* minimum charge; units: what it covers */
    TC_INVOICE_BLOCK,       /* units in one block */
    TC_INVOICE_HOURS,       /* units in all hours of one rate */
    TC_INVOICE_EVERY_UNIT,  /* the rate on all units */
    TC_INVOICE_UP_TO_LEAST, /* what lifts the bill to its minimum */
    TC_INVOICE_STANDING,    /* standing charge */
    TC_INVOICE_TAX
};

struct tc_invoice_line {
    enum tc_invoice_kind kind;
    double units; /* 0 where the line has none */
    double rate;  /* minor units per unit; of the tax: its share */
    tc_money amount;
};

/* Most lines: a block each, a rate for each hour of both day types, and one of each other kind. */
enum { TC_INVOICE_LINES = TC_TARIFF_BLOCKS + TC_DAY_TYPES * TC_HOURS + 5 };

struct tc_invoice {
    int count;
    struct tc_invoice_line line[TC_INVOICE_LINES];
    tc_money total;
};

/*
 * The bill of month (0 to 11) for the given units by hour of day, with a
 * standing charge in minor units (0: none). Lines of no units and no amount
 * are left out. TC_OVERFLOW or TC_RANGE where an amount leaves the range of
 * money or is no number.
 */
enum tc_status tc_invoice_make(struct tc_invoice *invoice, const struct tc_tariff *tariff, int month,
                               const double use[TC_HOURS], double standing);

#endif
