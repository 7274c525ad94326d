/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* RTLD_NEXT */
/*
 * Reading one INI file: what is good comes through with its line, everything
 * iniparser would misread is reported in exact words, whatever fails.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dlfcn.h>
#include <iniparser.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/text.h"
#include "profile/ini.h"
#include "profile/ini_values.h"
#include "support/failing_malloc.h"
#include "support/ini_read.h"

/*
 * This iniparser_load() stands before the library's, which is a shared one, so
 * that a test can have it misbehave as it does when its memory runs out. It is
 * given the different values by their numbers, the second as a1.
 */
enum misbehaviour { NONE, COMPLAIN, NO_DICTIONARY, LOSE_KEY, LOSE_SECTION, LOSE_VALUE, LONGER_VALUE };
static enum misbehaviour misbehaviour;

/* NOLINTNEXTLINE(readability-inconsistent-declaration-parameter-name): a library's function, a word of ours
 */
dictionary *iniparser_load(const char *ininame)
{
    dictionary *(*real)(const char *);
    void *symbol = dlsym(RTLD_NEXT, "iniparser_load");
    memcpy(&real, &symbol, sizeof real); /* ISO C has no cast from object to function pointers */
    dictionary *entries = real(ininame);

    switch (misbehaviour) {
    case NONE: break;
    case COMPLAIN:
        /* Its message quotes the name, escapes and all. */
        assert_null(real("/nowhere/\x1B[31m\n"));
        assert_null(real("/nowhere/second"));
        break;
    case NO_DICTIONARY: iniparser_freedict(entries); return NULL;
    case LOSE_KEY: iniparser_unset(entries, "v:a1"); break;
    case LOSE_SECTION: iniparser_unset(entries, "v"); break;
    case LOSE_VALUE: iniparser_set(entries, "v:a1", NULL); break;
    case LONGER_VALUE: iniparser_set(entries, "v:a1", "20 in and more"); break;
    }
    return entries;
}

/* What was read, as `[section]key=value,key=value`, a '!' before a bad section. */
static void describe(const struct tc_ini *ini, struct tc_text *text)
{
    for (size_t i = 0; i < ini->section_count; i++) {
        const struct tc_ini_section *section = &ini->sections[i];
        tc_text_addf(text, "%s[%s]", section->bad ? "!" : "", section->name);
        for (size_t j = 0; j < section->key_count; j++)
            tc_text_addf(text, "%s%s=%s", j == 0 ? "" : ",", section->keys[j].name, section->keys[j].value);
    }
}

static void assert_read(const char *content, size_t length, enum tc_status status, const char *faults_wanted,
                        const char *good_wanted)
{
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text said = TC_TEXT_EMPTY, good = TC_TEXT_EMPTY;

    assert_int_equal(tc_ini_read_bytes("f", content, length, &ini, &faults), status);
    tc_faults_write(&faults, &said);
    describe(&ini, &good);
    if (strcmp(tc_text_string(&said), faults_wanted) != 0 || strcmp(tc_text_string(&good), good_wanted) != 0)
        print_error("in: %.200s\n", content);
    assert_string_equal(tc_text_string(&said), faults_wanted);
    assert_string_equal(tc_text_string(&good), good_wanted);
    tc_text_free(&said);
    tc_text_free(&good);
    tc_faults_free(&faults);
    tc_ini_free(&ini);
}

struct row {
    const char *content, *faults, *good;
};

static void assert_rows(const struct row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++)
        assert_read(rows[i].content, strlen(rows[i].content), TC_OK, rows[i].faults, rows[i].good);
}

#define ASSERT_ROWS(rows) assert_rows(rows, sizeof rows / sizeof rows[0])

