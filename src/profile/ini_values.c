/* SPDX-License-Identifier: MIT */
#if defined(__linux__)
#define _GNU_SOURCE /* memfd_create */
#endif
#include "profile/ini_values.h"

#include <errno.h>
#include <fcntl.h>
#include <iniparser.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "core/base/parallel.h"
#include "core/base/text.h"
#include "profile/save.h"
#include "profile/value_set.h"

/*
 * iniparser looks through all it has for every key it adds or finds, which
 * grows with the square of a file. So it is given the values in pieces of so
 * many, for which, and for their section, it has room from the start; that no
 * name is there twice is known from the scan. What a value means does not
 * depend on its key: each different one is read once, whichever keys have it.
 */
#define PIECE_VALUES 79

/*
 * The only mutable state of this folder: iniparser's error callback is one
 * pointer for the process and gets no pointer of ours to hand on, so what it
 * says has to be put into something static, of each thread its own. The pointer
 * is ours while anybody reads.
 */
static pthread_mutex_t reader_lock = PTHREAD_MUTEX_INITIALIZER;
static int readers;
static _Thread_local char complaint[512];

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

static void count_reader(int by)
{
    pthread_mutex_lock(&reader_lock);
    readers += by;
    iniparser_set_error_callback(readers > 0 ? take_complaint : NULL);
    pthread_mutex_unlock(&reader_lock);
}

/*
 * iniparser_load(), with what it would have printed in said (ended, perhaps empty).
 * Where it gives NULL errno tells why, as far as the system knows, or is 0.
 */
