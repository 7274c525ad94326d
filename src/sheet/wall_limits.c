/* SPDX-License-Identifier: MIT */
#include "sheet/wall_limits.h"

#include <math.h>
#include <stdio.h>

#include "sheet/wall_study_sensitivity.h"
#include "sheet/phrase.h"

static const struct kind {
    enum tc_wall_limit limit;
    const char *label, *path;           /* path: of the plan, where it is typed */
    const char *more_label, *more_path; /* of further stretches and circuits; NULL: there is one */
    enum tc_dimension dimension;
} limits[] = {
    {TC_WALL_LIMIT_LENGTH, "wall length", "wall/length", "length of stretch %d", "wall/length-%d",
     TC_DIM_LENGTH},
    {TC_WALL_LIMIT_HEIGHT, "height", "wall/height", "height of stretch %d", "wall/height-%d", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_DEPTH, "depth", "wall/depth", "depth of stretch %d", "wall/depth-%d", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_REACH, "reach", "wall/reach", NULL, NULL, TC_DIM_LENGTH},
    {TC_WALL_LIMIT_TIER_RATING, "load rating of a shelf", "wall/rack-load", NULL, NULL, TC_DIM_MASS},
    {TC_WALL_LIMIT_FLOOR, "floor load", "wall/floor-load", NULL, NULL, TC_DIM_PRESSURE},
    {TC_WALL_LIMIT_POWER, "circuit", "wall/circuit-current", "circuit %d", "wall/circuit-%d-current",
     TC_DIM_POWER},
    {TC_WALL_LIMIT_BUDGET, "budget", "wall/budget", NULL, NULL, TC_DIM_PLAIN},
};

enum { KINDS = sizeof limits / sizeof limits[0], LIMITS_MAX = KINDS + 3 * TC_WALL_STRETCHES_MAX };

/* A limit that the wall of a plan has. */
struct binding {
    const struct kind *kind;
    struct tc_wall_limit_at at;
    const char *label, *path;
};

/* The number in its keys of the nth further stretch or circuit that the plan has. */
static int number_of(const double figures[3], int nth)
{
    int i = 0;
    while (i < 2 && (!(figures[i] > 0) || nth-- > 0))
        i++;
    return i + 2;
}

/* The plan's figures for heights or depths of further stretches; NULL: every one has its own limit. */
static const double *own_of(const struct tc_wall_plan *plan, enum tc_wall_limit limit)
{
    return limit == TC_WALL_LIMIT_HEIGHT  ? plan->more_height
           : limit == TC_WALL_LIMIT_DEPTH ? plan->more_depth
                                          : NULL;
}

/* The limits of one kind: the first, then those of further stretches or circuits that have their own. */
static int list_kind(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const struct kind *kind,
                     struct binding *list)
{
    const struct tc_wall *wall = &wall_study->wall;
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    bool power = kind->limit == TC_WALL_LIMIT_POWER;
    int more = !kind->more_label ? 0 : power ? wall->more_circuits : wall->more_stretches;
    const double *own = own_of(plan, kind->limit);
    int count = 1;
    list[0] = (struct binding){kind, {.limit = kind->limit}, kind->label, kind->path};
    for (int i = 0; i < more; i++) {
        int number = number_of(power ? plan->more_current : plan->more_length, i);
        if (own && !(own[number - 2] > 0))
            list[0].at.also |= 1U << (i + 1);
        else
            list[count++] = (struct binding){kind,
                                             {.limit = kind->limit, .at = i + 1},
                                             tc_sheet_format(sheet, kind->more_label, i + 2),
                                             tc_sheet_format(sheet, kind->more_path, number)};
    }
    return count;
}

/* All limits of the wall that are one; returns how many. */
static int list_limits(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                       struct binding list[LIMITS_MAX])
{
    int count = 0;
    for (size_t k = 0; k < KINDS; k++) {
        struct binding of[TC_WALL_STRETCHES_MAX];
        int had = list_kind(sheet, wall_study, &limits[k], of);
        for (int i = 0; i < had; i++)
            if (tc_wall_limit_value(&wall_study->wall, of[i].at) > 0)
                list[count++] = of[i];
    }
    return count;
}

static const char *quantity(char *buffer, const struct tc_wall_study *wall_study, double value,
                            enum tc_dimension dimension)
{
    return tc_phrase_quantity(buffer, value, dimension, wall_study->study->units);
}

