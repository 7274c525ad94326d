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

/* Those of them on what more money buys and who is beaten; for sheets whose first answer is another one. */
void tc_verdict_tell_trades(struct tc_sheet *sheet, const struct tc_advice *advice);

#endif
