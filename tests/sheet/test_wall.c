/* SPDX-License-Identifier: MIT */
/* The sheet of the wall: what it says elsewhere too, what binds, the drawing, and what goes wrong. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/question.h"
#include "sheet/wall_study_sensitivity.h"
#include "support/failing_malloc.h"
#include "support/made_wall_study.h"
#include "support/near.h"
#include "support/step.h"

/* Less than this past a limit is rounding: wall.h compares in units of 0.1 micrometre. */
#define TOUCH 1e-6

/* The cell of the n-th row with that label, counted from 0. */
static const struct tc_cell *cell(const struct tc_sheet *sheet, const char *label, int n, size_t column)
{
    for (size_t i = 0; i < sheet->row_count; i++)
        if (sheet->rows[i].cells && strcmp(sheet->rows[i].label, label) == 0 && n-- == 0)
            return &sheet->rows[i].cells[column];
    fail_msg("no row '%s'", label);
    return NULL;
}

static bool has_note(const struct tc_sheet *sheet, enum tc_note_kind kind, const char *part)
{
    for (size_t i = 0; i < sheet->note_count; i++)
        if (sheet->notes[i].kind == kind && strstr(sheet->notes[i].text, part))
            return true;
    return false;
}

static void the_bill_of_the_walls_says_the_same(void **state)
{
    static const char *const rows[][2] = {{"to buy", "to buy"},
                                          {"each year", "each year"},
                                          {"over the period, as paid", "as paid"},
                                          {"over the period, present value", "present value"},
                                          {"including the rack, before tax", "stand"}};
    static struct made made;
    struct tc_sheet wall, bill, years;
    struct tc_plan plan = made_new_wall(state);
    made_study(&made, state, &plan, made_today);
    assert_int_equal(made_sheet(&made.study, "wall", false, &wall, NULL), TC_OK);
    assert_int_equal(made_sheet(&made.study, "bill", true, &bill, NULL), TC_OK);
    assert_int_equal(made_sheet(&made.study, "years", true, &years, NULL), TC_OK);
    assert_int_equal(wall.column_count, bill.column_count);
    assert_int_equal(wall.column_count, years.column_count);
    for (size_t column = 0; column < wall.column_count; column++) {
        assert_string_equal(wall.columns[column].head, bill.columns[column].head);
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
            tc_money said = cell(&wall, rows[i][0], 0, column)->money;
            /* A label may head a group's sum and a key figure: both say it. */
            assert_int_equal(said, cell(&bill, rows[i][1], 0, column)->money);
            assert_true(said > 0);
        }
    }
    tc_sheet_free(&wall);
    tc_sheet_free(&bill);
    tc_sheet_free(&years);
    tc_study_free(&made.study);
}

static double year_of(const struct tc_layout *layout, enum tc_consumer consumer)
{
    return tc_load_year(&layout->cost.running.energy[consumer]);
}

/* Each month the room loses, at 60 W/K, what its tanks and their pump give it: what is above Lowmere's room.
 */
