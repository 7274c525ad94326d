/* SPDX-License-Identifier: MIT */
#include "screen/file_name.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool tc_file_name_read(const char *text, char path[TC_PATH_SIZE])
{
    const char *home = getenv("HOME");
    text += strspn(text, " ");
    bool at_home = strncmp(text, "~/", 2) == 0 && home && *home;
    int length = snprintf(path, TC_PATH_SIZE, "%s%s", at_home ? home : "", at_home ? text + 1 : text);
    while (length > 0 && length < TC_PATH_SIZE && path[length - 1] == ' ')
        path[--length] = '\0';
    return length < TC_PATH_SIZE;
}

bool tc_file_name_ends_in(const char *path, const char *ending)
{
    size_t length = strlen(path), tail = strlen(ending);
    return length > tail && strcmp(path + length - tail, ending) == 0;
}

const char *tc_file_name_base(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}
