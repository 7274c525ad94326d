/* SPDX-License-Identifier: MIT */
#include "profile/price_import.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/ini_write.h"
#include "profile/key_table.h"
#include "profile/kind.h"
#include "profile/quantity_write.h"
#include "profile/save.h"
#include "profile/section.h"
#include "profile/section_save.h"
#include "profile/stock_finish.h"

/* The columns that are no keys of an item, and where they are in the file. */
enum column { NAME, KIND, PRICE, COLUMNS };

static const char *const column_names[] = {"name", "kind", "price"};

struct checker {
    const struct tc_stock *stock;
    const struct tc_shop *shop;
    struct tc_currency currency;
    const char *file;
    struct tc_price_import *import;
    struct tc_faults *faults;
    int column[COLUMNS]; /* place in a record */
    int made_lines;      /* of the new items' text */
    bool good;
};

static void fault(struct checker *checker, int line, const char *column, const char *text)
{
    tc_faults_error(checker->faults, (struct tc_place){checker->file, line, NULL, column}, "%s", text);
    checker->good = false;
}

static const struct tc_csv_record *header_of(const struct tc_price_import *import)
{
    return &import->csv.record[0];
}

static const char *value_of(const struct checker *checker, const struct tc_csv_record *record,
                            enum column column)
{
    return tc_csv_field(&checker->import->csv, record, (size_t)checker->column[column]);
}

/*
 * "39,99" as "39.99", in place: what commas do not set apart has decimal commas. With three digits behind it
 * the comma may set thousands apart; that stays, and is refused.
 */
static void mend_comma(char *text)
{
    size_t whole = strspn(text, "0123456789"), part = 0;
    if (whole > 0 && text[whole] == ',')
        part = strspn(text + whole + 1, "0123456789");
    if (part == 1 || part == 2)
        text[whole] = '.';
}

static void mend_commas(struct tc_csv *csv)
{
    for (size_t r = 1; csv->separator != ',' && r < csv->record_count; r++)
        for (size_t i = 0; i < csv->record[r].count; i++)
            mend_comma(csv->bytes + (csv->field[csv->record[r].first + i] - csv->bytes));
}

/* ---------------------------------------------------------------------------- header */

/* Whether no two columns are called alike. */
static void check_columns(struct checker *checker)
{
    const struct tc_csv *csv = &checker->import->csv;
    const struct tc_csv_record *header = header_of(checker->import);
    for (size_t i = 0; i < header->count; i++) {
        const char *name = tc_csv_field(csv, header, i);
        bool twice = false;
        for (size_t k = 0; k < i && name[0] != '\0'; k++)
            twice = twice || tc_name_equal(tc_csv_field(csv, header, k), name);
        if (twice)
            fault(checker, header->line, name, "the column is there twice");
    }
}

static bool find_columns(struct checker *checker)
{
    const struct tc_csv *csv = &checker->import->csv;
    char text[TC_PROBLEM_SIZE];
    if (csv->record_count == 0) {
        fault(checker, 1, NULL, "the file is empty; its first line names the columns: name,kind,price");
        return false;
    }
    check_columns(checker);
    for (int c = 0; c < COLUMNS; c++) {
        checker->column[c] = -1;
        for (size_t i = 0; i < header_of(checker->import)->count; i++) {
            if (tc_name_equal(tc_csv_field(csv, header_of(checker->import), i), column_names[c]))
                checker->column[c] = (int)i;
        }
        if (checker->column[c] >= 0)
            continue;
        snprintf(text, sizeof text,
                 "there is no column '%s'; the first line names the columns, like name,kind,price",
                 column_names[c]);
        fault(checker, 1, NULL, text);
    }
    return checker->good;
}

/* ------------------------------------------------------------------------------ rows */

static void check_kind(struct checker *checker, struct tc_price_row *row)
{
    const char *kind = value_of(checker, row->record, KIND);
    char text[TC_PROBLEM_SIZE], shown[TC_SHOWN_SIZE];
    struct tc_text kinds = TC_TEXT_EMPTY;
    row->kind = tc_kind_find(kind);
    if (row->kind && tc_kind_is_goods(row->kind))
        return;
    row->kind = NULL;
    tc_kind_list(&kinds, true, "or");
    if (kind[0] == '\0')
        snprintf(text, sizeof text, "there is no kind; write %s", tc_text_string(&kinds));
    else
        snprintf(text, sizeof text, "'%s' is not a kind of goods; write %s", tc_quantity_shown(shown, kind),
                 tc_text_string(&kinds));
    tc_text_free(&kinds);
    fault(checker, row->record->line, "kind", text);
}

