/* SPDX-License-Identifier: MIT */
/*
 * number.h - numbers as text, always with a point, whatever the locale.
 *
 * The only file of the program that turns text into numbers and numbers into
 * text. What strtod and printf do follows LC_NUMERIC; this does not.
 */
#ifndef TC_CORE_BASE_NUMBER_H
#define TC_CORE_BASE_NUMBER_H

#include <stdbool.h>
#include <stdint.h>

#include "core/base/status.h"

/* Room for any number this file writes, with its end. */
#define TC_NUMBER_SIZE 48

/*
 * Reads a decimal number at the start of text: sign, digits, point, digits,
 * and an exponent (e or E directly followed by a digit or sign and digit).
 * At least one digit must stand before or after the point. At most 15
 * significant digits (zeros at the end count) and a place of the last of them
 * within 10^+-22, so that the result is the double nearest to the text. *end is set to the first character
 * after it. TC_SYNTAX where there is not a number (*end = text), TC_RANGE where it has too many digits or too
 * large an exponent. No nan, inf or hexadecimal.
 */
enum tc_status tc_number_read(const char *text, const char **end, double *value);

/*
 * Reads a length as a tape measure says it: a number as above, or a whole one
 * with a fraction of a half to a thirty-second behind it, "24 1/4", "24¼", "3/4".
 */
enum tc_status tc_number_read_tape(const char *text, const char **end, double *value);

/*
 * Reads a number of a fixed count of places exactly, as whole units of the last
 * one: sign, digits, and up to `places` digits after a point. An amount of money
 * is one (places: the ISO 4217 exponent of its currency, most: TC_MONEY_MAX).
 * More digits after the point are TC_SYNTAX unless they are zeros; TC_OVERFLOW
 * where there are more than `most` units either way.
 */
enum tc_status tc_number_read_fixed(const char *text, const char **end, int places, int64_t most,
                                    int64_t *units);

/* Reads a whole number without sign, at most 9 digits. */
enum tc_status tc_number_read_count(const char *text, const char **end, int *value);

/*
 * Writes value rounded half away from zero to `decimals` (0 to 9) digits after
 * the point into buffer (at least TC_NUMBER_SIZE) and returns buffer. As in
 * tc_money_round, what is within 1e-6 of a half counts as one, in units of the
 * last digit. With group set, a space sets thousands apart. Values of 1e15 and
 * beyond are written by tc_number_write_exact; not-a-number as "nan" and
 * infinities as "inf", which no sheet should ever show.
 */
char *tc_number_write(char *buffer, double value, int decimals, bool group);

/*
 * Writes value to the nearest eighth, as the trade writes inches: "24", "24¼", "¾"; with ascii set "24 1/4",
 * "3/4". Values of 1e9 and beyond, and what is no number, as tc_number_write does.
 */
char *tc_number_write_eighths(char *buffer, double value, bool ascii);

/*
 * Writes value with as many digits, 15 to 17, as it takes to give the same
 * double again where it is read with all of them (RFC 8259, strtod);
 * tc_number_read takes the texts of 15.
 */
char *tc_number_write_exact(char *buffer, double value);

/*
 * Writes value for another program to read: to 12 significant digits, more than
 * any figure here is worth, and fewer than those in which sums of decimals
 * differ from what they are by hand (610.68, not 610.6800000000001).
 */
char *tc_number_write_data(char *buffer, double value);

/* Writes value with the fewest decimals (at most 9) that say it to 9 significant digits: 0.5, 12, 0.1234. */
char *tc_number_write_short(char *buffer, double value);

/* Writes such a number, as an amount of money, with exactly `places` digits after the point. */
char *tc_number_write_fixed(char *buffer, int64_t units, int places, bool group);

#endif
