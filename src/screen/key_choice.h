/* SPDX-License-Identifier: MIT */
/* key_choice.h - what a key may be where that is chosen and not typed: words, and names of records. */
#ifndef TC_SCREEN_KEY_CHOICE_H
#define TC_SCREEN_KEY_CHOICE_H

#include "profile/key.h"
#include "screen/state.h"

/* A choice that stands for typing it after all, as a name may be that nothing has yet. */
#define TC_KEY_CHOICE_TYPED "+"

/* Whether a key is chosen. */
bool tc_key_choice(const struct tc_key *key);

/* Fills a list of what it may be, under a title. */
void tc_key_choice_fill(const struct tc_state *state, const struct tc_key *key, const char *title,
                        struct tc_sheet *sheet);

#endif
