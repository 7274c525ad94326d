/* SPDX-License-Identifier: MIT */
#include "sheet/sale.h"

#include <stdio.h>

#include "sheet/advice.h"
#include "sheet/scenario.h"
#include "sheet/phrase.h"

/* Two that hold so different amounts of water are not the same thing: a price cannot decide between them. */
static const double UNLIKE = 1.5;

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
        snprintf(words, TC_WORDS_SIZE, "lapsed for good");
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
        tc_sheet_money(sheet, (size_t)i, own ? cost->present_value : cost->to_buy, study->region.currency);
        if (cost->incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
    tc_sheet_mark_lowest(sheet);
}

static void add_walkaways(struct tc_sheet *sheet, const struct tc_study *study,
                          const struct tc_scenario *scenario)
{
    tc_sheet_row(sheet, TC_ROW_LINE, "walk away above", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_outcome *outcome = &scenario->outcomes[i];
        if (!outcome->compared)
            continue;
        switch (outcome->walkaway.kind) {
        case TC_WALKAWAY_PRICE:
            tc_sheet_money(sheet, (size_t)i, outcome->walkaway.price, study->region.currency);
            break;
        case TC_WALKAWAY_NONE: tc_sheet_text(sheet, (size_t)i, "not worth it even free"); break;
        case TC_WALKAWAY_ANY: tc_sheet_text(sheet, (size_t)i, "worth any price"); break;
        }
    }
}

static void add_scenario(struct tc_sheet *sheet, const struct tc_study *study,
                         const struct tc_scenario *scenario)
{
    tc_sheet_row(sheet, TC_ROW_GROUP, heading(sheet, study, scenario), "");
    add_terms(sheet, study, scenario);
    add_tank_prices(sheet, study, scenario);
    add_sums(sheet, study, scenario, "to buy, with parts", false);
    add_sums(sheet, study, scenario, "to own, present value", true);
    add_walkaways(sheet, study, scenario);
}

static bool covers_any(const struct tc_study *study, const struct tc_sale *sale)
{
    if (!tc_study_sale_here(study, sale))
        return false;
    for (int i = 0; i < study->alternative_count; i++)
        if (tc_sale_covers(sale, &study->alternatives[i].c.tank))
            return true;
    return false;
}

static bool to_be_had(const struct tc_study *study, const struct tc_outcome *outcome)
{
    return !outcome->deal.sale || tc_sale_runs(outcome->deal.sale, study->today);
}

/* What can be had today: the best way to buy each alternative, and the best of all that suit. */
struct overall {
    int alternative; /* -1: nothing */
    struct tc_way way;
    tc_money value;
    bool known[TC_CANDIDATES_MAX];
    tc_money own[TC_CANDIDATES_MAX];  /* present value of each alternative, where known */
    tc_money each[TC_CANDIDATES_MAX]; /* the price of one tank in that way */
    const struct tc_sale *sale[TC_CANDIDATES_MAX];
};

static void take_outcome(struct overall *overall, int alternative, struct tc_way way,
                         const struct tc_outcome *outcome, bool suits)
{
    tc_money value = outcome->cost.present_value;
    if (!overall->known[alternative] || value < overall->own[alternative]) {
        overall->own[alternative] = value;
        overall->each[alternative] = outcome->deal.each;
        overall->sale[alternative] = outcome->deal.sale;
    }
    overall->known[alternative] = true;
    if (!suits || (overall->alternative >= 0 && value >= overall->value))
        return;
    overall->alternative = alternative;
    overall->way = way;
    overall->value = value;
}

/* ------------------------------------------------------------------------------ the advice */

/* Waiting is worth the while where it saves a tenth of the tank's price, within so many months. */
static const double WORTH_SHARE = 0.1, WORTH_MONTHS = 4;

/* Of the alternatives that suit, the one that costs least to own if its next sale is waited for; -1: none. */
static int best_then(const struct tc_study *study, const struct tc_advice *advice, const struct overall *now,
                     const struct tc_wait wait[], tc_money *value, enum tc_status *status)
{
    int then = -1;
    for (int i = 0; i < study->alternative_count; i++) {
        tc_money net = tc_money_subtract(now->own[i], wait[i].net, status);
        if (!advice->rating[i].suits || !wait[i].sale || (then >= 0 && net >= *value))
            continue;
        then = i;
        *value = net;
    }
    return then;
}

