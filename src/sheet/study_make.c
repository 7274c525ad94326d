/* SPDX-License-Identifier: MIT */
#include "sheet/study_make.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/cost/counter_make.h"
#include "core/physics/heat_calibrate.h"
#include "core/base/unit.h"
#include "profile/template.h"
#include "sheet/study_deal.h"
#include "sheet/study_fault.h"
#include "sheet/study_market.h"
#include "sheet/typed_tank.h"

/* A further load of this many kWh a month stands for a tank's when parts are compared. */
#define TYPICAL_ENERGY 20.0

/* Applies the assumptions typed over to the study's own setup and region. */
static bool apply_overrides(struct tc_study *study, struct tc_faults *faults)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_assume_setup(&study->plan, &study->setup, problem)) {
        tc_study_fault(study, faults, "setup", problem);
        return false;
    }
    if (!tc_plan_assume_region(&study->plan, &study->region, problem) ||
        !tc_stock_tariffs(study->stock, &study->region, &study->tariffs, problem)) {
        tc_study_fault(study, faults, "region", problem);
        return false;
    }
    return true;
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
            tc_study_unknown(study, faults, tc_slot_name((enum tc_slot)slot), part);
            ok = false;
        }
    }
    return ok;
}

/* The way a plan or candidate names, or a fault. */
static bool read_way(const struct tc_study *study, const char *name, struct tc_way *way,
                     struct tc_faults *faults)
{
    if (tc_study_way_find(study, name, way))
        return true;
    tc_study_unknown(study, faults, "sale", name);
    return false;
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
        tc_study_unknown(study, faults, "setup", name);
        return NULL;
    }
    study->own_setup[index] = *own;
    return &study->own_setup[index];
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
        tc_study_fault(study, faults, "extras", "there are more than 12; name those that count");
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        const struct tc_extra *extra = all ? &stock->extras[i] : tc_stock_extra(stock, plan->extras[i]);
        if (!extra) {
            tc_study_unknown(study, faults, "extra", plan->extras[i]);
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
        .market = study->several || study->one ? &study->market : NULL,
        .offers = study->offers,
        .offer_count = study->offer_count,
        .years = (int)study->plan.years,
        .discount = study->plan.discount,
        .energy_price = study->energy_price,
        .hour_worth = study->plan.hour_worth * tc_currency_scale(study->region.currency),
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
    alternative->offers = alternative->c.offers;
    alternative->c.tank = *tank;
    alternative->c.quantity = plan->quantity;
    for (int i = 0; i < study->extra_count; i++)
        alternative->c.due[i] = tc_extra_due(study->extras[i], study->region.currency);
    alternative->c.due_count = study->extra_count;
    make_wishes(study, alternative);
}

