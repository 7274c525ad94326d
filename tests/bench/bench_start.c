/* SPDX-License-Identifier: MIT */
/*
 * Time from start to the first drawn frame, of tankcost with the demo, of
 * tankcost with 10 000 tanks and 20 price lists of 1000 prices beside it, and of
 * a bare ncurses program that draws one box, by turns in the same run.
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
 * for others to have their turn on a busy machine does not grow as much. The
 * memory is the most that was resident.
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
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum {
    ROUNDS = 41,
    FRAME = 150,     /* bytes: less is a terminal being prepared, not yet a frame */
    SILENCE = 40,    /* ms without output after which a frame counts as drawn */
    PATIENCE = 5000, /* ms until a program that has drawn nothing is given up */
    OUTPUT_SIZE = 65536,
    MANY = 3, /* commands that are compared */
    TANKS = 10000,
    FILES = 10, /* that they lie in */
    SHOPS = 20,
    PRICES = 1000 /* of each */
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
    long memory; /* KiB */
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
    *taken = (struct start){last - begin, processor_time(child), 0};
    kill(child, SIGTERM);
    /* What it still writes while it puts the terminal right must not block it. */
    for (char rest[256]; read(terminal, rest, sizeof rest) > 0;)
        ;
    struct rusage usage;
    if (wait4(child, NULL, 0, &usage) == child)
        taken->memory = usage.ru_maxrss;
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

/* ------------------------------------------------------------------- many profiles */

static FILE *open_profile(const char *folder, const char *kind, int number)
{
    char path[600];
    snprintf(path, sizeof path, "%s/%s", folder, kind);
    mkdir(path, 0777);
    snprintf(path, sizeof path, "%s/%s/%d.ini", folder, kind, number);
    FILE *file = fopen(path, "w");
    if (!file)
        die(path);
    return file;
}

static void write_many(const char *folder)
{
    for (int f = 0; f < FILES; f++) {
        FILE *file = open_profile(folder, "tanks", f);
        for (int i = f * (TANKS / FILES); i < (f + 1) * (TANKS / FILES); i++)
            fprintf(file,
                    "[tank size-%d]\ntitle = Tank %d\nlength = %d in\nwidth = %d in\nheight = %d in\n"
                    "glass = %d mm\n\n",
                    i, i, 16 + i % 60, 8 + i % 20, 10 + i % 18, 5 + i % 8);
        if (fclose(file) != 0)
            die("fclose");
    }
    for (int shop = 0; shop < SHOPS; shop++) {
        FILE *file = open_profile(folder, "shops", shop);
        fprintf(file, "[shop shop-%d]\nregion = lowmere\n\n[prices shop-%d tank]\n", shop, shop);
        for (int i = 0; i < PRICES; i++)
            fprintf(file, "size-%d = %d.50\n", i * (TANKS / PRICES) + shop % (TANKS / PRICES), 20 + i % 300);
        if (fclose(file) != 0)
            die("fclose");
    }
}

static void remove_many(const char *folder)
{
    char path[600];
    int most = FILES > SHOPS ? FILES : SHOPS;
    for (int i = 0; i < most; i++) {
        snprintf(path, sizeof path, "%s/tanks/%d.ini", folder, i);
        unlink(path);
        snprintf(path, sizeof path, "%s/shops/%d.ini", folder, i);
        unlink(path);
    }
    snprintf(path, sizeof path, "%s/tanks", folder);
    rmdir(path);
    snprintf(path, sizeof path, "%s/shops", folder);
    rmdir(path);
    rmdir(folder);
}

int main(int argc, char **argv)
{
    const char *build = getenv("BUILD");
    char box[512];
    char tankcost[512];
    char folder[] = "/tmp/tankcost-bench-XXXXXX";
    static char output[OUTPUT_SIZE];
    static const char *const names[MANY] = {"a bare box", "tankcost, demo", "tankcost, 10 000 tanks"};
    double passed[MANY][ROUNDS], processor[MANY][ROUNDS];
    long memory[MANY] = {0};
    bool drawn = true;

    snprintf(box, sizeof box, "%s/tests/bench/box", build ? build : "build");
    snprintf(tankcost, sizeof tankcost, "%s/tankcost", build ? build : "build");
    if (!mkdtemp(folder))
        die("mkdtemp");
    write_many(folder);
    char *bare[] = {box, NULL};
    char *demo[] = {tankcost, "--today", "2026-11-25", NULL};
    char *many[] = {tankcost, "--today", "2026-11-25", "--profiles", folder, NULL};
    char **command[MANY] = {bare, argc > 1 ? argv + 1 : demo, many};

    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("TANKCOST_DATA", "profiles", 1);
    setenv("HOME", "/nowhere", 1); /* what lies in a real one would be read and asked about */
    unsetenv("XDG_DATA_HOME");
    unsetenv("XDG_CONFIG_HOME");
    unsetenv("XDG_STATE_HOME");
    unsetenv("LINES");
    unsetenv("COLUMNS");
    for (int round = -1; round < ROUNDS && drawn; round++) /* round -1 warms the caches */
        for (int which = 0; which < MANY && drawn; which++) {
            struct start taken;
            drawn = first_frame(command[which], output, &taken);
            if (!drawn)
                fprintf(stderr, "%s drew no screen, but wrote:\n%s\n", command[which][0], output);
            if (drawn && round >= 0) {
                passed[which][round] = taken.passed;
                processor[which][round] = taken.processor;
                memory[which] = taken.memory > memory[which] ? taken.memory : memory[which];
            }
        }
    remove_many(folder);
    if (!drawn)
        return 1;
    printf("ms to the first frame: middle of %d (10-90 %%)\n", ROUNDS);
    for (int which = 0; which < MANY; which++) {
        show(names[which], "passed", passed[which]);
        show(names[which], "processor", processor[which]);
        printf("%-28s %-10s %6.1f MiB at most\n", names[which], "memory", (double)memory[which] / 1024);
    }
    for (int which = 1; which < MANY; which++)
        printf("%s: ratio %.2f of the time passed, %.2f of the processor's\n", names[which],
               passed[which][ROUNDS / 2] / passed[0][ROUNDS / 2],
               processor[which][ROUNDS / 2] / processor[0][ROUNDS / 2]);
    printf("goals: the demo at most twice the bare box; 10 000 tanks within 50 ms and 64 MiB\n");
    return 0;
}
