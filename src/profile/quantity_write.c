/* SPDX-License-Identifier: MIT */
#include "profile/quantity_write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A figure written in one unit, and how good that is. */
struct attempt {
    char text[TC_QUANTITY_SIZE];
    bool exact;    /* it reads back to the same value */
    size_t digits; /* length of the number; fewer is better */
};

static bool reads_back(const struct tc_quantity_form *form, const char *text, double value)
{
    struct tc_quantity figure;
    char ignored[TC_PROBLEM_SIZE];
    return tc_quantity_read(form, text, (struct tc_currency){"", 0}, &figure, ignored) &&
           figure.spread.low == value;
}

static void join(char *text, const struct tc_quantity_form *form, const char *number,
                 const struct tc_unit *unit)
{
    const char *name = unit ? unit->name : "";
    int length = (int)strlen(name);
    /* "1 day", "1 week" */
    if (strcmp(number, "1") == 0 && length > 2 && name[length - 1] == 's' && !form->money)
        length--;
    snprintf(text, TC_QUANTITY_SIZE,
             !unit         ? "%s"
             : form->money ? "%s / %.*s"
                           : "%s %.*s",
             number, length, name);
}

static struct attempt attempt_in(const struct tc_quantity_form *form, const struct tc_unit *unit,
                                 double value)
{
    struct attempt attempt = {.exact = false};
    char number[TC_NUMBER_SIZE];
    double figure = tc_quantity_from_base(form, unit, value);
    tc_number_write_short(number, figure);
    join(attempt.text, form, number, unit);
    attempt.exact = reads_back(form, attempt.text, value);
    /* The factor rounds: the figure that comes back may be a neighbor of the one that was reckoned. */
    const double tries[] = {figure, nextafter(figure, -INFINITY), nextafter(figure, INFINITY)};
    for (size_t i = 0; i < sizeof tries / sizeof tries[0] && !attempt.exact; i++) {
        char longer[TC_NUMBER_SIZE], text[TC_QUANTITY_SIZE];
        tc_number_write_exact(longer, tries[i]);
        join(text, form, longer, unit);
        attempt.exact = reads_back(form, text, value);
        if (attempt.exact) {
            memcpy(attempt.text, text, sizeof text);
            memcpy(number, longer, sizeof longer);
        }
    }
    attempt.digits = strlen(number);
    return attempt;
}

static bool better(const struct attempt *a, const struct attempt *b)
{
    if (a->exact != b->exact)
        return a->exact;
    return a->digits < b->digits;
}

/* Whether a unit is but another spelling of a later one of the table: "d" and "day" of "days". */
static bool has_later_spelling(const struct tc_unit *units, size_t i, size_t count)
{
    for (size_t j = i + 1; j < count; j++)
        if (units[j].dimension == units[i].dimension && units[j].factor == units[i].factor &&
            units[j].offset == units[i].offset && units[i].dimension != TC_DIM_TEMPERATURE_STEP)
            return true;
    return false;
}

/* Inches of whole eighths as a tape measure says them: "24 1/4 in" for "24.25 in". */
static void write_as_on_tape(const struct tc_quantity_form *form, const struct tc_unit *unit, double value,
                             struct attempt *attempt)
{
    char number[TC_NUMBER_SIZE], text[TC_QUANTITY_SIZE];
    if (form->money || !unit || unit != tc_unit_preferred(TC_DIM_LENGTH, TC_US) || !attempt->exact)
        return;
    tc_number_write_eighths(number, tc_quantity_from_base(form, unit, value), true);
    join(text, form, number, unit);
    if (reads_back(form, text, value))
        memcpy(attempt->text, text, sizeof text);
}

void tc_quantity_write(const struct tc_quantity_form *form, double value, enum tc_unit_system system,
                       char text[TC_QUANTITY_SIZE])
{
    const struct tc_unit *preferred = tc_unit_preferred(form->dimension, system);
    if (form->money && preferred && form->dimension == TC_DIM_VOLUME && system == TC_METRIC) {
        const char *end;
        preferred = tc_unit_read("m3", &end, form->dimension);
    }
    const struct tc_unit *unit = preferred;
    struct attempt best = attempt_in(form, preferred, value);
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (units[i].dimension != form->dimension || has_later_spelling(units, i, count))
            continue;
        struct attempt other = attempt_in(form, &units[i], value);
        if (better(&other, &best)) {
            best = other;
            unit = &units[i];
        }
    }
    write_as_on_tape(form, unit, value, &best);
    memcpy(text, best.text, sizeof best.text);
}

void tc_amount_write(double value, int decimals, char text[TC_NUMBER_SIZE])
{
    static const struct tc_quantity_form form = {.dimension = TC_DIM_PLAIN};
    const int tries[] = {0, decimals, 4}; /* three would be read in two ways */
    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        tc_number_write(text, value, tries[i], false);
        if (reads_back(&form, text, value))
            return;
    }
    tc_number_write_short(text, value);
    if (!reads_back(&form, text, value)) {
        char exact[TC_NUMBER_SIZE];
        tc_number_write_exact(exact, value);
        if (reads_back(&form, exact, value))
            memcpy(text, exact, sizeof exact);
    }
}

/* The unit of the system if all values read back in it, else the first that does, else that of the system. */
static const struct tc_unit *unit_for_all(const struct tc_quantity_form *form, const double *values,
                                          int count, enum tc_unit_system system)
{
    size_t unit_count;
    const struct tc_unit *units = tc_unit_table(&unit_count);
    const struct tc_unit *preferred = tc_unit_preferred(form->dimension, system);
    for (size_t i = 0; i <= unit_count; i++) {
        const struct tc_unit *unit = i == 0 ? preferred : &units[i - 1];
        bool exact = !unit || unit->dimension == form->dimension;
        for (int v = 0; v < count && exact; v++)
            exact = attempt_in(form, unit, values[v]).exact;
        if (exact)
            return unit;
    }
    return preferred;
}

void tc_quantity_write_list(const struct tc_quantity_form *form, const double *values, int count,
                            enum tc_unit_system system, char *text, size_t size)
{
    const struct tc_unit *unit = unit_for_all(form, values, count, system);
    size_t length = 0;
    text[0] = '\0';
    for (int v = 0; v < count; v++) {
        struct attempt attempt = attempt_in(form, unit, values[v]);
        int n = snprintf(text + length, size - length, "%s%.*s", v > 0 ? " " : "", (int)attempt.digits,
                         attempt.text);
        if (n < 0 || (size_t)n >= size - length)
            return; /* cut; the header says how much room there has to be */
        length += (size_t)n;
    }
    if (unit)
        snprintf(text + length, size - length, " %s", unit->name);
}
