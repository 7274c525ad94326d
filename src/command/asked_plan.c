/* SPDX-License-Identifier: MIT */
#include "command/asked_plan.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "core/base/text.h"
#include "profile/plan_region.h"
#include "sheet/question.h"

/* The plan shown where none is named. */
#define FIRST_PLAN "start"

bool tc_asked_plan_is_file(const char *word)
{
    size_t length = strlen(word);
    return strchr(word, '/') || (length > 4 && strcmp(word + length - 4, ".ini") == 0);
}

const struct tc_plan *tc_asked_plan_known(const struct tc_stock *stock, const char *word)
{
    if (!word)
        return tc_stock_plan(stock, FIRST_PLAN);
    return tc_asked_plan_is_file(word) ? tc_stock_plan_of(stock, word) : tc_stock_plan(stock, word);
}

/* Whether a plan is there in a profile, but was left out for its faults. */
static bool left_out(const struct tc_stock *stock, const char *name)
{
    const char *file;
    int line;
    return !tc_stock_plan(stock, name) && tc_stock_where(stock, "plan", name, &file, &line);
}

enum tc_exit tc_asked_plan_find(const struct tc_stock *stock, const char *word, struct tc_plan *plan)
{
    const struct tc_plan *found = tc_asked_plan_known(stock, word);
    if (!word) {
        if (!found && stock->plan_count > 0)
            found = &stock->plans[0];
        if (found && left_out(stock, FIRST_PLAN))
            fprintf(stderr, "tankcost: plan '%s' was left out for its faults; this is plan '%s'\n",
                    FIRST_PLAN, found->name);
        if (found)
            *plan = *found;
        else
            tc_plan_start(plan); /* options may still name all it takes */
        return TC_EXIT_DONE;
    }
    if (found) {
        *plan = *found;
        return TC_EXIT_DONE;
    }
    if (tc_asked_plan_is_file(word) || left_out(stock, word)) {
        char said[TC_PROBLEM_SIZE];
        tc_clean(said, sizeof said, word);
        fprintf(stderr,
                tc_asked_plan_is_file(word) ? "tankcost: no plan could be read from '%s'\n"
                                            : "tankcost: plan '%s' was left out for its faults\n",
                said);
        return TC_EXIT_FAULTS;
    }
    const char *nearest = tc_stock_nearest(stock, "plan", word);
    for (size_t i = 0; !nearest && tc_question_at(i); i++) {
        const char *name = tc_question_at(i)->name;
        nearest = tc_name_nearest_of(word, &name, 1);
    }
    return tc_usage_error("no sheet and no plan '%s'", word, nearest);
}

const char *tc_asked_plan_file(const struct tc_stock *stock, const char *word, const struct tc_plan *plan)
{
    const char *file;
    int line;
    if (word && tc_asked_plan_is_file(word))
        return word;
    return plan->name[0] && tc_stock_where(stock, "plan", plan->name, &file, &line) ? file : NULL;
}

static enum tc_exit set_figure(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE];
    char said[TC_PROBLEM_SIZE];
    if (tc_plan_set(plan, path, text, problem))
        return TC_EXIT_DONE;
    tc_clean(said, sizeof said, path);
    tc_clean(problem, sizeof problem, problem);
    fprintf(stderr, "tankcost: %s: %s\n", said, problem);
    return TC_EXIT_USAGE;
}

/* "--tank NAME=PRICE" becomes the plan's next candidate. */
static enum tc_exit add_tank(struct tc_plan *plan, const char *argument)
{
    char name[TC_NAME_SIZE], path[64];
    size_t length = strcspn(argument, "=");
    if (length >= sizeof name)
        return tc_usage_error("no tank has a name as long as '%s'", argument, NULL);
    memcpy(name, argument, length);
    name[length] = '\0';
    if (!tc_plan_add(plan, name))
        return tc_usage_error("too many tanks, at '%s'", name, NULL);
    if (argument[length] == '\0')
        return TC_EXIT_DONE;
    snprintf(path, sizeof path, "candidate %d/price", plan->candidate_count);
    return set_figure(plan, path, argument + length + 1);
}

