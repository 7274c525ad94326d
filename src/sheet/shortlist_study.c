/* SPDX-License-Identifier: MIT */
#include "sheet/shortlist_study.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/order.h"
#include "core/base/parallel.h"
#include "core/cost/dominance.h"
#include "sheet/study_make.h"

/* What is met but for rounding is met, as in core/cost/fit. */
#define NEARLY 1e-9

/* Tanks a task: few enough to be fair, enough to be worth handing out. */
enum { CHUNK = 16 };

/* So many are worked out before a growing list is told, and so many have to be left for that. */
enum { FIRST_TOLD = 2 * CHUNK, LEFT_LEAST = 100 };

static unsigned bit(enum tc_out reason)
{
    return 1u << reason;
}

/* The plan's limits in the units of enum tc_out; 0 where there is none. */
static void read_limits(const struct tc_study *study, double limits[TC_OUT_LIMITS])
{
    const struct tc_space *space = &study->plan.space;
    limits[TC_OUT_LENGTH] = space->length;
    limits[TC_OUT_WIDTH] = space->width;
    limits[TC_OUT_HEIGHT] = space->height;
    limits[TC_OUT_WEIGHT] = space->weight;
    limits[TC_OUT_REACH] = space->reach;
    limits[TC_OUT_BUDGET] = space->budget * tc_currency_scale(study->region.currency);
}

/* Marks what a tank takes more of than there is. */
static void judge_limits(const struct tc_study *study, struct tc_listed *listed)
{
    double limits[TC_OUT_LIMITS];
    read_limits(study, limits);
    for (int i = 0; i < TC_OUT_LIMITS; i++)
        if (limits[i] > 0 && listed->takes[i] > limits[i] * (1 + NEARLY))
            listed->out |= bit((enum tc_out)i);
}

/* What its measures alone say, the bed lying as in the setup. */
static void judge_measures(const struct tc_study *study, struct tc_listed *listed)
{
    const struct tc_tank *tank = listed->tank;
    struct tc_tank_size size;
    struct tc_bed bed = {.depth = study->setup.bed_depth, .void_share = 1};
    listed->beaten_by = -1;
    if (tc_tank_measure(tank, bed, study->setup.temperature, &size) != TC_OK) {
        listed->out = bit(TC_OUT_FAILED);
        return;
    }
    listed->takes[TC_OUT_LENGTH] = tank->length;
    listed->takes[TC_OUT_WIDTH] = tank->width;
    listed->takes[TC_OUT_HEIGHT] = tank->height + study->plan.space.access; /* a stand comes on top */
    listed->takes[TC_OUT_REACH] = size.reach;
    tc_suit_judge(&study->setup, &size, NULL, &listed->suit);
    if (!listed->suit.suits)
        listed->out |= bit(TC_OUT_ANIMALS);
    judge_limits(study, listed);
}

/* A tank as a candidate that says nothing else of itself. */
static enum tc_status try_tank(const struct tc_study *study, const struct tc_candidate *plain,
                               const struct tc_tank *tank, struct tc_candidate *candidate,
                               struct tc_alternative *alternative)
{
    *candidate = *plain;
    memcpy(candidate->tank, tank->goods.name, sizeof candidate->tank);
    return tc_study_try(study, candidate, tank, alternative);
}

