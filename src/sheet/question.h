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
#include <stdint.h>

#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* What a sheet is asked beside the study. Zeroed, it asks for the defaults. */
struct tc_ask {
    uint64_t seed;     /* of random draws */
    long draws;        /* 0: the sheet's own number */
    int threads;       /* 0: as many as there are processors */
    const char *vary;  /* "NAME=FROM..TO" for whatif, or NULL */
    bool walls;        /* compare the plan's walls instead of its candidates, where a question can */
    bool why;          /* say why each part was refused, too, where a question can */
    bool all;          /* show and name all of what is many, where a question has a long list */
    const char *money; /* currency in which places are compared, or NULL: the plan's region's */

    /*
     * Long work asks now and then whether to go on, with the share done
     * (0..1); false stops it with TC_STOPPED. NULL: never asked.
     */
    bool (*go_on)(void *context, double done);
    void *context;

    /* Where a wrong --vary and the like is explained: TC_PROBLEM_SIZE bytes, or NULL. */
    char *problem;
};

struct tc_question {
    const char *name; /* the command: "bill" */
    const char *asks; /* "What does each cost to own?" */
    /*
     * Fills an empty sheet (it calls tc_sheet_start; the caller frees). The
     * status is TC_OK, TC_NO_MEMORY, TC_OVERFLOW, TC_STOPPED, or TC_SYNTAX
     * with ask->problem.
     */
    enum tc_status (*make)(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);
    bool slow;  /* may take longer than a frame: worth a progress line */
    bool walls; /* can be asked of the plan's walls as well */
    bool bare;  /* can be asked of a plan without candidates */
};

/* The i-th question, or NULL past the last. */
const struct tc_question *tc_question_at(size_t i);

/* By name; NULL where there is none. */
const struct tc_question *tc_question_find(const char *name);

#endif
