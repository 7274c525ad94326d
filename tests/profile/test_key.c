/* SPDX-License-Identifier: MIT */
/* The tables of keys: every default and example can be read, and what is written reads back. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/goods/setup.h"
#include "core/base/random.h"
#include "core/goods/region.h"
#include "core/goods/sale.h"
#include "core/goods/tank.h"
#include "profile/kind.h"
#include "profile/plan.h"
#include "profile/stock.h"
#include "support/near.h"

static void *new_record(const struct tc_key_table *table)
{
    void *record = calloc(1, table->record_size);
    assert_non_null(record);
    return record;
}

/* Calls check for every key of every table. */
static void each_key(void (*check)(const struct tc_key_table *table, const struct tc_key *key))
{
    int count = 0;
    for (size_t t = 0; tc_key_table_at(t); t++)
        for (size_t k = 0; k < tc_key_table_at(t)->count; k++, count++)
            check(tc_key_table_at(t), &tc_key_table_at(t)->keys[k]);
    assert_true(count > 150);
}

static void read_text(const struct tc_key_table *table, const struct tc_key *key, const char *text)
{
    char problem[TC_PROBLEM_SIZE] = "";
    struct tc_spread spread;
    void *record = new_record(table);
    if (!tc_key_read(key, text, record, &spread, problem))
        fail_msg("[%s] %s = %s: %s", table->kind, key->name, text, problem);
    free(record);
}

static void read_default(const struct tc_key_table *table, const struct tc_key *key)
{
    if (key->fallback && key->fallback[0] != '\0')
        read_text(table, key, key->fallback);
}

static void defaults_can_be_read(void **state)
{
    (void)state;
    each_key(read_default);
}

static void read_example(const struct tc_key_table *table, const struct tc_key *key)
{
    read_text(table, key, key->example);
}

static void examples_can_be_read(void **state)
{
    (void)state;
    each_key(read_example);
}

/* The text, read into one record, written, and read into another: both are alike in every byte. */
static void write_and_read(const struct tc_key_table *table, const struct tc_key *key, const char *text)
{
    static const enum tc_unit_system systems[] = {TC_METRIC, TC_US};
    for (int i = 0; i < 2; i++) {
        char written[TC_VALUE_SIZE], again[TC_VALUE_SIZE], problem[TC_PROBLEM_SIZE] = "";
        void *record = new_record(table), *back = new_record(table);
        assert_true(tc_key_read(key, text, record, NULL, problem));
        tc_key_write(key, record, systems[i], written);
        assert_true(written[0] != '\0');
        if (!tc_key_read(key, written, back, NULL, problem))
            fail_msg("[%s] %s = %s: %s", table->kind, key->name, written, problem);
        if (memcmp(record, back, table->record_size) != 0)
            fail_msg("[%s] %s = %s was written %s", table->kind, key->name, text, written);
        tc_key_write(key, back, systems[i], again);
        assert_string_equal(again, written);
        free(record);
        free(back);
    }
}

static void write_known_texts(const struct tc_key_table *table, const struct tc_key *key)
{
    write_and_read(table, key, key->example);
    if (key->fallback && key->fallback[0] != '\0')
        write_and_read(table, key, key->fallback);
    for (const struct tc_key_word *word = key->word; word && word->name; word++)
        write_and_read(table, key, word->name);
}

static void what_is_written_reads_back(void **state)
{
    (void)state;
    each_key(write_known_texts);
}

/* Bounds are in reach: both of them can be written, and nothing beyond. */
static void try_bounds(const struct tc_key_table *table, const struct tc_key *key)
{
    if (key->form != TC_KEY_QUANTITY && key->form != TC_KEY_COUNT && key->form != TC_KEY_MONEY)
        return;
    const double step = key->form == TC_KEY_COUNT || key->step > 0 ? 1 : (key->greatest - key->least) / 1000;
    const double values[] = {key->least, key->greatest, key->least - step, key->greatest + step};
    for (int i = 0; i < 4; i++) {
        char text[TC_VALUE_SIZE], problem[TC_PROBLEM_SIZE] = "";
        void *record = new_record(table);
        int count = (int)lround(values[i]);
        if (key->form == TC_KEY_COUNT)
            memcpy((char *)record + key->offset, &count, sizeof count);
        else
            memcpy((char *)record + key->offset, &values[i], sizeof values[i]);
        tc_key_write(key, record, TC_METRIC, text);
        bool is_word = false;
        for (const struct tc_key_word *word = key->word; word && word->name; word++)
            is_word = is_word || strcmp(word->name, text) == 0;
        if (!is_word && tc_key_read(key, text, record, NULL, problem) != (i < 2))
            fail_msg("[%s] %s = %s: %s", table->kind, key->name, text, problem);
        free(record);
    }
}

static void bounds_hold(void **state)
{
    (void)state;
    each_key(try_bounds);
}

