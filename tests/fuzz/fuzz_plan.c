/* SPDX-License-Identifier: MIT */
/*
 * Any text as the file of a plan, some figures typed over, and saved again: what
 * was saved is read back just so, the comments of the old text are all there, and
 * saving once more changes nothing. A file that cannot be saved stays as it is.
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "profile/ini.h"
#include "profile/plan_save.h"
#include "profile/plan_path.h"
#include "profile/save.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "support/scratch.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define FILE_NAME "plan.ini"

static const char base[] =
    "[tank 29-high]\nnominal = 29 gal\nlength = 30 in\nwidth = 12 in\nheight = 18 in\n"
    "glass = 5 mm\nprice = 89 USD\n"
    "[tank 20-long]\nlength = 30 in\nwidth = 12 in\nheight = 12 in\nglass = 5 mm\nprice = 45 USD\n"
    "[setup k]\nfilter = sponge\n"
    "[region r]\ncurrency = USD\nelectricity = 0.16 / kWh\nwater = 2 / m3\nroom = 20 C\n";

/* What the first bytes of an input type over. */
static const char *const edits[][2] = {
    {"plan/years", "7 years"},
    {"plan/years", ""},
    {"candidate 1/price", "45.50"},
    {"candidate 1/price", "40 to 50 likely 45"},
    {"candidate 1/quantity", "4"},
    {"candidate 2/price", ""},
    {"region/room", "18 C"},
    {"region/room", ""},
    {"setup/light-hours", "9"},
    {"plan/title", "Another"},
    {"region/electricity", "0.3 / kWh"},
    {"wall/length", "3 m"},
    {"plan/units", "us"},
    {"candidate 1/tank", "20-long"},
};

static void must(int holds)
{
    if (!holds)
        abort();
}

static void read_plan(struct tc_stock *stock, struct tc_faults *faults)
{
    tc_stock_start(stock);
    must(tc_stock_read_bytes(stock, "base.ini", base, sizeof base - 1, faults) == TC_OK);
    must(tc_stock_read_file(stock, FILE_NAME, faults) == TC_OK);
    must(tc_stock_finish(stock, faults) == TC_OK);
}

static struct tc_text text_of(void)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    bool there;
    must(tc_load(FILE_NAME, &text, &there, &faults) == TC_OK && there);
    tc_faults_free(&faults);
    return text;
}

/* Whether each whole line of comment of the old text is in the new one. */
static void keeps_comments(const char *old, const char *now)
{
    while (*old) {
        size_t length = strcspn(old, "\n");
        const char *from = old + strspn(old, " \t");
        size_t left = (size_t)(old + length > from ? old + length - from : 0);
        while (left > 0 && strchr(" \t\r", from[left - 1]))
            left--;
        if (left > 1 && *from == '#') {
            char *line = strndup(from, left);
            must(line && strstr(now, line));
            free(line);
        }
        old += length + (old[length] == '\n');
    }
}

static void save_over(const struct tc_plan *plan, const struct tc_text *old)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_stock stock;
    if (tc_plan_save(plan, FILE_NAME, &faults) != TC_OK) {
        must(tc_faults_errors(&faults) > 0);
        struct tc_text now = text_of();
        must(now.length == old->length &&
             memcmp(tc_text_string(&now), tc_text_string(old), old->length) == 0);
        tc_text_free(&now);
        tc_faults_free(&faults);
        return;
    }
    struct tc_text once = text_of();
    keeps_comments(tc_text_string(old), tc_text_string(&once));
    read_plan(&stock, &faults);
    const struct tc_plan *back = tc_stock_plan_of(&stock, FILE_NAME);
    must(back && tc_plan_equal(plan, back));
    must(tc_plan_save(back, FILE_NAME, &faults) == TC_OK);
    struct tc_text twice = text_of();
    keeps_comments(tc_text_string(old), tc_text_string(&twice));
    tc_text_free(&once);
    tc_text_free(&twice);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    size_t count = size > 0 ? data[0] % 6 : 0;
    if (size < 1 + count || memchr(data, 0, size))
        return 0;
    scratch_renew();
    must(tc_save(FILE_NAME, data + 1 + count, size - 1 - count, &faults) == TC_OK);
    read_plan(&stock, &faults);
    const struct tc_plan *found = tc_stock_plan_of(&stock, FILE_NAME);
    if (found) {
        struct tc_plan plan = *found;
        struct tc_text old = text_of();
        for (size_t i = 0; i < count; i++) {
            const char *const *edit = edits[data[1 + i] % (sizeof edits / sizeof edits[0])];
            char problem[TC_PROBLEM_SIZE];
            tc_plan_set(&plan, edit[0], edit[1], problem);
        }
        save_over(&plan, &old);
        tc_text_free(&old);
    }
    tc_faults_free(&faults);
    tc_stock_free(&stock);
    return 0;
}
