/* SPDX-License-Identifier: MIT */
/*
 * Preloaded into a program: its FAIL_AT-th allocation fails, and with FAIL_ALL
 * set all after it as well; FAIL_COUNT names a file that is told how many
 * there were. Allocations of libiniparser, which does not survive their failing,
 * are left alone unless FAIL_INI is set. glibc only.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* glibc's own, behind those that are taken over here. NOLINTBEGIN(bugprone-reserved-identifier) */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
/* NOLINTEND(bugprone-reserved-identifier) */

static atomic_long seen;
static long at = -1;
static bool all, ini, known;

static bool of_iniparser(const void *caller)
{
    Dl_info info;
    return dladdr(caller, &info) != 0 && info.dli_fname && strstr(info.dli_fname, "iniparser");
}

static bool fails(const void *caller)
{
    if (!known) {
        const char *number = getenv("FAIL_AT");
        known = true;
        all = getenv("FAIL_ALL") != NULL;
        ini = getenv("FAIL_INI") != NULL;
        at = number ? strtol(number, NULL, 10) : -1;
    }
    if (!ini && of_iniparser(caller))
        return false;
    long n = atomic_fetch_add(&seen, 1);
    if (at < 0 || n < at || (n > at && !all))
        return false;
    errno = ENOMEM;
    return true;
}

/* Its parameters have reserved names in stdlib.h.
 * NOLINTBEGIN(readability-inconsistent-declaration-parameter-name) */
void *malloc(size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *memory, size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_realloc(memory, size);
}

__attribute__((destructor)) static void tell(void)
{
    const char *path = getenv("FAIL_COUNT");
    int file = path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600) : -1;
    char digits[24];
    size_t length = 0;
    if (file < 0)
        return;
    for (long n = atomic_load(&seen); n > 0; n /= 10)
        digits[length++] = (char)('0' + n % 10);
    while (length > 0 && write(file, &digits[--length], 1) == 1)
        ;
    close(file);
}
/* NOLINTEND(readability-inconsistent-declaration-parameter-name) */
