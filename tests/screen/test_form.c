/* SPDX-License-Identifier: MIT */
/* Sections of profiles shown, made, copied, changed and deleted on the screen. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile/kind.h"
#include "screen/edit.h"
#include "screen/form.h"
#include "screen/keymap.h"
#include "screen/new_tank.h"
#include "screen/reload.h"
#include "screen/section_file.h"
#include "support/near.h"
#include "support/own_folder.h"
#include "support/screen_case.h"

static struct screen_case c;
static struct own_folder own;

/* Each test has a folder of its own, in which it runs, and the user's own profiles lie there. */
static int start(void **state)
{
    (void)state;
    screen_case_start(&c, 100, 30);
    c.options.own_folder = "own";
    c.options.installed = c.profiles;
    return own_folder_enter(&own, "form");
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return own_folder_leave(&own);
}

static void expect_file(const char *path, const char *wanted)
{
    char text[2048];
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, wanted);
}

static const char *list_name(void)
{
    return tc_state_list(&c.state)->picker.sheet.name;
}

/* A light of one's own, key by key: in force at once, written whole, taken back. */
static void test_a_section_is_made_and_changed(void **state)
{
    (void)state;
    screen_type(&c, "elight\r");
    assert_string_equal(list_name(), "sections");
    screen_type(&c, "another\r");
    assert_true(screen_shows(&c, "A new light called"));
    screen_type(&c, "My Strip\r");
    assert_string_equal(list_name(), "form");
    assert_string_equal(tc_state_list(&c.state)->about.head, "light my-strip");
    assert_true(screen_shows(&c, "missing"));
    screen_type(&c, "longest\r");
    screen_type(&c, "24 pounds");
    assert_true(c.state.prompt.problem[0] != '\0'); /* as one types */
    screen_type(&c, "\025"
                    "24 in\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    expect_file("own/parts/my-strip.ini", "[light my-strip]\nlongest = 24 in\n");
    screen_type(&c, "price\r45\r"); /* in the money of the plan's region */
    expect_file("own/parts/my-strip.ini", "[light my-strip]\nlongest = 24 in\nprice   = 45 USD\n");
    screen_type(&c, "price");
    screen_press(&c, TC_EVENT_DELETE);
    expect_file("own/parts/my-strip.ini", "[light my-strip]\nlongest = 24 in\n");
    screen_press(&c, TC_EVENT_LEFT);
    expect_file("own/parts/my-strip.ini", "[light my-strip]\nlongest = 24 in\nprice   = 45 USD\n");
    for (int i = 0; i < 3; i++)
        screen_press(&c, TC_EVENT_LEFT);
    assert_int_not_equal(access("own/parts/my-strip.ini", F_OK), 0);
    screen_press(&c, TC_EVENT_LEFT);
    assert_true(screen_shows(&c, "Nothing was written yet"));
    screen_type(&c, "\033\033\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

/* What came with the program is not changed; a copy is, and it is the user's. */
static void test_what_is_installed_is_copied(void **state)
{
    (void)state;
    screen_type(&c, "etank\r29-high\r");
    assert_string_equal(list_name(), "form");
    assert_true(screen_shows(&c, "came with the program"));
    screen_type(&c, "length\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    assert_true(screen_shows(&c, "Right copies it"));
    screen_press(&c, TC_EVENT_RIGHT);
    screen_type(&c, "mine\r");
    assert_string_equal(tc_state_list(&c.state)->about.head, "tank mine");
    const struct tc_tank *mine = tc_stock_tank(&c.stock, "mine"), *other = tc_stock_tank(&c.stock, "29-high");
    assert_non_null(mine);
    assert_near(mine->length, other->length, 1e-12);
    screen_type(&c, "\025length\r40 in\r");
    assert_near(tc_stock_tank(&c.stock, "mine")->length, 40 * 0.0254, 1e-9);
    screen_type(&c, "\033"); /* back to the tanks: those of one's own come first */
    screen_type(&c, "\025mine");
    assert_true(screen_shows(&c, "yours"));
    screen_press(&c, TC_EVENT_DELETE);
    assert_null(tc_stock_tank(&c.stock, "mine"));
    screen_press(&c, TC_EVENT_LEFT);
    assert_non_null(tc_stock_tank(&c.stock, "mine"));
}

/* A figure that is changed is in force in the sheet at once. */
static void test_a_change_is_in_force_at_once(void **state)
{
    (void)state;
    screen_type(&c, "etank\r29-high\r");
    screen_press(&c, TC_EVENT_RIGHT);
    screen_type(&c, "mine\r\033\033\033");
    screen_type(&c, "tmine\r\033");
    int last = c.state.now.plan.candidate_count - 1;
    assert_string_equal(c.state.now.plan.candidate[last].tank, "mine");
    screen_type(&c, "etank\rmine\r\025price\r10\r\033\033\033");
    assert_near(tc_stock_tank(&c.stock, "mine")->goods.price.price[0].amount, 10, 1e-9);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

static void test_a_name_is_checked(void **state)
{
    (void)state;
    screen_type(&c, "elid\ranother\r\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(c.state.prompt.problem[0] != '\0');
    screen_type(&c, "none\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\025Good\r");
    assert_string_equal(tc_state_list(&c.state)->about.head, "lid good");
    screen_type(&c, "\033\025another\rgood\r");
    assert_non_null(strstr(c.state.prompt.problem, "already"));
}

/* Every kind of section there is: made, filled key by key, copied, deleted, and each step taken back. */
static void one_kind(const struct tc_kind *kind)
{
    char head[TC_SECTION_HEAD_SIZE], other[TC_SECTION_HEAD_SIZE], keys[2 * TC_NAME_SIZE];
    bool prices = !kind->table;
    snprintf(head, sizeof head, prices ? "prices lowmere light" : "%s mine", kind->name);
    snprintf(other, sizeof other, prices ? "prices highfell light" : "%s second", kind->name);
    snprintf(keys, sizeof keys, "e%s\r", kind->name);
    screen_type(&c, keys);
    assert_string_equal(list_name(), "sections");
    if (strcmp(kind->name, "tank") == 0) { /* by its size; see below */
        assert_true(tc_section_make(&c.state, head, ""));
        tc_form_open(&c.state, head);
    } else {
        screen_type(&c, "another\r");
        screen_type(&c, prices ? "lowmere light\r" : "mine\r");
    }
    assert_string_equal(list_name(), "form");
    assert_string_equal(tc_state_list(&c.state)->about.head, head);
    for (size_t i = 0; kind->table && i < kind->table->count; i++) {
        const struct tc_key *key = &kind->table->keys[i];
        assert_true(tc_section_set(&c.state, head, key->name, key->example));
        assert_string_equal(tc_section_text(tc_section_of(&c.state, head), key->name), key->example);
    }
    screen_press(&c, TC_EVENT_RIGHT);
    screen_type(&c, prices ? "highfell light\r" : "second\r");
    assert_string_equal(tc_state_list(&c.state)->about.head, other);
    const struct tc_section *copy = tc_section_of(&c.state, other);
    assert_true(tc_section_is_own(&c.state, copy));
    for (size_t i = 0; kind->table && i < kind->table->count; i++)
        if (strcmp(kind->table->keys[i].name, "invented") != 0)
            assert_string_equal(tc_section_text(copy, kind->table->keys[i].name),
                                kind->table->keys[i].example);
    screen_type(&c, "\033");
    assert_string_equal(list_name(), "sections");
    screen_type(&c, prices ? "\025highfell light" : "\025second");
    screen_press(&c, TC_EVENT_DELETE);
    assert_null(tc_section_of(&c.state, other));
    screen_press(&c, TC_EVENT_LEFT);
    assert_non_null(tc_section_of(&c.state, other));
    screen_type(&c, "\033\033\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

static void test_every_kind(void **state)
{
    (void)state;
    for (size_t i = 0; tc_kind_at(i); i++)
        if (tc_kind_at(i)->folder && tc_kind_at(i)->head != TC_HEAD_PLAN)
            one_kind(tc_kind_at(i));
}

/* ------------------------------------------------------------------- tanks by their size */

static void test_read_a_size(void **state)
{
    static const struct {
        const char *text, *name, *length, *price, *height;
    } good[] = {
        {"36 x 15 x 16 in 60", "36x15x16", "36 in", "60", "16 in"},
        {"36 15 16 60", "36x15x16", "36 in", "60", "16 in"},
        {"90x40x45cm", "90x40x45", "90 cm", "", "45 cm"},
        {"900*400*450 mm 89.50", "900x400x450", "900 mm", "89.50", "450 mm"},
        {"36.5 × 15.25 × 16", "36.5x15.25x16", "36.5 in", "", "16 in"},
        {"36 1/2 x 15¼ x 16 in 60", "36.5x15.25x16", "36.5 in", "60", "16 in"},
    };
    static const char *const bad[] = {"",
                                      "36",
                                      "36 x 15",
                                      "36 x 15 x tall",
                                      "36 x 15 x 16 in sixty",
                                      "36 x 15 x 16 in 60 80",
                                      "0 x 15 x 16",
                                      "-3 4 5"};
    struct tc_new_tank tank;
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        assert_true(tc_new_tank_read(good[i].text, true, &tank, problem));
        assert_string_equal(tank.name, good[i].name);
        assert_string_equal(tank.size[0], good[i].length);
        assert_string_equal(tank.price, good[i].price);
        assert_string_equal(tank.size[2], good[i].height);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(tc_new_tank_read(bad[i], true, &tank, problem));
}

static void test_a_tank_by_its_size(void **state)
{
    (void)state;
    screen_type(&c, "T36 x 15 x 16 in 60\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    const struct tc_tank *tank = tc_stock_tank(&c.stock, "36x15x16");
    assert_non_null(tank);
    assert_near(tank->width, 15 * 0.0254, 1e-9);
    /* What nobody can measure in a shop is assumed, and said to be. */
    assert_true(tank->glass_assumed && tank->nominal_assumed);
    assert_true(screen_shows(&c, "3 assumed")); /* and the humidity of the room */
    int last = c.state.now.plan.candidate_count - 1;
    assert_string_equal(c.state.now.plan.candidate[last].tank, "36x15x16");
    assert_near(c.state.now.plan.candidate[last].price, 60, 1e-9);
    assert_non_null(tc_state_alternative(&c.state, last));
    /* It is shown where it is typed over, and then is no longer assumed. */
    screen_select(&c, "tank", (size_t)last);
    screen_type(&c, "aglass");
    assert_true(screen_shows(&c, ", assumed"));
    screen_type(&c, "\r\0256 mm\r");
    assert_near(tc_state_alternative(&c.state, last)->c.tank.glass, 0.006, 1e-12);
    assert_near(tc_state_alternative(&c.state, last)->c.tank.bottom_glass, 0.006, 1e-12);
    screen_type(&c, "\025nominal");
    assert_true(screen_shows(&c, ", assumed"));
    screen_type(&c, "\r\02540 gal\r\033");
    assert_true(screen_shows(&c, "1 assumed"));
    screen_type(&c, "T36 15 16 65\r"); /* the same size, at another price */
    assert_near(c.state.now.plan.candidate[last + 1].price, 65, 1e-9);
}

/* What is a word or the name of something that exists is chosen from a list, in forms and in the list of a.
 */
static void test_names_are_chosen(void **state)
{
    (void)state;
    screen_type(&c, "eshop\ranother\rmy-shop\rregion\r");
    assert_string_equal(list_name(), "choice");
    assert_string_equal(tc_picker_value(&tc_state_list(&c.state)->picker), "lowmere"); /* as it is */
    screen_type(&c, "highf\r");
    assert_string_equal(list_name(), "form");
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = highfell\n");
    screen_type(&c, "region\ranother\r"); /* or typed, where nothing has the name yet */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\025new-town\r");
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = new-town\n");
    screen_type(&c, "seller\rprivate\r");
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = new-town\nseller = private\n");
    screen_type(&c, "\033\033\033agoal\rbottom\r");
    assert_string_equal(list_name(), "assumptions");
    assert_int_equal(c.state.now.plan.goal, TC_GOAL_BOTTOM);
}

/* What shops ask for a thing stands in its form; a shop of one's own is told its price there. */
static void test_prices_side_by_side(void **state)
{
    (void)state;
    screen_type(&c, "eshop\ranother\rmy-shop\r\033\033\033");
    screen_type(&c, "etank\r29-high\r");
    assert_true(screen_shows(&c, "at lowmere"));
    assert_true(screen_shows(&c, "at my-shop"));
    screen_type(&c, "at lowmere\r");
    assert_true(screen_shows(&c, "This shop came with the program"));
    screen_type(&c, "\025at my-shop\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "61.50\r");
    assert_true(screen_shows(&c, "61.50 USD"));
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = lowmere\n\n"
                                         "[prices my-shop tank]\n29-high = 61.50\n");
    screen_type(&c, "at my-shop");
    screen_press(&c, TC_EVENT_DELETE);
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = lowmere\n\n[prices my-shop tank]\n");
    screen_press(&c, TC_EVENT_LEFT); /* the price is back */
    screen_type(&c, "\033\025compare\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PAGER);
    assert_true(screen_shows(&c, "What the shops ask"));
    assert_non_null(strstr(tc_text_string(&c.state.pager.text), "61.50"));
    assert_non_null(strstr(tc_text_string(&c.state.pager.text), "not sold"));
    tc_keymap_resize(&c.state, 40, 20);
    assert_non_null(strstr(tc_text_string(&c.state.pager.text), "61.50"));
    screen_type(&c, "\033");
    assert_string_equal(list_name(), "sections");
}

/* Plans are listed with all else; one's own that is not open is deleted, and comes back. */
static void test_plans_are_deleted(void **state)
{
    static const char mine[] = "[plan mine]\nsetup = shrimp-shelf\nregion = lowmere\n\n"
                               "[candidate 1]\ntank = 29-high\n";
    (void)state;
    assert_int_equal(mkdir("own", 0777), 0);
    assert_int_equal(mkdir("own/plans", 0777), 0);
    FILE *file = fopen("own/plans/mine.ini", "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(mine, 1, strlen(mine), file), strlen(mine));
    assert_int_equal(fclose(file), 0);
    tc_reload(&c.state);
    screen_type(&c, "eplan\r");
    assert_string_equal(list_name(), "plans");
    screen_type(&c, "spring"); /* it is open */
    screen_press(&c, TC_EVENT_DELETE);
    assert_non_null(tc_stock_plan(&c.stock, "spring"));
    screen_type(&c, "\025mine");
    screen_press(&c, TC_EVENT_DELETE);
    assert_null(tc_stock_plan(&c.stock, "mine"));
    assert_int_not_equal(access("own/plans/mine.ini", F_OK), 0);
    screen_press(&c, TC_EVENT_LEFT);
    expect_file("own/plans/mine.ini", mine);
    assert_non_null(tc_stock_plan(&c.stock, "mine"));
    screen_type(&c, "\033ethis plan\r");
    assert_string_equal(list_name(), "assumptions");
}

/* A plan is copied with its wall, made anew, changed, deleted, and each comes back. */
static void test_plans_are_made_and_copied(void **state)
{
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    assert_true(tc_edit_set(&c.state, "wall/length", "12 ft", problem));
    assert_true(tc_edit_set(&c.state, "wall/height", "8 ft", problem));
    assert_true(tc_edit_set(&c.state, "wall/depth", "24 in", problem));
    screen_type(&c, "eplan\rspring");
    screen_press(&c, TC_EVENT_RIGHT);
    assert_true(screen_shows(&c, "A copy of spring called"));
    screen_type(&c, "spring\r");
    assert_non_null(strstr(c.state.prompt.problem, "already"));
    screen_type(&c, "\025My Spring\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_string_equal(c.state.now.plan.name, "my-spring");
    assert_true(tc_plan_has_wall(&c.state.now.plan));
    assert_false(tc_state_changed(&c.state));
    const struct tc_plan *copy = tc_stock_plan(&c.stock, "my-spring");
    assert_non_null(copy);
    assert_int_equal(copy->candidate_count, tc_stock_plan(&c.stock, "spring")->candidate_count);
    assert_near(copy->wall.length, 12 * 0.3048, 1e-9);

    screen_type(&c, "eplan\ranother\rempty\r");
    assert_string_equal(c.state.now.plan.name, "empty");
    assert_int_equal(c.state.now.plan.candidate_count, 0);
    assert_string_equal(c.state.now.plan.region, tc_stock_plan(&c.stock, "spring")->region);
    assert_int_equal(access("own/plans/empty.ini", F_OK), 0);
    screen_type(&c, "eplan\r");
    screen_press(&c, TC_EVENT_LEFT); /* the last writing is taken back */
    assert_null(tc_stock_plan(&c.stock, "empty"));
    assert_int_not_equal(access("own/plans/empty.ini", F_OK), 0);
}

/* Narrowed by the name of a section, a list shows all of it. */
static void test_a_section_of_the_assumptions(void **state)
{
    (void)state;
    screen_type(&c, "awall");
    assert_true(screen_shows(&c, "  height-2"));
    assert_true(screen_shows(&c, "  post"));
    assert_false(screen_shows(&c, "light-hours"));
}

/* ------------------------------------------------------------------- prices kept in a list */

static void test_a_typed_price_is_kept_for_all_plans(void **state)
{
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "K");
    assert_true(screen_shows(&c, "No price was typed here"));
    screen_type(&c, "61\r");
    screen_type(&c, "K"); /* what came with the program is not written to */
    assert_true(screen_shows(&c, "lowmere came with the program"));
    assert_near(c.state.now.plan.candidate[0].price, 61, 1e-9);

    screen_type(&c, "eshop\ranother\rmy-shop\r\033\033\033");
    assert_true(tc_edit_set(&c.state, "plan/shop", "my-shop", problem));
    screen_press(&c, TC_EVENT_REDRAW);
    screen_select(&c, "tank", 0);
    screen_type(&c, "K");
    assert_true(screen_shows(&c, "29-high is 61 at my-shop now, for all plans."));
    expect_file("own/shops/my-shop.ini", "[shop my-shop]\nregion = lowmere\n\n"
                                         "[prices my-shop tank]\n29-high = 61\n");
    assert_true(isnan(c.state.now.plan.candidate[0].price));
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "61.00");

    /* Of an unnamed part it is asked which one has the price. */
    assert_true(tc_edit_set(&c.state, "candidate 1/heater", "unnamed", problem));
    assert_true(tc_edit_set(&c.state, "candidate 1/heater-price", "22.50", problem));
    screen_press(&c, TC_EVENT_REDRAW);
    screen_select(&c, "heater", 0);
    screen_type(&c, "K");
    assert_true(screen_shows(&c, "Which heater has this price?"));
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_true(isnan(c.state.now.plan.candidate[0].pin[TC_SLOT_HEATER].price));
    assert_true(strcmp(c.state.now.plan.candidate[0].pin[TC_SLOT_HEATER].part, "unnamed") != 0);
    const struct tc_alternative *alternative = tc_state_alternative(&c.state, 0);
    assert_int_equal(alternative->equipment.slot[TC_SLOT_HEATER].offer->price, 2250);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_a_section_is_made_and_changed, start, end),
        cmocka_unit_test_setup_teardown(test_what_is_installed_is_copied, start, end),
        cmocka_unit_test_setup_teardown(test_a_change_is_in_force_at_once, start, end),
        cmocka_unit_test_setup_teardown(test_a_name_is_checked, start, end),
        cmocka_unit_test_setup_teardown(test_every_kind, start, end),
        cmocka_unit_test(test_read_a_size),
        cmocka_unit_test_setup_teardown(test_a_tank_by_its_size, start, end),
        cmocka_unit_test_setup_teardown(test_names_are_chosen, start, end),
        cmocka_unit_test_setup_teardown(test_prices_side_by_side, start, end),
        cmocka_unit_test_setup_teardown(test_plans_are_deleted, start, end),
        cmocka_unit_test_setup_teardown(test_plans_are_made_and_copied, start, end),
        cmocka_unit_test_setup_teardown(test_a_section_of_the_assumptions, start, end),
        cmocka_unit_test_setup_teardown(test_a_typed_price_is_kept_for_all_plans, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
