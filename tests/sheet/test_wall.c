/* SPDX-License-Identifier: MIT */
/* The wall of a plan: limits kept, sums that add up, what is shared, what binds, and the drawing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/random.h"
#include "profile/stock.h"
#include "sheet/question.h"
#include "sheet/room.h"
#include "sheet/room_cost.h"
#include "sheet/room_relief.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/stock_text.h"

#define INCH 0.0254

static const struct tc_date today = {2026, 11, 25};

/* Below this the clamp of a limit is rounding: wall.h compares in units of 0.1 micrometre. */
#define TOUCH 1e-6

static int read_demo(void **state)
{
    static struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    tc_stock_start(&stock);
    stock_add_folder(&stock, "profiles");
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
    *state = &stock;
    return 0;
}

static int free_demo(void **state)
{
    tc_stock_free(*state);
    return 0;
}

/* -------------------------------------------------------------------- plans and rooms */

static void set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

static struct tc_plan new_wall(void **state)
{
    return *tc_stock_plan(*state, "new-wall");
}

/* A plan of these tanks, NULL after the last, that are plain breeding tanks on a wall without other limits.
 */
static struct tc_plan bare_wall(const char *const *tanks, const char *length, const char *height)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    set(&plan, "plan/kit", "breeding-plain");
    set(&plan, "plan/region", "lowmere");
    for (; *tanks; tanks++)
        assert_non_null(tc_plan_add(&plan, *tanks));
    set(&plan, "wall/length", length);
    set(&plan, "wall/height", height);
    set(&plan, "wall/depth", "24 in");
    set(&plan, "wall/objective", "tanks");
    return plan;
}

struct made {
    struct tc_study study;
    struct tc_room room;
};

static void study(struct made *made, void **state, const struct tc_plan *plan, struct tc_date day)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_study_make(&made->study, *state, plan, day, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
}

static void make(struct made *made, void **state, const struct tc_plan *plan)
{
    const struct tc_ask ask = {.seed = 0};
    struct tc_search search;
    study(made, state, plan, today);
    tc_search_start(&search, &ask);
    assert_int_equal(tc_room_make(&made->room, &made->study, &ask, &search), TC_OK);
}

static void done(struct made *made)
{
    tc_room_free(&made->room);
    tc_study_free(&made->study);
}

static enum tc_status ask_sheet(const struct tc_study *from, const char *name, bool walls,
                                struct tc_sheet *sheet, char *problem)
{
    const struct tc_ask ask = {.walls = walls, .problem = problem};
    *sheet = (struct tc_sheet){0};
    return tc_question_find(name)->make(from, &ask, sheet);
}

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

/* ----------------------------------------------------------------------------- limits */

static void assert_totals_are_sums(const struct tc_cost *cost)
{
    enum tc_status status = TC_OK;
    assert_int_equal(cost->to_buy, tc_money_sum(cost->buy, TC_BUY_COUNT, &status));
    assert_int_equal(cost->each_year, tc_money_sum(cost->run, TC_RUN_COUNT, &status));
    assert_int_equal(cost->as_paid, tc_money_sum(cost->paid, TC_LIFE_COUNT, &status));
    assert_int_equal(cost->present_value, tc_money_sum(cost->present, TC_LIFE_COUNT, &status));
    assert_int_equal(status, TC_OK);
}

