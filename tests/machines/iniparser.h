/* SPDX-License-Identifier: MIT */
/*
 * iniparser.h - what the program asks of iniparser, for machines that have none: the
 * files it is given are those the program has put in order itself.
 */
#ifndef TC_TESTS_MACHINES_INIPARSER_H
#define TC_TESTS_MACHINES_INIPARSER_H

#include <sys/types.h>

/* As iniparser's: entries and sections, a section being a key without a value. */
typedef struct {
    int n;
    ssize_t size;
    char **val;
    char **key;
} dictionary;

dictionary *iniparser_load(const char *path);
void iniparser_freedict(dictionary *entries);
int iniparser_getnsec(const dictionary *entries);
const char *iniparser_getstring(const dictionary *entries, const char *name, const char *otherwise);
void iniparser_set_error_callback(int (*callback)(const char *format, ...));

#endif
