/* SPDX-License-Identifier: MIT */
#include "sheet/room.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/room.h"

/* Service life and resale of a rack and a timer: common practice, no source. */
#define RACK_LIFE    20.0
#define RACK_RESALE  0.3
#define TIMER_LIFE   6.0
#define TIMER_RESALE 0.0

/* The search stops here with the best found and its bound; rooms of usual size need a few thousand nodes. */
#define MOST_NODES 2000000

/* How often the mix is sought anew because what is shared went over the budget or the circuit. */
enum { CORRECTIONS = 4 };

#define HOURS_A_YEAR 8760.0
#define DAYS_A_YEAR  365.0

static enum tc_status refuse(const struct tc_ask *ask, const char *problem)
{
    if (ask->problem)
        snprintf(ask->problem, TC_PROBLEM_SIZE, "%s", problem);
    return TC_SYNTAX;
}

/* ------------------------------------------------------------- the wall and its models */

static enum tc_status read_wall(struct tc_room *room, const struct tc_ask *ask)
{
    const struct tc_wall_plan *plan = &room->study->plan.wall;
    struct tc_currency currency = room->study->region.currency;
    enum tc_status status = TC_OK;
    if (!(plan->length > 0 && plan->height > 0 && plan->depth > 0))
        return refuse(ask,
                      "the plan has no wall; give its length, height and depth, like wall/length = 12 ft");
    room->wall = (struct tc_wall){
        .length = plan->length,
        .height = plan->height,
        .depth = plan->depth,
        .lowest = plan->lowest,
        .access = plan->access,
        .shelf = plan->shelf,
        .reach = plan->reach,
        .gap = plan->gap,
        .tiers = TC_WALL_TIERS_MAX,
        .post = plan->bay > 0 ? plan->post : 0,
        .bay_length = plan->bay,
        .tier_price = tc_currency_money(currency, plan->rack_price, &status),
        .tier_rating = plan->rack_load,
        .floor_limit = plan->floor_load,
        .budget = tc_currency_money(currency, plan->budget, &status),
        .budget_kind = strcmp(plan->budget_for, "owning") == 0 ? TC_WALL_OVER_PERIOD : TC_WALL_TO_BUY,
    };
    if (plan->circuit_current > 0) {
        double carried =
            tc_wall_continuous_power(plan->circuit_voltage, plan->circuit_current, TC_CONTINUOUS_SHARE);
        if (carried <= plan->circuit_used)
            return refuse(ask,
                          "the circuit has nothing left: its other load is more than it may carry for hours");
        room->wall.power_limit = carried - plan->circuit_used;
    }
    return status == TC_OK ? tc_wall_check(&room->wall) : status;
}

static void read_goal(struct tc_room *room)
{
    static const struct {
        const char *word;
        enum tc_wall_aim aim;
    } aims[] = {{"tanks", TC_WALL_MOST_TANKS},
                {"bottom", TC_WALL_MOST_AREA},
                {"water", TC_WALL_MOST_WATER},
                {"value", TC_WALL_WATER_PER_MONEY},
                {"cost", TC_WALL_LEAST_COST}};
    const struct tc_wall_plan *plan = &room->study->plan.wall;
    room->goal = (struct tc_wall_goal){.wanted = plan->wanted, .money = room->wall.budget_kind};
    for (size_t i = 0; i < sizeof aims / sizeof aims[0]; i++)
        if (strcmp(plan->objective, aims[i].word) == 0)
            room->goal.aim = aims[i].aim;
}

/* An entry as one tank on the rack: no stand and no air pump of its own, nothing for delivery. */
static void start_unit(struct tc_room *room, int index)
{
    struct tc_contender *unit = &room->units[index];
    *unit = room->study->entries[index];
    unit->c.tank = &unit->tank;
    unit->c.kit = &room->kit;
    unit->c.region = &room->region;
    unit->c.quantity = 1;
    unit->c.wish[TC_SLOT_STAND].part = "";
    unit->c.wish[TC_SLOT_AIR_PUMP].part = "";
}

/* What one tank of a unit costs with this deal: to buy and over the period. */
static enum tc_status unit_cost(struct tc_room *room, struct tc_contender *unit, const struct tc_deal *deal,
                                tc_money price[2])
{
    struct tc_deal one = *deal;
    one.quantity = one.first = 1;
    one.fee = deal->quantity > 0 ? deal->fee / deal->quantity : 0;
    enum tc_status status = tc_study_cost(room->study, unit, &one, &unit->setup, &unit->prices, &unit->cost);
    price[TC_WALL_TO_BUY] = unit->cost.to_buy;
    price[TC_WALL_OVER_PERIOD] = unit->cost.present_value;
    return status;
}

