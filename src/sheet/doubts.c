/* SPDX-License-Identifier: MIT */
#include "sheet/doubts.h"

#include <math.h>
#include <stdio.h>

#include "core/cost/uncertainty.h"
#include "core/base/parallel.h"
#include "sheet/advice.h"
#include "sheet/left_out.h"
#include "sheet/uncertain.h"
#include "sheet/uncertain_heat.h"
#include "sheet/derive_doubt.h"
#include "sheet/derive_life.h"
#include "sheet/note.h"
#include "sheet/phrase.h"

/* Draws where none are asked for: the chances are then known to about a third of a percent. */
#define DEFAULT_DRAWS 20000

/* From here on the answer is told as sure; below it as a toss-up. */
static const double SURE = 0.8;

/* At most so many figures are shown as bars. */
enum { BARS_MAX = 12 };

/* A value of a figure as a person of the study's habit reads it. */
static char *figure_words(char *words, const struct tc_study *study, const struct tc_uncertain_name *name,
                          double value)
{
    char quantity[TC_QUANTITY_SIZE], number[TC_NUMBER_SIZE];
    const struct tc_unit *unit = tc_unit_preferred(name->dimension, study->units);
    double shown = tc_unit_from_base(unit, value);
    int decimals = fabs(shown) >= 1000 || shown == 0 ? 0 : fabs(shown) >= 10 ? 1 : fabs(shown) >= 1 ? 2 : 4;
    if (unit)
        snprintf(words, TC_WORDS_SIZE, "%s",
                 tc_unit_quantity_write(quantity, value, name->dimension, study->units, decimals));
    else
        snprintf(words, TC_WORDS_SIZE, "%s", tc_number_write(number, value, decimals, false));
    return words;
}

typedef double measure(const struct tc_uncertainty_candidate *candidate);

static double middle(const struct tc_uncertainty_candidate *c)
{
    return c->middle;
}
static double mean(const struct tc_uncertainty_candidate *c)
{
    return c->mean;
}
static double p10(const struct tc_uncertainty_candidate *c)
{
    return c->p10;
}
static double p50(const struct tc_uncertainty_candidate *c)
{
    return c->p50;
}
static double p90(const struct tc_uncertainty_candidate *c)
{
    return c->p90;
}
static double regret(const struct tc_uncertainty_candidate *c)
{
    return c->regret;
}

/* Those that are incomplete or do not suit are left out of the draws: candidate k of the study of doubt is
 * alternative[k].
 */
struct complete {
    const struct tc_uncertain *uncertain;
    int alternative[TC_CANDIDATES_MAX];
    int count;
};

static void costs_of_complete(void *context, const double values[], double costs[])
{
    const struct complete *complete = context;
    double all[TC_CANDIDATES_MAX];
    tc_uncertain_costs((void *)complete->uncertain, values, all);
    for (int k = 0; k < complete->count; k++)
        costs[k] = all[complete->alternative[k]];
}

/* A figure of the draws comes from all ranges, and from the bill at their middles. */
static void put_drawn(struct tc_sheet *sheet, const struct tc_study *study, size_t column, const char *words,
                      int draws)
{
    char number[TC_NUMBER_SIZE];
    struct tc_term *term =
        tc_term_put_worked_out(sheet, column, words,
                               tc_sheet_format(sheet, "%s draws over the ranges, tankcost-model(7), DOUBTS",
                                               tc_number_write(number, draws, 0, true)));
    if (!term)
        return;
    tc_term_add(sheet, term,
                tc_derive_present_value(tc_derive_of(sheet, study, &study->alternatives[column])));
    tc_derive_ranges(sheet, study, term);
}

static enum tc_status add_money(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct complete *complete, const struct tc_uncertainty *doubt,
                                enum tc_row_kind kind, const char *label, measure *of)
{
    enum tc_status status = TC_OK;
    tc_sheet_row(sheet, kind, label, "");
    for (int k = 0; k < complete->count; k++) {
        tc_sheet_money(sheet, (size_t)complete->alternative[k],
                       tc_money_round(of(&doubt->candidate[k]), &status), study->region.currency);
        put_drawn(sheet, study, (size_t)complete->alternative[k], label, doubt->draws);
    }
    tc_sheet_mark_lowest(sheet);
    return status;
}

