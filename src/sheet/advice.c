/* SPDX-License-Identifier: MIT */
#include "sheet/advice.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "sheet/phrase.h"

enum { FACTS_TOLD = 2, NAMED = 2 };

static const double SAME_SHARE = 0.02, CHANCE_LOW = 0.2, CHANCE_HIGH = 0.8, NOTABLE = 0.05;

/* How an alternative is called in a sentence: a tank by its name, a wall by the name of its layout in quotes.
 */
static const char *head(struct tc_sheet *sheet, const struct tc_advice *advice, int i)
{
    const struct tc_alternative *alternative = &advice->study->alternatives[i];
    if (alternative->index < 0)
        return tc_sheet_format(sheet, "the wall \"%s\"", alternative->head);
    return alternative->head;
}

/* ------------------------------------------------------------------------------- rating */

bool tc_same_cost(tc_money a, tc_money b)
{
    double lower = a < b ? (double)a : (double)b;
    return fabs((double)a - (double)b) <= SAME_SHARE * fabs(lower);
}

static struct tc_merits merits_of(const struct tc_alternative *alternative)
{
    const struct tc_tank_size *size = &alternative->equipment.size;
    int quantity = alternative->plan ? alternative->plan->quantity : 1;
    return (struct tc_merits){{
        [TC_RESPECT_COST] = (double)alternative->cost.present_value,
        [TC_RESPECT_WATER] = quantity * size->water_volume,
        [TC_RESPECT_BOTTOM] = quantity * size->bottom_area,
        [TC_RESPECT_SWIM] = size->swim_length,
        [TC_RESPECT_REACH] = size->reach,
        [TC_RESPECT_WALL] = quantity * alternative->c.tank.length,
    }};
}

static bool compared(const struct tc_rating *rating)
{
    return rating->complete && rating->suits;
}

static bool ranks_before(const struct tc_advice *advice, int a, int b)
{
    return b < 0 || advice->rating[a].score < advice->rating[b].score;
}

/* True if the alternatives' costs count as the same. */
static bool costs_same(const struct tc_advice *advice, int a, int b)
{
    const struct tc_rating *x = &advice->rating[a], *y = &advice->rating[b];
    double chance = advice->bands.chance[a][b];
    if (advice->goal == TC_GOAL_COST && chance >= CHANCE_LOW && chance <= CHANCE_HIGH) /* false for NAN */
        return true;
    return fabs(x->score - y->score) <= SAME_SHARE * fmin(fabs(x->score), fabs(y->score));
}

static void rank(struct tc_advice *advice)
{
    advice->best = advice->next = -1;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (compared(&advice->rating[i])) {
            advice->compared++;
            if (ranks_before(advice, i, advice->best))
                advice->best = i;
        }
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (compared(&advice->rating[i]) && i != advice->best && ranks_before(advice, i, advice->next))
            advice->next = i;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (compared(&advice->rating[i]) && (i == advice->best || costs_same(advice, advice->best, i)))
            advice->tied++;
}

/* Who is beaten in everything: among those compared only. */
static enum tc_status find_beaten(struct tc_advice *advice)
{
    struct tc_merits merits[TC_CANDIDATES_MAX] = {{{0}}};
    int index[TC_CANDIDATES_MAX], beaten_by[TC_CANDIDATES_MAX], count = 0;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (compared(&advice->rating[i])) {
            merits[count] = advice->rating[i].merits;
            index[count++] = i;
        }
    enum tc_status status = tc_dominance_find(merits, (size_t)count, beaten_by);
    for (int k = 0; status == TC_OK && k < count; k++)
        advice->rating[index[k]].beaten_by = beaten_by[k] < 0 ? -1 : index[beaten_by[k]];
    return status;
}

