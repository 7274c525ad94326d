/* SPDX-License-Identifier: MIT */
/* The shortlist against each tank worked out as a plan of its own, and against brute force. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/cost/dominance.h"
#include "sheet/shortlist.h"
#include "sheet/shortlist_study.h"
#include "support/draw.h"
#include "support/stock_text.h"
#include "support/step.h"
#include "sheet/study_make.h"

enum { CATALOGUES = 500, OWN_TANKS = 6, TANKS_MOST = 64 };

static const struct tc_date today = {2026, 11, 25};
static const char *const setups[] = {"planted-display", "breeding-plain", "rock-lake", "shrimp-shelf"};

/* The demo's profiles and some tanks more. */
static void make_stock(struct tc_stock *stock, struct tc_random *random, int tanks)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    static char text[64 * 1024];
    size_t length = 0;
    text[0] = '\0';
    tc_stock_start(stock);
    stock_add_folder(stock, "profiles");
    for (int i = 0; i < tanks; i++) {
        static const double lengths[] = {20, 24, 24, 30, 30, 36, 48};
        static const double widths[] = {10, 12, 12, 12, 13, 18};
        double l = lengths[draw_below(random, 7)], w = widths[draw_below(random, 6)];
        double h = 10 + draw_below(random, 24) * 0.5;
        length += (size_t)snprintf(text + length, sizeof text - length,
                                   "[tank own-%d]\nnominal = %.1f gal\nlength = %g in\nwidth = %g in\n"
                                   "height = %g in\nglass = 6 mm\nprice = %d USD\n",
                                   i, l * w * h / 231, l, w, h, 10 + draw_below(random, 200));
    }
    stock_add_text(stock, "own", text, &faults);
    assert_int_equal(tc_stock_finish(stock, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
}

static void set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

static struct tc_plan make_plan(const char *setup)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    set(&plan, "plan/setup", setup);
    set(&plan, "plan/region", "lowmere");
    set(&plan, "plan/units", "us");
    return plan;
}

/* Some limits of the space, about those of usual tanks. */
static void draw_space(struct tc_random *random, struct tc_plan *plan)
{
    static const struct {
        const char *path, *unit;
        double low, high;
    } limits[] = {{"space/length", " in", 20, 50}, {"space/width", " in", 10, 20},
                  {"space/height", " in", 20, 70}, {"space/weight", " lb", 80, 900},
                  {"space/reach", " in", 10, 22},  {"space/budget", "", 150, 1500}};
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        char text[32];
        if (draw_below(random, 3) == 0)
            continue;
        snprintf(text, sizeof text, "%.1f%s", draw_between(random, limits[i].low, limits[i].high),
                 limits[i].unit);
        set(plan, limits[i].path, text);
    }
    if (draw_below(random, 2))
        set(plan, "space/budget-for", "owning");
    static const char *const goals[] = {"cost", "cost", "water", "bottom", "length"};
    set(plan, "plan/goal", goals[draw_below(random, 5)]);
    if (draw_below(random, 3) == 0)
        set(plan, "plan/hour-worth", "8");
}

static void make_list(struct tc_shortlist *list, struct tc_study *study, const struct tc_stock *stock,
                      const struct tc_plan *plan, int threads)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    const struct tc_ask ask = {.threads = threads};
    assert_int_equal(tc_study_make(study, stock, plan, today, &faults), TC_OK);
    assert_int_equal(tc_shortlist_make(list, study, &ask, NULL, NULL), TC_OK);
    tc_faults_free(&faults);
}

static void free_list(struct tc_shortlist *list, struct tc_study *study)
{
    tc_shortlist_free(list);
    tc_study_free(study);
}

/* ------------------------------------------------------------- each tank as a plan of its own */

struct one {
    bool there, missing, priced;
    tc_money to_buy, to_own;
    double stand; /* its height */
    struct tc_tank_size size;
    struct tc_suit suit;
};

