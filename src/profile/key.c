/* SPDX-License-Identifier: MIT */
#include "profile/key.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/date.h"
#include "profile/key_quantity.h"

/* The double, int ... of a record that a key stands for. */
static void *place(const struct tc_key *key, void *record)
{
    return (char *)record + key->offset;
}

static const void *const_place(const struct tc_key *key, const void *record)
{
    return (const char *)record + key->offset;
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

bool tc_key_word_at(const struct tc_key *key, int i, char word[TC_NAME_SIZE])
{
    const char *words = key->words ? key->words : key->form == TC_KEY_FLAG ? "no yes" : "";
    return word_of(words, i, word);
}

/* Says that text is none of the words, and which it may be. */
static void unknown_word(const char *words, const char *text, char problem[TC_PROBLEM_SIZE])
{
    char word[TC_NAME_SIZE], next[TC_NAME_SIZE], shown[TC_SHOWN_SIZE], all[TC_PROBLEM_SIZE] = "";
    tc_quantity_shown(shown, text);
    for (int i = 0; word_of(words, i, word); i++) {
        const char *one = word;
        if (tc_name_nearest_of(text, &one, 1)) {
            tc_problem(problem, "'%s' is not known here; did you mean '%s'?", shown, word);
            return;
        }
        size_t length = strlen(all);
        const char *joint = i == 0 ? "" : word_of(words, i + 1, next) ? ", " : " or ";
        snprintf(all + length, sizeof all - length, "%s'%s'", joint, word);
    }
    tc_problem(problem, "'%s' is not known here; write %s", shown, all);
}

/* The place of text among words; -1 with a problem that names them. */
static int find_word(const char *words, const char *text, char problem[TC_PROBLEM_SIZE])
{
    char word[TC_NAME_SIZE];
    for (int i = 0; word_of(words, i, word); i++)
        if (tc_name_equal(word, text))
            return i;
    unknown_word(words, text, problem);
    return -1;
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
    if (key->words && word_of(key->words, 0, name) && tc_name_equal(text, name)) {
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
    tc_quantity_shown(shown, text);
    if (tc_name_mend(name, text))
        return tc_problem(reading->problem, "'%s' is not a name; names are made of %s; did you mean '%s'?",
                          shown, TC_NAME_RULE, name);
    return tc_problem(reading->problem, "'%s' is not a name; names are made of %s", shown, TC_NAME_RULE);
}

static bool read_date(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_date date;
    const char *end;
    char shown[TC_SHOWN_SIZE];
    enum tc_status status = tc_date_read(text, &end, &date);
    if (status == TC_RANGE)
        return tc_problem(reading->problem, "'%s' is not a day of the years %d to %d",
                          tc_quantity_shown(shown, text), TC_YEAR_FIRST, TC_YEAR_LAST);
    if (status != TC_OK || *end != '\0')
        return tc_problem(reading->problem, "'%s' is not a date; write year, month and day like '%s'",
                          tc_quantity_shown(shown, text), key->example);
    memcpy(place(key, record), &date, sizeof date);
    return true;
}

static bool read_currency(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading)
{
    struct tc_currency currency = {"", 0};
    if (!tc_quantity_currency(text, &currency, reading->problem))
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
    case TC_KEY_COUNT:
    case TC_KEY_MONEY:
    case TC_KEY_RATE:
    case TC_KEY_PRICES:
    case TC_KEY_MONTHS: return tc_key_quantity_read(key, text, record, reading);
    case TC_KEY_FLAG: return read_flag(key, text, record, reading);
    case TC_KEY_TEXT: return read_text(key, text, record, reading);
    case TC_KEY_NAME: return read_name(key, text, record, reading);
    case TC_KEY_CHOICE: return read_choice(key, text, record, reading);
    case TC_KEY_DATE: return read_date(key, text, record, reading);
    case TC_KEY_CURRENCY: return read_currency(key, text, record, reading);
    case TC_KEY_OWN: return key->read(key, text, record, reading);
    }
    return tc_problem(reading->problem, "the key cannot be read");
}

struct tc_spread tc_key_spread(const struct tc_key *key, const void *record, const struct tc_reading *reading)
{
    double value = 0;
    if (reading->range_count > 0)
        return reading->range[0].spread;
    if (key->form == TC_KEY_QUANTITY || key->form == TC_KEY_MONEY || key->form == TC_KEY_RATE ||
        key->form == TC_KEY_MONTHS)
        memcpy(&value, const_place(key, record), sizeof value);
    return tc_spread_fixed(value);
}

bool tc_key_read(const struct tc_key *key, const char *text, void *record, struct tc_spread *spread,
                 char problem[TC_PROBLEM_SIZE])
{
    struct tc_reading reading = {.currency = {"", 0}};
    if (!tc_key_read_with(key, text, record, &reading)) {
        memcpy(problem, reading.problem, sizeof reading.problem);
        return false;
    }
    if (spread)
        *spread = tc_key_spread(key, record, &reading);
    return true;
}

/* ---------------------------------------------------------------------- writing */

void tc_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                  char text[TC_VALUE_SIZE])
{
    const void *field = (const char *)record + key->offset;
    int number;
    bool flag;
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_COUNT:
    case TC_KEY_MONEY:
    case TC_KEY_RATE:
    case TC_KEY_PRICES:
    case TC_KEY_MONTHS: tc_key_quantity_write(key, record, system, text); break;
    case TC_KEY_FLAG:
        memcpy(&flag, field, sizeof flag);
        word_of(key->words ? key->words : "no yes", flag, text);
        break;
    case TC_KEY_CHOICE:
        memcpy(&number, field, sizeof number);
        word_of(key->words, number, text);
        break;
    case TC_KEY_NAME:
        if (*(const char *)field == '\0' && key->words)
            word_of(key->words, 0, text);
        else
            snprintf(text, TC_VALUE_SIZE, "%s", (const char *)field);
        break;
    case TC_KEY_TEXT: snprintf(text, TC_VALUE_SIZE, "%s", (const char *)field); break;
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
