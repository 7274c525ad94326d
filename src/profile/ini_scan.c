/* SPDX-License-Identifier: MIT */
#include "profile/ini_scan.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"
#include "core/base/clean.h"
#include "core/base/index.h"
#include "core/base/name.h"
#include "profile/ini_value.h"

/* A scan under way. */
struct scan {
    struct tc_ini *ini;
    struct tc_faults *faults;
    int line;
    bool outside_said;  /* keys before the first section are reported once */
    size_t first_fault; /* number of faults there were before this file */
    struct tc_index section_names;
    struct tc_index key_names; /* of the current section, where it has more keys than FEW_KEYS */
    bool keep_keys;            /* the current section is one whose keys are wanted */
    bool stop;                 /* a limit was passed: the rest is left unread */
    bool no_memory;
};

/* Room for a piece of the file within a message. */
#define SHOWN_SIZE 64

/* A limit as part of a literal text. */
#define FIGURE(macro)    FIGURE_OF(macro)
#define FIGURE_OF(value) #value

/* A clean beginning of text in buffer, for messages. */
static const char *shown(char buffer[SHOWN_SIZE], const char *text)
{
    size_t length = strlen(text);

    if (length >= SHOWN_SIZE) {
        tc_clean(buffer, SHOWN_SIZE - 3, text);
        memcpy(buffer + strlen(buffer), "...", sizeof "...");
    } else {
        tc_clean(buffer, SHOWN_SIZE, text);
    }
    return buffer;
}

static struct tc_ini_section *current_section(struct scan *scan)
{
    struct tc_ini *ini = scan->ini;
    return ini->section_count == 0 ? NULL : &ini->sections[ini->section_count - 1];
}

/* Adds an error at the current line and marks the section it is in as bad. */
static void report(struct scan *scan, const char *key, const char *format, ...) TC_PRINTF(3, 4);
static void report(struct scan *scan, const char *key, const char *format, ...)
{
    struct tc_ini_section *section = current_section(scan);
    struct tc_place place = {scan->ini->file, scan->line, NULL, key};
    va_list arguments;

    if (section != NULL) {
        section->bad = true;
        place.section = section->name[0] == '\0' ? NULL : section->name;
    }
    va_start(arguments, format);
    tc_faults_addv(scan->faults, TC_ERROR, place, format, arguments);
    va_end(arguments);
}

/* Text of the fault when the file has too many entries, and the end of the scan. */
static const char *stop_at_entries(struct scan *scan)
{
    scan->stop = true;
    return "the file has more than " FIGURE(
        TC_INI_ENTRY_MAX) " sections and keys; it is not read from here on: make it two files";
}

static bool full(const struct tc_ini *ini)
{
    return ini->section_count + ini->key_count == TC_INI_ENTRY_MAX;
}

/* The section of that name before the current one; where there is none, the current one is remembered. */
static struct tc_ini_section *section_before(struct scan *scan, const char *name)
{
    struct tc_ini *ini = scan->ini;
    uint32_t hash = tc_index_hash(TC_INDEX_HASH, name);
    const struct tc_index_entry *entry = NULL;

    while ((entry = tc_index_next(&scan->section_names, hash, entry)) != NULL)
        if (tc_name_same(ini->sections[entry->place].name, name))
            return &ini->sections[entry->place];
    if (!tc_index_add(&scan->section_names, hash, ini->section_count))
        scan->no_memory = true;
    return NULL;
}

/* ------------------------------------------------------------------ sections */

/* One blank between words, lower case, in place. Nothing a name cannot hold gets lost. */
static void fold_section_name(char *name)
{
    char *to = name;

    for (const char *from = name; *from != '\0'; from++) {
        if (tc_ini_blank(*from) && (to == name || to[-1] == ' '))
            continue;
        *to++ = tc_ini_blank(*from) ? ' ' : tc_name_lower(*from);
    }
    *to = '\0';
}

