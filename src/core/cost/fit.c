/* SPDX-License-Identifier: MIT */
#include "core/cost/fit.h"

#include <math.h>
#include <string.h>

#include "core/base/order.h"
#include "core/cost/lifecycle.h"
#include "core/cost/upkeep_time.h"

/* Tolerances and limits; see the header. */
#define STAND_SHORT  0.0127
#define STAND_LONG   0.150 /* solid top */
#define FRAME_LONG   0.050 /* open frame */
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

struct tc_offer tc_offer_make(const struct tc_part *part, double own, struct tc_currency currency)
{
    enum tc_status status = TC_OK;
    const struct tc_price *upkeep = tc_price_in(&part->goods.upkeep, currency);
    struct tc_offer offer = {.part = part};
    double amount;
    offer.priced =
        tc_goods_price(&part->goods, own, currency, &amount) && (upkeep || part->goods.upkeep.count == 0);
    offer.price = tc_currency_money(currency, amount, &status);
    offer.upkeep = tc_currency_money(currency, upkeep ? upkeep->amount : 0, &status);
    offer.priced = offer.priced && status == TC_OK;
    return offer;
}

struct tc_offer tc_offer_spread(const struct tc_part *part, const double own[], const bool open[],
                                const struct tc_market *market, struct tc_currency currency, tc_money asked[])
{
    struct tc_offer offer = {.part = part, .asked = asked, .least = INFINITY};
    bool once = false;
    for (int s = 0; s < market->count; s++) {
        const struct tc_shop_terms *shop = &market->shop[s];
        /* Who sells once sells what is on the list alone. */
        struct tc_offer one = tc_offer_make(part, own[s], currency);
        bool sold = open[s] && one.priced && !(shop->once && isnan(own[s]));
        asked[s] = sold ? one.price : TC_NOT_SOLD;
        if (!sold)
            continue;
        bool better =
            !offer.priced || (once && !shop->once) || (once == shop->once && one.price < offer.price);
        if (better) {
            offer.price = one.price;
            once = shop->once;
        }
        offer.priced = true;
        offer.upkeep = one.upkeep;
        offer.least = fmin(offer.least, (double)one.price * (1 + shop->tax));
    }
    return offer;
}

/* What one costs at first, with a tax on prices. */
static double first_price(const struct tc_offer *offer, double tax)
{
    return offer->asked ? offer->least : (double)offer->price * (1 + tax);
}

/* each: what one piece has. */
static void refuse_pieces(struct tc_verdict *verdict, enum tc_reason_code code, int pieces, double each,
                          double need)
{
    verdict->fits = false;
    verdict->count = 0;
    verdict->reason = (struct tc_reason){code, pieces, pieces * each, need};
}

static void refuse(struct tc_verdict *verdict, enum tc_reason_code code, double have, double need)
{
    refuse_pieces(verdict, code, 1, have, need);
}

