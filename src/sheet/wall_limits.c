/* SPDX-License-Identifier: MIT */
#include "sheet/wall_limits.h"

#include <math.h>
#include <stdio.h>

#include "sheet/wall_study_sensitivity.h"
#include "sheet/phrase.h"

static const struct {
    enum tc_wall_limit limit;
    const char *label;
    const char *path; /* of the plan: where it is typed */
    enum tc_dimension dimension;
} limits[] = {
    {TC_WALL_LIMIT_LENGTH, "wall length", "wall/length", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_HEIGHT, "height", "wall/height", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_DEPTH, "depth", "wall/depth", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_REACH, "reach", "wall/reach", TC_DIM_LENGTH},
    {TC_WALL_LIMIT_TIER_RATING, "load rating of a shelf", "wall/rack-load", TC_DIM_MASS},
    {TC_WALL_LIMIT_FLOOR, "floor load", "wall/floor-load", TC_DIM_PRESSURE},
    {TC_WALL_LIMIT_POWER, "circuit", "wall/circuit-current", TC_DIM_POWER},
    {TC_WALL_LIMIT_BUDGET, "budget", "wall/budget", TC_DIM_PLAIN},
};

enum { LIMITS = sizeof limits / sizeof limits[0] };

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
static const char *use_words(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, size_t which,
                             const struct tc_wall_slack *slack)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_currency currency = wall_study->study->region.currency;
    char used[TC_WORDS_SIZE], limit[TC_WORDS_SIZE];
    if (limits[which].limit == TC_WALL_LIMIT_BUDGET) {
        bool owning = wall_study->wall.budget_kind == TC_WALL_OVER_PERIOD;
        tc_phrase_money(used, owning ? layout->cost.present_value : layout->cost.to_buy, currency);
        tc_phrase_money(limit, wall_study->wall.budget, currency);
        return tc_sheet_format(sheet, "%s of %s %s", used, limit, owning ? "to own" : "to buy");
    }
    double in_use = limits[which].limit == TC_WALL_LIMIT_POWER ? layout->power_on[0] : slack->used;
    quantity(used, wall_study, in_use, limits[which].dimension);
    quantity(limit, wall_study, slack->limit, limits[which].dimension);
    return tc_sheet_format(sheet, "%s of %s", used, limit);
}

/* The least amount of a limit that a person reads, in its SI unit or minor units: raises are a whole number
 * of it. */
static double raise_step(const struct tc_wall_study *wall_study, size_t which)
{
    if (limits[which].limit == TC_WALL_LIMIT_BUDGET)
        return tc_currency_scale(wall_study->study->region.currency);
    enum tc_dimension dimension = limits[which].dimension;
    enum tc_unit_system units = wall_study->study->units;
    int decimals = tc_phrase_decimals(dimension, units);
    return 1 / tc_phrase_value(decimals == TC_EIGHTHS ? 8 : pow(10, decimals), dimension, units);
}

static const char *raise_words(char *words, const struct tc_wall_study *wall_study, size_t which,
                               double raise)
{
    enum tc_status status = TC_OK;
    if (limits[which].limit == TC_WALL_LIMIT_BUDGET)
        return tc_phrase_money(words, tc_money_round(raise, &status), wall_study->study->region.currency);
    return quantity(words, wall_study, raise, limits[which].dimension);
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
                                  size_t which, const struct tc_wall_study_relief *higher,
                                  struct tc_search_budget *search, const char **text)
{
    char words[TC_WORDS_SIZE];
    double less;
    bool lower = wall_study->wall.lowest >= higher->raise;
    enum tc_status status =
        tc_wall_study_less_access(wall_study, higher, raise_step(wall_study, which), search, &less);
    if (status == TC_OK)
        *text = tc_sheet_format(sheet, "%s; %s less access above each tank does the same", *text,
                                raise_words(words, wall_study, which, less));
    if (lower && (status == TC_OK || status == TC_NO_RESULT))
        *text = tc_sheet_format(sheet, "%s, %s a lowest shelf %s lower", *text,
                                status == TC_OK ? "and so does" : "and the same with",
                                raise_words(words, wall_study, which, higher->raise));
    return status == TC_NO_RESULT ? TC_OK : status;
}

