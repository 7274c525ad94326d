/* SPDX-License-Identifier: MIT */
/*
 * style_role.h - what a piece of the screen is, apart from how it looks.
 *
 * The tones of a canvas (print/pen.h) go on with roles that only a screen has;
 * a flag says that the cell belongs to what is selected. style.h gives each an
 * appearance with and without colour.
 */
#ifndef TC_SCREEN_STYLE_ROLE_H
#define TC_SCREEN_STYLE_ROLE_H

#include "print/pen.h"

enum tc_style_role {
    TC_ROLE_KEY = TC_TONE_COUNT, /* the name of a key in a line that says what can be done */
    TC_ROLE_HERE,                /* the sheet or column one is on, among others */
    TC_ROLE_FOUND,               /* what was looked for */
    TC_ROLE_FIELD,               /* a line of text being typed */
    TC_ROLE_FRAME,               /* around what lies over the sheet */
    TC_ROLE_COUNT
};

enum { TC_ROLE_SELECTED = 0x80 }; /* flag beside a tone or role */

/* A tone, role or flagged one as the canvas takes it. */
static inline enum tc_tone tc_style_tone(unsigned role)
{
    return (enum tc_tone)role;
}

#endif
