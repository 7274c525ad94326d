/* SPDX-License-Identifier: MIT */
/*
 * wall.h - a wall to be filled with tanks: what stands where, and what it bears.
 *
 * Tanks stand side by side on tiers, one tier above the other between two
 * uprights: a bay. A tank stands along the wall (its length beside the wall) or
 * end-on (its width beside the wall). This file says how one model can stand
 * and what it weighs on shelf, rack and floor; wall_solve.h chooses the best mix.
 *
 * SI units: m, kg, m2, m3, W, Pa. A limit of 0 means there is none, except
 * where said otherwise.
 *
 * Lengths are compared in whole units of 0.1 micrometre, in which an inch and
 * its sixteenths are whole: sizes rounded up, room rounded down, and a figure
 * within a thousandth of a unit of a whole number taken for it. So what fits
 * on paper fits here, whatever binary fractions do to 0.762 m.
 *
 * None of this is a structural or electrical design. The floor figures are
 * averages over a footprint; the feet of a rack and a joist carry more in one
 * place. Local codes and licensed people decide.
 */
#ifndef TC_CORE_WALL_WALL_H
#define TC_CORE_WALL_WALL_H

#include <stdbool.h>
#include <stdint.h>

#include "core/money/money.h"
#include "core/base/status.h"

/*
 * A uniform floor load that dwellings are commonly designed for, in Pa; for
 * comparison and caution only. These loads are for people and furniture all
 * over a room, not for heavy equipment on a part of it.
 */
struct tc_wall_floor_mark {
    double pressure;
    const char *text; /* what floor it is for, and who says so */
};

/* The marks, lightest first; *marks is static. Returns how many. */
int tc_wall_floor_marks(const struct tc_wall_floor_mark **marks);

enum {
    TC_WALL_MODELS_MAX = 48,   /* models in one question */
    TC_WALL_TIERS_MAX = 20,    /* tanks one above the other */
    TC_WALL_STRETCHES_MAX = 4, /* free stretches of wall */
    TC_WALL_CIRCUITS_MAX = 4,
    TC_WALL_UNLIMITED = -1 /* for a model's `most` */
};

/* Loads are ratios of measured figures; a millionth more is not more. */
#define TC_WALL_LOAD_TOLERANCE 1e-6

/* A free stretch of wall, as between a door and a window. */
struct tc_wall_stretch {
    double length, height, depth; /* as those of tc_wall */
};

/* Money is counted two ways; arrays of two amounts are indexed by this. */
enum tc_wall_money {
    TC_WALL_TO_BUY,     /* what is paid at the start */
    TC_WALL_OVER_PERIOD /* buying and running over the study period */
};

struct tc_wall {
    /* Room: of the first stretch, and of what further ones there are. */
    double length; /* along the wall */
    double height; /* floor to the usable top */
    double depth;  /* from the wall to the aisle */
    struct tc_wall_stretch more[TC_WALL_STRETCHES_MAX - 1];
    int more_stretches;
    double lowest; /* floor to the underside of the lowest tanks */
    double access; /* free height above every tank, the top one too, for arm, net and lid */
    double shelf;  /* thickness of what carries each tier above the lowest */
    double reach;  /* how far in from the front an arm reaches; no tank is deeper */
    double gap;    /* between neighbouring tanks, and between a tank and an upright; may be 0 */
    int tiers;     /* most tanks one above the other, whatever the height allows */

    /* Rack. Neighbouring bays share an upright; one stands at each end. */
    double post;         /* width of an upright; 0: none, bays are the gap apart */
    double bay_length;   /* longest clear length between uprights; 0: every column is a bay */
    tc_money bay_price;  /* each bay */
    tc_money tier_price; /* each tier of each bay */
    double bay_rating;   /* kg on all tiers of a bay */
    double tier_rating;  /* kg on one tier of a bay */

    /* What floor, circuit and purse bear. */
    double floor_limit;  /* Pa, mean over the footprint of each column; kg/m2 times TC_GRAVITY */
    double floor_spread; /* the footprint is taken this much deeper than the tank; may be 0 */
    double power_limit;  /* W, continuous, of the first circuit; see tc_wall_continuous_power */
    double more_power[TC_WALL_CIRCUITS_MAX - 1]; /* of further ones; each bay is on one circuit */
    int more_circuits;
    tc_money budget;
    enum tc_wall_money budget_kind; /* what the budget is for */
};

