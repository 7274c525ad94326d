/* SPDX-License-Identifier: MIT */
#include "sheet/sale.h"

#include <math.h>
#include <stdio.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/note.h"
#include "sheet/phrase.h"
#include "sheet/sale_advice.h"
#include "sheet/verdict.h"
#include "sheet/study_deal.h"

/* "runs to 2026-03-21", "lapsed; next from 2027-03-01", "over for good": a sale on a day. */
static char *sale_dates(char *words, const struct tc_sale *sale, struct tc_date today)
{
    struct tc_period period;
    char first[TC_DATE_SIZE], last[TC_DATE_SIZE];
    if (!sale->dated)
        snprintf(words, TC_WORDS_SIZE, "runs always");
    else if (tc_repeat_running(&sale->when, today, &period) == TC_OK)
        snprintf(words, TC_WORDS_SIZE, "runs to %s", tc_date_write(last, period.last));
    else if (tc_repeat_next(&sale->when, today, &period) == TC_OK)
        snprintf(words, TC_WORDS_SIZE, "not today; from %s to %s", tc_date_write(first, period.first),
                 tc_date_write(last, period.last));
    else
        snprintf(words, TC_WORDS_SIZE, "over for good");
    return words;
}

/* "20 % off", "1.00 USD a gallon", "at 45.00 USD", "at 129.00 USD with lid ..." */
static char *sale_rule(char *words, const struct tc_study *study, const struct tc_sale *sale)
{
    char number[TC_NUMBER_SIZE];
    const struct tc_unit *unit = tc_unit_preferred(TC_DIM_VOLUME, study->units);
    struct tc_currency currency = study->region.currency;
    switch (sale->rule) {
    case TC_SALE_PERCENT:
        snprintf(words, TC_WORDS_SIZE, "%s %% off", tc_number_write_short(number, 100 * sale->figure));
        break;
    case TC_SALE_PER_VOLUME:
        tc_number_write(number, sale->figure * unit->factor, currency.exponent, false);
        snprintf(words, TC_WORDS_SIZE, "%s %s a nominal %s", number, currency.code, tc_unit_symbol(unit));
        break;
    case TC_SALE_FIXED:
    case TC_SALE_BUNDLE:
        tc_number_write(number, sale->figure, currency.exponent, false);
        snprintf(words, TC_WORDS_SIZE, "at %s %s%s", number, currency.code,
                 sale->rule == TC_SALE_BUNDLE ? ", parts included" : "");
        break;
    }
    return words;
}

static const char *heading(struct tc_sheet *sheet, const struct tc_study *study,
                           const struct tc_scenario *scenario)
{
    char rule[TC_WORDS_SIZE], dates[TC_WORDS_SIZE], limit[48] = "";
    const struct tc_sale *sale = scenario->way.sale;
    if (scenario->way.kind == TC_WAY_PLAN)
        return "As planned";
    if (scenario->way.kind == TC_WAY_LIST)
        return "At list price";
    if (scenario->way.kind == TC_WAY_ORDER)
        return "On special order";
    if (sale->limit > 0)
        snprintf(limit, sizeof limit, ", %d to a customer", sale->limit);
    return tc_sheet_format(sheet, "Sale %s: %s%s; %s", sale->name, sale_rule(rule, study, sale), limit,
                           sale_dates(dates, sale, study->today));
}

/* Says how each tank is bought, where they are not all bought in the same way. */
static void add_terms(struct tc_sheet *sheet, const struct tc_study *study,
                      const struct tc_scenario *scenario)
{
    bool plain = true;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_outcome *outcome = &scenario->outcomes[i];
        plain = plain && outcome->applies && outcome->deal.first == outcome->deal.quantity;
    }
    if (plain)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, "bought", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_outcome *outcome = &scenario->outcomes[i];
        const char *text = outcome->deal.sale                    ? "in the sale"
                           : outcome->deal.kind == TC_DEAL_TYPED ? "at the price typed"
                           : outcome->applies                    ? study->alternatives[i].how
                                                                 : "at list price";
        if (outcome->deal.first < outcome->deal.quantity)
            text = tc_sheet_format(sheet, "%d in the sale, %d at list price", outcome->deal.first,
                                   outcome->deal.quantity - outcome->deal.first);
        tc_sheet_text(sheet, (size_t)i, text);
    }
}