static enum tc_status add_table(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct complete *complete, const struct tc_uncertainty *doubt)
{
    static const struct {
        const char *label;
        measure *of;
    } rows[] = {{"at the middle figures", middle},   {"mean of the draws", mean},
                {"likely range: from", p10},         {"half are below", p50},
                {"likely range: to (8 in 10)", p90}, {"a wrong choice costs, on average", regret}};
    tc_sheet_row(sheet, TC_ROW_GROUP, "Chance of being the cheapest to own", "");
    tc_sheet_row(sheet, TC_ROW_TOTAL, "chance", "%");
    for (int k = 0; k < complete->count; k++) {
        size_t column = (size_t)complete->alternative[k];
        tc_sheet_number(sheet, column, 100 * doubt->candidate[k].cheapest, 1);
        put_drawn(sheet, study, column, "share of the draws in which it is the cheapest", doubt->draws);
    }
    tc_sheet_mark_highest(sheet);
    tc_sheet_row(sheet, TC_ROW_LINE, "its standard error", "%");
    for (int k = 0; k < complete->count; k++) {
        size_t column = (size_t)complete->alternative[k];
        tc_sheet_number(sheet, column, 100 * doubt->candidate[k].cheapest_error, 2);
        put_drawn(sheet, study, column, "its standard error, from one chunk of draws to the next",
                  doubt->draws);
    }
    tc_sheet_row(sheet, TC_ROW_GROUP, "Present value over the period", "");
    enum tc_status status = TC_OK;
    for (size_t i = 0; status == TC_OK && i < sizeof rows / sizeof rows[0]; i++)
        status = add_money(sheet, study, complete, doubt, TC_ROW_LINE, rows[i].label, rows[i].of);
    return status;
}

/* The pictures: each candidate's band, and what each figure does to the lead of the best. */
static void add_bands(struct tc_sheet *sheet, const struct tc_study *study, const struct complete *complete,
                      const struct tc_uncertainty *doubt)
{
    double scale = tc_currency_scale(study->region.currency);
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_SPANS, 2, (size_t)complete->count);
    if (!chart)
        return;
    chart->title = "Likely range (8 in 10) of the cost to own";
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    chart->series[0].name = "likely range: from";
    chart->series[1].name = "to (8 in 10)";
    for (int k = 0; k < complete->count; k++) {
        chart->x_labels[k] = tc_sheet_copy(sheet, study->alternatives[complete->alternative[k]].head);
        chart->series[0].values[k] = doubt->candidate[k].p10 / scale;
        chart->series[1].values[k] = doubt->candidate[k].p90 / scale;
        chart->middle += doubt->candidate[k].p50 / scale / complete->count;
    }
}

static void add_bars(struct tc_sheet *sheet, const struct tc_study *study,
                     const struct tc_uncertain *uncertain, const struct complete *complete,
                     const struct tc_uncertainty *doubt)
{
    if (doubt->second < 0 || doubt->figures == 0)
        return;
    int count = doubt->figures < BARS_MAX ? doubt->figures : BARS_MAX;
    double scale = tc_currency_scale(study->region.currency);
    const char *best = study->alternatives[complete->alternative[doubt->best]].head;
    const char *second = study->alternatives[complete->alternative[doubt->second]].head;
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_SPANS, 2, (size_t)count);
    if (!chart)
        return;
    chart->title =
        tc_sheet_format(sheet, "What each range does alone to the lead of %s over %s", best, second);
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    chart->series[0].name = "at the low end";
    chart->series[1].name = "at the high end";
    chart->below = tc_sheet_format(sheet, "%s is cheaper", second);
    chart->above = tc_sheet_format(sheet, "%s is cheaper", best);
    chart->middle = (doubt->candidate[doubt->second].middle - doubt->candidate[doubt->best].middle) / scale;
    for (int i = 0; i < count; i++) {
        const struct tc_uncertainty_bar *bar = &doubt->bar[i];
        chart->x_labels[i] = tc_sheet_copy(sheet, uncertain->names[bar->figure].text);
        chart->series[0].values[i] = bar->at_low / scale;
        chart->series[1].values[i] = bar->at_high / scale;
    }
}

