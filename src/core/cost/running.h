/* SPDX-License-Identifier: MIT */
/*
 * running.h - what the tanks of one candidate use in a year of 365 days:
 * electricity by consumer, month and hour, and water.
 *
 * Change water comes from the tap at the region's temperature. By the region's
 * habit it is mixed with warm water there until it is as warm as the tank, where
 * that has a heater (a tank without one leaves it to the room): what warms it is
 * the household's warm water, at its price or, where that is not known, by
 * electricity, evenly through the day. A tap warmer than the tank saves nothing.
 * Or it comes cold: the tank's heater has to make up for it, and it is charged as
 * far as that uses more than it would without (heat.h).
 *
 * The room gets what leaves the tanks dry and what their parts give beside the
 * water. What evaporates takes its heat along, so that a warm room gets less than
 * nothing from an open tank.
 */
#ifndef TC_CORE_COST_RUNNING_H
#define TC_CORE_COST_RUNNING_H

#include "core/physics/heat.h"
#include "core/tariff/load.h"
#include "core/cost/equipment.h"

enum tc_consumer {
    TC_CONSUMER_HEATER,
    TC_CONSUMER_LIGHT,
    TC_CONSUMER_FILTER,
    TC_CONSUMER_AIR_PUMP,
    TC_CONSUMER_NEW_WATER, /* warming fresh water: mixed in by electricity, or as the heater's share */
    TC_CONSUMER_COUNT
};

/* "heater", "light", "filters", "air pump", "warming new water". */
const char *tc_consumer_name(enum tc_consumer consumer);

struct tc_running {
    struct tc_heat_year heat;                 /* of one tank */
    struct tc_load energy[TC_CONSUMER_COUNT]; /* kWh a month, of all tanks */
    double changed[TC_MONTHS];                /* m3 of water changed a month, of all tanks */
    double evaporated[TC_MONTHS];             /* m3 made up a month, of all tanks */
    double changed_total, evaporated_total;   /* m3 a year */
    double warm_water;                        /* kWh a year that the household's warm water brings */
    double room_heat[TC_MONTHS]; /* kWh a month of sensible heat that the room gets from all tanks */
};

/* All tanks of the case through the year. TC_RANGE as tc_heat_year. */
enum tc_status tc_running_year(const struct tc_case *c, const struct tc_equipment *equipment,
                               struct tc_running *running);

/* The sums of the same year, for studies that ask for many thousands of them. */
struct tc_running_sums {
    double energy[TC_MONTHS]; /* kWh a month, of all consumers */
    double water[TC_MONTHS];  /* m3 a month, changed and made up */
    double changed_total;     /* m3 a year */
    double warm_water;        /* kWh a year */
    double room_heat[TC_MONTHS];
};

/* The same energy by the hours of the day goes into *hours, where that is not NULL. */
enum tc_status tc_running_add_up(const struct tc_case *c, const struct tc_equipment *equipment,
                                 struct tc_running_sums *sums, struct tc_load *hours);

#endif