static void good_files_come_through(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {"", "", ""},
        {"\n\n  \n\t\n", "", ""},
        {"# only\n; comments\n  # indented\n", "", ""},
        {"[a]\nk = v\n", "", "[a]k=v"},
        {"[a]\nk=v", "", "[a]k=v"}, /* no newline at the end */
        {"[a]\r\nk = v\r\nl = w\r\n", "", "[a]k=v,l=w"},
        {"\xEF\xBB\xBF[a]\nk = v\n", "", "[a]k=v"}, /* iniparser: syntax error, nothing loaded */
        {"\xEF\xBB\xBF", "", ""},
        {"  [a]  \n\tk\t=\tv w\t\n", "", "[a]k=v w"},
        {"[Tank  29-HIGH]\nLength = 30 In\n", "", "[tank 29-high]length=30 In"},
        {"[ tank\t a ]\nk=v\n", "", "[tank a]k=v"},
        {"[a]\n[b]\nk=v\n[c]\n", "", "[a][b]k=v[c]"},
        {"[a]\nk=1\n[b]\nk=2\n", "", "[a]k=1[b]k=2"},
        {"[a]\nroom = 19\t19  20 C\n", "", "[a]room=19 19  20 C"},
        {"[a]\nk = a=b=c\n", "", "[a]k=a=b=c"},
        {"[a]\nk = Gr\xC3\xB6\xC3\x9F"
         "e \xE6\xB0\xB4\n",
         "",
         "[a]k=Gr\xC3\xB6\xC3\x9F"
         "e \xE6\xB0\xB4"},
        {"[a]\nlength = 30\"\nname = Joe's, 12' long\n", "", "[a]length=30\",name=Joe's, 12' long"},
        {"[a]\npath = C:\\tanks\\new\nratio = 1:2\n", "", "[a]path=C:\\tanks\\new,ratio=1:2"},
        {"[a]\nk = [b]\n", "", "[a]k=[b]"},
        {"[a]\nk = 100 %\nl = %s%n\n", "", "[a]k=100 %,l=%s%n"},
        /* What is not a number is for those to refuse who know what the key means. */
        {"[a]\nk = 1,5\nl = 0x1p4\nm = nan\n", "", "[a]k=1,5,l=0x1p4,m=nan"},
        /* Comments behind something. */
        {"[a] ; note\nk = v ; note\nl = w # note\nm = x ;\nn = y ## note; more\n", "", "[a]k=v,l=w,m=x,n=y"},
        {"[a]# note\nk = v\t;\tnote\n", "", "[a]k=v"},
        {"[a]\nk = 1 ; was 2 # or 3\n", "", "[a]k=1"},
        /* iniparser: the key goes to the section before, as "[b] # cost". */
        {"[a]\n[b] # cost=9\nk=v\n", "", "[a][b]k=v"},
        /* iniparser: the next line vanishes into the comment. */
        {"# see C:\\\n[a]\nk = v ; see C:\\\nl = w\n", "", "[a]k=v,l=w"},
        /* Quotes. */
        {"[a]\nk = \"a ; b # c\"\nl = 'a;b'\nm = \"\"\nn = ''\n", "", "[a]k=a ; b # c,l=a;b,m=,n="},
        {"[a]\nk = \"  padded  \"\nl = 'say \"hi\"'\nm = \"it's\"\n", "",
         "[a]k=  padded  ,l=say \"hi\",m=it's"},
        {"[a]\nk = \"v\" ; note\nl = \"v\"#note\nm = \"a=b\"\nn = \"=\"\n", "", "[a]k=v,l=v,m=a=b,n=="},
        {"[a]\nk = \" \"\nl = \";\"\nm = '#'\nn = \"'\"\no = '\"'\n", "", "[a]k= ,l=;,m=#,n=',o=\""},
        {"[a]\nk = \"[b]\"\nl = \"a\tb\"\n", "", "[a]k=[b],l=a b"},
    };
    ASSERT_ROWS(rows);
}

static void faulty_sections_are_reported(void **state)
{
    (void)state;
    static const struct row rows[] = {
        /* iniparser: a NULL under the name of a key, on which its typed getters crash (CVE-2023-33461). */
        {"[tank:price]\nk=1\n[b]\nk=2\n", "f:1: '[tank:price]': ':' cannot be in a name; use '-'\n",
         "![][b]k=2"},
        {"[tank:price] k=1\n[tank]\nprice=5\n",
         "f:1: '[tank:price] k=1': a section's line ends with its ']'; only a comment may follow\n",
         "![][tank]price=5"},
        /* iniparser: the section before goes on. */
        {"[a]\nk=1\n[]\nk=2\n", "f:3: the section has no name; write it between '[' and ']'\n", "[a]k=1![]"},
        {"[ ]\n", "f:1: the section has no name; write it between '[' and ']'\n", "![]"},
        {"[a]b]\nk=1\n", "f:1: '[a]b]': a section's line ends with its ']'; only a comment may follow\n",
         "![]"},
        {"[a]]\n", "f:1: '[a]]': a section's line ends with its ']'; only a comment may follow\n", "![]"},
        {"[[a]]\n", "f:1: '[[a]]': a section's line ends with its ']'; only a comment may follow\n", "![]"},
        {"[a]\\\nk=1\n", "f:1: '[a]\\': a section's line ends with its ']'; only a comment may follow\n",
         "![]"},
        {"[a]\nk=1\n[b\nk=2\n", "f:3: '[b': the ']' that ends a section's name is missing\n", "[a]k=1![]"},
        {"[a ; note]\n", "f:1: '[a ; note]': names are made of letters, digits, '-' and '.', 47 at most\n",
         "![]"},
        {"[tank my_tank]\n",
         "f:1: '[tank my_tank]': names are made of letters, digits, '-' and '.', 47 at most; write '[tank "
         "my-tank]'\n",
         "![]"},
        {"[Tank Caf\xC3\xA9 2]\n",
         "f:1: '[tank caf\xC3\xA9 2]': names are made of letters, digits, '-' and '.', 47 at most; write "
         "'[tank caf 2]'\n",
         "![]"},
        {"[tank \x1B[2J]\n",
         "f:1: '[tank ?[2j]': names are made of letters, digits, '-' and '.', 47 at most; write '[tank "
         "2j]'\n",
         "![]"},
        {"[tank \xFF]\n", "f:1: '[tank ?]': names are made of letters, digits, '-' and '.', 47 at most\n",
         "![]"},
        {"[tank aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa]\n", "", /* 47 */
         "[tank aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa]"},
        {"[tank aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa]\n",
         "f:1: '[tank aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa]': names are made of letters, digits, "
         "'-' and '.', 47 at most\n",
         "![]"},
        /* iniparser: merged, the last value wins. */
        {"[a]\nk=1\n[b]\nk=2\n[a]\nk=3\n",
         "f:5: [a]: the section is there twice, first in line 1; neither is used: rename or remove one\n",
         "![a]k=1[b]k=2![a]"},
        {"[a]\n[b]\n[c]\n[b]\n",
         "f:4: [b]: the section is there twice, first in line 2; neither is used: rename or remove one\n",
         "[a]![b][c]![b]"},
        {"[tank a]\n[TANK  A]\n",
         "f:2: [tank a]: the section is there twice, first in line 1; neither is used: rename or remove "
         "one\n",
         "![tank a]![tank a]"},
        {"[a]\n[a]\n[a]\n",
         "f:2: [a]: the section is there twice, first in line 1; neither is used: rename or remove one\n"
         "f:3: [a]: the section is there twice, first in line 1; neither is used: rename or remove one\n",
         "![a]![a]![a]"},
        /* Two sections with faulty names are not the same one. */
        {"[x:1]\n[x:1]\n",
         "f:1: '[x:1]': ':' cannot be in a name; use '-'\nf:2: '[x:1]': ':' cannot be in a name; use '-'\n",
         "![]![]"},
        /* Keys below a faulty name are looked at, but belong to nothing. */
        {"[a]\nk=1\n[b:c]\nl=2\nm=\n[d]\nk=3\n",
         "f:3: '[b:c]': ':' cannot be in a name; use '-'\n"
         "f:5: m: there is no value; write one, \"\" for an empty text, or remove the line\n",
         "[a]k=1![][d]k=3"},
    };
    ASSERT_ROWS(rows);
}

