/* SPDX-License-Identifier: MIT */
#include "screen/lists.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/key.h"
#include "profile/plan_region.h"
#include "screen/document.h"
#include "screen/edit.h"
#include "screen/scroll.h"
#include "sheet/phrase.h"

/* A row of the list, its value and, where it is in force now, its mark. */
void tc_lists_add(struct tc_sheet *sheet, const char *label, const char *value)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_edit(sheet, 0, value);
}

void tc_lists_words(struct tc_sheet *sheet, size_t column, const char *head)
{
    tc_sheet_column(sheet, column, head, "");
    if (column < sheet->column_count)
        sheet->columns[column].words = true;
}

/* The region's record as it is in the study, or as the stock has it. */
static const struct tc_region *region_in_force(const struct tc_state *state)
{
    if (state->study && state->study->region.name[0])
        return &state->study->region;
    return tc_stock_region(state->options->stock, state->now.plan.region);
}

static enum tc_unit_system units_in_force(const struct tc_state *state)
{
    return strcmp(state->now.plan.units, "us") == 0 ? TC_US : TC_METRIC;
}

/* The candidate that a list is about; NULL where that is none. */
static const struct tc_candidate *candidate_of(const struct tc_state *state, struct tc_list_about about)
{
    const struct tc_plan *plan = &state->now.plan;
    return about.candidate >= 0 && about.candidate < plan->candidate_count ? &plan->candidate[about.candidate]
                                                                           : NULL;
}

/* Sets a path of the plan to what was chosen, and closes the list. */
static void take_into(struct tc_state *state, const char *path, const char *value)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_edit_set(state, path, value, problem))
        tc_state_warn(state, "%s", problem);
    tc_state_pop(state);
}

/* --------------------------------------------------------------------------- tanks */

/* What decides first: a narrow screen shows the first columns only. */
enum tank_column { TANK_COUNT, TANK_VOLUME, TANK_PRICE, TANK_SALE, TANK_SIZE, TANK_TITLE, TANK_COLUMNS };

static void add_list_price(struct tc_sheet *sheet, size_t column, const struct tc_state *state,
                           const struct tc_region *region, int slot, const struct tc_goods *goods)
{
    double amount;
    enum tc_status status = TC_OK;
    if (!region || !tc_stock_price(state->options->stock, region, slot, goods, &amount)) {
        tc_sheet_missing(sheet, column, "no price");
        return;
    }
    tc_money money = tc_currency_money(region->currency, amount, &status);
    if (status == TC_OK)
        tc_sheet_money(sheet, column, money, region->currency);
}

/* The first sale of the region that covers the tank today; NULL where none does. */
static const struct tc_sale *sale_today(const struct tc_state *state, const struct tc_region *region,
                                        const struct tc_tank *tank)
{
    const struct tc_stock *stock = state->options->stock;
    for (size_t i = 0; region && i < stock->sale_count; i++) {
        const struct tc_sale *sale = &stock->sales[i];
        if (strcmp(sale->region, region->name) == 0 && tc_sale_covers(sale, tank) &&
            tc_sale_runs(sale, state->options->today))
            return sale;
    }
    return NULL;
}

static int count_in_plan(const struct tc_plan *plan, const char *tank)
{
    int count = 0;
    for (int i = 0; i < plan->candidate_count; i++)
        if (strcmp(plan->candidate[i].tank, tank) == 0)
            count += plan->candidate[i].quantity;
    return count;
}

static void add_tank(struct tc_sheet *sheet, const struct tc_state *state, const struct tc_region *region,
                     const struct tc_tank *tank)
{
    enum tc_unit_system units = units_in_force(state);
    char words[TC_WORDS_SIZE];
    const struct tc_sale *sale = sale_today(state, region, tank);
    int count = count_in_plan(&state->now.plan, tank->goods.name);
    tc_lists_add(sheet, tank->goods.name, tank->goods.name);
    if (count > 0)
        tc_sheet_text(sheet, TANK_COUNT, tc_sheet_format(sheet, "%d ×", count));
    tc_sheet_text(sheet, TANK_SIZE, tc_phrase_size(words, tank->length, tank->width, tank->height, units));
    tc_sheet_text(sheet, TANK_VOLUME,
                  tc_unit_quantity_write(words, tank->nominal_volume, TC_DIM_VOLUME, units, 0));
    add_list_price(sheet, TANK_PRICE, state, region, -1, &tank->goods);
    tc_sheet_text(sheet, TANK_SALE, sale ? sale->name : tank->special_order ? "special order" : "");
    tc_sheet_text(sheet, TANK_TITLE, tank->goods.title);
}

