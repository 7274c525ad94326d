/* SPDX-License-Identifier: MIT */
/* A stock of many tanks made from its file, against reading the lines of that file alone; and setting a plan.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "profile/ini.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"

enum { ROUNDS = 5, SETS = 20000 };

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static void fail(const char *what)
{
    fprintf(stderr, "bench_stock: %s\n", what);
    exit(1);
}

static void write_tanks(struct tc_text *text, int count)
{
    for (int i = 0; i < count; i++)
        tc_text_addf(
            text,
            "[tank number-%d]\ntitle = Tank %d\nnominal = 29 gal\nlength = 30.25 in\nwidth = 12.5 in\n"
            "height = 18.75 in\nglass = 5 mm\nprice = 80 to 95 USD likely %d.95, 79.50 EUR\n",
            i, i, 80 + i % 15);
    if (text->failed)
        fail("out of memory");
}

static double read_lines(const struct tc_text *text)
{
    struct tc_ini ini;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    double start = now();
    if (tc_ini_read_bytes("bench.ini", tc_text_string(text), text->length, &ini, &faults) != TC_OK)
        fail("the lines were not read");
    double seconds = now() - start;
    tc_ini_free(&ini);
    return seconds;
}

static double make_stock(const struct tc_text *text, size_t count)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    double start = now();
    tc_stock_start(&stock);
    if (tc_stock_read_bytes(&stock, "bench.ini", tc_text_string(text), text->length, &faults) != TC_OK ||
        tc_stock_finish(&stock, &faults) != TC_OK || stock.tank_count != count ||
        tc_faults_count(&faults) > 0)
        fail("the stock was not made whole");
    double seconds = now() - start;
    tc_stock_free(&stock);
    return seconds;
}

static void compare(int count)
{
    struct tc_text text = TC_TEXT_EMPTY;
    double lines = 1e9, stock = 1e9;
    write_tanks(&text, count);
    for (int i = 0; i < ROUNDS; i++) {
        double seconds = read_lines(&text);
        lines = seconds < lines ? seconds : lines;
        seconds = make_stock(&text, (size_t)count);
        stock = seconds < stock ? seconds : stock;
    }
    printf("%6d tanks: %8.2f ms, their lines alone %8.2f ms, ratio %.2f\n", count, stock * 1e3, lines * 1e3,
           stock / lines);
    tc_text_free(&text);
}

/* A figure typed on the screen, against the copy of the plan that is kept for undo. */
static void type_prices(void)
{
    static struct tc_plan plan, copies[2];
    char problem[TC_PROBLEM_SIZE];
    tc_plan_start(&plan);
    tc_plan_add(&plan, "29-high");
    double start = now();
    for (int i = 0; i < SETS; i++)
        if (!tc_plan_set(&plan, "candidate 1/price", i % 2 ? "45.50" : "40 to 50", problem))
            fail(problem);
    double typed = now() - start;
    start = now();
    for (int i = 0; i < SETS; i++)
        memcpy(&copies[i % 2], &copies[1 - i % 2], sizeof plan);
    double copied = now() - start;
    printf("a figure set in a plan: %.2f us, a copy of the plan %.2f us\n", typed / SETS * 1e6,
           copied / SETS * 1e6);
}

int main(void)
{
    compare(100);
    compare(3000);
    type_prices();
    return 0;
}
