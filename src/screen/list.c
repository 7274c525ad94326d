/* SPDX-License-Identifier: MIT */
#include "screen/list.h"

#include "core/base/clean.h"
#include "print/ascii.h"

/* Rows of the screen that a list leaves to others or uses for its frame, heads and the like (panel.c). */
enum { LIST_TAKES = 8 };

size_t tc_list_page(const struct tc_state *state)
{
    int page = state->frame.height - LIST_TAKES;
    return page > 1 ? (size_t)page : 1;
}

/* -------------------------------------------------------------------------- opening */

/* The choices, as the screen can show them. TC_NO_MEMORY; free them whatever the status. */
static enum tc_status fill(const struct tc_state *state, const struct tc_list *list, struct tc_sheet *sheet)
{
    struct tc_sheet made;
    if (!state->options->ascii) {
        list->kind->fill(state, list->about, sheet);
        return sheet->failed ? TC_NO_MEMORY : TC_OK;
    }
    list->kind->fill(state, list->about, &made);
    enum tc_status status = tc_ascii_sheet(sheet, &made);
    if (made.failed)
        status = TC_NO_MEMORY;
    tc_sheet_free(&made);
    return status;
}

void tc_list_open(struct tc_state *state, const struct tc_list_kind *kind, struct tc_list_about about)
{
    if (tc_state_top(state) == TC_LAYER_LIST)
        tc_state_pop(state);
    tc_list_open_over(state, kind, about);
}

void tc_list_open_over(struct tc_state *state, const struct tc_list_kind *kind, struct tc_list_about about)
{
    struct tc_sheet sheet;
    char buffer[TC_NAME_SIZE];
    if (state->list_count == TC_LISTS_MOST)
        return;
    struct tc_list *list = &state->lists[state->list_count];
    list->kind = kind;
    list->about = about;
    fill(state, list, &sheet); /* a failure is in the sheet as well */
    const char *present = kind->present ? kind->present(state, about, buffer) : "";
    if (tc_picker_open(&list->picker, &sheet, present) != TC_OK) {
        tc_state_warn(state, "There is no memory left for the list.");
        return;
    }
    state->list_count++;
    tc_state_push(state, TC_LAYER_LIST);
    tc_picker_move(&list->picker, 0, tc_list_page(state));
}

void tc_list_renew(struct tc_state *state)
{
    for (int i = 0; i < state->list_count; i++) {
        struct tc_list *list = &state->lists[i];
        struct tc_sheet sheet;
        fill(state, list, &sheet);
        if (tc_picker_renew(&list->picker, &sheet) == TC_OK) {
            tc_picker_move(&list->picker, 0, tc_list_page(state));
            continue;
        }
        tc_state_warn(state, "There is no memory left for the list.");
        while (tc_state_top(state) != TC_LAYER_SHEET) /* what lies over it may be about it */
            tc_state_pop(state);
    }
}

void tc_list_resize(struct tc_state *state)
{
    for (int i = 0; i < state->list_count; i++)
        tc_picker_move(&state->lists[i].picker, 0, tc_list_page(state));
}

/* --------------------------------------------------------------------------- taking */

/* The value selected in the list on top; NULL where there is none. */
static const char *value_of(const struct tc_state *state)
{
    const struct tc_list *list = tc_state_list_seen(state);
    return list ? tc_picker_value(&list->picker) : NULL;
}

bool tc_list_take_possible(const struct tc_state *state)
{
    return value_of(state) != NULL;
}

void tc_list_take(struct tc_state *state, int unused)
{
    char copy[TC_SECTION_HEAD_SIZE];
    const char *value = value_of(state);
    (void)unused;
    if (!value)
        return;
    const struct tc_list *list = tc_state_list(state);
    tc_clean(copy, sizeof copy, value); /* the list may go away while it is taken */
    list->kind->take(state, list->about, copy);
}

bool tc_list_counts(const struct tc_state *state)
{
    const struct tc_list *list = tc_state_list_seen(state);
    return list && list->kind->counts;
}

void tc_list_step(struct tc_state *state, int by)
{
    char copy[TC_SECTION_HEAD_SIZE];
    const char *value = value_of(state);
    if (!tc_state_list(state)->kind->step)
        return;
    tc_clean(copy, sizeof copy, value ? value : "");
    tc_state_list(state)->kind->step(state, copy, by);
}

bool tc_list_back_possible(const struct tc_state *state)
{
    const char *value = value_of(state);
    return value && tc_state_list_seen(state)->kind->back_possible &&
           tc_state_list_seen(state)->kind->back_possible(state, value);
}

void tc_list_back(struct tc_state *state, int unused)
{
    char copy[TC_SECTION_HEAD_SIZE];
    (void)unused;
    if (!tc_list_back_possible(state))
        return;
    tc_clean(copy, sizeof copy, value_of(state));
    tc_state_list(state)->kind->back(state, copy);
}

/* --------------------------------------------------------------------------- moving */

void tc_list_go_on(struct tc_state *state)
{
    struct tc_picker *picker = &tc_state_list(state)->picker;
    tc_picker_clear(picker, tc_list_page(state));
    tc_picker_move(picker, 1, tc_list_page(state));
}

void tc_list_lines(struct tc_state *state, int by)
{
    tc_picker_move(&tc_state_list(state)->picker, by, tc_list_page(state));
}

void tc_list_pages(struct tc_state *state, int by)
{
    size_t page = tc_list_page(state);
    tc_picker_move(&tc_state_list(state)->picker, by * (long)page, page);
}

void tc_list_type(struct tc_state *state, uint32_t code)
{
    struct tc_list *list = tc_state_list(state);
    if (!list->kind->type || !list->kind->type(state, code))
        tc_picker_type(&list->picker, code, tc_list_page(state));
}

void tc_list_click(struct tc_state *state, int line)
{
    struct tc_picker *picker = &tc_state_list(state)->picker;
    if (line < 0 || line >= (int)tc_list_page(state) || picker->top + (size_t)line >= picker->shown_count)
        return;
    size_t wanted = picker->top + (size_t)line, before = picker->at;
    tc_picker_move(picker, (long)wanted - (long)before, tc_list_page(state));
    if (wanted == before)
        tc_list_take(state, 0);
}

void tc_list_leave(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}
