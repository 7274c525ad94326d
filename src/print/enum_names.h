/* SPDX-License-Identifier: MIT */
/* enum_names.h - the names of the kinds of sheet.h in machine-readable output. */
#ifndef TC_PRINT_ENUM_NAMES_H
#define TC_PRINT_ENUM_NAMES_H

#include "sheet/sheet.h"

const char *tc_row_kind_name(enum tc_row_kind kind);   /* "group", "line", "subtotal", "total", "sentence" */
const char *tc_cell_kind_name(enum tc_cell_kind kind); /* "empty", "text", "money", "number", "missing" */
const char *tc_note_kind_name(enum tc_note_kind kind); /* "finding", "remark", "caution", "fault" */
const char *tc_chart_kind_name(enum tc_chart_kind kind); /* "bars", "lines", "spans" */

#endif
