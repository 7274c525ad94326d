/* SPDX-License-Identifier: MIT */
/*
 * invoice.h - a month's utility bill line by line, as it is printed.
 *
 * To hold a tariff against a real bill: each line is rounded to the minor
 * unit as utilities do, the tax is taken of the rounded lines, and the
 * standing charge, which tariffs leave out, is put back in. The total thus
 * differs from tariff_bill by the standing charge and its tax, and by at
 * most half a minor unit for each line.
 */
#ifndef TC_TESTS_INVOICE_H
#define TC_TESTS_INVOICE_H

#include "core/tariff/tariff.h"

enum invoice_kind {
    INVOICE_MINIMUM,     /* minimum charge; units: what it covers */
    INVOICE_BLOCK,       /* units in one block */
    INVOICE_HOURS,       /* units in all hours of one rate */
    INVOICE_EVERY_UNIT,  /* the rate on all units */
    INVOICE_UP_TO_LEAST, /* what lifts the bill to its minimum */
    INVOICE_STANDING,    /* standing charge */
    INVOICE_TAX
};

struct invoice_line {
    enum invoice_kind kind;
    double units; /* 0 where the line has none */
    double rate;  /* minor units per unit; of the tax: its share */
    tc_money amount;
};

/* Most lines: a block each, a rate for each hour of both day types, and one of each other kind. */
enum { INVOICE_LINES = TC_TARIFF_BLOCKS + TC_DAY_TYPES * TC_HOURS + 5 };

struct invoice {
    int count;
    struct invoice_line line[INVOICE_LINES];
    tc_money total;
};

/*
 * The bill of month (0 to 11) for the given units by hour of day, with a
 * standing charge in minor units (0: none). Lines of no units and no amount
 * are left out. TC_OVERFLOW or TC_RANGE where an amount leaves the range of
 * money or is not a number.
 */
enum tc_status invoice_make(struct invoice *invoice, const struct tc_tariff *tariff, int month,
                            const double use[TC_HOURS], double standing);

#endif