const char *tc_wall_reached(char *words, const struct tc_wall_study *wall_study, double reached)
{
    char number[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    switch (wall_study->goal.aim) {
    case TC_WALL_MOST_TANKS:
        snprintf(words, TC_WORDS_SIZE, "%s tanks", tc_number_write(number, reached, 0, false));
        break;
    case TC_WALL_MOST_AREA:
        snprintf(words, TC_WORDS_SIZE, "%s of bottom", quantity(number, wall_study, reached, TC_DIM_AREA));
        break;
    case TC_WALL_MOST_WATER:
        snprintf(words, TC_WORDS_SIZE, "%s of water",
                 tc_unit_quantity_write(number, reached, TC_DIM_VOLUME, wall_study->study->units, 0));
        break;
    case TC_WALL_LEAST_COST:
        tc_phrase_money(words, tc_money_round(reached, &status), wall_study->study->region.currency);
        break;
    case TC_WALL_WATER_PER_MONEY: {
        double scale = tc_currency_scale(wall_study->study->region.currency);
        double volume = tc_phrase_value(reached, TC_DIM_VOLUME, wall_study->study->units);
        snprintf(
            words, TC_WORDS_SIZE, "%s %s for 100 %s", tc_number_write(number, 100 * scale * volume, 1, false),
            tc_phrase_unit(TC_DIM_VOLUME, wall_study->study->units), wall_study->study->region.currency.code);
        break;
    }
    }
    return words;
}

/* "1288 W of 1290 W", "2570.14 USD of 4000.00 USD": of the room as a whole, whatever the tanks alone use. */
static const char *use_words(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                             const struct binding *binding, const struct tc_wall_slack *slack)
{
    const struct kind *kind = binding->kind;
    const struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_currency currency = wall_study->study->region.currency;
    char used[TC_WORDS_SIZE], limit[TC_WORDS_SIZE];
    if (kind->limit == TC_WALL_LIMIT_BUDGET) {
        bool owning = wall_study->wall.budget_kind == TC_WALL_OVER_PERIOD;
        tc_phrase_money(used, owning ? layout->cost.present_value : layout->cost.to_buy, currency);
        tc_phrase_money(limit, wall_study->wall.budget, currency);
        return tc_sheet_format(sheet, "%s of %s %s", used, limit, owning ? "to own" : "to buy");
    }
    double in_use = kind->limit == TC_WALL_LIMIT_POWER ? layout->power_on[binding->at.at] : slack->used;
    quantity(used, wall_study, in_use, kind->dimension);
    quantity(limit, wall_study, slack->limit, kind->dimension);
    return tc_sheet_format(sheet, "%s of %s", used, limit);
}

/* The least amount of a limit that a person reads, in its SI unit or minor units: raises are a whole number
 * of it. */
static double raise_step(const struct tc_wall_study *wall_study, const struct kind *kind)
{
    if (kind->limit == TC_WALL_LIMIT_BUDGET)
        return tc_currency_scale(wall_study->study->region.currency);
    enum tc_unit_system units = wall_study->study->units;
    int decimals = tc_phrase_decimals(kind->dimension, units);
    return 1 / tc_phrase_value(decimals == TC_EIGHTHS ? 8 : pow(10, decimals), kind->dimension, units);
}

static const char *raise_words(char *words, const struct tc_wall_study *wall_study, const struct kind *kind,
                               double raise)
{
    enum tc_status status = TC_OK;
    if (kind->limit == TC_WALL_LIMIT_BUDGET)
        return tc_phrase_money(words, tc_money_round(raise, &status), wall_study->study->region.currency);
    return quantity(words, wall_study, raise, kind->dimension);
}

static const char *verb(enum tc_wall_objective aim)
{
    switch (aim) {
    case TC_WALL_LEAST_COST: return "cost";
    case TC_WALL_WATER_PER_MONEY: return "give";
    case TC_WALL_MOST_TANKS:
    case TC_WALL_MOST_AREA:
    case TC_WALL_MOST_WATER: break;
    }
    return "hold";
}

/* What does as well as a higher wall and costs nothing: less access, a lower first shelf. */
static enum tc_status add_instead(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  const struct kind *kind, const struct tc_wall_study_relief *higher,
                                  struct tc_search_budget *search, const char **text)
{
    char words[TC_WORDS_SIZE];
    double less;
    bool lower = wall_study->wall.lowest >= higher->raise;
    enum tc_status status =
        tc_wall_study_less_access(wall_study, higher, raise_step(wall_study, kind), search, &less);
    if (status == TC_OK)
        *text = tc_sheet_format(sheet, "%s; %s less access above each tank does the same", *text,
                                raise_words(words, wall_study, kind, less));
    if (lower && (status == TC_OK || status == TC_NO_RESULT))
        *text = tc_sheet_format(sheet, "%s, %s a lowest shelf %s lower", *text,
                                status == TC_OK ? "and so does" : "and the same with",
                                raise_words(words, wall_study, kind, higher->raise));
    return status == TC_NO_RESULT ? TC_OK : status;
}

static enum tc_status add_limit(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                const struct binding *binding, struct tc_search_budget *search)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct kind *kind = binding->kind;
    double step = raise_step(wall_study, kind);
    struct tc_wall_slack slack;
    struct tc_wall_study_relief relief;
    char raise[TC_WORDS_SIZE], reached[TC_WORDS_SIZE];
    tc_wall_slack(&layout->wall, &layout->mix, binding->at, &slack);
    const char *text = use_words(sheet, wall_study, binding, &slack);
    if (search->ask->glance) {
        tc_sheet_sentence(sheet, binding->label, text);
        tc_sheet_edit(sheet, 0, binding->path);
        return TC_OK;
    }
    enum tc_status status = tc_wall_study_relieve(wall_study, binding->at, step, search, &relief);
    if (status == TC_OK)
        text = tc_sheet_format(sheet, "%s; with %s more it would %s %s%s", text,
                               raise_words(raise, wall_study, kind, relief.raise), verb(wall_study->goal.aim),
                               tc_wall_reached(reached, wall_study, relief.reached),
                               relief.proven ? "" : " or better");
    else if (status == TC_NO_RESULT)
        text = tc_sheet_format(sheet,
                               relief.proven ? "%s; more of it alone does not help"
                                             : "%s; what more of it would bring was not found in time",
                               text);
    else
        return status;
    if (status == TC_OK && kind->limit == TC_WALL_LIMIT_HEIGHT)
        status = add_instead(sheet, wall_study, kind, &relief, search, &text);
    else
        status = TC_OK;
    tc_sheet_sentence(sheet, binding->label, text);
    tc_sheet_edit(sheet, 0, binding->path);
    return status;
}

