/* SPDX-License-Identifier: MIT */
/*
 * region.h - a place with its money, taxes, tariffs and climate.
 *
 * Amounts and rates of money are in major units of the region's currency
 * (0.16 a kWh); they become exact money where a bill is made.
 */
#ifndef TC_CORE_GOODS_REGION_H
#define TC_CORE_GOODS_REGION_H

#include <stdbool.h>

#include "core/money/currency.h"
#include "core/base/date.h"
#include "core/goods/goods.h"
#include "core/tariff/load.h"
#include "core/tariff/tariff.h"

/* The room the tanks stand in. */
struct tc_climate {
    double room[TC_MONTHS];     /* mean air temperature of each month, K */
    double room_offset;         /* by which all of them may be off, K: for ranges */
    double swing;               /* half the difference between the day's warmest and coolest hour, K */
    double humidity[TC_MONTHS]; /* mean relative humidity of each month, 0..1 */
};

/* What a household's electricity and water are paid by: major units a kWh and a m3. */
struct tc_tariffs {
    struct tc_tariff electricity, water;
};

/* What a utility takes for a unit. */
struct tc_utility {
    double price;              /* in every month and hour; counts where no tariff is named */
    char tariff[TC_NAME_SIZE]; /* or "" */
};

enum { TC_ASSUMED_MAX = 12 };

struct tc_region {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    bool invented;
    /* The keys of its figures that nobody gave: usual answers that were accepted. */
    char assumed[TC_ASSUMED_MAX][TC_NAME_SIZE];
    int assumed_count;
    bool is_template; /* made of public averages; what is the user's own to say may be missing yet */
    struct tc_currency currency;

    /* What one unit of the currency bought of another on a day; amount 0 where not given. */
    struct tc_price exchange;
    struct tc_date exchange_date;

    double sales_tax;  /* share */
    bool tax_included; /* prices include it; else the till adds it */
    /* Of the shop that is bought at, for a bill; of none in a profile. */
    double delivery;           /* of one order */
    double delivery_free_from; /* goods worth this are brought for nothing; 0: never */
    double order_fee;          /* for a special order, each tank */

    struct tc_utility electricity; /* a kWh */
    struct tc_utility water;       /* a m3, waste water included */
    double household_energy;       /* what else is on the bill, J a month */
    double household_water;        /* m3 a month */
    double electricity_escalation; /* real, a year */
    double water_escalation;
    double conditioner; /* a m3 of tap water made fit */
    double cold_water;  /* temperature of the tap, K */
    bool fresh_mixed;   /* fresh water is mixed at the tap to be as warm as the tank; else it comes cold */
    double warm_water_price; /* a kWh of heat in warm tap water; 0: electricity makes it */
    double room_heat_price;  /* a kWh of heat brought into the room by its own heating; 0: not known */
    double room_cool_price;  /* a kWh of heat taken out of it; 0: not known */
    bool heated[TC_MONTHS];  /* the months in which the room is heated, */
    bool cooled[TC_MONTHS];  /* and in which it is cooled; never both */

    struct tc_climate climate;
};

/* True, with a flat tariff of its price, where a utility names no tariff. */
static inline bool tc_utility_flat(const struct tc_utility *utility, struct tc_tariff *tariff)
{
    if (utility->tariff[0] != '\0')
        return false;
    *tariff = tc_tariff_flat(utility->price);
    return true;
}

/* The mean air temperature of a month, K. */
static inline double tc_climate_room(const struct tc_climate *climate, int month)
{
    return climate->room[month] + climate->room_offset;
}

/* The share of a price that the tills of the region add to it. */
static inline double tc_region_added_tax(const struct tc_region *region)
{
    return region->tax_included ? 0 : region->sales_tax;
}

#endif
