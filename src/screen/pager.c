/* SPDX-License-Identifier: MIT */
#include "screen/pager.h"

#include <stdio.h>
#include <string.h>

#include "print/width.h"
#include "screen/binding.h"
#include "screen/reload.h"

enum { WIDEST = 92, FRAME_TAKES = 4, LEAST = 20 };

int tc_pager_width(const struct tc_state *state)
{
    int width = state->frame.width - FRAME_TAKES;
    return width > WIDEST && !state->pager.wide ? WIDEST : width < LEAST ? LEAST : width;
}

size_t tc_pager_room(const struct tc_state *state)
{
    int room = state->frame.height - FRAME_TAKES;
    return room > 1 ? (size_t)room : 1;
}

/* -------------------------------------------------------------------------- lines */

void tc_pager_line(struct tc_pager *pager, const char *key, const char *text, size_t length)
{
    if (*key || length > 0) {
        tc_text_add(&pager->text, key);
        tc_text_add_bytes(&pager->text, text, length);
    }
    tc_text_add_char(&pager->text, '\n');
    pager->line_count++;
}

static void add_heading(struct tc_pager *pager, const char *text)
{
    if (pager->line_count > 0)
        tc_pager_line(pager, "", "", 0);
    tc_pager_line(pager, "\v", text, strlen(text));
}

/* A paragraph, or with a key what belongs to it. */
static void add_text(struct tc_pager *pager, const char *key, const char *text, int width)
{
    char before[64];
    struct tc_wrap wrap = {text, *key ? width - TC_PAGER_KEYS : width};
    const char *line;
    size_t length;
    snprintf(before, sizeof before, *key ? "%s\t" : "%s", key);
    while (tc_wrap_next(&wrap, &line, &length)) {
        tc_pager_line(pager, before, line, length);
        if (*key)
            snprintf(before, sizeof before, "\t");
    }
}

/* --------------------------------------------------------------------------- help */

/* "t" or "Page Down, Space" */
static void keys_of(const struct tc_binding *binding, char *buffer, size_t size)
{
    char press[TC_EVENT_NAME_SIZE], other[TC_EVENT_NAME_SIZE];
    tc_event_name(press, binding->event);
    tc_event_name(other, binding->other);
    snprintf(buffer, size, "%s%s%s", press, *other ? ", " : "", other);
}

static void add_layer(struct tc_pager *pager, const struct tc_state *state, enum tc_layer layer, int width)
{
    char keys[64];
    bool headed = false;
    for (size_t i = 0; tc_binding_at(state, i); i++) {
        const struct tc_binding *binding = tc_binding_at(state, i);
        if (binding->layer != layer || !binding->help)
            continue;
        if (!headed)
            add_heading(pager, tc_binding_layer_title(layer));
        headed = true;
        keys_of(binding, keys, sizeof keys);
        add_text(pager, keys, binding->help, width);
    }
}

static void write_help(struct tc_pager *pager, const struct tc_state *state, int width)
{
    add_text(pager, "",
             "Every sheet answers one question about the same plan. Move with the arrow keys, Page Up and "
             "Page Down, Home and End. Change a figure where it stands, and everything follows. A plan is "
             "written to disk only when you save it; what you change with e, T and K goes into your own "
             "profiles at once.",
             width);
    add_layer(pager, state, TC_LAYER_SHEET, width);
    add_layer(pager, state, TC_LAYER_LIST, width);
    add_layer(pager, state, TC_LAYER_PROMPT, width);
    add_layer(pager, state, TC_LAYER_PAGER, width);
    add_layer(pager, state, TC_LAYER_PICTURE, width);
    add_layer(pager, state, TC_LAYER_CONFIRM, width);
    add_heading(pager, "What can be typed");
    add_text(pager, "45", "an amount, in the region's money", width);
    add_text(pager, "45 to 60", "a range: the sheets show its middle, and doubts what it does", width);
    add_text(pager, "9 h, 77 F, 3 %", "a figure with its unit; any unit of its kind will do", width);
    add_text(pager, "nothing", "restores the profile's figure", width);
}

/* ------------------------------------------------------------------------- faults */

static void add_faults(struct tc_pager *pager, const char *heading, const struct tc_faults *faults, int width)
{
    struct tc_text text = TC_TEXT_EMPTY;
    if (tc_faults_count(faults) > 0)
        add_heading(pager, heading);
    for (size_t i = 0; i < tc_faults_count(faults); i++) {
        tc_text_clear(&text);
        tc_fault_write(tc_faults_at(faults, i), &text);
        add_text(pager, "", tc_text_string(&text), width);
    }
    tc_text_free(&text);
}

static void write_faults(struct tc_pager *pager, const struct tc_state *state, int width)
{
    add_faults(pager, "The plan", &state->faults, width);
    if (tc_reload_faults(state))
        add_faults(pager, "The profiles", tc_reload_faults(state), width);
    if (pager->line_count == 0)
        add_text(pager, "", "Nothing is wrong with the plan or the profiles.", width);
}

/* -------------------------------------------------------------------------- opening */

void tc_pager_resize(struct tc_state *state)
{
    struct tc_pager *pager = &state->pager;
    tc_text_clear(&pager->text);
    pager->line_count = 0;
    pager->write(pager, state, tc_pager_width(state));
    tc_pager_lines(state, 0);
}

void tc_pager_open(struct tc_state *state, tc_pager_write *write, const char *title, bool wide)
{
    state->pager.write = write;
    state->pager.title = title;
    state->pager.wide = wide;
    state->pager.top = 0;
    tc_pager_resize(state);
    tc_state_push(state, TC_LAYER_PAGER);
}

void tc_pager_help(struct tc_state *state, int unused)
{
    (void)unused;
    tc_pager_open(state, write_help, "Keys", false);
}

void tc_pager_faults(struct tc_state *state, int unused)
{
    (void)unused;
    tc_pager_open(state, write_faults, "What is wrong", false);
}

void tc_pager_lines(struct tc_state *state, int by)
{
    struct tc_pager *pager = &state->pager;
    size_t room = tc_pager_room(state);
    size_t furthest = pager->line_count > room ? pager->line_count - room : 0;
    size_t back = by < 0 ? (size_t) - (long)by : 0;
    if (by < 0)
        pager->top = pager->top > back ? pager->top - back : 0;
    else
        pager->top += (size_t)by;
    if (pager->top > furthest)
        pager->top = furthest;
}

void tc_pager_pages(struct tc_state *state, int by)
{
    int page = (int)tc_pager_room(state) - 1;
    tc_pager_lines(state, by * (page > 1 ? page : 1));
}

void tc_pager_leave(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}
