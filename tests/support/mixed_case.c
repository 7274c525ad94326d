/* SPDX-License-Identifier: MIT */
#include "support/mixed_case.h"

#include <stdbool.h>

#include "support/draw.h"

enum { TIERS = 3, BAYS = 24 };

static int between(struct tc_random *random, int low, int high)
{
    return low + draw_below(random, high - low + 1);
}

void mixed_case_draw(struct wall_case *c, uint64_t seed, enum tc_wall_objective aim)
{
    wall_case_draw_small(c, seed, 3, aim);
    struct tc_random random = draw_from(seed + 77);
    c->length = between(&random, 60, 200) * 10;
    c->height = between(&random, 80, 180) * 10;
    c->bay_length = draw_below(&random, 6) == 0 ? 0 : between(&random, 50, 150) * 10;
    c->tiers = between(&random, 1, TIERS);
    for (int i = 0; i < c->models; i++) /* so that a handful of bays is all there can be */
        c->model[i].width = between(&random, 30, 50) * 10;
    if (draw_below(&random, 3) == 0) {
        c->more_stretches = 1;
        c->length = between(&random, 60, 110) * 10;
        c->more_length[0] = between(&random, 50, 110) * 10;
        c->more_height[0] = between(&random, 60, 180) * 10;
        c->more_depth[0] = between(&random, 40, 120) * 10;
    }
    if (c->power_limit > 0 && draw_below(&random, 3) == 0) {
        c->power_limit = between(&random, 30, 300);
        c->more_circuits = 1;
        c->more_power[0] = between(&random, 30, 300);
    }
}

/* One way to place a model. */
struct way {
    int model, width, height, depth;
};

struct mixed {
    const struct wall_case *c;
    struct way way[2 * WALL_CASE_MODELS];
    int ways;
    int bays[2], stretches, circuits;
    FILE *to;
};

static void list_ways(struct mixed *m)
{
    for (int i = 0; i < m->c->models; i++) {
        const struct wall_case_model *model = &m->c->model[i];
        m->way[m->ways++] = (struct way){i, model->length, model->height, model->width};
        if (model->width != model->length)
            m->way[m->ways++] = (struct way){i, model->width, model->height, model->length};
    }
}

static int length_of(const struct mixed *m, int s)
{
    return s == 0 ? m->c->length : m->c->more_length[s - 1];
}

static int height_of(const struct mixed *m, int s)
{
    return s == 0 ? m->c->height : m->c->more_height[s - 1];
}

static bool may_stand(const struct mixed *m, int s, const struct way *w)
{
    const struct wall_case *c = m->c;
    int depth = s == 0 ? c->depth : c->more_depth[s - 1];
    int around = c->post > 0 ? 2 * c->gap : 0;
    return w->depth <= depth && (c->reach == 0 || w->depth <= c->reach) &&
           (c->bay_length == 0 || w->width + around <= c->bay_length) &&
           w->width + around + 2 * (c->post > 0 ? c->post : 0) <= length_of(m, s);
}

/* No more bays than of the narrowest tank. */
static void count_bays(struct mixed *m)
{
    const struct wall_case *c = m->c;
    m->stretches = 1 + c->more_stretches;
    m->circuits = 1 + c->more_circuits;
    for (int s = 0; s < m->stretches; s++) {
        int narrowest = 100000;
        for (int w = 0; w < m->ways; w++)
            if (may_stand(m, s, &m->way[w]) && m->way[w].width < narrowest)
                narrowest = m->way[w].width;
        m->bays[s] = (length_of(m, s) + c->gap) / (narrowest + c->gap + c->post);
        m->bays[s] = m->bays[s] < BAYS ? m->bays[s] : BAYS;
    }
}

/* The worth of one tank, and of a bay and a tier. */
static int64_t of_tank(const struct mixed *m, const struct wall_case_worth *w, int model)
{
    const struct wall_case_model *t = &m->c->model[model];
    return w->tanks + w->area * t->area + w->volume * t->volume + w->cost * t->price[m->c->goal.money];
}

