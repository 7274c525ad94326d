/* SPDX-License-Identifier: MIT */
#include "screen/view.h"

#include <stdio.h>

#include "core/base/clean.h"
#include "print/cell.h"
#include "print/width.h"
#include "screen/body_draw.h"
#include "screen/hints.h"
#include "screen/paint.h"
#include "screen/view_panel.h"
#include "screen/refresh.h"
#include "sheet/caution.h"

struct view {
    const struct tc_state *state;
    const struct tc_frame *frame;
    const struct tc_tab *tab;
    struct tc_canvas *canvas;
    bool ascii;
};

/* ---------------------------------------------------------------------------- strip */

enum { STRIP_GAP = 3 }; /* between the plan at the left and the sheets at the right */

/* What is said of a plan that was changed. */
static const char not_saved[] = "not saved";

/* The names of the sheets at the right end of the first row, as many around the present one as fit. */
static int draw_names(const struct view *view)
{
    size_t here = view->state->question, first = here, last = here;
    int plan = tc_width(view->state->now.plan.name) + 2 + tc_width(not_saved) + STRIP_GAP;
    int room = view->frame->inside - plan > view->frame->inside / 2 ? view->frame->inside - plan
                                                                    : view->frame->inside / 2;
    int width = tc_width(tc_question_at(here)->name);
    for (bool grown = true; grown;) {
        grown = false;
        if (tc_question_at(last + 1) && width + 2 + tc_width(tc_question_at(last + 1)->name) <= room) {
            width += 2 + tc_width(tc_question_at(++last)->name);
            grown = true;
        }
        if (first > 0 && width + 2 + tc_width(tc_question_at(first - 1)->name) <= room) {
            width += 2 + tc_width(tc_question_at(--first)->name);
            grown = true;
        }
    }
    int column = view->frame->width - view->frame->margin - width;
    for (size_t i = first; i <= last; i++) {
        tc_canvas_text(view->canvas, column, 0, tc_style_tone(i == here ? TC_ROLE_HERE : TC_TONE_SOFT),
                       tc_question_at(i)->name);
        column += tc_width(tc_question_at(i)->name) + 2;
    }
    return width;
}

/* The plan at the left of the first row. */
static void draw_plan(const struct view *view, int room)
{
    const struct tc_plan *plan = &view->state->now.plan;
    int column = view->frame->margin;
    int width = tc_paint_text(view->canvas, column, 0, room, TC_TONE_STRONG,
                              plan->name[0] ? plan->name : "a plan", view->ascii);
    if (tc_state_changed(view->state))
        width += 2 + tc_paint_text(view->canvas, column + width + 2, 0, room - width - 2, TC_TONE_TYPED,
                                   not_saved, view->ascii);
    if (plan->title[0] && room - width - 2 >= tc_width(plan->title))
        tc_paint_text(view->canvas, column + width + 2, 0, room - width - 2, TC_TONE_SOFT, plan->title,
                      view->ascii);
}

/* The first one stands out; the others go on from it. */
static void draw_findings(const struct view *view)
{
    const struct tc_frame *frame = view->frame;
    const char *finding;
    int taken = 0;
    for (size_t i = 0;
         taken < frame->finding_height && (finding = tc_frame_finding(&view->tab->sheet, i)) != NULL; i++) {
        tc_canvas_put(view->canvas, frame->margin, frame->finding + taken, TC_TONE_BEST,
                      view->ascii ? ">" : "▸");
        taken += tc_paint_paragraph(view->canvas, frame->margin + 2, frame->finding + taken,
                                    frame->inside - 2, frame->finding_height - taken,
                                    i == 0 ? TC_TONE_STRONG : TC_TONE_PLAIN, finding, view->ascii);
    }
}

static const char *plural(size_t count)
{
    return count == 1 ? "" : "s";
}

/* In a few words what is not shown as the question made it; "" where all is. */
static void describe_arranged(const struct tc_tab *tab, char *text, size_t size)
{
    size_t rows = 0;
    text[0] = '\0';
    if (!tab->made || tc_arrange_is_none(&tab->arrange))
        return;
    for (size_t r = 0; r < tab->whole.row_count; r++)
        rows += tab->whole.rows[r].kind != TC_ROW_GROUP;
    for (size_t r = 0; r < tab->sheet.row_count; r++)
        rows -= tab->sheet.rows[r].kind != TC_ROW_GROUP;
    size_t columns = tab->whole.column_count - tab->sheet.column_count;
    bool compares = tab->arrange.from.text[0] != '\0';
    struct tc_text all = TC_TEXT_EMPTY;
    if (rows > 0)
        tc_text_addf(&all, "%zu row%s hidden, ", rows, plural(rows));
    if (compares)
        tc_text_add(&all, "difference, ");
    else if (columns > 0)
        tc_text_addf(&all, "%zu column%s hidden, ", columns, plural(columns));
    if (!compares && tab->arrange.sort.text[0])
        tc_text_add(&all, "sorted, ");
    snprintf(text, size, "%.*s", (int)(all.length > 2 ? all.length - 2 : 0), tc_text_string(&all));
    tc_text_free(&all);
}

