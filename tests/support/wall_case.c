/* SPDX-License-Identifier: MIT */
#include "support/wall_case.h"

#include <stdbool.h>
#include <string.h>

#include "support/draw.h"

static int between(struct tc_random *random, int low, int high)
{
    return low + draw_below(random, high - low + 1);
}

/* 0, no limit, in one case of `often`; else a figure. */
static int maybe(struct tc_random *random, int often, int low, int high)
{
    int figure = between(random, low, high);
    return draw_below(random, often) == 0 ? 0 : figure;
}

static void draw_model(struct tc_random *random, struct wall_case_model *m)
{
    m->length = between(random, 30, 180) * 10;
    m->width = between(random, 20, 60) * 10;
    m->height = between(random, 20, 60) * 10;
    m->volume =
        1 + (int)((int64_t)m->length * m->width * m->height / 1000000 * between(random, 80, 95) / 100);
    m->area = m->length * m->width / 100;
    m->mass = m->volume * between(random, 110, 130) / 100 + 2;
    m->power = between(random, 5, 30) + m->volume / 4;
    m->price[TC_WALL_TO_BUY] = 20 + m->volume * between(random, 50, 200) / 100;
    m->price[TC_WALL_OVER_PERIOD] = m->price[TC_WALL_TO_BUY] + m->power * between(random, 2, 9);
    m->most = TC_WALL_UNLIMITED;
    if (draw_below(random, 3) == 0) {
        int percent = between(random, 30, 90);
        m->sale_most = between(random, 1, 4);
        int off = m->price[TC_WALL_TO_BUY] * (100 - percent) / 100;
        m->sale_price[TC_WALL_TO_BUY] = m->price[TC_WALL_TO_BUY] - off;
        m->sale_price[TC_WALL_OVER_PERIOD] = m->price[TC_WALL_OVER_PERIOD] - off;
    }
    if (draw_below(random, 3) == 0)
        m->most = between(random, 0, 8);
}

void wall_case_draw_small(struct wall_case *c, uint64_t seed, int models, enum tc_wall_objective aim)
{
    memset(c, 0, sizeof *c);
    struct tc_random random = draw_from(seed);
    c->length = between(&random, 100, 500) * 10;
    c->height = between(&random, 100, 240) * 10;
    c->depth = between(&random, 40, 120) * 10;
    c->lowest = between(&random, 0, 40) * 10;
    c->access = between(&random, 0, 35) * 10;
    c->shelf = between(&random, 0, 5) * 10;
    c->reach = maybe(&random, 2, 400, 1200);
    c->gap = between(&random, 0, 30);
    c->tiers = maybe(&random, 2, 1, 4);
    c->post = maybe(&random, 2, 20, 60);
    c->bay_length = maybe(&random, 2, 600, 2000);
    c->bay_price = maybe(&random, 3, 10, 90);
    c->tier_price = maybe(&random, 3, 5, 40);
    c->bay_rating = maybe(&random, 2, 200, 1500);
    c->tier_rating = maybe(&random, 2, 150, 600);
    c->floor_limit = maybe(&random, 2, 300, 1500);
    c->floor_spread = maybe(&random, 2, 50, 600);
    c->power_limit = maybe(&random, 3, 100, 1920);
    c->budget = maybe(&random, 3, 400, 4000);
    c->budget_kind = draw_below(&random, 2) ? TC_WALL_OVER_PERIOD : TC_WALL_TO_BUY;
    c->goal.aim = aim;
    c->goal.money = draw_below(&random, 2) ? TC_WALL_OVER_PERIOD : TC_WALL_TO_BUY;
    c->models = between(&random, 1, models);
    for (int i = 0; i < c->models; i++) {
        draw_model(&random, &c->model[i]);
        if (draw_below(&random, 12) == 0 && c->model[i].most != 0)
            c->model[i].least = 1;
    }
    bool wants = aim == TC_WALL_LEAST_COST || draw_below(&random, 3) == 0;
    c->goal.wanted = wants ? between(&random, 1, 6) : 0;
}

void wall_case_draw_room(struct wall_case *c, uint64_t seed, int models, int length,
                         enum tc_wall_objective aim)
{
    memset(c, 0, sizeof *c);
    struct tc_random random = draw_from(seed);
    c->length = length;
    c->height = 2100;
    c->depth = between(&random, 45, 80) * 10;
    c->lowest = 150;
    c->access = between(&random, 20, 30) * 10;
    c->shelf = 30;
    c->gap = 10;
    c->post = 40;
    c->bay_price = between(&random, 30, 60);
    c->tier_price = between(&random, 10, 25);
    c->bay_rating = 900;
    c->floor_limit = 1500;
    c->floor_spread = 600;
    c->power_limit = between(&random, 900, 1920) * length / 6000;
    c->budget = between(&random, 2500, 6000) * length / 6000;
    c->budget_kind = draw_below(&random, 2) ? TC_WALL_OVER_PERIOD : TC_WALL_TO_BUY;
    c->goal.aim = aim;
    c->goal.money = c->budget_kind;
    c->goal.wanted = aim == TC_WALL_LEAST_COST || aim == TC_WALL_WATER_PER_MONEY ? length / 800 : 0;
    c->models = models;
    for (int i = 0; i < models; i++)
        draw_model(&random, &c->model[i]);
}

