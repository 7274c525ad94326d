/* SPDX-License-Identifier: MIT */
#include "sheet/setup_step.h"

#include <math.h>
#include <string.h>

#include "sheet/phrase.h"

/* The wishes of a setup that have words of their own. */
enum wish { FILTER, LID, LIGHT, BED, WISHES };

static bool differs(const struct tc_setup *a, const struct tc_setup *b, enum wish wish)
{
    switch (wish) {
    case FILTER: return a->filter != b->filter;
    case LID: return a->lid != b->lid;
    case LIGHT: return (a->ppfd > 0) != (b->ppfd > 0);
    case BED: return (a->bed_depth > 0) != (b->bed_depth > 0);
    case WISHES: break;
    }
    return false;
}

static const char *wish_words(const struct tc_setup *setup, enum wish wish)
{
    switch (wish) {
    case FILTER:
        return setup->filter == TC_FILTER_SPONGE     ? "a sponge filter"
               : setup->filter == TC_FILTER_HANG_ON  ? "a hang-on filter"
               : setup->filter == TC_FILTER_CANISTER ? "a canister filter"
                                                     : "no filter";
    case LID: return setup->lid ? "a lid" : "an open top";
    case LIGHT: return setup->ppfd > 0 ? "light" : "no light";
    case BED: return setup->bed_depth > 0 ? "substrate" : "a bare bottom";
    case WISHES: break;
    }
    return "";
}

static bool same_figure(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

/* Whether two setups ask for the same water, heat and habits: what money depends on beside the wishes. */
static bool run_alike(const struct tc_setup *a, const struct tc_setup *b)
{
    return a->stand == b->stand && a->heater == b->heater && a->shared_air == b->shared_air &&
           a->heater_count == b->heater_count && same_figure(a->turnover, b->turnover) &&
           same_figure(a->temperature, b->temperature) && same_figure(a->heat_loss, b->heat_loss) &&
           same_figure(a->heater_margin, b->heater_margin) && same_figure(a->activity, b->activity) &&
           same_figure(a->change_share, b->change_share) && same_figure(a->sheltered, b->sheltered) &&
           same_figure(a->change_interval, b->change_interval);
}

/* Whether two setups light alike and lay the same bed, where both do. */
static bool wish_alike(const struct tc_setup *a, const struct tc_setup *b)
{
    bool lit = a->ppfd > 0 && b->ppfd > 0, bedded = a->bed_depth > 0 && b->bed_depth > 0;
    bool light = same_figure(a->ppfd, b->ppfd) && same_figure(a->light_hours, b->light_hours) &&
                 same_figure(a->light_start, b->light_start) && same_figure(a->attenuation, b->attenuation);
    return (!lit || light) && (!bedded || same_figure(a->bed_depth, b->bed_depth));
}

/* The one wish in which they differ, all else being alike; or WISHES. */
static enum wish only_wish(const struct tc_setup *a, const struct tc_setup *b)
{
    enum wish only = WISHES;
    int count = 0;
    for (int wish = 0; wish < WISHES; wish++) {
        if (!differs(a, b, (enum wish)wish))
            continue;
        only = (enum wish)wish;
        count++;
    }
    return count == 1 && run_alike(a, b) && wish_alike(a, b) ? only : WISHES;
}

static void tell(struct tc_sheet *sheet, const struct tc_study *study, const struct tc_alternative *first,
                 const struct tc_alternative *other)
{
    char money[TC_WORDS_SIZE], years[TC_WORDS_SIZE];
    enum tc_status status = TC_OK;
    tc_money more = tc_money_subtract(other->cost.present_value, first->cost.present_value, &status);
    if (status != TC_OK || more == 0)
        return;
    enum wish wish = only_wish(first->c.setup, other->c.setup);
    const char *is = wish == WISHES ? other->c.setup->name : wish_words(other->c.setup, wish);
    const char *was = wish == WISHES ? first->c.setup->name : wish_words(first->c.setup, wish);
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s: %s instead of %s %s %s over %s.", other->plan->tank, is, was,
                  more > 0 ? "costs" : "saves",
                  tc_phrase_money(money, more > 0 ? more : -more, study->region.currency),
                  tc_phrase_years(years, study->plan.years));
}

void tc_setup_steps_tell(struct tc_sheet *sheet, const struct tc_study *study)
{
    for (int i = 1; i < study->alternative_count; i++) {
        const struct tc_alternative *other = &study->alternatives[i];
        for (int k = 0; k < i; k++) {
            const struct tc_alternative *first = &study->alternatives[k];
            bool same_tank = strcmp(first->plan->tank, other->plan->tank) == 0 &&
                             first->plan->quantity == other->plan->quantity;
            if (!same_tank || first->c.setup == other->c.setup || first->cost.incomplete ||
                other->cost.incomplete)
                continue;
            tell(sheet, study, first, other);
            break;
        }
    }
}
