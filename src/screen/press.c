/* SPDX-License-Identifier: MIT */
#include "screen/press.h"

#include <stdio.h>

#include "core/base/clean.h"

static const char *const key_names[] = {
    [TC_PRESS_UP - TC_PRESS_FIRST_KEY] = "Up",
    [TC_PRESS_DOWN - TC_PRESS_FIRST_KEY] = "Down",
    [TC_PRESS_LEFT - TC_PRESS_FIRST_KEY] = "Left",
    [TC_PRESS_RIGHT - TC_PRESS_FIRST_KEY] = "Right",
    [TC_PRESS_PAGE_UP - TC_PRESS_FIRST_KEY] = "Page Up",
    [TC_PRESS_PAGE_DOWN - TC_PRESS_FIRST_KEY] = "Page Down",
    [TC_PRESS_HOME - TC_PRESS_FIRST_KEY] = "Home",
    [TC_PRESS_END - TC_PRESS_FIRST_KEY] = "End",
    [TC_PRESS_ENTER - TC_PRESS_FIRST_KEY] = "Enter",
    [TC_PRESS_ESCAPE - TC_PRESS_FIRST_KEY] = "Esc",
    [TC_PRESS_TAB - TC_PRESS_FIRST_KEY] = "Tab",
    [TC_PRESS_BACK_TAB - TC_PRESS_FIRST_KEY] = "Shift-Tab",
    [TC_PRESS_BACKSPACE - TC_PRESS_FIRST_KEY] = "Backspace",
    [TC_PRESS_DELETE - TC_PRESS_FIRST_KEY] = "Delete",
    [TC_PRESS_CLEAR_LINE - TC_PRESS_FIRST_KEY] = "Ctrl-U",
    [TC_PRESS_BREAK - TC_PRESS_FIRST_KEY] = "Ctrl-C",
    [TC_PRESS_REDRAW - TC_PRESS_FIRST_KEY] = "Ctrl-L",
    [TC_PRESS_HELP - TC_PRESS_FIRST_KEY] = "F1",
    [TC_PRESS_CLICK - TC_PRESS_FIRST_KEY] = "click",
    [TC_PRESS_WHEEL_UP - TC_PRESS_FIRST_KEY] = "wheel up",
    [TC_PRESS_WHEEL_DOWN - TC_PRESS_FIRST_KEY] = "wheel down",
    [TC_PRESS_RESIZE - TC_PRESS_FIRST_KEY] = "resize",
};

int tc_press_text(char *buffer, uint32_t code)
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

bool tc_press_is_text(uint32_t code)
{
    bool surrogate = code >= 0xD800 && code < 0xE000;
    return code != TC_PRESS_NONE && code < TC_PRESS_FIRST_KEY && !surrogate && !tc_code_unsafe(code);
}

const char *tc_press_name(char *buffer, uint32_t code)
{
    buffer[0] = '\0';
    if (code == ' ')
        snprintf(buffer, TC_PRESS_NAME_SIZE, "Space");
    else if (tc_press_is_text(code))
        tc_press_text(buffer, code);
    else if (code >= TC_PRESS_FIRST_KEY && code <= TC_PRESS_RESIZE)
        snprintf(buffer, TC_PRESS_NAME_SIZE, "%s", key_names[code - TC_PRESS_FIRST_KEY]);
    return buffer;
}
