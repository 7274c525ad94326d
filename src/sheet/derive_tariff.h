/* SPDX-License-Identifier: MIT */
/*
 * derive_tariff.h - what a month of electricity or water adds to the
 * household's bill, and what each consumer bears of it, as terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_TARIFF_H
#define TC_SHEET_DERIVE_TARIFF_H

#include "sheet/derive.h"

/* What a month adds, rounded; of water where not of energy. */
const struct tc_term *tc_derive_added(struct tc_derive *derive, bool energy, int month);

/* What a consumer (enum tc_consumer) or a use of water (TC_WATER_CHANGES ...) bears of it. */
const struct tc_term *tc_derive_borne(struct tc_derive *derive, bool energy, int part, int month);

#endif
