/* SPDX-License-Identifier: MIT */
#include "profile/csv.h"

#include <stdlib.h>
#include <string.h>

/* A text being taken apart, in place: what a field holds is never longer than it was written. */
struct reader {
    struct tc_csv *csv;
    struct tc_faults *faults;
    const char *name;
    char *at, *end; /* what is to be read, and where it ends */
    char *to;       /* where the next byte of a field goes */
    int line;
};

static enum tc_status fault(const struct reader *reader, const char *what)
{
    tc_faults_error(reader->faults, (struct tc_place){reader->name, reader->line, NULL, NULL}, "%s", what);
    return TC_SYNTAX;
}

static bool at_end_of_line(const struct reader *reader)
{
    return reader->at == reader->end || *reader->at == '\n' ||
           (*reader->at == '\r' && reader->at + 1 < reader->end && reader->at[1] == '\n');
}

/* "a ""b"" c": behind the opening quote. */
static enum tc_status read_quoted(struct reader *reader)
{
    int first = reader->line;
    for (reader->at++; reader->at < reader->end; reader->at++) {
        if (*reader->at == '"') {
            if (reader->at + 1 == reader->end || reader->at[1] != '"') {
                reader->at++;
                return reader->at == reader->end || *reader->at == reader->csv->separator ||
                               at_end_of_line(reader)
                           ? TC_OK
                           : fault(reader,
                                   "text follows a closing quote; double a quote that is part of a field");
            }
            reader->at++;
        }
        reader->line += *reader->at == '\n';
        *reader->to++ = *reader->at;
    }
    reader->line = first;
    return fault(reader, "a quote is opened and not closed; double a quote that is part of a field");
}

static enum tc_status read_field(struct reader *reader)
{
    struct tc_csv *csv = reader->csv;
    csv->field[csv->field_count++] = reader->to;
    enum tc_status status = TC_OK;
    if (reader->at < reader->end && *reader->at == '"')
        status = read_quoted(reader);
    else
        while (!at_end_of_line(reader) && *reader->at != csv->separator)
            *reader->to++ = *reader->at++;
    return status;
}

/* Reads one record and goes to the next line. */
static enum tc_status read_record(struct reader *reader)
{
    struct tc_csv *csv = reader->csv;
    struct tc_csv_record *record = &csv->record[csv->record_count];
    *record = (struct tc_csv_record){.line = reader->line, .first = csv->field_count};
    bool more = true, any = false;
    while (more) {
        enum tc_status status = read_field(reader);
        if (status != TC_OK)
            return status;
        if (++record->count > TC_CSV_FIELDS_MAX)
            return fault(reader, "there are too many fields");
        any = any || reader->to > csv->field[csv->field_count - 1];
        more = reader->at < reader->end && *reader->at == csv->separator;
        reader->at += more;
        char *field_end = reader->to++;
        if (!more && reader->at < reader->end) {
            reader->at += *reader->at == '\r' ? 2 : 1;
            reader->line++;
        }
        *field_end = '\0'; /* over a comma or a line's end that was read, or the byte kept for it */
    }
    csv->record_count += any;
    csv->field_count = any ? csv->field_count : record->first;
    return TC_OK;
}

/* What sets the fields of the first line apart. */
static char find_separator(const char *text, size_t length)
{
    const char *end = length > 0 ? memchr(text, '\n', length) : NULL;
    size_t line = end ? (size_t)(end - text) : length;
    if (line == 0 || memchr(text, ',', line))
        return ',';
    return memchr(text, ';', line) ? ';' : memchr(text, '\t', line) ? '\t' : ',';
}

enum tc_status tc_csv_read(const char *name, const char *text, size_t length, struct tc_csv *csv,
                           struct tc_faults *faults)
{
    size_t fields = 1, records = 1;
    *csv = (struct tc_csv)TC_CSV_EMPTY;
    struct reader reader = {.csv = csv, .faults = faults, .name = name, .line = 1};
    csv->separator = find_separator(text, length);
    if (memchr(text, '\0', length))
        return fault(&reader, "there is a NUL byte: the file is no text, or not saved as UTF-8");
    for (size_t i = 0; i < length; i++) {
        fields += text[i] == csv->separator || text[i] == '\n';
        records += text[i] == '\n';
    }
    if (records > TC_CSV_RECORDS_MAX)
        return fault(&reader, "there are too many lines");
    csv->bytes = malloc(length + 2);
    csv->field = malloc((fields + 1) * sizeof *csv->field);
    csv->record = malloc((records + 1) * sizeof *csv->record);
    if (!csv->bytes || !csv->field || !csv->record)
        return TC_NO_MEMORY;
    bool marked = length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0;
    if (length > 0)
        memcpy(csv->bytes, text, length);
    reader.to = csv->bytes;
    reader.at = csv->bytes + (marked ? 3 : 0);
    reader.end = csv->bytes + length;
    enum tc_status status = TC_OK;
    while (status == TC_OK && reader.at < reader.end)
        status = read_record(&reader);
    return status;
}

void tc_csv_free(struct tc_csv *csv)
{
    free(csv->bytes);
    free(csv->field);
    free(csv->record);
    *csv = (struct tc_csv)TC_CSV_EMPTY;
}

const char *tc_csv_field(const struct tc_csv *csv, const struct tc_csv_record *record, size_t i)
{
    return i < record->count ? csv->field[record->first + i] : "";
}
