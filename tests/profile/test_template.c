/* SPDX-License-Identifier: MIT */
/* Templates: regions made of public averages that their users complete. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "profile/stock_finish.h"
#include "profile/template.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/stock_text.h"

struct reading {
    struct tc_stock stock;
    struct tc_faults faults;
};

static int setup(void **state)
{
    struct reading *r = calloc(1, sizeof *r);
    assert_non_null(r);
    tc_stock_start(&r->stock);
    *state = r;
    return 0;
}

static int teardown(void **state)
{
    struct reading *r = *state;
    tc_stock_free(&r->stock);
    tc_faults_free(&r->faults);
    free(r);
    return 0;
}

static void read_text(struct reading *r, const char *text)
{
    stock_add_text(&r->stock, "mine", text, &r->faults);
    assert_int_equal(tc_stock_finish(&r->stock, &r->faults), TC_OK);
}

static void assert_gaps(const struct reading *r, const char *region, const struct tc_plan *plan,
                        enum tc_key_ask ask, int count, const char *keys)
{
    struct tc_text text = TC_TEXT_EMPTY;
    const struct tc_region *found = tc_stock_region(&r->stock, region);
    assert_non_null(found);
    assert_int_equal(tc_template_gaps(&r->stock, found, plan, ask, &text), count);
    assert_int_equal(tc_template_gaps(&r->stock, found, plan, ask, NULL), count);
    assert_string_equal(tc_text_string(&text), keys);
    tc_text_free(&text);
}

/* All that a template has to have. */
#define SPARSE                                                                                               \
    "[region average]\n"                                                                                     \
    "template = yes\n"                                                                                       \
    "currency = EUR\n"                                                                                       \
    "electricity = 0.3 / kWh\n"

/* The rest, without which no study is made in it. */
#define NEEDED                                                                                               \
    "sales-tax = 20 %\n"                                                                                     \
    "household-energy = 200 kWh\n"                                                                           \
    "household-water = 10 m3\n"                                                                              \
    "cold-water = 10 C\n"                                                                                    \
    "room = 20 C\n"                                                                                          \
    "humidity = 50 %\n"

static void template_may_have_gaps(void **state)
{
    struct reading *r = *state;
    read_text(r, SPARSE);
    assert_faults(&r->faults, "");
    assert_gaps(r, "average", NULL, TC_ASK_NEEDED, 7,
                "sales-tax, water, household-energy, household-water, cold-water, room and "
                "humidity");
    assert_gaps(r, "average", NULL, TC_ASK_WORTH, 4,
                "electricity-escalation, water-escalation, conditioner and exchange");
}

static void other_regions_may_not(void **state)
{
    struct reading *r = *state;
    read_text(r, "[region real]\n"
                 "template = no\n"
                 "currency = EUR\n"
                 "electricity = 0.3 / kWh\n");
    assert_faults(&r->faults,
                  "mine.ini:1: [region real]: has no 'room'; write it like 'room = 19 19 20 21 22 "
                  "23 24 24 23 21 20 19 C'\n");
    assert_null(tc_stock_region(&r->stock, "real"));
}

static void faults_of_templates_stay_faults(void **state)
{
    struct reading *r = *state;
    read_text(r, "[region one]\n"
                 "template = yes\n"
                 "electricity = 0.3 / kWh\n" /* of which money? */
                 "[region two]\n"
                 "template = yes\n"
                 "currency = EUR\n"
                 "electricity = 0.3 / kWh\n"
                 "electricity-tariff = power\n"
                 "[region three]\n"
                 "template = yess\n"
                 "currency = EUR\n"
                 "room = 200 C\n");
    assert_faults(
        &r->faults,
        "mine.ini:1: [region one]: has no 'currency'; write it like 'currency = USD'\n"
        "mine.ini:8: [region two] electricity-tariff: says the same as 'electricity'; write one of them\n"
        "mine.ini:10: [region three] template: 'yess' is not known here; did you mean 'yes'?\n"
        "mine.ini:12: [region three] room: '200 C' is out of range; it has to be from 0 to 45 C\n");
    assert_int_equal(r->stock.region_count, 0);
}

static void complete_template_has_no_gaps(void **state)
{
    struct reading *r = *state;
    read_text(r, SPARSE NEEDED "water = 4 / m3\n");
    assert_faults(&r->faults, "");
    assert_gaps(r, "average", NULL, TC_ASK_NEEDED, 0, "");
}

