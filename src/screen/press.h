/* SPDX-License-Identifier: MIT */
/*
 * press.h - what the user pressed, told apart from any terminal library.
 *
 * A press is a character (its Unicode code point) or one of the codes below,
 * which lie beyond all characters. Clicks and turns of the wheel say where.
 */
#ifndef TC_SCREEN_PRESS_H
#define TC_SCREEN_PRESS_H

#include <stdbool.h>
#include <stdint.h>

enum {
    TC_PRESS_NONE = 0,
    TC_PRESS_FIRST_KEY = 0x110000,
    TC_PRESS_UP = TC_PRESS_FIRST_KEY,
    TC_PRESS_DOWN,
    TC_PRESS_LEFT,
    TC_PRESS_RIGHT,
    TC_PRESS_PAGE_UP,
    TC_PRESS_PAGE_DOWN,
    TC_PRESS_HOME,
    TC_PRESS_END,
    TC_PRESS_ENTER,
    TC_PRESS_ESCAPE,
    TC_PRESS_TAB,
    TC_PRESS_BACK_TAB,
    TC_PRESS_BACKSPACE,
    TC_PRESS_DELETE,
    TC_PRESS_CLEAR_LINE, /* ^U */
    TC_PRESS_BREAK,      /* ^C */
    TC_PRESS_REDRAW,     /* ^L */
    TC_PRESS_HELP,       /* the key of that name, or F1 */
    TC_PRESS_CLICK,
    TC_PRESS_WHEEL_UP,
    TC_PRESS_WHEEL_DOWN,
    TC_PRESS_RESIZE /* the terminal has another size now */
};

struct tc_press {
    uint32_t code;
    int column, row; /* of a click: cells from the upper left corner */
};

enum { TC_PRESS_NAME_SIZE = 16 };

/* What stands on the key: "Enter", "Page Up", "t"; into buffer (TC_PRESS_NAME_SIZE), which is returned. */
const char *tc_press_name(char *buffer, uint32_t code);

/* Whether it is a character that can be typed into a text. */
bool tc_press_is_text(uint32_t code);

/* Writes the character in UTF-8 into buffer (5 bytes, ended); returns its length. */
int tc_press_text(char *buffer, uint32_t code);

#endif
