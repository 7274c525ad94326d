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
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/name.h"
#include "core/base/text.h"
#include "profile/ini_scan.h"
#include "profile/save.h"

/* ------------------------------------------------------------- through iniparser */

/*
 * iniparser looks through all it has for every key it adds or finds, which
 * grows with the square of a file. So it is given a large file in pieces of
 * this many entries, for which it has room from the start, or one section;
 * that no name is there twice is known from the scan. Small files share a
 * piece, as each costs it a file opened, read and closed.
 */
#define PIECE_ENTRIES 128

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

/* A file that iniparser can open by its path and of which nothing stays. */
struct scratch {
    int file; /* open for reading and writing; -1 where none could be made */
    char path[64];
    bool named; /* it has a name of its own, to be taken away */
};

/*
 * In memory where the system has that and lets an open file be opened once
 * more by /dev/fd, which a chroot without /proc does not; else by a name. On
 * failure errno says why.
 */
static struct scratch open_scratch(void)
{
    struct scratch scratch = {.file = -1};
#ifdef MFD_CLOEXEC
    scratch.file = memfd_create("tankcost-ini", MFD_CLOEXEC);
    snprintf(scratch.path, sizeof scratch.path, "/dev/fd/%d", scratch.file);
    if (scratch.file >= 0 && access(scratch.path, R_OK) == 0)
        return scratch;
    if (scratch.file >= 0)
        close(scratch.file);
#endif
    snprintf(scratch.path, sizeof scratch.path, "/tmp/tankcost-ini-XXXXXX");
    scratch.file = mkstemp(scratch.path);
    scratch.named = scratch.file >= 0;
    return scratch;
}

static void close_scratch(const struct scratch *scratch)
{
    if (scratch->named)
        unlink(scratch->path);
    if (scratch->file >= 0)
        close(scratch->file);
}

/* A section whose values iniparser is asked for, and the file it is of. */
struct item {
    struct tc_ini *ini;
    struct tc_ini_section *section;
};

/* What iniparser is given at a time: sections with keys, of one file or of several. */
struct piece {
    struct item items[PIECE_ENTRIES / 2]; /* each has two entries or more */
    size_t count, entries;
    struct tc_text text;
    struct scratch scratch;
};

/*
 * Writes a value that was written without quotes in quotes, where that makes
 * no difference: iniparser tries that form before the plain one.
 */
static void add_value(struct tc_text *text, const char *value)
{
    bool quote = value[0] != '\'' && strpbrk(value, "\"\\") == NULL;

    if (quote)
        tc_text_add_char(text, '"');
    tc_text_add(text, value);
    if (quote)
        tc_text_add_char(text, '"');
}

/*
 * Writes the piece into the scratch file; TC_OK, TC_IO or TC_NO_MEMORY. The
 * sections are numbered, as two files may have sections of the same name.
 */
static enum tc_status write_piece(struct piece *piece)
{
    struct tc_text *text = &piece->text;

    tc_text_clear(text);
    for (size_t i = 0; i < piece->count; i++) {
        const struct tc_ini_section *section = piece->items[i].section;
        tc_text_addf(text, "[%zu]\n", i);
        for (size_t k = 0; k < section->key_count; k++) {
            tc_text_add(text, section->keys[k].name);
            tc_text_add_char(text, '=');
            add_value(text, section->keys[k].value);
            tc_text_add_char(text, '\n');
        }
    }
    if (text->failed)
        return TC_NO_MEMORY;
    /* Over the piece before, the rest of which is cut off. */
    if (lseek(piece->scratch.file, 0, SEEK_SET) != 0 ||
        !tc_write_all(piece->scratch.file, text->data, text->length) ||
        ftruncate(piece->scratch.file, (off_t)text->length) != 0 ||
        lseek(piece->scratch.file, 0, SEEK_SET) != 0)
        return TC_IO;
    return TC_OK;
}

/* Puts what iniparser made of a value in the place of the text it was made of. */
static bool take_value(struct tc_ini *ini, struct tc_ini_key *key, const char *value)
{
    if (value == NULL || strlen(value) > strlen(key->value))
        return false;
    memcpy(ini->bytes + (key->value - ini->bytes), value, strlen(value) + 1);
    return true;
}

/* What iniparser has read, and how far that has been taken. */
struct answer {
    const dictionary *entries;
    size_t next; /* place of the entry expected next */
};

/*
 * The value of an entry, NULL where there is none, as for a section. Entries
 * lie in the order they were read in, so that there is seldom one to be
 * looked for.
 */
static const char *entry_value(struct answer *answer, const char *name)
{
    const dictionary *entries = answer->entries;
    size_t i = answer->next++;

    if (i < (size_t)entries->size && entries->key[i] != NULL && strcmp(entries->key[i], name) == 0)
        return entries->val[i];
    return iniparser_getstring(entries, name, NULL);
}

