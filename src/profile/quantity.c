/* SPDX-License-Identifier: MIT */
#include "profile/quantity.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"

bool tc_problem(char problem[TC_PROBLEM_SIZE], const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(problem, TC_PROBLEM_SIZE, format, arguments);
    va_end(arguments);
    return false;
}

const char *tc_quantity_shown(char buffer[TC_SHOWN_SIZE], const char *text)
{
    size_t length = strlen(text);
    if (length < TC_SHOWN_SIZE)
        return memcpy(buffer, text, length + 1);
    size_t cut = tc_utf8_cut(text, length, TC_SHOWN_SIZE - 4);
    memcpy(buffer, text, cut);
    memcpy(buffer + cut, "...", 4);
    return buffer;
}

/* ----------------------------------------------------------- one number with its unit */

/* A number as written, with what stands behind it. */
struct piece {
    double number;
    const char *digits;         /* where the number starts */
    const struct tc_unit *unit; /* NULL where none is written */
    struct tc_currency currency;
};

/* What is being read, for the functions below. */
struct figure_reader {
    const struct tc_quantity_form *form;
    char shown[TC_SHOWN_SIZE]; /* the whole text, for messages */
    char *problem;
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static const char *skip_blanks(const char *p)
{
    while (*p == ' ' || *p == '\t')
        p++;
    return p;
}

/* Whether the word, in lower case, stands at p alone, in any case. */
static bool word_at(const char *p, const char *word)
{
    for (; *word; p++, word++)
        if (tc_name_lower(*p) != *word)
            return false;
    return !is_letter(*p) && !is_digit(*p);
}

static bool needs_unit(const struct tc_quantity_form *form)
{
    return form->dimension != TC_DIM_PLAIN;
}

/* A currency's sign before an amount, "$39.99": bytes of it, or 0. */
static size_t sign_length(const char *text)
{
    static const char *const signs[] = {"$", "\u00a3", "\u20ac", "\u00a5"};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (strncmp(text, signs[i], strlen(signs[i])) == 0)
            return strlen(signs[i]);
    return 0;
}

static bool no_number(const struct figure_reader *reader)
{
    size_t sign = reader->form->money ? sign_length(reader->shown) : 0;
    if (sign > 0)
        return tc_problem(reader->problem, "'%s': write the amount without '%.*s', like '%s'", reader->shown,
                          (int)sign, reader->shown, reader->form->example);
    return tc_problem(reader->problem, "'%s' is not a number; write it like '%s'", reader->shown,
                      reader->form->example);
}

/* A comma within a number: the same text with a point where that can be meant. */
static bool decimal_comma(const struct figure_reader *reader)
{
    char better[TC_SHOWN_SIZE];
    memcpy(better, reader->shown, sizeof better);
    char *comma = strchr(better, ',');
    bool once = comma && !strchr(comma + 1, ',') && !strchr(better, '.');
    if (once)
        *comma = '.';
    return once ? tc_problem(reader->problem, "'%s' has a decimal comma; write '%s'", reader->shown, better)
                : tc_problem(reader->problem,
                             "'%s' has a comma in a number; write a point before decimals and nothing else",
                             reader->shown);
}

static bool has_three_decimals(const char *code)
{
    struct tc_currency currency;
    return tc_currency_find(code, &currency) && currency.exponent == 3;
}

/*
 * An amount with three digits behind its only point or comma: thousands to some,
 * decimals to others, so neither is guessed. A currency, whose code may be "", may have three decimals.
 */
static bool two_readings(const struct figure_reader *reader, const char *digits, const char *code)
{
    if (!digits || !reader->form->money)
        return false;
    size_t whole = strspn(digits, "0123456789");
    const char *mark = digits + whole;
    if (reader->form->fine || needs_unit(reader->form) || whole == 0 || whole > 3 || digits[0] == '0' ||
        (*mark != ',' && *mark != '.') || strspn(mark + 1, "0123456789") != 3 || mark[4] == '.' ||
        mark[4] == ',' || (*mark == '.' && has_three_decimals(code)))
        return false;
    tc_problem(reader->problem, "'%s' can be read in two ways; write '%.*s%.3s' or '%.*s.%.2s'",
               reader->shown, (int)whole, digits, mark + 1, (int)whole, digits, mark + 1);
    return true;
}

static const char *unit_name_at(const void *context, size_t i)
{
    const enum tc_dimension *dimension = context;
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    return units[i].dimension == *dimension ? units[i].name : NULL;
}

/* The dimension of the unit that a word is, all of it; false where it is none. */
static bool dimension_of(const char *word, enum tc_dimension *dimension)
{
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(units[i].name, word) != 0)
            continue;
        *dimension = units[i].dimension;
        return true;
    }
    return false;
}

