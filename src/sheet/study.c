/* SPDX-License-Identifier: MIT */
#include "sheet/study.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/cost/counter_make.h"
#include "core/physics/heat_calibrate.h"
#include "core/base/unit.h"
#include "core/cost/swap.h"
#include "profile/template.h"
#include "sheet/typed_tank.h"

/* A further load of this many kWh a month stands for a tank's when parts are compared. */
#define TYPICAL_ENERGY 20.0

static void plan_fault(const struct tc_study *study, struct tc_faults *faults, const char *what,
                       const char *problem)
{
    char section[TC_NAME_SIZE + 8];
    snprintf(section, sizeof section, "plan %s", study->plan.name);
    tc_faults_error(faults, (struct tc_place){.section = section, .key = what}, "%s", problem);
}

/* "no setup 'shrimp-shlef'; did you mean 'shrimp-shelf'?" */
static void unknown_name(const struct tc_study *study, struct tc_faults *faults, const char *kind,
                         const char *name)
{
    char problem[TC_PROBLEM_SIZE];
    const char *nearest = tc_stock_nearest(study->stock, kind, name);
    if (nearest)
        snprintf(problem, sizeof problem, "no %s '%s'; did you mean '%s'?", kind, name, nearest);
    else
        snprintf(problem, sizeof problem, "no %s '%s'; `tankcost stock` lists what there is", kind, name);
    plan_fault(study, faults, kind, problem);
}

/* Applies the assumptions typed over to the study's own setup and region. */
static bool apply_overrides(struct tc_study *study, struct tc_faults *faults)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_assume_setup(&study->plan, &study->setup, problem)) {
        plan_fault(study, faults, "setup", problem);
        return false;
    }
    if (!tc_plan_assume_region(&study->plan, &study->region, problem) ||
        !tc_stock_tariffs(study->stock, &study->region, &study->tariffs, problem)) {
        plan_fault(study, faults, "region", problem);
        return false;
    }
    return true;
}

static bool make_offers(struct tc_study *study)
{
    const struct tc_stock *stock = study->stock;
    study->offers = calloc(stock->part_count ? stock->part_count : 1, sizeof *study->offers);
    if (!study->offers)
        return false;
    for (size_t i = 0; i < stock->part_count; i++) {
        const struct tc_part *part = &stock->parts[i];
        double own = tc_stock_own_price(stock, study->shop, (int)part->slot, &part->goods);
        study->offers[study->offer_count++] = tc_offer_make(part, own, study->region.currency);
    }
    return true;
}

void tc_study_margins(const struct tc_region *region, const struct tc_tariffs *tariffs,
                      const struct tc_running *before, struct tc_tariff_margin *electricity,
                      struct tc_tariff_margin *water)
{
    double scale = tc_currency_scale(region->currency);
    struct tc_tariff power = tariffs->electricity, tap = tariffs->water;
    tc_tariff_scale(&power, scale);
    tc_tariff_scale(&tap, scale);
    double energy[TC_MONTHS], volume[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++) {
        energy[month] = region->household_energy / TC_KILOWATT_HOUR;
        volume[month] = region->household_water;
    }
    struct tc_load own;
    tc_load_even(&own, energy);
    for (int i = 0; before && i < TC_CONSUMER_COUNT; i++)
        tc_load_add(&own, &before->energy[i], 1);
    for (int month = 0; before && month < TC_MONTHS; month++)
        volume[month] += before->changed[month] + before->evaporated[month];
    tc_tariff_margin(electricity, &power, &own);
    tc_load_even(&own, volume);
    tc_tariff_margin(water, &tap, &own);
}

/* What a further joule costs, minor units; nothing where a falling rate makes more use the cheaper one. */
static double energy_price(const struct tc_study *study)
{
    double units[TC_MONTHS];
    for (int month = 0; month < TC_MONTHS; month++)
        units[month] = TYPICAL_ENERGY;
    return fmax(0, tc_tariff_added_even(&study->electricity, units)) /
           (TC_MONTHS * TYPICAL_ENERGY * TC_KILOWATT_HOUR);
}

