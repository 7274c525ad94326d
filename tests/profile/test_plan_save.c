/* SPDX-License-Identifier: MIT */
/* Plans saved: as a person would have written them, and the same when read again. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/base/random.h"
#include "profile/kind.h"
#include "profile/plan_save.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "support/draw.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/step.h"
#include "support/stock_text.h"

#define PROFILES "tests/data/profiles"

/* A folder of its own for each test, and the stock of the test profiles. */
struct desk {
    char folder[32];
    char path[64];
    struct tc_stock stock;
    struct tc_faults faults;
    struct tc_plan plan;
};

static int setup(void **state)
{
    struct desk *desk = calloc(1, sizeof *desk);
    assert_non_null(desk);
    memcpy(desk->folder, "/tmp/tankcost-test-XXXXXX", 26);
    assert_non_null(mkdtemp(desk->folder));
    snprintf(desk->path, sizeof desk->path, "%s/plan.ini", desk->folder);
    tc_stock_start(&desk->stock);
    stock_add_folder(&desk->stock, PROFILES);
    assert_int_equal(tc_stock_finish(&desk->stock, &desk->faults), TC_OK);
    memcpy(&desk->plan, tc_stock_plan(&desk->stock, "spring"), sizeof desk->plan);
    *state = desk;
    return 0;
}

static int teardown(void **state)
{
    struct desk *desk = *state;
    unlink(desk->path);
    rmdir(desk->folder);
    tc_stock_free(&desk->stock);
    tc_faults_free(&desk->faults);
    free(desk);
    return 0;
}

static void set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE] = "";
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

static void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0 && fclose(file) == 0);
}

static void expect_file(const char *path, const char *wanted)
{
    char text[4096];
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, wanted);
}

/* Writes the plan, reads it over the stock again, and compares. */
static void write_and_read(struct desk *desk, const struct tc_plan *plan)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char *text = tc_plan_write(plan);
    assert_non_null(text);
    tc_stock_start(&stock);
    stock_add_folder(&stock, PROFILES);
    assert_int_equal(tc_stock_read_bytes(&stock, desk->path, text, strlen(text), &faults), TC_OK);
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    if (tc_faults_errors(&faults) > 0) { /* notes are of amounts with many decimals */
        print_error("%s", text);
        assert_faults(&faults, "");
    }
    const struct tc_plan *back = tc_stock_plan_of(&stock, desk->path);
    assert_non_null(back);
    if (!tc_plan_equal(plan, back)) {
        char *again = tc_plan_write(back);
        print_error("%s\ncame back as\n%s", text, again);
        free(again);
        fail();
    }
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    free(text);
}

static void a_plan_looks_written_by_hand(void **state)
{
    struct desk *desk = *state;
    struct tc_plan plan;
    tc_plan_start(&plan);
    memcpy(plan.name, "den", 4);
    set(&plan, "plan/setup", "planted");
    set(&plan, "plan/region", "highfell");
    set(&plan, "plan/title", "The den; north wall");
    set(&plan, "plan/units", "us");
    tc_plan_add(&plan, "29-high");
    tc_plan_add(&plan, "40-breeder");
    set(&plan, "candidate 2/price", "99.5");
    set(&plan, "candidate 2/filter", "canister-l");
    set(&plan, "candidate 2/filter-price", "60 to 80");
    set(&plan, "region/room", "19 C");
    set(&plan, "setup/light-hours", "9:30");
    set(&plan, "wall/length", "12 ft");
    char *text = tc_plan_write(&plan);
    assert_string_equal(text,
                        "# A plan of tankcost. What is not written here is as in tankcost-profiles(5).\n"
                        "\n"
                        "[plan den]\n"
                        "title  = \"The den; north wall\"\n"
                        "setup  = planted\n"
                        "region = highfell\n"
                        "units  = us\n"
                        "\n"
                        "[candidate 1]\n"
                        "tank = 29-high\n"
                        "\n"
                        "[candidate 2]\n"
                        "tank         = 40-breeder\n"
                        "price        = 99.50\n"
                        "filter       = canister-l\n"
                        "filter-price = 60 to 80\n"
                        "\n"
                        "[assume setup]\n"
                        "light-hours = 9:30\n"
                        "\n"
                        "[assume region]\n"
                        "room = 19 C\n"
                        "\n"
                        "[wall]\n"
                        "length = 12 ft\n");
    free(text);
    write_and_read(desk, &plan);
    write_and_read(desk, &desk->plan);
}

