/* SPDX-License-Identifier: MIT */
#include "screen/style.h"

#include <ncurses.h>

#include "screen/style_role.h"

struct look {
    attr_t plain;  /* without colours */
    attr_t bright; /* with them, beside the colour */
    short colour;  /* of the text; -1: the terminal's own */
};

static const struct look looks[TC_ROLE_COUNT] = {
    [TC_TONE_PLAIN] = {A_NORMAL, A_NORMAL, -1},
    [TC_TONE_STRONG] = {A_BOLD, A_BOLD, -1},
    [TC_TONE_SOFT] = {A_DIM, A_DIM, -1},
    [TC_TONE_BEST] = {A_BOLD, A_BOLD, COLOR_CYAN},
    [TC_TONE_TYPED] = {A_UNDERLINE, A_UNDERLINE, COLOR_MAGENTA},
    [TC_TONE_WARN] = {A_BOLD, A_BOLD, COLOR_YELLOW},
    [TC_TONE_SERIES] = {A_NORMAL, A_NORMAL, COLOR_CYAN},
    [TC_TONE_SERIES + 1] = {A_NORMAL, A_NORMAL, COLOR_YELLOW},
    [TC_TONE_SERIES + 2] = {A_NORMAL, A_NORMAL, COLOR_MAGENTA},
    [TC_TONE_SERIES + 3] = {A_BOLD, A_BOLD, COLOR_BLUE},
    [TC_TONE_SERIES + 4] = {A_BOLD, A_BOLD, -1},
    [TC_TONE_SERIES + 5] = {A_DIM, A_NORMAL, COLOR_BLUE},
    [TC_ROLE_KEY] = {A_BOLD, A_BOLD, COLOR_CYAN},
    [TC_ROLE_HERE] = {A_BOLD | A_UNDERLINE, A_BOLD | A_UNDERLINE, -1},
    [TC_ROLE_FOUND] = {A_UNDERLINE, A_UNDERLINE, COLOR_YELLOW},
    [TC_ROLE_FIELD] = {A_UNDERLINE, A_UNDERLINE, -1},
    [TC_ROLE_FRAME] = {A_DIM, A_DIM, -1},
};

/* Pairs are numbered by colour, from 1 on: pair 0 is the terminal's own. */
static short pair_of(short colour)
{
    return colour < 0 ? 0 : (short)(colour + 1);
}

void tc_style_start_colours(void)
{
    start_color();
    bool own = use_default_colors() == OK;
    for (short colour = COLOR_BLACK; colour <= COLOR_WHITE; colour++)
        init_pair(pair_of(colour), colour, own ? -1 : COLOR_BLACK);
}

unsigned long tc_style_attributes(unsigned role, bool colours, short *pair)
{
    unsigned which = role & ~(unsigned)TC_ROLE_SELECTED;
    const struct look *look = &looks[which < TC_ROLE_COUNT ? which : TC_TONE_PLAIN];
    attr_t attributes = colours ? look->bright : look->plain;
    *pair = colours ? pair_of(look->colour) : 0;
    if (role & TC_ROLE_SELECTED)
        attributes = (attributes & ~(attr_t)A_DIM) | A_REVERSE;
    return attributes;
}
