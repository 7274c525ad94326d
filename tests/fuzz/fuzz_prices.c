/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a shop's price list from a spreadsheet: faults are told, and what
 * was taken over is read again, with nothing left to change.
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/price_import.h"
#include "profile/stock_finish.h"
#include "support/scratch.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define FILE_NAME "corner.ini"

static const char base[] =
    "[tank 29-high]\nlength = 30 in\nwidth = 12 in\nheight = 18 in\nglass = 5 mm\nprice = 89 USD\n"
    "[lid glass]\nlength = 30 in\nwidth = 12 in\n"
    "[shop corner]\nregion = r\n"
    "[region r]\ncurrency = USD\nelectricity = 0.16 / kWh\nwater = 2 / m3\nroom = 20 C\n"
    "[prices corner lid]\nglass = 12\n";

static void must(int holds)
{
    if (!holds)
        abort();
}

static void read_all(struct tc_stock *stock, bool with_file, struct tc_faults *faults)
{
    tc_stock_start(stock);
    must(tc_stock_read_bytes(stock, "base.ini", base, sizeof base - 1, faults) == TC_OK);
    if (with_file)
        must(tc_stock_read_file(stock, FILE_NAME, faults) == TC_OK);
    must(tc_stock_finish(stock, faults) == TC_OK);
}

static void take_over(const struct tc_stock *stock, const struct tc_price_import *import, const char *bytes,
                      size_t size)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_stock again;
    struct tc_price_import more = {.rows = NULL};
    must(tc_price_import_save(import, stock, tc_stock_shop(stock, "corner"), FILE_NAME, &faults) == TC_OK);
    read_all(&again, true, &faults);
    must(tc_faults_errors(&faults) == 0);
    must(tc_price_import_read(&again, tc_stock_shop(&again, "corner"), "fuzz.csv", bytes, size, &more,
                              &faults) == TC_OK);
    must(more.changed == 0 && more.added == 0 && more.made == 0 && more.row_count == import->row_count);
    tc_price_import_free(&more);
    tc_stock_free(&again);
    tc_faults_free(&faults);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_price_import import = {.rows = NULL};
    struct tc_text text = TC_TEXT_EMPTY;
    scratch_renew();
    read_all(&stock, false, &faults);
    must(tc_faults_count(&faults) == 0);
    enum tc_status status = tc_price_import_read(&stock, tc_stock_shop(&stock, "corner"), "fuzz.csv",
                                                 (const char *)data, size, &import, &faults);
    must(status == TC_OK || (status == TC_SYNTAX && tc_faults_errors(&faults) > 0));
    tc_faults_write(&faults, &text);
    if (status == TC_OK) {
        tc_price_import_tell(&import, &text);
        if (import.changed + import.added > 0)
            take_over(&stock, &import, (const char *)data, size);
    }
    for (char *c = text.length > 0 ? text.data : NULL; c && *c; c++)
        if (*c == '\n')
            *c = ' ';
    must(tc_is_clean(tc_text_string(&text), text.length));
    tc_text_free(&text);
    tc_price_import_free(&import);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return 0;
}
