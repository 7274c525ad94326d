/* SPDX-License-Identifier: MIT */
#include "sheet/explain.h"

#include <math.h>
#include <string.h>

#include "core/base/number.h"

enum { VALUE, HOW, COLUMNS };
enum { LEVELS = 2, MOST_INDENT = 16 };

/* -------------------------------------------------------------------------- names */

bool tc_figure_is(const struct tc_cell *cell)
{
    return cell->kind == TC_CELL_MONEY || cell->kind == TC_CELL_NUMBER;
}

static const char *without_indent(const char *text)
{
    return text + strspn(text, " ");
}

/* What is easily typed. */
static bool is_plain(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text >= 0x80)
            return false;
    return true;
}

/* What names a column: its head, or its subject where that is another's head too or not easily typed. */
static const char *column_name(const struct tc_sheet *sheet, size_t column)
{
    const struct tc_column *own = &sheet->columns[column];
    bool plain = is_plain(own->head);
    for (size_t i = 0; plain && i < sheet->column_count; i++)
        plain = i == column || strcmp(sheet->columns[i].head, own->head) != 0;
    return plain || !own->subject[0] ? own->head : own->subject;
}

static const char *group_name(const struct tc_sheet *sheet, size_t row)
{
    for (size_t r = row + 1; r-- > 0;)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            return sheet->rows[r].subject;
    return "";
}

/* The how-manieth row of that group and subject it is, from 1. */
static int turn_of(const struct tc_sheet *sheet, size_t row)
{
    int turn = 1;
    for (size_t r = 0; r < row; r++)
        turn += sheet->rows[r].kind != TC_ROW_GROUP &&
                strcmp(sheet->rows[r].subject, sheet->rows[row].subject) == 0 &&
                strcmp(group_name(sheet, r), group_name(sheet, row)) == 0;
    return turn;
}

void tc_figure_name(const struct tc_sheet *sheet, size_t row, size_t column, struct tc_text *name)
{
    const char *group = group_name(sheet, row);
    int turn = turn_of(sheet, row);
    tc_text_addf(name, "%s/", column_name(sheet, column));
    if (group[0])
        tc_text_addf(name, "%s/", group);
    tc_text_add(name, without_indent(sheet->rows[row].subject));
    if (turn > 1)
        tc_text_addf(name, " (%d)", turn);
}

bool tc_figure_asked(const struct tc_ask *ask, const char *subject)
{
    const char *slash = strrchr(subject, '/'); /* a short name may leave out what stands before it */
    return ask->explain &&
           (!ask->explain_of || strstr(ask->explain_of, slash ? slash + 1 : without_indent(subject)));
}

/* Whether the parts of a short name stand in a whole one in their order; the last part of both being the
 * same. */
static bool is_short_for(const char *shorter, const char *whole)
{
    size_t short_length = strlen(shorter), length = strlen(whole);
    if (short_length > length || strcmp(whole + length - short_length, shorter) != 0) {
        const char *slash = strchr(shorter, '/'), *cut = strchr(whole, '/');
        return slash && cut && slash - shorter == cut - whole &&
               strncmp(shorter, whole, (size_t)(cut - whole)) == 0 && is_short_for(slash + 1, cut + 1);
    }
    return short_length == length || whole[length - short_length - 1] == '/';
}

/* Whether a text is a number of a line: "2", "2.1". */
static bool is_line(const char *text)
{
    return text[0] >= '1' && text[0] <= '9' && text[strspn(text, "0123456789.")] == '\0';
}

struct search {
    const char *name;
    struct tc_figure figure;
    int exact, found;
    struct tc_text others;
};

static void look_at(struct search *search, const struct tc_sheet *sheet, size_t row, size_t column)
{
    struct tc_text name = TC_TEXT_EMPTY;
    tc_figure_name(sheet, row, column, &name);
    const char *text = tc_text_string(&name);
    bool exact = strcmp(text, search->name) == 0;
    if (exact || (search->exact == 0 && is_short_for(search->name, text))) {
        if (search->found < 4)
            tc_text_addf(&search->others, "%s'%s'", search->found ? ", " : "", text);
        search->found++;
        search->exact += exact;
        search->figure = (struct tc_figure){row, column, sheet->rows[row].cells[column].term, ""};
    }
    tc_text_free(&name);
}

static struct search find(const struct tc_sheet *sheet, const char *name)
{
    struct search search = {.name = name, .others = TC_TEXT_EMPTY};
    for (size_t r = 0; r < sheet->row_count; r++)
        for (size_t c = 0; sheet->rows[r].cells && c < sheet->column_count; c++)
            if (search.exact == 0 && (tc_figure_is(&sheet->rows[r].cells[c]) || sheet->rows[r].cells[c].term))
                look_at(&search, sheet, r, c);
    return search;
}

