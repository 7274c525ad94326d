/* SPDX-License-Identifier: MIT */
/* Time of use and blocks against a brute force over all 8760 hours in python3 (tariff_hours.py). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <sys/wait.h>

#include "core/tariff/tariff.h"
#include "support/near.h"
#include "support/need.h"
#include "support/tariff_bill.h"

enum { CASES = 40 };

static double number(FILE *from)
{
    double value = 0;
    if (fscanf(from, "%lf", &value) != 1)
        fail_msg("tests/core/tariff_hours.py wrote fewer numbers than it should");
    return value;
}

static struct tc_tariff read_tariff(FILE *from)
{
    struct tc_tariff tariff = tc_tariff_flat(0);
    int workdays[TC_MONTHS], days[TC_MONTHS];
    tariff.season_count = (int)number(from);
    for (int m = 0; m < TC_MONTHS; m++)
        tariff.season_of_month[m] = (int)number(from);
    tariff.every_unit = number(from);
    tariff.tax = number(from);
    for (int m = 0; m < TC_MONTHS; m++) {
        workdays[m] = (int)number(from);
        days[m] = tc_load_days(m);
    }
    tariff_set_days(&tariff, workdays, days);
    for (int s = 0; s < tariff.season_count; s++) {
        struct tc_tariff_season *season = &tariff.season[s];
        season->by_hour = true;
        for (int i = 0; i < TC_DAY_TYPES * TC_HOURS; i++)
            season->hour[i / TC_HOURS][i % TC_HOURS] = number(from);
        season->block_count = (int)number(from);
        for (int b = 0; b < season->block_count; b++) {
            double limit = number(from);
            season->block[b].limit = limit < 0 ? HUGE_VAL : limit;
            season->block[b].rate = number(from);
            season->block[b].everything = number(from) != 0;
        }
    }
    return tariff;
}

static struct tc_load read_load(FILE *from)
{
    struct tc_load load;
    for (int m = 0; m < TC_MONTHS; m++)
        for (int h = 0; h < TC_HOURS; h++)
            load.use[m][h] = number(from) * tc_load_days(m);
    return load;
}

static void a_year_hour_by_hour(void **state)
{
    (void)state;
    skip_without(program_present("python3"), "python3");
    FILE *from = popen("python3 tests/core/tariff_hours.py 40", "r");
    assert_non_null(from);
    for (int i = 0; i < CASES; i++) {
        struct tc_tariff tariff = read_tariff(from);
        assert_null(tc_tariff_fault(&tariff));
        struct tc_load own = read_load(from), tank = read_load(from);
        double without = number(from), with = number(from);
        struct tc_tariff_margin margin;
        tc_tariff_margin(&margin, &tariff, &own);
        double bill = 0;
        for (int m = 0; m < TC_MONTHS; m++)
            bill += tariff_bill(&tariff, m, own.use[m]);
        assert_near(bill, without, 1e-6);
        assert_near(tc_tariff_added(&margin, &tank), with - without, 1e-6);
    }
    int ended = pclose(from);
    assert_true(WIFEXITED(ended) && WEXITSTATUS(ended) == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_year_hour_by_hour)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
