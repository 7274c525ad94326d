/* SPDX-License-Identifier: MIT */
/*
 * csv.h - comma-separated values (RFC 4180), as spreadsheets write them: records
 * ended by LF or CR LF, fields set apart by commas, in quotes where they hold a
 * comma, a quote (doubled) or a line's end. A mark of UTF-8 in front is passed
 * over; a record without anything in it is left out. Where the first line has
 * semicolons or tabs and no comma, these set the fields apart, as spreadsheets
 * write them in countries with a decimal comma.
 */
#ifndef TC_PROFILE_CSV_H
#define TC_PROFILE_CSV_H

#include <stddef.h>

#include "core/base/status.h"
#include "profile/fault.h"

enum { TC_CSV_FIELDS_MAX = 64, TC_CSV_RECORDS_MAX = 100000 };

struct tc_csv_record {
    int line;     /* in which it begins, from 1 */
    size_t first; /* of its fields */
    size_t count;
};

struct tc_csv {
    char *bytes;        /* owned; the fields lie in it, each ended */
    const char **field; /* owned; of all records */
    struct tc_csv_record *record;
    size_t field_count, record_count;
    char separator; /* ',', ';' or a tab */
};

#define TC_CSV_EMPTY                                                                                         \
    {                                                                                                        \
        NULL, NULL, NULL, 0, 0, ','                                                                          \
    }

/*
 * Takes a text apart; name is the file's, for faults. TC_SYNTAX with a fault
 * where it is no such text: a quote that is not closed, or text behind a closing
 * one. TC_NO_MEMORY. Free it whatever the status.
 */
enum tc_status tc_csv_read(const char *name, const char *text, size_t length, struct tc_csv *csv,
                           struct tc_faults *faults);
void tc_csv_free(struct tc_csv *csv);

/* The i-th field of a record; "" where it has fewer. */
const char *tc_csv_field(const struct tc_csv *csv, const struct tc_csv_record *record, size_t i);

#endif
