/* SPDX-License-Identifier: MIT */
/* Plans saved, sheets written, other plans opened, and leaving: nothing is lost unasked. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile/plan_save.h"
#include "support/near.h"
#include "support/screen_case.h"

static struct screen_case c;
static char folder[TC_PATH_SIZE];
static char top[TC_PATH_SIZE];

/* Each test has a folder of its own, in which it runs. */
static int start(void **state)
{
    const char *build = getenv("BUILD");
    (void)state;
    snprintf(folder, sizeof folder, "%s/saving-XXXXXX", build ? build : "build");
    if (!mkdtemp(folder) || !getcwd(top, sizeof top))
        return -1;
    screen_case_start(&c, 100, 30);
    return chdir(folder);
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    if (chdir(top) != 0)
        return -1;
    char command[TC_PATH_SIZE + 16];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

static void change_the_plan(void)
{
    screen_select(&c, "tank", 0);
    screen_type(&c, "45\r");
    assert_true(tc_state_changed(&c.state));
}

/* The plan a file holds, read as the program reads it. */
static void read_plan(const char *path, struct tc_plan *plan)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char profiles[TC_PATH_SIZE + 32];
    snprintf(profiles, sizeof profiles, "%s/tests/data/profiles", top);
    tc_stock_start(&stock);
    assert_int_equal(tc_stock_read_folder(&stock, profiles, false, &faults), TC_OK);
    assert_int_equal(tc_stock_read_file(&stock, path, &faults), TC_OK);
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    assert_non_null(tc_stock_plan_of(&stock, path));
    memcpy(plan, tc_stock_plan_of(&stock, path), sizeof *plan);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
}

static void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
}

static void read_file(const char *path, char *text, size_t size)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    text[fread(text, 1, size - 1, file)] = '\0';
    fclose(file);
}