/* All there is to know of a tank. */
static enum tc_status work_out(const struct tc_study *study, const struct tc_candidate *plain,
                               struct tc_listed *listed)
{
    struct tc_alternative a;
    struct tc_candidate candidate;
    listed->worked_out = true;
    enum tc_status status = try_tank(study, plain, listed->tank, &candidate, &a);
    if (status != TC_OK) {
        listed->out |= bit(TC_OUT_FAILED);
        return status;
    }
    const struct tc_offer *stand = a.equipment.slot[TC_SLOT_STAND].offer;
    listed->takes[TC_OUT_HEIGHT] =
        listed->tank->height + study->plan.space.access + (stand ? stand->part->as.stand.height : 0);
    listed->takes[TC_OUT_WEIGHT] = a.equipment.size.filled_mass;
    listed->takes[TC_OUT_REACH] = a.equipment.size.reach;
    listed->to_buy = a.cost.to_buy;
    listed->to_own = a.cost.present_value;
    listed->takes[TC_OUT_BUDGET] =
        (double)(study->plan.space.budget_for == TC_BUDGET_OWNING ? listed->to_own : listed->to_buy);
    listed->water = a.equipment.size.water_volume;
    listed->bottom = a.equipment.size.bottom_area;
    listed->swim_length = a.equipment.size.swim_length;
    listed->reach = a.equipment.size.reach;
    listed->upkeep = a.cost.upkeep.total;
    listed->suit = a.suit;
    listed->priced = !a.cost.incomplete;
    memcpy(listed->how, a.how, sizeof listed->how);
    for (int slot = TC_SLOT_COUNT - 1; slot >= 0; slot--) {
        if (!a.equipment.slot[slot].missing)
            continue;
        listed->out |= bit(TC_OUT_EQUIPMENT);
        listed->unfitted = (enum tc_slot)slot;
    }
    if (!listed->suit.suits)
        listed->out |= bit(TC_OUT_ANIMALS);
    judge_limits(study, listed);
    return TC_OK;
}

/* ------------------------------------------------------------------ on several threads */

struct work {
    const struct tc_study *study;
    const struct tc_candidate *plain;
    struct tc_listed *tanks;
    const int *todo;
    bool *starved; /* of the tasks: one ran out of memory */
    int count;
};

static void work_out_some(void *context, int index, struct tc_parallel *parallel)
{
    const struct work *work = context;
    int end = (index + 1) * CHUNK < work->count ? (index + 1) * CHUNK : work->count;
    for (int i = index * CHUNK; i < end && tc_parallel_go_on(parallel); i++)
        if (work_out(work->study, work->plain, &work->tanks[work->todo[i]]) == TC_NO_MEMORY)
            work->starved[index] = true;
}

/* A candidate that says nothing of itself. */
static struct tc_candidate plain_candidate(void)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    struct tc_candidate *added = tc_plan_add(&plan, "");
    return *added;
}

/* How far all of the work is while a part of it is done. */
struct progress {
    const struct tc_ask *ask;
    double before, share; /* of the whole: done before this part, and this part */
};

static bool go_on(void *context, double done)
{
    const struct progress *progress = context;
    const struct tc_ask *ask = progress->ask;
    return !ask->go_on || ask->go_on(ask->context, progress->before + progress->share * done);
}

/* Works out the tanks whose indexes stand in todo. */
static enum tc_status work_out_all(const struct tc_shortlist *list, struct progress progress, const int *todo,
                                   int count)
{
    const struct tc_ask *ask = progress.ask;
    const struct tc_candidate plain = plain_candidate();
    int tasks = (count + CHUNK - 1) / CHUNK;
    struct work work = {list->study, &plain, list->tanks, todo, calloc((size_t)tasks + 1, sizeof(bool)),
                        count};
    int threads = ask->threads > 0 ? ask->threads : tc_parallel_processors();
    enum tc_status status =
        work.starved ? tc_parallel_run(threads, tasks, work_out_some, &work, go_on, &progress) : TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && i < tasks; i++)
        if (work.starved[i])
            status = TC_NO_MEMORY;
    free(work.starved);
    return status;
}

/* ----------------------------------------------------------------------- ranked, unbeaten */

/* A tank with what orders it. */
struct place {
    double first; /* lower comes first */
    int index;
    const struct tc_listed *listed;
};

static struct tc_merits merits_of(const struct tc_listed *listed)
{
    return (struct tc_merits){{
        [TC_RESPECT_COST] = (double)listed->to_own,
        [TC_RESPECT_WATER] = listed->water,
        [TC_RESPECT_BOTTOM] = listed->bottom,
        [TC_RESPECT_SWIM] = listed->swim_length,
        [TC_RESPECT_REACH] = listed->reach,
        [TC_RESPECT_WALL] = listed->takes[TC_OUT_LENGTH],
    }};
}

