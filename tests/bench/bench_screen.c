/* SPDX-License-Identifier: MIT */
/*
 * Time from a key to the last byte of the picture that answers it, in a
 * pseudo-terminal of 80x24 and of 200x60 with the demo; beside it, in the same
 * run, the time in which cat(1) there echoes a line. A frame has 16 ms.
 *
 *     bench_screen [PROGRAM [ARGUMENT...]]    another program in place of tankcost
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

#include "sheet/question.h"

enum {
    ROUNDS = 60,
    SILENCE = 60, /* ms without output after which a picture counts as drawn */
    START = 3000, /* the same while it starts and has drawn nothing yet */
    FRAME = 16    /* ms */
};

static int terminal;
static pid_t child;

static double milliseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void die(const char *what)
{
    perror(what);
    exit(3);
}

static void start(char *const command[], unsigned short columns, unsigned short rows)
{
    const struct winsize window = {.ws_row = rows, .ws_col = columns};
    terminal = posix_openpt(O_RDWR | O_NOCTTY);
    if (terminal < 0 || grantpt(terminal) || unlockpt(terminal) || ioctl(terminal, TIOCSWINSZ, &window))
        die("pseudo-terminal");
    const char *name = ptsname(terminal);
    child = fork();
    if (child < 0)
        die("fork");
    if (child > 0)
        return;
    setsid();
    int side = open(name, O_RDWR);
    if (side < 0 || ioctl(side, TIOCSCTTY, 0) || dup2(side, 0) < 0 || dup2(side, 1) < 0 || dup2(side, 2) < 0)
        _exit(126);
    close(terminal);
    execvp(command[0], command);
    _exit(127);
}

/* Reads until the child falls silent; returns when its last byte came, or `begin` if none did. */
static double last_byte(double begin)
{
    char bytes[65536];
    double last = begin;
    for (;;) {
        struct pollfd wait = {.fd = terminal, .events = POLLIN};
        int ready = poll(&wait, 1, last == 0 ? START : SILENCE);
        if (ready < 0 && errno == EINTR)
            continue;
        if (ready <= 0 || read(terminal, bytes, sizeof bytes) <= 0)
            return last;
        last = milliseconds();
    }
}

static void stop(void)
{
    kill(child, SIGTERM);
    last_byte(0);
    close(terminal);
    waitpid(child, NULL, 0);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Presses the keys in turn, ROUNDS times in all, and reports how long the answers took. */
static void measure(const char *what, const char *const *keys, int count)
{
    double times[ROUNDS];
    int over = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const char *key = keys[i % count];
        double begin = milliseconds();
        if (write(terminal, key, strlen(key)) < 0)
            die("write");
        times[i] = last_byte(begin) - begin;
        over += times[i] > FRAME;
    }
    qsort(times, ROUNDS, sizeof times[0], ascending);
    printf("  %-34s median %6.2f  95 %% %6.2f  most %6.2f ms  over a frame %d of %d\n", what,
           times[ROUNDS / 2], times[ROUNDS * 95 / 100], times[ROUNDS - 1], over, ROUNDS);
}

#define KEYS(...)                                                                                            \
    (const char *const[]){__VA_ARGS__}, (int)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *))

/* A start without profiles of one's own asks for them first: not here. */
static void start_at_sheet(char *const command[], unsigned short columns, unsigned short rows)
{
    start(command, columns, rows);
    last_byte(0);
    if (write(terminal, "\033", 1) < 0)
        die("write");
    last_byte(milliseconds());
}

/* Goes by keys to where it is, waits until that is worked out, and measures what moves there. */
static void measure_at(const char *what, const char *keys)
{
    char said[64];
    if (write(terminal, keys, strlen(keys)) < 0)
        die("write");
    last_byte(0);
    snprintf(said, sizeof said, "%s: down, right, up, left", what);
    measure(said, KEYS("\033OB", "\033OC", "\033OA", "\033OD"));
}

/* Every sheet, and the form of a tank of one's own. */
static void measure_places(char *const command[], unsigned short columns, unsigned short rows)
{
    start_at_sheet(command, columns, rows);
    printf("%dx%d, in each sheet and form\n", columns, rows);
    for (size_t i = 0; tc_question_at(i); i++) {
        char keys[64];
        snprintf(keys, sizeof keys, "g%s\r", tc_question_at(i)->name);
        measure_at(tc_question_at(i)->name, keys);
    }
    measure_at("form", "gbill\rnbench\r");
    stop();
}

static void measure_screen(char *const command[], unsigned short columns, unsigned short rows)
{
    start_at_sheet(command, columns, rows);
    printf("%dx%d\n", columns, rows);
    measure("a price typed: a digit, Enter", KEYS("4", "\r", "5", "\r", "6", "\r"));
    measure("a line down, a line up", KEYS("\033OB", "\033OB", "\033OA"));
    measure("a screenful down and up", KEYS("\033[6~", "\033[5~"));
    measure("undo and again", KEYS("u", "U"));
    measure("the list of tanks, and back", KEYS("t", "2", "9", "\033"));
    measure("the list of assumptions, and back", KEYS("a", "w", "\033"));
    measure("to years, sale, energy and back", KEYS("g2", "g3", "g4", "g1"));
    measure("help, and back", KEYS("h", "\033"));
    stop();
}

int main(int argc, char **argv)
{
    const char *build = getenv("BUILD");
    char tankcost[512];
    snprintf(tankcost, sizeof tankcost, "%s/tankcost", build ? build : "build");
    char *demo[] = {tankcost, "--profiles", "profiles", "--today", "2026-03-10", NULL};
    char *echo[] = {"cat", NULL};
    char **command = argc > 1 ? argv + 1 : demo;

    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    unsetenv("LINES");
    unsetenv("COLUMNS");
    start(echo, 80, 24);
    last_byte(0);
    printf("cat(1)\n");
    measure("echoes a line", KEYS("45\n"));
    stop();
    measure_screen(command, 80, 24);
    measure_screen(command, 200, 60);
    measure_places(command, 200, 60);
    return 0;
}
