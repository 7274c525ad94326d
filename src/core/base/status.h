/* SPDX-License-Identifier: MIT */
/*
 * status.h - how core functions report that they could not do their work.
 *
 * A function that can fail returns a tc_status and writes its results through
 * pointers; on any status but TC_OK the results are unspecified unless its
 * header says otherwise. Arithmetic on money is the exception: there the
 * status is "sticky" (see money.h), so that sums read like sums.
 */
#ifndef TC_CORE_BASE_STATUS_H
#define TC_CORE_BASE_STATUS_H

enum tc_status {
    TC_OK = 0,
    TC_OVERFLOW,  /* an amount of money left the range that is kept exact */
    TC_RANGE,     /* a figure is outside what the function is defined for */
    TC_SYNTAX,    /* a text does not have the form asked for */
    TC_NO_RESULT, /* well-posed, but there is no answer (no root, no payback, nothing fits) */
    TC_NO_MEMORY, /* an allocation failed */
    TC_IO,        /* the machine failed: disk, terminal */
    TC_STOPPED    /* the caller asked a long computation to stop */
};

/* One lower-case English phrase for messages; never NULL. */
const char *tc_status_text(enum tc_status status);

#endif