static void fill_tanks(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    const struct tc_stock *stock = state->options->stock;
    const struct tc_region *region = region_in_force(state);
    tc_sheet_start(sheet, "tanks", TANK_COLUMNS);
    tc_sheet_head(sheet, "Tanks to compare", "", "tank");
    tc_sheet_column(sheet, TANK_COUNT, "count", "");
    tc_sheet_column(sheet, TANK_SIZE, "outside", "");
    tc_sheet_column(sheet, TANK_VOLUME, "nominal", "");
    tc_sheet_column(sheet, TANK_PRICE, "price", "");
    tc_lists_words(sheet, TANK_SALE, "sale today");
    tc_lists_words(sheet, TANK_TITLE, "");
    for (size_t i = 0; i < stock->tank_count; i++)
        add_tank(sheet, state, region, &stock->tanks[i]);
}

/* The candidate that the list of tanks counts up and down: the last of that tank. */
static int candidate_of_tank(const struct tc_plan *plan, const char *tank)
{
    for (int i = plan->candidate_count; i-- > 0;)
        if (strcmp(plan->candidate[i].tank, tank) == 0)
            return i;
    return -1;
}

/* Gives a tank another quantity: 0 takes it out, and one that is not there is put in. */
static void set_count(struct tc_state *state, const char *tank, int quantity)
{
    struct tc_plan plan;
    char path[48], text[16], problem[TC_PROBLEM_SIZE];
    memcpy(&plan, &state->now.plan, sizeof plan);
    int candidate = candidate_of_tank(&plan, tank);
    if (candidate < 0 && quantity > 0) {
        if (!tc_plan_add(&plan, tank)) {
            tc_state_warn(state, "A plan compares %d tanks at most; take one out first.", TC_CANDIDATES_MAX);
            return;
        }
        candidate = plan.candidate_count - 1;
    }
    if (candidate < 0)
        return;
    snprintf(path, sizeof path, "candidate %d/quantity", candidate + 1);
    snprintf(text, sizeof text, "%d", quantity);
    if (quantity < 1)
        tc_plan_remove(&plan, candidate);
    else if (!tc_plan_set(&plan, path, text, problem)) {
        tc_state_warn(state, "%s", problem);
        return;
    }
    tc_edit_plan(state, &plan);
}

static void step_tank(struct tc_state *state, const char *tank, int by)
{
    int candidate = candidate_of_tank(&state->now.plan, tank);
    int quantity = candidate >= 0 ? state->now.plan.candidate[candidate].quantity : 0;
    set_count(state, tank, quantity + by);
}

static void take_tank(struct tc_state *state, struct tc_list_about about, const char *tank)
{
    (void)about;
    set_count(state, tank, candidate_of_tank(&state->now.plan, tank) < 0);
}

static const char *present_tank(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = candidate_of(state, about);
    (void)buffer;
    return candidate ? candidate->tank : "";
}

static const struct tc_list_kind tank_list = {
    .fill = fill_tanks,
    .present = present_tank,
    .take = take_tank,
    .step = step_tank,
    .counts = true,
};

/* --------------------------------------------------------------------- setups, regions */

/* Columns that show a key of a record each, and at the end its title. */
static void add_record(struct tc_sheet *sheet, const char *kind, const char *name, const void *record,
                       const char *const *keys, size_t key_count, const char *title,
                       enum tc_unit_system units)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    tc_lists_add(sheet, name, name);
    for (size_t i = 0; i < key_count; i++) {
        char text[TC_VALUE_SIZE] = "";
        const struct tc_key *key = table ? tc_key_find(table, keys[i]) : NULL;
        if (key)
            tc_key_write(key, record, units, text);
        tc_sheet_text(sheet, i, text);
    }
    tc_sheet_text(sheet, key_count, title);
}

