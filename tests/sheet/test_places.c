/* SPDX-License-Identifier: MIT */
/*
 * The candidates in several regions: against bills made for each region alone,
 * against amounts worked out by hand, and what is said where something is
 * missing or another candidate wins.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "print/print.h"
#include "profile/stock_finish.h"
#include "sheet/bill.h"
#include "sheet/need.h"
#include "sheet/places.h"
#include "sheet/places_notes.h"
#include "support/failing_malloc.h"
#include "support/golden.h"
#include "support/near.h"
#include "support/stock_text.h"
#include "sheet/study_make.h"

static const struct tc_date today = {2026, 1, 20};

struct made {
    struct tc_stock stock;
    struct tc_faults faults;
    struct tc_plan plan;
    struct tc_study study;
    struct tc_sheet sheet;
    struct tc_ask ask;
    char problem[TC_PROBLEM_SIZE];
};

static int setup(void **state)
{
    struct made *made = calloc(1, sizeof *made);
    assert_non_null(made);
    tc_stock_start(&made->stock);
    tc_plan_start(&made->plan);
    made->ask.problem = made->problem;
    *state = made;
    return 0;
}

static int teardown(void **state)
{
    struct made *made = *state;
    tc_sheet_free(&made->sheet);
    tc_study_free(&made->study);
    tc_stock_free(&made->stock);
    tc_faults_free(&made->faults);
    free(made);
    return 0;
}

static void set(struct made *made, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE] = "";
    if (!tc_plan_set(&made->plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

static void add_text(struct made *made, const char *text)
{
    stock_add_text(&made->stock, "mine", text, &made->faults);
}

static void finish_stock(struct made *made)
{
    assert_int_equal(tc_stock_finish(&made->stock, &made->faults), TC_OK);
    assert_faults(&made->faults, "");
}

/* Makes the sheet of the plan anew. */
static enum tc_status make_places(struct made *made)
{
    tc_sheet_free(&made->sheet);
    tc_study_free(&made->study);
    assert_int_equal(tc_study_make(&made->study, &made->stock, &made->plan, today, &made->faults), TC_OK);
    return tc_make_places(&made->study, &made->ask, &made->sheet);
}

/* The cells of a row of the group that starts so. */
static const struct tc_cell *row_of(const struct tc_sheet *sheet, const char *group, const char *label)
{
    bool inside = false;
    for (size_t i = 0; i < sheet->row_count; i++) {
        const struct tc_row *row = &sheet->rows[i];
        if (row->kind == TC_ROW_GROUP)
            inside = strncmp(row->label, group, strlen(group)) == 0;
        else if (inside && strcmp(row->label, label) == 0)
            return row->cells;
    }
    fail_msg("no row '%s' in group '%s'", label, group);
    return NULL;
}

static size_t column_of(const struct tc_sheet *sheet, const char *head)
{
    for (size_t i = 0; i < sheet->column_count; i++)
        if (strcmp(sheet->columns[i].head, head) == 0)
            return i;
    fail_msg("no column '%s'", head);
    return 0;
}

static bool has_column(const struct tc_sheet *sheet, const char *head)
{
    for (size_t i = 0; i < sheet->column_count; i++)
        if (strcmp(sheet->columns[i].head, head) == 0)
            return true;
    return false;
}

static const struct tc_cell *cell_of(const struct made *made, const char *group, const char *label,
                                     const char *region)
{
    return &row_of(&made->sheet, group, label)[column_of(&made->sheet, region)];
}

static void assert_money(const struct made *made, const char *group, const char *label, const char *region,
                         tc_money money, const char *code)
{
    const struct tc_cell *cell = cell_of(made, group, label, region);
    assert_int_equal(cell->kind, TC_CELL_MONEY);
    assert_int_equal(cell->money, money);
    assert_string_equal(cell->currency.code, code);
}

static void assert_missing(const struct made *made, const char *group, const char *label, const char *region,
                           const char *what)
{
    const struct tc_cell *cell = cell_of(made, group, label, region);
    assert_int_equal(cell->kind, TC_CELL_MISSING);
    assert_string_equal(cell->text, what);
}

static void assert_text(const struct made *made, const char *group, const char *label, const char *region,
                        const char *text)
{
    const struct tc_cell *cell = cell_of(made, group, label, region);
    assert_int_equal(cell->kind, TC_CELL_TEXT);
    assert_string_equal(cell->text, text);
}

