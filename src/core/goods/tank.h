/* SPDX-License-Identifier: MIT */
/*
 * tank.h - a tank, and what its shape gives: volume, weights, areas.
 *
 * Lengths are m, areas m2, volumes m3, masses kg, temperatures K.
 */
#ifndef TC_CORE_GOODS_TANK_H
#define TC_CORE_GOODS_TANK_H

#include <stdbool.h>

#include "core/goods/goods.h"
#include "core/base/status.h"

/* Density of soda-lime float glass: EN 572-1. */
#define TC_GLASS_DENSITY 2500.0

struct tc_tank {
    struct tc_goods goods;
    double nominal_volume;        /* as the trade calls it */
    double length, width, height; /* outer; width is front to back */
    double glass;                 /* thickness of the four sides */
    double bottom_glass;          /* thickness of the bottom pane */
    double freeboard;             /* from the upper edge of the glass down to the water */
    double frame_mass;            /* rims and braces, beside the glass */
    bool glass_assumed;           /* no thickness was given: by its size */
    bool nominal_assumed;         /* no nominal volume was given: the outer one */
    bool special_order;           /* not on the shelf: the region's fee is due at list price */
};

struct tc_tank_size {
    double inner_length, inner_width, inner_height;
    double water_depth;  /* from the upper face of the bottom pane, substrate included */
    double water_volume; /* actual: what is poured in, less what the substrate displaces */
    double surface_area; /* of the water */
    double bottom_area;  /* inside */
    double footprint;    /* outside */
    double swim_length;  /* the longest straight line along the water: the inner length */
    double reach;        /* from the upper edge of the glass to the top of the substrate */
    double glass_mass, empty_mass, water_mass, substrate_mass, filled_mass;
};

/* What lies on the bottom. */
struct tc_bed {
    double depth;        /* m */
    double bulk_density; /* kg/m3 as it lies, dry */
    double void_share;   /* share of its volume that water fills */
};

/*
 * Measures a tank that holds a bed (depth 0: none) and water of a
 * temperature. TC_RANGE where the glass leaves no room for water or the bed
 * reaches the surface.
 */
enum tc_status tc_tank_measure(const struct tc_tank *tank, struct tc_bed bed, double water_temperature,
                               struct tc_tank_size *size);

/* Fills in what is NAN and can be assumed: glass, bottom glass (as the sides), nominal volume. */
void tc_tank_assume(struct tc_tank *tank);

/*
 * Density of water free of air, kg/m3, at 0 to 40 C and one atmosphere (Tanaka,
 * Girard, Davis, Peuto and Bignell, Metrologia 38, 2001, pp. 301-309, as
 * recommended by the CIPM). Exact to one part in a million.
 */
double tc_water_density(double temperature);

#endif