static void start_records(struct tc_sheet *sheet, const char *title, const char *kind,
                          const char *const *keys, size_t key_count)
{
    tc_sheet_start(sheet, kind, key_count + 1);
    tc_sheet_head(sheet, title, "", kind);
    for (size_t i = 0; i < key_count; i++)
        tc_lists_words(sheet, i, keys[i]);
    tc_lists_words(sheet, key_count, "");
}

static void fill_setups(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    static const char *const keys[] = {"filter", "temperature", "ppfd", "lid"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const struct tc_stock *stock = state->options->stock;
    start_records(sheet, "How the tanks are equipped", "setup", keys, KEYS);
    for (size_t i = 0; i < stock->setup_count; i++)
        add_record(sheet, "setup", stock->setups[i].name, &stock->setups[i], keys, KEYS,
                   stock->setups[i].title, units_in_force(state));
}

static const char *present_setup(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.setup;
}

static void take_setup(struct tc_state *state, struct tc_list_about about, const char *setup)
{
    (void)about;
    take_into(state, "plan/setup", setup);
}

static const struct tc_list_kind setup_list = {
    .fill = fill_setups,
    .present = present_setup,
    .take = take_setup,
};

/* Those somebody pays bills in, or the templates, which may leave open what only the user can say. */
static void add_regions(const struct tc_state *state, struct tc_sheet *sheet, const char *const *keys,
                        size_t key_count, bool templates)
{
    enum { SALES_TAX = 1, ELECTRICITY };
    const struct tc_stock *stock = state->options->stock;
    for (size_t i = 0; i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        if (region->is_template != templates)
            continue;
        add_record(sheet, "region", region->name, region, keys, key_count, region->title,
                   units_in_force(state));
        if (templates && region->sales_tax == 0)
            tc_sheet_text(sheet, SALES_TAX, "to be said");
        if (region->electricity_tariff[0])
            tc_sheet_text(sheet, ELECTRICITY, region->electricity_tariff);
    }
}

static void fill_regions(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    static const char *const keys[] = {"currency", "sales-tax", "electricity"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    start_records(sheet, "Where they are bought and run", "region", keys, KEYS);
    add_regions(state, sheet, keys, KEYS, false);
    add_regions(state, sheet, keys, KEYS, true);
}

static const char *present_region(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.region;
}

/* What is typed for the plan's region stays there. */
static void take_region(struct tc_state *state, struct tc_list_about about, const char *region)
{
    (void)about;
    struct tc_plan plan;
    memcpy(&plan, &state->now.plan, sizeof plan);
    int left = tc_plan_region(&plan, state->options->stock, region);
    tc_edit_plan(state, &plan);
    tc_state_pop(state);
    if (left > 0)
        tc_state_say(state, "Typed for the region before, and left there: %d. u brings them back.", left);
}

static const struct tc_list_kind region_list = {
    .fill = fill_regions,
    .present = present_region,
    .take = take_region,
};

/* -------------------------------------------------------------------------- buying */

static void add_way(struct tc_sheet *sheet, const struct tc_state *state, const char *way, const char *label,
                    const char *when, int only)
{
    size_t column = 0;
    tc_lists_add(sheet, label, way);
    for (int i = 0; state->study && i < state->study->alternative_count; i++) {
        const struct tc_alternative *alternative = &state->study->alternatives[i];
        struct tc_deal deal;
        if (only >= 0 && alternative->index != only)
            continue;
        if (tc_study_deal(state->study, alternative, way, &deal, NULL) == TC_OK && deal.known)
            tc_sheet_money(sheet, column, deal.each, state->study->region.currency);
        else
            tc_sheet_missing(sheet, column, "no price");
        column++;
    }
    tc_sheet_text(sheet, column, when);
}

/* The prices of all candidates each way, or of one. */
static void make_buying(const struct tc_state *state, int only, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    const struct tc_region *region = region_in_force(state);
    int alternatives = state->study ? state->study->alternative_count : 0;
    size_t columns = 0;
    for (int i = 0; i < alternatives; i++)
        columns += only < 0 || state->study->alternatives[i].index == only;
    tc_sheet_start(sheet, "buying", columns + 1);
    tc_sheet_head(sheet, only < 0 ? "How the tanks are bought" : "How this tank is bought", "",
                  "price of one");
    columns = 0;
    for (int i = 0; i < alternatives; i++)
        if (only < 0 || state->study->alternatives[i].index == only)
            tc_sheet_column(sheet, columns++, state->study->alternatives[i].plan->tank, "");
    tc_lists_words(sheet, columns, "");
    if (only >= 0)
        add_way(sheet, state, state->now.plan.sale, "as the plan says", "", only);
    if (only >= 0)
        tc_sheet_edit(sheet, 0, "plan");
    add_way(sheet, state, "best", "best",
            "the cheapest to own of the list price and the sales that run today", only);
    add_way(sheet, state, "list", "list", "the list price", only);
    add_way(sheet, state, "order", "order", "special order: the list price and the region's fee", only);
    for (size_t i = 0; region && i < stock->sale_count; i++) {
        const struct tc_sale *sale = &stock->sales[i];
        if (strcmp(sale->region, region->name) != 0)
            continue;
        const char *when = tc_sale_runs(sale, state->options->today) ? "runs today" : "does not run today";
        if (sale->title[0])
            when = tc_sheet_format(sheet, "%s; %s", sale->title, when);
        add_way(sheet, state, sale->name, sale->name, when, only);
    }
}

static void fill_buying(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    make_buying(state, -1, sheet);
}

static const char *present_buying(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.sale;
}

static void take_buying(struct tc_state *state, struct tc_list_about about, const char *way)
{
    (void)about;
    take_into(state, "plan/sale", way);
}

static const struct tc_list_kind buying_list = {
    .fill = fill_buying,
    .present = present_buying,
    .take = take_buying,
};

static void fill_buying_one(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    make_buying(state, about.candidate, sheet);
}

static const char *present_buying_one(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = candidate_of(state, about);
    (void)buffer;
    return candidate && candidate->sale[0] ? candidate->sale : "plan";
}

static void take_buying_one(struct tc_state *state, struct tc_list_about about, const char *way)
{
    char path[48];
    snprintf(path, sizeof path, "candidate %d/sale", about.candidate + 1);
    take_into(state, path, way);
}

static const struct tc_list_kind buying_one_list = {
    .fill = fill_buying_one,
    .present = present_buying_one,
    .take = take_buying_one,
};

/* --------------------------------------------------------------------------- parts */

static void fill_slots(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_alternative *alternative = tc_state_entry(state, about.candidate);
    char words[TC_WORDS_SIZE];
    tc_sheet_start(sheet, "slots", 2);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "Parts of %s", alternative ? alternative->plan->tank : "this tank"),
                  "", "");
    tc_lists_words(sheet, 0, "chosen now");
    tc_lists_words(sheet, 1, "");
    for (int s = 0; alternative && s < TC_SLOT_COUNT; s++) {
        enum tc_slot slot = (enum tc_slot)s;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        tc_lists_add(sheet, tc_slot_name(slot), tc_slot_name(slot));
        tc_sheet_text(sheet, 0,
                      filled->offer     ? tc_phrase_part(words, filled)
                      : filled->missing ? "none fits"
                                        : "none");
        if (filled->pinned)
            tc_sheet_mark(sheet, 0, TC_MARK_PINNED);
        tc_sheet_text(sheet, 1,
                      !filled->demand.wanted ? "the setup does not ask for one"
                      : filled->pinned       ? "pinned by the plan"
                      : filled->offer        ? "the cheapest that fits"
                                             : "");
    }
}

