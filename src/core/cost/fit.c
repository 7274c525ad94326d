/* SPDX-License-Identifier: MIT */
#include "core/cost/fit.h"

#include <math.h>
#include <string.h>

#include "core/cost/lifecycle.h"

/* Tolerances and limits; see the header. */
#define STAND_SHORT  0.010
#define STAND_LONG   0.150
#define LID_SLACK    0.015
#define HEATER_MOST  3000.0 /* W/m3 */
#define HEATER_SPARE 1.5
#define NEARLY       1e-9 /* relative: what is met but for rounding is met */

enum {
    LID_PIECES_MAX = 3,
    LIGHT_PIECES_MAX = 3,
    LIGHT_ROWS_MAX = 4,
    FILTERS_MAX = 4,
    AIR_PUMPS_MAX = 3,
    HEATERS_MAX = 4,
    BAGS_MAX = 60
};

const enum tc_slot tc_fit_order[TC_SLOT_COUNT] = {
    TC_SLOT_SUBSTRATE, TC_SLOT_LID,    TC_SLOT_LIGHT, TC_SLOT_FILTER,
    TC_SLOT_AIR_PUMP,  TC_SLOT_HEATER, TC_SLOT_STAND,
};

static void refuse(struct tc_verdict *verdict, enum tc_reason_code code, double have, double need)
{
    verdict->fits = false;
    verdict->count = 0;
    verdict->reason = (struct tc_reason){code, have, need};
}

static void accept(struct tc_verdict *verdict, int count, double have, double need)
{
    verdict->fits = true;
    verdict->count = count;
    verdict->reason = (struct tc_reason){TC_FITS, have, need};
}

static bool falls_short(double have, double need)
{
    return have < need * (1 - NEARLY);
}

int tc_fit_count(double need, double each, int most)
{
    if (!(need > 0))
        return 1;
    double count = ceil(need / each * (1 - NEARLY));
    return count > most ? most + 1 : (int)fmax(count, 1);
}

static int greater(int a, int b)
{
    return a > b ? a : b;
}

static void judge_stand(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_stand *stand = &verdict->offer->part->as.stand;
    const struct tc_tank *tank = fit->tank;
    if (falls_short(stand->length, tank->length - STAND_SHORT))
        refuse(verdict, TC_TOO_SHORT, stand->length, tank->length);
    else if (falls_short(tank->length + STAND_LONG, stand->length))
        refuse(verdict, TC_TOO_LONG, stand->length, tank->length);
    else if (falls_short(stand->width, tank->width - STAND_SHORT))
        refuse(verdict, TC_TOO_NARROW, stand->width, tank->width);
    else if (falls_short(tank->width + STAND_LONG, stand->width))
        refuse(verdict, TC_TOO_WIDE, stand->width, tank->width);
    else if (falls_short(stand->load, fit->demand.load))
        refuse(verdict, TC_TOO_WEAK, stand->load, fit->demand.load);
    else
        accept(verdict, 1, stand->load, fit->demand.load);
}

/* How many pieces of a lid cover the length, 0 where no number of them does. */
static int lid_pieces(double lid_length, double tank_length)
{
    for (int pieces = 1; pieces <= LID_PIECES_MAX; pieces++)
        if (!falls_short(pieces * lid_length, tank_length - LID_SLACK) &&
            !falls_short(tank_length + LID_SLACK, pieces * lid_length))
            return pieces;
    return 0;
}

static void judge_lid(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_lid *lid = &verdict->offer->part->as.lid;
    const struct tc_tank *tank = fit->tank;
    int pieces = lid_pieces(lid->length, tank->length);
    if (falls_short(lid->width, tank->width - LID_SLACK))
        refuse(verdict, TC_TOO_NARROW, lid->width, tank->width);
    else if (falls_short(tank->width + LID_SLACK, lid->width))
        refuse(verdict, TC_TOO_WIDE, lid->width, tank->width);
    else if (pieces == 0 && lid->length > tank->length)
        refuse(verdict, TC_TOO_LONG, lid->length, tank->length);
    else if (pieces == 0)
        refuse(verdict, TC_NOT_IN_PIECES, lid->length, tank->length);
    else if (fit->setup->ppfd > 0 && !(lid->transmittance > 0))
        refuse(verdict, TC_OPAQUE, 0, 0);
    else
        accept(verdict, pieces, pieces * lid->length, tank->length);
}

