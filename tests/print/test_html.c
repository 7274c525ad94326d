/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "print/html.h"
#include "print/markup.h"
#include "support/draw.h"
#include "support/printed.h"
#include "support/step.h"

static const struct tc_print_options options = {.width = 80};

static void test_golden(void **state)
{
    (void)state;
    assert_samples_golden(TC_PRINT_HTML, &options, ".html");
}

/* As the named characters of HTML and the rules of XML 1.0 2.2 have it. */
static void test_markup_is_escaped(void **state)
{
    static const char *const pairs[][2] = {
        {"<b> & \"it's\"", "&lt;b&gt; &amp; &quot;it&#39;s&quot;"},
        {"&lt;", "&amp;lt;"},
        {"]]>", "]]&gt;"},
        {"Größe 水槽", "Größe 水槽"},
        {"\033[31m", "\xEF\xBF\xBD[31m"},
        {"a\x80z", "a\xEF\xBF\xBDz"},
        {"\xC2\x85", "\xEF\xBF\xBD"},         /* U+0085, a control character */
        {"\xEF\xBF\xBE", "\xEF\xBF\xBD"},     /* U+FFFE, a noncharacter */
        {"\xF0\x9F\xBF\xBF", "\xEF\xBF\xBD"}, /* U+1FFFF, another */
        {"\xEF\xB7\x90", "\xEF\xBF\xBD"},     /* U+FDD0, another */
    };
    (void)state;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        struct tc_text out = TC_TEXT_EMPTY;
        tc_markup_add(&out, pairs[i][0]);
        assert_string_equal(tc_text_string(&out), pairs[i][1]);
        tc_text_free(&out);
    }
}

/* A text of what pages trip over, put together at random. */
static const char *hostile(struct tc_random *random, char *buffer, size_t size)
{
    static const char *const pieces[] = {"<",
                                         ">",
                                         "&",
                                         "\"",
                                         "'",
                                         "</title>",
                                         "</style>",
                                         "<script>x()</script>",
                                         "-->",
                                         "<!--",
                                         "]]>",
                                         "/>",
                                         "&amp;",
                                         "&#0;",
                                         "javascript:",
                                         "onload=",
                                         " x='",
                                         "=\"",
                                         "\xFF",
                                         "\xC3",
                                         "\xED\xA0\x80",
                                         "\x01",
                                         "\x7F",
                                         "\xC2\x9B",
                                         "\xEF\xBF\xBF",
                                         "<svg/onload=x>",
                                         "<p",
                                         "x",
                                         "水",
                                         " ",
                                         "http://",
                                         "url(",
                                         "\\"};
    size_t length = (size_t)snprintf(buffer, size, "x"), count = draw_index(random, 6);
    for (size_t i = 0; i < count; i++) {
        const char *piece = pieces[draw_index(random, sizeof pieces / sizeof pieces[0])];
        if (length + strlen(piece) < size)
            length += (size_t)snprintf(buffer + length, size - length, "%s", piece);
    }
    return buffer;
}

/* A sheet with a text in every place that has one; `plain` takes the same form with the text "x". */
static void make_hostile(struct tc_sheet *sheet, struct tc_random *random, bool plain)
{
    char text[128];
#define HOSTILE (hostile(random, text, sizeof text), plain ? "x" : text)
    tc_sheet_start(sheet, "odd", 2);
    tc_sheet_head(sheet, HOSTILE, HOSTILE, HOSTILE);
    tc_sheet_column(sheet, 0, HOSTILE, HOSTILE);
    tc_sheet_column(sheet, 1, HOSTILE, "");
    tc_sheet_row(sheet, TC_ROW_GROUP, HOSTILE, "");
    tc_sheet_row(sheet, TC_ROW_LINE, HOSTILE, HOSTILE);
    tc_sheet_text(sheet, 0, HOSTILE);
    tc_sheet_missing(sheet, 1, HOSTILE);
    tc_sheet_mark(sheet, 0, TC_MARK_BEST | TC_MARK_TYPED);
    tc_sheet_sentence(sheet, HOSTILE, HOSTILE);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s", HOSTILE);
    tc_sheet_note(sheet, TC_NOTE_CAUTION, "%s", HOSTILE);
    for (enum tc_chart_kind kind = TC_CHART_BARS; kind <= TC_CHART_SPANS; kind++) {
        struct tc_chart *chart = tc_sheet_chart(sheet, kind, 2, 2);
        chart->title = tc_sheet_copy(sheet, HOSTILE);
        chart->x_title = tc_sheet_copy(sheet, HOSTILE);
        chart->y_title = tc_sheet_copy(sheet, HOSTILE);
        for (size_t i = 0; i < 2; i++) {
            chart->x_labels[i] = tc_sheet_copy(sheet, HOSTILE);
            chart->series[i].name = tc_sheet_copy(sheet, HOSTILE);
            chart->series[0].values[i] = (double)i;
            chart->series[1].values[i] = 3 - (double)i;
        }
    }
    tc_sheet_drawing(sheet, HOSTILE, 1, 1, plain ? "in" : "<", 0.1);
    tc_sheet_box(sheet, (struct tc_box){0.1, 0.1, 0.5, 0.5, '<', HOSTILE});
#undef HOSTILE
}