void wall_case_in_si(const struct wall_case *c, struct tc_wall *wall, struct tc_wall_model *models)
{
    const double mm = 1e-3;
    *wall = (struct tc_wall){
        .length = c->length * mm,
        .height = c->height * mm,
        .depth = c->depth * mm,
        .lowest = c->lowest * mm,
        .access = c->access * mm,
        .shelf = c->shelf * mm,
        .reach = c->reach * mm,
        .gap = c->gap * mm,
        .tiers = c->tiers,
        .post = c->post * mm,
        .bay_length = c->bay_length * mm,
        .bay_price = c->bay_price,
        .tier_price = c->tier_price,
        .bay_rating = c->bay_rating,
        .tier_rating = c->tier_rating,
        .floor_limit = c->floor_limit * TC_WALL_GRAVITY,
        .floor_spread = c->floor_spread * mm,
        .power_limit = c->power_limit,
        .budget = c->budget,
        .budget_kind = c->budget_kind,
        .more_stretches = c->more_stretches,
        .more_circuits = c->more_circuits,
    };
    for (int i = 0; i < 3; i++) {
        wall->more[i] =
            (struct tc_wall_stretch){c->more_length[i] * mm, c->more_height[i] * mm, c->more_depth[i] * mm};
        wall->more_power[i] = c->more_power[i];
    }
    for (int i = 0; i < c->models; i++) {
        const struct wall_case_model *m = &c->model[i];
        models[i] = (struct tc_wall_model){
            .length = m->length * mm,
            .width = m->width * mm,
            .height = m->height * mm,
            .mass = m->mass,
            .area = m->area * 1e-4,
            .volume = m->volume * 1e-3,
            .power = m->power,
            .price = {m->price[0], m->price[1]},
            .sale_price = {m->sale_price[0], m->sale_price[1]},
            .sale_most = m->sale_most,
            .most = m->most,
            .least = m->least,
        };
    }
}

/* A variable of the integer program; its name is a letter and its number. */
struct variable {
    char letter; /* b: bays of a shape, t: tanks of a model, s: those on sale */
    int model;
    int holds;    /* a bay: tanks at most */
    int length;   /* a bay: mm of wall */
    int money[2]; /* adds to both costs */
    int64_t tanks, area, volume, power;
};

struct program {
    const struct wall_case *c;
    struct variable variable[WALL_CASE_VARIABLES];
    int count;
};

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Most tiers of a column, straight from the figures; 0 where it cannot stand so. */
static int tiers_of(const struct wall_case *c, const struct wall_case_model *m, int width, int depth)
{
    if (depth > c->depth || (c->reach > 0 && depth > c->reach))
        return 0;
    int tiers = 0;
    while (tiers < 20 && c->lowest + (tiers + 1) * (m->height + c->access) + tiers * c->shelf <= c->height)
        tiers++;
    if (c->tiers > 0)
        tiers = least(tiers, c->tiers);
    if (c->bay_rating > 0)
        tiers = least(tiers, c->bay_rating / m->mass);
    int64_t bears = (int64_t)c->floor_limit * width * (depth + c->floor_spread);
    while (c->floor_limit > 0 && tiers > 0 && (int64_t)tiers * m->mass * 1000000 > bears)
        tiers--;
    return tiers;
}

static void add_bays(struct program *p, int i, bool end_on)
{
    const struct wall_case *c = p->c;
    const struct wall_case_model *m = &c->model[i];
    int width = end_on ? m->width : m->length;
    int tiers = tiers_of(c, m, width, end_on ? m->length : m->width);
    for (int columns = 1; tiers > 0; columns++) {
        int clear = columns * width + (columns - 1) * c->gap + (c->post > 0 ? 2 * c->gap : 0);
        bool long_enough = c->bay_length > 0 ? clear <= c->bay_length : columns == 1;
        bool strong_enough = c->tier_rating == 0 || columns * m->mass <= c->tier_rating;
        if (!long_enough || !strong_enough || clear > c->length)
            break;
        for (int t = 1; t <= tiers && p->count < WALL_CASE_VARIABLES; t++) {
            int holds = columns * t;
            if (c->bay_rating > 0)
                holds = least(holds, c->bay_rating / m->mass);
            int rack = c->bay_price + t * c->tier_price;
            p->variable[p->count++] = (struct variable){.letter = 'b',
                                                        .model = i,
                                                        .holds = holds,
                                                        .length = clear + (c->post > 0 ? c->post : c->gap),
                                                        .money = {rack, rack}};
        }
    }
}