/*
 * True if every word of a folded section name is a valid name. If not, better
 * gets the name with its words mended, or is empty if one cannot be. Mending
 * makes no word longer, so better needs the room of name.
 */
static bool section_name_valid(const char *name, char better[TC_INI_SECTION_MAX + 1])
{
    bool valid = true, mendable = true;
    size_t out = 0;

    while (*name != '\0') {
        char word[TC_INI_SECTION_MAX + 1], mended[TC_NAME_SIZE];
        size_t length = strcspn(name, " ");
        memcpy(word, name, length);
        word[length] = '\0';
        name += length + (name[length] == ' ');
        valid = tc_name_valid(word) && valid;
        mendable = tc_name_mend(mended, word) && mendable;
        if (out > 0)
            better[out++] = ' ';
        memcpy(better + out, mended, strlen(mended));
        out += strlen(mended);
    }
    better[mendable ? out : 0] = '\0';
    return valid;
}

/* Checks a section's name and reports what is wrong; true if it is good. */
static bool check_section_name(struct scan *scan, const char *name)
{
    struct tc_place place = {scan->ini->file, scan->line, NULL, NULL};
    char piece[SHOWN_SIZE], better[TC_INI_SECTION_MAX + 1];

    if (name[0] == '\0')
        tc_faults_error(scan->faults, place, "the section has no name; write it between '[' and ']'");
    else if (strlen(name) > TC_INI_SECTION_MAX)
        tc_faults_error(scan->faults, place, "the section's name is longer than %d bytes",
                        TC_INI_SECTION_MAX);
    else if (strchr(name, ':') != NULL)
        tc_faults_error(scan->faults, place, "'[%s]': ':' cannot be in a name; use '-'", shown(piece, name));
    else if (section_name_valid(name, better))
        return true;
    else if (better[0] != '\0')
        tc_faults_error(scan->faults, place, "'[%s]': names are made of %s; write '[%s]'", shown(piece, name),
                        TC_NAME_RULE, better);
    else
        tc_faults_error(scan->faults, place, "'[%s]': names are made of %s", shown(piece, name),
                        TC_NAME_RULE);
    return false;
}

/* A line that starts with '['. Whatever is wrong with it, the keys that follow are not the last section's. */
static void scan_section(struct scan *scan, char *text, const char *problem)
{
    struct tc_ini *ini = scan->ini;
    struct tc_place place = {ini->file, scan->line, NULL, NULL};
    char piece[SHOWN_SIZE];
    char *name = text + 1;
    char *end = strchr(name, ']');
    bool good = false;

    if (full(ini)) {
        tc_faults_error(scan->faults, place, "%s", stop_at_entries(scan));
        return;
    }
    struct tc_ini_section *sections =
        tc_grow(ini->sections, ini->section_count, &ini->section_capacity, sizeof *sections);
    if (!sections) {
        scan->no_memory = true;
        return;
    }
    ini->sections = sections;

    if (problem != NULL) {
        tc_faults_error(scan->faults, place, "%s", problem);
    } else if (end == NULL) {
        tc_faults_error(scan->faults, place, "'%s': the ']' that ends a section's name is missing",
                        shown(piece, text));
    } else if (!tc_ini_only_comment(end + 1)) {
        tc_faults_error(scan->faults, place,
                        "'%s': a section's line ends with its ']'; only a comment may follow",
                        shown(piece, text));
    } else {
        *end = '\0';
        fold_section_name(name);
        name = tc_ini_trim(name);
        good = check_section_name(scan, name);
    }
    if (!good)
        name = "";
    struct tc_ini_section *before = good ? section_before(scan, name) : NULL;
    if (before) {
        before->bad = true;
        place.section = name;
        tc_faults_error(scan->faults, place,
                        "the section is there twice, first in line %d; neither is used: rename or remove one",
                        before->line);
    }
    scan->keep_keys = good && !before;
    ini->sections[ini->section_count++] =
        (struct tc_ini_section){name, scan->line, !scan->keep_keys, NULL, 0};
}

