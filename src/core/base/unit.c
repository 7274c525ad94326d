/* SPDX-License-Identifier: MIT */
#include "core/base/unit.h"

#include <stdio.h>
#include <string.h>

#include "core/base/name.h"

#define INCH        0.0254
#define SQUARE_INCH (INCH * INCH)
#define FOOT        0.3048
#define SQUARE_FOOT (FOOT * FOOT)
#define CUBIC_FOOT  (SQUARE_FOOT * FOOT)
#define US_GALLON   (231 * SQUARE_INCH * INCH)
#define UK_GALLON   0.00454609
#define POUND       0.45359237
#define PSF         (POUND * TC_GRAVITY / SQUARE_FOOT)
#define HOUR        3600.0
#define BTU         1055.05585262 /* of the International Table */

static const struct tc_unit units[] = {
    {"%", TC_DIM_SHARE, 0.01, 0},
    {"mm", TC_DIM_LENGTH, 0.001, 0},
    {"cm", TC_DIM_LENGTH, 0.01, 0},
    {"m", TC_DIM_LENGTH, 1, 0},
    {"in", TC_DIM_LENGTH, INCH, 0},
    {"ft", TC_DIM_LENGTH, FOOT, 0},
    {"cm2", TC_DIM_AREA, 1e-4, 0},
    {"m2", TC_DIM_AREA, 1, 0},
    {"in2", TC_DIM_AREA, SQUARE_INCH, 0},
    {"ft2", TC_DIM_AREA, SQUARE_FOOT, 0},
    {"mL", TC_DIM_VOLUME, 1e-6, 0},
    {"L", TC_DIM_VOLUME, 0.001, 0},
    {"m3", TC_DIM_VOLUME, 1, 0},
    {"gal", TC_DIM_VOLUME, US_GALLON, 0},
    {"ukgal", TC_DIM_VOLUME, UK_GALLON, 0},
    {"ft3", TC_DIM_VOLUME, CUBIC_FOOT, 0},
    {"kgal", TC_DIM_VOLUME, 1000 * US_GALLON, 0}, /* of water bills, as the next */
    {"ccf", TC_DIM_VOLUME, 100 * CUBIC_FOOT, 0},
    {"g", TC_DIM_MASS, 0.001, 0},
    {"kg", TC_DIM_MASS, 1, 0},
    {"lb", TC_DIM_MASS, POUND, 0},
    {"kg/m3", TC_DIM_DENSITY, 1, 0},
    {"kg/L", TC_DIM_DENSITY, 1000, 0},
    {"lb/ft3", TC_DIM_DENSITY, POUND / (FOOT * FOOT * FOOT), 0},
    {"W", TC_DIM_POWER, 1, 0},
    {"kW", TC_DIM_POWER, 1000, 0},
    {"Btu/h", TC_DIM_POWER, BTU / HOUR, 0},
    {"Wh", TC_DIM_ENERGY, HOUR, 0},
    {"kWh", TC_DIM_ENERGY, 1000 * HOUR, 0},
    {"MJ", TC_DIM_ENERGY, 1e6, 0},
    {"W/K", TC_DIM_HEAT_LOSS, 1, 0},
    {"Btu/h/F", TC_DIM_HEAT_LOSS, BTU / HOUR * 9 / 5, 0},
    {"C", TC_DIM_TEMPERATURE, 1, 273.15},
    {"F", TC_DIM_TEMPERATURE, 5.0 / 9.0, 459.67 * 5.0 / 9.0},
    {"K", TC_DIM_TEMPERATURE, 1, 0},
    {"K", TC_DIM_TEMPERATURE_STEP, 1, 0},
    {"C", TC_DIM_TEMPERATURE_STEP, 1, 0},
    {"F", TC_DIM_TEMPERATURE_STEP, 5.0 / 9.0, 0},
    {"L/h", TC_DIM_FLOW, 0.001 / HOUR, 0},
    {"L/min", TC_DIM_FLOW, 0.001 / 60, 0},
    {"gal/h", TC_DIM_FLOW, US_GALLON / HOUR, 0},
    {"m3/h", TC_DIM_FLOW, 1 / HOUR, 0},
    {"/h", TC_DIM_TURNOVER, 1 / HOUR, 0},
    {"umol/s", TC_DIM_PHOTON_FLOW, 1, 0},
    {"umol/m2/s", TC_DIM_PHOTON_DENSITY, 1, 0},
    {"umol/J", TC_DIM_PHOTON_EFFICACY, 1, 0},
    {"lm", TC_DIM_LUMINOUS_FLOW, 1, 0},
    {"Pa", TC_DIM_PRESSURE, 1, 0},
    {"kPa", TC_DIM_PRESSURE, 1000, 0},
    {"kg/m2", TC_DIM_PRESSURE, TC_GRAVITY, 0},
    {"psf", TC_DIM_PRESSURE, PSF, 0},
    {"/m", TC_DIM_ATTENUATION, 1, 0},
    {"h", TC_DIM_HOURS, 1, 0},
    {"min", TC_DIM_HOURS, 1.0 / 60, 0},
    {"d", TC_DIM_DAYS, 1, 0},
    {"day", TC_DIM_DAYS, 1, 0},
    {"days", TC_DIM_DAYS, 1, 0},
    {"week", TC_DIM_DAYS, 7, 0},
    {"weeks", TC_DIM_DAYS, 7, 0},
    {"y", TC_DIM_YEARS, 1, 0},
    {"year", TC_DIM_YEARS, 1, 0},
    {"years", TC_DIM_YEARS, 1, 0},
    {"month", TC_DIM_YEARS, 1.0 / 12, 0},
    {"months", TC_DIM_YEARS, 1.0 / 12, 0},
    {"A", TC_DIM_ELECTRIC_CURRENT, 1, 0},
    {"V", TC_DIM_VOLTAGE, 1, 0},
};