static void faulty_keys_are_reported(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {"k = 1\n[a]\nk=1\n", "f:1: k: the key stands before the first '[section]'; move it below one\n",
         "[a]k=1"},
        {"k = 1\nl = 2\nm\n", /* said once, but other faults are still seen */
         "f:1: k: the key stands before the first '[section]'; move it below one\n"
         "f:3: 'm': there is no '='; write 'key = value', '[section]' or '# comment'\n",
         ""},
        {"[a]\nk=1\nhello world\nl=2\n",
         "f:3: [a]: 'hello world': there is no '='; write 'key = value', '[section]' or '# comment'\n",
         "![a]k=1,l=2"},
        {"[a]\nlength: 30 in\n",
         "f:2: [a]: 'length: 30 in': there is no '='; write 'key = value', with '=' for ':'\n", "![a]"},
        {"[a]\n// note\n",
         "f:2: [a]: '// note': there is no '='; write 'key = value', '[section]' or '# comment'\n", "![a]"},
        {"[a]\n= 1\n", "f:2: [a]: there is no key before the '='\n", "![a]"},
        {"[a]\n a:b = 1\n", "f:2: [a] a:b: ':' cannot be in a name; use '-'\n", "![a]"},
        {"[a]\nSale Price = 1\n",
         "f:2: [a] sale price: a key is one word of letters, digits, '-' and '.', 47 at most; write "
         "'sale-price'\n",
         "![a]"},
        {"[a]\nsale_price = 1\n",
         "f:2: [a] sale_price: a key is one word of letters, digits, '-' and '.', 47 at most; write "
         "'sale-price'\n",
         "![a]"},
        {"[a]\n\"k\" = 1\n",
         "f:2: [a] \"k\": a key is one word of letters, digits, '-' and '.', 47 at most; write 'k'\n",
         "![a]"},
        {"[a]\n\xC3\xA9 = 1\n",
         "f:2: [a] \xC3\xA9: a key is one word of letters, digits, '-' and '.', 47 at most\n", "![a]"},
        {"[a]\n\x1B[31mk = 1\n",
         "f:2: [a] ?[31mk: a key is one word of letters, digits, '-' and '.', 47 at most; write '31mk'\n",
         "![a]"},
        {"[a]\n\fk = 1\n",
         "f:2: [a] ?k: a key is one word of letters, digits, '-' and '.', 47 at most; write 'k'\n", "![a]"},
        {"[a]\nkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk = 1\n",
         "f:2: [a] kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk...: a key is one word of "
         "letters, "
         "digits, '-' and '.', 47 at most\n",
         "![a]"},
        /* iniparser: the last value wins. */
        {"[a]\nk=1\nl=2\nk=3\n", "f:4: [a] k: the key is there twice, first in line 2; remove one\n",
         "![a]k=1,l=2"},
        {"[a]\nk=1\nl=2\nm=4\nl=3\n", "f:5: [a] l: the key is there twice, first in line 3; remove one\n",
         "![a]k=1,l=2,m=4"},
        {"[b]\nk=0\n[a]\nk=1\nK = 1\n", "f:5: [a] k: the key is there twice, first in line 4; remove one\n",
         "[b]k=0![a]k=1"},
    };
    ASSERT_ROWS(rows);
}