/* What follows the title on its line, from a column on: a water line, and at its end what was arranged. */
static void draw_water(const struct view *view, int start)
{
    char arranged[96];
    const struct tc_frame *frame = view->frame;
    describe_arranged(view->tab, arranged, sizeof arranged);
    int taken = arranged[0] ? tc_width(arranged) + 1 : 0, room = frame->inside - start;
    if (room - taken > 2)
        tc_paint_water(view->canvas, frame->margin + start, 1, room - taken, view->ascii);
    if (taken && room > 8)
        tc_paint_text(view->canvas, frame->margin + (room > taken ? frame->inside - taken + 1 : start), 1,
                      room, TC_TONE_TYPED, arranged, view->ascii);
}

static void draw_strip(const struct view *view)
{
    const struct tc_frame *frame = view->frame;
    int names = draw_names(view);
    draw_plan(view, frame->inside - names - STRIP_GAP);
    const char *title = view->tab->made ? view->tab->sheet.title : tc_state_question(view->state)->asks;
    int width =
        tc_paint_text(view->canvas, frame->margin, 1, frame->inside, TC_TONE_STRONG, title, view->ascii);
    draw_water(view, width + 1);
    if (!view->tab->made)
        return;
    tc_paint_paragraph(view->canvas, frame->margin, frame->assumptions, frame->inside,
                       frame->assumptions_height, TC_TONE_SOFT, view->tab->sheet.assumptions, view->ascii);
    draw_findings(view);
}

static void draw_faults(const struct view *view)
{
    const struct tc_faults *faults = &view->state->faults;
    char text[TC_FAULT_TEXT_SIZE + 64], more[48] = "";
    size_t count = tc_faults_count(faults);
    if (view->frame->faults_height == 0 || count == 0)
        return;
    if (count > 1)
        snprintf(more, sizeof more, " (and %zu more: !)", count - 1);
    const struct tc_fault *fault = tc_faults_at(faults, 0);
    snprintf(text, sizeof text, "%s%s%s%s", fault->place.key ? fault->place.key : "",
             fault->place.key ? ": " : "", fault->text, more);
    tc_canvas_put(view->canvas, view->frame->margin, view->frame->faults, TC_TONE_WARN, "!");
    tc_paint_text(view->canvas, view->frame->margin + 2, view->frame->faults, view->frame->inside - 2,
                  TC_TONE_WARN, text, view->ascii);
}

/* ---------------------------------------------------------------------------- sheet */

static struct tc_look_at looked_at(const struct view *view)
{
    const struct tc_position *position = &view->tab->position;
    return (struct tc_look_at){position->left, position->line, position->column, view->state->find};
}

/* The rule under the heads, with the name of the group whose heading has gone out of sight. */
static void draw_rule(const struct view *view)
{
    enum { LEAD = 2 };
    const struct tc_frame *frame = view->frame;
    const struct tc_body *body = &view->tab->body;
    const char *group = tc_body_group(body, view->tab->position.top);
    tc_canvas_across(view->canvas, frame->margin, frame->rule, body->width, TC_TONE_SOFT,
                     view->ascii ? "=" : "━");
    if (!group || body->width < 4 * LEAD)
        return;
    int column = frame->margin + LEAD;
    int width = tc_paint_text(view->canvas, column + 1, frame->rule, body->width - 2 * LEAD - 2,
                              TC_TONE_STRONG, group, view->ascii);
    tc_canvas_put(view->canvas, column, frame->rule, TC_TONE_SOFT, " ");
    tc_canvas_put(view->canvas, column + 1 + width, frame->rule, TC_TONE_SOFT, " ");
}

