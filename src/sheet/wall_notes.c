/* SPDX-License-Identifier: MIT */
#include "sheet/wall_notes.h"

#include <math.h>

#include "sheet/left_out.h"
#include "sheet/need.h"
#include "sheet/phrase.h"
#include "sheet/wall_drawing.h"
#include "sheet/wall_heat.h"
#include "sheet/wall_limits.h"
#include "sheet/wall_study_cost.h"
#include "sheet/wall_study_share.h"

/* What the search vouches for. */
static void add_proof(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_currency currency = wall_study->study->region.currency;
    char words[TC_WORDS_SIZE];
    const char *shared = "";
    double power = layout->wall.power_limit - layout->sought.power_limit;
    tc_money money = layout->wall.budget - layout->sought.budget;
    if (fabs(power) >= 1)
        shared =
            tc_sheet_format(sheet, "%s of the circuit",
                            tc_unit_quantity_write(words, power, TC_DIM_POWER, wall_study->study->units, 0));
    if (money != 0)
        shared = tc_sheet_format(sheet, "%s%s%s of the budget", shared, shared[0] ? " and " : "",
                                 tc_phrase_money(words, money, currency));
    if (shared[0])
        shared = tc_sheet_format(sheet, ", with %s set aside for what the tanks share", shared);
    if (sheet->first)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "The best mix so far; a better one is still looked for.");
    else if (layout->mix.proven)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Proven: no other mix does better under these limits%s.",
                      shared);
    else if (layout->mix.goals_proven > 0)
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "Proven: no other mix holds more under these limits%s. One as good may cost less: that "
                      "search was stopped before its end.",
                      shared);
    else
        tc_sheet_note(
            sheet, TC_NOTE_FAULT,
            "The search was stopped before its end: this is the best mix found, not a proven one. No "
            "mix can be better than %s%s.",
            tc_wall_reached(words, wall_study, layout->mix.bound), shared);
}

/* Walls to compare with may do better because they leave out what the plan wants at least: it is said. */
static void add_shortfalls(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    for (int i = 1; i < wall_study->layout_count; i++) {
        const struct tc_layout *layout = &wall_study->layouts[i];
        const char *wanted = "";
        for (int m = 0; m < layout->mix.models; m++)
            if (layout->mix.count[m] < wall_study->models[m].least)
                wanted = tc_sheet_format(sheet, "%s%s%d × %s", wanted, wanted[0] ? ", " : "",
                                         wall_study->models[m].least,
                                         wall_study->alternatives[m].c.tank.goods.name);
        if (layout->found == TC_OK && wanted[0])
            tc_sheet_note(sheet, TC_NOTE_REMARK, "\"%s\" ignores the minimum you set: %s.", layout->name,
                          wanted);
    }
}

/* "too short for its animals": why a tank may not stand on the wall at all. */
static const char *bar_words(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int index)
{
    const struct tc_lack *lack = tc_need_first(&wall_study->study->alternatives[index].suit);
    const char *mend, *gap;
    switch (wall_study->barred[index]) {
    case TC_WALL_BAR_PRICE: return "no price here";
    case TC_WALL_BAR_WARM: return "too warm for its animals in this room";
    case TC_WALL_BAR_EQUIPMENT:
        gap = tc_left_out_gap(sheet, &wall_study->alternatives[index], &mend);
        return tc_sheet_format(sheet, "%s; %s", gap, mend);
    case TC_WALL_BAR_SUIT:
    case TC_WALL_BAR_NONE: break;
    }
    return tc_sheet_format(sheet, "%s for its animals", tc_need_word(lack ? lack->need : TC_NEED_COOL));
}

/* The tanks of the plan that may not stand on the wall, with the reason. */
static void tell_barred(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    enum { NAMED = 3 };
    const char *names = "";
    int count = 0;
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        if (wall_study->barred[i] != TC_WALL_BAR_NONE && count++ < NAMED)
            names = tc_sheet_format(sheet, "%s%s%s (%s)", names, names[0] ? ", " : "",
                                    wall_study->alternatives[i].c.tank.goods.name,
                                    bar_words(sheet, wall_study, i));
    if (count > NAMED)
        names = tc_sheet_format(sheet, "%s and %d more", names, count - NAMED);
    if (count > 0)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "Left off this wall: %s.", names);
}

