/* SPDX-License-Identifier: MIT */
#include "sheet/derive_tank.h"

#include <math.h>
#include <stdio.h>

#include "core/cost/upkeep_time.h"
#include "core/physics/light.h"
#include "sheet/phrase.h"

static const char pieces_mark;

/* Of an unmade bed: core/cost/equipment.c takes gravel. */
static const char *const gravel = "GEOMETRY: gravel";

static const struct tc_term *glass(struct tc_derive *derive, bool bottom)
{
    const struct tc_tank *tank = &derive->alternative->c.tank;
    const char *symbol = bottom ? "gb" : "g", *words = bottom ? "glass of the bottom" : "glass of the sides";
    double value = bottom ? tank->bottom_glass : tank->glass;
    if (tank->glass_assumed)
        return tc_term_leaf(derive->sheet, symbol, words, value, "m",
                            tc_source_assumed("usual for its size, not given: tank/glass"));
    bool own = bottom && isnan(derive->alternative->plan->glass); /* typed glass is that of all panes */
    return tc_derive_tank_key(derive, symbol, words, value, "m", own ? "bottom-glass" : "glass");
}

/* The bed, or that there is none. */
static const struct tc_term *bed_depth(struct tc_derive *derive)
{
    double depth = derive->equipment->size.inner_height - derive->equipment->size.reach;
    bool none = derive->alternative->c.wish[TC_SLOT_SUBSTRATE].part &&
                !derive->alternative->c.wish[TC_SLOT_SUBSTRATE].part[0];
    return none ? tc_derive_candidate_key(derive, "b", "depth of the substrate", 0, "m", "substrate")
                : tc_derive_setup_key(derive, "b", "depth of the substrate",
                                      fabs(depth) < 1e-12 ? 0 : derive->alternative->c.setup->bed_depth, "m",
                                      "substrate-depth");
}

static const struct tc_term *bed_figure(struct tc_derive *derive, bool voids)
{
    const struct tc_offer *offer = derive->equipment->slot[TC_SLOT_SUBSTRATE].offer;
    const char *words = voids ? "share of the substrate that water fills" : "substrate, as it lies";
    if (!offer)
        return voids ? tc_derive_model(derive, "v", words, 0.4, "", gravel)
                     : tc_derive_model(derive, "D", words, 1600, "kg/m³", gravel);
    const struct tc_substrate *bed = &offer->part->as.substrate;
    return voids ? tc_derive_part_key(derive, TC_SLOT_SUBSTRATE, "v", words, bed->void_share, "", "voids")
                 : tc_derive_part_key(derive, TC_SLOT_SUBSTRATE, "D", words, bed->bulk_density, "kg/m³",
                                      "density");
}

static const struct tc_term *outer(struct tc_derive *derive, char which)
{
    const struct tc_tank *tank = &derive->alternative->c.tank;
    return which == 'L'   ? tc_derive_tank_key(derive, "L", "outer length", tank->length, "m", "length")
           : which == 'W' ? tc_derive_tank_key(derive, "W", "outer width", tank->width, "m", "width")
                          : tc_derive_tank_key(derive, "H", "outer height", tank->height, "m", "height");
}

static const struct tc_term *size_of(struct tc_derive *derive, const char *symbol, const char *words,
                                     const char *formula, double value, const char *unit,
                                     const struct tc_term *const parts[])
{
    struct tc_term *term = tc_term_computed(derive->sheet, symbol, words, formula, value, unit);
    for (int i = 0; parts[i]; i++)
        tc_term_add(derive->sheet, term, parts[i]);
    return term;
}

#define SIZE(other) tc_derive_size(derive, TC_SIZE_##other)
#define PARTS(...)  ((const struct tc_term *const[]){__VA_ARGS__, NULL})