static double slot_power(const struct tc_setup *setup, enum tc_slot slot)
{
    const struct tc_filled *filled = &setup->slot[slot];
    return filled->offer ? filled->count * tc_part_power(filled->offer->part) : 0;
}

/* Light, filter and heaters of one tank, all on at once. */
static double unit_power(const struct tc_contender *unit)
{
    return slot_power(&unit->setup, TC_SLOT_LIGHT) + slot_power(&unit->setup, TC_SLOT_FILTER) +
           slot_power(&unit->setup, TC_SLOT_HEATER);
}

static double unit_air(const struct tc_contender *unit)
{
    const struct tc_filled *filter = &unit->setup.slot[TC_SLOT_FILTER];
    return filter->offer ? filter->count * filter->offer->part->as.filter.air : 0;
}

static enum tc_status make_model(struct tc_room *room, int index, const struct tc_ask *ask)
{
    struct tc_contender *unit = &room->units[index];
    const struct tc_candidate *plan = unit->plan;
    struct tc_wall_model *model = &room->models[index];
    struct tc_deal list, deal = unit->prices.deal;
    enum tc_status status = tc_study_deal(room->study, unit, "list", &list, NULL);
    if (status != TC_OK)
        return status;
    if (!deal.known)
        return refuse(ask, "a tank of the plan has no price in this region; type one over, or take it out");
    tc_money listed[2], on_sale[2];
    bool limited = deal.kind == TC_DEAL_SALE && deal.sale->limit > 0 && list.known;
    status = unit_cost(room, unit, limited ? &list : &deal, listed);
    if (status == TC_OK)
        status = unit_cost(room, unit, &deal, on_sale);
    if (status != TC_OK)
        return status;
    *model = (struct tc_wall_model){
        .length = unit->tank.length,
        .width = unit->tank.width,
        .height = unit->tank.height,
        .mass = unit->setup.size.filled_mass,
        .area = unit->setup.size.bottom_area,
        .volume = unit->setup.size.water_volume,
        .power = unit_power(unit),
        .sale_most = limited ? deal.sale->limit : 0,
        .most = plan->wall_most > 0 ? plan->wall_most : TC_WALL_UNLIMITED,
        .least = plan->wall_least,
    };
    for (int money = 0; money < 2; money++) {
        model->price[money] = listed[money];
        model->sale_price[money] = on_sale[money] < listed[money] ? on_sale[money] : listed[money];
    }
    return tc_wall_check_model(model) == TC_OK
               ? TC_OK
               : refuse(ask, "a tank of the plan cannot stand on a wall: look at its sizes and counts");
}

/* ------------------------------------------------------------------ what is shared */

/* How parts are compared for a tank of the room; size may be that of a whole tier. */
static struct tc_fit_case fit_case(const struct tc_room *room, const struct tc_contender *unit,
                                   const struct tc_tank *tank, struct tc_demand demand)
{
    return (struct tc_fit_case){
        .tank = tank,
        .size = &unit->setup.size,
        .kit = &room->kit,
        .demand = demand,
        .years = unit->c.years,
        .discount = unit->c.discount,
        .energy_price = unit->c.energy_price,
        .energy_escalation = room->region.electricity_escalation,
        .replacement_tax = room->region.tax_included ? 0 : room->region.sales_tax,
    };
}

/* The cheapest part for a slot; false where none fits. */
static bool choose_part(const struct tc_room *room, enum tc_slot slot, const struct tc_fit_case *fit,
                        struct tc_verdict *verdict)
{
    const struct tc_study *study = room->study;
    struct tc_verdict verdicts[TC_VERDICTS_MAX];
    int chosen;
    tc_fit_slot(fit, slot, study->offers, study->offer_count, NULL, verdicts, TC_VERDICTS_MAX, &chosen);
    if (chosen >= 0)
        *verdict = verdicts[chosen];
    return chosen >= 0;
}

