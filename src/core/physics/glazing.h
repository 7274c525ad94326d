/* SPDX-License-Identifier: MIT */
/*
 * glazing.h - how well a tank's panes, bottom, lid and open surface conduct heat.
 *
 * Thermal transmittances are the reciprocal of resistances in a row (ISO 6946): panes and
 * boards by thickness over conductivity, surfaces towards the room by the standard's values
 * for the direction of the heat. The upright panes are pane.h's, whose film grows with the
 * temperature difference. A pane with water behind it has no air film on its inner
 * face, and the water's own film is left out: it is some fiftieth of the room's. Panes lose
 * heat by their outer face, so areas are the tank's outer ones up to the water line; glass
 * above the water is left out. Bottom, surface and lid are for a tank that is warmer than its
 * room.
 *
 * What stands close to a wall or to an equally warm neighbour loses less: a share of the sides may
 * be said to lose nothing. A gap of some centimetres is no shelter: the layer of air that rises
 * along a warm pane is about 1 cm thick.
 */
#ifndef TC_CORE_PHYSICS_GLAZING_H
#define TC_CORE_PHYSICS_GLAZING_H

#include "core/physics/pane.h"
#include "core/base/status.h"

/* Conductivity of soda-lime glass, W/(m K) (EN 572-1, EN 673). */
#define TC_GLASS_CONDUCTIVITY 1.0

/*
 * Surface resistances inside a building, m2 K/W, by the direction of the heat (ISO 6946:2017, 6.8,
 * table 7; which value belongs to which direction from memory).
 */
#define TC_SURFACE_UP   0.10
#define TC_SURFACE_DOWN 0.17

/*
 * What a tank's bottom commonly stands on, m2 K/W: an 18 mm wooden board of 0.13 W/(m K)
 * (plywood of 500 kg/m3, ISO 10456, from memory).
 */
#define TC_BOARD_RESISTANCE 0.138

/* A tank as its heat sees it. Lengths in m, resistances in m2 K/W. */
struct tc_glazing {
    double inner_length, inner_width; /* > 0 */
    double water_depth;               /* > 0 */
    double side_thickness;            /* >= 0, glass */
    double bottom_thickness;          /* >= 0, glass */
    double side_insulation;           /* added to all four sides; 0 for bare glass */
    double sheltered_share;           /* of the four sides, which loses nothing, 0 to 1 */
    double bottom_insulation;         /* board and mat under the bottom; 0 for a frame */
    double covered_share;             /* share of the water's surface under a lid, 0 to 1 */
    double lid_resistance;            /* of the lid itself; a glass one is thickness / 1.0 */
};

/* What each surface but the sides loses for each kelvin above the room, W/K, evaporation aside. */
struct tc_conductance {
    double bottom;
    double surface; /* open water: convection and radiation */
    double lid;     /* the covered part */
};

/* Transmittances in W/(m2 K). */
double tc_bottom_transmittance(double thickness, double insulation);
double tc_surface_transmittance(void);

/*
 * A lid over water, heat going up: the layer of air below it, the lid, the room's air above. Through
 * the layer heat goes as in a dry one (ISO 6946, unventilated air layers: 0.16 m2 K/W from 15 to 300
 * mm, of that 1.95 W/(m2 K) by convection; from memory) and, beside that, as vapour that condenses on
 * the lid and drips back. The vapour's share follows from the convection by the relation of heat to
 * vapour transfer in air: times the slope of the saturation pressure at the water's temperature (K),
 * over the psychrometric constant, 67.4 Pa/K at sea level (FAO Irrigation and Drainage Paper 56,
 * equation 8). The temperature must be one that tc_saturation_slope knows.
 */
double tc_lid_transmittance(double lid_resistance, double water_temperature);

/* The outer area of the four sides up to the water line, and the water's surface, m2. */
double tc_side_area(const struct tc_glazing *glazing);
double tc_water_surface(const struct tc_glazing *glazing);

/* TC_RANGE where a figure is outside the range given beside it or is NaN. */
enum tc_status tc_glazing_check(const struct tc_glazing *glazing);

/* One of the upright panes. */
struct tc_pane tc_glazing_pane(const struct tc_glazing *glazing);

/* Conductance of each surface but the sides. The glazing must have passed tc_glazing_check. */
struct tc_conductance tc_glazing_conductance(const struct tc_glazing *glazing, double water_temperature);

#endif