static void make_wishes(const struct tc_study *study, struct tc_alternative *alternative)
{
    double scale = tc_currency_scale(study->region.currency);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_pin *pin = &alternative->plan->pin[slot];
        struct tc_slot_wish *wish = &alternative->c.wish[slot];
        wish->part = pin->part[0] == '\0' ? NULL : strcmp(pin->part, "none") == 0 ? "" : pin->part;
        wish->price = isnan(pin->price) ? NAN : round(pin->price * scale);
        wish->count = pin->count;
        wish->next = isnan(pin->next) ? NAN : round(pin->next * scale);
        wish->life = pin->life;
        wish->resale = pin->resale;
    }
}

static bool pins_known(struct tc_study *study, const struct tc_alternative *alternative,
                       struct tc_faults *faults)
{
    bool ok = true;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const char *part = alternative->c.wish[slot].part;
        if (part && part[0] && strcmp(part, TC_UNNAMED) != 0 &&
            !tc_stock_part(study->stock, (enum tc_slot)slot, part)) {
            unknown_name(study, faults, tc_slot_name((enum tc_slot)slot), part);
            ok = false;
        }
    }
    return ok;
}

bool tc_study_way_find(const struct tc_study *study, const char *name, struct tc_way *way)
{
    *way = (struct tc_way){.kind = TC_WAY_SALE};
    if (tc_plan_way(name, &way->kind))
        return true;
    way->sale = tc_stock_sale(study->stock, name);
    return way->sale != NULL;
}

/* The way a plan or candidate names, or a fault. */
static bool read_way(const struct tc_study *study, const char *name, struct tc_way *way,
                     struct tc_faults *faults)
{
    if (tc_study_way_find(study, name, way))
        return true;
    unknown_name(study, faults, "sale", name);
    return false;
}

static void describe_deal(const struct tc_deal *deal, char how[TC_NAME_SIZE + 48])
{
    size_t size = TC_NAME_SIZE + 48;
    switch (deal->kind) {
    case TC_DEAL_LIST: snprintf(how, size, "%s", deal->known ? "list price" : "no price here"); break;
    case TC_DEAL_ORDER: snprintf(how, size, "%s", deal->known ? "special order" : "no price here"); break;
    case TC_DEAL_TYPED: snprintf(how, size, "typed by hand"); break;
    case TC_DEAL_SALE: snprintf(how, size, "sale %s", deal->sale->name); break;
    }
}

/* Whether a sale can be had for an alternative's tanks, dates apart. */
static bool on_offer(const struct tc_study *study, const struct tc_alternative *alternative,
                     const struct tc_sale *sale)
{
    return tc_study_sale_here(study, sale) && tc_sale_covers(sale, &alternative->c.tank);
}

/* The present value with a deal on these terms. TC_NO_RESULT where there is no price. */
static enum tc_status try_terms(const struct tc_study *study, const struct tc_alternative *alternative,
                                const struct tc_deal_terms *terms, struct tc_cost *cost)
{
    struct tc_deal deal;
    struct tc_equipment equipment;
    struct tc_prices prices;
    enum tc_status status = tc_deal_make(terms, &deal);
    if (status == TC_OK && !deal.known)
        status = TC_NO_RESULT;
    return status == TC_OK ? tc_study_cost(study, alternative, &deal, &equipment, &prices, cost) : status;
}

/* What is known of the cheapest of several terms. */
struct best_terms {
    bool compared; /* something was tried */
    bool known;    /* and could be worked out */
    struct tc_cost cost;
};

/* Tries terms; whether they are the best so far. What is not known is no reason to take them. */
static bool is_best(const struct tc_study *study, const struct tc_alternative *alternative,
                    const struct tc_deal_terms *terms, struct best_terms *best, enum tc_status *status)
{
    struct tc_cost cost;
    *status = try_terms(study, alternative, terms, &cost);
    best->compared = true;
    if (*status != TC_OK)
        return false;
    bool better = !best->known || cost.incomplete < best->cost.incomplete ||
                  (cost.incomplete == best->cost.incomplete && cost.present_value < best->cost.present_value);
    if (!better)
        return false;
    best->known = true;
    best->cost = cost;
    return true;
}

