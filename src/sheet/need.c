/* SPDX-License-Identifier: MIT */
#include "sheet/need.h"

#include <stdio.h>
#include <string.h>

const char *tc_need_word(enum tc_need need)
{
    switch (need) {
    case TC_NEED_LENGTH: return "too short";
    case TC_NEED_BOTTOM: return "too small at the bottom";
    case TC_NEED_HEIGHT: return "too low";
    case TC_NEED_LOW: return "too high";
    case TC_NEED_REACH: return "too deep to reach down";
    case TC_NEED_TERRITORIES: return "too small for the territories";
    case TC_NEED_SHOAL: return "too short for the shoal";
    case TC_NEED_ANIMALS: return "too small for so many animals";
    case TC_NEED_COOL: return "too warm";
    case TC_NEED_COUNT: break;
    }
    return "";
}

const char *tc_need_for(enum tc_need need)
{
    bool said = need == TC_NEED_REACH || need == TC_NEED_TERRITORIES || need == TC_NEED_SHOAL ||
                need == TC_NEED_ANIMALS;
    return said ? "" : " for the animals";
}

const struct tc_lack *tc_need_first(const struct tc_suit *suit)
{
    for (int i = 0; i < suit->lack_count; i++)
        if (!suit->lack[i].accepted)
            return &suit->lack[i];
    return NULL;
}

static const char *need_amount(char *words, enum tc_need need, double amount, enum tc_unit_system units)
{
    if (need == TC_NEED_BOTTOM)
        return tc_unit_quantity_write(words, amount, TC_DIM_AREA, units, 0);
    if (need == TC_NEED_TERRITORIES || need == TC_NEED_ANIMALS) {
        snprintf(words, TC_WORDS_SIZE, need == TC_NEED_ANIMALS ? "water for %.0f" : "%.0f", amount);
        return words;
    }
    if (need == TC_NEED_COOL)
        return tc_unit_quantity_write(words, amount, TC_DIM_TEMPERATURE, units, 1);
    return tc_phrase_length(words, amount, units);
}

char *tc_need_amounts(char *words, const struct tc_lack *lack, enum tc_unit_system units)
{
    char have[TC_WORDS_SIZE], wanted[TC_WORDS_SIZE];
    need_amount(have, lack->need, lack->have, units);
    need_amount(wanted, lack->need, lack->wanted, units);
    /* Where both round to the same figure, the words tell them apart. */
    const char *nearly = strcmp(have, wanted) != 0 ? "" : lack->at_most ? "just over " : "just under ";
    const char *how = lack->need == TC_NEED_COOL ? "they can take" : lack->at_most ? "at most" : "they need";
    snprintf(words, TC_WORDS_SIZE, "(%s%.40s, %s %.40s)", nearly, have, how, wanted);
    return words;
}