/* Lengths, areas and volumes. */
static const struct tc_term *made_size(struct tc_derive *derive, enum tc_size size)
{
    const struct tc_tank_size *s = &derive->equipment->size;
    const struct tc_tank *tank = &derive->alternative->c.tank;
    const struct tc_term *L = outer(derive, 'L'), *W = outer(derive, 'W'), *H = outer(derive, 'H');
    switch (size) {
    case TC_SIZE_FOOTPRINT:
        return size_of(derive, "F", "footprint", "L × W", s->footprint, "m²", PARTS(L, W));
    case TC_SIZE_OUTER_LENGTH: return L;
    case TC_SIZE_LENGTH:
        return size_of(derive, "l", "length inside", "L - 2 × g", s->inner_length, "m",
                       PARTS(L, glass(derive, false)));
    case TC_SIZE_WIDTH:
        return size_of(derive, "w", "width inside", "W - 2 × g", s->inner_width, "m",
                       PARTS(W, glass(derive, false)));
    case TC_SIZE_HEIGHT:
        return size_of(derive, "h", "height inside", "H - gb", s->inner_height, "m",
                       PARTS(H, glass(derive, true)));
    case TC_SIZE_BOTTOM:
        return size_of(derive, "a", "bottom inside", "l × w", s->bottom_area, "m²",
                       PARTS(SIZE(LENGTH), SIZE(WIDTH)));
    case TC_SIZE_WATER_DEPTH:
        return size_of(derive, "z", "depth of the water", "h - f", s->water_depth, "m",
                       PARTS(SIZE(HEIGHT), tc_derive_tank_key(derive, "f", "from the edge down to the water",
                                                              tank->freeboard, "m", "freeboard")));
    case TC_SIZE_ABOVE_BED:
        return size_of(derive, "y", "water above the substrate", "z - b",
                       s->water_depth - derive->alternative->c.setup->bed_depth, "m",
                       PARTS(SIZE(WATER_DEPTH), tc_derive_setup_key(derive, "b", "depth of the substrate",
                                                                    derive->alternative->c.setup->bed_depth,
                                                                    "m", "substrate-depth")));
    case TC_SIZE_REACH:
        return size_of(derive, "r", "from the rim to the substrate", "h - b", s->reach, "m",
                       PARTS(SIZE(HEIGHT), bed_depth(derive)));
    case TC_SIZE_NOMINAL:
        if (!tank->nominal_assumed)
            return tc_derive_tank_key(derive, "N", "nominal volume", tank->nominal_volume, "m³", "nominal");
        return size_of(derive, "N", "nominal volume, taken for the outer one", "L × W × H",
                       tank->nominal_volume, "m³", PARTS(L, W, H));
    case TC_SIZE_VOLUME:
        return size_of(derive, "V", "actual water", "a × z - a × b × (1 - v)", s->water_volume, "m³",
                       PARTS(SIZE(BOTTOM), SIZE(WATER_DEPTH), bed_depth(derive), bed_figure(derive, true)));
    default: return NULL;
    }
}

