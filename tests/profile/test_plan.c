/* SPDX-License-Identifier: MIT */
/* Plans: figures set and read by path, candidates, ranges, assumptions. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "profile/kind.h"
#include "profile/plan.h"
#include "profile/plan_region.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "support/near.h"
#include "support/stock_text.h"

#define PROFILES "tests/data/profiles"

static struct tc_plan fresh(void)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    return plan;
}

static void set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE] = "";
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

/* Setting fails with this problem and changes nothing. */
static void refuse(struct tc_plan *plan, const char *path, const char *text, const char *wanted)
{
    char problem[TC_PROBLEM_SIZE] = "";
    struct tc_plan before;
    memcpy(&before, plan, sizeof before);
    assert_false(tc_plan_set(plan, path, text, problem));
    assert_string_equal(problem, wanted);
    assert_true(tc_plan_equal(plan, &before));
}

static void expect(const struct tc_plan *plan, const char *path, const char *wanted)
{
    char text[TC_VALUE_SIZE];
    assert_true(tc_plan_get(plan, path, text));
    assert_string_equal(text, wanted);
}

static void a_new_plan_has_the_defaults(void **state)
{
    struct tc_plan plan = fresh();
    (void)state;
    assert_int_equal(plan.candidate_count, 0);
    assert_near(plan.years, 10, 0);
    assert_near(plan.discount, 0.03, 1e-12);
    assert_string_equal(plan.sale, "best");
    assert_int_equal(plan.units, TC_METRIC);
    assert_int_equal(plan.wall.objective, TC_WALL_MOST_TANKS);
    assert_near(plan.wall.gap, 0.0254, 1e-12);
    assert_near(plan.wall.length, 0, 0);
    const struct tc_candidate *candidate = tc_plan_add(&plan, "29-high");
    assert_non_null(candidate);
    assert_string_equal(candidate->tank, "29-high");
    assert_int_equal(candidate->quantity, 1);
    assert_true(isnan(candidate->price) && isnan(candidate->life));
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        assert_string_equal(candidate->pin[slot].part, "");
        assert_true(isnan(candidate->pin[slot].price) && isnan(candidate->pin[slot].life));
    }
    expect(&plan, "candidate 1/price", "");
    expect(&plan, "candidate 1/light", "");
    expect(&plan, "candidate 1/quantity", "1");
    expect(&plan, "plan/years", "10 years");
    expect(&plan, "plan/regions", "all");
    expect(&plan, "setup/light-hours", "");
}

static void figures_are_set_by_path(void **state)
{
    struct tc_plan plan = fresh();
    (void)state;
    tc_plan_add(&plan, "29-high");
    tc_plan_add(&plan, "40-breeder");
    set(&plan, "plan/years", "12 years");
    set(&plan, "plan/setup", "Shrimp-Shelf");
    set(&plan, "plan/regions", "lowmere, highfell");
    set(&plan, "candidate 2/price", "45");
    set(&plan, "candidate 2/light", "strip-90");
    set(&plan, "candidate 2/heater", "none");
    set(&plan, "candidate 2/filter-life", "18 months");
    set(&plan, "wall/length", "12 ft");
    set(&plan, "region/room", "20 C");
    set(&plan, "setup/light-hours", "9:30");
    assert_near(plan.years, 12, 0);
    assert_string_equal(plan.setup, "shrimp-shelf");
    assert_int_equal(plan.region_count, 2);
    assert_near(plan.candidate[1].price, 45, 0);
    assert_near(plan.candidate[1].pin[TC_SLOT_FILTER].life, 1.5, 1e-12);
    assert_near(plan.wall.length, 3.6576, 1e-12);
    assert_int_equal(plan.override_count, 2);
    assert_string_equal(plan.override[0].kind, "setup"); /* in the order of a profile, not of typing */
    assert_near(plan.override[1].spread.likely, 293.15, 1e-9);
    expect(&plan, "plan/regions", "lowmere highfell");
    expect(&plan, "candidate 2/price", "45");
    expect(&plan, "candidate 2/heater", "none");
    expect(&plan, "candidate 2/filter-life", "18 months");
    expect(&plan, "wall/length", "12 ft");
    expect(&plan, "region/room", "20 C");
    expect(&plan, "setup/light-hours", "9:30");
    set(&plan, "setup/light-hours", "10 h");
    expect(&plan, "setup/light-hours", "10 h");
    assert_int_equal(plan.override_count, 2);
}

