/* SPDX-License-Identifier: MIT */
/* ini_read.h - one INI file on its own, read in both its steps. */
#ifndef TC_TESTS_INI_READ_H
#define TC_TESTS_INI_READ_H

#include "profile/ini.h"

/* tc_ini_open and tc_ini_values; *ini is freed where it is not TC_OK. */
enum tc_status ini_read(const char *path, struct tc_ini *ini, struct tc_faults *faults);

/* The section of that name, in lower case, or NULL. */
const struct tc_ini_section *ini_section(const struct tc_ini *ini, const char *name);

#endif
