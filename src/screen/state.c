/* SPDX-License-Identifier: MIT */
#include "screen/state.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/number.h"

/* --------------------------------------------------------------- start and end */

static size_t count_questions(void)
{
    size_t count = 0;
    while (tc_question_at(count))
        count++;
    return count;
}

static size_t first_question(const char *name)
{
    for (size_t i = 0; name && tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, name) == 0)
            return i;
    return 0;
}

size_t tc_state_question_of(const struct tc_plan *plan)
{
    return tc_plan_has_wall(plan) ? first_question("wall") : 0;
}

int tc_state_add_file(struct tc_state *state, const struct tc_plan *plan, const char *path)
{
    struct tc_plan_file **files = realloc(state->files, ((size_t)state->file_count + 1) * sizeof *files);
    struct tc_plan_file *file = files ? calloc(1, sizeof *file) : NULL;
    if (files)
        state->files = files;
    if (!file)
        return -1;
    if (path && strlen(path) < sizeof file->path) {
        memcpy(file->path, path, strlen(path) + 1);
        file->mark = tc_mark_file(path);
    }
    tc_plan_copy(&file->saved, plan);
    memcpy(&file->left, plan, sizeof file->left);
    files[state->file_count] = file;
    return state->file_count++;
}

enum tc_status tc_state_start(struct tc_state *state, const struct tc_screen_options *options, int width,
                              int height)
{
    memset(state, 0, sizeof *state);
    state->options = options;
    tc_plan_copy(&state->now.plan, options->plan);
    state->now.file = tc_state_add_file(state, options->plan, options->plan_path);
    if (options->ask.vary)
        tc_clean(state->vary, sizeof state->vary, options->ask.vary);
    if (options->ask.money)
        tc_clean(state->money, sizeof state->money, options->ask.money);
    state->walls = options->ask.walls;
    tc_history_start(&state->history);
    state->version = 1;
    state->working = -1;
    state->layer[0] = TC_LAYER_SHEET;
    state->layer_count = 1;
    state->question_count = count_questions();
    state->question =
        options->question ? first_question(options->question) : tc_state_question_of(options->plan);
    state->tabs = calloc(state->question_count, sizeof *state->tabs);
    state->frame.width = width;
    state->frame.height = height;
    if (options->faults && tc_faults_errors(options->faults) > 0)
        tc_state_warn(state, "The profiles have faults, and what is faulty is left out: ! shows them.");
    return state->tabs && state->now.file == 0 ? TC_OK : TC_NO_MEMORY;
}

void tc_state_free_study(struct tc_state *state)
{
    if (state->study)
        tc_study_free(state->study);
    free(state->study);
    state->study = NULL;
    tc_faults_free(&state->faults);
}

void tc_state_free(struct tc_state *state)
{
    for (size_t i = 0; state->tabs && i < state->question_count; i++) {
        tc_body_free(&state->tabs[i].body);
        tc_sheet_free(&state->tabs[i].sheet);
        tc_sheet_free(&state->tabs[i].whole);
    }
    free(state->tabs);
    tc_sheet_free(&state->explained);
    tc_state_free_study(state);
    tc_history_free(&state->history);
    for (int i = 0; i < state->file_count; i++)
        free(state->files[i]);
    free(state->files);
    tc_faults_free(&state->profile_faults);
    while (state->written_count > 0) {
        struct tc_written *written = &state->written[--state->written_count];
        free(written->path);
        free(written->text);
    }
    while (state->list_count > 0)
        tc_picker_close(&state->lists[--state->list_count].picker);
    tc_text_free(&state->pager.text);
    memset(state, 0, sizeof *state);
}

/* ----------------------------------------------------------------------- access */

enum tc_layer tc_state_top(const struct tc_state *state)
{
    return state->layer[state->layer_count - 1];
}

void tc_state_push(struct tc_state *state, enum tc_layer layer)
{
    if (state->layer_count < TC_LAYERS_MOST)
        state->layer[state->layer_count++] = layer;
}

void tc_state_pop(struct tc_state *state)
{
    if (state->layer_count == 1)
        return;
    if (tc_state_top(state) == TC_LAYER_LIST)
        tc_picker_close(&state->lists[--state->list_count].picker);
    state->layer_count--;
}

bool tc_state_layer_open(const struct tc_state *state, enum tc_layer layer)
{
    for (int i = 0; i < state->layer_count; i++)
        if (state->layer[i] == layer)
            return true;
    return false;
}

struct tc_list *tc_state_list(struct tc_state *state)
{
    return state->list_count > 0 ? &state->lists[state->list_count - 1] : NULL;
}

const struct tc_list *tc_state_list_seen(const struct tc_state *state)
{
    return state->list_count > 0 ? &state->lists[state->list_count - 1] : NULL;
}

const struct tc_question *tc_state_question(const struct tc_state *state)
{
    return tc_question_at(state->question);
}