#define FOR_BAYS(m, s, b)                                                                                    \
    for (int s = 0; s < (m)->stretches; s++)                                                                 \
        for (int b = 0; b < (m)->bays[s]; b++)

/* Writes factor times each thing that counts; with numbers where worths are asked. */
static int write_sum(const struct mixed *m, const struct wall_case_worth *w, int64_t *worths)
{
    int count = 0;
    FILE *to = m->to;
    FOR_BAYS(m, s, b)
    {
        for (int t = 0; t < m->c->tiers; t++) {
            for (int k = 0; k < m->ways; k++) {
                int64_t worth = of_tank(m, w, m->way[k].model);
                if (worths)
                    worths[count] = worth;
                count++;
                if (to)
                    fprintf(to, " %+lld x%d_%d_%d_%d\n", (long long)worth, s, b, t, k);
            }
            int64_t tier = w->cost * m->c->tier_price;
            if (worths)
                worths[count] = tier;
            count++;
            if (to)
                fprintf(to, " %+lld z%d_%d_%d\n", (long long)tier, s, b, t);
        }
        int64_t bay = w->cost * m->c->bay_price;
        if (worths)
            worths[count] = bay;
        count++;
        if (to)
            fprintf(to, " %+lld u%d_%d\n", (long long)bay, s, b);
    }
    for (int i = 0; i < m->c->models; i++) {
        const struct wall_case_model *t = &m->c->model[i];
        int money = (int)m->c->goal.money;
        int64_t off = t->sale_most > 0 ? w->cost * (t->sale_price[money] - t->price[money]) : 0;
        if (worths)
            worths[count] = off;
        count++;
        if (to)
            fprintf(to, " %+lld s%d\n", (long long)off, i);
    }
    return count;
}

/* A tier: its height, its rating, what it presses, whether it is there. */
static void write_tier(const struct mixed *m, int s, int b, int t)
{
    const struct wall_case *c = m->c;
    FILE *to = m->to;
    fprintf(to, " w_%d_%d_%d: - W%d_%d", s, b, t, s, b);
    for (int k = 0; k < m->ways; k++)
        fprintf(to, " + %d x%d_%d_%d_%d", m->way[k].width + c->gap, s, b, t, k);
    fputs(" <= 0\n", to);
    if (c->tier_rating > 0) {
        fprintf(to, " r_%d_%d_%d:", s, b, t);
        for (int k = 0; k < m->ways; k++)
            fprintf(to, " + %d x%d_%d_%d_%d", c->model[m->way[k].model].mass, s, b, t, k);
        fprintf(to, " <= %d\n", c->tier_rating);
    }
    if (c->bay_length == 0) {
        fprintf(to, " one_%d_%d_%d:", s, b, t);
        for (int k = 0; k < m->ways; k++)
            fprintf(to, " + x%d_%d_%d_%d", s, b, t, k);
        fputs(" <= 1\n", to);
    }
    for (int k = 0; k < m->ways; k++) {
        const struct way *w = &m->way[k];
        int most = may_stand(m, s, w) ? 12 : 0;
        fprintf(to, " y_%d_%d_%d_%d: x%d_%d_%d_%d - %d y%d_%d_%d_%d <= 0\n", s, b, t, k, s, b, t, k, most, s,
                b, t, k);
        fprintf(to, " h_%d_%d_%d_%d: h%d_%d_%d - %d y%d_%d_%d_%d >= 0\n", s, b, t, k, s, b, t, w->height, s,
                b, t, k);
        fprintf(to, " z_%d_%d_%d_%d: y%d_%d_%d_%d - z%d_%d_%d <= 0\n", s, b, t, k, s, b, t, k, s, b, t);
        if (c->floor_limit > 0) /* kg on a m2, in parts of a thousandth */
            fprintf(to, " p_%d_%d_%d_%d: p%d_%d_%d - %.9f y%d_%d_%d_%d >= 0\n", s, b, t, k, s, b, t,
                    c->model[w->model].mass * 1e6 / ((double)w->width * (w->depth + c->floor_spread)), s, b,
                    t, k);
    }
    fprintf(to, " u_%d_%d_%d: z%d_%d_%d - u%d_%d <= 0\n", s, b, t, s, b, t, s, b);
}

