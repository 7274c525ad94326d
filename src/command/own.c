/* SPDX-License-Identifier: MIT */
#include "command/own.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "core/base/name.h"
#include "core/base/text.h"
#include "profile/ini_write.h"
#include "profile/kind.h"
#include "profile/price_import.h"
#include "profile/save.h"
#include "profile/stock_finish.h"

static void tell(const struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY;
    tc_faults_write(faults, &text);
    fputs(tc_text_string(&text), stderr);
    tc_text_free(&text);
}

/* Tells the faults, frees them, and says how to end. */
static enum tc_exit end(enum tc_status status, struct tc_faults *faults)
{
    tell(faults);
    tc_faults_free(faults);
    if (status == TC_OK)
        return TC_EXIT_DONE;
    if (status == TC_NO_MEMORY)
        fprintf(stderr, "tankcost: out of memory\n");
    return status == TC_NO_MEMORY || status == TC_IO ? TC_EXIT_MACHINE : TC_EXIT_FAULTS;
}

/* Makes the folder that a file is to lie in. */
static enum tc_status make_folder_of(const char *path, struct tc_faults *faults)
{
    struct tc_text folder = TC_TEXT_EMPTY;
    tc_text_add_bytes(&folder, path, (size_t)(strrchr(path, '/') - path));
    enum tc_status status = folder.failed                                      ? TC_NO_MEMORY
                            : tc_make_folders(tc_text_string(&folder), faults) ? TC_OK
                                                                               : TC_IO;
    tc_text_free(&folder);
    return status;
}

/* ------------------------------------------------------------------------------- new */

/* The text typed for a key, "KEY=VALUE" among the words; NULL where there is none. */
static const char *typed(const struct tc_options *options, const char *key)
{
    size_t length = strlen(key);
    for (int i = 3; i < options->word_count; i++)
        if (strncmp(options->words[i], key, length) == 0 && options->words[i][length] == '=')
            return options->words[i] + length + 1;
    return NULL;
}

static void write_key(const struct tc_options *options, const struct tc_key *key, struct tc_text *text)
{
    const char *value = typed(options, key->name);
    if (value) {
        tc_text_addf(text, "%s = ", key->name);
        if (!tc_ini_write_value(text, value))
            tc_text_add(text, value); /* it will be told what is wrong with it */
        tc_text_addf(text, "  # %s\n", key->help);
    } else {
        tc_text_addf(text, "# %s\n# %s = %s\n", key->help, key->name, key->example);
    }
}

/* What is wrong with the words behind the name; TC_EXIT_DONE where nothing is. */
static enum tc_exit check_words(const struct tc_options *options, const struct tc_key_table *table)
{
    for (int i = 3; i < options->word_count; i++) {
        char key[TC_NAME_SIZE], problem[TC_PROBLEM_SIZE];
        size_t length = strcspn(options->words[i], "=");
        if (options->words[i][length] != '=' || length == 0 || length >= sizeof key)
            return tc_usage_error("write KEY=VALUE, not '%s'", options->words[i], NULL);
        memcpy(key, options->words[i], length);
        key[length] = '\0';
        if (!tc_key_find(table, key)) {
            (void)tc_key_unknown(table, key, problem);
            return tc_usage_error("%s", problem, NULL);
        }
    }
    return TC_EXIT_DONE;
}

/* TC_OK where the section can be used, as the stock has it now; what it lacks is told. TC_NO_MEMORY, TC_IO.
 */
static enum tc_status check_new(struct tc_stock *stock, const char *path, const struct tc_text *text,
                                struct tc_faults *faults)
{
    struct tc_faults all = TC_FAULTS_EMPTY;
    enum tc_status status = tc_stock_read_bytes(stock, path, tc_text_string(text), text->length, &all);
    if (status == TC_OK)
        status = tc_stock_finish(stock, &all);
    if (status == TC_IO)
        tc_faults_move(faults, &all);
    for (size_t i = 0; i < tc_faults_count(&all); i++) {
        const struct tc_fault *fault = tc_faults_at(&all, i);
        struct tc_place place = {NULL, 0, fault->place.section, fault->place.key};
        if (fault->severity != TC_ERROR || !fault->place.file || strcmp(fault->place.file, path) != 0)
            continue;
        tc_faults_error(faults, place, "%s", fault->text);
        status = status == TC_OK ? TC_SYNTAX : status;
    }
    tc_faults_free(&all);
    return status;
}

static enum tc_exit write_new(const struct tc_options *options, struct tc_stock *stock, const char *path,
                              const struct tc_kind *kind)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY, old = TC_TEXT_EMPTY;
    bool there = false;
    tc_text_addf(&text, "# %s\n[%s %s]\n", kind->table->help, kind->name, options->words[2]);
    for (size_t i = 0; i < kind->table->count; i++)
        write_key(options, &kind->table->keys[i], &text);
    enum tc_status status = text.failed ? TC_NO_MEMORY : tc_load(path, &old, &there, &faults);
    if (status == TC_OK && there) {
        tc_faults_error(&faults, (struct tc_place){path, 0, NULL, NULL},
                        "the file is there already; change it with an editor or on the screen");
        status = TC_SYNTAX;
    }
    if (status == TC_OK)
        status = check_new(stock, path, &text, &faults);
    if (status == TC_OK)
        status = make_folder_of(path, &faults);
    if (status == TC_OK)
        status = tc_save(path, tc_text_string(&text), text.length, &faults);
    if (status == TC_OK)
        printf("%s: [%s %s]\n", path, kind->name, options->words[2]);
    tc_text_free(&text);
    tc_text_free(&old);
    return end(status, &faults);
}

