/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_packing.h"

/* How often a pattern can stand at most. */
static int most_of(const struct tc_wall_master *m, const struct tc_wall_pattern *p, const int *tanks)
{
    int64_t most = m->frame[p->frame].length / p->length;
    for (int i = 0; i < m->count; i++)
        if (tanks[i] > 0 && m->models[i].most >= 0 && m->models[i].most / tanks[i] < most)
            most = m->models[i].most / tanks[i];
    return (int)most;
}

static enum tc_status open_packing(const struct tc_wall_master *m, struct tc_wall_packing *p)
{
    int64_t limit[TC_SIMPLEX_ROWS_MAX];
    *p = (struct tc_wall_packing){.rows = 0};
    for (int r = 0; r < m->rows; r++) {
        bool own = false;
        for (int i = 0; i < m->count; i++)
            own = own || r == m->sale_most[i];
        if (own)
            continue;
        limit[p->rows] = m->limit[r];
        p->row[p->rows++] = r;
    }
    return tc_knapsack_create(p->rows, limit, 1, &p->pack);
}

/* A class of 0 to `most` times the same. */
static enum tc_status add_class(struct tc_wall_packing *p, int64_t gain, const int64_t *uses, int most)
{
    int64_t times[TC_KNAPSACK_ROWS_MAX];
    enum tc_status status = tc_knapsack_class(p->pack);
    for (int n = 0; status == TC_OK && n <= most; n++) {
        int64_t all = gain * n;
        for (int r = 0; r < p->rows; r++)
            times[r] = uses[p->row[r]] * n;
        status = tc_knapsack_choice(p->pack, &all, times);
    }
    p->classes++;
    p->choices += most + 1;
    return status;
}

static enum tc_status add_sales(const struct tc_wall_master *m, struct tc_wall_packing *p)
{
    enum tc_status status = TC_OK;
    for (int k = 0; status == TC_OK && k < m->sales; k++) {
        int64_t figure[TC_WALL_QUANTITIES];
        int64_t uses[TC_SIMPLEX_ROWS_MAX] = {0};
        int model = m->sale_model[k];
        tc_wall_master_rebate(m, model, figure);
        for (int r = 0; r < m->limit_count; r++)
            uses[r] = tc_wall_line_value(&m->limits[r].line, figure);
        uses[m->sale[model]] = 1;
        status = add_class(p, tc_wall_line_value(&m->goal, figure), uses, m->models[model].sale_most);
    }
    return status;
}

static enum tc_status add_pattern(const struct tc_wall_master *m, struct tc_wall_packing *p, int pattern,
                                  int circuit)
{
    int64_t figure[TC_WALL_QUANTITIES];
    int64_t uses[TC_SIMPLEX_ROWS_MAX] = {0};
    int tanks[TC_WALL_MODELS_MAX];
    tc_wall_master_uses(m, pattern, circuit, figure, tanks, uses);
    return add_class(p, tc_wall_line_value(&m->goal, figure), uses,
                     most_of(m, &m->patterns.pattern[pattern], tanks));
}

enum tc_status tc_wall_packing_make(const struct tc_wall_master *m, struct tc_wall_packing *p)
{
    enum tc_status status = open_packing(m, p);
    if (status == TC_OK)
        status = add_sales(m, p);
    for (int k = 0; status == TC_OK && k < m->patterns.count; k++)
        for (int c = 0; status == TC_OK && c < m->circuits; c++)
            status = add_pattern(m, p, k, c);
    return status;
}
