/* SPDX-License-Identifier: MIT */
#include "iniparser.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *copy(const char *text)
{
    char *made = strdup(text);
    if (!made)
        abort();
    return made;
}

static char *trim(char *text)
{
    text += strspn(text, " \t");
    size_t length = strlen(text);
    while (length > 0 && strchr(" \t\n", text[length - 1]))
        text[--length] = '\0';
    return text;
}

/* The value less quotes around it, or up to what would be a comment. */
static char *plain(char *value)
{
    if (*value == '"' || *value == '\'') {
        char *end = strchr(value + 1, *value);
        if (end)
            *end = '\0';
        return value + 1;
    }
    value[strcspn(value, "#;")] = '\0';
    return trim(value);
}

static void add(dictionary *to, const char *name, char *value)
{
    size_t count = (size_t)to->size + 1;
    to->key = realloc(to->key, count * sizeof *to->key);
    to->val = realloc(to->val, count * sizeof *to->val);
    if (!to->key || !to->val)
        abort();
    to->key[to->size] = copy(name);
    to->val[to->size++] = value;
    to->n++;
}

dictionary *iniparser_load(const char *path)
{
    FILE *file = fopen(path, "r");
    dictionary *made = calloc(1, sizeof *made);
    char line[2048], section[1024] = "", name[2048 + 1024];
    if (!file || !made)
        abort();
    while (fgets(line, sizeof line, file)) {
        char *at = trim(line), *equals = strchr(at, '=');
        if (*at == '[') {
            at[strcspn(at, "]")] = '\0';
            snprintf(section, sizeof section, "%s", at + 1);
            add(made, section, NULL);
        } else if (*at != '\0' && *at != '#' && *at != ';' && equals) {
            *equals = '\0';
            snprintf(name, sizeof name, "%s:%s", section, trim(at));
            add(made, name, copy(plain(trim(equals + 1))));
        }
    }
    fclose(file);
    return made;
}

void iniparser_freedict(dictionary *entries)
{
    if (!entries)
        return;
    for (ssize_t i = 0; i < entries->size; i++) {
        free(entries->key[i]);
        free(entries->val[i]);
    }
    free(entries->key);
    free(entries->val);
    free(entries);
}

int iniparser_getnsec(const dictionary *entries)
{
    int sections = 0;
    for (ssize_t i = 0; i < entries->size; i++)
        sections += !entries->val[i];
    return sections;
}

const char *iniparser_getstring(const dictionary *entries, const char *name, const char *otherwise)
{
    for (ssize_t i = entries->size; i-- > 0;)
        if (strcmp(entries->key[i], name) == 0)
            return entries->val[i];
    return otherwise;
}

void iniparser_set_error_callback(int (*callback)(const char *format, ...))
{
    (void)callback;
}