/* The region of a plan can be changed: amounts typed before must not make it unreadable. */
static void amounts_outlive_their_currency(void **state)
{
    struct desk *desk = *state;
    struct tc_plan plan;
    tc_plan_start(&plan);
    memcpy(plan.name, "den", 4);
    set(&plan, "plan/setup", "planted");
    set(&plan, "plan/region", "lowmere");
    tc_plan_add(&plan, "29-high");
    set(&plan, "candidate 1/price", "45.1250");
    set(&plan, "shop lowmere/delivery", "35.1250");
    write_and_read(desk, &plan);
    struct tc_shop shop = *tc_stock_shop(&desk->stock, "lowmere");
    struct tc_currency currency = tc_stock_region(&desk->stock, "lowmere")->currency;
    char problem[TC_PROBLEM_SIZE];
    assert_true(tc_plan_assume_shop(&plan, &shop, currency, problem));
    assert_near(shop.delivery, 35.125, 0);
    /* But an amount that says its currency is for no other. */
    memcpy(plan.override[0].value, "35 EUR", 7);
    assert_false(tc_plan_assume_shop(&plan, &shop, currency, problem));
    assert_string_equal(problem, "shop lowmere/delivery: '35 EUR' is in EUR, but amounts here are in USD");
}

/* ------------------------------------------------------------------- random plans */

static const char *pick(struct tc_random *random, const char *const *words, uint32_t count)
{
    return words[draw_index(random, count)];
}

/* A figure within the key's bounds, in some unit, perhaps a range. */
static void random_figure(struct tc_random *random, const struct tc_key *key, char *text, size_t size)
{
    struct tc_quantity_form form = {.dimension = key->dimension, .money = key->form == TC_KEY_RATE};
    size_t count;
    const struct tc_unit *units = tc_unit_table(&count), *unit = NULL;
    if (key->dimension != TC_DIM_PLAIN) {
        do
            unit = &units[draw_index(random, (uint32_t)count)];
        while (unit->dimension != key->dimension);
    }
    double figures[2];
    for (int i = 0; i < 2; i++) {
        double share = tc_random_unit(random), span = fmin(key->greatest - key->least, 1000);
        double value = key->least + share * share * span;
        if (key->step > 0 || key->form == TC_KEY_COUNT)
            value = ceil(value);
        figures[i] = tc_quantity_from_base(&form, unit, value);
    }
    char low[TC_NUMBER_SIZE], high[TC_NUMBER_SIZE];
    int decimals = key->form == TC_KEY_COUNT || key->step > 0 ? 0 : (int)draw_index(random, 4);
    tc_number_write(low, fmin(figures[0], figures[1]), decimals, false);
    tc_number_write(high, fmax(figures[0], figures[1]), decimals, false);
    const char *between = form.money ? " / " : " ", *name = unit ? unit->name : "";
    if (draw_index(random, 4) == 0 && !key->fixed && key->step == 0 && key->form != TC_KEY_COUNT)
        snprintf(text, size, "%s to %s%s%s", low, high, unit ? between : "", name);
    else
        snprintf(text, size, "%s%s%s", low, unit ? between : "", name);
}

