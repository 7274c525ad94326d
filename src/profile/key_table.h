/* SPDX-License-Identifier: MIT */
/*
 * key_table.h - the short forms in which the lines of the tables of keys are
 * written. For the files *_keys.c, each of which holds a table or a few.
 */
#ifndef TC_PROFILE_KEY_TABLE_H
#define TC_PROFILE_KEY_TABLE_H

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "core/goods/goods.h"
#include "profile/key.h"

/* The words "none" for 0 and for "not given". */
extern const struct tc_key_word tc_none_is_zero[];

/* Tables are made of the lines below; further fields of struct tc_key can follow the help. */
#define TC_COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

#define TC_QUANTITY_KEY(key, dim, record, member, lo, hi, missing, sample, ...)                              \
    {                                                                                                        \
        .name = key, .form = TC_KEY_QUANTITY, .dimension = TC_DIM_##dim, .offset = offsetof(record, member), \
        .least = lo, .greatest = hi, .fallback = missing, .example = sample, .help = __VA_ARGS__             \
    }

#define TC_MONTHS_KEY(key, dim, record, member, lo, hi, missing, sample, ...)                                \
    {                                                                                                        \
        .name = key, .form = TC_KEY_MONTHS, .dimension = TC_DIM_##dim, .offset = offsetof(record, member),   \
        .least = lo, .greatest = hi, .fallback = missing, .example = sample, .help = __VA_ARGS__             \
    }

#define TC_RATE_KEY(key, dim, record, member, hi, missing, sample, ...)                                      \
    {                                                                                                        \
        .name = key, .form = TC_KEY_RATE, .dimension = TC_DIM_##dim, .offset = offsetof(record, member),     \
        .least = 0, .greatest = hi, .fallback = missing, .example = sample, .help = __VA_ARGS__              \
    }

#define TC_MONEY_KEY(key, record, member, hi, missing, sample, ...)                                          \
    {                                                                                                        \
        .name = key, .form = TC_KEY_MONEY, .dimension = TC_DIM_PLAIN, .offset = offsetof(record, member),    \
        .least = 0, .greatest = hi, .fallback = missing, .example = sample, .help = __VA_ARGS__              \
    }

#define TC_PRICES_KEY(key, record, member, missing, sample, ...)                                             \
    {                                                                                                        \
        .name = key, .form = TC_KEY_PRICES, .dimension = TC_DIM_PLAIN, .offset = offsetof(record, member),   \
        .least = 0, .greatest = 1e8, .fallback = missing, .example = sample, .help = __VA_ARGS__             \
    }

#define TC_COUNT_KEY(key, record, member, lo, hi, missing, sample, ...)                                      \
    {                                                                                                        \
        .name = key, .form = TC_KEY_COUNT, .dimension = TC_DIM_PLAIN, .offset = offsetof(record, member),    \
        .least = lo, .greatest = hi, .fallback = missing, .example = sample, .help = __VA_ARGS__             \
    }

#define TC_FLAG_KEY(key, record, member, missing, sample, ...)                                               \
    {                                                                                                        \
        .name = key, .form = TC_KEY_FLAG, .offset = offsetof(record, member), .fallback = missing,           \
        .example = sample, .help = __VA_ARGS__                                                               \
    }

#define TC_NAME_KEY(key, record, member, missing, sample, ...)                                               \
    {                                                                                                        \
        .name = key, .form = TC_KEY_NAME, .offset = offsetof(record, member), .fallback = missing,           \
        .example = sample, .help = __VA_ARGS__                                                               \
    }

#define TC_CHOICE_KEY(key, record, member, missing, sample, ...)                                             \
    {                                                                                                        \
        .name = key, .form = TC_KEY_CHOICE, .offset = offsetof(record, member), .fallback = missing,         \
        .example = sample, .help = __VA_ARGS__                                                               \
    }

#define TC_TITLE_KEY(record, member, sample)                                                                 \
    {                                                                                                        \
        .name = "title", .form = TC_KEY_TEXT, .offset = offsetof(record, member), .fallback = "",            \
        .example = sample, .help = "what it is called on sheets; its name where not given"                   \
    }

#define TC_INVENTED_KEY(record, member)                                                                      \
    TC_FLAG_KEY("invented", record, member, "no", "yes",                                                     \
                "figures made up for a demonstration; sheets that rest on them say so")

/* The line before the goods of a tank or part: its title; and those after its own keys. */
#define TC_GOODS_KEYS(record, member, life_missing, resale_missing)                                          \
    TC_PRICES_KEY("price", record, member.price, "", "89 USD, 79 EUR",                                       \
                  "price of one, in one or more currencies, at every shop that lists none of its own"),      \
        TC_PRICES_KEY("upkeep", record, member.upkeep, "", "6 USD, 5.50 EUR",                                \
                      "supplies for one, a year: cartridges, air stones, bulbs"),                            \
        TC_QUANTITY_KEY("life", YEARS, record, member.life, 1.0 / 12, 100, life_missing, "5 years",          \
                        "how long it serves"),                                                               \
        TC_QUANTITY_KEY("resale", SHARE, record, member.resale, 0, 1, resale_missing, "40 %",                \
                        "share of its price that one as good as new fetches second-hand"),                   \
        TC_INVENTED_KEY(record, member.invented)

/* Celsius to kelvin, for bounds. */
#define TC_CELSIUS(t) (273.15 + (t))

#endif