static bool goes_on(enum tc_status status)
{
    return status == TC_OK || status == TC_NO_RESULT;
}

/* Puts the sale that is cheapest to own into terms that have none; none where the list price is. */
static enum tc_status find_best(const struct tc_study *study, const struct tc_alternative *alternative,
                                struct tc_deal_terms *terms)
{
    const struct tc_deal_terms listed = *terms;
    struct best_terms best = {.compared = false};
    enum tc_status status = TC_OK;
    for (size_t i = 0; i < study->stock->sale_count && goes_on(status); i++) {
        struct tc_deal_terms other = listed;
        other.sale = &study->stock->sales[i];
        if (!on_offer(study, alternative, other.sale) || !tc_sale_runs(other.sale, study->today))
            continue;
        if (!best.compared) /* with the list price, now that there is something to compare */
            (void)is_best(study, alternative, &listed, &best, &status);
        if (goes_on(status) && is_best(study, alternative, &other, &best, &status))
            *terms = other;
    }
    return status == TC_NO_RESULT ? TC_OK : status;
}

/* The terms of a way of the shop's, no price typed. */
static enum tc_status shop_terms(const struct tc_study *study, const struct tc_alternative *alternative,
                                 struct tc_way way, struct tc_deal_terms *terms)
{
    *terms = alternative->terms;
    terms->typed = false;
    terms->ordered = alternative->c.tank.special_order || way.kind == TC_WAY_ORDER;
    terms->sale = way.sale && on_offer(study, alternative, way.sale) ? way.sale : NULL;
    return way.kind == TC_WAY_BEST ? find_best(study, alternative, terms) : TC_OK;
}

enum tc_status tc_study_deal(const struct tc_study *study, const struct tc_alternative *alternative,
                             struct tc_way way, struct tc_deal *deal)
{
    struct tc_deal_terms terms = alternative->terms;
    enum tc_status status = TC_OK;
    if (way.kind != TC_WAY_PLAN) {
        status = shop_terms(study, alternative, way, &terms);
        terms.typed = alternative->terms.typed && way.kind == TC_WAY_SALE;
    }
    return status == TC_OK ? tc_deal_make(&terms, deal) : status;
}

/*
 * A bundle's parts fill the slots that the setup wants and the plan leaves open,
 * where they fit; what does not fit is left in its box.
 */
static enum tc_status choose_with_bundle(struct tc_case *c, const struct tc_sale *sale,
                                         struct tc_equipment *equipment)
{
    enum tc_status status = tc_equipment_choose(c, equipment);
    for (int i = 0; status == TC_OK && i < sale->part_count; i++) {
        enum tc_slot slot = sale->parts[i].slot;
        if (!equipment->slot[slot].demand.wanted || c->wish[slot].part)
            continue;
        c->wish[slot].part = sale->parts[i].name;
        status = tc_equipment_choose(c, equipment);
        if (status == TC_OK && (equipment->slot[slot].ill_fitting || equipment->slot[slot].missing)) {
            c->wish[slot].part = NULL;
            status = tc_equipment_choose(c, equipment);
        }
    }
    return status;
}

/* Whether a case asks for what the study's counter was made for. */
static bool counter_serves(const struct tc_study *study, const struct tc_case *c)
{
    return study->counter.items && c->setup == &study->setup && c->region == &study->region &&
           c->offers == study->offers && c->years == (int)study->plan.years &&
           c->discount == study->plan.discount && c->energy_price == energy_price(study);
}

