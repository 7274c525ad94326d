/* SPDX-License-Identifier: MIT */
#include "sheet/sellers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"
#include "core/money/exchange.h"
#include "sheet/region_costs.h"

static const struct tc_goods *goods_of(const struct tc_kind *kind, const void *record)
{
    return kind->slot >= 0 ? &((const struct tc_part *)record)->goods
                           : &((const struct tc_tank *)record)->goods;
}

const struct tc_goods *tc_goods_at(const struct tc_kind *kind, const struct tc_stock *stock, size_t i)
{
    return goods_of(kind, tc_kind_record(kind, stock, i));
}

const struct tc_goods *tc_goods_find(const struct tc_kind *kind, const struct tc_stock *stock,
                                     const char *name)
{
    const void *record = kind && tc_kind_is_goods(kind) ? tc_stock_find(stock, kind->name, name) : NULL;
    return record ? goods_of(kind, record) : NULL;
}

/* ------------------------------------------------------------------------ who sells */

static bool sells_any_of(const struct tc_stock *stock, const struct tc_asking *seller,
                         const struct tc_kind *kind)
{
    double amount;
    for (size_t i = 0; i < tc_kind_count(kind, stock); i++)
        if (tc_kind_has(kind, stock, i) && tc_stock_asked(stock, seller->region, seller->shop, kind->slot,
                                                          tc_goods_at(kind, stock, i), &amount))
            return true;
    return false;
}

static bool sells_any(const struct tc_stock *stock, const struct tc_asking *seller, const char *name)
{
    for (size_t k = 0; tc_kind_at(k); k++) {
        const struct tc_kind *kind = tc_kind_at(k);
        if (tc_kind_is_goods(kind) && (!name || strcmp(name, kind->name) == 0) &&
            sells_any_of(stock, seller, kind))
            return true;
    }
    return false;
}

/* From a region's money into the one asked for; 0 where none is quoted. */
static double rate_of(const struct tc_sellers *sellers, const struct tc_quote *quotes,
                      const struct tc_region *region)
{
    struct tc_conversion conversion;
    if (!sellers->money)
        return 1;
    enum tc_status status = tc_conversion_find(&conversion, quotes, (int)sellers->stock->region_count,
                                               region->currency, *sellers->money);
    return status == TC_OK ? conversion.rate : 0;
}

static void add_sellers(struct tc_sellers *sellers, const char *kind, const struct tc_quote *quotes,
                        const struct tc_region *region)
{
    const struct tc_stock *stock = sellers->stock;
    struct tc_asking seller = {.region = region, .rate = rate_of(sellers, quotes, region)};
    bool shops = false;
    for (size_t i = 0; i < stock->shop_count; i++) {
        if (strcmp(stock->shops[i].region, region->name) != 0)
            continue;
        shops = true;
        seller.shop = &stock->shops[i];
        if (sells_any(stock, &seller, kind))
            sellers->seller[sellers->count++] = seller;
    }
    seller.shop = NULL;
    if (!shops && !region->is_template && sells_any(stock, &seller, kind))
        sellers->seller[sellers->count++] = seller;
}

static bool asks_of(const struct tc_stock_ask *ask, const char *region)
{
    for (int i = 0; i < ask->region_count; i++)
        if (strcmp(ask->regions[i], region) == 0)
            return true;
    return ask->region_count == 0;
}

enum tc_status tc_sellers_find(struct tc_sellers *sellers, const struct tc_stock *stock,
                               const struct tc_stock_ask *ask)
{
    *sellers = (struct tc_sellers){.stock = stock, .money = ask->money};
    sellers->seller = calloc(stock->shop_count + stock->region_count + 1, sizeof *sellers->seller);
    struct tc_quote *quotes = tc_region_quotes(stock);
    bool good = sellers->seller && quotes;
    for (size_t i = 0; good && i < stock->region_count; i++)
        if (asks_of(ask, stock->regions[i].name))
            add_sellers(sellers, ask->kind, quotes, &stock->regions[i]);
    free(quotes);
    return good ? TC_OK : TC_NO_MEMORY;
}

void tc_sellers_free(struct tc_sellers *sellers)
{
    free(sellers->seller);
    *sellers = (struct tc_sellers){.count = 0};
}

/* --------------------------------------------------------------------- what they ask */

static struct tc_currency currency_of(const struct tc_sellers *sellers, size_t i)
{
    return sellers->money ? *sellers->money : sellers->seller[i].region->currency;
}

/* What one asks, as it is told; false where it does not sell that. */
static bool asks(const struct tc_sellers *sellers, size_t i, int slot, const struct tc_goods *goods,
                 tc_money *money)
{
    const struct tc_asking *seller = &sellers->seller[i];
    enum tc_status status = TC_OK;
    double amount;
    if (seller->rate == 0 ||
        !tc_stock_asked(sellers->stock, seller->region, seller->shop, slot, goods, &amount))
        return false;
    *money = tc_currency_money(seller->region->currency, amount, &status);
    const struct tc_conversion conversion = {
        .from = seller->region->currency, .to = currency_of(sellers, i), .rate = seller->rate};
    if (sellers->money)
        *money = tc_conversion_money(&conversion, *money, &status);
    return status == TC_OK;
}

/* Whether the prices of two compare. */
static bool compare(const struct tc_sellers *sellers, size_t a, size_t b)
{
    return sellers->money || sellers->seller[a].region == sellers->seller[b].region;
}

