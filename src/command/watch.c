/* SPDX-License-Identifier: MIT */
#include "command/watch.h"

#include <signal.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#include "sheet/answer.h"

/* Seconds. */
static const double quiet = 0.5;   /* work that is done within this says nothing */
static const double between = 0.2; /* from one word to the next */

struct watch {
    bool stopped; /* by the person */
    bool shown;   /* the line stands there */
    double told;  /* when, in seconds */
    sigset_t before;
};

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* Whether Ctrl-C was pressed: it is held back, and looked for, so that no handler is needed. */
static bool pressed(struct watch *watch)
{
    sigset_t waiting, one;
    int number;
    sigemptyset(&one);
    sigaddset(&one, SIGINT);
    if (sigpending(&waiting) != 0 || sigismember(&waiting, SIGINT) != 1 || sigwait(&one, &number) != 0)
        return false;
    sigprocmask(SIG_SETMASK, &watch->before, NULL); /* the next one ends the program */
    return true;
}

static void wipe(struct watch *watch)
{
    if (watch->shown)
        fprintf(stderr, "\r%*s\r", 60, "");
    fflush(stderr);
    watch->shown = false;
}

static bool go_on(void *context, double done)
{
    struct watch *watch = context;
    if (watch->stopped || pressed(watch)) {
        watch->stopped = true;
        return false;
    }
    double now = seconds();
    if (now - watch->told < between)
        return true;
    watch->told = now;
    watch->shown = true;
    fprintf(stderr, "\r%3.0f %% done; Ctrl-C stops and shows what is known so far", 100 * done);
    fflush(stderr);
    return true;
}

/* Ctrl-C waits from here on. */
static void begin(struct watch *watch, struct tc_ask *ask)
{
    sigset_t held;
    *watch = (struct watch){.told = seconds() + quiet - between};
    sigemptyset(&held);
    sigaddset(&held, SIGINT);
    sigprocmask(SIG_BLOCK, &held, &watch->before);
    ask->go_on = go_on;
    ask->context = watch;
    ask->partial = true;
}

static void end(struct watch *watch)
{
    watch->stopped = watch->stopped || pressed(watch); /* too late for work that has ended */
    wipe(watch);
    sigprocmask(SIG_SETMASK, &watch->before, NULL);
}

enum tc_status tc_watch_answer(const struct tc_question *question, const struct tc_study *study,
                               struct tc_ask ask, struct tc_sheet *sheet, bool *stopped)
{
    struct watch watch;
    if (*stopped)
        return TC_STOPPED;
    if (!isatty(STDERR_FILENO))
        return tc_answer_make(question, study, &ask, sheet);
    begin(&watch, &ask);
    enum tc_status status = tc_answer_make(question, study, &ask, sheet);
    end(&watch);
    *stopped = watch.stopped;
    if (status == TC_OK && watch.stopped)
        tc_sheet_note(sheet, TC_NOTE_FAULT,
                      "The rest of the work, which you stopped: the figures are those known by then.");
    return status;
}