/* The cheapest pump, or pumps, for the air of all filters. */
static void choose_air(const struct tc_room *room, struct tc_layout *layout)
{
    struct tc_room_sharing *share = &layout->share;
    const struct tc_contender *deepest = NULL;
    for (int i = 0; i < layout->mix.models; i++) {
        const struct tc_contender *unit = &room->units[i];
        share->air_flow += layout->mix.count[i] * unit_air(unit);
        if (layout->mix.count[i] > 0 &&
            (!deepest || unit->setup.size.water_depth > deepest->setup.size.water_depth))
            deepest = unit;
    }
    if (!deepest || !(share->air_flow > 0))
        return;
    struct tc_fit_case fit =
        fit_case(room, deepest, &deepest->tank, (struct tc_demand){.wanted = true, .air = share->air_flow});
    struct tc_verdict pump;
    if (!choose_part(room, TC_SLOT_AIR_PUMP, &fit, &pump))
        return;
    share->air = pump.offer;
    share->air_count = pump.count;
}

/* Lights that span all tanks of one tier of a bay; false where none fits or the bay is not filled evenly. */
static bool light_tier(const struct tc_room *room, const struct tc_layout *layout,
                       const struct tc_wall_bay *bay, struct tc_verdict *light)
{
    const struct tc_contender *unit = &room->units[bay->model];
    struct tc_demand demand = unit->setup.slot[TC_SLOT_LIGHT].demand;
    struct tc_tank tier = unit->tank;
    if (bay->end_on || bay->columns < 2 || bay->tanks != bay->columns * bay->tiers)
        return false;
    tier.length = bay->columns * unit->tank.length + (bay->columns - 1) * layout->wall.gap;
    demand.ppf *= bay->columns;
    struct tc_fit_case fit = fit_case(room, unit, &tier, demand);
    return choose_part(room, TC_SLOT_LIGHT, &fit, light);
}

/* Takes lights over the tiers of a model where one kind does for all its bays and costs less to own. */
static void choose_lights(const struct tc_room *room, struct tc_layout *layout, int model)
{
    const struct tc_contender *unit = &room->units[model];
    const struct tc_filled *own = &unit->setup.slot[TC_SLOT_LIGHT];
    struct tc_fit_case fit = fit_case(room, unit, &unit->tank, own->demand);
    struct tc_verdict alone, light;
    const struct tc_offer *offer = NULL;
    double spanned = 0;
    int count = 0;
    if (!own->offer || own->pinned || layout->mix.count[model] == 0 ||
        !choose_part(room, TC_SLOT_LIGHT, &fit, &alone))
        return;
    for (int b = 0; b < layout->mix.bays; b++) {
        const struct tc_wall_bay *bay = &layout->mix.bay[b];
        if (bay->model != model)
            continue;
        if (!light_tier(room, layout, bay, &light) || (offer && offer != light.offer))
            return;
        offer = light.offer;
        spanned += bay->tiers * light.present_value;
        count += bay->tiers * light.count;
    }
    if (!offer || spanned >= layout->mix.count[model] * alone.present_value)
        return;
    layout->share.light[model] = offer;
    layout->share.light_count[model] = count;
    layout->share.own_lights[model] = layout->mix.count[model] * own->count;
}

/* ------------------------------------------------------------------ cost of a layout */

/* What one model's tanks cost, on top of what the others before it use. */
static enum tc_status model_cost(const struct tc_room *room, const struct tc_layout *layout, int model,
                                 const struct tc_running *before, struct tc_cost *cost)
{
    const struct tc_contender *unit = &room->units[model];
    struct tc_case c = unit->c;
    struct tc_setup setup = unit->setup;
    struct tc_prices prices = unit->prices;
    struct tc_tariff_margin electricity, water;
    enum tc_status status = TC_OK;
    int count = layout->mix.count[model], on_sale = layout->mix.on_sale[model];
    tc_study_margins(&room->region, before, &electricity, &water);
    prices.electricity = &electricity;
    prices.water = &water;
    c.quantity = count;
    prices.deal.quantity = count;
    prices.deal.first = prices.deal.kind == TC_DEAL_SALE && prices.deal.sale->limit > 0 ? on_sale : count;
    prices.deal.fee = tc_money_times(prices.deal.fee, count, &status);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        prices.included[slot] = prices.included[slot] > 0 ? prices.deal.first : 0;
    if (layout->share.light[model])
        setup.slot[TC_SLOT_LIGHT] = (struct tc_filled){.demand = setup.slot[TC_SLOT_LIGHT].demand};
    return status == TC_OK ? tc_cost_make(&c, &setup, &prices, cost) : status;
}

