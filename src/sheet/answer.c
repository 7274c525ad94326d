/* SPDX-License-Identifier: MIT */
#include "sheet/answer.h"

#include "sheet/origin.h"

/* Answers are few, so that all are in sight at once; what comes after these is told below the table. */
enum { FINDINGS_MOST = 5 };

static void keep_few_findings(struct tc_sheet *sheet)
{
    int findings = 0;
    for (size_t i = 0; i < sheet->note_count; i++)
        if (sheet->notes[i].kind == TC_NOTE_FINDING && ++findings > FINDINGS_MOST)
            sheet->notes[i].kind = TC_NOTE_REMARK;
}

enum tc_status tc_answer_make(const struct tc_question *question, const struct tc_study *study,
                              const struct tc_ask *ask, struct tc_sheet *sheet)
{
    enum tc_status status = question->make(study, ask, sheet);
    if (status != TC_OK)
        return status;
    keep_few_findings(sheet);
    tc_origin_say(study, sheet);
    return sheet->failed ? TC_NO_MEMORY : TC_OK;
}
