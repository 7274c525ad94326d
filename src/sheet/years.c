/* SPDX-License-Identifier: MIT */
#include "sheet/years.h"

#include <stdio.h>
#include <string.h>

#include "core/cost/invest.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/wall_study.h"
#include "sheet/note.h"
#include "sheet/phrase.h"
#include "sheet/verdict.h"

/* The two ways to count: the money as it is paid, and as it is worth today. */
enum view { AS_PAID, TODAY };

/* A candidate's cumulative cost, in both views, up to the end of each year. */
struct course {
    struct tc_amount at[TC_YEARS_MAX + 1];
};

/*
 * What was paid up to the end of each year. The bill rounds each of its lines,
 * the flow none of its years: so that the years end at the bill's sum, the few
 * minor units between the two are spread over them evenly.
 */
static void follow(const struct tc_cost *cost, int years, struct course *course)
{
    tc_flow_cumulate(&cost->flow, course->at);
    double paid = (double)(cost->as_paid - cost->paid[TC_LIFE_RESALE]) - course->at[years].paid;
    double present =
        (double)(cost->present_value - cost->present[TC_LIFE_RESALE]) - course->at[years].present;
    for (int year = 1; year <= years; year++) {
        course->at[year].paid += paid * year / years;
        course->at[year].present += present * year / years;
    }
}

static double part_of(struct tc_amount amount, enum view view)
{
    return view == AS_PAID ? amount.paid : amount.present;
}

static enum tc_status add_table(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct course *courses, enum view view)
{
    enum tc_status status = TC_OK;
    int years = (int)study->plan.years;
    struct tc_currency currency = study->region.currency;
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 view == AS_PAID ? "Paid by the end of year" : "The same in today's money", "");
    for (int year = 0; year <= years; year++) {
        tc_sheet_row(sheet, TC_ROW_LINE, year == 0 ? "to buy" : tc_sheet_format(sheet, "%d", year), "");
        for (int i = 0; i < study->alternative_count; i++) {
            tc_money money = tc_money_round(part_of(courses[i].at[year], view), &status);
            tc_sheet_money(sheet, (size_t)i, money, currency);
            tc_term_put(sheet, (size_t)i,
                        tc_derive_by_year(tc_derive_of(sheet, study, &study->alternatives[i]), year,
                                          view == TODAY, money));
            if (study->alternatives[i].cost.incomplete)
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
        }
        tc_sheet_mark_lowest(sheet);
    }
    tc_sheet_row(sheet, TC_ROW_LINE, "less resale at the end", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &study->alternatives[i].cost;
        tc_sheet_money(sheet, (size_t)i,
                       view == AS_PAID ? cost->paid[TC_LIFE_RESALE] : cost->present[TC_LIFE_RESALE],
                       currency);
        struct tc_derive *derive = tc_derive_of(sheet, study, &study->alternatives[i]);
        tc_term_put(sheet, (size_t)i,
                    view == AS_PAID ? tc_derive_paid(derive, TC_LIFE_RESALE)
                                    : tc_derive_present(derive, TC_LIFE_RESALE));
    }
    tc_sheet_row(sheet, TC_ROW_TOTAL, view == AS_PAID ? "as paid" : "present value", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &study->alternatives[i].cost;
        struct tc_derive *derive = tc_derive_of(sheet, study, &study->alternatives[i]);
        tc_sheet_money(sheet, (size_t)i, view == AS_PAID ? cost->as_paid : cost->present_value, currency);
        tc_term_put(sheet, (size_t)i,
                    view == AS_PAID ? tc_derive_as_paid(derive) : tc_derive_present_value(derive));
        if (cost->incomplete)
            tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
    }
    tc_sheet_mark_lowest(sheet);
    return status;
}

