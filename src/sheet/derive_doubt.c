/* SPDX-License-Identifier: MIT */
#include "sheet/derive_doubt.h"

#include <stdio.h>
#include <string.h>

#include "sheet/derive_life.h"
#include "sheet/uncertain.h"

/* Where the figure of a name such as "setup planted-display temperature" or "plan candidate 2/resale" stands.
 */
static struct tc_source source(struct tc_sheet *sheet, const struct tc_study *study, const char *name)
{
    char kind[TC_NAME_SIZE], item[TC_NAME_SIZE];
    size_t length = strcspn(name, " ");
    const char *rest = name + length + (name[length] == ' ');
    snprintf(kind, sizeof kind, "%.*s", (int)length, name);
    if (strcmp(kind, TC_UNCERTAIN_UPKEEP) == 0)
        return tc_source_model(sheet, "UPKEEP TIME");
    if (strcmp(kind, "plan") == 0) {
        bool whole = strchr(rest, '/') != NULL;
        return tc_source_path(sheet, study, whole ? rest : tc_sheet_format(sheet, "plan/%s", rest));
    }
    length = strchr(rest, ' ') ? strcspn(rest, " ") : 0; /* what is typed over names no item */
    snprintf(item, sizeof item, "%.*s", (int)length, rest);
    rest += length + (rest[length] == ' ');
    if (strcmp(kind, "setup") == 0)
        return !item[0] || strcmp(item, study->setup.name) == 0
                   ? tc_source_setup(sheet, study, &study->setup, rest)
                   : tc_source_item(sheet, study, kind, item, rest);
    if (strcmp(kind, "region") == 0)
        return tc_source_region(sheet, study, rest);
    const struct tc_shop *shop = strcmp(kind, "shop") == 0 ? tc_stock_shop(study->stock, item) : NULL;
    if (shop)
        return tc_source_shop(sheet, study, shop, rest);
    if (strcmp(kind, "prices") == 0) {
        char slot[TC_NAME_SIZE];
        enum tc_slot found;
        length = strcspn(rest, " ");
        snprintf(slot, sizeof slot, "%.*s", (int)length, rest);
        const struct tc_goods *goods =
            tc_stock_find(study->stock, slot, rest + length + (rest[length] == ' '));
        if (goods)
            return tc_source_price(sheet, study, tc_stock_shop(study->stock, item),
                                   tc_slot_find(slot, &found) ? (int)found : -1, goods);
    }
    return tc_source_item(sheet, study, kind, item, rest);
}

void tc_derive_ranges(struct tc_sheet *sheet, const struct tc_study *study, struct tc_term *term)
{
    struct tc_uncertain uncertain;
    if (!term)
        return;
    enum tc_status status = tc_uncertain_find(&uncertain, study);
    sheet->failed = sheet->failed || status != TC_OK;
    for (int i = 0; status == TC_OK && i < uncertain.count; i++) {
        const char *name = uncertain.names[i].text;
        const struct tc_spread *spread = &uncertain.spreads[i];
        struct tc_source at = source(sheet, study, name);
        struct tc_term *range = tc_term_leaf(sheet, tc_sheet_format(sheet, "w%d", i + 1),
                                             tc_sheet_format(sheet, "range of %s: its middle", name),
                                             tc_spread_middle(spread), "", at);
        const char *const words[] = {"lowest", "highest"};
        for (int end = 0; end < 2; end++)
            tc_term_add(
                sheet, range,
                tc_term_leaf(sheet, end ? "b" : "a", words[end], end ? spread->high : spread->low, "", at));
        tc_term_add(sheet, term, range);
    }
    tc_uncertain_free(&uncertain);
}

const struct tc_term *tc_derive_band(struct tc_derive *derive, tc_money end, bool high)
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_money(
        derive->sheet, "Z", high ? "nine in ten of the draws lie below" : "one in ten of the draws lie below",
        "", end, derive->study->region.currency);
    if (!term)
        return NULL;
    term->from = TC_TERM_SIMULATED;
    term->place = "1021 draws over the ranges, tankcost-model(7), DOUBTS";
    tc_term_add(derive->sheet, term, tc_derive_present_value(derive));
    tc_derive_ranges(derive->sheet, derive->study, term);
    return term;
}
