/* SPDX-License-Identifier: MIT */
/* printed.h - printing the sample sheets in tests. */
#ifndef TC_TESTS_PRINTED_H
#define TC_TESTS_PRINTED_H

#include "print/print.h"
#include "support/sample_sheets.h"

/* Adds a sample to out; fails the running test if it cannot. */
void print_sample(struct tc_text *out, void (*make)(struct tc_sheet *sheet), enum tc_print_format format,
                  const struct tc_print_options *options);

/* Compares each sample, so printed, with tests/golden/print/NAME + suffix. */
void assert_samples_golden(enum tc_print_format format, const struct tc_print_options *options,
                           const char *suffix);

/* The next line of a text, without its end; false past the last. */
bool next_line(const char **text, const char **line, size_t *length);

#endif
