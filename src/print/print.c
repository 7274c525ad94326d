/* SPDX-License-Identifier: MIT */
#include "print/print.h"

#include <locale.h>
#include <string.h>

#include "core/base/name.h"
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
    bool several; /* sheets can follow one another */
} formats[] = {
    [TC_PRINT_TEXT] = {"text", ".txt", tc_print_text, true, true},
    [TC_PRINT_CSV] = {"csv", ".csv", tc_print_csv, false, false},
    [TC_PRINT_MARKDOWN] = {"markdown", ".md", tc_print_markdown, true, true},
    [TC_PRINT_JSON] = {"json", ".json", tc_print_json, false, false},
    [TC_PRINT_HTML] = {"html", ".html", tc_print_html, false, true},
};

enum { FORMAT_COUNT = sizeof formats / sizeof *formats };

bool tc_print_format_find(const char *name, enum tc_print_format *format)
{
    for (size_t i = 0; i < FORMAT_COUNT; i++) {
        if (tc_name_equal(name, formats[i].name)) {
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

bool tc_print_format_several(enum tc_print_format format)
{
    return formats[format].several;
}

static enum tc_status print_several(struct tc_text *out, const char *title, const struct tc_sheet *sheets,
                                    size_t count, enum tc_print_format format,
                                    const struct tc_print_options *options)
{
    enum tc_status status = TC_OK;
    if (format == TC_PRINT_HTML)
        return tc_print_html_page(out, title, sheets, count, options);
    for (size_t i = 0; i < count && status == TC_OK; i++) {
        tc_text_add(out, i > 0 ? "\n" : "");
        status = print(out, &sheets[i], format, options);
    }
    return status;
}

/* Widths of UTF-8 are asked of the C library, which knows them in a locale with UTF-8 alone. */
struct widths {
    locale_t utf8, before;
};

static struct widths start_widths(void)
{
    struct widths widths = {.utf8 = newlocale(LC_CTYPE_MASK, "C.UTF-8", (locale_t)0)};
    widths.before = widths.utf8 ? uselocale(widths.utf8) : (locale_t)0;
    return widths;
}

static void end_widths(struct widths widths)
{
    if (widths.utf8) {
        uselocale(widths.before);
        freelocale(widths.utf8);
    }
}

enum tc_status tc_print(struct tc_text *out, const struct tc_sheet *sheet, enum tc_print_format format,
                        const struct tc_print_options *options)
{
    if (sheet->failed)
        return TC_NO_MEMORY;
    struct widths widths = start_widths();
    enum tc_status status = print(out, sheet, format, options);
    end_widths(widths);
    return status;
}

enum tc_status tc_print_several(struct tc_text *out, const char *title, const struct tc_sheet *sheets,
                                size_t count, enum tc_print_format format,
                                const struct tc_print_options *options)
{
    for (size_t i = 0; i < count; i++)
        if (sheets[i].failed)
            return TC_NO_MEMORY;
    struct widths widths = start_widths();
    enum tc_status status = print_several(out, title, sheets, count, format, options);
    end_widths(widths);
    return status;
}
