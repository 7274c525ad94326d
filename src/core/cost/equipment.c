/* SPDX-License-Identifier: MIT */
#include "core/cost/equipment.h"

#include <math.h>
#include <string.h>

#include "core/physics/light.h"
#include "core/physics/vapour.h"

/* Of dry substrate and stones, J/(kg K) (common practice, no source; granite 790, quartz sand 830). */
#define SUBSTRATE_HEAT_CAPACITY 800.0

#define DAY (24 * 3600.0)

/*
 * A bed that nothing on offer can make is taken for one of gravel, so that the
 * stand is not chosen without its weight: kg/m3 as it lies, and the share of
 * voids (common practice, no source).
 */
#define GRAVEL_DENSITY 1600.0
#define GRAVEL_VOIDS   0.4

/* Of a lid of 4 mm of glass, m2 K/W; another hardly matters beside the air on both sides of it. */
#define LID_RESISTANCE (0.004 / TC_GLASS_CONDUCTIVITY)

double tc_equipment_gain(const struct tc_equipment *equipment)
{
    const struct tc_filled *filter = &equipment->slot[TC_SLOT_FILTER];
    if (!filter->offer)
        return 0;
    const struct tc_filter *f = &filter->offer->part->as.filter;
    /* An air pump stands outside and blows room air: its heat stays in the room. */
    return filter->count * f->power * f->heat;
}

double tc_equipment_covered(const struct tc_equipment *equipment)
{
    const struct tc_offer *lid = equipment->slot[TC_SLOT_LID].offer;
    return lid ? lid->part->as.lid.covered : 0;
}

/* The same from the lights while they are on. */
double tc_equipment_light_gain(const struct tc_equipment *equipment)
{
    const struct tc_filled *light = &equipment->slot[TC_SLOT_LIGHT];
    if (!light->offer)
        return 0;
    const struct tc_light *l = &light->offer->part->as.light;
    return light->count * l->power * l->heat;
}

double tc_equipment_activity(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_offer *filter = equipment->slot[TC_SLOT_FILTER].offer;
    if (!isnan(c->setup->activity))
        return c->setup->activity;
    switch (filter ? filter->part->as.filter.kind : TC_FILTER_NONE) {
    case TC_FILTER_SPONGE: return TC_ACTIVITY_AIR;
    case TC_FILTER_HANG_ON: return TC_ACTIVITY_FALL;
    case TC_FILTER_CANISTER:
    case TC_FILTER_NONE: break;
    }
    return TC_ACTIVITY_CALM;
}

double tc_equipment_beside(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_filled *filter = &equipment->slot[TC_SLOT_FILTER];
    const struct tc_filled *light = &equipment->slot[TC_SLOT_LIGHT];
    const struct tc_filled *air = &equipment->slot[TC_SLOT_AIR_PUMP];
    double sum = 0;
    if (filter->offer) {
        const struct tc_filter *f = &filter->offer->part->as.filter;
        sum += filter->count * f->power * (1 - f->heat);
    }
    if (light->offer) {
        const struct tc_light *l = &light->offer->part->as.light;
        sum += light->count * l->power * (1 - l->heat) * c->setup->light_hours / 24;
    }
    if (air->offer)
        sum += tc_equipment_pieces(c, equipment, TC_SLOT_AIR_PUMP) * tc_part_power(air->offer->part) /
               c->quantity;
    return sum;
}

struct tc_upkeep_time tc_equipment_upkeep(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_filled *filter = &equipment->slot[TC_SLOT_FILTER];
    return tc_upkeep_time(c->setup, &equipment->size, filter->offer ? &filter->offer->part->as.filter : NULL,
                          filter->count, c->quantity);
}

double tc_equipment_changed(const struct tc_case *c, const struct tc_equipment *equipment)
{
    if (!(c->setup->change_interval > 0))
        return 0;
    return c->setup->change_share * equipment->size.water_volume / c->setup->change_interval;
}

double tc_equipment_flow(const struct tc_case *c, const struct tc_equipment *equipment)
{
    return c->setup->turnover * equipment->size.water_volume;
}

