/* SPDX-License-Identifier: MIT */
#include "sheet/advantage.h"

#include <math.h>

#include "sheet/phrase.h"

enum { FACTS_TOLD = 2 };

static const double NOTABLE = 0.05;

/* One thing that a tank has over another. */
struct fact {
    double share;     /* of the other's */
    const char *text; /* after "gives", or after nothing where it has a verb */
    bool verb;
};

struct facts {
    struct fact at[FACTS_TOLD]; /* the most telling first */
    int count;
};

static void add_fact(struct facts *facts, double share, const char *text, bool verb)
{
    int at = facts->count;
    if (!(share >= NOTABLE))
        return;
    while (at > 0 && facts->at[at - 1].share < share)
        at--;
    if (at >= FACTS_TOLD)
        return;
    for (int i = facts->count < FACTS_TOLD ? facts->count : FACTS_TOLD - 1; i > at; i--)
        facts->at[i] = facts->at[i - 1];
    facts->at[at] = (struct fact){share, text, verb};
    if (facts->count < FACTS_TOLD)
        facts->count++;
}

static double height_for_plants(const struct tc_alternative *alternative)
{
    return alternative->equipment.size.water_depth - alternative->c.setup->bed_depth;
}

/* "25 % more bottom", "14 times the bottom" */
static const char *more_of(struct tc_sheet *sheet, double have, double had, const char *what)
{
    double times = had > 0 ? have / had : 1;
    if (times >= 9.5)
        return tc_sheet_format(sheet, "%.0f times the %s", times, what);
    if (times >= 2)
        return tc_sheet_format(sheet, "%.1f times the %s", times, what);
    return tc_sheet_format(sheet, "%.0f %% %s %s", 100 * fabs(times - 1), times < 1 ? "less" : "more", what);
}

const char *tc_advantage_water(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b)
{
    return more_of(sheet, advice->rating[a].merits.of[TC_RESPECT_WATER],
                   advice->rating[b].merits.of[TC_RESPECT_WATER], "water");
}

static double share_more(double have, double had)
{
    return had > 0 ? have / had - 1 : 0;
}

static void add_lengths(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b,
                        struct facts *facts)
{
    const struct tc_study *study = advice->study;
    const struct tc_merits *x = &advice->rating[a].merits, *y = &advice->rating[b].merits;
    char more[TC_WORDS_SIZE], less[TC_WORDS_SIZE];
    double swim = x->of[TC_RESPECT_SWIM], swum = y->of[TC_RESPECT_SWIM];
    add_fact(facts, share_more(swim, swum),
             tc_sheet_format(sheet, "%s more to swim", tc_phrase_length(more, swim - swum, study->units)),
             false);
    double high = height_for_plants(&study->alternatives[a]),
           low = height_for_plants(&study->alternatives[b]);
    add_fact(
        facts, share_more(high, low),
        tc_sheet_format(sheet, "%s more height for plants", tc_phrase_length(more, high - low, study->units)),
        false);
    double near = x->of[TC_RESPECT_REACH], far = y->of[TC_RESPECT_REACH];
    add_fact(facts, far > 0 ? 1 - near / far : 0,
             tc_sheet_format(sheet, "an easier reach (%s, not %s)",
                             tc_phrase_length(less, near, study->units),
                             tc_phrase_length(more, far, study->units)),
             false);
    double narrow = x->of[TC_RESPECT_WALL], wide = y->of[TC_RESPECT_WALL];
    add_fact(facts, wide > 0 ? 1 - narrow / wide : 0,
             tc_sheet_format(sheet, "saves %s of wall", tc_phrase_length(less, wide - narrow, study->units)),
             true);
}

