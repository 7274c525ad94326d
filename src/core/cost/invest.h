/* SPDX-License-Identifier: MIT */
/*
 * invest.h - is it worth paying more now to pay less later?
 *
 * Two alternatives with the same study period and discount rate are compared:
 * a base, and an alternative that (usually) costs more to buy and less to run.
 * The measures are those of NIST Handbook 135 chapter 6 and of 10 CFR 436.20
 * to 436.23:
 *
 *     net saving                 NS   = LCC base - LCC alternative
 *     saving-to-investment ratio SIR  = saved running costs / extra (I + Repl - Res)
 *     adjusted internal rate     AIRR = (1 + d) SIR^(1/n) - 1
 *     payback                    the least y with
 *                                sum over years 1..y of what is saved >= extra I
 *
 * all in present values but for the simple payback, which takes amounts as
 * paid. SIR is at least 1, and AIRR at least d, exactly where the net saving
 * is not negative. The ratios say whether, not which: two alternatives are
 * ranked by their net saving.
 *
 * Amounts are in minor units. Less than half a minor unit counts as nothing:
 * no till could tell it apart.
 */
#ifndef TC_CORE_COST_INVEST_H
#define TC_CORE_COST_INVEST_H

#include <stdbool.h>

#include "core/cost/lifecycle.h"
#include "core/base/status.h"

/* Whether a measure has a meaning here and, if not, why. */
enum tc_measure_state {
    TC_MEASURE_VALID,
    TC_MEASURE_NO_INVESTMENT, /* the alternative asks for no extra money */
    TC_MEASURE_NO_SAVING,     /* nor does it save anything in running it */
    TC_MEASURE_NOT_PAID_BACK  /* it saves, but not enough within the period */
};

/* One lower-case English phrase for a note beside a refused measure; never NULL. */
const char *tc_measure_text(enum tc_measure_state state);

/* value counts only where state is TC_MEASURE_VALID. */
struct tc_measure {
    enum tc_measure_state state;
    double value;
};

/*
 * Savings come evenly through a year, so years may be a fraction; what is sold
 * comes at the end of the last year. A later replacement can undo a payback:
 * `lasts` says whether it still holds when the period ends.
 */
struct tc_payback {
    enum tc_measure_state state;
    double years;
    bool lasts;
};

struct tc_comparison {
    double net_saving;       /* present value; below 0 where the base is cheaper to own */
    double saving;           /* present value of the running costs saved */
    double extra_investment; /* present value of the extra purchases and replacements less residual */
    struct tc_measure saving_to_investment;
    struct tc_measure adjusted_return; /* a rate per year, as a fraction */
    struct tc_payback simple_payback;
    struct tc_payback discounted_payback;
};

/* TC_RANGE where the two flows differ in discount rate or period. */
enum tc_status tc_compare(const struct tc_flow *base, const struct tc_flow *alternative,
                          struct tc_comparison *comparison);

/* From the end of this year on, the other of the two has cost less so far. */
struct tc_crossing {
    int year;
    bool first_is_lower; /* after it */
};

/*
 * Finds where two series of cumulative costs a[0..years] and b[0..years] cross
 * and writes the crossings in order into crossings[0..years - 1]; returns how
 * many. Touching and parting again on the same side is no crossing.
 */
int tc_find_crossings(const double *a, const double *b, int years, struct tc_crossing *crossings);

#endif
