/* SPDX-License-Identifier: MIT */
#include "sheet/derive_wall.h"

#include <math.h>
#include <stdio.h>

#include "core/cost/invest.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_life.h"
#include "sheet/derive_tank.h"
#include "sheet/wall_study_cost.h"

#define END ((const struct tc_term *)NULL)

const char tc_derive_wall_counted[] = "sought with all limits of the wall: tankcost-model(7), THE WALL";

/* A wall's tanks, model by model, and what they share. */
struct made_of {
    const struct tc_wall_study *wall_study;
    const struct tc_layout *layout;
    struct tc_derive *model[TC_CANDIDATES_MAX]; /* NULL: none stands there */
    struct tc_derive *shared;
    struct tc_cost rest; /* of what is shared */
    int things;
    struct tc_shared thing[TC_ROOM_SHARED_MAX + 1];
    struct tc_wall_thing what[TC_ROOM_SHARED_MAX + 1];
    struct tc_load load; /* of the room's heating; things point to it */
};

static double scale_of(const struct tc_derive *derive)
{
    return tc_currency_scale(derive->study->region.currency);
}

static const char *code_of(const struct tc_derive *derive)
{
    return derive->study->region.currency.code;
}

static struct tc_source worked_out(const char *place)
{
    return (struct tc_source){TC_TERM_SIMULATED, place};
}

/* ------------------------------------------------------------------- what is shared */

static const char *thing_name(const struct tc_wall_thing *what)
{
    switch (what->kind) {
    case TC_THING_RACK: return "rack, by the tier";
    case TC_THING_TIMER: return "timer";
    case TC_THING_PART: return what->offer->part->goods.name;
    case TC_THING_ROOM: return "heater of the room";
    }
    return "";
}

/* A key of a part's profile, or a figure of the wall or the model. */
static const struct tc_term *thing_key(struct tc_derive *derive, const struct tc_wall_thing *what,
                                       const char *symbol, const char *words, double value, const char *unit,
                                       const char *key, const char *path)
{
    struct tc_sheet *sheet = derive->sheet;
    if (what->kind == TC_THING_PART)
        return tc_term_leaf(sheet, symbol, words, value, unit,
                            tc_source_item(sheet, derive->study, tc_slot_name(what->offer->part->slot),
                                           what->offer->part->goods.name, key));
    return path ? tc_term_leaf(sheet, symbol, words, value, unit, tc_source_path(sheet, derive->study, path))
                : tc_derive_model(derive, symbol, words, value, unit, "THE WALL");
}

static const struct tc_term *thing_price(struct tc_derive *derive, const struct made_of *of, int i)
{
    static const char *const paths[] = {[TC_THING_RACK] = "wall/rack-price",
                                        [TC_THING_TIMER] = "wall/timer-price",
                                        [TC_THING_ROOM] = "wall/room-heater-price"};
    const struct tc_wall_thing *what = &of->what[i];
    double each = (double)of->thing[i].price / what->count / scale_of(derive);
    if (what->kind == TC_THING_PART)
        return tc_term_leaf(derive->sheet, "p", "price of one", each, code_of(derive),
                            tc_source_price(derive->sheet, derive->study, (int)what->offer->part->slot,
                                            &what->offer->part->goods));
    return thing_key(derive, what, "p", "price of one", each, code_of(derive), "", paths[what->kind]);
}

static const struct tc_term *thing_count(struct tc_derive *derive, const struct tc_wall_thing *what)
{
    return tc_term_leaf(derive->sheet, "m", "so many of it", what->count, "",
                        worked_out("by the tanks that stand there: tankcost-model(7), THE WALL"));
}

/* The price of all of it, before tax. */
static const struct tc_term *thing_bought(struct tc_derive *derive, const struct made_of *of, int i,
                                          const char *symbol)
{
    struct tc_term *term = tc_term_money(derive->sheet, symbol, thing_name(&of->what[i]), "m × p",
                                         of->thing[i].price, derive->study->region.currency);
    tc_derive_add(derive, term, thing_count(derive, &of->what[i]), thing_price(derive, of, i), END);
    return term;
}