/* The nth of so many searches. */
static void take_part(struct tc_search_budget *search, double from, double part, int nth)
{
    search->from = from + nth * part;
    search->to = search->from + part;
}

enum tc_status tc_wall_add_limits(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  struct tc_search_budget *search)
{
    enum tc_status status = TC_OK;
    struct binding list[LIMITS_MAX];
    int count = list_limits(sheet, wall_study, list);
    double from = search->from, part = (search->to - search->from) / (count + 1);
    tc_sheet_row(sheet, TC_ROW_GROUP, "What limits this wall, and what a little more would get you", "");
    for (int i = 0; status == TC_OK && i < count; i++) {
        take_part(search, from, part, i);
        status = add_limit(sheet, wall_study, &list[i], search);
    }
    return status;
}

enum tc_status tc_wall_add_shortages(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                     struct tc_search_budget *search)
{
    struct binding list[LIMITS_MAX];
    int count = list_limits(sheet, wall_study, list);
    double from = search->from, part = (search->to - search->from) / (count + 1), raise;
    const char *alone = "";
    char words[TC_WORDS_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Which limit keeps it off", "");
    for (int i = 0; i < count; i++) {
        const struct kind *kind = list[i].kind;
        take_part(search, from, part, i);
        enum tc_status status =
            tc_wall_study_short(wall_study, list[i].at, raise_step(wall_study, kind), search, &raise);
        if (status == TC_NO_RESULT)
            continue;
        if (status != TC_OK)
            return status;
        raise_words(words, wall_study, kind, raise);
        tc_sheet_sentence(sheet, list[i].label, tc_sheet_format(sheet, "with %s more it all fits", words));
        tc_sheet_edit(sheet, 0, list[i].path);
        alone =
            tc_sheet_format(sheet, "%s%s%s more of %s", alone, alone[0] ? ", or " : "", words, list[i].label);
    }
    if (alone[0]) {
        tc_sheet_note(sheet, TC_NOTE_FINDING, "It would all fit with %s.", alone);
        return TC_OK;
    }
    tc_sheet_sentence(sheet, "none alone", "it would take more of several limits at once");
    tc_sheet_note(sheet, TC_NOTE_FINDING, "No one limit alone keeps it off: it would take more of several.");
    return TC_OK;
}
