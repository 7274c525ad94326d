/* SPDX-License-Identifier: MIT */
#include "sheet/wall_stages.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/study_deal.h"
#include "sheet/wall_staging.h"
#include "sheet/wall_study_cost.h"

/* Tanks as early as may be, and racks no earlier than their tanks. */
enum { TANK_WORTH = 1000, RACK_WORTH = -1 };

/* ------------------------------------------------------------------------- prices */

/* One tank of a model with its parts, bought with these terms; known: whether it has a price. */
static enum tc_status price_unit(struct tc_staging *staging, int model, const struct tc_deal_terms *terms,
                                 struct tc_stage_price *price, bool *known)
{
    const struct tc_wall_study *wall_study = staging->wall_study;
    struct tc_alternative *unit = &staging->unit;
    struct tc_deal deal;
    *unit = wall_study->alternatives[model];
    enum tc_status status = tc_deal_make(terms, &deal);
    *known = status == TC_OK && deal.known;
    if (!*known)
        return status;
    status = tc_study_cost(wall_study->study, unit, &deal, &unit->equipment, &unit->prices, &unit->cost);
    if (status == TC_OK && staging->layout->share.light[model]) {
        unit->equipment.slot[TC_SLOT_LIGHT] =
            (struct tc_filled){.demand = unit->equipment.slot[TC_SLOT_LIGHT].demand};
        status = tc_cost_make(&unit->c, &unit->equipment, &unit->prices, &unit->cost);
    }
    price->goods = tc_money_sum(unit->cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status);
    price->paid = unit->cost.to_buy;
    return status;
}

/*
 * How many tanks may be had in a sale in a month: those of every period that begins in it, and in the first
 * month of one that runs; where there is no limit, of every one that runs in it.
 */
static int sale_most(const struct tc_staging *staging, const struct tc_sale *sale, int month, int wanted)
{
    struct tc_date first, next;
    struct tc_period period;
    int periods = 0;
    if (tc_staging_days(staging, month, &first, &next) != TC_OK)
        return 0;
    if (tc_sale_runs(sale, first) && (month == 0 || sale->limit == 0))
        periods++;
    for (struct tc_date day = first; sale->dated && tc_repeat_next(&sale->when, day, &period) == TC_OK &&
                                     tc_date_number(period.first) < tc_date_number(next);) {
        bool counted = tc_date_number(period.first) == tc_date_number(first) && periods > 0;
        periods += !counted;
        if (tc_date_add_days(period.first, 1, &day) != TC_OK)
            break;
    }
    if (periods == 0)
        return 0;
    double most = (double)periods * sale->limit;
    return sale->limit > 0 && most < wanted ? (int)most : wanted;
}

/* Whether a sale counts for a model: as the plan has its tanks bought. */
static bool sale_counts(const struct tc_staging *staging, int model, const struct tc_sale *sale)
{
    const struct tc_alternative *alternative = &staging->wall_study->alternatives[model];
    bool way = alternative->way.kind == TC_WAY_BEST ||
               (alternative->way.kind == TC_WAY_SALE && alternative->way.sale == sale);
    return way && !alternative->terms.typed &&
           tc_study_sale_here(staging->wall_study->study, alternative, sale) &&
           tc_sale_covers(sale, &alternative->c.tank);
}

/* The prices of a model's tank at list and, month by month, in the best sale of the month. */
static enum tc_status price_model(struct tc_staging *staging, int model, bool *cheaper)
{
    const struct tc_stock *stock = staging->wall_study->study->stock;
    struct tc_stage_kind *kind = &staging->kinds[model];
    struct tc_deal_terms terms = staging->wall_study->alternatives[model].terms;
    bool known;
    terms.sale = NULL;
    terms.quantity = 1;
    *kind = (struct tc_stage_kind){.count = staging->layout->mix.count[model]};
    enum tc_status status = price_unit(staging, model, &terms, &kind->list, &known);
    for (size_t i = 0; status == TC_OK && known && i < stock->sale_count; i++) {
        const struct tc_sale *sale = &stock->sales[i];
        struct tc_stage_price price;
        bool priced = false;
        if (!sale_counts(staging, model, sale))
            continue;
        terms.sale = sale;
        status = price_unit(staging, model, &terms, &price, &priced);
        for (int m = 0; status == TC_OK && priced && price.paid < kind->list.paid && m < TC_STAGE_MONTHS_MAX;
             m++) {
            int most = sale_most(staging, sale, m, kind->count);
            if (most == 0 || (kind->sale_most[m] > 0 && kind->sale[m].paid <= price.paid))
                continue;
            kind->sale_most[m] = most;
            kind->sale[m] = price;
            staging->sale[model][m] = sale;
            *cheaper = true;
        }
    }
    return status;
}

