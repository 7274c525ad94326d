/* SPDX-License-Identifier: MIT */
#include "sheet/verdict.h"

#include <stdio.h>
#include <string.h>

#include "sheet/advantage.h"
#include "sheet/left_out.h"
#include "sheet/phrase.h"

static const char *period(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    char years[TC_WORDS_SIZE];
    return tc_sheet_copy(sheet, tc_phrase_years(years, advice->study->plan.years));
}

static tc_money more_than_best(const struct tc_advice *advice, int i)
{
    enum tc_status status = TC_OK; /* both are amounts of one bill: far within bounds */
    return tc_money_subtract(tc_advice_present(advice, i), tc_advice_present(advice, advice->best), &status);
}

static bool ties_with_best(const struct tc_advice *advice, int i)
{
    return i != advice->best && tc_rating_compared(&advice->rating[i]) &&
           tc_advice_same(advice, advice->best, i);
}

/* "20-high and 20-long", "20-high, 20-long and 29-high", "20-high and 4 others": those that tie with the
 * best. */
static const char *tied_names(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const char *text = tc_advice_head(sheet, advice, advice->best);
    int told = 1;
    if (advice->tied > 3)
        return tc_sheet_format(sheet, "%s and %d others", text, advice->tied - 1);
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (ties_with_best(advice, i))
            text = tc_sheet_format(sheet, "%s%s%s", text, ++told == advice->tied ? " and " : ", ",
                                   tc_advice_head(sheet, advice, i));
    return text;
}

static bool all_tied_alike(const struct tc_advice *advice)
{
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (ties_with_best(advice, i) && !tc_advice_alike(advice, advice->best, i))
            return false;
    return true;
}

/* A sentence that starts with how a wall is called starts with a capital. */
static void start_with_capitals(struct tc_sheet *sheet, size_t first)
{
    for (size_t i = first; i < sheet->note_count; i++)
        if (sheet->notes[i].kind == TC_NOTE_FINDING && strncmp(sheet->notes[i].text, "the wall ", 9) == 0)
            sheet->notes[i].text = tc_sheet_format(sheet, "T%s", sheet->notes[i].text + 1);
}

/* ------------------------------------------------------------------------------ which one */

/* "All 3", "The cheapest 3": in the middle of a sentence in small letters. */
static const char *several_alike(struct tc_sheet *sheet, const struct tc_advice *advice, bool within)
{
    const char *which = advice->tied == advice->compared ? "All" : "The cheapest";
    return tc_sheet_format(sheet, "%c%s %d", within ? which[0] + 'a' - 'A' : which[0], which + 1,
                           advice->tied);
}

static void tell_tie(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    int best = advice->best, next = advice->next;
    const char *among = tc_left_out_among(sheet, advice);
    const char *low = tc_advice_amount(sheet, study, tc_advice_present(advice, best));
    const char *high = tc_advice_money(sheet, study, tc_advice_present(advice, next));
    if (all_tied_alike(advice))
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "%s%s are alike in size: take %s, the cheapest at %s to own over %s, %s less than the next.",
            among, advice->tied > 2 ? several_alike(sheet, advice, *among != 0) : tied_names(sheet, advice),
            tc_advice_head(sheet, advice, best),
            tc_advice_money(sheet, study, tc_advice_present(advice, best)), period(sheet, advice),
            tc_advice_amount(sheet, study, more_than_best(advice, next)));
    else if (tc_advice_toss_up(advice, best, next))
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s is a toss-up between %s: your guesses are too wide to tell the cheaper (%s or "
                      "%s over %s).",
                      *among ? tc_sheet_format(sheet, "%sit", among) : "It", tied_names(sheet, advice), low,
                      high, period(sheet, advice));
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s%s cost about the same to own over %s, %s and %s: choose by shape.", among,
                      tied_names(sheet, advice), period(sheet, advice), low, high);
}

