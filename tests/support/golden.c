/* SPDX-License-Identifier: MIT */
#include "support/golden.h"

#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void write_golden(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    if (!file || fputs(text, file) == EOF || fclose(file) != 0)
        fail_msg("%s: cannot be written", path);
}

/* Says where two texts part, with the two lines. */
static void say_difference(const char *path, const char *wanted, const char *text)
{
    int line = 1;
    size_t start = 0, i = 0;
    for (; wanted[i] && wanted[i] == text[i]; i++) {
        if (wanted[i] == '\n') {
            line++;
            start = i + 1;
        }
    }
    print_error("%s:%d differs\n  wanted: %.*s\n  got:    %.*s\n", path, line,
                (int)strcspn(wanted + start, "\n"), wanted + start, (int)strcspn(text + start, "\n"),
                text + start);
}

void assert_golden(const char *name, const char *text)
{
    char path[256];
    static char wanted[1 << 18];
    snprintf(path, sizeof path, "tests/golden/%s", name);
    const char *update = getenv("UPDATE_GOLDEN");
    if (update && strcmp(update, "1") == 0) {
        write_golden(path, text);
        return;
    }
    FILE *file = fopen(path, "rb");
    if (!file)
        fail_msg("%s: cannot be read (tests run from the top of the tree)", path);
    size_t length = fread(wanted, 1, sizeof wanted - 1, file);
    fclose(file);
    wanted[length] = '\0';
    if (strcmp(wanted, text) != 0) {
        say_difference(path, wanted, text);
        fail();
    }
}
