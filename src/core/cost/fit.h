/* SPDX-License-Identifier: MIT */
/*
 * fit.h - which parts fit a tank, how many of each, and why.
 *
 * For one slot of a setup every part offered is judged alone: does it fit, in
 * which count, and if not, what is in the way, as a code with the two figures
 * that decided. Among those that fit the one with the lowest present value
 * over the study period is chosen, unless the plan pins one; but fewer pieces
 * are preferred where they cost less than 5 % more (TC_FIT_FEWER): nobody hangs
 * three lamps where one will do for about the same money.
 *
 * The rules and their tolerances are common practice, no source, unless said
 * otherwise:
 *   stand      its top is at most half an inch shorter or narrower than the
 *              tank (stands are sold by round sizes, a 30 x 12 for a tank of
 *              30 1/4 x 12 1/2); at most 15 cm longer or wider where the top is
 *              solid, else 5 cm, so that the tank's edges rest on its frame; its
 *              rating carries the filled tank
 *   lid        made for a rim within 1.5 cm of the tank's length and width,
 *              alone or as two or three pieces side by side along the length;
 *              lets some light through where the setup wants light
 *   light      one to three fixtures end to end span the length; as many rows
 *              as the width asks for, and more, up to four, until the light at
 *              the bottom is what the setup wants (core/physics/light.h)
 *   filter     of the setup's kind; as many as turn the water over often enough
 *              and as keep the whole length moving, whichever is more; up to 4
 *   air pump   only for filters that need air; blows deep enough, up to 3
 *   heater     as many as the coldest hour needs with the setup's margin
 *              (core/physics/heat.h), at least as many as the setup wants; up to 4; no
 *              more than 3 W a litre in all, since one that sticks on would
 *              overheat the water before anybody sees it, unless the room asks
 *              for more: then up to half as much again as it asks for
 *   substrate  as many bags as the bed takes; up to 60
 *
 * Limits are compared with a tolerance for rounding. The present value
 * is that of the parts themselves: bought, replaced, run, kept up (a filter's
 * cleaning too, where an hour of it has a worth) and sold.
 * What their heat or their cover saves the heater is not in it: see equipment.h.
 */
#ifndef TC_CORE_COST_FIT_H
#define TC_CORE_COST_FIT_H

#include <stdbool.h>

#include "core/goods/market.h"
#include "core/goods/setup.h"
#include "core/money/money.h"
#include "core/goods/part.h"
#include "core/goods/tank.h"

/* A part as one region sells it. */
struct tc_offer {
    const struct tc_part *part; /* borrowed */
    bool priced;                /* false: the region has no price for it */
    tc_money price;             /* of one */
    tc_money upkeep;            /* of one, a year */
    /* In a market (core/goods/market.h); price is then what a later one costs. */
    const tc_money *asked; /* of one, by shop; borrowed; NULL: the price, wherever it is bought */
    double least;          /* what one costs at least where it is asked for, with tax, not rounded */
};

/*
 * The part as a region sells it; own: the region's own price, major units, or
 * NAN. Not priced where there is no price, none for the supplies it needs, or
 * one beyond the range of money.
 */
struct tc_offer tc_offer_make(const struct tc_part *part, double own, struct tc_currency currency);

/*
 * The part as the shops of a market sell it; own: what each asks itself, major
 * units, or NAN. What they ask goes to asked, which the offer borrows: not sold
 * where a shop is not open. A later one costs what the cheapest open shop asks
 * that does not sell just once (market.h).
 */
struct tc_offer tc_offer_spread(const struct tc_part *part, const double own[], const bool open[],
                                const struct tc_market *market, struct tc_currency currency,
                                tc_money asked[]);

enum tc_reason_code {
    TC_FITS,
    TC_FITS_PINNED, /* it fits, and the plan asks for it */
    TC_NO_PRICE,
    TC_TOO_SHORT, /* have/need: length, m */
    TC_TOO_LONG,
    TC_TOO_NARROW, /* width, m; light: that the most rows light */
    TC_TOO_WIDE,
    TC_TOO_WEAK,      /* stand: load, kg */
    TC_NOT_IN_PIECES, /* lid: no whole number of pieces covers the length; have: one piece, need: the tank, m
                       */
    TC_OTHER_KIND,    /* filter: not of the setup's kind */
    TC_TOO_DIM,       /* light: PPF of the most rows / asked, umol/s */
    TC_TOO_SMALL,     /* filter, heater, air pump, substrate: what the most of them give / what is needed */
    TC_TOO_STRONG,    /* heater: W / most allowed */
    TC_TOO_DEEP,      /* air pump: its depth / the water's, m */
    TC_OPAQUE         /* lid: lets no light through, which the setup wants */
};

