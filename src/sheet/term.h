/* SPDX-License-Identifier: MIT */
/*
 * term.h - how a figure came about: a tree of terms, kept where the figure is made.
 *
 * A term is one value: its symbol and words, the formula in the symbols of its
 * parts, its unit, and where it comes from. What is computed has parts, which
 * open further, down to what somebody wrote, typed, or left to a default. The
 * values are those the figure was computed from, as the core hands them out;
 * nothing here computes anything.
 *
 * Terms lie in the memory of their sheet, and several may share a part. They
 * are made only where the sheet was asked for them (ask.h, `explain`).
 *
 * The signs of a formula: + - × / ^ ( ) and , between arguments; the functions
 * min, max, below(a, b) = 1 where a is less than b, else 0; round(x), to the
 * minor unit of money, half away from zero; up(x), to the next whole number,
 * where less than a billionth above one counts as it; down(x), to the whole
 * number below; part(R, k, x, y ...), the
 * k-th share of R dealt out by x, y ... in minor units by largest remainder. A
 * formula of the one word "sum" adds all parts.
 */
#ifndef TC_SHEET_TERM_H
#define TC_SHEET_TERM_H

#include "sheet/sheet.h"

enum tc_term_from {
    TC_TERM_COMPUTED,  /* by its formula from its parts */
    TC_TERM_SIMULATED, /* followed or drawn from its parts, for which there is no formula in one line */
    TC_TERM_PROFILE,   /* written in a file: "FILE:LINE: KEY = TEXT" */
    TC_TERM_TYPED,     /* typed over: "PATH = TEXT" */
    TC_TERM_DEFAULT,   /* of a key that nobody gave */
    TC_TERM_ASSUMED,   /* because nobody gave it */
    TC_TERM_MODEL      /* a constant of tankcost-model(7) */
};

struct tc_term_part {
    const struct tc_term *term;
    struct tc_term_part *next;
    /* Of the first part: the line at which these parts were shown last, and the sheet (explain.c). */
    const char *shown;
    const struct tc_sheet *shown_on;
};

struct tc_term {
    const char *symbol; /* of letters and digits; no two alike among the parts of one term */
    const char *words;  /* "price of one" */
    const char *formula;
    double value; /* in unit; money in major units */
    const char *unit;
    bool money; /* a whole number of minor units of currency */
    struct tc_currency currency;
    enum tc_term_from from;
    const char *place; /* of a leaf where it stands; else why it is so, or "" */
    struct tc_term_part *parts, *last;
};

/* Where a value comes from. */
struct tc_source {
    enum tc_term_from from;
    const char *place;
};

/*
 * A leaf; something computed from parts that are added next; an amount of money,
 * likewise. Texts are copied. NULL after a failure, which the sheet remembers;
 * tc_term_add takes NULL for either.
 */
struct tc_term *tc_term_leaf(struct tc_sheet *sheet, const char *symbol, const char *words, double value,
                             const char *unit, struct tc_source source);
struct tc_term *tc_term_computed(struct tc_sheet *sheet, const char *symbol, const char *words,
                                 const char *formula, double value, const char *unit);
struct tc_term *tc_term_money(struct tc_sheet *sheet, const char *symbol, const char *words,
                              const char *formula, tc_money money, struct tc_currency currency);

/* Adds a part to a term. */
void tc_term_add(struct tc_sheet *sheet, struct tc_term *term, const struct tc_term *part);

/* A part under another symbol and other words, sharing all else. */
struct tc_term *tc_term_called(struct tc_sheet *sheet, const struct tc_term *term, const char *symbol,
                               const char *words);

/*
 * The figure in a cell of the last row was worked out in a way that no formula
 * in one line says; place says how, or which command opens it. NULL where the
 * sheet is not to be explained, or the cell has no figure.
 */
struct tc_term *tc_term_put_worked_out(struct tc_sheet *sheet, size_t column, const char *words,
                                       const char *place);

/* The figure in a cell of the last row came about so. */
void tc_term_put(struct tc_sheet *sheet, size_t column, const struct tc_term *term);

#endif