static void add_chart(struct tc_sheet *sheet, const struct tc_study *study, const struct course *courses,
                      enum view view)
{
    int years = (int)study->plan.years;
    double scale = tc_currency_scale(study->region.currency);
    struct tc_chart *chart =
        tc_sheet_chart(sheet, TC_CHART_LINES, (size_t)study->alternative_count, (size_t)years + 1);
    if (!chart)
        return;
    chart->title = view == AS_PAID ? "Paid so far" : "Paid so far, in today's money";
    chart->x_title = "year";
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    for (int year = 0; year <= years; year++)
        chart->x_labels[year] = tc_sheet_format(sheet, "%d", year);
    for (int i = 0; i < study->alternative_count; i++) {
        chart->series[i].name = tc_sheet_copy(sheet, study->alternatives[i].head);
        for (int year = 0; year <= years; year++)
            chart->series[i].values[year] = part_of(courses[i].at[year], view) / scale;
    }
}

/* The same less what the cheapest to own has cost: where lines lie on one another above, they come apart. */
static void add_difference(struct tc_sheet *sheet, const struct tc_study *study, const struct course *courses)
{
    int years = (int)study->plan.years, base = tc_study_cheapest(study);
    double scale = tc_currency_scale(study->region.currency);
    if (base < 0 || study->alternative_count < 2)
        return;
    add_chart(sheet, study, courses, TODAY);
    if (sheet->failed)
        return;
    struct tc_chart *chart = &sheet->charts[sheet->chart_count - 1];
    chart->title =
        tc_sheet_format(sheet, "More than for %s so far, in today's money", study->alternatives[base].head);
    for (int i = 0; i < study->alternative_count; i++)
        for (int year = 0; year <= years; year++)
            chart->series[i].values[year] =
                (courses[i].at[year].present - courses[base].at[year].present) / scale;
}

/* Where the lines of two candidates cross in one view. */
struct crossings {
    struct tc_crossing at[TC_YEARS_MAX];
    int count;
};

static void find_crossings(const struct course *a, const struct course *b, int years, enum view view,
                           struct crossings *found)
{
    double first[TC_YEARS_MAX + 1], second[TC_YEARS_MAX + 1];
    for (int year = 0; year <= years; year++) {
        first[year] = part_of(a->at[year], view);
        second[year] = part_of(b->at[year], view);
    }
    found->count = tc_find_crossings(first, second, years, found->at);
}

static bool same_crossings(const struct crossings *a, const struct crossings *b)
{
    for (int k = 0; k < a->count && k < b->count; k++)
        if (a->at[k].year != b->at[k].year || a->at[k].first_is_lower != b->at[k].first_is_lower)
            return false;
    return a->count == b->count;
}

/* "From the end of year 4 on, 20-long has cost less so far than 29-high, as paid." */
static void note_crossings(struct tc_sheet *sheet, const struct crossings *found, const char *first,
                           const char *second, const char *how)
{
    for (int k = 0; k < found->count; k++) {
        bool lower = found->at[k].first_is_lower;
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "From the end of year %d on, %s has cost less so far than %s, %s.", found->at[k].year,
                      lower ? first : second, lower ? second : first, how);
    }
}

static void note_all_crossings(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct course *courses)
{
    int years = (int)study->plan.years;
    for (int a = 0; a < study->alternative_count; a++) {
        for (int b = a + 1; b < study->alternative_count; b++) {
            struct crossings paid, today;
            const char *first = study->alternatives[a].head, *second = study->alternatives[b].head;
            find_crossings(&courses[a], &courses[b], years, AS_PAID, &paid);
            find_crossings(&courses[a], &courses[b], years, TODAY, &today);
            if (same_crossings(&paid, &today)) {
                note_crossings(sheet, &paid, first, second, "as paid and in today's money");
                continue;
            }
            note_crossings(sheet, &paid, first, second, "as paid");
            note_crossings(sheet, &today, first, second, "in today's money");
        }
    }
}

