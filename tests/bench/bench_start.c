/* SPDX-License-Identifier: MIT */
/*
 * Time from start to the first drawn frame, of tankcost with the demo and of a
 * bare ncurses program that draws one box, by turns in the same run.
 *
 *     bench_start [PROGRAM [ARGUMENT...]]    another program in place of tankcost
 *
 * Each runs in a pseudo-terminal of 80x24. Its first frame is drawn with the
 * last byte it writes before it falls silent. A program that ends by itself,
 * never takes the screen, or writes less than any frame needs, has drawn none.
 * Both are stopped by SIGTERM.
 *
 * Beside the time that passed stands the processor's time until then, of the
 * system and of the program, from the fork on: that of a program which waits
 * for others to have their turn on a busy machine does not grow as much.
 */
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum {
    ROUNDS = 41,
    FRAME = 150,     /* bytes: less is a terminal being prepared, not yet a frame */
    SILENCE = 40,    /* ms without output after which a frame counts as drawn */
    PATIENCE = 5000, /* ms until a program that has drawn nothing is given up */
    OUTPUT_SIZE = 65536
};

/* What xterm-256color is told before a program draws over the whole screen. */
static const char TAKES_SCREEN[] = "\033[?1049h";

static double milliseconds(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

/* Milliseconds the processor has spent on a process. */
static double processor_time(pid_t process)
{
    struct timespec spent;
    clockid_t clock;

    if (clock_getcpuclockid(process, &clock) != 0 || clock_gettime(clock, &spent) != 0)
        return 0;
    return (double)spent.tv_sec * 1e3 + (double)spent.tv_nsec / 1e6;
}

static void die(const char *what)
{
    perror(what);
    exit(3);
}

/* Opens a pseudo-terminal; its other end is named in `name`. */
static int open_terminal(char *name, size_t size)
{
    const struct winsize window = {.ws_row = 24, .ws_col = 80};
    int terminal = posix_openpt(O_RDWR | O_NOCTTY);

    if (terminal < 0 || grantpt(terminal) || unlockpt(terminal))
        die("pseudo-terminal");
    const char *other = ptsname(terminal);
    if (!other || strlen(other) >= size)
        die("pseudo-terminal");
    memcpy(name, other, strlen(other) + 1);
    if (ioctl(terminal, TIOCSWINSZ, &window))
        die("pseudo-terminal");
    return terminal;
}

static pid_t start(char *const command[], const char *terminal_name)
{
    pid_t child = fork();

    if (child)
        return child;
    setsid();
    int side = open(terminal_name, O_RDWR);
    if (side < 0 || ioctl(side, TIOCSCTTY, 0) || dup2(side, 0) < 0 || dup2(side, 1) < 0 || dup2(side, 2) < 0)
        _exit(126);
    execv(command[0], command);
    _exit(127);
}

/* Milliseconds to a first frame. */
struct start {
    double passed, processor;
};

/*
 * Runs the command to its first frame; false where it drew none: output then
 * holds what it wrote instead.
 */
static bool first_frame(char *const command[], char output[OUTPUT_SIZE], struct start *taken)
{
    char name[128];
    int terminal = open_terminal(name, sizeof name);
    double begin = milliseconds();
    double last = begin;
    size_t used = 0;
    bool ended = false;
    pid_t child = start(command, name);

    if (child < 0)
        die("fork");
    for (;;) {
        struct pollfd wait = {.fd = terminal, .events = POLLIN};
        int ready = poll(&wait, 1, used >= FRAME ? SILENCE : PATIENCE);
        if (ready < 0 && errno == EINTR)
            continue;
        if (ready <= 0)
            break;
        ssize_t got = read(terminal, output + used, OUTPUT_SIZE - 1 - used);
        last = milliseconds();
        ended = got <= 0; /* the other end is closed */
        if (ended)
            break;
        used += (size_t)got;
        if (used == OUTPUT_SIZE - 1)
            used = OUTPUT_SIZE / 2; /* only its beginning is of interest */
    }
    output[used] = '\0';
    *taken = (struct start){last - begin, processor_time(child)};
    kill(child, SIGTERM);
    /* What it still writes while it puts the terminal right must not block it. */
    for (char rest[256]; read(terminal, rest, sizeof rest) > 0;)
        ;
    waitpid(child, NULL, 0);
    close(terminal);
    return !ended && used >= FRAME && strstr(output, TAKES_SCREEN);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;

    return (x > y) - (x < y);
}

/* Sorts the times and prints their middle. */
static void show(const char *program, const char *what, double times[ROUNDS])
{
    qsort(times, ROUNDS, sizeof(double), ascending);
    printf("%-28s %-10s %6.2f (%.2f to %.2f)\n", program, what, times[ROUNDS / 2], times[ROUNDS / 10],
           times[ROUNDS * 9 / 10]);
}

int main(int argc, char **argv)
{
    const char *build = getenv("BUILD");
    char box[512];
    char tankcost[512];
    static char output[OUTPUT_SIZE];
    double passed[2][ROUNDS], processor[2][ROUNDS];

    snprintf(box, sizeof box, "%s/tests/bench/box", build ? build : "build");
    snprintf(tankcost, sizeof tankcost, "%s/tankcost", build ? build : "build");
    char *bare[] = {box, NULL};
    char *demo[] = {tankcost, "--profiles", "profiles", NULL};
    char **command[] = {bare, argc > 1 ? argv + 1 : demo};

    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    unsetenv("LINES");
    unsetenv("COLUMNS");
    for (int round = -1; round < ROUNDS; round++) /* round -1 warms the caches */
        for (int which = 0; which < 2; which++) {
            struct start taken;
            if (!first_frame(command[which], output, &taken)) {
                fprintf(stderr, "%s drew no screen, but wrote:\n%s\n", command[which][0], output);
                return 1;
            }
            if (round >= 0) {
                passed[which][round] = taken.passed;
                processor[which][round] = taken.processor;
            }
        }
    printf("ms to the first frame: middle of %d (10-90 %%)\n", ROUNDS);
    for (int which = 0; which < 2; which++) {
        show(command[which][0], "passed", passed[which]);
        show(command[which][0], "processor", processor[which]);
    }
    printf("ratio %.2f of the time passed (goal: at most 2), %.2f of the processor's\n",
           passed[1][ROUNDS / 2] / passed[0][ROUNDS / 2],
           processor[1][ROUNDS / 2] / processor[0][ROUNDS / 2]);
    return 0;
}
