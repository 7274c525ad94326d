/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_knapsack.h"

#include <math.h>
#include <stdlib.h>

#define MILLIWATTS_PER_WATT   1e3
#define SQUARE_MM_PER_M2      1e6
#define MILLILITRES_PER_CUBIC 1e6
/* A thousandth of a milliwatt is not a power. */
#define POWER_TOLERANCE 1e-3

static int64_t power_units_up(double watts)
{
    return (int64_t)ceil(watts * MILLIWATTS_PER_WATT - POWER_TOLERANCE);
}

static int64_t power_units_down(double watts)
{
    return (int64_t)floor(watts * MILLIWATTS_PER_WATT + POWER_TOLERANCE);
}

/* No more tanks than stock, power and budget allow need looking at; how they stand is not known yet. */
static int most_tanks(const struct tc_wall *wall, const struct tc_wall_model *model)
{
    int most = model->most == TC_WALL_UNLIMITED ? TC_WALL_TANKS_MAX + 1 : model->most;
    int64_t each = power_units_up(model->power);
    if (wall->power_limit > 0 && each > 0 && power_units_down(wall->power_limit) / each < most)
        most = (int)(power_units_down(wall->power_limit) / each);
    if (wall->budget <= 0)
        return most;
    int least = 0; /* affordable for certain; the cost grows with the number */
    while (least < most) {
        int middle = least + (most - least + 1) / 2;
        enum tc_status status = TC_OK;
        tc_money cost = tc_wall_cost(model, middle, wall->budget_kind, &status);
        if (status == TC_OK && cost <= wall->budget)
            least = middle;
        else
            most = middle - 1;
    }
    return least;
}

void tc_wall_tank_figures(const struct tc_wall_model *model, int64_t *figure)
{
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        figure[f] = 0;
    figure[TC_WALL_TANKS] = 1;
    figure[TC_WALL_POWER] = power_units_up(model->power);
    figure[TC_WALL_COST] = model->price[0];
    figure[TC_WALL_COST_OVER_PERIOD] = model->price[1];
    figure[TC_WALL_AREA] = llround(model->area * SQUARE_MM_PER_M2);
    figure[TC_WALL_WATER] = llround(model->volume * MILLILITRES_PER_CUBIC);
}

static enum tc_status fill_choice(const struct tc_wall_model *model, const struct tc_wall_way *way,
                                  int64_t *figure)
{
    enum tc_status status = TC_OK;
    int64_t n = way->tanks;
    int64_t one[TC_WALL_QUANTITIES];
    tc_wall_tank_figures(model, one);
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        figure[f] = n * one[f];
    figure[TC_WALL_LENGTH] = way->length;
    figure[TC_WALL_BAYS] = way->bays;
    for (int k = 0; k < 2; k++) {
        tc_money tanks = tc_wall_cost(model, way->tanks, (enum tc_wall_money)k, &status);
        figure[TC_WALL_COST + k] = tc_money_add(tanks, way->price, &status);
    }
    return status;
}

/* Behind all choices, those of model i. */
static enum tc_status add_choices(struct tc_wall_knapsack *c, int i, const struct tc_wall_model *model)
{
    const struct tc_wall_ways *ways = &c->ways[i];
    c->first[i] = c->count;
    size_t capacity = (size_t)c->count + (size_t)ways->way_count;
    struct tc_wall_choice *choice = realloc(c->choice, capacity * sizeof *choice);
    if (!choice)
        return TC_NO_MEMORY;
    c->choice = choice;
    enum tc_status status = TC_OK;
    for (int w = 0; status == TC_OK && w < ways->way_count; w++) {
        if (ways->ways[w].tanks < model->least)
            continue;
        struct tc_wall_choice *added = &c->choice[c->count++];
        added->model = i;
        added->way = w;
        status = fill_choice(model, &ways->ways[w], added->figure);
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            c->most[f] = added->figure[f] > c->most[f] ? added->figure[f] : c->most[f];
    }
    c->first[i + 1] = c->count;
    return status;
}

enum tc_status tc_wall_knapsack_create(const struct tc_wall *wall, const struct tc_wall_model *models,
                                       int count, struct tc_wall_knapsack *choices)
{
    *choices = (struct tc_wall_knapsack){.models = count};
    if (count < 0 || count > TC_WALL_MODELS_MAX || tc_wall_check(wall) != TC_OK)
        return TC_RANGE;
    for (int i = 0; i < count; i++)
        if (tc_wall_check_model(&models[i]) != TC_OK)
            return TC_RANGE;
    choices->ways = calloc((size_t)count + 1, sizeof *choices->ways);
    choices->first = calloc((size_t)count + 1, sizeof *choices->first);
    enum tc_status status = choices->ways && choices->first ? TC_OK : TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && i < count; i++) {
        status = tc_wall_ways_create(wall, &models[i], most_tanks(wall, &models[i]), &choices->ways[i]);
        if (status == TC_OK)
            status = add_choices(choices, i, &models[i]);
    }
    if (status != TC_OK)
        tc_wall_knapsack_free(choices);
    return status;
}

