/* SPDX-License-Identifier: MIT */
/*
 * binding.h - which key does what. The table itself is keymap.c's, above all
 * that the keys do; whoever is below it asks for it here.
 */
#ifndef TC_SCREEN_BINDING_H
#define TC_SCREEN_BINDING_H

#include "screen/state.h"

enum tc_binding_flag {
    TC_BINDING_LAST = 1, /* stands at the right end of the line at the bottom, whatever else has room */
    TC_BINDING_BLIND = 2 /* works also where the screen is too small to show anything */
};

struct tc_binding {
    enum tc_layer layer;
    uint32_t event;
    uint32_t other; /* works as well; TC_EVENT_NONE: nothing else does */
    void (*act)(struct tc_state *state, int with);
    int with;
    bool (*possible)(const struct tc_state *state); /* whether it does anything now; NULL: always */
    const char *label;                              /* in the line at the bottom: "change"; NULL: not there */
    const char *help;                               /* in the help; NULL: said with the one before it */
    unsigned flags;
};

/* The binding of a key in the layer on top; NULL where it has none. */
const struct tc_binding *tc_binding_find(const struct tc_state *state, uint32_t event);

/* The i-th binding of the table, or NULL past the last. */
const struct tc_binding *tc_binding_at(const struct tc_state *state, size_t i);

/* Heads the keys of a layer in the help: "In a list". */
const char *tc_binding_layer_title(enum tc_layer layer);

#endif
