/* SPDX-License-Identifier: MIT */
/*
 * scenario.h - the candidates of a study bought in one way: at list price, in a
 * sale, on special order, or as the plan has them.
 */
#ifndef TC_SHEET_SCENARIO_H
#define TC_SHEET_SCENARIO_H

#include <stdbool.h>

#include "core/base/calendar.h"
#include "core/cost/walkaway.h"
#include "sheet/study.h"

/* One candidate in one scenario. */
struct tc_outcome {
    struct tc_deal deal;
    struct tc_equipment equipment;
    struct tc_prices prices;
    struct tc_cost cost;
    bool applies;  /* the scenario changes what this candidate costs; else it is at list price here */
    bool compared; /* complete, and there is another to compare with */
    int rival;     /* compared: the best other candidate of the scenario */
    struct tc_walkaway walkaway; /* compared: against the rival */
};

struct tc_scenario {
    struct tc_way way;
    int best;                    /* the candidate cheapest to own, or -1 */
    struct tc_outcome *outcomes; /* study->alternative_count of them, owned */
};

/*
 * Works a scenario out; of the alternatives only those for which suits is set are the best or a rival. Free
 * it whatever the status. TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_scenario_make(struct tc_scenario *scenario, const struct tc_study *study, struct tc_way way,
                                const bool suits[]);
/* The most that an alternative of the scenario may cost, so that owning it costs no more than target. */
enum tc_status tc_scenario_walkaway(const struct tc_study *study, const struct tc_scenario *scenario,
                                    int index, tc_money target, struct tc_walkaway *walkaway);

/* Whether an outcome can be had today: at no sale, or at one that runs. */
bool tc_scenario_today(const struct tc_study *study, const struct tc_outcome *outcome);

void tc_scenario_free(struct tc_scenario *scenario);

/* What waiting for a coming sale brings. */
struct tc_wait {
    const struct tc_sale *sale; /* NULL: no sale of the next two years covers the tank */
    struct tc_period period;    /* the next time it is held */
    double months;              /* from today to its first day */
    tc_money saved;             /* present value bought today less then, waiting not counted */
    tc_money net;               /* less what the user says waiting costs */
};

/*
 * The sale of the region, within two years from today, to wait for with an
 * alternative: the first one that is worth it, or else the one that saves most net
 * of waiting, against what it costs to own where it is bought today and the price of one tank today,
 * minor units. None for an alternative whose cost is incomplete.
 */
enum tc_status tc_wait_find(const struct tc_study *study, const struct tc_alternative *alternative,
                            tc_money today, tc_money each, struct tc_wait *wait);

/* Whether so much saved is worth so many months: a tenth of the tank's price, within four months. */
bool tc_wait_worth(tc_money saved, double months, tc_money each);

#endif
