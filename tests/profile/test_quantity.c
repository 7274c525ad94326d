/* SPDX-License-Identifier: MIT */
/* Figures as people write them: their values, their ranges, their faults; and written so that they read back.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/random.h"
#include "profile/quantity.h"
#include "profile/quantity_write.h"
#include "support/draw.h"
#include "support/near.h"

static const struct tc_currency unknown = {"", 0}, usd = {"USD", 2}, jpy = {"JPY", 0}, kwd = {"KWD", 3};

static struct tc_quantity_form quantity(enum tc_dimension dimension)
{
    return (struct tc_quantity_form){.dimension = dimension, .example = "EXAMPLE"};
}

static struct tc_quantity_form money(enum tc_dimension dimension, bool code)
{
    return (struct tc_quantity_form){
        .dimension = dimension, .money = true, .code = code, .example = "EXAMPLE"};
}

static struct tc_quantity good(struct tc_quantity_form form, const char *text, struct tc_currency currency)
{
    struct tc_quantity figure;
    char problem[TC_PROBLEM_SIZE] = "";
    if (!tc_quantity_read(&form, text, currency, &figure, problem))
        fail_msg("%s: %s", text, problem);
    return figure;
}

static void bad(struct tc_quantity_form form, const char *text, struct tc_currency currency,
                const char *wanted)
{
    struct tc_quantity figure;
    char problem[TC_PROBLEM_SIZE] = "";
    assert_false(tc_quantity_read(&form, text, currency, &figure, problem));
    assert_string_equal(problem, wanted);
}

static void single_quantities(void **state)
{
    static const struct {
        const char *text;
        enum tc_dimension dimension;
        double value;
    } cases[] = {
        {"30 in", TC_DIM_LENGTH, 0.762},
        {"30in", TC_DIM_LENGTH, 0.762},
        {"30 1/4 in", TC_DIM_LENGTH, 0.76835}, /* 25.4 mm an inch, as a tape measure is marked */
        {"30¼in", TC_DIM_LENGTH, 0.76835},
        {"3/8 in", TC_DIM_LENGTH, 0.009525},
        {"⅝ in", TC_DIM_LENGTH, 0.015875},
        {"12 1/32 in", TC_DIM_LENGTH, 0.30559375},
        {"  2.5  ft ", TC_DIM_LENGTH, 0.762},
        {"1e1 mm", TC_DIM_LENGTH, 0.01},
        {".5 m", TC_DIM_LENGTH, 0.5},
        {"29 gal", TC_DIM_VOLUME, 29 * 0.003785411784},
        {"110 l", TC_DIM_VOLUME, 0.11},
        {"77 F", TC_DIM_TEMPERATURE, 298.15},
        {"-4 F", TC_DIM_TEMPERATURE, 253.15},
        {"9 F", TC_DIM_TEMPERATURE_STEP, 5},
        {"7.25 %", TC_DIM_SHARE, 0.0725},
        {"0.74", TC_DIM_PLAIN, 0.74},
        {"4 /h", TC_DIM_TURNOVER, 4 / 3600.0},
        {"9:30", TC_DIM_HOURS, 9.5},
        {"0:05", TC_DIM_HOURS, 5 / 60.0},
        {"90 min", TC_DIM_HOURS, 1.5},
        {"2 weeks", TC_DIM_DAYS, 14},
        {"18 months", TC_DIM_YEARS, 1.5},
        {"40 psf", TC_DIM_PRESSURE, 1915.2103592},
        {"500 in²", TC_DIM_AREA, 0.32258},
        {"45 µmol/m²/s", TC_DIM_PHOTON_DENSITY, 45},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct tc_quantity figure = good(quantity(cases[i].dimension), cases[i].text, unknown);
        assert_near(figure.spread.likely, cases[i].value, 1e-9 * fabs(cases[i].value));
        assert_int_equal(figure.spread.shape, TC_SPREAD_FIXED);
        assert_true(figure.spread.low == figure.spread.high);
    }
}

