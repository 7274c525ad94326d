/* SPDX-License-Identifier: MIT */
#include "screen/choices.h"

#include <stdio.h>
#include <string.h>

#include "print/ascii.h"
#include "profile/key.h"
#include "screen/change.h"
#include "sheet/phrase.h"

/* A row of the list, its value and, where it is in force now, its mark. */
static void add_choice(struct tc_sheet *sheet, const char *label, const char *value)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_edit(sheet, 0, value);
}

static void set_words(struct tc_sheet *sheet, size_t column, const char *head)
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
    add_choice(sheet, tank->goods.name, tank->goods.name);
    if (count > 0)
        tc_sheet_text(sheet, TANK_COUNT, tc_sheet_format(sheet, "%d ×", count));
    tc_sheet_text(sheet, TANK_SIZE, tc_phrase_size(words, tank->length, tank->width, tank->height, units));
    tc_sheet_text(sheet, TANK_VOLUME,
                  tc_unit_quantity_write(words, tank->nominal_volume, TC_DIM_VOLUME, units, 0));
    add_list_price(sheet, TANK_PRICE, state, region, -1, &tank->goods);
    tc_sheet_text(sheet, TANK_SALE, sale ? sale->name : tank->special_order ? "special order" : "");
    tc_sheet_text(sheet, TANK_TITLE, tank->goods.title);
}

static void make_tanks(const struct tc_state *state, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    const struct tc_region *region = region_in_force(state);
    tc_sheet_start(sheet, "tanks", TANK_COLUMNS);
    tc_sheet_head(sheet, "Tanks to compare", "", "tank");
    tc_sheet_column(sheet, TANK_COUNT, "count", "");
    tc_sheet_column(sheet, TANK_SIZE, "outside", "");
    tc_sheet_column(sheet, TANK_VOLUME, "nominal", "");
    tc_sheet_column(sheet, TANK_PRICE, "price", "");
    set_words(sheet, TANK_SALE, "sale today");
    set_words(sheet, TANK_TITLE, "");
    for (size_t i = 0; i < stock->tank_count; i++)
        add_tank(sheet, state, region, &stock->tanks[i]);
}

/* --------------------------------------------------------------------- setups, regions */

/* Columns that show a key of a record each, and at the end its title. */
static void add_record(struct tc_sheet *sheet, const char *kind, const char *name, const void *record,
                       const char *const *keys, size_t key_count, const char *title,
                       enum tc_unit_system units)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    add_choice(sheet, name, name);
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
        set_words(sheet, i, keys[i]);
    set_words(sheet, key_count, "");
}

