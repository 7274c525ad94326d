# SPDX-License-Identifier: MIT
"""Profiles as tankcost-profiles(5) describes them, read a second time.

Written from the manual page and not from the program's sources. It reads what
the worlds of worlds.py and the demonstration use, and takes faulty input for
granted nowhere: what it does not know, it refuses.
"""

import pathlib
import re

# Units: what is measured, and how much of the SI unit one is.
UNITS = {
    "%": ("share", 0.01),
    "mm": ("length", 0.001), "cm": ("length", 0.01), "m": ("length", 1.0),
    "in": ("length", 0.0254), "ft": ("length", 0.3048),
    "cm2": ("area", 1e-4), "m2": ("area", 1.0), "in2": ("area", 0.0254 ** 2), "ft2": ("area", 0.3048 ** 2),
    "mL": ("volume", 1e-6), "L": ("volume", 1e-3), "m3": ("volume", 1.0),
    "gal": ("volume", 3.785411784e-3), "ukgal": ("volume", 4.54609e-3), "ft3": ("volume", 0.3048 ** 3),
    "g": ("mass", 1e-3), "kg": ("mass", 1.0), "lb": ("mass", 0.45359237),
    "kg/m3": ("density", 1.0), "kg/L": ("density", 1000.0), "lb/ft3": ("density", 0.45359237 / 0.3048 ** 3),
    "W": ("power", 1.0), "kW": ("power", 1000.0), "Btu/h": ("power", 1055.05585262 / 3600),
    "Wh": ("energy", 1e-3), "kWh": ("energy", 1.0), "MJ": ("energy", 1 / 3.6),  # in kWh
    "C": ("temperature", 1.0), "F": ("temperature", 5 / 9), "K": ("temperature", 1.0),
    "L/h": ("flow", 1e-3 / 3600), "L/min": ("flow", 1e-3 / 60),
    "gal/h": ("flow", 3.785411784e-3 / 3600), "m3/h": ("flow", 1 / 3600),
    "/h": ("turnover", 1 / 3600),
    "W/K": ("heat loss", 1.0), "Btu/h/F": ("heat loss", 1055.05585262 / 3600 * 9 / 5),
    "umol/s": ("photons", 1.0), "umol/m2/s": ("photons", 1.0), "umol/J": ("photons", 1.0),
    "lm": ("light", 1.0), "psf": ("load", 47.88025898), "kg/m2": ("load", 9.80665),
    "kPa": ("load", 1000.0), "Pa": ("load", 1.0), "/m": ("attenuation", 1.0),
    "h": ("hours", 1.0), "min": ("hours", 1 / 60),
    "days": ("interval", 1.0), "day": ("interval", 1.0), "weeks": ("interval", 7.0), "week": ("interval", 7.0),
    "years": ("life", 1.0), "year": ("life", 1.0), "months": ("life", 1 / 12), "month": ("life", 1 / 12),
    "A": ("current", 1.0), "V": ("voltage", 1.0),
}
ZERO = {"C": 273.15, "F": 459.67 * 5 / 9, "K": 0.0}  # of temperatures that are no differences

# Decimals of the currencies that are used (ISO 4217).
DECIMALS = {"USD": 2, "EUR": 2, "JPY": 0, "CHF": 2, "GBP": 2, "SEK": 2, "KRW": 0, "KWD": 3}

PARTS = ("stand", "lid", "light", "filter", "air-pump", "heater", "substrate")
LIVES = dict(zip(("tank",) + PARTS, (15, 20, 10, 7, 8, 5, 2, 10)))
RESALES = dict(zip(("tank",) + PARTS, (0.5, 0.4, 0.2, 0.3, 0.3, 0.2, 0.1, 0.0)))


class Range:
    """A figure: its least, its greatest, and perhaps its likeliest value."""

    def __init__(self, low, high=None, likely=None):
        self.low, self.high, self.likely = low, low if high is None else high, likely

    def value(self):
        """The value used where one is asked for."""
        return (self.low + self.high) / 2 if self.likely is None else self.likely


