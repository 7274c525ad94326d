/* SPDX-License-Identifier: MIT */
/* The exact optimiser against published optima, full enumeration and its own promises. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdbool.h>
#include <stdlib.h>

#include "core/knapsack/knapsack.h"
#include "support/draw.h"
#include "support/failing_malloc.h"
#include "support/mknap1.h"

enum { CLASSES_MOST = 64 };

/* A class of "none" to `most` of an item. */
static void add_item(struct tc_knapsack *knapsack, int rows, int64_t gain, const int64_t *uses, int most)
{
    assert_int_equal(tc_knapsack_class(knapsack), TC_OK);
    for (int n = 0; n <= most; n++) {
        int64_t all_gain = gain * n;
        int64_t all_uses[TC_KNAPSACK_ROWS_MAX] = {0};
        for (int r = 0; r < rows; r++)
            all_uses[r] = uses[r] * n;
        assert_int_equal(tc_knapsack_choice(knapsack, &all_gain, all_uses), TC_OK);
    }
}

struct knapsack {
    int64_t limit;
    int64_t optimum;
    int64_t used; /* of the optimal selection, where it is the only one; else 0 */
    int count;
    int64_t weight[24];
    int64_t profit[24];
};

/* J. Burkardt, KNAPSACK_01, https://people.sc.fsu.edu/~jburkardt/datasets/knapsack_01/knapsack_01.html */
static const struct knapsack BURKARDT[] = {
    {165, 309, 165, 10, {23, 31, 29, 44, 53, 38, 63, 85, 89, 82}, {92, 57, 49, 68, 60, 43, 67, 84, 87, 72}},
    {26, 51, 26, 5, {12, 7, 11, 8, 9}, {24, 13, 23, 15, 16}},
    {190, 150, 190, 6, {56, 59, 80, 64, 75, 17}, {50, 50, 64, 46, 50, 5}},
    {50, 107, 50, 7, {31, 10, 20, 19, 4, 3, 6}, {70, 20, 39, 37, 7, 5, 10}},
    {104, 900, 104, 8, {25, 35, 45, 5, 25, 3, 2, 2}, {350, 400, 450, 20, 70, 8, 5, 5}},
    {170, 1735, 169, 7, {41, 50, 49, 59, 55, 57, 60}, {442, 525, 511, 593, 546, 564, 617}},
    {750,
     1458,
     749,
     15,
     {70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120},
     {135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240}},
    {6404180,
     13549094,
     6402560,
     24,
     {382745, 799601, 909247, 729069, 467902, 44328,  34610,  698150, 823460, 903959, 853665, 551830,
      610856, 670702, 488960, 951111, 323046, 446298, 931161, 31385,  496951, 264724, 224916, 169684},
     {825594,  1677009, 1676628, 1523970, 943972,  97426,   69666,  1296457,
      1679693, 1902996, 1844992, 1049289, 1252836, 1319836, 953277, 2067538,
      675367,  853655,  1826027, 65731,   901489,  577243,  466257, 369261}},
};

static void published_knapsacks_p01_to_p08(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof BURKARDT / sizeof BURKARDT[0]; k++) {
        const struct knapsack *p = &BURKARDT[k];
        struct tc_knapsack *knapsack;
        assert_int_equal(tc_knapsack_create(1, &p->limit, 1, &knapsack), TC_OK);
        for (int i = 0; i < p->count; i++)
            add_item(knapsack, 1, p->profit[i], &p->weight[i], 1);
        struct tc_knapsack_answer answer;
        int picks[CLASSES_MOST];
        assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
        assert_true(answer.found && answer.proven);
        assert_int_equal(answer.gains[0], p->optimum);
        assert_int_equal(answer.bounds[0], p->optimum);
        int64_t used = 0;
        for (int i = 0; i < p->count; i++)
            used += picks[i] * p->weight[i];
        assert_int_equal(used, p->used);
        tc_knapsack_free(knapsack);
    }
}