static struct tc_term *money_line(struct tc_derive *derive, char letter, int index, const char *words,
                                  const char *formula, tc_money money)
{
    return tc_term_money(derive->sheet, tc_sheet_format(derive->sheet, "%c%d", letter, index + 1), words,
                         formula, money, derive->study->region.currency);
}

/* All goods of the wall, or of what is shared alone. */
static const struct tc_term *goods_of(struct tc_derive *derive)
{
    enum tc_status status = TC_OK;
    struct tc_term *term =
        tc_term_money(derive->sheet, "G", "goods, before tax", "sum",
                      tc_money_sum(derive->cost->buy, TC_BUY_SLOTS + TC_SLOT_COUNT, &status),
                      derive->study->region.currency);
    for (int i = 0; i < TC_BUY_SLOTS + TC_SLOT_COUNT; i++)
        if (derive->cost->buy[i] != 0)
            tc_term_add(derive->sheet, term, tc_derive_buy(derive, i));
    return term;
}

static const struct tc_term *shop_amount(struct tc_derive *derive, const char *symbol, const char *words,
                                         double amount, const char *key)
{
    return tc_term_leaf(derive->sheet, symbol, words, amount, code_of(derive),
                        tc_source_shop(derive->sheet, derive->study, key));
}

/* Of the one order of the room. */
static const struct tc_term *delivery(struct tc_derive *derive, struct tc_derive *wall)
{
    const struct tc_region *region = &derive->study->region;
    bool free = region->delivery_free_from > 0;
    struct tc_term *term =
        money_line(derive, 'B', TC_BUY_DELIVERY, "delivery of everything",
                   free ? "round(D × below(G, f))" : "round(D)", derive->cost->buy[TC_BUY_DELIVERY]);
    tc_derive_add(derive, term,
                  shop_amount(derive, "D", "delivery of one order", region->delivery, "delivery"),
                  free ? goods_of(wall) : END, END);
    if (free)
        tc_derive_add(derive, term,
                      shop_amount(derive, "f", "goods worth this are brought for nothing",
                                  region->delivery_free_from, "delivery-free-from"),
                      END);
    return term;
}

static const char *slot_name(int index)
{
    bool slot = index >= TC_BUY_SLOTS && index < TC_BUY_SLOTS + TC_SLOT_COUNT;
    return slot ? tc_slot_name((enum tc_slot)(index - TC_BUY_SLOTS)) : "what all tanks share";
}

static const struct tc_term *shared_buy(struct tc_derive *derive, const struct made_of *of,
                                        struct tc_derive *wall, int index)
{
    if (index == TC_BUY_DELIVERY)
        return delivery(derive, wall);
    if (index == TC_BUY_TAX) {
        struct tc_term *tax = money_line(derive, 'B', index, "sales tax on what is shared", "round(G × t)",
                                         derive->cost->buy[index]);
        tc_derive_add(derive, tax, goods_of(derive), tc_derive_tax(derive), END);
        return tax;
    }
    struct tc_term *term = money_line(derive, 'B', index, slot_name(index), "sum", derive->cost->buy[index]);
    for (int i = 0; i < of->things; i++)
        if (of->thing[i].line == index && of->thing[i].price != 0)
            tc_term_add(derive->sheet, term,
                        thing_bought(derive, of, i, tc_sheet_format(derive->sheet, "b%d", i + 1)));
    return term;
}

