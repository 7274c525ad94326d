/* SPDX-License-Identifier: MIT */
/*
 * The lists of keys in tankcost-profiles(5) are what the program's own tables
 * say: every key with its form, bounds, default, help and example.
 * See support/manual_page.h for how they are written anew.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <ctype.h>
#include <string.h>

#include "profile/kind.h"
#include "support/key_list.h"
#include "support/manual_page.h"

#define PAGE "man/tankcost-profiles.5"

enum { KEYS_MOST = TC_ENTRY_KEYS_MAX };

/* Tables of what is bought; the keys they share are listed once, under this name. */
#define GOODS "goods"
static const char *const goods[] = {"tank",   "stand",    "lid",    "light",
                                    "filter", "air-pump", "heater", "substrate"};
enum { GOODS_COUNT = sizeof goods / sizeof goods[0] };

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
    manual_add_sentence(tc_text_string(&help), page);
    tc_text_free(&help);
}

static void add_form(const struct tc_key *key, struct tc_text *page)
{
    struct tc_text form = TC_TEXT_EMPTY, bounds = TC_TEXT_EMPTY;
    bool of_words = key->form == TC_KEY_FLAG || key->form == TC_KEY_CHOICE;
    tc_text_add(&form, of_words ? "one of the words " : "");
    key_list_form(key, &form);
    key_list_bounds(key, &bounds);
    if (bounds.length > 0)
        tc_text_addf(&form, ", from %s", tc_text_string(&bounds));
    if (key->form != TC_KEY_OWN)
        manual_add_sentence(tc_text_string(&form), page);
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
    manual_add_sentence(tc_text_string(&text), page);
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
    manual_add_sentence(tc_text_string(&text), page);
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

static void every_key_stands_in_the_page(void **state)
{
    (void)state;
    struct manual_page page;
    struct tc_text list = TC_TEXT_EMPTY;
    manual_page_start(&page, PAGE);
    for (size_t i = 0; i == 0 || tc_key_table_at(i - 1); i++) {
        const char *kind = i == 0 ? GOODS : tc_key_table_at(i - 1)->kind;
        tc_text_clear(&list);
        add_list(kind, &list);
        manual_page_list(&page, kind, tc_text_string(&list));
    }
    tc_text_free(&list);
    manual_page_end(&page);
}

/* What a reader looks for is there by its words, whatever the lists are made of. */
static void names_defaults_and_examples_can_be_found(void **state)
{
    (void)state;
    struct manual_page page;
    manual_page_start(&page, PAGE);
    const char *text = tc_text_string(&page.text);
    for (size_t i = 0; tc_key_table_at(i); i++) {
        const struct tc_key_table *table = tc_key_table_at(i);
        for (size_t k = 0; k < table->count; k++) {
            const struct tc_key *key = &table->keys[k];
            if (!strstr(text, key->name) || !strstr(text, key->example) ||
                (key->fallback && !strstr(text, key->fallback)))
                fail_msg("%s: [%s] %s, its default or its example is missing", PAGE, table->kind, key->name);
        }
    }
    manual_page_end(&page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_stands_in_the_page),
        cmocka_unit_test(names_defaults_and_examples_can_be_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
