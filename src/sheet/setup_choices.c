/* SPDX-License-Identifier: MIT */
#include "sheet/setup_choices.h"

#include "sheet/derive_life.h"
#include "sheet/phrase.h"
#include "sheet/study_deal.h"

/* Each makes a setup another one; false where it is so already. */
static bool take_filter(struct tc_setup *setup, enum tc_filter_kind kind)
{
    bool other = setup->filter != kind && setup->filter != TC_FILTER_NONE;
    setup->filter = kind;
    return other;
}

static bool take_sponge(struct tc_setup *setup)
{
    return take_filter(setup, TC_FILTER_SPONGE);
}

static bool take_hang_on(struct tc_setup *setup)
{
    return take_filter(setup, TC_FILTER_HANG_ON);
}

static bool take_canister(struct tc_setup *setup)
{
    return take_filter(setup, TC_FILTER_CANISTER);
}

static bool take_lid(struct tc_setup *setup)
{
    bool other = !setup->lid;
    setup->lid = true;
    return other;
}

static bool take_no_lid(struct tc_setup *setup)
{
    bool other = setup->lid;
    setup->lid = false;
    return other;
}

/* Where there is more light than this, it is there for plants, and none is no choice. */
#define LIGHT_TO_SEE_BY 20.0 /* umol/(m2 s) */

static bool take_no_light(struct tc_setup *setup)
{
    bool other = setup->ppfd > 0 && setup->ppfd <= LIGHT_TO_SEE_BY;
    setup->ppfd = 0;
    return other;
}

static const struct {
    const char *label;
    enum tc_slot slot;
    bool (*take)(struct tc_setup *setup);
} choices[] = {
    {"sponge filters", TC_SLOT_FILTER, take_sponge},
    {"hang-on filters", TC_SLOT_FILTER, take_hang_on},
    {"canister filters", TC_SLOT_FILTER, take_canister},
    {"a lid", TC_SLOT_LID, take_lid},
    {"no lid", TC_SLOT_LID, take_no_lid},
    {"no light", TC_SLOT_LIGHT, take_no_light},
};

/* Whether a choice is another one for an alternative; then its setup with that choice. */
static bool differs(const struct tc_alternative *alternative, size_t choice, struct tc_setup *setup)
{
    *setup = *alternative->c.setup;
    return !alternative->c.wish[choices[choice].slot].part && choices[choice].take(setup);
}

static bool any_differs(const struct tc_study *study, size_t choice)
{
    struct tc_setup setup;
    for (int i = 0; i < study->alternative_count; i++)
        if (differs(&study->alternatives[i], choice, &setup))
            return true;
    return false;
}

/* The cell of one alternative: what the choice adds to its present value. */
static enum tc_status add_cell(struct tc_sheet *sheet, const struct tc_study *study, int index, size_t choice)
{
    const struct tc_alternative *alternative = &study->alternatives[index];
    struct tc_alternative other = *alternative;
    struct tc_setup setup;
    if (!differs(alternative, choice, &setup))
        return TC_OK;
    other.c.setup = &setup;
    enum tc_status status =
        tc_study_cost(study, &other, &alternative->prices.deal, &other.equipment, &other.prices, &other.cost);
    if (status == TC_OVERFLOW)
        return status;
    if (status != TC_OK || other.equipment.slot[choices[choice].slot].missing) {
        tc_sheet_text(sheet, (size_t)index, tc_phrase_unfilled(alternative, choices[choice].slot));
        return TC_OK;
    }
    tc_money more = tc_money_subtract(other.cost.present_value, alternative->cost.present_value, &status);
    tc_sheet_money(sheet, (size_t)index, more, study->region.currency);
    tc_derive_put_more(sheet, (size_t)index, "what it would add to own", more,
                       tc_derive_present_value(tc_derive_of(sheet, study, &other)),
                       tc_derive_present_value(tc_derive_of(sheet, study, alternative)));
    tc_derive_forget(sheet); /* the other goes away */
    if (other.cost.incomplete || alternative->cost.incomplete)
        tc_sheet_mark(sheet, (size_t)index, TC_MARK_INCOMPLETE);
    return status;
}

enum tc_status tc_setup_choices_add(struct tc_sheet *sheet, const struct tc_study *study)
{
    char years[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    tc_sheet_row(sheet, TC_ROW_GROUP,
                 tc_sheet_format(sheet, "Other choices, and what they would add over %s",
                                 tc_phrase_years(years, study->plan.years)),
                 "");
    tc_sheet_about(sheet, "other choices");
    for (size_t choice = 0; choice < sizeof choices / sizeof choices[0]; choice++) {
        if (!any_differs(study, choice))
            continue;
        tc_sheet_row(sheet, TC_ROW_LINE, choices[choice].label, "");
        for (int i = 0; status == TC_OK && i < study->alternative_count; i++)
            status = add_cell(sheet, study, i, choice);
    }
    return status;
}
