/* SPDX-License-Identifier: MIT */
/*
 * Any bytes read as a profile over sound ones: records keep to what their
 * tables promise, faults are told, and a plan that was read is read again
 * just so from what is written of it.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/plan_save.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What the input can refer to. */
static const char base[] =
    "[tank 29-high]\nnominal = 29 gal\nlength = 30 in\nwidth = 12 in\nheight = 18 in\n"
    "glass = 5 mm\nprice = 89 USD\n"
    "[lid glass]\nlength = 30 in\nwidth = 12 in\n"
    "[light strip]\nshortest = 70 cm\nlongest = 90 cm\npower = 18 W\nppf = 30 umol/s\n"
    "[setup k]\nfilter = sponge\n"
    "[region r]\ncurrency = USD\nelectricity = 0.16 / kWh\nwater = 2 / m3\nroom = 20 C\n"
    "[tariff t]\nrate = 0.2\n";

/* abort() is how the fuzzer learns of a failure. */
static void must(int holds)
{
    if (!holds)
        abort();
}

static void check_title(const char *title)
{
    must(title[0] != '\0' && tc_is_clean(title, strlen(title)));
}

static void check_goods(const struct tc_goods *goods)
{
    must(tc_name_valid(goods->name));
    check_title(goods->title);
    must(goods->life > 0 && goods->resale >= 0 && goods->resale <= 1);
    for (int i = 0; i < goods->price.count; i++) {
        enum tc_status status = TC_OK;
        must(goods->price.price[i].amount >= 0);
        tc_currency_money(goods->price.price[i].currency, goods->price.price[i].amount, &status);
        must(status == TC_OK);
    }
}

static void check_stock(const struct tc_stock *stock)
{
    for (size_t i = 0; i < stock->tank_count; i++) {
        struct tc_tank_size measured;
        check_goods(&stock->tanks[i].goods);
        must(tc_tank_measure(&stock->tanks[i], (struct tc_bed){0, 1600, 0.4}, 298.15, &measured) == TC_OK);
        must(measured.water_volume > 0);
    }
    for (size_t i = 0; i < stock->part_count; i++)
        check_goods(&stock->parts[i].goods);
    for (size_t i = 0; i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        struct tc_tariffs tariffs;
        char problem[TC_PROBLEM_SIZE];
        check_title(region->title);
        must(region->currency.code[0] != '\0');
        must(tc_stock_tariffs(stock, region, &tariffs, problem));
        must(!tc_tariff_fault(&tariffs.electricity) && !tc_tariff_fault(&tariffs.water));
    }
    for (size_t i = 0; i < stock->tariff_count; i++)
        must(!tc_tariff_fault(&stock->tariffs[i].tariff));
    for (size_t i = 0; i < stock->sale_count; i++) {
        must(tc_stock_shop(stock, stock->sales[i].shop) != NULL);
        must(!stock->sales[i].dated || tc_repeat_check(&stock->sales[i].when) == TC_OK);
    }
    for (size_t i = 0; i < stock->doubtful_count; i++)
        must(tc_spread_check(&stock->doubtful[i].spread) == TC_OK);
    for (size_t i = 1; i < stock->price_count; i++)
        must(tc_shop_price_compare(&stock->prices[i - 1], &stock->prices[i]) < 0);
}

/* Reads bytes over the base; *faults gets what is wrong. */
static void read_over(struct tc_stock *stock, const char *bytes, size_t size, struct tc_faults *faults)
{
    tc_stock_start(stock);
    must(tc_stock_read_bytes(stock, "base.ini", base, sizeof base - 1, faults) == TC_OK);
    must(tc_stock_read_bytes(stock, "fuzz.ini", bytes, size, faults) == TC_OK);
    must(tc_stock_finish(stock, faults) == TC_OK);
}

/* What was read of a plan is written, and read again. */
static void read_again(const struct tc_stock *stock, const char *bytes, size_t size)
{
    const struct tc_plan *plan = tc_stock_plan_of(stock, "fuzz.ini");
    struct tc_stock again;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    if (!plan)
        return;
    char *text = tc_plan_write(plan);
    must(text != NULL);
    /* The plan may lean on what else was in its file. */
    tc_stock_start(&again);
    must(tc_stock_read_bytes(&again, "base.ini", base, sizeof base - 1, &faults) == TC_OK);
    must(tc_stock_read_bytes(&again, "fuzz.ini", bytes, size, &faults) == TC_OK);
    must(tc_stock_read_bytes(&again, "plan.ini", text, strlen(text), &faults) == TC_OK);
    must(tc_stock_finish(&again, &faults) == TC_OK);
    const struct tc_plan *back = tc_stock_plan_of(&again, "plan.ini");
    must(back && tc_plan_equal(plan, back));
    tc_stock_free(&again);
    tc_faults_free(&faults);
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text report = TC_TEXT_EMPTY;

    read_over(&stock, (const char *)data, size, &faults);
    check_stock(&stock);
    read_again(&stock, (const char *)data, size);
    tc_faults_write(&faults, &report);
    must(tc_is_clean(tc_text_string(&report), report.length) || strchr(tc_text_string(&report), '\n'));
    tc_text_free(&report);
    tc_faults_free(&faults);
    tc_stock_free(&stock);
    return 0;
}
