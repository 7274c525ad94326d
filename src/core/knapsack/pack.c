/* SPDX-License-Identifier: MIT */
#include "core/knapsack/pack.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/knapsack/pack_branch.h"
#include "core/knapsack/pack_table.h"

struct tc_pack {
    int rows, goals;
    int64_t limit[TC_PACK_ROWS_MAX];
    int classes, class_room;
    int *first; /* the first choice of each class; the next class's is its end */
    int choices, choice_room;
    int *suggested;        /* NULL, or an answer to start from, as numbers in the whole pack */
    int suggested_classes; /* so many classes there were then */
    int64_t *figures;      /* goals gains, then rows uses, for each choice */
};

enum { CLASSES_MAX = 1 << 20, CHOICES_MAX = 1 << 24 };

static bool in_range(int64_t figure)
{
    return figure >= -TC_PACK_FIGURE_MAX && figure <= TC_PACK_FIGURE_MAX;
}

enum tc_status tc_pack_create(int rows, const int64_t *limits, int goals, struct tc_pack **pack)
{
    *pack = NULL;
    if (rows < 0 || rows > TC_PACK_ROWS_MAX || goals < 1 || goals > TC_PACK_GOALS_MAX)
        return TC_RANGE;
    for (int r = 0; r < rows; r++)
        if (!in_range(limits[r]))
            return TC_RANGE;
    struct tc_pack *made = calloc(1, sizeof *made);
    if (!made)
        return TC_NO_MEMORY;
    made->rows = rows;
    made->goals = goals;
    for (int r = 0; r < rows; r++)
        made->limit[r] = limits[r];
    *pack = made;
    return TC_OK;
}

void tc_pack_free(struct tc_pack *pack)
{
    if (!pack)
        return;
    free(pack->first);
    free(pack->figures);
    free(pack->suggested);
    free(pack);
}

enum tc_status tc_pack_class(struct tc_pack *pack)
{
    if (pack->classes == pack->class_room) {
        if (pack->class_room >= CLASSES_MAX)
            return TC_RANGE;
        int room = pack->class_room ? 2 * pack->class_room : 32;
        int *first = realloc(pack->first, (size_t)room * sizeof *first);
        if (!first)
            return TC_NO_MEMORY;
        pack->first = first;
        pack->class_room = room;
    }
    pack->first[pack->classes++] = pack->choices;
    return TC_OK;
}

static int figures_each(const struct tc_pack *pack)
{
    return pack->goals + pack->rows;
}

enum tc_status tc_pack_choice(struct tc_pack *pack, const int64_t *gains, const int64_t *uses)
{
    int each = figures_each(pack);
    if (pack->classes == 0)
        return TC_RANGE;
    for (int g = 0; g < pack->goals; g++)
        if (!in_range(gains[g]))
            return TC_RANGE;
    for (int r = 0; r < pack->rows; r++)
        if (!in_range(uses[r]))
            return TC_RANGE;
    if (pack->choices == pack->choice_room) {
        if (pack->choice_room >= CHOICES_MAX)
            return TC_RANGE;
        int room = pack->choice_room ? 2 * pack->choice_room : 256;
        int64_t *figures = realloc(pack->figures, (size_t)room * (size_t)each * sizeof *figures);
        if (!figures)
            return TC_NO_MEMORY;
        pack->figures = figures;
        pack->choice_room = room;
    }
    int64_t *to = pack->figures + (size_t)pack->choices * (size_t)each;
    for (int g = 0; g < pack->goals; g++)
        *to++ = gains[g];
    for (int r = 0; r < pack->rows; r++)
        *to++ = uses[r];
    pack->choices++;
    return TC_OK;
}

enum tc_status tc_pack_limit(struct tc_pack *pack, int row, int64_t limit)
{
    if (row < 0 || row >= pack->rows || !in_range(limit))
        return TC_RANGE;
    pack->limit[row] = limit;
    return TC_OK;
}

