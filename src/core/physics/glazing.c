/* SPDX-License-Identifier: MIT */
#include "core/physics/glazing.h"

#include <stdbool.h>

#include "core/physics/vapour.h"

/* The layer of air under a lid, and water vapour in it: sources in the header. */
#define AIR_LAYER_RESISTANCE   0.16 /* m2 K/W */
#define AIR_LAYER_CONVECTION   1.95 /* W/(m2 K) */
#define PSYCHROMETRIC_CONSTANT 67.4 /* Pa/K */

double tc_bottom_transmittance(double thickness, double insulation)
{
    return 1 / (thickness / TC_GLASS_CONDUCTIVITY + insulation + TC_SURFACE_DOWN);
}

double tc_surface_transmittance(void)
{
    return 1 / TC_SURFACE_UP;
}

double tc_lid_transmittance(double lid_resistance, double water_temperature)
{
    double vapour = AIR_LAYER_CONVECTION / PSYCHROMETRIC_CONSTANT * tc_saturation_slope(water_temperature);
    double layer = 1 / (1 / AIR_LAYER_RESISTANCE + vapour);
    return 1 / (layer + lid_resistance + TC_SURFACE_UP);
}

double tc_side_area(const struct tc_glazing *g)
{
    return 2 * (g->inner_length + g->inner_width + 4 * g->side_thickness) * g->water_depth;
}

double tc_water_surface(const struct tc_glazing *g)
{
    return g->inner_length * g->inner_width;
}

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

enum tc_status tc_glazing_check(const struct tc_glazing *g)
{
    /* The upper bounds only keep the arithmetic away from infinity. */
    bool ok = within(g->inner_length, 1e-3, 1e3) && within(g->inner_width, 1e-3, 1e3) &&
              within(g->water_depth, 1e-3, 1e3) && within(g->side_thickness, 0, 1) &&
              within(g->bottom_thickness, 0, 1) && within(g->side_insulation, 0, 1e3) &&
              within(g->sheltered_share, 0, 1) && within(g->bottom_insulation, 0, 1e3) &&
              within(g->covered_share, 0, 1) && within(g->lid_resistance, 0, 1e3);
    return ok ? TC_OK : TC_RANGE;
}

struct tc_pane tc_glazing_pane(const struct tc_glazing *g)
{
    return (struct tc_pane){
        .resistance = g->side_thickness / TC_GLASS_CONDUCTIVITY + g->side_insulation,
        .height = g->water_depth,
        .emissivity = TC_GLASS_EMISSIVITY,
    };
}

struct tc_conductance tc_glazing_conductance(const struct tc_glazing *g, double water_temperature)
{
    double outer_length = g->inner_length + 2 * g->side_thickness;
    double outer_width = g->inner_width + 2 * g->side_thickness;
    double surface = tc_water_surface(g);
    return (struct tc_conductance){
        .bottom =
            outer_length * outer_width * tc_bottom_transmittance(g->bottom_thickness, g->bottom_insulation),
        .surface = surface * (1 - g->covered_share) * tc_surface_transmittance(),
        .lid = surface * g->covered_share * tc_lid_transmittance(g->lid_resistance, water_temperature),
    };
}