struct tc_reason {
    enum tc_reason_code code;
    int pieces;        /* that give `have` together */
    double have, need; /* SI, by code */
};

/* One part judged for one tank. */
struct tc_verdict {
    const struct tc_offer *offer; /* borrowed */
    bool fits;
    int count; /* of parts; 0 where it does not fit */
    int rows;  /* light: rows front to back; filters: 0 */
    struct tc_reason reason;
    double each;          /* present value of one over the study period, minor units */
    double present_value; /* of count of them */
};

/* An offer with the present value of one of it, as tc_fit_each tells it; NAN: not worked out yet. */
struct tc_ready_offer {
    const struct tc_offer *offer; /* borrowed */
    double each;
    double gives; /* as tc_fit_gives; 0: not asked yet */
    int pieces;   /* as tc_fit_possible, of the tank in question; or 1 */
};

/* What a slot asks for, from the tank and the setup, before any part is looked at. */
struct tc_demand {
    bool wanted;
    double ppf;  /* light: umol/s at the fixtures */
    int rows;    /* light: least number of rows front to back */
    double flow; /* filter: m3/s of water */
    double air;  /* air pump: m3/s */
    double heat; /* heater: W with margin */
    double bed;  /* substrate: m3 */
    double load; /* stand: kg */
};

/* What is known when a slot is filled; slots are filled in the order of tc_fit_order. */
struct tc_fit_case {
    const struct tc_tank *tank;
    const struct tc_tank_size *size;
    const struct tc_setup *setup;
    struct tc_demand demand;  /* of this slot */
    int count;                /* so many pieces are wanted; 0: as many as it takes */
    int years;                /* study period */
    double discount;          /* real, a year */
    double energy_price;      /* minor units a joule */
    double energy_escalation; /* real, a year */
    double replacement_tax;   /* share the till adds to prices; 0 where included */
    double hour_worth;        /* minor units an hour of upkeep; 0: it does not count */
};

/*
 * Substrate first (it displaces water), then lid (light passes it), light,
 * filter, air pump, heater (it needs the others' heat), stand (it needs the
 * weight).
 */
extern const enum tc_slot tc_fit_order[TC_SLOT_COUNT];

/* Fewer pieces may cost so much more, as a share, and are still preferred. */
#define TC_FIT_FEWER 0.05

/*
 * Present value of one piece over the study period, minor units: bought, replaced, run, kept up, cleaned
 * where an hour has a worth, and sold at the end. It depends on no tank.
 */
double tc_fit_each(const struct tc_fit_case *fit, const struct tc_offer *offer);

/*
 * What one piece gives of that by which its slot is counted: a light ppf, a filter flow, an air pump air, a
 * heater heat, a substrate bed (the units of tc_demand). INFINITY for stands and lids.
 */
double tc_fit_gives(const struct tc_offer *offer);

/* The least that an offer can come to, as far as that is told by what is asked for over what one gives. */
double tc_fit_least(const struct tc_demand *demand, enum tc_slot slot, struct tc_ready_offer ready);

/* The electricity one piece uses in a year, J; none of a heater, whose energy is the tank's. */
double tc_fit_energy(const struct tc_fit_case *fit, const struct tc_offer *offer);

/*
 * How many pieces of an offer this tank would take if it asked for no light, flow, air, heat or load at all:
 * it never takes fewer, and what does not fit then, 0, fits it never.
 */
int tc_fit_possible(const struct tc_fit_case *fit, const struct tc_offer *offer);

/*
 * Judges one offer of a slot. Where the case wants a count, a part fits if so
 * many of it do. wanted says that the plan asks for this part: it is taken in
 * the least count that works, or, where it breaks a rule, in the count wanted
 * or once: its verdict then keeps fits = false and the reason.
 */
struct tc_verdict tc_fit_judge(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_offer *offer,
                               bool wanted);

/*
 * The best of all offers of a slot, or the one whose name is pinned, where that
 * is not NULL; false where there is none.
 */
bool tc_fit_choose(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_offer *offers,
                   int offer_count, const char *pinned, struct tc_verdict *chosen);

/* The same of offers of one slot alone, all of them priced and ready, the cheapest (each) first. */
bool tc_fit_choose_ready(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_ready_offer *ready,
                         int count, struct tc_verdict *chosen);

/* Judges one of these. */
struct tc_verdict tc_fit_judge_ready(const struct tc_fit_case *fit, enum tc_slot slot,
                                     struct tc_ready_offer ready, bool wanted);

/* The least count that together gives what is needed: at least 1, and no more than one beyond `most`. */
int tc_fit_count(double need, double each, int most);

#endif
