/* SPDX-License-Identifier: MIT */
#include "core/cost/stages.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

enum { DIMENSIONS = TC_STAGE_KINDS_MAX + 1 };

#define NOT_REACHED INT64_MAX

/* How far all is bought at the end of a month. */
struct state {
    tc_money paid; /* NOT_REACHED: it cannot be so */
    int64_t had;   /* worth, summed over the months */
    int before;    /* state at the end of the month before */
};

struct search {
    const struct tc_stages *stages;
    int states, dimensions;
    int size[DIMENSIONS], stride[DIMENSIONS];      /* the steps first, then the kinds */
    tc_money *step_goods, *step_paid, *step_worth; /* sums of the first so many steps */
    struct state *state;                           /* month after month */
    /* An order being put together. */
    int month, from;
    tc_money left;
};

double tc_stages_work(const struct tc_stages *stages)
{
    double work = 0.5 * (stages->step_count + 1.0) * (stages->step_count + 2.0);
    for (int k = 0; k < stages->kind_count; k++)
        work *= 0.5 * (stages->kind[k].count + 1.0) * (stages->kind[k].count + 2.0);
    return work;
}

static bool worth_is_valid(int worth)
{
    return worth >= -1000000 && worth <= 1000000;
}

static bool price_is_valid(struct tc_stage_price price)
{
    return price.goods >= 0 && price.paid >= 0;
}

static bool kind_is_valid(const struct tc_stage_kind *kind, int months)
{
    bool valid = kind->count >= 0 && price_is_valid(kind->list) && worth_is_valid(kind->worth);
    for (int m = 0; valid && m < months; m++)
        valid = kind->sale_most[m] == 0 || (kind->sale_most[m] > 0 && price_is_valid(kind->sale[m]) &&
                                            kind->sale[m].paid <= kind->list.paid);
    return valid;
}

static bool counts_are_valid(const struct tc_stages *stages)
{
    return stages->months >= 1 && stages->months <= TC_STAGE_MONTHS_MAX && stages->step_count >= 0 &&
           stages->step_count <= TC_STAGE_STEPS_MAX && stages->kind_count >= 0 &&
           stages->kind_count <= TC_STAGE_KINDS_MAX;
}

static bool is_valid(const struct tc_stages *stages)
{
    bool valid =
        counts_are_valid(stages) && stages->a_month >= 0 && stages->delivery >= 0 && stages->free_from >= 0;
    for (int i = 0; valid && i < stages->step_count; i++)
        valid = price_is_valid(stages->step[i]) && worth_is_valid(stages->step_worth[i]);
    for (int k = 0; valid && k < stages->kind_count; k++)
        valid = kind_is_valid(&stages->kind[k], stages->months);
    return valid && tc_stages_work(stages) <= TC_STAGES_WORK_MAX;
}

/* How much of a dimension is bought in a state. */
static int bought(const struct search *search, int state, int dimension)
{
    return state / search->stride[dimension] % search->size[dimension];
}

/* What so many of a kind cost in a month, the first of them in a sale. */
static tc_money kind_price(const struct tc_stage_kind *kind, int month, int count, bool goods)
{
    int first = count < kind->sale_most[month] ? count : kind->sale_most[month];
    const struct tc_stage_price *sale = &kind->sale[month], *list = &kind->list;
    return goods ? first * sale->goods + (count - first) * list->goods
                 : first * sale->paid + (count - first) * list->paid;
}

static tc_money delivery(const struct tc_stages *stages, tc_money goods)
{
    return goods == 0 || (stages->free_from > 0 && goods >= stages->free_from) ? 0 : stages->delivery;
}

/* Whether the steps of a state make room for what is bought. */
static bool has_room(const struct search *search, int state)
{
    int steps = bought(search, state, 0);
    for (int k = 0; k < search->stages->kind_count; k++)
        if (bought(search, state, k + 1) > search->stages->kind[k].room[steps])
            return false;
    return true;
}

/* An order is complete: whether it is the best way to have that much at the end of this month. */
static void take(struct search *search, int to, tc_money goods, tc_money paid, int64_t worth)
{
    const struct state *from = &search->state[(search->month - 1) * search->states + search->from];
    struct state *state = &search->state[search->month * search->states + to];
    tc_money cost = paid + delivery(search->stages, goods);
    if (cost > search->left || !has_room(search, to))
        return;
    tc_money sum = from->paid + cost;
    int64_t had = from->had + worth;
    if (sum > state->paid || (sum == state->paid && had <= state->had))
        return;
    *state = (struct state){sum, had, search->from};
}

/* All orders that go on with this dimension. */
static void order(struct search *search, int dimension, int to, tc_money goods, tc_money paid, int64_t worth)
{
    if (dimension == search->dimensions) {
        take(search, to, goods, paid, worth);
        return;
    }
    int has = bought(search, search->from, dimension);
    for (int count = 0; has + count < search->size[dimension]; count++) {
        tc_money more_goods, more_paid;
        int64_t more_worth;
        if (dimension == 0) {
            more_goods = search->step_goods[has + count] - search->step_goods[has];
            more_paid = search->step_paid[has + count] - search->step_paid[has];
            more_worth = search->step_worth[has + count];
        } else {
            const struct tc_stage_kind *kind = &search->stages->kind[dimension - 1];
            more_goods = kind_price(kind, search->month - 1, count, true);
            more_paid = kind_price(kind, search->month - 1, count, false);
            more_worth = (int64_t)(has + count) * kind->worth;
        }
        if (paid + more_paid > search->left)
            break;
        order(search, dimension + 1, to + count * search->stride[dimension], goods + more_goods,
              paid + more_paid, worth + more_worth);
    }
}

