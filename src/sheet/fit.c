/* SPDX-License-Identifier: MIT */
#include "sheet/fit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/unit.h"
#include "core/cost/cost.h"
#include "core/base/text.h"
#include "sheet/caution.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_heat.h"
#include "sheet/left_out.h"
#include "sheet/note.h"
#include "sheet/phrase.h"
#include "sheet/setup_choices.h"
#include "sheet/verdict.h"
#include "sheet/study_deal.h"
#include "sheet/upkeep.h"

typedef double figure(const struct tc_alternative *alternative);

static double inner_length(const struct tc_alternative *e)
{
    return e->equipment.size.inner_length;
}
static double reach(const struct tc_alternative *e)
{
    return e->equipment.size.reach;
}
static double above_bed(const struct tc_alternative *e)
{
    return e->equipment.size.water_depth - e->c.setup->bed_depth;
}
static double bottom(const struct tc_alternative *e)
{
    return e->equipment.size.bottom_area;
}
static double nominal(const struct tc_alternative *e)
{
    return e->c.tank.nominal_volume;
}
static double actual(const struct tc_alternative *e)
{
    return e->equipment.size.water_volume;
}
static double empty_mass(const struct tc_alternative *e)
{
    return e->equipment.size.empty_mass;
}
static double filled_mass(const struct tc_alternative *e)
{
    return e->equipment.size.filled_mass;
}
static double floor_load(const struct tc_alternative *e)
{
    return e->equipment.size.filled_mass * TC_GRAVITY / e->equipment.size.footprint;
}
static double flow(const struct tc_alternative *e)
{
    return e->equipment.slot[TC_SLOT_FILTER].demand.flow;
}
static double ppf(const struct tc_alternative *e)
{
    return e->equipment.slot[TC_SLOT_LIGHT].demand.ppf;
}
static double ppfd(const struct tc_alternative *e)
{
    return tc_equipment_ppfd(&e->c, &e->equipment);
}
static double heat(const struct tc_alternative *e)
{
    return e->equipment.slot[TC_SLOT_HEATER].demand.heat;
}

enum best { NONE, LOWEST, HIGHEST };

/* How a figure came about: a size of the tank (enum tc_size), or what it needs. */
typedef const struct tc_term *derivation(struct tc_derive *derive, int item);

static const struct tc_term *size(struct tc_derive *derive, int item)
{
    return tc_derive_size(derive, (enum tc_size)item);
}

static const struct tc_term *derived_flow(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_flow(derive);
}

static const struct tc_term *derived_ppf(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_ppf(derive);
}

static const struct tc_term *derived_ppfd(struct tc_derive *derive, int item)
{
    (void)item;
    return derive ? tc_derive_ppfd(derive, ppfd(derive->alternative)) : NULL;
}

static const struct tc_term *derived_heat(struct tc_derive *derive, int item)
{
    (void)item;
    return tc_derive_needed_heat(derive);
}

static void add_figure(struct tc_sheet *sheet, const struct tc_study *study, const char *label,
                       enum tc_dimension dimension, int decimals, figure *of, derivation *derived, int item,
                       enum best best)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, tc_phrase_unit(dimension, study->units));
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_derive *derive = tc_derive_of(sheet, study, &study->alternatives[i]);
        tc_sheet_number(sheet, (size_t)i,
                        tc_phrase_value(of(&study->alternatives[i]), dimension, study->units), decimals);
        tc_term_put(sheet, (size_t)i, tc_derive_shown(derive, derived(derive, item), dimension));
    }
    if (best == LOWEST)
        tc_sheet_mark_lowest(sheet);
    if (best == HIGHEST)
        tc_sheet_mark_highest(sheet);
}

/* A load past what floors are designed for is marked, as on the sheet wall. */
static void mark_loads(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (floor_load(&study->alternatives[i]) > tc_caution_floor_mark())
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
}

/* How many the tanks hold by the rules of their setups, where one has such a rule. */
static void add_held(struct tc_sheet *sheet, const struct tc_study *study, const char *label,
                     enum tc_need need)
{
    bool territories = need == TC_NEED_TERRITORIES, any = false;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_setup *setup = alternative->c.setup;
        const struct tc_tank_size *size = &alternative->equipment.size;
        if (!((territories ? setup->territory : setup->water_each) > 0))
            continue;
        if (!any)
            tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        any = true;
        int held = territories ? tc_suit_territories(setup, size) : tc_suit_animals(setup, size);
        tc_sheet_number(sheet, (size_t)i, held, 0);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_held(tc_derive_of(sheet, study, alternative), territories, held));
        if (tc_suit_lacks(&alternative->suit, need))
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_SHORT);
    }
}

