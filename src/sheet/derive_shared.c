/* SPDX-License-Identifier: MIT */
#include "sheet/derive_shared.h"

#include <math.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_room.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

const char tc_derive_shared_counted[] = "sought with all limits of the wall: tankcost-model(7), THE WALL";

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

const struct tc_term *tc_derive_shared_price(struct tc_derive *derive, const struct tc_derive_parts *of,
                                             int i)
{
    static const char *const paths[] = {[TC_THING_RACK] = "wall/rack-price",
                                        [TC_THING_TIMER] = "wall/timer-price",
                                        [TC_THING_ROOM] = "wall/room-heater-price"};
    const struct tc_wall_thing *what = &of->what[i];
    double each = (double)of->thing[i].price / what->count / tc_derive_scale(derive);
    if (what->kind == TC_THING_PART)
        return tc_term_leaf(derive->sheet, "p", "price of one", each, tc_derive_code(derive),
                            tc_source_price(derive->sheet, derive->study, derive->study->shop,
                                            (int)what->offer->part->slot, &what->offer->part->goods));
    return thing_key(derive, what, "p", "price of one", each, tc_derive_code(derive), "", paths[what->kind]);
}

const struct tc_term *tc_derive_shared_count(struct tc_derive *derive, const struct tc_wall_thing *what)
{
    return tc_term_leaf(
        derive->sheet, "m", "so many of it", what->count, "",
        (struct tc_source){TC_TERM_SIMULATED, "by the tanks that stand there: tankcost-model(7), THE WALL"});
}

/* The price of all of it, before tax. */
static const struct tc_term *thing_bought(struct tc_derive *derive, const struct tc_derive_parts *of, int i,
                                          const char *symbol)
{
    struct tc_term *term = tc_term_money(derive->sheet, symbol, thing_name(&of->what[i]), "m × p",
                                         of->thing[i].price, derive->study->region.currency);
    tc_derive_add(derive, term, tc_derive_shared_count(derive, &of->what[i]),
                  tc_derive_shared_price(derive, of, i), END);
    return term;
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
    return tc_term_leaf(derive->sheet, symbol, words, amount, tc_derive_code(derive),
                        tc_source_shop(derive->sheet, derive->study, derive->study->shop, key));
}

/* Of the one order of the room. */
static const struct tc_term *delivery(struct tc_derive *derive, struct tc_derive *wall)
{
    const struct tc_region *region = &derive->study->region;
    bool free = region->delivery_free_from > 0;
    struct tc_term *term = tc_derive_money_line(derive, 'B', TC_BUY_DELIVERY, "delivery of everything",
                                                free ? "round(D × below(G, f))" : "round(D)",
                                                derive->cost->buy[TC_BUY_DELIVERY]);
    tc_derive_add(derive, term,
                  shop_amount(derive, "D", "delivery of one order", region->delivery, "delivery"),
                  free ? goods_of(wall) : END, END);
    if (free)
        tc_derive_add(derive, term,
                      shop_amount(derive, "f", "orders from this amount are delivered free",
                                  region->delivery_free_from, "delivery-free-from"),
                      END);
    return term;
}

static const char *slot_name(int index)
{
    bool slot = index >= TC_BUY_SLOTS && index < TC_BUY_SLOTS + TC_SLOT_COUNT;
    return slot ? tc_slot_word((enum tc_slot)(index - TC_BUY_SLOTS)) : "what all tanks share";
}

static const struct tc_term *shared_buy(struct tc_derive *derive, const struct tc_derive_parts *of,
                                        struct tc_derive *wall, int index)
{
    if (index == TC_BUY_DELIVERY)
        return delivery(derive, wall);
    if (index == TC_BUY_TAX) {
        struct tc_term *tax = tc_derive_money_line(derive, 'B', index, "sales tax on what is shared",
                                                   "round(G × t)", derive->cost->buy[index]);
        tc_derive_add(derive, tax, goods_of(derive), tc_derive_tax(derive), END);
        return tax;
    }
    struct tc_term *term =
        tc_derive_money_line(derive, 'B', index, slot_name(index), "sum", derive->cost->buy[index]);
    for (int i = 0; i < of->things; i++)
        if (of->thing[i].line == index && of->thing[i].price != 0)
            tc_term_add(derive->sheet, term,
                        thing_bought(derive, of, i, tc_sheet_format(derive->sheet, "b%d", i + 1)));
    return term;
}

