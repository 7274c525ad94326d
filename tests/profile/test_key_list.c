/* SPDX-License-Identifier: MIT */
/*
 * What the tables say of themselves is true. With --plain it prints the list
 * instead.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "profile/kind.h"
#include "support/key_list.h"

static void print_all(void)
{
    struct tc_text text = TC_TEXT_EMPTY;
    for (size_t i = 0; tc_key_table_at(i); i++)
        key_list_plain(tc_key_table_at(i), &text);
    fputs(tc_text_string(&text), stdout);
    tc_text_free(&text);
}

static void every_key_is_described(void **state)
{
    (void)state;
    for (size_t i = 0; tc_key_table_at(i); i++) {
        const struct tc_key_table *table = tc_key_table_at(i);
        assert_true(table->count <= TC_ENTRY_KEYS_MAX);
        assert_ptr_equal(tc_key_table_find(table->kind), table);
        for (size_t k = 0; k < table->count; k++) {
            const struct tc_key *key = &table->keys[k];
            assert_true(tc_name_valid(key->name));
            assert_ptr_equal(tc_key_find(table, key->name), key); /* no name twice */
            assert_non_null(key->example);
            assert_non_null(key->help);
            assert_null(strpbrk(key->help, "\n\t\\"));
            assert_int_not_equal(key->help[strlen(key->help) - 1], '.');
        }
    }
    assert_null(tc_key_table_find("shelf"));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_is_described),
    };
    if (argc > 1 && strcmp(argv[1], "--plain") == 0) {
        print_all();
        return 0;
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