static struct one work_out_alone(const struct tc_stock *stock, const struct tc_plan *usual, const char *tank)
{
    static struct tc_study study;
    struct tc_plan plan = *usual;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct one one = {0};
    tc_plan_add(&plan, tank);
    if (tc_study_make(&study, stock, &plan, today, &faults) == TC_OK) {
        const struct tc_alternative *a = &study.alternatives[0];
        const struct tc_offer *stand = a->equipment.slot[TC_SLOT_STAND].offer;
        one = (struct one){.there = true,
                           .priced = !a->cost.incomplete,
                           .to_buy = a->cost.to_buy,
                           .to_own = a->cost.present_value,
                           .stand = stand ? stand->part->as.stand.height : 0,
                           .size = a->equipment.size,
                           .suit = a->suit};
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            one.missing = one.missing || a->equipment.slot[slot].missing;
    }
    tc_study_free(&study);
    tc_faults_free(&faults);
    return one;
}

static bool keeps(double limit, double taken)
{
    return limit == 0 || taken <= limit * (1 + 1e-9);
}

/* Whether a tank belongs on the list, by the words of the plan. */
static bool belongs(const struct tc_plan *plan, const struct tc_tank *tank, const struct one *one)
{
    const struct tc_space *space = &plan->space;
    double money = (double)(space->budget_for == TC_BUDGET_OWNING ? one->to_own : one->to_buy) / 100;
    return one->there && !one->missing && one->suit.suits && keeps(space->length, tank->length) &&
           keeps(space->width, tank->width) &&
           keeps(space->height, tank->height + one->stand + space->access) &&
           keeps(space->weight, one->size.filled_mass) && keeps(space->reach, one->size.reach) &&
           keeps(space->budget, money);
}

static bool better_in_all(const struct tc_listed *a, const struct tc_listed *b)
{
    const struct tc_listed *pair[2] = {a, b};
    struct tc_merits merits[2];
    for (int i = 0; i < 2; i++)
        merits[i] = (struct tc_merits){{
            [TC_RESPECT_COST] = (double)pair[i]->to_own,
            [TC_RESPECT_WATER] = pair[i]->water,
            [TC_RESPECT_BOTTOM] = pair[i]->bottom,
            [TC_RESPECT_SWIM] = pair[i]->swim_length,
            [TC_RESPECT_REACH] = pair[i]->reach,
            [TC_RESPECT_WALL] = pair[i]->tank->length,
        }};
    return tc_dominates(&merits[0], &merits[1]);
}

static void assert_ranked(const struct tc_shortlist *list)
{
    for (int i = 0; i < list->priced_count; i++) {
        const struct tc_listed *listed = &list->tanks[list->ranked[i]];
        bool beaten = false;
        for (int k = 0; k < list->priced_count; k++)
            beaten = beaten || better_in_all(&list->tanks[list->ranked[k]], listed);
        assert_int_equal(listed->beaten_by >= 0, beaten);
        if (beaten) {
            assert_true(better_in_all(&list->tanks[listed->beaten_by], listed));
            assert_true(list->tanks[listed->beaten_by].beaten_by < 0);
        }
        if (i > 0 && list->study->plan.goal == TC_GOAL_COST)
            assert_true(listed->to_own >= list->tanks[list->ranked[i - 1]].to_own);
    }
    if (list->priced_count > 0)
        assert_true(list->tanks[list->ranked[0]].beaten_by < 0);
}

/* The demo's tanks cost the same in every catalogue of a setup, with an hour of upkeep that counts or not:
 * they are worked out once. */
static struct one known[8][TANKS_MOST];
static bool is_known[8][TANKS_MOST];