static const struct tc_term *shared_supplies(struct tc_derive *derive, const struct tc_derive_parts *of)
{
    struct tc_term *all =
        tc_term_computed(derive->sheet, "S", "supplies before tax", "sum", 0, tc_derive_code(derive));
    for (int i = 0; all && i < of->things; i++) {
        if (of->thing[i].upkeep == 0)
            continue;
        double value = (double)of->thing[i].upkeep / tc_derive_scale(derive);
        struct tc_term *one =
            tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "s%d", i + 1),
                             thing_name(&of->what[i]), "m × p", value, tc_derive_code(derive));
        tc_derive_add(derive, one, tc_derive_shared_count(derive, &of->what[i]),
                      thing_key(derive, &of->what[i], "p", "supplies of one for a year",
                                value / of->what[i].count, tc_derive_code(derive), "upkeep", NULL),
                      END);
        tc_term_add(derive->sheet, all, one);
        all->value += value;
    }
    struct tc_term *term = tc_derive_money_line(derive, 'Y', TC_RUN_SUPPLIES, "supplies",
                                                "round(S × (1 + t))", derive->cost->run[TC_RUN_SUPPLIES]);
    tc_derive_add(derive, term, all, tc_derive_tax(derive), END);
    return term;
}

/* kWh of one thing in a month; NULL: none. */
static const struct tc_term *thing_energy(struct tc_derive *derive, const struct tc_derive_parts *of, int i,
                                          int month)
{
    const struct tc_shared *thing = &of->thing[i];
    const struct tc_wall_thing *what = &of->what[i];
    const char *symbol = tc_sheet_format(derive->sheet, "e%d", i + 1);
    if (what->kind == TC_THING_ROOM)
        return tc_derive_room_heater(of->shared, symbol, month);
    if (!(thing->power > 0) || !(thing->hours > 0))
        return NULL;
    double days = tc_load_days(month);
    struct tc_term *term = tc_term_computed(derive->sheet, symbol, thing_name(what), "m × p × H × D / 1000",
                                            thing->power * thing->hours * days / 1000, "kWh");
    tc_derive_add(
        derive, term, tc_derive_shared_count(derive, what),
        thing_key(derive, what, "p", "power of one", thing->power / what->count, "W", "power", NULL),
        what->setup
            ? tc_term_leaf(derive->sheet, "H", "hours of light a day", thing->hours, "h",
                           tc_source_setup(derive->sheet, derive->study, what->setup, "light-hours"))
            : tc_derive_model(derive, "H", "hours of a day", thing->hours, "h", "ENERGY AND WATER OF A YEAR"),
        tc_derive_model(derive, "D", "days of the month", days, "d", "ENERGY AND WATER OF A YEAR"), END);
    return term;
}

static const struct tc_term *shared_energy(struct tc_derive *derive, const struct tc_derive_parts *of,
                                           enum tc_consumer consumer, int month)
{
    struct tc_term *sum = tc_term_computed(
        derive->sheet, "u",
        tc_sheet_format(derive->sheet, "%s in %s", tc_consumer_name(consumer), tc_phrase_month(month)), "sum",
        0, "kWh");
    for (int i = 0; sum && i < of->things; i++) {
        const struct tc_term *one =
            of->thing[i].consumer == consumer ? thing_energy(derive, of, i, month) : NULL;
        sum->value += one ? one->value : 0;
        tc_term_add(derive->sheet, sum, one);
    }
    return sum && sum->parts ? sum : NULL;
}

static const struct tc_term *shared_run(struct tc_derive *derive, const struct tc_derive_parts *of, int index)
{
    if (index == TC_RUN_SUPPLIES)
        return shared_supplies(derive, of);
    if (index == TC_RUN_ROOM_HEAT)
        return tc_derive_room_bill(of->shared, derive->cost->run[index]);
    return index < TC_RUN_ENERGY + TC_CONSUMER_COUNT ? tc_derive_metered(derive, index) : NULL;
}

static struct tc_item_life life_of(const struct tc_derive *derive, const struct tc_derive_parts *of, int i)
{
    double price = (double)of->thing[i].price, tax = tc_region_added_tax(&derive->study->region);
    return (struct tc_item_life){
        price, price * (1 + tax), of->thing[i].life, of->thing[i].life, of->thing[i].resale, price};
}

static const struct tc_term *thing_life(struct tc_derive *derive, const struct tc_derive_parts *of, int i)
{
    return thing_key(derive, &of->what[i], "L", "life of one", of->thing[i].life, "years", "life",
                     of->what[i].kind == TC_THING_ROOM ? "wall/room-heater-life" : NULL);
}

