/* SPDX-License-Identifier: MIT */
#include "sheet/wall_study_share.h"

/* Service life and resale of a rack and a timer: common practice, no source. */
#define RACK_LIFE    20.0
#define RACK_RESALE  0.3
#define TIMER_LIFE   6.0
#define TIMER_RESALE 0.0

/* How parts are compared for a tank of the room; size may be that of a whole tier. */
static struct tc_fit_case fit_case(const struct tc_wall_study *wall_study,
                                   const struct tc_alternative *alternative, const struct tc_tank *tank,
                                   struct tc_demand demand)
{
    return (struct tc_fit_case){
        .tank = tank,
        .size = &alternative->equipment.size,
        .setup = alternative->c.setup,
        .demand = demand,
        .years = alternative->c.years,
        .discount = alternative->c.discount,
        .energy_price = alternative->c.energy_price,
        .energy_escalation = wall_study->region.electricity_escalation,
        .replacement_tax = tc_region_added_tax(&wall_study->region),
    };
}

/* The cheapest part for a slot; false where none fits. */
static bool choose_part(const struct tc_wall_study *wall_study, enum tc_slot slot,
                        const struct tc_fit_case *fit, const char *pinned, struct tc_verdict *verdict)
{
    const struct tc_study *study = wall_study->study;
    return tc_fit_choose(fit, slot, study->offers, study->offer_count, pinned, verdict);
}

/* m3/s that the filters of one tank want. */
static double unit_air(const struct tc_alternative *alternative)
{
    const struct tc_filled *filter = &alternative->equipment.slot[TC_SLOT_FILTER];
    return filter->offer ? filter->count * filter->offer->part->as.filter.air : 0;
}

/* The cheapest pump, or pumps, for the air of all filters. */
static void choose_air(const struct tc_wall_study *wall_study, struct tc_layout *layout)
{
    struct tc_wall_study_sharing *share = &layout->share;
    const struct tc_alternative *deepest = NULL;
    for (int i = 0; i < layout->mix.models; i++) {
        const struct tc_alternative *alternative = &wall_study->alternatives[i];
        share->air_flow += layout->mix.count[i] * unit_air(alternative);
        if (layout->mix.count[i] > 0 &&
            (!deepest || alternative->equipment.size.water_depth > deepest->equipment.size.water_depth))
            deepest = alternative;
    }
    if (!deepest || !(share->air_flow > 0))
        return;
    struct tc_fit_case fit = fit_case(wall_study, deepest, &deepest->c.tank,
                                      (struct tc_demand){.wanted = true, .air = share->air_flow});
    struct tc_verdict pump;
    const char *pinned = wall_study->study->plan.wall.pump;
    if (!choose_part(wall_study, TC_SLOT_AIR_PUMP, &fit, pinned[0] ? pinned : NULL, &pump))
        return;
    share->air = pump.offer;
    share->air_count = pump.count;
    share->air_weak = !pump.fits;
}

/* Tanks of one tier, from `first` on: how many, and whether all are of one model along the wall. */
static int tier_of(const struct tc_wall_mix *mix, int first, bool *alike)
{
    const struct tc_wall_tank *from = &mix->tank[first];
    int k = first;
    *alike = true;
    for (; k < mix->tanks && mix->tank[k].bay == from->bay && mix->tank[k].tier == from->tier; k++)
        *alike = *alike && mix->tank[k].model == from->model && !mix->tank[k].end_on;
    return k - first;
}

/* Lights that span all tanks of a tier of one model; false where none fits. */
static bool light_tier(const struct tc_wall_study *wall_study, const struct tc_layout *layout, int model,
                       int tanks, struct tc_verdict *light)
{
    const struct tc_alternative *alternative = &wall_study->alternatives[model];
    struct tc_demand demand = alternative->equipment.slot[TC_SLOT_LIGHT].demand;
    struct tc_tank tier = alternative->c.tank;
    tier.length = tanks * alternative->c.tank.length + (tanks - 1) * layout->wall.gap;
    demand.ppf *= tanks;
    struct tc_fit_case fit = fit_case(wall_study, alternative, &tier, demand);
    return choose_part(wall_study, TC_SLOT_LIGHT, &fit, NULL, light);
}

