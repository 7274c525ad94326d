/* SPDX-License-Identifier: MIT */
/* What to buy in which month: against trying every month for every single thing. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdbool.h>
#include <string.h>

#include "core/cost/stages.h"
#include "support/draw.h"
#include "support/failing_malloc.h"
#include "support/step.h"

enum { THINGS_MAX = 16 };

/* ------------------------------------------------------------------ trying everything */

/* Things one by one: steps, then kinds; each has a month, no earlier than the one before of its sort. */
struct trial {
    const struct tc_stages *stages;
    int things, sort[THINGS_MAX], month[THINGS_MAX];
    tc_money paid; /* the best yet; -1: none */
    int months;
    long had;
};

/* What is paid in a month for what is bought in it. */
static tc_money pay(const struct trial *trial, int month)
{
    const struct tc_stages *stages = trial->stages;
    tc_money goods = 0, paid = 0;
    int steps = 0, on_sale[TC_STAGE_KINDS_MAX] = {0};
    bool any = false;
    for (int i = 0; i < trial->things; i++) {
        int kind = trial->sort[i];
        struct tc_stage_price price = kind < 0 ? stages->step[steps] : stages->kind[kind].list;
        steps += kind < 0;
        if (trial->month[i] != month)
            continue;
        if (kind >= 0 && on_sale[kind]++ < stages->kind[kind].sale_most[month])
            price = stages->kind[kind].sale[month];
        goods += price.goods;
        paid += price.paid;
        any = true;
    }
    bool free = goods == 0 || (stages->free_from > 0 && goods >= stages->free_from);
    return paid + (any && !free ? stages->delivery : 0);
}

/* Whether at the end of a month the steps bought make room for everything of a kind. */
static bool has_room(const struct trial *trial, int month)
{
    int steps = 0, count[TC_STAGE_KINDS_MAX] = {0};
    for (int i = 0; i < trial->things; i++)
        if (trial->month[i] <= month && trial->sort[i] < 0)
            steps++;
        else if (trial->month[i] <= month)
            count[trial->sort[i]]++;
    for (int k = 0; k < trial->stages->kind_count; k++)
        if (count[k] > trial->stages->kind[k].room[steps])
            return false;
    return true;
}

/* What having everything when it is bought is worth until the end. */
static long worth(const struct trial *trial, int months)
{
    long sum = 0;
    for (int i = 0, steps = 0; i < trial->things; i++) {
        int kind = trial->sort[i];
        long each = kind < 0 ? trial->stages->step_worth[steps++] : trial->stages->kind[kind].worth;
        sum += each * (months - trial->month[i]);
    }
    return sum;
}

static void weigh(struct trial *trial)
{
    const struct tc_stages *stages = trial->stages;
    tc_money paid = 0;
    int months = 0;
    for (int m = 0; m < stages->months; m++) {
        paid += pay(trial, m);
        if (paid > (m + 1) * stages->a_month || !has_room(trial, m))
            return;
    }
    for (int i = 0; i < trial->things; i++)
        months = trial->month[i] + 1 > months ? trial->month[i] + 1 : months;
    long had = worth(trial, months);
    if (trial->paid >= 0 && (paid > trial->paid || (paid == trial->paid && months > trial->months) ||
                             (paid == trial->paid && months == trial->months && had <= trial->had)))
        return;
    trial->paid = paid;
    trial->months = months;
    trial->had = had;
}

static void try_thing(struct trial *trial, int i)
{
    if (i >= trial->things || i >= THINGS_MAX) {
        weigh(trial);
        return;
    }
    int from = 0;
    if (i > 0 && trial->sort[i] == trial->sort[i - 1])
        from = trial->month[i - 1];
    for (trial->month[i] = from; trial->month[i] < trial->stages->months; trial->month[i]++)
        try_thing(trial, i + 1);
}

