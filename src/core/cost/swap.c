/* SPDX-License-Identifier: MIT */
#include "core/cost/swap.h"

#include <math.h>

#include "core/cost/bound.h"

/* A swap has to lower the bill by more than rounding does, minor units. */
#define LEAST_GAIN 1.0

/* Each round lowers the bill; so many are never needed. */
enum { ROUNDS_MAX = 8 };

/* The parts so far. */
struct swap {
    const struct tc_case *c;
    const struct tc_prices *prices;
    struct tc_equipment *equipment;
    double least; /* the present value of their bill */
    struct tc_bound bound;
};

static double own_cost(const struct tc_case *c, const struct tc_filled *filled)
{
    return filled->present_value * (filled->shared ? 1 : c->quantity);
}

/*
 * The equipment with one part swapped, all else as it is, or chosen again where it
 * follows from that part; false where it does not go.
 */
static bool swapped(const struct swap *swap, enum tc_slot slot, const struct tc_verdict *verdict, bool anew,
                    struct tc_equipment *other)
{
    struct tc_ready_offer only[TC_SLOT_COUNT];
    tc_equipment_keep(swap->equipment, anew ? slot : TC_SLOT_COUNT, only);
    only[slot] = (struct tc_ready_offer){verdict->offer, verdict->each, 0, 0};
    if (tc_equipment_fill(swap->c, only, other) != TC_OK || !other->slot[slot].offer)
        return false;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *was = &swap->equipment->slot[i], *is = &other->slot[i];
        if ((is->missing && !was->missing) || (is->ill_fitting && !was->ill_fitting))
            return false;
    }
    return true;
}

/* Whether what was chosen anew are the parts that were there. */
static bool follows_suit(const struct tc_equipment *was, const struct tc_equipment *is, enum tc_slot slot)
{
    for (int i = 0; i < TC_SLOT_COUNT; i++)
        if (i != (int)slot && was->slot[i].offer != is->slot[i].offer)
            return false;
    return true;
}

/* The best swap of a slot found so far. */
struct best {
    bool found;
    struct tc_equipment equipment;
    double value;    /* of its bill */
    double handicap; /* for more pieces than there were */
};

/* Takes an equipment where its bill is lower than that of the best; of equals what is first on offer. */
static void take_if_better(const struct swap *swap, enum tc_slot slot, const struct tc_equipment *other,
                           struct best *best)
{
    const struct tc_filled *was = &swap->equipment->slot[slot], *is = &other->slot[slot];
    double handicap = is->count > was->count ? TC_FIT_FEWER * fabs(own_cost(swap->c, was)) : 0;
    double bound = best->found ? best->value + best->handicap : swap->least - LEAST_GAIN, value;
    if (swap->least + tc_bound_change(&swap->bound, other) + handicap > bound)
        return;
    if (tc_cost_value(swap->c, other, swap->prices, &value) != TC_OK || value + handicap > bound)
        return;
    if (value + handicap == bound && (!best->found || is->offer >= best->equipment.slot[slot].offer))
        return;
    *best = (struct best){true, *other, value, handicap};
}

static void try_swap(const struct swap *swap, enum tc_slot slot, const struct tc_verdict *verdict,
                     struct best *best)
{
    struct tc_equipment anew, plain;
    double bound = best->found ? best->value + best->handicap : swap->least - LEAST_GAIN;
    if (swap->least + tc_bound_change_of(&swap->bound, slot, verdict) > bound)
        return;
    bool goes = swapped(swap, slot, verdict, true, &anew);
    if (goes)
        take_if_better(swap, slot, &anew, best);
    if (!(goes && follows_suit(swap->equipment, &anew, slot)) && swapped(swap, slot, verdict, false, &plain))
        take_if_better(swap, slot, &plain, best);
}

/* Tries all other parts of a slot and takes the best; whether one was better. */
static bool improve_slot(struct swap *swap, enum tc_slot slot)
{
    const struct tc_case *c = swap->c;
    const struct tc_filled *filled = &swap->equipment->slot[slot];
    struct best best = {.found = false};
    struct tc_ready_offer at;
    if (!filled->offer || c->wish[slot].part || swap->prices->included[slot] > 0)
        return false; /* nothing to swap, or not ours to: the plan's, or what a bundle brings */
    const struct tc_fit_case fit = tc_equipment_fit_case(c, swap->equipment, slot);
    const struct tc_reserve reserve = tc_bound_reserve(&swap->bound, slot);
    for (int i = 0; i < tc_equipment_offers(c, slot); i++) {
        if (!tc_equipment_offer(c, slot, i, &at) || at.offer == filled->offer)
            continue;
        double gain = (best.found ? best.value + best.handicap : swap->least - LEAST_GAIN) - swap->least;
        if (tc_bound_change_from(&reserve, at.each) > gain)
            break;
        if (tc_bound_change_from(&reserve, tc_fit_least(&fit.demand, slot, at)) > gain)
            continue;
        struct tc_verdict verdict = tc_fit_judge_ready(&fit, slot, at, false);
        if (verdict.fits)
            try_swap(swap, slot, &verdict, &best);
    }
    if (!best.found)
        return false;
    *swap->equipment = best.equipment;
    swap->least = best.value;
    return true;
}

enum tc_status tc_swap_parts(const struct tc_case *c, const struct tc_prices *prices,
                             struct tc_equipment *equipment)
{
    struct swap swap = {.c = c, .prices = prices, .equipment = equipment};
    enum tc_status status = tc_cost_value(c, equipment, prices, &swap.least);
    if (status != TC_OK)
        return status;
    tc_bound_bill(&swap.bound, c, equipment, prices);
    int since = 0; /* slots looked at since the last swap */
    for (int i = 0; since < TC_SLOT_COUNT && i < ROUNDS_MAX * TC_SLOT_COUNT; i++, since++) {
        if (!improve_slot(&swap, tc_fit_order[i % TC_SLOT_COUNT]))
            continue;
        since = 0;
        tc_bound_bill(&swap.bound, c, equipment, prices);
    }
    return TC_OK;
}
