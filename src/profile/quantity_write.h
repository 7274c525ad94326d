/* SPDX-License-Identifier: MIT */
/*
 * quantity_write.h - figures written as tc_quantity_read takes them.
 *
 * A value that came from a text is written so that it reads back to the same
 * double, in as few digits as that takes.
 */
#ifndef TC_PROFILE_QUANTITY_WRITE_H
#define TC_PROFILE_QUANTITY_WRITE_H

#include "core/base/number.h"
#include "core/base/unit.h"
#include "profile/quantity.h"

/*
 * Writes a quantity or rate in the unit that says it in the fewest digits; of
 * equals in the one the system prefers.
 */
void tc_quantity_write(const struct tc_quantity_form *form, double value, enum tc_unit_system system,
                       char text[TC_QUANTITY_SIZE]);

/*
 * Writes quantities with one unit at the end, "19 19.5 20 C", into text of
 * `size` bytes: count * TC_QUANTITY_SIZE are enough for any.
 */
void tc_quantity_write_list(const struct tc_quantity_form *form, const double *values, int count,
                            enum tc_unit_system system, char *text, size_t size);

/* Writes an amount of money: without decimals or with as many as said, more only where it has them. */
void tc_amount_write(double value, int decimals, char text[TC_NUMBER_SIZE]);

#endif
