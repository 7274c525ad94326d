/* SPDX-License-Identifier: MIT */
#include "profile/plan_typed.h"

#include "profile/kind.h"

/* A candidate's figure that says nothing unless it is typed, and then in place of a profile's. */
static bool takes_a_place(const struct tc_key *key)
{
    return key->form != TC_KEY_NAME && key->fallback && !*key->fallback;
}

int tc_plan_typed_figures(const struct tc_plan *plan)
{
    const struct tc_key_table *table = tc_key_table_find("candidate");
    char text[TC_VALUE_SIZE];
    int count = plan->override_count;
    for (int i = 0; i < plan->candidate_count; i++)
        for (size_t k = 0; k < table->count; k++) {
            if (!takes_a_place(&table->keys[k]))
                continue;
            tc_key_write(&table->keys[k], &plan->candidate[i], TC_METRIC, text);
            count += text[0] != '\0';
        }
    return count;
}
