/* SPDX-License-Identifier: MIT */
/* Which shop each thing is bought at: against trying all ways, and against glpsol. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/basket.h"
#include "support/draw.h"
#include "support/glpsol.h"
#include "support/near.h"
#include "support/step.h"

#define CASES 1000

/* Prices are tens and taxes tenths, so that all that is paid is whole and glpsol can tell it exactly. */
static void draw_basket(struct tc_random *random, int items, int shops, struct tc_basket *basket)
{
    memset(basket, 0, sizeof *basket);
    basket->item_count = 1 + draw_below(random, items);
    basket->shop_count = 1 + draw_below(random, shops);
    for (int s = 0; s < basket->shop_count; s++) {
        struct tc_shop_terms *shop = &basket->shop[s];
        shop->delivery = draw_below(random, 4) == 0 ? 0 : 10 * draw_below(random, 60);
        shop->free_from =
            draw_below(random, 3) == 0 ? 0 : 10 * (1 + draw_below(random, 100 * basket->item_count));
        shop->tax = draw_below(random, 3) == 0 ? 0 : 0.1 * draw_below(random, 3);
    }
    for (int i = 0; i < basket->item_count; i++) {
        int usual = 20 + draw_below(random, 150);
        for (int s = 0; s < basket->shop_count; s++) {
            bool sold = draw_below(random, 4) != 0;
            basket->item[i].price[s] = sold ? 10 * (usual + draw_below(random, 41) - 20) : TC_NOT_SOLD;
            basket->item[i].fee[s] = draw_below(random, 8) == 0 ? 10 * draw_below(random, 30) : 0;
            if (basket->item[i].price[s] == 0)
                basket->item[i].price[s] = 10;
        }
    }
}

static bool sold_somewhere(const struct tc_basket *basket, int i)
{
    for (int s = 0; s < basket->shop_count; s++)
        if (basket->item[i].price[s] != TC_NOT_SOLD)
            return true;
    return false;
}

/* Tries all ways to spread the items from i on. */
static void try_all(const struct tc_basket *basket, int i, struct tc_basket_answer *answer, double *best)
{
    if (i == basket->item_count) {
        struct tc_basket_answer sum = *answer;
        tc_basket_add_up(basket, &sum);
        *best = fmin(*best, sum.paid);
        return;
    }
    for (int s = 0; s < basket->shop_count; s++) {
        if (basket->item[i].price[s] == TC_NOT_SOLD)
            continue;
        answer->shop[i] = s;
        try_all(basket, i + 1, answer, best);
    }
    if (!sold_somewhere(basket, i)) {
        answer->shop[i] = -1;
        try_all(basket, i + 1, answer, best);
    }
}

static void as_cheap_as_the_best_of_all_ways(void **state)
{
    struct tc_random random = draw_from(1);
    int spread_over_several = 0, brought_for_nothing = 0;
    (void)state;
    for (int n = 0; n < CASES; n++) {
        struct tc_basket basket;
        struct tc_basket_answer answer, any;
        double best = INFINITY;
        draw_basket(&random, 7, 4, &basket);
        assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
        assert_true(answer.proven);
        memset(&any, 0, sizeof any);
        try_all(&basket, 0, &any, &best);
        if (fabs(answer.paid - best) > 1e-6)
            print_error("case %d: found %.3f, all ways %.3f\n", n, answer.paid, best);
        assert_near(answer.paid, best, 1e-6);
        int used = 0;
        for (int s = 0; s < basket.shop_count; s++) {
            used += answer.used[s];
            brought_for_nothing += answer.used[s] && !answer.delivered[s] && basket.shop[s].delivery > 0;
            struct tc_basket_answer one;
            memset(&one, 0, sizeof one);
            for (int i = 0; i < basket.item_count; i++)
                one.shop[i] = s;
            tc_basket_add_up(&basket, &one);
            assert_true(one.unsold > answer.unsold || one.paid >= answer.paid - 1e-6);
        }
        spread_over_several += used > 1;
    }
    /* The cases are of the kinds that matter. */
    assert_true(spread_over_several > CASES / 4);
    assert_true(brought_for_nothing > CASES / 10);
}

