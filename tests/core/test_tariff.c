/* SPDX-License-Identifier: MIT */
/* Tariffs: published utility bills, laws of blocks, hours and minimum charges, sharing to the cent. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/tariff.h"
#include "support/near.h"

/* A month's use spread evenly over the day. */
static double bill_even(const struct tc_tariff *tariff, int month, double units)
{
    double use[TC_HOURS];
    for (int h = 0; h < TC_HOURS; h++)
        use[h] = units / TC_HOURS;
    return tc_tariff_bill(tariff, month, use);
}

static void set_blocks(struct tc_tariff_season *season, const struct tc_tariff_block *block, int count)
{
    season->block_count = count;
    for (int i = 0; i < count; i++)
        season->block[i] = block[i];
}

/*
 * Residential rate of a town utility, summer and winter, in cents per kWh:
 * cityofseymour.org, residential electricity, bill comparison.
 */
static struct tc_tariff town_tariff(void)
{
    static const struct tc_tariff_block summer[] = {
        {.limit = 250, .rate = 6.4},
        {.limit = 700, .rate = 4.9},
        {.limit = 1250, .rate = 4.75},
        {.limit = HUGE_VAL, .rate = 4.46},
    };
    static const struct tc_tariff_block winter[] = {
        {.limit = 250, .rate = 6.4},
        {.limit = 700, .rate = 4.9},
        {.limit = HUGE_VAL, .rate = 4.46},
    };
    struct tc_tariff tariff = tc_tariff_flat(8.5);
    tariff.season_count = 2;
    for (int m = 5; m < 9; m++)
        tariff.season_of_month[m] = 1;
    set_blocks(&tariff.season[0], winter, 3);
    set_blocks(&tariff.season[1], summer, 4);
    return tariff;
}

static void town_utility_bill(void **state)
{
    (void)state;
    struct tc_tariff tariff = town_tariff();
    assert_null(tc_tariff_fault(&tariff));
    /* Printed: 275.13 of which 7.50 base charge; the printed lines are rounded, 267.625 is not. */
    assert_near(bill_even(&tariff, 6, 2000), 26762.5, 1e-9);
    /* Printed for winter, 1200 kWh: 169.85 of which 7.50 base charge. */
    assert_near(bill_even(&tariff, 0, 1200), 16235, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(town_utility_bill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