const char *tc_wall_mix_words(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                              const struct tc_layout *layout)
{
    const char *mix = "";
    for (int i = 0; i < layout->mix.models; i++)
        if (layout->mix.count[i] > 0)
            mix = tc_sheet_format(sheet, "%s%s%d × %s", mix, mix[0] ? ", " : "", layout->mix.count[i],
                                  wall_study->alternatives[i].c.tank.goods.name);
    return mix;
}

static void note_mix(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    struct tc_currency currency = wall_study->study->region.currency;
    char buy[TC_WORDS_SIZE], year[TC_WORDS_SIZE], volume[TC_QUANTITY_SIZE], kwh[TC_NUMBER_SIZE];
    tc_sheet_note(
        sheet, TC_NOTE_FINDING,
        "The wall holds %s: %s of water. It costs %s to buy and %s each year, with %s kWh of electricity.",
        tc_wall_mix_words(sheet, wall_study, layout),
        tc_unit_quantity_write(volume, layout->mix.volume, TC_DIM_VOLUME, wall_study->study->units, 0),
        tc_phrase_money(buy, layout->cost.to_buy, currency),
        tc_phrase_money(year, layout->cost.each_year, currency),
        tc_number_write(kwh, tc_wall_study_energy(layout), 0, true));
}

/* Pieces of a slot that are bought for all tanks. */
static int pieces(const struct tc_wall_study *wall_study, enum tc_slot slot)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    int sum = 0;
    for (int i = 0; i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        struct tc_case c = wall_study->alternatives[i].c;
        c.quantity = layout->mix.count[i];
        if (slot == TC_SLOT_LIGHT && layout->share.light[i])
            sum += layout->share.light_count[i] + layout->share.lights_left[i];
        else if (wall_study->alternatives[i].equipment.slot[slot].offer)
            sum += tc_equipment_pieces(&c, &wall_study->alternatives[i].equipment, slot);
    }
    return sum;
}

/* "3 filters", "1 lid", "2 bags of substrate": behind what was named before. */
static const char *with(struct tc_sheet *sheet, const char *things, int count, const char *bags_of,
                        const char *what)
{
    const char *s = count == 1 ? "" : "s";
    return bags_of[0] ? tc_sheet_format(sheet, "%s, %d %s%s of %s", things, count, bags_of, s, what)
                      : tc_sheet_format(sheet, "%s, %d %s%s", things, count, what, s);
}

/* What is to be bought, in one sentence. */
static void note_buying(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const char *things =
        tc_sheet_format(sheet, "%d tank%s", layout->mix.tanks, layout->mix.tanks == 1 ? "" : "s");
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        int count = pieces(wall_study, (enum tc_slot)slot);
        if (count > 0)
            things = with(sheet, things, count, slot == TC_SLOT_SUBSTRATE ? "bag" : "",
                          tc_slot_word((enum tc_slot)slot));
    }
    if (layout->share.air)
        things =
            tc_sheet_format(sheet, "%s (%s)", with(sheet, things, layout->share.air_count, "", "air pump"),
                            layout->share.air->part->goods.name);
    if (layout->heated && wall_study->study->plan.wall.room.heater_price > 0)
        things = tc_sheet_format(sheet, "%s, 1 heater for the room", things);
    int shelves = tc_wall_study_tiers(layout);
    tc_sheet_note(sheet, TC_NOTE_FINDING,
                  "To buy: %s and %d rack shel%s. The sheet \"list\" has each with its price.", things,
                  shelves, shelves == 1 ? "f" : "ves");
}