/* Of a thing its k-th replacement. */
static const struct tc_term *replacement(struct tc_derive *derive, const struct tc_derive_parts *of, int i,
                                         int k, bool today)
{
    struct tc_item_life life = life_of(derive, of, i);
    double time = tc_item_replacement_time(&life, k), d = today ? derive->study->plan.discount : 0;
    char number[TC_NUMBER_SIZE];
    struct tc_term *when =
        tc_term_computed(derive->sheet, "T", "years from the start", "k × L", time, "years");
    tc_derive_add(derive, when, tc_derive_model(derive, "k", "lives before it", k + 1, "", "LIFE-CYCLE COST"),
                  thing_life(derive, of, i), END);
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "R%dk%d", i + 1, k),
                         tc_sheet_format(derive->sheet, "%s, after %s years", thing_name(&of->what[i]),
                                         tc_number_write_short(number, time)),
                         "N × (1 + t) / (1 + d)^T",
                         life.replacement_price * tc_single_present_value(d, time) / tc_derive_scale(derive),
                         tc_derive_code(derive));
    tc_derive_add(derive, term, thing_bought(derive, of, i, "N"), tc_derive_tax(derive),
                  tc_derive_discounted(derive, today), when, END);
    return term;
}

/* All that is bought again; in one year, or in all (-1). */
static const struct tc_term *shared_replaced(struct tc_derive *derive, const struct tc_derive_parts *of,
                                             int year, bool today)
{
    struct tc_term *sum = tc_term_computed(derive->sheet, year < 0 ? "R" : "k", "bought again", "sum", 0,
                                           tc_derive_code(derive));
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
static const struct tc_term *residual(struct tc_derive *derive, const struct tc_derive_parts *of, int i)
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
    struct tc_term *term = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "V%d", i + 1),
                                            thing_name(&of->what[i]), "N × w × s",
                                            worth / tc_derive_scale(derive), tc_derive_code(derive));
    tc_derive_add(derive, term, thing_bought(derive, of, i, "N"), left,
                  thing_key(derive, &of->what[i], "s", "share of a new one's price that it fetches",
                            life.resale_share, "", "resale", NULL),
                  END);
    return term;
}

static const struct tc_term *shared_resold(struct tc_derive *derive, const struct tc_derive_parts *of)
{
    struct tc_term *all = tc_term_computed(derive->sheet, "V", "what all is sold for at the end", "sum", 0,
                                           tc_derive_code(derive));
    for (int i = 0; all && i < of->things; i++) {
        const struct tc_term *one = residual(derive, of, i);
        all->value += one ? one->value : 0;
        tc_term_add(derive->sheet, all, one);
    }
    return all;
}

static struct tc_derive *wall_of(const struct tc_derive_parts *of, struct tc_sheet *sheet)
{
    for (struct tc_derive *derive = sheet->derives; derive; derive = derive->next)
        if (derive->made_of == of && derive->line && derive != of->shared)
            return derive;
    return NULL;
}

const struct tc_term *tc_derive_shared_line(struct tc_derive *derive, enum tc_derived_line part, int index)
{
    const struct tc_derive_parts *of = derive->made_of;
    switch (part) {
    case TC_LINE_BUY: return shared_buy(derive, of, wall_of(of, derive->sheet), index);
    case TC_LINE_RUN: return shared_run(derive, of, index);
    case TC_LINE_REPLACED: return shared_replaced(derive, of, -1, index == 1);
    case TC_LINE_REPLACED_IN: return shared_replaced(derive, of, index / 2, index % 2 == 1);
    case TC_LINE_RESOLD: return shared_resold(derive, of);
    case TC_LINE_ENERGY:
        return shared_energy(derive, of, (enum tc_consumer)(index / TC_MONTHS), index % TC_MONTHS);
    case TC_LINE_ROOM:
    case TC_LINE_PAID:
    case TC_LINE_PRESENT:
    case TC_LINE_EXTRA:
    case TC_LINE_COURSE:
    case TC_LINE_INVESTED:
    case TC_LINE_RUNNING:
    case TC_LINE_UPKEEP:
    case TC_LINE_SIZE:
    case TC_LINE_QUANTITY: break;
    }
    return NULL;
}

void tc_derive_shared_power(const struct tc_derive_parts *of, struct tc_term *sum)
{
    struct tc_derive *derive = of->shared;
    for (int i = 0; derive && i < of->things; i++) {
        const struct tc_wall_thing *what = &of->what[i];
        double power = of->thing[i].power;
        if (!(power > 0))
            continue;
        struct tc_term *one = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "w%d", i + 1),
                                               thing_name(what), "m × p", power, "W");
        tc_derive_add(derive, one, tc_derive_shared_count(derive, what),
                      thing_key(derive, what, "p", "power of one", power / what->count, "W", "power", NULL),
                      END);
        tc_term_add(derive->sheet, sum, one);
    }
}
