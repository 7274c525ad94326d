/* SPDX-License-Identifier: MIT */
/* The heated year: the first law, and the year by the minute. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/heat.h"
#include "support/heat_cases.h"
#include "support/near.h"

static void energy_in_is_energy_out(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 2000; i++) {
        struct tc_heat_case c = tc_random_case(&seed);
        struct tc_heat_year y;
        assert_int_equal(tc_heat_year(&c, &y), TC_OK);
        double in = y.heater_total + y.gain_steady + y.gain_light;
        assert_near(tc_heat_loss_total(&y.loss) + y.stored, in, 1e-9 * in);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(energy_in_is_energy_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
