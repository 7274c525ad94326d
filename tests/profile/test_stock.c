/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "profile/stock.h"
#include "support/near.h"

#define FOLDER "tests/data/profiles"

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

static void expect_no_fault(const struct reading *r)
{
    struct tc_text text = TC_TEXT_EMPTY;
    tc_faults_write(&r->faults, &text);
    assert_string_equal(tc_text_string(&text), "");
    tc_text_free(&text);
}

static void read_all(struct reading *r)
{
    assert_int_equal(tc_stock_read_folder(&r->stock, FOLDER, false, &r->faults), TC_OK);
    assert_int_equal(tc_stock_finish(&r->stock, &r->faults), TC_OK);
    expect_no_fault(r);
}

static void reads_every_kind(void **state)
{
    struct reading *r = *state;
    read_all(r);
    const struct tc_tank *tank = tc_stock_tank(&r->stock, "40-breeder");
    assert_non_null(tank);
    assert_string_equal(tank->goods.title, "40 gal breeder");
    assert_near(tank->length, 0.92075, 1e-12);
    assert_near(tank->bottom_glass, 0.008, 1e-12);
    assert_near(tank->goods.life, 15, 0);
    assert_int_equal(tank->goods.price.count, 2);
    assert_near(tank->goods.price.price[0].amount, 139, 0);
    const struct tc_region *region = tc_stock_region(&r->stock, "highfell");
    assert_non_null(region);
    assert_near(region->climate.room[0], 273.15 + 18.5, 1e-9);
    assert_near(region->electricity.tax, 0.07, 1e-12);
    const struct tc_plan *plan = tc_stock_plan(&r->stock, "spring");
    assert_non_null(plan);
    assert_ptr_equal(tc_stock_plan_of(&r->stock, FOLDER "/plans/spring.ini"), plan);
    assert_int_equal(plan->candidate_count, 3);
    assert_near(plan->candidate[1].price, 50, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(reads_every_kind, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