static void check_name(struct checker *checker, struct tc_price_row *row)
{
    static const struct tc_key key = {.name = "name", .form = TC_KEY_NAME};
    struct tc_reading reading = {.currency = {"", 0}};
    const char *name = value_of(checker, row->record, NAME);
    if (name[0] == '\0')
        fault(checker, row->record->line, "name", "there is no name; write that of the tank or part");
    else if (!tc_key_read_with(&key, name, row->name, &reading) && tc_name_mend(row->name, name))
        row->title = name;
    else if (row->name[0] == '\0')
        fault(checker, row->record->line, "name", reading.problem);
}

static void check_price(struct checker *checker, struct tc_price_row *row)
{
    static const struct tc_key key =
        TC_MONEY_KEY("price", struct tc_shop_price, amount, 1e8, NULL, "89", "price of one at this shop");
    struct tc_shop_price price = {.amount = 0};
    struct tc_reading reading = {.currency = checker->currency};
    row->price = value_of(checker, row->record, PRICE);
    if (row->price[0] == '\0') {
        fault(checker, row->record->line, "price", "there is no price; write one, or leave the line out");
        return;
    }
    if (!tc_key_read_with(&key, row->price, &price, &reading)) {
        fault(checker, row->record->line, "price", reading.problem);
        return;
    }
    row->same = row->before && row->before->amount == price.amount && reading.range_count == 0;
}

/* Whether a column is one of the three. */
static bool is_own_column(const struct checker *checker, size_t i)
{
    for (int c = 0; c < COLUMNS; c++)
        if (checker->column[c] == (int)i)
            return true;
    return false;
}

/* Whether the profile of an item says just that of itself. */
static bool says_so(const struct checker *checker, const struct tc_price_row *row, const char *key,
                    const char *value)
{
    const struct tc_section *section = tc_sections_find(checker->stock->sections, row->kind->name, row->name);
    const struct tc_ini_key *present = section ? tc_ini_key(section->ini, key) : NULL;
    return present && strcmp(present->value, value) == 0;
}

/* A fact of a new item goes into its section; whether that can be used is seen when all are there. */
static void add_fact(struct checker *checker, const struct tc_price_row *row, const char *key,
                     const char *value)
{
    struct tc_text written = TC_TEXT_EMPTY;
    if (tc_ini_write_value(&written, value)) {
        tc_text_addf(&checker->import->made_text, "%s = %s\n", key, tc_text_string(&written));
        checker->made_lines++;
    } else {
        fault(checker, row->record->line, key,
              "a profile cannot hold this: write it on one line, without tabs, and with one kind of quotes");
    }
    checker->import->made_text.failed = checker->import->made_text.failed || written.failed;
    tc_text_free(&written);
}

static void check_fact(struct checker *checker, const struct tc_price_row *row, const char *name,
                       const char *value)
{
    char text[TC_PROBLEM_SIZE];
    if (!tc_key_find(row->kind->table, name)) {
        const char *nearest = tc_key_nearest(row->kind->table, name);
        snprintf(text, sizeof text, "a %s has no such key%s%s%s", row->kind->name,
                 nearest ? "; did you mean '" : "", nearest ? nearest : "", nearest ? "'?" : "");
        fault(checker, row->record->line, name[0] ? name : NULL,
              name[0] ? text : "the first line has no name for one of the columns used here");
    } else if (row->made) {
        add_fact(checker, row, name, value);
    } else if (!says_so(checker, row, name, value)) {
        snprintf(text, sizeof text, "the %s '%s' is there already; leave this empty, or change its profile",
                 row->kind->name, row->name);
        fault(checker, row->record->line, name, text);
    }
}

static bool has_title(const struct checker *checker, const struct tc_price_row *row)
{
    const struct tc_csv *csv = &checker->import->csv;
    const struct tc_csv_record *header = header_of(checker->import);
    for (size_t i = 0; i < header->count; i++)
        if (tc_name_equal(tc_csv_field(csv, header, i), "title") && tc_csv_field(csv, row->record, i)[0])
            return true;
    return false;
}

/* The other columns: keys of a new item; of one that is there they have to be empty. */
static void check_facts(struct checker *checker, struct tc_price_row *row)
{
    const struct tc_csv *csv = &checker->import->csv;
    if (row->made) {
        row->made_line = ++checker->made_lines;
        tc_text_addf(&checker->import->made_text, "[%s %s]\n", row->kind->name, row->name);
        if (row->title && !has_title(checker, row))
            add_fact(checker, row, "title", row->title);
    }
    for (size_t i = 0; i < row->record->count; i++) {
        const char *value = tc_csv_field(csv, row->record, i);
        if (is_own_column(checker, i) || value[0] == '\0')
            continue;
        if (i >= header_of(checker->import)->count) {
            fault(checker, row->record->line, NULL,
                  "there are more fields than columns; put a comma in quotes");
            return;
        }
        check_fact(checker, row, tc_csv_field(csv, header_of(checker->import), i), value);
    }
}