/* What stands at p is no unit of the dimension: says so, with the unit that may be meant. */
static bool wrong_unit(const struct figure_reader *reader, const char *p)
{
    enum tc_dimension dimension = reader->form->dimension;
    char word[TC_NAME_SIZE];
    size_t length = strcspn(p, " \t,");
    size_t count;
    tc_unit_table(&count);
    const char *nearest = NULL;
    if (length > 0 && length < sizeof word) {
        memcpy(word, p, length);
        word[length] = '\0';
        nearest = tc_name_nearest(word, unit_name_at, &dimension, count);
    }
    if (reader->form->money)
        return tc_problem(reader->problem, "'%s' is not a rate; write it like '%s'", reader->shown,
                          reader->form->example);
    enum tc_dimension other;
    if (length > 0 && length < sizeof word && dimension_of(word, &other) && other != dimension)
        return tc_problem(reader->problem, "'%s' is %s, not %s; write it in %s", reader->shown,
                          tc_dimension_name(other), tc_dimension_name(dimension),
                          tc_dimension_units(dimension));
    if (nearest)
        return tc_problem(reader->problem, "'%s' is not %s; did you mean '%s' for '%s'?", reader->shown,
                          tc_dimension_name(dimension), nearest, word);
    return tc_problem(reader->problem, "'%s' is not %s; write it in %s", reader->shown,
                      tc_dimension_name(dimension), tc_dimension_units(dimension));
}

/* "9:30" at p: hours and minutes; false where there is no such thing. */
static bool read_clock(const char *p, const char **end, double *hours)
{
    int hour, minute;
    if (tc_number_read_count(p, end, &hour) != TC_OK || **end != ':')
        return false;
    const char *minutes = *end + 1;
    if (tc_number_read_count(minutes, end, &minute) != TC_OK || *end - minutes != 2 || minute > 59)
        return false;
    *hours = hour + minute / 60.0;
    return true;
}

static const struct tc_unit *hour_unit(void)
{
    return tc_unit_preferred(TC_DIM_HOURS, TC_METRIC);
}

static bool read_number(const struct figure_reader *reader, const char *p, const char **end,
                        struct piece *piece)
{
    piece->digits = p;
    bool tape = reader->form->dimension == TC_DIM_LENGTH && !reader->form->money;
    enum tc_status status =
        tape ? tc_number_read_tape(p, end, &piece->number) : tc_number_read(p, end, &piece->number);
    if (status == TC_SYNTAX)
        return no_number(reader);
    if (status != TC_OK)
        return tc_problem(reader->problem, "'%s' has more digits than can be told apart; 15 are enough",
                          reader->shown);
    p = *end;
    if (*p == ',' && is_digit(p[1]))
        return two_readings(reader, piece->digits, "") ? false : decimal_comma(reader);
    if (*p == '-' && is_digit(*skip_blanks(p + 1)))
        return tc_problem(reader->problem, "'%s' has a '-' in it; write a range like '45 to 50'",
                          reader->shown);
    if (*p == ':' && is_digit(p[1]))
        return tc_problem(reader->problem, "'%s' is not a time of day; write it like '9:30'", reader->shown);
    if (*p == '.' || is_digit(*p))
        return no_number(reader);
    return true;
}

/* A currency's code at p, three letters that stand alone, if one can be there. */
static bool read_code(const struct figure_reader *reader, const char *p, const char **end,
                      struct piece *piece)
{
    *end = p;
    if (!reader->form->money || !is_letter(*p) || word_at(p, "to") || word_at(p, "likely"))
        return true;
    char code[TC_NAME_SIZE];
    size_t length = 0;
    while (length < sizeof code - 1 && is_letter(p[length])) {
        code[length] = p[length];
        length++;
    }
    code[length] = '\0';
    *end = p + length;
    const char *unit_end;
    if (needs_unit(reader->form) && tc_unit_read(p, &unit_end, reader->form->dimension))
        return wrong_unit(reader, p); /* "0.16 kWh": the '/' is missing */
    return tc_quantity_currency(code, &piece->currency, reader->problem);
}