/* One sentence for each figure: its range and where, if anywhere, the winner changes. */
static void explain_figures(struct tc_sheet *sheet, const struct tc_study *study,
                            const struct tc_uncertain *uncertain, const struct complete *complete,
                            const struct tc_uncertainty *doubt)
{
    char low[TC_WORDS_SIZE], high[TC_WORDS_SIZE], turn[TC_WORDS_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Which guess matters most", "");
    for (int i = 0; i < doubt->figures; i++) {
        const struct tc_uncertainty_bar *bar = &doubt->bar[i];
        const struct tc_uncertain_name *name = &uncertain->names[bar->figure];
        const struct tc_spread *spread = &uncertain->spreads[bar->figure];
        const char *text = tc_sheet_format(sheet, "%s to %s", figure_words(low, study, name, spread->low),
                                           figure_words(high, study, name, spread->high));
        if (isnan(bar->turn_below) && isnan(bar->turn_above))
            text = tc_sheet_format(sheet, "%s: cannot change the winner on its own", text);
        if (!isnan(bar->turn_below) && bar->winner_below >= 0)
            text = tc_sheet_format(sheet, "%s: below %s, %s wins", text,
                                   figure_words(turn, study, name, bar->turn_below),
                                   study->alternatives[complete->alternative[bar->winner_below]].head);
        if (!isnan(bar->turn_above) && bar->winner_above >= 0)
            text = tc_sheet_format(sheet, "%s: above %s, %s wins", text,
                                   figure_words(turn, study, name, bar->turn_above),
                                   study->alternatives[complete->alternative[bar->winner_above]].head);
        enum tc_status status = TC_OK;
        tc_money worth = tc_money_round(bar->worth, &status);
        if (status == TC_OK && worth > 0)
            text = tc_sheet_format(sheet, "%s; knowing it is worth %s", text,
                                   tc_phrase_money(turn, worth, study->region.currency));
        tc_sheet_sentence(sheet, name->text, text);
    }
}

/* What a plug-in meter tells is how much heat a tank loses; knowing that is worth what choosing better saves.
 */
static void add_meter(struct tc_sheet *sheet, const struct tc_study *study,
                      const struct tc_uncertain *uncertain, const struct tc_uncertainty *doubt)
{
    char words[TC_WORDS_SIZE];
    for (int i = 0; doubt->second >= 0 && i < doubt->figures; i++) {
        enum tc_status status = TC_OK;
        tc_money worth = tc_money_round(doubt->bar[i].worth, &status);
        if (!uncertain->names[doubt->bar[i].figure].heat_loss || status != TC_OK)
            continue;
        if (worth > 0)
            tc_sheet_note(
                sheet, TC_NOTE_FINDING,
                "A week with a plug-in meter on a heater would be worth up to %s: that much less you "
                "would spend on average, choosing with the heat losses known.",
                tc_phrase_money(words, worth, study->region.currency));
        else
            tc_sheet_note(
                sheet, TC_NOTE_FINDING,
                "A week with a plug-in meter on a heater would not change the choice; it would only "
                "tell what the choice costs.");
    }
}

/* How sure the answer is, of the alternatives that were drawn. */
static void add_finding(struct tc_sheet *sheet, const struct tc_advice *advice,
                        const struct complete *complete, const struct tc_uncertainty *doubt)
{
    int surest = 0;
    char number[TC_NUMBER_SIZE];
    enum tc_status status = TC_OK;
    const struct tc_study *study = advice->study;
    for (int k = 1; k < complete->count; k++)
        if (doubt->candidate[k].cheapest > doubt->candidate[surest].cheapest)
            surest = k;
    const struct tc_uncertainty_candidate *candidate = &doubt->candidate[surest];
    const char *head = study->alternatives[complete->alternative[surest]].head;
    const char *chance = tc_number_write(number, 100 * candidate->cheapest, 1, false);
    const char *regret = tc_advice_money(sheet, study, tc_money_round(candidate->regret, &status));
    if (complete->count < 2 || status != TC_OK)
        return;
    if (candidate->cheapest < SURE)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "It is a toss-up: %s is the cheapest to own in only %s %% of the draws.", head, chance);
    else if (advice->tied > 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s is the cheapest to own in %s %% of the draws, but by so little that you may choose "
                      "by shape.",
                      head, chance);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "You can be fairly sure: %s is the cheapest to own in %s %% of the draws.", head,
                      chance);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "Choosing %s costs %s more on average than if you knew every figure.", head, regret);
}

