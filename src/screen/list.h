/* SPDX-License-Identifier: MIT */
/*
 * list.h - a list to choose from: what it holds and what choosing does is a
 * record that the opener hands over. See state.h; lists.h has the records.
 */
#ifndef TC_SCREEN_LIST_H
#define TC_SCREEN_LIST_H

#include "screen/state.h"

struct tc_list_kind {
    /* Fills an empty sheet with the choices, as picker.h wants it. */
    void (*fill)(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet);
    /* The value in force now, selected at the start; in buffer or not. NULL: none. */
    const char *(*present)(const struct tc_state *state, struct tc_list_about about,
                           char buffer[TC_NAME_SIZE]);
    /* Takes what was chosen. The value is a copy; the list is open until this closes it. */
    void (*take)(struct tc_state *state, struct tc_list_about about, const char *value);
    /* Left and Right on a choice, "" where none is selected; NULL: nothing. */
    void (*step)(struct tc_state *state, const char *value, int by);
    bool counts; /* what is stepped is a number of things */
    /* Takes what was typed there back, and whether that can be; NULL: it cannot. */
    void (*back)(struct tc_state *state, const char *value);
    bool (*back_possible)(const struct tc_state *state, const char *value);
    /* Takes a key in the place of the filter; false leaves it to that. NULL: all are left to it. */
    bool (*type)(struct tc_state *state, uint32_t code);
};

/* Opens a list, in the place of one that is on top; or over it, to go back to. */
void tc_list_open(struct tc_state *state, const struct tc_list_kind *kind, struct tc_list_about about);
void tc_list_open_over(struct tc_state *state, const struct tc_list_kind *kind, struct tc_list_about about);

/* Fills the open lists again, after the plan was worked out again. */
void tc_list_renew(struct tc_state *state);

/* The most choices a list shows at once on the present screen. */
size_t tc_list_page(const struct tc_state *state);

/* Keeps the selected choice of every list in sight, on a screen of another size. */
void tc_list_resize(struct tc_state *state);

/* Goes on to the next choice, with the filter away: what was chosen is done. */
void tc_list_go_on(struct tc_state *state);

/* What the keys do. */
void tc_list_take(struct tc_state *state, int unused);
bool tc_list_take_possible(const struct tc_state *state);
void tc_list_step(struct tc_state *state, int by);
bool tc_list_counts(const struct tc_state *state);
void tc_list_back(struct tc_state *state, int unused);
bool tc_list_back_possible(const struct tc_state *state);
void tc_list_lines(struct tc_state *state, int by);
void tc_list_pages(struct tc_state *state, int by);
void tc_list_type(struct tc_state *state, uint32_t code);
void tc_list_leave(struct tc_state *state, int unused);

/* Selects the choice so many lines below the first one in sight; takes it if it was selected already. */
void tc_list_click(struct tc_state *state, int line);

#endif
