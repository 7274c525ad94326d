/* SPDX-License-Identifier: MIT */
/*
 * wall_staging.h - a wall that is bought in stages, as wall_stages.c works it out: the question, its answer,
 * and how it is told.
 */
#ifndef TC_SHEET_WALL_STAGING_H
#define TC_SHEET_WALL_STAGING_H

#include "core/base/date.h"
#include "core/cost/stages.h"
#include "sheet/sheet.h"
#include "sheet/wall_layout.h"

/* What a step is: the rack of a bay, or a tank that no sale makes cheaper. */
struct tc_stage_thing {
    int bay;
    int model; /* -1: the rack, with all that is shared in the first bay */
};

struct tc_staging {
    const struct tc_wall_study *wall_study;
    const struct tc_layout *layout;
    struct tc_stages stages;
    struct tc_stages_answer answer, soonest;
    struct tc_stage_thing step[TC_STAGE_STEPS_MAX];
    int model_of[TC_STAGE_KINDS_MAX]; /* of a kind */
    int kind_of[TC_CANDIDATES_MAX];   /* of a model; -1: its tanks are steps */
    struct tc_stage_kind kinds[TC_CANDIDATES_MAX];
    /* In which a model is cheapest in a month. */
    const struct tc_sale *sale[TC_CANDIDATES_MAX][TC_STAGE_MONTHS_MAX];
    bool simplified;            /* some are bought at list price, as there was too much to look at */
    struct tc_alternative unit; /* room to work */
};

/* Days of a month counted from today: its first, and the one after its last. */
enum tc_status tc_staging_days(const struct tc_staging *staging, int month, struct tc_date *first,
                               struct tc_date *next);

/* Adds what is bought in which month, with the terms of its sums, and says what it comes to. */
void tc_staging_tell(struct tc_sheet *sheet, const struct tc_staging *staging, size_t count, size_t sum);

/* Says that it cannot all be bought. */
void tc_staging_tell_none(struct tc_sheet *sheet, const struct tc_staging *staging);

#endif