/*
 * Rosetta Code, "Knapsack problem/Bounded": capacity 400, optimum 1010 at weight 396 (the task's data; the
 * optimum also by GLPK on the published model).
 */
static void published_bounded_knapsack(void **state)
{
    (void)state;
    static const struct {
        int64_t weight, value;
        int most, taken;
    } items[] = {
        {9, 150, 1, 1}, {13, 35, 1, 1}, {153, 200, 2, 1}, {50, 60, 2, 0}, {15, 60, 2, 2}, {68, 45, 3, 0},
        {27, 60, 3, 3}, {39, 40, 3, 0}, {23, 30, 1, 1},   {52, 10, 3, 0}, {11, 70, 1, 1}, {32, 30, 1, 0},
        {24, 15, 2, 0}, {48, 10, 2, 0}, {73, 40, 1, 0},   {42, 70, 1, 0}, {43, 75, 1, 1}, {22, 80, 1, 1},
        {7, 20, 1, 1},  {18, 12, 2, 0}, {4, 50, 1, 1},    {30, 10, 2, 0},
    };
    enum { COUNT = sizeof items / sizeof items[0] };
    const int64_t capacity = 400;
    struct tc_knapsack *knapsack;
    assert_int_equal(tc_knapsack_create(1, &capacity, 1, &knapsack), TC_OK);
    for (int i = 0; i < COUNT; i++)
        add_item(knapsack, 1, items[i].value, &items[i].weight, items[i].most);
    struct tc_knapsack_answer answer;
    int picks[CLASSES_MOST];
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
    assert_true(answer.proven);
    assert_int_equal(answer.gains[0], 1010);
    int64_t weight = 0;
    for (int i = 0; i < COUNT; i++) {
        assert_int_equal(picks[i], items[i].taken);
        weight += picks[i] * items[i].weight;
    }
    assert_int_equal(weight, 396);
    tc_knapsack_free(knapsack);
}

/* OR-Library mknap1: several limits at once; the seven published optima. */
static void published_multi_constraint_knapsacks(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof MKNAP1 / sizeof MKNAP1[0]; k++) {
        int items = (int)MKNAP1[k][0];
        int rows = (int)MKNAP1[k][1];
        const int64_t *gains = MKNAP1[k] + 3;
        const int64_t *uses = gains + items;
        const int64_t *limits = uses + (ptrdiff_t)rows * items;
        struct tc_knapsack *knapsack;
        assert_int_equal(tc_knapsack_create(rows, limits, 1, &knapsack), TC_OK);
        for (int i = 0; i < items; i++) {
            int64_t column[TC_KNAPSACK_ROWS_MAX];
            for (int r = 0; r < rows; r++)
                column[r] = uses[(ptrdiff_t)r * items + i];
            add_item(knapsack, rows, gains[i], column, 1);
        }
        struct tc_knapsack_answer answer;
        int picks[CLASSES_MOST];
        assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
        assert_true(answer.proven);
        assert_int_equal(answer.gains[0], MKNAP1[k][2]);
        for (int r = 0; r < rows; r++) {
            int64_t used = 0;
            for (int i = 0; i < items; i++)
                used += picks[i] * uses[(ptrdiff_t)r * items + i];
            assert_true(used <= limits[r]);
        }
        tc_knapsack_free(knapsack);
    }
}

static int64_t draw(struct tc_random *random, int64_t low, int64_t high)
{
    return low + draw_below(random, (int)(high - low + 1));
}

struct raw {
    int rows, goals, classes;
    int64_t limits[4];
    int choices[6];
    int64_t gains[6][8][3];
    int64_t uses[6][8][4];
};

