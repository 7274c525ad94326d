/* SPDX-License-Identifier: MIT */
#include "sheet/derive_loads.h"

#include <math.h>

#include "core/wall/wall_sensitivity.h"
#include "sheet/derive_shared.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_use.h"

#define END ((const struct tc_term *)NULL)

static const char placed[] = "from where each tank stands: tankcost-model(7), THE WALL";

static const struct tc_derive_parts *parts_of(const struct tc_derive *wall)
{
    return wall ? wall->made_of : NULL;
}

static const struct tc_term *wall_key(struct tc_sheet *sheet, const struct tc_study *study,
                                      const char *symbol, const char *words, double value, const char *unit,
                                      const char *key)
{
    return tc_term_leaf(sheet, symbol, words, value, unit,
                        tc_source_path(sheet, study, tc_sheet_format(sheet, "wall/%s", key)));
}

/* ------------------------------------------------------------------- what limits them */

static const struct {
    enum tc_wall_limit limit;
    const char *words, *unit, *key;
} limits[] = {
    {TC_WALL_LIMIT_LENGTH, "length of wall", "m", "length"},
    {TC_WALL_LIMIT_HEIGHT, "height", "m", "height"},
    {TC_WALL_LIMIT_DEPTH, "depth", "m", "depth"},
    {TC_WALL_LIMIT_REACH, "reach", "m", "reach"},
    {TC_WALL_LIMIT_BAY_RATING, "load rating of a bay", "kg", "bay-load"},
    {TC_WALL_LIMIT_TIER_RATING, "load rating of a shelf", "kg", "rack-load"},
    {TC_WALL_LIMIT_FLOOR, "floor load", "Pa", "floor-load"},
    {TC_WALL_LIMIT_POWER, "circuit, without what all share", "W", "circuit-current"},
    {TC_WALL_LIMIT_BUDGET, "budget, without what all share", "", "budget"},
};

/* How much of a limit the tanks use, with the limit itself; NULL: the wall has none such. */
static const struct tc_term *limit_use(struct tc_sheet *sheet, const struct tc_derive_parts *of, size_t which)
{
    const struct tc_study *study = of->wall_study->study;
    const struct tc_layout *layout = of->layout;
    struct tc_wall_slack slack;
    tc_wall_slack(&layout->sought, &layout->mix, (struct tc_wall_limit_at){.limit = limits[which].limit},
                  &slack);
    if (!slack.limited)
        return NULL;
    bool money = limits[which].limit == TC_WALL_LIMIT_BUDGET;
    double scale = money ? tc_currency_scale(study->region.currency) : 1;
    const char *unit = money ? study->region.currency.code : limits[which].unit;
    struct tc_term *use =
        tc_term_leaf(sheet, tc_sheet_format(sheet, "u%d", (int)which + 1),
                     tc_sheet_format(sheet, "used of it: %s", limits[which].words), slack.used / scale, unit,
                     (struct tc_source){TC_TERM_SIMULATED, placed});
    tc_term_add(sheet, use,
                wall_key(sheet, study, "l", "what there is", slack.limit / scale, unit, limits[which].key));
    return use;
}

const struct tc_term *tc_derive_wall_sought(struct tc_sheet *sheet, const struct tc_derive_parts *of)
{
    static const char *const aims[] = {
        [TC_WALL_MOST_TANKS] = "tanks",
        [TC_WALL_MOST_AREA] = "m² of bottom",
        [TC_WALL_MOST_WATER] = "m³ of water",
        [TC_WALL_LEAST_COST] = "the cost of what is wanted",
        [TC_WALL_WATER_PER_MONEY] = "m³ of water for the money",
    };
    const struct tc_wall_mix *mix = &of->layout->mix;
    enum tc_wall_objective aim = of->wall_study->goal.aim;
    double scale = tc_currency_scale(of->wall_study->study->region.currency);
    struct tc_term *term =
        tc_term_leaf(sheet, "Z", tc_sheet_format(sheet, "what the search is for, and reached: %s", aims[aim]),
                     aim == TC_WALL_LEAST_COST        ? mix->reached / scale
                     : aim == TC_WALL_WATER_PER_MONEY ? mix->reached * scale
                                                      : mix->reached,
                     "", tc_source_path(sheet, of->wall_study->study, "wall/objective"));
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++)
        tc_term_add(sheet, term, limit_use(sheet, of, i));
    return term;
}

/* ------------------------------------------------------------------------- how many */