static void draw_sheet(const struct view *view, struct tc_cursor *cursor)
{
    const struct tc_frame *frame = view->frame;
    const struct tc_body *body = &view->tab->body;
    struct tc_look_at at = looked_at(view);
    size_t top = view->tab->position.top;
    if (body->sheet->column_count > 0) {
        tc_body_draw_heads(body, &at, view->canvas, frame->margin, frame->heads);
        draw_rule(view);
    }
    for (int i = 0; i < frame->body_height && top + (size_t)i < body->count; i++)
        tc_body_draw_line(body, top + (size_t)i, &at, view->canvas, frame->margin, frame->body + i);
    tc_body_draw_beside(body, &at, view->canvas, frame->margin, frame->body);
    cursor->column = frame->margin + tc_body_cursor(body, &at);
    cursor->row = frame->body;
    if (at.line >= top && at.line < top + (size_t)frame->body_height)
        cursor->row = frame->body + (int)(at.line - top);
}

/* What stands in the sheet's place where there is none. */
static void draw_none(const struct view *view)
{
    const struct tc_frame *frame = view->frame;
    const struct tc_state *state = view->state;
    const char *text = "", *then = "";
    char sentence[TC_PROBLEM_SIZE + 1];
    int row = frame->body + 1;
    if (state->now.plan.candidate_count == 0 && !tc_state_question(state)->bare) {
        text = "No tanks are compared yet.";
        then = "Press t to choose tanks, T for one by its size, o to open a plan.";
    } else if (view->tab->problem[0]) {
        snprintf(sentence, sizeof sentence, "%s.", view->tab->problem);
        if (sentence[0] >= 'a' && sentence[0] <= 'z')
            sentence[0] -= 'a' - 'A';
        text = sentence;
        then = "Press a to see and change every assumption.";
    } else if (view->tab->stopped) {
        text = "Stopped.";
        then = "Press Enter to work it out after all.";
    } else if (!tc_refresh_waits(state)) {
        text = "No result yet: something that it needs is missing or wrong.";
        then = "Press j for what is missing, ! to see what is wrong, k to choose a setup, r a region, u to "
               "undo.";
    }
    row += tc_paint_paragraph(view->canvas, frame->margin, row, frame->inside, frame->body_height - 3,
                              TC_TONE_PLAIN, text, view->ascii);
    tc_paint_paragraph(view->canvas, frame->margin, row + 1, frame->inside, 2, TC_TONE_SOFT, then,
                       view->ascii);
}

/* --------------------------------------------------------------------------- bottom */

/* "29-high, to buy, tank: 45.00, typed by hand": the selected cell in words. */
static void describe(const struct view *view, char *text, size_t size)
{
    const struct tc_row *row;
    const struct tc_cell *cell = tc_state_cell(view->state, &row);
    char buffer[TC_NUMBER_SIZE];
    text[0] = '\0';
    if (!cell)
        return;
    const struct tc_column *column = &view->tab->sheet.columns[view->tab->position.column];
    const char *code = cell->kind == TC_CELL_MONEY ? cell->currency.code : row->unit;
    const char *figure = tc_cell_text(buffer, cell, true);
    bool sentence = row->kind == TC_ROW_SENTENCE; /* it is about no column */
    int length =
        snprintf(text, size, "%s%s%s%s%s%s%s", sentence ? "" : column->head, sentence ? "" : ", ", row->label,
                 *figure ? ": " : "", figure, *figure && *code ? " " : "", *figure ? code : "");
    for (size_t i = 0; tc_mark_at(i) && length >= 0 && (size_t)length < size; i++)
        if (cell->marks & tc_mark_at(i))
            length += snprintf(text + length, size - (size_t)length, ", %s", tc_mark_meaning(tc_mark_at(i)));
}

/* Where one is in a sheet that is larger than the screen. */
static void describe_place(const struct view *view, char *text, size_t size)
{
    const struct tc_body *body = &view->tab->body;
    const struct tc_position *position = &view->tab->position;
    int length = 0;
    text[0] = '\0';
    if (!body->sheet)
        return;
    size_t columns = tc_body_columns(body, position->left);
    if (columns < body->sheet->column_count)
        length = snprintf(text, size, "columns %zu to %zu of %zu  ", position->left + 1,
                          position->left + columns, body->sheet->column_count);
    if (body->count > (size_t)view->frame->body_height)
        snprintf(text + length, size - (size_t)length, "%zu to %zu of %zu lines", position->top + 1,
                 position->top + (size_t)view->frame->body_height < body->count
                     ? position->top + (size_t)view->frame->body_height
                     : body->count,
                 body->count);
}

/* The caution beside a figure, in a few words; the whole of it stands among the notes. */
static const char *caution_here(const struct view *view)
{
    const struct tc_row *row;
    const struct tc_cell *cell = tc_state_cell(view->state, &row);
    return cell ? tc_caution_hint(tc_caution_of(row, cell)) : "";
}

