/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_mix.h"

#include <stdlib.h>

void tc_wall_mix_free(struct tc_wall_mix *mix)
{
    free(mix->count);
    free(mix->on_sale);
    free(mix->tank);
    free(mix->bay);
    *mix = (struct tc_wall_mix){0};
}