static void list_variables(struct program *p)
{
    for (int i = 0; i < p->c->models; i++) {
        const struct wall_case_model *m = &p->c->model[i];
        p->variable[p->count++] = (struct variable){.letter = 't',
                                                    .model = i,
                                                    .money = {m->price[0], m->price[1]},
                                                    .tanks = 1,
                                                    .area = m->area,
                                                    .volume = m->volume,
                                                    .power = m->power};
        if (m->sale_most > 0)
            p->variable[p->count++] =
                (struct variable){.letter = 's',
                                  .model = i,
                                  .money = {m->sale_price[0] - m->price[0], m->sale_price[1] - m->price[1]}};
        add_bays(p, i, false);
        if (m->length != m->width)
            add_bays(p, i, true);
    }
}

static int64_t worth_of(const struct program *p, const struct variable *v, const struct wall_case_worth *w)
{
    return w->tanks * v->tanks + w->area * v->area + w->volume * v->volume +
           w->cost * v->money[p->c->goal.money];
}

static void term(FILE *to, int64_t factor, const struct variable *v, int number)
{
    fprintf(to, " %c %lld %c%d\n", factor < 0 ? '-' : '+', (long long)(factor < 0 ? -factor : factor),
            v->letter, number);
}

enum column { LENGTH, POWER, BUDGET, TANKS };

/* The row of one figure of all variables that have it, if any has. */
static void row(const struct program *p, enum column which, const char *relation, int64_t limit, FILE *to)
{
    bool any = false;
    for (int k = 0; k < p->count; k++) {
        const struct variable *v = &p->variable[k];
        int64_t factor = 0;
        switch (which) {
        case LENGTH: factor = v->length; break;
        case POWER: factor = v->power; break;
        case BUDGET: factor = v->money[p->c->budget_kind]; break;
        case TANKS: factor = v->tanks; break;
        }
        if (factor == 0)
            continue;
        if (!any)
            fprintf(to, " limit%d:\n", (int)which);
        any = true;
        term(to, factor, v, k);
    }
    if (any)
        fprintf(to, " %s %lld\n", relation, (long long)limit);
}

/* Tanks stand in bays; those on sale are tanks. */
static void rows_of_model(const struct program *p, int i, FILE *to)
{
    int tank = -1;
    int sale = -1;
    for (int k = 0; k < p->count; k++) {
        if (p->variable[k].model == i && p->variable[k].letter == 't')
            tank = k;
        if (p->variable[k].model == i && p->variable[k].letter == 's')
            sale = k;
    }
    fprintf(to, " stand%d: t%d\n", i, tank);
    for (int k = 0; k < p->count; k++)
        if (p->variable[k].model == i && p->variable[k].letter == 'b')
            term(to, -p->variable[k].holds, &p->variable[k], k);
    fputs(" <= 0\n", to);
    if (sale >= 0)
        fprintf(to, " sale%d: s%d - t%d <= 0\n", i, sale, tank);
}

static void bounds(const struct program *p, FILE *to)
{
    fputs("Bounds\n", to);
    for (int k = 0; k < p->count; k++) {
        const struct variable *v = &p->variable[k];
        const struct wall_case_model *m = &p->c->model[v->model];
        if (v->letter == 's')
            fprintf(to, " s%d <= %d\n", k, m->sale_most);
        if (v->letter == 't' && m->most != TC_WALL_UNLIMITED)
            fprintf(to, " t%d <= %d\n", k, m->most);
        if (v->letter == 't' && m->least > 0)
            fprintf(to, " t%d >= %d\n", k, m->least);
    }
    fputs("General\n", to);
    for (int k = 0; k < p->count; k++)
        fprintf(to, " %c%d\n", p->variable[k].letter, k);
    fputs("End\n", to);
}

int wall_case_write(const struct wall_case *c, const struct wall_case_worth *worth,
                    const struct wall_case_worth *also, int64_t at_least, int64_t *worths, FILE *to)
{
    static struct program p; /* too large for the stack */
    p.c = c;
    p.count = 0;
    list_variables(&p);
    for (int k = 0; worths && k < p.count; k++)
        worths[k] = worth_of(&p, &p.variable[k], worth);
    if (!to)
        return p.count;
    fputs("Maximize\n worth:\n", to);
    for (int k = 0; k < p.count; k++)
        term(to, worth_of(&p, &p.variable[k], worth), &p.variable[k], k);
    fputs("Subject To\n", to);
    /* With uprights one stands at each end; without, the last bay is followed by no gap. */
    row(&p, LENGTH, "<=", c->length + (c->post > 0 ? -c->post : c->gap), to);
    if (c->power_limit > 0)
        row(&p, POWER, "<=", c->power_limit, to);
    if (c->budget > 0)
        row(&p, BUDGET, "<=", c->budget, to);
    int wanted = c->goal.aim == TC_WALL_WATER_PER_MONEY && c->goal.wanted < 1 ? 1 : c->goal.wanted;
    if (wanted > 0)
        row(&p, TANKS, ">=", wanted, to);
    for (int i = 0; i < c->models; i++)
        rows_of_model(&p, i, to);
    if (also) {
        fputs(" also:\n", to);
        for (int k = 0; k < p.count; k++)
            term(to, worth_of(&p, &p.variable[k], also), &p.variable[k], k);
        fprintf(to, " >= %lld\n", (long long)at_least);
    }
    bounds(&p, to);
    return p.count;
}
