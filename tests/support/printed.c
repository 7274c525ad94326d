/* SPDX-License-Identifier: MIT */
#include "support/printed.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "support/golden.h"

void print_sample(struct tc_text *out, void (*make)(struct tc_sheet *sheet), enum tc_print_format format,
                  const struct tc_print_options *options)
{
    struct tc_sheet sheet;
    make(&sheet);
    enum tc_status status = tc_print(out, &sheet, format, options);
    tc_sheet_free(&sheet);
    assert_int_equal(status, TC_OK);
}

void assert_samples_golden(enum tc_print_format format, const struct tc_print_options *options,
                           const char *suffix)
{
    struct tc_text out = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sample_count; i++) {
        char name[64];
        snprintf(name, sizeof name, "print/%s%s", samples[i].name, suffix);
        tc_text_clear(&out);
        print_sample(&out, samples[i].make, format, options);
        assert_golden(name, tc_text_string(&out));
    }
    tc_text_free(&out);
}

bool next_line(const char **text, const char **line, size_t *length)
{
    if (**text == '\0')
        return false;
    *line = *text;
    *length = strcspn(*text, "\n");
    *text += *length + ((*text)[*length] == '\n');
    return true;
}