static void draw_raw(struct raw *raw, uint64_t seed)
{
    struct tc_random random = draw_from(seed);
    raw->rows = (int)draw(&random, 0, 4);
    raw->goals = (int)draw(&random, 1, 3);
    raw->classes = (int)draw(&random, 1, 6);
    int64_t spread = draw(&random, 0, 1) ? 8 : 1000; /* few values make many ties */
    int64_t sign = draw(&random, 0, 2) ? 0 : -spread / 2;
    for (int r = 0; r < raw->rows; r++)
        raw->limits[r] = draw(&random, sign, spread * raw->classes * 2 / 3);
    for (int i = 0; i < raw->classes; i++) {
        raw->choices[i] = (int)draw(&random, 1, 8);
        for (int c = 0; c < raw->choices[i]; c++) {
            for (int g = 0; g < raw->goals; g++)
                raw->gains[i][c][g] = draw(&random, sign, spread);
            for (int r = 0; r < raw->rows; r++)
                raw->uses[i][c][r] = draw(&random, sign, spread);
        }
    }
}

static struct tc_knapsack *pack_of(const struct raw *raw)
{
    struct tc_knapsack *knapsack;
    assert_int_equal(tc_knapsack_create(raw->rows, raw->limits, raw->goals, &knapsack), TC_OK);
    for (int i = 0; i < raw->classes; i++) {
        assert_int_equal(tc_knapsack_class(knapsack), TC_OK);
        for (int c = 0; c < raw->choices[i]; c++)
            assert_int_equal(tc_knapsack_choice(knapsack, raw->gains[i][c], raw->uses[i][c]), TC_OK);
    }
    return knapsack;
}

/* Every combination is tried; returns whether any keeps the limits, and the best gains in order. */
static bool enumerate(const struct raw *raw, int64_t *best)
{
    int picks[6] = {0};
    bool any = false;
    for (;;) {
        bool valid = true;
        for (int r = 0; r < raw->rows; r++) {
            int64_t used = 0;
            for (int i = 0; i < raw->classes; i++)
                used += raw->uses[i][picks[i]][r];
            valid = valid && used <= raw->limits[r];
        }
        int64_t gains[3] = {0};
        int better = any ? 0 : 1;
        for (int g = 0; g < raw->goals; g++) {
            for (int i = 0; i < raw->classes; i++)
                gains[g] += raw->gains[i][picks[i]][g];
            if (better == 0 && gains[g] != best[g])
                better = gains[g] > best[g] ? 1 : -1;
        }
        if (valid && better > 0)
            for (int g = 0; g < raw->goals; g++)
                best[g] = gains[g];
        any = any || valid;
        int i = 0;
        while (i < raw->classes && ++picks[i] == raw->choices[i])
            picks[i++] = 0;
        if (i == raw->classes)
            return any;
    }
}

static void equals_full_enumeration_goal_by_goal(void **state)
{
    (void)state;
    int found = 0;
    int impossible = 0;
    for (uint64_t seed = 1; seed <= 4000; seed++) {
        struct raw raw;
        draw_raw(&raw, seed);
        int64_t best[3] = {0};
        bool any = enumerate(&raw, best);
        struct tc_knapsack *knapsack = pack_of(&raw);
        struct tc_knapsack_answer answer;
        int picks[6];
        enum tc_status status = tc_knapsack_solve(knapsack, NULL, &answer, picks);
        assert_int_equal(status, any ? TC_OK : TC_NO_RESULT);
        assert_int_equal(answer.found, any);
        for (int g = 0; any && g < raw.goals; g++) {
            if (answer.gains[g] != best[g])
                print_error("seed %d goal %d\n", (int)seed, g);
            assert_int_equal(answer.gains[g], best[g]);
            int64_t sum = 0;
            for (int i = 0; i < raw.classes; i++)
                sum += raw.gains[i][picks[i]][g];
            assert_int_equal(sum, best[g]);
        }
        found += any;
        impossible += !any;
        tc_knapsack_free(knapsack);
    }
    assert_true(found > 1000 && impossible > 100); /* the draw covers both ends */
}

/* A strongly correlated knapsack, hard for its size (Pisinger 2005, "Where are the hard knapsack problems?").
 */
