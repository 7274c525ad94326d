/* SPDX-License-Identifier: MIT */
#include "sheet/shortlist.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "core/base/text.h"
#include "sheet/advice.h"
#include "sheet/caution.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/derive_tank.h"
#include "sheet/explain.h"
#include "sheet/need.h"
#include "sheet/phrase.h"
#include "sheet/shortlist_study.h"
#include "sheet/term.h"
#include "sheet/upkeep.h"

enum column { TO_OWN, TO_BUY, WATER, BOTTOM, SWIM, TAKES, UPKEEP, BEATEN, COLUMNS };

/*
 * Most lines of the table and names of a reason where not all are asked for; most points of the chart; most
 * lines whose figures are all opened at once.
 */
enum { LINES_MOST = 60, NAMES_MOST = 8, POINTS_MOST = 400, OPENED_MOST = 60 };

static const char *name_of(const struct tc_shortlist *list, int index)
{
    return list->tanks[index].tank->goods.name;
}

/* ------------------------------------------------------------------------------ table */

static void add_columns(struct tc_sheet *sheet, const struct tc_study *study)
{
    const char *water = tc_phrase_unit(TC_DIM_VOLUME, study->units);
    const char *area = tc_phrase_unit(TC_DIM_AREA, study->units);
    const char *length = tc_phrase_unit(TC_DIM_LENGTH, study->units);
    tc_sheet_column(sheet, TO_OWN, "to own", "");
    tc_sheet_column(sheet, TO_BUY, "to buy", "");
    tc_sheet_column(sheet, WATER, "water", water);
    tc_sheet_column(sheet, BOTTOM, "bottom", area);
    tc_sheet_column(sheet, SWIM, "to swim", length);
    tc_sheet_column(sheet, TAKES, "wall", length);
    tc_sheet_column(sheet, UPKEEP, "upkeep", "h/year");
    tc_sheet_column(sheet, BEATEN, "beaten by", "");
    if (sheet->columns)
        sheet->columns[BEATEN].words = true;
}

/* What opens the figures of one tank, where there are too many to open all at once. */
static void put_pointers(struct tc_sheet *sheet, const struct tc_study *study, const char *tank)
{
    for (size_t column = TO_OWN; column <= UPKEEP; column++)
        tc_term_put_worked_out(sheet, column, "of this tank in the plan",
                               tc_sheet_format(sheet, "tankcost explain shortlist %s '%s/tank %s'",
                                               study->plan.name, sheet->columns[column].head, tank));
}

/* How the figures of a tank came about: it is worked out once more. */
static void put_terms(struct tc_sheet *sheet, const struct tc_shortlist *list, int index)
{
    struct tc_candidate candidate;
    struct tc_alternative alternative;
    if (sheet->failed || tc_shortlist_again(list, index, &candidate, &alternative) != TC_OK)
        return;
    struct tc_derive *derive = tc_derive_of(sheet, list->study, &alternative);
    tc_term_put(sheet, TO_OWN, tc_derive_present_value(derive));
    tc_term_put(sheet, TO_BUY, tc_derive_to_buy(derive));
    tc_term_put(sheet, WATER, tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_VOLUME), TC_DIM_VOLUME));
    tc_term_put(sheet, BOTTOM, tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_BOTTOM), TC_DIM_AREA));
    tc_term_put(sheet, SWIM, tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_LENGTH), TC_DIM_LENGTH));
    tc_term_put(sheet, TAKES,
                tc_derive_shown(derive, tc_derive_size(derive, TC_SIZE_OUTER_LENGTH), TC_DIM_LENGTH));
    tc_term_put(sheet, UPKEEP, tc_derive_upkeep(derive));
    tc_derive_forget(sheet); /* the alternative goes away */
}