/* Every tank within the wall, its rack and its neighbours; counted once. */
static void assert_stands(const struct tc_room *room, const struct tc_layout *layout)
{
    const struct tc_wall_mix *mix = &layout->mix;
    int count[TC_CANDIDATES_MAX] = {0};
    double end = 0;
    for (int i = 0; i < mix->columns; i++) {
        const struct tc_wall_column *column = &mix->column[i];
        const struct tc_tank *tank = &room->units[column->model].tank;
        double top = room->wall.lowest + column->tiers * (tank->height + room->wall.access) +
                     (column->tiers - 1) * room->wall.shelf;
        assert_true(column->x >= end - TOUCH);
        end = column->x + column->width;
        assert_true(end <= room->wall.length + TOUCH);
        assert_true(top <= room->wall.height + TOUCH);
        assert_true(column->depth <= room->wall.depth + TOUCH);
        assert_true(column->tiers <= layout->wall.tiers);
        count[column->model] += column->tiers;
    }
    for (int i = 0; i < mix->models; i++)
        assert_int_equal(count[i], mix->count[i]);
    for (int i = 0; i < mix->bays; i++) {
        const struct tc_wall_bay *bay = &mix->bay[i];
        assert_true(room->wall.bay_length <= 0 || bay->width <= room->wall.bay_length + TOUCH);
        assert_true(room->wall.tier_rating <= 0 || bay->tier_mass <= room->wall.tier_rating * (1 + 1e-6));
    }
    assert_true(mix->length <= room->wall.length + TOUCH);
}

/* With all that is shared. */
static void assert_keeps(const struct tc_room *room, const struct tc_layout *layout)
{
    tc_money spent =
        room->wall.budget_kind == TC_WALL_TO_BUY ? layout->cost.to_buy : layout->cost.present_value;
    assert_true(room->wall.budget == 0 || spent <= room->wall.budget);
    assert_true(room->wall.power_limit <= 0 || layout->power <= room->wall.power_limit + 1e-6);
    double power =
        layout->share.air ? layout->share.air_count * layout->share.air->part->as.air_pump.power : 0;
    for (int i = 0; i < layout->mix.models; i++)
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_filled *filled = &room->units[i].setup.slot[slot];
            bool own = slot != TC_SLOT_LIGHT || !layout->share.light[i];
            if (own && filled->offer)
                power += layout->mix.count[i] * filled->count * tc_part_power(filled->offer->part);
        }
    for (int i = 0; i < layout->mix.models; i++)
        if (layout->share.light[i])
            power += layout->share.light_count[i] * tc_part_power(layout->share.light[i]->part) +
                     layout->share.lights_left[i] *
                         tc_part_power(room->units[i].setup.slot[TC_SLOT_LIGHT].offer->part);
    assert_near(layout->power, power, 1e-6);
}

static const char *const objectives[] = {"tanks", "bottom", "water", "value", "cost"};

static void limits_are_kept_for_every_objective(void **state)
{
    static struct made made;
    struct tc_random random;
    int found = 0, shared_counts = 0;
    tc_random_seed(&random, 20261125, 0);
    for (int i = 0; i < 100; i++) {
        struct tc_plan plan = new_wall(state);
        char text[64];
        snprintf(plan.wall.objective, sizeof plan.wall.objective, "%s", objectives[i % 5]);
        plan.wall.wanted = (int)(8 * tc_random_unit(&random));
        plan.wall.length = 2 + 8 * tc_random_unit(&random);
        plan.wall.height = 1 + 2 * tc_random_unit(&random);
        plan.wall.circuit_used = 1700 * tc_random_unit(&random);
        plan.wall.budget = floor(500 + 3000 * tc_random_unit(&random));
        if (i % 2) {
            plan.wall.budget *= 3;
            set(&plan, "wall/budget-for", "owning");
        }
        if (i % 3 == 0)
            set(&plan, "plan/kit", "shrimp-shelf");
        plan.candidate[0].wall_most = 1 + i % 9;
        plan.candidate[1].wall_least = i % 4;
        snprintf(text, sizeof text, "%d", i);
        make(&made, state, &plan);
        const struct tc_layout *best = &made.room.layouts[0];
        assert_int_equal(made.room.layout_count >= 1, true);
        if (best->found == TC_OK && best->mix.tanks > 0) {
            found++;
            shared_counts += best->sought.power_limit != best->wall.power_limit ||
                             best->sought.budget != best->wall.budget;
            assert_true(best->mix.count[0] <= plan.candidate[0].wall_most);
            assert_true(best->mix.count[1] >= plan.candidate[1].wall_least);
            assert_true(best->mix.tanks >= plan.wall.wanted);
            for (int k = 0; k < made.room.layout_count; k++) {
                assert_stands(&made.room, &made.room.layouts[k]);
                assert_keeps(&made.room, &made.room.layouts[k]);
                assert_totals_are_sums(&made.room.layouts[k].cost);
            }
        }
        done(&made);
    }
    assert_true(found >= 50);
    assert_true(shared_counts >= 10);
}

