/* SPDX-License-Identifier: MIT */
/* screen_options.h - what the screen is started with. */
#ifndef TC_SCREEN_SCREEN_OPTIONS_H
#define TC_SCREEN_SCREEN_OPTIONS_H

#include <stdbool.h>

#include "core/base/date.h"
#include "profile/fault.h"
#include "profile/plan.h"
#include "profile/stock.h"
#include "sheet/question.h"

/* All pointers are borrowed until tc_screen_run returns. */
struct tc_screen_options {
    struct tc_stock *stock; /* brought up to date when something is saved, or changed by others */
    /* Reads all profiles into a fresh stock and finishes it; NULL: they are never read again. */
    enum tc_status (*read)(const void *context, struct tc_stock *stock, struct tc_faults *faults);
    const void *read_context;
    const struct tc_plan *plan; /* compared first; copied */
    const char *plan_path;      /* the file it came from, offered for saving; NULL: none */
    const char *plan_folder;    /* where a plan goes that is saved under a name alone; made if it is
                                   missing. NULL: the current folder */
    const char *own_folder;     /* the user's own profiles, in folders by their kinds; NULL: none */
    const char *kept_folder;    /* where unsaved plans are kept when the program is ended; NULL: nowhere */
    const char *installed;      /* the folder of the profiles that came with the program: nothing is saved
                                   there, and what is saved elsewhere goes before it; NULL: none */
    const struct tc_faults *faults; /* of reading the profiles, shown on request; or NULL */
    const char *question;           /* the sheet shown first, by name; NULL: the first one */
    struct tc_date today;
    struct tc_ask ask; /* go_on, context and problem are the screen's own and are not looked at */
    bool colour;       /* false: NO_COLOR or --color never; a terminal without colours needs no telling */
    bool ascii;        /* the locale has no UTF-8 */
    bool fine;         /* the terminal has braille and eighths of blocks */
};

#endif
