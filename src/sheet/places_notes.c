/* SPDX-License-Identifier: MIT */
#include "sheet/places_notes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/phrase.h"

/* ---------------------------------------------------------------------- the cheapest */

/* Whether something in a region can be compared in the one money. */
static bool comparable(const struct tc_region_costs *regions, size_t i)
{
    return regions->local[i].best >= 0 && regions->conversion[i].rate > 0;
}

/* What the cheapest in a region costs, in the one money. */
static tc_money best_value(const struct tc_region_costs *regions, size_t i, enum tc_status *status)
{
    const struct tc_region_cost *local = &regions->local[i];
    return tc_conversion_money(&regions->conversion[i], local->cost[local->best].present_value, status);
}

static enum tc_status note_cheapest(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    enum tc_status status = TC_OK;
    int best = -1, count = 0;
    tc_money least = 0;
    for (size_t i = 0; i < regions->count; i++) {
        if (!comparable(regions, i))
            continue;
        tc_money value = best_value(regions, i, &status);
        if (count++ == 0 || value < least) {
            best = (int)i;
            least = value;
        }
    }
    if (count < 2)
        return status;
    char value[TC_WORDS_SIZE], less[TC_WORDS_SIZE];
    const struct tc_region_cost *there = &regions->local[best];
    const char *scope = count == (int)regions->count ? "Of all places" : "Of the places that can be compared";
    const char *head = there->cost[there->best].head;
    tc_phrase_money(value, least, regions->money);
    if (regions->own < 0 || best == regions->own || !comparable(regions, (size_t)regions->own)) {
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s, %s %sin %s costs least to own: %s in today's money.",
                      scope, head, best == regions->own ? "here " : "", there->name, value);
        return status;
    }
    const struct tc_region_cost *here = &regions->local[regions->own];
    tc_money gap = tc_money_subtract(best_value(regions, (size_t)regions->own, &status), least, &status);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "%s, %s in %s costs least to own: %s in today's money, %s less than %s here in %s.", scope,
                  head, there->name, value, tc_phrase_money(less, gap, regions->money),
                  here->cost[here->best].head, here->name);
    return status;
}

/* ----------------------------------------------------------------- where it changes */

/* The region others are held against: the plan's own, or else the first, that has a winner; -1: none. */
static int base_of(const struct tc_region_costs *regions)
{
    if (regions->own >= 0 && regions->local[regions->own].best >= 0)
        return regions->own;
    for (size_t i = 0; i < regions->count; i++)
        if (regions->local[i].best >= 0)
            return (int)i;
    return -1;
}

static double difference(const struct tc_region_cost *local, int line, int winner, int loser)
{
    return (double)(local->cost[winner].line[line] - local->cost[loser].line[line]) /
           tc_currency_scale(local->currency);
}

/* What turns amounts of a region into shares of what a candidate costs there; at least a minor unit. */
static double share_weight(const struct tc_region_cost *local, int candidate)
{
    return tc_currency_scale(local->currency) / fmax(1, fabs((double)local->cost[candidate].present_value));
}

int tc_places_moving_line(const struct tc_region_costs *regions, size_t from, size_t to, int winner,
                          int loser)
{
    const struct tc_region_cost *a = &regions->local[from], *b = &regions->local[to];
    double a_weight = regions->conversion[from].rate, b_weight = regions->conversion[to].rate;
    if (!(a_weight > 0) || !(b_weight > 0)) {
        a_weight = share_weight(a, loser);
        b_weight = share_weight(b, loser);
    }
    int most = 0;
    double furthest = INFINITY;
    for (int line = 0; line < TC_REGION_COST_LINES; line++) {
        double moved =
            b_weight * difference(b, line, winner, loser) - a_weight * difference(a, line, winner, loser);
        if (moved < furthest) {
            furthest = moved;
            most = line;
        }
    }
    return most;
}

