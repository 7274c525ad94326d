/* SPDX-License-Identifier: MIT */
#include "core/wall/wall.h"

#include <math.h>

#include "core/base/unit.h"

#define UNITS_PER_METRE 1e7
#define UNIT_TOLERANCE  1e-3
#define PASCAL_PER_PSF  47.88025898

#define LONGEST_WALL  1000.0
#define LARGEST_SIZE  100.0
#define SMALLEST_SIZE 1e-3
#define LARGEST_MASS  1e6
#define LARGEST_POWER 1e7
#define LARGEST_LOAD  1e9
enum { LARGEST_COUNT = 1000000 };

/* IRC figures are in pounds-force per square foot: 47.88 Pa each. */
int tc_wall_floor_marks(const struct tc_wall_floor_mark **marks)
{
    static const struct tc_wall_floor_mark MARKS[] = {
        {30 * PASCAL_PER_PSF, "sleeping rooms, IRC R301.5"},
        {1500, "dwellings, EN 1991-1-1 category A, lowest"},
        {40 * PASCAL_PER_PSF, "other rooms of dwellings, IRC R301.5"},
        {2000, "dwellings, EN 1991-1-1 category A, highest"},
    };
    *marks = MARKS;
    return (int)(sizeof MARKS / sizeof MARKS[0]);
}

static bool within(double figure, double least, double most)
{
    return figure >= least && figure <= most; /* false for a NaN */
}

static bool money_within(tc_money amount)
{
    return amount >= 0 && amount <= TC_MONEY_MAX;
}

enum tc_status tc_wall_check(const struct tc_wall *w)
{
    bool room = within(w->length, SMALLEST_SIZE, LONGEST_WALL) &&
                within(w->height, SMALLEST_SIZE, LARGEST_SIZE) &&
                within(w->depth, SMALLEST_SIZE, LARGEST_SIZE) && within(w->lowest, 0, LARGEST_SIZE) &&
                within(w->access, 0, LARGEST_SIZE) && within(w->shelf, 0, LARGEST_SIZE) &&
                within(w->reach, 0, LARGEST_SIZE) && within(w->gap, 0, LARGEST_SIZE) && w->tiers >= 0;
    bool rack = within(w->post, 0, LARGEST_SIZE) && within(w->bay_length, 0, LONGEST_WALL) &&
                money_within(w->bay_price) && money_within(w->tier_price) &&
                within(w->bay_rating, 0, LARGEST_LOAD) && within(w->tier_rating, 0, LARGEST_LOAD);
    bool limits = within(w->floor_limit, 0, LARGEST_LOAD) && within(w->floor_spread, 0, LARGEST_SIZE) &&
                  within(w->power_limit, 0, LARGEST_LOAD) && money_within(w->budget) &&
                  (w->budget_kind == TC_WALL_TO_BUY || w->budget_kind == TC_WALL_OVER_PERIOD);
    bool more = w->more_stretches >= 0 && w->more_stretches < TC_WALL_STRETCHES_MAX &&
                w->more_circuits >= 0 && w->more_circuits < TC_WALL_CIRCUITS_MAX;
    for (int i = 0; more && i < w->more_stretches; i++)
        more = within(w->more[i].length, SMALLEST_SIZE, LONGEST_WALL) &&
               within(w->more[i].height, SMALLEST_SIZE, LARGEST_SIZE) &&
               within(w->more[i].depth, SMALLEST_SIZE, LARGEST_SIZE);
    for (int i = 0; more && i < w->more_circuits; i++)
        more = within(w->more_power[i], SMALLEST_SIZE, LARGEST_LOAD);
    return room && rack && limits && more ? TC_OK : TC_RANGE;
}

struct tc_wall tc_wall_of_stretch(const struct tc_wall *wall, int stretch)
{
    struct tc_wall alone = *wall;
    alone.more_stretches = 0;
    if (stretch > 0) {
        alone.length = wall->more[stretch - 1].length;
        alone.height = wall->more[stretch - 1].height;
        alone.depth = wall->more[stretch - 1].depth;
    }
    return alone;
}