/* The row whose section a line of the new items' text belongs to; NULL before the first. */
static const struct tc_price_row *row_at(const struct tc_price_import *import, int line)
{
    const struct tc_price_row *found = NULL;
    for (size_t i = 0; i < import->row_count; i++)
        if (import->rows[i].made && import->rows[i].made_line <= line)
            found = &import->rows[i];
    return found;
}

/* Reads the sections of the new items as the profile that they are to be. */
static enum tc_status check_made(struct checker *checker)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    const struct tc_text *text = &checker->import->made_text;
    if (text->failed)
        return TC_NO_MEMORY;
    if (text->length == 0)
        return TC_OK;
    tc_stock_start(&stock);
    enum tc_status status =
        tc_stock_read_bytes(&stock, checker->file, tc_text_string(text), text->length, &faults);
    if (status == TC_OK)
        status = tc_stock_finish(&stock, &faults);
    for (size_t i = 0; i < tc_faults_count(&faults); i++) {
        const struct tc_fault *found = tc_faults_at(&faults, i);
        const struct tc_price_row *row = row_at(checker->import, found->place.line);
        if (found->severity == TC_ERROR)
            fault(checker, row ? row->record->line : 1, found->place.key, found->text);
    }
    tc_faults_free(&faults);
    tc_stock_free(&stock);
    return status;
}

static bool check_twice(struct checker *checker, const struct tc_price_row *row)
{
    char text[TC_PROBLEM_SIZE];
    for (const struct tc_price_row *other = checker->import->rows; other < row; other++) {
        if (other->kind != row->kind || strcmp(other->name, row->name) != 0)
            continue;
        snprintf(text, sizeof text, "the %s '%s' is there already, in line %d; remove one", row->kind->name,
                 row->name, other->record->line);
        fault(checker, row->record->line, "name", text);
        return false;
    }
    return true;
}

/* Whether it is there, or there are facts to make it of; a name may just be misspelt. */
static bool check_known(struct checker *checker, struct tc_price_row *row)
{
    char text[TC_PROBLEM_SIZE];
    bool facts = false;
    for (size_t i = 0; i < row->record->count; i++)
        facts = facts || (!is_own_column(checker, i) &&
                          tc_csv_field(&checker->import->csv, row->record, i)[0] != '\0');
    row->made = tc_stock_find(checker->stock, row->kind->name, row->name) == NULL;
    if (!row->made || facts)
        return true;
    const char *nearest = tc_stock_nearest(checker->stock, row->kind->name, row->name);
    snprintf(text, sizeof text, "there is no %s '%s'%s%s%s", row->kind->name, row->name,
             nearest ? "; did you mean '" : "; columns with its facts would make it", nearest ? nearest : "",
             nearest ? "'?" : "");
    fault(checker, row->record->line, "name", text);
    return false;
}

static void check_row(struct checker *checker, struct tc_price_row *row)
{
    check_kind(checker, row);
    check_name(checker, row);
    if (row->kind && row->name[0] != '\0') {
        const void *record = tc_stock_find(checker->stock, row->kind->name, row->name);
        const struct tc_goods *goods = !record               ? NULL
                                       : row->kind->slot < 0 ? &((const struct tc_tank *)record)->goods
                                                             : &((const struct tc_part *)record)->goods;
        if (goods)
            row->before = tc_stock_listed(checker->stock, checker->shop, row->kind->slot, goods);
        bool first = check_twice(checker, row), known = check_known(checker, row);
        if (first && known)
            check_facts(checker, row);
    }
    check_price(checker, row);
}

enum tc_status tc_price_import_read(const struct tc_stock *stock, const struct tc_shop *shop,
                                    const char *name, const char *text, size_t length,
                                    struct tc_price_import *import, struct tc_faults *faults)
{
    memset(import, 0, sizeof *import);
    enum tc_status status = tc_csv_read(name, text, length, &import->csv, faults);
    if (status != TC_OK)
        return status;
    const struct tc_region *region = tc_stock_region(stock, shop->region);
    struct checker checker = {
        .stock = stock, .shop = shop, .file = name, .import = import, .faults = faults, .good = true};
    if (region)
        checker.currency = region->currency;
    if (!find_columns(&checker))
        return TC_SYNTAX;
    mend_commas(&import->csv);
    import->rows = calloc(import->csv.record_count, sizeof *import->rows);
    if (!import->rows)
        return TC_NO_MEMORY;
    for (size_t i = 1; i < import->csv.record_count; i++) {
        struct tc_price_row *row = &import->rows[import->row_count];
        row->record = &import->csv.record[i];
        check_row(&checker, row);
        import->row_count++;
        import->made += row->made;
        import->added += !row->before;
        import->changed += row->before && !row->same;
    }
    status = check_made(&checker);
    return status != TC_OK ? status : checker.good ? TC_OK : TC_SYNTAX;
}

