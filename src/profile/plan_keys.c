/* SPDX-License-Identifier: MIT */
#include "profile/plan_keys.h"

#include <stdio.h>

#include "profile/key_table.h"
#include "profile/name_list.h"
#include "profile/plan_record.h"

/* ------------------------------------------------------------------------- plan */

static bool read_regions(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_plan *plan = record;
    char names[TC_PLAN_REGIONS_MAX][TC_NAME_SIZE];
    int count;
    (void)key;
    if (tc_name_equal(text, "all"))
        text = "";
    if (!tc_name_list_read(text, names, TC_PLAN_REGIONS_MAX, &count, reading->problem))
        return false;
    memcpy(plan->regions, names, sizeof names);
    plan->region_count = count;
    return true;
}

static void write_regions(const struct tc_key *key, const void *record, enum tc_unit_system system,
                          char text[TC_VALUE_SIZE])
{
    const struct tc_plan *plan = record;
    (void)key, (void)system;
    if (plan->region_count == 0)
        memcpy(text, "all", 4);
    else
        tc_name_list_write(plan->regions, plan->region_count, text);
}

/* "all", "none", "food tests" */
static bool read_extras(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_plan *plan = record;
    char names[TC_EXTRAS_MAX][TC_NAME_SIZE];
    int count;
    bool all = tc_name_equal(text, "all");
    (void)key;
    if (!tc_name_list_read(all || tc_name_equal(text, "none") ? "" : text, names, TC_EXTRAS_MAX, &count,
                           reading->problem))
        return false;
    memcpy(plan->extras, names, sizeof names);
    plan->extra_count = all ? -1 : count;
    return true;
}

static void write_extras(const struct tc_key *key, const void *record, enum tc_unit_system system,
                         char text[TC_VALUE_SIZE])
{
    const struct tc_plan *plan = record;
    (void)key, (void)system;
    if (plan->extra_count > 0)
        tc_name_list_write(plan->extras, plan->extra_count, text);
    else
        snprintf(text, TC_VALUE_SIZE, "%s", plan->extra_count < 0 ? "all" : "none");
}

static const struct tc_key plan_keys[] = {
    TC_TITLE_KEY(struct tc_plan, title, "Which tank for the living room"),
    TC_NAME_KEY("setup", struct tc_plan, setup, NULL, "shrimp-shelf", "how the tanks are equipped",
                .of = "setup"),
    TC_NAME_KEY("region", struct tc_plan, region, NULL, "lowmere", "where they are bought and run",
                .of = "region"),
    {.name = "regions",
     .form = TC_KEY_OWN,
     .fallback = "all",
     .example = "lowmere highfell",
     .help = "regions to compare; the word all: every one there is",
     .read = read_regions,
     .write = write_regions},
    TC_NAME_KEY("shop", struct tc_plan, shop, "any", "lowmere-shop",
                "the shop to buy at; the word any: the first of the region; one: all at the one shop where "
                "that costs least; several: spread over the shops so that all together costs least",
                .words = "any one several", .of = "shop"),
    TC_FLAG_KEY("pick-up", struct tc_plan, pick_up, "no", "yes",
                "whether orders are fetched from shops where that costs less than delivery"),
    TC_NAME_KEY("sale", struct tc_plan, sale, "best", "list",
                "price of tanks: list, best (of the sales that run), order (special order) or a sale's name"),
    TC_QUANTITY_KEY("years", YEARS, struct tc_plan, years, 1, 60, "10 years", "12 years",
                    "study period, whole years", .step = 1),
    TC_QUANTITY_KEY("discount", SHARE, struct tc_plan, discount, 0, 0.5, "3 %", "4 %",
                    "real discount rate, a year"),
    {.name = "extras",
     .form = TC_KEY_OWN,
     .fallback = "all",
     .example = "food tests",
     .help = "extras that count; the word all: every one there is; none: none of them",
     .read = read_extras,
     .write = write_extras},
    TC_FLAG_KEY("count-room-heat", struct tc_plan, count_room_heat, "no", "yes",
                "whether the bill counts what the tanks save in heating the room and cost in cooling it"),
    TC_MONEY_KEY("hour-worth", struct tc_plan, hour_worth, 1e8, "0", "15",
                 "what an hour of upkeep costs you, in the region's currency; 0: your time is not counted"),
    TC_MONEY_KEY("waiting-cost", struct tc_plan, waiting_cost, 1e8, "0", "5",
                 "what a month of waiting for a sale costs you, in the region's currency"),
    TC_CHOICE_KEY("goal", struct tc_plan, goal, "cost", "bottom",
                  "what counts: cost, or cost for each unit of water, bottom or length to swim",
                  .words = "cost water bottom length"),
    TC_CHOICE_KEY("units", struct tc_plan, units, "metric", "us", "us or metric", .words = "metric us"),
};

