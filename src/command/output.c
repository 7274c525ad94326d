/* SPDX-License-Identifier: MIT */
#include "command/output.h"

#include <errno.h>
#include <langinfo.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "core/base/text.h"
#include "profile/save.h"

/* Printed lines are this wide where no terminal says otherwise. */
enum { PLAIN_WIDTH = 80 };

enum tc_exit tc_machine_error(const char *what, const char *why)
{
    fprintf(stderr, "tankcost: %s: %s\n", what, why);
    return TC_EXIT_MACHINE;
}

enum tc_exit tc_flush_output(void)
{
    if (fflush(stdout) == 0 && !ferror(stdout))
        return TC_EXIT_DONE;
    return tc_machine_error("standard output", strerror(errno));
}

void tc_report_faults(const struct tc_faults *faults, size_t from)
{
    struct tc_text line = TC_TEXT_EMPTY;
    for (size_t i = from; i < tc_faults_count(faults); i++) {
        tc_text_clear(&line);
        tc_fault_write(tc_faults_at(faults, i), &line);
        fprintf(stderr, "%s\n", tc_text_string(&line));
    }
    tc_text_free(&line);
}

static int terminal_width(void)
{
    struct winsize size;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col < TC_WIDTH_LEAST)
        return PLAIN_WIDTH;
    return size.ws_col < TC_WIDTH_MOST ? size.ws_col : TC_WIDTH_MOST;
}

/* Consoles whose fonts are too small for braille and eighths of blocks: common practice, no source. */
static bool has_fine_signs(const char *terminal)
{
    return strcmp(terminal, "linux") != 0 && strcmp(terminal, "dumb") != 0 &&
           strncmp(terminal, "vt", 2) != 0 && strncmp(terminal, "cons", 4) != 0;
}

/* As --color says, or else on a terminal that can show colour, unless NO_COLOR is set. */
static bool wants_colour(const struct tc_options *options, bool terminal, const char *name)
{
    const char *no_color = getenv("NO_COLOR");
    bool able = name && name[0] && strcmp(name, "dumb") != 0;
    if (options->color && strcmp(options->color, "always") == 0)
        return true;
    if (options->color && strcmp(options->color, "never") == 0)
        return false;
    return terminal && able && !(no_color && no_color[0]);
}

struct tc_print_options tc_print_options_of(const struct tc_options *options)
{
    const char *name = getenv("TERM");
    bool terminal = !options->output && isatty(STDOUT_FILENO);
    bool ascii = !options->output && strcmp(nl_langinfo(CODESET), "UTF-8") != 0;
    return (struct tc_print_options){
        .width = options->width > 0 ? options->width
                 : terminal         ? terminal_width()
                                    : PLAIN_WIDTH,
        .ascii = ascii,
        .fine = terminal && !ascii && name && has_fine_signs(name),
        .colour = wants_colour(options, terminal, name),
    };
}

/* Writes what was printed; `printed` says whether it could be. Frees the text. */
static enum tc_exit write_text(const struct tc_options *options, struct tc_text *text, enum tc_status printed)
{
    enum tc_exit exit_status = TC_EXIT_DONE;
    if (printed != TC_OK) {
        exit_status = tc_machine_error("printing", tc_status_text(TC_NO_MEMORY));
    } else if (options->output) {
        struct tc_faults failures = TC_FAULTS_EMPTY;
        if (tc_save(options->output, tc_text_string(text), text->length, &failures) != TC_OK)
            exit_status = TC_EXIT_MACHINE;
        tc_report_faults(&failures, 0);
        tc_faults_free(&failures);
    } else {
        fputs(tc_text_string(text), stdout);
        exit_status = tc_flush_output();
    }
    tc_text_free(text);
    return exit_status;
}

enum tc_exit tc_write_sheet(const struct tc_options *options, const struct tc_sheet *sheet)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_print_options how = tc_print_options_of(options);
    enum tc_print_format format = options->format;
    if (options->output && !options->format_given)
        tc_print_format_of(options->output, &format); /* text, where its name does not say */
    return write_text(options, &text, tc_print(&text, sheet, format, &how));
}

enum tc_exit tc_write_report(const struct tc_options *options, const char *title,
                             const struct tc_sheet *sheets, size_t count, enum tc_print_format format)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_print_options how = tc_print_options_of(options);
    return write_text(options, &text, tc_print_several(&text, title, sheets, count, format, &how));
}
