/* SPDX-License-Identifier: MIT */
#include "sheet/sale_advice.h"

#include <stdlib.h>

#include "sheet/advantage.h"
#include "sheet/left_out.h"
#include "sheet/phrase.h"
#include "sheet/shops.h"
#include "sheet/study_deal.h"

/* A sale that is back within so many days leaves time. */
enum { SOON_DAYS = 120 };

/* Delivery is dear where it is so much of what is paid, and more than the tank. */
static const double DEAR_SHARE = 0.15;

void tc_sale_today_take(struct tc_sale_today *today, const struct tc_advice *advice, int alternative,
                        const struct tc_outcome *outcome)
{
    tc_money value = outcome->cost.present_value;
    if (today->known[alternative] && value >= today->own[alternative])
        return;
    today->known[alternative] = true;
    today->own[alternative] = value;
    today->to_buy[alternative] = outcome->cost.to_buy;
    today->each[alternative] = outcome->deal.each;
    today->sale[alternative] = outcome->deal.sale;
    int best = today->best;
    if (advice->rating[alternative].suits &&
        (best < 0 ||
         tc_advice_score(advice, alternative, value) < tc_advice_score(advice, best, today->own[best])))
        today->best = alternative;
}

/* ---------------------------------------------------------------------------- words */

/* "20-high at 32.00 USD", "20-high at 32.00 USD or 20-long at 34.00 USD": what to buy now. */
static const char *now_words(struct tc_sheet *sheet, const struct tc_advice *advice,
                             const struct tc_sale_today *today)
{
    const struct tc_study *study = advice->study;
    int i = today->best, other = -1, others = 0;
    for (int k = 0; k < study->alternative_count; k++)
        if (k != i && advice->rating[k].suits && today->known[k] &&
            tc_same_score(tc_advice_score(advice, i, today->own[i]),
                          tc_advice_score(advice, k, today->own[k]))) {
            other = k;
            others++;
        }
    const char *words = tc_sheet_format(sheet, "%s at %s", study->alternatives[i].head,
                                        tc_advice_money(sheet, study, today->each[i]));
    if (others == 1)
        words = tc_sheet_format(sheet, "%s or %s at %s", words, study->alternatives[other].head,
                                tc_advice_money(sheet, study, today->each[other]));
    return words;
}

/* " from lowmere-shop": where there is more than one to buy from, and the tank comes from a shop. */
static const char *from_words(struct tc_sheet *sheet, const struct tc_advice *advice,
                              const struct tc_sale_today *today)
{
    const struct tc_study *study = advice->study;
    if (!study->shop || study->alternatives[today->best].terms.typed || tc_shops_count(study) < 2)
        return "";
    return tc_sheet_format(sheet, " from %s",
                           tc_study_shop_of(study, &study->alternatives[today->best], TC_BUY_TANK)->name);
}

static const char *date_words(struct tc_sheet *sheet, struct tc_date date)
{
    char words[TC_WORDS_SIZE];
    return tc_sheet_copy(sheet, tc_phrase_date(words, date));
}

/* When the sale by which something is bought today ends and when it is back. */
struct ending {
    bool ends; /* it has an end in sight */
    bool today;
    struct tc_date last;
    bool comes_back, soon;
    struct tc_date back;
};

static struct ending ending_of(const struct tc_study *study, const struct tc_sale *sale)
{
    struct ending ending = {.ends = false};
    struct tc_period period, next;
    if (!sale || !sale->dated || tc_repeat_running(&sale->when, study->today, &period) != TC_OK)
        return ending;
    ending.ends = true;
    ending.last = period.last;
    ending.today = tc_days_between(study->today, period.last) == 0;
    ending.comes_back = tc_repeat_next(&sale->when, period.last, &next) == TC_OK;
    if (ending.comes_back)
        ending.back = next.first;
    ending.soon = ending.comes_back && tc_days_between(study->today, next.first) < SOON_DAYS;
    return ending;
}

