/* SPDX-License-Identifier: MIT */
#include "profile/extra_keys.h"

#include "core/goods/extra.h"
#include "profile/key_table.h"

#define EXTRA struct tc_extra

static const struct tc_key keys[] = {
    TC_TITLE_KEY(EXTRA, title, "Food and water tests"),
    TC_PRICES_KEY("amount", EXTRA, amount, NULL, "60 USD, 55 EUR",
                  "what is paid, with any tax, in one or more currencies"),
    TC_FLAG_KEY("paid", EXTRA, once, "yearly", "once", "yearly, or once at the start",
                .words = "yearly once"),
    TC_FLAG_KEY("for", EXTRA, each_tank, "candidate", "tank",
                "for each tank, or for a candidate however many tanks it has", .words = "candidate tank"),
    TC_QUANTITY_KEY("escalation", SHARE, EXTRA, escalation, -0.2, 0.5, "0 %", "1 %",
                    "how much faster than prices in general a yearly one rises, a year"),
    TC_INVENTED_KEY(EXTRA, invented),
};

const struct tc_key_table tc_extra_keys = {
    .kind = "extra",
    .help = "what is paid beside tank and parts: food, animals, plants, tests",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(EXTRA),
};