static const struct tc_key_former former[] = {{"kit", "it is called setup; write 'setup = NAME'"},
                                              {NULL, NULL}};

const struct tc_key_table tc_plan_keys = {
    .kind = "plan",
    .help = "a comparison: its candidates follow in sections of their own",
    .keys = plan_keys,
    .count = TC_COUNT_OF(plan_keys),
    .record_size = sizeof(struct tc_plan),
    .former = former,
};

/* -------------------------------------------------------------------- candidate */

#define CANDIDATE struct tc_candidate

static const struct tc_key_word any_is_zero[] = {{"any", 0}, {NULL, 0}};

#define SLOT_KEYS(key, slot, sample)                                                                         \
    TC_NAME_KEY(                                                                                             \
        key, CANDIDATE, pin[slot].part, "any", sample,                                                       \
        "the part to buy; the word any: the cheapest that fits; none: no part is bought; unnamed: a "        \
        "part of which you know only the price",                                                             \
        .words = "any", .of = key),                                                                          \
        TC_COUNT_KEY(key "-count", CANDIDATE, pin[slot].count, 1, 60, "any", "2",                            \
                     "how many for each tank; the word any: as many as it takes", .word = any_is_zero),      \
        TC_NAME_KEY(key "-shop", CANDIDATE, pin[slot].shop, "plan", "lowmere-shop",                          \
                    "the shop it is bought at; the word plan: as the plan says", .words = "plan",            \
                    .of = "shop"),                                                                           \
        TC_MONEY_KEY(key "-price", CANDIDATE, pin[slot].price, 1e8, "", "12",                                \
                     "price of one typed by hand, in the region's currency"),                                \
        TC_MONEY_KEY(key "-next-price", CANDIDATE, pin[slot].next, 1e8, "", "18",                            \
                     "what its replacement costs, if not the same"),                                         \
        TC_QUANTITY_KEY(key "-life", YEARS, CANDIDATE, pin[slot].life, 1.0 / 12, 100, "", "3 years",         \
                        "for a used one: years left"),                                                       \
        TC_QUANTITY_KEY(key "-resale", SHARE, CANDIDATE, pin[slot].resale, 0, 1, "", "20 %",                 \
                        "share of a new one's price it fetches in the end, in place of its profile's")

#define POWER_KEY(key, slot)                                                                                 \
    TC_QUANTITY_KEY(key "-power", POWER, CANDIDATE, pin[slot].power, 0, 10000, "", "18 W",                   \
                    "power of an unnamed one, if not just what the tank needs")