struct tc_tab *tc_state_tab(struct tc_state *state)
{
    return &state->tabs[state->question];
}

const struct tc_tab *tc_state_tab_seen(const struct tc_state *state)
{
    return &state->tabs[state->question];
}

struct tc_plan_file *tc_state_file(const struct tc_state *state)
{
    return state->files[state->now.file];
}

bool tc_state_changed(const struct tc_state *state)
{
    return tc_state_unsaved(state, state->now.file);
}

bool tc_state_unsaved(const struct tc_state *state, int file)
{
    const struct tc_plan_file *f = state->files[file];
    return !tc_plan_equal(file == state->now.file ? &state->now.plan : &f->left, &f->saved);
}

void tc_state_outdate(struct tc_state *state)
{
    state->version++;
    for (size_t i = 0; i < state->question_count; i++)
        state->tabs[i].stopped = false;
}

const struct tc_cell *tc_state_cell(const struct tc_state *state, const struct tc_row **row)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    if (tab->position.line >= tab->body.count || tab->position.column >= tab->sheet.column_count)
        return NULL;
    const struct tc_line *line = &tab->body.lines[tab->position.line];
    if (line->kind != TC_LINE_ROW && line->kind != TC_LINE_SENTENCE)
        return NULL;
    const struct tc_row *selected = &tab->sheet.rows[line->index];
    bool sentence = line->kind == TC_LINE_SENTENCE; /* has one cell, and is text but where it is typed */
    if (sentence && !selected->cells[0].edit)
        return NULL;
    if (row)
        *row = selected;
    return &selected->cells[sentence ? 0 : tab->position.column];
}

const struct tc_alternative *tc_state_alternative(const struct tc_state *state, int candidate)
{
    for (int i = 0; state->study && i < state->study->alternative_count; i++)
        if (state->study->alternatives[i].index == candidate)
            return &state->study->alternatives[i];
    return NULL;
}

/* The candidate that a subject or path such as "candidate 2/filter" is about; -1 where it is about none. */
static int candidate_of(const char *subject)
{
    int number;
    const char *end;
    if (strncmp(subject, "candidate ", 10) != 0 ||
        tc_number_read_count(subject + 10, &end, &number) != TC_OK || (*end != '\0' && *end != '/'))
        return -1;
    return number - 1;
}

/* The group that a row stands in; NULL where it stands in none. */
static const struct tc_row *group_of(const struct tc_sheet *sheet, size_t row)
{
    for (size_t r = row + 1; r-- > 0;)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            return &sheet->rows[r];
    return NULL;
}

/* The candidate that the selected cell, its column, its row or its group is about; -1 where none is. */
static int candidate_here(const struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    const struct tc_sheet *sheet = &tab->sheet;
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    int found = cell && cell->edit ? candidate_of(cell->edit) : -1;
    if (found < 0 && tab->position.column < sheet->column_count)
        found = candidate_of(sheet->columns[tab->position.column].subject);
    if (found >= 0 || tab->position.line >= tab->body.count)
        return found;
    const struct tc_line *line = &tab->body.lines[tab->position.line];
    if (line->kind != TC_LINE_ROW && line->kind != TC_LINE_SENTENCE)
        return -1;
    const struct tc_row *group = group_of(sheet, line->index);
    found = candidate_of(sheet->rows[line->index].subject);
    return found < 0 && group ? candidate_of(group->subject) : found;
}

bool tc_state_slot(const struct tc_state *state, enum tc_slot *slot)
{
    const struct tc_tab *tab = tc_state_tab_seen(state);
    if (tab->position.line >= tab->body.count)
        return false;
    const struct tc_line *line = &tab->body.lines[tab->position.line];
    if (line->kind != TC_LINE_ROW && line->kind != TC_LINE_SENTENCE)
        return false;
    const char *subject = tab->sheet.rows[line->index].subject;
    const char *slash = strchr(subject, '/');
    return tc_slot_find(slash ? slash + 1 : subject, slot);
}

int tc_state_candidate(const struct tc_state *state)
{
    int here = candidate_here(state);
    int candidate = here >= 0 ? here : state->candidate;
    if (candidate >= state->now.plan.candidate_count)
        candidate = state->now.plan.candidate_count - 1;
    return candidate;
}

void tc_state_note_candidate(struct tc_state *state)
{
    int here = candidate_here(state);
    if (here >= 0)
        state->candidate = here;
}

/* ------------------------------------------------------------------------ messages */

static void say(struct tc_state *state, bool warns, const char *format, va_list arguments)
{
    vsnprintf(state->message, sizeof state->message, format, arguments);
    state->warns = warns;
}

void tc_state_say(struct tc_state *state, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(state, false, format, arguments);
    va_end(arguments);
}

void tc_state_warn(struct tc_state *state, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(state, true, format, arguments);
    va_end(arguments);
}
