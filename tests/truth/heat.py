# SPDX-License-Identifier: MIT
"""The heat of a tank by steps of a minute, as tankcost-model(7) describes it.

No closed form and no linear vapour curve: each minute the losses are worked
out anew. It is slow, and meant to be.
"""

import math

import model

KELVIN = 273.15


def pressure(kelvin):
    """Saturation pressure of water, IAPWS-IF97 equation 30 (region 4), in Pa."""
    n = (0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
         0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3)
    th = kelvin + n[8] / (kelvin - n[9])
    a, b, c = th * th + n[0] * th + n[1], n[2] * th * th + n[3] * th + n[4], n[5] * th * th + n[6] * th + n[7]
    return (2 * c / (-b + math.sqrt(b * b - 4 * a * c))) ** 4 * 1e6


TABLE = [pressure(KELVIN + i / 100) for i in range(6001)]  # 0 to 60 degrees by the hundredth


def quick_pressure(kelvin):
    x = (kelvin - KELVIN) * 100
    i = min(max(int(x), 0), 5999)
    return TABLE[i] + (x - i) * (TABLE[i + 1] - TABLE[i])


def lit_from(setup):
    """The hour of the day at which the lamps go on, and for how many hours they are on."""
    hours = setup.number("light-hours", "hours", 8.0)
    start = setup.text("light-start", "centered")
    if ":" in start:
        h, m = start.split(":")
        return int(h) + int(m) / 60, hours
    return 14 - hours / 2 if start == "centered" else setup.number("light-start", "hours"), hours


def lit_parts(setup, parts):
    """The share of each of so many equal parts of the day in which the lamps are on."""
    begin, hours = lit_from(setup)
    out, part = [0.0] * parts, 24 / parts
    for day in (-1, 0, 1):
        for i in range(parts):
            on, off = begin + 24 * day, begin + hours + 24 * day
            out[i] += max(0.0, min(off, (i + 1) * part) - max(on, i * part)) / part
    return out


def lit_hours(setup):
    """The same of each hour."""
    return lit_parts(setup, 24)


