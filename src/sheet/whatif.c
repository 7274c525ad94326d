/* SPDX-License-Identifier: MIT */
#include "sheet/whatif.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/name.h"
#include "profile/kind.h"
#include "sheet/note.h"
#include "sheet/derive_life.h"
#include "sheet/explain.h"
#include "sheet/phrase.h"
#include "sheet/study_make.h"

/* What is varied where nothing is named. */
#define DEFAULT_VARY "plan/years=1..20 years"

enum { STEPS = 20, BISECTIONS = 40, MOST_STEPS = 60 };

/* An assumption going from one value to another, all in the unit it was written with. */
struct sweep {
    char path[2 * TC_NAME_SIZE];
    char unit[32]; /* " C", " / kWh", as written behind the figures */
    double from, to;
    bool whole; /* takes whole figures only */
    int steps;
};

/* What one point of the sweep costs. */
struct point {
    double at;
    int best;                          /* complete candidate with the lowest present value, or -1 */
    tc_money value[TC_CANDIDATES_MAX]; /* by place in the plan */
    bool known[TC_CANDIDATES_MAX];
    const struct tc_term *term[TC_CANDIDATES_MAX]; /* how the value came about, where that is asked */
};

static enum tc_status refuse(const struct tc_ask *ask, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static enum tc_status refuse(const struct tc_ask *ask, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    if (ask->problem)
        vsnprintf(ask->problem, TC_PROBLEM_SIZE, format, arguments);
    va_end(arguments);
    return TC_SYNTAX;
}

/* Turns "room" into "region/room"; a name with a slash is taken as it is. */
static enum tc_status find_path(const struct tc_ask *ask, const char *name, size_t length,
                                struct sweep *sweep)
{
    static const char *const kinds[] = {"plan", "region", "setup"};
    const char *nearest = NULL;
    if (length >= sizeof sweep->path)
        return refuse(ask, "the name of what to vary is too long");
    snprintf(sweep->path, sizeof sweep->path, "%.*s", (int)length, name);
    for (char *c = sweep->path; *c; c++)
        *c = tc_name_lower(*c);
    if (strchr(sweep->path, '/'))
        return TC_OK;
    char key[2 * TC_NAME_SIZE];
    memcpy(key, sweep->path, sizeof key);
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const struct tc_key_table *table = tc_key_table_find(kinds[i]);
        if (tc_key_find(table, key)) {
            snprintf(sweep->path, sizeof sweep->path, "%s/%.47s", kinds[i], key);
            return TC_OK;
        }
        if (!nearest)
            nearest = tc_key_nearest(table, key);
    }
    if (nearest)
        return refuse(ask, "there is no assumption '%s'; did you mean '%s'?", key, nearest);
    return refuse(ask, "there is no assumption '%s'; name a key of the plan, the region or the setup", key);
}

/* Whether the figure at path is counted in wholes. */
static bool is_whole(const char *path)
{
    char kind[TC_NAME_SIZE];
    size_t length = strcspn(path, "/ ");
    snprintf(kind, sizeof kind, "%.*s", (int)length, path);
    const struct tc_key_table *table = tc_key_table_find(kind);
    const char *slash = strchr(path, '/');
    const struct tc_key *key = table && slash ? tc_key_find(table, slash + 1) : NULL;
    return key && (key->form == TC_KEY_COUNT || key->step > 0);
}

/* A sweep over wholes: each of them, or evenly spread ones of them. */
static enum tc_status keep_to_wholes(const struct tc_ask *ask, const char *range, struct sweep *sweep)
{
    sweep->whole = true;
    sweep->from = ceil(sweep->from);
    sweep->to = floor(sweep->to);
    double span = sweep->to - sweep->from;
    if (!(span >= 1))
        return refuse(ask, "'%s' holds fewer than two whole figures", range);
    sweep->steps = span <= MOST_STEPS ? (int)span : (int)ceil(span / ceil(span / MOST_STEPS));
    return TC_OK;
}

