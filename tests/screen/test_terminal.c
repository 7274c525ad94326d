/* SPDX-License-Identifier: MIT */
/*
 * The program in a pseudo-terminal: it is given back as it was found, however
 * the program ends, and keys, sizes and signals arrive.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

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
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "core/base/text.h"

enum { PATIENCE = 10000 }; /* ms for what must happen */

/* The end of the last line, "help": its last letter stands in the corner and is drawn apart, after an escape.
 */
#define HINTS "hel\033"

#define TAKES "\033[?1049h" /* what xterm-256color is told at the start ... */
#define GIVES "\033[?1049l" /* ... and at the end */

/* What the child does other than usual. */
struct habits {
    const char *term; /* NULL: unset */
    bool plain;       /* no colours */
    bool ignores_hangup;
    const char *draws;  /* of the sheet doubts; NULL: as many as usual */
    const char *locale; /* NULL: C.UTF-8 */
    int columns, rows;  /* of the terminal; 0: 80, 24 */
};

static const struct habits usual = {.term = "xterm-256color"};

static char home[4096]; /* nothing is kept from one test for another, nor in anybody's own folder */
static pid_t child;
static int terminal = -1;
static struct tc_text output;
static struct termios before;

/* ---------------------------------------------------------------------------- child */

static void run_child(const struct habits *habits, const char *name)
{
    const char *build = getenv("BUILD");
    char program[512];
    setsid();
    close(terminal);
    int side = open(name, O_RDWR);
    if (side < 0 || ioctl(side, TIOCSCTTY, 0) || dup2(side, 0) < 0 || dup2(side, 1) < 0)
        _exit(100);
    setenv("LC_ALL", habits->locale ? habits->locale : "C.UTF-8", 1);
    unsetenv("XDG_DATA_HOME");
    setenv("HOME", home, 1);
    unsetenv("LINES");
    unsetenv("COLUMNS");
    if (habits->plain)
        setenv("NO_COLOR", "1", 1);
    else
        unsetenv("NO_COLOR");
    if (habits->term)
        setenv("TERM", habits->term, 1);
    else
        unsetenv("TERM");
    if (habits->ignores_hangup)
        signal(SIGHUP, SIG_IGN);
    snprintf(program, sizeof program, "%s/tankcost", build ? build : "build");
    execl(program, program, "--profiles", "tests/data/profiles", "--today", "2026-03-05", "--draws",
          habits->draws ? habits->draws : "2000", "spring", (char *)NULL);
    _exit(101);
}

static void start(const struct habits *habits)
{
    const struct winsize window = {.ws_row = (unsigned short)(habits->rows ? habits->rows : 24),
                                   .ws_col = (unsigned short)(habits->columns ? habits->columns : 80)};
    char name[128];
    terminal = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(terminal >= 0 && grantpt(terminal) == 0 && unlockpt(terminal) == 0);
    snprintf(name, sizeof name, "%s", ptsname(terminal));
    assert_int_equal(ioctl(terminal, TIOCSWINSZ, &window), 0);
    assert_int_equal(tcgetattr(terminal, &before), 0);
    tc_text_clear(&output);
    child = fork();
    assert_true(child >= 0);
    if (child == 0)
        run_child(habits, name);
}

/* --------------------------------------------------------------------------- parent */

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

/* Takes what the child writes within some ms; false where its side is closed. */
static bool take(int ms)
{
    char bytes[4096];
    struct pollfd wait = {.fd = terminal, .events = POLLIN};
    if (poll(&wait, 1, ms) <= 0)
        return true;
    ssize_t got = read(terminal, bytes, sizeof bytes);
    if (got <= 0)
        return false;
    tc_text_add_bytes(&output, bytes, (size_t)got);
    return true;
}

static bool wrote(const char *text)
{
    return strstr(tc_text_string(&output), text) != NULL;
}

/* Waits until the child has written a text since the last call. */
static void wait_for(const char *text)
{
    double end = now() + PATIENCE;
    while (!wrote(text)) {
        if (now() > end || !take(50))
            fail_msg("never wrote '%s'", text);
    }
}

static void forget(void)
{
    tc_text_clear(&output);
}

static void send_keys(const char *keys)
{
    assert_int_equal(write(terminal, keys, strlen(keys)), strlen(keys));
}

