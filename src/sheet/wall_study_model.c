/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_model.h"
#include "sheet/study_deal.h"

#include <stdio.h>
#include <string.h>

static enum tc_status refuse(const struct tc_ask *ask, const char *problem)
{
    if (ask->problem)
        snprintf(ask->problem, TC_PROBLEM_SIZE, "%s", problem);
    return TC_SYNTAX;
}

/* Further stretches, one behind the other; what is not said of one is as of the first. */
static void read_stretches(struct tc_wall_study *wall_study)
{
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    struct tc_wall *wall = &wall_study->wall;
    for (int i = 0; i < TC_WALL_STRETCHES_MAX - 1; i++) {
        if (!(plan->more_length[i] > 0))
            continue;
        wall->more[wall->more_stretches++] = (struct tc_wall_stretch){
            .length = plan->more_length[i],
            .height = plan->more_height[i] > 0 ? plan->more_height[i] : wall->height,
            .depth = plan->more_depth[i] > 0 ? plan->more_depth[i] : wall->depth,
        };
    }
}

/* What the breakers carry for hours, less what else runs; false where one has nothing left. */
static bool read_circuits(struct tc_wall_study *wall_study)
{
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    struct tc_wall *wall = &wall_study->wall;
    int count = 0;
    for (int i = -1; i < TC_WALL_CIRCUITS_MAX - 1; i++) {
        double current = i < 0 ? plan->circuit_current : plan->more_current[i];
        if (!(current > 0))
            continue;
        double left = tc_wall_continuous_power(plan->circuit_voltage, current, TC_WALL_CONTINUOUS_SHARE) -
                      (i < 0 ? plan->circuit_used : plan->more_used[i]);
        if (left <= 0)
            return false;
        if (count++ == 0)
            wall->power_limit = left;
        else
            wall->more_power[wall->more_circuits++] = left;
    }
    return true;
}

static enum tc_status read_wall(struct tc_wall_study *wall_study, const struct tc_ask *ask)
{
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    struct tc_currency currency = wall_study->study->region.currency;
    enum tc_status status = TC_OK;
    if (!tc_plan_has_wall(&wall_study->study->plan))
        return refuse(ask,
                      "the plan has no wall: give its length, height and depth, like wall/length = 12 ft");
    wall_study->wall = (struct tc_wall){
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
        /* Budgets are held against what is paid. */
        .tier_price = tc_currency_money(
            currency, plan->rack_price * (1 + tc_region_added_tax(&wall_study->region)), &status),
        .tier_rating = plan->rack_load,
        .bay_rating = plan->bay_load,
        .floor_limit = plan->floor_load,
        .budget = tc_currency_money(currency, plan->budget, &status),
        .budget_kind = plan->budget_for == TC_BUDGET_OWNING ? TC_WALL_OVER_PERIOD : TC_WALL_TO_BUY,
    };
    read_stretches(wall_study);
    if (tc_wall_room_read(&plan->room, &wall_study->room) != TC_OK)
        return refuse(ask,
                      "the figures of the room contradict each other: its walls that lead outdoors are no "
                      "longer than all its walls, and its windows no larger than those");
    if (!read_circuits(wall_study))
        return refuse(ask, "a circuit has nothing left: its other load is more than it may carry for hours");
    if (status == TC_OK && tc_wall_check(&wall_study->wall) != TC_OK)
        return refuse(ask, "a figure of the plan's wall is beyond any sensible size");
    return status;
}

static void read_goal(struct tc_wall_study *wall_study)
{
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    wall_study->goal = (struct tc_wall_goal){
        .aim = plan->objective, .wanted = plan->wanted, .money = wall_study->wall.budget_kind};
    if (!plan->fixed)
        return;
    wall_study->goal.aim = TC_WALL_LEAST_COST;
    wall_study->goal.wanted = 0;
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        wall_study->goal.wanted += wall_study->study->alternatives[i].plan->quantity;
}

/* The extras of each tank alone: those of a candidate come once for the room (wall_study_cost.c). */
static void keep_tank_extras(struct tc_case *c)
{
    for (int i = 0; i < c->due_count; i++)
        if (!c->due[i].each_tank)
            c->due[i].amount = 0;
}

/* An alternative as one tank on the rack: no stand and no air pump of its own, nothing for delivery. */
static void start_unit(struct tc_wall_study *wall_study, int index)
{
    struct tc_alternative *alternative = &wall_study->alternatives[index];
    *alternative = wall_study->study->alternatives[index];
    wall_study->setups[index] = *alternative->c.setup;
    wall_study->setups[index].stand = false;
    if (wall_study->heated && !wall_study->warmth.keeps[index])
        wall_study->setups[index].heater = false;
    alternative->c.setup = &wall_study->setups[index];
    alternative->c.region = &wall_study->region;
    alternative->c.quantity = alternative->terms.quantity = 1;
    keep_tank_extras(&alternative->c);
    alternative->c.wish[TC_SLOT_STAND].part = "";
    alternative->c.wish[TC_SLOT_AIR_PUMP].part = "";
}

/*
 * Whether a tank suits its animals. How warm its water gets is told by the room of the wall, where that is
 * known, and by the region's where not; all else by the plan.
 */
static bool suits(const struct tc_wall_study *wall_study, int index)
{
    const struct tc_alternative *alternative = &wall_study->alternatives[index];
    struct tc_suit suit = wall_study->study->alternatives[index].suit;
    if (wall_study->room.known)
        tc_suit_judge(alternative->c.setup, &alternative->equipment.size, &alternative->cost.running.heat,
                      &suit);
    return suit.suits;
}

