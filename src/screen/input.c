/* SPDX-License-Identifier: MIT */
#include "screen/input.h"

#include <string.h>

#include "core/base/clean.h"

void tc_input_start(struct tc_input *input, const char *text, bool fresh)
{
    input->length = tc_clean(input->text, sizeof input->text, text);
    input->at = input->length;
    input->fresh = fresh && input->length > 0;
}

/* The borders of the characters beside a place. */
static size_t before(const struct tc_input *input, size_t at)
{
    return at == 0 ? 0 : tc_utf8_cut(input->text, input->length, at - 1);
}

static size_t after(const struct tc_input *input, size_t at)
{
    size_t next = at + 1;
    while (next < input->length && tc_utf8_cut(input->text, input->length, next) != next)
        next++;
    return next < input->length ? next : input->length;
}

static void cut_out(struct tc_input *input, size_t from, size_t to)
{
    memmove(input->text + from, input->text + to, input->length - to + 1);
    input->length -= to - from;
    input->at = from;
}

static void insert(struct tc_input *input, uint32_t code)
{
    char bytes[5];
    size_t count = (size_t)tc_event_text(bytes, code);
    if (input->fresh)
        cut_out(input, 0, input->length);
    if (input->length + count >= sizeof input->text)
        return;
    memmove(input->text + input->at + count, input->text + input->at, input->length - input->at + 1);
    memcpy(input->text + input->at, bytes, count);
    input->length += count;
    input->at += count;
}

bool tc_input_press(struct tc_input *input, uint32_t code)
{
    switch (code) {
    case TC_EVENT_LEFT: input->at = before(input, input->at); break;
    case TC_EVENT_RIGHT: input->at = after(input, input->at); break;
    case TC_EVENT_HOME: input->at = 0; break;
    case TC_EVENT_END: input->at = input->length; break;
    case TC_EVENT_BACKSPACE: cut_out(input, before(input, input->at), input->at); break;
    case TC_EVENT_DELETE: cut_out(input, input->at, after(input, input->at)); break;
    case TC_EVENT_CLEAR_LINE: cut_out(input, 0, input->length); break;
    default:
        if (!tc_event_is_text(code))
            return false;
        insert(input, code);
    }
    input->fresh = false;
    return true;
}
