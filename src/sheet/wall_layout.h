/* SPDX-License-Identifier: MIT */
/*
 * wall_layout.h - a wall filled one way, and all that is known of a wall that
 * is being worked out: what the files of wall_study.h work on.
 */
#ifndef TC_SHEET_WALL_LAYOUT_H
#define TC_SHEET_WALL_LAYOUT_H

#include "core/cost/cost.h"
#include "core/wall/wall.h"
#include "core/wall/wall_solve.h"
#include "sheet/study.h"
#include "sheet/wall_room.h"

enum { TC_LAYOUTS_MAX = 4 };

/* What all tanks of a layout share. */
struct tc_wall_study_sharing {
    const struct tc_offer *air; /* NULL: none is needed or fits */
    int air_count;
    bool air_weak;   /* it was pinned, and gives them too little */
    double air_flow; /* m3/s that the filters need */
    /* Of each model, where lights over the tiers of its bays cost less to own than one a tank; else NULL. */
    const struct tc_offer *light[TC_CANDIDATES_MAX];
    int light_count[TC_CANDIDATES_MAX];       /* of them, in the whole room */
    int lights_saved[TC_CANDIDATES_MAX];      /* on tanks, in whose place they are */
    int lights_left[TC_CANDIDATES_MAX];       /* on tanks that have their own all the same */
    double light_power[TC_WALL_CIRCUITS_MAX]; /* W more on each circuit for it; mostly less */
};

/* Why a model stands nowhere on the wall. */
enum tc_wall_bar {
    TC_WALL_BAR_NONE,
    TC_WALL_BAR_PRICE, /* it has no price here */
    TC_WALL_BAR_SUIT,  /* it does not suit its animals */
    TC_WALL_BAR_WARM,  /* it would, but for the room: that gets too warm with the tanks that others allow */
    TC_WALL_BAR_EQUIPMENT /* something it needs is not on offer, or has no price */
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
    struct tc_room_year climate;      /* where the room's loss is known: that of room and tanks together */
    struct tc_region region;          /* with that climate */
    bool heated;                      /* the room is kept warm instead of the tanks */
    bool too_warm[TC_CANDIDATES_MAX]; /* tanks that stand there get warmer in that climate than animals stand
                                       */
};

/* Owns its layouts; borrows the study. */
struct tc_wall_study {
    const struct tc_study *study;
    struct tc_wall wall;
    struct tc_wall_goal goal;
    struct tc_wall_model models[TC_CANDIDATES_MAX]; /* one an alternative of the study */
    enum tc_wall_bar barred[TC_CANDIDATES_MAX];
    bool judged;                               /* whom the room without tanks suits is known: ... */
    bool unsuited[TC_CANDIDATES_MAX];          /* ... it does not suit its animals even there */
    bool hot[TC_CANDIDATES_MAX];               /* left out for the warmth of the room that its tanks make */
    struct tc_alternative *alternatives;       /* the alternatives as they stand on the wall, one tank each */
    struct tc_region region;                   /* without delivery, which is of the whole room */
    struct tc_setup setups[TC_CANDIDATES_MAX]; /* of the alternatives, without a stand */
    struct tc_wall_room room;
    bool heated;                  /* the plan wants the room kept warm instead of the tanks, and it can be */
    struct tc_wall_warmth warmth; /* how warm a heated room is kept, and which tanks keep a heater in it */
    struct tc_layout layouts[TC_LAYOUTS_MAX]; /* the best mix first */
    int layout_count;
    /* Owned: the same kept warm the other way, whose models stand in the layout that is so; NULL: none is. */
    struct tc_wall_study *other;
};

#endif