/* What the plan's goal ranks by: the cost, or the cost of a unit of what is wanted. */
static double goal_of(const struct tc_study *study, const struct tc_listed *listed)
{
    if (!listed)
        return INFINITY;
    struct tc_merits merits = merits_of(listed);
    return tc_goal_score(&merits, study->plan.goal);
}

/* Of equals by the goal the unbeaten one first. */
static int by_goal(const void *a, const void *b)
{
    const struct place *left = a, *right = b;
    int order = tc_compare(left->first, right->first);
    if (order == 0)
        order = (left->listed->beaten_by >= 0) - (right->listed->beaten_by >= 0);
    return order != 0 ? order : left->index - right->index;
}

/* Finds who beats each of the places, and by what they are ranked: none comes before the one that beats it.
 */
static enum tc_status compare_all(struct tc_shortlist *list, struct place *places, int count)
{
    struct tc_merits *merits = calloc((size_t)count + 1, sizeof *merits);
    int *beaten_by = calloc((size_t)count + 1, sizeof *beaten_by);
    enum tc_status status = merits && beaten_by ? TC_OK : TC_NO_MEMORY;
    for (int i = 0; status == TC_OK && i < count; i++)
        if (places[i].listed)
            merits[i] = merits_of(places[i].listed);
    if (status == TC_OK)
        status = tc_dominance_find(merits, (size_t)count, beaten_by);
    for (int i = 0; status == TC_OK && i < count; i++) {
        struct tc_listed *listed = &list->tanks[places[i].index];
        places[i].first = goal_of(list->study, listed);
        if (beaten_by[i] < 0)
            continue;
        listed->beaten_by = places[beaten_by[i]].index;
        places[i].first = fmax(places[i].first, goal_of(list->study, places[beaten_by[i]].listed));
    }
    free(merits);
    free(beaten_by);
    return status;
}

static enum tc_status rank(struct tc_shortlist *list)
{
    struct place *places = calloc((size_t)list->count + 1, sizeof *places);
    if (!places)
        return TC_NO_MEMORY;
    list->ranked_count = list->priced_count = list->looked = 0;
    for (int i = 0; i < list->count; i++) {
        list->tanks[i].beaten_by = -1;
        list->looked += list->tanks[i].out != 0 || list->tanks[i].worked_out;
    }
    for (int i = 0; i < list->count; i++)
        if (list->tanks[i].out == 0 && list->tanks[i].priced)
            places[list->priced_count++] = (struct place){0, i, &list->tanks[i]};
    enum tc_status status = compare_all(list, places, list->priced_count);
    if (status == TC_OK)
        qsort(places, (size_t)list->priced_count, sizeof *places, by_goal);
    for (int i = 0; i < list->priced_count; i++)
        list->ranked[list->ranked_count++] = places[i].index;
    for (int i = 0; i < list->count; i++)
        if (list->tanks[i].out == 0 && !list->tanks[i].priced && list->tanks[i].worked_out)
            list->ranked[list->ranked_count++] = i;
    free(places);
    return status;
}

/* ------------------------------------------------------------------------- near misses */

static int by_first(const void *a, const void *b)
{
    const struct place *left = a, *right = b;
    int order = tc_compare(left->first, right->first);
    return order != 0 ? order : left->index - right->index;
}

/*
 * The least a limit would have to be to let a tank in that it alone keeps out.
 * What is known before a tank is worked out is no more than what it takes, so
 * nothing beyond the best found need be looked at.
 */
