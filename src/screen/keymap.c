/* SPDX-License-Identifier: MIT */
#include "screen/keymap.h"

#include "screen/arranging.h"
#include "screen/binding.h"
#include "screen/browse.h"
#include "screen/change.h"
#include "screen/confirm.h"
#include "screen/document.h"
#include "screen/edit.h"
#include "screen/explain.h"
#include "screen/export.h"
#include "screen/first.h"
#include "screen/keep_price.h"
#include "screen/list.h"
#include "screen/lists.h"
#include "screen/missing.h"
#include "screen/new_tank.h"
#include "screen/pager.h"
#include "screen/panel.h"
#include "screen/picture.h"
#include "screen/prompt.h"
#include "screen/scroll.h"
#include "screen/section_list.h"

#define SHEET   TC_LAYER_SHEET
#define LIST    TC_LAYER_LIST
#define SLIP    TC_LAYER_PROMPT
#define PAGE    TC_LAYER_PAGER
#define PICTURE TC_LAYER_PICTURE
#define CONFIRM TC_LAYER_CONFIRM

#define EVENT(key) TC_EVENT_##key

/* The order is that of the help and, for those with a label, of the line at the bottom. */
static const struct tc_binding bindings[] = {
    /* What the sheet's line at the bottom has room for, the most useful first. */
    {SHEET, EVENT(ENTER), EVENT(NONE), tc_change_cell, 0, tc_change_cell_possible, "change",
     "change the selected figure; start with a digit to replace it at once", 0},
    {SHEET, 'j', EVENT(NONE), tc_missing_next, 0, tc_missing_any, "next missing",
     "go to the next figure that is missing", 0},
    {SHEET, 'x', EVENT(DELETE), tc_change_back, 0, tc_change_back_possible, "restore",
     "restore the profile's figure there, or unpin the part", 0},
    {SHEET, 'i', EVENT(NONE), tc_arranging_in_full, 0, tc_arranging_in_full_possible, "in full",
     "fit: why each part was refused; shortlist: every tank; again: in short", 0},
    {SHEET, 'A', EVENT(NONE), tc_arranging_clear, 0, tc_arranging_clear_possible, "all again",
     "show all rows and columns again, in their own order", 0},
    {SHEET, EVENT(TAB), EVENT(NONE), tc_browse_question, 1, NULL, "next sheet", "go to the next sheet", 0},
    {SHEET, EVENT(BACK_TAB), EVENT(NONE), tc_browse_question, -1, NULL, NULL, "go to the sheet before", 0},
    {SHEET, 't', EVENT(NONE), tc_lists_open, TC_LISTS_TANKS, NULL, "tanks",
     "choose the tanks and how many of each", 0},
    {SHEET, 'k', EVENT(NONE), tc_lists_open, TC_LISTS_SETUPS, NULL, "setup",
     "choose the setup: how they are equipped", 0},
    {SHEET, 'r', EVENT(NONE), tc_lists_open, TC_LISTS_REGIONS, NULL, "region",
     "choose the region: prices, tax, tariffs, climate", 0},
    {SHEET, 'b', EVENT(NONE), tc_lists_open, TC_LISTS_BUYING, NULL, "buying",
     "choose how all tanks are bought: list price, best, a sale, special order; and at which shops", 0},
    {SHEET, 'c', EVENT(NONE), tc_picture_open, 0, tc_picture_possible, "charts",
     "show the sheet's drawing and charts large", 0},
    {SHEET, 'a', EVENT(NONE), tc_change_assumptions, 0, NULL, "assumptions",
     "list every assumption, to be changed there", 0},
    {SHEET, 'E', EVENT(NONE), tc_explain_open, 0, tc_explain_possible, "where from",
     "say where the selected figure comes from: its formula, and what stands in it", 0},
    {SHEET, 'g', EVENT(NONE), tc_lists_open, TC_LISTS_QUESTIONS, NULL, "all sheets",
     "list the sheets; type its number to go there", 0},
    {SHEET, 'u', EVENT(NONE), tc_edit_undo, 0, tc_edit_undo_possible, "undo", "undo the last change", 0},
    {SHEET, 'U', 'y', tc_edit_undo, 1, tc_edit_redo_possible, NULL, "redo it", 0},
    {SHEET, 's', EVENT(NONE), tc_document_save, 0, NULL, "save", "save the plan", 0},
    {SHEET, 'w', EVENT(NONE), tc_export, 0, NULL, "write", "write this sheet to a file", 0},

    /* Known, or found in the help. */
    {SHEET, 'D', EVENT(NONE), tc_arranging_compare, 0, NULL, NULL,
     "show the selected column and another one with their difference", 0},
    {SHEET, 'S', EVENT(NONE), tc_arranging_sort, 0, NULL, NULL,
     "sort the columns by the selected row: lowest first, highest first, as they were", 0},
    {SHEET, 'R', EVENT(NONE), tc_arranging_hide_row, 0, NULL, NULL, "hide the selected row", 0},
    {SHEET, 'C', EVENT(NONE), tc_arranging_hide_column, 0, NULL, NULL, "hide the selected column", 0},
    {SHEET, 'K', EVENT(NONE), tc_keep_price, 0, tc_keep_price_possible, NULL,
     "keep the price typed there in your shop's list instead, for all plans", 0},
    {SHEET, 'p', EVENT(NONE), tc_lists_open_part, 0, NULL, NULL,
     "choose the parts of the selected tank, and see why each fits or not", 0},
    {SHEET, 'B', EVENT(NONE), tc_lists_open, TC_LISTS_BUYING_ONE, NULL, NULL,
     "choose how the selected tank alone is bought", 0},
    {SHEET, 'P', EVENT(NONE), tc_change_pick_up, 0, tc_change_pick_up_possible, NULL,
     "fetch orders from shops where that costs less than delivery, or have them delivered", 0},
    {SHEET, '+', '=', tc_change_count, 1, NULL, NULL,
     "one more of the selected tank; on the shortlist: take it into the plan", 0},
    {SHEET, '-', '_', tc_change_count, -1, NULL, NULL, "one less; the last one is taken out of the plan", 0},
    {SHEET, 'd', EVENT(NONE), tc_change_double, 0, NULL, NULL,
     "compare the selected tank twice, so that the second can have other parts or another price", 0},
    {SHEET, 'v', EVENT(NONE), tc_change_vary, 0, NULL, NULL,
     "choose which assumption the sheet whatif varies", 0},
    {SHEET, 'W', EVENT(NONE), tc_change_walls, 0, NULL, NULL,
     "let bill and years compare the plan's walls, or its tanks again", 0},
    {SHEET, EVENT(UP), EVENT(NONE), tc_browse_lines, -1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(DOWN), EVENT(NONE), tc_browse_lines, 1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(LEFT), EVENT(NONE), tc_browse_columns, -1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(RIGHT), EVENT(NONE), tc_browse_columns, 1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(PAGE_UP), EVENT(NONE), tc_browse_pages, -1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(PAGE_DOWN), ' ', tc_browse_pages, 1, NULL, NULL, "go on by a screenful", 0},
    {SHEET, EVENT(HOME), EVENT(NONE), tc_browse_ends, -1, NULL, NULL, NULL, 0},
    {SHEET, EVENT(END), EVENT(NONE), tc_browse_ends, 1, NULL, NULL, "go to the last line", 0},
    {SHEET, EVENT(WHEEL_UP), EVENT(NONE), tc_browse_lines, -3, NULL, NULL, NULL, 0},
    {SHEET, EVENT(WHEEL_DOWN), EVENT(NONE), tc_browse_lines, 3, NULL, NULL, NULL, 0},
    {SHEET, 'f', '/', tc_browse_find, 0, NULL, NULL, "find a text in this sheet", 0},
    {SHEET, 'n', EVENT(NONE), tc_browse_again, 1, NULL, NULL, "the next line that has it", 0},
    {SHEET, 'N', EVENT(NONE), tc_browse_again, -1, NULL, NULL, "the line before that has it", 0},
    {SHEET, EVENT(ESCAPE), EVENT(NONE), tc_browse_forget, 0, tc_browse_forget_possible, NULL,
     "clear the search marks", 0},
    {SHEET, 'o', EVENT(NONE), tc_lists_open, TC_LISTS_PLANS, NULL, NULL, "open another plan", 0},
    {SHEET, 'I', EVENT(NONE), tc_first_begin, 0, NULL, NULL,
     "begin with a place and a shop of your own: seven questions, each with a usual answer", 0},
    {SHEET, 'e', EVENT(NONE), tc_section_kinds, 0, NULL, NULL,
     "show, make, change and delete places, shops, prices, tanks, parts, setups and plans", 0},
    {SHEET, 'T', EVENT(NONE), tc_new_tank, 0, NULL, NULL,
     "compare a tank that no profile has: its size and its price", 0},
    {SHEET, '!', EVENT(NONE), tc_pager_faults, 0, NULL, NULL,
     "show what is wrong with the plan and the profiles", 0},
    {SHEET, 'm', EVENT(NONE), tc_browse_mouse, 0, NULL, NULL,
     "let the mouse select and scroll, or leave it to the terminal", 0},
    {SHEET, 'h', '?', tc_pager_help, 0, NULL, "help", "this help", TC_BINDING_LAST},
    {SHEET, EVENT(HELP), EVENT(NONE), tc_pager_help, 0, NULL, NULL, NULL, 0},
    {SHEET, 'q', EVENT(BREAK), tc_document_leave, 0, NULL, "quit",
     "quit; asks first where a plan is not saved", TC_BINDING_BLIND},
    {SHEET, EVENT(REDRAW), EVENT(NONE), tc_browse_redraw, 0, NULL, NULL, "redraw the screen", 0},

    {LIST, EVENT(ENTER), EVENT(NONE), tc_list_take, 0, tc_list_take_possible, "choose",
     "choose the selected one; a tank is put in or taken out, and the list stays", 0},
    {LIST, EVENT(RIGHT), EVENT(NONE), tc_list_step, 1, tc_list_counts, "one more",
     "tanks: one more of it; assumptions: let the sheet whatif vary it; profiles: copy it", 0},
    {LIST, EVENT(LEFT), EVENT(NONE), tc_list_step, -1, tc_list_counts, "one less",
     "tanks: one less of it; profiles: undo the last change", 0},
    {LIST, EVENT(DELETE), EVENT(NONE), tc_list_back, 0, tc_list_back_possible, "restore",
     "assumptions: restore the profile's figure; profiles: delete it", 0},
    {LIST, EVENT(UP), EVENT(BACK_TAB), tc_list_lines, -1, NULL, NULL, NULL, 0},
    {LIST, EVENT(DOWN), EVENT(TAB), tc_list_lines, 1, NULL, NULL, NULL, 0},
    {LIST, EVENT(PAGE_UP), EVENT(NONE), tc_list_pages, -1, NULL, NULL, NULL, 0},
    {LIST, EVENT(PAGE_DOWN), EVENT(NONE), tc_list_pages, 1, NULL, NULL, NULL, 0},
    {LIST, EVENT(HOME), EVENT(NONE), tc_list_lines, -100000, NULL, NULL, NULL, 0},
    {LIST, EVENT(END), EVENT(NONE), tc_list_lines, 100000, NULL, NULL, NULL, 0},
    {LIST, EVENT(WHEEL_UP), EVENT(NONE), tc_list_lines, -3, NULL, NULL, NULL, 0},
    {LIST, EVENT(WHEEL_DOWN), EVENT(NONE), tc_list_lines, 3, NULL, NULL, NULL, 0},
    {LIST, EVENT(ESCAPE), EVENT(BREAK), tc_list_leave, 0, NULL, "back", "back to the sheet", 0},

    {SLIP, EVENT(ENTER), EVENT(NONE), tc_prompt_enter, 0, NULL, "accept", "accept what was typed", 0},
    {SLIP, EVENT(ESCAPE), EVENT(BREAK), tc_prompt_leave, 0, NULL, "cancel", "leave it as it was", 0},
    {SLIP, EVENT(CLEAR_LINE), EVENT(NONE), tc_prompt_clear, 0, NULL, "clear", "clear the line", 0},

    {PAGE, EVENT(UP), EVENT(WHEEL_UP), tc_pager_lines, -1, NULL, NULL, NULL, 0},
    {PAGE, EVENT(DOWN), EVENT(WHEEL_DOWN), tc_pager_lines, 1, NULL, NULL, NULL, 0},
    {PAGE, EVENT(PAGE_UP), EVENT(NONE), tc_pager_pages, -1, NULL, NULL, NULL, 0},
    {PAGE, EVENT(PAGE_DOWN), ' ', tc_pager_pages, 1, NULL, "more", "go on by a screenful", 0},
    {PAGE, EVENT(HOME), EVENT(NONE), tc_pager_lines, -100000, NULL, NULL, NULL, 0},
    {PAGE, EVENT(END), EVENT(NONE), tc_pager_lines, 100000, NULL, NULL, NULL, 0},
    {PAGE, EVENT(ESCAPE), EVENT(BREAK), tc_pager_leave, 0, NULL, "back", "back to the sheet", 0},
    {PAGE, EVENT(ENTER), 'q', tc_pager_leave, 0, NULL, NULL, NULL, 0},
    {PAGE, 'h', '?', tc_pager_leave, 0, NULL, NULL, NULL, 0},

    {PICTURE, 'c', EVENT(ENTER), tc_picture_next, 1, tc_picture_more, "next", "show the next picture", 0},
    {PICTURE, EVENT(DOWN), EVENT(RIGHT), tc_picture_next, 1, NULL, NULL, NULL, 0},
    {PICTURE, EVENT(UP), EVENT(LEFT), tc_picture_next, -1, NULL, NULL, NULL, 0},
    {PICTURE, EVENT(PAGE_DOWN), ' ', tc_picture_next, 1, NULL, NULL, NULL, 0},
    {PICTURE, EVENT(PAGE_UP), EVENT(NONE), tc_picture_next, -1, NULL, NULL, NULL, 0},
    {PICTURE, EVENT(ESCAPE), EVENT(BREAK), tc_picture_leave, 0, NULL, "back", "back to the sheet", 0},
    {PICTURE, 'q', EVENT(NONE), tc_picture_leave, 0, NULL, NULL, NULL, 0},

    {CONFIRM, EVENT(ESCAPE), 'n', tc_confirm_leave, 0, NULL, "back", "do nothing, and go back",
     TC_BINDING_BLIND},
    {CONFIRM, EVENT(BREAK), EVENT(NONE), tc_confirm_leave, 0, NULL, NULL, NULL, TC_BINDING_BLIND},
};

