/* SPDX-License-Identifier: MIT */
#include "profile/ini_value.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/text.h"

char *tc_ini_trim(char *text)
{
    size_t length;

    while (tc_ini_blank(*text))
        text++;
    length = strlen(text);
    while (length > 0 && tc_ini_blank(text[length - 1]))
        length--;
    text[length] = '\0';
    return text;
}

bool tc_ini_only_comment(const char *text)
{
    while (tc_ini_blank(*text))
        text++;
    return *text == '\0' || tc_ini_comment_mark(*text);
}

static const char *skip_blanks(const char *p, const char *end)
{
    while (p < end && tc_ini_blank(*p))
        p++;
    return p;
}

const char *tc_ini_comment(const char *value, size_t length)
{
    const char *end = value + length, *p = skip_blanks(value, end);
    if (p < end && (*p == '"' || *p == '\'')) {
        const char *close = memchr(p + 1, *p, (size_t)(end - p - 1));
        p = skip_blanks(close == NULL ? end : close + 1, end);
        return p < end && tc_ini_comment_mark(*p) ? p : NULL;
    }
    for (; p < end; p++) {
        const char *after = p;
        while (after < end && *after == *p)
            after++;
        bool alone = (p == value || tc_ini_blank(p[-1])) && (after == end || tc_ini_blank(*after));
        if (tc_ini_comment_mark(*p) && alone)
            return p;
    }
    return NULL;
}

/* Says what is wrong; false. */
static bool wrong(char problem[TC_INI_PROBLEM_SIZE], const char *format, ...) TC_PRINTF(2, 3);
static bool wrong(char problem[TC_INI_PROBLEM_SIZE], const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(problem, TC_INI_PROBLEM_SIZE, format, arguments);
    va_end(arguments);
    return false;
}

/* Finds the end of a value in quotes and cuts off what follows. */
static bool cut_quoted(char *value, char problem[TC_INI_PROBLEM_SIZE])
{
    char quote = value[0];
    char *end = strchr(value + 1, quote);

    if (end == NULL)
        return wrong(problem, "the value starts with a %c that is not closed; %s", quote,
                     quote == '"' ? "close it, or put the value in '...'"
                                  : "close it, or put the value in \"...\"");
    if (!tc_ini_only_comment(end + 1))
        return wrong(problem, "text follows the closing %c; put the whole value in one pair of quotes",
                     quote);
    end[1] = '\0';
    /* Kept by iniparser up to 4.1, taken as an escape from 4.2 on. */
    return strchr(value, '\\') == NULL ||
           wrong(problem, "'\\' cannot be in quotes; write '/' or leave the quotes out");
}

/* The same for a value without quotes. */
static bool cut_plain(char *value, char problem[TC_INI_PROBLEM_SIZE])
{
    char *mark = value + strcspn(value, ";#");

    if (*mark != '\0') {
        if (tc_ini_comment(value, strlen(value)) != mark)
            return wrong(
                problem,
                "'%c' starts a comment only between blanks; if it belongs to the value, put that in quotes",
                *mark);
        *mark = '\0';
        tc_ini_trim(value);
    }
    if (value[0] == '\0')
        return wrong(problem, "there is no value; write one, \"\" for an empty text, or remove the line");
    if (value[0] == '=')
        return wrong(problem, "the value starts with '='; write a single '=', or put the value in quotes");
    if (value[strlen(value) - 1] == '\\')
        return wrong(problem, "a value cannot go on in the next line; remove the '\\' at its end");
    return true;
}

/* Checks the characters of a value and turns tabs into blanks. */
static bool check_characters(char *value, char problem[TC_INI_PROBLEM_SIZE])
{
    size_t length = strlen(value);

    for (size_t i = 0; i < length;) {
        uint32_t code;
        if (value[i] >= ' ' && value[i] <= '~') { /* nearly all of them */
            i++;
            continue;
        }
        int n = tc_utf8_decode(value + i, length - i, &code);
        if (n == 0)
            return wrong(problem, "the value is not UTF-8; save the file in that encoding");
        if (value[i] == '\t')
            value[i] = ' ';
        else if (tc_code_unsafe(code))
            return wrong(problem, "the value holds the control character U+%04X; remove it", (unsigned)code);
        i += (size_t)n;
    }
    return true;
}

bool tc_ini_value(char *value, char problem[TC_INI_PROBLEM_SIZE])
{
    bool quoted = value[0] == '"' || value[0] == '\'';

    return (quoted ? cut_quoted(value, problem) : cut_plain(value, problem)) &&
           check_characters(value, problem);
}
