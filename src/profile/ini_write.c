/* SPDX-License-Identifier: MIT */
#include "profile/ini_write.h"

#include <string.h>

#include "core/base/clean.h"

/* True if value means itself without quotes: the rules of cut_plain() in ini_value.c, seen from the other
 * side. */
static bool plain(const char *value, size_t length)
{
    return length > 0 && strchr(" \"'=", value[0]) == NULL && strchr(" \\", value[length - 1]) == NULL &&
           strpbrk(value, ";#") == NULL;
}

bool tc_ini_write_value(struct tc_text *text, const char *value)
{
    size_t length = strlen(value);
    const char *quote = "";

    if (length > TC_INI_VALUE_MAX || !tc_is_clean(value, length))
        return false;
    if (!plain(value, length)) {
        quote = strchr(value, '"') == NULL ? "\"" : "'";
        if (strchr(value, quote[0]) != NULL || strchr(value, '\\') != NULL)
            return false;
    }
    tc_text_addf(text, "%s%s%s", quote, value, quote);
    return true;
}