/* "sale tank-fair ends today and does not come back" */
static const char *ending_words(struct tc_sheet *sheet, const struct tc_sale *sale,
                                const struct ending *ending)
{
    const char *ends =
        ending->today ? "today" : tc_sheet_format(sheet, "on %s", date_words(sheet, ending->last));
    const char *back = !ending->comes_back ? "does not come back"
                       : ending->soon
                           ? tc_sheet_format(sheet, "comes back on %s, so there is no hurry",
                                             date_words(sheet, ending->back))
                           : tc_sheet_format(sheet, "comes back only on %s", date_words(sheet, ending->back));
    return tc_sheet_format(sheet, "sale %s ends %s and %s", sale->name, ends, back);
}

/* ----------------------------------------------------------------------- wait or buy */

/* The alternative to wait with, and what that saves over the best of today. */
struct later {
    int alternative; /* -1: nothing in sight is better */
    tc_money gain;
};

static enum tc_status find_later(const struct tc_advice *advice, const struct tc_sale_today *today,
                                 const struct tc_wait wait[], struct later *later)
{
    enum tc_status status = TC_OK;
    int best = today->best;
    *later = (struct later){.alternative = -1};
    for (int i = 0; i < advice->study->alternative_count; i++) {
        bool asked =
            advice->rating[i].suits && wait[i].sale &&
            (advice->goal == TC_GOAL_COST || i == best); /* by another goal money alone says little */
        if (!asked)
            continue;
        tc_money then = tc_money_subtract(today->own[i], wait[i].net, &status);
        tc_money gain = tc_money_subtract(today->own[best], then, &status);
        if (gain > 0 && (later->alternative < 0 || gain > later->gain))
            *later = (struct later){i, gain};
    }
    return status;
}

static void tell_wait(struct tc_sheet *sheet, const struct tc_advice *advice,
                      const struct tc_sale_today *today, const struct tc_wait *wait,
                      const struct later *later)
{
    const struct tc_study *study = advice->study;
    char span[TC_WORDS_SIZE];
    tc_phrase_span(span, study->today, wait->period.first);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "Wait %s: on %s sale %s %s, and %s then costs %s less.", span,
                  date_words(sheet, wait->period.first), wait->sale->name,
                  tc_days_between(wait->sale->when.first, wait->period.first) > 0 ? "comes back" : "begins",
                  study->alternatives[later->alternative].head, tc_advice_money(sheet, study, later->gain));
    tc_sheet_note(sheet, TC_NOTE_FINDING, "If you need one today, take %s%s.",
                  now_words(sheet, advice, today), from_words(sheet, advice, today));
}

static bool delivery_is_dear(const struct tc_advice *advice, const struct tc_sale_today *today)
{
    int i = today->best;
    tc_money delivery = advice->study->alternatives[i].cost.buy[TC_BUY_DELIVERY];
    return delivery > today->each[i] && (double)delivery > DEAR_SHARE * (double)today->to_buy[i];
}

/* "no sale in the next two years beats that", "the next better sale is 9 months away and saves only 6.00 USD"
 */
static const char *later_words(struct tc_sheet *sheet, const struct tc_advice *advice,
                               const struct tc_wait wait[], const struct later *later)
{
    char span[TC_WORDS_SIZE];
    if (later->alternative < 0)
        return "no sale in the next two years beats that";
    return tc_sheet_format(sheet, "the next better sale is %s away and saves only %s",
                           tc_phrase_span(span, advice->study->today, wait[later->alternative].period.first),
                           tc_advice_money(sheet, advice->study, later->gain));
}

