/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_master.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/wall/wall_stack.h"

enum { ROUNDS_MAX = 400, STEPS_A_ROUND = 200000 };

/* A bay that gains less than this share of all that is added up is not worth a column. */
#define WORTH_A_COLUMN 1e-11

static int add_row(struct tc_wall_master *m, int64_t limit)
{
    m->limit[m->rows] = limit;
    return m->rows++;
}

static bool on_sale(const struct tc_wall_model *model)
{
    return model->sale_most > 0 &&
           (model->sale_price[0] < model->price[0] || model->sale_price[1] < model->price[1]);
}

static void add_model_rows(struct tc_wall_master *m)
{
    for (int i = 0; i < m->count; i++) {
        const struct tc_wall_model *model = &m->models[i];
        m->least[i] = m->most[i] = m->sale[i] = m->sale_most[i] = -1;
        if (model->least > 0)
            m->least[i] = add_row(m, -model->least);
        if (model->most > 0)
            m->most[i] = add_row(m, model->most);
        if (!on_sale(model))
            continue;
        m->sale[i] = add_row(m, 0);
        m->sale_most[i] = add_row(m, model->sale_most);
        m->sale_model[m->sales++] = i;
    }
}

/* The sales are the first columns. */
static enum tc_status open_program(struct tc_wall_master *m)
{
    double limits[TC_SIMPLEX_ROWS_MAX];
    double uses[TC_SIMPLEX_ROWS_MAX];
    int64_t figure[TC_WALL_QUANTITIES];
    if (m->rows > TC_SIMPLEX_ROWS_MAX)
        return TC_RANGE;
    for (int r = 0; r < m->rows; r++)
        limits[r] = (double)m->limit[r];
    enum tc_status status = tc_simplex_create(m->rows, limits, &m->program);
    for (int k = 0; status == TC_OK && k < m->sales; k++) {
        memset(uses, 0, sizeof uses);
        tc_wall_master_rebate(m, m->sale_model[k], figure);
        for (int r = 0; r < m->limit_count; r++)
            uses[r] = (double)tc_wall_line_value(&m->limits[r].line, figure);
        uses[m->sale[m->sale_model[k]]] = uses[m->sale_most[m->sale_model[k]]] = 1;
        status = tc_simplex_add(m->program, (double)tc_wall_line_value(&m->goal, figure), uses);
    }
    return status;
}

enum tc_status tc_wall_master_make(struct tc_wall_master *m, const struct tc_wall *wall,
                                   const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goal)
{
    *m = (struct tc_wall_master){.wall = wall,
                                 .models = models,
                                 .count = count,
                                 .limits = limits,
                                 .limit_count = limit_count,
                                 .goal = *goal,
                                 .stretches = 1 + wall->more_stretches,
                                 .circuits = wall->power_limit > 0 ? 1 + wall->more_circuits : 1};
    size_t n = (size_t)count + 1;
    size_t rows = (size_t)limit_count + 4 * n;
    m->frame = calloc((size_t)m->stretches, sizeof *m->frame);
    m->tank = calloc(n, sizeof *m->tank);
    m->least = calloc(n, sizeof *m->least);
    m->most = calloc(n, sizeof *m->most);
    m->sale = calloc(n, sizeof *m->sale);
    m->sale_most = calloc(n, sizeof *m->sale_most);
    m->sale_model = calloc(n, sizeof *m->sale_model);
    m->limit = calloc(rows, sizeof *m->limit);
    m->multiplier = calloc(rows, sizeof *m->multiplier);
    if (!m->frame || !m->tank || !m->least || !m->most || !m->sale || !m->sale_most || !m->sale_model ||
        !m->limit || !m->multiplier)
        return TC_NO_MEMORY;
    for (int s = 0; s < m->stretches; s++)
        tc_wall_frame_make(wall, s, models, count, &m->frame[s]);
    for (int i = 0; i < count; i++)
        tc_wall_tank_figures(&models[i], m->tank[i]);
    for (int r = 0; r < limit_count; r++)
        add_row(m, limits[r].limit);
    add_model_rows(m);
    return open_program(m);
}

void tc_wall_master_free(struct tc_wall_master *m)
{
    free(m->frame);
    free(m->tank);
    free(m->least);
    free(m->most);
    free(m->sale);
    free(m->sale_most);
    free(m->sale_model);
    free(m->limit);
    free(m->multiplier);
    tc_simplex_free(m->program);
    tc_wall_patterns_free(&m->patterns);
    *m = (struct tc_wall_master){0};
}

