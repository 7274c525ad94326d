/* SPDX-License-Identifier: MIT */
#include "core/money/exchange.h"

#include <math.h>
#include <string.h>

/* More than ISO 4217 has codes. */
enum { CURRENCIES_MAX = 256 };

static bool same(struct tc_currency a, struct tc_currency b)
{
    return strcmp(a.code, b.code) == 0;
}

/* Whether two quotes are of the same two currencies, in either direction. */
static bool same_pair(const struct tc_quote *a, const struct tc_quote *b)
{
    return (same(a->from, b->from) && same(a->to, b->to)) || (same(a->from, b->to) && same(a->to, b->from));
}

static bool later(struct tc_date a, struct tc_date b)
{
    return tc_days_between(b, a) > 0;
}

static bool sound(const struct tc_quote *quote)
{
    return quote->rate > 0 && isfinite(quote->rate);
}

/* Whether quotes[i] is sound and no other quote of the pair takes its place. */
static bool counts(const struct tc_quote *quotes, int count, int i)
{
    if (!sound(&quotes[i]))
        return false;
    for (int k = 0; k < count; k++)
        if (k != i && sound(&quotes[k]) && same_pair(&quotes[k], &quotes[i]) &&
            (later(quotes[k].date, quotes[i].date) || (k < i && !later(quotes[i].date, quotes[k].date))))
            return false;
    return true;
}

/* The conversions from one currency to all that were reached so far; the nearer ones come first. */
struct reach {
    struct tc_conversion way[CURRENCIES_MAX];
    int count;
};

static int find(const struct reach *reach, struct tc_currency to)
{
    for (int i = 0; i < reach->count; i++)
        if (same(reach->way[i].to, to))
            return i;
    return -1;
}

/* Takes a way by one more quote; it is kept unless one as short with later quotes, or a shorter, is there. */
static void extend(struct reach *reach, const struct tc_conversion *way, const struct tc_quote *quotes, int k)
{
    const struct tc_quote *quote = &quotes[k];
    bool forward = same(way->to, quote->from);
    struct tc_conversion longer = *way;
    longer.to = forward ? quote->to : quote->from;
    longer.rate = forward ? way->rate * quote->rate : way->rate / quote->rate;
    if (way->steps < TC_CONVERSION_KEPT) {
        longer.by[way->steps].quote = k;
        longer.by[way->steps].back = !forward;
    }
    longer.steps = way->steps + 1;
    if (way->steps == 0 || later(way->date, quote->date))
        longer.date = quote->date;
    int known = find(reach, longer.to);
    if (known < 0 && reach->count < CURRENCIES_MAX)
        reach->way[reach->count++] = longer;
    else if (known >= 0 && reach->way[known].steps == longer.steps &&
             later(longer.date, reach->way[known].date))
        reach->way[known] = longer;
}

enum tc_status tc_conversion_find(struct tc_conversion *conversion, const struct tc_quote *quotes, int count,
                                  struct tc_currency from, struct tc_currency to)
{
    struct reach reach = {.count = 1};
    reach.way[0] = (struct tc_conversion){.from = from, .to = from, .rate = 1};
    /* Breadth first: when a way is looked at, all those with fewer steps have been. */
    for (int i = 0; i < reach.count; i++) {
        const struct tc_conversion way = reach.way[i];
        for (int k = 0; k < count && !same(way.to, to); k++)
            if ((same(quotes[k].from, way.to) || same(quotes[k].to, way.to)) && counts(quotes, count, k))
                extend(&reach, &way, quotes, k);
    }
    int found = find(&reach, to);
    if (found < 0)
        return TC_NO_RESULT;
    *conversion = reach.way[found];
    return TC_OK;
}

tc_money tc_conversion_money(const struct tc_conversion *conversion, tc_money amount, enum tc_status *status)
{
    double major = (double)amount / tc_currency_scale(conversion->from);
    return tc_money_round(major * conversion->rate * tc_currency_scale(conversion->to), status);
}
