/* SPDX-License-Identifier: MIT */
/*
 * unnamed.h - parts of which nothing is known but the tag: where the plan pins
 * "unnamed" for a slot and types its price, a part is made up that fits the
 * tank, with the life and resale of its kind and, where it uses power, the
 * watts that the slot needs. What is assumed so is named on the sheets and can
 * be typed over.
 *
 * Assumed, common practice, no source: LED lamps give 1.8 umol/J; a motor filter
 * takes 12 W for 1000 L/h; a sponge takes as much air as it moves water; an air
 * pump takes 3 W for 100 L/h.
 */
#ifndef TC_SHEET_UNNAMED_H
#define TC_SHEET_UNNAMED_H

#include "core/cost/equipment.h"
#include "profile/plan.h"

/* What pins it, and its name. */
#define TC_UNNAMED "unnamed"

/* The unnamed parts of one candidate, and all that is on offer for it with them. Owned by the study. */
struct tc_unnamed {
    struct tc_part part[TC_SLOT_COUNT];
    struct tc_offer *offers;
    int offer_count;
};

/* Whether a candidate has one in any slot. */
bool tc_unnamed_any(const struct tc_candidate *candidate);

/*
 * Makes the unnamed parts of a candidate beside what the case offers, and puts
 * them into the case. Its offers stand there `times` times, one behind the other, as
 * at several shops; so do they then, with these parts. NULL if out of memory. The status is that of
 * tc_equipment_choose, which finds what each slot needs.
 */
struct tc_unnamed *tc_unnamed_make(const struct tc_candidate *candidate, int times, struct tc_case *c,
                                   enum tc_status *status);
void tc_unnamed_free(struct tc_unnamed *unnamed);

#endif
