/* SPDX-License-Identifier: MIT */
#include "print/print.h"

#include <locale.h>
#include <string.h>

#include "print/ascii.h"
#include "print/csv.h"
#include "print/html.h"
#include "print/json.h"
#include "print/markdown.h"
#include "print/text_sheet.h"

static const struct {
    const char *name;
    const char *ending; /* of a file's name */
    enum tc_status (*print)(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options);
    bool obeys_ascii;
} formats[] = {
    [TC_PRINT_TEXT] = {"text", ".txt", tc_print_text, true},
    [TC_PRINT_CSV] = {"csv", ".csv", tc_print_csv, false},
    [TC_PRINT_MARKDOWN] = {"markdown", ".md", tc_print_markdown, true},
    [TC_PRINT_JSON] = {"json", ".json", tc_print_json, false},
    [TC_PRINT_HTML] = {"html", ".html", tc_print_html, false},
};

enum { FORMAT_COUNT = sizeof formats / sizeof *formats };

bool tc_print_format_find(const char *name, enum tc_print_format *format)
{
    for (size_t i = 0; i < FORMAT_COUNT; i++) {
        if (strcmp(name, formats[i].name) == 0) {
            *format = (enum tc_print_format)i;
            return true;
        }
    }
    return false;
}

bool tc_print_format_of(const char *path, enum tc_print_format *format)
{
    size_t length = strlen(path);
    for (size_t i = 0; i < FORMAT_COUNT; i++) {
        size_t tail = strlen(formats[i].ending);
        if (length > tail && strcmp(path + length - tail, formats[i].ending) == 0) {
            *format = (enum tc_print_format)i;
            return true;
        }
    }
    return false;
}

const char *tc_print_format_name(size_t i)
{
    return i < FORMAT_COUNT ? formats[i].name : NULL;
}

static enum tc_status print(struct tc_text *out, const struct tc_sheet *sheet, enum tc_print_format format,
                            const struct tc_print_options *options)
{
    if (!options->ascii || !formats[format].obeys_ascii)
        return formats[format].print(out, sheet, options);
    struct tc_sheet plain;
    enum tc_status status = tc_ascii_sheet(&plain, sheet);
    if (status == TC_OK)
        status = formats[format].print(out, &plain, options);
    tc_sheet_free(&plain);
    return status;
}

enum tc_status tc_print(struct tc_text *out, const struct tc_sheet *sheet, enum tc_print_format format,
                        const struct tc_print_options *options)
{
    if (sheet->failed)
        return TC_NO_MEMORY;
    /* Widths of UTF-8 are asked of the C library, which knows them in a locale with UTF-8 alone. */
    locale_t utf8 = newlocale(LC_CTYPE_MASK, "C.UTF-8", (locale_t)0);
    locale_t before = utf8 ? uselocale(utf8) : (locale_t)0;
    enum tc_status status = print(out, sheet, format, options);
    if (utf8) {
        uselocale(before);
        freelocale(utf8);
    }
    return status;
}
