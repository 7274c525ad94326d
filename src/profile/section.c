/* SPDX-License-Identifier: MIT */
#include "profile/section.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "core/base/grow.h"
#include "core/base/number.h"
#include "core/base/parallel.h"
#include "profile/ini_values.h"
#include "profile/kind.h"
#include "profile/save.h"

/* Words that mean something where the name of an item is expected. */
static const char *const reserved[] = {"none", "any", "all", "list", "best", "order", "plan", "unnamed"};

bool tc_section_reserved(const char *kind, const char *name)
{
    for (size_t i = 0; i < sizeof reserved / sizeof reserved[0]; i++)
        if (strcmp(reserved[i], name) == 0)
            return true;
    return strcmp(kind, "shop") == 0 && (strcmp(name, "one") == 0 || strcmp(name, "several") == 0);
}

/* ------------------------------------------------------------------------ index */

static uint32_t hash_of(const char *kind, const char *name)
{
    return tc_index_hash(tc_index_hash(TC_INDEX_HASH, kind), name);
}

static struct tc_index_entry *find_entry(const struct tc_sections *sections, const char *kind,
                                         const char *name)
{
    struct tc_index_entry *entry = NULL;
    uint32_t hash = hash_of(kind, name);
    while ((entry = tc_index_next(&sections->index, hash, entry))) {
        const struct tc_section *section = sections->items[entry->place];
        if (strcmp(section->name, name) == 0 && strcmp(section->kind, kind) == 0)
            break;
    }
    return entry;
}

const struct tc_section *tc_sections_find(const struct tc_sections *sections, const char *kind,
                                          const char *name)
{
    const struct tc_index_entry *entry = find_entry(sections, kind, name);
    return entry ? sections->items[entry->place] : NULL;
}

struct tc_place tc_section_place(const struct tc_sections *sections, const struct tc_section *section,
                                 const struct tc_ini_key *key)
{
    return (struct tc_place){sections->files[section->file].ini.file, key ? key->line : section->ini->line,
                             section->ini->name, key ? key->name : NULL};
}

/* ------------------------------------------------------------------------ heads */

static const char *kind_at(const void *context, size_t i)
{
    (void)context;
    return tc_kind_at(i)->name;
}

static size_t kind_count(void)
{
    size_t count = 0;
    while (tc_kind_at(count))
        count++;
    return count;
}

/* A section whose head is being read. */
struct reader {
    struct tc_sections *sections;
    struct tc_faults *faults;
    struct tc_section *section;
    char words[3][TC_NAME_SIZE]; /* of the head */
    int word_count;              /* also those beyond the third */
};

static struct tc_place here(const struct reader *reader)
{
    return tc_section_place(reader->sections, reader->section, NULL);
}

/* The head's words; those of a valid section are names (see ini.h). */
static void split_head(struct reader *reader)
{
    const char *p = reader->section->ini->name;
    reader->word_count = 0;
    while (*p != '\0') {
        size_t length = strcspn(p, " ");
        if (reader->word_count < 3 && length < TC_NAME_SIZE) {
            memcpy(reader->words[reader->word_count], p, length);
            reader->words[reader->word_count][length] = '\0';
        }
        reader->word_count++;
        p += length + (p[length] == ' ');
    }
}

static bool wrong_head(const struct reader *reader, const char *form)
{
    tc_faults_error(reader->faults, here(reader), "write the section's head like '[%s]'", form);
    return false;
}

static bool read_item_head(struct reader *reader)
{
    if (reader->word_count != 2) {
        struct tc_text joined = TC_TEXT_EMPTY;
        tc_text_add(&joined, reader->words[0]);
        for (int i = 1; i < reader->word_count && i < 3; i++)
            tc_text_addf(&joined, "%s%s", i == 1 ? " " : "-", reader->words[i]);
        if (reader->word_count == 1)
            tc_faults_error(reader->faults, here(reader), "the section has no name; write '[%s NAME]'",
                            reader->words[0]);
        else
            tc_faults_error(reader->faults, here(reader), "a name is one word; write '[%s]'",
                            tc_text_string(&joined));
        tc_text_free(&joined);
        return false;
    }
    if (tc_section_reserved(reader->words[0], reader->words[1])) {
        tc_faults_error(reader->faults, here(reader), "'%s' has a meaning of its own and cannot be a name",
                        reader->words[1]);
        return false;
    }
    memcpy(reader->section->name, reader->words[1], TC_NAME_SIZE);
    return true;
}

/* The kinds that have prices; NULL for others. */
static const char *priced_at(const void *context, size_t i)
{
    (void)context;
    return tc_kind_is_goods(tc_kind_at(i)) ? tc_kind_at(i)->name : NULL;
}

