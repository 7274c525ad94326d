/* SPDX-License-Identifier: MIT */
#include "core/cost/choose.h"

#include <math.h>

#include "core/cost/bound.h"
#include "core/cost/lifecycle.h"

/* What tells one choice of parts from another: slots that nothing fits, or what the plan pins does not; then
 * money, minor units. */
struct worth {
    int missing;
    double parts; /* present value */
    double heat;  /* of the heater's energy at the price of a further joule */
};

/* The choice found best so far, and what it was found with. */
struct found {
    struct tc_equipment equipment;
    struct tc_ready_offer offer;
    struct worth worth;
    struct tc_heat_year year;
};

static double own_value(const struct tc_case *c, const struct tc_filled *filled)
{
    return filled->present_value * (filled->shared ? 1 : c->quantity);
}

static void add_parts(const struct tc_case *c, const struct tc_equipment *equipment, struct worth *worth)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        worth->missing += equipment->slot[slot].missing || equipment->slot[slot].ill_fitting;
        worth->parts += own_value(c, &equipment->slot[slot]);
    }
}

/* What the heat of so many joules a year in each tank costs over the study period. */
static double heat_value(const struct tc_case *c, double joules)
{
    return c->quantity * joules * c->energy_price *
           tc_escalated_present_value(c->discount, c->region->electricity_escalation, c->years);
}

static enum tc_status add_heat(const struct tc_case *c, struct found *found)
{
    const struct tc_heat_year *year;
    enum tc_status status = tc_equipment_heat_year(c, &found->equipment, &found->year, &year);
    if (status != TC_OK)
        return status;
    if (year != &found->year)
        found->year = *year;
    found->worth.heat = heat_value(c, found->year.heater_total);
    return TC_OK;
}

static double sum_of(struct worth worth)
{
    return worth.parts + worth.heat;
}

static bool better(struct worth a, struct worth b)
{
    return a.missing < b.missing || (a.missing == b.missing && sum_of(a) < sum_of(b));
}

/* True if the choice for this slot decides what other slots need. */
static bool has_followers(const struct tc_case *c, const struct tc_fit_case *fit, enum tc_slot slot)
{
    struct tc_ready_offer at;
    if (slot == TC_SLOT_LID)
        return true; /* a light that reaches through it, a heater for what it lets out */
    for (int i = 0; i < tc_equipment_offers(c, slot); i++)
        if (tc_equipment_offer(c, slot, i, &at) && at.offer->part->as.filter.air > 0 &&
            tc_fit_judge_ready(fit, slot, at, false).fits)
            return true; /* an air pump */
    return false;
}

/* Looks at one offer in place of the first choice's, and takes it if that is better than the best. */
static void try_offer(const struct tc_case *c, enum tc_slot slot,
                      const struct tc_ready_offer only[TC_SLOT_COUNT], const struct found *first,
                      const struct tc_bound *bound, struct found *best)
{
    struct found other = {.offer = only[slot]};
    double gain = sum_of(best->worth) - sum_of(first->worth);
    if (tc_equipment_fill(c, only, &other.equipment) != TC_OK)
        return;
    add_parts(c, &other.equipment, &other.worth);
    bool as_whole = other.worth.missing >= best->worth.missing;
    if (as_whole && tc_bound_change(bound, &other.equipment) > gain)
        return;
    if (add_heat(c, &other) != TC_OK || better(best->worth, other.worth))
        return;
    bool same = !better(other.worth, best->worth);
    if (same && (best->offer.offer == first->offer.offer || best->offer.offer < other.offer.offer))
        return; /* of equals the first choice, then the one that is first on offer */
    *best = other;
}

/* Tries each part that fits a slot, with all that follows from it, and keeps the choice that costs least. */
static enum tc_status choose_by_followers(const struct tc_case *c, enum tc_slot slot,
                                          struct tc_equipment *equipment)
{
    const struct tc_filled *filled = &equipment->slot[slot];
    if (!filled->offer || filled->pinned)
        return TC_OK;
    struct found first = {.equipment = *equipment, .offer = {filled->offer, filled->each, 0, 0}};
    struct tc_fit_case fit = tc_equipment_fit_case(c, &first.equipment, slot);
    if (!has_followers(c, &fit, slot))
        return TC_OK;
    struct tc_ready_offer only[TC_SLOT_COUNT];
    tc_equipment_keep(&first.equipment, slot, only);
    add_parts(c, equipment, &first.worth);
    enum tc_status status = add_heat(c, &first);
    struct found best = first;
    struct tc_bound bound;
    tc_bound_parts(&bound, c, &first.equipment, &first.year);
    const struct tc_reserve reserve = tc_bound_reserve(&bound, slot);
    for (int i = 0; status == TC_OK && i < tc_equipment_offers(c, slot); i++) {
        if (!tc_equipment_offer(c, slot, i, &only[slot]) || only[slot].offer == first.offer.offer)
            continue;
        double gain = sum_of(best.worth) - sum_of(first.worth);
        double least = tc_fit_least(&fit.demand, slot, only[slot]);
        if (best.worth.missing == 0 && tc_bound_change_from(&reserve, only[slot].each) > gain)
            break;
        if (best.worth.missing == 0 && tc_bound_change_from(&reserve, least) > gain)
            continue;
        struct tc_verdict verdict = tc_fit_judge_ready(&fit, slot, only[slot], false);
        if (!verdict.fits || (best.worth.missing == 0 && tc_bound_change_of(&bound, slot, &verdict) > gain))
            continue;
        try_offer(c, slot, only, &first, &bound, &best);
    }
    *equipment = best.equipment;
    return status;
}

enum tc_status tc_equipment_choose(const struct tc_case *c, struct tc_equipment *equipment)
{
    const struct tc_ready_offer any[TC_SLOT_COUNT] = {{NULL, NAN, 0, 0}};
    enum tc_status status = tc_equipment_fill(c, any, equipment);
    if (status == TC_OK)
        status = choose_by_followers(c, TC_SLOT_LID, equipment);
    if (status == TC_OK)
        status = choose_by_followers(c, TC_SLOT_FILTER, equipment);
    return status;
}
