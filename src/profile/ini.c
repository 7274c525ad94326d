/* SPDX-License-Identifier: MIT */
#if defined(__linux__)
#define _GNU_SOURCE /* memfd_create */
#endif
#include "profile/ini.h"

#include <errno.h>
#include <fcntl.h>
#include <iniparser.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/name.h"
#include "core/text.h"
#include "profile/ini_scan.h"
#include "profile/save.h"

/* ------------------------------------------------------------- through iniparser */

/*
 * iniparser looks through all it has for every key it adds or finds, which
 * grows with the square of a file. So it is given a large file in pieces of
 * about this many entries, whole sections each; that no name is there twice
 * is known from the scan.
 */
#define PIECE_ENTRIES 256

/*
 * The only mutable state of this folder: iniparser's error callback is one
 * pointer for the process and gets no pointer of ours to hand on, so what it
 * says has to be put into something static. The lock makes this safe.
 */
static pthread_mutex_t complaint_lock = PTHREAD_MUTEX_INITIALIZER;
static char complaint[512];

static int take_complaint(const char *format, ...)
{
    va_list arguments;
    int length = 0;

    if (complaint[0] == '\0') { /* the first says most */
        va_start(arguments, format);
        length = vsnprintf(complaint, sizeof complaint, format, arguments);
        va_end(arguments);
    }
    return length;
}

/* iniparser_load(), with what it would have printed in said (ended, perhaps empty). */
static dictionary *load(const char *path, char said[sizeof complaint])
{
    pthread_mutex_lock(&complaint_lock);
    complaint[0] = '\0';
    iniparser_set_error_callback(take_complaint);
    dictionary *entries = iniparser_load(path);
    iniparser_set_error_callback(NULL);
    memcpy(said, complaint, sizeof complaint);
    pthread_mutex_unlock(&complaint_lock);

    said[strcspn(said, "\n")] = '\0'; /* the rest quotes a line of the scratch file, which nobody has seen */
    return entries;
}

/* A file of which nothing stays, open for reading and writing; -1 with errno. */
static int scratch_file(void)
{
#ifdef MFD_CLOEXEC
    int made = memfd_create("tankcost-ini", MFD_CLOEXEC);
    if (made >= 0 || errno != ENOSYS)
        return made;
#endif
    char path[] = "/tmp/tankcost-ini-XXXXXX";
    int file = mkstemp(path);
    if (file >= 0)
        unlink(path);
    return file;
}

/* Writes the keys of the sections from first to end into the scratch file; TC_OK, TC_IO or TC_NO_MEMORY. */
static enum tc_status write_piece(int scratch, const struct tc_ini_section *first,
                                  const struct tc_ini_section *end)
{
    struct tc_text text = TC_TEXT_EMPTY;
    enum tc_status status = TC_OK;

    for (const struct tc_ini_section *section = first; section < end; section++) {
        if (section->key_count > 0)
            tc_text_addf(&text, "[%s]\n", section->name);
        for (size_t i = 0; i < section->key_count; i++)
            tc_text_addf(&text, "%s = %s\n", section->keys[i].name, section->keys[i].value);
    }
    if (text.failed)
        status = TC_NO_MEMORY;
    else if (ftruncate(scratch, 0) != 0 || lseek(scratch, 0, SEEK_SET) != 0 ||
             !tc_write_all(scratch, text.data, text.length) || lseek(scratch, 0, SEEK_SET) != 0)
        status = TC_IO;
    int why = errno;
    tc_text_free(&text);
    errno = why;
    return status;
}

/* Puts what iniparser made of a value in the place of the text it was made of. */
static bool take_value(struct tc_ini *ini, struct tc_ini_key *key, const char *value)
{
    if (value == NULL || strlen(value) > strlen(key->value))
        return false;
    memcpy(ini->bytes + (key->value - ini->bytes), value, strlen(value) + 1);
    return true;
}

/*
 * Takes the values of the sections from first to end out of entries. All must
 * be there, and iniparser may not have complained: when it runs short of
 * memory it drops single lines, a section's among them.
 */
