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

/* Figures that come about another way where a cost is that of a wall or of what its tanks share. */
enum tc_derived_line {
    TC_LINE_BUY,         /* of tc_cost, by its index */
    TC_LINE_RUN,         /* likewise */
    TC_LINE_PAID,        /* likewise */
    TC_LINE_PRESENT,     /* likewise */
    TC_LINE_EXTRA,       /* by its index in the study */
    TC_LINE_COURSE,      /* what is paid up to a year, as paid: 2 * year; in today's money: 2 * year + 1 */
    TC_LINE_REPLACED,    /* all that is bought again, as paid: 0; in today's money: 1 */
    TC_LINE_REPLACED_IN, /* in a year: 2 * year, 2 * year + 1 */
    TC_LINE_RESOLD,      /* what is sold at the end */
    TC_LINE_INVESTED,
    TC_LINE_RUNNING,
    TC_LINE_UPKEEP, /* hours a year */
    TC_LINE_SIZE,   /* enum tc_size */
    TC_LINE_QUANTITY,
    TC_LINE_ENERGY, /* kWh of a consumer in a month: consumer * TC_MONTHS + month */
    TC_LINE_ROOM    /* the mean temperature of the room in a month, K; its humidity: TC_MONTHS + month */
};

struct tc_derive;
typedef const struct tc_term *tc_derive_line(struct tc_derive *derive, enum tc_derived_line part, int index);

struct tc_derive {
    struct tc_sheet *sheet;
    const struct tc_study *study;
    const struct tc_alternative *alternative; /* its plan, case, and place in the plan */
    const struct tc_equipment *equipment;
    const struct tc_prices *prices;
    const struct tc_cost *cost;
    struct tc_derived *known[TC_DERIVED_BUCKETS]; /* in the sheet's memory, by what they are of */
    const char *counted;                          /* how its tanks were counted; NULL: the plan says */
    const struct tc_term *counted_by;             /* and what limited that, or NULL */
    tc_derive_line *line;                         /* may give a figure; NULL: none; and what it knows */
    tc_derive_line *room;                         /* where the tanks make the climate; NULL: the region */
    void *made_of;
    struct tc_derive *before; /* whose use is billed before its own; NULL: the household's alone is */
    struct tc_derive *next;   /* of the same sheet */
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

/* The same, of tanks that a search counted: how. */
struct tc_derive *tc_derive_counted(struct tc_sheet *sheet, const struct tc_study *study,
                                    const struct tc_alternative *alternative, const char *counted);

/* A new one for a cost that is put together otherwise; NULL where the sheet is not to be explained. */
struct tc_derive *tc_derive_made_of(struct tc_sheet *sheet, const struct tc_study *study,
                                    const struct tc_alternative *alternative, const struct tc_cost *cost,
                                    tc_derive_line *line, void *made_of);

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

/* The code of the region's currency, and how many minor units make one of its major ones. */
const char *tc_derive_code(const struct tc_derive *derive);
double tc_derive_scale(const struct tc_derive *derive);

/* An amount of a bill, by its line: symbol B1, Y2 ... of a letter (B bought, Y paid each year) and the line's
 * index in a tc_cost. */
const char *tc_derive_line_symbol(struct tc_derive *derive, char letter, int index);
struct tc_term *tc_derive_money_line(struct tc_derive *derive, char letter, int index, const char *words,
                                     const char *formula, tc_money money);

/* A figure that is made otherwise, or NULL. */
const struct tc_term *tc_derive_otherwise(struct tc_derive *derive, enum tc_derived_line part, int index);

/* Adds several parts, NULL behind the last. */
void tc_derive_add(struct tc_derive *derive, struct tc_term *term, const struct tc_term *first, ...);

/* What the checkout adds, as a share. */
const struct tc_term *tc_derive_tax(struct tc_derive *derive);

/* Years of the plan, n, and its discount rate, d. */
const struct tc_term *tc_derive_years(struct tc_derive *derive);
const struct tc_term *tc_derive_discount(struct tc_derive *derive);

/* That rate, or, as paid, that nothing is discounted. */
const struct tc_term *tc_derive_discounted(struct tc_derive *derive, bool today);

/* Adds the part of a month to a sum over months, called by it; NULL adds nothing. */
void tc_derive_add_month(struct tc_derive *derive, struct tc_term *sum, const struct tc_term *part,
                         int month);

#endif