static void ranges(void **state)
{
    /* All of these say the same: units once, at either end, or with each figure. */
    static const char *const same[] = {
        "45 to 50 W likely 47 W",        "45 to 50 likely 47 W",       "45 W to 50 W likely 47 W",
        "45 to 50 W likely 47",          "45 W to 50 W likely 47",     "45 W to 50 likely 47",
        "45W to 50W likely 47W",         "0.045 kW to 50 W likely 47", "45 W to 0.05 kW likely 47 W",
        "  45  to  50  likely  47  W  ",
    };
    (void)state;
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        struct tc_quantity figure = good(quantity(TC_DIM_POWER), same[i], unknown);
        assert_int_equal(figure.spread.shape, TC_SPREAD_TRIANGULAR);
        assert_near(figure.spread.low, 45, 1e-12);
        assert_near(figure.spread.likely, 47, 1e-12);
        assert_near(figure.spread.high, 50, 1e-12);
        assert_near(tc_spread_middle(&figure.spread), 47, 1e-12);
    }
    struct tc_quantity even = good(quantity(TC_DIM_TEMPERATURE), "19 to 22 C", unknown);
    assert_int_equal(even.spread.shape, TC_SPREAD_UNIFORM);
    assert_near(tc_spread_middle(&even.spread), 293.65, 1e-9);
    struct tc_quantity none = good(quantity(TC_DIM_PLAIN), "3 to 3 likely 3", unknown);
    assert_int_equal(none.spread.shape, TC_SPREAD_FIXED);
    struct tc_quantity hours = good(quantity(TC_DIM_HOURS), "9:30 to 10:15", unknown);
    assert_near(hours.spread.high, 10.25, 1e-12);
}

static void amounts(void **state)
{
    (void)state;
    assert_near(good(money(TC_DIM_PLAIN, false), "45.10", usd).spread.likely, 45.10, 0);
    assert_near(good(money(TC_DIM_PLAIN, false), "45.1000", usd).spread.likely, 45.10, 0);
    assert_near(good(money(TC_DIM_PLAIN, false), "45 USD", usd).spread.likely, 45, 0);
    assert_near(good(money(TC_DIM_PLAIN, false), "1.234 kwd", kwd).spread.likely, 1.234, 0);
    assert_near(good(money(TC_DIM_PLAIN, false), "4500", jpy).spread.likely, 4500, 0);
    assert_near(good(money(TC_DIM_PLAIN, false), "45.1230", unknown).spread.likely, 45.123, 0);
    struct tc_quantity price = good(money(TC_DIM_PLAIN, true), "80 to 95 EUR likely 89", unknown);
    assert_string_equal(price.currency.code, "EUR");
    assert_near(price.spread.likely, 89, 0);
    /* Nothing is nothing in any unit. */
    assert_near(good(quantity(TC_DIM_SHARE), "0", unknown).spread.likely, 0, 0);
    assert_near(good(quantity(TC_DIM_LENGTH), "0.0", unknown).spread.likely, 0, 0);
    assert_near(good(money(TC_DIM_VOLUME, false), "0", usd).spread.likely, 0, 0);
    /* A rate is for a kWh or a m3, and may have more decimals than the currency. */
    assert_near(good(money(TC_DIM_ENERGY, false), "0.1634 / kWh", usd).spread.likely, 0.1634, 0);
    assert_near(good(money(TC_DIM_ENERGY, false), "0.1634/kWh", unknown).spread.likely, 0.1634, 0);
    assert_near(good(money(TC_DIM_ENERGY, false), "0.05 USD / MJ", usd).spread.likely, 0.18, 1e-12);
    assert_near(good(money(TC_DIM_VOLUME, false), "1 / gal", usd).spread.likely, 1 / 0.003785411784, 1e-9);
    struct tc_quantity rate = good(money(TC_DIM_ENERGY, false), "0.14 to 0.18 / kWh likely 0.16", usd);
    assert_near(rate.spread.low, 0.14, 0);
    assert_near(rate.spread.high, 0.18, 0);
    assert_near(good(money(TC_DIM_ENERGY, false), "0.14 / kWh to 0.18 / kWh", usd).spread.high, 0.18, 0);
}

