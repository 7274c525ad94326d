/* SPDX-License-Identifier: MIT */
/* Things found by their texts: what is in an index, and only that, however full it is. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <string.h>

#include "core/base/index.h"
#include "support/failing_malloc.h"

enum { THINGS = 3000 };

static void name(char text[32], size_t i)
{
    snprintf(text, 32, "thing-%zu", i);
}

/* The place of the thing of that name, or SIZE_MAX. */
static size_t find(const struct tc_index *index, const char *wanted)
{
    char text[32];
    const struct tc_index_entry *entry = NULL;
    while ((entry = tc_index_next(index, tc_index_hash(TC_INDEX_HASH, wanted), entry))) {
        name(text, entry->place);
        if (strcmp(text, wanted) == 0)
            return entry->place;
    }
    return SIZE_MAX;
}

/* Values of FNV-1a, 32 bits, as in the tables of IETF draft-eastlake-fnv (those that hash the end as well).
 */
static void hashes_are_fnv(void **state)
{
    (void)state;
    assert_int_equal(tc_index_hash(TC_INDEX_HASH, ""), 0x050c5d1f);
    assert_int_equal(tc_index_hash(TC_INDEX_HASH, "a"), 0x2b24d044);
    assert_int_equal(tc_index_hash(TC_INDEX_HASH, "foobar"), 0x0c1c9eb8);
    /* Where one text ends and the next begins counts. */
    assert_int_not_equal(tc_index_hash(tc_index_hash(TC_INDEX_HASH, "ab"), "c"),
                         tc_index_hash(tc_index_hash(TC_INDEX_HASH, "a"), "bc"));
}

static void all_are_found_and_nothing_else(void **state)
{
    (void)state;
    struct tc_index index = {NULL, 0, 0};
    char text[32];
    assert_int_equal(find(&index, "thing-0"), SIZE_MAX);
    for (size_t i = 0; i < THINGS; i++) {
        name(text, i);
        assert_int_equal(find(&index, text), SIZE_MAX);
        assert_true(tc_index_add(&index, tc_index_hash(TC_INDEX_HASH, text), i));
        assert_int_equal(find(&index, text), i);
    }
    for (size_t i = 0; i < THINGS; i++) {
        name(text, i);
        assert_int_equal(find(&index, text), i);
    }
    assert_true(index.count == THINGS && index.size >= 2 * THINGS);
    tc_index_free(&index);
    assert_int_equal(find(&index, "thing-0"), SIZE_MAX);
}

/* Texts that differ may have one hash: all entries of a hash are gone through, each once. */
static void equal_hashes_are_told_apart(void **state)
{
    (void)state;
    struct tc_index index = {NULL, 0, 0};
    bool seen[40] = {false};
    for (size_t i = 0; i < 40; i++)
        assert_true(tc_index_add(&index, i % 2 == 0 ? 7 : UINT32_MAX, i));
    size_t count = 0;
    for (const struct tc_index_entry *entry = NULL; (entry = tc_index_next(&index, UINT32_MAX, entry));
         count++) {
        assert_true(entry->place % 2 == 1 && !seen[entry->place]);
        seen[entry->place] = true;
    }
    assert_int_equal(count, 20);
    assert_null(tc_index_next(&index, 8, NULL));
    tc_index_free(&index);
}

static void what_cannot_be_added_changes_nothing(void **state)
{
    (void)state;
    struct tc_index index = {NULL, 0, 0};
    failing_malloc_start(0, true);
    bool added = tc_index_add(&index, 1, 1);
    failing_malloc_stop();
    assert_false(added);
    assert_false(tc_index_add(&index, 1, UINT32_MAX));
    assert_null(tc_index_next(&index, 1, NULL));
    size_t count = 0;
    failing_malloc_start(1, true); /* it can grow once */
    while (tc_index_add(&index, 1, count))
        count++;
    failing_malloc_stop();
    size_t left = 0;
    for (const struct tc_index_entry *entry = NULL; (entry = tc_index_next(&index, 1, entry));)
        left++;
    assert_true(count > 0 && left == count && index.count == count);
    tc_index_free(&index);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hashes_are_fnv),
        cmocka_unit_test(all_are_found_and_nothing_else),
        cmocka_unit_test(equal_hashes_are_told_apart),
        cmocka_unit_test(what_cannot_be_added_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
