/* SPDX-License-Identifier: MIT */
#include "core/base/name.h"

#include <string.h>

/* Longer texts are no misspelt names, and the table below stays small. */
#define LONGEST 63

char tc_name_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_letter_or_digit(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

bool tc_name_valid(const char *name)
{
    size_t length = 0;

    if (!is_letter_or_digit(name[0]))
        return false;
    for (; name[length] != '\0'; length++)
        if (length == TC_NAME_SIZE - 1 ||
            (!is_letter_or_digit(name[length]) && name[length] != '-' && name[length] != '.'))
            return false;
    return true;
}

bool tc_name_equal(const char *a, const char *b)
{
    while (*a != '\0' && tc_name_lower(*a) == tc_name_lower(*b)) {
        a++;
        b++;
    }
    return tc_name_lower(*a) == tc_name_lower(*b);
}

bool tc_name_mend(char name[TC_NAME_SIZE], const char *text)
{
    size_t length = 0;

    for (; *text != '\0'; text++) {
        char c = tc_name_lower(*text);
        if (c == ' ' || c == '\t' || c == '_')
            c = '-';
        if (!is_letter_or_digit(c) && (length == 0 || (c != '-' && c != '.')))
            continue;
        if (length == TC_NAME_SIZE - 1) {
            length = 0;
            break;
        }
        name[length++] = c;
    }
    while (length > 0 && !is_letter_or_digit(name[length - 1]))
        length--;
    name[length] = '\0';
    return length > 0;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Optimal string alignment distance; both lengths are at most LONGEST. */
static size_t distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    /* Three rows of the table are enough: a swap looks back two. */
    size_t rows[3][LONGEST + 1];
    size_t *before_last = rows[0], *last = rows[1], *row = rows[2];

    for (size_t j = 0; j <= b_length; j++)
        last[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        row[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            char x = tc_name_lower(a[i - 1]), y = tc_name_lower(b[j - 1]);
            row[j] = least(least(last[j], row[j - 1]) + 1, last[j - 1] + (x != y));
            if (i > 1 && j > 1 && x == tc_name_lower(b[j - 2]) && y == tc_name_lower(a[i - 2]))
                row[j] = least(row[j], before_last[j - 2] + 1);
        }
        size_t *spare = before_last;
        before_last = last;
        last = row;
        row = spare;
    }
    return last[b_length];
}

/* The first name that begins with so many letters of text, case not counted; NULL if there is none. */
static const char *longer_name(const char *text, size_t length,
                               const char *(*at)(const void *context, size_t i), const void *context,
                               size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *name = at(context, i);
        size_t same = 0;
        while (name != NULL && same < length && tc_name_lower(name[same]) == tc_name_lower(text[same]))
            same++;
        if (same == length)
            return name;
    }
    return NULL;
}

/* Bytes of the number that a name begins with, before a '-': 2 of "29-high"; 0 where it does not. */
static size_t number_length(const char *name)
{
    size_t length = strspn(name, "0123456789.");
    return name[length] == '-' ? length : 0;
}

/* Of the names that begin with the same number as text, the nearest: "29-high" for "29-gal"; or NULL. */
static const char *same_number(const char *text, size_t length,
                               const char *(*at)(const void *context, size_t i), const void *context,
                               size_t count)
{
    const char *nearest = NULL;
    size_t digits = number_length(text), best = LONGEST + 1;
    for (size_t i = 0; digits > 0 && i < count; i++) {
        const char *name = at(context, i);
        if (name == NULL || number_length(name) != digits || memcmp(name, text, digits) != 0 ||
            strlen(name) > LONGEST)
            continue;
        size_t d = distance(text, length, name, strlen(name));
        if (d < best) {
            nearest = name;
            best = d;
        }
    }
    return nearest;
}

const char *tc_name_nearest(const char *wrong, const char *(*at)(const void *context, size_t i),
                            const void *context, size_t count)
{
    const char *nearest = NULL;
    size_t length = strlen(wrong);
    size_t limit = length / 3 > 1 ? length / 3 : 1;

    if (length == 0 || length > LONGEST)
        return NULL;
    nearest = same_number(wrong, length, at, context, count);
    if (nearest != NULL)
        return nearest;
    for (size_t i = 0; i < count; i++) {
        const char *name = at(context, i);
        size_t name_length = name == NULL ? 0 : strlen(name);
        if (name_length == 0 || name_length > LONGEST)
            continue;
        size_t d = distance(wrong, length, name, name_length);
        /* All letters replaced is no likeness, however short the names. */
        if (d > limit || d >= (length > name_length ? length : name_length))
            continue;
        nearest = name;
        if (d == 0)
            break;
        limit = d - 1; /* from here on only a nearer one counts */
    }
    return nearest != NULL || length < 3 ? nearest : longer_name(wrong, length, at, context, count);
}

static const char *name_in_array(const void *context, size_t i)
{
    const char *const *names = context;
    return names[i];
}

const char *tc_name_nearest_of(const char *wrong, const char *const *names, size_t count)
{
    return tc_name_nearest(wrong, name_in_array, names, count);
}
