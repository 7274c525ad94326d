/* SPDX-License-Identifier: MIT */
/*
 * output.h - what a command says: a sheet to standard output or a file, and to
 * standard error what went wrong.
 */
#ifndef TC_COMMAND_OUTPUT_H
#define TC_COMMAND_OUTPUT_H

#include "command/options.h"
#include "print/print.h"
#include "profile/fault.h"
#include "sheet/sheet.h"

/* Tells of a failure of the machine. Returns TC_EXIT_MACHINE. */
enum tc_exit tc_machine_error(const char *what, const char *why);

/* What was printed may still be in a buffer: only now it is seen whether it can be written. */
enum tc_exit tc_flush_output(void);

/* Prints the faults from number `from` on to standard error. */
void tc_report_faults(const struct tc_faults *faults, size_t from);

/* How text is printed here: width, colour and signs by the options, the terminal and the environment. */
struct tc_print_options tc_print_options_of(const struct tc_options *options);

/* Writes a sheet to where the command says, whole or not at all; what hinders it is told. */
enum tc_exit tc_write_sheet(const struct tc_options *options, const struct tc_sheet *sheet);

/* The same for several sheets on one page with a title, in a format that takes several (print.h). */
enum tc_exit tc_write_report(const struct tc_options *options, const char *title,
                             const struct tc_sheet *sheets, size_t count, enum tc_print_format format);

#endif