/* The unit at p: of a quantity " in", of a rate " / kWh"; none is fine. */
static bool read_unit(const struct figure_reader *reader, const char *p, const char **end,
                      struct piece *piece)
{
    *end = p;
    if (!needs_unit(reader->form) || *p == '\0')
        return true;
    if (reader->form->money) {
        if (*p != '/')
            return true;
        p = skip_blanks(p + 1);
    } else if (word_at(p, "to") || word_at(p, "likely") || is_digit(*p) || *p == '-' || *p == '+' ||
               *p == '.') {
        return true;
    }
    piece->unit = tc_unit_read(p, end, reader->form->dimension);
    return piece->unit != NULL || wrong_unit(reader, p);
}

/* A number and what belongs to it, at p. */
static bool read_piece(const struct figure_reader *reader, const char *p, const char **end,
                       struct piece *piece)
{
    *piece = (struct piece){0};
    p = skip_blanks(p);
    if (reader->form->dimension == TC_DIM_HOURS && !reader->form->money &&
        read_clock(p, end, &piece->number)) {
        piece->unit = hour_unit();
        *end = skip_blanks(*end);
        return true;
    }
    if (!read_number(reader, p, end, piece))
        return false;
    if (!read_code(reader, skip_blanks(*end), end, piece))
        return false;
    if (!read_unit(reader, skip_blanks(*end), end, piece))
        return false;
    *end = skip_blanks(*end);
    return true;
}

/* ------------------------------------------------------------- pieces that belong together */

/* Gives pieces without a unit or currency that of the next one that has it, or of the one before. */
static void share_units(struct piece *pieces, int count)
{
    for (int i = count - 2; i >= 0; i--) {
        if (!pieces[i].unit)
            pieces[i].unit = pieces[i + 1].unit;
        if (pieces[i].currency.code[0] == '\0')
            pieces[i].currency = pieces[i + 1].currency;
    }
    for (int i = 1; i < count; i++) {
        if (!pieces[i].unit)
            pieces[i].unit = pieces[i - 1].unit;
        if (pieces[i].currency.code[0] == '\0')
            pieces[i].currency = pieces[i - 1].currency;
    }
}

/* The currency of an amount: the written one, which has to be the known one, or else that. */
static bool settle_currency(const struct figure_reader *reader, struct tc_currency known, struct piece *piece)
{
    const char *written = piece->currency.code;
    if (written[0] == '\0') {
        if (reader->form->code)
            return tc_problem(reader->problem, "'%s' has no currency; write it like '%s'", reader->shown,
                              reader->form->example);
        piece->currency = known;
        return true;
    }
    if (reader->form->code && known.code[0] == '\0')
        return true;
    if (known.code[0] == '\0')
        return tc_problem(reader->problem,
                          "'%s': write the amount without '%s'; it is in the region's currency",
                          reader->shown, written);
    if (strcmp(written, known.code) != 0)
        return tc_problem(reader->problem, "'%s' is in %s, but amounts here are in %s", reader->shown,
                          written, known.code);
    return true;
}

/* An amount, not a rate, has no more decimals than its currency and is written in plain digits. */
static bool check_decimals(const struct figure_reader *reader, const struct piece *piece)
{
    if (!reader->form->money || needs_unit(reader->form) || piece->currency.code[0] == '\0')
        return true;
    const char *code = piece->currency.code, *end;
    int exponent = piece->currency.exponent;
    tc_money amount;
    enum tc_status status = tc_number_read_fixed(piece->digits, &end, exponent, TC_MONEY_MAX, &amount);
    if (*end == 'e' || *end == 'E' || status == TC_OVERFLOW)
        return tc_problem(reader->problem, "'%s' is not an amount of money; write it like '%s'",
                          reader->shown, reader->form->example);
    if (status == TC_OK)
        return true;
    if (exponent == 0)
        return tc_problem(reader->problem, "'%s' has decimals; %s has none", reader->shown, code);
    return tc_problem(reader->problem, "'%s' has more than the %d decimals of %s", reader->shown, exponent,
                      code);
}

/* A figure of the form in a unit, turned into what is read. */
static double to_base(const struct tc_quantity_form *form, const struct tc_unit *unit, double number)
{
    if (!unit)
        return number;
    if (!form->money)
        return number * unit->factor + unit->offset;
    return number / (form->dimension == TC_DIM_ENERGY ? unit->factor / TC_KILOWATT_HOUR : unit->factor);
}

