/* SPDX-License-Identifier: MIT */
#include "screen/document.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "profile/plan_keep.h"
#include "profile/plan_save.h"
#include "screen/confirm.h"
#include "screen/edit.h"
#include "screen/prompt.h"
#include "screen/reload.h"

/* ----------------------------------------------------------------------------- files */

/* The name of a plan of the session; "" where it has none. */
static const char *name_of(const struct tc_state *state, int file)
{
    return file == state->now.file ? state->now.plan.name : state->files[file]->left.name;
}

/* The file of the session with a plan of that name; -1 where there is none. */
static int find_file(const struct tc_state *state, const char *name)
{
    for (int i = state->file_count; i-- > 0;)
        if (strcmp(name_of(state, i), name) == 0)
            return i;
    return -1;
}

/* The next plan that is not saved, the present one first; -1 where all are. */
static int next_unsaved(const struct tc_state *state)
{
    for (int i = 0; i < state->file_count; i++) {
        int file = (state->now.file + i) % state->file_count;
        if (tc_state_unsaved(state, file))
            return file;
    }
    return -1;
}

/* Shows another plan of the session, as it was left. The step can be taken back. */
static void switch_to(struct tc_state *state, int file)
{
    struct tc_plan plan;
    if (file == state->now.file)
        return;
    tc_plan_copy(&plan, &state->files[file]->left);
    tc_edit_document(state, &plan, file);
}

/* A kept plan that is saved, or not wanted any more. */
static void drop_kept(struct tc_plan_file *file)
{
    if (file->kept[0])
        unlink(file->kept);
    file->kept[0] = '\0';
}

/* ---------------------------------------------------------------------------- saving */

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

/*
 * A plan keeps its name in its own file; in another one it is called after
 * that, so that no two have the same name.
 */
static bool name_after(struct tc_state *state, const char *path, struct tc_plan *plan)
{
    char base[TC_PATH_SIZE], name[TC_NAME_SIZE] = "";
    const struct tc_plan_file *file = tc_state_file(state);
    if (strcmp(path, file->path) == 0 && file->saved.name[0]) {
        snprintf(name, sizeof name, "%s", file->saved.name);
    } else {
        tc_clean(base, sizeof base, tc_file_name_base(path));
        base[strlen(base) - strlen(".ini")] = '\0';
        if (!tc_name_mend(name, base))
            return tc_prompt_refuse(state, "the file's name has to hold a plan's name: %s", TC_NAME_RULE);
    }
    memset(plan->name, 0, sizeof plan->name); /* plans are compared to the last byte */
    memcpy(plan->name, name, strlen(name));
    return true;
}

/* Whether what is saved there could be found again by its name. */
static bool check_name(struct tc_state *state, const char *path, const char *name)
{
    const char *file;
    int line;
    if (!tc_path_lies_in(path, state->options->plan_folder) ||
        !tc_stock_where(state->options->stock, "plan", name, &file, &line) || strcmp(file, path) == 0 ||
        tc_path_lies_in(file, state->options->installed))
        return true;
    return tc_prompt_refuse(
        state, "there is a plan '%s' in %s, which would hide this one: choose another name", name, file);
}

static void go_on_leaving(struct tc_state *state);

static void saved_to(struct tc_state *state, const char *path, const struct tc_plan *plan)
{
    struct tc_plan_file *file = tc_state_file(state);
    tc_plan_copy(&state->now.plan, plan);
    tc_plan_copy(&file->saved, plan);
    memmove(file->path, path, strlen(path) + 1);
    file->mark = tc_mark_file(path);
    drop_kept(file);
    tc_state_pop(state);
    tc_reload(state);
    tc_state_say(state, "Saved as %s", file->path);
    if (state->leaving)
        go_on_leaving(state);
}

static void save_to(struct tc_state *state, const char *path)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    if (!name_after(state, path, &plan) || !check_name(state, path, plan.name))
        return;
    const char *folder = state->options->plan_folder;
    enum tc_status status = TC_OK;
    if (tc_path_lies_in(path, folder) && !tc_make_folders(folder, &faults))
        status = TC_IO;
    if (status == TC_OK)
        status = tc_plan_save(&plan, path, &faults);
    if (status == TC_OK)
        saved_to(state, path, &plan);
    else
        tc_prompt_refuse_by(state, &faults, status);
    tc_faults_free(&faults);
}

static void replace(struct tc_state *state)
{
    char path[TC_PATH_SIZE];
    tc_clean(path, sizeof path, state->confirm.path);
    save_to(state, path);
}