/* "heater after 3, 6, 9 years": the steps in the lines. */
static void explain_steps(struct tc_sheet *sheet, const struct tc_study *study)
{
    int years = (int)study->plan.years;
    if (study->alternative_count > 0 && study->alternatives[0].index < 0)
        return; /* walls: too many things, each with its own steps */
    tc_sheet_row(sheet, TC_ROW_GROUP, "What is replaced, after how many years", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const char *text = "";
        for (int s = -1; s < TC_SLOT_COUNT; s++) {
            struct tc_item_life life =
                s < 0 ? tc_cost_tank_life(&alternative->c, &alternative->equipment, &alternative->prices)
                      : tc_cost_slot_life(&alternative->c, &alternative->equipment, &alternative->prices,
                                          (enum tc_slot)s);
            int count = tc_item_replacements(&life, years);
            if (count == 0)
                continue;
            text = tc_sheet_format(sheet, "%s%s%s", text, text[0] ? "; " : "",
                                   s < 0 ? "tank" : tc_slot_word((enum tc_slot)s));
            for (int k = 0; k < count; k++) {
                char number[TC_NUMBER_SIZE];
                tc_number_write(number, tc_item_replacement_time(&life, k), 1, false);
                char *point = strstr(number, ".0");
                if (point)
                    *point = '\0';
                text = tc_sheet_format(sheet, "%s%s%s", text, k > 0 ? ", " : " ", number);
            }
        }
        tc_sheet_sentence(sheet, alternative->head, text[0] ? text : "nothing within the period");
        tc_sheet_about(sheet, tc_phrase_subject(sheet, alternative->index, -1));
    }
}

/* The complete candidate that is cheapest to buy: what the others' extra money is measured against. */
static int cheapest_to_buy(const struct tc_study *study)
{
    int base = -1;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_cost *cost = &study->alternatives[i].cost;
        if (!cost->incomplete && (base < 0 || cost->to_buy < study->alternatives[base].cost.to_buy))
            base = i;
    }
    return base;
}

static void put_measure(struct tc_sheet *sheet, size_t column, struct tc_measure measure, double scale,
                        int decimals)
{
    if (measure.state == TC_MEASURE_VALID)
        tc_sheet_number(sheet, column, measure.value * scale, decimals);
    else
        tc_sheet_text(sheet, column, tc_measure_text(measure.state));
}

static void put_payback(struct tc_sheet *sheet, size_t column, struct tc_payback payback)
{
    char number[TC_NUMBER_SIZE];
    if (payback.state != TC_MEASURE_VALID)
        tc_sheet_text(sheet, column, tc_measure_text(payback.state));
    else if (payback.lasts)
        tc_sheet_number(sheet, column, payback.years, 1);
    else
        tc_sheet_text(sheet, column,
                      tc_sheet_format(sheet, "%s, but a replacement undoes it",
                                      tc_number_write(number, payback.years, 1, false)));
}

enum measure_row { EXTRA, SAVING, NET, RATIO, RETURN, SIMPLE, DISCOUNTED, MEASURE_ROWS };

/* One cell: how an alternative compares with the base. */
static void put_comparison(struct tc_sheet *sheet, size_t column, enum measure_row row,
                           const struct tc_comparison *c, const struct tc_alternative *base,
                           const struct tc_alternative *alternative, enum tc_status *status)
{
    /* The net saving is the difference of the two bills, to the minor unit; the saving follows from it. */
    struct tc_currency currency = alternative->c.region->currency;
    tc_money net = tc_money_subtract(base->cost.present_value, alternative->cost.present_value, status);
    tc_money extra = tc_money_round(c->extra_investment, status);
    switch (row) {
    case EXTRA: tc_sheet_money(sheet, column, extra, currency); break;
    case SAVING: tc_sheet_money(sheet, column, tc_money_add(net, extra, status), currency); break;
    case NET: tc_sheet_money(sheet, column, net, currency); break;
    case RATIO: put_measure(sheet, column, c->saving_to_investment, 1, 2); break;
    case RETURN: put_measure(sheet, column, c->adjusted_return, 100, 1); break;
    case SIMPLE: put_payback(sheet, column, c->simple_payback); break;
    case DISCOUNTED: put_payback(sheet, column, c->discounted_payback); break;
    case MEASURE_ROWS: break;
    }
}