def _numbers(text):
    """'A to B likely C unit' as [(number, unit or None)...], each with the unit it takes."""
    words = re.findall(r"[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|to|likely|[^\s\d][^\s]*", text)
    found = []
    for word in words:
        if word in ("to", "likely"):
            found.append((word, None))
        elif re.fullmatch(r"[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?", word):
            found.append([float(word), None])
        else:
            found[-1][1] = word
    figures = [f for f in found if not isinstance(f[0], str)]
    for i in range(len(figures) - 1, -1, -1):  # the next one's unit, or else the one's before
        if figures[i][1] is None and i + 1 < len(figures):
            figures[i][1] = figures[i + 1][1]
    for i in range(1, len(figures)):
        if figures[i][1] is None:
            figures[i][1] = figures[i - 1][1]
    return found


def _range(text, convert):
    found = _numbers(text)
    values = [convert(*f) for f in found if not isinstance(f[0], str)]
    words = [f[0] for f in found if isinstance(f[0], str)]
    if words == []:
        low, = values
        return Range(low)
    if words == ["to"]:
        return Range(values[0], values[1])
    if words == ["to", "likely"]:
        return Range(*values)
    raise ValueError(f"no range: {text!r}")


def quantity(text, kind, difference=False):
    """A figure with its unit as a Range in SI units (energy in kWh, lives in years, intervals in days)."""
    def convert(number, unit):
        if unit is None:
            if kind == "number":
                return number
            raise ValueError(f"no unit in {text!r}")
        measured, factor = UNITS[unit]
        assert measured == kind, (text, kind)
        if kind == "temperature" and not difference:
            return number * factor + ZERO[unit]
        return number * factor
    return _range(text, convert)


def months(text, kind):
    """Twelve figures from January on, with one unit at the end; or one, perhaps a range."""
    parts = text.split()
    if len(parts) >= 12 and "to" not in parts:
        unit = parts[12] if len(parts) == 13 else None
        return [quantity(f"{p} {unit}", kind).value() for p in parts[:12]]
    return [quantity(text, kind).value()] * 12


def amounts(text):
    """'89 USD, 79 to 82 EUR' as {currency: Range of the amount}."""
    out = {}
    for one in text.split(","):
        *rest, code = one.split()
        out[code] = _range(" ".join(rest), lambda number, unit: number)
    return out


def amount(text, currency):
    """An amount of a region, its currency's code perhaps behind it."""
    text = text.strip()
    if currency and text.endswith(currency):
        text = text[: -len(currency)]
    return _range(text, lambda number, unit: number)


def rate(text, currency, kind):
    """'0.16 / kWh' as a Range in money for one kWh or m3 (or what kind's unit is)."""
    money, unit = text.rsplit("/", 1)
    factor = UNITS[unit.strip()]
    assert factor[0] == kind, text
    value = amount(money, currency)
    return Range(*(None if x is None else x / factor[1] for x in (value.low, value.high, value.likely)))


class Section:
    """One section: what it is, and its keys as they are written."""

    def __init__(self, kind, name, keys):
        self.kind, self.name, self.keys = kind, name, keys

    def text(self, key, default=None):
        return self.keys.get(key, default)

    def number(self, key, kind, default=None, difference=False):
        """The one value of a figure; default (in SI) where it is not given, or is a word."""
        text = self.keys.get(key)
        if text is None or re.fullmatch(r"[a-z]+", text):
            return default
        return quantity(text, kind, difference).value()

    def words(self, key, default=""):
        return self.keys.get(key, default).replace(",", " ").split()

    def yes(self, key, default):
        return self.keys.get(key, default) == "yes"


def _value(text):
    """A value without its comment and quotes."""
    text = text.strip()
    if text[:1] in "\"'" and text:
        return text[1:text.index(text[0], 1)]
    return re.split(r"\s[#;](?=\s|$)", text)[0].strip()


def read(folder, extra=()):
    """All sections below folder, and of the files named, as {(kind, name): Section}."""
    found = {}
    for path in sorted(pathlib.Path(folder).glob("*/*.ini")) + list(extra):
        plan = None
        section = None
        for line in pathlib.Path(path).read_text(encoding="utf-8").splitlines():
            line = line.strip()
            if not line or line[0] in "#;":
                continue
            if line[0] == "[":
                head = line[1:line.index("]")].lower().split()
                kind, name = head[0], " ".join(head[1:])
                section = Section(kind, name, {})
                if kind == "plan":
                    plan = name
                if kind in ("candidate", "assume", "wall"):
                    found[(plan, kind, name)] = section
                else:
                    found[(kind, name)] = section
            else:
                key, text = line.split("=", 1)
                section.keys[key.strip().lower()] = _value(text)
    return found
