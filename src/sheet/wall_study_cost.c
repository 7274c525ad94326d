/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_cost.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/wall_study_model.h"

#define HOURS_A_YEAR 8760.0
#define DAYS_A_YEAR  365.0

/* Gives the layout its region: with the climate that room and tanks make, where the room's loss is known. */
static enum tc_status find_region(const struct tc_wall_study *wall_study, struct tc_layout *layout)
{
    const struct tc_offer *air = layout->share.air;
    const struct tc_wall_tanks tanks = {
        .alternatives = wall_study->alternatives,
        .count = layout->mix.count,
        .models = layout->mix.models,
        .beside = air ? layout->share.air_count * tc_part_power(air->part) : 0,
    };
    layout->region = wall_study->region;
    layout->heated = wall_study->heated;
    if (!wall_study->room.known)
        return TC_OK;
    enum tc_status status =
        tc_wall_room_find(&wall_study->room, wall_study->room.loss.likely, &wall_study->study->region, &tanks,
                          wall_study->heated ? &wall_study->warmth : NULL, &layout->climate);
    if (status == TC_OK)
        tc_wall_room_put(&layout->climate, &layout->region.climate);
    return status;
}

double tc_wall_study_energy(const struct tc_layout *layout)
{
    double sum = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        sum += tc_load_year(&layout->cost.running.energy[i]);
    return sum;
}

/* The first model on the wall bears the extras that are for a candidate, as the room is one. */
static void bear_extras(const struct tc_wall_study *wall_study, const struct tc_layout *layout, int model,
                        struct tc_case *c)
{
    const struct tc_case *own = &wall_study->study->alternatives[model].c;
    for (int before = 0; before < model; before++)
        if (layout->mix.count[before] > 0)
            return;
    memcpy(c->due, own->due, sizeof c->due);
}

enum tc_status tc_wall_study_bought(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                                    int model, const struct tc_running *before, struct tc_alternative *bought)
{
    struct tc_tariff_margin electricity, water;
    int count = layout->mix.count[model];
    *bought = wall_study->alternatives[model];
    struct tc_prices *prices = &bought->prices;
    tc_study_margins(&wall_study->region, &wall_study->study->tariffs, before, &electricity, &water);
    prices->electricity = &electricity;
    prices->water = &water;
    bear_extras(wall_study, layout, model, &bought->c);
    bought->c.region = &layout->region;
    bought->c.quantity = bought->terms.quantity = count;
    enum tc_status status = tc_deal_make(&bought->terms, &prices->deal);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        prices->included[slot] = prices->included[slot] > 0 ? prices->deal.first : 0;
    if (layout->share.light[model])
        bought->equipment.slot[TC_SLOT_LIGHT] =
            (struct tc_filled){.demand = bought->equipment.slot[TC_SLOT_LIGHT].demand};
    if (status == TC_OK)
        status = tc_cost_make(&bought->c, &bought->equipment, prices, &bought->cost);
    prices->electricity = wall_study->alternatives[model].prices.electricity;
    prices->water = wall_study->alternatives[model].prices.water;
    return status;
}

/* What the one order of the room costs to bring, goods being the price of all of it. */
static tc_money delivery(const struct tc_region *region, tc_money goods, enum tc_status *status)
{
    tc_money free_from = tc_currency_money(region->currency, region->delivery_free_from, status);
    if (goods == 0 || (free_from > 0 && goods >= free_from))
        return 0;
    return tc_currency_money(region->currency, region->delivery, status);
}

/* Whether the water of tanks gets warmer than their animals stand, and nobody sees to it. */
static bool is_too_warm(const struct tc_alternative *bought)
{
    struct tc_suit suit;
    tc_suit_judge(bought->c.setup, &bought->equipment.size, &bought->cost.running.heat, &suit);
    const struct tc_lack *warm = tc_suit_lacks(&suit, TC_NEED_COOL);
    return warm && !warm->accepted;
}

/* Adds the tanks of all models to the layout's cost and power. */
static enum tc_status add_models(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                 struct tc_alternative *bought)
{
    for (int i = 0; i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        enum tc_status status = tc_wall_study_bought(wall_study, layout, i, &layout->cost.running, bought);
        if (status == TC_OK)
            status = tc_cost_add(&layout->cost, &bought->cost);
        if (status != TC_OK)
            return status;
        layout->too_warm[i] = is_too_warm(bought);
        layout->power += layout->mix.count[i] * tc_wall_study_unit_power(&wall_study->alternatives[i]);
        if (layout->share.light[i])
            layout->power -= layout->mix.count[i] *
                             tc_wall_study_slot_power(&wall_study->alternatives[i].equipment, TC_SLOT_LIGHT);
    }
    return TC_OK;
}