enum tc_exit tc_own_new(const struct tc_options *options, struct tc_stock *stock, const char *folder)
{
    const struct tc_kind *kind = options->word_count > 1 ? tc_kind_find(options->words[1]) : NULL;
    const char *kinds[32];
    size_t count = 0;
    for (size_t i = 0; tc_kind_at(i) && count < 32; i++)
        if (tc_kind_at(i)->head == TC_HEAD_ITEM || tc_kind_at(i)->head == TC_HEAD_PLAN)
            kinds[count++] = tc_kind_at(i)->name;
    if (!kind || (kind->head != TC_HEAD_ITEM && kind->head != TC_HEAD_PLAN)) {
        const char *word = options->word_count > 1 ? options->words[1] : "";
        return tc_usage_error("no kind '%s' of which there can be a new one", word,
                              tc_name_nearest_of(word, kinds, count));
    }
    if (options->word_count < 3 || !tc_name_valid(options->words[2]))
        return tc_usage_error("a new %s needs a name: " TC_NAME_RULE, kind->name, NULL);
    enum tc_exit status = check_words(options, kind->table);
    if (status != TC_EXIT_DONE)
        return status;
    struct tc_text path = TC_TEXT_EMPTY;
    tc_text_addf(&path, "%s/%s/%s-%s.ini", folder, kind->folder, kind->name, options->words[2]);
    status = write_new(options, stock, tc_text_string(&path), kind);
    tc_text_free(&path);
    return status;
}

/* ---------------------------------------------------------------------------- prices */

/* Standard input, all of it. */
static enum tc_status read_input(struct tc_text *text, struct tc_faults *faults)
{
    char piece[4096];
    size_t length;
    while ((length = fread(piece, 1, sizeof piece, stdin)) > 0)
        tc_text_add_bytes(text, piece, length);
    if (!ferror(stdin))
        return text->failed ? TC_NO_MEMORY : TC_OK;
    tc_faults_error(faults, (struct tc_place){"standard input", 0, NULL, NULL}, "cannot be read: %s",
                    strerror(errno));
    return TC_IO;
}

static enum tc_status read_list(const char *path, struct tc_text *text, struct tc_faults *faults)
{
    bool there = true;
    enum tc_status status =
        strcmp(path, "-") == 0 ? read_input(text, faults) : tc_load(path, text, &there, faults);
    if (status == TC_OK && !there) {
        tc_faults_error(faults, (struct tc_place){path, 0, NULL, NULL}, "the file cannot be read: %s",
                        strerror(ENOENT));
        status = TC_SYNTAX;
    }
    return status;
}

/* Says what changes, and does it where that is asked for. */
static enum tc_status take_over(const struct tc_options *options, const struct tc_stock *stock,
                                const struct tc_shop *shop, const char *folder,
                                const struct tc_price_import *import, struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY, path = TC_TEXT_EMPTY;
    enum tc_status status = TC_OK;
    tc_price_import_tell(import, &text);
    tc_text_addf(&path, "%s/%s/%s.ini", folder, tc_kind_find("prices")->folder, shop->name);
    fputs(tc_text_string(&text), stdout);
    printf("%s: %zu changed, %zu added, %zu as before; %zu new items\n", shop->name, import->changed,
           import->added, import->row_count - import->changed - import->added, import->made);
    if (text.failed || path.failed)
        status = TC_NO_MEMORY;
    else if (import->changed + import->added == 0)
        puts("Nothing is to be written.");
    else if (!options->yes)
        printf("Nothing is written yet: --yes writes it to %s\n", tc_text_string(&path));
    else {
        status = make_folder_of(tc_text_string(&path), faults);
        if (status == TC_OK)
            status = tc_price_import_save(import, stock, shop, tc_text_string(&path), faults);
        if (status == TC_OK)
            printf("Written to %s\n", tc_text_string(&path));
    }
    tc_text_free(&text);
    tc_text_free(&path);
    return status;
}

enum tc_exit tc_own_prices(const struct tc_options *options, const struct tc_stock *stock, const char *folder)
{
    if (options->word_count != 3)
        return tc_usage_error("write it like: tankcost prices SHOP FILE.csv%s", "", NULL);
    const struct tc_shop *shop = tc_stock_shop(stock, options->words[1]);
    if (!shop)
        return tc_usage_error("no shop '%s'", options->words[1],
                              tc_stock_nearest(stock, "shop", options->words[1]));
    const char *file = options->words[2];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_price_import import = {.rows = NULL};
    enum tc_status status = read_list(file, &text, &faults);
    if (status == TC_OK)
        status = tc_price_import_read(stock, shop, strcmp(file, "-") == 0 ? "standard input" : file,
                                      tc_text_string(&text), text.length, &import, &faults);
    if (status == TC_OK)
        status = take_over(options, stock, shop, folder, &import, &faults);
    tc_price_import_free(&import);
    tc_text_free(&text);
    return end(status, &faults);
}
