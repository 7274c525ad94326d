/* SPDX-License-Identifier: MIT */
#include "profile/key_quantity.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/tariff/load.h"
#include "core/base/name.h"
#include "profile/quantity_write.h"

/* The double, int ... of a record that a key stands for. */
static void *place(const struct tc_key *key, void *record)
{
    return (char *)record + key->offset;
}

static const void *const_place(const struct tc_key *key, const void *record)
{
    return (const char *)record + key->offset;
}

static struct tc_quantity_form figure_form(const struct tc_key *key)
{
    bool money = key->form == TC_KEY_MONEY || key->form == TC_KEY_RATE || key->form == TC_KEY_PRICES;
    return (struct tc_quantity_form){
        .dimension = key->dimension,
        .money = money,
        .fine = key->fine,
        .code = key->form == TC_KEY_PRICES,
        .example = key->example,
    };
}

/* ---------------------------------------------------------------------- reading */

/* The word of the key, or NULL. */
static const struct tc_key_word *word_named(const struct tc_key *key, const char *text)
{
    for (const struct tc_key_word *w = key->word; w && w->name; w++)
        if (tc_name_equal(w->name, text))
            return w;
    return NULL;
}

static const char *word_at(const void *context, size_t i)
{
    const struct tc_key_word *words = context;
    return words[i].name;
}

/* Adds what else than figures can stand here: ", or 'none'". */
static void add_words(const struct tc_key *key, char problem[TC_PROBLEM_SIZE])
{
    for (int i = 0; key->word && key->word[i].name; i++) {
        size_t length = strlen(problem);
        const char *joint = i > 0 ? " or" : ", or";
        snprintf(problem + length, TC_PROBLEM_SIZE - length, "%s '%s'",
                 key->word[i + 1].name && i > 0 ? "," : joint, key->word[i].name);
    }
}

/* A misspelt word where a figure could stand: says which is meant. */
static bool misspelt(const struct tc_key *key, const char *text, char problem[TC_PROBLEM_SIZE])
{
    size_t count = 0;
    char shown[TC_SHOWN_SIZE];
    while (key->word && key->word[count].name)
        count++;
    const char *nearest = tc_name_nearest(text, word_at, key->word, count);
    if (nearest)
        tc_problem(problem, "'%s' is not known here; did you mean '%s'?", tc_quantity_shown(shown, text),
                   nearest);
    return nearest != NULL;
}

/* A bound in a unit, rounded inwards to four digits so that what it says is always allowed. */
static const char *write_bound(char buffer[TC_NUMBER_SIZE], const struct tc_quantity_form *form,
                               const struct tc_unit *unit, double bound, bool upper)
{
    double value = tc_quantity_from_base(form, unit, bound);
    if (value != 0) {
        double scale = pow(10, 3 - floor(log10(fabs(value))));
        double scaled = value * scale, whole = round(scaled);
        if (fabs(scaled - whole) > 1e-6 * fabs(scaled))
            whole = upper ? floor(scaled) : ceil(scaled);
        value = whole / scale;
    }
    return tc_number_write_short(buffer, value);
}

static bool check_bounds(const struct tc_key *key, const char *text, const struct tc_unit *unit,
                         const struct tc_spread *spread, char problem[TC_PROBLEM_SIZE])
{
    struct tc_quantity_form form = figure_form(key);
    /* A bound in another unit than its own is not hit exactly. */
    double slack = 1e-9 * fmax(fabs(key->least), fabs(key->greatest));
    if (spread->low >= key->least - slack && spread->high <= key->greatest + slack)
        return true;
    char shown[TC_SHOWN_SIZE], least[TC_NUMBER_SIZE], greatest[TC_NUMBER_SIZE];
    bool negative = tc_quantity_from_base(&form, unit, spread->low) < 0 && key->least >= 0;
    tc_problem(problem, "'%s' is %s; it has to be from %s to %s%s%s", tc_quantity_shown(shown, text),
               negative ? "negative" : "out of range", write_bound(least, &form, unit, key->least, false),
               write_bound(greatest, &form, unit, key->greatest, true),
               !unit        ? ""
               : form.money ? " / "
                            : " ",
               unit ? unit->name : "");
    add_words(key, problem);
    return false;
}

static void add_range(struct tc_reading *reading, size_t offset, int span, const struct tc_quantity *figure,
                      bool price)
{
    if (figure->spread.shape == TC_SPREAD_FIXED || reading->range_count == TC_READING_RANGES_MAX)
        return;
    struct tc_key_range *range = &reading->range[reading->range_count++];
    *range = (struct tc_key_range){.offset = offset, .span = span, .spread = figure->spread};
    if (price)
        range->currency = figure->currency;
}

