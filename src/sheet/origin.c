/* SPDX-License-Identifier: MIT */
#include "sheet/origin.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/region_assumed.h"
#include "profile/region_keys.h"
#include "profile/section.h"
#include "sheet/unnamed.h"

struct origin {
    int invented, assumed, averages;        /* figures; averages: public ones of a template of a region */
    struct tc_text of_invented, of_assumed; /* "region lowmere (14), prices of lowmere-shop (9)"; owned */
};

/* Names that were counted, so that each counts once. */
struct seen {
    char name[4 * TC_CANDIDATES_MAX * TC_SLOT_COUNT][4 * TC_NAME_SIZE];
    int count;
};

static bool first_time(struct seen *seen, const char *kind, const char *name)
{
    char text[4 * TC_NAME_SIZE];
    snprintf(text, sizeof text, "%s %s", kind, name);
    for (int i = 0; i < seen->count; i++)
        if (strcmp(seen->name[i], text) == 0)
            return false;
    if (seen->count < (int)(sizeof seen->name / sizeof seen->name[0]))
        memcpy(seen->name[seen->count++], text, sizeof text);
    return true;
}

/* Whether a key of a section is a figure and not what the thing is. */
static bool is_figure(const char *key)
{
    static const char *const others[] = {"title",  "invented", "template", "currency", "region",
                                         "seller", "kind",     "tax",      "shop"};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (strcmp(others[i], key) == 0)
            return false;
    return true;
}

static bool typed_over(const struct tc_plan *plan, const char *kind, const char *shop, const char *key)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, kind) == 0 && strcmp(plan->override[i].shop, shop) == 0 &&
            strcmp(plan->override[i].key, key) == 0)
            return true;
    return false;
}

/* The figures that stand in the section of an item, less those the plan types over. */
static int figures_of(const struct tc_study *study, const char *kind, const char *name)
{
    const struct tc_section *section = tc_sections_find(study->stock->sections, kind, name);
    const char *shop = strcmp(kind, "shop") == 0 ? name : "";
    int count = 0;
    for (size_t i = 0; section && i < section->ini->key_count; i++) {
        const char *key = section->ini->keys[i].name;
        count += is_figure(key) && !typed_over(&study->plan, kind, shop, key);
    }
    return count;
}

static void add(struct tc_text *text, const char *what, const char *name, int figures)
{
    tc_text_addf(text, "%s%s %s (%d)", text->length > 0 ? ", " : "", what, name, figures);
}

/* ------------------------------------------------------------------------- invented */

static void count_section(const struct tc_study *study, struct origin *origin, struct seen *seen,
                          const char *kind, const char *name)
{
    int figures = figures_of(study, kind, name);
    if (figures == 0 || !first_time(seen, kind, name))
        return;
    origin->invented += figures;
    add(&origin->of_invented, kind, name, figures);
}

/* Whether something is bought at a shop of the study; all of it at the first where there is no other. */
static bool bought_at(const struct tc_study *study, int place)
{
    if (study->market.count == 0)
        return place == 0;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        for (int line = 0; line < TC_BUY_FEE; line++)
            if (tc_study_shop_of(study, alternative, line) == study->shops[place])
                return true;
    }
    return false;
}

static void count_place(const struct tc_study *study, struct origin *origin, struct seen *seen)
{
    const struct tc_region *region = &study->region;
    const char *tariffs[] = {region->electricity.tariff, region->water.tariff};
    if (region->invented)
        count_section(study, origin, seen, "region", region->name);
    for (int i = 0; i < 2; i++) {
        const struct tc_named_tariff *tariff = tc_stock_tariff(study->stock, tariffs[i]);
        if (tariff && tariff->invented)
            count_section(study, origin, seen, "tariff", tariff->name);
    }
    for (int i = 0; i < study->extra_count; i++)
        if (study->extras[i]->invented)
            count_section(study, origin, seen, "extra", study->extras[i]->name);
    for (int s = 0; s < study->shop_count; s++)
        if (study->shops[s]->invented && bought_at(study, s))
            count_section(study, origin, seen, "shop", study->shops[s]->name);
    if (region->is_template)
        origin->averages = figures_of(study, "region", region->name);
}

