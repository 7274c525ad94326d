/* SPDX-License-Identifier: MIT */
/*
 * grow.h - arrays that grow by one item at a time.
 */
#ifndef TC_CORE_BASE_GROW_H
#define TC_CORE_BASE_GROW_H

#include <stddef.h>

/*
 * The array `items`, of `count` items of `size` bytes, with room for one more: where it is full it is
 * allocated anew with twice its capacity, which *capacity says. The caller owns it as before and frees it
 * with free(). NULL if out of memory or too large: the array and its capacity are then as they were.
 */
void *tc_grow(void *items, size_t count, size_t *capacity, size_t size);

#endif
