/* SPDX-License-Identifier: MIT */
#include "screen/document.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "profile/plan_save.h"
#include "screen/confirm.h"
#include "screen/edit.h"
#include "screen/file_name.h"
#include "screen/prompt.h"

/* ----------------------------------------------------------------------------- files */

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

/* ------------------------------------------------------------------------------ plans */

/* The file that was typed, by its path or as a name alone. */
static bool plan_path(struct tc_state *state, const char *text, char path[TC_PATH_SIZE])
{
    char name[TC_NAME_SIZE];
    const char *folder = state->options->plan_folder;
    if (!tc_file_name_read(text, path))
        return tc_prompt_refuse(state, "this is too long for a file's name");
    if (path[0] == '\0')
        return tc_prompt_refuse(state, "write a name for the plan");
    if (strchr(path, '/') || tc_file_name_ends_in(path, ".ini")) {
        if (!tc_file_name_ends_in(path, ".ini"))
            return tc_prompt_refuse(state, "a plan's file ends in .ini");
        return true;
    }
    if (!tc_name_valid(path)) {
        if (tc_name_mend(name, path))
            return tc_prompt_refuse(state, "a name has %s; how about '%s'?", TC_NAME_RULE, name);
        return tc_prompt_refuse(state, "a name has %s", TC_NAME_RULE);
    }
    tc_clean(name, sizeof name, path);
    if (snprintf(path, TC_PATH_SIZE, "%s%s%s.ini", folder ? folder : "", folder ? "/" : "", name) >=
        TC_PATH_SIZE)
        return tc_prompt_refuse(state, "this is too long for a file's name");
    return true;
}

/* A plan in a file of its own is called after the file, so that no two have the same name. */
static bool name_after(struct tc_state *state, const char *path, struct tc_plan *plan)
{
    char base[TC_PATH_SIZE], name[TC_NAME_SIZE];
    if (strcmp(path, state->now.path) == 0 && plan->name[0])
        return true;
    tc_clean(base, sizeof base, tc_file_name_base(path));
    base[strlen(base) - strlen(".ini")] = '\0';
    if (!tc_name_mend(name, base))
        return tc_prompt_refuse(state, "the file's name has to hold a plan's name: %s", TC_NAME_RULE);
    memset(plan->name, 0, sizeof plan->name);
    memcpy(plan->name, name, strlen(name));
    return true;
}

/* The other plan is a step like others: it can be taken back. */
static void open_plan(struct tc_state *state, const char *name)
{
    const struct tc_plan *plan = tc_stock_plan(state->options->stock, name);
    const char *file;
    int line;
    if (!plan)
        return;
    tc_edit_plan(state, plan);
    memcpy(&state->saved, plan, sizeof state->saved);
    bool known = tc_stock_where(state->options->stock, "plan", name, &file, &line);
    tc_document_place(&state->now, known ? file : NULL);
    tc_state_say(state, "Plan %s", name);
}

/* What was to come once the plan is saved. */
static void go_on(struct tc_state *state)
{
    enum tc_after_saving after = state->after_saving;
    state->after_saving = TC_AFTER_STAY;
    if (after == TC_AFTER_LEAVE)
        state->leave = true;
    else if (after == TC_AFTER_OPEN)
        open_plan(state, state->after_name);
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
        tc_prompt_refuse_by(state, &faults, status);
    } else {
        tc_document_place(&state->now, path);
        memcpy(&state->now.plan, &plan, sizeof plan);
        memcpy(&state->saved, &plan, sizeof plan);
        tc_state_pop(state);
        tc_state_say(state, "Saved as %s", path);
        go_on(state);
    }
    tc_faults_free(&faults);
}

static void replace(struct tc_state *state)
{
    save_to(state, state->confirm.path);
}

static const struct tc_confirm_kind replace_question = {{{'y', "goes ahead", replace}}};

static void name_taken(struct tc_state *state, const char *text)
{
    char path[TC_PATH_SIZE];
    if (!plan_path(state, text, path))
        return;
    if (strcmp(path, state->now.path) != 0 && access(path, F_OK) == 0)
        tc_confirm_ask(state, &replace_question, path, "%s is there already and would be replaced.", path);
    else
        save_to(state, path);
}

static void saving_left(struct tc_state *state)
{
    state->after_saving = TC_AFTER_STAY;
}

static const struct tc_prompt_kind save_prompt = {
    .title = "Save the plan as",
    .hint = "a name, or a file's path that ends in .ini",
    .taken = name_taken,
    .left = saving_left,
};

void tc_document_save(struct tc_state *state, int unused)
{
    (void)unused;
    const char *path = state->now.path;
    bool own = *path && tc_is_clean(path, strlen(path)) && access(path, W_OK) == 0;
    tc_prompt_open(state, &save_prompt, own ? path : state->now.plan.name);
}

/* ------------------------------------------------------------------- leaving, opening */

static void leave(struct tc_state *state)
{
    state->leave = true;
}

static void save_and_leave(struct tc_state *state)
{
    tc_document_save(state, 0);
    state->after_saving = TC_AFTER_LEAVE;
}

static const struct tc_confirm_kind leave_question = {
    {{'s', "saves first", save_and_leave}, {'q', "quits without saving", leave}}};

void tc_document_leave(struct tc_state *state, int unused)
{
    (void)unused;
    if (tc_state_changed(state))
        tc_confirm_ask(state, &leave_question, "", "The plan has changed and is not saved.");
    else
        state->leave = true;
}

static void open_now(struct tc_state *state)
{
    open_plan(state, state->confirm.path);
}

static void save_and_open(struct tc_state *state)
{
    tc_clean(state->after_name, sizeof state->after_name, state->confirm.path);
    tc_document_save(state, 0);
    state->after_saving = TC_AFTER_OPEN;
}

static const struct tc_confirm_kind open_question = {
    {{'s', "saves first", save_and_open}, {'y', "goes ahead", open_now}}};

void tc_document_open(struct tc_state *state, const char *name)
{
    if (tc_state_changed(state))
        tc_confirm_ask(state, &open_question, name,
                       "The plan has changed and is not saved; u will bring it back from %s.", name);
    else
        open_plan(state, name);
}
