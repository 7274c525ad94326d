/* SPDX-License-Identifier: MIT */
#include "screen/list_plans.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "profile/section.h"
#include "screen/document.h"
#include "screen/list_fill.h"
#include "screen/prompt.h"
#include "screen/section_file.h"

/* The row that stands for a new one; no name looks like it. */
static const char another[] = "+";

enum plan_column { PLAN_TANKS, PLAN_SETUP, PLAN_REGION, PLAN_STATE, PLAN_TITLE, PLAN_COLUMNS };

static void add_plan(struct tc_sheet *sheet, const struct tc_plan *plan, bool unsaved)
{
    tc_fill_choice(sheet, plan->name[0] ? plan->name : "without a name", plan->name);
    tc_sheet_number(sheet, PLAN_TANKS, plan->candidate_count, 0);
    tc_sheet_text(sheet, PLAN_SETUP, plan->setup);
    tc_sheet_text(sheet, PLAN_REGION, plan->region);
    tc_sheet_text(sheet, PLAN_STATE, unsaved ? "not saved" : "");
    tc_sheet_text(sheet, PLAN_TITLE, plan->title);
}

/* The plan of that name as it is in this session; NULL where it was not opened, or is as its file has it. */
static const struct tc_plan *plan_in_session(const struct tc_state *state, const char *name)
{
    for (int i = state->file_count; i-- > 0;) {
        const struct tc_plan *plan = i == state->now.file ? &state->now.plan : &state->files[i]->left;
        if (strcmp(plan->name, name) == 0)
            return tc_state_unsaved(state, i) ? plan : NULL;
    }
    return NULL;
}

/* Those that are not saved yet stand among the others, as they are now. */
static void fill_plans(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    (void)about;
    tc_sheet_start(sheet, "plans", PLAN_COLUMNS);
    tc_sheet_head(sheet, "Plans: Right copies, Del deletes one of yours, Left undoes", "", "plan");
    tc_sheet_column(sheet, PLAN_TANKS, "tanks", "");
    tc_fill_words(sheet, PLAN_SETUP, "setup");
    tc_fill_words(sheet, PLAN_REGION, "region");
    tc_fill_words(sheet, PLAN_STATE, "");
    tc_fill_words(sheet, PLAN_TITLE, "");
    tc_fill_choice(sheet, "another one", another);
    tc_sheet_text(sheet, PLAN_TITLE, "a new one, in the place and with the setup of the present one");
    for (int i = 0; i < state->file_count; i++) {
        const struct tc_plan *plan = i == state->now.file ? &state->now.plan : &state->files[i]->left;
        if (tc_state_unsaved(state, i) && !tc_stock_plan(stock, plan->name))
            add_plan(sheet, plan, true);
    }
    for (size_t i = 0; i < stock->plan_count; i++) {
        const struct tc_plan *unsaved = plan_in_session(state, stock->plans[i].name);
        add_plan(sheet, unsaved ? unsaved : &stock->plans[i], unsaved != NULL);
    }
}

static const char *present_plan(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.name;
}

/* A plan that is open as it is now, else as its file has it; NULL where there is none of that name. */
static const struct tc_plan *plan_called(const struct tc_state *state, const char *name)
{
    const struct tc_plan *plan = plan_in_session(state, name);
    return plan ? plan : tc_stock_plan(state->options->stock, name);
}

/* state->prompt.head holds the name of the plan that is copied, or "". */
static void name_taken(struct tc_state *state, const char *text)
{
    char name[TC_NAME_SIZE];
    struct tc_plan plan;
    const struct tc_plan *from = plan_called(state, state->prompt.head);
    text += strspn(text, " ");
    if (!tc_name_mend(name, text)) {
        tc_prompt_refuse(state, "write a name: %s", TC_NAME_RULE);
        return;
    }
    if (tc_section_reserved("plan", name) || plan_called(state, name)) {
        tc_prompt_refuse(state, "there is a plan '%s' already; choose another name", name);
        return;
    }
    if (from) {
        tc_plan_copy(&plan, from);
    } else {
        tc_plan_start(&plan);
        memcpy(plan.setup, state->now.plan.setup, sizeof plan.setup);
        memcpy(plan.region, state->now.plan.region, sizeof plan.region);
        plan.units = state->now.plan.units;
    }
    memset(plan.name, 0, sizeof plan.name); /* plans are compared to the last byte */
    memcpy(plan.name, name, strlen(name));
    if (!tc_section_write_plan(state, &plan))
        return;
    tc_state_pop(state);
    tc_state_pop(state); /* the list */
    tc_document_open(state, name);
}

static const struct tc_prompt_kind name_prompt = {
    .title = "A new plan called", .hint = "a word of your own, like: living-room", .taken = name_taken};

static void ask_name(struct tc_state *state, const char *from)
{
    tc_prompt_open(state, &name_prompt, "");
    if (*from)
        snprintf(state->prompt.title, sizeof state->prompt.title, "A copy of %s called", from);
    tc_clean(state->prompt.head, sizeof state->prompt.head, from);
}

static void take_plan(struct tc_state *state, struct tc_list_about about, const char *name)
{
    (void)about;
    if (strcmp(name, another) == 0) {
        ask_name(state, "");
        return;
    }
    tc_state_pop(state);
    tc_document_open(state, name);
}

/* The user's own plans are deleted here, but for those that are open. */
static bool plan_back_possible(const struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE];
    snprintf(head, sizeof head, "plan %s", name);
    for (int i = 0; i < state->file_count; i++)
        if (strcmp(i == state->now.file ? state->now.plan.name : state->files[i]->left.name, name) == 0)
            return false;
    return tc_section_is_own(state, tc_section_of(state, head));
}

static void plan_back(struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE];
    snprintf(head, sizeof head, "plan %s", name);
    if (tc_section_delete_file(state, head))
        tc_state_say(state, "%s is deleted; Left brings it back.", name);
}

static void step_plan(struct tc_state *state, const char *name, int by)
{
    if (by < 0)
        tc_section_undo(state);
    else if (*name && strcmp(name, another) != 0)
        ask_name(state, name);
}

const struct tc_list_kind tc_list_plans = {
    .fill = fill_plans,
    .present = present_plan,
    .take = take_plan,
    .step = step_plan,
    .back = plan_back,
    .back_possible = plan_back_possible,
};
