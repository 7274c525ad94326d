/* SPDX-License-Identifier: MIT */
/*
 * Any presses on the screen, forms, lists and questions included, at changing
 * sizes: each picture can be drawn, undo and redo give the same plan back, and nothing
 * is written but below a folder of its own.
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "print/canvas.h"
#include "profile/stock_finish.h"
#include "screen/document.h"
#include "screen/keymap.h"
#include "screen/refresh.h"
#include "screen/state.h"
#include "screen/view.h"
#include "support/scratch.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { PRESSES_MAX = 60 };

static void must(int holds)
{
    if (!holds)
        abort();
}

static enum tc_status read_profiles(const void *context, struct tc_stock *stock, struct tc_faults *faults)
{
    (void)context;
    enum tc_status status = tc_stock_read_folder(stock, scratch_tree("tests/data/profiles"), false, faults);
    if (status == TC_OK)
        status = tc_stock_read_folder(stock, "own", true, faults);
    return status == TC_OK ? tc_stock_finish(stock, faults) : status;
}

/* A byte as a press: those beyond ASCII are the other keys. A '/' would lead out of the folder. */
static uint32_t press_of(uint8_t byte)
{
    if (byte == '\n' || byte == '\r')
        return TC_EVENT_ENTER;
    if (byte < 0x20 || byte == '/' || byte == '~')
        return TC_EVENT_ESCAPE;
    if (byte < 0x7F)
        return byte;
    if (byte < 0x7F + (TC_EVENT_RESIZE - TC_EVENT_FIRST_KEY))
        return TC_EVENT_FIRST_KEY + (uint32_t)(byte - 0x7F);
    return byte < 0xC0 ? TC_EVENT_ENTER : byte < 0xE0 ? 0xE9 : 0x6C34; /* a letter of two columns */
}

static void draw(const struct tc_state *state)
{
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_cursor cursor;
    must(tc_view_draw(state, &canvas, &cursor) == TC_OK);
    tc_canvas_free(&canvas);
}

/* Few draws and years, so that presses are many: the sums have tests of their own. */
static void press_all(struct tc_state *state, const uint8_t *data, size_t size)
{
    static const int sizes[][2] = {{80, 24}, {120, 40}, {1, 1}, {40, 10}, {200, 60}, {80, 5}};
    for (size_t i = 0; i < size && i < PRESSES_MAX && !state->leave && !state->failed; i++) {
        if (data[i] == 0xFF) {
            const int *to = sizes[i % (sizeof sizes / sizeof sizes[0])];
            tc_keymap_resize(state, to[0], to[1]);
        } else {
            tc_keymap_press(state, (struct tc_key_event){.code = press_of(data[i]),
                                                         .column = (int)(i * 7 % 80),
                                                         .row = (int)(i % 24)});
        }
        if (tc_refresh_waits(state))
            tc_refresh_do(state, NULL, NULL);
        if (i % 4 == 0)
            draw(state);
    }
    draw(state);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_state state;
    scratch_renew();
    tc_stock_start(&stock);
    must(read_profiles(NULL, &stock, &faults) == TC_OK);
    const struct tc_plan *plan = tc_stock_plan(&stock, "spring");
    must(plan != NULL);
    struct tc_plan first = *plan;
    const struct tc_screen_options options = {.stock = &stock,
                                              .read = read_profiles,
                                              .plan = &first,
                                              .plan_folder = "own/plans",
                                              .own_folder = "own",
                                              .kept_folder = "kept",
                                              .today = {2026, 3, 5},
                                              .ask = {.seed = 1, .draws = 100, .threads = 1}};
    must(tc_keymap_start(&state, &options, 80, 24) == TC_OK);
    press_all(&state, data, size);
    must(!state.failed);
    if (!state.leave)
        tc_document_keep(&state);
    tc_state_free(&state);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return 0;
}
