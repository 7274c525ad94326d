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

#include "core/base/name.h"
#include "core/base/parallel.h"
#include "core/base/text.h"
#include "profile/save.h"

/*
 * iniparser looks through all it has for every key it adds or finds, which
 * grows with the square of a file. So it is given a large file in pieces of
 * this many entries, for which it has room from the start;
 * that no name is there twice is known from the scan. Small files share a
 * piece, as each costs it a file opened, read and closed.
 */
#define PIECE_ENTRIES 80

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

/* iniparser_load(), with what it would have printed in said (ended, perhaps empty). */
static dictionary *load(const char *path, char said[sizeof complaint])
{
    complaint[0] = '\0';
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

/* Keys of a section whose values iniparser is asked for, and the file it is of. */
struct item {
    struct tc_ini *ini;
    struct tc_ini_section *section;
    size_t first, count; /* of its keys */
};

/* What iniparser is given at a time: sections with keys, or pieces of one, of one file or of several. */
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
        const struct item *item = &piece->items[i];
        const struct tc_ini_key *keys = item->section->keys + item->first;
        tc_text_addf(text, "[%zu]\n", i);
        for (size_t k = 0; k < item->count; k++) {
            tc_text_add(text, keys[k].name);
            tc_text_add_char(text, '=');
            add_value(text, keys[k].value);
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

/* Takes the values of the item with a number; gives how many could be taken. */
static size_t take_section(const struct item *item, size_t number, struct answer *answer)
{
    char name[32 + TC_NAME_SIZE];
    size_t taken = 0, start = (size_t)snprintf(name, sizeof name, "%zu", number);

    entry_value(answer, name);
    for (name[start++] = ':'; taken < item->count; taken++) {
        struct tc_ini_key *key = &item->section->keys[item->first + taken];
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
        if (taken == item->count)
            continue;
        struct tc_place place = {item->ini->file, section->line, section->name, NULL};
        /* The scan passed on nothing that iniparser cannot read: it drops without a word what it lacks memory
         * for. */
        tc_faults_error(faults, place, "the section could not be read: %s",
                        said[0] == '\0' ? "out of memory" : said);
        section->bad = true;
        if (section->key_count > item->first + taken)
            section->key_count = item->first + taken;
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

/* Adds a section to the piece, or to several; those that are full are read. */
static enum tc_status read_section(struct piece *piece, struct tc_ini *ini, struct tc_ini_section *section,
                                   struct tc_faults *faults)
{
    enum tc_status status;
    size_t all = section->key_count;

    for (size_t first = 0, count; first < all; first += count) {
        count = all - first < PIECE_ENTRIES ? all - first : PIECE_ENTRIES - 1;
        if (piece->count > 0 && piece->entries + 1 + count > PIECE_ENTRIES &&
            (status = read_piece(piece, faults)) != TC_OK)
            return status;
        piece->items[piece->count++] = (struct item){ini, section, first, count};
        piece->entries += 1 + count;
    }
    return TC_OK;
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

/* Has iniparser read a share, piece by piece. */
static enum tc_status read_pieces(struct piece *piece, const struct share *share, struct tc_faults *faults)
{
    enum tc_status status = TC_OK;
    size_t before = 0; /* keys of the files before */

    for (size_t f = 0; f < share->file_count && before < share->to; before += share->files[f++]->key_count) {
        struct tc_ini *ini = share->files[f];
        if (before + ini->key_count <= share->from)
            continue;
        for (size_t s = 0; s < ini->section_count && status == TC_OK; s++) {
            struct tc_ini_section *section = &ini->sections[s];
            size_t at = section->key_count > 0 ? before + (size_t)(section->keys - ini->keys) : share->to;
            if (at >= share->from && at < share->to)
                status = read_section(piece, ini, section, faults);
        }
        if (status != TC_OK)
            return status;
    }
    return piece->count > 0 ? read_piece(piece, faults) : TC_OK;
}

static void read_share(void *context, int index, struct tc_parallel *parallel)
{
    struct share *share = (struct share *)context + index;
    struct piece piece = {.text = TC_TEXT_EMPTY};

    (void)parallel;
    count_reader(1);
    piece.scratch = open_scratch();
    share->status = piece.scratch.file < 0 ? TC_IO : read_pieces(&piece, share, &share->faults);
    share->error = errno;
    close_scratch(&piece.scratch);
    tc_text_free(&piece.text);
    count_reader(-1);
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
    struct share shares[TC_THREADS_MOST];
    enum tc_status status = TC_OK;
    size_t keys = 0;
    char why[160] = "out of memory: the file is not used";

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
            snprintf(why, sizeof why, "a temporary file could not be written: %s", strerror(shares[i].error));
        if (status == TC_OK)
            status = shares[i].status;
    }
    if (status != TC_OK)
        give_up(files, count, why, faults);
    return status;
}