/* ---------------------------------------------------------------------- keys */

/* Checks a key's name and folds it, in place; false if there is something wrong, which is reported. */
static bool check_key_name(struct scan *scan, char *name)
{
    char piece[SHOWN_SIZE], mended[TC_NAME_SIZE];

    for (char *c = name; *c != '\0'; c++)
        *c = tc_name_lower(*c);
    if (tc_name_valid(name))
        return true;
    if (name[0] == '\0')
        report(scan, NULL, "there is no key before the '='");
    else if (strchr(name, ':') != NULL)
        report(scan, shown(piece, name), "':' cannot be in a name; use '-'");
    else if (tc_name_mend(mended, name))
        report(scan, shown(piece, name), "a key is one word of %s; write '%s'", TC_NAME_RULE, mended);
    else
        report(scan, shown(piece, name), "a key is one word of %s", TC_NAME_RULE);
    return false;
}

/* So few keys are faster looked through than kept in an index. */
#define FEW_KEYS 24

/* The key of that name in the current section, or NULL. */
static const struct tc_ini_key *key_before(struct scan *scan, const char *name)
{
    const struct tc_ini *ini = scan->ini;
    size_t count = current_section(scan)->key_count;
    if (count > FEW_KEYS) {
        const struct tc_index_entry *entry = NULL;
        uint32_t hash = tc_index_hash(TC_INDEX_HASH, name);
        while ((entry = tc_index_next(&scan->key_names, hash, entry)) != NULL)
            if (tc_name_same(ini->keys[entry->place].name, name))
                break;
        return entry ? &ini->keys[entry->place] : NULL;
    }
    for (size_t i = ini->key_count - count; i < ini->key_count; i++)
        if (tc_name_same(ini->keys[i].name, name))
            return &ini->keys[i];
    return NULL;
}

/* Notes the name of the key added last; those of all once they are no longer few. */
static void note_key(struct scan *scan)
{
    const struct tc_ini *ini = scan->ini;
    size_t count = current_section(scan)->key_count, first = ini->key_count - 1;
    if (count <= FEW_KEYS)
        return;
    if (count == FEW_KEYS + 1) {
        tc_index_free(&scan->key_names); /* of the section before */
        first = ini->key_count - count;
    }
    for (size_t i = first; i < ini->key_count && !scan->no_memory; i++)
        scan->no_memory = !tc_index_add(&scan->key_names, tc_index_hash(TC_INDEX_HASH, ini->keys[i].name), i);
}

static void add_key(struct scan *scan, char *name, char *value)
{
    struct tc_ini *ini = scan->ini;
    struct tc_ini_section *section = current_section(scan);
    const struct tc_ini_key *before = key_before(scan, name);

    if (before) {
        report(scan, name, "the key is there twice, first in line %d; remove one", before->line);
        return;
    }
    if (section->key_count == TC_INI_KEY_MAX) {
        report(scan, name, "the section has more than %d keys; remove some", TC_INI_KEY_MAX);
        scan->keep_keys = false;
        return;
    }
    if (full(ini)) {
        report(scan, NULL, "%s", stop_at_entries(scan));
        return;
    }
    struct tc_ini_key *keys = tc_grow(ini->keys, ini->key_count, &ini->key_capacity, sizeof *keys);
    if (!keys) {
        scan->no_memory = true;
        return;
    }
    ini->keys = keys;
    ini->keys[ini->key_count++] = (struct tc_ini_key){name, value, scan->line};
    section->key_count++;
    note_key(scan);
}

