/* SPDX-License-Identifier: MIT */
#include "sheet/study.h"

#include <stdlib.h>

#include "core/cost/counter_make.h"

void tc_study_margins(const struct tc_region *region, const struct tc_tariffs *tariffs,
                      const struct tc_running *before, struct tc_tariff_margin *electricity,
                      struct tc_tariff_margin *water)
{
    double scale = tc_currency_scale(region->currency);
    struct tc_tariff power = tariffs->electricity, tap = tariffs->water;
    tc_tariff_scale(&power, scale);
    tc_tariff_scale(&tap, scale);
    double energy[TC_MONTHS], volume[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++) {
        energy[month] = region->household_energy / TC_KILOWATT_HOUR;
        volume[month] = region->household_water;
    }
    struct tc_load own;
    tc_load_even(&own, energy);
    for (int i = 0; before && i < TC_CONSUMER_COUNT; i++)
        tc_load_add(&own, &before->energy[i], 1);
    for (int month = 0; before && month < TC_MONTHS; month++)
        volume[month] += before->changed[month] + before->evaporated[month];
    tc_tariff_margin(electricity, &power, &own);
    tc_load_even(&own, volume);
    tc_tariff_margin(water, &tap, &own);
}

bool tc_study_setup_shared(const struct tc_study *study, const struct tc_alternative *alternative)
{
    return alternative->c.setup == &study->setup;
}

const struct tc_shop *tc_study_shop_of(const struct tc_study *study, const struct tc_alternative *alternative,
                                       int line)
{
    int place = alternative->c.market ? alternative->cost.shop[line] : 0;
    return place > 0 ? study->shops[place] : study->shop;
}

void tc_study_free(struct tc_study *study)
{
    for (int i = 0; i <= TC_SHOPS_MAX; i++)
        tc_counter_free(&study->counters[i]);
    free(study->offers);
    free(study->alternatives);
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        tc_counter_free(&study->own_counters[i]);
        tc_unnamed_free(study->unnamed[i]);
        study->unnamed[i] = NULL;
        free(study->own_offers[i].offers);
        free(study->own_offers[i].asked);
        study->own_offers[i] = (struct tc_own_offers){NULL, NULL};
    }
    free(study->asked);
    study->asked = NULL;
    study->offers = NULL;
    study->alternatives = NULL;
    study->offer_count = study->alternative_count = 0;
}

int tc_study_cheapest(const struct tc_study *study)
{
    int best = -1;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_alternative *before = best < 0 ? NULL : &study->alternatives[best];
        bool suits = alternative->suit.suits, had = before && before->suit.suits;
        if (!alternative->cost.incomplete &&
            (!before || (suits && !had) ||
             (suits == had && alternative->cost.present_value < before->cost.present_value)))
            best = i;
    }
    return best;
}