static void figures_are_taken_back(void **state)
{
    static const char *const paths[][2] = {
        {"candidate 1/price", "45 to 60"},
        {"candidate 1/light", "strip-90"},
        {"candidate 1/light-price", "12"},
        {"candidate 1/life", "6 years"},
        {"candidate 1/sale", "list"},
        {"candidate 1/quantity", "3"},
        {"plan/title", "A; title"},
        {"plan/years", "12 years"},
        {"plan/regions", "lowmere"},
        {"plan/discount", "2 to 4 %"},
        {"plan/sale", "order"},
        {"plan/units", "us"},
        {"wall/length", "12 ft"},
        {"wall/objective", "water"},
        {"wall/wanted", "12"},
        {"wall/budget", "900 to 1200"},
        {"setup/temperature", "77 F"},
        {"region/electricity", "0.2 / kWh"},
        {"region/tax", "included"},
        {"setup/ppfd", "high"},
    };
    struct tc_plan plan = fresh(), before;
    (void)state;
    tc_plan_add(&plan, "29-high");
    memcpy(&before, &plan, sizeof before);
    /* One by one, */
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        set(&plan, paths[i][0], paths[i][1]);
        assert_false(tc_plan_equal(&plan, &before));
        set(&plan, paths[i][0], "");
        if (!tc_plan_equal(&plan, &before))
            fail_msg("%s was not taken back whole", paths[i][0]);
    }
    /* and all in another order than they came. */
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++)
        set(&plan, paths[i][0], paths[i][1]);
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++)
        set(&plan, paths[(i * 7) % (sizeof paths / sizeof paths[0])][0], "");
    assert_true(tc_plan_equal(&plan, &before));
    set(&plan, "setup/least-length", ""); /* nothing there to be taken back */
    assert_true(tc_plan_equal(&plan, &before));
}

static void what_cannot_be_set(void **state)
{
    struct tc_plan plan = fresh();
    (void)state;
    tc_plan_add(&plan, "29-high");
    static const char nothing[] = "'%s' is nothing of a plan; write plan/KEY, candidate N/KEY, setup/KEY, "
                                  "region/KEY, shop NAME/KEY, wall/KEY or space/KEY";
    static const char *const lost[] = {
        "years",           "tank/length",       "candidate 2/price", "candidate 0/price",
        "candidate/price", "candidate x/price", "candidate 1",       ""};
    for (size_t i = 0; i < sizeof lost / sizeof lost[0]; i++) {
        char wanted[TC_PROBLEM_SIZE];
        snprintf(wanted, sizeof wanted, nothing, lost[i]);
        refuse(&plan, lost[i], "1", wanted);
    }
    refuse(&plan, "plan/yaers", "1", "unknown key 'yaers'; did you mean 'years'?");
    refuse(&plan, "wall/colour", "1", "unknown key 'colour' of a wall");
    refuse(&plan, "plan/years", "12", "'12' has no unit; write it in years or months");
    refuse(&plan, "plan/years", "70 years", "'70 years' is out of range; it has to be from 1 to 60 years");
    refuse(&plan, "plan/years", "30 months", "'30 months' is not a whole number; write it like '12 years'");
    refuse(&plan, "plan/setup", "", "'setup' is needed; write it like 'shrimp-shelf'");
    refuse(&plan, "candidate 1/tank", "", "'tank' is needed; write it like '29-high'");
    refuse(
        &plan, "candidate 1/tank", "29 high",
        "'29 high' is not a name; names are made of letters, digits, '-' and '.', 47 at most; did you mean "
        "'29-high'?");
    refuse(&plan, "candidate 1/price", "45 USD",
           "'45 USD': write the amount without 'USD'; it is in the region's currency");
    refuse(&plan, "candidate 1/price", "-1", "'-1' is negative; it has to be from 0 to 100000000");
    refuse(&plan, "setup/title", "x", "'title' is not an assumption; change it in the profile of the setup");
    refuse(&plan, "region/currency", "EUR",
           "'currency' is not an assumption; change it in the profile of the region");
    refuse(&plan, "region/room", "20 F", "'20 F' is out of range; it has to be from 32 to 113 F");
    refuse(&plan, "wall/objective", "fish",
           "'fish' is not known here; write 'tanks', 'bottom', 'water', 'value' or 'cost'");
    char text[TC_VALUE_SIZE];
    assert_false(tc_plan_get(&plan, "candidate 2/price", text));
    assert_string_equal(text, "");
}