/* The rack, the timer, the air pump and the lights that span tiers. */
static int list_shared(const struct tc_room *room, const struct tc_layout *layout,
                       struct tc_shared things[TC_CANDIDATES_MAX + 3], enum tc_status *status)
{
    const struct tc_room_sharing *share = &layout->share;
    const struct tc_kit *kit = &room->kit;
    int count = 0;
    things[count++] = (struct tc_shared){.line = TC_BUY_SLOTS + TC_SLOT_STAND,
                                         .price = layout->mix.rack,
                                         .life = RACK_LIFE,
                                         .resale = RACK_RESALE};
    if (kit->ppfd > 0)
        things[count++] = (struct tc_shared){
            .line = TC_BUY_SLOTS + TC_SLOT_LIGHT,
            .price = tc_currency_money(room->region.currency, room->study->plan.wall.timer_price, status),
            .life = TIMER_LIFE,
            .resale = TIMER_RESALE};
    if (share->air)
        things[count++] = (struct tc_shared){
            .line = TC_BUY_SLOTS + TC_SLOT_AIR_PUMP,
            .price = tc_money_times(share->air->price, share->air_count, status),
            .upkeep = tc_money_times(share->air->upkeep, share->air_count, status),
            .life = share->air->part->goods.life,
            .resale = share->air->part->goods.resale,
            .consumer = TC_CONSUMER_AIR_PUMP,
            .power = share->air_count * tc_part_power(share->air->part),
            .hours = 24,
        };
    for (int i = 0; i < layout->mix.models; i++) {
        const struct tc_offer *light = share->light[i];
        if (!light)
            continue;
        things[count++] = (struct tc_shared){
            .line = TC_BUY_SLOTS + TC_SLOT_LIGHT,
            .price = tc_money_times(light->price, share->light_count[i], status),
            .upkeep = tc_money_times(light->upkeep, share->light_count[i], status),
            .life = light->part->goods.life,
            .resale = light->part->goods.resale,
            .consumer = TC_CONSUMER_LIGHT,
            .power = share->light_count[i] * tc_part_power(light->part),
            .start = kit->light_start,
            .hours = kit->light_hours,
        };
    }
    return count;
}

/* What the one order of the room costs to bring, goods being the price of all of it. */
static tc_money delivery(const struct tc_region *region, tc_money goods, enum tc_status *status)
{
    tc_money free_from = tc_currency_money(region->currency, region->delivery_free_from, status);
    if (goods == 0 || (free_from > 0 && goods >= free_from))
        return 0;
    return tc_currency_money(region->currency, region->delivery, status);
}

/* Adds the tanks of all models to the layout's cost and power. */
static enum tc_status add_models(const struct tc_room *room, struct tc_layout *layout, struct tc_cost *part)
{
    for (int i = 0; i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        enum tc_status status = model_cost(room, layout, i, &layout->cost.running, part);
        if (status == TC_OK)
            status = tc_room_add(&layout->cost, part);
        if (status != TC_OK)
            return status;
        layout->power += layout->mix.count[i] * unit_power(&room->units[i]);
        if (layout->share.light[i])
            layout->power -= layout->mix.count[i] * slot_power(&room->units[i].setup, TC_SLOT_LIGHT);
    }
    return TC_OK;
}

/* Adds what the room shares. */
static enum tc_status add_shared(const struct tc_room *room, struct tc_layout *layout, struct tc_cost *part)
{
    struct tc_shared things[TC_CANDIDATES_MAX + 3];
    struct tc_tariff_margin electricity, water;
    enum tc_status status = TC_OK;
    int count = list_shared(room, layout, things, &status);
    tc_money goods = tc_money_sum(layout->cost.buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status);
    for (int i = 0; i < count; i++) {
        goods = tc_money_add(goods, things[i].price, &status);
        layout->power += things[i].power;
    }
    tc_money brought = delivery(&room->study->region, goods, &status);
    if (status != TC_OK)
        return status;
    tc_study_margins(&room->region, &layout->cost.running, &electricity, &water);
    status = tc_room_share(&room->units[0].c, &electricity, things, count, brought, part);
    return status == TC_OK ? tc_room_add(&layout->cost, part) : status;
}

static enum tc_status cost_layout(const struct tc_room *room, struct tc_layout *layout)
{
    struct tc_cost *part = malloc(sizeof *part);
    if (!part)
        return TC_NO_MEMORY;
    layout->cost = (struct tc_cost){.to_buy = 0};
    layout->power = 0;
    enum tc_status status = add_models(room, layout, part);
    if (status == TC_OK)
        status = add_shared(room, layout, part);
    free(part);
    double energy = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        energy += tc_load_year(&layout->cost.running.energy[i]);
    layout->heat = energy * 1000 / HOURS_A_YEAR;
    layout->evaporated = layout->cost.running.evaporated_total / DAYS_A_YEAR;
    return status;
}