static void add_tank(struct tc_sheet *sheet, const struct tc_shortlist *list, const struct tc_ask *ask,
                     int index)
{
    const struct tc_study *study = list->study;
    const struct tc_listed *listed = &list->tanks[index];
    enum tc_unit_system units = study->units;
    int decimals = tc_phrase_decimals(TC_DIM_LENGTH, units);
    tc_sheet_row(sheet, TC_ROW_LINE, name_of(list, index), "");
    tc_sheet_about(sheet, tc_sheet_format(sheet, "tank %s", name_of(list, index)));
    tc_sheet_money(sheet, TO_OWN, listed->to_own, study->region.currency);
    tc_sheet_money(sheet, TO_BUY, listed->to_buy, study->region.currency);
    if (!listed->priced) {
        tc_sheet_mark(sheet, TO_OWN, TC_MARK_INCOMPLETE);
        tc_sheet_mark(sheet, TO_BUY, TC_MARK_INCOMPLETE);
    }
    tc_sheet_number(sheet, WATER, tc_phrase_value(listed->water, TC_DIM_VOLUME, units), 1);
    tc_sheet_number(sheet, BOTTOM, tc_phrase_value(listed->bottom, TC_DIM_AREA, units), 0);
    tc_sheet_number(sheet, SWIM, tc_phrase_value(listed->swim_length, TC_DIM_LENGTH, units), decimals);
    tc_sheet_number(sheet, TAKES, tc_phrase_value(listed->takes[TC_OUT_LENGTH], TC_DIM_LENGTH, units),
                    decimals);
    tc_sheet_text(sheet, UPKEEP, tc_upkeep_brief(sheet, listed->upkeep));
    if (ask->explain && !ask->explain_of && sheet->row_count > OPENED_MOST)
        put_pointers(sheet, study, name_of(list, index));
    else if (!sheet->failed && tc_figure_asked(ask, sheet->rows[sheet->row_count - 1].subject))
        put_terms(sheet, list, index);
    if (!listed->priced)
        return;
    tc_sheet_text(sheet, BEATEN, listed->beaten_by >= 0 ? name_of(list, listed->beaten_by) : "none");
}

/* So many of the tanks on the list from one on; those that are beaten by none always. */
static int add_tanks(struct tc_sheet *sheet, const struct tc_shortlist *list, const struct tc_ask *ask,
                     int from, int to)
{
    int hidden = 0;
    for (int i = from; i < to; i++) {
        if (ask->all || i - from < LINES_MOST ||
            (i < list->priced_count && list->tanks[list->ranked[i]].beaten_by < 0))
            add_tank(sheet, list, ask, list->ranked[i]);
        else
            hidden++;
    }
    return hidden;
}

static const char *order_words(const struct tc_study *study)
{
    static const char *const words[] = {
        [TC_GOAL_COST] = "Cheapest to own first",
        [TC_GOAL_WATER] = "Cheapest water first",
        [TC_GOAL_BOTTOM] = "Cheapest bottom first",
        [TC_GOAL_LENGTH] = "Cheapest length to swim first",
    };
    return words[study->plan.goal];
}

static void add_list(struct tc_sheet *sheet, const struct tc_shortlist *list, const struct tc_ask *ask)
{
    int hidden = 0;
    if (list->priced_count > 0)
        tc_sheet_row(sheet, TC_ROW_GROUP, order_words(list->study), "");
    hidden += add_tanks(sheet, list, ask, 0, list->priced_count);
    if (list->priced_count < list->ranked_count)
        tc_sheet_row(sheet, TC_ROW_GROUP, "No price for these here: the sums lack it", "");
    hidden += add_tanks(sheet, list, ask, list->priced_count, list->ranked_count);
    if (hidden > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "%d more are on the list; --all shows them.", hidden);
}

/* -------------------------------------------------------------------------- left out */

/* What a tank is left out for, and what is wrong with it, but for the animals: need.h has the words for them.
 */
static const struct {
    const char *what, *wrong;
} reasons[TC_OUT_COUNT] = {
    [TC_OUT_LENGTH] = {"place", "too long"},
    [TC_OUT_WIDTH] = {"place", "too wide"},
    [TC_OUT_HEIGHT] = {"place", "too high"},
    [TC_OUT_WEIGHT] = {"place", "too heavy"},
    [TC_OUT_REACH] = {"place", "too deep for your reach"},
    [TC_OUT_BUDGET] = {"budget", "too expensive"},
    [TC_OUT_ANIMALS] = {"animals", ""},
    [TC_OUT_EQUIPMENT] = {"parts", ""},
    [TC_OUT_FAILED] = {"figures", "cannot be worked out"},
};

/* More than there are needs and slots. */
enum { WRONGS = TC_NEED_COUNT + TC_SLOT_COUNT };

/* Which need, or which slot, a tank is left out for; 0 where the reason says it all. */
static int wrong_of(const struct tc_listed *listed, enum tc_out reason)
{
    const struct tc_lack *lack = tc_need_first(&listed->suit);
    if (reason == TC_OUT_ANIMALS)
        return lack ? (int)lack->need : WRONGS;
    return reason == TC_OUT_EQUIPMENT ? (int)listed->unfitted : 0;
}