void tc_price_import_free(struct tc_price_import *import)
{
    tc_csv_free(&import->csv);
    tc_text_free(&import->made_text);
    free(import->rows);
    memset(import, 0, sizeof *import);
}

void tc_price_import_tell(const struct tc_price_import *import, struct tc_text *text)
{
    for (size_t i = 0; i < import->row_count; i++) {
        const struct tc_price_row *row = &import->rows[i];
        char before[TC_NUMBER_SIZE] = "not listed";
        if (row->same)
            continue;
        if (row->before)
            tc_amount_write(row->before->amount, 2, before);
        tc_text_addf(text, "%s %s%s%s%s: %s -> %s%s\n", row->kind->name, row->name, row->title ? " ('" : "",
                     row->title ? row->title : "", row->title ? "')" : "", before, row->price,
                     row->made ? " (a new item)" : "");
    }
}

/* ---------------------------------------------------------------------------- saving */

/* The lines of a section under construction; values are borrowed. */
struct lines {
    struct tc_section_line *items;
    size_t count;
};

static void put(struct lines *lines, const char *key, const char *value)
{
    for (size_t i = 0; i < lines->count; i++)
        if (strcmp(lines->items[i].key, key) == 0) {
            lines->items[i].value = value;
            return;
        }
    lines->items[lines->count++] = (struct tc_section_line){key, value};
}

/* The section of prices that the file itself has, less what lies in other files. */
static void put_present(const struct tc_stock *stock, const struct tc_shop *shop, const char *kind,
                        const char *path, struct lines *lines)
{
    const struct tc_sections *sections = stock->sections;
    for (size_t i = 0; i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        if (strcmp(section->kind, "prices") != 0 || strcmp(section->name, shop->name) != 0 ||
            strcmp(section->detail, kind) != 0 || strcmp(sections->files[section->file].ini.file, path) != 0)
            continue;
        for (size_t k = 0; k < section->ini->key_count; k++)
            put(lines, section->ini->keys[k].name, section->ini->keys[k].value);
    }
}

/* Puts the prices of one kind into the text of the file at path. */
static enum tc_status put_kind(const struct tc_price_import *import, const struct tc_stock *stock,
                               const struct tc_shop *shop, const struct tc_kind *kind, const char *path,
                               struct tc_text *text, struct tc_faults *faults)
{
    char head[3 * TC_NAME_SIZE];
    struct lines lines = {calloc(import->row_count + TC_INI_KEY_MAX, sizeof *lines.items), 0};
    enum tc_status status = lines.items ? TC_OK : TC_NO_MEMORY;
    if (lines.items)
        put_present(stock, shop, kind->name, path, &lines);
    bool any = false;
    for (size_t i = 0; i < import->row_count && status == TC_OK; i++) {
        const struct tc_price_row *row = &import->rows[i];
        if (row->kind != kind)
            continue;
        any = true;
        put(&lines, row->name, row->price);
    }
    snprintf(head, sizeof head, "prices %s %s", shop->name, kind->name);
    if (status == TC_OK && any)
        status = tc_section_put(text, path, head, lines.items, lines.count, faults);
    free(lines.items);
    return status;
}

enum tc_status tc_price_import_save(const struct tc_price_import *import, const struct tc_stock *stock,
                                    const struct tc_shop *shop, const char *path, struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY;
    bool there;
    enum tc_status status = tc_load(path, &text, &there, faults);
    tc_text_addf(&text, "%s%s", text.length > 0 && import->made > 0 ? "\n" : "",
                 tc_text_string(&import->made_text));
    for (size_t i = 0; tc_kind_at(i) && status == TC_OK; i++)
        if (tc_kind_is_goods(tc_kind_at(i)))
            status = put_kind(import, stock, shop, tc_kind_at(i), path, &text, faults);
    if (status == TC_OK)
        status = text.failed ? TC_NO_MEMORY : tc_save(path, tc_text_string(&text), text.length, faults);
    if (status == TC_NO_MEMORY)
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "not saved: out of memory");
    tc_text_free(&text);
    return status;
}