static bool read_prices_head(struct reader *reader)
{
    if (reader->word_count != 3)
        return wrong_head(reader, "prices SHOP tank");
    const struct tc_kind *kind = tc_kind_find(reader->words[2]), *first = tc_kind_find(reader->words[1]);
    if ((!kind || !tc_kind_is_goods(kind)) && first && tc_kind_is_goods(first)) {
        tc_faults_error(reader->faults, here(reader), "the shop comes first; write '[prices %s %s]'",
                        reader->words[2], reader->words[1]);
        return false;
    }
    if (!kind || !tc_kind_is_goods(kind)) {
        const char *nearest = tc_name_nearest(reader->words[2], priced_at, NULL, kind_count());
        struct tc_text all = TC_TEXT_EMPTY;
        tc_kind_list(&all, true, "or");
        if (nearest)
            tc_faults_error(reader->faults, here(reader),
                            "'%s' has no prices; did you mean '[prices %s %s]'?", reader->words[2],
                            reader->words[1], nearest);
        else
            tc_faults_error(reader->faults, here(reader),
                            "'%s' has no prices; write %s, like '[prices %s tank]'", reader->words[2],
                            tc_text_string(&all), reader->words[1]);
        tc_text_free(&all);
        return false;
    }
    memcpy(reader->section->name, reader->words[1], TC_NAME_SIZE);
    memcpy(reader->section->detail, reader->words[2], TC_NAME_SIZE);
    return true;
}

static bool read_candidate_head(struct reader *reader)
{
    const char *end;
    int number;
    if (reader->word_count != 2 || tc_number_read_count(reader->words[1], &end, &number) != TC_OK ||
        *end != '\0' || number < 1)
        return wrong_head(reader, "candidate 1");
    if (number > TC_CANDIDATES_MAX) {
        tc_faults_error(reader->faults, here(reader), "a plan has at most %d candidates", TC_CANDIDATES_MAX);
        return false;
    }
    reader->section->number = number;
    return true;
}

/* "[assume setup]", "[assume region]", "[assume shop lowmere-shop]" */
static bool read_assume_head(struct reader *reader)
{
    const char *what = reader->word_count > 1 ? reader->words[1] : "";
    bool shop = strcmp(what, "shop") == 0;
    if (reader->word_count == 2 && strcmp(what, "kit") == 0) {
        tc_faults_error(reader->faults, here(reader), "a kit is called a setup; write '[assume setup]'");
        return false;
    }
    if (reader->word_count != (shop ? 3 : 2) ||
        (!shop && strcmp(what, "setup") != 0 && strcmp(what, "region") != 0))
        return wrong_head(reader, "assume setup]', '[assume region]' or '[assume shop NAME");
    memcpy(reader->section->name, what, TC_NAME_SIZE);
    if (shop)
        memcpy(reader->section->detail, reader->words[2], TC_NAME_SIZE);
    return true;
}

static void unknown_kind(const struct reader *reader)
{
    const char *nearest = tc_name_nearest(reader->words[0], kind_at, NULL, kind_count());
    struct tc_text all = TC_TEXT_EMPTY;
    tc_kind_list(&all, false, "or");
    if (strcmp(reader->words[0], "kit") == 0)
        tc_faults_error(reader->faults, here(reader), "a kit is called a setup; write '[setup %s]'",
                        reader->word_count > 1 ? reader->words[1] : "NAME");
    else if (nearest)
        tc_faults_error(reader->faults, here(reader), "unknown kind of section '%s'; did you mean '%s'?",
                        reader->words[0], nearest);
    else
        tc_faults_error(reader->faults, here(reader), "unknown kind of section '%s'; write %s",
                        reader->words[0], tc_text_string(&all));
    tc_text_free(&all);
}

static bool read_head(struct reader *reader, enum tc_head *head)
{
    split_head(reader);
    const struct tc_kind *kind = tc_kind_find(reader->words[0]);
    if (!kind) {
        unknown_kind(reader);
        return false;
    }
    *head = kind->head;
    memcpy(reader->section->kind, reader->words[0], TC_NAME_SIZE);
    switch (*head) {
    case TC_HEAD_ITEM:
    case TC_HEAD_PLAN: return read_item_head(reader);
    case TC_HEAD_PRICES: return read_prices_head(reader);
    case TC_HEAD_CANDIDATE: return read_candidate_head(reader);
    case TC_HEAD_ASSUME: return read_assume_head(reader);
    case TC_HEAD_ALONE: return reader->word_count == 1 || wrong_head(reader, reader->section->kind);
    }
    return false;
}

/* ---------------------------------------------------------------------- sections */

