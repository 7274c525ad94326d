/* SPDX-License-Identifier: MIT */
#include "screen/export.h"

#include <stdio.h>
#include <unistd.h>

#include "print/print.h"
#include "profile/save.h"
#include "screen/confirm.h"
#include "screen/file_name.h"
#include "screen/prompt.h"

/* Columns of a sheet written as text: what a page takes. */
enum { TEXT_WIDTH = 100 };

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
        tc_prompt_refuse_by(state, &faults, status);
    } else {
        tc_state_pop(state);
        tc_state_say(state, "Written to %s", path);
    }
    tc_faults_free(&faults);
    tc_text_free(&text);
}

static void replace(struct tc_state *state)
{
    write_sheet(state, state->confirm.path);
}

static const struct tc_confirm_kind replace_question = {{{'y', "go ahead", replace}}};

static void name_taken(struct tc_state *state, const char *text)
{
    char path[TC_PATH_SIZE];
    enum tc_print_format format;
    if (!tc_file_name_read(text, path))
        tc_prompt_refuse(state, "this is too long for a file's name");
    else if (!tc_print_format_of(path, &format))
        tc_prompt_refuse(state, "end the file's name in .txt, .csv, .md, .json or .html");
    else if (access(path, F_OK) == 0)
        tc_confirm_ask(state, &replace_question, path, "%s is there already and would be replaced.", path);
    else
        write_sheet(state, path);
}

static const struct tc_prompt_kind name_prompt = {
    .title = "Write this sheet to the file",
    .hint = "the extension sets the format: .txt, .csv, .md, .json or .html",
    .taken = name_taken,
};

void tc_export(struct tc_state *state, int unused)
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
    tc_prompt_open(state, &name_prompt, name);
}