enum tc_status tc_advice_make(struct tc_advice *advice, const struct tc_study *study)
{
    *advice = (struct tc_advice){.study = study, .goal = study->plan.goal, .best = -1, .next = -1};
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        struct tc_rating *rating = &advice->rating[i];
        *rating = (struct tc_rating){
            .complete = !alternative->cost.incomplete,
            .suits = alternative->index < 0 || alternative->suit.suits,
            .beaten_by = -1,
            .merits = merits_of(alternative),
        };
        rating->score = tc_goal_score(&rating->merits, advice->goal);
    }
    enum tc_status status = tc_bands_find(&advice->bands, study);
    if (status == TC_OK)
        status = find_beaten(advice);
    rank(advice);
    return status;
}

/* -------------------------------------------------------------------------- who is left out */

static const char *need_words(enum tc_need need)
{
    switch (need) {
    case TC_NEED_LENGTH: return "too short for the animals";
    case TC_NEED_BOTTOM: return "too small for the animals";
    case TC_NEED_HEIGHT: return "too low for the animals";
    case TC_NEED_LOW: return "too high for the animals";
    case TC_NEED_REACH: return "too deep to reach down";
    case TC_NEED_COOL: return "too warm for the animals";
    case TC_NEED_COUNT: break;
    }
    return "";
}

static const char *need_amount(char *words, enum tc_need need, double amount, enum tc_unit_system units)
{
    if (need == TC_NEED_BOTTOM)
        return tc_unit_quantity_write(words, amount, TC_DIM_AREA, units, 0);
    if (need == TC_NEED_COOL)
        return tc_unit_quantity_write(words, amount, TC_DIM_TEMPERATURE, units, 0);
    return tc_phrase_length(words, amount, units);
}

/* Why the tank does not suit, "too short for the animals (19¾ in, they need 22 in)"; "" where it does. */
static char *unfit_words(char *words, const struct tc_study *study, const struct tc_alternative *alternative)
{
    char have[TC_WORDS_SIZE], wanted[TC_WORDS_SIZE];
    words[0] = '\0';
    for (int i = 0; i < alternative->suit.lack_count; i++) {
        const struct tc_lack *lack = &alternative->suit.lack[i];
        if (lack->accepted)
            continue;
        need_amount(have, lack->need, lack->have, study->units);
        need_amount(wanted, lack->need, lack->wanted, study->units);
        snprintf(words, TC_WORDS_SIZE, "%s (%.40s, %s %.40s)", need_words(lack->need), have,
                 lack->at_most ? "at most" : "they need", wanted);
        break;
    }
    return words;
}

/* Why its cost is not known, with what would mend it; a clause that ends a sentence. */
static const char *lack_of(struct tc_sheet *sheet, const struct tc_alternative *alternative)
{
    if (!alternative->prices.deal.known)
        return "it has no price here; type the one asked";
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        if (alternative->equipment.slot[slot].missing)
            return tc_sheet_format(sheet, "no %s on offer fits; type the price of one that does",
                                   tc_slot_name(slot));
        if (tc_phrase_unpriced(alternative, slot))
            return tc_sheet_format(sheet, "its %s has no price here; type one", tc_slot_name(slot));
    }
    return "some of its figures are missing";
}

static const char *fault_of(struct tc_sheet *sheet, const struct tc_advice *advice, int i)
{
    char words[TC_WORDS_SIZE];
    const struct tc_alternative *alternative = &advice->study->alternatives[i];
    if (!advice->rating[i].suits)
        return tc_sheet_format(sheet, "it is %s", unfit_words(words, advice->study, alternative));
    return lack_of(sheet, alternative);
}

void tc_advice_left_out(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    int told = 0, more = 0;
    for (int i = 0; i < advice->study->alternative_count; i++) {
        if (compared(&advice->rating[i]))
            continue;
        if (told == NAMED)
            more++;
        else
            tc_sheet_note(sheet, TC_NOTE_FINDING, "%s is left out: %s.", head(sheet, advice, i),
                          fault_of(sheet, advice, i));
        told += told < NAMED;
    }
    if (more > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%d more %s left out; the notes say why.", more,
                      more == 1 ? "is" : "are");
}

