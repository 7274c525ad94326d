/* SPDX-License-Identifier: MIT */
/* Quantities read and written, and every unit against GNU units, an independent program. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/base/unit.h"
#include "support/draw.h"
#include "support/near.h"
#include "support/need.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

/*
 * How GNU units writes a unit of ours, and the base unit of its dimension. "$"
 * stands for the number where the scale does not start at nothing.
 */
static const struct {
    const char *name;
    enum tc_dimension dimension;
    const char *from, *to;
} gnu[] = {
    {"%", TC_DIM_SHARE, "$ percent", "1"},
    {"mm", TC_DIM_LENGTH, "$ mm", "m"},
    {"cm", TC_DIM_LENGTH, "$ cm", "m"},
    {"m", TC_DIM_LENGTH, "$ m", "m"},
    {"in", TC_DIM_LENGTH, "$ inch", "m"},
    {"ft", TC_DIM_LENGTH, "$ foot", "m"},
    {"cm2", TC_DIM_AREA, "$ cm^2", "m^2"},
    {"m2", TC_DIM_AREA, "$ m^2", "m^2"},
    {"in2", TC_DIM_AREA, "$ inch^2", "m^2"},
    {"ft2", TC_DIM_AREA, "$ foot^2", "m^2"},
    {"mL", TC_DIM_VOLUME, "$ milliliter", "m^3"},
    {"L", TC_DIM_VOLUME, "$ liter", "m^3"},
    {"m3", TC_DIM_VOLUME, "$ m^3", "m^3"},
    {"gal", TC_DIM_VOLUME, "$ usgallon", "m^3"},
    {"ukgal", TC_DIM_VOLUME, "$ brgallon", "m^3"},
    {"ft3", TC_DIM_VOLUME, "$ foot^3", "m^3"},
    {"kgal", TC_DIM_VOLUME, "$ usgallon * 1000", "m^3"},
    {"ccf", TC_DIM_VOLUME, "$ foot^3 * 100", "m^3"},
    {"g", TC_DIM_MASS, "$ gram", "kg"},
    {"kg", TC_DIM_MASS, "$ kg", "kg"},
    {"lb", TC_DIM_MASS, "$ pound", "kg"},
    {"W", TC_DIM_POWER, "$ watt", "watt"},
    {"kW", TC_DIM_POWER, "$ kilowatt", "watt"},
    {"Btu/h", TC_DIM_POWER, "$ btu/hour", "watt"},
    {"Wh", TC_DIM_ENERGY, "$ watt hour", "joule"},
    {"kWh", TC_DIM_ENERGY, "$ kilowatt hour", "joule"},
    {"MJ", TC_DIM_ENERGY, "$ megajoule", "joule"},
    {"C", TC_DIM_TEMPERATURE, "tempC($)", "K"},
    {"F", TC_DIM_TEMPERATURE, "tempF($)", "K"},
    {"K", TC_DIM_TEMPERATURE, "$ K", "K"},
    {"K", TC_DIM_TEMPERATURE_STEP, "$ K", "K"},
    {"C", TC_DIM_TEMPERATURE_STEP, "$ degC", "K"},
    {"F", TC_DIM_TEMPERATURE_STEP, "$ degF", "K"},
    {"L/h", TC_DIM_FLOW, "$ liter/hour", "m^3/s"},
    {"L/min", TC_DIM_FLOW, "$ liter/minute", "m^3/s"},
    {"gal/h", TC_DIM_FLOW, "$ usgallon/hour", "m^3/s"},
    {"m3/h", TC_DIM_FLOW, "$ m^3/hour", "m^3/s"},
    {"/h", TC_DIM_TURNOVER, "$ /hour", "1/s"},
    {"umol/s", TC_DIM_PHOTON_FLOW, "$ micromol/s", "micromol/s"},
    {"umol/m2/s", TC_DIM_PHOTON_DENSITY, "$ micromol/m^2/s", "micromol/m^2/s"},
    {"umol/J", TC_DIM_PHOTON_EFFICACY, "$ micromol/joule", "micromol/joule"},
    {"lm", TC_DIM_LUMINOUS_FLOW, "$ lumen", "lumen"},
    {"kg/m3", TC_DIM_DENSITY, "$ kilogram/m^3", "kilogram/m^3"},
    {"kg/L", TC_DIM_DENSITY, "$ kilogram/liter", "kilogram/m^3"},
    {"lb/ft3", TC_DIM_DENSITY, "$ pound/foot^3", "kilogram/m^3"},
    {"Pa", TC_DIM_PRESSURE, "$ pascal", "pascal"},
    {"kPa", TC_DIM_PRESSURE, "$ kilopascal", "pascal"},
    {"kg/m2", TC_DIM_PRESSURE, "$ kilogram force/m^2", "pascal"},
    {"psf", TC_DIM_PRESSURE, "$ lbf/foot^2", "pascal"},
    {"/m", TC_DIM_ATTENUATION, "$ /m", "1/m"},
    {"h", TC_DIM_HOURS, "$ hour", "hour"},
    {"min", TC_DIM_HOURS, "$ minute", "hour"},
    {"d", TC_DIM_DAYS, "$ day", "day"},
    {"day", TC_DIM_DAYS, "$ day", "day"},
    {"days", TC_DIM_DAYS, "$ day", "day"},
    {"week", TC_DIM_DAYS, "$ week", "day"},
    {"weeks", TC_DIM_DAYS, "$ week", "day"},
    {"y", TC_DIM_YEARS, "$ year", "year"},
    {"year", TC_DIM_YEARS, "$ year", "year"},
    {"years", TC_DIM_YEARS, "$ year", "year"},
    {"month", TC_DIM_YEARS, "$ month", "year"},
    {"months", TC_DIM_YEARS, "$ month", "year"},
    {"A", TC_DIM_ELECTRIC_CURRENT, "$ ampere", "ampere"},
    {"V", TC_DIM_VOLTAGE, "$ volt", "volt"},
    {"W/K", TC_DIM_HEAT_LOSS, "$ watt/kelvin", "watt/kelvin"},
    {"Btu/h/F", TC_DIM_HEAT_LOSS, "$ btu_IT/hour/degF", "watt/kelvin"},
};