/* A bay: what it is long and high and bears, and the circuit it is on. */
static void write_bay(const struct mixed *m, int s, int b)
{
    const struct wall_case *c = m->c;
    FILE *to = m->to;
    for (int t = 0; t < c->tiers; t++)
        write_tier(m, s, b, t);
    fprintf(to, " H_%d_%d:", s, b);
    for (int t = 0; t < c->tiers; t++)
        fprintf(to, " + h%d_%d_%d + %d z%d_%d_%d", s, b, t, c->access + c->shelf, s, b, t);
    fprintf(to, " <= %d\n", height_of(m, s) - c->lowest + c->shelf);
    if (c->bay_rating > 0) {
        fprintf(to, " R_%d_%d:", s, b);
        for (int t = 0; t < c->tiers; t++)
            for (int k = 0; k < m->ways; k++)
                fprintf(to, " + %d x%d_%d_%d_%d", c->model[m->way[k].model].mass, s, b, t, k);
        fprintf(to, " <= %d\n", c->bay_rating);
    }
    if (c->floor_limit > 0) {
        fprintf(to, " P_%d_%d:", s, b);
        for (int t = 0; t < c->tiers; t++)
            fprintf(to, " + p%d_%d_%d", s, b, t);
        fprintf(to, " <= %d.00001\n", c->floor_limit);
    }
    if (c->power_limit == 0)
        return;
    fprintf(to, " C_%d_%d: - u%d_%d", s, b, s, b);
    for (int e = 0; e < m->circuits; e++)
        fprintf(to, " + c%d_%d_%d", s, b, e);
    fputs(" >= 0\n", to);
    for (int e = 0; e < m->circuits; e++) {
        fprintf(to, " Q_%d_%d_%d: q%d_%d_%d - 4000 c%d_%d_%d", s, b, e, s, b, e, s, b, e);
        for (int t = 0; t < c->tiers; t++)
            for (int k = 0; k < m->ways; k++)
                fprintf(to, " - %d x%d_%d_%d_%d", c->model[m->way[k].model].power, s, b, t, k);
        fputs(" >= -4000\n", to);
    }
}

static void write_stretch(const struct mixed *m, int s)
{
    const struct wall_case *c = m->c;
    int own = c->post > 0 ? c->gap + c->post : 0;
    fprintf(m->to, " L%d: 0 nothing", s);
    for (int b = 0; b < m->bays[s]; b++)
        fprintf(m->to, " + W%d_%d + %d u%d_%d", s, b, own, s, b);
    /* With uprights one stands at each end; without, the last bay is followed by no gap. */
    fprintf(m->to, " <= %d\n", length_of(m, s) + (c->post > 0 ? -c->post : c->gap));
    for (int b = 0; b < m->bays[s]; b++) {
        write_bay(m, s, b);
        if (b > 0) /* bays are alike: the longer ones first */
            fprintf(m->to, " O%d_%d: W%d_%d - W%d_%d >= 0\n", s, b, s, b - 1, s, b);
    }
}

static void write_models(const struct mixed *m)
{
    for (int i = 0; i < m->c->models; i++) {
        const struct wall_case_model *t = &m->c->model[i];
        for (int row = 0; row < 3; row++) {
            if ((row == 0 && t->least == 0) || (row == 1 && t->most < 0))
                continue;
            fprintf(m->to, row == 2 ? " n%d_%d: - s%d" : " n%d_%d: 0 nothing", row, i, i);
            FOR_BAYS(m, s, b)
            for (int k = 0; k < m->c->tiers * m->ways; k++)
                if (m->way[k % m->ways].model == i)
                    fprintf(m->to, " + x%d_%d_%d_%d", s, b, k / m->ways, k % m->ways);
            if (row == 1)
                fprintf(m->to, " <= %d\n", t->most);
            else
                fprintf(m->to, " >= %d\n", row == 0 ? t->least : 0);
        }
    }
}