static void try_all(struct trial *trial, const struct tc_stages *stages)
{
    *trial = (struct trial){.stages = stages, .paid = -1};
    for (int i = 0; i < stages->step_count; i++)
        trial->sort[trial->things++] = -1;
    for (int k = 0; k < stages->kind_count; k++)
        for (int i = 0; i < stages->kind[k].count; i++)
            trial->sort[trial->things++] = k;
    try_thing(trial, 0);
}

/* ------------------------------------------------------------------------- comparing */

static struct tc_stage_price draw_price(struct tc_random *random, int least, int most)
{
    tc_money goods = least + draw_below(random, most - least);
    return (struct tc_stage_price){goods, goods + goods / 10};
}

static void draw_stages(struct tc_random *random, int months, int kinds, int count, int steps,
                        struct tc_stages *stages)
{
    memset(stages, 0, sizeof *stages);
    stages->months = 1 + draw_below(random, months);
    stages->kind_count = draw_below(random, kinds + 1);
    stages->step_count = draw_below(random, steps + 1);
    stages->delivery = draw_below(random, 2) ? draw_below(random, 40) : 0;
    stages->free_from = draw_below(random, 2) ? 60 + draw_below(random, 300) : 0;
    tc_money all = 0;
    for (int i = 0; i < stages->step_count; i++) {
        stages->step[i] = draw_price(random, 5, 150);
        stages->step_worth[i] = draw_below(random, 5) - 1;
        all += stages->step[i].paid;
    }
    for (int k = 0; k < stages->kind_count; k++) {
        struct tc_stage_kind *kind = &stages->kind[k];
        kind->count = 1 + draw_below(random, count);
        kind->list = draw_price(random, 20, 100);
        kind->worth = draw_below(random, 5);
        all += kind->count * kind->list.paid;
        int room = draw_below(random, 2) ? kind->count : draw_below(random, kind->count + 1);
        for (int s = 0; s < stages->step_count; s++) {
            kind->room[s] = room;
            room += draw_below(random, kind->count - room + 1);
        }
        kind->room[stages->step_count] = kind->count;
        for (int m = 0; m < stages->months; m++) {
            kind->sale_most[m] = draw_below(random, 3) == 0 ? 1 + draw_below(random, 3) : 0;
            kind->sale[m] = draw_price(random, 5, (int)kind->list.goods + 1);
        }
    }
    stages->a_month = all / stages->months + draw_below(random, 60) - 15;
    stages->a_month = stages->a_month < 0 ? 0 : stages->a_month;
}

/* The answer adds up by itself: every thing once, no month's money spent before it is there. */
static long assert_adds_up(const struct tc_stages *stages, const struct tc_stages_answer *answer)
{
    struct trial trial = {.stages = stages};
    tc_money sum = 0;
    int steps = 0, count[TC_STAGE_KINDS_MAX] = {0};
    for (int m = 0; m < stages->months; m++)
        for (int i = 0; i < answer->month[m].steps; i++, steps++) {
            trial.sort[trial.things] = -1;
            trial.month[trial.things++] = m;
        }
    for (int k = 0; k < stages->kind_count; k++)
        for (int m = 0; m < stages->months; m++)
            for (int i = 0; i < answer->month[m].count[k]; i++, count[k]++) {
                trial.sort[trial.things] = k;
                trial.month[trial.things++] = m;
            }
    assert_int_equal(steps, stages->step_count);
    for (int k = 0; k < stages->kind_count; k++)
        assert_int_equal(count[k], stages->kind[k].count);
    for (int m = 0; m < stages->months; m++) {
        assert_int_equal(pay(&trial, m), answer->month[m].paid);
        assert_true(has_room(&trial, m));
        sum += answer->month[m].paid;
        assert_true(sum <= (m + 1) * stages->a_month);
    }
    assert_int_equal(sum, answer->paid);
    return worth(&trial, answer->months);
}

