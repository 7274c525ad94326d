/* SPDX-License-Identifier: MIT */
/*
 * Time from a key to the last byte of the picture that answers it, in a
 * pseudo-terminal of 80x24 and of 200x60 with the demo, in every sheet and
 * every kind of form; beside it, in the same run, the time in which cat(1)
 * there echoes a line. A frame has 16 ms; 95 of 100 keys should need 4.
 *
 *     bench_screen [PROGRAM [ARGUMENT...]]    another program in place of tankcost
 *
 * The processor's time for a key, that of the program alone, hardly grows on
 * a busy machine. The program finds an empty home with one tank in it. A key
 * on the way to a place that is answered by nothing ends the benchmark: it
 * would measure something else.
 */
#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "profile/kind.h"
#include "sheet/question.h"

enum {
    ROUNDS = 40,
    SILENCE = 40,    /* ms without output after which a picture counts as drawn */
    WORK = 500,      /* the same where much is worked out: its progress is shown ten times a second */
    PATIENCE = 5000, /* ms until a program that has drawn nothing is given up */
    FRAME = 16,      /* ms */
    GOAL = 4,
    PLACES = 64
};

static int terminal;
static pid_t child;
static char home[] = "/tmp/tankcost-bench-XXXXXX";

/* What was measured, for the worst of all. */
static struct {
    char what[80];
    double most, processor; /* of 95 % */
} places[PLACES];
static size_t place_count;

static double milliseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

/* Milliseconds the processor has spent on the child. */
static double processor_time(void)
{
    struct timespec spent;
    clockid_t clock;
    if (clock_getcpuclockid(child, &clock) != 0 || clock_gettime(clock, &spent) != 0)
        return 0;
    return (double)spent.tv_sec * 1e3 + (double)spent.tv_nsec / 1e6;
}

static int remove_one(const char *path, const struct stat *about, int type, struct FTW *at)
{
    (void)about;
    (void)type;
    (void)at;
    return remove(path);
}

static void stop(void)
{
    if (child <= 0)
        return;
    kill(child, SIGTERM);
    for (char rest[4096]; read(terminal, rest, sizeof rest) > 0;)
        ;
    close(terminal);
    waitpid(child, NULL, 0);
    child = 0;
}

static void leave(int status)
{
    stop();
    nftw(home, remove_one, 8, FTW_DEPTH | FTW_PHYS);
    exit(status);
}

static void die(const char *what)
{
    perror(what);
    leave(3);
}

/* ---------------------------------------------------------------------- the terminal */

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

/* Reads until the child is silent for a time; how long its last byte took from `begin`, or -1 if none came.
 */
static double answer(double begin, int silence, int patience)
{
    char bytes[65536];
    double last = -1;
    for (;;) {
        struct pollfd wait = {.fd = terminal, .events = POLLIN};
        int ready = poll(&wait, 1, last < 0 ? patience : silence);
        if (ready < 0 && errno == EINTR)
            continue;
        if (ready <= 0 || read(terminal, bytes, sizeof bytes) <= 0)
            return last;
        last = milliseconds() - begin;
    }
}

static void press(const char *key)
{
    if (write(terminal, key, strlen(key)) < 0)
        die("write");
}

/* A key on the way to a place, which has to be answered; it is waited for until all is drawn. */
static void go_wait(const char *what, const char *key, int silence)
{
    press(key);
    if (answer(milliseconds(), silence, PATIENCE) >= 0)
        return;
    fprintf(stderr, "bench_screen: on the way to %s the key '%s' was not answered\n", what,
            key[0] == '\033' ? key + 1 : key);
    leave(1);
}

static void go(const char *what, const char *key)
{
    go_wait(what, key, SILENCE);
}

static void go_letters(const char *what, const char *letters)
{
    for (const char *letter = letters; *letter; letter++)
        go(what, (const char[]){*letter, '\0'});
}

/* ------------------------------------------------------------------------- measuring */

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/*
 * Presses the keys in turn, ROUNDS times in all, and reports how long the
 * answers took: all, or those to one of the keys. A key at a border is answered
 * by nothing.
 */