void tc_wall_knapsack_free(struct tc_wall_knapsack *choices)
{
    for (int i = 0; choices->ways && i < choices->models; i++)
        tc_wall_ways_free(&choices->ways[i]);
    free(choices->ways);
    free(choices->choice);
    free(choices->first);
    *choices = (struct tc_wall_knapsack){0};
}

int tc_wall_knapsack_limits(const struct tc_wall *wall, struct tc_wall_limit_line *limits)
{
    int count = 0;
    for (int s = 0; s <= wall->more_stretches; s++) {
        struct tc_wall stretch = tc_wall_of_stretch(wall, s);
        limits[count] = (struct tc_wall_limit_line){.limit = tc_wall_length_units(&stretch)};
        limits[count++].line.factor[TC_WALL_LENGTH + s] = 1;
    }
    for (int c = 0; wall->power_limit > 0 && c <= wall->more_circuits; c++) {
        double power = c == 0 ? wall->power_limit : wall->more_power[c - 1];
        limits[count] = (struct tc_wall_limit_line){.limit = power_units_down(power)};
        limits[count++].line.factor[TC_WALL_POWER + c] = 1;
    }
    if (wall->budget > 0) {
        limits[count] = (struct tc_wall_limit_line){.limit = wall->budget};
        limits[count++].line.factor[TC_WALL_COST + (int)wall->budget_kind] = 1;
    }
    return count;
}

/* Whether a line stays within what the packing can hold, for every choice. */
static bool line_fits(const struct tc_wall_knapsack *c, const struct tc_wall_line *line)
{
    for (int f = 0; f < TC_WALL_QUANTITIES; f++) {
        int64_t size = line->factor[f] < 0 ? -line->factor[f] : line->factor[f];
        if (size > 0 && c->most[f] > TC_KNAPSACK_FIGURE_MAX / TC_WALL_QUANTITIES / size)
            return false;
    }
    return true;
}

int64_t tc_wall_line_value(const struct tc_wall_line *line, const int64_t *figure)
{
    int64_t sum = 0;
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        sum += line->factor[f] * figure[f];
    return sum;
}

static enum tc_status fill_pack(const struct tc_wall_knapsack *c, const struct tc_wall_limit_line *limits,
                                int limit_count, const struct tc_wall_line *goals, int goal_count,
                                struct tc_knapsack *knapsack)
{
    bool fits = true;
    for (int g = 0; g < goal_count; g++)
        fits = fits && line_fits(c, &goals[g]);
    for (int r = 0; r < limit_count; r++)
        fits = fits && line_fits(c, &limits[r].line);
    if (!fits)
        return TC_OVERFLOW;
    for (int i = 0; i < c->models; i++) {
        enum tc_status status = tc_knapsack_class(knapsack);
        for (int k = c->first[i]; status == TC_OK && k < c->first[i + 1]; k++) {
            int64_t gains[TC_KNAPSACK_GOALS_MAX];
            int64_t uses[TC_KNAPSACK_ROWS_MAX];
            for (int g = 0; g < goal_count; g++)
                gains[g] = tc_wall_line_value(&goals[g], c->choice[k].figure);
            for (int r = 0; r < limit_count; r++)
                uses[r] = tc_wall_line_value(&limits[r].line, c->choice[k].figure);
            status = tc_knapsack_choice(knapsack, gains, uses);
        }
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

enum tc_status tc_wall_knapsack_solve(const struct tc_wall_knapsack *choices,
                                      const struct tc_wall_limit_line *limits, int limit_count,
                                      const struct tc_wall_line *goals, int goal_count,
                                      const struct tc_knapsack_effort *effort,
                                      struct tc_knapsack_answer *answer, int *picked)
{
    int64_t most[TC_KNAPSACK_ROWS_MAX];
    for (int r = 0; r < limit_count; r++)
        most[r] = limits[r].limit;
    struct tc_knapsack *knapsack;
    enum tc_status status = tc_knapsack_create(limit_count, most, goal_count, &knapsack);
    if (status != TC_OK)
        return status;
    status = fill_pack(choices, limits, limit_count, goals, goal_count, knapsack);
    if (status == TC_OK)
        status = tc_knapsack_solve(knapsack, effort, answer, picked);
    tc_knapsack_free(knapsack);
    for (int i = 0; status == TC_OK && i < choices->models; i++)
        picked[i] += choices->first[i];
    return status;
}