/* "20-high at 32.00 USD", "20-high at 32.00 USD or 20-long at 34.00 USD": what to buy now. */
static const char *now_words(struct tc_sheet *sheet, const struct tc_study *study,
                             const struct tc_advice *advice, const struct overall *now)
{
    char price[TC_WORDS_SIZE], other_price[TC_WORDS_SIZE];
    int i = now->alternative, other = -1, others = 0;
    for (int k = 0; k < study->alternative_count; k++)
        if (k != i && advice->rating[k].suits && now->known[k] && tc_same_cost(now->own[i], now->own[k])) {
            other = k;
            others++;
        }
    tc_phrase_money(price, now->each[i], study->region.currency);
    if (others == 1)
        return tc_sheet_format(sheet, "%s at %s or %s at %s", study->alternatives[i].head, price,
                               study->alternatives[other].head,
                               tc_phrase_money(other_price, now->each[other], study->region.currency));
    return tc_sheet_format(sheet, "%s at %s", study->alternatives[i].head, price);
}

/* When the sale by which something is bought today ends and comes back; "" where it does not. */
static const char *again_words(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_sale *sale)
{
    struct tc_period period, next;
    char last[TC_WORDS_SIZE], first[TC_WORDS_SIZE];
    if (!sale || !sale->dated || tc_repeat_running(&sale->when, study->today, &period) != TC_OK)
        return "";
    tc_phrase_date(last, period.last);
    const char *ends =
        tc_days_between(study->today, period.last) == 0 ? "today" : tc_sheet_format(sheet, "on %s", last);
    if (tc_repeat_next(&sale->when, period.last, &next) == TC_OK &&
        tc_days_between(study->today, next.first) < 120)
        return tc_sheet_format(sheet, "Sale %s ends %s and comes back on %s, so there is no hurry.",
                               sale->name, ends, tc_phrase_date(first, next.first));
    return tc_sheet_format(sheet, "Sale %s ends %s.", sale->name, ends);
}

static void tell_now(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_advice *advice,
                     const struct overall *now, const char *why)
{
    const char *words = now_words(sheet, study, advice, now);
    const char *again = again_words(sheet, study, now->sale[now->alternative]);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "Buy %s: %s.", words, why);
    if (*again)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s", again);
}

/* Wait or buy: the first sentence of all. */
static enum tc_status tell_when(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_advice *advice, const struct overall *now,
                                const struct tc_wait wait[])
{
    enum tc_status status = TC_OK;
    char date[TC_WORDS_SIZE], span[TC_WORDS_SIZE], saved[TC_WORDS_SIZE];
    tc_money value = 0;
    if (now->alternative < 0)
        return TC_OK;
    int then = best_then(study, advice, now, wait, &value, &status);
    tc_money gain = tc_money_subtract(now->value, value, &status);
    if (then < 0 || gain <= 0) {
        tell_now(sheet, study, advice, now, "no sale in the next two years beats that");
        return status;
    }
    tc_phrase_money(saved, gain, study->region.currency);
    tc_phrase_date(date, wait[then].period.first);
    tc_phrase_span(span, study->today, wait[then].period.first);
    if ((double)gain >= WORTH_SHARE * (double)now->each[now->alternative] &&
        wait[then].months <= WORTH_MONTHS) {
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Wait %s: sale %s comes on %s and %s then costs %s less.", span,
                      wait[then].sale->name, date, study->alternatives[then].head, saved);
        tc_sheet_note(sheet, TC_NOTE_FINDING, "If you need one today, take %s.",
                      now_words(sheet, study, advice, now));
        return status;
    }
    tell_now(sheet, study, advice, now,
             tc_sheet_format(sheet, "the next better sale is %s away and saves only %s", span, saved));
    return status;
}

