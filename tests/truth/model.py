# SPDX-License-Identifier: MIT
"""What tankcost-model(7) says, computed a second time.

Written from that page and not from the program's sources. Units are SI, with
energy in kWh and times of life in years; money is whole minor units once it
has come into being. What needs the heater's energy or the water that
evaporates is given them; heat.py works them out apart.
"""

import calendar
import datetime
import math

import profiles as read

DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
CP_WATER = 4.168e6  # J/(m3 K)
KELVIN = 273.15


def minor(amount):
    """An amount in minor units made whole: half away from zero, a millionth under a half being one."""
    return int(math.copysign(math.floor(abs(amount) + 0.5 + 1e-6), amount))


def deal_out(total, weights):
    """Whole units shared by largest remainder (Hamilton), and whether equal remainders had to be told apart."""
    whole = sum(weights)
    if whole == 0:
        return [total] + [0] * (len(weights) - 1) if weights else [], False
    exact = [total * w / whole for w in weights]
    shares = [math.floor(e) for e in exact]
    rest = total - sum(shares)
    order = sorted(range(len(weights)), key=lambda i: -round(exact[i] - shares[i], 6))  # of equals the first
    for i in order[:rest]:
        shares[i] += 1
    left = [exact[i] - math.floor(exact[i]) for i in order]
    return shares, 0 < rest < len(order) and abs(left[rest - 1] - left[rest]) < 1e-6


# --- geometry -----------------------------------------------------------------------------------


def density(kelvin):
    t = kelvin - KELVIN
    return 999.974950 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))


class Shape:
    """A tank as it stands in a setup, with a bed of the given density and voids."""

    def __init__(self, tank, setup, bed_density, voids, bare=False):
        self.length, self.width, self.height = (tank.number(k, "length") for k in ("length", "width", "height"))
        self.glass = tank.number("glass", "length")
        self.bottom_glass = tank.number("bottom-glass", "length", self.glass)
        freeboard = tank.number("freeboard", "length", 0.0254)
        self.bed = 0.0 if bare else setup.number("substrate-depth", "length", 0.0)
        self.inner_length = self.length - 2 * self.glass
        self.inner_width = self.width - 2 * self.glass
        self.inner_height = self.height - self.bottom_glass
        self.bottom = self.inner_length * self.inner_width
        self.depth = self.inner_height - freeboard
        self.water = self.bottom * self.depth - self.bottom * self.bed * (1 - voids)
        self.reach = self.inner_height - self.bed
        self.glass_mass = 2500 * (self.length * self.width * self.height - self.bottom * self.inner_height)
        self.bed_mass = self.bottom * self.bed * bed_density
        self.frame = tank.number("frame", "mass", 0.0)
        self.empty = self.glass_mass + self.frame
        self.filled = self.empty + self.water * density(setup.number("temperature", "temperature", 298.15)) + self.bed_mass
        self.load = self.filled * 9.80665 / (self.length * self.width)


# --- fit ----------------------------------------------------------------------------------------

EPS = 1e-9  # a figure that misses its limit by rounding alone meets it


def fits_stand(part, shape):
    top, across = part.number("length", "length"), part.number("width", "length")
    beyond = 0.15 if part.text("top", "frame") == "solid" else 0.05
    return (shape.length - 0.0127 <= top * (1 + EPS) and top <= (shape.length + beyond) * (1 + EPS)
            and shape.width - 0.0127 <= across * (1 + EPS) and across <= (shape.width + beyond) * (1 + EPS)
            and part.number("load", "mass") * (1 + EPS) >= shape.filled)


def count_lid(part, shape, lit):
    """How many pieces cover the tank, or None."""
    if lit and part.number("transmittance", "share", 0.9) == 0:
        return None
    if abs(part.number("width", "length") - shape.width) > 0.015 * (1 + EPS):
        return None
    for n in (1, 2, 3):
        if abs(n * part.number("length", "length") - shape.length) <= 0.015 * (1 + EPS):
            return n
    return None


