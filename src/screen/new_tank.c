/* SPDX-License-Identifier: MIT */
#include "screen/new_tank.h"

#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "profile/kind.h"
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

/* The unit at a place, "in" or "cm" or "mm", and how long it is; the plan's where there is none. */
static const char *unit_at(const char *text, bool us_units, double *length, size_t *taken)
{
    static const struct {
        const char *word, *unit;
        double length;
    } units[] = {{"inches", "in", 0.0254},
                 {"in", "in", 0.0254},
                 {"\"", "in", 0.0254},
                 {"cm", "cm", 0.01},
                 {"mm", "mm", 0.001}};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strncmp(text, units[i].word, strlen(units[i].word)) == 0) {
            *length = units[i].length;
            *taken = strlen(units[i].word);
            return units[i].unit;
        }
    }
    *taken = 0;
    *length = us_units ? 0.0254 : 0.01;
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
    double side[3], length;
    size_t taken;
    const char *end = text;
    memset(tank, 0, sizeof *tank);
    for (int i = 0; i < 3; i++) {
        const char *start = skip(end);
        if (tc_number_read(start, &end, &side[i]) != TC_OK || side[i] <= 0 || end - start > 8)
            return refuse(problem, form);
        snprintf(tank->size[i], sizeof tank->size[i], "%.*s", (int)(end - start), start);
    }
    end += strspn(end, " ");
    const char *unit = unit_at(end, us_units, &length, &taken);
    end += taken;
    snprintf(tank->name, sizeof tank->name, "%sx%sx%s", tank->size[0], tank->size[1], tank->size[2]);
    for (int i = 0; i < 3; i++) {
        snprintf(tank->size[i] + strlen(tank->size[i]), sizeof tank->size[i] - strlen(tank->size[i]), " %s",
                 unit);
        tank->side[i] = side[i] * length;
    }
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

/* Adds a key that the table wants and nobody can measure in a shop; one with a default is left to that. */
static void add_guess(const struct tc_key_table *table, const char *key, const char *value,
                      struct tc_section_line *lines, size_t *count)
{
    const struct tc_key *form_of_key = tc_key_find(table, key);
    if (form_of_key && !form_of_key->fallback)
        lines[(*count)++] = (struct tc_section_line){key, value};
}

/*
 * The thickness of glass that tanks of a height are mostly made of, mm: common
 * practice, no source. The taller, the thicker; long ones are braced.
 */
static int usual_glass(double height)
{
    static const struct {
        double height;
        int glass;
    } table[] = {{0.32, 5}, {0.42, 6}, {0.52, 8}, {0.62, 10}, {0.72, 12}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        if (height <= table[i].height)
            return table[i].glass;
    return 15;
}

static bool write_tank(struct tc_state *state, const struct tc_new_tank *tank)
{
    char head[TC_SECTION_HEAD_SIZE], nominal[32], glass[16];
    const struct tc_key_table *table = tc_key_table_find("tank");
    struct tc_section_line lines[6];
    size_t count = 0;
    snprintf(head, sizeof head, "tank %s", tank->name);
    if (tc_section_of(state, head))
        return true; /* it is there: the same size has the same name */
    lines[count++] = (struct tc_section_line){"length", tank->size[0]};
    lines[count++] = (struct tc_section_line){"width", tank->size[1]};
    lines[count++] = (struct tc_section_line){"height", tank->size[2]};
    snprintf(nominal, sizeof nominal, "%.0f L", tank->side[0] * tank->side[1] * tank->side[2] * 1000);
    snprintf(glass, sizeof glass, "%d mm", usual_glass(tank->side[2]));
    add_guess(table, "nominal", nominal, lines, &count);
    add_guess(table, "glass", glass, lines, &count);
    return tc_section_write(state, head, lines, count);
}

/* Into the plan, with its price. */
static bool add_to_plan(struct tc_state *state, const struct tc_new_tank *tank)
{
    struct tc_plan plan;
    char path[48];
    memcpy(&plan, &state->now.plan, sizeof plan);
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