enum tc_status tc_keymap_start(struct tc_state *state, const struct tc_screen_options *options, int width,
                               int height)
{
    enum tc_status status = tc_state_start(state, options, width, height);
    state->bindings = bindings;
    state->binding_count = sizeof bindings / sizeof bindings[0];
    if (status == TC_OK)
        tc_scroll_lay_out(state);
    return status == TC_OK && state->failed ? TC_NO_MEMORY : status;
}

void tc_keymap_resize(struct tc_state *state, int width, int height)
{
    state->frame.width = width;
    state->frame.height = height;
    tc_scroll_lay_out(state);
    if (tc_state_layer_open(state, TC_LAYER_PAGER))
        tc_pager_resize(state);
    tc_list_resize(state);
}

/* A key that is not in the table. */
static void press_unbound(struct tc_state *state, uint32_t code)
{
    switch (tc_state_top(state)) {
    case TC_LAYER_SHEET: tc_change_type(state, code); break;
    case TC_LAYER_LIST: tc_list_type(state, code); break;
    case TC_LAYER_PROMPT: tc_prompt_type(state, code); break;
    case TC_LAYER_CONFIRM: tc_confirm_type(state, code); break;
    case TC_LAYER_PAGER:
    case TC_LAYER_PICTURE: break;
    }
}

