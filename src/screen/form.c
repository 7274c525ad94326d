/* SPDX-License-Identifier: MIT */
#include "screen/form.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/name.h"
#include "core/base/number.h"
#include "profile/key.h"
#include "profile/kind.h"
#include "profile/section.h"
#include "screen/edit.h"
#include "screen/key_choice.h"
#include "screen/list_fill.h"
#include "screen/prompt.h"
#include "screen/section_file.h"
#include "sheet/caution.h"
#include "sheet/sellers.h"

/* What the row of a form begins with that is about a shop's price; no key has a blank. */
static const char at_shop[] = "at ";

/* A head taken apart: "prices lowmere-shop lid". */
struct head {
    char kind[TC_NAME_SIZE];          /* "prices" */
    const char *name;                 /* "lowmere-shop lid"; within the head */
    const struct tc_key_table *table; /* NULL for price lists */
};

static struct head take_apart(const char *text)
{
    struct head head = {.name = ""};
    size_t length = strcspn(text, " ");
    if (length < sizeof head.kind)
        memcpy(head.kind, text, length);
    if (text[length] == ' ')
        head.name = text + length + 1;
    head.table = tc_key_table_find(head.kind);
    return head;
}

/* ------------------------------------------------------------------------------- keys */

/* What one pays for a thing of a price list. */
static const struct tc_key price_key = {.name = "price",
                                        .form = TC_KEY_MONEY,
                                        .greatest = 1e8,
                                        .fallback = "",
                                        .example = "49.00",
                                        .help = "what the shop asks for one",
                                        .fixed = false};

static const struct tc_key *key_of(const struct head *head, const char *name)
{
    return head->table ? tc_key_find(head->table, name) : &price_key;
}

/* The currency of the plan's region; "" where that is not known. */
static const char *currency_code(const struct tc_state *state)
{
    const struct tc_region *region = tc_edit_region(state);
    return region ? region->currency.code : "";
}

/* What was typed as the file wants it: a bare amount is in the money of the plan's region. */
static void complete(const struct tc_state *state, const struct tc_key *key, const char *text,
                     char value[TC_VALUE_SIZE])
{
    const char *code = currency_code(state);
    bool bare = key->form == TC_KEY_PRICES && *text && strspn(text, "0123456789. ") == strlen(text) && *code;
    snprintf(value, TC_VALUE_SIZE, bare ? "%s %s" : "%s", text, code);
}

/* Whether a key could be read from a text; else the problem. */
static bool check(const struct tc_state *state, const struct head *head, const struct tc_key *key,
                  const char *text, char problem[TC_PROBLEM_SIZE])
{
    char value[TC_VALUE_SIZE];
    void *record = calloc(1, head->table ? head->table->record_size : sizeof(double));
    complete(state, key, text, value);
    bool good = record && tc_key_read(key, value, record, NULL, problem);
    free(record);
    return good;
}

static void key_changed(struct tc_state *state, const char *text)
{
    struct tc_prompt *prompt = &state->prompt;
    struct head head = take_apart(prompt->head);
    const struct tc_key *key = key_of(&head, prompt->path);
    if (*text && key)
        check(state, &head, key, text, prompt->problem);
}

static void key_taken(struct tc_state *state, const char *text)
{
    struct tc_prompt *prompt = &state->prompt;
    struct head head = take_apart(prompt->head);
    const struct tc_key *key = key_of(&head, prompt->path);
    char value[TC_VALUE_SIZE];
    if (!key || (*text && !check(state, &head, key, text, prompt->problem)))
        return;
    complete(state, key, text, value);
    if (!tc_section_set(state, prompt->head, prompt->path, value))
        return;
    tc_state_pop(state);
    tc_list_go_on(state);
}

static const struct tc_prompt_kind key_prompt = {
    .title = "", .hint = "", .taken = key_taken, .changed = key_changed};

/* ------------------------------------------------------------------------------ a form */

/* Whether a key stands in the list of those whose figures are assumed. */
static bool is_assumed(const struct tc_section *section, const char *name)
{
    const char *list = tc_section_text(section, "assumed");
    size_t length = strlen(name);
    for (const char *at = list; at && (at = strstr(at, name)) != NULL; at += length)
        if ((at == list || strchr(", ", at[-1])) && (at[length] == '\0' || strchr(", ", at[length])))
            return true;
    return false;
}

