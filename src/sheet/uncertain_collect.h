/* SPDX-License-Identifier: MIT */
/*
 * uncertain_collect.h - which figures of a study are known as ranges only, and
 * where each of them stands.
 */
#ifndef TC_SHEET_UNCERTAIN_COLLECT_H
#define TC_SHEET_UNCERTAIN_COLLECT_H

#include <stddef.h>

#include "core/base/spread.h"
#include "sheet/study.h"

/* Where in the copies made for one evaluation a figure is put. */
enum tc_place_of {
    TC_AT_SETUP, /* the plan's */
    TC_AT_REGION,
    TC_AT_ELECTRICITY, /* in the tariff that the region names */
    TC_AT_WATER,
    TC_AT_DISCOUNT,
    TC_AT_HOURS, /* what all hours of upkeep are multiplied by */
    TC_AT_SHOP,  /* of the study, by its place there in `shop` */
    TC_AT_EXTRA, /* of the study, by its place there in `alternative` */
    /* of one alternative: */
    TC_AT_OWN_SETUP,
    TC_AT_TANK,
    TC_AT_SALE,
    TC_AT_LOCAL_PRICE, /* the list price of the tank at `shop` */
    TC_AT_TYPED_PRICE,
    TC_AT_TYPED_LIFE,
    TC_AT_TYPED_RESALE,
    /* of one slot of one alternative: */
    TC_AT_PART,
    TC_AT_PART_LOCAL_PRICE,
    TC_AT_PIN_PRICE,
    TC_AT_PIN_NEXT,
    TC_AT_PIN_LIFE,
    TC_AT_PIN_RESALE
};

struct tc_target {
    int figure;
    enum tc_place_of place;
    int alternative;
    enum tc_slot slot;
    int shop;      /* its place among those that are bought at */
    size_t offset; /* of the double in the record */
    int span;      /* so many doubles from there on are set */
};

/* The kind of the figure that is the model's own: "upkeep hours". */
#define TC_UNCERTAIN_UPKEEP "upkeep"

struct tc_uncertain_name {
    char text[3 * TC_NAME_SIZE]; /* "setup planted-display temperature" */
    bool heat_loss;              /* what a meter on a heater tells */
    enum tc_dimension dimension; /* of its values; TC_DIM_PLAIN for money and rates */
};

/* Owns its arrays; borrows the study. */
struct tc_uncertain {
    const struct tc_study *study;
    int count;
    struct tc_spread *spreads;       /* count of them */
    struct tc_uncertain_name *names; /* count of them */
    struct tc_target *targets;
    int target_count;
    size_t capacity, target_capacity;
    struct tc_varied *alternatives;  /* the study's alternatives, ready to be copied and varied */
    struct tc_known_heat *heats;     /* of the alternatives as the study has them */
    struct tc_heat_memory *memories; /* by alternative, for one thread; or NULL */
    struct tc_heat_net *nets;        /* by alternative; or NULL (uncertain_heat.h) */
    bool shops_vary;                 /* what shops take is drawn, or the tax they add */
    bool tariffs_vary;               /* the household's bill must be worked out again for each draw */
};

/*
 * Adds the figures that matter to the figures' study, with their targets: of
 * the profiles, of what the plan types over setup and region, and of the plan
 * itself. TC_NO_MEMORY.
 */
enum tc_status tc_uncertain_collect(struct tc_uncertain *uncertain);

#endif
