#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Bills of a year, hour by hour: random tariffs and loads, priced by brute force.

Walks all 8760 hours of real calendars of 365 days and charges each hour on its
own, with nothing shared with the program under test. Writes one case after the
other as plain numbers; test_tariff_hours.c reads them and compares.

Case: seasons; season of each month; every_unit; tax; workdays of each month;
per season: 48 hour rates (workday, weekend); block count, then limit (-1: none),
rate, everything of each; then 288 own and 288 tank units per day and hour by
month; last the year's bill without and with the tank.
"""
import datetime
import random
import sys

rng = random.Random(20240229)


def months_bill(season, units, hour_cost, every_unit):
    """Block charge of one month by counting from the top block down."""
    cost = hour_cost + every_unit * units
    left = units
    blocks = season["blocks"]
    for i in range(len(blocks) - 1, -1, -1):
        limit, rate, everything = blocks[i]
        start = blocks[i - 1][0] if i else 0.0
        if left > start:
            if everything and left == units:
                return cost + units * rate
            cost += (left - start) * rate
            left = start
    return cost


def year_bill(case, days):
    units = [0.0] * 12
    hours = [0.0] * 12
    day = datetime.date(case["year"], 1, 1)
    count = 0
    while day.year == case["year"]:
        m = day.month - 1
        season = case["seasons"][case["season_of_month"][m]]
        rates = season["hours"][1 if day.weekday() >= 5 else 0]
        for h in range(24):
            units[m] += days[m][h]
            hours[m] += days[m][h] * rates[h]
            count += 1
        day += datetime.timedelta(days=1)
    assert count == 8760
    bill = sum(
        months_bill(case["seasons"][case["season_of_month"][m]], units[m], hours[m], case["every_unit"])
        for m in range(12)
    )
    return bill * (1 + case["tax"])


def make_case():
    seasons = []
    for _ in range(rng.randint(1, 4)):
        periods = [rng.uniform(2, 40) for _ in range(3)]
        hours = [[rng.choice(periods) for _ in range(24)] for _ in range(2)]
        if rng.random() < 0.2:
            hours = [[0.0] * 24, [0.0] * 24]
        blocks, limit = [], 0.0
        for _ in range(rng.choice([0, 0, 2, 3, 5])):
            limit += rng.uniform(50, 300)
            blocks.append([limit, rng.uniform(1, 20), int(rng.random() < 0.2)])
        if blocks:
            blocks[-1][0] = float("inf")
        seasons.append({"hours": hours, "blocks": blocks})
    return {
        "year": rng.choice([2022, 2023, 2025, 2026]),
        "seasons": seasons,
        "season_of_month": [rng.randrange(len(seasons)) for _ in range(12)],
        "every_unit": rng.choice([0.0, rng.uniform(0, 15)]),
        "tax": rng.choice([0.0, 0.05, 0.2]),
    }


def workdays(year):
    counts = [0] * 12
    day = datetime.date(year, 1, 1)
    while day.year == year:
        counts[day.month - 1] += day.weekday() < 5
        day += datetime.timedelta(days=1)
    return counts


def write(*numbers):
    print(*(repr(n) for n in numbers))


for _ in range(int(sys.argv[1]) if len(sys.argv) > 1 else 40):
    case = make_case()
    own = [[rng.uniform(0, 0.9) for _ in range(24)] for _ in range(12)]
    tank = [[rng.uniform(0, 0.4) for _ in range(24)] for _ in range(12)]
    both = [[a + b for a, b in zip(x, y)] for x, y in zip(own, tank)]
    write(len(case["seasons"]), *case["season_of_month"])
    write(case["every_unit"], case["tax"], *workdays(case["year"]))
    for season in case["seasons"]:
        write(*season["hours"][0], *season["hours"][1])
        write(len(season["blocks"]))
        for limit, rate, everything in season["blocks"]:
            write(-1 if limit == float("inf") else limit, rate, everything)
    for load in (own, tank):
        for month in load:
            write(*month)
    write(year_bill(case, own), year_bill(case, both))