/* Whether a figure has to be given that the section does not have. */
static bool lacks(const struct tc_section *section, const struct tc_key *key)
{
    const char *template = tc_section_text(section, "template");
    if (!key->fallback || key->ask != TC_ASK_NEEDED)
        return !key->fallback;
    if (key->instead && tc_section_text(section, key->instead))
        return false;
    return !*key->fallback || (template && strcmp(template, "yes") == 0);
}

/* The row of a key of a section, or of a thing of a price list. */
static void add_key(struct tc_sheet *sheet, const char *kind, const struct tc_section *section,
                    const struct tc_key *key, const char *name)
{
    const char *text = tc_section_text(section, name);
    bool defaulted = !text && key->fallback && *key->fallback && !lacks(section, key);
    tc_fill_choice(sheet, name, name);
    tc_sheet_about(sheet, tc_caution_subject(kind, key)); /* whose caution holds for it */
    if (!text && lacks(section, key))
        tc_sheet_missing(sheet, 0, "missing");
    else
        tc_sheet_text(sheet, 0, text ? text : key->fallback);
    bool assumed = (text && is_assumed(section, name)) || (defaulted && key->ask == TC_ASK_NEEDED);
    tc_sheet_text(sheet, 1, assumed ? "assumed" : defaulted ? "default" : "");
    tc_sheet_text(sheet, 2, key->help);
}

/* Everything that a price list can have a price for, those with one first. */
static void add_prices(const struct tc_state *state, const struct tc_section *section, const char *kind,
                       struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    enum tc_slot slot;
    bool part = tc_slot_find(kind, &slot);
    for (int priced = 1; priced >= 0; priced--) {
        for (size_t i = 0; !part && i < stock->tank_count; i++) {
            const char *name = stock->tanks[i].goods.name, *text = tc_section_text(section, name);
            if ((text != NULL) == (priced == 1))
                add_key(sheet, "price", section, &price_key, name);
        }
        for (size_t i = 0; part && i < stock->part_count; i++) {
            const char *name = stock->parts[i].goods.name, *text = tc_section_text(section, name);
            if (stock->parts[i].slot == slot && (text != NULL) == (priced == 1))
                add_key(sheet, "price", section, &price_key, name);
        }
    }
}

/* "prices lowmere-shop light", of a row of a form that is about what a shop asks; false for other rows. */
static bool price_list_of(const struct head *form, const char *row, char head[TC_SECTION_HEAD_SIZE])
{
    if (strncmp(row, at_shop, strlen(at_shop)) != 0)
        return false;
    snprintf(head, TC_SECTION_HEAD_SIZE, "prices %s %s", row + strlen(at_shop), form->kind);
    return true;
}

/* What each shop asks for a tank or part. */
static void add_asked(const struct tc_state *state, const struct head *form, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    const struct tc_kind *kind = tc_kind_find(form->kind);
    const struct tc_goods *goods = tc_goods_find(kind, stock, form->name);
    if (!goods)
        return;
    for (size_t i = 0; i < stock->shop_count; i++) {
        const struct tc_shop *shop = &stock->shops[i];
        const struct tc_region *region = tc_stock_region(stock, shop->region);
        char number[TC_NUMBER_SIZE];
        double amount;
        if (!region)
            continue;
        const char *value = tc_sheet_format(sheet, "%s%s", at_shop, shop->name);
        tc_fill_choice(sheet, value, value);
        tc_sheet_about(sheet, form->kind);
        if (tc_stock_asked(stock, region, shop, kind->slot, goods, &amount))
            tc_sheet_text(sheet, 0,
                          tc_sheet_format(sheet, "%s %s",
                                          tc_number_write(number, amount, region->currency.exponent, false),
                                          region->currency.code));
        else
            tc_sheet_missing(sheet, 0, "not sold");
        tc_sheet_text(sheet, 1, shop->invented ? "invented" : "");
        tc_sheet_text(sheet, 2, tc_sheet_format(sheet, "what the shop asks, in %s", shop->region));
    }
}

static void fill_form(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    struct head head = take_apart(about.head);
    const struct tc_section *section = tc_section_of(state, about.head);
    bool own = tc_section_is_own(state, section);
    tc_sheet_start(sheet, "form", 3);
    tc_sheet_head(sheet,
                  tc_sheet_format(sheet,
                                  own ? "%s: Del takes a figure out, Left undoes"
                                      : "%s came with the program: Right copies it",
                                  about.head),
                  "", "");
    tc_fill_words(sheet, 0, "value");
    tc_fill_words(sheet, 1, "");
    tc_fill_words(sheet, 2, "");
    for (size_t i = 0; head.table && i < head.table->count; i++)
        add_key(sheet, head.kind, section, &head.table->keys[i], head.table->keys[i].name);
    add_asked(state, &head, sheet);
    const char *kind = strrchr(about.head, ' ');
    if (!head.table && kind)
        add_prices(state, section, kind + 1, sheet);
}

