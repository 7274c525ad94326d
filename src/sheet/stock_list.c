/* SPDX-License-Identifier: MIT */
#include "sheet/stock_list.h"

#include "sheet/caution.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/unit.h"

enum column { TITLE, FIGURES, PRICE, COLUMNS };

static bool asked(const char *kind, const char *name)
{
    return !kind || strcmp(kind, name) == 0;
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

static void add_item(struct tc_sheet *sheet, const char *name, const char *title, const char *figures,
                     const char *price)
{
    tc_sheet_row(sheet, TC_ROW_LINE, name, "");
    tc_sheet_text(sheet, TITLE, title);
    tc_sheet_text(sheet, FIGURES, figures);
    tc_sheet_text(sheet, PRICE, price);
}

/* A figure in a unit with no more digits than help to tell things apart: "24.25", "172". */
static char *rounded(char number[TC_NUMBER_SIZE], const struct tc_unit *unit, double value)
{
    double shown = tc_unit_from_base(unit, value);
    double step = fabs(shown) < 100 ? 100 : 1;
    return tc_number_write_short(number, round(shown * step) / step);
}

/* "76.2 × 31.1 × 47.6 cm", "30 × 12.25 in" where there is no height. */
static void size_words(char words[4 * TC_NUMBER_SIZE], double length, double width, double height,
                       enum tc_unit_system units)
{
    char a[TC_NUMBER_SIZE], b[TC_NUMBER_SIZE], c[TC_NUMBER_SIZE];
    const struct tc_unit *unit = tc_unit_preferred(TC_DIM_LENGTH, units);
    rounded(a, unit, length);
    rounded(b, unit, width);
    rounded(c, unit, height);
    if (height > 0)
        snprintf(words, 4 * TC_NUMBER_SIZE, "%s × %s × %s %s", a, b, c, tc_unit_symbol(unit));
    else
        snprintf(words, 4 * TC_NUMBER_SIZE, "%s × %s %s", a, b, tc_unit_symbol(unit));
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
static void part_words(const struct tc_part *part, char words[4 * TC_NUMBER_SIZE], enum tc_unit_system units)
{
    size_t size = 4 * TC_NUMBER_SIZE;
    char a[TC_QUANTITY_SIZE], b[TC_QUANTITY_SIZE];
    switch (part->slot) {
    case TC_SLOT_STAND: size_words(words, part->as.stand.length, part->as.stand.width, 0, units); break;
    case TC_SLOT_LID: size_words(words, part->as.lid.length, part->as.lid.width, 0, units); break;
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

static void add_tanks(struct tc_sheet *sheet, const struct tc_stock *stock, enum tc_unit_system units)
{
    char words[4 * TC_NUMBER_SIZE], price[TC_PRICES_MAX * TC_NUMBER_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "tank", "");
    for (size_t i = 0; i < stock->tank_count; i++) {
        const struct tc_tank *tank = &stock->tanks[i];
        size_words(words, tank->length, tank->width, tank->height, units);
        price_words(&tank->goods.price, price, sizeof price);
        add_item(sheet, tank->goods.name, tank->goods.title, words, price);
    }
}

static void add_parts(struct tc_sheet *sheet, const struct tc_stock *stock, const char *kind,
                      enum tc_unit_system units)
{
    char words[4 * TC_NUMBER_SIZE], price[TC_PRICES_MAX * TC_NUMBER_SIZE];
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const char *name = tc_slot_name((enum tc_slot)slot);
        if (!asked(kind, name))
            continue;
        tc_sheet_row(sheet, TC_ROW_GROUP, name, "");
        for (size_t i = 0; i < stock->part_count; i++) {
            const struct tc_part *part = &stock->parts[i];
            if ((int)part->slot != slot)
                continue;
            part_words(part, words, units);
            price_words(&part->goods.price, price, sizeof price);
            add_item(sheet, part->goods.name, part->goods.title, words, price);
        }
    }
}

static void add_sales(struct tc_sheet *sheet, const struct tc_stock *stock)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "sale", "");
    for (size_t i = 0; i < stock->sale_count; i++)
        add_item(sheet, stock->sales[i].name, stock->sales[i].title, stock->sales[i].shop, "");
}

static void add_regions(struct tc_sheet *sheet, const struct tc_stock *stock)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "region", "");
    for (size_t i = 0; i < stock->region_count; i++)
        add_item(sheet, stock->regions[i].name, stock->regions[i].title,
                 tc_sheet_format(sheet, "%s%s", stock->regions[i].currency.code,
                                 stock->regions[i].is_template ? ", template" : ""),
                 "");
}

static void add_extras(struct tc_sheet *sheet, const struct tc_stock *stock)
{
    char price[TC_PRICES_MAX * TC_NUMBER_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "extra", "");
    for (size_t i = 0; i < stock->extra_count; i++) {
        const struct tc_extra *extra = &stock->extras[i];
        price_words(&extra->amount, price, sizeof price);
        add_item(sheet, extra->name, extra->title,
                 tc_sheet_format(sheet, "%s, %s", extra->once ? "once" : "a year",
                                 extra->each_tank ? "for each tank" : "for a candidate"),
                 price);
    }
}

static void add_others(struct tc_sheet *sheet, const struct tc_stock *stock, const char *kind)
{
    if (asked(kind, "setup")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "setup", "");
        for (size_t i = 0; i < stock->setup_count; i++)
            add_item(sheet, stock->setups[i].name, stock->setups[i].title, "", "");
    }
    if (asked(kind, "region"))
        add_regions(sheet, stock);
    if (asked(kind, "tariff")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "tariff", "");
        for (size_t i = 0; i < stock->tariff_count; i++)
            add_item(sheet, stock->tariffs[i].name, stock->tariffs[i].title, "", "");
    }
    if (asked(kind, "sale"))
        add_sales(sheet, stock);
    if (asked(kind, "extra") && (stock->extra_count > 0 || kind))
        add_extras(sheet, stock);
    if (asked(kind, "plan")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "plan", "");
        for (size_t i = 0; i < stock->plan_count; i++)
            add_item(sheet, stock->plans[i].name, stock->plans[i].title, "", "");
    }
}

static bool any_kind(const char *kind, const char *const *kinds, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (asked(kind, kinds[i]))
            return true;
    return false;
}

enum tc_status tc_make_stock_list(const struct tc_stock *stock, const char *kind, enum tc_unit_system units,
                                  struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "stock", COLUMNS);
    tc_sheet_head(sheet, "What the profiles hold", "", "name");
    tc_sheet_column(sheet, TITLE, "title", "");
    tc_sheet_column(sheet, FIGURES, "figures", "");
    tc_sheet_column(sheet, PRICE, "price", "");
    for (size_t i = 0; i < sheet->column_count; i++)
        sheet->columns[i].words = true;
    if (asked(kind, "tank"))
        add_tanks(sheet, stock, units);
    add_parts(sheet, stock, kind, units);
    add_others(sheet, stock, kind);
    if (any_kind(kind, (const char *const[]){"light", "filter", "air-pump", "heater"}, 4))
        tc_cautions(sheet, TC_CAUTION_ELECTRICITY, units);
    if (any_kind(kind, (const char *const[]){"tank", "stand"}, 2))
        tc_cautions(sheet, TC_CAUTION_GLASS | TC_CAUTION_STAND, units);
    return sheet->failed ? TC_NO_MEMORY : TC_OK;
}