enum part_column { PART_COUNT, PART_PRICE, PART_VALUE, PART_WHY, PART_COLUMNS };

static void add_part(struct tc_sheet *sheet, const struct tc_state *state, const struct tc_verdict *verdict,
                     enum tc_slot slot)
{
    char words[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    const struct tc_offer *offer = verdict->offer;
    tc_lists_add(sheet, offer->part->goods.name, offer->part->goods.name);
    if (verdict->count > 0)
        tc_sheet_text(sheet, PART_COUNT, tc_sheet_format(sheet, "%d ×", verdict->count));
    if (offer->priced)
        tc_sheet_money(sheet, PART_PRICE, offer->price, state->study->region.currency);
    else
        tc_sheet_missing(sheet, PART_PRICE, "no price");
    tc_money value = tc_money_round(verdict->present_value, &status);
    if (verdict->fits && status == TC_OK)
        tc_sheet_money(sheet, PART_VALUE, value, state->study->region.currency);
    tc_phrase_reason(words, slot, &verdict->reason, state->study->units);
    tc_sheet_text(sheet, PART_WHY,
                  tc_sheet_format(sheet, "%s%s", verdict->fits ? "" : "does not fit: ", words));
}

static void fill_parts(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_alternative *alternative = tc_state_entry(state, about.candidate);
    struct tc_verdict verdicts[TC_VERDICTS_MAX];
    tc_sheet_start(sheet, "parts", PART_COLUMNS);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "The %s of %s", tc_slot_name(about.slot),
                                  alternative ? alternative->plan->tank : "this tank"),
                  "", tc_slot_name(about.slot));
    tc_sheet_column(sheet, PART_COUNT, "takes", "");
    tc_sheet_column(sheet, PART_PRICE, "price of one", "");
    tc_sheet_column(sheet, PART_VALUE, "all, to own", "");
    tc_lists_words(sheet, PART_WHY, "");
    tc_lists_add(sheet, "any", "any");
    tc_sheet_text(sheet, PART_WHY, "the cheapest to own of those that fit");
    tc_lists_add(sheet, "none", "none");
    tc_sheet_text(sheet, PART_WHY, "nothing is bought");
    if (!alternative)
        return;
    int count =
        tc_equipment_explain(&alternative->c, &alternative->equipment, about.slot, verdicts, TC_VERDICTS_MAX);
    for (int fits = 1; fits >= 0; fits--) /* those that fit first */
        for (int i = 0; i < count; i++)
            if (verdicts[i].fits == (fits == 1))
                add_part(sheet, state, &verdicts[i], about.slot);
}

