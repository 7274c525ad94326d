/* SPDX-License-Identifier: MIT */
/* What is in sight while one reads a sheet: its findings, the key figures, the name of the group one is in.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "screen/keymap.h"
#include "screen/refresh.h"
#include "sheet/caution.h"
#include "support/screen_case.h"
#include "support/step.h"

static struct screen_case c;

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return 0;
}

/* The screen without line breaks, the marks before findings and runs of blanks. */
static const char *screen_in_one_line(void)
{
    static char line[32768];
    size_t length = 0;
    for (const char *text = screen_text(&c); *text && length + 1 < sizeof line; text++) {
        char sign = *text == '\n' ? ' ' : *text;
        if (sign != ' ' || (length > 0 && line[length - 1] != ' '))
            line[length++] = sign;
    }
    line[length] = '\0';
    return line;
}

static const char *finding(size_t i)
{
    return tc_frame_finding(&tc_state_tab_seen(&c.state)->sheet, i);
}

/* Whether the sheet has a caution in full. */
static bool cautions(const struct tc_sheet *sheet, enum tc_caution caution)
{
    struct tc_sheet said;
    bool found = false;
    tc_sheet_start(&said, "said", 0);
    tc_cautions(&said, caution, TC_US);
    size_t length = strcspn(said.notes[0].text, ":"); /* its figures are in the plan's units */
    for (size_t i = 0; i < sheet->note_count; i++)
        found = found || (sheet->notes[i].kind == TC_NOTE_CAUTION &&
                          strncmp(sheet->notes[i].text, said.notes[0].text, length + 1) == 0);
    tc_sheet_free(&said);
    return found;
}

static void check_cautions_of(const struct tc_sheet *sheet)
{
    for (size_t r = 0; r < sheet->row_count; r++)
        for (size_t column = 0; sheet->rows[r].cells && column < sheet->column_count; column++) {
            const struct tc_row *row = &sheet->rows[r];
            const struct tc_cell *cell = &row->cells[column];
            enum tc_caution caution = tc_caution_of(row, cell);
            assert_false(cell->marks & TC_MARK_OVER && cell->marks & TC_MARK_BEST);
            if (caution && !cautions(sheet, caution))
                fail_msg("%s: nothing is said of the danger of '%s'", sheet->name, row->label);
        }
}

/* On the smallest usual terminal every finding of every sheet can be read whole before anything is pressed.
 */
static void test_every_sheet(void **state)
{
    static const char *const plans[] = {"start", "three-places", "new-wall"};
    (void)state;
    for (size_t p = 0; p < sizeof plans / sizeof plans[0]; p += (size_t)test_step()) {
        screen_case_start_on(&c, "profiles", plans[p], 80, 24);
        for (size_t q = 0; q < c.state.question_count; q++, screen_type(&c, "\t")) {
            const char *line = screen_in_one_line();
            check_cautions_of(&tc_state_tab_seen(&c.state)->sheet);
            for (size_t i = 0; finding(i); i++)
                if (!strstr(line, finding(i)))
                    fail_msg("%s of %s: not in sight: %s", tc_state_question(&c.state)->name, plans[p],
                             finding(i));
        }
        screen_case_free(&c);
    }
}

/* The answer, the totals and how far they lie apart come before anything else. */
static void test_key_totals_in_sight(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    assert_true(screen_shows(&c, "to own over 10 years"));
    assert_true(screen_shows(&c, "more than the cheapest"));
}

static void five_findings(struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "sample", 1);
    tc_sheet_head(sheet, "A sample", "", "");
    tc_sheet_column(sheet, 0, "one", "");
    for (int i = 0; i < 5; i++)
        tc_sheet_note(
            sheet, TC_NOTE_FINDING,
            "Finding %d is so long that it takes two whole lines of a terminal with eighty columns, "
            "as many of them do.",
            i + 1);
    for (int group = 0; group < 3; group++) {
        tc_sheet_row(sheet, TC_ROW_GROUP, tc_sheet_format(sheet, "Group %d", group + 1), "");
        for (int i = 0; i < 20; i++) {
            tc_sheet_row(sheet, TC_ROW_LINE, tc_sheet_format(sheet, "row %d.%d", group + 1, i + 1), "");
            tc_sheet_number(sheet, 0, i, 0);
        }
    }
}

