/* SPDX-License-Identifier: MIT */
#include "sheet/question.h"

#include <string.h>

#include "sheet/bill.h"
#include "sheet/doubts.h"
#include "sheet/energy.h"
#include "sheet/fit.h"
#include "sheet/list.h"
#include "sheet/places.h"
#include "sheet/sale.h"
#include "sheet/shortlist.h"
#include "sheet/wall.h"
#include "sheet/whatif.h"
#include "sheet/years.h"

static const struct tc_question questions[] = {
    {"bill", "What does each cost to buy and to own?", tc_make_bill, false, true, false, false},
    {"years", "What has each cost by the end of each year?", tc_make_years, false, true, false, false},
    {"sale", "Is this price good, what is the most to pay, and is waiting better?", tc_make_sale, false,
     false, false, false},
    {"energy", "Where do electricity, heat and water go?", tc_make_energy, false, false, false, false},
    {"fit", "Which suits what I keep, and what does its shape force me to buy?", tc_make_fit, false, false,
     false, true},
    {"places", "What would it cost somewhere else?", tc_make_places, false, false, false, false},
    {"list", "What do I need to buy?", tc_make_list, true, false, false, false},
    {"wall", "My wall, my budget, my circuit: which tanks, how many, how high?", tc_make_wall, true, false,
     false, false},
    {"doubts", "My figures are guesses: how sure is the answer, and which guess decides it?", tc_make_doubts,
     true, false, false, false},
    {"whatif", "How does the answer change along one assumption?", tc_make_whatif, true, false, false, false},
    {"shortlist", "Of all the tanks there are, which suit my animals, my space and my budget?",
     tc_make_shortlist, true, false, true, true},
};

const struct tc_question *tc_question_at(size_t i)
{
    return i < sizeof questions / sizeof questions[0] ? &questions[i] : NULL;
}

const struct tc_question *tc_question_find(const char *name)
{
    const struct tc_question *question;
    for (size_t i = 0; (question = tc_question_at(i)) != NULL; i++)
        if (strcmp(question->name, name) == 0)
            return question;
    return NULL;
}