/* What has happened, or else what is selected; its role. */
static unsigned status_words(const struct view *view, char *text, size_t size)
{
    const struct tc_state *state = view->state;
    if (state->working >= 0) {
        snprintf(text, size, "Working it out: %d %%. Esc stops.", (int)(100 * state->working));
        return TC_TONE_PLAIN;
    }
    if (state->message[0]) {
        tc_clean(text, size, state->message);
        return state->warns ? TC_TONE_WARN : TC_TONE_STRONG;
    }
    if (view->tab->made && view->tab->stopped) {
        snprintf(text, size, "Stopped: these are the figures %s. Enter works it out.",
                 view->tab->partial ? "known so far" : "before the change");
        return TC_TONE_WARN;
    }
    describe(view, text, size);
    return TC_TONE_PLAIN;
}

static void draw_status(const struct view *view)
{
    char text[640], place[96];
    const struct tc_frame *frame = view->frame;
    describe_place(view, place, sizeof place);
    int taken = *place ? tc_width(place) + 2 : 0;
    const char *caution = caution_here(view);
    unsigned role = status_words(view, text, sizeof text);
    bool warns = role == TC_TONE_PLAIN && *caution && view->state->working < 0;
    int needed = tc_width(text) + (warns ? 2 + tc_paint_caution_width(caution) : 0);
    if (needed + taken > frame->inside && (role != TC_TONE_PLAIN || warns))
        taken = 0; /* a message or caution is more urgent */
    if (taken)
        tc_paint_text(view->canvas, frame->width - frame->margin - tc_width(place), frame->status,
                      tc_width(place), TC_TONE_SOFT, place, view->ascii);
    int room = frame->inside - taken - (warns ? needed - tc_width(text) : 0);
    int column = frame->margin +
                 tc_paint_text(view->canvas, frame->margin, frame->status, room, role, text, view->ascii);
    if (warns)
        tc_paint_caution(view->canvas, column + 2, frame->status, frame->inside, caution, view->ascii);
}

/* ---------------------------------------------------------------------------- whole */

static void draw_too_small(const struct view *view)
{
    char text[128];
    const struct tc_frame *frame = view->frame;
    snprintf(text, sizeof text, "This terminal is %d × %d; tankcost needs %d × %d.", frame->width,
             frame->height, TC_FRAME_LEAST_WIDTH, TC_FRAME_LEAST_HEIGHT);
    int row =
        tc_paint_paragraph(view->canvas, 0, 0, frame->width, frame->height, TC_TONE_PLAIN, text, view->ascii);
    if (tc_state_top(view->state) == TC_LAYER_CONFIRM && row < frame->height) {
        row += tc_paint_paragraph(view->canvas, 0, row, frame->width, frame->height - row, TC_TONE_STRONG,
                                  view->state->confirm.text, view->ascii);
        tc_hints_draw(view->state, view->canvas, 0, row, frame->width);
    }
}

enum tc_status tc_view_draw(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    struct view view = {state, &state->frame, tc_state_tab_seen(state), canvas, state->options->ascii};
    *cursor = (struct tc_cursor){0, 0};
    enum tc_status status = tc_canvas_start(canvas, state->frame.width, state->frame.height);
    if (status != TC_OK)
        return status;
    if (state->frame.too_small) {
        draw_too_small(&view);
        return TC_OK;
    }
    draw_strip(&view);
    draw_faults(&view);
    if (view.tab->made && view.tab->body.sheet)
        draw_sheet(&view, cursor);
    else
        draw_none(&view);
    draw_status(&view);
    tc_hints_draw(state, canvas, state->frame.margin, state->frame.hints, state->frame.inside);
    int list = 0;
    for (int i = 1; i < state->layer_count; i++) {
        switch (state->layer[i]) {
        case TC_LAYER_LIST: /* one over another would stand in a frame of its remains */
            if (++list == state->list_count)
                tc_view_list(state, list - 1, canvas, cursor);
            break;
        case TC_LAYER_PROMPT: tc_view_prompt(state, canvas, cursor); break;
        case TC_LAYER_PAGER: tc_view_pager(state, canvas, cursor); break;
        case TC_LAYER_PICTURE: tc_view_picture(state, canvas, cursor); break;
        case TC_LAYER_CONFIRM: tc_view_confirm(state, canvas, cursor); break;
        case TC_LAYER_SHEET: break;
        }
    }
    return TC_OK;
}
