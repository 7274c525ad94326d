/* SPDX-License-Identifier: MIT */
/*
 * state.h - everything the screen knows, apart from the terminal.
 *
 * The state takes presses (tc_state_press) and says what is to be seen
 * (view.h draws it); neither knows of ncurses, so all of it can be tested
 * without a terminal. Between a press and the picture the loop calls
 * tc_refresh_do (refresh.h), which makes the sheet that is to be seen where the plan has
 * changed since it was made; only that takes time.
 *
 *     press -> tc_state_press -> tc_refresh_do -> tc_view_draw -> terminal
 *
 * What the keys do is spread over browse.h (moving about), change.h (the
 * plan's figures), choose.h (lists to pick from) and saving.h (files);
 * binding.h is the table that says which key does what.
 */
#ifndef TC_SCREEN_STATE_H
#define TC_SCREEN_STATE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/text.h"
#include "profile/fault.h"
#include "screen/body.h"
#include "screen/frame.h"
#include "screen/history.h"
#include "screen/input.h"
#include "screen/picker.h"
#include "screen/key_event.h"
#include "screen/screen.h"
#include "sheet/study.h"

/* What lies on top takes the presses. */
enum tc_layer {
    TC_LAYER_SHEET,
    TC_LAYER_PICKER,  /* a list to choose from */
    TC_LAYER_PROMPT,  /* a line to type */
    TC_LAYER_PAGER,   /* a text to read: help, faults */
    TC_LAYER_PICTURE, /* a drawing or chart as large as the screen allows */
    TC_LAYER_CONFIRM  /* a question before something is lost */
};

enum { TC_LAYERS_MOST = 8 };

/* Where one is in a sheet. */
struct tc_position {
    size_t line;   /* selected, of the body */
    size_t column; /* selected */
    size_t top;    /* first line in sight */
    size_t left;   /* first column in sight */
};

/* One question's sheet, as it was made last, and where one is in it. */
struct tc_tab {
    struct tc_sheet sheet;
    bool made;                     /* there is a sheet (perhaps of an older version) */
    unsigned long version;         /* of the plan it was made for; 0: none */
    bool stopped;                  /* its making was stopped by the user, for this version */
    char problem[TC_PROBLEM_SIZE]; /* why there is none, or "" */
    struct tc_body body;
    struct tc_position position;
};

enum tc_prompt_kind {
    TC_PROMPT_FIGURE, /* a figure of the plan, by path */
    TC_PROMPT_FIND,
    TC_PROMPT_VARY,  /* what `whatif` varies */
    TC_PROMPT_MONEY, /* the currency in which places are compared */
    TC_PROMPT_SAVE,  /* the file a plan is saved to */
    TC_PROMPT_WRITE  /* the file a sheet is written to */
};

/* What saving a plan was the first step of. */
enum tc_prompt_then { TC_THEN_STAY, TC_THEN_LEAVE, TC_THEN_OPEN };

/* A line to type. */
struct tc_prompt {
    enum tc_prompt_kind kind;
    char title[160];
    char hint[320];
    char problem[TC_PROBLEM_SIZE];
    char path[2 * TC_NAME_SIZE]; /* TC_PROMPT_FIGURE: of the plan */
    struct tc_input input;
    bool at_cell;                 /* it belongs to the selected cell, and lies beside it */
    struct tc_position before;    /* TC_PROMPT_FIND: where one was */
    enum tc_prompt_then then;     /* TC_PROMPT_SAVE */
    char then_name[TC_NAME_SIZE]; /* TC_THEN_OPEN: of the plan */
};

enum tc_pager_kind { TC_PAGER_HELP, TC_PAGER_FAULTS };

/* A text to read. */
struct tc_pager {
    enum tc_pager_kind kind;
    const char *title;
    struct tc_text
        text; /* lines, wrapped; a tab sets a key apart from what it does, a vertical tab begins a heading */
    size_t line_count;
    size_t top;
};