/* Further down only the first one stays; on the way back all are there again. */
static void test_findings_fold(void **state)
{
    (void)state;
    screen_case_start(&c, 80, 24);
    screen_case_show(&c, five_findings);
    assert_true(screen_shows(&c, "Finding 1") && screen_shows(&c, "Finding 5"));
    assert_true(screen_shows(&c, "row 1.1"));
    int height = c.state.frame.body_height;
    screen_press(&c, TC_EVENT_END);
    assert_true(screen_shows(&c, "Finding 1") && !screen_shows(&c, "Finding 2"));
    assert_true(screen_shows(&c, "row 3.20"));
    assert_int_equal(c.state.frame.body_height, height + 8);
    for (int i = 0; i < 100; i++) {
        screen_press(&c, TC_EVENT_UP);
        assert_in_range(c.state.tabs[0].position.line, c.state.tabs[0].position.top,
                        c.state.tabs[0].position.top + (size_t)c.state.frame.body_height - 1);
    }
    assert_true(screen_shows(&c, "Finding 5") && screen_shows(&c, "row 1.1"));
    /* Where there is room for both, nothing folds. */
    tc_keymap_resize(&c.state, 120, 60);
    screen_press(&c, TC_EVENT_END);
    assert_true(screen_shows(&c, "Finding 5") && screen_shows(&c, "row 3.20"));
}

/* What the strip has no room for at all is found at the end. */
static void test_findings_without_room(void **state)
{
    (void)state;
    screen_case_start(&c, 60, 16);
    screen_case_show(&c, five_findings);
    assert_false(screen_shows(&c, "Finding 5"));
    screen_press(&c, TC_EVENT_END);
    assert_true(screen_shows(&c, "Finding 5"));
}

static void test_group_stays_in_sight(void **state)
{
    (void)state;
    screen_case_start(&c, 80, 24);
    screen_case_show(&c, five_findings);
    for (int line = 0; line < 60; line++) {
        const struct tc_tab *tab = tc_state_tab_seen(&c.state);
        const char *group = tc_body_group(&tab->body, tab->position.line);
        assert_true(screen_shows(&c, group));
        screen_press(&c, TC_EVENT_DOWN);
    }
    screen_select(&c, "row 2.20", 0);
    assert_true(screen_shows(&c, "━━ Group 2 ━━"));
}

static void shared_way(struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "sample", 3);
    for (size_t column = 0; column < 3; column++)
        tc_sheet_column(sheet, column, column == 0 ? "one" : "other", "sale of-a-shop-far-away");
    tc_sheet_row(sheet, TC_ROW_LINE, "row", "");
    tc_sheet_number(sheet, 0, 1, 0);
}

/* What holds for all columns is said once, in one piece, however narrow they are. */
static void test_shared_heads_are_not_broken(void **state)
{
    (void)state;
    screen_case_start(&c, 80, 24);
    screen_case_show(&c, shared_way);
    assert_true(screen_shows(&c, "each: sale of-a-shop-far-away"));
}

/* The screen says a caution beside the figure. */
static void test_cautions_beside_figures(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    while (strcmp(tc_state_question(&c.state)->name, "fit") != 0)
        screen_type(&c, "\t");
    screen_select(&c, "load on footprint", 0);
    assert_true(screen_shows(&c, "Caution: floors may bear less: ask an engineer"));
    screen_select(&c, "weight, filled", 1);
    assert_true(screen_shows(&c, "Caution: level, rated stand; lift it empty"));
    screen_select(&c, "actual water", 0);
    assert_false(screen_shows(&c, "Caution: "));
}

