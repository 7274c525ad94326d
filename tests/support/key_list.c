/* SPDX-License-Identifier: MIT */
#include "support/key_list.h"

#include <string.h>

#include "core/base/unit.h"
#include "profile/quantity_write.h"

/* "yes or no" of "yes no", "a, b or c" of "a b c". */
static void add_words(const char *words, struct tc_text *text)
{
    bool first = true;
    while (*words != '\0') {
        size_t length = strcspn(words, " ");
        bool last = words[length] == '\0';
        tc_text_addf(text, "%s%.*s", first ? "" : last ? " or " : ", ", (int)length, words);
        words += length + !last;
        first = false;
    }
}

void key_list_form(const struct tc_key *key, struct tc_text *text)
{
    switch (key->form) {
    case TC_KEY_QUANTITY:
        tc_text_add(text, tc_dimension_name(key->dimension));
        if (key->dimension != TC_DIM_PLAIN)
            tc_text_addf(text, " in %s", tc_dimension_units(key->dimension));
        if (key->step > 0)
            tc_text_add(text, ", whole, no range");
        else if (key->fixed)
            tc_text_add(text, ", no range");
        break;
    case TC_KEY_COUNT: tc_text_add(text, "a whole number"); break;
    case TC_KEY_FLAG: add_words(key->words ? key->words : "no yes", text); break;
    case TC_KEY_TEXT: tc_text_addf(text, "a text of at most %d bytes", TC_TITLE_SIZE - 1); break;
    case TC_KEY_NAME: tc_text_add(text, "a name"); break;
    case TC_KEY_CHOICE: add_words(key->words, text); break;
    case TC_KEY_MONEY:
        tc_text_addf(text, "an amount in the region's currency%s", key->fixed ? ", no range" : "");
        break;
    case TC_KEY_RATE: tc_text_addf(text, "an amount for one %s", tc_dimension_units(key->dimension)); break;
    case TC_KEY_PRICES: tc_text_addf(text, "up to %d amounts with their currencies", TC_PRICES_MAX); break;
    case TC_KEY_MONTHS:
        tc_text_addf(text, "one or twelve figures in %s", tc_dimension_units(key->dimension));
        break;
    case TC_KEY_DATE: tc_text_add(text, "a date"); break;
    case TC_KEY_CURRENCY: tc_text_add(text, "a currency"); break;
    case TC_KEY_OWN: tc_text_addf(text, "like %s", key->example); break;
    }
}

static void add_bound(const struct tc_key *key, double bound, struct tc_text *text)
{
    struct tc_quantity_form form = {.dimension = key->dimension};
    char written[TC_QUANTITY_SIZE];
    if (key->form == TC_KEY_RATE)
        form.dimension = TC_DIM_PLAIN;
    tc_quantity_write(&form, bound, TC_METRIC, written);
    tc_text_add(text, written);
}

void key_list_bounds(const struct tc_key *key, struct tc_text *text)
{
    switch (key->form) {
    case TC_KEY_QUANTITY:
    case TC_KEY_COUNT:
    case TC_KEY_MONEY:
    case TC_KEY_RATE:
    case TC_KEY_PRICES:
    case TC_KEY_MONTHS:
        add_bound(key, key->least, text);
        tc_text_add(text, " to ");
        add_bound(key, key->greatest, text);
        break;
    default: break;
    }
}

void key_list_default(const struct tc_key *key, struct tc_text *text)
{
    if (!key->fallback)
        tc_text_add(text, "required");
    else if (key->fallback[0] == '\0')
        tc_text_add(text, "none");
    else
        tc_text_add(text, key->fallback);
}

void key_list_plain(const struct tc_key_table *table, struct tc_text *text)
{
    tc_text_addf(text, "[%s %s]  %s\n", table->kind,
                 strcmp(table->kind, "candidate") == 0 ? "1"
                 : strcmp(table->kind, "wall") == 0    ? ""
                 : strcmp(table->kind, "space") == 0   ? ""
                                                       : "NAME",
                 table->help);
    for (size_t i = 0; i < table->count; i++) {
        const struct tc_key *key = &table->keys[i];
        tc_text_addf(text, "  %s = %s\n      %s\n      form: ", key->name, key->example, key->help);
        key_list_form(key, text);
        struct tc_text bounds = TC_TEXT_EMPTY;
        key_list_bounds(key, &bounds);
        if (bounds.length > 0)
            tc_text_addf(text, "; range: %s", tc_text_string(&bounds));
        tc_text_free(&bounds);
        tc_text_add(text, "; default: ");
        key_list_default(key, text);
        tc_text_add(text, "\n");
    }
    tc_text_add(text, "\n");
}