static void faulty_values_are_reported(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {"[a]\nk =\nl=1\n",
         "f:2: [a] k: there is no value; write one, \"\" for an empty text, or remove the line\n", "![a]l=1"},
        {"[a]\nk = ; nothing\n",
         "f:2: [a] k: there is no value; write one, \"\" for an empty text, or remove the line\n", "![a]"},
        /* iniparser: the value is "=5". */
        {"[a]\nx==5\n",
         "f:2: [a] x: the value starts with '='; write a single '=', or put the value in quotes\n", "![a]"},
        {"[a]\nx = = 5\n",
         "f:2: [a] x: the value starts with '='; write a single '=', or put the value in quotes\n", "![a]"},
        /* iniparser: "Cafe", "http://x/y", without a word. */
        {"[a]\nname = Cafe #2; big\n",
         "f:2: [a] name: '#' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\nurl = http://x/y#z\n",
         "f:2: [a] url: '#' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\nk = 5; wide\n",
         "f:2: [a] k: ';' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\nk = 5 ;wide\n",
         "f:2: [a] k: ';' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\ncolour = #00ff00\n",
         "f:2: [a] colour: '#' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\nk = 5 #;\n",
         "f:2: [a] k: '#' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        /* iniparser: `say \`, `x ; comment`, `x`, `it`. */
        {"[a]\nk = \"say \\\"hi\\\" now\"\n",
         "f:2: [a] k: text follows the closing \"; put the whole value in one pair of quotes\n", "![a]"},
        {"[a]\nk = \"x ; comment\nl = 1\n",
         "f:2: [a] k: the value starts with a \" that is not closed; close it, or put the value in '...'\n",
         "![a]l=1"},
        {"[a]\nk = \"x\" junk\n",
         "f:2: [a] k: text follows the closing \"; put the whole value in one pair of quotes\n", "![a]"},
        {"[a]\nk = 'it''s'\n",
         "f:2: [a] k: text follows the closing '; put the whole value in one pair of quotes\n", "![a]"},
        {"[a]\nk = 'tis\n",
         "f:2: [a] k: the value starts with a ' that is not closed; close it, or put the value in \"...\"\n",
         "![a]"},
        {"[a]\nk = \"\n",
         "f:2: [a] k: the value starts with a \" that is not closed; close it, or put the value in '...'\n",
         "![a]"},
        {"[a]\nk = \"\"\"\"\n",
         "f:2: [a] k: text follows the closing \"; put the whole value in one pair of quotes\n", "![a]"},
        /* Read as written by 4.1, as an escape by 4.2. */
        {"[a]\nk = \"C:\\new\"\n",
         "f:2: [a] k: '\\' cannot be in quotes; write '/' or leave the quotes out\n", "![a]"},
        /* iniparser: the next line is swallowed, at the end of the file this one is dropped. */
        {"[a]\npath=C:\\\ny=2\n",
         "f:2: [a] path: a value cannot go on in the next line; remove the '\\' at its end\n", "![a]y=2"},
        {"[a]\npath=C:\\",
         "f:2: [a] path: a value cannot go on in the next line; remove the '\\' at its end\n", "![a]"},
        {"[a]\npath=C:\\ \t ; note\n",
         "f:2: [a] path: a value cannot go on in the next line; remove the '\\' at its end\n", "![a]"},
        {"[a]\nk = caf\xE9\n", "f:2: [a] k: the value is not UTF-8; save the file in that encoding\n",
         "![a]"},
        {"[a]\nk = \"\xC0\xAF\"\n", "f:2: [a] k: the value is not UTF-8; save the file in that encoding\n",
         "![a]"},
        {"[a]\nk = \x1B]0;title\x07\n",
         "f:2: [a] k: ';' starts a comment only between blanks; if it belongs to the value, put that in "
         "quotes\n",
         "![a]"},
        {"[a]\nk = \x1B[2J\n", "f:2: [a] k: the value holds the control character U+001B; remove it\n",
         "![a]"},
        {"[a]\nk = a\x7F\n", "f:2: [a] k: the value holds the control character U+007F; remove it\n", "![a]"},
        {"[a]\nk = a\vb\n", "f:2: [a] k: the value holds the control character U+000B; remove it\n", "![a]"},
        {"[a]\nk = \xC2\x9B"
         "2J\n",
         "f:2: [a] k: the value holds the control character U+009B; remove it\n", "![a]"},
        {"[a]\nk = \xE2\x80\xAE"
         "evil\n",
         "f:2: [a] k: the value holds the control character U+202E; remove it\n", "![a]"},
        /* A classic Mac file is one line; iniparser makes one nonsense key of it. */
        {"[a]\rk = 1\r",
         "f:1: there is a carriage return within the line; save the file with LF or CRLF at the ends of "
         "lines\n",
         "![]"},
        {"[a]\nk = 1\rl = 2\n",
         "f:2: [a]: there is a carriage return within the line; save the file with LF or CRLF at the ends of "
         "lines\n",
         "![a]"},
        {"[a]\n# note\rk = 2\n",
         "f:2: [a]: there is a carriage return within the line; save the file with LF or CRLF at the ends of "
         "lines\n",
         "![a]"},
    };
    ASSERT_ROWS(rows);
}

static void what_is_no_text_is_refused_as_a_whole(void **state)
{
    (void)state;
    static const char nul[] = "[a]\nk=1\0\n", le[] = "\xFF\xFE[\0a\0]\0", be[] = "\xFE\xFF\0[\0a\0]",
                      bare[] = "[\0a\0]\0";

    assert_read(nul, sizeof nul - 1, TC_SYNTAX,
                "f:2: there is a NUL byte: the file is no text, or not saved as UTF-8\n", "");
    assert_read(le, sizeof le - 1, TC_SYNTAX, "f: the file is UTF-16; save it as UTF-8\n", "");
    assert_read(be, sizeof be - 1, TC_SYNTAX, "f: the file is UTF-16; save it as UTF-8\n", "");
    assert_read(bare, sizeof bare - 1, TC_SYNTAX,
                "f:1: there is a NUL byte: the file is no text, or not saved as UTF-8\n", "");
}

