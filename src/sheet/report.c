/* SPDX-License-Identifier: MIT */
#include "sheet/report.h"

#include <math.h>
#include <stdbool.h>

size_t tc_report_questions(const struct tc_plan *plan, const struct tc_question *questions[TC_REPORT_MOST])
{
    bool wall = isfinite(plan->wall.length) && plan->wall.length > 0;
    bool places = !wall && plan->region_count > 1;
    const struct {
        const char *name;
        bool wanted;
    } sheets[] = {
        {"wall", wall}, {"bill", true},   {"years", true}, {"places", places}, {"sale", !wall && !places},
        {"fit", true},  {"doubts", true}, {"list", true},
    };
    size_t count = 0;
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0] && count < TC_REPORT_MOST; i++)
        if (sheets[i].wanted)
            questions[count++] = tc_question_find(sheets[i].name);
    return count;
}
