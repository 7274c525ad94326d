/* SPDX-License-Identifier: MIT */
#include "sheet/answer.h"

#include "sheet/origin.h"

enum tc_status tc_answer_make(const struct tc_question *question, const struct tc_study *study,
                              const struct tc_ask *ask, struct tc_sheet *sheet)
{
    enum tc_status status = question->make(study, ask, sheet);
    if (status != TC_OK)
        return status;
    tc_origin_say(study, sheet);
    return sheet->failed ? TC_NO_MEMORY : TC_OK;
}