const struct tc_term *tc_derive_wall_tanks(struct tc_derive *wall, int model)
{
    const struct tc_derive_parts *of = parts_of(wall);
    if (!of)
        return NULL;
    if (model >= 0 && of->model[model])
        return tc_derive_quantity(of->model[model]);
    if (model >= 0) {
        struct tc_term *none = tc_term_leaf(wall->sheet, "q", "tanks of this kind", 0, "",
                                            (struct tc_source){TC_TERM_SIMULATED, tc_derive_shared_counted});
        tc_term_add(wall->sheet, none, of->sought);
        return none;
    }
    struct tc_term *sum = tc_term_computed(wall->sheet, "q", "all tanks", "sum", of->layout->mix.tanks, "");
    for (int i = 0; i < of->layout->mix.models; i++)
        if (of->model[i])
            tc_term_add(wall->sheet, sum,
                        tc_term_called(wall->sheet, tc_derive_quantity(of->model[i]),
                                       tc_sheet_format(wall->sheet, "q%d", i + 1),
                                       of->model[i]->alternative->c.tank.goods.name));
    return sum;
}

/* -------------------------------------------------------------------------- the bays */

typedef const struct tc_term *of_bay(struct tc_derive *wall, const struct tc_derive_parts *of, int bay);

static const char *bay_words(struct tc_derive *wall, int bay)
{
    return tc_sheet_format(wall->sheet, "bay %d", bay + 1);
}

/* The most of any bay, or 0 where there is none. */
static const struct tc_term *most_of(struct tc_derive *wall, const char *words, const char *unit,
                                     double value, of_bay *one)
{
    const struct tc_derive_parts *of = parts_of(wall);
    if (!of)
        return NULL;
    struct tc_term *term = tc_term_computed(wall->sheet, "b", words, "0", value, unit);
    const char *list = "";
    for (int bay = 0; bay < of->layout->mix.bays; bay++) {
        const struct tc_term *part = one(wall, of, bay);
        list = tc_sheet_format(wall->sheet, "%s%sb%d", list, bay > 0 ? ", " : "", bay + 1);
        tc_term_add(wall->sheet, term, part);
    }
    if (term && term->parts)
        term->formula = tc_sheet_format(wall->sheet, "max(%s)", list);
    return term;
}

static const struct tc_term *bay_tiers(struct tc_derive *wall, const struct tc_derive_parts *of, int bay)
{
    return tc_term_leaf(wall->sheet, tc_sheet_format(wall->sheet, "b%d", bay + 1), bay_words(wall, bay),
                        of->layout->mix.bay[bay].tiers, "", (struct tc_source){TC_TERM_SIMULATED, placed});
}

const struct tc_term *tc_derive_wall_tiers(struct tc_derive *wall)
{
    return wall ? most_of(wall, "tiers of the highest bay", "", parts_of(wall)->layout->mix.tiers, bay_tiers)
                : NULL;
}

/* Tanks of a model in a bay. */
static int count_in(const struct tc_wall_mix *mix, int bay, int model)
{
    int count = 0;
    for (int i = 0; i < mix->tanks; i++)
        count += mix->tank[i].bay == bay && mix->tank[i].model == model;
    return count;
}

static const struct tc_term *bay_mass(struct tc_derive *wall, const struct tc_derive_parts *of, int bay)
{
    const struct tc_wall_mix *mix = &of->layout->mix;
    struct tc_term *sum = tc_term_computed(wall->sheet, tc_sheet_format(wall->sheet, "b%d", bay + 1),
                                           bay_words(wall, bay), "sum", mix->bay[bay].mass, "kg");
    for (int model = 0; model < mix->models; model++) {
        int count = count_in(mix, bay, model);
        const struct tc_term *each = count > 0 ? tc_derive_size(of->model[model], TC_SIZE_FILLED) : NULL;
        if (!each)
            continue;
        struct tc_term *all =
            tc_term_computed(wall->sheet, tc_sheet_format(wall->sheet, "M%d", model + 1),
                             of->model[model]->alternative->c.tank.goods.name,
                             tc_sheet_format(wall->sheet, "n × %s", each->symbol), count * each->value, "kg");
        tc_derive_add(wall, all,
                      tc_term_leaf(wall->sheet, "n", "so many in this bay", count, "",
                                   (struct tc_source){TC_TERM_SIMULATED, placed}),
                      each, END);
        tc_term_add(wall->sheet, sum, all);
    }
    return sum;
}

