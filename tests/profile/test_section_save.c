/* SPDX-License-Identifier: MIT */
/* One section written anew; all else of its file stays, to the byte. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "profile/save.h"
#include "profile/section_save.h"
#include "support/failing_malloc.h"

static char folder[] = "/tmp/tankcost-test-XXXXXX";
static char path[sizeof folder + 32];

static int setup(void **state)
{
    (void)state;
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    if (!mkdtemp(folder))
        return -1;
    snprintf(path, sizeof path, "%s/parts/mine.ini", folder);
    return 0;
}

static int teardown(void **state)
{
    char command[sizeof folder + 16];
    (void)state;
    snprintf(command, sizeof command, "rm -rf %s", folder);
    return system(command);
}

static void write_file(const char *text)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char parts[sizeof folder + 8];
    snprintf(parts, sizeof parts, "%s/parts", folder);
    assert_true(tc_make_folders(parts, &faults));
    assert_int_equal(tc_save(path, text, strlen(text), &faults), TC_OK);
    tc_faults_free(&faults);
}

static void expect_file(const char *wanted)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    bool there;
    assert_int_equal(tc_load(path, &text, &there, &faults), TC_OK);
    assert_true(there);
    assert_string_equal(tc_text_string(&text), wanted);
    tc_text_free(&text);
    tc_faults_free(&faults);
}

static void save(const char *head, const struct tc_section_line *lines, size_t count)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_section_save(path, head, lines, count, &faults), TC_OK);
    tc_faults_free(&faults);
}

static const struct tc_section_line strip[] = {
    {"title", "60 cm; warm"}, {"length", "24 in"}, {"power", "18 W"}};

static void a_file_is_made_with_its_folders(void **state)
{
    (void)state;
    save("light strip-60", strip, 3);
    expect_file("[light strip-60]\ntitle  = \"60 cm; warm\"\nlength = 24 in\npower  = 18 W\n");
    save("lid glass", strip + 1, 1);
    expect_file("[light strip-60]\ntitle  = \"60 cm; warm\"\nlength = 24 in\npower  = 18 W\n"
                "\n[lid glass]\nlength = 24 in\n");
}

static void comments_and_other_sections_stay(void **state)
{
    (void)state;
    write_file("# mine\n\n[Lid  Glass]\nlength = 20 in # measured\n\n# about the strip\n[ light STRIP-60 ]\n"
               "# how long\nlength=24.5 in   ; tape\nlife = 5 years\n# to be sold\nresale = 10 %\n\n"
               "# next one\n[stand pine]\nload = 100 kg");
    save("light strip-60", strip, 3);
    expect_file("# mine\n\n[Lid  Glass]\nlength = 20 in # measured\n\n# about the strip\n[ light STRIP-60 ]\n"
                "# how long\nlength=24 in  ; tape\n# to be sold\ntitle  = \"60 cm; warm\"\npower  = 18 W\n\n"
                "# next one\n[stand pine]\nload = 100 kg");
    save("stand pine", strip + 1, 1);
    save("lid glass", strip + 1, 1);
    expect_file(
        "# mine\n\n[Lid  Glass]\nlength = 24 in  # measured\n\n# about the strip\n[ light STRIP-60 ]\n"
        "# how long\nlength=24 in  ; tape\n# to be sold\ntitle  = \"60 cm; warm\"\npower  = 18 W\n\n"
        "# next one\n[stand pine]\nlength = 24 in\n");
}

static void a_section_goes_and_its_file_with_the_last(void **state)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    (void)state;
    write_file("[lid a]\nlength = 20 in\n\n# the other\n[lid b]\nlength = 24 in\n");
    assert_int_equal(tc_section_remove(path, "lid a", &faults), TC_OK);
    expect_file("\n# the other\n[lid b]\nlength = 24 in\n");
    assert_int_equal(tc_section_remove(path, "lid none", &faults), TC_OK);
    write_file("[lid b]\nlength = 24 in\n");
    assert_int_equal(tc_section_remove(path, "lid b", &faults), TC_OK);
    assert_int_not_equal(access(path, F_OK), 0);
    tc_faults_free(&faults);
}

static void what_would_be_lost_is_not_replaced(void **state)
{
    static const struct tc_section_line odd[] = {{"title", "a \\ and ; b"}};
    struct tc_faults faults = TC_FAULTS_EMPTY;
    (void)state;
    write_file("[lid a]\nlength = 20 in\n");
    assert_int_equal(tc_section_save(path, "lid a", odd, 1, &faults), TC_SYNTAX);
    expect_file("[lid a]\nlength = 20 in\n");
    assert_int_equal(tc_section_save("/dev/null/x/y.ini", "lid a", strip, 3, &faults), TC_IO);
    tc_faults_free(&faults);
}

static void each_allocation_may_fail(void **state)
{
    static const char text[] = "[lid a]\nlength = 20 in\n";
    (void)state;
    write_file(text);
    enum tc_status status = TC_NO_MEMORY;
    for (int n = 0; status != TC_OK && n < 1000; n++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        failing_malloc_start(n, true);
        status = tc_section_save(path, "lid a", strip, 3, &faults);
        failing_malloc_stop();
        tc_faults_free(&faults);
        if (status != TC_OK)
            expect_file(text);
    }
    expect_file("[lid a]\nlength = 24 in\ntitle  = \"60 cm; warm\"\npower  = 18 W\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_is_made_with_its_folders, setup, teardown),
        cmocka_unit_test_setup_teardown(comments_and_other_sections_stay, setup, teardown),
        cmocka_unit_test_setup_teardown(a_section_goes_and_its_file_with_the_last, setup, teardown),
        cmocka_unit_test_setup_teardown(what_would_be_lost_is_not_replaced, setup, teardown),
        cmocka_unit_test_setup_teardown(each_allocation_may_fail, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
