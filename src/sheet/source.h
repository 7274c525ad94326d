/* SPDX-License-Identifier: MIT */
/*
 * source.h - where the figures of a study come from: file and line, typed over,
 * or the default of a key.
 *
 * What the plan types over is looked for first; where the plan's own file says
 * the same, it is that file's line. Places are texts in the memory of the sheet.
 */
#ifndef TC_SHEET_SOURCE_H
#define TC_SHEET_SOURCE_H

#include "sheet/study.h"
#include "sheet/term.h"

/* A key of the section of an item: "tank", "20-high", "length"; of no plan's concern. */
struct tc_source tc_source_item(struct tc_sheet *sheet, const struct tc_study *study, const char *kind,
                                const char *item, const char *key);

/* A figure of the plan by its path: "plan/years", "candidate 2/price", "setup/water-change". */
struct tc_source tc_source_path(struct tc_sheet *sheet, const struct tc_study *study, const char *path);

/* A key of the study's setup or region, or of its shop, as it may be typed over. */
struct tc_source tc_source_setup(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_setup *setup, const char *key);
struct tc_source tc_source_region(struct tc_sheet *sheet, const struct tc_study *study, const char *key);
struct tc_source tc_source_shop(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_shop *shop, const char *key);

/* What the shop of a study asks for a tank (slot < 0) or part. */
struct tc_source tc_source_price(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_shop *shop, int slot, const struct tc_goods *goods);

/* A constant of tankcost-model(7), of that section; something assumed, and why. */
struct tc_source tc_source_model(struct tc_sheet *sheet, const char *section);
struct tc_source tc_source_assumed(const char *why);

#endif