/* Whether a note of this kind is exactly this, or, with starts set, starts so. */
static bool has_note(const struct made *made, enum tc_note_kind kind, const char *text, bool starts)
{
    for (size_t i = 0; i < made->sheet.note_count; i++) {
        const struct tc_note *note = &made->sheet.notes[i];
        if (note->kind == kind &&
            (starts ? strncmp(note->text, text, strlen(text)) : strcmp(note->text, text)) == 0)
            return true;
    }
    return false;
}

static void assert_note(const struct made *made, enum tc_note_kind kind, const char *text)
{
    if (has_note(made, kind, text, false))
        return;
    for (size_t i = 0; i < made->sheet.note_count; i++)
        print_error("note: %s\n", made->sheet.notes[i].text);
    fail_msg("no note '%s'", text);
}

/* ------------------------------------------------------------ against bills made alone */

/*
 * What is here of a region against the bill of a plan in that region. Sums that
 * the bill marks as incomplete are left out here; what a year costs may be
 * known all the same.
 */
static void compare_with_bill(struct made *made, const struct tc_plan *alone_plan)
{
    static const struct {
        const char *bill_group, *bill_row, *group;
        bool yearly;
    } rows[] = {
        {"To buy", "to buy", "To buy", false},
        {"Each year", "each year", "Each year", true},
        {"Over the period, in today's money", "present value", "To own over", false},
    };
    struct tc_study alone;
    struct tc_sheet bill;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    const struct tc_ask ask = {.seed = 0};
    assert_int_equal(tc_study_make(&alone, &made->stock, alone_plan, today, &faults), TC_OK);
    assert_int_equal(tc_make_bill(&alone, &ask, &bill), TC_OK);
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        const struct tc_cell *cells = row_of(&bill, rows[r].bill_group, rows[r].bill_row);
        for (int i = 0; i < alone.alternative_count; i++) {
            const char *head = alone.alternatives[i].head;
            const struct tc_cell *here = cell_of(made, rows[r].group, head, alone_plan->region);
            if (!alone.alternatives[i].cost.incomplete || (rows[r].yearly && here->kind == TC_CELL_MONEY))
                assert_money(made, rows[r].group, head, alone_plan->region, cells[i].money,
                             cells[i].currency.code);
            else
                assert_int_equal(here->kind, TC_CELL_MISSING);
        }
    }
    int best = -1; /* of those that suit their animals there */
    for (int i = 0; i < alone.alternative_count; i++) {
        const struct tc_alternative *alternative = &alone.alternatives[i];
        if (alternative->suit.suits && !alternative->cost.incomplete &&
            (best < 0 || alternative->cost.present_value < alone.alternatives[best].cost.present_value))
            best = i;
    }
    if (best >= 0)
        assert_text(made, "To own over", "cheapest to own", alone_plan->region,
                    alone.alternatives[best].head);
    else
        assert_missing(made, "To own over", "cheapest to own", alone_plan->region, "not known");
    tc_sheet_free(&bill);
    tc_study_free(&alone);
    tc_faults_free(&faults);
}

/* The plan as somebody would write it who is in another region: what is typed for its own left out. */
static void compare_elsewhere(struct made *made, const char *region, bool sale_is_elsewhere)
{
    struct made other = {.plan = made->plan};
    char path[2 * TC_NAME_SIZE];
    set(&other, "plan/region", region);
    for (int i = other.plan.override_count - 1; i >= 0; i--) {
        const struct tc_override *override = &other.plan.override[i];
        snprintf(path, sizeof path, "%s/%s", override->kind, override->key);
        if (strcmp(override->kind, "region") == 0)
            set(&other, path, "");
    }
    if (sale_is_elsewhere)
        set(&other, "plan/sale", "best");
    compare_with_bill(made, &other.plan);
}

static void same_as_bills_of_the_regions(void **state)
{
    struct made *made = *state;
    stock_add_folder(&made->stock, "profiles");
    finish_stock(made);
    made->plan = *tc_stock_plan(&made->stock, "three-places");
    assert_int_equal(make_places(made), TC_OK);
    assert_int_equal(made->sheet.column_count, made->plan.region_count);
    assert_true(made->plan.region_count >= 3);
    for (int i = 0; i < made->plan.region_count; i++) {
        if (strcmp(made->plan.regions[i], made->plan.region) == 0)
            compare_with_bill(made, &made->plan);
        else
            compare_elsewhere(made, made->plan.regions[i], false);
    }
}

