/* SPDX-License-Identifier: MIT */
/* report.h - "tankcost report": the sheets that matter for a plan, on one page. */
#ifndef TC_COMMAND_REPORT_H
#define TC_COMMAND_REPORT_H

#include "command/options.h"
#include "sheet/study.h"

/* Whether the report can be printed as the options say; if not, it is told and TC_EXIT_USAGE returned. */
enum tc_exit tc_report_allowed(const struct tc_options *options);

/*
 * Makes the sheets (sheet/report.h) and writes them where the options say: as HTML, unless they name another
 * format that takes several sheets; on a terminal as text. A sheet that cannot be made is left out, and it is
 * told why.
 */
enum tc_exit tc_report(const struct tc_options *options, const struct tc_study *study, bool *stopped);

#endif
