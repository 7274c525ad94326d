/* SPDX-License-Identifier: MIT */
/*
 * failing_malloc.h - lets allocations of the program fail on purpose.
 *
 *     for (long n = 0;; n++) {
 *         failing_malloc_start(n, false);
 *         ...the work...
 *         if (!failing_malloc_stop())
 *             break;                   nothing failed any more: all were tried
 *         ...it must have reported the failure...
 *     }
 *
 * Works through the linker's --wrap, which the Makefile gives to all tests: so
 * only calls from our own objects fail, not those within shared libraries.
 */
#ifndef TC_TESTS_FAILING_MALLOC_H
#define TC_TESTS_FAILING_MALLOC_H

#include <stdbool.h>
#include <stddef.h>

/* From now on `good` allocations succeed and the next fails: that one only, or with lasting set all after it.
 */
void failing_malloc_start(long good, bool lasting);

/* Back to normal; true if an allocation was made to fail since the start. */
bool failing_malloc_stop(void);

/* The bytes of the largest allocation asked for since the start. */
size_t failing_malloc_largest(void);

#endif