/* Buy, and the most pressing reason for it; then the other ones. */
static void tell_buy(struct tc_sheet *sheet, const struct tc_advice *advice,
                     const struct tc_sale_today *today, const struct tc_wait wait[],
                     const struct later *later)
{
    const struct tc_study *study = advice->study;
    const struct tc_sale *sale = today->sale[today->best];
    struct ending ending = ending_of(study, sale);
    const char *buy =
        tc_sheet_format(sheet, "%s%s", now_words(sheet, advice, today), from_words(sheet, advice, today));
    const char *then = later_words(sheet, advice, wait, later);
    if (delivery_is_dear(advice, today))
        tc_sheet_note(
            sheet, TC_NOTE_FINDING, "Buy %s and fetch it yourself if you can: delivery costs %s.", buy,
            tc_advice_money(sheet, study, study->alternatives[today->best].cost.buy[TC_BUY_DELIVERY]));
    else if (ending.ends && ending.today && !ending.soon)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Buy %s today: %s.", buy, ending_words(sheet, sale, &ending));
    else {
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Buy %s: %s.", buy, then);
        then = NULL;
    }
    if (ending.ends && (ending.soon || !ending.today))
        tc_sheet_note(sheet, TC_NOTE_FINDING, "S%s.", ending_words(sheet, sale, &ending) + 1);
    if (then && later->alternative >= 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "T%s.", then + 1);
}

static enum tc_status tell_when(struct tc_sheet *sheet, const struct tc_advice *advice,
                                const struct tc_sale_today *today, const struct tc_wait wait[])
{
    struct later later;
    enum tc_status status = find_later(advice, today, wait, &later);
    int i = later.alternative;
    if (i >= 0 && tc_wait_worth(later.gain, wait[i].months, today->each[today->best]))
        tell_wait(sheet, advice, today, &wait[i], &later);
    else
        tell_buy(sheet, advice, today, wait, &later);
    return status;
}

/* A gift that costs more to own than what can be bought. */
static enum tc_status tell_gift(struct tc_sheet *sheet, const struct tc_advice *advice,
                                const struct tc_sale_today *today)
{
    const struct tc_study *study = advice->study;
    enum tc_status status = TC_OK;
    char years[TC_WORDS_SIZE];
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        if (i == today->best || !advice->rating[i].suits || !today->known[i] || !alternative->terms.typed ||
            today->each[i] != 0 || advice->goal != TC_GOAL_COST)
            continue;
        tc_money more = tc_money_subtract(today->own[i], today->own[today->best], &status);
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Even as a gift %s costs %s more to own over %s than %s.",
                      alternative->head, tc_advice_money(sheet, study, more),
                      tc_phrase_years(years, study->plan.years), now_words(sheet, advice, today));
        break;
    }
    return status;
}

/* --------------------------------------------------------------------- up to which price */

static void tell_unlike(struct tc_sheet *sheet, const struct tc_advice *advice, int winner, int rival)
{
    const char *a = advice->study->alternatives[winner].head, *b = advice->study->alternatives[rival].head;
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "%s is cheaper but not the same thing as %s, which has %s: decide on the size first.", a, b,
                  tc_advantage_water(sheet, advice, rival, winner));
}

static double score_of(const struct tc_advice *advice, const struct tc_scenario *scenario, int i)
{
    return tc_advice_score(advice, i, scenario->outcomes[i].cost.present_value);
}

/* The best of a scenario by the plan's goal, but for one of them; -1 where there is none. */
static int best_but(const struct tc_advice *advice, const struct tc_scenario *scenario, int but)
{
    int best = -1;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (i != but && advice->rating[i].suits && !scenario->outcomes[i].cost.incomplete &&
            (best < 0 || score_of(advice, scenario, i) < score_of(advice, scenario, best)))
            best = i;
    return best;
}

enum tc_status tc_sale_goal_walkaway(const struct tc_advice *advice, const struct tc_scenario *scenario,
                                     int index, int *rival, struct tc_walkaway *walkaway)
{
    enum tc_status status = TC_OK;
    *rival = best_but(advice, scenario, index);
    if (*rival < 0)
        return TC_OK;
    double amount = 1 / tc_advice_score(advice, index, 1);
    tc_money target = tc_money_round(score_of(advice, scenario, *rival) * amount, &status);
    return status == TC_OK ? tc_scenario_walkaway(advice->study, scenario, index, target, walkaway) : status;
}

