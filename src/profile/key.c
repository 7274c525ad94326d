/* SPDX-License-Identifier: MIT */
#include "profile/key.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/clean.h"
#include "core/date.h"
#include "core/load.h"
#include "profile/figure_write.h"

/* The double, int ... of a record that a key stands for. */
static void *place(const struct tc_key *key, void *record)
{
    return (char *)record + key->offset;
}

static const void *const_place(const struct tc_key *key, const void *record)
{
    return (const char *)record + key->offset;
}

static struct tc_figure_form figure_form(const struct tc_key *key)
{
    bool money = key->form == TC_KEY_MONEY || key->form == TC_KEY_RATE || key->form == TC_KEY_PRICES;
    return (struct tc_figure_form){
        .dimension = key->dimension,
        .money = money,
        .code = key->form == TC_KEY_PRICES,
        .example = key->example,
    };
}

/* ------------------------------------------------------------------------ words */

/* The i-th word of "sponge hang-on canister" into word; false past the last. */
static bool word_of(const char *words, int i, char word[TC_NAME_SIZE])
{
    for (; i > 0 && *words != '\0'; i--) {
        words += strcspn(words, " ");
        words += *words == ' ';
    }
    size_t length = strcspn(words, " ");
    if (length >= TC_NAME_SIZE)
        length = TC_NAME_SIZE - 1;
    memcpy(word, words, length);
    word[length] = '\0';
    return length > 0;
}

/* The place of text among words; -1 with a problem that names them. */
static int find_word(const char *words, const char *text, char problem[TC_PROBLEM_SIZE])
{
    char word[TC_NAME_SIZE], near[TC_NAME_SIZE] = "", shown[TC_SHOWN_SIZE], all[TC_PROBLEM_SIZE] = "";
    int count = 0;
    for (; word_of(words, count, word); count++) {
        if (tc_name_equal(word, text))
            return count;
        const char *one = word;
        if (near[0] == '\0' && tc_name_nearest_of(text, &one, 1))
            memcpy(near, word, sizeof near);
    }
    tc_figure_shown(shown, text);
    if (near[0] != '\0') {
        tc_problem(problem, "'%s' is not known here; did you mean '%s'?", shown, near);
        return -1;
    }
    for (int i = 0; i < count; i++) {
        word_of(words, i, word);
        size_t length = strlen(all);
        const char *joint = i == 0 ? "" : i == count - 1 ? " or " : ", ";
        snprintf(all + length, sizeof all - length, "%s'%s'", joint, word);
    }
    tc_problem(problem, "'%s' is not known here; write %s", shown, all);
    return -1;
}

/* The word of the key, or NULL. */
static const struct tc_key_word *word_named(const struct tc_key *key, const char *text)
{
    for (const struct tc_key_word *w = key->word; w && w->name; w++)
        if (tc_name_equal(w->name, text))
            return w;
    return NULL;
}

/* ---------------------------------------------------------------------- figures */

/* A bound in a unit, rounded inwards to four digits so that what it says is always allowed. */
static const char *write_bound(char buffer[TC_QUANTITY_SIZE], const struct tc_figure_form *form,
                               const struct tc_unit *unit, double bound, bool upper)
{
    double value = tc_figure_from_base(form, unit, bound);
    char number[TC_NUMBER_SIZE];
    if (value != 0) {
        double scale = pow(10, 3 - floor(log10(fabs(value))));
        double scaled = value * scale, whole = round(scaled);
        if (fabs(scaled - whole) > 1e-6 * fabs(scaled))
            whole = upper ? floor(scaled) : ceil(scaled);
        value = whole / scale;
    }
    tc_number_write_short(number, value);
    snprintf(buffer, TC_QUANTITY_SIZE,
             !unit         ? "%s"
             : form->money ? "%s / %s"
                           : "%s %s",
             number, unit ? unit->name : "");
    return buffer;
}

