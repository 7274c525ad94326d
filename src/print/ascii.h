/* SPDX-License-Identifier: MIT */
/*
 * ascii.h - sheets for devices without UTF-8.
 *
 * Signs become what people type for them (m² m2, × x, – -, µ u, ≤ <=, ½ 1/2;
 * °C becomes C, a ° alone "deg"), accented Latin letters their plain ones
 * (é e, ß ss), currency signs their ISO 4217 codes where they have one meaning
 * (€ EUR). Combining marks are dropped; anything else becomes '?'.
 */
#ifndef TC_PRINT_ASCII_H
#define TC_PRINT_ASCII_H

#include "core/base/status.h"
#include "core/base/text.h"
#include "sheet/sheet.h"

/* Adds text in ASCII. */
void tc_ascii_add(struct tc_text *out, const char *text);

/*
 * Makes *copy a sheet of its own with the same content in ASCII. Free it with
 * tc_sheet_free, also after TC_NO_MEMORY.
 */
enum tc_status tc_ascii_sheet(struct tc_sheet *copy, const struct tc_sheet *sheet);

#endif