/* Masses, and what they press with. */
static const struct tc_term *made_mass(struct tc_derive *derive, enum tc_size size)
{
    const struct tc_tank_size *s = &derive->equipment->size;
    const struct tc_case *c = &derive->alternative->c;
    switch (size) {
    case TC_SIZE_GLASS_MASS:
        return size_of(derive, "G", "mass of the glass", "p × (F × H - a × h)", s->glass_mass, "kg",
                       PARTS(tc_derive_model(derive, "p", "density of float glass", TC_GLASS_DENSITY, "kg/m³",
                                             "GEOMETRY"),
                             SIZE(FOOTPRINT), outer(derive, 'H'), SIZE(BOTTOM), SIZE(HEIGHT)));
    case TC_SIZE_EMPTY:
        return size_of(derive, "E", "empty tank", "G + m", s->empty_mass, "kg",
                       PARTS(SIZE(GLASS_MASS), tc_derive_tank_key(derive, "m", "rims and braces",
                                                                  c->tank.frame_mass, "kg", "frame")));
    case TC_SIZE_WATER_MASS:
        return size_of(
            derive, "M", "mass of the water",
            "V × 999.97495 × (1 - (T - 277.133035)^2 × (T + 28.647) / (522528.9 × (T - 203.80119)))",
            s->water_mass, "kg",
            PARTS(SIZE(VOLUME), tc_derive_setup_key(derive, "T", "kept temperature", c->setup->temperature,
                                                    "K", "temperature")));
    case TC_SIZE_FILLED:
        return size_of(
            derive, "K", "filled tank", "E + M + a × b × D", s->filled_mass, "kg",
            PARTS(SIZE(EMPTY), SIZE(WATER_MASS), SIZE(BOTTOM), bed_depth(derive), bed_figure(derive, false)));
    case TC_SIZE_PRESSURE:
        return size_of(
            derive, "P", "load on footprint", "K × g0 / F", s->filled_mass * TC_GRAVITY / s->footprint, "Pa",
            PARTS(SIZE(FILLED),
                  tc_derive_model(derive, "g0", "standard gravity", TC_GRAVITY, "m/s²", "GEOMETRY"),
                  SIZE(FOOTPRINT)));
    default: return made_size(derive, size);
    }
}

const struct tc_term *tc_derive_size(struct tc_derive *derive, enum tc_size size)
{
    if (!derive)
        return NULL;
    if (derive->line)
        return derive->line(derive, TC_LINE_SIZE, (int)size);
    const void *what = (const void *)&gravel;
    const struct tc_term *known = tc_derive_known(derive, what, (int)size, 0);
    return known ? known : tc_derive_keep(derive, what, (int)size, 0, made_mass(derive, size));
}

const struct tc_term *tc_derive_shown(struct tc_derive *derive, const struct tc_term *term,
                                      enum tc_dimension dimension)
{
    if (!derive || !term)
        return NULL;
    enum tc_unit_system units = derive->study->units;
    double zero = tc_phrase_value(0, dimension, units), one = tc_phrase_value(1, dimension, units) - zero;
    const char *unit = tc_phrase_unit(dimension, units);
    bool offset = fabs(zero) > 0;
    if (!offset && fabs(one - 1) < 1e-15)
        return term;
    struct tc_term *shown =
        tc_term_computed(derive->sheet, "x", term->words,
                         tc_sheet_format(derive->sheet, offset ? "(%s - o) / u" : "%s / u", term->symbol),
                         tc_phrase_value(term->value, dimension, units), unit);
    tc_term_add(derive->sheet, shown, term);
    tc_term_add(derive->sheet, shown,
                tc_derive_model(derive, "u", tc_sheet_format(derive->sheet, "one %s", unit), 1 / one,
                                term->unit, "DESCRIPTION: units"));
    if (offset)
        tc_term_add(derive->sheet, shown,
                    tc_derive_model(derive, "o", tc_sheet_format(derive->sheet, "0 %s", unit), -zero / one,
                                    term->unit, "DESCRIPTION: units"));
    return shown;
}

/* -------------------------------------------------------------------------- pieces */

/* The other parts that fit, with what they would cost to own: why this one. */
static void add_others(struct tc_derive *derive, struct tc_term *term, enum tc_slot slot)
{
    const struct tc_alternative *alternative = derive->alternative;
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    double scale = tc_currency_scale(derive->study->region.currency);
    int number = 0;
    for (int i = 0; i < alternative->c.offer_count; i++) {
        const struct tc_offer *offer = &alternative->c.offers[i];
        char words[TC_WORDS_SIZE], symbol[24];
        if (offer->part->slot != slot)
            continue;
        struct tc_verdict verdict = tc_equipment_judge(&alternative->c, derive->equipment, offer);
        if (!verdict.fits && offer != filled->offer)
            continue;
        snprintf(symbol, sizeof symbol, "p%d", ++number);
        tc_phrase_reason(words, slot, &verdict.reason, derive->study->units);
        const char *what = tc_sheet_format(derive->sheet, "%s%d × %s alone, to own",
                                           offer == filled->offer ? "this one: " : "", verdict.count,
                                           offer->part->goods.name);
        tc_term_add(derive->sheet, term,
                    tc_term_leaf(derive->sheet, symbol, what, verdict.present_value / scale,
                                 derive->study->region.currency.code,
                                 (struct tc_source){TC_TERM_SIMULATED,
                                                    tc_sheet_format(derive->sheet, "fits: %s", words)}));
    }
}