static void judge_light(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_light *light = &verdict->offer->part->as.light;
    double length = fit->tank->length, width = fit->size->inner_width;
    int pieces = tc_fit_count(length, light->longest, LIGHT_PIECES_MAX);
    double row_ppf = pieces * light->ppf;
    int by_ppf = tc_fit_count(fit->demand.ppf, row_ppf, LIGHT_ROWS_MAX);
    int by_width = light->reach > 0 ? tc_fit_count(width, light->reach, LIGHT_ROWS_MAX) : fit->demand.rows;
    int rows = greater(by_ppf, by_width);
    if (pieces > LIGHT_PIECES_MAX)
        refuse(verdict, TC_TOO_SHORT, LIGHT_PIECES_MAX * light->longest, length);
    else if (falls_short(length, pieces * light->shortest))
        refuse(verdict, TC_TOO_LONG, pieces * light->shortest, length);
    else if (by_ppf > LIGHT_ROWS_MAX)
        refuse(verdict, TC_TOO_DIM, LIGHT_ROWS_MAX * row_ppf, fit->demand.ppf);
    else if (by_width > LIGHT_ROWS_MAX)
        refuse(verdict, TC_TOO_NARROW, LIGHT_ROWS_MAX * (light->reach > 0 ? light->reach : width / by_width),
               width);
    else
        accept(verdict, pieces * rows, rows * row_ppf, fit->demand.ppf);
    if (verdict->fits)
        verdict->rows = rows;
}

static void judge_filter(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_filter *filter = &verdict->offer->part->as.filter;
    int by_flow = tc_fit_count(fit->demand.flow, filter->flow, FILTERS_MAX);
    int by_length = tc_fit_count(fit->size->swim_length, filter->reach, FILTERS_MAX);
    int count = greater(by_flow, by_length);
    if (filter->kind != fit->setup->filter)
        refuse(verdict, TC_OTHER_KIND, 0, 0);
    else if (by_flow > FILTERS_MAX)
        refuse(verdict, TC_TOO_SMALL, FILTERS_MAX * filter->flow, fit->demand.flow);
    else if (by_length > FILTERS_MAX)
        refuse(verdict, TC_TOO_SHORT, FILTERS_MAX * filter->reach, fit->size->swim_length);
    else
        accept(verdict, count, count * filter->flow, fit->demand.flow);
}

static void judge_air_pump(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_air_pump *pump = &verdict->offer->part->as.air_pump;
    int count = tc_fit_count(fit->demand.air, pump->flow, AIR_PUMPS_MAX);
    if (falls_short(pump->depth, fit->size->water_depth))
        refuse(verdict, TC_TOO_DEEP, pump->depth, fit->size->water_depth);
    else if (count > AIR_PUMPS_MAX)
        refuse(verdict, TC_TOO_SMALL, AIR_PUMPS_MAX * pump->flow, fit->demand.air);
    else
        accept(verdict, count, count * pump->flow, fit->demand.air);
}

static void judge_heater(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double power = verdict->offer->part->as.heater.power;
    double most = fmax(HEATER_MOST * fit->size->water_volume, HEATER_SPARE * fit->demand.heat);
    int count = greater(tc_fit_count(fit->demand.heat, power, HEATERS_MAX), fit->setup->heater_count);
    if (count > HEATERS_MAX)
        refuse(verdict, TC_TOO_SMALL, HEATERS_MAX * power, fit->demand.heat);
    else if (falls_short(most, count * power))
        refuse(verdict, TC_TOO_STRONG, count * power, most);
    else
        accept(verdict, count, count * power, fit->demand.heat);
}

