/* SPDX-License-Identifier: MIT */
#include "profile/region_assumed.h"

#include <string.h>

#include "profile/section.h"

static bool given(const struct tc_section *section, const char *key)
{
    for (size_t i = 0; i < section->ini->key_count; i++)
        if (strcmp(section->ini->keys[i].name, key) == 0)
            return true;
    return false;
}

bool tc_region_assumes(const struct tc_stock *stock, const struct tc_region *region, const struct tc_key *key)
{
    const struct tc_section *section = tc_sections_find(stock->sections, "region", region->name);
    bool household = (strcmp(key->name, "household-energy") == 0 && !region->electricity.tariff[0]) ||
                     (strcmp(key->name, "household-water") == 0 && !region->water.tariff[0]);
    for (int i = 0; i < region->assumed_count; i++)
        if (strcmp(region->assumed[i], key->name) == 0)
            return true;
    return section && !region->is_template && !household && key->ask == TC_ASK_NEEDED && key->fallback &&
           *key->fallback && !given(section, key->name);
}