static void tariff_stands_for_price(void **state)
{
    struct reading *r = *state;
    read_text(r, SPARSE NEEDED "water-tariff = tap\n"
                               "[tariff tap]\n"
                               "unit = m3\n"
                               "rate = 3\n");
    assert_faults(&r->faults, "");
    assert_gaps(r, "average", NULL, TC_ASK_NEEDED, 0, "");
    struct tc_tariffs tariffs;
    char problem[TC_PROBLEM_SIZE];
    assert_true(tc_stock_tariffs(&r->stock, tc_stock_region(&r->stock, "average"), &tariffs, problem));
    assert_near(tariffs.water.every_unit, 3, 0);
}

/* What is typed over fills gaps, in the plan's own region and nowhere else. */
static void typed_figures_fill_gaps(void **state)
{
    struct reading *r = *state;
    char problem[TC_PROBLEM_SIZE];
    struct tc_plan plan;
    read_text(r, SPARSE NEEDED "[region ordinary]\n"
                               "currency = EUR\n"
                               "electricity = 0.3 / kWh\n"
                               "water = 4 / m3\n"
                               "room = 20 C\n");
    assert_faults(&r->faults, "");
    tc_plan_start(&plan);
    assert_true(tc_plan_set(&plan, "plan/region", "average", problem));
    assert_gaps(r, "average", &plan, TC_ASK_NEEDED, 1, "water");
    assert_false(tc_plan_set(&plan, "region/template", "no", problem));
    assert_true(tc_plan_set(&plan, "region/water-tariff", "tap", problem));
    assert_gaps(r, "average", &plan, TC_ASK_NEEDED, 0, "");
    assert_true(tc_plan_set(&plan, "region/water", "4 / m3", problem));
    assert_gaps(r, "average", &plan, TC_ASK_NEEDED, 0, "");
    assert_true(tc_plan_set(&plan, "plan/region", "ordinary", problem));
    assert_gaps(r, "average", &plan, TC_ASK_NEEDED, 1, "water");
    assert_gaps(r, "ordinary", &plan, TC_ASK_NEEDED, 0, "");
    assert_gaps(r, "ordinary", &plan, TC_ASK_WORTH, 0, "");
}

static bool is_named(const void *context, const char *file)
{
    return strstr(file, context) != NULL;
}

static void notes_tell_what_is_missing(void **state)
{
    struct reading *r = *state;
    stock_add_text(&r->stock, "yours",
                   "[tank cube]\n"
                   "length = 60 cm\nwidth = 60 cm\nheight = 60 cm\nnominal = 200 L\nglass = 10 mm\n"
                   "price = 99 USD\n",
                   &r->faults);
    read_text(r, "# a comment\n" SPARSE "exchange = 1.1 USD\n"
                 "exchange-date = 2026-01-15\n"
                 "[region full]\n"
                 "template = yes\n"
                 "currency = USD\n"
                 "water = 3 / m3\n"
                 "electricity = 0.2 / kWh\n" NEEDED "electricity-escalation = 1 %\n"
                 "water-escalation = 1 %\nconditioner = 1 / m3\nexchange = 0.9 EUR\n"
                 "exchange-date = 2026-01-15\n");
    assert_faults(&r->faults, "");
    assert_int_equal(tc_template_notes(&r->stock, is_named, "yours.ini", &r->faults), TC_OK);
    assert_faults(&r->faults, "");
    assert_int_equal(tc_template_notes(&r->stock, is_named, "mine.ini", &r->faults), TC_OK);
    assert_faults(&r->faults,
                  "mine.ini:2: note: [region average]: a template, still to be filled in: sales-tax, "
                  "water, household-energy, household-water, cold-water, room and humidity; worth "
                  "filling in: electricity-escalation, water-escalation and conditioner; without "
                  "a price in EUR: 1 of 1 tanks\n"
                  "mine.ini:8: note: [region full]: a complete template; take out 'template = yes' once its "
                  "figures are your own\n");
    assert_int_equal(tc_faults_errors(&r->faults), 0);
    assert_int_equal(tc_template_notes(&r->stock, NULL, NULL, &r->faults), TC_OK);
    assert_int_equal(tc_faults_count(&r->faults), 4);
}

static void alike_templates_share_a_note(void **state)
{
    struct reading *r = *state;
#define OTHER(name) "[region " name "]\ntemplate = yes\ncurrency = EUR\nelectricity = 0.4 / kWh\n"
    read_text(r, SPARSE OTHER("second")
                     OTHER("third") "exchange = 1.1 USD\nexchange-date = 2026-01-15\n" OTHER("fourth"));
    assert_faults(&r->faults, "");
    assert_int_equal(tc_template_notes(&r->stock, NULL, NULL, &r->faults), TC_OK);
#define NEEDS                                                                                                \
    "a template, still to be filled in: sales-tax, water, household-energy, household-water, "               \
    "cold-water, room and humidity; worth filling in: electricity-escalation, "
    assert_faults(&r->faults, "mine.ini:1: note: [region average]: " NEEDS
                              "water-escalation, conditioner and exchange; the same of second\n"
                              "mine.ini:9: note: [region third]: " NEEDS "water-escalation and conditioner\n"
                              "mine.ini:15: note: [region fourth]: " NEEDS
                              "water-escalation, conditioner and exchange\n");
}

