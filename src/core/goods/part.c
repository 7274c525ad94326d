/* SPDX-License-Identifier: MIT */
#include "core/goods/part.h"

#include <string.h>

static const char *const slot_names[TC_SLOT_COUNT] = {
    [TC_SLOT_STAND] = "stand",         [TC_SLOT_LID] = "lid",           [TC_SLOT_LIGHT] = "light",
    [TC_SLOT_FILTER] = "filter",       [TC_SLOT_AIR_PUMP] = "air-pump", [TC_SLOT_HEATER] = "heater",
    [TC_SLOT_SUBSTRATE] = "substrate",
};

const char *tc_slot_name(enum tc_slot slot)
{
    return slot_names[slot];
}

const char *tc_slot_word(enum tc_slot slot)
{
    return slot == TC_SLOT_AIR_PUMP ? "air pump" : slot_names[slot];
}

bool tc_slot_find(const char *name, enum tc_slot *slot)
{
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        if (strcmp(name, slot_names[i]) == 0) {
            *slot = (enum tc_slot)i;
            return true;
        }
    }
    return false;
}

const char *tc_filter_kind_name(enum tc_filter_kind kind)
{
    switch (kind) {
    case TC_FILTER_SPONGE: return "sponge";
    case TC_FILTER_HANG_ON: return "hang-on";
    case TC_FILTER_CANISTER: return "canister";
    case TC_FILTER_NONE: break;
    }
    return "none";
}

double tc_part_power(const struct tc_part *part)
{
    switch (part->slot) {
    case TC_SLOT_LIGHT: return part->as.light.power;
    case TC_SLOT_FILTER: return part->as.filter.power;
    case TC_SLOT_AIR_PUMP: return part->as.air_pump.power;
    case TC_SLOT_HEATER: return part->as.heater.power;
    case TC_SLOT_STAND:
    case TC_SLOT_LID:
    case TC_SLOT_SUBSTRATE:
    case TC_SLOT_COUNT: break;
    }
    return 0;
}
