/* SPDX-License-Identifier: MIT */
/*
 * screen.h - tankcost on a terminal: shows any sheet of a plan and lets every
 * figure of it be changed on the position.
 *
 *     int signal_number = 0;
 *     enum tc_status status = tc_screen_run(&options, &signal_number);
 *     if (status == TC_NO_RESULT)
 *         ...no terminal to draw on: print the sheet...
 *     if (status == TC_STOPPED) {
 *         ...free everything...
 *         signal(signal_number, SIG_DFL);
 *         raise(signal_number);        so that the parent sees how we ended
 *     }
 *
 * While it runs the terminal, the process's signal handlers and ncurses are
 * its own; all are put back before it returns. A signal of a crash (SIGSEGV,
 * SIGABRT ...) puts the terminal right and then ends the process as it would
 * have without a screen.
 */
#ifndef TC_SCREEN_SCREEN_H
#define TC_SCREEN_SCREEN_H

#include "core/base/status.h"
#include "screen/screen_options.h"

/*
 * Runs until the user leaves. TC_OK then; TC_NO_RESULT, with nothing written,
 * where standard input or output is no terminal or one that cannot be drawn
 * on (TERM unset, unknown, or without cursor addressing); TC_STOPPED on
 * SIGTERM, SIGHUP, SIGINT or SIGQUIT, with its number in *signal_number;
 * TC_IO where the terminal went away; TC_NO_MEMORY. SIGTSTP and SIGCONT stop
 * and continue it, ^C asks for leaving as the key for it does.
 */
enum tc_status tc_screen_run(const struct tc_screen_options *options, int *signal_number);

#endif
