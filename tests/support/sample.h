/* SPDX-License-Identifier: MIT */
/*
 * sample.h - a tank, a setup, a region and parts with their prices, for the tests of
 * choosing parts and of costs. All figures are invented.
 *
 *     struct sample s;
 *     sample_make(&s);
 *     s.setup.ppfd = 0;                     ...whatever the test is about
 *     sample_settle(&s);                  parts chosen, s.equipment
 *     sample_cost(&s);                    and the cost made, s.cost
 *
 * A sample holds pointers to itself: do not copy it.
 */
#ifndef TC_TESTS_SAMPLE_H
#define TC_TESTS_SAMPLE_H

#include "core/cost/cost.h"
#include "support/draw.h"

#define INCH      0.0254
#define US_GALLON (231 * INCH * INCH * INCH)

enum { SAMPLE_PARTS_MAX = 32 };

struct sample {
    struct tc_tank tank;
    struct tc_setup setup;
    struct tc_region region;
    struct tc_tariffs tariffs;
    struct tc_part parts[SAMPLE_PARTS_MAX];
    struct tc_offer offers[SAMPLE_PARTS_MAX];
    struct tc_tariff_margin electricity, water;
    struct tc_case c; /* with the number of offers */
    bool listed;
    tc_money list; /* price of the tank */
    struct tc_sale sale;
    struct tc_equipment equipment;
    struct tc_prices prices;
    struct tc_cost cost;
};

/*
 * A 30 x 12 x 18 in tank of 29 gallons at 50.00, in a region with dollars, 7 %
 * tax added at the till, flat prices of electricity and water and a room of 20
 * C; the setup covers, lights, heats and filters it and puts it on a stand with 2
 * in of substrate. One part for each slot fits, one costs more, some do not
 * fit. 10 years at 3 %.
 */
void sample_make(struct sample *s);

/*
 * Any tank, setup, region, currency, tariff, deal and wishes of those that can be
 * worked out, with its parts chosen. Some slots may be left that nothing fits.
 */
void sample_draw(struct sample *s, struct tc_random *random);

/* Adds a part at a price in minor units, with a life; what the slot needs is left to set. */
struct tc_part *sample_add(struct sample *s, enum tc_slot slot, const char *name, tc_money price,
                           double life);

/* A part's offer by its name. */
struct tc_offer *sample_offer(struct sample *s, const char *name);

/* A round tank of so many inches outside, in glass of so many mm. */
struct tc_tank sample_tank_inches(double length, double width, double height, double glass);

/* The tariffs of the region worked in, and the price of a joule to compare parts by. */
void sample_price_energy(struct sample *s);

/* sample_price_energy, the deal at the list price, and the parts chosen. The test fails if they cannot be. */
void sample_settle(struct sample *s);

/* The cost of the setup as it is. */
void sample_cost(struct sample *s);

/* Parts chosen of a counter (NULL: of all that is on offer) and swapped; false where that fails. */
bool sample_choose(struct tc_case *c, const struct tc_counter *counter, const struct tc_prices *prices,
                   struct tc_equipment *equipment);

/* Terms for the tanks of the case at the list price; the tests change what they are about. */
struct tc_deal_terms sample_terms(const struct sample *s);

/* The deal on such terms, in s->prices; the test fails if it cannot be made. */
void sample_deal(struct sample *s, struct tc_deal_terms terms);

/* The same at a price typed by hand. */
void sample_typed(struct sample *s, tc_money price);

/* The name of the part that fills a slot, "" for none. */
const char *sample_part(const struct sample *s, enum tc_slot slot);

#endif