static int class_end(const struct tc_pack *pack, int i)
{
    return i + 1 < pack->classes ? pack->first[i + 1] : pack->choices;
}

/* Figure f of choice c: gains first, then uses. */
static int64_t figure(const struct tc_pack *pack, int c, int f)
{
    return pack->figures[(size_t)c * (size_t)figures_each(pack) + (size_t)f];
}

enum tc_status tc_pack_suggest(struct tc_pack *pack, const int *picks)
{
    int *copy = calloc((size_t)pack->classes + 1, sizeof *copy);
    if (!copy)
        return TC_NO_MEMORY;
    for (int i = 0; i < pack->classes; i++) {
        copy[i] = pack->first[i] + picks[i];
        if (picks[i] < 0 || copy[i] >= class_end(pack, i)) {
            free(copy);
            return TC_RANGE;
        }
    }
    free(pack->suggested);
    pack->suggested = copy;
    pack->suggested_classes = pack->classes;
    return TC_OK;
}

/* No sum over classes may leave the range, whichever choices are taken. */
static enum tc_status check_sums(const struct tc_pack *pack)
{
    for (int f = 0; f < figures_each(pack); f++) {
        int64_t sum = 0;
        for (int i = 0; i < pack->classes; i++) {
            int64_t largest = 0;
            for (int c = pack->first[i]; c < class_end(pack, i); c++) {
                int64_t size = figure(pack, c, f);
                size = size < 0 ? -size : size;
                largest = size > largest ? size : largest;
            }
            if (largest > TC_PACK_FIGURE_MAX - sum)
                return TC_OVERFLOW;
            sum += largest;
        }
    }
    return TC_OK;
}

/* What a solve passes on from goal to goal. */
struct solving {
    const struct tc_pack *pack;
    const struct tc_pack_effort *effort;
    struct tc_pack_answer *answer;
    int *picks;    /* per class, the number of a choice in the whole pack */
    bool *alive;   /* per choice: it may be in an answer that is best for all goals so far */
    double *reach; /* per choice: most an answer with it can gain, for the goal just solved */
};

static int64_t gain_of(const struct solving *s, int goal)
{
    int64_t sum = 0;
    for (int i = 0; i < s->pack->classes; i++)
        sum += figure(s->pack, s->picks[i], goal);
    return sum;
}

/* The table of one goal; the goals before it, reached, are rows that must not be undone. */
static enum tc_status fill_table(const struct solving *s, int goal, struct tc_pack_table *table)
{
    const struct tc_pack *pack = s->pack;
    int count = 0;
    for (int c = 0; c < pack->choices; c++)
        count += s->alive[c];
    enum tc_status status = tc_pack_table_create(table, pack->classes, pack->rows + goal, count);
    if (status != TC_OK)
        return status;
    table->ties = goal + 1 < pack->goals;
    int to = 0;
    for (int i = 0; i < pack->classes; i++) {
        table->first[i] = to;
        for (int c = pack->first[i]; c < class_end(pack, i); c++) {
            if (!s->alive[c])
                continue;
            const int64_t *figures = pack->figures + (size_t)c * (size_t)figures_each(pack);
            table->number[to] = c;
            table->gain[to] = figures[goal];
            for (int r = 0; r < pack->rows; r++)
                table->use[r][to] = figures[pack->goals + r];
            for (int g = 0; g < goal; g++)
                table->use[pack->rows + g][to] = -figures[g];
            to++;
        }
    }
    table->first[pack->classes] = to;
    for (int r = 0; r < pack->rows; r++)
        table->limit[r] = pack->limit[r];
    for (int g = 0; g < goal; g++)
        table->limit[pack->rows + g] = -s->answer->gains[g];
    return tc_pack_table_reduce(table, NULL);
}

/* Choices that cannot be in an answer as good as the one proven best are left out of the goals that follow.
 */
