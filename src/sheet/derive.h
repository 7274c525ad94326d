/* SPDX-License-Identifier: MIT */
/*
 * derive.h - how the figures of one alternative came about, as terms (term.h).
 *
 * Each function hands out the term of one figure, with all it follows from
 * below it. Values are those of the alternative's case, equipment, prices and
 * cost, as the core worked them out; the formulas are those of
 * tankcost-model(7), which tests/sheet/explain.py works out again from the
 * leaves. A term that was made is used again where another figure needs it.
 *
 * Amounts of money are in major units of the region's currency, energies in
 * kWh, all else in SI units.
 */
#ifndef TC_SHEET_DERIVE_H
#define TC_SHEET_DERIVE_H

#include "sheet/source.h"
#include "sheet/study.h"
#include "sheet/term.h"

/* A term that was made before, by what it is of. */
struct tc_derived {
    const void *what; /* the function that makes it */
    int a, b;
    const struct tc_term *term;
    struct tc_derived *next;
};

enum { TC_DERIVED_BUCKETS = 512 };

struct tc_derive {
    struct tc_sheet *sheet;
    const struct tc_study *study;
    const struct tc_alternative *alternative; /* its plan, case, and place in the plan */
    const struct tc_equipment *equipment;
    const struct tc_prices *prices;
    const struct tc_cost *cost;
    struct tc_derived *known[TC_DERIVED_BUCKETS]; /* in the sheet's memory, by what they are of */
    struct tc_derive *next;                       /* of the same sheet */
};

/*
 * Of an alternative as the plan has it; or with other equipment, prices and cost, which live as long as the
 * sheet is being made. One is kept for each. NULL, which all below take and give NULL for, where the sheet
 * is not to be explained or the alternative is no candidate of the plan.
 */
struct tc_derive *tc_derive_of(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_alternative *alternative);
struct tc_derive *tc_derive_with(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_alternative *alternative,
                                 const struct tc_equipment *equipment, const struct tc_prices *prices,
                                 const struct tc_cost *cost);

/* Forgets those of a sheet whose costs go away before the sheet is made; their terms stay. */
void tc_derive_forget(struct tc_sheet *sheet);

/* How much more one amount is than another, likewise; a - b. */
void tc_derive_put_more(struct tc_sheet *sheet, size_t column, const char *words, tc_money more,
                        const struct tc_term *a, const struct tc_term *b);

/* How many times one figure is another, in a cell of the last row; nothing where one of them is not told. */
void tc_derive_put_ratio(struct tc_sheet *sheet, size_t column, const char *words, double value,
                         const char *unit, const struct tc_term *over, const struct tc_term *under);

/* --------------------------------------------------------------- for the files derive_*.c */

/* A term made before, or NULL; keeps one. */
const struct tc_term *tc_derive_known(const struct tc_derive *derive, const void *what, int a, int b);
const struct tc_term *tc_derive_keep(struct tc_derive *derive, const void *what, int a, int b,
                                     const struct tc_term *term);

/* Leaves: a key of the tank, of a slot's part, of setup, region or candidate. */
const struct tc_term *tc_derive_tank_key(struct tc_derive *derive, const char *symbol, const char *words,
                                         double value, const char *unit, const char *key);
const struct tc_term *tc_derive_part_key(struct tc_derive *derive, enum tc_slot slot, const char *symbol,
                                         const char *words, double value, const char *unit, const char *key);
const struct tc_term *tc_derive_setup_key(struct tc_derive *derive, const char *symbol, const char *words,
                                          double value, const char *unit, const char *key);
const struct tc_term *tc_derive_region_key(struct tc_derive *derive, const char *symbol, const char *words,
                                           double value, const char *unit, const char *key);
const struct tc_term *tc_derive_plan_key(struct tc_derive *derive, const char *symbol, const char *words,
                                         double value, const char *unit, const char *key);
const struct tc_term *tc_derive_candidate_key(struct tc_derive *derive, const char *symbol, const char *words,
                                              double value, const char *unit, const char *key);
const struct tc_term *tc_derive_model(struct tc_derive *derive, const char *symbol, const char *words,
                                      double value, const char *unit, const char *section);
const struct tc_term *tc_derive_quantity(struct tc_derive *derive);

/* A price for a kWh or m3, such as "USD/kWh", in the region's money. */
const char *tc_derive_rate_unit(struct tc_derive *derive, const char *of);

/* Adds several parts, NULL behind the last. */
void tc_derive_add(struct tc_derive *derive, struct tc_term *term, const struct tc_term *first, ...);

/* What the checkout adds, as a share. */
const struct tc_term *tc_derive_tax(struct tc_derive *derive);

/* Years of the plan, n, and its discount rate, d. */
const struct tc_term *tc_derive_years(struct tc_derive *derive);
const struct tc_term *tc_derive_discount(struct tc_derive *derive);

#endif
