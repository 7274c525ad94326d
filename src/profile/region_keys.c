/* SPDX-License-Identifier: MIT */
#include "profile/region_keys.h"

#include <stdio.h>

#include "core/goods/region.h"
#include "profile/key_table.h"
#include "profile/month_key.h"
#include "profile/name_list.h"

#define REGION struct tc_region

/* A bound that lets every currency through and stops slips. */
#define MOST_RATE 1e6

/* "none" was the word for water that the tank's heater warms. */
static const struct tc_key_word by_electricity[] = {{"electricity", 0}, {"none", -1}, {NULL, 0}};
static const struct tc_key_word unknown[] = {{"unknown", 0}, {NULL, 0}};

/* "1.0835 USD": a rate of exchange, which has more decimals than the currency. */
static bool read_exchange(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading)
{
    struct tc_price price = {.amount = 0};
    char shown[TC_SHOWN_SIZE];
    const char *end;
    tc_quantity_shown(shown, text);
    enum tc_status status = tc_number_read(text, &end, &price.amount);
    if (*end == ',')
        return tc_problem(reading->problem, "'%s' has a decimal comma; write a point", shown);
    if (status != TC_OK)
        return tc_problem(reading->problem, "'%s' is not a rate of exchange; write it like '%s'", shown,
                          key->example);
    if (!(price.amount >= key->least && price.amount <= key->greatest))
        return tc_problem(reading->problem, "'%s' is out of range; it has to be more than 0", shown);
    while (*end == ' ')
        end++;
    if (*end == '\0')
        return tc_problem(reading->problem, "'%s' has no currency; write it like '%s'", shown, key->example);
    if (!tc_quantity_currency(end, &price.currency, reading->problem))
        return false;
    memcpy((char *)record + key->offset, &price, sizeof price);
    return true;
}

static void write_exchange(const struct tc_key *key, const void *record, enum tc_unit_system system,
                           char text[TC_VALUE_SIZE])
{
    const struct tc_price *price = (const struct tc_price *)((const char *)record + key->offset);
    char number[TC_NUMBER_SIZE];
    (void)system;
    text[0] = '\0';
    if (price->currency.code[0] != '\0')
        snprintf(text, TC_VALUE_SIZE, "%s %s", tc_number_write_short(number, price->amount),
                 price->currency.code);
}

/* "sales-tax water": keys of this table. */
static bool read_assumed(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    REGION *region = record;
    char names[TC_ASSUMED_MAX][TC_NAME_SIZE];
    int count;
    (void)key;
    if (!tc_name_list_read(tc_name_equal(text, "none") ? "" : text, names, TC_ASSUMED_MAX, &count,
                           reading->problem))
        return false;
    for (int i = 0; i < count; i++)
        if (!tc_key_find(&tc_region_keys, names[i]))
            return tc_problem(reading->problem, "'%s' is no key of a region", names[i]);
    memcpy(region->assumed, names, sizeof names);
    region->assumed_count = count;
    return true;
}

static void write_assumed(const struct tc_key *key, const void *record, enum tc_unit_system system,
                          char text[TC_VALUE_SIZE])
{
    const REGION *region = record;
    (void)key, (void)system;
    if (region->assumed_count > 0)
        tc_name_list_write(region->assumed, region->assumed_count, text);
    else
        snprintf(text, TC_VALUE_SIZE, "none");
}

#define MONTHS_KEY(key, member, sample, text)                                                                \
    {                                                                                                        \
        .name = key, .form = TC_KEY_OWN, .offset = offsetof(REGION, member), .fallback = "",                 \
        .example = sample, .help = text, .read = tc_month_key_read, .write = tc_month_key_write              \
    }

