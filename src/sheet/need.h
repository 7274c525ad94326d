/* SPDX-License-Identifier: MIT */
/* need.h - what is wrong with a tank that does not give its animals what they need, in words. */
#ifndef TC_SHEET_NEED_H
#define TC_SHEET_NEED_H

#include "sheet/phrase.h"

/* The first need that is not met, and not accepted; NULL where all are. */
const struct tc_lack *tc_need_first(const struct tc_suit *suit);

/* "too short": what is wrong with a tank that gives not enough of a need, or too much. */
const char *tc_need_word(enum tc_need need);

/* What follows those words in a sentence: " for the animals", or "" where they say for what already. */
const char *tc_need_for(enum tc_need need);

/* "(19¾ in, they need 22 in)": what it gives and what is needed, into words of TC_WORDS_SIZE. */
char *tc_need_amounts(char *words, const struct tc_lack *lack, enum tc_unit_system units);

#endif
