/* SPDX-License-Identifier: MIT */
#include "screen/section_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "profile/kind.h"
#include "profile/plan_save.h"
#include "profile/section_save.h"
#include "screen/prompt.h"
#include "screen/reload.h"

/* -------------------------------------------------------------------------- sections */

static const char *file_of(const struct tc_state *state, const struct tc_section *section)
{
    return state->options->stock->sections->files[section->file].ini.file;
}

bool tc_section_is_own(const struct tc_state *state, const struct tc_section *section)
{
    return section &&
           !tc_section_is_installed(state->options->stock->sections, section, state->options->installed);
}

const struct tc_section *tc_section_of(const struct tc_state *state, const char *head)
{
    const struct tc_sections *sections = state->options->stock->sections;
    const struct tc_section *found = NULL;
    for (size_t i = 0; sections && i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        if (!section->replaced && strcmp(section->ini->name, head) == 0 &&
            (!found || tc_section_is_own(state, section)))
            found = section;
    }
    return found;
}

const char *tc_section_whose(const struct tc_state *state, const struct tc_section *section)
{
    return tc_section_whose_of(state->options->stock->sections, section, state->options->installed);
}

/* The file that a section stands in or, where it is new, is to stand in; false where there is no place for
 * it. */
static bool find_path(const struct tc_state *state, const char *head, char path[TC_PATH_SIZE])
{
    const struct tc_section *section = tc_section_of(state, head);
    char word[TC_NAME_SIZE];
    const char *name = strchr(head, ' ');
    if (tc_section_is_own(state, section))
        return snprintf(path, TC_PATH_SIZE, "%s", file_of(state, section)) < TC_PATH_SIZE;
    if (!state->options->own_folder || !name)
        return false;
    snprintf(word, sizeof word, "%.*s", (int)(name - head), head);
    name++;
    const struct tc_kind *kind = tc_kind_find(word);
    return kind && kind->folder &&
           snprintf(path, TC_PATH_SIZE, "%s/%s/%.*s.ini", state->options->own_folder, kind->folder,
                    (int)strcspn(name, " "), name) < TC_PATH_SIZE;
}

/* -------------------------------------------------------------------------- writing */

static bool refuse(struct tc_state *state, const char *text)
{
    if (tc_state_top(state) == TC_LAYER_PROMPT)
        return tc_prompt_refuse(state, "%s", text);
    tc_state_warn(state, "%s", text);
    return false;
}

static bool refuse_by(struct tc_state *state, const struct tc_faults *faults, enum tc_status status)
{
    size_t count = tc_faults_count(faults);
    return refuse(state, count ? tc_faults_at(faults, count - 1)->text : tc_status_text(status));
}

static void forget(struct tc_written *written)
{
    free(written->path);
    free(written->text);
}

/* Remembers a file that is about to be written; false, with a word, where it could not be read. */
static bool remember(struct tc_state *state, const char *path)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_written written = {.path = strdup(path)};
    bool there;
    enum tc_status status = tc_load(path, &text, &there, &faults);
    if (status == TC_OK && there) {
        tc_text_add(&text, ""); /* an empty file has a text as well */
        written.text = tc_text_take(&text);
    }
    tc_text_free(&text);
    if (status != TC_OK || !written.path || (there && !written.text)) {
        forget(&written);
        refuse_by(state, &faults, status != TC_OK ? status : TC_NO_MEMORY);
        tc_faults_free(&faults);
        return false;
    }
    tc_faults_free(&faults);
    if (state->written_count == TC_WRITTEN_MOST) {
        forget(&state->written[0]);
        memmove(state->written, state->written + 1, sizeof state->written - sizeof state->written[0]);
        state->written_count--;
    }
    state->written[state->written_count++] = written;
    return true;
}

/* What is in force now, and what is wrong with the section that was written. */
static void read_again(struct tc_state *state, const char *head)
{
    tc_reload(state);
    const struct tc_faults *faults = tc_reload_faults(state);
    for (size_t i = 0; faults && i < tc_faults_count(faults); i++) {
        const struct tc_fault *fault = tc_faults_at(faults, i);
        if (fault->severity != TC_ERROR || !fault->place.section || strcmp(fault->place.section, head) != 0)
            continue;
        tc_state_warn(state, "%s%s%s", fault->place.key ? fault->place.key : "", fault->place.key ? ": " : "",
                      fault->text);
        return;
    }
}

/* Ends a writing: what could not be written is not remembered. */
static bool end_writing(struct tc_state *state, const char *head, enum tc_status status,
                        const struct tc_faults *faults)
{
    if (status == TC_OK) {
        read_again(state, head);
        return true;
    }
    forget(&state->written[--state->written_count]);
    return refuse_by(state, faults, status);
}

bool tc_section_write(struct tc_state *state, const char *head, const struct tc_section_line *lines,
                      size_t count)
{
    char path[TC_PATH_SIZE];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (!find_path(state, head, path))
        return refuse(state, "there is no folder of your own to write to: HOME is not set");
    if (!remember(state, path))
        return false;
    enum tc_status status = tc_section_save(path, head, lines, count, &faults);
    bool good = end_writing(state, head, status, &faults);
    tc_faults_free(&faults);
    return good;
}

