/* SPDX-License-Identifier: MIT */
#include "profile/comments.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/name.h"
#include "profile/ini.h"
#include "profile/ini_value.h"

enum kind { BLANK, COMMENT, SECTION, KEY };

enum { NOWHERE = -1 };

struct line {
    const char *start;
    size_t length; /* without its end, and without the comment beside */
    enum kind kind;
    int section; /* NOWHERE before the first one */
    char key[TC_NAME_SIZE];
    const char *beside; /* the comment behind a section or key, NULL where there is none */
    size_t beside_length;
    int anchor;  /* of a comment: the line it stands above, or NOWHERE */
    bool placed; /* of a comment, or one beside: it is in the fresh text */
};

/* What a section is about, by which it is known again. */
struct section {
    char id[TC_INI_SECTION_MAX + 1];
};

struct listing {
    struct line *lines;
    struct section *sections;
    int line_count, section_count;
};

/* ----------------------------------------------------------------------- reading */

static bool blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

/* The words of [start, end), folded and without quotes, one blank between them, as far as there is room. */
static void fold(char *folded, size_t size, const char *start, const char *end)
{
    size_t length = 0;
    for (; start < end && length + 1 < size; start++) {
        if (*start == '"' || *start == '\'')
            continue;
        if (!blank(*start))
            folded[length++] = tc_name_lower(*start);
        else if (length > 0 && folded[length - 1] != ' ')
            folded[length++] = ' ';
    }
    while (length > 0 && folded[length - 1] == ' ')
        length--;
    folded[length] = '\0';
}

/* Parts the comment beside off: it starts at mark, or is not there. */
static void part_off(struct line *line, const char *mark)
{
    const char *end = line->start + line->length;
    if (!mark || mark >= end)
        return;
    line->beside = mark;
    line->beside_length = (size_t)(end - mark);
    line->length = (size_t)(mark - line->start);
}

/* A line that opens a section, from its '[' on. */
static void read_head(struct listing *listing, struct line *line, const char *p, const char *end)
{
    const char *close = memchr(p, ']', (size_t)(end - p));
    struct section *section = &listing->sections[listing->section_count];
    line->kind = SECTION;
    line->section = listing->section_count++;
    fold(section->id, sizeof section->id, p + 1, close ? close : end);
    const char *mark = close ? close + 1 : end;
    while (mark < end && *mark != '#' && *mark != ';')
        mark++;
    part_off(line, mark);
}

/* A line with its end cut off, as what it is. */
static void read_line(struct listing *listing, struct line *line)
{
    const char *p = line->start, *end = p + line->length;
    while (end > p && blank(end[-1]))
        end--;
    line->length = (size_t)(end - p);
    line->section = listing->section_count - 1;
    line->anchor = NOWHERE;
    while (p < end && blank(*p))
        p++;
    if (p == end) {
        line->kind = BLANK;
    } else if (*p == '#' || *p == ';') {
        line->kind = COMMENT;
    } else if (*p == '[') {
        read_head(listing, line, p, end);
    } else {
        const char *equals = memchr(p, '=', (size_t)(end - p));
        line->kind = KEY;
        fold(line->key, sizeof line->key, p, equals ? equals : end);
        if (equals)
            part_off(line, tc_ini_comment(equals + 1, (size_t)(end - equals - 1)));
    }
}

/* Each comment belongs to the next line that is none. */
static void anchor_comments(struct listing *listing)
{
    int below = NOWHERE;
    for (int i = listing->line_count - 1; i >= 0; i--) {
        struct line *line = &listing->lines[i];
        if (line->kind == COMMENT)
            line->anchor = below;
        else if (line->kind != BLANK)
            below = i;
    }
}

