/* SPDX-License-Identifier: MIT */
/* Reading INI files of 4,000 and of 60,000 keys against a bare iniparser_load() of the same file. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include <iniparser.h>

#include "profile/ini.h"
#include "profile/save.h"
#include "support/ini_read.h"

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* Sections of ten keys each, as a shop's stock would have. */
static void write_stock(const char *path, int keys)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;

    for (int i = 0; i < keys; i++) {
        if (i % 10 == 0)
            tc_text_addf(&text, "\n# %d\n[tank number-%d]\n", i, i / 10);
        tc_text_addf(&text, "figure-%d = %d in ; measured\n", i % 10, i);
    }
    if (text.failed || tc_save(path, text.data, text.length, &faults) != TC_OK) {
        perror(path);
        exit(1);
    }
    tc_text_free(&text);
}

static double read_ours(const char *path, size_t keys)
{
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    double start = now();
    enum tc_status status = ini_read(path, &ini, &faults);
    double seconds = now() - start;

    if (status != TC_OK || tc_faults_count(&faults) > 0 || ini.key_count != keys) {
        fprintf(stderr, "%s was not read whole\n", path);
        exit(1);
    }
    tc_ini_free(&ini);
    return seconds;
}

static double read_bare(const char *path)
{
    double start = now();
    dictionary *entries = iniparser_load(path);
    double seconds = now() - start;

    if (entries == NULL)
        exit(1);
    iniparser_freedict(entries);
    return seconds;
}

static void compare(const char *path, int keys, int rounds)
{
    double ours = 1e9, bare = 1e9;

    write_stock(path, keys);
    for (int i = 0; i < rounds; i++) {
        double seconds = read_ours(path, (size_t)keys);
        ours = seconds < ours ? seconds : ours;
        seconds = read_bare(path);
        bare = seconds < bare ? seconds : bare;
    }
    printf("%6d keys: %8.2f ms, iniparser_load alone %8.2f ms, ratio %.2f\n", keys, ours * 1e3, bare * 1e3,
           ours / bare);
}

int main(void)
{
    char path[] = "/tmp/tankcost-bench-XXXXXX";
    int file = mkstemp(path);

    if (file < 0)
        return 1;
    close(file);
    compare(path, 400, 20);
    compare(path, 4000, 10);
    compare(path, 59000, 1);
    unlink(path);
    return 0;
}