static void compare(uint64_t seed, int cases, int months, int kinds, int count, int steps)
{
    struct tc_random random = draw_from(seed);
    int found = 0;
    for (int i = 0; i < cases; i += test_step()) {
        struct tc_stages stages;
        struct tc_stages_answer answer;
        struct trial trial;
        draw_stages(&random, months, kinds, count, steps, &stages);
        enum tc_status status = tc_stages_find(&stages, &answer);
        try_all(&trial, &stages);
        assert_int_equal(status, trial.paid < 0 ? TC_NO_RESULT : TC_OK);
        if (status != TC_OK)
            continue;
        found++;
        assert_int_equal(answer.paid, trial.paid);
        assert_int_equal(answer.months, trial.months);
        assert_int_equal(assert_adds_up(&stages, &answer), trial.had);
    }
    assert_true(found > cases / test_step() / 4);
}

static void small_cases_are_exact(void **state)
{
    (void)state;
    compare(1, 800, 4, 2, 3, 3);
    compare(2, 300, 3, 3, 2, 2);
}

static void long_cases_are_exact(void **state)
{
    (void)state;
    compare(3, 20, 24, 1, 2, 2);
}

/* Two tanks a sale, a sale every third month: six of them take until the seventh, and nothing is dearer. */
static void waits_for_sales(void **state)
{
    (void)state;
    struct tc_stages_answer answer;
    struct tc_stages stages = {.months = 24, .a_month = 1000, .kind_count = 1};
    stages.kind[0] = (struct tc_stage_kind){.count = 6, .list = {100, 107}, .room = {6}};
    for (int m = 0; m < 24; m += 3) {
        stages.kind[0].sale[m] = (struct tc_stage_price){70, 75};
        stages.kind[0].sale_most[m] = 2;
    }
    assert_int_equal(tc_stages_find(&stages, &answer), TC_OK);
    assert_int_equal(answer.paid, 6 * 75);
    assert_int_equal(answer.months, 7);
    /* Delivery that costs more than the sale saves: all at once. */
    stages.delivery = 65;
    assert_int_equal(tc_stages_find(&stages, &answer), TC_OK);
    assert_int_equal(answer.months, 1);
    assert_int_equal(answer.paid, 2 * 75 + 4 * 107 + 65);
}

static void bad_figures_are_refused(void **state)
{
    (void)state;
    struct tc_stages_answer answer;
    struct tc_stages stages = {.months = 25};
    assert_int_equal(tc_stages_find(&stages, &answer), TC_RANGE);
    stages = (struct tc_stages){.months = 2, .a_month = -1};
    assert_int_equal(tc_stages_find(&stages, &answer), TC_RANGE);
    stages = (struct tc_stages){.months = 2, .kind_count = 1};
    stages.kind[0] = (struct tc_stage_kind){.count = 3000, .list = {1, 1}};
    assert_int_equal(tc_stages_find(&stages, &answer), TC_RANGE);
    stages.kind[0] = (struct tc_stage_kind){.count = 1, .list = {INT64_MAX / 2, INT64_MAX / 2}};
    assert_int_not_equal(tc_stages_find(&stages, &answer), TC_OK);
    stages = (struct tc_stages){.months = 1}; /* nothing is wanted */
    assert_int_equal(tc_stages_find(&stages, &answer), TC_OK);
    assert_int_equal(answer.months, 0);
}

/* Without memory it says so, whichever piece fails. */
static void memory_may_fail(void **state)
{
    (void)state;
    struct tc_stages_answer answer;
    struct tc_stages stages = {.months = 3, .a_month = 1000, .kind_count = 1, .step_count = 2};
    stages.step[0] = stages.step[1] = (struct tc_stage_price){50, 53};
    stages.kind[0] = (struct tc_stage_kind){.count = 6, .list = {100, 107}, .room = {0, 3, 6}};
    bool failed = true;
    for (long n = 0; failed; n++) {
        failing_malloc_start(n, false);
        enum tc_status status = tc_stages_find(&stages, &answer);
        failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
    }
    assert_int_equal(answer.paid, 6 * 107 + 2 * 53);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_cases_are_exact), cmocka_unit_test(long_cases_are_exact),
        cmocka_unit_test(waits_for_sales),       cmocka_unit_test(bad_figures_are_refused),
        cmocka_unit_test(memory_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
