/* SPDX-License-Identifier: MIT */
#include "profile/plan_save.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"
#include "profile/ini.h"
#include "profile/ini_write.h"
#include "profile/plan_keys.h"
#include "profile/comments.h"
#include "profile/save.h"
#include "profile/section.h"

static const char head[] =
    "# A plan of tankcost. What is not written here is as in tankcost-profiles(5).\n\n";

/* --------------------------------------------------------------------- sections */

/* The lines of a section, before they are set out under each other. */
struct lines {
    int count;
    const char *key[TC_ENTRY_KEYS_MAX];
    char value[TC_ENTRY_KEYS_MAX][TC_VALUE_SIZE];
};

static void write_lines(const struct lines *lines, struct tc_text *text)
{
    size_t widest = 0;
    for (int i = 0; i < lines->count; i++)
        if (strlen(lines->key[i]) > widest)
            widest = strlen(lines->key[i]);
    for (int i = 0; i < lines->count; i++) {
        tc_text_addf(text, "%-*s = ", (int)widest, lines->key[i]);
        /* Every text was checked to be writable when it was set. */
        if (!tc_ini_write_value(text, lines->value[i]) && !text->failed)
            tc_text_add(text, "\"\"");
        tc_text_add_char(text, '\n');
    }
}

static const char *typed_range(const struct tc_plan *plan, const char *group, const char *key)
{
    char path[2 * TC_NAME_SIZE];
    snprintf(path, sizeof path, "%s/%s", group, key);
    for (int i = 0; i < plan->range_count; i++)
        if (strcmp(plan->range[i].path, path) == 0)
            return plan->range[i].value;
    return NULL;
}

/* The keys of a record that are required or differ from the default. */
static void collect(const struct tc_plan *plan, const char *group, const struct tc_key_table *table,
                    const void *record, const void *defaults, struct lines *lines)
{
    lines->count = 0;
    for (size_t i = 0; i < table->count; i++) {
        const struct tc_key *key = &table->keys[i];
        char usual[TC_VALUE_SIZE];
        char *value = lines->value[lines->count];
        const char *range = typed_range(plan, group, key->name);
        tc_key_write(key, record, plan->units, value);
        tc_key_write(key, defaults, plan->units, usual);
        if (range)
            snprintf(value, TC_VALUE_SIZE, "%s", range);
        else if (key->fallback && strcmp(value, usual) == 0)
            continue;
        lines->key[lines->count++] = key->name;
    }
}

static void write_assumptions(const struct tc_plan *plan, const char *kind, const char *shop,
                              struct lines *lines, struct tc_text *text)
{
    lines->count = 0;
    for (int i = 0; i < plan->override_count && lines->count < TC_ENTRY_KEYS_MAX; i++) {
        const struct tc_override *override = &plan->override[i];
        if (strcmp(override->kind, kind) != 0 || strcmp(override->shop, shop) != 0)
            continue;
        lines->key[lines->count] = override->key;
        snprintf(lines->value[lines->count++], TC_VALUE_SIZE, "%s", override->value);
    }
    if (lines->count == 0)
        return;
    tc_text_addf(text, "\n[assume %s%s%s]\n", kind, shop[0] != '\0' ? " " : "", shop);
    write_lines(lines, text);
}

static void write_plan(const struct tc_plan *plan, const struct tc_plan *fresh, struct lines *lines,
                       struct tc_text *text)
{
    tc_text_addf(text, "[plan %s]\n", plan->name);
    collect(plan, "plan", &tc_plan_keys, plan, fresh, lines);
    write_lines(lines, text);
    for (int i = 0; i < plan->candidate_count; i++) {
        struct tc_candidate usual;
        char group[TC_NAME_SIZE];
        snprintf(group, sizeof group, "candidate %d", i + 1);
        tc_key_defaults(&tc_candidate_keys, &usual);
        collect(plan, group, &tc_candidate_keys, &plan->candidate[i], &usual, lines);
        tc_text_addf(text, "\n[%s]\n", group);
        write_lines(lines, text);
    }
    write_assumptions(plan, "setup", "", lines, text);
    write_assumptions(plan, "region", "", lines, text);
    for (int i = 0; i < plan->override_count; i++) {
        const char *shop = plan->override[i].shop; /* those of one shop stand together */
        if (shop[0] != '\0' && (i == 0 || strcmp(shop, plan->override[i - 1].shop) != 0))
            write_assumptions(plan, "shop", shop, lines, text);
    }
    collect(plan, "wall", &tc_wall_keys, &plan->wall, &fresh->wall, lines);
    if (lines->count > 0) {
        tc_text_add(text, "\n[wall]\n");
        write_lines(lines, text);
    }
    collect(plan, "space", &tc_space_keys, &plan->space, &fresh->space, lines);
    if (lines->count > 0) {
        tc_text_add(text, "\n[space]\n");
        write_lines(lines, text);
    }
}