/* ------------------------------------------------------------------------------ what is better */

/* One thing that a tank has over another. */
struct fact {
    double share;     /* of the other's */
    const char *text; /* after "gives", or after nothing where it has a verb */
    bool verb;
};

static void add_fact(struct fact *facts, int *count, struct fact fact)
{
    int at = *count;
    if (!(fact.share >= NOTABLE))
        return;
    while (at > 0 && facts[at - 1].share < fact.share)
        at--;
    if (at >= FACTS_TOLD)
        return;
    for (int i = *count < FACTS_TOLD ? *count : FACTS_TOLD - 1; i > at; i--)
        facts[i] = facts[i - 1];
    facts[at] = fact;
    if (*count < FACTS_TOLD)
        (*count)++;
}

static double height_for_plants(const struct tc_alternative *alternative)
{
    const struct tc_setup *setup = alternative->c.setup;
    return alternative->equipment.size.water_depth - setup->bed_depth;
}

/* The most telling things that alternative a has over b. */
static int facts_of(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b,
                    struct fact facts[FACTS_TOLD])
{
    const struct tc_study *study = advice->study;
    const struct tc_merits *x = &advice->rating[a].merits, *y = &advice->rating[b].merits;
    char more[TC_WORDS_SIZE], less[TC_WORDS_SIZE];
    int count = 0;
    static const struct {
        enum tc_respect respect;
        const char *name;
    } areas[] = {{TC_RESPECT_WATER, "water"}, {TC_RESPECT_BOTTOM, "bottom"}};
    for (int i = 0; i < 2; i++) {
        double have = x->of[areas[i].respect], had = y->of[areas[i].respect];
        double share = had > 0 ? have / had - 1 : 0;
        add_fact(facts, &count,
                 (struct fact){share, tc_sheet_format(sheet, "%.0f %% more %s", 100 * share, areas[i].name),
                               false});
    }
    double swim = x->of[TC_RESPECT_SWIM], swum = y->of[TC_RESPECT_SWIM];
    add_fact(facts, &count,
             (struct fact){
                 swum > 0 ? swim / swum - 1 : 0,
                 tc_sheet_format(sheet, "%s more to swim", tc_phrase_length(more, swim - swum, study->units)),
                 false});
    double high = height_for_plants(&study->alternatives[a]),
           low = height_for_plants(&study->alternatives[b]);
    add_fact(facts, &count,
             (struct fact){low > 0 ? high / low - 1 : 0,
                           tc_sheet_format(sheet, "%s more height for plants",
                                           tc_phrase_length(more, high - low, study->units)),
                           false});
    double near = x->of[TC_RESPECT_REACH], far = y->of[TC_RESPECT_REACH];
    add_fact(facts, &count,
             (struct fact){far > 0 ? 1 - near / far : 0,
                           tc_sheet_format(sheet, "an easier reach (%s, not %s)",
                                           tc_phrase_length(less, near, study->units),
                                           tc_phrase_length(more, far, study->units)),
                           false});
    double narrow = x->of[TC_RESPECT_WALL], wide = y->of[TC_RESPECT_WALL];
    add_fact(facts, &count,
             (struct fact){wide > 0 ? 1 - narrow / wide : 0,
                           tc_sheet_format(sheet, "saves %s of wall",
                                           tc_phrase_length(less, wide - narrow, study->units)),
                           true});
    return count;
}

/* "gives 25 % more bottom and 6 in more to swim", "gives 8 % more water and saves 6 in of wall"; "" for none.
 */
static const char *gives(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b)
{
    struct fact facts[FACTS_TOLD];
    int count = facts_of(sheet, advice, a, b, facts);
    const char *text = "";
    for (int pass = 0; pass < 2; pass++) /* what is given stands before the verbs */
        for (int i = 0; i < count; i++)
            if (facts[i].verb == (pass == 1))
                text = tc_sheet_format(sheet, "%s%s%s%s", text, *text ? " and " : "",
                                       !*text && !facts[i].verb ? "gives " : "", facts[i].text);
    return text;
}

