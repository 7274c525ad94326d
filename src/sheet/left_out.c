/* SPDX-License-Identifier: MIT */
#include "sheet/left_out.h"

#include <string.h>

#include "sheet/need.h"
#include "sheet/phrase.h"

/* So many are named in one sentence. */
enum { NAMED = 3 };

/* -------------------------------------------------------------------- what does not suit */

/* "20-long and 29-high", "20-long, 29-high and 3 more": of those marked. */
static const char *names_of(struct tc_sheet *sheet, const struct tc_advice *advice, const bool marked[])
{
    const char *names = "";
    int count = 0, told = 0;
    for (int i = 0; i < advice->study->alternative_count; i++)
        count += marked[i];
    int named = count <= NAMED ? count : NAMED - 1;
    for (int i = 0; i < advice->study->alternative_count && told < named; i++)
        if (marked[i])
            names = tc_sheet_format(sheet, "%s%s%s", names,
                                    told++ == 0     ? ""
                                    : told == count ? " and "
                                                    : ", ",
                                    tc_advice_head(sheet, advice, i));
    return count > named ? tc_sheet_format(sheet, "%s and %d more", names, count - named) : names;
}

/* "too short", "too short or too warm": what those marked have against them. */
static const char *reasons_of(struct tc_sheet *sheet, const struct tc_advice *advice, const bool marked[])
{
    const char *text = "", *last = NULL;
    unsigned told = 0;
    for (int need = 0; need < TC_NEED_COUNT; need++)
        for (int i = 0; i < advice->study->alternative_count; i++) {
            const struct tc_lack *lack = tc_need_first(&advice->study->alternatives[i].suit);
            if (!marked[i] || !lack || lack->need != (enum tc_need)need || told >> need & 1)
                continue;
            text = last ? tc_sheet_format(sheet, "%s%s%s", text, *text ? ", " : "", last) : "";
            last = tc_need_word(lack->need);
            told |= 1U << need;
        }
    return last ? tc_sheet_format(sheet, "%s%s%s", text, *text ? " or " : "", last) : "";
}

static void tell_unsuitable(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    bool out[TC_CANDIDATES_MAX] = {false}, warm = false;
    char amounts[TC_WORDS_SIZE];
    int count = 0, last = 0, all = advice->study->alternative_count;
    for (int i = 0; i < all; i++) {
        const struct tc_lack *first = tc_need_first(&advice->study->alternatives[i].suit);
        out[i] = !advice->rating[i].suits;
        count += out[i];
        last = out[i] ? i : last;
        warm = warm || (out[i] && first && first->need == TC_NEED_COOL);
    }
    if (count == 0)
        return;
    const struct tc_lack *lack = tc_need_first(&advice->study->alternatives[last].suit);
    const char *why =
        lack ? tc_sheet_format(sheet, "%s%s %s", tc_need_word(lack->need), tc_need_for(lack->need),
                               tc_need_amounts(amounts, lack, advice->study->units))
             : "";
    const char *reasons = reasons_of(sheet, advice, out);
    const char *head = tc_advice_head(sheet, advice, last);
    if (count == 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s does not suit: it is %s.", head, why);
    else if (count < all)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s do not suit the animals: they are %s.",
                      names_of(sheet, advice, out), reasons);
    else if (strstr(reasons, " or "))
        tc_sheet_note(sheet, TC_NOTE_FINDING, "None of these suits the animals: they are %s.", reasons);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING, "None of these suits: %s is %s, and so %s.", head, why,
                      count == 2 ? tc_sheet_format(sheet, "is %s", tc_advice_head(sheet, advice, 0))
                                 : "are the others");
    if (warm)
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "A fan or a chiller keeps the water cooler: set setup/cooling = own if you have one.");
}

/* -------------------------------------------------------------------- what has no price */

const char *tc_left_out_gap(struct tc_sheet *sheet, const struct tc_alternative *alternative,
                            const char **mend)
{
    *mend = "type one";
    if (!alternative->prices.deal.known)
        return "it has no price here";
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        if (tc_phrase_unpriced(alternative, slot))
            return tc_sheet_format(sheet, "its %s has no price here", tc_slot_word(slot));
        if (!alternative->equipment.slot[slot].missing)
            continue;
        *mend = tc_phrase_offered(alternative, slot) ? "type the price of one that does"
                                                     : "type the price of one";
        return tc_phrase_unfitted(sheet, alternative->c.offers, alternative->c.offer_count, slot);
    }
    *mend = "the notes say which";
    return "some of its figures are missing";
}

static void tell_unpriced(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    bool out[TC_CANDIDATES_MAX] = {false};
    int count = 0, last = 0;
    const char *mend;
    for (int i = 0; i < advice->study->alternative_count; i++) {
        out[i] = advice->rating[i].suits && !advice->rating[i].complete;
        count += out[i];
        last = out[i] ? i : last;
    }
    if (count == 0)
        return;
    const char *gap = tc_left_out_gap(sheet, &advice->study->alternatives[last], &mend);
    if (count == 1)
        tc_sheet_note(sheet, TC_NOTE_FINDING, "%s cannot be priced yet: %s; %s.",
                      tc_advice_head(sheet, advice, last), gap, mend);
    else
        tc_sheet_note(sheet, TC_NOTE_FINDING,
                      "%s cannot be priced yet: something they need has no price here; "
                      "the notes say what to type.",
                      names_of(sheet, advice, out));
}

void tc_left_out_tell(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    tell_unsuitable(sheet, advice);
    tell_unpriced(sheet, advice);
}

const char *tc_left_out_among(struct tc_sheet *sheet, const struct tc_advice *advice)
{
    bool unsuitable = false, unpriced = false;
    for (int i = 0; i < advice->study->alternative_count; i++) {
        unsuitable = unsuitable || !advice->rating[i].suits;
        unpriced = unpriced || (advice->rating[i].suits && !advice->rating[i].complete);
    }
    if (!unsuitable && !unpriced)
        return "";
    return tc_sheet_format(sheet, "Of the %d %s, ", advice->compared,
                           !unpriced     ? "that suit"
                           : !unsuitable ? "priced"
                                         : "priced that suit");
}