const char *tc_advantage_words(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b,
                               enum tc_advantages which)
{
    const struct tc_merits *x = &advice->rating[a].merits, *y = &advice->rating[b].merits;
    struct facts facts = {.count = 0};
    if (which == TC_ADVANTAGES_ALL)
        add_fact(&facts, share_more(x->of[TC_RESPECT_WATER], y->of[TC_RESPECT_WATER]),
                 tc_advantage_water(sheet, advice, a, b), false);
    add_fact(&facts, share_more(x->of[TC_RESPECT_BOTTOM], y->of[TC_RESPECT_BOTTOM]),
             more_of(sheet, x->of[TC_RESPECT_BOTTOM], y->of[TC_RESPECT_BOTTOM], "bottom"), false);
    add_fact(&facts, share_more(x->of[TC_RESPECT_TANKS], y->of[TC_RESPECT_TANKS]),
             tc_sheet_format(sheet, "%.0f more tanks", x->of[TC_RESPECT_TANKS] - y->of[TC_RESPECT_TANKS]),
             false);
    add_lengths(sheet, advice, a, b, &facts);
    const char *text = "";
    for (int pass = 0; pass < 2; pass++) /* what is given stands before the verbs */
        for (int i = 0; i < facts.count; i++)
            if (facts.at[i].verb == (pass == 1))
                text = tc_sheet_format(sheet, "%s%s%s%s", text, *text ? " and " : "",
                                       !*text && !facts.at[i].verb ? "gives " : "", facts.at[i].text);
    return text;
}

/* -------------------------------------------------------------------------- equipment */

static int filters(const struct tc_alternative *alternative)
{
    const struct tc_filled *filled = &alternative->equipment.slot[TC_SLOT_FILTER];
    return filled->offer ? filled->count : 0;
}

/* True if the filters are so many because of the tank's length: their flow alone would take fewer. */
static bool by_length(const struct tc_alternative *alternative)
{
    const struct tc_filled *filled = &alternative->equipment.slot[TC_SLOT_FILTER];
    return (filled->count - 1) * filled->offer->part->as.filter.flow >= filled->demand.flow;
}

/* How many parts there are to choose from; -1 where the slot stays empty or somebody pinned one. */
static int choices(const struct tc_alternative *alternative, enum tc_slot slot)
{
    const struct tc_filled *filled = &alternative->equipment.slot[slot];
    int offered;
    if (!filled->offer || filled->pinned)
        return -1;
    return tc_equipment_choices(&alternative->c, &alternative->equipment, slot, &offered);
}

/* "33-long has only 1 stand to choose from, 20-high has 4": where one has but one to choose from, the other
 * several. */
static const char *scarce(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b,
                          enum tc_slot slot)
{
    int x = choices(&advice->study->alternatives[a], slot),
        y = choices(&advice->study->alternatives[b], slot);
    if (x < 0 || y < 0 || (x > 1) == (y > 1))
        return "";
    int one = x <= 1 ? a : b, several = x <= 1 ? b : a;
    return tc_sheet_format(sheet, "%s has only 1 %s to choose from, %s has %d",
                           tc_advice_head(sheet, advice, one), tc_slot_word(slot),
                           tc_advice_head(sheet, advice, several), x <= 1 ? y : x);
}

const char *tc_advantage_equipment(struct tc_sheet *sheet, const struct tc_advice *advice, int a, int b)
{
    int x = filters(&advice->study->alternatives[a]), y = filters(&advice->study->alternatives[b]);
    int many = x > y ? a : b, few = x > y ? b : a;
    const char *text = "";
    if (x > 0 && y > 0 && x != y)
        text = tc_sheet_format(sheet, "%s needs %d filters%s, %s %d", tc_advice_head(sheet, advice, many),
                               x > y ? x : y,
                               by_length(&advice->study->alternatives[many]) ? " to leave no dead spot" : "",
                               tc_advice_head(sheet, advice, few), x > y ? y : x);
    static const enum tc_slot slots[] = {TC_SLOT_STAND, TC_SLOT_LID};
    for (size_t i = 0; i < sizeof slots / sizeof slots[0]; i++) {
        const char *more = scarce(sheet, advice, a, b, slots[i]);
        if (*more && !*text)
            text = more;
        else if (*more)
            return tc_sheet_format(sheet, "%s; %s", text, more);
    }
    return text;
}