enum tc_status tc_study_cost(const struct tc_study *study, const struct tc_alternative *alternative,
                             const struct tc_deal *deal, struct tc_equipment *equipment,
                             struct tc_prices *prices, struct tc_cost *cost)
{
    struct tc_case c = alternative->c;
    struct tc_counter counter = {.items = NULL};
    *prices = (struct tc_prices){.deal = *deal,
                                 .tank_life = alternative->plan->life,
                                 .tank_resale = alternative->plan->resale,
                                 .electricity = &study->electricity,
                                 .water = &study->water};
    enum tc_status status = TC_OK;
    if (counter_serves(study, &c)) {
        status = tc_counter_narrow(&study->counter, &c, &counter);
        c.counter = &counter;
    }
    if (status != TC_OK) {
        /* it cannot be measured */
    } else if (deal->sale && deal->sale->part_count > 0) {
        status = choose_with_bundle(&c, deal->sale, equipment);
        for (int i = 0; i < deal->sale->part_count; i++) {
            const struct tc_filled *filled = &equipment->slot[deal->sale->parts[i].slot];
            if (filled->offer && strcmp(filled->offer->part->goods.name, deal->sale->parts[i].name) == 0)
                prices->included[deal->sale->parts[i].slot] += deal->first;
        }
    } else {
        status = tc_equipment_choose(&c, equipment);
    }
    if (status == TC_OK)
        status = tc_swap_parts(&c, prices, equipment);
    tc_counter_free(&counter);
    c.counter = NULL;
    return status == TC_OK ? tc_cost_make(&c, equipment, prices, cost) : status;
}

bool tc_study_sale_here(const struct tc_study *study, const struct tc_sale *sale)
{
    return study->shop && strcmp(sale->shop, study->shop->name) == 0;
}

/* The deal as the plan has it, and its terms. */
static enum tc_status make_deal(const struct tc_study *study, struct tc_alternative *alternative,
                                struct tc_deal *deal)
{
    struct tc_deal_terms terms;
    enum tc_status status = shop_terms(study, alternative, alternative->way, &terms);
    if (status != TC_OK)
        return status;
    terms.typed = alternative->terms.typed;
    alternative->terms = terms;
    status = tc_deal_make(&terms, deal);
    describe_deal(deal, alternative->how);
    return status;
}

/* What the deals of an alternative follow from, before it is said in which way it is bought. */
static enum tc_status start_terms(const struct tc_study *study, struct tc_alternative *alternative)
{
    const struct tc_candidate *plan = alternative->plan;
    struct tc_currency currency = study->region.currency;
    enum tc_status status = TC_OK;
    double list = 0;
    bool typed = !isnan(plan->price);
    bool listed =
        tc_stock_asked(study->stock, &study->region, study->shop, -1, &alternative->c.tank.goods, &list);
    alternative->terms = (struct tc_deal_terms){
        .quantity = plan->quantity,
        .currency = currency,
        .nominal_volume = alternative->c.tank.nominal_volume,
        .listed = listed,
        .list = tc_currency_money(currency, list, &status),
        .typed = typed,
        .price = tc_currency_money(currency, typed ? plan->price : 0, &status),
        .ordered = alternative->c.tank.special_order,
        .order_fee = tc_currency_money(currency, study->region.order_fee, &status),
    };
    return status;
}

/* The setup of a candidate: the plan's, or a copy of the one it names. NULL where there is none of that name.
 */
static const struct tc_setup *setup_of(struct tc_study *study, int index, struct tc_faults *faults)
{
    const char *name = study->plan.candidate[index].setup;
    if (!name[0] || strcmp(name, study->plan.setup) == 0)
        return &study->setup;
    const struct tc_setup *own = tc_stock_setup(study->stock, name);
    if (!own) {
        unknown_name(study, faults, "setup", name);
        return NULL;
    }
    study->own_setup[index] = *own;
    return &study->own_setup[index];
}

bool tc_study_setup_shared(const struct tc_study *study, const struct tc_alternative *alternative)
{
    return alternative->c.setup == &study->setup;
}