/* Zero is the same in all units but those of temperature. */
static bool is_nothing(const struct tc_quantity_form *form, const struct piece *piece)
{
    return piece->number == 0 && form->dimension != TC_DIM_TEMPERATURE;
}

static bool settle_piece(const struct figure_reader *reader, struct tc_currency known, struct piece *piece,
                         double *value)
{
    const struct tc_quantity_form *form = reader->form;
    if (needs_unit(form) && !piece->unit && is_nothing(form, piece))
        piece->unit = tc_unit_preferred(form->dimension, TC_METRIC);
    if (needs_unit(form) && !piece->unit) {
        if (form->money)
            return tc_problem(reader->problem, "'%s' does not say for what; write it like '%s'",
                              reader->shown, form->example);
        return tc_problem(reader->problem, "'%s' has no unit; write it in %s", reader->shown,
                          tc_dimension_units(form->dimension));
    }
    if (form->money && !settle_currency(reader, known, piece))
        return false;
    if (two_readings(reader, piece->digits, piece->currency.code))
        return false;
    if (form->money && !check_decimals(reader, piece))
        return false;
    *value = to_base(form, piece->unit, piece->number);
    return true;
}

double tc_quantity_from_base(const struct tc_quantity_form *form, const struct tc_unit *unit, double value)
{
    if (!unit)
        return value;
    if (!form->money)
        return tc_unit_from_base(unit, value);
    return value * (form->dimension == TC_DIM_ENERGY ? unit->factor / TC_KILOWATT_HOUR : unit->factor);
}

/* ---------------------------------------------------------------------- figures */

static bool make_spread(const struct figure_reader *reader, const double *value, int count, bool likely,
                        struct tc_spread *spread)
{
    if (count == 1) {
        *spread = tc_spread_fixed(value[0]);
        return true;
    }
    if (value[1] < value[0])
        return tc_problem(reader->problem, "'%s' runs backwards; write the smaller figure first",
                          reader->shown);
    if (likely && (value[2] < value[0] || value[2] > value[1]))
        return tc_problem(reader->problem, "'%s': the likely figure lies outside the range", reader->shown);
    if (value[0] == value[1])
        *spread = tc_spread_fixed(value[0]);
    else if (likely)
        *spread = tc_spread_triangular(value[0], value[2], value[1]);
    else
        *spread = tc_spread_uniform(value[0], value[1]);
    return true;
}

static struct figure_reader start_reader(const struct tc_quantity_form *form, const char *text, char *problem)
{
    struct figure_reader reader = {.form = form, .problem = problem};
    tc_quantity_shown(reader.shown, text);
    return reader;
}

/* What is left over behind a figure. */
static bool too_much(const struct figure_reader *reader, const char *rest)
{
    char left[TC_SHOWN_SIZE];
    if (*rest == ',')
        return tc_problem(reader->problem, "'%s' is a list; one figure is wanted, like '%s'", reader->shown,
                          reader->form->example);
    return tc_problem(reader->problem, "'%s': '%s' is too much; write it like '%s'", reader->shown,
                      tc_quantity_shown(left, rest), reader->form->example);
}

bool tc_quantity_read(const struct tc_quantity_form *form, const char *text, struct tc_currency currency,
                      struct tc_quantity *figure, char problem[TC_PROBLEM_SIZE])
{
    struct figure_reader reader = start_reader(form, text, problem);
    struct piece piece[3];
    const char *p;
    int count = 1;
    bool likely = false;

    if (!read_piece(&reader, text, &p, &piece[0]))
        return false;
    if (word_at(p, "to")) {
        if (!read_piece(&reader, p + 2, &p, &piece[count++]))
            return false;
        likely = word_at(p, "likely");
        if (likely && !read_piece(&reader, p + 6, &p, &piece[count++]))
            return false;
    }
    if (*p != '\0')
        return too_much(&reader, p);
    share_units(piece, count);

    double value[3] = {0};
    for (int i = 0; i < count; i++) {
        if (!settle_piece(&reader, currency, &piece[i], &value[i]))
            return false;
        if (strcmp(piece[i].currency.code, piece[0].currency.code) != 0)
            return tc_problem(problem,
                              "'%s' is a range from one currency to another; write one range for each",
                              reader.shown);
    }
    figure->currency = piece[0].currency;
    figure->unit = piece[count - 1].unit;
    return make_spread(&reader, value, count, likely, &figure->spread);
}

