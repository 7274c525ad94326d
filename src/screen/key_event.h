/* SPDX-License-Identifier: MIT */
/*
 * key_event.h - what the user pressed, told apart from any terminal library.
 *
 * A press is a character (its Unicode code point) or one of the codes below,
 * which lie beyond all characters. Clicks and turns of the wheel say where.
 */
#ifndef TC_SCREEN_KEY_EVENT_H
#define TC_SCREEN_KEY_EVENT_H

#include <stdbool.h>
#include <stdint.h>

enum {
    TC_EVENT_NONE = 0,
    TC_EVENT_FIRST_KEY = 0x110000,
    TC_EVENT_UP = TC_EVENT_FIRST_KEY,
    TC_EVENT_DOWN,
    TC_EVENT_LEFT,
    TC_EVENT_RIGHT,
    TC_EVENT_PAGE_UP,
    TC_EVENT_PAGE_DOWN,
    TC_EVENT_HOME,
    TC_EVENT_END,
    TC_EVENT_ENTER,
    TC_EVENT_ESCAPE,
    TC_EVENT_TAB,
    TC_EVENT_BACK_TAB,
    TC_EVENT_BACKSPACE,
    TC_EVENT_DELETE,
    TC_EVENT_CLEAR_LINE, /* ^U */
    TC_EVENT_BREAK,      /* ^C */
    TC_EVENT_REDRAW,     /* ^L */
    TC_EVENT_HELP,       /* the key of that name, or F1 */
    TC_EVENT_CLICK,
    TC_EVENT_WHEEL_UP,
    TC_EVENT_WHEEL_DOWN,
    TC_EVENT_PASTE, /* what follows is pasted, not typed, until ... */
    TC_EVENT_PASTE_END,
    TC_EVENT_RESIZE /* the terminal has another size now */
};

struct tc_key_event {
    uint32_t code;
    int column, row; /* of a click: cells from the upper left corner */
};

enum { TC_EVENT_NAME_SIZE = 16 };

/* What stands on the key: "Enter", "Page Up", "t"; into buffer (TC_EVENT_NAME_SIZE), which is returned. */
const char *tc_event_name(char *buffer, uint32_t code);

/* Whether it is a character that can be typed into a text. */
bool tc_event_is_text(uint32_t code);

/* Writes the character in UTF-8 into buffer (5 bytes, ended); returns its length. */
int tc_event_text(char *buffer, uint32_t code);

#endif
