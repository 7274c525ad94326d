/* SPDX-License-Identifier: MIT */
#include "core/base/grow.h"

#include <stdint.h>
#include <stdlib.h>

enum { FIRST = 32 };

void *tc_grow(void *items, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    if (*capacity > SIZE_MAX / 2 / size)
        return NULL;
    size_t wanted = *capacity == 0 ? FIRST : 2 * *capacity;
    void *grown = realloc(items, wanted * size);
    if (grown)
        *capacity = wanted;
    return grown;
}