bool tc_figure_find(const struct tc_sheet *sheet, const char *name, struct tc_figure *figure,
                    struct tc_text *problem)
{
    struct search search = find(sheet, name);
    const char *slash = strrchr(name, '/');
    if (search.found == 0 && slash && is_line(slash + 1)) {
        struct tc_text cut = TC_TEXT_EMPTY;
        tc_text_add_bytes(&cut, name, (size_t)(slash - name));
        tc_text_free(&search.others);
        search = find(sheet, tc_text_string(&cut));
        search.figure.line = slash + 1;
        tc_text_free(&cut);
    }
    *figure = search.figure;
    bool one = search.exact > 0 || search.found == 1;
    if (search.found == 0)
        tc_text_addf(problem, "no figure '%s' on the sheet %s; `tankcost explain %s` lists them", name,
                     sheet->name, sheet->name);
    else if (!one)
        tc_text_addf(problem, "'%s' may be %s%s", name, tc_text_string(&search.others),
                     search.found > 4 ? " ..." : "");
    else if (!figure->term)
        tc_text_addf(problem, "the sheet does not say where '%s' comes from", name);
    else if (!tc_explain_line(figure->term, figure->line))
        tc_text_addf(problem, "'%s' has no line %s", name, figure->line);
    bool good = one && figure->term && tc_explain_line(figure->term, figure->line);
    tc_text_free(&search.others);
    return good;
}

const struct tc_term *tc_explain_line(const struct tc_term *term, const char *line)
{
    while (term && *line) {
        const char *end;
        int number;
        size_t length = strcspn(line, ".");
        char digits[12];
        if (length == 0 || length >= sizeof digits)
            return NULL;
        memcpy(digits, line, length);
        digits[length] = '\0';
        if (tc_number_read_count(digits, &end, &number) != TC_OK || number < 1)
            return NULL;
        const struct tc_term_part *part = term->parts;
        while (part && --number > 0)
            part = part->next;
        term = part ? part->term : NULL;
        line += length + (line[length] == '.');
    }
    return term;
}

/* -------------------------------------------------------------------------- lines */

const char *tc_explain_how(struct tc_sheet *sheet, const struct tc_term *term)
{
    switch (term->from) {
    case TC_TERM_COMPUTED: return tc_sheet_format(sheet, "= %s", term->formula);
    case TC_TERM_SIMULATED: return tc_sheet_format(sheet, "worked out: %s", term->place);
    case TC_TERM_MODEL: return tc_sheet_format(sheet, "fixed: %s", term->place);
    case TC_TERM_ASSUMED: return tc_sheet_format(sheet, "assumed: %s", term->place);
    case TC_TERM_PROFILE:
    case TC_TERM_TYPED:
    case TC_TERM_DEFAULT: break;
    }
    return term->place;
}

/* So many decimals that six digits of it count. */
static int decimals_of(double value)
{
    double size = fabs(value);
    if (size < 1e-9 || fabs(size - round(size)) < 1e-9)
        return 0;
    int decimals = 5 - (int)floor(log10(size));
    char buffer[TC_NUMBER_SIZE];
    decimals = decimals < 0 ? 0 : decimals > 9 ? 9 : decimals;
    tc_number_write(buffer, value, decimals, false);
    size_t length = strlen(buffer);
    while (decimals > 0 && buffer[--length] == '0')
        decimals--;
    return decimals;
}

/* The same, but amounts of money have at least the decimals of their currency. */
static int decimals_for(const struct tc_term *term)
{
    struct tc_currency currency;
    int decimals = decimals_of(term->value);
    if (strlen(term->unit) == 3 && tc_currency_find(term->unit, &currency) && decimals < currency.exponent)
        return currency.exponent;
    return decimals;
}

void tc_explain_value(struct tc_sheet *sheet, size_t column, const struct tc_term *term)
{
    enum tc_status status = TC_OK;
    if (term->money)
        tc_sheet_money(sheet, column, tc_currency_money(term->currency, term->value, &status),
                       term->currency);
    else
        tc_sheet_number(sheet, column, term->value, decimals_for(term));
}

struct writer {
    struct tc_sheet *out;
    bool all;
};

/* The line at which the parts of a term, which terms under several names share, were shown; NULL: not yet. */
static const char *shown_at(const struct writer *w, const struct tc_term *term)
{
    return term->parts && term->parts->shown_on == w->out ? term->parts->shown : NULL;
}

static void note_shown(struct writer *w, const struct tc_term *term, const char *path)
{
    if (!term->parts)
        return;
    term->parts->shown = path;
    term->parts->shown_on = w->out;
}

