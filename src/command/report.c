/* SPDX-License-Identifier: MIT */
#include "command/report.h"

#include <stdio.h>
#include <unistd.h>

#include "command/output.h"
#include "command/watch.h"
#include "core/base/clean.h"
#include "sheet/report.h"

static enum tc_print_format format_of(const struct tc_options *options)
{
    enum tc_print_format format = TC_PRINT_HTML;
    if (options->format_given)
        return options->format;
    if (options->output)
        tc_print_format_of(options->output, &format); /* HTML, where its name does not say */
    else if (isatty(STDOUT_FILENO))
        format = TC_PRINT_TEXT;
    return format;
}

enum tc_exit tc_report_allowed(const struct tc_options *options)
{
    const char *name = tc_print_format_name((size_t)format_of(options));
    if (!tc_print_format_several(format_of(options)))
        return tc_usage_error("a report is html, markdown or text, not %s: ask for one sheet", name, NULL);
    if (options->ask.walls)
        return tc_usage_error("--walls goes with bill and years, not with %s", "report", NULL);
    return TC_EXIT_DONE;
}

static void tell_left_out(const struct tc_question *question, const char *why)
{
    char said[TC_PROBLEM_SIZE];
    tc_clean(said, sizeof said, why);
    fprintf(stderr, "tankcost: %s is left out: %s\n", question->name, said);
}

/* Makes a sheet; *made is false where it was left out. */
static enum tc_exit make_sheet(const struct tc_question *question, const struct tc_study *study,
                               struct tc_ask ask, struct tc_sheet *sheet, bool *made, bool *stopped)
{
    char problem[TC_PROBLEM_SIZE] = "";
    ask.problem = problem;
    enum tc_status status = tc_watch_answer(question, study, ask, sheet, stopped);
    *made = status == TC_OK && !problem[0];
    if (*made)
        return TC_EXIT_DONE;
    tc_sheet_free(sheet);
    if (status == TC_NO_MEMORY)
        return tc_machine_error("report", tc_status_text(status));
    tell_left_out(question, problem[0] ? problem : tc_status_text(status));
    return TC_EXIT_FAULTS;
}

enum tc_exit tc_report(const struct tc_options *options, const struct tc_study *study, bool *stopped)
{
    const struct tc_question *questions[TC_REPORT_MOST];
    struct tc_sheet sheets[TC_REPORT_MOST] = {{0}};
    size_t wanted = tc_report_questions(&study->plan, questions), count = 0;
    enum tc_exit exit_status = TC_EXIT_DONE;
    for (size_t i = 0; i < wanted && exit_status != TC_EXIT_MACHINE; i++) {
        bool made = false;
        enum tc_exit status = make_sheet(questions[i], study, options->ask, &sheets[count], &made, stopped);
        exit_status = status != TC_EXIT_DONE ? status : exit_status;
        count += made;
    }
    if (exit_status != TC_EXIT_MACHINE) {
        const char *title = study->plan.title[0] ? study->plan.title : study->plan.name;
        enum tc_exit written =
            tc_write_report(options, *title ? title : "Tanks compared", sheets, count, format_of(options));
        exit_status = written != TC_EXIT_DONE ? written : exit_status;
    }
    for (size_t i = 0; i < count; i++)
        tc_sheet_free(&sheets[i]);
    return exit_status;
}
