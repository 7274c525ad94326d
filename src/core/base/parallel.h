/* SPDX-License-Identifier: MIT */
/*
 * parallel.h - numbered tasks on several threads, with progress and a stop.
 *
 * Which thread takes which task is left open; so that results do not depend
 * on it, each task must write to places of its own only, and what they found
 * is put together afterwards in the order of their numbers.
 */
#ifndef TC_CORE_BASE_PARALLEL_H
#define TC_CORE_BASE_PARALLEL_H

#include <stdbool.h>

#include "core/base/status.h"

enum { TC_THREADS_MOST = 64 };

/*
 * Asked now and then, only on the thread that started the work, with the share
 * done (0 to 1): false stops the work. May draw a picture or read a key, and
 * should mind itself how often that is worth it.
 */
typedef bool tc_go_on(void *context, double done);

/* How many threads can run at once: the processors there are, 1 to TC_THREADS_MOST. */
int tc_parallel_processors(void);

struct tc_parallel;

/* Does task number `index`. Should return soon after tc_parallel_go_on has said no. */
typedef void tc_task(void *context, int index, struct tc_parallel *parallel);

/*
 * Does tasks 0 to count - 1 on `threads` threads (1 to TC_THREADS_MOST, taken
 * as the nearest of these), of which the calling one is one. If the system
 * gives fewer threads, those there do all the work. Signals are left to the
 * calling thread, but for a fault (SIGSEGV and its like) of another. go_on may be NULL. TC_STOPPED if go_on
 * said so: then some tasks were not done or not finished.
 */
enum tc_status tc_parallel_run(int threads, int count, tc_task *task, void *context, tc_go_on *go_on,
                               void *go_on_context);

/* For long tasks: whether to go on. Asks go_on if it runs on the calling thread. */
bool tc_parallel_go_on(struct tc_parallel *parallel);

#endif
