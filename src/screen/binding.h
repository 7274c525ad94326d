/* SPDX-License-Identifier: MIT */
/*
 * binding.h - which key does what, as one table: the presses are looked up in
 * it, and the line at the bottom and the help are written from it.
 */
#ifndef TC_SCREEN_BINDING_H
#define TC_SCREEN_BINDING_H

#include "screen/state.h"

struct tc_binding {
    enum tc_layer layer;
    uint32_t press;
    uint32_t other; /* works as well; TC_EVENT_NONE: nothing else does */
    void (*act)(struct tc_state *state, int with);
    int with;
    bool (*possible)(const struct tc_state *state); /* whether it does anything now; NULL: always */
    const char *label; /* in the line at the bottom: "types over"; NULL: not there */
    const char *help;  /* in the help; NULL: said with the one before it */
};

/* The binding of a press in the layer on top; NULL where it has none. */
const struct tc_binding *tc_binding_find(const struct tc_state *state, uint32_t press);

/* The i-th binding of the table, or NULL past the last. */
const struct tc_binding *tc_binding_at(size_t i);

/* Heads the keys of a layer in the help: "In a list". */
const char *tc_binding_layer_title(enum tc_layer layer);

#endif