/*
 * The elements of a page in order, by their names, without the texts of pictures and the lines, which are the
 * ticks of labels: how many there are depends on the texts' lengths. Nothing else may.
 */
static void add_elements(struct tc_text *out, const char *page)
{
    for (const char *p = strchr(page, '<'); p; p = strchr(p + 1, '<')) {
        size_t length = strcspn(p + 1, " >") + 1;
        if (strncmp(p, "<text", 5) == 0 || strncmp(p, "</text", 6) == 0 || strncmp(p, "<line", 5) == 0)
            continue;
        tc_text_add_bytes(out, p, length);
    }
}

static void print_hostile(struct tc_text *page, struct tc_text *elements, uint64_t seed, bool plain)
{
    struct tc_random random = draw_from(seed);
    struct tc_sheet sheet;
    make_hostile(&sheet, &random, plain);
    assert_int_equal(tc_print(page, &sheet, TC_PRINT_HTML, &options), TC_OK);
    add_elements(elements, tc_text_string(page));
    tc_sheet_free(&sheet);
}

/* No text makes an element, ends one or leaves its attribute: the page has the elements of a harmless one. */
static void test_no_text_is_markup(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 300; seed += (uint64_t)test_step()) {
        struct tc_text page = TC_TEXT_EMPTY, elements = TC_TEXT_EMPTY;
        struct tc_text plain = TC_TEXT_EMPTY, plain_elements = TC_TEXT_EMPTY;
        print_hostile(&page, &elements, seed, false);
        print_hostile(&plain, &plain_elements, seed, true);
        assert_string_equal(tc_text_string(&elements), tc_text_string(&plain_elements));
        const char *text = tc_text_string(&page);
        size_t quotes = 0;
        for (size_t i = 0; i < page.length;) { /* all of it is UTF-8 that a page may hold */
            uint32_t code;
            int n = tc_utf8_decode(text + i, page.length - i, &code);
            assert_true(n > 0 && (code >= 0x20 || code == '\n') && code != 0x7F);
            quotes += code == '"';
            i += (size_t)n;
        }
        assert_int_equal(quotes % 2, 0);
        tc_text_free(&page);
        tc_text_free(&elements);
        tc_text_free(&plain);
        tc_text_free(&plain_elements);
    }
}

static size_t count_of(const char *text, const char *what)
{
    size_t count = 0;
    for (const char *p = strstr(text, what); p; p = strstr(p + 1, what))
        count++;
    return count;
}

/* Several sheets on one page: a link to each, the first one's findings above all, each caution once. */
static void test_page_of_several(void **state)
{
    struct tc_sheet sheets[2];
    struct tc_text page = TC_TEXT_EMPTY;
    (void)state;
    for (int i = 0; i < 2; i++) {
        tc_sheet_start(&sheets[i], i == 0 ? "one" : "two", 0);
        tc_sheet_head(&sheets[i], i == 0 ? "First" : "Second", "", "");
        tc_sheet_note(&sheets[i], TC_NOTE_FINDING, i == 0 ? "Take this." : "It lasts.");
        tc_sheet_note(&sheets[i], TC_NOTE_CAUTION, "Mind the floor.");
    }
    assert_int_equal(tc_print_html_page(&page, "All", sheets, 2, &options), TC_OK);
    const char *text = tc_text_string(&page);
    assert_int_equal(count_of(text, "Mind the floor."), 1);
    assert_int_equal(count_of(text, "Take this."), 1);
    assert_int_equal(count_of(text, "It lasts."), 1);
    assert_true(strstr(text, "Take this.") < strstr(text, "<nav"));
    assert_true(strstr(text, "It lasts.") > strstr(text, "Second</h2>"));
    assert_int_equal(count_of(text, "<a href=\"#s"), 2);
    assert_int_equal(count_of(text, "<section id=\"s"), 2);
    assert_int_equal(count_of(text, "<h1>"), 1);
    for (int i = 0; i < 2; i++)
        tc_sheet_free(&sheets[i]);
    tc_text_free(&page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),
        cmocka_unit_test(test_markup_is_escaped),
        cmocka_unit_test(test_no_text_is_markup),
        cmocka_unit_test(test_page_of_several),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
