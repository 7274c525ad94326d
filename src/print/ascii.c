/* SPDX-License-Identifier: MIT */
#include "print/ascii.h"

#include <string.h>

#include "core/base/clean.h"

struct replacement {
    uint32_t code;
    const char *ascii;
};

/* By code point, for the binary search. */
static const struct replacement replacements[] = {
    {0xA0, " "},      {0xA3, "GBP"},   {0xA7, "section "}, {0xA9, "(c)"},         {0xAB, "\""},
    {0xAC, "not "},   {0xAD, "-"},     {0xAE, "(R)"},      {0xB1, "+-"},          {0xB2, "2"},
    {0xB3, "3"},      {0xB4, "'"},     {0xB5, "u"},        {0xB9, "1"},           {0xBB, "\""},
    {0xBC, "1/4"},    {0xBD, "1/2"},   {0xBE, "3/4"},      {0xC6, "AE"},          {0xD7, "x"},
    {0xDE, "Th"},     {0xDF, "ss"},    {0xE6, "ae"},       {0xF7, "/"},           {0xFE, "th"},
    {0x132, "IJ"},    {0x133, "ij"},   {0x149, "'n"},      {0x152, "OE"},         {0x153, "oe"},
    {0x394, "D"},     {0x3A9, "ohm"},  {0x3B7, "eta"},     {0x3BB, "lambda"},     {0x3BC, "u"},
    {0x2007, " "},    {0x2009, " "},   {0x2010, "-"},      {0x2011, "-"},         {0x2012, "-"},
    {0x2013, "-"},    {0x2014, "-"},   {0x2015, "-"},      {0x2018, "'"},         {0x2019, "'"},
    {0x201A, ","},    {0x201C, "\""},  {0x201D, "\""},     {0x201E, "\""},        {0x2020, "+"},
    {0x2022, "*"},    {0x2026, "..."}, {0x202F, " "},      {0x2030, "per mille"}, {0x2032, "'"},
    {0x2033, "\""},   {0x2039, "<"},   {0x203A, ">"},      {0x2044, "/"},         {0x2070, "0"},
    {0x2074, "4"},    {0x2080, "0"},   {0x2081, "1"},      {0x2082, "2"},         {0x2083, "3"},
    {0x20AC, "EUR"},  {0x20B9, "INR"}, {0x20BA, "TRY"},    {0x20BD, "RUB"},       {0x2116, "No"},
    {0x2122, "(TM)"}, {0x2126, "ohm"}, {0x2190, "<-"},     {0x2192, "->"},        {0x2194, "<->"},
    {0x21D2, "=>"},   {0x2206, "D"},   {0x2212, "-"},      {0x2215, "/"},         {0x221A, "sqrt"},
    {0x221E, "inf"},  {0x2248, "~"},   {0x2260, "!="},     {0x2264, "<="},        {0x2265, ">="},
    {0x22C5, "."},
};

/* The letters of U+00C0 to U+017F without their accents; '?' where `replacements` has it. */
static const char plain_letters[] = "AAAAAA?CEEEEIIIIDNOOOOO?OUUUUY??"
                                    "aaaaaa?ceeeeiiiidnooooo?ouuuuy?y"
                                    "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGg"
                                    "GgGgHhHhIiIiIiIiIi??JjKkkLlLlLlL"
                                    "lLlNnNnNn?NnOoOoOo??RrRrRrSsSsSs"
                                    "SsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";

