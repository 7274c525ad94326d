/* SPDX-License-Identifier: MIT */
#include "screen/new_tank.h"

#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "profile/section_save.h"
#include "screen/edit.h"
#include "screen/list_fill.h"
#include "screen/prompt.h"
#include "screen/section_file.h"

static const char form[] = "write length, width, height and price, like '36 x 15 x 16 in 60'";

/* Skips blanks and the sign between two sides. */
static const char *skip(const char *text)
{
    for (;;) {
        if (*text == ' ' || *text == 'x' || *text == 'X' || *text == '*')
            text++;
        else if (strncmp(text, "×", strlen("×")) == 0)
            text += strlen("×");
        else
            return text;
    }
}

/* The unit at a place, "in" or "cm" or "mm"; the plan's where there is none. */
static const char *unit_at(const char *text, bool us_units, size_t *taken)
{
    static const struct {
        const char *word, *unit;
    } units[] = {{"inches", "in"}, {"in", "in"}, {"\"", "in"}, {"cm", "cm"}, {"mm", "mm"}};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strncmp(text, units[i].word, strlen(units[i].word)) == 0) {
            *taken = strlen(units[i].word);
            return units[i].unit;
        }
    }
    *taken = 0;
    return us_units ? "in" : "cm";
}

static bool refuse(char problem[TC_PROBLEM_SIZE], const char *text)
{
    snprintf(problem, TC_PROBLEM_SIZE, "%s", text);
    return false;
}

bool tc_new_tank_read(const char *text, bool us_units, struct tc_new_tank *tank,
                      char problem[TC_PROBLEM_SIZE])
{
    double side;
    size_t taken;
    const char *end = text;
    memset(tank, 0, sizeof *tank);
    for (int i = 0; i < 3; i++) {
        char number[TC_NUMBER_SIZE];
        if (tc_number_read_tape(skip(end), &end, &side) != TC_OK || side <= 0 ||
            strlen(tc_number_write_short(number, side)) > 8)
            return refuse(problem, form);
        snprintf(tank->size[i], sizeof tank->size[i], "%.8s", number);
    }
    end += strspn(end, " ");
    const char *unit = unit_at(end, us_units, &taken);
    end += taken;
    snprintf(tank->name, sizeof tank->name, "%sx%sx%s", tank->size[0], tank->size[1], tank->size[2]);
    for (int i = 0; i < 3; i++)
        snprintf(tank->size[i] + strlen(tank->size[i]), sizeof tank->size[i] - strlen(tank->size[i]), " %s",
                 unit);
    end += strspn(end, " ");
    double price;
    const char *after = end;
    if (*end && (tc_number_read(end, &after, &price) != TC_OK || after[strspn(after, " ")] != '\0' ||
                 after - end >= (int)sizeof tank->price))
        return refuse(problem, form);
    snprintf(tank->price, sizeof tank->price, "%.*s", (int)(after - end), end);
    return true;
}

/* ------------------------------------------------------------------------------ making */

static bool write_tank(struct tc_state *state, const struct tc_new_tank *tank)
{
    char head[TC_SECTION_HEAD_SIZE];
    const struct tc_section_line lines[] = {
        {"length", tank->size[0]}, {"width", tank->size[1]}, {"height", tank->size[2]}};
    snprintf(head, sizeof head, "tank %s", tank->name);
    if (tc_section_of(state, head))
        return true; /* it is there: the same size has the same name */
    return tc_section_write(state, head, lines, sizeof lines / sizeof lines[0]);
}

/* Into the plan, with its price. */
static bool add_to_plan(struct tc_state *state, const struct tc_new_tank *tank)
{
    struct tc_plan plan;
    char path[48];
    tc_plan_copy(&plan, &state->now.plan);
    if (!tc_plan_add(&plan, tank->name))
        return tc_prompt_refuse(state, "a plan compares %d tanks at most; take one out first",
                                TC_CANDIDATES_MAX);
    snprintf(path, sizeof path, "candidate %d/price", plan.candidate_count);
    if (tank->price[0] && !tc_plan_set(&plan, path, tank->price, state->prompt.problem))
        return false;
    tc_edit_plan(state, &plan);
    return true;
}

static void size_taken(struct tc_state *state, const char *text)
{
    struct tc_new_tank tank;
    bool us_units = tc_fill_units(state) == TC_US;
    if (!tc_new_tank_read(text, us_units, &tank, state->prompt.problem) || !write_tank(state, &tank) ||
        !add_to_plan(state, &tank))
        return;
    tc_state_pop(state);
    tc_state_say(state, "%s is compared now, and stands among your own tanks.", tank.name);
}

static const struct tc_prompt_kind size_prompt = {
    .title = "A tank by its size and price",
    .hint = "outer length, width, height, and its price, like: 36 x 15 x 16 in 60",
    .taken = size_taken,
};

void tc_new_tank(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_open(state, &size_prompt, "");
}