static void type_key(struct tc_state *state, const struct tc_list_about *about, const struct tc_key *key,
                     const char *text)
{
    tc_prompt_open(state, &key_prompt, text ? text : "");
    struct tc_prompt *prompt = &state->prompt;
    struct head head = take_apart(about->head);
    prompt->caution = tc_caution_of_subject(tc_caution_subject(head.kind, key));
    snprintf(prompt->title, sizeof prompt->title, "%s: %s", about->head, about->key);
    snprintf(prompt->hint, sizeof prompt->hint, "%s; like %s", key->help, key->example);
    tc_clean(prompt->head, sizeof prompt->head, about->head);
    tc_clean(prompt->path, sizeof prompt->path, about->key);
}

static void fill_choices(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    char title[2 * TC_SECTION_HEAD_SIZE];
    struct head head = take_apart(about.head);
    snprintf(title, sizeof title, "%s: %s", about.head, about.key);
    tc_key_choice_fill(state, key_of(&head, about.key), title, sheet);
}

static const char *present_choice(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const char *text = tc_section_text(tc_section_of(state, about.head), about.key);
    struct head head = take_apart(about.head);
    const char *fallback = key_of(&head, about.key)->fallback;
    snprintf(buffer, TC_NAME_SIZE, "%.*s", TC_NAME_SIZE - 1, text ? text : fallback ? fallback : "");
    return buffer;
}

static void take_choice(struct tc_state *state, struct tc_list_about about, const char *value)
{
    struct head head = take_apart(about.head);
    tc_state_pop(state);
    if (strcmp(value, TC_KEY_CHOICE_TYPED) == 0)
        type_key(state, &about, key_of(&head, about.key), "");
    else if (tc_section_set(state, about.head, about.key, value))
        tc_list_go_on(state);
}

static const struct tc_list_kind choice_list = {
    .fill = fill_choices,
    .present = present_choice,
    .take = take_choice,
};

/* A price in the list of a shop, which has to be the user's own. */
static void take_price(struct tc_state *state, struct tc_list_about about, const char *name)
{
    char shop[TC_SECTION_HEAD_SIZE];
    snprintf(shop, sizeof shop, "shop %s", name + strlen(at_shop));
    if (!tc_section_is_own(state, tc_section_of(state, shop))) {
        tc_state_say(state, "This shop came with the program: Right copies one, in the list of shops.");
        return;
    }
    struct head head = take_apart(about.head);
    tc_clean(about.key, sizeof about.key, head.name);
    price_list_of(&head, name, about.head);
    type_key(state, &about, &price_key, tc_section_text(tc_section_of(state, about.head), about.key));
}

static void take_key(struct tc_state *state, struct tc_list_about about, const char *name)
{
    char list[TC_SECTION_HEAD_SIZE];
    struct head head = take_apart(about.head);
    if (price_list_of(&head, name, list)) {
        take_price(state, about, name);
        return;
    }
    const struct tc_section *section = tc_section_of(state, about.head);
    const struct tc_key *key = key_of(&head, name);
    const char *text = tc_section_text(section, name);
    if (!tc_section_is_own(state, section)) {
        tc_state_say(state, "This came with the program: Right copies it under a name of your own.");
        return;
    }
    if (!key)
        return;
    tc_clean(about.key, sizeof about.key, name);
    if (tc_key_choice(key))
        tc_list_open_over(state, &choice_list, about);
    else
        type_key(state, &about, key, text);
}

/* The section and the key that a row of the form stands for: its own, or those of a shop's list. */
static void row_of(const struct tc_list_about *about, const char *row, char head[TC_SECTION_HEAD_SIZE],
                   char key[2 * TC_NAME_SIZE])
{
    struct head form = take_apart(about->head);
    if (price_list_of(&form, row, head)) {
        snprintf(key, 2 * TC_NAME_SIZE, "%s", form.name);
        return;
    }
    memcpy(head, about->head, TC_SECTION_HEAD_SIZE);
    snprintf(key, 2 * TC_NAME_SIZE, "%s", row);
}