/* How an alternative's figures in an outcome come about. */
static struct tc_derive *derive_of(struct tc_sheet *sheet, const struct tc_study *study,
                                   const struct tc_outcome *outcome, int i)
{
    return tc_derive_with(sheet, study, &study->alternatives[i], &outcome->equipment, &outcome->prices,
                          &outcome->cost);
}

/* The price at which an alternative is as good a buy as its rival, in the last row: found by trying, from
 * both bills. */
static void put_walkaway(struct tc_sheet *sheet, const struct tc_study *study,
                         const struct tc_scenario *scenario, int i, int other,
                         const struct tc_walkaway *walkaway)
{
    switch (walkaway->kind) {
    case TC_WALKAWAY_NONE: tc_sheet_text(sheet, (size_t)i, "not worth it even free"); return;
    case TC_WALKAWAY_ANY: tc_sheet_text(sheet, (size_t)i, "worth any price"); return;
    case TC_WALKAWAY_PRICE: break;
    }
    struct tc_derive *own = derive_of(sheet, study, &scenario->outcomes[i], i);
    struct tc_derive *rival = derive_of(sheet, study, &scenario->outcomes[other], other);
    tc_sheet_money(sheet, (size_t)i, walkaway->price, study->region.currency);
    if (!own || !rival)
        return;
    struct tc_term *term =
        tc_term_money(sheet, "w", "walk away above", "", walkaway->price, study->region.currency);
    if (!term)
        return;
    term->from = TC_TERM_SIMULATED;
    term->place = "tried until it is as good a buy as the rival: tankcost-model(7), WALK-AWAY PRICE";
    tc_term_add(sheet, term, tc_derive_present_value(own));
    tc_term_add(sheet, term,
                tc_term_called(sheet, tc_derive_present_value(rival), "P0",
                               tc_sheet_format(sheet, "%s to own", study->alternatives[other].head)));
    tc_term_add(sheet, term, tc_derive_tank_price(own));
    tc_term_add(sheet, term, tc_derive_tax(own));
    tc_term_put(sheet, (size_t)i, term);
}

static void add_tank_prices(struct tc_sheet *sheet, const struct tc_study *study,
                            const struct tc_scenario *scenario)
{
    tc_sheet_row(sheet, TC_ROW_LINE, "the tank", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_outcome *outcome = &scenario->outcomes[i];
        if (!outcome->deal.known)
            tc_sheet_missing(sheet, (size_t)i, "no price");
        else
            tc_sheet_money(sheet, (size_t)i, outcome->deal.each, study->region.currency);
        if (outcome->deal.known)
            tc_term_put(sheet, (size_t)i, tc_derive_tank_price(derive_of(sheet, study, outcome, i)));
        if (outcome->deal.kind == TC_DEAL_TYPED)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_TYPED);
        if (scenario->way.kind == TC_WAY_PLAN) {
            char path[48];
            snprintf(path, sizeof path, "candidate %d/price", study->alternatives[i].index + 1);
            tc_sheet_edit(sheet, (size_t)i, path);
        }
    }
}