/* Up to which price the planned one stays the better buy, and that it is a matter of cost alone. */
static void tell_price(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_advice *advice,
                       const struct tc_scenario *planned)
{
    char price[TC_WORDS_SIZE];
    if (planned->best < 0)
        return;
    const struct tc_outcome *outcome = &planned->outcomes[planned->best];
    const char *winner = study->alternatives[planned->best].head;
    if (!outcome->compared || !to_be_had(study, outcome))
        return;
    const char *rival = study->alternatives[outcome->rival].head;
    const struct tc_merits *a = &advice->rating[planned->best].merits,
                           *b = &advice->rating[outcome->rival].merits;
    double share = a->of[TC_RESPECT_WATER] > 0 ? b->of[TC_RESPECT_WATER] / a->of[TC_RESPECT_WATER] : 1;
    if (share > UNLIKE || share < 1 / UNLIKE)
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "%s is the cheaper by far, but not the same thing: %s holds %.0f %% %s water. Decide on size "
            "first.",
            winner, rival, share > 1 ? 100 * (share - 1) : 100 * (1 - share), share > 1 ? "more" : "less");
    else if (outcome->walkaway.kind == TC_WALKAWAY_PRICE)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Pay up to %s for %s; above that, %s is the better buy.",
                      tc_phrase_money(price, outcome->walkaway.price, study->region.currency), winner, rival);
}

static void add_wait_money(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_wait wait[],
                           enum tc_row_kind kind, const char *label, bool net)
{
    tc_sheet_row(sheet, kind, label, "");
    for (int i = 0; i < study->alternative_count; i++)
        if (wait[i].sale)
            tc_sheet_money(sheet, (size_t)i, net ? wait[i].net : wait[i].saved, study->region.currency);
}

static void add_waiting(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_wait wait[])
{
    char date[TC_DATE_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Wait for the next sale?", "");
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
    struct overall overall;
    struct tc_scenario planned; /* kept for the advice */
};

/* Works a scenario out, shows it, and keeps the best that can be had today. */
static enum tc_status try_scenario(struct work *work, struct tc_way way)
{
    struct tc_scenario scenario;
    const struct tc_study *study = work->study;
    enum tc_status status = tc_scenario_make(&scenario, study, way, work->suits);
    if (status == TC_OK) {
        add_scenario(work->sheet, study, &scenario);
        for (int i = 0; i < study->alternative_count; i++) {
            const struct tc_outcome *outcome = &scenario.outcomes[i];
            if (!outcome->cost.incomplete && to_be_had(study, outcome))
                take_outcome(&work->overall, i, way, outcome, work->suits[i]);
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

/* The advice, the most useful first; of what cannot be bought, why. */
static enum tc_status tell(struct work *work, const struct tc_wait wait[])
{
    if (work->overall.alternative < 0) {
        tc_advice_findings(work->sheet, &work->advice);
        return TC_OK;
    }
    enum tc_status status = tell_when(work->sheet, work->study, &work->advice, &work->overall, wait);
    tc_advice_left_out(work->sheet, &work->advice);
    tell_price(work->sheet, work->study, &work->advice, &work->planned);
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
        if (work->overall.known[i])
            status = tc_wait_find(study, &study->alternatives[i], work->overall.own[i], &wait[i]);
    if (status == TC_OK) {
        add_waiting(work->sheet, study, wait);
        status = tell(work, wait);
    }
    tc_scenario_free(&work->planned);
    return status;
}

enum tc_status tc_make_sale(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    (void)ask;
    char assumptions[256];
    struct work work = {.sheet = sheet, .study = study, .overall = {.alternative = -1}};
    tc_sheet_start(sheet, "sale", (size_t)study->alternative_count);
    tc_phrase_assumptions(study, assumptions, sizeof assumptions);
    tc_sheet_head(sheet, "Is this a good price, and what is the most to pay for each", assumptions,
                  study->region.currency.code);
    tc_phrase_entry_columns(sheet, study);
    enum tc_status status = work_out(&work);
    tc_sheet_note(sheet, TC_NOTE_REMARK,
                  "Walk away above: the highest price of one tank, before a fee and a tax the checkout adds, "
                  "at which it "
                  "costs no more to own than the best other candidate of that scenario.");
    tc_phrase_entry_notes(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