static enum tc_status add_limit(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, size_t which,
                                struct tc_search_budget *search)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_wall_slack slack;
    struct tc_wall_study_relief relief;
    char raise[TC_WORDS_SIZE], reached[TC_WORDS_SIZE];
    tc_wall_slack(&layout->wall, &layout->mix, limits[which].limit, &slack);
    if (!slack.limited)
        return TC_OK;
    const char *text = use_words(sheet, wall_study, which, &slack);
    enum tc_status status = tc_wall_study_relieve(wall_study, limits[which].limit,
                                                  raise_step(wall_study, which), search, &relief);
    if (status == TC_OK)
        text = tc_sheet_format(
            sheet, "%s; with %s more it would %s %s%s", text,
            raise_words(raise, wall_study, which, relief.raise), verb(wall_study->goal.aim),
            tc_wall_reached(reached, wall_study, relief.reached), relief.proven ? "" : " or better");
    else if (status == TC_NO_RESULT)
        text = tc_sheet_format(sheet,
                               relief.proven ? "%s; more of it alone does not help"
                                             : "%s; what more of it would bring was not found in time",
                               text);
    else
        return status;
    if (status == TC_OK && limits[which].limit == TC_WALL_LIMIT_HEIGHT)
        status = add_instead(sheet, wall_study, which, &relief, search, &text);
    else
        status = TC_OK;
    tc_sheet_sentence(sheet, limits[which].label, text);
    tc_sheet_edit(sheet, 0, limits[which].path);
    return status;
}

/* The number in its keys of the nth further stretch or circuit that the plan has. */
static int number_of(const double figures[3], int nth)
{
    int i = 0;
    while (i < 2 && (!(figures[i] > 0) || nth-- > 0))
        i++;
    return i + 2;
}

/* Further stretches and circuits: what of each is used. */
static void add_further(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_wall_plan *plan = &wall_study->study->plan.wall;
    char used[TC_WORDS_SIZE], limit[TC_WORDS_SIZE];
    for (int s = 0; s < layout->wall.more_stretches; s++) {
        quantity(used, wall_study, layout->mix.length[s + 1], TC_DIM_LENGTH);
        quantity(limit, wall_study, layout->wall.more[s].length, TC_DIM_LENGTH);
        tc_sheet_sentence(sheet, tc_sheet_format(sheet, "length of stretch %d", s + 2),
                          tc_sheet_format(sheet, "%s of %s", used, limit));
        tc_sheet_edit(sheet, 0, tc_sheet_format(sheet, "wall/length-%d", number_of(plan->more_length, s)));
    }
    for (int c = 0; c < layout->wall.more_circuits; c++) {
        quantity(used, wall_study, layout->power_on[c + 1], TC_DIM_POWER);
        quantity(limit, wall_study, layout->wall.more_power[c], TC_DIM_POWER);
        tc_sheet_sentence(sheet, tc_sheet_format(sheet, "circuit %d", c + 2),
                          tc_sheet_format(sheet, "%s of %s", used, limit));
        tc_sheet_edit(sheet, 0,
                      tc_sheet_format(sheet, "wall/circuit-%d-current", number_of(plan->more_current, c)));
    }
}

enum tc_status tc_wall_add_limits(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  struct tc_search_budget *search)
{
    enum tc_status status = TC_OK;
    double from = search->from, part = (search->to - search->from) / LIMITS;
    tc_sheet_row(sheet, TC_ROW_GROUP, "What limits this wall, and what a little more would get you", "");
    for (size_t i = 0; status == TC_OK && i < LIMITS; i++) {
        search->from = from + (double)i * part;
        search->to = search->from + part;
        status = add_limit(sheet, wall_study, i, search);
    }
    if (status == TC_OK)
        add_further(sheet, wall_study);
    return status;
}

enum tc_status tc_wall_add_shortages(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                     struct tc_search_budget *search)
{
    double from = search->from, part = (search->to - search->from) / LIMITS, raise;
    const char *alone = "";
    char words[TC_WORDS_SIZE];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Which limit keeps it off", "");
    for (size_t i = 0; i < LIMITS; i++) {
        search->from = from + (double)i * part;
        search->to = search->from + part;
        enum tc_status status =
            tc_wall_study_short(wall_study, limits[i].limit, raise_step(wall_study, i), search, &raise);
        if (status == TC_NO_RESULT)
            continue;
        if (status != TC_OK)
            return status;
        raise_words(words, wall_study, i, raise);
        tc_sheet_sentence(sheet, limits[i].label, tc_sheet_format(sheet, "with %s more it all fits", words));
        tc_sheet_edit(sheet, 0, limits[i].path);
        alone = tc_sheet_format(sheet, "%s%s%s more of %s", alone, alone[0] ? ", or " : "", words,
                                limits[i].label);
    }
    if (alone[0]) {
        tc_sheet_note(sheet, TC_NOTE_FINDING, "It would all fit with %s.", alone);
        return TC_OK;
    }
    tc_sheet_sentence(sheet, "none alone", "it would take more of several limits at once");
    tc_sheet_note(sheet, TC_NOTE_FINDING, "No one limit alone keeps it off: it would take more of several.");
    return TC_OK;
}