static const char *find(uint32_t code)
{
    size_t low = 0, high = sizeof replacements / sizeof *replacements;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (replacements[middle].code == code)
            return replacements[middle].ascii;
        if (replacements[middle].code < code)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

/* ¼ to ¾ and ⅛ to ⅞ */
static bool is_fraction(uint32_t code)
{
    return (code >= 0xBC && code <= 0xBE) || (code >= 0x215B && code <= 0x215E);
}

static void add_code(struct tc_text *out, uint32_t code, char next)
{
    const char *known = find(code);
    char before = out->length > 0 ? out->data[out->length - 1] : ' ';
    if (is_fraction(code) && before >= '0' && before <= '9')
        tc_text_add_char(out, ' '); /* 24¼ is 24 1/4 */
    if (code < 0x80)
        tc_text_add_char(out, (char)code);
    else if (code == 0xB0) /* the degree sign: a temperature is plain without it */
        tc_text_add(out, next == 'C' || next == 'F' ? "" : " deg");
    else if (code == 0xB7) /* a dot between items, or a product */
        tc_text_add_char(out, next == ' ' ? '-' : '.');
    else if (known)
        tc_text_add(out, known);
    else if (code >= 0xC0 && code < 0xC0 + sizeof plain_letters - 1)
        tc_text_add_char(out, plain_letters[code - 0xC0]);
    else if (code < 0x300 || code > 0x36F) /* a combining mark belongs to the letter before it */
        tc_text_add_char(out, '?');
}

void tc_ascii_add(struct tc_text *out, const char *text)
{
    size_t length = strlen(text);
    for (size_t i = 0; i < length;) {
        uint32_t code = 0;
        int n = tc_utf8_decode(text + i, length - i, &code);
        i += n > 0 ? (size_t)n : 1;
        if (n > 0)
            add_code(out, code, text[i]);
        else
            tc_text_add_char(out, '?');
    }
}

/* A text of the copy; NULL stays NULL. `work` only saves an allocation for each text. */
static const char *plain(struct tc_sheet *copy, struct tc_text *work, const char *text)
{
    if (!text)
        return NULL;
    tc_text_clear(work);
    tc_ascii_add(work, text);
    if (work->failed)
        copy->failed = true;
    return tc_sheet_copy(copy, tc_text_string(work));
}

static void copy_rows(struct tc_sheet *copy, struct tc_text *work, const struct tc_sheet *sheet)
{
    copy->rows = tc_sheet_memory(copy, sheet->row_count, sizeof *copy->rows);
    copy->row_capacity = sheet->row_count;
    for (size_t r = 0; r < sheet->row_count && !copy->failed; r++) {
        const struct tc_row *from = &sheet->rows[r];
        struct tc_row *to = &copy->rows[r];
        to->kind = from->kind;
        to->label = plain(copy, work, from->label);
        to->subject = tc_sheet_copy(copy, from->subject); /* never shown: it must stay what it is */
        to->unit = plain(copy, work, from->unit);
        copy->row_count = r + 1;
        if (!from->cells)
            continue;
        to->cells = tc_sheet_memory(copy, sheet->column_count, sizeof *to->cells);
        for (size_t c = 0; c < sheet->column_count && to->cells; c++) {
            to->cells[c] = from->cells[c];
            to->cells[c].text = plain(copy, work, from->cells[c].text);
            if (to->cells[c].decimals == TC_EIGHTHS)
                to->cells[c].decimals = TC_EIGHTHS_ASCII;
            if (from->cells[c].edit) /* a path, never shown: it must stay what it is */
                to->cells[c].edit = tc_sheet_copy(copy, from->cells[c].edit);
        }
    }
}

static void copy_chart(struct tc_sheet *copy, struct tc_text *work, const struct tc_chart *from)
{
    struct tc_chart *to = tc_sheet_chart(copy, from->kind, from->series_count, from->point_count);
    if (!to)
        return;
    to->title = plain(copy, work, from->title);
    to->x_title = plain(copy, work, from->x_title);
    to->y_title = plain(copy, work, from->y_title);
    to->band = plain(copy, work, from->band);
    to->below = plain(copy, work, from->below);
    to->above = plain(copy, work, from->above);
    to->middle = from->middle;
    to->decimals = from->decimals;
    for (size_t i = 0; i < from->point_count; i++) {
        to->x[i] = from->x[i];
        to->x_labels[i] = plain(copy, work, from->x_labels[i]);
    }
    for (size_t s = 0; s < from->series_count; s++) {
        to->series[s].name = plain(copy, work, from->series[s].name);
        if (from->point_count > 0)
            memcpy(to->series[s].values, from->series[s].values,
                   from->point_count * sizeof *from->series[s].values);
    }
}

static void copy_drawing(struct tc_sheet *copy, struct tc_text *work, const struct tc_drawing *from)
{
    const char *title = plain(copy, work, from->title);
    const char *unit = plain(copy, work, from->unit);
    tc_sheet_drawing(copy, title, from->width, from->height, unit, from->unit_length);
    for (size_t i = 0; i < from->box_count; i++) {
        struct tc_box box = from->boxes[i];
        box.label = plain(copy, work, box.label);
        tc_sheet_box(copy, box);
    }
}

enum tc_status tc_ascii_sheet(struct tc_sheet *copy, const struct tc_sheet *sheet)
{
    struct tc_text work = TC_TEXT_EMPTY;
    tc_sheet_start(copy, sheet->name, sheet->column_count);
    copy->title = plain(copy, &work, sheet->title);
    copy->assumptions = plain(copy, &work, sheet->assumptions);
    copy->row_head = plain(copy, &work, sheet->row_head);
    copy->facts = sheet->facts;
    copy->first = sheet->first;
    for (size_t c = 0; c < copy->column_count; c++) {
        copy->columns[c].head = plain(copy, &work, sheet->columns[c].head);
        copy->columns[c].subhead = plain(copy, &work, sheet->columns[c].subhead);
        copy->columns[c].subject = tc_sheet_copy(copy, sheet->columns[c].subject);
        copy->columns[c].words = sheet->columns[c].words;
    }
    copy_rows(copy, &work, sheet);
    for (size_t i = 0; i < sheet->chart_count; i++)
        copy_chart(copy, &work, &sheet->charts[i]);
    if (sheet->drawing)
        copy_drawing(copy, &work, sheet->drawing);
    for (size_t i = 0; i < sheet->note_count; i++) {
        const char *text = plain(copy, &work, sheet->notes[i].text);
        tc_sheet_note(copy, sheet->notes[i].kind, "%s", text);
    }
    tc_text_free(&work);
    return copy->failed ? TC_NO_MEMORY : TC_OK;
}