static void click(struct tc_state *state, int column, int row)
{
    if (tc_state_top(state) == TC_LAYER_LIST) {
        struct tc_panel panel = tc_panel_list(state, state->list_count - 1);
        tc_list_click(state, row - tc_panel_list_start(&panel));
    } else if (tc_state_top(state) == TC_LAYER_SHEET &&
               tc_browse_click(state, column, row - state->frame.body)) {
        tc_change_cell(state, 0);
    }
}

/* What is pasted is text for a line being typed; anywhere else its letters would be obeyed as keys. */
static void paste(struct tc_state *state, uint32_t code)
{
    enum tc_layer top = tc_state_top(state);
    if (!tc_event_is_text(code))
        return;
    if (top == TC_LAYER_PROMPT)
        tc_prompt_type(state, code);
    else if (top == TC_LAYER_LIST)
        tc_list_type(state, code);
    else
        tc_state_say(state, "Text can be pasted where a line is typed; here it would be taken for keys.");
}

/* Whether an event belongs to a paste. One that is broken off ends with Esc, which no paste holds. */
static bool take_paste(struct tc_state *state, uint32_t code)
{
    if (code == TC_EVENT_PASTE || code == TC_EVENT_PASTE_END) {
        state->pasting = code == TC_EVENT_PASTE;
        return true;
    }
    if (code == TC_EVENT_ESCAPE)
        state->pasting = false;
    if (state->pasting && !state->frame.too_small)
        paste(state, code);
    return state->pasting;
}

void tc_keymap_press(struct tc_state *state, struct tc_key_event event)
{
    if (take_paste(state, event.code))
        return; /* what was said of it stays */
    state->message[0] = '\0';
    state->warns = false;
    const struct tc_binding *binding = tc_binding_find(state, event.code);
    bool blind = binding ? binding->flags & TC_BINDING_BLIND : tc_state_top(state) == TC_LAYER_CONFIRM;
    if (state->frame.too_small && !blind)
        return; /* what is not seen is not changed */
    if (event.code == TC_EVENT_CLICK)
        click(state, event.column, event.row);
    else if (binding)
        binding->act(state, binding->with); /* what is not possible says so itself */
    else
        press_unbound(state, event.code);
    tc_state_note_candidate(state);
}