/* Prices, sales and assumptions typed for the plan's region count in it and not elsewhere. */
static void what_is_typed_stays_in_its_region(void **state)
{
    struct made *made = *state;
    stock_add_folder(&made->stock, "tests/data/profiles");
    finish_stock(made);
    set(made, "plan/setup", "shrimp-shelf");
    set(made, "plan/region", "lowmere");
    set(made, "plan/regions", "lowmere highfell");
    set(made, "plan/sale", "lowmere-spring");
    assert_non_null(tc_plan_add(&made->plan, "29-high"));
    assert_non_null(tc_plan_add(&made->plan, "40-breeder"));
    set(made, "candidate 1/stand", "none");
    set(made, "region/room", "15 C");
    set(made, "region/electricity", "0.50 / kWh");
    set(made, "setup/temperature", "27 C");
    assert_int_equal(make_places(made), TC_OK);
    compare_with_bill(made, &made->plan);
    compare_elsewhere(made, "highfell", true);
    assert_text(made, "How the tank", "40-breeder", "lowmere", "sale lowmere-spring");
    tc_money here = cell_of(made, "To buy", "29-high", "lowmere")->money;
    const struct tc_cell there = *cell_of(made, "To own over", "29-high", "highfell");
    assert_false(has_note(made, TC_NOTE_REMARK, "Prices typed by hand", true));

    set(made, "candidate 1/price", "1");
    set(made, "candidate 1/life", "2 years");
    set(made, "candidate 2/filter", "sponge-m");
    set(made, "candidate 2/filter-price", "0.50");
    set(made, "candidate 2/filter-life", "1 years");
    assert_int_equal(make_places(made), TC_OK);
    compare_with_bill(made, &made->plan);
    assert_true(cell_of(made, "To buy", "29-high", "lowmere")->money < here);
    assert_int_equal(there.kind, TC_CELL_MONEY);
    assert_int_equal(cell_of(made, "To own over", "29-high", "highfell")->kind, there.kind);
    assert_int_equal(cell_of(made, "To own over", "29-high", "highfell")->money, there.money);
    assert_text(made, "How the tank", "29-high", "lowmere", "typed by hand");
    assert_note(made, TC_NOTE_REMARK,
                "Prices typed by hand hold in lowmere alone: elsewhere all is bought new at what that place "
                "asks.");
    assert_note(
        made, TC_NOTE_REMARK,
        "A sale counts in its own region only; elsewhere the tank is bought the cheapest way there today, "
        "list price or sale.");
    assert_note(made, TC_NOTE_REMARK,
                "Figures you changed for the region count in lowmere only, those for the setup everywhere.");
    static const char *const typed[] = {"candidate 1/price", "candidate 1/life", "candidate 2/filter-price",
                                        "candidate 2/filter-life"};
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++)
        set(made, typed[i], "");
    compare_elsewhere(made, "highfell", true);
}

/* ------------------------------------------------------------------------------ by hand */

/* Tanks that cost nothing but their price, in three moneys with 2, 0 and 3 decimals. */
#define BARE                                                                                                 \
    "[setup bare]\n"                                                                                         \
    "stand = no\nlid = open\nheater = no\nfilter = none\nwater-change = 0 %\n"                               \
    "[tank small]\n"                                                                                         \
    "nominal = 60 L\nlength = 60 cm\nwidth = 30 cm\nheight = 36 cm\nglass = 5 mm\n"                          \
    "price = 100 USD, 12345 JPY, 30.5 KWD\nlife = 100 years\nresale = 0 %\n"                                 \
    "[tank large]\n"                                                                                         \
    "nominal = 120 L\nlength = 80 cm\nwidth = 35 cm\nheight = 42 cm\nglass = 6 mm\n"                         \
    "price = 120.50 USD, 11000 JPY, 40.125 KWD\nlife = 100 years\nresale = 0 %\n"                            \
    "[region uptown]\n"                                                                                      \
    "currency = USD\nelectricity = 0.2 / kWh\nwater = 0 / m3\nroom = 20 C\n"                                 \
    "sales-tax = 7 %\ntax = added\n"                                                                         \
    "[region kobo]\n"                                                                                        \
    "currency = JPY\nelectricity = 30 / kWh\nwater = 0 / m3\nroom = 70 F\n"                                  \
    "sales-tax = 10 %\ntax = included\nexchange = 0.0066 USD\nexchange-date = 2026-01-15\n"                  \
    "[region sands]\n"                                                                                       \
    "currency = KWD\nelectricity = 0.01 / kWh\nwater = 0 / m3\nroom = 25 C\n"                                \
    "exchange = 3.25 USD\nexchange-date = 2026-01-14\n"                                                      \
    "[shop uptown]\nregion = uptown\ndelivery = 5\n[shop kobo]\nregion = kobo\n"                             \
    "[shop sands]\nregion = sands\ndelivery = 1.25\n"

