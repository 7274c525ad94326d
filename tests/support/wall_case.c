/* SPDX-License-Identifier: MIT */
#include "support/wall_case.h"

#include <string.h>

#include "support/draw.h"
#include "core/base/unit.h"

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
        .floor_limit = c->floor_limit * TC_GRAVITY,
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
