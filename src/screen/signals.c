/* SPDX-License-Identifier: MIT */
#include "screen/signals.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

static const int ends[] = {SIGTERM, SIGHUP, SIGINT, SIGQUIT};
static const int tells[] = {SIGWINCH, SIGTSTP, SIGCONT};
/* All others that end a process, whoever sends them. */
static const int crashes[] = {SIGSEGV, SIGBUS,  SIGFPE,  SIGILL,  SIGABRT, SIGSYS,    SIGTRAP, SIGPIPE,
                              SIGALRM, SIGUSR1, SIGUSR2, SIGXCPU, SIGXFSZ, SIGVTALRM, SIGPROF, SIGPOLL};

enum {
    END_COUNT = sizeof ends / sizeof ends[0],
    TELL_COUNT = sizeof tells / sizeof tells[0],
    CRASH_COUNT = sizeof crashes / sizeof crashes[0],
    COUNT = END_COUNT + TELL_COUNT + CRASH_COUNT
};

static struct tc_rescue rescue;
static struct sigaction former[COUNT];
static bool caught[COUNT];
static int pipe_files[2] = {-1, -1};
static volatile sig_atomic_t end_signal, resized, stopped, continued;

/* A crash may have come from a stack that is full: its handler has one of its own. */
static char crash_stack[65536];
static stack_t former_stack;

static int signal_at(int i)
{
    if (i < END_COUNT)
        return ends[i];
    return i < END_COUNT + TELL_COUNT ? tells[i - END_COUNT] : crashes[i - END_COUNT - TELL_COUNT];
}

/* -------------------------------------------------------------------------- handlers */

/* Everything here may be called in a handler (signal-safety(7)). */
static void put_terminal_right(void)
{
    size_t written = 0;
    while (written < rescue.length) {
        ssize_t n = write(rescue.terminal, rescue.bytes + written, rescue.length - written);
        if (n <= 0)
            break;
        written += (size_t)n;
    }
    tcsetattr(rescue.terminal, TCSANOW, &rescue.modes);
}

static void end_by(int number)
{
    put_terminal_right();
    signal(number, SIG_DFL);
    raise(number);
}

static void on_crash(int number)
{
    end_by(number);
}

static void on_signal(int number)
{
    int error = errno;
    switch (number) {
    case SIGWINCH: resized = 1; break;
    case SIGTSTP: stopped = 1; break;
    case SIGCONT: continued = 1; break;
    default:
        if (end_signal)
            end_by(number);
        end_signal = number;
    }
    /* The pipe is only full if it is readable anyway. */
    ssize_t ignored = write(pipe_files[1], "", 1);
    (void)ignored;
    errno = error;
}

/* ---------------------------------------------------------------------- start and stop */

static bool open_pipe(void)
{
    if (pipe(pipe_files) != 0)
        return false;
    for (int i = 0; i < 2; i++) {
        fcntl(pipe_files[i], F_SETFL, O_NONBLOCK);
        fcntl(pipe_files[i], F_SETFD, FD_CLOEXEC);
    }
    return true;
}

static void take_over(int i)
{
    struct sigaction action;
    memset(&action, 0, sizeof action);
    sigemptyset(&action.sa_mask);
    bool crash = i >= END_COUNT + TELL_COUNT;
    action.sa_handler = crash ? on_crash : on_signal;
    action.sa_flags = crash ? SA_ONSTACK | (int)SA_RESETHAND | SA_NODEFER : 0;
    sigaction(signal_at(i), NULL, &former[i]);
    /* What the parent wants ignored (nohup, a shell without job control) stays ignored. */
    caught[i] = former[i].sa_handler != SIG_IGN;
    if (caught[i])
        sigaction(signal_at(i), &action, NULL);
}

enum tc_status tc_signals_start(const struct tc_rescue *wanted)
{
    stack_t stack = {.ss_sp = crash_stack, .ss_size = sizeof crash_stack};
    rescue = *wanted;
    end_signal = resized = stopped = continued = 0;
    if (!open_pipe())
        return TC_IO;
    sigaltstack(&stack, &former_stack);
    for (int i = 0; i < COUNT; i++)
        take_over(i);
    return TC_OK;
}

void tc_signals_stop(void)
{
    if (pipe_files[0] < 0)
        return;
    for (int i = 0; i < COUNT; i++)
        if (caught[i])
            sigaction(signal_at(i), &former[i], NULL);
    sigaltstack(&former_stack, NULL);
    for (int i = 0; i < 2; i++) {
        close(pipe_files[i]);
        pipe_files[i] = -1;
    }
}

void tc_signals_rescue(const struct tc_rescue *wanted)
{
    sigset_t all, before;
    sigfillset(&all);
    sigprocmask(SIG_SETMASK, &all, &before);
    rescue = *wanted;
    sigprocmask(SIG_SETMASK, &before, NULL);
}

/* ---------------------------------------------------------------------------- use */

int tc_signals_file(void)
{
    return pipe_files[0];
}

struct tc_signals tc_signals_take(void)
{
    char bytes[64];
    while (read(pipe_files[0], bytes, sizeof bytes) > 0)
        ;
    struct tc_signals signals = {end_signal, resized, stopped, continued};
    resized = stopped = continued = 0;
    return signals;
}

void tc_signals_stop_process(void)
{
    struct sigaction ours, normal;
    memset(&normal, 0, sizeof normal);
    sigemptyset(&normal.sa_mask);
    normal.sa_handler = SIG_DFL;
    sigaction(SIGTSTP, &normal, &ours);
    raise(SIGTSTP);
    sigaction(SIGTSTP, &ours, NULL);
}
