/* SPDX-License-Identifier: MIT */
#include "print/width.h"

#include <string.h>
#include <wchar.h>

#include "core/base/clean.h"

struct range {
    uint32_t first, last;
};

/* Taken from the general categories Mn, Me and Cf of the Unicode Character Database, version 14. */
static const struct range zero_width[] = {
    {0x300, 0x36F},     {0x483, 0x489},   {0x591, 0x5BD},   {0x5BF, 0x5BF},   {0x5C1, 0x5C2},
    {0x5C4, 0x5C5},     {0x5C7, 0x5C7},   {0x610, 0x61A},   {0x64B, 0x65F},   {0x670, 0x670},
    {0x6D6, 0x6DC},     {0x6DF, 0x6E4},   {0x6E7, 0x6E8},   {0x6EA, 0x6ED},   {0x1AB0, 0x1ACE},
    {0x1DC0, 0x1DFF},   {0x200B, 0x200F}, {0x202A, 0x202E}, {0x2060, 0x206F}, {0x20D0, 0x20F0},
    {0x302A, 0x302D},   {0x3099, 0x309A}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF},
    {0xE0001, 0xE01EF},
};

/* East_Asian_Width W and F of the same version; unassigned gaps between them are joined. */
static const struct range double_width[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23EC},   {0x23F0, 0x23F0},
    {0x23F3, 0x23F3},   {0x25FD, 0x25FE},   {0x2614, 0x2615},   {0x2648, 0x2653},   {0x267F, 0x267F},
    {0x2693, 0x2693},   {0x26A1, 0x26A1},   {0x26AA, 0x26AB},   {0x26BD, 0x26BE},   {0x26C4, 0x26C5},
    {0x26CE, 0x26CE},   {0x26D4, 0x26D4},   {0x26EA, 0x26EA},   {0x26F2, 0x26F3},   {0x26F5, 0x26F5},
    {0x26FA, 0x26FA},   {0x26FD, 0x26FD},   {0x2705, 0x2705},   {0x270A, 0x270B},   {0x2728, 0x2728},
    {0x274C, 0x274C},   {0x274E, 0x274E},   {0x2753, 0x2755},   {0x2757, 0x2757},   {0x2795, 0x2797},
    {0x27B0, 0x27B0},   {0x27BF, 0x27BF},   {0x2B1B, 0x2B1C},   {0x2B50, 0x2B50},   {0x2B55, 0x2B55},
    {0x2E80, 0x303E},   {0x3041, 0x3247},   {0x3250, 0x4DBF},   {0x4E00, 0xA4C6},   {0xA960, 0xA97C},
    {0xAC00, 0xD7A3},   {0xF900, 0xFAD9},   {0xFE10, 0xFE19},   {0xFE30, 0xFE6B},   {0xFF01, 0xFF60},
    {0xFFE0, 0xFFE6},   {0x16FE0, 0x1B2FB}, {0x1F004, 0x1F004}, {0x1F0CF, 0x1F0CF}, {0x1F18E, 0x1F18E},
    {0x1F191, 0x1F19A}, {0x1F200, 0x1F320}, {0x1F32D, 0x1F335}, {0x1F337, 0x1F37C}, {0x1F37E, 0x1F393},
    {0x1F3A0, 0x1F3CA}, {0x1F3CF, 0x1F3D3}, {0x1F3E0, 0x1F3F0}, {0x1F3F4, 0x1F3F4}, {0x1F3F8, 0x1F43E},
    {0x1F440, 0x1F440}, {0x1F442, 0x1F4FC}, {0x1F4FF, 0x1F53D}, {0x1F54B, 0x1F54E}, {0x1F550, 0x1F567},
    {0x1F57A, 0x1F57A}, {0x1F595, 0x1F596}, {0x1F5A4, 0x1F5A4}, {0x1F5FB, 0x1F64F}, {0x1F680, 0x1F6C5},
    {0x1F6CC, 0x1F6CC}, {0x1F6D0, 0x1F6D2}, {0x1F6D5, 0x1F6DF}, {0x1F6EB, 0x1F6EC}, {0x1F6F4, 0x1F6FC},
    {0x1F7E0, 0x1F7F0}, {0x1F90C, 0x1F93A}, {0x1F93C, 0x1F945}, {0x1F947, 0x1F9FF}, {0x1FA70, 0x1FAF6},
    {0x20000, 0x3FFFD},
};

static bool in_ranges(uint32_t code, const struct range *ranges, size_t count)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (code > ranges[middle].last)
            low = middle + 1;
        else if (code < ranges[middle].first)
            high = middle;
        else
            return true;
    }
    return false;
}

int tc_width_code(uint32_t code)
{
    if (code >= 0x20 && code < 0x7F)
        return 1;
    if (code < 0xA0)
        return 0;
#ifdef __STDC_ISO_10646__ /* wchar_t holds code points, as in glibc and musl */
    int columns = wcwidth((wchar_t)code);
    if (columns >= 0)
        return columns;
#endif
    if (in_ranges(code, zero_width, sizeof zero_width / sizeof *zero_width))
        return 0;
    return in_ranges(code, double_width, sizeof double_width / sizeof *double_width) ? 2 : 1;
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

static void add_padded(struct tc_text *out, const char *text, size_t length, int blanks, enum tc_align align)
{
    size_t all = blanks > 0 ? (size_t)blanks : 0;
    size_t before = align == TC_ALIGN_RIGHT ? all : align == TC_ALIGN_MIDDLE ? all / 2 : 0;
    tc_text_add_repeated(out, " ", before);
    tc_text_add_bytes(out, text, length);
    tc_text_add_repeated(out, " ", all - before);
}

void tc_width_pad(struct tc_text *out, const char *text, int columns, enum tc_align align)
{
    add_padded(out, text, strlen(text), columns - tc_width(text), align);
}

void tc_width_fit(struct tc_text *out, const char *text, int columns, enum tc_align align, bool ascii)
{
    if (tc_width(text) <= columns) {
        tc_width_pad(out, text, columns, align);
        return;
    }
    const char *ellipsis = ascii ? ".." : "…";
    int room = columns - tc_width(ellipsis);
    if (room < 1) { /* too narrow for an ellipsis: better a letter than none */
        ellipsis = "";
        room = columns;
    }
    size_t length = tc_width_cut(text, room);
    int blanks = columns - tc_width_bytes(text, length) - tc_width(ellipsis);
    add_padded(out, text, length, 0, TC_ALIGN_LEFT);
    add_padded(out, ellipsis, strlen(ellipsis), blanks, TC_ALIGN_LEFT);
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

/*
 * Whether the text may be broken at its i-th byte. A count stays with what it
 * counts ("2 × lid"); of a size, all after the first two figures may move on.
 */
static bool breaks_at(const char *text, size_t i)
{
    if (text[i] != ' ' || times_before(text, i))
        return false;
    if (!times_from(text, i + 1))
        return true;
    for (size_t k = 0; k < i; k++)
        if (times_before(text, k))
            return true;
    return false;
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

bool tc_wrap_more(const struct tc_wrap *wrap)
{
    return wrap->rest[strspn(wrap->rest, " ")] != '\0';
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