/* Takes the plan to another region, where what was typed for the one before does not hold. */
static enum tc_exit move_plan(const struct tc_stock *stock, struct tc_plan *plan, const char *name)
{
    struct tc_plan moved = *plan;
    enum tc_exit status = set_figure(&moved, "plan/region", name);
    if (status != TC_EXIT_DONE)
        return status;
    char before[TC_NAME_SIZE];
    memcpy(before, plan->region, sizeof before);
    int left = tc_plan_region(plan, stock, moved.region);
    if (left > 0)
        fprintf(stderr, "tankcost: note: figures of plan %s typed for %s and left out in %s: %d\n",
                plan->name, before, plan->region, left);
    return TC_EXIT_DONE;
}

/* Gives the plan another setup, for which what was typed over the one before does not hold. */
static enum tc_exit change_setup(struct tc_plan *plan, const char *name)
{
    struct tc_plan changed = *plan;
    char before[TC_NAME_SIZE];
    enum tc_exit status = set_figure(&changed, "plan/setup", name);
    if (status != TC_EXIT_DONE)
        return status;
    memcpy(before, plan->setup, sizeof before);
    int left = tc_plan_setup(plan, changed.setup);
    if (left > 0)
        fprintf(stderr, "tankcost: note: figures of plan %s typed for setup %s and left out with %s: %d\n",
                plan->name, before, plan->setup, left);
    return TC_EXIT_DONE;
}

/* Compares the regions, where several are named. */
static enum tc_exit compare_regions(struct tc_plan *plan, const struct tc_options *options)
{
    struct tc_text list = TC_TEXT_EMPTY;
    if (options->region_count < 2)
        return TC_EXIT_DONE;
    for (int i = 0; i < options->region_count; i++) {
        tc_text_add(&list, i > 0 ? " " : "");
        tc_text_add(&list, options->regions[i]);
    }
    enum tc_exit status = set_figure(plan, "plan/regions", tc_text_string(&list));
    tc_text_free(&list);
    return status;
}

enum tc_exit tc_asked_plan_change(const struct tc_options *options, const struct tc_stock *stock,
                                  struct tc_plan *plan)
{
    enum tc_exit status = TC_EXIT_DONE;
    if (options->tank_count > 0)
        while (plan->candidate_count > 0)
            tc_plan_remove(plan, 0);
    if (options->region_count > 0) /* before anything is typed in its money */
        status = move_plan(stock, plan, options->regions[0]);
    for (int i = 0; status == TC_EXIT_DONE && i < options->tank_count; i++)
        status = add_tank(plan, options->tanks[i]);
    if (status == TC_EXIT_DONE)
        status = compare_regions(plan, options);
    for (int i = 0; status == TC_EXIT_DONE && i < options->typed_count; i++)
        if (strcmp(options->typed[i].path, "plan/setup") == 0) /* before anything is typed over it */
            status = change_setup(plan, options->typed[i].text);
    for (int i = 0; status == TC_EXIT_DONE && i < options->typed_count; i++)
        if (strcmp(options->typed[i].path, "plan/setup") != 0)
            status = set_figure(plan, options->typed[i].path, options->typed[i].text);
    return status;
}

enum tc_exit tc_asked_plan_units(const struct tc_options *options, enum tc_unit_system *units)
{
    struct tc_plan plan;
    enum tc_exit status = TC_EXIT_DONE;
    tc_plan_start(&plan);
    for (int i = 0; status == TC_EXIT_DONE && i < options->typed_count; i++)
        if (strcmp(options->typed[i].path, "plan/units") == 0)
            status = set_figure(&plan, "plan/units", options->typed[i].text);
    *units = plan.units;
    return status;
}