static bool all_suit(const struct tc_study *study)
{
    bool all = study->alternative_count > 0;
    for (int i = 0; i < study->alternative_count; i++)
        all = all && study->alternatives[i].suit.suits;
    return all;
}

static void add_shape(struct tc_sheet *sheet, const struct tc_study *study)
{
    char words[TC_WORDS_SIZE];
    const int lengths = tc_phrase_decimals(TC_DIM_LENGTH, study->units);
    tc_sheet_row(sheet, TC_ROW_GROUP, "Shape, water and weight", "");
    if (!all_suit(study)) /* else the finding says it */
        tc_phrase_suits_row(sheet, study);
    tc_sheet_row(sheet, TC_ROW_LINE, "outside, l × w × h", tc_phrase_unit(TC_DIM_LENGTH, study->units));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_tank *tank = &study->alternatives[i].c.tank;
        tc_sheet_text(sheet, (size_t)i,
                      tc_phrase_sides(words, tank->length, tank->width, tank->height, study->units));
    }
    add_figure(sheet, study, "length to swim", TC_DIM_LENGTH, lengths, inner_length, size, TC_SIZE_LENGTH,
               HIGHEST);
    add_figure(sheet, study, "bottom and surface", TC_DIM_AREA, 0, bottom, size, TC_SIZE_BOTTOM, HIGHEST);
    add_held(sheet, study, "territories, by your rule", TC_NEED_TERRITORIES);
    add_figure(sheet, study, "height for plants", TC_DIM_LENGTH, lengths, above_bed, size, TC_SIZE_ABOVE_BED,
               NONE);
    add_figure(sheet, study, "reach to substrate", TC_DIM_LENGTH, lengths, reach, size, TC_SIZE_REACH,
               LOWEST);
    add_figure(sheet, study, "nominal volume", TC_DIM_VOLUME, 1, nominal, size, TC_SIZE_NOMINAL, NONE);
    add_figure(sheet, study, "actual water", TC_DIM_VOLUME, 1, actual, size, TC_SIZE_VOLUME, HIGHEST);
    add_held(sheet, study, "animals, by your rule", TC_NEED_ANIMALS);
    add_figure(sheet, study, "weight, empty", TC_DIM_MASS, 0, empty_mass, size, TC_SIZE_EMPTY, LOWEST);
    add_figure(sheet, study, "weight, filled", TC_DIM_MASS, 0, filled_mass, size, TC_SIZE_FILLED, NONE);
    add_figure(sheet, study, "load on footprint", TC_DIM_PRESSURE, 0, floor_load, size, TC_SIZE_PRESSURE,
               NONE);
    mark_loads(sheet, study);
    tc_upkeep_row(sheet, study);
}

static bool any_wanted(const struct tc_study *study, enum tc_slot slot)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (study->alternatives[i].equipment.slot[slot].demand.wanted)
            return true;
    return false;
}

/* Whose setups they have, where it is not the plan's for all; on the screen, where one chooses it here,
 * always. */
static void add_setups(struct tc_sheet *sheet, const struct tc_study *study, bool always)
{
    bool one = !always;
    for (int i = 0; i < study->alternative_count; i++)
        one = one && tc_study_setup_shared(study, &study->alternatives[i]);
    if (one)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, "setup", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        char path[64];
        snprintf(path, sizeof path, "candidate %d/setup", alternative->index + 1);
        tc_sheet_edit(sheet, (size_t)i, path);
        bool shared = tc_study_setup_shared(study, alternative);
        tc_sheet_text(sheet, (size_t)i, shared ? "the plan's" : alternative->c.setup->name);
    }
}

/* Whether there is anything to tell of a slot: nothing where a lid is just as long as the tank, and how many
 * bags make a bed is plain. */
static bool worth_telling(enum tc_slot slot, const struct tc_filled *filled)
{
    return filled->offer && !filled->missing && slot != TC_SLOT_SUBSTRATE &&
           (slot != TC_SLOT_LID || filled->reason.code != TC_FITS ||
            fabs(filled->reason.have - filled->reason.need) > 1e-3);
}

/* One line for a slot: what each tank's part has, and what the tank needs: "331 / 190". */
static void explain_shortly(struct tc_sheet *sheet, const struct tc_study *study, enum tc_slot slot)
{
    char words[TC_WORDS_SIZE];
    bool told = false;
    for (int i = 0; i < study->alternative_count; i++)
        told = told || worth_telling(slot, &study->alternatives[i].equipment.slot[slot]);
    if (!told)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, tc_phrase_has_label(slot), tc_phrase_reason_unit(slot, study->units));
    tc_sheet_about(sheet, tc_sheet_format(sheet, "why this %s", tc_slot_name(slot)));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_filled *filled = &study->alternatives[i].equipment.slot[slot];
        if (worth_telling(slot, filled))
            tc_sheet_text(sheet, (size_t)i, tc_phrase_has(words, slot, &filled->reason, study->units));
    }
}