/* The extras that count; a fault where the plan names what there is not, or too many are there. */
static bool find_extras(struct tc_study *study, struct tc_faults *faults)
{
    const struct tc_plan *plan = &study->plan;
    const struct tc_stock *stock = study->stock;
    bool all = plan->extra_count < 0;
    size_t count = all ? stock->extra_count : (size_t)plan->extra_count;
    study->extra_count = 0;
    if (count > TC_EXTRAS_MAX) {
        plan_fault(study, faults, "extras", "there are more than 12; name those that count");
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        const struct tc_extra *extra = all ? &stock->extras[i] : tc_stock_extra(stock, plan->extras[i]);
        if (!extra) {
            unknown_name(study, faults, "extra", plan->extras[i]);
            return false;
        }
        study->extras[study->extra_count++] = extra;
    }
    return true;
}

/* What a case takes of the study whatever its tank and wishes. */
static struct tc_case usual_case(const struct tc_study *study, const struct tc_setup *setup)
{
    return (struct tc_case){
        .setup = setup,
        .region = &study->region,
        .offers = study->offers,
        .offer_count = study->offer_count,
        .years = (int)study->plan.years,
        .discount = study->plan.discount,
        .energy_price = energy_price(study),
        .loss_factor = NAN,
        .room_heat = study->plan.count_room_heat,
    };
}

/* What follows from a candidate, its tank and its setup before anything is chosen; not its terms. */
static void begin_alternative(const struct tc_study *study, const struct tc_candidate *plan,
                              const struct tc_tank *tank, const struct tc_setup *setup,
                              struct tc_alternative *alternative)
{
    *alternative = (struct tc_alternative){.plan = plan};
    tc_head_write(plan, setup == &study->setup, alternative->head);
    alternative->c = usual_case(study, setup);
    alternative->c.tank = *tank;
    alternative->c.quantity = plan->quantity;
    for (int i = 0; i < study->extra_count; i++)
        alternative->c.due[i] = tc_extra_due(study->extras[i], study->region.currency);
    alternative->c.due_count = study->extra_count;
    make_wishes(study, alternative);
}

/* Everything of a candidate but its losses, deal and cost. TC_SYNTAX where it names what does not exist. */
static enum tc_status start_entry(struct tc_study *study, int index, struct tc_alternative *alternative,
                                  struct tc_faults *faults)
{
    const struct tc_candidate *plan = &study->plan.candidate[index];
    struct tc_tank tank;
    if (!tc_typed_tank(study->stock, plan, &tank)) {
        unknown_name(study, faults, "tank", plan->tank);
        return TC_SYNTAX;
    }
    const struct tc_setup *setup = setup_of(study, index, faults);
    if (!setup)
        return TC_SYNTAX;
    begin_alternative(study, plan, &tank, setup, alternative);
    alternative->index = index;
    bool known = pins_known(study, alternative, faults);
    if (!read_way(study, plan->sale[0] ? plan->sale : study->plan.sale, &alternative->way, faults))
        known = false;
    return known ? start_terms(study, alternative) : TC_SYNTAX;
}

/* Fits the losses of an alternative whose heater was metered. TC_NO_RESULT where no losses explain the
 * reading. */
static enum tc_status fit_losses(struct tc_alternative *alternative)
{
    const struct tc_candidate *plan = alternative->plan;
    const struct tc_heat_measure measure = {plan->measured, plan->measured_days, plan->measured_room,
                                            plan->measured_humidity};
    struct tc_equipment equipment;
    enum tc_status status = tc_equipment_choose(&alternative->c, &equipment);
    if (status != TC_OK)
        return status;
    struct tc_heat_case heat = tc_equipment_heat(&alternative->c, &equipment);
    return tc_heat_calibrate(&heat, &measure, &alternative->c.loss_factor);
}

/* The mean of the losses fitted under a setup; NAN where none was. */
static double mean_losses(const struct tc_study *study, const char *setup)
{
    double sum = 0;
    int count = 0;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        if (!alternative->measured || strcmp(alternative->c.setup->name, setup) != 0)
            continue;
        sum += alternative->c.loss_factor;
        count++;
    }
    return count > 0 ? sum / count : (double)NAN;
}