/* Takes the values of the section with a number; gives how many could be taken. */
static size_t take_section(const struct item *item, size_t number, struct answer *answer)
{
    char name[32 + TC_NAME_SIZE];
    size_t taken = 0, start = (size_t)snprintf(name, sizeof name, "%zu", number);

    entry_value(answer, name);
    for (name[start++] = ':'; taken < item->section->key_count; taken++) {
        struct tc_ini_key *key = &item->section->keys[taken];
        memcpy(name + start, key->name, strlen(key->name) + 1); /* a name is shorter than TC_NAME_SIZE */
        if (!take_value(item->ini, key, entry_value(answer, name)))
            break;
    }
    return taken;
}

/*
 * Takes the values of the piece out of entries. All must be there, and
 * iniparser may not have complained: when it runs short of memory it drops
 * single lines, a section's among them.
 */
static void take_piece(const struct piece *piece, const dictionary *entries, const char *said,
                       struct tc_faults *faults)
{
    bool whole = entries != NULL && said[0] == '\0' && iniparser_getnsec(entries) == (int)piece->count;
    struct answer answer = {entries, 0};

    for (size_t i = 0; i < piece->count; i++) {
        const struct item *item = &piece->items[i];
        struct tc_ini_section *section = item->section;
        size_t taken = whole ? take_section(item, i, &answer) : 0;
        if (taken == section->key_count)
            continue;
        struct tc_place place = {item->ini->file, section->line, section->name, NULL};
        /* The scan passed on nothing that iniparser cannot read: it drops without a word what it lacks memory
         * for. */
        tc_faults_error(faults, place, "the section could not be read: %s",
                        said[0] == '\0' ? "out of memory" : said);
        section->bad = true;
        section->key_count = taken;
    }
}

/*
 * Whether there is memory for what iniparser will ask for, which up to 4.2
 * writes through NULL where it gets none: more than it takes for a piece, its
 * line buffer and its tables, is asked for and given back.
 */
static bool memory_for(const struct piece *piece)
{
    void *probe = malloc(65536 + 4 * piece->text.length + 256 * piece->entries);
    free(probe);
    return probe != NULL;
}

/* Has iniparser read the piece, and empties it for the next. */
static enum tc_status read_piece(struct piece *piece, struct tc_faults *faults)
{
    char said[sizeof complaint];
    enum tc_status status = write_piece(piece);
    if (status == TC_OK && !memory_for(piece))
        status = TC_NO_MEMORY;

    if (status == TC_OK) {
        dictionary *entries = load(piece->scratch.path, said);
        take_piece(piece, entries, said, faults);
        iniparser_freedict(entries);
        piece->count = piece->entries = 0;
    }
    return status;
}

/* Has iniparser read all files, piece by piece. */
static enum tc_status read_pieces(struct piece *piece, struct tc_ini *const files[], size_t count,
                                  struct tc_faults *faults)
{
    enum tc_status status;

    for (size_t f = 0; f < count; f++) {
        for (size_t s = 0; s < files[f]->section_count; s++) {
            struct tc_ini_section *section = &files[f]->sections[s];
            if (section->key_count == 0)
                continue;
            if (piece->count > 0 && piece->entries + 1 + section->key_count > PIECE_ENTRIES &&
                (status = read_piece(piece, faults)) != TC_OK)
                return status;
            piece->items[piece->count++] = (struct item){files[f], section};
            piece->entries += 1 + section->key_count;
        }
    }
    return piece->count > 0 ? read_piece(piece, faults) : TC_OK;
}

/* A fault in place of each file: nothing of them can be used. */
static void give_up(struct tc_ini *const files[], size_t count, const char *why, struct tc_faults *faults)
{
    for (size_t f = 0; f < count; f++) {
        tc_faults_error(faults, (struct tc_place){files[f]->file, 0, NULL, NULL}, "%s", why);
        for (size_t s = 0; s < files[f]->section_count; s++) {
            files[f]->sections[s].bad = true;
            files[f]->sections[s].key_count = 0;
        }
    }
}

enum tc_status tc_ini_values(struct tc_ini *const files[], size_t count, struct tc_faults *faults)
{
    struct piece piece = {.text = TC_TEXT_EMPTY};
    enum tc_status status = TC_OK;
    size_t keys = 0;
    char why[160];

    for (size_t f = 0; f < count; f++)
        keys += files[f]->key_count;
    if (keys == 0)
        return TC_OK;
    piece.scratch = open_scratch();
    status = piece.scratch.file < 0 ? TC_IO : read_pieces(&piece, files, count, faults);
    snprintf(why, sizeof why, "a temporary file could not be written: %s", strerror(errno));
    if (status != TC_OK)
        give_up(files, count, status == TC_IO ? why : "out of memory: the file is not used", faults);
    close_scratch(&piece.scratch);
    tc_text_free(&piece.text);
    return status;
}

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
        tc_faults_error(faults, place, "the file cannot be read: %s", strerror(errno));
        return TC_IO;
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