struct tc_wall_model {
    double length, width, height; /* outer; length is the longer side, though nothing depends on it */
    double mass;                  /* filled, with equipment and its share of the rack */
    double area;                  /* bottom area */
    double volume;                /* of water */
    double power;                 /* drawn at once, at most */
    tc_money price[2];            /* of one tank and what it needs, at list price */
    tc_money sale_price[2];       /* the same in the sale; not above price */
    int sale_most;                /* so many at the sale price, the rest at list; 0: no sale */
    int most;                     /* stock, or what is wanted at most; TC_WALL_UNLIMITED */
    int least;                    /* wanted at least */
};

/* Why a model cannot stand one way; the first that applies, in this order. */
enum tc_wall_obstacle {
    TC_WALL_FITS,
    TC_WALL_TOO_LONG,     /* one column is longer than the wall or the bay */
    TC_WALL_TOO_DEEP,     /* deeper than the wall's depth */
    TC_WALL_OUT_OF_REACH, /* deeper than the reach */
    TC_WALL_TOO_HIGH,     /* not even one tier */
    TC_WALL_TIER_LOAD,    /* one tank is above the tier rating */
    TC_WALL_BAY_LOAD,     /* one tank is above the bay rating */
    TC_WALL_FLOOR_LOAD    /* one tank is above the floor limit */
};

/* What keeps a column from having one tier more. */
enum tc_wall_tiers_end {
    TC_WALL_END_HEIGHT,
    TC_WALL_END_TIERS,
    TC_WALL_END_BAY_LOAD,
    TC_WALL_END_FLOOR_LOAD
};

/* How a model can stand one way. */
struct tc_wall_stand {
    enum tc_wall_obstacle obstacle; /* TC_WALL_FITS, or all counts are 0 */
    double width, depth;            /* m, beside the wall and out from it */
    int tiers;                      /* most tanks in a column */
    enum tc_wall_tiers_end end;     /* why not more */
    int columns;                    /* most columns in a bay */
    int tanks;                      /* most tanks in a bay */
};

/*
 * TC_RANGE where a figure is negative, not finite or beyond any sensible size
 * (a wall of 1 km, a tank of 100 m or 1000 t, under 1 mm, ...), a sale price
 * is above the list price, or least is above most; TC_OK otherwise.
 */
enum tc_status tc_wall_check(const struct tc_wall *wall);
enum tc_status tc_wall_check_model(const struct tc_wall_model *model);

/* The wall with one of its stretches, counted from 0, as its first and only one. */
struct tc_wall tc_wall_of_stretch(const struct tc_wall *wall, int stretch);

/* How model can stand, both checked before. */
void tc_wall_stand(const struct tc_wall *wall, const struct tc_wall_model *model, bool end_on,
                   struct tc_wall_stand *stand);

/* The cost of so many tanks of a model, the first at the sale price; racks are apart. */
tc_money tc_wall_cost(const struct tc_wall_model *model, int tanks, enum tc_wall_money money,
                      enum tc_status *status);

/*
 * Length of wall a bay of `columns` columns takes, its gaps and one upright included, in whole units, and the
 * length all bays may take together.
 */
int64_t tc_wall_bay_units(const struct tc_wall *wall, double width, int columns);
int64_t tc_wall_length_units(const struct tc_wall *wall);

/* Metres as whole units, rounded up (what is used) or down (what there is), and back. */
int64_t tc_wall_units_up(double metres);
int64_t tc_wall_units_down(double metres);
double tc_wall_metres(int64_t units);

/* Mean pressure on the floor, Pa, of tanks of `mass` kg each in a column of `tiers`; the room's spread
 * counts. */
double tc_wall_pressure(const struct tc_wall *wall, const struct tc_wall_stand *stand, double mass,
                        int tiers);

/* A load that runs three hours or more may take 80 % of a breaker: NEC 210.19(A)(1). */
#define TC_WALL_CONTINUOUS_SHARE 0.8

/*
 * Continuous power a circuit may carry: volts * amps * share. Share 0.8 where
 * conductors must be rated for 125 % of a load that lasts three hours or more,
 * as tank equipment does (NEC 210.19(A)(1)): 15 A at 120 V carry 1440 W. Other
 * codes, other shares; 1 for the plain rating.
 */
double tc_wall_continuous_power(double volts, double amps, double share);

#endif