static void candidates_come_and_go(void **state)
{
    struct tc_plan plan = fresh();
    char name[16];
    (void)state;
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        snprintf(name, sizeof name, "tank-%d", i);
        assert_non_null(tc_plan_add(&plan, name));
    }
    assert_null(tc_plan_add(&plan, "one-more"));
    set(&plan, "candidate 2/price", "10 to 20");
    set(&plan, "candidate 3/price", "30 to 40 likely 35");
    set(&plan, "candidate 12/light-price", "5 to 6");
    tc_plan_remove(&plan, 1);
    assert_int_equal(plan.candidate_count, TC_CANDIDATES_MAX - 1);
    assert_string_equal(plan.candidate[1].tank, "tank-2");
    assert_int_equal(plan.range_count, 2);
    assert_string_equal(plan.range[0].path, "candidate 2/price");
    expect(&plan, "candidate 2/price", "30 to 40 likely 35");
    expect(&plan, "candidate 11/light-price", "5 to 6");
    for (int i = 0; i < plan.range_count; i++) {
        double middle;
        memcpy(&middle, (char *)&plan + plan.range[i].offset, sizeof middle);
        assert_near(middle, tc_spread_middle(&plan.range[i].spread), 1e-12);
    }
    tc_plan_remove(&plan, -1);
    tc_plan_remove(&plan, TC_CANDIDATES_MAX - 1);
    assert_int_equal(plan.candidate_count, TC_CANDIDATES_MAX - 1);
    while (plan.candidate_count > 0)
        tc_plan_remove(&plan, 0);
    struct tc_plan empty = fresh();
    assert_true(tc_plan_equal(&plan, &empty));
    /* A name too long for one is left out. */
    const struct tc_candidate *candidate =
        tc_plan_add(&plan, "a-name-that-is-longer-than-the-forty-seven-letters-there-are");
    assert_string_equal(candidate->tank, "");
}

static void ranges_are_kept(void **state)
{
    struct tc_plan plan = fresh();
    (void)state;
    tc_plan_add(&plan, "29-high");
    set(&plan, "wall/budget", "900 to 1200");
    set(&plan, "candidate 1/price", "45 to 60 likely 50");
    set(&plan, "plan/discount", "2 to 4 %");
    assert_int_equal(plan.range_count, 3);
    assert_string_equal(plan.range[0].path, "plan/discount");
    assert_string_equal(plan.range[1].path, "candidate 1/price");
    assert_string_equal(plan.range[2].path, "wall/budget");
    assert_ptr_equal((char *)&plan + plan.range[1].offset, (char *)&plan.candidate[0].price);
    assert_ptr_equal((char *)&plan + plan.range[2].offset, (char *)&plan.wall.budget);
    assert_near(plan.candidate[0].price, 50, 0);
    assert_near(plan.discount, 0.03, 1e-12);
    assert_near(plan.wall.budget, 1050, 0);
    expect(&plan, "candidate 1/price", "45 to 60 likely 50");
    set(&plan, "candidate 1/price", "55");
    assert_int_equal(plan.range_count, 2);
    expect(&plan, "candidate 1/price", "55");
    set(&plan, "candidate 001/price", "40 to 50"); /* a path has one form, however it is written */
    assert_int_equal(plan.range_count, 3);
    assert_string_equal(plan.range[1].path, "candidate 1/price");
    expect(&plan, "candidate 01/price", "40 to 50");
    set(&plan, "candidate 1/price", "55");
    assert_int_equal(plan.range_count, 2);
    refuse(&plan, "plan/discount", "4 to 2 %", "'4 to 2 %' runs backwards; write the smaller figure first");
    expect(&plan, "plan/discount", "2 to 4 %");
}