static void accept(struct tc_verdict *verdict, int count, double have, double need)
{
    verdict->fits = true;
    verdict->count = count;
    verdict->reason = (struct tc_reason){TC_FITS, count, have, need};
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

/* The most pieces that are looked at: those wanted, or what the rule allows. */
static int pieces_most(const struct tc_fit_case *fit, int allowed)
{
    return fit->count > 0 ? fit->count : allowed;
}

static void judge_stand(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_stand *stand = &verdict->offer->part->as.stand;
    const struct tc_tank *tank = fit->tank;
    double beyond = stand->solid ? STAND_LONG : FRAME_LONG;
    if (falls_short(stand->length, tank->length - STAND_SHORT))
        refuse(verdict, TC_TOO_SHORT, stand->length, tank->length);
    else if (falls_short(tank->length + beyond, stand->length))
        refuse(verdict, TC_TOO_LONG, stand->length, tank->length);
    else if (falls_short(stand->width, tank->width - STAND_SHORT))
        refuse(verdict, TC_TOO_NARROW, stand->width, tank->width);
    else if (falls_short(tank->width + beyond, stand->width))
        refuse(verdict, TC_TOO_WIDE, stand->width, tank->width);
    else if (falls_short(stand->load, fit->demand.load))
        refuse(verdict, TC_TOO_WEAK, stand->load, fit->demand.load);
    else
        accept(verdict, 1, stand->load, fit->demand.load);
}

/* How many pieces of a lid cover the length, 0 where no number of them does. */
static int lid_pieces(const struct tc_fit_case *fit, double lid_length, double tank_length)
{
    for (int pieces = 1; pieces <= pieces_most(fit, LID_PIECES_MAX); pieces++)
        if (!falls_short(pieces * lid_length, tank_length - LID_SLACK) &&
            !falls_short(tank_length + LID_SLACK, pieces * lid_length))
            return pieces;
    return 0;
}

static void judge_lid(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_lid *lid = &verdict->offer->part->as.lid;
    const struct tc_tank *tank = fit->tank;
    int pieces = lid_pieces(fit, lid->length, tank->length);
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
    int piece_most = fit->count > 0 && fit->count < LIGHT_PIECES_MAX ? fit->count : LIGHT_PIECES_MAX;
    int pieces = tc_fit_count(length, light->longest, piece_most);
    double row_ppf = pieces * light->ppf;
    int row_most = fit->count > 0 ? tc_larger(fit->count / pieces, 1) : LIGHT_ROWS_MAX;
    int by_ppf = tc_fit_count(fit->demand.ppf, row_ppf, row_most);
    int by_width = light->reach > 0 ? tc_fit_count(width, light->reach, row_most) : fit->demand.rows;
    int rows = tc_larger(by_ppf, by_width);
    if (pieces > piece_most)
        refuse_pieces(verdict, TC_TOO_SHORT, piece_most, light->longest, length);
    else if (falls_short(length, pieces * light->shortest))
        refuse_pieces(verdict, TC_TOO_LONG, pieces, light->shortest, length);
    else if (by_ppf > row_most)
        refuse_pieces(verdict, TC_TOO_DIM, row_most * pieces, light->ppf, fit->demand.ppf);
    else if (by_width > row_most)
        refuse(verdict, TC_TOO_NARROW, row_most * (light->reach > 0 ? light->reach : width / by_width),
               width);
    else
        accept(verdict, pieces * rows, rows * row_ppf, fit->demand.ppf);
    if (verdict->fits)
        verdict->rows = rows;
}

static void judge_filter(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_filter *filter = &verdict->offer->part->as.filter;
    int by_flow = tc_fit_count(fit->demand.flow, filter->flow, pieces_most(fit, FILTERS_MAX));
    int by_length = tc_fit_count(fit->size->swim_length, filter->reach, pieces_most(fit, FILTERS_MAX));
    int count = tc_larger(by_flow, by_length);
    if (filter->kind != fit->setup->filter)
        refuse(verdict, TC_OTHER_KIND, 0, 0);
    else if (by_flow > pieces_most(fit, FILTERS_MAX))
        refuse_pieces(verdict, TC_TOO_SMALL, pieces_most(fit, FILTERS_MAX), filter->flow, fit->demand.flow);
    else if (by_length > pieces_most(fit, FILTERS_MAX))
        refuse_pieces(verdict, TC_TOO_SHORT, pieces_most(fit, FILTERS_MAX), filter->reach,
                      fit->size->swim_length);
    else
        accept(verdict, count, count * filter->flow, fit->demand.flow);
}

static void judge_air_pump(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    const struct tc_air_pump *pump = &verdict->offer->part->as.air_pump;
    int count = tc_fit_count(fit->demand.air, pump->flow, pieces_most(fit, AIR_PUMPS_MAX));
    if (falls_short(pump->depth, fit->size->water_depth))
        refuse(verdict, TC_TOO_DEEP, pump->depth, fit->size->water_depth);
    else if (count > pieces_most(fit, AIR_PUMPS_MAX))
        refuse_pieces(verdict, TC_TOO_SMALL, pieces_most(fit, AIR_PUMPS_MAX), pump->flow, fit->demand.air);
    else
        accept(verdict, count, count * pump->flow, fit->demand.air);
}

static void judge_heater(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double power = verdict->offer->part->as.heater.power;
    double most = fmax(HEATER_MOST * fit->size->water_volume, HEATER_SPARE * fit->demand.heat);
    int count = tc_larger(tc_fit_count(fit->demand.heat, power, pieces_most(fit, HEATERS_MAX)),
                          fit->setup->heater_count);
    if (count > pieces_most(fit, HEATERS_MAX))
        refuse_pieces(verdict, TC_TOO_SMALL, pieces_most(fit, HEATERS_MAX), power, fit->demand.heat);
    else if (falls_short(most, count * power))
        refuse_pieces(verdict, TC_TOO_STRONG, count, power, most);
    else
        accept(verdict, count, count * power, fit->demand.heat);
}

static void judge_substrate(const struct tc_fit_case *fit, struct tc_verdict *verdict)
{
    double bag = verdict->offer->part->as.substrate.volume;
    int count = tc_fit_count(fit->demand.bed, bag, pieces_most(fit, BAGS_MAX));
    if (count > pieces_most(fit, BAGS_MAX))
        refuse_pieces(verdict, TC_TOO_SMALL, pieces_most(fit, BAGS_MAX), bag, fit->demand.bed);
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
    case TC_SLOT_STAND:
    case TC_SLOT_LID:
    case TC_SLOT_HEATER:
    case TC_SLOT_SUBSTRATE:
    case TC_SLOT_COUNT: break;
    }
    return 0;
}

