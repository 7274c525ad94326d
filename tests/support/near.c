/* SPDX-License-Identifier: MIT */
#include "support/near.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

void tc_assert_near(double actual, double wanted, double tolerance, const char *what, const char *file,
                    int line)
{
    if (fabs(actual - wanted) <= tolerance)
        return;
    print_error("%s is %.12g, wanted %.12g within %g\n", what, actual, wanted, tolerance);
    _fail(file, line);
}