static const struct tc_term *shared_supplies(struct tc_derive *derive, const struct made_of *of)
{
    struct tc_term *all =
        tc_term_computed(derive->sheet, "S", "supplies before tax", "sum", 0, code_of(derive));
    for (int i = 0; all && i < of->things; i++) {
        if (of->thing[i].upkeep == 0)
            continue;
        double value = (double)of->thing[i].upkeep / scale_of(derive);
        struct tc_term *one = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "s%d", i + 1),
                                               thing_name(&of->what[i]), "m × p", value, code_of(derive));
        tc_derive_add(derive, one, thing_count(derive, &of->what[i]),
                      thing_key(derive, &of->what[i], "p", "supplies of one for a year",
                                value / of->what[i].count, code_of(derive), "upkeep", NULL),
                      END);
        tc_term_add(derive->sheet, all, one);
        all->value += value;
    }
    struct tc_term *term = money_line(derive, 'Y', TC_RUN_SUPPLIES, "supplies", "round(S × (1 + t))",
                                      derive->cost->run[TC_RUN_SUPPLIES]);
    tc_derive_add(derive, term, all, tc_derive_tax(derive), END);
    return term;
}

static const struct tc_term *shared_run(struct tc_derive *derive, const struct made_of *of, int index)
{
    if (index == TC_RUN_SUPPLIES)
        return shared_supplies(derive, of);
    bool energy = index < TC_RUN_ENERGY + TC_CONSUMER_COUNT;
    struct tc_term *term =
        money_line(derive, 'Y', index, energy ? "electricity of what is shared" : "heat of the room", "",
                   derive->cost->run[index]);
    if (!term)
        return NULL;
    term->from = TC_TERM_SIMULATED;
    term->place = energy ? "month by month, on top of what the household and all tanks use: "
                           "tankcost-model(7), THE WALL"
                         : "month by month, by the balance of room and tanks: tankcost-model(7), THE WALL";
    if (energy)
        tc_derive_add(derive, term,
                      tc_term_leaf(derive->sheet, "U", "used in a year",
                                   tc_load_year(&derive->cost->running.energy[index - TC_RUN_ENERGY]), "kWh",
                                   worked_out("hour by hour: tankcost-model(7), THE WALL")),
                      END);
    return term;
}

static struct tc_item_life life_of(const struct tc_derive *derive, const struct made_of *of, int i)
{
    double price = (double)of->thing[i].price, tax = tc_region_added_tax(&derive->study->region);
    return (struct tc_item_life){
        price, price * (1 + tax), of->thing[i].life, of->thing[i].life, of->thing[i].resale, price};
}

static const struct tc_term *thing_life(struct tc_derive *derive, const struct made_of *of, int i)
{
    return thing_key(derive, &of->what[i], "L", "life of one", of->thing[i].life, "years", "life",
                     of->what[i].kind == TC_THING_ROOM ? "wall/room-heater-life" : NULL);
}

static const struct tc_term *discount(struct tc_derive *derive, bool today)
{
    return today ? tc_derive_discount(derive)
                 : tc_derive_model(derive, "d", "as paid, nothing is discounted", 0, "", "LIFE-CYCLE COST");
}

/* Of a thing its k-th replacement. */
static const struct tc_term *replacement(struct tc_derive *derive, const struct made_of *of, int i, int k,
                                         bool today)
{
    struct tc_item_life life = life_of(derive, of, i);
    double time = tc_item_replacement_time(&life, k), d = today ? derive->study->plan.discount : 0;
    char number[TC_NUMBER_SIZE];
    struct tc_term *when =
        tc_term_computed(derive->sheet, "T", "years from the start", "k × L", time, "years");
    tc_derive_add(derive, when, tc_derive_model(derive, "k", "lives before it", k + 1, "", "LIFE-CYCLE COST"),
                  thing_life(derive, of, i), END);
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "R%dk%d", i + 1, k),
        tc_sheet_format(derive->sheet, "%s, after %s years", thing_name(&of->what[i]),
                        tc_number_write_short(number, time)),
        "N × (1 + t) / (1 + d)^T",
        life.replacement_price * tc_single_present_value(d, time) / scale_of(derive), code_of(derive));
    tc_derive_add(derive, term, thing_bought(derive, of, i, "N"), tc_derive_tax(derive),
                  discount(derive, today), when, END);
    return term;
}