static void add_sums(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_scenario *scenario,
                     const char *label, bool own)
{
    tc_sheet_row(sheet, own ? TC_ROW_TOTAL : TC_ROW_LINE, label, "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &scenario->outcomes[i].cost;
        struct tc_derive *derive = derive_of(sheet, study, &scenario->outcomes[i], i);
        tc_sheet_money(sheet, (size_t)i, own ? cost->present_value : cost->to_buy, study->region.currency);
        tc_term_put(sheet, (size_t)i, own ? tc_derive_present_value(derive) : tc_derive_to_buy(derive));
        if (cost->incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
    tc_sheet_mark_lowest(sheet);
}

/* By cost; and by the plan's goal, where that is another. */
static enum tc_status add_walkaways(struct tc_sheet *sheet, const struct tc_advice *advice,
                                    const struct tc_scenario *scenario)
{
    const struct tc_study *study = advice->study;
    enum tc_status status = TC_OK;
    tc_sheet_row(sheet, TC_ROW_LINE, "walk away above", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_outcome *outcome = &scenario->outcomes[i];
        if (outcome->compared)
            put_walkaway(sheet, study, scenario, i, outcome->rival, &outcome->walkaway);
    }
    if (advice->goal == TC_GOAL_COST)
        return TC_OK;
    tc_sheet_row(sheet, TC_ROW_LINE,
                 tc_sheet_format(sheet, "walk away above, for the %s", tc_goal_word(advice->goal)), "");
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++) {
        struct tc_walkaway walkaway;
        int rival = -1;
        if (scenario->outcomes[i].compared)
            status = tc_sale_goal_walkaway(advice, scenario, i, &rival, &walkaway);
        if (status == TC_OK && rival >= 0)
            put_walkaway(sheet, study, scenario, i, rival, &walkaway);
    }
    return status;
}

/* The price line: what one tank is asked now, and up to where to take it. */
static void add_price_line(struct tc_sheet *sheet, const struct tc_study *study,
                           const struct tc_scenario *planned)
{
    size_t count = (size_t)study->alternative_count;
    double scale = tc_currency_scale(study->region.currency);
    bool any = false;
    for (size_t i = 0; i < count; i++)
        any =
            any || (planned->outcomes[i].compared && planned->outcomes[i].walkaway.kind == TC_WALKAWAY_PRICE);
    struct tc_chart *chart = any ? tc_sheet_chart(sheet, TC_CHART_SPANS, 2, count) : NULL;
    if (!chart)
        return;
    chart->title = "The price of a tank, and the most to pay";
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    chart->middle = NAN;
    chart->decimals = study->region.currency.exponent;
    chart->series[0].name = "its price";
    chart->series[1].name = "take it up to here";
    for (size_t i = 0; i < count; i++) {
        const struct tc_outcome *outcome = &planned->outcomes[i];
        bool bound = outcome->compared && outcome->walkaway.kind == TC_WALKAWAY_PRICE;
        const char *why = !outcome->compared || bound                  ? ""
                          : outcome->walkaway.kind == TC_WALKAWAY_NONE ? ": never"
                                                                       : ": at any price";
        chart->x_labels[i] = tc_sheet_format(sheet, "%s%s", study->alternatives[i].head, why);
        chart->series[0].values[i] = outcome->deal.known ? (double)outcome->deal.each / scale : NAN;
        chart->series[1].values[i] = bound ? (double)outcome->walkaway.price / scale : NAN;
    }
}

static enum tc_status add_scenario(struct tc_sheet *sheet, const struct tc_advice *advice,
                                   const struct tc_scenario *scenario)
{
    const struct tc_study *study = advice->study;
    tc_sheet_row(sheet, TC_ROW_GROUP, heading(sheet, study, scenario), "");
    if (scenario->way.sale)
        tc_sheet_about(sheet, tc_sheet_format(sheet, "sale %s", scenario->way.sale->name));
    add_terms(sheet, study, scenario);
    add_tank_prices(sheet, study, scenario);
    add_sums(sheet, study, scenario, "to buy, with parts", false);
    add_sums(sheet, study, scenario, "to own, present value", true);
    return add_walkaways(sheet, advice, scenario);
}

static bool covers_any(const struct tc_study *study, const struct tc_sale *sale)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (tc_study_sale_here(study, &study->alternatives[i], sale) &&
            tc_sale_covers(sale, &study->alternatives[i].c.tank))
            return true;
    return false;
}

