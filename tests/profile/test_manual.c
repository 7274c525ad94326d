/* SPDX-License-Identifier: MIT */
/*
 * The lists of keys in tankcost-profiles(5) are what the program's own tables
 * say: every key with its form, bounds, default, help and example.
 *
 * A list stands in the page between the comments `keys KIND` and `end of
 * keys`. With UPDATE_GOLDEN=1 in the environment it is written there instead.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/key.h"
#include "support/key_list.h"

#define PAGE "man/tankcost-profiles.5"
#define END  ".\\\" end of keys\n"

enum { LINE_MOST = 78, KEYS_MOST = TC_ENTRY_KEYS_MAX };

/* Tables of what is bought; the keys they share are listed once, under this name. */
#define GOODS "goods"
static const char *const goods[] = {"tank",   "stand",    "lid",    "light",
                                    "filter", "air-pump", "heater", "substrate"};
enum { GOODS_COUNT = sizeof goods / sizeof goods[0] };

/* Adds a sentence as lines of mdoc: a capital letter, a full stop, no line too long. */
static void add_sentence(const char *sentence, struct tc_text *page)
{
    size_t column = 0;
    for (const char *word = sentence; *word != '\0';) {
        size_t length = strcspn(word, " ");
        if (column > 0 && column + 1 + length >= LINE_MOST) {
            tc_text_add_char(page, '\n');
            column = 0;
        } else if (column > 0) {
            tc_text_add_char(page, ' ');
            column++;
        }
        if (column == 0 && (*word == '.' || *word == '\''))
            tc_text_add(page, "\\&");
        tc_text_add_char(page, word == sentence ? (char)toupper((unsigned char)*word) : *word);
        tc_text_add_bytes(page, word + 1, length - 1);
        column += length;
        word += length + (word[length] == ' ');
    }
    tc_text_add(page, ".\n");
}

/* Keys of seasons differ in their number alone. */
static bool is_seasonal(const struct tc_key *key)
{
    size_t length = strlen(key->name);
    return length > 2 && key->name[length - 2] == '-' && isdigit((unsigned char)key->name[length - 1]);
}

static void add_help(const struct tc_key *key, struct tc_text *page)
{
    const char *season = strstr(key->help, "season ");
    struct tc_text help = TC_TEXT_EMPTY;
    if (is_seasonal(key) && season)
        tc_text_addf(&help, "%.*sthe season of that number%s", (int)(season - key->help), key->help,
                     season + strlen("season 1"));
    else
        tc_text_add(&help, key->help);
    add_sentence(tc_text_string(&help), page);
    tc_text_free(&help);
}

static void add_form(const struct tc_key *key, struct tc_text *page)
{
    struct tc_text form = TC_TEXT_EMPTY, bounds = TC_TEXT_EMPTY;
    key_list_form(key, &form);
    key_list_bounds(key, &bounds);
    if (bounds.length > 0)
        tc_text_addf(&form, ", from %s", tc_text_string(&bounds));
    if (key->form != TC_KEY_OWN)
        add_sentence(tc_text_string(&form), page);
    tc_text_free(&form);
    tc_text_free(&bounds);
}

/* "Default: 15 years (tank), 20 years (stand)" of a key that tables share. */
static void add_shared_default(const char *name, struct tc_text *page)
{
    struct tc_text text = TC_TEXT_EMPTY;
    tc_text_add(&text, "Default: ");
    for (size_t i = 0; i < GOODS_COUNT; i++) {
        const struct tc_key *key = tc_key_find(tc_key_table_find(goods[i]), name);
        tc_text_addf(&text, "%s%s (%s)", i > 0 ? ", " : "", key->fallback, goods[i]);
    }
    add_sentence(tc_text_string(&text), page);
    tc_text_free(&text);
}

static void add_default(const struct tc_key *key, struct tc_text *page)
{
    struct tc_text text = TC_TEXT_EMPTY;
    if (!key->fallback)
        tc_text_add(&text, "required");
    else if (key->fallback[0] == '\0')
        tc_text_add(&text, "may be left out");
    else
        tc_text_addf(&text, "default: %s", key->fallback);
    add_sentence(tc_text_string(&text), page);
    tc_text_free(&text);
}

/* What is said of a key, but for its name and default: keys of which the same is said share an entry. */
static void add_said(const struct tc_key *key, struct tc_text *page)
{
    add_help(key, page);
    add_form(key, page);
}

static bool same_said(const struct tc_key *a, const struct tc_key *b)
{
    struct tc_text of_a = TC_TEXT_EMPTY, of_b = TC_TEXT_EMPTY;
    add_said(a, &of_a);
    add_said(b, &of_b);
    bool same =
        strcmp(tc_text_string(&of_a), tc_text_string(&of_b)) == 0 && strcmp(a->example, b->example) == 0;
    tc_text_free(&of_a);
    tc_text_free(&of_b);
    return same;
}

static bool same_default(const struct tc_key *a, const struct tc_key *b)
{
    return a->fallback == b->fallback ||
           (a->fallback && b->fallback && strcmp(a->fallback, b->fallback) == 0);
}

/* Whether all tables of goods have this key and say the same of it, defaults apart. */
static bool is_shared(const struct tc_key *key)
{
    for (size_t i = 0; i < GOODS_COUNT; i++) {
        const struct tc_key *other = tc_key_find(tc_key_table_find(goods[i]), key->name);
        if (!other || !same_said(key, other))
            return false;
    }
    return true;
}