enum { UNIT_COUNT = sizeof units / sizeof units[0] };

static const struct {
    const char *name;
    const char *units;
    const char *metric;
    const char *us;
} dimensions[TC_DIM_COUNT] = {
    [TC_DIM_PLAIN] = {"a number", "no unit", NULL, NULL},
    [TC_DIM_SHARE] = {"a share", "%", "%", "%"},
    [TC_DIM_LENGTH] = {"a length", "mm, cm, m, in or ft", "cm", "in"},
    [TC_DIM_AREA] = {"an area", "cm2, m2, in2 or ft2", "cm2", "in2"},
    [TC_DIM_VOLUME] = {"a volume", "mL, L, m3, gal, ukgal or ft3", "L", "gal"},
    [TC_DIM_MASS] = {"a mass", "g, kg or lb", "kg", "lb"},
    [TC_DIM_DENSITY] = {"a density", "kg/m3, kg/L or lb/ft3", "kg/m3", "lb/ft3"},
    [TC_DIM_POWER] = {"a power", "W, kW or Btu/h", "W", "W"},
    [TC_DIM_ENERGY] = {"an energy", "Wh, kWh or MJ", "kWh", "kWh"},
    [TC_DIM_HEAT_LOSS] = {"a heat loss", "W/K or Btu/h/F", "W/K", "Btu/h/F"},
    [TC_DIM_TEMPERATURE] = {"a temperature", "C, F or K", "C", "F"},
    [TC_DIM_TEMPERATURE_STEP] = {"a difference of temperature", "K, C or F", "K", "F"},
    [TC_DIM_FLOW] = {"a flow", "L/h, L/min, gal/h or m3/h", "L/h", "gal/h"},
    [TC_DIM_TURNOVER] = {"a turnover", "/h", "/h", "/h"},
    [TC_DIM_PHOTON_FLOW] = {"a photon flux", "umol/s", "umol/s", "umol/s"},
    [TC_DIM_PHOTON_DENSITY] = {"a photon flux density", "umol/m2/s", "umol/m2/s", "umol/m2/s"},
    [TC_DIM_PHOTON_EFFICACY] = {"a photon efficacy", "umol/J", "umol/J", "umol/J"},
    [TC_DIM_LUMINOUS_FLOW] = {"a luminous flux", "lm", "lm", "lm"},
    [TC_DIM_PRESSURE] = {"a load per area", "psf, kg/m2, kPa or Pa", "kg/m2", "psf"},
    [TC_DIM_ATTENUATION] = {"an attenuation", "/m", "/m", "/m"},
    [TC_DIM_HOURS] = {"a time of day", "h or min", "h", "h"},
    [TC_DIM_DAYS] = {"an interval", "days or weeks", "days", "days"},
    [TC_DIM_YEARS] = {"a time in years", "years or months", "years", "years"},
    [TC_DIM_ELECTRIC_CURRENT] = {"a current", "A", "A", "A"},
    [TC_DIM_VOLTAGE] = {"a voltage", "V", "V", "V"},
};