/* What waiting saves: what it costs today less what it costs in the coming sale. */
static const struct tc_term *derive_wait(struct tc_sheet *sheet, const struct tc_study *study,
                                         const struct tc_wait *wait, int i, bool net)
{
    const struct tc_alternative *alternative = &study->alternatives[i];
    struct tc_outcome *then = sheet->explained ? tc_sheet_memory(sheet, 1, sizeof *then) : NULL;
    if (!then ||
        tc_study_deal(study, alternative, (struct tc_way){TC_WAY_SALE, wait->sale}, &then->deal) != TC_OK ||
        tc_study_cost(study, alternative, &then->deal, &then->equipment, &then->prices, &then->cost) != TC_OK)
        return NULL;
    struct tc_derive *later = derive_of(sheet, study, then, i);
    if (!later)
        return NULL;
    enum tc_status status = TC_OK;
    tc_money today = tc_money_add(wait->saved, then->cost.present_value, &status);
    struct tc_term *saved = tc_term_money(sheet, "S", "saved by waiting for the sale", "P0 - P", wait->saved,
                                          study->region.currency);
    struct tc_term *now = tc_term_money(sheet, "P0", "to own, bought today as cheaply as it can be had", "",
                                        today, study->region.currency);
    if (now) {
        now->from = TC_TERM_SIMULATED;
        now->place = "the least of the ways above that can be had today";
        tc_term_add(sheet, now, tc_derive_present_value(tc_derive_of(sheet, study, alternative)));
    }
    tc_term_add(sheet, saved, now);
    tc_term_add(sheet, saved, tc_derive_present_value(later));
    if (!net)
        return saved;
    struct tc_term *term = tc_term_money(sheet, "N", "saved, less what waiting costs", "S - round(c × m)",
                                         wait->net, study->region.currency);
    tc_term_add(sheet, term, saved);
    tc_term_add(sheet, term,
                tc_derive_plan_key(later, "c", "what a month of waiting costs", study->plan.waiting_cost,
                                   study->region.currency.code, "waiting-cost"));
    tc_term_add(sheet, term,
                tc_term_leaf(sheet, "m", "months to its first day", wait->months, "",
                             tc_source_item(sheet, study, "sale", wait->sale->name, "from")));
    return term;
}

static void add_wait_money(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_wait wait[],
                           enum tc_row_kind kind, const char *label, bool net)
{
    tc_sheet_row(sheet, kind, label, "");
    for (int i = 0; i < study->alternative_count; i++) {
        if (!wait[i].sale)
            continue;
        tc_sheet_money(sheet, (size_t)i, net ? wait[i].net : wait[i].saved, study->region.currency);
        tc_term_put(sheet, (size_t)i, derive_wait(sheet, study, &wait[i], i, net));
    }
}

