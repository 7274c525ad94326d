/* SPDX-License-Identifier: MIT */
/*
 * unit.h - quantities as people write them, turned into the units the program
 * computes in, and back.
 *
 * Every dimension has one base unit (SI, or the plain unit of the trade where
 * SI has none: years of life, hours of light a day). Conversion factors are
 * exact by definition where one exists (NIST SP 811, appendix B.8): 1 in =
 * 0.0254 m, 1 US gal = 231 in3, 1 lb = 0.45359237 kg, 1 psf = lbf/ft2.
 */
#ifndef TC_CORE_BASE_UNIT_H
#define TC_CORE_BASE_UNIT_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/number.h"
#include "core/base/status.h"

enum tc_dimension {
    TC_DIM_PLAIN,            /* a bare number, no unit */
    TC_DIM_SHARE,            /* part of one; written in % */
    TC_DIM_LENGTH,           /* m */
    TC_DIM_AREA,             /* m2 */
    TC_DIM_VOLUME,           /* m3 */
    TC_DIM_MASS,             /* kg */
    TC_DIM_DENSITY,          /* kg/m3 */
    TC_DIM_POWER,            /* W */
    TC_DIM_ENERGY,           /* J */
    TC_DIM_HEAT_LOSS,        /* W/K: power for each degree of difference */
    TC_DIM_TEMPERATURE,      /* K, as a point on the scale */
    TC_DIM_TEMPERATURE_STEP, /* K, as a difference */
    TC_DIM_FLOW,             /* m3/s */
    TC_DIM_TURNOVER,         /* 1/s: volumes moved per time */
    TC_DIM_PHOTON_FLOW,      /* umol/s: PPF */
    TC_DIM_PHOTON_DENSITY,   /* umol/(m2 s): PPFD */
    TC_DIM_PHOTON_EFFICACY,  /* umol/J */
    TC_DIM_LUMINOUS_FLOW,    /* lm */
    TC_DIM_PRESSURE,         /* Pa: floor load */
    TC_DIM_ATTENUATION,      /* 1/m */
    TC_DIM_HOURS,            /* h: hours of a day */
    TC_DIM_DAYS,             /* d: intervals */
    TC_DIM_YEARS,            /* years: service life, study period */
    TC_DIM_ELECTRIC_CURRENT, /* A */
    TC_DIM_VOLTAGE,          /* V */
    TC_DIM_COUNT
};

/* Standard gravity, m/s2 (CGPM 1901); J of a kWh. */
#define TC_GRAVITY       9.80665
#define TC_KILOWATT_HOUR 3.6e6

/* The two habits of writing quantities. */
enum tc_unit_system { TC_METRIC, TC_US };

struct tc_unit {
    const char *name; /* as written in profiles: "in", "umol/m2/s" */
    enum tc_dimension dimension;
    double factor; /* base units per unit */
    double offset; /* base value at 0 of the unit (temperatures; else 0) */
};

/* The table of all units, in no order that matters; *count is set. */
const struct tc_unit *tc_unit_table(size_t *count);

/* Lower-case name of a dimension for messages: "a length". */
const char *tc_dimension_name(enum tc_dimension dimension);

/* The units of a dimension for messages: "mm, cm, m, in or ft". */
const char *tc_dimension_units(enum tc_dimension dimension);

/*
 * Reads the unit alone at the start of text: its name, or as it is printed;
 * "l" and "ml" as well. NULL where none of that dimension stands there.
 */
const struct tc_unit *tc_unit_read(const char *text, const char **end, enum tc_dimension dimension);

/* The unit in which a person of that habit wants to read the dimension. */
const struct tc_unit *tc_unit_preferred(enum tc_dimension dimension, enum tc_unit_system system);

/* A value in base units turned into a unit. */
double tc_unit_from_base(const struct tc_unit *unit, double value);

/* How the unit is printed: "in²", "µmol/(m² s)", "°C"; UTF-8. */
const char *tc_unit_symbol(const struct tc_unit *unit);

#define TC_QUANTITY_SIZE 64

/* Writes "1 770 W" with the given decimals and thousands set apart into buffer (TC_QUANTITY_SIZE) in the
 * preferred unit; returns it. */
char *tc_unit_quantity_write(char *buffer, double value, enum tc_dimension dimension,
                             enum tc_unit_system system, int decimals);

#endif
