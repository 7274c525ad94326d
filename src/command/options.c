/* SPDX-License-Identifier: MIT */
#include "command/options.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "core/base/number.h"

static const char help_text[] =
    "tankcost: which fish tank to buy, by what each costs to own\n"
    "\n"
    "    tankcost [PLAN]                 the screen; the bill where output is no terminal\n"
    "    tankcost SHEET [PLAN] [options] print one sheet\n"
    "    tankcost report [PLAN] [options] the sheets that matter for the plan, on one page\n"
    "    tankcost explain SHEET [PLAN] [FIGURE]  where a figure comes from, or all of them\n"
    "    tankcost stock [KIND]           list what the profiles hold, and what shops ask\n"
    "    tankcost check [FILE...]        check profiles and report every fault\n"
    "    tankcost new KIND NAME [KEY=VALUE...]   a section of your own, all its keys explained\n"
    "    tankcost prices SHOP FILE.csv   a shop's prices from a spreadsheet; --yes writes them\n"
    "\n"
    "A PLAN is the name of a saved comparison, or its file. Sheets:\n"
    "\n";

static const char option_text[] =
    "\n"
    "    --tank NAME[=PRICE]   compare this tank, at this price each; repeat for more\n"
    "    --setup NAME          how the tanks are equipped\n"
    "    --region NAME         prices, taxes, tariffs, climate; repeat for places\n"
    "    --sale WAY            list, best, order (special order) or the name of a sale\n"
    "    --years N             study period\n"
    "    --set PATH=VALUE      change a figure: region/room=20C, candidate 2/quantity=4\n"
    "    --units us|metric     how sizes are written\n"
    "    --vary NAME=FROM..TO  what whatif varies, as --set names it\n"
    "    --money CODE          the currency places are compared in\n"
    "    --all                 shortlist: every tank, also those left out; explain: to the leaves\n"
    "    --walls               bill and years: compare the plan's walls, not its tanks\n"
    "    --why                 fit: say why each part was chosen or refused\n"
    "    --today YYYY-MM-DD    the day sales are judged by\n"
    "    --seed N, --draws N, --threads N   of the random draws of doubts\n"
    "\n"
    "    --format FORMAT       text, csv, markdown, json or html\n"
    "    --output FILE         write there, whole or not at all; - is standard output\n"
    "    --width N             columns of printed text\n"
    "    --color WHEN          auto, always or never; NO_COLOR is honored\n"
    "    --profiles DIR        read these profiles over the installed ones and your own\n"
    "    --help, --version\n"
    "\n"
    "Exit status: 0 done, 1 the input has faults, 2 wrong usage, 3 the machine failed.\n"
    "tankcost(1) explains, tankcost-profiles(5) the profiles, tankcost-model(7) the sums.\n";

void tc_options_help(void)
{
    fputs(help_text, stdout);
    const struct tc_question *question;
    for (size_t i = 0; (question = tc_question_at(i)) != NULL; i++)
        printf("    %-9s  %s\n", question->name, question->asks);
    fputs(option_text, stdout);
}

/* What was typed is said again up to this length. */
enum { MOST_SAID = 512 };

enum tc_exit tc_usage_error(const char *format, const char *what, const char *nearest)
{
    char clean[MOST_SAID];
    tc_clean(clean, sizeof clean, what ? what : "");
    fputs("tankcost: ", stderr);
    fprintf(stderr, format, clean);
    if (nearest)
        fprintf(stderr, "; did you mean '%s'?", nearest);
    fputs("\nTry 'tankcost --help'.\n", stderr);
    return TC_EXIT_USAGE;
}

/* Within what a study of ranges draws at most, so that as many are drawn as were asked for. */
enum { MOST_DRAWS = 10000000 };