/* "31.20 EUR above", "1200 JPY below", "level with": the winner's line against the loser's. */
static char *above_or_below(char *words, const struct tc_region_cost *local, int line, int winner, int loser)
{
    char amount[TC_WORDS_SIZE];
    tc_money gap = local->cost[winner].line[line] - local->cost[loser].line[line]; /* far within bounds */
    if (gap == 0)
        snprintf(words, TC_WORDS_SIZE, "level with");
    else
        snprintf(words, TC_WORDS_SIZE, "%.200s %s",
                 tc_phrase_money(amount, gap < 0 ? -gap : gap, local->currency), gap < 0 ? "below" : "above");
    return words;
}

static void note_change(struct tc_sheet *sheet, const struct tc_region_costs *regions, int base, size_t i)
{
    const struct tc_region_cost *here = &regions->local[base], *there = &regions->local[i];
    int loser = here->best, winner = there->best;
    const char *loser_head = here->cost[loser].head, *winner_head = there->cost[winner].head;
    if (!tc_region_cost_complete(&there->cost[loser]) || !tc_region_cost_complete(&here->cost[winner])) {
        bool gone = !tc_region_cost_complete(&there->cost[loser]);
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s: %s costs least to own, not %s as in %s, but the cost of %s is not known in %s.",
                      there->name, winner_head, loser_head, here->name, gone ? loser_head : winner_head,
                      gone ? there->name : here->name);
        return;
    }
    char a[TC_WORDS_SIZE], b[TC_WORDS_SIZE];
    int line = tc_places_moving_line(regions, (size_t)base, i, winner, loser);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "%s: %s costs least to own, not %s as in %s. The line that moves most is \"%s\": %s is %s "
                  "%s there, %s it in %s.",
                  there->name, winner_head, loser_head, here->name, tc_region_cost_line_name(line),
                  winner_head, above_or_below(b, there, line, winner, loser), loser_head,
                  above_or_below(a, here, line, winner, loser), here->name);
}

static void note_changes(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    int base = base_of(regions), alike = 0;
    if (base < 0)
        return;
    int best = regions->local[base].best;
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *there = &regions->local[i];
        if ((int)i == base || there->best < 0)
            continue;
        /* One that costs as little there has not lost. */
        if (tc_region_cost_complete(&there->cost[best]) &&
            there->cost[best].present_value == there->cost[there->best].present_value)
            alike++;
        else
            note_change(sheet, regions, base, i);
    }
    if (alike > 0 && alike == (int)regions->count - 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s costs least to own in every one of these places.",
                      regions->local[base].cost[best].head);
}

/* --------------------------------------------------------------------- what is missing */

/* "tank, stand": the bits as words. */
static const char *lacks_words(char *words, unsigned lacks)
{
    words[0] = '\0';
    for (int i = -1; i < TC_SLOT_COUNT; i++) {
        unsigned bit = i < 0 ? TC_LACKS_TANK : TC_LACKS_SLOT(i);
        size_t length = strlen(words);
        if (lacks & bit)
            snprintf(words + length, TC_WORDS_SIZE - length, "%s%s", length > 0 ? ", " : "",
                     i < 0 ? "tank" : tc_slot_name((enum tc_slot)i));
    }
    return words;
}

enum lack { UNPRICED, UNFILLED };

/* One note of all that a region lacks in one way: "180-l (tank, stand); 240-l (tank)". */
static void note_lack(struct tc_sheet *sheet, const struct tc_region_cost *local, enum lack lack)
{
    struct tc_text all = TC_TEXT_EMPTY;
    char words[TC_WORDS_SIZE];
    for (int c = 0; c < TC_CANDIDATES_MAX; c++) {
        const struct tc_region_line_cost *cost = &local->cost[c];
        unsigned bits = lack == UNPRICED ? cost->unpriced : cost->unfilled;
        if (bits)
            tc_text_addf(&all, "%s%s (%s)", all.length > 0 ? "; " : "", cost->head, lacks_words(words, bits));
    }
    if (all.failed)
        sheet->failed = true;
    else if (all.length > 0 && lack == UNPRICED)
        tc_sheet_note(
            sheet, TC_NOTE_FAULT,
            "%s has no price in %s for: %s. Give it in the profile of the item, or in the list of a "
            "shop of %s.",
            local->name, local->currency.code, tc_text_string(&all), local->name);
    else if (all.length > 0)
        tc_sheet_note(sheet, TC_NOTE_FAULT, "%s: nothing on offer fits: %s.", local->name,
                      tc_text_string(&all));
    tc_text_free(&all);
}