double tc_fit_gives(const struct tc_offer *offer)
{
    const struct tc_part *part = offer->part;
    switch (part->slot) {
    case TC_SLOT_LIGHT: return part->as.light.ppf;
    case TC_SLOT_FILTER: return part->as.filter.flow;
    case TC_SLOT_AIR_PUMP: return part->as.air_pump.flow;
    case TC_SLOT_HEATER: return part->as.heater.power;
    case TC_SLOT_SUBSTRATE: return part->as.substrate.volume;
    case TC_SLOT_STAND:
    case TC_SLOT_LID:
    case TC_SLOT_COUNT: break;
    }
    return INFINITY;
}

double tc_fit_least(const struct tc_demand *demand, enum tc_slot slot, struct tc_ready_offer ready)
{
    double need = 0;
    switch (slot) {
    case TC_SLOT_LIGHT: need = demand->ppf; break;
    case TC_SLOT_FILTER: need = demand->flow; break;
    case TC_SLOT_AIR_PUMP: need = demand->air; break;
    case TC_SLOT_HEATER: need = demand->heat; break;
    case TC_SLOT_SUBSTRATE: need = demand->bed; break;
    case TC_SLOT_STAND:
    case TC_SLOT_LID:
    case TC_SLOT_COUNT: break;
    }
    return ready.each * fmax(ready.pieces, need / ready.gives * (1 - NEARLY));
}

double tc_fit_energy(const struct tc_fit_case *fit, const struct tc_offer *offer)
{
    return tc_part_power(offer->part) * running_seconds(fit, offer->part->slot);
}

double tc_fit_each(const struct tc_fit_case *fit, const struct tc_offer *offer)
{
    const struct tc_goods *goods = &offer->part->goods;
    double price = (double)offer->price, tax = fit->replacement_tax;
    const struct tc_item_life life = {price,       price * (1 + tax), goods->life,
                                      goods->life, goods->resale,     price};
    double energy = tc_fit_energy(fit, offer) * fit->energy_price;
    double hours =
        offer->part->slot == TC_SLOT_FILTER ? tc_upkeep_filter_hours(offer->part->as.filter.kind) : 0;
    return first_price(offer, tax) + tc_item_replacements_value(&life, fit->discount, fit->years) -
           tc_item_residual(&life, fit->years) * tc_single_present_value(fit->discount, fit->years) +
           energy * tc_escalated_present_value(fit->discount, fit->energy_escalation, fit->years) +
           ((double)offer->upkeep * (1 + tax) + hours * fit->hour_worth) *
               tc_uniform_present_value(fit->discount, fit->years);
}

int tc_fit_possible(const struct tc_fit_case *fit, const struct tc_offer *offer)
{
    struct tc_fit_case least = *fit;
    struct tc_verdict verdict = {.offer = offer};
    if (offer->part->slot == TC_SLOT_HEATER)
        return tc_larger(fit->setup->heater_count, 1); /* a greater demand allows stronger ones */
    least.demand = (struct tc_demand){.wanted = true};
    judge(&least, offer->part->slot, &verdict);
    return verdict.count;
}

