/* SPDX-License-Identifier: MIT */
/*
 * plan_keep.h - plans that were not saved when the program was ended, kept in
 * a folder of their own until somebody says what is to become of them.
 *
 * A kept plan is a profile like others, with the file it belongs to in its
 * first line. It is read by itself, not with the other profiles: it takes the
 * place of none of them.
 */
#ifndef TC_PROFILE_PLAN_KEEP_H
#define TC_PROFILE_PLAN_KEEP_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "profile/fault.h"
#include "profile/stock.h"

enum { TC_KEPT_MAX = 16, TC_KEPT_PATH_SIZE = 1024 };

struct tc_kept_plan {
    char kept[TC_KEPT_PATH_SIZE]; /* where it lies */
    char path[TC_KEPT_PATH_SIZE]; /* the file it belongs to; "" where it had none yet */
};

/*
 * Writes a plan to *kept, at kept->kept or, where that is "", at a free name in
 * the folder, which is made if it is missing; kept->path is what it belongs to.
 * As tc_save; TC_RANGE where the path is too long.
 */
enum tc_status tc_plan_keep(const struct tc_plan *plan, const char *folder, struct tc_kept_plan *kept,
                            struct tc_faults *faults);

/* Finds the kept plans of a folder, in the order of their names; returns how many there are, at most that
 * many.
 */
size_t tc_plan_kept(const char *folder, struct tc_kept_plan *kept, size_t most);

/* Reads one, its names resolved against the stock; false where that fails, with faults. */
bool tc_plan_kept_read(const struct tc_stock *stock, const struct tc_kept_plan *kept, struct tc_plan *plan,
                       struct tc_faults *faults);

#endif
