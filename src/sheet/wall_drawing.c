/* SPDX-License-Identifier: MIT */
#include "sheet/wall_drawing.h"

#include <math.h>

/* Where a tier's tanks stand above the floor. */
static double tier_floor(const struct tc_wall *wall, const struct tc_tank *tank, int tier)
{
    return wall->lowest + tier * (tank->height + wall->access + wall->shelf);
}

static void draw_column(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                        const struct tc_wall_column *column)
{
    const struct tc_wall *wall = &wall_study->layouts[0].wall;
    const struct tc_tank *tank = &wall_study->alternatives[column->model].c.tank;
    for (int tier = 0; tier < column->tiers; tier++)
        tc_sheet_box(sheet, (struct tc_box){.x = column->x,
                                            .y = tier_floor(wall, tank, tier),
                                            .width = column->width,
                                            .height = tank->height,
                                            .letter = (char)('A' + column->model),
                                            .label = tank->goods.name});
}

static void draw_post(struct tc_sheet *sheet, const struct tc_wall *wall, double x)
{
    tc_sheet_box(
        sheet, (struct tc_box){.x = fmax(x, 0), .width = wall->post, .height = wall->height, .letter = ' '});
}

/* What carries the tiers of a bay; where the lowest stands on the floor, only those above it. */
static void draw_shelves(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                         const struct tc_wall_bay *bay)
{
    const struct tc_wall *wall = &wall_study->layouts[0].wall;
    const struct tc_tank *tank = &wall_study->alternatives[bay->model].c.tank;
    for (int tier = wall->lowest > 0 ? 0 : 1; tier < bay->tiers; tier++) {
        double top = tier_floor(wall, tank, tier), thickness = fmin(wall->shelf, top);
        tc_sheet_box(
            sheet,
            (struct tc_box){
                .x = bay->x, .y = top - thickness, .width = bay->width, .height = thickness, .letter = ' '});
    }
}

void tc_wall_add_drawing(struct tc_sheet *sheet, const struct tc_wall_study *wall_study)
{
    const struct tc_layout *layout = &wall_study->layouts[0];
    const struct tc_wall *wall = &layout->wall;
    bool us = wall_study->study->units == TC_US;
    tc_sheet_drawing(sheet, "The wall from the front, best mix", wall->length, wall->height, us ? "in" : "cm",
                     us ? 0.0254 : 0.01);
    for (int i = 0; i < layout->mix.bays; i++)
        draw_shelves(sheet, wall_study, &layout->mix.bay[i]);
    for (int i = 0; i < layout->mix.bays; i++) { /* in front of the shelves */
        const struct tc_wall_bay *bay = &layout->mix.bay[i];
        if (wall->post > 0 && i == 0)
            draw_post(sheet, wall, bay->x - wall->post);
        if (wall->post > 0) /* neighbours share it */
            draw_post(sheet, wall, bay->x + bay->width);
    }
    for (int i = 0; i < layout->mix.columns; i++)
        draw_column(sheet, wall_study, &layout->mix.column[i]);
}
