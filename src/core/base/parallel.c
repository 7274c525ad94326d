/* SPDX-License-Identifier: MIT */
#include "core/base/parallel.h"

#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stddef.h>
#include <unistd.h>

int tc_parallel_processors(void)
{
    long there = sysconf(_SC_NPROCESSORS_ONLN);
    return there < 1 ? 1 : there > TC_THREADS_MOST ? TC_THREADS_MOST : (int)there;
}

struct tc_parallel {
    tc_task *task;
    void *context;
    int count;
    tc_go_on *go_on;
    void *go_on_context;
    pthread_t caller;
    atomic_int next; /* the first task nobody has taken */
    atomic_int done;
    atomic_bool stopped;
};

bool tc_parallel_go_on(struct tc_parallel *parallel)
{
    if (atomic_load(&parallel->stopped))
        return false;
    if (!parallel->go_on || !pthread_equal(pthread_self(), parallel->caller))
        return true;
    double done = parallel->count > 0 ? (double)atomic_load(&parallel->done) / parallel->count : 1;
    if (parallel->go_on(parallel->go_on_context, done))
        return true;
    atomic_store(&parallel->stopped, true);
    return false;
}

static void *work(void *argument)
{
    struct tc_parallel *parallel = argument;
    while (tc_parallel_go_on(parallel)) {
        /* No thread asks again once it got a number beyond the last, so this cannot overflow. */
        int index = atomic_fetch_add(&parallel->next, 1);
        if (index >= parallel->count)
            break;
        parallel->task(parallel->context, index, parallel);
        atomic_fetch_add(&parallel->done, 1);
    }
    return NULL;
}

/*
 * Starts up to `wanted` threads; returns how many there are. They take no
 * signals, so that no handler, as of curses, runs beside the calling thread;
 * but for those of faults of their own, which go to whom they befall.
 */
static int start_threads(pthread_t threads[], int wanted, struct tc_parallel *parallel)
{
    static const int own_faults[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT};
    sigset_t blocked, before;
    int started = 0;
    sigfillset(&blocked);
    for (size_t i = 0; i < sizeof own_faults / sizeof own_faults[0]; i++)
        sigdelset(&blocked, own_faults[i]);
    if (pthread_sigmask(SIG_SETMASK, &blocked, &before) != 0)
        return 0;
    while (started < wanted && pthread_create(&threads[started], NULL, work, parallel) == 0)
        started++;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

enum tc_status tc_parallel_run(int threads, int count, tc_task *task, void *context, tc_go_on *go_on,
                               void *go_on_context)
{
    struct tc_parallel parallel = {.task = task,
                                   .context = context,
                                   .count = count,
                                   .go_on = go_on,
                                   .go_on_context = go_on_context,
                                   .caller = pthread_self()};
    atomic_init(&parallel.next, 0);
    atomic_init(&parallel.done, 0);
    atomic_init(&parallel.stopped, false);

    pthread_t helpers[TC_THREADS_MOST];
    int wanted = (threads < TC_THREADS_MOST ? threads : TC_THREADS_MOST) - 1;
    if (wanted > count - 1)
        wanted = count - 1;
    int started = start_threads(helpers, wanted, &parallel);
    work(&parallel);
    for (int i = 0; i < started; i++)
        pthread_join(helpers[i], NULL);
    return atomic_load(&parallel.stopped) ? TC_STOPPED : TC_OK;
}
