/* SPDX-License-Identifier: MIT */
/* A sheet whose answer grows while it is worked out: what is known is shown, and can be moved about in. */
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

#include "screen/keymap.h"
#include "screen/refresh.h"
#include "screen/reload.h"
#include "support/own_folder.h"
#include "support/screen_case.h"

enum { TANKS = 300 };

static struct screen_case c;
static struct own_folder own;

/* A folder of the user's own with many tanks. */
static int start(void **state)
{
    (void)state;
    screen_case_start(&c, 80, 24);
    c.options.own_folder = "own";
    if (own_folder_enter(&own, "growing") != 0 || mkdir("own", 0700) != 0 || mkdir("own/tanks", 0700) != 0)
        return -1;
    FILE *file = fopen("own/tanks/many.ini", "w");
    if (!file)
        return -1;
    for (int i = 0; i < TANKS; i++)
        fprintf(file,
                "[tank many-%d]\nnominal = %.1f gal\nlength = %d in\nwidth = 12 in\nheight = %d in\n"
                "glass = 6 mm\nprice = %d USD\n",
                i, (20 + i % 17) * 12 * (12 + i % 9) / 231.0, 20 + i % 17, 12 + i % 9, 20 + i);
    fclose(file);
    tc_reload(&c.state);
    return c.stock.tank_count > TANKS ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return own_folder_leave(&own);
}

struct watched {
    int drawn;           /* pictures that were due because the sheet had grown */
    size_t rows;         /* of the sheet then */
    size_t line;         /* selected then */
    int stop_after;      /* so many of them; 0: never */
    double done;         /* at the last one */
    bool shows, working; /* the screen says what it is about */
};

/* What the loop does between two looks for a key. */
static bool watch(void *context, double done)
{
    struct watched *watched = context;
    if (!c.state.grown)
        return true;
    c.state.grown = false;
    c.state.working = done;
    watched->drawn++;
    watched->done = done;
    watched->rows = tc_state_tab_seen(&c.state)->sheet.row_count;
    watched->shows = screen_shows(&c, "So far ");
    watched->working = screen_shows(&c, "Esc stops");
    tc_keymap_press(&c.state, (struct tc_key_event){.code = TC_EVENT_DOWN});
    watched->line = tc_state_tab_seen(&c.state)->position.line;
    if (watched->drawn != watched->stop_after)
        return true;
    tc_refresh_stop(&c.state);
    return false;
}

static void go_to_shortlist(void)
{
    for (size_t i = 0; i < c.state.question_count; i++) {
        c.state.question = i;
        if (strcmp(tc_state_question(&c.state)->name, "shortlist") == 0)
            return;
    }
    fail_msg("there is no shortlist");
}

static void what_is_known_is_shown(void **state)
{
    struct watched watched = {0};
    (void)state;
    go_to_shortlist();
    tc_refresh_do(&c.state, watch, &watched);
    c.state.working = -1;
    assert_true(watched.drawn >= 1 && watched.done > 0 && watched.done < 1);
    assert_true(watched.rows > 10 && watched.shows && watched.working);
    assert_true(watched.line > 0);
    /* The whole follows, with what was selected still selected. */
    assert_false(tc_refresh_waits(&c.state));
    assert_false(tc_state_tab_seen(&c.state)->partial || screen_shows(&c, "So far "));
    assert_true(tc_state_tab_seen(&c.state)->sheet.row_count > watched.rows);
}

static void esc_keeps_what_is_known(void **state)
{
    struct watched watched = {.stop_after = 1};
    (void)state;
    go_to_shortlist();
    tc_refresh_do(&c.state, watch, &watched);
    c.state.working = -1;
    assert_int_equal(watched.drawn, 1);
    assert_true(tc_state_tab_seen(&c.state)->partial && tc_state_tab_seen(&c.state)->stopped);
    assert_true(tc_state_tab_seen(&c.state)->sheet.row_count >= watched.rows);
    assert_true(screen_shows(&c, "Stopped: these are the figures known so far."));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_is_known_is_shown, start, end),
        cmocka_unit_test_setup_teardown(esc_keeps_what_is_known, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