static dictionary *load(const char *path, char said[sizeof complaint])
{
    complaint[0] = '\0';
    errno = 0;
    dictionary *entries = iniparser_load(path);
    memcpy(said, complaint, sizeof complaint);

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

/* What iniparser is given at a time: some of the different values of a share, in one section. */
struct piece {
    struct tc_value_set values; /* of the whole share; the key of one that could not be read becomes NULL */
    size_t first, count;
    struct tc_text text;
    struct scratch scratch;
    char said[sizeof complaint]; /* what iniparser complained of first, or "" */
};

/* The section of all values, the name of the n-th with it, and where the name itself begins. */
#define SECTION   "v"
#define NAME_SIZE sizeof SECTION ":a0"
#define OWN_NAME  sizeof SECTION

static void name_value(char name[NAME_SIZE], size_t n)
{
    memcpy(name, SECTION ":a0", NAME_SIZE);
    name[OWN_NAME] = (char)('a' + (int)n / 10);
    name[OWN_NAME + 1] = (char)('0' + (int)n % 10);
}

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

/* Writes the piece into the scratch file; TC_OK, TC_IO or TC_NO_MEMORY. */
static enum tc_status write_piece(struct piece *piece)
{
    struct tc_text *text = &piece->text;

    tc_text_clear(text);
    tc_text_add(text, "[" SECTION "]\n");
    for (size_t i = 0; i < piece->count; i++) {
        char name[NAME_SIZE];
        name_value(name, i);
        tc_text_add(text, name + OWN_NAME);
        tc_text_add_char(text, '=');
        add_value(text, piece->values.values[piece->first + i].key->value);
        tc_text_add_char(text, '\n');
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

/* Puts what a value means in the place of its text, which is no shorter. */
static bool put_value(struct tc_ini *ini, const struct tc_ini_key *key, const char *value)
{
    size_t length = value ? strlen(value) : 0;
    if (!value || length > strlen(key->value))
        return false;
    memcpy(ini->bytes + (key->value - ini->bytes), value, length + 1);
    return true;
}

/*
 * The n-th value in entries, NULL where there is none. Entries lie in the order
 * they were read in, the section before them, so that there is seldom one to be
 * looked for.
 */
static const char *entry_value(const dictionary *entries, size_t n)
{
    char name[NAME_SIZE];

    name_value(name, n);
    if (n + 1 < (size_t)entries->size && entries->key[n + 1] && strcmp(entries->key[n + 1], name) == 0)
        return entries->val[n + 1];
    return iniparser_getstring(entries, name, NULL);
}

/*
 * Takes the values of the piece out of entries. All must be there, and
 * iniparser may not have complained: when it runs short of memory it drops
 * single lines, the section's among them.
 */
static void take_piece(struct piece *piece, const dictionary *entries, const char *said)
{
    bool whole = entries != NULL && said[0] == '\0' && iniparser_getnsec(entries) == 1;

    for (size_t i = 0; i < piece->count; i++) {
        struct tc_value *value = &piece->values.values[piece->first + i];
        if (!whole || !put_value(value->ini, value->key, entry_value(entries, i)))
            value->key = NULL;
    }
    if (piece->said[0] == '\0')
        memcpy(piece->said, said, sizeof piece->said);
}

/*
 * Whether there is memory for what iniparser will ask for, which up to 4.2
 * writes through NULL where it gets none: more than it takes for a piece, its
 * line buffer and its tables, is asked for and given back.
 */
static bool memory_for(const struct piece *piece)
{
    void *probe = malloc(65536 + 4 * piece->text.length + 256 * piece->count);
    free(probe);
    return probe != NULL;
}

/* Has iniparser read all values, piece by piece. */
static enum tc_status read_values(struct piece *piece)
{
    char said[sizeof complaint];
    enum tc_status status = TC_OK;

    for (; piece->first < piece->values.count && status == TC_OK; piece->first += piece->count) {
        size_t left = piece->values.count - piece->first;
        piece->count = left < PIECE_VALUES ? left : PIECE_VALUES;
        status = write_piece(piece);
        if (status == TC_OK && !memory_for(piece))
            status = TC_NO_MEMORY;
        if (status != TC_OK)
            break;
        dictionary *entries = load(piece->scratch.path, said);
        if (entries == NULL && errno == ENOMEM)
            return TC_NO_MEMORY; /* for the file's buffer, which is no matter of these values */
        take_piece(piece, entries, said);
        iniparser_freedict(entries);
    }
    return status;
}

/* ------------------------------------------------------------------------ in parallel */

/* So many keys are read by one thread sooner than several are started. */
#define KEYS_OF_A_THREAD 4000

/* What one thread reads: the sections that begin among its share of all keys. */
struct share {
    struct tc_ini *const *files;
    size_t file_count, from, to; /* places of keys, counted over all files */
    struct tc_faults faults;
    enum tc_status status;
    int error; /* errno of TC_IO */
};

/* A section with keys of a share, and where the next is looked for. */
struct place {
    struct tc_ini *ini;
    struct tc_ini_section *section;
    size_t file, next, before; /* file and section; keys of the files before */
};

/* Goes to the next section of the share; false past its last. */
static bool next_section(const struct share *share, struct place *place)
{
    for (; place->file < share->file_count && place->before < share->to; place->file++, place->next = 0) {
        place->ini = share->files[place->file];
        while (place->next < place->ini->section_count) {
            place->section = &place->ini->sections[place->next++];
            size_t at = place->before + (size_t)(place->section->keys - place->ini->keys);
            if (place->section->key_count > 0 && at >= share->from && at < share->to)
                return true;
        }
        place->before += place->ini->key_count;
    }
    return false;
}

/* The different values of a share; false where memory ran out. */
static bool gather_values(const struct share *share, struct tc_value_set *values)
{
    for (struct place at = {.file = 0}; next_section(share, &at);)
        for (size_t k = 0; k < at.section->key_count; k++)
            if (!tc_value_set_add(values, at.ini, &at.section->keys[k]))
                return false;
    return true;
}

/* Gives each key of a share its value; a section ends before the first that has none. */
static void hand_out_values(struct share *share, const struct piece *piece)
{
    size_t before = 0; /* keys of the sections before */

    for (struct place at = {.file = 0}; next_section(share, &at);) {
        struct tc_ini_section *section = at.section;
        size_t count = section->key_count, k = 0;
        for (; k < count; k++) {
            const struct tc_ini_key *key = &section->keys[k],
                                    *first = tc_value_set_first(&piece->values, before + k);
            if (!first || (first != key && !put_value(at.ini, key, first->value)))
                break;
        }
        before += count;
        if (k == count)
            continue;
        /* The scan passed on nothing that iniparser cannot read: it drops without a word what it lacks memory
         * for. */
        tc_faults_error(&share->faults, (struct tc_place){at.ini->file, section->line, section->name, NULL},
                        "the section could not be read: %s",
                        piece->said[0] == '\0' ? "out of memory" : piece->said);
        section->bad = true;
        section->key_count = k;
    }
}

static void read_share(void *context, int index, struct tc_parallel *parallel)
{
    struct share *share = (struct share *)context + index;
    struct piece piece = {.text = TC_TEXT_EMPTY};

    (void)parallel;
    count_reader(1);
    piece.scratch = open_scratch();
    share->status = piece.scratch.file < 0                 ? TC_IO
                    : !gather_values(share, &piece.values) ? TC_NO_MEMORY
                                                           : read_values(&piece);
    share->error = errno;
    if (share->status == TC_OK)
        hand_out_values(share, &piece);
    close_scratch(&piece.scratch);
    tc_value_set_free(&piece.values);
    tc_text_free(&piece.text);
    count_reader(-1);
}

/* Nothing of the files can be used, for a reason that is none of theirs and is told once. */
static void give_up(struct tc_ini *const files[], size_t count, const char *why, struct tc_faults *faults)
{
    tc_faults_error(faults, (struct tc_place){count == 1 ? files[0]->file : "profiles", 0, NULL, NULL}, "%s",
                    why);
    for (size_t f = 0; f < count; f++) {
        for (size_t s = 0; s < files[f]->section_count; s++) {
            files[f]->sections[s].bad = true;
            files[f]->sections[s].key_count = 0;
        }
    }
}

enum tc_status tc_ini_values(struct tc_ini *const files[], size_t count, struct tc_faults *faults)
{
    struct share shares[TC_THREADS_MOST];
    enum tc_status status = TC_OK;
    size_t keys = 0;
    char why[160] = "out of memory: not used";

    for (size_t f = 0; f < count; f++)
        keys += files[f]->key_count;
    if (keys == 0)
        return TC_OK;
    int most = tc_parallel_processors(), threads = (int)(keys / KEYS_OF_A_THREAD) + 1;
    if (threads > most)
        threads = most;
    for (int i = 0; i < threads; i++)
        shares[i] = (struct share){.files = files,
                                   .file_count = count,
                                   .from = keys * (size_t)i / (size_t)threads,
                                   .to = keys * (size_t)(i + 1) / (size_t)threads,
                                   .faults = TC_FAULTS_EMPTY};
    tc_parallel_run(threads, threads, read_share, shares, NULL, NULL);
    for (int i = 0; i < threads; i++) {
        tc_faults_move(faults, &shares[i].faults);
        if (status == TC_OK && shares[i].status == TC_IO)
            snprintf(why, sizeof why, "could not be read: a temporary file could not be written: %s",
                     strerror(shares[i].error));
        if (status == TC_OK)
            status = shares[i].status;
    }
    if (status != TC_OK)
        give_up(files, count, why, faults);
    return status;
}
