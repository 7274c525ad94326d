/* SPDX-License-Identifier: MIT */
#include "screen/first.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "core/base/number.h"
#include "profile/key.h"
#include "profile/kind.h"
#include "profile/section_save.h"
#include "screen/confirm.h"
#include "screen/document.h"
#include "screen/lists.h"
#include "screen/prompt.h"
#include "screen/section_file.h"

enum step { PLACE, CURRENCY, TAX, ELECTRICITY, WATER, ROOM, SHOP, STEPS };

/* What is asked, in its order, with the usual answer in US units and in metric ones. */
static const struct {
    const char *title, *hint, *us, *metric;
    const char *key; /* of a region: the figure; NULL where the answer is none */
} steps[STEPS] = {
    [PLACE] = {"Your place: what do you call it?", "a word, like: home", "home", "home", NULL},
    [CURRENCY] = {"Its money", "three letters of ISO 4217, like: USD", "USD", "EUR", NULL},
    [TAX] = {"Sales tax that the checkout adds", "in percent, like: 7.5; where prices include it: 0", "0",
             "0", "sales-tax"},
    [ELECTRICITY] = {"The price of a kWh, or the tiers of the bill",
                     "like: 0.16; for two tiers 0.14 500 0.18: 0.14 up to 500 kWh a month, 0.18 above",
                     "0.17", "0.28", "electricity"},
    [WATER] = {"The price of water, with waste water", "like: 0.01 / gal, or 3.50 / m3", "0.01 / gal",
               "4 / m3", "water"},
    [ROOM] = {"The room in winter and in summer", "two temperatures, like: 66 77 F", "68 76 F", "19 24 C",
              "room"},
    [SHOP] = {"Where you buy: what do you call the shop?", "a word, like: my-shop", "my-shop", "my-shop",
              NULL},
};

static const char *answer(const struct tc_state *state, enum step step)
{
    return state->first.answer[step];
}

static bool is_us(const struct tc_state *state)
{
    return strcmp(answer(state, CURRENCY), "USD") == 0;
}

/* ---------------------------------------------------------------------------- answers */

/* Whether a key of a place could be read from a text; else the problem. */
static bool check_key(struct tc_state *state, const char *key, const char *text)
{
    struct tc_region region;
    const struct tc_key_table *table = tc_key_table_find("region");
    const struct tc_key *form = table ? tc_key_find(table, key) : NULL;
    if (!form)
        return true;
    tc_key_defaults(table, &region);
    return tc_key_read(form, text, &region, NULL, state->prompt.problem);
}

/* A text that ends in a number, with its unit. */
static void with_unit(char answer[TC_FIRST_SIZE], const char *text, const char *unit)
{
    size_t length = strlen(text);
    bool bare =
        length > 0 && (text[length - 1] == '.' || (text[length - 1] >= '0' && text[length - 1] <= '9'));
    snprintf(answer, TC_FIRST_SIZE, "%s%s", text, bare ? unit : "");
}

/* "0.14 500 0.18" as blocks of a tariff, "0.14 up to 500, 0.18 above"; a single price is none, and blocks "".
 */
static bool read_tiers(struct tc_state *state, const char *text, char blocks[TC_FIRST_SIZE])
{
    size_t length = 0;
    int count = 0;
    const char *end = text;
    blocks[0] = '\0';
    for (const char *at = text + strspn(text, " "); *at; at = end + strspn(end, " ,")) {
        double number;
        if (tc_number_read(at, &end, &number) != TC_OK || number < 0)
            return tc_prompt_refuse(state, "write a price, or price, limit, price: 0.14 500 0.18");
        const char *before = count == 0 ? "" : count % 2 == 1 ? " up to " : ", ";
        int written =
            snprintf(blocks + length, TC_FIRST_SIZE - length, "%s%.*s", before, (int)(end - at), at);
        length += written > 0 && (size_t)written < TC_FIRST_SIZE - length ? (size_t)written : 0;
        count++;
    }
    if (count % 2 == 0)
        return tc_prompt_refuse(state, "write the price above the last limit as well: 0.14 500 0.18");
    if (count == 1)
        blocks[0] = '\0';
    else
        snprintf(blocks + length, TC_FIRST_SIZE - length, " above");
    return true;
}

/* Twelve months between winter's and summer's temperature, the coldest in January (common practice, no
 * source). */
