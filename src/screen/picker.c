/* SPDX-License-Identifier: MIT */
#include "screen/picker.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/name.h"
#include "screen/body_draw.h"

/* Words before the last column are cut beyond this. */
enum { WIDEST_WORDS = 26 };

static bool is_choice(const struct tc_row *row)
{
    return row->kind != TC_ROW_GROUP && row->kind != TC_ROW_SENTENCE;
}

static const struct tc_row *shown_row(const struct tc_picker *picker, size_t i)
{
    return &picker->sheet.rows[picker->shown[i]];
}

const struct tc_row *tc_picker_row(const struct tc_picker *picker)
{
    return picker->at < picker->shown_count ? shown_row(picker, picker->at) : NULL;
}

const char *tc_picker_value(const struct tc_picker *picker)
{
    const struct tc_row *row = tc_picker_row(picker);
    if (!row)
        return NULL;
    return row->cells && row->cells[0].edit ? row->cells[0].edit : row->label;
}

/* Adds a text to those that are searched; no word reaches over the end of one. What has no room is left out.
 */
static void add_searched(char *all, size_t size, const char *text)
{
    size_t length = strlen(all);
    if (text && *text && length + 1 + strlen(text) < size)
        snprintf(all + length, size - length, "\n%s", text);
}

/*
 * A row passes if each word of the filter occurs in its label, in one of its
 * cells of words, or in the heading it stands under ("": none).
 */
static bool passes(const struct tc_picker *picker, const struct tc_row *row, const char *heading)
{
    char all[1024] = "";
    add_searched(all, sizeof all, row->label);
    for (size_t c = 0; c < picker->sheet.column_count && row->cells; c++)
        add_searched(all, sizeof all, row->cells[c].text);
    add_searched(all, sizeof all, heading);
    return tc_text_holds(all, picker->filter.text);
}

static void filter(struct tc_picker *picker)
{
    const char *heading = "";
    picker->shown_count = 0;
    for (size_t r = 0; r < picker->sheet.row_count; r++) {
        const struct tc_row *row = &picker->sheet.rows[r];
        if (!is_choice(row)) {
            /* The heading before it stands over nothing. */
            while (picker->shown_count > 0 && !is_choice(shown_row(picker, picker->shown_count - 1)))
                picker->shown_count--;
            picker->shown[picker->shown_count++] = r;
            heading = row->label;
        } else if (passes(picker, row, heading)) {
            picker->shown[picker->shown_count++] = r;
        }
    }
    while (picker->shown_count > 0 && !is_choice(shown_row(picker, picker->shown_count - 1)))
        picker->shown_count--;
}

static void select_first(struct tc_picker *picker)
{
    picker->at = picker->top = 0;
    while (picker->at < picker->shown_count && !is_choice(shown_row(picker, picker->at)))
        picker->at++;
}

static enum tc_status take_over(struct tc_picker *picker, struct tc_sheet *sheet)
{
    enum tc_status status = sheet->failed ? TC_NO_MEMORY : TC_OK;
    picker->sheet = *sheet;
    *sheet = (struct tc_sheet){.name = ""};
    picker->shown = calloc(picker->sheet.row_count + 1, sizeof *picker->shown);
    if (status == TC_OK)
        status = tc_layout_measure(&picker->layout, &picker->sheet, 0);
    for (size_t c = 0; status == TC_OK && c < picker->sheet.column_count; c++) {
        struct tc_layout_column *column = &picker->layout.columns[c];
        bool capped = column->words && c + 1 < picker->sheet.column_count && column->natural > WIDEST_WORDS;
        column->width = capped ? WIDEST_WORDS : column->natural;
    }
    if (status != TC_OK || !picker->shown) {
        tc_picker_close(picker);
        return TC_NO_MEMORY;
    }
    filter(picker);
    return TC_OK;
}

enum tc_status tc_picker_open(struct tc_picker *picker, struct tc_sheet *sheet, const char *value)
{
    tc_input_start(&picker->filter, "", false);
    enum tc_status status = take_over(picker, sheet);
    if (status != TC_OK)
        return status;
    for (size_t i = 0; i < picker->shown_count && *value; i++) {
        picker->at = i;
        if (is_choice(shown_row(picker, i)) && strcmp(tc_picker_value(picker), value) == 0)
            return TC_OK; /* the view brings it into sight */
    }
    select_first(picker);
    return TC_OK;
}

enum tc_status tc_picker_renew(struct tc_picker *picker, struct tc_sheet *sheet)
{
    size_t at = picker->at, top = picker->top;
    tc_layout_free(&picker->layout);
    tc_sheet_free(&picker->sheet);
    free(picker->shown);
    enum tc_status status = take_over(picker, sheet);
    if (status != TC_OK)
        return status;
    picker->top = top;
    picker->at = at;
    if (at >= picker->shown_count || !is_choice(shown_row(picker, at)))
        select_first(picker);
    return TC_OK;
}

void tc_picker_close(struct tc_picker *picker)
{
    tc_layout_free(&picker->layout);
    tc_sheet_free(&picker->sheet);
    free(picker->shown);
    picker->shown = NULL;
    picker->shown_count = picker->at = picker->top = 0;
}

/* Brings the selected choice into sight, with the heading right above it. */
static void scroll(struct tc_picker *picker, size_t page)
{
    size_t first = picker->at;
    if (first > 0 && first < picker->shown_count && !is_choice(shown_row(picker, first - 1)) && page > 1)
        first--;
    if (first < picker->top)
        picker->top = first;
    if (picker->at >= picker->top + page)
        picker->top = picker->at - page + 1;
}

void tc_picker_move(struct tc_picker *picker, long by, size_t page)
{
    long step = by < 0 ? -1 : 1;
    while (by != 0) {
        size_t next = picker->at;
        do {
            if (step < 0 ? next == 0 : next + 1 >= picker->shown_count) {
                scroll(picker, page);
                return;
            }
            next = step < 0 ? next - 1 : next + 1;
        } while (!is_choice(shown_row(picker, next)));
        picker->at = next;
        by -= step;
    }
    scroll(picker, page);
}

void tc_picker_clear(struct tc_picker *picker, size_t page)
{
    size_t row = picker->at < picker->shown_count ? picker->shown[picker->at] : 0;
    tc_input_start(&picker->filter, "", false);
    filter(picker);
    picker->at = 0;
    while (picker->at + 1 < picker->shown_count && picker->shown[picker->at] != row)
        picker->at++;
    scroll(picker, page);
}

/* The first choice whose label begins with what was typed; else the first one. */
static void select_likeliest(struct tc_picker *picker)
{
    const char *typed = picker->filter.text;
    for (size_t i = 0; i < picker->shown_count; i++) {
        const struct tc_row *row = shown_row(picker, i);
        size_t length = 0;
        while (typed[length] && tc_name_lower(typed[length]) == tc_name_lower(row->label[length]))
            length++;
        if (typed[length] == '\0' && is_choice(row)) {
            picker->at = i;
            picker->top = 0;
            return;
        }
    }
    select_first(picker);
}

bool tc_picker_type(struct tc_picker *picker, uint32_t code, size_t page)
{
    /* Left and Right have other uses in a list, and the end is where one types. */
    bool edits = tc_event_is_text(code) || code == TC_EVENT_BACKSPACE || code == TC_EVENT_CLEAR_LINE;
    if (!edits || !tc_input_press(&picker->filter, code))
        return false;
    filter(picker);
    select_likeliest(picker);
    scroll(picker, page);
    return true;
}
