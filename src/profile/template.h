/* SPDX-License-Identifier: MIT */
/*
 * template.h - regions made of public averages, for the user to complete.
 *
 * A region with 'template = yes' may lack what only its user can say: the
 * price of water, the climate of the room, what delivery costs. It can be read
 * and looked at, but stands for no place that anybody pays bills in, so no
 * study is made in it before it has all the keys marked TC_ASK_NEEDED. They are
 * written into a copy of it in the user's own profiles, or typed over.
 */
#ifndef TC_PROFILE_TEMPLATE_H
#define TC_PROFILE_TEMPLATE_H

#include "core/base/text.h"
#include "profile/fault.h"
#include "profile/key.h"
#include "profile/stock.h"

/*
 * The keys so marked that a template lacks: "water, room and humidity" is added to
 * keys (NULL: they are only counted). What plan, if not NULL and if in that
 * region, types over is there. Returns how many; 0 for a region that is no
 * template.
 */
int tc_template_gaps(const struct tc_stock *stock, const struct tc_region *region, const struct tc_plan *plan,
                     enum tc_key_ask ask, struct tc_text *keys);

/*
 * Whether a key is one that a template needs and lacks, plan as above: what
 * stands in its record is then no figure of anybody's.
 */
bool tc_template_lacks(const struct tc_stock *stock, const struct tc_region *region,
                       const struct tc_plan *plan, const struct tc_key *key);

/*
 * Adds a note for each template of the stock that stands in a file for which
 * wanted(context, file) is true (NULL: for all): what it lacks, and how many
 * things have no price in its currency. Templates that follow each other and
 * lack the same share a note. TC_NO_MEMORY.
 */
enum tc_status tc_template_notes(const struct tc_stock *stock,
                                 bool (*wanted)(const void *context, const char *file), const void *context,
                                 struct tc_faults *faults);

#endif