static const char *present_part(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = candidate_of(state, about);
    (void)buffer;
    return candidate && candidate->pin[about.slot].part[0] ? candidate->pin[about.slot].part : "any";
}

static void take_part(struct tc_state *state, struct tc_list_about about, const char *part)
{
    char path[64];
    snprintf(path, sizeof path, "candidate %d/%s", about.candidate + 1, tc_slot_name(about.slot));
    take_into(state, path, part);
}

static const struct tc_list_kind part_list = {
    .fill = fill_parts,
    .present = present_part,
    .take = take_part,
};

void tc_lists_open_parts(struct tc_state *state, int candidate, enum tc_slot slot)
{
    tc_list_open(state, &part_list, (struct tc_list_about){candidate, slot});
}

static void take_slot(struct tc_state *state, struct tc_list_about about, const char *name)
{
    enum tc_slot slot;
    if (tc_slot_find(name, &slot))
        tc_lists_open_parts(state, about.candidate, slot);
}

static const struct tc_list_kind slot_list = {
    .fill = fill_slots,
    .take = take_slot,
};

/* ------------------------------------------------------------------ plans, questions */

static void fill_plans(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    const struct tc_stock *stock = state->options->stock;
    tc_sheet_start(sheet, "plans", 4);
    tc_sheet_head(sheet, "Plans", "", "plan");
    tc_sheet_column(sheet, 0, "tanks", "");
    tc_lists_words(sheet, 1, "setup");
    tc_lists_words(sheet, 2, "region");
    tc_lists_words(sheet, 3, "");
    for (size_t i = 0; i < stock->plan_count; i++) {
        const struct tc_plan *plan = &stock->plans[i];
        tc_lists_add(sheet, plan->name, plan->name);
        tc_sheet_number(sheet, 0, plan->candidate_count, 0);
        tc_sheet_text(sheet, 1, plan->setup);
        tc_sheet_text(sheet, 2, plan->region);
        tc_sheet_text(sheet, 3, plan->title);
    }
}