static void what_is_wrong(void **state)
{
    static const struct {
        const char *text;
        enum tc_dimension dimension;
        const char *problem;
    } cases[] = {
        {"", TC_DIM_LENGTH, "'' is not a number; write it like 'EXAMPLE'"},
        {"in", TC_DIM_LENGTH, "'in' is not a number; write it like 'EXAMPLE'"},
        {"30", TC_DIM_LENGTH, "'30' has no unit; write it in mm, cm, m, in or ft"},
        {"0", TC_DIM_TEMPERATURE, "'0' has no unit; write it in C, F or K"},
        {"0 to 40", TC_DIM_LENGTH, "'0 to 40' has no unit; write it in mm, cm, m, in or ft"},
        {"30 to 40", TC_DIM_LENGTH, "'30 to 40' has no unit; write it in mm, cm, m, in or ft"},
        {"1,5 in", TC_DIM_LENGTH, "'1,5 in' has a decimal comma; write '1.5 in'"},
        {"1,234.5 in", TC_DIM_LENGTH,
         "'1,234.5 in' has a comma in a number; write a point before decimals and nothing else"},
        {"1,5 to 2,5 in", TC_DIM_LENGTH,
         "'1,5 to 2,5 in' has a comma in a number; write a point before decimals and nothing else"},
        {"30 IN", TC_DIM_LENGTH, "'30 IN' is not a length; did you mean 'in' for 'IN'?"},
        {"30 kg", TC_DIM_LENGTH, "'30 kg' is a mass, not a length; write it in mm, cm, m, in or ft"},
        {"30 in, 40 in", TC_DIM_LENGTH, "'30 in, 40 in' is a list; one figure is wanted, like 'EXAMPLE'"},
        {"30 in wide", TC_DIM_LENGTH, "'30 in wide': 'wide' is too much; write it like 'EXAMPLE'"},
        {"30-40 in", TC_DIM_LENGTH, "'30-40 in' has a '-' in it; write a range like '45 to 50'"},
        {"30 in to", TC_DIM_LENGTH, "'30 in to' is not a number; write it like 'EXAMPLE'"},
        {"30 to 40 in likely", TC_DIM_LENGTH,
         "'30 to 40 in likely' is not a number; write it like 'EXAMPLE'"},
        {"30 in likely 31 in", TC_DIM_LENGTH,
         "'30 in likely 31 in': 'likely 31 in' is too much; write it like 'EXAMPLE'"},
        {"40 to 30 in", TC_DIM_LENGTH, "'40 to 30 in' runs backwards; write the smaller figure first"},
        {"30 to 40 likely 41 in", TC_DIM_LENGTH,
         "'30 to 40 likely 41 in': the likely figure lies outside the range"},
        {"30 to 40 likely 29 in", TC_DIM_LENGTH,
         "'30 to 40 likely 29 in': the likely figure lies outside the range"},
        {"1234567890123456 mm", TC_DIM_LENGTH,
         "'1234567890123456 mm' has more digits than can be told apart; 15 are enough"},
        {"1e99 mm", TC_DIM_LENGTH, "'1e99 mm' has more digits than can be told apart; 15 are enough"},
        {"1.2.3 in", TC_DIM_LENGTH, "'1.2.3 in' is not a number; write it like 'EXAMPLE'"},
        {"nan in", TC_DIM_LENGTH, "'nan in' is not a number; write it like 'EXAMPLE'"},
        {"inf", TC_DIM_PLAIN, "'inf' is not a number; write it like 'EXAMPLE'"},
        {"0x10", TC_DIM_PLAIN, "'0x10': 'x10' is too much; write it like 'EXAMPLE'"},
        {"5 in", TC_DIM_PLAIN, "'5 in': 'in' is too much; write it like 'EXAMPLE'"},
        {"9:60", TC_DIM_HOURS, "'9:60' is not a time of day; write it like '9:30'"},
        {"9:5", TC_DIM_HOURS, "'9:5' is not a time of day; write it like '9:30'"},
        {"1000000000:00", TC_DIM_HOURS, "'1000000000:00' is not a time of day; write it like '9:30'"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        bad(quantity(cases[i].dimension), cases[i].text, unknown, cases[i].problem);
    /* A long text is shown up to a character's border. */
    bad(quantity(TC_DIM_PLAIN),
        "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx\u00e9\u00e9\u00e9\u00e9\u00e9", unknown,
        "'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...' is not a number; write it like "
        "'EXAMPLE'");
}

static void what_is_wrong_with_money(void **state)
{
    struct tc_quantity_form bare = money(TC_DIM_PLAIN, false), price = money(TC_DIM_PLAIN, true);
    struct tc_quantity_form rate = money(TC_DIM_ENERGY, false);
    (void)state;
    bad(bare, "45.1050", usd, "'45.1050' has more than the 2 decimals of USD");
    /* Thousands to some readers, decimals to others: neither is guessed. */
    bad(bare, "1,200", usd, "'1,200' can be read in two ways; write '1200' or '1.20'");
    bad(bare, "1.200", usd, "'1.200' can be read in two ways; write '1200' or '1.20'");
    bad(bare, "1.250 to 1.500", unknown, "'1.250 to 1.500' can be read in two ways; write '1250' or '1.25'");
    bad(bare, "12.345", unknown, "'12.345' can be read in two ways; write '12345' or '12.34'");
    bad(price, "1.200 EUR", unknown, "'1.200 EUR' can be read in two ways; write '1200' or '1.20'");
    bad(bare, "1,200.50", usd,
        "'1,200.50' has a comma in a number; write a point before decimals and nothing else");
    assert_near(good(bare, "0.125", unknown).spread.likely, 0.125, 0);
    assert_near(good(bare, "1234.500", unknown).spread.likely, 1234.5, 0);
    bad(bare, "$39.99", usd, "'$39.99': write the amount without '$', like 'EXAMPLE'");
    bad(price, "\u20ac 12", unknown, "'\u20ac 12': write the amount without '\u20ac', like 'EXAMPLE'");
    bad(bare, "45.5", jpy, "'45.5' has decimals; JPY has none");
    bad(bare, "4e1", usd, "'4e1' is not an amount of money; write it like 'EXAMPLE'");
    bad(bare, "45 EUR", usd, "'45 EUR' is in EUR, but amounts here are in USD");
    bad(bare, "45 USD", unknown, "'45 USD': write the amount without 'USD'; it is in the region's currency");
    bad(bare, "45 UDS", usd, "'UDS' is not a currency; did you mean 'USD'?");
    bad(bare, "45 bucks", usd,
        "'bucks' is not a currency; write its three letters of ISO 4217, such as 'USD'");
    bad(bare, "45 / kWh", usd, "'45 / kWh': '/ kWh' is too much; write it like 'EXAMPLE'");
    bad(bare, "$45", usd, "'$45': write the amount without '$', like 'EXAMPLE'");
    bad(price, "45", unknown, "'45' has no currency; write it like 'EXAMPLE'");
    bad(price, "45 to 50", unknown, "'45 to 50' has no currency; write it like 'EXAMPLE'");
    bad(price, "45 USD to 50 EUR", unknown,
        "'45 USD to 50 EUR' is a range from one currency to another; write one range for each");
    bad(rate, "0.16", usd, "'0.16' does not say for what; write it like 'EXAMPLE'");
    bad(rate, "0.16 / kwh", usd, "'0.16 / kwh' is not a rate; write it like 'EXAMPLE'");
    bad(rate, "0.16 kWh", usd, "'0.16 kWh' is not a rate; write it like 'EXAMPLE'");
    bad(rate, "0.16 EUR / kWh", usd, "'0.16 EUR / kWh' is in EUR, but amounts here are in USD");
}

static void lists_of_figures(void **state)
{
    struct tc_quantity_form form = quantity(TC_DIM_TEMPERATURE);
    const struct tc_unit *unit;
    char problem[TC_PROBLEM_SIZE];
    struct tc_spread values[4];
    int count;
    (void)state;
    assert_true(tc_quantity_list(&form, " 19 20 68 F ", values, 4, &count, &unit, problem));
    assert_int_equal(count, 3);
    assert_near(values[2].low, 293.15, 1e-9);
    assert_string_equal(unit->name, "F");
    assert_true(tc_quantity_list(&form, "19 C 68 F", values, 4, &count, &unit, problem));
    assert_near(values[0].low, 292.15, 1e-9);
    assert_true(
        tc_quantity_list(&form, "19 to 21 20 18 to 22 likely 19.5 C", values, 4, &count, &unit, problem));
    assert_int_equal(count, 3);
    assert_int_equal(values[0].shape, TC_SPREAD_UNIFORM);
    assert_near(values[0].high, 294.15, 1e-9);
    assert_int_equal(values[1].shape, TC_SPREAD_FIXED);
    assert_near(values[2].likely, 292.65, 1e-9);

    static const struct {
        const char *text, *problem;
    } cases[] = {
        {"", "'' is not a number; write it like 'EXAMPLE'"},
        {"1 2 3 4 5 C", "'1 2 3 4 5 C' has more than 4 figures"},
        {"1 2 3", "'1 2 3' has no unit; write it in C, F or K"},
        {"3 to 2 C 3 C", "'3 to 2 C 3 C' runs backwards; write the smaller figure first"},
        {"1 to 2 likely 3 C 3 C", "'1 to 2 likely 3 C 3 C': the likely figure lies outside the range"},
        {"1 2 x C", "'1 2 x C' is not a temperature; write it in C, F or K"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_false(tc_quantity_list(&form, cases[i].text, values, 4, &count, &unit, problem));
        assert_string_equal(problem, cases[i].problem);
    }
}

static void items_of_lists(void **state)
{
    char item[12], problem[TC_PROBLEM_SIZE];
    const char *list = " 89 USD ,79 EUR";
    (void)state;
    assert_true(tc_quantity_item(&list, item, sizeof item, problem));
    assert_string_equal(item, "89 USD");
    assert_true(tc_quantity_item(&list, item, sizeof item, problem));
    assert_string_equal(item, "79 EUR");
    assert_false(tc_quantity_item(&list, item, sizeof item, problem));
    assert_string_equal(problem, "");

    static const struct {
        const char *list, *problem;
    } cases[] = {
        {",a", "',a': there is nothing between two commas"},
        {" , a", "' , a': there is nothing between two commas"},
        {"a, ", "'a, ' ends with a comma; go on or remove it"},
        {"1,5 USD", "'1,5 USD' has a decimal comma; write a point"},
        {"abcdefghijkl", "'abcdefghijkl' is too long"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        list = cases[i].list;
        assert_false(tc_quantity_item(&list, item, sizeof item, problem));
        assert_string_equal(problem, cases[i].problem);
    }
}

static void writing(void **state)
{
    static const struct {
        const char *text; /* is read, and has to come out so in the first system and in the second */
        enum tc_dimension dimension;
        bool rate;
        const char *us, *metric;
    } cases[] = {
        {"30 in", TC_DIM_LENGTH, false, "30 in", "30 in"},
        {"12 ft", TC_DIM_LENGTH, false, "12 ft", "12 ft"},
        {"36.25 in", TC_DIM_LENGTH, false, "36 1/4 in", "36 1/4 in"},
        {"300 mm", TC_DIM_LENGTH, false, "30 cm", "30 cm"},
        {"5 mm", TC_DIM_LENGTH, false, "5 mm", "5 mm"},
        {"1 m", TC_DIM_LENGTH, false, "1 m", "1 m"},
        {"25 C", TC_DIM_TEMPERATURE, false, "77 F", "25 C"},
        {"24.5 C", TC_DIM_TEMPERATURE, false, "76.1 F", "24.5 C"},
        {"24.35 C", TC_DIM_TEMPERATURE, false, "75.83 F", "24.35 C"},
        {"1 week", TC_DIM_DAYS, false, "7 days", "7 days"},
        {"1 day", TC_DIM_DAYS, false, "1 day", "1 day"},
        {"14 days", TC_DIM_DAYS, false, "2 weeks", "2 weeks"},
        {"1 year", TC_DIM_YEARS, false, "1 year", "1 year"},
        {"9 months", TC_DIM_YEARS, false, "9 months", "9 months"},
        {"0.5 %", TC_DIM_SHARE, false, "0.5 %", "0.5 %"},
        {"0.74", TC_DIM_PLAIN, false, "0.74", "0.74"},
        {"0 W", TC_DIM_POWER, false, "0 W", "0 W"},
        {"29 gal", TC_DIM_VOLUME, false, "29 gal", "29 gal"},
        {"110 L", TC_DIM_VOLUME, false, "110 L", "110 L"},
        {"0.16 / kWh", TC_DIM_ENERGY, true, "0.16 / kWh", "0.16 / kWh"},
        {"0.012 / gal", TC_DIM_VOLUME, true, "0.012 / gal", "0.012 / gal"},
        {"2.40 / m3", TC_DIM_VOLUME, true, "2.4 / m3", "2.4 / m3"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct tc_quantity_form form =
            cases[i].rate ? money(cases[i].dimension, false) : quantity(cases[i].dimension);
        char text[TC_QUANTITY_SIZE];
        double value = good(form, cases[i].text, unknown).spread.likely;
        tc_quantity_write(&form, value, TC_US, text);
        assert_string_equal(text, cases[i].us);
        tc_quantity_write(&form, value, TC_METRIC, text);
        assert_string_equal(text, cases[i].metric);
    }
    char text[TC_NUMBER_SIZE];
    tc_amount_write(45, 2, text);
    assert_string_equal(text, "45");
    tc_amount_write(45.1, 2, text);
    assert_string_equal(text, "45.10");
    tc_amount_write(1.234, 2, text);
    assert_string_equal(text, "1.2340");
    tc_amount_write(0.00125, 2, text);
    assert_string_equal(text, "0.00125");
    tc_amount_write(12345678.123456, 2, text);
    assert_string_equal(text, "12345678.123456");
}

/* Whatever a person can type in any unit is written so that the same double comes back. */
static void what_is_written_reads_back(void **state)
{
    struct tc_random random;
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    (void)state;
    tc_random_seed(&random, 20260301, 1);
    for (int round = 0; round < 20000; round++) {
        const struct tc_unit *unit = &units[draw_index(&random, (uint32_t)count)];
        struct tc_quantity_form form = quantity(unit->dimension);
        char number[TC_NUMBER_SIZE], typed[TC_QUANTITY_SIZE], text[TC_QUANTITY_SIZE];
        double figure = draw_index(&random, 100000) / pow(10, draw_index(&random, 5));
        tc_number_write_short(number, figure);
        snprintf(typed, sizeof typed, "%s %s", number, unit->name);
        double value = good(form, typed, unknown).spread.likely;
        tc_quantity_write(&form, value, round % 2 ? TC_US : TC_METRIC, text);
        double back = good(form, text, unknown).spread.likely;
        if (back != value)
            fail_msg("%s was written %s", typed, text);
        if (strlen(text) > strlen(typed) + 4) /* "y" is written "years" */
            fail_msg("%s was written %s", typed, text);
    }
}

static void lists_read_back(void **state)
{
    static const char *const texts[] = {"19 19.5 20.25 C", "66 67.1 68 F", "0.5 1 2 C",
                                        "290 291.5 K",     "1 2.5 3 %",    "1 2 3.5"};
    static const enum tc_dimension dimensions[] = {TC_DIM_TEMPERATURE, TC_DIM_TEMPERATURE, TC_DIM_TEMPERATURE,
                                                   TC_DIM_TEMPERATURE, TC_DIM_SHARE,       TC_DIM_PLAIN};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct tc_quantity_form form = quantity(dimensions[i]);
        const struct tc_unit *unit;
        char problem[TC_PROBLEM_SIZE], text[256];
        struct tc_spread values[4], back[4];
        double middles[4];
        int count, again;
        assert_true(tc_quantity_list(&form, texts[i], values, 4, &count, &unit, problem));
        for (int system = 0; system < 2; system++) {
            for (int k = 0; k < count; k++)
                middles[k] = tc_spread_middle(&values[k]);
            tc_quantity_write_list(&form, middles, count, system ? TC_US : TC_METRIC, text, sizeof text);
            assert_true(tc_quantity_list(&form, text, back, 4, &again, &unit, problem));
            assert_int_equal(again, count);
            for (int k = 0; k < count; k++)
                assert_near(back[k].low, middles[k], 0);
        }
        /* In too little room it is cut, not written beyond. */
        memset(text, 'x', sizeof text);
        tc_quantity_write_list(&form, middles, count, TC_METRIC, text, 4);
        assert_true(strlen(text) < 4 && text[4] == 'x');
    }
}

/* Values that no text of 15 digits gives are written as near as can be. */
static void other_values_come_near(void **state)
{
    struct tc_quantity_form form = quantity(TC_DIM_LENGTH);
    struct tc_random random;
    (void)state;
    tc_random_seed(&random, 20260301, 2);
    for (int round = 0; round < 1000; round++) {
        char text[TC_QUANTITY_SIZE];
        double value = tc_random_unit(&random) * 5;
        tc_quantity_write(&form, value, TC_METRIC, text);
        assert_near(good(form, text, unknown).spread.likely, value, 3e-8);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(single_quantities),
        cmocka_unit_test(ranges),
        cmocka_unit_test(amounts),
        cmocka_unit_test(what_is_wrong),
        cmocka_unit_test(what_is_wrong_with_money),
        cmocka_unit_test(lists_of_figures),
        cmocka_unit_test(items_of_lists),
        cmocka_unit_test(writing),
        cmocka_unit_test(what_is_written_reads_back),
        cmocka_unit_test(lists_read_back),
        cmocka_unit_test(other_values_come_near),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