static const struct tc_key candidate_keys[] = {
    TC_NAME_KEY("tank", CANDIDATE, tank, NULL, "29-high", "the tank", .of = "tank"),
    TC_QUANTITY_KEY("length", LENGTH, CANDIDATE, length, 0.1, 6, "", "36 in",
                    "outer length, of a tank without a profile or in place of its profile's", .fixed = true),
    TC_QUANTITY_KEY("width", LENGTH, CANDIDATE, width, 0.1, 3, "", "15 in",
                    "outer width, front to back, of such a tank", .fixed = true),
    TC_QUANTITY_KEY("height", LENGTH, CANDIDATE, height, 0.08, 2, "", "16 in", "outer height of such a tank",
                    .fixed = true),
    TC_QUANTITY_KEY("glass", LENGTH, CANDIDATE, glass, 0.002, 0.02, "", "6 mm",
                    "thickness of all its panes, if not as its profile says or as usual for its size",
                    .fixed = true, .danger = "tank"),
    TC_QUANTITY_KEY("nominal", VOLUME, CANDIDATE, nominal, 0.001, 20, "", "29 gal",
                    "nominal volume, if not its profile's or the outer one", .fixed = true),
    TC_COUNT_KEY("quantity", CANDIDATE, quantity, 1, 1000, "1", "4",
                 "how many of this tank, all equipped alike"),
    TC_MONEY_KEY("price", CANDIDATE, price, 1e8, "", "45",
                 "price of one typed by hand, in the region's currency; it beats all sales"),
    TC_QUANTITY_KEY("life", YEARS, CANDIDATE, life, 1.0 / 12, 100, "", "6 years",
                    "for a used one: years left"),
    TC_QUANTITY_KEY("resale", SHARE, CANDIDATE, resale, 0, 1, "", "30 %",
                    "share of a new one's price it fetches in the end, in place of its profile's"),
    TC_NAME_KEY(
        "setup", CANDIDATE, setup, "plan", "planted-display",
        "how this one is equipped, as the profile of the setup has it; the word plan: as the plan says",
        .words = "plan", .of = "setup"),
    TC_NAME_KEY("sale", CANDIDATE, sale, "plan", "list",
                "like the plan's sale, for this candidate only; the word plan: as the plan says",
                .words = "plan"),
    TC_NAME_KEY("shop", CANDIDATE, shop, "plan", "lowmere-shop",
                "the shop its tanks are bought at; the word plan: as the plan says", .words = "plan",
                .of = "shop"),
    TC_QUANTITY_KEY("measured", ENERGY, CANDIDATE, measured, 3600, 3.6e9, "", "4.2 kWh",
                    "what the heater of one such tank used, by a plug-in meter", .fixed = true),
    TC_QUANTITY_KEY("measured-days", DAYS, CANDIDATE, measured_days, 0.5, 400, "1 week", "10 days",
                    "the time over which it used that", .fixed = true),
    TC_QUANTITY_KEY("measured-room", TEMPERATURE, CANDIDATE, measured_room, TC_CELSIUS(0), TC_CELSIUS(45),
                    "20 C", "19.5 C", "mean temperature of the room over that time", .fixed = true),
    TC_QUANTITY_KEY("measured-humidity", SHARE, CANDIDATE, measured_humidity, 0.05, 1, "50 %", "45 %",
                    "mean relative humidity of the room over that time", .fixed = true),
    TC_COUNT_KEY("wall-least", CANDIDATE, wall_least, 1, 1000, "none", "4",
                 "least number of these wanted on the wall", .word = tc_none_is_zero),
    TC_COUNT_KEY("wall-most", CANDIDATE, wall_most, 1, 1000, "none", "12",
                 "greatest number of these wanted on the wall", .word = tc_none_is_zero),
    SLOT_KEYS("stand", TC_SLOT_STAND, "pine-30x12"),
    SLOT_KEYS("lid", TC_SLOT_LID, "glass-30x12"),
    SLOT_KEYS("light", TC_SLOT_LIGHT, "strip-90"),
    SLOT_KEYS("filter", TC_SLOT_FILTER, "sponge-m"),
    SLOT_KEYS("air-pump", TC_SLOT_AIR_PUMP, "air-150"),
    SLOT_KEYS("heater", TC_SLOT_HEATER, "heater-100"),
    POWER_KEY("light", TC_SLOT_LIGHT),
    POWER_KEY("filter", TC_SLOT_FILTER),
    POWER_KEY("air-pump", TC_SLOT_AIR_PUMP),
    POWER_KEY("heater", TC_SLOT_HEATER),
    SLOT_KEYS("substrate", TC_SLOT_SUBSTRATE, "none"),
};