/* Reads one figure or word, checked for everything, without storing it. */
static bool read_figure(const struct tc_key *key, const char *text, struct tc_reading *reading,
                        struct tc_quantity *figure)
{
    char shown[TC_SHOWN_SIZE];
    struct tc_quantity_form form = figure_form(key);
    const struct tc_key_word *word = word_named(key, text);
    if (word) {
        *figure = (struct tc_quantity){.spread = tc_spread_fixed(word->value)};
        return true;
    }
    if (!tc_quantity_read(&form, text, reading->currency, figure, reading->problem)) {
        if (!misspelt(key, text, reading->problem) && strspn(text, "+-.0123456789") == 0)
            add_words(key, reading->problem);
        return false;
    }
    if (!check_bounds(key, text, figure->unit, &figure->spread, reading->problem))
        return false;
    if ((key->fixed || key->step > 0) && figure->spread.shape != TC_SPREAD_FIXED)
        return tc_problem(reading->problem, "'%s' is a range, but here one figure is wanted",
                          tc_quantity_shown(shown, text));
    double low = figure->spread.low;
    if (key->step > 0 && fabs(low / key->step - round(low / key->step)) > 1e-9)
        return tc_problem(reading->problem, "'%s' is not a whole number; write it like '%s'",
                          tc_quantity_shown(shown, text), key->example);
    return true;
}

static bool read_double(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_quantity figure;
    if (!read_figure(key, text, reading, &figure))
        return false;
    double middle = tc_spread_middle(&figure.spread);
    memcpy(place(key, record), &middle, sizeof middle);
    add_range(reading, key->offset, 1, &figure, false);
    return true;
}

static bool read_count(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_quantity figure;
    struct tc_key whole = *key;
    whole.dimension = TC_DIM_PLAIN;
    whole.step = 1;
    if (!read_figure(&whole, text, reading, &figure))
        return false;
    int count = (int)lround(figure.spread.low);
    memcpy(place(key, record), &count, sizeof count);
    return true;
}

/* One of twelve figures, said alone where it is out of range. */
static bool check_month(const struct tc_key *key, double value, const struct tc_unit *unit,
                        char problem[TC_PROBLEM_SIZE])
{
    struct tc_quantity_form form = figure_form(key);
    struct tc_spread spread = tc_spread_fixed(value);
    char number[TC_NUMBER_SIZE], text[TC_QUANTITY_SIZE];
    tc_number_write_short(number, tc_quantity_from_base(&form, unit, value));
    snprintf(text, sizeof text, "%s %s", number, unit ? unit->name : "");
    return check_bounds(key, text, unit, &spread, problem);
}

/* Twelve figures: *done. One is left to be read as any figure. */
static bool read_twelve(const struct tc_key *key, const char *text, struct tc_spread month[TC_MONTHS],
                        bool *done, char problem[TC_PROBLEM_SIZE])
{
    struct tc_quantity_form form = figure_form(key);
    const struct tc_unit *unit;
    int count;
    *done = false;
    if (!tc_quantity_list(&form, text, month, TC_MONTHS, &count, &unit, problem))
        return false;
    if (count > 1 && count != TC_MONTHS)
        return tc_problem(
            problem, "there are %d figures; write twelve, from January on, or one for all months", count);
    *done = count == TC_MONTHS;
    for (int m = 0; m < TC_MONTHS && *done; m++)
        if (!check_month(key, month[m].low, unit, problem) || !check_month(key, month[m].high, unit, problem))
            return false;
    return true;
}

static bool read_months(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_spread spread[TC_MONTHS];
    struct tc_quantity figure;
    bool done;
    if (!read_twelve(key, text, spread, &done, reading->problem))
        return false;
    if (!done) {
        if (!read_figure(key, text, reading, &figure))
            return false;
        for (int m = 0; m < TC_MONTHS; m++)
            spread[m] = figure.spread;
        add_range(reading, key->offset, TC_MONTHS, &figure, false);
    }
    for (int m = 0; m < TC_MONTHS; m++) {
        double middle = tc_spread_middle(&spread[m]);
        memcpy((double *)place(key, record) + m, &middle, sizeof middle);
        if (!done || spread[m].shape == TC_SPREAD_FIXED)
            continue;
        figure.spread = spread[m];
        add_range(reading, key->offset + (size_t)m * sizeof(double), 1, &figure, false);
        reading->range[reading->range_count - 1].month = m + 1;
    }
    return true;
}