static void scan_key(struct scan *scan, char *text)
{
    char piece[SHOWN_SIZE];
    char *equals = strchr(text, '=');

    if (equals == NULL) {
        report(scan, NULL,
               strchr(text, ':') == NULL
                   ? "'%s': there is no '='; write 'key = value', '[section]' or '# comment'"
                   : "'%s': there is no '='; write 'key = value', with '=' for ':'",
               shown(piece, text));
        return;
    }
    *equals = '\0';
    char *name = tc_ini_trim(text);
    char *value = tc_ini_trim(equals + 1);
    if (!check_key_name(scan, name))
        return;
    char problem[TC_INI_PROBLEM_SIZE];
    if (!tc_ini_value(value, problem)) {
        report(scan, name, "%s", problem);
        return;
    }
    if (current_section(scan) == NULL) {
        if (!scan->outside_said)
            report(scan, name, "the key stands before the first '[section]'; move it below one");
        scan->outside_said = true;
    } else if (scan->keep_keys) {
        add_key(scan, name, value);
    }
}

/* ---------------------------------------------------------------------- lines */

static void scan_line(struct scan *scan, char *text)
{
    const char *problem = NULL;

    text = tc_ini_trim(text);
    if (strchr(text, '\r') != NULL)
        problem =
            "there is a carriage return within the line; save the file with LF or CRLF at the ends of lines";
    else if (strlen(text) > TC_INI_LINE_MAX && !tc_ini_comment_mark(text[0]))
        problem = "the line is longer than " FIGURE(TC_INI_LINE_MAX) " bytes";

    if (text[0] == '[')
        scan_section(scan, text, problem);
    else if (problem != NULL)
        report(scan, NULL, "%s", problem);
    else if (text[0] != '\0' && !tc_ini_comment_mark(text[0]))
        scan_key(scan, text);

    if (!scan->stop && tc_faults_count(scan->faults) - scan->first_fault >= TC_INI_FAULT_MAX) {
        report(scan, NULL, "there are too many faults; the file is not read from here on");
        scan->stop = true;
    }
}

/* Refuses what is no text at all. Returns where the text starts, or NULL. */
static char *text_start(struct tc_ini *ini, size_t length, struct tc_faults *faults)
{
    struct tc_place place = {ini->file, 0, NULL, NULL};
    char *bytes = ini->bytes;

    if (length >= 2 && (memcmp(bytes, "\xFF\xFE", 2) == 0 || memcmp(bytes, "\xFE\xFF", 2) == 0)) {
        tc_faults_error(faults, place, "the file is UTF-16; save it as UTF-8");
        return NULL;
    }
    const char *nul = memchr(bytes, '\0', length);
    if (nul != NULL) {
        place.line = 1;
        for (const char *c = bytes; c < nul; c++)
            place.line += *c == '\n';
        tc_faults_error(faults, place, "there is a NUL byte: the file is no text, or not saved as UTF-8");
        return NULL;
    }
    return length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? bytes + 3 : bytes;
}

enum tc_status tc_ini_scan(struct tc_ini *ini, size_t length, struct tc_faults *faults)
{
    struct scan scan = {.ini = ini, .faults = faults, .first_fault = tc_faults_count(faults)};
    char *line = text_start(ini, length, faults);
    char *end = ini->bytes + length;

    if (line == NULL)
        return TC_SYNTAX;
    while (line < end && !scan.stop && !scan.no_memory) {
        char *next = memchr(line, '\n', (size_t)(end - line));
        char *stop = next == NULL ? end : next;
        *stop = '\0';
        if (stop > line && stop[-1] == '\r')
            stop[-1] = '\0';
        scan.line++;
        scan_line(&scan, line);
        line = stop + 1;
    }
    tc_index_free(&scan.section_names);
    tc_index_free(&scan.key_names);
    if (scan.no_memory)
        return TC_NO_MEMORY;

    struct tc_ini_key *keys = ini->keys;
    for (size_t i = 0; i < ini->section_count; i++) {
        ini->sections[i].keys = keys;
        if (keys != NULL)
            keys += ini->sections[i].key_count;
    }
    return TC_OK;
}