static struct tc_knapsack *hard_pack(int items)
{
    int64_t limit = 0;
    struct tc_knapsack *knapsack = NULL;
    for (int round = 0; round < 2; round++) { /* half of what all use is the limit, so they are drawn twice */
        struct tc_random random = draw_from(7);
        limit = limit / 2 | 1;
        if (round == 1)
            assert_int_equal(tc_knapsack_create(1, &limit, 1, &knapsack), TC_OK);
        for (int i = 0; i < items; i++) {
            int64_t use = 2 * draw(&random, 1000, 100000);
            if (round == 0)
                limit += use;
            else
                add_item(knapsack, 1, use + 10001, &use, 1);
        }
    }
    return knapsack;
}

static bool three_times(void *context, int64_t nodes)
{
    (void)nodes;
    int *asked = context;
    return ++*asked < 3;
}

static void stops_when_told_with_a_valid_answer_and_a_bound(void **state)
{
    (void)state;
    struct tc_knapsack *knapsack = hard_pack(60);
    struct tc_knapsack_effort effort = {.nodes = 5};
    struct tc_knapsack_answer few;
    int picks[CLASSES_MOST];
    assert_int_equal(tc_knapsack_solve(knapsack, &effort, &few, picks), TC_OK);
    assert_true(few.found && !few.proven);
    assert_int_equal(few.goals_proven, 0);
    assert_int_equal(few.nodes, 5);
    assert_true(few.bounds[0] > few.gains[0]);

    int asked = 0;
    effort = (struct tc_knapsack_effort){.go_on = three_times, .context = &asked};
    struct tc_knapsack_answer some;
    assert_int_equal(tc_knapsack_solve(knapsack, &effort, &some, picks), TC_OK);
    assert_int_equal(asked, 3);
    assert_false(some.proven);
    assert_true(some.nodes > few.nodes);
    assert_true(some.gains[0] >= few.gains[0] && some.bounds[0] <= few.bounds[0]);
    assert_true(some.bounds[0] >= some.gains[0]);
    tc_knapsack_free(knapsack);
}

static void refuses_what_it_cannot_hold(void **state)
{
    (void)state;
    struct tc_knapsack *knapsack;
    int64_t limits[TC_KNAPSACK_ROWS_MAX + 1] = {0};
    assert_int_equal(tc_knapsack_create(TC_KNAPSACK_ROWS_MAX + 1, limits, 1, &knapsack), TC_RANGE);
    assert_null(knapsack);
    assert_int_equal(tc_knapsack_create(1, limits, 0, &knapsack), TC_RANGE);
    assert_int_equal(tc_knapsack_create(1, limits, TC_KNAPSACK_GOALS_MAX + 1, &knapsack), TC_RANGE);
    limits[0] = INT64_MIN;
    assert_int_equal(tc_knapsack_create(1, limits, 1, &knapsack), TC_RANGE);
    limits[0] = 10;
    assert_int_equal(tc_knapsack_create(1, limits, 1, &knapsack), TC_OK);
    int64_t one = 1;
    int64_t huge = TC_KNAPSACK_FIGURE_MAX;
    int64_t beyond = TC_KNAPSACK_FIGURE_MAX + 1;
    assert_int_equal(tc_knapsack_choice(knapsack, &one, &one), TC_RANGE); /* no class yet */
    assert_int_equal(tc_knapsack_class(knapsack), TC_OK);
    assert_int_equal(tc_knapsack_choice(knapsack, &beyond, &one), TC_RANGE);
    assert_int_equal(tc_knapsack_choice(knapsack, &one, &beyond), TC_RANGE);

    struct tc_knapsack_answer answer;
    int picks[2];
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_NO_RESULT); /* an empty class */
    assert_int_equal(tc_knapsack_choice(knapsack, &huge, &one), TC_OK);
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
    assert_int_equal(answer.gains[0], huge);
    assert_int_equal(tc_knapsack_class(knapsack), TC_OK);
    assert_int_equal(tc_knapsack_choice(knapsack, &one, &one), TC_OK);
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OVERFLOW);
    tc_knapsack_free(knapsack);
    tc_knapsack_free(NULL);
}