def ppf(light):
    if "ppf" in light.keys:
        return light.number("ppf", "photons")
    if "efficacy" in light.keys:
        return light.number("power", "power") * light.number("efficacy", "photons")
    return light.number("lumens", "light") / 70


def ppf_needed(shape, setup, transmittance):
    """Photons the lamps give for the light that the setup asks for at the bottom."""
    wanted = light_wanted(setup)
    depth = shape.depth - shape.bed
    kd = setup.number("attenuation", "attenuation", 0.5)
    return wanted * shape.bottom / (0.80 * transmittance * (1 - 0.0204) * math.exp(-kd * depth))


def light_wanted(setup):
    text = setup.text("ppfd", "none")
    return {"none": 0.0, "low": 20.0, "medium": 40.0, "high": 80.0}.get(text) if text.isalpha() \
        else setup.number("ppfd", "photons")


def count_light(part, shape, setup, transmittance):
    shortest, longest = part.number("shortest", "length"), part.number("longest", "length")
    for along in (1, 2, 3):
        if along * shortest <= shape.length * (1 + EPS) and shape.length <= along * longest * (1 + EPS):
            break
    else:
        return None
    reach = part.number("reach", "length", None)
    if reach is None:
        reach = 2 * math.sqrt(0.7 ** (-2 / 3) - 1) * (shape.height - shape.bottom_glass - shape.bed + 0.05)
    rows = max(1, math.ceil(shape.inner_width / reach * (1 - EPS)),
               math.ceil(ppf_needed(shape, setup, transmittance) / (along * ppf(part)) * (1 - EPS)))
    return along * rows if rows <= 4 else None


def count_filter(part, shape, setup):
    if part.text("kind") != setup.text("filter"):
        return None
    flow = shape.water * setup.number("turnover", "turnover", 4 / 3600)
    n = max(1, math.ceil(flow / part.number("flow", "flow") * (1 - EPS)),
            math.ceil(shape.inner_length / part.number("reach", "length", 0.9144) * (1 - EPS)))
    return n if n <= 4 else None


def count_air_pump(part, air, depth):
    if part.number("depth", "length", 0.60) * (1 + EPS) < depth:
        return None
    n = max(1, math.ceil(air / part.number("flow", "flow") * (1 - EPS)))
    return n if n <= 3 else None


def count_heater(part, needed, least, shape):
    power = part.number("power", "power")
    n = max(least, math.ceil(needed / power * (1 - EPS)))
    if n > 4:
        return None
    together = n * power
    if together > 3000 * shape.water * (1 + EPS) and together > 1.5 * needed * (1 + EPS):
        return None
    return n


def count_bags(part, shape, tanks):
    n = math.ceil(tanks * shape.bottom * shape.bed / part.number("volume", "volume") * (1 - EPS))
    return n if n <= 60 else None


# --- tariffs ------------------------------------------------------------------------------------

NAMES = "jan feb mar apr may jun jul aug sep oct nov dec".split()
UTILITY_UNITS = {"kwh": 1.0, "m3": 1.0, "gal": 3.785411784e-3, "kgal": 3.785411784,
                 "ft3": 0.3048 ** 3, "ccf": 100 * 0.3048 ** 3}


def months_of(text):
    """'oct to may', '5 6 7' as a set of months counted from 0."""
    words = text.lower().replace(",", " ").split()
    out, i = set(), 0

    def index(word):
        return int(word) - 1 if word.isdigit() else NAMES.index(word[:3])
    while i < len(words):
        first = index(words[i])
        if i + 2 < len(words) and words[i + 1] == "to":
            last = index(words[i + 2])
            while True:
                out.add(first)
                if first == last:
                    break
                first = (first + 1) % 12
            i += 3
        else:
            out.add(first)
            i += 1
    return out


def _blocks(text):
    out = []
    for one in text.split(","):
        words = one.split()
        out.append((float(words[0]), float(words[2]) if words[1:2] == ["up"] and len(words) == 3 else
                    float(words[3]) if words[1:3] == ["up", "to"] else math.inf))
    return out