void tc_wall_master_figures(const struct tc_wall_master *m, int pattern, int circuit, int64_t *figure,
                            int *tanks)
{
    const struct tc_wall_pattern *p = &m->patterns.pattern[pattern];
    const struct tc_wall_spot *spot = &m->patterns.spot[p->first];
    tc_money rack = m->wall->bay_price + p->tiers * m->wall->tier_price;
    memset(figure, 0, TC_WALL_QUANTITIES * sizeof *figure);
    for (int i = 0; tanks && i < m->count; i++)
        tanks[i] = 0;
    for (int k = 0; k < p->tanks; k++) {
        int model = m->frame[p->frame].piece[spot[k].piece].model;
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            figure[f] += m->tank[model][f];
        if (tanks)
            tanks[model]++;
    }
    int64_t power = figure[TC_WALL_POWER];
    figure[TC_WALL_POWER] = 0;
    figure[TC_WALL_POWER + circuit] = power;
    figure[TC_WALL_LENGTH + p->frame] = p->length;
    figure[TC_WALL_COST] += rack;
    figure[TC_WALL_COST_OVER_PERIOD] += rack;
    figure[TC_WALL_BAYS] = 1;
}

void tc_wall_master_rebate(const struct tc_wall_master *m, int model, int64_t *figure)
{
    memset(figure, 0, TC_WALL_QUANTITIES * sizeof *figure);
    for (int k = 0; k < 2; k++)
        figure[TC_WALL_COST + k] = m->models[model].sale_price[k] - m->models[model].price[k];
}

void tc_wall_master_uses(const struct tc_wall_master *m, int pattern, int circuit, int64_t *figure,
                         int *tanks, int64_t *uses)
{
    tc_wall_master_figures(m, pattern, circuit, figure, tanks);
    for (int r = 0; r < m->limit_count; r++)
        uses[r] = tc_wall_line_value(&m->limits[r].line, figure);
    for (int i = 0; i < m->count; i++) {
        if (m->least[i] >= 0)
            uses[m->least[i]] = -tanks[i];
        if (m->most[i] >= 0)
            uses[m->most[i]] = tanks[i];
        if (m->sale[i] >= 0)
            uses[m->sale[i]] = -tanks[i];
    }
}

enum tc_status tc_wall_master_add(struct tc_wall_master *m)
{
    double column[TC_SIMPLEX_ROWS_MAX];
    int64_t figure[TC_WALL_QUANTITIES];
    int tanks[TC_WALL_MODELS_MAX];
    enum tc_status status = TC_OK;
    for (int c = 0; status == TC_OK && c < m->circuits; c++) {
        int64_t uses[TC_SIMPLEX_ROWS_MAX] = {0};
        tc_wall_master_uses(m, m->patterns.count - 1, c, figure, tanks, uses);
        for (int r = 0; r < TC_SIMPLEX_ROWS_MAX; r++)
            column[r] = (double)uses[r];
        status = tc_simplex_add(m->program, (double)tc_wall_line_value(&m->goal, figure), column);
    }
    return status;
}

/* Whether a line limits nothing but the length of one stretch. */
static bool of_length_alone(const struct tc_wall_line *line)
{
    int others = 0;
    int lengths = 0;
    for (int f = 0; f < TC_WALL_QUANTITIES; f++) {
        bool length = f >= TC_WALL_LENGTH && f < TC_WALL_POWER;
        others += line->factor[f] != 0 && !(length && line->factor[f] == 1);
        lengths += length && line->factor[f] == 1;
    }
    return others == 0 && lengths == 1;
}

/* What one of each figure is worth at the multipliers. */
static void find_rates(const struct tc_wall_master *m, bool length, double *rate)
{
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        rate[f] = m->feasible ? (double)m->goal.factor[f] : 0;
    for (int r = 0; r < m->limit_count; r++) {
        if (m->multiplier[r] <= 0 || (!length && of_length_alone(&m->limits[r].line)))
            continue;
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            rate[f] -= m->multiplier[r] * (double)m->limits[r].line.factor[f];
    }
}

static double worth(const struct tc_wall_master *m, int row)
{
    return row >= 0 ? m->multiplier[row] : 0;
}

void tc_wall_master_prices(const struct tc_wall_master *m, int stretch, int circuit, bool length,
                           struct tc_wall_prices *prices, double *each)
{
    double rate[TC_WALL_QUANTITIES];
    find_rates(m, length, rate);
    double power = rate[TC_WALL_POWER + circuit];
    double money = rate[TC_WALL_COST] + rate[TC_WALL_COST_OVER_PERIOD];
    for (int i = 0; i < m->count; i++) {
        double value = worth(m, m->least[i]) - worth(m, m->most[i]) + worth(m, m->sale[i]);
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            value += (f == TC_WALL_POWER ? power : rate[f]) * (double)m->tank[i][f];
        prices->tank[i] = value;
    }
    prices->tier = -money * (double)m->wall->tier_price;
    prices->bay = -money * (double)m->wall->bay_price - rate[TC_WALL_BAYS];
    *each = -rate[TC_WALL_LENGTH + stretch];
}

