/* SPDX-License-Identifier: MIT */
/*
 * terminal.h - the terminal, by way of ncurses: the one place that knows it.
 *
 * There is one terminal, so its state is global, here, in signals.h and in
 * ncurses itself.
 */
#ifndef TC_SCREEN_TERMINAL_H
#define TC_SCREEN_TERMINAL_H

#include <stdbool.h>

#include "core/base/status.h"
#include "print/canvas.h"
#include "screen/key_event.h"
#include "screen/paint.h"

/*
 * Takes the terminal over. TC_NO_RESULT, with nothing written to it, where
 * standard input and output are no terminal, or one that cannot be drawn on.
 */
enum tc_status tc_terminal_start(bool colour);

/* Gives it back as it was found. Does nothing if it was not taken. */
void tc_terminal_stop(void);

void tc_terminal_size(int *width, int *height);

/* Puts a picture on the screen; redraw writes all of it, not what has changed. */
void tc_terminal_show(const struct tc_canvas *canvas, const struct tc_cursor *cursor, bool redraw);

/* Lets clicks and the wheel arrive as presses, or leaves the mouse to the terminal. */
void tc_terminal_mouse(bool on);

enum tc_read {
    TC_READ_PRESS,   /* *press is what was pressed; TC_EVENT_RESIZE: look at the size anew */
    TC_READ_NOTHING, /* within the time */
    TC_READ_SIGNAL,  /* to end: tc_terminal_signal */
    TC_READ_LOST     /* the terminal has gone */
};

/*
 * Waits for a press, at most that many milliseconds (-1: as long as it takes).
 * Stops and continues the process where a signal asks for it; afterwards, and
 * after a change of size, there is a press of TC_EVENT_RESIZE.
 */
enum tc_read tc_terminal_read(int milliseconds, struct tc_key_event *press);

/* The signal that asked to end; 0 if none did. */
int tc_terminal_signal(void);

#endif