/* The difference of two unrounded present values, minor units: those of a less those of b. */
static struct tc_term *difference(struct tc_sheet *sheet, const char *symbol, const char *words, double value,
                                  const struct tc_study *study, const struct tc_term *a,
                                  const struct tc_term *b)
{
    struct tc_term *term =
        tc_term_computed(sheet, symbol, words, "a - b", value / tc_currency_scale(study->region.currency),
                         study->region.currency.code);
    if (!a || !b)
        return NULL;
    tc_term_add(sheet, term, tc_term_called(sheet, a, "a", a->words));
    tc_term_add(sheet, term, tc_term_called(sheet, b, "b", b->words));
    return term;
}

/* How a comparison with the base came about. */
static const struct tc_term *derive_comparison(struct tc_sheet *sheet, enum measure_row row,
                                               const struct tc_study *study, const struct tc_comparison *c,
                                               const struct tc_alternative *base,
                                               const struct tc_alternative *alternative)
{
    struct tc_derive *own = tc_derive_of(sheet, study, alternative),
                     *other = tc_derive_of(sheet, study, base);
    struct tc_currency currency = study->region.currency;
    enum tc_status status = TC_OK;
    struct tc_term *term = NULL;
    if (!own || !other)
        return NULL;
    tc_money net = tc_money_subtract(base->cost.present_value, alternative->cost.present_value, &status);
    tc_money extra = tc_money_round(c->extra_investment, &status);
    struct tc_term *more = difference(sheet, "x", "extra investment, not rounded", c->extra_investment, study,
                                      tc_derive_invested(own), tc_derive_invested(other));
    struct tc_term *less = difference(sheet, "s", "saved in running it, not rounded", c->saving, study,
                                      tc_derive_running(other), tc_derive_running(own));
    struct tc_term *saved = tc_term_money(sheet, "N", "net saving", "P0 - P", net, currency);
    tc_term_add(sheet, saved, tc_term_called(sheet, tc_derive_present_value(other), "P0", base->head));
    tc_term_add(sheet, saved, tc_derive_present_value(own));
    struct tc_term *invested = tc_term_money(sheet, "X", "extra investment", "round(x)", extra, currency);
    tc_term_add(sheet, invested, more);
    struct tc_term *ratio =
        tc_term_computed(sheet, "r", "saving to investment", "s / x", c->saving_to_investment.value, "");
    tc_term_add(sheet, ratio, less);
    tc_term_add(sheet, ratio, more);
    switch (row) {
    case EXTRA: return invested;
    case SAVING:
        term = tc_term_money(sheet, "S", "saved in running it", "N + X", tc_money_add(net, extra, &status),
                             currency);
        tc_term_add(sheet, term, saved);
        tc_term_add(sheet, term, invested);
        return term;
    case NET: return saved;
    case RATIO: return ratio;
    case RETURN:
        term = tc_term_computed(sheet, "A", "adjusted internal rate of return",
                                "100 × ((1 + d) × r^(1 / n) - 1)", 100 * c->adjusted_return.value, "%");
        tc_term_add(sheet, term, tc_derive_discount(own));
        tc_term_add(sheet, term, ratio);
        tc_term_add(sheet, term, tc_derive_years(own));
        return term;
    case SIMPLE:
    case DISCOUNTED:
        term = tc_term_leaf(
            sheet, "T", "years until it has paid back",
            row == SIMPLE ? c->simple_payback.years : c->discounted_payback.years, "years",
            (struct tc_source){TC_TERM_SIMULATED,
                               "followed year by year: tankcost-model(7), BETWEEN TWO CANDIDATES"});
        tc_term_add(sheet, term, tc_derive_to_buy(own));
        tc_term_add(sheet, term, tc_term_called(sheet, tc_derive_to_buy(other), "I0", base->head));
        tc_term_add(sheet, term, less);
        return term;
    case MEASURE_ROWS: break;
    }
    return NULL;
}