/* Reads "NAME=FROM..TO UNIT". */
static enum tc_status read_sweep(const struct tc_ask *ask, struct sweep *sweep)
{
    const char *text = ask->vary ? ask->vary : DEFAULT_VARY;
    const char *equals = strchr(text, '='), *end;
    *sweep = (struct sweep){.steps = STEPS};
    if (!equals)
        return refuse(ask, "say what to vary like 'region/room=16..24 C', not '%s'", text);
    enum tc_status status = find_path(ask, text, (size_t)(equals - text), sweep);
    if (status != TC_OK)
        return status;
    /* "16..24" starts with a number followed by a point: read up to the two points by hand. */
    const char *dots = strstr(equals + 1, "..");
    char from[TC_NUMBER_SIZE];
    if (!dots || (size_t)(dots - equals - 1) >= sizeof from)
        return refuse(ask, "'%s' is not a range; write it like '16..24 C'", equals + 1);
    snprintf(from, sizeof from, "%.*s", (int)(dots - equals - 1), equals + 1);
    if (tc_number_read(from, &end, &sweep->from) != TC_OK || *end != '\0' ||
        tc_number_read(dots + 2, &end, &sweep->to) != TC_OK || strlen(end) >= sizeof sweep->unit - 1)
        return refuse(ask, "'%s' is not a range; write it like '16..24 C', the unit once, at the end",
                      equals + 1);
    if (!(sweep->from < sweep->to))
        return refuse(ask, "'%s' does not rise; write the lower figure first", equals + 1);
    if (*end == '\0' && strcmp(sweep->path, "plan/years") == 0)
        end = " years"; /* as --years does */
    snprintf(sweep->unit, sizeof sweep->unit, "%s%s", *end && *end != ' ' ? " " : "", end);
    return is_whole(sweep->path) ? keep_to_wholes(ask, equals + 1, sweep) : TC_OK;
}

static double at_step(const struct sweep *sweep, int step)
{
    double at = sweep->from + (sweep->to - sweep->from) * step / sweep->steps;
    return sweep->whole ? round(at) : at;
}

/* "20.5 C" */
static char *value_text(const struct sweep *sweep, double at, char *text)
{
    char number[TC_NUMBER_SIZE];
    bool one_year = at == 1 && strcmp(sweep->unit, " years") == 0;
    tc_number_write_short(number, at);
    if (sweep->unit[0] == '\0' && at != round(at))
        tc_number_write(number, at, 6, false); /* of an amount, three decimals could be thousands */
    snprintf(text, TC_NUMBER_SIZE + 32, "%s%s", number, one_year ? " year" : sweep->unit);
    return text;
}

/* What the candidates cost with the assumption at a value; how that came about goes into the sheet, if any.
 */
static void take_costs(const struct tc_study *varied, struct tc_sheet *sheet, struct point *point)
{
    for (int i = 0; i < varied->alternative_count; i++) {
        const struct tc_alternative *alternative = &varied->alternatives[i];
        point->value[alternative->index] = alternative->cost.present_value;
        point->known[alternative->index] = !alternative->cost.incomplete;
        if (sheet)
            point->term[alternative->index] =
                tc_derive_present_value(tc_derive_of(sheet, varied, alternative));
    }
    if (sheet)
        tc_derive_forget(sheet); /* the study goes away */
}

