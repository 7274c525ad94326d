/* SPDX-License-Identifier: MIT */
#include "core/cost/swap.h"

#include <math.h>

/* A swap has to lower the bill by more than rounding does, minor units. */
#define LEAST_GAIN 1.0

/* Each round lowers the bill; so many are never needed. */
enum { ROUNDS_MAX = 8 };

static double own_cost(const struct tc_case *c, const struct tc_filled *filled)
{
    return filled->present_value * (filled->shared ? 1 : c->quantity);
}

/* Whether what fills a slot follows from the part in another. */
static bool follows(enum tc_slot slot, enum tc_slot from)
{
    return slot == TC_SLOT_HEATER || slot == TC_SLOT_AIR_PUMP || slot == TC_SLOT_STAND ||
           (slot == TC_SLOT_LIGHT && from == TC_SLOT_LID);
}

/* The most that a part's swap can save elsewhere: all of the heater, and delivery. */
static double most_saved(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot)
{
    const struct tc_region *region = c->region;
    double saved =
        region->delivery_free_from > 0 ? region->delivery * tc_currency_scale(region->currency) : 0;
    const struct tc_slot_wish *wish = &c->wish[slot];
    if (!isnan(wish->price) || !isnan(wish->next) || !isnan(wish->life) || !isnan(wish->resale))
        return INFINITY; /* what is typed for the slot counts whatever fills it */
    if (slot == TC_SLOT_SUBSTRATE)
        return INFINITY; /* it stands in the place of water, which is changed, conditioned and warmed */
    if (slot == TC_SLOT_STAND || slot == TC_SLOT_AIR_PUMP)
        return saved;
    struct tc_heat_case heat = tc_equipment_heat(c, equipment);
    struct tc_heat_year year;
    if (tc_heat_year(&heat, &year) != TC_OK)
        return INFINITY;
    return saved + own_cost(c, &equipment->slot[TC_SLOT_HEATER]) +
           c->quantity * year.heater_total * c->energy_price *
               tc_escalated_present_value(c->discount, region->electricity_escalation, c->years);
}

/*
 * The equipment with one part swapped, all else as it is, or chosen again where it
 * follows from that part; false where it does not go.
 */
static bool swapped(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot,
                    const struct tc_offer *offer, bool anew, struct tc_equipment *other)
{
    struct tc_case trial = *c;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *filled = &equipment->slot[i];
        if (!trial.wish[i].part && filled->offer && !(anew && follows((enum tc_slot)i, slot)))
            trial.wish[i].part = filled->offer->part->goods.name;
    }
    trial.wish[slot].part = offer->part->goods.name;
    if (tc_equipment_choose(&trial, other) != TC_OK)
        return false;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *was = &equipment->slot[i];
        struct tc_filled *is = &other->slot[i];
        if ((is->missing && !was->missing) || (is->ill_fitting && !was->ill_fitting))
            return false;
        if (is->pinned && !c->wish[i].part) { /* by the trial, not by the plan */
            is->pinned = false;
            if (is->reason.code == TC_FITS_PINNED)
                is->reason.code = TC_FITS;
        }
    }
    return true;
}

/* Swaps a part where that lowers the bill; whether it did. */
static bool take_if_better(const struct tc_case *c, const struct tc_prices *prices, enum tc_slot slot,
                           const struct tc_offer *offer, bool anew, struct tc_equipment *equipment,
                           double *least)
{
    const struct tc_filled *filled = &equipment->slot[slot];
    struct tc_equipment other;
    double value;
    if (!swapped(c, equipment, slot, offer, anew, &other) ||
        tc_cost_value(c, &other, prices, &value) != TC_OK)
        return false;
    double handicap = other.slot[slot].count > filled->count ? TC_FIT_FEWER * fabs(own_cost(c, filled)) : 0;
    if (value >= *least - LEAST_GAIN - handicap)
        return false;
    *equipment = other;
    *least = value;
    return true;
}

/* Tries all other parts of a slot and keeps the best; whether there was a better one. */
static bool improve_slot(const struct tc_case *c, const struct tc_prices *prices, enum tc_slot slot,
                         struct tc_equipment *equipment, double *least)
{
    bool better = false;
    if (!equipment->slot[slot].offer || c->wish[slot].part || prices->included[slot] > 0)
        return false; /* nothing to swap, or not ours to: the plan's, or what a bundle brings */
    double saved = most_saved(c, equipment, slot);
    for (int i = 0; i < c->offer_count; i++) {
        const struct tc_filled *filled = &equipment->slot[slot];
        const struct tc_offer *offer = &c->offers[i];
        if (offer->part->slot != slot || offer == filled->offer)
            continue;
        struct tc_verdict verdict = tc_equipment_judge(c, equipment, offer);
        double dearer = verdict.present_value * (filled->shared ? 1 : c->quantity) - own_cost(c, filled);
        if (!verdict.fits || dearer > saved)
            continue;
        bool taken = take_if_better(c, prices, slot, offer, true, equipment, least);
        if (!taken)
            taken = take_if_better(c, prices, slot, offer, false, equipment, least);
        better = better || taken;
    }
    return better;
}

enum tc_status tc_swap_parts(const struct tc_case *c, const struct tc_prices *prices,
                             struct tc_equipment *equipment)
{
    double least;
    enum tc_status status = tc_cost_value(c, equipment, prices, &least);
    bool better = status == TC_OK;
    for (int round = 0; better && round < ROUNDS_MAX; round++) {
        better = false;
        for (int i = 0; i < TC_SLOT_COUNT; i++)
            better |= improve_slot(c, prices, tc_fit_order[i], equipment, &least);
    }
    return status;
}
