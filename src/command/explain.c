/* SPDX-License-Identifier: MIT */
#include "command/explain.h"

#include <stdio.h>
#include <string.h>

#include "command/output.h"
#include "command/watch.h"
#include "core/base/clean.h"
#include "core/base/name.h"
#include "sheet/answer.h"
#include "sheet/explain.h"
#include "sheet/origin.h"
#include "sheet/study_make.h"

/* Draws enough for the names of the figures, which do not depend on them. */
#define FEW_DRAWS 1021

static bool ends_as_file(const char *word)
{
    size_t length = strlen(word);
    return length > 4 && strcmp(word + length - 4, ".ini") == 0;
}

static bool is_plan(const struct tc_stock *stock, const char *word)
{
    return ends_as_file(word) || (stock && tc_stock_plan(stock, word));
}

enum tc_exit tc_explain_read(const struct tc_options *options, const struct tc_stock *stock,
                             struct tc_explain_words *words)
{
    int count = options->word_count - 1;
    const char *const *word = options->words + 1;
    *words = (struct tc_explain_words){NULL, NULL, NULL};
    if (count < 1)
        return tc_usage_error("say of which sheet: `tankcost explain bill start 20-high/tank`%s", "", NULL);
    words->question = tc_question_find(word[0]);
    if (!words->question) {
        const char *nearest = NULL;
        for (size_t i = 0; !nearest && tc_question_at(i); i++) {
            const char *name = tc_question_at(i)->name;
            nearest = tc_name_nearest_of(word[0], &name, 1);
        }
        return tc_usage_error("no sheet '%s' to explain", word[0], nearest);
    }
    if (count > 3)
        return tc_usage_error("one figure at a time, not '%s' as well", word[3], NULL);
    if (count == 3 || (count == 2 && is_plan(stock, word[1])))
        words->plan = word[1];
    if (count == 3 || (count == 2 && !words->plan))
        words->subject = word[count - 1];
    return TC_EXIT_DONE;
}

/* The sheet with its terms. */
static enum tc_status make(const struct tc_explain_words *words, const struct tc_study *study,
                           struct tc_ask ask, struct tc_sheet *sheet, bool *stopped)
{
    ask.explain = true;
    ask.explain_of = words->subject;
    return tc_watch_answer(words->question, study, ask, sheet, stopped);
}

static enum tc_exit write_figure(const struct tc_options *options, const struct tc_study *study,
                                 const struct tc_sheet *sheet, const char *subject)
{
    struct tc_text problem = TC_TEXT_EMPTY;
    struct tc_figure figure;
    struct tc_sheet out = {0};
    enum tc_exit status = TC_EXIT_DONE;
    if (subject && !tc_figure_find(sheet, subject, &figure, &problem)) {
        char said[TC_PROBLEM_SIZE];
        tc_clean(said, sizeof said, tc_text_string(&problem));
        status = tc_usage_error("%s", said, NULL);
    } else if (tc_explain_make(sheet, subject ? &figure : NULL, options->ask.all, &out) != TC_OK) {
        status = tc_machine_error("explain", tc_status_text(TC_NO_MEMORY));
    } else {
        tc_origin_note(study, &out);
        status = out.failed ? tc_machine_error("explain", tc_status_text(TC_NO_MEMORY))
                            : tc_write_sheet(options, &out);
    }
    tc_sheet_free(&out);
    tc_text_free(&problem);
    return status;
}

enum tc_exit tc_explain_answer(const struct tc_options *options, const struct tc_explain_words *words,
                               const struct tc_study *study, bool *stopped)
{
    struct tc_sheet sheet = {0};
    char problem[TC_PROBLEM_SIZE] = "";
    struct tc_ask ask = options->ask;
    enum tc_exit exit_status;
    ask.problem = problem;
    enum tc_status status = make(words, study, ask, &sheet, stopped);
    if (problem[0])
        exit_status = tc_usage_error("%s", problem, NULL);
    else if (status == TC_NO_MEMORY)
        exit_status = tc_machine_error("explain", tc_status_text(status));
    else if (status != TC_OK)
        exit_status = tc_usage_error("%s", tc_status_text(status), NULL);
    else
        exit_status = write_figure(options, study, &sheet, words->subject);
    tc_sheet_free(&sheet);
    return exit_status;
}

void tc_explain_names(const struct tc_stock *stock, const struct tc_plan *plan,
                      const struct tc_question *question, struct tc_date today, struct tc_text *out)
{
    struct tc_study study;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_sheet sheet = {0};
    const struct tc_ask ask = {.draws = FEW_DRAWS};
    if (tc_study_make(&study, stock, plan, today, &faults) == TC_OK &&
        tc_answer_make(question, &study, &ask, &sheet) == TC_OK)
        for (size_t r = 0; r < sheet.row_count; r++)
            for (size_t c = 0; sheet.rows[r].cells && c < sheet.column_count; c++)
                if (tc_figure_is(&sheet.rows[r].cells[c])) {
                    tc_figure_name(&sheet, r, c, out);
                    tc_text_add_char(out, '\n');
                }
    tc_sheet_free(&sheet);
    tc_study_free(&study);
    tc_faults_free(&faults);
}