/* ------------------------------------------------------------------------- the question */

static int tiers_of(const struct tc_layout *layout, int bay)
{
    return layout->mix.bay[bay].tiers;
}

/* The rack of each bay, and before the first all that is shared: what the room costs less its tanks. */
static enum tc_status price_racks(struct tc_staging *staging, struct tc_stage_price rack[])
{
    const struct tc_wall_study *wall_study = staging->wall_study;
    const struct tc_layout *layout = staging->layout;
    const struct tc_region *region = &wall_study->study->region;
    enum tc_status status = TC_OK;
    tc_money each = tc_currency_money(region->currency, wall_study->study->plan.wall.rack_price, &status);
    struct tc_stage_price rest = {
        tc_money_sum(layout->cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status),
        tc_money_subtract(layout->cost.to_buy, layout->cost.buy[TC_BUY_DELIVERY], &status)};
    for (int i = 0; status == TC_OK && i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        status = tc_wall_study_bought(wall_study, layout, i, NULL, &staging->unit);
        rest.goods = tc_money_subtract(
            rest.goods, tc_money_sum(staging->unit.cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status), &status);
        rest.paid = tc_money_subtract(rest.paid, staging->unit.cost.to_buy, &status);
    }
    for (int bay = layout->mix.bays - 1; bay > 0; bay--) {
        rack[bay].goods = tc_money_times(each, tiers_of(layout, bay), &status);
        rack[bay].paid = tc_money_share(rack[bay].goods, 1 + tc_region_added_tax(region), &status);
        rest.goods = tc_money_subtract(rest.goods, rack[bay].goods, &status);
        rest.paid = tc_money_subtract(rest.paid, rack[bay].paid, &status);
    }
    rack[0] = (struct tc_stage_price){rest.goods > 0 ? rest.goods : 0, rest.paid > 0 ? rest.paid : 0};
    return status;
}

/* Bay by bay: its rack, then its tanks that are no kind. */
static enum tc_status put_steps(struct tc_staging *staging, const struct tc_stage_price rack[])
{
    const struct tc_layout *layout = staging->layout;
    struct tc_stages *stages = &staging->stages;
    stages->step_count = 0;
    for (int bay = 0; bay < layout->mix.bays; bay++) {
        const struct tc_wall_bay *b = &layout->mix.bay[bay];
        for (int k = b->first - 1; k < b->first + b->tanks; k++) {
            int model = k < b->first ? -1 : layout->mix.tank[k].model;
            if (model >= 0 && staging->kind_of[model] >= 0)
                continue;
            if (stages->step_count == TC_STAGE_STEPS_MAX)
                return TC_RANGE;
            staging->step[stages->step_count] = (struct tc_stage_thing){bay, model};
            stages->step_worth[stages->step_count] = model < 0 ? RACK_WORTH : TANK_WORTH;
            stages->step[stages->step_count++] = model < 0 ? rack[bay] : staging->kinds[model].list;
        }
    }
    return TC_OK;
}

/* A tank waits for the rack of its bay: of each kind as many as stand in the bays whose racks are bought. */
static void put_room(struct tc_staging *staging)
{
    const struct tc_wall_mix *mix = &staging->layout->mix;
    struct tc_stages *stages = &staging->stages;
    for (int kind = 0; kind < stages->kind_count; kind++) {
        int room = 0;
        for (int step = 0; step < stages->step_count; step++) {
            const struct tc_wall_bay *bay = &mix->bay[staging->step[step].bay];
            stages->kind[kind].room[step] = room;
            for (int k = bay->first; staging->step[step].model < 0 && k < bay->first + bay->tanks; k++)
                room += mix->tank[k].model == staging->model_of[kind];
        }
        stages->kind[kind].room[stages->step_count] = room;
    }
}

