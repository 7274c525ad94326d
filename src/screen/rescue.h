/* SPDX-License-Identifier: MIT */
/*
 * rescue.h - what the terminal's description says before and beside ncurses:
 * whether it can be drawn on at all, and what puts it right in a crash.
 */
#ifndef TC_SCREEN_RESCUE_H
#define TC_SCREEN_RESCUE_H

#include <stdbool.h>
#include <stddef.h>
#include <termios.h>

/* What puts the terminal right without any library: bytes to write to it, and its modes. */
struct tc_rescue {
    int terminal; /* file descriptor */
    char bytes[512];
    size_t length;
    struct termios modes;
};

/* Whether a terminal of that name can be drawn on: it is known, and its cursor can be moved. */
bool tc_rescue_can_draw(const char *name, int terminal);

/*
 * Prepares what a crash writes: attributes off, cursor seen, keypad, mouse,
 * bracketed paste and alternate screen left. For the terminal that ncurses
 * runs on.
 */
void tc_rescue_prepare(struct tc_rescue *rescue, int terminal, const struct termios *modes, bool mouse);

/*
 * What makes the terminal say where a paste begins and ends, or no longer do
 * so: ECMA-48 private mode 2004, which those that do not know it ignore. ""
 * for terminals that do not speak ECMA-48 at all.
 */
const char *tc_rescue_paste(bool on);

/* What lets all of so many lines scroll, "" where the terminal has no such thing; good until the next call.
 * The cursor goes home. */
const char *tc_rescue_margins(int height);

#endif
