/* SPDX-License-Identifier: MIT */
/*
 * quantity.h - one figure of a profile: a quantity, an amount of money or a
 * rate, perhaps a range; what can be read in two ways is refused.
 *
 *     30 in                       45 to 50 W likely 47 W
 *     45 to 50 likely 47 W        89 USD
 *     80 to 95 USD                0.14 to 0.18 / kWh
 *
 * A figure without a unit (or currency) takes that of the next one that has
 * it, or else of the one before. Hours of the day may be written 9:30.
 *
 * Every function that fails says why in problem, in lower case and without a
 * full stop: what is wrong, and what would be right.
 */
#ifndef TC_PROFILE_QUANTITY_H
#define TC_PROFILE_QUANTITY_H

#include <stdbool.h>

#include "core/money/currency.h"
#include "core/base/spread.h"
#include "core/base/text.h"
#include "core/base/unit.h"

/* Room for what is wrong with a value, with its end. */
#define TC_PROBLEM_SIZE 384

/* Room for a piece of a value within a message. */
#define TC_SHOWN_SIZE 64

struct tc_quantity_form {
    enum tc_dimension dimension; /* of a quantity; of a rate, what the money is for: energy or volume */
    bool money;                  /* an amount of money, with a dimension other than TC_DIM_PLAIN a rate */
    bool fine;                   /* an amount that may have any decimals, as one for each unit of a tariff */
    bool code;                   /* money: its currency must be written */
    const char *example;         /* for messages */
};

/*
 * Quantities are in base units (core/base/unit.h), money in major units, rates in
 * major units for a kWh or a m3.
 */
struct tc_quantity {
    struct tc_spread spread;
    struct tc_currency currency; /* of money; code "" where neither written nor known */
    const struct tc_unit *unit; /* in which the last figure was written; NULL for plain numbers and amounts */
};

/*
 * Reads text, all of it. currency is that of bare amounts, of which a written
 * one must be the same; code "" where it is not known: then, unless form.code
 * asks for one, none may be written.
 */
bool tc_quantity_read(const struct tc_quantity_form *form, const char *text, struct tc_currency currency,
                      struct tc_quantity *figure, char problem[TC_PROBLEM_SIZE]);

/*
 * Reads a list of figures set apart by blanks, each perhaps a range: "19 19 to 21 20 C";
 * at most `capacity` and twelve, *count of them. *unit as above.
 */
bool tc_quantity_list(const struct tc_quantity_form *form, const char *text, struct tc_spread *spreads,
                      int room, int *count, const struct tc_unit **unit, char problem[TC_PROBLEM_SIZE]);

/* What tc_quantity_read gives, as the figure of a unit. */
double tc_quantity_from_base(const struct tc_quantity_form *form, const struct tc_unit *unit, double value);

/* Reads a currency's code, all of text; on failure names the nearest. */
bool tc_quantity_currency(const char *text, struct tc_currency *currency, char problem[TC_PROBLEM_SIZE]);

/*
 * Takes the next item of a list set apart by commas from *list into item,
 * without blanks around it, and moves *list on. False at the end of the list
 * (problem "") or where it goes wrong: an item is empty or longer than the
 * room, or the comma is a decimal one.
 */
bool tc_quantity_item(const char **list, char *item, size_t room, char problem[TC_PROBLEM_SIZE]);

/* The beginning of text, cut at a character's border and closed by "..." where it is too long, in buffer. */
const char *tc_quantity_shown(char buffer[TC_SHOWN_SIZE], const char *text);

/* Writes what is wrong; returns false. */
bool tc_problem(char problem[TC_PROBLEM_SIZE], const char *format, ...) TC_PRINTF(2, 3);

#endif