static void measure(const char *what, const char *const *keys, int count, int which)
{
    double times[ROUNDS], processor[ROUNDS];
    int answered = 0, asked = 0, over = 0;
    for (int i = 0; asked < ROUNDS; i++) {
        double begin = milliseconds(), before = processor_time();
        press(keys[i % count]);
        double took = answer(begin, SILENCE, 4 * SILENCE);
        if (which >= 0 && i % count != which)
            continue;
        asked++;
        if (took < 0)
            continue;
        times[answered] = took;
        processor[answered++] = processor_time() - before;
        over += took > FRAME;
    }
    if (2 * answered < asked) {
        fprintf(stderr, "bench_screen: %s: %d of %d keys were answered\n", what, answered, asked);
        leave(1);
    }
    qsort(times, (size_t)answered, sizeof times[0], ascending);
    qsort(processor, (size_t)answered, sizeof processor[0], ascending);
    int at = answered * 95 / 100;
    printf(
        "  %-32s median %6.2f  95 %% %6.2f  most %6.2f ms  over a frame %d of %d  processor 95 %% %6.2f%s\n",
        what, times[answered / 2], times[at], times[answered - 1], over, answered, processor[at],
        times[at] > FRAME  ? "  OVER A FRAME"
        : times[at] > GOAL ? "  over the goal"
                           : "");
    if (place_count < PLACES) {
        snprintf(places[place_count].what, sizeof places[0].what, "%s", what);
        places[place_count].most = times[at];
        places[place_count++].processor = processor[at];
    }
}

#define KEYS(...)                                                                                            \
    (const char *const[]){__VA_ARGS__}, (int)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *))
#define ALL (-1)

/* ---------------------------------------------------------------------------- places */

static void put_profile(const char *folder, const char *text)
{
    char path[sizeof home + 64];
    snprintf(path, sizeof path, "%s/own", home);
    mkdir(path, 0777);
    snprintf(path, sizeof path, "%s/own/%s", home, folder);
    mkdir(path, 0777);
    snprintf(path, sizeof path, "%s/own/%s/own.ini", home, folder);
    FILE *file = fopen(path, "w");
    if (!file || fputs(text, file) == EOF || fclose(file) != 0)
        die(path);
}

/*
 * A home without plans that an earlier run has left, with a profile of its own,
 * or it would be asked for first, and with what the demonstration has none of.
 */
static void furnish(void)
{
    nftw(home, remove_one, 8, FTW_DEPTH | FTW_PHYS);
    if (mkdir(home, 0777) != 0)
        die(home);
    put_profile("tanks", "[tank bench]\nlength = 30 in\nwidth = 12 in\nheight = 18 in\nprice = 60 USD\n");
    put_profile("setups", "[extra bench]\ntitle = Food\namount = 60 USD\n");
}

static void start_at_sheet(char *const command[], unsigned short columns, unsigned short rows)
{
    furnish();
    start(command, columns, rows);
    printf("%dx%d\n", columns, rows);
    if (answer(milliseconds(), WORK, PATIENCE) < 0) {
        fprintf(stderr, "bench_screen: nothing was drawn\n");
        leave(1);
    }
}

/* Goes by its name to each sheet, waits until that is worked out, and moves about in it. */
static void measure_sheets(void)
{
    for (size_t i = 0; tc_question_at(i); i++) {
        const char *name = tc_question_at(i)->name;
        if (strcmp(name, "wall") == 0)
            continue; /* the plan has none: nothing moves there */
        go(name, "g");
        go_letters(name, name);
        go_wait(name, "\r", WORK);
        measure(name, KEYS("\033OB", "\033OC", "\033OA", "\033OD"), ALL);
    }
}

static void measure_wall(char *const command[], unsigned short columns, unsigned short rows)
{
    start_at_sheet(command, columns, rows);
    go("wall", "g");
    go_letters("wall", "wall");
    go_wait("wall", "\r", WORK);
    measure("wall", KEYS("\033OB", "\033OB", "\033OA"), ALL);
    stop();
}