static void a_plan_can_be_full(void **state)
{
    struct tc_plan plan = fresh();
    char path[64], problem[TC_PROBLEM_SIZE], longer[TC_VALUE_SIZE];
    int set_count = 0;
    (void)state;
    /* Ranges: the slots' prices and lives of twelve candidates are more than there is room for. */
    for (int i = 0; i < TC_CANDIDATES_MAX; i++)
        tc_plan_add(&plan, "29-high");
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            snprintf(path, sizeof path, "candidate %d/%s-price", i + 1, tc_slot_name((enum tc_slot)slot));
            set_count += tc_plan_set(&plan, path, "10 to 20", problem);
        }
    }
    assert_int_equal(set_count, TC_TYPED_RANGES_MAX);
    assert_int_equal(plan.range_count, TC_TYPED_RANGES_MAX);
    assert_string_equal(problem, "a plan has at most 32 ranges");
    /* The same figure can still be typed over. */
    set(&plan, plan.range[0].path, "11 to 12");

    /* A value that is kept as it was typed has to fit. */
    memset(longer, ' ', sizeof longer);
    memcpy(longer, "10 to 20", 8);
    longer[TC_TYPED_SIZE] = '\0';
    set(&plan, "wall/length", "3 m");
    tc_plan_remove(&plan, 0);
    refuse(&plan, "candidate 1/price", longer, "the value is longer than 159 bytes");
    memcpy(longer, "10 h    ", 8);
    refuse(&plan, "setup/light-hours", longer, "the value is longer than 159 bytes");
    /* A list of regions has to fit a line. */
    struct tc_text names = TC_TEXT_EMPTY;
    for (int i = 0; i < 20; i++)
        tc_text_addf(&names, "a-region-with-quite-a-long-name-of-forty-seven%c ", 'a' + i);
    refuse(&plan, "plan/regions", tc_text_string(&names), "the list is longer than 900 bytes");
    tc_text_clear(&names);
    for (int i = 0; i < 25; i++)
        tc_text_addf(&names, "r%d ", i);
    refuse(&plan, "plan/regions", tc_text_string(&names), "there are more than 24 names");
    tc_text_free(&names);
}

/* Every key of a setup and region can be assumed at once, but for those that exclude each other. */
static void everything_can_be_assumed(void **state)
{
    struct tc_plan plan = fresh();
    static const char *const kinds[] = {"setup", "region"};
    int wanted = 0;
    (void)state;
    for (int i = 1; i >= 0; i--) {
        const struct tc_key_table *table = tc_key_table_find(kinds[i]);
        for (size_t k = table->count; k-- > 0;) {
            char path[64], problem[TC_PROBLEM_SIZE];
            snprintf(path, sizeof path, "%s/%s", kinds[i], table->keys[k].name);
            wanted += tc_plan_set(&plan, path, table->keys[k].example, problem);
        }
    }
    assert_true(wanted >= 40);
    assert_int_equal(plan.override_count, wanted - 2);
    for (int i = 1; i < plan.override_count; i++)
        assert_true(strcmp(plan.override[i - 1].kind, plan.override[i].kind) >= 0); /* setup, then region */
}