static void start_bare(struct made *made)
{
    set(made, "plan/setup", "bare");
    set(made, "plan/region", "uptown");
    set(made, "plan/regions", "uptown kobo sands");
    set(made, "plan/sale", "list");
    set(made, "plan/years", "3 years");
    assert_non_null(tc_plan_add(&made->plan, "small"));
    assert_non_null(tc_plan_add(&made->plan, "large"));
}

/*
 * uptown  small 100.00 + 7.00 tax + 5.00 brought = 112.00
 *         large 120.50 + 8.44 (8.435) + 5.00     = 133.94
 * kobo    small 12345, large 11000: tax included
 * sands   small 30.500 + 1.250 = 31.750, large 40.125 + 1.250 = 41.375
 */
static void amounts_by_hand(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    assert_int_equal(make_places(made), TC_OK);
    static const char *const groups[] = {"To buy", "To own over 3 years"};
    for (size_t g = 0; g < 2; g++) {
        assert_money(made, groups[g], "small", "uptown", 11200, "USD");
        assert_money(made, groups[g], "large", "uptown", 13394, "USD");
        assert_money(made, groups[g], "small", "kobo", 12345, "JPY");
        assert_money(made, groups[g], "large", "kobo", 11000, "JPY");
        assert_money(made, groups[g], "small", "sands", 31750, "KWD");
        assert_money(made, groups[g], "large", "sands", 41375, "KWD");
    }
    assert_money(made, "Each year", "small", "kobo", 0, "JPY");
    /* 12345 x 0.0066 = 81.477; 11000 x 0.0066 = 72.6; 31.75 x 3.25 = 103.1875; 41.375 x 3.25 = 134.46875 */
    static const char all[] = "To own, all in USD";
    assert_money(made, all, "small", "uptown", 11200, "USD");
    assert_money(made, all, "small", "kobo", 8148, "USD");
    assert_money(made, all, "small", "sands", 10319, "USD");
    assert_money(made, all, "large", "uptown", 13394, "USD");
    assert_money(made, all, "large", "kobo", 7260, "USD");
    assert_money(made, all, "large", "sands", 13447, "USD");
    /* The best place of each candidate, and the best candidate of each place. */
    assert_int_equal(cell_of(made, all, "small", "kobo")->marks, TC_MARK_BEST);
    assert_int_equal(cell_of(made, all, "large", "kobo")->marks, TC_MARK_BEST);
    assert_int_equal(cell_of(made, all, "small", "uptown")->marks, 0);
    assert_text(made, "To own over", "cheapest to own", "uptown", "small");
    assert_text(made, "To own over", "cheapest to own", "kobo", "large");
    assert_text(made, "To own over", "cheapest to own", "sands", "small");
    assert_string_equal(made->sheet.columns[column_of(&made->sheet, "uptown")].subhead, "this plan");
}

static void rates_with_their_dates(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    made->ask.money = "kwd";
    assert_int_equal(make_places(made), TC_OK);
    static const char all[] = "To own, all in KWD", rate[] = "exchange rate to KWD";
    assert_near(cell_of(made, all, rate, "uptown")->number, 1 / 3.25, 1e-12);
    assert_near(cell_of(made, all, rate, "kobo")->number, 0.0066 / 3.25, 1e-12);
    assert_near(cell_of(made, all, rate, "sands")->number, 1, 0);
    /* Through the dollar: as old as the older of the two. */
    assert_text(made, all, "rate of", "kobo", "2026-01-14");
    assert_text(made, all, "rate of", "uptown", "2026-01-14");
    assert_int_equal(cell_of(made, all, "rate of", "sands")->kind, TC_CELL_EMPTY);
    /* 112.00 / 3.25 = 34.46154; 12345 x 0.0066 / 3.25 = 25.06985 */
    assert_money(made, all, "small", "uptown", 34462, "KWD");
    assert_money(made, all, "small", "kobo", 25070, "KWD");
    assert_money(made, all, "small", "sands", 31750, "KWD");
    /* What more electricity costs is told in that money as well: 0.2 / 3.25 and 30 x 0.0066 / 3.25. */
    static const char like[] = "What the places are like", power[] = "price of more electricity";
    assert_near(cell_of(made, like, power, "uptown")->number, 0.2 / 3.25, 1e-9);
    assert_near(cell_of(made, like, power, "kobo")->number, 30 * 0.0066 / 3.25, 1e-9);
    assert_text(made, like, "sales tax", "uptown", "7 % added");
    assert_text(made, like, "sales tax", "kobo", "10 % included");
    assert_text(made, like, "sales tax", "sands", "none");
    assert_near(cell_of(made, like, "room, mean of the year", "kobo")->number, 190. / 9, 1e-6); /* 70 F */
}