static const char *random_name(struct tc_random *random, const char *key)
{
    static const char *const tanks[] = {"29-high", "40-breeder", "240-metric"};
    static const char *const setups[] = {"planted", "shrimp-shelf"};
    static const char *const sales[] = {"list", "best", "order", "lowmere-spring", "lowmere-gallon"};
    static const struct {
        const char *slot, *parts[4];
    } parts[] = {
        {"stand", {"any", "none", "pine-30x12", "steel-36x18"}},
        {"lid", {"any", "none", "glass-30x12", "glass-18x18"}},
        {"light", {"none", "strip-90", "tube-75", "bar-120"}},
        {"filter", {"none", "sponge-m", "hang-on-l", "canister-l"}},
        {"air-pump", {"any", "none", "air-150", "air-150"}},
        {"heater", {"any", "none", "heat-100", "heat-200"}},
        {"substrate", {"any", "none", "sand-10", "sand-10"}},
    };
    if (strcmp(key, "tank") == 0)
        return pick(random, tanks, 3);
    if (strcmp(key, "setup") == 0)
        return pick(random, setups, 2);
    if (strcmp(key, "sale") == 0)
        return pick(random, sales, 5);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strcmp(parts[i].slot, key) == 0)
            return pick(random, parts[i].parts, 4);
    return strcmp(key, "electricity-tariff") == 0 ? "highfell-power"
           : strcmp(key, "water-tariff") == 0     ? "highfell-water"
                                                  : "lowmere";
}

static void random_value(struct tc_random *random, const struct tc_key *key, char *text, size_t size)
{
    static const char *const titles[] = {"A tank", "the #4; shelf", "12\" deep", "it's",  " padded ", "=",
                                         "Größe",  "\"quoted\"",    "'half",     "a # b", "[x]",      ";"};
    if (key->form == TC_KEY_TEXT)
        snprintf(text, size, "%s", pick(random, titles, sizeof titles / sizeof titles[0]));
    else if (key->form == TC_KEY_NAME)
        snprintf(text, size, "%s", random_name(random, key->name));
    else if (key->form == TC_KEY_QUANTITY || key->form == TC_KEY_MONEY || key->form == TC_KEY_RATE ||
             key->form == TC_KEY_COUNT || key->form == TC_KEY_MONTHS)
        random_figure(random, key, text, size);
    else
        snprintf(text, size, "%s",
                 strcmp(key->name, "regions") == 0  ? "highfell lowmere"
                 : strcmp(key->name, "extras") == 0 ? "none"
                                                    : key->example);
    if (key->word && draw_index(random, 5) == 0)
        snprintf(text, size, "%s", key->word[0].name);
}

/* Types over some keys of a group of the plan. Returns how many were taken. */
static int type_over(struct tc_random *random, struct tc_plan *plan, const char *group, const char *kind,
                     uint32_t one_in)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    int taken = 0;
    for (size_t k = 0; k < table->count; k++) {
        char path[2 * TC_NAME_SIZE], text[TC_VALUE_SIZE], problem[TC_PROBLEM_SIZE];
        if (draw_index(random, one_in) != 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", group, table->keys[k].name);
        random_value(random, &table->keys[k], text, sizeof text);
        taken += tc_plan_set(plan, path, text, problem);
    }
    return taken;
}

/* Assumptions that do not go with the setup or region are taken back. */
static void assume_what_fits(struct desk *desk, struct tc_random *random, struct tc_plan *plan)
{
    struct tc_plan before;
    char problem[TC_PROBLEM_SIZE];
    memcpy(&before, plan, sizeof before);
    type_over(random, plan, "setup", "setup", 4);
    type_over(random, plan, "region", "region", 4);
    struct tc_setup setup = *tc_stock_setup(&desk->stock, plan->setup);
    struct tc_region region = *tc_stock_region(&desk->stock, plan->region);
    struct tc_tariffs tariffs;
    if (!tc_plan_assume_setup(plan, &setup, problem) || !tc_plan_assume_region(plan, &region, problem) ||
        !tc_stock_tariffs(&desk->stock, &region, &tariffs, problem))
        memcpy(plan, &before, sizeof before);
}

