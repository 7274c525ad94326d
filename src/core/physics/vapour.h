/* SPDX-License-Identifier: MIT */
/*
 * vapour.h - water vapour: saturation pressure, latent heat, evaporation from
 * a water surface.
 */
#ifndef TC_CORE_PHYSICS_VAPOUR_H
#define TC_CORE_PHYSICS_VAPOUR_H

/* 0 degrees Celsius in kelvin. */
#define TC_ZERO_CELSIUS 273.15

/*
 * Saturation pressure of water vapour over liquid water in Pa, at a temperature in K.
 *
 * IAPWS-IF97 (revised release of 2007), equation 30, which holds from 273.15 K to
 * 647.096 K. Between 233.15 K and 273.15 K the same equation is used beyond its
 * range, for supercooled water (within 0.6 % of the WMO's formula there): the air
 * of an unheated shed. NAN outside 233.15 K to 647.096 K.
 */
double tc_saturation_pressure(double temperature);

/*
 * How fast that pressure rises with the temperature, in Pa/K: the slope of the chord over
 * half a kelvin, which is within 1e-4 of the tangent's at 0 to 40 degrees Celsius.
 */
double tc_saturation_slope(double temperature);

/*
 * Heat that evaporates a kilogram of water, in J/kg, at a temperature in K:
 * 2501 kJ/kg less 2.361 kJ/kg for each degree above 0 degrees Celsius, within 0.1 % of the
 * tables of saturated water from 0 to 50 degrees Celsius (Cengel, table A-9).
 */
double tc_latent_heat(double temperature);

/*
 * Activity factors: how much faster than the equation below a surface evaporates.
 * Undisturbed pools were measured at 0.74 of it (Smith, Loef and Jones, ASHRAE
 * Transactions 104(1A), 1998).
 */
#define TC_ACTIVITY_CALM     0.74
#define TC_ACTIVITY_EQUATION 1.0

/*
 * Of tanks by their filter: an outlet under water, or none, leaves the surface calm; the bubbles of
 * air-driven filters stir all of it, which is taken for the equation itself; a hang-on's fall stirs a part,
 * and is taken half way between the two (common practice, no source: only the calm one is measured).
 */
#define TC_ACTIVITY_FALL 0.87
#define TC_ACTIVITY_AIR  1.0

/*
 * Heat carried away by evaporation for each pascal between the vapour pressure at the
 * water's temperature and that of the room's air, in W/Pa: area (m2) times activity times
 * 0.089 W/(m2 Pa), the equation of Carrier and the ASHRAE Handbook (HVAC Applications,
 * natatoriums) in still air, W = (0.089 + 0.0782 V) (p_w - p_a) / Y in kg/(s m2) with V = 0,
 * kPa and kJ/kg.
 */
double tc_evaporation_conductance(double area, double activity);

#endif
