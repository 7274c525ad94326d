/* SPDX-License-Identifier: MIT */
#include "support/stock_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void stock_add_text(struct tc_stock *stock, const char *name, const char *text, struct tc_faults *faults)
{
    char folder[] = "/tmp/tankcost-test-XXXXXX", path[128];
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/%s.ini", folder, name);
    FILE *file = fopen(path, "w");
    bool written = file && fputs(text, file) >= 0;
    written = file && fclose(file) == 0 && written;
    enum tc_status status = written ? tc_stock_read_file(stock, path, faults) : TC_IO;
    unlink(path);
    rmdir(folder);
    assert_int_equal(status, TC_OK);
}

void stock_add_folder(struct tc_stock *stock, const char *folder)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_stock_read_folder(stock, folder, false, &faults), TC_OK);
    assert_faults(&faults, "");
    tc_faults_free(&faults);
}

/* Takes the folder of stock_add_text out of the texts of faults: it is another one in each run. */
static void drop_folders(char *text)
{
    static const char start[] = "/tmp/tankcost-test-";
    for (char *at = strstr(text, start); at; at = strstr(at, start)) {
        const char *rest = at + sizeof start - 1 + strcspn(at + sizeof start - 1, "/");
        rest += *rest == '/';
        memmove(at, rest, strlen(rest) + 1);
    }
}

void assert_faults(const struct tc_faults *faults, const char *text)
{
    struct tc_text all = TC_TEXT_EMPTY;
    tc_faults_write(faults, &all);
    char *written = tc_text_take(&all);
    assert_non_null(written);
    drop_folders(written);
    bool same = strcmp(written, text) == 0;
    if (!same)
        print_error("faults:\n%s\ninstead of:\n%s\n", written, text);
    free(written);
    assert_true(same);
}
