/* SPDX-License-Identifier: MIT */
/*
 * ask.h - what a sheet is asked beside its study: draws, what to vary, and
 * whether long work is to go on.
 */
#ifndef TC_SHEET_ASK_H
#define TC_SHEET_ASK_H

#include <stdbool.h>
#include <stdint.h>

struct tc_sheet;

/* What a sheet is asked beside the study. Zeroed, it asks for the defaults. */
struct tc_ask {
    uint64_t seed;          /* of random draws */
    long draws;             /* 0: the sheet's own number */
    int threads;            /* 0: as many as there are processors */
    const char *vary;       /* "NAME=FROM..TO" for whatif, or NULL */
    bool walls;             /* compare the plan's walls instead of its candidates, where a question can */
    bool why;               /* say why each part was refused, too, where a question can */
    bool all;               /* show and name all of what is many, where a question has a long list */
    bool explain;           /* its figures say how they came about (term.h), where a question can */
    const char *explain_of; /* ... those whose row a name may mean (explain.h) are enough; NULL: all */
    const char *money;      /* currency in which places are compared, or NULL: the plan's region's */

    /*
     * Long work asks now and then whether to go on, with the share done
     * (0..1); false stops it with TC_STOPPED. NULL: never asked.
     */
    bool (*go_on)(void *context, double done);
    void *context;
    /*
     * Long work whose answer grows hands out now and then, on the thread that asked for it, what is known so
     * far: a sheet that is the taker's then. NULL: only the whole is wanted. go_on is asked right after.
     */
    void (*show)(void *context, struct tc_sheet *sheet);
    bool partial;   /* stopped work says what is known so far, where it can, with TC_OK */
    bool at_screen; /* somebody waits for a picture: a hard search ends after a fraction of a second */
    bool glance;    /* a first picture at once: what takes long is left out, where it can (tc_sheet.first) */

    /* Where a wrong --vary and the like is explained: TC_PROBLEM_SIZE bytes, or NULL. */
    char *problem;
};

#endif
