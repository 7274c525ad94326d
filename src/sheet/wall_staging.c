/* SPDX-License-Identifier: MIT */
#include "sheet/wall_staging.h"

#include "sheet/phrase.h"
#include "sheet/term.h"

enum tc_status tc_staging_days(const struct tc_staging *staging, int month, struct tc_date *first,
                               struct tc_date *next)
{
    struct tc_date today = staging->wall_study->study->today;
    enum tc_status status = tc_date_add_months(today, month, first);
    return status == TC_OK ? tc_date_add_months(today, month + 1, next) : status;
}

static const char *name_of(const struct tc_staging *staging, int model)
{
    return staging->wall_study->alternatives[model].c.tank.goods.name;
}

/* Appends "3 × 20-long (sale tank-fair)". */
static void append(struct tc_sheet *sheet, const char **text, int count, const char *name, const char *how)
{
    if (count > 0)
        *text = tc_sheet_format(sheet, "%s%s%d × %s%s%s%s", *text, (*text)[0] ? ", " : "", count, name,
                                how ? " (" : "", how ? how : "", how ? ")" : "");
}

/* What is bought in a month, in words; *tanks: how many tanks; *step: how far the steps are before it. */
static const char *month_words(struct tc_sheet *sheet, const struct tc_staging *staging, int month, int *step,
                               int *tanks)
{
    const struct tc_stage_month *bought = &staging->answer.month[month];
    const char *text = "";
    int models[TC_CANDIDATES_MAX] = {0};
    for (int i = 0; i < bought->steps; i++, ++*step) {
        const struct tc_stage_thing *s = &staging->step[*step];
        if (s->model < 0)
            text = tc_sheet_format(sheet, "%s%srack of bay %d%s", text, text[0] ? ", " : "", s->bay + 1,
                                   s->bay == 0 ? " and what all tanks share" : "");
        else
            models[s->model]++;
    }
    for (int i = 0; i < staging->layout->mix.models; i++) {
        int kind = staging->kind_of[i];
        int count = kind < 0 ? models[i] : bought->count[kind];
        int on_sale = kind < 0 ? 0 : bought->on_sale[kind];
        *tanks += count;
        append(sheet, &text, on_sale, name_of(staging, i),
               on_sale > 0 ? tc_sheet_format(sheet, "sale %s", staging->sale[i][month]->name) : NULL);
        append(sheet, &text, count - on_sale, name_of(staging, i), NULL);
    }
    return text;
}

/* ", of it 35.00 delivery". */
static const char *delivery_words(struct tc_sheet *sheet, const struct tc_staging *staging, int month)
{
    char money[TC_WORDS_SIZE];
    tc_money delivery = staging->answer.month[month].delivery;
    if (delivery == 0)
        return "";
    return tc_sheet_format(sheet, "; delivery %s",
                           tc_phrase_money(money, delivery, staging->wall_study->study->region.currency));
}

/* ------------------------------------------------------------------ how its sums came about */

/* The next symbol of parts that are numbered: "a1", "a2", ... */
static const char *next_symbol(struct tc_sheet *sheet, int *parts)
{
    return tc_sheet_format(sheet, "a%d", ++*parts);
}

static double major(const struct tc_staging *staging, tc_money money)
{
    return (double)money / tc_currency_scale(staging->wall_study->study->region.currency);
}

/* So many things at one price. */
static void add_things(struct tc_sheet *sheet, const struct tc_staging *staging, struct tc_term *sum,
                       int *parts, int count, const char *name, const char *why, tc_money each)
{
    struct tc_currency currency = staging->wall_study->study->region.currency;
    if (count == 0)
        return;
    struct tc_term *term = tc_term_computed(sheet, next_symbol(sheet, parts), name, "q × p",
                                            count * major(staging, each), currency.code);
    tc_term_add(
        sheet, term,
        tc_term_leaf(sheet, "q", "so many of them", count, "",
                     (struct tc_source){TC_TERM_SIMULATED, "by the money and the sales of each month: "
                                                           "tankcost-model(7), THE WALL"}));
    tc_term_add(sheet, term,
                tc_term_leaf(sheet, "p", "price of one, with its parts and tax", major(staging, each),
                             currency.code, (struct tc_source){TC_TERM_SIMULATED, why}));
    tc_term_add(sheet, sum, term);
}

/* What is paid in a month; step: how far the steps are before it. */
static const struct tc_term *month_term(struct tc_sheet *sheet, const struct tc_staging *staging, int month,
                                        int step)
{
    const struct tc_stage_month *bought = &staging->answer.month[month];
    const struct tc_stages *stages = &staging->stages;
    int parts = 0;
    struct tc_term *sum = tc_term_money(sheet, tc_sheet_format(sheet, "M%d", month + 1), "what is paid then",
                                        "sum", bought->paid, staging->wall_study->study->region.currency);
    for (int i = step; i < step + bought->steps; i++)
        if (staging->step[i].model < 0)
            add_things(sheet, staging, sum, &parts, 1,
                       tc_sheet_format(sheet, "rack of bay %d", staging->step[i].bay + 1),
                       staging->step[i].bay == 0 ? "with all that the tanks share: the list above"
                                                 : "tiers of it, with tax: the list above",
                       stages->step[i].paid);
        else
            add_things(sheet, staging, sum, &parts, 1, name_of(staging, staging->step[i].model),
                       "at list price: the list above", stages->step[i].paid);
    for (int k = 0; k < stages->kind_count; k++) {
        const struct tc_stage_kind *kind = &stages->kind[k];
        int model = staging->model_of[k], on_sale = bought->on_sale[k];
        if (on_sale > 0)
            add_things(sheet, staging, sum, &parts, on_sale, name_of(staging, model),
                       tc_sheet_format(sheet, "in sale %s", staging->sale[model][month]->name),
                       kind->sale[month].paid);
        add_things(sheet, staging, sum, &parts, bought->count[k] - on_sale, name_of(staging, model),
                   "at list price: the list above", kind->list.paid);
    }
    if (bought->delivery > 0)
        add_things(sheet, staging, sum, &parts, 1, "delivery", "of one order, by the region",
                   bought->delivery);
    return sum;
}

