/* SPDX-License-Identifier: MIT */
/*
 * manual_page.h - lists in manual pages that are made from tables of the
 * program.
 *
 * A list stands in its page between the comments `keys NAME` and `end of
 * keys`. With UPDATE_GOLDEN=1 in the environment it is written there instead
 * of compared: look at the difference before you commit it.
 */
#ifndef TC_TESTS_MANUAL_PAGE_H
#define TC_TESTS_MANUAL_PAGE_H

#include <stdbool.h>

#include "core/base/text.h"

struct manual_page {
    const char *path; /* below the top of the tree */
    struct tc_text text;
    bool differs; /* a list was not as it should be */
};

/* Reads a page; ends the test where it cannot be read. */
void manual_page_start(struct manual_page *page, const char *path);

/* Compares or puts in the list of a name. */
void manual_page_list(struct manual_page *page, const char *name, const char *list);

/* Fails the test where a list differed, or writes the page. Frees it. */
void manual_page_end(struct manual_page *page);

/* Adds a sentence as lines of mdoc: begun with a capital letter, ended with a full stop, no line too long. */
void manual_add_sentence(const char *sentence, struct tc_text *list);

#endif
