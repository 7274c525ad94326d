/* SPDX-License-Identifier: MIT */
/* Prints every sheet of every plan of a folder of profiles as CSV: the same on all machines. */
#include <stdio.h>

#include "print/print.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "sheet/answer.h"
#include "sheet/question.h"
#include "sheet/study.h"
#include "sheet/study_make.h"

static int print_sheet(const struct tc_question *question, const struct tc_study *study)
{
    const struct tc_ask ask = {.draws = 1021, .threads = 2};
    const struct tc_print_options options = {.width = 80};
    struct tc_sheet sheet = {0};
    struct tc_text text = TC_TEXT_EMPTY;
    enum tc_status status = tc_answer_make(question, study, &ask, &sheet);
    printf("%s of %s: %s\n", question->name, study->plan.name, tc_status_text(status));
    if (status == TC_OK && tc_print(&text, &sheet, TC_PRINT_CSV, &options) == TC_OK)
        fputs(tc_text_string(&text), stdout);
    tc_text_free(&text);
    tc_sheet_free(&sheet);
    return status == TC_NO_MEMORY;
}

int main(int argc, char **argv)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    int failed = 0;
    tc_stock_start(&stock);
    if (argc != 2 || tc_stock_read_folder(&stock, argv[1], false, &faults) != TC_OK ||
        tc_stock_finish(&stock, &faults) != TC_OK || tc_faults_errors(&faults) > 0)
        return 1;
    for (size_t i = 0; i < stock.plan_count; i++) {
        struct tc_study study;
        if (tc_study_make(&study, &stock, &stock.plans[i], (struct tc_date){2026, 11, 25}, &faults) == TC_OK)
            for (size_t q = 0; tc_question_at(q); q++)
                failed |= print_sheet(tc_question_at(q), &study);
        tc_study_free(&study);
    }
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return failed;
}
