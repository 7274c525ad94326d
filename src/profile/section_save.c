/* SPDX-License-Identifier: MIT */
#include "profile/section_save.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/base/name.h"
#include "core/base/text.h"
#include "profile/ini.h"
#include "profile/ini_value.h"
#include "profile/ini_write.h"
#include "profile/save.h"

/* --------------------------------------------------------------------- lines */

/* A line of the old text, its end apart. */
struct line {
    const char *start, *end; /* end: of what is written on it */
    const char *next;
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

static bool read_line(const char *text, struct line *line)
{
    if (*text == '\0')
        return false;
    size_t length = strcspn(text, "\n");
    line->start = text;
    line->next = text + length + (text[length] == '\n');
    line->end = text + length;
    while (line->end > line->start && is_blank(line->end[-1]))
        line->end--;
    return true;
}

/* What is written on a line begins here. */
static const char *content(const struct line *line)
{
    static const char mark[] = "\xEF\xBB\xBF";
    const char *at = line->start;
    if (strncmp(at, mark, 3) == 0)
        at += 3;
    while (at < line->end && is_blank(*at))
        at++;
    return at;
}

static bool is_head(const struct line *line)
{
    return content(line) < line->end && *content(line) == '[';
}

/* Whether two texts are the same but for case and how many blanks stand between words. */
static bool same_words(const char *a, const char *a_end, const char *b)
{
    while (a < a_end && is_blank(*a))
        a++;
    while (a < a_end && *b != '\0') {
        if (is_blank(*a) && *b == ' ') {
            while (a < a_end && is_blank(*a))
                a++;
            b++;
        } else if (tc_name_lower(*a++) != tc_name_lower(*b++)) {
            return false;
        }
    }
    while (a < a_end && is_blank(*a))
        a++;
    return a == a_end && *b == '\0';
}

static bool is_head_of(const struct line *line, const char *head)
{
    const char *start = content(line) + 1;
    const char *close = is_head(line) ? memchr(start, ']', (size_t)(line->end - start)) : NULL;
    return close && same_words(start, close, head);
}

/* The '=' of a line with a key; NULL on others. */
static const char *equals(const struct line *line)
{
    const char *at = content(line);
    if (at == line->end || tc_ini_comment_mark(*at) || *at == '[')
        return NULL;
    return memchr(at, '=', (size_t)(line->end - at));
}

/* --------------------------------------------------------------------- writing */

struct writer {
    struct tc_text *text;
    const struct tc_section_line *lines;
    size_t count;
    bool *written; /* which of them are */
    bool good;     /* every value could be written */
};

static void write_value(struct writer *writer, const char *value)
{
    if (!tc_ini_write_value(writer->text, value))
        writer->good = false;
}

/* Those that the section did not have yet, set out under each other. */
static void write_new_keys(struct writer *writer)
{
    int widest = 0;
    for (size_t i = 0; i < writer->count; i++)
        if ((int)strlen(writer->lines[i].key) > widest)
            widest = (int)strlen(writer->lines[i].key);
    for (size_t i = 0; i < writer->count; i++) {
        if (writer->written[i])
            continue;
        tc_text_addf(writer->text, "%-*s = ", widest, writer->lines[i].key);
        write_value(writer, writer->lines[i].value);
        tc_text_add_char(writer->text, '\n');
        writer->written[i] = true;
    }
}

/* A line with a key: its value is replaced, what stands before and beside it is not; or it is left out. */
static void write_key(struct writer *writer, const struct line *line, const char *equal)
{
    const char *behind = equal + 1;
    while (behind < line->end && is_blank(*behind))
        behind++;
    for (size_t i = 0; i < writer->count; i++) {
        if (writer->written[i] || !same_words(content(line), equal, writer->lines[i].key))
            continue;
        const char *comment = tc_ini_comment(behind, (size_t)(line->end - behind));
        tc_text_add_bytes(writer->text, line->start, (size_t)(behind - line->start));
        write_value(writer, writer->lines[i].value);
        if (comment) {
            tc_text_add(writer->text, "  ");
            tc_text_add_bytes(writer->text, comment, (size_t)(line->end - comment));
        }
        tc_text_add_bytes(writer->text, line->end, (size_t)(line->next - line->end));
        writer->written[i] = true;
        return;
    }
}

/* Ends the last line of a text that does not end in one. */
static void end_line(struct tc_text *text)
{
    if (text->length > 0 && text->data[text->length - 1] != '\n')
        tc_text_add_char(text, '\n');
}

/* Where the lines of a section end, which begins after `text`: at the next head, less the comments above it.
 */
static const char *end_of_section(const char *text)
{
    struct line line;
    const char *last = text; /* after the last line that is surely the section's */
    for (; read_line(text, &line) && !is_head(&line); text = line.next)
        if (equals(&line))
            last = line.next;
    return *text == '\0' ? text : last;
}

/* The section's lines from after its head to `end`: keys replaced, all else as it is, new keys after the last
 * one. */
static void write_section(struct writer *writer, const char *text, const char *end)
{
    struct line line;
    const char *last = text;
    for (const char *at = text; at < end && read_line(at, &line); at = line.next)
        if (equals(&line))
            last = line.next;
    for (const char *at = text; at < end && read_line(at, &line); at = line.next) {
        if (at == last) {
            end_line(writer->text);
            write_new_keys(writer);
        }
        if (equals(&line))
            write_key(writer, &line, equals(&line));
        else
            tc_text_add_bytes(writer->text, line.start, (size_t)(line.next - line.start));
    }
    end_line(writer->text);
    write_new_keys(writer);
}

/* The old text with the section anew, or with `removes` without it. */
static void write_over(struct writer *writer, const char *old, const char *head, bool removes)
{
    struct line line;
    bool found = false;
    for (const char *at = old; read_line(at, &line); at = line.next) {
        if (found || !is_head_of(&line, head)) {
            tc_text_add_bytes(writer->text, line.start, (size_t)(line.next - line.start));
            continue;
        }
        const char *end = end_of_section(line.next);
        found = true;
        if (!removes) {
            tc_text_add_bytes(writer->text, line.start, (size_t)(line.next - line.start));
            end_line(writer->text);
            write_section(writer, line.next, end);
        }
        line.next = end;
    }
    if (found || removes)
        return;
    end_line(writer->text);
    tc_text_addf(writer->text, "%s[%s]\n", writer->text->length > 0 ? "\n" : "", head);
    write_new_keys(writer);
}

/* --------------------------------------------------------------------- files */

static enum tc_status fault(struct tc_faults *faults, const char *path, const char *text)
{
    tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "not saved: %s", text);
    return TC_SYNTAX;
}

