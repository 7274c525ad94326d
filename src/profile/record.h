/* SPDX-License-Identifier: MIT */
/*
 * record.h - a section of a profile turned into a record by the table of its
 * kind.
 */
#ifndef TC_PROFILE_RECORD_H
#define TC_PROFILE_RECORD_H

#include <stdbool.h>

#include "profile/fault.h"
#include "profile/key.h"
#include "profile/section.h"

/*
 * Reads the section into record, which has every default (tc_key_defaults) and
 * keeps it where a key is missing. currency is that of bare amounts; a key that says the
 * currency (of a region) takes its place. Every fault is reported; false where
 * there was one, or where the section was bad before. *entry keeps which keys
 * were given and the ranges.
 */
bool tc_record_read(const struct tc_key_table *table, const struct tc_sections *sections,
                    const struct tc_section *section, struct tc_currency currency, void *record,
                    struct tc_entry *entry, struct tc_faults *faults);

/* Reports a key that the table does not know, with what it could mean. */
void tc_record_unknown_key(const struct tc_key_table *table, struct tc_place place, const char *name,
                           struct tc_faults *faults);

#endif