/* Where the printed sign differs from the typed name. */
static const struct {
    const char *name;
    const char *symbol;
} symbols[] = {
    {"cm2", "cm²"},       {"m2", "m²"},         {"in2", "in²"},       {"ft2", "ft²"},
    {"m3", "m³"},         {"ft3", "ft³"},       {"m3/h", "m³/h"},     {"kg/m2", "kg/m²"},
    {"kg/m3", "kg/m³"},   {"lb/ft3", "lb/ft³"}, {"umol/s", "µmol/s"}, {"umol/m2/s", "µmol/m²/s"},
    {"umol/J", "µmol/J"}, {"C", "°C"},          {"F", "°F"},
};

const struct tc_unit *tc_unit_table(size_t *count)
{
    *count = UNIT_COUNT;
    return units;
}

const char *tc_dimension_name(enum tc_dimension dimension)
{
    return dimensions[dimension].name;
}

const char *tc_dimension_units(enum tc_dimension dimension)
{
    return dimensions[dimension].units;
}

static const char *skip_spaces(const char *p)
{
    while (*p == ' ' || *p == '\t')
        p++;
    return p;
}

/* Length of the unit-like word at p: letters, '/', '%', signs beyond ASCII, and digits after the first. */
static size_t word_length(const char *p)
{
    size_t n = 0;
    while ((p[n] >= 'a' && p[n] <= 'z') || (p[n] >= 'A' && p[n] <= 'Z') || p[n] == '/' || p[n] == '%' ||
           (unsigned char)p[n] >= 0x80 || (n > 0 && p[n] >= '0' && p[n] <= '9'))
        n++;
    return n;
}

static bool same_word(const char *word, size_t length, const char *name)
{
    return word[0] == name[0] && strncmp(word, name, length) == 0 && name[length] == '\0';
}

/* Whether there are signs beyond ASCII, as in every printed sign that differs from the typed name. */
static bool has_sign(const char *word, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if ((unsigned char)word[i] >= 0x80)
            return true;
    return false;
}

const struct tc_unit *tc_unit_read(const char *text, const char **end, enum tc_dimension dimension)
{
    const char *p = skip_spaces(text);
    size_t length = word_length(p);
    *end = p;
    /* "l" and "ml" are as common as "L" and "mL" and mean nothing else here. */
    if (dimension == TC_DIM_VOLUME && same_word(p, length, "l")) {
        *end = p + length;
        return tc_unit_read("L", &p, dimension);
    }
    if (dimension == TC_DIM_VOLUME && same_word(p, length, "ml")) {
        *end = p + length;
        return tc_unit_read("mL", &p, dimension);
    }
    bool printed = has_sign(p, length);
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (units[i].dimension == dimension &&
            same_word(p, length, printed ? tc_unit_symbol(&units[i]) : units[i].name)) {
            *end = p + length;
            return &units[i];
        }
    }
    return NULL;
}

const struct tc_unit *tc_unit_preferred(enum tc_dimension dimension, enum tc_unit_system system)
{
    const char *name = system == TC_US ? dimensions[dimension].us : dimensions[dimension].metric;
    const char *end;
    return name ? tc_unit_read(name, &end, dimension) : NULL;
}

double tc_unit_from_base(const struct tc_unit *unit, double value)
{
    return unit ? (value - unit->offset) / unit->factor : value;
}

const char *tc_unit_symbol(const struct tc_unit *unit)
{
    if (!unit)
        return "";
    for (size_t i = 0; i < sizeof symbols / sizeof symbols[0]; i++)
        if (tc_name_same(symbols[i].name, unit->name))
            return symbols[i].symbol;
    return unit->name;
}

char *tc_unit_quantity_write(char *buffer, double value, enum tc_dimension dimension,
                             enum tc_unit_system system, int decimals)
{
    const struct tc_unit *unit = tc_unit_preferred(dimension, system);
    char number[TC_NUMBER_SIZE];
    tc_number_write(number, tc_unit_from_base(unit, value), decimals, true);
    snprintf(buffer, TC_QUANTITY_SIZE, "%s%s%s", number, unit ? " " : "", tc_unit_symbol(unit));
    return buffer;
}