static enum tc_status check_old(const char *path, const struct tc_text *old, struct tc_faults *faults)
{
    struct tc_faults ignored = TC_FAULTS_EMPTY;
    struct tc_ini ini = TC_INI_EMPTY;
    enum tc_status status = tc_ini_open_bytes(path, tc_text_string(old), old->length, &ini, &ignored);
    if (status == TC_SYNTAX)
        fault(faults, path, "the file that is there is no profile and would be lost");
    tc_ini_free(&ini);
    tc_faults_free(&ignored);
    return status;
}

static enum tc_status make_folder_of(const char *path, struct tc_faults *faults)
{
    const char *slash = strrchr(path, '/');
    if (!slash || slash == path)
        return TC_OK;
    struct tc_text folder = TC_TEXT_EMPTY;
    tc_text_add_bytes(&folder, path, (size_t)(slash - path));
    bool made = !folder.failed && tc_make_folders(tc_text_string(&folder), faults);
    tc_text_free(&folder);
    return made ? TC_OK : TC_IO;
}

/* Puts the new text in the place of the old one, and a file of nothing but blanks away. */
static enum tc_status replace(const char *path, const struct tc_text *text, bool removes,
                              struct tc_faults *faults)
{
    const char *string = tc_text_string(text);
    if (removes && string[strspn(string, " \t\r\n")] == '\0')
        return unlink(path) == 0 ? TC_OK : TC_IO;
    enum tc_status status = removes ? TC_OK : make_folder_of(path, faults);
    return status == TC_OK ? tc_save(path, string, text->length, faults) : status;
}

/* `text`, which a file at path holds or is to hold, with the section anew or, with `removes`, without it. */
static enum tc_status change_text(struct tc_text *text, const char *path, const char *head,
                                  const struct tc_section_line *lines, size_t count, bool removes,
                                  struct tc_faults *faults)
{
    struct tc_text made = TC_TEXT_EMPTY;
    struct writer writer = {&made, lines, count, calloc(count + 1, sizeof(bool)), true};
    enum tc_status status = writer.written && !text->failed ? TC_OK : TC_NO_MEMORY;
    if (status == TC_OK && text->length > 0)
        status = check_old(path, text, faults);
    if (status == TC_OK) {
        write_over(&writer, tc_text_string(text), head, removes);
        if (!writer.good)
            status = fault(faults, path, "a value holds what no line of a profile can");
        else if (made.failed)
            status = TC_NO_MEMORY;
    }
    free(writer.written);
    if (status == TC_OK) {
        tc_text_free(text);
        *text = made;
    } else {
        tc_text_free(&made);
    }
    return status;
}

static enum tc_status change(const char *path, const char *head, const struct tc_section_line *lines,
                             size_t count, bool removes, struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY;
    bool there;
    enum tc_status status = tc_load(path, &text, &there, faults);
    if (status == TC_OK)
        status = change_text(&text, path, head, lines, count, removes, faults);
    if (status == TC_OK)
        status = replace(path, &text, removes, faults);
    if (status == TC_NO_MEMORY)
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "not saved: out of memory");
    tc_text_free(&text);
    return status;
}

enum tc_status tc_section_put(struct tc_text *text, const char *path, const char *head,
                              const struct tc_section_line *lines, size_t count, struct tc_faults *faults)
{
    return change_text(text, path, head, lines, count, false, faults);
}

enum tc_status tc_section_save(const char *path, const char *head, const struct tc_section_line *lines,
                               size_t count, struct tc_faults *faults)
{
    return change(path, head, lines, count, false, faults);
}

enum tc_status tc_section_remove(const char *path, const char *head, struct tc_faults *faults)
{
    return change(path, head, NULL, 0, true, faults);
}