static void put_kinds(struct tc_staging *staging, const bool sold[])
{
    struct tc_stages *stages = &staging->stages;
    stages->kind_count = 0;
    for (int i = 0; i < staging->layout->mix.models; i++) {
        staging->kind_of[i] = -1;
        if (!sold[i])
            continue;
        staging->model_of[stages->kind_count] = i;
        staging->kind_of[i] = stages->kind_count;
        staging->kinds[i].worth = TANK_WORTH;
        stages->kind[stages->kind_count++] = staging->kinds[i];
    }
}

/* What sales could save on a model at most, in all months. */
static double could_save(const struct tc_stage_kind *kind)
{
    double most = 0;
    for (int m = 0; m < TC_STAGE_MONTHS_MAX; m++)
        if (kind->sale_most[m] > 0 && (double)(kind->list.paid - kind->sale[m].paid) > most)
            most = (double)(kind->list.paid - kind->sale[m].paid);
    return most * kind->count;
}

/* Where there is too much to look at, models on which sales save least are bought at list price. */
static enum tc_status simplify(struct tc_staging *staging, bool sold[], const struct tc_stage_price rack[])
{
    for (;;) {
        int kinds = 0, least = -1;
        for (int i = 0; i < staging->layout->mix.models; i++) {
            kinds += sold[i];
            if (sold[i] && (least < 0 || could_save(&staging->kinds[i]) < could_save(&staging->kinds[least])))
                least = i;
        }
        if (kinds <= TC_STAGE_KINDS_MAX) {
            put_kinds(staging, sold);
            enum tc_status status = put_steps(staging, rack);
            put_room(staging);
            if (status != TC_OK || tc_stages_work(&staging->stages) <= TC_STAGES_WORK_MAX || least < 0)
                return status;
        }
        sold[least] = false;
        staging->simplified = true;
    }
}

/* The soonest that all can be had, then the best of the plan's months, or of as many as it takes. */
static enum tc_status find_answers(struct tc_staging *staging)
{
    struct tc_stages *stages = &staging->stages;
    int wanted = staging->wall_study->study->plan.wall.months;
    enum tc_status status = TC_NO_RESULT;
    for (stages->months = 1; status == TC_NO_RESULT && stages->months <= TC_STAGE_MONTHS_MAX;
         stages->months++)
        status = tc_stages_find(stages, &staging->soonest);
    staging->answer = staging->soonest;
    if (status != TC_OK || stages->months > wanted)
        return status;
    stages->months = wanted;
    return tc_stages_find(stages, &staging->answer);
}

/* Puts the question, and answers it. */
static enum tc_status ask(struct tc_staging *staging)
{
    const struct tc_wall_study *wall_study = staging->wall_study;
    const struct tc_region *region = &wall_study->study->region;
    struct tc_stages *stages = &staging->stages;
    bool sold[TC_CANDIDATES_MAX] = {false};
    enum tc_status status = TC_OK;
    size_t bays = (size_t)staging->layout->mix.bays;
    struct tc_stage_price *rack = calloc(bays + 1, sizeof *rack);
    if (!rack)
        return TC_NO_MEMORY;
    stages->a_month = tc_currency_money(region->currency, wall_study->study->plan.wall.monthly, &status);
    stages->delivery = tc_currency_money(region->currency, wall_study->study->region.delivery, &status);
    stages->free_from = tc_currency_money(region->currency, region->delivery_free_from, &status);
    for (int i = 0; status == TC_OK && i < staging->layout->mix.models; i++)
        if (staging->layout->mix.count[i] > 0)
            status = price_model(staging, i, &sold[i]);
    if (status == TC_OK)
        status = price_racks(staging, rack);
    if (status == TC_OK)
        status = simplify(staging, sold, rack);
    free(rack);
    return status == TC_OK ? find_answers(staging) : status;
}

enum tc_status tc_wall_add_stages(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  size_t count, size_t sum)
{
    if (!(wall_study->study->plan.wall.monthly > 0))
        return TC_OK;
    if (wall_study->layouts[0].cost.incomplete) {
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Stages need all prices: some are missing.");
        return TC_OK;
    }
    struct tc_staging *staging = calloc(1, sizeof *staging);
    if (!staging)
        return TC_NO_MEMORY;
    staging->wall_study = wall_study;
    staging->layout = &wall_study->layouts[0];
    enum tc_status status = ask(staging);
    if (status == TC_OK) {
        tc_staging_tell(sheet, staging, count, sum);
    } else if (status == TC_NO_RESULT) {
        tc_staging_tell_none(sheet, staging);
        status = TC_OK;
    }
    free(staging);
    return status;
}