static const struct tc_confirm_kind replace_question = {{{'y', "go ahead", replace}}};

static void name_taken(struct tc_state *state, const char *text)
{
    char path[TC_PATH_SIZE];
    const struct tc_plan_file *file = tc_state_file(state);
    if (!plan_path(state, text, path))
        return;
    struct tc_file_mark mark = tc_mark_file(path);
    bool own = strcmp(path, file->path) == 0;
    if (own && mark.there && !tc_mark_equal(&mark, &file->mark))
        tc_confirm_ask(
            state, &replace_question, path,
            "%s was changed by somebody else since it was read; saving puts this plan in its place.", path);
    else if (!own && access(path, F_OK) == 0)
        tc_confirm_ask(state, &replace_question, path, "%s is there already and would be replaced.", path);
    else
        save_to(state, path);
}

static void saving_left(struct tc_state *state)
{
    state->leaving = false;
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
    const char *path = tc_state_file(state)->path;
    bool own = *path && tc_is_clean(path, strlen(path)) &&
               !tc_path_lies_in(path, state->options->installed) &&
               (access(path, W_OK) == 0 || access(path, F_OK) != 0);
    tc_prompt_open(state, &save_prompt, own ? path : state->now.plan.name);
}

/* --------------------------------------------------------------------------- opening */

/* A plan of the stock as one of the session; -1 where there is none of that name, or no memory. */
static int open_from_stock(struct tc_state *state, const char *name, int file)
{
    const struct tc_plan *plan = tc_stock_plan(state->options->stock, name);
    const char *path;
    int line;
    if (!plan)
        return file;
    if (!tc_stock_where(state->options->stock, "plan", name, &path, &line))
        path = "";
    if (file < 0)
        return tc_state_add_file(state, plan, path);
    struct tc_plan_file *known = state->files[file]; /* all of it is saved: as the file has it now */
    tc_plan_copy(&known->saved, plan);
    tc_plan_copy(&known->left, plan);
    known->mark = tc_mark_file(known->path);
    return file;
}

void tc_document_open(struct tc_state *state, const char *name)
{
    char before[TC_NAME_SIZE];
    int file = find_file(state, name), from = state->now.file;
    if (file == from)
        return;
    memcpy(before, state->now.plan.name, sizeof before);
    if (file < 0 || !tc_state_unsaved(state, file))
        file = open_from_stock(state, name, file);
    if (file < 0) {
        tc_state_warn(state, "Plan %s could not be opened.", name);
        return;
    }
    bool walled = tc_plan_has_wall(&state->now.plan);
    switch_to(state, file);
    if (walled != tc_plan_has_wall(&state->now.plan))
        state->question = tc_state_question_of(&state->now.plan);
    if (tc_state_unsaved(state, from))
        tc_state_say(state, "Plan %s. %s is not saved: o goes back to it.", name, before);
    else
        tc_state_say(state, "Plan %s", name);
}

void tc_document_begin(struct tc_state *state, const struct tc_plan *plan, const char *name)
{
    struct tc_plan blank, begun;
    tc_plan_start(&blank);
    tc_plan_copy(&begun, plan);
    memset(begun.name, 0, sizeof begun.name); /* plans are compared to the last byte */
    snprintf(begun.name, sizeof begun.name, "%s", name);
    for (int i = 2;
         i < 100 && (find_file(state, begun.name) >= 0 || tc_stock_plan(state->options->stock, begun.name));
         i++) {
        memset(begun.name, 0, sizeof begun.name);
        snprintf(begun.name, sizeof begun.name, "%.40s-%d", name, i);
    }
    int file = tc_state_add_file(state, &blank, NULL);
    if (file < 0)
        state->failed = true;
    else
        tc_edit_document(state, &begun, file);
}

/* --------------------------------------------------------------------------- leaving */

static void leave(struct tc_state *state)
{
    state->leave = true;
}

/* Saves one plan after the other, each seen while its name is asked for; then leaves. */
static void go_on_leaving(struct tc_state *state)
{
    int file = next_unsaved(state);
    state->leaving = file >= 0;
    if (file < 0) {
        state->leave = true;
        return;
    }
    switch_to(state, file);
    tc_document_save(state, 0);
}

static const struct tc_confirm_kind leave_question = {
    {{'s', "save first", go_on_leaving}, {'q', "quit without saving", leave}}};

