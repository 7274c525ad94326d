/* SPDX-License-Identifier: MIT */
#include "sheet/advice.h"

#include <math.h>
#include <string.h>

#include "core/base/number.h"
#include "sheet/phrase.h"
#include "sheet/wall_layout.h"

static const double SAME_SHARE = 0.02, CHANCE_LOW = 0.2, CHANCE_HIGH = 0.8, UNLIKE = 1.5;

/* ------------------------------------------------------------------------------- rating */

bool tc_same_score(double a, double b)
{
    return fabs(a - b) <= SAME_SHARE * fabs(fmin(a, b));
}

bool tc_same_cost(tc_money a, tc_money b)
{
    return tc_same_score((double)a, (double)b);
}

static struct tc_merits merits_of(const struct tc_alternative *alternative)
{
    const struct tc_tank_size *size = &alternative->equipment.size;
    int quantity = alternative->plan ? alternative->plan->quantity : 1;
    return (struct tc_merits){{
        [TC_RESPECT_COST] = (double)alternative->cost.present_value,
        [TC_RESPECT_WATER] = quantity * size->water_volume,
        [TC_RESPECT_BOTTOM] = quantity * size->bottom_area,
        [TC_RESPECT_SWIM] = size->swim_length,
        [TC_RESPECT_REACH] = size->reach,
        [TC_RESPECT_WALL] = quantity * alternative->c.tank.length,
        [TC_RESPECT_TANKS] = alternative->layout ? alternative->layout->mix.tanks : 0,
    }};
}

bool tc_rating_compared(const struct tc_rating *rating)
{
    return rating->complete && rating->suits;
}

static bool ranks_before(const struct tc_advice *advice, int a, int b)
{
    return b < 0 || advice->rating[a].score < advice->rating[b].score;
}

static void rank(struct tc_advice *advice)
{
    advice->best = advice->next = -1;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i])) {
            advice->compared++;
            if (ranks_before(advice, i, advice->best))
                advice->best = i;
        }
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i]) && i != advice->best &&
            ranks_before(advice, i, advice->next))
            advice->next = i;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i]) &&
            (i == advice->best || tc_advice_same(advice, advice->best, i)))
            advice->tied++;
}

/* Who is beaten in everything: among those compared only. */
static enum tc_status find_beaten(struct tc_advice *advice)
{
    struct tc_merits merits[TC_CANDIDATES_MAX] = {{{0}}};
    int index[TC_CANDIDATES_MAX], beaten_by[TC_CANDIDATES_MAX], count = 0;
    for (int i = 0; i < advice->study->alternative_count; i++)
        if (tc_rating_compared(&advice->rating[i])) {
            merits[count] = advice->rating[i].merits;
            index[count++] = i;
        }
    enum tc_status status = tc_dominance_find(merits, (size_t)count, beaten_by);
    for (int k = 0; status == TC_OK && k < count; k++)
        advice->rating[index[k]].beaten_by = beaten_by[k] < 0 ? -1 : index[beaten_by[k]];
    return status;
}

const char *tc_goal_word(enum tc_goal goal)
{
    static const char *const words[] = {"", "water", "bottom", "length to swim", "tanks"};
    return words[goal];
}

double tc_advice_score(const struct tc_advice *advice, int i, tc_money present_value)
{
    struct tc_merits merits = advice->rating[i].merits;
    merits.of[TC_RESPECT_COST] = (double)present_value;
    return tc_goal_score(&merits, advice->goal);
}

enum tc_status tc_advice_make(struct tc_advice *advice, const struct tc_study *study)
{
    *advice = (struct tc_advice){.study = study, .goal = study->plan.goal, .best = -1, .next = -1};
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        struct tc_rating *rating = &advice->rating[i];
        *rating = (struct tc_rating){
            .complete = !alternative->cost.incomplete,
            .suits = alternative->suit.suits,
            .beaten_by = -1,
            .merits = merits_of(alternative),
        };
        rating->score = tc_advice_score(advice, i, alternative->cost.present_value);
    }
    enum tc_status status = tc_bands_find(&advice->bands, study);
    if (status == TC_OK)
        status = find_beaten(advice);
    rank(advice);
    return status;
}

static bool open_by_guesses(const struct tc_advice *advice, int a, int b)
{
    double chance = advice->bands.chance[a][b];
    return advice->goal == TC_GOAL_COST && chance >= CHANCE_LOW && chance <= CHANCE_HIGH; /* false for NAN */
}

static bool same_score(const struct tc_advice *advice, int a, int b)
{
    return tc_same_score(advice->rating[a].score, advice->rating[b].score);
}

bool tc_advice_same(const struct tc_advice *advice, int a, int b)
{
    return open_by_guesses(advice, a, b) || same_score(advice, a, b);
}

bool tc_advice_toss_up(const struct tc_advice *advice, int a, int b)
{
    return open_by_guesses(advice, a, b) && !same_score(advice, a, b);
}

bool tc_advice_alike(const struct tc_advice *advice, int a, int b)
{
    const struct tc_alternative *x = &advice->study->alternatives[a], *y = &advice->study->alternatives[b];
    if (x->index < 0 || y->index < 0 || strcmp(x->c.setup->name, y->c.setup->name) != 0)
        return false;
    return tc_merits_alike(&advice->rating[a].merits, &advice->rating[b].merits);
}

bool tc_advice_unlike(const struct tc_advice *advice, int a, int b)
{
    double x = advice->rating[a].merits.of[TC_RESPECT_WATER],
           y = advice->rating[b].merits.of[TC_RESPECT_WATER];
    return fmin(x, y) > 0 && fmax(x, y) >= UNLIKE * fmin(x, y);
}

const char *tc_advice_head(struct tc_sheet *sheet, const struct tc_advice *advice, int i)
{
    const struct tc_alternative *alternative = &advice->study->alternatives[i];
    if (alternative->index < 0)
        return tc_sheet_format(sheet, "the wall \"%s\"", alternative->head);
    return alternative->head;
}

tc_money tc_advice_present(const struct tc_advice *advice, int i)
{
    return advice->study->alternatives[i].cost.present_value;
}

const char *tc_advice_money(struct tc_sheet *sheet, const struct tc_study *study, tc_money amount)
{
    char words[TC_WORDS_SIZE];
    return tc_sheet_copy(sheet, tc_phrase_money(words, amount, study->region.currency));
}

const char *tc_advice_amount(struct tc_sheet *sheet, const struct tc_study *study, tc_money amount)
{
    char number[TC_NUMBER_SIZE];
    return tc_sheet_copy(sheet, tc_number_write_fixed(number, amount, study->region.currency.exponent, true));
}
