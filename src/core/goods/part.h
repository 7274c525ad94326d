/* SPDX-License-Identifier: MIT */
/*
 * part.h - parts: what is bought for a tank, by the slot it fills.
 *
 * Lengths m, areas m2, volumes m3, masses kg, powers W, flows m3/s.
 */
#ifndef TC_CORE_GOODS_PART_H
#define TC_CORE_GOODS_PART_H

#include <stdbool.h>

#include "core/goods/goods.h"

/* The slots of a setup, in the order in which they stand on a bill. */
enum tc_slot {
    TC_SLOT_STAND,
    TC_SLOT_LID,
    TC_SLOT_LIGHT,
    TC_SLOT_FILTER,
    TC_SLOT_AIR_PUMP,
    TC_SLOT_HEATER,
    TC_SLOT_SUBSTRATE,
    TC_SLOT_COUNT
};

/* "stand", "lid", "light", "filter", "air-pump", "heater", "substrate": also the section kinds of profiles.
 */
const char *tc_slot_name(enum tc_slot slot);

/* The same as a person says it: "air pump". */
const char *tc_slot_word(enum tc_slot slot);

/* Finds a slot by its name; false where there is none. */
bool tc_slot_find(const char *name, enum tc_slot *slot);

enum tc_filter_kind { TC_FILTER_NONE, TC_FILTER_SPONGE, TC_FILTER_HANG_ON, TC_FILTER_CANISTER };

/* "sponge", "hang-on", "canister"; "none". */
const char *tc_filter_kind_name(enum tc_filter_kind kind);

struct tc_stand {
    double length, width; /* of the top; fit.h has how far a tank may stand over it */
    double height;
    double load; /* rated, evenly spread */
    bool solid;  /* its top is a board; else an open frame, which carries along its edges */
};

struct tc_lid {
    double length, width; /* of the tank rim it is made for */
    double covered;       /* share of the surface it closes */
    double transmittance; /* share of light it lets through */
};

struct tc_light {
    double shortest, longest; /* lengths of tank it can stand or hang on */
    double power;
    double ppf;   /* umol/s, 400 to 700 nm */
    double reach; /* width of tank that one row lights evenly; 0: by its height (core/physics/light.h) */
    double heat;  /* share of its power that ends in the water */
};

struct tc_filter {
    enum tc_filter_kind kind;
    double flow;  /* as it runs, m3/s */
    double reach; /* length of tank one keeps moving */
    double power; /* its own motor; 0 for a sponge */
    double air;   /* m3/s of air it needs; 0 for one with a motor */
    double heat;  /* share of its power that ends in the water */
};

struct tc_air_pump {
    double flow;  /* m3/s of air at the depth of use */
    double depth; /* deepest water it can blow into */
    double power;
};

struct tc_heater {
    double power;
};

struct tc_substrate {
    double volume;       /* in one bag, as it lies */
    double bulk_density; /* kg/m3 */
    double void_share;   /* share that water fills */
};

struct tc_part {
    struct tc_goods goods;
    enum tc_slot slot;
    union {
        struct tc_stand stand;
        struct tc_lid lid;
        struct tc_light light;
        struct tc_filter filter;
        struct tc_air_pump air_pump;
        struct tc_heater heater;
        struct tc_substrate substrate;
    } as; /* by slot */
};

/* Electric power of one while it runs; 0 for parts without a cable. A heater's power is its rating. */
double tc_part_power(const struct tc_part *part);

#endif
