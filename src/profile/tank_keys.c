/* SPDX-License-Identifier: MIT */
#include "profile/tank_keys.h"

#include "core/goods/tank.h"
#include "profile/key_table.h"

/* Nominal volumes are the trade's names more than measures, yet never far from the outer volume. */
#define NOMINAL_SLACK 1.6

static const struct tc_key_word as_glass[] = {{"glass", NAN}, {NULL, 0}};
static const struct tc_key_word as_usual[] = {{"usual", NAN}, {NULL, 0}};
static const struct tc_key_word as_outer[] = {{"outer", NAN}, {NULL, 0}};

static const struct tc_key keys[] = {
    TC_TITLE_KEY(struct tc_tank, goods.title, "29 gal high"),
    TC_QUANTITY_KEY("nominal", VOLUME, struct tc_tank, nominal_volume, 0.001, 20, "outer", "29 gal",
                    "nominal volume, as the trade calls the tank; the word outer: its outer volume",
                    .word = as_outer),
    TC_QUANTITY_KEY("length", LENGTH, struct tc_tank, length, 0.1, 6, NULL, "30 in", "outer length"),
    TC_QUANTITY_KEY("width", LENGTH, struct tc_tank, width, 0.1, 3, NULL, "12 in",
                    "outer width, front to back"),
    TC_QUANTITY_KEY("height", LENGTH, struct tc_tank, height, 0.08, 2, NULL, "18 in", "outer height"),
    TC_QUANTITY_KEY("glass", LENGTH, struct tc_tank, glass, 0.002, 0.04, "usual", "5 mm",
                    "thickness of the four sides; the word usual: as tanks of its size mostly have",
                    .word = as_usual),
    TC_QUANTITY_KEY("bottom-glass", LENGTH, struct tc_tank, bottom_glass, 0.002, 0.04, "glass", "6 mm",
                    "thickness of the bottom pane; the word glass: as the sides", .word = as_glass),
    TC_QUANTITY_KEY("freeboard", LENGTH, struct tc_tank, freeboard, 0, 0.4, "1 in", "25 mm",
                    "from the upper edge of the glass down to the water"),
    TC_QUANTITY_KEY("frame", MASS, struct tc_tank, frame_mass, 0, 200, "0 kg", "1.2 kg",
                    "mass of rims and braces, beside the glass"),
    TC_FLAG_KEY("special-order", struct tc_tank, special_order, "no", "yes",
                "not on the shelf: at list price the region's fee for an order is due"),
    TC_GOODS_KEYS(struct tc_tank, goods, "15 years", "50 %"),
};

static bool check(struct tc_entry *entry)
{
    struct tc_tank *tank = entry->record;
    tc_tank_assume(tank);
    double outer = tank->length * tank->width * tank->height;
    if (tank->glass >= fmin(tank->length, tank->width) / 4)
        return tc_entry_blame(entry, "glass", "is a quarter of the tank's width or more; write it in mm");
    if (tank->bottom_glass + tank->freeboard >= tank->height)
        return tc_entry_blame(entry, "height",
                              "is no more than bottom pane and freeboard, which leaves no water");
    if (tank->nominal_volume > outer * NOMINAL_SLACK || tank->nominal_volume < outer / NOMINAL_SLACK) {
        char litres[TC_QUANTITY_SIZE], gallons[TC_QUANTITY_SIZE];
        tc_unit_quantity_write(litres, outer, TC_DIM_VOLUME, TC_METRIC, 0);
        tc_unit_quantity_write(gallons, outer, TC_DIM_VOLUME, TC_US, 0);
        return tc_entry_blame(entry, "nominal",
                              "does not go with length, width and height, which make %s or %s", litres,
                              gallons);
    }
    return true;
}

const struct tc_key_table tc_tank_keys = {
    .kind = "tank",
    .help = "a tank",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(struct tc_tank),
    .check = check,
};