/* Whether one light over so many tanks of a tier is had for less than theirs, and is of the kind taken
 * before. */
static bool light_pays(const struct tc_wall_study *wall_study, const struct tc_layout *layout, int model,
                       int tanks, const struct tc_verdict *alone, struct tc_verdict *light)
{
    const struct tc_offer *taken = layout->share.light[model];
    return tanks > 1 && light_tier(wall_study, layout, model, tanks, light) &&
           (!taken || taken == light->offer) && light->present_value < tanks * alone->present_value;
}

/* Takes lights over the tiers of a model where one kind fits and costs less to own than one a tank. */
static void choose_lights(const struct tc_wall_study *wall_study, struct tc_layout *layout, int model)
{
    const struct tc_alternative *alternative = &wall_study->alternatives[model];
    const struct tc_filled *own = &alternative->equipment.slot[TC_SLOT_LIGHT];
    const struct tc_wall_mix *mix = &layout->mix;
    struct tc_wall_study_sharing *share = &layout->share;
    struct tc_fit_case fit = fit_case(wall_study, alternative, &alternative->c.tank, own->demand);
    struct tc_verdict alone, light;
    if (!own->offer || own->pinned || mix->count[model] == 0 ||
        !choose_part(wall_study, TC_SLOT_LIGHT, &fit, NULL, &alone))
        return;
    for (int first = 0, tanks; first < mix->tanks; first += tanks) {
        bool alike;
        tanks = tier_of(mix, first, &alike);
        if (!alike || mix->tank[first].model != model ||
            !light_pays(wall_study, layout, model, tanks, &alone, &light))
            continue;
        int circuit = mix->bay[mix->tank[first].bay].circuit;
        double more = light.count * tc_part_power(light.offer->part) -
                      tanks * own->count * tc_part_power(own->offer->part);
        if (circuit > 0 && more > 0)
            continue; /* only the first circuit has something set aside */
        share->light[model] = light.offer;
        share->light_power[circuit] += more;
        share->light_count[model] += light.count;
        share->lights_saved[model] += tanks * own->count;
    }
    if (share->light[model])
        share->lights_left[model] = mix->count[model] * own->count - share->lights_saved[model];
}

void tc_wall_study_share_out(const struct tc_wall_study *wall_study, struct tc_layout *layout)
{
    layout->share = (struct tc_wall_study_sharing){.air = NULL};
    choose_air(wall_study, layout);
    for (int i = 0; i < layout->mix.models; i++)
        choose_lights(wall_study, layout, i);
}

int tc_wall_study_tiers(const struct tc_layout *layout)
{
    int tiers = 0;
    for (int i = 0; i < layout->mix.bays; i++)
        tiers += layout->mix.bay[i].tiers;
    return tiers;
}

/* Before tax, which the wall's own price of a tier holds. */
static tc_money rack_price(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                           enum tc_status *status)
{
    tc_money tier =
        tc_currency_money(wall_study->region.currency, wall_study->study->plan.wall.rack_price, status);
    return tc_money_times(tier, tc_wall_study_tiers(layout), status);
}

/* Of a model: they burn as its setup says. */
static struct tc_shared lights(const struct tc_setup *setup, const struct tc_offer *light, int count,
                               enum tc_status *status)
{
    return (struct tc_shared){
        .line = TC_BUY_SLOTS + TC_SLOT_LIGHT,
        .price = tc_money_times(light->price, count, status),
        .upkeep = tc_money_times(light->upkeep, count, status),
        .life = light->part->goods.life,
        .resale = light->part->goods.resale,
        .consumer = TC_CONSUMER_LIGHT,
        .power = count * tc_part_power(light->part),
        .start = setup->light_start,
        .hours = setup->light_hours,
    };
}