/* Enters the item's section, which is the last, into the index; what was there before is replaced, or both
 * are bad. */
static enum tc_status enter(struct reader *reader)
{
    struct tc_sections *sections = reader->sections;
    struct tc_section *section = reader->section;
    size_t last = sections->count - 1;
    struct tc_index_entry *entry = find_entry(sections, section->kind, section->name);
    if (!entry)
        return tc_index_add(&sections->index, hash_of(section->kind, section->name), last) ? TC_OK
                                                                                           : TC_NO_MEMORY;
    struct tc_section *before = sections->items[entry->place];
    if (sections->files[before->file].layer == sections->layer) {
        struct tc_place place = tc_section_place(sections, before, NULL);
        if (before->file != section->file) /* else the reader of the file has said so */
            tc_faults_error(reader->faults, here(reader),
                            "the section is there already, in %s:%d; neither is used: rename or remove one",
                            place.file, place.line);
        before->bad = section->bad = true;
    }
    before->replaced = true;
    entry->place = (uint32_t)last;
    return TC_OK;
}

/* Makes a section of the collection from one of the last file; *plan is the file's plan so far. */
static enum tc_status add_section(struct tc_sections *sections, const struct tc_ini_section *ini,
                                  struct tc_section **plan, struct tc_faults *faults)
{
    struct tc_section **items =
        tc_grow(sections->items, sections->count, &sections->capacity, sizeof(struct tc_section *));
    struct tc_section *section = items ? calloc(1, sizeof *section) : NULL;
    if (items)
        sections->items = items;
    if (!section)
        return TC_NO_MEMORY;
    sections->items[sections->count++] = section;
    section->file = sections->file_count - 1;
    section->ini = ini;
    section->bad = ini->bad;

    struct reader reader = {.sections = sections, .faults = faults, .section = section};
    enum tc_head head;
    if (ini->name[0] == '\0' || !read_head(&reader, &head)) {
        section->bad = true;
        section->kind[0] = '\0'; /* of no kind: nobody will ask for it */
        return TC_OK;
    }
    if (head == TC_HEAD_PLAN && *plan) {
        tc_faults_error(
            faults, here(&reader),
            "a file holds one plan, and there is one in line %d; neither is used: put one into a file of "
            "its own",
            (*plan)->ini->line);
        (*plan)->bad = section->bad = true;
    } else if (head == TC_HEAD_PLAN) {
        *plan = section;
    }
    return head == TC_HEAD_ITEM || head == TC_HEAD_PLAN ? enter(&reader) : TC_OK;
}

/* Sections that belong to a plan have to have one in their file. */
static void check_plan(struct tc_sections *sections, size_t first, struct tc_faults *faults)
{
    for (size_t i = first; i < sections->count; i++) {
        struct tc_section *section = sections->items[i];
        if (strcmp(section->kind, "candidate") != 0 && strcmp(section->kind, "assume") != 0 &&
            strcmp(section->kind, "wall") != 0 && strcmp(section->kind, "space") != 0)
            continue;
        tc_faults_error(faults, tc_section_place(sections, section, NULL),
                        "the section belongs to a plan, but this file has none; add '[plan NAME]'");
        section->bad = true;
    }
}

/* Sorts in the sections of the file read last. */
static enum tc_status add_file(struct tc_sections *sections, struct tc_faults *faults)
{
    const struct tc_section_file *file = &sections->files[sections->file_count - 1];
    struct tc_section *plan = NULL;
    size_t first = sections->count;
    for (size_t i = 0; i < file->ini.section_count; i++) {
        enum tc_status status = add_section(sections, &file->ini.sections[i], &plan, faults);
        if (status != TC_OK)
            return status;
    }
    if (!plan)
        check_plan(sections, first, faults);
    return TC_OK;
}

/* Room for one more file; NULL if out of memory. */
static struct tc_section_file *next_file(struct tc_sections *sections)
{
    struct tc_section_file *files =
        tc_grow(sections->files, sections->file_count, &sections->file_capacity, sizeof *files);
    if (!files)
        return NULL;
    sections->files = files;
    struct tc_section_file *file = &sections->files[sections->file_count];
    file->layer = sections->layer;
    return file;
}

/* Keeps what was read into the next file, or not. */
static enum tc_status take_file(struct tc_sections *sections, struct tc_section_file *file,
                                enum tc_status status, struct tc_faults *faults)
{
    if (status != TC_OK) {
        tc_ini_free(&file->ini);
        return status == TC_NO_MEMORY ? status : TC_OK;
    }
    sections->file_count++;
    return add_file(sections, faults);
}

/* Files that hold so much together are opened on all processors. */
enum { BYTES_OF_A_THREAD = 128 * 1024 };

