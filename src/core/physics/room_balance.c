/* SPDX-License-Identifier: MIT */
#include "core/physics/room_balance.h"

#include <math.h>

#include "core/physics/vapour.h"

/* A temperature found so near, K, or a pressure, Pa, is found. */
#define NEAR_TEMPERATURE 1e-5
#define NEAR_PRESSURE    1e-2

/* Between these every room lies, K. */
#define COLDEST 235.0
#define HOTTEST 372.0

/* The first step in search of a span, K. */
#define FIRST_STEP 2.0

/* A turn in a day, 1/s. */
#define DAY_TURN (2 * 3.14159265358979323846 / 86400)

enum { TURNS = 60 };

/* A room in one month with its tanks. */
struct scene {
    const struct tc_room *room;
    const struct tc_room_tank *tanks;
    int count, month;
    double swing;              /* K */
    double temperature;        /* at which the vapour is sought */
    struct tc_room_month *out; /* what was found last */
};

typedef double excess(struct scene *scene, double x);

/*
 * Where f, which rises, passes zero between low and high: by the false position, whose unmoved end counts
 * for half when it stays twice (the Illinois rule), until the span or the last value is small.
 */
static double pass(excess *f, struct scene *scene, double low, double f_low, double high, double f_high,
                   double near)
{
    double x = low;
    int side = 0;
    for (int i = 0; i < TURNS && high - low > near; i++) {
        x = (low * f_high - high * f_low) / (f_high - f_low);
        if (!(x > low && x < high))
            x = low + (high - low) / 2;
        double value = f(scene, x);
        if (fabs(value) <= near)
            return x;
        if (value < 0) {
            low = x;
            f_low = value;
            f_high = side < 0 ? f_high / 2 : f_high;
            side = -1;
        } else {
            high = x;
            f_high = value;
            f_low = side > 0 ? f_low / 2 : f_low;
            side = 1;
        }
    }
    return x;
}

/* What the tanks give to a room of the scene's temperature with that vapour in its air. */
static void ask_tanks(struct scene *scene, double vapour)
{
    double saturation = tc_saturation_pressure(scene->temperature);
    struct tc_room_month *out = scene->out;
    out->temperature = scene->temperature;
    out->vapour = fmin(vapour, saturation);
    out->humidity = fmin(vapour / saturation, 1);
    out->tanks = out->evaporation = out->evaporated = 0;
    for (int i = 0; i < scene->count; i++) {
        const struct tc_room_tank *tank = &scene->tanks[i];
        struct tc_heat_day day = {0};
        struct tc_heat_case c = *tank->c;
        c.room_swing = scene->swing;
        tc_heat_repeating_day(&c, scene->temperature, out->humidity, &day); /* was checked before */
        out->tanks += tank->count * (day.dry + tank->beside);
        out->evaporation += tank->count * day.evaporation;
        out->evaporated += tank->count * day.evaporation / tc_latent_heat(tank->c->set_temperature);
    }
}

/* How much more vapour there is than the tanks make, Pa. */
static double vapour_excess(struct scene *scene, double vapour)
{
    ask_tanks(scene, vapour);
    double made =
        scene->out->evaporated * TC_VAPOUR_GAS_CONSTANT * scene->temperature / scene->room->air_flow;
    return vapour - scene->room->vapour[scene->month] - made;
}

/* The same with the vapour that goes with them. */
static void ask_room(struct scene *scene, double temperature)
{
    double base = scene->room->vapour[scene->month], dry = 0;
    scene->temperature = temperature;
    double wet = tc_saturation_pressure(temperature);
    ask_tanks(scene, fmin(base, wet));
    if (!(scene->room->air_flow > 0))
        return;
    double f_dry = vapour_excess(scene, dry), f_wet = vapour_excess(scene, wet);
    if (f_wet <= 0)
        return; /* as much as the air can hold */
    if (f_dry < 0)
        pass(vapour_excess, scene, dry, f_dry, wet, f_wet, NEAR_PRESSURE);
    else
        ask_tanks(scene, dry);
}

/* How much warmer the room is than its tanks, heating and cooling make it, K. */
static double temperature_excess(struct scene *scene, double temperature)
{
    const struct tc_room *room = scene->room;
    int month = scene->month;
    ask_room(scene, temperature);
    double made = room->base[month] + scene->out->tanks / room->loss;
    return temperature - fmin(fmax(made, room->floor[month]), room->ceiling[month]);
}

