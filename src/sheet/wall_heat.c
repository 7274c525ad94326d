/* SPDX-License-Identifier: MIT */
#include "sheet/wall_heat.h"

#include <math.h>

#include "sheet/advice.h"
#include "sheet/derive_bill.h"
#include "sheet/derive_room.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_use.h"
#include "sheet/derive_wall.h"
#include "sheet/phrase.h"
#include "core/base/unit.h"

/* Air that is damper than this, on the mean of a month, feeds mould (ISO 13788: 80 % at the wall, from
 * memory). */
#define DAMP 0.75

static double heater_energy(const struct tc_layout *layout)
{
    return tc_load_year(&layout->cost.running.energy[TC_CONSUMER_HEATER]);
}

static bool any_heated(const struct tc_wall_study *wall_study)
{
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        if (wall_study->alternatives[i].c.setup->heater)
            return true;
    return false;
}

static double coldest(const struct tc_layout *layout)
{
    double least = INFINITY;
    for (int month = 0; month < TC_MONTHS; month++)
        least = fmin(least, layout->climate.month[month].temperature);
    return least;
}

static double warmest(const struct tc_layout *layout)
{
    double most = 0;
    for (int month = 0; month < TC_MONTHS; month++)
        most = fmax(most, layout->climate.month[month].temperature);
    return most;
}

static double dampest(const struct tc_layout *layout)
{
    double most = 0;
    for (int month = 0; month < TC_MONTHS; month++)
        most = fmax(most, layout->climate.month[month].humidity);
    return most;
}

static double room_heating(const struct tc_layout *layout)
{
    double kwh[TC_MONTHS], sum = 0;
    tc_wall_room_heating(&layout->climate, kwh);
    for (int month = 0; month < TC_MONTHS; month++)
        sum += kwh[month];
    return sum;
}

typedef double of_layout(const struct tc_layout *layout);

static struct tc_derive *shared_of(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int i)
{
    return tc_derive_wall_shared(tc_derive_wall(sheet, wall_study, &wall_study->layouts[i]));
}

static void add_row(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const char *label,
                    enum tc_dimension dimension, int decimals, of_layout *of, enum tc_room_extreme extreme)
{
    enum tc_unit_system units = wall_study->study->units;
    tc_sheet_row(sheet, TC_ROW_LINE, label, tc_phrase_unit(dimension, units));
    for (int i = 0; i < wall_study->layout_count; i++) {
        double value = of(&wall_study->layouts[i]);
        struct tc_derive *derive = shared_of(sheet, wall_study, i);
        tc_sheet_number(sheet, (size_t)i, tc_phrase_value(value, dimension, units), decimals);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_shown(derive, tc_derive_room_extreme(derive, extreme, value), dimension));
    }
}

static void add_energy(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const char *label,
                       of_layout *of, bool electricity)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "kWh");
    for (int i = 0; i < wall_study->layout_count; i++) {
        struct tc_derive *wall = tc_derive_wall(sheet, wall_study, &wall_study->layouts[i]);
        tc_sheet_number(sheet, (size_t)i, of(&wall_study->layouts[i]), 0);
        tc_term_put(sheet, (size_t)i,
                    electricity ? tc_derive_energy_year(wall, TC_CONSUMER_HEATER)
                                : tc_derive_room_heating(tc_derive_wall_shared(wall)));
    }
}

static void add_money(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const char *label,
                      int line)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    for (int i = 0; i < wall_study->layout_count; i++) {
        tc_sheet_money(sheet, (size_t)i, wall_study->layouts[i].cost.run[line],
                       wall_study->study->region.currency);
        tc_term_put(sheet, (size_t)i,
                    tc_derive_run(tc_derive_wall(sheet, wall_study, &wall_study->layouts[i]), line));
    }
}

static bool any_run(const struct tc_wall_study *wall_study, int line)
{
    for (int i = 0; i < wall_study->layout_count; i++)
        if (wall_study->layouts[i].cost.run[line] != 0)
            return true;
    return false;
}

/* The names of the models that are marked, "" for none. */
static const char *names(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, const bool marked[])
{
    const char *list = "";
    for (int i = 0; i < wall_study->study->alternative_count; i++)
        if (marked[i])
            list = tc_sheet_format(sheet, "%s%s%s", list, list[0] ? ", " : "",
                                   wall_study->alternatives[i].c.tank.goods.name);
    return list;
}

/* Those of the marked models that stand in a layout. */
static const bool *standing(const struct tc_layout *layout, const bool marked[], bool kept[TC_CANDIDATES_MAX])
{
    for (int i = 0; i < TC_CANDIDATES_MAX; i++)
        kept[i] = i < layout->mix.models && layout->mix.count[i] > 0 && marked[i];
    return kept;
}

