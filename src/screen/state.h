/* SPDX-License-Identifier: MIT */
/*
 * state.h - everything the screen knows, apart from the terminal: data, and access to it.
 *
 * Keys act on the state (keymap.h), and the view draws it (view.h); neither
 * knows of ncurses, so all of it can be tested without a terminal. Between a
 * key and the picture the loop calls tc_refresh_do (refresh.h), which makes the
 * sheet that is to be seen where the plan has changed since it was made; only
 * that takes time.
 *
 *     key event -> tc_keymap_press -> tc_refresh_do -> tc_view_draw -> terminal
 *
 * What lies over the sheet is a stack of layers. What a list, a prompt or a
 * question is about is a record (list.h, prompt.h, confirm.h) that its opener
 * hands over: none of them knows who uses it.
 */
#ifndef TC_SCREEN_STATE_H
#define TC_SCREEN_STATE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/text.h"
#include "profile/fault.h"
#include "profile/save.h"
#include "screen/body.h"
#include "screen/file_name.h"
#include "screen/frame.h"
#include "screen/history.h"
#include "screen/input.h"
#include "screen/picker.h"
#include "screen/key_event.h"
#include "screen/screen_options.h"
#include "sheet/arrange.h"
#include "sheet/caution.h"
#include "sheet/study.h"

/* What lies on top takes the keys. */
enum tc_layer {
    TC_LAYER_SHEET,
    TC_LAYER_LIST,    /* a list to choose from */
    TC_LAYER_PROMPT,  /* a line to type */
    TC_LAYER_PAGER,   /* a text to read: help, faults */
    TC_LAYER_PICTURE, /* a drawing or chart as large as the screen allows */
    TC_LAYER_CONFIRM  /* a question before something is lost */
};

enum {
    TC_LAYERS_MOST = 40,
    TC_LISTS_MOST = 32,                      /* a figure opens about twenty deep */
    TC_SECTION_HEAD_SIZE = 3 * TC_NAME_SIZE, /* of a section, with its end */
    TC_WRITTEN_MOST = 50                     /* files written by forms that can be taken back */
};

/* The answers to the questions of the first start (first.h). */
enum { TC_FIRST_STEPS = 8, TC_FIRST_SIZE = 160 };
struct tc_first {
    int step;
    char answer[TC_FIRST_STEPS][TC_FIRST_SIZE];
    char typed[TC_FIRST_STEPS][TC_FIRST_SIZE]; /* the same to the letter */
};

/* A file as it was before a form wrote it. */
struct tc_written {
    char *path, *text; /* owned; text NULL: it was not there */
};

struct tc_state;

/* Where one is in a sheet. */
struct tc_position {
    size_t line;   /* selected, of the body */
    size_t column; /* selected */
    size_t top;    /* first line in sight */
    size_t left;   /* first column in sight */
};

/* One question's sheet, as it was made last, and where one is in it. */
struct tc_tab {
    struct tc_sheet sheet; /* as it is shown */
    struct tc_sheet whole; /* as it was made, where the user has arranged it (arranging.h); else empty */
    struct tc_arrange arrange;
    bool in_full;                  /* it says what is mostly not asked for ... */
    bool widened;                  /* ... and is to be made so for the first time */
    bool made;                     /* there is a sheet (perhaps of an older version) */
    unsigned long version;         /* of the plan it was made for; 0: none */
    unsigned long glanced;         /* of the plan for which a first picture of it was made, or asked for */
    bool stopped;                  /* its making was stopped by the user, for this version */
    bool partial;                  /* the sheet is what was known when its making was stopped */
    char problem[TC_PROBLEM_SIZE]; /* why there is none, or "" */
    struct tc_body body;
    struct tc_position position;
};

/* What a list is about, where it is about one candidate, one of its slots, or a kind or section of profiles.
 */
struct tc_list_about {
    int candidate; /* its place in the plan; -1: none */
    enum tc_slot slot;
    char head[TC_SECTION_HEAD_SIZE]; /* "light", "light strip-60", "prices lowmere-shop lid" */
    char key[2 * TC_NAME_SIZE];      /* of that section; or, without a head, a path of the plan */
};

/* A list that is open. */
struct tc_list {
    const struct tc_list_kind *kind; /* list.h */
    struct tc_list_about about;
    struct tc_picker picker;
};

/* A line to type. */
struct tc_prompt {
    const struct tc_prompt_kind *kind; /* prompt.h */
    char title[256];
    char hint[320];
    char problem[TC_PROBLEM_SIZE];
    char path[2 * TC_NAME_SIZE];     /* of the figure of the plan, or the key of a section, that is typed */
    char head[TC_SECTION_HEAD_SIZE]; /* of that section */
    struct tc_input input;
    enum tc_caution caution;   /* that belongs to what is typed, or 0 */
    bool at_cell;              /* it belongs to the selected cell, and lies beside it */
    struct tc_position before; /* where one was */
};

/* A text to read, made by `write` for a width. */
struct tc_pager {
    void (*write)(struct tc_pager *pager, const struct tc_state *state, int width);
    const char *title;
    bool wide; /* takes the whole width of the screen */
    struct tc_text
        text; /* lines, wrapped; a tab sets a key apart from what it does, a vertical tab begins a heading */
    size_t line_count;
    size_t top;
};

