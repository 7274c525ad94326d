/* SPDX-License-Identifier: MIT */
#include "sheet/derive_wall.h"

#include <stdio.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/derive_loads.h"
#include "sheet/derive_shared.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_use.h"
#include "sheet/wall_study_cost.h"

#define END ((const struct tc_term *)NULL)

/* --------------------------------------------------------------------- the whole wall */

/* One part of a wall, its models first: the same figure of it; NULL: it has none. */
static const struct tc_term *part_line(struct tc_derive *derive, enum tc_derived_line part, int index)
{
    const struct tc_cost *cost = derive->cost;
    switch (part) {
    case TC_LINE_BUY: return cost->buy[index] != 0 ? tc_derive_buy(derive, index) : NULL;
    case TC_LINE_RUN: return cost->run[index] != 0 ? tc_derive_run(derive, index) : NULL;
    case TC_LINE_PAID: return cost->paid[index] != 0 ? tc_derive_paid(derive, index) : NULL;
    case TC_LINE_PRESENT: return cost->present[index] != 0 ? tc_derive_present(derive, index) : NULL;
    case TC_LINE_EXTRA: return cost->extra[index] != 0 ? tc_derive_extra(derive, index) : NULL;
    case TC_LINE_COURSE: return tc_derive_course(derive, index / 2, index % 2 == 1);
    case TC_LINE_INVESTED: return tc_derive_invested(derive);
    case TC_LINE_RUNNING: return tc_derive_running(derive);
    case TC_LINE_ENERGY:
        return tc_derive_energy(derive, (enum tc_consumer)(index / TC_MONTHS), index % TC_MONTHS);
    case TC_LINE_UPKEEP: return tc_derive_upkeep(derive);
    case TC_LINE_REPLACED:
    case TC_LINE_REPLACED_IN:
    case TC_LINE_RESOLD:
    case TC_LINE_SIZE:
    case TC_LINE_ROOM:
    case TC_LINE_QUANTITY: break;
    }
    return NULL;
}

/* Adds them all, each under its own symbol; count: their sum is its value, else it has the words of the
 * first. */
static const struct tc_term *sum_of(struct tc_derive *wall, struct tc_term *term, enum tc_derived_line part,
                                    int index, bool count)
{
    const struct tc_derive_parts *of = wall->made_of;
    double value = 0;
    for (int i = 0; term && i <= of->layout->mix.models; i++) {
        bool last = i == of->layout->mix.models;
        struct tc_derive *derive = last ? of->shared : of->model[i];
        const struct tc_term *one = derive ? part_line(derive, part, index) : NULL;
        if (!one)
            continue;
        value += one->value;
        if (!count && !term->parts)
            term->words = one->words;
        tc_term_add(wall->sheet, term,
                    tc_term_called(wall->sheet, one, tc_sheet_format(wall->sheet, "K%d", i + 1),
                                   last ? "what they share" : derive->alternative->head));
    }
    if (term && count)
        term->value = value;
    return term;
}

/* An amount of the wall's cost, the sum of its parts'. */
static const struct tc_term *wall_money(struct tc_derive *wall, char letter, enum tc_derived_line part,
                                        int index, tc_money money)
{
    return sum_of(wall, tc_derive_money_line(wall, letter, index, "nothing", "sum", money), part, index,
                  false);
}

/* The same of each tank, times how many there are. */
static const struct tc_term *wall_size(struct tc_derive *wall, enum tc_size size)
{
    const struct tc_derive_parts *of = wall->made_of;
    bool area = size == TC_SIZE_BOTTOM, volume = size == TC_SIZE_VOLUME;
    struct tc_term *term = tc_term_computed(wall->sheet,
                                            area     ? "a"
                                            : volume ? "V"
                                                     : "K",
                                            "of all tanks", "sum", 0,
                                            area     ? "m²"
                                            : volume ? "m³"
                                                     : "kg");
    for (int i = 0; term && i < of->layout->mix.models; i++) {
        const struct tc_term *one = of->model[i] ? tc_derive_size(of->model[i], size) : NULL;
        if (!one)
            continue;
        int count = of->layout->mix.count[i];
        struct tc_term *all = tc_term_computed(
            wall->sheet, tc_sheet_format(wall->sheet, "K%d", i + 1), of->model[i]->alternative->head,
            tc_sheet_format(wall->sheet, "q × %s", one->symbol), count * one->value, one->unit);
        tc_derive_add(wall, all, tc_derive_quantity(of->model[i]), one, END);
        tc_term_add(wall->sheet, term, all);
        term->value += count * one->value;
    }
    return term;
}