/* Whether the lights of a model burn at the hours of one before it. */
static bool timed_before(const struct tc_wall_study *wall_study, const struct tc_layout *layout, int model)
{
    const struct tc_setup *setup = wall_study->alternatives[model].c.setup;
    for (int i = 0; i < model; i++) {
        const struct tc_setup *other = wall_study->alternatives[i].c.setup;
        if (layout->mix.count[i] > 0 && other->ppfd > 0 && other->light_start == setup->light_start &&
            other->light_hours == setup->light_hours)
            return true;
    }
    return false;
}

int tc_wall_study_timers(const struct tc_wall_study *wall_study, const struct tc_layout *layout)
{
    int timers = 0;
    for (int i = 0; i < layout->mix.models; i++)
        timers += layout->mix.count[i] > 0 && wall_study->alternatives[i].c.setup->ppfd > 0 &&
                  !timed_before(wall_study, layout, i);
    return timers;
}

/* Says what the last of so many things is. */
static void is(struct tc_wall_thing what[], int count, enum tc_wall_thing_kind kind,
               const struct tc_offer *offer, int pieces, const struct tc_setup *setup)
{
    if (what)
        what[count - 1] = (struct tc_wall_thing){kind, offer, pieces, setup};
}

/* The lights of a model over its tiers, and those of its tanks that have their own all the same. */
static int add_lights(const struct tc_wall_study *wall_study, const struct tc_layout *layout, int model,
                      struct tc_shared things[], struct tc_wall_thing what[], int count,
                      enum tc_status *status)
{
    const struct tc_wall_study_sharing *share = &layout->share;
    const struct tc_alternative *alternative = &wall_study->alternatives[model];
    const struct tc_offer *over = share->light[model],
                          *own = alternative->equipment.slot[TC_SLOT_LIGHT].offer;
    int left = share->lights_left[model];
    if (!over)
        return count;
    things[count++] = lights(alternative->c.setup, over, share->light_count[model], status);
    is(what, count, TC_THING_PART, over, share->light_count[model], alternative->c.setup);
    if (left > 0) {
        things[count++] = lights(alternative->c.setup, own, left, status);
        is(what, count, TC_THING_PART, own, left, alternative->c.setup);
    }
    return count;
}

int tc_wall_study_shared(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                         struct tc_shared things[TC_ROOM_SHARED_MAX],
                         struct tc_wall_thing what[TC_ROOM_SHARED_MAX], enum tc_status *status)
{
    const struct tc_wall_study_sharing *share = &layout->share;
    int count = 0, timers = tc_wall_study_timers(wall_study, layout);
    things[count++] = (struct tc_shared){.line = TC_BUY_SLOTS + TC_SLOT_STAND,
                                         .price = rack_price(wall_study, layout, status),
                                         .life = RACK_LIFE,
                                         .resale = RACK_RESALE};
    is(what, count, TC_THING_RACK, NULL, tc_wall_study_tiers(layout), NULL);
    if (timers > 0)
        things[count++] = (struct tc_shared){
            .line = TC_BUY_SLOTS + TC_SLOT_LIGHT,
            .price = tc_money_times(tc_currency_money(wall_study->region.currency,
                                                      wall_study->study->plan.wall.timer_price, status),
                                    timers, status),
            .life = TIMER_LIFE,
            .resale = TIMER_RESALE};
    if (timers > 0)
        is(what, count, TC_THING_TIMER, NULL, timers, NULL);
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
    if (share->air)
        is(what, count, TC_THING_PART, share->air, share->air_count, NULL);
    for (int i = 0; i < layout->mix.models; i++)
        count = add_lights(wall_study, layout, i, things, what, count, status);
    return count;
}
