/* SPDX-License-Identifier: MIT */
#include "profile/name_list.h"

#include <string.h>

#include "profile/ini_write.h"

bool tc_name_list_read(const char *text, char names[][TC_NAME_SIZE], int capacity, int *count,
                       char problem[TC_PROBLEM_SIZE])
{
    static const char between[] = " \t,";
    char shown[TC_SHOWN_SIZE];
    int n = 0;
    if (strlen(text) > TC_INI_VALUE_MAX)
        return tc_problem(problem, "the list is longer than %d bytes", TC_INI_VALUE_MAX);
    memset(names, 0, (size_t)capacity * TC_NAME_SIZE);
    for (const char *p = text + strspn(text, between); *p != '\0'; p += strspn(p, between)) {
        char name[TC_VALUE_SIZE];
        size_t length = strcspn(p, between);
        for (size_t i = 0; i < length; i++)
            name[i] = tc_name_lower(p[i]);
        name[length] = '\0';
        p += length;
        if (!tc_name_valid(name))
            return tc_problem(problem, "'%s' is not a name; names are made of %s",
                              tc_quantity_shown(shown, name), TC_NAME_RULE);
        for (int i = 0; i < n; i++)
            if (strcmp(names[i], name) == 0)
                return tc_problem(problem, "'%s' is there twice", name);
        if (n == capacity)
            return tc_problem(problem, "there are more than %d names", capacity);
        memcpy(names[n++], name, length + 1);
    }
    *count = n;
    return true;
}

void tc_name_list_write(const char names[][TC_NAME_SIZE], int count, char text[TC_VALUE_SIZE])
{
    size_t length = 0;
    text[0] = '\0';
    for (int i = 0; i < count; i++) {
        size_t size = strlen(names[i]);
        if (length + size + 2 > TC_VALUE_SIZE)
            return; /* cannot be: reading bounds the whole list */
        if (i > 0)
            text[length++] = ' ';
        memcpy(text + length, names[i], size + 1);
        length += size;
    }
}