/* J/K of what stands in the water or around it. */
static double extra_capacity(const struct tc_tank_size *size)
{
    return size->glass_mass * TC_GLASS_HEAT_CAPACITY + size->substrate_mass * SUBSTRATE_HEAT_CAPACITY;
}

double tc_equipment_capacity(const struct tc_equipment *equipment)
{
    return equipment->size.water_volume * TC_WATER_HEAT_CAPACITY + extra_capacity(&equipment->size);
}

struct tc_heat_case tc_equipment_heat(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_filled *heater = &equipment->slot[TC_SLOT_HEATER];
    const struct tc_tank_size *size = &equipment->size;
    const struct tc_climate *climate = &c->region->climate;
    struct tc_heat_case heat = {
        .glazing = {.inner_length = size->inner_length,
                    .inner_width = size->inner_width,
                    .water_depth = size->water_depth,
                    .side_thickness = c->tank.glass,
                    .bottom_thickness = c->tank.bottom_glass,
                    .sheltered_share = c->setup->sheltered,
                    .bottom_insulation = TC_BOARD_RESISTANCE,
                    .covered_share = tc_equipment_covered(equipment),
                    .lid_resistance = LID_RESISTANCE},
        .water_volume = size->water_volume,
        .extra_heat_capacity = extra_capacity(size),
        .activity = tc_equipment_activity(c, equipment),
        .loss_factor = isnan(c->loss_factor) ? c->setup->heat_loss : c->loss_factor,
        .fresh_flow = c->region->fresh_mixed ? 0 : tc_equipment_changed(c, equipment) / DAY,
        .fresh_temperature = c->region->cold_water,
        .set_temperature = c->setup->temperature,
        .limit_temperature = c->setup->warm_limit,
        .heater_power = heater->offer ? heater->count * heater->offer->part->as.heater.power : 0,
        .gain_steady = tc_equipment_gain(equipment),
        .gain_light = tc_equipment_light_gain(equipment),
        .light_begin = c->setup->light_start,
        .light_hours = c->setup->light_hours,
        .room_swing = climate->swing,
        .frame = c->counter && c->counter->framed ? &c->counter->frame : NULL,
    };
    for (int month = 0; month < TC_MONTHS; month++) {
        heat.room_temperature[month] = tc_climate_room(climate, month);
        heat.room_humidity[month] = climate->humidity[month];
    }
    return heat;
}

/* Cases are all doubles and their frame's address, so the same bits are the same case. */
bool tc_equipment_same_heat(const struct tc_heat_case *a, const struct tc_heat_case *b)
{
    /* NOLINTNEXTLINE(bugprone-suspicious-memory-comparison) */
    return memcmp(a, b, sizeof *a) == 0;
}

enum tc_status tc_equipment_heat_year(const struct tc_case *c, const struct tc_equipment *equipment,
                                      struct tc_heat_year *room, const struct tc_heat_year **year)
{
    const struct tc_heat_case heat = tc_equipment_heat(c, equipment);
    struct tc_heat_memory *memory = c->memory;
    *year = c->known && tc_equipment_same_heat(&heat, &c->known->c) ? &c->known->year : room;
    if (*year != room)
        return TC_OK;
    if (!memory)
        return tc_heat_year(&heat, room);
    int held = memory->count < TC_HEAT_MEMORY ? memory->count : TC_HEAT_MEMORY;
    int next = memory->count % TC_HEAT_MEMORY;
    for (int i = 0; i < held; i++) {
        if (!tc_equipment_same_heat(&heat, &memory->c[i]))
            continue;
        *year = &memory->year[i];
        return TC_OK;
    }
    *year = &memory->year[next];
    enum tc_status status = tc_heat_year(&heat, &memory->year[next]);
    if (status != TC_OK)
        return status; /* what the memory holds there is untouched */
    memory->c[next] = heat;
    memory->count++;
    return TC_OK;
}

