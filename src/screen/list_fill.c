/* SPDX-License-Identifier: MIT */
#include "screen/list_fill.h"

#include <stdio.h>
#include <string.h>

#include "screen/edit.h"

/* A row of the list, its value and, where it is in force now, its mark. */
void tc_fill_choice(struct tc_sheet *sheet, const char *label, const char *value)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_edit(sheet, 0, value);
}

void tc_fill_words(struct tc_sheet *sheet, size_t column, const char *head)
{
    tc_sheet_column(sheet, column, head, "");
    if (column < sheet->column_count)
        sheet->columns[column].words = true;
}

enum tc_unit_system tc_fill_units(const struct tc_state *state)
{
    return state->now.plan.units;
}

/* The candidate that a list is about; NULL where that is none. */
const struct tc_candidate *tc_fill_candidate(const struct tc_state *state, struct tc_list_about about)
{
    const struct tc_plan *plan = &state->now.plan;
    return about.candidate >= 0 && about.candidate < plan->candidate_count ? &plan->candidate[about.candidate]
                                                                           : NULL;
}

/* Sets a path of the plan to what was chosen, and closes the list. */
void tc_fill_take(struct tc_state *state, const char *path, const char *value)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_edit_set(state, path, value, problem))
        tc_state_warn(state, "%s", problem);
    tc_state_pop(state);
}

void tc_fill_price(struct tc_sheet *sheet, size_t column, const struct tc_state *state,
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

/* What a shop's name is told from other choices by. */
#define SHOP "shop "

const char *tc_fill_shop(struct tc_sheet *sheet, const char *shop)
{
    return tc_sheet_format(sheet, SHOP "%s", shop);
}

const char *tc_fill_shop_of(const char *value)
{
    return strncmp(value, SHOP, strlen(SHOP)) == 0 ? value + strlen(SHOP) : NULL;
}

const char *tc_fill_now(const char *chosen, const char *word, const char *value)
{
    return strcmp(chosen[0] ? chosen : word, value) == 0 ? "chosen now" : "";
}