const struct tc_term *tc_derive_chosen(struct tc_derive *derive, enum tc_slot slot)
{
    static const char *const what = "chosen";
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &what, (int)slot, 0);
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    char words[TC_WORDS_SIZE];
    if (known || !filled->offer)
        return known;
    tc_phrase_reason(words, slot, &filled->reason, derive->study->units);
    const char *place = tc_sheet_format(derive->sheet, "%s: %s", filled->pinned ? "pinned" : "chosen", words);
    struct tc_term *term = tc_term_leaf(derive->sheet, "k",
                                        tc_sheet_format(derive->sheet, "%s %s, pieces for %s",
                                                        tc_slot_name(slot), filled->offer->part->goods.name,
                                                        filled->shared ? "all tanks" : "each tank"),
                                        filled->count, "", (struct tc_source){TC_TERM_SIMULATED, place});
    if (term)
        add_others(derive, term, slot);
    return tc_derive_keep(derive, &what, (int)slot, 0, term);
}

static const struct tc_term *tc_derive_pieces_anew(struct tc_derive *derive, enum tc_slot slot)
{
    if (!derive || !derive->equipment->slot[slot].offer)
        return NULL;
    const struct tc_filled *filled = &derive->equipment->slot[slot];
    int all = tc_equipment_pieces(&derive->alternative->c, derive->equipment, slot);
    bool each = !filled->shared && all == filled->count * derive->alternative->c.quantity;
    struct tc_term *term = tc_term_computed(derive->sheet, "c", "pieces in all",
                                            filled->shared ? "k"
                                            : each         ? "k × q"
                                                           : "up(q × B / o)",
                                            all, "");
    if (each || filled->shared)
        tc_term_add(derive->sheet, term, tc_derive_chosen(derive, slot));
    if (!filled->shared)
        tc_term_add(derive->sheet, term, tc_derive_quantity(derive));
    if (each || filled->shared)
        return term;
    struct tc_term *bed =
        tc_term_computed(derive->sheet, "B", "substrate of one tank", "a × b", filled->demand.bed, "m³");
    tc_derive_add(derive, bed, tc_derive_size(derive, TC_SIZE_BOTTOM), bed_depth(derive),
                  (const struct tc_term *)NULL);
    tc_term_add(derive->sheet, term, bed);
    tc_term_add(derive->sheet, term,
                tc_derive_part_key(derive, slot, "o", "one bag", filled->offer->part->as.substrate.volume,
                                   "m³", "volume"));
    return term;
}

const struct tc_term *tc_derive_pieces(struct tc_derive *derive, enum tc_slot slot)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &pieces_mark, (int)slot, 0);
    return known ? known
                 : tc_derive_keep(derive, &pieces_mark, (int)slot, 0, tc_derive_pieces_anew(derive, slot));
}

/* ---------------------------------------------------------------------------- demands */

const struct tc_term *tc_derive_flow(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_setup *setup = derive->alternative->c.setup;
    return size_of(
        derive, "f", "flow that filters need", "V × o", derive->equipment->slot[TC_SLOT_FILTER].demand.flow,
        "m³/s",
        PARTS(SIZE(VOLUME), tc_derive_setup_key(derive, "o", "times the water is turned over in a second",
                                                setup->turnover, "/s", "turnover")));
}

