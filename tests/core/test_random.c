/* SPDX-License-Identifier: MIT */
/* PCG32 against the published output of its author's own test, and its jumps. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "core/base/random.h"
#include "support/draw.h"
#include "support/near.h"

/*
 * Five rounds of 6 numbers, 65 coins, 33 rolls and a shuffled pack after
 * seeding with (42, 54): imneme/pcg-c, test-high/expected/check-pcg32.out.
 */
static const struct {
    uint32_t numbers[6];
    const char *coins, *rolls, *cards;
} rounds[] = {
    {{0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e},
     "HHTTTHTHHHTHTTTHHHHHTTTHHHTHTHTHTTHTTTHHHHHHTTTTHHTTTTTHTTTTTTTHT",
     "341122324324335231315141564662633",
     "Qd Ks 6d 3s 3d 4c 3h Td Kc 5c Jh Kd Jd As 4s 4h Ad Th Ac Jc 7s Qs 2s 7h Kh 2d 6c Ah 4d Qh 9h 6s 5s 2c "
     "9c Ts 8d 9s 3c 8c Js 5d 2h 6h 7d 8s 9d 5h 8h Qc 7c Tc"},
    {{0x74ab93ad, 0x1c1da000, 0x494ff896, 0x34462f2f, 0xd308a3e5, 0x0fa83bab},
     "HHHHHHHHHHTHHHTHTHTHTHTTTTHHTTTHHTHHTHTTHHTTTHHHHHHTHTTHTHTTTTTTT",
     "511332453226432424323632342411544",
     "7d 2s 7h Td 8s 3c 3d Js 2d Tc 4h Qs 5c 9c Th 2c Jc Qd 9d Qc 7s 3s 5s 6h 4d Jh 4c Ac 4s 5h 5d Kc 8h 8d "
     "Jd 9s Ad 6s 6c Kd 2h 3h Kh Ts Qh 9h 6d As 7c Ks Ah 8c"},
    {{0x39af5f9f, 0x04196b18, 0xc3c3eb28, 0xc076c60c, 0xc693e135, 0xf8f63932},
     "HTTHHTTTTTHTTHHHTHTTHHTTHTHHTHTHTTTTHHTTTHHTHHTTHTTHHHTHHHTHTTTHT",
     "515322453313463234223152466424336",
     "Kd Jh Kc Qh 4d Qc 4h 9d 3c Kh Qs 8h 5c Jd 7d 8d 3h 7c 8s 3s 2h Ks 9c 9h 2c 8c Ad 7s 4s 2s 5h 6s 4c Ah "
     "7h 5s Ac 3d 5d Qd As Tc 6h 9s 2d 6c 6d Td Jc Ts Th Js"},
    {{0x55ce6851, 0x97a7726d, 0x17e10815, 0x58007d43, 0x962fb148, 0xb9bb55bd},
     "HHTHHTTTTHTHHHHHTTHHHTTTHHTHTHTHTHHTTHTHHHHHHTHHTHHTHHTTTTHHTHHTT",
     "663234264263235534466265446161365",
     "Qd 8h 5d 8s 8d Ts 7h Th Qs Js 7s Kc 6h 5s 4d Ac Jd 7d 7c Td 2c 6s 5h 6d 3s Kd 9s Jh Kh As Ah 9h 3c Qh "
     "9c 2d Tc 9d 2s 3d Ks 4h Qc Ad Jc 8c 2h 3h 4s 4c 5c 6c"},
    {{0xfcef7cd6, 0x1b488b5a, 0xd0daf7ea, 0x1d9a70f7, 0x241a37cf, 0x9a3857b7},
     "HHHHTHHTTHTTHHHTTTHHTHTHTTTTHTTHTHTTTHHHTHTHTTHTTHTHHTHTHHHTHTHTT",
     "541261315636214452156564445264356",
     "4d 9s Qc 9h As Qs 7s 4c Kd 6h 6s 2c 8c 5d 7h 5h Jc 3s 7c Jh Js Ks Tc Jd Kc Th 3h Ts Qh Ad Td 3c Ah 2d "
     "3d 5c Ac 8s 5s 9c 2h 6c 6d Kh Qd 8d 7d 2s 8h 4h 9d 4s"},
};

