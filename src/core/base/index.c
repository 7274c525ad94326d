/* SPDX-License-Identifier: MIT */
#include "core/base/index.h"

#include <stdlib.h>
#include <string.h>

/* The size of an index that was empty. */
enum { FIRST_SIZE = 64 };

/* The place of an entry that is not in use. */
#define UNUSED UINT32_MAX

uint32_t tc_index_hash(uint32_t hash, const char *text)
{
    const unsigned char *p = (const unsigned char *)text;
    do
        hash = (hash ^ *p) * UINT32_C(0x01000193);
    while (*p++ != '\0');
    return hash;
}

/* Where the search for a hash begins: its high bits have seen more of the text. */
static size_t start(const struct tc_index *index, uint32_t hash)
{
    return (hash ^ hash >> 15) & (index->size - 1);
}

struct tc_index_entry *tc_index_next(const struct tc_index *index, uint32_t hash,
                                     const struct tc_index_entry *before)
{
    if (index->size == 0)
        return NULL;
    size_t at = before ? (size_t)(before - index->entries) + 1 : start(index, hash);
    for (;; at++) {
        struct tc_index_entry *entry = &index->entries[at & (index->size - 1)];
        if (entry->place == UNUSED)
            return NULL;
        if (entry->hash == hash)
            return entry;
    }
}

static void put(struct tc_index *index, struct tc_index_entry entry)
{
    size_t at = start(index, entry.hash);
    while (index->entries[at].place != UNUSED)
        at = (at + 1) & (index->size - 1);
    index->entries[at] = entry;
}

/* Makes room for twice as many. */
static bool grow(struct tc_index *index)
{
    struct tc_index grown = {.size = index->size == 0 ? FIRST_SIZE : 2 * index->size, .count = index->count};
    if (grown.size > SIZE_MAX / 2 / sizeof *grown.entries)
        return false;
    grown.entries = malloc(grown.size * sizeof *grown.entries);
    if (!grown.entries)
        return false;
    memset(grown.entries, 0xFF, grown.size * sizeof *grown.entries);
    for (size_t i = 0; i < index->size; i++)
        if (index->entries[i].place != UNUSED)
            put(&grown, index->entries[i]);
    free(index->entries);
    *index = grown;
    return true;
}

bool tc_index_add(struct tc_index *index, uint32_t hash, size_t place)
{
    if (place >= UNUSED || (2 * index->count >= index->size && !grow(index)))
        return false;
    put(index, (struct tc_index_entry){hash, (uint32_t)place});
    index->count++;
    return true;
}

void tc_index_free(struct tc_index *index)
{
    free(index->entries);
    *index = (struct tc_index){NULL, 0, 0};
}
