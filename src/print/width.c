/* SPDX-License-Identifier: MIT */
#include "print/width.h"

#include <string.h>
#include <wchar.h>

#include "core/base/clean.h"

int tc_width_code(uint32_t code)
{
    if (code >= 0x20 && code < 0x7F)
        return 1;
    if (code < 0xA0)
        return 0;
    int columns = wcwidth((wchar_t)code); /* wchar_t holds code points, as in glibc and musl */
    return columns >= 0 ? columns : 1;
}

/* The columns of the character at text; *size is set to its bytes. */
static int next_width(const char *text, size_t length, size_t *size)
{
    uint32_t code = 0;
    int n = tc_utf8_decode(text, length, &code);
    *size = n > 0 ? (size_t)n : 1;
    return n > 0 ? tc_width_code(code) : 1;
}

int tc_width_bytes(const char *text, size_t length)
{
    int columns = 0;
    for (size_t i = 0, size; i < length; i += size)
        columns += next_width(text + i, length - i, &size);
    return columns;
}

int tc_width(const char *text)
{
    return tc_width_bytes(text, strlen(text));
}

size_t tc_width_cut(const char *text, int columns)
{
    size_t length = strlen(text);
    size_t i = 0;
    for (size_t size; i < length; i += size) {
        columns -= next_width(text + i, length - i, &size);
        if (columns < 0)
            break;
    }
    return i;
}

/* Whether a word wider than its line may be broken after c. */
static bool breaks_after(char c)
{
    return c == '-' || c == '/';
}

/* True if the bytes before (or from) text[i] are a times sign standing alone, "×" or in ASCII "x". */
static bool times_before(const char *text, size_t i)
{
    return (i >= 2 && memcmp(text + i - 2, "×", 2) == 0) || (i >= 2 && memcmp(text + i - 2, " x", 2) == 0);
}

static bool times_from(const char *text, size_t i)
{
    return strncmp(text + i, "× ", 3) == 0 || strncmp(text + i, "x ", 2) == 0;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Whether a blank sets thousands apart: "1 234". */
static bool sets_thousands_apart(const char *text, size_t i)
{
    return i > 0 && is_digit(text[i - 1]) && is_digit(text[i + 1]) && is_digit(text[i + 2]) &&
           is_digit(text[i + 3]) && !is_digit(text[i + 4]);
}

/* Whether a figure ends before text[i]: a digit, or a fraction, "¼" to "¾" or "⅛" to "⅞". */
static bool figure_before(const char *text, size_t i)
{
    const unsigned char *end = (const unsigned char *)text + i;
    return (i >= 1 && is_digit(text[i - 1])) ||
           (i >= 2 && end[-2] == 0xC2 && end[-1] >= 0xBC && end[-1] <= 0xBE) ||
           (i >= 3 && end[-3] == 0xE2 && end[-2] == 0x85 && end[-1] >= 0x9B && end[-1] <= 0x9E);
}

/* Whether a blank stands between a figure and its unit: "25 %", "9¾ in", "806.74 USD". */
static bool before_a_unit(const char *text, size_t i)
{
    size_t size = strcspn(text + i + 1, " .,;:)");
    return figure_before(text, i) && size > 0 && tc_width_bytes(text + i + 1, size) <= 3;
}

/* Of a size, all after the first two figures may move on: true at the second times sign of "30 × 12 × 18". */
static bool within_a_size(const char *text, size_t i)
{
    size_t word = i;
    while (word > 0 && text[word - 1] != ' ')
        word--;
    return word > 0 && times_before(text, word - 1);
}

/* Whether the text may be broken at its i-th byte. A count stays with what it counts ("2 × lid"), and a
 * figure whole, with its unit. */
static bool breaks_at(const char *text, size_t i)
{
    if (text[i] != ' ' || times_before(text, i) || sets_thousands_apart(text, i))
        return false;
    return times_from(text, i + 1) ? within_a_size(text, i) : !before_a_unit(text, i);
}

/* Where the line ends that would overflow at `over`: after the last blank, hyphen, or just there. */
static size_t line_end(const char *text, size_t blank, size_t hyphen, size_t over, int width)
{
    size_t word = blank > 0 ? blank + 1 : 0;
    bool fits_alone = tc_width_bytes(text + word, strcspn(text + word, " ")) <= width;
    if (blank > 0 && (fits_alone || hyphen <= word))
        return blank;
    return hyphen > word ? hyphen : over;
}

bool tc_wrap_next(struct tc_wrap *wrap, const char **line, size_t *length)
{
    const char *text = wrap->rest + strspn(wrap->rest, " ");
    size_t size, all = strlen(text), blank = 0, hyphen = 0, end = 0;
    int columns = 0;
    if (all == 0) {
        wrap->rest = text;
        return false;
    }
    for (; end < all; end += size) {
        columns += next_width(text + end, all - end, &size);
        if (text[end] == ' ') {
            if (end > 0 && text[end - 1] != ' ' && breaks_at(text, end))
                blank = end;
            continue; /* a blank may hang over the edge: it is dropped there */
        }
        if (wrap->width > 0 && columns > wrap->width && end > 0) {
            end = line_end(text, blank, hyphen, end, wrap->width);
            break;
        }
        if (breaks_after(text[end]) && text[end + 1] != '\0')
            hyphen = end + 1;
    }
    wrap->rest = text + end;
    while (end > 0 && text[end - 1] == ' ')
        end--;
    *line = text;
    *length = end;
    return true;
}

int tc_wrap_least(const char *text)
{
    int least = 0, columns = 0;
    size_t length = strlen(text);
    for (size_t i = 0, size; i < length; i += size) {
        int width = next_width(text + i, length - i, &size);
        columns = breaks_at(text, i) ? 0 : columns + width;
        if (columns > least)
            least = columns;
        if (breaks_after(text[i]))
            columns = 0;
    }
    return least;
}
