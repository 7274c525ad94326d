/* SPDX-License-Identifier: MIT */
#include "screen/key_event.h"

#include <stdio.h>

#include "core/base/clean.h"

static const char *const key_names[] = {
    [TC_EVENT_UP - TC_EVENT_FIRST_KEY] = "Up",
    [TC_EVENT_DOWN - TC_EVENT_FIRST_KEY] = "Down",
    [TC_EVENT_LEFT - TC_EVENT_FIRST_KEY] = "Left",
    [TC_EVENT_RIGHT - TC_EVENT_FIRST_KEY] = "Right",
    [TC_EVENT_PAGE_UP - TC_EVENT_FIRST_KEY] = "Page Up",
    [TC_EVENT_PAGE_DOWN - TC_EVENT_FIRST_KEY] = "Page Down",
    [TC_EVENT_HOME - TC_EVENT_FIRST_KEY] = "Home",
    [TC_EVENT_END - TC_EVENT_FIRST_KEY] = "End",
    [TC_EVENT_ENTER - TC_EVENT_FIRST_KEY] = "Enter",
    [TC_EVENT_ESCAPE - TC_EVENT_FIRST_KEY] = "Esc",
    [TC_EVENT_TAB - TC_EVENT_FIRST_KEY] = "Tab",
    [TC_EVENT_BACK_TAB - TC_EVENT_FIRST_KEY] = "Shift-Tab",
    [TC_EVENT_BACKSPACE - TC_EVENT_FIRST_KEY] = "Backspace",
    [TC_EVENT_DELETE - TC_EVENT_FIRST_KEY] = "Delete",
    [TC_EVENT_CLEAR_LINE - TC_EVENT_FIRST_KEY] = "Ctrl-U",
    [TC_EVENT_BREAK - TC_EVENT_FIRST_KEY] = "Ctrl-C",
    [TC_EVENT_REDRAW - TC_EVENT_FIRST_KEY] = "Ctrl-L",
    [TC_EVENT_HELP - TC_EVENT_FIRST_KEY] = "F1",
    [TC_EVENT_CLICK - TC_EVENT_FIRST_KEY] = "click",
    [TC_EVENT_WHEEL_UP - TC_EVENT_FIRST_KEY] = "wheel up",
    [TC_EVENT_WHEEL_DOWN - TC_EVENT_FIRST_KEY] = "wheel down",
    [TC_EVENT_RESIZE - TC_EVENT_FIRST_KEY] = "resize",
};

int tc_event_text(char *buffer, uint32_t code)
{
    int length = 0;
    if (code < 0x80) {
        buffer[length++] = (char)code;
    } else if (code < 0x800) {
        buffer[length++] = (char)(0xC0 | code >> 6);
        buffer[length++] = (char)(0x80 | (code & 0x3F));
    } else if (code < 0x10000) {
        buffer[length++] = (char)(0xE0 | code >> 12);
        buffer[length++] = (char)(0x80 | (code >> 6 & 0x3F));
        buffer[length++] = (char)(0x80 | (code & 0x3F));
    } else {
        buffer[length++] = (char)(0xF0 | (code >> 18 & 0x07));
        buffer[length++] = (char)(0x80 | (code >> 12 & 0x3F));
        buffer[length++] = (char)(0x80 | (code >> 6 & 0x3F));
        buffer[length++] = (char)(0x80 | (code & 0x3F));
    }
    buffer[length] = '\0';
    return length;
}

bool tc_event_is_text(uint32_t code)
{
    bool surrogate = code >= 0xD800 && code < 0xE000;
    return code != TC_EVENT_NONE && code < TC_EVENT_FIRST_KEY && !surrogate && !tc_code_unsafe(code);
}

const char *tc_event_name(char *buffer, uint32_t code)
{
    buffer[0] = '\0';
    if (code == ' ')
        snprintf(buffer, TC_EVENT_NAME_SIZE, "Space");
    else if (tc_event_is_text(code))
        tc_event_text(buffer, code);
    else if (code >= TC_EVENT_FIRST_KEY && code <= TC_EVENT_RESIZE)
        snprintf(buffer, TC_EVENT_NAME_SIZE, "%s", key_names[code - TC_EVENT_FIRST_KEY]);
    return buffer;
}