static void the_room_is_as_warm_as_its_tanks_make_it(void **state)
{
    static const double room_f[12] = {68, 68, 70, 72, 74, 77, 79, 79, 76, 72, 70, 68};
    static struct made made;
    struct tc_sheet sheet;
    struct tc_plan plan = made_new_wall(state);
    made_set(&plan, "wall/room-loss", "60 W/K");
    made_wall_study(&made, state, &plan);
    const struct tc_layout *best = &made.wall_study.layouts[0];
    double pump = best->share.air_count * best->share.air->part->as.air_pump.power;
    for (int month = 0; month < 12; month++) {
        double hours = 24 * tc_load_days(month);
        double base = 273.15 + (room_f[month] - 32) / 1.8;
        double given = best->cost.running.room_heat[month] * 1000 / hours + pump;
        /* A month of the cost begins where the one before ended, which the balance leaves out. */
        assert_near(best->climate.month[month].temperature, base + given / 60, 0.1);
    }
    assert_int_equal(made_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
    double heater = year_of(best, TC_CONSUMER_HEATER), pumps = year_of(best, TC_CONSUMER_AIR_PUMP);
    assert_near(cell(&sheet, "electricity for heating, a year", 0, 0)->number, heater, 1e-9);
    /* What warms new water goes down the drain with it. */
    assert_true(year_of(best, TC_CONSUMER_NEW_WATER) > 0);
    assert_near(best->heat, (heater + pumps) * 1000 / 8760, 1e-9);
    tc_sheet_free(&sheet);
    made_free(&made);

    /* In a room that others hold the same tanks use far more. */
    made_set(&plan, "wall/room-loss", "none");
    made_wall_study(&made, state, &plan);
    assert_true(year_of(&made.wall_study.layouts[0], TC_CONSUMER_HEATER) > 2 * heater);
    made_free(&made);
}

static const struct tc_layout *room_heated(const struct made *made)
{
    for (int i = 0; i < made->wall_study.layout_count; i++)
        if (made->wall_study.layouts[i].heated)
            return &made->wall_study.layouts[i];
    return NULL;
}

/* The room heated instead: it has no heaters, and pays the room's heat at its price, or by what it draws. */
static void a_heated_room_needs_no_heaters(void **state)
{
    static struct made made;
    struct tc_plan plan = made_new_wall(state);
    made_set(&plan, "wall/room-loss", "60 W/K");
    made_wall_study(&made, state, &plan);
    const struct tc_layout *heated = room_heated(&made), *best = &made.wall_study.layouts[0];
    assert_non_null(heated);
    double kwh[TC_MONTHS], sum = 0;
    tc_wall_room_heating(&heated->climate, kwh);
    for (int month = 0; month < TC_MONTHS; month++)
        sum += kwh[month];
    assert_true(heated->climate.month[0].temperature > best->climate.month[0].temperature + 1);
    assert_true(sum > 0);
    assert_near(year_of(heated, TC_CONSUMER_HEATER), 0, 0);
    assert_int_equal(heated->cost.buy[TC_BUY_SLOTS + TC_SLOT_HEATER], 0);
    assert_near((double)heated->cost.run[TC_RUN_ROOM_HEAT], sum * 5.5,
                1); /* 0.055 a kWh: Lowmere's profile */
    assert_true(heated->power < best->power);
    double energy = sum;
    made_free(&made);

    /* A heat pump of 120.00 that gives three times what it draws; a litre of vapour costs 0.10 to dry. */
    made_set(&plan, "wall/room-heater-price", "120");
    made_set(&plan, "wall/room-heater-efficiency", "300 %");
    made_set(&plan, "wall/vapor-price", "0.10 / L");
    made_wall_study(&made, state, &plan);
    heated = room_heated(&made);
    assert_non_null(heated);
    assert_near(year_of(heated, TC_CONSUMER_HEATER), energy / 3, 0.02 * energy);
    assert_int_equal(heated->cost.buy[TC_BUY_SLOTS + TC_SLOT_HEATER], 12000);
    double litres = 1000 * tc_wall_room_vapour(&heated->climate);
    assert_true(litres > 100);
    assert_near((double)heated->cost.run[TC_RUN_ROOM_HEAT], litres * 10, 1);
    made_free(&made);
}

/* What is not said is estimated, and contradictions are refused. */
static void a_room_is_estimated_from_its_size(void **state)
{
    static struct made made;
    struct tc_plan plan = made_new_wall(state);
    made_set(&plan, "wall/room-loss", "estimate");
    made_wall_study(&made, state, &plan);
    assert_false(made.wall_study.room.known);
    made_free(&made);
    made_set(&plan, "wall/room-length", "4 m");
    made_set(&plan, "wall/room-width", "3 m");
    made_set(&plan, "wall/room-height", "2.5 m");
    made_set(&plan, "wall/room-outside", "7 m");
    made_set(&plan, "wall/room-windows", "2 m2");
    made_wall_study(&made, state, &plan);
    assert_true(made.wall_study.room.known && made.wall_study.room.estimated);
    assert_near(made.wall_study.room.loss.likely, 46.975, 1e-6); /* by hand: tests/core/test_room_loss.c */
    assert_near(made.wall_study.room.air_flow, 30 * 0.5 / 3600, 1e-9);
    /* Its air takes up what evaporates. */
    const struct tc_layout *best = &made.wall_study.layouts[0];
    double base = 0.45 * 2339.2; /* IF97 at 20 degrees, 45 % of it: Lowmere in January */
    assert_true(best->climate.month[0].vapour > base + 50);
    made_free(&made);
    made_set(&plan, "wall/room-outside", "15 m");
    struct tc_wall_room room;
    assert_int_equal(tc_wall_room_read(&plan.wall.room, &room), TC_RANGE);
}

/* -------------------------------------------------------------------------- what binds */

static double *plan_limit(struct tc_plan *plan, enum tc_wall_limit limit)
{
    switch ((int)limit) {
    case TC_WALL_LIMIT_LENGTH: return &plan->wall.length;
    case TC_WALL_LIMIT_HEIGHT: return &plan->wall.height;
    case TC_WALL_LIMIT_DEPTH: return &plan->wall.depth;
    case TC_WALL_LIMIT_REACH: return &plan->wall.reach;
    case TC_WALL_LIMIT_TIER_RATING: return &plan->wall.rack_load;
    case TC_WALL_LIMIT_FLOOR: return &plan->wall.floor_load;
    case TC_WALL_LIMIT_BUDGET: return &plan->wall.budget;
    default: return NULL;
    }
}

static double reached_with(void **state, const struct tc_plan *plan)
{
    static struct made again;
    made_wall_study(&again, state, plan);
    double reached = again.wall_study.layouts[0].mix.reached;
    made_free(&again);
    return reached;
}

/* Whoever raises a limit by what is said gets what is said. */
static int try_reliefs(void **state, const struct tc_plan *plan)
{
    static const struct {
        enum tc_wall_limit limit;
        double step;
    } limits[] = {{TC_WALL_LIMIT_LENGTH, 0.1 * INCH}, {TC_WALL_LIMIT_HEIGHT, 0.1 * INCH},
                  {TC_WALL_LIMIT_DEPTH, 0.1 * INCH},  {TC_WALL_LIMIT_REACH, 0.1 * INCH},
                  {TC_WALL_LIMIT_TIER_RATING, 1},     {TC_WALL_LIMIT_FLOOR, 100},
                  {TC_WALL_LIMIT_POWER, 1},           {TC_WALL_LIMIT_BUDGET, 100}};
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    int told = 0;
    made_wall_study(&made, state, plan);
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        struct tc_search_budget search;
        struct tc_wall_study_relief relief;
        tc_search_budget_start(&search, &ask);
        enum tc_status status =
            tc_wall_study_relieve(&made.wall_study, (struct tc_wall_limit_at){.limit = limits[i].limit},
                                  limits[i].step, &search, &relief);
        if (status == TC_NO_RESULT)
            continue;
        assert_int_equal(status, TC_OK);
        struct tc_plan raised = *plan;
        double *figure = plan_limit(&raised, limits[i].limit);
        if (limits[i].limit == TC_WALL_LIMIT_POWER)
            raised.wall.circuit_used -= relief.raise;
        else
            *figure += limits[i].limit == TC_WALL_LIMIT_BUDGET ? relief.raise / 100 : relief.raise;
        double whole = relief.raise / limits[i].step;
        assert_near(whole, round(whole), 1e-6);
        double again = reached_with(state, &raised);
        assert_near(again, relief.reached, 1e-9 * fabs(again));
        assert_true(again > made.wall_study.layouts[0].mix.reached);
        told++;
    }
    made_free(&made);
    return told;
}

