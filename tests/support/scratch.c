/* SPDX-License-Identifier: MIT */
#include "support/scratch.h"

#include <ftw.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char tree[PATH_MAX], folder[PATH_MAX];

static void die(const char *what)
{
    perror(what);
    exit(3);
}

static int remove_one(const char *path, const struct stat *about, int type, struct FTW *place)
{
    (void)about;
    (void)type;
    return place->level == 0 ? 0 : remove(path);
}

static void empty(void)
{
    if (nftw(folder, remove_one, 16, FTW_DEPTH | FTW_PHYS) != 0)
        die(folder);
}

static void remove_all(void)
{
    empty();
    rmdir(folder);
}

void scratch_renew(void)
{
    if (folder[0]) {
        empty();
        return;
    }
    const char *below = getenv("TMPDIR");
    if (!getcwd(tree, sizeof tree))
        die("getcwd");
    snprintf(folder, sizeof folder, "%s/tankcost-XXXXXX", below && below[0] == '/' ? below : "/tmp");
    if (!mkdtemp(folder) || chdir(folder) != 0)
        die(folder);
    atexit(remove_all);
}

const char *scratch_folder(void)
{
    return folder;
}

const char *scratch_tree(const char *path)
{
    static char paths[8][PATH_MAX];
    static int next;
    char *to = paths[next++ % 8];
    size_t length = strlen(tree);
    if (length + strlen(path) + 2 > PATH_MAX)
        die(path);
    memcpy(to, tree, length);
    to[length] = '/';
    memcpy(to + length + 1, path, strlen(path) + 1);
    return to;
}