static double heaviest(const struct tc_wall_mix *mix)
{
    double most = 0;
    for (int i = 0; i < mix->bays; i++)
        most = fmax(most, mix->bay[i].mass);
    return most;
}

const struct tc_term *tc_derive_wall_heaviest(struct tc_derive *wall)
{
    return wall ? most_of(wall, "tanks on the heaviest bay", "kg", heaviest(&parts_of(wall)->layout->mix),
                          bay_mass)
                : NULL;
}

/* What a tank presses with on its own footprint. */
static const struct tc_term *pressing(struct tc_derive *wall, const struct tc_derive_parts *of, int tank)
{
    const struct tc_wall_tank *at = &of->layout->mix.tank[tank];
    struct tc_derive *model = of->model[at->model];
    const struct tc_term *mass = model ? tc_derive_size(model, TC_SIZE_FILLED) : NULL;
    const struct tc_term *area = model ? tc_derive_size(model, TC_SIZE_FOOTPRINT) : NULL;
    if (!mass || !area)
        return NULL;
    struct tc_term *term = tc_term_computed(
        wall->sheet, tc_sheet_format(wall->sheet, "t%d", at->tier + 1),
        tc_sheet_format(wall->sheet, "tier %d: %s", at->tier + 1, model->alternative->c.tank.goods.name),
        tc_sheet_format(wall->sheet, "%s × g0 / %s", mass->symbol, area->symbol),
        mass->value * TC_GRAVITY / area->value, "Pa");
    tc_derive_add(wall, term, mass,
                  tc_derive_model(wall, "g0", "standard gravity", TC_GRAVITY, "m/s²", "GEOMETRY"), area, END);
    return term;
}

/* Of each tier the tank that presses most, one above the other. */
static const struct tc_term *bay_pressure(struct tc_derive *wall, const struct tc_derive_parts *of, int bay)
{
    const struct tc_wall_mix *mix = &of->layout->mix;
    struct tc_term *sum = tc_term_computed(wall->sheet, tc_sheet_format(wall->sheet, "b%d", bay + 1),
                                           bay_words(wall, bay), "sum", mix->bay[bay].pressure, "Pa");
    for (int tier = 0; tier < mix->bay[bay].tiers; tier++) {
        const struct tc_term *most = NULL;
        for (int i = 0; i < mix->tanks; i++) {
            const struct tc_term *one =
                mix->tank[i].bay == bay && mix->tank[i].tier == tier ? pressing(wall, of, i) : NULL;
            most = one && (!most || one->value > most->value) ? one : most;
        }
        tc_term_add(wall->sheet, sum, most);
    }
    return sum;
}

const struct tc_term *tc_derive_wall_pressure(struct tc_derive *wall)
{
    return wall ? most_of(wall, "greatest load on a footprint", "Pa", parts_of(wall)->layout->mix.pressure,
                          bay_pressure)
                : NULL;
}

/* --------------------------------------------------------------------- the wall used */

static const struct tc_term *bay_width(struct tc_derive *wall, const struct tc_derive_parts *of, int bay)
{
    return tc_term_leaf(wall->sheet, tc_sheet_format(wall->sheet, "b%d", bay + 1), bay_words(wall, bay),
                        of->layout->mix.bay[bay].width, "m", (struct tc_source){TC_TERM_SIMULATED, placed});
}

/* The bays of one stretch, and what stands between them. */
static const struct tc_term *stretch(struct tc_derive *wall, const struct tc_derive_parts *of, int which)
{
    const struct tc_wall_mix *mix = &of->layout->mix;
    const struct tc_wall *at = &of->layout->wall;
    bool posts = at->post > 0;
    int count = 0;
    struct tc_term *bays = tc_term_computed(wall->sheet, "B", "its bays", "sum", 0, "m");
    for (int bay = 0; bays && bay < mix->bays; bay++) {
        if (mix->bay[bay].stretch != which)
            continue;
        count++;
        bays->value += mix->bay[bay].width;
        tc_term_add(wall->sheet, bays, bay_width(wall, of, bay));
    }
    if (count == 0)
        return NULL;
    double between = tc_wall_metres(tc_wall_units_up(posts ? at->post : at->gap));
    struct tc_term *term =
        tc_term_computed(wall->sheet, tc_sheet_format(wall->sheet, "L%d", which + 1),
                         tc_sheet_format(wall->sheet, "stretch %d", which + 1),
                         posts ? "B + (n + 1) × p" : "B + (n - 1) × p", mix->length[which], "m");
    tc_derive_add(
        wall, term, bays,
        tc_term_leaf(wall->sheet, "n", "bays", count, "", (struct tc_source){TC_TERM_SIMULATED, placed}),
        posts ? wall_key(wall->sheet, wall->study, "p", "width of an upright", between, "m", "post")
              : wall_key(wall->sheet, wall->study, "p", "gap between bays", between, "m", "gap"),
        END);
    return term;
}

