/* SPDX-License-Identifier: MIT */
#include "screen/arranging.h"

#include <string.h>

#include "core/base/number.h"
#include "screen/list.h"
#include "screen/list_fill.h"
#include "screen/scroll.h"

/* --------------------------------------------------------------------------- arranging */

static const struct tc_sheet *whole_of(const struct tc_tab *tab)
{
    return tab->whole.memory ? &tab->whole : &tab->sheet;
}

/* Goes to the column with a key, wherever it is now. */
static void follow_column(struct tc_tab *tab, const struct tc_arrange_key *wanted)
{
    struct tc_arrange_key key;
    for (size_t c = 0; c < tab->sheet.column_count; c++) {
        tc_arrange_column(&tab->sheet, c, &key);
        if (strcmp(key.text, wanted->text) == 0) {
            tab->position.column = c;
            return;
        }
    }
}

/* Where one is: what is kept while the sheet is made or arranged again. */
struct place {
    struct tc_anchor anchor;
    struct tc_arrange_key column;
};

/* The body knows its rows only as long as its sheet is there, so it goes first. */
static void leave(struct tc_state *state, struct place *place)
{
    struct tc_tab *tab = tc_state_tab(state);
    *place = (struct place){.column = {""}};
    tc_scroll_anchor(state, &place->anchor);
    if (tab->made && tab->position.column < tab->sheet.column_count)
        tc_arrange_column(&tab->sheet, tab->position.column, &place->column);
    tc_body_free(&tab->body);
}

/* Shows the tab's sheet, which is whole, as the user has arranged it. */
static void show(struct tc_state *state, const struct place *place)
{
    struct tc_tab *tab = tc_state_tab(state);
    struct tc_sheet view;
    if (tab->made && !tc_arrange_is_none(&tab->arrange)) {
        if (tc_arrange_make(&view, &tab->sheet, &tab->arrange) == TC_OK) {
            tab->whole = tab->sheet;
            tab->sheet = view;
        } else {
            tc_sheet_free(&view);
            state->failed = true;
        }
        follow_column(tab, &place->column);
    }
    tc_scroll_lay_out_at(state, &place->anchor);
}

static bool has_row(const struct tc_sheet *sheet, const struct tc_arrange_key *wanted)
{
    struct tc_arrange_key key;
    for (size_t r = 0; r < sheet->row_count; r++) {
        tc_arrange_row(sheet, r, &key);
        if (strcmp(key.text, wanted->text) == 0)
            return true;
    }
    return false;
}

/* The first sentence of a sheet that another one has not, else the first such row; row_count: it has all. */
static size_t first_new_row(const struct tc_sheet *sheet, const struct tc_sheet *other)
{
    struct tc_arrange_key key;
    size_t row = sheet->row_count;
    for (size_t r = 0; r < sheet->row_count; r++) {
        tc_arrange_row(sheet, r, &key);
        if (has_row(other, &key))
            continue;
        if (sheet->rows[r].kind == TC_ROW_SENTENCE)
            return r;
        if (sheet->rows[r].kind != TC_ROW_GROUP && row == sheet->row_count)
            row = r;
    }
    return row;
}

/* Goes to what a sheet asked in full says beyond what it said before. */
static void go_to_row(struct tc_state *state, size_t row)
{
    struct tc_tab *tab = tc_state_tab(state);
    for (size_t line = 0; line < tab->body.count && tc_arrange_is_none(&tab->arrange); line++)
        if ((tab->body.lines[line].kind == TC_LINE_ROW || tab->body.lines[line].kind == TC_LINE_SENTENCE) &&
            tab->body.lines[line].index == row) {
            tab->position.line = tab->position.top = line;
            break;
        }
    tc_scroll_into_sight(state);
}

void tc_arranging_put(struct tc_state *state, struct tc_sheet *sheet)
{
    struct tc_tab *tab = tc_state_tab(state);
    struct place place;
    bool goes = sheet && tab->made && tab->widened;
    size_t row = goes ? first_new_row(sheet, whole_of(tab)) : 0;
    tab->widened = false;
    leave(state, &place);
    tc_sheet_free(&tab->sheet);
    tc_sheet_free(&tab->whole);
    tab->made = sheet != NULL;
    if (sheet) {
        tab->sheet = *sheet;
        *sheet = (struct tc_sheet){.name = ""};
    }
    show(state, &place);
    if (goes)
        go_to_row(state, row);
}

/* Shows the same sheet by another arrangement. */
static void again(struct tc_state *state)
{
    struct tc_tab *tab = tc_state_tab(state);
    struct place place;
    leave(state, &place);
    if (tab->whole.memory) {
        tc_sheet_free(&tab->sheet);
        tab->sheet = tab->whole;
        tab->whole = (struct tc_sheet){.name = ""};
        follow_column(tab, &place.column);
    }
    show(state, &place);
}

/* The row of the whole sheet that is selected; false where none is. */
static bool selected_row(const struct tc_tab *tab, size_t *row)
{
    struct tc_arrange_key wanted, key;
    if (tab->position.line >= tab->body.count)
        return false;
    const struct tc_line *line = &tab->body.lines[tab->position.line];
    if (line->kind != TC_LINE_ROW && line->kind != TC_LINE_SENTENCE)
        return false;
    tc_arrange_row(&tab->sheet, line->index, &wanted);
    const struct tc_sheet *whole = whole_of(tab);
    for (*row = 0; *row < whole->row_count; ++*row) {
        tc_arrange_row(whole, *row, &key);
        if (whole->rows[*row].kind != TC_ROW_GROUP && strcmp(key.text, wanted.text) == 0)
            return true;
    }
    return false;
}

