/* SPDX-License-Identifier: MIT */
#include "core/physics/day_parts.h"

#include <math.h>
#include <stdbool.h>

#include "core/physics/light.h"

#define HOUR 3600.0
#define TURN (2 * 3.14159265358979323846 / 24)

/* A part shorter than this, in hours, is left to its neighbour. */
#define SLIVER 1e-9

/* w at t, and its integral and that of w^2 - 1/2 up to t, both in hours, but for a constant. */
struct moment {
    double at, wave, square;
};

/*
 * The same at the full hours. The table begins as it ends, so that a day adds up to nothing; that of
 * w^2 - 1/2 repeats after half a day.
 */
static const double wave_until_hour[25] = {
    2.7009489484713183,  1.909859317102744,   0.9886159294653692,  0.0,
    -0.9886159294653692, -1.909859317102744,  -2.7009489484713183, -3.3079733725307525,
    -3.6895648779366876, -3.8197186342054885, -3.6895648779366876, -3.3079733725307525,
    -2.7009489484713183, -1.909859317102744,  -0.9886159294653692, 0.0,
    0.9886159294653692,  1.909859317102744,   2.7009489484713183,  3.3079733725307525,
    3.6895648779366876,  3.8197186342054885,  3.6895648779366876,  3.3079733725307525,
    2.7009489484713183,
};
static const double square_until_hour[13] = {
    -0.954929658551372, -0.8269933431326881, -0.477464829275686, 0.0, 0.477464829275686,  0.8269933431326881,
    0.954929658551372,  0.8269933431326881,  0.477464829275686,  0.0, -0.477464829275686, -0.8269933431326881,
    -0.954929658551372,
};

static struct moment moment_of(double t)
{
    int hour = (int)t;
    if (t == hour) { /* w is its own integral six hours on, but for the unit */
        int later = hour < 18 ? hour + 6 : hour - 18;
        return (struct moment){wave_until_hour[later] * TURN, wave_until_hour[hour],
                               square_until_hour[hour < 12 ? hour : hour - 12]};
    }
    double angle = TURN * (t - TC_WARMEST_HOUR);
    return (struct moment){sin(angle + 6 * TURN), sin(angle) / TURN, sin(2 * angle) / (4 * TURN)};
}

/* Adds the part of that length, in hours, which lies within an hour. */
static void add_part(struct tc_day_parts *parts, int hour, double length, struct moment from,
                     struct moment to, bool lit)
{
    int i = parts->count++;
    parts->hour[i] = hour;
    parts->seconds[i] = length * HOUR;
    parts->wave[i] = (to.wave - from.wave) / length;
    parts->rise[i] = to.at - from.at;
    parts->square[i] = (to.square - from.square) / length;
    parts->lit[i] = lit;
}

void tc_day_parts_make(double light_begin, double light_hours, struct tc_day_parts *parts)
{
    double on = light_begin, off = on + light_hours;
    double cut[2] = {on, off < 24 ? off : off - 24};
    if (cut[0] > cut[1]) {
        cut[0] = cut[1];
        cut[1] = on;
    }
    double begin = 0;
    struct moment from = moment_of(begin);
    parts->count = 0;
    for (int hour = 0; hour < 24; hour++) {
        const double ends[3] = {cut[0], cut[1], hour + 1};
        /* Most hours are a part of their own. */
        bool whole = (ends[0] <= hour || ends[0] >= hour + 1) && (ends[1] <= hour || ends[1] >= hour + 1);
        for (int i = whole ? 2 : 0; i < 3; i++) {
            if (ends[i] - begin < SLIVER || ends[i] > hour + 1)
                continue;
            double length = ends[i] - begin;
            struct moment to = moment_of(ends[i]);
            add_part(parts, hour, length, from, to, tc_light_is_on(on, light_hours, begin + length / 2));
            begin = ends[i];
            from = to;
        }
    }
}
