/* SPDX-License-Identifier: MIT */
/*
 * uncertain_heat.h - the heat of many draws, read between years worked out before.
 *
 * Nearly all the time of a draw is its year of heat, which only a few of the
 * figures move. So for each alternative the years are worked out once on a net
 * over the ranges of these figures, and a draw takes the straight line between the
 * nearest of them, one figure after the other. The costs of some draws are worked
 * out both ways: where they do not agree well enough, or where there are too many
 * figures for a net, each draw has its heat worked out as ever.
 */
#ifndef TC_SHEET_UNCERTAIN_HEAT_H
#define TC_SHEET_UNCERTAIN_HEAT_H

#include "sheet/uncertain_vary.h"

/*
 * What a net may miss, of the range in which the costs of an alternative lie: in
 * any draw tried, and on average, where 100 000 draws leave their mean open by
 * more than three times as much.
 */
#define TC_NET_ERROR 2e-3
#define TC_NET_BIAS  2e-4

enum { TC_NET_FIGURES = 4 };

struct tc_heat_net {
    int figures; /* that move the heat; 0: there is no net */
    int figure[TC_NET_FIGURES];
    double low[TC_NET_FIGURES], step[TC_NET_FIGURES];
    int places;    /* of each figure */
    size_t width;  /* parts of a year that are kept */
    double *years; /* owned: [place of the last figure] ... [of the first][part of a year] */
};

/*
 * Makes the nets of all alternatives, uncertain->nets, for `draws` draws, where
 * they are worth it, on so many threads. TC_NO_MEMORY. tc_uncertain_free frees them.
 */
enum tc_status tc_heat_nets_make(struct tc_uncertain *uncertain, int draws, int threads);
void tc_heat_nets_free(struct tc_uncertain *uncertain);

/* The heat of an alternative that was varied to these values; false where there is no net for it. */
bool tc_heat_net_read(const struct tc_heat_net *net, const struct tc_varied *varied, const double values[],
                      struct tc_known_heat *heat);

#endif
