#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The study of test_uncertainty_numpy.c once more, with numpy's own generator and functions.

Five tanks over some years: price, electricity for a heater and a lamp, filters
that are replaced, a resale. Writes one line of numbers for each candidate, then
one for each figure. Exits 77 where numpy is missing.
"""
import sys

try:
    import numpy as np
except ImportError:
    sys.exit(77)

DRAWS = 1_000_000
PRICE = np.array([95.0, 32, 76, 20, 79])
UA = np.array([2.4, 2.9, 3.8, 4.4, 3.1])  # W/K
LAMP = np.array([18.0, 22, 36, 40, 28])  # W
FILTERS = np.array([3, 3, 1, 1, 2])

# low, likely, high; likely None: uniform
SPREADS = [
    (0.10, 0.16, 0.34),  # money per kWh
    (18.0, None, 22.0),  # room, C
    (7.0, 9.0, 12.0),  # hours of light
    (0.8, None, 1.1),  # share of the price paid
    (1.5, 3.0, 5.0),  # years a filter lasts
    (0.0, 0.03, 0.05),  # discount rate
    (15.0, 20.0, 22.0),  # price of a filter
    (0.1, None, 0.5),  # resale share
]


def cost(f):
    """f[j] are arrays of one value a draw; a row a candidate comes back."""
    rate, room, hours, sale, life, discount, filter_price, resale = (x[None, :] for x in f)
    ua, lamp, price, filters = (x[:, None] for x in (UA, LAMP, PRICE, FILTERS))
    years = 8
    annuity = (1 - (1 + discount) ** -years) / np.where(discount == 0, 1, discount)
    annuity = np.where(discount == 0, years, annuity)
    lit = lamp * hours * 0.365
    heat = np.maximum(ua * (25 - room) * 8.76 - 0.4 * lit, 0)
    total = price * sale + (heat + lit) * rate * annuity
    bought = filters * filter_price
    total = total + bought * (1 + annuity / life)
    return total - price * sale * resale * (1 + discount) ** -years


def quantile(u, low, likely, high):
    if likely is None:
        return low + (high - low) * u
    peak = (likely - low) / (high - low)
    up = low + np.sqrt(u * (high - low) * (likely - low))
    down = high - np.sqrt((1 - u) * (high - low) * (high - likely))
    return np.where(u < peak, up, down)


def middle():
    return [low + (high - low) / 2 if likely is None else likely for low, likely, high in SPREADS]


def at(figure, value):
    f = middle()
    f[figure] = value
    return cost([np.array([x]) for x in f])[:, 0]


rng = np.random.default_rng(12345)
costs = cost([quantile(rng.random(DRAWS), *s) for s in SPREADS])
least = costs.min(axis=0)
wins = (costs == least).astype(float)
wins /= wins.sum(axis=0)
regret = costs - least
for i in range(len(PRICE)):
    p10, p50, p90 = np.quantile(costs[i], [0.1, 0.5, 0.9])
    print(
        *(repr(float(x)) for x in (
            wins[i].mean(), wins[i].std() / DRAWS**0.5,
            costs[i].mean(), costs[i].std() / DRAWS**0.5, costs[i].std(),
            p10, p50, p90,
            regret[i].mean(), regret[i].std() / DRAWS**0.5,
        ))
    )

best, second = np.argsort(at(0, middle()[0]))[:2]


def turn(figure, end):
    """Nearest value on the way to the end at which the best is beaten: a fine scan, then brentq-like halving."""
    start = middle()[figure]

    def lead(x):
        c = at(figure, x)
        return np.delete(c, best).min() - c[best]

    path = np.linspace(start, end, 2001)
    lost = [x for x in path if lead(x) < 0]
    if not lost:
        return float("nan")
    a, b = path[list(path).index(lost[0]) - 1], lost[0]
    for _ in range(60):
        mid = (a + b) / 2
        a, b = (a, mid) if lead(mid) < 0 else (mid, b)
    return b


for j, (low, _, high) in enumerate(SPREADS):
    row = [at(j, x)[second] - at(j, x)[best] for x in (low, high)] + [turn(j, low), turn(j, high)]
    print(*(repr(float(x)).replace("nan", "-999") for x in row))
