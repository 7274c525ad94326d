/* SPDX-License-Identifier: MIT */
#include "profile/setup_keys.h"

#include "core/goods/setup.h"
#include "profile/key_table.h"

#define SETUP struct tc_setup

/* Light at the bottom for plants that want little, some and much: common practice, no source. */
static const struct tc_key_word light_levels[] = {
    {"none", 0}, {"low", 20}, {"medium", 40}, {"high", 80}, {NULL, 0}};

static const struct tc_key_word by_filter[] = {{"by-filter", NAN}, {NULL, 0}};

static const struct tc_key_word centred[] = {{"centered", NAN}, {NULL, 0}};

static const struct tc_key keys[] = {
    TC_TITLE_KEY(SETUP, title, "Shrimp shelf"),
    TC_FLAG_KEY("stand", SETUP, stand, "yes", "no", "whether it wants a stand of its own", .danger = "stand"),
    TC_FLAG_KEY("lid", SETUP, lid, "covered", "open", "covered or open", .words = "open covered",
                .danger = "evaporation"),
    TC_FLAG_KEY("heater", SETUP, heater, "yes", "no", "whether the water is kept warm", .danger = "heater"),
    {.name = "filter",
     .form = TC_KEY_CHOICE,
     .offset = offsetof(SETUP, filter),
     .words = "none sponge hang-on canister",
     .example = "sponge",
     .help = "kind of filter: none, sponge, hang-on or canister",
     .danger = "filter"},
    TC_QUANTITY_KEY("turnover", TURNOVER, SETUP, turnover, 0, 30.0 / 3600, "4 /h", "5 /h",
                    "how often the filters move the water of the tank"),
    TC_FLAG_KEY("shared-air", SETUP, shared_air, "no", "yes",
                "whether all tanks of a candidate share one air pump; else each has its own"),
    TC_QUANTITY_KEY(
        "ppfd", PHOTON_DENSITY, SETUP, ppfd, 0, 1000, "none", "40 umol/m2/s",
        "light at the bottom; the words none, low, medium and high stand for 0, 20, 40 and 80 umol/m2/s",
        .word = light_levels),
    TC_QUANTITY_KEY("light-hours", HOURS, SETUP, light_hours, 0, 24, "8 h", "9 h", "hours of light a day"),
    TC_QUANTITY_KEY("light-start", HOURS, SETUP, light_start, 0, 23.99, "centered", "9:30",
                    "when the light goes on; the word centered: so that the middle of its time is at 14:00",
                    .word = centred, .fixed = true),
    TC_QUANTITY_KEY("attenuation", ATTENUATION, SETUP, attenuation, 0, 10, "0.5 /m", "0.8 /m",
                    "how fast the water dims light: 0.2 clear to 1 tinted"),
    TC_QUANTITY_KEY("temperature", TEMPERATURE, SETUP, temperature, TC_CELSIUS(4), TC_CELSIUS(38), "25 C",
                    "77 F", "water temperature that the heater keeps"),
    TC_QUANTITY_KEY(
        "heat-loss", SHARE, SETUP, heat_loss, 0.2, 3, "80 to 120 % likely 100 %", "90 to 110 % likely 100 %",
        "true heat loss over the computed one, where no heater was metered: how sure the model is"),
    TC_QUANTITY_KEY("warm-limit", TEMPERATURE, SETUP, warm_limit, TC_CELSIUS(5), TC_CELSIUS(45), "30 C",
                    "86 F", "water temperature above which the animals suffer"),
    TC_FLAG_KEY("cooling", SETUP, keeper_cools, "none", "own",
                "none: a tank that gets warmer than warm-limit does not suit; own: you cool it by a fan or "
                "chiller, whose cost is in no figure",
                .words = "none own"),
    TC_QUANTITY_KEY("heater-margin", SHARE, SETUP, heater_margin, 0, 3, "25 %", "30 %",
                    "spare power, over what the coldest hour needs"),
    TC_COUNT_KEY("heaters", SETUP, heater_count, 1, 4, "1", "2",
                 "least number of heaters that share the work"),
    TC_QUANTITY_KEY("substrate-depth", LENGTH, SETUP, bed_depth, 0, 0.5, "none", "2 in",
                    "depth of the substrate; the word none: bare bottom", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("water-change", SHARE, SETUP, change_share, 0, 1, "25 %", "30 %",
                    "share of the water at each change"),
    TC_QUANTITY_KEY("change-interval", DAYS, SETUP, change_interval, 0.25, 366, "1 week", "10 days",
                    "from one water change to the next"),
    TC_QUANTITY_KEY("activity", PLAIN, SETUP, activity, 0, 2, "by-filter", "1",
                    "evaporation relative to the ASHRAE equation; the word by-filter: 0.74 for calm water, "
                    "0.87 under a hang-on filter, 1 where air drives the filter",
                    .word = by_filter, .danger = "evaporation"),
    TC_QUANTITY_KEY("sheltered-sides", SHARE, SETUP, sheltered, 0, 1, "0 %", "35 %",
                    "share of the tank's sides that lose no heat: a back against a wall, a neighbor as warm"),
    TC_QUANTITY_KEY("least-length", LENGTH, SETUP, least_length, 0.05, 6, "none", "30 in",
                    "least length to swim, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("least-bottom", AREA, SETUP, least_bottom, 0.0025, 20, "none", "500 in2",
                    "least bottom area, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("least-height", LENGTH, SETUP, least_height, 0.05, 2, "none", "14 in",
                    "least height, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("greatest-height", LENGTH, SETUP, greatest_height, 0.05, 2, "none", "22 in",
                    "greatest height, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("greatest-reach", LENGTH, SETUP, greatest_reach, 0.05, 2, "none", "24 in",
                    "greatest reach from rim to substrate", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("territory", AREA, SETUP, territory, 0.0025, 20, "none", "150 in2",
                    "bottom that one territory takes, by your own rule: 'fit' says how many a tank holds",
                    .word = tc_none_is_zero),
    TC_COUNT_KEY("territories", SETUP, territory_count, 1, 1000, "1", "4",
                 "how many are wanted; counts where 'territory' is given"),
    TC_QUANTITY_KEY("shoal-length", LENGTH, SETUP, shoal_length, 0.05, 6, "none", "36 in",
                    "length to swim, inside, that a shoal wants", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("water-each", VOLUME, SETUP, water_each, 0.0001, 1, "none", "2 gal",
                    "water for each animal, by your own rule: 'fit' says how many a tank holds",
                    .word = tc_none_is_zero),
    TC_COUNT_KEY("animals", SETUP, animal_count, 1, 10000, "1", "12",
                 "how many are wanted; counts where 'water-each' is given"),
};

static bool check(struct tc_entry *entry)
{
    SETUP *setup = entry->record;
    if (isnan(setup->light_start)) {
        double start = TC_MIDDLE_OF_LIGHT - setup->light_hours / 2;
        setup->light_start = start;
    }
    if (setup->heater && setup->warm_limit <= setup->temperature)
        return tc_entry_blame(entry, "warm-limit", "is not above the temperature the heater keeps");
    if (setup->greatest_height > 0 && setup->greatest_height < setup->least_height)
        return tc_entry_blame(entry, "greatest-height", "is less than least-height");
    if (setup->ppfd > 0 && !(setup->light_hours > 0))
        return tc_entry_blame(entry, "light-hours", "is 0, but ppfd needs light");
    return true;
}

static const struct tc_key_former former[] = {
    {"light", "the light at the bottom is 'ppfd', as in 'ppfd = low'"}, {NULL, NULL}};

const struct tc_key_table tc_setup_keys = {
    .kind = "setup",
    .help = "how a keeper equips and runs a tank, and what its animals need",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(SETUP),
    .check = check,
    .former = former,
};