/* Waits until the child ends and returns its status as waitpid gives it. */
static int wait_for_end(void)
{
    int status = 0;
    double end = now() + PATIENCE;
    while (waitpid(child, &status, WNOHANG) == 0) {
        if (now() > end) {
            kill(child, SIGKILL);
            fail_msg("does not end");
        }
        take(10);
    }
    while (take(0) && poll(&(struct pollfd){.fd = terminal, .events = POLLIN}, 1, 0) > 0)
        ;
    child = 0;
    return status;
}

/* The terminal is in its old modes, the alternate screen left, the cursor seen, attributes off. */
static void assert_clean(void)
{
    struct termios after;
    assert_int_equal(tcgetattr(terminal, &after), 0);
    assert_int_equal(after.c_lflag, before.c_lflag);
    assert_int_equal(after.c_iflag, before.c_iflag);
    assert_int_equal(after.c_oflag, before.c_oflag);
    assert_memory_equal(after.c_cc, before.c_cc, sizeof after.c_cc);
    const char *text = tc_text_string(&output), *last = NULL;
    for (const char *at = text; (at = strstr(at, "\033[?1049")) != NULL; at++)
        last = at;
    assert_non_null(last);
    assert_memory_equal(last, GIVES, strlen(GIVES));
}

static int end(void **state)
{
    (void)state;
    if (child > 0) {
        kill(child, SIGKILL);
        waitpid(child, NULL, 0);
        child = 0;
    }
    if (terminal >= 0)
        close(terminal);
    terminal = -1;
    tc_text_free(&output);
    return 0;
}

/* ---------------------------------------------------------------------------- tests */

static void test_leaving(void **state)
{
    (void)state;
    start(&usual);
    wait_for(HINTS);
    assert_true(wrote(TAKES));
    send_keys("q");
    int status = wait_for_end();
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    assert_clean();
}

/* The first of these ask to end and are seen by the parent; the others are crashes. */
static void test_signals(void **state)
{
    static const int numbers[] = {SIGTERM, SIGHUP,  SIGINT,  SIGQUIT, SIGSEGV, SIGABRT,  SIGBUS,
                                  SIGFPE,  SIGPIPE, SIGALRM, SIGUSR1, SIGUSR2, SIGXCPU,  SIGXFSZ,
                                  SIGILL,  SIGSYS,  SIGTRAP, SIGPROF, SIGPOLL, SIGVTALRM};
    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        start(&usual);
        wait_for(HINTS);
        send_keys("5"); /* in the middle of typing */
        wait_for("price");
        kill(child, numbers[i]);
        int status = wait_for_end();
        assert_true(WIFSIGNALED(status));
        assert_int_equal(WTERMSIG(status), numbers[i]);
        assert_clean();
        end(NULL);
    }
}