enum option_code {
    OPTION_TANK = 256,
    OPTION_SETUP,
    OPTION_REGION,
    OPTION_YEARS,
    OPTION_SALE,
    OPTION_SET,
    OPTION_UNITS,
    OPTION_VARY,
    OPTION_MONEY,
    OPTION_ALL,
    OPTION_WALLS,
    OPTION_WHY,
    OPTION_YES,
    OPTION_TODAY,
    OPTION_SEED,
    OPTION_DRAWS,
    OPTION_THREADS,
    OPTION_FORMAT,
    OPTION_OUTPUT,
    OPTION_WIDTH,
    OPTION_COLOR,
    OPTION_PROFILES,
    OPTION_HELP,
    OPTION_VERSION
};

static const struct option known[] = {
    {"tank", required_argument, NULL, OPTION_TANK},
    {"setup", required_argument, NULL, OPTION_SETUP},
    {"region", required_argument, NULL, OPTION_REGION},
    {"years", required_argument, NULL, OPTION_YEARS},
    {"sale", required_argument, NULL, OPTION_SALE},
    {"set", required_argument, NULL, OPTION_SET},
    {"units", required_argument, NULL, OPTION_UNITS},
    {"vary", required_argument, NULL, OPTION_VARY},
    {"money", required_argument, NULL, OPTION_MONEY},
    {"all", no_argument, NULL, OPTION_ALL},
    {"walls", no_argument, NULL, OPTION_WALLS},
    {"why", no_argument, NULL, OPTION_WHY},
    {"yes", no_argument, NULL, OPTION_YES},
    {"today", required_argument, NULL, OPTION_TODAY},
    {"seed", required_argument, NULL, OPTION_SEED},
    {"draws", required_argument, NULL, OPTION_DRAWS},
    {"threads", required_argument, NULL, OPTION_THREADS},
    {"format", required_argument, NULL, OPTION_FORMAT},
    {"output", required_argument, NULL, OPTION_OUTPUT},
    {"width", required_argument, NULL, OPTION_WIDTH},
    {"color", required_argument, NULL, OPTION_COLOR},
    {"profiles", required_argument, NULL, OPTION_PROFILES},
    {"help", no_argument, NULL, OPTION_HELP},
    {"version", no_argument, NULL, OPTION_VERSION},
    {NULL, 0, NULL, 0},
};

/* Reads a whole number from..to. */
static bool read_whole(const char *text, int from, int to, int *value)
{
    const char *end;
    return tc_number_read_count(text, &end, value) == TC_OK && *end == '\0' && *value >= from && *value <= to;
}

static enum tc_exit type_over(struct tc_options *options, const char *path, const char *text)
{
    if (options->typed_count == TC_TYPED_MAX)
        return tc_usage_error("too many figures changed, at '%s'", path, NULL);
    options->typed[options->typed_count].path = path;
    options->typed[options->typed_count].text = text;
    options->typed_count++;
    return TC_EXIT_DONE;
}

/* Names do not mind their case; files do, and values have forms of their own. */
static void lower_name(char *name)
{
    for (; *name && *name != '='; name++)
        *name = tc_name_lower(*name);
}

/* "PATH=VALUE" cut in two where it stands. */
static enum tc_exit type_pair(struct tc_options *options, char *argument)
{
    char *equals = strchr(argument, '=');
    if (!equals)
        return tc_usage_error("--set wants PATH=VALUE, not '%s'", argument, NULL);
    lower_name(argument);
    *equals = '\0';
    return type_over(options, argument, equals + 1);
}

/* "12" years, or as a profile has it, "12 years". */
static enum tc_exit read_years(struct tc_options *options, const char *text)
{
    int years;
    if (!read_whole(text, 0, 999, &years))
        return type_over(options, "plan/years", text);
    snprintf(options->years, sizeof options->years, "%d years", years);
    return type_over(options, "plan/years", options->years);
}

static enum tc_exit read_format(struct tc_options *options, const char *name)
{
    const char *names[8];
    size_t count = 0;
    if (tc_print_format_find(name, &options->format)) {
        options->format_given = true;
        return TC_EXIT_DONE;
    }
    while (count < 8 && tc_print_format_name(count)) {
        names[count] = tc_print_format_name(count);
        count++;
    }
    return tc_usage_error("no format '%s'", name, tc_name_nearest_of(name, names, count));
}