static bool is_goods(const char *kind)
{
    for (size_t i = 0; i < GOODS_COUNT; i++)
        if (strcmp(goods[i], kind) == 0)
            return true;
    return false;
}

static bool defaults_alike(const char *name)
{
    const struct tc_key *first = tc_key_find(tc_key_table_find(goods[0]), name);
    for (size_t i = 1; i < GOODS_COUNT; i++)
        if (!same_default(first, tc_key_find(tc_key_table_find(goods[i]), name)))
            return false;
    return true;
}

/* Adds the entry of key i of a table with all later ones of which the same is said. */
static void add_entry(const struct tc_key_table *table, size_t i, bool done[KEYS_MOST], bool shared,
                      struct tc_text *page)
{
    const struct tc_key *key = &table->keys[i];
    tc_text_addf(page, ".It Cm %s", key->name);
    for (size_t k = i + 1; k < table->count; k++)
        if (same_said(key, &table->keys[k]) && same_default(key, &table->keys[k])) {
            done[k] = true;
            tc_text_addf(page, " , %s", table->keys[k].name);
        }
    tc_text_addf(page, " Li = %s\n", key->example);
    add_said(key, page);
    if (shared && !defaults_alike(key->name))
        add_shared_default(key->name, page);
    else
        add_default(key, page);
}

/* The list of the keys of a table, or of those that the goods share. */
static void add_list(const char *kind, struct tc_text *page)
{
    bool shared = strcmp(kind, GOODS) == 0;
    const struct tc_key_table *table = tc_key_table_find(shared ? goods[0] : kind);
    bool done[KEYS_MOST] = {false};
    assert_non_null(table);
    tc_text_add(page, ".Bl -tag -width Ds\n");
    for (size_t i = 0; i < table->count; i++)
        if (!done[i] && (is_goods(table->kind) && is_shared(&table->keys[i])) == shared)
            add_entry(table, i, done, shared, page);
    tc_text_add(page, ".El\n");
}

static char *read_page(void)
{
    static char bytes[1 << 18];
    FILE *file = fopen(PAGE, "rb");
    assert_non_null(file);
    size_t length = fread(bytes, 1, sizeof bytes - 1, file);
    fclose(file);
    assert_true(length < sizeof bytes - 1);
    bytes[length] = '\0';
    return bytes;
}

/* Copies the page with the list of a kind made anew, and says whether it was as it should be. */
static bool renew(const char *page, const char *kind, struct tc_text *renewed)
{
    char begin[64];
    struct tc_text list = TC_TEXT_EMPTY;
    snprintf(begin, sizeof begin, ".\\\" keys %s\n", kind);
    const char *start = strstr(page, begin);
    if (!start)
        fail_msg("%s: lacks the comment 'keys %s'", PAGE, kind);
    start += strlen(begin);
    const char *end = strstr(start, END);
    if (!end)
        fail_msg("%s: the list after 'keys %s' has no end", PAGE, kind);
    add_list(kind, &list);
    bool same =
        list.length == (size_t)(end - start) && memcmp(start, tc_text_string(&list), list.length) == 0;
    tc_text_add_bytes(renewed, page, (size_t)(start - page));
    tc_text_add(renewed, tc_text_string(&list));
    tc_text_add(renewed, end);
    tc_text_free(&list);
    return same;
}

static bool updating(void)
{
    const char *update = getenv("UPDATE_GOLDEN");
    return update && strcmp(update, "1") == 0;
}

static void write_page(const struct tc_text *page)
{
    FILE *file = fopen(PAGE, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(tc_text_string(page), 1, page->length, file), page->length);
    assert_int_equal(fclose(file), 0);
}

static void every_key_stands_in_the_page(void **state)
{
    (void)state;
    bool same = true;
    struct tc_text page = TC_TEXT_EMPTY;
    tc_text_add(&page, read_page());
    for (size_t i = 0; i == 0 || tc_key_table_at(i - 1); i++) {
        const char *kind = i == 0 ? GOODS : tc_key_table_at(i - 1)->kind;
        struct tc_text renewed = TC_TEXT_EMPTY;
        if (!renew(tc_text_string(&page), kind, &renewed)) {
            same = false;
            print_error("%s: the keys of %s are not as in the program\n", PAGE, kind);
        }
        assert_false(renewed.failed);
        tc_text_free(&page);
        page = renewed;
    }
    if (updating())
        write_page(&page);
    tc_text_free(&page);
    if (!same && !updating())
        fail_msg("UPDATE_GOLDEN=1 build/tests/profile/test_manual puts them into the page");
}

/* What a reader looks for is there by its words, whatever the lists are made of. */
static void names_defaults_and_examples_can_be_found(void **state)
{
    (void)state;
    const char *page = read_page();
    for (size_t i = 0; tc_key_table_at(i); i++) {
        const struct tc_key_table *table = tc_key_table_at(i);
        for (size_t k = 0; k < table->count; k++) {
            const struct tc_key *key = &table->keys[k];
            if (!strstr(page, key->name) || !strstr(page, key->example) ||
                (key->fallback && !strstr(page, key->fallback)))
                fail_msg("%s: [%s] %s, its default or its example is missing", PAGE, table->kind, key->name);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_stands_in_the_page),
        cmocka_unit_test(names_defaults_and_examples_can_be_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