static void a_raise_brings_what_is_said(void **state)
{
    struct tc_plan plan = made_new_wall(state);
    int told = try_reliefs(state, &plan);
    made_set(&plan, "wall/budget", "2000");
    told += try_reliefs(state, &plan);
    if (test_step() > 1) {
        assert_true(told > 0);
        return;
    }
    made_set(&plan, "wall/circuit-current", "15 A");
    told += try_reliefs(state, &plan);
    made_set(&plan, "wall/objective", "tanks");
    made_set(&plan, "wall/floor-load", "150 psf");
    told += try_reliefs(state, &plan);
    made_set(&plan, "wall/length", "15 ft");
    made_set(&plan, "wall/height", "7 ft");
    told += try_reliefs(state, &plan);
    made_set(&plan, "wall/objective", "water");
    made_set(&plan, "wall/budget", "1500");
    told += try_reliefs(state, &plan);
    if (told < 5)
        fail_msg("only %d raises were told", told);
}

/* Asks for the raise of a limit, and that it brings what is said when it is typed so much higher in the plan.
 */
static int try_further(void **state, const struct tc_plan *plan, struct tc_wall_limit_at at, const char *path,
                       double had, const char *unit)
{
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    struct tc_search_budget search;
    struct tc_wall_study_relief relief;
    char text[64];
    made_wall_study(&made, state, plan);
    tc_search_budget_start(&search, &ask);
    enum tc_status status = tc_wall_study_relieve(&made.wall_study, at, 0.1 * INCH, &search, &relief);
    if (status == TC_OK) {
        struct tc_plan raised = *plan;
        snprintf(text, sizeof text, "%.4f %s", had + relief.raise / INCH, unit);
        made_set(&raised, path, text);
        double again = reached_with(state, &raised);
        assert_near(again, relief.reached, 1e-9 * fabs(again));
        assert_true(again > made.wall_study.layouts[0].mix.reached);
    } else {
        assert_int_equal(status, TC_NO_RESULT);
    }
    made_free(&made);
    return status == TC_OK;
}