/* Fits what was metered and lends the mean to the tanks of the same setup that were not. */
static void share_losses(struct tc_study *study, struct tc_faults *faults)
{
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_candidate *candidate = alternative->plan; /* set by start_entry */
        if (!candidate || isnan(candidate->measured))
            continue;
        if (fit_losses(alternative) != TC_OK) {
            plan_fault(study, faults, "measured",
                       "no heat loss explains what the heater used; check the energy, the days and the room");
            continue;
        }
        alternative->measured = true;
    }
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_alternative *alternative = &study->alternatives[i];
        if (!alternative->measured)
            alternative->c.loss_factor = mean_losses(study, alternative->c.setup->name);
    }
}

/* The parts of which only the tag is known, as its losses have them. */
static enum tc_status make_unnamed(struct tc_study *study, struct tc_alternative *alternative)
{
    enum tc_status status = TC_OK;
    if (tc_unnamed_any(alternative->plan))
        study->unnamed[alternative->index] = tc_unnamed_make(alternative->plan, &alternative->c, &status);
    return status;
}

/* Its deal and its cost. */
static enum tc_status finish_alternative(const struct tc_study *study, struct tc_alternative *alternative)
{
    struct tc_deal deal;
    enum tc_status status = make_deal(study, alternative, &deal);
    if (status == TC_OK)
        status = tc_study_cost(study, alternative, &deal, &alternative->equipment, &alternative->prices,
                               &alternative->cost);
    if (status == TC_OK)
        tc_suit_judge(alternative->c.setup, &alternative->equipment.size, &alternative->cost.running.heat,
                      &alternative->suit);
    return status;
}

enum tc_status tc_study_try(const struct tc_study *study, const struct tc_candidate *candidate,
                            const struct tc_tank *tank, struct tc_alternative *alternative)
{
    begin_alternative(study, candidate, tank, &study->setup, alternative);
    alternative->index = -1;
    if (!tc_study_way_find(study, study->plan.sale, &alternative->way))
        return TC_RANGE; /* the study could not have been made */
    enum tc_status status = start_terms(study, alternative);
    return status == TC_OK ? finish_alternative(study, alternative) : status;
}

static enum tc_status finish_entry(struct tc_study *study, struct tc_alternative *alternative,
                                   struct tc_faults *faults)
{
    enum tc_status status = make_unnamed(study, alternative);
    if (status == TC_OK)
        status = finish_alternative(study, alternative);
    if (status != TC_OK) {
        char problem[TC_PROBLEM_SIZE];
        snprintf(problem, sizeof problem, "%s cannot be worked out: %s", alternative->plan->tank,
                 tc_status_text(status));
        plan_fault(study, faults, "candidate", problem);
    }
    return status;
}

/* A template with gaps stands for no place that a bill can be made for. */
static enum tc_status refuse_gaps(const struct tc_study *study, const struct tc_region *region,
                                  struct tc_faults *faults)
{
    struct tc_text gaps = TC_TEXT_EMPTY;
    char problem[TC_PROBLEM_SIZE];
    enum tc_status status = TC_OK;
    if (tc_template_gaps(study->stock, region, &study->plan, TC_ASK_NEEDED, &gaps) > 0) {
        snprintf(problem, sizeof problem, "'%s' is a template that is not filled in; it still needs %s",
                 region->name, tc_text_string(&gaps));
        plan_fault(study, faults, "region", problem);
        status = gaps.failed ? TC_NO_MEMORY : TC_SYNTAX;
    }
    tc_text_free(&gaps);
    return status;
}

/* The shop that is bought at, its terms in the region's record. */
static bool find_shop(struct tc_study *study, struct tc_faults *faults)
{
    char problem[TC_PROBLEM_SIZE];
    const char *name = study->plan.shop;
    study->shop =
        name[0] ? tc_stock_shop(study->stock, name) : tc_stock_first_shop(study->stock, study->region.name);
    if (name[0] && !study->shop) {
        unknown_name(study, faults, "shop", name);
        return false;
    }
    if (!study->shop)
        return true;
    struct tc_shop shop = *study->shop;
    if (strcmp(shop.region, study->region.name) != 0) {
        snprintf(problem, sizeof problem, "the shop '%s' is in '%s', not in '%s'", shop.name, shop.region,
                 study->region.name);
        plan_fault(study, faults, "shop", problem);
        return false;
    }
    if (!tc_plan_assume_shop(&study->plan, &shop, study->region.currency, problem)) {
        plan_fault(study, faults, "shop", problem);
        return false;
    }
    study->region.delivery = shop.delivery;
    study->region.delivery_free_from = shop.delivery_free_from;
    study->region.order_fee = shop.order_fee;
    if (shop.seller == TC_SELLER_PRIVATE)
        study->region.sales_tax = 0;
    return true;
}

