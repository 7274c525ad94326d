/* SPDX-License-Identifier: MIT */
#include "core/knapsack/knapsack.h"

#include <math.h>
#include <stdlib.h>

#include "core/knapsack/knapsack_branch.h"
#include "core/knapsack/knapsack_presolve.h"

struct tc_knapsack {
    int rows, goals;
    int64_t limit[TC_KNAPSACK_ROWS_MAX];
    int classes, class_capacity;
    int *first; /* the first choice of each class; the next class's is its end */
    int choices, choice_capacity;
    int *suggested;        /* NULL, or an answer to start from, as numbers in the whole pack */
    int suggested_classes; /* so many classes there were then */
    int64_t *figures;      /* goals gains, then rows uses, for each choice */
};

enum { CLASSES_MAX = 1 << 20, CHOICES_MAX = 1 << 24 };

static bool in_range(int64_t figure)
{
    return figure >= -TC_KNAPSACK_FIGURE_MAX && figure <= TC_KNAPSACK_FIGURE_MAX;
}

enum tc_status tc_knapsack_create(int rows, const int64_t *limits, int goals, struct tc_knapsack **knapsack)
{
    *knapsack = NULL;
    if (rows < 0 || rows > TC_KNAPSACK_ROWS_MAX || goals < 1 || goals > TC_KNAPSACK_GOALS_MAX)
        return TC_RANGE;
    for (int r = 0; r < rows; r++)
        if (!in_range(limits[r]))
            return TC_RANGE;
    struct tc_knapsack *made = calloc(1, sizeof *made);
    if (!made)
        return TC_NO_MEMORY;
    made->rows = rows;
    made->goals = goals;
    for (int r = 0; r < rows; r++)
        made->limit[r] = limits[r];
    *knapsack = made;
    return TC_OK;
}

void tc_knapsack_free(struct tc_knapsack *knapsack)
{
    if (!knapsack)
        return;
    free(knapsack->first);
    free(knapsack->figures);
    free(knapsack->suggested);
    free(knapsack);
}

enum tc_status tc_knapsack_class(struct tc_knapsack *knapsack)
{
    if (knapsack->classes == knapsack->class_capacity) {
        if (knapsack->class_capacity >= CLASSES_MAX)
            return TC_RANGE;
        int capacity = knapsack->class_capacity ? 2 * knapsack->class_capacity : 32;
        int *first = realloc(knapsack->first, (size_t)capacity * sizeof *first);
        if (!first)
            return TC_NO_MEMORY;
        knapsack->first = first;
        knapsack->class_capacity = capacity;
    }
    knapsack->first[knapsack->classes++] = knapsack->choices;
    return TC_OK;
}

static int figures_each(const struct tc_knapsack *knapsack)
{
    return knapsack->goals + knapsack->rows;
}

enum tc_status tc_knapsack_choice(struct tc_knapsack *knapsack, const int64_t *gains, const int64_t *uses)
{
    int each = figures_each(knapsack);
    if (knapsack->classes == 0)
        return TC_RANGE;
    for (int g = 0; g < knapsack->goals; g++)
        if (!in_range(gains[g]))
            return TC_RANGE;
    for (int r = 0; r < knapsack->rows; r++)
        if (!in_range(uses[r]))
            return TC_RANGE;
    if (knapsack->choices == knapsack->choice_capacity) {
        if (knapsack->choice_capacity >= CHOICES_MAX)
            return TC_RANGE;
        int capacity = knapsack->choice_capacity ? 2 * knapsack->choice_capacity : 256;
        int64_t *figures = realloc(knapsack->figures, (size_t)capacity * (size_t)each * sizeof *figures);
        if (!figures)
            return TC_NO_MEMORY;
        knapsack->figures = figures;
        knapsack->choice_capacity = capacity;
    }
    int64_t *to = knapsack->figures + (size_t)knapsack->choices * (size_t)each;
    for (int g = 0; g < knapsack->goals; g++)
        *to++ = gains[g];
    for (int r = 0; r < knapsack->rows; r++)
        *to++ = uses[r];
    knapsack->choices++;
    return TC_OK;
}

static int class_end(const struct tc_knapsack *knapsack, int i)
{
    return i + 1 < knapsack->classes ? knapsack->first[i + 1] : knapsack->choices;
}

/* Figure f of choice c: gains first, then uses. */
static int64_t figure(const struct tc_knapsack *knapsack, int c, int f)
{
    return knapsack->figures[(size_t)c * (size_t)figures_each(knapsack) + (size_t)f];
}

enum tc_status tc_knapsack_suggest(struct tc_knapsack *knapsack, const int *picks)
{
    int *copy = calloc((size_t)knapsack->classes + 1, sizeof *copy);
    if (!copy)
        return TC_NO_MEMORY;
    for (int i = 0; i < knapsack->classes; i++) {
        copy[i] = knapsack->first[i] + picks[i];
        if (picks[i] < 0 || copy[i] >= class_end(knapsack, i)) {
            free(copy);
            return TC_RANGE;
        }
    }
    free(knapsack->suggested);
    knapsack->suggested = copy;
    knapsack->suggested_classes = knapsack->classes;
    return TC_OK;
}

/* No sum over classes may leave the range, whichever choices are taken. */
static enum tc_status check_sums(const struct tc_knapsack *knapsack)
{
    for (int f = 0; f < figures_each(knapsack); f++) {
        int64_t sum = 0;
        for (int i = 0; i < knapsack->classes; i++) {
            int64_t largest = 0;
            for (int c = knapsack->first[i]; c < class_end(knapsack, i); c++) {
                int64_t size = figure(knapsack, c, f);
                size = size < 0 ? -size : size;
                largest = size > largest ? size : largest;
            }
            if (largest > TC_KNAPSACK_FIGURE_MAX - sum)
                return TC_OVERFLOW;
            sum += largest;
        }
    }
    return TC_OK;
}