static void lines_are_those_of_the_file(void **state)
{
    (void)state;
    static const char content[] = "\xEF\xBB\xBF# 1\n\n[a] ; 3\n\n  k = 5\r\n\r\n[b]\nl=8\nm=9";
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;

    assert_int_equal(tc_ini_read_bytes("f", content, sizeof content - 1, &ini, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    const struct tc_ini_section *a = ini_section(&ini, "a"), *b = ini_section(&ini, "b");
    assert_int_equal(a->line, 3);
    assert_int_equal(b->line, 7);
    assert_int_equal(tc_ini_key(a, "k")->line, 5);
    assert_int_equal(tc_ini_key(b, "l")->line, 8);
    assert_int_equal(tc_ini_key(b, "m")->line, 9);
    assert_string_equal(tc_ini_key(b, "m")->value, "9");
    assert_null(tc_ini_key(a, "l"));
    assert_null(ini_section(&ini, "c"));
    assert_string_equal(ini.file, "f");
    tc_ini_free(&ini);
    tc_ini_free(&ini);
}

/* ------------------------------------------------------------------- limits */

static void add_times(struct tc_text *text, const char *piece, size_t times)
{
    tc_text_add_repeated(text, piece, times);
    assert_false(text->failed);
}

static void assert_text(struct tc_text *content, const char *faults, const char *good)
{
    assert_read(content->data, content->length, TC_OK, faults, good);
    tc_text_clear(content);
}

static void long_lines_are_reported(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY, good = TC_TEXT_EMPTY;

    /* The longest line there may be reaches iniparser whole: "k = xxx" of 1000 bytes. */
    tc_text_add(&text, "[a]\nk = ");
    add_times(&text, "x", TC_INI_LINE_MAX - 4);
    tc_text_add(&text, "\nl = 1\n");
    tc_text_add(&good, "[a]k=");
    add_times(&good, "x", TC_INI_LINE_MAX - 4);
    tc_text_add(&good, ",l=1");
    assert_text(&text, "", tc_text_string(&good));

    tc_text_add(&text, "[a]\nk = ");
    add_times(&text, "x", TC_INI_LINE_MAX - 3);
    tc_text_add(&text, "\nl = 1\n");
    assert_text(&text, "f:2: [a]: the line is longer than 1000 bytes\n", "![a]l=1");

    tc_text_add(&text, "[a]\nk = 1\n[b");
    add_times(&text, " ", TC_INI_LINE_MAX);
    tc_text_add(&text, "]\nk = 2\n");
    assert_text(&text, "f:3: the line is longer than 1000 bytes\n", "[a]k=1![]");

    /* A comment is as long as it likes; iniparser would load nothing. */
    add_times(&text, "# note ", 1000);
    tc_text_add(&text, "\n[a]\nk = 1\n");
    assert_text(&text, "", "[a]k=1");

    /* Blanks before and behind do not count. */
    add_times(&text, " ", 2000);
    tc_text_add(&text, "[a]");
    add_times(&text, "\t", 2000);
    assert_text(&text, "", "[a]");

    /* A section's name and key together stay far below what iniparser can look up. */
    tc_text_add(&text, "[a");
    add_times(&text, ".b", TC_INI_SECTION_MAX / 2);
    tc_text_add(&text, "]\n");
    assert_text(&text, "f:1: the section's name is longer than 200 bytes\n", "![]");

    /* Four words of 47 letters and the longest key. */
    tc_text_add(&text, "[");
    tc_text_clear(&good);
    for (int i = 0; i < 4; i++) {
        add_times(&text, "w", 47);
        tc_text_add_char(&text, i == 3 ? ']' : ' ');
    }
    tc_text_add(&good, text.data);
    tc_text_add(&text, "\n");
    add_times(&text, "k", 47);
    tc_text_add(&text, " = 1\n");
    add_times(&good, "k", 47);
    tc_text_add(&good, "=1");
    assert_text(&text, "", tc_text_string(&good));
    tc_text_free(&text);
    tc_text_free(&good);
}

static void a_section_with_too_many_keys_is_reported(void **state)
{
    (void)state;
    struct tc_ini ini;
    struct tc_text text = TC_TEXT_EMPTY;

    for (int extra = 0; extra < 2; extra++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        tc_text_clear(&text);
        tc_text_add(&text, "[a]\n");
        for (int i = 0; i < TC_INI_KEY_MAX + extra * 2; i++)
            tc_text_addf(&text, "k%d = %d\n", i, i);
        tc_text_add(&text, "[b]\nk = 1\n");
        assert_int_equal(tc_ini_read_bytes("f", text.data, text.length, &ini, &faults), TC_OK);
        assert_int_equal(ini.sections[0].bad, extra);
        assert_int_equal(ini.sections[0].key_count, TC_INI_KEY_MAX);
        for (int i = 0; i < TC_INI_KEY_MAX; i++)
            assert_int_equal(atoi(ini.sections[0].keys[i].value), i);
        assert_false(ini.sections[1].bad);
        assert_string_equal(tc_ini_key(&ini.sections[1], "k")->value, "1");
        assert_int_equal(tc_faults_count(&faults), extra);
        if (extra == 1) {
            assert_string_equal(tc_faults_at(&faults, 0)->text,
                                "the section has more than 16384 keys; remove some");
            assert_int_equal(tc_faults_at(&faults, 0)->place.line, TC_INI_KEY_MAX + 2);
        }
        tc_faults_free(&faults);
        tc_ini_free(&ini);
    }
    tc_text_free(&text);
}

/* Every value of a large file is read back, over all the borders of the pieces given to iniparser. */
static void a_file_with_too_many_entries_is_reported(void **state)
{
    (void)state;
    struct tc_ini ini;
    struct tc_text text = TC_TEXT_EMPTY;

    /* Sections of 0 to 6 keys up to the limit, or an entry more: a key, or a section. */
    for (int extra = 0; extra < 3; extra++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        int entries = 0, section = 0, line = 0;
        tc_text_clear(&text);
        while (entries < TC_INI_ENTRY_MAX) {
            tc_text_addf(&text, "[s %d]\n", section);
            entries++, line++;
            for (int i = 0; i < section % 7 && entries < TC_INI_ENTRY_MAX; i++) {
                tc_text_addf(&text, "k%d = %d\n", i, section * 10 + i);
                entries++, line++;
            }
            section++;
        }
        tc_text_add(&text, extra == 1 ? "z = 1\nz2 = 1\n" : extra == 2 ? "[z]\n[z2]\n" : "");
        assert_int_equal(tc_ini_read_bytes("f", text.data, text.length, &ini, &faults), TC_OK);
        assert_int_equal(ini.section_count, section);
        for (int i = 0; i < section; i++)
            for (size_t j = 0; j < ini.sections[i].key_count; j++) {
                char wanted[16];
                snprintf(wanted, sizeof wanted, "%d", i * 10 + (int)j);
                assert_string_equal(ini.sections[i].keys[j].value, wanted);
                assert_int_equal(ini.sections[i].keys[j].line, ini.sections[i].line + (int)j + 1);
            }
        assert_int_equal(ini.sections[section - 1].bad, extra == 1);
        assert_false(ini.sections[section - 2].bad);
        assert_int_equal(tc_faults_count(&faults), extra > 0);
        if (extra > 0) {
            assert_int_equal(tc_faults_at(&faults, 0)->place.line, line + 1);
            assert_string_equal(
                tc_faults_at(&faults, 0)->text,
                "the file has more than 65536 sections and keys; it is not read from here on: make "
                "it two files");
        }
        tc_faults_free(&faults);
        tc_ini_free(&ini);
    }
    tc_text_free(&text);
}

static void after_too_many_faults_the_rest_is_left(void **state)
{
    (void)state;
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;

    tc_faults_note(&faults, (struct tc_place){"before", 0, NULL, NULL}, "of another file");
    tc_text_add(&text, "[a]\nk=1\n[b]\nk=1\n");
    add_times(&text, "nonsense\n", 1000000 / 9);
    assert_int_equal(tc_ini_read_bytes("f", text.data, text.length, &ini, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 1 + TC_INI_FAULT_MAX + 1);
    assert_string_equal(tc_faults_at(&faults, TC_INI_FAULT_MAX + 1)->text,
                        "there are too many faults; the file is not read from here on");
    assert_int_equal(ini.section_count, 2);
    assert_false(ini.sections[0].bad);
    assert_true(ini.sections[1].bad);
    tc_faults_free(&faults);
    tc_ini_free(&ini);
    tc_text_free(&text);
}

/* -------------------------------------------------------------------- files */

static char path[] = "/tmp/tankcost-test-XXXXXX";

static int make_file(void **state)
{
    (void)state;
    memcpy(path + sizeof path - 7, "XXXXXX", 6);
    int file = mkstemp(path);
    return file >= 0 && close(file) == 0 ? 0 : -1;
}

static int remove_file(void **state)
{
    (void)state;
    misbehaviour = NONE;
    return remove(path);
}

/* Reads path and compares with the faults wanted, in which each '@' stands for the path. */
static void assert_file(enum tc_status status, const char *faults_wanted, const char *good_wanted)
{
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text said = TC_TEXT_EMPTY, good = TC_TEXT_EMPTY, wanted = TC_TEXT_EMPTY;

    assert_int_equal(ini_read(path, &ini, &faults), status);
    tc_faults_write(&faults, &said);
    describe(&ini, &good);
    for (const char *c = faults_wanted; *c != '\0'; c++)
        tc_text_add_bytes(&wanted, *c == '@' ? path : c, *c == '@' ? strlen(path) : 1);
    assert_string_equal(tc_text_string(&said), tc_text_string(&wanted));
    assert_string_equal(tc_text_string(&good), good_wanted);
    tc_text_free(&said);
    tc_text_free(&good);
    tc_text_free(&wanted);
    tc_faults_free(&faults);
    tc_ini_free(&ini);
}

static void put(const char *content)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(content, file);
    assert_int_equal(fclose(file), 0);
}

static void a_file_is_read(void **state)
{
    (void)state;
    put("[a]\nk = 1\nl\n");
    assert_file(TC_OK, "@:3: [a]: 'l': there is no '='; write 'key = value', '[section]' or '# comment'\n",
                "![a]k=1");
    put("");
    assert_file(TC_OK, "", "");
}

static void what_is_no_regular_file_is_refused(void **state)
{
    (void)state;
    assert_int_equal(remove(path), 0);
    assert_file(TC_IO, "@: the file cannot be read: No such file or directory\n", "");
    /* iniparser: an empty dictionary, no error. */
    assert_int_equal(mkdir(path, 0777), 0);
    assert_file(TC_IO, "@: this is a folder; name a file in it\n", "");
    assert_int_equal(remove(path), 0);
    /* A pipe nobody writes to must not be waited for. */
    assert_int_equal(mkfifo(path, 0666), 0);
    assert_file(TC_IO, "@: this is not a regular file; name one\n", "");
    assert_int_equal(remove(path), 0);
    assert_int_equal(symlink("/dev/zero", path), 0);
    assert_file(TC_IO, "@: this is not a regular file; name one\n", "");
}

static void a_file_too_large_is_refused(void **state)
{
    (void)state;
    assert_int_equal(truncate(path, TC_INI_FILE_MAX + 1), 0);
    assert_file(TC_SYNTAX, "@: the file is larger than 8 MiB; make it several files\n", "");
    assert_int_equal(truncate(path, TC_INI_FILE_MAX), 0);
    assert_file(TC_SYNTAX, "@:1: there is a NUL byte: the file is no text, or not saved as UTF-8\n", "");
}

/* A read that fails though the file could be opened: Linux proc(5), the memory of a process at address 0. */
static void a_read_error_is_reported(void **state)
{
    (void)state;
    struct stat about;
    if (stat("/proc/self/mem", &about) != 0)
        skip();
    assert_int_equal(remove(path), 0);
    assert_int_equal(symlink("/proc/self/mem", path), 0);
    assert_file(TC_IO, "@: the file cannot be read: Input/output error\n", "");
}

/* Files in /proc say they are empty: as a file that has grown since it was opened. */
static void a_file_is_read_to_its_end_whatever_its_size(void **state)
{
    (void)state;
    struct stat about;
    char line[4096];
    FILE *limits = fopen("/proc/self/limits", "r");
    if (limits == NULL || fstat(fileno(limits), &about) != 0 || about.st_size != 0)
        skip();
    assert_non_null(fgets(line, sizeof line, limits));
    fclose(limits);
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(ini_read("/proc/self/limits", &ini, &faults), TC_OK);
    size_t count = tc_faults_count(&faults);
    assert_true(count > 10); /* a line for each limit, none of them with a '=' */
    assert_string_equal(tc_faults_at(&faults, 0)->text,
                        "'Limit                     Soft Limit           Hard Limit   ...': there is no '='; "
                        "write 'key = value', '[section]' or '# comment'");
    tc_faults_free(&faults);
    tc_ini_free(&ini);
}

static void nothing_iniparser_loses_is_lost_silently(void **state)
{
    (void)state;
    put("[tank a]\nlength = 30 in\nwidth = 12 in\n[tank b]\nlength = 40 in\n[tank c]\n[tank d]\nheight = 12 "
        "in\n");
    misbehaviour = NONE;
    assert_file(TC_OK, "",
                "[tank a]length=30 in,width=12 in[tank b]length=40 in[tank c][tank d]height=12 in");
    misbehaviour = COMPLAIN;
    assert_file(TC_OK,
                "@:1: [tank a]: the section could not be read: iniparser: cannot open /nowhere/?[31m\n"
                "@:4: [tank b]: the section could not be read: iniparser: cannot open /nowhere/?[31m\n"
                "@:7: [tank d]: the section could not be read: iniparser: cannot open /nowhere/?[31m\n",
                "![tank a]![tank b][tank c]![tank d]");
    misbehaviour = NO_DICTIONARY;
    assert_file(
        TC_OK,
        "@:1: [tank a]: the section could not be read: out of memory\n@:4: [tank b]: the section "
        "could not be read: out of memory\n@:7: [tank d]: the section could not be read: out of memory\n",
        "![tank a]![tank b][tank c]![tank d]");
    misbehaviour = LOSE_SECTION; /* its keys might have gone anywhere */
    assert_file(
        TC_OK,
        "@:1: [tank a]: the section could not be read: out of memory\n@:4: [tank b]: the section "
        "could not be read: out of memory\n@:7: [tank d]: the section could not be read: out of memory\n",
        "![tank a]![tank b][tank c]![tank d]");
    /* A value that is lost is lost for all keys that have it. */
    static const enum misbehaviour single[] = {LOSE_KEY, LOSE_VALUE, LONGER_VALUE};
    for (size_t i = 0; i < 3; i++) {
        misbehaviour = single[i];
        assert_file(TC_OK,
                    "@:1: [tank a]: the section could not be read: out of memory\n@:7: [tank d]: the section "
                    "could not be read: out of memory\n",
                    "![tank a]length=30 in[tank b]length=40 in[tank c]![tank d]");
    }
}

static void no_room_for_the_scratch_file_is_reported(void **state)
{
    (void)state;
    struct rlimit old, none;
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    static const char content[] = "[a]\nk = 1\n";

    assert_int_equal(getrlimit(RLIMIT_NOFILE, &old), 0);
    none = old;
    none.rlim_cur = 0;
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &none), 0);
    enum tc_status status = tc_ini_read_bytes("f", content, sizeof content - 1, &ini, &faults);
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &old), 0);
    assert_int_equal(status, TC_IO);
    assert_string_equal(tc_faults_at(&faults, 0)->text,
                        "could not be read: a temporary file could not be written: Too many open files");
    assert_int_equal(ini.section_count, 0);
    tc_faults_free(&faults);

    /* A scratch file that cannot take all of it. */
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &old), 0);
    none = old;
    none.rlim_cur = 5;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &none), 0);
    status = tc_ini_read_bytes("f", content, sizeof content - 1, &ini, &faults);
    setrlimit(RLIMIT_FSIZE, &old);
    signal(SIGXFSZ, handler);
    assert_int_equal(status, TC_IO);
    assert_string_equal(tc_faults_at(&faults, 0)->text,
                        "could not be read: a temporary file could not be written: File too large");
    tc_faults_free(&faults);
    tc_ini_free(&ini);
}