/* The lines of a section, less one key, with room for one more; to be freed. They borrow the section's texts.
 */
static struct tc_section_line *copy_lines(const struct tc_section *section, const char *less, size_t *count)
{
    size_t most = (section ? section->ini->key_count : 0) + 1;
    struct tc_section_line *lines = calloc(most, sizeof *lines);
    *count = 0;
    for (size_t i = 0; lines && i + 1 < most; i++) {
        const struct tc_ini_key *key = &section->ini->keys[i];
        if (strcmp(key->name, less) != 0)
            lines[(*count)++] = (struct tc_section_line){key->name, key->value};
    }
    return lines;
}

/* Takes a key out of the list of those that were assumed: now somebody gave its figure. */
static void give(struct tc_section_line *lines, size_t *count, const char *key, char list[TC_VALUE_SIZE])
{
    for (size_t i = 0; i < *count; i++) {
        if (strcmp(lines[i].key, "assumed") != 0)
            continue;
        size_t length = 0;
        list[0] = '\0';
        for (const char *at = lines[i].value; *at; at += strspn(at, ", ")) {
            size_t word = strcspn(at, ", ");
            if (word > 0 && !(word == strlen(key) && strncmp(at, key, word) == 0) &&
                length + word + 2 < TC_VALUE_SIZE)
                length += (size_t)snprintf(list + length, TC_VALUE_SIZE - length, "%s%.*s",
                                           length > 0 ? " " : "", (int)word, at);
            at += word;
        }
        lines[i].value = list;
        if (length == 0)
            memmove(&lines[i], &lines[i + 1], (--*count - i) * sizeof *lines);
        return;
    }
}

bool tc_section_set(struct tc_state *state, const char *head, const char *key, const char *value)
{
    size_t count;
    char assumed[TC_VALUE_SIZE];
    struct tc_section_line *lines = copy_lines(tc_section_of(state, head), key, &count);
    if (!lines)
        return refuse(state, tc_status_text(TC_NO_MEMORY));
    give(lines, &count, key, assumed);
    if (*value)
        lines[count++] = (struct tc_section_line){key, value};
    bool good = tc_section_write(state, head, lines, count);
    free(lines);
    return good;
}

bool tc_section_make(struct tc_state *state, const char *head, const char *from)
{
    size_t count;
    struct tc_section_line *lines = copy_lines(*from ? tc_section_of(state, from) : NULL, "invented", &count);
    if (!lines)
        return refuse(state, tc_status_text(TC_NO_MEMORY));
    if (!*from && strncmp(head, "shop ", 5) == 0 && state->now.plan.region[0])
        lines[count++] = (struct tc_section_line){"region", state->now.plan.region};
    bool good = tc_section_write(state, head, lines, count);
    free(lines);
    return good;
}

bool tc_section_delete(struct tc_state *state, const char *head)
{
    char path[TC_PATH_SIZE];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (!tc_section_is_own(state, tc_section_of(state, head)) || !find_path(state, head, path) ||
        !remember(state, path))
        return false;
    enum tc_status status = tc_section_remove(path, head, &faults);
    bool good = end_writing(state, head, status, &faults);
    tc_faults_free(&faults);
    return good;
}

bool tc_section_write_plan(struct tc_state *state, const struct tc_plan *plan)
{
    char head[TC_SECTION_HEAD_SIZE], path[TC_PATH_SIZE], folder[TC_PATH_SIZE];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    snprintf(head, sizeof head, "plan %s", plan->name);
    if (!find_path(state, head, path))
        return refuse(state, "there is no folder of your own to write to: HOME is not set");
    if (!remember(state, path))
        return false;
    snprintf(folder, sizeof folder, "%.*s", (int)(strrchr(path, '/') - path), path);
    enum tc_status status = tc_make_folders(folder, &faults) ? tc_plan_save(plan, path, &faults) : TC_IO;
    bool good = end_writing(state, head, status, &faults);
    tc_faults_free(&faults);
    return good;
}

bool tc_section_delete_file(struct tc_state *state, const char *head)
{
    char path[TC_PATH_SIZE];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (!tc_section_is_own(state, tc_section_of(state, head)) || !find_path(state, head, path) ||
        !remember(state, path))
        return false;
    enum tc_status status = unlink(path) == 0 ? TC_OK : TC_NO_RESULT;
    bool good = end_writing(state, head, status, &faults);
    tc_faults_free(&faults);
    return good;
}

void tc_section_undo(struct tc_state *state)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (state->written_count == 0) {
        tc_state_say(state, "Nothing was written yet.");
        return;
    }
    struct tc_written *written = &state->written[state->written_count - 1];
    enum tc_status status = TC_OK;
    if (written->text)
        status = tc_save(written->path, written->text, strlen(written->text), &faults);
    else
        unlink(written->path);
    if (status != TC_OK) {
        refuse_by(state, &faults, status);
    } else {
        forget(written);
        state->written_count--;
        tc_reload(state);
        tc_state_say(state, "Undone; %d more to undo.", state->written_count);
    }
    tc_faults_free(&faults);
}
