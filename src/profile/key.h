/* SPDX-License-Identifier: MIT */
/*
 * key.h - the keys of profiles as tables: name, form, unit, bounds, default.
 *
 * One table for each kind of record is the one source for the reader, for
 * figures typed over on the command line and on the screen, for the ranges
 * that `doubts` and `whatif` vary, and for the manual page, whose list is
 * tested against it.
 */
#ifndef TC_PROFILE_KEY_H
#define TC_PROFILE_KEY_H

#include <stdbool.h>
#include <stddef.h>

#include "core/currency.h"
#include "core/spread.h"
#include "core/unit.h"
#include "profile/plan.h"

enum tc_key_form {
    TC_KEY_QUANTITY, /* double: "30 in", or a range "45 to 50 in likely 47 in" */
    TC_KEY_COUNT,    /* int */
    TC_KEY_FLAG,     /* bool: yes or no */
    TC_KEY_TEXT,     /* char[TC_TITLE_SIZE] */
    TC_KEY_NAME,     /* char[TC_NAME_SIZE]: the name of another record */
    TC_KEY_CHOICE,   /* an enum (int): one of `words`, counted from 0 */
    TC_KEY_MONEY,    /* double: an amount in the region's currency, or a range of it */
    TC_KEY_RATE,     /* double: money for a unit, "0.16 / kWh", or a range of it */
    TC_KEY_PRICES,   /* struct tc_price_list: "89 USD, 79 EUR", each perhaps a range */
    TC_KEY_MONTHS,   /* double[12]: twelve figures and one unit, or one for all months */
    TC_KEY_DATE,     /* struct tc_date */
    TC_KEY_CURRENCY, /* struct tc_currency */
    TC_KEY_OWN       /* read by `read` */
};

struct tc_key {
    const char *name;
    enum tc_key_form form;
    enum tc_dimension dimension;
    size_t offset;          /* in the record */
    double least, greatest; /* bounds in base units, inclusive */
    const char *fallback;   /* text read where the key is missing; NULL: the key is required */
    const char *words;      /* TC_KEY_CHOICE: "sponge hang-on canister" */
    const char *help;       /* one line, lower case */
    bool (*read)(const struct tc_key *key, const char *text, void *record, char problem[TC_PROBLEM_SIZE]);
};

struct tc_key_table {
    const char *kind; /* section kind: "tank" */
    const struct tc_key *keys;
    size_t count;
    size_t record_size;
};

/* The table of a section kind ("tank", "lid", "kit", "region" ...), or NULL. */
const struct tc_key_table *tc_key_table_find(const char *kind);
/* The i-th table, or NULL past the last. */
const struct tc_key_table *tc_key_table_at(size_t i);
const struct tc_key *tc_key_find(const struct tc_key_table *table, const char *name);

/*
 * Reads text into the record. For a range the record gets its middle (the
 * likely value, or else half way) and *spread the range; otherwise a fixed
 * spread. spread may be NULL. On failure the record is unchanged, false is
 * returned and problem says what is wrong, and what would be right.
 */
bool tc_key_read(const struct tc_key *key, const char *text, void *record, struct tc_spread *spread,
                 char problem[TC_PROBLEM_SIZE]);

/* Writes what the record holds as tc_key_read takes it. */
void tc_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                  char text[TC_VALUE_SIZE]);

#endif