/* Opens two files with sections of the same name, some quoted, some without keys. */
static void open_two(struct tc_ini inis[2], struct tc_faults *faults)
{
    static const char *const contents[2] = {
        "[empty]\n[tank a]\nlength = 30 in\nnote = 'it is \"b\"'\n",
        "[tank a]\nlength = it's 40\npath = C:\\x\n[tank b]\nnote = \" kept \"\n"};
    for (int i = 0; i < 2; i++)
        assert_int_equal(
            tc_ini_open_bytes(i == 0 ? "f" : "g", contents[i], strlen(contents[i]), &inis[i], faults), TC_OK);
}

static void assert_two(const struct tc_ini inis[2], struct tc_faults *faults, const char *good_wanted,
                       const char *faults_wanted)
{
    struct tc_text said = TC_TEXT_EMPTY, good = TC_TEXT_EMPTY;
    tc_faults_write(faults, &said);
    describe(&inis[0], &good);
    tc_text_add(&good, " | ");
    describe(&inis[1], &good);
    assert_string_equal(tc_text_string(&good), good_wanted);
    assert_string_equal(tc_text_string(&said), faults_wanted);
    tc_text_free(&said);
    tc_text_free(&good);
    tc_faults_free(faults);
}

static void files_are_read_together(void **state)
{
    (void)state;
    struct tc_ini inis[2], *files[] = {&inis[0], &inis[1]};
    struct tc_faults faults = TC_FAULTS_EMPTY;

    open_two(inis, &faults);
    assert_int_equal(tc_ini_values(files, 2, &faults), TC_OK);
    assert_two(inis, &faults,
               "[empty][tank a]length=30 in,note=it is \"b\" | "
               "[tank a]length=it's 40,path=C:\\x[tank b]note= kept ",
               "");
    for (int i = 0; i < 2; i++)
        tc_ini_free(&inis[i]);
    assert_int_equal(tc_ini_values(files, 2, &faults), TC_OK); /* nothing to do */
}