/* A text that cannot be read leaves the record as it was, and says why. */
static void refuse_nonsense(const struct tc_key_table *table, const struct tc_key *key)
{
    static const char *const texts[] = {"", "!", "1,5", "nan", "-7", "\xff", "1 to", "\\", "\"'"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char problem[TC_PROBLEM_SIZE] = "";
        void *record = new_record(table), *before = new_record(table);
        if (!tc_key_read(key, texts[i], record, NULL, problem)) {
            assert_memory_equal(record, before, table->record_size);
            assert_true(problem[0] != '\0');
        }
        free(record);
        free(before);
    }
}

static void nonsense_changes_nothing(void **state)
{
    (void)state;
    each_key(refuse_nonsense);
}

static const struct tc_key *key_of(const char *kind, const char *name)
{
    const struct tc_key *key = tc_key_find(tc_key_table_find(kind), name);
    assert_non_null(key);
    return key;
}

static void ranges_are_given(void **state)
{
    struct tc_tank tank;
    struct tc_region region;
    struct tc_reading reading = {.currency = {"", 0}};
    struct tc_spread spread;
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    memset(&tank, 0, sizeof tank);
    memset(&region, 0, sizeof region);

    const struct tc_key *price = key_of("tank", "price");
    assert_true(tc_key_read_with(price, "80 to 90 USD, 70 EUR, 60 to 80 likely 65 GBP", &tank, &reading));
    assert_int_equal(reading.range_count, 2);
    assert_string_equal(reading.range[1].currency.code, "GBP");
    assert_int_equal(reading.range[1].span, 1);
    double amount;
    memcpy(&amount, (char *)&tank + reading.range[1].offset, sizeof amount);
    assert_near(amount, 65, 0);
    assert_near(tank.goods.price.price[0].amount, 85, 0);
    assert_near(tank.goods.price.price[1].amount, 70, 0);

    const struct tc_key *room = key_of("region", "room");
    assert_true(tc_key_read_with(room, "19 to 22 C", &region, &reading));
    assert_int_equal(reading.range_count, 1);
    assert_int_equal(reading.range[0].span, TC_MONTHS);
    assert_int_equal(reading.range[0].offset, offsetof(struct tc_region, climate.room));
    for (int m = 0; m < TC_MONTHS; m++)
        assert_near(region.climate.room[m], 293.65, 1e-9);
    assert_true(tc_key_read(room, "19 to 22 C", &region, &spread, problem));
    assert_near(spread.low, 292.15, 1e-9);
    assert_true(tc_key_read(room, "1 2 3 4 5 6 7 8 9 10 11 12 C", &region, &spread, problem));
    assert_int_equal(spread.shape, TC_SPREAD_FIXED);
    assert_near(spread.low, 274.15, 1e-9);

    /* Figures that are no ranges come as fixed spreads, what is no figure as nothing. */
    assert_true(tc_key_read(key_of("tank", "length"), "30 in", &tank, &spread, problem));
    assert_near(spread.low, 0.762, 1e-12);
    assert_true(tc_key_read(key_of("tank", "title"), "A tank", &tank, &spread, problem));
    assert_near(spread.high, 0, 0);

    assert_false(tc_key_read(key_of("setup", "light-start"), "9 to 10 h", &region, NULL, problem));
    assert_string_equal(problem, "'9 to 10 h' is a range, but here one figure is wanted");
    assert_false(tc_key_read(key_of("plan", "years"), "9 to 10 years", &region, NULL, problem));
}

static void nearest_keys(void **state)
{
    (void)state;
    assert_string_equal(tc_key_nearest(tc_key_table_find("tank"), "lenght"), "length");
    assert_string_equal(tc_key_nearest(tc_key_table_find("air-pump"), "flwo"), "flow");
    assert_null(tc_key_nearest(tc_key_table_find("tank"), "colour"));
    assert_null(tc_key_find(tc_key_table_find("tank"), "lenght"));
}

static void plain_text_is_kept(void **state)
{
    static const char *const kept[] = {"29 gal high",      "a; b", "#4 shelf", "12\" deep",
                                       "the \u00bcft one", "it's"};
    static const char *const refused[] = {"a\\b",
                                          "12\" and it's",
                                          "a\tb",
                                          "\x1b[31m",
                                          "caf\xe9",
                                          ("123456789012345678901234567890123456789012345678901234567890"
                                           "123456789012345678901234567890123456")};
    const struct tc_key *title = key_of("plan", "title");
    struct tc_plan plan;
    char problem[TC_PROBLEM_SIZE], text[TC_VALUE_SIZE];
    (void)state;
    tc_plan_start(&plan);
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        assert_true(tc_key_read(title, kept[i], &plan, NULL, problem));
        tc_key_write(title, &plan, TC_METRIC, text);
        assert_string_equal(text, kept[i]);
    }
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
        assert_false(tc_key_read(title, refused[i], &plan, NULL, problem));
    assert_string_equal(plan.title, kept[5]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(defaults_can_be_read),
        cmocka_unit_test(examples_can_be_read),
        cmocka_unit_test(what_is_written_reads_back),
        cmocka_unit_test(bounds_hold),
        cmocka_unit_test(nonsense_changes_nothing),
        cmocka_unit_test(ranges_are_given),
        cmocka_unit_test(nearest_keys),
        cmocka_unit_test(plain_text_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