static void winner_changes_and_why(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    assert_int_equal(make_places(made), TC_OK);
    assert_note(made, TC_NOTE_FINDING,
                "In kobo large is the better buy, mainly for tank: it is 1 345 JPY below small there, 20.50 "
                "USD above "
                "here.");
    assert_note(
        made, TC_NOTE_FINDING,
        "small costs 30.52 USD less to own in kobo than here, mainly for tank (18.52) and sales tax (7.00).");
    assert_false(has_note(made, TC_NOTE_FINDING, "sands:", true));

    /* Where the same wins everywhere, one sentence says so; at home as anywhere. */
    set(made, "plan/regions", "sands uptown");
    assert_int_equal(make_places(made), TC_OK);
    assert_note(made, TC_NOTE_FINDING,
                "small is right in all these places: none is cheaper there by more than 2 %.");
    set(made, "plan/region", "sands");
    assert_int_equal(make_places(made), TC_OK);
    assert_note(
        made, TC_NOTE_FINDING,
        "small costs 2.712 KWD more to own in uptown than here, mainly for sales tax (2.154) and delivery "
        "(0.288).");
}

/* Without the plan's own region among them the first is what others are held against. */
static void own_region_left_out(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    set(made, "plan/regions", "kobo sands");
    assert_int_equal(make_places(made), TC_OK);
    assert_int_equal(made->sheet.column_count, 2);
    assert_note(
        made, TC_NOTE_FINDING,
        "In sands small is the better buy, mainly for tank: it is 9.625 KWD below large there, 1 345 JPY "
        "above in kobo.");
    assert_note(made, TC_NOTE_FINDING, "large in kobo is the cheapest of all to own: 72.60 USD.");
}

/* Equal costs have no loser. */
static void equal_costs_share_the_win(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[prices sands tank]\nlarge = 30.5\n"
                        "[prices kobo tank]\nlarge = 12345\n");
    finish_stock(made);
    start_bare(made);
    assert_int_equal(make_places(made), TC_OK);
    assert_text(made, "To own over", "cheapest to own", "sands", "small and large");
    assert_note(made, TC_NOTE_FINDING,
                "small is right in all these places: none is cheaper there by more than 2 %.");
}

/* Lines in which nothing moves, or that move the other way, are not named. */
static void names_the_line_that_moves_most(void **state)
{
    (void)state;
    struct tc_region_cost local[2] = {{.currency = {"USD", 2}, .best = 0},
                                      {.currency = {"JPY", 0}, .best = 1}};
    struct tc_conversion conversion[2] = {{.rate = 1}, {.rate = 0.01}};
    struct tc_region_costs regions = {.local = local, .conversion = conversion, .count = 2};
    const int energy = TC_BUY_COUNT, water = TC_BUY_COUNT + 1;
    assert_string_equal(tc_region_cost_line_name(energy), "energy");
    assert_string_equal(tc_region_cost_line_name(TC_REGION_COST_LINES - 1), "resale");
    assert_string_equal(tc_region_cost_line_name(TC_BUY_SLOTS), "stand");
    for (int i = 0; i < 2; i++)
        for (int c = 0; c < 2; c++)
            local[i].cost[c].there = true;
    local[0].cost[0].present_value = 20000;
    local[1].cost[0].present_value = 20000;
    /* In dollars 1 is 9.00 dearer than 0 in energy, 40.00 in the tank, and 0.01 cheaper in water. */
    local[0].cost[1].line[energy] = 900;
    local[0].cost[1].line[TC_BUY_TANK] = 4000;
    local[0].cost[0].line[water] = 1;
    /* There 35.00 (3500 yen) dearer in the tank: 5.00 for 1. In energy 60.00 cheaper: 69.00 for 1. */
    local[1].cost[1].line[TC_BUY_TANK] = 3500;
    local[1].cost[0].line[energy] = 6000;
    local[1].cost[1].line[water] = 1000;
    assert_int_equal(tc_places_moving_line(&regions, 0, 1, 1, 0), energy);
    assert_int_equal(tc_places_moving_line(&regions, 1, 0, 0, 1), energy);
    /* Without a rate, as shares of 200.00 USD and 20 000 JPY, which here says the same. */
    conversion[1].rate = 0;
    assert_int_equal(tc_places_moving_line(&regions, 0, 1, 1, 0), energy);
}