static void test_save_under_a_name(void **state)
{
    struct tc_plan plan;
    (void)state;
    c.options.plan_folder = "own/plans";
    change_the_plan();
    screen_type(&c, "s");
    assert_string_equal(c.state.prompt.input.text, "spring");
    screen_type(&c, "My shelf\r"); /* no name: another one is offered */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_non_null(strstr(c.state.prompt.problem, "how about 'my-shelf'?"));
    screen_type(&c, "\025my-shelf\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_true(screen_shows(&c, "Saved as own/plans/my-shelf.ini"));
    assert_false(tc_state_changed(&c.state));
    read_plan("own/plans/my-shelf.ini", &plan);
    assert_string_equal(plan.name, "my-shelf");
    assert_near(plan.candidate[0].price, 45, 1e-9);
    assert_true(tc_plan_equal(&plan, &c.state.now.plan));

    /* Its own file is replaced without a question. */
    screen_type(&c, "50\rs");
    assert_string_equal(c.state.prompt.input.text, "own/plans/my-shelf.ini");
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    read_plan("own/plans/my-shelf.ini", &plan);
    assert_near(plan.candidate[0].price, 50, 1e-9);
    assert_false(tc_state_changed(&c.state));
}

static void test_another_file_is_asked_about(void **state)
{
    struct tc_plan plan;
    (void)state;
    assert_int_equal(tc_plan_save(&c.plan, "other.ini", &c.faults), TC_OK);
    change_the_plan();
    screen_type(&c, "s\025other.ini\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    assert_true(screen_shows(&c, "other.ini is there already"));
    screen_type(&c, "q"); /* no answer */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    screen_type(&c, "\033");
    read_plan("other.ini", &plan);
    assert_string_equal(plan.name, "spring");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\ry");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    read_plan("other.ini", &plan);
    assert_string_equal(plan.name, "other");
    assert_near(plan.candidate[0].price, 45, 1e-9);
}

static void test_what_is_no_plan_is_never_replaced(void **state)
{
    static const char text[] = "[tank precious]\nlength = 30 in\n";
    char now[256];
    (void)state;
    write_file("tanks.ini", text);
    change_the_plan();
    screen_type(&c, "s\025tanks.ini\ry");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(c.state.prompt.problem[0] != '\0');
    read_file("tanks.ini", now, sizeof now);
    assert_string_equal(now, text);
    assert_true(tc_state_changed(&c.state));
}

static void test_saving_that_fails_loses_nothing(void **state)
{
    (void)state;
    change_the_plan();
    screen_type(&c, "s\025no-such-folder/plan.ini\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(c.state.prompt.problem[0] != '\0');
    assert_int_not_equal(access("no-such-folder", F_OK), 0); /* folders are not made unasked */
    screen_type(&c, "\025\r");
    assert_non_null(strstr(c.state.prompt.problem, "write a name"));
    screen_type(&c, "\025dir/plan.txt\r");
    assert_non_null(strstr(c.state.prompt.problem, "ends in .ini"));
    screen_type(&c, "\033");
    assert_true(tc_state_changed(&c.state));
    assert_near(c.state.now.plan.candidate[0].price, 45, 1e-9);
}

static void test_at_home(void **state)
{
    char home[TC_PATH_SIZE], before[TC_PATH_SIZE];
    (void)state;
    snprintf(before, sizeof before, "%s", getenv("HOME") ? getenv("HOME") : "");
    assert_non_null(getcwd(home, sizeof home));
    setenv("HOME", home, 1);
    change_the_plan();
    screen_type(&c, "s\025 ~/at-home.ini \r");
    setenv("HOME", before, 1);
    assert_int_equal(access("at-home.ini", F_OK), 0);
}

static void test_leaving(void **state)
{
    (void)state;
    screen_type(&c, "q");
    assert_true(c.state.leave);
    c.state.leave = false;
    change_the_plan();
    screen_type(&c, "q");
    assert_false(c.state.leave);
    assert_true(screen_shows(&c, "is not saved"));
    screen_type(&c, "y"); /* no answer to this question */
    assert_false(c.state.leave);
    screen_type(&c, "\033q");
    screen_press(&c, TC_EVENT_BREAK); /* ^C twice does not lose a plan either */
    assert_false(c.state.leave);
    screen_type(&c, "qs"); /* save first */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\025last.ini\r");
    assert_true(c.state.leave);
    assert_int_equal(access("last.ini", F_OK), 0);
    c.state.leave = false;
    screen_type(&c, "46\rqs\033"); /* second thoughts */
    assert_false(c.state.leave);
    screen_type(&c, "qq");
    assert_true(c.state.leave);
}

static void test_open_another_plan(void **state)
{
    struct tc_plan *other = &c.stock.plans[c.stock.plan_count - 1];
    (void)state;
    assert_string_equal(other->name, "spring");
    memcpy(other->name, "autumn", 7); /* the stock has one plan: under another name it is another one */
    screen_type(&c, "oautumn\r");
    assert_string_equal(c.state.now.plan.name, "autumn");
    assert_false(tc_state_changed(&c.state));
    screen_type(&c, "u"); /* a step like others */
    assert_string_equal(c.state.now.plan.name, "spring");
    change_the_plan();
    screen_type(&c, "oautumn\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    screen_type(&c, "\033");
    assert_string_equal(c.state.now.plan.name, "spring");
    screen_type(&c, "oautumn\rs\025kept.ini\r"); /* save first, then it opens */
    assert_string_equal(c.state.now.plan.name, "autumn");
    assert_int_equal(access("kept.ini", F_OK), 0);
    change_the_plan();
    screen_type(&c, "oautumn\ry");
    assert_false(tc_state_changed(&c.state));
}

static void test_write_a_sheet(void **state)
{
    static const struct {
        const char *name, *begins;
    } files[] = {{"a.txt", "What each costs"}, {"a.csv", ""}, {"a.md", "#"}, {"a.json", "{"}};
    (void)state;
    screen_type(&c, "w");
    assert_string_equal(c.state.prompt.input.text, "spring-bill.txt");
    screen_type(&c, "bill.pdf\r");
    assert_non_null(strstr(c.state.prompt.problem, ".txt, .csv, .md or .json"));
    screen_type(&c, "\033");
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        char text[256];
        screen_type(&c, "w\025");
        screen_type(&c, files[i].name);
        screen_type(&c, "\r");
        assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
        read_file(files[i].name, text, sizeof text);
        assert_memory_equal(text, files[i].begins, strlen(files[i].begins));
        assert_true(strlen(text) > 100);
    }
    write_file("mine.txt", "mine\n");
    screen_type(&c, "w\025mine.txt\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    screen_type(&c, "n\033");
    char text[256];
    read_file("mine.txt", text, sizeof text);
    assert_string_equal(text, "mine\n");
    screen_type(&c, "w\025mine.txt\ry");
    read_file("mine.txt", text, sizeof text);
    assert_memory_equal(text, "What each costs", 15);
    screen_type(&c, "w\025none/x.csv\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(c.state.prompt.problem[0] != '\0');
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_save_under_a_name, start, end),
        cmocka_unit_test_setup_teardown(test_another_file_is_asked_about, start, end),
        cmocka_unit_test_setup_teardown(test_what_is_no_plan_is_never_replaced, start, end),
        cmocka_unit_test_setup_teardown(test_saving_that_fails_loses_nothing, start, end),
        cmocka_unit_test_setup_teardown(test_at_home, start, end),
        cmocka_unit_test_setup_teardown(test_leaving, start, end),
        cmocka_unit_test_setup_teardown(test_open_another_plan, start, end),
        cmocka_unit_test_setup_teardown(test_write_a_sheet, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
