/* SPDX-License-Identifier: MIT */
#include "sheet/stock_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/unit.h"
#include "core/goods/part.h"
#include "profile/kind.h"
#include "profile/section.h"
#include "sheet/caution.h"
#include "sheet/phrase.h"

/* The columns before those of the sellers; after them come the others. */
enum { FIGURES, SELLERS };
enum { WHOSE, TITLE, PLACE, PRICE, AFTER };

struct listing {
    const struct tc_stock *stock;
    const struct tc_stock_ask *ask;
    struct tc_sheet *sheet;
    struct tc_sellers sellers;
    bool priced; /* an item has a price of its own, and they have a column */
};

static size_t column_after(const struct listing *listing, size_t column)
{
    return SELLERS + listing->sellers.count + column;
}

static bool asked(const struct listing *listing, const char *name)
{
    return !listing->ask->kind || strcmp(listing->ask->kind, name) == 0;
}

/* "89.00 USD, 79.00 EUR" */
static void price_words(const struct tc_price_list *list, char *words, size_t size)
{
    words[0] = '\0';
    for (int i = 0; i < list->count; i++) {
        char number[TC_NUMBER_SIZE];
        size_t length = strlen(words);
        tc_number_write(number, list->price[i].amount, list->price[i].currency.exponent, false);
        snprintf(words + length, size - length, "%s%s %s", i > 0 ? ", " : "", number,
                 list->price[i].currency.code);
    }
}

/* Whose it is, and where it stands. */
static void add_place(const struct listing *listing, const char *kind, const char *name)
{
    const struct tc_sections *sections = listing->stock->sections;
    const struct tc_section *section = sections ? tc_sections_find(sections, kind, name) : NULL;
    if (!section)
        return;
    struct tc_place place = tc_section_place(sections, section, NULL);
    tc_sheet_text(listing->sheet, column_after(listing, WHOSE),
                  tc_section_whose_of(sections, section, listing->ask->installed));
    tc_sheet_text(listing->sheet, column_after(listing, PLACE),
                  tc_sheet_format(listing->sheet, "%s:%d", place.file, place.line));
}

/* A figure in a unit with no more digits than help to tell things apart: "2.5", "172". */
static char *rounded(char number[TC_NUMBER_SIZE], const struct tc_unit *unit, double value)
{
    double shown = tc_unit_from_base(unit, value);
    double step = fabs(shown) < 100 ? 100 : 1;
    return tc_number_write_short(number, round(shown * step) / step);
}

/* "172 gal/h" */
static const char *amount(char buffer[TC_QUANTITY_SIZE], double value, enum tc_dimension dimension,
                          enum tc_unit_system units)
{
    char number[TC_NUMBER_SIZE];
    const struct tc_unit *unit = tc_unit_preferred(dimension, units);
    snprintf(buffer, TC_QUANTITY_SIZE, "%s %s", rounded(number, unit, value), tc_unit_symbol(unit));
    return buffer;
}

/* What tells one part of its slot from another. */
static void part_words(const struct tc_part *part, char words[TC_WORDS_SIZE], enum tc_unit_system units)
{
    const size_t size = TC_WORDS_SIZE;
    char a[TC_QUANTITY_SIZE], b[TC_QUANTITY_SIZE];
    switch (part->slot) {
    case TC_SLOT_STAND: tc_phrase_area(words, part->as.stand.length, part->as.stand.width, units); break;
    case TC_SLOT_LID: tc_phrase_area(words, part->as.lid.length, part->as.lid.width, units); break;
    case TC_SLOT_LIGHT:
        tc_number_write(a, part->as.light.ppf, 0, false);
        snprintf(words, size, "%s µmol/s, %s", a, amount(b, part->as.light.power, TC_DIM_POWER, units));
        break;
    case TC_SLOT_FILTER:
        snprintf(words, size, "%s, %s", tc_filter_kind_name(part->as.filter.kind),
                 amount(a, part->as.filter.flow, TC_DIM_FLOW, units));
        break;
    case TC_SLOT_AIR_PUMP:
        snprintf(words, size, "%s, %s", amount(a, part->as.air_pump.flow, TC_DIM_FLOW, units),
                 amount(b, part->as.air_pump.power, TC_DIM_POWER, units));
        break;
    case TC_SLOT_HEATER:
        snprintf(words, size, "%s", amount(a, part->as.heater.power, TC_DIM_POWER, units));
        break;
    case TC_SLOT_SUBSTRATE:
        snprintf(words, size, "%s", amount(a, part->as.substrate.volume, TC_DIM_VOLUME, units));
        break;
    case TC_SLOT_COUNT: words[0] = '\0'; break;
    }
}

/* ------------------------------------------------------------------- figures of others */

static const char *region_words(struct tc_sheet *sheet, const void *record)
{
    const struct tc_region *region = record;
    return tc_sheet_format(sheet, "%s%s", region->currency.code, region->is_template ? ", template" : "");
}

static const char *shop_words(struct tc_sheet *sheet, const void *record)
{
    const struct tc_shop *shop = record;
    return tc_sheet_format(sheet, "%s%s", shop->region,
                           shop->seller == TC_SELLER_PRIVATE ? ", private seller" : "");
}

static const char *sale_words(struct tc_sheet *sheet, const void *record)
{
    (void)sheet;
    return ((const struct tc_sale *)record)->shop;
}

static const char *extra_words(struct tc_sheet *sheet, const void *record)
{
    const struct tc_extra *extra = record;
    return tc_sheet_format(sheet, "%s, %s", extra->once ? "once" : "a year",
                           extra->each_tank ? "for each tank" : "for a candidate");
}

