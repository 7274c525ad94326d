/* SPDX-License-Identifier: MIT */
/*
 * refresh.h - what follows a press: the study and the sheet made again where they
 * are out of date, and laid out for the screen. See state.h.
 */
#ifndef TC_SCREEN_REFRESH_H
#define TC_SCREEN_REFRESH_H

#include <stdbool.h>

#include "screen/state.h"

/* Whether the sheet that is to be seen has to be made. */
bool tc_refresh_waits(const struct tc_state *state);

/* What the present question is asked beside its study. */
struct tc_ask tc_refresh_ask(const struct tc_state *state);

/*
 * Makes it, or a first picture of it where the whole takes long: it then still waits, and is made whole at
 * the next call. go_on is asked now and then, as in struct tc_ask; where it says no, the old sheet stays, and
 * is made again at the next call unless tc_refresh_stop was called. NULL: nobody waits, and it is made whole
 * at once.
 */
void tc_refresh_do(struct tc_state *state, bool (*go_on)(void *context, double done), void *context);

/* The user has had enough of the work on the present sheet: it is not made until asked for. */
void tc_refresh_stop(struct tc_state *state);

#endif