/* Whether something that is shared cannot be had, or has no price. */
static bool lacks_shared(const struct tc_layout *layout)
{
    const struct tc_wall_study_sharing *share = &layout->share;
    bool lacks = share->air ? !share->air->priced : share->air_flow > 0;
    for (int i = 0; i < layout->mix.models; i++)
        lacks = lacks || (share->light[i] && !share->light[i]->priced);
    return lacks;
}

/*
 * What heats the room, where that is what keeps the tanks warm, and what its cooling and the vapour cost: by
 * its own electricity, which goes into *load, or at the region's price.
 */
static struct tc_shared room_thing(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                                   struct tc_load *load, enum tc_status *status)
{
    const struct tc_room_plan *plan = &wall_study->study->plan.wall.room;
    const struct tc_region *region = &wall_study->study->region;
    double scale = tc_currency_scale(region->currency), heating[TC_MONTHS], cooling[TC_MONTHS];
    struct tc_shared thing = {.line = TC_BUY_SLOTS + TC_SLOT_HEATER,
                              .life = INFINITY,
                              .consumer = TC_CONSUMER_HEATER,
                              .load = load};
    tc_wall_room_heating(&layout->climate, heating);
    tc_wall_room_cooling(&layout->climate, cooling);
    for (int month = 0; month < TC_MONTHS; month++) {
        thing.heat_cost += cooling[month] * region->room_cool_price * scale;
        if (!(plan->heater_efficiency > 0))
            thing.heat_cost += heating[month] * region->room_heat_price * scale;
        heating[month] = plan->heater_efficiency > 0 ? heating[month] / plan->heater_efficiency : 0;
    }
    tc_load_even(load, heating);
    thing.heat_cost += tc_wall_room_vapour(&layout->climate) * plan->vapour_price * scale;
    if (layout->heated) {
        thing.price = tc_currency_money(region->currency, plan->heater_price, status);
        thing.life = plan->heater_life;
    }
    return thing;
}

int tc_wall_study_things(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                         struct tc_shared things[TC_ROOM_SHARED_MAX + 1],
                         struct tc_wall_thing what[TC_ROOM_SHARED_MAX + 1], struct tc_load *load,
                         enum tc_status *status)
{
    int count = tc_wall_study_shared(wall_study, layout, things, what, status);
    if (wall_study->room.known) {
        things[count] = room_thing(wall_study, layout, load, status);
        if (what)
            what[count] = (struct tc_wall_thing){TC_THING_ROOM, NULL, 1, NULL};
        count++;
    }
    return count;
}

/* Adds what the room shares. */
static enum tc_status add_shared(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                 struct tc_cost *part)
{
    struct tc_shared things[TC_ROOM_SHARED_MAX + 1];
    _Static_assert((int)TC_ROOM_SHARED_MAX < (int)TC_SHARED_MAX, "what a room shares has a cost");
    struct tc_load room_load;
    struct tc_tariff_margin electricity, water;
    enum tc_status status = TC_OK;
    int count = tc_wall_study_things(wall_study, layout, things, NULL, &room_load, &status);
    tc_money goods = tc_money_sum(layout->cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status);
    for (int i = 0; i < count; i++) {
        goods = tc_money_add(goods, things[i].price, &status);
        layout->power += things[i].power;
    }
    tc_money brought = delivery(&wall_study->study->region, goods, &status);
    if (status != TC_OK)
        return status;
    tc_study_margins(&wall_study->region, &wall_study->study->tariffs, &layout->cost.running, &electricity,
                     &water);
    status = tc_shared_cost(&wall_study->alternatives[0].c, &electricity, things, count, brought, part);
    part->incomplete = lacks_shared(layout);
    return status == TC_OK ? tc_cost_add(&layout->cost, part) : status;
}

enum tc_status tc_wall_study_cost(const struct tc_wall_study *wall_study, struct tc_layout *layout)
{
    struct tc_alternative *part = malloc(sizeof *part);
    if (!part)
        return TC_NO_MEMORY;
    layout->cost = (struct tc_cost){.to_buy = 0};
    layout->power = 0;
    memset(layout->too_warm, 0, sizeof layout->too_warm);
    enum tc_status status = find_region(wall_study, layout);
    if (status == TC_OK)
        status = add_models(wall_study, layout, part);
    if (status == TC_OK)
        status = add_shared(wall_study, layout, &part->cost);
    free(part);
    layout->power_on[0] = layout->power;
    for (int c = 1; c < TC_WALL_CIRCUITS_MAX; c++) {
        layout->power_on[c] = layout->mix.power_on[c] + layout->share.light_power[c];
        layout->power_on[0] -= layout->power_on[c];
    }
    /* What heats fresh water leaves with the water that is drained. */
    double energy =
        tc_wall_study_energy(layout) - tc_load_year(&layout->cost.running.energy[TC_CONSUMER_NEW_WATER]);
    layout->heat = energy * 1000 / HOURS_A_YEAR;
    layout->evaporated = layout->cost.running.evaporated_total / DAYS_A_YEAR;
    return status;
}
