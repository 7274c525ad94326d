/* SPDX-License-Identifier: MIT */
/*
 * places.h - the candidates in several regions, each with its prices, tax,
 * delivery, tariffs, climate, currency and sales; in the money of each and in
 * one money for all.
 *
 * The regions are those the plan lists, or else its own and all others of the
 * stock but templates that are not filled in. The one money is ask->money or
 * else that of the plan's region. Amounts are converted, and rounded, as they
 * stand on the sheet, at rates that the region profiles quote (core/money/exchange.h);
 * where no quotes lead from one money to the other the sheet says so.
 *
 * Where another candidate wins than in the plan's own region, a note names the
 * line of the present value that changes it most: the line in which the
 * difference between the two moved furthest in favour of the winner there.
 */
#ifndef TC_SHEET_PLACES_H
#define TC_SHEET_PLACES_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. TC_SYNTAX where ask->money is not a currency or the plan lists an unknown region. */
enum tc_status tc_make_places(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
