/* SPDX-License-Identifier: MIT */
/*
 * The main program of replay_NAME, which `make check` runs in place of the
 * fuzzer: gives the target every file of tests/fuzz/seeds/fuzz_NAME, whole and
 * cut short after each of its bytes; those of slow targets in a few places. An
 * input on which a fuzzer once failed belongs among them.
 */
#include <dirent.h>
#include <limits.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Each cut is an allocation of its own, so that reading beyond it is seen. */
static void run(const unsigned char *seed, size_t size)
{
    uint8_t *data = malloc(size > 0 ? size : 1);
    if (data == NULL)
        abort();
    memcpy(data, seed, size);
    LLVMFuzzerTestOneInput(data, size);
    free(data);
}

/* Targets that write files, or make whole sheets. */
static bool is_slow(const char *name)
{
    static const char *const slow[] = {"command", "plan", "prices", "screen"};
    for (size_t i = 0; i < sizeof slow / sizeof slow[0]; i++)
        if (strcmp(name, slow[i]) == 0)
            return true;
    return false;
}

static int replay(const char *path, bool slow)
{
    static unsigned char seed[1 << 16];
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        return -1;
    }
    size_t size = fread(seed, 1, sizeof seed, file);
    int failed = ferror(file) || !feof(file);
    fclose(file);
    if (failed) {
        fprintf(stderr, "%s: cannot be read, or is longer than %zu bytes\n", path, sizeof seed - 1);
        return -1;
    }
    size_t step = slow ? size / 3 + 1 : 1;
    for (size_t length = 0; length < size; length += step)
        run(seed, length);
    run(seed, size);
    return 0;
}

int main(int argc, char **argv)
{
    const char *name = argc > 0 ? strstr(argv[0], "replay_") : NULL;
    char below[256], folder[PATH_MAX], path[PATH_MAX + 256];
    int count = 0, failed = 0;

    if (name == NULL)
        return 2;
    name += strlen("replay_");
    snprintf(below, sizeof below, "tests/fuzz/seeds/fuzz_%s", name);
    DIR *seeds = opendir(below);
    if (seeds == NULL || realpath(below, folder) == NULL) { /* a target may go elsewhere */
        perror(below);
        return 1;
    }
    for (struct dirent *entry; (entry = readdir(seeds)) != NULL;) {
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        failed |= replay(path, is_slow(name));
        count++;
    }
    closedir(seeds);
    printf("%s: %d files\n", below, count);
    return failed || count == 0;
}
