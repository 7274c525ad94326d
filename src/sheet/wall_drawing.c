/* SPDX-License-Identifier: MIT */
#include "sheet/wall_drawing.h"

#include <math.h>

/* What is left between two stretches in the drawing, m. */
#define BETWEEN_STRETCHES 0.4

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
