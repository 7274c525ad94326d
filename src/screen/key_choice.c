/* SPDX-License-Identifier: MIT */
#include "screen/key_choice.h"

#include "profile/kind.h"
#include "screen/list_fill.h"

bool tc_key_choice(const struct tc_key *key)
{
    return key->form == TC_KEY_CHOICE || key->form == TC_KEY_FLAG || (key->form == TC_KEY_NAME && key->of);
}

static void add_names(const struct tc_state *state, const struct tc_kind *kind, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    for (size_t i = 0; i < tc_kind_count(kind, stock); i++) {
        const char *record = tc_kind_record(kind, stock, i);
        if (!tc_kind_has(kind, stock, i))
            continue;
        tc_fill_choice(sheet, record + kind->shelf.name, record + kind->shelf.name);
        tc_sheet_text(sheet, 0, record + kind->shelf.title);
    }
}

void tc_key_choice_fill(const struct tc_state *state, const struct tc_key *key, const char *title,
                        struct tc_sheet *sheet)
{
    char word[TC_NAME_SIZE];
    const struct tc_kind *kind = key->of ? tc_kind_find(key->of) : NULL;
    tc_sheet_start(sheet, "choice", 1);
    tc_sheet_head(sheet, title, "", "");
    tc_fill_words(sheet, 0, "");
    for (int i = 0; tc_key_word_at(key, i, word); i++) {
        tc_fill_choice(sheet, word, word);
        tc_sheet_text(sheet, 0, i == 0 ? key->help : "");
    }
    if (!kind)
        return;
    add_names(state, kind, sheet);
    tc_fill_choice(sheet, "another one", TC_KEY_CHOICE_TYPED);
    tc_sheet_text(sheet, 0, "type its name");
}