static struct tc_light_path light_path(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_filled *lid = &equipment->slot[TC_SLOT_LID];
    double bed = equipment->size.inner_height - equipment->size.reach;
    return (struct tc_light_path){
        .capture = TC_LIGHT_CAPTURE,
        .lid_transmittance = lid->offer ? lid->offer->part->as.lid.transmittance : 1,
        .surface_reflection = TC_SURFACE_REFLECTION,
        .attenuation = c->setup->attenuation,
        .depth = equipment->size.water_depth - bed,
        .area = equipment->size.bottom_area,
    };
}

double tc_equipment_ppfd(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_filled *light = &equipment->slot[TC_SLOT_LIGHT];
    double ppfd = 0;
    if (!light->offer)
        return 0;
    struct tc_light_path path = light_path(c, equipment);
    double ppf = light->count * light->offer->part->as.light.ppf;
    return tc_light_ppfd(&path, ppf, &ppfd) == TC_OK ? ppfd : 0;
}

/* The name that the plan pins for a slot, or NULL. */
static const char *pinned_part(const struct tc_case *c, enum tc_slot slot)
{
    const char *part = c->wish[slot].part;
    return part && part[0] ? part : NULL;
}

static bool left_out(const struct tc_case *c, enum tc_slot slot)
{
    const char *part = c->wish[slot].part;
    return part && !part[0];
}

/* The demands of the slots, each from the tank, the setup and the slots filled before it. */
static enum tc_status demand_light(const struct tc_case *c, const struct tc_equipment *equipment,
                                   struct tc_demand *demand)
{
    demand->wanted = c->setup->ppfd > 0;
    if (!demand->wanted)
        return TC_OK;
    struct tc_light_path path = light_path(c, equipment);
    enum tc_status status = tc_light_needed_ppf(&path, c->setup->ppfd, &demand->ppf);
    if (status == TC_NO_RESULT && left_out(c, TC_SLOT_LIGHT)) {
        *demand = (struct tc_demand){0}; /* an opaque lid, and nobody asks for light */
        return TC_OK;
    }
    if (status == TC_NO_RESULT) {
        path.lid_transmittance = 1; /* the lid is pinned and said not to fit: lit as without it */
        status = tc_light_needed_ppf(&path, c->setup->ppfd, &demand->ppf);
    }
    if (status != TC_OK)
        return status;
    double height = equipment->size.reach + TC_LIGHT_HANGS;
    return tc_light_rows(equipment->size.inner_width, height, TC_LIGHT_UNIFORMITY, &demand->rows);
}

static enum tc_status demand_heater(const struct tc_case *c, const struct tc_equipment *equipment,
                                    struct tc_demand *demand)
{
    struct tc_heat_case heat = tc_equipment_heat(c, equipment);
    enum tc_status status = tc_heat_needed_power(&heat, c->setup->heater_margin, &demand->heat);
    demand->wanted = c->setup->heater && demand->heat > 0;
    return status;
}

static void demand_air(const struct tc_case *c, const struct tc_equipment *equipment,
                       struct tc_demand *demand)
{
    const struct tc_filled *filter = &equipment->slot[TC_SLOT_FILTER];
    if (filter->offer)
        demand->air = filter->count * filter->offer->part->as.filter.air;
    if (c->setup->shared_air)
        demand->air *= c->quantity;
    demand->wanted = demand->air > 0;
}

static enum tc_status find_demand(const struct tc_case *c, const struct tc_equipment *equipment,
                                  enum tc_slot slot, struct tc_demand *demand)
{
    *demand = (struct tc_demand){0};
    switch (slot) {
    case TC_SLOT_SUBSTRATE:
        demand->wanted = c->setup->bed_depth > 0;
        demand->bed = equipment->size.bottom_area * c->setup->bed_depth;
        break;
    case TC_SLOT_LID: demand->wanted = c->setup->lid; break;
    case TC_SLOT_LIGHT: return demand_light(c, equipment, demand);
    case TC_SLOT_FILTER:
        demand->wanted = c->setup->filter != TC_FILTER_NONE;
        demand->flow = tc_equipment_flow(c, equipment);
        break;
    case TC_SLOT_AIR_PUMP: demand_air(c, equipment, demand); break;
    case TC_SLOT_HEATER: return demand_heater(c, equipment, demand);
    case TC_SLOT_STAND:
        demand->wanted = c->setup->stand;
        demand->load = equipment->size.filled_mass;
        break;
    case TC_SLOT_COUNT: break;
    }
    return TC_OK;
}