static void take_piece(struct tc_ini *ini, struct tc_ini_section *first, struct tc_ini_section *end,
                       const dictionary *entries, const char *said, struct tc_faults *faults)
{
    int sections = 0;
    bool whole = entries != NULL && said[0] == '\0';

    for (const struct tc_ini_section *section = first; section < end; section++)
        sections += section->key_count > 0;
    if (whole && iniparser_getnsec(entries) != sections)
        whole = false;

    for (struct tc_ini_section *section = first; section < end; section++) {
        size_t taken = 0;
        while (whole && taken < section->key_count) {
            char name[TC_INI_SECTION_MAX + TC_NAME_SIZE + 2];
            struct tc_ini_key *key = &section->keys[taken];
            snprintf(name, sizeof name, "%s:%s", section->name, key->name);
            if (!take_value(ini, key, iniparser_getstring(entries, name, NULL)))
                break;
            taken++;
        }
        if (taken == section->key_count)
            continue;
        struct tc_place place = {ini->file, section->line, section->name, NULL};
        tc_faults_error(faults, place, "the section could not be read%s%s", said[0] == '\0' ? "" : ": ",
                        said);
        section->bad = true;
        section->key_count = taken;
    }
}

/* Has iniparser read all that the scan found good. */
static enum tc_status read_values(struct tc_ini *ini, struct tc_faults *faults)
{
    struct tc_ini_section *section = ini->sections;
    enum tc_status status;
    char path[32];

    if (ini->key_count == 0)
        return TC_OK;
    int scratch = scratch_file();
    status = scratch < 0 ? TC_IO : TC_OK;
    snprintf(path, sizeof path, "/dev/fd/%d", scratch);
    while (status == TC_OK && section < ini->sections + ini->section_count) {
        char said[sizeof complaint];
        struct tc_ini_section *first = section;
        size_t entries = 0;
        while (section < ini->sections + ini->section_count && entries < PIECE_ENTRIES)
            entries += 1 + section++->key_count;
        status = write_piece(scratch, first, section);
        if (status == TC_OK) {
            dictionary *read = load(path, said);
            take_piece(ini, first, section, read, said, faults);
            iniparser_freedict(read);
        }
    }
    if (status == TC_IO)
        tc_faults_error(faults, (struct tc_place){ini->file, 0, NULL, NULL},
                        "a temporary file could not be written: %s", strerror(errno));
    if (scratch >= 0)
        close(scratch);
    return status;
}

/* ------------------------------------------------------------------------- files */

/* Scans and reads ini->bytes. */
static enum tc_status read_all(struct tc_ini *ini, size_t length, struct tc_faults *faults)
{
    enum tc_status status = tc_ini_scan(ini, length, faults);

    return status == TC_OK ? read_values(ini, faults) : status;
}

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
        tc_faults_error(faults, place, "the file cannot be read: %s", strerror(errno));
        return TC_IO;
    }
    if (!S_ISREG(about.st_mode)) {
        tc_faults_error(faults, place,
                        S_ISDIR(about.st_mode) ? "this is a folder; name a file in it"
                                               : "this is no regular file; name one");
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

enum tc_status tc_ini_read(const char *path, struct tc_ini *ini, struct tc_faults *faults)
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
        status = read_all(ini, length, faults);
    if (file >= 0)
        close(file);
    return end(ini, path, status, faults);
}

enum tc_status tc_ini_read_bytes(const char *file, const char *bytes, size_t length, struct tc_ini *ini,
                                 struct tc_faults *faults)
{
    enum tc_status status = begin(ini, file, length);

    if (status == TC_OK) {
        if (length > 0)
            memcpy(ini->bytes, bytes, length);
        status = read_all(ini, length, faults);
    }
    return end(ini, file, status, faults);
}

const struct tc_ini_section *tc_ini_section(const struct tc_ini *ini, const char *name)
{
    for (size_t i = 0; i < ini->section_count; i++)
        if (strcmp(ini->sections[i].name, name) == 0)
            return &ini->sections[i];
    return NULL;
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
