/* SPDX-License-Identifier: MIT */
#include "core/base/number.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Sums kept in 80 bits would end in other digits than everywhere else. */
#if defined(__FLT_EVAL_METHOD__) && __FLT_EVAL_METHOD__ == 2 && !defined(TC_X87_ROUNDED)
#error "the x87 keeps sums in 80 bits: use -msse2 -mfpmath=sse, or gcc with the flags the Makefile calls X87"
#endif

/* Any 15 digits are exact in a double; any 18 in an int64_t. */
enum { MOST_DIGITS = 15, MOST_FIXED_DIGITS = 18, MOST_EXPONENT = 22 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Powers of ten up to 1e22 are exact doubles. */
static double power_of_ten(int n)
{
    double p = 1.0;
    for (int i = 0; i < n; i++)
        p *= 10.0;
    return p;
}

struct digits {
    int most;          /* how many are taken: beyond, too_many is set */
    uint64_t mantissa; /* significant digits, leading zeros dropped */
    int count;         /* how many of them */
    int after_point;   /* digits that stood after the point */
    bool any;          /* at least one digit seen */
    bool too_many;
};

static void take_digit(struct digits *d, char digit, bool after_point)
{
    d->any = true;
    if (d->count >= d->most) {
        d->too_many = true;
        return;
    }
    d->mantissa = d->mantissa * 10 + (uint64_t)(digit - '0');
    if (d->mantissa > 0)
        d->count++;
    if (after_point)
        d->after_point++;
}

static const char *read_digits(const char *p, struct digits *d, bool after_point)
{
    for (; is_digit(*p); p++)
        take_digit(d, *p, after_point);
    return p;
}

/* Reads "e-3" at p if a whole exponent stands there; returns p unchanged if not. */
static const char *read_exponent(const char *p, int *exponent)
{
    if (*p != 'e' && *p != 'E')
        return p;
    const char *q = p + 1;
    bool negative = *q == '-';
    if (*q == '-' || *q == '+')
        q++;
    if (!is_digit(*q))
        return p;
    int n = 0;
    for (; is_digit(*q); q++)
        if (n < 10000)
            n = n * 10 + (*q - '0');
    *exponent = negative ? -n : n;
    return q;
}

enum tc_status tc_number_read(const char *text, const char **end, double *value)
{
    *end = text;
    const char *p = text;
    bool negative = *p == '-';
    if (*p == '-' || *p == '+')
        p++;
    struct digits d = {.most = MOST_DIGITS};
    p = read_digits(p, &d, false);
    if (*p == '.')
        p = read_digits(p + 1, &d, true);
    if (!d.any)
        return TC_SYNTAX;
    int exponent = 0;
    p = read_exponent(p, &exponent);
    *end = p;
    exponent -= d.after_point;
    if (d.mantissa == 0)
        exponent = 0;
    if (d.too_many || exponent > MOST_EXPONENT || exponent < -MOST_EXPONENT)
        return TC_RANGE;
    /* Both factors are exact, so the one operation rounds correctly (Clinger 1990). */
    double size = (double)d.mantissa;
    size = exponent < 0 ? size / power_of_ten(-exponent) : size * power_of_ten(exponent);
    *value = negative ? -size : size;
    return TC_OK;
}

static const char *const eighth_signs[] = {"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"};

/* A fraction at p, "1/4" or "¼": what stands behind it, or NULL. */
static const char *read_fraction(const char *p, double *value)
{
    for (int i = 1; i < 8; i++) {
        if (strncmp(p, eighth_signs[i], strlen(eighth_signs[i])) == 0) {
            *value = i / 8.0;
            return p + strlen(eighth_signs[i]);
        }
    }
    int above, below;
    if (tc_number_read_count(p, &p, &above) != TC_OK || *p != '/' ||
        tc_number_read_count(p + 1, &p, &below) != TC_OK)
        return NULL;
    bool of_a_tape = below == 2 || below == 4 || below == 8 || below == 16 || below == 32;
    *value = of_a_tape ? (double)above / below : 0;
    return of_a_tape && above > 0 && above < below ? p : NULL;
}

enum tc_status tc_number_read_tape(const char *text, const char **end, double *value)
{
    double fraction;
    const char *after = read_fraction(text, value);
    if (after) {
        *end = after;
        return TC_OK;
    }
    enum tc_status status = tc_number_read(text, end, value);
    size_t whole = strspn(text, "0123456789");
    if (status != TC_OK || whole == 0 || *end != text + whole)
        return status;
    after = read_fraction(*end + strspn(*end, " "), &fraction);
    if (after) {
        *value += fraction;
        *end = after;
    }
    return TC_OK;
}

enum tc_status tc_number_read_fixed(const char *text, const char **end, int places, int64_t most,
                                    int64_t *units)
{
    *end = text;
    const char *p = text;
    bool negative = *p == '-';
    if (*p == '-' || *p == '+')
        p++;
    struct digits d = {.most = MOST_FIXED_DIGITS};
    p = read_digits(p, &d, false);
    bool surplus = false;
    if (*p == '.') {
        p++;
        for (int place = 0; is_digit(*p); p++, place++) {
            if (place < places) {
                take_digit(&d, *p, true);
            } else {
                d.any = true;
                surplus = surplus || *p != '0';
            }
        }
    }
    if (!d.any)
        return TC_SYNTAX;
    *end = p;
    if (surplus)
        return TC_SYNTAX;
    if (d.too_many)
        return TC_OVERFLOW;
    int64_t size = (int64_t)d.mantissa;
    for (int place = d.after_point; place < places && size > 0; place++) {
        if (size > most / 10)
            return TC_OVERFLOW;
        size *= 10;
    }
    if (size > most)
        return TC_OVERFLOW;
    *units = negative ? -size : size;
    return TC_OK;
}

enum tc_status tc_number_read_count(const char *text, const char **end, int *value)
{
    const char *p = text;
    int n = 0;
    for (; is_digit(*p); p++) {
        if (p - text >= 9) {
            *end = p;
            return TC_RANGE;
        }
        n = n * 10 + (*p - '0');
    }
    *end = p;
    if (p == text)
        return TC_SYNTAX;
    *value = n;
    return TC_OK;
}

/* Writes whole (and, where decimals > 0, a point and fraction) with optional grouping by spaces. */
static char *write_fixed(char *buffer, bool negative, uint64_t whole, uint64_t fraction, int decimals,
                         bool group)
{
    char digits[24];
    int n = snprintf(digits, sizeof digits, "%" PRIu64, whole);
    char *out = buffer;
    if (negative && (whole > 0 || fraction > 0))
        *out++ = '-';
    for (int i = 0; i < n; i++) {
        if (group && i > 0 && (n - i) % 3 == 0)
            *out++ = ' ';
        *out++ = digits[i];
    }
    if (decimals > 0)
        snprintf(out, 12, ".%0*" PRIu64, decimals, fraction);
    else
        *out = '\0';
    return buffer;
}

static uint64_t whole_power_of_ten(int n)
{
    uint64_t p = 1;
    while (n-- > 0)
        p *= 10;
    return p;
}

char *tc_number_write(char *buffer, double value, int decimals, bool group)
{
    if (isnan(value))
        return memcpy(buffer, "nan", sizeof "nan");
    if (isinf(value))
        return value < 0 ? memcpy(buffer, "-inf", sizeof "-inf") : memcpy(buffer, "inf", sizeof "inf");
    if (decimals < 0)
        decimals = 0;
    if (decimals > 9)
        decimals = 9;
    double size = fabs(value);
    if (size >= 1e15)
        return tc_number_write_exact(buffer, value);
    uint64_t scale = whole_power_of_ten(decimals);
    uint64_t whole = (uint64_t)size;
    /* The fraction is scaled on its own: whole * scale could leave the exact range. */
    double scaled = (size - (double)whole) * (double)scale;
    uint64_t fraction = (uint64_t)floor(scaled + 0.5 + 1e-6);
    if (fraction >= scale) {
        whole += 1;
        fraction -= scale;
    }
    return write_fixed(buffer, value < 0, whole, fraction, decimals, group);
}

/* Puts a point where printf put what the locale has. */
static char *with_point(char *buffer)
{
    /* What stands after the first digits, up to the next or an exponent, is the locale's point: 1 to 4 bytes.
     */
    char *point = buffer + strspn(buffer, "-0123456789");
    size_t length = strcspn(point, "0123456789e");
    if (length > 0) {
        *point = '.';
        memmove(point + 1, point + length, strlen(point + length) + 1);
    }
    return buffer;
}

char *tc_number_write_exact(char *buffer, double value)
{
    if (isnan(value) || isinf(value))
        return tc_number_write(buffer, value, 0, false);
    /* Both %g and strtod follow LC_NUMERIC, so they agree with each other. */
    for (int precision = 15; precision <= 17; precision++) {
        snprintf(buffer, TC_NUMBER_SIZE, "%.*g", precision, value);
        if (strtod(buffer, NULL) == value)
            break;
    }
    return with_point(buffer);
}

char *tc_number_write_data(char *buffer, double value)
{
    if (isnan(value) || isinf(value))
        return tc_number_write(buffer, value, 0, false);
    snprintf(buffer, TC_NUMBER_SIZE, "%.12g", value);
    return with_point(buffer);
}

char *tc_number_write_eighths(char *buffer, double value, bool ascii)
{
    static const char *const plain[] = {"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"};
    if (!(fabs(value) < 1e9))
        return tc_number_write(buffer, value, 0, true);
    long parts = lround(8 * fabs(value));
    const char *fraction = ascii ? plain[parts % 8] : eighth_signs[parts % 8];
    const char *minus = value < 0 && parts > 0 ? "-" : "";
    char whole[TC_NUMBER_SIZE];
    tc_number_write_fixed(whole, parts / 8, 0, true);
    snprintf(buffer, TC_NUMBER_SIZE, "%s%.20s%s%s", minus, parts >= 8 || !*fraction ? whole : "",
             parts >= 8 && *fraction && ascii ? " " : "", fraction);
    return buffer;
}

char *tc_number_write_short(char *buffer, double value)
{
    double size = fabs(value);
    int decimals = 9;
    if (size >= 1)
        decimals = size >= 1e8 ? 0 : 8 - (int)floor(log10(size));
    tc_number_write(buffer, value, decimals, false);
    if (strchr(buffer, '.') && !strchr(buffer, 'e')) {
        char *last = buffer + strlen(buffer) - 1;
        while (*last == '0')
            *last-- = '\0';
        if (*last == '.')
            *last = '\0';
    }
    return buffer;
}

char *tc_number_write_fixed(char *buffer, int64_t units, int places, bool group)
{
    uint64_t size = units < 0 ? (uint64_t) - (units + 1) + 1 : (uint64_t)units;
    uint64_t scale = whole_power_of_ten(places);
    return write_fixed(buffer, units < 0, size / scale, size % scale, places, group);
}