/* Whether a price comes from the list of its shop, which is an invented one. */
static bool invented_price(const struct tc_study *study, struct seen *seen, const struct tc_shop *shop,
                           int slot, const struct tc_goods *goods)
{
    char at[2 * TC_NAME_SIZE + 8];
    if (!shop || !shop->invented || isnan(tc_stock_own_price(study->stock, shop, slot, goods)))
        return false;
    snprintf(at, sizeof at, "%s at %s", slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot), shop->name);
    return first_time(seen, at, goods->name);
}

struct counts {
    int prices[TC_SHOPS_MAX]; /* by shop of the study */
    int parts, part_figures;
};

static int place_of(const struct tc_study *study, const struct tc_shop *shop)
{
    for (int s = 0; s < study->shop_count; s++)
        if (study->shops[s] == shop)
            return s;
    return 0;
}

static bool is_unnamed(const struct tc_alternative *alternative, int slot)
{
    return strcmp(alternative->plan->pin[slot].part, TC_UNNAMED) == 0;
}

static void count_goods(const struct tc_study *study, struct seen *seen, struct seen *priced,
                        const struct tc_shop *shop, int slot, const struct tc_goods *goods, bool typed,
                        struct counts *counts)
{
    const char *kind = slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot);
    if (!typed)
        counts->prices[place_of(study, shop)] += invented_price(study, priced, shop, slot, goods);
    if (!goods->invented || !first_time(seen, kind, goods->name))
        return;
    counts->parts++;
    counts->part_figures += figures_of(study, kind, goods->name);
}

static void count_invented(const struct tc_study *study, struct origin *origin, struct seen *seen,
                           struct seen *priced)
{
    struct counts counts = {.parts = 0};
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        count_goods(study, seen, priced, tc_study_shop_of(study, alternative, TC_BUY_TANK), -1,
                    &alternative->c.tank.goods, alternative->terms.typed, &counts);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
            if (offer && !is_unnamed(alternative, slot))
                count_goods(study, seen, priced, tc_study_shop_of(study, alternative, TC_BUY_SLOTS + slot),
                            slot, &offer->part->goods, !isnan(alternative->plan->pin[slot].price), &counts);
        }
    }
    count_place(study, origin, seen);
    origin->invented += counts.part_figures;
    for (int s = 0; s < study->shop_count; s++) {
        origin->invented += counts.prices[s];
        if (counts.prices[s] > 0)
            add(&origin->of_invented, "prices of", study->shops[s]->name, counts.prices[s]);
    }
    if (counts.parts > 0)
        tc_text_addf(&origin->of_invented, "%s%d %s (%d)", origin->of_invented.length > 0 ? ", " : "",
                     counts.parts, counts.parts == 1 ? "tank or part" : "tanks and parts",
                     counts.part_figures);
}

/* -------------------------------------------------------------------------- assumed */

static void assume(struct origin *origin, bool assumed, const char *key, const char *of, const char *tank)
{
    if (!assumed)
        return;
    origin->assumed++;
    tc_text_addf(&origin->of_assumed, "%s%s%s of %s", origin->of_assumed.length > 0 ? ", " : "", of, key,
                 tank);
}

/* What nobody gave of the region. */
static void count_assumed_place(const struct tc_study *study, struct origin *origin)
{
    int before = origin->assumed;
    for (size_t i = 0; i < tc_region_keys.count; i++) {
        const struct tc_key *key = &tc_region_keys.keys[i];
        if (!tc_region_assumes(study->stock, &study->region, key) ||
            typed_over(&study->plan, "region", "", key->name))
            continue;
        origin->assumed++;
        tc_text_addf(&origin->of_assumed, "%s%s", origin->assumed > 1 ? ", " : "", key->name);
    }
    if (origin->assumed > before)
        tc_text_addf(&origin->of_assumed, " of region %s", study->region.name);
}