static void deal(struct tc_random *random, char text[52 * 3])
{
    unsigned char card[52];
    for (int i = 0; i < 52; i++)
        card[i] = (unsigned char)i;
    for (uint32_t i = 52; i > 1; i--) {
        uint32_t chosen = draw_index(random, i);
        unsigned char kept = card[chosen];
        card[chosen] = card[i - 1];
        card[i - 1] = kept;
    }
    for (int i = 0; i < 52; i++) {
        text[3 * i] = "A23456789TJQK"[card[i] / 4];
        text[3 * i + 1] = "hcds"[card[i] % 4];
        text[3 * i + 2] = i < 51 ? ' ' : '\0';
    }
}

static void published_rounds(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 42, 54);
    assert_true(random.state == UINT64_C(0x185706b82c2e03f8));
    assert_true(random.increment == 109);
    for (size_t r = 0; r < sizeof rounds / sizeof rounds[0]; r++) {
        for (int again = 0; again < 2; again++) {
            for (int i = 0; i < 6; i++)
                assert_int_equal(tc_random_next(&random), rounds[r].numbers[i]);
            if (!again)
                tc_random_advance(&random, (uint64_t)0 - 6);
        }
        for (const char *coin = rounds[r].coins; *coin; coin++)
            assert_int_equal(draw_index(&random, 2) ? 'H' : 'T', *coin);
        for (const char *roll = rounds[r].rolls; *roll; roll++)
            assert_int_equal((char)('1' + draw_index(&random, 6)), *roll);
        char cards[52 * 3];
        deal(&random, cards);
        assert_string_equal(cards, rounds[r].cards);
    }
}

static void advancing_is_stepping(void **state)
{
    (void)state;
    static const uint64_t jumps[] = {0, 1, 2, 3, 64, 1000, 4097};
    for (size_t j = 0; j < sizeof jumps / sizeof jumps[0]; j++) {
        struct tc_random walked, jumped;
        tc_random_seed(&walked, 7, j);
        jumped = walked;
        for (uint64_t i = 0; i < jumps[j]; i++)
            tc_random_next(&walked);
        tc_random_advance(&jumped, jumps[j]);
        assert_true(walked.state == jumped.state);
        /* Jumps add up, also around the end of the period. */
        struct tc_random round = jumped;
        tc_random_advance(&round, UINT64_C(0xfedcba9876543210));
        tc_random_advance(&round, UINT64_C(0x0123456789abcdf0));
        assert_true(round.state == jumped.state);
    }
}

static void streams_differ(void **state)
{
    (void)state;
    struct tc_random a, b;
    tc_random_seed(&a, 1, 1);
    tc_random_seed(&b, 1, 2);
    int same = 0;
    for (int i = 0; i < 1000; i++)
        same += tc_random_next(&a) == tc_random_next(&b);
    assert_int_equal(same, 0);
}

static void units_are_uniform(void **state)
{
    (void)state;
    enum { CELLS = 20, DRAWS = 200000 };
    int counts[CELLS] = {0};
    struct tc_random random;
    tc_random_seed(&random, 2024, 11);
    double least = 1, most = 0;
    for (int i = 0; i < DRAWS; i++) {
        double u = tc_random_unit(&random);
        least = u < least ? u : least;
        most = u > most ? u : most;
        counts[(int)(u * CELLS)]++;
    }
    assert_true(least > 0 && most < 1);
    double chi2 = 0, wanted = (double)DRAWS / CELLS;
    for (int c = 0; c < CELLS; c++)
        chi2 += (counts[c] - wanted) * (counts[c] - wanted) / wanted;
    /* Chi-square with 19 degrees of freedom: 43.820 is its 0.1 % point (NIST e-Handbook 1.3.6.7.4). */
    assert_true(chi2 < 43.820);
    /* The ends of the 32-bit range stay inside (0, 1) and mirror exactly. */
    assert_true((0 + 0.5) / 4294967296.0 > 0 && (4294967295.0 + 0.5) / 4294967296.0 < 1);
}

static void bounds_are_kept(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 5, 5);
    static const uint32_t bounds[] = {1, 2, 3, 7, 1000, 0x80000001, 0xffffffff};
    for (size_t b = 0; b < sizeof bounds / sizeof bounds[0]; b++)
        for (int i = 0; i < 1000; i++)
            assert_true(draw_index(&random, bounds[b]) < bounds[b]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_rounds), cmocka_unit_test(advancing_is_stepping),
        cmocka_unit_test(streams_differ),   cmocka_unit_test(units_are_uniform),
        cmocka_unit_test(bounds_are_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