const struct tc_term *tc_derive_wall_length(struct tc_derive *wall)
{
    if (!wall)
        return NULL;
    const struct tc_derive_parts *of = parts_of(wall);
    struct tc_term *sum = tc_term_computed(wall->sheet, "L", "wall used", "sum", 0, "m");
    for (int which = 0; sum && which < TC_WALL_STRETCHES_MAX; which++) {
        const struct tc_term *one = stretch(wall, of, which);
        sum->value += one ? one->value : 0;
        tc_term_add(wall->sheet, sum, one);
    }
    return sum;
}

/* ----------------------------------------------------------------- what they draw */

/* W of one tank's part of a slot, all pieces; NULL: none. */
static const struct tc_term *slot_power(struct tc_derive *derive, enum tc_slot slot)
{
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    double each = filled->offer ? tc_part_power(filled->offer->part) : 0;
    if (!(each > 0))
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "w%d", (int)slot + 1),
                         tc_slot_word(slot), "k × p", filled->count * each, "W");
    tc_derive_add(derive, term, tc_derive_chosen(derive, slot),
                  tc_derive_part_key(derive, slot, "p", "power of one", each, "W", "power"), END);
    return term;
}

/* W of a model's tanks. */
static const struct tc_term *model_power(struct tc_derive *derive, int model)
{
    struct tc_term *one = tc_term_computed(derive->sheet, "w", "one of them", "sum", 0, "W");
    for (int slot = 0; one && slot < TC_SLOT_COUNT; slot++) {
        const struct tc_term *part = slot_power(derive, (enum tc_slot)slot);
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
    const struct tc_derive_parts *of = wall ? wall->made_of : NULL;
    if (!of)
        return NULL;
    struct tc_term *sum =
        tc_term_computed(wall->sheet, "W", "everything on at once", "sum", of->layout->power, "W");
    for (int i = 0; i < of->layout->mix.models; i++)
        if (of->model[i])
            tc_term_add(wall->sheet, sum, model_power(of->model[i], i));
    tc_derive_shared_power(of, sum);
    return sum;
}

/* ------------------------------------------------------------ what the room gets of it */

const struct tc_term *tc_derive_wall_heat(struct tc_derive *wall)
{
    if (!wall)
        return NULL;
    struct tc_term *energy = tc_term_computed(
        wall->sheet, "U", "electricity of a year, but for what leaves with drained water", "sum", 0, "kWh");
    for (int i = 0; energy && i < TC_CONSUMER_COUNT; i++) {
        enum tc_consumer consumer = (enum tc_consumer)i;
        const struct tc_term *one =
            consumer == TC_CONSUMER_NEW_WATER ? NULL : tc_derive_energy_year(wall, consumer);
        energy->value += one ? one->value : 0;
        tc_term_add(wall->sheet, energy, one);
    }
    struct tc_term *term = tc_term_computed(wall->sheet, "W", "heat that ends in the room, mean of the year",
                                            "U × 1000 / 8760", parts_of(wall)->layout->heat, "W");
    tc_term_add(wall->sheet, term, energy);
    return term;
}

const struct tc_term *tc_derive_wall_vapour(struct tc_derive *wall)
{
    if (!wall)
        return NULL;
    const struct tc_derive_parts *of = parts_of(wall);
    struct tc_term *year =
        tc_term_computed(wall->sheet, "V", "water lost to the air in a year", "sum", 0, "m³");
    for (int i = 0; year && i < of->layout->mix.models; i++) {
        const struct tc_term *one = of->model[i] ? tc_derive_water(of->model[i], TC_WATER_MAKE_UP, -1) : NULL;
        year->value += one ? one->value : 0;
        tc_term_add(wall->sheet, year,
                    tc_term_called(wall->sheet, one, tc_sheet_format(wall->sheet, "K%d", i + 1),
                                   one ? of->model[i]->alternative->head : ""));
    }
    struct tc_term *term = tc_term_computed(wall->sheet, "v", "water into the room's air, a day", "V / 365",
                                            parts_of(wall)->layout->evaporated, "m³");
    tc_term_add(wall->sheet, term, year);
    return term;
}