static enum tc_status fill(struct tc_sheet *sheet, const struct tc_advice *advice,
                           const struct tc_uncertain *uncertain, const struct complete *complete,
                           const struct tc_uncertainty *doubt)
{
    char number[TC_NUMBER_SIZE];
    const struct tc_study *study = advice->study;
    enum tc_status status = add_table(sheet, study, complete, doubt);
    explain_figures(sheet, study, uncertain, complete, doubt);
    add_bars(sheet, study, uncertain, complete, doubt);
    add_bands(sheet, study, complete, doubt);
    add_finding(sheet, advice, complete, doubt);
    tc_left_out_tell(sheet, advice);
    add_meter(sheet, study, uncertain, doubt);
    tc_sheet_note(sheet, TC_NOTE_REMARK,
                  "%s draws, the same for all tanks; parts and their counts stay those bought at the middle "
                  "figures. The same seed gives the same answer.",
                  tc_number_write(number, doubt->draws, 0, true));
    return status;
}

static enum tc_status draw(struct tc_sheet *sheet, const struct tc_advice *advice, const struct tc_ask *ask,
                           struct tc_uncertain *uncertain)
{
    const struct tc_study *study = advice->study;
    struct complete complete = {.uncertain = uncertain};
    for (int i = 0; i < study->alternative_count; i++)
        if (advice->compared > 0 ? tc_rating_compared(&advice->rating[i]) : advice->rating[i].complete)
            complete.alternative[complete.count++] = i;
    if (complete.count == 0) {
        tc_sheet_note(sheet, TC_NOTE_FAULT,
                      "No tank has all its figures yet, so there is nothing to compare.");
        return TC_OK;
    }
    if (uncertain->count == 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "No figure that matters here is a range. Write one in a profile or type it here, like "
                      "'45 to 50' or '45 to 50 likely 47', to see how sure the answer is.");
    const struct tc_uncertainty_study doubt_study = {
        .candidates = complete.count,
        .figures = uncertain->count,
        .spreads = uncertain->spreads,
        .costs = costs_of_complete,
        .context = &complete,
        .draws = ask->draws > 0 ? (int)ask->draws : DEFAULT_DRAWS,
        .seed = ask->seed,
        .threads = ask->threads > 0 ? ask->threads : tc_parallel_processors(),
        .go_on = ask->go_on,
        .go_on_context = ask->context,
        .partial = ask->partial,
    };
    struct tc_uncertainty doubt = {.draws = 0};
    enum tc_status status = tc_heat_nets_make(uncertain, doubt_study.draws, doubt_study.threads);
    if (status == TC_OK)
        status = tc_uncertainty_run(&doubt_study, &doubt);
    if (status == TC_OK)
        status = fill(sheet, advice, uncertain, &complete, &doubt);
    tc_uncertainty_free(&doubt);
    return status;
}

enum tc_status tc_make_doubts(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct tc_uncertain uncertain;
    tc_sheet_start(sheet, "doubts", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    tc_phrase_head(sheet, study, "How sure is the answer, and which guess decides it",
                   study->region.currency.code);
    tc_phrase_columns(sheet, study);
    struct tc_advice advice;
    enum tc_status status = tc_uncertain_find(&uncertain, study);
    if (status == TC_OK)
        status = tc_advice_make(&advice, study);
    if (status == TC_OK)
        status = draw(sheet, &advice, ask, &uncertain);
    tc_uncertain_free(&uncertain);
    tc_note_alternatives(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
