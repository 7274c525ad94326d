/* SPDX-License-Identifier: MIT */
#include "profile/fault.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"
#include "core/base/clean.h"

/* Stands at the end of every list that lost something; needs no memory of its own. */
static const struct tc_fault lost = {
    TC_ERROR, {NULL, 0, NULL, NULL}, "out of memory: further faults could not be recorded"};

/* Bytes a copy of string takes. */
static size_t room(const char *string)
{
    return string == NULL ? 0 : strlen(string) + 1;
}

/* Puts a clean copy of string at *at and moves *at behind it. */
static const char *copy(char **at, const char *string)
{
    char *start = *at;

    if (string == NULL)
        return NULL;
    *at += tc_clean(start, room(string), string) + 1;
    return start;
}

/* A fault and its texts in one piece of memory; NULL when there is none. */
static struct tc_fault *new_fault(enum tc_severity severity, struct tc_place place, const char *text)
{
    struct tc_fault *fault =
        malloc(sizeof *fault + room(place.file) + room(place.section) + room(place.key) + room(text));

    if (fault == NULL)
        return NULL;
    char *at = (char *)(fault + 1);
    fault->severity = severity;
    fault->place.line = place.line;
    fault->place.file = copy(&at, place.file);
    fault->place.section = copy(&at, place.section);
    fault->place.key = copy(&at, place.key);
    fault->text = copy(&at, text);
    return fault;
}

void tc_faults_addv(struct tc_faults *faults, enum tc_severity severity, struct tc_place place,
                    const char *format, va_list arguments)
{
    char text[TC_FAULT_TEXT_SIZE];
    int wanted = vsnprintf(text, sizeof text, format, arguments);
    struct tc_fault *fault = NULL;

    if (wanted >= (int)sizeof text) {
        /* Cut by printf, perhaps within a character. */
        char *last = text + sizeof text - 2;
        while (last > text && ((unsigned char)*last & 0xC0) == 0x80)
            last--;
        if (((unsigned char)*last & 0x80) != 0)
            *last = '\0';
    }
    struct tc_fault **items =
        tc_grow(faults->items, faults->count, &faults->capacity, sizeof(struct tc_fault *));
    if (items != NULL)
        faults->items = items;
    if (wanted >= 0 && items != NULL)
        fault = new_fault(severity, place, text);
    if (fault == NULL) {
        faults->lost = true;
        return;
    }
    faults->items[faults->count++] = fault;
    if (severity == TC_ERROR)
        faults->errors++;
}

void tc_faults_error(struct tc_faults *faults, struct tc_place place, const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    tc_faults_addv(faults, TC_ERROR, place, format, arguments);
    va_end(arguments);
}

void tc_faults_note(struct tc_faults *faults, struct tc_place place, const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    tc_faults_addv(faults, TC_NOTE, place, format, arguments);
    va_end(arguments);
}

size_t tc_faults_count(const struct tc_faults *faults)
{
    return faults->count + (faults->lost ? 1 : 0);
}

size_t tc_faults_errors(const struct tc_faults *faults)
{
    return faults->errors + (faults->lost ? 1 : 0);
}

const struct tc_fault *tc_faults_at(const struct tc_faults *faults, size_t i)
{
    return i < faults->count ? faults->items[i] : &lost;
}

static bool same_file(const char *a, const char *b)
{
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

/*
 * Insertion from the end: faults mostly come in order, file after file, so
 * each is near its place already; stable, and no memory is needed.
 */
void tc_faults_sort(struct tc_faults *faults)
{
    struct tc_fault **items = faults->items;

    for (size_t i = 1; i < faults->count; i++) {
        struct tc_fault *fault = items[i];
        size_t to = i;
        while (to > 0 && !same_file(items[to - 1]->place.file, fault->place.file))
            to--;
        if (to == 0)
            continue; /* the first of its file: stays behind the others */
        while (to > 0 && same_file(items[to - 1]->place.file, fault->place.file) &&
               items[to - 1]->place.line > fault->place.line)
            to--;
        memmove(items + to + 1, items + to, (i - to) * sizeof(struct tc_fault *));
        items[to] = fault;
    }
}

void tc_fault_write(const struct tc_fault *fault, struct tc_text *text)
{
    const struct tc_place *place = &fault->place;

    if (place->file != NULL) {
        tc_text_add(text, place->file);
        if (place->line > 0)
            tc_text_addf(text, ":%d", place->line);
        tc_text_add(text, ": ");
    }
    if (fault->severity == TC_NOTE)
        tc_text_add(text, "note: ");
    if (place->section != NULL)
        tc_text_addf(text, place->key == NULL ? "[%s]: " : "[%s] ", place->section);
    if (place->key != NULL)
        tc_text_addf(text, "%s: ", place->key);
    tc_text_add(text, fault->text);
}

void tc_faults_write(const struct tc_faults *faults, struct tc_text *text)
{
    for (size_t i = 0; i < tc_faults_count(faults); i++) {
        tc_fault_write(tc_faults_at(faults, i), text);
        tc_text_add_char(text, '\n');
    }
}

void tc_faults_move(struct tc_faults *faults, struct tc_faults *from)
{
    for (size_t i = 0; i < from->count; i++) {
        struct tc_fault **items =
            tc_grow(faults->items, faults->count, &faults->capacity, sizeof(struct tc_fault *));
        if (items == NULL) {
            faults->lost = true;
            break;
        }
        faults->items = items;
        faults->errors += from->items[i]->severity == TC_ERROR;
        faults->items[faults->count++] = from->items[i];
        from->items[i] = NULL;
    }
    faults->lost = faults->lost || from->lost;
    tc_faults_free(from);
}

void tc_faults_free(struct tc_faults *faults)
{
    for (size_t i = 0; i < faults->count; i++)
        free(faults->items[i]);
    free(faults->items);
    *faults = (struct tc_faults)TC_FAULTS_EMPTY;
}
