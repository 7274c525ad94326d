/* SPDX-License-Identifier: MIT */
#include "sheet/places_notes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/advice.h"
#include "sheet/need.h"
#include "sheet/note.h"
#include "sheet/phrase.h"

/* ------------------------------------------------------------------------ for who moves */

/* What a candidate costs more in a region than at home, in the one money: in all, and by line. */
struct move {
    size_t region;
    tc_money more;
    double line[TC_REGION_COST_LINES];
};

static bool move_of(const struct tc_region_costs *regions, size_t i, int candidate, struct move *move,
                    enum tc_status *status)
{
    const struct tc_region_cost *here = &regions->local[regions->own], *there = &regions->local[i];
    const struct tc_conversion *from = &regions->conversion[regions->own], *to = &regions->conversion[i];
    const struct tc_region_line_cost *a = &here->cost[candidate], *b = &there->cost[candidate];
    if ((int)i == regions->own || !tc_region_cost_complete(a) || !tc_region_cost_complete(b) ||
        !(from->rate > 0) || !(to->rate > 0))
        return false;
    move->region = i;
    move->more = tc_money_subtract(tc_conversion_money(to, b->present_value, status),
                                   tc_conversion_money(from, a->present_value, status), status);
    for (int line = 0; line < TC_REGION_COST_LINES; line++)
        move->line[line] = (double)tc_conversion_money(to, b->line[line], status) -
                           (double)tc_conversion_money(from, a->line[line], status);
    return true;
}

/* ", mainly energy (+402.10) and stand (+31.00)": the lines that make it so. */
static const char *mainly(struct tc_sheet *sheet, const struct tc_region_costs *regions,
                          const struct move *move)
{
    const char *text = "";
    int told = -1;
    for (int n = 0; n < 2; n++) {
        int most = -1;
        for (int line = 0; line < TC_REGION_COST_LINES; line++) {
            bool same_way = (move->line[line] > 0) == (move->more > 0);
            if (line != told && same_way && (most < 0 || fabs(move->line[line]) > fabs(move->line[most])))
                most = line;
        }
        if (most < 0 || fabs(move->line[most]) < 0.1 * fabs((double)move->more))
            break;
        char number[TC_NUMBER_SIZE];
        tc_number_write_fixed(number, (tc_money)fabs(move->line[most]), regions->money.exponent, true);
        text = tc_sheet_format(sheet, "%s%s%s (%s)", text, n == 0 ? ", mainly for " : " and ",
                               tc_region_cost_line_name(most), number);
        told = most;
    }
    return text;
}

static void note_move(struct tc_sheet *sheet, const struct tc_region_costs *regions, int candidate,
                      const struct move *move)
{
    char more[TC_WORDS_SIZE];
    const char *name = regions->local[move->region].name;
    const char *head = regions->local[regions->own].cost[candidate].head;
    tc_phrase_money(more, move->more < 0 ? -move->more : move->more, regions->money);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s costs %s %s to own in %s than here%s.", head, more,
                  move->more < 0 ? "less" : "more", name, mainly(sheet, regions, move));
}

/* Where the plan's own region is not among them: what is the cheapest of all. */
static enum tc_status note_cheapest(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    enum tc_status status = TC_OK;
    int best = -1;
    tc_money least = 0;
    char value[TC_WORDS_SIZE];
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *local = &regions->local[i];
        if (local->best < 0 || !(regions->conversion[i].rate > 0))
            continue;
        tc_money money =
            tc_conversion_money(&regions->conversion[i], local->cost[local->best].present_value, &status);
        if (best < 0 || money < least) {
            best = (int)i;
            least = money;
        }
    }
    if (best >= 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s in %s is the cheapest of all to own: %s.",
                      regions->local[best].cost[regions->local[best].best].head, regions->local[best].name,
                      tc_phrase_money(value, least, regions->money));
    return status;
}

/* Where none of them suits at home, why not the first one. */
static void note_unfit_here(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    const struct tc_region_line_cost *cost = regions->local[regions->own].cost;
    for (int c = 0; c < TC_CANDIDATES_MAX; c++)
        if (cost[c].there && !cost[c].suits) {
            tc_sheet_note(sheet, TC_NOTE_FINDING, "Here none of these suits the animals: %s is %s.",
                          cost[c].head, tc_need_word(cost[c].lacks));
            return;
        }
}

