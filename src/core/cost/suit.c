/* SPDX-License-Identifier: MIT */
#include "core/cost/suit.h"

#include <math.h>

/* No difference to a fish: half a millimetre, a hundredth of a kelvin. */
#define SAME_LENGTH      0.0005
#define SAME_TEMPERATURE 0.01

enum { HELD_MOST = 1000000 };

/* How many times what each takes goes into what there is. */
static int held(double have, double each, double slack)
{
    return each > 0 ? (int)fmin(floor((have + slack) / each), HELD_MOST) : 0;
}

int tc_suit_territories(const struct tc_setup *setup, const struct tc_tank_size *size)
{
    return held(size->bottom_area, setup->territory, TC_SUIT_SAME_AREA);
}

int tc_suit_animals(const struct tc_setup *setup, const struct tc_tank_size *size)
{
    return held(size->water_volume, setup->water_each, TC_SUIT_SAME_VOLUME);
}

static void add(struct tc_suit *suit, struct tc_lack lack, double slack)
{
    double missing = lack.at_most ? lack.have - lack.wanted : lack.wanted - lack.have;
    if (!(lack.wanted > 0) || missing <= slack)
        return;
    suit->lack[suit->lack_count++] = lack;
    suit->suits = suit->suits && lack.accepted;
}

/* The months in which the water is warmer than that. */
static unsigned warm_months(const struct tc_heat_year *heat, double limit)
{
    unsigned months = 0;
    for (int month = 0; month < 12; month++)
        if (heat->water_highest[month] > limit + SAME_TEMPERATURE)
            months |= 1U << month;
    return months;
}

void tc_suit_judge(const struct tc_setup *setup, const struct tc_tank_size *size,
                   const struct tc_heat_year *heat, struct tc_suit *suit)
{
    *suit = (struct tc_suit){.suits = true};
    add(suit, (struct tc_lack){TC_NEED_LENGTH, false, size->swim_length, setup->least_length, 0, false},
        SAME_LENGTH);
    add(suit, (struct tc_lack){TC_NEED_BOTTOM, false, size->bottom_area, setup->least_bottom, 0, false},
        TC_SUIT_SAME_AREA);
    add(suit, (struct tc_lack){TC_NEED_HEIGHT, false, size->inner_height, setup->least_height, 0, false},
        SAME_LENGTH);
    add(suit, (struct tc_lack){TC_NEED_LOW, true, size->inner_height, setup->greatest_height, 0, false},
        SAME_LENGTH);
    add(suit, (struct tc_lack){TC_NEED_REACH, true, size->reach, setup->greatest_reach, 0, false},
        SAME_LENGTH);
    int territories = setup->territory > 0 ? setup->territory_count : 0;
    int animals = setup->water_each > 0 ? setup->animal_count : 0;
    add(suit,
        (struct tc_lack){TC_NEED_TERRITORIES, false, tc_suit_territories(setup, size), territories, 0, false},
        0);
    add(suit, (struct tc_lack){TC_NEED_SHOAL, false, size->swim_length, setup->shoal_length, 0, false},
        SAME_LENGTH);
    add(suit, (struct tc_lack){TC_NEED_ANIMALS, false, tc_suit_animals(setup, size), animals, 0, false}, 0);
    if (heat)
        add(suit,
            (struct tc_lack){TC_NEED_COOL, true, heat->hottest, setup->warm_limit,
                             warm_months(heat, setup->warm_limit), setup->keeper_cools},
            SAME_TEMPERATURE);
}

const struct tc_lack *tc_suit_lacks(const struct tc_suit *suit, enum tc_need need)
{
    for (int i = 0; i < suit->lack_count; i++)
        if (suit->lack[i].need == need)
            return &suit->lack[i];
    return NULL;
}
