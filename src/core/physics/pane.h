/* SPDX-License-Identifier: MIT */
/*
 * pane.h - heat through an upright pane with water behind it into the still air of a room.
 *
 * The pane (glass, and what insulates it) is a resistance; from its outer face heat goes on by
 * radiation and by natural convection, which both grow with the temperature difference D
 * between that face and the room:
 *
 *     q = D (h_r + h_c),  D = T_water - T_room - q R
 *     h_r = 4 emissivity sigma T^3,  T the mean of water and room
 *     h_c = (k / H) (0.825 + 0.387 Ra^(1/6) / (1 + (0.492 / Pr)^(9/16))^(8/27))^2
 *
 * Ra is the Rayleigh number of D and the height H. The correlation is that of Churchill and Chu
 * for an isothermal vertical plate (International Journal of Heat and Mass Transfer 18, 1975, 1323;
 * printed in handbooks for all Ra). With the properties of air at 300 K, k = 0.0263 W/(m K), kinematic
 * viscosity 15.89e-6 and thermal diffusivity 22.5e-6 m2/s, Pr = 0.707 (Incropera, table A.4, from memory),
 * it is
 *
 *     h_c = (0.1338 / sqrt(H) + 1.116 D^(1/6))^2  W/(m2 K)
 *
 * A room warmer than the water sends heat in by the same law. At 4 K the film is 7.5 W/(m2 K),
 * which ISO 6946 has as 1 / 0.13 = 7.7; at 20 K it is 9.1.
 */
#ifndef TC_CORE_PHYSICS_PANE_H
#define TC_CORE_PHYSICS_PANE_H

/* Corrected emissivity of uncoated soda-lime glass (EN 673, from memory). */
#define TC_GLASS_EMISSIVITY 0.837

/* Stefan and Boltzmann, W/(m2 K4) (CODATA 2018, exact to the digits given). */
#define TC_STEFAN_BOLTZMANN 5.670374e-8

struct tc_pane {
    double resistance; /* of glass and insulation, m2 K/W, >= 0 */
    double height;     /* m, > 0, that water stands behind */
    double emissivity; /* of its outer face */
};

/* What the outer face radiates, as a coefficient, W/(m2 K). */
double tc_pane_radiation(double emissivity, double mean_temperature);

/*
 * Heat that leaves the water through a m2 of pane, W; negative where the room is warmer.
 * Temperatures in K. True to 1e-5.
 */
double tc_pane_flux(const struct tc_pane *pane, double water, double room);

#endif