void tc_wall_add_heat(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    if (!any_heated(wall_study) && !wall_study->room.known)
        return;
    tc_sheet_row(sheet, TC_ROW_GROUP, "The room and its heat", "");
    if (wall_study->room.known) {
        add_row(sheet, wall_study, "the room in its coolest month", TC_DIM_TEMPERATURE, 1, coldest,
                TC_ROOM_COOLEST);
        add_row(sheet, wall_study, "and in its warmest", TC_DIM_TEMPERATURE, 1, warmest, TC_ROOM_WARMEST);
        for (int i = 0; i < wall_study->layout_count; i++)
            if (names(sheet, wall_study, wall_study->layouts[i].too_warm)[0])
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
        tc_sheet_row(sheet, TC_ROW_LINE, "its air at the dampest", "%");
        for (int i = 0; i < wall_study->layout_count; i++) {
            double damp = 100 * dampest(&wall_study->layouts[i]);
            tc_sheet_number(sheet, (size_t)i, damp, 0);
            tc_term_put(sheet, (size_t)i,
                        tc_derive_room_extreme(shared_of(sheet, wall_study, i), TC_ROOM_DAMPEST, damp));
            if (dampest(&wall_study->layouts[i]) > DAMP)
                tc_sheet_mark(sheet, (size_t)i, TC_MARK_OVER);
        }
        add_energy(sheet, wall_study, "heat from the room's heating, a year", room_heating, false);
    }
    add_energy(sheet, wall_study, "electricity for heating, a year", heater_energy, true);
    add_money(sheet, wall_study, "electricity for heating, a year", TC_RUN_ENERGY + TC_CONSUMER_HEATER);
    tc_sheet_about(sheet, "cost of electricity for heating");
    if (any_run(wall_study, TC_RUN_ROOM_HEAT))
        add_money(sheet, wall_study, "room: heating, cooling, drying", TC_RUN_ROOM_HEAT);
}

/* ------------------------------------------------------------------------ what is said */

/* The best mix whose room is heated, or whose tanks are; NULL: there is none. */
static const struct tc_layout *layout_kept_warm(const struct tc_wall_study *wall_study, bool room)
{
    for (int i = 0; i < wall_study->layout_count; i++)
        if (wall_study->layouts[i].heated == room)
            return &wall_study->layouts[i];
    return NULL;
}

/* ", with 7 % more water", where the one mix holds more or less than the other. */
static const char *other_water(struct tc_sheet *sheet, const struct tc_layout *good,
                               const struct tc_layout *bad)
{
    double percent = 100 * (good->mix.volume / bad->mix.volume - 1);
    if (fabs(percent) < 0.5)
        return "";
    return tc_sheet_format(sheet, ", with %.0f %% %s water", fabs(percent), percent > 0 ? "more" : "less");
}

/* "820.00 USD less", "3.10 USD more", "as much"; without the currency where it has been said. */
static const char *than(struct tc_sheet *sheet, const struct tc_study *study, tc_money a, tc_money b,
                        bool currency)
{
    tc_money gap = a < b ? b - a : a - b;
    if (gap == 0)
        return "as much";
    return tc_sheet_format(
        sheet, "%s %s", currency ? tc_advice_money(sheet, study, gap) : tc_advice_amount(sheet, study, gap),
        a < b ? "less" : "more");
}

/* One sentence: a heater in each tank, or the room heated. */
static void note_verdict(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *tanks = layout_kept_warm(wall_study, false),
                           *room = layout_kept_warm(wall_study, true);
    char years[TC_WORDS_SIZE];
    bool marked[TC_CANDIDATES_MAX];
    if (!room || !tanks)
        return;
    bool cheaper = room->cost.present_value < tanks->cost.present_value;
    const struct tc_layout *good = cheaper ? room : tanks, *bad = cheaper ? tanks : room;
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s: that costs %s to buy, %s each year and %s over %s%s.%s",
                  cheaper ? "Heat the room, not the tanks" : "Heat the tanks, not the room",
                  than(sheet, wall_study->study, good->cost.to_buy, bad->cost.to_buy, true),
                  than(sheet, wall_study->study, good->cost.each_year, bad->cost.each_year, false),
                  than(sheet, wall_study->study, good->cost.present_value, bad->cost.present_value, false),
                  tc_phrase_years(years, wall_study->study->plan.years), other_water(sheet, good, bad),
                  good->heated == wall_study->heated ? ""
                  : good->heated                     ? " To plan it so, set heating = room."
                                                     : " To plan it so, set heating = tanks.");
    const char *keeps = names(sheet, wall_study, standing(room, wall_study->warmth.keeps, marked));
    const char *warm = names(sheet, wall_study, wall_study->warmth.too_warm);
    if (keeps[0])
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "In a heated room these keep a heater, because others could not live in one as warm as they "
            "need: %s.",
            keeps);
    if (warm[0])
        tc_sheet_note(sheet, TC_NOTE_FAULT, "No one temperature suits all: a heated room is too warm for %s.",
                      warm);
    else if (!keeps[0])
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "All tanks can live in a room of one temperature, with no heaters.");
    if (!(wall_study->study->plan.wall.room.heater_price > 0))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "What heats the room is taken to be there already; what it would cost is "
                      "'wall/room-heater-price'. Its own power is not on the circuits of the wall.");
}