static const char *wrong_words(struct tc_sheet *sheet, const struct tc_study *study, enum tc_out reason,
                               int wrong)
{
    if (reason == TC_OUT_ANIMALS)
        return tc_need_word((enum tc_need)wrong);
    if (reason == TC_OUT_EQUIPMENT)
        return tc_phrase_unfitted(sheet, study->offers, study->offer_count, (enum tc_slot)wrong);
    return reasons[reason].wrong;
}

/* Adds "too short: 5.5-gal, 10-gal, 15-high": all that have the same against them. */
static void add_names(struct tc_text *text, struct tc_sheet *sheet, const struct tc_shortlist *list,
                      enum tc_out reason, int wrong, bool all)
{
    int count = 0;
    for (int i = 0; i < list->count; i++) {
        const struct tc_listed *listed = &list->tanks[i];
        if (!(listed->out & (1u << reason)) || wrong_of(listed, reason) != wrong ||
            (count++ >= NAMES_MOST && !all))
            continue;
        if (count == 1)
            tc_text_addf(text, "%s%s: ", text->length > 0 ? "; " : "",
                         wrong_words(sheet, list->study, reason, wrong));
        tc_text_addf(text, "%s%s", count > 1 ? ", " : "", name_of(list, i));
    }
    if (count > NAMES_MOST && !all)
        tc_text_addf(text, " and %d more", count - NAMES_MOST);
}

static void add_left_out(struct tc_sheet *sheet, const struct tc_shortlist *list, bool all)
{
    if (list->ranked_count == list->count)
        return;
    tc_sheet_row(sheet, TC_ROW_GROUP, "Left out", "");
    for (int reason = 0, next; reason < TC_OUT_COUNT; reason = next) {
        struct tc_text text = TC_TEXT_EMPTY;
        for (next = reason; next < TC_OUT_COUNT && strcmp(reasons[next].what, reasons[reason].what) == 0;
             next++)
            for (int wrong = 0; wrong <= WRONGS; wrong++)
                add_names(&text, sheet, list, (enum tc_out)next, wrong, all);
        if (text.length > 0)
            tc_sheet_sentence(sheet, reasons[reason].what, tc_text_string(&text));
        sheet->failed = sheet->failed || text.failed;
        tc_text_free(&text);
    }
}

/* -------------------------------------------------------------------------- near misses */

/* A limit in the user's units, rounded up so that what is written is enough. */
static const char *limit_words(const struct tc_study *study, enum tc_out limit, double value,
                               char words[TC_WORDS_SIZE])
{
    static const enum tc_dimension dimensions[TC_OUT_LIMITS] = {TC_DIM_LENGTH, TC_DIM_LENGTH, TC_DIM_LENGTH,
                                                                TC_DIM_MASS,   TC_DIM_LENGTH, TC_DIM_PLAIN};
    char number[TC_NUMBER_SIZE];
    if (limit == TC_OUT_BUDGET)
        return tc_phrase_money(words, (tc_money)ceil(value), study->region.currency);
    bool eighths = tc_phrase_decimals(dimensions[limit], study->units) == TC_EIGHTHS;
    double steps = eighths ? 8 : 10;
    double shown = ceil(steps * tc_phrase_value(value, dimensions[limit], study->units) * (1 - 1e-9)) / steps;
    snprintf(words, TC_WORDS_SIZE, "%s %s",
             eighths ? tc_number_write_eighths(number, shown, false) : tc_number_write_short(number, shown),
             tc_phrase_unit(dimensions[limit], study->units));
    return words;
}

static double limit_of(const struct tc_study *study, enum tc_out limit)
{
    const struct tc_space *space = &study->plan.space;
    switch (limit) {
    case TC_OUT_LENGTH: return space->length;
    case TC_OUT_WIDTH: return space->width;
    case TC_OUT_HEIGHT: return space->height;
    case TC_OUT_WEIGHT: return space->weight;
    case TC_OUT_REACH: return space->reach;
    case TC_OUT_BUDGET: return space->budget * tc_currency_scale(study->region.currency);
    default: return 0;
    }
}

static void add_near(struct tc_sheet *sheet, const struct tc_shortlist *list, const struct tc_near_miss *near)
{
    static const char *const what[TC_OUT_LIMITS] = {"long",     "wide",    "high", "of weight allowed",
                                                    "of reach", "to spend"};
    char least[TC_WORDS_SIZE], more[TC_WORDS_SIZE];
    const struct tc_study *study = list->study;
    limit_words(study, near->limit, near->least, least);
    limit_words(study, near->limit, near->least - limit_of(study, near->limit), more);
    if (near->limit == TC_OUT_BUDGET)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "With %s more to spend, %s in all, you could have %s.", more,
                      least, name_of(list, near->tank));
    else if (near->limit == TC_OUT_WEIGHT || near->limit == TC_OUT_REACH)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "With %s %s, %s more, %s would do too.", least,
                      what[near->limit], more, name_of(list, near->tank));
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING, "In a place %s %s, %s more, %s would do too.", least,
                      what[near->limit], more, name_of(list, near->tank));
}

