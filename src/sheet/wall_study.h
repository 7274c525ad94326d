/* SPDX-License-Identifier: MIT */
/*
 * wall_study.h - the wall of a plan worked out: the best mix of its candidates'
 * tanks, walls to compare it with, what the room shares, and what it all
 * costs.
 *
 * Every candidate of the plan is a model that may stand on the wall as often
 * as it fits. The rack carries it, so it needs no stand; one air pump serves
 * all. While the mix is sought every tank costs what a first one would; the
 * cost of a layout is then worked out for the whole room, each tank's energy on
 * top of the others', in the climate that room and tanks make where the room's
 * loss is known: the mix is sought again in it until it stays. There is then a
 * layout more, whose room is heated instead of its tanks. Budget and circuit are kept by the room as a whole:
 * see wall_study_fill.h. What a limit more would bring is in wall_study_sensitivity.h.
 */
#ifndef TC_SHEET_WALL_STUDY_H
#define TC_SHEET_WALL_STUDY_H

#include "core/cost/cost.h"
#include "core/wall/wall.h"
#include "core/wall/wall_solve.h"
#include "sheet/question.h"
#include "sheet/search_budget.h"
#include "sheet/study.h"
#include "sheet/wall_room.h"

enum { TC_LAYOUTS_MAX = 4 };

/* What all tanks of a layout share. */
struct tc_wall_study_sharing {
    const struct tc_offer *air; /* NULL: none is needed or fits */
    int air_count;
    double air_flow; /* m3/s that the filters need */
    /* Of each model, where lights over the tiers of its bays cost less to own than one a tank; else NULL. */
    const struct tc_offer *light[TC_CANDIDATES_MAX];
    int light_count[TC_CANDIDATES_MAX];       /* of them, in the whole room */
    int lights_saved[TC_CANDIDATES_MAX];      /* on tanks, in whose place they are */
    int lights_left[TC_CANDIDATES_MAX];       /* on tanks that have their own all the same */
    double light_power[TC_WALL_CIRCUITS_MAX]; /* W more on each circuit for it; mostly less */
};

/* A wall filled one way. */
struct tc_layout {
    char name[TC_NAME_SIZE + 16]; /* "best mix", "all 20-long", "2 high" */
    struct tc_wall wall;
    struct tc_wall
        sought; /* the wall less what shared things take of budget and circuit: mix is the best here */
    struct tc_wall_mix mix; /* owned */
    enum tc_status found;   /* TC_OK, TC_NO_RESULT: there is no mix, TC_STOPPED: none was found in time */
    struct tc_wall_study_sharing share;
    struct tc_cost cost;                   /* of the whole room */
    double power;                          /* W that may be drawn at once, circuits' other load apart */
    double power_on[TC_WALL_CIRCUITS_MAX]; /* of it on each circuit; what all share is on the first */
    double heat;                           /* W that end in the room, also as vapour, mean of the year */
    double evaporated;                     /* m3 a day, mean of the year */
    struct tc_room_year climate; /* where the room's loss is known: that of room and tanks together */
    struct tc_region region;     /* with that climate */
    bool heated;                 /* the room is kept warm instead of the tanks */
};

/* Owns its layouts; borrows the study. */
struct tc_wall_study {
    const struct tc_study *study;
    struct tc_wall wall;
    struct tc_wall_goal goal;
    struct tc_wall_model models[TC_CANDIDATES_MAX]; /* one an alternative of the study */
    struct tc_alternative *alternatives;       /* the alternatives as they stand on the wall, one tank each */
    struct tc_region region;                   /* without delivery, which is of the whole room */
    struct tc_setup setups[TC_CANDIDATES_MAX]; /* of the alternatives, without a stand */
    struct tc_wall_room room;
    bool heated;                              /* the room is kept warm instead of the tanks: */
    struct tc_wall_warmth warmth;             /* so, and these keep a heater */
    struct tc_layout layouts[TC_LAYOUTS_MAX]; /* the best mix first */
    int layout_count;
};

/*
 * Works the wall out. TC_SYNTAX, with ask->problem, where the plan has no wall
 * or a model cannot stand on one; TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE,
 * TC_STOPPED. That nothing fits is no failure: see the layouts. Free it
 * whatever the status. search is that of the sheet, and stays its own.
 */
enum tc_status tc_wall_study_make(struct tc_wall_study *wall_study, const struct tc_study *study,
                                  const struct tc_ask *ask, struct tc_search_budget *search);
void tc_wall_study_free(struct tc_wall_study *wall_study);

/*
 * Answers a question about the walls instead of the candidates: makes a study
 * whose alternatives are the layouts and hands it to make.
 */
enum tc_status tc_wall_study_ask(enum tc_status (*make)(const struct tc_study *study,
                                                        const struct tc_ask *ask, struct tc_sheet *sheet),
                                 const struct tc_study *study, const struct tc_ask *ask,
                                 struct tc_sheet *sheet);

#endif
