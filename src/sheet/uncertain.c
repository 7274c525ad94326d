/* SPDX-License-Identifier: MIT */
#include "sheet/uncertain.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/study_market.h"
#include "sheet/uncertain_heat.h"

/* Pointers to what lies in the copy itself or in `shared` are set when it is varied. */
static void copy_alternative(const struct tc_study *study, const struct tc_alternative *alternative,
                             struct tc_varied *varied, struct tc_known_heat *heat)
{
    varied->c = alternative->c;
    varied->equipment = alternative->equipment;
    varied->prices = alternative->prices;
    varied->own_setup = !tc_study_setup_shared(study, alternative);
    varied->setup = *alternative->c.setup;
    if (alternative->prices.deal.sale)
        varied->sale = *alternative->prices.deal.sale;
    int shops = study->shop_count > 0 ? study->shop_count : 1; /* of none there is no list */
    for (int s = 0; s < shops; s++)
        varied->local_price[s] =
            tc_stock_own_price(study->stock, study->shops[s], -1, &alternative->c.tank.goods);
    varied->typed_price = alternative->plan->price;
    heat->c = tc_equipment_heat(&alternative->c, &alternative->equipment);
    heat->year = alternative->cost.running.heat;
    varied->c.known = heat;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        varied->pin_price[slot] = varied->pin_next[slot] = NAN;
        if (!offer)
            continue;
        varied->parts[slot] = *offer->part;
        varied->offers[slot] = *offer;
        for (int s = 0; s < shops; s++)
            varied->part_local_price[slot][s] =
                tc_stock_own_price(study->stock, study->shops[s], slot, &offer->part->goods);
    }
}

/* Whether the household's bill follows a target. */
static bool moves_tariffs(const struct tc_target *target)
{
    static const size_t offsets[] = {
        offsetof(struct tc_region, electricity.price), offsetof(struct tc_region, water.price),
        offsetof(struct tc_region, household_energy), offsetof(struct tc_region, household_water)};
    if (target->place != TC_AT_REGION)
        return target->place == TC_AT_ELECTRICITY || target->place == TC_AT_WATER;
    for (size_t i = 0; i < sizeof offsets / sizeof offsets[0]; i++)
        if (target->offset == offsets[i])
            return true;
    return false;
}

/* Whether what shops take follows a target. */
static bool moves_shops(const struct tc_target *target)
{
    return target->place == TC_AT_SHOP ||
           (target->place == TC_AT_REGION && target->offset == offsetof(struct tc_region, sales_tax));
}

enum tc_status tc_uncertain_find(struct tc_uncertain *uncertain, const struct tc_study *study)
{
    *uncertain = (struct tc_uncertain){.study = study};
    uncertain->alternatives = calloc((size_t)study->alternative_count + 1, sizeof *uncertain->alternatives);
    uncertain->heats = calloc((size_t)study->alternative_count + 1, sizeof *uncertain->heats);
    if (!uncertain->alternatives || !uncertain->heats)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->alternative_count; i++)
        copy_alternative(study, &study->alternatives[i], &uncertain->alternatives[i], &uncertain->heats[i]);
    enum tc_status status = tc_uncertain_collect(uncertain);
    for (int i = 0; i < uncertain->target_count; i++) {
        uncertain->tariffs_vary = uncertain->tariffs_vary || moves_tariffs(&uncertain->targets[i]);
        uncertain->shops_vary = uncertain->shops_vary || moves_shops(&uncertain->targets[i]);
    }
    return status;
}

void tc_uncertain_free(struct tc_uncertain *uncertain)
{
    tc_heat_nets_free(uncertain);
    free(uncertain->memories);
    free(uncertain->spreads);
    free(uncertain->names);
    free(uncertain->targets);
    free(uncertain->heats);
    free(uncertain->alternatives);
    *uncertain = (struct tc_uncertain){.study = NULL};
}

enum tc_status tc_uncertain_remember(struct tc_uncertain *uncertain)
{
    uncertain->memories =
        calloc((size_t)uncertain->study->alternative_count + 1, sizeof *uncertain->memories);
    return uncertain->memories ? TC_OK : TC_NO_MEMORY;
}

/* ---------------------------------------------------------------- evaluating */

static double alternative_cost(const struct tc_uncertain *uncertain, int index, const double values[],
                               const struct tc_uncertain_shared *shared)
{
    struct tc_varied varied;
    struct tc_known_heat heat;
    double value = NAN;
    enum tc_status status = tc_uncertain_vary(uncertain, index, values, shared, &varied);
    if (status == TC_OK && uncertain->nets &&
        tc_heat_net_read(&uncertain->nets[index], &varied, values, &heat))
        varied.c.known = &heat;
    if (uncertain->memories)
        varied.c.memory = &uncertain->memories[index];
    if (status == TC_OK)
        status = tc_cost_value(&varied.c, &varied.equipment, &varied.prices, &value);
    return status == TC_OK ? value : NAN;
}

void tc_uncertain_costs(void *context, const double values[], double costs[])
{
    const struct tc_uncertain *uncertain = context;
    struct tc_uncertain_shared shared;
    tc_uncertain_share(uncertain, values, &shared);
    for (int i = 0; i < uncertain->study->alternative_count; i++)
        costs[i] = alternative_cost(uncertain, i, values, &shared);
}