/* ----------------------------------------------------------------------------- findings */

/* The next tank up that no other beats: what it costs more, and what that buys. */
static void add_step(struct tc_sheet *sheet, const struct tc_shortlist *list)
{
    char more[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    const struct tc_study *study = list->study;
    const struct tc_listed *first = &list->tanks[list->ranked[0]];
    for (int i = 1; i < list->priced_count; i++) {
        const struct tc_listed *next = &list->tanks[list->ranked[i]];
        if (next->beaten_by >= 0 || next->water < 1.05 * first->water)
            continue;
        tc_money gap = tc_money_subtract(next->to_own, first->to_own, &status);
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s costs %s more to own than %s and has %.0f %% more water.",
                      name_of(list, list->ranked[i]), tc_phrase_money(more, gap, study->region.currency),
                      name_of(list, list->ranked[0]), 100 * (next->water / first->water - 1));
        return;
    }
}

/* What the plan's goal ranks a tank by. */
static double score_of(const struct tc_listed *listed, enum tc_goal goal)
{
    const struct tc_merits merits = {{
        [TC_RESPECT_COST] = (double)listed->to_own,
        [TC_RESPECT_WATER] = listed->water,
        [TC_RESPECT_BOTTOM] = listed->bottom,
        [TC_RESPECT_SWIM] = listed->swim_length,
    }};
    return tc_goal_score(&merits, goal);
}

/* How many of the priced ones, in their order, tie with the first, itself among them. */
static int count_tied(const struct tc_shortlist *list)
{
    enum tc_goal goal = list->study->plan.goal;
    double first = score_of(&list->tanks[list->ranked[0]], goal);
    int tied = 1;
    while (tied < list->priced_count &&
           tc_same_score(first, score_of(&list->tanks[list->ranked[tied]], goal)))
        tied++;
    return tied;
}

/* "20-high and 20-long cost about the same to own over 10 years: choose by shape." */
static void add_tie(struct tc_sheet *sheet, const struct tc_shortlist *list, int tied)
{
    char years[TC_WORDS_SIZE];
    const char *word = tc_goal_word(list->study->plan.goal);
    const char *others =
        tied == 2 ? name_of(list, list->ranked[1]) : tc_sheet_format(sheet, "%d more", tied - 1);
    const char *both = tc_sheet_format(sheet, "%s and %s", name_of(list, list->ranked[0]), others);
    const char *same = *word ? tc_sheet_format(sheet, "have about equally cheap %s", word)
                             : tc_sheet_format(sheet, "cost about the same to own over %s",
                                               tc_phrase_years(years, list->study->plan.years));
    tc_sheet_note(sheet, TC_NOTE_FINDING, "Of %d tanks %d will do. %s %s: choose by shape.", list->looked,
                  list->ranked_count, both, same);
}

static const char *best_words(const struct tc_study *study)
{
    static const char *const words[] = {
        [TC_GOAL_COST] = "is the cheapest",
        [TC_GOAL_WATER] = "has the cheapest water",
        [TC_GOAL_BOTTOM] = "has the cheapest bottom",
        [TC_GOAL_LENGTH] = "has the cheapest length to swim",
    };
    return words[study->plan.goal];
}

static void add_findings(struct tc_sheet *sheet, const struct tc_shortlist *list)
{
    const struct tc_study *study = list->study;
    char total[TC_WORDS_SIZE], years[TC_WORDS_SIZE];
    int unbeaten = 0;
    for (int i = 0; i < list->priced_count; i++)
        unbeaten += list->tanks[list->ranked[i]].beaten_by < 0;
    if (list->growing)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "So far %d of %d tanks were looked at: the list still grows.",
                      list->looked, list->count);
    if (list->stopped)
        tc_sheet_note(sheet, TC_NOTE_FAULT,
                      "Stopped: %d of %d tanks were looked at, so there may be better ones.", list->looked,
                      list->count);
    if (list->priced_count == 0) {
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "None of the %d tanks has a price here, suits these animals, fits the place and keeps the "
            "budget.",
            list->looked);
    } else {
        const struct tc_listed *first = &list->tanks[list->ranked[0]];
        int tied = count_tied(list);
        if (tied > 1)
            add_tie(sheet, list, tied);
        else
            tc_sheet_note(sheet, TC_NOTE_FINDING, "Of %d tanks %d will do. %s %s: %s to own over %s.",
                          list->looked, list->ranked_count, first->tank->goods.name, best_words(study),
                          tc_phrase_money(total, first->to_own, study->region.currency),
                          tc_phrase_years(years, study->plan.years));
        if (list->priced_count > 1)
            add_step(sheet, list);
    }
    for (int i = 0; i < list->near_count; i++)
        add_near(sheet, list, &list->near[i]);
    if (unbeaten > 0 && unbeaten < list->priced_count)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "A tank is beaten where another costs no more, offers no less water, bottom and length to "
            "swim, is no deeper to reach into, takes no more length of wall, and is better in one of "
            "these: %d of %d are beaten by none.",
            unbeaten, list->priced_count);
}

