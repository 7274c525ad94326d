/* SPDX-License-Identifier: MIT */
/* Any bytes read as an INI file: what comes out keeps to what profile/ini.h says. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "profile/ini.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* abort() is how the fuzzer learns of a failure. */
static void must(int holds)
{
    if (!holds)
        abort();
}

static void clean(const char *text)
{
    for (; *text; text++)
        must((unsigned char)*text >= ' ' && *text != '\177');
}

static void name(const char *text, size_t longest)
{
    must(*text && strlen(text) <= longest);
    clean(text);
    for (; *text; text++)
        must(!(*text >= 'A' && *text <= 'Z'));
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
    tc_faults_sort(&faults);
    tc_faults_write(&faults, &report);
    tc_text_free(&report);
    tc_ini_free(&ini);
    tc_faults_free(&faults);
    return 0;
}
