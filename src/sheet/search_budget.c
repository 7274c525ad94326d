/* SPDX-License-Identifier: MIT */
#include "sheet/search_budget.h"

#include <math.h>

/*
 * Walls of usual size need some hundred nodes, at some microseconds each (make
 * bench). At a screen a hard one ends within about a tenth of a second for each
 * goal, so that a key is never waited for.
 */
#define NODES_AT_SCREEN  INT64_C(20000)
#define NODES_AT_GLANCE  INT64_C(200) /* some milliseconds in all */
#define NODES_OF_COMMAND INT64_C(1000000)
#define NODES_ONCE_CUT   INT64_C(1) /* the first descent, and the bound */

void tc_search_budget_start(struct tc_search_budget *search, const struct tc_ask *ask)
{
    *search = (struct tc_search_budget){.ask = ask,
                                        .from = 0,
                                        .to = 1,
                                        .nodes = ask->glance      ? NODES_AT_GLANCE
                                                 : ask->at_screen ? NODES_AT_SCREEN
                                                                  : NODES_OF_COMMAND};
}

/* Tells of a part of the search under way. */
static bool tell(struct tc_search_budget *search, double part)
{
    const struct tc_ask *ask = search->ask;
    search->done = fmax(search->done, search->from + part * (search->to - search->from));
    if (!ask->go_on || search->stopped || search->cut || ask->go_on(ask->context, search->done))
        return !search->stopped && !search->cut;
    search->cut = ask->partial;
    search->stopped = !ask->partial;
    return false;
}

static bool go_on(void *context, int64_t nodes)
{
    struct tc_search_budget *search = context;
    return tell(search, nodes < search->nodes ? (double)nodes / (double)search->nodes : 1);
}

enum tc_status tc_search_budget_begin(struct tc_search_budget *search, struct tc_knapsack_effort *effort)
{
    *effort = (struct tc_knapsack_effort){.nodes = search->nodes, .go_on = go_on, .context = search};
    tell(search, 0);
    if (search->cut)
        effort->nodes = NODES_ONCE_CUT;
    return search->stopped ? TC_STOPPED : TC_OK;
}