static bool begins(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

/* A plan is one whatever its name; a candidate is its tank, the first or a further one of that name. */
static void identify(struct listing *listing, int s)
{
    struct section *section = &listing->sections[s];
    if (begins(section->id, "plan "))
        section->id[4] = '\0';
    if (!begins(section->id, "candidate "))
        return;
    char tank[TC_NAME_SIZE] = "";
    for (int i = 0; i < listing->line_count; i++) {
        const struct line *line = &listing->lines[i];
        const char *equals = line->section == s && line->kind == KEY && strcmp(line->key, "tank") == 0
                                 ? memchr(line->start, '=', line->length)
                                 : NULL;
        if (equals)
            fold(tank, sizeof tank, equals + 1, line->start + line->length);
    }
    int before = 0;
    snprintf(section->id, sizeof section->id, "candidate of %s", tank);
    size_t length = strlen(section->id);
    for (int other = 0; other < s; other++)
        before += strncmp(listing->sections[other].id, section->id, length) == 0 &&
                  listing->sections[other].id[length] == ' ';
    snprintf(section->id + length, sizeof section->id - length, " %d", before);
}

/* Takes a text apart; false if out of memory. */
static bool read_listing(struct listing *listing, const char *text)
{
    size_t count = 1, sections = 0;
    for (const char *c = text; *c != '\0'; c++) {
        count += *c == '\n';
        sections += *c == '[';
    }
    *listing = (struct listing){calloc(count, sizeof *listing->lines),
                                calloc(sections + 1, sizeof *listing->sections), 0, 0};
    if (!listing->lines || !listing->sections)
        return false;
    while (*text != '\0') {
        struct line *line = &listing->lines[listing->line_count++];
        line->start = text;
        line->length = strcspn(text, "\n");
        text += line->length;
        text += *text == '\n';
        read_line(listing, line);
    }
    anchor_comments(listing);
    for (int s = 0; s < listing->section_count; s++)
        identify(listing, s);
    return true;
}

static void free_listing(struct listing *listing)
{
    free(listing->lines);
    free(listing->sections);
}

/* ----------------------------------------------------------------------- writing */

static void add_line(struct tc_text *text, const char *start, size_t length)
{
    tc_text_add_bytes(text, start, length);
    tc_text_add_char(text, '\n');
}

/* A comment in the form that is one behind any value: its marks, and a blank. */
static void add_beside(struct tc_text *text, const char *comment, size_t length)
{
    size_t marks = 1;
    while (marks < length && comment[marks] == comment[0])
        marks++;
    tc_text_add_bytes(text, comment, marks);
    if (marks < length && !blank(comment[marks]))
        tc_text_add_char(text, ' ');
    tc_text_add_bytes(text, comment + marks, length - marks);
    tc_text_add_char(text, '\n');
}

/* The line of old that a fresh one takes the place of, or NOWHERE. */
static int find_old(const struct listing *old, const struct listing *fresh, const struct line *line)
{
    for (int i = 0; i < old->line_count; i++) {
        const struct line *other = &old->lines[i];
        if (other->kind == line->kind && other->section >= 0 && strcmp(other->key, line->key) == 0 &&
            strcmp(old->sections[other->section].id, fresh->sections[line->section].id) == 0)
            return i;
    }
    return NOWHERE;
}

/* A fresh line, under and before the comments of the one it takes the place of. */
static void add_commented(struct tc_text *text, struct listing *old, int place, const struct line *line)
{
    struct line *before = &old->lines[place];
    for (int i = 0; i < place; i++) {
        if (old->lines[i].anchor != place || old->lines[i].section < 0)
            continue; /* of another line, or the head */
        add_line(text, old->lines[i].start, old->lines[i].length);
        old->lines[i].placed = true;
    }
    if (!before->beside || before->placed) {
        add_line(text, line->start, line->length);
        return;
    }
    before->placed = true;
    if (line->length + before->beside_length + 3 > TC_INI_LINE_MAX) {
        add_beside(text, before->beside, before->beside_length); /* above: a line has its bounds */
        add_line(text, line->start, line->length);
    } else {
        tc_text_add_bytes(text, line->start, line->length);
        tc_text_add(text, "  ");
        add_beside(text, before->beside, before->beside_length);
    }
}

/* What is not placed yet of the comments in sections like this one; of all where id is NULL. */
static void add_rest(struct tc_text *text, struct listing *old, const char *id)
{
    for (int i = 0; i < old->line_count; i++) {
        struct line *line = &old->lines[i];
        if (line->placed || line->section < 0 || (line->kind != COMMENT && !line->beside) ||
            (id && strcmp(old->sections[line->section].id, id) != 0))
            continue;
        /* One above a section's head is that section's. */
        if (id && line->kind == COMMENT && line->anchor >= 0 && old->lines[line->anchor].kind == SECTION)
            continue;
        if (line->kind == COMMENT)
            add_line(text, line->start, line->length);
        else
            add_beside(text, line->beside, line->beside_length);
        line->placed = true;
    }
}

static void write_carried(struct tc_text *text, struct listing *old, const struct listing *fresh)
{
    for (int i = 0; i < fresh->line_count; i++) {
        const struct line *line = &fresh->lines[i];
        int place = line->kind == SECTION || line->kind == KEY ? find_old(old, fresh, line) : NOWHERE;
        if (place == NOWHERE)
            add_line(text, line->start, line->length);
        else
            add_commented(text, old, place, line);
        bool last = i + 1 == fresh->line_count || fresh->lines[i + 1].kind == BLANK ||
                    fresh->lines[i + 1].kind == SECTION;
        if (last && line->section >= 0 && line->kind != BLANK)
            add_rest(text, old, fresh->sections[line->section].id);
    }
    add_rest(text, old, NULL);
}

void tc_comments_carry(struct tc_text *text, const char *old, const char *fresh)
{
    struct listing before = {NULL, NULL, 0, 0}, now = {NULL, NULL, 0, 0};
    if (read_listing(&before, old) && read_listing(&now, fresh))
        write_carried(text, &before, &now);
    else
        text->failed = true;
    free_listing(&before);
    free_listing(&now);
}