/* The plan's sections without a head, to be freed; NULL if out of memory. */
static char *write_sections(const struct tc_plan *plan)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_plan *fresh = malloc(sizeof *fresh);
    struct lines *lines = malloc(sizeof *lines);
    char *written = NULL;
    if (fresh && lines) {
        tc_plan_start(fresh);
        write_plan(plan, fresh, lines, &text);
        written = tc_text_take(&text);
    }
    free(fresh);
    free(lines);
    return written;
}

/* Bytes before the first section: comments, and keys that belong nowhere but are not ours to drop. */
static size_t head_length(const char *text)
{
    size_t length = 0;
    while (text[length] != '\0' && text[length + strspn(text + length, " \t")] != '[') {
        length += strcspn(text + length, "\n");
        length += text[length] == '\n';
    }
    return length;
}

/* The plan's text, with the comments of the text that it takes the place of. */
static char *write_over(const struct tc_plan *plan, const char *old)
{
    struct tc_text text = TC_TEXT_EMPTY;
    size_t length = head_length(old);
    char *sections = write_sections(plan);
    tc_text_add_bytes(&text, old, length);
    if (length == 0)
        tc_text_add(&text, head);
    else if (old[length - 1] != '\n')
        tc_text_add_char(&text, '\n');
    if (sections)
        tc_comments_carry(&text, old, sections);
    else
        text.failed = true;
    free(sections);
    return tc_text_take(&text);
}

char *tc_plan_write(const struct tc_plan *plan)
{
    return write_over(plan, "");
}

/* ------------------------------------------------------------------------ files */

/* Whether the plan could be read again; a fault says why not. */
static bool savable(const struct tc_plan *plan, const char *path, struct tc_faults *faults)
{
    struct tc_place place = {path, 0, NULL, NULL};
    const char *lacks = NULL;
    if (!tc_name_valid(plan->name) || tc_section_reserved("plan", plan->name))
        lacks = "a name of its own";
    else if (plan->setup[0] == '\0')
        lacks = "a setup";
    else if (plan->region[0] == '\0')
        lacks = "a region";
    if (lacks)
        tc_faults_error(faults, place, "not saved: the plan needs %s", lacks);
    for (int i = 0; i < plan->candidate_count && !lacks; i++) {
        if (plan->candidate[i].tank[0] != '\0')
            continue;
        tc_faults_error(faults, place, "not saved: candidate %d needs a tank", i + 1);
        lacks = "a tank";
    }
    return !lacks;
}

/* Whether a section may stand in a plan's file, and so is written again. */
static bool is_of_plan(const char *section)
{
    return strncmp(section, "plan ", 5) == 0 || strncmp(section, "candidate ", 10) == 0 ||
           strncmp(section, "assume ", 7) == 0 || strcmp(section, "wall") == 0 ||
           strcmp(section, "space") == 0;
}

/* Whether the file that is there holds a plan or nothing: what else it held would be lost. */
static enum tc_status check_old(const char *path, const struct tc_text *old, struct tc_faults *faults)
{
    struct tc_faults ignored = TC_FAULTS_EMPTY;
    struct tc_ini ini = TC_INI_EMPTY;
    struct tc_place place = {path, 0, NULL, NULL};
    enum tc_status status = tc_ini_read_bytes(path, tc_text_string(old), old->length, &ini, &ignored);
    if (status == TC_SYNTAX)
        tc_faults_error(faults, place, "not saved: the file that is there is no profile and would be lost");
    else if (status == TC_IO)
        tc_faults_error(faults, place, "not saved: the file that is there could not be read");
    for (size_t i = 0; i < ini.section_count && status == TC_OK; i++) {
        if (is_of_plan(ini.sections[i].name))
            continue;
        place.line = ini.sections[i].line;
        tc_faults_error(faults, place,
                        "not saved: the file holds '[%s]' beside a plan, which would be lost; "
                        "choose another name",
                        ini.sections[i].name);
        status = TC_SYNTAX;
    }
    tc_ini_free(&ini);
    tc_faults_free(&ignored);
    return status;
}

/* The text less a mark of its encoding. */
static const char *without_mark(const struct tc_text *text)
{
    static const char mark[] = "\xEF\xBB\xBF";
    const char *string = tc_text_string(text);
    return strncmp(string, mark, 3) == 0 ? string + 3 : string;
}

enum tc_status tc_plan_save(const struct tc_plan *plan, const char *path, struct tc_faults *faults)
{
    if (!savable(plan, path, faults))
        return TC_SYNTAX;
    bool there;
    struct tc_text old = TC_TEXT_EMPTY;
    enum tc_status status = tc_load(path, &old, &there, faults);
    if (status == TC_OK && there)
        status = check_old(path, &old, faults);
    if (status == TC_OK) {
        char *written = write_over(plan, without_mark(&old));
        status = written ? tc_save(path, written, strlen(written), faults) : TC_NO_MEMORY;
        free(written);
    }
    if (status == TC_NO_MEMORY)
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "not saved: out of memory");
    tc_text_free(&old);
    return status;
}
