/* SPDX-License-Identifier: MIT */
#include "sheet/upkeep.h"

#include "sheet/derive_tank.h"

static const char *words(struct tc_sheet *sheet, double hours, const char *between)
{
    return tc_sheet_format(sheet, "%.0f%s%.0f", TC_UPKEEP_LEAST * hours, between, TC_UPKEEP_MOST * hours);
}

const char *tc_upkeep_brief(struct tc_sheet *sheet, double hours)
{
    return words(sheet, hours, "–"); /* no spreadsheet takes that for a date */
}

void tc_upkeep_row(struct tc_sheet *sheet, const struct tc_study *study)
{
    tc_sheet_row(sheet, TC_ROW_LINE, "upkeep, hours a year", "");
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        tc_sheet_text(sheet, (size_t)i, words(sheet, alternative->cost.upkeep.total, " to "));
        tc_term_put(sheet, (size_t)i, tc_derive_upkeep(tc_derive_of(sheet, study, alternative)));
    }
}