static void assert_as_alone(const struct tc_shortlist *list, const struct tc_plan *plan, int setup)
{
    const struct tc_stock *stock = list->study->stock;
    struct tc_plan usual = make_plan(setups[setup]);
    int listed_count = 0;
    usual.hour_worth = plan->hour_worth;
    setup += plan->hour_worth > 0 ? 4 : 0;
    for (int i = 0; i < list->count; i++) {
        const struct tc_listed *listed = &list->tanks[i];
        const char *name = listed->tank->goods.name;
        assert_true(i < TANKS_MOST);
        if (strncmp(name, "own-", 4) == 0 || !is_known[setup][i])
            known[setup][i] = work_out_alone(stock, &usual, name);
        is_known[setup][i] = true;
        const struct one *one = &known[setup][i];
        assert_int_equal(listed->out == 0, belongs(plan, listed->tank, one));
        listed_count += listed->out == 0;
        if (listed->out != 0)
            continue;
        assert_int_equal(listed->to_buy, one->to_buy);
        assert_int_equal(listed->to_own, one->to_own);
        assert_int_equal(listed->priced, one->priced);
        assert_true(listed->water == one->size.water_volume);
    }
    assert_int_equal(list->ranked_count, listed_count);
}

/* At the limit that is told one more tank is in; a step below it nothing has changed. */
static void assert_thresholds(const struct tc_shortlist *list, const struct tc_plan *plan)
{
    static struct tc_study study;
    for (int i = 0; i < list->near_count; i++) {
        const struct tc_near_miss *near = &list->near[i];
        double scale = near->limit == TC_OUT_BUDGET ? 100 : 1;
        struct tc_shortlist at, below;
        struct tc_plan changed = *plan;
        struct tc_space *space = &changed.space;
        double *const limits[TC_OUT_LIMITS] = {&space->length, &space->width, &space->height,
                                               &space->weight, &space->reach, &space->budget};
        double *limit = limits[near->limit];
        assert_true(near->least / scale > *limit);
        *limit = near->least / scale;
        make_list(&at, &study, list->study->stock, &changed, 1);
        assert_int_equal(at.tanks[near->tank].out, 0);
        assert_true(at.ranked_count > list->ranked_count);
        free_list(&at, &study);
        *limit = near->least / scale - (near->limit == TC_OUT_BUDGET ? 0.01 : 1e-5);
        make_list(&below, &study, list->study->stock, &changed, 1);
        assert_int_equal(below.priced_count, list->priced_count);
        free_list(&below, &study);
    }
}

static void random_catalogues(void **state)
{
    static struct tc_study study, other_study;
    int near = 0, listed = 0;
    (void)state;
    for (int seed = 0; seed < CATALOGUES / test_step(); seed++) {
        struct tc_random random = draw_from((uint64_t)seed);
        struct tc_stock stock;
        struct tc_shortlist list, other;
        int setup = draw_below(&random, 4);
        make_stock(&stock, &random, OWN_TANKS);
        struct tc_plan plan = make_plan(setups[setup]);
        draw_space(&random, &plan);
        make_list(&list, &study, &stock, &plan, 1);
        assert_as_alone(&list, &plan, setup);
        assert_ranked(&list);
        if (seed % 5 == 0) {
            assert_thresholds(&list, &plan);
            make_list(&other, &other_study, &stock, &plan, 3);
            assert_memory_equal(other.ranked, list.ranked, (size_t)list.ranked_count * sizeof *list.ranked);
            assert_int_equal(other.near_count, list.near_count);
            free_list(&other, &other_study);
        }
        near += list.near_count;
        listed += list.ranked_count;
        free_list(&list, &study);
        tc_stock_free(&stock);
    }
    assert_true(near > CATALOGUES / test_step() / 4 && listed > CATALOGUES / test_step());
}