static bool check_bounds(const struct tc_key *key, const char *text, const struct tc_unit *unit,
                         const struct tc_spread *spread, char problem[TC_PROBLEM_SIZE])
{
    struct tc_figure_form form = figure_form(key);
    /* A bound in another unit than its own is not hit exactly. */
    double slack = 1e-9 * fmax(fabs(key->least), fabs(key->greatest));
    if (spread->low >= key->least - slack && spread->high <= key->greatest + slack)
        return true;
    char shown[TC_SHOWN_SIZE], least[TC_QUANTITY_SIZE], greatest[TC_QUANTITY_SIZE];
    tc_figure_shown(shown, text);
    write_bound(least, &form, unit, key->least, false);
    write_bound(greatest, &form, unit, key->greatest, true);
    if (tc_figure_from_base(&form, unit, spread->low) < 0 && key->least >= 0)
        return tc_problem(problem, "'%s' is negative; it has to be from %s to %s", shown, least, greatest);
    return tc_problem(problem, "'%s' is out of range; it has to be from %s to %s", shown, least, greatest);
}

static void add_range(struct tc_reading *reading, size_t offset, int span, const struct tc_figure *figure,
                      bool price)
{
    if (figure->spread.shape == TC_SPREAD_FIXED || reading->range_count == TC_PRICES_MAX)
        return;
    struct tc_key_range *range = &reading->range[reading->range_count++];
    *range = (struct tc_key_range){.offset = offset, .span = span, .spread = figure->spread};
    if (price)
        range->currency = figure->currency;
}

/* Reads one figure or word, checked for everything, without storing it. */
static bool read_figure(const struct tc_key *key, const char *text, struct tc_reading *reading,
                        struct tc_figure *figure)
{
    char shown[TC_SHOWN_SIZE];
    struct tc_figure_form form = figure_form(key);
    const struct tc_key_word *word = word_named(key, text);
    if (word) {
        *figure = (struct tc_figure){.spread = tc_spread_fixed(word->value)};
        return true;
    }
    if (!tc_figure_read(&form, text, reading->currency, figure, reading->problem) ||
        !check_bounds(key, text, figure->unit, &figure->spread, reading->problem))
        return false;
    tc_figure_shown(shown, text);
    if ((key->fixed || key->step > 0) && figure->spread.shape != TC_SPREAD_FIXED)
        return tc_problem(reading->problem, "'%s' is a range, but here one figure is wanted", shown);
    double low = figure->spread.low;
    if (key->step > 0 && fabs(low / key->step - round(low / key->step)) > 1e-9)
        return tc_problem(reading->problem, "'%s' is no whole number; write it like '%s'", shown,
                          key->example);
    return true;
}

static bool read_double(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_figure figure;
    if (!read_figure(key, text, reading, &figure))
        return false;
    double middle = tc_spread_middle(&figure.spread);
    memcpy(place(key, record), &middle, sizeof middle);
    add_range(reading, key->offset, 1, &figure, false);
    return true;
}

static bool read_count(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_figure figure;
    struct tc_key whole = *key;
    whole.dimension = TC_DIM_PLAIN;
    whole.step = 1;
    if (!read_figure(&whole, text, reading, &figure))
        return false;
    int count = (int)lround(figure.spread.low);
    memcpy(place(key, record), &count, sizeof count);
    return true;
}

static bool read_months(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_figure_form form = figure_form(key);
    double month[TC_MONTHS];
    struct tc_figure figure;
    int count = 1;

    /* Twelve figures are told from one, or one range, by having no "to" and more than one number. */
    char ignored[TC_PROBLEM_SIZE];
    if (tc_figure_list(&form, text, month, 2 * TC_MONTHS, &count, &figure.unit, ignored) && count > 1) {
        if (count != TC_MONTHS)
            return tc_problem(reading->problem,
                              "there are %d figures; write twelve, from January on, or one for all months",
                              count);
        for (int m = 0; m < TC_MONTHS; m++) {
            struct tc_spread spread = tc_spread_fixed(month[m]);
            if (!check_bounds(key, text, figure.unit, &spread, reading->problem))
                return false;
        }
    } else if (strstr(text, " to ") != NULL || count == 1) {
        if (!read_figure(key, text, reading, &figure))
            return false;
        for (int m = 0; m < TC_MONTHS; m++)
            month[m] = tc_spread_middle(&figure.spread);
        add_range(reading, key->offset, TC_MONTHS, &figure, false);
    } else {
        return tc_figure_list(&form, text, month, 2 * TC_MONTHS, &count, &figure.unit, reading->problem);
    }
    memcpy(place(key, record), month, sizeof month);
    return true;
}

