/* SPDX-License-Identifier: MIT */
#include "sheet/caution.h"

#include <string.h>

#include "core/base/number.h"
#include "core/wall/wall.h"

double tc_caution_floor_mark(void)
{
    const struct tc_wall_floor_mark *marks;
    int count = tc_wall_floor_marks(&marks);
    return count > 0 ? marks[count - 1].pressure : 0;
}

static void say_floor(struct tc_sheet *sheet, enum tc_unit_system units)
{
    const struct tc_wall_floor_mark *marks;
    int count = tc_wall_floor_marks(&marks);
    char low[TC_NUMBER_SIZE], high[TC_QUANTITY_SIZE];
    const struct tc_unit *unit = tc_unit_preferred(TC_DIM_PRESSURE, units);
    tc_number_write(low, tc_unit_from_base(unit, count > 0 ? marks[0].pressure : 0), 0, false);
    tc_sheet_note(
        sheet, TC_NOTE_CAUTION,
        "Floor: most homes are designed for %s to %s (IRC R301.5, EN 1991-1-1); full tanks often put 2 or 3 "
        "times that on their footprint. Joists, span and place decide: follow local codes, or ask a "
        "structural engineer.",
        low, tc_unit_quantity_write(high, tc_caution_floor_mark(), TC_DIM_PRESSURE, units, 0));
}

static const struct {
    enum tc_caution caution;
    const char *hint, *text; /* NULL: say_floor says it */
} cautions[] = {
    {TC_CAUTION_ELECTRICITY, "protected outlet, drip loop",
     "Electricity: use outlets with ground-fault or residual-current protection (30 mA or less) and a drip "
     "loop in every cord. Unplug before reaching in, and heaters before the water falls. Set air pumps above "
     "the water or fit a check valve. Follow local codes, and ask a licensed electrician."},
    {TC_CAUTION_GLASS, "glass strength is not checked",
     "Glass: its thickness is taken as given; whether it holds the water is not checked. Keep to the maker's "
     "rating, and use no chipped or scratched tank."},
    {TC_CAUTION_STAND, "level, rated stand; lift it empty",
     "Stand: level, rated for the filled weight, on a firm floor and secured against tipping; glass needs "
     "even "
     "support, as its maker says. Lift an empty tank with enough people, never one with water in it."},
    {TC_CAUTION_FLOOR, "floors may bear less: ask an engineer", NULL},
    {TC_CAUTION_RACK, "rated rack, anchored to the wall",
     "Rack: rated for the filled weight of each shelf and bay, level, and anchored to the wall against "
     "tipping. Its "
     "own weight is not in these loads, and its feet press on single points. Glass carries no other tank: "
     "every "
     "tank stands on its own shelf."},
    {TC_CAUTION_CIRCUIT, "80 % of a breaker at most",
     "Circuit: loads that run for hours may take 80 % of a breaker (the rule in the USA, NEC 210.19(A)(1)). "
     "Keep "
     "outlets away from splashes, and have new circuits made by a licensed electrician."},
    {TC_CAUTION_DAMP, "cover the tank or air the room",
     "Damp: what evaporates must leave the room, or it feeds mold in walls and ceiling. Cover tanks and air "
     "the "
     "room, or dry it."},
};

void tc_cautions(struct tc_sheet *sheet, unsigned wanted, enum tc_unit_system units)
{
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0]; i++) {
        if (!(wanted & cautions[i].caution))
            continue;
        if (cautions[i].text)
            tc_sheet_note(sheet, TC_NOTE_CAUTION, "%s", cautions[i].text);
        else
            say_floor(sheet, units);
    }
}

const char *tc_caution_subject(const char *section, const struct tc_key *key)
{
    if (key->form == TC_KEY_MONEY || key->form == TC_KEY_PRICES || key->form == TC_KEY_RATE)
        return "";
    if (key->danger)
        return key->danger;
    switch (key->dimension) {
    case TC_DIM_PRESSURE: return "floor";
    case TC_DIM_MASS: return "stand";
    case TC_DIM_POWER: return "electricity";
    case TC_DIM_ELECTRIC_CURRENT:
    case TC_DIM_VOLTAGE: return "circuit";
    default: return key->of ? key->of : section;
    }
}

enum tc_caution tc_caution_of_subject(const char *subject)
{
    static const struct {
        const char *subject;
        enum tc_caution caution;
    } things[] = {{"heater", TC_CAUTION_ELECTRICITY},
                  {"light", TC_CAUTION_ELECTRICITY},
                  {"filter", TC_CAUTION_ELECTRICITY},
                  {"air-pump", TC_CAUTION_ELECTRICITY},
                  {"electricity", TC_CAUTION_ELECTRICITY},
                  {"stand", TC_CAUTION_STAND},
                  {"tank", TC_CAUTION_GLASS},
                  {"rack", TC_CAUTION_RACK},
                  {"circuit", TC_CAUTION_CIRCUIT},
                  {"evaporation", TC_CAUTION_DAMP},
                  {"floor", TC_CAUTION_FLOOR}};
    const char *slash = strrchr(subject, '/'); /* "candidate 2/heater" */
    for (size_t i = 0; i < sizeof things / sizeof things[0]; i++)
        if (strcmp(slash ? slash + 1 : subject, things[i].subject) == 0)
            return things[i].caution;
    return (enum tc_caution)0;
}

enum tc_caution tc_caution_of(const struct tc_row *row, const struct tc_cell *cell)
{
    static const struct {
        enum tc_dimension dimension;
        enum tc_caution caution;
    } figures[] = {{TC_DIM_PRESSURE, TC_CAUTION_FLOOR},
                   {TC_DIM_MASS, TC_CAUTION_STAND},
                   {TC_DIM_POWER, TC_CAUTION_ELECTRICITY}};
    if (cell && (cell->kind == TC_CELL_MONEY || cell->kind == TC_CELL_EMPTY))
        return (enum tc_caution)0;
    enum tc_caution of_thing = tc_caution_of_subject(row->subject);
    if (of_thing)
        return of_thing;
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        if (strcmp(row->unit, tc_unit_symbol(tc_unit_preferred(figures[i].dimension, TC_US))) == 0 ||
            strcmp(row->unit, tc_unit_symbol(tc_unit_preferred(figures[i].dimension, TC_METRIC))) == 0)
            return figures[i].caution;
    return (enum tc_caution)0;
}

const char *tc_caution_hint(enum tc_caution caution)
{
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0]; i++)
        if (cautions[i].caution == caution)
            return cautions[i].hint;
    return "";
}