/* Of two stretches each has its own raise; one that is as high as the first is raised with it. */
static void every_stretch_has_its_own_raise(void **state)
{
    struct tc_plan plan = made_new_wall(state);
    made_set(&plan, "wall/circuit-current", "none");
    made_set(&plan, "wall/budget", "none");
    made_set(&plan, "wall/length", "7 ft");
    made_set(&plan, "wall/length-2", "5 ft");
    const struct tc_wall_limit_at second = {.limit = TC_WALL_LIMIT_LENGTH, .at = 1};
    const struct tc_wall_limit_at both = {.limit = TC_WALL_LIMIT_HEIGHT, .also = 2};
    assert_int_equal(try_further(state, &plan, second, "wall/length-2", 60, "in"), 1);
    assert_int_equal(try_further(state, &plan, both, "wall/height", 90, "in"), 1);
    made_set(&plan, "wall/height-2", "5 ft");
    const struct tc_wall_limit_at own = {.limit = TC_WALL_LIMIT_HEIGHT, .at = 1};
    assert_int_equal(try_further(state, &plan, own, "wall/height-2", 60, "in"), 1);
}

/* What a higher wall would bring, less access above each tank brings as well, where it is said. */
static void less_access_does_the_same_as_more_height(void **state)
{
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    int told = 0;
    for (int inches = 60; inches <= 84; inches += test_step() > 1 ? 12 : 6) {
        struct tc_plan plan = made_new_wall(state);
        struct tc_search_budget search;
        struct tc_wall_study_relief higher;
        double less;
        plan.wall.height = inches * INCH;
        plan.wall.circuit_current = 0;
        made_wall_study(&made, state, &plan);
        tc_search_budget_start(&search, &ask);
        if (tc_wall_study_relieve(&made.wall_study, (struct tc_wall_limit_at){.limit = TC_WALL_LIMIT_HEIGHT},
                                  0.1 * INCH, &search, &higher) == TC_OK &&
            tc_wall_study_less_access(&made.wall_study, &higher, 0.1 * INCH, &search, &less) == TC_OK) {
            plan.wall.access -= less;
            assert_true(less <= higher.raise + 1e-9);
            assert_true(reached_with(state, &plan) >= higher.reached * (1 - 1e-9));
            told++;
        }
        made_free(&made);
    }
    assert_true(told > 0);
}

/* 40.75 in hold one tank of 20 in and not two with the gap of 1 in; 41 in do. */
static void a_raise_is_the_least_where_it_can_be_seen(void **state)
{
    static const char *const tanks[] = {"10-gal", NULL};
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    struct tc_search_budget search;
    struct tc_wall_study_relief relief;
    struct tc_plan plan = made_bare_wall(tanks, "40.75 in", "40 in");
    made_set(&plan, "wall/depth", "12 in"); /* not end-on */
    made_wall_study(&made, state, &plan);
    assert_int_equal(made.wall_study.layouts[0].mix.tanks, 1);
    tc_search_budget_start(&search, &ask);
    assert_int_equal(tc_wall_study_relieve(&made.wall_study,
                                           (struct tc_wall_limit_at){.limit = TC_WALL_LIMIT_LENGTH},
                                           0.05 * INCH, &search, &relief),
                     TC_OK);
    assert_near(relief.raise, 0.25 * INCH, 1e-9);
    assert_near(relief.reached, 2, 0);
    assert_true(relief.proven);
    made_free(&made);
}

