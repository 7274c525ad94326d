/* SPDX-License-Identifier: MIT */
#include "support/failing_malloc.h"

#include <errno.h>
#include <stddef.h>

/* Names the linker makes up for --wrap; there is no header for them. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *memory, size_t size);
char *__real_strdup(const char *string);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *memory, size_t size);
char *__wrap_strdup(const char *string);

static bool active, keeps_failing, failed;
static long left;
static size_t largest;

static bool fails_now(size_t size)
{
    if (active && size > largest)
        largest = size;
    if (!active || left-- > 0)
        return false;
    if (failed && !keeps_failing)
        return false;
    failed = true;
    errno = ENOMEM;
    return true;
}

void failing_malloc_start(long good, bool lasting)
{
    active = true;
    keeps_failing = lasting;
    failed = false;
    left = good;
    largest = 0;
}

bool failing_malloc_stop(void)
{
    active = false;
    return failed;
}

size_t failing_malloc_largest(void)
{
    return largest;
}

void *__wrap_malloc(size_t size)
{
    return fails_now(size) ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails_now(count * size) ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *memory, size_t size)
{
    return fails_now(size) ? NULL : __real_realloc(memory, size);
}

char *__wrap_strdup(const char *string)
{
    return fails_now(1) ? NULL : __real_strdup(string);
}
