/* SPDX-License-Identifier: MIT */
#include "screen/picture.h"

#include "print/chart.h"
#include "print/drawing.h"

size_t tc_picture_count(const struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    return tab->made ? tab->sheet.chart_count + (tab->sheet.drawing ? 1 : 0) : 0;
}

enum tc_status tc_picture_draw(const struct tc_state *state, struct tc_canvas *canvas, int width, int height)
{
    const struct tc_sheet *sheet = &tc_state_tab_seen(state)->sheet;
    bool ascii = state->options->ascii;
    canvas->fine = state->options->fine;
    size_t chart = state->picture;
    if (chart >= tc_picture_count(state))
        return TC_RANGE;
    if (sheet->drawing && chart-- == 0)
        return tc_drawing_draw(canvas, sheet->drawing, width, height, ascii);
    return tc_chart_draw(canvas, &sheet->charts[chart], width, height, ascii);
}

bool tc_picture_is_drawing(const struct tc_state *state)
{
    return tc_state_tab_seen(state)->sheet.drawing && state->picture == 0;
}

void tc_picture_open(struct tc_state *state, int unused)
{
    (void)unused;
    if (!tc_picture_possible(state)) {
        tc_state_say(state, "This sheet has no charts.");
        return;
    }
    state->picture = 0;
    tc_state_push(state, TC_LAYER_PICTURE);
}

bool tc_picture_possible(const struct tc_state *state)
{
    return tc_picture_count(state) > 0;
}

bool tc_picture_more(const struct tc_state *state)
{
    return state->picture + 1 < tc_picture_count(state);
}

/* Past the last one, back to the sheet. */
void tc_picture_next(struct tc_state *state, int by)
{
    if (by < 0 && state->picture > 0)
        state->picture--;
    else if (by > 0 && ++state->picture >= tc_picture_count(state))
        tc_state_pop(state);
}

void tc_picture_leave(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}