def _hours(text):
    """'0.08 from 21, 0.15 from 7' as 24 rates."""
    if "from" not in text:
        return [float(text)] * 24
    steps = sorted((int(one.split()[2].split(":")[0]), float(one.split()[0])) for one in text.split(","))
    out = [steps[-1][1]] * 24
    for i, (start, price) in enumerate(steps):
        for h in range(start, steps[i + 1][0] if i + 1 < len(steps) else 24):
            out[h] = price
    return out


class Tariff:
    """Electricity or water by the month, in money (not minor units) before rounding."""

    def __init__(self, section=None, flat=None):
        self.unit, self.tax, self.workdays = 1.0, 0.0, 5 / 7
        self.seasons = [dict(rate=flat or 0.0, blocks=None, whole=False, work=None, weekend=None,
                             minimum=0.0, covers=0.0)] * 12
        if section is None:
            return
        self.unit = UTILITY_UNITS[section.text("unit", "kWh").lower()]
        self.tax = section.number("tax", "share", 0.0)
        self.workdays = section.number("workdays", "number", 5.0) / 7
        base_rate = read.amount(section.text("rate", "0"), "").value()
        month_season = [1] * 12
        for n in (1, 2, 3, 4):
            for m in months_of(section.text(f"season-{n}", "")):
                month_season[m] = n

        def key(name, n):
            return section.text(f"{name}-{n}", section.text(name))
        self.seasons = []
        for m in range(12):
            n = month_season[m]
            hours, work, weekend = key("hours", n), key("workday", n), key("weekend", n)
            self.seasons.append(dict(
                rate=base_rate, blocks=_blocks(key("blocks", n)) if key("blocks", n) else None,
                whole=key("whole-bill", n) == "yes",
                work=_hours(hours or work) if hours or work else None,
                weekend=_hours(hours or weekend) if hours or weekend else None,
                minimum=float((key("minimum", n) or "0").split()[0]), covers=float(key("covers", n) or 0)))

    @property
    def hourly(self):
        """Whether it has rates by the hour."""
        return any(s["work"] for s in self.seasons)

    def hour_rate(self, month, hour):
        """The rate of an hour, the mean over the days of a week."""
        s = self.seasons[month]
        if s["work"] is None:
            return 0.0
        return self.workdays * s["work"][hour] + (1 - self.workdays) * s["weekend"][hour]

    def bill(self, month, load):
        """A month's charges, with tax, of a load in 24 hours (kWh or m3 of the whole month in each)."""
        s = self.seasons[month]
        units = sum(load) / self.unit
        beyond = max(0.0, units - s["covers"])
        charge = s["rate"] * beyond
        if s["blocks"]:
            charge += self._of_blocks(s, units, min(units, s["covers"]))
        if s["work"]:
            charge += sum(load[h] / self.unit * self.hour_rate(month, h) for h in range(24))
        charge = s["minimum"] + charge if s["covers"] else max(s["minimum"], charge)
        return charge * (1 + self.tax)

    @staticmethod
    def _of_blocks(s, units, covered):
        if s["whole"]:
            for price, limit in s["blocks"]:
                if units <= limit * (1 + 1e-12):
                    return price * (units - covered)
        charge, lower = 0.0, 0.0
        for price, limit in s["blocks"]:
            charge += price * max(0.0, min(units, limit) - max(lower, covered))
            lower = limit
        return charge


def utility(section_of, region, what):
    """The region's tariff of electricity or water."""
    named = region.text(f"{what}-tariff")
    if named:
        return Tariff(section_of["tariff", named])
    kind = "energy" if what == "electricity" else "volume"
    return Tariff(flat=read.rate(region.text(what), region.text("currency"), kind).value())


