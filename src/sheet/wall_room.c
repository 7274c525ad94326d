/* SPDX-License-Identifier: MIT */
#include "sheet/wall_room.h"

#include <math.h>

#include "core/physics/vapour.h"

#define WATER_DENSITY 998.2
#define DAY           86400.0

/* Tries at most: as many rooms as there may be needs. */
enum { NEEDS_MAX = TC_CANDIDATES_MAX };

enum tc_status tc_wall_room_read(const struct tc_room_plan *plan, struct tc_wall_room *room)
{
    const struct tc_room_shape shape = {
        .length = plan->length,
        .width = plan->width,
        .height = plan->height,
        .outside = plan->outside,
        .windows = plan->windows,
        .build = plan->build,
        .roof = plan->roof,
        .air_change = plan->air_change,
    };
    *room = (struct tc_wall_room){.known = plan->loss > 0};
    bool sized = plan->length > 0 && plan->width > 0;
    if (sized) {
        room->air_flow = plan->air_change * tc_room_volume(&shape);
        room->capacity = TC_ROOM_STORES * plan->length * plan->width;
    }
    if (plan->loss > 0)
        room->loss = (struct tc_room_loss){.likely = plan->loss, .low = plan->loss, .high = plan->loss};
    if (plan->loss >= 0)
        return TC_OK;
    room->unsized = !sized;
    room->known = room->estimated = sized;
    return sized ? tc_room_loss_estimate(&shape, &room->loss) : TC_OK;
}

static double vapour_of(const struct tc_region *region, int month)
{
    return region->climate.humidity[month] * tc_saturation_pressure(tc_climate_room(&region->climate, month));
}

enum tc_status tc_wall_room_find(const struct tc_wall_room *room, double loss, const struct tc_region *region,
                                 const struct tc_wall_tanks *tanks, const struct tc_wall_warmth *warmth,
                                 struct tc_room_year *year)
{
    struct tc_heat_case cases[TC_CANDIDATES_MAX];
    struct tc_room_tank kinds[TC_CANDIDATES_MAX];
    struct tc_room balance = {
        .loss = loss, .air_flow = room->air_flow, .capacity = room->capacity, .swing = region->climate.swing};
    for (int i = 0; i < tanks->models; i++) {
        const struct tc_alternative *alternative = &tanks->alternatives[i];
        cases[i] = tc_equipment_heat(&alternative->c, &alternative->equipment);
        kinds[i] = (struct tc_room_tank){&cases[i], tanks->count[i],
                                         tc_equipment_beside(&alternative->c, &alternative->equipment)};
    }
    for (int month = 0; month < TC_MONTHS; month++) {
        balance.base[month] = tc_climate_room(&region->climate, month) + tanks->beside / loss;
        balance.vapour[month] = vapour_of(region, month);
        balance.floor[month] = warmth ? warmth->temperature[month] : -INFINITY;
        balance.ceiling[month] = region->cooled[month]
                                     ? fmax(tc_climate_room(&region->climate, month), balance.floor[month])
                                     : INFINITY;
    }
    return tc_room_balance(&balance, kinds, tanks->models, year);
}

void tc_wall_room_put(const struct tc_room_year *year, struct tc_climate *climate)
{
    climate->swing = year->swing;
    for (int month = 0; month < TC_MONTHS; month++) {
        climate->room[month] = year->month[month].temperature - climate->room_offset;
        climate->humidity[month] = year->month[month].humidity;
    }
}

void tc_wall_room_warm(const struct tc_wall_warmth *warmth, struct tc_climate *climate)
{
    for (int month = 0; month < TC_MONTHS; month++) {
        double base = tc_climate_room(climate, month), warm = fmax(warmth->temperature[month], base);
        climate->humidity[month] *= tc_saturation_pressure(base) / tc_saturation_pressure(warm);
        climate->room[month] = warm - climate->room_offset;
    }
}

/* A tank without its heater. */
static struct tc_heat_case unheated(const struct tc_alternative *alternative)
{
    struct tc_heat_case c = tc_equipment_heat(&alternative->c, &alternative->equipment);
    c.heater_power = 0;
    return c;
}

/* Whether the water of a tank stays below its limit in rooms of these temperatures. */
static bool stays_cool(const struct tc_heat_case *tank, const struct tc_region *region,
                       const double temperature[TC_MONTHS])
{
    struct tc_heat_case c = *tank;
    struct tc_heat_year year;
    for (int month = 0; month < TC_MONTHS; month++) {
        double warm = fmax(temperature[month], tc_climate_room(&region->climate, month));
        c.room_temperature[month] = warm;
        c.room_humidity[month] = fmin(vapour_of(region, month) / tc_saturation_pressure(warm), 1);
    }
    return tc_heat_year(&c, &year) == TC_OK && !year.above_limit;
}

bool tc_wall_room_warmth(const struct tc_region *region, const struct tc_alternative alternatives[],
                         const bool out[], int models, struct tc_wall_warmth *warmth)
{
    struct tc_heat_case cases[NEEDS_MAX];
    double need[NEEDS_MAX][TC_MONTHS], mean[NEEDS_MAX];
    bool tried[NEEDS_MAX] = {false};
    *warmth = (struct tc_wall_warmth){.temperature = {0}};
    for (int i = 0; i < models; i++) {
        cases[i] = unheated(&alternatives[i]);
        mean[i] = 0;
        tried[i] = out[i];
        for (int month = 0; month < TC_MONTHS; month++) {
            need[i][month] = tc_room_warm_enough(&cases[i], vapour_of(region, month));
            mean[i] += need[i][month] / TC_MONTHS;
        }
    }
    /* From the one that needs most down, until all can live with it; else with what the least one needs. */
    for (int turn = 0; turn < models; turn++) {
        int most = -1;
        for (int i = 0; i < models; i++)
            if (!tried[i] && !isnan(mean[i]) && (most < 0 || mean[i] > mean[most]))
                most = i;
        if (most < 0)
            break;
        tried[most] = true;
        bool all = true;
        for (int month = 0; month < TC_MONTHS; month++)
            warmth->temperature[month] = need[most][month];
        for (int i = 0; i < models; i++) {
            if (out[i])
                continue;
            warmth->keeps[i] = !(mean[i] <= mean[most] + 0.05);
            warmth->too_warm[i] = !stays_cool(&cases[i], region, need[most]);
            all = all && !warmth->too_warm[i];
        }
        if (all)
            return true;
    }
    return warmth->temperature[0] > 0;
}

static void month_energy(const struct tc_room_year *year, bool cooling, double kwh[TC_MONTHS])
{
    for (int month = 0; month < TC_MONTHS; month++) {
        const struct tc_room_month *m = &year->month[month];
        kwh[month] = (cooling ? m->cooling : m->heating) * 24 * tc_load_days(month) / 1000;
    }
}

void tc_wall_room_heating(const struct tc_room_year *year, double kwh[TC_MONTHS])
{
    month_energy(year, false, kwh);
}

void tc_wall_room_cooling(const struct tc_room_year *year, double kwh[TC_MONTHS])
{
    month_energy(year, true, kwh);
}

double tc_wall_room_vapour(const struct tc_room_year *year)
{
    double sum = 0;
    for (int month = 0; month < TC_MONTHS; month++)
        sum += fmax(year->month[month].evaporated, 0) * DAY * tc_load_days(month) / WATER_DENSITY;
    return sum;
}
