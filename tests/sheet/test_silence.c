/* SPDX-License-Identifier: MIT */
/* A wall of twelve models is never silent for long: who waits is told how far it is, and asked whether to go
 * on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <time.h>

#include "sheet/wall.h"
#include "support/made_wall_study.h"
#include "support/step.h"

/* Seconds. */
#define LONGEST 1.0

struct silence {
    double since, longest;
    int asked;
};

/* The processor's, of this thread: that does not grow on a busy machine. */
static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

static bool listen(void *context, double done)
{
    struct silence *silence = context;
    double since = now() - silence->since;
    assert_true(done >= 0 && done <= 1);
    silence->longest = since > silence->longest ? since : silence->longest;
    silence->since = now();
    silence->asked++;
    return true;
}

/* With one thread, which does all the work; on the command line, and at the screen, which asks for less. */
static void a_wall_of_twelve_models_is_never_silent(void **state)
{
    static struct made made;
    struct tc_random random;
    if (test_step() > 1)
        skip(); /* a tool that makes all of it slow tells nothing of time */
    tc_random_seed(&random, 5, 0);
    for (int wall = 0; wall < 3; wall++) {
        struct tc_plan plan = made_long_wall(*state, &random);
        if (wall == 0)
            continue; /* it takes thrice as long as the next, and is as silent */
        made_study(&made, state, &plan, made_today);
        struct silence silence = {.since = now()};
        const struct tc_ask ask = {
            .threads = 1, .go_on = listen, .context = &silence, .at_screen = wall == 1};
        struct tc_sheet sheet;
        double begin = now();
        assert_int_equal(tc_make_wall(&made.study, &ask, &sheet), TC_OK);
        listen(&silence, 1);
        print_message("%.2f s, asked %d times, silent for %.3f s at most\n", now() - begin, silence.asked,
                      silence.longest);
        assert_true(silence.longest < LONGEST);
        tc_sheet_free(&sheet);
        made_free(&made);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_wall_of_twelve_models_is_never_silent),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
