/* SPDX-License-Identifier: MIT */
#include "sheet/unnamed.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/cost/choose.h"
#include "profile/key.h"
#include "profile/kind.h"

/* What is assumed; see the header. */
#define LAMP_EFFICACY 1.8                 /* umol/J */
#define FILTER_POWER  (12 / (1.0 / 3600)) /* W for a m3/s */
#define AIR_POWER     (3 / (0.1 / 3600))  /* likewise, of air */
#define BED_DENSITY   1600.0              /* kg/m3, of gravel as it lies */
#define BED_VOIDS     0.4

/* More than any tank asks for, in any unit. */
#define PLENTY 1e6
#define HEAT   1000.0 /* W; of a heater, more would be told as a danger */

bool tc_unnamed_any(const struct tc_candidate *candidate)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (strcmp(candidate->pin[slot].part, TC_UNNAMED) == 0)
            return true;
    return false;
}

/* The watts typed for one, or else those assumed. */
static double power(const struct tc_pin *pin, double assumed)
{
    return isnan(pin->power) ? assumed : pin->power;
}

/* So many share what a slot needs: as the plan says, and of heaters at least as many as the setup wants. */
static int pieces(enum tc_slot slot, const struct tc_pin *pin, const struct tc_case *c)
{
    int count = pin->count > 0 ? pin->count : 1;
    return slot == TC_SLOT_HEATER && c->setup->heater_count > count ? c->setup->heater_count : count;
}

/* What it is and does, so that it fits and gives what the slot needs. */
static void set_facts(struct tc_part *part, const struct tc_pin *pin, const struct tc_case *c,
                      const struct tc_demand *needs)
{
    const struct tc_tank *tank = &c->tank;
    struct tc_demand each = *needs, *demand = &each;
    int count = pieces(part->slot, pin, c);
    each.ppf /= count;
    each.flow /= count;
    each.air /= count;
    each.heat /= count;
    switch (part->slot) {
    case TC_SLOT_STAND: part->as.stand = (struct tc_stand){tank->length, tank->width, 0, PLENTY, true}; break;
    case TC_SLOT_LID:
        part->as.lid =
            (struct tc_lid){tank->length, tank->width, part->as.lid.covered, part->as.lid.transmittance};
        break;
    case TC_SLOT_LIGHT:
        part->as.light = (struct tc_light){0,           PLENTY, power(pin, demand->ppf / LAMP_EFFICACY),
                                           demand->ppf, PLENTY, part->as.light.heat};
        break;
    case TC_SLOT_FILTER: {
        bool sponge = c->setup->filter == TC_FILTER_SPONGE;
        part->as.filter = (struct tc_filter){c->setup->filter,
                                             demand->flow,
                                             PLENTY,
                                             power(pin, sponge ? 0 : demand->flow * FILTER_POWER),
                                             sponge ? demand->flow : 0,
                                             part->as.filter.heat};
        break;
    }
    case TC_SLOT_AIR_PUMP:
        part->as.air_pump = (struct tc_air_pump){demand->air, PLENTY, power(pin, demand->air * AIR_POWER)};
        break;
    case TC_SLOT_HEATER: part->as.heater.power = power(pin, demand->heat); break;
    case TC_SLOT_SUBSTRATE: part->as.substrate = (struct tc_substrate){PLENTY, BED_DENSITY, BED_VOIDS}; break;
    case TC_SLOT_COUNT: break;
    }
}

/* Life, resale and the like as where a profile does not say. */
static void start_part(struct tc_part *part, enum tc_slot slot, const struct tc_pin *pin)
{
    const struct tc_key_table *table = tc_key_table_find(tc_slot_name(slot));
    if (table)
        tc_key_defaults(table, part);
    part->slot = slot;
    memset(part->goods.name, 0, sizeof part->goods.name);
    memcpy(part->goods.name, TC_UNNAMED, strlen(TC_UNNAMED));
    memcpy(part->goods.title, TC_UNNAMED, sizeof TC_UNNAMED);
    if (!isnan(pin->life))
        part->goods.life = pin->life;
}

/* Before anything is known of what is needed: enough of all, and no heat from it. */
static void set_plenty(struct tc_part *part, const struct tc_pin *pin, const struct tc_case *c)
{
    const struct tc_demand plenty = {true, PLENTY, 1, PLENTY, PLENTY, HEAT, PLENTY, PLENTY};
    set_facts(part, pin, c, &plenty);
    if (part->slot == TC_SLOT_LIGHT)
        part->as.light.power = 0;
    else if (part->slot == TC_SLOT_FILTER)
        part->as.filter.power = 0;
    else if (part->slot == TC_SLOT_AIR_PUMP)
        part->as.air_pump.power = 0;
}

/* Adds the unnamed parts that a candidate pins behind what is on offer once. */
static void add_offers(struct tc_unnamed *unnamed, const struct tc_candidate *candidate,
                       const struct tc_case *c, struct tc_offer *offers)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        if (strcmp(candidate->pin[slot].part, TC_UNNAMED) != 0)
            continue;
        /* What the next one costs, where the plan says so, is the price of a new one as well. */
        double price = c->wish[slot].price, next = c->wish[slot].next, list = isnan(next) ? price : next;
        *offers++ = (struct tc_offer){.part = &unnamed->part[slot],
                                      .priced = !isnan(price),
                                      .price = isnan(price) ? 0 : (tc_money)list};
    }
}

struct tc_unnamed *tc_unnamed_make(const struct tc_candidate *candidate, int times, struct tc_case *c,
                                   enum tc_status *status)
{
    struct tc_unnamed *unnamed = calloc(1, sizeof *unnamed);
    size_t count = (size_t)c->offer_count;
    if (unnamed)
        unnamed->offers = calloc((size_t)times * (count + TC_SLOT_COUNT), sizeof *unnamed->offers);
    if (!unnamed || !unnamed->offers) {
        tc_unnamed_free(unnamed);
        *status = TC_NO_MEMORY;
        return NULL;
    }
    unnamed->offer_count = c->offer_count;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        if (strcmp(candidate->pin[slot].part, TC_UNNAMED) != 0)
            continue;
        start_part(&unnamed->part[slot], (enum tc_slot)slot, &candidate->pin[slot]);
        set_plenty(&unnamed->part[slot], &candidate->pin[slot], c);
        unnamed->offer_count++;
    }
    for (size_t i = 0; i < (size_t)times; i++) {
        struct tc_offer *offers = unnamed->offers + i * (size_t)unnamed->offer_count;
        if (count > 0)
            memcpy(offers, c->offers + i * count, count * sizeof *offers);
        add_offers(unnamed, candidate, c, offers + count);
    }
    c->offers = unnamed->offers;
    c->offer_count = unnamed->offer_count;
    /* What a slot needs follows from those filled before it, and so from what these give: twice is enough. */
    *status = TC_OK;
    for (int round = 0; *status == TC_OK && round < 2; round++) {
        struct tc_equipment equipment;
        *status = tc_equipment_choose(c, &equipment);
        for (int slot = 0; *status == TC_OK && slot < TC_SLOT_COUNT; slot++)
            if (strcmp(candidate->pin[slot].part, TC_UNNAMED) == 0)
                set_facts(&unnamed->part[slot], &candidate->pin[slot], c, &equipment.slot[slot].demand);
    }
    return unnamed;
}

void tc_unnamed_free(struct tc_unnamed *unnamed)
{
    if (unnamed)
        free(unnamed->offers);
    free(unnamed);
}
