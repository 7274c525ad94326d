/* SPDX-License-Identifier: MIT */
#include "command/complete.h"

#include <stdio.h>
#include <string.h>

#include "command/explain.h"
#include "command/options.h"
#include "core/base/clean.h"
#include "core/base/name.h"
#include "profile/kind.h"

enum { WORD_SIZE = 512 };

/* What is being completed: candidates are put behind `head`, and those that begin as `begun` does are shown.
 */
struct completion {
    const struct tc_stock *stock;
    const struct tc_plan *plan;
    struct tc_date today;
    struct tc_text *out;
    const char *head;
    const char *begun;
};

/* What the argument of an option is. An option that is not here takes a text of its own, or a file. */
enum argument { ITEM, SALE, PATH, WORDS, CURRENCY, FORMAT };

static const struct {
    const char *option;
    enum argument is;
    const char *what; /* the kind of an ITEM, the WORDS, or the end of a PATH */
} arguments[] = {
    {"tank", ITEM, "tank"},
    {"setup", ITEM, "setup"},
    {"region", ITEM, "region"},
    {"sale", SALE, NULL},
    {"set", PATH, "="},
    {"vary", PATH, "="},
    {"units", WORDS, "us metric"},
    {"color", WORDS, "auto always never"},
    {"format", FORMAT, NULL},
    {"money", CURRENCY, NULL},
};

static void offer(const struct completion *c, const char *word, const char *end, const char *what)
{
    char whole[WORD_SIZE], clean[WORD_SIZE];
    snprintf(whole, sizeof whole, "%s%s", word, end);
    if (strncmp(whole, c->begun, strlen(c->begun)) != 0)
        return;
    tc_clean(clean, sizeof clean, whole);
    tc_text_addf(c->out, "%s%s", c->head, clean);
    if (what && *what) {
        tc_clean(clean, sizeof clean, what);
        tc_text_addf(c->out, "\t%s", clean);
    }
    tc_text_add_char(c->out, '\n');
}

static void offer_words(const struct completion *c, const char *words)
{
    while (words && *words) {
        char word[TC_NAME_SIZE];
        size_t length = strcspn(words, " ");
        snprintf(word, sizeof word, "%.*s", (int)length, words);
        offer(c, word, "", NULL);
        words += length + strspn(words + length, " ");
    }
}

static void offer_items(const struct completion *c, const char *name)
{
    const struct tc_kind *kind = tc_kind_find(name);
    for (size_t i = 0; kind && i < tc_kind_count(kind, c->stock); i++) {
        const char *record = tc_kind_record(kind, c->stock, i);
        if (tc_kind_has(kind, c->stock, i))
            offer(c, record + kind->shelf.name, "", record + kind->shelf.title);
    }
}

/* The kinds that have items, as `stock` takes them. */
static void offer_kinds(const struct completion *c)
{
    const struct tc_kind *kind;
    for (size_t k = 0; (kind = tc_kind_at(k)) != NULL; k++) {
        size_t i = 0, count = kind->table && kind->shelf.size > 0 ? tc_kind_count(kind, c->stock) : 0;
        while (i < count && !tc_kind_has(kind, c->stock, i))
            i++;
        if (i < count)
            offer(c, kind->name, "", kind->table->help);
    }
}

static void offer_sheets(const struct completion *c)
{
    const struct tc_question *question;
    for (size_t i = 0; (question = tc_question_at(i)) != NULL; i++)
        offer(c, question->name, "", question->asks);
}

static void offer_commands(const struct completion *c)
{
    const char *what;
    offer_sheets(c);
    for (size_t i = 0; tc_command_at(i, &what); i++)
        offer(c, tc_command_at(i, &what), "", what);
}

static void offer_options(const struct completion *c)
{
    char option[TC_NAME_SIZE];
    const struct option *known;
    for (size_t i = 0; (known = tc_option_at(i)) != NULL; i++) {
        snprintf(option, sizeof option, "--%s", known->name);
        offer(c, option, "", NULL);
    }
}

