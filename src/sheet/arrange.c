/* SPDX-License-Identifier: MIT */
#include "sheet/arrange.h"

#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"

/* ------------------------------------------------------------------------------ keys */

static bool same(const struct tc_arrange_key *a, const struct tc_arrange_key *b)
{
    return a->text[0] != '\0' && strcmp(a->text, b->text) == 0;
}

/* Two subjects as one key; what is too long is cut, alike each time. */
static void set_key(struct tc_arrange_key *key, const char *first, const char *second)
{
    size_t length = 0;
    for (; *first && length < sizeof key->text / 2; first++)
        key->text[length++] = *first;
    key->text[length++] = '\n';
    for (; *second && length + 1 < sizeof key->text; second++)
        key->text[length++] = *second;
    key->text[length] = '\0';
}

/* A row is known by its group and what it is about: "to buy" stands in more than one. */
void tc_arrange_row(const struct tc_sheet *sheet, size_t row, struct tc_arrange_key *key)
{
    const char *group = "";
    bool heads = sheet->rows[row].kind == TC_ROW_GROUP;
    for (size_t r = row; !heads && r-- > 0 && !*group;)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            group = sheet->rows[r].subject;
    set_key(key, group, sheet->rows[row].subject);
}

void tc_arrange_column(const struct tc_sheet *sheet, size_t column, struct tc_arrange_key *key)
{
    set_key(key, "", sheet->columns[column].subject);
}

static bool hidden(const struct tc_arrange_key *keys, int count, const struct tc_arrange_key *key)
{
    for (int i = 0; i < count; i++)
        if (same(&keys[i], key))
            return true;
    return false;
}

static bool row_hidden(const struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t row)
{
    struct tc_arrange_key key;
    if (arrange->row_count == 0)
        return false;
    tc_arrange_row(sheet, row, &key);
    return hidden(arrange->row, arrange->row_count, &key);
}

static bool column_hidden(const struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t column)
{
    struct tc_arrange_key key;
    tc_arrange_column(sheet, column, &key);
    return hidden(arrange->column, arrange->column_count, &key);
}

/* The column with a key; column_count where none has it. */
static size_t find_column(const struct tc_sheet *sheet, const struct tc_arrange_key *wanted)
{
    size_t column = 0;
    for (struct tc_arrange_key key; column < sheet->column_count; column++) {
        tc_arrange_column(sheet, column, &key);
        if (same(wanted, &key))
            break;
    }
    return column;
}

/* The row with a key; row_count where none has it. */
static size_t find_row(const struct tc_sheet *sheet, const struct tc_arrange_key *wanted)
{
    size_t row = 0;
    for (struct tc_arrange_key key; row < sheet->row_count; row++) {
        tc_arrange_row(sheet, row, &key);
        if (sheet->rows[row].kind != TC_ROW_GROUP && same(wanted, &key))
            break;
    }
    return row;
}

/* --------------------------------------------------------------------------- figures */

/* The figure of a cell as it compares with others of its row; false where it has none. */
static bool figure(const struct tc_cell *cell, double *value)
{
    if (cell->kind == TC_CELL_MONEY)
        *value = (double)cell->money;
    else if (cell->kind == TC_CELL_NUMBER)
        *value = cell->number;
    else
        return false;
    return true;
}

static bool sortable(const struct tc_sheet *sheet, size_t row)
{
    double value;
    int figures = 0;
    const struct tc_row *r = &sheet->rows[row];
    for (size_t c = 0; !sheet->facts && r->cells && r->kind != TC_ROW_SENTENCE && c < sheet->column_count;
         c++)
        figures += figure(&r->cells[c], &value);
    return figures > 1;
}

/* ----------------------------------------------------------------------------- asking */

bool tc_arrange_hide_row(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t row)
{
    int left = 0;
    for (size_t r = 0; r < sheet->row_count; r++)
        left += sheet->rows[r].kind != TC_ROW_GROUP && !row_hidden(arrange, sheet, r);
    if (left < 2 || arrange->row_count == TC_ARRANGE_ROWS || sheet->rows[row].kind == TC_ROW_GROUP)
        return false;
    tc_arrange_row(sheet, row, &arrange->row[arrange->row_count++]);
    return true;
}

bool tc_arrange_hide_column(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t column)
{
    int left = 0;
    for (size_t c = 0; c < sheet->column_count; c++)
        left += !column_hidden(arrange, sheet, c);
    if (left < 2 || arrange->column_count == TC_ARRANGE_COLUMNS)
        return false;
    tc_arrange_column(sheet, column, &arrange->column[arrange->column_count++]);
    return true;
}

bool tc_arrange_sort(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t row)
{
    struct tc_arrange_key key;
    if (!sortable(sheet, row))
        return false;
    tc_arrange_row(sheet, row, &key);
    bool again = same(&arrange->sort, &key);
    if (again && arrange->descending)
        key.text[0] = '\0';
    arrange->descending = again && !arrange->descending;
    arrange->sort = key;
    return true;
}

