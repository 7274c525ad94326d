/* SPDX-License-Identifier: MIT */
#include "core/cost/swap.h"

#include <math.h>

#include "core/cost/bound.h"

/* A swap has to lower the bill by more than rounding does, minor units. */
#define LEAST_GAIN 1.0

/* Each round lowers the bill; so many are never needed. */
enum { ROUNDS_MAX = 8 };

/* So many other parts of a slot are tried by the bill of several shops. */
enum { FEW = 4 };

/* The parts so far. */
struct swap {
    const struct tc_case *c;
    const struct tc_prices *prices;
    struct tc_equipment *equipment;
    double least; /* the present value of their bill */
    bool few;     /* only the cheapest few parts of a slot are tried */
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

/* The lowest value a swap has to stay below, over what the bill is now. */
static double gain_wanted(const struct swap *swap, const struct best *best)
{
    return (best->found ? best->value + best->handicap : swap->least - LEAST_GAIN) - swap->least;
}

/* Tries all other parts of a slot. */
static void try_all(const struct swap *swap, enum tc_slot slot, struct best *best)
{
    const struct tc_case *c = swap->c;
    struct tc_ready_offer at;
    const struct tc_fit_case fit = tc_equipment_fit_case(c, swap->equipment, slot);
    const struct tc_reserve reserve = tc_bound_reserve(&swap->bound, slot);
    for (int i = 0; i < tc_equipment_offers(c, slot); i++) {
        if (!tc_equipment_offer(c, slot, i, &at) || at.offer == swap->equipment->slot[slot].offer)
            continue;
        double gain = gain_wanted(swap, best);
        if (tc_bound_change_from(&reserve, at.each) > gain)
            break;
        if (tc_bound_change_from(&reserve, tc_fit_least(&fit.demand, slot, at)) > gain)
            continue;
        struct tc_verdict verdict = tc_fit_judge_ready(&fit, slot, at, false);
        if (verdict.fits)
            try_swap(swap, slot, &verdict, best);
    }
}

/* Whether a part comes before another among the few: the cheaper one, of equals what is first on offer. */
static bool comes_before(const struct tc_verdict *a, const struct tc_verdict *b)
{
    return a->present_value < b->present_value ||
           (a->present_value == b->present_value && a->offer < b->offer);
}

/* Tries the cheapest few of the other parts of a slot. */
static void try_few(const struct swap *swap, enum tc_slot slot, struct best *best)
{
    const struct tc_case *c = swap->c;
    struct tc_verdict few[FEW + 1];
    struct tc_ready_offer at;
    int count = 0;
    const struct tc_fit_case fit = tc_equipment_fit_case(c, swap->equipment, slot);
    for (int i = 0; i < tc_equipment_offers(c, slot); i++) {
        if (!tc_equipment_offer(c, slot, i, &at) || at.offer == swap->equipment->slot[slot].offer ||
            (count == FEW && tc_fit_least(&fit.demand, slot, at) > few[FEW - 1].present_value))
            continue;
        struct tc_verdict verdict = tc_fit_judge_ready(&fit, slot, at, false);
        if (!verdict.fits)
            continue;
        int place = count;
        for (; place > 0 && comes_before(&verdict, &few[place - 1]); place--)
            few[place] = few[place - 1];
        few[place] = verdict;
        count += count < FEW;
    }
    for (int i = 0; i < count; i++)
        try_swap(swap, slot, &few[i], best);
}

/* Tries other parts of a slot and takes the best; whether one was better. */
static bool improve_slot(struct swap *swap, enum tc_slot slot)
{
    const struct tc_case *c = swap->c;
    struct best best = {.found = false};
    if (!swap->equipment->slot[slot].offer || c->wish[slot].part || swap->prices->included[slot] > 0)
        return false; /* nothing to swap, or not ours to: the plan's, or what a bundle brings */
    if (swap->few)
        try_few(swap, slot, &best);
    else
        try_all(swap, slot, &best);
    if (!best.found)
        return false;
    *swap->equipment = best.equipment;
    swap->least = best.value;
    return true;
}

/* Swaps until nothing helps. */
static enum tc_status swap_all(const struct tc_case *c, const struct tc_prices *prices, bool few,
                               struct tc_equipment *equipment)
{
    struct swap swap = {.c = c, .prices = prices, .equipment = equipment, .few = few};
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

enum tc_status tc_swap_parts(const struct tc_case *c, const struct tc_prices *prices,
                             struct tc_equipment *equipment)
{
    if (!c->market)
        return swap_all(c, prices, false, equipment);
    struct tc_case apart = *c;
    apart.apart = true;
    enum tc_status status = swap_all(&apart, prices, false, equipment);
    return status == TC_OK ? swap_all(c, prices, !c->at_one, equipment) : status;
}