static const struct tc_term *lid_light(struct tc_derive *derive)
{
    const struct tc_offer *lid = derive->equipment->slot[TC_SLOT_LID].offer;
    const char *words = "share of light that the lid lets through";
    return lid ? tc_derive_part_key(derive, TC_SLOT_LID, "T", words, lid->part->as.lid.transmittance, "",
                                    "transmittance")
               : tc_derive_model(derive, "T", "no lid: all light comes through", 1, "", "LIGHT");
}

/* The share of a lamp's photons that come to the bottom. */
static const struct tc_term *light_share(struct tc_derive *derive)
{
    const struct tc_tank_size *s = &derive->equipment->size;
    const struct tc_setup *setup = derive->alternative->c.setup;
    const struct tc_offer *lid = derive->equipment->slot[TC_SLOT_LID].offer;
    double depth = s->water_depth - (s->inner_height - s->reach);
    double through = lid ? lid->part->as.lid.transmittance : 1;
    const struct tc_term *z = size_of(derive, "y", "water above the substrate", "z - b", depth, "m",
                                      PARTS(SIZE(WATER_DEPTH), bed_depth(derive)));
    return size_of(
        derive, "S", "share of the light that comes to the bottom", "C × T × (1 - R) × exp(-(K × y))",
        TC_LIGHT_CAPTURE * through * (1 - TC_SURFACE_REFLECTION) * exp(-setup->attenuation * depth), "",
        PARTS(tc_derive_model(derive, "C", "share of the light that falls on the water", TC_LIGHT_CAPTURE, "",
                              "LIGHT"),
              lid_light(derive),
              tc_derive_model(derive, "R", "reflection of the surface", TC_SURFACE_REFLECTION, "", "LIGHT"),
              tc_derive_setup_key(derive, "K", "attenuation of the water", setup->attenuation, "/m",
                                  "attenuation"),
              z));
}

const struct tc_term *tc_derive_ppf(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_setup *setup = derive->alternative->c.setup;
    double ppf = derive->equipment->slot[TC_SLOT_LIGHT].demand.ppf;
    if (!(ppf > 0))
        return size_of(derive, "L", "the setup wants no light", "0", ppf, "µmol/s",
                       PARTS(tc_derive_setup_key(derive, "E", "light wanted at the bottom", setup->ppfd,
                                                 "µmol/(m² s)", "ppfd")) +
                           1);
    return size_of(derive, "L", "light that the fixtures have to give", "E × a / S", ppf, "µmol/s",
                   PARTS(tc_derive_setup_key(derive, "E", "light wanted at the bottom", setup->ppfd,
                                             "µmol/(m² s)", "ppfd"),
                         SIZE(BOTTOM), light_share(derive)));
}

const struct tc_term *tc_derive_ppfd(struct tc_derive *derive, double ppfd)
{
    if (!derive)
        return NULL;
    const struct tc_offer *light = derive->equipment->slot[TC_SLOT_LIGHT].offer;
    if (!light || !(ppfd > 0))
        return tc_term_computed(derive->sheet, "E", "no light", "0", ppfd, "µmol/(m² s)");
    const struct tc_part *part = light->part;
    /* A lamp's light may be written as such, by its power or by its lumens. */
    const char *const keys[] = {"ppf", "efficacy", "lumens"};
    int key = 0;
    while (key < 2 &&
           tc_source_item(derive->sheet, derive->study, "light", part->goods.name, keys[key]).from !=
               TC_TERM_PROFILE)
        key++;
    return size_of(derive, "E", "light at the bottom", "k × p × S / a", ppfd, "µmol/(m² s)",
                   PARTS(tc_derive_chosen(derive, TC_SLOT_LIGHT),
                         tc_derive_part_key(derive, TC_SLOT_LIGHT, "p", "light of one fixture",
                                            part->as.light.ppf, "µmol/s", keys[key]),
                         light_share(derive), SIZE(BOTTOM)));
}