/* kWh a year of the best mix's heaters in a room that loses so much. */
static bool heaters_at(const struct tc_wall_study *wall_study, double loss, double *kwh)
{
    const struct tc_layout *layout = layout_kept_warm(wall_study, false);
    if (wall_study->heated)
        wall_study = wall_study->other;
    if (!layout || !wall_study)
        return false;
    const struct tc_offer *air = layout->share.air;
    const struct tc_wall_tanks tanks = {wall_study->alternatives, layout->mix.count, layout->mix.models,
                                        air ? layout->share.air_count * tc_part_power(air->part) : 0};
    struct tc_room_year climate;
    *kwh = 0;
    if (tc_wall_room_find(&wall_study->room, loss, &wall_study->study->region, &tanks, NULL, &climate) !=
        TC_OK)
        return false;
    for (int i = 0; i < tanks.models; i++) {
        const struct tc_alternative *alternative = &wall_study->alternatives[i];
        struct tc_heat_case c = tc_equipment_heat(&alternative->c, &alternative->equipment);
        struct tc_heat_year year;
        tc_room_put(&climate, &c);
        if (tc_heat_year(&c, &year) != TC_OK)
            return false;
        *kwh += tanks.count[i] * year.heater_total / TC_KILOWATT_HOUR;
    }
    return true;
}

/* Where the room's loss comes from, and what hangs on it. */
static void note_loss(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_wall_room *room = &wall_study->room;
    double least, most;
    if (room->unsized)
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "The room is taken to stay as the region says, whatever the tanks give it. With its size, "
            "'wall/room-length' and 'wall/room-width', they warm it, and their heaters need less.");
    if (!room->estimated || !heaters_at(wall_study, room->loss.high, &most) ||
        !heaters_at(wall_study, room->loss.low, &least))
        return;
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "From its size and build the room loses about %.0f W for each kelvin that the tanks make it warmer "
        "(%.0f to %.0f; ISO 13789, EN 12831): the heaters of this mix then use %.0f to %.0f kWh a year. "
        "'wall/room-loss' says it better.",
        room->loss.likely, room->loss.low, room->loss.high, least, most);
}

static void note_air(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    double most = 0;
    for (int i = 0; i < wall_study->layout_count; i++)
        most = fmax(most, dampest(&wall_study->layouts[i]));
    if (most > DAMP)
        tc_sheet_note(
            sheet, TC_NOTE_CAUTION,
            "Damp: the room's air would be %.0f %% humid in its dampest month. Mold grows where it is so "
            "damp: cover tanks, air the room more, or dry it.",
            100 * most);
    if (!(wall_study->room.air_flow > 0))
        tc_sheet_note(
            sheet, TC_NOTE_REMARK,
            "How damp the room gets is not known without its size ('wall/room-length', 'wall/room-width').");
}

/* What would get too warm with the tanks of the best mix, and cannot be left out. */
static void note_warm(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const char *warm = names(sheet, wall_study, layout->too_warm);
    char words[TC_QUANTITY_SIZE];
    if (wall_study->room.known && warm[0])
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "With these tanks the room gets %s warm: too warm for the animals in %s. Cool it, or take fewer "
            "tanks; if you see to it, say 'setup/cooling = own'.",
            tc_unit_quantity_write(words, warmest(layout), TC_DIM_TEMPERATURE, wall_study->study->units, 1),
            warm);
}

void tc_wall_note_heat(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    bool heated = any_heated(wall_study);
    note_verdict(sheet, wall_study);
    note_warm(sheet, wall_study);
    if (heated)
        note_loss(sheet, wall_study);
    if (!wall_study->room.known)
        return;
    note_air(sheet, wall_study);
    if (!heated)
        return;
    tc_sheet_note(
        sheet, TC_NOTE_REMARK,
        "Heaters are sized for the room with all its tanks. While it has few, or where the region's room is "
        "only that warm because it is heated and that heating goes down, take the next size.");
    const struct tc_region *region = &wall_study->study->region;
    if (!layout_kept_warm(wall_study, true) && !(region->room_heat_price > 0) &&
        !(wall_study->study->plan.wall.room.heater_efficiency > 0))
        tc_sheet_note(sheet, TC_NOTE_REMARK,
                      "To compare with heating the room instead, say 'room-heat-price' of the region, or "
                      "'wall/room-heater-efficiency' of a heater that draws electricity.");
}