/* The keys of one section of a plan, as paths; the text of a title is nobody's to guess. */
static void offer_keys(const struct completion *c, const char *kind, const char *section, const char *end)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    for (size_t i = 0; table && i < table->count; i++) {
        char path[2 * TC_NAME_SIZE];
        if (strcmp(table->keys[i].name, "title") == 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", section, table->keys[i].name);
        offer(c, path, end, table->keys[i].help);
    }
}

/* Kinds whose keys a plan holds or types over; a candidate's stand once for each. */
static const char *const sections[] = {"plan", "setup", "region", "wall"};

static void offer_paths(const struct completion *c, const char *end)
{
    char section[TC_NAME_SIZE];
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++)
        offer_keys(c, sections[i], sections[i], end);
    for (int i = 1; c->plan && i <= c->plan->candidate_count; i++) {
        snprintf(section, sizeof section, "candidate %d", i);
        offer_keys(c, "candidate", section, end);
    }
}

static void offer_sales(const struct completion *c)
{
    offer_words(c, "list best order");
    offer_items(c, "sale");
}

/* Values of a key: its words, yes or no, or the items it names. */
static void offer_values(const struct completion *c, const char *path)
{
    char kind[TC_NAME_SIZE];
    snprintf(kind, sizeof kind, "%.*s", (int)strcspn(path, " /"), path);
    const struct tc_key_table *table = tc_key_table_find(kind);
    const char *slash = strchr(path, '/');
    const struct tc_key *key = table && slash ? tc_key_find(table, slash + 1) : NULL;
    if (!key)
        return;
    offer_words(c, key->words ? key->words : key->form == TC_KEY_FLAG ? "no yes" : NULL);
    if (key->form != TC_KEY_NAME)
        return;
    if (strcmp(key->name, "sale") == 0)
        offer_sales(c);
    else
        offer_items(c, strstr(key->name, "tariff") ? "tariff" : key->name);
}

/* "--set PATH=VALUE": the path up to its '=', or the value behind it. */
static void offer_setting(const struct completion *c, const char *end)
{
    const char *equals = strchr(c->begun, '=');
    if (!equals) {
        offer_paths(c, end);
        return;
    }
    char path[WORD_SIZE], head[2 * WORD_SIZE];
    snprintf(path, sizeof path, "%.*s", (int)(equals - c->begun), c->begun);
    snprintf(head, sizeof head, "%s%s=", c->head, path);
    struct completion value = *c;
    value.head = head;
    value.begun = equals + 1;
    offer_values(&value, path);
}

static void offer_formats(const struct completion *c)
{
    for (size_t i = 0; tc_print_format_name(i); i++)
        offer(c, tc_print_format_name(i), "", NULL);
}

static void offer_currencies(const struct completion *c)
{
    for (size_t i = 0; i < c->stock->region_count; i++) {
        const char *code = c->stock->regions[i].currency.code;
        size_t before = 0;
        while (before < i && strcmp(c->stock->regions[before].currency.code, code) != 0)
            before++;
        if (before == i)
            offer(c, code, "", NULL);
    }
}

static void offer_argument(const struct completion *c, const char *option)
{
    size_t i = 0;
    while (i < sizeof arguments / sizeof arguments[0] && strcmp(arguments[i].option, option) != 0)
        i++;
    if (i == sizeof arguments / sizeof arguments[0])
        return;
    switch (arguments[i].is) {
    case ITEM: offer_items(c, arguments[i].what); break;
    case SALE: offer_sales(c); break;
    case PATH: offer_setting(c, arguments[i].what); break;
    case WORDS: offer_words(c, arguments[i].what); break;
    case CURRENCY: offer_currencies(c); break;
    case FORMAT: offer_formats(c); break;
    }
}

/* The option that a word is, and what stands behind its '=', if anything; NULL for none that is known. */
static const struct option *option_of(const char *word, const char **value)
{
    const struct option *known;
    size_t length = strcspn(word, "=");
    *value = word[length] == '=' ? word + length + 1 : NULL;
    if (strncmp(word, "--", 2) != 0)
        return NULL;
    for (size_t i = 0; (known = tc_option_at(i)) != NULL; i++)
        if (strlen(known->name) == length - 2 && strncmp(known->name, word + 2, length - 2) == 0)
            return known;
    return NULL;
}