/* Works the plan out with the assumption at a value; the sheet: NULL where nobody asks how it came about. */
static enum tc_status work_out(const struct tc_study *study, const struct tc_ask *ask,
                               const struct sweep *sweep, double at, struct tc_sheet *sheet,
                               struct point *point)
{
    char text[TC_NUMBER_SIZE + 32], problem[TC_PROBLEM_SIZE];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_study varied;
    struct tc_plan *plan = malloc(sizeof *plan);
    *point = (struct point){.at = at, .best = -1};
    if (!plan)
        return TC_NO_MEMORY;
    *plan = study->plan;
    enum tc_status status = TC_OK;
    if (!tc_plan_set(plan, sweep->path, value_text(sweep, at, text), problem))
        status = refuse(ask, "%s = %s: %s", sweep->path, text, problem);
    if (status == TC_OK) {
        status = tc_study_make(&varied, study->stock, plan, study->today, &faults);
        if (status == TC_OK)
            take_costs(&varied, tc_figure_asked(ask, text) ? sheet : NULL, point);
        int best = tc_study_cheapest(&varied);
        point->best = best >= 0 ? varied.alternatives[best].index : -1;
        if (status == TC_SYNTAX && tc_faults_count(&faults) > 0)
            refuse(ask, "%s = %s: %s", sweep->path, text, tc_faults_at(&faults, 0)->text);
        tc_study_free(&varied);
    }
    tc_faults_free(&faults);
    free(plan);
    return status;
}

/* The heads of candidates by their place in the plan. */
static const char *head(const struct tc_study *study, int index)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (study->alternatives[i].index == index)
            return study->alternatives[i].head;
    return "";
}

/* Narrows two points with different winners down to where the lead of the lower one's ends. */
static enum tc_status bisect(const struct tc_study *study, const struct tc_ask *ask,
                             const struct sweep *sweep, struct point *low, struct point *high)
{
    for (int i = 0; i < BISECTIONS && !(sweep->whole && high->at - low->at <= 1); i++) {
        struct point middle;
        double at = low->at + (high->at - low->at) / 2;
        if (ask->go_on && !ask->go_on(ask->context, 1))
            return TC_STOPPED;
        enum tc_status status = work_out(study, ask, sweep, sweep->whole ? floor(at) : at, NULL, &middle);
        if (status != TC_OK)
            return status;
        if (middle.best == low->best)
            *low = middle;
        else
            *high = middle;
    }
    return TC_OK;
}

/* A value as it is told: to three digits, or whole where only whole ones count. */
static double told(const struct sweep *sweep, double value)
{
    if (sweep->whole || value == 0)
        return value;
    double unit = pow(10, floor(log10(fabs(value))) - 2);
    return round(value / unit) * unit;
}

/* Tells where between two points the lead changes: more than once, where a third leads in between. */
static enum tc_status note_changes(struct tc_sheet *sheet, const struct tc_study *study,
                                   const struct tc_ask *ask, const struct sweep *sweep, struct point low,
                                   const struct point *end)
{
    char text[TC_NUMBER_SIZE + 32];
    for (int i = 0; i < TC_CANDIDATES_MAX && low.best != end->best; i++) {
        struct point high = *end;
        enum tc_status status = bisect(study, ask, sweep, &low, &high);
        if (status != TC_OK)
            return status;
        if (high.best >= 0 && low.best >= 0)
            tc_sheet_note(sheet, TC_NOTE_FINDING, "%s %s, %s is the cheapest to own; below that, %s.",
                          sweep->whole ? "From" : "Above", value_text(sweep, told(sweep, high.at), text),
                          head(study, high.best), head(study, low.best));
        low = high;
    }
    return TC_OK;
}

static void add_table(struct tc_sheet *sheet, const struct tc_study *study, const struct sweep *sweep,
                      const struct point *points)
{
    char text[TC_NUMBER_SIZE + 32];
    tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "Cost to own where %s is", sweep->path), "");
    for (int step = 0; step <= sweep->steps; step++) {
        tc_sheet_row(sheet, TC_ROW_LINE, value_text(sweep, points[step].at, text), "");
        for (int i = 0; i < study->alternative_count; i++) {
            int index = study->alternatives[i].index;
            tc_sheet_money(sheet, (size_t)i, points[step].value[index], study->region.currency);
            tc_term_put(sheet, (size_t)i, points[step].term[index]);
            if (!points[step].known[index])
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_INCOMPLETE);
        }
        tc_sheet_mark_lowest(sheet);
    }
}

