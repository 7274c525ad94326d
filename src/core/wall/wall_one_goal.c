/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_one_goal.h"

#include <math.h>

/* Goals are made one where their sum stays exact in a double, with room to spare. */
#define ONE_GOAL_MOST 2e15
#define FAR_APART     1000

/* The most of a line's sizes, whatever their signs. */
static double most_of_sizes(const struct tc_wall_master *m, const struct tc_wall_line *line)
{
    double sum = 0;
    for (int s = 0; s < m->stretches; s++) {
        const struct tc_wall_frame *frame = &m->frame[s];
        double densest = 0;
        for (int k = 0; k < frame->count; k++) {
            const struct tc_wall_piece *p = &frame->piece[k];
            double worth = 0;
            for (int f = 0; f < TC_WALL_QUANTITIES; f++)
                worth += fabs((double)line->factor[f]) * (double)m->tank[p->model][f];
            worth += fabs((double)line->factor[TC_WALL_BAYS]) +
                     fabs((double)line->factor[TC_WALL_LENGTH + s]) * (double)(p->width + frame->own);
            for (int k2 = 0; k2 < 2; k2++)
                worth += fabs((double)line->factor[TC_WALL_COST + k2]) *
                         (double)(m->wall->bay_price + m->wall->tier_price);
            densest = fmax(densest, worth / (double)p->width / (double)p->height);
        }
        sum += densest * (double)frame->length * (double)frame->height;
    }
    return sum;
}

double tc_wall_most_of_line(const struct tc_wall_master *m, const struct tc_wall_line *line, bool below)
{
    struct tc_wall_line size = *line;
    for (int f = 0; f < TC_WALL_QUANTITIES; f++)
        size.factor[f] = size.factor[f] < 0 ? -size.factor[f] : below ? 0 : size.factor[f];
    return most_of_sizes(m, &size);
}

int tc_wall_one_goal(const struct tc_wall_master *m, const struct tc_wall_line *goals, int count,
                     struct tc_wall_line *one, double *scale, double *behind)
{
    double all = tc_wall_most_of_line(m, &goals[0], false) + 1;
    int taken = 1;
    *one = goals[0];
    *scale = 1;
    *behind = 0;
    while (taken < count) {
        double least = floor(tc_wall_most_of_line(m, &goals[taken], false)) + 2;
        double more = least;
        if (all * more > ONE_GOAL_MOST)
            break;
        /* The more, the less the goals behind blur the bound of the first. */
        while (more < FAR_APART * least && 10 * all * more <= ONE_GOAL_MOST)
            more *= 10;
        for (int f = 0; f < TC_WALL_QUANTITIES; f++)
            one->factor[f] = one->factor[f] * (int64_t)more + goals[taken].factor[f];
        *behind = *behind * more + least;
        *scale *= more;
        all *= more;
        taken++;
    }
    return taken;
}