/* "spring, autumn": the plans of the session that are not saved; returns how many. */
static int list_unsaved(const struct tc_state *state, char *text, size_t size)
{
    int count = 0;
    size_t length = 0;
    text[0] = '\0';
    for (int i = 0; i < state->file_count; i++) {
        if (!tc_state_unsaved(state, i))
            continue;
        const char *name = name_of(state, i)[0] ? name_of(state, i) : "one without a name";
        int written = snprintf(text + length, size - length, "%s%s", count > 0 ? ", " : "", name);
        length += written > 0 && (size_t)written < size - length ? (size_t)written : 0;
        count++;
    }
    return count;
}

void tc_document_leave(struct tc_state *state, int unused)
{
    char names[512];
    (void)unused;
    int count = list_unsaved(state, names, sizeof names);
    if (count == 0)
        state->leave = true;
    else if (count == 1 && tc_state_changed(state))
        tc_confirm_ask(state, &leave_question, "", "The plan has changed and is not saved.");
    else
        tc_confirm_ask(state, &leave_question, "",
                       count == 1 ? "Plan %s has changed and is not saved."
                                  : "These plans have changed and are not saved: %s.",
                       names);
}

/* ------------------------------------------------------------- kept from an earlier end */

void tc_document_keep(struct tc_state *state)
{
    struct tc_faults ignored = TC_FAULTS_EMPTY; /* nobody is left to be told */
    for (int i = 0; state->options->kept_folder && i < state->file_count; i++) {
        struct tc_plan_file *file = state->files[i];
        struct tc_kept_plan kept = {"", ""};
        if (!tc_state_unsaved(state, i))
            continue;
        snprintf(kept.kept, sizeof kept.kept, "%s", file->kept);
        if (file->path[0] && !tc_path_lies_in(file->path, state->options->installed))
            snprintf(kept.path, sizeof kept.path, "%s", file->path);
        tc_plan_keep(i == state->now.file ? &state->now.plan : &file->left, state->options->kept_folder,
                     &kept, &ignored);
    }
    tc_faults_free(&ignored);
}

void tc_document_end(struct tc_state *state)
{
    for (int i = 0; i < state->file_count; i++)
        drop_kept(state->files[i]);
}

/* Takes a kept plan up as one of the session: not saved, beside what its file holds. False where it cannot be
 * read. */
static bool take_up(struct tc_state *state, const struct tc_kept_plan *kept)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_plan plan, saved;
    memset(&plan, 0, sizeof plan);
    bool good = tc_plan_kept_read(state->options->stock, kept, &plan, &faults);
    tc_faults_free(&faults);
    if (!good)
        return false;
    const struct tc_plan *known = kept->path[0] ? tc_stock_plan_of(state->options->stock, kept->path) : NULL;
    if (known)
        memcpy(&saved, known, sizeof saved);
    else
        tc_plan_start(&saved);
    int file = tc_state_add_file(state, &saved, kept->path);
    if (file < 0)
        return false;
    snprintf(state->files[file]->kept, sizeof state->files[file]->kept, "%s", kept->kept);
    tc_edit_document(state, &plan, file);
    return true;
}

static void take_kept(struct tc_state *state)
{
    struct tc_kept_plan kept[TC_KEPT_MAX];
    size_t count = tc_plan_kept(state->options->kept_folder, kept, TC_KEPT_MAX);
    bool good = true;
    for (size_t i = count; i-- > 0;) /* the first one is looked at in the end */
        good = take_up(state, &kept[i]) && good;
    if (good)
        tc_state_say(state, "Here it is, not saved yet: s saves it.");
    else
        tc_state_warn(state, "A plan in %s could not be read; it stays there.", state->options->kept_folder);
}

static void drop_all_kept(struct tc_state *state)
{
    struct tc_kept_plan kept[TC_KEPT_MAX];
    size_t count = tc_plan_kept(state->options->kept_folder, kept, TC_KEPT_MAX);
    for (size_t i = 0; i < count; i++)
        unlink(kept[i].kept);
}

static const struct tc_confirm_kind kept_question = {
    {{'y', "go on with it", take_kept}, {'d', "throw it away", drop_all_kept}}};

void tc_document_offer_kept(struct tc_state *state)
{
    struct tc_kept_plan kept[TC_KEPT_MAX];
    size_t count =
        state->options->kept_folder ? tc_plan_kept(state->options->kept_folder, kept, TC_KEPT_MAX) : 0;
    if (count == 0)
        return;
    const char *base = tc_file_name_base(kept[0].kept);
    tc_confirm_ask(state, &kept_question, "",
                   count == 1 ? "Plan %.*s was not saved when tankcost last ended."
                              : "Plan %.*s and others were not saved when tankcost last ended.",
                   (int)(strlen(base) - strlen(".ini")), base);
}
