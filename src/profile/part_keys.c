/* SPDX-License-Identifier: MIT */
/*
 * The tables of all parts: what each kind has of its own stands between its
 * title and what every part has. The lives and second-hand values that count
 * where none is given are common practice, no source, but for the heater's: a
 * thermostatic one should be replaced every two years or so (Encyclopedia of
 * Aquarium and Pond Fish, 3rd edition, p. 33).
 */
#include "profile/part_keys.h"

#include "core/physics/light.h"
#include "core/goods/part.h"
#include "profile/key_table.h"

#define PART                struct tc_part
#define TITLE(sample)       TC_TITLE_KEY(PART, goods.title, sample)
#define GOODS(life, resale) TC_GOODS_KEYS(PART, goods, life, resale)
#define TABLE(name, kind_, help_, start_, check_)                                                            \
    const struct tc_key_table name = {                                                                       \
        .kind = kind_,                                                                                       \
        .help = help_,                                                                                       \
        .keys = name##_list,                                                                                 \
        .count = TC_COUNT_OF(name##_list),                                                                   \
        .record_size = sizeof(PART),                                                                         \
        .start = start_,                                                                                     \
        .check = check_,                                                                                     \
    }

/* Most power of one part: more is a slip of the unit. */
#define MOST_POWER 3000

/* ------------------------------------------------------------------------ stand */

static const struct tc_key tc_stand_keys_list[] = {
    TITLE("Pine stand for 30 x 12 in"),
    TC_QUANTITY_KEY("length", LENGTH, PART, as.stand.length, 0.1, 6, NULL, "30 in", "length of its top"),
    TC_QUANTITY_KEY("width", LENGTH, PART, as.stand.width, 0.1, 3, NULL, "12 in",
                    "width of its top, front to back"),
    TC_QUANTITY_KEY("height", LENGTH, PART, as.stand.height, 0.05, 2, "30 in", "28 in",
                    "from the floor to its top"),
    TC_QUANTITY_KEY("load", MASS, PART, as.stand.load, 1, 10000, NULL, "180 kg", "rated load, evenly spread"),
    TC_FLAG_KEY("top", PART, as.stand.solid, "frame", "solid",
                "solid: a board; frame: open, so the tank's edges have to rest on it",
                .words = "frame solid"),
    GOODS("20 years", "40 %"),
};

static void start_stand(void *record)
{
    ((PART *)record)->slot = TC_SLOT_STAND;
}

TABLE(tc_stand_keys, "stand", "a stand", start_stand, NULL);

/* -------------------------------------------------------------------------- lid */

static const struct tc_key tc_lid_keys_list[] = {
    TITLE("Glass lid for 30 x 12 in"),
    TC_QUANTITY_KEY("length", LENGTH, PART, as.lid.length, 0.05, 6, NULL, "30 in",
                    "of the tank's rim it is made for"),
    TC_QUANTITY_KEY("width", LENGTH, PART, as.lid.width, 0.05, 3, NULL, "12 in",
                    "of the tank's rim it is made for"),
    TC_QUANTITY_KEY("covered", SHARE, PART, as.lid.covered, 0, 1, "90 %", "92 %",
                    "share of the water's surface it covers"),
    TC_QUANTITY_KEY("transmittance", SHARE, PART, as.lid.transmittance, 0, 1, "90 %", "88 %",
                    "share of light it lets through"),
    GOODS("10 years", "20 %"),
};

static void start_lid(void *record)
{
    ((PART *)record)->slot = TC_SLOT_LID;
}

TABLE(tc_lid_keys, "lid", "a lid", start_lid, NULL);

/* ------------------------------------------------------------------------ light */

static const struct tc_key_word by_height[] = {{"height", 0}, {NULL, 0}};

/* Three ways to say how much light; all are read into ppf, in their own unit, and turned by the check. */
static const struct tc_key tc_light_keys_list[] = {
    TITLE("Light strip, 90 cm"),
    TC_QUANTITY_KEY("shortest", LENGTH, PART, as.light.shortest, 0.05, 6, NULL, "85 cm",
                    "shortest tank it can stand or hang on"),
    TC_QUANTITY_KEY("longest", LENGTH, PART, as.light.longest, 0.05, 6, NULL, "105 cm",
                    "longest tank it can stand or hang on"),
    TC_QUANTITY_KEY("power", POWER, PART, as.light.power, 0.1, MOST_POWER, NULL, "18 W", "electric power"),
    TC_QUANTITY_KEY("ppf", PHOTON_FLOW, PART, as.light.ppf, 0.1, 10000, "", "32 umol/s",
                    "photons it gives; this, efficacy or lumens is needed"),
    TC_QUANTITY_KEY("efficacy", PHOTON_EFFICACY, PART, as.light.ppf, 0.05, 5, "", "1.8 umol/J",
                    "photons for its power, in place of ppf"),
    TC_QUANTITY_KEY("lumens", LUMINOUS_FLOW, PART, as.light.ppf, 1, 500000, "", "2100 lm",
                    "light it gives, in place of ppf; 70 lm count as 1 umol/s"),
    TC_QUANTITY_KEY("heat", SHARE, PART, as.light.heat, 0, 1, "30 %", "25 %",
                    "share of its power that ends in the water as heat"),
    TC_QUANTITY_KEY("reach", LENGTH, PART, as.light.reach, 0.05, 3, "height", "45 cm",
                    "width of tank that one row lights evenly; the word height: from its height",
                    .word = by_height),
    GOODS("7 years", "30 %"),
};

static void start_light(void *record)
{
    ((PART *)record)->slot = TC_SLOT_LIGHT;
}

/* The highest efficacy of fixtures with red and blue light: Kusuma, Pattison and Bugbee, Horticulture
 * Research 7:56 (2020). A lamp beyond it has a slip in it. */
#define MOST_EFFICACY 4.1

static bool check_light(struct tc_entry *entry)
{
    struct tc_light *light = &((PART *)entry->record)->as.light;
    bool ppf = tc_entry_given(entry, "ppf"), efficacy = tc_entry_given(entry, "efficacy");
    bool lumens = tc_entry_given(entry, "lumens");
    if (ppf + efficacy + lumens == 0)
        return tc_entry_blame(entry, NULL,
                              "does not say how much light it gives; write ppf, efficacy or lumens");
    if (ppf + efficacy + lumens > 1)
        return tc_entry_blame(entry, lumens ? "lumens" : "efficacy",
                              "ppf, efficacy and lumens say the same; write one of them");
    if (light->longest < light->shortest)
        return tc_entry_blame(entry, "longest", "is less than shortest");
    double factor = efficacy ? light->power : lumens ? 1 / TC_LUMENS_PER_PPF : 1;
    light->ppf *= factor;
    for (int i = 0; i < entry->range_count; i++) {
        struct tc_key_range *range = &entry->range[i].range;
        if (range->offset == offsetof(PART, as.light.ppf)) {
            range->spread.low *= factor;
            range->spread.likely *= factor;
            range->spread.high *= factor;
        }
    }
    if (light->ppf > MOST_EFFICACY * light->power)
        return tc_entry_blame(entry, "power",
                              "is too little for that much light; no lamp gives more than 4.1 umol/J");
    return true;
}

TABLE(tc_light_keys, "light", "a light", start_light, check_light);

/* ----------------------------------------------------------------------- filter */

static const struct tc_key tc_filter_keys_list[] = {
    TITLE("Sponge filter, medium"),
    {.name = "kind",
     .form = TC_KEY_CHOICE,
     .offset = offsetof(PART, as.filter.kind),
     .words = "none sponge hang-on canister",
     .example = "sponge",
     .help = "sponge, hang-on or canister"},
    TC_QUANTITY_KEY("flow", FLOW, PART, as.filter.flow, 1e-6, 0.02, NULL, "250 L/h",
                    "water it moves as it runs, its media in it"),
    TC_QUANTITY_KEY("reach", LENGTH, PART, as.filter.reach, 0.05, 6, "36 in", "24 in",
                    "length of tank in which one keeps the water moving"),
    TC_QUANTITY_KEY("power", POWER, PART, as.filter.power, 0, MOST_POWER, "0 W", "5 W",
                    "of its own motor; 0 for a sponge"),
    TC_QUANTITY_KEY("air", FLOW, PART, as.filter.air, 0, 0.02, "0 L/h", "60 L/h",
                    "air it needs; 0 for one with a motor"),
    TC_QUANTITY_KEY("heat", SHARE, PART, as.filter.heat, 0, 1, "80 %", "70 %",
                    "share of its power that ends in the water as heat"),
    GOODS("8 years", "30 %"),
};

static void start_filter(void *record)
{
    ((PART *)record)->slot = TC_SLOT_FILTER;
}

static bool check_filter(struct tc_entry *entry)
{
    const struct tc_filter *filter = &((PART *)entry->record)->as.filter;
    bool sponge = filter->kind == TC_FILTER_SPONGE;
    if (filter->kind == TC_FILTER_NONE)
        return tc_entry_blame(entry, "kind", "'none' is for setups; write sponge, hang-on or canister");
    if (sponge && !(filter->air > 0))
        return tc_entry_blame(entry, NULL,
                              "a sponge filter is driven by air; write how much, like 'air = 60 L/h'");
    if (!sponge && !(filter->power > 0))
        return tc_entry_blame(entry, NULL, "a filter with a motor needs its power, like 'power = 5 W'");
    return true;
}

TABLE(tc_filter_keys, "filter", "a filter", start_filter, check_filter);

/* --------------------------------------------------------------------- air pump */

static const struct tc_key tc_air_pump_keys_list[] = {
    TITLE("Air pump, two outlets"),
    TC_QUANTITY_KEY("flow", FLOW, PART, as.air_pump.flow, 1e-7, 0.1, NULL, "150 L/h",
                    "air it gives at the depth of use, all outlets together"),
    TC_QUANTITY_KEY("depth", LENGTH, PART, as.air_pump.depth, 0.05, 5, "60 cm", "45 cm",
                    "deepest water it can blow into"),
    TC_QUANTITY_KEY("power", POWER, PART, as.air_pump.power, 0.1, MOST_POWER, NULL, "3 W", "electric power"),
    GOODS("5 years", "20 %"),
};

static void start_air_pump(void *record)
{
    ((PART *)record)->slot = TC_SLOT_AIR_PUMP;
}

TABLE(tc_air_pump_keys, "air-pump", "an air pump", start_air_pump, NULL);

/* ----------------------------------------------------------------------- heater */

static const struct tc_key tc_heater_keys_list[] = {
    TITLE("Heater, 100 W"),
    TC_QUANTITY_KEY("power", POWER, PART, as.heater.power, 1, MOST_POWER, NULL, "100 W", "its rated power"),
    GOODS("2 years", "10 %"),
};

static void start_heater(void *record)
{
    ((PART *)record)->slot = TC_SLOT_HEATER;
}

TABLE(tc_heater_keys, "heater", "a heater with its thermostat", start_heater, NULL);

/* -------------------------------------------------------------------- substrate */

static const struct tc_key tc_substrate_keys_list[] = {
    TITLE("Fine sand, bag of 10 L"),
    TC_QUANTITY_KEY("volume", VOLUME, PART, as.substrate.volume, 0.0001, 2, NULL, "10 L",
                    "volume of one bag"),
    TC_QUANTITY_KEY("density", DENSITY, PART, as.substrate.bulk_density, 100, 3000, "1600 kg/m3",
                    "1500 kg/m3", "bulk density, dry: mass of a volume as it lies"),
    TC_QUANTITY_KEY("voids", SHARE, PART, as.substrate.void_share, 0, 0.95, "40 %", "38 %",
                    "share of its volume that water fills"),
    GOODS("10 years", "0 %"),
};

static void start_substrate(void *record)
{
    ((PART *)record)->slot = TC_SLOT_SUBSTRATE;
}

TABLE(tc_substrate_keys, "substrate", "what lies on the bottom, by the bag", start_substrate, NULL);
