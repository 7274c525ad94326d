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

static void finish(const struct tc_study *study, struct tc_sheet *sheet)
{
    keep_few_findings(sheet);
    tc_origin_say(study, sheet);
}

/* Who is shown an answer while it grows. */
struct shown {
    const struct tc_study *study;
    const struct tc_ask *ask;
};

static void show(void *context, struct tc_sheet *sheet)
{
    const struct shown *shown = context;
    finish(shown->study, sheet);
    shown->ask->show(shown->ask->context, sheet);
}

static bool go_on(void *context, double done)
{
    const struct shown *shown = context;
    return !shown->ask->go_on || shown->ask->go_on(shown->ask->context, done);
}

enum tc_status tc_answer_make(const struct tc_question *question, const struct tc_study *study,
                              const struct tc_ask *ask, struct tc_sheet *sheet)
{
    struct shown shown = {study, ask};
    struct tc_ask asked = *ask;
    if (ask->show) {
        asked.show = show;
        asked.go_on = go_on;
        asked.context = &shown;
    }
    enum tc_status status = question->make(study, &asked, sheet);
    if (status != TC_OK)
        return status;
    finish(study, sheet);
    return sheet->failed ? TC_NO_MEMORY : TC_OK;
}