static const struct tc_term *wall_line(struct tc_derive *wall, enum tc_derived_line part, int index)
{
    const struct tc_cost *cost = wall->cost;
    struct tc_sheet *sheet = wall->sheet;
    switch (part) {
    case TC_LINE_BUY: return wall_money(wall, 'B', part, index, cost->buy[index]);
    case TC_LINE_RUN: return wall_money(wall, 'Y', part, index, cost->run[index]);
    case TC_LINE_PAID: return wall_money(wall, 'X', part, index, cost->paid[index]);
    case TC_LINE_PRESENT: return wall_money(wall, 'X', part, index, cost->present[index]);
    case TC_LINE_EXTRA: return wall_money(wall, 'E', part, index, cost->extra[index]);
    case TC_LINE_COURSE:
        return sum_of(
            wall,
            tc_term_computed(sheet, "Z",
                             tc_sheet_format(sheet, "paid up to the end of year %d, not rounded", index / 2),
                             "sum", 0, tc_derive_code(wall)),
            part, index, true);
    case TC_LINE_INVESTED:
    case TC_LINE_RUNNING:
        return sum_of(wall,
                      tc_term_computed(sheet, part == TC_LINE_INVESTED ? "x" : "s", "not rounded", "sum", 0,
                                       tc_derive_code(wall)),
                      part, index, true);
    case TC_LINE_UPKEEP:
        return sum_of(wall, tc_term_computed(sheet, "T", TC_DERIVE_UPKEEP_WORDS, "sum", 0, "h"), part, index,
                      true);
    case TC_LINE_SIZE: return wall_size(wall, (enum tc_size)index);
    case TC_LINE_QUANTITY: return tc_derive_model(wall, "q", "one wall", 1, "", "THE WALL");
    case TC_LINE_ENERGY:
        return sum_of(wall,
                      tc_term_computed(sheet, "u", tc_consumer_name((enum tc_consumer)(index / TC_MONTHS)),
                                       "sum", 0, "kWh"),
                      part, index, true);
    case TC_LINE_ROOM:
    case TC_LINE_REPLACED:
    case TC_LINE_REPLACED_IN:
    case TC_LINE_RESOLD: break;
    }
    return NULL;
}

/* ------------------------------------------------------------------------ its making */

/* What is left of amounts of the wall without those of a part. */
static void take(tc_money left[], const tc_money part[], int count, enum tc_status *status)
{
    for (int i = 0; i < count; i++)
        left[i] = tc_money_subtract(left[i], part[i], status);
}

static void take_amount(struct tc_amount *left, const struct tc_amount *part)
{
    left->paid -= part->paid;
    left->present -= part->present;
}

static void take_tariff(struct tc_tariff_cost *left, const struct tc_tariff_cost *part,
                        enum tc_status *status)
{
    take(left->month, part->month, TC_MONTHS, status);
    take(&left->year, &part->year, 1, status);
    for (int month = 0; month < TC_MONTHS; month++)
        left->exact_month[month] -= part->exact_month[month];
    left->exact_year -= part->exact_year;
}

/* What is shared costs what the models leave of the whole. */
static void take_cost(struct tc_cost *left, const struct tc_cost *part, enum tc_status *status)
{
    take(left->buy, part->buy, TC_BUY_COUNT, status);
    take(left->run, part->run, TC_RUN_COUNT, status);
    take(left->extra, part->extra, TC_EXTRAS_MAX, status);
    take(left->paid, part->paid, TC_LIFE_COUNT, status);
    take(left->present, part->present, TC_LIFE_COUNT, status);
    take(&left->to_buy, &part->to_buy, 1, status);
    take(&left->each_year, &part->each_year, 1, status);
    take(&left->as_paid, &part->as_paid, 1, status);
    take(&left->present_value, &part->present_value, 1, status);
    for (int i = 0; i < TC_CONSUMER_COUNT; i++) {
        tc_load_add(&left->running.energy[i], &part->running.energy[i], -1);
        take_tariff(&left->energy[i], &part->energy[i], status);
    }
    take_tariff(&left->energy_total, &part->energy_total, status);
    for (int year = 0; year <= left->flow.years; year++) {
        take_amount(&left->flow.capital[year], &part->flow.capital[year]);
        take_amount(&left->flow.running[year], &part->flow.running[year]);
    }
    take_amount(&left->flow.residual, &part->flow.residual);
}

/* What the household's bills come to with what stands before it. */
struct margins {
    struct tc_tariff_margin electricity, water;
};

/* Prices with the bills as they are with what is billed before; lives in the sheet. */
static void bill_after(struct tc_sheet *sheet, const struct tc_derive_parts *of,
                       const struct tc_running *before, struct tc_prices *prices)
{
    struct margins *margins = tc_sheet_memory(sheet, 1, sizeof *margins);
    if (!margins)
        return;
    tc_study_margins(&of->wall_study->region, &of->wall_study->study->tariffs, before, &margins->electricity,
                     &margins->water);
    prices->electricity = &margins->electricity;
    prices->water = &margins->water;
}