static void add_chart(struct tc_sheet *sheet, const struct tc_study *study, const struct sweep *sweep,
                      const struct point *points)
{
    char number[TC_NUMBER_SIZE];
    double scale = tc_currency_scale(study->region.currency);
    struct tc_chart *chart =
        tc_sheet_chart(sheet, TC_CHART_LINES, (size_t)study->alternative_count, (size_t)sweep->steps + 1);
    if (!chart)
        return;
    chart->title = "Present value";
    chart->x_title = tc_sheet_format(sheet, "%s,%s", sweep->path, sweep->unit);
    chart->y_title = tc_sheet_copy(sheet, study->region.currency.code);
    for (int step = 0; step <= sweep->steps; step++) {
        chart->x[step] = points[step].at;
        chart->x_labels[step] = tc_sheet_copy(sheet, tc_number_write_short(number, points[step].at));
    }
    for (int i = 0; i < study->alternative_count; i++) {
        int index = study->alternatives[i].index;
        chart->series[i].name = tc_sheet_copy(sheet, study->alternatives[i].head);
        for (int step = 0; step <= sweep->steps; step++)
            chart->series[i].values[step] =
                points[step].known[index] ? (double)points[step].value[index] / scale : NAN;
    }
}

/* Works out each step; where it is stopped, sweep->steps becomes what is known, if anything is wanted of it.
 */
static enum tc_status work_out_steps(struct tc_sheet *sheet, const struct tc_study *study,
                                     const struct tc_ask *ask, struct sweep *sweep, struct point *points)
{
    for (int step = 0; step <= sweep->steps; step++) {
        enum tc_status status = work_out(study, ask, sweep, at_step(sweep, step), sheet, &points[step]);
        if (status != TC_OK)
            return status;
        if (step == sweep->steps || !ask->go_on || ask->go_on(ask->context, (double)step / sweep->steps))
            continue;
        if (step == 0 || !ask->partial)
            return TC_STOPPED;
        tc_sheet_note(sheet, TC_NOTE_FAULT, "Stopped: %d of %d steps were worked out.", step + 1,
                      sweep->steps + 1);
        sweep->steps = step;
    }
    return TC_OK;
}

static enum tc_status run(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_ask *ask,
                          struct sweep *sweep)
{
    int steps = sweep->steps;
    struct point *points = tc_sheet_memory(sheet, (size_t)steps + 1, sizeof *points);
    if (!points)
        return TC_NO_MEMORY;
    enum tc_status status = work_out_steps(sheet, study, ask, sweep, points);
    if (status != TC_OK)
        return status;
    add_table(sheet, study, sweep, points);
    add_chart(sheet, study, sweep, points);
    bool changes = false, stopped = sweep->steps < steps;
    for (int step = 0; !stopped && step < sweep->steps; step++) {
        if (points[step].best == points[step + 1].best)
            continue;
        changes = true;
        status = note_changes(sheet, study, ask, sweep, points[step], &points[step + 1]);
        if (status != TC_OK && !(status == TC_STOPPED && ask->partial))
            return status;
        stopped = status == TC_STOPPED;
    }
    if (!changes && !stopped && points[0].best >= 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s is the cheapest to own over the whole range.",
                      head(study, points[0].best));
    return TC_OK;
}

enum tc_status tc_make_whatif(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct sweep sweep;
    tc_sheet_start(sheet, "whatif", (size_t)study->alternative_count);
    sheet->explained = ask->explain;
    enum tc_status status = read_sweep(ask, &sweep);
    if (status != TC_OK)
        return status;
    tc_phrase_head(sheet, study, tc_sheet_format(sheet, "What each costs to own as %s varies", sweep.path),
                   study->region.currency.code);
    tc_phrase_columns(sheet, study);
    status = run(sheet, study, ask, &sweep);
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "At each step the plan is worked out again, so a jump in a line is a part that no longer fits "
        "or another that became the cheapest.");
    tc_note_alternatives(sheet, study);
    return status != TC_OK ? status : sheet->failed ? TC_NO_MEMORY : TC_OK;
}
