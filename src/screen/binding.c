/* SPDX-License-Identifier: MIT */
#include "screen/binding.h"

#include "screen/browse.h"
#include "screen/change.h"
#include "screen/choose.h"
#include "screen/confirm.h"
#include "screen/pager.h"
#include "screen/picture.h"
#include "screen/saving.h"
#include "screen/prompt.h"

#define SHEET   TC_LAYER_SHEET
#define PICKER  TC_LAYER_PICKER
#define SLIP    TC_LAYER_PROMPT
#define PAGE    TC_LAYER_PAGER
#define PICTURE TC_LAYER_PICTURE
#define CONFIRM TC_LAYER_CONFIRM

#define PRESS(key) TC_EVENT_##key

/* The order is that of the help and, for those with a label, of the line at the bottom. */
static const struct tc_binding bindings[] = {
    /* What the sheet's line at the bottom has room for, the most useful first. */
    {SHEET, PRESS(ENTER), PRESS(NONE), tc_change_cell, 0, tc_change_cell_possible, "types over",
     "type the selected figure over; start with a digit to replace it at once"},
    {SHEET, 'x', PRESS(DELETE), tc_change_back, 0, tc_change_back_possible, "takes it back",
     "take back what was typed there, or unpin the part"},
    {SHEET, PRESS(TAB), PRESS(NONE), tc_browse_question, 1, NULL, "next sheet", "go to the next sheet"},
    {SHEET, PRESS(BACK_TAB), PRESS(NONE), tc_browse_question, -1, NULL, NULL, "go to the sheet before"},
    {SHEET, 't', PRESS(NONE), tc_choose_open, TC_PICK_TANKS, NULL, "tanks",
     "choose the tanks and how many of each"},
    {SHEET, 'k', PRESS(NONE), tc_choose_open, TC_PICK_SETUP, NULL, "setup",
     "choose the setup: how they are equipped"},
    {SHEET, 'r', PRESS(NONE), tc_choose_open, TC_PICK_REGION, NULL, "region",
     "choose the region: prices, tax, tariffs, climate"},
    {SHEET, 'b', PRESS(NONE), tc_choose_open, TC_PICK_BUYING, NULL, "buying",
     "choose how all tanks are bought: list price, best, a sale, special order"},
    {SHEET, 'c', PRESS(NONE), tc_picture_open, 0, tc_picture_possible, "charts",
     "show the sheet's drawing and charts large"},
    {SHEET, 'a', PRESS(NONE), tc_choose_open, TC_PICK_ASSUMPTION, NULL, "assumptions",
     "list every assumption and type it over"},
    {SHEET, 'g', PRESS(NONE), tc_choose_open, TC_PICK_QUESTION, NULL, "all sheets",
     "list the sheets; its number there goes to one at once"},
    {SHEET, 'u', PRESS(NONE), tc_change_undo, 0, tc_change_undo_possible, "undo",
     "take the last change back"},
    {SHEET, 'U', 'y', tc_change_undo, 1, tc_change_redo_possible, NULL, "do it again"},
    {SHEET, 's', PRESS(NONE), tc_saving_save, 0, NULL, "save", "save the plan"},
    {SHEET, 'w', PRESS(NONE), tc_saving_write, 0, NULL, "write", "write this sheet to a file"},

    /* Known, or found in the help. */
    {SHEET, 'p', PRESS(NONE), tc_choose_part, 0, NULL, NULL,
     "choose the parts of the selected tank, and see why each fits or not"},
    {SHEET, 'B', PRESS(NONE), tc_choose_open, TC_PICK_BUYING_ONE, NULL, NULL,
     "choose how the selected tank alone is bought"},
    {SHEET, '+', '=', tc_change_count, 1, NULL, NULL, "one more of the selected tank"},
    {SHEET, '-', '_', tc_change_count, -1, NULL, NULL, "one less; the last one is taken out of the plan"},
    {SHEET, 'd', PRESS(NONE), tc_change_double, 0, NULL, NULL,
     "compare the selected tank twice, so that the second can have other parts or another price"},
    {SHEET, 'v', PRESS(NONE), tc_change_vary, 0, NULL, NULL, "say which assumption the sheet whatif varies"},
    {SHEET, 'W', PRESS(NONE), tc_change_walls, 0, NULL, NULL,
     "let bill and years compare the plan's walls, or its tanks again"},
    {SHEET, PRESS(UP), PRESS(NONE), tc_browse_lines, -1, NULL, NULL, NULL},
    {SHEET, PRESS(DOWN), PRESS(NONE), tc_browse_lines, 1, NULL, NULL, NULL},
    {SHEET, PRESS(LEFT), PRESS(NONE), tc_browse_columns, -1, NULL, NULL, NULL},
    {SHEET, PRESS(RIGHT), PRESS(NONE), tc_browse_columns, 1, NULL, NULL, NULL},
    {SHEET, PRESS(PAGE_UP), PRESS(NONE), tc_browse_pages, -1, NULL, NULL, NULL},
    {SHEET, PRESS(PAGE_DOWN), ' ', tc_browse_pages, 1, NULL, NULL, "go on by a screenful"},
    {SHEET, PRESS(HOME), PRESS(NONE), tc_browse_ends, -1, NULL, NULL, NULL},
    {SHEET, PRESS(END), PRESS(NONE), tc_browse_ends, 1, NULL, NULL, "go to the last line"},
    {SHEET, PRESS(WHEEL_UP), PRESS(NONE), tc_browse_lines, -3, NULL, NULL, NULL},
    {SHEET, PRESS(WHEEL_DOWN), PRESS(NONE), tc_browse_lines, 3, NULL, NULL, NULL},
    {SHEET, 'f', '/', tc_browse_find, 0, NULL, NULL, "find a text in this sheet"},
    {SHEET, 'n', PRESS(NONE), tc_browse_again, 1, NULL, NULL, "the next line that has it"},
    {SHEET, 'N', PRESS(NONE), tc_browse_again, -1, NULL, NULL, "the line before that has it"},
    {SHEET, PRESS(ESCAPE), PRESS(NONE), tc_browse_forget, 0, tc_browse_forget_possible, NULL,
     "take the marks of what was found away"},
    {SHEET, 'o', PRESS(NONE), tc_choose_open, TC_PICK_PLAN, NULL, NULL, "open another plan"},
    {SHEET, '!', 'e', tc_pager_faults, 0, NULL, NULL, "show what is wrong with the plan and the profiles"},
    {SHEET, 'm', PRESS(NONE), tc_browse_mouse, 0, NULL, NULL,
     "let the mouse select and scroll, or leave it to the terminal"},
    {SHEET, 'h', '?', tc_pager_help, 0, NULL, "help", "this help"},
    {SHEET, PRESS(HELP), PRESS(NONE), tc_pager_help, 0, NULL, NULL, NULL},
    {SHEET, 'q', PRESS(BREAK), tc_confirm_leave, 0, NULL, "quit", "leave; asks where the plan is not saved"},
    {SHEET, PRESS(REDRAW), PRESS(NONE), tc_browse_redraw, 0, NULL, NULL, "draw the screen anew"},

    {PICKER, PRESS(ENTER), PRESS(NONE), tc_choose_take, 0, tc_choose_possible, "takes it",
     "take the selected one; a tank is put in or taken out, and the list stays"},
    {PICKER, PRESS(RIGHT), PRESS(NONE), tc_choose_count, 1, tc_choose_counts, "one more",
     "tanks: one more of it; assumptions: let the sheet whatif vary it"},
    {PICKER, PRESS(LEFT), PRESS(NONE), tc_choose_count, -1, tc_choose_counts, "one less",
     "tanks: one less of it"},
    {PICKER, PRESS(DELETE), PRESS(NONE), tc_choose_back, 0, tc_choose_back_possible, "takes back",
     "assumptions: take back what was typed"},
    {PICKER, PRESS(UP), PRESS(BACK_TAB), tc_choose_lines, -1, NULL, NULL, NULL},
    {PICKER, PRESS(DOWN), PRESS(TAB), tc_choose_lines, 1, NULL, NULL, NULL},
    {PICKER, PRESS(PAGE_UP), PRESS(NONE), tc_choose_pages, -1, NULL, NULL, NULL},
    {PICKER, PRESS(PAGE_DOWN), PRESS(NONE), tc_choose_pages, 1, NULL, NULL, NULL},
    {PICKER, PRESS(HOME), PRESS(NONE), tc_choose_lines, -100000, NULL, NULL, NULL},
    {PICKER, PRESS(END), PRESS(NONE), tc_choose_lines, 100000, NULL, NULL, NULL},
    {PICKER, PRESS(WHEEL_UP), PRESS(NONE), tc_choose_lines, -3, NULL, NULL, NULL},
    {PICKER, PRESS(WHEEL_DOWN), PRESS(NONE), tc_choose_lines, 3, NULL, NULL, NULL},
    {PICKER, PRESS(ESCAPE), PRESS(BREAK), tc_choose_leave, 0, NULL, "goes back", "back to the sheet"},

    {SLIP, PRESS(ENTER), PRESS(NONE), tc_prompt_enter, 0, NULL, "takes it", "take what was typed"},
    {SLIP, PRESS(ESCAPE), PRESS(BREAK), tc_prompt_leave, 0, NULL, "goes back", "leave it as it was"},
    {SLIP, PRESS(CLEAR_LINE), PRESS(NONE), tc_prompt_clear, 0, NULL, "clears the line", "clear the line"},

    {PAGE, PRESS(UP), PRESS(WHEEL_UP), tc_pager_lines, -1, NULL, NULL, NULL},
    {PAGE, PRESS(DOWN), PRESS(WHEEL_DOWN), tc_pager_lines, 1, NULL, NULL, NULL},
    {PAGE, PRESS(PAGE_UP), PRESS(NONE), tc_pager_pages, -1, NULL, NULL, NULL},
    {PAGE, PRESS(PAGE_DOWN), ' ', tc_pager_pages, 1, NULL, "goes on", NULL},
    {PAGE, PRESS(HOME), PRESS(NONE), tc_pager_lines, -100000, NULL, NULL, NULL},
    {PAGE, PRESS(END), PRESS(NONE), tc_pager_lines, 100000, NULL, NULL, NULL},
    {PAGE, PRESS(ESCAPE), PRESS(BREAK), tc_pager_leave, 0, NULL, "goes back", NULL},
    {PAGE, PRESS(ENTER), 'q', tc_pager_leave, 0, NULL, NULL, NULL},
    {PAGE, 'h', '?', tc_pager_leave, 0, NULL, NULL, NULL},

    {PICTURE, 'c', PRESS(ENTER), tc_picture_next, 1, tc_picture_more, "next one", NULL},
    {PICTURE, PRESS(DOWN), PRESS(RIGHT), tc_picture_next, 1, NULL, NULL, NULL},
    {PICTURE, PRESS(UP), PRESS(LEFT), tc_picture_next, -1, NULL, NULL, NULL},
    {PICTURE, PRESS(PAGE_DOWN), ' ', tc_picture_next, 1, NULL, NULL, NULL},
    {PICTURE, PRESS(PAGE_UP), PRESS(NONE), tc_picture_next, -1, NULL, NULL, NULL},
    {PICTURE, PRESS(ESCAPE), PRESS(BREAK), tc_picture_leave, 0, NULL, "goes back", NULL},
    {PICTURE, 'q', PRESS(NONE), tc_picture_leave, 0, NULL, NULL, NULL},

    {CONFIRM, 's', PRESS(NONE), tc_confirm_save, 0, tc_confirm_save_possible, "saves first", NULL},
    {CONFIRM, 'q', PRESS(NONE), tc_confirm_yes, 0, tc_confirm_leaving, "quits without saving", NULL},
    {CONFIRM, 'y', PRESS(NONE), tc_confirm_yes, 0, tc_confirm_not_leaving, "goes ahead", NULL},
    {CONFIRM, PRESS(ESCAPE), 'n', tc_confirm_no, 0, NULL, "goes back", NULL},
    {CONFIRM, PRESS(BREAK), PRESS(NONE), tc_confirm_no, 0, NULL, NULL, NULL},
};

const struct tc_binding *tc_binding_at(size_t i)
{
    return i < sizeof bindings / sizeof bindings[0] ? &bindings[i] : NULL;
}

const struct tc_binding *tc_binding_find(const struct tc_state *state, uint32_t press)
{
    enum tc_layer layer = tc_state_top(state);
    if (press == TC_EVENT_NONE)
        return NULL;
    for (size_t i = 0; i < sizeof bindings / sizeof bindings[0]; i++) {
        const struct tc_binding *binding = &bindings[i];
        bool here = binding->layer == layer || press == TC_EVENT_REDRAW; /* which works everywhere */
        if (here && (binding->press == press || binding->other == press))
            return binding;
    }
    return NULL;
}

const char *tc_binding_layer_title(enum tc_layer layer)
{
    switch (layer) {
    case TC_LAYER_SHEET: return "On a sheet";
    case TC_LAYER_PICKER: return "In a list (letters narrow it down)";
    case TC_LAYER_PROMPT: return "While typing";
    case TC_LAYER_PAGER: return "In a text";
    case TC_LAYER_PICTURE: return "In a picture";
    case TC_LAYER_CONFIRM: return "When asked";
    }
    return "";
}