double tc_wall_master_base(const struct tc_wall_master *m)
{
    double rate[TC_WALL_QUANTITIES];
    double sum = 0;
    find_rates(m, false, rate);
    for (int r = 0; r < m->rows; r++) {
        bool left_out = r < m->limit_count && of_length_alone(&m->limits[r].line);
        for (int i = 0; !left_out && i < m->count; i++)
            left_out = r == m->sale_most[i];
        if (!left_out)
            sum += m->multiplier[r] * (double)m->limit[r];
    }
    for (int k = 0; k < m->sales; k++) {
        int i = m->sale_model[k];
        int64_t figure[TC_WALL_QUANTITIES];
        tc_wall_master_rebate(m, i, figure);
        double value = -worth(m, m->sale[i]);
        for (int f = TC_WALL_COST; f <= TC_WALL_COST_OVER_PERIOD; f++)
            value += rate[f] * (double)figure[f];
        sum += fmax(value, 0) * m->models[i].sale_most;
    }
    return sum;
}

/* A bay has to be worth the length it takes. */
struct plain_need {
    double each, least;
};

static double plain_need(const void *context, int64_t length)
{
    const struct plain_need *need = context;
    return need->each * (double)length + need->least;
}

/* Adds bays of one stretch that gain on a circuit. */
static enum tc_status add_gaining(struct tc_wall_master *m, int stretch, int circuit,
                                  struct tc_wall_rows *rows)
{
    struct tc_wall_prices prices;
    struct plain_need need = {0, WORTH_A_COLUMN * m->size};
    bool whole;
    tc_wall_master_prices(m, stretch, circuit, true, &prices, &need.each);
    enum tc_status status = tc_wall_rows_best(&m->frame[stretch], &prices, rows, &whole);
    struct tc_wall_stacking stacking = {.frame = &m->frame[stretch],
                                        .prices = &prices,
                                        .rows = rows,
                                        .need = plain_need,
                                        .context = &need,
                                        .seek = TC_WALL_SEEK_BEST,
                                        .number = stretch,
                                        .steps = STEPS_A_ROUND};
    struct tc_wall_patterns found = {0};
    if (status == TC_OK)
        status = tc_wall_stack(&stacking, &found);
    m->whole = m->whole && whole && stacking.steps >= 0;
    m->steps += STEPS_A_ROUND - stacking.steps;
    /* The last of them are the best. */
    for (int k = found.count > 4 ? found.count - 4 : 0; status == TC_OK && k < found.count; k++) {
        const struct tc_wall_pattern *from = &found.pattern[k];
        struct tc_wall_pattern *to = tc_wall_patterns_add(&m->patterns, from->tanks);
        if (!to) {
            status = TC_NO_MEMORY;
            break;
        }
        int first = to->first;
        *to = *from;
        to->first = first;
        memcpy(&m->patterns.spot[first], &found.spot[from->first], (size_t)from->tanks * sizeof *found.spot);
        status = tc_wall_master_add(m);
    }
    tc_wall_patterns_free(&found);
    return status;
}

void tc_wall_master_measure(struct tc_wall_master *m)
{
    m->size = 1;
    for (int r = 0; r < m->rows; r++)
        m->size += fabs(m->multiplier[r] * (double)m->limit[r]);
}

enum tc_status tc_wall_master_solve(struct tc_wall_master *m, const struct tc_knapsack_effort *effort)
{
    struct tc_wall_rows rows = {0};
    enum tc_status status = TC_OK;
    bool more = true;
    for (int round = 0; status == TC_OK && more && round < ROUNDS_MAX; round++) {
        int before = m->patterns.count;
        bool was = m->feasible;
        m->feasible = tc_simplex_solve(m->program, m->multiplier);
        m->whole = true;
        tc_wall_master_measure(m);
        for (int s = 0; status == TC_OK && s < m->stretches; s++)
            for (int c = 0; status == TC_OK && c < m->circuits; c++)
                status = add_gaining(m, s, c, &rows);
        more = m->patterns.count > before || was != m->feasible;
        if (status == TC_OK && effort && effort->go_on && !effort->go_on(effort->context, 0))
            status = TC_STOPPED;
    }
    if (status == TC_OK && more)
        m->whole = false; /* the rounds did not suffice */
    tc_wall_rows_free(&rows);
    return status;
}