/* ------------------------------------------------------------------------ layouts */

static bool go_on(void *context, int64_t nodes)
{
    const struct tc_ask *ask = context;
    double done = (double)nodes / MOST_NODES;
    return !ask->go_on || ask->go_on(ask->context, done < 1 ? done : 1);
}

/* Seeks the mix and works its cost out; again with less to spend where what is shared broke a limit. */
static enum tc_status fill(struct tc_room *room, struct tc_layout *layout, const struct tc_wall_model *models,
                           const struct tc_ask *ask)
{
    const struct tc_pack_effort effort = {.nodes = MOST_NODES, .go_on = go_on, .context = (void *)ask};
    struct tc_wall wall = layout->wall;
    int count = room->study->entry_count;
    for (int turn = 0; turn < CORRECTIONS; turn++) {
        tc_wall_mix_free(&layout->mix);
        layout->mix = (struct tc_wall_mix){.models = 0};
        layout->found = tc_wall_mix_find(&wall, models, count, &room->goal, &effort, &layout->mix);
        if (layout->found == TC_NO_RESULT)
            return TC_OK;
        if (layout->found != TC_OK)
            return layout->found;
        layout->share = (struct tc_room_sharing){.air = NULL};
        choose_air(room, layout);
        for (int i = 0; i < layout->mix.models; i++)
            choose_lights(room, layout, i);
        enum tc_status status = cost_layout(room, layout);
        if (status != TC_OK)
            return status;
        tc_money spent =
            wall.budget_kind == TC_WALL_TO_BUY ? layout->cost.to_buy : layout->cost.present_value;
        bool over_budget = layout->wall.budget > 0 && spent > layout->wall.budget;
        bool over_power = layout->wall.power_limit > 0 && layout->power > layout->wall.power_limit;
        if (!over_budget && !over_power)
            break;
        if (over_budget)
            wall.budget -= spent - layout->wall.budget;
        if (over_power)
            wall.power_limit -= layout->power - layout->wall.power_limit;
        if ((over_budget && wall.budget <= 0) || (over_power && wall.power_limit <= 0))
            break;
    }
    layout->highest = 0;
    for (int i = 0; i < layout->mix.columns; i++)
        if (layout->mix.column[i].tiers > layout->highest)
            layout->highest = layout->mix.column[i].tiers;
    return TC_OK;
}

static enum tc_status add_best(struct tc_room *room, const struct tc_ask *ask)
{
    struct tc_layout *layout = &room->layouts[room->layout_count++];
    *layout = (struct tc_layout){.wall = room->wall};
    snprintf(layout->name, sizeof layout->name, "best mix");
    return fill(room, layout, room->models, ask);
}

/* Whether a reached figure is better than another, for the room's goal. */
static bool better(const struct tc_room *room, double a, double b)
{
    return room->goal.aim == TC_WALL_LEAST_COST ? a < b : a > b;
}

/* All tanks of one model: the one that gets furthest. None where the best mix is of one model itself. */
static enum tc_status add_single(struct tc_room *room, const struct tc_ask *ask)
{
    const struct tc_wall_mix *mix = &room->layouts[0].mix;
    struct tc_wall_model models[TC_CANDIDATES_MAX];
    int kinds = 0, best = -1;
    double best_reached = 0;
    for (int i = 0; i < mix->models; i++)
        kinds += mix->count[i] > 0;
    if (kinds < 2)
        return TC_OK;
    struct tc_layout *layout = &room->layouts[room->layout_count];
    for (int turn = 0; turn <= mix->models; turn++) {
        int model = turn < mix->models ? turn : best;
        if (model < 0)
            return TC_OK;
        for (int i = 0; i < mix->models; i++) {
            models[i] = room->models[i];
            models[i].least = 0;
            if (i != model)
                models[i].most = 0;
        }
        tc_wall_mix_free(&layout->mix);
        *layout = (struct tc_layout){.wall = room->wall};
        snprintf(layout->name, sizeof layout->name, "all %s", room->units[model].tank.goods.name);
        enum tc_status status = fill(room, layout, models, ask);
        if (status != TC_OK)
            return status;
        if (layout->found == TC_OK && layout->mix.tanks > 0 &&
            (best < 0 || better(room, layout->mix.reached, best_reached))) {
            best = model;
            best_reached = layout->mix.reached;
        }
    }
    room->layout_count++;
    return TC_OK;
}

