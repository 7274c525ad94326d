/* SPDX-License-Identifier: MIT */
/*
 * A figure that can hurt somebody has its caution beside it wherever it is
 * looked up or typed: in the lists of assumptions, parts and tanks, in forms,
 * and where one types it. The sheets are walked by test_reading.c.
 *
 * Which figure needs which caution: common practice, no source.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "profile/kind.h"
#include "sheet/caution.h"
#include "support/screen_case.h"

static struct screen_case c;

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return 0;
}

static enum tc_caution caution_of(const char *section, const char *name)
{
    const struct tc_key_table *table = tc_key_table_find(section);
    const struct tc_key *key = table ? tc_key_find(table, name) : NULL;
    if (!key)
        fail_msg("[%s] has no key %s", section, name);
    return tc_caution_of_subject(tc_caution_subject(section, key));
}

static void test_keys_by_name(void **state)
{
    static const struct {
        const char *section, *key;
        enum tc_caution caution;
    } keys[] = {
        {"tank", "glass", TC_CAUTION_GLASS},
        {"tank", "bottom-glass", TC_CAUTION_GLASS},
        {"tank", "frame", TC_CAUTION_STAND},
        {"stand", "load", TC_CAUTION_STAND},
        {"light", "power", TC_CAUTION_ELECTRICITY},
        {"filter", "power", TC_CAUTION_ELECTRICITY},
        {"air-pump", "power", TC_CAUTION_ELECTRICITY},
        {"heater", "power", TC_CAUTION_ELECTRICITY},
        {"candidate", "glass", TC_CAUTION_GLASS},
        {"candidate", "stand", TC_CAUTION_STAND},
        {"candidate", "heater", TC_CAUTION_ELECTRICITY},
        {"candidate", "heater-power", TC_CAUTION_ELECTRICITY},
        {"candidate", "light-power", TC_CAUTION_ELECTRICITY},
        {"setup", "heater", TC_CAUTION_ELECTRICITY},
        {"setup", "filter", TC_CAUTION_ELECTRICITY},
        {"setup", "lid", TC_CAUTION_DAMP},
        {"setup", "activity", TC_CAUTION_DAMP},
        {"setup", "stand", TC_CAUTION_STAND},
        {"wall", "rack-load", TC_CAUTION_RACK},
        {"wall", "bay-load", TC_CAUTION_RACK},
        {"wall", "floor-load", TC_CAUTION_FLOOR},
        {"wall", "circuit-current", TC_CAUTION_CIRCUIT},
        {"wall", "circuit-voltage", TC_CAUTION_CIRCUIT},
        {"wall", "circuit-used", TC_CAUTION_CIRCUIT},
        {"wall", "circuit-3-current", TC_CAUTION_CIRCUIT},
        {"wall", "circuit-4-used", TC_CAUTION_CIRCUIT},
        {"wall", "pump", TC_CAUTION_ELECTRICITY},
        {"space", "weight", TC_CAUTION_STAND},
        {"heater", "price", 0},
        {"wall", "rack-price", 0},
        {"wall", "gap", 0},
        {"region", "sales-tax", 0},
        {"setup", "water-change", 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (caution_of(keys[i].section, keys[i].key) != keys[i].caution)
            fail_msg("[%s] %s has caution %d, not %d", keys[i].section, keys[i].key,
                     (int)caution_of(keys[i].section, keys[i].key), (int)keys[i].caution);
}

/* Whatever is measured in watts, amperes, volts, pounds or pounds on a square foot, in a section of any kind.
 */
static void test_keys_by_what_they_measure(void **state)
{
    int found = 0;
    (void)state;
    for (size_t t = 0; tc_key_table_at(t); t++)
        for (size_t i = 0; i < tc_key_table_at(t)->count; i++) {
            const struct tc_key *key = &tc_key_table_at(t)->keys[i];
            bool dangerous = key->form == TC_KEY_QUANTITY &&
                             (key->dimension == TC_DIM_POWER || key->dimension == TC_DIM_MASS ||
                              key->dimension == TC_DIM_PRESSURE || key->dimension == TC_DIM_VOLTAGE ||
                              key->dimension == TC_DIM_ELECTRIC_CURRENT);
            enum tc_caution caution = caution_of(tc_key_table_at(t)->kind, key->name);
            if (dangerous && (!caution || !*tc_caution_hint(caution)))
                fail_msg("[%s] %s has no caution", tc_key_table_at(t)->kind, key->name);
            found += dangerous;
        }
    assert_true(found >= 20);
}

/* The list that these keys open, and what they type once more. */
static void says(const char *keys, const char *hint)
{
    char caution[128] = "Caution: ";
    strncat(caution, hint, sizeof caution - sizeof "Caution: ");
    screen_type(&c, keys);
    if (!screen_shows(&c, caution))
        fail_msg("after '%s' the screen does not say '%s':\n%s", keys, caution, screen_text(&c));
}

static void test_beside_the_figure(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    says("acircuit-current", "80 % of a breaker at most");
    says("\r", "80 % of a breaker at most");
    screen_type(&c, "\033");
    says("\025rack-load", "rated rack, anchored to the wall");
    says("\025floor-load", "floors may bear less: ask an engineer");
    says("\025activity", "cover the tank or air the room");
    screen_type(&c, "\033\033");
    says("t20-long", "glass strength is not checked");
}

static void test_parts_and_forms(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    says("pheater", "protected outlet, drip loop"); /* the parts of a tank */
    says("\rh50", "protected outlet, drip loop");   /* the heaters there are */
    screen_type(&c, "\033\033\033");
    says("estand\rpine-30x12", "level, rated stand; lift it empty"); /* a list of sections */
    says("\r\025load", "level, rated stand; lift it empty");
    screen_type(&c, "\033\033\033");
    says("eheater\rh50\r\025power", "protected outlet, drip loop");
    says("\r", "protected outlet, drip loop");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_keys_by_name),
        cmocka_unit_test(test_keys_by_what_they_measure),
        cmocka_unit_test_teardown(test_beside_the_figure, end),
        cmocka_unit_test_teardown(test_parts_and_forms, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
