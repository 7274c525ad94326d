/* SPDX-License-Identifier: MIT */
/*
 * counter.h - what is on offer, made ready once for many tanks: by slot, the cheapest first.
 *
 * What one piece of a part costs over the study period depends on setup, region and plan, and on no tank: it
 * is worked out once. For one tank a counter is narrowed to what could fit it. A case with a counter gets the
 * same parts as one without, sooner (tests/core/test_counter.c).
 *
 * A counter is good for cases with the same offers, setup, region, years, discount and energy price as the
 * one it was made for; a narrowed one also for that tank and the counts wished for alone.
 */
#ifndef TC_CORE_COST_COUNTER_H
#define TC_CORE_COST_COUNTER_H

#include "core/cost/fit.h"
#include "core/physics/heat.h"

/* Owns its items; borrows the offers. */
struct tc_counter {
    struct tc_ready_offer *items; /* all that have a price, by slot */
    int begin[TC_SLOT_COUNT + 1]; /* where those of a slot begin; at its end where the last end */
    bool framed;                  /* narrowed: */
    struct tc_heat_frame frame;   /* what of the tank's heat depends on no part */
};

#endif
