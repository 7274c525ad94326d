/* SPDX-License-Identifier: MIT */
/*
 * question.h - the questions tankcost answers, one sheet each.
 *
 * The table is the one list of them: the command line, the screen, the help
 * and the tests all walk it. A new question is one new file in this folder and
 * one line in question.c.
 */
#ifndef TC_SHEET_QUESTION_H
#define TC_SHEET_QUESTION_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "sheet/ask.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

struct tc_question {
    const char *name; /* the command: "bill" */
    const char *asks; /* "What does each cost to own?" */
    /*
     * Fills an empty sheet (it calls tc_sheet_start; the caller frees). The
     * status is TC_OK, TC_NO_MEMORY, TC_OVERFLOW, TC_STOPPED, or TC_SYNTAX
     * with ask->problem.
     */
    enum tc_status (*make)(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);
    bool slow;  /* may take longer than a frame: tests and benchmarks take it apart */
    bool walls; /* can be asked of the plan's walls as well */
    bool bare;  /* can be asked of a plan without candidates */
    bool brief; /* says more where it is asked why, or for all (ask.h) */
};

/* The i-th question, or NULL past the last. */
const struct tc_question *tc_question_at(size_t i);

/* By name; NULL where there is none. */
const struct tc_question *tc_question_find(const char *name);

#endif