static void any_plan_reads_back(void **state)
{
    struct desk *desk = *state;
    struct tc_random random;
    int taken = 0, ranges = 0, assumed = 0;
    tc_random_seed(&random, 20260314, 1);
    for (int round = 0; round < 400; round += test_step()) {
        struct tc_plan plan;
        tc_plan_start(&plan);
        memcpy(plan.name, "random", 7);
        taken += type_over(&random, &plan, "plan", "plan", 2);
        set(&plan, "plan/setup", random_name(&random, "setup"));
        set(&plan, "plan/region", "lowmere");
        for (uint32_t i = draw_index(&random, 5); i > 0; i--) {
            char group[32];
            tc_plan_add(&plan, random_name(&random, "tank"));
            snprintf(group, sizeof group, "candidate %d", plan.candidate_count);
            taken += type_over(&random, &plan, group, "candidate", 3);
        }
        taken += type_over(&random, &plan, "wall", "wall", 3);
        taken += type_over(&random, &plan, "space", "space", 2);
        assume_what_fits(desk, &random, &plan);
        ranges += plan.range_count;
        assumed += plan.override_count;
        write_and_read(desk, &plan);
    }
    /* The plans were not empty. */
    assert_true(test_step() > 1 || (taken > 4000 && ranges > 400 && assumed > 400));
}

/* -------------------------------------------------------------------------- files */

static void a_saved_plan_is_read_as_it_was(void **state)
{
    struct desk *desk = *state;
    struct tc_stock stock;
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &desk->faults), TC_OK);
    tc_stock_start(&stock);
    stock_add_folder(&stock, PROFILES);
    assert_int_equal(tc_stock_read_file(&stock, desk->path, &desk->faults), TC_OK);
    assert_int_equal(tc_stock_finish(&stock, &desk->faults), TC_OK);
    assert_faults(&desk->faults, "");
    assert_true(tc_plan_equal(tc_stock_plan_of(&stock, desk->path), &desk->plan));
    assert_int_equal(stock.plan_count, 1); /* the file's took the place of the other of its name */
    tc_stock_free(&stock);
}

static void the_comments_of_a_file_are_kept(void **state)
{
    struct desk *desk = *state;
    struct tc_plan plan;
    tc_plan_start(&plan);
    memcpy(plan.name, "den", 4);
    set(&plan, "plan/setup", "planted");
    set(&plan, "plan/region", "highfell");
    static const char body[] = "[plan den]\nsetup  = planted\nregion = highfell\n";
    static const char *const heads[] = {
        "# Mine.\n; since spring\n\n  # and still\n\n",
        "\n",
        "# one line, which is longer than what is read at once: "
        "----------------------------------------------------------------------------------------------------"
        "----"
        "----------------------------------------------------------------------------------------------------"
        "----\n",
    };
    static const char commented[] = "[plan den]  # the old one\nsetup  = planted  # dear\nregion = highfell\n"
                                    "# the end\n";
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        char old[2048], wanted[2048];
        snprintf(old, sizeof old, "%s[plan den] # the old one\nsetup = x # dear\n# the end\n", heads[i]);
        snprintf(wanted, sizeof wanted, "%s%s", heads[i], commented);
        write_file(desk->path, old);
        assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_OK);
        expect_file(desk->path, wanted);
    }
    /* A comment may be longer than a line that says something. */
    struct tc_text old = TC_TEXT_EMPTY;
    tc_text_add(&old, "# ");
    tc_text_add_repeated(&old, "long ", 600);
    write_file(desk->path, tc_text_string(&old)); /* no newline at its end either */
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_OK);
    tc_text_addf(&old, "\n%s", body);
    expect_file(desk->path, tc_text_string(&old));
    tc_text_free(&old);
    assert_faults(&desk->faults, "");
}

