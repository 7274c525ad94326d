/* SPDX-License-Identifier: MIT */
#include "screen/hints.h"

#include "print/width.h"
#include "screen/binding.h"
#include "screen/confirm.h"
#include "screen/style_role.h"

enum { GAP = 2 }; /* between one key and the next */

/* The columns that "Enter change" takes. */
static int hint_width(uint32_t event, const char *label)
{
    char key[TC_EVENT_NAME_SIZE];
    tc_event_name(key, event);
    return tc_width(key) + 1 + tc_width(label);
}

static void draw_hint(struct tc_canvas *canvas, int column, int row, uint32_t event, const char *label)
{
    char key[TC_EVENT_NAME_SIZE];
    tc_event_name(key, event);
    tc_canvas_text(canvas, column, row, tc_style_tone(TC_ROLE_KEY), key);
    tc_canvas_text(canvas, column + tc_width(key) + 1, row, TC_TONE_SOFT, label);
}

/* A line being filled from the left. */
struct line {
    struct tc_canvas *canvas;
    int column, row, end;
};

/* Adds a hint; false where it has no room. */
static bool add_hint(struct line *line, uint32_t event, const char *label)
{
    int width = hint_width(event, label);
    if (line->column + width > line->end)
        return false;
    draw_hint(line->canvas, line->column, line->row, event, label);
    line->column += width + GAP;
    return true;
}

/* Whether a binding is one of those on the line now. */
static bool is_shown(const struct tc_state *state, const struct tc_binding *binding)
{
    return binding->layer == tc_state_top(state) && binding->label &&
           (!binding->possible || binding->possible(state));
}

void tc_hints_draw(const struct tc_state *state, struct tc_canvas *canvas, int column, int row, int columns)
{
    struct line line = {canvas, column, row, column + columns};
    const struct tc_binding *binding, *last = NULL;
    for (size_t i = 0; (binding = tc_binding_at(state, i)) != NULL; i++)
        if (is_shown(state, binding) && binding->flags & TC_BINDING_LAST)
            last = binding;
    if (last)
        line.end -= GAP + hint_width(last->event, last->label);
    if (tc_state_top(state) == TC_LAYER_CONFIRM) {
        const struct tc_confirm_answer *answer;
        for (size_t i = 0; (answer = tc_confirm_answer_at(state, i)) != NULL; i++)
            add_hint(&line, answer->event, answer->label);
    }
    for (size_t i = 0; (binding = tc_binding_at(state, i)) != NULL; i++)
        if (binding != last && is_shown(state, binding) && !add_hint(&line, binding->event, binding->label))
            break;
    if (last)
        draw_hint(canvas, line.column, row, last->event, last->label);
}
