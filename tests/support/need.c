/* SPDX-License-Identifier: MIT */
#include "support/need.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>

bool program_present(const char *name)
{
    char command[128];
    snprintf(command, sizeof command, "command -v '%s' >/dev/null", name);
    return system(command) == 0;
}

void skip_without(bool present, const char *what)
{
    if (present)
        return;
    print_message("skipped: there is no %s here (make deps check installs it)\n", what);
    skip();
}