static bool read_prices(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_price_list list = {.count = 0};
    char item[TC_TITLE_SIZE], shown[TC_SHOWN_SIZE];
    const char *rest = text;
    while (tc_figure_item(&rest, item, sizeof item, reading->problem)) {
        struct tc_figure figure;
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
                              tc_figure_shown(shown, text), figure.currency.code);
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

/* ------------------------------------------------------------------ other forms */

static bool read_flag(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    int found = find_word(key->words ? key->words : "no yes", text, reading->problem);
    if (found < 0)
        return false;
    bool flag = found == 1;
    memcpy(place(key, record), &flag, sizeof flag);
    return true;
}

static bool read_choice(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    int found = find_word(key->words, text, reading->problem);
    if (found >= 0)
        memcpy(place(key, record), &found, sizeof found);
    return found >= 0;
}

/* Copies a text into a field of a record, the rest of which is zeroed: equal records are equal in every byte.
 */
static void store(char *field, size_t size, const char *text)
{
    memset(field, 0, size);
    memcpy(field, text, strlen(text));
}

static bool read_word(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    char word[TC_NAME_SIZE];
    int found = find_word(key->words, text, reading->problem);
    if (found < 0)
        return false;
    word_of(key->words, found, word);
    store(place(key, record), TC_NAME_SIZE, word);
    return true;
}

static bool read_text(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    size_t length = strlen(text);
    if (length >= TC_TITLE_SIZE)
        return tc_problem(reading->problem, "the text is longer than %d bytes", TC_TITLE_SIZE - 1);
    if (!tc_is_clean(text, length))
        return tc_problem(reading->problem, "the text holds a control character or is not UTF-8");
    /* A profile has no way to write such a text (see ini.h), so a plan with it could not be saved. */
    if (strchr(text, '\\') || (strchr(text, '"') && strchr(text, '\'')))
        return tc_problem(reading->problem, strchr(text, '\\') ? "a text cannot hold a '\\'; write '/'"
                                                               : "a text cannot hold both kinds of quotes");
    store(place(key, record), TC_TITLE_SIZE, text);
    return true;
}

static bool read_name(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    char name[TC_NAME_SIZE], shown[TC_SHOWN_SIZE];
    if (key->words && tc_name_equal(text, key->words)) {
        store(place(key, record), TC_NAME_SIZE, "");
        return true;
    }
    size_t length = strlen(text);
    if (length < sizeof name) {
        for (size_t i = 0; i <= length; i++)
            name[i] = tc_name_lower(text[i]);
        if (tc_name_valid(name)) {
            store(place(key, record), TC_NAME_SIZE, name);
            return true;
        }
    }
    tc_figure_shown(shown, text);
    if (tc_name_mend(name, text))
        return tc_problem(reading->problem, "'%s' is no name; names are made of %s; did you mean '%s'?",
                          shown, TC_NAME_RULE, name);
    return tc_problem(reading->problem, "'%s' is no name; names are made of %s", shown, TC_NAME_RULE);
}

static bool read_date(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_date date;
    const char *end;
    char shown[TC_SHOWN_SIZE];
    enum tc_status status = tc_date_read(text, &end, &date);
    tc_figure_shown(shown, text);
    if (status == TC_RANGE)
        return tc_problem(reading->problem, "'%s' is no day of the years %d to %d", shown, TC_YEAR_FIRST,
                          TC_YEAR_LAST);
    if (status != TC_OK || *end != '\0')
        return tc_problem(reading->problem, "'%s' is no date; write year, month and day like '%s'", shown,
                          key->example);
    memcpy(place(key, record), &date, sizeof date);
    return true;
}

static bool read_currency(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading)
{
    struct tc_currency currency = {"", 0};
    if (!tc_figure_currency(text, &currency, reading->problem))
        return false;
    memcpy(place(key, record), &currency, sizeof currency);
    return true;
}

bool tc_key_read_with(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    reading->range_count = 0;
    reading->problem[0] = '\0';
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_MONEY:
    case TC_KEY_RATE: return read_double(key, text, record, reading);
    case TC_KEY_COUNT: return read_count(key, text, record, reading);
    case TC_KEY_FLAG: return read_flag(key, text, record, reading);
    case TC_KEY_TEXT: return read_text(key, text, record, reading);
    case TC_KEY_NAME: return read_name(key, text, record, reading);
    case TC_KEY_WORD: return read_word(key, text, record, reading);
    case TC_KEY_CHOICE: return read_choice(key, text, record, reading);
    case TC_KEY_PRICES: return read_prices(key, text, record, reading);
    case TC_KEY_MONTHS: return read_months(key, text, record, reading);
    case TC_KEY_DATE: return read_date(key, text, record, reading);
    case TC_KEY_CURRENCY: return read_currency(key, text, record, reading);
    case TC_KEY_OWN: return key->read(key, text, record, reading);
    }
    return tc_problem(reading->problem, "the key cannot be read");
}