/* The sales that each is bought in today: to what day, and when they come back. */
static void add_running(struct tc_sheet *sheet, const struct tc_study *study,
                        const struct tc_sale_today *today)
{
    struct tc_period now[TC_CANDIDATES_MAX], next;
    bool runs[TC_CANDIDATES_MAX] = {false}, any = false;
    char date[TC_DATE_SIZE];
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_sale *sale = today->known[i] ? today->sale[i] : NULL;
        runs[i] = sale && sale->dated && tc_repeat_running(&sale->when, study->today, &now[i]) == TC_OK;
        any = any || runs[i];
    }
    if (!any)
        return;
    tc_sheet_row(sheet, TC_ROW_LINE, "runs now", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (runs[i])
            tc_sheet_text(sheet, (size_t)i, today->sale[i]->name);
    tc_sheet_row(sheet, TC_ROW_LINE, "  to", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (runs[i])
            tc_sheet_text(sheet, (size_t)i, tc_date_write(date, now[i].last));
    tc_sheet_row(sheet, TC_ROW_LINE, "  comes back", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (runs[i])
            tc_sheet_text(sheet, (size_t)i,
                          tc_repeat_next(&today->sale[i]->when, now[i].last, &next) == TC_OK
                              ? tc_date_write(date, next.first)
                              : "never");
}

static void add_waiting(struct tc_sheet *sheet, const struct tc_study *study,
                        const struct tc_sale_today *today, const struct tc_wait wait[])
{
    char date[TC_DATE_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Wait for the next sale?", "");
    add_running(sheet, study, today);
    tc_sheet_row(sheet, TC_ROW_LINE, "sale", "");
    for (int i = 0; i < study->alternative_count; i++)
        tc_sheet_text(sheet, (size_t)i, wait[i].sale ? wait[i].sale->name : "none in sight");
    tc_sheet_row(sheet, TC_ROW_LINE, "from", "");
    for (int i = 0; i < study->alternative_count; i++)
        if (wait[i].sale)
            tc_sheet_text(sheet, (size_t)i, tc_date_write(date, wait[i].period.first));
    add_wait_money(sheet, study, wait, TC_ROW_LINE, "saves", false);
    add_wait_money(sheet, study, wait, TC_ROW_TOTAL, "saves, less what waiting costs", true);
    bool pays = false;
    for (int i = 0; i < study->alternative_count; i++)
        pays = pays || (wait[i].sale && wait[i].net > 0);
    if (pays) /* the least loss is no best */
        tc_sheet_mark_highest(sheet);
}

/* What is to be worked out and told: the scenarios in turn, and what they come to. */
struct work {
    struct tc_sheet *sheet;
    const struct tc_study *study;
    struct tc_advice advice;
    bool suits[TC_CANDIDATES_MAX];
    struct tc_sale_today today;
    struct tc_scenario planned; /* kept for the advice */
};

/* Works a scenario out, shows it, and keeps the best that can be had today. */
static enum tc_status try_scenario(struct work *work, struct tc_way way)
{
    struct tc_scenario scenario;
    const struct tc_study *study = work->study;
    enum tc_status status = tc_scenario_make(&scenario, study, way, work->suits);
    if (status == TC_OK) {
        status = add_scenario(work->sheet, &work->advice, &scenario);
        tc_derive_forget(work->sheet); /* the outcomes may go away */
        for (int i = 0; i < study->alternative_count; i++) {
            const struct tc_outcome *outcome = &scenario.outcomes[i];
            if (!outcome->cost.incomplete && tc_scenario_today(study, outcome))
                tc_sale_today_take(&work->today, &work->advice, i, outcome);
        }
    }
    if (status == TC_OK && way.kind == TC_WAY_PLAN)
        work->planned = scenario;
    else
        tc_scenario_free(&scenario);
    return status;
}

static enum tc_status try_all(struct work *work)
{
    static const enum tc_way_kind ways[] = {TC_WAY_PLAN, TC_WAY_LIST, TC_WAY_ORDER};
    const struct tc_study *study = work->study;
    enum tc_status status = TC_OK;
    for (size_t i = 0; status == TC_OK && i < sizeof ways / sizeof ways[0]; i++)
        status = try_scenario(work, (struct tc_way){.kind = ways[i]});
    for (size_t i = 0; status == TC_OK && i < study->stock->sale_count; i++)
        if (covers_any(study, &study->stock->sales[i]))
            status = try_scenario(work, (struct tc_way){TC_WAY_SALE, &study->stock->sales[i]});
    return status;
}

static enum tc_status work_out(struct work *work)
{
    const struct tc_study *study = work->study;
    struct tc_wait wait[TC_CANDIDATES_MAX] = {{.sale = NULL}};
    enum tc_status status = tc_advice_make(&work->advice, study);
    for (int i = 0; i < study->alternative_count; i++)
        work->suits[i] = work->advice.rating[i].suits;
    if (status == TC_OK)
        status = try_all(work);
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        if (work->today.known[i])
            status = tc_wait_find(study, &study->alternatives[i], work->today.own[i], work->today.each[i],
                                  &wait[i]);
    if (status == TC_OK) {
        add_waiting(work->sheet, study, &work->today, wait);
        if (work->today.best < 0)
            tc_verdict_tell(work->sheet, &work->advice);
        else
            status = tc_sale_advise(work->sheet, &work->advice, &work->today, wait, &work->planned);
    }
    if (status == TC_OK)
        add_price_line(work->sheet, study, &work->planned);
    tc_scenario_free(&work->planned);
    return status;
}

enum tc_status tc_make_sale(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct work work = {.sheet = sheet, .study = study, .today = {.best = -1}};
    tc_sheet_start(sheet, "sale", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    tc_phrase_head(sheet, study, "Is this a good price, and what is the most to pay for each",
                   study->region.currency.code);
    tc_phrase_columns(sheet, study);
    enum tc_status status = work_out(&work);
    if (work.advice.goal != TC_GOAL_COST)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "For the %s: the most to pay for one tank before the best of the others gives more %s for "
            "its cost to own.",
            tc_goal_word(work.advice.goal), tc_goal_word(work.advice.goal));
    tc_sheet_note(sheet, TC_NOTE_REMARK,
                  "Walk away above: the most to pay for one tank before the best of the others costs less to "
                  "own. Fees and a tax added at the checkout come on top. Between tanks of different size it "
                  "is only where their costs meet.");
    tc_note_alternatives(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