/* All that is bought again; in one year, or in all (-1). */
static const struct tc_term *shared_replaced(struct tc_derive *derive, const struct made_of *of, int year,
                                             bool today)
{
    struct tc_term *sum =
        tc_term_computed(derive->sheet, year < 0 ? "R" : "k", "bought again", "sum", 0, code_of(derive));
    for (int i = 0; sum && i < of->things; i++) {
        struct tc_item_life life = life_of(derive, of, i);
        int count =
            life.replacement_price > 0 ? tc_item_replacements(&life, (int)derive->study->plan.years) : 0;
        for (int k = 0; k < count; k++) {
            if (year >= 0 && tc_year_of(tc_item_replacement_time(&life, k)) != year)
                continue;
            const struct tc_term *one = replacement(derive, of, i, k, today);
            sum->value += one ? one->value : 0;
            tc_term_add(derive->sheet, sum, one);
        }
    }
    return sum;
}

/* What one thing is sold for at the end, in money of that day; NULL: nothing. */
static const struct tc_term *residual(struct tc_derive *derive, const struct made_of *of, int i)
{
    struct tc_item_life life = life_of(derive, of, i);
    int years = (int)derive->study->plan.years, count = tc_item_replacements(&life, years);
    double worth = tc_item_residual(&life, years);
    if (!(worth > 0) || isinf(life.life))
        return NULL;
    struct tc_term *left =
        tc_term_computed(derive->sheet, "w", "share of its life that is left", "(k × L - n) / L",
                         ((count + 1) * life.life - years) / life.life, "");
    tc_derive_add(derive, left, tc_derive_model(derive, "k", "lives", count + 1, "", "LIFE-CYCLE COST"),
                  thing_life(derive, of, i), tc_derive_years(derive), END);
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "V%d", i + 1),
                         thing_name(&of->what[i]), "N × w × s", worth / scale_of(derive), code_of(derive));
    tc_derive_add(derive, term, thing_bought(derive, of, i, "N"), left,
                  thing_key(derive, &of->what[i], "s", "share of a new one's price that it fetches",
                            life.resale_share, "", "resale", NULL),
                  END);
    return term;
}

static const struct tc_term *shared_resold(struct tc_derive *derive, const struct made_of *of)
{
    struct tc_term *all =
        tc_term_computed(derive->sheet, "V", "what all is sold for at the end", "sum", 0, code_of(derive));
    for (int i = 0; all && i < of->things; i++) {
        const struct tc_term *one = residual(derive, of, i);
        all->value += one ? one->value : 0;
        tc_term_add(derive->sheet, all, one);
    }
    return all;
}

static struct tc_derive *wall_of(const struct made_of *of, struct tc_sheet *sheet)
{
    for (struct tc_derive *derive = sheet->derives; derive; derive = derive->next)
        if (derive->made_of == of && derive != of->shared)
            return derive;
    return NULL;
}

static const struct tc_term *shared_line(struct tc_derive *derive, enum tc_derived_line part, int index)
{
    const struct made_of *of = derive->made_of;
    switch (part) {
    case TC_LINE_BUY: return shared_buy(derive, of, wall_of(of, derive->sheet), index);
    case TC_LINE_RUN: return shared_run(derive, of, index);
    case TC_LINE_REPLACED: return shared_replaced(derive, of, -1, index == 1);
    case TC_LINE_REPLACED_IN: return shared_replaced(derive, of, index / 2, index % 2 == 1);
    case TC_LINE_RESOLD: return shared_resold(derive, of);
    case TC_LINE_PAID:
    case TC_LINE_PRESENT:
    case TC_LINE_EXTRA:
    case TC_LINE_COURSE:
    case TC_LINE_INVESTED:
    case TC_LINE_RUNNING:
    case TC_LINE_SIZE:
    case TC_LINE_QUANTITY: break;
    }
    return NULL;
}

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
    case TC_LINE_REPLACED:
    case TC_LINE_REPLACED_IN:
    case TC_LINE_RESOLD:
    case TC_LINE_SIZE:
    case TC_LINE_QUANTITY: break;
    }
    return NULL;
}

/* Adds them all, each under its own symbol; count: their sum is its value, else it has the words of the
 * first. */
