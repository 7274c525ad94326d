/* SPDX-License-Identifier: MIT */
/*
 * main.c - from the command line to one sheet printed, or to the screen.
 *
 * Nothing is computed here, and nothing else decides how the program exits.
 */
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "command/asked_plan.h"
#include "command/complete.h"
#include "command/explain.h"
#include "command/options.h"
#include "command/own.h"
#include "command/output.h"
#include "command/report.h"
#include "command/watch.h"
#include "core/base/clean.h"
#include "core/base/name.h"
#include "core/base/text.h"
#include "profile/kind.h"
#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "profile/template.h"
#include "screen/screen.h"
#include "sheet/question.h"
#include "sheet/stock_list.h"
#include "sheet/study.h"
#include "sheet/study_make.h"

static struct tc_date today_by_clock(void)
{
    time_t now = time(NULL);
    struct tm parts;
    if (now == (time_t)-1 || !localtime_r(&now, &parts))
        return (struct tc_date){1970, 1, 1};
    return (struct tc_date){parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

/* The user's own folder for profiles (XDG Base Directory Specification), with rest behind it; false where
 * none. */
static bool user_folder(struct tc_text *path, const char *rest)
{
    const char *data = getenv("XDG_DATA_HOME"), *home = getenv("HOME");
    if (data && data[0] == '/') /* a relative one is to be ignored */
        tc_text_addf(path, "%s/tankcost%s", data, rest);
    else if (home && home[0] == '/')
        tc_text_addf(path, "%s/.local/share/tankcost%s", home, rest);
    return path->length > 0;
}

/* Where the installed profiles lie; the program may be tried out before it is installed. */
static const char *installed_folder(void)
{
    const char *folder = getenv("TANKCOST_DATA");
    return folder && folder[0] ? folder : TC_DATADIR;
}

/* The installed profiles, the user's own, then --profiles. */
static enum tc_status read_layers(struct tc_stock *stock, const char *profiles, struct tc_faults *faults)
{
    struct tc_text own = TC_TEXT_EMPTY;
    enum tc_status status = tc_stock_read_folder(stock, installed_folder(), true, faults);
    if (status == TC_OK && user_folder(&own, ""))
        status = own.failed ? TC_NO_MEMORY : tc_stock_read_folder(stock, tc_text_string(&own), true, faults);
    if (status == TC_OK && profiles)
        status = tc_stock_read_folder(stock, profiles, false, faults);
    tc_text_free(&own);
    return status;
}

/* The same for the screen, which asks for it again when something has changed. */
static enum tc_status read_again(const void *context, struct tc_stock *stock, struct tc_faults *faults)
{
    const struct tc_options *options = context;
    enum tc_status status = read_layers(stock, options->profiles, faults);
    return status == TC_OK ? tc_stock_finish(stock, faults) : status;
}

static enum tc_exit exit_by_status(enum tc_status status, const struct tc_faults *faults)
{
    if (status == TC_OK)
        return tc_faults_errors(faults) > 0 ? TC_EXIT_FAULTS : TC_EXIT_DONE;
    if (status == TC_SYNTAX)
        return TC_EXIT_FAULTS;
    if (status == TC_NO_MEMORY || status == TC_IO)
        return tc_machine_error("stopped", tc_status_text(status));
    fprintf(stderr, "tankcost: %s\n",
            status == TC_STOPPED ? "stopped before anything was known" : tc_status_text(status));
    return TC_EXIT_FAULTS;
}

/* Prints one sheet of a study. */
static enum tc_exit print_answer(const struct tc_options *options, const struct tc_question *question,
                                 const struct tc_study *study, const struct tc_faults *faults, bool *stopped)
{
    struct tc_sheet sheet = {0};
    char problem[TC_PROBLEM_SIZE] = "";
    struct tc_ask ask = options->ask;
    enum tc_exit exit_status;
    ask.problem = problem;
    enum tc_status status = tc_watch_answer(question, study, ask, &sheet, stopped);
    if (problem[0])
        exit_status = tc_usage_error("%s", problem, NULL);
    else if (status != TC_OK)
        exit_status = exit_by_status(status, faults);
    else
        exit_status = tc_write_sheet(options, &sheet);
    tc_sheet_free(&sheet);
    return exit_status;
}

/* Works the plan out and prints one sheet of it, or where its figures come from (explained not NULL). */
static enum tc_exit answer(const struct tc_options *options, const struct tc_stock *stock,
                           const struct tc_plan *plan, const struct tc_question *question,
                           const struct tc_explain_words *explained, struct tc_faults *faults, bool *stopped)
{
    struct tc_study study;
    size_t known = tc_faults_count(faults);
    enum tc_status status = tc_study_make(&study, stock, plan, options->today, faults);
    enum tc_exit exit_status = exit_by_status(status, faults);
    tc_report_faults(faults, known);
    if (!question && study.alternative_count > 0) {
        enum tc_exit reported = tc_report(options, &study, stopped);
        exit_status = reported != TC_EXIT_DONE ? reported : exit_status;
    } else if (question && (study.alternative_count > 0 || status == TC_OK)) {
        enum tc_exit written = explained ? tc_explain_answer(options, explained, &study, stopped)
                                         : print_answer(options, question, &study, faults, stopped);
        exit_status = written != TC_EXIT_DONE ? written : exit_status;
    }
    tc_study_free(&study);
    return exit_status;
}

static enum tc_exit show_stock(const struct tc_options *options, const struct tc_stock *stock)
{
    struct tc_sheet sheet = {0};
    enum tc_exit exit_status = TC_EXIT_DONE;
    const char *kind = options->word_count > 1 ? options->words[1] : NULL;
    if (options->word_count > 2)
        return tc_usage_error("one kind at a time, not '%s' as well", options->words[2], NULL);
    if (kind && !tc_key_table_find(kind)) {
        const char *kinds[32];
        size_t count = 0;
        while (count < 32 && tc_key_table_at(count)) {
            kinds[count] = tc_key_table_at(count)->kind;
            count++;
        }
        return tc_usage_error("no kind '%s' of profiles", kind, tc_name_nearest_of(kind, kinds, count));
    }
    struct tc_currency money;
    struct tc_stock_ask ask = {.kind = kind,
                               .regions = options->regions,
                               .region_count = options->region_count,
                               .installed = installed_folder()};
    for (int i = 0; i < options->region_count; i++)
        if (!tc_stock_region(stock, options->regions[i]))
            return tc_usage_error("no region '%s'", options->regions[i],
                                  tc_stock_nearest(stock, "region", options->regions[i]));
    if (options->ask.money && !tc_currency_find(options->ask.money, &money))
        return tc_usage_error("no currency '%s'", options->ask.money, NULL);
    ask.money = options->ask.money ? &money : NULL;
    if ((exit_status = tc_asked_plan_units(options, &ask.units)) != TC_EXIT_DONE)
        return exit_status;
    if (tc_make_stock_list(stock, &ask, &sheet) != TC_OK)
        exit_status = tc_machine_error("stock", tc_status_text(TC_NO_MEMORY));
    else
        exit_status = tc_write_sheet(options, &sheet);
    tc_sheet_free(&sheet);
    return exit_status;
}

/* Whether a file is one of those to check; all are where none is named. */
static bool asked_to_check(const void *context, const char *file)
{
    const struct tc_options *options = context;
    for (int i = 1; i < options->word_count; i++)
        if (strcmp(options->words[i], file) == 0)
            return true;
    return options->word_count == 1;
}

/* Reads the files named, or all profiles, and tells what is wrong, and what templates still lack. */
static enum tc_exit check(const struct tc_options *options)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    tc_stock_start(&stock);
    enum tc_status status = read_layers(&stock, options->profiles, &faults);
    for (int i = 1; status == TC_OK && i < options->word_count; i++)
        status = tc_stock_read_file(&stock, options->words[i], &faults);
    if (status == TC_OK)
        status = tc_stock_finish(&stock, &faults);
    if (status == TC_OK)
        status = tc_template_notes(&stock, asked_to_check, options, &faults);
    tc_report_faults(&faults, 0);
    enum tc_exit exit_status = exit_by_status(status, &faults);
    if (exit_status == TC_EXIT_DONE) {
        printf("no faults: %zu tanks, %zu parts, %zu setups, %zu regions, %zu plans\n", stock.tank_count,
               stock.part_count, stock.setup_count, stock.region_count, stock.plan_count);
        exit_status = tc_flush_output();
    }
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return exit_status;
}

static bool asks_report(const struct tc_options *options)
{
    return options->word_count > 0 && strcmp(options->words[0], "report") == 0;
}

/* The sheet asked for by the first word, which is then no plan; the bill where it names none. */
static const struct tc_question *asked_for(const struct tc_options *options, const char **plan_word)
{
    const struct tc_question *question = NULL;
    *plan_word = options->word_count > 0 ? options->words[0] : NULL;
    if (*plan_word)
        question = tc_question_find(*plan_word);
    if (question || asks_report(options))
        *plan_word = options->word_count > 1 ? options->words[1] : NULL;
    return question;
}

/*
 * Shows the plan on the screen. *shown is false where there is no terminal to
 * draw on. A signal that ended it ends the process as well, once all is freed.
 */
static enum tc_exit show(const struct tc_options *options, struct tc_stock *stock, const struct tc_plan *plan,
                         const char *plan_path, const struct tc_faults *faults, int *signal_number,
                         bool *shown)
{
    struct tc_text folder = TC_TEXT_EMPTY, kept = TC_TEXT_EMPTY, own = TC_TEXT_EMPTY;
    const struct tc_screen_options screen = {
        .stock = stock,
        .read = read_again,
        .read_context = options,
        .plan = plan,
        .plan_path = plan_path,
        .plan_folder = user_folder(&folder, "/plans") ? tc_text_string(&folder) : NULL,
        .own_folder = user_folder(&own, "") ? tc_text_string(&own) : NULL,
        .kept_folder = user_folder(&kept, "/unsaved") ? tc_text_string(&kept) : NULL,
        .installed = installed_folder(),
        .faults = faults,
        .today = options->today,
        .ask = options->ask,
        .colour = tc_print_options_of(options).colour,
        .ascii = tc_print_options_of(options).ascii,
        .fine = tc_print_options_of(options).fine,
    };
    enum tc_status status = tc_screen_run(&screen, signal_number);
    tc_text_free(&folder);
    tc_text_free(&kept);
    tc_text_free(&own);
    *shown = status != TC_NO_RESULT;
    if (status == TC_STOPPED || status == TC_NO_RESULT)
        return TC_EXIT_DONE;
    return status == TC_OK ? TC_EXIT_DONE : tc_machine_error("screen", tc_status_text(status));
}

static enum tc_exit no_tanks(const struct tc_faults *faults)
{
    char folder[TC_PROBLEM_SIZE];
    tc_clean(folder, sizeof folder, installed_folder());
    fprintf(stderr,
            "tankcost: no profile of a tank in %s, your own folder or --profiles; where it is not installed, "
            "name a folder, as in --profiles profiles\n",
            folder);
    return tc_faults_errors(faults) > 0 ? TC_EXIT_FAULTS : TC_EXIT_USAGE;
}

/* All profiles, the file of the plan (or NULL) among them; what is wrong with them is reported. */
static enum tc_status read_stock(struct tc_stock *stock, const struct tc_options *options,
                                 const char *plan_word, struct tc_faults *faults)
{
    enum tc_status status = read_layers(stock, options->profiles, faults);
    if (status == TC_OK && plan_word && tc_asked_plan_is_file(plan_word))
        status = tc_stock_read_file(stock, plan_word, faults);
    if (status == TC_OK)
        status = tc_stock_finish(stock, faults);
    tc_report_faults(faults, 0);
    return status;
}

/* Words and options that do not go together. */
static enum tc_exit check_words(const struct tc_options *options, const struct tc_question *question,
                                const char *plan_word)
{
    bool report = asks_report(options);
    int used = (question || report ? 1 : 0) + (plan_word ? 1 : 0);
    if (options->word_count > used)
        return tc_usage_error("one plan at a time, not '%s' as well", options->words[used], NULL);
    if (options->ask.walls && question && !question->walls)
        return tc_usage_error("--walls goes with bill and years, not with %s", question->name, NULL);
    return report ? tc_report_allowed(options) : TC_EXIT_DONE;
}

static bool asks_explain(const struct tc_options *options)
{
    return options->word_count > 0 && strcmp(options->words[0], "explain") == 0;
}

/* A sheet of a plan, printed or on the screen, or where its figures come from. */
static enum tc_exit run(const struct tc_options *options, struct tc_stock *stock, struct tc_faults *faults,
                        int *signal_number)
{
    const char *plan_word;
    const struct tc_question *question = asked_for(options, &plan_word);
    bool report = asks_report(options);
    bool explains = asks_explain(options);
    struct tc_explain_words explained;
    enum tc_exit exit_status =
        explains ? tc_explain_read(options, NULL, &explained) : check_words(options, question, plan_word);
    if (exit_status != TC_EXIT_DONE)
        return exit_status;
    if (explains) {
        question = explained.question;
        plan_word = explained.plan;
    }
    enum tc_status status = read_stock(stock, options, plan_word, faults);
    if (status != TC_OK)
        return exit_by_status(status, faults);
    if (stock->tank_count == 0)
        return no_tanks(faults);
    if (explains && tc_explain_read(options, stock, &explained) == TC_EXIT_DONE)
        plan_word = explained.plan; /* a word alone may be the name of a plan */
    struct tc_plan plan;
    exit_status = tc_asked_plan_find(stock, plan_word, &plan);
    if (exit_status == TC_EXIT_DONE)
        exit_status = tc_asked_plan_change(options, stock, &plan);
    if (exit_status != TC_EXIT_DONE)
        return exit_status;
    if (!question && !report && !options->format_given && !options->output && !options->prints) {
        bool shown = false;
        exit_status = show(options, stock, &plan, tc_asked_plan_file(stock, plan_word, &plan), faults,
                           signal_number, &shown);
        if (shown)
            return exit_status;
    }
    if (!question && !report)
        question = tc_question_find("bill");
    if (!plan.setup[0] || !plan.region[0] || (plan.candidate_count == 0 && !(question && question->bare)))
        return tc_usage_error("no plan to make the %s of: name one, or --tank, --setup and --region",
                              question ? question->name : "report", NULL);
    bool stopped = false;
    exit_status = answer(options, stock, &plan, question, explains ? &explained : NULL, faults, &stopped);
    *signal_number = stopped ? SIGINT : 0;
    return exit_status;
}

/* "tankcost complete WORD...": for the shells' scripts. What is wrong is not theirs to tell. */
static enum tc_exit complete(int count, char *const *words)
{
    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_complete_where where = tc_complete_where(count, words);
    struct tc_plan plan;
    tc_stock_start(&stock);
    enum tc_status status = read_layers(&stock, where.profiles, &faults);
    if (status == TC_OK && where.plan && tc_asked_plan_is_file(where.plan))
        status = tc_stock_read_file(&stock, where.plan, &faults);
    if (status == TC_OK)
        status = tc_stock_finish(&stock, &faults);
    if (status == TC_OK) {
        const struct tc_plan *found = tc_asked_plan_known(&stock, where.plan);
        tc_plan_start(&plan);
        tc_complete(&stock, found ? found : &plan, today_by_clock(), count, words, &text);
        fputs(tc_text_string(&text), stdout);
    }
    tc_text_free(&text);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    return tc_flush_output();
}

static bool is_for_own(const char *word)
{
    return strcmp(word, "new") == 0 || strcmp(word, "prices") == 0;
}

/* Puts something into the user's own profiles. */
static enum tc_exit change_own(const struct tc_options *options, struct tc_stock *stock,
                               struct tc_faults *faults)
{
    struct tc_text own = TC_TEXT_EMPTY;
    enum tc_status status = read_stock(stock, options, NULL, faults);
    enum tc_exit exit_status = status == TC_OK ? TC_EXIT_DONE : exit_by_status(status, faults);
    if (exit_status == TC_EXIT_DONE && !user_folder(&own, ""))
        exit_status = tc_usage_error("there is no folder of your own: set HOME or XDG_DATA_HOME%s", "", NULL);
    if (exit_status == TC_EXIT_DONE)
        exit_status = strcmp(options->words[0], "new") == 0
                          ? tc_own_new(options, stock, tc_text_string(&own))
                          : tc_own_prices(options, stock, tc_text_string(&own));
    tc_text_free(&own);
    enum tc_exit told = tc_flush_output();
    return told == TC_EXIT_DONE ? exit_status : told;
}

/* "tankcost stock [KIND]". */
static enum tc_exit list_stock(const struct tc_options *options, struct tc_stock *stock,
                               struct tc_faults *faults)
{
    enum tc_status status = read_stock(stock, options, NULL, faults);
    enum tc_exit exit_status = exit_by_status(status, faults);
    if (status != TC_OK)
        return exit_status;
    enum tc_exit shown = show_stock(options, stock);
    return shown != TC_EXIT_DONE ? shown : exit_status;
}

static enum tc_exit help_or_version(const struct tc_options *options)
{
    if (options->help)
        tc_options_help();
    else
        puts("tankcost " TC_VERSION);
    return tc_flush_output();
}

static enum tc_exit start(int argc, char **argv)
{
    struct tc_options options = {.word_count = 0};
    unsetenv("POSIXLY_CORRECT"); /* options may stand behind words: getopt_long must not stop at the first */
    setlocale(LC_CTYPE, "");     /* LC_NUMERIC stays "C": see core/base/number.h */
    if (argc > 1 && strcmp(argv[1], "complete") == 0) /* what follows is half a command line, no options */
        return complete(argc - 2, argv + 2);
    enum tc_exit exit_status = tc_options_read(argc, argv, &options);
    if (exit_status != TC_EXIT_DONE)
        return exit_status;
    if (options.help || options.version)
        return help_or_version(&options);
    if (options.today.year == 0)
        options.today = today_by_clock();
    const char *word = options.word_count > 0 ? options.words[0] : "";
    if (strcmp(word, "check") == 0)
        return check(&options);

    struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    int signal_number = 0;
    tc_stock_start(&stock);
    if (is_for_own(word))
        exit_status = change_own(&options, &stock, &faults);
    else if (strcmp(word, "stock") == 0)
        exit_status = list_stock(&options, &stock, &faults);
    else
        exit_status = run(&options, &stock, &faults, &signal_number);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
    if (signal_number != 0) {
        signal(signal_number, SIG_DFL);
        raise(signal_number); /* so that the parent sees how it ended */
    }
    return exit_status;
}

int main(int argc, char **argv)
{
    return (int)start(argc, argv);
}
