/* SPDX-License-Identifier: MIT */
/*
 * currency.h - the currencies of ISO 4217: code and number of decimals.
 */
#ifndef TC_CORE_MONEY_CURRENCY_H
#define TC_CORE_MONEY_CURRENCY_H

#include <stdbool.h>
#include <stddef.h>

#include "core/money/money.h"

/* A plain value; code[0] == '\0' means none. */
struct tc_currency {
    char code[4]; /* three capital letters and the end */
    int exponent; /* digits after the point: 2 for USD, 0 for JPY, 3 for KWD */
};

/* Finds a code (three letters, either case) among the active ones of ISO 4217; false where unknown. */
bool tc_currency_find(const char *code, struct tc_currency *currency);

/* The i-th code of the list, or NULL past its end; for nearest-name hints. */
const char *tc_currency_code(size_t i);

/* 10 to the power of the exponent: minor units in one major unit. */
double tc_currency_scale(struct tc_currency currency);

/* Turns an amount in major units (45.10) into money, rounded once (see money.h); sticky status. */
tc_money tc_currency_money(struct tc_currency currency, double major, enum tc_status *status);

#endif