static void tell_cheapest(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    int best = advice->best, next = advice->next;
    const char *among = tc_left_out_among(sheet, advice);
    const char *winner = tc_advice_head(sheet, advice, best), *rival = tc_advice_head(sheet, advice, next);
    tc_money gap = more_than_best(advice, next);
    if (advice->rating[next].beaten_by == best)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s %s: %s costs %s more to own over %s and gives nothing more.",
                      *among ? tc_sheet_format(sheet, "%stake", among) : "Take", winner, rival,
                      tc_advice_money(sheet, study, gap), period(sheet, advice));
    else if (tc_advice_unlike(advice, best, next))
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s%s costs %s less to own over %s than %s, but is not the same thing: %s has %s.",
                      among, winner, tc_advice_money(sheet, study, gap), period(sheet, advice), rival, rival,
                      tc_advantage_water(sheet, advice, next, best));
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s%s is the cheapest to own over %s: %s, %s less than %s.",
                      among, winner, period(sheet, advice),
                      tc_advice_money(sheet, study, tc_advice_present(advice, best)),
                      tc_advice_amount(sheet, study, gap), rival);
}

/* The unit in which a goal is counted: "gallon", with what of it is one. */
static const char *goal_unit(const struct tc_advice *advice, double *unit)
{
    bool us = advice->study->units == TC_US;
    switch (advice->goal) {
    case TC_GOAL_COST: break;
    case TC_GOAL_WATER: *unit = us ? 3.785411784e-3 : 1e-3; return us ? "gallon" : "liter";
    case TC_GOAL_BOTTOM: *unit = us ? 0.3048 * 0.3048 : 0.01; return us ? "square foot" : "square decimeter";
    case TC_GOAL_LENGTH: *unit = us ? 0.0254 : 0.01; return us ? "inch" : "centimeter";
    case TC_GOAL_TANKS: *unit = 1; return "tank";
    }
    *unit = 1;
    return "";
}

static tc_money goal_money(const struct tc_advice *advice, int i)
{
    double unit;
    enum tc_status status = TC_OK;
    goal_unit(advice, &unit);
    return tc_money_round(advice->rating[i].score * unit, &status);
}

/* The best by the goal, where that is not cost alone. */
static void tell_goal(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    double unit;
    const char *name = goal_unit(advice, &unit), *among = tc_left_out_among(sheet, advice);
    const char *best = tc_advice_money(sheet, study, goal_money(advice, advice->best));
    const char *next = tc_advice_amount(sheet, study, goal_money(advice, advice->next));
    const char *a = name[0] == 'i' ? "an" : "a";
    if (advice->tied > 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s%s give about the same %s for their cost: %s %s %s over %s, and %s.", among,
                      tied_names(sheet, advice), tc_goal_word(advice->goal), best, a, name,
                      period(sheet, advice), next);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s%s gives the most %s for its cost: %s %s %s over %s; %s costs %s.", among,
                      tc_advice_head(sheet, advice, advice->best), tc_goal_word(advice->goal), best, a, name,
                      period(sheet, advice), tc_advice_head(sheet, advice, advice->next), next);
}

/* One alone: there is nothing to compare it with. */
static void tell_alone(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    bool only = study->alternative_count > 1;
    tc_sheet_note(
        sheet, TC_NOTE_FINDING, "%s%s costs %s to own over %s, %s of that up front.", only ? "Only " : "",
        only ? tc_sheet_format(sheet, "%s is left; it", tc_advice_head(sheet, advice, advice->best))
             : tc_advice_head(sheet, advice, advice->best),
        tc_advice_money(sheet, study, tc_advice_present(advice, advice->best)), period(sheet, advice),
        tc_advice_amount(sheet, study, study->alternatives[advice->best].cost.to_buy));
}

/* Nothing to recommend: why, and what is cheapest all the same. */
static void tell_none(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    int cheapest = -1;
    for (int i = 0; i < study->alternative_count; i++)
        if (advice->rating[i].complete &&
            (cheapest < 0 || tc_advice_present(advice, i) < tc_advice_present(advice, cheapest)))
            cheapest = i;
    tc_left_out_tell(sheet, advice);
    if (cheapest >= 0)
        tc_sheet_note(
            sheet, TC_NOTE_FINDING, "%s %s %s to own over %s.", tc_advice_head(sheet, advice, cheapest),
            study->alternative_count > 1 ? "would be the cheapest:" : "would cost",
            tc_advice_money(sheet, study, tc_advice_present(advice, cheapest)), period(sheet, advice));
}

/* ------------------------------------------------------------------- what more money buys */