/* A file to write to; "-" is standard output, to which no screen is drawn then. */
static enum tc_exit read_output(struct tc_options *options, const char *path)
{
    size_t length = strlen(path);
    if (length >= 4 && tc_name_equal(path + length - 4, ".ini"))
        return tc_usage_error(
            "--output replaces no profile; write to a .txt, .csv, .md, .json or .html, not '%s'", path, NULL);
    options->prints = strcmp(path, "-") == 0;
    options->output = options->prints ? NULL : path;
    return TC_EXIT_DONE;
}

static enum tc_exit read_date(struct tc_options *options, const char *text)
{
    const char *end;
    if (tc_date_read(text, &end, &options->today) == TC_OK && *end == '\0')
        return TC_EXIT_DONE;
    return tc_usage_error("--today wants a date such as 2026-03-01, not '%s'", text, NULL);
}

static enum tc_exit read_number(struct tc_options *options, int option, const char *text)
{
    int value;
    switch (option) {
    case OPTION_SEED:
        if (!read_whole(text, 0, 999999999, &value))
            return tc_usage_error("--seed wants a whole number of at most 9 digits, not '%s'", text, NULL);
        options->ask.seed = (uint64_t)value;
        return TC_EXIT_DONE;
    case OPTION_DRAWS:
        if (!read_whole(text, 100, MOST_DRAWS, &value))
            return tc_usage_error("--draws wants a whole number from 100 to 10000000, not '%s'", text, NULL);
        options->ask.draws = value;
        return TC_EXIT_DONE;
    case OPTION_THREADS:
        if (!read_whole(text, 1, 256, &value))
            return tc_usage_error("--threads wants a whole number from 1 to 256, not '%s'", text, NULL);
        options->ask.threads = value;
        return TC_EXIT_DONE;
    default:
        if (!read_whole(text, TC_WIDTH_LEAST, TC_WIDTH_MOST, &value))
            return tc_usage_error("--width wants a whole number from 40 to 1000, not '%s'", text, NULL);
        options->width = value;
        return TC_EXIT_DONE;
    }
}

static enum tc_exit add_name(const char **names, int *count, int most, const char *name, const char *what)
{
    if (*count == most)
        return tc_usage_error("too many of them: %s", what, NULL);
    names[(*count)++] = name;
    return TC_EXIT_DONE;
}

static enum tc_exit read_option(struct tc_options *options, int option, char *argument)
{
    switch (option) {
    case OPTION_TANK:
        lower_name(argument);
        return add_name(options->tanks, &options->tank_count, TC_CANDIDATES_MAX, argument, "--tank");
    case OPTION_REGION:
        return add_name(options->regions, &options->region_count, TC_PLAN_REGIONS_MAX, argument, "--region");
    case OPTION_SETUP: return type_over(options, "plan/setup", argument);
    case OPTION_YEARS: return read_years(options, argument);
    case OPTION_SALE: return type_over(options, "plan/sale", argument);
    case OPTION_UNITS: return type_over(options, "plan/units", argument);
    case OPTION_SET: return type_pair(options, argument);
    case OPTION_VARY: options->ask.vary = argument; return TC_EXIT_DONE;
    case OPTION_WHY: options->ask.why = true; return TC_EXIT_DONE;
    case OPTION_ALL: options->ask.all = true; return TC_EXIT_DONE;
    case OPTION_YES: options->yes = true; return TC_EXIT_DONE;
    case OPTION_WALLS: options->ask.walls = true; return TC_EXIT_DONE;
    case OPTION_MONEY: options->ask.money = argument; return TC_EXIT_DONE;
    case OPTION_TODAY: return read_date(options, argument);
    case OPTION_FORMAT: return read_format(options, argument);
    case OPTION_OUTPUT: return read_output(options, argument);
    case OPTION_PROFILES: options->profiles = argument; return TC_EXIT_DONE;
    case OPTION_HELP: options->help = true; return TC_EXIT_DONE;
    case OPTION_VERSION: options->version = true; return TC_EXIT_DONE;
    case OPTION_COLOR:
        lower_name(argument);
        if (strcmp(argument, "auto") != 0 && strcmp(argument, "always") != 0 &&
            strcmp(argument, "never") != 0)
            return tc_usage_error("--color wants auto, always or never, not '%s'", argument, NULL);
        options->color = argument;
        return TC_EXIT_DONE;
    default: return read_number(options, option, argument);
    }
}