/* What is not typed is not known. */
static void start_candidate(void *record)
{
    CANDIDATE *candidate = record;
    candidate->price = candidate->life = candidate->resale = candidate->measured = NAN;
    candidate->length = candidate->width = candidate->height = NAN;
    candidate->glass = candidate->nominal = NAN;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        candidate->pin[slot].price = candidate->pin[slot].next = candidate->pin[slot].life =
            candidate->pin[slot].resale = candidate->pin[slot].power = NAN;
}

const struct tc_key_table tc_candidate_keys = {
    .kind = "candidate",
    .help = "one tank of a plan, with what is said of its price and parts; numbered from 1",
    .keys = candidate_keys,
    .count = TC_COUNT_OF(candidate_keys),
    .record_size = sizeof(CANDIDATE),
    .start = start_candidate,
};

/* ------------------------------------------------------------------------- wall */

#define WALL struct tc_wall_plan

/* A further stretch of the wall, between a door and a window, say; a further circuit. */
#define STRETCH_KEYS(number, i)                                                                              \
    TC_QUANTITY_KEY("length-" number, LENGTH, WALL, more_length[i], 0.2, 200, "none", "5 ft",                \
                    "length of stretch " number " of the wall", .word = tc_none_is_zero),                    \
        TC_QUANTITY_KEY("height-" number, LENGTH, WALL, more_height[i], 0.2, 10, "none", "4 ft",             \
                        "its highest usable point; the word none: as the first stretch",                     \
                        .word = tc_none_is_zero),                                                            \
        TC_QUANTITY_KEY("depth-" number, LENGTH, WALL, more_depth[i], 0.1, 5, "none", "20 in",               \
                        "its depth; the word none: as the first stretch", .word = tc_none_is_zero)
#define CIRCUIT_KEYS(number, i)                                                                              \
    TC_QUANTITY_KEY("circuit-" number "-current", ELECTRIC_CURRENT, WALL, more_current[i], 1, 400, "none",   \
                    "15 A", "rating of the breaker of circuit " number, .word = tc_none_is_zero),            \
        TC_QUANTITY_KEY("circuit-" number "-used", POWER, WALL, more_used[i], 0, 100000, "0 W", "200 W",     \
                        "power of what else runs on circuit " number, .danger = "circuit")

static const struct tc_key_word room_losses[] = {{"estimate", -1}, {"none", 0}, {NULL, 0}};