/* " (13.98 for each extra gallon)": what each unit of more water costs; "" where there is hardly more. */
static const char *price_of_more(struct tc_sheet *sheet, const struct tc_advice *advice, int more,
                                 tc_money extra)
{
    bool us = advice->study->units == TC_US;
    const struct tc_merits *x = &advice->rating[more].merits, *y = &advice->rating[advice->best].merits;
    double water = x->of[TC_RESPECT_WATER] - y->of[TC_RESPECT_WATER];
    double unit = us ? 3.785411784e-3 : 1e-3;
    enum tc_status status = TC_OK;
    if (!(water > 0.05 * y->of[TC_RESPECT_WATER]))
        return "";
    return tc_sheet_format(
        sheet, " (%s for each extra %s)",
        tc_advice_amount(sheet, advice->study, tc_money_round((double)extra / (water / unit), &status)),
        us ? "gallon" : "liter");
}

/* What the extra money for one buys; by_water: how much more water it is has been said. */
static void tell_extra(struct tc_sheet *sheet, const struct tc_advice *advice, int i, bool by_water)
{
    tc_money extra = more_than_best(advice, i);
    const char *has = tc_advantage_words(sheet, advice, i, advice->best,
                                         by_water ? TC_ADVANTAGES_BUT_WATER : TC_ADVANTAGES_ALL);
    if (*has && extra > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "For %s more than %s%s, %s %s.",
                      tc_advice_money(sheet, advice->study, extra),
                      tc_advice_head(sheet, advice, advice->best), price_of_more(sheet, advice, i, extra),
                      tc_advice_head(sheet, advice, i), has);
}

/* What sets the next one apart: of a tie what each has, else what the extra money buys. */
static void tell_trade(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    int best = advice->best, next = advice->next;
    if (next < 0 || advice->rating[next].beaten_by == best || tc_advice_alike(advice, best, next))
        return;
    const char *has = tc_advantage_words(sheet, advice, next, best, TC_ADVANTAGES_ALL);
    const char *lacks = tc_advantage_words(sheet, advice, best, next, TC_ADVANTAGES_ALL);
    if (tc_advice_same(advice, best, next) && *has && *lacks)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s %s; %s %s.", tc_advice_head(sheet, advice, next), has,
                      tc_advice_head(sheet, advice, best), lacks);
    else
        tell_extra(sheet, advice, next, advice->goal == TC_GOAL_COST && tc_advice_unlike(advice, best, next));
}

/* Where the first ones tie: the next one up that no other beats. */
static void tell_step_up(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    int step = -1;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i]) && i != advice->best && i != advice->next &&
            !ties_with_best(advice, i) && advice->rating[i].beaten_by < 0 &&
            (step < 0 || advice->rating[i].score < advice->rating[step].score))
            step = i;
    if (advice->tied > 1 && step >= 0)
        tell_extra(sheet, advice, step, false);
}

/* Those that another one beats, but for the next one, of which it has been said. */
static void tell_beaten(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const char *names = "";
    int count = 0;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i]) && i != advice->next && advice->rating[i].beaten_by >= 0 &&
            !(ties_with_best(advice, i) && tc_advice_alike(advice, advice->best, i)) && ++count <= 2)
            names = tc_sheet_format(sheet, "%s%s%s", names, *names ? " and " : "",
                                    tc_advice_head(sheet, advice, i));
    if (count > 2)
        names = tc_sheet_format(sheet, "%d others", count);
    if (count > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "Pass over %s: another one costs less and is as good in everything.", names);
}

static void tell_equipment(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    if (advice->next < 0 || advice->study->alternatives[advice->best].index < 0)
        return;
    const char *words = tc_advantage_equipment(sheet, advice, advice->best, advice->next);
    if (*words)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s.", words);
}

void tc_verdict_tell_trade(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    if (advice->best < 0 || advice->next < 0)
        return;
    tell_trade(sheet, advice);
    tell_equipment(sheet, advice);
}

void tc_verdict_tell(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    size_t first = sheet->note_count;
    if (advice->study->alternative_count == 0)
        return;
    if (advice->compared == 0)
        tell_none(sheet, advice);
    else if (advice->compared == 1)
        tell_alone(sheet, advice);
    else if (advice->goal != TC_GOAL_COST)
        tell_goal(sheet, advice);
    else if (advice->tied > 1)
        tell_tie(sheet, advice);
    else
        tell_cheapest(sheet, advice);
    if (advice->compared > 0)
        tc_left_out_tell(sheet, advice);
    if (advice->best >= 0) {
        tell_trade(sheet, advice);
        tell_step_up(sheet, advice);
        tell_beaten(sheet, advice);
        tell_equipment(sheet, advice);
    }
    start_with_capitals(sheet, first);
}
