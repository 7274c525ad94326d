/* SPDX-License-Identifier: MIT */
/* print_options.h - how a sheet is printed, whatever the format. */
#ifndef TC_PRINT_PRINT_OPTIONS_H
#define TC_PRINT_PRINT_OPTIONS_H

#include <stdbool.h>

#include "core/base/status.h"
#include "core/base/text.h"
#include "sheet/sheet.h"

struct tc_print_options {
    int width;   /* columns of a line of text; 0 or less: as wide as it takes */
    bool ascii;  /* text and Markdown: ASCII only. CSV, JSON and HTML are UTF-8 always */
    bool fine;   /* text: the device has braille and eighths of blocks (canvas.h) */
    bool colour; /* text: escape codes of ECMA-48 that repeat what signs and words say */
};

#endif
