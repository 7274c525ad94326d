/* SPDX-License-Identifier: MIT */
/* What another setup of the same tank costs, in words, against the bills of the two. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "sheet/setup_step.h"
#include "support/stock_text.h"
#include "sheet/study_make.h"

static const char setups[] = "[setup hung]\nfilter = hang-on\nppfd = low\n"
                             "[setup canned]\nfilter = canister\nppfd = low\n"
                             "[setup cold]\nfilter = canister\nppfd = low\ntemperature = 20 C\n";

static void set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

/* The finding of a study of one tank twice, the second with another setup; and how much more that costs. */
static void tell(const struct tc_stock *stock, const char *other, const char *tank, char text[200],
                 double *more)
{
    static struct tc_study study;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_plan plan;
    struct tc_sheet sheet;
    tc_plan_start(&plan);
    set(&plan, "plan/setup", "hung");
    set(&plan, "plan/region", "lowmere");
    tc_plan_add(&plan, "29-high");
    tc_plan_add(&plan, tank);
    set(&plan, "candidate 2/setup", other);
    assert_int_equal(tc_study_make(&study, stock, &plan, (struct tc_date){2026, 1, 10}, &faults), TC_OK);
    tc_sheet_start(&sheet, "bill", 2);
    tc_setup_steps_tell(&sheet, &study);
    snprintf(text, 200, "%s", sheet.note_count > 0 ? sheet.notes[0].text : "");
    *more =
        (double)(study.alternatives[1].cost.present_value - study.alternatives[0].cost.present_value) / 100;
    tc_sheet_free(&sheet);
    tc_study_free(&study);
    tc_faults_free(&faults);
}

static void one_wish_is_told_by_its_name(void **state)
{
    (void)state;
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char text[200], wanted[200];
    double more;
    tc_stock_start(&stock);
    stock_add_folder(&stock, "profiles");
    stock_add_text(&stock, "own", setups, &faults);
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);

    tell(&stock, "canned", "29-high", text, &more);
    assert_true(more != 0);
    snprintf(wanted, sizeof wanted,
             "29-high: a canister filter instead of a hang-on filter %s %.2f USD over 10 years.",
             more > 0 ? "costs" : "saves", more > 0 ? more : -more);
    assert_string_equal(text, wanted);

    /* Two wishes: nobody could say which of them costs that. */
    tell(&stock, "cold", "29-high", text, &more);
    assert_non_null(strstr(text, more > 0 ? "cold instead of hung costs" : "cold instead of hung saves"));

    /* Another tank is another matter, and the same setup none. */
    tell(&stock, "canned", "40-breeder", text, &more);
    assert_string_equal(text, "");
    tell(&stock, "hung", "29-high", text, &more);
    assert_string_equal(text, "");
    tc_faults_free(&faults);
    tc_stock_free(&stock);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(one_wish_is_told_by_its_name)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