/* Steps through the words, options and their arguments apart: word i, or NULL where i is of an option. */
static const char *plain_word(int i, char *const *words)
{
    const char *value;
    if (words[i][0] == '-')
        return NULL;
    const struct option *before = i > 0 ? option_of(words[i - 1], &value) : NULL;
    return before && before->has_arg == required_argument && !value ? NULL : words[i];
}

static bool is_command(const char *word)
{
    const char *what, *name;
    bool found = tc_question_find(word) != NULL;
    for (size_t i = 0; !found && (name = tc_command_at(i, &what)) != NULL; i++)
        found = strcmp(name, word) == 0;
    return found;
}

struct tc_complete_where tc_complete_where(int count, char *const *words)
{
    struct tc_complete_where where = {NULL, NULL};
    const char *value;
    for (int i = 0; i < count - 1; i++) {
        const struct option *option = option_of(words[i], &value);
        if (option && strcmp(option->name, "profiles") == 0)
            where.profiles = value ? value : words[i + 1];
        else if (!option && plain_word(i, words) && !is_command(words[i]))
            where.plan = words[i];
    }
    return where;
}

/* The figures of a sheet of the plan. */
static void offer_figures(const struct completion *c, const char *sheet)
{
    struct tc_text names = TC_TEXT_EMPTY;
    const struct tc_question *question = tc_question_find(sheet);
    if (question && c->plan)
        tc_explain_names(c->stock, c->plan, question, c->today, &names);
    for (const char *name = tc_text_string(&names); *name;) {
        char one[WORD_SIZE];
        size_t length = strcspn(name, "\n");
        snprintf(one, sizeof one, "%.*s", (int)length, name);
        offer(c, one, "", NULL);
        name += length + (name[length] == '\n');
    }
    tc_text_free(&names);
}

/* Behind "explain": the sheet, then a plan and a figure of it. */
static void offer_explained(const struct completion *c, int before, const char *sheet)
{
    if (before == 1)
        offer_sheets(c);
    else if (before == 2)
        offer_items(c, "plan");
    if (before == 2 || before == 3)
        offer_figures(c, sheet);
}

static void offer_word(const struct completion *c, int count, char *const *words)
{
    const char *command = NULL, *second = NULL;
    int before = 0;
    for (int i = 0; i < count - 1; i++) {
        if (!plain_word(i, words))
            continue;
        before++;
        if (before == 1)
            command = words[i];
        else if (before == 2)
            second = words[i];
    }
    if (!command) {
        offer_commands(c);
        offer_items(c, "plan");
    } else if (before == 1 && strcmp(command, "stock") == 0) {
        offer_kinds(c);
    } else if (strcmp(command, "explain") == 0) {
        offer_explained(c, before, second);
    } else if (before == 1 && (tc_question_find(command) || strcmp(command, "report") == 0)) {
        offer_items(c, "plan");
    }
}

void tc_complete(const struct tc_stock *stock, const struct tc_plan *plan, struct tc_date today, int count,
                 char *const *words, struct tc_text *out)
{
    const char *last = count > 0 ? words[count - 1] : "", *value;
    struct completion c = {
        .stock = stock, .plan = plan, .today = today, .out = out, .head = "", .begun = last};
    const struct option *option = option_of(last, &value);
    char head[WORD_SIZE];
    if (option && value) { /* --option=value */
        snprintf(head, sizeof head, "--%s=", option->name);
        c.head = head;
        c.begun = value;
        offer_argument(&c, option->name);
        return;
    }
    option = count > 1 ? option_of(words[count - 2], &value) : NULL;
    if (option && option->has_arg == required_argument && !value)
        offer_argument(&c, option->name);
    else if (last[0] == '-')
        offer_options(&c);
    else
        offer_word(&c, count, words);
}