struct tc_fit_case tc_equipment_fit_case(const struct tc_case *c, const struct tc_equipment *equipment,
                                         enum tc_slot slot)
{
    return (struct tc_fit_case){
        .tank = &c->tank,
        .size = &equipment->size,
        .setup = c->setup,
        .demand = equipment->slot[slot].demand,
        .count = c->wish[slot].count,
        .years = c->years,
        .discount = c->discount,
        .energy_price = c->energy_price,
        .energy_escalation = c->region->electricity_escalation,
        .replacement_tax = tc_region_added_tax(c->region),
        .hour_worth = c->hour_worth,
    };
}

int tc_equipment_offers(const struct tc_case *c, enum tc_slot slot)
{
    return c->counter ? c->counter->begin[slot + 1] - c->counter->begin[slot] : c->offer_count;
}

bool tc_equipment_offer(const struct tc_case *c, enum tc_slot slot, int i, struct tc_ready_offer *at)
{
    *at = c->counter ? c->counter->items[c->counter->begin[slot] + i]
                     : (struct tc_ready_offer){&c->offers[i], NAN, 0, 0};
    return at->offer->part->slot == slot;
}

bool tc_equipment_follows(enum tc_slot slot, enum tc_slot from)
{
    switch (slot) {
    case TC_SLOT_HEATER: return from == TC_SLOT_LID || from == TC_SLOT_FILTER || from == TC_SLOT_SUBSTRATE;
    case TC_SLOT_AIR_PUMP: return from == TC_SLOT_FILTER;
    case TC_SLOT_STAND: return from == TC_SLOT_SUBSTRATE;
    case TC_SLOT_LIGHT: return from == TC_SLOT_LID;
    case TC_SLOT_LID:
    case TC_SLOT_FILTER:
    case TC_SLOT_SUBSTRATE:
    case TC_SLOT_COUNT: break;
    }
    return false;
}

void tc_equipment_keep(const struct tc_equipment *equipment, enum tc_slot slot,
                       struct tc_ready_offer kept[TC_SLOT_COUNT])
{
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *filled = &equipment->slot[i];
        bool follows = tc_equipment_follows((enum tc_slot)i, slot);
        kept[i] = (struct tc_ready_offer){follows ? NULL : filled->offer, filled->each, 0, 0};
    }
}

/* Fills a slot; with the offer `only` and no other, if there is one. */
static void fill(const struct tc_case *c, struct tc_equipment *equipment, enum tc_slot slot,
                 struct tc_ready_offer only)
{
    struct tc_filled *filled = &equipment->slot[slot];
    const char *pinned = pinned_part(c, slot);
    if (pinned)
        filled->demand.wanted = true;
    if (left_out(c, slot))
        filled->demand.wanted = false;
    if (!filled->demand.wanted)
        return;
    struct tc_fit_case fit = tc_equipment_fit_case(c, equipment, slot);
    struct tc_verdict chosen;
    bool found = true;
    if (only.offer)
        chosen = tc_fit_judge_ready(&fit, slot, only, pinned != NULL);
    else if (c->counter && !pinned)
        found = tc_fit_choose_ready(&fit, slot, &c->counter->items[c->counter->begin[slot]],
                                    tc_equipment_offers(c, slot), &chosen);
    else
        found = tc_fit_choose(&fit, slot, c->offers, c->offer_count, pinned, &chosen);
    filled->pinned = pinned != NULL;
    filled->missing = !found || chosen.count == 0;
    if (filled->missing)
        return;
    filled->offer = chosen.offer;
    filled->count = chosen.count;
    filled->shared = slot == TC_SLOT_AIR_PUMP && c->setup->shared_air;
    filled->rows = chosen.rows;
    filled->reason = chosen.reason;
    filled->ill_fitting = !chosen.fits;
    filled->each = chosen.each;
    filled->present_value = chosen.present_value;
}

