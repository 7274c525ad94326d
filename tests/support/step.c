/* SPDX-License-Identifier: MIT */
#include "support/step.h"

#include <stdlib.h>

int test_step(void)
{
    const char *wanted = getenv("TEST_STEP");
    long step = wanted ? strtol(wanted, NULL, 10) : 1;

    return step > 1 && step < 1000 ? (int)step : 1;
}