static const struct tc_key keys[] = {
    TC_TITLE_KEY(REGION, title, "Lowmere"),
    {.name = "currency",
     .form = TC_KEY_CURRENCY,
     .offset = offsetof(REGION, currency),
     .example = "USD",
     .help = "of all amounts of the region, three letters of ISO 4217"},
    TC_FLAG_KEY("template", REGION, is_template, "no", "yes",
                "made of public averages; check lists what is still to be filled in"),
    TC_QUANTITY_KEY("sales-tax", SHARE, REGION, sales_tax, 0, 1, "0 %", "7.5 %", "sales tax on what you buy",
                    .ask = TC_ASK_NEEDED),
    TC_FLAG_KEY("tax", REGION, tax_included, "added", "included",
                "whether the checkout adds it or prices include it", .words = "added included"),
    TC_RATE_KEY("electricity", ENERGY, REGION, electricity.price, MOST_RATE, "", "0.16 / kWh",
                "price with all taxes; this or electricity-tariff is needed", .ask = TC_ASK_NEEDED,
                .instead = "electricity-tariff"),
    TC_NAME_KEY("electricity-tariff", REGION, electricity.tariff, "", "lowmere-power",
                "name of a tariff, in place of electricity", .of = "tariff"),
    TC_RATE_KEY("water", VOLUME, REGION, water.price, MOST_RATE, "", "2.40 / m3",
                "price with waste water; this or water-tariff is needed", .ask = TC_ASK_NEEDED,
                .instead = "water-tariff"),
    TC_NAME_KEY("water-tariff", REGION, water.tariff, "", "lowmere-water",
                "name of a tariff, in place of water", .of = "tariff"),
    TC_QUANTITY_KEY("household-energy", ENERGY, REGION, household_energy, 0, 3.6e11, "300 kWh", "420 kWh",
                    "what else is on the electricity bill of a month", .ask = TC_ASK_NEEDED),
    TC_QUANTITY_KEY("household-water", VOLUME, REGION, household_water, 0, 10000, "10 m3", "3500 gal",
                    "what else is on the water bill of a month", .ask = TC_ASK_NEEDED),
    TC_QUANTITY_KEY("electricity-escalation", SHARE, REGION, electricity_escalation, -0.2, 0.5, "0 %",
                    "1.5 %", "how much faster than prices in general it rises, a year", .ask = TC_ASK_WORTH),
    TC_QUANTITY_KEY("water-escalation", SHARE, REGION, water_escalation, -0.2, 0.5, "0 %", "2 %",
                    "how much faster than prices in general it rises, a year", .ask = TC_ASK_WORTH),
    TC_RATE_KEY("conditioner", VOLUME, REGION, conditioner, MOST_RATE, "0 / m3", "0.01 / gal",
                "cost of conditioner for so much fresh water", .ask = TC_ASK_WORTH),
    TC_QUANTITY_KEY("cold-water", TEMPERATURE, REGION, cold_water, TC_CELSIUS(0), TC_CELSIUS(35), "12 C",
                    "55 F", "temperature of cold tap water", .ask = TC_ASK_NEEDED),
    TC_FLAG_KEY("fresh-water", REGION, fresh_mixed, "mixed", "cold",
                "whether warm tap water is mixed in until it is as warm as the tank, or the tank's heater "
                "warms it",
                .words = "cold mixed"),
    TC_RATE_KEY("warm-water-price", ENERGY, REGION, warm_water_price, MOST_RATE, "electricity", "0.09 / kWh",
                "heat in warm tap water; the word electricity: an electric boiler makes it",
                .word = by_electricity),
    TC_RATE_KEY("room-heat-price", ENERGY, REGION, room_heat_price, MOST_RATE, "unknown", "0.08 / kWh",
                "heat brought into the room by its own heating", .word = unknown),
    TC_RATE_KEY("room-cool-price", ENERGY, REGION, room_cool_price, MOST_RATE, "unknown", "0.05 / kWh",
                "heat taken out of the room by its own cooling", .word = unknown),
    MONTHS_KEY("heated-months", heated, "oct to apr", "months in which the room is heated"),
    MONTHS_KEY("cooled-months", cooled, "jun to aug", "months in which the room is cooled"),
    TC_MONTHS_KEY("room", TEMPERATURE, REGION, climate.room, TC_CELSIUS(0), TC_CELSIUS(45), NULL,
                  "19 19 20 21 22 23 24 24 23 21 20 19 C",
                  "mean temperature of the room, one figure for all months or twelve from January on",
                  .ask = TC_ASK_NEEDED),
    TC_QUANTITY_KEY("room-offset", TEMPERATURE_STEP, REGION, climate.room_offset, -15, 15,
                    "-1 to 1 K likely 0 K", "-0.5 to 0.5 K",
                    "how much warmer or cooler the room may be than you say: how well you know it"),
    TC_QUANTITY_KEY("room-swing", TEMPERATURE_STEP, REGION, climate.swing, 0, 15, "1.5 K", "4 F",
                    "half the difference between the day's warmest and coolest hour"),
    TC_MONTHS_KEY("humidity", SHARE, REGION, climate.humidity, 0.05, 1, "50 %", "55 %",
                  "mean relative humidity of the room, one figure or twelve", .ask = TC_ASK_NEEDED),
    {.name = "exchange",
     .form = TC_KEY_OWN,
     .offset = offsetof(REGION, exchange),
     .least = 1e-9,
     .greatest = 1e9,
     .fallback = "",
     .example = "1.0835 USD",
     .help = "what one unit of the currency buys of another, to compare regions",
     .ask = TC_ASK_WORTH,
     .read = read_exchange,
     .write = write_exchange},
    {.name = "exchange-date",
     .form = TC_KEY_DATE,
     .offset = offsetof(REGION, exchange_date),
     .fallback = "",
     .example = "2026-01-15",
     .help = "the day of that rate of exchange"},
    {.name = "assumed",
     .form = TC_KEY_OWN,
     .fallback = "none",
     .example = "sales-tax water",
     .help =
         "keys of this region whose figures are usual ones that nobody gave; sheets name them, and a form "
         "takes a key out when you type its figure",
     .read = read_assumed,
     .write = write_assumed},
    TC_INVENTED_KEY(REGION, invented),
};