static void bury(struct solving *s, int64_t best)
{
    double margin = 1e-9 + 1e-12 * fabs((double)best);
    for (int c = 0; c < s->pack->choices; c++)
        s->alive[c] = s->alive[c] && s->reach[c] >= (double)best - margin;
    for (int i = 0; i < s->pack->classes; i++)
        s->alive[s->picks[i]] = true;
}

/* Finds the best for one goal, given the goals before; picks and answer->found carry over from goal to goal.
 */
static enum tc_status solve_goal(struct solving *s, int goal, bool *proven)
{
    struct tc_pack_answer *answer = s->answer;
    struct tc_pack_found found = {.any = answer->found, .proven = true};
    if (found.any)
        found.gain = gain_of(s, goal);
    found.bound = found.gain;
    bool last = goal + 1 == s->pack->goals;
    for (int c = 0; c < s->pack->choices; c++)
        s->reach[c] = -INFINITY;
    found.reach = last ? NULL : s->reach;
    struct tc_pack_table table = {0};
    enum tc_status status = fill_table(s, goal, &table);
    if (status == TC_OK)
        status = tc_pack_branch(&table, s->effort, &found, s->picks);
    tc_pack_table_free(&table);
    if (status != TC_OK)
        return status;
    answer->nodes += found.nodes;
    answer->found = found.any;
    answer->gains[goal] = found.gain;
    answer->bounds[goal] = found.bound;
    *proven = found.proven;
    if (found.any && found.proven && !last)
        bury(s, found.gain);
    return TC_OK;
}

static enum tc_status solve_goals(struct solving *s)
{
    struct tc_pack_answer *answer = s->answer;
    int goals = s->pack->goals;
    answer->proven = true;
    for (int goal = 0; goal < goals; goal++) {
        bool proven = false;
        enum tc_status status = solve_goal(s, goal, &proven);
        if (status != TC_OK)
            return status;
        if (!answer->found)
            return proven ? TC_NO_RESULT : TC_STOPPED;
        answer->proven = answer->proven && proven;
        answer->goals_proven += answer->proven;
    }
    /* A goal that was not proven may have gained by a later one. */
    for (int goal = 0; goal < goals; goal++)
        answer->gains[goal] = gain_of(s, goal);
    return TC_OK;
}

/* Starts from the suggestion if there is one for all the classes there are now and it keeps the limits. */
static bool take_suggestion(const struct tc_pack *pack, int *picks)
{
    if (!pack->suggested || pack->suggested_classes != pack->classes)
        return false;
    for (int r = 0; r < pack->rows; r++) {
        int64_t used = 0;
        for (int i = 0; i < pack->classes; i++)
            used += figure(pack, pack->suggested[i], pack->goals + r);
        if (used > pack->limit[r])
            return false;
    }
    for (int i = 0; i < pack->classes; i++)
        picks[i] = pack->suggested[i];
    return true;
}

enum tc_status tc_pack_solve(struct tc_pack *pack, const struct tc_pack_effort *effort,
                             struct tc_pack_answer *answer, int *picks)
{
    *answer = (struct tc_pack_answer){0};
    enum tc_status status = check_sums(pack);
    if (status != TC_OK)
        return status;
    struct solving s = {.pack = pack, .effort = effort, .answer = answer, .picks = picks};
    size_t room = (size_t)pack->choices + 1;
    s.alive = malloc(room * sizeof *s.alive);
    s.reach = malloc(room * sizeof *s.reach);
    if (s.alive && s.reach) {
        for (int c = 0; c < pack->choices; c++)
            s.alive[c] = true;
        answer->found = take_suggestion(pack, picks);
        status = solve_goals(&s);
    } else {
        status = TC_NO_MEMORY;
    }
    for (int i = 0; status == TC_OK && i < pack->classes; i++)
        picks[i] -= pack->first[i];
    free(s.alive);
    free(s.reach);
    return status;
}
