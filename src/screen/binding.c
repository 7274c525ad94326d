/* SPDX-License-Identifier: MIT */
#include "screen/binding.h"

const struct tc_binding *tc_binding_at(const struct tc_state *state, size_t i)
{
    return i < state->binding_count ? &state->bindings[i] : NULL;
}

const struct tc_binding *tc_binding_find(const struct tc_state *state, uint32_t event)
{
    enum tc_layer layer = tc_state_top(state);
    if (event == TC_EVENT_NONE)
        return NULL;
    for (size_t i = 0; i < state->binding_count; i++) {
        const struct tc_binding *binding = &state->bindings[i];
        bool here = binding->layer == layer || event == TC_EVENT_REDRAW; /* which works everywhere */
        if (here && (binding->event == event || binding->other == event))
            return binding;
    }
    return NULL;
}

const char *tc_binding_layer_title(enum tc_layer layer)
{
    switch (layer) {
    case TC_LAYER_SHEET: return "On a sheet";
    case TC_LAYER_LIST: return "In a list (letters narrow it down)";
    case TC_LAYER_PROMPT: return "While typing";
    case TC_LAYER_PAGER: return "In a text";
    case TC_LAYER_PICTURE: return "In a picture";
    case TC_LAYER_CONFIRM: return "At a question";
    }
    return "";
}
