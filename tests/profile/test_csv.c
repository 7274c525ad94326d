/* SPDX-License-Identifier: MIT */
/* Comma-separated values: the rules of RFC 4180, section 2, and random tables as python's csv writes them. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/csv.h"
#include "support/failing_malloc.h"
#include "support/need.h"
#include "support/stock_text.h"

/* The fields of a text, each in <>, records ended by a '|'. */
static void assert_fields(const char *text, size_t length, const char *wanted)
{
    struct tc_csv csv;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text got = TC_TEXT_EMPTY;
    assert_int_equal(tc_csv_read("x.csv", text, length, &csv, &faults), TC_OK);
    for (size_t r = 0; r < csv.record_count; r++) {
        for (size_t i = 0; i < csv.record[r].count; i++)
            tc_text_addf(&got, "<%s>", tc_csv_field(&csv, &csv.record[r], i));
        tc_text_add(&got, "|");
    }
    assert_string_equal(tc_text_string(&got), wanted);
    assert_faults(&faults, "");
    tc_text_free(&got);
    tc_csv_free(&csv);
    tc_faults_free(&faults);
}

#define FIELDS(text, wanted) assert_fields(text, sizeof(text) - 1, wanted)

static void the_rules_of_rfc_4180(void **state)
{
    (void)state;
    FIELDS("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "<aaa><bbb><ccc>|<zzz><yyy><xxx>|"); /* 1 */
    FIELDS("aaa,bbb,ccc\r\nzzz,yyy,xxx", "<aaa><bbb><ccc>|<zzz><yyy><xxx>|");     /* 2 */
    FIELDS("a, b ,c\n", "<a>< b ><c>|"); /* 4: blanks are part of a field */
    FIELDS("\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "<aaa><b \r\nbb><ccc>|<zzz><yyy><xxx>|"); /* 5, 6 */
    FIELDS("\"aaa\",\"b\"\"bb\",\"ccc\"", "<aaa><b\"bb><ccc>|");                                    /* 7 */
    FIELDS("", "");
    FIELDS("\n\r\n", "");
    FIELDS("a,\n,b\n,\n", "<a><>|<><b>|");
    FIELDS("\xEF\xBB\xBFname,\"\"", "<name><>|");
    FIELDS("a\"b,c", "<a\"b><c>|");
    /* What sets the first line apart does so in all: semicolons and tabs of other countries' spreadsheets. */
    FIELDS("name;price\r\n\"a;b\";\"39,99\"\r\n", "<name><price>|<a;b><39,99>|");
    FIELDS("name\tprice\na;b\t1,5\n", "<name><price>|<a;b><1,5>|");
    FIELDS("name,price\na;b,1;5\n", "<name><price>|<a;b><1;5>|");
}

static void what_is_wrong(void **state)
{
    static const struct {
        const char *text, *fault;
    } cases[] = {
        {"a,b\n\"c\"d,e\n",
         "x.csv:2: text follows a closing quote; double a quote that is part of a field\n"},
        {"a,b\nc,\"d\ne\n",
         "x.csv:2: a quote is opened and not closed; double a quote that is part of a field\n"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct tc_csv csv;
        struct tc_faults faults = TC_FAULTS_EMPTY;
        assert_int_equal(tc_csv_read("x.csv", cases[i].text, strlen(cases[i].text), &csv, &faults),
                         TC_SYNTAX);
        assert_faults(&faults, cases[i].fault);
        tc_csv_free(&csv);
        tc_faults_free(&faults);
    }
}

/* Python's csv module writes random tables; what it wrote follows each between bytes of its own. */
static void as_python_writes_them(void **state)
{
    static const char program[] =
        "import csv,io,random,sys\n"
        "random.seed(7)\n"
        "for n in range(300):\n"
        "    rows=[[''.join(random.choice('ab,\\\"\\n\\r ;x') for _ in range(random.randint(0,6)))\n"
        "           for _ in range(random.randint(1,5))] for _ in range(random.randint(1,6))]\n"
        "    rows=[['n','m']]+[r for r in rows if any(r)]\n"
        "    o=io.StringIO(); csv.writer(o, delimiter=',;\\t'[n%3]).writerows(rows)\n"
        "    sys.stdout.buffer.write((o.getvalue()+'\\x01'+''.join(''.join('<'+f+'>' for f in r)+'|' for r "
        "in rows)\n"
        "                             +'\\x02').encode())\n";
    (void)state;
    skip_without(system("python3 --version >/dev/null 2>&1") == 0, "python3");
    char path[] = "/tmp/tankcost-csv.XXXXXX", command[128];
    int file = mkstemp(path);
    assert_true(file >= 0);
    FILE *to = fdopen(file, "w");
    assert_non_null(to);
    fputs(program, to);
    fclose(to);
    snprintf(command, sizeof command, "python3 %s", path);
    FILE *from = popen(command, "r");
    assert_non_null(from);
    struct tc_text text = TC_TEXT_EMPTY, wanted = TC_TEXT_EMPTY, *into = &text;
    int tables = 0;
    for (int c; (c = fgetc(from)) != EOF;) {
        if (c == 1) {
            into = &wanted;
        } else if (c == 2) {
            assert_fields(tc_text_string(&text), text.length, tc_text_string(&wanted));
            tc_text_clear(&text);
            tc_text_clear(&wanted);
            into = &text;
            tables++;
        } else {
            tc_text_add_char(into, (char)c);
        }
    }
    assert_int_equal(pclose(from), 0);
    assert_int_equal(tables, 300);
    remove(path);
    tc_text_free(&text);
    tc_text_free(&wanted);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_rules_of_rfc_4180),
        cmocka_unit_test(what_is_wrong),
        cmocka_unit_test(as_python_writes_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