static bool read_room(struct tc_state *state, const char *text, char months[TC_VALUE_SIZE])
{
    double winter, summer;
    const char *end;
    size_t length = 0;
    if (tc_number_read(text, &end, &winter) != TC_OK)
        return tc_prompt_refuse(state, "write two temperatures, like: 66 77 F");
    const char *next = end + strspn(end, " ");
    if (tc_number_read(next, &end, &summer) != TC_OK)
        summer = winter;
    else
        next = end + strspn(end, " ");
    const char *unit = *next ? next : winter > 45 ? "F" : "C";
    for (int month = 0; month < 12; month++) {
        double part = (1 - cos(2 * 3.14159265358979 * month / 12)) / 2;
        length += (size_t)snprintf(months + length, TC_VALUE_SIZE - length, "%.0f ",
                                   winter + (summer - winter) * part);
    }
    snprintf(months + length, TC_VALUE_SIZE - length, "%.8s", unit);
    return check_key(state, "room", months);
}

/* Takes one answer; false, with the problem in the prompt, where it is none. */
static bool take(struct tc_state *state, enum step step, const char *text)
{
    char *kept = state->first.answer[step], name[TC_NAME_SIZE], tiers[TC_FIRST_SIZE];
    char months[TC_VALUE_SIZE];
    text += strspn(text, " ");
    if (*text == '\0')
        return tc_prompt_refuse(state, "write an answer; Esc goes back");
    snprintf(kept, TC_FIRST_SIZE, "%s", text);
    switch (step) {
    case PLACE:
    case SHOP:
        if (!tc_name_mend(name, text) || tc_section_reserved(step == SHOP ? "shop" : "region", name))
            return tc_prompt_refuse(state, "a name has %s", TC_NAME_RULE);
        snprintf(kept, TC_FIRST_SIZE, "%s", name);
        return true;
    case CURRENCY:
        for (char *c = kept; *c; c++)
            *c = *c >= 'a' && *c <= 'z' ? (char)(*c - 'a' + 'A') : *c;
        return check_key(state, "currency", kept);
    case TAX: with_unit(kept, text, " %"); return check_key(state, "sales-tax", kept);
    case ELECTRICITY:
        snprintf(months, sizeof months, "%.*s", (int)strcspn(text, "/"), text);
        if (!read_tiers(state, months, tiers))
            return false;
        with_unit(kept, text, " / kWh");
        return tiers[0] || check_key(state, "electricity", kept);
    case WATER:
        with_unit(kept, text, is_us(state) ? " / gal" : " / m3");
        return check_key(state, "water", kept);
    case ROOM: return read_room(state, text, months);
    case STEPS: break;
    }
    return true;
}

/* ---------------------------------------------------------------------------- writing */

/* The usual answer to a question, in the units of the money that was named. */
static const char *usual_answer(const struct tc_state *state, int step)
{
    bool named = step > CURRENCY; /* before, all are asked as if in dollars */
    return !named || is_us(state) ? steps[step].us : steps[step].metric;
}

/* The keys whose figures nobody gave: usual answers that were accepted. */
static void list_assumed(const struct tc_state *state, char list[TC_FIRST_SIZE])
{
    size_t length = 0;
    list[0] = '\0';
    for (int step = 0; step < STEPS; step++)
        if (steps[step].key && strcmp(state->first.typed[step], usual_answer(state, step)) == 0)
            length += (size_t)snprintf(list + length, TC_FIRST_SIZE - length, "%s%s", length > 0 ? " " : "",
                                       steps[step].key);
}