enum tc_confirm_kind {
    TC_CONFIRM_LEAVE,         /* with a plan that is not saved */
    TC_CONFIRM_REPLACE_PLAN,  /* another file, by a plan */
    TC_CONFIRM_REPLACE_SHEET, /* a file, by a sheet */
    TC_CONFIRM_OPEN           /* another plan, in place of one that is not saved */
};

struct tc_confirm {
    enum tc_confirm_kind kind;
    char text[TC_PATH_SIZE + 64];
    char path[TC_PATH_SIZE]; /* of the file, or name of the plan */
};

struct tc_state {
    const struct tc_screen_options *options; /* borrowed */

    struct tc_document now; /* the plan and its file */
    struct tc_plan saved;   /* as it was saved or opened last */
    struct tc_history history;
    unsigned long version;    /* counts changes of the plan and of what is asked; from 1 */
    char vary[TC_TYPED_SIZE]; /* what is asked beside the plan; "": the default */
    char money[4];
    bool walls; /* bill and years compare the plan's walls */

    struct tc_study *study; /* owned; of study_version */
    unsigned long study_version;
    enum tc_status study_status;
    struct tc_faults faults; /* of making it */

    size_t question, question_count;
    struct tc_tab *tabs; /* owned, one a question */

    int candidate; /* the one the cursor was on last, by its place in the plan */

    struct tc_frame frame;

    enum tc_layer layer[TC_LAYERS_MOST]; /* the sheet at the bottom */
    int layer_count;
    struct tc_picker picker;
    struct tc_prompt prompt;
    struct tc_pager pager;
    struct tc_confirm confirm;
    size_t picture; /* which one of the sheet's */

    char message[512]; /* what has just happened; "" where nothing has */
    bool warns;        /* it says what went wrong */
    char find[128];    /* what was looked for last */

    double working; /* share of the work done, while it is worth telling; else negative */

    bool mouse;  /* clicks and the wheel are wanted */
    bool redraw; /* the terminal is to be drawn from scratch */
    bool leave;  /* the user has left */
    bool failed; /* memory ran out: the screen has to end */
};

/* Starts with a screen of that size. Free it whatever the status; TC_NO_MEMORY. */
enum tc_status tc_state_start(struct tc_state *state, const struct tc_screen_options *options, int width,
                              int height);
void tc_state_free(struct tc_state *state);

/* Takes a press. Never takes long; what has to be worked out anew waits for tc_refresh_do. */
void tc_state_press(struct tc_state *state, struct tc_key_event press);

/* The screen has another size. */
void tc_state_resize(struct tc_state *state, int width, int height);

/* ---- for the files that say what keys do ---- */

enum tc_layer tc_state_top(const struct tc_state *state);
void tc_state_push(struct tc_state *state, enum tc_layer layer);
void tc_state_pop(struct tc_state *state);

/* The question asked and its tab. */
const struct tc_question *tc_state_question(const struct tc_state *state);
struct tc_tab *tc_state_tab(struct tc_state *state);
const struct tc_tab *tc_state_tab_seen(const struct tc_state *state);

/* Whether the plan differs from what was saved. */
bool tc_state_changed(const struct tc_state *state);

/* Everything that depends on the plan or on what is asked is out of date. */
void tc_state_outdate(struct tc_state *state);

/* The cell selected in the sheet and its row; NULL where none is. */
const struct tc_cell *tc_state_cell(const struct tc_state *state, const struct tc_row **row);

/* The place in the plan of the candidate that the cursor is on, or was on last; -1 where there is none. */
int tc_state_candidate(const struct tc_state *state);

/* Its alternative in the study; NULL where it could not be worked out. */
const struct tc_alternative *tc_state_entry(const struct tc_state *state, int candidate);

/* What has happened, for the line at the bottom until the next press. */
void tc_state_say(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);
void tc_state_warn(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);

/* Rows of the screen that a list leaves to others or uses for its frame, heads and the like (panel.c). */
enum { TC_PICKER_TAKES = 8 };

/* The most choices a list shows at once on the present screen. */
size_t tc_state_picker_page(const struct tc_state *state);

#endif