/* --------------------------------------------------------------------- what is missing */

static void missing_prices_are_told(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[region rand]\n"
                        "currency = ZAR\nelectricity = 2 / kWh\nwater = 10 / m3\nroom = 20 C\n"
                        "exchange = 0.05 USD\nexchange-date = 2026-01-10\n"
                        "[shop rand]\nregion = rand\n[prices rand tank]\nlarge = 1500\n");
    finish_stock(made);
    start_bare(made);
    set(made, "plan/regions", "uptown rand");
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "To buy", "small", "rand", "no price");
    assert_missing(made, "To own over", "small", "rand", "no price");
    assert_missing(made, "To own, all in USD", "small", "rand", "no price");
    assert_money(made, "To own, all in USD", "small", "uptown", 11200, "USD");
    assert_int_equal(cell_of(made, "To own, all in USD", "small", "uptown")->marks, 0);
    assert_int_equal(cell_of(made, "Each year", "small", "rand")->kind, TC_CELL_MONEY); /* known without it */
    assert_text(made, "To own over", "cheapest to own", "rand", "large");
    assert_note(made, TC_NOTE_FAULT,
                "rand has no price in ZAR for: small (tank). Give it in the profile of the item, or in the "
                "list of a shop of rand.");
    assert_note(made, TC_NOTE_FINDING,
                "In rand large is the better buy, but the cost of small is not known in rand.");

    /* The other way round: what wins there has no price here. */
    set(made, "plan/region", "rand");
    set(made, "plan/regions", "rand uptown");
    assert_int_equal(make_places(made), TC_OK);
    assert_note(made, TC_NOTE_FINDING,
                "In uptown small is the better buy, but the cost of small is not known in rand.");

    /* Nothing at all has a price. */
    set(made, "plan/region", "uptown");
    set(made, "plan/regions", "uptown rand sands");
    tc_plan_remove(&made->plan, 1);
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "To own over", "cheapest to own", "rand", "not known");
    assert_note(made, TC_NOTE_FINDING,
                "small costs 8.81 USD less to own in sands than here, mainly for sales tax (7.00) and "
                "delivery (0.94).");
}

static void slots_without_price_or_part(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[setup roofed]\n"
                        "stand = yes\nlid = covered\nheater = no\nfilter = none\nwater-change = 0 %\n"
                        "[lid pane]\n"
                        "length = 60 cm\nwidth = 30 cm\nprice = 10 USD\n"
                        "[stand frame]\n"
                        "length = 60 cm\nwidth = 30 cm\nheight = 70 cm\nload = 200 kg\n"
                        "price = 50 USD, 9000 JPY\n");
    finish_stock(made);
    start_bare(made);
    set(made, "plan/setup", "roofed");
    set(made, "plan/regions", "uptown kobo");
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "Each year", "small", "kobo", "no price");
    assert_missing(made, "Each year", "large", "kobo", "nothing fits");
    assert_missing(made, "To buy", "large", "uptown", "nothing fits");
    assert_note(made, TC_NOTE_FAULT,
                "kobo has no price in JPY for: small (lid). Give it in the profile of the item, or in the "
                "list of a shop of kobo.");
    assert_note(made, TC_NOTE_FAULT, "kobo: nothing on offer fits: large (stand, lid).");
    assert_note(made, TC_NOTE_FAULT, "uptown: nothing on offer fits: large (stand, lid).");

    /* A pinned part without a price lacks one as well. */
    set(made, "candidate 1/lid", "pane");
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "To buy", "small", "kobo", "no price");
    assert_note(made, TC_NOTE_FAULT,
                "kobo has no price in JPY for: small (lid). Give it in the profile of the item, or in the "
                "list of a shop of kobo.");
}

static void missing_rates_are_told(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    made->ask.money = "SEK";
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "To own, all in SEK", "exchange rate to SEK", "kobo", "no rate");
    assert_missing(made, "To own, all in SEK", "small", "uptown", "no rate");
    assert_missing(made, "What the places are like", "price of more electricity", "uptown", "no rate");
    assert_money(made, "To buy", "small", "uptown", 11200, "USD");
    assert_note(made, TC_NOTE_FAULT,
                "No rate leads to SEK from USD (uptown), JPY (kobo), KWD (sands): give 'exchange' and "
                "'exchange-date' in the profile of a region with that money.");
    /* Why the winner changes can still be told. */
    assert_true(has_note(made, TC_NOTE_FINDING, "In kobo large is the better buy", true));
    assert_false(has_note(made, TC_NOTE_FINDING, "large costs", true));
}

