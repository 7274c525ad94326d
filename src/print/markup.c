/* SPDX-License-Identifier: MIT */
#include "print/markup.h"

#include <stdbool.h>
#include <string.h>

#include "core/base/clean.h"

/* Characters that a page may not hold: WHATWG HTML 13.2.3.5 and XML 1.0 2.2. */
static bool may_stand(uint32_t code)
{
    bool control = (code < 0x20 && code != '\t' && code != '\n') || (code >= 0x7F && code <= 0x9F);
    bool noncharacter = (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE;
    return !control && !noncharacter;
}

static const char *reference_to(uint32_t code)
{
    switch (code) {
    case '&': return "&amp;";
    case '<': return "&lt;";
    case '>': return "&gt;";
    case '"': return "&quot;";
    case '\'': return "&#39;";
    default: return NULL;
    }
}

void tc_markup_add(struct tc_text *out, const char *text)
{
    size_t length = strlen(text);
    for (size_t i = 0; i < length;) {
        uint32_t code = 0;
        int n = tc_utf8_decode(text + i, length - i, &code);
        const char *reference = reference_to(code);
        if (n == 0 || !may_stand(code))
            tc_text_add(out, "\xEF\xBF\xBD");
        else if (reference)
            tc_text_add(out, reference);
        else
            tc_text_add_bytes(out, text + i, (size_t)n);
        i += n > 0 ? (size_t)n : 1;
    }
}