static void judge_substrate(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double bag = verdict->offer->part->as.substrate.volume;
    int count = tc_fit_count(fit->demand.bed, bag, BAGS_MAX);
    if (count > BAGS_MAX)
        refuse(verdict, TC_TOO_SMALL, BAGS_MAX * bag, fit->demand.bed);
    else
        accept(verdict, count, count * bag, fit->demand.bed);
}

static void judge(const struct tc_fit_case *fit, enum tc_slot slot, struct tc_verdict *verdict)
{
    switch (slot) {
    case TC_SLOT_STAND: judge_stand(fit, verdict); break;
    case TC_SLOT_LID: judge_lid(fit, verdict); break;
    case TC_SLOT_LIGHT: judge_light(fit, verdict); break;
    case TC_SLOT_FILTER: judge_filter(fit, verdict); break;
    case TC_SLOT_AIR_PUMP: judge_air_pump(fit, verdict); break;
    case TC_SLOT_HEATER: judge_heater(fit, verdict); break;
    case TC_SLOT_SUBSTRATE: judge_substrate(fit, verdict); break;
    case TC_SLOT_COUNT: break;
    }
}

/* Seconds of a year that a part of this slot draws its power; a heater's energy is the tank's, whichever it
 * is. */
static double running_seconds(const struct tc_fit_case *fit, enum tc_slot slot)
{
    switch (slot) {
    case TC_SLOT_LIGHT: return fit->setup->light_hours * 3600 * 365;
    case TC_SLOT_FILTER:
    case TC_SLOT_AIR_PUMP: return 24 * 3600.0 * 365;
    default: return 0;
    }
}

/* Present value of count of the part: bought, replaced, run, kept up, and sold at the end. */
static double present_value(const struct tc_fit_case *fit, enum tc_slot slot,
                            const struct tc_verdict *verdict)
{
    const struct tc_offer *offer = verdict->offer;
    const struct tc_goods *goods = &offer->part->goods;
    double price = (double)offer->price, tax = fit->replacement_tax;
    struct tc_item_life life = {price, price, goods->life, goods->life, goods->resale};
    life = tc_item_taxed(life, tax, fit->years);
    double energy = tc_part_power(offer->part) * running_seconds(fit, slot) * fit->energy_price;
    double each = price * (1 + tax) + tc_item_replacements_value(&life, fit->discount, fit->years) -
                  tc_item_residual(&life, fit->years) * tc_single_present_value(fit->discount, fit->years) +
                  energy * tc_escalated_present_value(fit->discount, fit->energy_escalation, fit->years) +
                  (double)offer->upkeep * (1 + tax) * tc_uniform_present_value(fit->discount, fit->years);
    return verdict->count * each;
}

/* A pinned part is taken whatever the rules say; the reason keeps what they said. */
static void pin(struct tc_verdict *verdict)
{
    if (verdict->fits)
        verdict->reason.code = TC_FITS_PINNED;
    else
        verdict->count = 1;
}

int tc_fit_slot(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_offer *offers,
                int offer_count, const char *pinned, struct tc_verdict *verdicts, int room, int *chosen)
{
    int count = 0;
    *chosen = -1;
    for (int i = 0; i < offer_count && count < room; i++) {
        if (offers[i].part->slot != slot)
            continue;
        struct tc_verdict *verdict = &verdicts[count];
        *verdict = (struct tc_verdict){.offer = &offers[i]};
        judge(fit, slot, verdict);
        bool wanted = pinned && strcmp(pinned, offers[i].part->goods.name) == 0;
        if (verdict->fits && !offers[i].priced && !wanted)
            refuse(verdict, TC_NO_PRICE, 0, 0);
        if (wanted) {
            pin(verdict);
            *chosen = count;
        }
        if (verdict->count > 0)
            verdict->present_value = present_value(fit, slot, verdict);
        if (!pinned && verdict->fits &&
            (*chosen < 0 || verdict->present_value < verdicts[*chosen].present_value))
            *chosen = count;
        count++;
    }
    if (*chosen >= 0)
        verdicts[*chosen].chosen = true;
    return count;
}