static void add_months(struct tc_sheet *sheet, const struct tc_staging *staging, size_t count, size_t sum)
{
    static const char by_stages[] =
        "from what each month's money and sales allow: tankcost-model(7), THE WALL";
    struct tc_currency currency = staging->wall_study->study->region.currency;
    char words[TC_WORDS_SIZE];
    int step = 0, all = 0;
    struct tc_term *total = sheet->explained ? tc_term_money(sheet, "P", "what is paid in all months", "sum",
                                                             staging->answer.paid, currency)
                                             : NULL;
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 tc_sheet_format(sheet, "What to buy when, with %s a month",
                                 tc_phrase_money(words, staging->stages.a_month, currency)),
                 "");
    for (int m = 0; m < staging->answer.months; m++) {
        struct tc_date first, next;
        int tanks = 0, before = step;
        const char *what = month_words(sheet, staging, m, &step, &tanks);
        if (!what[0] || tc_staging_days(staging, m, &first, &next) != TC_OK)
            continue;
        const char *label = tc_sheet_format(sheet, "from %s", tc_phrase_date(words, first));
        tc_sheet_row(sheet, TC_ROW_LINE, label, "");
        tc_sheet_about(sheet, tc_sheet_format(sheet, "month %d", m + 1));
        tc_sheet_number(sheet, count, tanks, 0);
        tc_term_put_worked_out(sheet, count, "tanks bought then", by_stages);
        tc_sheet_money(sheet, sum, staging->answer.month[m].paid, currency);
        if (sheet->explained) {
            const struct tc_term *paid = month_term(sheet, staging, m, before);
            tc_term_put(sheet, sum, paid);
            tc_term_add(sheet, total, paid);
        }
        tc_sheet_sentence(sheet, "", tc_sheet_format(sheet, "%s%s", what, delivery_words(sheet, staging, m)));
        tc_sheet_about(sheet, tc_sheet_format(sheet, "things of month %d", m + 1));
        all += tanks;
    }
    tc_sheet_row(sheet, TC_ROW_SUBTOTAL, "to buy, in stages", "");
    tc_sheet_number(sheet, count, all, 0);
    tc_term_put_worked_out(sheet, count, "tanks bought in all", by_stages);
    tc_sheet_money(sheet, sum, staging->answer.paid, currency);
    tc_term_put(sheet, sum, total);
}

static void note_stages(struct tc_sheet *sheet, const struct tc_staging *staging)
{
    const struct tc_wall_study *wall_study = staging->wall_study;
    struct tc_currency currency = wall_study->study->region.currency;
    const struct tc_stages_answer *answer = &staging->answer;
    char each[TC_WORDS_SIZE], sum[TC_WORDS_SIZE], gap[TC_WORDS_SIZE];
    tc_money once = staging->layout->cost.to_buy, less = once - answer->paid;
    tc_phrase_money(each, staging->stages.a_month, currency);
    tc_phrase_money(sum, answer->paid, currency);
    tc_phrase_money(gap, less < 0 ? -less : less, currency);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "With %s a month you have it all in month %d, for %s: %s %s than all at once today.", each,
                  answer->months, sum, gap, less < 0 ? "more" : "less");
    if (staging->soonest.months < answer->months)
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "Without waiting for sales it is all there in month %d, for %s: 'wall/months' = %d plans that.",
            staging->soonest.months, tc_phrase_money(sum, staging->soonest.paid, currency),
            staging->soonest.months);
    if (answer->months > wall_study->study->plan.wall.months)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "The %d months of 'wall/months' are too few for %s a month.",
                      wall_study->study->plan.wall.months, each);
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "In stages: the least sum for which all is there in time, then the earliest. What is left of "
        "a month may be spent later. Bays come in their order, each tank with its parts.");
    if (staging->simplified)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "There are too many tanks in sales to look at all: some are taken at list price.");
}

void tc_staging_tell_none(struct tc_sheet *sheet, const struct tc_staging *staging)
{
    char each[TC_WORDS_SIZE];
    tc_sheet_note(sheet, TC_NOTE_FINDING, "With %s a month not all of it can be bought in %d months.",
                  tc_phrase_money(each, staging->stages.a_month, staging->wall_study->study->region.currency),
                  TC_STAGE_MONTHS_MAX);
}

void tc_staging_tell(struct tc_sheet *sheet, const struct tc_staging *staging, size_t count, size_t sum)
{
    add_months(sheet, staging, count, sum);
    note_stages(sheet, staging);
}
