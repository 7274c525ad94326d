/* SPDX-License-Identifier: MIT */
#include "sheet/stock_list.h"

#include <stdio.h>
#include <string.h>

#include "core/unit.h"

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

static const char *amount(char *buffer, double value, enum tc_dimension dimension)
{
    return tc_quantity_write_short(buffer, value, dimension, TC_METRIC);
}

/* "76.2 x 31.1 x 47.6 cm" */
static void size_words(char words[4 * TC_NUMBER_SIZE], double length, double width, double height)
{
    char a[TC_NUMBER_SIZE], b[TC_NUMBER_SIZE], c[TC_NUMBER_SIZE];
    tc_number_write_short(a, 100 * length);
    tc_number_write_short(b, 100 * width);
    tc_number_write_short(c, 100 * height);
    if (height > 0)
        snprintf(words, 4 * TC_NUMBER_SIZE, "%s × %s × %s cm", a, b, c);
    else
        snprintf(words, 4 * TC_NUMBER_SIZE, "%s × %s cm", a, b);
}

/* What tells one part of its slot from another. */
static void part_words(const struct tc_part *part, char words[4 * TC_NUMBER_SIZE])
{
    size_t size = 4 * TC_NUMBER_SIZE;
    char a[TC_QUANTITY_SIZE], b[TC_QUANTITY_SIZE];
    switch (part->slot) {
    case TC_SLOT_STAND: size_words(words, part->as.stand.length, part->as.stand.width, 0); break;
    case TC_SLOT_LID: size_words(words, part->as.lid.length, part->as.lid.width, 0); break;
    case TC_SLOT_LIGHT:
        tc_number_write(a, part->as.light.ppf, 0, false);
        snprintf(words, size, "%s µmol/s, %s", a, amount(b, part->as.light.power, TC_DIM_POWER));
        break;
    case TC_SLOT_FILTER:
        snprintf(words, size, "%s, %s", tc_filter_kind_name(part->as.filter.kind),
                 amount(a, part->as.filter.flow, TC_DIM_FLOW));
        break;
    case TC_SLOT_AIR_PUMP:
        snprintf(words, size, "%s, %s", amount(a, part->as.air_pump.flow, TC_DIM_FLOW),
                 amount(b, part->as.air_pump.power, TC_DIM_POWER));
        break;
    case TC_SLOT_HEATER: snprintf(words, size, "%s", amount(a, part->as.heater.power, TC_DIM_POWER)); break;
    case TC_SLOT_SUBSTRATE:
        snprintf(words, size, "%s", amount(a, part->as.substrate.volume, TC_DIM_VOLUME));
        break;
    case TC_SLOT_COUNT: words[0] = '\0'; break;
    }
}

static void add_tanks(struct tc_sheet *sheet, const struct tc_stock *stock)
{
    char words[4 * TC_NUMBER_SIZE], price[TC_PRICES_MAX * TC_NUMBER_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "tank", "");
    for (size_t i = 0; i < stock->tank_count; i++) {
        const struct tc_tank *tank = &stock->tanks[i];
        size_words(words, tank->length, tank->width, tank->height);
        price_words(&tank->goods.price, price, sizeof price);
        add_item(sheet, tank->goods.name, tank->goods.title, words, price);
    }
}

static void add_parts(struct tc_sheet *sheet, const struct tc_stock *stock, const char *kind)
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
            part_words(part, words);
            price_words(&part->goods.price, price, sizeof price);
            add_item(sheet, part->goods.name, part->goods.title, words, price);
        }
    }
}

static void add_sales(struct tc_sheet *sheet, const struct tc_stock *stock)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "sale", "");
    for (size_t i = 0; i < stock->sale_count; i++)
        add_item(sheet, stock->sales[i].name, stock->sales[i].title, stock->sales[i].region, "");
}

static void add_others(struct tc_sheet *sheet, const struct tc_stock *stock, const char *kind)
{
    if (asked(kind, "kit")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "kit", "");
        for (size_t i = 0; i < stock->kit_count; i++)
            add_item(sheet, stock->kits[i].name, stock->kits[i].title, "", "");
    }
    if (asked(kind, "region")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "region", "");
        for (size_t i = 0; i < stock->region_count; i++)
            add_item(sheet, stock->regions[i].name, stock->regions[i].title,
                     tc_sheet_format(sheet, "%s%s", stock->regions[i].currency.code,
                                     stock->regions[i].is_template ? ", template" : ""),
                     "");
    }
    if (asked(kind, "tariff")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "tariff", "");
        for (size_t i = 0; i < stock->tariff_count; i++)
            add_item(sheet, stock->tariffs[i].name, stock->tariffs[i].title, "", "");
    }
    if (asked(kind, "sale"))
        add_sales(sheet, stock);
    if (asked(kind, "plan")) {
        tc_sheet_row(sheet, TC_ROW_GROUP, "plan", "");
        for (size_t i = 0; i < stock->plan_count; i++)
            add_item(sheet, stock->plans[i].name, stock->plans[i].title, "", "");
    }
}

enum tc_status tc_make_stock_list(const struct tc_stock *stock, const char *kind, struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "stock", COLUMNS);
    tc_sheet_head(sheet, "What the profiles hold", "", "name");
    tc_sheet_column(sheet, TITLE, "title", "");
    tc_sheet_column(sheet, FIGURES, "figures", "");
    tc_sheet_column(sheet, PRICE, "price", "");
    for (size_t i = 0; i < sheet->column_count; i++)
        sheet->columns[i].words = true;
    if (asked(kind, "tank"))
        add_tanks(sheet, stock);
    add_parts(sheet, stock, kind);
    add_others(sheet, stock, kind);
    return sheet->failed ? TC_NO_MEMORY : TC_OK;
}