/* A further tank may be better than the best, and never makes it worse. */
static void a_tank_more_is_no_worse(void **state)
{
    static struct tc_study study;
    (void)state;
    for (uint64_t seed = 1; seed <= 10; seed += (uint64_t)test_step()) {
        tc_money best = 0;
        for (int tanks = 1; tanks < 8; tanks++) {
            struct tc_random random = draw_from(seed); /* the same tanks, and one more */
            struct tc_stock stock;
            struct tc_shortlist list;
            make_stock(&stock, &random, tanks);
            struct tc_plan plan = make_plan("breeding-plain");
            set(&plan, "space/length", "40 in");
            make_list(&list, &study, &stock, &plan, 2);
            assert_true(list.priced_count > 0);
            tc_money first = list.tanks[list.ranked[0]].to_own;
            assert_true(tanks == 1 || first <= best);
            best = first;
            free_list(&list, &study);
            tc_stock_free(&stock);
        }
    }
}

/* The chart has what the goal asks for, and a point for each tank on the list. */
static void the_chart_follows_the_goal(void **state)
{
    static struct tc_study study;
    static const struct {
        const char *goal, *unit;
    } goals[] = {{"cost", "gal"}, {"water", "gal"}, {"bottom", "in²"}, {"length", "in"}};
    (void)state;
    struct tc_random random = draw_from(3);
    struct tc_stock stock;
    make_stock(&stock, &random, OWN_TANKS);
    for (size_t i = 0; i < sizeof goals / sizeof goals[0]; i++) {
        struct tc_plan plan = make_plan("breeding-plain");
        struct tc_faults faults = TC_FAULTS_EMPTY;
        struct tc_sheet sheet;
        set(&plan, "plan/goal", goals[i].goal);
        assert_int_equal(tc_study_make(&study, &stock, &plan, today, &faults), TC_OK);
        assert_int_equal(tc_make_shortlist(&study, &(struct tc_ask){.threads = 1}, &sheet), TC_OK);
        assert_int_equal(sheet.chart_count, 1);
        assert_string_equal(sheet.charts[0].y_title, goals[i].unit);
        tc_sheet_free(&sheet);
        tc_study_free(&study);
        tc_faults_free(&faults);
    }
    tc_stock_free(&stock);
}

static bool stop_at_once(void *context, double done)
{
    (void)context, (void)done;
    return false;
}

static bool stop_soon(void *context, double done)
{
    (void)context;
    return !(done > 0);
}

/* What is on the list of stopped work is as it is on the whole one, and nothing is told of the rest. */
static void assert_stopped_in_part(const struct tc_shortlist *part, const struct tc_shortlist *whole)
{
    assert_true(part->stopped && part->looked < part->count && part->ranked_count < whole->ranked_count);
    assert_true(!whole->stopped && whole->looked == whole->count);
    for (int i = 0; i < part->ranked_count; i++) {
        assert_true(part->tanks[part->ranked[i]].worked_out);
        assert_int_equal(part->tanks[part->ranked[i]].to_own, whole->tanks[part->ranked[i]].to_own);
    }
    assert_int_equal(part->near_count, 0);
}

static void what_is_known_is_told_of_stopped_work(void **state)
{
    static struct tc_study study, other;
    struct tc_random random = draw_from(1);
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_stock stock;
    struct tc_shortlist part, whole;
    struct tc_plan plan = make_plan("breeding-plain");
    const struct tc_ask ask = {.threads = 1, .go_on = stop_soon, .partial = true};
    (void)state;
    make_stock(&stock, &random, 24);
    assert_int_equal(tc_study_make(&study, &stock, &plan, today, &faults), TC_OK);
    assert_int_equal(tc_shortlist_make(&part, &study, &ask, NULL, NULL), TC_OK);
    make_list(&whole, &other, &stock, &plan, 1);
    assert_stopped_in_part(&part, &whole);
    free_list(&part, &study);
    free_list(&whole, &other);
    tc_faults_free(&faults);
    tc_stock_free(&stock);
}

/* What was told of a growing list. */
struct told {
    int times, ranked, shown;
    struct {
        int index;
        tc_money to_own;
    } ranks[400];
};