/* Finds the room of a month; what keeps it so is told as well. False where it would be no room any more. */
static bool find_month(struct scene *scene)
{
    const struct tc_room *room = scene->room;
    int month = scene->month;
    double low = fmin(fmax(room->base[month], room->floor[month]), room->ceiling[month]), high = low;
    double f_low = temperature_excess(scene, low), f_high = f_low;
    double step = FIRST_STEP;
    while (f_low > 0 && low > COLDEST) {
        high = low;
        f_high = f_low;
        low = fmax(low - step, COLDEST);
        step *= 2;
        f_low = temperature_excess(scene, low);
    }
    step = FIRST_STEP;
    while (f_high < 0 && high < HOTTEST) {
        low = high;
        f_low = f_high;
        high = fmin(high + step, HOTTEST);
        step *= 2;
        f_high = temperature_excess(scene, high);
    }
    if (f_low > 0 || f_high < 0)
        return false;
    if (f_low < 0 && f_high > 0)
        pass(temperature_excess, scene, low, f_low, high, f_high, NEAR_TEMPERATURE);
    struct tc_room_month *out = scene->out;
    double lost = room->loss * (out->temperature - room->base[month]);
    out->heating = out->temperature <= room->floor[month] + NEAR_TEMPERATURE ? fmax(lost - out->tanks, 0) : 0;
    out->cooling =
        out->temperature >= room->ceiling[month] - NEAR_TEMPERATURE ? fmax(out->tanks - lost, 0) : 0;
    return true;
}

/* What the room swings by with its tanks in it, K; what they give less for a kelvin is taken at the mean
 * base. */
static double damped_swing(const struct tc_room *room, const struct tc_room_tank *tanks, int count)
{
    if (room->capacity <= 0)
        return room->swing;
    double base = 0, tanks_give = 0;
    for (int month = 0; month < 12; month++)
        base += room->base[month] / 12;
    for (int i = 0; i < count; i++) {
        double colder = tc_heat_loss_at(tanks[i].c, base - 1, 0);
        double warmer = tc_heat_loss_at(tanks[i].c, base + 1, 0);
        tanks_give += tanks[i].count * (colder - warmer) / 2;
    }
    double alone = hypot(room->loss, DAY_TURN * room->capacity);
    return room->swing * alone / hypot(room->loss + tanks_give, DAY_TURN * room->capacity);
}

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static enum tc_status check(const struct tc_room *room, const struct tc_room_tank *tanks, int count)
{
    bool ok = within(room->loss, 1e-3, 1e6) && within(room->air_flow, 0, 1e6) &&
              within(room->capacity, 0, 1e12) && within(room->swing, 0, 30);
    for (int month = 0; month < 12; month++)
        ok = ok && within(room->base[month], COLDEST, HOTTEST) && within(room->vapour[month], 0, 1e5) &&
             room->floor[month] <= room->ceiling[month] && room->floor[month] <= HOTTEST &&
             room->ceiling[month] >= COLDEST;
    for (int i = 0; i < count; i++)
        ok = ok && tc_heat_check(tanks[i].c) == TC_OK && tanks[i].count >= 0 && isfinite(tanks[i].beside);
    return ok ? TC_OK : TC_RANGE;
}

static bool alike(const struct tc_room *room, int a, int b)
{
    return room->base[a] == room->base[b] && room->vapour[a] == room->vapour[b] &&
           room->floor[a] == room->floor[b] && room->ceiling[a] == room->ceiling[b];
}

enum tc_status tc_room_balance(const struct tc_room *room, const struct tc_room_tank *tanks, int count,
                               struct tc_room_year *year)
{
    if (check(room, tanks, count) != TC_OK)
        return TC_RANGE;
    year->swing = damped_swing(room, tanks, count);
    for (int month = 0; month < 12; month++) {
        int same = 0;
        while (same < month && !alike(room, same, month))
            same++;
        struct scene scene = {room, tanks, count, month, year->swing, 0, &year->month[month]};
        if (same < month)
            year->month[month] = year->month[same];
        else if (!find_month(&scene))
            return TC_NO_RESULT;
    }
    return TC_OK;
}

void tc_room_put(const struct tc_room_year *year, struct tc_heat_case *c)
{
    c->room_swing = year->swing;
    for (int month = 0; month < 12; month++) {
        c->room_temperature[month] = year->month[month].temperature;
        c->room_humidity[month] = year->month[month].humidity;
    }
}

double tc_room_warm_enough(const struct tc_heat_case *c, double vapour)
{
    double low = COLDEST, high = 333.15;
    double gain = c->gain_steady + c->gain_light * c->light_hours / 24 -
                  c->fresh_flow * TC_WATER_HEAT_CAPACITY * (c->set_temperature - c->fresh_temperature);
    if (tc_heat_loss_at(c, high, fmin(vapour / tc_saturation_pressure(high), 1)) > gain)
        return NAN;
    while (high - low > NEAR_TEMPERATURE) {
        double middle = low + (high - low) / 2;
        if (tc_heat_loss_at(c, middle, fmin(vapour / tc_saturation_pressure(middle), 1)) > gain)
            low = middle;
        else
            high = middle;
    }
    return high;
}