static enum tc_status find_records(struct tc_study *study, struct tc_faults *faults)
{
    const struct tc_setup *setup = tc_stock_setup(study->stock, study->plan.setup);
    const struct tc_region *region = tc_stock_region(study->stock, study->plan.region);
    if (!setup)
        unknown_name(study, faults, "setup", study->plan.setup);
    if (!region)
        unknown_name(study, faults, "region", study->plan.region);
    struct tc_way way;
    bool known = read_way(study, study->plan.sale, &way, faults);
    if (!setup || !region || !known)
        return TC_SYNTAX;
    enum tc_status status = refuse_gaps(study, region, faults);
    if (status != TC_OK)
        return status;
    study->setup = *setup;
    study->region = *region;
    return apply_overrides(study, faults) && find_shop(study, faults) && find_extras(study, faults)
               ? TC_OK
               : TC_SYNTAX;
}

static void tell_heads_apart(struct tc_study *study)
{
    struct tc_named_head heads[TC_CANDIDATES_MAX];
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_alternative *alternative = &study->alternatives[i];
        heads[i] = (struct tc_named_head){alternative->plan, alternative->index, alternative->head};
    }
    tc_heads_tell_apart(heads, study->alternative_count, study->region.currency);
}

enum tc_status tc_study_make(struct tc_study *study, const struct tc_stock *stock, const struct tc_plan *plan,
                             struct tc_date today, struct tc_faults *faults)
{
    *study = (struct tc_study){.stock = stock, .plan = *plan, .today = today};
    study->units = plan->units;
    enum tc_status status = find_records(study, faults);
    if (status != TC_OK)
        return status;
    tc_study_margins(&study->region, &study->tariffs, NULL, &study->electricity, &study->water);
    study->alternatives = calloc(TC_CANDIDATES_MAX, sizeof *study->alternatives);
    if (!study->alternatives || !make_offers(study))
        return TC_NO_MEMORY;
    const struct tc_case usual = usual_case(study, &study->setup);
    if (tc_counter_make(&study->counter, &usual) != TC_OK)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->plan.candidate_count; i++) {
        enum tc_status made = start_entry(study, i, &study->alternatives[study->alternative_count], faults);
        if (made == TC_OK)
            study->alternative_count++;
        else if (status == TC_OK)
            status = made;
    }
    tell_heads_apart(study);
    share_losses(study, faults);
    int kept = 0;
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_alternative *alternative = &study->alternatives[kept];
        if (kept != i)
            *alternative = study->alternatives[i];
        enum tc_status made = finish_entry(study, alternative, faults);
        if (made == TC_OK)
            kept++;
        else if (status == TC_OK)
            status = made;
    }
    study->alternative_count = kept;
    return status;
}

void tc_study_free(struct tc_study *study)
{
    tc_counter_free(&study->counter);
    free(study->offers);
    free(study->alternatives);
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        tc_unnamed_free(study->unnamed[i]);
        study->unnamed[i] = NULL;
    }
    study->offers = NULL;
    study->alternatives = NULL;
    study->offer_count = study->alternative_count = 0;
}

int tc_study_cheapest(const struct tc_study *study)
{
    int best = -1;
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_alternative *before = best < 0 ? NULL : &study->alternatives[best];
        bool suits = alternative->suit.suits, had = before && before->suit.suits;
        if (!alternative->cost.incomplete &&
            (!before || (suits && !had) ||
             (suits == had && alternative->cost.present_value < before->cost.present_value)))
            best = i;
    }
    return best;
}