static void take_told(void *context, const struct tc_shortlist *list)
{
    struct told *told = context;
    assert_true(list->growing && !list->stopped && list->near_count == 0);
    assert_true(list->looked < list->count && list->ranked_count >= told->ranked);
    assert_ranked(list);
    told->times++;
    told->ranked = list->ranked_count;
    for (int i = 0; i < list->ranked_count; i++) {
        told->ranks[i].index = list->ranked[i];
        told->ranks[i].to_own = list->tanks[list->ranked[i]].to_own;
    }
}

static void show_told(void *context, struct tc_sheet *sheet)
{
    struct told *told = context;
    told->shown++;
    assert_true(sheet->row_count > 5 && strstr(sheet->notes[0].text, "So far ") != NULL);
    tc_sheet_free(sheet);
}

/* It is told early and more than once, what is told stays true, and the whole is the same as untold. */
static void a_growing_list_tells_what_is_known(void **state)
{
    static struct tc_study study, other;
    static struct told told;
    struct tc_random random = draw_from(5);
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_stock stock;
    struct tc_shortlist list, whole;
    struct tc_sheet sheet;
    struct tc_plan plan = make_plan("breeding-plain");
    const struct tc_ask ask = {.threads = 2};
    (void)state;
    make_stock(&stock, &random, 300);
    set(&plan, "space/budget", "300");
    assert_int_equal(tc_study_make(&study, &stock, &plan, today, &faults), TC_OK);
    assert_int_equal(tc_shortlist_make(&list, &study, &ask, take_told, &told), TC_OK);
    assert_true(told.times >= 2 && told.ranked < list.ranked_count && !list.growing);
    for (int i = 0; i < told.ranked; i++)
        assert_int_equal(list.tanks[told.ranks[i].index].to_own, told.ranks[i].to_own);
    make_list(&whole, &other, &stock, &plan, 1);
    assert_int_equal(list.ranked_count, whole.ranked_count);
    assert_memory_equal(list.ranked, whole.ranked, sizeof *list.ranked * (size_t)list.ranked_count);
    for (int i = 0; i < list.count; i++) {
        assert_int_equal(list.tanks[i].to_own, whole.tanks[i].to_own);
        assert_int_equal(list.tanks[i].out, whole.tanks[i].out);
        assert_int_equal(list.tanks[i].beaten_by, whole.tanks[i].beaten_by);
    }
    assert_int_equal(list.near_count, whole.near_count);
    /* The same through the sheet. */
    const struct tc_ask shown = {.threads = 2, .show = show_told, .context = &told};
    assert_int_equal(tc_make_shortlist(&study, &shown, &sheet), TC_OK);
    assert_int_equal(told.shown, told.times);
    assert_null(strstr(sheet.notes[0].text, "So far "));
    tc_sheet_free(&sheet);
    free_list(&list, &study);
    free_list(&whole, &other);
    tc_faults_free(&faults);
    tc_stock_free(&stock);
}

static void it_can_be_stopped(void **state)
{
    static struct tc_study study;
    struct tc_random random = draw_from(1);
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_stock stock;
    struct tc_shortlist list;
    struct tc_plan plan = make_plan("planted-display");
    const struct tc_ask ask = {.threads = 2, .go_on = stop_at_once};
    (void)state;
    make_stock(&stock, &random, OWN_TANKS);
    assert_int_equal(tc_study_make(&study, &stock, &plan, today, &faults), TC_OK);
    assert_int_equal(tc_shortlist_make(&list, &study, &ask, NULL, NULL), TC_STOPPED);
    free_list(&list, &study);
    tc_faults_free(&faults);
    tc_stock_free(&stock);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_catalogues),
        cmocka_unit_test(a_tank_more_is_no_worse),
        cmocka_unit_test(the_chart_follows_the_goal),
        cmocka_unit_test(it_can_be_stopped),
        cmocka_unit_test(a_growing_list_tells_what_is_known),
        cmocka_unit_test(what_is_known_is_told_of_stopped_work),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