/* ^C is a key: it leaves, but not with a plan that has changed. */
static void test_break(void **state)
{
    (void)state;
    start(&usual);
    wait_for(HINTS);
    send_keys("45\r");
    wait_for("45.00");
    forget();
    send_keys("\003");
    wait_for("is not saved");
    send_keys("\003"); /* not twice either */
    forget();
    send_keys("u\003");
    int status = wait_for_end();
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

static void test_terminal_that_goes_away(void **state)
{
    static const struct habits stubborn = {.term = "xterm-256color", .ignores_hangup = true};
    (void)state;
    start(&usual);
    wait_for(HINTS);
    close(terminal);
    terminal = -1;
    int status = 0;
    double last = now() + PATIENCE;
    while (waitpid(child, &status, WNOHANG) == 0 && now() < last)
        poll(NULL, 0, 5);
    assert_true(WIFSIGNALED(status));
    assert_int_equal(WTERMSIG(status), SIGHUP);
    child = 0;

    start(&stubborn); /* nohup: the end of input is noticed, and nothing spins */
    wait_for(HINTS);
    close(terminal);
    terminal = -1;
    last = now() + PATIENCE;
    while (waitpid(child, &status, WNOHANG) == 0 && now() < last)
        poll(NULL, 0, 5);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
    child = 0;
}

static void test_no_terminal_to_draw_on(void **state)
{
    static const char *const terms[] = {"dumb", "", "no-such-terminal", NULL};
    (void)state;
    for (size_t i = 0; i < sizeof terms / sizeof terms[0]; i++) {
        start(&(struct habits){.term = terms[i]});
        int status = wait_for_end();
        assert_true(WIFEXITED(status));
        assert_true(wrote("What each costs")); /* in its place, the bill as text */
        /* Nothing drives the terminal; where it may be a good one, words may be coloured. */
        assert_null(strstr(tc_text_string(&output), "\033[?"));
        assert_null(strstr(tc_text_string(&output), "\033[H"));
        if (i < 2 || !terms[i])
            assert_null(strchr(tc_text_string(&output), '\033'));
        end(NULL);
    }
}

/* Bytes that are no characters of the locale are left out; they are no end of input. */
static void test_bytes_of_another_encoding(void **state)
{
    static const struct habits ascii = {.term = "xterm-256color", .locale = "C"};
    (void)state;
    for (int round = 0; round < 2; round++) {
        start(round == 0 ? &ascii : &usual);
        wait_for(HINTS);
        send_keys("45\r");
        wait_for("45.00");
        send_keys("s");
        wait_for("Save the plan");
        forget();
        for (int i = 0; i < 300; i++)
            send_keys(round == 0 ? "\xD0\xB6" : "\xFE\xFF");
        /* What follows at once may count as the rest of a broken character. */
        for (double last = now() + PATIENCE; !wrote("z") && now() < last; take(50))
            send_keys("z");
        send_keys("\003\003");
        wait_for("is not saved");
        send_keys("q");
        assert_true(WIFEXITED(wait_for_end()));
        end(NULL);
    }
}

static void test_pasted_text_reaches_neither_keys_nor_shell(void **state)
{
    char name[128];
    int waiting = -1;
    (void)state;
    start(&usual);
    snprintf(name, sizeof name, "%s", ptsname(terminal));
    int side = open(name, O_RDWR | O_NOCTTY); /* keeps what is left for a shell */
    assert_true(side >= 0);
    wait_for(HINTS);
    assert_true(wrote("\033[?2004h"));
    send_keys("\033[200~quick\rnotes\r\033[201~");
    wait_for("Text can be pasted");
    forget();
    send_keys("f\033[200~pasted\033"); /* what ends it comes apart: no Esc, or the rest would be typed */
    const struct timespec apart = {.tv_nsec = 60000000};
    nanosleep(&apart, NULL);
    send_keys("[201~end");
    wait_for("pastedend");
    send_keys("\003"); /* out of the line */
    send_keys("q\ntouch it\n");
    assert_true(WIFEXITED(wait_for_end()));
    assert_true(wrote("\033[?2004l"));
    assert_int_equal(ioctl(side, FIONREAD, &waiting), 0);
    assert_int_equal(waiting, 0);
    close(side);
    assert_clean();
}

/* A terminal may say that it has any size. */
static void test_a_terminal_without_bounds(void **state)
{
    static const struct habits vast = {.term = "xterm-256color", .columns = 40000, .rows = 40};
    const struct winsize window = {.ws_row = 40000, .ws_col = 100};
    (void)state;
    start(&vast);
    wait_for("help");
    forget();
    assert_int_equal(ioctl(terminal, TIOCSWINSZ, &window), 0);
    wait_for("help");
    send_keys("q");
    int status = wait_for_end();
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    assert_clean();
}

/* Long work tells how far it is, lets one move about, and is stopped by Esc or interrupted by another key. */
static void test_long_work(void **state)
{
    static const struct habits patient = {.term = "xterm-256color", .draws = "10000000"};
    (void)state;
    start(&patient);
    wait_for(HINTS);
    forget();
    send_keys("gdoubts\r");
    wait_for("Working it out");
    send_keys("\033OB"); /* does not begin anew */
    forget();
    send_keys("\033");
    wait_for("Stopped.");
    forget();
    send_keys("\r");
    wait_for("Working it out");
    forget();
    send_keys("gbill\r\014"); /* away from it in the middle of the work, and drawn whole */
    wait_for("To buy");
    forget();
    send_keys("gdoubts\r");
    wait_for("Working it out");
    kill(child, SIGTERM);
    int status = wait_for_end();
    assert_true(WIFSIGNALED(status));
    assert_int_equal(WTERMSIG(status), SIGTERM);
    assert_clean();
}

static void test_resizing(void **state)
{
    static const struct winsize sizes[] = {{.ws_row = 10, .ws_col = 40},
                                           {.ws_row = 1, .ws_col = 1},
                                           {.ws_row = 60, .ws_col = 200},
                                           {.ws_row = 24, .ws_col = 80}};
    static const char *const texts[] = {"terminal is 40", GIVES, "Over the period, as paid", "1 to "};
    (void)state;
    start(&usual);
    wait_for(HINTS);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        forget();
        assert_int_equal(ioctl(terminal, TIOCSWINSZ, &sizes[i]), 0);
        if (sizes[i].ws_col > 1)
            wait_for(texts[i]);
    }
    send_keys("q");
    assert_int_equal(WEXITSTATUS(wait_for_end()), 0);
    assert_clean();
}

