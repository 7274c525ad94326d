/* SPDX-License-Identifier: MIT */
/*
 * suit.h - whether a tank gives its animals what they need: the one rule, which every sheet asks.
 *
 * A need is a limit of the setup, 0 where it has none. Sizes are the tank's inner ones; half a
 * millimetre is no difference to a fish. The water is that of the year's hottest hour: a tank that gets
 * warmer than the setup's warm limit does not suit, for nothing in the model cools it, unless the setup
 * says that its keeper does (a fan, a chiller): then it suits, and a cost is missing. Territories and animals
 * are counted by what the keeper says that each takes; nothing here knows what an animal needs.
 */
#ifndef TC_CORE_COST_SUIT_H
#define TC_CORE_COST_SUIT_H

#include <stdbool.h>

#include "core/goods/setup.h"
#include "core/goods/tank.h"
#include "core/physics/heat.h"

enum tc_need {
    TC_NEED_LENGTH,      /* to swim, m */
    TC_NEED_BOTTOM,      /* m2 */
    TC_NEED_HEIGHT,      /* m */
    TC_NEED_LOW,         /* no more height than that, m */
    TC_NEED_REACH,       /* no deeper than an arm's, m */
    TC_NEED_TERRITORIES, /* so many, of the bottom that each takes */
    TC_NEED_SHOAL,       /* to swim, for a shoal, m */
    TC_NEED_ANIMALS,     /* so many, of the water that each takes */
    TC_NEED_COOL,        /* no warmer than that, K */
    TC_NEED_COUNT
};

/* A need that is not met. */
struct tc_lack {
    enum tc_need need;
    bool at_most; /* wanted is the most there may be, else the least */
    double have, wanted;
    unsigned months; /* COOL: bit 0 for January: when */
    bool accepted;   /* the keeper sees to it himself, at a cost that is not known */
};

struct tc_suit {
    bool suits; /* every need is met or accepted */
    int lack_count;
    struct tc_lack lack[TC_NEED_COUNT]; /* in the order of the needs */
};

/* No difference to a fish: so much less bottom (m2) or water (m3) than it asks for. */
#define TC_SUIT_SAME_AREA   0.00005
#define TC_SUIT_SAME_VOLUME 0.00005

/* Whole territories, and animals, that a tank holds by the setup's own rule; 0 where it has none. */
int tc_suit_territories(const struct tc_setup *setup, const struct tc_tank_size *size);
int tc_suit_animals(const struct tc_setup *setup, const struct tc_tank_size *size);

/* heat: a year of the tank as it is equipped, or NULL where it is not known and no water is too warm. */
void tc_suit_judge(const struct tc_setup *setup, const struct tc_tank_size *size,
                   const struct tc_heat_year *heat, struct tc_suit *suit);

/* Whether the suit lacks something in the sense above, and the entry for it; NULL where it is met. */
const struct tc_lack *tc_suit_lacks(const struct tc_suit *suit, enum tc_need need);

#endif