static void note_missing_rates(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    struct tc_text all = TC_TEXT_EMPTY;
    for (size_t i = 0; i < regions->count; i++)
        if (!(regions->conversion[i].rate > 0))
            tc_text_addf(&all, "%s%s (%s)", all.length > 0 ? ", " : "", regions->local[i].currency.code,
                         regions->local[i].name);
    if (all.failed)
        sheet->failed = true;
    else if (all.length > 0)
        tc_sheet_note(sheet, TC_NOTE_FAULT,
                      "No rate leads to %s from %s: give 'exchange' and 'exchange-date' in the profile of a "
                      "region with that money.",
                      regions->money.code, tc_text_string(&all));
    tc_text_free(&all);
}

static void note_gaps(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *local = &regions->local[i];
        if (local->trouble[0] != '\0')
            tc_sheet_note(sheet, TC_NOTE_FAULT, "%s: %s.", local->name, local->trouble);
        note_lack(sheet, local, UNPRICED);
        note_lack(sheet, local, UNFILLED);
    }
    note_missing_rates(sheet, regions);
}

/* ------------------------------------------------------------------ what figures rest on */

static bool any_converted(const struct tc_region_costs *regions)
{
    for (size_t i = 0; i < regions->count; i++)
        if (regions->conversion[i].rate > 0 && regions->conversion[i].steps > 0)
            return true;
    return false;
}

static bool any_typed_price(const struct tc_plan *plan)
{
    for (int c = 0; c < plan->candidate_count; c++) {
        if (!isnan(plan->candidate[c].price))
            return true;
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            if (!isnan(plan->candidate[c].pin[slot].price))
                return true;
    }
    return false;
}

static bool any_named_sale(const struct tc_region_costs *regions)
{
    const struct tc_plan *plan = &regions->study->plan;
    bool any = tc_stock_sale(regions->study->stock, plan->sale) != NULL;
    for (int c = 0; c < plan->candidate_count; c++)
        any = any || tc_stock_sale(regions->study->stock, plan->candidate[c].sale);
    return any;
}

static bool any_assumption(const struct tc_plan *plan)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, "region") == 0)
            return true;
    return false;
}

static void note_basis(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    const struct tc_plan *plan = &regions->study->plan;
    if (any_converted(regions))
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "Amounts in %s are those in each place's money at the rates its profiles quote, the day "
            "of the oldest rate on the way given; a bank takes its fee on top.",
            regions->money.code);
    if (any_typed_price(plan))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Prices typed by hand hold in %s alone: elsewhere all is bought new at what that place "
                      "asks.",
                      plan->region);
    if (any_named_sale(regions))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "A sale holds in its own region alone: elsewhere the tank is bought in the best way of "
                      "that place today, list price or sale.");
    if (any_assumption(plan))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "What is typed over for the region holds in %s alone, what is typed over for the setup "
                      "everywhere.",
                      plan->region);
    for (size_t i = 0; i < regions->count; i++)
        if (regions->local[i].is_template)
            tc_sheet_note(
                sheet, TC_NOTE_REMARK,
                "%s is a template: its tariff is a public average, to be replaced by your own bill's.",
                regions->local[i].name);
    if (regions->templates > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "%d template%s of regions not filled in yet left out; `tankcost check` lists what is "
                      "missing.",
                      regions->templates, regions->templates == 1 ? "" : "s");
}

enum tc_status tc_places_notes(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    enum tc_status status = note_cheapest(sheet, regions);
    note_changes(sheet, regions);
    note_gaps(sheet, regions);
    note_basis(sheet, regions);
    return status;
}
