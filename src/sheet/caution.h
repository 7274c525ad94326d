/* SPDX-License-Identifier: MIT */
/*
 * caution.h - the cautions, each said in one way wherever such a figure stands.
 *
 * They name the hazard and leave the decision to local codes and licensed practice.
 */
#ifndef TC_SHEET_CAUTION_H
#define TC_SHEET_CAUTION_H

#include "core/base/unit.h"
#include "profile/key_form.h"
#include "sheet/sheet.h"

enum tc_caution {
    TC_CAUTION_ELECTRICITY = 1, /* heaters, lights, pumps */
    TC_CAUTION_GLASS = 2,       /* thicknesses that are taken as given */
    TC_CAUTION_STAND = 4,       /* filled weights, and lifting */
    TC_CAUTION_FLOOR = 8,       /* loads on a footprint */
    TC_CAUTION_RACK = 16,
    TC_CAUTION_CIRCUIT = 32,
    TC_CAUTION_DAMP = 64 /* water lost to the air */
};

/* Adds a note for each of the cautions, in this order. */
void tc_cautions(struct tc_sheet *sheet, unsigned wanted, enum tc_unit_system units);

/*
 * The caution that belongs to a figure, by what its row is about (a slot,
 * "tank", "rack", "circuit", "evaporation") or measured in (weights, loads,
 * watts), and the same in a few words for a place beside the figure. 0 and "":
 * none. An amount of money calls for none. cell may be NULL where a row stands
 * for a thing, as in a list.
 */
enum tc_caution tc_caution_of(const struct tc_row *row, const struct tc_cell *cell);
const char *tc_caution_hint(enum tc_caution caution);

/*
 * What a figure of a section is dangerous by, as the subject of a row: what its
 * key says, else its unit, else what it names or the section itself. "" for
 * money. And the caution of such a subject, 0 for none.
 */
const char *tc_caution_subject(const char *section, const struct tc_key *key);
enum tc_caution tc_caution_of_subject(const char *subject);

/* The load on a floor above which a figure is marked, Pa. */
double tc_caution_floor_mark(void);

#endif