static void add_parts(struct tc_sheet *sheet, const struct tc_study *study, bool why)
{
    char words[TC_WORDS_SIZE];
    for (int s = 0; s < TC_SLOT_COUNT; s++) {
        enum tc_slot slot = (enum tc_slot)s;
        if (!any_wanted(study, slot))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, tc_slot_word(slot), "");
        tc_sheet_about(sheet, tc_slot_name(slot));
        for (int i = 0; i < study->alternative_count; i++) {
            const struct tc_alternative *alternative = &study->alternatives[i];
            const struct tc_filled *filled = &alternative->equipment.slot[slot];
            char path[64];
            snprintf(path, sizeof path, "candidate %d/%s", alternative->index + 1, tc_slot_name(slot));
            tc_sheet_edit(sheet, (size_t)i, path);
            if (filled->missing)
                tc_sheet_missing(sheet, (size_t)i, tc_phrase_unfilled(alternative, slot));
            else if (filled->offer)
                tc_sheet_text(sheet, (size_t)i, tc_phrase_part(words, filled));
            tc_term_put(sheet, (size_t)i, tc_derive_chosen(tc_derive_of(sheet, study, alternative), slot));
            if (filled->pinned)
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_PINNED);
            if (filled->ill_fitting)
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
        }
        if (why)
            explain_shortly(sheet, study, slot);
    }
}

/* What each tank needs; the parts chosen say it as well, so only where more is asked than the answer. */
static void add_demands(struct tc_sheet *sheet, const struct tc_study *study)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, "What it needs", "");
    if (any_wanted(study, TC_SLOT_FILTER))
        add_figure(sheet, study, "filter flow", TC_DIM_FLOW, 0, flow, derived_flow, 0, NONE);
    if (any_wanted(study, TC_SLOT_LIGHT)) {
        add_figure(sheet, study, "light to be given (PPF)", TC_DIM_PHOTON_FLOW, 0, ppf, derived_ppf, 0,
                   LOWEST);
        add_figure(sheet, study, "light at the bottom (PPFD)", TC_DIM_PHOTON_DENSITY, 0, ppfd, derived_ppfd,
                   0, NONE);
    }
    if (any_wanted(study, TC_SLOT_HEATER))
        add_figure(sheet, study, "heaters, with margin", TC_DIM_POWER, 0, heat, derived_heat, 0, LOWEST);
}

static void add_equipment(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_ask *ask)
{
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 !ask->why ? "Equipment: the cheapest to own that gives each tank what it needs"
                           : "Equipment chosen",
                 "");
    tc_sheet_about(sheet, "equipment");
    add_setups(sheet, study, ask->at_screen);
    add_parts(sheet, study, !ask->why);
}

/* "glass-30x12 (too long: 30 in, the tank is 24 in), ...": the refused of one slot, into a sentence. */
static const char *refusals(struct tc_sheet *sheet, const struct tc_alternative *alternative,
                            enum tc_slot slot, enum tc_unit_system units)
{
    struct tc_text text = TC_TEXT_EMPTY;
    char words[TC_WORDS_SIZE];
    int other_kind = 0;
    for (int i = 0; i < alternative->c.offer_count; i++) {
        const struct tc_offer *offer = &alternative->c.offers[i];
        if (offer->part->slot != slot || offer == alternative->equipment.slot[slot].offer)
            continue;
        struct tc_verdict verdict = tc_equipment_judge(&alternative->c, &alternative->equipment, offer);
        if (verdict.fits)
            continue;
        if (verdict.reason.code == TC_OTHER_KIND) {
            other_kind++;
            continue;
        }
        tc_text_addf(&text, "%s%s (%s)", text.length > 0 ? "; " : "", offer->part->goods.name,
                     tc_phrase_reason(words, slot, &verdict.reason, units));
    }
    if (other_kind > 0)
        tc_text_addf(&text, "%s%d are not %s filters, which this setup wants", text.length > 0 ? "; " : "",
                     other_kind, tc_filter_kind_name(alternative->c.setup->filter));
    if (text.failed)
        sheet->failed = true;
    const char *copy = tc_sheet_copy(sheet, tc_text_string(&text));
    tc_text_free(&text);
    return copy;
}