/* The column of the whole sheet that is selected; false where none is, or the difference. */
static bool selected_column(const struct tc_tab *tab, size_t *column)
{
    struct tc_arrange_key wanted, key;
    if (!tab->made || tab->position.column >= tab->sheet.column_count)
        return false;
    tc_arrange_column(&tab->sheet, tab->position.column, &wanted);
    const struct tc_sheet *whole = whole_of(tab);
    for (*column = 0; *column < whole->column_count; ++*column) {
        tc_arrange_column(whole, *column, &key);
        if (strcmp(key.text, wanted.text) == 0)
            return true;
    }
    return false;
}

/* ------------------------------------------------------------------------------- keys */

void tc_arranging_hide_row(struct tc_state *state, int unused)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t row;
    (void)unused;
    if (!selected_row(tab, &row)) {
        tc_state_say(state, "No row is selected.");
    } else if (!tc_arrange_hide_row(&tab->arrange, whole_of(tab), row)) {
        tc_state_say(state, "No more rows can be hidden; A shows all again.");
    } else {
        tc_state_say(state, "Hidden; A shows all again.");
        again(state);
    }
}

void tc_arranging_hide_column(struct tc_state *state, int unused)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t column;
    (void)unused;
    if (!selected_column(tab, &column)) {
        tc_state_say(state, "No column is selected that could be hidden.");
    } else if (tab->arrange.from.text[0]) {
        tc_state_say(state, "Two columns are compared; A shows all again.");
    } else if (!tc_arrange_hide_column(&tab->arrange, whole_of(tab), column)) {
        tc_state_say(state, "No more columns can be hidden; A shows all again.");
    } else {
        tc_state_say(state, "Hidden; A shows all again.");
        again(state);
    }
}

void tc_arranging_sort(struct tc_state *state, int unused)
{
    struct tc_tab *tab = tc_state_tab(state);
    size_t row;
    (void)unused;
    if (!selected_row(tab, &row) || !tc_arrange_sort(&tab->arrange, whole_of(tab), row)) {
        tc_state_say(state, "The columns cannot be sorted by this row.");
        return;
    }
    const char *label = whole_of(tab)->rows[row].label;
    if (!tab->arrange.sort.text[0])
        tc_state_say(state, "The columns stand in their own order again.");
    else
        tc_state_say(state, "Sorted by \"%s\", the %s first; S again: %s.", label + strspn(label, " "),
                     tab->arrange.descending ? "highest" : "lowest",
                     tab->arrange.descending ? "in their own order" : "the highest first");
    again(state);
}

static void compare(struct tc_state *state, size_t from, size_t to)
{
    struct tc_tab *tab = tc_state_tab(state);
    if (!tc_arrange_compare(&tab->arrange, whole_of(tab), from, to))
        return;
    tc_state_say(state, "Two columns and their difference; A shows all again.");
    again(state);
}

/* The columns that the selected one can be compared with; a value is the column's place in the whole sheet.
 */
static void fill_columns(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    const struct tc_sheet *whole = whole_of(tab);
    size_t here = 0;
    (void)about;
    bool any = selected_column(tab, &here);
    tc_sheet_start(sheet, "columns", 1);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "Difference between %s and", any ? whole->columns[here].head : ""),
                  "", "");
    tc_fill_words(sheet, 0, "");
    for (size_t c = 0; any && c < whole->column_count; c++) {
        if (c == here)
            continue;
        tc_fill_choice(sheet, whole->columns[c].head, tc_sheet_format(sheet, "%zu", c));
        tc_sheet_text(sheet, 0, whole->columns[c].subhead);
    }
}

static void take_column(struct tc_state *state, struct tc_list_about about, const char *value)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    size_t from;
    int to;
    const char *end;
    (void)about;
    tc_state_pop(state);
    if (selected_column(tab, &from) && tc_number_read_count(value, &end, &to) == TC_OK && to >= 0 &&
        (size_t)to < whole_of(tab)->column_count)
        compare(state, from, (size_t)to);
}

static const struct tc_list_kind column_list = {.fill = fill_columns, .take = take_column};

void tc_arranging_compare(struct tc_state *state, int unused)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    size_t here, columns = whole_of(tab)->column_count;
    (void)unused;
    if (!selected_column(tab, &here) || columns < 2 || tab->sheet.facts)
        tc_state_say(state, "There are no two columns here that compare with one another.");
    else if (columns == 2)
        compare(state, here, 1 - here);
    else
        tc_list_open(state, &column_list, (struct tc_list_about){.candidate = -1});
}

void tc_arranging_clear(struct tc_state *state, int unused)
{
    struct tc_tab *tab = tc_state_tab(state);
    (void)unused;
    if (!tc_arranging_clear_possible(state)) {
        tc_state_say(state, "Nothing is hidden, sorted or compared here.");
        return;
    }
    tab->arrange = (struct tc_arrange){.row_count = 0};
    again(state);
    tc_state_say(state, "All rows and columns are shown, in their own order.");
}

bool tc_arranging_clear_possible(const struct tc_state *state)
{
    return !tc_arrange_is_none(&tc_state_tab_seen(state)->arrange);
}

void tc_arranging_in_full(struct tc_state *state, int unused)
{
    struct tc_tab *tab = tc_state_tab(state);
    (void)unused;
    if (!tc_arranging_in_full_possible(state)) {
        tc_state_say(state, "This sheet says all it knows; fit and shortlist say more.");
        return;
    }
    tab->in_full = tab->widened = !tab->in_full;
    tab->version = 0; /* to be made again */
    tc_state_say(state, tab->in_full ? "In full now; i: in short again." : "In short again.");
}

bool tc_arranging_in_full_possible(const struct tc_state *state)
{
    return tc_state_question(state)->brief;
}
