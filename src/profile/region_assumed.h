/* SPDX-License-Identifier: MIT */
/*
 * region_assumed.h - which figures of a region nobody gave: usual answers that
 * were accepted, as its key `assumed` says, and figures that a bill needs and that
 * stand there by default.
 */
#ifndef TC_PROFILE_REGION_ASSUMED_H
#define TC_PROFILE_REGION_ASSUMED_H

#include "profile/key.h"
#include "profile/stock.h"

/*
 * Whether a key of the region's table is one of these. The household's own use is
 * none where its price is flat: nothing depends on it.
 */
bool tc_region_assumes(const struct tc_stock *stock, const struct tc_region *region,
                       const struct tc_key *key);

#endif
