/* SPDX-License-Identifier: MIT */
/*
 * phrase.h - phrases that several sheets share: sizes in the user's units, and
 * why a part was chosen or refused.
 *
 * Each writes into a buffer of TC_WORDS_SIZE and returns it.
 */
#ifndef TC_SHEET_PHRASE_H
#define TC_SHEET_PHRASE_H

#include "core/cost/fit.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

enum { TC_WORDS_SIZE = 256 };

/* "1234.50 USD" */
char *tc_phrase_money(char *words, tc_money money, struct tc_currency currency);

/* "10 years", "1 year" */
char *tc_phrase_years(char *words, double years);

/* "7 Dec 2026" */
char *tc_phrase_date(char *words, struct tc_date date);

/* "today", "7 days", "10 months": how long it is from one day to another. */
char *tc_phrase_span(char *words, struct tc_date from, struct tc_date to);

/* A length in the fractions of the trade, to an eighth of an inch, "19¾ in", or to the millimeter, "50.5 cm",
 * "50 cm". */
char *tc_phrase_length(char *words, double length, enum tc_unit_system units);

/* Any quantity as a person reads it: "24¼ in", "92.0 L", "331 lb"; lengths as above. */
char *tc_phrase_quantity(char *words, double value, enum tc_dimension dimension, enum tc_unit_system units);

/* A footprint or top: "30 × 12½ in". */
char *tc_phrase_area(char *words, double length, double width, enum tc_unit_system units);

/* The sides of a box without their unit, "30 × 12½ × 18¾", and with it, "30 × 12½ × 18¾ in". */
char *tc_phrase_sides(char *words, double length, double width, double height, enum tc_unit_system units);
char *tc_phrase_size(char *words, double length, double width, double height, enum tc_unit_system units);

/* "2 × sponge-m", "sponge-m"; "" for none */
char *tc_phrase_part(char *words, const struct tc_filled *filled);

/* Why a verdict fell: "331 lb, needs 190 lb", "2 are too long: 29⅞ in, the tank is 24 in". */
char *tc_phrase_reason(char *words, enum tc_slot slot, const struct tc_reason *reason,
                       enum tc_unit_system units);

/* The same of a part that fits, shortly: "331 / 190", what it has and what the tank needs, in this unit; and
 * a label for that, "  carries / needed". */
char *tc_phrase_has(char *words, enum tc_slot slot, const struct tc_reason *reason,
                    enum tc_unit_system units);
const char *tc_phrase_has_label(enum tc_slot slot);
const char *tc_phrase_reason_unit(enum tc_slot slot, enum tc_unit_system units);

/* What would have to be bought or made where nothing fits: "a lid of 36.0 × 18.5 in". */
char *tc_phrase_wanted(char *words, const struct tc_alternative *alternative, enum tc_slot slot,
                       enum tc_unit_system units);

/* "Jan"; "Jun to Aug, Dec" or "all year", bit 0 for January. */
const char *tc_phrase_month(int month);
char *tc_phrase_months(char *words, unsigned months);

/* A row of numbers in the unit a person of the study's habit reads: its symbol, and the value turned into it.
 */
const char *tc_phrase_unit(enum tc_dimension dimension, enum tc_unit_system units);
double tc_phrase_value(double value, enum tc_dimension dimension, enum tc_unit_system units);

/* To how many decimals a person reads such a figure: inches to the eighth (TC_EIGHTHS). */
int tc_phrase_decimals(enum tc_dimension dimension, enum tc_unit_system units);

/* Whether pieces of what fills a slot are bought, now or later, and have no price here. */
bool tc_phrase_unpriced(const struct tc_alternative *alternative, enum tc_slot slot);

/* Whether anything for a slot has a price here; that nothing of it fits or has one: "no lid on offer fits".
 */
bool tc_phrase_offered(const struct tc_alternative *alternative, enum tc_slot slot);
const char *tc_phrase_unfitted(struct tc_sheet *sheet, const struct tc_offer *offers, int count,
                               enum tc_slot slot);

/* What stands where a slot lacks its part: "none fits"; where nothing for it has a price, "none on offer". */
const char *tc_phrase_unfilled(const struct tc_alternative *alternative, enum tc_slot slot);

/*
 * The subject (sheet.h) of a candidate by its place in the plan, from 0, and of
 * one of its slots (-1: none): "candidate 2/filter"; "" where it is no candidate.
 */
const char *tc_phrase_subject(struct tc_sheet *sheet, int candidate, int slot);

/* The heads of the columns, one an alternative, with how each is bought. */
void tc_phrase_columns(struct tc_sheet *sheet, const struct tc_study *study);

/* Heads a sheet: its title, and the line that states what the study assumes. */
void tc_phrase_head(struct tc_sheet *sheet, const struct tc_study *study, const char *title,
                    const char *row_head);

/* A row that says of each alternative whether it suits the animals of its setup. */
void tc_phrase_suits_row(struct tc_sheet *sheet, const struct tc_study *study);

#endif
