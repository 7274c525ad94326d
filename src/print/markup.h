/* SPDX-License-Identifier: MIT */
/*
 * markup.h - text within HTML and SVG.
 *
 * What could be markup is written as a reference, in text and in quoted
 * attributes alike. What neither HTML nor XML may hold (bytes that are no UTF-8,
 * control characters, noncharacters) becomes U+FFFD.
 */
#ifndef TC_PRINT_MARKUP_H
#define TC_PRINT_MARKUP_H

#include "core/base/text.h"

void tc_markup_add(struct tc_text *out, const char *text);

#endif
