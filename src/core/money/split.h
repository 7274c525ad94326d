/* SPDX-License-Identifier: MIT */
/*
 * split.h - dividing an amount of money so that the parts add up to it exactly.
 *
 * Method of the largest remainder (Hamilton): each part gets its share rounded
 * down, and the minor units left over go, one each, to the parts with the
 * largest fractions; where fractions tie, to the earlier part.
 */
#ifndef TC_CORE_MONEY_SPLIT_H
#define TC_CORE_MONEY_SPLIT_H

#include "core/money/money.h"

/*
 * Divides amount in the proportions of weights[0..count-1] into parts[]. The
 * weights must be finite; some may be negative (a credit), their sum should
 * not be 0: where it is, the parts are equal but for the minor units left
 * over. TC_RANGE where count < 1 or a weight is no finite number, TC_OVERFLOW
 * where a part leaves the range of money.
 */
enum tc_status tc_money_split(tc_money amount, const double weights[], int count, tc_money parts[]);

#endif