static const char *present_plan(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.name;
}

static void take_plan(struct tc_state *state, struct tc_list_about about, const char *name)
{
    (void)about;
    tc_state_pop(state);
    tc_document_open(state, name);
}

static const struct tc_list_kind plan_list = {
    .fill = fill_plans,
    .present = present_plan,
    .take = take_plan,
};

static void fill_questions(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)state;
    (void)about;
    tc_sheet_start(sheet, "sheets", 2);
    tc_sheet_head(sheet, "Sheets", "", "sheet");
    tc_sheet_column(sheet, 0, "key", "");
    tc_lists_words(sheet, 1, "");
    for (size_t i = 0; tc_question_at(i); i++) {
        tc_lists_add(sheet, tc_question_at(i)->name, tc_question_at(i)->name);
        if (i < 10)
            tc_sheet_text(sheet, 0, tc_sheet_format(sheet, "%zu", (i + 1) % 10));
        tc_sheet_text(sheet, 1, tc_question_at(i)->asks);
    }
}

static const char *present_question(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return tc_state_question(state)->name;
}

static void take_question(struct tc_state *state, struct tc_list_about about, const char *name)
{
    (void)about;
    tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, name) == 0)
            tc_scroll_to_question(state, i);
}

/* The number of a sheet goes there at once. */
static bool type_question(struct tc_state *state, uint32_t code)
{
    size_t number = code == '0' ? 9 : (size_t)(code - '1');
    if (code < '0' || code > '9')
        return false;
    if (tc_question_at(number))
        take_question(state, tc_state_list(state)->about, tc_question_at(number)->name);
    return true;
}

static const struct tc_list_kind question_list = {
    .fill = fill_questions,
    .present = present_question,
    .take = take_question,
    .type = type_question,
};

/* -------------------------------------------------------------------------- opening */

void tc_lists_open(struct tc_state *state, int which)
{
    static const struct tc_list_kind *const kinds[] = {
        [TC_LISTS_TANKS] = &tank_list,     [TC_LISTS_SETUPS] = &setup_list,
        [TC_LISTS_REGIONS] = &region_list, [TC_LISTS_BUYING] = &buying_list,
        [TC_LISTS_SLOTS] = &slot_list,     [TC_LISTS_BUYING_ONE] = &buying_one_list,
        [TC_LISTS_PLANS] = &plan_list,     [TC_LISTS_QUESTIONS] = &question_list,
    };
    int candidate = tc_state_candidate(state);
    if (candidate < 0 && (which == TC_LISTS_BUYING_ONE || which == TC_LISTS_SLOTS))
        tc_state_say(state, "No tank is selected: t chooses tanks.");
    else
        tc_list_open(state, kinds[which], (struct tc_list_about){candidate, TC_SLOT_STAND});
}

void tc_lists_open_part(struct tc_state *state, int unused)
{
    const struct tc_row *row;
    const struct tc_cell *cell = tc_state_cell(state, &row);
    (void)unused;
    int candidate = tc_state_candidate(state);
    if (cell && candidate >= 0) {
        /* Rows about a slot are called after it, with blanks for '-'. */
        for (int s = 0; s < TC_SLOT_COUNT; s++) {
            char name[TC_NAME_SIZE];
            tc_clean(name, sizeof name, tc_slot_name((enum tc_slot)s));
            for (char *c = name; *c; c++)
                *c = *c == '-' ? ' ' : *c;
            if (strcmp(row->label, name) == 0 || strcmp(row->label, tc_slot_name((enum tc_slot)s)) == 0) {
                tc_lists_open_parts(state, candidate, (enum tc_slot)s);
                return;
            }
        }
    }
    tc_lists_open(state, TC_LISTS_SLOTS);
}
