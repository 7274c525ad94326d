/* SPDX-License-Identifier: MIT */
/* Hours of upkeep against the same worked out by hand (the figures: common practice, no source). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "core/cost/equipment.h"
#include "support/near.h"
#include "support/sample.h"

/* A tank of 100 litres, a quarter changed each week, one canister: 52.14 x (10 + 2.5), 52.14 x 10, 4 x 30
 * min. */
static void a_usual_tank(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.change_share = 0.25;
    s.setup.change_interval = 7;
    sample_settle(&s);
    s.equipment.size.water_volume = 0.1;
    s.equipment.size.reach = 0.40;
    struct tc_part canister = {.slot = TC_SLOT_FILTER, .as.filter.kind = TC_FILTER_CANISTER};
    struct tc_offer offer = {.part = &canister};
    s.equipment.slot[TC_SLOT_FILTER] = (struct tc_filled){.offer = &offer, .count = 1};
    struct tc_upkeep_time time = tc_equipment_upkeep(&s.c, &s.equipment);
    assert_near(time.changes, 365.0 / 7 * 12.5 / 60, 1e-9);
    assert_near(time.tanks, 365.0 / 7 * 10 / 60, 1e-9);
    assert_near(time.filters, 2, 1e-9);
    assert_near(time.total, 10.863 + 8.690 + 2, 0.001);

    /* 75 cm to the bed: half as long again for all but the filter; three tanks: three times as long. */
    s.equipment.size.reach = 0.75;
    s.c.quantity = 3;
    struct tc_upkeep_time deep = tc_equipment_upkeep(&s.c, &s.equipment);
    assert_near(deep.changes, 4.5 * time.changes, 1e-9);
    assert_near(deep.tanks, 4.5 * time.tanks, 1e-9);
    assert_near(deep.filters, 3 * time.filters, 1e-9);
}

static void no_changes_and_no_filter_take_no_time(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.change_share = 0;
    s.setup.filter = TC_FILTER_NONE;
    sample_settle(&s);
    struct tc_upkeep_time time = tc_equipment_upkeep(&s.c, &s.equipment);
    assert_near(time.changes + time.filters, 0, 0);
    assert_near(time.total, time.tanks, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_usual_tank),
        cmocka_unit_test(no_changes_and_no_filter_take_no_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