static void write_bounds(const struct mixed *m)
{
    const struct wall_case *c = m->c;
    FILE *to = m->to;
    fputs("Bounds\n nothing <= 0\n", to);
    for (int i = 0; i < c->models; i++)
        fprintf(to, " s%d <= %d\n", i, c->model[i].sale_most);
    int own = c->post > 0 ? -c->gap : c->gap;
    FOR_BAYS(m, s, b)
    if (c->bay_length > 0)
        fprintf(to, " W%d_%d <= %d\n", s, b, c->bay_length + own);
    fputs("General\n", to);
    for (int i = 0; i < c->models; i++)
        fprintf(to, " s%d\n", i);
    FOR_BAYS(m, s, b)
    for (int k = 0; k < c->tiers * m->ways; k++)
        fprintf(to, " x%d_%d_%d_%d\n", s, b, k / m->ways, k % m->ways);
    fputs("Binary\n", to);
    FOR_BAYS(m, s, b)
    {
        fprintf(to, " u%d_%d\n", s, b);
        for (int e = 0; c->power_limit > 0 && e < m->circuits; e++)
            fprintf(to, " c%d_%d_%d\n", s, b, e);
        for (int t = 0; t < c->tiers; t++) {
            fprintf(to, " z%d_%d_%d\n", s, b, t);
            for (int k = 0; k < m->ways; k++)
                fprintf(to, " y%d_%d_%d_%d\n", s, b, t, k);
        }
    }
    fputs("End\n", to);
}

static void write_budget(const struct mixed *m)
{
    const struct wall_case *c = m->c;
    int kind = (int)c->budget_kind;
    fputs(" budget: 0 nothing", m->to);
    FOR_BAYS(m, s, b)
    {
        for (int t = 0; t < c->tiers; t++) {
            fprintf(m->to, " + %d z%d_%d_%d", c->tier_price, s, b, t);
            for (int k = 0; k < m->ways; k++)
                fprintf(m->to, " + %d x%d_%d_%d_%d", c->model[m->way[k].model].price[kind], s, b, t, k);
        }
        fprintf(m->to, " + %d u%d_%d", c->bay_price, s, b);
    }
    for (int i = 0; i < c->models; i++)
        if (c->model[i].sale_most > 0)
            fprintf(m->to, " - %d s%d", c->model[i].price[kind] - c->model[i].sale_price[kind], i);
    fprintf(m->to, " <= %d\n", c->budget);
}

int mixed_case_write(const struct wall_case *c, const struct wall_case_worth *worth,
                     const struct wall_case_worth *also, int64_t at_least, int64_t *worths, FILE *to)
{
    struct mixed m = {.c = c, .to = to};
    list_ways(&m);
    count_bays(&m);
    if (to)
        fputs("Maximize\n worth:\n", to);
    int count = write_sum(&m, worth, worths);
    if (!to)
        return count;
    fputs("Subject To\n", to);
    for (int s = 0; s < m.stretches; s++)
        if (m.bays[s] > 0)
            write_stretch(&m, s);
    if (c->budget > 0)
        write_budget(&m);
    for (int e = 0; c->power_limit > 0 && e < m.circuits; e++) {
        fprintf(to, " power%d: 0 nothing", e);
        FOR_BAYS(&m, s, b)
        fprintf(to, " + q%d_%d_%d", s, b, e);
        fprintf(to, " <= %d\n", e == 0 ? c->power_limit : c->more_power[e - 1]);
    }
    int wanted = c->goal.aim == TC_WALL_WATER_PER_MONEY && c->goal.wanted < 1 ? 1 : c->goal.wanted;
    if (wanted > 0) {
        fputs(" wanted:\n", to);
        write_sum(&m, &(struct wall_case_worth){.tanks = 1}, NULL);
        fprintf(to, " >= %d\n", wanted);
    }
    write_models(&m);
    if (also) {
        fputs(" also:\n", to);
        write_sum(&m, also, NULL);
        fprintf(to, " >= %lld\n", (long long)at_least);
    }
    write_bounds(&m);
    return count;
}