enum tc_status tc_wall_check_model(const struct tc_wall_model *m)
{
    bool body = within(m->length, SMALLEST_SIZE, LARGEST_SIZE) &&
                within(m->width, SMALLEST_SIZE, LARGEST_SIZE) &&
                within(m->height, SMALLEST_SIZE, LARGEST_SIZE) && within(m->mass, 0, LARGEST_MASS) &&
                within(m->area, 0, LARGEST_SIZE * LARGEST_SIZE) && within(m->volume, 0, LARGEST_MASS) &&
                within(m->power, 0, LARGEST_POWER);
    bool counts = m->sale_most >= 0 && m->sale_most <= LARGEST_COUNT && m->least >= 0 &&
                  m->least <= LARGEST_COUNT && m->most >= TC_WALL_UNLIMITED && m->most <= LARGEST_COUNT &&
                  (m->most == TC_WALL_UNLIMITED || m->least <= m->most);
    bool money = true;
    for (int k = 0; k < 2; k++) {
        money = money && money_within(m->price[k]);
        if (m->sale_most > 0)
            money = money && money_within(m->sale_price[k]) && m->sale_price[k] <= m->price[k];
    }
    return body && counts && money ? TC_OK : TC_RANGE;
}

int64_t tc_wall_units_up(double metres)
{
    double units = metres * UNITS_PER_METRE;
    double whole = round(units);
    return (int64_t)(fabs(units - whole) <= UNIT_TOLERANCE ? whole : ceil(units));
}

int64_t tc_wall_units_down(double metres)
{
    double units = metres * UNITS_PER_METRE;
    double whole = round(units);
    return (int64_t)(fabs(units - whole) <= UNIT_TOLERANCE ? whole : floor(units));
}

double tc_wall_metres(int64_t units)
{
    return (double)units / UNITS_PER_METRE;
}

/* Without uprights, the last bay is followed by no gap: the wall is longer by one instead. */
int64_t tc_wall_bay_units(const struct tc_wall *wall, double width, int columns)
{
    int64_t each = tc_wall_units_up(width) + tc_wall_units_up(wall->gap);
    int64_t own = wall->post > 0 ? tc_wall_units_up(wall->gap) + tc_wall_units_up(wall->post) : 0;
    return each * columns + own;
}

int64_t tc_wall_length_units(const struct tc_wall *wall)
{
    int64_t length = tc_wall_units_down(wall->length);
    if (wall->post <= 0)
        return length + tc_wall_units_up(wall->gap);
    int64_t post = tc_wall_units_up(wall->post);
    return length > post ? length - post : 0;
}

double tc_wall_pressure(const struct tc_wall *wall, const struct tc_wall_stand *stand, double mass, int tiers)
{
    return mass * tiers * TC_GRAVITY / (stand->width * (stand->depth + wall->floor_spread));
}

double tc_wall_continuous_power(double volts, double amps, double share)
{
    return volts * amps * share;
}

/* How many of `each` a limit bears, at most `most`; a limit of 0 bears any number. */
static int borne(double limit, double each, int most)
{
    if (limit <= 0 || each * most <= limit * (1 + TC_WALL_LOAD_TOLERANCE))
        return most;
    return (int)floor(limit * (1 + TC_WALL_LOAD_TOLERANCE) / each);
}

static int tiers_by_height(const struct tc_wall *wall, const struct tc_wall_model *model)
{
    int64_t left = tc_wall_units_down(wall->height) - tc_wall_units_up(wall->lowest);
    int64_t first = tc_wall_units_up(model->height) + tc_wall_units_up(wall->access);
    int64_t further = first + tc_wall_units_up(wall->shelf);
    if (left < first)
        return 0;
    int64_t tiers = 1 + (left - first) / further;
    return tiers < TC_WALL_TIERS_MAX ? (int)tiers : TC_WALL_TIERS_MAX;
}

/* Lowers *tiers to most and says why, if it is more. */
static void cap_tiers(struct tc_wall_stand *stand, int most, enum tc_wall_tiers_end why)
{
    if (stand->tiers <= most)
        return;
    stand->tiers = most;
    stand->end = why;
}

