/* SPDX-License-Identifier: MIT */
/*
 * room_balance.h - a room and the tanks in it, solved together month by month.
 *
 * Without its tanks the room would have a mean temperature, its base. Tanks warm it until it loses what they
 * give: with G what it loses for each kelvin (W/K) and S the sensible heat of the tanks,
 *
 *     T = base + S(T, p) / G,  no less than a heating keeps and no more than a cooling lets
 *
 * S is what their surfaces give dry, and what lamps and pumps give beside the water. Vapor takes its latent
 * heat out of the tanks and not into the room; fresh water takes heat down the drain. The vapour goes with
 * the air that is changed: with V m3/s of it, and E the vapour in kg/s, the room's vapour pressure is
 *
 *     p = p_base + E(T, p) R_v T / V,  R_v = 461.5 J/(kg K), up to saturation
 *
 * or p_base where the air change is not known.
 *
 * Through the day a room that would swing by A about its mean without the tanks swings less with them: warmer
 * than its mean it gets less from them, and colder more. With C what its walls and furniture store (J/K), K
 * what the tanks give less for a kelvin (W/K; their own water hardly moves through a day) and w = 2 pi / day,
 * the first harmonic is A sqrt((G^2 + (w C)^2) / ((G + K)^2 + (w C)^2)). It comes somewhat earlier as well,
 * which is left out, as is what lamps and heaters give by the hour. Where C is not known it swings by A.
 *
 * That there is one solution, and only one: a room that is a kelvin warmer gets no more from its tanks. On
 * the set point they lose less; where they float above it they give what their lamps and pumps give less
 * what evaporates, which grows with the water's temperature. Damper air evaporates less, so for each T there
 * is one p, and with the air change fixed E rises where p does, which keeps S falling. So T less the right
 * hand side rises steadily from below zero to above it, and halving the span between finds where it passes.
 *
 * Each month stands for itself, as if its days went on for ever: what a month leaves to the next is less
 * than a day's heat. Against a simulation of a room with thirty tanks by the minute a year's heaters agree
 * within 0.3 % (tests/core/test_room_balance.c).
 */
#ifndef TC_CORE_PHYSICS_ROOM_BALANCE_H
#define TC_CORE_PHYSICS_ROOM_BALANCE_H

#include "core/base/status.h"
#include "core/physics/heat.h"

/* What a room of medium weight stores for each m2 of its floor, J/(m2 K) (ISO 13790, table 12, from memory).
 */
#define TC_ROOM_STORES 165e3

/* Of water vapour, J/(kg K). */
#define TC_VAPOUR_GAS_CONSTANT 461.5

struct tc_room {
    double loss;                   /* G, W/K, > 0 */
    double air_flow;               /* m3/s of air that is changed; 0: not known */
    double capacity;               /* C, J/K; 0: not known */
    double swing;                  /* A, K, 0 to 30 */
    double base[12];               /* K, mean of each month without tanks and without what follows */
    double vapour[12];             /* Pa, of the air without the tanks */
    double floor[12], ceiling[12]; /* K between which heating and cooling keep it; -INFINITY, INFINITY */
};

/* Equal tanks in the room. */
struct tc_room_tank {
    const struct tc_heat_case *c; /* its own rooms and their swing are not looked at */
    int count;
    double beside; /* W, mean of the day, that the parts of one give to the room and not to its water */
};

struct tc_room_month {
    double temperature;      /* K, mean */
    double vapour, humidity; /* Pa, relative at the mean temperature */
    double tanks;            /* S, W; negative where they cool the room */
    double evaporation;      /* W of latent heat, all tanks */
    double evaporated;       /* kg/s */
    double heating, cooling; /* W that keep it at its floor or ceiling */
};

struct tc_room_year {
    double swing; /* K, about each month's mean */
    struct tc_room_month month[12];
};

/*
 * TC_RANGE where a figure is out of range or NaN, TC_NO_RESULT where the tanks would make the room
 * hotter than 99 degrees Celsius or colder than -38.
 */
enum tc_status tc_room_balance(const struct tc_room *room, const struct tc_room_tank *tanks, int count,
                               struct tc_room_year *year);

/* Puts the room of that year into a case, in place of its own. */
void tc_room_put(const struct tc_room_year *year, struct tc_heat_case *c);

/*
 * The mean temperature (K) of a room whose air has that vapour pressure (Pa) at which the water of a case
 * keeps its set point on the mean of the day with no heater. NAN where that is above 60 degrees Celsius.
 */
double tc_room_warm_enough(const struct tc_heat_case *c, double vapour);

#endif
