/* SPDX-License-Identifier: MIT */
/*
 * A shortlist of a whole trade's catalogue: every tank worked out with its best parts. Against half the
 * tanks and half the parts, to see how it grows, by the processors' time, so that a busy machine does not
 * count; and how soon the first sign of it is there to be shown.
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/base/parallel.h"
#include "core/base/text.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "sheet/shortlist_study.h"
#include "support/draw.h"
#include "sheet/study_make.h"

enum { TANKS = 10000, PARTS = 2000, SHOPS = 12, LENGTHS = 10, WIDTHS = 6 };

static const double lengths[LENGTHS] = {12, 16, 18, 20, 24, 30, 36, 48, 60, 72}; /* in */
static const double widths[WIDTHS] = {8, 10, 12, 13, 18, 24};

static double seconds_of(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void fail(const char *what)
{
    fprintf(stderr, "bench_shortlist: %s\n", what);
    exit(1);
}

static double any_of(struct tc_random *random, const double *of, int count)
{
    return of[draw_below(random, count)];
}

/* A price about so much, as ten makers ask it. */
static double price(struct tc_random *random, double about)
{
    return 0.05 * (int)(20 * about * draw_between(random, 0.8, 1.4)) + 0.95;
}

static void write_tanks(struct tc_text *text, struct tc_random *random, int from, int to)
{
    for (int i = from; i < to; i++) {
        double l = any_of(random, lengths, LENGTHS) + 0.25, w = any_of(random, widths, WIDTHS) + 0.5;
        double h = 9 + draw_below(random, 80) * 0.25;
        tc_text_addf(text,
                     "[tank tank-%d]\nnominal = %.1f gal\nlength = %.2f in\nwidth = %.2f in\n"
                     "height = %.2f in\nglass = %d mm\nprice = %.2f USD\n",
                     i, l * w * h / 231, l, w, h,
                     h < 15   ? 5
                     : h < 20 ? 6
                              : 10,
                     price(random, 10 + l * w * h / 100));
    }
}

static void write_part(struct tc_text *text, struct tc_random *random, int i)
{
    double l = any_of(random, lengths, LENGTHS), w = any_of(random, widths, WIDTHS);
    double x = draw_between(random, 0, 1), flow = 60 * (1 + 20 * x * x),
           power = 5 + 5 * draw_below(random, 18);
    static const char *const kinds[] = {"canister", "hang-on", "sponge"};
    switch (i % 20) {
    case 0:
    case 1:
    case 2:
        tc_text_addf(text,
                     "[stand stand-%d]\nlength = %.1f in\nwidth = %.1f in\nheight = %d in\ntop = %s\n"
                     "load = %.0f kg\nlife = 20 years\nprice = %.2f USD\n",
                     i, l + 0.5, w + 1, 24 + draw_below(random, 12), x < 0.6 ? "solid" : "frame",
                     l * w * (0.4 + x), price(random, 20 + l * w / 8));
        break;
    case 3:
    case 4:
    case 5:
    case 6:
        tc_text_addf(text,
                     "[lid lid-%d]\nlength = %.1f in\nwidth = %.1f in\ncovered = %d %%\n"
                     "transmittance = %d %%\nlife = 12 years\nprice = %.2f USD\n",
                     i, l, w, 80 + draw_below(random, 16), 70 + draw_below(random, 22),
                     price(random, 3 + l * w / 18));
        break;
    case 7:
    case 8:
    case 9:
        tc_text_addf(text,
                     "[light light-%d]\nshortest = %.1f in\nlongest = %.1f in\npower = %.0f W\n"
                     "efficacy = %.2f umol/J\nreach = %.0f cm\nlife = %d years\nprice = %.2f USD\n",
                     i, l - 1, l + 8, l * (0.4 + x), draw_between(random, 1.2, 2.6), 30 + 20 * x,
                     4 + draw_below(random, 5), price(random, 10 + l * (0.5 + 2 * x)));
        break;
    case 10:
    case 11:
    case 12:
    case 13:
        if (i % 3 == 2)
            tc_text_addf(text,
                         "[filter filter-%d]\nkind = sponge\nflow = %.0f L/h\nreach = %.0f in\nair = %.0f "
                         "L/h\nlife = 5 years\nupkeep = 1.5 USD\nprice = %.2f USD\n",
                         i, flow, 16 + 20 * x, 30 + flow / 3, price(random, 4 + flow / 40));
        else
            tc_text_addf(text,
                         "[filter filter-%d]\nkind = %s\nflow = %.0f L/h\nreach = %.0f in\npower = %.1f W\n"
                         "heat = %d %%\nlife = %d years\nupkeep = %d USD\nprice = %.2f USD\n",
                         i, kinds[i % 3], flow, 24 + 30 * x, 2 + flow / draw_between(random, 60, 140),
                         50 + draw_below(random, 40), 5 + draw_below(random, 5), 8 + draw_below(random, 15),
                         price(random, 15 + flow / 12));
        break;
    case 14:
        tc_text_addf(text,
                     "[air-pump air-pump-%d]\nflow = %.0f L/h\ndepth = %d cm\npower = %.1f W\n"
                     "life = %d years\nprice = %.2f USD\n",
                     i, flow, 40 + draw_below(random, 50), 1.5 + flow / draw_between(random, 40, 90),
                     3 + draw_below(random, 6), price(random, 8 + flow / 30));
        break;
    case 15:
    case 16:
    case 17:
        tc_text_addf(text, "[heater heater-%d]\npower = %.0f W\nlife = %d years\nprice = %.2f USD\n", i,
                     power < 50 ? power * 5 : power * 4, 2 + draw_below(random, 4),
                     price(random, 12 + power / 5));
        break;
    default:
        tc_text_addf(text,
                     "[substrate substrate-%d]\nvolume = %d L\ndensity = %.0f kg/m3\nvoids = %.0f %%\n"
                     "life = %d years\nprice = %.2f USD\n",
                     i, 5 + draw_below(random, 20), draw_between(random, 900, 1700),
                     draw_between(random, 35, 50), 4 + draw_below(random, 12), price(random, 20));
        break;
    }
}

/* What a shop draws for one thing, whatever else there is: fewer tanks change no price of a part. */
static struct tc_random of_thing(int shop, int kind, int i)
{
    return draw_from(((uint64_t)shop * 32 + (uint64_t)kind) * 16384 + (uint64_t)i);
}

static void write_shop(struct tc_text *text, int shop, int tanks, int parts)
{
    enum { SHOP = 30, TANK = 31 };
    struct tc_random terms = of_thing(shop, SHOP, 0);
    static const char *const slots[20] = {"stand",  "stand",  "stand",  "lid",       "lid",
                                          "lid",    "lid",    "light",  "light",     "light",
                                          "filter", "filter", "filter", "filter",    "air-pump",
                                          "heater", "heater", "heater", "substrate", "substrate"};
    tc_text_addf(text,
                 "[shop shop-%d]\nregion = lowmere\ndelivery = %d\ndelivery-free-from = %d\n"
                 "order-fee = 20\n[prices shop-%d tank]\n",
                 shop, 10 + draw_below(&terms, 40), 150 + 50 * draw_below(&terms, 8), shop);
    int step = 1 + tanks / 1000; /* a section holds 1024 keys; the rest has the price of its record */
    for (int i = shop % step; i < tanks; i += step) {
        struct tc_random random = of_thing(shop, TANK, i);
        if (draw_below(&random, 3))
            tc_text_addf(text, "tank-%d = %.2f\n", i, price(&random, 100));
    }
    for (int kind = 0; kind < 20; kind++) {
        if (kind == 0 || slots[kind] != slots[kind - 1])
            tc_text_addf(text, "[prices shop-%d %s]\n", shop, slots[kind]);
        for (int i = kind; i < parts; i += 20) {
            struct tc_random random = of_thing(shop, kind, i);
            if (draw_below(&random, 4) == 0)
                tc_text_addf(text, "%s-%d = %.2f\n", slots[kind], i, price(&random, 40));
        }
    }
}

/* Reads a text as a file, and empties it. */
static void read_text(struct tc_stock *stock, const char *name, struct tc_text *text,
                      struct tc_faults *faults)
{
    if (text->failed || tc_stock_read_bytes(stock, name, tc_text_string(text), text->length, faults) != TC_OK)
        fail("the catalogue was not read");
    tc_text_free(text);
    *text = (struct tc_text)TC_TEXT_EMPTY;
}

static void make_stock(struct tc_stock *stock, int tanks, int parts)
{
    enum { A_FILE = 5000 };
    char name[32];
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_random random = draw_from(1), places = draw_from(2);
    tc_stock_start(stock);
    tc_stock_read_file(stock, "profiles/regions/lowmere.ini", &faults);
    tc_stock_read_file(stock, "profiles/setups/kits.ini", &faults);
    for (int from = 0; from < tanks; from += A_FILE) {
        write_tanks(&text, &random, from, from + A_FILE < tanks ? from + A_FILE : tanks);
        snprintf(name, sizeof name, "tanks-%d.ini", from);
        read_text(stock, name, &text, &faults);
    }
    for (int i = 0; i < parts; i++)
        write_part(&text, &places, i);
    read_text(stock, "parts.ini", &text, &faults);
    for (int shop = 0; shop < SHOPS; shop++) {
        write_shop(&text, shop, tanks, parts);
        snprintf(name, sizeof name, "shop-%d.ini", shop);
        read_text(stock, name, &text, &faults);
    }
    if (tc_stock_finish(stock, &faults) != TC_OK || tc_faults_errors(&faults) > 0) {
        tc_faults_write(&faults, &text);
        fprintf(stderr, "%.400s\n", tc_text_string(&text));
        fail("the catalogue has faults");
    }
    tc_faults_free(&faults);
}

static void set(struct tc_plan *plan, const char *path, const char *value)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_set(plan, path, value, problem))
        fail(problem);
}

