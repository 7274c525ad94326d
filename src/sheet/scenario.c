/* SPDX-License-Identifier: MIT */
#include "sheet/scenario.h"
#include "sheet/study_deal.h"

#include <stdlib.h>

/* The Gregorian year's mean month: 365.2425 / 12. */
#define DAYS_PER_MONTH 30.436875

enum { LOOK_AHEAD_DAYS = 731 };

static const double WORTH_SHARE = 0.1, WORTH_MONTHS = 4;

static enum tc_status make_bid(const struct tc_study *study, const struct tc_scenario *scenario,
                               const struct tc_alternative *alternative, struct tc_outcome *outcome)
{
    enum tc_status status = tc_study_deal(study, alternative, scenario->way, &outcome->deal);
    outcome->applies = !scenario->way.sale || outcome->deal.sale == scenario->way.sale;
    if (status != TC_OK)
        return status;
    status = tc_study_cost(study, alternative, &outcome->deal, &outcome->equipment, &outcome->prices,
                           &outcome->cost);
    if (status == TC_OK)
        outcome->deal = outcome->prices.deal; /* at the shop that it comes to */
    return status;
}

/* The complete outcome with the lowest present value, `but` left aside; -1 where there is none. */
static int cheapest(const struct tc_scenario *scenario, const bool suits[], int count, int but)
{
    int best = -1;
    for (int i = 0; i < count; i++) {
        const struct tc_cost *cost = &scenario->outcomes[i].cost;
        if (i != but && suits[i] && !cost->incomplete &&
            (best < 0 || cost->present_value < scenario->outcomes[best].cost.present_value))
            best = i;
    }
    return best;
}

/* A tank without a price is compared as well: what it may cost at most is the more worth knowing. */
static bool comparable(const struct tc_outcome *outcome)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (outcome->equipment.slot[slot].missing)
            return false;
    return true;
}

static enum tc_status find_walkaway(const struct tc_study *study, struct tc_scenario *scenario,
                                    const bool suits[], int index)
{
    struct tc_outcome *outcome = &scenario->outcomes[index];
    outcome->rival = cheapest(scenario, suits, study->alternative_count, index);
    outcome->compared = outcome->rival >= 0 && comparable(outcome);
    if (!outcome->compared)
        return TC_OK;
    return tc_scenario_walkaway(study, scenario, index, scenario->outcomes[outcome->rival].cost.present_value,
                                &outcome->walkaway);
}

enum tc_status tc_scenario_walkaway(const struct tc_study *study, const struct tc_scenario *scenario,
                                    int index, tc_money target, struct tc_walkaway *walkaway)
{
    const struct tc_outcome *outcome = &scenario->outcomes[index];
    return tc_walkaway_find(&study->alternatives[index].c, &outcome->equipment, &outcome->prices,
                            &outcome->cost, target, walkaway);
}

enum tc_status tc_scenario_make(struct tc_scenario *scenario, const struct tc_study *study, struct tc_way way,
                                const bool suits[])
{
    *scenario = (struct tc_scenario){.way = way, .best = -1};
    size_t count = study->alternative_count > 0 ? (size_t)study->alternative_count : 1;
    scenario->outcomes = calloc(count, sizeof *scenario->outcomes);
    if (!scenario->outcomes)
        return TC_NO_MEMORY;
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        status = make_bid(study, scenario, &study->alternatives[i], &scenario->outcomes[i]);
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        status = find_walkaway(study, scenario, suits, i);
    if (status == TC_OK)
        scenario->best = cheapest(scenario, suits, study->alternative_count, -1);
    return status;
}

bool tc_scenario_today(const struct tc_study *study, const struct tc_outcome *outcome)
{
    return !outcome->deal.sale || tc_sale_runs(outcome->deal.sale, study->today);
}

void tc_scenario_free(struct tc_scenario *scenario)
{
    free(scenario->outcomes);
    scenario->outcomes = NULL;
}

/* Whether a sale of the region comes within sight, and when. */
static bool comes(const struct tc_study *study, const struct tc_alternative *alternative,
                  const struct tc_sale *sale, struct tc_period *period)
{
    if (!tc_study_sale_here(study, alternative, sale) || !sale->dated ||
        !tc_sale_covers(sale, &alternative->c.tank) || tc_sale_runs(sale, study->today))
        return false;
    return tc_repeat_next(&sale->when, study->today, period) == TC_OK &&
           tc_days_between(study->today, period->first) <= LOOK_AHEAD_DAYS;
}

bool tc_wait_worth(tc_money saved, double months, tc_money each)
{
    return saved > 0 && (double)saved >= WORTH_SHARE * (double)each && months <= WORTH_MONTHS;
}

/* The sooner of two that are worth it; else the one that saves more. */
static bool better_wait(const struct tc_wait *a, const struct tc_wait *b, tc_money each)
{
    bool worth = tc_wait_worth(a->net, a->months, each);
    if (worth != tc_wait_worth(b->net, b->months, each))
        return worth;
    if (worth && a->months != b->months)
        return a->months < b->months;
    return a->net > b->net;
}

enum tc_status tc_wait_find(const struct tc_study *study, const struct tc_alternative *alternative,
                            tc_money today, tc_money each, struct tc_wait *wait)
{
    enum tc_status status = TC_OK;
    tc_money month = tc_currency_money(study->region.currency, study->plan.waiting_cost, &status);
    *wait = (struct tc_wait){.sale = NULL};
    if (alternative->cost.incomplete || alternative->terms.typed)
        return status; /* nothing to compare what it costs then with; in no shop's sale */
    for (size_t i = 0; status == TC_OK && i < study->stock->sale_count; i++) {
        const struct tc_sale *sale = &study->stock->sales[i];
        struct tc_wait found = {.sale = sale};
        struct tc_deal deal;
        struct tc_equipment equipment;
        struct tc_prices prices;
        struct tc_cost cost;
        if (!comes(study, alternative, sale, &found.period))
            continue;
        status = tc_study_deal(study, alternative, (struct tc_way){TC_WAY_SALE, sale}, &deal);
        if (status == TC_OK)
            status = tc_study_cost(study, alternative, &deal, &equipment, &prices, &cost);
        if (status != TC_OK)
            break;
        if (cost.incomplete)
            continue;
        found.months = tc_days_between(study->today, found.period.first) / DAYS_PER_MONTH;
        found.saved = tc_money_subtract(today, cost.present_value, &status);
        tc_money waiting = tc_money_round((double)month * found.months, &status);
        found.net = tc_money_subtract(found.saved, waiting, &status);
        if (!wait->sale || better_wait(&found, wait, each))
            *wait = found;
    }
    return status;
}