/* ------------------------------------------------------------------------- the drawing */

static void the_drawing_is_the_wall(void **state)
{
    static struct made made;
    struct tc_sheet sheet;
    struct tc_plan plan = made_new_wall(state);
    made_wall_study(&made, state, &plan);
    assert_int_equal(made_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
    const struct tc_drawing *drawing = sheet.drawing;
    assert_non_null(drawing);
    assert_near(drawing->width, plan.wall.length, 1e-12);
    assert_near(drawing->height, plan.wall.height, 1e-12);
    int tanks = 0, posts = 0, shelves = 0, tiers = 0;
    for (size_t i = 0; i < drawing->box_count; i++) {
        const struct tc_box *box = &drawing->boxes[i];
        assert_true(box->x >= -TOUCH && box->x + box->width <= drawing->width + TOUCH);
        assert_true(box->y >= -TOUCH && box->y + box->height <= drawing->height + TOUCH);
        posts += box->letter == ' ' && box->height > 1;
        shelves += box->letter == ' ' && box->height < 0.1;
        if (box->letter == ' ')
            continue;
        tanks++;
        const struct tc_tank *tank = &made.wall_study.alternatives[box->letter - 'A'].c.tank;
        assert_near(box->height, tank->height, 1e-12);
        assert_true(box->y >= plan.wall.lowest - TOUCH);
        assert_true(box->y + box->height + plan.wall.access <= plan.wall.height + TOUCH);
        for (size_t k = 0; k < i; k++) { /* no tank in another, in a post or a shelf */
            const struct tc_box *other = &drawing->boxes[k];
            bool apart =
                box->x + box->width <= other->x + TOUCH || other->x + other->width <= box->x + TOUCH ||
                box->y + box->height <= other->y + TOUCH || other->y + other->height <= box->y + TOUCH;
            assert_true(apart);
        }
    }
    const struct tc_wall_mix *mix = &made.wall_study.layouts[0].mix;
    for (int i = 0; i < mix->bays; i++)
        tiers += mix->bay[i].tiers;
    assert_int_equal(tanks, mix->tanks);
    assert_int_equal(posts, mix->bays + 1);
    assert_int_equal(shelves, tiers);
    tc_sheet_free(&sheet);
    made_free(&made);
}

/* ------------------------------------------------------------------------ what goes wrong */

static void a_plan_without_a_wall_says_so(void **state)
{
    static struct made made;
    const char *const names[] = {"wall", "bill", "years"};
    struct tc_plan plan = *tc_stock_plan(*state, "start");
    made_study(&made, state, &plan, made_today);
    for (size_t i = 0; i < 3; i++) {
        struct tc_sheet sheet;
        char problem[TC_PROBLEM_SIZE] = "";
        assert_int_equal(made_sheet(&made.study, names[i], true, &sheet, problem), TC_SYNTAX);
        assert_non_null(strstr(problem, "the plan has no wall"));
        assert_non_null(strstr(problem, "wall/length"));
        tc_sheet_free(&sheet);
    }
    tc_study_free(&made.study);
}

static void where_nothing_fits_it_says_why(void **state)
{
    static const struct {
        const char *path, *text, *why;
    } cases[] = {{"wall/height", "20 in", "too high"},
                 {"wall/depth", "5 in", "too deep"},
                 {"wall/length", "10 in", "too long"},
                 {"wall/rack-load", "10 kg", "too heavy for a tier"},
                 {"wall/floor-load", "5 psf", "too heavy for the floor"},
                 {"wall/budget", "20", "the budget is"},
                 {"wall/circuit-used", "1910 W", "the circuit has 10 W left"}};
    static struct made made;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct tc_sheet sheet;
        struct tc_plan plan = made_new_wall(state);
        char problem[TC_PROBLEM_SIZE] = "";
        made_set(&plan, cases[i].path, cases[i].text);
        made_study(&made, state, &plan, made_today);
        assert_int_equal(made_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
        assert_true(has_note(&sheet, TC_NOTE_FINDING, "No arrangement meets these limits"));
        if (!strstr(cell(&sheet, "10-gal", 0, 0)->text, cases[i].why))
            fail_msg("%s = %s: %s", cases[i].path, cases[i].text, cell(&sheet, "10-gal", 0, 0)->text);
        assert_null(sheet.drawing);
        tc_sheet_free(&sheet);
        /* There is no bill of an empty wall. */
        assert_int_equal(made_sheet(&made.study, "bill", true, &sheet, problem), TC_SYNTAX);
        assert_non_null(strstr(problem, "no tanks stand on this wall"));
        tc_sheet_free(&sheet);
        tc_study_free(&made.study);
    }
}

struct patience {
    int asked;
    int most; /* then it is stopped; 0: never */
    double done;
    bool fell;
};

static bool wait(void *context, double share)
{
    struct patience *patience = context;
    patience->asked++;
    patience->fell = patience->fell || share < patience->done || share < 0 || share > 1;
    patience->done = share;
    return patience->most == 0 || patience->asked < patience->most;
}

static void a_long_search_tells_how_far_it_is_and_stops(void **state)
{
    static struct made made;
    struct tc_random random;
    tc_random_seed(&random, 20261125, 0);
    struct tc_plan plan = made_long_wall(*state, &random);
    struct tc_sheet sheet = {0};
    struct patience patience = {.most = 0};
    struct tc_ask ask = {.go_on = wait, .context = &patience, .at_screen = true};
    made_study(&made, state, &plan, made_today);
    assert_int_equal(tc_question_find("wall")->make(&made.study, &ask, &sheet), TC_OK);
    assert_true(patience.asked > 10);
    assert_false(patience.fell);
    tc_sheet_free(&sheet);
    for (int most = 1; most < patience.asked; most *= 2) {
        struct patience little = {.most = most};
        ask.context = &little;
        sheet = (struct tc_sheet){0};
        assert_int_equal(tc_question_find("wall")->make(&made.study, &ask, &sheet), TC_STOPPED);
        assert_int_equal(little.asked, most);
        tc_sheet_free(&sheet);
        /* Where what is known so far is wanted, there is a sheet, and nobody is asked again. */
        struct tc_ask partial = ask;
        little = (struct patience){.most = most};
        partial.partial = true;
        sheet = (struct tc_sheet){0};
        assert_int_equal(tc_question_find("wall")->make(&made.study, &partial, &sheet), TC_OK);
        assert_int_equal(little.asked, most);
        assert_true(sheet.row_count > 0 && sheet.note_count > 0);
        tc_sheet_free(&sheet);
    }
    tc_study_free(&made.study);
}

static void memory_may_fail_anywhere(void **state)
{
    static struct made made;
    struct tc_plan plan = made_new_wall(state);
    made_set(&plan, "wall/length", "5 ft");
    made_set(&plan, "wall/budget", "900");
    made_set(&plan, "candidate 2/wall-least", "");
    made_study(&made, state, &plan, made_today);
    made_set(&plan, "wall/monthly", "200"); /* for the list, in stages */
    static const char *const sheets[] = {"wall", "bill", "list"};
    for (int which = 0; which < 3; which++) {
        bool failed = true;
        for (long n = 0; failed; n += test_step() + n * test_step() / 16) {
            struct tc_sheet sheet;
            failing_malloc_start(n, n % 2 == 1);
            enum tc_status status = made_sheet(&made.study, sheets[which], which == 1, &sheet, NULL);
            failed = failing_malloc_stop();
            assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
            tc_sheet_free(&sheet);
        }
    }
    tc_study_free(&made.study);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_bill_of_the_walls_says_the_same),
        cmocka_unit_test(the_room_is_as_warm_as_its_tanks_make_it),
        cmocka_unit_test(a_heated_room_needs_no_heaters),
        cmocka_unit_test(a_room_is_estimated_from_its_size),
        cmocka_unit_test(a_raise_brings_what_is_said),
        cmocka_unit_test(every_stretch_has_its_own_raise),
        cmocka_unit_test(less_access_does_the_same_as_more_height),
        cmocka_unit_test(a_raise_is_the_least_where_it_can_be_seen),
        cmocka_unit_test(the_drawing_is_the_wall),
        cmocka_unit_test(a_plan_without_a_wall_says_so),
        cmocka_unit_test(where_nothing_fits_it_says_why),
        cmocka_unit_test(a_long_search_tells_how_far_it_is_and_stops),
        cmocka_unit_test(memory_may_fail_anywhere),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
