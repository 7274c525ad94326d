/* SPDX-License-Identifier: MIT */
/*
 * index.h - things in an array, found by a text of theirs instead of one after the other.
 *
 * The index keeps the places of the things and the hashes of their texts; the
 * texts stay where they are, and whoever asks compares them:
 *
 *     uint32_t hash = tc_index_hash(TC_INDEX_HASH, name);
 *     struct tc_index_entry *entry = NULL;
 *     while ((entry = tc_index_next(&index, hash, entry)) && strcmp(things[entry->place].name, name) != 0)
 *         ;
 *     if (!entry && !tc_index_add(&index, hash, place))
 *         ...out of memory...
 */
#ifndef TC_CORE_BASE_INDEX_H
#define TC_CORE_BASE_INDEX_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A thing: another one can be put in its place if its text is the same. */
struct tc_index_entry {
    uint32_t hash;
    uint32_t place; /* in the caller's array, below UINT32_MAX */
};

/* Zeroed, it is an empty one. */
struct tc_index {
    struct tc_index_entry *entries; /* owned; a power of two of them, at most half of them in use */
    size_t size, count;
};

/* The hash of nothing, with which each begins. */
#define TC_INDEX_HASH UINT32_C(0x811c9dc5)

/*
 * The hash so far, and a text with its end: of the same texts in the same
 * order it is the same. FNV-1a (IETF draft-eastlake-fnv), of 32 bits.
 */
uint32_t tc_index_hash(uint32_t hash, const char *text);

/* The first entry of that hash, or the next after `before`; NULL where there is none. Good until one is
 * added. */
struct tc_index_entry *tc_index_next(const struct tc_index *index, uint32_t hash,
                                     const struct tc_index_entry *before);

/* False where memory ran out or the place is too large: nothing is changed then. */
bool tc_index_add(struct tc_index *index, uint32_t hash, size_t place);

/* Empties it. */
void tc_index_free(struct tc_index *index);

#endif