/* Among the layouts none gets further than the best mix, which had the choice of them all. */
static void the_best_mix_is_the_best_layout(void **state)
{
    static struct made made;
    for (size_t i = 0; i < 3; i++) { /* the aims for which more is better */
        struct tc_plan plan = new_wall(state);
        set(&plan, "candidate 2/wall-least", "");
        snprintf(plan.wall.objective, sizeof plan.wall.objective, "%s", objectives[i]);
        make(&made, state, &plan);
        assert_true(made.room.layouts[0].mix.proven);
        for (int k = 1; k < made.room.layout_count; k++)
            assert_true(made.room.layouts[k].mix.reached <= made.room.layouts[0].mix.reached * (1 + 1e-9));
        done(&made);
    }
}

/* ------------------------------------------------------------------------------- sums */

static void the_bill_of_the_walls_says_the_same(void **state)
{
    static const char *const rows[][2] = {{"to buy", "to buy"},
                                          {"each year", "each year"},
                                          {"over the period, as paid", "as paid"},
                                          {"over the period, present value", "present value"},
                                          {"of it the rack, before tax", "stand"}};
    static struct made made;
    struct tc_sheet wall, bill, years;
    struct tc_plan plan = new_wall(state);
    study(&made, state, &plan, today);
    assert_int_equal(ask_sheet(&made.study, "wall", false, &wall, NULL), TC_OK);
    assert_int_equal(ask_sheet(&made.study, "bill", true, &bill, NULL), TC_OK);
    assert_int_equal(ask_sheet(&made.study, "years", true, &years, NULL), TC_OK);
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

/* The sale lets a customer have two at so much a gallon; the room's others cost the list price. */
static void a_sale_limit_counts_for_the_whole_room(void **state)
{
    static const char *const tanks[] = {"20-long", NULL};
    static struct made made;
    struct tc_plan plan = bare_wall(tanks, "16 ft", "7.5 ft");
    const struct tc_ask ask = {.seed = 0};
    struct tc_search search;
    set(&plan, "plan/sale", "gallon-weeks");
    study(&made, state, &plan, (struct tc_date){2026, 1, 10});
    const struct tc_contender *entry = &made.study.entries[0];
    assert_int_equal(entry->prices.deal.kind, TC_DEAL_SALE);
    assert_int_equal(entry->prices.deal.each, 3200); /* 20 gallons at 1.60 */
    assert_true(entry->listed && entry->list > 3200);
    tc_search_start(&search, &ask);
    assert_int_equal(tc_room_make(&made.room, &made.study, &ask, &search), TC_OK);
    const struct tc_layout *best = &made.room.layouts[0];
    assert_true(best->mix.tanks > 2);
    assert_int_equal(best->mix.on_sale[0], 2);
    assert_int_equal(best->cost.buy[TC_BUY_TANK], 2 * 3200 + (best->mix.tanks - 2) * entry->list);
    done(&made);
}

/* ---------------------------------------------------------------------- what is shared */

static void one_air_pump_is_cheaper_than_one_a_tank(void **state)
{
    static struct made made;
    struct tc_plan plan = new_wall(state);
    tc_money alone = 0;
    for (int i = 0; i < plan.candidate_count; i++)
        plan.candidate[i].quantity = 1;
    make(&made, state, &plan);
    const struct tc_layout *best = &made.room.layouts[0];
    for (int i = 0; i < best->mix.models; i++)
        alone += best->mix.count[i] * made.study.entries[i].cost.buy[TC_BUY_SLOTS + TC_SLOT_AIR_PUMP];
    tc_money shared = best->cost.buy[TC_BUY_SLOTS + TC_SLOT_AIR_PUMP];
    assert_true(shared > 0 && shared < alone);
    assert_int_equal(shared, best->share.air_count * best->share.air->price);
    assert_true(best->share.air_count * best->share.air->part->as.air_pump.flow >= best->share.air_flow);
    done(&made);
}

/* Two 16 in tanks side by side are as long as a light for 75 cm, which costs less than two for 40 cm. */
static void lights_over_tiers_are_taken_where_they_are_cheaper(void **state)
{
    static const char *const tanks[] = {"5.5-gal", NULL};
    static struct made made;
    struct tc_plan plan = bare_wall(tanks, "12 ft", "5 ft");
    set(&plan, "plan/kit", "shrimp-shelf");
    set(&plan, "kit/least-length", "10 in");
    set(&plan, "wall/bay", "36 in");
    set(&plan, "wall/depth", "12 in"); /* end-on no light could span them */
    make(&made, state, &plan);
    struct tc_layout layout = made.room.layouts[0];
    const struct tc_offer *light = layout.share.light[0];
    assert_non_null(light);
    const struct tc_filled *own = &made.room.units[0].setup.slot[TC_SLOT_LIGHT];
    assert_int_equal(2 * layout.share.light_count[0], layout.share.lights_saved[0]);
    assert_true(layout.share.lights_saved[0] > 0);
    assert_int_equal(layout.share.lights_saved[0] + layout.share.lights_left[0], layout.mix.tanks);
    assert_int_equal(layout.cost.buy[TC_BUY_SLOTS + TC_SLOT_LIGHT],
                     layout.share.light_count[0] * light->price +
                         layout.share.lights_left[0] * own->offer->price);
    tc_money with = layout.cost.present_value, lights = layout.cost.buy[TC_BUY_SLOTS + TC_SLOT_LIGHT];
    layout.share.light[0] = NULL; /* what it would cost with a light on each tank */
    assert_int_equal(tc_room_cost(&made.room, &layout), TC_OK);
    assert_true(with < layout.cost.present_value);
    assert_true(lights < layout.cost.buy[TC_BUY_SLOTS + TC_SLOT_LIGHT]);
    done(&made);
}

static void the_room_has_one_timer(void **state)
{
    static const char *const tanks[] = {"10-gal", "20-high", "20-long", NULL};
    static struct made made;
    struct tc_plan plan = bare_wall(tanks, "16 ft", "7.5 ft");
    set(&plan, "plan/kit", "shrimp-shelf");
    set(&plan, "wall/timer-price", "18");
    make(&made, state, &plan);
    assert_true(made.room.layouts[0].mix.tanks > 6);
    tc_money with = made.room.layouts[0].cost.buy[TC_BUY_SLOTS + TC_SLOT_LIGHT];
    done(&made);
    set(&plan, "wall/timer-price", "0");
    make(&made, state, &plan);
    assert_int_equal(with, made.room.layouts[0].cost.buy[TC_BUY_SLOTS + TC_SLOT_LIGHT] + 1800);
    done(&made);
}

static double year_of(const struct tc_layout *layout, enum tc_consumer consumer)
{
    return tc_load_year(&layout->cost.running.energy[consumer]);
}

static void heating_is_compared_by_hand(void **state)
{
    /* Lowmere's room, F by month, and its price of room heat; the kit keeps 25 C (profiles). */
    static const double room_f[12] = {68, 68, 70, 72, 74, 77, 79, 79, 76, 72, 70, 68};
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    static struct made made;
    struct tc_sheet sheet;
    struct tc_plan plan = new_wall(state);
    set(&plan, "wall/room-loss", "60");
    make(&made, state, &plan);
    const struct tc_layout *best = &made.room.layouts[0];
    assert_int_equal(ask_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
    double heater = year_of(best, TC_CONSUMER_HEATER), pumps = year_of(best, TC_CONSUMER_AIR_PUMP);
    assert_near(cell(&sheet, "heaters, a year", 0, 0)->number, heater, 1e-9);
    assert_near((double)cell(&sheet, "the same heat from the room's heating", 0, 0)->money, heater * 5.5,
                0.5);
    /* What warms new water goes down the drain with it. */
    assert_true(year_of(best, TC_CONSUMER_NEW_WATER) > 0);
    assert_near(best->heat, (heater + pumps) * 1000 / 8760, 1e-9);
    double kwh = 0;
    for (int month = 0; month < 12; month++) {
        double lift = 25 - (room_f[month] - 32) / 1.8;
        double watts = 60 * (lift > 0 ? lift : 0) - pumps * 1000 / 8760;
        kwh += watts > 0 ? watts * 24 * days[month] / 1000 : 0;
    }
    const char *label = "the room kept as warm as the water";
    assert_near(cell(&sheet, label, 0, 0)->number, kwh, 1e-6);
    assert_near((double)cell(&sheet, label, 1, 0)->money, kwh * 5.5, 0.5);
    tc_sheet_free(&sheet);
    done(&made);
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
    make(&again, state, plan);
    double reached = again.room.layouts[0].mix.reached;
    done(&again);
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
    make(&made, state, plan);
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        struct tc_search search;
        struct tc_room_relief relief;
        tc_search_start(&search, &ask);
        enum tc_status status =
            tc_room_relieve(&made.room, limits[i].limit, limits[i].step, &search, &relief);
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
        assert_true(again > made.room.layouts[0].mix.reached);
        told++;
    }
    done(&made);
    return told;
}

static void a_raise_brings_what_is_said(void **state)
{
    struct tc_plan plan = new_wall(state);
    int told = try_reliefs(state, &plan);
    set(&plan, "wall/budget", "2000");
    told += try_reliefs(state, &plan);
    set(&plan, "wall/circuit-current", "15 A");
    told += try_reliefs(state, &plan);
    set(&plan, "wall/objective", "tanks");
    set(&plan, "wall/floor-load", "150 psf");
    told += try_reliefs(state, &plan);
    assert_true(told >= 8);
}

/* 41.25 in hold one tank of 20.25 in and not two with the gap of 1 in; 41.5 in do. */
static void a_raise_is_the_least_where_it_can_be_seen(void **state)
{
    static const char *const tanks[] = {"10-gal", NULL};
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    struct tc_search search;
    struct tc_room_relief relief;
    struct tc_plan plan = bare_wall(tanks, "41.25 in", "40 in");
    set(&plan, "wall/depth", "12 in"); /* not end-on */
    make(&made, state, &plan);
    assert_int_equal(made.room.layouts[0].mix.tanks, 1);
    tc_search_start(&search, &ask);
    assert_int_equal(tc_room_relieve(&made.room, TC_WALL_LIMIT_LENGTH, 0.05 * INCH, &search, &relief), TC_OK);
    assert_near(relief.raise, 0.25 * INCH, 1e-9);
    assert_near(relief.reached, 2, 0);
    assert_true(relief.proven);
    done(&made);
}

/* ------------------------------------------------------------------- trade, no source */

/* Six tanks of 3 ft side by side want a little over 18 ft: common practice, no source. */
static void six_three_foot_tanks_want_a_little_over_18_ft(void **state)
{
    static const char *const tanks[] = {"40-breeder", NULL};
    static struct made made;
    struct tc_plan plan = bare_wall(tanks, "18 ft", "40 in");
    make(&made, state, &plan);
    assert_int_equal(made.room.layouts[0].mix.tanks, 5);
    done(&made);
    set(&plan, "wall/length", "19 ft");
    make(&made, state, &plan);
    assert_int_equal(made.room.layouts[0].mix.tanks, 6);
    double length = made.room.layouts[0].mix.length;
    assert_true(length > 18 * 12 * INCH && length < 19 * 12 * INCH);
    done(&made);
}

/* Where 13 in high tanks stand three high, 17 in high ones stand two high: common practice, no source. */
static void low_tanks_stand_three_high_where_higher_ones_stand_two(void **state)
{
    static const char *const low[] = {"20-long", NULL}, *const high[] = {"20-high", NULL};
    static struct made made;
    for (int inches = 88; inches <= 92; inches++) {
        char height[16];
        snprintf(height, sizeof height, "%d in", inches);
        struct tc_plan plan = bare_wall(low, "12 ft", height);
        make(&made, state, &plan);
        assert_near(made.room.units[0].tank.height, 13 * INCH, 0.3 * INCH);
        assert_int_equal(made.room.layouts[0].highest, 3);
        done(&made);
        plan = bare_wall(high, "12 ft", height);
        make(&made, state, &plan);
        assert_near(made.room.units[0].tank.height, 17 * INCH, 0.3 * INCH);
        assert_int_equal(made.room.layouts[0].highest, 2);
        done(&made);
    }
}

/* ------------------------------------------------------------------------- the drawing */

static void the_drawing_is_the_wall(void **state)
{
    static struct made made;
    struct tc_sheet sheet;
    struct tc_plan plan = new_wall(state);
    make(&made, state, &plan);
    assert_int_equal(ask_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
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
        const struct tc_tank *tank = &made.room.units[box->letter - 'A'].tank;
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
    const struct tc_wall_mix *mix = &made.room.layouts[0].mix;
    for (int i = 0; i < mix->bays; i++)
        tiers += mix->bay[i].tiers;
    assert_int_equal(tanks, mix->tanks);
    assert_int_equal(posts, mix->bays + 1);
    assert_int_equal(shelves, tiers);
    tc_sheet_free(&sheet);
    done(&made);
}

/* ------------------------------------------------------------------------ what goes wrong */

static void a_plan_without_a_wall_says_so(void **state)
{
    static struct made made;
    const char *const names[] = {"wall", "bill", "years"};
    struct tc_plan plan = *tc_stock_plan(*state, "start");
    study(&made, state, &plan, today);
    for (size_t i = 0; i < 3; i++) {
        struct tc_sheet sheet;
        char problem[TC_PROBLEM_SIZE] = "";
        assert_int_equal(ask_sheet(&made.study, names[i], true, &sheet, problem), TC_SYNTAX);
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
        struct tc_plan plan = new_wall(state);
        char problem[TC_PROBLEM_SIZE] = "";
        set(&plan, cases[i].path, cases[i].text);
        study(&made, state, &plan, today);
        assert_int_equal(ask_sheet(&made.study, "wall", false, &sheet, NULL), TC_OK);
        assert_true(has_note(&sheet, TC_NOTE_FINDING, "Nothing stands on this wall"));
        if (!strstr(cell(&sheet, "10-gal", 0, 0)->text, cases[i].why))
            fail_msg("%s = %s: %s", cases[i].path, cases[i].text, cell(&sheet, "10-gal", 0, 0)->text);
        assert_null(sheet.drawing);
        tc_sheet_free(&sheet);
        /* There is no bill of an empty wall. */
        assert_int_equal(ask_sheet(&made.study, "bill", true, &sheet, problem), TC_SYNTAX);
        assert_non_null(strstr(problem, "no tanks stand on this wall"));
        tc_sheet_free(&sheet);
        tc_study_free(&made.study);
    }
}

/* Twelve models on a long wall, at prices drawn so that the budget is hard to use up. */
static struct tc_plan long_wall(const struct tc_stock *stock, struct tc_random *random)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    set(&plan, "plan/kit", "breeding-plain");
    set(&plan, "plan/region", "lowmere");
    for (size_t i = 0; i < stock->tank_count && plan.candidate_count < TC_CANDIDATES_MAX; i++)
        if (stock->tanks[i].length > 0.5 && stock->tanks[i].length < 1.3)
            tc_plan_add(&plan, stock->tanks[i].goods.name)->price = 20 + floor(100 * tc_random_unit(random));
    set(&plan, "wall/length", "30 m");
    set(&plan, "wall/height", "2.5 m");
    set(&plan, "wall/depth", "1.5 m");
    set(&plan, "wall/circuit-current", "60 A");
    set(&plan, "wall/rack-price", "55");
    set(&plan, "wall/budget", "9000");
    return plan;
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

static void a_search_that_is_cut_short_says_so(void **state)
{
    static struct made made;
    const struct tc_ask ask = {.seed = 0};
    struct tc_random random;
    int open = 0;
    tc_random_seed(&random, 20261125, 0);
    for (int i = 0; i < 20; i++) {
        struct tc_plan plan = long_wall(*state, &random);
        struct tc_search search;
        snprintf(plan.wall.objective, sizeof plan.wall.objective, "%s", objectives[i % 3]);
        study(&made, state, &plan, today);
        tc_search_start(&search, &ask);
        search.nodes = 1;
        assert_int_equal(tc_room_make(&made.room, &made.study, &ask, &search), TC_OK);
        const struct tc_layout *best = &made.room.layouts[0];
        open += best->found == TC_STOPPED || (best->found == TC_OK && !best->mix.proven);
        if (best->found == TC_OK) {
            assert_true(best->mix.bound >= best->mix.reached);
            assert_keeps(&made.room, best);
        } else {
            assert_int_equal(best->found, TC_STOPPED);
        }
        done(&made);
    }
    assert_true(open > 0);
}

static void a_long_search_tells_how_far_it_is_and_stops(void **state)
{
    static struct made made;
    struct tc_random random;
    tc_random_seed(&random, 20261125, 0);
    struct tc_plan plan = long_wall(*state, &random);
    struct tc_sheet sheet = {0};
    struct patience patience = {.most = 0};
    struct tc_ask ask = {.go_on = wait, .context = &patience};
    study(&made, state, &plan, today);
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
    }
    tc_study_free(&made.study);
}

static void memory_may_fail_anywhere(void **state)
{
    static struct made made;
    struct tc_plan plan = new_wall(state);
    set(&plan, "wall/length", "5 ft");
    set(&plan, "wall/budget", "900");
    set(&plan, "candidate 2/wall-least", "");
    study(&made, state, &plan, today);
    for (int which = 0; which < 2; which++) {
        bool failed = true;
        for (long n = 0; failed; n += 1 + n / 16) {
            struct tc_sheet sheet;
            failing_malloc_start(n, n % 2 == 1);
            enum tc_status status = ask_sheet(&made.study, which ? "bill" : "wall", which == 1, &sheet, NULL);
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
        cmocka_unit_test(limits_are_kept_for_every_objective),
        cmocka_unit_test(the_best_mix_is_the_best_layout),
        cmocka_unit_test(the_bill_of_the_walls_says_the_same),
        cmocka_unit_test(a_sale_limit_counts_for_the_whole_room),
        cmocka_unit_test(one_air_pump_is_cheaper_than_one_a_tank),
        cmocka_unit_test(lights_over_tiers_are_taken_where_they_are_cheaper),
        cmocka_unit_test(the_room_has_one_timer),
        cmocka_unit_test(heating_is_compared_by_hand),
        cmocka_unit_test(a_raise_brings_what_is_said),
        cmocka_unit_test(a_raise_is_the_least_where_it_can_be_seen),
        cmocka_unit_test(six_three_foot_tanks_want_a_little_over_18_ft),
        cmocka_unit_test(low_tanks_stand_three_high_where_higher_ones_stand_two),
        cmocka_unit_test(the_drawing_is_the_wall),
        cmocka_unit_test(a_plan_without_a_wall_says_so),
        cmocka_unit_test(where_nothing_fits_it_says_why),
        cmocka_unit_test(a_search_that_is_cut_short_says_so),
        cmocka_unit_test(a_long_search_tells_how_far_it_is_and_stops),
        cmocka_unit_test(memory_may_fail_anywhere),
    };
    return cmocka_run_group_tests(tests, read_demo, free_demo);
}