/* What tells one item of a kind from another, beside its title. */
static const struct {
    const char *kind;
    const char *(*words)(struct tc_sheet *sheet, const void *record);
} others[] = {{"region", region_words}, {"shop", shop_words}, {"sale", sale_words}, {"extra", extra_words}};

/* ------------------------------------------------------------------------------ items */

static const char *text_at(const void *record, size_t offset)
{
    return (const char *)record + offset;
}

static void add_figures(const struct listing *listing, const struct tc_kind *kind, const void *record)
{
    struct tc_sheet *sheet = listing->sheet;
    char words[TC_WORDS_SIZE] = "";
    if (kind->slot >= 0) {
        part_words(record, words, listing->ask->units);
    } else if (tc_kind_is_goods(kind)) {
        const struct tc_tank *tank = record;
        tc_phrase_size(words, tank->length, tank->width, tank->height, listing->ask->units);
    }
    tc_sheet_text(sheet, FIGURES, words);
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (strcmp(others[i].kind, kind->name) == 0)
            tc_sheet_text(sheet, FIGURES, others[i].words(sheet, record));
}

/* A price that an item has of its own, for whoever has none in a list. */
static const struct tc_price_list *own_price(const struct tc_kind *kind, const struct tc_stock *stock,
                                             size_t i)
{
    if (tc_kind_is_goods(kind))
        return &tc_goods_at(kind, stock, i)->price;
    if (strcmp(kind->name, "extra") == 0)
        return &stock->extras[i].amount;
    return NULL;
}

static bool any_own_price(const struct listing *listing)
{
    const struct tc_stock *stock = listing->stock;
    for (size_t k = 0; tc_kind_at(k); k++) {
        const struct tc_kind *kind = tc_kind_at(k);
        for (size_t i = 0; asked(listing, kind->name) && i < tc_kind_count(kind, stock); i++) {
            const struct tc_price_list *own = tc_kind_has(kind, stock, i) ? own_price(kind, stock, i) : NULL;
            if (own && own->count > 0)
                return true;
        }
    }
    return false;
}

static void add_kind(const struct listing *listing, const struct tc_kind *kind)
{
    const struct tc_stock *stock = listing->stock;
    struct tc_sheet *sheet = listing->sheet;
    bool any = false;
    for (size_t i = 0; i < tc_kind_count(kind, stock); i++) {
        const void *record = tc_kind_record(kind, stock, i);
        const struct tc_price_list *own = own_price(kind, stock, i);
        char price[TC_PRICES_MAX * TC_NUMBER_SIZE] = "";
        if (!tc_kind_has(kind, stock, i))
            continue;
        if (!any)
            tc_sheet_row(sheet, TC_ROW_GROUP, kind->name, "");
        any = true;
        tc_sheet_row(sheet, TC_ROW_LINE, text_at(record, kind->shelf.name), "");
        tc_sheet_text(sheet, column_after(listing, TITLE), text_at(record, kind->shelf.title));
        add_figures(listing, kind, record);
        if (tc_kind_is_goods(kind))
            tc_sellers_prices(&listing->sellers, sheet, SELLERS, kind->slot, tc_goods_at(kind, stock, i));
        if (own)
            price_words(own, price, sizeof price);
        if (listing->priced)
            tc_sheet_text(sheet, column_after(listing, PRICE), price);
        add_place(listing, kind->name, text_at(record, kind->shelf.name));
    }
    if (any && tc_kind_is_goods(kind))
        tc_sellers_sums(&listing->sellers, sheet, SELLERS, kind);
    if (!any && listing->ask->kind)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "The profiles hold nothing of the kind %s.", kind->name);
}

static bool any_kind(const struct listing *listing, const char *const *kinds, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (asked(listing, kinds[i]))
            return true;
    return false;
}

static void add_heads(const struct listing *listing)
{
    static const char *const after[AFTER] = {
        [WHOSE] = "whose", [TITLE] = "title", [PLACE] = "file", [PRICE] = "own price"};
    struct tc_sheet *sheet = listing->sheet;
    tc_sheet_head(sheet, "What the profiles hold", "", "name");
    tc_sheet_column(sheet, FIGURES, "figures", "");
    tc_sellers_columns(&listing->sellers, sheet, SELLERS);
    for (size_t i = 0; i < AFTER && column_after(listing, i) < sheet->column_count; i++)
        tc_sheet_column(sheet, column_after(listing, i), after[i], "");
    for (size_t i = 0; i < sheet->column_count; i++)
        sheet->columns[i].words = i < SELLERS || i >= column_after(listing, 0);
    sheet->facts = true;
}

enum tc_status tc_make_stock_list(const struct tc_stock *stock, const struct tc_stock_ask *ask,
                                  struct tc_sheet *sheet)
{
    struct listing listing = {.stock = stock, .ask = ask, .sheet = sheet};
    enum tc_status status = tc_sellers_find(&listing.sellers, stock, ask);
    listing.priced = any_own_price(&listing);
    tc_sheet_start(sheet, "stock", SELLERS + listing.sellers.count + (listing.priced ? AFTER : PRICE));
    if (status == TC_OK)
        add_heads(&listing);
    for (size_t i = 0; status == TC_OK && tc_kind_at(i); i++)
        if (tc_kind_at(i)->shelf.size > 0 && asked(&listing, tc_kind_at(i)->name))
            add_kind(&listing, tc_kind_at(i));
    tc_sellers_notes(&listing.sellers, sheet);
    if (any_kind(&listing, (const char *const[]){"light", "filter", "air-pump", "heater"}, 4))
        tc_cautions(sheet, TC_CAUTION_ELECTRICITY, ask->units);
    if (any_kind(&listing, (const char *const[]){"tank", "stand"}, 2))
        tc_cautions(sheet, TC_CAUTION_GLASS | TC_CAUTION_STAND, ask->units);
    tc_sellers_free(&listing.sellers);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