/* The best ways to every state at the end of each month. */
static void run(struct search *search)
{
    const struct tc_stages *stages = search->stages;
    int all = search->states;
    for (int i = 0; i < (stages->months + 1) * all; i++)
        search->state[i] = (struct state){NOT_REACHED, 0, 0};
    search->state[0] = (struct state){0, 0, 0};
    for (search->month = 1; search->month <= stages->months; search->month++) {
        const struct state *before = &search->state[(search->month - 1) * all];
        for (search->from = 0; search->from < all; search->from++) {
            if (before[search->from].paid == NOT_REACHED)
                continue;
            search->left = search->month * stages->a_month - before[search->from].paid;
            order(search, 0, search->from, 0, 0, 0);
        }
    }
}

/* Tells the orders that led to a state. */
static void tell(const struct search *search, int months, struct tc_stages_answer *answer)
{
    const struct tc_stages *stages = search->stages;
    int to = search->states - 1;
    answer->months = months;
    answer->paid = search->state[months * search->states + to].paid;
    for (int m = months; m > 0; m--) {
        const struct state *state = &search->state[m * search->states + to];
        int from = state->before;
        struct tc_stage_month *month = &answer->month[m - 1];
        *month = (struct tc_stage_month){.steps = bought(search, to, 0) - bought(search, from, 0),
                                         .paid = state->paid -
                                                 search->state[(m - 1) * search->states + from].paid};
        tc_money goods =
            search->step_goods[bought(search, to, 0)] - search->step_goods[bought(search, from, 0)];
        for (int k = 0; k < stages->kind_count; k++) {
            const struct tc_stage_kind *kind = &stages->kind[k];
            int count = bought(search, to, k + 1) - bought(search, from, k + 1);
            month->count[k] = count;
            month->on_sale[k] = count < kind->sale_most[m - 1] ? count : kind->sale_most[m - 1];
            goods += kind_price(kind, m - 1, count, true);
        }
        month->delivery = delivery(stages, goods);
        to = from;
    }
}

static enum tc_status lay_out(struct search *search)
{
    const struct tc_stages *stages = search->stages;
    enum tc_status status = TC_OK;
    search->states = 1;
    search->dimensions = stages->kind_count + 1;
    for (int d = 0; d < DIMENSIONS; d++) {
        search->size[d] = 1;
        if (d < search->dimensions)
            search->size[d] += d == 0 ? stages->step_count : stages->kind[d - 1].count;
        search->stride[d] = search->states;
        search->states *= search->size[d];
    }
    size_t steps = (size_t)stages->step_count + 1;
    size_t states = (size_t)search->states * ((size_t)stages->months + 1);
    search->step_goods = calloc(steps, sizeof *search->step_goods);
    search->step_paid = calloc(steps, sizeof *search->step_paid);
    search->step_worth = calloc(steps, sizeof *search->step_worth);
    search->state = calloc(states, sizeof *search->state);
    if (!search->step_goods || !search->step_paid || !search->step_worth || !search->state)
        return TC_NO_MEMORY;
    for (int i = 0; i < stages->step_count; i++) {
        search->step_goods[i + 1] = tc_money_add(search->step_goods[i], stages->step[i].goods, &status);
        search->step_worth[i + 1] = search->step_worth[i] + stages->step_worth[i];
        search->step_paid[i + 1] = tc_money_add(search->step_paid[i], stages->step[i].paid, &status);
    }
    /* All of it at once at list price is the most that any sum here comes to. */
    tc_money most = tc_money_add(search->step_paid[steps - 1], search->step_goods[steps - 1], &status);
    for (int k = 0; k < stages->kind_count; k++) {
        most = tc_money_add(most, tc_money_times(stages->kind[k].list.paid, stages->kind[k].count, &status),
                            &status);
        most = tc_money_add(most, tc_money_times(stages->kind[k].list.goods, stages->kind[k].count, &status),
                            &status);
    }
    tc_money_add(most, tc_money_times(stages->delivery, stages->months, &status), &status);
    tc_money_times(stages->a_month, stages->months, &status);
    return status;
}

enum tc_status tc_stages_find(const struct tc_stages *stages, struct tc_stages_answer *answer)
{
    struct search search = {.stages = stages};
    *answer = (struct tc_stages_answer){.months = 0};
    if (!is_valid(stages))
        return TC_RANGE;
    enum tc_status status = lay_out(&search);
    if (status == TC_OK) {
        run(&search);
        int last = search.states - 1, months = -1;
        for (int m = stages->months; m >= 0; m--)
            if (search.state[m * search.states + last].paid != NOT_REACHED &&
                search.state[m * search.states + last].paid ==
                    search.state[stages->months * search.states + last].paid)
                months = m;
        if (months >= 0)
            tell(&search, months, answer);
        else
            status = TC_NO_RESULT;
    }
    free(search.step_goods);
    free(search.step_paid);
    free(search.step_worth);
    free(search.state);
    return status;
}
