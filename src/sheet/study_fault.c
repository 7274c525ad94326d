/* SPDX-License-Identifier: MIT */
#include "sheet/study_fault.h"

#include <stdio.h>

void tc_study_fault(const struct tc_study *study, struct tc_faults *faults, const char *key,
                    const char *problem)
{
    char section[TC_NAME_SIZE + 8];
    snprintf(section, sizeof section, "plan %s", study->plan.name);
    tc_faults_error(faults, (struct tc_place){.section = section, .key = key}, "%s", problem);
}

void tc_study_unknown(const struct tc_study *study, struct tc_faults *faults, const char *kind,
                      const char *name)
{
    char problem[TC_PROBLEM_SIZE];
    const char *nearest = tc_stock_nearest(study->stock, kind, name);
    if (nearest)
        snprintf(problem, sizeof problem, "no %s '%s'; did you mean '%s'?", kind, name, nearest);
    else
        snprintf(problem, sizeof problem, "no %s '%s'; `tankcost stock` lists what there is", kind, name);
    tc_study_fault(study, faults, kind, problem);
}
