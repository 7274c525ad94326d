/* SPDX-License-Identifier: MIT */
#include "profile/ini.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile/ini_scan.h"
#include "profile/ini_values.h"

/* ------------------------------------------------------------------------- files */

/* Begins an empty ini: its name and room for size bytes and an end. */
static enum tc_status begin(struct tc_ini *ini, const char *file, size_t size)
{
    *ini = (struct tc_ini)TC_INI_EMPTY;
    ini->file = strdup(file);
    ini->bytes = malloc(size + 1);
    return ini->file == NULL || ini->bytes == NULL ? TC_NO_MEMORY : TC_OK;
}

/* What a failed read leaves: nothing, and a word about it. */
static enum tc_status end(struct tc_ini *ini, const char *file, enum tc_status status,
                          struct tc_faults *faults)
{
    if (status == TC_NO_MEMORY)
        tc_faults_error(faults, (struct tc_place){file, 0, NULL, NULL},
                        "out of memory: the file is not used");
    if (status != TC_OK)
        tc_ini_free(ini);
    return status;
}

/* Opens path, which must be a regular file, and tells its size. */
static enum tc_status open_regular(const char *path, int *file, size_t *size, struct tc_faults *faults)
{
    struct tc_place place = {path, 0, NULL, NULL};
    struct stat about;

    /* Without O_NONBLOCK, opening a pipe would wait for somebody to write to it. */
    *file = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (*file < 0 || fstat(*file, &about) != 0) {
        int why = errno;
        tc_faults_error(faults, place, "the file cannot be read: %s", strerror(why));
        return why == ENOMEM ? TC_NO_MEMORY : TC_IO;
    }
    if (!S_ISREG(about.st_mode)) {
        tc_faults_error(faults, place,
                        S_ISDIR(about.st_mode) ? "this is a folder; name a file in it"
                                               : "this is not a regular file; name one");
        return TC_IO;
    }
    *size = about.st_size < TC_INI_FILE_MAX ? (size_t)about.st_size : TC_INI_FILE_MAX;
    return TC_OK;
}

/*
 * Reads the whole file into ini->bytes, which has room for size bytes and an
 * end. To the end of the file, not to the size it had: it may be growing.
 */
static enum tc_status read_bytes(struct tc_ini *ini, int file, size_t size, size_t *length,
                                 struct tc_faults *faults)
{
    struct tc_place place = {ini->file, 0, NULL, NULL};

    for (*length = 0;;) {
        /* In the room of the end, one byte more than expected tells that there is more. */
        ssize_t n = read(file, ini->bytes + *length, size + 1 - *length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0) {
            tc_faults_error(faults, place, "the file cannot be read: %s", strerror(errno));
            return TC_IO;
        }
        if (n == 0)
            return TC_OK;
        *length += (size_t)n;
        if (*length > TC_INI_FILE_MAX) {
            tc_faults_error(faults, place, "the file is larger than %d MiB; make it several files",
                            TC_INI_FILE_MAX / 1024 / 1024);
            return TC_SYNTAX;
        }
        if (*length > size) {
            size = size < TC_INI_FILE_MAX / 2 ? size * 2 + 1 : TC_INI_FILE_MAX;
            char *bytes = realloc(ini->bytes, size + 1);
            if (bytes == NULL)
                return TC_NO_MEMORY;
            ini->bytes = bytes;
        }
    }
}

enum tc_status tc_ini_open(const char *path, struct tc_ini *ini, struct tc_faults *faults)
{
    int file;
    size_t size = 0, length = 0;
    enum tc_status status;

    *ini = (struct tc_ini)TC_INI_EMPTY;
    status = open_regular(path, &file, &size, faults);
    if (status == TC_OK)
        status = begin(ini, path, size);
    if (status == TC_OK)
        status = read_bytes(ini, file, size, &length, faults);
    if (status == TC_OK)
        status = tc_ini_scan(ini, length, faults);
    if (file >= 0)
        close(file);
    return end(ini, path, status, faults);
}

enum tc_status tc_ini_open_bytes(const char *file, const char *bytes, size_t length, struct tc_ini *ini,
                                 struct tc_faults *faults)
{
    enum tc_status status = begin(ini, file, length);

    if (status == TC_OK) {
        if (length > 0)
            memcpy(ini->bytes, bytes, length);
        status = tc_ini_scan(ini, length, faults);
    }
    return end(ini, file, status, faults);
}

enum tc_status tc_ini_read_bytes(const char *file, const char *bytes, size_t length, struct tc_ini *ini,
                                 struct tc_faults *faults)
{
    enum tc_status status = tc_ini_open_bytes(file, bytes, length, ini, faults);
    if (status != TC_OK)
        return status;
    status = tc_ini_values(&ini, 1, faults);
    if (status != TC_OK)
        tc_ini_free(ini);
    return status;
}

const struct tc_ini_key *tc_ini_key(const struct tc_ini_section *section, const char *name)
{
    for (size_t i = 0; i < section->key_count; i++)
        if (strcmp(section->keys[i].name, name) == 0)
            return &section->keys[i];
    return NULL;
}

void tc_ini_free(struct tc_ini *ini)
{
    free(ini->file);
    free(ini->sections);
    free(ini->keys);
    free(ini->bytes);
    *ini = (struct tc_ini)TC_INI_EMPTY;
}