bool tc_arrange_compare(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t from, size_t to)
{
    if (sheet->facts || from == to)
        return false;
    tc_arrange_column(sheet, from, &arrange->from);
    tc_arrange_column(sheet, to, &arrange->to);
    return true;
}

bool tc_arrange_is_none(const struct tc_arrange *arrange)
{
    return arrange->row_count == 0 && arrange->column_count == 0 && !arrange->sort.text[0] &&
           !arrange->from.text[0];
}

/* --------------------------------------------------------------------------- arranging */

/* A sheet being arranged: which columns of the whole it shows, in their order. */
struct work {
    const struct tc_sheet *whole;
    const struct tc_arrange *arrange;
    struct tc_sheet *view;
    size_t *columns; /* owned */
    size_t count;
    bool compares; /* two columns, and after them their difference */
    size_t sort;   /* the row the columns go by; row_count: none */
};

/* Whether column a goes before column b; those without a figure go last. */
static bool goes_before(const struct work *work, size_t a, size_t b)
{
    const struct tc_cell *cells = work->whole->rows[work->sort].cells;
    double x, y;
    if (!figure(&cells[a], &x))
        return false;
    if (!figure(&cells[b], &y))
        return true;
    return work->arrange->descending ? x > y : x < y;
}

/* Columns that are equal in the row keep their order. */
static void sort_columns(struct work *work)
{
    for (size_t i = 1; i < work->count; i++) {
        size_t column = work->columns[i], at = i;
        for (; at > 0 && goes_before(work, column, work->columns[at - 1]); at--)
            work->columns[at] = work->columns[at - 1];
        work->columns[at] = column;
    }
}

static void choose_columns(struct work *work)
{
    const struct tc_sheet *whole = work->whole;
    size_t from = find_column(whole, &work->arrange->from), to = find_column(whole, &work->arrange->to);
    work->sort = work->arrange->sort.text[0] ? find_row(whole, &work->arrange->sort) : whole->row_count;
    work->compares = from < whole->column_count && to < whole->column_count && from != to;
    if (work->compares) {
        work->columns[0] = from;
        work->columns[1] = to;
        work->count = 2;
        work->sort = whole->row_count;
        return;
    }
    for (size_t c = 0; c < whole->column_count; c++)
        if (!column_hidden(work->arrange, whole, c))
            work->columns[work->count++] = c;
    for (size_t c = 0; work->count == 0 && c < whole->column_count; c++)
        work->columns[work->count++] = c; /* those hidden are all there are now */
    if (work->sort < whole->row_count && sortable(whole, work->sort))
        sort_columns(work);
    else
        work->sort = whole->row_count;
}

/* How much more the second of two cells has; empty where they cannot be compared. */
static void subtract(struct tc_cell *difference, const struct tc_cell *from, const struct tc_cell *to)
{
    enum tc_status status = TC_OK;
    bool money = from->kind == TC_CELL_MONEY && to->kind == TC_CELL_MONEY &&
                 strcmp(from->currency.code, to->currency.code) == 0;
    bool number = from->kind == TC_CELL_NUMBER && to->kind == TC_CELL_NUMBER;
    *difference = (struct tc_cell){.kind = TC_CELL_EMPTY};
    if (!money && !number)
        return;
    *difference = *to;
    difference->edit = NULL;
    difference->marks = (from->marks | to->marks) & TC_MARK_INCOMPLETE;
    difference->decimals = from->decimals > to->decimals ? from->decimals : to->decimals;
    difference->number = to->number - from->number;
    difference->money = tc_money_subtract(to->money, from->money, &status);
    if (status != TC_OK)
        *difference = (struct tc_cell){.kind = TC_CELL_EMPTY};
}

static void add_row(struct work *work, size_t row)
{
    struct tc_sheet *view = work->view;
    const struct tc_row *from = &work->whole->rows[row];
    struct tc_row *to = &view->rows[view->row_count++];
    *to = *from;
    if (!from->cells || from->kind == TC_ROW_SENTENCE)
        return; /* a sentence stands in the first cell, whatever column that is */
    to->cells = tc_sheet_memory(view, view->column_count, sizeof *to->cells);
    for (size_t c = 0; to->cells && c < work->count; c++)
        to->cells[c] = from->cells[work->columns[c]];
    if (to->cells && work->compares)
        subtract(&to->cells[2], &to->cells[0], &to->cells[1]);
}

