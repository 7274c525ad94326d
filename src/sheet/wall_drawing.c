/* SPDX-License-Identifier: MIT */
#include "sheet/wall_drawing.h"

#include <math.h>
#include <string.h>

/* What is left between two stretches in the drawing, m. */
#define BETWEEN_STRETCHES 0.4

/* Bays, or runs of them that are alike, that the finding has room for. */
enum { BAYS_TOLD = 3 };

/* Where a stretch begins in the drawing, and how high it is. */
static double stretch_start(const struct tc_wall *wall, int stretch)
{
    double x = 0;
    for (int s = 0; s < stretch; s++)
        x += tc_wall_of_stretch(wall, s).length + BETWEEN_STRETCHES;
    return x;
}

static void draw_post(struct tc_sheet *sheet, const struct tc_wall *wall, const struct tc_wall_bay *bay,
                      double x)
{
    double height = tc_wall_of_stretch(wall, bay->stretch).height;
    tc_sheet_box(sheet, (struct tc_box){.x = fmax(x, 0) + stretch_start(wall, bay->stretch),
                                        .width = wall->post,
                                        .height = height,
                                        .letter = ' '});
}

/* What carries the tiers of a bay; where the lowest stands on the floor, only those above it. */
static void draw_shelves(struct tc_sheet *sheet, const struct tc_layout *layout,
                         const struct tc_wall_bay *bay)
{
    const struct tc_wall *wall = &layout->wall;
    int tier = -1;
    for (int k = bay->first; k < bay->first + bay->tanks; k++) {
        const struct tc_wall_tank *tank = &layout->mix.tank[k];
        if (tank->tier == tier)
            continue;
        tier = tank->tier;
        double thickness = fmin(wall->shelf, tank->y);
        if (tank->y > 0)
            tc_sheet_box(sheet, (struct tc_box){.x = bay->x + stretch_start(wall, bay->stretch),
                                                .y = tank->y - thickness,
                                                .width = bay->width,
                                                .height = thickness,
                                                .letter = ' '});
    }
}

static void draw_tank(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                      const struct tc_wall_tank *placed)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_tank *tank = &wall_study->alternatives[placed->model].c.tank;
    int stretch = layout->mix.bay[placed->bay].stretch;
    tc_sheet_box(sheet, (struct tc_box){.x = placed->x + stretch_start(&layout->wall, stretch),
                                        .y = placed->y,
                                        .width = placed->width,
                                        .height = tank->height,
                                        .letter = (char)('A' + placed->model),
                                        .label = tank->goods.name});
}

void tc_wall_add_drawing(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_wall *wall = &layout->wall;
    bool us = wall_study->study->units == TC_US;
    double length =
        stretch_start(wall, wall->more_stretches) + tc_wall_of_stretch(wall, wall->more_stretches).length;
    double height = 0;
    for (int s = 0; s <= wall->more_stretches; s++)
        height = fmax(height, tc_wall_of_stretch(wall, s).height);
    tc_sheet_drawing(sheet, "The wall from the front, best mix", length, height, us ? "in" : "cm",
                     us ? 0.0254 : 0.01);
    for (int i = 0; i < layout->mix.bays; i++)
        draw_shelves(sheet, layout, &layout->mix.bay[i]);
    for (int i = 0; i < layout->mix.bays; i++) { /* in front of the shelves */
        const struct tc_wall_bay *bay = &layout->mix.bay[i];
        if (wall->post > 0 && (i == 0 || bay->stretch != bay[-1].stretch))
            draw_post(sheet, wall, bay, bay->x - wall->post);
        if (wall->post > 0) /* neighbours share it */
            draw_post(sheet, wall, bay, bay->x + bay->width);
    }
    for (int model = 0; model < layout->mix.models; model++) /* so that the letters are in order */
        for (int i = 0; i < layout->mix.tanks; i++)
            if (layout->mix.tank[i].model == model)
                draw_tank(sheet, wall_study, &layout->mix.tank[i]);
}

/* ------------------------------------------------------------------------- in words */

/* "2 × 40-breeder, 1 × 10-gal": the tanks of a tier, from `first` on, in the order they stand; returns how
 * many. */
static int add_tier(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int first,
                    const char **text)
{
    const struct tc_wall_mix *mix = &wall_study->layouts[0].mix;
    const struct tc_wall_tank *from = &mix->tank[first];
    int k = first;
    while (k < mix->tanks && mix->tank[k].bay == from->bay && mix->tank[k].tier == from->tier) {
        const struct tc_wall_tank *tank = &mix->tank[k];
        int alike = 1;
        while (k + alike < mix->tanks && mix->tank[k + alike].bay == from->bay &&
               mix->tank[k + alike].tier == from->tier && mix->tank[k + alike].model == tank->model &&
               mix->tank[k + alike].end_on == tank->end_on)
            alike++;
        *text = tc_sheet_format(sheet, "%s%s%d × %s%s", *text, k > first ? ", " : "", alike,
                                wall_study->alternatives[tank->model].c.tank.goods.name,
                                tank->end_on ? " end-on" : "");
        k += alike;
    }
    return k - first;
}

/* From the lowest tier up, each after the first behind these words. */
static const char *bay_text(struct tc_sheet *sheet, const struct tc_wall_study *wall_study, int bay,
                            const char *above)
{
    const struct tc_wall_mix *mix = &wall_study->layouts[0].mix;
    const struct tc_wall_bay *b = &mix->bay[bay];
    const char *text = "";
    for (int k = b->first; k < b->first + b->tanks;) {
        if (k > b->first)
            text = tc_sheet_format(sheet, "%s; %s", text, above);
        k += add_tier(sheet, wall_study, k, &text);
    }
    return text;
}

void tc_wall_add_bays(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    tc_sheet_row(sheet, TC_ROW_GROUP, "Where each stands, from left to right", "");
    for (int i = 0; i < layout->mix.bays; i++) {
        const struct tc_wall_bay *bay = &layout->mix.bay[i];
        const char *label = tc_sheet_format(sheet, "bay %d", i + 1);
        if (layout->wall.more_stretches > 0)
            label = tc_sheet_format(sheet, "%s, stretch %d", label, bay->stretch + 1);
        if (layout->wall.more_circuits > 0)
            label = tc_sheet_format(sheet, "%s, circuit %d", label, bay->circuit + 1);
        tc_sheet_sentence(sheet, label,
                          tc_sheet_format(sheet, "%s%s", bay->tiers > 1 ? "lowest " : "",
                                          bay_text(sheet, wall_study, i, "above it ")));
    }
}

void tc_wall_note_bays(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_wall_mix *mix = &wall_study->layouts[0].mix;
    const char *all = "";
    for (int i = 0, told = 0; i < mix->bays && told <= BAYS_TOLD; told++) {
        const char *text = bay_text(sheet, wall_study, i, "");
        int alike = 1;
        while (i + alike < mix->bays && strcmp(text, bay_text(sheet, wall_study, i + alike, "")) == 0)
            alike++;
        const char *which = alike > 1 ? tc_sheet_format(sheet, "Bays %d to %d each", i + 1, i + alike)
                                      : tc_sheet_format(sheet, "Bay %d", i + 1);
        if (told == BAYS_TOLD)
            all = tc_sheet_format(sheet, "%s The drawing shows the others.", all);
        else
            all = tc_sheet_format(sheet, "%s%s%s%s: %s.", all, told > 0 ? " " : "", which,
                                  told > 0 ? "" : ", lowest shelf first", text);
        i += alike;
    }
    tc_sheet_note(sheet, TC_NOTE_FINDING, "%s", all);
}