/* The pieces of one figure or range of a list, behind `count` others; their number, 0 with a problem. */
static int list_figure(struct figure_reader *reader, const char **rest, struct piece *piece)
{
    int n = 1;
    if (!read_piece(reader, *rest, rest, &piece[0]))
        return 0;
    if (!word_at(*rest, "to"))
        return n;
    if (!read_piece(reader, *rest + 2, rest, &piece[n++]))
        return 0;
    return !word_at(*rest, "likely") || read_piece(reader, *rest + 6, rest, &piece[n++]) ? n : 0;
}

bool tc_quantity_list(const struct tc_quantity_form *form, const char *text, struct tc_spread *spreads,
                      int capacity, int *count, const struct tc_unit **unit, char problem[TC_PROBLEM_SIZE])
{
    enum { MOST_FIGURES = 12, MOST_PIECES = 3 * MOST_FIGURES };
    struct figure_reader reader = start_reader(form, text, problem);
    struct piece piece[MOST_PIECES];
    int pieces[MOST_FIGURES], n = 0, all = 0;

    if (capacity > MOST_FIGURES)
        capacity = MOST_FIGURES;
    for (const char *p = skip_blanks(text); *p != '\0'; n++) {
        if (n == capacity)
            return tc_problem(problem, "'%s' has more than %d figures", reader.shown, capacity);
        pieces[n] = list_figure(&reader, &p, &piece[all]);
        if (pieces[n] == 0)
            return false;
        all += pieces[n];
    }
    if (n == 0)
        return no_number(&reader);
    share_units(piece, all);
    *unit = piece[all - 1].unit;
    *count = n;
    struct piece *first = piece;
    for (int i = 0; i < n; first += pieces[i++]) {
        double value[3] = {0};
        for (int k = 0; k < pieces[i]; k++)
            if (!settle_piece(&reader, (struct tc_currency){"", 0}, &first[k], &value[k]))
                return false;
        if (!make_spread(&reader, value, pieces[i], pieces[i] == 3, &spreads[i]))
            return false;
    }
    return true;
}

static const char *code_at(const void *context, size_t i)
{
    (void)context;
    return tc_currency_code(i);
}

bool tc_quantity_currency(const char *text, struct tc_currency *currency, char problem[TC_PROBLEM_SIZE])
{
    if (tc_currency_find(text, currency))
        return true;
    char shown[TC_SHOWN_SIZE];
    size_t count = 0;
    while (tc_currency_code(count))
        count++;
    const char *nearest = tc_name_nearest(text, code_at, NULL, count);
    tc_quantity_shown(shown, text);
    if (nearest)
        return tc_problem(problem, "'%s' is not a currency; did you mean '%s'?", shown, nearest);
    return tc_problem(problem, "'%s' is not a currency; write its three letters of ISO 4217, such as 'USD'",
                      shown);
}

bool tc_quantity_item(const char **list, char *item, size_t room, char problem[TC_PROBLEM_SIZE])
{
    char shown[TC_SHOWN_SIZE];
    const char *start = skip_blanks(*list);
    problem[0] = '\0';
    if (*start == '\0')
        return false;
    const char *end = start + strcspn(start, ",");
    size_t length = (size_t)(end - start);
    while (length > 0 && (start[length - 1] == ' ' || start[length - 1] == '\t'))
        length--;
    if (length == 0)
        return tc_problem(problem, "'%s': there is nothing between two commas",
                          tc_quantity_shown(shown, *list));
    if (*end == ',' && *skip_blanks(end + 1) == '\0')
        return tc_problem(problem, "'%s' ends with a comma; go on or remove it",
                          tc_quantity_shown(shown, *list));
    if (*end == ',' && end > start && is_digit(end[-1]) && is_digit(end[1])) {
        static const struct tc_quantity_form amount = {.dimension = TC_DIM_PLAIN, .money = true};
        struct figure_reader reader = start_reader(&amount, start, problem);
        return two_readings(&reader, start, "")
                   ? false
                   : tc_problem(problem, "'%s' has a decimal comma; write a point",
                                tc_quantity_shown(shown, start));
    }
    if (length >= room)
        return tc_problem(problem, "'%s' is too long", tc_quantity_shown(shown, start));
    memcpy(item, start, length);
    item[length] = '\0';
    *list = *end == ',' ? end + 1 : end;
    return true;
}
