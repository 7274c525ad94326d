/* SPDX-License-Identifier: MIT */
/*
 * key_list.h - what the manual page says of every key of profiles, made from
 * their tables.
 */
#ifndef TC_TESTS_KEY_LIST_H
#define TC_TESTS_KEY_LIST_H

#include "core/base/text.h"
#include "profile/key.h"

/* Adds what a key's value looks like, its bounds and its default, each as a phrase. */
void key_list_form(const struct tc_key *key, struct tc_text *text);
void key_list_bounds(const struct tc_key *key, struct tc_text *text); /* nothing where it has none */
void key_list_default(const struct tc_key *key, struct tc_text *text);

/* Adds one table as plain text. */
void key_list_plain(const struct tc_key_table *table, struct tc_text *text);

#endif