struct tc_verdict tc_fit_judge_ready(const struct tc_fit_case *fit, enum tc_slot slot,
                                     struct tc_ready_offer ready, bool wanted)
{
    struct tc_verdict verdict = {.offer = ready.offer};
    judge(fit, slot, &verdict);
    if (verdict.fits && !ready.offer->priced && !wanted)
        refuse(&verdict, TC_NO_PRICE, 0, 0);
    if (wanted && verdict.fits)
        verdict.reason.code = TC_FITS_PINNED;
    if (fit->count > 0 && (verdict.fits || wanted))
        verdict.count = fit->count;
    else if (wanted && !verdict.fits)
        verdict.count = 1;
    if (verdict.count == 0)
        return verdict;
    verdict.each = isnan(ready.each) ? tc_fit_each(fit, ready.offer) : ready.each;
    verdict.present_value = verdict.count * verdict.each;
    return verdict;
}

struct tc_verdict tc_fit_judge(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_offer *offer,
                               bool wanted)
{
    return tc_fit_judge_ready(fit, slot, (struct tc_ready_offer){offer, NAN, 0, 0}, wanted);
}

static bool is_named(const struct tc_offer *offer, const char *name)
{
    return name && strcmp(name, offer->part->goods.name) == 0;
}

/* Whether a verdict is to be preferred, where the cheapest of all costs `least`. */
static bool preferred(const struct tc_verdict *verdict, const struct tc_verdict *best, double least)
{
    double bound = least + TC_FIT_FEWER * fabs(least);
    bool near = verdict->present_value <= bound, best_near = best->present_value <= bound;
    if (near && best_near && verdict->count != best->count)
        return verdict->count < best->count;
    return verdict->present_value < best->present_value;
}

bool tc_fit_choose(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_offer *offers,
                   int offer_count, const char *pinned, struct tc_verdict *chosen)
{
    double least = INFINITY;
    bool found = false;
    for (int i = 0; i < offer_count && !pinned; i++) {
        if (offers[i].part->slot != slot)
            continue;
        struct tc_verdict verdict = tc_fit_judge(fit, slot, &offers[i], false);
        if (verdict.fits)
            least = fmin(least, verdict.present_value);
    }
    for (int i = 0; i < offer_count; i++) {
        bool wanted = is_named(&offers[i], pinned);
        if (offers[i].part->slot != slot || (pinned && !wanted))
            continue;
        struct tc_verdict verdict = tc_fit_judge(fit, slot, &offers[i], wanted);
        if ((verdict.fits || wanted) && (!found || preferred(&verdict, chosen, least))) {
            *chosen = verdict;
            found = true;
        }
    }
    return found;
}

/* The cheapest verdicts by their count, for the one that is preferred once the cheapest of all is known. */
enum { COUNTS = 64 };

bool tc_fit_choose_ready(const struct tc_fit_case *fit, enum tc_slot slot, const struct tc_ready_offer *ready,
                         int count, struct tc_verdict *chosen)
{
    struct tc_verdict best[COUNTS];
    double value[COUNTS] = {INFINITY}, least = INFINITY, bound = INFINITY;
    int most = 0; /* of the counts found */
    for (int i = 0; i < count && ready[i].each <= fmax(bound, 0); i++) {
        if (tc_fit_least(&fit->demand, slot, ready[i]) > fmax(bound, 0))
            continue;
        struct tc_verdict verdict = tc_fit_judge_ready(fit, slot, ready[i], false);
        if (!verdict.fits)
            continue;
        int place = verdict.count < COUNTS ? verdict.count : COUNTS - 1;
        while (most < place)
            value[++most] = INFINITY;
        if (verdict.present_value >= value[place])
            continue;
        best[place] = verdict;
        value[place] = verdict.present_value;
        least = fmin(least, verdict.present_value);
        bound = least + TC_FIT_FEWER * fabs(least);
    }
    for (int place = 1; place <= most; place++) {
        if (value[place] > bound)
            continue;
        *chosen = best[place];
        return true;
    }
    return false;
}
