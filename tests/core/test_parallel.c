/* SPDX-License-Identifier: MIT */
/* Numbered tasks on threads: each once, progress on the calling thread, a stop that stops. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <pthread.h>
#include <sched.h>
#include <signal.h>
#include <stdatomic.h>

#include "core/base/parallel.h"
#include "support/near.h"

enum { TASKS = 500 };

struct record {
    atomic_int times[TASKS];
    pthread_t caller;
    int asked;
    int stop_after; /* questions; -1: never */
    double last;
    int faults;
};

static void note(void *context, int index, struct tc_parallel *parallel)
{
    struct record *record = context;
    if (tc_parallel_go_on(parallel))
        atomic_fetch_add(&record->times[index], 1);
}

static bool ask(void *context, double done)
{
    struct record *record = context;
    record->faults += !pthread_equal(pthread_self(), record->caller);
    record->faults += done < record->last || done > 1;
    record->last = done;
    return record->asked++ != record->stop_after;
}

static void each_task_once(void **state)
{
    (void)state;
    static const int threads[] = {-3, 0, 1, 2, 3, 7, TC_THREADS_MOST, 1000};
    for (size_t t = 0; t < sizeof threads / sizeof threads[0]; t++) {
        struct record record = {.caller = pthread_self(), .stop_after = -1};
        assert_int_equal(tc_parallel_run(threads[t], TASKS, note, &record, ask, &record), TC_OK);
        for (int i = 0; i < TASKS; i++)
            assert_int_equal(record.times[i], 1);
        assert_int_equal(record.faults, 0);
        assert_true(record.asked > 0);
    }
}

static void few_and_no_tasks(void **state)
{
    (void)state;
    struct record record = {.caller = pthread_self(), .stop_after = -1};
    assert_int_equal(tc_parallel_run(4, 0, note, &record, NULL, NULL), TC_OK);
    assert_int_equal(record.times[0], 0);
    assert_int_equal(tc_parallel_run(4, 1, note, &record, NULL, NULL), TC_OK);
    assert_int_equal(record.times[0], 1);
}

static void a_stop_stops(void **state)
{
    (void)state;
    for (int threads = 1; threads <= 3; threads++) {
        struct record record = {.caller = pthread_self(), .stop_after = 0};
        assert_int_equal(tc_parallel_run(threads, TASKS, note, &record, ask, &record), TC_STOPPED);
        assert_int_equal(record.asked, 1);
        assert_true(threads > 1 || record.times[0] == 0);
    }
    /* On one thread it is known how far it gets: two questions a task, the 21st says no. */
    struct record record = {.caller = pthread_self(), .stop_after = 20};
    assert_int_equal(tc_parallel_run(1, TASKS, note, &record, ask, &record), TC_STOPPED);
    for (int i = 0; i < TASKS; i++)
        assert_int_equal(record.times[i], i < 10);
}

/* Two tasks that wait for one another, so that each has a thread of its own. */
struct meeting {
    pthread_t caller;
    atomic_int here, helpers, faults;
};

static void look_at_signals(void *context, int index, struct tc_parallel *parallel)
{
    (void)index;
    (void)parallel;
    struct meeting *meeting = context;
    atomic_fetch_add(&meeting->here, 1);
    while (atomic_load(&meeting->here) < 2)
        sched_yield();
    if (pthread_equal(pthread_self(), meeting->caller))
        return;
    sigset_t blocked;
    pthread_sigmask(SIG_BLOCK, NULL, &blocked);
    atomic_fetch_add(&meeting->helpers, 1);
    atomic_fetch_add(&meeting->faults, !sigismember(&blocked, SIGTERM) || !sigismember(&blocked, SIGWINCH));
    atomic_fetch_add(&meeting->faults, sigismember(&blocked, SIGSEGV) != 0);
}

static void signals_are_for_the_caller(void **state)
{
    (void)state;
    struct meeting meeting = {.caller = pthread_self()};
    sigset_t before, after;
    pthread_sigmask(SIG_BLOCK, NULL, &before);
    assert_int_equal(tc_parallel_run(2, 2, look_at_signals, &meeting, NULL, NULL), TC_OK);
    assert_int_equal(meeting.helpers, 1);
    assert_int_equal(meeting.faults, 0);
    pthread_sigmask(SIG_BLOCK, NULL, &after);
    assert_int_equal(sigismember(&after, SIGTERM), sigismember(&before, SIGTERM));
}

static void there_is_a_processor_at_least(void **state)
{
    (void)state;
    int there = tc_parallel_processors();
    assert_true(there >= 1 && there <= TC_THREADS_MOST);
    assert_int_equal(there, tc_parallel_processors());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(there_is_a_processor_at_least),
        cmocka_unit_test(each_task_once),
        cmocka_unit_test(few_and_no_tasks),
        cmocka_unit_test(a_stop_stops),
        cmocka_unit_test(signals_are_for_the_caller),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
