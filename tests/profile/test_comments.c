/* SPDX-License-Identifier: MIT */
/* Comments of a profile that is written anew: none is lost, and each is where it belongs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "profile/ini.h"
#include "profile/comments.h"
#include "support/failing_malloc.h"

/* The fresh profile with the comments of old; it reads without a fault. */
static char *carried(const char *old, const char *fresh)
{
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    tc_comments_carry(&text, old, fresh);
    assert_false(text.failed);
    assert_int_equal(
        tc_ini_read_bytes("carried", tc_text_string(&text), strlen(tc_text_string(&text)), &ini, &faults),
        TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    tc_ini_free(&ini);
    tc_faults_free(&faults);
    return text.data ? tc_text_take(&text) : calloc(1, 1);
}

static void expect(const char *old, const char *fresh, const char *wanted)
{
    char *got = carried(old, fresh);
    assert_string_equal(got, wanted);
    /* Once more, and nothing moves. */
    char *again = carried(got, fresh);
    assert_string_equal(again, wanted);
    free(again);
    free(got);
}

static void each_stays_at_its_line(void **state)
{
    (void)state;
    expect("[plan den] # upstairs\n"
           "# ours is better\n"
           "; really\n"
           "setup = planted ; for now\n"
           "\n"
           "# so they say\n"
           "\n"
           "YEARS=12 years\n"
           "# a gift\n"
           "[ Candidate  1 ]\n"
           "tank = \"29-high\"#old\n",
           "[plan den]\nsetup   = shrimps\nyears = 9 years\nunits = us\n\n[candidate 1]\ntank = 29-high\n",
           "[plan den]  # upstairs\n"
           "# ours is better\n"
           "; really\n"
           "setup   = shrimps  ; for now\n"
           "# so they say\n"
           "years = 9 years\n"
           "units = us\n"
           "\n"
           "# a gift\n"
           "[candidate 1]\n"
           "tank = 29-high  # old\n");
}

static void those_of_lines_that_are_gone_are_kept(void **state)
{
    (void)state;
    expect("[plan a]\n# why\nsetup = x # and so\nregion = y\n# the end\n[wall]\n# of brick\nlength = 4 m ; "
           "long\n# last\n",
           "[plan a]\nregion = y\n",
           "[plan a]\nregion = y\n# why\n# and so\n# the end\n# of brick\n; long\n# last\n");
    char *alone = carried("[plan a]\n# only\n", "");
    assert_string_equal(alone, "# only\n");
    free(alone);
}

static void a_plan_is_known_whatever_its_name(void **state)
{
    (void)state;
    expect("[plan a]\n# why\nsetup = x\n", "[plan b]\nsetup = x\n", "[plan b]\n# why\nsetup = x\n");
}

static void a_candidate_is_known_by_its_tank(void **state)
{
    (void)state;
    expect("[plan a]\nsetup = x\n"
           "# dear\n[candidate 1]\ntank = 40\n"
           "# cheap\n[candidate 2]\ntank = 29 # high\n"
           "# the same again\n[candidate 3]\ntank = 29\n"
           "# 2 and 20\n[candidate 4]\ntank = 2\n",
           "[plan a]\nsetup = x\n\n[candidate 1]\ntank = 29\n\n[candidate 2]\ntank = 29\n\n[candidate "
           "3]\ntank = "
           "2\n\n"
           "[candidate 4]\ntank = 20\n",
           "[plan a]\nsetup = x\n\n# cheap\n[candidate 1]\ntank = 29  # high\n\n# the same again\n[candidate "
           "2]\n"
           "tank = 29\n\n# 2 and 20\n[candidate 3]\ntank = 2\n\n[candidate 4]\ntank = 20\n# dear\n");
}

static void what_is_above_the_first_section_is_left_out(void **state)
{
    (void)state;
    expect("# the head\n\n# of it\n[plan a] ;; twice\nsetup = x ;; more\n", "[plan a]\nsetup = x\n",
           "[plan a]  ;; twice\nsetup = x  ;; more\n");
}

/* In quotes and within words there is no comment. */
static void what_is_no_comment_is_not_carried(void **state)
{
    (void)state;
    expect("[plan a]\ntitle = \"no # comment; none\"\nnote = '# none' # one\nother = a#b\nlast = \"open # "
           "none\n",
           "[plan a]\ntitle = t\nnote = n\nother = o\nlast = l\n",
           "[plan a]\ntitle = t\nnote = n  # one\nother = o\nlast = l\n");
    expect("setup = x # before any section\n", "[plan a]\nsetup = x\n", "[plan a]\nsetup = x\n");
    expect("", "[plan a]\nsetup = x\n", "[plan a]\nsetup = x\n");
}

static void line_ends_of_other_systems_go(void **state)
{
    (void)state;
    expect("[plan a]\r\n# why\r\nsetup = x ; so\r\n", "[plan a]\nsetup = y\n",
           "[plan a]\n# why\nsetup = y  ; so\n");
}

/* A line has its bounds: a comment that would pass them stands above. */
static void a_long_one_goes_above(void **state)
{
    (void)state;
    struct tc_text old = TC_TEXT_EMPTY, fresh = TC_TEXT_EMPTY;
    tc_text_add(&old, "[plan a]\nsetup = x # ");
    tc_text_add_repeated(&old, "w", 500);
    tc_text_add(&fresh, "[plan a]\nsetup = ");
    tc_text_add_repeated(&fresh, "v", 500);
    tc_text_add_char(&fresh, '\n');
    char *got = carried(tc_text_string(&old), tc_text_string(&fresh));
    assert_int_equal(strncmp(got, "[plan a]\n# www", 14), 0);
    assert_non_null(strstr(got, "w\nsetup = vvv"));
    free(got);
    tc_text_free(&old);
    tc_text_free(&fresh);
}

static void running_out_of_memory_is_told(void **state)
{
    (void)state;
    for (long n = 0;; n++) {
        struct tc_text text = TC_TEXT_EMPTY;
        failing_malloc_start(n, false);
        tc_comments_carry(&text, "[a]\n# one\nk = v # two\n", "[a]\nk = w\n");
        bool failed = failing_malloc_stop();
        assert_int_equal(text.failed, failed);
        if (!failed)
            assert_string_equal(tc_text_string(&text), "[a]\n# one\nk = w  # two\n");
        tc_text_free(&text);
        if (!failed)
            break;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_stays_at_its_line),
        cmocka_unit_test(those_of_lines_that_are_gone_are_kept),
        cmocka_unit_test(a_plan_is_known_whatever_its_name),
        cmocka_unit_test(a_candidate_is_known_by_its_tank),
        cmocka_unit_test(what_is_above_the_first_section_is_left_out),
        cmocka_unit_test(what_is_no_comment_is_not_carried),
        cmocka_unit_test(line_ends_of_other_systems_go),
        cmocka_unit_test(a_long_one_goes_above),
        cmocka_unit_test(running_out_of_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