/* A question. */
struct tc_confirm {
    const struct tc_confirm_kind *kind; /* confirm.h */
    char text[TC_PATH_SIZE + 64];
    char path[TC_PATH_SIZE]; /* of the file, or name of the plan, that it is about */
};

/*
 * A plan of this session and its file. The one owner of what is saved and what
 * is not is document.h.
 */
struct tc_plan_file {
    char path[TC_PATH_SIZE];  /* "" where it has none yet */
    struct tc_file_mark mark; /* what the file held when it was read or saved */
    struct tc_plan saved;     /* the plan as it was then */
    struct tc_plan left;      /* as it was when another one was opened */
    char kept[TC_PATH_SIZE];  /* where it lies since the program was ended with it unsaved; "" nowhere */
};

struct tc_state {
    const struct tc_screen_options *options; /* borrowed */
    const struct tc_binding *bindings;       /* what each key does: binding.h */
    size_t binding_count;

    struct tc_document now;      /* the plan, and which of the files it is */
    struct tc_plan_file **files; /* owned, each: the plans opened in this session */
    int file_count;
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

    struct tc_sheet explained; /* owned: the sheet whose figure is explained, with its terms (explain.h) */
    size_t explained_row, explained_column;

    int candidate; /* the one the cursor was on last, by its place in the plan */

    struct tc_frame frame;

    enum tc_layer layer[TC_LAYERS_MOST]; /* the sheet at the bottom */
    int layer_count;
    struct tc_list lists[TC_LISTS_MOST]; /* the open ones, the last on top */
    int list_count;
    struct tc_prompt prompt;
    struct tc_pager pager;
    struct tc_confirm confirm;
    size_t picture;      /* which one of the sheet's */
    size_t missing_seen; /* the cell that was gone to as missing, counted from 1 (missing.h) */

    struct tc_faults profile_faults; /* of reading the profiles again, where they were */
    bool reloaded;
    uint64_t stamp; /* of the files they were read from (reload.h); 0: none yet */

    struct tc_first first;
    struct tc_written written[TC_WRITTEN_MOST]; /* the last one is the latest */
    int written_count;

    bool leaving; /* what is saved is the first step of leaving */

    char message[512]; /* what has just happened; "" where nothing has */
    bool warns;        /* it says what went wrong */
    char find[128];    /* what was looked for last */

    bool grown;     /* the sheet was made anew while the work on it goes on, and is to be drawn */
    double working; /* share of the work done, while it is worth telling; else negative */

    bool pasting; /* what comes was pasted: text, and no keys */
    bool mouse;   /* clicks and the wheel are wanted */
    bool redraw;  /* the terminal is to be drawn from scratch */
    bool leave;   /* the user has left */
    bool failed;  /* memory ran out: the screen has to end */
};

/*
 * Starts with a screen of that size, on which nothing is laid out yet, and
 * without keys (keymap.h gives them). Free it whatever the status; TC_NO_MEMORY.
 */
enum tc_status tc_state_start(struct tc_state *state, const struct tc_screen_options *options, int width,
                              int height);
void tc_state_free(struct tc_state *state);

/* Frees the study and what is wrong with it. */
void tc_state_free_study(struct tc_state *state);

/* The layer on top; another one over it; that one away again, and what it holds. */
enum tc_layer tc_state_top(const struct tc_state *state);
void tc_state_push(struct tc_state *state, enum tc_layer layer);
void tc_state_pop(struct tc_state *state);
bool tc_state_layer_open(const struct tc_state *state, enum tc_layer layer);

/* The list on top; NULL where none is open. */
struct tc_list *tc_state_list(struct tc_state *state);
const struct tc_list *tc_state_list_seen(const struct tc_state *state);

/* The question a plan opens with: of one with a wall, the wall. */
size_t tc_state_question_of(const struct tc_plan *plan);

/* The question asked and its tab. */
const struct tc_question *tc_state_question(const struct tc_state *state);
struct tc_tab *tc_state_tab(struct tc_state *state);
const struct tc_tab *tc_state_tab_seen(const struct tc_state *state);

/* The present plan's file; one more, of a plan at a path (NULL: none), whose place is returned, -1 without
 * memory. */
struct tc_plan_file *tc_state_file(const struct tc_state *state);
int tc_state_add_file(struct tc_state *state, const struct tc_plan *plan, const char *path);

/* Whether the present plan, or one of the session's by its place, differs from what was saved. */
bool tc_state_changed(const struct tc_state *state);
bool tc_state_unsaved(const struct tc_state *state, int file);

/* Everything that depends on the plan or on what is asked is out of date. */
void tc_state_outdate(struct tc_state *state);

/* The cell selected in the sheet and its row, or the text of a sentence that can be typed; NULL where none
 * is. */
const struct tc_cell *tc_state_cell(const struct tc_state *state, const struct tc_row **row);

/* The place in the plan of the candidate that the cursor is on, or was on last; -1 where there is none. */
int tc_state_candidate(const struct tc_state *state);

/* The slot that the selected row is about; false where it is about none. */
bool tc_state_slot(const struct tc_state *state, enum tc_slot *slot);

/* Remembers the candidate that the cursor is on now, if it is on one. */
void tc_state_note_candidate(struct tc_state *state);

/* A candidate worked out; NULL where it could not be. */
const struct tc_alternative *tc_state_alternative(const struct tc_state *state, int candidate);

/* What has happened, for the line at the bottom until the next key. */
void tc_state_say(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);
void tc_state_warn(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);

#endif
