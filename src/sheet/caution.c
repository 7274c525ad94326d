/* SPDX-License-Identifier: MIT */
#include "sheet/caution.h"

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
        "Floor: homes are commonly designed for %s to %s, spread over the room (IRC R301.5, EN 1991-1-1 "
        "category A). A filled tank puts more than that on its footprint, often two or three times as "
        "much. What a floor carries depends on its joists, their span and where the tank stands. For "
        "anything but a small tank ask a structural engineer, and follow local codes.",
        low, tc_unit_quantity_write(high, tc_caution_floor_mark(), TC_DIM_PRESSURE, units, 0));
}

static const struct {
    enum tc_caution caution;
    const char *text; /* NULL: say_floor says it */
} cautions[] = {
    {TC_CAUTION_ELECTRICITY,
     "Electricity: use outlets with ground-fault or residual-current protection (30 mA or less) and leave a "
     "drip "
     "loop in every cord. Unplug before reaching in, and heaters before the water falls below their mark. "
     "Set air "
     "pumps above the water or fit a check valve. Local codes and a licensed electrician have the last "
     "word."},
    {TC_CAUTION_GLASS,
     "Glass: its thickness is taken as given; whether it holds the water is not checked. Keep to the maker's "
     "rating, and use no chipped or scratched tank."},
    {TC_CAUTION_STAND,
     "Stand: level, rated for the filled weight, on a firm floor and secured against tipping; glass needs "
     "even "
     "support, as its maker says. Lift an empty tank with enough people, never one with water in it."},
    {TC_CAUTION_FLOOR, NULL},
    {TC_CAUTION_RACK,
     "Rack: rated for the filled weight of each shelf and bay, level, and anchored to the wall against "
     "tipping. Its "
     "own weight is not in these loads, and its feet press on single points. Glass carries no other tank: "
     "every "
     "tank stands on its own shelf."},
    {TC_CAUTION_CIRCUIT,
     "Circuit: loads that run for hours may take 80 % of a breaker (the rule in the USA, NEC 210.19(A)(1)). "
     "Keep "
     "outlets away from splashes, and have new circuits made by a licensed electrician."},
    {TC_CAUTION_DAMP,
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