/* All rows that are not hidden, and the headings of those groups that have one left. */
static void add_rows(struct work *work)
{
    struct tc_sheet *view = work->view;
    const struct tc_sheet *whole = work->whole;
    size_t heading = whole->row_count;
    bool empty = true; /* the group had no rows of its own */
    view->rows = tc_sheet_memory(view, whole->row_count + 1, sizeof *view->rows);
    view->row_capacity = view->rows ? whole->row_count + 1 : 0;
    for (size_t r = 0; view->rows && r < whole->row_count; r++) {
        if (whole->rows[r].kind == TC_ROW_GROUP) {
            if (heading < whole->row_count && empty)
                add_row(work, heading);
            heading = r;
            empty = true;
            continue;
        }
        empty = false;
        if (row_hidden(work->arrange, whole, r))
            continue;
        if (heading < whole->row_count)
            add_row(work, heading);
        heading = whole->row_count;
        add_row(work, r);
    }
    if (view->rows && heading < whole->row_count && empty)
        add_row(work, heading);
}

static void add_columns(struct work *work)
{
    struct tc_sheet *view = work->view;
    for (size_t c = 0; c < work->count && c < view->column_count; c++)
        view->columns[c] = work->whole->columns[work->columns[c]];
    if (!work->compares || view->failed)
        return;
    bool both = strcmp(view->columns[0].subhead, view->columns[1].subhead) == 0;
    if (view->column_count == 3)
        view->columns[2] = (struct tc_column){
            .head = tc_sheet_format(view, "%s less %s", view->columns[1].head, view->columns[0].head),
            .subhead = both ? view->columns[0].subhead : "",
            .subject = ""};
}

/* "lid, light": what of the sheet is not shown. */
static int list_hidden(const struct work *work, bool rows, struct tc_text *text)
{
    int count = 0;
    const struct tc_sheet *whole = work->whole;
    size_t all = rows ? whole->row_count : whole->column_count;
    for (size_t i = 0; i < all; i++) {
        bool is = rows ? whole->rows[i].kind != TC_ROW_GROUP && row_hidden(work->arrange, whole, i)
                       : column_hidden(work->arrange, whole, i);
        if (!is)
            continue;
        const char *name = rows ? whole->rows[i].label : whole->columns[i].head;
        tc_text_addf(text, "%s%s", count++ > 0 ? ", " : "", name + strspn(name, " "));
    }
    return count;
}

static void note_hidden(struct work *work, bool rows)
{
    struct tc_text text = TC_TEXT_EMPTY;
    int count = list_hidden(work, rows, &text);
    if (count > 0)
        tc_sheet_note(work->view, TC_NOTE_REMARK, "%d %s%s hidden here: %s.", count, rows ? "row" : "column",
                      count > 1 ? "s are" : " is", tc_text_string(&text));
    if (text.failed)
        work->view->failed = true;
    tc_text_free(&text);
}

/* The notes of the whole sheet, and what was arranged. */
static void add_notes(struct work *work)
{
    struct tc_sheet *view = work->view;
    const struct tc_sheet *whole = work->whole;
    view->notes = tc_sheet_memory(view, whole->note_count + 4, sizeof *view->notes);
    if (!view->notes)
        return;
    view->note_capacity = whole->note_count + 4;
    view->note_count = whole->note_count;
    if (whole->note_count > 0)
        memcpy(view->notes, whole->notes, whole->note_count * sizeof *whole->notes);
    note_hidden(work, true);
    if (work->compares)
        tc_sheet_note(view, TC_NOTE_REMARK, "Only %s and %s are shown, and how much more %s has.",
                      view->columns[0].head, view->columns[1].head, view->columns[1].head);
    else if (work->count < whole->column_count)
        note_hidden(work, false);
    if (work->sort < whole->row_count)
        tc_sheet_note(view, TC_NOTE_REMARK, "Columns are sorted by \"%s\", the %s first.",
                      whole->rows[work->sort].label + strspn(whole->rows[work->sort].label, " "),
                      work->arrange->descending ? "highest" : "lowest");
}

enum tc_status tc_arrange_make(struct tc_sheet *view, const struct tc_sheet *whole,
                               const struct tc_arrange *arrange)
{
    struct work work = {.whole = whole, .arrange = arrange, .view = view};
    work.columns = calloc(whole->column_count + 2, sizeof *work.columns);
    if (!work.columns) {
        tc_sheet_start(view, "", 0);
        return TC_NO_MEMORY;
    }
    choose_columns(&work);
    tc_sheet_start(view, whole->name, work.count + work.compares);
    if (!view->failed) {
        view->title = whole->title;
        view->assumptions = whole->assumptions;
        view->row_head = whole->row_head;
        view->facts = whole->facts;
        view->charts = whole->charts;
        view->chart_count = view->chart_capacity = whole->chart_count;
        view->drawing = whole->drawing;
        add_columns(&work);
        add_rows(&work);
        add_notes(&work);
    }
    free(work.columns);
    return view->failed ? TC_NO_MEMORY : TC_OK;
}
