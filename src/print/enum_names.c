/* SPDX-License-Identifier: MIT */
#include "print/enum_names.h"

const char *tc_row_kind_name(enum tc_row_kind kind)
{
    switch (kind) {
    case TC_ROW_GROUP: return "group";
    case TC_ROW_LINE: return "line";
    case TC_ROW_SUBTOTAL: return "subtotal";
    case TC_ROW_TOTAL: return "total";
    case TC_ROW_SENTENCE: return "sentence";
    }
    return "";
}

const char *tc_cell_kind_name(enum tc_cell_kind kind)
{
    switch (kind) {
    case TC_CELL_EMPTY: return "empty";
    case TC_CELL_TEXT: return "text";
    case TC_CELL_MONEY: return "money";
    case TC_CELL_NUMBER: return "number";
    case TC_CELL_MISSING: return "missing";
    }
    return "";
}

const char *tc_note_kind_name(enum tc_note_kind kind)
{
    switch (kind) {
    case TC_NOTE_FINDING: return "finding";
    case TC_NOTE_REMARK: return "remark";
    case TC_NOTE_CAUTION: return "caution";
    case TC_NOTE_FAULT: return "fault";
    }
    return "";
}

const char *tc_chart_kind_name(enum tc_chart_kind kind)
{
    switch (kind) {
    case TC_CHART_BARS: return "bars";
    case TC_CHART_LINES: return "lines";
    case TC_CHART_POINTS: return "points";
    case TC_CHART_SPANS: return "spans";
    }
    return "";
}