#define AT_A_SHOP "write it in a '[shop NAME]' of this region"

static const struct tc_key_former former[] = {
    {"delivery", AT_A_SHOP}, {"delivery-free-from", AT_A_SHOP}, {"order-fee", AT_A_SHOP}, {NULL, NULL}};

static bool is_template(const void *record)
{
    return ((const REGION *)record)->is_template;
}

/* A price and a tariff of the same thing: one, and only one, has to be there; in a template at most one. */
static bool check_one(struct tc_entry *entry, const char *price, const char *tariff)
{
    if (entry->typed || tc_entry_given(entry, price) != tc_entry_given(entry, tariff))
        return true;
    if (tc_entry_given(entry, price))
        return tc_entry_blame(entry, tariff, "says the same as '%s'; write one of them", price);
    return is_template(entry->record) || tc_entry_blame(entry, NULL, "needs '%s' or '%s'", price, tariff);
}

static bool check(struct tc_entry *entry)
{
    const REGION *region = entry->record;
    if (!check_one(entry, "electricity", "electricity-tariff") || !check_one(entry, "water", "water-tariff"))
        return false;
    for (int month = 0; month < TC_MONTHS; month++)
        if (region->heated[month] && region->cooled[month])
            return tc_entry_blame(entry, "cooled-months", "has a month that heated-months has as well");
    if (region->warm_water_price < 0)
        return tc_entry_blame(
            entry, "warm-water-price",
            "is 'none': where the tank's heater warms fresh water, write 'fresh-water = cold'");
    if (strcmp(region->exchange.currency.code, region->currency.code) == 0)
        return tc_entry_blame(entry, "exchange", "is into the region's own currency; name another");
    if (region->exchange.amount > 0 && region->exchange_date.month == 0)
        return tc_entry_blame(entry, "exchange", "needs the day of it, like 'exchange-date = 2026-01-15'");
    return true;
}

const struct tc_key_table tc_region_keys = {
    .kind = "region",
    .help = "a place with its money, taxes, tariffs and climate",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(REGION),
    .check = check,
    .is_template = is_template,
    .former = former,
};
