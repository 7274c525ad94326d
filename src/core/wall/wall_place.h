/* SPDX-License-Identifier: MIT */
/*
 * wall_place.h - the bays of an answer side by side, with their sums (internal
 * to wall_mix).
 */
#ifndef TC_CORE_WALL_WALL_PLACE_H
#define TC_CORE_WALL_WALL_PLACE_H

#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_mix.h"
#include "core/wall/wall_mixed.h"

/* Fills everything of mix but how good it is. On failure the caller frees the mix. TC_NO_MEMORY, TC_OVERFLOW.
 */
enum tc_status tc_wall_place(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                             const struct tc_wall_bays *bays, struct tc_wall_mix *mix);

#endif
