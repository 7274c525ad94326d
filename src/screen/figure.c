/* SPDX-License-Identifier: MIT */
#include "screen/figure.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "screen/edit.h"
#include "screen/key_choice.h"
#include "screen/list.h"
#include "screen/lists.h"
#include "screen/prompt.h"
#include "sheet/caution.h"
#include "sheet/unnamed.h"

/* "29-high: price", "setup shrimp-shelf: light-hours" */
static void write_title(const struct tc_state *state, const struct tc_edit_path *parts, char *title,
                        size_t size)
{
    const struct tc_plan *plan = &state->now.plan;
    if (parts->candidate >= 0 && parts->candidate < plan->candidate_count)
        snprintf(title, size, "%s: %s", plan->candidate[parts->candidate].tank, parts->key);
    else if (strcmp(parts->kind, "setup") == 0)
        snprintf(title, size, "setup %s: %s", plan->setup, parts->key);
    else if (strcmp(parts->kind, "region") == 0)
        snprintf(title, size, "region %s: %s", plan->region, parts->key);
    else
        snprintf(title, size, "%s: %s", parts->kind, parts->key);
}

/* Lists to choose from take the place of names. */
static bool choose_instead(struct tc_state *state, const struct tc_edit_path *parts)
{
    enum tc_slot slot;
    if (parts->candidate >= 0 && tc_edit_slot_of(parts->key, "", &slot)) {
        tc_lists_open_parts(state, parts->candidate, slot);
        return true;
    }
    bool plan = strcmp(parts->kind, "plan") == 0;
    if (parts->candidate >= 0 && strcmp(parts->key, "setup") == 0)
        tc_lists_open_setup(state, parts->candidate);
    else if (plan && strcmp(parts->key, "setup") == 0)
        tc_lists_open(state, TC_LISTS_SETUPS);
    else if (plan && strcmp(parts->key, "region") == 0)
        tc_lists_open(state, TC_LISTS_REGIONS);
    else if (plan && strcmp(parts->key, "sale") == 0)
        tc_lists_open(state, TC_LISTS_BUYING);
    else
        return false;
    return true;
}

/*
 * Where a slot is empty, its price is that of a part of which only the tag is
 * known: it is an unnamed one then. Part of one step with the price.
 */
static bool name_part(const struct tc_state *state, const char *path, struct tc_plan *plan,
                      char problem[TC_PROBLEM_SIZE])
{
    struct tc_edit_path parts;
    enum tc_slot slot;
    char part_path[64];
    tc_edit_take_apart(path, &parts);
    const struct tc_alternative *alternative = tc_state_alternative(state, parts.candidate);
    if (!alternative || !tc_edit_slot_of(parts.key, "-price", &slot) ||
        alternative->equipment.slot[slot].offer)
        return true;
    snprintf(part_path, sizeof part_path, "candidate %d/%s", parts.candidate + 1, tc_slot_name(slot));
    return tc_plan_set(plan, part_path, TC_UNNAMED, problem);
}

/* Sets a figure, and what follows from its being typed there. */
static bool set_figure(struct tc_state *state, const char *path, const char *text,
                       char problem[TC_PROBLEM_SIZE])
{
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    if (!tc_plan_set(&plan, path, text, problem) || (*text && !name_part(state, path, &plan, problem)))
        return false;
    tc_edit_plan(state, &plan);
    return true;
}

static void figure_taken(struct tc_state *state, const char *text)
{
    struct tc_prompt *prompt = &state->prompt;
    char present[TC_VALUE_SIZE];
    tc_edit_present(state, prompt->path, present);
    /* What stands there already is not typed by being looked at. */
    if (strcmp(present, text) == 0 || set_figure(state, prompt->path, text, prompt->problem))
        tc_state_pop(state);
}

static const struct tc_prompt_kind figure_prompt = {.title = "", .hint = "", .taken = figure_taken};

/* typed, if not 0, is a character that takes the place of what is in force. */
static void type_figure(struct tc_state *state, const char *path, uint32_t typed)
{
    struct tc_edit_path parts;
    char text[TC_VALUE_SIZE];
    tc_edit_take_apart(path, &parts);
    tc_edit_present(state, path, text);
    tc_prompt_open(state, &figure_prompt, text);
    struct tc_prompt *prompt = &state->prompt;
    write_title(state, &parts, prompt->title, sizeof prompt->title);
    tc_clean(prompt->path, sizeof prompt->path, path);
    if (parts.form)
        prompt->caution = tc_caution_of_subject(tc_caution_subject(parts.kind, parts.form));
    if (parts.form)
        snprintf(prompt->hint, sizeof prompt->hint, "%s; like %s", parts.form->help, parts.form->example);
    if (typed)
        tc_input_press(&prompt->input, typed);
}

/* ---------------------------------------------------------------------------- choosing */

static void fill_choices(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    struct tc_edit_path parts;
    char title[sizeof state->prompt.title];
    tc_edit_take_apart(about.key, &parts);
    write_title(state, &parts, title, sizeof title);
    tc_key_choice_fill(state, parts.form, title, sheet);
}

static const char *present_choice(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    char text[TC_VALUE_SIZE];
    tc_edit_present(state, about.key, text);
    tc_clean(buffer, TC_NAME_SIZE, text);
    return buffer;
}

static void take_choice(struct tc_state *state, struct tc_list_about about, const char *value)
{
    char problem[TC_PROBLEM_SIZE], present[TC_VALUE_SIZE];
    tc_edit_present(state, about.key, present);
    tc_state_pop(state);
    if (strcmp(value, TC_KEY_CHOICE_TYPED) == 0)
        type_figure(state, about.key, 0);
    else if (strcmp(value, present) != 0 && !tc_edit_set(state, about.key, value, problem))
        tc_state_warn(state, "%s", problem);
}

static const struct tc_list_kind choice_list = {
    .fill = fill_choices,
    .present = present_choice,
    .take = take_choice,
};

void tc_figure_ask(struct tc_state *state, const char *path, uint32_t typed)
{
    struct tc_edit_path parts;
    tc_edit_take_apart(path, &parts);
    if (tc_state_top(state) == TC_LAYER_SHEET && choose_instead(state, &parts))
        return;
    if (parts.form && tc_key_choice(parts.form) && !typed) {
        struct tc_list_about about = {.candidate = -1};
        tc_clean(about.key, sizeof about.key, path);
        tc_list_open_over(state, &choice_list, about);
        return;
    }
    type_figure(state, path, typed);
}