static void files_that_cannot_be_read_together_are_not_used(void **state)
{
    (void)state;
    struct tc_ini inis[2], *files[] = {&inis[0], &inis[1]};
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct rlimit old, none;

    open_two(inis, &faults);
    assert_int_equal(getrlimit(RLIMIT_NOFILE, &old), 0);
    none = old;
    none.rlim_cur = 0;
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &none), 0);
    enum tc_status status = tc_ini_values(files, 2, &faults);
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &old), 0);
    assert_int_equal(status, TC_IO);
    assert_two(inis, &faults, "![empty]![tank a] | ![tank a]![tank b]",
               "profiles: could not be read: a temporary file could not be written: Too many open files\n");
    for (int i = 0; i < 2; i++)
        tc_ini_free(&inis[i]);
}

/* What iniparser would print goes nowhere but into faults. */
static void nothing_is_printed(void **state)
{
    (void)state;
    char printed[256];
    FILE *catch = tmpfile();
    int old = dup(2);
    put("[tank a]\nwidth = 12 in\n");
    misbehaviour = COMPLAIN;
    assert_non_null(catch);
    fflush(stderr);
    dup2(fileno(catch), 2);
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    enum tc_status status = ini_read(path, &ini, &faults);
    fflush(stderr);
    dup2(old, 2);
    close(old);
    rewind(catch);
    size_t length = fread(printed, 1, sizeof printed, catch);
    fclose(catch);
    assert_int_equal(status, TC_OK);
    assert_int_equal(tc_faults_count(&faults), 1);
    assert_int_equal(length, 0);
    tc_faults_free(&faults);
    tc_ini_free(&ini);
}