static void unknown_names_are_refused(void **state)
{
    struct made *made = *state;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    made->ask.money = "UDS";
    assert_int_equal(make_places(made), TC_SYNTAX);
    assert_string_equal(made->problem, "no currency 'UDS'; did you mean 'USD'?");
    made->ask.money = "money";
    assert_int_equal(make_places(made), TC_SYNTAX);
    assert_string_equal(made->problem, "no currency 'money'");
    made->ask.money = NULL;
    set(made, "plan/regions", "uptown sand");
    assert_int_equal(make_places(made), TC_SYNTAX);
    assert_string_equal(made->problem, "no region 'sand'; did you mean 'sands'?");
    made->ask.problem = NULL;
    assert_int_equal(make_places(made), TC_SYNTAX);
}

/* What can be worked out in one place only: the others say why not. */
static void troubles_of_a_region_are_told(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[region bare-average]\n"
                        "template = yes\ncurrency = USD\nelectricity = 0.3 / kWh\nsales-tax = 5 %\n"
                        "water = 0 / m3\nhousehold-energy = 0 kWh\ncold-water = 10 C\n"
                        "humidity = 50 %\n");
    finish_stock(made);
    start_bare(made);
    set(made, "plan/regions", "uptown bare-average");
    assert_int_equal(make_places(made), TC_OK);
    assert_missing(made, "To buy", "small", "bare-average", "not worked out");
    assert_missing(made, "To own over", "cheapest to own", "bare-average", "not known");
    assert_int_equal(cell_of(made, "What the places are like", "sales tax", "bare-average")->kind,
                     TC_CELL_EMPTY);
    assert_note(made, TC_NOTE_FAULT,
                "bare-average: 'bare-average' is a template that is not filled in; it still needs "
                "household-water and room.");
}

/* ---------------------------------------------------------------------------- templates */

#define FILLED_TEMPLATE                                                                                      \
    "[region average]\n"                                                                                     \
    "template = yes\ncurrency = USD\nelectricity = 0.3 / kWh\nsales-tax = 5 %\n"                             \
    "water = 0 / m3\nhousehold-energy = 100 kWh\nhousehold-water = 5 m3\ncold-water = 10 C\n"                \
    "room = 20 C\nhumidity = 50 %\n"

static void all_regions_but_open_templates(void **state)
{
    struct made *made = *state;
    add_text(made,
             "[region open]\ntemplate = yes\ncurrency = EUR\nelectricity = 0.3 / kWh\n" FILLED_TEMPLATE BARE);
    finish_stock(made);
    start_bare(made);
    set(made, "plan/regions", "all");
    assert_int_equal(made->plan.region_count, 0);
    assert_int_equal(make_places(made), TC_OK);
    /* The plan's own region first, then the others as they were read. */
    assert_int_equal(made->sheet.column_count, 4);
    assert_string_equal(made->sheet.columns[0].head, "uptown");
    assert_string_equal(made->sheet.columns[1].head, "average");
    assert_false(has_column(&made->sheet, "open"));
    assert_money(made, "To buy", "small", "average", 10500, "USD");
    assert_note(made, TC_NOTE_REMARK,
                "average is a template: its tariff is a public average, to be replaced by your own bill's.");
    assert_note(
        made, TC_NOTE_REMARK,
        "1 region template that is not filled in yet is left out; `tankcost check` lists what is missing.");
}

/* A plan may stand in a template if it types over what is missing there. */
static void typed_over_template(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[region open]\ntemplate = yes\ncurrency = USD\nelectricity = 0.3 / kWh\n"
                        "sales-tax = 0 %\nhousehold-energy = 100 kWh\nhousehold-water = 5 m3\n"
                        "cold-water = 10 C\nroom = 20 C\nhumidity = 50 %\n");
    finish_stock(made);
    start_bare(made);
    set(made, "plan/region", "open");
    assert_int_equal(tc_study_make(&made->study, &made->stock, &made->plan, today, &made->faults), TC_SYNTAX);
    assert_faults(&made->faults, "[plan ] region: 'open' is a template that is not filled in; it still needs "
                                 "water\n");
    set(made, "region/water", "2 / m3");
    set(made, "plan/regions", "all");
    assert_int_equal(make_places(made), TC_OK);
    assert_money(made, "To buy", "small", "open", 10000, "USD");
}