/* What a solve passes on from goal to goal. */
struct solving {
    const struct tc_knapsack *knapsack;
    const struct tc_knapsack_effort *effort;
    struct tc_knapsack_answer *answer;
    int *picks;    /* per class, the number of a choice in the whole pack */
    bool *alive;   /* per choice: it may be in an answer that is best for all goals so far */
    double *reach; /* per choice: most an answer with it can gain, for the goal just solved */
};

static int64_t gain_of(const struct solving *s, int goal)
{
    int64_t sum = 0;
    for (int i = 0; i < s->knapsack->classes; i++)
        sum += figure(s->knapsack, s->picks[i], goal);
    return sum;
}

/* The table of one goal; the goals before it, reached, are rows that must not be undone. */
static enum tc_status fill_table(const struct solving *s, int goal, struct tc_knapsack_table *table)
{
    const struct tc_knapsack *knapsack = s->knapsack;
    int count = 0;
    for (int c = 0; c < knapsack->choices; c++)
        count += s->alive[c];
    enum tc_status status = tc_knapsack_table_create(table, knapsack->classes, knapsack->rows + goal, count);
    if (status != TC_OK)
        return status;
    int to = 0;
    for (int i = 0; i < knapsack->classes; i++) {
        table->first[i] = to;
        for (int c = knapsack->first[i]; c < class_end(knapsack, i); c++) {
            if (!s->alive[c])
                continue;
            const int64_t *figures = knapsack->figures + (size_t)c * (size_t)figures_each(knapsack);
            table->number[to] = c;
            table->gain[to] = figures[goal];
            for (int r = 0; r < knapsack->rows; r++)
                table->use[r][to] = figures[knapsack->goals + r];
            for (int g = 0; g < goal; g++)
                table->use[knapsack->rows + g][to] = -figures[g];
            to++;
        }
    }
    table->first[knapsack->classes] = to;
    for (int r = 0; r < knapsack->rows; r++)
        table->limit[r] = knapsack->limit[r];
    for (int g = 0; g < goal; g++)
        table->limit[knapsack->rows + g] = -s->answer->gains[g];
    return tc_knapsack_table_reduce(table, NULL);
}

/* Choices that cannot be in an answer as good as the one proven best are left out of the goals that follow.
 */
static void bury(struct solving *s, int64_t best)
{
    double margin = 1e-9 + 1e-12 * fabs((double)best);
    for (int c = 0; c < s->knapsack->choices; c++)
        s->alive[c] = s->alive[c] && s->reach[c] >= (double)best - margin;
    for (int i = 0; i < s->knapsack->classes; i++)
        s->alive[s->picks[i]] = true;
}

/* Finds the best for one goal, given the goals before; picks and answer->found carry over from goal to goal.
 */
static enum tc_status solve_goal(struct solving *s, int goal, bool *proven)
{
    struct tc_knapsack_answer *answer = s->answer;
    struct tc_knapsack_found found = {.any = answer->found, .proven = true};
    if (found.any)
        found.gain = gain_of(s, goal);
    found.bound = found.gain;
    bool last = goal + 1 == s->knapsack->goals;
    for (int c = 0; c < s->knapsack->choices; c++)
        s->reach[c] = -INFINITY;
    found.reach = last ? NULL : s->reach;
    struct tc_knapsack_table table = {0};
    enum tc_status status = fill_table(s, goal, &table);
    if (status == TC_OK)
        status = tc_knapsack_branch(&table, s->effort, &found, s->picks);
    tc_knapsack_table_free(&table);
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
    struct tc_knapsack_answer *answer = s->answer;
    int goals = s->knapsack->goals;
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
static bool take_suggestion(const struct tc_knapsack *knapsack, int *picks)
{
    if (!knapsack->suggested || knapsack->suggested_classes != knapsack->classes)
        return false;
    for (int r = 0; r < knapsack->rows; r++) {
        int64_t used = 0;
        for (int i = 0; i < knapsack->classes; i++)
            used += figure(knapsack, knapsack->suggested[i], knapsack->goals + r);
        if (used > knapsack->limit[r])
            return false;
    }
    for (int i = 0; i < knapsack->classes; i++)
        picks[i] = knapsack->suggested[i];
    return true;
}

enum tc_status tc_knapsack_solve(struct tc_knapsack *knapsack, const struct tc_knapsack_effort *effort,
                                 struct tc_knapsack_answer *answer, int *picks)
{
    *answer = (struct tc_knapsack_answer){0};
    enum tc_status status = check_sums(knapsack);
    if (status != TC_OK)
        return status;
    struct solving s = {.knapsack = knapsack, .effort = effort, .answer = answer, .picks = picks};
    size_t room = (size_t)knapsack->choices + 1;
    s.alive = malloc(room * sizeof *s.alive);
    s.reach = malloc(room * sizeof *s.reach);
    if (s.alive && s.reach) {
        for (int c = 0; c < knapsack->choices; c++)
            s.alive[c] = true;
        answer->found = take_suggestion(knapsack, picks);
        status = solve_goals(&s);
    } else {
        status = TC_NO_MEMORY;
    }
    for (int i = 0; status == TC_OK && i < knapsack->classes; i++)
        picks[i] -= knapsack->first[i];
    free(s.alive);
    free(s.reach);
    return status;
}
