/* SPDX-License-Identifier: MIT */
/*
 * setup.h - a setup: how a keeper equips and runs a tank, and what its animals ask
 * of one. Policy, never prices. SI units; temperatures K.
 */
#ifndef TC_CORE_GOODS_SETUP_H
#define TC_CORE_GOODS_SETUP_H

#include <stdbool.h>

#include "core/base/name.h"
#include "core/goods/goods.h"
#include "core/goods/part.h"

struct tc_setup {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];

    bool stand; /* wants a stand of its own */
    bool lid;   /* covered; else open */
    bool heater;

    enum tc_filter_kind filter;
    double turnover; /* actual volumes that the filters move in a second, 1/s */

    bool shared_air; /* one air pump for all tanks of a candidate; else each has its own */

    double ppfd;        /* umol/(m2 s) at the substrate; 0: no light */
    double light_hours; /* a day */
    double light_start; /* hour of day */
    double attenuation; /* of the water, 1/m */

    double temperature;   /* kept by the heater */
    double heat_loss;     /* of tanks that are not measured, over what is computed; 1 for as much */
    double warm_limit;    /* above it the animals suffer */
    bool keeper_cools;    /* its keeper keeps it below that, at a cost that no figure holds */
    double heater_margin; /* share added to the power the coldest hour needs */
    int heater_count;     /* least number of heaters that share it */

    double bed_depth; /* of substrate; 0: bare bottom */

    double change_share;    /* of the water at each change */
    double change_interval; /* days */
    double activity;        /* evaporation relative to the ASHRAE equation; NAN: by the kind of filter */
    double sheltered;       /* share of the tank's sides that lose nothing: at a wall, beside a neighbour */

    /* What the animals ask; 0 for no demand. */
    double least_length;    /* to swim, inside */
    double least_bottom;    /* m2, inside */
    double least_height;    /* inside */
    double greatest_height; /* inside */
    double greatest_reach;  /* an arm's */

    /* The same by the keeper's own rule; 0 for none. */
    double territory;    /* bottom that one territory takes, m2 */
    int territory_count; /* so many are wanted */
    double shoal_length; /* that a shoal wants to swim, inside */
    double water_each;   /* for each animal, m3 of actual water */
    int animal_count;    /* so many are wanted */
};

#endif