void tc_wall_note_answer(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    bool spans = false;
    for (int i = 0; i < layout->mix.models; i++)
        spans = spans || layout->share.light[i];
    note_mix(sheet, wall_study);
    tell_barred(sheet, wall_study);
    tc_wall_note_bays(sheet, wall_study);
    tc_wall_note_heat(sheet, wall_study);
    note_buying(sheet, wall_study);
    add_proof(sheet, wall_study);
    add_shortfalls(sheet, wall_study);
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "During the search every tank is priced as if it were the first; the totals are for the whole room.");
    if (spans)
        tc_sheet_note(sheet, TC_NOTE_REMARK, "Lights over a tier are not counted as heat in the water.");
}

/* Why not even one tank of a model stands on the wall. */
static const char *obstacle(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int index)
{
    static const char *const obstacles[] = {[TC_WALL_TOO_LONG] = "too long for the wall or a bay",
                                            [TC_WALL_TOO_DEEP] = "too deep for the wall",
                                            [TC_WALL_OUT_OF_REACH] = "too deep to reach into",
                                            [TC_WALL_TOO_HIGH] = "too high with the access above it",
                                            [TC_WALL_TIER_LOAD] = "too heavy for a tier of the rack",
                                            [TC_WALL_BAY_LOAD] = "too heavy for a bay of the rack",
                                            [TC_WALL_FLOOR_LOAD] = "too heavy for the floor load"};
    const struct tc_wall_model *model = &wall_study->models[index];
    const struct tc_wall *wall = &wall_study->wall;
    struct tc_wall_stand along, end_on;
    char a[TC_WORDS_SIZE], b[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    if (wall_study->barred[index] != TC_WALL_BAR_NONE)
        return bar_words(sheet, wall_study, index);
    tc_wall_stand(wall, model, false, &along);
    tc_wall_stand(wall, model, true, &end_on);
    if (along.obstacle != TC_WALL_FITS && end_on.obstacle != TC_WALL_FITS)
        return obstacles[along.obstacle];
    tc_money price =
        model->sale_most > 0 ? model->sale_price[wall->budget_kind] : model->price[wall->budget_kind];
    price = tc_money_add(price, wall->tier_price, &status);
    if (wall->budget > 0 && price > wall->budget)
        return tc_sheet_format(sheet, "one with its shelf costs %s, the budget is %s",
                               tc_phrase_money(a, price, wall_study->study->region.currency),
                               tc_phrase_money(b, wall->budget, wall_study->study->region.currency));
    if (wall->power_limit > 0 && model->power > wall->power_limit)
        return tc_sheet_format(
            sheet, "one draws %s, the circuit has %s left",
            tc_unit_quantity_write(a, model->power, TC_DIM_POWER, wall_study->study->units, 0),
            tc_unit_quantity_write(b, wall->power_limit, TC_DIM_POWER, wall_study->study->units, 0));
    return "one alone fits; with what the tanks share, or in the number that is wanted, it does not";
}

void tc_wall_note_none(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    if (layout->found == TC_OK && wall_study->goal.aim == TC_WALL_LEAST_COST &&
        wall_study->goal.wanted == 0) {
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "No tanks are wanted, so none is cheapest: say how many with wall/wanted.");
        return;
    }
    if (layout->found == TC_STOPPED) {
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "The search was stopped before it found a mix that holds what is wanted. There may be one.");
        return;
    }
    int barred = 0;
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        barred += wall_study->barred[i] != TC_WALL_BAR_NONE;
    tc_sheet_note(
        sheet, TC_NOTE_FINDING, "%s",
        barred == wall_study->study->alternative_count
            ? "None of these tanks suits its animals and can be priced here, so the wall stays empty."
        : wall_study->study->plan.wall.fixed ? "These tanks do not all fit on this wall."
                                             : "No arrangement meets these limits.");
    tc_sheet_row(sheet, TC_ROW_GROUP, "Why", "");
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        tc_sheet_sentence(sheet, wall_study->alternatives[i].c.tank.goods.name,
                          obstacle(sheet, wall_study, i));
}