static void make_setups(const struct tc_state *state, struct tc_sheet *sheet)
{
    static const char *const keys[] = {"filter", "temperature", "ppfd", "lid"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const struct tc_stock *stock = state->options->stock;
    start_records(sheet, "How the tanks are equipped", "setup", keys, KEYS);
    for (size_t i = 0; i < stock->setup_count; i++)
        add_record(sheet, "setup", stock->setups[i].name, &stock->setups[i], keys, KEYS,
                   stock->setups[i].title, units_in_force(state));
}

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

static void make_regions(const struct tc_state *state, struct tc_sheet *sheet)
{
    static const char *const keys[] = {"currency", "sales-tax", "electricity"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    start_records(sheet, "Where they are bought and run", "region", keys, KEYS);
    add_regions(state, sheet, keys, KEYS, false);
    add_regions(state, sheet, keys, KEYS, true);
}

/* -------------------------------------------------------------------------- buying */

static void add_way(struct tc_sheet *sheet, const struct tc_state *state, const char *way, const char *label,
                    const char *when, int only)
{
    size_t column = 0;
    add_choice(sheet, label, way);
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
    set_words(sheet, columns, "");
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

/* --------------------------------------------------------------------------- parts */

static void make_slots(const struct tc_state *state, int candidate, struct tc_sheet *sheet)
{
    const struct tc_alternative *alternative = tc_state_entry(state, candidate);
    char words[TC_WORDS_SIZE];
    tc_sheet_start(sheet, "slots", 2);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet, "Parts of %s", alternative ? alternative->plan->tank : "this tank"),
                  "", "");
    set_words(sheet, 0, "chosen now");
    set_words(sheet, 1, "");
    for (int s = 0; alternative && s < TC_SLOT_COUNT; s++) {
        enum tc_slot slot = (enum tc_slot)s;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        add_choice(sheet, tc_slot_name(slot), tc_slot_name(slot));
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
    add_choice(sheet, offer->part->goods.name, offer->part->goods.name);
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

static void make_parts(const struct tc_state *state, struct tc_choices_about about, struct tc_sheet *sheet)
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
    set_words(sheet, PART_WHY, "");
    add_choice(sheet, "any", "any");
    tc_sheet_text(sheet, PART_WHY, "the cheapest to own of those that fit");
    add_choice(sheet, "none", "none");
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

/* ------------------------------------------------------------------ plans, questions */

static void make_plans(const struct tc_state *state, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    tc_sheet_start(sheet, "plans", 4);
    tc_sheet_head(sheet, "Plans", "", "plan");
    tc_sheet_column(sheet, 0, "tanks", "");
    set_words(sheet, 1, "setup");
    set_words(sheet, 2, "region");
    set_words(sheet, 3, "");
    for (size_t i = 0; i < stock->plan_count; i++) {
        const struct tc_plan *plan = &stock->plans[i];
        add_choice(sheet, plan->name, plan->name);
        tc_sheet_number(sheet, 0, plan->candidate_count, 0);
        tc_sheet_text(sheet, 1, plan->setup);
        tc_sheet_text(sheet, 2, plan->region);
        tc_sheet_text(sheet, 3, plan->title);
    }
}

static void make_questions(struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "sheets", 2);
    tc_sheet_head(sheet, "Sheets", "", "sheet");
    tc_sheet_column(sheet, 0, "key", "");
    set_words(sheet, 1, "");
    for (size_t i = 0; tc_question_at(i); i++) {
        add_choice(sheet, tc_question_at(i)->name, tc_question_at(i)->name);
        if (i < 10)
            tc_sheet_text(sheet, 0, tc_sheet_format(sheet, "%zu", (i + 1) % 10));
        tc_sheet_text(sheet, 1, tc_question_at(i)->asks);
    }
}

/* --------------------------------------------------------------------- assumptions */

/* One group: every key of a table, with the figure in force. */
static void add_assumptions(struct tc_sheet *sheet, const struct tc_state *state, const char *table_name,
                            const char *start, const char *heading)
{
    const struct tc_key_table *table = tc_key_table_find(table_name);
    bool markable = strcmp(table_name, "plan") != 0 && strcmp(table_name, "wall") != 0;
    tc_sheet_row(sheet, TC_ROW_GROUP, heading, "");
    for (size_t i = 0; table && i < table->count; i++) {
        const struct tc_key *key = &table->keys[i];
        char path[2 * TC_NAME_SIZE], text[TC_VALUE_SIZE];
        bool names = strcmp(key->name, "title") == 0 || strcmp(key->name, "tank") == 0;
        if (names && strcmp(table_name, "plan") != 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", start, key->name);
        tc_change_present(state, path, text);
        add_choice(sheet, key->name, path);
        tc_sheet_text(sheet, 0, text);
        if (markable && tc_change_typed(state, path))
            tc_sheet_mark(sheet, 0, TC_MARK_TYPED);
        tc_sheet_text(sheet, 1, key->help);
    }
}

static void make_assumptions(const struct tc_state *state, int candidate, struct tc_sheet *sheet)
{
    const struct tc_plan *plan = &state->now.plan;
    bool wall_first = strcmp(tc_state_question(state)->name, "wall") == 0;
    tc_sheet_start(sheet, "assumptions", 2);
    tc_sheet_head(sheet, "Assumptions", "", "");
    set_words(sheet, 0, "in force");
    set_words(sheet, 1, "");
    if (wall_first)
        add_assumptions(sheet, state, "wall", "wall", "The wall");
    add_assumptions(sheet, state, "plan", "plan", "The plan");
    add_assumptions(sheet, state, "setup", "setup", tc_sheet_format(sheet, "The setup %s", plan->setup));
    add_assumptions(sheet, state, "region", "region", tc_sheet_format(sheet, "The region %s", plan->region));
    if (candidate >= 0 && candidate < plan->candidate_count)
        add_assumptions(sheet, state, "candidate", tc_sheet_format(sheet, "candidate %d", candidate + 1),
                        tc_sheet_format(sheet, "The tank %s", plan->candidate[candidate].tank));
    if (!wall_first)
        add_assumptions(sheet, state, "wall", "wall", "The wall");
    tc_sheet_row(sheet, TC_ROW_GROUP, "What is asked", "");
    add_choice(sheet, "vary", "ask/vary");
    tc_sheet_text(sheet, 0, state->vary);
    tc_sheet_text(sheet, 1, "what the sheet whatif varies");
    add_choice(sheet, "money", "ask/money");
    tc_sheet_text(sheet, 0, state->money);
    tc_sheet_text(sheet, 1, "the money in which the sheet places compares");
}

/* --------------------------------------------------------------------------- whole */

static void make(const struct tc_state *state, enum tc_picker_kind kind, struct tc_choices_about about,
                 struct tc_sheet *sheet)
{
    switch (kind) {
    case TC_PICK_TANKS: make_tanks(state, sheet); break;
    case TC_PICK_SETUP: make_setups(state, sheet); break;
    case TC_PICK_REGION: make_regions(state, sheet); break;
    case TC_PICK_BUYING: make_buying(state, -1, sheet); break;
    case TC_PICK_BUYING_ONE: make_buying(state, about.candidate, sheet); break;
    case TC_PICK_SLOT: make_slots(state, about.candidate, sheet); break;
    case TC_PICK_PART: make_parts(state, about, sheet); break;
    case TC_PICK_PLAN: make_plans(state, sheet); break;
    case TC_PICK_QUESTION: make_questions(sheet); break;
    case TC_PICK_ASSUMPTION: make_assumptions(state, about.candidate, sheet); break;
    }
}

enum tc_status tc_choices_make(const struct tc_state *state, enum tc_picker_kind kind,
                               struct tc_choices_about about, struct tc_sheet *sheet)
{
    struct tc_sheet made;
    if (!state->options->ascii) {
        make(state, kind, about, sheet);
        return sheet->failed ? TC_NO_MEMORY : TC_OK;
    }
    make(state, kind, about, &made);
    enum tc_status status = tc_ascii_sheet(sheet, &made);
    if (made.failed)
        status = TC_NO_MEMORY;
    tc_sheet_free(&made);
    return status;
}

const char *tc_choices_present(const struct tc_state *state, enum tc_picker_kind kind,
                               struct tc_choices_about about, char *buffer)
{
    const struct tc_plan *plan = &state->now.plan;
    const struct tc_candidate *candidate = about.candidate >= 0 && about.candidate < plan->candidate_count
                                               ? &plan->candidate[about.candidate]
                                               : NULL;
    const char *present = "";
    switch (kind) {
    case TC_PICK_TANKS: present = candidate ? candidate->tank : ""; break;
    case TC_PICK_SETUP: present = plan->setup; break;
    case TC_PICK_REGION: present = plan->region; break;
    case TC_PICK_BUYING: present = plan->sale; break;
    case TC_PICK_BUYING_ONE: present = candidate && candidate->sale[0] ? candidate->sale : "plan"; break;
    case TC_PICK_PART:
        present = candidate && candidate->pin[about.slot].part[0] ? candidate->pin[about.slot].part : "any";
        break;
    case TC_PICK_PLAN: present = plan->name; break;
    case TC_PICK_QUESTION: present = tc_state_question(state)->name; break;
    case TC_PICK_SLOT:
    case TC_PICK_ASSUMPTION: break;
    }
    snprintf(buffer, TC_NAME_SIZE, "%s", present);
    return buffer;
}
