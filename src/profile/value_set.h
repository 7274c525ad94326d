/* SPDX-License-Identifier: MIT */
/*
 * value_set.h - the different values of many keys, each once, and which of them each key has.
 *
 * Thousands of tanks are so many inches wide and stand in so many price lists
 * with so many prices: what a value means has to be found out once only.
 */
#ifndef TC_PROFILE_VALUE_SET_H
#define TC_PROFILE_VALUE_SET_H

#include "core/base/index.h"
#include "profile/ini_file.h"

/* The first key that has a value, and the file it is in. */
struct tc_value {
    struct tc_ini *ini;
    struct tc_ini_key *key;
};

/* Zeroed, it is an empty one. */
struct tc_value_set {
    struct tc_value *values; /* owned: each different one */
    size_t count, capacity;
    uint32_t *of; /* owned: of each key the place of its value among them, in the order of adding */
    size_t key_count, key_capacity;
    struct tc_index index;
};

/* Adds a key, which stays where it is with its value as it is until all are added; false where memory ran
 * out. */
bool tc_value_set_add(struct tc_value_set *set, struct tc_ini *ini, struct tc_ini_key *key);

/* The first key with the value of the n-th that was added; NULL past the last, and where that was made NULL.
 */
const struct tc_ini_key *tc_value_set_first(const struct tc_value_set *set, size_t n);

void tc_value_set_free(struct tc_value_set *set);

#endif
