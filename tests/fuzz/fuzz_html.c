/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as the texts of a sheet, on a page: they make no mark of the page's
 * own. The page has just the tags and quotes that it has with a harmless text.
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "print/html.h"
#include "sheet/sheet.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(int holds)
{
    if (!holds)
        abort();
}

static void make(struct tc_sheet *sheet, const char *text)
{
    tc_sheet_start(sheet, "odd", 2);
    tc_sheet_head(sheet, text, text, "USD");
    tc_sheet_column(sheet, 0, text, text);
    tc_sheet_column(sheet, 1, "b", "");
    tc_sheet_row(sheet, TC_ROW_GROUP, text, "");
    tc_sheet_row(sheet, TC_ROW_LINE, text, text);
    tc_sheet_text(sheet, 0, text);
    tc_sheet_missing(sheet, 1, text);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s", text);
    tc_sheet_note(sheet, TC_NOTE_CAUTION, "a %s", text);
}

/* Text that breaks out of its place would add or hide one of these. */
static void count_marks(const char *page, size_t counts[4])
{
    static const char marks[] = "<>\"'";
    memset(counts, 0, 4 * sizeof counts[0]);
    for (; *page; page++) {
        const char *mark = strchr(marks, *page);
        if (mark)
            counts[mark - marks]++;
        must((unsigned char)*page >= 0x20 || *page == '\n');
    }
}

static void page_of(const char *text, size_t counts[4])
{
    static const struct tc_print_options options = {.width = 80};
    struct tc_sheet sheet = {0};
    struct tc_text page = TC_TEXT_EMPTY;
    make(&sheet, text);
    must(tc_print_html(&page, &sheet, &options) == TC_OK);
    count_marks(tc_text_string(&page), counts);
    tc_text_free(&page);
    tc_sheet_free(&sheet);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    size_t plain[4], hostile[4];
    char *text = malloc(size + 2);
    must(text != NULL);
    text[0] = 'x'; /* an empty text may leave its tag out */
    memcpy(text + 1, data, size);
    text[size + 1] = '\0';
    page_of("x", plain);
    page_of(text, hostile);
    must(memcmp(plain, hostile, sizeof plain) == 0);
    free(text);
    return 0;
}