static void what_would_be_lost_is_not_overwritten(void **state)
{
    struct desk *desk = *state;
    static const char mixed[] = "[tank mine]\nlength = 3 in\n[plan den]\nsetup = x\n";
    write_file(desk->path, mixed);
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &desk->faults), TC_SYNTAX);
    expect_file(desk->path, mixed);
    assert_faults(&desk->faults,
                  "plan.ini:1: not saved: the file holds '[tank mine]' beside a plan, which would be "
                  "lost; choose another name\n");
    tc_faults_free(&desk->faults);
    FILE *file = fopen(desk->path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite("\xFF\xFE[\0", 1, 4, file), 4);
    fclose(file);
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &desk->faults), TC_SYNTAX);
    assert_faults(&desk->faults,
                  "plan.ini: not saved: the file that is there is no profile and would be lost\n");
}

/* What stands before the first section belongs to none, is a fault, and stays all the same. */
static void a_stray_key_is_kept(void **state)
{
    struct desk *desk = *state;
    char *fresh = tc_plan_write(&desk->plan);
    struct tc_text old = TC_TEXT_EMPTY, saved = TC_TEXT_EMPTY;
    const char *sections = strchr(fresh, '[');
    assert_non_null(sections);
    tc_text_addf(&old, "# head\ntitle = Mine\n# my own reasons\n%s", sections);
    FILE *file = fopen(desk->path, "w");
    assert_non_null(file);
    fputs(tc_text_string(&old), file);
    fclose(file);
    set(&desk->plan, "plan/years", "7 years");
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &desk->faults), TC_OK);
    free(fresh);
    fresh = tc_plan_write(&desk->plan);
    tc_text_addf(&saved, "# head\ntitle = Mine\n# my own reasons\n%s", strchr(fresh, '['));
    expect_file(desk->path, tc_text_string(&saved));
    tc_text_free(&old);
    tc_text_free(&saved);
    free(fresh);
}

static void half_a_plan_is_not_saved(void **state)
{
    struct desk *desk = *state;
    struct tc_plan plan;
    memcpy(&plan, &desk->plan, sizeof plan);
    memset(plan.name, 0, sizeof plan.name);
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_SYNTAX);
    memcpy(plan.name, "best", 5);
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_SYNTAX);
    memcpy(&plan, &desk->plan, sizeof plan);
    plan.setup[0] = '\0';
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_SYNTAX);
    memcpy(&plan, &desk->plan, sizeof plan);
    plan.region[0] = '\0';
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_SYNTAX);
    memcpy(&plan, &desk->plan, sizeof plan);
    tc_plan_add(&plan, "");
    assert_int_equal(tc_plan_save(&plan, desk->path, &desk->faults), TC_SYNTAX);
    assert_faults(&desk->faults, "plan.ini: not saved: the plan needs a name of its own\n"
                                 "plan.ini: not saved: the plan needs a name of its own\n"
                                 "plan.ini: not saved: the plan needs a setup\n"
                                 "plan.ini: not saved: the plan needs a region\n"
                                 "plan.ini: not saved: candidate 4 needs a tank\n");
    assert_int_equal(access(desk->path, F_OK), -1);
}

static void what_cannot_be_written_is_said(void **state)
{
    struct desk *desk = *state;
    char path[96];
    snprintf(path, sizeof path, "%s/nowhere/plan.ini", desk->folder);
    assert_int_equal(tc_plan_save(&desk->plan, path, &desk->faults), TC_IO);
    assert_int_equal(tc_plan_save(&desk->plan, desk->folder, &desk->faults), TC_IO);
    assert_int_equal(tc_faults_count(&desk->faults), 2);
    /* A pipe is written to, not waited for. */
    assert_int_equal(mkfifo(desk->path, 0600), 0);
    int end = open(desk->path, O_RDWR);
    assert_true(end >= 0);
    tc_faults_free(&desk->faults);
    enum tc_status status = tc_plan_save(&desk->plan, desk->path, &desk->faults);
    close(end);
    assert_int_equal(status, TC_OK);
}