int tc_equipment_pieces(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot)
{
    const struct tc_filled *filled = &equipment->slot[slot];
    int all = filled->shared ? filled->count : filled->count * c->quantity;
    if (slot != TC_SLOT_SUBSTRATE || !filled->offer)
        return all;
    /* What one tank leaves of a bag goes into the next. */
    int bags = tc_fit_count(c->quantity * filled->demand.bed, filled->offer->part->as.substrate.volume, all);
    return bags < all ? bags : all;
}

enum tc_status tc_equipment_measure(const struct tc_case *c, struct tc_equipment *equipment)
{
    struct tc_bed bed = {
        .depth = c->setup->bed_depth, .bulk_density = GRAVEL_DENSITY, .void_share = GRAVEL_VOIDS};
    const struct tc_offer *offer = equipment->slot[TC_SLOT_SUBSTRATE].offer;
    if (offer) {
        bed.bulk_density = offer->part->as.substrate.bulk_density;
        bed.void_share = offer->part->as.substrate.void_share;
    } else if (left_out(c, TC_SLOT_SUBSTRATE)) {
        bed.depth = 0;
    }
    return tc_tank_measure(&c->tank, bed, c->setup->temperature, &equipment->size);
}

enum tc_status tc_equipment_fill(const struct tc_case *c, const struct tc_ready_offer only[TC_SLOT_COUNT],
                                 struct tc_equipment *equipment)
{
    *equipment = (struct tc_equipment){0};
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = tc_fit_order[i];
        /* Anew with the substrate, which displaces water. */
        bool other_bed = i == 0 || tc_fit_order[i - 1] == TC_SLOT_SUBSTRATE;
        enum tc_status status = other_bed ? tc_equipment_measure(c, equipment) : TC_OK;
        if (status == TC_OK)
            status = find_demand(c, equipment, slot, &equipment->slot[slot].demand);
        if (status != TC_OK)
            return status;
        fill(c, equipment, slot, only[slot]);
    }
    return TC_OK;
}

struct tc_verdict tc_equipment_judge(const struct tc_case *c, const struct tc_equipment *equipment,
                                     const struct tc_offer *offer)
{
    enum tc_slot slot = offer->part->slot;
    struct tc_fit_case fit = tc_equipment_fit_case(c, equipment, slot);
    const char *pinned = pinned_part(c, slot);
    return tc_fit_judge(&fit, slot, offer, pinned && strcmp(pinned, offer->part->goods.name) == 0);
}

int tc_equipment_choices(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot,
                         int *offered)
{
    int fitting = 0;
    *offered = 0;
    for (int i = 0; i < c->offer_count; i++) {
        if (c->offers[i].part->slot != slot)
            continue;
        (*offered)++;
        fitting += tc_equipment_judge(c, equipment, &c->offers[i]).fits;
    }
    return fitting;
}

bool tc_equipment_near_miss(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot,
                            struct tc_verdict *near)
{
    const struct tc_filled *filled = &equipment->slot[slot];
    bool by_thumb = slot == TC_SLOT_LIGHT || slot == TC_SLOT_FILTER || slot == TC_SLOT_HEATER;
    bool found = false;
    if (!by_thumb || !filled->offer || c->wish[slot].part || c->wish[slot].count > 0)
        return false;
    struct tc_fit_case fit = tc_equipment_fit_case(c, equipment, slot), less = fit;
    less.demand.ppf *= 1 - TC_NEAR_MISS;
    less.demand.flow *= 1 - TC_NEAR_MISS;
    less.demand.heat *= 1 - TC_NEAR_MISS;
    for (int i = 0; i < c->offer_count; i++) {
        if (c->offers[i].part->slot != slot)
            continue;
        struct tc_verdict now = tc_fit_judge(&fit, slot, &c->offers[i], false);
        struct tc_verdict verdict = tc_fit_judge(&less, slot, &c->offers[i], false);
        bool missed = verdict.fits && (!now.fits || verdict.count < now.count);
        double bound = found ? near->present_value : filled->present_value;
        if (!missed || verdict.present_value >= bound)
            continue;
        *near = verdict;
        found = true;
    }
    return found;
}