static const struct tc_term *sum_of(struct tc_derive *wall, struct tc_term *term, enum tc_derived_line part,
                                    int index, bool count)
{
    const struct made_of *of = wall->made_of;
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
    return sum_of(wall, money_line(wall, letter, index, "nothing", "sum", money), part, index, false);
}

/* The same of each tank, times how many there are. */
static const struct tc_term *wall_size(struct tc_derive *wall, enum tc_size size)
{
    const struct made_of *of = wall->made_of;
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
                             "sum", 0, code_of(wall)),
            part, index, true);
    case TC_LINE_INVESTED:
    case TC_LINE_RUNNING:
        return sum_of(wall,
                      tc_term_computed(sheet, part == TC_LINE_INVESTED ? "x" : "s", "not rounded", "sum", 0,
                                       code_of(wall)),
                      part, index, true);
    case TC_LINE_SIZE: return wall_size(wall, (enum tc_size)index);
    case TC_LINE_QUANTITY: return tc_derive_model(wall, "q", "one wall", 1, "", "THE WALL");
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
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        tc_load_add(&left->running.energy[i], &part->running.energy[i], -1);
    for (int year = 0; year <= left->flow.years; year++) {
        take_amount(&left->flow.capital[year], &part->flow.capital[year]);
        take_amount(&left->flow.running[year], &part->flow.running[year]);
    }
    take_amount(&left->flow.residual, &part->flow.residual);
}

/* A model's tanks, bought on top of what those before them use, which is added to *before. */
static struct tc_derive *make_model(struct tc_sheet *sheet, const struct made_of *of, int model,
                                    struct tc_cost *before, enum tc_status *status)
{
    struct tc_alternative *bought = tc_sheet_memory(sheet, 1, sizeof *bought);
    if (!bought)
        return NULL;
    *status = tc_wall_study_bought(of->wall_study, of->layout, model, &before->running, bought);
    if (*status == TC_OK)
        *status = tc_cost_add(before, &bought->cost);
    if (*status != TC_OK)
        return NULL;
    snprintf(bought->head, sizeof bought->head, "%d × %s", of->layout->mix.count[model],
             bought->c.tank.goods.name);
    return tc_derive_counted(sheet, of->wall_study->study, bought, tc_derive_wall_counted);
}

static struct tc_derive *make(struct tc_sheet *sheet, const struct tc_study *study,
                              const struct tc_alternative *alternative, const struct tc_cost *cost,
                              const struct tc_wall_study *wall_study, const struct tc_layout *layout)
{
    struct made_of *of = sheet->explained ? tc_sheet_memory(sheet, 1, sizeof *of) : NULL;
    struct tc_cost *before = of ? tc_sheet_memory(sheet, 1, sizeof *before) : NULL;
    enum tc_status status = TC_OK;
    if (!before)
        return NULL;
    of->wall_study = layout->heated && wall_study->warm ? wall_study->warm : wall_study;
    of->layout = layout;
    of->rest = layout->cost;
    of->things = tc_wall_study_things(of->wall_study, layout, of->thing, of->what, &of->load, &status);
    for (int i = 0; status == TC_OK && i < layout->mix.models; i++) {
        if (layout->mix.count[i] == 0)
            continue;
        of->model[i] = make_model(sheet, of, i, before, &status);
        if (of->model[i])
            take_cost(&of->rest, of->model[i]->cost, &status);
    }
    if (status != TC_OK || sheet->failed) {
        sheet->failed = true;
        return NULL;
    }
    of->shared = tc_derive_made_of(sheet, study, alternative, &of->rest, shared_line, of);
    return tc_derive_made_of(sheet, study, alternative, cost, wall_line, of);
}

struct tc_derive *tc_derive_wall_entry(struct tc_sheet *sheet, const struct tc_study *study,
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
    return wall ? ((const struct made_of *)wall->made_of)->shared : NULL;
}

