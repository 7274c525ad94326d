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
#include "profile/stock_finish.h"
#include "screen/document.h"
#include "screen/keymap.h"
#include "screen/refresh.h"
#include "screen/reload.h"
#include "support/near.h"
#include "support/own_folder.h"
#include "support/screen_case.h"

static struct screen_case c;
static struct own_folder own;

/* Each test has a folder of its own, in which it runs. */
static int start(void **state)
{
    (void)state;
    screen_case_start(&c, 100, 30);
    return own_folder_enter(&own, "saving");
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return own_folder_leave(&own);
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
    snprintf(profiles, sizeof profiles, "%s/tests/data/profiles", own.top);
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

/* Puts the plan into a file of its own under another name, and the file into the stock. */
static void add_plan(const char *name, const char *path)
{
    struct tc_plan plan;
    memcpy(&plan, &c.plan, sizeof plan);
    memset(plan.name, 0, sizeof plan.name);
    snprintf(plan.name, sizeof plan.name, "%s", name);
    assert_int_equal(tc_plan_save(&plan, path, &c.faults), TC_OK);
    tc_state_free_study(&c.state);
    assert_int_equal(tc_stock_read_file(&c.stock, path, &c.faults), TC_OK);
    assert_int_equal(tc_stock_finish(&c.stock, &c.faults), TC_OK);
    tc_state_outdate(&c.state);
}

static const char *plan_name(void)
{
    return c.state.now.plan.name;
}

static double price(void)
{
    return c.state.now.plan.candidate[0].price;
}

static void test_open_another_plan(void **state)
{
    (void)state;
    add_plan("autumn", "autumn.ini");
    screen_type(&c, "oautumn\r");
    assert_string_equal(plan_name(), "autumn");
    assert_string_equal(tc_state_file(&c.state)->path, "autumn.ini");
    assert_false(tc_state_changed(&c.state));
    screen_type(&c, "u"); /* a step like others */
    assert_string_equal(plan_name(), "spring");
    change_the_plan();
    screen_type(&c, "oautumn\r");
    assert_string_equal(plan_name(), "autumn");
    assert_true(screen_shows(&c, "spring is not saved: o goes back to it"));
    assert_false(tc_state_changed(&c.state));
    screen_type(&c, "ospring\r"); /* with its changes */
    assert_string_equal(plan_name(), "spring");
    assert_near(price(), 45, 1e-9);
    assert_true(tc_state_changed(&c.state));
}

/* What was saved is what is opened, and what the list shows. */
static void test_a_saved_plan_is_opened_as_it_was_saved(void **state)
{
    (void)state;
    c.options.plan_folder = "own/plans";
    change_the_plan();
    screen_type(&c, "s\025mine\r");
    screen_type(&c, "o");
    assert_true(screen_shows(&c, "mine"));
    screen_type(&c, "spring\r");
    assert_string_equal(plan_name(), "spring");
    assert_false(tc_state_changed(&c.state));
    screen_type(&c, "omine\r");
    assert_near(price(), 45, 1e-9);
    assert_false(tc_state_changed(&c.state));
    screen_select(&c, "tank", 0);
    screen_type(&c, "50\rs\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    screen_type(&c, "ospring\romine\r");
    assert_near(price(), 50, 1e-9);
}

/* A plan stays in the file it was read from, whatever that is called. */
static void test_a_plan_is_saved_where_it_was_read_from(void **state)
{
    struct tc_plan plan;
    (void)state;
    add_plan("mine", "shop-visit.ini");
    screen_type(&c, "omine\r");
    change_the_plan();
    screen_type(&c, "s");
    assert_string_equal(c.state.prompt.input.text, "shop-visit.ini");
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    read_plan("shop-visit.ini", &plan);
    assert_string_equal(plan.name, "mine");
    assert_near(plan.candidate[0].price, 45, 1e-9);
}

/* Profiles that came with the program stay as they are, and what is saved goes before them. */
static void test_an_installed_plan_is_saved_elsewhere(void **state)
{
    (void)state;
    assert_int_equal(mkdir("installed", 0777), 0);
    add_plan("demo", "installed/demo.ini");
    c.options.installed = "installed";
    c.options.plan_folder = "own/plans";
    screen_type(&c, "odemo\r");
    change_the_plan();
    screen_type(&c, "s");
    assert_string_equal(c.state.prompt.input.text, "demo");
    screen_type(&c, "\r");
    assert_true(screen_shows(&c, "Saved as own/plans/demo.ini"));
    screen_type(&c, "ospring\rodemo\r");
    assert_near(price(), 45, 1e-9);
}

static void test_what_would_be_hidden_is_not_saved(void **state)
{
    (void)state;
    add_plan("mine", "shop-visit.ini");
    c.options.plan_folder = "own/plans";
    change_the_plan();
    screen_type(&c, "s\025mine\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_non_null(strstr(c.state.prompt.problem, "a plan 'mine' in shop-visit.ini"));
    assert_int_not_equal(access("own/plans/mine.ini", F_OK), 0);
    screen_type(&c, "\025other\r");
    assert_int_equal(access("own/plans/other.ini", F_OK), 0);
}

/* The file was written by somebody else since it was read. */
static void test_a_file_changed_meanwhile_is_asked_about(void **state)
{
    char text[64];
    struct tc_plan plan;
    (void)state;
    add_plan("mine", "mine.ini");
    screen_type(&c, "omine\r");
    change_the_plan();
    write_file("mine.ini", "# somebody else's\n");
    screen_type(&c, "s\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    assert_true(screen_shows(&c, "was changed by somebody else"));
    screen_type(&c, "\033");
    read_file("mine.ini", text, sizeof text);
    assert_string_equal(text, "# somebody else's\n");
    screen_type(&c, "\ry");
    read_plan("mine.ini", &plan);
    assert_near(plan.candidate[0].price, 45, 1e-9);
    screen_select(&c, "tank", 0);
    screen_type(&c, "50\rs\r"); /* it is ours again */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

/* What another program writes is in force with the next look; what was changed here and not saved stays. */
static void test_files_changed_by_others_are_read_again(void **state)
{
    static const char tank[] =
        "[tank pond]\nnominal = 50 gal\nlength = 40 in\nwidth = 20 in\nheight = 16 in\n"
        "glass = 8 mm\nprice = 80 USD\n";
    struct tc_plan plan;
    (void)state;
    c.options.own_folder = "own";
    c.options.plan_folder = "own/plans";
    screen_type(&c, "s\025mine\r");
    assert_false(tc_reload_if_changed(&c.state));
    memcpy(&plan, &c.state.now.plan, sizeof plan);
    plan.candidate[0].price = 77;
    assert_int_equal(tc_plan_save(&plan, "own/plans/mine.ini", &c.faults), TC_OK);
    assert_int_equal(mkdir("own/tanks", 0777), 0);
    write_file("own/tanks/pond.ini", tank);
    assert_true(tc_reload_if_changed(&c.state));
    assert_false(tc_reload_if_changed(&c.state));
    assert_near(price(), 77, 1e-9);
    assert_false(tc_state_changed(&c.state));
    assert_non_null(tc_stock_tank(&c.stock, "pond"));
    change_the_plan();
    plan.candidate[0].price = 78;
    assert_int_equal(tc_plan_save(&plan, "own/plans/mine.ini", &c.faults), TC_OK);
    assert_true(tc_reload_if_changed(&c.state));
    assert_near(price(), 45, 1e-9);
    screen_type(&c, "s\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
}

/* Leaving asks for every plan that is not saved, also for one that is not seen. */
static void test_leaving_asks_for_every_plan(void **state)
{
    struct tc_plan plan;
    (void)state;
    add_plan("autumn", "autumn.ini");
    change_the_plan();
    screen_type(&c, "oautumn\rq");
    assert_false(c.state.leave);
    assert_true(screen_shows(&c, "Plan spring has changed"));
    screen_type(&c, "\033");
    screen_select(&c, "tank", 0);
    screen_type(&c, "46\rq");
    assert_true(screen_shows(&c, "spring, autumn"));
    screen_type(&c, "s"); /* one after the other */
    assert_string_equal(c.state.prompt.input.text, "autumn.ini");
    screen_type(&c, "\r");
    assert_false(c.state.leave);
    assert_string_equal(plan_name(), "spring");
    screen_type(&c, "\025spring.ini\r");
    assert_true(c.state.leave);
    read_plan("autumn.ini", &plan);
    assert_near(plan.candidate[0].price, 46, 1e-9);
    read_plan("spring.ini", &plan);
    assert_near(plan.candidate[0].price, 45, 1e-9);
}

/* As the loop does when a signal ends it; then another start of the program. */
static void end_and_start_again(void)
{
    tc_document_keep(&c.state);
    tc_state_free(&c.state);
    assert_int_equal(tc_keymap_start(&c.state, &c.options, 100, 30), TC_OK);
    tc_document_offer_kept(&c.state);
    tc_refresh_do(&c.state, NULL, NULL);
}

static void test_what_is_not_saved_outlives_the_end(void **state)
{
    (void)state;
    add_plan("mine", "mine.ini");
    c.options.kept_folder = "own/unsaved";
    end_and_start_again(); /* nothing to keep */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_int_not_equal(access("own/unsaved", F_OK), 0);
    screen_type(&c, "omine\r");
    change_the_plan();
    end_and_start_again();
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    assert_true(screen_shows(&c, "Plan mine was not saved when tankcost last ended."));
    screen_type(&c, "\033"); /* not now: it is offered again */
    end_and_start_again();
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    screen_type(&c, "y");
    assert_string_equal(plan_name(), "mine");
    assert_near(price(), 45, 1e-9);
    assert_true(tc_state_changed(&c.state));
    end_and_start_again(); /* still not saved */
    screen_type(&c, "ys");
    assert_string_equal(c.state.prompt.input.text, "mine.ini");
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    end_and_start_again();
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    screen_type(&c, "omine\r");
    assert_near(price(), 45, 1e-9);
}

static void test_what_was_kept_can_be_thrown_away(void **state)
{
    (void)state;
    c.options.kept_folder = "own/unsaved";
    change_the_plan();
    end_and_start_again();
    screen_type(&c, "d");
    end_and_start_again();
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    change_the_plan();
    end_and_start_again();
    screen_type(&c, "y");
    assert_near(price(), 45, 1e-9);
    screen_type(&c, "qq"); /* said to be not worth saving */
    assert_true(c.state.leave);
    tc_document_end(&c.state);
    c.state.leave = false;
    tc_state_free(&c.state);
    assert_int_equal(tc_keymap_start(&c.state, &c.options, 100, 30), TC_OK);
    tc_document_offer_kept(&c.state);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

static void test_write_a_sheet(void **state)
{
    static const struct {
        const char *name, *begins;
    } files[] = {{"a.txt", "What each costs"},
                 {"a.csv", ""},
                 {"a.md", "#"},
                 {"a.json", "{"},
                 {"a.html", "<!DOCTYPE html>"}};
    (void)state;
    screen_type(&c, "w");
    assert_string_equal(c.state.prompt.input.text, "spring-bill.txt");
    screen_type(&c, "bill.pdf\r");
    assert_non_null(strstr(c.state.prompt.problem, ".txt, .csv, .md, .json or .html"));
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
        cmocka_unit_test_setup_teardown(test_a_saved_plan_is_opened_as_it_was_saved, start, end),
        cmocka_unit_test_setup_teardown(test_a_plan_is_saved_where_it_was_read_from, start, end),
        cmocka_unit_test_setup_teardown(test_an_installed_plan_is_saved_elsewhere, start, end),
        cmocka_unit_test_setup_teardown(test_what_would_be_hidden_is_not_saved, start, end),
        cmocka_unit_test_setup_teardown(test_a_file_changed_meanwhile_is_asked_about, start, end),
        cmocka_unit_test_setup_teardown(test_files_changed_by_others_are_read_again, start, end),
        cmocka_unit_test_setup_teardown(test_leaving_asks_for_every_plan, start, end),
        cmocka_unit_test_setup_teardown(test_what_is_not_saved_outlives_the_end, start, end),
        cmocka_unit_test_setup_teardown(test_what_was_kept_can_be_thrown_away, start, end),
        cmocka_unit_test_setup_teardown(test_write_a_sheet, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