/* Why a model stands nowhere, however many are wanted. */
static enum tc_wall_bar find_bar(const struct tc_wall_study *wall_study, int index)
{
    if (!wall_study->alternatives[index].prices.deal.known)
        return TC_WALL_BAR_PRICE;
    if (wall_study->unsuited[index])
        return TC_WALL_BAR_SUIT;
    if (wall_study->hot[index])
        return TC_WALL_BAR_WARM;
    return wall_study->alternatives[index].cost.incomplete ? TC_WALL_BAR_EQUIPMENT : TC_WALL_BAR_NONE;
}

/* What one tank of an alternative costs with this deal: to buy and over the period. */
static enum tc_status unit_cost(struct tc_wall_study *wall_study, struct tc_alternative *alternative,
                                const struct tc_deal *deal, tc_money price[2])
{
    enum tc_status status = tc_study_cost(wall_study->study, alternative, deal, &alternative->equipment,
                                          &alternative->prices, &alternative->cost);
    price[TC_WALL_TO_BUY] = alternative->cost.to_buy;
    price[TC_WALL_OVER_PERIOD] = alternative->cost.present_value;
    return status;
}

double tc_wall_study_slot_power(const struct tc_equipment *equipment, enum tc_slot slot)
{
    const struct tc_filled *filled = &equipment->slot[slot];
    return filled->offer ? filled->count * tc_part_power(filled->offer->part) : 0;
}

/* The parts of one tank, all on at once; its air comes from the pump of all. */
double tc_wall_study_unit_power(const struct tc_alternative *alternative)
{
    double sum = 0;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        sum += tc_wall_study_slot_power(&alternative->equipment, (enum tc_slot)slot);
    return sum;
}

/* The same at list price, or as it is where it is bought so, and on sale. */
static enum tc_status unit_costs(struct tc_wall_study *wall_study, struct tc_alternative *alternative,
                                 const struct tc_deal *list, const struct tc_deal *deal, tc_money listed[2],
                                 tc_money on_sale[2])
{
    enum tc_status status = unit_cost(wall_study, alternative, list, listed);
    return status == TC_OK ? unit_cost(wall_study, alternative, deal, on_sale) : status;
}

static void put_prices(struct tc_wall_model *model, const tc_money listed[2], const tc_money on_sale[2])
{
    for (int money = 0; money < 2; money++) {
        model->price[money] = listed[money];
        model->sale_price[money] = on_sale[money] < listed[money] ? on_sale[money] : listed[money];
    }
}

static enum tc_status make_model(struct tc_wall_study *wall_study, int index, const struct tc_ask *ask)
{
    struct tc_alternative *alternative = &wall_study->alternatives[index];
    const struct tc_candidate *plan = alternative->plan;
    struct tc_wall_model *model = &wall_study->models[index];
    struct tc_deal list, deal;
    struct tc_deal_terms at_list = alternative->terms;
    at_list.sale = NULL;
    enum tc_status status = tc_deal_make(&alternative->terms, &deal);
    if (status == TC_OK)
        status = tc_deal_make(&at_list, &list);
    if (status != TC_OK)
        return status;
    tc_money listed[2] = {0}, on_sale[2] = {0};
    bool limited = deal.kind == TC_DEAL_SALE && deal.sale->limit > 0 && list.known;
    if (deal.known)
        status = unit_costs(wall_study, alternative, limited ? &list : &deal, &deal, listed, on_sale);
    if (status != TC_OK)
        return status;
    *model = (struct tc_wall_model){
        .length = alternative->c.tank.length,
        .width = alternative->c.tank.width,
        .height = alternative->c.tank.height,
        .mass = alternative->equipment.size.filled_mass,
        .area = alternative->equipment.size.bottom_area,
        .volume = alternative->equipment.size.water_volume,
        .power = tc_wall_study_unit_power(alternative),
        .sale_most = limited ? deal.sale->limit : 0,
        .most = plan->wall_most > 0 ? plan->wall_most : TC_WALL_UNLIMITED,
        .least = plan->wall_least,
    };
    if (wall_study->study->plan.wall.fixed)
        model->least = model->most = plan->quantity;
    put_prices(model, listed, on_sale);
    if (!wall_study->judged)
        wall_study->unsuited[index] = deal.known && !suits(wall_study, index);
    wall_study->barred[index] = find_bar(wall_study, index);
    if (wall_study->barred[index] != TC_WALL_BAR_NONE)
        model->least = model->most = 0;
    return tc_wall_check_model(model) == TC_OK
               ? TC_OK
               : refuse(ask, "a tank of the plan cannot stand on a wall: look at its sizes and counts");
}

enum tc_status tc_wall_study_model(struct tc_wall_study *wall_study, const struct tc_ask *ask)
{
    if (wall_study->study->alternative_count == 0)
        return refuse(ask, "the plan has no tanks to put on the wall");
    if (wall_study->study->alternative_count > TC_CANDIDATES_MAX)
        return refuse(ask, "too many tanks for one wall");
    enum tc_status status = read_wall(wall_study, ask);
    read_goal(wall_study);
    for (int i = 0; status == TC_OK && i < wall_study->study->alternative_count; i++) {
        start_unit(wall_study, i);
        status = make_model(wall_study, i, ask);
    }
    wall_study->judged = true;
    return status;
}