static const double tried[] = {1, 37.5, 0.003};

static size_t find_gnu(const struct tc_unit *unit)
{
    size_t i = 0;
    while (i < LENGTH(gnu) && (gnu[i].dimension != unit->dimension || strcmp(gnu[i].name, unit->name) != 0))
        i++;
    if (i == LENGTH(gnu))
        fail_msg("unit %s is not compared with GNU units", unit->name);
    return i;
}

/* A question for `units`, two lines: number and unit, then the unit wanted. */
static void ask(FILE *questions, size_t i, double number)
{
    const char *place = strchr(gnu[i].from, '$');
    assert_non_null(place);
    fprintf(questions, "%.*s%.17g%s\n%s\n", (int)(place - gnu[i].from), gnu[i].from, number, place + 1,
            gnu[i].to);
}

/* Answered from a file of questions, all in one go. */
static void every_unit_is_that_of_gnu_units(void **state)
{
    (void)state;
    skip_without(system("units --version 2>/dev/null | grep -q GNU") == 0, "GNU units");
    char path[] = "/tmp/tankcost-units.XXXXXX", command[128];
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *questions = fdopen(fd, "w");
    assert_non_null(questions);
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    assert_int_equal(count, LENGTH(gnu));
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < LENGTH(tried); k++)
            ask(questions, find_gnu(&units[i]), tried[k]);
    assert_int_equal(fclose(questions), 0);

    snprintf(command, sizeof command, "units --quiet --terse --one-line -o %%.17g <%s", path);
    FILE *answers = popen(command, "r");
    assert_non_null(answers);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < LENGTH(tried); k++) {
            double theirs = NAN;
            if (fscanf(answers, "%lf", &theirs) != 1)
                fail_msg("GNU units does not know %s", units[i].name);
            const char *end;
            const struct tc_unit *unit = tc_unit_read(units[i].name, &end, units[i].dimension);
            assert_ptr_equal(unit, &units[i]);
            assert_int_equal(*end, '\0');
            double ours = tried[k] * unit->factor + unit->offset;
            assert_near(ours, theirs, 1e-12 * fabs(theirs));
            assert_near(tc_unit_from_base(&units[i], ours), tried[k], 1e-12 * fmax(1, units[i].offset));
        }
    }
    assert_int_equal(pclose(answers), 0);
    unlink(path);
}