/* ---------------------------------------------------------------------------------- findings */

static const char *money(struct tc_sheet *sheet, const struct tc_study *study, tc_money amount)
{
    char words[TC_WORDS_SIZE];
    return tc_sheet_copy(sheet, tc_phrase_money(words, amount, study->region.currency));
}

/* The amount alone, where the currency stands beside another one of the sentence. */
static const char *amount(struct tc_sheet *sheet, const struct tc_study *study, tc_money money)
{
    char number[TC_NUMBER_SIZE];
    return tc_sheet_copy(sheet, tc_number_write_fixed(number, money, study->region.currency.exponent, true));
}

static tc_money present(const struct tc_advice *advice, int i)
{
    return advice->study->alternatives[i].cost.present_value;
}

/* "20-high and 20-long", "20-high, 20-long and 29-high", "all five of them": those that tie with the best. */
static const char *tied_names(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const char *text = head(sheet, advice, advice->best);
    int told = 1;
    if (advice->tied > 3)
        return tc_sheet_format(sheet, "%s and %d others", text, advice->tied - 1);
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (i != advice->best && compared(&advice->rating[i]) && costs_same(advice, advice->best, i))
            text = tc_sheet_format(sheet, "%s%s%s", text, ++told == advice->tied ? " and " : ", ",
                                   head(sheet, advice, i));
    return text;
}

static void tell_tie(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    char years[TC_WORDS_SIZE];
    tc_phrase_years(years, study->plan.years);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s cost about the same to own over %s, %s and %s: choose by %s.",
                  tied_names(sheet, advice), years, amount(sheet, study, present(advice, advice->best)),
                  money(sheet, study, present(advice, advice->next)),
                  *gives(sheet, advice, advice->best, advice->next) ||
                          *gives(sheet, advice, advice->next, advice->best)
                      ? "shape"
                      : "what you like");
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
    static const char *const goods[] = {"", "water", "bottom", "length to swim"};
    const struct tc_study *study = advice->study;
    double unit;
    char years[TC_WORDS_SIZE];
    const char *name = goal_unit(advice, &unit);
    const char *best = money(sheet, study, goal_money(advice, advice->best));
    const char *next = amount(sheet, study, goal_money(advice, advice->next));
    tc_phrase_years(years, study->plan.years);
    if (advice->tied > 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s give about the same %s for their cost: %s a %s over %s, and %s.",
                      tied_names(sheet, advice), goods[advice->goal], best, name, years, next);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s gives the most %s for its cost: %s a%s %s over %s; %s costs %s.",
                      head(sheet, advice, advice->best), goods[advice->goal], best, name[0] == 'i' ? "n" : "",
                      name, years, head(sheet, advice, advice->next), next);
}

/* One alone: there is nothing to compare it with. */
static void tell_alone(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    char years[TC_WORDS_SIZE];
    tc_phrase_years(years, study->plan.years);
    bool only = study->alternative_count > 1;
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s%s%s costs %s to own over %s, %s of that up front.",
                  only ? "Only " : "", head(sheet, advice, advice->best), only ? " is left; it" : "",
                  money(sheet, study, present(advice, advice->best)), years,
                  amount(sheet, study, study->alternatives[advice->best].cost.to_buy));
}

/* Nothing to recommend: why, and what is cheapest all the same. */
static void tell_none(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    int cheapest = -1, complete = 0;
    for (int i = 0; i < study->alternative_count; i++)
        if (advice->rating[i].complete) {
            complete++;
            if (cheapest < 0 || present(advice, i) < present(advice, cheapest))
                cheapest = i;
        }
    if (study->alternative_count == 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s %s: %s.", head(sheet, advice, 0),
                      complete > 0 ? "does not suit this setup" : "cannot be priced yet",
                      fault_of(sheet, advice, 0));
    else if (complete > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "None of these suits the animals of setup %s.",
                      study->setup.name);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING, "There is no answer yet: every one of these lacks a price.");
    if (study->alternative_count > 1)
        tc_advice_left_out(sheet, advice);
    if (complete > 0 && study->alternative_count > 1) {
        char years[TC_WORDS_SIZE];
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Cheapest all the same is %s: %s to own over %s.",
                      head(sheet, advice, cheapest), money(sheet, study, present(advice, cheapest)),
                      tc_phrase_years(years, study->plan.years));
    }
}

