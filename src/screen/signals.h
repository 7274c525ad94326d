/* SPDX-License-Identifier: MIT */
/*
 * signals.h - signals turned into something a loop can wait for.
 *
 * Handlers only set a flag and write a byte into a pipe, so that a signal is
 * never missed between looking and waiting. A second signal to end, should
 * the first not have ended anything, ends the process at once. Signals of a
 * crash put the terminal right with what they were given at the start and go
 * on as if they had never been caught.
 */
#ifndef TC_SCREEN_SIGNALS_H
#define TC_SCREEN_SIGNALS_H

#include <stdbool.h>

#include "core/base/status.h"
#include "screen/rescue.h"

/* Takes the signals over. TC_IO where there is no pipe to be had. */
enum tc_status tc_signals_start(const struct tc_rescue *wanted);
void tc_signals_stop(void);

/* Changes what is written in a crash: more has to be put right. */
void tc_signals_rescue(const struct tc_rescue *wanted);

/* To be polled for reading along with other files; readable once a signal came. */
int tc_signals_file(void);

/* What came since the last call; the file is emptied. */
struct tc_signals {
    int end; /* SIGTERM, SIGHUP, SIGINT or SIGQUIT, or 0; stays from then on */
    bool resized, stopped, continued;
};
struct tc_signals tc_signals_take(void);

/* Stops the process as SIGTSTP would have; returns when it is continued. */
void tc_signals_stop_process(void);

#endif
