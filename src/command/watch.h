/* SPDX-License-Identifier: MIT */
/*
 * watch.h - long work of a command: how far it is, and a stop that keeps what is known.
 *
 * Where standard error is a terminal, one line there tells the progress of work
 * that takes a while, and is wiped out again. The first Ctrl-C then ends the work
 * with what is known so far; the second ends the program at once. Elsewhere nothing
 * is told, and Ctrl-C is left as it was.
 */
#ifndef TC_COMMAND_WATCH_H
#define TC_COMMAND_WATCH_H

#include <stdbool.h>

#include "sheet/ask.h"
#include "sheet/question.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * As tc_answer_make, watched. *stopped becomes true where the person stopped it: a sheet that was made
 * all the same says so. With *stopped set already the work is not begun.
 */
enum tc_status tc_watch_answer(const struct tc_question *question, const struct tc_study *study,
                               struct tc_ask ask, struct tc_sheet *sheet, bool *stopped);

#endif