/* Lets every single allocation of a read fail, once and from then on. */
static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY;
    for (int i = 0; i < 300; i++)
        tc_text_addf(&text, "[tank %d]\nlength = %d in\nk%s\n", i, i, i % 100 == 7 ? "" : " = 1");
    put(text.data);
    tc_text_free(&text);

    for (int lasting = 0; lasting < 2; lasting++)
        for (long n = 0;; n++) {
            struct tc_ini ini;
            struct tc_faults faults = TC_FAULTS_EMPTY;
            failing_malloc_start(n, lasting != 0);
            enum tc_status status = ini_read(path, &ini, &faults);
            bool failed = failing_malloc_stop();
            size_t count = tc_faults_count(&faults);
            if (failed) {
                /* Nothing is used, or it is said that a fault is missing. */
                assert_true(status == TC_NO_MEMORY || (status == TC_OK && faults.lost));
                assert_true(tc_faults_errors(&faults) > 0);
                assert_true(strncmp(tc_faults_at(&faults, count - 1)->text, "out of memory", 13) == 0);
            } else {
                assert_int_equal(status, TC_OK);
                assert_int_equal(count, 3);
            }
            if (status != TC_OK) {
                assert_int_equal(ini.section_count, 0);
                assert_null(ini.sections);
            } else {
                assert_int_equal(ini.section_count, 300);
                for (size_t i = 0; i < 300; i++)
                    assert_int_equal(ini.sections[i].bad, i % 100 == 7);
            }
            tc_ini_free(&ini);
            tc_faults_free(&faults);
            if (!failed)
                break;
        }
}

#define FILE_TEST(name) cmocka_unit_test_setup_teardown(name, make_file, remove_file)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(good_files_come_through),
        cmocka_unit_test(faulty_sections_are_reported),
        cmocka_unit_test(faulty_keys_are_reported),
        cmocka_unit_test(faulty_values_are_reported),
        cmocka_unit_test(what_is_no_text_is_refused_as_a_whole),
        cmocka_unit_test(lines_are_those_of_the_file),
        cmocka_unit_test(long_lines_are_reported),
        cmocka_unit_test(a_section_with_too_many_keys_is_reported),
        cmocka_unit_test(a_file_with_too_many_entries_is_reported),
        cmocka_unit_test(after_too_many_faults_the_rest_is_left),
        FILE_TEST(a_file_is_read),
        FILE_TEST(what_is_no_regular_file_is_refused),
        FILE_TEST(a_file_too_large_is_refused),
        FILE_TEST(a_read_error_is_reported),
        FILE_TEST(a_file_is_read_to_its_end_whatever_its_size),
        FILE_TEST(nothing_iniparser_loses_is_lost_silently),
        cmocka_unit_test(files_are_read_together),
        cmocka_unit_test(files_that_cannot_be_read_together_are_not_used),
        cmocka_unit_test(no_room_for_the_scratch_file_is_reported),
        FILE_TEST(nothing_is_printed),
        FILE_TEST(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
