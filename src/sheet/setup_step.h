/* SPDX-License-Identifier: MIT */
/*
 * setup_step.h - what the wish of a setup costs: where the same tanks stand in a study with two setups, what
 * the other setup costs more or less to own.
 */
#ifndef TC_SHEET_SETUP_STEP_H
#define TC_SHEET_SETUP_STEP_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Adds a finding for each alternative whose tank stands before it in the study with another setup: "29-high:
 * a canister filter instead of a hang-on filter costs 28.00 USD over 10 years." Where more than one wish
 * differs, it names the setups. Says nothing of what is incomplete.
 */
void tc_setup_steps_tell(struct tc_sheet *sheet, const struct tc_study *study);

#endif
