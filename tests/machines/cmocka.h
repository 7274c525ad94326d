/* SPDX-License-Identifier: MIT */
/*
 * cmocka.h - as much of cmocka as the tests of core use, for machines that have no
 * cmocka: the first assertion that fails ends the program.
 */
#ifndef TC_TESTS_MACHINES_CMOCKA_H
#define TC_TESTS_MACHINES_CMOCKA_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct CMUnitTest {
    const char *name;
    void (*run)(void **state);
    int (*setup)(void **state);
    int (*teardown)(void **state);
};

static jmp_buf tc_skipped;

#define cmocka_unit_test(test)                                                                               \
    {                                                                                                        \
#test, test, NULL, NULL                                                                              \
    }
#define cmocka_unit_test_setup(test, s)                                                                      \
    {                                                                                                        \
#test, test, s, NULL                                                                                 \
    }
#define cmocka_unit_test_teardown(test, t)                                                                   \
    {                                                                                                        \
#test, test, NULL, t                                                                                 \
    }
#define cmocka_unit_test_setup_teardown(test, s, t)                                                          \
    {                                                                                                        \
#test, test, s, t                                                                                    \
    }
#define cmocka_run_group_tests(tests, s, t) tc_run_tests(tests, sizeof(tests) / sizeof(tests)[0], s, t)

#define tc_must(holds)                                                                                       \
    ((holds) ? (void)0 : (fprintf(stderr, "%s:%d: %s\n", __FILE__, __LINE__, #holds), exit(1)))
#define assert_true(x)                  tc_must(x)
#define assert_false(x)                 tc_must(!(x))
#define assert_null(x)                  tc_must((x) == NULL)
#define assert_non_null(x)              tc_must((x) != NULL)
#define assert_ptr_equal(a, b)          tc_must((const void *)(a) == (const void *)(b))
#define assert_int_equal(a, b)          tc_must((intmax_t)(a) == (intmax_t)(b))
#define assert_int_not_equal(a, b)      tc_must((intmax_t)(a) != (intmax_t)(b))
#define assert_string_equal(a, b)       tc_must(strcmp(a, b) == 0)
#define assert_string_not_equal(a, b)   tc_must(strcmp(a, b) != 0)
#define assert_memory_equal(a, b, size) tc_must(memcmp(a, b, size) == 0)
#define assert_in_range(x, from, to)                                                                         \
    tc_must((intmax_t)(x) >= (intmax_t)(from) && (intmax_t)(x) <= (intmax_t)(to))
#define _assert_true(x, what, file, line)                                                                    \
    ((x) ? (void)0 : (fprintf(stderr, "%s:%d: %s\n", file, (int)(line), what), exit(1)))
#define cast_to_largest_integral_type(x) ((uintmax_t)(x))
#define fail()                           tc_must(!"fails")
#define fail_msg(...)                    (fprintf(stderr, __VA_ARGS__), fputc('\n', stderr), exit(1))
#define _fail(file, line)                (fprintf(stderr, "%s:%d\n", file, (int)(line)), exit(1))
#define skip()                           longjmp(tc_skipped, 1)
#define print_error(...)                 fprintf(stderr, __VA_ARGS__)
#define print_message(...)               fprintf(stderr, __VA_ARGS__)

static inline int tc_run_tests(const struct CMUnitTest *tests, size_t count, int (*setup)(void **),
                               int (*teardown)(void **))
{
    void *common = NULL;
    if (setup && setup(&common) != 0)
        exit(1);
    for (volatile size_t i = 0; i < count; i++) {
        void *state = common;
        if (tests[i].setup && tests[i].setup(&state) != 0)
            exit(1);
        if (setjmp(tc_skipped) == 0)
            tests[i].run(&state);
        if (tests[i].teardown && tests[i].teardown(&state) != 0)
            exit(1);
    }
    return teardown ? teardown(&common) : 0;
}

#endif
