/* SPDX-License-Identifier: MIT */
/*
 * style.h - how each tone and role appears: in color, and without.
 *
 * Nothing is said by colour alone: what differs in colour differs in a word
 * or sign as well, and the column without colour is complete. No two colours
 * that matter side by side are red and green.
 */
#ifndef TC_SCREEN_STYLE_H
#define TC_SCREEN_STYLE_H

#include <stdbool.h>

/* Makes the colour pairs; to be called once ncurses runs, where it has colours and they are wanted. */
void tc_style_start_colours(void);

/* The attributes of a tone or role (with its flags), as ncurses takes them; *pair is its colour pair. */
unsigned long tc_style_attributes(unsigned role, bool colours, short *pair);

#endif
