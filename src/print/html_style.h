/* SPDX-License-Identifier: MIT */
/* html_style.h - how a page of HTML looks, on screen and on paper. */
#ifndef TC_PRINT_HTML_STYLE_H
#define TC_PRINT_HTML_STYLE_H

#include "core/base/text.h"

/* Adds the style, for an element of that name: CSS, which holds nothing that HTML would take for markup. */
void tc_html_style_add(struct tc_text *out);

#endif