static void write_program(FILE *to, const struct tc_basket *basket)
{
    fprintf(to, "Minimize\n cost:");
    for (int i = 0; i < basket->item_count; i++)
        for (int s = 0; s < basket->shop_count; s++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                fprintf(to, " + %.0f x%d_%d\n",
                        round((double)(basket->item[i].price[s] + basket->item[i].fee[s]) *
                              (1 + basket->shop[s].tax)),
                        i, s);
    for (int s = 0; s < basket->shop_count; s++)
        fprintf(to, " + %lld p%d + 0 f%d\n", (long long)basket->shop[s].delivery, s, s);
    fprintf(to, "Subject To\n");
    for (int i = 0; i < basket->item_count; i++) {
        for (int s = 0; s < basket->shop_count; s++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                fprintf(to, " + x%d_%d", i, s);
        if (sold_somewhere(basket, i))
            fprintf(to, " = 1\n");
    }
    for (int s = 0; s < basket->shop_count; s++) {
        for (int i = 0; i < basket->item_count; i++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                fprintf(to, " x%d_%d - p%d - f%d <= 0\n", i, s, s, s);
        if (basket->shop[s].free_from == 0) {
            fprintf(to, " f%d = 0\n", s);
            continue;
        }
        for (int i = 0; i < basket->item_count; i++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                fprintf(to, " + %lld x%d_%d", (long long)basket->item[i].price[s], i, s);
        fprintf(to, " - %lld f%d >= 0\n", (long long)basket->shop[s].free_from, s);
    }
    fprintf(to, "Binary\n");
    for (int s = 0; s < basket->shop_count; s++) {
        fprintf(to, " p%d f%d\n", s, s);
        for (int i = 0; i < basket->item_count; i++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                fprintf(to, " x%d_%d\n", i, s);
    }
    fprintf(to, "End\n");
}

/* What the values, in the order of the objective, come to. */
static double glpsol_pays(const struct tc_basket *basket, const int64_t *values)
{
    double sum = 0;
    for (int i = 0; i < basket->item_count; i++)
        for (int s = 0; s < basket->shop_count; s++)
            if (basket->item[i].price[s] != TC_NOT_SOLD)
                sum += (double)*values++ * (double)(basket->item[i].price[s] + basket->item[i].fee[s]) *
                       (1 + basket->shop[s].tax);
    for (int s = 0; s < basket->shop_count; s++, values += 2)
        sum += (double)*values * (double)basket->shop[s].delivery;
    return sum;
}

static void as_cheap_as_glpsol_finds(void **state)
{
    enum { ITEMS = 14, SHOPS = 5 };
    struct tc_random random = draw_from(2);
    struct glpsol g;
    (void)state;
    if (!glpsol_present())
        skip();
    assert_true(glpsol_open(&g));
    for (int n = 0; n < CASES / 4 / test_step(); n++) {
        struct tc_basket basket;
        struct tc_basket_answer answer;
        int64_t values[ITEMS * SHOPS + 2 * SHOPS];
        int count = 0;
        draw_basket(&random, ITEMS, SHOPS, &basket);
        for (int i = 0; i < basket.item_count; i++)
            for (int s = 0; s < basket.shop_count; s++)
                count += basket.item[i].price[s] != TC_NOT_SOLD;
        assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
        assert_true(answer.proven);
        if (answer.unsold == basket.item_count)
            continue;
        assert_true(glpsol_begin(&g));
        write_program(g.to, &basket);
        assert_int_equal(glpsol_solve(&g, 60, values, count + 2 * basket.shop_count, NULL), GLPSOL_OPTIMAL);
        double best = glpsol_pays(&basket, values);
        if (fabs(answer.paid - best) > 0.5)
            print_error("case %d: found %.3f, glpsol %.3f\n", n, answer.paid, best);
        assert_near(answer.paid, best, 0.5);
    }
    glpsol_close(&g);
}

/* Long lists at many shops, as of a wall, are still proven. */
static void long_lists_are_proven(void **state)
{
    struct tc_random random = draw_from(3);
    (void)state;
    for (int n = 0; n < 50; n++) {
        struct tc_basket basket;
        struct tc_basket_answer answer;
        do
            draw_basket(&random, 100, 6, &basket);
        while (basket.item_count < 50);
        assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
        assert_true(answer.proven);
    }
}

/* By hand: alone the strip is 4 cheaper at the second shop, but 10 more at the first make delivery free. */
static void a_little_more_makes_delivery_free(void **state)
{
    struct tc_basket basket = {
        .shop = {{.delivery = 3500, .free_from = 10000, .tax = 0.07}, {.delivery = 0}},
        .shop_count = 2,
        .item = {{.price = {6000, TC_NOT_SOLD}}, {.price = {4400, 4000}}},
        .item_count = 2,
    };
    struct tc_basket_answer answer;
    (void)state;
    assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
    assert_int_equal(answer.shop[1], 0);
    assert_false(answer.delivered[0]);
    assert_int_equal(answer.goods[0], 10400);
    assert_near(answer.paid, 10400 * 1.07, 1e-9);
    basket.shop[0].free_from = 10500;
    assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
    assert_int_equal(answer.shop[1], 1);
    assert_true(answer.delivered[0]);
    assert_near(answer.paid, 6000 * 1.07 + 3500 + 4000, 1e-9);
    /* A fee does not count towards free delivery. */
    basket.item[0].fee[0] = 1000;
    assert_int_equal(tc_basket_spread(&basket, &answer), TC_OK);
    assert_true(answer.delivered[0]);
    basket.shop[1].delivery = -1;
    assert_int_equal(tc_basket_spread(&basket, &answer), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_little_more_makes_delivery_free),
        cmocka_unit_test(as_cheap_as_the_best_of_all_ways),
        cmocka_unit_test(as_cheap_as_glpsol_finds),
        cmocka_unit_test(long_lists_are_proven),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
