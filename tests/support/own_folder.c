/* SPDX-License-Identifier: MIT */
#include "support/own_folder.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

int own_folder_enter(struct own_folder *own, const char *name)
{
    const char *build = getenv("BUILD");
    snprintf(own->path, sizeof own->path, "%s/%s-XXXXXX", build ? build : "build", name);
    if (!mkdtemp(own->path) || !getcwd(own->top, sizeof own->top))
        return -1;
    return chdir(own->path);
}

int own_folder_leave(const struct own_folder *own)
{
    char command[OWN_FOLDER_SIZE + 16];
    if (chdir(own->top) != 0)
        return -1;
    snprintf(command, sizeof command, "rm -rf '%s'", own->path);
    return system(command);
}