/* Everything of a candidate but its losses, deal and cost. TC_SYNTAX where it names what does not exist. */
static enum tc_status start_named(struct tc_study *study, int index, struct tc_alternative *alternative,
                                  struct tc_faults *faults)
{
    const struct tc_candidate *plan = &study->plan.candidate[index];
    struct tc_tank tank;
    if (!tc_typed_tank(study->stock, plan, &tank)) {
        tc_study_unknown(study, faults, "tank", plan->tank);
        return TC_SYNTAX;
    }
    const struct tc_setup *setup = setup_of(study, index, faults);
    if (!setup)
        return TC_SYNTAX;
    begin_alternative(study, plan, &tank, setup, alternative);
    alternative->index = index;
    enum tc_status status = tc_study_market(study, alternative);
    if (status != TC_OK)
        return status;
    bool known = pins_known(study, alternative, faults);
    if (!read_way(study, plan->sale[0] ? plan->sale : study->plan.sale, &alternative->way, faults))
        known = false;
    return known ? tc_study_terms(study, alternative) : TC_SYNTAX;
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
        const struct tc_candidate *candidate = alternative->plan; /* set by start_named */
        if (!candidate || isnan(candidate->measured))
            continue;
        if (fit_losses(alternative) != TC_OK) {
            tc_study_fault(
                study, faults, "measured",
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
        study->unnamed[alternative->index] = tc_unnamed_make(
            alternative->plan, study->one ? study->market.count + 1 : 1, &alternative->c, &status);
    alternative->offers = alternative->c.offers;
    return status;
}

/* From now on all of it is bought at the shop that was found. */
static void keep_to_shop(const struct tc_study *study, struct tc_alternative *alternative)
{
    int shop = tc_study_kept_to(alternative, &alternative->equipment, &alternative->cost);
    tc_study_keep_to(alternative, shop, &alternative->c);
    for (int s = 0; s < study->market.count; s++)
        if (!alternative->plan->shop[0])
            alternative->terms.shop[s].open = s == shop;
}

/* Its deal and its cost. */
static enum tc_status finish_alternative(const struct tc_study *study, struct tc_alternative *alternative)
{
    struct tc_deal deal;
    enum tc_status status = tc_study_deal_planned(study, alternative, &deal);
    if (status == TC_OK)
        status = tc_study_cost(study, alternative, &deal, &alternative->equipment, &alternative->prices,
                               &alternative->cost);
    if (status == TC_OK && study->one)
        keep_to_shop(study, alternative);
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
    enum tc_status status = tc_study_terms(study, alternative);
    return status == TC_OK ? finish_alternative(study, alternative) : status;
}

static enum tc_status finish_named(struct tc_study *study, struct tc_alternative *alternative,
                                   struct tc_faults *faults)
{
    enum tc_status status = make_unnamed(study, alternative);
    if (status == TC_OK)
        status = finish_alternative(study, alternative);
    if (status != TC_OK) {
        char problem[TC_PROBLEM_SIZE];
        snprintf(problem, sizeof problem, "%s cannot be worked out: %s", alternative->plan->tank,
                 tc_status_text(status));
        tc_study_fault(study, faults, "candidate", problem);
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
        tc_study_fault(study, faults, "region", problem);
        status = gaps.failed ? TC_NO_MEMORY : TC_SYNTAX;
    }
    tc_text_free(&gaps);
    return status;
}

static enum tc_status find_records(struct tc_study *study, struct tc_faults *faults)
{
    const struct tc_setup *setup = tc_stock_setup(study->stock, study->plan.setup);
    const struct tc_region *region = tc_stock_region(study->stock, study->plan.region);
    if (!setup)
        tc_study_unknown(study, faults, "setup", study->plan.setup);
    if (!region)
        tc_study_unknown(study, faults, "region", study->plan.region);
    struct tc_way way;
    bool known = read_way(study, study->plan.sale, &way, faults);
    const char *pump = study->plan.wall.pump;
    if (pump[0] && !tc_stock_part(study->stock, TC_SLOT_AIR_PUMP, pump)) {
        tc_study_unknown(study, faults, tc_slot_name(TC_SLOT_AIR_PUMP), pump);
        known = false;
    }
    if (!setup || !region || !known)
        return TC_SYNTAX;
    enum tc_status status = refuse_gaps(study, region, faults);
    if (status != TC_OK)
        return status;
    study->setup = *setup;
    study->region = *region;
    if (!apply_overrides(study, faults) || !find_extras(study, faults))
        return TC_SYNTAX;
    return tc_study_shops(study, faults);
}

/* The offers made ready for the plan's setup, at all shops and at each one alone, where one is looked for. */
static enum tc_status make_counters(struct tc_study *study)
{
    struct tc_case usual = usual_case(study, &study->setup);
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < (study->one ? study->market.count + 1 : 1); i++) {
        usual.offers = study->offers + i * study->offer_count;
        status = tc_counter_make(&study->counters[i], &usual);
    }
    return status;
}

/* And for the setups that candidates have of their own. */
static enum tc_status make_own_counters(struct tc_study *study)
{
    enum tc_status status = TC_OK;
    for (int i = 0; status == TC_OK && i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        const struct tc_case usual = usual_case(study, alternative->c.setup);
        if (!tc_study_setup_shared(study, alternative))
            status = tc_counter_make(&study->own_counters[alternative->index], &usual);
    }
    return status;
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
    study->energy_price = energy_price(study);
    study->alternatives = calloc(TC_CANDIDATES_MAX, sizeof *study->alternatives);
    if (!study->alternatives || tc_study_offers(study) != TC_OK || make_counters(study) != TC_OK)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->plan.candidate_count; i++) {
        enum tc_status made = start_named(study, i, &study->alternatives[study->alternative_count], faults);
        if (made == TC_OK)
            study->alternative_count++;
        else if (status == TC_OK)
            status = made;
    }
    if (make_own_counters(study) != TC_OK)
        return TC_NO_MEMORY;
    tell_heads_apart(study);
    share_losses(study, faults);
    int kept = 0;
    for (int i = 0; i < study->alternative_count; i++) {
        struct tc_alternative *alternative = &study->alternatives[kept];
        if (kept != i)
            *alternative = study->alternatives[i];
        enum tc_status made = finish_named(study, alternative, faults);
        if (made == TC_OK)
            kept++;
        else if (status == TC_OK)
            status = made;
    }
    study->alternative_count = kept;
    return status;
}
