/* SPDX-License-Identifier: MIT */
/* study_fault.h - what is wrong with the plan of a study, told with its name. */
#ifndef TC_SHEET_STUDY_FAULT_H
#define TC_SHEET_STUDY_FAULT_H

#include "sheet/study.h"

/* A fault of a key of the plan. */
void tc_study_fault(const struct tc_study *study, struct tc_faults *faults, const char *key,
                    const char *problem);

/* "no setup 'shrimp-shlef'; did you mean 'shrimp-shelf'?" */
void tc_study_unknown(const struct tc_study *study, struct tc_faults *faults, const char *kind,
                      const char *name);

#endif