/* The tank one would have at home, taken along: what it costs more there. Of many places the two ends. */
static enum tc_status note_moves(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    enum tc_status status = TC_OK;
    struct move least = {.region = SIZE_MAX}, most = {.region = SIZE_MAX}, move;
    if (regions->own < 0)
        return note_cheapest(sheet, regions);
    if (regions->local[regions->own].best < 0) {
        note_unfit_here(sheet, regions);
        return note_cheapest(sheet, regions);
    }
    int candidate = regions->local[regions->own].best;
    for (size_t i = 0; i < regions->count; i++) {
        if (!move_of(regions, i, candidate, &move, &status))
            continue;
        if (least.region == SIZE_MAX || move.more < least.more)
            least = move;
        if (most.region == SIZE_MAX || move.more > most.more)
            most = move;
    }
    if (most.region != SIZE_MAX)
        note_move(sheet, regions, candidate, &most);
    if (least.region != most.region)
        note_move(sheet, regions, candidate, &least);
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
                      "In %s %s is the better buy, but the cost of %s is not known in %s.", there->name,
                      winner_head, gone ? loser_head : winner_head, gone ? there->name : here->name);
        return;
    }
    char a[TC_WORDS_SIZE], b[TC_WORDS_SIZE];
    int line = tc_places_moving_line(regions, (size_t)base, i, winner, loser);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "In %s %s is the better buy, mainly for %s: it is %s %s there, %s %s%s.", there->name,
                  winner_head, tc_region_cost_line_name(line), above_or_below(b, there, line, winner, loser),
                  loser_head, above_or_below(a, here, line, winner, loser), base == regions->own ? "" : "in ",
                  base == regions->own ? "here" : here->name);
}

/* The tank that is best elsewhere does not suit there: what does. False where it suits, or is not known. */
static bool note_unfit(struct tc_sheet *sheet, const struct tc_region_cost *there, int candidate)
{
    const struct tc_region_line_cost *cost = &there->cost[candidate];
    if (!cost->there || cost->suits)
        return false;
    if (there->best >= 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "In %s %s is %s%s; take %s there.", there->name, cost->head,
                      tc_need_word(cost->lacks), tc_need_for(cost->lacks), there->cost[there->best].head);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING, "In %s none of these suits the animals: %s is %s.", there->name,
                      cost->head, tc_need_word(cost->lacks));
    return true;
}

/* One that costs about as little there has not lost. */
static bool stays_right(const struct tc_region_cost *there, int candidate)
{
    return tc_region_cost_complete(&there->cost[candidate]) && there->cost[candidate].suits &&
           tc_same_cost(there->cost[candidate].present_value, there->cost[there->best].present_value);
}

static void note_changes(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    int base = base_of(regions), alike = 0;
    const char *names = "";
    if (base < 0)
        return;
    int best = regions->local[base].best;
    for (size_t i = 0; i < regions->count; i++) {
        const struct tc_region_cost *there = &regions->local[i];
        if ((int)i == base || note_unfit(sheet, there, best) || there->best < 0)
            continue;
        if (!stays_right(there, best)) {
            note_change(sheet, regions, base, i);
            continue;
        }
        names = tc_sheet_format(sheet, "%s%s%s", names, alike > 0 ? " and " : "", there->name);
        alike++;
    }
    const char *head = regions->local[base].cost[best].head;
    if (alike > 0 && alike == (int)regions->count - 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s is right in all these places: none is cheaper there by more than 2 %%.", head);
    else if (alike == 1 || alike == 2)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s is right in %s too: none is cheaper there by more than 2 %%.", head, names);
    else if (alike > 2)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s is right in %d of the other places too.", head, alike);
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
                     i < 0 ? "tank" : tc_slot_word((enum tc_slot)i));
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
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Amounts in %s are converted at the rates the profiles quote, with the date of the "
                      "oldest rate used; "
                      "a bank takes its fee on top.",
                      regions->money.code);
    if (any_typed_price(plan))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Prices typed by hand hold in %s alone: elsewhere all is bought new at what that place "
                      "asks.",
                      plan->region);
    if (any_named_sale(regions))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "A sale counts in its own region only; elsewhere the tank is bought the cheapest way "
                      "there today, list price or sale.");
    if (any_assumption(plan))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Figures you changed for the region count in %s only, those for the setup everywhere.",
                      plan->region);
    for (size_t i = 0; i < regions->count; i++)
        tc_note_unpriced_extras(sheet, regions->study, regions->local[i].name, regions->local[i].currency);
    for (size_t i = 0; i < regions->count; i++)
        if (regions->local[i].is_template)
            tc_sheet_note(
                sheet, TC_NOTE_REMARK,
                "%s is a template: its tariff is a public average, to be replaced by your own bill's.",
                regions->local[i].name);
    if (regions->templates > 0)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "%d region template%s not filled in yet %s left out; `tankcost check` lists what is missing.",
            regions->templates, regions->templates == 1 ? " that is" : "s that are",
            regions->templates == 1 ? "is" : "are");
}

enum tc_status tc_places_notes(struct tc_sheet *sheet, const struct tc_region_costs *regions)
{
    enum tc_status status = note_moves(sheet, regions);
    note_changes(sheet, regions);
    note_gaps(sheet, regions);
    note_basis(sheet, regions);
    return status;
}
