/* SPDX-License-Identifier: MIT */
/*
 * options.h - the command line, taken apart and checked for its form.
 */
#ifndef TC_COMMAND_OPTIONS_H
#define TC_COMMAND_OPTIONS_H

#include <getopt.h>
#include <stdbool.h>

#include "core/base/date.h"
#include "print/print.h"
#include "profile/plan.h"
#include "sheet/question.h"

/* The exit statuses of the program. */
enum tc_exit {
    TC_EXIT_DONE = 0,
    TC_EXIT_FAULTS = 1, /* the input has faults; what could be done was done */
    TC_EXIT_USAGE = 2,  /* wrong usage; nothing was done */
    TC_EXIT_MACHINE = 3 /* the machine failed: disk, memory */
};

enum { TC_WORDS_MAX = 256, TC_TYPED_MAX = 64 };

/* Columns of printed text, asked for or taken from a terminal. */
enum { TC_WIDTH_LEAST = 40, TC_WIDTH_MOST = 1000 };

/* Texts are borrowed from argv, which is cut up, and from the options themselves: do not copy them. */
struct tc_options {
    const char *words[TC_WORDS_MAX]; /* what is no option: [SHEET] [PLAN], stock [KIND], check [FILE...] */
    int word_count;
    struct {
        const char *path, *text; /* as tc_plan_set takes them */
    } typed[TC_TYPED_MAX];
    int typed_count;
    char years[16];                       /* text of a typed figure that was a number alone */
    const char *tanks[TC_CANDIDATES_MAX]; /* "NAME" or "NAME=PRICE" */
    int tank_count;
    const char *regions[TC_PLAN_REGIONS_MAX];
    int region_count;
    const char *profiles; /* a folder, or NULL */
    const char *output;   /* a file, or NULL for standard output */
    bool prints;          /* --output -: standard output was asked for, so no screen */
    const char *color;    /* "auto", "always", "never" or NULL */
    enum tc_print_format format;
    bool format_given;
    int width;            /* 0: not given */
    struct tc_date today; /* year 0: not given */
    struct tc_ask ask;
    bool yes;           /* do what would else only be told */
    bool help, version; /* asked for: nothing else counts */
};

/*
 * Reads argv into zeroed options. What is wrong is told on standard error with
 * the nearest right name, and TC_EXIT_USAGE returned.
 */
enum tc_exit tc_options_read(int argc, char **argv, struct tc_options *options);

/* The i-th option as getopt_long knows it, or NULL past the last. */
const struct option *tc_option_at(size_t i);

/* The name of the i-th command that is no sheet, and what it does; NULL past the last. */
const char *tc_command_at(size_t i, const char **what);

/* Prints the help to standard output. */
void tc_options_help(void);

/* Tells of wrong usage on standard error; what goes into format's one %s. Returns TC_EXIT_USAGE. */
enum tc_exit tc_usage_error(const char *format, const char *what, const char *nearest);

#endif