/* Columns that a bay has room for and its tiers bear. */
static int columns_in_bay(const struct tc_wall *wall, const struct tc_wall_model *model, double width)
{
    int most = 1;
    if (wall->bay_length > 0) {
        int64_t gap = tc_wall_units_up(wall->gap);
        int64_t each = tc_wall_units_up(width) + gap;
        /* Between uprights there is one gap more than tanks; without them one less. */
        int64_t room = tc_wall_units_down(wall->bay_length) + (wall->post > 0 ? -gap : gap);
        int64_t columns = room / each;
        most = columns < LARGEST_COUNT ? (int)columns : LARGEST_COUNT;
    }
    return borne(wall->tier_rating, model->mass, most);
}

static enum tc_wall_obstacle room_obstacle(const struct tc_wall *wall, const struct tc_wall_stand *s)
{
    int64_t width = tc_wall_units_up(s->width);
    int64_t around = wall->post > 0 ? 2 * tc_wall_units_up(wall->gap) : 0;
    int64_t depth = tc_wall_units_up(s->depth);
    if (tc_wall_bay_units(wall, s->width, 1) > tc_wall_length_units(wall) ||
        (wall->bay_length > 0 && width + around > tc_wall_units_down(wall->bay_length)))
        return TC_WALL_TOO_LONG;
    if (depth > tc_wall_units_down(wall->depth))
        return TC_WALL_TOO_DEEP;
    if (wall->reach > 0 && depth > tc_wall_units_down(wall->reach))
        return TC_WALL_OUT_OF_REACH;
    return TC_WALL_FITS;
}

void tc_wall_stand(const struct tc_wall *wall, const struct tc_wall_model *model, bool end_on,
                   struct tc_wall_stand *stand)
{
    *stand = (struct tc_wall_stand){
        .width = end_on ? model->width : model->length,
        .depth = end_on ? model->length : model->width,
        .end = TC_WALL_END_HEIGHT,
    };
    stand->obstacle = room_obstacle(wall, stand);
    if (stand->obstacle != TC_WALL_FITS)
        return;
    stand->tiers = tiers_by_height(wall, model);
    stand->columns = columns_in_bay(wall, model, stand->width);
    int in_bay = borne(wall->bay_rating, model->mass, TC_WALL_TIERS_MAX);
    double pressure = tc_wall_pressure(wall, stand, model->mass, 1);
    int on_floor = borne(wall->floor_limit, pressure, TC_WALL_TIERS_MAX);
    if (stand->tiers == 0)
        stand->obstacle = TC_WALL_TOO_HIGH;
    else if (stand->columns == 0)
        stand->obstacle = TC_WALL_TIER_LOAD;
    else if (in_bay == 0)
        stand->obstacle = TC_WALL_BAY_LOAD;
    else if (on_floor == 0)
        stand->obstacle = TC_WALL_FLOOR_LOAD;
    if (stand->obstacle != TC_WALL_FITS) {
        stand->tiers = stand->columns = 0;
        return;
    }
    if (wall->tiers > 0)
        cap_tiers(stand, wall->tiers, TC_WALL_END_TIERS);
    cap_tiers(stand, in_bay, TC_WALL_END_BAY_LOAD);
    cap_tiers(stand, on_floor, TC_WALL_END_FLOOR_LOAD);
    stand->tanks = borne(wall->bay_rating, model->mass, stand->columns * stand->tiers);
    if (stand->columns > stand->tanks)
        stand->columns = stand->tanks;
}

tc_money tc_wall_cost(const struct tc_wall_model *model, int tanks, enum tc_wall_money money,
                      enum tc_status *status)
{
    int on_sale = tanks < model->sale_most ? tanks : model->sale_most;
    tc_money cost = tc_money_times(model->price[money], tanks - on_sale, status);
    if (on_sale > 0)
        cost = tc_money_add(cost, tc_money_times(model->sale_price[money], on_sale, status), status);
    return cost;
}