/* What misses a rule of thumb by little, with what it would save on the whole bill. */
static void tell_near_miss(struct tc_sheet *sheet, const struct tc_study *study,
                           const struct tc_alternative *alternative, enum tc_slot slot)
{
    struct tc_verdict near;
    if (alternative->cost.incomplete ||
        !tc_equipment_near_miss(&alternative->c, &alternative->equipment, slot, &near))
        return;
    struct tc_alternative other = *alternative;
    struct tc_prices prices;
    enum tc_status status = TC_OK;
    char words[TC_WORDS_SIZE], part[TC_WORDS_SIZE], saved[TC_WORDS_SIZE];
    other.c.wish[slot].part = near.offer->part->goods.name;
    other.c.wish[slot].count = near.count;
    status = tc_study_cost(study, &other, &alternative->prices.deal, &other.equipment, &prices, &other.cost);
    if (status != TC_OK || other.cost.incomplete)
        return;
    tc_money less = tc_money_subtract(alternative->cost.present_value, other.cost.present_value, &status);
    const struct tc_filled *filled = &other.equipment.slot[slot];
    if (status != TC_OK || less <= 0)
        return;
    tc_sheet_sentence(sheet, "  nearly",
                      tc_sheet_format(sheet,
                                      "%s is just short (%s) and would save %s to own; pin it if that is "
                                      "enough for you",
                                      tc_phrase_part(part, filled),
                                      tc_phrase_reason(words, slot, &filled->reason, study->units),
                                      tc_phrase_money(saved, less, study->region.currency)));
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, (int)slot));
}

static void explain_slot(struct tc_sheet *sheet, const struct tc_study *study,
                         const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_filled *filled = &alternative->equipment.slot[slot];
    char words[TC_WORDS_SIZE], part[TC_WORDS_SIZE];
    int count, fitting = tc_equipment_choices(&alternative->c, &alternative->equipment, slot, &count);
    if (filled->missing) {
        tc_sheet_sentence(sheet, tc_slot_word(slot),
                          tc_sheet_format(sheet, "none of %d fits; it would take %s", count,
                                          tc_phrase_wanted(words, alternative, slot, study->units)));
    } else if (filled->offer) {
        tc_phrase_reason(words, slot, &filled->reason, study->units);
        tc_phrase_part(part, filled);
        if (filled->pinned || fitting == 1)
            tc_sheet_sentence(sheet, tc_slot_word(slot), tc_sheet_format(sheet, "%s: %s", part, words));
        else
            tc_sheet_sentence(
                sheet, tc_slot_word(slot),
                tc_sheet_format(
                    sheet, "%s: %s; the best of %d that fit%s", part, words, fitting,
                    slot == TC_SLOT_LID && alternative->c.setup->heater ? ", with the heat it keeps" : ""));
    } else {
        return;
    }
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, (int)slot));
    tell_near_miss(sheet, study, alternative, slot);
    const char *refused = refusals(sheet, alternative, slot, study->units);
    if (!refused[0])
        return;
    tc_sheet_sentence(sheet, "  refused", refused);
    tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, (int)slot));
}

static void explain(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "Why: %s", alternative->head), "");
        tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, -1));
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            explain_slot(sheet, study, alternative, (enum tc_slot)slot);
    }
}

/* Who suits, and what sets the tanks apart. */
static enum tc_status add_findings(struct tc_sheet *sheet, const struct tc_study *study)
{
    struct tc_advice advice;
    enum tc_status status = tc_advice_make(&advice, study);
    if (status != TC_OK)
        return status;
    if (all_suit(study))
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s the animals of setup %s.",
                      study->alternative_count == 1
                          ? tc_sheet_format(sheet, "%s suits", study->alternatives[0].head)
                          : tc_sheet_format(sheet, "All %d suit", study->alternative_count),
                      study->setup.name);
    tc_left_out_tell(sheet, &advice);
    tc_verdict_tell_trade(sheet, &advice);
    return TC_OK;
}

enum tc_status tc_make_fit(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "fit", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    tc_phrase_head(sheet, study, "What each tank's shape gives, and what it forces you to buy", "");
    tc_phrase_columns(sheet, study);
    for (size_t i = 0; sheet->columns && i < sheet->column_count; i++)
        sheet->columns[i].subhead = ""; /* how it is bought matters little here */
    add_shape(sheet, study);
    if (ask->why)
        add_demands(sheet, study);
    add_equipment(sheet, study, ask);
    enum tc_status status = tc_setup_choices_add(sheet, study);
    if (ask->why)
        explain(sheet, study);
    if (status == TC_OK)
        status = add_findings(sheet, study);
    tc_note_fit(sheet, study);
    tc_cautions(sheet, TC_CAUTION_ELECTRICITY | TC_CAUTION_GLASS | TC_CAUTION_STAND | TC_CAUTION_FLOOR,
                study->units);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