/* "by cost alone, pay up to 33.15 USD": what the sum to own says of the best by another goal. */
static const char *cost_words(struct tc_sheet *sheet, const struct tc_study *study,
                              const struct tc_walkaway *walkaway)
{
    switch (walkaway->kind) {
    case TC_WALKAWAY_PRICE:
        return tc_sheet_format(sheet, "pay up to %s", tc_advice_money(sheet, study, walkaway->price));
    case TC_WALKAWAY_NONE: return "it is not worth it even free";
    case TC_WALKAWAY_ANY: break;
    }
    return "it is worth any price";
}

/* The most the best may cost before the next one is the better buy, by cost and by the goal. */
static enum tc_status tell_price(struct tc_sheet *sheet, const struct tc_advice *advice,
                                 const struct tc_scenario *planned)
{
    const struct tc_study *study = advice->study;
    struct tc_walkaway walkaway;
    int next, best = best_but(advice, planned, -1);
    if (best < 0 || !tc_scenario_today(study, &planned->outcomes[best]))
        return TC_OK;
    enum tc_status status = tc_sale_goal_walkaway(advice, planned, best, &next, &walkaway);
    if (status != TC_OK || next < 0)
        return status;
    const char *a = study->alternatives[best].head, *b = study->alternatives[next].head;
    const char *price = tc_advice_money(sheet, study, walkaway.price);
    if (advice->goal == TC_GOAL_COST && tc_advice_unlike(advice, best, next))
        tell_unlike(sheet, advice, best, next);
    else if (walkaway.kind == TC_WALKAWAY_PRICE && advice->goal == TC_GOAL_COST)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Pay up to %s for %s; above that, %s is the better buy.", price,
                      a, b);
    else if (walkaway.kind == TC_WALKAWAY_PRICE)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "Pay up to %s for %s; above that, %s gives more %s for its cost. By cost alone, %s.",
                      price, a, b, tc_goal_word(advice->goal),
                      cost_words(sheet, study, &planned->outcomes[best].walkaway));
    return TC_OK;
}

/* --------------------------------------------------------------------------- which shop */

/* Whether other shops of the place would do for less what the best takes today. */
static enum tc_status tell_shops(struct tc_sheet *sheet, const struct tc_advice *advice,
                                 const struct tc_sale_today *today)
{
    const struct tc_study *study = advice->study;
    struct tc_alternative *bought = malloc(sizeof *bought);
    struct tc_deal deal;
    if (!bought)
        return TC_NO_MEMORY;
    *bought = study->alternatives[today->best];
    struct tc_way way = {today->sale[today->best] ? TC_WAY_SALE : bought->way.kind,
                         today->sale[today->best] ? today->sale[today->best] : bought->way.sale};
    enum tc_status status = tc_study_deal(study, bought, way, &deal);
    if (status == TC_OK)
        status = tc_study_cost(study, bought, &deal, &bought->equipment, &bought->prices, &bought->cost);
    if (status == TC_OK)
        status = tc_shops_advise(sheet, study, bought);
    free(bought);
    return status;
}

enum tc_status tc_sale_advise(struct tc_sheet *sheet, const struct tc_advice *advice,
                              const struct tc_sale_today *today, const struct tc_wait wait[],
                              const struct tc_scenario *planned)
{
    enum tc_status status = tell_gift(sheet, advice, today);
    if (status == TC_OK)
        status = tell_when(sheet, advice, today, wait);
    tc_left_out_tell(sheet, advice);
    if (status == TC_OK)
        status = tell_price(sheet, advice, planned);
    return status == TC_OK ? tell_shops(sheet, advice, today) : status;
}
