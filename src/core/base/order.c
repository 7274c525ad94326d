/* SPDX-License-Identifier: MIT */
#include "core/base/order.h"

int tc_ascending(const void *a, const void *b)
{
    return tc_compare(*(const double *)a, *(const double *)b);
}