/* Marks what is lower than all others that it compares with, of the money cells of the last row. */
static void mark_lowest(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first)
{
    const struct tc_row *row = sheet->failed ? NULL : &sheet->rows[sheet->row_count - 1];
    for (size_t i = 0; row && i < sellers->count; i++) {
        const struct tc_cell *cell = &row->cells[first + i];
        int others = 0, dearer = 0;
        for (size_t k = 0; k < sellers->count; k++) {
            if (k == i || row->cells[first + k].kind != TC_CELL_MONEY || !compare(sellers, i, k))
                continue;
            others++;
            dearer += row->cells[first + k].money > cell->money;
        }
        if (cell->kind == TC_CELL_MONEY && others > 0 && dearer == others)
            tc_sheet_mark(sheet, first + i, TC_MARK_BEST);
    }
}

void tc_sellers_columns(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first)
{
    for (size_t i = 0; i < sellers->count; i++) {
        const struct tc_asking *seller = &sellers->seller[i];
        const struct tc_region *region = seller->region;
        bool taxed =
            tc_region_added_tax(region) > 0 && (!seller->shop || seller->shop->seller != TC_SELLER_PRIVATE);
        tc_sheet_column(
            sheet, first + i, seller->shop ? seller->shop->name : region->name,
            tc_sheet_format(sheet, "%s%s%s", seller->shop ? region->name : "no shop",
                            seller->shop && seller->shop->seller == TC_SELLER_PRIVATE ? ", private" : "",
                            taxed ? ", plus tax" : ""));
    }
}

void tc_sellers_prices(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first, int slot,
                       const struct tc_goods *goods)
{
    for (size_t i = 0; i < sellers->count; i++) {
        tc_money money;
        if (asks(sellers, i, slot, goods, &money))
            tc_sheet_money(sheet, first + i, money, currency_of(sellers, i));
        else
            tc_sheet_missing(sheet, first + i, sellers->seller[i].rate == 0 ? "no rate" : "not sold");
    }
    mark_lowest(sellers, sheet, first);
}

/* ------------------------------------------------------------------------------ sums */

/* Whether a seller counts among those who are asked for the same things: private ones have but one or two. */
static bool in_round(const struct tc_sellers *sellers, size_t i)
{
    const struct tc_asking *seller = &sellers->seller[i];
    return seller->rate > 0 && !(seller->shop && seller->shop->seller == TC_SELLER_PRIVATE);
}

static size_t round_of(const struct tc_sellers *sellers, size_t i)
{
    size_t count = 0;
    for (size_t k = 0; k < sellers->count; k++)
        count += in_round(sellers, k) && compare(sellers, i, k);
    return count;
}

/* Whether everybody that compares with one sells it. */
static bool all_sell(const struct tc_sellers *sellers, size_t i, int slot, const struct tc_goods *goods)
{
    tc_money money;
    for (size_t k = 0; k < sellers->count; k++)
        if (in_round(sellers, k) && compare(sellers, i, k) && !asks(sellers, k, slot, goods, &money))
            return false;
    return true;
}

struct sums {
    int sold, common;
    tc_money together;
    enum tc_status status;
};

static struct sums sums_of(const struct tc_sellers *sellers, size_t i, const struct tc_kind *kind)
{
    struct sums sums = {.status = TC_OK};
    bool round = in_round(sellers, i) && round_of(sellers, i) > 1;
    for (size_t r = 0; r < tc_kind_count(kind, sellers->stock); r++) {
        if (!tc_kind_has(kind, sellers->stock, r))
            continue;
        const struct tc_goods *goods = tc_goods_at(kind, sellers->stock, r);
        tc_money money;
        if (!asks(sellers, i, kind->slot, goods, &money))
            continue;
        sums.sold++;
        if (round && all_sell(sellers, i, kind->slot, goods)) {
            sums.common++;
            sums.together = tc_money_add(sums.together, money, &sums.status);
        }
    }
    return sums;
}

void tc_sellers_sums(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first,
                     const struct tc_kind *kind)
{
    struct sums *sums = tc_sheet_memory(sheet, sellers->count + 1, sizeof *sums);
    bool common = false;
    if (!sums || sellers->count == 0)
        return;
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "sold there", "");
    for (size_t i = 0; i < sellers->count; i++) {
        sums[i] = sums_of(sellers, i, kind);
        common = common || sums[i].common > 0;
        tc_sheet_number(sheet, first + i, sums[i].sold, 0);
    }
    if (!common)
        return;
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, sellers->money ? "sold by all shops" : "sold by all there", "");
    for (size_t i = 0; i < sellers->count; i++)
        if (sums[i].common > 0)
            tc_sheet_number(sheet, first + i, sums[i].common, 0);
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "these together", "");
    for (size_t i = 0; i < sellers->count; i++)
        if (sums[i].common > 0 && sums[i].status == TC_OK)
            tc_sheet_money(sheet, first + i, sums[i].together, currency_of(sellers, i));
    mark_lowest(sellers, sheet, first);
}

static void say_invented(const struct tc_sellers *sellers, struct tc_sheet *sheet)
{
    struct tc_text names = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sellers->count; i++)
        if (sellers->seller[i].shop && sellers->seller[i].shop->invented)
            tc_text_addf(&names, "%s%s", names.length > 0 ? ", " : "", sellers->seller[i].shop->name);
    if (names.length > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Invented for a demonstration: the prices of %s.",
                      tc_text_string(&names));
    sheet->failed = sheet->failed || names.failed;
    tc_text_free(&names);
}

void tc_sellers_notes(const struct tc_sellers *sellers, struct tc_sheet *sheet)
{
    if (sellers->count == 0)
        return;
    say_invented(sellers, sheet);
    tc_sheet_note(sheet, TC_NOTE_REMARK, "Prices are as on the tag, without delivery and sales.");
    if (sellers->money)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "All are told in %s, at the rates the regions' profiles give. Best is the lowest of all.",
            sellers->money->code);
    else
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Best is the lowest price of its region.");
}
