/* SPDX-License-Identifier: MIT */
#include "core/fit.h"

#include <math.h>
#include <string.h>

#include "core/lifecycle.h"

/* Tolerances and limits; see the header. */
#define STAND_SHORT 0.010
#define STAND_LONG  0.150
#define LID_SLACK   0.015
#define HEATER_MOST 3000.0 /* W/m3 */
#define NEARLY      1e-9   /* relative: a count that is whole but for rounding stays whole */

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

/* The least count that together gives what is needed: at least 1, and INT-safe. */
static int count_for(double need, double each, int most)
{
    if (!(need > 0))
        return 1;
    double count = ceil(need / each * (1 - NEARLY));
    return count > most ? most + 1 : (int)fmax(count, 1);
}

static void judge_stand(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_stand *stand = &verdict->offer->part->as.stand;
    const struct tc_tank *tank = fit->tank;
    if (stand->length < tank->length - STAND_SHORT)
        refuse(verdict, TC_TOO_SHORT, stand->length, tank->length);
    else if (stand->length > tank->length + STAND_LONG)
        refuse(verdict, TC_TOO_LONG, stand->length, tank->length);
    else if (stand->width < tank->width - STAND_SHORT)
        refuse(verdict, TC_TOO_NARROW, stand->width, tank->width);
    else if (stand->width > tank->width + STAND_LONG)
        refuse(verdict, TC_TOO_WIDE, stand->width, tank->width);
    else if (stand->load < fit->demand.load)
        refuse(verdict, TC_TOO_WEAK, stand->load, fit->demand.load);
    else
        accept(verdict, 1, stand->load, fit->demand.load);
}

static void judge_lid(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_lid *lid = &verdict->offer->part->as.lid;
    const struct tc_tank *tank = fit->tank;
    if (lid->width < tank->width - LID_SLACK) {
        refuse(verdict, TC_TOO_NARROW, lid->width, tank->width);
        return;
    }
    if (lid->width > tank->width + LID_SLACK) {
        refuse(verdict, TC_TOO_WIDE, lid->width, tank->width);
        return;
    }
    for (int pieces = 1; pieces <= LID_PIECES_MAX; pieces++) {
        if (fabs(pieces * lid->length - tank->length) <= LID_SLACK) {
            accept(verdict, pieces, pieces * lid->length, tank->length);
            return;
        }
    }
    if (lid->length > tank->length)
        refuse(verdict, TC_TOO_LONG, lid->length, tank->length);
    else
        refuse(verdict, TC_NOT_IN_PIECES, lid->length, tank->length);
}

static void judge_light(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_light *light = &verdict->offer->part->as.light;
    double length = fit->tank->length;
    int pieces = 1;
    while (pieces < LIGHT_PIECES_MAX && pieces * light->longest < length)
        pieces++;
    if (pieces * light->longest < length) {
        refuse(verdict, TC_TOO_SHORT, light->longest, length);
        return;
    }
    if (pieces * light->shortest > length) {
        refuse(verdict, TC_TOO_LONG, light->shortest, length);
        return;
    }
    int rows = count_for(fit->demand.ppf, pieces * light->ppf, LIGHT_ROWS_MAX);
    int by_width = fit->demand.rows;
    if (light->reach > 0)
        by_width = count_for(fit->size->inner_width, light->reach, LIGHT_ROWS_MAX);
    if (rows < by_width)
        rows = by_width;
    double row_ppf = pieces * light->ppf;
    if (rows > LIGHT_ROWS_MAX) {
        refuse(verdict, TC_TOO_DIM, LIGHT_ROWS_MAX * row_ppf, fit->demand.ppf);
        return;
    }
    accept(verdict, pieces * rows, rows * row_ppf, fit->demand.ppf);
    verdict->rows = rows;
}

static void judge_filter(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_filter *filter = &verdict->offer->part->as.filter;
    if (filter->kind != fit->kit->filter) {
        refuse(verdict, TC_OTHER_KIND, filter->kind, fit->kit->filter);
        return;
    }
    int by_flow = count_for(fit->demand.flow, filter->flow, FILTERS_MAX);
    int by_length = count_for(fit->size->swim_length, filter->reach, FILTERS_MAX);
    int count = by_flow > by_length ? by_flow : by_length;
    if (by_flow > FILTERS_MAX)
        refuse(verdict, TC_TOO_SMALL, FILTERS_MAX * filter->flow, fit->demand.flow);
    else if (by_length > FILTERS_MAX)
        refuse(verdict, TC_TOO_SHORT, FILTERS_MAX * filter->reach, fit->size->swim_length);
    else
        accept(verdict, count, count * filter->flow, fit->demand.flow);
}

static void judge_air_pump(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_air_pump *pump = &verdict->offer->part->as.air_pump;
    int count = count_for(fit->demand.air, pump->flow, AIR_PUMPS_MAX);
    if (pump->depth < fit->size->water_depth)
        refuse(verdict, TC_TOO_DEEP, pump->depth, fit->size->water_depth);
    else if (count > AIR_PUMPS_MAX)
        refuse(verdict, TC_TOO_SMALL, AIR_PUMPS_MAX * pump->flow, fit->demand.air);
    else
        accept(verdict, count, count * pump->flow, fit->demand.air);
}

static void judge_heater(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double power = verdict->offer->part->as.heater.power;
    double most = HEATER_MOST * fit->size->water_volume;
    int count = count_for(fit->demand.heat, power, HEATERS_MAX);
    if (count < fit->kit->heater_count)
        count = fit->kit->heater_count;
    if (count > HEATERS_MAX)
        refuse(verdict, TC_TOO_SMALL, HEATERS_MAX * power, fit->demand.heat);
    else if (count * power > most && count * power > 1.5 * fit->demand.heat)
        refuse(verdict, TC_TOO_STRONG, count * power, fmax(most, 1.5 * fit->demand.heat));
    else
        accept(verdict, count, count * power, fit->demand.heat);
}

static void judge_substrate(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double bag = verdict->offer->part->as.substrate.volume;
    int count = count_for(fit->demand.bed, bag, BAGS_MAX);
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
    case TC_SLOT_LIGHT: return fit->kit->light_hours * 3600 * 365;
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
    double price = (double)offer->price;
    double taxed = price * (1 + fit->replacement_tax);
    struct tc_item_life life = {price, taxed, goods->life, goods->life, goods->resale};
    double energy = tc_part_power(offer->part) * running_seconds(fit, slot) * fit->energy_price;
    double each = taxed + tc_item_replacements_value(&life, fit->discount, fit->years) -
                  tc_item_residual(&life, fit->years) * tc_single_present_value(fit->discount, fit->years) +
                  energy * tc_escalated_present_value(fit->discount, fit->energy_escalation, fit->years) +
                  (double)offer->upkeep * tc_uniform_present_value(fit->discount, fit->years);
    return verdict->count * each;
}

/* A pinned part is taken whatever the rules say; the reason keeps what they said. */
static void pin(struct tc_verdict *verdict)
{
    if (!verdict->fits)
        verdict->count = 1;
    else
        verdict->reason.code = TC_FITS_PINNED;
    verdict->chosen = true;
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