static bool key_back_possible(const struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE], key[2 * TC_NAME_SIZE];
    row_of(&tc_state_list_seen(state)->about, name, head, key);
    const struct tc_section *section = tc_section_of(state, head);
    return tc_section_is_own(state, section) && tc_section_text(section, key) != NULL;
}

static void key_back(struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE], key[2 * TC_NAME_SIZE];
    row_of(&tc_state_list(state)->about, name, head, key);
    tc_section_set(state, head, key, "");
}

/* ------------------------------------------------------------------------ new, copied */

/* The words of a price list's head; false where they are not two names. */
static bool read_two(const char *text, char head[TC_SECTION_HEAD_SIZE])
{
    char shop[TC_NAME_SIZE], kind[TC_NAME_SIZE];
    size_t length = strcspn(text, " ");
    char first[TC_NAME_SIZE];
    snprintf(first, sizeof first, "%.*s", (int)length, text);
    if (!tc_name_mend(shop, first) || !tc_name_mend(kind, text + length + strspn(text + length, " ")))
        return false;
    snprintf(head, TC_SECTION_HEAD_SIZE, "prices %s %s", shop, kind);
    return true;
}

/* The head of a section of a kind by a name that was typed; false, with a problem, where it is none. */
static bool read_head(struct tc_state *state, const char *kind, const char *text,
                      char head[TC_SECTION_HEAD_SIZE])
{
    char name[TC_NAME_SIZE];
    text += strspn(text, " ");
    if (!tc_key_table_find(kind)) {
        if (!read_two(text, head))
            return tc_prompt_refuse(state, "write the shop and the kind of thing, like: my-shop light");
    } else if (!tc_name_mend(name, text)) {
        return tc_prompt_refuse(state, "write a name: %s", TC_NAME_RULE);
    } else if (tc_section_reserved(kind, name)) {
        return tc_prompt_refuse(state, "'%s' has a meaning of its own and cannot be a name", name);
    } else {
        snprintf(head, TC_SECTION_HEAD_SIZE, "%s %s", kind, name);
    }
    if (tc_section_is_own(state, tc_section_of(state, head)))
        return tc_prompt_refuse(state, "there is a [%s] already", head);
    return true;
}

/* state->prompt.path holds the kind, prompt.head what is copied, or "". */
static void name_taken(struct tc_state *state, const char *text)
{
    char head[TC_SECTION_HEAD_SIZE], from[TC_SECTION_HEAD_SIZE];
    memcpy(from, state->prompt.head, sizeof from);
    if (!read_head(state, state->prompt.path, text, head) || !tc_section_make(state, head, from))
        return;
    tc_state_pop(state);
    bool from_form = tc_state_list(state) && strcmp(tc_state_list(state)->about.head, from) == 0;
    if (from_form) /* the copy takes the place of what it was copied from */
        tc_state_pop(state);
    tc_form_open(state, head);
}

static const struct tc_prompt_kind name_prompt = {.title = "", .hint = "", .taken = name_taken};

void tc_form_ask_name(struct tc_state *state, const char *kind, const char *from)
{
    tc_prompt_open(state, &name_prompt, "");
    struct tc_prompt *prompt = &state->prompt;
    bool two = !tc_key_table_find(kind);
    snprintf(prompt->title, sizeof prompt->title, *from ? "A copy of %s called" : "A new %s called",
             *from ? from : kind);
    snprintf(prompt->hint, sizeof prompt->hint,
             two ? "a shop and a kind of thing, like: my-shop light" : "a word of your own, like: my-%s",
             kind);
    tc_clean(prompt->path, sizeof prompt->path, kind);
    tc_clean(prompt->head, sizeof prompt->head, from);
}

/* Right copies the section of a form, Left takes the last writing back. */
static void step_form(struct tc_state *state, const char *value, int by)
{
    char from[TC_SECTION_HEAD_SIZE];
    (void)value;
    memcpy(from, tc_state_list(state)->about.head, sizeof from);
    struct head head = take_apart(from);
    if (by < 0)
        tc_section_undo(state);
    else if (tc_section_of(state, from))
        tc_form_ask_name(state, head.kind, from);
}

static const struct tc_list_kind form_list = {
    .fill = fill_form,
    .take = take_key,
    .step = step_form,
    .back = key_back,
    .back_possible = key_back_possible,
};

void tc_form_open(struct tc_state *state, const char *head)
{
    struct tc_list_about about = {.candidate = -1};
    tc_clean(about.head, sizeof about.head, head);
    tc_list_open_over(state, &form_list, about);
}
