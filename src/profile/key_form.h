/* SPDX-License-Identifier: MIT */
/*
 * key_form.h - what a key of a profile is: its name, form, unit, bounds and
 * default, and what a reading of it says. What is done with keys is in key.h.
 */
#ifndef TC_PROFILE_KEY_FORM_H
#define TC_PROFILE_KEY_FORM_H

#include <stdbool.h>
#include <stddef.h>

#include "core/money/currency.h"
#include "core/goods/goods.h"
#include "core/base/name.h"
#include "core/base/spread.h"
#include "core/base/unit.h"
#include "profile/quantity.h"

/* Room for any value as text, with its end: as much as a line of a profile holds. */
#define TC_VALUE_SIZE 1000

enum tc_key_form {
    TC_KEY_QUANTITY, /* double: "30 in", or a range "45 to 50 in likely 47 in" */
    TC_KEY_COUNT,    /* int: a whole number */
    TC_KEY_FLAG,     /* bool: "no" or "yes", or the two `words` */
    TC_KEY_TEXT,     /* char[TC_TITLE_SIZE] */
    TC_KEY_NAME, /* char[TC_NAME_SIZE]: the name of another record; the first of `words`, if given, stands for
                    "" */
    TC_KEY_CHOICE, /* an enum or int: one of `words`, counted from 0 */
    TC_KEY_MONEY,  /* double: an amount in the region's currency, or a range of it */
    TC_KEY_RATE,   /* double: money for a kWh or m3, "0.16 / kWh", or a range of it */
    TC_KEY_PRICES, /* struct tc_price_list: "89 USD, 79 EUR", each perhaps a range */
    TC_KEY_MONTHS, /* double[12]: twelve figures and one unit, or one for all months, each perhaps a range */
    TC_KEY_DATE,   /* struct tc_date: "2026-03-01" */
    TC_KEY_CURRENCY, /* struct tc_currency: "USD" */
    TC_KEY_OWN       /* read by `read`, written by `write` */
};

/* A range found in a value: which double of the record it stands for. */
struct tc_key_range {
    size_t offset;               /* of the double; where span is more, of the first */
    int month;                   /* of twelve figures, from 1 on, where it is of that month alone; else 0 */
    int span;                    /* that many doubles are alike and move together: 1, or TC_MONTHS */
    struct tc_currency currency; /* of a price in a list; code "" else */
    struct tc_spread spread;     /* in the unit of the double */
};

/* As many as there are months; prices are fewer. */
enum { TC_READING_RANGES_MAX = 12 };

/* What a reading needs to know and what it says beside the figure. */
struct tc_reading {
    /* In: of bare amounts; code "" where it is not known, in which case no currency may be written. */
    struct tc_currency currency;
    /* Out. */
    struct tc_key_range range[TC_READING_RANGES_MAX];
    int range_count;
    char problem[TC_PROBLEM_SIZE];
};

/*
 * How much a template (see template.h) misses a key that is not there. What it
 * needs may be missing in a template even where the key is required.
 */
enum tc_key_ask {
    TC_ASK_NOTHING, /* the default will do */
    TC_ASK_WORTH,   /* the default works, but the user's own figure is worth having */
    TC_ASK_NEEDED   /* no use before the user has said it */
};

/* A word that stands for a figure: "none" for 0. */
struct tc_key_word {
    const char *name; /* NULL ends the list */
    double value;     /* may be NAN */
};

struct tc_key {
    const char *name;
    enum tc_key_form form;
    enum tc_dimension dimension;
    size_t offset;          /* in the record */
    double least, greatest; /* bounds in base units, inclusive */
    const char *fallback; /* text read where the key is missing; "": nothing is; NULL: the key is required */
    const char *example;  /* as one would write it */
    const char *help;     /* one line, lower case */
    const char *words;    /* see the forms */
    const char *of;       /* NAME: the kind of what it names, "tariff"; NULL: not one kind alone */
    const struct tc_key_word *word; /* words that stand for figures, or NULL */
    double step;                    /* QUANTITY: only whole multiples, no range; 0: any */
    bool fine;                      /* MONEY: an amount for each unit, of any decimals */
    bool fixed;                     /* no range may stand here */
    enum tc_key_ask ask;            /* in a template */
    const char *danger;  /* what a figure of it can hurt by, where its unit and section do not say: */
                         /* "circuit", "rack", "evaporation" (sheet/caution.h), or NULL */
    const char *instead; /* a key that can stand in its place, never beside it, or NULL */
    bool (*read)(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading);
    void (*write)(const struct tc_key *key, const void *record, enum tc_unit_system system,
                  char text[TC_VALUE_SIZE]);
};

enum { TC_ENTRY_KEYS_MAX = 96, TC_ENTRY_RANGES_MAX = 64 };

struct tc_key_table;

/* A record that was read key by key, for the checks that look at several of them. */
struct tc_entry {
    const struct tc_key_table *table;
    void *record;
    bool given[TC_ENTRY_KEYS_MAX]; /* by place in the table: whether the key was there */
    bool typed;                    /* the record was good before and was typed over: given is unknown */
    struct {
        size_t key; /* place in the table */
        struct tc_key_range range;
    } range[TC_ENTRY_RANGES_MAX];
    int range_count;
    const char *blame; /* out: the key a problem is about; NULL: the whole */
    char problem[TC_PROBLEM_SIZE];
};

/* A key that was, or could be thought to be: what to write now. */
struct tc_key_former {
    const char *name; /* NULL ends the list */
    const char *now;  /* behind "unknown key 'NAME': " */
};

struct tc_key_table {
    const char *kind; /* section kind: "tank" */
    const char *help; /* one line: what such a section is */
    const struct tc_key *keys;
    size_t count;
    size_t record_size;
    void (*start)(void *record);           /* sets what no fallback sets, in a zeroed record; or NULL */
    bool (*check)(struct tc_entry *entry); /* what keys cannot say alone; fills in what follows; or NULL */
    /* Whether the record is a template, told by a key before those that it needs; or NULL. */
    bool (*is_template)(const void *record);
    const struct tc_key_former *former; /* or NULL */
};

#endif