/* Whether the last row has a figure in a column. */
static bool is_figure(const struct tc_sheet *sheet, size_t column)
{
    if (sheet->row_count == 0 || !sheet->rows[sheet->row_count - 1].cells)
        return false;
    enum tc_cell_kind kind = sheet->rows[sheet->row_count - 1].cells[column].kind;
    return kind == TC_CELL_MONEY || kind == TC_CELL_NUMBER;
}

/* The rows of the measures, one column for each candidate but the base. */
static enum tc_status add_measures(struct tc_sheet *sheet, const struct tc_study *study)
{
    static const struct {
        const char *label, *unit;
    } rows[MEASURE_ROWS] = {
        {"extra investment, present value", ""},
        {"saved in running it, present value", ""},
        {"net saving", ""},
        {"saving-to-investment ratio", ""},
        {"adjusted internal rate of return", "%"},
        {"simple payback", "years"},
        {"discounted payback", "years"},
    };
    int base = cheapest_to_buy(study);
    if (base < 0 || study->alternative_count < 2)
        return TC_OK;
    struct tc_comparison comparison[TC_CANDIDATES_MAX];
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
        status = tc_compare(&study->alternatives[base].cost.flow, &study->alternatives[i].cost.flow,
                            &comparison[i]);
    if (status != TC_OK)
        return status;
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 tc_sheet_format(sheet, "Against %s, the cheapest to buy", study->alternatives[base].head),
                 "");
    for (int row = 0; row < MEASURE_ROWS; row++) {
        tc_sheet_row(sheet, row == NET ? TC_ROW_TOTAL : TC_ROW_LINE, rows[row].label, rows[row].unit);
        for (int i = 0; i < study->alternative_count; i++) {
            if (i == base)
                tc_sheet_text(sheet, (size_t)i, "–");
            else if (study->alternatives[i].cost.incomplete)
                tc_sheet_missing(sheet, (size_t)i, "incomplete");
            else {
                put_comparison(sheet, (size_t)i, (enum measure_row)row, &comparison[i],
                               &study->alternatives[base], &study->alternatives[i], &status);
                if (sheet->explained && is_figure(sheet, (size_t)i))
                    tc_term_put(sheet, (size_t)i,
                                derive_comparison(sheet, (enum measure_row)row, study, &comparison[i],
                                                  &study->alternatives[base], &study->alternatives[i]));
            }
        }
    }
    return status;
}

enum tc_status tc_make_years(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    if (ask->walls)
        return tc_wall_study_ask(tc_make_years, study, ask, sheet);
    char title[96], years[TC_WORDS_SIZE];
    struct tc_advice advice;
    tc_sheet_start(sheet, "years", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    struct course *courses = tc_sheet_memory(sheet, (size_t)study->alternative_count + 1, sizeof *courses);
    if (!courses)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->alternative_count; i++)
        follow(&study->alternatives[i].cost, (int)study->plan.years, &courses[i]);
    snprintf(title, sizeof title, "What each has cost, year by year, over %s",
             tc_phrase_years(years, study->plan.years));
    tc_phrase_head(sheet, study, title, study->region.currency.code);
    tc_phrase_columns(sheet, study);

    enum tc_status status = add_table(sheet, study, courses, AS_PAID);
    if (status == TC_OK)
        status = add_table(sheet, study, courses, TODAY);
    if (status == TC_OK)
        status = add_measures(sheet, study);
    explain_steps(sheet, study);
    add_chart(sheet, study, courses, TODAY);
    add_difference(sheet, study, courses);
    add_chart(sheet, study, courses, AS_PAID);
    if (status == TC_OK)
        status = tc_advice_make(&advice, study);
    if (status == TC_OK)
        tc_verdict_tell(sheet, &advice);
    note_all_crossings(sheet, study, courses);
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "Net saving, ratio, return and payback are those of NIST Handbook 135; the ratio is at least "
        "1 exactly where the net saving is not negative. They say whether the costlier purchase pays, "
        "not which is best: that is the lowest present value.");
    tc_note_not_counted(sheet, study);
    tc_note_alternatives(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
