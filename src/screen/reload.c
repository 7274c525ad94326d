/* SPDX-License-Identifier: MIT */
#include "screen/reload.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "profile/kind.h"
#include "profile/section.h"
#include "profile/stock_finish.h"
#include "screen/edit.h"

/* ---------------------------------------------------------------------------- stamps */

static uint64_t add_number(uint64_t sum, uint64_t number)
{
    for (int i = 0; i < 8; i++, number >>= 8)
        sum = (sum ^ (number & 0xFF)) * UINT64_C(0x100000001b3); /* FNV-1a */
    return sum;
}

static uint64_t add_file(uint64_t sum, const char *path)
{
    struct stat about;
    if (stat(path, &about) != 0)
        return add_number(sum, 1);
    sum = add_number(sum, (uint64_t)about.st_ino);
    sum = add_number(sum, (uint64_t)about.st_size);
    sum = add_number(sum, (uint64_t)about.st_mtim.tv_sec);
    return add_number(sum, (uint64_t)about.st_mtim.tv_nsec);
}

/* The folder of a file into folder, as long as it is not the one that is there already. */
static bool enter_folder(char folder[TC_PATH_SIZE], const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path) : 0;
    if (length >= TC_PATH_SIZE || (strncmp(folder, path, length) == 0 && folder[length] == '\0'))
        return false;
    memcpy(folder, path, length);
    folder[length] = '\0';
    return length > 0;
}

/* A number that changes with any of the files that were read, or that come into their folders. */
static uint64_t stamp(const struct tc_state *state)
{
    const struct tc_sections *sections = state->options->stock->sections;
    uint64_t sum = UINT64_C(0xcbf29ce484222325);
    char folder[TC_PATH_SIZE] = "";
    for (size_t i = 0; sections && i < sections->file_count; i++) {
        const char *path = sections->files[i].ini.file;
        if (enter_folder(folder, path))
            sum = add_file(sum, folder);
        sum = add_file(sum, path);
    }
    for (size_t i = 0; state->options->own_folder && tc_kind_folder_at(i); i++) {
        snprintf(folder, sizeof folder, "%s/%s", state->options->own_folder, tc_kind_folder_at(i));
        sum = add_file(sum, folder);
    }
    return sum;
}

/* --------------------------------------------------------------------------- reading */

/* The profiles, and those files of the session that do not lie among them. */
static enum tc_status read_all(const struct tc_state *state, struct tc_stock *stock, struct tc_faults *faults)
{
    enum tc_status status = state->options->read(state->options->read_context, stock, faults);
    bool more = false;
    for (int i = 0; status == TC_OK && i < state->file_count; i++) {
        const char *path = state->files[i]->path;
        if (!path[0] || !tc_mark_file(path).there || tc_stock_plan_of(stock, path))
            continue;
        status = tc_stock_read_file(stock, path, faults);
        more = true;
    }
    return status == TC_OK && more ? tc_stock_finish(stock, faults) : status;
}

/* A plan without unsaved changes is as its file has it; one with them stays, and its file is not what it was.
 */
static void renew_plan(struct tc_state *state, int i)
{
    struct tc_plan_file *file = state->files[i];
    struct tc_file_mark mark = tc_mark_file(file->path);
    const struct tc_plan *plan = file->path[0] ? tc_stock_plan_of(state->options->stock, file->path) : NULL;
    if (!plan || tc_mark_equal(&mark, &file->mark) || tc_state_unsaved(state, i))
        return;
    file->mark = mark;
    tc_plan_copy(&file->saved, plan);
    tc_plan_copy(&file->left, plan);
    if (i == state->now.file)
        tc_edit_plan(state, plan);
}

void tc_reload(struct tc_state *state)
{
    struct tc_stock fresh;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (!state->options->read)
        return;
    tc_stock_start(&fresh);
    enum tc_status status = read_all(state, &fresh, &faults);
    if (status != TC_OK) {
        tc_stock_free(&fresh);
        tc_faults_free(&faults);
        tc_state_warn(state, "The profiles could not be read again: %s.", tc_status_text(status));
        return;
    }
    tc_state_free_study(state); /* it borrows the stock */
    tc_stock_free(state->options->stock);
    *state->options->stock = fresh;
    tc_faults_free(&state->profile_faults);
    state->profile_faults = faults;
    state->reloaded = true;
    state->stamp = stamp(state);
    for (int i = 0; i < state->file_count; i++)
        renew_plan(state, i);
    tc_state_outdate(state);
}

bool tc_reload_if_changed(struct tc_state *state)
{
    uint64_t now = stamp(state);
    if (state->stamp == 0) /* the first look */
        state->stamp = now;
    if (!state->options->read || now == state->stamp)
        return false;
    tc_reload(state);
    return true;
}

const struct tc_faults *tc_reload_faults(const struct tc_state *state)
{
    return state->reloaded ? &state->profile_faults : state->options->faults;
}