static enum tc_status find_near(struct tc_shortlist *list, const struct tc_ask *ask, enum tc_out limit,
                                struct place *places)
{
    int count = 0, todo[CHUNK], best = -1;
    double least = INFINITY;
    enum tc_status status = TC_OK;
    for (int i = 0; i < list->count; i++)
        if (list->tanks[i].out == bit(limit))
            places[count++] = (struct place){list->tanks[i].takes[limit], i, &list->tanks[i]};
    qsort(places, (size_t)count, sizeof *places, by_first);
    for (int at = 0; status == TC_OK && at < count && places[at].first < least; at += CHUNK) {
        int some = count - at < CHUNK ? count - at : CHUNK, work = 0;
        for (int i = 0; i < some; i++)
            if (!places[at + i].listed->worked_out)
                todo[work++] = places[at + i].index;
        status = work_out_all(list, (struct progress){ask, 1, 0}, todo, work);
        for (int i = 0; i < some; i++) {
            const struct tc_listed *listed = places[at + i].listed;
            if (listed->out != bit(limit) || !listed->priced || listed->takes[limit] >= least)
                continue;
            least = listed->takes[limit];
            best = places[at + i].index;
        }
    }
    if (best >= 0)
        list->near[list->near_count++] = (struct tc_near_miss){limit, least, best};
    return status;
}

static enum tc_status find_all_near(struct tc_shortlist *list, const struct tc_ask *ask)
{
    struct place *places = calloc((size_t)list->count + 1, sizeof *places);
    enum tc_status status = places ? TC_OK : TC_NO_MEMORY;
    for (int limit = 0; status == TC_OK && limit < TC_OUT_LIMITS; limit++)
        status = find_near(list, ask, (enum tc_out)limit, places);
    free(places);
    return status;
}

/* ------------------------------------------------------------------------------ whole */

/* Works out in rounds, each as large as all before, and tells between them what is known. */
static enum tc_status work_out_growing(struct tc_shortlist *list, const struct tc_ask *ask, const int *todo,
                                       int count, tc_shortlist_told *told, void *context)
{
    enum tc_status status = TC_OK;
    for (int done = 0, next; status == TC_OK && done < count; done = next) {
        next = !told || count - LEFT_LEAST < FIRST_TOLD ? count : done == 0 ? FIRST_TOLD : 2 * done;
        if (count - next < LEFT_LEAST)
            next = count;
        struct progress progress = {ask, (double)done / count, (double)(next - done) / count};
        status = work_out_all(list, progress, &todo[done], next - done);
        if (status != TC_OK || next == count)
            continue;
        list->growing = true;
        status = rank(list);
        if (status == TC_OK)
            told(context, list);
        list->growing = false;
    }
    return status;
}

enum tc_status tc_shortlist_make(struct tc_shortlist *list, const struct tc_study *study,
                                 const struct tc_ask *ask, tc_shortlist_told *told, void *context)
{
    *list = (struct tc_shortlist){.study = study, .count = (int)study->stock->tank_count};
    list->tanks = calloc((size_t)list->count + 1, sizeof *list->tanks);
    list->ranked = calloc((size_t)list->count + 1, sizeof *list->ranked);
    int *todo = calloc((size_t)list->count + 1, sizeof *todo);
    if (!list->tanks || !list->ranked || !todo) {
        free(todo);
        return TC_NO_MEMORY;
    }
    int left = 0, worked = 0;
    for (int i = 0; i < list->count; i++) {
        list->tanks[i].tank = &study->stock->tanks[i];
        judge_measures(study, &list->tanks[i]);
        if (list->tanks[i].out == 0)
            todo[left++] = i;
    }
    enum tc_status status = work_out_growing(list, ask, todo, left, told, context);
    if (status == TC_OK)
        status = find_all_near(list, ask);
    for (int i = 0; i < left; i++)
        worked += list->tanks[todo[i]].worked_out;
    free(todo);
    list->stopped = status == TC_STOPPED && ask->partial && worked > 0;
    if (list->stopped) {
        list->near_count = 0; /* a nearer one may be among the rest */
        status = TC_OK;
    }
    return status == TC_OK ? rank(list) : status;
}

enum tc_status tc_shortlist_again(const struct tc_shortlist *list, int index, struct tc_candidate *candidate,
                                  struct tc_alternative *alternative)
{
    const struct tc_candidate plain = plain_candidate();
    return try_tank(list->study, &plain, list->tanks[index].tank, candidate, alternative);
}

void tc_shortlist_free(struct tc_shortlist *list)
{
    free(list->tanks);
    free(list->ranked);
    *list = (struct tc_shortlist){.study = NULL};
}
