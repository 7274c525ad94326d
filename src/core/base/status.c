/* SPDX-License-Identifier: MIT */
#include "core/base/status.h"

const char *tc_status_text(enum tc_status status)
{
    switch (status) {
    case TC_OK: return "done";
    case TC_OVERFLOW: return "an amount of money is too large";
    case TC_RANGE: return "a figure is out of range";
    case TC_SYNTAX: return "the text has not the form asked for";
    case TC_NO_RESULT: return "there is no answer";
    case TC_NO_MEMORY: return "out of memory";
    case TC_IO: return "reading or writing failed";
    case TC_STOPPED: return "stopped";
    }
    return "unknown status";
}
