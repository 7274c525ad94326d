/* SPDX-License-Identifier: MIT */
/*
 * pack_branch.h - branch and bound over a packing table (internal to pack).
 *
 * Depth first. A node allows each class a run of its choices; it is bounded by
 * its linear relaxation (pack_relax.h), the runs are shortened at their ends
 * by every choice the bound excludes, a valid answer is sought by rounding,
 * and the run of the class that is mixed most evenly is cut in two where the
 * relaxation mixes it.
 */
#ifndef TC_CORE_PACK_BRANCH_H
#define TC_CORE_PACK_BRANCH_H

#include <stdbool.h>
#include <stdint.h>

#include "core/pack.h"
#include "core/pack_table.h"
#include "core/status.h"

struct tc_pack_found {
    bool any;      /* in: picks hold a valid answer to start from; out: they hold the best found */
    bool proven;   /* nothing better exists (or, where not any, nothing at all) */
    int64_t gain;  /* of the picks, if any */
    int64_t bound; /* nothing surpasses it; = gain where proven */
    int64_t nodes; /* out: nodes searched */
};

/*
 * picks[class] is the number of a choice as in table->number, found->gain in the units of the problem (not in
 * steps). The table is made smaller on the way. TC_OK whatever was found; TC_NO_MEMORY.
 */
enum tc_status tc_pack_branch(struct tc_pack_table *table, const struct tc_pack_effort *effort,
                              struct tc_pack_found *found, int *picks);

#endif