/* One line: its number is what it is about. */
static void add_row(struct writer *w, const struct tc_term *term, const char *label, const char *unit,
                    int level, const char *path, const char *how)
{
    int indent = 2 * (level < MOST_INDENT ? level : MOST_INDENT);
    tc_sheet_row(w->out, TC_ROW_LINE, tc_sheet_format(w->out, "%*s%s", indent, "", label), unit);
    tc_sheet_about(w->out, path);
    tc_explain_value(w->out, VALUE, term);
    tc_sheet_text(w->out, HOW, how);
}

/* Terms nest no deeper than the model; what is opened stops at what was opened before. */
static void add_term(struct writer *w, const struct tc_term *term, const char *label, int level,
                     const char *path)
{
    const char *before = level > 0 ? shown_at(w, term) : NULL;
    bool open = term->parts && !before && (w->all || level < LEVELS);
    const char *how = tc_explain_how(w->out, term);
    if (before)
        how = tc_sheet_format(w->out, "%s; as line %s", how, before);
    else if (term->parts && !open)
        how = tc_sheet_format(w->out, "%s; opens as line %s", how, path);
    add_row(w, term, label, term->unit, level, path, how);
    if (!open || w->out->failed)
        return;
    note_shown(w, term, path);
    int number = 0;
    for (const struct tc_term_part *part = term->parts; part; part = part->next) {
        const char *inner = tc_sheet_format(w->out, "%s%s%d", path, path[0] ? "." : "", ++number);
        add_term(w, part->term, tc_sheet_format(w->out, "%s  %s", part->term->symbol, part->term->words),
                 level + 1, inner);
    }
}

static void start(struct tc_sheet *out, const struct tc_sheet *sheet, const char *title)
{
    tc_sheet_start(out, "explain", COLUMNS);
    tc_sheet_head(out, title, sheet->assumptions, "");
    tc_sheet_column(out, VALUE, "value", "");
    tc_sheet_column(out, HOW, "comes from", "");
    if (!out->failed)
        out->columns[HOW].words = true;
}

static void add_all(struct writer *w, const struct tc_sheet *sheet)
{
    int number = 0;
    for (size_t r = 0; r < sheet->row_count; r++)
        for (size_t c = 0; sheet->rows[r].cells && c < sheet->column_count; c++) {
            const struct tc_cell *cell = &sheet->rows[r].cells[c];
            struct tc_text name = TC_TEXT_EMPTY;
            if (!tc_figure_is(cell) || w->out->failed)
                continue;
            tc_figure_name(sheet, r, c, &name);
            const char *path = tc_sheet_format(w->out, "%d", ++number);
            if (cell->term && w->all) {
                add_term(w, cell->term, tc_text_string(&name), 0, path);
            } else if (cell->term) {
                add_row(w, cell->term, tc_text_string(&name), cell->term->unit, 0, path,
                        tc_explain_how(w->out, cell->term));
            } else {
                tc_sheet_row(w->out, TC_ROW_LINE, tc_text_string(&name), sheet->rows[r].unit);
                tc_sheet_about(w->out, path);
                if (cell->kind == TC_CELL_MONEY)
                    tc_sheet_money(w->out, VALUE, cell->money, cell->currency);
                else
                    tc_sheet_number(w->out, VALUE, cell->number, cell->decimals);
                tc_sheet_text(w->out, HOW, "not told");
            }
            tc_text_free(&name);
        }
}

enum tc_status tc_explain_make(const struct tc_sheet *sheet, const struct tc_figure *figure, bool all,
                               struct tc_sheet *out)
{
    struct tc_text name = TC_TEXT_EMPTY;
    struct writer w = {.out = out, .all = all};
    if (figure) {
        tc_figure_name(sheet, figure->row, figure->column, &name);
        const struct tc_term *term = tc_explain_line(figure->term, figure->line);
        if (figure->line[0])
            tc_text_addf(&name, "/%s", figure->line);
        start(out, sheet, "");
        out->title =
            tc_sheet_format(out, "Where %s of the sheet %s comes from", tc_text_string(&name), sheet->name);
        add_term(&w, term,
                 figure->line[0] ? tc_sheet_format(out, "%s  %s", term->symbol, term->words)
                                 : tc_text_string(&name),
                 0, figure->line);
    } else {
        start(out, sheet, "");
        out->title = tc_sheet_format(out, "Where the figures of the sheet %s come from", sheet->name);
        add_all(&w, sheet);
    }
    tc_sheet_note(
        out, TC_NOTE_REMARK,
        "Symbols stand for the lines below; a line opens by its number behind the name of the figure. "
        "tankcost-model(7) has the signs and the formulas.");
    tc_text_free(&name);
    return out->failed ? TC_NO_MEMORY : TC_OK;
}