static void count_assumed(const struct tc_alternative *alternative, struct origin *origin)
{
    const char *tank = alternative->plan->tank;
    assume(origin, alternative->c.tank.glass_assumed, "glass", "", tank);
    assume(origin, alternative->c.tank.nominal_assumed, "nominal volume", "", tank);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        const struct tc_pin *pin = &alternative->plan->pin[slot];
        const char *kind = tc_slot_name((enum tc_slot)slot);
        if (!offer || !is_unnamed(alternative, slot))
            continue;
        assume(origin, tc_part_power(offer->part) > 0 && isnan(pin->power), "-power", kind, tank);
        assume(origin, isnan(pin->life), "-life", kind, tank);
        assume(origin, isnan(pin->resale), "-resale", kind, tank);
    }
}

/* --------------------------------------------------------------------------- saying */

static void count_origins(const struct tc_study *study, struct origin *origin)
{
    *origin = (struct origin){.of_invented = TC_TEXT_EMPTY, .of_assumed = TC_TEXT_EMPTY};
    struct seen *seen = calloc(2, sizeof *seen);
    if (!seen) {
        origin->of_invented.failed = true;
        return;
    }
    count_invented(study, origin, seen, seen + 1);
    count_assumed_place(study, origin);
    for (int i = 0; i < study->alternative_count; i++)
        count_assumed(&study->alternatives[i], origin);
    free(seen);
}

static void free_origins(struct origin *origin)
{
    tc_text_free(&origin->of_invented);
    tc_text_free(&origin->of_assumed);
}

static const char *figures(int count)
{
    return count == 1 ? "figure" : "figures";
}

/* In few words, behind the assumptions. */
static void say_few(const struct origin *origin, struct tc_sheet *sheet)
{
    char few[96] = "";
    if (origin->invented > 0)
        snprintf(few, sizeof few, " · %d %s invented", origin->invented, figures(origin->invented));
    if (origin->assumed > 0) {
        size_t length = strlen(few);
        snprintf(few + length, sizeof few - length, "%s%d assumed", length > 0 ? ", " : " · ",
                 origin->assumed);
    }
    if (origin->invented + origin->assumed + origin->averages == 0)
        snprintf(few, sizeof few, " · no figure invented or assumed");
    sheet->assumptions = tc_sheet_format(sheet, "%s%s", sheet->assumptions, few);
}

static void say_all(const struct tc_study *study, const struct origin *origin, struct tc_sheet *sheet)
{
    if (origin->invented > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Invented for a demonstration: %d %s - %s.", origin->invented,
                      figures(origin->invented), tc_text_string(&origin->of_invented));
    if (origin->assumed > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Assumed, as nobody gave them: %d %s - %s. You can change each.",
                      origin->assumed, figures(origin->assumed), tc_text_string(&origin->of_assumed));
    if (origin->averages > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Public averages: %d %s of region %s.", origin->averages,
                      figures(origin->averages), study->region.name);
    if (origin->invented + origin->assumed + origin->averages == 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "No figure here is invented or assumed: all are your own.");
    sheet->failed = sheet->failed || origin->of_invented.failed || origin->of_assumed.failed;
}

void tc_origin_say(const struct tc_study *study, struct tc_sheet *sheet)
{
    struct origin origin;
    count_origins(study, &origin);
    say_few(&origin, sheet);
    say_all(study, &origin, sheet);
    free_origins(&origin);
}

void tc_origin_note(const struct tc_study *study, struct tc_sheet *sheet)
{
    struct origin origin;
    count_origins(study, &origin);
    say_all(study, &origin, sheet);
    free_origins(&origin);
}