bool tc_key_read(const struct tc_key *key, const char *text, void *record, struct tc_spread *spread,
                 char problem[TC_PROBLEM_SIZE])
{
    struct tc_reading reading = {.currency = {"", 0}};
    if (!tc_key_read_with(key, text, record, &reading)) {
        memcpy(problem, reading.problem, sizeof reading.problem);
        return false;
    }
    if (!spread)
        return true;
    *spread = tc_spread_fixed(0);
    if (reading.range_count > 0) {
        *spread = reading.range[0].spread;
    } else if (key->form == TC_KEY_QUANTITY || key->form == TC_KEY_MONEY || key->form == TC_KEY_RATE ||
               key->form == TC_KEY_MONTHS) {
        double value;
        memcpy(&value, const_place(key, record), sizeof value);
        *spread = tc_spread_fixed(value);
    }
    return true;
}

/* ---------------------------------------------------------------------- writing */

static void write_double(const struct tc_key *key, double value, enum tc_unit_system system,
                         char text[TC_VALUE_SIZE])
{
    struct tc_figure_form form = {.dimension = key->dimension, .money = key->form == TC_KEY_RATE};
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
        tc_figure_write(&form, value, system, text);
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
    struct tc_figure_form form = figure_form(key);
    double month[TC_MONTHS];
    bool alike = true;
    memcpy(month, const_place(key, record), sizeof month);
    for (int m = 1; m < TC_MONTHS; m++)
        alike = alike && month[m] == month[0];
    if (alike)
        tc_figure_write(&form, month[0], system, text);
    else
        tc_figure_write_list(&form, month, TC_MONTHS, system, text, TC_VALUE_SIZE);
}

void tc_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                  char text[TC_VALUE_SIZE])
{
    const void *field = (const char *)record + key->offset;
    double value;
    int number;
    bool flag;
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_MONEY:
    case TC_KEY_RATE:
        memcpy(&value, field, sizeof value);
        write_double(key, value, system, text);
        break;
    case TC_KEY_COUNT: {
        struct tc_key whole = {.word = key->word, .dimension = TC_DIM_PLAIN};
        memcpy(&number, field, sizeof number);
        write_double(&whole, number, system, text);
        break;
    }
    case TC_KEY_FLAG:
        memcpy(&flag, field, sizeof flag);
        word_of(key->words ? key->words : "no yes", flag, text);
        break;
    case TC_KEY_CHOICE:
        memcpy(&number, field, sizeof number);
        word_of(key->words, number, text);
        break;
    case TC_KEY_NAME:
        snprintf(text, TC_VALUE_SIZE, "%s",
                 *(const char *)field == '\0' && key->words ? key->words : (const char *)field);
        break;
    case TC_KEY_TEXT:
    case TC_KEY_WORD: snprintf(text, TC_VALUE_SIZE, "%s", (const char *)field); break;
    case TC_KEY_PRICES: write_prices(field, text); break;
    case TC_KEY_MONTHS: write_months(key, record, system, text); break;
    case TC_KEY_DATE: {
        struct tc_date date;
        char written[TC_DATE_SIZE];
        memcpy(&date, field, sizeof date);
        snprintf(text, TC_VALUE_SIZE, "%s", date.month == 0 ? "" : tc_date_write(written, date));
        break;
    }
    case TC_KEY_CURRENCY:
        snprintf(text, TC_VALUE_SIZE, "%s", ((const struct tc_currency *)field)->code);
        break;
    case TC_KEY_OWN: key->write(key, record, system, text); break;
    }
}
