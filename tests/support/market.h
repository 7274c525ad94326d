/* SPDX-License-Identifier: MIT */
/* market.h - a sample that is bought at several shops. All figures are invented. */
#ifndef TC_TESTS_MARKET_H
#define TC_TESTS_MARKET_H

#include "support/sample.h"

struct sample_market {
    struct tc_market market;
    tc_money asked[SAMPLE_PARTS_MAX][TC_SHOPS_MAX];
};

/*
 * Spreads a drawn sample over two to `most` shops: what each asks is about the price of the sample, some
 * do not sell a thing; its deal is made anew. The parts are to be chosen anew. The sample borrows the market.
 */
void market_draw(struct sample_market *m, struct sample *s, int most, struct tc_random *random);

#endif