bool tc_derive_wall_thing(struct tc_derive *wall, const struct tc_offer *offer, int line, int count,
                          const struct tc_term **pieces, const struct tc_term **price)
{
    const struct made_of *of = wall ? wall->made_of : NULL;
    for (int i = 0; of && i < of->things; i++)
        if (of->what[i].offer == offer && of->thing[i].line == line && of->what[i].count == count) {
            *pieces = thing_count(of->shared, &of->what[i]);
            *price = thing_price(of->shared, of, i);
            return true;
        }
    return false;
}

const struct tc_term *tc_derive_wall_tanks(struct tc_derive *wall, int model)
{
    const struct made_of *of = wall ? wall->made_of : NULL;
    if (!of)
        return NULL;
    if (model >= 0)
        return of->model[model] ? tc_derive_quantity(of->model[model])
                                : tc_term_leaf(wall->sheet, "q", "tanks of this kind", 0, "",
                                               worked_out(tc_derive_wall_counted));
    struct tc_term *sum = tc_term_computed(wall->sheet, "q", "all tanks", "sum", of->layout->mix.tanks, "");
    for (int i = 0; i < of->layout->mix.models; i++)
        if (of->model[i])
            tc_term_add(wall->sheet, sum,
                        tc_term_called(wall->sheet, tc_derive_quantity(of->model[i]),
                                       tc_sheet_format(wall->sheet, "q%d", i + 1),
                                       of->model[i]->alternative->c.tank.goods.name));
    return sum;
}

/* W of one tank's part of a slot, all pieces; NULL: none. */
static const struct tc_term *slot_power(struct tc_derive *derive, enum tc_slot slot)
{
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    double each = filled->offer ? tc_part_power(filled->offer->part) : 0;
    if (!(each > 0))
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "w%d", (int)slot + 1),
                         tc_slot_name(slot), "k × p", filled->count * each, "W");
    tc_derive_add(derive, term, tc_derive_chosen(derive, slot),
                  tc_derive_part_key(derive, slot, "p", "power of one", each, "W", "power"), END);
    return term;
}

/* W of a model's tanks. */
static const struct tc_term *model_power(struct tc_derive *derive, int model)
{
    static const enum tc_slot slots[] = {TC_SLOT_LIGHT, TC_SLOT_FILTER, TC_SLOT_HEATER};
    struct tc_term *one = tc_term_computed(derive->sheet, "w", "one of them", "sum", 0, "W");
    for (size_t i = 0; one && i < sizeof slots / sizeof slots[0]; i++) {
        const struct tc_term *part = slot_power(derive, slots[i]);
        one->value += part ? part->value : 0;
        tc_term_add(derive->sheet, one, part);
    }
    const struct tc_term *count = tc_derive_quantity(derive);
    if (!one || !count)
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "K%d", model + 1),
                         derive->alternative->head, "q × w", count->value * one->value, "W");
    tc_derive_add(derive, term, count, one, END);
    return term;
}

const struct tc_term *tc_derive_wall_power(struct tc_derive *wall)
{
    const struct made_of *of = wall ? wall->made_of : NULL;
    if (!of)
        return NULL;
    struct tc_term *sum =
        tc_term_computed(wall->sheet, "W", "everything on at once", "sum", of->layout->power, "W");
    for (int i = 0; i < of->layout->mix.models; i++)
        if (of->model[i])
            tc_term_add(wall->sheet, sum, model_power(of->model[i], i));
    for (int i = 0; i < of->things; i++) {
        if (!(of->thing[i].power > 0))
            continue;
        struct tc_term *one = tc_term_computed(wall->sheet, tc_sheet_format(wall->sheet, "w%d", i + 1),
                                               thing_name(&of->what[i]), "m × p", of->thing[i].power, "W");
        tc_derive_add(wall, one, thing_count(of->shared, &of->what[i]),
                      thing_key(of->shared, &of->what[i], "p", "power of one",
                                of->thing[i].power / of->what[i].count, "W", "power", NULL),
                      END);
        tc_term_add(wall->sheet, sum, one);
    }
    return sum;
}
