/* SPDX-License-Identifier: MIT */
#include "support/ini_read.h"

#include "profile/ini_values.h"

#include <string.h>

enum tc_status ini_read(const char *path, struct tc_ini *ini, struct tc_faults *faults)
{
    enum tc_status status = tc_ini_open(path, ini, faults);
    if (status != TC_OK)
        return status;
    status = tc_ini_values(&ini, 1, faults);
    if (status != TC_OK)
        tc_ini_free(ini);
    return status;
}

const struct tc_ini_section *ini_section(const struct tc_ini *ini, const char *name)
{
    for (size_t i = 0; i < ini->section_count; i++)
        if (strcmp(ini->sections[i].name, name) == 0)
            return &ini->sections[i];
    return NULL;
}
