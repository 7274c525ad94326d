/* SPDX-License-Identifier: MIT */
/* Any bytes read as an INI file: what comes out keeps to what profile/ini.h says. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/ini.h"
#include "profile/ini_write.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* abort() is how the fuzzer learns of a failure. */
static void must(int holds)
{
    if (!holds)
        abort();
}

static void clean(const char *text)
{
    must(tc_is_clean(text, strlen(text)));
}

static void name(const char *text, size_t longest)
{
    must(*text && strlen(text) <= longest);
    clean(text);
    for (; *text; text++)
        must(!(*text >= 'A' && *text <= 'Z'));
}

/* What was read without a fault is written and read again: nothing changes and nothing is faulty. */
static void read_again(const struct tc_ini *ini)
{
    struct tc_text file = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_ini again;
    size_t k = 0;

    for (size_t s = 0; s < ini->section_count; s++) {
        const struct tc_ini_section *section = &ini->sections[s];
        if (section->name[0] == '\0' || section->key_count == 0)
            continue;
        tc_text_addf(&file, "[%s]\n", section->name);
        for (size_t i = 0; i < section->key_count; i++) {
            tc_text_addf(&file, "%s = ", section->keys[i].name);
            if (!tc_ini_write_value(&file, section->keys[i].value)) {
                must(strlen(section->keys[i].value) > TC_INI_VALUE_MAX);
                tc_text_free(&file);
                return;
            }
            tc_text_add_char(&file, '\n');
        }
    }
    must(tc_ini_read_bytes("again.ini", tc_text_string(&file), file.length, &again, &faults) == TC_OK);
    must(tc_faults_count(&faults) == 0 && again.key_count <= ini->key_count);
    for (size_t s = 0; s < again.section_count; s++)
        for (size_t i = 0; i < again.sections[s].key_count; i++, k++) {
            must(strcmp(again.keys[k].name, ini->keys[k].name) == 0);
            must(strcmp(again.keys[k].value, ini->keys[k].value) == 0);
        }
    must(k == ini->key_count);
    tc_ini_free(&again);
    tc_text_free(&file);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_ini ini;
    struct tc_text report = {0};
    int line = 0;

    enum tc_status status = tc_ini_read_bytes("fuzz.ini", (const char *)data, size, &ini, &faults);
    must(status == TC_OK || (ini.section_count == 0 && tc_faults_errors(&faults) > 0));
    for (size_t s = 0; s < ini.section_count; s++) {
        const struct tc_ini_section *section = &ini.sections[s];
        clean(section->name);
        if (!section->bad)
            name(section->name, TC_INI_SECTION_MAX);
        must(section->line > line);
        line = section->line;
        must(!section->bad || tc_faults_errors(&faults) > 0);
        for (size_t k = 0; k < section->key_count; k++) {
            name(section->keys[k].name, TC_INI_LINE_MAX);
            clean(section->keys[k].value);
            must(section->keys[k].line > line);
            line = section->keys[k].line;
            must(tc_ini_key(section, section->keys[k].name) == &section->keys[k]);
        }
    }
    read_again(&ini);
    tc_faults_sort(&faults);
    tc_faults_write(&faults, &report);
    tc_text_free(&report);
    tc_ini_free(&ini);
    tc_faults_free(&faults);
    return 0;
}
