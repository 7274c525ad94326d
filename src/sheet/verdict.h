/* SPDX-License-Identifier: MIT */
/*
 * verdict.h - what a knowledgeable friend would say of a study's alternatives, in sentences: which one to
 * take, when it is a tie, whom to leave out and why, and what more money buys.
 *
 * The most useful sentence comes first. The rules stand in advice.h.
 */
#ifndef TC_SHEET_VERDICT_H
#define TC_SHEET_VERDICT_H

#include "sheet/advice.h"

/* Adds the findings. */
void tc_verdict_tell(struct tc_sheet *sheet, const struct tc_advice *advice);

/* That of them on what sets the best and the next one apart; for a sheet that gives other answers first. */
void tc_verdict_tell_trade(struct tc_sheet *sheet, const struct tc_advice *advice);

#endif
