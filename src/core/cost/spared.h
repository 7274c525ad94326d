/* SPDX-License-Identifier: MIT */
/*
 * spared.h - how much of its heat and of what evaporates other parts could spare a tank at most, told without
 * following its year.
 *
 * The tank is a lump of water, C x' = g(t) - l(t, x) + h, where x >= 0 is how far it is above the set point,
 * g what it gains, l what it loses, which grows with x, and h what an ideal heater gives: nothing where x >
 * 0, and where x = 0 what is missing, if anything. All of it repeats each year. [a]+ is a or 0, whichever is
 * more, and S sums over a year.
 *
 * 1. More is put in, e(t) beside g, of either sign: x becomes y, h becomes k. Where y > x, y > 0, so k = 0 <=
 *    h, and C (y - x)' <= -(l(y) - l(x)) + e. Summed over the times where y > x, the left side is 0, as the
 *    year repeats: S [l(y) - l(x)]+ <= S [e]+. In the same way S [l(x) - l(y)]+ <= S [-e]+.
 * 2. What goes in comes out: S k - S h = S (l(y) - l(x)) - S e. With 1, S k - S h <= S [e]+ - S e = S [-e]+.
 *    So a tank with e beside needs no more than S [-e]+ beyond what one without needs.
 * 3. Let the first tank have C, g, l, the other one C + d, g + dg, l - dl, and x be that of the first. Then
 *    (C + d) x' = (g + dg) - (l - dl)(x) + h + e with e = d x' - dg - dl(x): the first tank's year is a year
 *    of the other with e beside. By 2 the other one spares no more than S [-e]+ <= S [-d x']+ + S [dg]+ + S
 *    [dl(x)]+. S [d x']+ is |d| times what x rises in a year, or falls, which is the same.
 * 4. If the other one loses nowhere less, dl <= 0, and gains nothing more, it spares nothing. A lid that
 *    closes less is such a case (tc_spared_start looks whether it is). So a tank needs no less than any that
 *    is closed no less, less what it gains beyond that one.
 *
 * Vapour is a part of l that grows with x as well, so 1 holds what evaporates less, too; and water is never
 * below the set point, where a tank closed no more loses no less of it.
 *
 * 3 holds the first parts against all others, 4 all whose year is remembered, and that of the lid that closes
 * the most. Heaters are strong enough for the coldest hour. The year is worked out in steps that are not that
 * of the lump to the last digit: tests/core/test_spared.c holds what that may come to.
 */
#ifndef TC_CORE_COST_SPARED_H
#define TC_CORE_COST_SPARED_H

#include "core/cost/equipment.h"

/* Borrows case and equipment. */
struct tc_spared {
    const struct tc_case *c;
    const struct tc_equipment *first;
    struct tc_heat_year year; /* with the first parts */
    bool closing_keeps;       /* a lid that closes less lets out no less heat, nor vapour */
    double floating;          /* m3 that evaporate because the water is above the set point */
    double most_covered;      /* as much as any lid on offer covers, or the first one does */
    double closed_heater; /* J a year of the heater, covered as much as that; no lid leaves it less to do */
};

/* By the year with the first parts. The case has a counter. */
void tc_spared_start(struct tc_spared *spared, const struct tc_case *c, const struct tc_equipment *first,
                     const struct tc_heat_year *year);

/* Whether other parts close the tank so that more heat may stay in. */
bool tc_spared_closes(const struct tc_spared *spared, const struct tc_equipment *other);

/* Whether they do, and there is a year known of a tank closed no less, which is worth more than nothing. */
bool tc_spared_closes_within(const struct tc_spared *spared, const struct tc_equipment *other);

/* J a year that the heater of one tank gives less with other parts, at most; negative where it gives more. */
double tc_spared_heat(const struct tc_spared *spared, const struct tc_equipment *other);

/* m3 a year that evaporate less from one tank, at most. */
double tc_spared_vapour(const struct tc_spared *spared, const struct tc_equipment *other);

/* W by which the heater's need may fall. */
double tc_spared_need(const struct tc_spared *spared, const struct tc_equipment *other);

/* What a year's heat may be off by, of what it is, where gains differ, and where only lid or bed do. */
#define TC_SPARED_SLACK      0.01
#define TC_SPARED_SAME_SLACK 0.001

#endif