class Tank:
    """One tank with its surfaces, gains and heater."""

    def __init__(self, shape, setup, lid, lamps, pumps, heater, bed_mass=None, filter_kind="none", tap=None):
        """lid: its share of the surface covered, 0 where it is open; lamps and
        pumps: W that end in the water; heater: W; tap: K of fresh water that comes
        cold, None where it is mixed to be warm."""
        self.shape, self.setup, self.heater, self.lamps, self.pumps = shape, setup, heater, lamps, pumps
        self.set_point = setup.number("temperature", "temperature", 298.15)
        activity = setup.text("activity", "by-filter")
        by_filter = {"sponge": 1.0, "hang-on": 0.87}.get(filter_kind, 0.74)
        self.activity = by_filter if activity == "by-filter" else setup.number("activity", "number")
        self.capacity = (model.CP_WATER * shape.water + 720 * shape.glass_mass
                         + 800 * (shape.bed_mass if bed_mass is None else bed_mass))
        perimeter = 2 * (shape.length + shape.width)
        slope = (pressure(self.set_point + 0.005) - pressure(self.set_point - 0.005)) / 0.01
        layer = 1 / (1 / 0.16 + 1.95 * slope / 67.4)
        self.open = shape.bottom * (1 - lid)
        self.sides = perimeter * shape.depth * (1 - setup.number("sheltered-sides", "share", 0.0))
        self.face = 1.0
        self.ua = (shape.length * shape.width / (shape.bottom_glass / 1.0 + 0.138 + 0.17)
                   + self.open / 0.10
                   + shape.bottom * lid / (layer + 0.004 + 0.10))
        self.tap = tap
        changed = setup.number("water-change", "share", 0.25) * shape.water
        self.fresh = 0.0
        if tap is not None:
            self.fresh = model.CP_WATER * changed / (86400 * setup.number("change-interval", "interval", 7.0))
        self.wet = 0.089 * self.activity * self.open

    def flux(self, water, room, turns=1):
        """W through a m2 of the sides. The face's share of the difference is kept for the next call, which
        in a run of minutes is nearly the same."""
        d = abs(water - room)
        radiation = 4 * 0.837 * 5.670374e-8 * ((water + room) / 2) ** 3
        film = radiation
        for _ in range(turns):
            film = radiation + (0.1338 / math.sqrt(self.shape.depth) + 1.116 * (self.face * d) ** (1 / 6)) ** 2
            self.face = 1 / (1 + film * self.shape.glass / 1.0)
        return film * self.face * (water - room)

    def room_gets(self, water, room, turns=1):
        """W by sides, bottom, surface and lid."""
        return self.ua * (water - room) + self.sides * self.flux(water, room, turns)

    def dry(self, water, room, turns=1):
        """W but for evaporation, fresh water included."""
        return self.room_gets(water, room, turns) + (self.fresh * (water - self.tap) if self.fresh else 0.0)

    def loss(self, water, room, vapour):
        return self.dry(water, room, 20) + self.wet * (quick_pressure(water) - vapour)

    def heater_needed(self, place):
        """W in the coldest hour of the year, lamps off, without the margin."""
        worst = 0.0
        for m in range(12):
            room = place.room[m] - place.swing
            vapour = place.humidity[m] * pressure(place.room[m])
            worst = max(worst, self.loss(self.set_point, room, vapour) - self.pumps)
        return worst

    def month(self, place, m, days, water, step=60.0):
        """So many days from water of that temperature, followed until one repeats the last: kWh of the heater in each
        hour, kg lost to the air, hottest K, kWh the room gets, and the water at the end."""
        mean, swing = place.room[m], place.swing
        vapour = place.humidity[m] * pressure(mean)
        steps = round(86400 / step)
        lit = lit_parts(self.setup, steps)
        rooms = [mean + swing * math.cos(2 * math.pi * ((i + 0.5) * step / 3600 - 15) / 24) for i in range(steps)]
        gains = [self.pumps + self.lamps * lit[i] for i in range(steps)]
        self.flux(water, rooms[0], 20)
        in_all, kg, gets = [0.0] * 24, 0.0, 0.0
        left = days
        while left > 0:
            begin, used, lost, hottest, dry_day = water, [0.0] * 24, 0.0, water, 0.0
            for i in range(steps):
                latent = 2501e3 - 2361 * (water - KELVIN)
                wet = self.wet * (quick_pressure(water) - vapour)
                lost += wet / latent * step
                dry = self.room_gets(water, rooms[i])
                dry_day += dry * step / 3.6e6
                fresh = self.fresh * (water - self.tap) if self.fresh else 0.0
                free = water + step / self.capacity * (gains[i] - dry - fresh - wet)
                if free < self.set_point:
                    power = min(self.heater, (self.set_point - free) * self.capacity / step)
                    free += power * step / self.capacity
                    used[int(i * step // 3600)] += power * step / 3.6e6
                water = free
                hottest = max(hottest, water)
            # what is left of the way to the day that repeats adds less than a watt-hour to a month
            alike = left if abs(water - begin) < 1e-3 else 1
            in_all = [a + u * alike for a, u in zip(in_all, used)]
            kg += lost * alike
            gets += dry_day * alike
            left -= alike
        return in_all, kg, hottest, gets, water

    def year(self, place, step=60.0):
        """kWh of the heater and kg evaporated by month, the hottest water in K, kWh that the room gets.

        Each month begins where the one before ended, and January where December did."""
        kwh, lost, hottest, known, all_dry, water = [], [], 0.0, {}, 0.0, self.set_point
        for turn, m in enumerate((11, *range(12))):
            key = place.room[m], place.humidity[m], model.DAYS[m], round(water, 3)
            if key not in known:
                known[key] = self.month(place, m, model.DAYS[m], water, step)
            used, kg, hot, dry, water = known[key]
            if turn > 0:  # the first is there for what it leaves
                kwh.append(used)
                lost.append(kg)
                hottest = max(hottest, hot)
                all_dry += dry
        return kwh, lost, hottest, all_dry
