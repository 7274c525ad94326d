/* SPDX-License-Identifier: MIT */
/*
 * derive_use.h - what tanks use in a year: electricity and water by month, as
 * terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_USE_H
#define TC_SHEET_DERIVE_USE_H

#include "sheet/derive.h"

/* kWh of a consumer in all tanks, in a month and the year; of all consumers. */
const struct tc_term *tc_derive_energy(struct tc_derive *derive, enum tc_consumer consumer, int month);
const struct tc_term *tc_derive_energy_year(struct tc_derive *derive, enum tc_consumer consumer);
const struct tc_term *tc_derive_energy_all(struct tc_derive *derive, int month); /* -1: the year */

/* m3 of water in all tanks: changed (TC_WATER_CHANGES) or made up, in a month; -1: the year. */
const struct tc_term *tc_derive_water(struct tc_derive *derive, int use, int month);
/* Both, of a month. */
const struct tc_term *tc_derive_water_all(struct tc_derive *derive, int month);

/* Heat that warm tap water brings in a year, kWh. */
const struct tc_term *tc_derive_warm_water(struct tc_derive *derive);

#endif
