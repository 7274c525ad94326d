/* SPDX-License-Identifier: MIT */
#include "sheet/head.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/number.h"

void tc_head_write(const struct tc_candidate *plan, bool shared, char head[TC_HEAD_SIZE])
{
    char count[24] = "";
    if (plan->quantity > 1)
        snprintf(count, sizeof count, "%d × ", plan->quantity);
    snprintf(head, TC_HEAD_SIZE, "%s%s%s%s%s", count, plan->tank, shared ? "" : " (",
             shared ? "" : plan->setup, shared ? "" : ")");
}

static void append(char head[TC_HEAD_SIZE], const char *text)
{
    size_t length = strlen(head);
    snprintf(head + length, TC_HEAD_SIZE - length, "%s", text);
}

/* Marks those that are called as another one is. */
static bool find_alike(const struct tc_named_head heads[], int count, bool alike[])
{
    bool any = false;
    for (int i = 0; i < count; i++) {
        alike[i] = false;
        for (int k = 0; k < count; k++)
            alike[i] = alike[i] || (k != i && strcmp(heads[i].text, heads[k].text) == 0);
        any = any || alike[i];
    }
    return any;
}

void tc_heads_tell_apart(const struct tc_named_head heads[], int count, struct tc_currency currency)
{
    bool alike[TC_CANDIDATES_MAX];
    char text[TC_NUMBER_SIZE + 16], number[TC_NUMBER_SIZE];
    if (!find_alike(heads, count, alike))
        return;
    for (int i = 0; i < count; i++) {
        if (!alike[i] || isnan(heads[i].plan->price))
            continue;
        tc_number_write(number, heads[i].plan->price, currency.exponent, true);
        snprintf(text, sizeof text, " at %s", number);
        append(heads[i].text, text);
    }
    if (!find_alike(heads, count, alike))
        return;
    for (int i = 0; i < count; i++)
        if (alike[i]) {
            snprintf(text, sizeof text, " (no. %d)", heads[i].index + 1);
            append(heads[i].text, text);
        }
}