static void test_keys_arrive(void **state)
{
    (void)state;
    start(&usual);
    wait_for(HINTS);
    forget();
    double begin = now();
    send_keys("t");
    wait_for("Tanks to compare");
    forget();
    send_keys("\033"); /* Esc alone: not held back for long as the beginning of another key */
    wait_for(HINTS);
    assert_true(now() - begin < 3000);
    forget();
    send_keys("\033[1;5P\033[57445u\033[I"); /* keys and reports nobody knows: no digit of them is typed */
    send_keys("f\303\251");                  /* two bytes, one character */
    wait_for("\303\251");
    assert_false(wrote("29-high: price"));
    send_keys("\033");
    forget();
    send_keys("\033OB\033OB"); /* arrows as xterm sends them */
    wait_for("light");
    send_keys("q");
    assert_int_equal(WEXITSTATUS(wait_for_end()), 0);
}

/* A plain vt100 knows neither colours nor Page Down nor the alternate screen; what is typed on it has them.
 */
static void test_vt100(void **state)
{
    (void)state;
    start(&(struct habits){.term = "vt100"});
    wait_for(HINTS);
    forget();
    send_keys("\033[6~");
    wait_for("substrate");
    assert_false(wrote("price of one"));
    const struct winsize higher = {.ws_row = 40, .ws_col = 80};
    forget();
    assert_int_equal(ioctl(terminal, TIOCSWINSZ, &higher), 0);
    wait_for("\033[1;40r"); /* all its lines are the screen's, which its description knows 24 of */
    send_keys("\033[Aq");
    assert_int_equal(WEXITSTATUS(wait_for_end()), 0);
    struct termios after;
    assert_int_equal(tcgetattr(terminal, &after), 0);
    assert_int_equal(after.c_lflag, before.c_lflag);
}

static void test_without_colour(void **state)
{
    static const struct habits plain = {.term = "xterm-256color", .plain = true};
    (void)state;
    start(&usual);
    wait_for(HINTS);
    assert_true(wrote("\033[36m") || wrote("\033[1;36m") || wrote("\033[36;") || wrote("\033[35m"));
    end(NULL);
    start(&plain);
    wait_for(HINTS);
    for (int colour = 30; colour < 48; colour++) {
        char code[16];
        snprintf(code, sizeof code, "%dm", colour);
        assert_false(wrote(code));
    }
}

static void test_mouse(void **state)
{
    (void)state;
    start(&usual);
    wait_for(HINTS);
    assert_false(wrote("\033[?1000")); /* not until asked for */
    send_keys("m");
    wait_for("\033[?1006;1000h");
    forget();
    send_keys("\033[<0;57;22M"); /* a click on a figure: pressed, let go */
    wait_for("\033[0;7m");       /* it is selected */
    send_keys("\033[<0;57;22m");
    send_keys("\033[<0;57;22M"); /* and again to type it over */
    wait_for("price");
    kill(child, SIGSEGV);
    wait_for_end();
    assert_true(wrote("\033[?1000l"));
    assert_clean();
}

static int make_home(void **state)
{
    const char *build = getenv("BUILD");
    char folder[128];
    (void)state;
    snprintf(folder, sizeof folder, "%s/terminal-XXXXXX", build ? build : "build");
    return mkdtemp(folder) && realpath(folder, home) ? 0 : -1;
}

static int remove_home(void **state)
{
    char command[sizeof home + 16];
    (void)state;
    snprintf(command, sizeof command, "rm -rf '%s'", home);
    return system(command);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(test_leaving, end),
        cmocka_unit_test_teardown(test_signals, end),
        cmocka_unit_test_teardown(test_break, end),
        cmocka_unit_test_teardown(test_terminal_that_goes_away, end),
        cmocka_unit_test_teardown(test_no_terminal_to_draw_on, end),
        cmocka_unit_test_teardown(test_bytes_of_another_encoding, end),
        cmocka_unit_test_teardown(test_pasted_text_reaches_neither_keys_nor_shell, end),
        cmocka_unit_test_teardown(test_a_terminal_without_bounds, end),
        cmocka_unit_test_teardown(test_long_work, end),
        cmocka_unit_test_teardown(test_resizing, end),
        cmocka_unit_test_teardown(test_keys_arrive, end),
        cmocka_unit_test_teardown(test_vt100, end),
        cmocka_unit_test_teardown(test_without_colour, end),
        cmocka_unit_test_teardown(test_mouse, end),
    };
    return cmocka_run_group_tests(tests, make_home, remove_home);
}