static void setup_stock(struct tc_stock *stock)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    tc_stock_start(stock);
    stock_add_folder(stock, PROFILES);
    assert_int_equal(tc_stock_finish(stock, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    tc_faults_free(&faults);
}

static void assumptions_are_typed_over(void **state)
{
    struct tc_stock stock;
    struct tc_plan plan = fresh();
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    setup_stock(&stock);
    struct tc_setup setup = *tc_stock_setup(&stock, "shrimp-shelf");
    struct tc_region region = *tc_stock_region(&stock, "highfell");
    struct tc_tariffs tariffs;
    assert_near(setup.light_start, 10, 1e-12); /* 8 h around 14:00 */
    set(&plan, "setup/light-hours", "10 h");
    set(&plan, "setup/temperature", "24 to 26 C");
    set(&plan, "region/electricity", "0.30 / kWh");
    set(&plan, "region/water", "2 / m3");
    set(&plan, "region/room", "19 to 21 C");
    assert_true(tc_plan_assume_setup(&plan, &setup, problem));
    assert_near(setup.light_hours, 10, 0);
    assert_near(setup.light_start, 9, 1e-12); /* still centred */
    assert_near(setup.temperature, 298.15, 1e-9);
    assert_true(tc_plan_assume_region(&plan, &region, problem));
    assert_true(tc_stock_tariffs(&stock, &region, &tariffs, problem));
    assert_string_equal(region.electricity.tariff, ""); /* the price took the tariff's place */
    assert_near(tariffs.electricity.every_unit, 0.30, 0);
    assert_int_equal(tariffs.electricity.season_count, 1);
    assert_near(tariffs.water.every_unit, 2, 0);
    assert_near(region.climate.room[11], 293.15, 1e-9);

    /* A tariff over a price, and back to a price: the last counts. */
    region = *tc_stock_region(&stock, "lowmere");
    set(&plan, "region/electricity-tariff", "highfell-power");
    expect(&plan, "region/electricity", "");
    assert_true(tc_plan_assume_region(&plan, &region, problem) &&
                tc_stock_tariffs(&stock, &region, &tariffs, problem));
    assert_int_equal(tariffs.electricity.season_count, 2);
    set(&plan, "region/electricity", "0.30 / kWh");
    expect(&plan, "region/electricity-tariff", "");

    /* A light that begins at a certain hour does so however long it is. */
    struct tc_setup planted = *tc_stock_setup(&stock, "planted");
    assert_true(tc_plan_assume_setup(&plan, &planted, problem));
    assert_near(planted.light_start, 10, 1e-12);
    set(&plan, "setup/light-start", "7:30");
    setup = *tc_stock_setup(&stock, "shrimp-shelf");
    assert_true(tc_plan_assume_setup(&plan, &setup, problem));
    assert_near(setup.light_start, 7.5, 1e-12);

    /* What does not go together, or is not there, is said. */
    set(&plan, "setup/warm-limit", "20 C");
    assert_false(tc_plan_assume_setup(&plan, &setup, problem));
    assert_string_equal(problem, "setup/warm-limit: is not above the temperature the heater keeps");
    set(&plan, "region/electricity-tariff", "highfell-pwoer");
    assert_true(tc_plan_assume_region(&plan, &region, problem));
    assert_false(tc_stock_tariffs(&stock, &region, &tariffs, problem));
    assert_string_equal(problem, "there is no tariff 'highfell-pwoer'");
    memcpy(plan.override[0].key, "nonsense", 9);
    assert_false(tc_plan_assume_setup(&plan, &setup, problem));
    assert_string_equal(problem, "setup/nonsense: unknown key");
    memcpy(plan.override[0].key, "light-hours", 12);
    memcpy(plan.override[0].value, "nonsense", 9);
    assert_false(tc_plan_assume_setup(&plan, &setup, problem));
    assert_string_equal(problem, "setup/light-hours: 'nonsense' is not a number; write it like '9 h'");
    tc_stock_free(&stock);
}

/* What was typed for a region stays there; what is said of setup, tanks and parts goes along. */
static void a_plan_moves_to_another_region(void **state)
{
    (void)state;
    struct tc_stock stock;
    setup_stock(&stock);
    struct tc_plan plan = *tc_stock_plan(&stock, "spring");
    assert_int_equal(tc_plan_region(&plan, &stock, "lowmere"), 0);
    assert_true(tc_plan_equal(&plan, tc_stock_plan(&stock, "spring")));
    /* Two prices typed, the sale, two assumptions; and, as the currency is another, waiting and the budget.
     */
    assert_int_equal(tc_plan_region(&plan, &stock, "highfell"), 7);
    assert_string_equal(plan.region, "highfell");
    assert_string_equal(plan.sale, "best");
    assert_string_equal(plan.candidate[2].sale, "list");
    expect(&plan, "candidate 2/price", "");
    expect(&plan, "candidate 2/filter-price", "");
    expect(&plan, "candidate 2/filter-life", "");
    expect(&plan, "candidate 2/filter", "sponge-m");
    expect(&plan, "region/electricity", "");
    expect(&plan, "region/room", "");
    expect(&plan, "setup/light-hours", "9 h");
    expect(&plan, "wall/budget", "none");
    expect(&plan, "wall/length", "12 ft");
    assert_int_equal(plan.range_count, 1); /* of the discount rate */
    assert_int_equal(plan.override_count, 2);
    /* A plan of no region yet has nothing to leave. */
    tc_plan_start(&plan);
    set(&plan, "region/room", "20 C");
    assert_int_equal(tc_plan_region(&plan, &stock, "highfell"), 0);
    expect(&plan, "region/room", "20 C");
    tc_stock_free(&stock);
}

/* A second one of a tank has all that was typed of the first, and is found to be worth the same. */
static void a_double_has_the_ranges_too(void **state)
{
    (void)state;
    struct tc_plan plan;
    char problem[TC_PROBLEM_SIZE], text[TC_VALUE_SIZE];
    tc_plan_start(&plan);
    tc_plan_add(&plan, "20-high");
    tc_plan_add(&plan, "29-high");
    assert_true(tc_plan_set(&plan, "candidate 1/price", "30 to 60", problem));
    assert_true(tc_plan_set(&plan, "candidate 1/life", "2 to 4 years", problem));
    assert_true(tc_plan_set(&plan, "candidate 2/price", "70 to 80", problem));
    assert_true(tc_plan_set(&plan, "wall/gap", "1 to 2 in", problem));
    assert_true(tc_plan_double(&plan, 0));
    assert_int_equal(plan.candidate_count, 3);
    assert_int_equal(plan.range_count, 6);
    assert_true(tc_plan_get(&plan, "candidate 3/price", text));
    assert_string_equal(text, "30 to 60");
    const struct tc_typed_range *range = &plan.range[3];
    assert_string_equal(range->path, "candidate 3/price");
    assert_int_equal(range->offset, offsetof(struct tc_plan, candidate) + 2 * sizeof(struct tc_candidate) +
                                        offsetof(struct tc_candidate, price));
    assert_near(range->spread.high, 60, 0);
    assert_string_equal(plan.range[4].path, "candidate 3/life");
    assert_string_equal(plan.range[5].path, "wall/gap");
    /* Typed one by one, the same plan to the last byte. */
    struct tc_plan typed;
    tc_plan_start(&typed);
    tc_plan_add(&typed, "20-high");
    tc_plan_add(&typed, "29-high");
    tc_plan_add(&typed, "20-high");
    for (int i = 1; i <= 3; i++) {
        char path[64];
        snprintf(path, sizeof path, "candidate %d/price", i);
        assert_true(tc_plan_set(&typed, path, i == 2 ? "70 to 80" : "30 to 60", problem));
        snprintf(path, sizeof path, "candidate %d/life", i);
        assert_true(i == 2 || tc_plan_set(&typed, path, "2 to 4 years", problem));
    }
    assert_true(tc_plan_set(&typed, "wall/gap", "1 to 2 in", problem));
    assert_true(tc_plan_equal(&plan, &typed));
    assert_false(tc_plan_double(&plan, 3));
    assert_false(tc_plan_double(&plan, -1));
    while (tc_plan_double(&plan, 0))
        assert_true(plan.range_count <= TC_TYPED_RANGES_MAX);
    assert_int_equal(plan.candidate_count, TC_CANDIDATES_MAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_double_has_the_ranges_too),
        cmocka_unit_test(a_new_plan_has_the_defaults),
        cmocka_unit_test(figures_are_set_by_path),
        cmocka_unit_test(figures_are_taken_back),
        cmocka_unit_test(what_cannot_be_set),
        cmocka_unit_test(candidates_come_and_go),
        cmocka_unit_test(ranges_are_kept),
        cmocka_unit_test(a_plan_can_be_full),
        cmocka_unit_test(everything_can_be_assumed),
        cmocka_unit_test(assumptions_are_typed_over),
        cmocka_unit_test(a_plan_moves_to_another_region),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
