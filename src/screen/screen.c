/* SPDX-License-Identifier: MIT */
#include "screen/screen.h"

#include <time.h>

#include "screen/document.h"
#include "screen/first.h"
#include "screen/keymap.h"
#include "screen/reload.h"
#include "screen/state.h"
#include "screen/terminal.h"
#include "screen/view.h"
#include "screen/refresh.h"

/* Milliseconds. */
enum {
    QUIET = 40,    /* work that is done within this says nothing of its progress */
    GLANCE = 10,   /* from one look for a key to the next, while working */
    TELL = 100,    /* from one picture of the progress to the next */
    COMPARE = 1000 /* from one look at the files of the profiles to the next */
};

struct loop {
    struct tc_state state;
    struct tc_canvas canvas;
    struct tc_key_event next; /* a press that came while working; TC_EVENT_NONE: none */
    bool ended;               /* the terminal or a signal has ended it */
    enum tc_status status;
    double work_began, looked, told, compared;
};

static double milliseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void draw(struct loop *loop)
{
    struct tc_cursor cursor;
    if (tc_view_draw(&loop->state, &loop->canvas, &cursor) != TC_OK) {
        loop->status = TC_NO_MEMORY;
        loop->ended = true;
        return;
    }
    tc_terminal_show(&loop->canvas, &cursor, loop->state.redraw);
    loop->state.redraw = false;
}

/* What came from the terminal; false if it was no press. */
static bool take(struct loop *loop, enum tc_read read)
{
    if (read == TC_READ_SIGNAL || read == TC_READ_LOST) {
        loop->status = read == TC_READ_SIGNAL ? TC_STOPPED : TC_IO;
        loop->ended = true;
    }
    return read == TC_READ_PRESS;
}

/* Files that were changed by another program are noticed with the next key, but not more than once a second.
 */
static void look_for_changes(struct loop *loop)
{
    double now = milliseconds();
    if (now - loop->compared < COMPARE)
        return;
    loop->compared = now;
    if (tc_reload_if_changed(&loop->state))
        tc_state_say(&loop->state, "Profiles were changed by another program, and read again.");
}

static void press(struct loop *loop, struct tc_key_event press)
{
    if (press.code == TC_EVENT_RESIZE) {
        int width, height;
        tc_terminal_size(&width, &height);
        tc_keymap_resize(&loop->state, width, height);
        loop->state.redraw = true;
        return;
    }
    tc_keymap_press(&loop->state, press);
    look_for_changes(loop);
    tc_terminal_mouse(loop->state.mouse);
}

/* Whether a press only moves about in a sheet, which the work on the next one does not mind. */
static bool only_moves(const struct loop *loop, uint32_t code)
{
    bool moves = (code >= TC_EVENT_UP && code <= TC_EVENT_END) || code == TC_EVENT_WHEEL_UP ||
                 code == TC_EVENT_WHEEL_DOWN;
    return moves && tc_state_top(&loop->state) == TC_LAYER_SHEET;
}

/* Asked by long work: looks for keys now and then, of which most interrupt it, and shows how far it is. */
static bool go_on(void *context, double done)
{
    struct loop *loop = context;
    double now = milliseconds();
    if (now - loop->looked < GLANCE && !loop->state.grown)
        return true;
    loop->looked = now;
    struct tc_key_event key;
    while (take(loop, tc_terminal_read(0, &key))) {
        if (only_moves(loop, key.code)) {
            press(loop, key);
            loop->told = 0; /* the picture follows */
            continue;
        }
        /* What lies over the sheet is what Esc closes first. */
        bool closes = key.code == TC_EVENT_ESCAPE && tc_state_top(&loop->state) != TC_LAYER_SHEET;
        if ((key.code == TC_EVENT_ESCAPE && !closes) || key.code == TC_EVENT_BREAK)
            tc_refresh_stop(&loop->state);
        else
            loop->next = key;
        return false;
    }
    if (loop->ended)
        return false;
    bool tells = now - loop->work_began > QUIET && now - loop->told > TELL;
    if (tells || loop->state.grown) {
        loop->told = now;
        loop->state.grown = false;
        loop->state.working = done;
        draw(loop);
    }
    return !loop->ended;
}

static bool over(const struct loop *loop)
{
    return loop->ended || loop->state.leave || loop->state.failed;
}

static void work(struct loop *loop)
{
    loop->work_began = loop->looked = milliseconds();
    loop->told = 0;
    tc_refresh_do(&loop->state, go_on, loop);
    loop->state.working = -1;
    if (!over(loop) && loop->next.code == TC_EVENT_NONE && tc_refresh_waits(&loop->state))
        draw(loop); /* the first picture, before the rest of the work */
}

static void run(struct loop *loop)
{
    while (!over(loop)) {
        struct tc_key_event now = loop->next;
        loop->next.code = TC_EVENT_NONE;
        /* Presses that wait are taken one after the other, and only the last is followed by a picture. */
        if (now.code == TC_EVENT_NONE && !take(loop, tc_terminal_read(0, &now)) && !loop->ended) {
            if (tc_refresh_waits(&loop->state)) {
                work(loop);
                continue;
            }
            draw(loop);
            if (!loop->ended && !take(loop, tc_terminal_read(-1, &now)))
                continue;
        }
        if (loop->ended)
            break;
        press(loop, now);
        if (!over(loop) && tc_refresh_waits(&loop->state))
            work(loop);
    }
}

enum tc_status tc_screen_run(const struct tc_screen_options *options, int *signal_number)
{
    struct loop loop = {.canvas = TC_CANVAS_EMPTY, .status = TC_OK};
    *signal_number = 0;
    enum tc_status status = tc_terminal_start(options->colour);
    if (status != TC_OK)
        return status;
    int width, height;
    tc_terminal_size(&width, &height);
    status = tc_keymap_start(&loop.state, options, width, height);
    if (status == TC_OK) {
        tc_first_offer(&loop.state);
        tc_document_offer_kept(&loop.state);
        run(&loop);
    }
    tc_terminal_stop();
    if (status == TC_OK) {
        if (loop.state.leave)
            tc_document_end(&loop.state);
        else
            tc_document_keep(&loop.state); /* a signal, a terminal that went away, or no memory */
        status = loop.state.failed ? TC_NO_MEMORY : loop.status;
    }
    *signal_number = status == TC_STOPPED ? tc_terminal_signal() : 0;
    tc_state_free(&loop.state);
    tc_canvas_free(&loop.canvas);
    return status;
}
