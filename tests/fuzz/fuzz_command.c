/* SPDX-License-Identifier: MIT */
/*
 * Any words as a whole command line over the test profiles: it ends with one of
 * the documented statuses, and what it says on standard output and standard error is
 * clean text.
 */
#include <fcntl.h>
#include <getopt.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/base/clean.h"
#include "support/scratch.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The program's main(), renamed: see the Makefile. */
int tankcost_main(int argc, char **argv);

enum { WORDS_MAX = 24, SAID_MAX = 1 << 20 };

static void must(int holds)
{
    if (!holds)
        abort();
}

/* Words that would lead out of the scratch folder, or take minutes by their nature. */
static bool is_left_out(const char *word)
{
    bool figure = strncmp(word, "--set", 5) == 0 || strncmp(word, "--vary", 6) == 0;
    return (strchr(word, '/') && !figure) || strncmp(word, "--d", 3) == 0 || strstr(word, "wall") ||
           strncmp(word, "--p", 3) == 0 || strncmp(word, "--th", 4) == 0 || strcmp(word, "-") == 0;
}

/* What came on a stream that was sent to a file. */
static void look_at(int file)
{
    static char said[SAID_MAX];
    ssize_t length = pread(file, said, sizeof said - 1, 0);
    must(length >= 0);
    for (ssize_t i = 0; i < length; i++)
        if (said[i] == '\n')
            said[i] = ' ';
    must(length == sizeof said - 1 || tc_is_clean(said, (size_t)length));
}

static void run_words(int argc, char **argv)
{
    static int files[2], kept[2];
    fflush(NULL);
    for (int i = 0; i < 2; i++) {
        files[i] = open(i == 0 ? ".out" : ".err", O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
        kept[i] = dup(1 + i);
        must(files[i] >= 0 && kept[i] >= 0 && dup2(files[i], 1 + i) >= 0);
    }
    optind = 0; /* glibc: begins anew */
    int status = tankcost_main(argc, argv);
    fflush(NULL);
    for (int i = 0; i < 2; i++) {
        must(dup2(kept[i], 1 + i) >= 0);
        close(kept[i]);
    }
    must(status >= 0 && status <= 2);
    for (int i = 0; i < 2; i++) {
        look_at(files[i]);
        close(files[i]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char program[] = "tankcost", today[] = "--today=2026-03-05", few[] = "--draws=100",
                one[] = "--threads=1";
    char *argv[WORDS_MAX + 5] = {program, today, few, one};
    int argc = 4;
    char *text = malloc(size + 1);
    must(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    bool usable = strlen(text) == size && size < 1000;
    for (char *word = strtok(text, "\n"); word && argc < WORDS_MAX + 4; word = strtok(NULL, "\n")) {
        usable = usable && !is_left_out(word);
        argv[argc++] = word;
    }
    if (usable) {
        scratch_renew();
        setenv("TANKCOST_DATA", scratch_tree("tests/data/profiles"), 1);
        setenv("XDG_DATA_HOME", scratch_folder(), 1);
        run_words(argc, argv);
    }
    free(text);
    return 0;
}
