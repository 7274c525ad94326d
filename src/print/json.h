/* SPDX-License-Identifier: MIT */
/*
 * json.h - a sheet as JSON (RFC 8259), complete and in UTF-8.
 *
 * One object:
 *   "format"       1, the version of this form
 *   "sheet"        the name of the command ("bill")
 *   "title", "assumptions", "row_head"
 *   "columns"      [{"head", "subhead", "about"}]; about is the subject, left out where it is the head
 *   "rows"         [{"kind", "label", "about", "unit", "cells"}]; a group has no cells, a
 *                  sentence has "text" (and "marks") instead of unit and cells
 *   "notes"        [{"kind", "text"}]
 *   "charts"       [{"kind", "title", "x_title", "y_title", "decimals", "x", "x_labels",
 *                  "series": [{"name", "values"}]}]; spans also have "middle", "below", "above"
 *   "drawing"      null or {"title", "unit", "width", "height", "boxes": [{"letter",
 *                  "label", "x", "y", "width", "height"}]}; lengths in that unit, from
 *                  the lower left corner
 *
 * A cell is {"kind", "value", ...}: money has an exact decimal number and its
 * "currency"; a number up to twelve digits and the "decimals" it is shown with;
 * a text or what is missing is a string, an empty cell null. Where there are
 * any, "marks" is a list of their words and "edit" the path of the plan that
 * typing there changes. What is not a number is null. Kinds are those of
 * enum_names.h. Bytes that are no UTF-8 become U+FFFD.
 */
#ifndef TC_PRINT_JSON_H
#define TC_PRINT_JSON_H

#include "print/print_options.h"

enum tc_status tc_print_json(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options);

#endif