def added_cost(tariff, household, loads, decimals):
    """What consumers add to a household's bills of a year.

    loads: for each consumer 12 lists of 24. Returns the minor units of each
    consumer over the year, of each month, and in how many months equal remainders
    were told apart."""
    scale = 10 ** decimals
    years, per_month, ties = [0] * len(loads), [], 0
    for m in range(12):
        base = [household / 24] * 24
        both = [base[h] + sum(c[m][h] for c in loads) for h in range(24)]
        exact = (tariff.bill(m, both) - tariff.bill(m, base)) * scale
        total = minor(exact)
        units = [sum(c[m]) for c in loads]
        own = [sum(c[m][h] / tariff.unit * tariff.hour_rate(m, h) for h in range(24)) * (1 + tariff.tax) * scale
               for c in loads]
        rest = exact - sum(own)
        all_units = sum(units)
        if tariff.hourly and rest < 0:  # a minimum takes up a part of what the hours cost: all shrink alike
            shares = own
        else:
            shares = [o + (rest * u / all_units if all_units else 0.0) for o, u in zip(own, units)]
        per_month.append(total)
        dealt, tie = deal_out(total, shares)
        ties += tie
        for i, x in enumerate(dealt):
            years[i] += x
    return years, per_month, ties


# --- sales --------------------------------------------------------------------------------------


def date(text):
    return datetime.date.fromisoformat(text)


def _moved(day, steps, every):
    number, unit = every.split()
    number = int(number) * steps
    unit = unit.rstrip("s")
    if unit in ("day", "week"):
        return day + datetime.timedelta(days=number * (7 if unit == "week" else 1))
    months = day.year * 12 + day.month - 1 + number * (12 if unit == "year" else 1)
    year, month = divmod(months, 12)
    return datetime.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def occurrences(sale, last):
    """First and last days of a sale, up to those that begin on the day `last`."""
    start, end = sale.text("from"), sale.text("to")
    first = date(start) if start else datetime.date(1900, 1, 1)
    final = date(end) if end else datetime.date(2200, 12, 31)
    yield first, final
    every = sale.text("every")
    if not every or every == "never":
        return
    until = date(sale.text("until")) if sale.text("until") else datetime.date(2200, 12, 31)
    steps = 1
    while True:
        begin = _moved(first, steps, every)
        if begin > until or begin > last:
            return
        yield begin, _moved(final, steps, every)
        steps += 1


def runs(sale, today):
    return any(a <= today <= b for a, b in occurrences(sale, today))


def covers(sale, tank):
    if sale.text("tanks"):
        return tank.name in sale.words("tanks")
    nominal = tank.number("nominal", "volume")
    return (sale.number("volume-from", "volume", 0.0) <= nominal * (1 + EPS)
            and nominal <= sale.number("volume-to", "volume", math.inf) * (1 + EPS))


# --- upkeep -------------------------------------------------------------------------------------

CLEANING = {"sponge": 12 * 5, "hang-on": 12 * 10, "canister": 4 * 30}  # minutes a year


def upkeep_hours(shape, setup, filters, quantity):
    """Hours a year of so many tanks, with (kind, how many of all tanks) of filters."""
    slower = 1 + max(0.0, shape.reach - 0.45) / 0.60
    share = setup.number("water-change", "share", 0.25)
    a_change = 10 + share * shape.water * 1000 / 10 if share > 0 else 0
    by_hand = a_change * 365 / setup.number("change-interval", "interval", 7.0) + 10 * 365 / 7
    return (quantity * slower * by_hand + sum(CLEANING.get(kind, 0) * count for kind, count in filters)) / 60


# --- life-cycle cost ----------------------------------------------------------------------------


def spv(d, t):
    return (1 + d) ** -t


def upv(d, e, n):
    return sum(((1 + e) / (1 + d)) ** k for k in range(1, n + 1))


def as_paid(e, n):
    return sum((1 + e) ** k for k in range(1, n + 1))


def replacements(life, n, first=None):
    """Times of the replacements in years, the last one before the end."""
    first = life if first is None else first
    out, k = [], 0
    while first + k * life < n * (1 - 1e-9):
        out.append(first + k * life)
        k += 1
    return out


def remaining(life, n, first=None):
    """The share of a new one's life that what is there at the end still has."""
    times = replacements(life, n, first)
    end = times[-1] + life if times else life if first is None else first
    return max(0.0, (end - n) / life)