/* When the first list was there to be shown. */
struct first_look {
    double start, seconds;
};

static void look(void *context, const struct tc_shortlist *known)
{
    struct first_look *first = context;
    if (first->seconds == 0 && known->ranked_count > 0)
        first->seconds = seconds_of(CLOCK_MONOTONIC) - first->start;
}

static double list_time(const char *setup, const char *shop, int tanks, int parts, int threads)
{
    static struct tc_stock stock;
    static struct tc_study study;
    struct tc_shortlist list;
    struct tc_plan plan;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct first_look first = {0};
    const struct tc_ask ask = {.threads = threads};
    make_stock(&stock, tanks, parts);
    tc_plan_start(&plan);
    set(&plan, "plan/setup", setup);
    set(&plan, "plan/region", "lowmere");
    set(&plan, "plan/shop", shop);
    first.start = seconds_of(CLOCK_MONOTONIC);
    double work = seconds_of(CLOCK_PROCESS_CPUTIME_ID);
    if (tc_study_make(&study, &stock, &plan, (struct tc_date){2026, 11, 25}, &faults) != TC_OK)
        fail("the plan could not be worked out");
    if (tc_shortlist_make(&list, &study, &ask, look, &first) != TC_OK)
        fail("there is no list");
    double seconds = seconds_of(CLOCK_MONOTONIC) - first.start;
    work = seconds_of(CLOCK_PROCESS_CPUTIME_ID) - work;
    int worked = 0;
    for (int i = 0; i < list.count; i++)
        worked += list.tanks[i].worked_out;
    printf("  %-16s %-8s %5d tanks, %4d parts, %d threads: %7.1f ms, of work %7.1f ms; first list after "
           "%5.1f ms; %4d costed, %4d on the list\n",
           setup, shop, tanks, parts, threads, seconds * 1e3, work * 1e3, first.seconds * 1e3, worked,
           list.ranked_count);
    tc_shortlist_free(&list);
    tc_study_free(&study);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return work;
}

int main(void)
{
    static const char *const setups[] = {"planted-display", "breeding-plain", "rock-lake"};
    int threads = tc_parallel_processors();
    printf("every tank of a catalogue with its best parts, %d shops:\n", SHOPS);
    for (size_t i = 0; i < sizeof setups / sizeof setups[0]; i++) {
        double whole = list_time(setups[i], "shop-3", TANKS, PARTS, threads);
        double fewer_tanks = list_time(setups[i], "shop-3", TANKS / 2, PARTS, threads);
        double fewer_parts = list_time(setups[i], "shop-3", TANKS, PARTS / 2, threads);
        printf("  twice the tanks are %.2f times the work, twice the parts %.2f times\n", whole / fewer_tanks,
               whole / fewer_parts);
        list_time(setups[i], "several", TANKS / 10, PARTS, threads);
    }
    list_time(setups[0], "shop-3", TANKS, PARTS, 1);
    return 0;
}