/* The best mix stacked one tier lower, where it is stacked at all. */
static enum tc_status add_lower(struct tc_room *room, const struct tc_ask *ask)
{
    int highest = room->layouts[0].highest;
    if (highest < 2)
        return TC_OK;
    struct tc_layout *layout = &room->layouts[room->layout_count];
    *layout = (struct tc_layout){.wall = room->wall};
    layout->wall.tiers = highest - 1;
    snprintf(layout->name, sizeof layout->name, "at most %d high", highest - 1);
    enum tc_status status = fill(room, layout, room->models, ask);
    if (status == TC_OK && layout->found == TC_OK)
        room->layout_count++;
    else
        tc_wall_mix_free(&layout->mix);
    return status;
}

enum tc_status tc_room_make(struct tc_room *room, const struct tc_study *study, const struct tc_ask *ask)
{
    *room = (struct tc_room){.study = study};
    room->region = study->region;
    room->region.delivery = 0;
    room->kit = study->kit;
    room->kit.stand = false;
    if (study->entry_count == 0)
        return refuse(ask, "the plan has no tanks to put on the wall");
    room->units = calloc((size_t)study->entry_count, sizeof *room->units);
    if (!room->units)
        return TC_NO_MEMORY;
    enum tc_status status = read_wall(room, ask);
    read_goal(room);
    for (int i = 0; status == TC_OK && i < study->entry_count; i++) {
        start_unit(room, i);
        status = make_model(room, i, ask);
    }
    if (status == TC_OK)
        status = add_best(room, ask);
    if (status == TC_OK && room->layouts[0].found == TC_OK)
        status = add_single(room, ask);
    if (status == TC_OK && room->layouts[0].found == TC_OK)
        status = add_lower(room, ask);
    return status;
}

void tc_room_free(struct tc_room *room)
{
    for (int i = 0; i < TC_LAYOUTS_MAX; i++)
        tc_wall_mix_free(&room->layouts[i].mix);
    free(room->units);
    room->units = NULL;
    room->layout_count = 0;
}

/* A layout as an entry of a study: its cost, its water and its bottom; nothing of it can be typed over. */
static void make_entry(const struct tc_room *room, const struct tc_layout *layout, struct tc_study *walls)
{
    struct tc_contender *entry = &walls->entries[walls->entry_count];
    struct tc_candidate *plan = &walls->plan.candidate[walls->entry_count++];
    *plan = room->study->plan.candidate[0];
    plan->quantity = 1;
    *entry = (struct tc_contender){.plan = plan, .index = -1, .c = room->units[0].c, .cost = layout->cost};
    entry->c.kit = &walls->kit;
    snprintf(entry->head, sizeof entry->head, "%s", layout->name);
    snprintf(entry->how, sizeof entry->how, "%d tanks", layout->mix.tanks);
    entry->prices.deal.known = true;
    entry->setup.size.water_volume = layout->mix.volume;
    entry->setup.size.bottom_area = layout->mix.area;
}

enum tc_status tc_room_ask(enum tc_status (*make)(const struct tc_study *study, const struct tc_ask *ask,
                                                  struct tc_sheet *sheet),
                           const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct tc_room room;
    struct tc_ask plain = *ask;
    plain.walls = false;
    struct tc_study *walls = malloc(sizeof *walls);
    enum tc_status status = walls ? tc_room_make(&room, study, ask) : TC_NO_MEMORY;
    if (!walls)
        return status;
    *walls = *study;
    walls->entries = calloc(TC_LAYOUTS_MAX, sizeof *walls->entries);
    walls->entry_count = 0;
    /* What the animals ask is asked of each tank: see the bill of the candidates. */
    walls->kit.least_length = walls->kit.least_bottom = walls->kit.least_height = 0;
    walls->kit.greatest_height = walls->kit.greatest_reach = 0;
    if (!walls->entries)
        status = TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && i < room.layout_count; i++)
        if (room.layouts[i].found == TC_OK && room.layouts[i].mix.tanks > 0)
            make_entry(&room, &room.layouts[i], walls);
    if (status == TC_OK)
        status = make(walls, &plain, sheet);
    free(walls->entries);
    free(walls);
    tc_room_free(&room);
    return status;
}