static void notes_out_of_memory(void **state)
{
    struct reading *r = *state;
    read_text(r, SPARSE OTHER("second") "exchange = 1.1 USD\nexchange-date = 2026-01-15\n" OTHER("third")
                     OTHER("fourth"));
    for (int lasting = 0; lasting < 2; lasting++) {
        for (long n = 0;; n++) {
            struct tc_faults faults = TC_FAULTS_EMPTY;
            failing_malloc_start(n, lasting);
            enum tc_status status = tc_template_notes(&r->stock, NULL, NULL, &faults);
            bool failed = failing_malloc_stop();
            /* A list of faults tells of its own losses. */
            assert_true(status == (failed ? TC_NO_MEMORY : TC_OK) || tc_faults_errors(&faults) == 1);
            tc_faults_free(&faults);
            if (!failed)
                break;
        }
    }
}

/*
 * The templates that are installed: EIA, Electric Power Annual, data of 2023
 * (https://www.eia.gov/electricity/annual/secrev-map.php), cents a kWh of
 * residential customers; Eurostat, second half of 2024, euro for 100 kWh, as
 * quoted by https://europe-data.com/what-eu-country-pays-the-most-for-household-electricity.
 */
static void installed_templates(void **state)
{
    struct reading *r = *state;
    static const struct {
        const char *name, *currency;
        double hundred; /* kWh cost so much */
    } rows[] = {
        {"average-california", "USD", 29.51},   {"average-florida", "USD", 15.21},
        {"average-illinois", "USD", 15.71},     {"average-massachusetts", "USD", 29.61},
        {"average-michigan", "USD", 18.84},     {"average-minnesota", "USD", 14.73},
        {"average-new-york", "USD", 22.25},     {"average-ohio", "USD", 15.38},
        {"average-pennsylvania", "USD", 18.10}, {"average-texas", "USD", 14.46},
        {"average-washington", "USD", 10.98},   {"average-eu", "EUR", 28.72},
        {"average-belgium", "EUR", 33.13},      {"average-denmark", "EUR", 37.63},
        {"average-france", "EUR", 29.26},       {"average-germany", "EUR", 39.43},
        {"average-hungary", "EUR", 10.32},      {"average-ireland", "EUR", 36.99},
        {"average-italy", "EUR", 31.11},        {"average-portugal", "EUR", 26.26},
    };
    assert_int_equal(tc_stock_read_file(&r->stock, "profiles/regions/templates-us.ini", &r->faults), TC_OK);
    assert_int_equal(tc_stock_read_file(&r->stock, "profiles/regions/templates-eu.ini", &r->faults), TC_OK);
    assert_int_equal(tc_stock_finish(&r->stock, &r->faults), TC_OK);
    assert_faults(&r->faults, "");
    assert_int_equal(r->stock.region_count, sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct tc_region *region = tc_stock_region(&r->stock, rows[i].name);
        assert_non_null(region);
        assert_true(region->is_template);
        assert_string_equal(region->currency.code, rows[i].currency);
        assert_near(region->electricity.price * 100, rows[i].hundred, 1e-9);
        assert_int_equal(tc_template_gaps(&r->stock, region, NULL, TC_ASK_NEEDED, NULL), 7);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(template_may_have_gaps, setup, teardown),
        cmocka_unit_test_setup_teardown(other_regions_may_not, setup, teardown),
        cmocka_unit_test_setup_teardown(faults_of_templates_stay_faults, setup, teardown),
        cmocka_unit_test_setup_teardown(complete_template_has_no_gaps, setup, teardown),
        cmocka_unit_test_setup_teardown(tariff_stands_for_price, setup, teardown),
        cmocka_unit_test_setup_teardown(typed_figures_fill_gaps, setup, teardown),
        cmocka_unit_test_setup_teardown(notes_tell_what_is_missing, setup, teardown),
        cmocka_unit_test_setup_teardown(alike_templates_share_a_note, setup, teardown),
        cmocka_unit_test_setup_teardown(notes_out_of_memory, setup, teardown),
        cmocka_unit_test_setup_teardown(installed_templates, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
