/* SPDX-License-Identifier: MIT */
#include "core/goods/tank.h"

#include <math.h>

double tc_water_density(double temperature)
{
    double t = temperature - 273.15;
    double off = t - 3.983035; /* where it is densest */
    return 999.974950 * (1 - off * off * (t + 301.797) / (522528.9 * (t + 69.34881)));
}

enum tc_status tc_tank_measure(const struct tc_tank *tank, struct tc_bed bed, double water_temperature,
                               struct tc_tank_size *size)
{
    double length = tank->length - 2 * tank->glass;
    double width = tank->width - 2 * tank->glass;
    double height = tank->height - tank->bottom_glass;
    double depth = height - tank->freeboard;
    if (!(length > 0 && width > 0 && depth > 0 && bed.depth >= 0 && bed.depth < depth))
        return TC_RANGE;
    double area = length * width;
    double outer = tank->length * tank->width;
    double grains = area * bed.depth * (1 - bed.void_share);

    size->inner_length = length;
    size->inner_width = width;
    size->inner_height = height;
    size->water_depth = depth;
    size->surface_area = size->bottom_area = area;
    size->footprint = outer;
    size->swim_length = length;
    size->reach = height - bed.depth;
    size->water_volume = area * depth - grains;
    size->glass_mass = TC_GLASS_DENSITY * (outer * tank->height - area * height);
    size->empty_mass = size->glass_mass + tank->frame_mass;
    size->water_mass = size->water_volume * tc_water_density(water_temperature);
    size->substrate_mass = area * bed.depth * bed.bulk_density;
    size->filled_mass = size->empty_mass + size->water_mass + size->substrate_mass;
    return TC_OK;
}

/*
 * The thickness of glass that tanks of a height and length mostly have, for one
 * that nobody has measured (common practice, no source). It says nothing about
 * strength.
 */
static double usual_glass(double length, double height)
{
    static const struct {
        double height, glass;
    } usual[] = {{0.31, 0.004}, {0.41, 0.005},     {0.46, 0.006},    {0.56, 0.008},
                 {0.66, 0.010}, {INFINITY, 0.012}, {INFINITY, 0.015}};
    int i = 0;
    while (height > usual[i].height)
        i++;
    return usual[i + (length > 1.1)].glass;
}

void tc_tank_assume(struct tc_tank *tank)
{
    tank->glass_assumed = isnan(tank->glass);
    if (tank->glass_assumed)
        tank->glass = usual_glass(tank->length, tank->height);
    if (isnan(tank->bottom_glass))
        tank->bottom_glass = tank->glass;
    tank->nominal_assumed = isnan(tank->nominal_volume);
    if (tank->nominal_assumed)
        tank->nominal_volume = tank->length * tank->width * tank->height;
}