static void a_unit_is_read_whole_or_not_at_all(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum tc_dimension dimension;
        const char *name; /* NULL: no unit of that dimension */
        const char *rest; /* from *end on */
    } rows[] = {
        {"in", TC_DIM_LENGTH, "in", ""},         {" \tmm ", TC_DIM_LENGTH, "mm", " "},
        {"l", TC_DIM_VOLUME, "L", ""},           {"ml of it", TC_DIM_VOLUME, "mL", " of it"},
        {"l", TC_DIM_LENGTH, NULL, "l"},         {"C", TC_DIM_TEMPERATURE, "C", ""},
        {"F", TC_DIM_TEMPERATURE_STEP, "F", ""}, {"%", TC_DIM_SHARE, "%", ""},
        {"inch", TC_DIM_LENGTH, NULL, "inch"},   {"IN", TC_DIM_LENGTH, NULL, "IN"},
        {"gal", TC_DIM_LENGTH, NULL, "gal"},     {"i", TC_DIM_LENGTH, NULL, "i"},
        {"m2", TC_DIM_LENGTH, NULL, "m2"},       {" to 50 in", TC_DIM_LENGTH, NULL, "to 50 in"},
        {"", TC_DIM_LENGTH, NULL, ""},
    };
    for (size_t i = 0; i < LENGTH(rows); i++) {
        const char *end = NULL;
        const struct tc_unit *unit = tc_unit_read(rows[i].text, &end, rows[i].dimension);
        assert_int_equal(unit != NULL, rows[i].name != NULL);
        if (unit && rows[i].name)
            assert_string_equal(unit->name, rows[i].name);
        assert_string_equal(end, rows[i].rest);
    }
}

/* What the program prints can be typed in again. */
static void printed_signs_are_read(void **state)
{
    (void)state;
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        const char *end = NULL;
        const char *symbol = tc_unit_symbol(&units[i]);
        const struct tc_unit *read = tc_unit_read(symbol, &end, units[i].dimension);
        assert_ptr_equal(read, &units[i]);
        assert_int_equal(*end, '\0');
    }
    assert_string_equal(tc_unit_symbol(NULL), "");
}

/* Each name in "mm, cm, m, in or ft" is a unit of that dimension, and so are the preferred ones. */
static void messages_name_units_that_can_be_read(void **state)
{
    (void)state;
    for (int d = 1; d < TC_DIM_COUNT; d++) {
        enum tc_dimension dimension = (enum tc_dimension)d;
        char list[128];
        snprintf(list, sizeof list, "%s", tc_dimension_units(dimension));
        int named = 0;
        for (char *word = strtok(list, ", "); word; word = strtok(NULL, ", ")) {
            const char *end;
            if (strcmp(word, "or") == 0)
                continue;
            assert_non_null(tc_unit_read(word, &end, dimension));
            named++;
        }
        assert_true(named > 0);
        assert_non_null(tc_unit_preferred(dimension, TC_METRIC));
        assert_non_null(tc_unit_preferred(dimension, TC_US));
        assert_true(strlen(tc_dimension_name(dimension)) > 2);
    }
    assert_null(tc_unit_preferred(TC_DIM_PLAIN, TC_US));
    assert_string_equal(tc_dimension_name(TC_DIM_PLAIN), "a number");
    assert_string_equal(tc_dimension_units(TC_DIM_PLAIN), "no unit");
}

static void quantities_are_written_in_the_preferred_unit(void **state)
{
    (void)state;
    static const struct {
        double value;
        enum tc_dimension dimension;
        enum tc_unit_system system;
        int decimals;
        const char *text;
    } rows[] = {
        {0.762, TC_DIM_LENGTH, TC_US, 1, "30.0 in"},
        {0.762, TC_DIM_LENGTH, TC_METRIC, 1, "76.2 cm"},
        {298.15, TC_DIM_TEMPERATURE, TC_METRIC, 0, "25 °C"},
        {298.15, TC_DIM_TEMPERATURE, TC_US, 0, "77 °F"},
        {5, TC_DIM_TEMPERATURE_STEP, TC_US, 1, "9.0 °F"},
        {0.0645160, TC_DIM_AREA, TC_US, 0, "100 in²"},
        {120.5, TC_DIM_PHOTON_DENSITY, TC_US, 1, "120.5 µmol/m²/s"},
        {2.5, TC_DIM_PLAIN, TC_US, 2, "2.50"},
        {0.07, TC_DIM_SHARE, TC_METRIC, 0, "7 %"},
    };
    char buffer[TC_QUANTITY_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++) {
        assert_string_equal(tc_unit_quantity_write(buffer, rows[i].value, rows[i].dimension, rows[i].system,
                                                   rows[i].decimals),
                            rows[i].text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_unit_is_that_of_gnu_units),
        cmocka_unit_test(a_unit_is_read_whole_or_not_at_all),
        cmocka_unit_test(printed_signs_are_read),
        cmocka_unit_test(messages_name_units_that_can_be_read),
        cmocka_unit_test(quantities_are_written_in_the_preferred_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