/* --------------------------------------------------------------- stopping, memory, print */

static bool stop_at_half(void *context, double done)
{
    int *asked = context;
    (*asked)++;
    assert_true(done >= 0 && done < 1);
    return done < 0.5;
}

static void can_be_stopped(void **state)
{
    struct made *made = *state;
    int asked = 0;
    add_text(made, BARE);
    finish_stock(made);
    start_bare(made);
    made->ask.go_on = stop_at_half;
    made->ask.context = &asked;
    assert_int_equal(make_places(made), TC_STOPPED);
    assert_int_equal(asked, 3);
}

static void out_of_memory(void **state)
{
    struct made *made = *state;
    add_text(made, BARE "[region open]\ntemplate = yes\ncurrency = ZAR\nelectricity = 3 / kWh\n"
                        "[region rand]\n"
                        "currency = ZAR\nelectricity = 2 / kWh\nwater = 10 / m3\nroom = 20 C\n");
    finish_stock(made);
    start_bare(made);
    set(made, "plan/regions", "uptown kobo sands rand open");
    made->ask.money = "SEK"; /* notes of every kind */
    assert_int_equal(make_places(made), TC_OK);
    for (int lasting = 0; lasting < 2; lasting++) {
        for (long n = 0;; n++) {
            struct tc_sheet sheet;
            failing_malloc_start(n, lasting);
            enum tc_status status = tc_make_places(&made->study, &made->ask, &sheet);
            bool failed = failing_malloc_stop();
            if (!failed) {
                assert_int_equal(status, TC_OK);
                tc_sheet_free(&sheet);
                break;
            }
            assert_int_equal(status, TC_NO_MEMORY);
            tc_sheet_free(&sheet);
        }
    }
}

/* The demo: UPDATE_GOLDEN=1 after its profiles were changed, and read what comes out. */
static void demo_as_text(void **state)
{
    struct made *made = *state;
    struct tc_text text = TC_TEXT_EMPTY;
    const struct tc_print_options options = {.width = 80};
    stock_add_folder(&made->stock, "profiles");
    finish_stock(made);
    made->plan = *tc_stock_plan(&made->stock, "three-places");
    assert_int_equal(make_places(made), TC_OK);
    assert_int_equal(tc_print(&text, &made->sheet, TC_PRINT_TEXT, &options), TC_OK);
    assert_golden("sheet/places-three-places.txt", tc_text_string(&text));
    tc_text_free(&text);
}

/* common practice, no source: a sentence says once for what a tank is too small. */
static void test_a_note_says_once_for_what(void **state)
{
    (void)state;
    for (int i = 0; i < TC_NEED_COUNT; i++) {
        enum tc_need need = (enum tc_need)i;
        const char *words = tc_need_word(need), *whose = tc_need_for(need);
        bool said = strstr(words, " for ") || need == TC_NEED_REACH;
        assert_string_equal(whose, said ? "" : " for the animals");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_note_says_once_for_what),
        cmocka_unit_test_setup_teardown(same_as_bills_of_the_regions, setup, teardown),
        cmocka_unit_test_setup_teardown(what_is_typed_stays_in_its_region, setup, teardown),
        cmocka_unit_test_setup_teardown(amounts_by_hand, setup, teardown),
        cmocka_unit_test_setup_teardown(rates_with_their_dates, setup, teardown),
        cmocka_unit_test_setup_teardown(winner_changes_and_why, setup, teardown),
        cmocka_unit_test_setup_teardown(own_region_left_out, setup, teardown),
        cmocka_unit_test_setup_teardown(equal_costs_share_the_win, setup, teardown),
        cmocka_unit_test(names_the_line_that_moves_most),
        cmocka_unit_test_setup_teardown(missing_prices_are_told, setup, teardown),
        cmocka_unit_test_setup_teardown(slots_without_price_or_part, setup, teardown),
        cmocka_unit_test_setup_teardown(missing_rates_are_told, setup, teardown),
        cmocka_unit_test_setup_teardown(unknown_names_are_refused, setup, teardown),
        cmocka_unit_test_setup_teardown(troubles_of_a_region_are_told, setup, teardown),
        cmocka_unit_test_setup_teardown(all_regions_but_open_templates, setup, teardown),
        cmocka_unit_test_setup_teardown(typed_over_template, setup, teardown),
        cmocka_unit_test_setup_teardown(can_be_stopped, setup, teardown),
        cmocka_unit_test_setup_teardown(out_of_memory, setup, teardown),
        cmocka_unit_test_setup_teardown(demo_as_text, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
