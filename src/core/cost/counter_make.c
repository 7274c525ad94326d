/* SPDX-License-Identifier: MIT */
#include "core/cost/counter_make.h"

#include <stdlib.h>

/* Of equally cheap ones the first on offer comes first. */
static int by_each(const void *a, const void *b)
{
    const struct tc_ready_offer *left = a, *right = b;
    if (left->each != right->each)
        return left->each < right->each ? -1 : 1;
    return (left->offer > right->offer) - (left->offer < right->offer);
}

enum tc_status tc_counter_make(struct tc_counter *counter, const struct tc_case *c)
{
    const struct tc_equipment bare = {0};
    int count = 0;
    *counter = (struct tc_counter){.items = calloc((size_t)c->offer_count + 1, sizeof *counter->items)};
    if (!counter->items)
        return TC_NO_MEMORY;
    const struct tc_fit_case fit = tc_equipment_fit_case(c, &bare, TC_SLOT_STAND);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        counter->begin[slot] = count;
        for (int i = 0; i < c->offer_count; i++) {
            const struct tc_offer *offer = &c->offers[i];
            if ((int)offer->part->slot == slot && offer->priced)
                counter->items[count++] =
                    (struct tc_ready_offer){offer, tc_fit_each(&fit, offer), tc_fit_gives(offer), 1};
        }
        qsort(&counter->items[counter->begin[slot]], (size_t)(count - counter->begin[slot]),
              sizeof *counter->items, by_each);
    }
    counter->begin[TC_SLOT_COUNT] = count;
    return TC_OK;
}

enum tc_status tc_counter_narrow(const struct tc_counter *counter, const struct tc_case *c,
                                 struct tc_counter *narrowed)
{
    struct tc_equipment bare = {0};
    int count = 0;
    *narrowed = (struct tc_counter){.items = NULL};
    enum tc_status status = tc_equipment_measure(c, &bare);
    if (status != TC_OK)
        return status;
    narrowed->items = calloc((size_t)counter->begin[TC_SLOT_COUNT] + 1, sizeof *narrowed->items);
    if (!narrowed->items)
        return TC_NO_MEMORY;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_fit_case fit = tc_equipment_fit_case(c, &bare, (enum tc_slot)slot);
        narrowed->begin[slot] = count;
        for (int i = counter->begin[slot]; i < counter->begin[slot + 1]; i++) {
            narrowed->items[count] = counter->items[i];
            narrowed->items[count].pieces = tc_fit_possible(&fit, counter->items[i].offer);
            count += narrowed->items[count].pieces > 0;
        }
    }
    narrowed->begin[TC_SLOT_COUNT] = count;
    const struct tc_heat_case heat = tc_equipment_heat(c, &bare);
    narrowed->framed = tc_heat_frame_make(&heat, &narrowed->frame) == TC_OK;
    return TC_OK;
}

void tc_counter_free(struct tc_counter *counter)
{
    free(counter->items);
    *counter = (struct tc_counter){.items = NULL};
}