/* A model's tanks, bought on top of what those before them use, which is added to *before. */
static struct tc_derive *make_model(struct tc_sheet *sheet, struct tc_derive_parts *of, int model,
                                    struct tc_cost *before, enum tc_status *status)
{
    struct tc_alternative *bought = tc_sheet_memory(sheet, 1, sizeof *bought);
    if (!bought)
        return NULL;
    *status = tc_wall_study_bought(of->wall_study, of->layout, model, &before->running, bought);
    bill_after(sheet, of, &before->running, &bought->prices);
    if (*status == TC_OK)
        *status = tc_cost_add(before, &bought->cost);
    if (*status != TC_OK)
        return NULL;
    snprintf(bought->head, sizeof bought->head, "%d × %s", of->layout->mix.count[model],
             bought->c.tank.goods.name);
    struct tc_derive *derive =
        tc_derive_counted(sheet, of->wall_study->study, bought, tc_derive_shared_counted);
    if (!derive)
        return NULL;
    derive->made_of = of;
    derive->counted_by = of->sought;
    if (of->wall_study->room.known || of->layout->heated)
        derive->room = tc_derive_room_climate;
    return derive;
}

/* What all tanks share, billed last. */
static void make_shared(struct tc_sheet *sheet, struct tc_derive_parts *of, const struct tc_study *study,
                        const struct tc_alternative *alternative, const struct tc_cost *before,
                        struct tc_derive *last)
{
    struct tc_prices *prices = tc_sheet_memory(sheet, 1, sizeof *prices);
    of->shared = tc_derive_made_of(sheet, study, alternative, &of->rest, tc_derive_shared_line, of);
    if (!prices || !of->shared)
        return;
    *prices = alternative->prices;
    bill_after(sheet, of, &before->running, prices);
    of->shared->prices = prices;
    of->shared->before = last;
}

static struct tc_derive *make(struct tc_sheet *sheet, const struct tc_study *study,
                              const struct tc_alternative *alternative, const struct tc_cost *cost,
                              const struct tc_wall_study *wall_study, const struct tc_layout *layout)
{
    struct tc_derive_parts *of = sheet->explained ? tc_sheet_memory(sheet, 1, sizeof *of) : NULL;
    struct tc_cost *before = of ? tc_sheet_memory(sheet, 1, sizeof *before) : NULL;
    struct tc_derive *last = NULL;
    enum tc_status status = TC_OK;
    if (!before)
        return NULL;
    of->wall_study =
        layout->heated != wall_study->heated && wall_study->other ? wall_study->other : wall_study;
    of->layout = layout;
    of->rest = layout->cost;
    of->sought = tc_derive_wall_sought(sheet, of);
    of->things = tc_wall_study_things(of->wall_study, layout, of->thing, of->what, &of->load, &status);
    for (int i = 0; status == TC_OK && i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        of->model[i] = make_model(sheet, of, i, before, &status);
        if (!of->model[i])
            break;
        take_cost(&of->rest, of->model[i]->cost, &status);
        of->model[i]->before = last;
        last = of->model[i];
    }
    if (status != TC_OK || sheet->failed) {
        sheet->failed = true;
        return NULL;
    }
    make_shared(sheet, of, study, alternative, before, last);
    return tc_derive_made_of(sheet, study, alternative, cost, wall_line, of);
}

struct tc_derive *tc_derive_wall_alternative(struct tc_sheet *sheet, const struct tc_study *study,
                                             const struct tc_alternative *alternative)
{
    return alternative->layout
               ? make(sheet, study, alternative, &alternative->cost, study->walls, alternative->layout)
               : NULL;
}

struct tc_derive *tc_derive_wall(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                 const struct tc_layout *layout)
{
    for (struct tc_derive *derive = sheet->derives; derive; derive = derive->next)
        if (derive->cost == &layout->cost)
            return derive;
    return make(sheet, wall_study->study, &wall_study->alternatives[0], &layout->cost, wall_study, layout);
}

struct tc_derive *tc_derive_wall_shared(struct tc_derive *wall)
{
    return wall ? ((const struct tc_derive_parts *)wall->made_of)->shared : NULL;
}

bool tc_derive_wall_thing(struct tc_derive *wall, const struct tc_offer *offer, int line, int count,
                          const struct tc_term **pieces, const struct tc_term **price)
{
    const struct tc_derive_parts *of = wall ? wall->made_of : NULL;
    for (int i = 0; of && i < of->things; i++)
        if (of->what[i].offer == offer && of->thing[i].line == line && of->what[i].count == count) {
            *pieces = tc_derive_shared_count(of->shared, &of->what[i]);
            *price = tc_derive_shared_price(of->shared, of, i);
            return true;
        }
    return false;
}