static const struct tc_key wall_keys[] = {
    TC_QUANTITY_KEY("length", LENGTH, WALL, length, 0.2, 200, "none", "12 ft", "usable length along the wall",
                    .word = tc_none_is_zero),
    TC_QUANTITY_KEY("height", LENGTH, WALL, height, 0.2, 10, "none", "2.2 m",
                    "from the floor to the highest usable point", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("depth", LENGTH, WALL, depth, 0.1, 5, "none", "24 in",
                    "usable depth, from the wall into the room", .word = tc_none_is_zero),
    STRETCH_KEYS("2", 0),
    STRETCH_KEYS("3", 1),
    STRETCH_KEYS("4", 2),
    TC_QUANTITY_KEY("gap", LENGTH, WALL, gap, 0, 1, "1 in", "2 cm", "between neighboring tanks"),
    TC_QUANTITY_KEY("post", LENGTH, WALL, post, 0, 0.5, "2 in", "4 cm", "width of an upright of the rack"),
    TC_QUANTITY_KEY("bay", LENGTH, WALL, bay, 0.2, 20, "none", "6 ft",
                    "longest bay between two posts; the word none: no posts", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("lowest", LENGTH, WALL, lowest, 0, 3, "6 in", "10 cm",
                    "from the floor to the underside of the lowest tier"),
    TC_QUANTITY_KEY("access", LENGTH, WALL, access, 0, 2, "12 in", "30 cm", "free height above each tank"),
    TC_QUANTITY_KEY("reach", LENGTH, WALL, reach, 0.1, 3, "none", "28 in",
                    "how far your arm reaches from the front; limits tanks that stand end-on",
                    .word = tc_none_is_zero),
    TC_QUANTITY_KEY("shelf", LENGTH, WALL, shelf, 0, 0.5, "2 in", "4 cm", "thickness of a shelf"),
    TC_MONEY_KEY("rack-price", WALL, rack_price, 1e8, "0", "60",
                 "price of one shelf of the rack, a bay wide"),
    TC_MONEY_KEY("timer-price", WALL, timer_price, 1e8, "0", "18",
                 "price of one timer that switches all lights"),
    TC_QUANTITY_KEY("rack-load", MASS, WALL, rack_load, 1, 100000, "none", "400 kg",
                    "load rating of one shelf of the rack, a bay wide", .word = tc_none_is_zero,
                    .danger = "rack"),
    TC_QUANTITY_KEY("bay-load", MASS, WALL, bay_load, 1, 100000, "none", "1200 kg",
                    "rated load of a whole bay", .word = tc_none_is_zero, .danger = "rack"),
    TC_QUANTITY_KEY("floor-load", PRESSURE, WALL, floor_load, 100, 1e6, "none", "40 psf",
                    "allowed load on the floor", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("circuit-current", ELECTRIC_CURRENT, WALL, circuit_current, 1, 400, "none", "15 A",
                    "rating of the breaker", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("circuit-voltage", VOLTAGE, WALL, circuit_voltage, 90, 480, "120 V", "230 V",
                    "voltage of the circuits"),
    TC_QUANTITY_KEY("circuit-used", POWER, WALL, circuit_used, 0, 100000, "0 W", "200 W",
                    "power of what else runs on it", .danger = "circuit"),
    CIRCUIT_KEYS("2", 0),
    CIRCUIT_KEYS("3", 1),
    CIRCUIT_KEYS("4", 2),
    TC_NAME_KEY("pump", WALL, pump, "any", "piston-m",
                "the shared air pump; the word any: the cheapest that gives enough", .words = "any",
                .of = "air-pump"),
    TC_QUANTITY_KEY(
        "room-loss", HEAT_LOSS, WALL, room.loss, 1, 10000, "estimate", "90 W/K",
        "heat the room loses for each degree that the tanks make it warmer; the word estimate: from "
        "its size and build, where they are given; none: something else holds the room's temperature",
        .word = room_losses),
    TC_QUANTITY_KEY("room-length", LENGTH, WALL, room.length, 0.5, 100, "none", "14 ft",
                    "length of the room, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("room-width", LENGTH, WALL, room.width, 0.5, 100, "none", "12 ft",
                    "width of the room, inside", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("room-height", LENGTH, WALL, room.height, 0.5, 20, "8 ft", "2.5 m", "height of the room"),
    TC_QUANTITY_KEY("room-outside", LENGTH, WALL, room.outside, 0, 400, "none", "26 ft",
                    "length of the room's outer walls in all", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("room-windows", AREA, WALL, room.windows, 0, 1000, "none", "20 ft2",
                    "area of the windows in them", .word = tc_none_is_zero),
    {.name = "room-build",
     .form = TC_KEY_CHOICE,
     .offset = offsetof(WALL, room.build),
     .words = "old middling insulated",
     .fallback = "middling",
     .example = "insulated",
     .help = "how the room is built: old (no insulation), middling (some, double glazing) or insulated"},
    TC_FLAG_KEY("room-roof", WALL, room.roof, "no", "yes", "whether the roof is right above the room"),
    TC_QUANTITY_KEY("room-air-change", TURNOVER, WALL, room.air_change, 0, 20.0 / 3600, "0.5 /h", "1 /h",
                    "how often the air of the room is changed"),
    TC_CHOICE_KEY("heating", WALL, heating, "tanks", "room",
                  "what keeps the water warm: a heater in each tank, or the heated room",
                  .words = "tanks room"),
    TC_MONEY_KEY("room-heater-price", WALL, room.heater_price, 1e8, "0", "120",
                 "price of what would heat the room instead of the tanks"),
    TC_QUANTITY_KEY("room-heater-life", YEARS, WALL, room.heater_life, 1.0 / 12, 100, "10 years", "15 years",
                    "how long it lasts"),
    TC_QUANTITY_KEY(
        "room-heater-efficiency", SHARE, WALL, room.heater_efficiency, 0.1, 8, "none", "300 %",
        "heat it gives for the electricity it draws, 100 % for a plain heater; the word none: the room's "
        "heat costs the region's room-heat-price",
        .word = tc_none_is_zero),
    TC_RATE_KEY("vapor-price", VOLUME, WALL, room.vapour_price, 1e6, "none", "0.15 / L",
                "what it costs to get evaporated water out of the room, by a dehumidifier or by airing",
                .word = tc_none_is_zero),
    TC_MONEY_KEY("budget", WALL, budget, 1e9, "none", "2500", "what may be spent, in the region's currency",
                 .word = tc_none_is_zero),
    TC_CHOICE_KEY("budget-for", WALL, budget_for, "buying", "owning",
                  "what the budget is for: buying or owning", .words = "buying owning"),
    TC_MONEY_KEY("monthly", WALL, monthly, 1e9, "none", "300",
                 "what may be spent each month, where the wall is bought in stages", .word = tc_none_is_zero),
    TC_COUNT_KEY("months", WALL, months, 1, 24, "12", "18",
                 "number of months in which all of it is bought then"),
    TC_CHOICE_KEY("objective", WALL, objective, "tanks", "water",
                  "what is wanted most: tanks, bottom, water, value or cost",
                  .words = "tanks bottom water value cost"),
    TC_COUNT_KEY("wanted", WALL, wanted, 1, 10000, "none", "24",
                 "tanks wanted in all, where the objective is cost", .word = tc_none_is_zero),
    TC_FLAG_KEY("fixed", WALL, fixed, "no", "yes",
                "whether just the plan's tanks, each in its number, are to stand there"),
};

const struct tc_key_table tc_wall_keys = {
    .kind = "wall",
    .help = "the wall of a fish room and what bounds it, in a plan's file",
    .keys = wall_keys,
    .count = TC_COUNT_OF(wall_keys),
    .record_size = sizeof(WALL),
};

/* ------------------------------------------------------------------------ space */

#define SPACE struct tc_space

static const struct tc_key space_keys[] = {
    TC_QUANTITY_KEY("length", LENGTH, SPACE, length, 0.1, 20, "none", "40 in",
                    "length of the place for one tank", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("width", LENGTH, SPACE, width, 0.1, 20, "none", "16 in",
                    "width of that place, front to back", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("height", LENGTH, SPACE, height, 0.1, 10, "none", "60 in",
                    "height from the floor up: stand, tank and access", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("access", LENGTH, SPACE, access, 0, 2, "8 in", "20 cm",
                    "free height above the tank that hands need"),
    TC_QUANTITY_KEY("weight", MASS, SPACE, weight, 1, 100000, "none", "400 lb",
                    "most that the filled tank may weigh", .word = tc_none_is_zero),
    TC_QUANTITY_KEY("reach", LENGTH, SPACE, reach, 0.05, 2, "none", "20 in",
                    "how far your arm reaches, from the rim to the substrate", .word = tc_none_is_zero),
    TC_MONEY_KEY("budget", SPACE, budget, 1e9, "none", "400", "what may be spent, in the region's currency",
                 .word = tc_none_is_zero),
    TC_CHOICE_KEY("budget-for", SPACE, budget_for, "buying", "owning",
                  "what the budget is for: buying, or owning over the period", .words = "buying owning"),
};

const struct tc_key_table tc_space_keys = {
    .kind = "space",
    .help = "where a tank of the shortlist is to stand, and what it may cost, in a plan's file",
    .keys = space_keys,
    .count = TC_COUNT_OF(space_keys),
    .record_size = sizeof(SPACE),
};
