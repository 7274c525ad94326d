/* SPDX-License-Identifier: MIT */
#include "sheet/question.h"

#include <string.h>

#include "sheet/bill.h"
#include "sheet/fit.h"
#include "sheet/list.h"

static const struct tc_question questions[] = {
    {"bill", "What does each cost to buy and to own?", tc_make_bill, false},
    {"fit", "Which suits what I keep, and what does its shape force me to buy?", tc_make_fit, false},
    {"list", "What do I carry to the till?", tc_make_list, false},
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