static bool read_prices(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_price_list list = {.count = 0};
    char item[TC_TITLE_SIZE], shown[TC_SHOWN_SIZE];
    const char *rest = text;
    while (tc_quantity_item(&rest, item, sizeof item, reading->problem)) {
        struct tc_quantity figure;
        if (list.count == TC_PRICES_MAX)
            return tc_problem(reading->problem, "there are more than %d prices; leave some out",
                              TC_PRICES_MAX);
        struct tc_reading bare = {.currency = {"", 0}};
        if (!read_figure(key, item, &bare, &figure)) {
            memcpy(reading->problem, bare.problem, sizeof bare.problem);
            return false;
        }
        if (tc_price_in(&list, figure.currency))
            return tc_problem(reading->problem, "'%s' has two prices in %s; write one",
                              tc_quantity_shown(shown, text), figure.currency.code);
        size_t offset = key->offset + offsetof(struct tc_price_list, price) +
                        (size_t)list.count * sizeof list.price[0] + offsetof(struct tc_price, amount);
        add_range(reading, offset, 1, &figure, true);
        list.price[list.count++] = (struct tc_price){figure.currency, tc_spread_middle(&figure.spread)};
    }
    if (reading->problem[0] != '\0')
        return false;
    if (list.count == 0)
        return tc_problem(reading->problem, "there is no price; write it like '%s'", key->example);
    memcpy(place(key, record), &list, sizeof list);
    return true;
}

bool tc_key_quantity_read(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading)
{
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_MONEY:
    case TC_KEY_RATE: return read_double(key, text, record, reading);
    case TC_KEY_COUNT: return read_count(key, text, record, reading);
    case TC_KEY_PRICES: return read_prices(key, text, record, reading);
    case TC_KEY_MONTHS: return read_months(key, text, record, reading);
    default: return tc_problem(reading->problem, "the key is for no figure");
    }
}

/* ---------------------------------------------------------------------- writing */

static void write_double(const struct tc_key *key, double value, enum tc_unit_system system,
                         char text[TC_VALUE_SIZE])
{
    struct tc_quantity_form form = {.dimension = key->dimension, .money = key->form == TC_KEY_RATE};
    for (const struct tc_key_word *w = key->word; w && w->name; w++) {
        if (w->value == value || (isnan(w->value) && isnan(value))) {
            snprintf(text, TC_VALUE_SIZE, "%s", w->name);
            return;
        }
    }
    if (isnan(value))
        text[0] = '\0';
    else if (key->form == TC_KEY_MONEY)
        tc_amount_write(value, 2, text);
    else
        tc_quantity_write(&form, value, system, text);
}

static void write_prices(const struct tc_price_list *list, char text[TC_VALUE_SIZE])
{
    size_t length = 0;
    text[0] = '\0';
    for (int i = 0; i < list->count; i++) {
        char number[TC_NUMBER_SIZE];
        tc_amount_write(list->price[i].amount, list->price[i].currency.exponent, number);
        int n = snprintf(text + length, TC_VALUE_SIZE - length, "%s%s %s", i > 0 ? ", " : "", number,
                         list->price[i].currency.code);
        length += (size_t)n; /* six prices of at most 60 bytes: they fit */
    }
}

static void write_months(const struct tc_key *key, const void *record, enum tc_unit_system system,
                         char text[TC_VALUE_SIZE])
{
    struct tc_quantity_form form = figure_form(key);
    double month[TC_MONTHS];
    bool alike = true;
    memcpy(month, const_place(key, record), sizeof month);
    for (int m = 1; m < TC_MONTHS; m++)
        alike = alike && month[m] == month[0];
    if (alike)
        tc_quantity_write(&form, month[0], system, text);
    else
        tc_quantity_write_list(&form, month, TC_MONTHS, system, text, TC_VALUE_SIZE);
}

void tc_key_quantity_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                           char text[TC_VALUE_SIZE])
{
    const void *field = const_place(key, record);
    text[0] = '\0';
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_MONEY:
    case TC_KEY_RATE: {
        double value;
        memcpy(&value, field, sizeof value);
        write_double(key, value, system, text);
        break;
    }
    case TC_KEY_COUNT: {
        int count;
        memcpy(&count, field, sizeof count);
        write_double(key, count, system, text);
        break;
    }
    case TC_KEY_PRICES: write_prices(field, text); break;
    case TC_KEY_MONTHS: write_months(key, record, system, text); break;
    default: break;
    }
}