/* A file that was opened, before it is sorted in. */
struct opened {
    const char *path;
    struct tc_ini ini;
    struct tc_faults faults;
    enum tc_status status;
};

static void open_one(void *context, int index, struct tc_parallel *parallel)
{
    struct opened *opened = (struct opened *)context + index;
    (void)parallel;
    opened->status = tc_ini_open(opened->path, &opened->ini, &opened->faults);
}

static int threads_for(const char *const paths[], size_t count)
{
    struct stat about;
    size_t bytes = 0;
    for (size_t i = 0; i < count; i++)
        bytes += stat(paths[i], &about) == 0 && about.st_size > 0 ? (size_t)about.st_size : 0;
    return bytes > BYTES_OF_A_THREAD ? tc_parallel_processors() : 1;
}

/* Sorts an opened file in, or frees it. */
static enum tc_status take_opened(struct tc_sections *sections, struct opened *opened, enum tc_status status,
                                  struct tc_faults *faults)
{
    struct tc_section_file *file = status == TC_OK ? next_file(sections) : NULL;
    tc_faults_move(faults, &opened->faults);
    if (file) {
        file->ini = opened->ini;
        return take_file(sections, file, opened->status, faults);
    }
    tc_ini_free(&opened->ini);
    return status == TC_OK ? TC_NO_MEMORY : status;
}

enum tc_status tc_sections_add_all(struct tc_sections *sections, const char *const paths[], size_t count,
                                   struct tc_faults *faults)
{
    struct opened *opened = calloc(count > 0 ? count : 1, sizeof *opened);
    enum tc_status status = TC_OK;
    if (!opened)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        opened[i].path = paths[i];
    tc_parallel_run(threads_for(paths, count), (int)count, open_one, opened, NULL, NULL);
    for (size_t i = 0; i < count; i++)
        status = take_opened(sections, &opened[i], status, faults);
    free(opened);
    return status;
}

enum tc_status tc_sections_add(struct tc_sections *sections, const char *path, struct tc_faults *faults)
{
    struct tc_section_file *file = next_file(sections);
    return file ? take_file(sections, file, tc_ini_open(path, &file->ini, faults), faults) : TC_NO_MEMORY;
}

enum tc_status tc_sections_add_bytes(struct tc_sections *sections, const char *name, const char *bytes,
                                     size_t length, struct tc_faults *faults)
{
    struct tc_section_file *file = next_file(sections);
    if (!file)
        return TC_NO_MEMORY;
    return take_file(sections, file, tc_ini_open_bytes(name, bytes, length, &file->ini, faults), faults);
}

enum tc_status tc_sections_values(struct tc_sections *sections, struct tc_faults *faults)
{
    size_t count = sections->file_count - sections->file_read;
    if (count == 0)
        return TC_OK;
    struct tc_ini **files = malloc(count * sizeof(struct tc_ini *));
    if (!files)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        files[i] = &sections->files[sections->file_read + i].ini;
    enum tc_status status = tc_ini_values(files, count, faults);
    free(files);
    sections->file_read = sections->file_count;
    for (size_t i = 0; i < sections->count; i++)
        if (sections->items[i]->ini->bad)
            sections->items[i]->bad = true;
    return status;
}

void tc_sections_next_layer(struct tc_sections *sections)
{
    sections->layer++;
}

struct tc_sections *tc_sections_new(void)
{
    return calloc(1, sizeof(struct tc_sections));
}

void tc_sections_free(struct tc_sections *sections)
{
    if (!sections)
        return;
    tc_index_free(&sections->index);
    for (size_t i = 0; i < sections->count; i++)
        free(sections->items[i]);
    for (size_t i = 0; i < sections->file_count; i++)
        tc_ini_free(&sections->files[i].ini);
    free(sections->items);
    free(sections->files);
    free(sections);
}

/* ------------------------------------------------------------------------ origin */

const char *tc_section_text(const struct tc_section *section, const char *key)
{
    for (size_t i = 0; section && i < section->ini->key_count; i++)
        if (strcmp(section->ini->keys[i].name, key) == 0)
            return section->ini->keys[i].value;
    return NULL;
}

bool tc_section_is_installed(const struct tc_sections *sections, const struct tc_section *section,
                             const char *installed)
{
    return tc_path_lies_in(sections->files[section->file].ini.file, installed);
}

const char *tc_section_whose_of(const struct tc_sections *sections, const struct tc_section *section,
                                const char *installed)
{
    const char *invented = tc_section_text(section, "invented");
    if (!tc_section_is_installed(sections, section, installed))
        return "yours";
    return invented && strcmp(invented, "yes") == 0 ? "invented" : "installed";
}
