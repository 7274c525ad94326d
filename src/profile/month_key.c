/* SPDX-License-Identifier: MIT */
#include "profile/month_key.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "core/base/name.h"
#include "core/base/number.h"
#include "core/tariff/load.h"

static const char *const month_names[TC_MONTHS] = {"jan", "feb", "mar", "apr", "may", "jun",
                                                   "jul", "aug", "sep", "oct", "nov", "dec"};

const char *tc_month_name(int month)
{
    return month_names[month - 1];
}

/* A month at *p, as a number or by at least three letters of its name: 0 to 11, or -1. */
static int read_month(const char **p)
{
    const char *start = *p;
    int number;
    if (tc_number_read_count(start, p, &number) == TC_OK)
        return number >= 1 && number <= TC_MONTHS ? number - 1 : -1;
    size_t length = strcspn(start, " ,");
    *p = start + length;
    for (int m = 0; m < TC_MONTHS && length >= 3; m++)
        if (tc_name_lower(start[0]) == month_names[m][0] && tc_name_lower(start[1]) == month_names[m][1] &&
            tc_name_lower(start[2]) == month_names[m][2])
            return m;
    return -1;
}

static const char *skip(const char *p)
{
    return p + strspn(p, " ,");
}

bool tc_month_key_read(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    bool in[TC_MONTHS] = {false};
    char shown[TC_SHOWN_SIZE];
    for (const char *p = skip(text); *p != '\0';) {
        int first = read_month(&p), last = first;
        p = skip(p);
        if (strncmp(p, "to ", 3) == 0) {
            p = skip(p + 3);
            last = read_month(&p);
            p = skip(p);
        }
        if (first < 0 || last < 0)
            return tc_problem(reading->problem,
                              "'%s' is not a list of months; write them like '%s' or 'may to sep'",
                              tc_quantity_shown(shown, text), key->example);
        for (int m = first;; m = (m + 1) % TC_MONTHS) {
            in[m] = true;
            if (m == last)
                break;
        }
    }
    memcpy((char *)record + key->offset, in, sizeof in);
    return true;
}

void tc_month_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                        char text[TC_VALUE_SIZE])
{
    bool in[TC_MONTHS];
    size_t length = 0;
    (void)system;
    memcpy(in, (const char *)record + key->offset, sizeof in);
    text[0] = '\0';
    for (int m = 0; m < TC_MONTHS; m++)
        if (in[m])
            length +=
                (size_t)snprintf(text + length, TC_VALUE_SIZE - length, "%s%d", length > 0 ? " " : "", m + 1);
}
