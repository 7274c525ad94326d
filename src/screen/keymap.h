/* SPDX-License-Identifier: MIT */
/*
 * keymap.h - what happens when a key is pressed or text is pasted: the table of
 * all keys, and the way from an event to what it does. It stands above all that keys do.
 */
#ifndef TC_SCREEN_KEYMAP_H
#define TC_SCREEN_KEYMAP_H

#include "screen/state.h"

/* Starts a state (state.h) with a screen of that size, laid out and with its keys. Free it whatever the
 * status; TC_NO_MEMORY.
 */
enum tc_status tc_keymap_start(struct tc_state *state, const struct tc_screen_options *options, int width,
                               int height);

/* Takes a key event. Never takes long; what has to be worked out waits for tc_refresh_do. */
void tc_keymap_press(struct tc_state *state, struct tc_key_event event);

/* The screen has another size. */
void tc_keymap_resize(struct tc_state *state, int width, int height);

#endif