static bool is_file(const char *word)
{
    size_t length = strlen(word);
    return strchr(word, '/') || (length > 4 && strcmp(word + length - 4, ".ini") == 0);
}

/* A long option that is not known, begins several that are, or got a value that it does not take. */
static enum tc_exit long_option_error(const char *word)
{
    const char *names[sizeof known / sizeof known[0]];
    size_t count = 0, length = strcspn(word, "="), begun = 0;
    char name[2 * TC_NAME_SIZE], near[TC_NAME_SIZE + 2];
    snprintf(name, sizeof name, "%.*s", (int)length, word);
    for (; known[count].name; count++) {
        names[count] = known[count].name;
        begun += strncmp(names[count], name + 2, strlen(name + 2)) == 0;
    }
    if (optopt != 0)
        return tc_usage_error("option '%s' takes no value", name, NULL);
    if (begun > 1)
        return tc_usage_error("option '%s' may be one of several; write more of it", name, NULL);
    if (strcmp(name, "--kit") == 0)
        return tc_usage_error("option '%s' is called --setup now", name, NULL);
    const char *nearest = tc_name_nearest_of(name + 2, names, count);
    snprintf(near, sizeof near, "--%s", nearest ? nearest : "");
    return tc_usage_error("unknown option '%s'", name, nearest ? near : NULL);
}

/* getopt_long told of an option that it does not know, or of one without its argument. */
static enum tc_exit option_error(char **argv, int what)
{
    const char *word = argv[optind - 1];
    if (what == ':')
        return tc_usage_error("option '%s' wants an argument", word, NULL);
    if (optopt > 0 && optopt < OPTION_TANK) { /* a letter, of which there may be more in the word */
        char letter[] = {'-', (char)optopt, '\0'};
        return tc_usage_error("unknown option '%s'", letter, NULL);
    }
    return long_option_error(word);
}

const struct option *tc_option_at(size_t i)
{
    return i < sizeof known / sizeof known[0] - 1 ? &known[i] : NULL;
}

const char *tc_command_at(size_t i, const char **what)
{
    static const char *const commands[][2] = {
        {"report", "the sheets that matter for the plan, on one page"},
        {"stock", "what the profiles hold"},
        {"check", "read profiles and report every fault"},
        {"new", "write a section of your own"},
        {"prices", "take a shop's prices from a spreadsheet"},
        {"explain", "say where a figure of a sheet comes from"},
    };
    if (i >= sizeof commands / sizeof commands[0])
        return NULL;
    *what = commands[i][1];
    return commands[i][0];
}

enum tc_exit tc_options_read(int argc, char **argv, struct tc_options *options)
{
    int option;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":", known, NULL)) != -1) {
        if (option == '?' || option == ':')
            return option_error(argv, option);
        enum tc_exit status = read_option(options, option, optarg);
        if (status != TC_EXIT_DONE)
            return status;
        if (options->help || options->version)
            return TC_EXIT_DONE;
    }
    for (; optind < argc; optind++) {
        bool checks = options->word_count > 0 && strcmp(options->words[0], "check") == 0;
        if (!checks && !is_file(argv[optind]))
            lower_name(argv[optind]);
        enum tc_exit status =
            add_name(options->words, &options->word_count, TC_WORDS_MAX, argv[optind], "arguments");
        if (status != TC_EXIT_DONE)
            return status;
    }
    return TC_EXIT_DONE;
}