/* The place, with its tariff where the bill has tiers, and the shop, as sections of the user's own. */
static bool write_sections(struct tc_state *state)
{
    char region[TC_SECTION_HEAD_SIZE], shop[TC_SECTION_HEAD_SIZE], tariff[TC_SECTION_HEAD_SIZE],
        blocks[TC_FIRST_SIZE], months[TC_VALUE_SIZE];
    snprintf(region, sizeof region, "region %.40s", answer(state, PLACE));
    snprintf(tariff, sizeof tariff, "tariff %.34s-power", answer(state, PLACE));
    snprintf(shop, sizeof shop, "shop %.40s", answer(state, SHOP));
    bool tiers = strchr(answer(state, ELECTRICITY), ' ') && !strchr(answer(state, ELECTRICITY), '/');
    char text[TC_FIRST_SIZE];
    snprintf(text, sizeof text, "%.*s", (int)strcspn(answer(state, ELECTRICITY), "/"),
             answer(state, ELECTRICITY));
    if (!read_tiers(state, text, blocks) || !read_room(state, answer(state, ROOM), months))
        return false;
    tiers = blocks[0] != '\0';
    const struct tc_section_line prices[] = {{"blocks", blocks}};
    char assumed[TC_FIRST_SIZE];
    list_assumed(state, assumed);
    const struct tc_section_line place[] = {{"currency", answer(state, CURRENCY)},
                                            {"sales-tax", answer(state, TAX)},
                                            {tiers ? "electricity-tariff" : "electricity",
                                             tiers ? tariff + strlen("tariff ") : answer(state, ELECTRICITY)},
                                            {"water", answer(state, WATER)},
                                            {"room", months},
                                            {"assumed", assumed}};
    const struct tc_section_line seller[] = {{"region", answer(state, PLACE)}};
    return (!tiers || tc_section_write(state, tariff, prices, 1)) &&
           tc_section_write(state, region, place, assumed[0] ? 6 : 5) &&
           tc_section_write(state, shop, seller, 1);
}

/* A plan of one's own with them, equipped as the present one, and the setups to choose from. */
static void finish(struct tc_state *state)
{
    struct tc_plan plan;
    char problem[TC_PROBLEM_SIZE];
    if (!write_sections(state))
        return;
    tc_state_pop(state);
    tc_plan_start(&plan);
    tc_plan_set(&plan, "plan/region", answer(state, PLACE), problem);
    tc_plan_set(&plan, "plan/setup", state->now.plan.setup, problem);
    tc_plan_set(&plan, "plan/units", is_us(state) ? "us" : "metric", problem);
    tc_document_begin(state, &plan, "my-plan");
    tc_lists_open(state, TC_LISTS_SETUPS);
    tc_state_say(state, "%s and %s are saved. Choose a setup; then t or T adds tanks.", answer(state, PLACE),
                 answer(state, SHOP));
}

/* ----------------------------------------------------------------------------- asking */

static void ask(struct tc_state *state, int step, const char *text);

static void step_taken(struct tc_state *state, const char *text)
{
    int step = state->first.step;
    if (!take(state, (enum step)step, text))
        return;
    snprintf(state->first.typed[step], TC_FIRST_SIZE, "%s", text);
    if (step + 1 >= STEPS) {
        finish(state);
        return;
    }
    tc_state_pop(state);
    ask(state, step + 1, usual_answer(state, step + 1));
}

/* Back to the question before with what was answered; from the first one all is left. */
static void left(struct tc_state *state)
{
    int step = state->first.step;
    if (step > 0) {
        ask(state, step - 1, state->first.typed[step - 1]);
        return;
    }
    tc_state_say(state, "Left for later: e makes a region, a shop and all else of your own.");
}

static const struct tc_prompt_kind step_prompt = {.title = "", .hint = "", .taken = step_taken, .left = left};

static void ask(struct tc_state *state, int step, const char *text)
{
    char title[96];
    if (step < 0 || step >= STEPS)
        return;
    state->first.step = step;
    tc_prompt_open(state, &step_prompt, text);
    snprintf(title, sizeof title, "%d of %d: %s", step + 1, STEPS, steps[step].title);
    tc_clean(state->prompt.title, sizeof state->prompt.title, title);
    tc_clean(state->prompt.hint, sizeof state->prompt.hint, steps[step].hint);
}

void tc_first_begin(struct tc_state *state, int unused)
{
    (void)unused;
    ask(state, PLACE, usual_answer(state, PLACE));
}

static void begin(struct tc_state *state)
{
    tc_first_begin(state, 0);
}

static void look_around(struct tc_state *state)
{
    tc_state_say(state, "All places, shops and prices here are invented. Press I to begin with your own.");
}

static const struct tc_confirm_kind welcome = {
    {{'b', "begin with your own figures", begin}, {'l', "look around", look_around}}};

void tc_first_offer(struct tc_state *state)
{
    const struct tc_sections *sections = state->options->stock->sections;
    if (!state->options->own_folder || !state->options->installed)
        return;
    for (size_t i = 0; sections && i < sections->count; i++)
        if (tc_section_is_own(state, sections->items[i]))
            return;
    tc_confirm_ask(state, &welcome, "",
                   "What you see is a demonstration: its places, shops and prices are invented. Your own "
                   "figures are asked for in seven steps, each with a usual answer, which counts as assumed "
                   "until you type your own.");
}