/* A limit of a wall is typed where it is said what it costs, and the mix follows. */
static void test_limits_are_typed_where_they_stand(void **state)
{
    (void)state;
    if (test_step() > 1)
        return; /* the wall is filled twice */
    screen_case_start_on(&c, "profiles", "new-wall", 80, 24);
    assert_string_equal(tc_state_question(&c.state)->name, "wall");
    screen_type(&c, "c"); /* its drawing shows glass above glass */
    assert_true(screen_shows(&c, "Caution: rated rack, anchored to the wall"));
    screen_press(&c, TC_EVENT_ESCAPE);
    screen_select(&c, "budget", 0);
    assert_true(screen_shows(&c, "Enter change"));
    screen_type(&c, "2500\r");
    assert_int_equal((int)c.state.now.plan.wall.budget, 2500);
    assert_true(screen_shows(&c, "of 2 500.00 USD to buy"));
    screen_select(&c, "height", 0);
    screen_type(&c, "\r");
    assert_string_equal(c.state.prompt.path, "wall/height");
}

/* So do the lists to choose from and the forms. */
static void test_cautions_in_lists(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    screen_select(&c, "heater", 0);
    screen_type(&c, "p");
    screen_press(&c, TC_EVENT_DOWN);
    screen_press(&c, TC_EVENT_DOWN);
    assert_true(screen_shows(&c, "Caution: protected outlet, drip loop"));
    screen_type(&c, "\033t");
    assert_true(screen_shows(&c, "Caution: glass strength is not checked"));
    screen_type(&c, "\033estand\r");
    screen_press(&c, TC_EVENT_DOWN);
    screen_press(&c, TC_EVENT_DOWN);
    assert_true(screen_shows(&c, "Caution: level, rated stand; lift it empty"));
    screen_type(&c, "\r");
    assert_true(screen_shows(&c, "Caution: level, rated stand; lift it empty"));
}

static bool go_on(void *context, double done)
{
    (void)context;
    return done <= 1;
}

static bool stop_at_once(void *context, double done)
{
    (void)context;
    (void)done;
    tc_refresh_stop(&c.state);
    return false;
}

static bool notes_say(const char *words)
{
    const struct tc_sheet *sheet = &tc_state_tab(&c.state)->sheet;
    for (size_t i = 0; i < sheet->note_count; i++)
        if (strstr(sheet->notes[i].text, words))
            return true;
    return false;
}

/* Where somebody waits a wall is there at once, with its drawing; the proof and what more would bring follow.
 */
static void a_wall_is_drawn_before_it_is_proven(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "new-wall", 80, 24);
    assert_string_equal(tc_state_question(&c.state)->name, "wall");
    tc_state_outdate(&c.state);
    tc_refresh_do(&c.state, go_on, NULL);
    assert_true(tc_refresh_waits(&c.state));
    const struct tc_tab *tab = tc_state_tab(&c.state);
    assert_true(tab->made && tab->sheet.drawing && notes_say("still looked for"));
    assert_false(notes_say("Proven"));
    assert_non_null(strstr(screen_text(&c), "The wall holds"));
    /* Who stops it keeps that picture. */
    tc_refresh_do(&c.state, stop_at_once, NULL);
    assert_false(tc_refresh_waits(&c.state));
    assert_true(tab->partial && notes_say("still looked for"));
    screen_type(&c, "\r");
    assert_true(notes_say("Proven") && !notes_say("still looked for"));
    tc_state_outdate(&c.state);
    tc_refresh_do(&c.state, go_on, NULL);
    tc_refresh_do(&c.state, go_on, NULL);
    assert_false(tc_refresh_waits(&c.state));
    assert_true(notes_say("Proven") && !notes_say("still looked for"));
    screen_case_free(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_sheet),
        cmocka_unit_test_teardown(test_key_totals_in_sight, end),
        cmocka_unit_test_teardown(test_findings_fold, end),
        cmocka_unit_test_teardown(test_findings_without_room, end),
        cmocka_unit_test_teardown(test_group_stays_in_sight, end),
        cmocka_unit_test_teardown(test_shared_heads_are_not_broken, end),
        cmocka_unit_test_teardown(test_cautions_beside_figures, end),
        cmocka_unit_test_teardown(test_cautions_in_lists, end),
        cmocka_unit_test_teardown(test_limits_are_typed_where_they_stand, end),
        cmocka_unit_test(a_wall_is_drawn_before_it_is_proven),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