static void each_allocation_may_fail(void **state)
{
    struct desk *desk = *state;
    long n = 0;
    for (;; n++) {
        failing_malloc_start(n, n % 2 == 1);
        char *text = tc_plan_write(&desk->plan);
        bool failed = failing_malloc_stop();
        assert_int_equal(text == NULL, failed);
        free(text);
        if (!failed)
            break;
    }
    assert_true(n > 2);
    static const char old[] = "# kept\n[plan spring]\nsetup = x\n";
    struct tc_text saved = TC_TEXT_EMPTY;
    char *body = tc_plan_write(&desk->plan);
    tc_text_addf(&saved, "# kept\n%s", strstr(body, "[plan"));
    for (n = 0;; n++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        write_file(desk->path, old);
        failing_malloc_start(n, n % 2 == 1);
        enum tc_status status = tc_plan_save(&desk->plan, desk->path, &faults);
        bool failed = failing_malloc_stop();
        size_t errors = tc_faults_errors(&faults);
        tc_faults_free(&faults);
        /* Saved or not, and said so: never in between. (Syncing the folder can fail behind it, see save.c.)
         */
        expect_file(desk->path, status == TC_OK ? tc_text_string(&saved) : old);
        assert_int_equal(status == TC_OK, errors == 0);
        if (!failed)
            break;
    }
    tc_text_free(&saved);
    free(body);
    assert_true(n > 5);
}

/* What cannot be read may hold anything: it is not replaced, whoever may write there. */
static void what_cannot_be_read_is_not_replaced(void **state)
{
    struct desk *desk = *state;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    static const char precious[] = "[tank precious]\nlength = 30 in\n";
    bool root = geteuid() == 0;
    write_file(desk->path, precious);
    if (root) { /* nothing is unreadable to root */
        assert_int_equal(chown(desk->path, 65534, 65534), 0);
        assert_int_equal(chmod(desk->folder, 0777), 0);
    }
    assert_int_equal(chmod(desk->path, 0200), 0);
    assert_true(!root || seteuid(65534) == 0);
    enum tc_status status = tc_plan_save(&desk->plan, desk->path, &faults);
    assert_true(!root || seteuid(0) == 0);
    assert_int_equal(chmod(desk->path, 0600), 0);
    expect_file(desk->path, precious);
    assert_int_equal(status, TC_IO);
    assert_non_null(strstr(tc_faults_at(&faults, 0)->text, "could not be read"));
    tc_faults_free(&faults);
}

/* A key before the first section belongs nowhere; it is the user's all the same. */
static void what_stands_before_the_first_section_stays(void **state)
{
    struct desk *desk = *state;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char text[4096];
    static const char head[] = "# head\ntitle = Mine\n# my own reasons\n";
    write_file(desk->path, head);
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &faults), TC_OK);
    assert_int_equal(tc_plan_save(&desk->plan, desk->path, &faults), TC_OK);
    FILE *file = fopen(desk->path, "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_memory_equal(text, head, strlen(head));
    assert_null(strstr(text + strlen(head), "title = Mine"));
    tc_faults_free(&faults);
}

int main(void)
{
#define DESK_TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
    const struct CMUnitTest tests[] = {
        DESK_TEST(a_plan_looks_written_by_hand),
        DESK_TEST(amounts_outlive_their_currency),
        DESK_TEST(any_plan_reads_back),
        DESK_TEST(a_saved_plan_is_read_as_it_was),
        DESK_TEST(the_comments_of_a_file_are_kept),
        DESK_TEST(what_would_be_lost_is_not_overwritten),
        DESK_TEST(a_stray_key_is_kept),
        DESK_TEST(half_a_plan_is_not_saved),
        DESK_TEST(what_cannot_be_written_is_said),
        DESK_TEST(what_cannot_be_read_is_not_replaced),
        DESK_TEST(what_stands_before_the_first_section_stays),
        DESK_TEST(each_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