/* The form of the first section of each kind: it is the second line of their list, the first makes a new one.
 */
static void measure_forms(void)
{
    for (size_t i = 0; tc_kind_at(i); i++) {
        const struct tc_kind *kind = tc_kind_at(i);
        if (kind->head != TC_HEAD_ITEM && kind->head != TC_HEAD_PRICES)
            continue;
        char what[64];
        snprintf(what, sizeof what, "form of a %s", kind->name);
        go(what, "e");
        go_letters(what, kind->name);
        go(what, "\r");
        for (int down = 0; down < (tc_kind_is_goods(kind) ? 2 : 1); down++)
            go(what, "\033OB");
        go(what, "\r");
        measure(what, KEYS("\033OB", "\033OA"), ALL);
        for (int back = 0; back < 3; back++)
            go(what, "\033");
    }
}

static void measure_screen(char *const command[], unsigned short columns, unsigned short rows)
{
    start_at_sheet(command, columns, rows);
    measure("a price typed: a digit, Enter", KEYS("4", "\r", "5", "\r", "6", "\r"), ALL);
    measure("a line down, a line up", KEYS("\033OB", "\033OB", "\033OA"), ALL);
    measure("a screenful down and up", KEYS("\033[6~", "\033[5~"), ALL);
    measure("undo and again", KEYS("u", "U"), ALL);
    measure("the list of tanks, and back", KEYS("t", "2", "9", "\033"), ALL);
    measure("the list of assumptions, and back", KEYS("a", "w", "\033"), ALL);
    measure("to years, sale, energy and back", KEYS("g2", "g3", "g4", "g1"), ALL);
    measure("help", KEYS("h", "\033"), 0);
    measure("Esc from help", KEYS("h", "\033"), 1);
    if (columns > 80) {
        measure_sheets();
        measure_forms();
    }
    stop();
}

static int worst_first(const void *a, const void *b)
{
    return ascending(&places[*(const size_t *)b].most, &places[*(const size_t *)a].most);
}

int main(int argc, char **argv)
{
    const char *build = getenv("BUILD");
    char tankcost[512], own[sizeof home + 8];
    snprintf(tankcost, sizeof tankcost, "%s/tankcost", build ? build : "build");
    if (!mkdtemp(home))
        die("mkdtemp");
    snprintf(own, sizeof own, "%s/own", home);
    char *demo[] = {tankcost, "--profiles", own, "--today", "2026-03-10", NULL};
    char *wall[] = {tankcost, "new-wall", "--profiles", own, "--today", "2026-03-10", NULL};
    char *echo[] = {"cat", NULL};
    char **command = argc > 1 ? argv + 1 : demo;

    setvbuf(stdout, NULL, _IOLBF, 0);
    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("TANKCOST_DATA", "profiles", 1);
    setenv("HOME", home, 1);
    static const char *const others[] = {"LINES", "COLUMNS", "XDG_DATA_HOME", "XDG_CONFIG_HOME",
                                         "XDG_STATE_HOME"};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        unsetenv(others[i]);
    start(echo, 80, 24);
    printf("cat(1)\n");
    measure("echoes a line", KEYS("45\n"), ALL);
    stop();
    measure_screen(command, 80, 24);
    measure_screen(command, 200, 60);
    measure_wall(argc > 1 ? command : wall, 200, 60);

    size_t order[PLACES] = {0};
    for (size_t i = 0; i < place_count; i++)
        order[i] = i;
    double echoed = places[0].most;
    qsort(order, place_count, sizeof order[0], worst_first);
    printf("the slowest, 95 %% of their keys: ms, and how often as long as cat(1) takes for a line\n");
    for (size_t i = 0; i < 5 && i < place_count; i++)
        printf("  %-32s %6.2f ms %6.1f times\n", places[order[i]].what, places[order[i]].most,
               places[order[i]].most / echoed);
    printf("goals: %d ms, at most a frame of %d ms\n", GOAL, FRAME);
    leave(0);
}