static void a_pack_without_classes_gains_nothing(void **state)
{
    (void)state;
    const int64_t limits[] = {0, -1};
    struct tc_knapsack *knapsack;
    struct tc_knapsack_answer answer;
    assert_int_equal(tc_knapsack_create(1, limits, 1, &knapsack), TC_OK);
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, NULL), TC_OK);
    assert_int_equal(answer.gains[0], 0);
    tc_knapsack_free(knapsack);
    /* ... and cannot reach a limit that asks for something. */
    assert_int_equal(tc_knapsack_create(2, limits, 1, &knapsack), TC_OK);
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, NULL), TC_NO_RESULT);
    tc_knapsack_free(knapsack);
}

static void a_suggestion_is_a_start_and_no_more(void **state)
{
    (void)state;
    const struct knapsack *p = &BURKARDT[4];
    struct tc_knapsack *knapsack;
    assert_int_equal(tc_knapsack_create(1, &p->limit, 1, &knapsack), TC_OK);
    for (int i = 0; i < p->count; i++)
        add_item(knapsack, 1, p->profit[i], &p->weight[i], 1);
    struct tc_knapsack_answer answer;
    int picks[CLASSES_MOST];
    const int nothing[8] = {0};
    const int all[8] = {1, 1, 1, 1, 1, 1, 1, 1}; /* breaks the limit */
    const int best[8] = {1, 0, 1, 1, 1, 0, 1, 1};
    const int wrong[8] = {0, 0, 2};
    assert_int_equal(tc_knapsack_suggest(knapsack, wrong), TC_RANGE);
    const int *const suggestions[] = {nothing, all, best};
    for (int k = 0; k < 3; k++) {
        assert_int_equal(tc_knapsack_suggest(knapsack, suggestions[k]), TC_OK);
        assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
        assert_true(answer.proven);
        assert_int_equal(answer.gains[0], p->optimum);
    }
    /* A class more than it was made for: it is left alone. */
    add_item(knapsack, 1, 1000, &p->limit, 1);
    assert_int_equal(tc_knapsack_solve(knapsack, NULL, &answer, picks), TC_OK);
    assert_int_equal(answer.gains[0], 1000);
    tc_knapsack_free(knapsack);
}

/* Builds and solves a problem, whatever runs out; the status of the first step that failed. */
static enum tc_status build_and_solve(const struct raw *raw)
{
    struct tc_knapsack *knapsack;
    enum tc_status status = tc_knapsack_create(raw->rows, raw->limits, raw->goals, &knapsack);
    for (int i = 0; status == TC_OK && i < raw->classes; i++) {
        status = tc_knapsack_class(knapsack);
        for (int c = 0; status == TC_OK && c < raw->choices[i]; c++)
            status = tc_knapsack_choice(knapsack, raw->gains[i][c], raw->uses[i][c]);
    }
    int picks[6] = {0};
    struct tc_knapsack_answer answer;
    if (status == TC_OK)
        status = tc_knapsack_suggest(knapsack, picks);
    if (status == TC_OK)
        status = tc_knapsack_solve(knapsack, NULL, &answer, picks);
    tc_knapsack_free(knapsack);
    return status;
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct raw raw;
        draw_raw(&raw, seed);
        for (long n = 0;; n++) {
            failing_malloc_start(n, seed % 2 == 0);
            enum tc_status status = build_and_solve(&raw);
            if (!failing_malloc_stop())
                break;
            assert_int_equal(status, TC_NO_MEMORY);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_knapsacks_p01_to_p08),
        cmocka_unit_test(published_bounded_knapsack),
        cmocka_unit_test(published_multi_constraint_knapsacks),
        cmocka_unit_test(equals_full_enumeration_goal_by_goal),
        cmocka_unit_test(stops_when_told_with_a_valid_answer_and_a_bound),
        cmocka_unit_test(refuses_what_it_cannot_hold),
        cmocka_unit_test(a_pack_without_classes_gains_nothing),
        cmocka_unit_test(a_suggestion_is_a_start_and_no_more),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