const struct tc_term *tc_derive_held(struct tc_derive *derive, bool territories, int held)
{
    if (!derive)
        return NULL;
    const struct tc_setup *setup = derive->alternative->c.setup;
    const struct tc_term *have = territories ? SIZE(BOTTOM) : SIZE(VOLUME);
    const char *unit = territories ? "m²" : "m³";
    return size_of(
        derive, "x", territories ? "territories that the bottom holds" : "animals that the water holds",
        territories ? "down((a + e) / s)" : "down((V + e) / s)", held, "",
        PARTS(have,
              tc_derive_setup_key(derive, "s", territories ? "bottom that one takes" : "water that one takes",
                                  territories ? setup->territory : setup->water_each, unit,
                                  territories ? "territory" : "water-each"),
              tc_derive_model(derive, "e", "so little less makes no difference",
                              territories ? TC_SUIT_SAME_AREA : TC_SUIT_SAME_VOLUME, unit, "EQUIPMENT")));
}

/* ------------------------------------------------------------------------ upkeep */

/* Longer where the arm has far to the bed. */
static const struct tc_term *slower(struct tc_derive *derive)
{
    double value =
        derive->equipment->size.reach > TC_UPKEEP_EASY_REACH
            ? 1 + 0.5 * (derive->equipment->size.reach - TC_UPKEEP_EASY_REACH) / TC_UPKEEP_FAR_REACH
            : 1;
    return size_of(derive, "s", "so many times as long, for the arm's reach", "1 + 0.5 × max(0, r - e) / f",
                   value, "",
                   PARTS(SIZE(REACH),
                         tc_derive_model(derive, "e", "easy reach", TC_UPKEEP_EASY_REACH, "m", "UPKEEP TIME"),
                         tc_derive_model(derive, "f", "beyond it, half as long again", TC_UPKEEP_FAR_REACH,
                                         "m", "UPKEEP TIME")));
}

static const struct tc_term *change_time(struct tc_derive *derive, double hours)
{
    const struct tc_setup *setup = derive->alternative->c.setup;
    return size_of(derive, "C", "changes of water, hours", "q / 60 × s × (10 + 100 × x × V) × 365 / i", hours,
                   "h",
                   PARTS(tc_derive_quantity(derive), slower(derive),
                         tc_derive_setup_key(derive, "x", "share changed each time", setup->change_share, "",
                                             "water-change"),
                         SIZE(VOLUME),
                         tc_derive_setup_key(derive, "i", "days from change to change",
                                             setup->change_interval, "d", "change-interval")));
}

static const struct tc_term *filter_time(struct tc_derive *derive, double hours)
{
    const struct tc_filled *filter = &derive->equipment->slot[TC_SLOT_FILTER];
    double minutes = 60 * hours / (derive->alternative->c.quantity * filter->count);
    return size_of(derive, "F", "filters, hours", "q / 60 × k × m", hours, "h",
                   PARTS(tc_derive_quantity(derive), tc_derive_chosen(derive, TC_SLOT_FILTER),
                         tc_derive_model(derive, "m", "minutes a year to clean one of its kind", minutes,
                                         "min", "UPKEEP TIME")));
}

const struct tc_term *tc_derive_upkeep(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    if (derive->line)
        return derive->line(derive, TC_LINE_UPKEEP, 0);
    struct tc_upkeep_time time = derive->cost->upkeep;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "T", TC_DERIVE_UPKEEP_WORDS, "sum", time.total, "h");
    if (time.changes > 0)
        tc_term_add(derive->sheet, term, change_time(derive, time.changes));
    tc_term_add(derive->sheet, term,
                size_of(derive, "W", "glass, plants and a close look each week, hours",
                        "q / 60 × s × 10 × 365 / 7", time.tanks, "h",
                        PARTS(tc_derive_quantity(derive), slower(derive))));
    if (time.filters > 0)
        tc_term_add(derive->sheet, term, filter_time(derive, time.filters));
    return term;
}
