/* SPDX-License-Identifier: MIT */
#include "support/manual_page.h"

#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define END ".\\\" end of keys\n"

enum { LINE_MOST = 78 };

static bool updating(void)
{
    const char *update = getenv("UPDATE_GOLDEN");
    return update && strcmp(update, "1") == 0;
}

void manual_page_start(struct manual_page *page, const char *path)
{
    char bytes[4096];
    *page = (struct manual_page){.path = path, .text = TC_TEXT_EMPTY};
    FILE *file = fopen(path, "rb");
    if (!file)
        fail_msg("%s: cannot be read (tests run from the top of the tree)", path);
    for (size_t length; (length = fread(bytes, 1, sizeof bytes, file)) > 0;)
        tc_text_add_bytes(&page->text, bytes, length);
    fclose(file);
    assert_false(page->text.failed);
}

void manual_page_list(struct manual_page *page, const char *name, const char *list)
{
    char begin[64];
    const char *all = tc_text_string(&page->text);
    snprintf(begin, sizeof begin, ".\\\" keys %s\n", name);
    const char *start = strstr(all, begin);
    if (!start)
        fail_msg("%s: lacks the comment 'keys %s'", page->path, name);
    start += strlen(begin);
    const char *end = strstr(start, END);
    if (!end)
        fail_msg("%s: the list after 'keys %s' has no end", page->path, name);
    if (strlen(list) == (size_t)(end - start) && memcmp(start, list, strlen(list)) == 0)
        return;
    page->differs = true;
    if (!updating())
        print_error("%s: the keys of %s are not as in the program\n", page->path, name);
    struct tc_text renewed = TC_TEXT_EMPTY;
    tc_text_add_bytes(&renewed, all, (size_t)(start - all));
    tc_text_add(&renewed, list);
    tc_text_add(&renewed, end);
    assert_false(renewed.failed);
    tc_text_free(&page->text);
    page->text = renewed;
}

void manual_page_end(struct manual_page *page)
{
    bool differs = page->differs;
    if (differs && updating()) {
        FILE *file = fopen(page->path, "wb");
        assert_non_null(file);
        assert_int_equal(fwrite(tc_text_string(&page->text), 1, page->text.length, file), page->text.length);
        assert_int_equal(fclose(file), 0);
    }
    tc_text_free(&page->text);
    if (differs && !updating())
        fail_msg("%s: UPDATE_GOLDEN=1 and this test write the lists anew", page->path);
}

void manual_add_sentence(const char *sentence, struct tc_text *list)
{
    size_t column = 0;
    for (const char *word = sentence; *word != '\0';) {
        size_t length = strcspn(word, " ");
        if (column > 0 && column + 1 + length >= LINE_MOST) {
            tc_text_add_char(list, '\n');
            column = 0;
        } else if (column > 0) {
            tc_text_add_char(list, ' ');
            column++;
        }
        if (column == 0 && (*word == '.' || *word == '\''))
            tc_text_add(list, "\\&");
        tc_text_add_char(list, word == sentence ? (char)toupper((unsigned char)*word) : *word);
        tc_text_add_bytes(list, word + 1, length - 1);
        column += length;
        word += length + (word[length] == ' ');
    }
    tc_text_add(list, ".\n");
}
