/* SPDX-License-Identifier: MIT */
/*
 * plan_save.h - a plan written as a profile.
 */
#ifndef TC_PROFILE_PLAN_SAVE_H
#define TC_PROFILE_PLAN_SAVE_H

#include "core/base/status.h"
#include "profile/fault.h"
#include "profile/plan.h"

/*
 * The plan as the text of a profile, as a person would have written it: only
 * what differs from the defaults. To be freed by the caller; NULL where memory
 * ran out.
 */
char *tc_plan_write(const struct tc_plan *plan);

/*
 * Saves it to a file, whole or not at all (save.h). The comments of an existing
 * file are kept (comments.h); one that cannot be read is left as it is, with
 * TC_IO. TC_SYNTAX, with a fault, where the plan has no
 * valid name, setup or region and so could not be read again, or where the file
 * that is there holds anything but a plan, which would be lost; else as
 * tc_save.
 */
enum tc_status tc_plan_save(const struct tc_plan *plan, const char *path, struct tc_faults *faults);

#endif