static void tell_cheapest(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const struct tc_study *study = advice->study;
    enum tc_status status = TC_OK;
    char years[TC_WORDS_SIZE];
    tc_money gap = tc_money_subtract(present(advice, advice->next), present(advice, advice->best), &status);
    tc_phrase_years(years, study->plan.years);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s is the cheapest to own over %s: %s, %s less than %s.",
                  head(sheet, advice, advice->best), years,
                  money(sheet, study, present(advice, advice->best)), amount(sheet, study, gap),
                  head(sheet, advice, advice->next));
}

/* "(13.98 USD a gallon)": what each unit of more water, or of more bottom, costs; "" where there is no more.
 */
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
        sheet, ": %s a %s more",
        amount(sheet, advice->study, tc_money_round((double)extra / (water / unit), &status)),
        us ? "gallon" : "liter");
}

/* What sets the next one apart: of a tie what each has, else what the extra money buys. */
static void tell_trade(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    int best = advice->best, next = advice->next;
    enum tc_status status = TC_OK;
    if (next < 0)
        return;
    const char *has = gives(sheet, advice, next, best), *lacks = gives(sheet, advice, best, next);
    tc_money extra = tc_money_subtract(present(advice, next), present(advice, best), &status);
    if (costs_same(advice, best, next) && *has && *lacks)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s %s; %s %s.", head(sheet, advice, next), has,
                      head(sheet, advice, best), lacks);
    else if (*has && extra > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "For %s more, %s %s%s.", money(sheet, advice->study, extra),
                      head(sheet, advice, next), has, price_of_more(sheet, advice, next, extra));
    else if (advice->rating[next].beaten_by == best && extra > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s costs more and gives nothing more than %s.",
                      head(sheet, advice, next), head(sheet, advice, best));
}

/* Those that another one beats, but for the next one, of which it has been said. */
static void tell_beaten(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    const char *names = "";
    int count = 0;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (compared(&advice->rating[i]) && i != advice->next && advice->rating[i].beaten_by >= 0 &&
            ++count <= 2)
            names = tc_sheet_format(sheet, "%s%s%s", names, *names ? " and " : "", head(sheet, advice, i));
    if (count > 2)
        names = tc_sheet_format(sheet, "%d others", count);
    if (count > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "Pass over %s: another one costs less and is at least as good in everything.", names);
}

/* A sentence that starts with how a wall is called starts with a capital. */
static void start_with_capitals(struct tc_sheet *sheet)
{
    for (size_t i = 0; i < sheet->note_count; i++)
        if (sheet->notes[i].kind == TC_NOTE_FINDING && strncmp(sheet->notes[i].text, "the wall ", 9) == 0)
            sheet->notes[i].text = tc_sheet_format(sheet, "T%s", sheet->notes[i].text + 1);
}

static void tell(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    if (advice->compared == 0) {
        tell_none(sheet, advice);
        return;
    }
    if (advice->compared == 1)
        tell_alone(sheet, advice);
    else if (advice->goal != TC_GOAL_COST)
        tell_goal(sheet, advice);
    else if (advice->tied > 1)
        tell_tie(sheet, advice);
    else
        tell_cheapest(sheet, advice);
    tc_advice_left_out(sheet, advice);
    tell_trade(sheet, advice);
    tell_beaten(sheet, advice);
}

void tc_advice_findings(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    if (advice->study->alternative_count > 0)
        tell(sheet, advice);
    start_with_capitals(sheet);
}
