/* SPDX-License-Identifier: MIT */
#include "screen/saving.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "print/print.h"
#include "profile/plan_save.h"
#include "profile/save.h"
#include "screen/confirm.h"
#include "screen/prompt.h"

/* Columns of a sheet written as text: what a page takes. */
enum { TEXT_WIDTH = 100 };

/* ----------------------------------------------------------------------------- paths */

static bool ends_in(const char *text, const char *ending)
{
    size_t length = strlen(text), tail = strlen(ending);
    return length > tail && strcmp(text + length - tail, ending) == 0;
}

static const char *base_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* Text without blanks around it, and "~/" as the home folder; false where that is too long. */
static bool write_path(const char *text, char path[TC_PATH_SIZE])
{
    const char *home = getenv("HOME");
    text += strspn(text, " ");
    bool at_home = strncmp(text, "~/", 2) == 0 && home && *home;
    int length = snprintf(path, TC_PATH_SIZE, "%s%s", at_home ? home : "", at_home ? text + 1 : text);
    while (length > 0 && length < TC_PATH_SIZE && path[length - 1] == ' ')
        path[--length] = '\0';
    return length < TC_PATH_SIZE;
}

/* Makes the folders of a path as far as they are missing. What fails is seen when the file is written. */
static void make_folders(const char *path)
{
    char folder[TC_PATH_SIZE];
    tc_clean(folder, sizeof folder, path);
    for (char *slash = strchr(folder + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        mkdir(folder, 0777);
        *slash = '/';
    }
}

static bool problem(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);

/* Says on the prompt what is wrong; returns false. */
static bool problem(struct tc_state *state, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(state->prompt.problem, sizeof state->prompt.problem, format, arguments);
    va_end(arguments);
    return false;
}

static void problem_from(struct tc_state *state, const struct tc_faults *faults, enum tc_status status)
{
    size_t count = tc_faults_count(faults);
    problem(state, "%s", count ? tc_faults_at(faults, count - 1)->text : tc_status_text(status));
}

/* ------------------------------------------------------------------------------ plans */

void tc_saving_save(struct tc_state *state, int unused)
{
    (void)unused;
    const char *path = state->now.path;
    bool own = *path && tc_is_clean(path, strlen(path)) && access(path, W_OK) == 0;
    tc_prompt_open(state, TC_PROMPT_SAVE, own ? path : state->now.plan.name);
}

/* The file that was typed, by its path or as a name alone. */
static bool plan_path(struct tc_state *state, const char *text, char path[TC_PATH_SIZE])
{
    char name[TC_NAME_SIZE];
    const char *folder = state->options->plan_folder;
    if (!write_path(text, path))
        return problem(state, "this is too long for a file's name");
    if (path[0] == '\0')
        return problem(state, "write a name for the plan");
    if (strchr(path, '/') || ends_in(path, ".ini")) {
        if (!ends_in(path, ".ini"))
            return problem(state, "a plan's file ends in .ini");
        return true;
    }
    if (!tc_name_valid(path)) {
        if (tc_name_mend(name, path))
            return problem(state, "a name has %s; how about '%s'?", TC_NAME_RULE, name);
        return problem(state, "a name has %s", TC_NAME_RULE);
    }
    tc_clean(name, sizeof name, path);
    if (snprintf(path, TC_PATH_SIZE, "%s%s%s.ini", folder ? folder : "", folder ? "/" : "", name) >=
        TC_PATH_SIZE)
        return problem(state, "this is too long for a file's name");
    return true;
}

/* A plan in a file of its own is called after the file, so that no two have the same name. */
static bool name_after(struct tc_state *state, const char *path, struct tc_plan *plan)
{
    char base[TC_PATH_SIZE], name[TC_NAME_SIZE];
    if (strcmp(path, state->now.path) == 0 && plan->name[0])
        return true;
    tc_clean(base, sizeof base, base_of(path));
    base[strlen(base) - strlen(".ini")] = '\0';
    if (!tc_name_mend(name, base))
        return problem(state, "the file's name has to hold a plan's name: %s", TC_NAME_RULE);
    memset(plan->name, 0, sizeof plan->name);
    memcpy(plan->name, name, strlen(name));
    return true;
}

/* What was to come once the plan is saved. */
static void go_on(struct tc_state *state, enum tc_prompt_then then, const char *name)
{
    if (then == TC_THEN_LEAVE)
        state->leave = true;
    else if (then == TC_THEN_OPEN)
        tc_confirm_open(state, name);
}

static void save_to(struct tc_state *state, const char *path)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_plan plan;
    memcpy(&plan, &state->now.plan, sizeof plan);
    if (!name_after(state, path, &plan))
        return;
    const char *folder = state->options->plan_folder;
    if (folder && strncmp(path, folder, strlen(folder)) == 0)
        make_folders(path);
    enum tc_status status = tc_plan_save(&plan, path, &faults);
    if (status != TC_OK) {
        problem_from(state, &faults, status);
    } else {
        tc_document_place(&state->now, path);
        memcpy(&state->now.plan, &plan, sizeof plan);
        memcpy(&state->saved, &plan, sizeof plan);
        tc_state_pop(state);
        tc_state_say(state, "Saved as %s", path);
        go_on(state, state->prompt.then, state->prompt.then_name);
    }
    tc_faults_free(&faults);
}

void tc_saving_save_as(struct tc_state *state, const char *text)
{
    char path[TC_PATH_SIZE];
    if (!plan_path(state, text, path))
        return;
    if (strcmp(path, state->now.path) != 0 && access(path, F_OK) == 0)
        tc_confirm_replace(state, TC_CONFIRM_REPLACE_PLAN, path);
    else
        save_to(state, path);
}

void tc_saving_replace_plan(struct tc_state *state, const char *path)
{
    save_to(state, path);
}

/* ----------------------------------------------------------------------------- sheets */

void tc_saving_write(struct tc_state *state, int unused)
{
    char name[TC_PATH_SIZE];
    const struct tc_plan *plan = &state->now.plan;
    (void)unused;
    if (!tc_state_tab(state)->made) {
        tc_state_say(state, "There is no sheet to write.");
        return;
    }
    snprintf(name, sizeof name, "%s%s%s.txt", plan->name, plan->name[0] ? "-" : "",
             tc_state_question(state)->name);
    tc_prompt_open(state, TC_PROMPT_WRITE, name);
}

static void write_sheet(struct tc_state *state, const char *path)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_print_options options = {.width = TEXT_WIDTH, .ascii = state->options->ascii};
    enum tc_print_format format;
    if (!tc_print_format_of(path, &format))
        return;
    enum tc_status status = tc_print(&text, &tc_state_tab(state)->sheet, format, &options);
    if (status == TC_OK)
        status = tc_save(path, tc_text_string(&text), text.length, &faults);
    if (status != TC_OK) {
        problem_from(state, &faults, status);
    } else {
        tc_state_pop(state);
        tc_state_say(state, "Written to %s", path);
    }
    tc_faults_free(&faults);
    tc_text_free(&text);
}

void tc_saving_write_to(struct tc_state *state, const char *text)
{
    char path[TC_PATH_SIZE];
    enum tc_print_format format;
    if (!write_path(text, path))
        problem(state, "this is too long for a file's name");
    else if (!tc_print_format_of(path, &format))
        problem(state, "end the file's name in .txt, .csv, .md or .json");
    else if (access(path, F_OK) == 0)
        tc_confirm_replace(state, TC_CONFIRM_REPLACE_SHEET, path);
    else
        write_sheet(state, path);
}

void tc_saving_replace_sheet(struct tc_state *state, const char *path)
{
    write_sheet(state, path);
}
