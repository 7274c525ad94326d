/* SPDX-License-Identifier: MIT */
#include "screen/section_list.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/kind.h"
#include "profile/section.h"
#include "screen/change.h"
#include "screen/form.h"
#include "screen/list_fill.h"
#include "screen/lists.h"
#include "screen/new_tank.h"
#include "screen/price_page.h"
#include "screen/section_file.h"

/* A row of a list that stands for something new; no name looks like it. */
static const char another[] = "+";

/* The row that stands for the prices of all shops, side by side; likewise. */
static const char compared[] = "=";

/* ---------------------------------------------------------------- sections of a kind */

static void fill_sections(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_sections *sections = state->options->stock->sections;
    tc_sheet_start(sheet, "sections", 3);
    tc_sheet_head(sheet, tc_sheet_format(sheet, "%s: Right copies, Del deletes, Left undoes", about.head), "",
                  "");
    tc_fill_words(sheet, 0, "whose");
    tc_fill_words(sheet, 1, "");
    tc_fill_words(sheet, 2, "");
    tc_fill_choice(sheet, "another one", another);
    tc_sheet_text(sheet, 2, "a new one, under a name of your own");
    const struct tc_kind *kind = tc_kind_find(about.head);
    if (kind && tc_kind_is_goods(kind)) {
        tc_fill_choice(sheet, "compare prices", compared);
        tc_sheet_text(sheet, 2, "what each shop asks, side by side");
    }
    for (int own = 1; own >= 0; own--) {
        for (size_t i = 0; sections && i < sections->count; i++) {
            const struct tc_section *section = sections->items[i];
            const char *name = section->ini->name + strlen(section->kind) + 1, *title;
            if (section->replaced || strcmp(section->kind, about.head) != 0 ||
                tc_section_is_own(state, section) != (own == 1))
                continue;
            title = tc_section_text(section, "title");
            tc_fill_choice(sheet, name, name);
            tc_sheet_about(sheet, about.head);
            tc_sheet_text(sheet, 0, tc_section_whose(state, section));
            tc_sheet_text(sheet, 1, section->bad ? "has faults: !" : "");
            tc_sheet_text(sheet, 2, title ? title : "");
        }
    }
}

/* "light strip-60" of a list of lights. */
static void head_of(const struct tc_list_about *about, const char *name, char head[TC_SECTION_HEAD_SIZE])
{
    snprintf(head, TC_SECTION_HEAD_SIZE, "%.*s %.*s", TC_NAME_SIZE, about->head, 2 * TC_NAME_SIZE - 2, name);
}

static void take_section(struct tc_state *state, struct tc_list_about about, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE];
    head_of(&about, name, head);
    if (strcmp(name, compared) == 0)
        tc_price_page_open(state);
    else if (strcmp(name, another) != 0)
        tc_form_open(state, head);
    else if (strcmp(about.head, "tank") == 0)
        tc_new_tank(state, 0);
    else
        tc_form_ask_name(state, about.head, "");
}

static void step_section(struct tc_state *state, const char *name, int by)
{
    char head[TC_SECTION_HEAD_SIZE];
    head_of(&tc_state_list(state)->about, name, head);
    if (by < 0)
        tc_section_undo(state);
    else if (*name && strcmp(name, another) != 0 && strcmp(name, compared) != 0)
        tc_form_ask_name(state, tc_state_list(state)->about.head, head);
}

static bool section_back_possible(const struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE];
    head_of(&tc_state_list_seen(state)->about, name, head);
    return tc_section_is_own(state, tc_section_of(state, head));
}

static void section_back(struct tc_state *state, const char *name)
{
    char head[TC_SECTION_HEAD_SIZE];
    head_of(&tc_state_list(state)->about, name, head);
    if (tc_section_delete(state, head))
        tc_state_say(state, "%s is deleted; Left brings it back.", name);
}

static const struct tc_list_kind section_list = {
    .fill = fill_sections,
    .take = take_section,
    .step = step_section,
    .back = section_back,
    .back_possible = section_back_possible,
};

/* ------------------------------------------------------------------------------ kinds */

/* The row that stands for what is open. */
static const char this_plan[] = "this plan";

static void add_kind(const struct tc_state *state, struct tc_sheet *sheet, const char *kind, const char *help)
{
    const struct tc_sections *sections = state->options->stock->sections;
    int own = 0, all = 0;
    for (size_t i = 0; sections && i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        if (section->replaced || strcmp(section->kind, kind) != 0)
            continue;
        all++;
        own += tc_section_is_own(state, section);
    }
    tc_fill_choice(sheet, kind, kind);
    tc_sheet_about(sheet, ""); /* a kind has no dangers; its things do */
    tc_sheet_number(sheet, 0, own, 0);
    tc_sheet_number(sheet, 1, all, 0);
    tc_sheet_text(sheet, 2, help);
}

static void fill_kinds(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    tc_sheet_start(sheet, "kinds", 3);
    tc_sheet_head(sheet, "What the profiles hold", "", "");
    tc_sheet_column(sheet, 0, "yours", "");
    tc_sheet_column(sheet, 1, "all", "");
    tc_fill_words(sheet, 2, "");
    for (size_t i = 0; tc_kind_at(i); i++) {
        const struct tc_kind *kind = tc_kind_at(i);
        if (kind->folder)
            add_kind(state, sheet, kind->name,
                     kind->table ? kind->table->help : "what a shop asks for the things of one kind");
    }
    tc_fill_choice(sheet, "this plan", this_plan);
    tc_sheet_text(sheet, 2, "all figures of the present plan, its wall and its place for a tank");
}

static void take_kind(struct tc_state *state, struct tc_list_about about, const char *kind)
{
    if (strcmp(kind, this_plan) == 0) {
        tc_change_assumptions(state, 0);
        return;
    }
    if (strcmp(kind, "plan") == 0) {
        tc_lists_open(state, TC_LISTS_PLANS);
        return;
    }
    tc_clean(about.head, sizeof about.head, kind);
    tc_list_open_over(state, &section_list, about);
}

static const struct tc_list_kind kind_list = {.fill = fill_kinds, .take = take_kind};

void tc_section_kinds(struct tc_state *state, int unused)
{
    (void)unused;
    tc_list_open(state, &kind_list, (struct tc_list_about){.candidate = -1});
}