/* What the plan's goal asks of a tank is drawn against its cost: the water where it asks for the cost alone.
 */
static double drawn(const struct tc_listed *listed, enum tc_goal goal)
{
    return goal == TC_GOAL_BOTTOM   ? listed->bottom
           : goal == TC_GOAL_LENGTH ? listed->swim_length
                                    : listed->water;
}

/* What matters most, those that no other beats, comes first. */
static void add_chart(struct tc_sheet *sheet, const struct tc_shortlist *list)
{
    const struct tc_study *study = list->study;
    enum tc_goal goal = study->plan.goal;
    enum tc_dimension dimension = goal == TC_GOAL_BOTTOM   ? TC_DIM_AREA
                                  : goal == TC_GOAL_LENGTH ? TC_DIM_LENGTH
                                                           : TC_DIM_VOLUME;
    size_t count = (size_t)(list->priced_count < POINTS_MOST ? list->priced_count : POINTS_MOST);
    if (count < 2)
        return;
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_POINTS, 2, count);
    if (!chart)
        return;
    chart->title = tc_sheet_copy(sheet, goal == TC_GOAL_BOTTOM   ? "What the bottom costs"
                                        : goal == TC_GOAL_LENGTH ? "What the length to swim costs"
                                                                 : "What the water costs");
    chart->x_title = tc_sheet_format(sheet, "%s to own over the period", study->region.currency.code);
    chart->y_title = tc_sheet_copy(sheet, tc_phrase_unit(dimension, study->units));
    chart->decimals = goal == TC_GOAL_BOTTOM ? 0 : 1;
    chart->series[0].name = tc_sheet_copy(sheet, "beaten by none");
    chart->series[1].name = tc_sheet_copy(sheet, "beaten");
    for (size_t i = 0; i < count; i++) {
        const struct tc_listed *listed = &list->tanks[list->ranked[i]];
        int series = listed->beaten_by >= 0;
        chart->x[i] = (double)listed->to_own / tc_currency_scale(study->region.currency);
        chart->x_labels[i] = tc_sheet_copy(sheet, listed->tank->goods.name);
        chart->series[series].values[i] = tc_phrase_value(drawn(listed, goal), dimension, study->units);
        chart->series[!series].values[i] = NAN;
    }
}

static void fill(struct tc_sheet *sheet, const struct tc_shortlist *list, const struct tc_ask *ask)
{
    const struct tc_study *study = list->study;
    tc_sheet_start(sheet, "shortlist", COLUMNS);
    sheet->explained = ask->explain;
    sheet->facts = true;
    tc_phrase_head(sheet, study, "Which tanks suit, fit and keep the budget", "");
    add_columns(sheet, study);
    add_list(sheet, list, ask);
    add_left_out(sheet, list, ask->all);
    add_findings(sheet, list);
    add_chart(sheet, list);
    tc_cautions(sheet, TC_CAUTION_GLASS | TC_CAUTION_STAND | TC_CAUTION_FLOOR, study->units);
}

/* Hands out what is known so far. */
static void show(void *context, const struct tc_shortlist *known)
{
    const struct tc_ask *ask = context;
    struct tc_sheet sheet;
    fill(&sheet, known, ask);
    ask->show(ask->context, &sheet);
}

enum tc_status tc_make_shortlist(const struct tc_study *study, const struct tc_ask *ask,
                                 struct tc_sheet *sheet)
{
    struct tc_shortlist list;
    struct tc_ask asked = *ask;
    enum tc_status status = tc_shortlist_make(&list, study, ask, ask->show ? show : NULL, &asked);
    if (status == TC_OK) {
        fill(sheet, &list, ask);
        status = sheet->failed ? TC_NO_MEMORY : TC_OK;
    }
    tc_shortlist_free(&list);
    return status;
}
