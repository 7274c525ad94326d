/* SPDX-License-Identifier: MIT */
#include "screen/explain.h"

#include <stdio.h>
#include <string.h>

#include "screen/list_fill.h"
#include "screen/refresh.h"
#include "sheet/answer.h"
#include "sheet/explain.h"

enum { VALUE, HOW, COLUMNS };

/* The term that a list is about: the figure's, or one below it. */
static const struct tc_term *term_of(const struct tc_state *state, const char *line)
{
    const struct tc_sheet *sheet = &state->explained;
    if (state->explained_row >= sheet->row_count || state->explained_column >= sheet->column_count ||
        !sheet->rows[state->explained_row].cells)
        return NULL;
    return tc_explain_line(sheet->rows[state->explained_row].cells[state->explained_column].term, line);
}

/* What heads the list: "20-high/buy/stand, 44.00 USD = round(c × p)". */
static void add_head(const struct tc_state *state, const struct tc_term *term, const char *line,
                     struct tc_sheet *sheet)
{
    struct tc_text name = TC_TEXT_EMPTY;
    tc_figure_name(&state->explained, state->explained_row, state->explained_column, &name);
    tc_sheet_head(
        sheet, tc_sheet_format(sheet, "Where %s comes from", tc_text_string(&name)), "",
        tc_sheet_format(sheet, "%s%s%s", line[0] ? term->symbol : "", line[0] ? "  " : "", term->words));
    tc_sheet_column(sheet, VALUE, "value", "");
    tc_fill_words(sheet, HOW, "comes from");
    tc_sheet_row(sheet, TC_ROW_LINE, line[0] ? term->words : tc_text_string(&name), term->unit);
    tc_explain_value(sheet, VALUE, term);
    tc_sheet_text(sheet, HOW, tc_explain_how(sheet, term));
    tc_sheet_edit(sheet, VALUE, "");
    tc_text_free(&name);
}

static void fill(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_term *term = term_of(state, about.head);
    int number = 0;
    tc_sheet_start(sheet, "explain", COLUMNS);
    if (!term)
        return;
    add_head(state, term, about.head, sheet);
    for (const struct tc_term_part *part = term->parts; part; part = part->next) {
        const char *label = tc_sheet_format(sheet, "  %s  %s", part->term->symbol, part->term->words);
        tc_sheet_row(sheet, TC_ROW_LINE, label, part->term->unit);
        tc_explain_value(sheet, VALUE, part->term);
        tc_sheet_text(sheet, HOW, tc_explain_how(sheet, part->term));
        tc_sheet_edit(sheet, VALUE, tc_sheet_format(sheet, "%d", ++number));
    }
}

static void take(struct tc_state *state, struct tc_list_about about, const char *value);

static const struct tc_list_kind terms = {.fill = fill, .take = take};

static void take(struct tc_state *state, struct tc_list_about about, const char *value)
{
    struct tc_list_about inner = {.candidate = -1};
    int length =
        snprintf(inner.head, sizeof inner.head, "%s%s%s", about.head, about.head[0] ? "." : "", value);
    if (!value[0]) {
        tc_list_leave(state, 0);
        return;
    }
    const struct tc_term *term = term_of(state, inner.head);
    if (length >= (int)sizeof inner.head || !term)
        return;
    if (term->parts)
        tc_list_open_over(state, &terms, inner);
    else
        tc_state_say(state, "It goes no deeper: %s.", tc_explain_how(&state->explained, term));
}

/* The places in the sheet as it was made of a row and column of it as it is shown (sheet/arrange.h). */
static bool find_whole(const struct tc_tab *tab, size_t *row, size_t *column)
{
    struct tc_arrange_key wanted, key;
    size_t r = 0, c = 0;
    if (tab->whole.row_count == 0)
        return true;
    tc_arrange_row(&tab->sheet, *row, &wanted);
    for (; r < tab->whole.row_count; r++) {
        tc_arrange_row(&tab->whole, r, &key);
        if (tab->whole.rows[r].kind == tab->sheet.rows[*row].kind && strcmp(key.text, wanted.text) == 0)
            break;
    }
    tc_arrange_column(&tab->sheet, *column, &wanted);
    for (; c < tab->whole.column_count; c++) {
        tc_arrange_column(&tab->whole, c, &key);
        if (strcmp(key.text, wanted.text) == 0)
            break;
    }
    *row = r;
    *column = c;
    return r < tab->whole.row_count && c < tab->whole.column_count;
}

bool tc_explain_possible(const struct tc_state *state)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    return cell && cell->kind != TC_CELL_EMPTY;
}

void tc_explain_open(struct tc_state *state, int unused)
{
    const struct tc_tab *tab = tc_state_tab(state);
    char problem[TC_PROBLEM_SIZE] = "";
    (void)unused;
    if (!tc_explain_possible(state) || !state->study || tab->version != state->version) {
        tc_state_say(state, "Select a figure: E says where it comes from.");
        return;
    }
    struct tc_ask ask = tc_refresh_ask(state);
    ask.explain = true;
    ask.problem = problem;
    tc_sheet_free(&state->explained);
    state->explained_row = tab->body.lines[tab->position.line].index;
    state->explained_column = tab->position.column;
    ask.explain_of = tab->sheet.rows[state->explained_row].subject;
    if (!find_whole(tab, &state->explained_row, &state->explained_column)) {
        tc_state_say(state, "This is one column less the other: select one of the two instead.");
        return;
    }
    enum tc_status status = tc_answer_make(tc_state_question(state), state->study, &ask, &state->explained);
    if (status == TC_NO_MEMORY)
        tc_state_warn(state, "There is no memory left for that.");
    else if (status != TC_OK || !term_of(state, ""))
        tc_state_say(state, "This sheet does not say where that figure comes from.");
    else
        tc_list_open(state, &terms, (struct tc_list_about){.candidate = -1});
}
